"""Notes as they are typed: kept in a draft at every pause, and in the journal once they are done."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QPlainTextEdit, QVBoxLayout, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import button, label, row
from faultdoc.record import moves
from faultdoc.record.draft import draft, keep_draft
from faultdoc.words import say

__all__ = ["LONGEST", "Notes"]

PAUSE = 200
"""Milliseconds without a key after which what has been typed is kept."""

LONGEST = 4000
"""Characters of one note, as the model has it."""


class Notes(QWidget):
    """A field for notes on one desk's case."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._uid: str | None = None
        self._kept = ""
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(6)
        self.field = QPlainTextEdit()
        self.field.setAccessibleName(say("Notes, kept as you type"))
        self.field.setPlaceholderText(say("Notes: kept as you type. Ctrl+Enter puts them into the record."))
        self.field.setTabChangesFocus(True)
        self.field.setMinimumHeight(72)
        self.field.setMaximumHeight(96)
        self.state = label("", "faint")
        self.keep = button(
            say("Into the record"), self.take, name=say("Put the notes into the record (Ctrl+Enter)")
        )
        down.addWidget(self.field)
        down.addLayout(row(self.keep, self.state))
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE)
        self._pause.timeout.connect(self.flush)
        self.field.textChanged.connect(self._typed)
        self.field.installEventFilter(self)

    def begin(self, uid: str | None) -> None:
        """Come up for a case, with what was typed for it before.

        Args:
            uid: of the case; None where the case book does not have it, and nothing can be kept.
        """
        typed = self.field.toPlainText()
        self._uid = uid
        if uid is None:
            self.state.setText(say("Not kept until it is in the record."))
            return
        try:
            self._kept = draft(uid)
        except OSError as problem:
            self._desk.tell_problem(say("What was being typed before could not be read."), problem)
        # What was typed before this was known comes behind what was there.
        text = "\n".join(part for part in (self._kept, typed) if part)
        if text != typed:
            self.field.setPlainText(text)
        self.flush()

    def take(self) -> bool:
        """Put what has been typed into the record; return whether there is nothing left outside it."""
        text = self.field.toPlainText().strip()[:LONGEST]
        case = self._desk.case
        if not text or case is None:
            return not text
        if not self._desk.do(say("Note: {what}", what=text), moves.note(case, text)):
            self.flush()
            return False
        self.field.clear()
        self.flush()
        self.state.setText(say("In the record."))
        return True

    def flush(self) -> None:
        """Keep what has been typed, now."""
        self._pause.stop()
        text = self.field.toPlainText()
        if self._uid is None or text == self._kept:
            return
        try:
            keep_draft(self._uid, text)
        except OSError as problem:
            self.state.setText(say("NOT kept: put it into the record."))
            self._desk.tell_problem(say("What is being typed could not be kept."), problem)
            return
        self._kept = text
        self.state.setText(say("Kept.") if text.strip() else "")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take the notes on Ctrl+Enter, and keep them when the field is left."""
        if event.type() is QEvent.Type.FocusOut:
            self.flush()
        if isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
            if enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
                self.take()
                return True
        return super().eventFilter(watched, event)

    def _typed(self) -> None:
        if self.field.toPlainText() != self._kept:
            self.state.setText("...")
            self._pause.start()

"""A field for one reading: title, number, unit, what was understood, errors and doubts, all in place."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from faultdoc.app.style import scaled
from faultdoc.app.widgets.basic import TARGET, Box, button, clear, label, restyle
from faultdoc.model.points import Point
from faultdoc.quantities import System, display_unit
from faultdoc.record.typed import Understood, understand, with_unit
from faultdoc.words import say

__all__ = ["ReadingField"]

PATIENCE = 700
"""Milliseconds without a key before a half-typed number is called wrong."""


class ReadingField(QWidget):
    """One reading.

    Signals:
        edited: the text changed.
        entered: Enter was pressed in the field.
        kept: doubts were answered with 'keep it'; their texts.
    """

    edited = Signal()
    entered = Signal()
    kept = Signal(object)

    def __init__(self, point: Point, system: System, text: str = "", *, help: bool = True) -> None:
        super().__init__()
        self.point, self.system = point, system
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(4)
        down.addWidget(label(point.title, "title"))
        if help:
            down.addWidget(label(f"{point.where}. {point.how}", "faint"))
        across = QHBoxLayout()
        across.setSpacing(8)
        self.line = QLineEdit(text)
        self.line.setMinimumHeight(TARGET)
        self.line.setMaximumWidth(scaled(260))
        self.line.setAccessibleName(
            say(
                "{title}, in {what}",
                title=point.title,
                what=display_unit(point.kind, system) or say("plain numbers"),
            )
        )
        self.line.setAccessibleDescription(f"{point.where}. {point.how}")
        self.line.setInputMethodHints(Qt.InputMethodHint.ImhNoPredictiveText)
        across.addWidget(self.line)
        self.unit = QLabel(display_unit(point.kind, system))
        self.unit.setProperty("voice", "unit")
        across.addWidget(self.unit)
        self.echo = label("", "echo")
        across.addWidget(self.echo, 1)
        down.addLayout(across)
        self.wrong = label("", "wrong")
        self.wrong.hide()
        down.addWidget(self.wrong)
        self.doubt_place = QVBoxLayout()
        down.addLayout(self.doubt_place)
        self._late = QTimer(self)
        self._late.setSingleShot(True)
        self._late.setInterval(PATIENCE)
        self._late.timeout.connect(self.check)
        self.line.textChanged.connect(self._typed)
        self.line.returnPressed.connect(self.entered)
        self._show_echo()

    @property
    def understood(self) -> Understood:
        """What is in the field."""
        return understand(self.line.text(), self.point, self.system)

    def switch(self, system: System) -> None:
        """Show the other unit; a bare number keeps the unit in which it was typed."""
        if system is self.system:
            return
        found = self.understood
        if found.measured is not None and found.measured.text != self.line.text().strip():
            self.line.setText(with_unit(self.line.text(), display_unit(self.point.kind, self.system)))
        self.system = system
        self._show_echo()

    def check(self) -> Understood:
        """Show the error, if there is one, and return what is in the field."""
        found = self.understood
        self.wrong.setText(say("Not understood: {problem}", problem=found.problem) if found.problem else "")
        self.wrong.setVisible(found.problem is not None)
        restyle(self.line, "wrong", found.problem is not None)
        return found

    def say(self, problem: str) -> None:
        """Show an error that the number alone does not tell."""
        self.wrong.setText(problem)
        self.wrong.show()
        restyle(self.line, "wrong", True)

    def doubt(self, texts: Sequence[str], impossible: bool) -> None:
        """Ask about doubts in place: keep the reading, or change it; what is impossible cannot be kept."""
        box = Box(
            "doubt",
            label(say("This cannot be") if impossible else say("Is this right?"), "title"),
            *map(label, texts),
        )
        across = QHBoxLayout()
        if not impossible:
            keep = button(
                say("Keep it"),
                lambda: self.kept.emit(tuple(texts)),
                name=say("Keep it: {title}", title=self.point.title),
            )
            across.addWidget(keep)
        across.addWidget(
            button(say("Change it"), self.change, "main", name=say("Change it: {title}", title=self.point.title))
        )
        across.addStretch(1)
        box.body.addLayout(across)
        self.doubt_place.addWidget(box)

    def forget_doubts(self) -> None:
        """Take the doubts away."""
        clear(self.doubt_place)

    def change(self) -> None:
        """Go back into the field with all of it selected."""
        self.forget_doubts()
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)
        self.line.selectAll()

    def _typed(self) -> None:
        self.forget_doubts()
        self.wrong.hide()
        restyle(self.line, "wrong", False)
        self._show_echo()
        self._late.start()
        self.edited.emit()

    def _show_echo(self) -> None:
        found = self.understood
        self.echo.setText(found.echo or "")
        # The unit beside the field is for a bare number; a typed unit speaks for itself.
        own = found.measured is not None and found.measured.text == self.line.text().strip()
        self.unit.setText("" if own else display_unit(self.point.kind, self.system))

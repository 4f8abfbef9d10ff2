"""The caller: name and telephone number, as the case book has them, and how long the call has lasted."""

from __future__ import annotations

from datetime import UTC, datetime

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import TARGET, button, label
from faultdoc.words import say

__all__ = ["Caller", "clock_words"]

PAUSE = 600
"""Milliseconds without a key after which name and number are kept."""


def clock_words(seconds: float) -> str:
    """Return how long a call has lasted.

    >>> clock_words(65.4), clock_words(3725)
    ('1:05', '1:02:05')
    """
    minutes, rest = divmod(int(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"


class Caller(QWidget):
    """Who calls and for how long; `clock` and `hang` stand wherever they are put.

    Signals `hung_up` with the minutes of the call, and `called_again`.
    """

    hung_up = Signal(float)
    called_again = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._began: datetime | None = None
        self._case_id: int | None = None
        self.clock = label("", "number")
        self.clock.setMinimumWidth(150)
        self.hang = button(say("Hang up"), self._press)
        self.name, self.phone = QLineEdit(), QLineEdit()
        self._pause, self._tick = QTimer(self), QTimer(self)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(6)
        for line, words in ((self.name, say("Caller's name")), (self.phone, say("Caller's telephone number"))):
            line.setMinimumHeight(TARGET)
            line.setMaxLength(200)
            line.setAccessibleName(words)
            line.setPlaceholderText(words)
            line.textEdited.connect(lambda _: self._pause.start())
            line.editingFinished.connect(self.flush)
            down.addWidget(line)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE)
        self._pause.timeout.connect(self.flush)
        self._tick.setInterval(1000)
        self._tick.timeout.connect(self._show)
        self._told = ("", "")

    @property
    def on_line(self) -> bool:
        """Whether there is a call."""
        return self._began is not None

    def begin(self) -> None:
        """Begin a call; read beside the window who calls."""
        self._began = datetime.now(UTC)
        self._tick.start()
        self._show()
        self._case_id = case_id = self._desk.case_id
        if case_id is None:
            return

        def then(found: tuple[str, str]) -> None:
            # Whoever has begun to type has the last word.
            if (self.name.text(), self.phone.text()) == ("", ""):
                self._told = found
                self.name.setText(found[0])
                self.phone.setText(found[1])

        def look() -> tuple[str, str]:
            people = self._desk.book().contacts(case_id)
            return next(((one.name, one.phone) for one in people if one.role == "caller"), ("", ""))

        self._desk.beside(
            look, then, lambda problem: self._desk.tell_problem(say("Who calls could not be read."), problem)
        )

    def end(self) -> float:
        """End the call; return how many minutes it took, 0 where there was none."""
        if self._began is None:
            return 0.0
        took = (datetime.now(UTC) - self._began).total_seconds() / 60.0
        self._began = None
        self._tick.stop()
        self._show()
        return took

    def flush(self) -> None:
        """Keep name and number with the case."""
        self._pause.stop()
        told = self.name.text().strip(), self.phone.text().strip()
        case_id = self._case_id
        if told == self._told or case_id is None:
            return
        self._told = told

        def work() -> None:
            from faultdoc.record.casebook import Contact

            book = self._desk.book()
            rest = [one for one in book.contacts(case_id) if one.role != "caller"]
            known = [Contact(role="caller", name=told[0], phone=told[1])] if any(told) else []
            book.set_contacts(case_id, [*known, *rest])

        self._desk.beside(
            work,
            lambda _: None,
            lambda problem: self._desk.tell_problem(say("Who calls could not be kept."), problem),
        )

    def _press(self) -> None:
        if self.on_line:
            self.hung_up.emit(self.end())
        else:
            self.called_again.emit()
            self.begin()

    def _show(self) -> None:
        if self._began is None:
            self.clock.setText(say("No call"))
        else:
            self.clock.setText(
                say(
                    "Call {clock_words}",
                    clock_words=clock_words((datetime.now(UTC) - self._began).total_seconds()),
                )
            )
        self.hang.setText(say("Hang up") if self.on_line else say("Call again"))
        self.hang.setAccessibleName(
            say("Hang up; its time goes into the record") if self.on_line else say("Call again")
        )

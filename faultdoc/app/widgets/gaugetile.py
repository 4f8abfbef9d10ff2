"""An instrument fitted at a point: its title, its face, and below it the number, for whoever asks."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout

from faultdoc.app.practice.scales import Dial, Meter
from faultdoc.app.style import scaled
from faultdoc.app.widgets.basic import button, label, row
from faultdoc.app.widgets.gauge import DialFace, MeterFace
from faultdoc.quantities import System, show
from faultdoc.words import say

__all__ = ["WIDTH", "GaugeTile"]

WIDTH = 240
"""Least width of a tile in pixels."""


class GaugeTile(QFrame):
    """One instrument. `number_wanted` and `off_wanted` are sent with its point's id."""

    number_wanted = Signal(str)
    off_wanted = Signal(str)

    def __init__(self, point: str, title: str, face: Dial | Meter, system: System) -> None:
        super().__init__()
        self.point, self._kind, self._system = point, face.kind, system
        self.setProperty("role", "card")
        self.setMinimumWidth(scaled(WIDTH))
        down = QVBoxLayout(self)
        down.setContentsMargins(8, 8, 8, 8)
        down.setSpacing(6)
        self.title = label(title, "result")
        self.title.setAlignment(Qt.AlignmentFlag.AlignCenter)
        # Room for two lines: gauges side by side stand at one height.
        self.title.setMinimumHeight(2 * self.title.fontMetrics().lineSpacing() + 4)
        down.addWidget(self.title)
        self.face: DialFace | MeterFace = (
            DialFace(title, face) if isinstance(face, Dial) else MeterFace(title, face)
        )
        down.addWidget(self.face)
        self.word = label("", "faint")
        self.word.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        down.addWidget(self.word)
        down.addStretch(1)
        self.number = button(
            say("Number"), lambda: self.number_wanted.emit(point), name=say("Number: {title}", title=title)
        )
        if not isinstance(face, Dial):
            self.number.hide()  # a display says its number by itself
        self.off = button(
            say("Take off"), lambda: self.off_wanted.emit(point), name=say("Take off: {title}", title=title)
        )
        down.addLayout(row(self.number, self.off, spacing=8))

    def put(self, value: float | None, *, live: bool, told: bool) -> None:
        """Show an SI value, and its number in words when it has been told."""
        self.face.put(value, live=live)
        words = "" if live else say("Nothing to read here now; this was last.")
        if told and value is not None:
            number = show(value, self._kind, self._system)
            words = (
                say("It is {number}.", number=number)
                if live
                else say("It was {number}. Nothing to read here now.", number=number)
            )
        self.word.setText(words)
        self.word.setVisible(bool(words))

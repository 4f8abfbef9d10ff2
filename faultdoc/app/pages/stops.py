"""Stop: what to walk away from at once, and whom to call. Reached from everywhere."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPlainTextEdit

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import Box, button, buttons, label
from faultdoc.app.widgets.caution import CautionCard
from faultdoc.app.widgets.page import Page
from faultdoc.model.safety import Caution
from faultdoc.model.safety import Signal as Word

__all__ = ["StopsPage"]

BASIC = Caution(
    signal=Word.DANGER,
    text="Smoke, arcing, a burnt smell, water on live gear, or refrigerant hissing out: "
    "get everyone away and up-wind, touch nothing, call for help.",
)
"""Shown while the plant file is not there to be asked: it is being read, or cannot be."""


class StopsPage(Page):
    """The stops of the plant file, and the emergency numbers of the site."""

    back = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk

    def fill(self) -> None:
        """Show the stops and the numbers."""
        self.empty()
        self.body.addWidget(label("Stop work and get clear if you meet any of these", "headline"))
        shelf = self._desk.shelf
        for caution in shelf.library.plant.stops if shelf else (BASIC,):
            self.body.addWidget(CautionCard(caution))
        self.body.addWidget(label("Call", "headline"))
        numbers = self._desk.settings.emergency_numbers
        if numbers:
            self.body.addWidget(Box("card", *(label(number, "number") for number in numbers)))
        else:
            self.body.addWidget(
                Box("doubt", label("No emergency numbers are written down here yet. Write the site's below."))
            )
        self.ok = button("Back", self.back.emit, "main")
        self.body.addWidget(buttons(self.ok))
        self.body.addSpacing(10)
        self.body.addWidget(label("Your emergency numbers, one a line", "title"))
        self.numbers = QPlainTextEdit("\n".join(numbers))
        self.numbers.setAccessibleName("Your emergency numbers, one a line")
        self.numbers.setPlaceholderText("Site emergency: ...\nFire and ambulance: ...")
        self.numbers.setTabChangesFocus(True)
        self.numbers.setFixedHeight(120)
        self.body.addWidget(self.numbers)
        self.keep = button("Keep these numbers", self._keep)
        self.body.addWidget(buttons(self.keep))
        self.to_top()
        self.ok.setFocus()

    def _keep(self) -> None:
        lines = (line.strip()[:200] for line in self.numbers.toPlainText().splitlines())
        self._desk.office.keep_numbers(tuple(line for line in lines if line))
        self.fill()

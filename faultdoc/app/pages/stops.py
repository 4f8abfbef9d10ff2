"""Stop: what to walk away from at once, and whom to call. Reached from everywhere."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPlainTextEdit, QPushButton

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import Box, button, buttons, label
from faultdoc.app.widgets.caution import CautionCard
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.model.safety import Caution
from faultdoc.model.safety import Signal as Word
from faultdoc.words import say

__all__ = ["StopsPage"]

BASIC = Caution(
    signal=Word.DANGER,
    text=say(
        "Smoke, arcing, a burnt smell, water on live gear, or refrigerant hissing "
        "out: get everyone away and up-wind, touch nothing, call for help."
    ),
)
"""Shown while the plant file is not there to be asked: it is being read, or cannot be."""


class StopsPage(Page):
    """The stops of the plant file, and the emergency numbers of the site.

    On the phone each stop ends the call: `told` carries it, once its words have been read aloud.
    """

    back = Signal()
    told = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk

    def fill(self, calling: bool = False) -> None:
        """Show the stops and the numbers.

        Args:
            calling: whether a caller is on the phone who has told of one of them.
        """
        self._calling = calling
        self.empty()
        self.told_of: list[QPushButton] = []
        if calling:
            self._offer()
            return
        self.body.addWidget(label(say("Stop work and get clear if you meet any of these"), "headline"))
        shelf = self._desk.shelf
        for caution in shelf.library.plant.stops if shelf else (BASIC,):
            self.body.addWidget(CautionCard(caution))
        self.body.addWidget(label(say("Call"), "headline"))
        numbers = self._desk.settings.emergency_numbers
        if numbers:
            self.body.addWidget(Box("card", *(label(number, "number") for number in numbers)))
        else:
            self.body.addWidget(
                Box("doubt", label(say("No emergency numbers are written down here yet. Write the site's below.")))
            )
        self.ok = button(say("Back"), self.back.emit, "main")
        self.body.addWidget(buttons(self.ok))
        self.body.addSpacing(10)
        self.body.addWidget(label(say("Your emergency numbers, one a line"), "title"))
        self.numbers = QPlainTextEdit("\n".join(numbers))
        self.numbers.setAccessibleName(say("Your emergency numbers, one a line"))
        self.numbers.setPlaceholderText(say("Site emergency: ...\nFire and ambulance: ..."))
        self.numbers.setTabChangesFocus(True)
        self.numbers.setFixedHeight(120)
        self.body.addWidget(self.numbers)
        self.keep = button(say("Keep these numbers"), self._keep)
        self.body.addWidget(buttons(self.keep))
        self.to_top()
        self.ok.setFocus()

    def _offer(self) -> None:
        """Show the stops as what a caller may have told of."""
        shelf = self._desk.shelf
        self.body.addWidget(label(say("What has the caller told of?"), "headline"))
        self.body.addWidget(
            label(say("Choose it, and read the words aloud that follow. In doubt take the first."), "faint")
        )
        for caution in shelf.library.plant.stops if shelf else (BASIC,):
            made = ChoiceButton(caution.text.partition(": ")[0], on_click=partial(self._read_aloud, caution))
            self.told_of.append(made)
            self.body.addWidget(made)
        self.ok = button(say("Nothing of it: back to the call"), self.back.emit)
        self.body.addWidget(buttons(self.ok))
        self.to_top()
        self.told_of[0].setFocus()

    def _read_aloud(self, caution: Caution) -> None:
        """Show the words that end the call."""
        # Here, so that the page itself is there at once.
        from faultdoc.record.phone import stop_aloud

        self.empty()
        self.body.addWidget(CautionCard(caution))
        lines = stop_aloud(caution.text, self._desk.settings.emergency_numbers)
        self.body.addWidget(
            Box("aloud", label(say("READ ALOUD"), "kind"), *(label(one, "aloud") for one in lines))
        )
        self.end = button(say("Said: end the call"), partial(self.told.emit, caution), "danger")
        self.other = button(say("It was something else"), partial(self.fill, True))
        self.body.addWidget(buttons(self.end, self.other))
        self.to_top()
        self.end.setFocus()

    def _keep(self) -> None:
        lines = (line.strip()[:200] for line in self.numbers.toPlainText().splitlines())
        self._desk.office.keep_numbers(tuple(line for line in lines if line))
        self.fill()

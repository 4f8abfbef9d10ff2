"""The acknowledgement without which the answer area stays shut."""

from __future__ import annotations

from PySide6.QtCore import Signal

from faultdoc.app.widgets.basic import Box, label
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.words import say

__all__ = ["Acknowledge"]


class Acknowledge(Box):
    """A tick box with what is acknowledged; `given` tells whether it is ticked."""

    given = Signal(bool)

    def __init__(self, sentence: str, state: tuple[str, ...]) -> None:
        super().__init__("acknowledge")
        words = say("The plant is: ") + "; ".join(state).lower() + "." if state else ""
        self.tick = ChoiceButton(sentence, words, sign="check", role="acknowledge")
        self.body.addWidget(self.tick)
        self.hint = label(say("Tick this first: the answers below open then."), "faint")
        self.body.addWidget(self.hint)
        self.tick.toggled.connect(self._toggled)

    def _toggled(self, on: bool) -> None:
        self.hint.setVisible(not on)
        self.given.emit(on)

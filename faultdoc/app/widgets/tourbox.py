"""A first case, led by the hand: what the people of the story find at each step, and a button that does it."""

from __future__ import annotations

from contextlib import suppress

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import Box, button, buttons, label
from faultdoc.diagnosis.assess import Step
from faultdoc.terminal.demo import DemoError, Script, Turn, turn_of
from faultdoc.words import say

__all__ = ["TourBox"]

_WHY = {
    "question": say("FaultDoc asks what tells most for the minutes it takes. In this story they find:"),
    "state_change": say("The next step needs the plant in another state, and never comes before it is."),
    "remedy": say("Now mending is worth more than asking. In this story they do it."),
    "proof": say("Nothing counts as mended until it is proved by running. In this story:"),
}


class TourBox(Box):
    """What stands above the step while the first case is led; `do` takes the step as in the story."""

    def __init__(self, desk: Desk, step: Step, script: Script) -> None:
        super().__init__("note", label(say("A FIRST CASE"), "kind"))
        self._desk = desk
        assert desk.assessment is not None
        self._turn: Turn | None = None
        with suppress(DemoError):  # told below
            self._turn = turn_of(desk.assessment, step, script)
        if self._turn is None:
            words = (
                say(
                    "That was it: cause, fix, proof and restart, all written down. Close the case for its report, "
                    "or begin one of your own."
                )
                if step.kind == "done"
                else say("The story ends here. Undo, or begin a case of your own.")
            )
            self.body.addWidget(label(words))
            return
        self.body.addWidget(label(_WHY[step.kind]))
        for line in self._turn.told if step.kind != "state_change" else ():
            self.body.addWidget(label(line, "result"))
        self.go = button(say("Do it as in the story"), self.do, "main")
        self.leave = button(say("I will do it myself"), self._leave)
        self.body.addWidget(buttons(self.go, self.leave))
        self._first = label(
            say("Read the cautions and tick that you have: in the story nobody passes them over either.")
        )
        self._first.hide()
        self.body.addWidget(self._first)

    def wait_for_cautions(self, on: bool) -> None:
        """Keep the step from being taken before its cautions are acknowledged, as anywhere."""
        if self._turn is not None:
            self.go.setEnabled(not on)
            self._first.setVisible(on)

    def do(self) -> None:
        """Take the step as in the story."""
        if self._turn is not None:
            what = "; ".join(words for words, _ in self._turn.moves)
            self._desk.do(what, self._turn.moves[-1][1])

    def _leave(self) -> None:
        self._desk.tour = None
        self._desk.changed.emit()

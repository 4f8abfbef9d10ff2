"""The briefing: the call as a dispatcher gives it, who the trainee is, and how the plant is found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal

from faultdoc.app.widgets.basic import Box, button, buttons, facts, label
from faultdoc.app.widgets.page import Page
from faultdoc.record.words import PEOPLE, minutes, state_in_words
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.practice.scenario import Scenario

__all__ = ["BriefPage"]

GO, GOING = say("Go to the unit"), say("Going there ...")


class BriefPage(Page):
    """Signals `go` and `back`."""

    go = Signal()
    back = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.scenario: Scenario | None = None

    def fill(self, scenario: Scenario, unit: str) -> None:
        """Show a scenario's briefing.

        Args:
            scenario: to brief on.
            unit: its title.
        """
        self.scenario = scenario
        self.empty()
        self.body.addWidget(label(say("PRACTICE, SIMULATED UNIT: THE CALL"), "kind"))
        self.body.addWidget(label(scenario.title, "headline"))
        self.body.addWidget(Box("card", label(scenario.briefing, "result")))
        self.start = button(GO, self._go, "main")
        self.away = button(say("Back to the list"), self.back.emit)
        self.body.addWidget(buttons(self.start, self.away))
        people = [PEOPLE[one][0] for one in scenario.who]
        found = "\n".join(f"{title}: {value.lower()}" for title, value in state_in_words(scenario.state))
        self.body.addWidget(
            facts(
                (say("Unit"), unit),
                (say("You are"), "; ".join(people)),
                (say("Found"), found),
                (say("Par"), minutes(scenario.minutes)),
            )
        )
        self.body.addWidget(
            label(
                say(
                    "The clock runs from when you are there: what you do takes its time, and so "
                    "does thinking. Pause it when you want to read. Nothing here is real, but "
                    "what would be unsafe is refused, explained and counted."
                ),
                "faint",
            )
        )
        self.start.setFocus()
        self.to_top()

    def _go(self) -> None:
        self.start.setText(GOING)
        self.go.emit()

    def stay(self) -> None:
        """Be ready to go once more; it did not come to it."""
        if self.scenario is not None:
            self.start.setText(GO)

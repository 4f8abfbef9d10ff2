"""How the plant stands, what can be changed from here, and who is there."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal

from faultdoc.app.desk import Desk
from faultdoc.app.side.panel import Panel
from faultdoc.app.widgets.basic import Box, button, buttons, facts, label
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.diagnosis.assess import change_minutes
from faultdoc.model.safety import satisfies
from faultdoc.record.steps import Pick, refusal
from faultdoc.record.waits import waits
from faultdoc.record.words import PEOPLE, minutes, state_in_words
from faultdoc.words import say

__all__ = ["PlantPanel"]


class PlantPanel(Panel):
    """The plant."""

    title = say("Plant")
    correct_wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.changes: dict[str, ChoiceButton] = {}

    def draw(self) -> None:
        """Fill the panel."""
        assessment = self.desk.assessment
        assert assessment is not None
        case = assessment.case
        self.changes = {}
        self.body.addWidget(label(say("The plant now"), "title"))
        self.body.addWidget(facts(*state_in_words(case.state), left=150))
        closed = case.conclusion is not None
        found = waits(assessment.bench.sheet, case.readings, case.state)
        if found:
            self.body.addWidget(label(say("Before a compressor may start"), "title"))
            for wait in found:
                box = Box("card", label(wait.title), label(wait.words, "good" if wait.over else "title"))
                if wait.resets:
                    box.body.addWidget(label(wait.resets, "faint"))
                self.body.addWidget(box)
            self.body.addWidget(label(say("As it stood when the readings were taken."), "faint"))
        if not closed:
            self.body.addWidget(buttons(button(say("It is not so: correct it"), self.correct_wanted.emit)))
        self.body.addWidget(label(say("Who is there"), "title"))
        self.body.addWidget(label("; ".join(PEOPLE[one][0] for one in case.who)))
        if closed:
            return
        self.body.addWidget(buttons(button(say("Others are there: correct it"), self.correct_wanted.emit)))
        self.body.addWidget(label(say("I changed it, or am about to"), "title"))
        for change in assessment.bench.library.plant.changes:
            if not satisfies(case.state, change.when):
                continue
            pick = Pick("change", change.id)
            why_not = refusal(assessment, pick)
            time = change_minutes(assessment.bench, case, change)
            words = why_not or say(
                "About {minutes}, for: {lower}", minutes=minutes(time), lower=PEOPLE[change.who][0].lower()
            )
            made = ChoiceButton(change.title, words, on_click=partial(self.desk.choose, pick))
            made.setEnabled(why_not is None)
            self.changes[change.id] = made
            self.body.addWidget(made)

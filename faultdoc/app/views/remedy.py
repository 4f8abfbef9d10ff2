"""A remedy: steps, parts, tools, and 'done', after which its proof is taken."""

from __future__ import annotations

from faultdoc.app.desk import Desk
from faultdoc.app.views.base import Memory, StepView
from faultdoc.app.widgets.basic import Box, button, buttons, facts, label, numbered
from faultdoc.diagnosis.assess import Step
from faultdoc.record import moves
from faultdoc.record.words import minutes
from faultdoc.words import say

__all__ = ["RemedyView"]


class RemedyView(StepView):
    """A remedy."""

    def __init__(self, desk: Desk, step: Step, memory: Memory) -> None:
        super().__init__(desk, step, memory)
        self.cause = self.assessment.bench.problem.causes[step.id]
        remedy = self.cause.remedy
        self.information.addWidget(
            facts((say("Cause"), self.cause.title), (say("How it acts"), self.cause.mechanism))
        )
        self.information.addWidget(numbered(remedy.steps))
        self.information.addWidget(
            facts(
                (say("Parts"), ", ".join(remedy.parts) or say("None")),
                (say("Tools"), ", ".join(remedy.tools) or say("None")),
                (
                    say("Time"),
                    say(
                        "{minutes}, and {minutes_2} for the proof",
                        minutes=minutes(remedy.minutes),
                        minutes_2=minutes(remedy.proof.minutes),
                    ),
                ),
                (say("Proof"), remedy.proof.text),
            )
        )
        if remedy.licence:
            self.information.addWidget(Box("doubt", label(say("Licence"), "title"), label(remedy.licence)))
        self.done = button(say("Done: go on to its proof"), self._done, "main")
        self.answer_body.addWidget(buttons(self.done))
        self.choices.append(self._done)

    def _done(self) -> None:
        remedy = self.cause.remedy
        after = moves.went(moves.repaired(self.assessment.case, self.cause.id), remedy)
        self.desk.do(say("Remedy carried out: {title}", title=remedy.title), after)

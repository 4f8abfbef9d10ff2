"""A change of the plant's state: its steps, and 'done'."""

from __future__ import annotations

from faultdoc.app.desk import Desk
from faultdoc.app.views.base import Memory, StepView
from faultdoc.app.widgets.basic import Box, button, buttons, label, numbered
from faultdoc.diagnosis.assess import Step
from faultdoc.record import moves
from faultdoc.record.steps import change_of
from faultdoc.record.words import need_in_words
from faultdoc.words import say

__all__ = ["ChangeView"]


class ChangeView(StepView):
    """A change of state."""

    def __init__(self, desk: Desk, step: Step, memory: Memory) -> None:
        super().__init__(desk, step, memory)
        self.change = change_of(self.assessment, step.id)
        self.information.addWidget(numbered(self.change.steps))
        if self.change.resets:
            self.information.addWidget(
                Box("doubt", label(say("This costs time: {resets}", resets=self.change.resets)))
            )
        after = "; ".join(need_in_words(self.change.sets))
        self.answer_body.addWidget(label(say("After it: {after}.", after=after)))
        self.done = button(say("I have done this"), self._done, "main")
        self.answer_body.addWidget(buttons(self.done))
        self.choices.append(self._done)

    def _done(self) -> None:
        self.desk.do(
            say("Done: {title}", title=self.change.title), moves.change_state(self.assessment.case, self.change)
        )

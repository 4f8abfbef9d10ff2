"""The step on the phone: what to read aloud, what to say if the caller hesitates, the answers, then the how."""

from __future__ import annotations

from PySide6.QtCore import Signal

from faultdoc.app.desk import Desk
from faultdoc.app.pages.step import StepPage
from faultdoc.app.views.base import StepView
from faultdoc.app.views.question import QuestionView
from faultdoc.app.widgets.basic import Box, button, buttons, label
from faultdoc.diagnosis.assess import Assessment, Step
from faultdoc.record.phone import hesitates, stop_aloud
from faultdoc.words import say

__all__ = ["PhoneStep"]


class PhoneStep(StepPage):
    """The step that is shown, in the words for a caller. Signals `ended` with the danger that ends the call."""

    ended = Signal(str)
    acknowledging = say("I have read this aloud, and the caller says that all are clear of it.")

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.setAccessibleName(say("What to say now"))
        self.margins = (6, 6, 6, 10)
        self.body.setSpacing(8)

    def _heading(self, step: Step, kind: str) -> str:
        return super()._heading(step, kind).partition("   ·   for:")[0]

    def _last_move(self) -> None:
        """Leave the top to what is said now; the last move is told below."""

    def _add_way_back(self) -> None:
        back = button(say("Back to the question proposed"), lambda: self._desk.choose(None), "quiet")
        self.body.addWidget(buttons(back))

    def _say(self, assessment: Assessment, step: Step) -> None:
        question = assessment.bench.problem.questions.get(step.id) if step.kind == "question" else None
        if step.stops:
            lines = stop_aloud(step.text, self._desk.settings.emergency_numbers)
            self.body.addWidget(
                Box("aloud", label(say("READ ALOUD"), "kind"), *(label(one, "aloud") for one in lines))
            )
            end = button(say("Said: end the call"), lambda: self.ended.emit(step.text), "danger")
            self.body.addWidget(buttons(end))
            return
        if question is None:
            self.body.addWidget(Box("aloud", label(say("TELL THE CALLER"), "kind"), label(step.text, "aloud")))
            if step.toward:
                self.body.addWidget(label(say("On the way to {toward}", toward=step.toward), "faint"))
            return
        help_ = label(say("If the caller hesitates: {hesitates}", hesitates=hesitates(question)), "faint")
        self.body.addWidget(
            Box("aloud", label(say("READ ALOUD"), "kind"), label(question.ask.caller, "aloud"), help_)
        )

    def _inform(self, view: StepView) -> None:
        if not isinstance(view, QuestionView):
            super()._inform(view)
            return
        view.could_not.setText(say("Will not, or cannot"))
        view.could_not.setAccessibleName(say("The caller will not or cannot (Ctrl+M)"))
        view.not_sure.setText(say("Does not know"))
        view.not_sure.setAccessibleName(say("The caller does not know (Ctrl+K)"))
        view.later.setText(say("Ask later"))
        view.later.setAccessibleName(say("Ask later (Ctrl+L)"))

    def _add_below(self, view: StepView) -> None:
        super()._last_move()
        if isinstance(view, QuestionView):
            self.body.addWidget(label(say("For you: how it is done at the unit"), "kind"))
            self.body.addLayout(view.information)

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

__all__ = ["PhoneStep"]


class PhoneStep(StepPage):
    """The step that is shown, in the words for a caller. Signals `ended` with the danger that ends the call."""

    ended = Signal(str)
    acknowledging = "I have read this aloud, and the caller says that all are clear of it."

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.setAccessibleName("What to say now")
        self.margins = (6, 6, 6, 10)
        self.body.setSpacing(8)

    def _heading(self, step: Step, kind: str) -> str:
        return super()._heading(step, kind).partition("   ·   for:")[0]

    def _last_move(self) -> None:
        """Leave the top to what is said now; the last move is told below."""

    def _add_way_back(self) -> None:
        back = button("Back to the question proposed", lambda: self._desk.choose(None), "quiet")
        self.body.addWidget(buttons(back))

    def _say(self, assessment: Assessment, step: Step) -> None:
        question = assessment.bench.problem.questions.get(step.id) if step.kind == "question" else None
        if step.stops:
            lines = stop_aloud(step.text, self._desk.settings.emergency_numbers)
            self.body.addWidget(Box("aloud", label("READ ALOUD", "kind"), *(label(one, "aloud") for one in lines)))
            end = button("Said: end the call", lambda: self.ended.emit(step.text), "danger")
            self.body.addWidget(buttons(end))
            return
        if question is None:
            self.body.addWidget(Box("aloud", label("TELL THE CALLER", "kind"), label(step.text, "aloud")))
            if step.toward:
                self.body.addWidget(label(f"On the way to {step.toward}", "faint"))
            return
        help_ = label(f"If the caller hesitates: {hesitates(question)}", "faint")
        self.body.addWidget(Box("aloud", label("READ ALOUD", "kind"), label(question.ask.caller, "aloud"), help_))

    def _inform(self, view: StepView) -> None:
        if not isinstance(view, QuestionView):
            super()._inform(view)
            return
        view.could_not.setText("Will not, or cannot")
        view.could_not.setAccessibleName("The caller will not or cannot (Ctrl+M)")
        view.not_sure.setText("Does not know")
        view.not_sure.setAccessibleName("The caller does not know (Ctrl+K)")
        view.later.setText("Ask later")
        view.later.setAccessibleName("Ask later (Ctrl+L)")

    def _add_below(self, view: StepView) -> None:
        super()._last_move()
        if isinstance(view, QuestionView):
            self.body.addWidget(label("For you: how it is done at the unit", "kind"))
            self.body.addLayout(view.information)

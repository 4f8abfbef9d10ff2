"""Nothing left to do: close the case; or, when it is closed, its report."""

from __future__ import annotations

from PySide6.QtCore import Signal

from faultdoc.app.desk import Desk
from faultdoc.app.views.base import Memory, StepView
from faultdoc.app.widgets.basic import button, buttons, facts
from faultdoc.diagnosis.assess import Step
from faultdoc.record import moves
from faultdoc.record.words import OUTCOMES
from faultdoc.words import say

__all__ = ["DoneView"]


class DoneView(StepView):
    """Proved and back in service, or closed."""

    close_wanted = Signal(str)
    report_wanted = Signal()
    new_wanted = Signal()

    def __init__(self, desk: Desk, step: Step, memory: Memory) -> None:
        super().__init__(desk, step, memory)
        case, causes = self.assessment.case, self.assessment.bench.problem.causes
        if case.conclusion is None:
            last = case.tried[-1] if case.tried else None
            if last is not None and last.cause in causes:
                cause = causes[last.cause]
                self.information.addWidget(
                    facts(
                        (say("Cause"), cause.title), (say("Remedy"), cause.remedy.title), (say("Proof"), last.note)
                    )
                )
            self.close_case = button(say("Close the case"), lambda: self.close_wanted.emit("fixed"), "main")
            self.answer_body.addWidget(buttons(self.close_case))
            return
        conclusion = case.conclusion
        title, meaning = OUTCOMES[conclusion.outcome]
        cause_title = causes[conclusion.cause].title if conclusion.cause and conclusion.cause in causes else None
        self.information.addWidget(
            facts(
                (title, meaning),
                (say("Cause"), cause_title),
                (say("Proof"), conclusion.proof),
                (say("Note"), conclusion.note),
            )
        )
        self.report = button(say("Report"), self.report_wanted.emit, "main")
        self.new = button(say("New case"), self.new_wanted.emit)
        self.again = button(say("Open it again"), self._reopen)
        self.answer_body.addWidget(buttons(self.report, self.new, self.again))

    def _reopen(self) -> None:
        self.desk.do(say("Case opened again"), moves.reopen(self.assessment.case))

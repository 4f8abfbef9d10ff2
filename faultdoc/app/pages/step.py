"""The step now: what was done last, cautions above everything that is answered, and the view of the step."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal

from faultdoc.app.desk import Desk
from faultdoc.app.views.base import Memory, StepView
from faultdoc.app.views.change import ChangeView
from faultdoc.app.views.correct import CorrectView
from faultdoc.app.views.done import DoneView
from faultdoc.app.views.handover import HandOverView
from faultdoc.app.views.proof import ProofView
from faultdoc.app.views.question import QuestionView
from faultdoc.app.views.remedy import RemedyView
from faultdoc.app.widgets.acknowledge import Acknowledge
from faultdoc.app.widgets.basic import Box, button, buttons, label
from faultdoc.app.widgets.caution import CautionCard
from faultdoc.app.widgets.page import Page
from faultdoc.diagnosis.assess import Assessment, Step
from faultdoc.model.safety import Qualification, StateNeed
from faultdoc.quantities import System
from faultdoc.record.steps import needs_acknowledgement
from faultdoc.record.words import PEOPLE, minutes, need_in_words, worst_first
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.app.widgets.tourbox import TourBox

__all__ = ["StepPage"]

VIEWS: dict[str, Callable[[Desk, Step, Memory], StepView]] = {
    "question": QuestionView,
    "state_change": ChangeView,
    "remedy": RemedyView,
    "proof": ProofView,
    "hand_over": HandOverView,
    "done": DoneView,
    "correct": CorrectView,
}

KINDS = {
    "question": say("QUESTION"),
    "state_change": say("CHANGE THE PLANT"),
    "remedy": say("REMEDY"),
    "proof": say("PROOF"),
    "hand_over": say("HAND OVER"),
    "done": say("DONE"),
    "correct": say("CORRECT THE RECORD"),
}


class StepPage(Page):
    """The step that is shown, rebuilt whenever the case or the choice of step changes."""

    people_wanted = Signal()
    close_wanted = Signal(str)
    kit_wanted = Signal()
    send_wanted = Signal()
    other_wanted = Signal()
    report_wanted = Signal()
    picture_wanted = Signal()
    new_wanted = Signal()
    arithmetic_wanted = Signal()

    acknowledging = say("I have read this and everyone here is clear and protected.")

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._key: object = None
        self._looks: tuple[System, str, int, bool] | None = None
        self.tour: TourBox | None = None
        self._memory = Memory()
        self.view: StepView | None = None
        self.acknowledge: Acknowledge | None = None
        self.setAccessibleName(say("The step now"))

    def refresh(self) -> None:
        """Show the step as it is now."""
        assessment = self._desk.assessment
        if assessment is None:
            return
        step, correcting = self._step(assessment)
        key = (correcting, step.kind, step.id, assessment.case)
        same = key == self._key
        if same and self.view is not None and self._looks == self._looks_now:
            return
        if not same:
            self._memory = Memory()
            self._key = key
        elif self.view is not None:
            # A bare number half typed keeps the unit in which it was typed.
            self.view.switch()
        self._looks = self._looks_now
        self._build(assessment, step, correcting)
        if not same:
            self.to_top()

    @property
    def _looks_now(self) -> tuple[System, str, int, bool]:
        """What the step must be drawn anew for, though nothing was answered: units, theme, letters, tour."""
        settings = self._desk.office.settings
        return settings.system, settings.theme, settings.text_size, self._desk.tour is not None

    def forget(self) -> None:
        """Be empty again."""
        self._key, self.view, self.acknowledge = None, None, None
        self.empty()

    def number(self, key: int) -> bool:
        """Do what a number key stands for on this step."""
        return self.view is not None and self.view.number(key)

    def focus_first(self) -> None:
        """Put the focus on the first thing to be done here."""
        if self.acknowledge is not None and not self.acknowledge.tick.isChecked():
            self.acknowledge.tick.setFocus()
        elif self.view is not None:
            self.view.focus_first()

    def _step(self, assessment: Assessment) -> tuple[Step, bool]:
        pick = self._desk.pick
        if pick is None or pick.kind != "correct":
            return self._desk.step, False
        question = assessment.bench.problem.questions.get(pick.id)
        text = question.ask.tech if question else assessment.bench.library.points[pick.id].title
        return Step("question", pick.id, text, 0.0, StateNeed(), Qualification.CALLER), True

    def _build(self, assessment: Assessment, step: Step, correcting: bool) -> None:
        self.empty()
        self._last_move()
        if self._desk.pick is not None and not correcting:
            self._add_way_back()
        self.tour = None
        if self._desk.tour is not None and self._desk.pick is None:
            from faultdoc.app.widgets.tourbox import TourBox

            self.tour = TourBox(self._desk, step, self._desk.tour)
            self.body.addWidget(self.tour)
        kind = "correct" if correcting else step.kind
        self.body.addWidget(label(self._heading(step, kind), "kind"))
        self._say(assessment, step)
        for caution in worst_first(step.cautions):
            self.body.addWidget(CautionCard(caution))
        view = VIEWS[kind](self._desk, step, self._memory)
        self.view = view
        self._connect(view)
        self._inform(view)
        self.acknowledge = None
        if not correcting and needs_acknowledgement(assessment, step):
            self.acknowledge = Acknowledge(self.acknowledging, need_in_words(step.state))
            self.acknowledge.tick.setChecked(self._memory.acknowledged)
            self.acknowledge.given.connect(self._acknowledged)
            self.body.addWidget(self.acknowledge)
            view.answers.setEnabled(self._memory.acknowledged)
            if self.tour is not None:
                self.tour.wait_for_cautions(not self._memory.acknowledged)
        elif words := need_in_words(step.state):
            self.body.addWidget(
                label(say("The plant must be, and is: {lower}.", lower="; ".join(words).lower()), "faint")
            )
        self.body.addWidget(view.answers)
        self._add_below(view)

    def _add_way_back(self) -> None:
        """Say that this was chosen instead of the proposal, with the way back to it."""
        back = button(say("Back to the step proposed"), lambda: self._desk.choose(None))
        box = Box("note", label(say("You chose this instead of the step proposed.")))
        box.body.addWidget(buttons(back))
        self.body.addWidget(box)

    def _say(self, assessment: Assessment, step: Step) -> None:
        """Show what the step is."""
        self.body.addWidget(label(step.text, "headline"))
        if step.toward:
            self.body.addWidget(label(say("On the way to {toward}", toward=step.toward), "faint"))

    def _inform(self, view: StepView) -> None:
        """Show what must be known before it is answered."""
        self.body.addLayout(view.information)

    def _add_below(self, view: StepView) -> None:
        """Add what comes below the answers; nothing here."""

    def _heading(self, step: Step, kind: str) -> str:
        parts = [say("STOP") if step.stops else KINDS[kind]]
        if step.minutes > 0.0:
            parts.append(say("about {minutes}", minutes=minutes(step.minutes)))
        if kind not in ("correct", "done", "hand_over"):
            parts.append(say("for: {lower}", lower=PEOPLE[step.who][0].lower()))
        return "   ·   ".join(parts)

    def _last_move(self) -> None:
        last = self._desk.last
        if last is None:
            return
        box = Box("note", label(last.what, "faint"))
        for result in last.checks:
            box.body.addWidget(label(result.sentence(self._desk.system), "result"))
        if last.checks:
            box.body.addWidget(buttons(button(say("Show the arithmetic"), self.arithmetic_wanted.emit)))
        self.body.addWidget(box)

    def _acknowledged(self, on: bool) -> None:
        self._memory.acknowledged = on
        assert self.view is not None
        self.view.answers.setEnabled(on)
        if self.tour is not None:
            self.tour.wait_for_cautions(not on)
        if on:
            self.view.focus_first()

    def _connect(self, view: StepView) -> None:
        if isinstance(view, HandOverView):
            view.people_wanted.connect(self.people_wanted)
            view.close_wanted.connect(self.close_wanted)
            view.kit_wanted.connect(self.kit_wanted)
            view.send_wanted.connect(self.send_wanted)
            view.other_wanted.connect(self.other_wanted)
        elif isinstance(view, QuestionView):
            view.picture_wanted.connect(self.picture_wanted)
        elif isinstance(view, DoneView):
            view.close_wanted.connect(self.close_wanted)
            view.report_wanted.connect(self.report_wanted)
            view.new_wanted.connect(self.new_wanted)

"""Mending what was written down: an answer given, or a reading taken."""

from __future__ import annotations

from collections.abc import Mapping

from faultdoc.app.desk import Desk
from faultdoc.app.views.base import Memory, StepView
from faultdoc.app.views.question import reading_words
from faultdoc.app.widgets.basic import Box, button, buttons, facts, label
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.readings import Readings
from faultdoc.diagnosis.assess import Step, choice_point
from faultdoc.model.base import Measured
from faultdoc.quantities import Kind
from faultdoc.record import moves
from faultdoc.record.words import NON_ANSWER_WORDS
from faultdoc.words import say

__all__ = ["CorrectView"]


class CorrectView(StepView):
    """One answer or one reading, to be changed or cleared; asks for no work on the unit."""

    def __init__(self, desk: Desk, step: Step, memory: Memory) -> None:
        super().__init__(desk, step, memory)
        bench, case = self.assessment.bench, self.assessment.case
        question = bench.problem.questions.get(step.id)
        self.information.addWidget(
            Box("note", label(say("This changes the record only. Write down what has been seen or read already.")))
        )
        self.point = step.id if question is None else choice_point(question, bench)
        self.question = question
        if question is not None:
            now = case.answers.get(question.id) or str(case.readings.get(self.point or "", ""))
            options = [(one.id, one.title) for one in question.outcomes]
            options += list(NON_ANSWER_WORDS.items())
        else:
            point = bench.library.points[step.id]
            self.information.addWidget(
                facts(
                    (say("Where"), point.where),
                    (say("How"), point.how),
                    (say("With"), point.instrument),
                    (say("Watch for"), point.wrong_readings),
                )
            )
            now = str(case.readings.get(step.id, ""))
            options = [(one.id, one.title) for one in point.choices]
            if point.kind is not Kind.CHOICE:
                self.readings = Readings(
                    [step.id],
                    bench.library.points,
                    bench.sheet,
                    case,
                    desk.system,
                    drafts=memory.drafts,
                    help=False,
                )
                self.readings.taken.connect(self._take)
                self.answer_body.addWidget(self.readings)
        for place, (id, title) in enumerate(options, start=1):

            def choose(id: str = id, title: str = title) -> None:
                self._choose(id, title)

            words = say("As it is written down now") if id == now else ""
            made = ChoiceButton(title, words, sign=place if place <= 9 else "none", on_click=choose)
            self.answer_body.addWidget(made)
            self.choices.append(choose)
        self.leave = button(say("Leave it as it is"), lambda: desk.choose(None))
        self.answer_body.addWidget(buttons(self.leave))

    def _choose(self, id: str, title: str) -> None:
        case = self.assessment.case
        if self.question is None:
            assert self.point is not None
            after = moves.read(case, self.point, id)
            asked = self.assessment.bench.library.points[self.point].title
        else:
            after = moves.answered(case, self.question.id, id, self.point)
            asked = self.question.ask.tech
        if after == case or not self.desk.do(say("Changed: {asked} {title}", asked=asked, title=title), after):
            self.desk.choose(None)

    def _take(self, taken: Mapping[str, Measured]) -> None:
        case = self.assessment.case
        for point, measured in taken.items():
            case = moves.read(case, point, measured)
        self.memory.drafts.clear()
        if case == self.assessment.case or not self.desk.do(
            say("Changed: {reading_words}", reading_words=reading_words(self.desk, taken)), case
        ):
            self.desk.choose(None)

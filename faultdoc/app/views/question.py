"""A question: how, where and with what, then outcomes to choose from or fields for readings."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout

from faultdoc.app.desk import Desk
from faultdoc.app.views.base import Memory, StepView
from faultdoc.app.widgets.basic import Box, button, buttons, facts, label, row
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.howto import HowTo
from faultdoc.app.widgets.readings import Readings
from faultdoc.checks.all import make
from faultdoc.checks.base import Missing
from faultdoc.diagnosis.assess import Step, choice_point
from faultdoc.model.base import Measured
from faultdoc.record import moves
from faultdoc.record.typed import numbers_with
from faultdoc.record.words import NON_ANSWER_WORDS
from faultdoc.words import say

__all__ = ["QuestionView", "reading_words"]


def reading_words(desk: Desk, readings: Mapping[str, Measured]) -> str:
    """Return readings in words for the record."""
    assert desk.shelf is not None
    points = desk.shelf.library.points
    return "; ".join(f"{points[id].title}: {measured.text}" for id, measured in readings.items())


class QuestionView(StepView):
    """A question and its answer area; signals `picture_wanted` to see its place in the plant."""

    picture_wanted = Signal()

    def __init__(self, desk: Desk, step: Step, memory: Memory) -> None:
        super().__init__(desk, step, memory)
        bench, case = self.assessment.bench, self.assessment.case
        self.question = bench.problem.questions[step.id]
        question = self.question
        instruments = {one.id: one.title for one in bench.library.plant.instruments}
        to_fetch = [instruments.get(id, id) for id in question.bring if id not in case.at_hand]
        told = facts(
            (say("How"), question.how),
            (say("Where"), question.where),
            (say("With"), question.instrument),
            (say("Fetch"), ", ".join(to_fetch)),
            (say("Watch for"), bench.library.watch_for(question)),
        )
        point = next((point for point in question.points if point in bench.library.points), None)
        if point is None:
            self.information.addWidget(told)
        else:
            self.drawing = HowTo(bench.library.points[point])
            self.in_plant = button(say("Show it in the plant"), self.picture_wanted.emit)
            beside = QVBoxLayout()
            beside.addWidget(self.drawing)
            beside.addWidget(self.in_plant)
            beside.addStretch(1)
            across = row(told, spacing=8)
            across.addLayout(beside)
            self.information.addLayout(across)
        self.point = choice_point(question, bench)
        if question.check is None:
            for place, outcome in enumerate(question.outcomes, start=1):

                def answer(id: str = outcome.id, title: str = outcome.title) -> None:
                    self._answer(id, title)

                sign = place if place <= 9 else "none"
                made = ChoiceButton(outcome.title, sign=sign, on_click=answer)  # type: ignore[arg-type]
                self.answer_body.addWidget(made)
                self.choices.append(answer)
        else:
            self.readings = Readings(
                question.points,
                bench.library.points,
                bench.sheet,
                case,
                desk.system,
                drafts=memory.drafts,
            )
            self.readings.taken.connect(self._take)
            if reason := self._why_not_made():
                self.answer_body.addWidget(Box("doubt", label(reason)))
            self.answer_body.addWidget(self.readings)
        self.could_not = button(say("Could not measure"), lambda: self._not("could_not_measure"))
        self.not_sure = button(say("Not sure"), lambda: self._not("not_sure"))
        self.later = button(say("Leave for later"), self._later)
        self.answer_body.addWidget(buttons(self.could_not, self.not_sure, self.later))

    def _why_not_made(self) -> str | None:
        """Return why the readings that are there do not make the check yet."""
        case, bench = self.assessment.case, self.assessment.bench
        numbers = numbers_with(case, {})
        assert self.question.check is not None
        if not any(point in numbers for point in self.question.points):
            return None
        result = make(self.question.check, bench.sheet, numbers, bench.library.points)
        if not isinstance(result, Missing):
            return None
        if result.reason:
            return say(
                "'{title}' cannot be made from these readings: {reason}. Change a reading, "
                "or choose 'Could not measure'.",
                title=result.title,
                reason=result.reason,
            )
        wanted = ", ".join(self._title(reading) for reading in result.readings)
        return say("Still wanted for '{title}': {wanted}.", title=result.title, wanted=wanted)

    def _title(self, wanted: str) -> str:
        points = self.assessment.bench.library.points
        names = wanted.replace(" or ", " ").replace(" and ", " ").split()
        words = [points[name].title.lower() if name in points else name.replace("_", " ") for name in names]
        return " or ".join(words)

    @property
    def _asked(self) -> str:
        return self.question.ask.tech

    def _answer(self, outcome: str, title: str) -> None:
        after = moves.answered(self.assessment.case, self.question.id, outcome, self.point)
        after = moves.went(moves.bring_back(after, self.question.id), self.question)
        self.desk.do(f"{self._asked} {title}", after)

    def _not(self, outcome: str) -> None:
        case = moves.answered(self.assessment.case, self.question.id, outcome, self.point)
        self.desk.do(f"{self._asked} {NON_ANSWER_WORDS[outcome]}", moves.went(case, self.question))

    def _later(self) -> None:
        self.desk.do(
            say("Left for later: {asked}", asked=self._asked),
            moves.set_aside(self.assessment.case, self.question.id),
        )

    def _take(self, taken: Mapping[str, Measured]) -> None:
        case = moves.clear_answer(self.assessment.case, self.question.id)
        for point, measured in taken.items():
            case = moves.read(case, point, measured)
        self.memory.drafts.clear()
        if case == self.assessment.case:
            self.desk.told.emit("bad", self._why_not_made() or say("These readings are written down already."))
            return
        self.desk.do(reading_words(self.desk, taken), moves.went(case, self.question))

"""The proof of a remedy: its readings first, then whether it held."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtWidgets import QButtonGroup, QVBoxLayout

from faultdoc.app.desk import Desk
from faultdoc.app.views.base import Memory, StepView
from faultdoc.app.views.question import reading_words
from faultdoc.app.widgets.basic import Box, clear, facts, label
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.readings import Readings
from faultdoc.checks.all import make_all
from faultdoc.diagnosis.assess import Step
from faultdoc.model.base import Measured
from faultdoc.quantities import Kind
from faultdoc.record import moves
from faultdoc.words import say

__all__ = ["ProofView"]


class ProofView(StepView):
    """The proof.

    Its readings go into the record of the remedy, not among the readings of the fault: those tell
    what was wrong before it.
    """

    def __init__(self, desk: Desk, step: Step, memory: Memory) -> None:
        super().__init__(desk, step, memory)
        bench = self.assessment.bench
        self.cause = bench.problem.causes[step.id]
        self.proof = self.cause.remedy.proof
        points = bench.library.points
        places = [(points[id].title, f"{points[id].where}. {points[id].how}") for id in self.proof.points]
        self.information.addWidget(facts((say("Remedy done"), self.cause.remedy.title), *places, left=150))
        self.looked: dict[str, QButtonGroup] = {}
        self.taken: dict[str, Measured] | None = None
        numbers = [id for id in self.proof.points if points[id].kind is not Kind.CHOICE]
        for id in self.proof.points:
            if points[id].kind is Kind.CHOICE:
                self._choice(id)
        if numbers:
            self.readings = Readings(
                numbers, points, bench.sheet, self.assessment.case, desk.system,
                drafts=memory.drafts, button_text=say("See what these say"), known=False, help=False,
            )  # fmt: skip
            self.readings.taken.connect(self._take)
            for field in self.readings.fields.values():
                field.edited.connect(self._unsay)
            self.answer_body.addWidget(self.readings)
        self.said = QVBoxLayout()
        self.answer_body.addLayout(self.said)
        self.without = ChoiceButton(
            say("It could not be measured"),
            say("What was seen and heard has to do instead; the record says so."),
            sign="check",
        )
        self.without.toggled.connect(self._look)
        self.answer_body.addWidget(self.without)
        self.answer_body.addWidget(label(say("Did the proof hold?"), "title"))
        self.held = ChoiceButton(say("Yes: the fault is gone"), sign=1, on_click=lambda: self._proved(True))
        self.failed = ChoiceButton(
            say("No: the fault is still there"), sign=2, on_click=lambda: self._proved(False)
        )
        self.first = label(say("Take the reading first, or tick that it could not be measured."), "faint")
        self.answer_body.addWidget(self.first)
        self.answer_body.addWidget(self.held)
        self.answer_body.addWidget(self.failed)
        self.choices += [self.held.click, self.failed.click]
        self.without.setChecked(memory.without)
        self.taken = memory.proof
        if self.taken is not None:
            self._say()
        self._look()

    def switch(self) -> None:
        """Show the other units."""
        # Rewording a field counts as typing in it; the readings themselves stay as they are.
        taken = self.taken
        super().switch()
        self.taken = self.memory.proof = taken

    def _choice(self, id: str) -> None:
        point = self.assessment.bench.library.points[id]
        self.answer_body.addWidget(label(point.title, "title"))
        group = QButtonGroup(self)
        for choice in point.choices:
            made = ChoiceButton(choice.title, sign="radio", on_click=self._look)
            made.setProperty("choice", choice.title)
            group.addButton(made)
            self.answer_body.addWidget(made)
        self.looked[id] = group

    @property
    def _complete(self) -> bool:
        looked = all(group.checkedButton() is not None for group in self.looked.values())
        read = self.readings is None or (self.taken is not None and len(self.taken) == len(self.readings.fields))
        return looked and read

    def _look(self) -> None:
        self.memory.proof, self.memory.without = self.taken, self.without.isChecked()
        ready = self._complete or self.without.isChecked()
        self.held.setEnabled(ready)
        self.failed.setEnabled(ready)
        self.first.setVisible(not ready)

    def _unsay(self) -> None:
        self.taken = None
        clear(self.said)
        self._look()

    def _take(self, taken: Mapping[str, Measured]) -> None:
        self.taken = dict(taken)
        self._say()
        self._look()
        if self.held.isEnabled():
            self.held.setFocus()

    def _say(self) -> None:
        """Show what the checks make of the proof's readings alone: those from before speak of the fault."""
        clear(self.said)
        assert self.taken is not None
        bench = self.assessment.bench
        for result in make_all(bench.sheet, self.taken, bench.library.points):
            self.said.addWidget(Box("note", label(result.sentence(self.desk.system))))

    def _remark(self) -> str:
        points = self.assessment.bench.library.points
        parts = []
        for id, group in self.looked.items():
            if (chosen := group.checkedButton()) is not None:
                parts.append(f"{points[id].title}: {chosen.property('choice')}")
        if self.taken:
            parts.append(reading_words(self.desk, self.taken))
        if self.without.isChecked() and not self._complete:
            parts.append(say("Not measured: judged by what was seen and heard."))
        return "; ".join(parts)

    def _proved(self, held: bool) -> None:
        case = moves.proved(self.assessment.case, held, self._remark() or None)
        words = "held" if held else say("did not hold")
        self.memory.drafts.clear()
        self.desk.do(
            say(
                "Proof of '{title}' {words}. {remark}",
                title=self.cause.remedy.title,
                words=words,
                remark=self._remark(),
            ).strip(),
            case,
        )

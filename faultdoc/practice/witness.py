"""Answers to the engine's questions, as someone at a simulated unit would give them.

Readings come off the simulated unit with real instruments' errors, and so do the choices that the simulator has
the truth of. What it has no physics for (what somebody did last week, what a belt looks like) is drawn from
the tree's own table for the faults that are there; such answers flatter the engine, whose numbers they are, so
they are counted apart.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

import numpy as np

from faultdoc.diagnosis.assess import Bench, choice_point
from faultdoc.diagnosis.likelihood import ChoiceModel
from faultdoc.model.base import Measured
from faultdoc.model.safety import PlantState
from faultdoc.model.tree import Question
from faultdoc.simulator.instruments import Instruments
from faultdoc.simulator.unit import SimulatedUnit

__all__ = ["Answer", "Witness"]


@dataclass(frozen=True)
class Answer:
    """What came back: readings by point, or an outcome; neither when it could not be taken."""

    readings: dict[str, Measured | str] = field(default_factory=dict)
    outcome: str | None = None


@dataclass
class Witness:
    """Someone at a simulated unit.

    Attributes:
        unit: what they look at.
        instruments: what they measure with.
        bench: the engine's problem, for the tables of questions without physics.
        rng: for what is drawn.
        drawn: how many answers came from where: "read", "seen", "drawn", "none".
    """

    unit: SimulatedUnit
    instruments: Instruments
    bench: Bench
    rng: np.random.Generator
    drawn: Counter[str] = field(default_factory=Counter)

    def answer(self, question: Question, state: PlantState) -> Answer:
        """Return the answer to a question in a state of the plant."""
        truths = self.unit.truths(state)
        if question.check is not None:
            readings = {
                point: found
                for point in question.points
                if (found := self.instruments.read(point, truths, state)) is not None
            }
            self.drawn["read" if readings else "none"] += 1
            return Answer(readings)
        point = choice_point(question, self.bench)
        if point is not None and isinstance(seen := self.instruments.read(point, truths, state), str):
            self.drawn["seen"] += 1
            return Answer({point: seen}, seen)
        self.drawn["drawn"] += 1
        return Answer({}, self._drawn(question))

    def _drawn(self, question: Question) -> str:
        """Return an outcome drawn from the tree's table for the faults that are there."""
        problem = self.bench.problem
        model = problem.models[question.id]
        assert isinstance(model, ChoiceModel)
        rows = [model.alone(problem.sets.causes.index(id)) for id in self.unit.faults if id in problem.sets.causes]
        if any(outcome.stop for outcome in question.outcomes):
            # Nobody reports smoke by a slip of the tongue.
            count = len(question.outcomes)
            rows = [np.maximum(row - question.slip / count, 0.0) for row in rows]
            rows = [row / row.sum() for row in rows]
        # Noisy-max: the most telling of what each shows.
        place = max((int(self.rng.choice(len(row), p=row)) for row in rows), default=0)
        return question.outcomes[place].id

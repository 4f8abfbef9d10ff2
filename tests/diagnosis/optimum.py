"""Exhaustive optimum of small troubleshooting problems, and the exact expected cost of a policy.

One fault at a time; each question is asked at most once, each remedy tried at most once; the search
may be given up at any time for the give-up time. Plain recursion over what has been answered and
tried, with plant states: slow and obviously right.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from faultdoc.diagnosis.planner import Crew, Situation, plan
from faultdoc.diagnosis.problem import Problem
from faultdoc.model.safety import PlantState, may

NOTHING = 1e-9


@dataclass(frozen=True)
class Move:
    kind: str
    id: str


@dataclass
class Bed:
    """A problem with the prices of a crew, ready for recursion; weights are joint with what was seen."""

    problem: Problem
    team: Crew

    def questions(self, state: PlantState, asked: frozenset[str]) -> list[str]:
        here = self.team.own.index[state]
        return [
            id
            for id, question in self.problem.questions.items()
            if id not in asked
            and may(self.team.who, question.who)
            and np.isfinite(self.team.own.into(question.state)[0][here])
        ]

    def ask(self, state: PlantState, id: str) -> tuple[float, PlantState]:
        question = self.problem.questions[id]
        minutes, at = self.team.own.into(question.state)
        here = self.team.own.index[state]
        return float(minutes[here]) + question.minutes, self.team.own.states[at[here]]

    def repair(self, state: PlantState, id: str) -> tuple[float, PlantState]:
        here, i = self.team.own.index[state], self.problem.sets.causes.index(id)
        assert not self.team.visits[here, i]
        return float(self.team.minutes[0, here, i]), self.team.own.states[self.team.after[0, here, i]]

    def ready(self, state: PlantState) -> float:
        return float(self.team.ready[self.team.own.index[state]])


def optimal(bed: Bed, state: PlantState) -> float:
    """Least expected minutes to a proved fix and a unit ready for service."""
    return _value(bed, state, None)


def planned(bed: Bed, state: PlantState, depth: int = 1) -> float:
    """Expected minutes when every step is the planner's."""

    def choose(weights: np.ndarray, at: PlantState, asked: frozenset[str], tried: frozenset[str]) -> Move | None:
        best = plan(
            bed.problem, weights / weights.sum(), bed.team, Situation(at, tried), bed.questions(at, asked)
        ).best
        return None if best is None else Move(best.kind, best.id)

    return _value(bed, state, choose)


def fixed(bed: Bed, state: PlantState, rule: Callable[[Bed, np.ndarray, list[Move]], Move]) -> float:
    """Expected minutes under any other rule that picks among the moves open."""

    def choose(weights: np.ndarray, at: PlantState, asked: frozenset[str], tried: frozenset[str]) -> Move | None:
        moves = [Move("question", id) for id in bed.questions(at, asked)]
        remedies = [Move("remedy", id) for id in bed.problem.sets.causes if id not in tried]
        moves += remedies
        if not remedies:
            return None
        return rule(bed, weights / weights.sum(), moves)

    return _value(bed, state, choose)


def _value(bed: Bed, state: PlantState, choose: Callable[..., Move | None] | None) -> float:
    problem = bed.problem
    tables = {id: model.table(problem.sets) for id, model in problem.models.items()}
    known: dict[tuple, float] = {}

    def of(
        weights: np.ndarray, at: PlantState, asked: tuple[tuple[str, int], ...], tried: frozenset[str]
    ) -> float:
        """Minutes from here on, weighted by the probability of being here."""
        if weights.sum() < NOTHING:
            return 0.0
        key = (at, frozenset(asked), tried)
        if key in known:
            return known[key]
        names = frozenset(id for id, _ in asked)
        free = [id for id in problem.sets.causes if id not in tried]
        give_up = weights.sum() * (bed.team.plant.give_up_minutes + bed.ready(at))
        if choose is None:
            moves = [Move("question", id) for id in bed.questions(at, names)]
            moves += [Move("remedy", id) for id in free]
            values = [give_up]
        else:
            picked = choose(weights, at, names, tried)
            if picked is None:
                return give_up
            moves, values = [picked], []
        for move in moves:
            if move.kind == "question":
                minutes, after = bed.ask(at, move.id)
                rest = sum(
                    of(weights * column, after, (*asked, (move.id, k)), tried)
                    for k, column in enumerate(tables[move.id].T)
                )
            else:
                minutes, after = bed.repair(at, move.id)
                i = problem.sets.causes.index(move.id)
                cleared = np.where(problem.sets.holding(i), problem.causes[move.id].remedy.holds, 0.0)
                held, left = (weights * cleared).sum(), weights * (1 - cleared)
                rest = held * bed.ready(after) + of(left, after, asked, tried | {move.id})
            values.append(weights.sum() * minutes + rest)
        known[key] = min(values)
        return known[key]

    sets = problem.sets
    prior = np.exp(sets.log_prior - sets.log_prior.max())
    return of(prior / prior.sum(), state, (), frozenset())

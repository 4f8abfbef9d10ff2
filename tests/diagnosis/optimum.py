"""Exhaustive optimum of small troubleshooting problems, and the exact expected cost of a policy.

One fault at a time; each question is asked at most once, each remedy tried at most once; the search
may be given up at any time for the give-up time. Plain recursion over what has been answered and
tried, with plant states: slow and obviously right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import combinations, product

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


def optimal_by_recursion(bed: Bed, state: PlantState) -> float:
    """Least expected minutes to a proved fix and a unit ready for service, plainly; for small problems."""
    return _value(bed, state, None)


def optimal(bed: Bed, state: PlantState) -> float:
    """The same as a table over all answers, remedies tried and plant states, filled from the end.

    One array of (remedies tried, plant state) for each way in which questions may have been
    answered; `optimal_by_recursion` says the same, slowly.
    """
    problem, team = bed.problem, bed.team
    sets = problem.sets
    assert sets.size == 1
    n = len(sets.causes)
    prior = np.exp(sets.log_prior - sets.log_prior.max())
    prior = (prior / prior.sum())[np.argsort(sets.members[:, 0])]
    order = np.argsort(sets.members[:, 0])
    ids = list(problem.questions)
    tables = [problem.models[id].table(sets)[order] for id in ids]
    states, ask, mend = _reachable(bed, state, ids)
    ready = np.array([bed.ready(at) for at in states])
    subsets = np.arange(2**n)
    tried = (subsets[:, None] >> np.arange(n)) & 1 == 1
    holds = np.array([problem.causes[id].remedy.holds for id in sets.causes])
    remains = np.where(tried, 1.0 - holds, 1.0)
    give_up = team.plant.give_up_minutes + ready
    size = tried.sum(axis=1)
    rounds = [(i, subsets[(size == k) & ~tried[:, i]]) for k in range(n - 1, -1, -1) for i in range(n)]

    def level(count: int) -> Iterator[tuple[int, ...]]:
        for chosen in combinations(range(len(ids)), count):
            for outcomes in product(*(range(tables[q].shape[1]) for q in chosen)):
                digits = [-1] * len(ids)
                for q, outcome in zip(chosen, outcomes, strict=True):
                    digits[q] = outcome
                yield tuple(digits)

    after: dict[tuple[int, ...], np.ndarray] = {}
    for count in range(len(ids), -1, -1):
        values: dict[tuple[int, ...], np.ndarray] = {}
        for digits in level(count):
            weights = prior.copy()
            for q, outcome in enumerate(digits):
                if outcome >= 0:
                    weights = weights * tables[q][:, outcome]
            left = remains * weights
            total = left.sum(axis=1)
            best = total[:, None] * give_up[None, :]
            for q in range(len(ids)):
                if digits[q] >= 0:
                    continue
                rest = sum(
                    after[(*digits[:q], outcome, *digits[q + 1 :])] for outcome in range(tables[q].shape[1])
                )
                for at, (minutes, end) in enumerate(ask[q]):
                    if minutes is not None:
                        np.minimum(best[:, at], total * minutes + rest[:, end], out=best[:, at])
            # More tried first: what is tried next leads to a larger subset.
            for i, some in rounds:
                minutes, end = mend[i]
                held = left[some, i] * holds[i]
                value = total[some][:, None] * minutes + held[:, None] * ready[end] + best[some | 1 << i][:, end]
                best[some] = np.minimum(best[some], value)
            values[digits] = best
        after = values
    (whole,) = after.values()
    return float(whole[0, states.index(state)])


def _reachable(bed: Bed, state: PlantState, ids: list[str]) -> tuple[list[PlantState], list, list]:
    """Return the plant states that steps lead to, and for each question and remedy its minutes and ends there."""
    states, place = [state], 0
    ask: list[list] = [[] for _ in ids]
    mend_minutes: list[list] = [[] for _ in bed.problem.sets.causes]
    mend_ends: list[list] = [[] for _ in bed.problem.sets.causes]

    def number(at: PlantState) -> int:
        if at not in states:
            states.append(at)
        return states.index(at)

    while place < len(states):
        at = states[place]
        open_here = set(bed.questions(at, frozenset()))
        for q, id in enumerate(ids):
            if id in open_here:
                minutes, end = bed.ask(at, id)
                ask[q].append((minutes, number(end)))
            else:
                ask[q].append((None, place))
        for i, id in enumerate(bed.problem.sets.causes):
            minutes, end = bed.repair(at, id)
            mend_minutes[i].append(minutes)
            mend_ends[i].append(number(end))
        place += 1
    mend = [(np.array(minutes), np.array(ends)) for minutes, ends in zip(mend_minutes, mend_ends, strict=True)]
    return states, ask, mend


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

"""Exhaustive optimum of small troubleshooting problems, and the exact expected cost of a policy.

One fault at a time; each question is asked at most once, each remedy tried at most once; the search
may be given up at any time for the give-up time. Plain recursion over what has been answered and
tried, with plant states: slow and obviously right.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from bounds import Prices, table, telling_apart

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
    return _value(bed, state, None, 0.0)


def optimal(bed: Bed, state: PlantState) -> float:
    """The same as a full table over all answers, remedies tried and plant states, filled from the end."""
    prices = prices_of(bed, state)
    flat, _ = table(prices, tuple(range(len(prices.prior))))
    return float(flat[prices.start])


def prices_of(bed: Bed, state: PlantState) -> Prices:
    """Return the problem as arrays over causes, questions and the plant states that steps lead to."""
    sets, problem = bed.problem.sets, bed.problem
    assert sets.size == 1
    order = np.argsort(sets.members[:, 0])
    prior = np.exp(sets.log_prior - sets.log_prior.max())[order]
    ids = list(problem.questions)
    states, ask, mend = _reachable(bed, state, ids)
    ready = np.array([bed.ready(at) for at in states])
    return Prices(
        prior=prior / prior.sum(),
        holds=np.array([problem.causes[id].remedy.holds for id in sets.causes]),
        ready=ready,
        give_up=bed.team.plant.give_up_minutes + ready,
        ask_minutes=np.array([[minutes for minutes, _ in one] for one in ask]),
        ask_ends=np.array([[end for _, end in one] for one in ask]),
        mend_minutes=np.array([minutes for minutes, _ in mend]),
        mend_ends=np.array([ends for _, ends in mend]),
        answers=tuple(telling_apart(problem.models[id].table(sets)[order].T)[0] for id in ids),
        start=states.index(state),
    )


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
                ask[q].append((np.inf, place))
        for i, id in enumerate(bed.problem.sets.causes):
            minutes, end = bed.repair(at, id)
            mend_minutes[i].append(minutes)
            mend_ends[i].append(number(end))
        place += 1
    mend = [(np.array(minutes), np.array(ends)) for minutes, ends in zip(mend_minutes, mend_ends, strict=True)]
    return states, ask, mend


def planned(bed: Bed, state: PlantState, nothing: float = NOTHING) -> float:
    """Expected minutes when every step is the planner's; at most a little too many, see `_value`."""

    def choose(weights: np.ndarray, at: PlantState, asked: frozenset[str], tried: frozenset[str]) -> Move | None:
        best = plan(
            bed.problem, weights / weights.sum(), bed.team, Situation(at, tried), bed.questions(at, asked)
        ).best
        return None if best is None else Move(best.kind, best.id)

    return _value(bed, state, choose, nothing)


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


def _value(
    bed: Bed, state: PlantState, choose: Callable[..., Move | None] | None, nothing: float = NOTHING
) -> float:
    """Return the expected minutes; what is less likely than `nothing` is counted with the most it can take."""
    problem = bed.problem
    team = bed.team
    longest = sum(float(minutes[np.isfinite(minutes)].max()) for minutes, _ in team.asks.values())
    most = (
        longest + float(team.minutes[0].max(axis=0).sum()) + team.plant.give_up_minutes + float(team.ready.max())
    )
    tables = {id: model.table(problem.sets) for id, model in problem.models.items()}
    known: dict[tuple, float] = {}

    def of(
        weights: np.ndarray, at: PlantState, asked: tuple[tuple[str, int], ...], tried: frozenset[str]
    ) -> float:
        """Minutes from here on, weighted by the probability of being here."""
        if weights.sum() < nothing:
            return weights.sum() * most
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

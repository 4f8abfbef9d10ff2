"""What to do next: the step on the cheapest expected path to a proved fix.

Decision-theoretic troubleshooting (Heckerman, Breese, Rommelse 1995): the expected cost of
repair under a belief is that of trying remedies one after the other, best probability per minute
first, each with its proof, until one holds. A question is worth asking when its own minutes and
the expected cost of repair after its answer come to less. Minutes include bringing the plant
into the state a step needs, and what the step leaves to be done before the unit can be handed
back: power off costs the whole oil warm-up, once, whoever causes it.

With ready(s) the minutes from state s to ready for service, every step's price is
    change of state + own minutes + ready(after) - ready(before),
so that the price of a whole path telescopes to its minutes plus the way back to service. One
step of looking ahead (myopic) is taken for questions.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from faultdoc.diagnosis.hypotheses import Floats
from faultdoc.diagnosis.plant import Routes, plant_graph, routes
from faultdoc.diagnosis.problem import Problem
from faultdoc.model.safety import PlantFile, PlantState, Qualification, StateChange, StateNeed, may

__all__ = ["Crew", "Option", "Plan", "crew", "plan"]

NEGLIGIBLE = 1e-3
"""Remedies with a smaller chance are not proposed."""

TRIES = 24
"""Remedies walked one by one in pricing a repair."""

FREE = 1e-9
"""Least price of a step, in minutes: what costs nothing is done first, whatever its chance."""


@dataclass(frozen=True)
class Option:
    """One thing that could be done next.

    Attributes:
        kind: "question" or "remedy".
        id: the question's id, or the id of the cause to be remedied.
        minutes: of changing the plant's state for it and doing it, proof included.
        expected_minutes: expected total from now to a proved fix and a unit ready for service,
            when this is done next.
        bits: information the answer is expected to give about which cause it is; 0 for remedies.
        path: state changes needed first, in order.
        visit: True when it takes someone with a qualification nobody here has.
    """

    kind: Literal["question", "remedy"]
    id: str
    minutes: float
    expected_minutes: float
    bits: float
    path: tuple[StateChange, ...]
    visit: bool


@dataclass(frozen=True)
class Plan:
    """What could be done next, best first; empty when there is nothing left to try."""

    options: tuple[Option, ...]
    repair_now: float
    """Expected minutes when no more questions are asked."""

    @property
    def best(self) -> Option | None:
        """The option proposed."""
        return self.options[0] if self.options else None

    @property
    def expected_minutes(self) -> float:
        """Expected minutes from now to a proved fix and a unit ready for service."""
        return self.options[0].expected_minutes if self.options else self.repair_now


@dataclass(frozen=True)
class Crew:
    """Prices of all remedies and questions from every plant state, for given people on a given unit.

    Index 0 of the first axis: with the people here; index 1: once a visit has brought the rest.

    Attributes:
        who: qualifications here.
        own, full: ways between states for the people here, and for all qualifications.
        ready: shape (S,), minutes to ready for service.
        price: shape (2, S, n), of each cause's remedy with proof, way back to service included.
        minutes: shape (2, S, n), the same without the way back.
        after: shape (2, S, n), the state each leaves.
        visits: shape (S, n), whether the price at index 0 is that of a visit.
    """

    who: frozenset[Qualification]
    own: Routes
    full: Routes
    ready: Floats
    price: Floats
    minutes: Floats
    after: NDArray[np.intp]
    visits: NDArray[np.bool_]
    give_up: float


def crew(problem: Problem, plant: PlantFile, who: frozenset[Qualification], warm_up_minutes: float) -> Crew:
    """Return the prices for some people; computed once a case unless people or warm-up change."""
    graph = plant_graph(plant.changes, warm_up_minutes)
    own, full = routes(graph, who), routes(graph, frozenset(Qualification))
    ready, _ = full.into(plant.ready)
    causes = [problem.causes[id] for id in problem.sets.causes]
    shape = (len(full.states), len(causes))
    minutes, after = np.zeros((2, *shape)), np.zeros((2, *shape), dtype=np.intp)
    for layer, (ways, held) in enumerate(((own, who), (full, frozenset(Qualification)))):
        for i, cause in enumerate(causes):
            remedy, proof = cause.remedy, cause.remedy.proof
            to_work, at_work = ways.into(remedy.state)
            to_proof, at_proof = ways.into(proof.state)
            allowed = may(held, remedy.who) and may(held, proof.who)
            total = to_work + remedy.minutes + to_proof[at_work] + proof.minutes
            minutes[layer, :, i] = total if allowed else np.inf
            after[layer, :, i] = at_proof[at_work]
    with_visit = plant.visit_minutes + minutes[1]
    visits = ~np.isfinite(minutes[0])
    minutes[0] = np.where(visits, with_visit, minutes[0])
    after[0] = np.where(visits, after[1], after[0])
    price = minutes + ready[after] - ready[None, :, None]
    return Crew(who, own, full, ready, price, minutes, after, visits, plant.give_up_minutes)


def plan(
    problem: Problem,
    weights: Floats,
    team: Crew,
    state: PlantState,
    open_questions: Collection[str],
    tried: Collection[str] = (),
) -> Plan:
    """Return what could be done next, best first.

    Args:
        problem: the compiled problem.
        weights: shape (H,), the belief over sets.
        team: prices for the people here, from `crew`.
        state: of the plant, now.
        open_questions: ids of questions that have not been answered or set aside.
        tried: causes whose remedy has been carried out; not proposed again.
    """
    here = team.own.index[state]
    holds = np.array([0.0 if id in tried else problem.causes[id].remedy.holds for id in problem.sets.causes])
    singles, pairs = problem.sets.singles_and_pairs(weights)
    share = singles + pairs.sum(axis=1) / 2.0
    base = float(team.ready[here])
    options = _remedies(problem, team, state, share * holds, base)
    repair_now = float(_repair(team, (share * holds)[None, :], np.ones(1), np.array([here]))[0]) + base
    options += _questions(problem, team, state, (singles, pairs), holds, open_questions, base)
    options.sort(key=lambda option: option.expected_minutes)
    return Plan(tuple(options), repair_now)


def _repair(
    team: Crew, fixes: Floats, left: Floats, states: NDArray[np.intp], visited: NDArray[np.intp] | None = None
) -> Floats:
    """Return the expected price of trying remedies, best probability per minute first; shape (B,).

    It stops where the next remedy costs more than it can save, its chance of sparing the minutes of
    giving up; what is left then, or after the TRIES most worthwhile, is given up.

    Args:
        team: prices.
        fixes: shape (B, n), probability that each cause's remedy is the one that holds.
        left: shape (B,), probability that the fault is still there at the start.
        states: shape (B,), plant state at the start.
        visited: shape (B,), 1 where a visit has been made.
    """
    rows = np.arange(len(fixes))
    visited = np.zeros(len(fixes), dtype=np.intp) if visited is None else visited
    total, left = np.zeros(len(fixes)), left.copy()
    price = np.maximum(team.price[visited, states], FREE)
    width = min(TRIES, fixes.shape[1])
    columns = np.argpartition(fixes / price, -width, axis=1)[:, -width:]
    fixes, price = np.take_along_axis(fixes, columns, axis=1), np.take_along_axis(price, columns, axis=1)
    for _ in range(width):
        best = (fixes / price).argmax(axis=1)
        chance = fixes[rows, best]
        go = chance * team.give_up > left * price[rows, best]
        if not go.any():
            break
        total += np.where(go, left * price[rows, best], 0.0)
        left = np.where(go, left - chance, left)
        cause = columns[rows, best]
        after, with_visit = team.after[visited, states, cause], visited | team.visits[states, cause]
        states, visited = np.where(go, after, states), np.where(go, with_visit, visited)
        fixes[rows, best] = np.where(go, 0.0, chance)
        price = np.maximum(team.price[visited[:, None], states[:, None], columns], FREE)
    repaired: Floats = total + np.maximum(left, 0.0) * team.give_up
    return repaired


def _remedies(problem: Problem, team: Crew, state: PlantState, fixes: Floats, base: float) -> list[Option]:
    here = team.own.index[state]
    chosen = np.flatnonzero((fixes > NEGLIGIBLE) & np.isfinite(team.price[0, here]))
    if not len(chosen):
        return []
    rest = np.repeat(fixes[None, :], len(chosen), axis=0)
    rest[np.arange(len(chosen)), chosen] = 0.0
    after = team.after[0, here, chosen]
    left = 1.0 - fixes[chosen]
    visited = team.visits[here, chosen].astype(np.intp)
    values = team.price[0, here, chosen] + _repair(team, rest, left, after, visited) + base
    options = []
    for i, value in zip(chosen, values, strict=True):
        id = problem.sets.causes[i]
        visit = bool(team.visits[here, i])
        ways = team.full if visit else team.own
        path = ways.path(state, problem.causes[id].remedy.state) or ()
        minutes = float(team.minutes[0, here, i])
        options.append(Option("remedy", id, minutes, float(value), 0.0, path, visit))
    return options


def _questions(
    problem: Problem,
    team: Crew,
    state: PlantState,
    belief: tuple[Floats, Floats],
    holds: Floats,
    open_questions: Collection[str],
    base: float,
) -> list[Option]:
    here = team.own.index[state]
    askable: list[tuple[str, float, int]] = []
    known: dict[StateNeed, tuple[float, int]] = {}
    for id, question in problem.questions.items():
        if id not in open_questions or not may(team.who, question.who):
            continue
        if question.state not in known:
            to_state, at = team.own.into(question.state)
            known[question.state] = float(to_state[here]), int(at[here])
        minutes, end = known[question.state]
        if np.isfinite(minutes):
            askable.append((id, minutes + question.minutes, end))
    if not askable:
        return []
    spans = [problem.outlook.spans[id] for id, _, _ in askable]
    columns = np.concatenate([np.arange(span.start, span.stop) for span in spans])
    counts = np.array([span.stop - span.start for span in spans])
    ends = np.repeat([end for _, _, end in askable], counts)
    all_chances, all_left = problem.outlook.split(*belief)
    chance, left = all_chances[columns], all_left[columns] / all_chances[columns][:, None]
    after = chance * _repair(team, left * holds, np.ones(len(chance)), ends)
    firsts = np.concatenate([[0], np.cumsum(counts)[:-1]])
    repair = np.add.reduceat(after, firsts)
    share = belief[0] + belief[1].sum(axis=1) / 2.0
    bits = _entropy(share[None, :])[0] - np.add.reduceat(chance * _entropy(left), firsts)
    options = []
    for place, (id, minutes, end) in enumerate(askable):
        price = minutes + float(team.ready[end]) - float(team.ready[here])
        path = team.own.path(state, problem.questions[id].state) or ()
        expected = price + float(repair[place]) + base
        options.append(Option("question", id, minutes, expected, max(float(bits[place]), 0.0), path, False))
    return options


def _entropy(shares: Floats) -> Floats:
    """Return the entropy of each row over the causes, in bits; rows sum to 1."""
    entropy: Floats = -(shares * np.log2(np.maximum(shares, 1e-300))).sum(axis=-1)
    return entropy

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
step of looking ahead (myopic) is taken for questions, or more where time allows. Walking between
places on the unit and fetching an instrument count for the next step, and after a question the walk to the
remedy that is likely to come next; what comes after is taken as at hand.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Literal

import networkx as nx
import numpy as np
from numpy.typing import NDArray

from faultdoc.diagnosis.hypotheses import Floats
from faultdoc.diagnosis.plant import Routes, plant_graph, routes
from faultdoc.diagnosis.problem import Problem
from faultdoc.model.safety import PlantFile, PlantState, Qualification, StateChange, StateNeed, may, satisfies
from faultdoc.model.tree import Remedy

__all__ = ["TELLING", "Crew", "Option", "Plan", "Situation", "crew", "fix_chance", "plan", "repair_minutes"]

NEGLIGIBLE = 1e-3
"""Remedies with a smaller chance are not proposed."""

TELLING = 0.02
"""Bits below which a question is not asked for its own sake."""

WORTH_A_CALL = 0.02
"""Bits a minute from which a question is asked before someone is sent for: a visit to the wrong fault is dear."""

TRIES = 24
"""Remedies walked one by one in pricing a repair."""

WIDTH = 6
"""Most promising questions whose answers are looked into when the plan looks further ahead."""

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
        visit: True when it takes someone with a qualification nobody here has.
        spread: standard deviation of the total, in minutes.
        first: True for a question that comes before anything else, as its answer may stop the work.
    """

    kind: Literal["question", "remedy"]
    id: str
    minutes: float
    expected_minutes: float
    bits: float
    visit: bool
    spread: float
    _ways: Routes = field(repr=False, compare=False)
    _start: PlantState = field(repr=False, compare=False)
    _need: StateNeed = field(repr=False, compare=False)
    first: bool = False

    @property
    def path(self) -> tuple[StateChange, ...]:
        """State changes needed first, in order."""
        return self._ways.path(self._start, self._need) or ()


@dataclass(frozen=True)
class Plan:
    """What could be done next, best first.

    Attributes:
        options: all that is allowed, by expected minutes.
        repair_now, repair_spread: expected minutes when no more questions are asked, and their
            standard deviation.
        give_up: minutes until things run again when the search is given up here.
    """

    options: tuple[Option, ...]
    repair_now: float
    repair_spread: float
    give_up: float

    @property
    def best(self) -> Option | None:
        """The option proposed; None where nothing is left that is worth its minutes.

        Where going on is expected to take longer than giving up, a question that still tells
        something comes before giving up: what it tells per minute decides.
        """
        if self.options and (self.options[0].first or self.options[0].expected_minutes <= self.give_up):
            first = self.options[0]
            # Who comes should come for the right thing: what tells a lot for little is asked before.
            cheap = [one for one in self.options if one.bits >= WORTH_A_CALL * max(one.minutes, 1.0)]
            return max(cheap, key=lambda one: one.bits / one.minutes) if first.visit and cheap else first
        telling = [one for one in self.options if one.bits >= TELLING]
        return max(telling, key=lambda one: one.bits / one.minutes, default=None)

    @property
    def expected_minutes(self) -> float:
        """Expected minutes from now to a proved fix and a unit ready for service."""
        return min(self.best.expected_minutes, self.give_up) if self.best else self.give_up

    @property
    def spread(self) -> float:
        """Standard deviation of the minutes to a proved fix."""
        return self.best.spread if self.best else 0.0


@dataclass(frozen=True)
class Situation:
    """Where things stand, as far as it matters to what comes next.

    Attributes:
        state: of the plant.
        tried: causes whose remedy has been carried out; not proposed again.
        place: where on the unit the people are, if known.
        at_hand: instruments already fetched.
        resets: how often each protective device has been reset.
    """

    state: PlantState
    tried: frozenset[str] = frozenset()
    place: str | None = None
    at_hand: frozenset[str] = frozenset()
    resets: Mapping[str, int] = field(default_factory=dict)

    def used_up(self, remedy: Remedy, plant: PlantFile) -> bool:
        """Say whether a remedy's device has been reset as often as it may be before its cause is found."""
        limit = plant.reset_limits.get(remedy.resets or "")
        return limit is not None and self.resets.get(remedy.resets or "", 0) >= limit


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
        asks: question id -> minutes and end state from every state, shapes (S,), for the questions
            that the people here may answer.
        plant: places, instruments, limits and what a visit and giving up take.
    """

    who: frozenset[Qualification]
    own: Routes
    full: Routes
    ready: Floats
    price: Floats
    minutes: Floats
    after: NDArray[np.intp]
    visits: NDArray[np.bool_]
    asks: Mapping[str, tuple[Floats, NDArray[np.intp]]]
    plant: PlantFile

    @cached_property
    def walks(self) -> dict[str, dict[str, float]]:
        """Minutes on foot between places on the unit."""
        ways: nx.Graph[str] = nx.Graph()
        for walk in self.plant.walks:
            ways.add_edge(*walk.between, minutes=walk.minutes)
        return {
            place: dict(minutes) for place, minutes in nx.all_pairs_dijkstra_path_length(ways, weight="minutes")
        }

    @cached_property
    def fetch(self) -> dict[str, float]:
        """Minutes to fetch each instrument."""
        return {instrument.id: instrument.minutes for instrument in self.plant.instruments}

    def way_on(self, place: str | None, remedies: Sequence[Remedy], chances: Floats) -> float:
        """Return the minutes on foot from a place to the remedy that comes next, by the remedies' chances."""
        total = float(chances.sum())
        if place is None or total <= 0.0:
            return 0.0
        ways = [self.walks[place][one.place] if one.place else 0.0 for one in remedies]
        return float(chances @ np.array(ways)) / total

    def reach(self, now: Situation, place: str | None, bring: Collection[str]) -> float:
        """Return the minutes to walk to a place and to fetch what is not at hand yet."""
        walk = self.walks[now.place][place] if now.place and place and now.place != place else 0.0
        return walk + sum(self.fetch[one] for one in bring if one not in now.at_hand) if bring else walk


def crew(
    problem: Problem,
    plant: PlantFile,
    who: frozenset[Qualification],
    warm_up_minutes: float,
    warmed_minutes: float = 0.0,
) -> Crew:
    """Return the prices for some people; computed once a case unless people or the warm-up change.

    Args:
        problem: the compiled problem.
        plant: the state changes and what goes with them.
        who: qualifications here.
        warm_up_minutes, warmed_minutes: the oil warm-up, and what of it has passed.
    """
    graph = plant_graph(plant.changes, warm_up_minutes, warmed_minutes)
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
    asks = {}
    for id, question in problem.questions.items():
        if may(who, question.who):
            to_state, at = own.into(question.state)
            asks[id] = to_state + question.minutes, at
    return Crew(who, own, full, ready, price, minutes, after, visits, asks, plant)


def plan(
    problem: Problem,
    weights: Floats,
    team: Crew,
    now: Situation,
    open_questions: Collection[str],
    depth: int = 1,
) -> Plan:
    """Return what could be done next, best first.

    Args:
        problem: the compiled problem.
        weights: shape (H,), the belief over sets.
        team: prices for the people here, from `crew`.
        now: where things stand.
        open_questions: ids of questions that have not been answered or set aside.
        depth: questions looked ahead: 1 is myopic; every further one costs some ten times as long.
    """
    here = team.own.index[now.state]
    holds = np.array([fix_chance(problem, team, now, id) for id in problem.sets.causes])
    singles, pairs = problem.sets.singles_and_pairs(weights)
    share = singles + pairs.sum(axis=1) / 2.0
    base = float(team.ready[here])
    mean, square = _repair(team, (share * holds)[None, :], np.ones(1), np.array([here]))
    options = _remedies(problem, team, now, share * holds, base)
    remedies = [problem.causes[id].remedy for id in problem.sets.causes]
    onward = {place: team.way_on(place, remedies, share * holds) for place in (None, *team.walks)}
    questions = _questions(problem, team, now, (singles, pairs), holds, open_questions, base, onward)
    if depth > 1:
        questions.sort(key=lambda option: option.expected_minutes)
        ahead = [
            _looked_into(problem, weights, team, now, one, open_questions, depth) for one in questions[:WIDTH]
        ]
        questions[:WIDTH] = ahead
    options += questions
    # What comes first does so in the order of its file: the worst danger is asked about before the next.
    written = {id: place for place, id in enumerate(problem.questions)}
    options.sort(key=lambda one: (0, written[one.id], 0.0) if one.first else (1, 0, one.expected_minutes))
    spread = _spread(float(mean[0]), float(square[0]))
    return Plan(tuple(options), float(mean[0]) + base, spread, team.plant.give_up_minutes + base)


def fix_chance(problem: Problem, team: Crew, now: Situation, cause: str) -> float:
    """Return the probability that a cause's remedy holds; 0 where it may not be tried (again)."""
    remedy = problem.causes[cause].remedy
    return 0.0 if cause in now.tried or now.used_up(remedy, team.plant) else remedy.holds


def _spread(mean: float, square: float) -> float:
    return float(np.sqrt(max(square - mean**2, 0.0)))


def _looked_into(
    problem: Problem,
    weights: Floats,
    team: Crew,
    now: Situation,
    option: Option,
    open_questions: Collection[str],
    depth: int,
) -> Option:
    """Return a question with its price taken from the best plan after each of its answers."""
    question = problem.questions[option.id]
    _, at = team.own.into(question.state)
    end = team.own.states[at[team.own.index[now.state]]]
    then = replace(
        now,
        state=end,
        place=question.place or now.place,
        at_hand=now.at_hand | frozenset(question.bring),
    )
    rest = [id for id in open_questions if id != option.id]
    joint = problem.outcome_table(option.id) * weights[:, None]
    chance = joint.sum(axis=0)
    plans = [
        plan(problem, column / p, team, then, rest, depth - 1) for column, p in zip(joint.T, chance, strict=True)
    ]
    values = np.array([one.expected_minutes for one in plans])
    squares = np.array([one.spread**2 + one.expected_minutes**2 for one in plans])
    mean = float(chance @ values)
    return replace(option, expected_minutes=option.minutes + mean, spread=_spread(mean, float(chance @ squares)))


def _repair(
    team: Crew, fixes: Floats, left: Floats, states: NDArray[np.intp], visited: NDArray[np.intp] | None = None
) -> tuple[Floats, Floats]:
    """Return the price of trying remedies, best probability per minute first: mean and mean square, shape (B,).

    Of all places on that way to stop and give up, or after the TRIES most worthwhile, the cheapest
    is taken: one remedy may not be worth the warm-up it costs where several together are.

    Args:
        team: prices.
        fixes: shape (B, n), probability that each cause's remedy is the one that holds.
        left: shape (B,), probability that the fault is still there at the start.
        states: shape (B,), plant state at the start.
        visited: shape (B,), 1 where a visit has been made.
    """
    rows = np.arange(len(fixes))
    visited = np.zeros(len(fixes), dtype=np.intp) if visited is None else visited
    left, spent = left.copy(), np.zeros(len(fixes))
    mean, square = np.zeros(len(fixes)), np.zeros(len(fixes))
    give_up = team.plant.give_up_minutes
    least, least_square = left * give_up, left * give_up**2
    price = np.maximum(team.price[visited, states], FREE)
    width = min(TRIES, fixes.shape[1])
    columns = np.argpartition(fixes / price, -width, axis=1)[:, -width:]
    fixes, price = np.take_along_axis(fixes, columns, axis=1), np.take_along_axis(price, columns, axis=1)
    for _ in range(width):
        best = (fixes / price).argmax(axis=1)
        chance = fixes[rows, best]
        if not (chance > NEGLIGIBLE * left).any():
            break
        spent += price[rows, best]
        mean += chance * spent
        square += chance * spent**2
        left = np.maximum(left - chance, 0.0)
        stopped = mean + left * (spent + give_up)
        better = stopped < least
        least = np.where(better, stopped, least)
        least_square = np.where(better, square + left * (spent + give_up) ** 2, least_square)
        cause = columns[rows, best]
        after, visited = team.after[visited, states, cause], visited | team.visits[states, cause]
        states = after
        fixes[rows, best] = 0.0
        price = np.maximum(team.price[visited[:, None], states[:, None], columns], FREE)
    return least, least_square


def repair_minutes(team: Crew, fixes: Floats, states: NDArray[np.intp]) -> Floats:
    """Return the expected minutes to a proved fix when nothing more is asked, the way back to service included.

    Args:
        team: prices.
        fixes: shape (B, n), probability that each cause's remedy is the one that holds.
        states: shape (B,), plant state at the start.

    Returns:
        Shape (B,); giving up where that is cheapest, counted as `give_up_minutes`.
    """
    return _repair(team, fixes.copy(), np.ones(len(fixes)), states)[0] + team.ready[states]


def _remedies(problem: Problem, team: Crew, now: Situation, fixes: Floats, base: float) -> list[Option]:
    here = team.own.index[now.state]
    chosen = np.flatnonzero((fixes > NEGLIGIBLE) & np.isfinite(team.price[0, here]))
    if not len(chosen):
        return []
    rest = np.repeat(fixes[None, :], len(chosen), axis=0)
    rest[np.arange(len(chosen)), chosen] = 0.0
    visited = team.visits[here, chosen].astype(np.intp)
    means, squares = _repair(team, rest, 1.0 - fixes[chosen], team.after[0, here, chosen], visited)
    options = []
    for i, mean, square in zip(chosen, means, squares, strict=True):
        id = problem.sets.causes[i]
        remedy = problem.causes[id].remedy
        visit = bool(team.visits[here, i])
        ways = team.full if visit else team.own
        walk = 0.0 if visit else team.reach(now, remedy.place, ())
        price = float(team.price[0, here, i]) + walk
        total = price + float(mean)
        spread = _spread(total, price**2 + 2.0 * price * float(mean) + float(square))
        minutes = float(team.minutes[0, here, i]) + walk
        options.append(
            Option("remedy", id, minutes, total + base, 0.0, visit, spread, ways, now.state, remedy.state)
        )
    return options


def _questions(
    problem: Problem,
    team: Crew,
    now: Situation,
    belief: tuple[Floats, Floats],
    holds: Floats,
    open_questions: Collection[str],
    base: float,
    onward: Mapping[str | None, float],
) -> list[Option]:
    here = team.own.index[now.state]
    askable: list[tuple[str, float, int]] = []
    still_open = set(open_questions)
    for id, (there, at) in team.asks.items():
        if id in still_open and np.isfinite(there[here]):
            question = problem.questions[id]
            minutes = float(there[here]) + team.reach(now, question.place, question.bring)
            askable.append((id, minutes, int(at[here])))
    if not askable:
        return []
    spans = [problem.outlook.spans[id] for id, _, _ in askable]
    columns = np.concatenate([np.arange(span.start, span.stop) for span in spans])
    counts = np.array([span.stop - span.start for span in spans])
    ends = np.repeat([end for _, _, end in askable], counts)
    all_chances, all_left = problem.outlook.split(*belief)
    chance, left = all_chances[columns], all_left[columns] / all_chances[columns][:, None]
    means, squares = _repair(team, left * holds, np.ones(len(chance)), ends)
    firsts = np.concatenate([[0], np.cumsum(counts)[:-1]])
    mean, square = np.add.reduceat(chance * means, firsts), np.add.reduceat(chance * squares, firsts)
    share = belief[0] + belief[1].sum(axis=1) / 2.0
    bits = _entropy(share[None, :])[0] - np.add.reduceat(chance * _entropy(left), firsts)
    options = []
    for place, (id, minutes, end) in enumerate(askable):
        question = problem.questions[id]
        price = minutes + float(team.ready[end]) - float(team.ready[here]) + onward[question.place or now.place]
        expected = price + float(mean[place]) + base
        spread = _spread(float(mean[place]), float(square[place]))
        gain = max(float(bits[place]), 0.0)
        at_once = question.first and satisfies(now.state, question.state)
        options.append(
            Option(
                "question",
                id,
                minutes,
                expected,
                gain,
                False,
                spread,
                team.own,
                now.state,
                question.state,
                at_once,
            )
        )
    return options


def _entropy(shares: Floats) -> Floats:
    """Return the entropy of each row over the causes, in bits; rows sum to 1."""
    entropy: Floats = -(shares * np.log2(np.maximum(shares, 1e-300))).sum(axis=-1)
    return entropy

"""The optimum of a troubleshooting problem as certified bounds, where a full table is out of reach.

Depth-first branch and bound over (answers, remedies tried, plant state), memo on all of them.
Every node keeps a lower and an upper bound on its minutes, weighted by the probability of being
there; both hold at any time, so that the search may be stopped at any time. The step with the least
lower bound is looked into until another step's is less (recursive best-first search, Korf 1993).

The lower bound: the least minutes are concave in the weights, since they are the least of
many sums of weight x minutes, one for every way to go on. So the causes may be parted into groups and
each group solved as if someone had told which group it is:
    minutes(all) >= sum over groups of minutes(group alone).
A group of two to four causes has a full table: few subsets tried, and most questions drop out of it or
have answers that say the same. The largest sum over many ways of parting the causes is taken.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations

import numpy as np

ROUNDING = 1e-10
"""Minutes that sums of the same minutes in another order may differ by."""

Group = tuple[int, ...]
Way = tuple[int, int, float]
"""From one plant state into another, with the minutes."""


@dataclass(frozen=True)
class Prices:
    """A problem as arrays over n causes, Q questions and the S plant states that steps lead to.

    Attributes:
        prior, holds: shape (n,).
        ready, give_up: minutes from each state, shape (S,).
        ask_minutes, ask_ends: shape (Q, S); minutes are inf where a question cannot be asked.
        mend_minutes, mend_ends: shape (n, S).
        answers: for each question P(outcome | cause), shape (O, n); outcomes that say the same are one.
        start: the state at the start.
    """

    prior: np.ndarray
    holds: np.ndarray
    ready: np.ndarray
    give_up: np.ndarray
    ask_minutes: np.ndarray
    ask_ends: np.ndarray
    mend_minutes: np.ndarray
    mend_ends: np.ndarray
    answers: tuple[np.ndarray, ...]
    start: int


def telling_apart(answers: np.ndarray) -> tuple[np.ndarray, list[int]]:
    """Return the outcomes, those with proportional rows added up, and the new place of each old one."""
    kept: list[np.ndarray] = []
    place: list[int] = []
    for row in answers:
        same = (k for k, one in enumerate(kept) if np.allclose(row / row.sum(), one / one.sum(), 1e-12, 0.0))
        k = next(same, len(kept))
        if k == len(kept):
            kept.append(row.copy())
        else:
            kept[k] += row
        place.append(k)
    return np.array(kept), place


def relevant(prices: Prices, group: Group) -> dict[int, tuple[np.ndarray, list[int]]]:
    """Return the questions that tell a group's causes apart, with their outcomes from `telling_apart`."""
    found = {q: telling_apart(rows[:, list(group)]) for q, rows in enumerate(prices.answers)}
    return {q: one for q, one in found.items() if len(one[0]) > 1}


def cells(prices: Prices, group: Group) -> int:
    """Return the size of a group's table."""
    answered = [len(rows) + 1 for rows, _ in relevant(prices, group).values()]
    return int(np.prod(answered, dtype=float)) * 2 ** len(group) * len(prices.ready)


def worthwhile_ways(prices: Prices) -> list[Way]:
    """Return the plant states worth going to for their own sake, by steps that say nothing of a group.

    Most often there is none: every step takes the cheapest way into the state it needs. Only where the
    nearest state that will do is not the best for what comes after can a detour pay.
    """
    states = range(len(prices.ready))
    steps = [*zip(prices.ask_minutes, prices.ask_ends, strict=True)]
    steps += zip(prices.mend_minutes, prices.mend_ends, strict=True)
    way = np.where(np.eye(len(states), dtype=bool), 0.0, np.inf)
    for minutes, ends in steps:
        for s in states:
            way[s, ends[s]] = min(way[s, ends[s]], minutes[s])
    for via in states:
        way = np.minimum(way, way[:, via, None] + way[None, via, :])

    def pays(s: int, t: int) -> bool:
        there = way[s, t] + ROUNDING
        if prices.ready[s] > there + prices.ready[t]:
            return True
        return any(m[s] + way[ends[s], ends[t]] > there + m[t] for m, ends in steps)

    return [(s, t, way[s, t]) for s in states for t in states if s != t and np.isfinite(way[s, t]) and pays(s, t)]


def table(prices: Prices, group: Group, ways: Sequence[Way] = ()) -> tuple[np.ndarray, np.ndarray]:
    """Return the least minutes of a group alone, per unit of weight, for all that can have come before.

    Filled from the end: all questions answered before fewer, all remedies tried before fewer.

    Returns:
        Shape (outcomes + 1 of each relevant question, 0 for not asked; 2^k remedies tried; S), flat; and the
        offset into it of every question's every outcome, shape (Q, most outcomes).
    """
    causes, k, s = list(group), len(group), len(prices.ready)
    questions = relevant(prices, group)
    outcomes = [rows for rows, _ in questions.values()]
    least = np.zeros((*(len(rows) + 1 for rows in outcomes), 2**k, s))
    weight = np.zeros(least.shape[:-1])
    tried = (np.arange(2**k)[:, None] >> np.arange(k)) & 1 == 1
    remains = np.where(tried, 1.0 - prices.holds[causes], 1.0)
    many = len(outcomes)
    for asked in sorted(range(2**many), key=int.bit_count, reverse=True):
        here = [slice(1, None) if asked >> j & 1 else 0 for j in range(many)]
        belief = prices.prior[causes]
        for j in range(many):
            if asked >> j & 1:
                belief = belief[..., None, :] * outcomes[j]
        left = belief[..., None, :] * remains
        total = left.sum(axis=-1)
        best = total[..., None] * prices.give_up
        for j, q in enumerate(questions):
            if asked >> j & 1:
                continue
            then = (*here[:j], slice(1, None), *here[j + 1 :])
            rest = least[then].sum(axis=(asked & (1 << j) - 1).bit_count())
            can = np.flatnonzero(np.isfinite(prices.ask_minutes[q]))
            value = total[..., None] * prices.ask_minutes[q, can] + rest[..., prices.ask_ends[q, can]]
            best[..., can] = np.minimum(best[..., can], value)
        for done in range(2**k - 1, -1, -1):
            now = best[..., done, :]
            for x, i in enumerate(causes):
                if not done >> x & 1:
                    ends = prices.mend_ends[i]
                    held = (left[..., done, x] * prices.holds[i])[..., None] * prices.ready[ends]
                    rest = best[..., done | 1 << x, :][..., ends]
                    np.minimum(now, total[..., done, None] * prices.mend_minutes[i] + held + rest, out=now)
            for a, b, minutes in ways:
                np.minimum(now[..., a], total[..., done] * minutes + now[..., b], out=now[..., a])
        least[tuple(here)], weight[tuple(here)] = best, total
    least /= weight[..., None]
    offsets = np.zeros(
        (len(prices.answers), max((len(rows) for rows in prices.answers), default=0)), dtype=np.intp
    )
    for (q, (_, place)), stride in zip(questions.items(), least.strides, strict=False):
        offsets[q, : len(place)] = (np.array(place) + 1) * (stride // least.itemsize)
    return least.ravel(), offsets


def partings(causes: Group, groups: Sequence[Group]) -> Iterator[tuple[Group, ...]]:
    """Yield every way to part some causes into groups."""
    if not causes:
        yield ()
        return
    for group in groups:
        if causes[0] in group and set(group) <= set(causes):
            for rest in partings(tuple(i for i in causes if i not in group), groups):
                yield (group, *rest)


class Bounds:
    """Lower bounds from the tables of groups, for many nodes at once."""

    def __init__(self, prices: Prices, most_cells: float) -> None:
        n, s = len(prices.prior), len(prices.ready)
        every = tuple(range(n))
        groups: list[Group] = [group for k in (1, 2) for group in combinations(every, k)]
        room = most_cells - sum(cells(prices, group) for group in groups)
        for k in (3, 4):
            for size, group in sorted((cells(prices, group), group) for group in combinations(every, k)):
                if size <= room:
                    room -= size
                    groups.append(group)
        ways = worthwhile_ways(prices)
        tables = [table(prices, group, ways) for group in groups]
        # A single cause in a parting is of use only where the number of causes is odd.
        parts = [group for group in groups if len(group) > 1 or n % 2]
        at_start = {
            group: prices.prior[list(group)].sum() * flat[prices.start]
            for group, (flat, _) in zip(groups, tables, strict=True)
        }
        best: dict[Group, tuple[float, tuple[Group, ...]]] = {}
        for parting in partings(every, parts):
            value = sum(at_start[group] for group in parting)
            for group in parting:
                best[group] = max(best.get(group, (0.0, ())), (value, parting))
        chosen = sorted({parting for _, parting in best.values()})
        used = [g for g, group in enumerate(groups) if any(group in parting for parting in chosen)]
        groups, tables = [groups[g] for g in used], [tables[g] for g in used]
        self.flat = np.concatenate([flat for flat, _ in tables])
        self.first = np.cumsum([0, *(len(flat) for flat, _ in tables[:-1])])
        self.offsets = np.stack([offsets for _, offsets in tables], axis=-1)
        self.member = np.array([[float(i in group) for group in groups] for i in every])
        self.parting = np.array([[float(group in parting) for parting in chosen] for group in groups])
        inside = [
            [sum(1 << x for x, i in enumerate(g) if tried >> i & 1) for g in groups] for tried in range(2**n)
        ]
        self.tried = np.array(inside, dtype=np.intp) * s

    def below(self, left: np.ndarray, places: np.ndarray) -> np.ndarray:
        """Return lower bounds of rows of weights, shape (B, n), at places in the tables, shape (B, groups)."""
        bounds: np.ndarray = (self.flat[places] * (left @ self.member) @ self.parting).max(axis=1)
        return bounds


@dataclass(slots=True)
class Step:
    """One thing that can be done at a node; `low` and `high` are weighted minutes of it and all after it."""

    low: float
    high: float
    own: float
    question: int
    cause: int
    end: int
    left: np.ndarray
    lows: list[float]
    then: list[Node] = field(default_factory=list)


@dataclass(slots=True)
class Node:
    """Where things stand: answers (as a number, and as places in the tables), remedies tried, plant state."""

    answers: int
    asked: int
    tried: int
    state: int
    left: np.ndarray
    weight: float
    places: np.ndarray
    low: float
    high: float
    steps: list[Step] | None = None


@dataclass(frozen=True)
class Found:
    """Bounds on the optimum, in minutes, and the nodes that were looked into."""

    low: float
    high: float
    nodes: int


class Search:
    """The search from one start, until the bounds meet within `within` minutes or `most_nodes` are looked into."""

    def __init__(self, prices: Prices, within: float, most_nodes: float, most_cells: float) -> None:
        self.prices, self.within, self.bounds = prices, within, Bounds(prices, most_cells)
        self.most_nodes, self.nodes = most_nodes, 0
        self.known: dict[tuple[int, int, int], Node] = {}
        self.static: dict[tuple[int, int, int], tuple] = {}
        self.number = np.cumprod([1, *(len(rows) + 1 for rows in prices.answers)]).tolist()

    def run(self) -> Found:
        """Return what was found."""
        places = np.zeros(len(self.bounds.first), dtype=np.intp)
        at = (places + self.bounds.first + self.bounds.tried[0] + self.prices.start)[None, :]
        low = float(self.bounds.below(self.prices.prior[None, :], at)[0])
        root = self.node(0, 0, 0, self.prices.start, self.prices.prior, 1.0, places, low)
        self.narrow(root, np.inf)
        return Found(float(root.low), float(root.high), self.nodes)

    def node(
        self,
        answers: int,
        asked: int,
        tried: int,
        state: int,
        left: np.ndarray,
        weight: float,
        places: np.ndarray,
        low: float,
    ) -> Node:
        """Return the node, the one known already if there is one."""
        key = answers, tried, state
        found = self.known.get(key)
        if found is None:
            high = weight * self.prices.give_up[state]
            found = self.known[key] = Node(
                answers, asked, tried, state, left, weight, places, min(low, high), high
            )
        return found

    def moves(self, asked: int, tried: int, state: int) -> tuple:
        """Return what can be done, with the factors on the weights and the places of all that may come of it."""
        key = asked, tried, state
        if key not in self.static:
            prices, n = self.prices, len(self.prices.prior)
            factors, places, first, own, what = (
                [np.zeros((0, n))],
                [np.zeros((0, len(self.bounds.first)))],
                [],
                [],
                [],
            )
            count = 0
            for q, rows in enumerate(prices.answers):
                if asked >> q & 1 or not np.isfinite(prices.ask_minutes[q, state]):
                    continue
                end = int(prices.ask_ends[q, state])
                what.append((q, -1, end))
                own.append(np.full(n, prices.ask_minutes[q, state]))
                factors.append(rows)
                places.append(self.bounds.offsets[q, : len(rows)] + self.bounds.tried[tried] + end)
                first.append(count)
                count += len(rows)
            for i in range(n):
                if tried >> i & 1:
                    continue
                end, one = int(prices.mend_ends[i, state]), np.arange(n) == i
                what.append((-1, i, end))
                own.append(prices.mend_minutes[i, state] + one * prices.holds[i] * prices.ready[end])
                factors.append(np.where(one, 1.0 - prices.holds[i], 1.0)[None, :])
                places.append((self.bounds.tried[tried | 1 << i] + end)[None, :])
                first.append(count)
                count += 1
            at = np.concatenate(places).astype(np.intp) + self.bounds.first
            self.static[key] = np.concatenate(factors), at, first, np.array(own).reshape(-1, n), what
        return self.static[key]

    def look_into(self, node: Node) -> None:
        """Fill in a node's steps with their lower bounds, and a better upper bound."""
        self.nodes += 1
        factors, at, first, own, what = self.moves(node.asked, node.tried, node.state)
        node.high = min(node.high, self.mended(node))
        node.steps = []
        if not what:
            return
        left = node.left * factors
        lows = self.bounds.below(left, node.places + at)
        mine = own @ node.left
        last = [*first[1:], len(left)]
        for (q, i, end), low, minutes, a, b in zip(
            what, (np.add.reduceat(lows, first) + mine).tolist(), mine.tolist(), first, last, strict=True
        ):
            if low < node.high:
                node.steps.append(Step(low, np.inf, minutes, q, i, end, left[a:b], lows[a:b].tolist()))

    def mended(self, node: Node) -> float:
        """Return the minutes when no more is asked: remedies in order of chance per minute, then giving up."""
        prices, state, left, weight = self.prices, node.state, node.left.copy(), node.weight
        spent, best = 0.0, weight * prices.give_up[state]
        free = [i for i in range(len(left)) if not node.tried >> i & 1]
        while free:
            ends = prices.mend_ends[free, state]
            price = prices.mend_minutes[free, state] + prices.ready[ends] - prices.ready[state]
            held = left[free] * prices.holds[free]
            x = int((held / np.maximum(price, 1e-9)).argmax())
            spent += weight * prices.mend_minutes[free[x], state] + held[x] * prices.ready[ends[x]]
            weight, state = weight - held[x], ends[x]
            best = min(best, spent + weight * prices.give_up[state])
            free.pop(x)
        return float(best)

    def follow(self, node: Node, step: Step) -> None:
        """Make the nodes that a step leads to."""
        weights = step.left.sum(axis=1).tolist()
        asked, tried = node.asked, node.tried
        if step.question >= 0:
            asked |= 1 << step.question
        else:
            tried |= 1 << step.cause
        for outcome, (left, weight, low) in enumerate(zip(step.left, weights, step.lows, strict=True)):
            answers, places = node.answers, node.places
            if step.question >= 0:
                answers += (outcome + 1) * self.number[step.question]
                places = places + self.bounds.offsets[step.question, outcome]
            step.then.append(self.node(answers, asked, tried, step.end, left, weight, places, low))

    def narrow(self, node: Node, limit: float) -> None:
        """Bring a node's bounds together, until they meet or the lower one is above `limit`."""
        if node.steps is None:
            self.look_into(node)
        while True:
            best, second = None, node.high
            for step in node.steps:
                if best is None or step.low < best.low:
                    best, second = step, second if best is None else min(second, best.low)
                elif step.low < second:
                    second = step.low
            # A step that is dearer than the upper bound is never taken: the upper bound is then the optimum.
            node.low = max(node.low, node.high if best is None else min(best.low, node.high))
            if node.high - node.low <= self.within * node.weight or node.low > limit:
                return
            if self.nodes >= self.most_nodes:
                return
            if not best.then:
                self.follow(node, best)
            self.gather(node, best)
            if best.low > min(second, limit):
                continue
            widest = max(best.then, key=lambda one: one.high - one.low - self.within * one.weight)
            if widest.high - widest.low <= self.within * widest.weight:
                return
            slack = min(second, limit, node.high) - best.low
            self.narrow(widest, widest.low + slack + ROUNDING)
            self.gather(node, best)

    def gather(self, node: Node, step: Step) -> None:
        """Take over into a step, and its node, what has been found of what comes after it."""
        step.low = max(step.low, step.own + sum(one.low for one in step.then))
        step.high = min(step.high, step.own + sum(one.high for one in step.then))
        node.high = min(node.high, step.high)


def bounded(prices: Prices, within: float = 1e-9, most_nodes: float = np.inf, most_cells: float = 0.0) -> Found:
    """Return certified bounds on the least expected minutes.

    Args:
        prices: the problem.
        within: minutes within which the bounds need not come nearer.
        most_nodes: to be looked into; some thousand a second.
        most_cells: room for the tables of groups of three and four causes; some ten million a second.
    """
    return Search(prices, within, most_nodes, most_cells).run()

"""What a visit would cost in minutes, against asking on by phone.

Both are reckoned from one belief over single causes, as trees of what may be asked and answered, each closed by
the cheapest place to stop (backward induction), so that every figure is that of a way of working that
somebody could follow, and never of a hope:

    site(b)  = min( repair(b), minutes of x on site + sum over answers o of P(o) site(b | o) )
    sent(b)  = travel + loading(b) + site(b)
    phone(b) = min( sent(b), minutes of x by phone + sum over answers o of P(o) phone(b | o) )

x is the question, or by phone also the remedy with its proof, that tells most bits a minute. `repair(b)` is the
planner's price of trying remedies in order, giving up where that is cheapest (`planner.repair_minutes`): a
fault that nobody finds costs the whole `give_up_minutes`. The tree on site begins with the greedy one of
the people sent; it may also take every step of the tree by phone, at its price there. So with no travel and no
loading site(b) is never above phone(b) by more than a question costs more on site than by phone: there is
then no reason to ask before sending.

What the answers change before somebody leaves is what goes along. A cause's parts are loaded where a second trip
for them is dearer: `loading(b)` is the sum over parts of min(load, P(parts are wanted) travel). It is concave in
b, so an answer can only lower it on average. Whoever is sent can do all that the remedies need.

Left out, and so small differences mean nothing: that more than one cause is there; walking on the unit; that
questions may still be asked while somebody travels.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from faultdoc.diagnosis.assess import Assessment, situation
from faultdoc.diagnosis.hypotheses import Floats
from faultdoc.diagnosis.planner import TELLING, Crew, Situation, fix_chance, repair_minutes
from faultdoc.diagnosis.problem import Problem
from faultdoc.model.safety import Qualification
from faultdoc.model.tree import NON_ANSWERS

__all__ = ["Act", "Trip", "Weighing", "entropy", "weigh", "weighed"]

SITE_REACH = 0.02
"""Chance below which a branch of the search on site is not grown further, but ends in repair."""

PHONE_REACH = 0.05
"""The same for the branches by phone."""

DEEPEST = 12
"""Questions in a row, at most."""

LIKELY = 0.01
"""Chance of a fix from which a remedy is tried by phone."""

SHORTEST = 0.1
"""Minutes that anything takes at least, in comparing what it tells a minute."""


@dataclass(frozen=True)
class Trip:
    """What sending somebody takes, in minutes.

    Attributes:
        travel: until whoever is sent is on site; a second trip takes as long.
        load: to find and load the parts for one remedy.
    """

    travel: float
    load: float


@dataclass(frozen=True)
class Act:
    """A question asked, or a remedy with its proof carried out, by phone."""

    kind: Literal["question", "remedy"]
    id: str


@dataclass(frozen=True)
class Weighing:
    """Asking on against sending somebody now; all minutes are expected ones.

    Attributes:
        send: from now to a proved fix when somebody is sent now: travel, loading, second trips and the search on
            site, giving up included.
        on_site: of `send`, from the arrival on.
        ask: from now to a proved fix when the next thing is asked or done by phone, and somebody is sent as soon
            as that is cheapest; infinite where nothing is left to ask.
        phone: of `ask`, on the phone.
        by_phone: chance that it ends by phone, when asked on.
        at_visit: chance that the remedy is one for which those sent now would have the parts with them, and that
            it holds.
        next: what to ask or do by phone, None where nothing is left.
        asked: how many questions are expected before somebody is sent or it is fixed, when asked on.
        loads: whether any answer on the way changes which parts would be loaded.
    """

    send: float
    on_site: float
    ask: float
    phone: float
    by_phone: float
    at_visit: float
    next: Act | None
    asked: float
    loads: bool

    @property
    def saves(self) -> float:
        """How much less the visit costs for what is asked before: minutes of it, trips not made included."""
        return self.send - (self.ask - self.phone) if self.next is not None else 0.0

    @property
    def ask_on(self) -> bool:
        """Whether asking on is expected to be at least as quick as sending somebody now."""
        return self.ask <= self.send


@dataclass(eq=False)
class _Node:
    """A belief in a tree, and what follows the act that tells most a minute.

    Attributes:
        shares: shape (n,), of each cause, as though there were one fault; they sum to one.
        state: of the plant, by index.
        reach: chance of getting here.
        open: places of the questions that may still be asked.
        fetched: instruments at hand.
        holds: shape (n,), chance that each cause's remedy holds, 0 where it has been tried.
        act: what is done here, None where the tree ends.
        minutes: of the act.
        fixed: chance that the act, a remedy, ends it.
        end: state of the plant after the act.
        children: by answer, each with its chance.
    """

    shares: Floats
    state: int
    open: frozenset[int]
    fetched: frozenset[str]
    holds: Floats
    reach: float = 1.0
    depth: int = 0
    act: Act | None = None
    minutes: float = 0.0
    fixed: float = 0.0
    end: int = 0
    children: tuple[tuple[float, _Node], ...] = ()

    def after(self, shares: Floats, chance: float, **changes: Any) -> _Node:
        """Return the node behind an answer of some chance."""
        then = replace(self, shares=shares, state=self.end, reach=self.reach * chance, depth=self.depth + 1)
        return replace(then, act=None, minutes=0.0, fixed=0.0, children=(), **changes)


class _Tables:
    """What is the same for every search of a problem, whoever searches."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.ids = list(problem.questions)
        view = problem.outlook
        moved = view.moved[view.question] > 0.0
        self.given: Floats = np.where(moved, view.alone, view.default[:, None])
        """P(outcome | that cause alone), shape (B, n), all questions' outcomes one below the other."""
        self.spans = [view.spans[id] for id in self.ids]
        self.firsts = np.array([span.start for span in self.spans], dtype=np.intp)
        self.bring = [frozenset(one.bring) for one in problem.questions.values()]
        # Questions that ask for the same check or look at the same point are one piece of evidence.
        looks = [({one.check} - {None}) | set(one.points) for one in problem.questions.values()]
        self.alike = [
            frozenset(k for k, other in enumerate(looks) if k == place or one & other)
            for place, one in enumerate(looks)
        ]

    def bits(self, shares: Floats) -> tuple[Floats, Floats, Floats]:
        """Return the bits of each question, and of all outcomes the weights on the causes and the chances."""
        joint = self.given * shares
        chance = joint.sum(axis=1)
        # Entropy after an answer times its chance, without dividing by a chance that may be nothing.
        left = _plogp(chance) - _plogp(joint).sum(axis=1)
        return entropy(shares) - np.add.reduceat(left, self.firsts), joint, chance


@dataclass(frozen=True)
class _Search:
    """A search by some people, greedy by bits a minute.

    Attributes:
        tables: of the problem.
        team: the people.
        least: chance of a branch below which it is not grown further.
        mend: whether remedies are carried out in between; without, they only end it.
    """

    tables: _Tables
    team: Crew
    least: float
    mend: bool

    @cached_property
    def prices(self) -> tuple[Floats, NDArray[np.intp]]:
        """Minutes and end state of every question from every plant state; infinite where these people may not."""
        shape = len(self.tables.ids), len(self.team.own.states)
        minutes, ends = np.full(shape, np.inf), np.zeros(shape, dtype=np.intp)
        for place, id in enumerate(self.tables.ids):
            if id in self.team.asks:
                minutes[place], ends[place] = self.team.asks[id]
        return minutes, ends

    def grow(self, root: _Node) -> list[_Node]:
        """Grow a tree from its root; return its nodes, every one before its children."""
        nodes = [root]
        for node in nodes:  # longer while it is walked
            if node.reach >= self.least and node.depth < DEEPEST:
                self._branch(node)
                nodes.extend(child for _, child in node.children)
        return nodes

    def minutes(self, root: _Node) -> float:
        """Return the expected minutes of this search from a root to a proved fix and a unit ready for service."""
        nodes = self.grow(root)
        fixes = np.array([node.shares * node.holds for node in nodes])
        ends = repair_minutes(self.team, fixes, np.array([node.state for node in nodes]))
        least = dict(zip(nodes, ends.tolist(), strict=True))
        for node in reversed(nodes):
            if node.act is not None:
                further = node.minutes + sum(chance * least[child] for chance, child in node.children)
                least[node] = min(least[node], further)
        return float(least[root])

    def _branch(self, node: _Node) -> None:
        rate = 0.0
        if self.tables.ids:
            bits, joint, chance = self.tables.bits(node.shares)
            minutes = self.prices[0][:, node.state]
            best, price = -1, 0.0
            telling = np.flatnonzero((bits >= TELLING) & np.isfinite(minutes))
            for place in (int(one) for one in telling if one in node.open):
                full = minutes[place] + sum(
                    self.team.fetch[one] for one in self.tables.bring[place] - node.fetched
                )
                if bits[place] > rate * max(full, SHORTEST):
                    rate, best, price = float(bits[place]) / max(full, SHORTEST), place, float(full)
            if best >= 0:
                node.act, node.minutes = Act("question", self.tables.ids[best]), price
                node.end, span = int(self.prices[1][best, node.state]), self.tables.spans[best]
                still, fetched = node.open - self.tables.alike[best], node.fetched | self.tables.bring[best]
                node.children = tuple(
                    (p, node.after(joint[row] / p, p, open=still, fetched=fetched))
                    for row in range(span.start, span.stop)
                    if (p := float(chance[row])) > 0.0
                )
        if self.mend:
            self._branch_remedy(node, rate)

    def _branch_remedy(self, node: _Node, rate: float) -> None:
        """Put a remedy in the question's place where it tells more a minute: whether it was that."""
        now = entropy(node.shares)
        for cause in np.flatnonzero(node.shares * node.holds > LIKELY):
            if self.team.visits[node.state, cause]:
                continue
            fixed = float(node.shares[cause] * node.holds[cause])
            rest, holds = node.shares.copy(), node.holds.copy()
            rest[cause] *= 1.0 - holds[cause]
            holds[cause] = 0.0
            price, left = float(self.team.minutes[0, node.state, cause]), 1.0 - fixed
            told = now - (left * entropy(rest / rest.sum()) if left > 0.0 else 0.0)
            # Nothing else may be left to find out, and yet the fix be worth having.
            if told <= rate * max(price, SHORTEST) and (node.act is not None or fixed <= 0.5):
                continue
            rate = told / max(price, SHORTEST)
            node.act, node.minutes, node.fixed = (
                Act("remedy", self.tables.problem.sets.causes[cause]),
                price,
                fixed,
            )
            node.end = int(self.team.after[0, node.state, cause])
            node.children = ((left, node.after(rest / rest.sum(), left, holds=holds)),) if left > 0.0 else ()


@dataclass(frozen=True)
class _Worth:
    """What a place in the tree by phone comes to; minutes are from there on.

    Attributes:
        site: once somebody is there who may do everything.
        send: when somebody is sent from here.
        go_on: when the act is done by phone; infinite where there is none.
        talk, ended, asked, loads: of going on, as in `Weighing`.
    """

    site: float
    send: float
    go_on: float = np.inf
    talk: float = 0.0
    ended: float = 0.0
    asked: float = 0.0
    loads: bool = False

    @property
    def least(self) -> float:
        return min(self.send, self.go_on)

    @property
    def stays(self) -> bool:
        return self.go_on <= self.send


@dataclass(frozen=True)
class _Loads:
    """What would be loaded: the parts of causes, alike ones once."""

    parts: tuple[NDArray[np.intp], ...]
    bare: NDArray[np.intp]
    trip: Trip

    @classmethod
    def of(cls, problem: Problem, trip: Trip) -> _Loads:
        kinds: dict[tuple[str, ...], list[int]] = {}
        for place, id in enumerate(problem.sets.causes):
            kinds.setdefault(problem.causes[id].remedy.parts, []).append(place)
        bare = np.array(kinds.pop((), []), dtype=np.intp)
        return cls(tuple(np.array(places, dtype=np.intp) for places in kinds.values()), bare, trip)

    def wanted(self, fixes: Floats) -> Floats:
        """Return the chance that each kind of parts is wanted."""
        return np.array([fixes[places].sum() for places in self.parts])

    def minutes(self, fixes: Floats) -> float:
        """Return the expected minutes of loading and of second trips."""
        return float(np.minimum(self.trip.load, self.wanted(fixes) * self.trip.travel).sum())

    def taken(self, fixes: Floats) -> frozenset[int]:
        """Return which kinds of parts go along."""
        return frozenset(np.flatnonzero(self.wanted(fixes) * self.trip.travel > self.trip.load).tolist())

    def served(self, fixes: Floats) -> float:
        """Return the chance that the remedy that holds is one whose parts go along, or that needs none."""
        taken = self.taken(fixes)
        with_parts = sum(float(fixes[places].sum()) for kind, places in enumerate(self.parts) if kind in taken)
        return float(fixes[self.bare].sum()) + with_parts


def weigh(assessment: Assessment, trip: Trip) -> Weighing:
    """Return what asking on by phone costs in minutes, and what sending somebody now does; see above.

    Args:
        assessment: a look at the case; the people on it are those who are talked to.
        trip: what sending takes.
    """
    case, bench = assessment.case, assessment.bench
    caller = bench.crew(case)
    sent = bench.crew(case.model_copy(update={"who": tuple(Qualification)}))
    # What the caller could not tell, or what was put off, may still be looked at by whoever comes.
    open_on_site = [id for id, answer in case.answers.items() if answer in NON_ANSWERS] + list(case.set_aside)
    unsure = [id for id in open_on_site if id in bench.problem.questions]
    now = situation(bench.problem, case)
    weights = assessment.belief.weights
    return weighed(bench.problem, weights, caller, sent, now, assessment.unanswered, trip, unsure)


def weighed(
    problem: Problem,
    weights: Floats,
    caller: Crew,
    sent: Crew,
    now: Situation,
    open_questions: Collection[str],
    trip: Trip,
    unsure: Collection[str] = (),
) -> Weighing:
    """Return the same for a problem by itself.

    Args:
        problem: the compiled problem.
        weights: shape (H,), the belief over sets.
        caller, sent: prices for those who are talked to, and for those who would be sent.
        now: where things stand.
        open_questions: ids of questions that have not been answered or set aside.
        trip: what sending takes.
        unsure: ids of further questions, to which the caller knew no answer.
    """
    tables, loads = _Tables(problem), _Loads.of(problem, trip)
    singles, pairs = problem.sets.singles_and_pairs(weights)
    place = {id: k for k, id in enumerate(tables.ids)}
    by_phone, on_site = _Search(tables, caller, PHONE_REACH, True), _Search(tables, sent, SITE_REACH, False)
    root = _Node(
        shares=singles + pairs.sum(axis=1) / 2.0,
        state=caller.own.index[now.state],
        open=frozenset(place[id] for id in open_questions),
        fetched=now.at_hand,
        holds=np.array([fix_chance(problem, caller, now, id) for id in problem.sets.causes]),
    )
    again = frozenset(place[id] for id in unsure)
    worth: dict[_Node, _Worth] = {}
    for node in reversed(by_phone.grow(root)):
        arrived = replace(
            node, reach=1.0, depth=0, open=node.open | again, fetched=frozenset(), act=None, children=()
        )
        worth[node] = _worth(node, on_site.minutes(arrived), worth, caller, loads)
    best = worth[root]
    return Weighing(
        send=best.send,
        on_site=best.site,
        ask=best.go_on,
        phone=best.talk,
        by_phone=best.ended,
        at_visit=loads.served(root.shares * root.holds),
        next=root.act,
        asked=best.asked,
        loads=best.loads,
    )


def _worth(node: _Node, found: float, worth: Mapping[_Node, _Worth], caller: Crew, loads: _Loads) -> _Worth:
    """Return what a node comes to, from what is behind it and what the search on site takes from here."""
    fixes = node.shares * node.holds
    before = loads.trip.travel + loads.minutes(fixes)
    if node.act is None:
        return _Worth(found, before + found)
    behind = [(chance, child, worth[child]) for chance, child in node.children]
    cost = node.minutes + node.fixed * float(caller.ready[node.end])
    # Whoever is on site may do all that a caller may.
    site = min(found, cost + sum(chance * one.site for chance, _, one in behind))
    carried = loads.taken(fixes)
    on = [(chance, one) for chance, _, one in behind if one.stays]
    return _Worth(
        site=site,
        send=before + site,
        go_on=cost + sum(chance * one.least for chance, _, one in behind),
        talk=node.minutes + sum(chance * one.talk for chance, one in on),
        ended=node.fixed + sum(chance * one.ended for chance, one in on),
        asked=float(node.act.kind == "question") + sum(chance * one.asked for chance, one in on),
        loads=any(
            loads.taken(child.shares * child.holds) != carried or (one.stays and one.loads)
            for _, child, one in behind
        ),
    )


def entropy(shares: Floats) -> float:
    """Return the entropy of shares that sum to one, in bits."""
    return -float(_plogp(shares).sum())


def _plogp(p: Floats) -> Floats:
    product: Floats = p * np.log2(np.maximum(p, 1e-300))
    return product

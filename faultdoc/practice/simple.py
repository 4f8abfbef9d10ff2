"""Simple ways to find a fault without asking anything: a fixed order of remedies, tried until one holds.

What they would have taken on a hidden case is what the engine's minutes are measured against. An order does
not depend on what is hidden, so its minutes follow from the planner's own prices: changes of the plant's state,
walking, the work, its proof, and the way back to service at the end. Every order knows the rates of the causes,
and all but one know when to give up.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from faultdoc.diagnosis.planner import FREE, Crew, Situation
from faultdoc.diagnosis.problem import Problem

__all__ = ["RULES", "Order", "minutes_taken", "order_of"]

Floats = NDArray[np.float64]
Rule = Callable[[Floats, Floats], Floats]


@dataclass(frozen=True)
class Order:
    """Remedies in the order in which they are tried.

    Attributes:
        causes: whose remedies, in order.
        until: minutes spent once so many remedies have been tried and proved, shape (len(causes) + 1,).
        back: minutes from there back to service, of the same shape.
        stop: how many remedies are tried before giving up.
        give_up: minutes until things run again when the search is given up.
    """

    causes: tuple[str, ...]
    until: Floats
    back: Floats
    stop: int
    give_up: float


def per_minute(chance: Floats, price: Floats) -> Floats:
    """Return a rank for each remedy, highest first: its chance to hold over its price."""
    return chance / np.maximum(price, FREE)


def likely(chance: Floats, price: Floats) -> Floats:
    """Return a rank for each remedy, highest first: its chance to hold."""
    return chance


def quick(chance: Floats, price: Floats) -> Floats:
    """Return a rank for each remedy, highest first: the fewest minutes, whatever its chance."""
    return -price


RULES: Mapping[str, tuple[str, Rule, bool]] = {
    "per_minute": ("remedies only, most probable per minute first", per_minute, True),
    "likely": ("remedies only, most probable first", likely, True),
    "quick": ("remedies only, quickest first", quick, True),
    "never_giving_up": ("as the first of these, but never giving up", per_minute, False),
}
"""Id -> words, rule, and whether it gives up where that is expected to be cheapest."""


def order_of(problem: Problem, team: Crew, now: Situation, rule: Rule, gives_up: bool = True) -> Order:
    """Return the order in which a rule tries the remedies of a problem, knowing the rates and nothing else.

    Args:
        problem: the compiled problem.
        team: prices for the people there.
        now: where things stand at the start.
        rule: (chances, prices), shapes (n,), to ranks of the remedies not tried yet; the highest is next.
        gives_up: whether it stops at that place in the order where, by the rates, the expected minutes are fewest.
    """
    sets = problem.sets
    weights = np.exp(sets.log_prior - sets.log_prior.max())
    singles, pairs = sets.singles_and_pairs(weights)
    share = singles + pairs.sum(axis=1) / 2.0
    chance = share * np.array([problem.causes[id].remedy.holds for id in sets.causes])
    here, visited = team.own.index[now.state], 0
    order: list[str] = []
    held: list[float] = []
    until, back = [0.0], [float(team.ready[here])]
    while True:
        left = [
            i
            for i, id in enumerate(sets.causes)
            if id not in now.tried
            and not now.used_up(problem.causes[id].remedy, team.plant)
            and np.isfinite(team.price[visited, here, i])
        ]
        if not left:
            break
        best = left[int(rule(chance[left], team.price[visited, here, left]).argmax())]
        id = sets.causes[best]
        remedy = problem.causes[id].remedy
        until.append(until[-1] + team.reach(now, remedy.place, ()) + float(team.minutes[visited, here, best]))
        visit = bool(team.visits[here, best])
        here, visited = int(team.after[visited, here, best]), visited or int(visit)
        back.append(float(team.ready[here]))
        order.append(id)
        held.append(float(chance[best]))
        resets = dict(now.resets)
        if remedy.resets is not None:
            resets[remedy.resets] = resets.get(remedy.resets, 0) + 1
        now = replace(now, tried=now.tried | {id}, place=remedy.place or now.place, resets=resets)
    spent, ready = np.array(until), np.array(back)
    fixed = np.concatenate([[0.0], np.cumsum(np.array(held) * (spent + ready)[1:])])
    still = 1.0 - np.concatenate([[0.0], np.cumsum(held)])
    expected = fixed + still * (spent + ready + team.plant.give_up_minutes)
    stop = int(expected.argmin()) if gives_up else len(order)
    return Order(tuple(order), spent, ready, stop, team.plant.give_up_minutes)


def minutes_taken(order: Order, faults: Collection[Collection[str]]) -> float:
    """Return the minutes that an order takes to a proved fix and back to service, or to things running again.

    Args:
        order: from `order_of`.
        faults: what is hidden, and for each fault the causes whose remedy mends it.
    """
    last = 0
    for alike in faults:
        places = [place for place, id in enumerate(order.causes[: order.stop], start=1) if id in alike]
        if not places:
            return float(order.until[order.stop] + order.back[order.stop] + order.give_up)
        last = max(last, places[0])
    return float(order.until[last] + order.back[last])

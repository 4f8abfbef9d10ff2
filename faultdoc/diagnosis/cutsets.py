"""Minimal cut sets, exact top-event probability and importance measures of a fault graph.

Probabilities are exact, by a binary decision diagram of the top event (library `dd`): shared
causes are counted once and nothing is assumed rare. Definitions as in the Fault Tree Handbook
(NUREG-0492, 1981) and its aerospace edition (NASA, 2002).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING, Any

import networkx as nx

from faultdoc.diagnosis.graph import TreeError, needed, tops_of
from faultdoc.model.tree import Cause

if TYPE_CHECKING:
    from dd.autoref import BDD, Function

__all__ = ["Importance", "basic_probabilities", "importance", "minimal_cut_sets", "top_probability"]

Sets = frozenset[frozenset[str]]

MOST = 20_000
"""Cut sets, also of a gate on the way; our trees have at most 52, published ones some thousands on the way."""


@dataclass(frozen=True)
class Importance:
    """How much a basic event matters to the top event.

    Attributes:
        birnbaum: P(top | event) - P(top | no event).
        fussell_vesely: P(a minimal cut set that holds the event has occurred | top).
        achievement: risk achievement worth, P(top | event) / P(top).
        reduction: risk reduction worth, P(top) / P(top | no event); infinite where the event is in
            every cut set.
    """

    birnbaum: float
    fussell_vesely: float
    achievement: float
    reduction: float


def minimal_cut_sets(graph: nx.DiGraph[str]) -> tuple[frozenset[str], ...]:
    """Return the minimal cut sets: smallest sets of causes and conditions that bring all tops about.

    Bottom up, each gate's sets reduced by absorption at once. Smallest first, then by name.

    Raises:
        TreeError: when there are more than can be looked through.

    >>> graph = nx.DiGraph([("top", "a"), ("top", "both"), ("both", "b"), ("both", "c")], tops=("top",))
    >>> graph.nodes["top"].update(kind="gate", logic="any")
    >>> graph.nodes["both"].update(kind="gate", logic="all")
    >>> [sorted(one) for one in minimal_cut_sets(graph)]
    [['a'], ['b', 'c']]
    """
    found: dict[str, Sets] = {}
    for node in reversed(list(nx.topological_sort(graph))):
        if graph.nodes[node].get("kind") != "gate":
            found[node] = frozenset({frozenset({node})})
            continue
        children = [found[child] for child in graph.successors(node)]
        logic = graph.nodes[node]["logic"]
        if logic == "any":
            found[node] = _absorb(one for sets in children for one in sets)
        elif logic == "all":
            found[node] = _product(children) if children else frozenset()
        else:
            found[node] = _absorb(one for some in combinations(children, logic) for one in _product(some))
    return tuple(sorted(_product([found[top] for top in tops_of(graph)]), key=lambda one: (len(one), sorted(one))))


def _absorb(sets: Iterable[frozenset[str]]) -> Sets:
    found: set[frozenset[str]] = set()
    for one in sets:
        found.add(one)
        if len(found) > MOST:
            raise TreeError(f"the events can come about in more than {MOST:,} ways; split the tree into several")
    kept: list[frozenset[str]] = []
    for one in sorted(found, key=len):
        if not any(smaller <= one for smaller in kept):
            kept.append(one)
    return frozenset(kept)


def _product(several: Iterable[Sets]) -> Sets:
    made: Sets = frozenset({frozenset()})
    for sets in several:
        made = _absorb(one | other for one in made for other in sets)
    return made


def basic_probabilities(graph: nx.DiGraph[str], catalogue: Mapping[str, Cause]) -> dict[str, float]:
    """Return the prior probability of every cause (rate / 1,000) and condition in the graph."""
    return {
        node: catalogue[node].rate / 1000.0 if data["kind"] == "cause" else data["probability"]
        for node, data in graph.nodes(data=True)
        if data["kind"] != "gate"
    }


def top_probability(graph: nx.DiGraph[str], probabilities: Mapping[str, float]) -> float:
    """Return the exact probability that all tops occur, basic events being independent."""
    _, top = _diagram(graph)
    return _chance(top, probabilities)


def importance(graph: nx.DiGraph[str], probabilities: Mapping[str, float]) -> dict[str, Importance]:
    """Return the importance of every basic event.

    Raises:
        ValueError: when the top event cannot happen.
    """
    manager, top = _diagram(graph)
    whole = _chance(top, probabilities)
    if whole == 0.0:
        raise ValueError("the top event cannot happen, so nothing is of importance to it")
    cut_sets = minimal_cut_sets(graph)
    found: dict[str, Importance] = {}
    for event in probabilities:
        sure = _chance(top, {**probabilities, event: 1.0})
        never = _chance(top, {**probabilities, event: 0.0})
        through = manager.false
        for cut_set in cut_sets:
            if event in cut_set:
                through |= _conjunction(manager, cut_set)
        found[event] = Importance(
            birnbaum=sure - never,
            fussell_vesely=_chance(through, probabilities) / whole,
            achievement=sure / whole,
            reduction=whole / never if never > 0.0 else float("inf"),
        )
    return found


def _diagram(graph: nx.DiGraph[str]) -> tuple[BDD, Function]:
    """Return a manager and the diagram of all tops; variables in the order the tree names them."""
    from dd.autoref import BDD

    manager = BDD()
    order = [
        node for node in nx.dfs_preorder_nodes(_rooted(graph), "") if node and graph.nodes[node]["kind"] != "gate"
    ]
    manager.declare(*order)
    made: dict[str, Function] = {}
    for node in reversed(list(nx.topological_sort(graph))):
        if graph.nodes[node]["kind"] != "gate":
            made[node] = manager.var(node)
            continue
        children = [made[child] for child in graph.successors(node)]
        made[node] = _at_least(manager, children, needed(graph.nodes[node]["logic"], len(children)))
    top = manager.true
    for one in tops_of(graph):
        top &= made[one]
    return manager, top


def _rooted(graph: nx.DiGraph[str]) -> nx.DiGraph[str]:
    rooted = graph.copy()
    rooted.add_edges_from(("", top) for top in tops_of(graph))
    return rooted


def _at_least(manager: BDD, children: list[Function], need: int) -> Function:
    """Return the diagram of 'at least `need` of these', built up one child at a time."""
    so_far = [manager.true] + [manager.false] * need
    for child in children:
        so_far = [so_far[0], *(so_far[k] | (so_far[k - 1] & child) for k in range(1, need + 1))]
    return so_far[need]


def _conjunction(manager: BDD, events: Iterable[str]) -> Function:
    made = manager.true
    for event in events:
        made &= manager.var(event)
    return made


def _chance(top: Function, probabilities: Mapping[str, float]) -> float:
    """Return the probability of a diagram: Shannon's expansion, each node once."""
    known: dict[int, float] = {}

    def of(node: Any) -> float:
        # dd marks complemented edges by a negative number of the same node.
        number = abs(int(node))
        if number not in known:
            if node.var is None:
                known[number] = 1.0
            else:
                plain = node if int(node) > 0 else ~node
                p = probabilities[plain.var]
                known[number] = (1.0 - p) * of(plain.low) + p * of(plain.high)
        return known[number] if int(node) > 0 else 1.0 - known[number]

    return of(top)

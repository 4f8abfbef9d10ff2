"""Fault trees as networkx graphs: which sets of causes bring a symptom about.

Nodes are ids; edges run from an event to what it rests on. Every node carries `kind`: "gate"
(with `logic`: "any", "all" or an integer k for at-least-k), "cause" or "condition" (with
`probability`). Several trees make one graph in which a shared cause is one node.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from itertools import compress, product

import networkx as nx

from faultdoc.model.tree import Cause, Gate, Tree
from faultdoc.model.unit import Feature

__all__ = [
    "TreeError",
    "causes_of",
    "circumstances",
    "conditions_of",
    "fault_graph",
    "needed",
    "symptom_happens",
    "symptom_model",
    "symptom_probability",
    "tops_of",
]


class TreeError(ValueError):
    """The trees do not make a sound graph: a cycle, or a child that nothing defines."""


def fault_graph(
    trees: Iterable[Tree], causes: Mapping[str, Cause], features: Collection[Feature] | None = None
) -> nx.DiGraph[str]:
    """Return the joint graph of some trees.

    Args:
        trees: the trees of the symptoms seen.
        causes: the catalogue, by id; only causes that a gate names are taken.
        features: what the unit has; causes for other units only are left out. None: keep all.

    Raises:
        TreeError: an undefined child, a name used for two things, or a cycle (named).
    """
    graph: nx.DiGraph[str] = nx.DiGraph()
    trees = tuple(trees)
    for tree in trees:
        for gate in tree.events:
            if gate.id in graph and graph.nodes[gate.id]["gate"] != gate:
                raise TreeError(f"event '{gate.id}' is defined in two trees in different ways")
            graph.add_node(gate.id, kind="gate", gate=gate, logic=_logic(gate), title=gate.title)
        for condition in tree.conditions:
            graph.add_node(
                condition.id, kind="condition", probability=condition.probability, title=condition.title
            )
    for tree in trees:
        for gate in tree.events:
            for child in gate.children:
                if child not in graph:
                    if child not in causes:
                        raise TreeError(f"event '{gate.id}' rests on '{child}', which nothing defines")
                    cause = causes[child]
                    if not _fits(cause, features):
                        continue
                    graph.add_node(child, kind="cause", title=cause.title)
                graph.add_edge(gate.id, child)
        if tree.top not in graph:
            raise TreeError(f"tree '{tree.id}': top event '{tree.top}' is not among its events")
    if not nx.is_directed_acyclic_graph(graph):
        cycle = " -> ".join(edge[0] for edge in nx.find_cycle(graph))
        raise TreeError(f"events rest on each other in a circle: {cycle}")
    graph.graph["tops"] = tuple(dict.fromkeys(tree.top for tree in trees))
    reachable = set(graph.graph["tops"]).union(*(nx.descendants(graph, top) for top in graph.graph["tops"]))
    graph.remove_nodes_from([node for node in graph if node not in reachable])
    return graph


def _logic(gate: Gate) -> str | int:
    if gate.at_least is not None:
        return gate.at_least
    return "all" if gate.all is not None else "any"


def needed(logic: str | int, children: int) -> int:
    """Return how many of its children bring a gate about.

    >>> needed("any", 3), needed("all", 3), needed(2, 3)
    (1, 3, 2)
    """
    # A gate whose children were all left out for this unit's features cannot act.
    return 1 if logic == "any" else max(children, 1) if logic == "all" else int(logic)


def _fits(cause: Cause, features: Collection[Feature] | None) -> bool:
    return features is None or all(feature in features for feature in cause.only_with)


def tops_of(graph: nx.DiGraph[str]) -> tuple[str, ...]:
    """Return the top events of the symptoms seen; all of them have happened."""
    tops: tuple[str, ...] = graph.graph["tops"]
    return tops


def causes_of(graph: nx.DiGraph[str]) -> tuple[str, ...]:
    """Return the causes in the graph, in the order in which the trees name them."""
    return tuple(node for node, data in graph.nodes(data=True) if data["kind"] == "cause")


def conditions_of(graph: nx.DiGraph[str]) -> tuple[str, ...]:
    """Return the inhibit conditions in the graph."""
    return tuple(node for node, data in graph.nodes(data=True) if data["kind"] == "condition")


def symptom_probability(graph: nx.DiGraph[str], present: Collection[str]) -> float:
    """Return the probability that all top events occur when exactly the causes `present` are there.

    Exact: 0 or 1 without conditions, else summed over the settings of those conditions that matter.

    >>> graph = nx.DiGraph([("top", "c1"), ("top", "wet")], tops=("top",))
    >>> graph.nodes["top"].update(kind="gate", logic="all")
    >>> graph.nodes["c1"].update(kind="cause")
    >>> graph.nodes["wet"].update(kind="condition", probability=0.25)
    >>> symptom_probability(graph, {"c1"})
    0.25
    """
    return symptom_model(graph)(present)


def symptom_model(graph: nx.DiGraph[str]) -> Callable[[Collection[str]], float]:
    """Return `symptom_probability` of one graph as a function, for many sets of causes: the graph is read once."""
    tops, gates = tops_of(graph), _gates(graph)
    probability = {one: graph.nodes[one]["probability"] for one in conditions_of(graph)}

    def chance(true: set[str], unsettled: frozenset[str]) -> float:
        """Return the probability of all tops, given what is true, over the settings of the other conditions.

        Gates know no 'not', so what happens lies between none of these holding and all of them; only where
        that leaves the tops open is one condition settled both ways (Shannon 1938), one that a gate waits for.
        """
        least = _brought_about(gates, true)
        if least.issuperset(tops):
            return 1.0
        most = _brought_about(gates, true | unsettled)
        if not most.issuperset(tops):
            return 0.0
        waiting = (children for gate, children, _ in gates if gate in most and gate not in least)
        pivot = next(child for children in waiting for child in children if child in unsettled)
        rest, p = unsettled - {pivot}, probability[pivot]
        holds = p * chance(true | {pivot}, rest) if p > 0.0 else 0.0
        return holds + ((1.0 - p) * chance(true, rest) if p < 1.0 else 0.0)

    every = frozenset(probability)
    return lambda present: chance(set(present), every)


Gates = list[tuple[str, tuple[str, ...], int]]
"""Each gate with its children and how many of them bring it about, from the bottom up."""


def _gates(graph: nx.DiGraph[str]) -> Gates:
    gates: Gates = []
    for node in reversed(list(nx.topological_sort(graph))):
        if graph.nodes[node]["kind"] == "gate":
            children = tuple(graph.successors(node))
            gates.append((node, children, needed(graph.nodes[node]["logic"], len(children))))
    return gates


def _brought_about(gates: Gates, present: set[str]) -> set[str]:
    """Return what is true when exactly some causes and conditions are: these, and the gates they bring about."""
    true = set(present)
    for gate, children, need in gates:
        if sum(child in true for child in children) >= need:
            true.add(gate)
    return true


def symptom_happens(graph: nx.DiGraph[str]) -> Callable[[set[str]], bool]:
    """Return a function that says whether all top events occur with exactly some causes and conditions."""
    tops, gates = tops_of(graph), _gates(graph)
    return lambda present: _brought_about(gates, present).issuperset(tops)


def circumstances(graph: nx.DiGraph[str], present: Collection[str]) -> list[tuple[float, tuple[str, ...]]]:
    """Return the ways in which conditions let some causes bring all top events about.

    Returns:
        Of every setting of the conditions under which they do: its probability, and of the conditions that
        hold those without which they would not.
    """
    happens = symptom_happens(graph)
    ways = []
    for weight, holding in _settings(graph):
        if not happens({*present, *holding}):
            continue
        kept = list(holding)
        for condition in holding:
            fewer = [one for one in kept if one != condition]
            if happens({*present, *fewer}):
                kept = fewer
        ways.append((weight, tuple(kept)))
    return ways


def _settings(graph: nx.DiGraph[str]) -> list[tuple[float, tuple[str, ...]]]:
    """Return every setting of the conditions: its probability, and which hold."""
    conditions = conditions_of(graph)
    settings: list[tuple[float, tuple[str, ...]]] = []
    for setting in product((False, True), repeat=len(conditions)):
        weight = 1.0
        for condition, holds in zip(conditions, setting, strict=True):
            probability = graph.nodes[condition]["probability"]
            weight *= probability if holds else 1.0 - probability
        if weight > 0.0:
            settings.append((weight, tuple(compress(conditions, setting))))
    return settings

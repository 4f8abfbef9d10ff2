"""Plant states as a networkx graph: what it costs to bring the plant into the state a step needs.

Nodes are `PlantState`s, edges are state changes with minutes, the qualification they need and
the change itself. The cheapest way into any state that meets a need is a shortest path; a
person may only take the edges they are qualified for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import networkx as nx
import numpy as np
from numpy.typing import NDArray

from faultdoc.diagnosis.hypotheses import Floats
from faultdoc.model.safety import (
    Oil,
    PlantState,
    Qualification,
    StateChange,
    StateNeed,
    after,
    all_states,
    may,
    possible,
    satisfies,
)

__all__ = ["Routes", "plant_graph", "routes"]


def plant_graph(
    changes: Sequence[StateChange], warm_up_minutes: float, warmed_minutes: float = 0.0
) -> nx.MultiDiGraph[PlantState]:
    """Return the plant-state graph.

    Args:
        changes: from resources/plant.yaml.
        warm_up_minutes: what an edge with minutes `oil_warm_up` takes on this unit from nothing.
        warmed_minutes: what of it has passed already. It is gained by staying energised and lost, as
            minutes added to the edge, by whatever lets the oil go cold.
    """
    warmed = min(warmed_minutes, warm_up_minutes)
    graph: nx.MultiDiGraph[PlantState] = nx.MultiDiGraph()
    graph.add_nodes_from(all_states())
    for state in all_states():
        for change in changes:
            if not satisfies(state, change.when):
                continue
            then = after(state, change)
            if then != state and possible(then):
                minutes = warm_up_minutes - warmed if isinstance(change.minutes, str) else change.minutes
                if change.sets.oil is Oil.COLD:
                    minutes += warmed
                graph.add_edge(state, then, key=change.id, minutes=minutes, change=change)
    return graph


@dataclass(frozen=True)
class Routes:
    """All cheapest ways between plant states for people of given qualifications.

    Attributes:
        states: S of them; a state's place is its index.
        minutes: shape (S, S), inf where there is no way.
        first: first[i][j] is the first change on the way from i to j, None where there is none.
        step: step[i][j] is the state after that change.
    """

    states: tuple[PlantState, ...]
    minutes: Floats
    first: tuple[tuple[StateChange | None, ...], ...]
    step: tuple[tuple[int, ...], ...]
    _known: dict[StateNeed, tuple[Floats, NDArray[np.intp]]] = field(
        default_factory=dict, repr=False, compare=False
    )

    @cached_property
    def index(self) -> dict[PlantState, int]:
        """Place of each state."""
        return {state: place for place, state in enumerate(self.states)}

    def into(self, need: StateNeed) -> tuple[Floats, NDArray[np.intp]]:
        """Return for each state the minutes to the nearest state that meets `need`, and which; shapes (S,)."""
        if need not in self._known:
            meets = np.array([satisfies(state, need) for state in self.states])
            costs = np.where(meets[None, :], self.minutes, np.inf)
            nearest = costs.argmin(axis=1)
            self._known[need] = costs[np.arange(len(self.states)), nearest], nearest
        return self._known[need]

    def path(self, start: PlantState, need: StateNeed) -> tuple[StateChange, ...] | None:
        """Return the changes that lead from `start` to the nearest state that meets `need`; None if none do."""
        minutes, nearest = self.into(need)
        at = self.index[start]
        if not np.isfinite(minutes[at]):
            return None
        goal = int(nearest[at])
        changes: list[StateChange] = []
        while at != goal:
            change = self.first[at][goal]
            assert change is not None
            changes.append(change)
            at = self.step[at][goal]
        return tuple(changes)


def routes(graph: nx.MultiDiGraph[PlantState], who: frozenset[Qualification]) -> Routes:
    """Return all cheapest ways for people with the qualifications `who` (Dijkstra from every state)."""
    states = tuple(graph.nodes)
    index = {state: place for place, state in enumerate(states)}
    allowed: nx.DiGraph[PlantState] = nx.DiGraph()
    allowed.add_nodes_from(states)
    for source, target, data in graph.edges(data=True):
        known = allowed.get_edge_data(source, target)
        if may(who, data["change"].who) and (known is None or data["minutes"] < known["minutes"]):
            allowed.add_edge(source, target, **data)
    minutes = np.full((len(states), len(states)), np.inf)
    first: list[list[StateChange | None]] = [[None] * len(states) for _ in states]
    step = [[place] * len(states) for place in range(len(states))]
    for source, (lengths, paths) in nx.all_pairs_dijkstra(allowed, weight="minutes"):
        i = index[source]
        for target, length in lengths.items():
            j = index[target]
            minutes[i, j] = length
            if i != j:
                after = paths[target][1]
                first[i][j] = allowed[source][after]["change"]
                step[i][j] = index[after]
    return Routes(states, minutes, tuple(map(tuple, first)), tuple(map(tuple, step)))

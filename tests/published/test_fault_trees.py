"""Cut sets and top-event probabilities of published fault trees."""

from itertools import combinations

import networkx as nx
import pytest

from faultdoc.diagnosis.cutsets import importance, minimal_cut_sets, top_probability

NUREG = "NUREG-0492, Fault Tree Handbook, 1981, figure VIII-14 and table VIII-1 (as public code quotes them)"
CHINESE = "Tree 'chinese' of the Aralia benchmark (results as in the open tool that ships it; from memory)"


def graph_of(gates, top):
    """Build a fault graph from {gate: (logic, children)}; everything else is a basic event."""
    graph = nx.DiGraph(tops=(top,))
    for gate, (logic, children) in gates.items():
        graph.add_node(gate, kind="gate", logic=logic)
        for child in children:
            if child not in gates:
                graph.add_node(child, kind="cause")
            graph.add_edge(gate, child)
    return graph


TANK = graph_of(
    {
        # Tank rupture: the tank itself, or pressed for more than 60 s by the pump's relay circuit.
        "e1": ("any", ["T", "e2"]),
        "e2": ("any", ["K2", "e3"]),
        "e3": ("all", ["S", "e4"]),
        "e4": ("any", ["S1", "e5"]),
        "e5": ("any", ["K1", "R"]),
    },
    "e1",
)
TANK_PROBABILITIES = {"T": 5e-6, "K2": 3e-5, "K1": 3e-5, "R": 1e-4, "S": 1e-4, "S1": 3e-5}


def test_pressure_tank_cut_sets():
    assert set(minimal_cut_sets(TANK)) == {
        frozenset({"T"}),
        frozenset({"K2"}),
        frozenset({"S", "S1"}),
        frozenset({"S", "K1"}),
        frozenset({"S", "R"}),
    }


def test_pressure_tank_probability(published):
    ours = top_probability(TANK, TANK_PROBABILITIES)
    # Two digits are printed there: 3.4e-5 where the terms add up to 3.5016e-5.
    published(NUREG, "probability that the tank ruptures", 3.4e-5, ours, 0.04, relative=True)


def test_pressure_tank_importance(published):
    found = importance(TANK, TANK_PROBABILITIES)
    published(NUREG, "share of the relay K2 in the rupture", 0.86, found["K2"].fussell_vesely, 0.02, relative=True)
    published(NUREG, "share of the tank in the rupture", 0.14, found["T"].fussell_vesely, 0.04, relative=True)


def _chinese():
    e = [f"e{i}" for i in range(26)]
    sub = {
        "g1": ("any", [e[1], e[2], e[3], "g3"]),
        "g4": ("any", [e[4], e[5], e[6], e[7], "g8"]),
        "g5": ("any", [e[8], "g9"]),
        "g6": ("any", [e[9], e[10], e[11], "g10"]),
        "g7": ("any", [e[12], e[13]]),
        "g11": ("any", [e[14], e[15], e[16], "g17"]),
        "g13": ("any", [e[1], e[2], e[3], "g20"]),
        "g14": ("any", [e[4], e[5], e[6], e[7], "g21"]),
        "g15": ("any", [e[17], e[18]]),
        "g16": ("any", [e[19], e[20], e[21]]),
        "g18": ("any", [e[22], e[23]]),
        "g19": ("any", [e[24], e[25]]),
        "g22": ("any", [e[17], e[18], e[21]]),
        "g23": ("any", [e[19], e[20]]),
        "g24": ("any", [e[14], e[15], e[16], "g28"]),
        "g26": ("any", [e[9], e[10], e[11], "g31"]),
        "g27": ("any", [e[12], e[13]]),
        "g29": ("any", [e[22], e[23]]),
        "g30": ("any", [e[24], e[25]]),
        "g32": ("any", [e[17], e[18], e[21]]),
        "g33": ("any", [e[19], e[20]]),
        "g34": ("any", [e[19], e[20], e[21]]),
        "g35": ("any", [e[17], e[18]]),
    }
    pairs = {
        "r1": ("g1", "g2"), "g2": ("g4", "g5"), "g3": ("g6", "g7"), "g8": ("g11", "g12"), "g9": ("g13", "g14"),
        "g10": ("g15", "g16"), "g12": ("g18", "g19"), "g17": ("g22", "g23"), "g20": ("g24", "g25"),
        "g21": ("g26", "g27"), "g25": ("g29", "g30"), "g28": ("g32", "g33"), "g31": ("g34", "g35"),
    }  # fmt: skip
    return graph_of({**sub, **{gate: ("all", list(children)) for gate, children in pairs.items()}}, "r1")


def test_tree_with_shared_events(published):
    graph = _chinese()
    probabilities = {f"e{i}": 0.02 for i in range(1, 26)}
    cut_sets = minimal_cut_sets(graph)
    published(CHINESE, "minimal cut sets", 392, len(cut_sets), 0)
    published(CHINESE, "minimal cut sets of two events", 12, sum(len(one) == 2 for one in cut_sets), 0)
    published(CHINESE, "top-event probability", 0.0045691, top_probability(graph, probabilities), 5e-7)


def test_cut_sets_of_the_shared_tree_are_minimal():
    sets = minimal_cut_sets(_chinese())
    assert not any(one < other for one, other in combinations(sets, 2))
    assert len(set(sets)) == len(sets)


@pytest.mark.parametrize("n", [3, 5])
def test_voting_gate_reliability(published, n):
    """Majority voting (von Neumann; any reliability text): R = sum of C(n, k) p^k q^(n-k)."""
    ids = [f"c{i}" for i in range(n)]
    graph = graph_of({"top": ((n + 1) // 2, ids)}, "top")
    known = {3: 3 * 0.1**2 * 0.9 + 0.1**3, 5: 10 * 0.1**3 * 0.9**2 + 5 * 0.1**4 * 0.9 + 0.1**5}[n]
    published("majority voting, textbook formula", f"{n} voters failing", known,
              top_probability(graph, dict.fromkeys(ids, 0.1)), 1e-12)  # fmt: skip

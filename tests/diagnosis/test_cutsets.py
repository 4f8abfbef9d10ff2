from itertools import chain, combinations, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from problems import catalogue, cause, random_tree, tree
from scipy.stats import binom

from faultdoc.diagnosis.cutsets import basic_probabilities, importance, minimal_cut_sets, top_probability
from faultdoc.diagnosis.graph import causes_of, conditions_of, fault_graph, symptom_probability


def graph_of(made):
    return fault_graph([made], catalogue(made))


def by_brute_force(graph, probabilities):
    causes = causes_of(graph)
    total = 0.0
    for setting in product((False, True), repeat=len(causes)):
        chance = np.prod(
            [probabilities[c] if on else 1 - probabilities[c] for c, on in zip(causes, setting, strict=True)]
        )
        total += chance * symptom_probability(graph, {c for c, on in zip(causes, setting, strict=True) if on})
    return total


@settings(deadline=None, max_examples=40)
@given(seed=st.integers(0, 2**32 - 1))
def test_random_dags_against_brute_force(seed):
    rng = np.random.default_rng(seed)
    made = random_tree(rng, causes=6, questions=1)
    graph = graph_of(made)
    probabilities = basic_probabilities(graph, catalogue(made))
    whole = by_brute_force(graph, probabilities)
    assert top_probability(graph, probabilities) == pytest.approx(whole, rel=1e-12)

    basic = [*causes_of(graph), *conditions_of(graph)]
    certain = dict.fromkeys(basic, 0.0)

    def happens(events):
        return top_probability(graph, {**certain, **dict.fromkeys(events, 1.0)}) == 1.0

    cuts = [
        frozenset(some)
        for some in chain.from_iterable(combinations(basic, k) for k in range(len(basic) + 1))
        if happens(some)
    ]
    minimal = {one for one in cuts if not any(other < one for other in cuts)}
    assert set(minimal_cut_sets(graph)) == minimal


@settings(deadline=None, max_examples=20)
@given(seed=st.integers(0, 2**32 - 1))
def test_importance_against_its_definitions(seed):
    rng = np.random.default_rng(seed)
    made = random_tree(rng, causes=5, questions=1)
    graph = graph_of(made)
    probabilities = basic_probabilities(graph, catalogue(made))
    whole = by_brute_force(graph, probabilities)
    cut_sets = minimal_cut_sets(graph)
    events = list(probabilities)
    for event, found in importance(graph, probabilities).items():
        if event in causes_of(graph):
            sure = by_brute_force(graph, {**probabilities, event: 1.0})
            never = by_brute_force(graph, {**probabilities, event: 0.0})
            assert found.birnbaum == pytest.approx(sure - never, abs=1e-12)
            assert found.achievement == pytest.approx(sure / whole, rel=1e-9)
            assert found.reduction == pytest.approx(whole / never, rel=1e-9)
        through = 0.0
        for setting in product((0, 1), repeat=len(events)):
            on = {one for one, value in zip(events, setting, strict=True) if value}
            if any(event in one and one <= on for one in cut_sets):
                through += np.prod([probabilities[e] if e in on else 1 - probabilities[e] for e in events])
        assert found.fussell_vesely == pytest.approx(through / whole, rel=1e-9)


@pytest.mark.parametrize(("n", "k"), [(3, 2), (8, 3), (12, 12), (40, 5)])
def test_at_least_k_against_the_binomial(n, k):
    """scipy.stats.binom's survival function."""
    ids = [f"c{i}x" for i in range(n)]
    made = tree([{"id": "top_event", "title": "t", "at_least": k, "of": ids}], [cause(i, 150.0) for i in ids], [])
    graph = graph_of(made)
    found = top_probability(graph, basic_probabilities(graph, catalogue(made)))
    assert found == pytest.approx(binom.sf(k - 1, n, 0.15), rel=1e-9)


def test_several_symptoms_share_a_cause_once():
    made = tree(
        [{"id": "top_one", "title": "t", "any": ["ca", "cb"]}], [cause("ca", 100.0), cause("cb", 100.0)], []
    )
    other = tree([{"id": "top_two", "title": "t", "any": ["ca", "cc"]}], [cause("cc", 100.0)], [])
    causes = catalogue(made) | catalogue(other)
    graph = fault_graph([made, other], causes)
    assert minimal_cut_sets(graph) == (frozenset({"ca"}), frozenset({"cb", "cc"}))
    expected = 0.1 + 0.9 * 0.1 * 0.1
    assert top_probability(graph, basic_probabilities(graph, causes)) == pytest.approx(expected)

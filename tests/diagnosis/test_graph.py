from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from problems import catalogue, cause, random_tree, tree
from scipy.stats import binom

from faultdoc.diagnosis.graph import TreeError, causes_of, circumstances, fault_graph, symptom_probability
from faultdoc.diagnosis.hypotheses import enumerate_sets, prior_odds, tail_mass


def brute(made, present):
    """The same by recursion over the gates, written another way."""
    gates = {gate.id: gate for gate in made.events}

    def happens(id, true):
        if id not in gates:
            return id in true
        gate = gates[id]
        values = [happens(child, true) for child in (gate.any or gate.all or gate.of)]
        if gate.any:
            return any(values)
        return all(values) if gate.all else sum(values) >= gate.at_least

    total = 0.0
    for setting in product((False, True), repeat=len(made.conditions)):
        chance = np.prod(
            [c.probability if on else 1 - c.probability for c, on in zip(made.conditions, setting, strict=True)]
        )
        true = set(present) | {c.id for c, on in zip(made.conditions, setting, strict=True) if on}
        total += chance * happens(made.top, true)
    return total


@settings(deadline=None, max_examples=50)
@given(seed=st.integers(0, 2**32 - 1))
def test_against_recursion(seed):
    rng = np.random.default_rng(seed)
    made = random_tree(rng, causes=5, questions=1)
    graph = fault_graph([made], catalogue(made))
    for setting in product((False, True), repeat=5):
        present = {one.id for one, on in zip(made.causes, setting, strict=True) if on}
        assert symptom_probability(graph, present) == pytest.approx(brute(made, present), abs=1e-12)


@settings(deadline=None, max_examples=50)
@given(seed=st.integers(0, 2**32 - 1))
def test_circumstances_add_up_to_the_symptom_and_none_is_idle(seed):
    rng = np.random.default_rng(seed)
    made = random_tree(rng, causes=4, questions=1)
    graph = fault_graph([made], catalogue(made))
    known = {one.id: one.probability for one in made.conditions}
    for one in made.causes:
        ways = circumstances(graph, {one.id})
        assert sum(chance for chance, _ in ways) == pytest.approx(symptom_probability(graph, {one.id}), abs=1e-12)
        for _, needed in ways:
            # Certain to come about with them; with one of them certain not to hold, less likely than with it.
            sure = made.model_copy(
                update={"conditions": tuple(_with(c, 1.0 if c.id in needed else 0.0) for c in made.conditions)}
            )
            assert brute(sure, {one.id}) == pytest.approx(1.0)
            for idle in needed:
                fewer = tuple(_with(c, 1.0 if c.id in needed and c.id != idle else 0.0) for c in made.conditions)
                assert brute(made.model_copy(update={"conditions": fewer}), {one.id}) == 0.0
            assert set(needed) <= set(known)


def _with(condition, probability):
    return condition.model_copy(update={"probability": probability})


def test_at_least_k_is_binomial():
    """k of n alike causes: P(top) is the binomial's tail (scipy.stats.binom)."""
    ids = [f"c{i}x" for i in range(7)]
    made = tree(
        [{"id": "top_event", "title": "top", "at_least": 3, "of": ids}], [cause(id, 200.0) for id in ids], []
    )
    graph = fault_graph([made], catalogue(made))
    sets = enumerate_sets(graph, prior_odds(causes_of(graph), catalogue(made)), 7)
    nothing = 0.8**7
    assert np.exp(sets.log_prior).sum() * nothing == pytest.approx(binom.sf(2, 7, 0.2), rel=1e-12)


def test_a_circle_is_named():
    made = tree(
        [
            {"id": "top_event", "title": "top", "any": ["mid_event"]},
            {"id": "mid_event", "title": "mid", "any": ["top_event", "ca"]},
        ],
        [cause("ca", 1.0)],
        [],
    )
    with pytest.raises(TreeError, match=r"circle: .*mid_event"):
        fault_graph([made], catalogue(made))


def test_an_undefined_child_is_named():
    made = tree([{"id": "top_event", "title": "top", "any": ["nowhere"]}], [], [])
    with pytest.raises(TreeError, match="'nowhere'"):
        fault_graph([made], {})


@settings(deadline=None, max_examples=50)
@given(
    weights=st.lists(st.floats(0, 5), min_size=1, max_size=7),
    size=st.integers(0, 4),
)
def test_tail_mass_against_enumeration(weights, size):
    total = sum(
        np.prod([w for w, on in zip(weights, setting, strict=True) if on])
        for setting in product((False, True), repeat=len(weights))
        if sum(setting) > size
    )
    assert tail_mass(np.array(weights), size) == pytest.approx(total, rel=1e-9, abs=1e-12)

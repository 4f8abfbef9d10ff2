import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from problems import cause, choice_question, questions_of, random_tree, sets_of, tree

from faultdoc.diagnosis.belief import believe
from faultdoc.diagnosis.evidence import ChoiceEvidence
from faultdoc.diagnosis.likelihood import choice_model
from faultdoc.diagnosis.sensitivity import first_cause, rate_margins, row_margins, with_rate


def test_margin_by_hand():
    """Two causes, odds 3 to 1: the second comes first once its odds are three times as high."""
    made = tree([{"id": "top_event", "title": "t", "any": ["ca", "cb"]}], [cause("ca", 3.0), cause("cb", 1.0)], [])
    sets = sets_of(made, 1)
    ratio = sets.odds[0] / sets.odds[1]
    first, second = rate_margins(sets, first_cause([]))
    assert second.up == pytest.approx(ratio, rel=0.02)
    assert second.down is None
    assert first.down == pytest.approx(ratio, rel=0.02)
    assert first.up is None


def test_row_margin_by_hand():
    """The answer is 0.8 likely under one cause and 0.2 under the other; level when the row falls to 0.2."""
    rows = {"default": (0.5, 0.5), "ca": (0.2, 0.8), "cb": (0.8, 0.2)}
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["ca", "cb"]}],
        [cause("ca", 1.0), cause("cb", 1.0)],
        [choice_question("q1x", 2, rows, slip=1e-9)],
    )
    sets = sets_of(made, 1)
    model = choice_model(made.questions[0], sets.causes)
    margins = {one.cause: one for one in row_margins(sets, [ChoiceEvidence("q1x", 1, model)])}
    assert margins["ca"].down == pytest.approx(4.0 / 0.25, rel=0.02)
    assert margins["ca"].up is None
    assert margins["cb"].up == pytest.approx(16.0, rel=0.02)


@settings(deadline=None, max_examples=15)
@given(seed=st.integers(0, 2**32 - 1))
def test_at_the_margin_it_changes_and_just_before_it_does_not(seed):
    rng = np.random.default_rng(seed)
    made = random_tree(rng, causes=5, questions=3)
    sets = sets_of(made, 2)
    evidence = [
        ChoiceEvidence(id, int(rng.integers(len(question.outcomes))), choice_model(question, sets.causes))
        for id, question in questions_of(made).items()
    ]
    answer = first_cause(evidence)
    for margin in rate_margins(sets, answer):
        if margin.up is not None:
            assert answer(with_rate(sets, margin.cause, margin.up)) != answer(sets)
            assert answer(with_rate(sets, margin.cause, margin.up / 1.02)) == answer(sets)


@settings(deadline=None, max_examples=15)
@given(seed=st.integers(0, 2**32 - 1), factor=st.floats(0.05, 20.0))
def test_with_rate_is_the_same_tree_with_another_rate(seed, factor):
    made = random_tree(np.random.default_rng(seed), causes=4, questions=1)
    sets = sets_of(made, 2)
    changed = with_rate(sets, sets.causes[0], factor)
    odds = sets.odds[0] * factor
    rate = 1000.0 * odds / (1.0 + odds)
    causes = [one.model_copy(update={"rate": rate}) if one.id == sets.causes[0] else one for one in made.causes]
    again = sets_of(made.model_copy(update={"causes": tuple(causes)}), 2)
    assert believe(changed, []).marginal == pytest.approx(believe(again, []).marginal, rel=1e-9)

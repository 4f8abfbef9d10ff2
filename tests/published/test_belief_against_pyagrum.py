"""Belief against an exact Bayesian network library.

Source: pyAgrum (LazyPropagation, exact junction-tree inference), over explicit tables.
"""

import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "diagnosis"))
from exact import exact_marginals
from problems import questions_of, random_tree, sets_of
from test_optimum import cut_down

from faultdoc.diagnosis.belief import believe
from faultdoc.diagnosis.evidence import ChoiceEvidence
from faultdoc.diagnosis.likelihood import choice_model
from faultdoc.library.load import load_library


@pytest.mark.parametrize("seed", range(200))
def test_all_cause_sets_equal_exact_inference(seed):
    rng = np.random.default_rng(seed)
    made = random_tree(rng, causes=int(rng.integers(3, 7)), questions=int(rng.integers(1, 6)))
    sets = sets_of(made, size=len(made.causes))
    answers = {id: int(rng.integers(len(question.outcomes))) for id, question in questions_of(made).items()}
    evidence = [
        ChoiceEvidence(id, outcome, choice_model(questions_of(made)[id], sets.causes))
        for id, outcome in answers.items()
    ]
    belief = believe(sets, evidence)
    exact = exact_marginals(made, answers)
    assert belief.left_out == 0.0
    for id, ours in zip(sets.causes, belief.marginal, strict=True):
        assert ours == pytest.approx(exact[id], abs=1e-9)


SHIPPED = load_library().trees


@pytest.mark.parametrize("tree", SHIPPED.values(), ids=list(SHIPPED))
@pytest.mark.parametrize("seed", range(2))
def test_shipped_trees_cut_down_equal_exact_inference(tree, seed):
    """Five causes of the tree under one gate, five of its choice questions with their own rows."""
    made = cut_down(tree, 5, 5, seed)
    rng = np.random.default_rng(seed)
    sets = sets_of(made, size=len(made.causes))
    questions = questions_of(made)
    made = made.model_copy(update={"questions": tuple(_only(one, sets.causes) for one in made.questions)})
    answers = {id: int(rng.integers(len(one.outcomes))) for id, one in questions.items()}
    evidence = [
        ChoiceEvidence(id, outcome, choice_model(questions[id], sets.causes)) for id, outcome in answers.items()
    ]
    belief, exact = believe(sets, evidence), exact_marginals(made, answers)
    for id, ours in zip(sets.causes, belief.marginal, strict=True):
        assert ours == pytest.approx(exact[id], abs=1e-9)


def _only(question, causes):
    """The question with the rows of these causes only; the network has no others."""
    given = {row: p for row, p in question.given.items() if row == "default" or row in causes}
    return question.model_copy(update={"given": given})

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

from faultdoc.diagnosis.belief import believe
from faultdoc.diagnosis.evidence import ChoiceEvidence
from faultdoc.diagnosis.likelihood import choice_model


@pytest.mark.parametrize("seed", range(40))
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

"""The outlook's matrix form against walking every set."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from problems import cause, check_question, choice_question, sets_of, tree

from faultdoc.diagnosis.belief import believe
from faultdoc.diagnosis.likelihood import (
    choice_model,
    residual_bins,
    residual_edges,
    residual_model,
)
from faultdoc.diagnosis.outlook import outlook

N = 6
IDS = [f"c{i}x" for i in range(N)]


def random_problem(seed):
    rng = np.random.default_rng(seed)
    questions = []
    for q in range(3):
        moved = ["default", *(str(x) for x in rng.choice(IDS, int(rng.integers(0, N + 1)), replace=False))]
        size = int(rng.integers(2, 5))
        questions.append(choice_question(f"q{q}x", size, {row: rng.dirichlet(np.ones(size)) for row in moved}))
        rows = {row: (rng.normal(0, 1), rng.uniform(0.05, 0.5)) for row in moved}
        questions.append(check_question(f"k{q}x", "some_check", rows))
    made = tree(
        [
            {"id": "top_event", "title": "t", "any": ["loose", *IDS[:4]]},
            {"id": "loose", "title": "l", "all": IDS[4:]},
        ],
        [cause(id, float(rng.uniform(1, 400))) for id in IDS],
        questions,
    )
    sets = sets_of(made, 2)
    models = {
        q.id: choice_model(q, sets.causes) if q.outcomes else residual_model(q, sets.causes, -1.0)
        for q in made.questions
    }
    return sets, models


def table_of(model, sets):
    if hasattr(model, "log_cdf"):
        return model.table(sets)
    return residual_bins(model, residual_edges(model), *model.moments(sets))


@settings(deadline=None, max_examples=60)
@given(seed=st.integers(0, 2**32 - 1))
def test_split_equals_walking_every_set(seed):
    sets, models = random_problem(seed)
    weights = believe(sets, []).weights
    chances, left = (found := outlook(models, N)).split(*sets.singles_and_pairs(weights))
    for id, model in models.items():
        joint = table_of(model, sets) * weights[:, None]
        shared = np.zeros((joint.shape[1], N))
        for row, members in enumerate(sets.members):
            there = members[members < N]
            shared[:, there] += joint[row][:, None] / len(there)
        assert chances[found.spans[id]] == pytest.approx(joint.sum(axis=0), abs=1e-12)
        assert left[found.spans[id]] == pytest.approx(shared, abs=1e-12)


@settings(deadline=None, max_examples=40)
@given(seed=st.integers(0, 2**32 - 1))
def test_residual_bins_are_distributions_and_keep_means_apart(seed):
    sets, models = random_problem(seed)
    for model in models.values():
        if hasattr(model, "log_cdf"):
            continue
        edges = residual_edges(model)
        assert (np.diff(edges) > 0).all()
        bins = residual_bins(model, edges, *model.moments(sets))
        assert bins.shape == (len(sets.members), len(edges) + 1)
        assert bins.min() > 0
        assert bins.sum(axis=1) == pytest.approx(1.0, abs=1e-12)

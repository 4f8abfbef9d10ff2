import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from problems import (
    catalogue,
    cause,
    check_question,
    choice_question,
    questions_of,
    random_tree,
    sets_of,
    tree,
)
from scipy.stats import multivariate_normal

from faultdoc.checks.base import CheckResult, Sense, Verdict
from faultdoc.diagnosis.belief import believe
from faultdoc.diagnosis.evidence import ChoiceEvidence, Mended, fix_evidence, gather
from faultdoc.diagnosis.likelihood import SPAN, choice_model, residual_model
from faultdoc.diagnosis.problem import pose
from faultdoc.library.load import load_unit
from faultdoc.quantities import Kind

SHEET = load_unit("bluff_30")
seeds = st.integers(0, 2**32 - 1)


def result(check, residual, u, effects, expected=100.0):
    """A check's result with given residual and effects (in the residual's scale)."""
    from faultdoc.checks.base import Input

    return CheckResult(
        id=check,
        title=check,
        kind=Kind.PRESSURE_DIFFERENCE,
        expected=expected,
        measured=expected * (1 + residual),
        expected_uncertainty=0.0,
        uncertainty=u * expected,
        residual=residual,
        residual_uncertainty=u,
        verdict=Verdict.AS_EXPECTED,
        sense=Sense.BOTH,
        inputs=tuple(Input(name, name, Kind.PRESSURE_DIFFERENCE, 1.0, 1.0, "reading") for name in effects),
        effects={name: effect * expected for name, effect in effects.items()},
        subjects=frozenset(effects),
        working=(),
        remarks=(),
        formula="",
        source="",
    )


def answered(made, sets, answers):
    return [
        ChoiceEvidence(id, outcome, choice_model(questions_of(made)[id], sets.causes))
        for id, outcome in answers.items()
    ]


def two_causes(*questions):
    return tree(
        [{"id": "top_event", "title": "top", "any": ["ca", "cb"]}],
        [cause("ca", 10.0), cause("cb", 10.0)],
        list(questions),
    )


@settings(deadline=None, max_examples=60)
@given(seed=seeds)
def test_left_out_is_a_true_bound(seed):
    rng = np.random.default_rng(seed)
    made = random_tree(rng, causes=int(rng.integers(3, 8)), questions=int(rng.integers(1, 6)))
    size = int(rng.integers(2, 4))
    everything = sets_of(made, size=len(made.causes))
    answers = {id: int(rng.integers(len(q.outcomes))) for id, q in questions_of(made).items()}
    full = believe(everything, answered(made, everything, answers))
    left_out = full.weights[everything.sizes > size].sum()
    few = sets_of(made, size)
    evidence = answered(made, few, answers)
    bound = believe(few, evidence).left_out
    more = sets_of(made, size + 1, smallest=size + 1) if size < len(made.causes) else None
    tighter = believe(few, evidence, more).left_out
    assert left_out <= tighter + 1e-12
    assert left_out <= bound + 1e-12
    assert bound <= 1.0


@settings(deadline=None, max_examples=60)
@given(seed=seeds)
def test_left_out_bounds_residuals_too(seed):
    rng = np.random.default_rng(seed)
    ids = [f"c{i}x" for i in range(5)]
    rows = {id: (rng.normal(0, 1), rng.uniform(0.05, 0.6)) for id in rng.choice(ids, 3, replace=False)}
    others = {id: (rng.normal(0, 1), rng.uniform(0.05, 0.6)) for id in rng.choice(ids, 2, replace=False)}
    made = tree(
        [{"id": "top_event", "title": "top", "any": ids}],
        [cause(id, float(rng.uniform(5, 200))) for id in ids],
        [
            check_question("q1x", "k1x", {"default": (0.0, 0.1), **rows}),
            check_question("q2x", "k2x", {"default": (0.1, 0.2), **others}),
        ],
    )
    results = {
        "k1x": result("k1x", float(rng.normal(0, 1)), 0.1, {"shared": 0.08, "own1": 0.06}),
        "k2x": result("k2x", float(rng.normal(0, 1)), 0.1, {"shared": -0.06, "own2": 0.08}),
    }

    def belief(size):
        sets = sets_of(made, size)
        models = {q.id: residual_model(q, sets.causes, None) for q in made.questions}
        pieces, _ = gather(made.questions, models, {}, results)
        more = sets_of(made, size + 1, smallest=size + 1) if size < 5 else None
        return believe(sets, pieces), believe(sets, pieces, more)

    full, _ = belief(5)
    for size in (1, 2, 3):
        left_out = full.weights[full.sets.sizes > size].sum()
        for bounded in belief(size):
            assert left_out <= bounded.left_out + 1e-12


@settings(deadline=None, max_examples=40)
@given(seed=seeds)
def test_reasons_add_up_to_the_odds(seed):
    rng = np.random.default_rng(seed)
    made = random_tree(rng, causes=5, questions=4)
    sets = sets_of(made, 2)
    answers = {id: int(rng.integers(len(q.outcomes))) for id, q in questions_of(made).items()}
    belief = believe(sets, answered(made, sets, answers))
    for id, p in zip(sets.causes, belief.marginal, strict=True):
        total = belief.prior_decibans[sets.causes.index(id)] + sum(w.decibans for w in belief.weights_of(id))
        assert total == pytest.approx(10 * np.log10(p / (1 - p)), abs=1e-6)


@settings(deadline=None, max_examples=40)
@given(seed=seeds)
def test_order_of_answers_does_not_matter(seed):
    rng = np.random.default_rng(seed)
    made = random_tree(rng, causes=5, questions=4)
    sets = sets_of(made, 2)
    answers = {id: int(rng.integers(len(q.outcomes))) for id, q in questions_of(made).items()}
    evidence = answered(made, sets, answers)
    one, other = believe(sets, evidence), believe(sets, evidence[::-1])
    assert one.marginal == pytest.approx(other.marginal, abs=1e-12)
    assert one.log_evidence == pytest.approx(other.log_evidence, abs=1e-9)


def test_single_residual_matches_bayes_by_hand():
    made = two_causes(check_question("q1x", "k1x", {"default": (0.0, 0.1), "ca": (-0.5, 0.2)}, slip=0.02))
    sets = sets_of(made, 1)
    models = {"q1x": residual_model(made.questions[0], sets.causes, -1.0)}
    pieces, _ = gather(made.questions, models, {}, {"k1x": result("k1x", -0.4, 0.05, {"r": 0.05})})
    belief = believe(sets, pieces)

    def density(x, mean, sd):
        return np.exp(-0.5 * ((x - mean) / sd) ** 2) / (sd * np.sqrt(2 * np.pi))

    a = 0.98 * density(-0.4, -0.5, np.hypot(0.2, 0.05)) + 0.02 / SPAN
    b = 0.98 * density(-0.4, 0.0, np.hypot(0.1, 0.05)) + 0.02 / SPAN
    assert belief.marginal[0] == pytest.approx(a / (a + b), rel=1e-12)


def test_a_wider_meter_says_less():
    made = two_causes(check_question("q1x", "k1x", {"default": (0.0, 0.1), "ca": (-0.5, 0.1)}))
    sets = sets_of(made, 1)
    models = {"q1x": residual_model(made.questions[0], sets.causes, -1.0)}
    found = []
    for u in (0.02, 0.2, 1.0):
        pieces, _ = gather(made.questions, models, {}, {"k1x": result("k1x", -0.5, u, {"r": u})})
        found.append(believe(sets, pieces).marginal[0])
    assert found[0] > found[1] > found[2] > 0.5


def test_the_same_check_asked_twice_moves_nothing():
    rows = {"default": (0.0, 0.1), "ca": (-0.5, 0.1)}
    once = two_causes(check_question("q1x", "k1x", rows))
    twice = two_causes(check_question("q1x", "k1x", rows), check_question("q2x", "k1x", rows))
    beliefs = []
    for made in (once, twice):
        sets = sets_of(made, 2)
        models = {q.id: residual_model(q, sets.causes, None) for q in made.questions}
        pieces, left = gather(made.questions, models, {}, {"k1x": result("k1x", -0.3, 0.05, {"r": 0.05})})
        beliefs.append((believe(sets, pieces).marginal, left))
    assert beliefs[0][0] == pytest.approx(beliefs[1][0], abs=0)
    assert "q2x" in beliefs[1][1]


def test_two_checks_on_one_bad_gauge_count_less_than_two_on_two_gauges():
    """Both read low; where one gauge's error explains both, the case for the cause is weaker."""
    rows = {"default": (0.0, 0.02), "ca": (-0.3, 0.1)}
    made = two_causes(check_question("q1x", "k1x", rows), check_question("q2x", "k2x", rows))
    sets = sets_of(made, 1)
    models = {q.id: residual_model(q, sets.causes, None) for q in made.questions}

    def p(first, second):
        results = {"k1x": result("k1x", -0.3, 0.15, first), "k2x": result("k2x", -0.3, 0.15, second)}
        pieces, _ = gather(made.questions, models, {}, results)
        return believe(sets, pieces).marginal[0]

    shared = p({"gauge": 0.15}, {"gauge": 0.15})
    apart = p({"gauge_one": 0.15}, {"gauge_two": 0.15})
    assert 0.5 < shared < apart


def test_joint_residuals_against_scipy():
    """The density of two residuals on one gauge, no slips, against scipy.stats.multivariate_normal."""
    rows = {"default": (0.0, 0.1), "ca": (-0.3, 0.2)}
    made = two_causes(
        check_question("q1x", "k1x", rows, slip=1e-12), check_question("q2x", "k2x", rows, slip=1e-12)
    )
    sets = sets_of(made, 1)
    models = {q.id: residual_model(q, sets.causes, None) for q in made.questions}
    effects = np.array([[0.12, 0.05, 0.0], [-0.08, 0.0, 0.03]])
    results = {
        f"k{i + 1}x": result(
            f"k{i + 1}x",
            [-0.2, -0.1][i],
            float(np.hypot.reduce(row)),
            dict(zip(("g", "a", "b"), row, strict=True)),
        )
        for i, row in enumerate(effects)
    }
    pieces, _ = gather(made.questions, models, {}, results)
    (piece,) = pieces
    shared = effects @ effects.T
    expected = [
        multivariate_normal([-0.3, -0.3], shared + 0.04 * np.eye(2)).pdf([-0.2, -0.1]),
        multivariate_normal([0.0, 0.0], shared + 0.01 * np.eye(2)).pdf([-0.2, -0.1]),
    ]
    assert piece.likelihood(sets) == pytest.approx(expected, rel=1e-9)


def test_a_choice_about_a_point_already_read_is_left_out():
    rows = {"default": (0.9, 0.1), "ca": (0.1, 0.9)}
    made = two_causes(
        check_question("q1x", "k1x", {"default": (0.0, 0.1), "ca": (-0.5, 0.1)}),
        choice_question("q2x", 2, rows, points=["water_flow"]),
    )
    sets = sets_of(made, 1)
    models = {
        "q1x": residual_model(made.questions[0], sets.causes, None),
        "q2x": choice_model(made.questions[1], sets.causes),
    }
    results = {"k1x": result("k1x", -0.5, 0.05, {"water_flow": 0.05})}
    pieces, left = gather(made.questions, models, {"q2x": "o1x"}, results)
    assert [piece.questions for piece in pieces] == [("q1x",)]
    assert "q2x" in left
    alone, nothing_left = gather(made.questions, models, {"q2x": "o1x"}, {})
    assert [piece.questions for piece in alone] == [("q2x",)]
    assert not nothing_left


def test_one_wrong_answer_rules_nothing_out_for_good():
    rows = {"default": (1.0, 0.0), "ca": (0.0, 1.0)}
    asked = [choice_question(f"q{i}x", 2, rows) for i in range(4)]
    made = two_causes(*asked)
    sets = sets_of(made, 2)
    wrong = believe(sets, answered(made, sets, {"q0x": 0}))
    righted = believe(sets, answered(made, sets, {"q0x": 0, "q1x": 1, "q2x": 1, "q3x": 1}))
    assert wrong.marginal[0] < 0.05
    assert righted.marginal[0] > 0.95


def test_misfit_names_the_answer_that_nothing_explains():
    made = two_causes(
        choice_question("q0x", 2, {"default": (0.5, 0.5), "ca": (0.4, 0.6)}),
        choice_question("q1x", 2, {"default": (1.0, 0.0)}, slip=0.001),
    )
    sets = sets_of(made, 2)
    assert not believe(sets, answered(made, sets, {"q0x": 1, "q1x": 0})).misfits
    misfits = believe(sets, answered(made, sets, {"q0x": 1, "q1x": 1})).misfits
    assert [misfit.evidence.questions for misfit in misfits] == [("q1x",)]
    assert misfits[0].probability == pytest.approx(0.0005)


def test_a_remedy_that_did_not_hold_moves_belief_away():
    made = two_causes()
    sets = sets_of(made, 2)
    holds = {"ca": 0.95, "cb": 0.95}
    before = believe(sets, []).marginal
    failed = believe(sets, fix_evidence([("ca", False)], sets, holds)).marginal
    fixed = believe(sets, fix_evidence([("ca", True)], sets, holds)).marginal
    assert failed[0] < before[0] < fixed[0]
    assert failed[1] > before[1] > fixed[1]
    # Both were there: the first proof fails, the second holds.
    both = believe(sets, fix_evidence([("ca", False), ("cb", True)], sets, holds))
    assert both.marginal[1] > 0.95


def test_fix_evidence_by_hand():
    """One cause, remedy holds 0.9, proof wrong 0.02 either way: P(not held) by total probability."""
    made = two_causes()
    sets = sets_of(made, 1)
    (piece,) = fix_evidence([("ca", False)], sets, {"ca": 0.9, "cb": 0.9})
    assert piece.likelihood(sets) == pytest.approx([0.9 * 0.02 + 0.1 * 0.98, 0.98])


@settings(deadline=None, max_examples=40)
@given(seed=seeds)
def test_outcome_tables_are_distributions(seed):
    rng = np.random.default_rng(seed)
    made = random_tree(rng, causes=5, questions=3)
    sets = sets_of(made, 3)
    for question in made.questions:
        table = choice_model(question, sets.causes).table(sets)
        assert table.min() > 0
        assert table.sum(axis=1) == pytest.approx(1.0, abs=1e-12)


def mended_problem():
    """Two causes, a question that only the second moves, one that only the first moves."""
    ids = ["c0x", "c1x"]
    made = tree(
        [{"id": "top_event", "title": "t", "any": ids}],
        [cause(id, 50.0) for id in ids],
        [
            choice_question("q0x", 2, {"default": [0.95, 0.05], "c0x": [0.1, 0.9]}),
            choice_question("q1x", 2, {"default": [0.95, 0.05], "c1x": [0.1, 0.9]}),
        ],
    )
    return pose([made], catalogue(made), SHEET, {}, 2)


def test_what_is_seen_after_a_remedy_speaks_of_the_causes_left():
    """By enumeration: whether the remedy cleared its cause or not, then the answer by what was left."""
    problem = mended_problem()
    first = problem.sets.causes.index("c0x")
    model = problem.models["q0x"]
    later = np.exp(ChoiceEvidence("q0x", 0, model, Mended((first,), 0.8)).log_likelihood(problem.sets))
    for place, members in enumerate(problem.sets.members.tolist()):
        whole = {problem.sets.causes[i] for i in members if i < 2}

        def seen(left):
            return model.alone(first)[0] if "c0x" in left else model.default[0]

        wanted = 0.8 * seen(whole - {"c0x"}) + 0.2 * seen(whole)
        assert later[place] == pytest.approx(wanted)


def test_a_second_fault_is_believed_when_the_first_is_mended_and_its_sign_is_gone():
    problem = mended_problem()
    first, second = (problem.sets.causes.index(id) for id in ("c0x", "c1x"))
    before = [ChoiceEvidence("q0x", 1, problem.models["q0x"]), ChoiceEvidence("q1x", 1, problem.models["q1x"])]
    tried = fix_evidence([("c0x", False)], problem.sets, {"c0x": 0.9, "c1x": 0.9})
    assert believe(problem.sets, [*before, *tried]).marginal[second] > 0.9
    # Now the first sign is looked for again and is gone: the first fault is mended, not imagined.
    again = [ChoiceEvidence("q0x", 0, problem.models["q0x"], Mended((first,), 0.9)), before[1]]
    assert believe(problem.sets, [*again, *tried]).marginal[second] > 0.9


@given(st.floats(0.05, 0.95), st.integers(0, 1))
def test_the_bounds_hold_after_a_remedy_too(holds, outcome):
    problem = mended_problem()
    piece = ChoiceEvidence("q0x", outcome, problem.models["q0x"], Mended((0, 1), holds))
    seen = np.exp(piece.log_likelihood(problem.sets))
    for bound in piece.bounds():
        most = np.exp(bound.log_common + problem.sets.add_up(bound.log_ratio))
        assert (seen <= most * (1 + 1e-12)).all()

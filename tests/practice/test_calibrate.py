"""Rows from draws: known shifts come back, sources are respected, and what the simulator cannot know stays out."""

import numpy as np
import pytest

from faultdoc.library.load import load_library, load_unit
from faultdoc.model.tree import Question
from faultdoc.practice import calibrate
from faultdoc.practice.calibrate import (
    FEWEST,
    HEALTHY,
    PRIOR_DRAWS,
    Drawn,
    Outcome,
    calibration,
    derive,
    gather,
    same_groups,
    state_for,
)
from faultdoc.practice.closed_loop import draw, drawn_site

COMMON = {
    "ask": {"tech": "What is read?", "caller": "What does it say?"},
    "how": "Look.",
    "where": "There",
    "instrument": "Eye",
    "minutes": 2.0,
    "state": {},
    "who": "crew",
}


def reading(**given) -> Question:
    rows = {"default": {"shift": 0.0, "spread": 0.05, "basis": "estimate"}, **given}
    points = ["strainer_pressure_drop", "water_flow"]
    return Question.model_validate(
        {"id": "drop", **COMMON, "points": points, "check": "strainer_drop", "given": rows}
    )


def choice(**given) -> Question:
    rows = {"default": {"p": {"open": 0.97, "shut": 0.03}, "basis": "estimate"}, **given}
    outcomes = [{"id": "open", "title": "Open"}, {"id": "shut", "title": "Shut"}]
    return Question.model_validate(
        {"id": "valve", **COMMON, "points": ["supply_valve_position"], "outcomes": outcomes, "given": rows}
    )


def drawn(answers, healthy=0.0) -> list[Drawn]:
    return [Drawn("bluff_30", 0.5, one if isinstance(one, str | None) else float(one), healthy) for one in answers]


def shift(at: float, spread: float = 0.1, basis: str = "estimate", **more) -> dict:
    return {"shift": at, "spread": spread, "basis": basis, **more}


HEALTH = drawn(np.random.default_rng(1).normal(0.01, 0.02, 60))


def found(question: Question, answers, cause: str = "strainer_clogged", health=HEALTH):
    findings = {one.cause: one for one in derive(question, {HEALTHY: health, cause: answers})}
    return findings.get(cause)


@pytest.mark.parametrize(("mean", "sd"), [(-0.4, 0.12), (0.8, 0.3), (-1.0, 0.07)])
def test_a_known_shift_and_spread_come_back(mean, sd):
    answers = drawn(np.random.default_rng(7).normal(mean, sd, 400))
    one = found(reading(strainer_clogged=shift(2.0 * mean)), answers)
    assert one.outcome is Outcome.DIFFERS
    assert one.row.shift == pytest.approx(mean, abs=4.0 * sd / np.sqrt(400))
    # Drawing a twentieth in at either end takes some of a normal distribution's scatter.
    assert one.row.spread == pytest.approx(sd, rel=0.15)
    assert one.row.draws == 400


def test_an_outlier_hardly_moves_the_row():
    rng = np.random.default_rng(3)
    answers = rng.normal(0.5, 0.1, 60)
    clean = found(reading(strainer_clogged=shift(1.5)), drawn(answers)).row
    spoilt = found(reading(strainer_clogged=shift(1.5)), drawn([*answers, 40.0])).row
    assert spoilt.shift == pytest.approx(clean.shift, abs=0.03)
    assert spoilt.spread < 1.5 * clean.spread


def test_no_row_is_surer_than_units_differ_or_than_the_author_when_it_is_pinned():
    answers = drawn([-1.0] * 24)
    assert found(reading(strainer_clogged=shift(1.5, spread=0.3)), answers).row.spread == 0.05
    assert found(reading(strainer_clogged=shift(-1.0, spread=0.01)), answers).row.spread == 0.01


def test_multiples_of_what_is_expected_are_not_taken_at_their_word():
    assert found(reading(strainer_clogged=shift(4.0)), drawn([12.0] * 24)).row.spread == 3.0


def test_two_heaps_are_told_and_covered():
    one = found(reading(strainer_clogged=shift(0.0, 0.4)), drawn([-0.5] * 12 + [0.5] * 12))
    assert "two heaps" in one.remark
    assert one.row.spread >= 0.5


def test_answers_on_both_sides_are_told():
    one = found(reading(strainer_clogged=shift(0.5, 0.4)), drawn(np.linspace(-0.6, 0.6, 24)))
    assert "both sides" in one.remark


@pytest.mark.parametrize("basis", ["published", "fleet"])
def test_rows_with_a_source_are_kept(basis):
    row = shift(1.5, basis=basis, source="A handbook")
    question = reading(strainer_clogged=row)
    findings = derive(question, {HEALTHY: HEALTH, "strainer_clogged": drawn([0.5] * 24)})
    kept = next(one for one in findings if one.cause == "strainer_clogged")
    assert kept.outcome is Outcome.KEPT
    assert not kept.written
    assert _file(question, findings).questions == {}


def test_a_reading_that_hardly_moves_is_told():
    one = found(reading(strainer_clogged=shift(1.5)), drawn(np.random.default_rng(2).normal(0.012, 0.02, 40)))
    assert one.outcome is Outcome.STILL
    assert not one.written


def test_the_usual_answer_stays_the_authors():
    findings = derive(reading(), {HEALTHY: drawn(np.random.default_rng(5).normal(0.02, 0.04, 40))})
    assert [(one.cause, one.outcome, one.written) for one in findings] == [(HEALTHY, Outcome.USUAL, False)]


def test_rows_do_not_go_beside_a_usual_answer_that_has_the_symptom_in_it():
    question = reading(strainer_clogged=shift(1.5))
    health = drawn(np.random.default_rng(5).normal(-0.8, 0.02, 40))
    assert found(question, drawn([0.5] * 24), health=health).outcome is Outcome.SYMPTOM


def test_what_the_simulator_is_not_believed_for_has_a_reason_and_is_written_down():
    question = reading(pump_seized=shift(1.5))
    one = found(question, drawn([0.5] * 24), "pump_seized")
    assert one.outcome is Outcome.LEFT_OUT
    (out,) = _file(question, [one]).left_out
    assert (out.question, out.cause) == ("drop", "pump_seized")
    assert "stalled" in out.reason


def test_where_the_fault_changes_nothing_the_simulator_knows_no_way():
    one = found(reading(strainer_clogged=shift(1.5)), drawn([0.0] * 24))
    assert one.outcome is Outcome.NO_WAY
    assert not one.written


def test_too_few_readings_make_no_row():
    answers = drawn([0.5] * (FEWEST - 1) + [None] * 30)
    assert found(reading(strainer_clogged=shift(1.5)), answers).outcome is Outcome.FEW


def test_a_row_that_the_tree_lacks_is_added_only_where_the_reading_moves():
    assert found(reading(), drawn([0.6] * 24)).outcome is Outcome.ADDED
    assert found(reading(), drawn([0.02] * 24)) is None


def test_a_fault_that_comes_and_goes_is_left_out():
    one = found(reading(switch_wiring_loose=shift(-1.0)), drawn([0.6] * 24), "switch_wiring_loose")
    assert one.outcome is Outcome.LEFT_OUT
    assert _file(reading(), [one]).left_out[0].cause == "switch_wiring_loose"


def test_causes_declared_the_same_get_one_row_also_those_not_simulated():
    question = reading(strainer_clogged=shift(1.5), dirt_anywhere=shift(2.0))
    group = frozenset({"strainer_clogged", "dirt_anywhere"})
    findings = derive(question, {HEALTHY: HEALTH, "strainer_clogged": drawn([0.5] * 24)}, [group])
    rows = {one.cause: one.row for one in findings}
    assert rows["strainer_clogged"] == rows["dirt_anywhere"]
    assert rows["dirt_anywhere"].shift == 0.5


def test_what_neither_author_nor_simulator_tells_apart_shares_a_row():
    rng = np.random.default_rng(4)
    question = reading(valve_shut=shift(1.5), hose_kinked=shift(1.5), strainer_clogged=shift(1.6))
    answers = {
        cause: drawn(rng.normal(0.5, 0.2, 24)) for cause in ("valve_shut", "hose_kinked", "strainer_clogged")
    }
    rows = {one.cause: one.row for one in derive(question, {HEALTHY: HEALTH, **answers})}
    assert rows["valve_shut"] == rows["hose_kinked"]
    assert rows["valve_shut"].draws == 48
    assert rows["strainer_clogged"] != rows["valve_shut"]
    far = {**answers, "hose_kinked": drawn(rng.normal(-0.5, 0.2, 24))}
    rows = {one.cause: one.row for one in derive(question, {HEALTHY: HEALTH, **far})}
    assert rows["valve_shut"] != rows["hose_kinked"]


def test_the_order_of_the_draws_does_not_matter():
    rng = np.random.default_rng(4)
    causes = ("valve_shut", "hose_kinked", "strainer_clogged", "load_coil_blocked")
    question = reading(**{cause: shift(1.5) for cause in causes[:3]})
    answers = {cause: drawn(rng.normal(0.5 + 0.02 * at, 0.2, 24)) for at, cause in enumerate(causes)}
    forth = derive(question, {HEALTHY: HEALTH, **answers})
    assert derive(question, {**dict(reversed(answers.items())), HEALTHY: HEALTH}) == forth


def test_one_row_with_a_source_keeps_those_declared_the_same():
    question = reading(strainer_clogged=shift(1.5), dirt_anywhere=shift(1.5, basis="fleet"))
    group = frozenset({"strainer_clogged", "dirt_anywhere"})
    findings = derive(question, {HEALTHY: HEALTH, "strainer_clogged": drawn([0.5] * 24)}, [group])
    assert [one.cause for one in findings if one.written] == []


def test_groups_are_what_the_trees_declare():
    causes = load_library(calibrated=False).causes
    groups = same_groups(causes)
    for group in groups:
        assert all(set(causes[id].same_as) <= group for id in group)
    declared = {id for id, one in causes.items() if one.same_as}
    assert declared <= set().union(*groups)


def test_a_choice_leans_on_the_authored_row_as_on_a_few_draws():
    """The mean of a Dirichlet distribution after counts (Gelman, Bayesian Data Analysis, 3rd ed., 3.4)."""
    question = choice(supply_valve_shut={"p": {"open": 0.1, "shut": 0.9}, "basis": "estimate"})
    one = found(
        question, drawn(["open"] * 6 + ["shut"] * 14, "open"), "supply_valve_shut", drawn(["open"] * 20, "open")
    )
    assert one.row.p["open"] == pytest.approx((6 + PRIOR_DRAWS * 0.1) / (20 + PRIOR_DRAWS), abs=1e-4)
    assert sum(one.row.p.values()) == pytest.approx(1.0, abs=1e-9)


def _file(question, findings):
    tree = next(iter(load_library(calibrated=False).trees.values()))
    return calibration(tree.model_copy(update={"questions": (question,)}), findings, 8, 1)


def test_the_state_asked_in_is_the_nearest_one():
    assert state_for(reading().state).pump.value == "stopped"


def test_the_same_seed_gives_the_same_draws_and_another_seed_others():
    library, sheets = load_library(calibrated=False), [load_unit("bluff_30")]

    def once(seed: int):
        return gather(library, sheets, 1, seed, ["supply_phase_order"])

    first = once(1)
    assert first == once(1)
    assert first != once(2)
    assert any(one.answer != one.healthy for rows in first.values() for one in rows["supply_phases_reversed"])


def test_calibration_and_score_never_draw_the_same_site():
    sheet = load_unit("bluff_30")
    library = load_library(calibrated=False)
    mine = {one.unit.site for seed in range(5) for one in calibrate._healthy_units(library, sheet, 20, seed)}
    theirs = {drawn_site(sheet, np.random.default_rng(seed)) for seed in range(200)}
    theirs |= {draw(seed, tree="supply_phase_order").site for seed in range(10)}
    assert len(mine) == 100
    assert not mine & theirs

"""The engine against simulated units: fair, safe, the same every time, and counted right."""

from dataclasses import replace

import numpy as np
import pytest

from faultdoc.library.load import load_library, load_unit
from faultdoc.practice.closed_loop import draw, play, score, simulated_sets
from faultdoc.practice.simple import RULES
from faultdoc.practice.symptoms import shows
from faultdoc.simulator.faults import FAULTS

CAUSES = load_library().causes
SETTINGS = [draw(seed) for seed in range(12)]
PLAYED = [play(setting) for setting in SETTINGS]


def test_the_same_seed_is_the_same_case_and_the_same_game():
    assert [draw(seed) for seed in range(12)] == SETTINGS
    again = play(SETTINGS[0])
    assert (again.minutes, again.rank, again.case) == (PLAYED[0].minutes, PLAYED[0].rank, PLAYED[0].case)


def test_what_is_drawn_can_bring_the_symptom_about_and_is_simulated():
    for setting in SETTINGS:
        assert tuple(setting.faults) in simulated_sets(setting.unit, setting.tree)[0]
        assert all(FAULTS[id].mildest <= severity <= 1.0 for id, severity in setting.faults.items())


def test_the_unit_shows_what_it_is_called_for_in_the_circumstances_that_the_tree_names():
    for tree in ("freeze_protection", "flow_proving_trip", "one_circuit_only"):
        setting = draw(7, tree=tree)
        assert setting.shown is True
        conditions = {condition.id for condition in load_library().trees[tree].conditions}
        assert set(setting.circumstances) <= conditions
        assert shows(setting.unit_on(load_unit(setting.unit)), tree) is True


def test_two_faults_are_two():
    assert len(draw(5, faults=2).faults) == 2


def test_a_tree_that_does_not_exist_is_refused():
    with pytest.raises(ValueError, match="name another tree"):
        draw(1, tree="no_such_tree")


def test_no_step_is_unsafe_and_most_cases_are_solved():
    assert sum(one.unsafe_steps for one in PLAYED) == 0
    assert sum(one.solved for one in PLAYED) >= 8
    # One who knows the cause is not slower, but for what the engine's way back to service saves.
    assert sum(one.minutes for one in PLAYED if one.solved) > sum(one.minutes_best for one in PLAYED if one.solved)


def test_handing_over_is_counted_and_so_is_asking_nothing():
    for one in PLAYED:
        # What giving up takes until things run again (plant.yaml), and at least nothing back to service.
        assert one.minutes_whole == one.minutes if one.solved else one.minutes_whole >= one.minutes + 1440
        assert set(one.minutes_simple) == set(RULES)
        assert min(one.minutes_simple.values()) > 0
        alike = {one.stood_first} | set(CAUSES[one.stood_first].same_as)
        alike |= {id for id, cause in CAUSES.items() if one.stood_first in cause.same_as}
        assert (one.rank == 1) == bool(alike & set(one.setting.faults))


def test_the_engine_sees_readings_not_faults():
    """Two units that read alike are treated alike, whatever is wrong with them."""
    one = play(replace(SETTINGS[0], faults={"leak_flared_joint": 0.6}, tree="low_suction", unit="bluff_30"))
    other = play(replace(SETTINGS[0], faults={"leak_valve_stem": 0.6}, tree="low_suction", unit="bluff_30"))
    # Up to the first answer that is not a reading, which the trees' tables give.
    first = [next(iter(one.case.readings.items()), None), next(iter(other.case.readings.items()), None)]
    assert first[0] == first[1]


def test_the_score_counts_what_it_says():
    base = next(one for one in PLAYED if not one.stopped)
    right = replace(
        base, solved=True, rank=1, probabilities=np.array([0.9, 0.1]), truths=np.array([1.0, 0.0]), unsafe_steps=0
    )
    wrong = replace(
        base, solved=False, rank=4, probabilities=np.array([0.9, 0.1]), truths=np.array([0.0, 1.0]), unsafe_steps=2
    )
    stopped = replace(base, stopped=True, rank=9)
    found = score([right, wrong, stopped])
    assert (found.cases, found.stopped) == (3, 1)
    assert (found.first, found.first_three, found.solved) == (0.5, 0.5, 0.5)
    assert found.calibration_error == pytest.approx(0.4)
    # By hand: of two at 0.9 both, one or none are true, with 0.81, 0.18, 0.01: 0.081 + 0.072 + 0.009.
    assert found.calibration_chance == pytest.approx(0.162, abs=0.03)
    assert found.brier == pytest.approx((0.02 + 1.62) / 2)
    assert found.unsafe_steps == base.unsafe_steps + 2
    assert found.lost == (wrong,)
    assert found.minutes_whole == pytest.approx(base.minutes_whole)
    assert found.minutes_simple == pytest.approx(base.minutes_simple)
    with pytest.raises(ValueError, match="nothing to score"):
        score([stopped])

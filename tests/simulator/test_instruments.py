"""Instruments: within their limits of error, one calibration all day, and nothing where nothing can be read."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.library.load import load_points
from faultdoc.library.vocabulary import usual_limit
from faultdoc.model.safety import PlantState, all_states
from faultdoc.quantities import Kind
from faultdoc.simulator.instruments import DIVISIONS, Instruments, needed_state, readable

POINTS = load_points()
RUNNING = PlantState.model_validate(
    {"supply": "energised", "panel": "closed", "pump": "running", "water": "pressurised",
     "compressors": "running", "oil": "warm"}
)  # fmt: skip
NUMBERS = [id for id, point in POINTS.items() if point.kind not in (Kind.CHOICE, Kind.NUMBER)]


@given(st.sampled_from(NUMBERS), st.floats(1.0, 400.0), st.integers(0, 2**31))
@settings(deadline=None)
def test_a_reading_is_within_the_limit_of_error_and_the_scales_division(point, truth, seed):
    state = next(state for state in all_states() if readable(point, state))
    found = Instruments(POINTS, np.random.default_rng(seed)).read(point, {point: truth}, state)
    allowed = usual_limit(POINTS[point], truth) + 0.5 * DIVISIONS.get(POINTS[point].kind, 0.0)
    assert abs(found.value - truth) <= allowed * (1 + 1e-9)
    assert found.kind is POINTS[point].kind


def test_one_gauge_keeps_its_calibration_and_two_people_have_different_ones():
    point, truths = "suction_pressure_a", {"suction_pressure_a": 800e3}
    errors = []
    for seed in range(40):
        gauge = Instruments(POINTS, np.random.default_rng(seed))
        errors.append([gauge.read(point, truths, RUNNING).value - 800e3 for _ in range(20)])
    errors = np.array(errors)
    assert errors.mean(axis=1).std() > 1.5 * errors.std(axis=1).mean()


def test_a_meter_that_is_wrong_reads_wrong_by_what_it_is():
    truths = {"water_out_temperature": 280.0}
    right, wrong = (
        Instruments(POINTS, np.random.default_rng(7), biases).read("water_out_temperature", truths, RUNNING).value
        for biases in ({}, {"water_out_temperature": 5.0})
    )
    assert wrong - right == pytest.approx(5.0, abs=0.11)


@pytest.mark.parametrize("point", POINTS)
def test_every_point_can_be_read_in_some_state_of_the_plant(point):
    assert any(readable(point, state) for state in all_states())


def test_nothing_is_read_where_the_plant_is_not_ready_or_nothing_is_there():
    kit = Instruments(POINTS, np.random.default_rng(0))
    at_rest = RUNNING.model_copy(update={"compressors": "stopped", "pump": "stopped"})
    assert kit.read("discharge_pressure_a", {"discharge_pressure_a": 2e6}, at_rest) is None
    assert kit.read("discharge_pressure_a", {}, RUNNING) is None
    assert kit.read("pump_rotation", {"pump_rotation": "reversed"}, RUNNING) == "reversed"


def test_winding_and_insulation_want_the_supply_isolated_and_the_panel_open():
    need = needed_state("winding_resistance_1_l1_l2")
    assert (need.supply, need.panel) == ("isolated", "open")

"""The simulated unit in every state of the plant, and its hidden faults."""

import pytest

from faultdoc.library.load import load_unit
from faultdoc.model.safety import PlantState
from faultdoc.simulator.unit import SimulatedUnit, usual_site

SHEET = load_unit("bluff_30")
FOUND = {
    "supply": "energised", "panel": "closed", "pump": "stopped", "water": "pressurised",
    "compressors": "stopped", "oil": "warm",
}  # fmt: skip


def state(**changes):
    return PlantState.model_validate(FOUND | changes)


RUNNING = state(pump="running", compressors="running")


def unit(**faults):
    return SimulatedUnit(SHEET, usual_site(SHEET), faults)


def test_what_can_be_read_goes_with_the_state():
    healthy = unit()
    at_rest, pumping, running = (healthy.truths(one) for one in (state(), state(pump="running"), RUNNING))
    assert "standing_pressure" in at_rest
    assert "barrel_pressure_drop" not in at_rest
    assert "barrel_pressure_drop" in pumping
    assert "discharge_pressure_a" not in pumping
    assert "discharge_pressure_a" in running
    assert "resting_pressure_a" not in running


def test_without_supply_nothing_is_live():
    dark = unit().truths(state(supply="isolated", oil="cold"))
    assert dark["voltage_l1_l2"] == 0.0
    assert dark["power_indication"] == "dark"


def test_water_let_down_reads_nothing():
    assert unit().truths(state(water="depressurised"))["standing_pressure"] == 0.0


def test_a_fix_takes_the_fault_away_and_the_readings_with_it():
    sick = unit(strainer_clogged=1.0)
    before = sick.truths(state(pump="running"))["strainer_pressure_drop"]
    assert not sick.fix("air_in_loop")
    assert sick.truths(state(pump="running"))["strainer_pressure_drop"] == before
    assert sick.fix("strainer_clogged")
    healthy = unit().truths(state(pump="running"))["strainer_pressure_drop"]
    assert sick.truths(state(pump="running"))["strainer_pressure_drop"] == pytest.approx(healthy)
    assert before > 2.0 * healthy


def test_compressors_that_are_held_back_do_not_run_though_they_are_called():
    held = unit(remote_permission_open=1.0).truths(RUNNING)
    assert "discharge_pressure_a" not in held
    assert "resting_pressure_a" in held


def test_a_unit_without_a_fault_that_was_named_is_not_mended_by_its_remedy():
    assert not unit(strainer_clogged=1.0).fix("loop_leaking")


def test_at_rest_the_log_tells_how_often_it_started_while_it_worked():
    narrow = unit(control_band_narrow=1.0)
    at_work, at_rest = (narrow.truths(one)["starts_in_last_hour_1"] for one in (RUNNING, state()))
    assert at_rest == at_work > unit().truths(state())["starts_in_last_hour_1"]

"""The simulated unit in every state of the plant, and its hidden faults."""

import pytest

from faultdoc.library.load import load_unit
from faultdoc.model.safety import PlantState
from faultdoc.simulator.faults import under
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


def test_a_hold_of_one_circuit_leaves_the_other_at_work():
    site, sound = under(usual_site(SHEET), ["one_circuit_only"])
    held = SimulatedUnit(SHEET, site, {"starts_used_up": 1.0}, sound)
    assert [held.moment(RUNNING).runs(circuit) for circuit in "ab"] == [False, True]
    # Used up means as many as the data sheet allows.
    assert held.truths(RUNNING)["starts_in_last_hour_1"] == SHEET.starts_per_hour


def test_a_main_switch_left_off_leaves_the_supply_at_the_unit_and_all_else_dark():
    dark = unit(main_switch_off=1.0).truths(state())
    assert dark["voltage_l1_l2"] == pytest.approx(SHEET.electrical.voltage, rel=0.05)
    assert (dark["power_indication"], dark["control_voltage"]) == ("dark", 0.0)


def test_one_that_waits_between_two_starts_has_started_in_the_last_hour():
    waits = unit(anti_recycle_running=1.0).truths(state())
    assert 1 <= waits["starts_in_last_hour_1"] < SHEET.starts_per_hour


def test_steps_that_go_off_late_let_the_water_fall_to_the_freeze_protection_and_no_further():
    """By hand: k of four equal steps, k = 3, 2, 1, each 300 s longer than needed, less the load, over C."""
    for load, stops in ((0.8, False), (0.08, True)):
        site = usual_site(SHEET, load=load)
        on_time = SimulatedUnit(SHEET, site, {})
        _, sound = under(site, ["capacity_lags_behind"])
        late = SimulatedUnit(SHEET, site, {}, sound)
        well, ill = on_time.moment(RUNNING), late.moment(RUNNING)
        fall = sum(max(well.cooling * k / 4 - well.load, 0.0) for k in (1, 2, 3)) * 300.0
        fall /= well.loop.loop_heat_capacity
        # 38 degF on the sheet.
        to_trip = well.water_out - (273.15 + (38 - 32) / 1.8)
        assert well.water_out - ill.water_out == pytest.approx(min(fall, to_trip + 0.2), abs=0.05)
        assert (fall > to_trip) == stops


def test_a_fan_stage_that_does_not_come_is_the_first():
    sheet = load_unit("tarn_120")
    site = usual_site(sheet, ambient=313.15)
    well, ill = (
        SimulatedUnit(sheet, site, faults).truths(RUNNING) for faults in ({}, {"fan_stage_not_called": 1.0})
    )
    assert well["fan_current_1_l1"] > 1.0
    assert ill["fan_current_1_l1"] == pytest.approx(0.0, abs=0.01)
    assert (well["fan_rotation_1"], ill["fan_rotation_1"], ill["fan_rotation_2"]) == (
        "forward",
        "still",
        "forward",
    )


def test_a_raised_set_point_keeps_the_loop_there():
    site = usual_site(SHEET, ambient=308.15)
    pumping = state(pump="running")
    assert SimulatedUnit(SHEET, site, {}).truths(pumping)["water_out_temperature"] == pytest.approx(308.15)
    raised = SimulatedUnit(SHEET, site, {"set_point_high": 0.5}).truths(pumping)["water_out_temperature"]
    assert raised == pytest.approx(SHEET.water.design_leaving + 4.0)

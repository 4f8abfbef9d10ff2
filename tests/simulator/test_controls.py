"""The control: what starts what, what waits for what, and every safety of every sheet acts as its sheet says."""

import itertools
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.safeties import WATCHED, trip
from faultdoc.library.load import load_unit, units
from faultdoc.model.unit import Acts
from faultdoc.simulator.condition import Condition, Control, Site
from faultdoc.simulator.controls import (
    DOWN_DELAY,
    FLOW,
    FLOW_SETTLES,
    LEAST_RUN,
    LINE_WARMS,
    MONITOR,
    MONITOR_DELAY,
    OVERLOAD,
    OVERLOAD_DELAY,
    PUMP_RUN_ON,
    UP_DELAY,
    Hold,
    Sensed,
    Switches,
    decide,
    due,
    fresh,
    log_of,
    reset,
    sense,
    starts,
    usual_switches,
)
from faultdoc.simulator.machine import machine
from faultdoc.simulator.oil import oil_truths
from faultdoc.simulator.steady import full_call, moment

MACHINES = {id: machine(load_unit(id)) for id in units()}
BLUFF, TARN = MACHINES["bluff_30"], MACHINES["tarn_120"]
WARM_OIL = 48 * 3600.0
FLOW_POINTS = {"barrel_pressure_drop", "water_flow"}
KINDS = {family: kind for family, kind, _, _ in WATCHED}


def sensed(unit, warmer=10.0, **over):
    """What a healthy control senses, the leaving water some kelvins over the set point."""
    electrical, where = unit.sheet.electrical, {}
    for pair in ("l1_l2", "l2_l3", "l3_l1"):
        where[f"voltage_{pair}"] = electrical.voltage
    where |= {
        "phase_sequence": "forward",
        "power_indication": "lit",
        "control_voltage": electrical.control_voltage,
        "flow_switch_contact": "closed",
        "water_out_temperature": unit.sheet.water.design_leaving + warmer,
    }
    where |= over
    return Sensed(where, where)


def play(unit, panel, seconds, what, condition=None, switches=None, dt=1.0):
    """Let the control look at the same readings again and again; return its memory and every change it made."""
    condition, switches = condition or Condition(), switches or usual_switches(unit.sheet)
    told = []
    for _ in range(round(seconds / dt)):
        before = panel
        panel, call = decide(unit, condition, panel, switches, what, dt)
        assert call.pump == panel.pump
        assert call.compressors == panel.loading
        if (before.pump, before.loading) != (panel.pump, panel.loading):
            told.append((panel.now, panel.pump, panel.loading))
    return panel, told


def running(unit, condition=None):
    """The memory of a control whose unit runs at full."""
    panel, _ = play(unit, fresh(unit, WARM_OIL), 3600.0, sensed(unit), condition, dt=5.0)
    assert set(panel.loading) == {1.0}
    return panel


RUNNING = {id: running(unit) for id, unit in MACHINES.items()}


def test_the_pump_starts_first_then_compressors_one_by_one_alternating_between_circuits():
    _, told = play(BLUFF, fresh(BLUFF, WARM_OIL), 400.0, sensed(BLUFF))
    loadings = [loading for _, _, loading in told]
    assert loadings == [(0, 0, 0, 0), (1, 0, 0, 0), (1, 0, 1, 0), (1, 1, 1, 0), (1, 1, 1, 1)]
    times = [time for time, _, _ in told]
    assert times[0] == 1.0
    assert times[1] - times[0] == FLOW_SETTLES
    assert {later - sooner for sooner, later in itertools.pairwise(times[1:])} == {UP_DELAY}


def test_screws_load_step_by_step_and_unload_the_same_way_back():
    panel, told = play(TARN, fresh(TARN, WARM_OIL), 900.0, sensed(TARN))
    up = [(0, 0), (0.25, 0), (0.5, 0), (0.75, 0), (1, 0), (1, 0.25), (1, 0.5), (1, 0.75), (1, 1)]
    assert [loading for _, _, loading in told] == up
    _, told = play(TARN, panel, 900.0, sensed(TARN, warmer=-2.0))
    assert [loading for _, _, loading in told] == [*up[-2:0:-1], (0, 0)]
    times = [time for time, _, _ in told]
    assert min(later - sooner for sooner, later in itertools.pairwise(times)) >= DOWN_DELAY


def test_within_the_band_nothing_changes():
    panel = RUNNING["bluff_30"]
    for warmer in (-0.69, 0.0, 2.09):
        assert play(BLUFF, panel, 600.0, sensed(BLUFF, warmer))[1] == []


def test_a_compressor_runs_a_while_unless_the_water_falls_far():
    panel, _ = play(BLUFF, fresh(BLUFF, WARM_OIL), 20.0, sensed(BLUFF))
    started = panel.compressors[0][-1][0]
    gentle, told = play(BLUFF, panel, 200.0, sensed(BLUFF, -2.0))
    assert told[-1][0] - started == pytest.approx(LEAST_RUN)
    urgent, told = play(BLUFF, panel, 200.0, sensed(BLUFF, -3.0))
    assert told[-1][0] - started == pytest.approx(DOWN_DELAY)
    assert gentle.stage == urgent.stage == 0


def test_no_proof_of_flow_within_the_allowance_and_the_pump_gives_up_till_reset():
    panel, told = play(BLUFF, fresh(BLUFF, WARM_OIL), 200.0, sensed(BLUFF, flow_switch_contact="open"))
    allowance = BLUFF.sheet.water.flow_proving.start_allowance
    assert [(time, pump) for time, pump, _ in told] == [(1.0, True), (1.0 + allowance, False)]
    assert [(stop.safety, stop.latched) for stop in panel.lock_outs] == [(FLOW, True)]
    assert panel.hold == FLOW
    # Flow that comes later does not undo it; a reset does.
    assert play(BLUFF, panel, 600.0, sensed(BLUFF))[1] == []
    again, _ = play(BLUFF, reset(panel, FLOW), 30.0, sensed(BLUFF))
    assert again.pump
    assert again.stage == 1


def test_flow_lost_for_its_delay_stops_the_compressors_and_its_return_lets_them_go():
    panel = RUNNING["bluff_30"]
    delay = BLUFF.sheet.water.flow_proving.trip_delay
    short, _ = play(BLUFF, panel, delay, sensed(BLUFF, flow_switch_contact="open"))
    assert short.stage == 4
    lost, _ = play(BLUFF, short, 1.0, sensed(BLUFF, flow_switch_contact="chatters"))
    assert (lost.stage, lost.pump, lost.hold) == (0, True, FLOW)
    back, _ = play(BLUFF, lost, 10.0, sensed(BLUFF))
    assert back.stops == ()
    assert back.hold == Hold.ANTI_RECYCLE


def listed():
    return [
        pytest.param(id, safety, point, id=f"{id}-{safety.id}-{point}")
        for id, unit in MACHINES.items()
        for safety in unit.sheet.safeties
        if safety.point not in FLOW_POINTS
        for point in {
            "discharge_pressure_{circuit}": ["discharge_pressure_a", "discharge_pressure_b"],
            "suction_pressure_{circuit}": ["suction_pressure_a", "suction_pressure_b"],
            "discharge_line_temperature_{circuit}": ["discharge_line_temperature_b"],
            "voltage_{pair}": ["voltage_l1_l2", "voltage_l3_l1"],
            "pump_current_{line}": ["pump_current_l2"],
        }.get(safety.point, [safety.point])
    ]


@pytest.mark.parametrize(("id", "safety", "point"), listed())
def test_every_safety_of_every_sheet_acts_past_its_setting_after_its_delay_and_lets_go_as_the_sheet_says(
    id, safety, point
):
    unit, panel = MACHINES[id], RUNNING[id]
    where = trip(safety, KINDS[safety.point])
    sign = 1.0 if safety.acts is Acts.ABOVE else -1.0
    hair = 1e-6 * abs(where.at)
    lag = {"pump_current_l2": OVERLOAD_DELAY, "discharge_line_temperature_b": LINE_WARMS}
    delay = lag.get(point, 0.0) if safety.delay is None else safety.delay
    # The leaving water has its own thermostat; the control's own sensor is not asked here.
    truth = dict(sensed(unit).truth)

    def reads(value):
        both = {**truth, point: value}
        return Sensed(both, {**both, "water_out_temperature": truth["water_out_temperature"]})

    inside, _ = play(unit, panel, delay + 60.0, reads(where.at - sign * hair))
    assert inside.stops == ()
    past = reads(where.at + sign * hair)
    before, _ = play(unit, panel, delay, past)
    assert before.stops == ()
    acted, _ = play(unit, before, 1.0, past)
    assert [(stop.safety, stop.point, stop.latched) for stop in acted.stops] == [
        (safety.id, point, safety.manual_reset)
    ]
    own = [number for number in range(1, len(unit.sheet.compressors) + 1) if acted.loading[number - 1] == 0.0]
    circuit = point[-1]
    whole = list(range(1, len(unit.sheet.compressors) + 1))
    expected = unit.compressors[unit.circuits.index(circuit)] if circuit in unit.circuits else whole
    assert own == list(expected)
    assert acted.pump == (not point.startswith(("voltage_", "pump_")))
    # Half-way back is not enough, and for one that is reset by hand nothing is.
    if where.resets_at is not None:
        half, _ = play(unit, acted, 5.0, reads(0.5 * (where.at + where.resets_at)))
        assert len(half.stops) == 1
    well = where.at - 2.0 * sign * abs(where.at - (where.resets_at or where.at * 0.9))
    back, _ = play(unit, acted, 5.0, reads(well))
    assert bool(back.stops) == safety.manual_reset
    if safety.manual_reset:
        assert reset(back, safety.id).stops == ()
        # With its cause still there it acts again.
        assert play(unit, reset(back, safety.id), delay + 1.0, past)[0].lock_outs


def test_low_pressure_is_not_looked_at_in_the_first_minute_after_a_start_in_the_circuit():
    low = sensed(BLUFF, suction_pressure_a=500e3)
    panel, told = play(BLUFF, fresh(BLUFF, WARM_OIL), 16.0, sensed(BLUFF))
    started = told[-1][0]
    after, _ = play(BLUFF, panel, 62.0, low)
    assert [(stop.safety, stop.time) for stop in after.stops] == [("low_pressure", started + 61.0)]
    # Low since half a minute when the circuit's second compressor starts, which puts it off once more.
    panel, _ = play(BLUFF, panel, 90.0, sensed(BLUFF))
    assert panel.loading == (1, 0, 1, 0)
    after, told = play(BLUFF, panel, 120.0, low)
    assert told[0][2] == (1, 1, 1, 0)
    assert [stop.time for stop in after.stops] == [told[0][0] + 61.0]


def test_a_shifted_setting_and_a_biased_sensor_move_where_a_safety_acts():
    panel = RUNNING["bluff_30"]
    near = sensed(BLUFF, discharge_pressure_a=4.0e6)
    assert play(BLUFF, panel, 5.0, near)[0].stops == ()
    shifted = Condition(control=Control(safety_shift={"high_pressure": -500e3}))
    assert [one.safety for one in play(BLUFF, panel, 5.0, near, shifted)[0].stops] == ["high_pressure"]


def test_the_control_senses_the_truth_and_the_error_of_its_sensors_but_the_freeze_thermostat_has_its_own_bulb():
    biased = Condition(control=Control(sensor_bias={"water_out_temperature": 6.0, "suction_pressure_a": -150e3}))
    found = sense(moment(BLUFF, Site(), biased, full_call(BLUFF), 285.15, was_proved=True))
    for point, error in biased.control.sensor_bias.items():
        assert found.control[point] - found.truth[point] == pytest.approx(error)
    assert found.watched("water_out_temperature") == found.truth["water_out_temperature"]
    assert found.watched("suction_pressure_a") == found.control["suction_pressure_a"]


def test_a_wrong_or_missing_phase_stops_everything_and_lets_go_by_itself():
    for sequence in ("reversed", "missing"):
        panel, _ = play(BLUFF, RUNNING["bluff_30"], MONITOR_DELAY + 1.0, sensed(BLUFF, phase_sequence=sequence))
        assert (panel.hold, panel.pump, panel.stage) == (MONITOR, False, 0)
        assert play(BLUFF, panel, 2.0, sensed(BLUFF))[0].pump


def test_a_compressor_that_draws_too_much_is_stopped_alone_and_stays_so():
    rated = BLUFF.sheet.compressors[1].rated_current
    high = sensed(BLUFF, compressor_current_2_l3=1.26 * rated)
    panel, _ = play(BLUFF, RUNNING["bluff_30"], OVERLOAD_DELAY, high)
    assert panel.stage == 4
    panel, _ = play(BLUFF, panel, 1.0, high)
    assert panel.loading == (1, 0, 1, 1)
    assert [stop.safety for stop in panel.lock_outs] == [OVERLOAD]
    well = sensed(BLUFF, compressor_current_2_l3=1.24 * rated)
    assert play(BLUFF, panel, 600.0, well)[0].loading == (1, 0, 1, 1)


def test_a_loss_of_power_stops_everything_restarts_the_warm_up_and_keeps_lock_outs():
    panel, _ = play(BLUFF, RUNNING["bluff_30"], 1.0, sensed(BLUFF, discharge_pressure_a=5e6))
    none = {f"voltage_{pair}": 0.0 for pair in ("l1_l2", "l2_l3", "l3_l1")}
    dark, _ = play(BLUFF, panel, 10.0, sensed(BLUFF, power_indication="dark", **none))
    assert (dark.pump, dark.stage, dark.hold) == (False, 0, Hold.NO_POWER)
    assert [stop.safety for stop in dark.lock_outs] == ["high_pressure"]
    back, _ = play(BLUFF, dark, 60.0, sensed(BLUFF))
    assert (back.pump, back.stage, back.hold) == (True, 0, Hold.WARMING_OIL)
    almost, _ = play(BLUFF, back, 8 * 3600.0 - 120.0, sensed(BLUFF), dt=60.0)
    assert almost.hold == Hold.WARMING_OIL
    # Circuit A is still locked out; B starts.
    done, _ = play(BLUFF, almost, 600.0, sensed(BLUFF), dt=10.0)
    assert done.loading == (0, 0, 1, 1)
    # The log says the same as the timers of the checks read from it.
    found = oil_truths(BLUFF.sheet, Site(), {}, log_of(done))
    assert found["hours_energised_since_power_up"] == pytest.approx(8 * 3600.0 + 539.0, abs=61.0)
    assert found["starts_in_last_hour_3"] == starts(done, 3) == 1.0


def test_a_dead_control_circuit_holds_everything_but_keeps_the_heaters_count():
    dark, _ = play(BLUFF, RUNNING["bluff_30"], 10.0, sensed(BLUFF, power_indication="dark", control_voltage=0.0))
    assert (dark.pump, dark.stage, dark.hold) == (False, 0, Hold.NO_CONTROL_VOLTAGE)
    assert play(BLUFF, dark, 20.0, sensed(BLUFF))[0].hold == Hold.ANTI_RECYCLE


def test_contactors_do_not_come_in_on_three_quarters_of_the_control_voltage_but_stay_in():
    weak = sensed(BLUFF, control_voltage=0.75 * 115.0)
    at_rest, _ = play(BLUFF, fresh(BLUFF, WARM_OIL), 60.0, weak)
    assert (at_rest.pump, at_rest.hold) == (False, Hold.NO_CONTROL_VOLTAGE)
    assert play(BLUFF, RUNNING["bluff_30"], 60.0, weak)[0].stage == 4


@pytest.mark.parametrize(
    ("change", "hold"),
    [
        ({"unit": False}, Hold.SWITCHED_OFF),
        ({"permission": False}, Hold.NO_PERMISSION),
    ],
)
def test_switched_off_the_pump_runs_on_for_a_while(change, hold):
    switches = replace(usual_switches(BLUFF.sheet), **change)
    panel, told = play(BLUFF, RUNNING["bluff_30"], 300.0, sensed(BLUFF), switches=switches)
    assert [(pump, sum(loading)) for _, pump, loading in told] == [(True, 0), (False, 0)]
    assert told[1][0] - told[0][0] == PUMP_RUN_ON
    assert panel.hold == hold


def test_by_hand_the_pump_runs_with_the_unit_off():
    switches = replace(usual_switches(BLUFF.sheet), unit=False, pump_by_hand=True)
    panel, _ = play(BLUFF, fresh(BLUFF, WARM_OIL), 60.0, sensed(BLUFF), switches=switches)
    assert (panel.pump, panel.stage) == (True, 0)


def test_what_the_condition_holds_is_held_under_its_own_word_and_with_or_without_the_pump():
    for word, pump in (("remote_permission_open", False), ("hp_lockout_not_reset", True)):
        held = Condition(control=Control(held=word))
        panel, _ = play(BLUFF, fresh(BLUFF, WARM_OIL), 120.0, sensed(BLUFF), held)
        assert (panel.hold, panel.pump, panel.stage) == (word, pump, 0)


def test_a_circuit_that_is_switched_off_stays_at_rest_and_both_hold_the_unit():
    one = replace(usual_switches(BLUFF.sheet), circuits_off=frozenset("a"))
    panel, _ = play(BLUFF, fresh(BLUFF, WARM_OIL), 600.0, sensed(BLUFF), switches=one)
    assert panel.loading == (0, 0, 1, 1)
    both = replace(one, circuits_off=frozenset("ab"))
    panel, _ = play(BLUFF, panel, 5.0, sensed(BLUFF), switches=both)
    assert (panel.stage, panel.hold) == (0, Hold.CIRCUITS_OFF)


def test_a_limit_of_capacity_is_kept_in_whole_steps_and_never_takes_the_first():
    for limit, loading in ((0.6, (1, 0, 1, 0)), (0.3, (1, 0, 0, 0)), (0.1, (1, 0, 0, 0))):
        limited = Condition(control=Control(capacity_limit=limit))
        panel, _ = play(BLUFF, fresh(BLUFF, WARM_OIL), 900.0, sensed(BLUFF), limited)
        assert panel.loading == loading
        assert panel.hold == Hold.LIMITED


def test_a_reset_of_what_has_not_acted_is_refused_and_so_is_time_that_runs_back():
    with pytest.raises(ValueError, match="nothing to reset"):
        reset(RUNNING["bluff_30"], "freeze")
    with pytest.raises(ValueError, match="does not run back"):
        decide(BLUFF, Condition(), fresh(BLUFF), Switches(280.0), sensed(BLUFF), -1.0)


@given(
    st.sampled_from(sorted(MACHINES)),
    st.lists(st.tuples(st.floats(-5.0, 8.0), st.integers(2, 60)), min_size=5, max_size=60),
    st.floats(0.2, 1.0),
)
@settings(deadline=None, max_examples=40)
def test_whatever_the_water_does_anti_recycle_starts_an_hour_and_stage_delays_are_kept(id, waves, factor):
    unit = MACHINES[id]
    sheet, condition = unit.sheet, Condition(control=Control(anti_recycle=factor))
    panel, switches = fresh(unit, WARM_OIL), usual_switches(sheet)
    events: list[list[tuple[float, bool]]] = [[] for _ in sheet.compressors]
    ups = []
    for warmer, ticks in waves:
        for _ in range(ticks):
            before = panel
            panel, _ = decide(unit, condition, panel, switches, sensed(unit, warmer), 10.0)
            if sum(panel.loading) > sum(before.loading):
                ups.append(panel.now)
            for place, (old, new) in enumerate(zip(before.loading, panel.loading, strict=True)):
                if (old > 0.0) != (new > 0.0):
                    events[place].append((panel.now, new > 0.0))
            assert due(unit, condition, panel) > 0.0
    for log in events:
        begun = [time for time, on in log if on]
        for (stop, on), (start, _) in itertools.pairwise(log):
            if not on:
                assert start - stop >= factor * sheet.anti_recycle - 1e-6
        for at, time in enumerate(begun):
            assert sum(time - 3600.0 < earlier <= time for earlier in begun[: at + 1]) <= sheet.starts_per_hour
    assert all(later - sooner >= UP_DELAY for sooner, later in itertools.pairwise(ups))
    # The memory stays small.
    assert all(len(kept) <= 2 * 2 * (sheet.starts_per_hour + 2) for kept in panel.compressors)

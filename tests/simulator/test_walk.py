"""The walk in time: energy balances, a healthy unit does what it should, and faults end as they should."""

import itertools
from dataclasses import replace

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from faultdoc.checks.loop import CONTROL_BAND
from faultdoc.library.load import load_points, load_unit, units
from faultdoc.physics.oil import settled_temperature, sump_temperature
from faultdoc.simulator.condition import Condition, Control, Site, Supply, Water
from faultdoc.simulator.controls import BELOW, Hold, reset, starts, usual_switches
from faultdoc.simulator.faults import broken
from faultdoc.simulator.machine import machine
from faultdoc.simulator.truths import truths
from faultdoc.simulator.walk import Duty, advance, begin, until

MACHINES = {id: machine(load_unit(id)) for id in units()}
BLUFF = MACHINES["bluff_30"]
HEALTHY = Condition()
HOUR = 3600.0


def laid_out(unit, **about):
    """A site with water in proportion to the unit, as a crew would lay it out."""
    return Site(**{"added_volume": 8e-6 * unit.sheet.cooling_capacity, **about})


def started(unit, site, condition=HEALTHY, warmer=0.0):
    water_in = unit.sheet.water.design_entering + warmer
    return begin(unit, site, condition, usual_switches(unit.sheet), water_in)


def walked(unit, site, condition, moment, seconds, **how):
    return advance(unit, site, condition, usual_switches(unit.sheet), moment, seconds, **how)


def to_alarm(unit, site, condition, limit=HOUR):
    """Walk to the first alarm, or the limit."""
    switches = usual_switches(unit.sheet)
    first = started(unit, site, condition)
    return until(unit, site, condition, switches, first, lambda one: bool(one.alarms), limit)


def watch(unit, site, condition, moment, seconds):
    """Walk and return all moments at the ends of steps."""
    seen = [moment]

    def look(one):
        seen.append(one)
        return False

    until(unit, site, condition, usual_switches(unit.sheet), moment, look, seconds)
    return seen


def test_an_hour_closes_its_energy_balance_and_does_not_depend_on_the_step():
    site = laid_out(BLUFF, ambient=308.15, load=0.5)
    first = started(BLUFF, site, warmer=8.0)
    ends = {step: walked(BLUFF, site, HEALTHY, first, HOUR, step=step) for step in (30.0, 15.0)}
    for last in ends.values():
        # What the water holds, by its heat capacity half-way (that of glycol and water changes a little).
        held = 0.5 * (first.snapshot.loop.loop_heat_capacity + last.snapshot.loop.loop_heat_capacity)
        stored = held * (last.water_in - first.water_in)
        assert last.heat_in - last.heat_out == pytest.approx(stored, abs=1e-3 * last.heat_out)
        assert last.heat_out > 0.5 * BLUFF.sheet.cooling_capacity * HOUR
        assert last.time == pytest.approx(HOUR)
    assert ends[30.0].heat_out == pytest.approx(ends[15.0].heat_out, rel=0.02)


@pytest.mark.parametrize("id", MACHINES)
def test_a_healthy_unit_pulls_a_warm_loop_down_and_holds_its_set_point(id):
    unit = MACHINES[id]
    site = laid_out(unit, ambient=303.15, load=0.6)
    goal = unit.sheet.water.design_leaving
    seen = watch(unit, site, HEALTHY, started(unit, site, warmer=4.0), 1.2 * HOUR)
    assert seen[-1].alarms == ()
    assert all(one.snapshot.cycle.solved.all() for one in seen)
    pulled = [one for one in seen if one.time > 0.6 * HOUR]
    leaving = [one.snapshot.water_out - goal for one in pulled]
    # Within the band; where a step of capacity moves the leaving water by more than the band is wide (one of two
    # compressors), by half a step past it, while timers hold it.
    water = unit.sheet.water
    step = (water.design_entering - water.design_leaving) / len(unit.sheet.compressors)
    past = 0.3 if step < CONTROL_BAND * 0.9 or unit is MACHINES["tarn_120"] else step / 2.0
    assert min(leaving) > -BELOW * CONTROL_BAND - past
    assert max(leaving) < (1.0 - BELOW) * CONTROL_BAND + past
    assert abs(sum(leaving) / len(leaving)) < CONTROL_BAND / 2.0 + past
    # Pump and proof first, then one compressor after another.
    orders = [one for one in seen if one.panel.stage]
    assert seen[0].panel.pump
    assert seen[0].panel.stage == 0
    assert orders[0].panel.proved
    stages = [one.panel.stage for one in seen if one.time < 500.0]
    assert all(later - sooner <= 1 for sooner, later in itertools.pairwise(stages))


@given(st.floats(0.1, 0.95), st.floats(288.0, 311.0))
@settings(deadline=None, max_examples=3, phases=[Phase.explicit, Phase.generate])
def test_timers_are_kept_over_load_and_ambient(load, ambient):
    site = laid_out(BLUFF, ambient=ambient, load=load)
    last = walked(BLUFF, site, HEALTHY, started(BLUFF, site), 0.7 * HOUR, step=60.0)
    assert last.alarms == ()
    for events in last.panel.compressors:
        begun = [time for time, on in events if on]
        assert len(begun) <= BLUFF.sheet.starts_per_hour
        for (stop, on), (start, _) in itertools.pairwise(events):
            assert on or start - stop >= BLUFF.sheet.anti_recycle - 1e-6


ENDS = [
    ("strainer_clogged", 1.0, "water_flow", True),
    ("charged_short", 0.9, "low_pressure", False),
    ("supply_voltage_low", 1.0, "low_voltage", False),
    ("supply_voltage_high", 1.0, "high_voltage", False),
    ("supply_phases_reversed", 1.0, "supply_monitor", False),
    ("coil_dirty_outside", 1.0, "high_pressure", True),
    ("pump_seized", 1.0, "pump_overload", True),
    ("compressor_fuse_open", 1.0, "motor_protection", True),
]


@pytest.mark.parametrize(("fault", "severity", "safety", "latched"), ENDS)
@pytest.mark.parametrize("id", MACHINES)
def test_a_fault_ends_in_the_safety_that_guards_against_it(id, fault, severity, safety, latched):
    unit = MACHINES[id]
    site, condition = broken(laid_out(unit, ambient=313.15, load=0.8), {fault: severity})
    last = to_alarm(unit, site, condition)
    assert [(stop.safety, stop.latched) for stop in last.alarms][:1] == [(safety, latched)]


@pytest.mark.parametrize("id", MACHINES)
def test_a_set_point_too_low_ends_in_the_freeze_thermostat_at_part_load(id):
    # The evaporator is colder than the water: a low-pressure switch that acts where it should may come first.
    unit = MACHINES[id]
    site, condition = broken(laid_out(unit, ambient=298.15, load=0.2), {"set_point_below_minimum": 1.0})
    late = replace(condition.control, safety_shift={"low_pressure": -100e3})
    condition = replace(condition, control=late)
    switches = usual_switches(unit.sheet)
    first = begin(unit, site, condition, switches, unit.sheet.water.design_leaving - 0.5)
    last = until(unit, site, condition, switches, first, lambda one: bool(one.alarms), HOUR)
    assert [(stop.safety, stop.latched) for stop in last.alarms] == [("freeze", True)]
    assert last.panel.stage == 0


def test_a_lock_out_stays_through_a_loss_of_power_till_it_is_reset():
    site, condition = broken(laid_out(BLUFF, ambient=313.15, load=0.8), {"coil_dirty_outside": 1.0})
    locked = to_alarm(BLUFF, site, condition)
    assert locked.panel.loading[0] == 0.0
    dark = walked(BLUFF, site, replace(HEALTHY, supply=Supply(off=True)), locked, 60.0)
    assert dark.panel.hold == Hold.NO_POWER
    back = walked(BLUFF, site, HEALTHY, dark, 120.0)
    assert back.panel.hold == Hold.WARMING_OIL
    assert [stop.safety for stop in back.panel.lock_outs] == ["high_pressure"]
    assert reset(back.panel, "high_pressure").lock_outs == ()
    # The heaters' clock has begun anew.
    warmed = truths(back.snapshot, back.log)["hours_energised_since_power_up"]
    assert warmed == pytest.approx(120.0, abs=1.0)


def test_a_safety_acts_at_the_same_second_whatever_the_step():
    # The water falls slowly past the freeze thermostat's setting, one compressor running.
    faults = {"set_point_below_minimum": 0.5, "freeze_thermostat_set_high": 0.2}
    site, condition = broken(laid_out(BLUFF, ambient=298.15, load=0.1), faults)
    switches = usual_switches(BLUFF.sheet)
    times = []
    for step in (5.0, 30.0):
        first = begin(BLUFF, site, condition, switches, BLUFF.sheet.water.design_leaving)
        last = until(BLUFF, site, condition, switches, first, lambda one: bool(one.alarms), HOUR, step=step)
        assert [stop.safety for stop in last.alarms] == ["freeze"]
        assert last.alarms[0].time == last.time > last.panel.compressors[0][0][0] + 60.0
        times.append(last.time)
    assert times[0] == pytest.approx(times[1], abs=1.0)
    # A timer's end is met exactly: proof of flow is given up when the allowance is over.
    site, condition = broken(laid_out(BLUFF), {"pump_contactor_not_in": 1.0})
    last = to_alarm(BLUFF, site, condition)
    assert last.alarms[0].time == pytest.approx(BLUFF.sheet.water.flow_proving.start_allowance, abs=1.0)


def test_little_load_on_little_water_makes_short_cycles():
    quiet = laid_out(BLUFF, load=0.5)
    site, condition = broken(laid_out(BLUFF), {"loop_volume_small": 1.0, "load_too_light": 1.0})
    counts = []
    for where, what in ((quiet, HEALTHY), (replace(site, load=0.12), condition)):
        last = walked(BLUFF, where, what, started(BLUFF, where, what), HOUR)
        counts.append(sum(starts(last.panel, number) for number in (1, 2, 3, 4)))
    assert counts[1] > counts[0]


def test_a_dead_crankcase_heater_leaves_the_sump_as_cold_as_the_air():
    site, condition = broken(laid_out(BLUFF, load=0.0), {"crankcase_heater_failed": 1.0})
    sump = BLUFF.sheet.oil_sump
    cold, warm = (walked(BLUFF, site, what, started(BLUFF, site, what), 300.0) for what in (condition, HEALTHY))
    rested = [number for number in (1, 2, 3, 4) if not warm.panel.compressors[number - 1]]
    assert rested
    for number in rested:
        assert cold.sumps[number] == pytest.approx(site.ambient, abs=0.1)
        settled = settled_temperature(site.ambient, sump.heater_power, sump.heat_loss)
        assert warm.sumps[number] == pytest.approx(settled, abs=0.1)


def test_a_sump_without_power_cools_as_the_lump_that_it_is():
    site, sump = laid_out(BLUFF), BLUFF.sheet.oil_sump
    dark = replace(HEALTHY, supply=Supply(off=True))
    first = started(BLUFF, site)
    last = walked(BLUFF, site, dark, first, 1800.0, step=300.0)
    expected = sump_temperature(1800.0, first.sumps[1], site.ambient, 0.0, sump.heat_capacity, sump.heat_loss)
    assert last.sumps[1] == pytest.approx(expected, abs=0.01)
    # Nothing moves the water either.
    assert last.water_in == first.water_in


def test_a_running_sump_nears_where_it_settles_and_truths_read_it():
    site = laid_out(BLUFF, ambient=308.15)
    last = walked(BLUFF, site, HEALTHY, started(BLUFF, site, warmer=4.0), HOUR)
    assert last.sumps[1] > site.ambient + 8.0
    found = truths(last.snapshot, last.log)
    assert found["oil_temperature_1"] == last.sumps[1]
    assert set(found) <= set(load_points())


def test_a_leak_lowers_the_standing_pressure_by_what_is_lost():
    site = laid_out(BLUFF, load=0.3)
    leaking = replace(HEALTHY, water=Water(leak=2e-6))
    first = started(BLUFF, site, leaking)
    last = walked(BLUFF, site, leaking, first, 1200.0, step=60.0)
    lost = 2e-6 * 1200.0 / (0.04 * first.snapshot.loop.volume) * 100e3
    assert last.standing_loss == pytest.approx(lost, rel=1e-6)
    assert first.snapshot.loop.standing - last.snapshot.loop.standing == pytest.approx(lost, rel=1e-3)


def test_what_comes_and_goes_stops_the_unit_while_it_is_there():
    site = laid_out(BLUFF, load=0.6)
    _, open_switch = broken(site, {"switch_wiring_loose": 1.0})
    duty = Duty(HEALTHY, open_switch, good_for=900.0, bad_for=20.0, first=400.0)
    last = walked(BLUFF, site, duty, started(BLUFF, site, duty, warmer=4.0), 800.0)
    delay = BLUFF.sheet.water.flow_proving.trip_delay
    assert [(stop.safety, stop.latched) for stop in last.alarms] == [("water_flow", False)]
    assert last.alarms[0].time == pytest.approx(400.0 + delay, abs=1.0)
    assert last.panel.stops == ()
    # Back again after the anti-recycle time.
    assert last.panel.stage >= 1


@given(st.floats(0.0, 5000.0))
def test_a_duty_changes_where_it_says(time):
    duty = Duty(HEALTHY, Condition(control=Control(held="x")), good_for=300.0, bad_for=60.0, first=200.0)
    change = duty.next_change(time)
    assert time < change <= time + 300.0
    assert duty(change + 1e-6) is not duty(change - 1e-6)


def test_a_step_that_is_not_above_zero_is_refused():
    site = laid_out(BLUFF)
    first = started(BLUFF, site)
    with pytest.raises(ValueError, match="steps above zero"):
        walked(BLUFF, site, HEALTHY, first, 10.0, step=0.0)
    with pytest.raises(ValueError, match="zero or more seconds"):
        walked(BLUFF, site, HEALTHY, first, -1.0)

"""The water loop of a simulated unit: against worked examples, against its own balance, and against the checks."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make
from faultdoc.checks.base import CheckResult, Verdict
from faultdoc.checks.inputs import glycol_kind
from faultdoc.library.load import load_unit
from faultdoc.library.vocabulary import believable, load_points
from faultdoc.model.base import Measured
from faultdoc.model.unit import DataSheet
from faultdoc.physics import fluid, hydronics
from faultdoc.quantities import Kind
from faultdoc.simulator.condition import Motor, Site, Water
from faultdoc.simulator.water import Loop, air_capacity, cavitation_share, loop, shaft_speed, water_truths

UNITS = ("bluff_30", "marten_60", "tarn_120")
SITES = (
    Site(),
    Site(elevation=1600.0, high_point=20.0, hose_length=30.0),
    Site(hose_length=150.0, load_drop=90e3, glycol_fraction=0.0),
)
COLD = 279.82

# No drop but what goes with the flow squared.
SQUARE = Water(barrel=1e-9, hose=1e-9)


@cache
def unit(name: str) -> DataSheet:
    return load_unit(name)


points = cache(load_points)


def changed(sheet: DataSheet, **water: object) -> DataSheet:
    return sheet.model_copy(update={"water": sheet.water.model_copy(update=water)})


def at(water: Water = Water(), site: Site = Site(), speed: float = 1.0, name: str = "bluff_30", **more) -> Loop:  # noqa: B008
    return loop(unit(name), site, water, speed=speed, temperature=COLD, **more)


def truths(sheet: DataSheet, site: Site, water: Water, **more) -> dict[str, float | str]:
    """Return what is true with the pump running, and the standing pressure before."""
    running, still = (loop(sheet, site, water, speed=speed, temperature=COLD) for speed in (1.0, 0.0))
    temperatures = {"entering": sheet.water.design_entering, "leaving": sheet.water.design_leaving}
    before = water_truths(sheet, site, water, still, **temperatures)
    return before | water_truths(sheet, site, water, running, **temperatures, **more)


def checked(check: str, sheet: DataSheet, values: dict[str, float | str]) -> CheckResult:
    readings = {
        name: Measured(kind=points()[name].kind, value=value, text="as simulated")
        for name, value in values.items()
        if not isinstance(value, str)
    }
    result = make(check, sheet, readings, points())
    assert isinstance(result, CheckResult), result
    return result


# ------------------------------------------------------------------------------ against the outside


def test_pump_and_system_meet_where_a_worked_example_says():
    # Çengel and Cimbala, Fluid Mechanics, chapter 14, a problem (its figures looked up, the answer from memory):
    # head had 7.46 m - 0.0453 V², head wanted 3.52 m + 0.0261 V², V in L/min; they meet at 7.43 L/min and 4.96 m.
    # The lift is put in as a pump that pushes against.
    litre = 1e-3 / 60.0
    bluff = unit("bluff_30")
    flows = [0.25 * step for step in range(50)]
    curve = bluff.water.pump.model_copy(
        update={
            "points": tuple(
                bluff.water.pump.points[0].model_copy(
                    update={"flow": flow * litre, "head": 7.46 - 0.0453 * flow**2, "npsh_required": 0.0}
                )
                for flow in flows
            )
        }
    )
    sheet = changed(bluff, pump=curve, strainer=None, design_flow=8.0 * litre)
    weight = fluid.density(290.0) * fluid.GRAVITY
    site = Site(
        hose_length=0.0,
        fittings=0.0,
        balance=None,
        glycol_fraction=0.0,
        load_drop=weight * 0.0261 * 8.0**2,
    )
    found = loop(sheet, site, replace(SQUARE, site_head=-3.52 * weight), speed=1.0, temperature=290.0)
    assert found.flow / litre == pytest.approx(7.43, abs=0.005)
    assert (found.pump_out - found.pump_in) / weight == pytest.approx(4.96, abs=0.005)


def test_a_tenth_more_speed():
    # theengdigest.com, "Pumps, Fans and Affinity Laws": +10 % speed is +10 % flow, +21 % head, +33 % power.
    slow, fast = at(SQUARE), at(SQUARE, speed=1.1)
    assert fast.flow / slow.flow == pytest.approx(1.10, rel=1e-4)
    assert (fast.pump_out - fast.pump_in) / (slow.pump_out - slow.pump_in) == pytest.approx(1.21, rel=1e-4)
    assert fast.pump_load / slow.pump_load == pytest.approx(1.33, abs=0.005)


def test_fifty_hertz_leaves_69_percent_of_the_shut_off_head():
    full, slow = at(), at(speed=50.0 / 60.0)
    assert slow.dead_head_out - slow.dead_head_in == pytest.approx(
        0.694 * (full.dead_head_out - full.dead_head_in), rel=1e-3
    )


@pytest.mark.parametrize(("air", "lost"), [(0.02, 0.10), (0.04, 0.435)])
def test_air_takes_the_capacity_that_a_care_manual_states(air, lost):
    # A pump maker's care manual, "Air in pumps": 2 % of free air takes 10 % of the capacity, 4 % takes 43.5 %.
    assert 1.0 - at(replace(SQUARE, air=air)).flow / at(SQUARE).flow == pytest.approx(lost, abs=0.003)


@pytest.mark.parametrize("name", UNITS)
def test_a_pump_that_turns_backwards(name):
    # A pump maker's note (reverse rotation of low to mid specific speed): 50 to 60 % of the head; flow down to
    # half, by another's up to 70 % lost. Power less than forwards: common practice.
    right, wrong = at(name=name), at(Water(pump_backwards=True), name=name)
    share = (wrong.dead_head_out - wrong.dead_head_in) / (right.dead_head_out - right.dead_head_in)
    assert 0.50 <= share <= 0.60
    assert 0.3 <= wrong.flow / right.flow <= 0.7
    assert wrong.pump_load < right.pump_load
    assert wrong.rotation == "reversed"


def test_three_percent_of_the_head_are_gone_where_suction_head_is_as_required():
    # ANSI/HI 14.6: the definition of NPSH required.
    assert cavitation_share(2.0, 2.0) == pytest.approx(0.97)
    assert cavitation_share(0.0, 2.0) == 0.0


@pytest.mark.parametrize("name", UNITS)
def test_the_suction_head_is_what_the_gauge_and_the_air_give(name):
    # ANSI/HI 14.3, by hand for plain water: vapour pressure at 280 K 992 Pa (IAPWS-IF97 saturation table).
    site = Site(glycol_fraction=0.0, elevation=0.0)
    found = loop(unit(name), site, Water(), speed=1.0, temperature=280.0)
    bore = unit(name).water.connection_bore
    speed = found.flow / (3.14159265 * bore**2 / 4.0)
    by_hand = (found.pump_in + 101_325.0 - 992.0) / (999.9 * 9.80665) + speed**2 / 19.6133
    assert found.npsh_available == pytest.approx(by_hand, rel=1e-3)


# ------------------------------------------------------------------------------------ its own balance

factors = st.floats(0.3, 40.0)
coefficients = st.one_of(st.just(0.0), st.floats(0.1, 1e5))


@given(
    name=st.sampled_from(UNITS),
    site=st.builds(
        Site,
        elevation=st.floats(0.0, 3000.0),
        high_point=st.floats(0.0, 40.0),
        hose_length=st.floats(0.0, 300.0),
        load_drop=st.floats(0.0, 200e3),
        fittings=st.floats(0.0, 60.0),
        glycol_fraction=st.floats(0.0, 0.5),
        balance=st.one_of(st.none(), st.floats(0.8, 1.2)),
    ),
    water=st.builds(
        Water,
        pump_speed=st.floats(0.2, 1.0),
        pump_backwards=st.booleans(),
        pump_head=st.floats(0.2, 1.2),
        air=st.floats(0.0, 0.1),
        suction_leak=st.floats(0.0, 0.3),
        standing_loss=st.floats(-50e3, 200e3),
        strainer=factors,
        barrel=factors,
        load=factors,
        hose=factors,
        return_valve=coefficients,
        supply_valve=coefficients,
        check_valve=coefficients,
        hose_kink=coefficients,
        return_kink=coefficients,
        bypass=st.floats(0.0, 1.0),
        site_head=st.floats(-400e3, 400e3),
        crossed=st.booleans(),
    ),
    speed=st.sampled_from((-1.0, 0.0, 0.8, 1.0)),
)
@settings(deadline=None, max_examples=150)
def test_what_the_pumps_give_is_what_the_loop_takes(name, site, water, speed):
    found = loop(unit(name), site, water, speed=speed, temperature=285.0)
    fraction = found.glycol_fraction
    viscosity = fluid.kinematic_viscosity(285.0, glycol_kind(unit(name), fraction), fraction)
    bore = unit(name).water.connection_bore
    # Where the hose turns from laminar to turbulent its drop leaps, and may lie anywhere between.
    assume(abs(hydronics.velocity(found.flow, bore) * bore / viscosity - 2040.0) > 0.01)
    rise = found.pump_out - found.pump_in
    scale = max(abs(rise), abs(found.site_head), 1.0)
    # Round the loop from the tank to the tank, each drop on its own.
    suction = found.standing - found.pump_in
    taken = suction + found.check_valve_drop + found.barrel_drop + found.supply_drop + found.load_drop
    if found.flow > 0.0:
        assert rise + found.site_head - taken == pytest.approx(0.0, abs=1e-3 * scale)
        assert found.pump_out - found.check_valve_drop == pytest.approx(found.barrel_in, abs=1e-3 * scale)
    else:
        # Held by its check valve, or driven by nothing.
        assert rise + found.site_head <= 1e-3
        assert taken == 0.0
    assert found.barrel_in - found.barrel_out == pytest.approx(found.barrel_drop, abs=1e-6)
    assert found.load_flow == pytest.approx(found.flow * (1.0 - water.bypass))
    assert found.strainer_drop <= suction + 1e-6
    assert found.barrel_drop_low <= found.barrel_drop <= found.barrel_drop_high
    # No vacuum is better than perfect.
    assert found.pump_in > -101_325.0


# Whether the value rises (1), falls (-1) or stays (0) as the fault grows.
FAULTS = {
    "pump_head": ((1.0, 0.8, 0.5), {"flow": -1, "rise": -1, "dead": -1, "pump_in": 1, "pump_load": -1}),
    "pump_speed": ((1.0, 0.8, 0.4, 0.0), {"flow": -1, "rise": -1, "dead": -1, "npsh_required": -1}),
    "coupling": ((1.0, 0.5, 0.0), {"flow": -1, "rise": -1, "dead": -1, "pump_load": -1}),
    "pump_drag": ((1.0, 1.4), {"flow": 0, "rise": 0, "pump_load": 1}),
    "air": ((0.0, 0.02, 0.04, 0.08), {"flow": -1, "rise": -1, "dead": -1, "swing": 1}),
    "standing_loss": ((0.0, 60e3, 90e3), {"flow": -1, "standing": -1, "npsh_available": -1, "air": 1, "swing": 1}),
    "strainer": ((1.0, 4.0, 12.0), {"flow": -1, "rise": 1, "dead": 0, "pump_in": -1, "npsh_available": -1}),
    "return_valve": ((0.0, 30.0, 300.0), {"flow": -1, "dead": 0, "pump_in": -1, "npsh_available": -1}),
    "return_kink": ((0.0, 30.0, 80.0), {"flow": -1, "rise": 1, "pump_in": -1, "npsh_available": -1}),
    "supply_valve": ((0.0, 30.0, 300.0, 1e6), {"flow": -1, "rise": 1, "dead": 0, "pump_in": 1, "barrel_out": 1}),
    "check_valve": ((0.0, 30.0, 300.0, 1e6), {"flow": -1, "rise": 1, "pump_in": 1, "barrel_in": -1}),
    "hose_kink": ((0.0, 30.0, 300.0), {"flow": -1, "rise": 1, "barrel_out": 1}),
    "hose": ((1.0, 3.0, 30.0), {"flow": -1, "rise": 1, "supply_drop": 1}),
    "load": ((1.0, 3.0, 1e4), {"flow": -1, "rise": 1, "load_drop": 1}),
    "barrel": ((1.0, 3.0, 20.0), {"flow": -1, "rise": 1, "barrel_drop": 1, "barrel_out": -1}),
    "bypass": ((0.0, 0.3, 0.8), {"flow": 1, "load_flow": -1, "rise": -1, "load_drop": -1, "barrel_drop": 1}),
    "site_head": ((0.0, -100e3, -250e3), {"flow": -1, "rise": 1, "barrel_drop": -1}),
    "glycol_shift": ((0.0, 0.1, 0.2), {"flow": -1, "freezing_point": -1, "density": 1}),
    "crossed": ((False, True), {"flow": -1, "rise": 1, "pump_in": 1}),
}


@pytest.mark.parametrize("name", UNITS)
@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_moves_the_readings_the_way_it_must(name, fault):
    severities, signs = FAULTS[fault]
    found = [at(Water(**{fault: severity}), name=name) for severity in severities]
    for quantity, sign in signs.items():
        series = [_quantity(one, quantity) for one in found]
        for before, after in pairwise(series):
            if sign == 0:
                assert after == pytest.approx(before, rel=1e-9), quantity
            else:
                assert (after - before) * sign > 0.0, (quantity, series)


def _quantity(found: Loop, name: str) -> float:
    if name == "rise":
        return found.pump_out - found.pump_in
    if name == "dead":
        return found.dead_head_out - found.dead_head_in
    if name == "swing":
        return (found.barrel_drop_high - found.barrel_drop_low) / found.barrel_drop
    return getattr(found, name)


@given(st.floats(0.0, 0.5), st.floats(0.0, 0.5))
def test_more_air_never_helps(one, other):
    less, more = sorted((one, other))
    assert air_capacity(more) <= air_capacity(less) <= 1.0


# -------------------------------------------------------------------------------- against the checks

HEALTHY = (
    "flow_from_barrel_drop",
    "barrel_drop_at_flow",
    "pump_head",
    "flow_agreement",
    "pump_dead_head",
    "standing_pressure_needed",
    "npsh_available",
    "loop_air",
    "strainer_drop",
    "strainer_clogging",
    "proving_margin",
    "loop_head_needed",
    "hose_run",
    "hose_speed",
    "pump_motor_margin",
    "glycol_by_hydrometer",
    "bypass_leakage",
)


@pytest.mark.parametrize("site", SITES, ids=("plain", "high", "long"))
@pytest.mark.parametrize("name", UNITS)
def test_a_healthy_loop_is_as_every_check_expects(name, site):
    sheet = unit(name)
    values = truths(sheet, site, Water())
    # What is usual with the unit is not what a site without glycol has.
    checks = HEALTHY if site.glycol_fraction is None else [one for one in HEALTHY if "hydrometer" not in one]
    assert {check: checked(check, sheet, values).verdict for check in checks} == dict.fromkeys(
        checks, Verdict.AS_EXPECTED
    )
    assert values["water_flow"] == pytest.approx(sheet.water.design_flow, rel=0.05)
    assert values["flow_switch_contact"] == "closed"


@pytest.mark.parametrize("name", UNITS)
@pytest.mark.parametrize(
    ("water", "check", "verdict"),
    [
        (Water(pump_backwards=True), "pump_dead_head", Verdict.LOW),
        (Water(pump_backwards=True), "pump_head", Verdict.LOW),
        (Water(pump_backwards=True), "dead_head_if_backwards", Verdict.AS_EXPECTED),
        (Water(pump_head=0.6), "flow_agreement", Verdict.LOW),
        (Water(air=0.04), "loop_air", Verdict.HIGH),
        (Water(strainer=8.0), "strainer_clogging", Verdict.HIGH),
        (Water(strainer=400.0), "npsh_available", Verdict.LOW),
        (Water(standing_loss=80e3), "standing_pressure_needed", Verdict.LOW),
        (Water(barrel=3.0), "barrel_drop_at_flow", Verdict.HIGH),
        (Water(supply_valve=1e5), "flow_from_barrel_drop", Verdict.LOW),
        (Water(supply_valve=1e5), "pump_dead_head", Verdict.AS_EXPECTED),
        (Water(supply_valve=1e5), "proving_margin", Verdict.LOW),
        (Water(bypass=0.4), "bypass_leakage", Verdict.HIGH),
        (Water(glycol_shift=0.2), "glycol_by_hydrometer", Verdict.HIGH),
    ],
)
def test_a_check_calls_the_fault_it_is_for(name, water, check, verdict):
    sheet = unit(name)
    assert checked(check, sheet, truths(sheet, Site(), water)).verdict is verdict


@given(st.floats(0.0, 0.9))
@settings(deadline=None, max_examples=20)
def test_the_three_temperatures_tell_the_bypass(share):
    sheet = unit("bluff_30")
    values = truths(sheet, Site(), Water(bypass=share))
    assert checked("bypass_leakage", sheet, values).measured == pytest.approx(share, abs=1e-9)


def test_warm_hoses_leave_less_of_the_warming_to_the_load():
    sheet = unit("bluff_30")
    cool, warm = (truths(sheet, Site(), Water(heat_gain=heat)) for heat in (0.0, 10e3))
    rate = at().heat_capacity_rate
    assert cool["load_out_temperature"] - warm["load_out_temperature"] == pytest.approx(5e3 / rate, rel=1e-3)


# -------------------------------------------------------------------------------------- its own cases


def test_nothing_drives_a_loop_whose_pump_stands():
    found = at(speed=0.0)
    assert found.flow == found.barrel_drop == found.pump_load == 0.0
    assert found.pump_in == found.pump_out == found.barrel_in == found.barrel_out == found.standing
    assert found.rotation == "still"
    assert found.contact == "open"
    assert not found.proved


def test_a_pump_of_the_customers_drives_the_water_through_one_that_stands():
    found = at(Water(site_head=150e3), speed=0.0)
    assert found.flow > 0.5 * unit("bluff_30").water.design_flow
    assert found.rotation == "still"
    values = water_truths(unit("bluff_30"), Site(), Water(site_head=150e3), found, entering=285.0, leaving=280.0)
    assert values["water_flow"] == found.flow
    assert "pump_in_pressure" not in values


def test_a_check_valve_holds_what_the_pump_cannot_overcome():
    found = at(Water(site_head=-600e3))
    assert found.flow == 0.0
    assert found.barrel_in == found.barrel_out == pytest.approx(found.standing + 600e3)
    assert found.pump_out < found.barrel_in


def test_leads_changed_over_on_a_reversed_supply_turn_the_pump_the_right_way():
    assert at(Water(pump_backwards=True), speed=-1.0) == at()
    assert at(speed=-1.0) == at(Water(pump_backwards=True))


def test_crossed_hoses_put_the_customers_pump_against_the_units():
    none, with_pump = (at(Water(crossed=True, site_head=head)) for head in (0.0, 100e3))
    assert with_pump.flow < none.flow


def test_a_joint_on_the_suction_draws_air_only_below_the_atmosphere():
    assert at(Water(suction_leak=0.2)) == at()
    starved = Water(strainer=40.0)
    assert at(replace(starved, suction_leak=0.2)).air > at(starved).air == 0.0
    assert at(replace(starved, suction_leak=0.2)).flow < at(starved).flow


def test_height_tells_what_a_loop_must_stand_at():
    low, high = at(site=Site(high_point=0.0)), at(site=Site(high_point=10.0))
    assert low.standing == pytest.approx(34_474.0)
    assert high.standing - low.standing == pytest.approx(10.0 * 9.80665 * high.density, rel=2e-3)
    assert at(Water(standing_loss=1e6)).standing == 0.0
    assert at(site=Site(standing_pressure=123e3)).standing == 123e3


def test_the_relief_lifts_where_fill_and_pump_together_pass_its_setting():
    assert not at().relief_lifts
    assert at(Water(standing_loss=-350e3)).relief_lifts
    assert not at(Water(standing_loss=-350e3), speed=0.0).relief_lifts


def test_cavitation_is_told():
    assert not at().cavitating
    assert at(Water(strainer=100.0)).cavitating


def test_all_water_of_the_loop_is_counted():
    # Hose of the unit's 2.5 in by hand: 60 m x 3.167 L/m; 45 US gal in the unit; half a cubic metre in tanks.
    found = at(site=Site(glycol_fraction=0.0))
    assert found.volume == pytest.approx(60.0 * 3.167e-3 + 45.0 * 3.785412e-3 + 0.5, rel=1e-3)
    # Water at 6.7 °C: 999.9 kg/m³ and 4.20 kJ/(kg K) (IAPWS-IF97 table).
    assert found.loop_heat_capacity == pytest.approx(found.volume * 999.9 * 4200.0, rel=2e-3)
    assert found.heat_capacity_rate == pytest.approx(found.flow * 999.9 * 4200.0, rel=2e-3)


def test_water_colder_than_its_freezing_point_is_taken_as_it_is_there():
    site = Site(glycol_fraction=0.0)
    frozen, edge = (
        loop(unit("bluff_30"), site, Water(), speed=1.0, temperature=temperature)
        for temperature in (268.15, 273.15)
    )
    assert frozen == edge
    assert frozen.freezing_point == 273.15


# --- the flow switch


@pytest.mark.parametrize("name", UNITS)
def test_the_switch_holds_between_its_settings_once_made(name):
    proving = unit(name).water.flow_proving

    def level(found: Loop) -> float:
        return found.barrel_drop if proving.makes_at_drop is not None else found.flow

    makes = proving.makes_at_drop or proving.makes_at_flow
    breaks = proving.breaks_at_drop or proving.breaks_at_flow
    for step in range(40):
        throttled = Water(supply_valve=20.0 * 1.2**step)
        rising, falling = (at(throttled, name=name, was_proved=was) for was in (False, True))
        assert rising.proved == (level(rising) >= makes)
        assert falling.proved == (level(falling) >= breaks)
    assert not falling.proved


@pytest.mark.parametrize("name", UNITS)
def test_what_ails_the_switch(name):
    assert at(name=name).contact == "closed"
    assert at(Water(proving_shift=4.0), name=name).contact == "open"
    assert at(Water(proving_stuck="open"), name=name).contact == "open"
    assert at(Water(proving_stuck="closed"), name=name, speed=0.0).contact == "closed"
    blocked = at(Water(line_blocked=True), name=name)
    # A paddle has no sensing lines.
    assert blocked.contact == ("closed" if name == "marten_60" else "open")
    assert blocked.flow == at(name=name).flow


def test_a_switch_chatters_where_the_swing_passes_both_its_settings():
    assert "chatters" in {at(Water(air=air / 1000.0)).contact for air in range(0, 80, 2)}
    assert at(Water(air=0.001)).contact == "closed"
    assert at(Water(air=0.2)).contact == "open"


def test_a_sheet_without_a_setting_of_the_switch_is_refused():
    proving = unit("bluff_30").water.flow_proving.model_copy(update={"makes_at_drop": None})
    with pytest.raises(ValueError, match="flow switch"):
        loop(changed(unit("bluff_30"), flow_proving=proving), Site(), Water(), speed=1.0, temperature=COLD)


def test_a_unit_without_a_pump_has_no_readings_of_one():
    sheet = changed(unit("bluff_30"), pump=None)
    water = Water(site_head=200e3)
    found = loop(sheet, Site(), water, speed=0.0, temperature=COLD)
    assert found.flow > 0.0
    values = water_truths(sheet, Site(), water, found, entering=285.0, leaving=280.0, called=True)
    assert not [name for name in values if name.startswith(("pump", "dead_head"))]


# --- the motor and the points


def test_the_speed_of_the_shaft():
    assert shaft_speed(Motor()) == 1.0
    assert shaft_speed(Motor(), frequency=0.9, reversed_supply=True) == -0.9
    assert shaft_speed(Motor(dead=True)) == shaft_speed(Motor(), called=False) == 0.0
    for motor, lost in ((Motor(line_lost="l2"), False), (Motor(), True)):
        assert shaft_speed(motor, line_lost=lost) == 0.0
        assert 0.9 < shaft_speed(motor, line_lost=lost, was_turning=True) < 1.0
    with pytest.raises(ValueError, match="frequency"):
        shaft_speed(Motor(), frequency=-0.1)


@pytest.mark.parametrize("name", UNITS)
@pytest.mark.parametrize(
    "water",
    [Water(), Water(air=0.03), Water(supply_valve=50.0, return_valve=1e5, bypass=0.1), Water(pump_backwards=True)],
)
def test_every_truth_is_a_point_and_can_be_believed(name, water):
    for point, value in truths(unit(name), Site(), water).items():
        known = points()[point]
        if known.kind is Kind.CHOICE:
            assert value in {choice.id for choice in known.choices}
        else:
            assert isinstance(value, float)
            assert believable(known, value), point


def test_where_valves_stand():
    def positions(water: Water) -> tuple[float | str, ...]:
        values = truths(unit("bluff_30"), Site(), water)
        return tuple(values[f"{valve}_valve_position"] for valve in ("supply", "return", "bypass"))

    assert positions(Water()) == ("open", "open", "shut")
    assert positions(Water(supply_valve=60.0, return_valve=1e5, bypass=0.1)) == ("part_open", "shut", "part_open")
    assert positions(Water(supply_valve=1e5, bypass=0.6)) == ("shut", "open", "open")
    # A kink is seen at the hose, not at a valve.
    assert positions(Water(hose_kink=50.0, return_kink=50.0, check_valve=50.0)) == ("open", "open", "shut")


def test_what_is_read_running_and_what_standing():
    sheet = unit("bluff_30")

    def read(speed: float, water: Water = Water(), **more) -> dict[str, float | str]:  # noqa: B008
        found = loop(sheet, Site(), water, speed=speed, temperature=COLD)
        return water_truths(sheet, Site(), water, found, entering=285.0, leaving=280.0, **more)

    running, standing = read(1.0), read(0.0)
    assert set(running) - set(standing) == {
        "water_flow", "barrel_in_pressure", "barrel_out_pressure", "barrel_pressure_drop", "barrel_drop_low",
        "barrel_drop_high", "load_pressure_drop", "strainer_pressure_drop", "flow_switch_contact",
        "load_out_temperature", "pump_rotation", "pump_in_pressure", "pump_out_pressure", "dead_head_in_pressure",
        "dead_head_out_pressure",
    }  # fmt: skip
    assert set(standing) - set(running) == {"standing_pressure"}
    # A pump that is called counts as running though it does not turn.
    dead = read(0.0, called=True)
    assert dead["pump_rotation"] == "still"
    assert dead["pump_out_pressure"] == dead["pump_in_pressure"]
    assert "standing_pressure" not in dead
    # With its coupling gone the motor turns all the same.
    assert read(1.0, Water(coupling=0.0))["pump_rotation"] == "forward"


@pytest.mark.parametrize(
    ("site", "water", "speed", "temperature", "said"),
    [
        (Site(), Water(strainer=0.0), 1.0, COLD, "strainer"),
        (Site(), Water(load=-1.0), 1.0, COLD, "load"),
        (Site(), Water(return_valve=-1.0), 1.0, COLD, "return valve"),
        (Site(), Water(air=1.0), 1.0, COLD, "air below 1"),
        (Site(), Water(bypass=1.5), 1.0, COLD, "bypass up to 1"),
        (Site(), Water(supply_valve=float("inf")), 1.0, COLD, "1e6"),
        (Site(), Water(proving_stuck="shut"), 1.0, COLD, "sticks"),
        (Site(), Water(glycol_shift=0.6), 1.0, COLD, "refractometer"),
        (Site(hose_bore=0.0), Water(), 1.0, COLD, "bore"),
        (Site(high_point=-3.0), Water(), 1.0, COLD, "highest point"),
        (Site(balance=0.0), Water(), 1.0, COLD, "balanced"),
        (Site(), Water(), 3.0, COLD, "speed"),
        (Site(), Water(), 1.0, 7.0, "kelvins"),
    ],
)
def test_nonsense_is_refused(site, water, speed, temperature, said):
    with pytest.raises(ValueError, match=said):
        loop(unit("bluff_30"), site, water, speed=speed, temperature=temperature)

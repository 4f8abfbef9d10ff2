"""The simulated supply: Kirchhoff, power, sequences, and what every fault does to what can be read."""

from dataclasses import replace
from math import isclose, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make, make_all
from faultdoc.checks.base import CheckResult, Verdict
from faultdoc.library.load import load_unit
from faultdoc.library.vocabulary import load_points
from faultdoc.model.base import Measured
from faultdoc.model.points import FAMILIES
from faultdoc.physics import atmosphere, conductors, electrical, motors
from faultdoc.simulator import condition
from faultdoc.simulator.supply import (
    COMPRESSOR_SHARE,
    FAN_LOAD,
    feeder,
    motor_loads,
    supply,
    supply_truths,
)

LINES, PAIRS = FAMILIES["line"], FAMILIES["pair"]
POINTS = load_points()
GENERATORS = {"bluff_30": 150.0, "marten_60": 300.0, "tarn_120": 600.0}
UNITS = {name: load_unit(name) for name in GENERATORS}
BLUFF = UNITS["bluff_30"]

quick = settings(deadline=None, max_examples=25)


def measured(truths):
    return {
        name: Measured(kind=POINTS[name].kind, value=value, text=f"{value:.4g}")
        for name, value in truths.items()
        if not isinstance(value, str)
    }


def surroundings(sheet, site):
    """Readings that are not the supply's, of a unit at its design water temperature."""
    return measured(
        {
            "ambient_air_temperature": site.ambient,
            "site_elevation": site.elevation,
            "water_out_temperature": sheet.water.design_leaving,
        }
    )


def healthy_powers(sheet, site):
    """Powers of all motors, from the checks' own arithmetic."""
    side, leaving = sheet.refrigerant_side, sheet.water.design_leaving
    cold = leaving - side.evaporator_approach
    load = motors.compressor_load(
        cold, site.ambient + side.condenser_split, cold, sheet.rating_ambient + side.condenser_split
    )
    thin = atmosphere.pressure(site.elevation) / atmosphere.SEA_LEVEL_PRESSURE * 293.15 / site.ambient
    any_current = measured({f"pump_current_{line}": 5.0 for line in LINES})
    pump = make("pump_current", sheet, any_current | surroundings(sheet, site), POINTS)
    assert isinstance(pump, CheckResult)
    (share,) = (line.value for line in pump.working if line.title == "load of the motor")
    return {
        **{f"compressor_{number}": load for number in range(1, len(sheet.compressors) + 1)},
        "pump": share,
        **{f"fan_{number}": FAN_LOAD * thin for number in range(1, sum(fan.count for fan in sheet.fans) + 1)},
    }


def solved(sheet=BLUFF, site=None, what=None, powers=None, turned=True):
    site = condition.Site() if site is None else site
    what = condition.Condition() if what is None else what
    powers = healthy_powers(sheet, site) if powers is None else powers
    loads = motor_loads(sheet, what, powers, turned=turned)
    return supply(sheet, site, what.supply, loads), loads


def truths_of(sheet=BLUFF, site=None, what=None, powers=None, turned=True):
    site = condition.Site() if site is None else site
    what = condition.Condition() if what is None else what
    electrics, loads = solved(sheet, site, what, powers, turned)
    return supply_truths(sheet, site, what, electrics, loads)


def check_of(name, sheet=BLUFF, site=None, what=None, powers=None, turned=True):
    site = condition.Site() if site is None else site
    readings = measured(truths_of(sheet, site, what, powers, turned)) | surroundings(sheet, site)
    result = make(name, sheet, readings, POINTS)
    assert isinstance(result, CheckResult), result
    return result


def faulty(**values):
    return condition.Condition(supply=condition.Supply(**values))


def compressor(**values):
    return condition.Condition(compressors={1: condition.Motor(**values)})


def three(truths, prefix, members=LINES):
    return tuple(truths[f"{prefix}_{member}"] for member in members)


# --- laws ---

conditions = st.builds(
    lambda supply, motor: condition.Condition(supply=supply, compressors={1: motor}, pump=motor),
    st.builds(
        condition.Supply,
        voltage=st.floats(0.8, 1.15),
        unbalance=st.floats(-0.08, 0.08),
        line_lost=st.sampled_from([None, None, "l1", "l2", "l3"]),
        reversed=st.booleans(),
        frequency=st.floats(0.9, 1.1),
        lug=st.floats(0.0, 0.3),
        feeder=st.floats(0.5, 4.0),
        source_impedance=st.floats(0.5, 4.0),
    ),
    st.builds(
        condition.Motor,
        line_lost=st.sampled_from([None, None, "l1", "l2", "l3"]),
        pole=st.floats(0.0, 3.0),
        winding=st.sampled_from([1.0, 1.0, 0.1, 0.5, 1.2, 1000.0]),
        miswired=st.floats(0.5, 2.0),
    ),
)
sites = st.builds(
    condition.Site,
    ambient=st.floats(263.0, 318.0),
    feeder_length=st.floats(1.0, 150.0),
    generator_rating=st.sampled_from([None, 600.0]),
)


@quick
@given(what=conditions, site=sites, turned=st.booleans(), unit=st.sampled_from(sorted(UNITS)))
def test_kirchhoff_and_power_hold_whatever_is_wrong(what, site, turned, unit):
    sheet = UNITS[unit]
    electrics, _ = solved(sheet, site, what, healthy_powers(sheet, condition.Site()), turned)
    total = 0.0
    for motor in electrics.motors.values():
        scale = max(*(abs(one) for one in motor.currents), 1.0)
        assert abs(sum(motor.currents)) < 1e-6 * scale
        assert abs(sum(motor.rolled)) < 1e-6 * scale
        contacts = sum(
            abs(volts - own) * abs(one)
            for volts, own, one in zip(electrics.voltages, motor.voltages, motor.currents, strict=True)
        )
        assert motor.power >= -1e-6
        total += motor.power + contacts
    # What the source gives is what motors, contacts, control, source, cable and its joint take.
    lost = sum(abs(one) ** 2 for one in electrics.currents) * electrics.feeder.resistance
    lost += abs(electrics.currents[0]) ** 2 * what.supply.lug
    inside = np.array(electrics.behind) - np.array(electrics.source)
    lost += float(np.real(np.sum(inside * np.conj(electrics.currents))))
    given_off = total + lost + electrics.control_power
    to_ground = sum(abs(volts) ** 2 for volts in electrics.voltages) * 1e-5
    assert electrics.source_power == pytest.approx(given_off + to_ground, rel=1e-3)
    # All that is not lost to ground comes back through the other lines.
    assert abs(sum(electrics.currents)) <= 1.1e-5 * sum(abs(volts) for volts in electrics.voltages)


@quick
@given(site=sites, unit=st.sampled_from(sorted(UNITS)), voltage=st.floats(0.85, 1.1))
def test_a_motor_takes_its_shaft_power_and_the_current_of_the_circle_diagram(site, unit, voltage):
    sheet = UNITS[unit]
    electrics, loads = solved(sheet, site, faulty(voltage=voltage))
    for load in loads:
        state = electrics.motors[load.id]
        own = abs(state.voltages[0] - state.voltages[1]) / sheet.electrical.voltage
        asked = (
            sqrt(3.0)
            * sheet.electrical.voltage
            * load.rated_current
            * sqrt(1 - load.no_load_share**2)
            * load.power
        )
        assert state.power == pytest.approx(asked, rel=1e-3)
        current = electrical.motor_current(load.power, load.rated_current, load.no_load_share, voltage=own)
        assert sum(map(abs, state.currents)) / 3.0 == pytest.approx(current, rel=2e-3)


@pytest.mark.parametrize("unit", sorted(UNITS))
@pytest.mark.parametrize("generator", [False, True])
def test_a_healthy_supply_is_symmetric_but_for_the_control_transformer(unit, generator):
    site = condition.Site(generator_rating=GENERATORS[unit] if generator else None)
    electrics, _ = solved(UNITS[unit], site)
    assert electrical.voltage_unbalance(*electrics.between()) < 5e-4
    for motor in electrics.motors.values():
        assert electrical.current_unbalance(*map(abs, motor.currents)) < 4e-3
    one, two, three_ = electrics.voltages
    assert np.angle(two / one) == pytest.approx(-2.0 * np.pi / 3.0, abs=1e-3)
    assert np.angle(three_ / two) == pytest.approx(-2.0 * np.pi / 3.0, abs=1e-3)


@pytest.mark.parametrize("unit", sorted(UNITS))
@pytest.mark.parametrize("generator", [False, True])
@pytest.mark.parametrize("ambient", [288.15, 303.15, 311.15])
@pytest.mark.parametrize("length", [10.0, 60.0])
def test_every_check_of_a_healthy_unit_says_as_expected(unit, generator, ambient, length):
    sheet = UNITS[unit]
    site = condition.Site(
        ambient=ambient, feeder_length=length, generator_rating=GENERATORS[unit] if generator else None
    )
    truths = truths_of(sheet, site)
    results = make_all(sheet, measured(truths) | surroundings(sheet, site), POINTS)
    assert [result.id for result in results if result.verdict is not Verdict.AS_EXPECTED] == []
    names = {result.id for result in results}
    wanted = {
        "pump_current", "pump_rolled", "supply_voltage", "voltage_unbalance", "negative_sequence", "supply_phases",
        "phase_sequence_by_reference", "control_voltage", "control_transformer_ratio", "control_transformer_load",
        "control_transformer_drop", "feeder_drop", "feeder_drop_found", "feeder_start_voltage", "start_voltage",
        "breaker_above", "breaker_below", "feeder_ampacity", "compressor_current_1", "compressor_rolled_1",
        "winding_balance_1", "winding_resistance_1", "insulation_1", "contactor_drop_1", "fan_current_1",
        "pump_winding_balance", "pump_insulation", "pump_contactor_drop",
    }  # fmt: skip
    if generator:
        wanted |= {
            "generator_size",
            "generator_dip",
            "generator_load",
            "generator_droop",
            "generator_frequency_dip",
        }
    assert wanted <= names


def test_every_truth_is_a_point_of_the_vocabulary_within_what_can_be_believed():
    for unit, sheet in UNITS.items():
        site = condition.Site(generator_rating=GENERATORS[unit])
        for name, value in truths_of(sheet, site).items():
            if isinstance(value, str):
                assert value in {choice.id for choice in POINTS[name].choices}
            else:
                assert np.isfinite(value)
                assert value >= 0.0


# --- from outside ---


@pytest.mark.parametrize("unit", sorted(UNITS))
@pytest.mark.parametrize("unbalance", [0.005, 0.01, 0.02])
def test_current_unbalance_is_six_to_ten_times_that_of_the_voltage(unit, unbalance):
    # NEMA MG 1, 14.36, as T. Bishop has it (Unbalanced current, EC&M, 2014): six to ten times, at full load.
    sheet = UNITS[unit]
    powers = dict.fromkeys(healthy_powers(sheet, condition.Site()), 1.0)
    electrics, _ = solved(sheet, what=faulty(unbalance=unbalance), powers=powers)
    voltage = electrical.voltage_unbalance(*electrics.between())
    for motor in electrics.motors.values():
        assert 5.7 * voltage < electrical.current_unbalance(*map(abs, motor.currents)) < 10.3 * voltage


def test_negative_sequence_current_is_that_of_the_impedance_at_rest():
    # Blackburn, Protective Relaying: the negative-sequence impedance stays about the locked-rotor one.
    electrics, _ = solved(what=faulty(unbalance=0.02))
    state = electrics.motors["compressor_1"]
    turn = np.exp(2j * np.pi / 3.0)
    backwards = np.array([1.0, turn**2, turn])
    impedance = abs(backwards @ np.array(state.voltages)) / abs(backwards @ np.array(state.currents))
    assert impedance == pytest.approx(460.0 / sqrt(3.0) / 125.0, rel=1e-6)


@pytest.mark.parametrize("line", LINES)
def test_a_lost_line_leaves_nothing_and_raises_the_two_others_to_root_three_and_more(line):
    # A motor that turns on two lines at the same power draws 1.73 times and more, up to some 2.4 at full load, for
    # the loss of voltage that comes on top (common practice, no source; 1.73 by Fortescue's components).
    powers = dict.fromkeys(healthy_powers(BLUFF, condition.Site()), 1.0)
    before = three(truths_of(powers=powers), "compressor_current_1")
    after = three(truths_of(what=compressor(line_lost=line), powers=powers), "compressor_current_1")
    place = LINES.index(line)
    assert after[place] == 0.0
    others = [value / before[place] for i, value in enumerate(after) if i != place]
    assert others[0] == pytest.approx(others[1])
    assert sqrt(3.0) < others[0] < 2.4


def test_a_motor_at_rest_on_two_lines_draws_root_three_halves_of_its_locked_rotor_current():
    # Two phases in series on one line voltage: V / 2 Z against V / (sqrt 3 Z), textbook.
    stiff = condition.Site(feeder_length=0.01)
    what = replace(compressor(line_lost="l2"), supply=condition.Supply(source_impedance=1e-4))
    truths = truths_of(site=stiff, what=what, turned=False)
    one, two, third = three(truths, "compressor_current_1")
    assert two == 0.0
    assert one == pytest.approx(third)
    assert one == pytest.approx(125.0 * sqrt(3.0) / 2.0, rel=1e-3)


def test_the_feeder_drops_as_the_code_book_has_it():
    # NEC chapter 9, table 9: 2 AWG copper in PVC, 0.19 and 0.045 ohm in 1,000 ft at 75 °C; note 2: R cos + X sin.
    site = condition.Site(feeder_area=conductors.awg_area(2), feeder_length=121.92)  # 400 ft
    electrics, _ = solved(site=site)
    cable = electrics.feeder
    warm = 1.0 + 0.00323 * (cable.temperature - 348.15)
    assert cable.resistance == pytest.approx(0.4 * 0.19 * warm, rel=0.03)
    assert cable.reactance == pytest.approx(0.4 * 0.045, rel=0.01)
    into = sum(volts * one.conjugate() for volts, one in zip(electrics.voltages, electrics.currents, strict=True))
    effective = conductors.effective_impedance(cable.resistance, cable.reactance, into.real / abs(into))
    current = sum(map(abs, electrics.currents)) / 3.0
    lost = (sum(electrics.between("source")) - sum(electrics.between())) / 3.0
    assert lost == pytest.approx(sqrt(3.0) * current * effective, rel=0.02)


def test_an_open_phase_of_the_network_leaves_motors_at_rest_the_half_and_half_pattern():
    # Fortescue (e.g. Blackburn, Protective Relaying): a standing motor on two lines holds the third midway.
    truths = truths_of(what=faulty(line_lost="l3"), turned=False)
    one, two, third = three(truths, "voltage", PAIRS)
    assert two == pytest.approx(0.5 * one, rel=1e-3)
    assert third == pytest.approx(0.5 * one, rel=1e-3)
    assert truths["phase_sequence"] == "missing"


# --- every fault moves its check the right way ---


@pytest.mark.parametrize(
    ("name", "what", "verdict"),
    [
        ("supply_voltage", faulty(voltage=0.80), Verdict.LOW),
        ("supply_voltage", faulty(voltage=1.25), Verdict.HIGH),
        ("supply_frequency", faulty(frequency=0.90), Verdict.LOW),
        ("voltage_unbalance", faulty(unbalance=0.04), Verdict.HIGH),
        ("negative_sequence", faulty(unbalance=0.04), Verdict.HIGH),
        ("compressor_unbalance_1", faulty(unbalance=0.04), Verdict.HIGH),
        ("pump_current_unbalance", faulty(unbalance=0.04), Verdict.HIGH),
        ("fan_unbalance_1", faulty(unbalance=0.04), Verdict.HIGH),
        ("compressor_rolled_1", faulty(unbalance=0.04), Verdict.HIGH),
        ("phase_sequence_by_reference", faulty(reversed=True), Verdict.HIGH),
        ("feeder_drop_found", faulty(lug=0.15), Verdict.HIGH),
        ("feeder_drop_found", faulty(feeder=4.0), Verdict.HIGH),
        ("start_voltage", faulty(source_impedance=8.0), Verdict.LOW),
        ("start_voltage", faulty(feeder=16.0), Verdict.LOW),
        ("control_voltage", faulty(control=0.80), Verdict.LOW),
        ("control_transformer_ratio", faulty(control=0.85), Verdict.LOW),
        ("control_transformer_load", faulty(control_load=3.0), Verdict.HIGH),
        ("breaker_below", faulty(breaker=0.6), Verdict.LOW),
        ("breaker_above", faulty(breaker=2.0), Verdict.HIGH),
        ("compressor_current_1", compressor(miswired=1.7), Verdict.HIGH),
        ("compressor_current_1", compressor(dead=True), Verdict.LOW),
        ("compressor_phases_1", compressor(line_lost="l1"), Verdict.LOW),
        ("compressor_unbalance_1", compressor(line_lost="l3"), Verdict.HIGH),
        ("contactor_drop_1", compressor(pole=0.05), Verdict.HIGH),
        ("compressor_unbalance_1", compressor(winding=0.1), Verdict.HIGH),
        ("compressor_rolled_1", compressor(winding=0.1), Verdict.LOW),
        ("winding_balance_1", compressor(winding=0.1), Verdict.HIGH),
        ("winding_balance_1", compressor(winding=1000.0), Verdict.HIGH),
        ("winding_resistance_1", compressor(winding=1000.0), Verdict.HIGH),
        ("winding_resistance_1", compressor(winding=0.1), Verdict.LOW),
        ("insulation_1", compressor(insulation=1e6), Verdict.LOW),
        ("pump_contactor_drop", condition.Condition(pump=condition.Motor(pole=0.2)), Verdict.HIGH),
        ("pump_phases", condition.Condition(pump=condition.Motor(line_lost="l2")), Verdict.LOW),
        ("pump_winding_balance", condition.Condition(pump=condition.Motor(winding=0.5)), Verdict.HIGH),
        ("pump_insulation", condition.Condition(pump=condition.Motor(insulation=1e5)), Verdict.LOW),
        ("fan_phases_1", condition.Condition(fans={1: condition.Motor(line_lost="l2")}), Verdict.LOW),
    ],
)  # fmt: skip
@pytest.mark.parametrize("unit", sorted(UNITS))
def test_a_fault_is_called_by_its_check(unit, name, what, verdict):
    assert check_of(name, UNITS[unit], what=what).verdict is verdict


def test_what_a_generator_adds_is_called_by_its_checks():
    small = condition.Site(generator_rating=40.0)
    for name in ("generator_size", "generator_load"):
        assert check_of(name, site=small).verdict is Verdict.HIGH
    site = condition.Site(generator_rating=150.0)
    assert check_of("generator_dip", site=site, what=faulty(source_impedance=2.5)).verdict is Verdict.HIGH
    assert check_of("generator_frequency_dip", site=site, what=faulty(hunting=0.12)).verdict is Verdict.LOW


def test_a_line_lost_before_the_unit_is_seen_with_the_motors_at_rest_and_hidden_while_they_turn():
    lost = faulty(line_lost="l3")
    assert check_of("supply_phases", what=lost, powers={}).verdict is Verdict.LOW
    assert check_of("supply_phases", what=lost, turned=False).verdict is Verdict.LOW
    truths = truths_of(what=lost)
    low, high = min(three(truths, "voltage", PAIRS)), max(three(truths, "voltage", PAIRS))
    assert 0.7 < low / high < 0.95  # common practice, no source: a motor that turns feeds most of it back
    assert check_of("compressor_unbalance_1", what=lost).verdict is Verdict.HIGH


@quick
@given(
    small=st.floats(0.0, 0.04),
    more=st.floats(0.003, 0.04),
    field=st.sampled_from(["lug", "unbalance", "source_impedance", "feeder", "frequency"]),
)
def test_a_supply_fault_grows_with_its_severity(small, more, field):
    def at(size):
        value = (
            size if field in ("lug", "unbalance") else 1.0 - size if field == "frequency" else 1.0 + 40.0 * size
        )
        truths = truths_of(what=faulty(**{field: value}))
        volts, source = three(truths, "voltage", PAIRS), three(truths, "source_voltage", PAIRS)
        return {
            "lug": sum(source) - sum(volts),
            "unbalance": electrical.unbalance(three(truths, "compressor_current_1")),
            "source_impedance": -sum(volts),
            "feeder": sum(source) - sum(volts),
            "frequency": sum(three(truths, "compressor_current_1")),
        }[field]

    assert at(small) < at(small + more)


@quick
@given(low=st.floats(0.0, 2.0), more=st.floats(0.05, 2.0))
def test_a_pole_drops_more_the_worse_it_is_and_starves_its_line(low, more):
    first = truths_of(what=compressor(pole=low))
    second = truths_of(what=compressor(pole=low + more))
    assert first["contactor_drop_1_l2"] < second["contactor_drop_1_l2"]
    unbalance = [electrical.unbalance(three(one, "compressor_current_1")) for one in (first, second)]
    assert unbalance[0] < unbalance[1]


@pytest.mark.parametrize("winding", [0.3, 0.6, 0.9, 1.5, 3.0])
def test_a_winding_fault_moves_with_the_leads_and_a_supply_fault_does_not(winding):
    truths = truths_of(what=compressor(winding=winding))
    motor = electrical.rolled_leads(
        three(truths, "compressor_current_1"), three(truths, "compressor_current_rolled_1")
    )
    assert motor.motor > 4.0 * motor.supply
    both = truths_of(what=faulty(unbalance=0.02))
    own = electrical.rolled_leads(three(both, "compressor_current_1"), three(both, "compressor_current_rolled_1"))
    assert own.supply_share == pytest.approx(1.0)


def test_a_reversed_supply_reads_the_same_but_for_its_sequence():
    forward, reverse = truths_of(), truths_of(what=faulty(reversed=True))
    assert (forward["phase_sequence"], reverse["phase_sequence"]) == ("forward", "reversed")
    assert sum(three(reverse, "compressor_current_1")) == pytest.approx(
        sum(three(forward, "compressor_current_1")), rel=1e-3
    )


def test_a_dead_supply_and_a_dead_control_circuit():
    off = truths_of(what=faulty(off=True))
    assert three(off, "voltage", PAIRS) == (0.0, 0.0, 0.0)
    assert three(off, "compressor_current_1") == (0.0, 0.0, 0.0)
    assert (off["power_indication"], off["phase_sequence"]) == ("dark", "missing")
    assert "contactor_drop_1_l1" not in off
    control = truths_of(what=faulty(control_off=True))
    assert control["control_voltage"] == 0.0
    assert control["power_indication"] == "dark"
    assert min(three(control, "voltage", PAIRS)) > 450.0
    assert control["unit_current"] < 0.01


def test_what_needs_a_motor_running_is_not_there_when_it_is_not_called():
    truths = truths_of(powers={"pump": 0.6})
    assert "pump_current_l1" in truths
    assert "pump_contactor_drop_l1" in truths
    assert "compressor_current_1_l1" not in truths
    assert "compressor_current_rolled_1_l1" not in truths
    assert "fan_current_1_l1" not in truths
    assert "contactor_drop_1_l1" not in truths
    assert {"winding_resistance_1_l1_l2", "insulation_resistance_1", "winding_temperature_1"} <= set(truths)
    assert "generator_current" not in truths
    dead = truths_of(what=compressor(dead=True))
    assert three(dead, "compressor_current_1") == (0.0, 0.0, 0.0)
    assert "contactor_drop_1_l1" not in dead


def test_a_motor_asked_for_more_than_it_can_turn_stands():
    powers = healthy_powers(BLUFF, condition.Site()) | {"pump": 4.0}
    electrics, _ = solved(powers=powers)
    assert not electrics.motors["pump"].turning
    assert electrics.motors["compressor_1"].turning
    # At rest it draws its locked-rotor current, of six times its rating.
    share = sum(electrics.between()) / 3.0 / 460.0
    assert sum(map(abs, electrics.motors["pump"].currents)) / 3.0 == pytest.approx(6.0 * 6.6 * share, rel=1e-3)


def test_the_cable_is_the_smallest_that_may_carry_the_unit():
    for sheet in UNITS.values():
        cable = feeder(sheet, condition.Site(), condition.Supply(), 0.0)
        needed = sheet.electrical.minimum_circuit_ampacity
        assert cable.sets * conductors.ampacity(cable.area) >= 0.999 * needed
        assert cable.temperature == condition.Site().ambient
    large = BLUFF.model_copy(
        update={"electrical": BLUFF.electrical.model_copy(update={"minimum_circuit_ampacity": 900.0})}
    )
    cable = feeder(large, condition.Site(), condition.Supply(), 300.0)
    assert cable.sets == 3
    assert cable.sets * conductors.ampacity(cable.area) >= 900.0


def test_lead_to_lead_resistances_are_those_of_a_delta():
    # One side open: across it the two others in series, across each of those the side alone.
    healthy = three(truths_of(), "winding_resistance_1", PAIRS)
    opened = three(truths_of(what=compressor(winding=1e9)), "winding_resistance_1", PAIRS)
    assert [found / healthy[0] for found in opened] == pytest.approx([3.0, 1.5, 1.5])
    assert isclose(healthy[0], motors.winding_resistance_at(1.1, 293.15, 303.15))


def test_what_cannot_be_is_refused():
    with pytest.raises(ValueError, match="has no compressor_9"):
        motor_loads(BLUFF, condition.Condition(), {"compressor_9": 1.0})
    loads = motor_loads(BLUFF, condition.Condition(), {"pump": -0.1})
    with pytest.raises(ValueError, match="pump is asked for"):
        supply(BLUFF, condition.Site(), condition.Supply(), loads)
    with pytest.raises(ValueError, match="unbalance"):
        supply(BLUFF, condition.Site(), condition.Supply(unbalance=0.7), ())


def test_a_unit_without_fan_ratings_shares_a_tenth_of_its_compressors():
    fans = tuple(fan.model_copy(update={"rated_current": None}) for fan in BLUFF.fans)
    loads = motor_loads(BLUFF.model_copy(update={"fans": fans}), condition.Condition(), {})
    assert sum(load.rated_current for load in loads if load.id.startswith("fan")) == pytest.approx(6.32)
    assert loads[0].rated_current == pytest.approx(COMPRESSOR_SHARE * 15.8)

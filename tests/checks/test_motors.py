"""Compressors, fans and pump: currents by load, unbalance, windings, insulation and contactors."""

from math import sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make, registry
from faultdoc.checks.base import CheckResult, Missing, Verdict
from faultdoc.library.load import load_unit
from faultdoc.model.base import Measured
from faultdoc.model.points import FAMILIES
from faultdoc.model.unit import Fan
from faultdoc.physics import electrical
from faultdoc.quantities import Kind, System, parse

LINES = FAMILIES["line"]
PAIRS = FAMILIES["pair"]
VOLTS = {"voltage_l1_l2": "460 V", "voltage_l2_l3": "460 V", "voltage_l3_l1": "460 V"}
WEATHER = {"ambient_air_temperature": "35 °C", "water_out_temperature": "44 °F", "site_elevation": "100 m"}


def three(prefix, *amounts, members=LINES, unit="A"):
    return {f"{prefix}_{name}": f"{amount} {unit}" for name, amount in zip(members, amounts, strict=True)}


HEALTHY = {
    **VOLTS, **WEATHER,
    **three("compressor_current_1", 13.4, 13.5, 13.3),
    **three("compressor_current_rolled_1", 13.5, 13.4, 13.3),
    **three("fan_current_1", 2.3, 2.2, 2.25),
    **three("pump_current", 4.7, 4.6, 4.8),
    **three("pump_current_rolled", 4.7, 4.7, 4.8),
    **three("winding_resistance_1", 1.10, 1.11, 1.105, members=PAIRS, unit="ohm"),
    **three("pump_winding_resistance", 2.50, 2.51, 2.49, members=PAIRS, unit="ohm"),
    **three("contactor_drop_1", 40, 35, 42, unit="mV"),
    **three("pump_contactor_drop", 20, 25, 22, unit="mV"),
    "winding_temperature_1": "20 °C", "pump_winding_temperature": "20 °C",
    "insulation_resistance_1": "200 Mohm", "pump_insulation_resistance": "300 Mohm",
}  # fmt: skip
FAMILY = (
    "compressor_current", "compressor_unbalance", "compressor_phases", "compressor_rolled", "compressor_derated",
    "winding_balance", "winding_resistance", "insulation", "contactor_drop", "fan_current", "fan_unbalance",
    "fan_phases",
)  # fmt: skip
PUMP = (
    "pump_phases", "pump_rolled", "pump_derated", "pump_winding_balance", "pump_insulation", "pump_contactor_drop",
)  # fmt: skip
NAMES = tuple(f"{name}_1" for name in FAMILY) + PUMP


@pytest.fixture(scope="module")
def fanned(sheet):
    """The demo unit with its fans written out: four of 2.5 A."""
    return sheet.model_copy(
        update={"fans": tuple(Fan(circuit=circuit, count=2, rated_current="2.5 A") for circuit in "ab")}
    )


def test_one_check_for_every_motor_there_may_be():
    for name in FAMILY:
        assert {f"{name}_{number}" for number in range(1, 9)} <= set(registry)
    assert set(PUMP) <= set(registry)


@pytest.mark.parametrize("name", NAMES)
def test_a_healthy_motor_is_as_expected(name, fanned, read, points):
    result = make(name, fanned, read(**HEALTHY), points)
    assert isinstance(result, CheckResult), result
    assert result.verdict is Verdict.AS_EXPECTED, result.sentence(System.US)
    assert result.working
    assert sqrt(sum(effect**2 for effect in result.effects.values())) == pytest.approx(result.uncertainty)
    for system in System:
        assert result.title in result.sentence(system)


@pytest.mark.parametrize("name", [f"{name}_{number}" for name in FAMILY for number in (1, 4, 8)] + list(PUMP))
def test_needs_are_points_and_without_readings_they_are_asked_for(name, fanned, points):
    for need in registry[name].needs:
        assert need.default is not None if need.name.startswith("sheet.") else points[need.name].kind is need.kind
    missing = make(name, fanned, {}, points)
    assert isinstance(missing, Missing)
    assert missing.readings


# --- currents against load ---


def test_compressor_current_at_the_design_point_is_its_share_of_the_plate(sheet, read, points):
    design = {
        **VOLTS, "ambient_air_temperature": "35 °C", "water_out_temperature": "44 °F",
        **three("compressor_current_1", 13.4, 13.5, 13.3),
    }  # fmt: skip
    result = make("compressor_current_1", sheet, read(**design), points)
    assert result.expected == pytest.approx(0.85 * 15.8, rel=1e-3)
    hot = make("compressor_current_1", sheet, read(**design | {"ambient_air_temperature": "45 °C"}), points)
    cold = make("compressor_current_1", sheet, read(**design | {"ambient_air_temperature": "15 °C"}), points)
    assert cold.expected < result.expected < hot.expected
    sagging = make("compressor_current_1", sheet, read(**design | dict.fromkeys(VOLTS, "420 V")), points)
    assert sagging.expected > result.expected


def test_compressor_current_calls_what_is_idle_and_what_is_overloaded(sheet, read, points):
    idle = read(**HEALTHY | three("compressor_current_1", 5.5, 5.5, 5.5))
    assert make("compressor_current_1", sheet, idle, points).verdict is Verdict.LOW
    heavy = read(**HEALTHY | three("compressor_current_1", 18, 18, 18))
    result = make("compressor_current_1", sheet, heavy, points)
    assert result.verdict is Verdict.HIGH
    assert {line.title: line.value for line in result.working}[
        "mean over the nameplate's current"
    ] == pytest.approx(18 / 15.8)


@given(st.floats(-10.0, 50.0), st.floats(2.0, 15.0))
@settings(deadline=None, max_examples=40)
def test_compressor_current_does_not_fall_as_the_air_warms(sheet, points, celsius, more):
    def expected(air):
        texts = three("compressor_current_1", 13, 13, 13)
        readings = {name: Measured.from_quantity(parse(text, Kind.CURRENT)) for name, text in texts.items()}
        readings["ambient_air_temperature"] = Measured.from_quantity(parse(f"{air} °C", Kind.TEMPERATURE))
        return make("compressor_current_1", sheet, readings, points).expected

    assert expected(celsius + more) >= expected(celsius)


def test_a_motor_the_unit_has_not_got_is_refused(sheet, fanned, read, points):
    none = make("compressor_current_5", sheet, read(**three("compressor_current_5", 13, 13, 13)), points)
    assert "does not give" in none.reason
    readings = read(**VOLTS, **three("compressor_current_5", 13, 13, 13))
    assert "4 compressors" in make("compressor_derated_5", sheet, readings, points).reason
    fifth = make("fan_current_5", fanned, read(**three("fan_current_5", 2, 2, 2)), points)
    assert "rated current of fan 5" in fifth.reason
    first = make("fan_current_1", sheet.model_copy(update={"fans": ()}), read(**HEALTHY), points)
    assert "rated current of fan 1" in first.reason


def test_fans_count_through_the_list_and_thin_air_loads_them_less(sheet, read, points):
    mixed = sheet.model_copy(
        update={
            "fans": (
                Fan(circuit="a", count=2, rated_current="2.5 A"),
                Fan(circuit="b", count=1, rated_current="4 A"),
            )
        }
    )
    amps = read(**WEATHER, **three("fan_current_3", 3.6, 3.6, 3.6), **three("fan_current_2", 2.3, 2.3, 2.3))
    third, second = make("fan_current_3", mixed, amps, points), make("fan_current_2", mixed, amps, points)
    assert third.expected / second.expected == pytest.approx(4.0 / 2.5)
    high = read(**WEATHER | {"site_elevation": "2500 m"}, **three("fan_current_2", 2.3, 2.3, 2.3))
    assert make("fan_current_2", mixed, high, points).expected < second.expected
    stuck = read(**WEATHER, **three("fan_current_2", 8, 8, 8))
    assert make("fan_current_2", mixed, stuck, points).verdict is Verdict.HIGH


# --- the three lines of a motor ---


@pytest.mark.parametrize(
    ("prefix", "check"),
    [("compressor_current_1", "compressor_{}_1"), ("fan_current_1", "fan_{}_1"), ("pump_current", "pump_{}")],
)
def test_a_lost_line_shows_and_its_pattern_is_named(prefix, check, fanned, read, points):
    lost = make(check.format("phases"), fanned, read(**three(prefix, 20, 20, 0.2)), points)
    assert lost.verdict is Verdict.LOW
    assert "a line is lost." in lost.remarks[0]
    upstream = make(check.format("phases"), fanned, read(**three(prefix, 20, 10, 10)), points)
    assert upstream.verdict is Verdict.LOW
    assert "before a transformer" in upstream.remarks[0]
    if not prefix.startswith("pump"):
        assert make(check.format("unbalance"), fanned, read(**three(prefix, 20, 20, 0.2)), points).verdict is (
            Verdict.HIGH
        )


def test_rolled_leads_say_whose_unbalance_it_is(sheet, read, points):
    before = three("compressor_current_1", 15.0, 13.0, 11.0)
    stays = three("compressor_current_rolled_1", 15.0, 13.0, 11.0)
    moves = three("compressor_current_rolled_1", 11.0, 15.0, 13.0)
    supply = make("compressor_rolled_1", sheet, read(**before, **stays), points)
    motor = make("compressor_rolled_1", sheet, read(**before, **moves), points)
    assert (supply.verdict, motor.verdict) == (Verdict.HIGH, Verdict.LOW)
    # 15, 13, 11 is 13 and a wave of 2 x 2 / sqrt 3 over the three lines.
    assert supply.measured == pytest.approx(4 / sqrt(3.0) / 13)
    assert motor.measured == pytest.approx(-supply.measured)
    shares = {line.title: line.value for line in motor.working}
    assert shares["share that follows the motor"] == pytest.approx(1.0)
    # An unbalance as small as the meter's error cannot be followed.
    small = make("compressor_rolled_1", sheet, read(**HEALTHY), points)
    assert small.verdict is Verdict.AS_EXPECTED
    even = make(
        "pump_rolled",
        sheet,
        read(**three("pump_current", 5, 5, 5), **three("pump_current_rolled", 5, 5, 5)),
        points,
    )
    assert even.verdict is Verdict.AS_EXPECTED
    assert len(even.working) == 2


@pytest.mark.parametrize("after", [(14.0, 14.5, 10.5), (11.6, 13.1, 14.3), (13.0, 15.0, 11.0)])
def test_uncertainty_of_rolled_leads_against_trials(after, sheet, read, points):
    before = (15.0, 13.0, 11.0)
    texts = three("compressor_current_1", *before) | three("compressor_current_rolled_1", *after)
    result = make("compressor_rolled_1", sheet, read(**texts), points)
    rng = np.random.default_rng(7)
    trials = np.array([*before, *after]) * (1.0 + rng.uniform(-0.02, 0.02, (4000, 6)))
    found = [electrical.rolled_leads(tuple(row[:3]), tuple(row[3:])) for row in trials]
    scatter = np.std([parts.supply - parts.motor for parts in found])
    assert result.uncertainty == pytest.approx(scatter, rel=0.06)


def test_derating(sheet, read, points):
    skewed = {"voltage_l1_l2": "475 V ± 0.2 %", "voltage_l2_l3": "460 V ± 0.2 %", "voltage_l3_l1": "445 V ± 0.2 %"}
    loaded = make(
        "compressor_derated_1", sheet, read(**skewed, **three("compressor_current_1", 16, 16, 16)), points
    )
    assert loaded.verdict is Verdict.HIGH
    assert loaded.expected == pytest.approx(0.87, abs=0.01)  # 3.26 %: between 0.89 and 0.85
    easy = make("pump_derated", sheet, read(**skewed, **three("pump_current", 4.7, 4.7, 4.7)), points)
    assert easy.verdict is Verdict.AS_EXPECTED
    lost = make(
        "pump_derated", sheet, read(**VOLTS | {"voltage_l2_l3": "400 V"}, **three("pump_current", 5, 5, 5)), points
    )
    assert "above 5 %" in lost.reason


# --- windings, insulation, contactors ---


def test_winding_resistance_goes_with_the_temperature(sheet, read, points):
    warm = HEALTHY | {"winding_temperature_1": "60 °C"}
    result = make("winding_resistance_1", sheet, read(**warm), points)
    assert result.expected == pytest.approx(1.1 * (234.5 + 60) / (234.5 + 20))
    # A winding as warm as that would read more: this one is colder than its shell, or short of turns.
    assert result.verdict is Verdict.LOW
    shorted = read(**HEALTHY | three("winding_resistance_1", 0.7, 0.7, 0.7, members=PAIRS, unit="ohm"))
    assert make("winding_resistance_1", sheet, shorted, points).verdict is Verdict.LOW
    bare = sheet.model_copy(
        update={
            "compressors": tuple(one.model_copy(update={"winding_resistance": None}) for one in sheet.compressors)
        }
    )
    assert "does not give" in make("winding_resistance_1", bare, read(**HEALTHY), points).reason


def test_winding_balance(sheet, read, points):
    off = three("winding_resistance_1", 1.1, 1.1, 0.95, members=PAIRS, unit="ohm")
    result = make("winding_balance_1", sheet, read(**off), points)
    assert result.measured == pytest.approx((1.05 - 0.95) / 1.05)
    assert result.verdict is Verdict.HIGH
    open_winding = three("pump_winding_resistance", 2.5, 900, 900, members=PAIRS, unit="ohm")
    assert make("pump_winding_balance", sheet, read(**open_winding), points).verdict is Verdict.HIGH


def test_insulation(sheet, read, points):
    damp = read(insulation_resistance_1="6 Mohm", winding_temperature_1="20 °C")
    result = make("insulation_1", sheet, damp, points)
    assert result.measured == pytest.approx(1.5e6)
    assert result.verdict is Verdict.LOW
    # Read warm the same six megohms are enough.
    warm = make(
        "insulation_1", sheet, read(insulation_resistance_1="6 Mohm", winding_temperature_1="40 °C"), points
    )
    assert warm.verdict is Verdict.AS_EXPECTED
    # Without a temperature the correction is uncertain by a factor, and that widens the result.
    unknown = make("pump_insulation", sheet, read(pump_insulation_resistance="6 Mohm"), points)
    known = make(
        "pump_insulation",
        sheet,
        read(pump_insulation_resistance="6 Mohm", pump_winding_temperature="25 °C"),
        points,
    )
    assert unknown.uncertainty > 2.0 * known.uncertainty
    hot = read(pump_insulation_resistance="6 Mohm", pump_winding_temperature="120 °C")
    assert "correction holds" in make("pump_insulation", sheet, hot, points).reason


def test_contactor(sheet, read, points):
    burnt = make("contactor_drop_1", sheet, read(**three("contactor_drop_1", 0.04, 0.9, 0.05, unit="V")), points)
    assert burnt.verdict is Verdict.HIGH
    assert burnt.measured == pytest.approx(0.9)
    open_pole = make(
        "pump_contactor_drop", sheet, read(**three("pump_contactor_drop", 0.02, 0.02, 460, unit="V")), points
    )
    assert open_pole.verdict is Verdict.HIGH


def test_the_shipped_units_carry_what_the_checks_want(points, read):
    for id in ("bluff_30", "marten_60"):
        sheet = load_unit(id)
        assert sheet.electrical.control_transformer_power
        for compressor in sheet.compressors:
            assert compressor.winding_resistance
            assert compressor.locked_rotor_current
            # The winding is the lesser part of the impedance that limits the locked-rotor current.
            impedance = sheet.electrical.voltage / (sqrt(3.0) * compressor.locked_rotor_current)
            assert 0.1 * impedance < 0.5 * compressor.winding_resistance < 0.5 * impedance

"""Checks of the refrigerant circuits: a healthy unit passes, and each fault is called on the side it is on."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make, registry
from faultdoc.checks.base import CheckResult, Missing, Verdict
from faultdoc.library.load import load_unit
from faultdoc.model.base import Measured
from faultdoc.model.points import FAMILIES
from faultdoc.model.unit import Expansion, RefrigerantSide
from faultdoc.physics import atmosphere, refrigerant
from faultdoc.quantities import Kind, System, difference_kind, parse

PER_CIRCUIT = (
    "superheat", "subcooling", "subcooling_by_discharge", "compression_ratio", "evaporator_approach",
    "condenser_split", "discharge_temperature", "non_condensables", "charge_and_feed", "feed_balance",
)  # fmt: skip
ELEVATION = 300.0
ZERO = 273.15


def healthy(sheet, circuit="a", **changes):
    """Return what a healthy circuit shows, in SI, with some figures moved by so much."""
    off = {
        "superheat": 0.0,
        "subcooling": 0.0,
        "approach": 0.0,
        "split": 0.0,
        "discharge": 0.0,
        "gas": 0.0,
    } | changes
    side, name = sheet.refrigerant_side, sheet.refrigerant
    air = atmosphere.pressure(ELEVATION)
    leaving, entering = sheet.water.design_leaving, sheet.rating_ambient
    cold = leaving - side.evaporator_approach - off["approach"]
    # Thin air at 300 m widens the split by 3 %.
    hot = entering + 1.027 * side.condenser_split + off["split"]
    suction, discharge = float(refrigerant.dew_pressure(name, cold)), float(refrigerant.dew_pressure(name, hot))
    boiling = float(refrigerant.bubble_temperature(name, discharge - 50e3))
    suction_line = cold + side.superheat + off["superheat"]
    gas = refrigerant.discharge_temperature(name, suction, suction_line, discharge, side.isentropic_efficiency)
    ambient = 298.15
    rest = refrigerant.resting_pressure(name, ambient, 0.8)
    return {
        f"suction_pressure_{circuit}": suction - air,
        f"discharge_pressure_{circuit}": discharge - air,
        f"liquid_pressure_{circuit}": discharge - 50e3 - air,
        f"suction_line_temperature_{circuit}": suction_line,
        f"liquid_line_temperature_{circuit}": boiling - side.subcooling - off["subcooling"],
        f"discharge_line_temperature_{circuit}": gas - 3.0 + off["discharge"],
        f"condenser_inlet_air_temperature_{circuit}": entering,
        f"resting_pressure_{circuit}": rest - air + off["gas"],
        "ambient_air_temperature": ambient,
        "water_out_temperature": leaving,
        "site_elevation": ELEVATION,
        f"compressors_running_{circuit}": float(sum(one.circuit == circuit for one in sheet.compressors)),
        f"fans_stopped_{circuit}": 0.0,
    }


@pytest.fixture(scope="module")
def measured(points):
    def take(values):
        return {
            name: Measured(kind=points[name].kind, value=value, text=f"{value}") for name, value in values.items()
        }

    return take


def run(name, sheet, measured, points, circuit="a", **changes):
    result = make(f"{name}_{circuit}", sheet, measured(healthy(sheet, circuit, **changes)), points)
    assert isinstance(result, CheckResult), result
    return result


@pytest.mark.parametrize("unit", ["bluff_30", "marten_60"])
@pytest.mark.parametrize("circuit", ["a", "b"])
@pytest.mark.parametrize("name", PER_CIRCUIT)
def test_a_healthy_circuit_is_as_expected(unit, circuit, name, measured, points):
    result = run(name, load_unit(unit), measured, points, circuit)
    assert result.verdict is Verdict.AS_EXPECTED
    assert abs(result.deviation) < 0.6
    assert result.working
    assert result.formula
    assert "CoolProp" in result.source
    for system in System:
        assert f"circuit {circuit.upper()}" in result.sentence(system)


@pytest.mark.parametrize(
    ("name", "changes", "verdict"),
    [
        ("superheat", {"superheat": 8.0}, Verdict.HIGH),
        ("superheat", {"superheat": -5.0}, Verdict.LOW),
        ("subcooling", {"subcooling": 6.0}, Verdict.HIGH),
        ("subcooling", {"subcooling": -6.0}, Verdict.LOW),
        ("subcooling_by_discharge", {"subcooling": -6.0}, Verdict.LOW),
        ("evaporator_approach", {"approach": 5.0}, Verdict.HIGH),
        ("condenser_split", {"split": 8.0}, Verdict.HIGH),
        ("condenser_split", {"split": -7.0}, Verdict.LOW),
        ("compression_ratio", {"split": 12.0, "approach": 3.0}, Verdict.HIGH),
        ("discharge_temperature", {"discharge": 15.0}, Verdict.HIGH),
        ("discharge_temperature", {"discharge": -15.0}, Verdict.LOW),
        ("non_condensables", {"gas": 250e3}, Verdict.HIGH),
        ("non_condensables", {"gas": -250e3}, Verdict.LOW),
        ("charge_and_feed", {"superheat": 8.0, "approach": 4.0, "subcooling": -6.0}, Verdict.LOW),
        ("charge_and_feed", {"subcooling": 9.0}, Verdict.HIGH),
        ("feed_balance", {"superheat": 8.0, "approach": 5.0, "subcooling": 3.0}, Verdict.HIGH),
        ("feed_balance", {"superheat": -6.0, "subcooling": -5.0}, Verdict.LOW),
    ],
)
def test_each_fault_is_called(name, changes, verdict, sheet, measured, points):
    assert run(name, sheet, measured, points, **changes).verdict is verdict


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({}, "Normal subcooling with normal superheat and normal approach: charge and feed as they should be."),
        ({"superheat": 8.0, "approach": 4.0, "subcooling": -6.0}, "short of charge"),
        ({"superheat": 8.0, "approach": 4.0, "subcooling": 5.0}, "fed too little"),
        ({"subcooling": -6.0}, "the valve still makes up for it"),
        ({"subcooling": 6.0}, "too much refrigerant, or gas in the condenser"),
        ({"superheat": -5.0}, "liquid may reach the compressor"),
        ({"superheat": -5.0, "subcooling": -6.0}, "a valve that does not close"),
        ({"superheat": -5.0, "subcooling": 6.0}, "a valve that feeds too much"),
        ({"superheat": 8.0}, "the suction line warms on its way"),
        ({"approach": 5.0}, "little water, a fouled barrel"),
        ({"approach": -4.0}, "light load"),
    ],
)
def test_what_the_three_say_together(changes, words, sheet, measured, points):
    remark = run("charge_and_feed", sheet, measured, points, **changes).remarks[0]
    assert words in remark
    assert run("feed_balance", sheet, measured, points, **changes).remarks[0] == remark


def test_both_indices_can_be_redone_from_the_working(sheet, measured, points):
    changes = {"superheat": 4.0, "approach": 2.0, "subcooling": -3.0}
    charge = run("charge_and_feed", sheet, measured, points, **changes)
    feed = run("feed_balance", sheet, measured, points, **changes)
    lines = {line.title.partition(":")[0]: line.value for line in charge.working}
    starved, held = lines["evaporator starved by"], lines["condenser holds more liquid by"]
    assert starved == pytest.approx(3.0, abs=0.05)
    assert held == pytest.approx(-3.0, abs=0.05)
    assert charge.measured == pytest.approx((held - starved) / 2.0)
    assert feed.measured == pytest.approx((held + starved) / 2.0)


def test_a_fixed_orifice_is_told_from_a_valve(sheet, measured, points):
    orifice = sheet.model_copy(
        update={
            "refrigerant_side": sheet.refrigerant_side.model_copy(update={"expansion": Expansion.FIXED_ORIFICE})
        }
    )
    valve, fixed = (run("superheat", unit, measured, points, superheat=6.0) for unit in (sheet, orifice))
    assert valve.verdict is Verdict.HIGH
    assert fixed.verdict is Verdict.AS_EXPECTED
    assert any("fixed orifice holds no superheat" in remark for remark in fixed.remarks)
    low = run("charge_and_feed", orifice, measured, points, subcooling=-8.0)
    assert "charge by superheat" in low.remarks[0]


def test_what_the_sheet_leaves_out_widens_the_result(sheet, measured, points):
    bare = sheet.model_copy(update={"refrigerant_side": RefrigerantSide(), "fans": ()})
    values = measured(healthy(sheet))
    for name in PER_CIRCUIT:
        if name in ("non_condensables",):
            continue
        known, guessed = (make(f"{name}_a", unit, values, points) for unit in (sheet, bare))
        assert guessed.uncertainty > known.uncertainty, name


def test_what_the_sheet_calls_assumed_widens_the_result(sheet, measured, points):
    unsure = sheet.model_copy(update={"assumed": ("refrigerant_side.superheat",)})
    values = measured(healthy(sheet))
    known, guessed = (make("superheat_a", unit, values, points) for unit in (sheet, unsure))
    assert guessed.expected == known.expected
    assert guessed.uncertainty > known.uncertainty
    assert next(entry.origin for entry in guessed.inputs if entry.name == "sheet.superheat") == "assumed"


def test_stopped_fans_and_height_widen_the_split_expected(sheet, measured, points):
    values = healthy(sheet)
    whole = make("condenser_split_a", sheet, measured(values), points).expected
    half = make("condenser_split_a", sheet, measured(values | {"fans_stopped_a": 1.0}), points).expected
    high = make("condenser_split_a", sheet, measured(values | {"site_elevation": 2000.0}), points).expected
    single = make("condenser_split_a", sheet, measured(values | {"compressors_running_a": 1.0}), points).expected
    assert half == pytest.approx(2.0 * whole, rel=1e-6)
    assert 1.05 * whole < high < 1.25 * whole
    assert single == pytest.approx(0.5 * whole, rel=1e-6)


@pytest.mark.parametrize("circuit", FAMILIES["circuit"])
@pytest.mark.parametrize("name", PER_CIRCUIT)
def test_every_input_is_a_point_of_its_kind_or_of_the_data_sheet(name, circuit, points):
    for need in registry[f"{name}_{circuit}"].needs:
        if need.name.startswith("sheet."):
            assert need.default is not None
        else:
            assert points[need.name].kind is need.kind


@pytest.mark.parametrize("name", PER_CIRCUIT)
def test_a_circuit_the_unit_lacks_is_refused(name, sheet, measured, points):
    values = healthy(sheet, "a")
    renamed = {key[:-2] + "_c" if key.endswith("_a") else key: value for key, value in values.items()}
    missing = make(f"{name}_c", sheet, measured(renamed), points)
    assert isinstance(missing, Missing)
    assert "circuit C" in missing.reason


@pytest.mark.parametrize("name", PER_CIRCUIT)
def test_without_readings_it_says_which_would_do(name, sheet, points):
    missing = make(f"{name}_a", sheet, {}, points)
    assert isinstance(missing, Missing)
    assert missing.readings
    assert set(missing.readings) <= set(points)


@pytest.mark.parametrize(
    ("name", "point", "value", "words"),
    [
        ("superheat", "suction_pressure_a", 5.2e6, "outside"),
        ("superheat", "suction_pressure_a", -1.2e5, "below a perfect vacuum"),
        ("condenser_split", "compressors_running_a", 5.0, "count them again"),
        ("condenser_split", "compressors_running_a", 0.0, "count them again"),
        ("condenser_split", "fans_stopped_a", 9.0, "count them again"),
        ("condenser_split", "fans_stopped_a", 2.0, "no fan running"),
        ("discharge_temperature", "suction_line_temperature_a", 270.0, "wet"),
    ],
)
def test_refusals(name, point, value, words, sheet, measured, points):
    missing = make(f"{name}_a", sheet, measured(healthy(sheet) | {point: value}), points)
    assert isinstance(missing, Missing)
    assert words in missing.reason


def test_an_unknown_refrigerant_is_said(sheet, measured, points):
    odd = sheet.model_copy(update={"refrigerant": "R-12"})
    missing = make("superheat_a", odd, measured(healthy(sheet)), points)
    assert "known are R-410A" in missing.reason


def test_height_matters_to_a_gauge(sheet, measured, points):
    values = healthy(sheet)
    low, high = (
        make("superheat_a", sheet, measured(values | {"site_elevation": height}), points)
        for height in (0.0, 3000.0)
    )
    # 3,000 m take 31 kPa off the atmosphere: saturation falls, superheat rises.
    assert high.measured - low.measured == pytest.approx(1.2, abs=0.4)


@given(st.floats(-4.0, 12.0), st.floats(0.2, 3.0))
@settings(deadline=None, derandomize=True, max_examples=30)
def test_superheat_rises_with_the_line_and_falls_with_the_gauge(sheet, measured, points, superheat, more):
    values = healthy(sheet, superheat=superheat)
    now = make("superheat_a", sheet, measured(values), points)
    warmer = values | {"suction_line_temperature_a": values["suction_line_temperature_a"] + more}
    higher = values | {"suction_pressure_a": values["suction_pressure_a"] + more * 1e4}
    assert make("superheat_a", sheet, measured(warmer), points).measured == pytest.approx(now.measured + more)
    assert make("superheat_a", sheet, measured(higher), points).measured < now.measured


@pytest.mark.parametrize(
    ("name", "entry", "sign"),
    [
        ("superheat", "suction_line_temperature_a", 1),
        ("superheat", "suction_pressure_a", -1),
        ("superheat", "sheet.superheat", -1),
        ("subcooling", "liquid_pressure_a", 1),
        ("subcooling", "liquid_line_temperature_a", -1),
        ("subcooling_by_discharge", "sheet.condenser_pressure_drop", -1),
        ("compression_ratio", "suction_pressure_a", -1),
        ("compression_ratio", "discharge_pressure_a", 1),
        ("compression_ratio", "water_out_temperature", 1),
        ("compression_ratio", "condenser_inlet_air_temperature_a", -1),
        ("evaporator_approach", "suction_pressure_a", -1),
        ("condenser_split", "discharge_pressure_a", 1),
        ("condenser_split", "fans_stopped_a", -1),
        ("condenser_split", "compressors_running_a", -1),
        ("discharge_temperature", "sheet.isentropic_efficiency", 1),
        ("discharge_temperature", "suction_line_temperature_a", -1),
        ("discharge_temperature", "discharge_pressure_a", -1),
        ("non_condensables", "ambient_air_temperature", -1),
        ("non_condensables", "resting_pressure_a", 1),
        ("charge_and_feed", "suction_line_temperature_a", -1),
        ("charge_and_feed", "liquid_line_temperature_a", -1),
        ("feed_balance", "suction_line_temperature_a", 1),
        ("feed_balance", "liquid_line_temperature_a", -1),
    ],
)
def test_each_input_pulls_the_way_it_should(name, entry, sign, sheet, measured, points):
    assert run(name, sheet, measured, points).effects[entry] * sign > 0.0


def test_readings_typed_in_either_system_give_one_result(sheet, points):
    us = {"suction_pressure_a": "112 psig", "suction_line_temperature_a": "47.7 °F", "site_elevation": "500 ft"}
    si = {
        "suction_pressure_a": "772.213 kPa",
        "suction_line_temperature_a": "8.7222 °C",
        "site_elevation": "152.4 m",
    }
    results = [
        make(
            "superheat_a",
            sheet,
            {name: Measured.from_quantity(parse(text, points[name].kind)) for name, text in texts.items()},
            points,
        )
        for texts in (us, si)
    ]
    assert results[0].measured == pytest.approx(results[1].measured, abs=1e-3)
    assert difference_kind(Kind.TEMPERATURE) is results[0].kind

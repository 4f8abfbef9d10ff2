from math import log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make, registry
from faultdoc.checks.base import CheckResult, Missing, Verdict
from faultdoc.model.base import Measured
from faultdoc.model.points import FAMILIES
from faultdoc.physics import refrigerant
from faultdoc.quantities import Kind


def test_margin_over_the_air(sheet, read, points):
    warm = make("oil_margin_1", sheet, read(oil_temperature_1="45 °C", ambient_air_temperature="25 °C"), points)
    cold = make("oil_margin_1", sheet, read(oil_temperature_1="28 °C", ambient_air_temperature="25 °C"), points)
    assert warm.verdict is Verdict.AS_EXPECTED
    assert cold.verdict is Verdict.LOW
    assert cold.expected == pytest.approx(273.15 + 35.0)  # the sheet's 10 K
    assert cold.working[-1].value == pytest.approx(3.0)


def test_margin_without_a_sump_on_the_sheet_is_the_usual_one_and_wider(sheet, read, points):
    bare = sheet.model_copy(update={"oil_sump": None})
    readings = read(oil_temperature_1="45 °C", ambient_air_temperature="25 °C")
    known, usual = (make("oil_margin_1", unit, readings, points) for unit in (sheet, bare))
    assert usual.expected == known.expected
    assert usual.uncertainty > known.uncertainty


def test_margin_over_saturated_suction(sheet, read, points):
    readings = read(oil_temperature_3="20 °C", suction_pressure_b="120 psi", site_elevation="0 m")
    result = make("oil_over_suction_3_b", sheet, readings, points)
    saturated = float(refrigerant.dew_temperature("R-410A", 120 * 6894.757 + 101_325.0))
    assert result.expected == pytest.approx(saturated + 10.0, abs=1e-3)
    assert result.measured == pytest.approx(293.15)


def test_a_compressor_on_another_circuit_is_refused(sheet, read, points):
    readings = read(oil_temperature_3="20 °C", suction_pressure_a="120 psi")
    missing = make("oil_over_suction_3_a", sheet, readings, points)
    assert missing.reason == "compressor 3 is on circuit B"


def test_a_compressor_the_unit_lacks_is_refused(sheet, read, points):
    readings = read(oil_temperature_5="20 °C", ambient_air_temperature="25 °C")
    for name in ("oil_margin_5", "warm_up_left_5"):
        assert "no compressor 5; it has 4" in make(name, sheet, readings, points).reason


def test_time_left_by_hand(sheet, read, points):
    readings = read(oil_temperature_1="22 °C", ambient_air_temperature="20 °C")
    result = make("warm_up_left_1", sheet, readings, points)
    # It would settle 25 K over the air (70 W / 2.8 W/K) and is safe at 10 K; 20 kJ/K / 2.8 W/K are two hours.
    assert result.measured == pytest.approx(20e3 / 2.8 * log((25.0 - 2.0) / (25.0 - 10.0)))
    assert result.verdict is Verdict.HIGH
    there = make("warm_up_left_1", sheet, read(oil_temperature_1="40 °C", ambient_air_temperature="20 °C"), points)
    assert there.measured == 0.0
    assert there.verdict is Verdict.AS_EXPECTED


def test_a_heater_too_weak_is_said(sheet, read, points):
    weak = sheet.model_copy(update={"oil_sump": sheet.oil_sump.model_copy(update={"heater_power": 25.0})})
    readings = read(oil_temperature_1="22 °C", ambient_air_temperature="20 °C")
    missing = make("warm_up_left_1", weak, readings, points)
    assert isinstance(missing, Missing)
    assert "holds the sump only 9 K over the air, and 10 K is wanted" in missing.reason


def test_no_sump_on_the_sheet_no_time(sheet, read, points):
    bare = sheet.model_copy(update={"oil_sump": None})
    readings = read(oil_temperature_1="22 °C", ambient_air_temperature="20 °C")
    assert "does not give the power of the sump's heater" in make("warm_up_left_1", bare, readings, points).reason


@given(st.floats(-20.0, 40.0), st.floats(0.0, 9.0), st.floats(0.1, 5.0))
@settings(deadline=None, derandomize=True, max_examples=30)
def test_a_warmer_sump_waits_less(sheet, points, air, over, more):
    def left(sump):
        readings = {
            "oil_temperature_1": Measured(kind=Kind.TEMPERATURE, value=273.15 + sump, text="-"),
            "ambient_air_temperature": Measured(kind=Kind.TEMPERATURE, value=273.15 + air, text="-"),
        }
        result = make("warm_up_left_1", sheet, readings, points)
        assert isinstance(result, CheckResult), result
        return result.measured

    assert left(air + over + more) < left(air + over)


@pytest.mark.parametrize("number", FAMILIES["number"])
def test_registered_for_every_compressor(number, points, sheet):
    names = [f"oil_margin_{number}", f"warm_up_left_{number}"]
    names += [f"oil_over_suction_{number}_{circuit}" for circuit in FAMILIES["circuit"]]
    for name in names:
        for need in registry[name].needs:
            assert need.default if need.name.startswith("sheet.") else points[need.name].kind is need.kind
        assert make(name, sheet, {}, points).readings

"""The checks against freezing: what they call, with the number a reader would find in a table."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make
from faultdoc.checks.base import Missing, Verdict
from faultdoc.model.unit import Glycol
from faultdoc.physics import fluid
from faultdoc.quantities import Kind, System, to_display


def fahrenheit(temperature):
    return to_display(temperature, Kind.TEMPERATURE, System.US)


@pytest.fixture(scope="session")
def plain(sheet, changed):
    return changed(sheet, usual_glycol=Glycol.NONE, usual_glycol_fraction=None)


def test_evaporating_temperature_against_plain_water(plain, read, points):
    # R-410A at sea level: 101.4 psig is 32 °F (pressure-temperature chart of the trade, from memory).
    readings = read(suction_pressure_a="101.4 psi ± 0.5 psi", site_elevation="0 ft", glycol_fraction="0 %")
    result = make("freeze_margin_suction_a", plain, readings, points)
    assert fahrenheit(result.measured) == pytest.approx(32.0, abs=0.5)
    assert fahrenheit(result.expected) == pytest.approx(32.0)
    low = make("freeze_margin_suction_a", plain, readings | read(suction_pressure_a="85 psi"), points)
    assert low.verdict is Verdict.LOW
    glycol = make(
        "freeze_margin_suction_a",
        plain,
        readings | read(suction_pressure_a="85 psi", glycol_fraction="25 %"),
        points,
    )
    assert glycol.verdict is Verdict.AS_EXPECTED


def test_a_gauge_reads_colder_on_a_mountain(sheet, read, points):
    sea, high = (
        make("freeze_margin_suction_b", sheet, read(suction_pressure_b="110 psi", site_elevation=up), points)
        for up in ("0 ft", "9000 ft")
    )
    assert high.measured < sea.measured


def test_suction_below_a_vacuum_or_of_an_unknown_refrigerant_is_refused(sheet, read, points):
    void = make("freeze_margin_suction_a", sheet, read(suction_pressure_a="-20 psi"), points)
    assert isinstance(void, Missing)
    assert "vacuum" in void.reason
    odd = sheet.model_copy(update={"refrigerant": "R-9999"})
    unknown = make("freeze_margin_suction_a", odd, read(suction_pressure_a="100 psi"), points)
    assert "R-9999" in unknown.reason


def test_each_circuit_has_its_check(sheet, points):
    for circuit in "abcd":
        missing = make(f"freeze_margin_suction_{circuit}", sheet, {}, points)
        assert missing.readings == (f"suction_pressure_{circuit}",)


def test_minimum_leaving_of_plain_water_is_the_sheets(plain, sheet, read, points):
    readings = read(water_out_temperature="38 °F ± 0.5 °F", glycol_fraction="0 % ± 0.1 %")
    result = make("minimum_leaving", plain, readings, points)
    assert fahrenheit(result.expected) == pytest.approx(40.0)
    assert result.verdict is Verdict.LOW
    with_glycol = make("minimum_leaving", sheet, readings | read(glycol_fraction="25 %"), points)
    assert with_glycol.verdict is Verdict.AS_EXPECTED
    freezing = fluid.freezing_point("propylene", 0.25)
    assert with_glycol.expected - freezing == pytest.approx(result.expected - 273.15)


def test_an_assumed_limit_is_wider(plain, read, points):
    readings = read(water_out_temperature="44 °F", glycol_fraction="0 %")
    guessed = plain.model_copy(update={"assumed": ("water",)})
    known, wide = (make("minimum_leaving", unit, readings, points) for unit in (plain, guessed))
    assert wide.expected_uncertainty > known.expected_uncertainty
    assert {entry.origin for entry in wide.inputs if entry.name == "sheet.lowest_leaving"} == {"assumed"}


def test_burst_margin(sheet, plain, read, points):
    # 24 % by volume of propylene glycol is the table's for 0 °F.
    fraction = 100.0 * fluid.mass_fraction("propylene", 0.24)
    result = make(
        "burst_margin", sheet, read(lowest_air_temperature="-20 °F", glycol_fraction=f"{fraction} %"), points
    )
    assert fahrenheit(result.expected) == pytest.approx(0.0, abs=0.01)
    assert result.verdict is Verdict.LOW
    water = make(
        "burst_margin", plain, read(lowest_air_temperature="20 °F ± 2 °F", glycol_fraction="0 % ± 0.5 %"), points
    )
    assert water.verdict is Verdict.LOW
    assert any("drained" in remark for remark in water.remarks)
    strong = make("burst_margin", sheet, read(lowest_air_temperature="-30 °F", glycol_fraction="45 %"), points)
    assert strong.verdict is Verdict.AS_EXPECTED


def test_glycol_by_hydrometer(sheet, read, points):
    gravity = fluid.density(293.15, "propylene", 0.25) / fluid.density(288.71)
    result = make(
        "glycol_by_hydrometer", sheet, read(specific_gravity=f"{gravity}", sample_temperature="20 °C"), points
    )
    assert result.measured == pytest.approx(0.25, abs=1e-4)
    assert result.verdict is Verdict.AS_EXPECTED
    weak = make("glycol_by_hydrometer", sheet, read(specific_gravity="1.002 ± 0.001"), points)
    assert weak.verdict is Verdict.LOW
    brine = make("glycol_by_hydrometer", sheet, read(specific_gravity="1.14"), points)
    assert "check the hydrometer" in brine.reason


@given(st.floats(0.02, 0.5), st.floats(278.15, 320.0))
@settings(deadline=None, max_examples=30)
def test_more_glycol_never_costs_margin(sheet, read, points, fraction, leaving):
    readings = read(water_out_temperature=f"{leaving} K")

    def residual(check, share):
        return make(check, sheet, readings | read(glycol_fraction=f"{100 * share} %"), points).residual

    for check in ("minimum_leaving", "freeze_margin"):
        assert residual(check, fraction + 0.02) > residual(check, fraction)


def test_a_circuit_that_the_unit_lacks_is_refused(sheet, read, points):
    result = make(
        "freeze_margin_suction_d", sheet, read(suction_pressure_d="118 psig", glycol_fraction="0 %"), points
    )
    assert isinstance(result, Missing)
    assert "no circuit D; it has A, B" in result.reason

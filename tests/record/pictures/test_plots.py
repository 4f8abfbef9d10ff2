"""Cycle, curves and phasors: what is drawn is where physics puts it."""

from __future__ import annotations

from math import dist

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from faultdoc.library.load import load_units
from faultdoc.library.vocabulary import load_points
from faultdoc.model.base import Measured
from faultdoc.quantities import System, parse
from faultdoc.record.pictures.curves import barrel_picture, pump_picture
from faultdoc.record.pictures.cycle import corners, cycle_picture, wanted_for_cycle
from faultdoc.record.pictures.phasors import current_sets, phasor_picture, triangle
from faultdoc.record.pictures.shapes import Disc, Picture, Words

POINTS = load_points()
SHEETS = load_units()[0]
RUNNING = {
    "suction_pressure_a": "40 psi", "suction_line_temperature_a": "48 °F", "discharge_pressure_a": "170 psi",
    "discharge_line_temperature_a": "155 °F", "liquid_line_temperature_a": "104 °F",
}  # fmt: skip


def read(**texts: str) -> dict[str, Measured]:
    return {point: Measured.from_quantity(parse(text, POINTS[point].kind)) for point, text in texts.items()}


def test_corners_are_where_coolprop_puts_them() -> None:
    """R-134a at round states; enthalpies straight from CoolProp's reference equation of state."""
    air = 101_325.0
    values = {
        "suction_pressure_a": 300e3 - air, "suction_line_temperature_a": 283.15,
        "discharge_pressure_a": 1200e3 - air, "discharge_line_temperature_a": 343.15,
        "liquid_line_temperature_a": 311.15,
    }  # fmt: skip
    found = corners("R-134a", values, "a", 0.0)
    h1 = PropsSI("H", "P", 300e3, "T", 283.15, "R134a")
    h2 = PropsSI("H", "P", 1200e3, "T", 343.15, "R134a")
    h3 = PropsSI("H", "T", 311.15, "Q", 0, "R134a")
    offset = found.enthalpies[0] - h1  # the zero of enthalpy is free
    assert [one - offset for one in found.enthalpies] == pytest.approx([h1, h2, h3, h3], abs=400.0)
    assert found.pressures == pytest.approx((300e3, 1200e3, 1200e3, 300e3), rel=1e-6)
    assert found.superheat == pytest.approx(283.15 - PropsSI("T", "P", 300e3, "Q", 1, "R134a"), abs=0.02)
    assert found.subcooling == pytest.approx(PropsSI("T", "P", 1200e3, "Q", 0, "R134a") - 311.15, abs=0.02)
    assert found.remarks == ()


@pytest.mark.parametrize(
    ("point", "value", "told"),
    [
        ("suction_line_temperature_a", 260.0, "suction line is colder"),
        ("discharge_line_temperature_a", 300.0, "discharge line is colder"),
        ("liquid_line_temperature_a", 330.0, "liquid line is warmer"),
    ],
)
def test_what_cannot_be_is_said(point: str, value: float, told: str) -> None:
    values = dict(zip(wanted_for_cycle("a"), (200e3, 283.15, 1100e3, 343.15, 311.15), strict=True)) | {
        point: value
    }
    assert any(told in remark for remark in corners("R-134a", values, "a", 0.0).remarks)


def test_a_circuit_that_does_not_pump_has_no_cycle() -> None:
    values = dict(zip(wanted_for_cycle("a"), (500e3, 283.15, 400e3, 343.15, 311.15), strict=True))
    with pytest.raises(ValueError, match="does not pump"):
        corners("R-134a", values, "a", 0.0)


def test_cycle_picture_wants_what_is_missing_and_compares_with_health() -> None:
    sheet = SHEETS["bluff_30"]
    few = read(**{point: text for point, text in RUNNING.items() if "liquid" not in point})
    assert cycle_picture(sheet, few, "a", System.US) == ("liquid_line_temperature_a",)
    texts = RUNNING | {"discharge_pressure_a": "300 psi", "suction_pressure_a": "110 psi"}
    picture = cycle_picture(sheet, read(**texts, ambient_air_temperature="90 °F"), "a", System.US)
    assert isinstance(picture, Picture)
    assert "A healthy unit in this weather" in picture.words
    numbers = [shape.text for shape in picture.shapes if isinstance(shape, Words) and shape.text in "1234"]
    assert numbers == ["1", "2", "3", "4"]
    elsewhere = cycle_picture(sheet, read(**texts), "a", System.SI)
    assert isinstance(elsewhere, Picture)
    assert "outdoor air was not read" in elsewhere.words


def test_barrel_picture_reads_flow_off_drop_as_the_check_does() -> None:
    from faultdoc.checks.all import make
    from faultdoc.checks.base import CheckResult

    sheet = SHEETS["bluff_30"]
    readings = read(barrel_pressure_drop="4.2 psi", water_out_temperature="44 °F")
    result = make("flow_from_barrel_drop", sheet, readings, POINTS)
    assert isinstance(result, CheckResult)
    gpm = result.measured / parse("1 gpm", result.kind).value
    assert f"stands for {gpm:.1f} gpm" in barrel_picture(sheet, readings, POINTS, System.US).words


def test_pump_picture_meets_the_loop_where_the_check_says() -> None:
    from faultdoc.checks.all import make
    from faultdoc.checks.base import CheckResult

    sheet = SHEETS["bluff_30"]
    readings = read(pump_in_pressure="18 psi", pump_out_pressure="48 psi", water_flow="58 gpm")
    result = make("pump_head", sheet, readings, POINTS)
    assert isinstance(result, CheckResult)
    flow = next(one.value for one in result.working if one.title == "flow at which pump and loop meet")
    picture = pump_picture(sheet, readings, POINTS, System.US)
    assert picture is not None
    gpm = flow / parse("1 gpm", POINTS["water_flow"].kind).value
    assert f"curve at {gpm:.1f} gpm" in picture.words
    assert "58.0 ± " in picture.words


@given(st.floats(100.0, 600.0), st.floats(100.0, 600.0), st.floats(100.0, 600.0))
def test_triangle_has_the_sides_measured(a: float, b: float, c: float) -> None:
    if 2.0 * max(a, b, c) > a + b + c:
        with pytest.raises(ValueError, match="misread"):
            triangle(a, b, c)
        return
    l1, l2, l3 = triangle(a, b, c)
    assert (dist(l1, l2), dist(l2, l3), dist(l3, l1)) == pytest.approx((a, b, c), rel=1e-6, abs=1e-3)
    assert sum(p[0] for p in (l1, l2, l3)) == pytest.approx(0.0, abs=1e-6)


def test_phasors_tell_nema_unbalance() -> None:
    """NEMA MG 1, 14.36: voltages 460, 467, 450, mean 459, largest deviation 9: 1.96 %."""
    sheet = SHEETS["bluff_30"]
    volts = read(voltage_l1_l2="460 V", voltage_l2_l3="467 V", voltage_l3_l1="450 V")
    picture = phasor_picture(sheet, volts, System.US)
    assert picture is not None
    assert "unbalance 2.0 %" in picture.words
    assert phasor_picture(sheet, {}, System.US) is None
    amps = read(**{f"pump_current_{line}": "7.5 A" for line in ("l1", "l2", "l3")})
    both = phasor_picture(sheet, volts | amps, System.US)
    assert both is not None
    assert "Pump, currents" in both.words
    assert "unbalance 0.0 %" in both.words
    assert any(isinstance(shape, Disc) for shape in both.shapes)
    assert len(current_sets(sheet)) == 1 + 4 + 4


def test_voltages_that_do_not_close_are_said() -> None:
    volts = read(voltage_l1_l2="460 V", voltage_l2_l3="100 V", voltage_l3_l1="100 V")
    picture = phasor_picture(SHEETS["bluff_30"], volts, System.US)
    assert picture is not None
    assert "do not close" in picture.words

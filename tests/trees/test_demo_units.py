"""The invented demo units must hang together as real ones do."""

from __future__ import annotations

from itertools import pairwise
from math import log, sqrt

import pytest

from faultdoc.library.load import load_unit
from faultdoc.model.unit import DataSheet

TON = 3516.85
GPM = 3.785411784e-3 / 60.0
GRAVITY = 9.80665


@pytest.fixture(params=["bluff_30", "marten_60", "tarn_120"])
def sheet(request: pytest.FixtureRequest) -> DataSheet:
    return load_unit(request.param)


def test_flow_is_about_2_4_gpm_a_ton_at_10_degrees(sheet: DataSheet) -> None:
    """AHRI 550/590 rates at 2.4 gpm a ton and 44 °F leaving, as the energy code IECC quotes it: 54 °F back."""
    per_ton = sheet.water.design_flow / GPM / (sheet.cooling_capacity / TON)
    assert per_ton == pytest.approx(2.4, rel=0.02)
    assert (sheet.water.design_entering - sheet.water.design_leaving) * 1.8 == pytest.approx(10.0, abs=0.2)


def test_shaft_power_fits_flow_and_head(sheet: DataSheet) -> None:
    """Common practice: a small end-suction pump is 40 to 70 % efficient between half flow and run-out."""
    assert sheet.water.pump is not None
    points = sheet.water.pump.points
    for point in points[1:]:
        assert point.shaft_power is not None
        efficiency = 1000.0 * GRAVITY * point.flow * point.head / point.shaft_power
        assert 0.40 < efficiency < 0.70
    last = points[-1].shaft_power
    assert last is not None
    assert last < sheet.water.pump.rated_power, "the motor carries the pump to the end of its curve"


def test_pump_current_fits_power_and_voltage(sheet: DataSheet) -> None:
    """Power = √3 U I cos φ η; common practice: cos φ x η of 0.65 to 0.82 for motors of 3 to 10 kW."""
    pump = sheet.water.pump
    assert pump is not None
    both = pump.rated_power / (sqrt(3.0) * sheet.electrical.voltage * pump.rated_current)
    assert 0.65 < both < 0.82


def test_barrel_drop_goes_with_flow_to_about_1_8_to_1_95(sheet: DataSheet) -> None:
    """Turbulent friction: 2 - 0.2 in tubes (McAdams) and 2 - 0.19 over bundles (Kern), nozzles add squares."""
    points = sheet.water.barrel.points
    for low, high in pairwise(points):
        assert 1.8 <= log(high.drop / low.drop) / log(high.flow / low.flow) <= 1.95


def test_pressures_leave_room_for_the_shut_off_head(sheet: DataSheet) -> None:
    pump = sheet.water.pump
    assert pump is not None
    dead = 1000.0 * GRAVITY * pump.points[0].head
    assert sheet.water.relief_pressure > dead + 100e3
    assert sheet.water.gauge_top > sheet.water.relief_pressure


def test_flow_switch_breaks_no_lower_than_minimum_flow_and_makes_below_design(sheet: DataSheet) -> None:
    """A switch that let go below the minimum flow would not guard the barrel."""
    proving, water = sheet.water.flow_proving, sheet.water
    points = water.barrel.points
    n = log(points[1].drop / points[0].drop) / log(points[1].flow / points[0].flow)

    def flow_at(drop: float) -> float:
        return float(points[0].flow * (drop / points[0].drop) ** (1.0 / n))

    if proving.makes_at_drop is not None and proving.breaks_at_drop is not None:
        makes, breaks = flow_at(proving.makes_at_drop), flow_at(proving.breaks_at_drop)
    else:
        assert proving.makes_at_flow is not None
        assert proving.breaks_at_flow is not None
        makes, breaks = proving.makes_at_flow, proving.breaks_at_flow
    assert water.minimum_flow <= breaks * 1.005
    assert breaks < makes < water.design_flow


def test_ampacity_and_protection_fit_the_motors(sheet: DataSheet) -> None:
    """NEC 440: 125 % of the largest motor and all others; 225 % and all others, rounded down (from memory)."""
    currents = [compressor.rated_current for compressor in sheet.compressors]
    assert sheet.water.pump is not None
    assert sheet.electrical.minimum_circuit_ampacity is not None
    assert sheet.electrical.maximum_protection is not None
    motors = sum(currents) + sheet.water.pump.rated_current
    rest = sheet.electrical.minimum_circuit_ampacity - 0.25 * max(currents) - motors
    assert 0.0 < rest < 0.2 * motors, "what is left is for fans and control"
    ceiling = 1.25 * max(currents) + motors + rest
    assert 0.9 * ceiling < sheet.electrical.maximum_protection <= ceiling

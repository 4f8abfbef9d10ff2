"""Checks of the supply and of the pump's motor."""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt
from typing import Literal

from faultdoc.checks.base import Comparison, Need, Sense, Working, registered
from faultdoc.checks.inputs import (
    GLYCOL,
    LEAVING,
    LOOP,
    PUMP_CURVE,
    default,
    glycol_remarks,
    liquid,
    pump_curve,
    working_flow,
)
from faultdoc.model.unit import DataSheet
from faultdoc.physics import electrical, fluid, pump
from faultdoc.quantities import Kind

__all__ = ["CURRENT_UNBALANCE_LIMIT", "VOLTAGE_UNBALANCE_LIMIT"]

CURRENT_UNBALANCE_LIMIT = 0.10
"""Common practice, no source: one per cent of voltage unbalance makes six to ten of current (NEMA MG 1, 14.36)."""

VOLTAGE_UNBALANCE_LIMIT = 0.01
"""NEMA MG 1, 14.36: above one per cent a motor is derated."""

_VOLTAGES = ("voltage_l1_l2", "voltage_l2_l3", "voltage_l3_l1")
_CURRENTS = ("pump_current_l1", "pump_current_l2", "pump_current_l3")
VOLTAGES = tuple(
    Need(name, Kind.VOLTAGE, f"voltage {name[8:].upper().replace('_', ' to ')}") for name in _VOLTAGES
)
CURRENTS = tuple(Need(name, Kind.CURRENT, f"pump current {name[-2:].upper()}") for name in _CURRENTS)


def _rating(sheet: DataSheet) -> tuple[float, float, Literal["data sheet", "assumed"]] | None:
    # A supply within its tolerance moves the current at one load by some five per cent.
    return None if sheet.water.pump is None else (1.0, 0.05, "data sheet")


@registered(
    id="pump_current",
    title="Pump's current at its working point",
    kind=Kind.CURRENT,
    needs=(
        *CURRENTS,
        *LOOP,
        PUMP_CURVE,
        GLYCOL,
        LEAVING,
        Need("sheet.pump_current", Kind.RATIO, "motor's rated current, true over the sheet's", default=_rating),
        Need(
            "sheet.no_load_share", Kind.RATIO, "motor's current at no load, over rated current",
            default=default(0.45, 0.10),
        ),
    ),
    floor=-1.0,
    formula="rated current x sqrt(m² + (1 - m²) x load²), load = shaft power at the working point / rated power",
    source=(
        "The data sheet's shaft powers and motor rating; current against load by the circle diagram, constant "
        "magnetising share m (0.3 to 0.6 for small motors, common practice)."
    ),
)  # fmt: skip
def pump_current(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the pump's mean current with what its shaft power at the working point draws."""
    data = sheet.water.pump
    if data is None:
        raise ValueError("the data sheet gives no pump")
    what = liquid(sheet, values["water_out_temperature"], values["glycol_fraction"])
    curve = pump_curve(sheet)
    flow = working_flow(sheet, values, what)
    relative = what.density / fluid.density(sheet.water.barrel.water_temperature)
    power = pump.shaft_power_at(curve, flow, relative)
    load = power / data.rated_power
    share = values["sheet.no_load_share"]
    expected = electrical.motor_current(load, data.rated_current * values["sheet.pump_current"], share)
    measured = sum(values[name] for name in _CURRENTS) / 3.0
    remarks = glycol_remarks(sheet, values["glycol_fraction"])
    if pump.is_beyond(curve, flow):
        remarks += ("Extrapolated: pump and loop meet past the last point of the pump's curve.",)
    return Comparison(
        expected,
        measured,
        (
            Working("flow at which pump and loop meet", flow, Kind.VOLUME_FLOW),
            Working("shaft power there", power, Kind.POWER),
            Working("load of the motor", load, Kind.RATIO),
            Working("current expected", expected, Kind.CURRENT),
            Working("mean of the three currents", measured, Kind.CURRENT),
        ),
        ("Rated voltage is taken; a supply off its rating moves the current too.", *remarks),
    )


@registered(
    id="pump_current_unbalance",
    title="Unbalance of the pump's currents",
    kind=Kind.RATIO,
    needs=CURRENTS,
    scale=0.10,
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="largest deviation from the mean current / mean current",
    source="Reckoned as NEMA MG 1 does for voltage; 10 % is common practice, no source.",
)
def pump_current_unbalance(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the unbalance of the pump's currents with what is tolerated."""
    currents = [values[name] for name in _CURRENTS]
    found = electrical.current_unbalance(*currents)
    mean = sum(currents) / 3.0
    return Comparison(
        CURRENT_UNBALANCE_LIMIT,
        found,
        (
            Working("mean current", mean, Kind.CURRENT),
            Working("largest deviation from it", found * mean, Kind.CURRENT),
            Working("unbalance", found, Kind.RATIO),
        ),
    )


def _nameplate_voltage(sheet: DataSheet) -> tuple[float, float, Literal["data sheet", "assumed"]]:
    return (
        sheet.electrical.voltage,
        sheet.electrical.voltage * sheet.electrical.voltage_tolerance / sqrt(3.0),
        "data sheet",
    )


@registered(
    id="supply_voltage",
    title="Supply voltage",
    kind=Kind.VOLTAGE,
    needs=(*VOLTAGES, Need("sheet.voltage", Kind.VOLTAGE, "nameplate voltage", default=_nameplate_voltage)),
    floor=-1.0,
    formula="nameplate voltage, its tolerance counted as a limit of error; against the mean of the three pairs",
    source="The nameplate; NEMA MG 1, 12.44 has motors run within 10 % of rated voltage.",
)
def supply_voltage(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the mean supply voltage with the nameplate."""
    mean = sum(values[name] for name in _VOLTAGES) / 3.0
    nameplate, tolerance = values["sheet.voltage"], sheet.electrical.voltage_tolerance
    return Comparison(
        nameplate,
        mean,
        (
            Working("mean of the three pairs", mean, Kind.VOLTAGE),
            Working("least the nameplate allows", sheet.electrical.voltage * (1.0 - tolerance), Kind.VOLTAGE),
            Working("most the nameplate allows", sheet.electrical.voltage * (1.0 + tolerance), Kind.VOLTAGE),
        ),
    )


@registered(
    id="voltage_unbalance",
    title="Unbalance of the supply voltage",
    kind=Kind.RATIO,
    needs=VOLTAGES,
    scale=0.01,
    sense=Sense.AT_MOST,
    formula="largest deviation from the mean voltage / mean voltage",
    source="NEMA MG 1, 14.36: motors are derated above 1 %.",
)
def voltage_unbalance(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the unbalance of the supply with what motors are meant for."""
    voltages = [values[name] for name in _VOLTAGES]
    found = electrical.voltage_unbalance(*voltages)
    mean = sum(voltages) / 3.0
    return Comparison(
        VOLTAGE_UNBALANCE_LIMIT,
        found,
        (
            Working("mean voltage", mean, Kind.VOLTAGE),
            Working("largest deviation from it", found * mean, Kind.VOLTAGE),
            Working("unbalance", found, Kind.RATIO),
        ),
    )


def _control_voltage(sheet: DataSheet) -> tuple[float, float, Literal["data sheet", "assumed"]]:
    return sheet.electrical.control_voltage, 0.10 * sheet.electrical.control_voltage / sqrt(3.0), "data sheet"


@registered(
    id="control_voltage",
    title="Control voltage",
    kind=Kind.VOLTAGE,
    needs=(
        Need("control_voltage", Kind.VOLTAGE, "control voltage"),
        Need("sheet.control_voltage", Kind.VOLTAGE, "nameplate control voltage", default=_control_voltage),
    ),
    floor=-1.0,
    formula="nameplate control voltage, 10 % either way counted as a limit of error",
    source="The nameplate; 10 % is common practice, no source.",
)
def control_voltage(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the control voltage with the nameplate."""
    nominal = sheet.electrical.control_voltage
    return Comparison(
        values["sheet.control_voltage"],
        values["control_voltage"],
        (
            Working("10 % below nameplate", 0.9 * nominal, Kind.VOLTAGE),
            Working("10 % above nameplate", 1.1 * nominal, Kind.VOLTAGE),
        ),
    )


def _frequency(sheet: DataSheet) -> tuple[float, float, Literal["data sheet", "assumed"]]:
    return sheet.electrical.frequency, 0.05 * sheet.electrical.frequency / sqrt(3.0), "data sheet"


@registered(
    id="supply_frequency",
    title="Supply frequency",
    kind=Kind.FREQUENCY,
    needs=(
        Need("frequency", Kind.FREQUENCY, "supply frequency"),
        Need("sheet.frequency", Kind.FREQUENCY, "nameplate frequency", default=_frequency),
    ),
    floor=-1.0,
    formula="nameplate frequency, 5 % either way counted as a limit of error",
    source="The nameplate; NEMA MG 1, 12.44 has motors run within 5 % of rated frequency.",
)
def supply_frequency(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the supply's frequency with the nameplate."""
    nominal = sheet.electrical.frequency
    return Comparison(
        values["sheet.frequency"],
        values["frequency"],
        (
            Working("5 % below nameplate", 0.95 * nominal, Kind.FREQUENCY),
            Working("5 % above nameplate", 1.05 * nominal, Kind.FREQUENCY),
        ),
    )

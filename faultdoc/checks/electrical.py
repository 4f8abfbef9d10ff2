"""Checks of the supply, of the pump's motor and of the control circuit."""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt

from faultdoc.checks.base import Comparison, Given, Need, Sense, Working, registered
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
from faultdoc.checks.three import PAIRS, mean_of, of_three, off_mean, three
from faultdoc.model.unit import DataSheet
from faultdoc.physics import electrical, fluid, pump
from faultdoc.quantities import Kind
from faultdoc.words import say

__all__ = [
    "ALIKE",
    "CURRENT_UNBALANCE_LIMIT",
    "NEGATIVE_SEQUENCE_LIMIT",
    "PUMP_CURRENTS",
    "SAME_VOLTAGES",
    "VOLTAGES",
    "VOLTAGE_UNBALANCE_LIMIT",
    "mean_voltage",
]

CURRENT_UNBALANCE_LIMIT = 0.10
"""Common practice, no source: one per cent of voltage unbalance makes six to ten of current (NEMA MG 1, 14.36)."""

VOLTAGE_UNBALANCE_LIMIT = 0.01
"""NEMA MG 1, 14.36: above one per cent a motor is derated."""

NEGATIVE_SEQUENCE_LIMIT = 0.01
"""IEC 60034-1, 7.2.1.1, as given at industrialmonitordirect.com: over a long time."""

ALIKE = 0.75
"""Smallest over largest of three, half way from all alike to the 1 : 1 : 2 of a line lost before a transformer."""

VOLTAGES = three("voltage", "voltage", Kind.VOLTAGE, PAIRS)
# All three are off alike where the supply is, so each carries the uncertainty of their mean times sqrt 3.
SAME_VOLTAGES = three(
    "voltage", "voltage", Kind.VOLTAGE, PAIRS,
    default=lambda sheet: (sheet.electrical.voltage, 0.05 * sheet.electrical.voltage, "assumed"),
)  # fmt: skip
"""The same three where nameplate voltage will do if they were not read."""

CONTROL_VOLTAGE = Need("control_voltage", Kind.VOLTAGE, "control voltage")
PUMP_CURRENTS = three("pump_current", "pump current", Kind.CURRENT)


def mean_voltage(values: Mapping[str, float]) -> float:
    """Return the mean of the three voltages between lines (V)."""
    return mean_of(values, VOLTAGES)


def _rating(sheet: DataSheet) -> Given | None:
    # A supply within its tolerance moves the current at one load by some five per cent.
    return None if sheet.water.pump is None else (1.0, 0.05, "data sheet")


@registered(
    id="pump_current",
    title=say("Pump's current at its working point"),
    kind=Kind.CURRENT,
    needs=(
        *PUMP_CURRENTS,
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
    measured = mean_of(values, PUMP_CURRENTS)
    remarks = glycol_remarks(sheet, values["glycol_fraction"])
    if pump.is_beyond(curve, flow):
        remarks += ("Extrapolated: pump and loop meet past the last point of the pump's curve.",)
    return Comparison(
        expected,
        measured,
        (
            Working("flow at which pump and loop meet", flow, Kind.VOLUME_FLOW),
            Working("shaft power there", power, Kind.SHAFT_POWER),
            Working("load of the motor", load, Kind.RATIO),
            Working("current expected", expected, Kind.CURRENT),
            Working("mean of the three currents", measured, Kind.CURRENT),
        ),
        ("Rated voltage is taken; a supply off its rating moves the current too.", *remarks),
    )


@registered(
    id="pump_current_unbalance",
    title=say("Unbalance of the pump's currents"),
    kind=Kind.RATIO,
    needs=PUMP_CURRENTS,
    scale=CURRENT_UNBALANCE_LIMIT,
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="largest deviation from the mean current / mean current",
    source="Reckoned as NEMA MG 1 does for voltage; 10 % is common practice, no source.",
)
def pump_current_unbalance(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the unbalance of the pump's currents with what is tolerated."""
    currents = of_three(values, PUMP_CURRENTS)
    found = electrical.current_unbalance(*currents)
    return Comparison(
        CURRENT_UNBALANCE_LIMIT,
        found,
        (*off_mean(currents, found, Kind.CURRENT), Working("unbalance", found, Kind.RATIO)),
    )


def _nameplate_voltage(sheet: DataSheet) -> Given:
    return (
        sheet.electrical.voltage,
        sheet.electrical.voltage * sheet.electrical.voltage_tolerance / sqrt(3.0),
        "data sheet",
    )


@registered(
    id="supply_voltage",
    title=say("Supply voltage"),
    kind=Kind.VOLTAGE,
    needs=(*VOLTAGES, Need("sheet.voltage", Kind.VOLTAGE, "nameplate voltage", default=_nameplate_voltage)),
    floor=-1.0,
    formula="nameplate voltage, its tolerance counted as a limit of error; against the mean of the three pairs",
    source="The nameplate; NEMA MG 1, 12.44 has motors run within 10 % of rated voltage.",
)
def supply_voltage(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the mean supply voltage with the nameplate."""
    mean = mean_voltage(values)
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
    title=say("Unbalance of the supply voltage"),
    kind=Kind.RATIO,
    needs=VOLTAGES,
    scale=0.01,
    sense=Sense.AT_MOST,
    formula="largest deviation from the mean voltage / mean voltage",
    source="NEMA MG 1, 14.36: motors are derated above 1 %.",
)
def voltage_unbalance(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the unbalance of the supply with what motors are meant for."""
    voltages = of_three(values, VOLTAGES)
    found = electrical.voltage_unbalance(*voltages)
    return Comparison(
        VOLTAGE_UNBALANCE_LIMIT,
        found,
        (*off_mean(voltages, found, Kind.VOLTAGE), Working("unbalance", found, Kind.RATIO)),
    )


def _control_voltage(sheet: DataSheet) -> Given:
    return sheet.electrical.control_voltage, 0.10 * sheet.electrical.control_voltage / sqrt(3.0), "data sheet"


@registered(
    id="control_voltage",
    title=say("Control voltage"),
    kind=Kind.VOLTAGE,
    needs=(
        CONTROL_VOLTAGE,
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


def _frequency(sheet: DataSheet) -> Given:
    return sheet.electrical.frequency, 0.05 * sheet.electrical.frequency / sqrt(3.0), "data sheet"


@registered(
    id="supply_frequency",
    title=say("Supply frequency"),
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


@registered(
    id="negative_sequence",
    title=say("Negative sequence of the supply voltage"),
    kind=Kind.RATIO,
    needs=VOLTAGES,
    scale=NEGATIVE_SEQUENCE_LIMIT,
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="u = sqrt((1 - r) / (1 + r)), r = sqrt(3 - 6 b), b = sum of fourth powers / (sum of squares)²",
    source=(
        "IEC 61000-4-30, 5.7.1; 1 % over a long time, IEC 60034-1, 7.2.1.1. "
        "Derating: NEMA MG 1, figure 14-1; heating: twice the square of the unbalance in per cent, NEMA MG 10."
    ),
)
def negative_sequence(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the true unbalance of the supply with what motors are meant for."""
    voltages = of_three(values, VOLTAGES)
    found = electrical.negative_sequence_factor(*voltages)
    nema = electrical.voltage_unbalance(*voltages)
    working: tuple[Working, ...] = (
        Working("negative over positive sequence", found, Kind.RATIO),
        Working("unbalance by largest deviation from the mean", nema, Kind.RATIO),
        Working("growth of a motor's temperature rise", electrical.unbalance_heating(nema), Kind.RATIO),
    )
    if nema <= electrical.DERATING_POINTS[-1][0]:
        working += (Working("share of its power a motor may give", electrical.derating(nema), Kind.RATIO),)
        return Comparison(NEGATIVE_SEQUENCE_LIMIT, found, working)
    return Comparison(NEGATIVE_SEQUENCE_LIMIT, found, working, ("Above 5 % no motor should run on this supply.",))


@registered(
    id="supply_phases",
    title=say("Smallest over largest of the three supply voltages"),
    kind=Kind.RATIO,
    needs=VOLTAGES,
    floor=-1.0,
    sense=Sense.AT_LEAST,
    formula="smallest / largest, against the half-way mark between all alike (1) and a lost line's pattern (0.5)",
    source="Fortescue's components: a line lost on either side of a transformer leaves 1 : 1 : 2 or 0 : 1 : 1.",
)
def supply_phases(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the three voltages with the pattern that a lost line leaves."""
    voltages = dict(zip(("L1-L2", "L2-L3", "L3-L1"), of_three(values, VOLTAGES), strict=True))
    pattern = electrical.phase_pattern(*voltages.values())
    remarks: tuple[str, ...] = (
        "A motor that still runs on two lines feeds the third: with it running the voltages look nearly alike, "
        "so read with all motors stopped.",
    )
    if pattern == "a line is lost before a transformer":
        strong = max(voltages, key=lambda name: voltages[name])
        lost = next(line for line in ("L1", "L2", "L3") if line not in strong)
        remarks = (f"The pattern of a lost line: only {strong} keeps its voltage; look for {lost}.", *remarks)
    elif pattern == "a line is lost":
        none = min(voltages, key=lambda name: voltages[name])
        remarks = (
            f"{none} has next to no voltage and the two others have: the two lines are one, behind a transformer "
            "that lost a line, or by a fault.",
            *remarks,
        )
    low, high = min(voltages.values()), max(voltages.values())
    return Comparison(
        ALIKE,
        low / high,
        (Working("smallest", low, Kind.VOLTAGE), Working("largest", high, Kind.VOLTAGE)),
        remarks,
    )


_REFERENCE = tuple(f"reference_voltage_{line}" for line in ("l1", "l2", "l3"))


@registered(
    id="phase_sequence_by_reference",
    title=say("Phase sequence against a supply whose sequence is known"),
    kind=Kind.RATIO,
    needs=(
        *(
            Need(name, Kind.VOLTAGE, f"voltage from {name[-2:].upper()} to the known supply's {name[-2:].upper()}")
            for name in _REFERENCE
        ),
        Need("sheet.voltage", Kind.VOLTAGE, "nameplate voltage", default=_nameplate_voltage),
    ),
    scale=1.0,
    floor=-0.5 * electrical.LEAST_REVERSED_SPREAD,
    sense=Sense.AT_MOST,
    formula="(largest - smallest) / voltage between lines: 0 turning alike, 0.577 to 1 turning against each other",
    source="Phasors of two balanced supplies of one frequency; the mark is half of 1 / sqrt 3.",
)
def phase_sequence_by_reference(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare three voltages to a known supply with what a reversed sequence would give."""
    one, two, three = across = tuple(values[name] for name in _REFERENCE)
    found = electrical.sequence_spread(one, two, three, values["sheet.voltage"])
    return Comparison(
        0.5 * electrical.LEAST_REVERSED_SPREAD,
        found,
        (
            Working("largest", max(across), Kind.VOLTAGE),
            Working("smallest", min(across), Kind.VOLTAGE),
            Working("their difference over the voltage between lines", found, Kind.RATIO),
        ),
        (
            "High means that the two supplies turn against each other. The three voltages between lines alone "
            "are the same forwards and reversed; without a reference or an indicator the sequence cannot be told.",
            "Both supplies must come from one network or generator.",
        ),
    )


CONTROL_CURRENT = Need("control_current", Kind.CURRENT, "current of the control circuit")


def _transformer_rating(sheet: DataSheet) -> Given | None:
    power = sheet.electrical.control_transformer_power
    return None if power is None else (power, 0.0, "data sheet")


TRANSFORMER_RATING = Need(
    "sheet.control_transformer_power",
    Kind.ELECTRIC_POWER,
    "rating of the control transformer",
    default=_transformer_rating,
)


@registered(
    id="control_transformer_ratio",
    title=say("Control voltage against the supply voltage"),
    kind=Kind.VOLTAGE,
    needs=(
        CONTROL_VOLTAGE,
        *VOLTAGES,
        Need(
            "sheet.control_ratio", Kind.RATIO, "transformer's ratio under load, true over nominal",
            default=default(1.0, 0.03),
        ),
    ),
    floor=-1.0,
    formula="nameplate control voltage x mean supply voltage / nameplate voltage",
    source="Turns ratio; taps and regulation move it by some per cent, common practice, no source.",
)  # fmt: skip
def control_transformer_ratio(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the control voltage with what the supply's voltage should make of it."""
    share = mean_voltage(values) / sheet.electrical.voltage
    expected = sheet.electrical.control_voltage * share * values["sheet.control_ratio"]
    return Comparison(
        expected,
        values["control_voltage"],
        (
            Working("supply over nameplate voltage", share, Kind.RATIO),
            Working("control voltage expected", expected, Kind.VOLTAGE),
        ),
        ("Off here with the supply right: transformer, its taps, or its load.",),
    )


@registered(
    id="control_transformer_load",
    title=say("Load of the control transformer over its rating"),
    kind=Kind.RATIO,
    needs=(CONTROL_VOLTAGE, CONTROL_CURRENT, TRANSFORMER_RATING),
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="control voltage x control current / rating in volt-amperes, at most 1",
    source="The data sheet's rating.",
)
def control_transformer_load(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the load of the control transformer with its rating."""
    share = _transformer_share(values)
    return Comparison(1.0, share, (Working("load over rating", share, Kind.RATIO),))


def _transformer_share(values: Mapping[str, float]) -> float:
    rating = values["sheet.control_transformer_power"]
    if rating <= 0.0:
        raise ValueError("the control transformer's rating on the data sheet must be above zero")
    return values["control_voltage"] * values["control_current"] / rating


@registered(
    id="control_transformer_drop",
    title=say("Control voltage lost under load"),
    kind=Kind.VOLTAGE,
    needs=(
        Need("control_voltage_no_load", Kind.VOLTAGE, "control voltage without load"),
        CONTROL_VOLTAGE,
        CONTROL_CURRENT,
        TRANSFORMER_RATING,
        Need(
            "sheet.regulation", Kind.RATIO, "share of its voltage the transformer loses at full load",
            default=default(0.06, 0.02),
        ),
    ),
    sense=Sense.AT_MOST,
    formula="regulation at full load x load over rating x voltage without load",
    source=(
        "Regulation of a series impedance goes with the load; 4 to 8 % at full load for control transformers of "
        "some hundred volt-amperes, common practice, no source."
    ),
)  # fmt: skip
def control_transformer_drop(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the voltage that the control transformer loses under load with its regulation."""
    open_voltage = values["control_voltage_no_load"]
    share = _transformer_share(values)
    expected = values["sheet.regulation"] * share * open_voltage
    measured = open_voltage - values["control_voltage"]
    return Comparison(
        expected,
        measured,
        (
            Working("load over rating", share, Kind.RATIO),
            Working("loss expected", expected, Kind.VOLTAGE),
            Working("loss measured", measured, Kind.VOLTAGE),
        ),
        ("More than that is a joint, a wire too thin, a shorted turn, or a supply that dipped between readings.",),
    )

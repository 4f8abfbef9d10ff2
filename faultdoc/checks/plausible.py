"""Doubts about readings: what a good technician would read a second time before believing it.

A doubt is raised only where the reading cannot easily be true, with its own limits of error
allowed for; what a fault of the plant could do is evidence and no doubt.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from math import hypot, sqrt
from types import MappingProxyType

from faultdoc.checks.base import COVERAGE, reading_uncertainty
from faultdoc.checks.electrical import CURRENT_UNBALANCE_LIMIT
from faultdoc.checks.inputs import glycol_kind, usual_glycol
from faultdoc.library.vocabulary import believable_or_none, usual_limit
from faultdoc.model.base import Measured
from faultdoc.model.points import Point
from faultdoc.model.unit import DataSheet
from faultdoc.physics import atmosphere, electrical, fluid
from faultdoc.quantities import Kind, System, show

__all__ = ["Doubt", "doubts"]

UNIT_GAUGES = (
    "barrel_in_pressure",
    "barrel_out_pressure",
    "pump_in_pressure",
    "pump_out_pressure",
    "dead_head_in_pressure",
    "dead_head_out_pressure",
    "standing_pressure",
)
"""Points that are read on the gauges fitted to the unit."""

FALLING = (
    ("barrel_in_pressure", "barrel_out_pressure", "Water loses pressure through the barrel"),
    ("pump_out_pressure", "pump_in_pressure", "A pump that runs raises the pressure"),
    ("dead_head_out_pressure", "dead_head_in_pressure", "A pump that runs raises the pressure"),
)
"""The first reads at least the second, and why."""

FAR_ABOVE_RATING = 2.0
"""Times rated current: an overload lets that run for well under a minute. Common practice, no source."""

LOCKED = (4.0, 8.0)
"""Times rated current: what a motor that stands still draws. NEC table 430.7(B), code letters D
to J: 4.0 to 8.0 kVA a horsepower, where a motor at its rating takes about one."""

_PAIRS = ("l1_l2", "l2_l3", "l3_l1")
_LINES = ("l1", "l2", "l3")
_WEATHER = 0.03
"""Share by which the weather moves the atmosphere at one place; common experience, no source."""


@dataclass(frozen=True)
class Doubt:
    """One reading that is not to be believed without a second look.

    Attributes:
        point: whose reading.
        text: what was read, why it is doubted, and what to do.
        impossible: True when no state of the plant can give this reading.
    """

    point: str
    text: str
    impossible: bool


@dataclass(frozen=True)
class _Case:
    """What the rules look at."""

    sheet: DataSheet
    readings: Mapping[str, Measured]
    points: Mapping[str, Point]
    system: System
    seen: Mapping[str, str]

    def uncertainty(self, name: str) -> float:
        return reading_uncertainty(
            name, self.readings[name], lambda point, value: usual_limit(self.points[point], value)
        )

    def shown(self, value: float, kind: Kind) -> str:
        return show(value, kind, self.system)

    def reads(self, name: str) -> str:
        reading = self.readings[name]
        return f"{self.points[name].title} was read as {self.shown(reading.value, reading.kind)}"

    def has(self, *names: str) -> bool:
        return all(name in self.readings for name in names)


_NOTHING: Mapping[str, str] = MappingProxyType({})


def doubts(
    sheet: DataSheet,
    readings: Mapping[str, Measured],
    points: Mapping[str, Point],
    system: System = System.US,
    seen: Mapping[str, str] = _NOTHING,
) -> list[Doubt]:
    """Return what is to be doubted in these readings, impossible ones first.

    Args:
        sheet: the unit's data sheet.
        readings: by measuring point, numbers only.
        points: the vocabulary by id, families written out.
        system: units of the texts.
        seen: choices by measuring point, such as pump_rotation: still, as far as they were looked at.

    Raises:
        KeyError: for a reading at a point that is not in the vocabulary.
    """
    case = _Case(sheet, readings, points, system, seen)
    found = [doubt for rule in _RULES for doubt in rule(case)]
    return sorted(found, key=lambda doubt: not doubt.impossible)


def _out_of_bounds(case: _Case) -> Iterator[Doubt]:
    for name, reading in case.readings.items():
        least, most = believable_or_none(case.points[name])
        if least is not None and reading.value < least:
            bound = f"less than {case.shown(least, reading.kind)}"
        elif most is not None and reading.value > most:
            bound = f"more than {case.shown(most, reading.kind)}"
        else:
            continue
        yield Doubt(
            name,
            f"{case.reads(name)}; {bound} is not to be expected there. Check the unit and read it again.",
            False,
        )


def _below_vacuum(case: _Case) -> Iterator[Doubt]:
    elevation = case.readings.get("site_elevation")
    try:
        air = atmosphere.pressure(elevation.value if elevation else 0.0)
    except ValueError:
        return
    where = "at the site's height" if elevation else "at sea level"
    for name, reading in case.readings.items():
        if reading.kind is not Kind.GAUGE_PRESSURE:
            continue
        if reading.value + COVERAGE * case.uncertainty(name) < -(1.0 + _WEATHER) * air:
            lowest = case.shown(-air, Kind.GAUGE_PRESSURE)
            yield Doubt(
                name,
                f"{case.reads(name)}; that is below a perfect vacuum, which {where} is {lowest}. "
                "Check the unit and the gauge's zero, and read it again.",
                True,
            )


def _below_freezing(case: _Case) -> Iterator[Doubt]:
    for name in ("water_in_temperature", "water_out_temperature"):
        if not case.has(name):
            continue
        warmest = case.readings[name].value + COVERAGE * case.uncertainty(name)
        if warmest >= 273.15:  # no mix freezes above; also spares the look-up of properties
            continue
        if case.has("glycol_fraction"):
            fraction = case.readings["glycol_fraction"].value
            u = case.uncertainty("glycol_fraction")
            of_what = f"{case.shown(fraction, Kind.MASS_FRACTION)} of glycol, as read"
        else:
            fraction, u, _ = usual_glycol(case.sheet)
            of_what = f"{case.shown(fraction, Kind.MASS_FRACTION)} of glycol, the usual"
        strongest = min(max(fraction + COVERAGE * u, 0.0), fluid.MOST_GLYCOL)
        if warmest < fluid.freezing_point(glycol_kind(case.sheet, strongest), strongest):
            likely = min(max(fraction, 0.0), fluid.MOST_GLYCOL)
            freezing = fluid.freezing_point(glycol_kind(case.sheet, likely), likely)
            yield Doubt(
                name,
                f"{case.reads(name)}; with {of_what}, the water freezes at "
                f"{case.shown(freezing, Kind.TEMPERATURE)}. Measure the glycol, and read the thermometer again.",
                False,
            )


def _beyond_gauge(case: _Case) -> Iterator[Doubt]:
    top, relief = case.sheet.water.gauge_top, case.sheet.water.relief_pressure
    for name in UNIT_GAUGES:
        if not case.has(name):
            continue
        value = case.readings[name].value
        if value > top:
            ends = case.shown(top, Kind.GAUGE_PRESSURE)
            yield Doubt(
                name,
                f"{case.reads(name)} on a gauge that ends at {ends}. "
                "Check the unit and the decimal point; if another gauge was used, say so.",
                False,
            )
        elif value - COVERAGE * case.uncertainty(name) > relief:
            lifts = case.shown(relief, Kind.GAUGE_PRESSURE)
            yield Doubt(
                name,
                f"{case.reads(name)}, though the relief valve lifts at {lifts}. "
                "See whether it blows, and read the gauge again.",
                False,
            )


def _wrong_way(case: _Case) -> Iterator[Doubt]:
    for higher, lower, why in FALLING:
        if not case.has(higher, lower):
            continue
        rise = case.readings[lower].value - case.readings[higher].value
        if rise > COVERAGE * hypot(case.uncertainty(higher), case.uncertainty(lower)):
            by = case.shown(rise, Kind.PRESSURE_DIFFERENCE)
            yield Doubt(
                lower,
                f"{case.reads(lower)}, {by} above {case.points[higher].title[0].lower()}"
                f"{case.points[higher].title[1:]}. {why}: see whether the two were swapped, "
                "and read both with one gauge.",
                False,
            )
    for name in ("barrel_pressure_drop", "strainer_pressure_drop", "load_pressure_drop"):
        if case.has(name) and case.readings[name].value < -COVERAGE * case.uncertainty(name):
            yield Doubt(
                name,
                f"{case.reads(name)}; a drop is not below zero. Swap the gauge's lines or zero it with its "
                "equalising valve open, and read it again.",
                False,
            )


def _two_ways(case: _Case) -> Iterator[Doubt]:
    names = ("barrel_pressure_drop", "barrel_in_pressure", "barrel_out_pressure")
    if not case.has(*names):
        return
    direct, high, low = (case.readings[name].value for name in names)
    u = sqrt(sum(case.uncertainty(name) ** 2 for name in names))
    if abs(direct - (high - low)) > 3.0 * u:
        other = case.shown(high - low, Kind.PRESSURE_DIFFERENCE)
        yield Doubt(
            names[0],
            f"{case.reads(names[0])}, and the gauges at the barrel's taps differ by {other}. "
            "One of them is wrong: read both taps with one gauge.",
            False,
        )


def _warmer_leaving(case: _Case) -> Iterator[Doubt]:
    names = ("water_out_temperature", "water_in_temperature")
    if not case.has(*names):
        return
    warmer = case.readings[names[0]].value - case.readings[names[1]].value
    # The pump's own heat is a tenth of a kelvin; half a kelvin is no longer that.
    if warmer > 0.5 + 3.0 * hypot(case.uncertainty(names[0]), case.uncertainty(names[1])):
        by = case.shown(warmer, Kind.TEMPERATURE_DIFFERENCE)
        yield Doubt(
            names[0],
            f"{case.reads(names[0])}, {by} warmer than the water entering. A chiller does not warm water: "
            "see whether the two were swapped, and wait until both are steady.",
            False,
        )


def _currents(case: _Case) -> Iterator[Doubt]:
    pump = case.sheet.water.pump
    for name, reading in case.readings.items():
        if name.startswith("pump_current_") and pump:
            rated = pump.rated_current
        elif (match := re.match(r"compressor_current_(\d)_", name)) and int(match[1]) <= len(
            case.sheet.compressors
        ):
            rated = case.sheet.compressors[int(match[1]) - 1].rated_current
        else:
            continue
        far_above = reading.value - COVERAGE * case.uncertainty(name) > FAR_ABOVE_RATING * rated
        if far_above and not _stands_still(case, name, rated):
            at = case.shown(rated, Kind.CURRENT)
            yield Doubt(
                name,
                f"{case.reads(name)}; the motor is rated {at}, and its overload would not let that run. "
                "Close the jaw round one lead only, check the range, and read it running steadily.",
                False,
            )
    families = [("pump_current", "The pump")] + [
        (f"compressor_current_{number + 1}", f"Compressor {number + 1}")
        for number in range(len(case.sheet.compressors))
    ]
    for family, title in families:
        yield from _not_closing(
            case,
            [f"{family}_{line}" for line in _LINES],
            f"{title} has three wires, and only a leak to ground could break that",
        )


def _stands_still(case: _Case, name: str, rated: float) -> bool:
    """Say whether a current is that of a motor that is switched on and does not turn.

    One line alone could be the wrong jaw or range. Two lines with the third unlike them are a lost
    phase; and a pump that was seen not to turn draws it in whatever lines were read.
    """

    def locked(line: str) -> bool:
        margin = COVERAGE * case.uncertainty(line)
        value = case.readings[line].value
        return LOCKED[0] * rated <= value + margin and value - margin <= LOCKED[1] * rated

    if not locked(name):
        return False
    if name.startswith("pump_") and case.seen.get("pump_rotation") == "still":
        return True
    lines = [f"{name[:-2]}{line}" for line in _LINES]
    if not case.has(*lines) or sum(locked(line) for line in lines) < 2:
        return False
    currents = [case.readings[line].value for line in lines]
    return electrical.unbalance(currents) > CURRENT_UNBALANCE_LIMIT


def _voltages(case: _Case) -> Iterator[Doubt]:
    nominal = case.sheet.electrical.voltage
    names = [f"voltage_{pair}" for pair in _PAIRS]
    read = [name for name in names if case.has(name)]
    plate = case.shown(nominal, Kind.VOLTAGE)
    for name in [*read, *(f"voltage_{line}_ground" for line in _LINES if case.has(f"voltage_{line}_ground"))]:
        if case.readings[name].value > 1.25 * nominal:
            yield Doubt(
                name,
                f"{case.reads(name)}; the nameplate says {plate}. Check the meter's range, and the nameplate "
                "against the data sheet. If it is true, keep the unit off.",
                False,
            )
    yield from _not_closing(case, names, "The three pairs share three lines")
    values = [case.readings[name].value for name in read]
    # All alike but far from nameplate is the wrong terminals, the wrong range or the wrong supply;
    # unlike one another they may be a lost phase, and that is evidence.
    if len(values) >= 2 and 0.05 * nominal < max(values) < 0.75 * nominal and min(values) > 0.95 * max(values):
        mean = sum(values) / len(values)
        to_ground = abs(mean * sqrt(3.0) / nominal - 1.0) < 0.08
        why = (
            "that is what line to ground reads. Read between the lines."
            if to_ground
            else "all pairs are alike and far below. Check range, terminals, and which supply this is."
        )
        yield Doubt(read[0], f"{case.reads(read[0])}; the nameplate says {plate}, and {why}", False)
    control = case.sheet.electrical.control_voltage
    if case.has("control_voltage") and case.readings["control_voltage"].value > 1.3 * control:
        yield Doubt(
            "control_voltage",
            f"{case.reads('control_voltage')}; the nameplate says {case.shown(control, Kind.VOLTAGE)}. "
            "See that it was read on the control transformer's secondary, and read it again.",
            False,
        )


def _not_closing(case: _Case, names: list[str], why: str) -> Iterator[Doubt]:
    """Doubt three phasors whose largest is more than the other two together: they cannot sum to nothing."""
    if not case.has(*names):
        return
    *small, large = sorted(names, key=lambda name: case.readings[name].value)
    excess = case.readings[large].value - sum(case.readings[name].value for name in small)
    if excess > 3.0 * sqrt(sum(case.uncertainty(name) ** 2 for name in names)):
        yield Doubt(
            large,
            f"{case.reads(large)}, more than the other two together. {why}: all three cannot be true at once. "
            "Read all three again, one right after the other.",
            False,
        )


def _far_from_design(case: _Case) -> Iterator[Doubt]:
    if case.has("water_flow") and case.readings["water_flow"].value > 3.0 * case.sheet.water.design_flow:
        design = case.shown(case.sheet.water.design_flow, Kind.VOLUME_FLOW)
        yield Doubt(
            "water_flow",
            f"{case.reads('water_flow')}; design flow is {design}. Check the unit and the meter's pipe size.",
            False,
        )


def _not_there(case: _Case) -> Iterator[Doubt]:
    circuits = {compressor.circuit for compressor in case.sheet.compressors}
    count = len(case.sheet.compressors)
    for name in case.readings:
        if (match := re.search(r"_([a-d])$", name)) and match[1] not in circuits:
            there = ", ".join(sorted(circuit.upper() for circuit in circuits))
            yield Doubt(
                name, f"{case.reads(name)}; this unit has circuits {there} only. Check where it was read.", False
            )
        match = re.search(r"^(?!fan_).*_(\d)(?:_|$)", name)
        if match and int(match[1]) > count:
            yield Doubt(
                name,
                f"{case.reads(name)}; this unit has {count} compressors only. Check where it was read.",
                False,
            )


_RULES: tuple[Callable[[_Case], Iterator[Doubt]], ...] = (
    _out_of_bounds,
    _below_vacuum,
    _below_freezing,
    _beyond_gauge,
    _wrong_way,
    _two_ways,
    _warmer_leaving,
    _currents,
    _voltages,
    _far_from_design,
    _not_there,
)

"""What an instrument's face shows: its scale, where its needle stands, what its display says. No painting here.

Everything on a face is in the unit that is written on it. Angles are degrees clockwise from upright.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import ceil, floor, log10
from typing import TYPE_CHECKING, Literal

from faultdoc.library.vocabulary import believable_or_none, usual_instrument
from faultdoc.quantities import Kind, QuantityError, System, display_unit, parse, show, to_display
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.model.points import Point
    from faultdoc.model.unit import DataSheet

__all__ = ["END", "PIN", "Dial", "Meter", "Tick", "angle", "between", "beyond", "digits", "face_of", "ticks"]

END = 135.0
"""Degrees from upright to either end of a scale."""
PIN = 141.0
"""Degrees from upright to the pins that stop a needle."""
DIVISIONS = 10
"""Small divisions between two numbers on a dial."""
MOST_NUMBERS = 11
ATMOSPHERE = 101_325.0
"""Pa below zero gauge that a compound gauge can show; the standard atmosphere, ISO 2533."""


@dataclass(frozen=True)
class Dial:
    """A round face with a needle.

    Attributes:
        kind, system: what it shows, and in which units.
        unit: as written on the face.
        least, most: ends of the scale.
        step: from one number to the next.
        name: of the instrument.
    """

    kind: Kind
    system: System
    unit: str
    least: float
    most: float
    step: float
    name: str

    @property
    def division(self) -> float:
        """From one stroke to the next."""
        return self.step / DIVISIONS

    @property
    def decimals(self) -> int:
        """Digits behind the point in the numbers on the face."""
        return max(0, -floor(log10(self.step) + 1e-9))

    def number(self, value: float) -> float:
        """Return an SI value in the unit of the face."""
        return to_display(value, self.kind, self.system)


@dataclass(frozen=True)
class Meter:
    """A face with a display.

    Attributes:
        kind, system: what it shows, and in which units.
        most: SI; above it the display says OL, for overload.
        name: of the instrument.
        clamp: whether it has a jaw for a lead.
    """

    kind: Kind
    system: System
    most: float | None
    name: str
    clamp: bool = False


@dataclass(frozen=True)
class Tick:
    """A stroke on a dial: 2 with its number, 1 half way between two numbers, 0 a small one."""

    value: float
    angle: float
    rank: Literal[0, 1, 2]
    text: str = ""


def angle(dial: Dial, number: float) -> float:
    """Return where the needle stands: -END at the least, END at the most, and never past the pins.

    >>> gauge = Dial(Kind.GAUGE_PRESSURE, System.US, "psig", 0.0, 160.0, 20.0, "Pressure gauge")
    >>> angle(gauge, 0.0), angle(gauge, 80.0), angle(gauge, 160.0), angle(gauge, 900.0)
    (-135.0, 0.0, 135.0, 141.0)
    """
    share = (number - dial.least) / (dial.most - dial.least)
    return min(PIN, max(-PIN, END * (2.0 * share - 1.0)))


def beyond(dial: Dial, number: float) -> Literal["", "under", "over"]:
    """Return on which side of the scale a number lies, if it lies outside.

    >>> gauge = Dial(Kind.GAUGE_PRESSURE, System.US, "psig", 0.0, 160.0, 20.0, "Pressure gauge")
    >>> beyond(gauge, -3.0), beyond(gauge, 12.0), beyond(gauge, 161.0)
    ('under', '', 'over')
    """
    slack = 1e-9 * (dial.most - dial.least)
    if number > dial.most + slack:
        return "over"
    return "under" if number < dial.least - slack else ""


@lru_cache(maxsize=64)
def ticks(dial: Dial) -> tuple[Tick, ...]:
    """Return every stroke of a dial from its least to its most."""
    first = ceil(dial.least / dial.division - 1e-6)
    last = floor(dial.most / dial.division + 1e-6)
    made = []
    for place in range(first, last + 1):
        value = place * dial.division
        rank: Literal[0, 1, 2] = 2 if place % DIVISIONS == 0 else 1 if place % (DIVISIONS // 2) == 0 else 0
        text = f"{value:.{dial.decimals}f}" if rank == 2 else ""
        made.append(Tick(value, angle(dial, value), rank, text))
    return tuple(made)


def between(dial: Dial, number: float) -> str:
    """Return where the needle stands in words, as someone says who looks at the numbers on the face only.

    >>> gauge = Dial(Kind.GAUGE_PRESSURE, System.US, "psig", 0.0, 160.0, 20.0, "Pressure gauge")
    >>> between(gauge, 47.0), between(gauge, 60.0), between(gauge, 200.0)
    ('between 40 and 60 psig', 'at 60 psig', 'beyond 160 psig, the end of the scale')
    """
    out = beyond(dial, number)
    text = f".{dial.decimals}f"
    if out:
        end = dial.most if out == "over" else dial.least
        return say(
            "{what} {end} {unit}, the end of the scale",
            what="beyond" if out == "over" else "below",
            end=f"{end:{text}}",
            unit=dial.unit,
        )
    near = round(number / dial.step) * dial.step
    if abs(number - near) < dial.division / 2.0:
        return say("at {what} {unit}", what=f"{near + 0.0:{text}}", unit=dial.unit)
    low = floor(number / dial.step) * dial.step
    # No number stands on the face below the beginning of its scale.
    from_ = max(low, dial.least)
    return say(
        "between {what} and {what_2} {unit}",
        what=f"{from_ + 0.0:{text}}",
        what_2=f"{low + dial.step + 0.0:{text}}",
        unit=dial.unit,
    )


def digits(meter: Meter, value: float) -> tuple[str, str]:
    """Return what a meter's display says of an SI value: the number and its unit.

    >>> digits(Meter(Kind.VOLTAGE, System.US, 1000.0, "Voltmeter"), 461.73)
    ('461.7', 'V')
    >>> digits(Meter(Kind.VOLTAGE, System.US, 1000.0, "Voltmeter"), 1300.0)
    ('OL', 'V')
    """
    unit = display_unit(meter.kind, meter.system)
    if meter.most is not None and value > meter.most:
        return "OL", unit
    if meter.kind in (Kind.VOLTAGE, Kind.CURRENT):
        # A display of 6000 counts whose range follows the reading; common practice, no source.
        ranges = ((6.0, 3), (60.0, 2), (600.0, 1)) if meter.kind is Kind.VOLTAGE else ((600.0, 1),)
        places = next((places for top, places in ranges if abs(value) < top - 0.5 * 10.0**-places), 0)
        return f"{value:.{places}f}", unit
    if meter.kind is Kind.FREQUENCY:
        return f"{value:.1f}", unit
    number, _, label = show(value, meter.kind, meter.system).partition(" ")
    return number, label


def face_of(point: Point, sheet: DataSheet, system: System) -> Dial | Meter | None:
    """Return the face of the usual instrument at a point of a unit; None where nothing with a face is used.

    Pressures and temperatures have a dial, sized to what can stand there; what is electrical, flows or is
    drawn as a sample has a display; what is counted, looked up or seen has no face.
    """
    pressure = point.kind in (Kind.GAUGE_PRESSURE, Kind.PRESSURE_DIFFERENCE)
    if pressure or (point.kind is Kind.TEMPERATURE and "hermometer" in usual_instrument(point)):
        return _dial(point, sheet, system)
    has_display = any(word in usual_instrument(point) for word in ("eter", "tester"))
    if point.kind in (Kind.CHOICE, Kind.NUMBER, Kind.TEMPERATURE) or not has_display:
        return None
    return Meter(
        point.kind, system, believable_or_none(point)[1], point.instrument, "Clamp" in usual_instrument(point)
    )


def _dial(point: Point, sheet: DataSheet, system: System) -> Dial:
    low, high = (to_display(value, point.kind, system) for value in _span(point, sheet))
    step = _step(high - low)
    division = step / DIVISIONS
    # Less than no pressure at all cannot be: there the scale ends before it.
    places = ceil(low / division - 1e-6) if _compound(point) else floor(low / division + 1e-6)
    return Dial(
        kind=point.kind,
        system=system,
        unit=display_unit(point.kind, system),
        least=places * division,
        most=ceil(high / step - 1e-6) * step,
        step=step,
        name=_name(point),
    )


def _name(point: Point) -> str:
    if point.kind is Kind.TEMPERATURE:
        return say("Dial thermometer")
    if point.kind is Kind.PRESSURE_DIFFERENCE:
        return say("Differential pressure gauge")
    return say("Compound pressure gauge") if _compound(point) else say("Pressure gauge")


def _compound(point: Point) -> bool:
    """Return whether the gauge at a point can show less than the atmosphere."""
    return point.id.startswith("suction_pressure") or "Compound" in usual_instrument(point)


def _step(span: float) -> float:
    """Return the least of 1, 2, 5, 10, ... that divides a span into few enough numbers."""
    decade = 10.0 ** floor(log10(span / MOST_NUMBERS))
    return next(step * decade for step in (1.0, 2.0, 5.0, 10.0) if span / (step * decade) <= MOST_NUMBERS)


def _span(point: Point, sheet: DataSheet) -> tuple[float, float]:
    """Return between which SI values the scale of the gauge at a point must reach."""
    believed_least, believed_most = believable_or_none(point)
    least = 0.0 if believed_least is None else believed_least
    most = least + 1e6 if believed_most is None else believed_most
    if point.kind is Kind.TEMPERATURE:
        return least, most
    if point.kind is Kind.GAUGE_PRESSURE:
        low = -ATMOSPHERE if _compound(point) else 0.0
        refrigerant = point.id.startswith(("suction", "discharge", "liquid", "resting"))
        if not refrigerant:
            return low, sheet.water.gauge_top
        high_side = 1.25 * (_stop(sheet, "discharge_pressure") or most / 1.25)
        # On the suction side a gauge must stand the pressure of a unit at rest on a hot day.
        return low, 0.5 * high_side if point.id.startswith("suction") else high_side
    if point.id.startswith("barrel"):
        return 0.0, 1.5 * sheet.water.barrel.points[-1].drop
    return 0.0, sheet.water.gauge_top * (0.2 if point.id.startswith("strainer") else 0.4)


def _stop(sheet: DataSheet, family: str) -> float | None:
    """Return where (Pa) the unit's safety on a family of pressures acts, if its sheet has one."""
    for safety in sheet.safeties:
        if safety.point.startswith(family) and safety.acts == "above":
            try:
                return parse(safety.trips_at, Kind.GAUGE_PRESSURE, need_unit=True).value
            except QuantityError:
                return None
    return None

"""The margin of every safety on the data sheet: how far its reading is from where it would act, and the drift.

A safety belongs to one measuring point, or to a family of them (`discharge_pressure_{circuit}`). Where
several watch one point on the same side, the one that acts first counts.

`margins` looks at every safety of a sheet, at whatever point; the registered checks cover the points
that safeties of chillers usually watch, so that fault trees can name them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache, partial
from math import hypot, sqrt

from faultdoc.checks.base import COVERAGE, Comparison, Given, Need, Sense, Working, reading_uncertainty, registered
from faultdoc.checks.inputs import is_assumed
from faultdoc.model.base import Measured
from faultdoc.model.points import FAMILIES
from faultdoc.model.unit import Acts, DataSheet, Safety
from faultdoc.quantities import Kind, difference_kind, parse
from faultdoc.words import say

__all__ = ["WATCHED", "Drift", "Margin", "Trip", "drift", "first_to_act", "margins", "members", "trip"]

WATCHED: tuple[tuple[str, Kind, Acts, str], ...] = (
    ("discharge_pressure_{circuit}", Kind.GAUGE_PRESSURE, Acts.ABOVE, "discharge pressure"),
    ("discharge_line_temperature_{circuit}", Kind.TEMPERATURE, Acts.ABOVE, "discharge line temperature"),
    ("suction_pressure_{circuit}", Kind.GAUGE_PRESSURE, Acts.BELOW, "suction pressure"),
    ("oil_temperature_{number}", Kind.TEMPERATURE, Acts.ABOVE, "oil temperature"),
    ("water_out_temperature", Kind.TEMPERATURE, Acts.BELOW, "leaving water"),
    ("barrel_pressure_drop", Kind.PRESSURE_DIFFERENCE, Acts.BELOW, "drop across the barrel"),
    ("water_flow", Kind.VOLUME_FLOW, Acts.BELOW, "water flow"),
    ("voltage_{pair}", Kind.VOLTAGE, Acts.BELOW, "supply voltage"),
    ("voltage_{pair}", Kind.VOLTAGE, Acts.ABOVE, "supply voltage"),
    ("pump_current_{line}", Kind.CURRENT, Acts.ABOVE, "pump current"),
)
"""Points that safeties usually watch, their kind, on which side they act, and what to call them."""


@dataclass(frozen=True)
class Trip:
    """Where one safety acts: SI values of its point's kind.

    Attributes:
        at: the setting.
        tolerance: half-width within which the device may act.
        resets_at: where it lets go, or None.
    """

    at: float
    tolerance: float
    resets_at: float | None

    @property
    def standard_uncertainty(self) -> float:
        """Of the setting: the tolerance as a rectangular distribution (JCGM 100:2008, 4.3.7)."""
        return self.tolerance / sqrt(3.0)


@dataclass(frozen=True)
class Margin:
    """How far one reading is from where a safety acts; SI.

    Attributes:
        safety: which.
        point: the measuring point read.
        kind: of the point.
        reading: its value.
        trip: where the safety acts.
        margin: what is left to the setting; below zero past it.
        uncertainty: standard uncertainty of the margin: of the reading and of the setting.
        reading_uncertainty: the reading's own part of it.
    """

    safety: Safety
    point: str
    kind: Kind
    reading: float
    trip: Trip
    margin: float
    uncertainty: float
    reading_uncertainty: float

    @property
    def standard_uncertainties(self) -> float:
        """The margin in standard uncertainties."""
        return self.margin / self.uncertainty

    @property
    def should_have_acted(self) -> bool:
        """Whether the reading is past the setting beyond doubt: a safety that has not acted is at fault."""
        return self.standard_uncertainties < -COVERAGE

    @property
    def trip_range(self) -> tuple[float, float]:
        """Between which readings the device may act when it is tested."""
        return self.trip.at - self.trip.tolerance, self.trip.at + self.trip.tolerance


@dataclass(frozen=True)
class Drift:
    """How a margin has changed from one reading to the next.

    Attributes:
        change: of the margin, SI; below zero it shrinks.
        uncertainty: standard uncertainty of the change; the setting is the same both times and drops out.
        time_left: s till the margin is used up at this rate, or None when it does not shrink beyond doubt.
    """

    change: float
    uncertainty: float
    time_left: float | None

    @property
    def standard_uncertainties(self) -> float:
        """The change in standard uncertainties."""
        return self.change / self.uncertainty


def trip(safety: Safety, kind: Kind) -> Trip:
    """Return where a safety acts, from the texts of the data sheet.

    Args:
        safety: of the sheet.
        kind: of its point.

    Raises:
        QuantityError: when a text is not a quantity of that kind.

    >>> safety = Safety(id="freeze", title="Freeze", point="water_out_temperature", acts="below",
    ...                 trips_at="3 °C", tolerance="0.5 K", manual_reset=True)
    >>> trip(safety, Kind.TEMPERATURE)
    Trip(at=276.15, tolerance=0.5, resets_at=None)
    """
    return Trip(
        _text(safety.trips_at, kind),
        _text(safety.tolerance, difference_kind(kind)),
        None if safety.resets_at is None else _text(safety.resets_at, kind),
    )


@lru_cache(maxsize=512)
def _text(text: str, kind: Kind) -> float:
    return parse(text, kind, need_unit=True).value


def members(family: str) -> tuple[str, ...]:
    """Return the points that a family in braces stands for; a plain point stands for itself."""
    names = re.findall(r"\{([^{}]*)\}", family)
    if not names:
        return (family,)
    if names[0] not in FAMILIES:
        return ()
    return tuple(
        point for member in FAMILIES[names[0]] for point in members(family.replace(f"{{{names[0]}}}", member, 1))
    )


def first_to_act(sheet: DataSheet, point: str, kind: Kind, acts: Acts) -> Safety | None:
    """Return the safety that acts first at a point on one side, or None when the sheet has none there.

    Raises:
        QuantityError: when a text of the sheet is not a quantity of the point's kind.
    """
    there = [one for one in sheet.safeties if one.acts is acts and point in members(one.point)]
    sign = 1.0 if acts is Acts.ABOVE else -1.0
    return min(there, key=lambda one: sign * trip(one, kind).at, default=None)


def margins(
    sheet: DataSheet, readings: Mapping[str, Measured], usual_limit: Callable[[str, float], float]
) -> list[Margin]:
    """Return the margin of every safety at every point of its that was read, the smallest first.

    Smallest counted in standard uncertainties.

    Args:
        sheet: the unit's.
        readings: by measuring point, numbers only.
        usual_limit: (point, SI value) -> limit of error of the usual instrument there, SI.

    Raises:
        QuantityError: when a text of the sheet is not a quantity of its point's kind.
    """
    found = [
        _margin(safety, point, readings[point], usual_limit)
        for safety in sheet.safeties
        for point in members(safety.point)
        if point in readings
    ]
    return sorted(found, key=lambda one: one.standard_uncertainties)


def _margin(safety: Safety, point: str, reading: Measured, usual_limit: Callable[[str, float], float]) -> Margin:
    setting = trip(safety, reading.kind)
    u = reading_uncertainty(point, reading, usual_limit)
    left = setting.at - reading.value if safety.acts is Acts.ABOVE else reading.value - setting.at
    # A margin without any uncertainty would call every last digit; the smallest is a billionth.
    whole = max(hypot(u, setting.standard_uncertainty), 1e-9 * max(1.0, abs(setting.at)))
    return Margin(safety, point, reading.kind, reading.value, setting, left, whole, u)


def drift(earlier: Margin, now: Margin, elapsed: float | None = None) -> Drift:
    """Return how a margin has changed since an earlier reading of the same safety at the same point.

    Args:
        earlier, now: both of one safety and one point.
        elapsed: s between the two, above zero, when known.

    Raises:
        ValueError: when the two are not of one safety and point, or the time is not above zero.
    """
    if (earlier.safety.id, earlier.point) != (now.safety.id, now.point):
        raise ValueError(
            f"'{earlier.safety.id}' at {earlier.point} and '{now.safety.id}' at {now.point} are two things; "
            "compare one safety with itself"
        )
    if elapsed is not None and elapsed <= 0.0:
        raise ValueError("the later reading must be taken after the earlier one")
    change = now.margin - earlier.margin
    u = max(hypot(earlier.reading_uncertainty, now.reading_uncertainty), 1e-9 * max(1.0, abs(now.trip.at)))
    time_left = None
    if elapsed is not None and change < -COVERAGE * u:
        time_left = max(now.margin, 0.0) * elapsed / -change
    return Drift(change, u, time_left)


def _compare(values: Mapping[str, float], sheet: DataSheet, point: str, kind: Kind, acts: Acts) -> Comparison:
    safety = first_to_act(sheet, point, kind, acts)
    if safety is None:
        raise ValueError("the data sheet gives no such safety")
    at, reading = values["sheet.trip_setting"], values[point]
    setting = trip(safety, kind)
    working = [
        Working(f"{safety.title} acts {safety.acts.value}", at, kind),
        Working("its tolerance, either way", setting.tolerance, difference_kind(kind)),
        Working("margin left", at - reading if acts is Acts.ABOVE else reading - at, difference_kind(kind)),
    ]
    if setting.resets_at is not None:
        working.append(Working("it lets go at", setting.resets_at, kind))
    if safety.delay is not None:
        working.append(Working("it acts after", safety.delay, Kind.TIME))
    reset = "Reset by hand, once the cause is known." if safety.manual_reset else "It resets by itself."
    test = ("How it is tested, by someone who may: " + " ".join(safety.test),) if safety.test else ()
    return Comparison(at, reading, tuple(working), (reset, *test))


def _register(point: str, kind: Kind, acts: Acts, title: str) -> None:
    """Register the check of one point on one side."""
    side = "high" if acts is Acts.ABOVE else "low"

    def setting(sheet: DataSheet) -> Given | None:
        safety = first_to_act(sheet, point, kind, acts)
        if safety is None:
            return None
        where = trip(safety, kind)
        if is_assumed(sheet, f"safeties.{sheet.safeties.index(safety)}.trips_at"):
            return where.at, 2.0 * where.standard_uncertainty, "assumed"
        return where.at, where.standard_uncertainty, "data sheet"

    registered(
        id=f"{side}_trip_{point}",
        title=say("{upper}{title} against its {side} trip", upper=title[0].upper(), title=title[1:], side=side),
        kind=kind,
        needs=(
            Need(point, kind, title),
            Need("sheet.trip_setting", kind, f"setting of a {side} trip on {title}", default=setting),
        ),
        scale=_SCALES[kind],
        sense=Sense.AT_MOST if acts is Acts.ABOVE else Sense.AT_LEAST,
        formula="the data sheet's setting; its tolerance taken as a rectangular distribution",
        source="The data sheet; JCGM 100:2008, 4.3.7.",
    )(partial(_compare, point=point, kind=kind, acts=acts))


# SI amounts that count as one whole step of residual.
_SCALES = {
    Kind.GAUGE_PRESSURE: 100e3,
    Kind.TEMPERATURE: 5.0,
    Kind.PRESSURE_DIFFERENCE: 10e3,
    Kind.VOLUME_FLOW: 1e-3,
    Kind.VOLTAGE: 20.0,
    Kind.CURRENT: 1.0,
}


def _named(family: str, point: str, title: str) -> str:
    """Return the title with which member of its family it is, such as 'discharge pressure, circuit A'."""
    head, brace, tail = family.partition("{")
    if not brace:
        return title
    member = point.removeprefix(head)
    kind = tail.rstrip("}")
    return {
        "circuit": f"{title}, circuit {member.upper()}",
        "number": f"{title}, compressor {member}",
        "line": f"{title}, {member.upper()}",
        "pair": f"{title}, {member.upper().replace('_', '-')}",
    }[kind]


for _family, _kind, _acts, _title in WATCHED:
    for _point in members(_family):
        _register(_point, _kind, _acts, _named(_family, _point, _title))

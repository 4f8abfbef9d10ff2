"""The unit's safeties against the readings, in words: setting, margin, where it trips, drift, test."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from faultdoc.checks.all import split_readings, usual_limit_from
from faultdoc.checks.base import COVERAGE
from faultdoc.checks.safeties import Drift, Margin, drift, first_to_act, margins
from faultdoc.model.base import Measured
from faultdoc.model.points import Point
from faultdoc.model.unit import DataSheet, Safety
from faultdoc.quantities import System, difference_kind, show
from faultdoc.words import say

__all__ = ["Watch", "drift_words", "margin_words", "setting_words", "sheet_words", "trip_words", "watches"]


@dataclass(frozen=True)
class Watch:
    """One safety at one point that was read.

    Attributes:
        margin: what is left.
        title: of the safety, with the point's where it watches several.
        place: the point's title.
        first: whether it acts before any other safety at that point on that side.
        drift: of the margin since an earlier reading, if there was one.
    """

    margin: Margin
    title: str
    place: str
    first: bool
    drift: Drift | None = None


def watches(
    sheet: DataSheet,
    readings: Mapping[str, Measured | str],
    points: Mapping[str, Point],
    earlier: Mapping[str, Measured | str] | None = None,
    elapsed: float | None = None,
) -> tuple[Watch, ...]:
    """Return every safety at every point of its that was read, the smallest margin first.

    Args:
        sheet: the unit's.
        readings: of a case.
        points: the vocabulary by id, families written out.
        earlier: readings of an earlier case on the same unit.
        elapsed: s between the two, above zero, when known.

    Raises:
        ValueError: for a time that is not above zero.
        QuantityError: when a text of the sheet is not a quantity of its point's kind.
    """
    usual_limit = usual_limit_from(points)
    before = {}
    if earlier is not None:
        numbers, _ = split_readings(earlier)
        before = {(one.safety.id, one.point): one for one in margins(sheet, numbers, usual_limit)}
    numbers, _ = split_readings(readings)
    found = []
    for margin in margins(sheet, numbers, usual_limit):
        then = before.get((margin.safety.id, margin.point))
        first = first_to_act(sheet, margin.point, margin.kind, margin.safety.acts)
        found.append(
            Watch(
                margin,
                margin.safety.title,
                points[margin.point].title,
                first is not None and first.id == margin.safety.id,
                None if then is None else drift(then, margin, elapsed),
            )
        )
    return tuple(found)


def setting_words(margin: Margin, system: System) -> str:
    """Return where a safety acts and lets go."""
    safety, trip = margin.safety, margin.trip
    tolerance = show(trip.tolerance, difference_kind(margin.kind), system)
    words = say(
        "acts {value} {show}, give or take {tolerance}",
        value=safety.acts.value,
        show=show(trip.at, margin.kind, system),
        tolerance=tolerance,
    )
    if safety.delay is not None:
        words += say(", after {delay:g} s", delay=safety.delay)
    if trip.resets_at is not None:
        words += say("; lets go at {show}", show=show(trip.resets_at, margin.kind, system))
    return f"{words}; {_reset_words(safety)}"


def sheet_words(safety: Safety) -> str:
    """Return where a safety acts as its data sheet writes it, without a reading to tell the units."""
    return say(
        "acts {value} {trips_at} ± {tolerance}; {reset_words}",
        value=safety.acts.value,
        trips_at=safety.trips_at,
        tolerance=safety.tolerance,
        reset_words=_reset_words(safety),
    )


def _reset_words(safety: Safety) -> str:
    return say("reset by hand") if safety.manual_reset else say("resets by itself")


def margin_words(margin: Margin, system: System) -> str:
    """Return how far the reading is from the setting, in words and in standard uncertainties."""
    amount = show(abs(margin.margin), difference_kind(margin.kind), system, limit=COVERAGE * margin.uncertainty)
    steps = margin.standard_uncertainties
    size = (
        say("{abs:.1f} standard uncertainties", abs=abs(steps))
        if abs(steps) < 100.0
        else say("over 100 standard uncertainties")
    )
    if margin.should_have_acted:
        return say(
            "past its setting by {amount} ({size}): it should have acted. Find out "
            "whether it did; do not bypass it",
            amount=amount,
            size=size,
        )
    if steps > COVERAGE:
        return say("{amount} left ({size})", amount=amount, size=size)
    side = "left" if margin.margin >= 0.0 else say("past it")
    return say(
        "at its setting as far as can be told: {amount} {side} ({size}); it may act at any moment",
        amount=amount,
        side=side,
        size=size,
    )


def trip_words(margin: Margin, system: System) -> str:
    """Return at which reading the device trips when it is tested, if it is in order."""
    low, high = margin.trip_range
    side = "rising" if margin.safety.acts.value == "above" else "falling"
    return say(
        "between {show} and {show_2}, {side}",
        show=show(low, margin.kind, system),
        show_2=show(high, margin.kind, system),
        side=side,
    )


def drift_words(change: Drift, margin: Margin, system: System) -> str:
    """Return how a margin has changed since an earlier reading."""
    steps = change.standard_uncertainties
    by = show(abs(change.change), difference_kind(margin.kind), system, limit=COVERAGE * change.uncertainty)
    if abs(steps) <= COVERAGE:
        return say(
            "no change beyond the meters' own ({by}, {abs:.1f} standard uncertainties)", by=by, abs=abs(steps)
        )
    way = "grown" if change.change > 0.0 else "shrunk"
    words = say("the margin has {way} by {by} ({abs:.1f} standard uncertainties)", way=way, by=by, abs=abs(steps))
    if change.time_left is not None:
        days = change.time_left / 86400.0
        left = (
            say("{days:.0f} days", days=days)
            if days >= 2.0
            else say("{what:.0f} hours", what=change.time_left / 3600.0)
        )
        words += say("; at this rate it is used up in about {left}", left=left)
    return words

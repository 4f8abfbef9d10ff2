"""Checks before a start."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial

from faultdoc.checks.base import Comparison, Given, Need, Sense, Working, registered
from faultdoc.checks.oil import COMPRESSORS, own_compressor
from faultdoc.model.unit import DataSheet
from faultdoc.physics.oil import TimerState, timer_state
from faultdoc.quantities import Kind
from faultdoc.words import say

__all__ = ["SHORTEST_WARM_UP", "timers", "warm_up"]

SHORTEST_WARM_UP = 3600.0
"""s; no oil is warm sooner, whatever the papers leave out. Common practice, no source."""


@registered(
    id="oil_warm_up",
    title=say("Time energised for the oil to warm up"),
    kind=Kind.TIME,
    needs=(
        Need("hours_energised_since_power_up", Kind.TIME, "time energised without a break"),
        Need(
            "sheet.oil_warm_up",
            Kind.TIME,
            "warm-up time",
            default=lambda sheet: (sheet.oil_warm_up, 0.0, "data sheet"),
        ),
    ),
    floor=-1.0,
    sense=Sense.AT_LEAST,
    formula="warm-up time of the data sheet, one hour at least",
    source="The data sheet; one hour at least is common practice, no source.",
)
def oil_warm_up(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the time energised with the oil's warm-up."""
    needed = max(values["sheet.oil_warm_up"], SHORTEST_WARM_UP)
    measured = values["hours_energised_since_power_up"]
    return Comparison(
        needed,
        measured,
        (Working("still to wait", max(needed - measured, 0.0), Kind.TIME),),
        ("Any break in power starts the count again.",),
    )


def warm_up(sheet: DataSheet) -> float:
    """Return how long (s) a unit is energised until its oil counts as warm: the sheet's time, an hour at least."""
    return max(sheet.oil_warm_up, SHORTEST_WARM_UP)


def timers(
    sheet: DataSheet,
    power: Sequence[tuple[float, bool]],
    compressor: Sequence[tuple[float, bool]],
    now: float,
) -> TimerState:
    """Return what the timers of one compressor say, from a log of what was switched when and the data sheet.

    Args:
        sheet: for warm-up (an hour at least), anti-recycle time and starts an hour.
        power: (time in s, on) for the unit's supply, in order of time; off before the first.
        compressor: (time in s, on) for the compressor, in order of time; off before the first.
        now: s, at or after every event.

    Raises:
        ValueError: for events out of order or later than now.
    """
    return timer_state(
        power,
        compressor,
        now,
        warm_up=warm_up(sheet),
        anti_recycle=sheet.anti_recycle,
        starts_per_hour=sheet.starts_per_hour,
    )


def _starts_allowed(sheet: DataSheet) -> Given | None:
    return None if sheet.starts_per_hour is None else (float(sheet.starts_per_hour), 0.0, "data sheet")


def _anti_recycle(values: Mapping[str, float], sheet: DataSheet, number: str) -> Comparison:
    own_compressor(sheet, number)
    needed, since = values["sheet.anti_recycle"], values[f"time_since_stop_{number}"]
    return Comparison(
        needed,
        since,
        (Working("still to wait", max(needed - since, 0.0), Kind.TIME),),
        ("The compressor does not start before, whatever is called for.",),
    )


def _starts(values: Mapping[str, float], sheet: DataSheet, number: str) -> Comparison:
    own_compressor(sheet, number)
    allowed, counted = values["sheet.starts_per_hour"], values[f"starts_in_last_hour_{number}"]
    return Comparison(
        allowed,
        counted,
        (Working("starts yet allowed in this hour", max(allowed - counted, 0.0), Kind.NUMBER),),
        ("Many starts: little water in the loop, a control that hunts, or a safety that resets itself.",),
    )


def _register(number: str) -> None:
    """Register the checks of one compressor's starts."""
    registered(
        id=f"anti_recycle_{number}",
        title=say("Time since the last stop, compressor {number}", number=number),
        kind=Kind.TIME,
        needs=(
            Need(f"time_since_stop_{number}", Kind.TIME, f"time since compressor {number} stopped"),
            Need(
                "sheet.anti_recycle",
                Kind.TIME,
                "anti-recycle time",
                default=lambda sheet: (sheet.anti_recycle, 0.0, "data sheet"),
            ),
        ),
        scale=300.0,
        sense=Sense.AT_LEAST,
        formula="anti-recycle time of the data sheet",
        source="The data sheet.",
    )(partial(_anti_recycle, number=number))
    registered(
        id=f"starts_per_hour_{number}",
        title=say("Starts in the last hour, compressor {number}", number=number),
        kind=Kind.NUMBER,
        needs=(
            Need(f"starts_in_last_hour_{number}", Kind.NUMBER, f"starts of compressor {number} in the last hour"),
            Need(
                "sheet.starts_per_hour",
                Kind.NUMBER,
                "most starts of a compressor in an hour",
                default=_starts_allowed,
            ),
        ),
        scale=1.0,
        sense=Sense.AT_MOST,
        formula="most starts an hour of the data sheet",
        source="The data sheet.",
    )(partial(_starts, number=number))


for _number in COMPRESSORS:
    _register(_number)

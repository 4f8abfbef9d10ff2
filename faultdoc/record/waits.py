"""What keeps a compressor from starting yet: oil warm-up, anti-recycle and starts an hour, in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from faultdoc.checks.inputs import is_assumed
from faultdoc.checks.startup import warm_up
from faultdoc.model.base import Measured
from faultdoc.model.safety import PlantState
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, System, show
from faultdoc.words import say

__all__ = ["Wait", "left_words", "starts_words", "waits"]

RESETS_WARM_UP = say("Any break in power, however short, starts it again.")
RESETS_RECYCLE = say("Every stop of the compressor starts it again; a break in power is a stop too.")


@dataclass(frozen=True)
class Wait:
    """One wait before a start.

    Attributes:
        title: which.
        words: what is left of it.
        resets: what starts it again, or ''.
        over: whether it no longer keeps the compressor from starting.
        left: s of it still to come.
        whole: s of all of it; None for what is counted rather than timed.
    """

    title: str
    words: str
    resets: str
    over: bool
    left: float = 0.0
    whole: float | None = None


def left_words(left: float, whole: float, assumed: bool) -> str:
    """Return what is left of a wait.

    >>> left_words(4800.0, 28800.0, True), left_words(0.0, 300.0, False)
    ('1 h 20 min left of 8 h (assumed)', 'over: 5 min have passed')
    """
    of = show(whole, Kind.TIME, System.US) + (" (assumed)" if assumed else "")
    return (
        say("{show} left of {of}", show=show(left, Kind.TIME, System.US), of=of)
        if left > 0.0
        else say("over: {of} have passed", of=of)
    )


def starts_words(counted: int, allowed: int | None) -> str:
    """Return how many starts there were in the last hour, and whether another one may be.

    >>> starts_words(3, 6), starts_words(6, 6), starts_words(1, None)
    ('3 of at most 6', '6 of at most 6: no other start in this hour', '1; the data sheet gives no limit')
    """
    if allowed is None:
        return say("{counted}; the data sheet gives no limit", counted=counted)
    return say("{counted} of at most {allowed}", counted=counted, allowed=allowed) + (
        "" if counted < allowed else say(": no other start in this hour")
    )


def waits(sheet: DataSheet, readings: Mapping[str, Measured | str], state: PlantState) -> tuple[Wait, ...]:
    """Return every wait that the readings tell of, as it stood when they were taken.

    Args:
        sheet: for the length of the waits.
        readings: of the case.
        state: of the plant; without supply the whole warm-up is still to come.
    """
    found = []
    whole = warm_up(sheet)
    energised = readings.get("hours_energised_since_power_up")
    if state.supply.value != "energised":
        words = say("the supply is off: {show} from when it comes back", show=show(whole, Kind.TIME, System.US))
        found.append(Wait(say("Oil warm-up"), words, RESETS_WARM_UP, False, whole, whole))
    elif isinstance(energised, Measured):
        left = max(whole - energised.value, 0.0)
        words = left_words(left, whole, is_assumed(sheet, "oil_warm_up"))
        if left > 0.0 and state.oil.value == "warm":
            words += say(". Yet the plant's state says that the oil is warm: put right what is not so")
        found.append(Wait(say("Oil warm-up"), words, RESETS_WARM_UP, left <= 0.0, left, whole))
    for number in range(1, len(sheet.compressors) + 1):
        which = say(", compressor {number}", number=number)
        since = readings.get(f"time_since_stop_{number}")
        if isinstance(since, Measured):
            left = max(sheet.anti_recycle - since.value, 0.0)
            found.append(
                Wait(
                    say("Anti-recycle{which}", which=which),
                    left_words(left, sheet.anti_recycle, is_assumed(sheet, "anti_recycle")),
                    RESETS_RECYCLE,
                    left <= 0.0,
                    left,
                    sheet.anti_recycle,
                )
            )
        starts = readings.get(f"starts_in_last_hour_{number}")
        if isinstance(starts, Measured):
            counted = round(starts.value)
            over = sheet.starts_per_hour is None or counted < sheet.starts_per_hour
            words = starts_words(counted, sheet.starts_per_hour)
            found.append(Wait(say("Starts in the last hour{which}", which=which), words, "", over))
    return tuple(found)

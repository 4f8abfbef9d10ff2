"""What happened in a practice, in words. No Qt here."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from typing import TYPE_CHECKING

from faultdoc.app.practice.clock import on_a_watch
from faultdoc.app.practice.scales import Dial, face_of
from faultdoc.model.safety import Caution, Signal
from faultdoc.quantities import Kind, System, show
from faultdoc.record.words import SIGNAL_WORDS, minutes
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.model.points import Point
    from faultdoc.model.unit import DataSheet
    from faultdoc.practice.trainee import Event

__all__ = ["caution_of", "event_words", "log_lines", "on_a_needle"]


_SIGNALS = {word: signal for signal, word in SIGNAL_WORDS.items()}
_SIGNAL = re.compile(r"(?:^|\s)(" + "|".join(_SIGNALS) + r"):\s+(?=\S)")


def on_a_needle(event: Event, points: Mapping[str, Point], sheet: DataSheet) -> bool:
    """Return whether an event is a reading that a person must take off a needle."""
    if event.kind != "reading" or event.point is None or not isinstance(event.value, float):
        return False
    return isinstance(face_of(points[event.point], sheet, System.US), Dial)


def event_words(
    event: Event, points: Mapping[str, Point], sheet: DataSheet, system: System, told: Collection[str]
) -> str:
    """Return an event in words; a needle's number only where it has been told."""
    cost = f" ({minutes(event.minutes)})" if event.minutes >= 0.1 else ""
    point = points.get(event.point or "")
    # What is known from before a stop is told as such.
    before = say(" (as it was just before it stopped)") if event.text.endswith("before it stopped)") else ""
    if event.kind == "reading" and point is not None and isinstance(event.value, float):
        if on_a_needle(event, points, sheet) and point.id not in told:
            return say(
                "{title}: read it off the needle{before}{cost}", title=point.title, before=before, cost=cost
            )
        if point.kind is not Kind.CHOICE:
            return f"{point.title}: {show(event.value, point.kind, system)}{before}{cost}"
    if event.kind == "refused" and event.safe and event.why:
        return f"{event.text} {event.why}"
    return f"{event.text}{cost}"


def caution_of(event: Event) -> tuple[str, Caution]:
    """Return why an unsafe act was refused, and the caution that goes with the act.

    What was refused could have killed or gravely hurt, or wrecked the unit: where the act has no caution of its
    own the reason itself is told as a WARNING.
    """
    why = event.why or event.text
    found = _SIGNAL.search(why)
    if found is None:
        return "", Caution(signal=Signal.WARNING, text=why)
    return why[: found.start()].strip(), Caution(signal=_SIGNALS[found[1]], text=why[found.end() :].strip())


def log_lines(
    events: Iterable[Event],
    points: Mapping[str, Point],
    sheet: DataSheet,
    system: System,
    told: Collection[str],
) -> list[tuple[str, str]]:
    """Return (time, words) of what happened, in order."""
    made: list[tuple[str, str]] = []
    for event in events:
        words = event_words(event, points, sheet, system, told)
        made.append(
            (on_a_watch(event.time), words if event.safe else say("UNSAFE, not done: {words}", words=words))
        )
    return made

"""A path of a practice as marks on a time line. No Qt here."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from faultdoc.practice.trainee import Event

__all__ = ["sort_of", "sorted_marks"]

SORTS = {
    "reading": "read",
    "seen": "read",
    "change": "change",
    "remedy": "remedy",
    "proof": "remedy",
    "hint": "hint",
    "unit": "unit",
}


def sort_of(event: Event) -> str | None:
    """Return the sort of mark that an event is on a time line; None for what is not worth one."""
    return SORTS.get(event.kind) if event.safe else "unsafe"


def sorted_marks(events: Iterable[Event]) -> list[tuple[float, str]]:
    """Return (minute, sort of mark) of the events that have a mark, in order."""
    return [(event.time / 60.0, sort) for event in events if (sort := sort_of(event)) is not None]

"""The safeties of a unit against the readings of a case, as text."""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt

from faultdoc.model.base import Measured
from faultdoc.model.case import Case
from faultdoc.model.points import Point
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import System, show
from faultdoc.record.margins import (
    Watch,
    drift_words,
    margin_words,
    setting_words,
    sheet_words,
    trip_words,
    watches,
)
from faultdoc.terminal.text import numbered, paragraph

__all__ = ["safeties_text"]


def safeties_text(
    sheet: DataSheet,
    case: Case,
    points: Mapping[str, Point],
    system: System,
    earlier: Case | None = None,
    elapsed: float | None = None,
) -> str:
    """Return every safety of the data sheet: setting, reading, margin, where it trips, drift and test.

    Args:
        sheet: the unit's.
        case: with the readings.
        points: the vocabulary by id, families written out.
        system: units.
        earlier: a case on the same unit, for the drift.
        elapsed: s between the two, above zero, when known.

    Raises:
        ValueError: when the earlier case is on another unit, or the time is not above zero.
    """
    if earlier is not None and earlier.unit != case.unit:
        raise ValueError(
            f"the earlier case is on '{earlier.unit}' and this one on '{case.unit}'; compare two of one unit"
        )
    if not sheet.safeties:
        return paragraph(
            f"The data sheet of '{sheet.title}' gives no safeties. Take their settings from the unit's papers "
            "into its data sheet to see the margins."
        )
    before = None if earlier is None else earlier.readings
    found = watches(sheet, case.readings, points, before, elapsed)
    parts = [paragraph(f"Safeties of {sheet.title}, each against its reading")]
    for safety in sheet.safeties:
        own = [watch for watch in found if watch.margin.safety.id == safety.id]
        lines = [safety.title]
        if own:
            lines.append(_line("setting", setting_words(own[0].margin, system)))
            lines.append(_line("test trips", trip_words(own[0].margin, system)))
        else:
            lines.append(_line("setting", sheet_words(safety)))
            lines.append(_line("reading", "none yet"))
        for watch in own:
            lines += _reading(watch, case.readings[watch.margin.point], system, earlier)
        if safety.test:
            lines.append("  how it is tested, by someone who may:")
            lines.append(numbered(safety.test, "    "))
        parts.append("\n".join(lines))
    parts.append(
        paragraph(
            "The maker's manual, local codes and the licence they ask for come before what is written here. "
            "Never bypass a safety, and put every setting back as it was."
        )
    )
    return "\n\n".join(parts)


def _reading(watch: Watch, reading: Measured | str, system: System, earlier: Case | None) -> list[str]:
    margin = watch.margin
    u = reading.standard_uncertainty if isinstance(reading, Measured) else None
    limit = None if u is None else u * sqrt(3.0)  # half-width of a rectangular distribution
    value = show(margin.reading, margin.kind, system, limit=limit)
    first = "" if watch.first else " (another safety there acts first)"
    lines = [_line("reading", f"{watch.place}: {value}{first}"), _line("margin", margin_words(margin, system))]
    if watch.drift is not None:
        lines.append(_line("drift", drift_words(watch.drift, margin, system)))
    elif earlier is not None:
        lines.append(_line("drift", "not known: not read in the earlier case"))
    return lines


def _line(name: str, words: str) -> str:
    return paragraph(words, f"  {name:<11} ")

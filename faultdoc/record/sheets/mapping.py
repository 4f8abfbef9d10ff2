"""Which column of a logger is which measuring point, in which unit; remembered for every logger by its columns."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from pydantic import Field, ValidationError

from faultdoc.library.whole import write_whole
from faultdoc.model.base import Id, Model, Text
from faultdoc.model.points import Point
from faultdoc.quantities import Kind, QuantityError, System, display_unit, parse, show
from faultdoc.record.settings import data_home
from faultdoc.record.sheets.log import Log
from faultdoc.record.sheets.rows import named

__all__ = ["Column", "before", "guessed", "recalled", "remember", "series", "trip"]

MOST_LOGGERS = 200


class Column(Model):
    """What a column holds."""

    point: Id
    unit: Text


class _Loggers(Model):
    loggers: dict[str, dict[str, Column]] = Field(default_factory=dict)


def guessed(log: Log, points: Mapping[str, Point], system: System) -> dict[str, Column]:
    """Return the columns whose names say what they are; the unit is the one in brackets, else the reader's own."""
    found: dict[str, Column] = {}
    for name in log.columns:
        match = re.fullmatch(r"(.*?)\s*[\[(]([^\])]*)[\])]\s*", name)
        words, unit = (match[1], match[2]) if match else (name, "")
        point = named(words, points)
        if point is None or points[point].kind is Kind.CHOICE or point in {one.point for one in found.values()}:
            continue
        kind = points[point].kind
        if not _fits(unit, kind):
            unit = display_unit(kind, system)
        found[name] = Column(point=point, unit=unit or " ")
    return found


def _fits(unit: str, kind: Kind) -> bool:
    try:
        parse(f"1 {unit}", kind, need_unit=bool(display_unit(kind, System.SI)))
    except QuantityError:
        return False
    return True


LARGEST = 5_000_000
"""Bytes of what is remembered of loggers."""


def _path() -> Path:
    return data_home() / "loggers.json"


def recalled(log: Log) -> dict[str, Column]:
    """Return what was remembered for this logger; nothing where nothing was, or it cannot be read."""
    try:
        with _path().open("rb") as stream:
            kept = _Loggers.model_validate_json(stream.read(LARGEST))
    except (OSError, ValidationError):
        return {}
    return {name: column for name, column in kept.loggers.get(log.signature, {}).items() if name in log.columns}


def remember(log: Log, columns: Mapping[str, Column]) -> None:
    """Remember the columns of this logger for its next file.

    Raises:
        OSError: when they cannot be written.
    """
    try:
        kept = _Loggers.model_validate_json(_path().read_bytes()).loggers
    except (OSError, ValidationError):
        kept = {}
    kept = {key: value for key, value in kept.items() if key != log.signature}
    newest = {log.signature: dict(columns), **kept}
    fewer = dict(list(newest.items())[:MOST_LOGGERS])
    _path().parent.mkdir(parents=True, exist_ok=True)
    write_whole(json.dumps(_Loggers(loggers=fewer).model_dump(), indent=1) + "\n", _path())


def series(log: Log, columns: Mapping[str, Column], points: Mapping[str, Point]) -> dict[str, NDArray[np.float64]]:
    """Return the columns in SI, by point, shape (N,) each.

    Raises:
        QuantityError: for a unit that does not fit its point.
    """
    found = {}
    for name, column in columns.items():
        kind = points[column.point].kind
        # Every unit is a scale and an offset: two values tell both.
        zero, one = (parse(f"{number} {column.unit}".strip(), kind).value for number in (0, 1))
        found[column.point] = log.values[:, log.columns.index(name)] * (one - zero) + zero
    return found


def trip(values: Mapping[str, NDArray[np.float64]]) -> int:
    """Return the row at which most changes at once: the first after the step. A guess, for a person to move.

    Every column counts by its step over its own usual step (median), so that a current that falls to nothing
    outweighs a temperature that drifts.

    >>> trip({"a": np.array([5.0, 5.1, 5.0, 0.0, 0.1])})
    3
    """
    rows = max((len(column) for column in values.values()), default=0)
    score = np.zeros(max(rows - 1, 0))
    for column in values.values():
        steps = np.abs(np.diff(np.nan_to_num(column, nan=float(np.nanmedian(column)))))
        spread = float(np.max(steps)) or 1.0
        usual = float(np.median(steps)) + 0.02 * spread
        score += np.minimum(steps / usual, 50.0)
    return int(np.argmax(score)) + 1 if len(score) else 0


def before(
    log: Log,
    values: Mapping[str, NDArray[np.float64]],
    row: int,
    span: float,
    points: Mapping[str, Point],
    system: System,
) -> dict[str, str]:
    """Return the readings of the time before a row: the median, and how far it wandered.

    Args:
        log: the log.
        values: SI, by point; from `series`.
        row: the first row that is not to be counted.
        span: s before it that count (rows, where the file has no times).
        points: the vocabulary.
        system: the reader's units.

    Returns:
        Readings as one would type them, by point; those without a number in that time are left out. The limit is
        half the range that holds the middle 90 %, where it wandered at all.
    """
    end = log.times[min(row, len(log.times) - 1)]
    counted = (log.times >= end - span) & (np.arange(len(log.times)) < row)
    found = {}
    for id, column in values.items():
        there = column[counted]
        there = there[np.isfinite(there)]
        if not len(there):
            continue
        middle = float(np.median(there))
        low, high = np.percentile(there, (5.0, 95.0))
        limit = float(high - low) / 2.0
        kind = points[id].kind
        wandered = limit > 1e-6 * max(1.0, abs(middle))
        found[id] = show(middle, kind, system, limit=limit if wandered else None)
    return found

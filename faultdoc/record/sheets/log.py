"""A data logger's file: text with columns, read with its times whatever its separators."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import sha256
from itertools import pairwise
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from faultdoc.library.problems import FileProblems, Problem
from faultdoc.words import say

__all__ = ["Log", "read_log", "read_log_text"]

LARGEST = 50_000_000
"""Bytes of a file."""
MOST_ROWS, MOST_COLUMNS, MOST_CELLS = 500_000, 200, 5_000_000
LONGEST_NUMBER, LONGEST_NAME = 60, 200
"""Characters of a cell that is a number, and of a column's name."""
_SEPARATORS = "\t;,|"
_FORMATS = (
    "%Y-%m-%d %H:%M:%S", "%Y-%m-%d %H:%M:%S.%f", "%Y-%m-%dT%H:%M:%S", "%Y-%m-%dT%H:%M:%S.%f", "%Y-%m-%d %H:%M",
    "%Y/%m/%d %H:%M:%S", "%d/%m/%Y %H:%M:%S", "%m/%d/%Y %H:%M:%S", "%d.%m.%Y %H:%M:%S", "%d/%m/%Y %H:%M",
    "%m/%d/%Y %H:%M", "%d.%m.%Y %H:%M", "%m/%d/%y %H:%M:%S", "%m/%d/%Y %I:%M:%S %p", "%m/%d/%y %I:%M:%S %p",
    "%H:%M:%S", "%H:%M:%S.%f", "%H:%M",
)  # fmt: skip
DAY = 86_400.0


@dataclass(frozen=True)
class Log:
    """What a logger wrote.

    Attributes:
        name: of the file.
        columns: the names of the columns with numbers, as they stand in the file.
        times: s since the first row, shape (N,); the row's place where the file has no times.
        timed: whether the times are times.
        start: of the first row, as the file says it, '' where it does not.
        values: shape (N, C), nan where a cell has no number.
    """

    name: str
    columns: tuple[str, ...]
    times: NDArray[np.float64]
    timed: bool
    start: str
    values: NDArray[np.float64]

    @property
    def signature(self) -> str:
        """Stands for all files of this logger: they have the same columns."""
        return sha256("\n".join(self.columns).encode()).hexdigest()[:16]


def read_log(path: Path) -> Log:
    """Read a logger's file.

    Raises:
        FileProblems: when it cannot be read, is too large, or has no columns of numbers.
    """
    try:
        with path.open("rb") as stream:
            raw = stream.read(LARGEST + 1)
    except OSError as problem:
        raise _refused(path.name, 0, "no file that can be read", problem.strerror or str(problem)) from None
    if len(raw) > LARGEST:
        raise _refused(path.name, 0, f"more than {LARGEST:,} bytes", "export a shorter time, or fewer columns")
    for coding in ("utf-8-sig", "utf-16" if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else "cp1252"):
        try:
            return read_log_text(raw.decode(coding), path.name)
        except UnicodeDecodeError:
            continue
    raise _refused(path.name, 0, "bytes that are no text", "export it as text (CSV)")


def read_log_text(text: str, name: str) -> Log:
    """Read a logger's text; `name` is what messages call it.

    The separator is the one that splits most lines alike. The header is the last line of words before the
    numbers begin; what stands above it is passed over.

    Raises:
        FileProblems: when it is too large or has no columns of numbers.
    """
    if "\0" in text:
        raise _refused(name, 0, "zero bytes", "export it as text (CSV)")
    lines = text.splitlines()
    if len(lines) > MOST_ROWS:
        raise _refused(name, MOST_ROWS, f"more than {MOST_ROWS:,} rows", "export a shorter time")
    separator = _separator(lines[:60])
    if text.count(separator) > MOST_CELLS:
        raise _refused(name, 0, f"more than {MOST_CELLS:,} cells", "export a shorter time, or fewer columns")
    try:
        rows = [[cell.strip() for cell in row] for row in csv.reader(lines, delimiter=separator)]
    except csv.Error as problem:
        raise _refused(name, 0, f"text that is no table ({problem})", "export it as CSV") from None
    comma = separator != ","
    first, width = _first_row(rows, comma=comma)
    if first is None:
        raise _refused(
            name, 1, "no rows of numbers", "export it with a column for each reading and a row for each time"
        )
    if width > MOST_COLUMNS:
        raise _refused(name, first + 1, f"{width} columns", f"export at most {MOST_COLUMNS}")
    header = [name[:LONGEST_NAME] for name in _header(rows, first, width)]
    body = [(row + [""] * width)[:width] for row in rows[first:] if any(row)]
    times, used, start = _times(body, header)
    kept, numbers = [], []
    for place in range(width):
        if place in used:
            continue
        column = np.array([_number(row[place], comma=comma) for row in body])
        if np.isfinite(column).sum() * 2 >= len(body):
            kept.append(header[place])
            numbers.append(column)
    if not kept:
        raise _refused(name, first + 1, "no column of numbers", "look at the file: readings must be plain numbers")
    timed = times is not None
    at = np.arange(len(body), dtype=np.float64) if times is None else times
    return Log(name, tuple(_unlike(kept)), at, timed, start, np.column_stack(numbers))


def _refused(name: str, line: int, found: str, remedy: str) -> FileProblems:
    return FileProblems([Problem(name, line, 0, "", found, say("a logger's table of readings"), remedy)])


def _separator(lines: Sequence[str]) -> str:
    def alike(separator: str) -> tuple[int, int]:
        counts = [line.count(separator) for line in lines if line.strip()]
        usual = max(set(counts), key=counts.count, default=0)
        return (counts.count(usual) if usual else 0, usual)

    return max(_SEPARATORS, key=alike)


def _number(text: str, *, comma: bool) -> float:
    plain = text.replace("\u00a0", "").replace(" ", "")
    if comma and "," in plain:
        plain = plain.replace(".", "").replace(",", ".")
    # A number of a logger's is short; what is longer is not looked at digit by digit.
    if len(plain) > LONGEST_NUMBER or not re.fullmatch(r"[-+]?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d{1,3})?", plain):
        return float("nan")
    return float(plain)


def _first_row(rows: Sequence[Sequence[str]], *, comma: bool) -> tuple[int | None, int]:
    """Return where the rows of numbers begin, and how many columns they have."""

    def numbers(row: Sequence[str]) -> int:
        return sum(not np.isnan(_number(cell, comma=comma)) for cell in row)

    for place, row in enumerate(rows[:-1]):
        following = rows[place + 1]
        # Two rows alike, mostly numbers: a single one may stand in what is written above the table.
        alike = len(row) == len(following) and numbers(row) >= 1 and numbers(following) >= 1
        mostly = 2 * numbers(row) >= len([cell for cell in row if cell]) - 2
        if alike and mostly and not _is_header(row, following, comma):
            return place, len(row)
    return None, 0


def _is_header(row: Sequence[str], following: Sequence[str], comma: bool) -> bool:
    def words(cells: Sequence[str]) -> int:
        return sum(
            bool(cell) and np.isnan(_number(cell, comma=comma)) and not re.match(r"\d", cell) for cell in cells
        )

    return words(row) > words(following)


def _header(rows: Sequence[Sequence[str]], first: int, width: int) -> list[str]:
    above = [row for row in rows[:first] if len(row) == width and any(row)]
    named = above[-1] if above else []
    units = []
    if len(above) >= 2 and all(len(cell) <= 8 for cell in above[-1]):
        # A line of units below the names.
        named, units = above[-2], list(above[-1])
    names = [cell or f"column {place + 1}" for place, cell in enumerate(named)] or [
        f"column {place + 1}" for place in range(width)
    ]
    return [f"{one} ({unit})" if unit else one for one, unit in zip(names, units or [""] * width, strict=True)]


def _unlike(names: Sequence[str]) -> list[str]:
    """Return the names, those that come again with a number behind them."""
    seen: dict[str, int] = {}
    made = []
    for name in names:
        seen[name] = seen.get(name, 0) + 1
        made.append(name if seen[name] == 1 else f"{name} #{seen[name]}")
    return made


def _times(
    body: Sequence[Sequence[str]], header: Sequence[str]
) -> tuple[NDArray[np.float64] | None, set[int], str]:
    """Return seconds since the first row, the columns they were read from, and the first row's own words."""
    named = [place for place, name in enumerate(header) if re.search(r"\b(date|time|timestamp)\b", name, re.I)]
    tries: list[tuple[int, ...]] = [(place,) for place in named or range(min(2, len(header)))]
    if len(named) >= 2:
        tries.insert(0, (named[0], named[1]))
    for places in tries:
        texts = [" ".join(row[place] for place in places) for row in body]
        found = _parsed(texts)
        if found is not None:
            return found, set(places), texts[0]
    for place in named:
        # Seconds, minutes or hours since the start.
        column = np.array([_number(row[place], comma=True) for row in body])
        if np.isfinite(column).all() and (np.diff(column) > 0.0).all():
            unit = re.search(r"\b(h|hours?|min|minutes?)\b", header[place], re.I)
            times = {"h": 3600.0, "m": 60.0}[unit[1][0].lower()] if unit else 1.0
            return (column - column[0]) * times, {place}, ""
    return None, set(), ""


def _parsed(texts: Sequence[str]) -> NDArray[np.float64] | None:
    for pattern in _FORMATS:
        try:
            moments = [datetime.strptime(text, pattern).replace(tzinfo=UTC) for text in texts]
        except ValueError:
            continue
        seconds = np.array([(one - moments[0]).total_seconds() for one in moments])
        if "%d" not in pattern and "%y" not in pattern.lower():
            # Times of day that go on past midnight.
            turns = np.cumsum([0.0] + [DAY if b < a - DAY / 2 else 0.0 for a, b in pairwise(seconds)])
            seconds = seconds + turns
        if (np.diff(seconds) >= 0.0).all() and seconds[-1] > 0.0:
            return seconds
    return None

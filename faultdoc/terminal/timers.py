"""What keeps the compressors from starting yet, as text: from a case's readings, or from a log of switching."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from faultdoc.checks.inputs import is_assumed
from faultdoc.checks.startup import timers, warm_up
from faultdoc.library.problems import MOST_PROBLEMS, FileProblems, Problem, as_found, listed
from faultdoc.model.case import Case
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, System, show
from faultdoc.record.waits import RESETS_RECYCLE, RESETS_WARM_UP, left_words, starts_words, waits
from faultdoc.terminal.text import paragraph

__all__ = ["Log", "log_text", "read_log", "timers_text"]

COLUMNS = "time, supply, compressor (or compressor_1, compressor_2, ...)"
LARGEST = 5_000_000
"""Bytes of a log: some hundred thousand switchings."""
STATES = {"on": True, "1": True, "off": False, "0": False}


@dataclass(frozen=True)
class Log:
    """What was switched when: (time in s from the first line, on), and for compressors by number.

    Attributes:
        start: the time of the first line.
        end: s from the first line to the last.
        supply: of the unit.
        compressors: by number.
    """

    start: datetime
    end: float
    supply: tuple[tuple[float, bool], ...]
    compressors: dict[int, tuple[tuple[float, bool], ...]]


def read_log(path: Path) -> Log:
    """Return a log of switching from a CSV file.

    Its first line names the columns: time, supply, and compressor or compressor_1 and so on. A time is
    written as 2026-03-01 14:05 (seconds may follow), a state as on or off; an empty cell means no change.

    Raises:
        FileProblems: with every mistake in the file.
    """
    try:
        with path.open("rb") as stream:
            raw = stream.read(LARGEST + 1)
        if len(raw) > LARGEST:
            remedy = "give the part of the log that matters"
            raise _problem(path, 0, f"more than {LARGEST:,} bytes", f"at most {LARGEST:,} bytes", remedy)
        lines = list(csv.reader(raw.decode("utf-8-sig").splitlines()))
    except FileNotFoundError:
        raise _problem(path, 0, "no such file", "a CSV file", "check the path") from None
    except (OSError, UnicodeDecodeError, csv.Error) as problem:
        raise _problem(path, 0, f"it cannot be read ({problem})", "a CSV file", "save it as CSV, UTF-8") from None
    rows = [(number, [cell.strip() for cell in line]) for number, line in enumerate(lines, start=1) if any(line)]
    if len(rows) < 2:
        raise _problem(path, 0, "no rows", f"a line with {COLUMNS}, and a line for each change", "write them")
    numbers = _columns(path, *rows[0])
    problems: list[Problem] = []
    times: list[datetime] = []
    events: dict[int, list[tuple[float, bool]]] = {number: [] for number in numbers}
    for line, cells in rows[1:]:
        if len(problems) >= MOST_PROBLEMS:
            break
        time = _time_of(cells[0])
        if time is None:
            problems += _problem(path, line, as_found(cells[0]), "a time such as 2026-03-01 14:05", "").problems
            continue
        if times and (time.tzinfo is None) != (times[0].tzinfo is None):
            allowed = "a time zone in every line, or in none"
            problems += _problem(path, line, f"'{cells[0]}'", allowed, "").problems
            continue
        if times and time < times[-1]:
            problems += _problem(path, line, f"{time} after {times[-1]}", "", "sort the lines by time").problems
            continue
        times.append(time)
        for number, cell in zip(numbers, cells[1:], strict=False):
            if cell.lower() in STATES:
                events[number].append(((time - times[0]).total_seconds(), STATES[cell.lower()]))
            elif cell:
                problems += _problem(path, line, as_found(cell), "on, off, or nothing for no change", "").problems
        if len(cells) != 1 + len(numbers):
            problems += _problem(
                path, line, f"{len(cells)} cells", f"{1 + len(numbers)}, as the head has", ""
            ).problems
    if problems:
        raise FileProblems(problems)
    supply = events.pop(0)
    end = (times[-1] - times[0]).total_seconds()
    return Log(times[0], end, tuple(supply), {number: tuple(one) for number, one in events.items()})


def _time_of(text: str) -> datetime | None:
    try:
        return datetime.fromisoformat(text)
    except ValueError:
        return None


def _columns(path: Path, line: int, cells: Sequence[str]) -> list[int]:
    """Return what each column after the first is of: 0 the supply, else a compressor's number."""
    names = [cell.lower().replace(" ", "_") for cell in cells]
    numbers = []
    for name in names[1:]:
        found = re.fullmatch(r"compressor(?:_([1-8]))?", name)
        if name != "supply" and not found:
            raise _problem(path, line, f"the column {as_found(name)}", COLUMNS, "name the columns so")
        numbers.append(int(found[1] or 1) if found else 0)
    if names[0] != "time" or 0 not in numbers or len(set(numbers)) != len(numbers) or len(numbers) < 2:
        raise _problem(
            path,
            line,
            f"the columns {listed(name[:40] for name in names)}",
            f"{COLUMNS}, each once",
            "name them so",
        )
    return numbers


def _problem(path: Path, line: int, found: str, allowed: str, remedy: str) -> FileProblems:
    return FileProblems([Problem(str(path), line, 1 if line else 0, "", found, allowed, remedy)])


def timers_text(sheet: DataSheet, case: Case) -> str:
    """Return the waits before a start as the case's readings tell them."""
    found = waits(sheet, case.readings, case.state)
    if not found:
        return paragraph(
            "The case has no reading of time energised, time since a stop or starts in the last hour. Read one of "
            "these, or give a log with --log."
        )
    lines = [paragraph(f"Before a compressor of {sheet.title} may start, as it stood at the readings")]
    for wait in found:
        lines.append(paragraph(f"{wait.title}: {wait.words}", "  ", "    "))
        if wait.resets:
            lines.append(paragraph(wait.resets, "    "))
    return "\n".join(lines)


def log_text(sheet: DataSheet, log: Log, now: datetime | None = None) -> str:
    """Return the waits before a start as a log tells them.

    Args:
        sheet: the unit's.
        log: of its switching.
        now: the time to tell them for; the log's last line when left out.

    Raises:
        ValueError: for a time before the log's last line, one that does not go with the log's (a time zone in
            only one of them), or a compressor the unit does not have.
    """
    if extra := [number for number in log.compressors if number > len(sheet.compressors)]:
        raise ValueError(f"the log has compressor {extra[0]}, and '{sheet.title}' has {len(sheet.compressors)}")
    last = log.start + timedelta(seconds=log.end)
    try:
        at = log.end if now is None else (now - log.start).total_seconds()
    except TypeError:
        raise ValueError("only one of the log and --now has a time zone; give both or neither") from None
    if at < log.end:
        raise ValueError(f"{now} is before the log's last line, {last}; give a time after it")
    lines = [paragraph(f"{sheet.title} at {log.start + timedelta(seconds=at)}")]
    whole = warm_up(sheet)
    for place, (number, events) in enumerate(sorted(log.compressors.items())):
        state = timers(sheet, log.supply, events, at)
        if place == 0:
            since = "the supply is off" if state.energised == 0.0 else f"energised for {_time(state.energised)}"
            if log.supply and log.supply[0] == (0.0, True) and state.energised == at:
                since += ", or longer: it was on when the log begins"
            left = left_words(state.warm_up_left, whole, is_assumed(sheet, "oil_warm_up"))
            lines.append(paragraph(f"Oil warm-up: {left}; {since}", "  ", "    "))
            lines.append(paragraph(RESETS_WARM_UP, "    "))
        lines.append(f"  Compressor {number}")
        recycle = left_words(state.anti_recycle_left, sheet.anti_recycle, is_assumed(sheet, "anti_recycle"))
        lines.append(paragraph(f"Anti-recycle: {recycle}", "    ", "      "))
        lines.append(paragraph(RESETS_RECYCLE, "      "))
        starts = starts_words(state.starts_in_last_hour, sheet.starts_per_hour)
        if state.starts_left > 0.0:
            starts += f", {_time(state.starts_left)} to wait"
        lines.append(paragraph(f"Starts in the last hour: {starts}", "    ", "      "))
        may = "now" if state.start_allowed_in == 0.0 else f"in {_time(state.start_allowed_in)}"
        lines.append(f"    Start allowed: {may}, if nothing else stands in its way")
    return "\n".join(lines)


def _time(seconds: float) -> str:
    return show(seconds, Kind.TIME, System.US)

"""The fleet as tables of words and numbers: one for every part, for the window, the terminal and CSV files."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from io import StringIO
from itertools import pairwise
from pathlib import Path

from faultdoc.library.load import Library
from faultdoc.library.whole import write_whole
from faultdoc.record.fleet import ALL, BINS, OTHER, Fleet
from faultdoc.words import say

__all__ = ["Cell", "Table", "bin_words", "csv_text", "fleet_tables", "harmless", "names_of", "span", "write_csv"]

Cell = str | int | float | None


@dataclass(frozen=True)
class Table:
    """One part of the fleet.

    Attributes:
        id: name for files and machines.
        title: in words.
        says: what it tells, in a sentence or two.
        columns: their heads.
        rows: as many cells each.
        empty: what is said where there are no rows.
    """

    id: str
    title: str
    says: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    empty: str


def names_of(library: Library) -> dict[str, str]:
    """Return the titles of causes and symptoms by id, with those of 'all' and 'other'."""
    causes = {id: cause.title for id, cause in library.causes.items()}
    trees = {id: tree.title for id, tree in library.trees.items()}
    return {**causes, **trees, ALL: say("All symptoms"), OTHER: say("Other causes")}


def span(time: timedelta) -> str:
    """Return a time in its two largest parts.

    >>> span(timedelta(days=3, hours=5, minutes=10)), span(timedelta(hours=2)), span(timedelta(minutes=7))
    ('3 d 5 h', '2 h', '7 min')
    """
    minutes = max(0, round(time.total_seconds() / 60.0))
    days, hours, rest = minutes // 1440, minutes // 60 % 24, minutes % 60
    if days:
        return f"{days} d {hours} h" if hours else f"{days} d"
    if hours:
        return say("{hours} h {rest} min", hours=hours, rest=rest) if rest else f"{hours} h"
    return f"{rest} min"


def bin_words() -> tuple[str, ...]:
    """Return the bins of the minutes to a fix in words."""
    words = [_time(edge) for edge in BINS]
    between = [f"{low} to {high}" for low, high in pairwise(words)]
    return (f"under {words[1]}", *between[1:], f"over {words[-1]}")


def _time(minutes: int) -> str:
    return f"{minutes} min" if minutes < 60 else f"{minutes // 60} h"


def fleet_tables(fleet: Fleet, names: Mapping[str, str]) -> tuple[Table, ...]:
    """Return every part of the fleet as a table.

    Args:
        fleet: the fleet.
        names: titles of causes and symptoms by id; an id without one stands for itself.
    """

    def name(id: str) -> str:
        return names.get(id, id)

    months = fleet.months
    return (
        Table(
            "open",
            say("Open cases"),
            say("The one that has stood still longest since its last move comes first."),
            (say("Case"), say("Unit"), say("Waits for"), say("Still for"), say("Last move"), say("Open for"),
             say("Symptom"), say("At")),
            tuple(
                (
                    f"{one.id}: {one.title}", one.unit, one.waits, span(one.idle), one.last or say("none yet"),
                    span(one.age), "; ".join(map(name, one.symptoms)), one.by or say("not known"),
                )
                for one in fleet.open
            ),
            say("No case is open."),
        ),
        Table(
            "units",
            say("What comes back"),
            say("Of the proved fixes that are 90 days old or more: after how many the same "
"cause was proved on the same unit again within 90 days, with the 95 % "
"interval. Younger fixes had no time to fail yet."),
            (say("Unit"), say("Cases"), say("Proved fixes"), say("90 days old"), say("Came back"),
             say("Share, %"), say("From, %"), say("To, %"),
             say("Causes that came back, ever")),
            tuple(
                (
                    one.unit, one.cases, one.fixes, one.back.of, one.back.count, _percent(one.back.share),
                    *((None, None) if not one.back.of else tuple(map(_percent, one.back.interval))),
                    "; ".join(f"{name(cause)} ({count})" for cause, count in one.causes) or "none",
                )
                for one in fleet.units
            ),
            say("There are no cases."),
        ),
        Table(
            "causes",
            say("Causes by month"),
            say("Causes proved, in the month in which their case was closed."),
            (say("Month"), *map(name, months.counts)),
            tuple(
                (month, *(row[place] for row in months.counts.values()))
                for place, month in enumerate(months.months)
            ),
            say("No case was closed with a cause proved."),
        ),
        Table(
            "minutes",
            say("Minutes to the fix"),
            say("From the opening of the case to the proof that held. By the clock: median "
"with its 95 % interval, and the middle half. At work: gaps of more than two "
"hours between moves left out."),
            (say("Symptom"), say("Fixes"), say("Median, min"), say("From"), say("To"), say("Quarter under"),
             say("Quarter over"),
             say("Median at work, min"), *bin_words()),
            tuple(
                (
                    name(one.symptom), one.count, round(one.median), _whole(one.low), _whole(one.high),
                    round(one.quarter), round(one.three_quarters), round(one.work), *one.bins,
                )
                for one in fleet.minutes
            ),
            say("No case was closed as fixed."),
        ),
        Table(
            "first",
            say("Fixed at the first go"),
            say("Closed cases that were fixed by those who took them on: never handed over, "
"made safe or given up before, and worked on at one station only. With the "
"95 % interval."),
            (say("Symptom"), say("Closed"), say("Fixed at the first go"), say("Share, %"), say("From, %"),
             say("To, %")),
            tuple(
                (name(id), share.of, share.count, _percent(share.share), *map(_percent, share.interval))
                for id, share in fleet.first
            ),
            say("No case was closed."),
        ),
    )  # fmt: skip


def _percent(share: float | None) -> int | None:
    return None if share is None else round(100.0 * share)


def _whole(value: float | None) -> int | None:
    return None if value is None else round(value)


def harmless(cell: Cell) -> Cell:
    """Return a cell that no spreadsheet program takes for a formula: text that begins like one gets a '.

    After the advice of OWASP on CSV injection: = + - @ and, before any of them, tab and carriage return.

    >>> harmless("=1+1"), harmless("pump"), harmless(-3)
    ("'=1+1", 'pump', -3)
    """
    if isinstance(cell, str) and cell.lstrip(" \n")[:1] in ("=", "+", "-", "@", "\t", "\r"):
        return f"'{cell}"
    return cell


def csv_text(table: Table) -> str:
    """Return a table as CSV (RFC 4180) with heads; cells that look like formulas are made harmless."""
    stream = StringIO()
    writer = csv.writer(stream)
    writer.writerow([harmless(head) for head in table.columns])
    writer.writerows([["" if cell is None else harmless(cell) for cell in row] for row in table.rows])
    return stream.getvalue()


def write_csv(tables: Sequence[Table], folder: Path) -> tuple[str, ...]:
    """Write each table into a folder as a CSV file, whole or not at all; return their names.

    Raises:
        OSError: when the folder cannot be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    for table in tables:
        # With a mark of UTF-8, which spreadsheet programs need to read ° and ± right.
        write_whole("\ufeff" + csv_text(table), folder / f"{table.id}.csv")
    return tuple(f"{table.id}.csv" for table in tables)

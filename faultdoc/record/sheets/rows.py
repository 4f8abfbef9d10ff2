"""A sheet of readings: what stands in each row, understood, and what is impossible or doubtful about it. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Reading
from faultdoc.model.points import Point
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, System
from faultdoc.record import moves
from faultdoc.record.typed import fresh_doubts, understand
from faultdoc.words import say

__all__ = ["Pasted", "Row", "look", "named", "pasted", "taken"]


MOST_LINES = 1000
"""Lines whose names are looked up; there are fewer measuring points."""
LONGEST_NAME = 200


@dataclass(frozen=True)
class Row:
    """One row with something in it.

    Attributes:
        reading: what it means, None where it is not understood.
        echo: how it was understood.
        problem: why it is not understood; '' where it is.
        doubts: what is doubtful about it, one sentence each.
        impossible: whether no state of the plant can give it; then it cannot be kept.
    """

    reading: Reading | None
    echo: str = ""
    problem: str = ""
    doubts: tuple[str, ...] = ()
    impossible: bool = False


def look(
    texts: Mapping[str, str], sheet: DataSheet, points: Mapping[str, Point], case: Case, system: System
) -> dict[str, Row]:
    """Return every row that has a text, with what it means and what is doubtful among all of them together.

    Args:
        texts: what was typed, by point; blank ones are left out.
        sheet: the unit's.
        points: the vocabulary.
        case: with the readings that are there already.
        system: meant by bare numbers.
    """
    rows: dict[str, Row] = {}
    typed: dict[str, Measured] = {}
    for id, text in texts.items():
        if not text.strip():
            continue
        point = points[id]
        if point.kind is Kind.CHOICE:
            rows[id] = _choice(point, text)
            continue
        found = understand(text, point, system)
        if found.measured is None:
            rows[id] = Row(None, problem=found.problem or "")
        else:
            rows[id] = Row(found.measured, echo=found.echo or "")
            typed[id] = found.measured
    for doubt in fresh_doubts(sheet, points, case, typed, system):
        # A doubt about a reading of before that these raise is told at the first of these.
        told_at = doubt.point if doubt.point in rows else next(iter(typed), None)
        if told_at is not None:
            row = rows[told_at]
            rows[told_at] = Row(
                row.reading, row.echo, row.problem, (*row.doubts, doubt.text), row.impossible or doubt.impossible
            )
    return rows


def _choice(point: Point, text: str) -> Row:
    wanted = text.strip().casefold()
    found = [one for one in point.choices if wanted in (one.id, one.title.casefold())]
    found = found or [one for one in point.choices if one.title.casefold().startswith(wanted)]
    if len(found) == 1:
        return Row(found[0].id, echo=say("understood as {title}", title=found[0].title))
    return Row(None, problem=say("one of: {join}", join=", ".join(one.title for one in point.choices)))


def taken(case: Case, rows: Mapping[str, Row]) -> Case:
    """Return the case with the reading of every row that is understood."""
    for id, row in rows.items():
        if row.reading is not None:
            case = moves.read(case, id, row.reading)
    return case


def named(name: str, points: Mapping[str, Point]) -> str | None:
    """Return the point that a name stands for, None where none or more than one would do.

    The id, the title, or words of which each stands in just one point's id or title.

    >>> from faultdoc.library.vocabulary import load_points
    >>> points = load_points()
    >>> named("Suction pressure, circuit A", points), named("pump current l2", points), named("pressure", points)
    ('suction_pressure_a', 'pump_current_l2', None)
    """
    plain = name.strip().casefold()
    if not plain or len(plain) > LONGEST_NAME:
        return None
    if plain.replace(" ", "_") in points:
        return plain.replace(" ", "_")
    titled = [id for id, point in points.items() if point.title.casefold() == plain]
    if titled:
        return titled[0]
    wanted = _words(plain)
    fits = [
        id for id, point in points.items() if wanted <= _words_of_point(f"{id.replace('_', ' ')} {point.title}")
    ]
    if len(fits) == 1:
        return fits[0]
    # "Suction pressure A" fits one point of its own and is part of longer names: the shortest, if it is alone.
    shortest = min((len(id) for id in fits), default=0)
    best = [id for id in fits if len(id) == shortest]
    exact = [id for id in best if set(id.split("_")) <= wanted]
    return exact[0] if len(exact) == 1 else None


def _words(text: str) -> frozenset[str]:
    return frozenset("".join(one if one.isalnum() else " " for one in text.casefold()).split())


@lru_cache(maxsize=2048)
def _words_of_point(text: str) -> frozenset[str]:
    return _words(text)


@dataclass(frozen=True)
class Pasted:
    """One line that was pasted.

    Attributes:
        name: what stood before the value, '' where there was only a value.
        text: the value as it stood.
        point: what the name stands for, None where that is not clear.
    """

    name: str
    text: str
    point: str | None


def pasted(text: str, points: Mapping[str, Point], below: Sequence[str] = ()) -> tuple[Pasted, ...]:
    """Return what was copied from a spreadsheet, line by line.

    Two columns are name and value (a third column is the unit); one row of names over one row of values is
    turned round; a single column of values goes to the points `below` in turn. Lines beyond MOST_LINES are of
    no point.

    >>> from faultdoc.library.vocabulary import load_points
    >>> pasted("Water flow\\t58\\tgpm\\nsomething\\t3", load_points())[0]
    Pasted(name='Water flow', text='58 gpm', point='water_flow')
    """
    lines = [[cell.strip() for cell in line.split("\t")] for line in text.splitlines() if line.strip()]
    if len(lines) == 2 and len(lines[0]) > 2 and len(lines[0]) == len(lines[1]):
        lines = [[name, value] for name, value in zip(*lines, strict=True)]
    if all(len(cells) == 1 for cells in lines):
        return tuple(
            Pasted("", cells[0], below[place] if place < len(below) else None) for place, cells in enumerate(lines)
        )
    found = []
    for place, cells in enumerate(lines):
        name, *rest = cells
        value = " ".join(one for one in rest[:2] if one)
        if value:
            found.append(Pasted(name, value, named(name, points) if place < MOST_LINES else None))
    return tuple(found)

"""How a side of the plant is laid out: what is drawn, and where its measuring points sit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from faultdoc.record.pictures.shapes import Disc, Line, Point, Role, Shape, Words, arc, box, width_of

__all__ = ["HEIGHT", "WIDTH", "Layout", "Placed", "card", "coil", "fan", "motor", "pipe", "valve"]

WIDTH, HEIGHT = 1100.0, 600.0
ROW = 30.0
"""From line to line of a card."""


@dataclass(frozen=True)
class Placed:
    """Where a measuring point sits.

    Attributes:
        point: its id.
        at: where.
        label: short, for beside it.
        side: on which side of it the label and the value stand.
        brief: whether only the label is written; the value is for those who press it.
    """

    point: str
    at: Point
    label: str
    side: Literal["left", "right", "above", "below"] = "right"
    brief: bool = False


@dataclass(frozen=True)
class Layout:
    """A side of the plant: a title, what it shows in words, its parts back to front, and its points."""

    title: str
    words: str
    shapes: tuple[Shape, ...]
    points: tuple[Placed, ...]


def pipe(points: Sequence[Point], role: Role, *, arrow: bool = False, width: float = 5.0) -> Line:
    """Return a pipe or a cable."""
    return Line(tuple(points), role, width, arrow=arrow)


def valve(at: Point, *, upright: bool = False) -> list[Shape]:
    """Return a hand valve: two triangles point to point (ISO 14617-8, symbol of a valve)."""
    x, y = at
    reach, half = 14.0, 9.0
    corners = (
        ((x - half, y - reach), (x + half, y - reach), (x - half, y + reach), (x + half, y + reach))
        if upright
        else ((x - reach, y - half), (x + reach, y + half), (x + reach, y - half), (x - reach, y + half))
    )
    return [Line(corners, Role.INK, 2.0, closed=True, fill=Role.PAPER)]


def motor(at: Point, name: str, radius: float = 26.0, letter: str = "M") -> list[Shape]:
    """Return a rotating machine: a circle with a letter (IEC 60617, machine) and its name below."""
    x, y = at
    named: list[Shape] = []
    if name:
        half, at_y = width_of(name, 12.0) / 2.0, y + radius + 12.0
        named = [
            box(x - half - 2.0, at_y - 8.0, x + half + 2.0, at_y + 8.0, role=None, fill=Role.PAPER),
            Words((x, at_y), name, 12.0, "middle", Role.FAINT),
        ]
    return [
        Disc(at, radius, Role.INK, 2.5, Role.PAPER),
        Words((x, y), letter, 20.0, "middle", bold=True),
        *named,
    ]


def card(
    left: float, top: float, width: float, title: str, points: Sequence[tuple[str, str]]
) -> tuple[list[Shape], list[Placed]]:
    """Return a box with measuring points line below line, for what has no place of its own."""
    bottom = top + 30.0 + ROW * len(points) + 4.0
    shapes: list[Shape] = [
        box(left, top, left + width, bottom, role=Role.LINE, width=1.5, fill=Role.PAPER),
        Words((left + 12.0, top + 16.0), title, 13.0, role=Role.FAINT, bold=True),
    ]
    placed = [
        Placed(point, (left + 22.0, top + 44.0 + ROW * place), label)
        for place, (point, label) in enumerate(points)
    ]
    return shapes, placed


def coil(left: float, top: float, right: float, bottom: float, bends: int, role: Role) -> list[Shape]:
    """Return a tube that winds through a box."""
    pitch = (right - left) / bends
    points: list[Point] = []
    for place in range(bends):
        x = left + pitch * (place + 0.5)
        ends = (top + 12.0, bottom - 12.0) if place % 2 == 0 else (bottom - 12.0, top + 12.0)
        points += [(x, ends[0]), (x, ends[1])]
    return [
        box(left, top, right, bottom, role=Role.INK, width=2.0, fill=Role.GROUND),
        Line(tuple(points), role, 4.0),
    ]


def fan(at: Point, radius: float) -> list[Shape]:
    """Return a fan: a circle with two blades."""
    x, y = at
    blade = tuple((x + 0.85 * (px - x), y + 0.85 * (py - y)) for px, py in arc(at, radius, 20.0, 70.0, 4))
    other = tuple((2 * x - px, 2 * y - py) for px, py in blade)
    return [
        Disc(at, radius, Role.INK, 2.0, Role.PAPER),
        Line((at, *blade), Role.FAINT, 1.5, closed=True, fill=Role.GROUND),
        Line((at, *other), Role.FAINT, 1.5, closed=True, fill=Role.GROUND),
    ]

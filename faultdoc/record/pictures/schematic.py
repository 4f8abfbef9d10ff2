"""The plant as a picture: what was read stands at its place, what is asked for now is lit.

Drawn in our own way from general symbols (ISO 14617 for valves, IEC 60617 for machines and ground).
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from faultdoc.checks.base import CheckResult, Verdict
from faultdoc.checks.refrigerant import circuits_of
from faultdoc.model.base import Measured
from faultdoc.model.points import Point as MeasuringPoint
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import System, show
from faultdoc.record.pictures.electrical_side import fans_layout, motor_layout, supply_layout
from faultdoc.record.pictures.places import HEIGHT, WIDTH, Layout, Placed
from faultdoc.record.pictures.refrigerant_side import MOST_NUMBERED, circuit_layout
from faultdoc.record.pictures.shapes import (
    Disc,
    Line,
    Mark,
    Picture,
    Point,
    Role,
    Shape,
    Spot,
    Words,
    bounds,
    cropped,
)
from faultdoc.record.pictures.water_side import water_layout
from faultdoc.words import say

__all__ = ["Seen", "layout", "plant_picture", "points_on", "side_of", "sides"]

RADIUS = 9.0
LETTERS = 13.0
_GAP = 5.0


@dataclass(frozen=True)
class Seen:
    """What is known of the plant, for the picture.

    Attributes:
        readings: of the case, by point.
        points: the vocabulary.
        results: checks made.
        asked: points asked for now.
        not_had: points that could not be measured.
        doubts: what is doubtful about a reading, by point.
        system: the reader's units.
    """

    readings: Mapping[str, Measured | str]
    points: Mapping[str, MeasuringPoint]
    results: Sequence[CheckResult] = ()
    asked: Collection[str] = ()
    not_had: Collection[str] = ()
    doubts: Mapping[str, Sequence[str]] = field(default_factory=dict)
    system: System = System.US


def sides(sheet: DataSheet) -> tuple[tuple[str, str], ...]:
    """Return (id, title) of every side of the plant that can be shown."""
    compressors = range(1, min(len(sheet.compressors), MOST_NUMBERED) + 1)
    pump = [] if sheet.water.pump is None else [("motor_pump", say("Pump's motor"))]
    fans = [("motor_fans", say("Fans' motors"))] if sheet.fans else []
    return (
        ("water", say("Water")),
        *((f"circuit_{c}", say("Circuit {upper}", upper=c.upper())) for c in circuits_of(sheet)),
        ("supply", say("Supply")),
        *((f"motor_{n}", say("Compressor {n}'s motor", n=n)) for n in compressors),
        *pump,
        *fans,
    )


def layout(sheet: DataSheet, side: str) -> Layout:
    """Return one side of the plant.

    Raises:
        KeyError: when the unit has no such side.
    """
    if side not in dict(sides(sheet)):
        raise KeyError(f"no side '{side}' of {sheet.id}")
    if side == "water":
        return water_layout(sheet)
    if side == "supply":
        return supply_layout()
    if side == "motor_fans":
        return fans_layout(sheet)
    what, _, which = side.partition("_")
    if what == "circuit":
        return circuit_layout(sheet, which)
    return motor_layout(sheet, None if which == "pump" else int(which))


def points_on(sheet: DataSheet, side: str | None = None) -> tuple[str, ...]:
    """Return the measuring points of one side of the plant, or of all sides, each once and in their order.

    Raises:
        KeyError: when the unit has no such side.
    """
    wanted = [id for id, _ in sides(sheet)] if side is None else [side]
    return tuple(dict.fromkeys(placed.point for one in wanted for placed in layout(sheet, one).points))


def side_of(sheet: DataSheet, point: str) -> str | None:
    """Return the first side on which a measuring point sits; None for what this unit has not."""
    for side, _ in sides(sheet):
        if point in points_on(sheet, side):
            return side
    return None


def plant_picture(sheet: DataSheet, side: str, seen: Seen) -> Picture:
    """Return one side of the plant with what was read.

    Raises:
        KeyError: when the unit has no such side.
    """
    laid = layout(sheet, side)
    drawn: list[Shape] = list(laid.shapes)
    spots = []
    for placed in laid.points:
        spot, shapes = _spot(placed, seen)
        spots.append(spot)
        drawn += shapes
    read = sum(spot.value != "" for spot in spots)
    off = [spot.title for spot in spots if spot.mark is Mark.OFF]
    asked = [spot.title for spot in spots if spot.asked]
    short = say("{read} of {len} points read.", read=read, len=len(spots))
    short += say(" Asked for now: {join}.", join="; ".join(asked)) if asked else ""
    short += say(" Not as expected: {join}.", join="; ".join(off)) if off else ""
    words = f"{laid.words} {short}"
    return cropped(Picture(laid.title, words, WIDTH, HEIGHT, tuple(drawn), tuple(spots), short))


def _spot(placed: Placed, seen: Seen) -> tuple[Spot, list[Shape]]:
    point = seen.points[placed.point]
    asked = placed.point in seen.asked
    value, told, mark = _stand(point, seen)
    shapes = _mark(placed.at, mark)
    if asked:
        shapes = [Disc(placed.at, RADIUS + 7.0, Role.FOCUS, 4.0, Role.PAPER), *shapes]
    texts = [placed.label] if placed.brief or not value else [placed.label, value]
    words = _beside(placed, texts, asked=asked, off=mark is Mark.OFF)
    left, top, right, bottom = bounds([*shapes, *words])
    spot = Spot(
        placed.point, point.title, placed.at, mark, asked, placed.label, value, told, (left, top, right, bottom)
    )
    # Paper under the words keeps pipes from running through them.
    under: list[Shape] = []
    if not placed.brief:
        x0, y0, x1, y1 = bounds(words)
        corners = ((x0 - 2.0, y0 - 1.0), (x1 + 2.0, y0 - 1.0), (x1 + 2.0, y1 + 1.0), (x0 - 2.0, y1 + 1.0))
        under.append(Line(corners, None, closed=True, fill=Role.PAPER if value else None))
    return spot, [*under, *words, *shapes]


def _stand(point: MeasuringPoint, seen: Seen) -> tuple[str, tuple[str, ...], Mark]:
    """Return what was read at a point in words, what the checks say of it, and how it stands."""
    reading = seen.readings.get(point.id)
    if reading is None:
        return "", (), Mark.NOT_HAD if point.id in seen.not_had else Mark.UNREAD
    if isinstance(reading, str):
        value = next((one.title for one in point.choices if one.id == reading), reading)
    else:
        value = show(reading.value, point.kind, seen.system)
    results = [one for one in seen.results if point.id in one.subjects]
    doubts = tuple(seen.doubts.get(point.id, ()))
    told = (*doubts, *(one.sentence(seen.system) for one in results))
    if doubts or any(one.verdict is not Verdict.AS_EXPECTED for one in results):
        return value, told, Mark.OFF
    return value, told, Mark.AS_EXPECTED if results else Mark.READ


def _mark(at: Point, mark: Mark) -> list[Shape]:
    x, y = at
    if mark is Mark.OFF:
        corners = ((x, y - RADIUS - 2.0), (x + RADIUS + 2.0, y + RADIUS), (x - RADIUS - 2.0, y + RADIUS))
        return [
            Line(corners, Role.WRONG, 2.0, closed=True, fill=Role.WRONG),
            Line(((x, y - 5.0), (x, y + 2.0)), Role.PAPER, 2.5),
            Disc((x, y + 6.0), 1.0, Role.PAPER, 1.0, Role.PAPER),
        ]
    if mark is Mark.AS_EXPECTED:
        return [
            Disc(at, RADIUS, Role.GOOD, 2.0, Role.GOOD),
            Line(((x - 4.5, y), (x - 1.0, y + 4.0), (x + 5.0, y - 4.0)), Role.PAPER, 2.5),
        ]
    if mark is Mark.READ:
        return [Disc(at, RADIUS, Role.STRONG, 2.0, Role.STRONG), Disc(at, 3.0, Role.PAPER, 1.0, Role.PAPER)]
    if mark is Mark.NOT_HAD:
        return [
            Disc(at, RADIUS, Role.FAINT, 2.0, Role.PAPER),
            Line(((x - 6.0, y + 6.0), (x + 6.0, y - 6.0)), Role.FAINT, 2.5),
        ]
    return [Disc(at, RADIUS, Role.INK, 2.0, Role.PAPER)]


def _beside(placed: Placed, texts: Sequence[str], *, asked: bool, off: bool) -> list[Shape]:
    """Return label and value: in one line to the left or right, below each other above or below."""
    x, y = placed.at
    role = Role.FOCUS if asked else Role.INK
    shown: list[Shape] = []
    reach = RADIUS + (11.0 if asked else _GAP)
    if placed.side in ("left", "right"):
        anchor, at = ("start", (x + reach, y)) if placed.side == "right" else ("end", (x - reach, y))
        shown.append(Words(at, "  ".join(texts), LETTERS, anchor, role, bold=asked or off))
        return shown
    step = LETTERS + 3.0
    first = (
        y - reach - LETTERS / 2.0 - step * (len(texts) - 1)
        if placed.side == "above"
        else y + reach + LETTERS / 2.0
    )
    for place, text in enumerate(texts):
        shown.append(
            Words((x, first + step * place), text, LETTERS, "middle", role, bold=asked or (off and place == 1))
        )
    return shown

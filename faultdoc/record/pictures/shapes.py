"""What pictures are made of."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import cos, pi, sin

from faultdoc.words import say

__all__ = [
    "Disc",
    "Line",
    "Mark",
    "Picture",
    "Point",
    "Role",
    "Shape",
    "Spot",
    "Words",
    "arc",
    "bounds",
    "box",
    "cropped",
    "round_box",
    "width_of",
]

Point = tuple[float, float]
"""x to the right, y downwards, in the picture's own units (one is about a pixel at its natural size)."""


class Role(StrEnum):
    """What a line, an area or a text stands for; the painter chooses the colour."""

    INK = "ink"
    FAINT = "faint"
    PAPER = "paper"
    GROUND = "ground"
    LINE = "line"
    WATER = "water"
    HOT = "hot"
    COLD = "cold"
    ELECTRIC = "electric"
    STRONG = "strong"
    STRONG_PALE = "strong_pale"
    DOUBT_PALE = "doubt_pale"
    WRONG = "wrong"
    WRONG_PALE = "wrong_pale"
    GOOD = "good"
    GOOD_PALE = "good_pale"
    FOCUS = "focus"


@dataclass(frozen=True)
class Line:
    """A run of straight pieces; closed it may be filled.

    Attributes:
        points: at least two.
        role: of the stroke, None for none.
        width: of the stroke.
        dash: lengths of stroke and gap in turn; empty for a whole line.
        closed: whether the last point joins the first.
        fill: of a closed one, None for none.
        arrow: whether an arrow head sits at the end.
    """

    points: tuple[Point, ...]
    role: Role | None = Role.INK
    width: float = 1.5
    dash: tuple[float, ...] = ()
    closed: bool = False
    fill: Role | None = None
    arrow: bool = False


@dataclass(frozen=True)
class Disc:
    """A circle."""

    at: Point
    radius: float
    role: Role | None = Role.INK
    width: float = 1.5
    fill: Role | None = None
    dash: tuple[float, ...] = ()


@dataclass(frozen=True)
class Words:
    """One line of text; `at` is the middle of its height at the side that `anchor` names."""

    at: Point
    text: str
    size: float = 12.0
    anchor: str = "start"
    role: Role = Role.INK
    bold: bool = False
    upward: bool = False
    """Turned to read from below upwards."""


class Mark(StrEnum):
    """How a measuring point stands; each has a shape of its own."""

    UNREAD = "unread"
    READ = "read"
    AS_EXPECTED = say("as expected")
    OFF = "off"
    NOT_HAD = say("could not be measured")


@dataclass(frozen=True)
class Spot:
    """A measuring point in a picture.

    Attributes:
        point: its id.
        title: what it is called.
        at: where.
        mark: how it stands.
        asked: whether it is the one asked for now.
        label: short, beside it.
        value: what was read, in words; '' when nothing was.
        told: what the checks say of it, one sentence each.
        box: left, top, right, bottom of all that belongs to it, for pressing it.
    """

    point: str
    title: str
    at: Point
    mark: Mark
    asked: bool
    label: str
    value: str
    told: tuple[str, ...]
    box: tuple[float, float, float, float]

    @property
    def words(self) -> str:
        """All of it in words, for those who do not see it."""
        asked = say(" Asked for now.") if self.asked else ""
        value = f": {self.value}" if self.value else ""
        return f"{self.title}{value}. {self.mark.value.capitalize()}.{asked}" + "".join(
            f" {one}" for one in self.told
        )


Shape = Line | Disc | Words


@dataclass(frozen=True)
class Picture:
    """A picture.

    Attributes:
        title: over it.
        words: what it shows, in words, for those who do not see it and below it on paper.
        width, height: its natural size.
        shapes: back to front.
        spots: measuring points that can be pressed, in the order of reading.
        short: what is told below it on the screen, where the picture itself is seen; `words` if empty.
    """

    title: str
    words: str
    width: float
    height: float
    shapes: tuple[Shape, ...]
    spots: tuple[Spot, ...] = ()
    short: str = ""


def box(left: float, top: float, right: float, bottom: float, **look: object) -> Line:
    """Return a rectangle; `look` as for `Line`."""
    return Line(((left, top), (right, top), (right, bottom), (left, bottom)), closed=True, **look)  # type: ignore[arg-type]


def arc(centre: Point, radius: float, start: float, end: float, pieces: int = 24) -> tuple[Point, ...]:
    """Return points of an arc; angles in degrees clockwise from the right, as y goes down.

    >>> [(round(x), round(y)) for x, y in arc((0.0, 0.0), 10.0, 0.0, 90.0, 1)]
    [(10, 0), (0, 10)]
    """
    turns = [(start + (end - start) * step / pieces) * pi / 180.0 for step in range(pieces + 1)]
    return tuple((centre[0] + radius * cos(turn), centre[1] + radius * sin(turn)) for turn in turns)


def round_box(left: float, top: float, right: float, bottom: float, radius: float, **look: object) -> Line:
    """Return a rectangle with round corners; `look` as for `Line`."""
    points = (
        *arc((left + radius, top + radius), radius, 180.0, 270.0, 6),
        *arc((right - radius, top + radius), radius, 270.0, 360.0, 6),
        *arc((right - radius, bottom - radius), radius, 0.0, 90.0, 6),
        *arc((left + radius, bottom - radius), radius, 90.0, 180.0, 6),
    )
    return Line(points, closed=True, **look)  # type: ignore[arg-type]


_BOLDER = 1.12
_NARROW, _WIDE = frozenset("iljtf.,:;'|! ()[]"), frozenset("mwMW%@")


def width_of(text: str, size: float) -> float:
    """Return about how wide a line of text is in a plain sans-serif face, for leaving it room.

    >>> width_of("", 12.0), width_of("iii", 12.0) < width_of("mmm", 12.0)
    (0.0, True)
    """
    wide = sum(0.3 if one in _NARROW else 0.9 if one in _WIDE else 0.68 if one.isupper() else 0.56 for one in text)
    return wide * size


def bounds(shapes: Iterable[Shape]) -> tuple[float, float, float, float]:
    """Return left, top, right and bottom of shapes, texts as wide as `width_of` takes them."""
    xs: list[float] = []
    ys: list[float] = []
    for shape in shapes:
        for x, y in _corners(shape):
            xs.append(x)
            ys.append(y)
    return min(xs), min(ys), max(xs), max(ys)


def _corners(shape: Shape) -> Sequence[Point]:
    if isinstance(shape, Line):
        return shape.points
    x, y = shape.at
    if isinstance(shape, Disc):
        return (x - shape.radius, y - shape.radius), (x + shape.radius, y + shape.radius)
    wide, high = width_of(shape.text, shape.size) * (_BOLDER if shape.bold else 1.0), shape.size
    before = {"start": 0.0, "middle": wide / 2.0, "end": wide}[shape.anchor]
    if shape.upward:
        return (x - high / 2.0, y + before), (x + high / 2.0, y + before - wide)
    return (x - before, y - high / 2.0), (x - before + wide, y + high / 2.0)


def cropped(picture: Picture, margin: float = 14.0) -> Picture:
    """Return a picture without the empty space around what is drawn."""
    left, top, right, bottom = bounds(picture.shapes)
    by = (margin - left, margin - top)

    def moved(point: Point) -> Point:
        return point[0] + by[0], point[1] + by[1]

    shapes = tuple(
        replace(one, points=tuple(map(moved, one.points)))
        if isinstance(one, Line)
        else replace(one, at=moved(one.at))
        for one in picture.shapes
    )
    spots = tuple(
        replace(one, at=moved(one.at), box=(*moved(one.box[:2]), *moved(one.box[2:]))) for one in picture.spots
    )
    width, height = right - left + 2.0 * margin, bottom - top + 2.0 * margin
    return replace(picture, width=width, height=height, shapes=shapes, spots=spots)

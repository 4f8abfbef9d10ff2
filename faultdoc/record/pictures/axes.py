"""A frame with two scales, in the reader's units, in which curves and points are drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor, isfinite, log10

from faultdoc.quantities import Kind, System, display_unit, to_display
from faultdoc.record.pictures.shapes import Line, Point, Role, Shape, Words, box, width_of

__all__ = ["Frame", "Scale", "scale", "ticks"]

SIZE = 12.0
"""Of the letters on the scales."""


@dataclass(frozen=True)
class Scale:
    """One scale, from `least` to `most` in SI, shown in the reader's units.

    Attributes:
        title: what it is.
        least, most: SI.
        kind, system: how it is shown.
        logarithmic: whether equal ratios are equally long.
    """

    title: str
    least: float
    most: float
    kind: Kind
    system: System
    logarithmic: bool = False

    def shown(self, value: float) -> float:
        """Return an SI value in the units shown."""
        return to_display(value, self.kind, self.system)

    def share(self, value: float) -> float:
        """Return where an SI value stands: 0 at `least`, 1 at `most`."""
        low, high, here = self.shown(self.least), self.shown(self.most), self.shown(value)
        if self.logarithmic:
            low, high, here = log10(low), log10(high), log10(here)
        return (here - low) / (high - low)

    @property
    def label(self) -> str:
        """Title and unit."""
        unit = display_unit(self.kind, self.system)
        return f"{self.title}, {unit}" if unit else self.title


def scale(
    title: str,
    values: Sequence[float],
    kind: Kind,
    system: System,
    *,
    logarithmic: bool = False,
    from_zero: bool = False,
) -> Scale:
    """Return a scale that holds all values (SI) with some room at both ends.

    Raises:
        ValueError: without a finite value.
    """
    finite = [value for value in values if isfinite(value)]
    if not finite:
        raise ValueError(f"nothing to draw on the scale of {title}")
    least, most = min(finite), max(finite)
    if logarithmic:
        return Scale(title, least / 1.25, most * 1.25, kind, system, True)
    room = 0.08 * (most - least) or max(abs(most), 1.0) * 0.1
    return Scale(title, 0.0 if from_zero and least >= 0.0 else least - room, most + room, kind, system)


def ticks(least: float, most: float, wanted: int = 6, *, logarithmic: bool = False) -> tuple[float, ...]:
    """Return round numbers between two values: steps of 1, 2 or 5 times a power of ten.

    >>> ticks(0.0, 23.0, 5)
    (0.0, 5.0, 10.0, 15.0, 20.0)
    >>> ticks(30.0, 700.0, logarithmic=True)
    (50.0, 100.0, 200.0, 500.0)
    """
    if logarithmic:
        powers = range(floor(log10(least)), ceil(log10(most)) + 1)
        many = log10(most / least) < 1.0
        found = [
            times * 10.0**power for power in powers for times in ((1, 1.5, 2, 3, 5, 7) if many else (1, 2, 5))
        ]
        return tuple(one for one in found if least <= one <= most)
    rough = (most - least) / wanted
    power = 10.0 ** floor(log10(rough))
    step = next(times * power for times in (1.0, 2.0, 5.0, 10.0) if times * power >= rough * 0.8)
    first = ceil(least / step - 1e-9)
    return tuple(round(n * step, 12) + 0.0 for n in range(first, floor(most / step + 1e-9) + 1))


@dataclass(frozen=True)
class Frame:
    """A frame in a picture, with a scale along the bottom and one up the left side."""

    left: float
    top: float
    right: float
    bottom: float
    across: Scale
    up: Scale

    def at(self, x: float, y: float) -> Point:
        """Return where a pair of SI values lies in the picture."""
        return (
            self.left + (self.right - self.left) * self.across.share(x),
            self.bottom - (self.bottom - self.top) * self.up.share(y),
        )

    def has(self, point: Point) -> bool:
        """Return whether a place of the picture lies in the frame."""
        return self.left <= point[0] <= self.right and self.top <= point[1] <= self.bottom

    def curve(
        self, pairs: Sequence[Point], role: Role, width: float = 2.0, dash: tuple[float, ...] = ()
    ) -> list[Line]:
        """Return a curve through pairs of SI values; what leaves the frame is cut off at its edge."""
        lines: list[Line] = []
        run: list[Point] = []
        placed = [self.at(x, y) for x, y in pairs]
        for start, end in pairwise(placed):
            piece = _inside(start, end, (self.left, self.top, self.right, self.bottom))
            if piece is None:
                continue
            if run and run[-1] != piece[0]:
                lines.append(Line(tuple(run), role, width, dash))
                run = []
            run = run or [piece[0]]
            run.append(piece[1])
        if len(run) > 1:
            lines.append(Line(tuple(run), role, width, dash))
        return lines

    def shapes(self) -> list[Shape]:
        """Return frame, grid, numbers and titles."""
        drawn: list[Shape] = [
            box(self.left, self.top, self.right, self.bottom, role=Role.LINE, width=1.0, fill=Role.PAPER)
        ]
        for value, place in self._places(self.across):
            x = self.left + (self.right - self.left) * place
            drawn.append(Line(((x, self.top), (x, self.bottom)), Role.GROUND, 1.0))
            drawn.append(Words((x, self.bottom + 12.0), value, SIZE, "middle"))
        for value, place in self._places(self.up):
            y = self.bottom - (self.bottom - self.top) * place
            drawn.append(Line(((self.left, y), (self.right, y)), Role.GROUND, 1.0))
            drawn.append(Words((self.left - 7.0, y), value, SIZE, "end"))
        widest = max((width_of(value, SIZE) for value, _ in self._places(self.up)), default=0.0)
        drawn.append(
            Words(((self.left + self.right) / 2.0, self.bottom + 31.0), self.across.label, SIZE + 1.0, "middle")
        )
        drawn.append(
            Words(
                (self.left - 7.0 - widest - 14.0, (self.top + self.bottom) / 2.0),
                self.up.label, SIZE + 1.0, "middle", upward=True,
            )
        )  # fmt: skip
        return drawn

    @staticmethod
    def _places(one: Scale) -> list[tuple[str, float]]:
        low, high = one.shown(one.least), one.shown(one.most)
        span = (log10(high) - log10(low)) if one.logarithmic else high - low
        found = []
        for value in ticks(low, high, logarithmic=one.logarithmic):
            place = ((log10(value) - log10(low)) if one.logarithmic else value - low) / span
            found.append((f"{value:g}", place))
        return found


def _inside(start: Point, end: Point, edges: tuple[float, float, float, float]) -> tuple[Point, Point] | None:
    """Return the part of a straight piece inside a rectangle, by Liang and Barsky's clipping; None for none."""
    (x0, y0), (x1, y1) = start, end
    left, top, right, bottom = edges
    first, last = 0.0, 1.0
    for move, room in ((x0 - x1, x0 - left), (x1 - x0, right - x0), (y0 - y1, y0 - top), (y1 - y0, bottom - y0)):
        if move == 0.0:
            if room < 0.0:
                return None
            continue
        share = room / move
        if move < 0.0:
            first = max(first, share)
        else:
            last = min(last, share)
    if first > last:
        return None
    # Ends that lie inside stay what they are to the last digit, so that pieces join.
    return (
        start if first == 0.0 else (x0 + first * (x1 - x0), y0 + first * (y1 - y0)),
        end if last == 1.0 else (x0 + last * (x1 - x0), y0 + last * (y1 - y0)),
    )

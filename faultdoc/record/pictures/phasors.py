"""Three-phase voltages and currents as arrows, with their unbalance.

The three voltages between lines close to a triangle, so their magnitudes alone fix its shape. Of currents a
clamp shows the magnitude only: they are drawn a third of a turn apart, which is said.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import cos, hypot, pi, sin, sqrt

from faultdoc.model.base import Measured
from faultdoc.model.unit import DataSheet
from faultdoc.physics.electrical import current_unbalance, derating, voltage_unbalance
from faultdoc.quantities import Kind, System, show
from faultdoc.record.pictures.shapes import Disc, Line, Picture, Point, Role, Shape, Words
from faultdoc.words import say

__all__ = ["current_sets", "phasor_picture", "triangle"]

WIDTH, HEIGHT = 760.0, 440.0
_PAIRS = ("l1_l2", "l2_l3", "l3_l1")
_LINES = ("l1", "l2", "l3")
_DASHES: tuple[tuple[float, ...], ...] = ((), (9.0, 5.0), (2.5, 4.0))
"""L1, L2 and L3 told apart without colours."""


def triangle(l1_l2: float, l2_l3: float, l3_l1: float) -> tuple[Point, Point, Point]:
    """Return corners L1, L2, L3 of the triangle with these sides, its middle at the origin, L1 upwards.

    Raises:
        ValueError: when one voltage is more than the other two together: no such three lines exist.

    >>> [(round(x), round(y)) for x, y in triangle(3.0, 3.0, 3.0)]
    [(0, -2), (2, 1), (-2, 1)]
    """
    a, b, c = l1_l2, l2_l3, l3_l1
    if min(a, b, c) <= 0.0 or 2.0 * max(a, b, c) > (a + b + c) * (1.0 + 1e-9):
        raise ValueError("these three voltages do not close to a triangle; one of them is misread")
    # L2 to the right of L3 along a line, L1 above it.
    x = (c * c - a * a + b * b) / (2.0 * b)
    y = sqrt(max(c * c - x * x, 0.0))
    corners = ((x, -y), (b, 0.0), (0.0, 0.0))
    mx, my = sum(p[0] for p in corners) / 3.0, sum(p[1] for p in corners) / 3.0
    first, second, third = ((p[0] - mx, p[1] - my) for p in corners)
    return first, second, third


def current_sets(sheet: DataSheet) -> tuple[tuple[str, str], ...]:
    """Return (title, prefix of the points) of every motor whose three currents can be read."""
    found = [] if sheet.water.pump is None else [(say("Pump"), "pump_current")]
    found += [
        (say("Compressor {n}", n=n), f"compressor_current_{n}") for n in range(1, len(sheet.compressors) + 1)
    ]
    fans = min(sum(fan.count for fan in sheet.fans), 8)
    found += [(say("Fan {n}", n=n), f"fan_current_{n}") for n in range(1, fans + 1)]
    return tuple(found)


def phasor_picture(
    sheet: DataSheet, readings: Mapping[str, Measured], system: System, motor: str | None = None
) -> Picture | None:
    """Return voltages between lines and one motor's currents as arrows; None when neither set is read in full.

    Args:
        sheet: the unit's, for the nameplate voltage.
        readings: numbers, by point.
        system: the reader's units.
        motor: prefix of the current points, see `current_sets`; the first that is read in full if left out.
    """
    volts = _three("voltage", _PAIRS, readings)
    sets = [(title, prefix, _three(prefix, _LINES, readings)) for title, prefix in current_sets(sheet)]
    chosen = next((one for one in sets if one[2] and motor in (None, one[1])), None)
    if volts is None and chosen is None:
        return None
    drawn: list[Shape] = [Words((16.0, 18.0), say("Three phases"), 15.0, bold=True)]
    said = []
    if volts is not None:
        shapes, words = _voltages(volts, sheet.electrical.voltage, system)
        drawn += shapes
        said.append(words)
    else:
        drawn.append(Words((190.0, 220.0), say("Voltages: not all three are read"), 13.0, "middle", Role.FAINT))
    if chosen is not None and chosen[2] is not None:
        shapes, words = _currents(chosen[0], chosen[2], system)
        drawn += shapes
        said.append(words)
    else:
        drawn.append(
            Words((560.0, 220.0), say("Currents: no motor has all three read"), 13.0, "middle", Role.FAINT)
        )
    return Picture(say("Three phases"), " ".join(said), WIDTH, HEIGHT, tuple(drawn))


def _three(
    prefix: str, ends: Sequence[str], readings: Mapping[str, Measured]
) -> tuple[float, float, float] | None:
    names = [f"{prefix}_{end}" for end in ends]
    if any(name not in readings for name in names):
        return None
    first, second, third = (readings[name].value for name in names)
    return first, second, third


def _voltages(volts: tuple[float, float, float], nameplate: float, system: System) -> tuple[list[Shape], str]:
    centre, size = (190.0, 225.0), 125.0
    named = ", ".join(
        f"{pair.upper().replace('_', '-')} {show(value, Kind.VOLTAGE, system)}"
        for pair, value in zip(_PAIRS, volts, strict=True)
    )
    drawn: list[Shape] = [Words((centre[0], 48.0), say("Voltage between lines"), 14.0, "middle", bold=True)]
    try:
        corners = triangle(*volts)
    except ValueError as problem:
        drawn += [
            Words((centre[0], centre[1] + 20.0 * place), words, 13.0, "middle", Role.WRONG, bold=True)
            for place, words in enumerate(
                (say("These do not close to a triangle:"), say("one of them is misread"))
            )
        ]
        return drawn, say("Voltages between lines: {named}; {problem}.", named=named, problem=problem)
    longest = max(hypot(*corner) for corner in (*corners, *triangle(nameplate, nameplate, nameplate)))
    times = size / longest

    def place(point: Point) -> Point:
        return centre[0] + point[0] * times, centre[1] + point[1] * times

    even = tuple(place(point) for point in triangle(nameplate, nameplate, nameplate))
    drawn.append(Line(even, Role.FAINT, 1.5, (5.0, 5.0), closed=True))
    placed = [place(point) for point in corners]
    drawn.append(Line(tuple(placed), Role.ELECTRIC, 2.5, closed=True))
    for name, at, dash in zip(_LINES, placed, _DASHES, strict=True):
        drawn.append(Line((centre, at), Role.STRONG, 2.5, dash, arrow=True))
        out = hypot(at[0] - centre[0], at[1] - centre[1])
        drawn.append(
            Words(
                (at[0] + (at[0] - centre[0]) / out * 18.0, at[1] + (at[1] - centre[1]) / out * 14.0),
                name.upper(), 14.0, "middle", bold=True,
            )
        )  # fmt: skip
    for (here, there), value in zip(((0, 1), (1, 2), (2, 0)), volts, strict=True):
        mx, my = (placed[here][0] + placed[there][0]) / 2.0, (placed[here][1] + placed[there][1]) / 2.0
        out = hypot(mx - centre[0], my - centre[1]) or 1.0
        at = (mx + (mx - centre[0]) / out * 34.0, my + (my - centre[1]) / out * 18.0)
        drawn.append(Words(at, show(value, Kind.VOLTAGE, system), 13.0, "middle"))
    share = voltage_unbalance(*volts)
    drawn.append(_sum_line(centre[0], share))
    drawn.append(Line(((centre[0] - 120.0, 402.0), (centre[0] - 88.0, 402.0)), Role.FAINT, 1.5, (5.0, 5.0)))
    drawn.append(
        Words(
            (centre[0] - 80.0, 402.0), say("nameplate, {show}", show=show(nameplate, Kind.VOLTAGE, system)), 12.0
        )
    )
    said = say("Voltages between lines: {named}; unbalance {percent} ", named=named, percent=_percent(share))
    said += say("(largest deviation over the mean, NEMA MG 1).")
    if 0.01 < share <= 0.05:
        said += say(" A motor may then carry {what:.0f} % of its rated power.", what=100.0 * derating(share))
    elif share > 0.05:
        said += say(" Above 5 % no motor may run on it (NEMA MG 1, 14.36).")
    return drawn, said


def _currents(title: str, amps: tuple[float, float, float], system: System) -> tuple[list[Shape], str]:
    centre, size = (560.0, 225.0), 110.0
    mean, most = sum(amps) / 3.0, max(amps)
    drawn: list[Shape] = [
        Words((centre[0], 48.0), say("{title}: current", title=title), 14.0, "middle", bold=True)
    ]
    named = ", ".join(
        f"{line.upper()} {show(value, Kind.CURRENT, system)}" for line, value in zip(_LINES, amps, strict=True)
    )
    if most <= 0.0:
        return drawn, say("{title}: no current in any line.", title=title)
    drawn.append(Disc(centre, size * mean / most, Role.FAINT, 1.5, dash=(5.0, 5.0)))
    for place, (line, value, dash) in enumerate(zip(_LINES, amps, _DASHES, strict=True)):
        turn = -pi / 2.0 + place * 2.0 * pi / 3.0
        reach = size * max(value, 0.0) / most
        end = (centre[0] + reach * cos(turn), centre[1] + reach * sin(turn))
        if reach > 4.0:
            drawn.append(Line((centre, end), Role.STRONG, 3.0, dash, arrow=True))
        at = (centre[0] + (size + 34.0) * cos(turn), centre[1] + (size + 20.0) * sin(turn))
        drawn.append(Words(at, f"{line.upper()}  {show(value, Kind.CURRENT, system)}", 13.0, "middle", bold=True))
    share = current_unbalance(*amps)
    drawn.append(_sum_line(centre[0], share))
    drawn.append(Line(((centre[0] - 120.0, 402.0), (centre[0] - 88.0, 402.0)), Role.FAINT, 1.5, (5.0, 5.0)))
    drawn.append(Words((centre[0] - 80.0, 402.0), say("mean; a clamp shows no angles"), 12.0))
    return drawn, say(
        "{title}, currents: {named}; unbalance {percent}.", title=title, named=named, percent=_percent(share)
    )


def _sum_line(x: float, share: float) -> Words:
    return Words((x, 374.0), say("Unbalance {percent}", percent=_percent(share)), 15.0, "middle", bold=True)


def _percent(share: float) -> str:
    return f"{100.0 * share:.1f} %"

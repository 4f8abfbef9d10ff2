"""Charts of a report, drawn as SVG text: belief over the steps, and the likely causes as bars.

Pure: the same numbers give the same bytes. No meaning rests on a colour: every line has its own
dashes and marker, and a letter at its end that stands again in the key, so a chart can be read on a
grey copy of a copy.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from math import ceil
from textwrap import shorten

from faultdoc.words import say

__all__ = ["LETTERS", "MOST_LINES", "bars_svg", "belief_svg"]

LETTERS = "ABCDEF"
"""Name a chart's lines, and the columns of the table that holds its numbers."""
MOST_LINES = len(LETTERS)

WIDTH = 660
"""Pixels, of 96 to the inch: as wide as the text on A4 and on Letter paper."""
_INK, _FAINT = "#14202b", "#9aa5b1"
_INKS = ("#14202b", "#134b6b", "#5a2a6b", "#6b4a12", "#1c5e34", "#8c0c14")
_DASHES = ("", "9 4", "2 3", "9 3 2 3", "14 4", "5 5")
_LEFT, _RIGHT, _TOP, _PLOT, _FOOT, _LINE = 46, 34, 10, 190, 40, 18
_APART = 13.0
"""Pixels between two letters at the end of their lines."""
_TICK = 26
"""Least pixels between two numbers below."""
_BAR_LEFT, _BAR_FULL, _BAR_LINE = 84, 200, 22


def belief_svg(names: Sequence[str], rows: Sequence[Sequence[float]], tried: Sequence[int] = ()) -> str:
    """Return the probability of each cause after each step as a chart of lines.

    Args:
        names: of the causes, one a line; at most `MOST_LINES`.
        rows: probabilities, 0 to 1: at the start and after each step, one for each name.
        tried: the steps at which a remedy was proved or failed; marked along the foot.

    Raises:
        ValueError: when there are no rows, a row has not one number a name, or a number is no probability.

    >>> belief_svg(["Pump"], [[0.2], [0.9]]).startswith("<svg ")
    True
    """
    if not rows or not 0 < len(names) <= MOST_LINES:
        raise ValueError(f"a chart of belief has 1 to {MOST_LINES} causes and the start at least")
    if any(len(row) != len(names) or not all(0.0 <= one <= 1.0 for one in row) for row in rows):
        raise ValueError("every row of a chart of belief has one probability, 0 to 1, for each cause")
    height = _TOP + _PLOT + _FOOT + _LINE * len(names) + 6
    parts = [*_frame(len(rows) - 1, tried)]
    spots = _apart([_y(row) for row in rows[-1]])
    for place, name in enumerate(names):
        points = [(_x(step, len(rows) - 1), _y(row[place])) for step, row in enumerate(rows)]
        parts += _curve(place, points)
        letter = LETTERS[place]
        parts.append(_text(WIDTH - _RIGHT + 12, spots[place] + 4, letter, bold=True))
        y = _TOP + _PLOT + _FOOT + _LINE * (place + 0.5)
        parts += _curve(place, [(_LEFT, y), (_LEFT + 24, y), (_LEFT + 48, y)])
        parts.append(_text(_LEFT + 60, y + 4, letter, bold=True))
        parts.append(_text(_LEFT + 78, y + 4, shorten(name, 84, placeholder="...")))
    return _document(height, say("Belief over the steps"), parts)


def bars_svg(rows: Sequence[tuple[str, str, float]]) -> str:
    """Return causes with a bar each as long as they are likely.

    Args:
        rows: (name, chance in words, probability from 0 to 1), in the order shown.

    Raises:
        ValueError: when there are none.
    """
    if not rows:
        raise ValueError("a chart of bars has one cause at least")
    parts = []
    for place, (name, words, probability) in enumerate(rows):
        top = place * _BAR_LINE + 3
        right = _BAR_LEFT - 8
        parts.append(_text(right, top + 13, words, anchor="end"))
        parts.append(
            f'<rect x="{_BAR_LEFT}" y="{top}" width="{_BAR_FULL}" height="16" fill="#ffffff" stroke="{_INK}"/>'
        )
        filled = max(probability * _BAR_FULL, 1.0)
        parts.append(
            f'<rect class="bar" x="{_BAR_LEFT}" y="{top}" width="{filled:.1f}" height="16" fill="{_INK}"/>'
        )
        parts.append(_text(_BAR_LEFT + _BAR_FULL + 10, top + 13, shorten(name, 58, placeholder="...")))
    return _document(len(rows) * _BAR_LINE + 2, say("Likely causes"), parts)


def _document(height: float, title: str, parts: Sequence[str]) -> str:
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{height:.0f}" '
            f'viewBox="0 0 {WIDTH} {height:.0f}" font-family="sans-serif" font-size="12">',
            f"<title>{escape(title)}</title>",
            *parts,
            "</svg>",
        ]
    )


def _x(step: int, last: int) -> float:
    wide = WIDTH - _LEFT - _RIGHT
    return _LEFT + (wide * step / last if last else wide / 2)


def _y(probability: float) -> float:
    return _TOP + _PLOT * (1.0 - probability)


def _text(x: float, y: float, words: str, anchor: str = "start", bold: bool = False) -> str:
    weight = ' font-weight="bold"' if bold else ""
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="{_INK}"{weight}>{escape(words)}</text>'


def _frame(last: int, tried: Sequence[int]) -> list[str]:
    right, foot = WIDTH - _RIGHT, _TOP + _PLOT
    parts = []
    for share in (0.0, 0.25, 0.5, 0.75, 1.0):
        y = _y(share)
        parts.append(f'<path d="M{_LEFT} {y:.1f} H{right}" stroke="{_FAINT}" stroke-width="0.7"/>')
        parts.append(_text(_LEFT - 6, y + 4, f"{100 * share:.0f} %", "end"))
    every = max(1, ceil(_TICK * last / (right - _LEFT)))
    for step in range(0, last + 1, every):
        x = _x(step, last)
        parts.append(f'<path d="M{x:.1f} {foot} v4" stroke="{_INK}"/>')
        parts.append(_text(x, foot + 17, str(step), "middle"))
    for step in tried:
        x = _x(step, last)
        parts.append(
            f'<path d="M{x:.1f} {_TOP} V{foot}" stroke="{_INK}" stroke-width="0.8" stroke-dasharray="1 2"/>'
        )
    words = say("Steps as numbered in the table; 0 is the symptom alone")
    if tried:
        words += say(". Dotted: a remedy and its proof")
    parts.append(_text(_LEFT, foot + 34, words))
    return parts


def _curve(place: int, points: Sequence[tuple[float, float]]) -> list[str]:
    ink, dashes = _INKS[place], _DASHES[place]
    path = " L".join(f"{x:.1f} {y:.1f}" for x, y in points)
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    line = f'<path class="line" d="M{path}" fill="none" stroke="{ink}" stroke-width="1.8"{dashed}/>'
    # On a long case not every step has room for a marker of its own.
    every = max(1, ceil(len(points) / 40))
    return [line, *(_marker(place, x, y, ink) for x, y in points[::every])]


def _marker(place: int, x: float, y: float, ink: str) -> str:
    """Return the sign of a line: filled circle, open square, filled triangle, open diamond, cross, open circle."""
    if place in (0, 5):
        fill = ink if place == 0 else "#ffffff"
        spot = f'cx="{x:.1f}" cy="{y:.1f}" r="3.6"'
        return f'<circle class="marker" {spot} fill="{fill}" stroke="{ink}" stroke-width="1.4"/>'
    shapes = {
        1: "m-3.5 -3.5 h7 v7 h-7 z",
        2: "m0 -5 l4.6 8 h-9.2 z",
        3: "m0 -5 l5 5 l-5 5 l-5 -5 z",
        4: "m-4 -4 l8 8 m0 -8 l-8 8",
    }
    fill = ink if place == 2 else "#ffffff"
    shape = f"M{x:.1f} {y:.1f} {shapes[place]}"
    return f'<path class="marker" d="{shape}" fill="{fill}" stroke="{ink}" stroke-width="1.4"/>'


def _apart(wanted: Sequence[float]) -> list[float]:
    """Return heights as near to those wanted as lets every letter stand clear of its neighbours."""
    order = sorted(range(len(wanted)), key=lambda place: (wanted[place], place))
    spots = list(wanted)
    # The lowest keeps its place on the foot; those that crowd it are moved up, one above the other.
    below = float(_TOP + _PLOT) + _APART
    for place in reversed(order):
        spots[place] = min(spots[place], below - _APART)
        below = spots[place]
    return spots

"""A picture as an SVG document, for paper."""

from __future__ import annotations

from html import escape
from math import atan2, cos, sin

from faultdoc.record.pictures.shapes import Disc, Picture, Point, Role, Shape, Words

__all__ = ["PRINT", "arrow_head", "picture_svg"]

PRINT: dict[Role, str] = {
    Role.INK: "#14202b",
    Role.FAINT: "#46566a",
    Role.PAPER: "#ffffff",
    Role.GROUND: "#eceff1",
    Role.LINE: "#8896a5",
    Role.WATER: "#1f6f9f",
    Role.HOT: "#9c3a1d",
    Role.COLD: "#2a5d8f",
    Role.ELECTRIC: "#5b3a7a",
    Role.STRONG: "#134b6b",
    Role.STRONG_PALE: "#dcebf3",
    Role.DOUBT_PALE: "#fff3cf",
    Role.WRONG: "#a3131b",
    Role.WRONG_PALE: "#fbe9ea",
    Role.GOOD: "#1c5e34",
    Role.GOOD_PALE: "#e3f3e8",
    Role.FOCUS: "#b3006b",
}
"""The colours on paper; strokes differ in weight and dash as well, so a copy in grey can be read."""

HEAD = 9.0
"""Length of an arrow head."""


def picture_svg(picture: Picture) -> str:
    """Return the picture as an SVG document with its title and words for screen readers.

    >>> from faultdoc.record.pictures.shapes import box
    >>> drawn = picture_svg(Picture("A <b>", "Words", 10.0, 5.0, (box(0.0, 0.0, 4.0, 4.0),)))
    >>> "A &lt;b&gt;" in drawn, drawn.count("<path")
    (True, 1)
    """
    width, height = _n(picture.width), _n(picture.height)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
        f'viewBox="0 0 {width} {height}" font-family="sans-serif" role="img">',
        f"<title>{escape(picture.title)}</title>",
        f"<desc>{escape(picture.words)}</desc>",
        f'<rect width="{width}" height="{height}" fill="{PRINT[Role.PAPER]}"/>',
    ]
    for shape in picture.shapes:
        parts += _drawn(shape)
    parts.append("</svg>")
    return "\n".join(parts)


def arrow_head(points: tuple[Point, ...], length: float = HEAD) -> tuple[Point, Point, Point]:
    """Return the corners of the arrow head at the end of a run of points."""
    (x0, y0), (x1, y1) = points[-2:]
    along = atan2(y1 - y0, x1 - x0)
    left, right = along + 2.7, along - 2.7
    return (
        (x1, y1),
        (x1 + length * cos(left), y1 + length * sin(left)),
        (x1 + length * cos(right), y1 + length * sin(right)),
    )


def _n(number: float) -> str:
    return f"{number:.1f}".removesuffix(".0")


def _colour(role: Role | None) -> str:
    return "none" if role is None else PRINT[role]


def _path(points: tuple[Point, ...], closed: bool) -> str:
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points) + ("Z" if closed else "")


def _drawn(shape: Shape) -> list[str]:
    if isinstance(shape, Words):
        turned = f' transform="rotate(-90 {_n(shape.at[0])} {_n(shape.at[1])})"' if shape.upward else ""
        bold = ' font-weight="bold"' if shape.bold else ""
        return [
            f'<text x="{_n(shape.at[0])}" y="{_n(shape.at[1] + shape.size * 0.35)}" font-size="{_n(shape.size)}" '
            f'text-anchor="{shape.anchor}" fill="{_colour(shape.role)}"{bold}{turned}>{escape(shape.text)}</text>'
        ]
    if shape.role is None and shape.fill is None:
        # Only there to be pressed. Qt's PDF would draw its outline in black.
        return []
    dash = f' stroke-dasharray="{" ".join(_n(one) for one in shape.dash)}"' if shape.dash else ""
    stroke = f'stroke="{_colour(shape.role)}" stroke-width="{_n(shape.width)}"{dash}'
    if isinstance(shape, Disc):
        x, y = shape.at
        return [
            f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(shape.radius)}" fill="{_colour(shape.fill)}" {stroke}/>'
        ]
    drawn = [f'<path d="{_path(shape.points, shape.closed)}" fill="{_colour(shape.fill)}" {stroke}/>']
    if shape.arrow:
        drawn.append(f'<path d="{_path(arrow_head(shape.points), True)}" fill="{_colour(shape.role)}"/>')
    return drawn

"""Plots of the fleet: bars with whiskers, stacked bars, a histogram. Told apart by pattern and word, not colour.

They stand still: nothing is dragged or zoomed, and everything in them is in a table too.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QColor, QFont

from faultdoc.app.colours import COLOURS
from faultdoc.app.style import points

__all__ = ["PATTERNS", "histogram", "shares", "stacked"]

PATTERNS = (
    Qt.BrushStyle.SolidPattern,
    Qt.BrushStyle.BDiagPattern,
    Qt.BrushStyle.Dense4Pattern,
    Qt.BrushStyle.CrossPattern,
    Qt.BrushStyle.VerPattern,
    Qt.BrushStyle.NoBrush,
)
"""One for each part of a stack."""
LONGEST = 30
"""Letters of a name on an axis before it is cut; the table has it whole."""


def _colour(name: str) -> QColor:
    return QColor(COLOURS[name])


def _plot(name: str) -> pg.PlotWidget:
    made = pg.PlotWidget(background=COLOURS["paper"])
    made.setAccessibleName(name)
    made.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    made.setMouseEnabled(x=False, y=False)
    made.hideButtons()
    made.setMenuEnabled(False)
    font = QFont()
    font.setPointSizeF(points(11.0))
    for side in ("left", "bottom"):
        axis = made.getAxis(side)
        axis.setPen(pg.mkPen(_colour("faint")))
        axis.setTextPen(pg.mkPen(_colour("ink")))
        axis.setStyle(tickFont=font)
    return made


def _words(text: str, at: tuple[float, float], anchor: tuple[float, float], bold: bool = False) -> pg.TextItem:
    item = pg.TextItem(text, color=_colour("ink"), anchor=anchor)
    font = QFont()
    font.setPointSizeF(points(11.0))
    font.setBold(bold)
    item.setFont(font)
    item.setPos(*at)
    return item


def _cut(name: str) -> str:
    return name if len(name) <= LONGEST else f"{name[: LONGEST - 1]}…"


def shares(name: str, rows: Sequence[tuple[str, float, float, float, str]]) -> pg.PlotWidget:
    """Return lying bars of shares with their intervals, the first row on top.

    Args:
        name: for screen readers.
        rows: (name, share, low, high, words), shares from 0 to 1.
    """
    made = _plot(name)
    places = [float(len(rows) - place) for place in range(len(rows))]
    values = [100.0 * row[1] for row in rows]
    made.addItem(
        pg.BarGraphItem(
            x0=0, y=places, height=0.5, width=values, brush=QBrush(_colour("strong")), pen=pg.mkPen(_colour("ink"))
        )
    )
    made.addItem(
        pg.ErrorBarItem(
            x=np.array(values),
            y=np.array(places),
            left=np.array([value - 100.0 * row[2] for value, row in zip(values, rows, strict=True)]),
            right=np.array([100.0 * row[3] - value for value, row in zip(values, rows, strict=True)]),
            beam=0.25,
            pen=pg.mkPen(_colour("focus"), width=3),
        )
    )
    for place, row in zip(places, rows, strict=True):
        made.addItem(_words(row[4], (102.0, place), (0.0, 0.5)))
    made.getAxis("left").setTicks([[(place, _cut(row[0])) for place, row in zip(places, rows, strict=True)]])
    made.getAxis("bottom").setTicks([[(float(at), f"{at} %") for at in range(0, 101, 20)]])
    made.setXRange(0, 130, padding=0)
    made.setYRange(0.4, len(rows) + 0.6, padding=0)
    return made


def stacked(name: str, months: Sequence[str], parts: Sequence[tuple[str, Sequence[int]]]) -> pg.PlotWidget:
    """Return a standing stack of bars a month, each part with a pattern of its own and its count in it.

    Args:
        name: for screen readers.
        months: from left to right.
        parts: (name, count by month), the first at the bottom; at most as many as `PATTERNS`.
    """
    made = _plot(name)
    legend = made.addLegend(offset=(-8, 4), labelTextColor=_colour("ink"), brush=QBrush(_colour("paper")))
    legend.setLabelTextSize(f"{points(11.0):g}pt")
    below = [0] * len(months)
    places = list(range(len(months)))
    for (part, counts), pattern in zip(parts, PATTERNS, strict=False):
        bars = pg.BarGraphItem(
            x=places, y0=list(below), height=list(counts), width=0.7, name=_cut(part),
            brush=QBrush(_colour("strong"), pattern), pen=pg.mkPen(_colour("ink"), width=1),
        )  # fmt: skip
        made.addItem(bars)
        below = [low + count for low, count in zip(below, counts, strict=True)]
    for place, total in zip(places, below, strict=True):
        if total:
            made.addItem(_words(str(total), (place, total), (0.5, 1.0), bold=True))
    step = max(1, -(-len(months) // 8))
    made.getAxis("bottom").setTicks([[(place, months[place]) for place in places[::step]]])
    most = max(below, default=0)
    made.setYRange(0, 1.15 * most + 0.5, padding=0)
    # Room at the right for the names of the parts.
    made.setXRange(-0.6, max(len(months) * 1.5, len(months) + 1.5), padding=0)
    return made


def histogram(name: str, bins: Sequence[str], counts: Sequence[int]) -> pg.PlotWidget:
    """Return bars of counts, each with its count above it.

    Args:
        name: for screen readers.
        bins: words of each.
        counts: of each.
    """
    made = _plot(name)
    places = list(range(len(bins)))
    made.addItem(
        pg.BarGraphItem(
            x=places, height=list(counts), width=0.8, brush=QBrush(_colour("strong")), pen=pg.mkPen(_colour("ink"))
        )
    )
    for place, count in zip(places, counts, strict=True):
        if count:
            made.addItem(_words(str(count), (place, count), (0.5, 1.0), bold=True))
    made.getAxis("bottom").setTicks([[(place, words.replace(" to ", "-")) for place, words in enumerate(bins)]])
    made.setYRange(0, 1.15 * max(counts, default=0) + 0.5, padding=0)
    made.setXRange(-0.6, len(bins) - 0.4, padding=0)
    return made

"""A logger's file: which column is which point, the curves, the moment of the trip, and the readings before it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pyqtgraph as pg
from numpy.typing import NDArray
from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QComboBox, QGridLayout, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from faultdoc.app.colours import COLOURS
from faultdoc.app.desk import Desk
from faultdoc.app.style import scaled
from faultdoc.app.widgets.basic import TARGET, button, buttons, label
from faultdoc.app.widgets.page import Page
from faultdoc.model.points import Point
from faultdoc.quantities import ACCEPTED, Kind, QuantityError, display_unit, to_display
from faultdoc.record.sheets.log import Log
from faultdoc.record.sheets.mapping import Column, before, guessed, recalled, remember, series, trip
from faultdoc.words import say

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["LogPanel"]

SPANS = (
    (30.0, say("30 s before")),
    (60.0, say("1 min before")),
    (300.0, say("5 min before")),
    (900.0, say("15 min before")),
)
MOST_DRAWN = 4000
"""Points of a curve that are drawn; more are thinned."""
_STYLES = (Qt.PenStyle.SolidLine, Qt.PenStyle.DashLine, Qt.PenStyle.DotLine, Qt.PenStyle.DashDotLine)


class LogPanel(QWidget):
    """Signals `taken` with texts by point, `left` when nothing is wanted from it."""

    taken = Signal(object)
    left = Signal()

    def __init__(self, log: Log, desk: Desk, points: Sequence[str]) -> None:
        super().__init__()
        self._log, self._desk = log, desk
        assert desk.shelf is not None
        self._vocabulary = desk.shelf.library.points
        self._offered = [self._vocabulary[id] for id in points if self._vocabulary[id].kind is not Kind.CHOICE]
        known = recalled(log)
        columns = known or guessed(log, self._vocabulary, desk.system)
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, 0, 0)
        self.choices: dict[str, tuple[QComboBox, QComboBox]] = {}
        across.addWidget(self._make_columns(columns, remembered=bool(known)), 2)
        right = QVBoxLayout()
        self.plot = pg.PlotWidget(background=COLOURS["paper"])
        self.plot.setAccessibleName(say("Curves of the log; each is drawn from its least to its most"))
        self.plot.showGrid(x=True, y=False, alpha=0.3)
        self.plot.hideAxis("left")
        ink = QColor(COLOURS["ink"])
        self.plot.getAxis("bottom").setPen(ink)
        self.plot.getAxis("bottom").setTextPen(ink)
        self.plot.setLabel(
            "bottom", say("minutes since the log began") if log.timed else "rows", color=COLOURS["ink"]
        )
        self.plot.addLegend(labelTextColor=ink, offset=(10, 10))
        self.line = pg.InfiniteLine(
            angle=90, movable=True, pen=pg.mkPen(COLOURS["focus"], width=4), label="trip",
            labelOpts={"color": COLOURS["focus"], "position": 0.95},
        )  # fmt: skip
        self.line.sigPositionChanged.connect(self._tell)
        right.addWidget(self.plot, 1)
        self.span = QComboBox()
        self.span.setMinimumHeight(TARGET)
        self.span.setAccessibleName(say("Which time counts"))
        for seconds, words in SPANS:
            self.span.addItem(words, seconds)
        self.span.setCurrentIndex(1)
        self.span.currentIndexChanged.connect(self._tell)
        self.earlier = button(say("Trip earlier"), lambda: self._move(-1))
        self.later = button(say("Trip later"), lambda: self._move(1))
        right.addWidget(buttons(self.earlier, self.later, self.span, spacing=8))
        self.told = label("", "faint")
        right.addWidget(self.told)
        self.use = button(say("Use these readings"), self._use, "main")
        self.leave = button(say("Leave the file"), self.left.emit)
        right.addWidget(buttons(self.use, self.leave, spacing=8))
        across.addLayout(right, 3)
        self._values: dict[str, NDArray[np.float64]] = {}
        self._row = 0
        self._draw(find=True)

    def _make_columns(self, columns: dict[str, Column], *, remembered: bool) -> Page:
        page = Page()
        page.margins = (6, 6, 6, 6)
        words = say("As remembered for this logger.") if remembered else say("Say what each column is.")
        page.body.addWidget(
            label(
                say("{name}: {len:,} rows. {words}", name=self._log.name, len=len(self._log.times), words=words),
                "faint",
            )
        )
        grid = QGridLayout()
        grid.setColumnStretch(0, 1)
        for place, name in enumerate(self._log.columns):
            which, unit = QComboBox(), QComboBox()
            for made, called in ((which, "point"), (unit, "unit")):
                made.setMinimumHeight(TARGET)
                made.setAccessibleName(f"{name}: {called}")
            which.setMinimumWidth(scaled(120))
            which.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            which.addItem(say("not wanted"), None)
            for point in self._offered:
                which.addItem(point.title, point.id)
            title = QLabel(name)
            title.setWordWrap(True)
            grid.addWidget(title, 2 * place, 0, 1, 2)
            grid.addWidget(which, 2 * place + 1, 0)
            grid.addWidget(unit, 2 * place + 1, 1)
            self.choices[name] = (which, unit)
            column = columns.get(name)
            if column is not None:
                which.setCurrentIndex(max(which.findData(column.point), 0))
            self._offer_units(name, column.unit.strip() if column else None)
            which.currentIndexChanged.connect(lambda _, name=name: self._offer_units(name, None))
            which.currentIndexChanged.connect(lambda _: self._draw(find=False))
            unit.currentIndexChanged.connect(lambda _: self._draw(find=False))
        page.body.addLayout(grid)
        return page

    def _point(self, name: str) -> Point | None:
        id = self.choices[name][0].currentData()
        return None if id is None else self._vocabulary[id]

    def _offer_units(self, name: str, chosen: str | None) -> None:
        unit, point = self.choices[name][1], self._point(name)
        unit.blockSignals(True)
        unit.clear()
        if point is not None:
            mine = display_unit(point.kind, self._desk.system)
            for words in dict.fromkeys([chosen or mine, mine, *ACCEPTED[point.kind]]):
                if not words.startswith(("1 ", "2'")):
                    unit.addItem(words or "number", words)
        unit.setEnabled(point is not None)
        unit.blockSignals(False)

    @property
    def columns(self) -> dict[str, Column]:
        """The columns that are wanted."""
        found = {}
        for name, (_, unit) in self.choices.items():
            point = self._point(name)
            if point is not None:
                found[name] = Column(point=point.id, unit=unit.currentData() or " ")
        return found

    @property
    def row(self) -> int:
        """The first row that does not count."""
        return self._row

    def _at(self) -> list[float]:
        return [float(one) / (60.0 if self._log.timed else 1.0) for one in self._log.times]

    def _draw(self, *, find: bool) -> None:
        self.plot.clear()
        try:
            self._values = dict(series(self._log, self.columns, self._vocabulary))
        except QuantityError as problem:
            self._values = {}
            self.told.setText(str(problem))
            return
        if find and self._values:
            self._row = trip(self._values)
        at = self._at()
        thin = max(1, len(at) // MOST_DRAWN)
        for place, (id, column) in enumerate(self._values.items()):
            point = self._vocabulary[id]
            shown = [to_display(float(one), point.kind, self._desk.system) for one in column[::thin]]
            finite = [one for one in shown if one == one]
            low, high = min(finite), max(finite)
            unit = display_unit(point.kind, self._desk.system)
            pen = pg.mkPen(COLOURS[("strong", "hot", "good", "electric")[place % 4]], width=2)
            pen.setStyle(_STYLES[(place // 4 + place) % 4])
            heights = [(one - low) / ((high - low) or 1.0) for one in shown]
            self.plot.plot(
                at[::thin],
                heights,
                pen=pen,
                name=say(
                    "{title}: {low:.4g} to {high:.4g} {unit}", title=point.title, low=low, high=high, unit=unit
                ),
            )
        self.line.blockSignals(True)
        self.line.setPos(at[min(self._row, len(at) - 1)] if at else 0.0)
        self.line.blockSignals(False)
        self.plot.addItem(self.line)
        self._tell()

    def _move(self, by: int) -> None:
        """Move the trip by a step: a hundredth of the log, at least a row."""
        rows = max(1, len(self._log.times) // 100)
        self._row = min(max(self._row + by * rows, 1), len(self._log.times) - 1)
        self.line.setPos(self._at()[self._row])

    def _texts(self) -> dict[str, str]:
        return before(
            self._log,
            self._values,
            self._row,
            self.span.currentData(),
            self._vocabulary,
            self._desk.system,
        )

    def _tell(self) -> None:
        at = self._at()
        here = float(self.line.value())
        if abs(at[min(self._row, len(at) - 1)] - here) > 1e-9:
            self._row = next((row for row, one in enumerate(at) if one >= here), len(at) - 1)
        texts = self._texts() if self._values else {}
        self.use.setEnabled(bool(texts))
        words = "; ".join(f"{self._vocabulary[id].title}: {text}" for id, text in texts.items())
        self.told.setText(words or say("No column is a measuring point yet."))

    def _use(self) -> None:
        try:
            remember(self._log, self.columns)
        except OSError as problem:
            self._desk.told.emit(
                "bad", say("The columns could not be remembered: {strerror}.", strerror=problem.strerror)
            )
        self.taken.emit(self._texts())

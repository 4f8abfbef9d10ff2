"""The model of the sheet of readings: a row for every measuring point, what was typed, what it means."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QColor, QFont

from faultdoc.app.colours import COLOURS
from faultdoc.model.points import Point
from faultdoc.record.sheets.rows import Row
from faultdoc.words import say

__all__ = ["COLUMNS", "RowModel"]

COLUMNS = (say("Measuring point"), say("Reading"), say("Understood, or what is wrong"), say("Keep it"))
POINT, READING, SAID, KEEP = range(4)
Index = QModelIndex | QPersistentModelIndex


class RowModel(QAbstractTableModel):
    """Rows to be typed into; `look` says what the texts mean, all of them together.

    A doubtful row is taken only when its box is ticked, an impossible one never.
    """

    edited = Signal()

    def __init__(self, look: Callable[[Mapping[str, str]], Mapping[str, Row]]) -> None:
        super().__init__()
        self._look = look
        self._points: list[Point] = []
        self.texts: dict[str, str] = {}
        self.before: dict[str, str] = {}
        self.rows: Mapping[str, Row] = {}
        self.kept: set[str] = set()

    def show_points(self, points: Sequence[Point], before: Mapping[str, str]) -> None:
        """Show these points; `before` is what the case has of them already, in words."""
        self.beginResetModel()
        self._points, self.before = list(points), dict(before)
        self.rows = self._look(self.texts)
        self.endResetModel()

    @property
    def points(self) -> tuple[Point, ...]:
        """The points shown, in order."""
        return tuple(self._points)

    @property
    def ready(self) -> dict[str, Row]:
        """The rows that can be taken: understood, not impossible, and no doubt left open."""
        return {
            id: row
            for id, row in self.rows.items()
            if row.reading is not None and not row.impossible and (not row.doubts or id in self.kept)
        }

    @property
    def held(self) -> dict[str, Row]:
        """The rows with something in them that cannot be taken yet."""
        ready = self.ready
        return {id: row for id, row in self.rows.items() if id not in ready}

    def put(self, texts: Mapping[str, str]) -> None:
        """Put texts into the rows of these points."""
        self.texts.update(texts)
        self.kept -= set(texts)
        self.refresh()

    def forget(self, ids: Sequence[str]) -> None:
        """Empty the rows of these points."""
        for id in ids:
            self.texts.pop(id, None)
        self.kept -= set(ids)
        self.refresh()

    def refresh(self) -> None:
        """Look at all texts anew."""
        self.rows = self._look(self.texts)
        self.kept &= set(self.rows)
        if self._points:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self._points) - 1, KEEP))
        self.edited.emit()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own signature
        """Return how many rows there are."""
        return 0 if parent.isValid() else len(self._points)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        """Return how many columns there are."""
        return 0 if parent.isValid() else len(COLUMNS)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        """Return the title of a column."""
        if role == Qt.ItemDataRole.DisplayRole and orientation is Qt.Orientation.Horizontal:
            return COLUMNS[section]
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Return what can be done with a cell."""
        usual = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        row = self.rows.get(self._points[index.row()].id)
        if index.column() == READING:
            return usual | Qt.ItemFlag.ItemIsEditable
        if index.column() == KEEP and row is not None and row.doubts and not row.impossible:
            return usual | Qt.ItemFlag.ItemIsUserCheckable
        return usual

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Return what a cell shows, and says to those who do not see it."""
        point = self._points[index.row()]
        row = self.rows.get(point.id)
        column = index.column()
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self._words(point, row, column)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{point.title}, {COLUMNS[column]}: {self._words(point, row, column) or 'empty'}"
        if role == Qt.ItemDataRole.ToolTipRole:
            return f"{point.where}. {point.how}" if column < SAID else self._words(point, row, column)
        if role == Qt.ItemDataRole.CheckStateRole and column == KEEP and row is not None and row.doubts:
            if row.impossible:
                return None
            return Qt.CheckState.Checked if point.id in self.kept else Qt.CheckState.Unchecked
        if role == Qt.ItemDataRole.FontRole and column == SAID and row is not None and (row.problem or row.doubts):
            font = QFont()
            font.setBold(True)
            return font
        if role == Qt.ItemDataRole.ForegroundRole and column == SAID and row is not None:
            return QColor(COLOURS["wrong" if row.problem or row.impossible else "ink" if row.doubts else "good"])
        return None

    def _words(self, point: Point, row: Row | None, column: int) -> str:
        if column == POINT:
            return point.title
        if column == READING:
            return self.texts.get(point.id, "")
        if column == KEEP:
            return ""
        if row is None:
            had = self.before.get(point.id)
            return say("in the case: {had}", had=had) if had else ""
        if row.problem:
            return say("Not understood: {problem}", problem=row.problem)
        if row.impossible:
            return say("This cannot be: {join}", join=" ".join(row.doubts))
        if row.doubts:
            return say("Is this right? {join}", join=" ".join(row.doubts))
        return row.echo

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Take what was typed, or a tick."""
        point = self._points[index.row()]
        if index.column() == READING and role == Qt.ItemDataRole.EditRole:
            self.put({point.id: str(value)})
            return True
        if index.column() == KEEP and role == Qt.ItemDataRole.CheckStateRole:
            if Qt.CheckState(value) is Qt.CheckState.Checked:
                self.kept.add(point.id)
            else:
                self.kept.discard(point.id)
            self.refresh()
            return True
        return False

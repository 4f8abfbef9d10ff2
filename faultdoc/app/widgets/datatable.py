"""A table of words and numbers: rows to be read with the arrow keys, high enough to be touched."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from faultdoc.app.style import scaled
from faultdoc.app.widgets.basic import TARGET

__all__ = ["DataTable"]

WIDEST = 330
"""Pixels from which a column's words wrap."""


class DataTable(QTableWidget):
    """Rows of cells. `opened` tells of a row that was pressed twice, or on which Enter or space was pressed."""

    opened = Signal(int)

    def __init__(self, name: str, wide: int = 0) -> None:
        """Make a table; `wide` is the column that takes the room that is left."""
        super().__init__()
        self._wide = wide
        self.setAccessibleName(name)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setTabKeyNavigation(False)
        self.setWordWrap(True)
        self.setAlternatingRowColors(True)
        self.verticalHeader().hide()
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        self.cellDoubleClicked.connect(lambda row, _: self.opened.emit(row))

    def show_rows(self, heads: Sequence[str], rows: Sequence[Sequence[object]]) -> None:
        """Show other rows; numbers stand at the right, None is an empty cell."""
        self.clear()
        self.setColumnCount(len(heads))
        self.setHorizontalHeaderLabels(list(heads))
        self.setRowCount(len(rows))
        for place, row in enumerate(rows):
            for column, cell in enumerate(row):
                item = QTableWidgetItem("" if cell is None else str(cell))
                side = Qt.AlignmentFlag.AlignRight if isinstance(cell, int | float) else Qt.AlignmentFlag.AlignLeft
                item.setTextAlignment(side | Qt.AlignmentFlag.AlignVCenter)
                self.setItem(place, column, item)
        self.fit()
        if rows:
            self.setCurrentCell(0, 0)

    def fit(self) -> None:
        """Make the columns as wide as their words, and rows as high as these then need."""
        self.resizeColumnsToContents()
        for column in range(self.columnCount()):
            self.setColumnWidth(column, min(self.columnWidth(column) + 12, scaled(WIDEST)))
        used = sum(self.columnWidth(column) for column in range(self.columnCount()))
        if self.columnCount() and (left := self.viewport().width() - used) > 0:
            self.setColumnWidth(self._wide, self.columnWidth(self._wide) + left)
        self.resizeRowsToContents()
        for row in range(self.rowCount()):
            self.setRowHeight(row, max(self.rowHeight(row), TARGET))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the new size."""
        super().resizeEvent(event)
        if event.oldSize().width() != event.size().width():
            self.fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Open the row on Enter or space."""
        keys = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
        if event.key() in keys and self.currentRow() >= 0:
            self.opened.emit(self.currentRow())
            return
        super().keyPressEvent(event)

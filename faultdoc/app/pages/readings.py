"""Many readings at once: typed in any order, pasted from a spreadsheet, or taken from a logger's file."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QAbstractItemView,
    QComboBox,
    QFileDialog,
    QHeaderView,
    QLineEdit,
    QStackedWidget,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from faultdoc.app.desk import Desk
from faultdoc.app.style import scaled
from faultdoc.app.widgets.basic import TARGET, button, buttons, label
from faultdoc.app.widgets.rowmodel import READING, RowModel
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.app.widgets.logpanel import LogPanel
    from faultdoc.model.case import Case
    from faultdoc.record.sheets.rows import Row

__all__ = ["ReadingsPage"]

HINT = say("Type readings in any order, with or without units; Enter goes down. Ctrl+V pastes a table.")


class _Table(QTableView):
    """A table in which Enter goes down to the next reading, and Ctrl+V pastes where one stands."""

    paste_wanted = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Type where one stands; paste a whole table."""
        if event.matches(QKeySequence.StandardKey.Paste):
            self.paste_wanted.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.currentIndex().isValid():
            # The Enter that ends typing comes here too; it has been seen to.
            if self.state() is QAbstractItemView.State.EditingState:
                return
            self.edit(self.model().index(self.currentIndex().row(), READING))
        else:
            super().keyPressEvent(event)

    def closeEditor(self, editor: QWidget, hint: QAbstractItemDelegate.EndEditHint) -> None:
        """Go down after Enter, as on paper."""
        super().closeEditor(editor, hint)
        if hint == QAbstractItemDelegate.EndEditHint.SubmitModelCache:
            here = self.currentIndex()
            below = self.model().index(here.row() + 1, READING)
            if below.isValid():
                self.setCurrentIndex(below)


class ReadingsPage(QWidget):
    """The sheet; what is typed stays until it is taken, whatever is clicked meanwhile."""

    back = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.setObjectName("ground")
        self._desk = desk
        self.model = RowModel(self._look)
        self.model.edited.connect(self._tell)
        down = QVBoxLayout(self)
        down.setContentsMargins(12, 10, 12, 10)
        down.setSpacing(8)
        self.take = button(say("Take them all"), self._take, "main")
        self.paste = button(say("Paste"), self._paste, name=say("Paste from a spreadsheet"))
        self.file = button(say("Logger's file ..."), self.ask_file)
        self.ok = button(say("Back"), self.back.emit)
        self.which = QComboBox()
        self.which.setMinimumHeight(TARGET)
        self.which.setAccessibleName(say("Which part of the plant"))
        self.which.currentIndexChanged.connect(self._fill_rows)
        self.finder = QLineEdit()
        self.finder.setMinimumHeight(TARGET)
        self.finder.setFixedWidth(scaled(220))
        self.finder.setPlaceholderText(say("Find: suction ..."))
        self.finder.setAccessibleName(say("Find a measuring point"))
        self.finder.textChanged.connect(self._fill_rows)
        self._top = buttons(self.take, self.paste, self.file, self.ok, self.which, self.finder, spacing=8)
        down.addWidget(self._top)
        self.told = label("", "text")
        down.addWidget(self.told)
        self.table = _Table()
        self.table.setModel(self.model)
        self.table.paste_wanted.connect(self._paste)
        self.table.setAccessibleName(say("Readings"))
        self.table.setWordWrap(True)
        self.table.verticalHeader().hide()
        self.table.verticalHeader().setMinimumSectionSize(TARGET)
        self.table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.table.setTabKeyNavigation(False)
        self.table.setEditTriggers(
            QAbstractItemView.EditTrigger.AnyKeyPressed
            | QAbstractItemView.EditTrigger.SelectedClicked
            | QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
        )
        self.table.clicked.connect(self._clicked)
        self.stack = QStackedWidget()
        self.stack.addWidget(self.table)
        down.addWidget(self.stack, 1)
        self.log: LogPanel | None = None
        desk.changed.connect(self._changed)

    def fill(self) -> None:
        """Come up with what was typed before."""
        from faultdoc.record.pictures.schematic import sides

        assessment = self._desk.assessment
        assert assessment is not None
        now = self.which.currentData()
        self.which.blockSignals(True)
        self.which.clear()
        self.which.addItem(say("Everything"), None)
        for id, title in sides(assessment.bench.sheet):
            self.which.addItem(title, id)
        self.which.setCurrentIndex(max(self.which.findData(now), 0))
        self.which.blockSignals(False)
        self._fill_rows()
        self._tell()
        self.table.setCurrentIndex(self.model.index(0, READING))
        self.table.setFocus()

    def _look(self, texts: Mapping[str, str]) -> Mapping[str, Row]:
        from faultdoc.record.sheets.rows import look

        assessment = self._desk.assessment
        if assessment is None:
            return {}
        bench = assessment.bench
        return look(texts, bench.sheet, bench.library.points, assessment.case, self._desk.system)

    def _fill_rows(self) -> None:
        from faultdoc.record.pictures.schematic import points_on
        from faultdoc.record.words import matches

        assessment = self._desk.assessment
        if assessment is None:
            return
        bench, case = assessment.bench, assessment.case
        ids = points_on(bench.sheet, self.which.currentData())
        words = self.finder.text().strip()
        points = [bench.library.points[id] for id in ids]
        points = [point for point in points if not words or matches(words, point.title, point.id)]
        self.model.show_points(points, {id: self._in_words(case, id) for id in case.readings})

    def _in_words(self, case: Case, id: str) -> str:
        reading = case.readings[id]
        assert self._desk.shelf is not None
        choices = {one.id: one.title for one in self._desk.shelf.library.points[id].choices}
        return choices.get(reading, reading) if isinstance(reading, str) else reading.text

    def _changed(self) -> None:
        if self._desk.assessment is not None and self.isVisible():
            self._fill_rows()
            self._tell()

    def _clicked(self, index: QModelIndex) -> None:
        if index.column() < READING:
            self.table.setCurrentIndex(self.model.index(index.row(), READING))

    def _tell(self) -> None:
        ready, held = len(self.model.ready), self.model.held
        self.take.setEnabled(ready > 0)
        self.take.setText(
            say("Take {ready} reading{what}", ready=ready, what="" if ready == 1 else "s")
            if ready
            else say("Take them all")
        )
        if held:
            titles = self._titles(held)
            self.told.setText(
                say("{ready} ready. Left here until mended or kept: {titles}.", ready=ready, titles=titles)
            )
        elif ready:
            self.told.setText(say("{ready} ready to be taken.", ready=ready))
        else:
            self.told.setText(
                say("Type readings in any order, with or without units; Enter goes down. Ctrl+V pastes a table.")
            )

    def _titles(self, ids: Mapping[str, object]) -> str:
        assert self._desk.shelf is not None
        points = self._desk.shelf.library.points
        names = [points[id].title for id in ids]
        return "; ".join(names[:3]) + (say(" and {what} more", what=len(names) - 3) if len(names) > 3 else "")

    def _take(self) -> None:
        from faultdoc.record.sheets.rows import taken

        assessment, ready = self._desk.assessment, self.model.ready
        if assessment is None or not ready:
            return
        count = len(ready)
        words = say(
            "{count} reading{what} from the sheet: {titles}",
            count=count,
            what="" if count == 1 else "s",
            titles=self._titles(ready),
        )
        if self._desk.do(words, taken(assessment.case, ready)):
            self.model.forget(list(ready))
            if not self.model.texts or not self.model.held:
                self.back.emit()
        else:
            self._desk.told.emit("bad", say("These readings are in the case already."))
            self.model.forget(list(ready))

    def _paste(self) -> None:
        from faultdoc.record.sheets.rows import pasted

        assessment = self._desk.assessment
        text = QGuiApplication.clipboard().text()
        if assessment is None or not text.strip():
            self._desk.told.emit("bad", say("There is nothing to paste: copy cells of a spreadsheet first."))
            return
        below = [point.id for point in self.model.points[max(self.table.currentIndex().row(), 0) :]]
        lines = pasted(text, assessment.bench.library.points, below)
        self.model.put({line.point: line.text for line in lines if line.point is not None})
        lost = [line.name or line.text for line in lines if line.point is None]
        if lost:
            self._desk.told.emit(
                "bad",
                say(
                    "No measuring point is called {join}{what}. Type it into its row, or name it "
                    "as the rows here do.",
                    join="; ".join(lost[:4]),
                    what=" ..." if len(lost) > 4 else "",
                ),
            )

    # --- a logger's file ---

    def ask_file(self) -> None:
        """Ask for a logger's file and open it."""
        name, _ = QFileDialog.getOpenFileName(
            self, say("Open a logger's file"), str(Path.home()), say("Tables (*.csv *.txt *.tsv);;All files (*)")
        )
        if name:
            self.open_file(Path(name))

    def open_file(self, path: Path) -> None:
        """Read a logger's file beside the window, then show its columns."""
        from faultdoc.record.sheets.log import Log, read_log

        def then(log: Log) -> None:
            self._show_log(log)

        self._desk.background.run(
            lambda: read_log(path),
            then,
            lambda problem: self._desk.tell_problem(say("The file cannot be used."), problem),
        )

    def _show_log(self, log: object) -> None:
        from faultdoc.app.widgets.logpanel import LogPanel
        from faultdoc.record.pictures.schematic import points_on
        from faultdoc.record.sheets.log import Log

        assessment = self._desk.assessment
        assert isinstance(log, Log)
        assert assessment is not None
        self._drop_log()
        panel = LogPanel(log, self._desk, points_on(assessment.bench.sheet))
        panel.taken.connect(self._from_log)
        panel.left.connect(self._drop_log)
        self.log = panel
        self.stack.addWidget(panel)
        self.stack.setCurrentWidget(panel)
        for part in (self._top, self.told):
            part.hide()

    def _from_log(self, texts: Mapping[str, str]) -> None:
        self._drop_log()
        self.which.setCurrentIndex(0)
        self.model.put(texts)

    def _drop_log(self) -> None:
        if self.log is not None:
            self.stack.removeWidget(self.log)
            self.log.deleteLater()
            self.log = None
            for part in (self._top, self.told):
                part.show()
            self.table.setFocus()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the words the room that the readings leave."""
        super().resizeEvent(event)
        width = event.size().width() - 60
        for column, share in enumerate((0.32, 0.17, 0.41, 0.10)):
            self.table.setColumnWidth(column, round(share * width))

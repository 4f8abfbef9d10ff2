"""The plant and its physics as pictures: the point asked for lit, press any point to write down its reading."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QComboBox, QVBoxLayout, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import TARGET, button, buttons, label
from faultdoc.app.widgets.canvas import NEARER
from faultdoc.app.widgets.picture import PictureView
from faultdoc.record.pictures.shapes import Picture
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.record.figures import Figure

__all__ = ["PicturesPage"]

BELIEF = "belief"
"""The chart of the report, which needs the journal besides the assessment."""


class PicturesPage(QWidget):
    """Signals `point_chosen` with the measuring point that was pressed."""

    back = Signal()
    point_chosen = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.setObjectName("ground")
        self._desk = desk
        self._stale = True
        self._shown: tuple[str, str] | None = None
        down = QVBoxLayout(self)
        down.setContentsMargins(12, 10, 12, 10)
        down.setSpacing(8)
        self.ok = button(say("Back"), self.back.emit, "main")
        self.which = QComboBox()
        self.which.setMinimumHeight(TARGET)
        self.which.setMinimumWidth(250)
        self.which.setMaxVisibleItems(20)
        self.which.setAccessibleName(say("Which picture"))
        self.which.activated.connect(self._draw)
        self.before = button(say("Previous"), lambda: self._turn(-1), name=say("Previous picture"))
        self.after = button(say("Next"), lambda: self._turn(1), name=say("Next picture"))
        self.view = PictureView()
        self.view.pressed.connect(self.point_chosen)
        self.nearer = button("+", lambda: self.view.zoom(NEARER), name=say("Nearer"))
        self.farther = button("-", lambda: self.view.zoom(1.0 / NEARER), name=say("Farther"))
        self.whole = button(say("Whole"), self.view.fit, name=say("Whole picture"))
        for made in (self.nearer, self.farther):
            made.setFixedWidth(TARGET + 6)
        down.addWidget(
            buttons(self.ok, self.which, self.before, self.after, self.nearer, self.farther, self.whole, spacing=8)
        )
        down.addWidget(self.view, 1)
        self.told = label("", "faint")
        down.addWidget(self.told)
        desk.changed.connect(self._changed)

    def fill(self) -> None:
        """Show the picture with the point that is asked for."""
        from faultdoc.record.pictures.gallery import gallery, starting_with

        assessment = self._desk.assessment
        assert assessment is not None
        self.which.clear()
        for id, title in gallery(assessment.bench.sheet):
            self.which.addItem(title, id)
        self.which.addItem(say("Belief over the steps"), BELIEF)
        self.show_one(starting_with(assessment))
        self.view.setFocus()

    def show_one(self, id: str) -> None:
        """Show a picture of the gallery."""
        self.which.setCurrentIndex(self.which.findData(id))
        self._draw()

    def _turn(self, by: int) -> None:
        self.which.setCurrentIndex((self.which.currentIndex() + by) % self.which.count())
        self._draw()

    def _changed(self) -> None:
        self._stale = True
        if self.isVisible():
            self._draw()

    def showEvent(self, event: QShowEvent) -> None:
        """Draw what has changed since it was last seen."""
        super().showEvent(event)
        if self._stale and self.which.count():
            self._draw()

    def _draw(self) -> None:
        """Make the picture beside the window, then show it."""
        desk, assessment, id = self._desk, self._desk.assessment, self.which.currentData()
        if assessment is None or id is None:
            return
        self._stale = False
        system = desk.system
        case_id = desk.case_id

        def work() -> Picture | Figure | str:
            from faultdoc.record.pictures.gallery import picture_of
            from faultdoc.record.report import belief_figure

            if id == BELIEF:
                entries = [] if case_id is None else desk.book().load(case_id)[1]
                return belief_figure(assessment, system, entries)
            return picture_of(assessment, id, system)

        def then(made: Picture | Figure | str) -> None:
            # Another picture may have been chosen, or another answer given, meanwhile.
            if desk.assessment is not assessment or self.which.currentData() != id or desk.system is not system:
                return
            if isinstance(made, str):
                self.view.clear()
                self._shown = None
                self.told.setText(made)
                return
            if not isinstance(made, Picture):
                self.view.show_svg(made)
                self._shown = None
                self.told.setText(made.caption)
                return
            here = (id, made.title)
            self.view.show_picture(made, keep_place=self._shown == here)
            self._shown = here
            hint = say(" Press a point to write down its reading.") if made.spots else ""
            self.told.setText((made.short or made.words) + hint)

        desk.background.run(
            work, then, lambda problem: desk.tell_problem(say("The picture could not be drawn."), problem)
        )

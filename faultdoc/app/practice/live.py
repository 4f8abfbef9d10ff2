"""The live unit: the clock above; the unit, what can be done and the log beside each other or behind tabs."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QHideEvent, QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QFrame, QGridLayout, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.practice.actspane import ActsPane
from faultdoc.app.practice.clockbar import ClockBar
from faultdoc.app.practice.course import Course
from faultdoc.app.practice.logpane import LogPane
from faultdoc.app.practice.unitpane import UnitPane
from faultdoc.app.style import scaled
from faultdoc.app.widgets.basic import button, label, one_of, row
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.practice.trainee import Event

__all__ = ["LivePage"]

WIDE = 1180
"""Pixels from which two panes stand beside each other."""
SIDE = 470


class LivePage(QWidget):
    """The live unit."""

    def __init__(self, course: Course, desk: Desk) -> None:
        super().__init__()
        self.setObjectName("ground")
        self._course = course
        self.bar = ClockBar(course)
        self.bar.give_up_wanted.connect(self._ask_give_up)
        self.unit = UnitPane(course, desk)
        self.acts = ActsPane(course)
        self.log = LogPane(course, desk)
        self.panes: list[QWidget] = [self.unit, self.acts, self.log]
        self.tabs: list[QPushButton] = []
        self._group = QButtonGroup(self)
        self._tabs = QWidget()
        across = QHBoxLayout(self._tabs)
        across.setContentsMargins(8, 6, 8, 0)
        across.setSpacing(4)
        for place, title in enumerate((say("At the unit"), say("What to do"), say("Call and log"))):
            tab = one_of(self._group, title, partial(self.show_pane, place), "tab", title)
            across.addWidget(tab, 1)
            self.tabs.append(tab)
        self.sure = self._make_sure()
        self._grid = QGridLayout()
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(0)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(0)
        down.addWidget(self.bar)
        down.addWidget(self.sure)
        down.addLayout(self._grid, 1)
        self._wide: bool | None = None
        self.place = 1
        course.happened.connect(self._happened)
        course.acting.connect(self._acting)
        self._arrange(True)

    def _make_sure(self) -> QFrame:
        """Return the bar that asks before giving up."""
        made = QFrame()
        made.setProperty("role", "doubt")
        self.yes = button(say("Yes, give up"), self._give_up, "danger")
        self.no = button(say("No, go on"), self._go_on, "main")
        across = row(
            label(say("Give up? The practice ends here, and the debrief shows what it was.")), self.no, self.yes
        )
        across.setContentsMargins(14, 4, 10, 4)
        made.setLayout(across)
        made.hide()
        return made

    def begin(self) -> None:
        """Come up for a unit that has just been gone to."""
        self.sure.hide()
        self.show_pane(1)

    def hideEvent(self, event: QHideEvent) -> None:
        """Let no time pass that nobody sees."""
        super().hideEvent(event)
        self._course.run(False)

    def show_pane(self, place: int) -> None:
        """Show the unit (0), what can be done (1) or the log (2)."""
        if place == 0 and self._wide:
            self.unit.setFocus()
            return
        self.place = place
        self._settle()
        if place == 1:
            self.acts.begin_search()
        else:
            self.tabs[place].setFocus()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the new size."""
        self._arrange(event.size().width() >= scaled(WIDE))
        super().resizeEvent(event)

    def _arrange(self, wide: bool) -> None:
        if wide == self._wide:
            return
        self._wide = wide
        if wide and self.place == 0:
            self.place = 1
        for part in (self._tabs, *self.panes):
            self._grid.removeWidget(part)
        if wide:
            self._grid.addWidget(self.unit, 0, 0, 2, 1)
            self._grid.addWidget(self._tabs, 0, 1)
            self._grid.addWidget(self.acts, 1, 1)
            self._grid.addWidget(self.log, 1, 1)
            for part in (self._tabs, self.acts, self.log):
                part.setFixedWidth(scaled(SIDE))
            self._grid.setColumnStretch(0, 1)
            self._grid.setColumnStretch(1, 0)
        else:
            self._grid.addWidget(self._tabs, 0, 0, 1, 2)
            for pane in self.panes:
                self._grid.addWidget(pane, 1, 0, 1, 2)
            for part in (self._tabs, self.acts, self.log):
                part.setMinimumWidth(0)
                part.setMaximumWidth(16_777_215)
            self._grid.setColumnStretch(1, 1)
        self._settle()

    def _settle(self) -> None:
        self.tabs[0].setVisible(not self._wide)
        for place, pane in enumerate(self.panes):
            pane.setVisible(place == self.place or (place == 0 and bool(self._wide)))
        self.tabs[self.place].setChecked(True)

    def _happened(self, _: Event) -> None:
        if not self._wide:
            self.show_pane(0)

    def _acting(self, on: bool) -> None:
        if on:
            self.setCursor(Qt.CursorShape.BusyCursor)
        else:
            self.unsetCursor()

    def _ask_give_up(self) -> None:
        self.sure.show()
        self.no.setFocus()

    def _go_on(self) -> None:
        self.sure.hide()
        self.show_pane(self.place)

    def _give_up(self) -> None:
        self.sure.hide()
        self._course.give_up()

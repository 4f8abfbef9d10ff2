"""The work page: the step, and beside it (or behind tabs where the window is small) the four panels."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QHBoxLayout, QPushButton, QStackedWidget, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.pages.step import StepPage
from faultdoc.app.side.causes import CausesPanel
from faultdoc.app.side.panel import Panel
from faultdoc.app.side.plant import PlantPanel
from faultdoc.app.side.record import RecordPanel
from faultdoc.app.side.why import WhyPanel
from faultdoc.app.style import scaled
from faultdoc.app.widgets.basic import one_of
from faultdoc.diagnosis.explain import likely_causes
from faultdoc.record.words import chance
from faultdoc.words import say

__all__ = ["WorkPage"]

WIDE = 1180
"""Pixels from which the panels stand beside the step."""
SIDE = 452


class WorkPage(QWidget):
    """Step and panels."""

    correct_wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.setObjectName("ground")
        self._desk = desk
        self.step = StepPage(desk)
        self.causes, self.record = CausesPanel(desk), RecordPanel(desk)
        self.why, self.plant = WhyPanel(desk), PlantPanel(desk)
        self.panels: list[Panel] = [self.causes, self.record, self.why, self.plant]
        self.side = QStackedWidget()
        for panel in self.panels:
            self.side.addWidget(panel)
        self.tabs: list[QPushButton] = []
        self._group = QButtonGroup(self)
        bar = QWidget()
        across = QHBoxLayout(bar)
        across.setContentsMargins(8, 6, 8, 0)
        across.setSpacing(4)
        for place, title in enumerate([say("Step"), *(panel.title for panel in self.panels)]):
            tab = one_of(
                self._group, title, partial(self.show_tab, place), "tab", say("{title} panel", title=title)
            )
            across.addWidget(tab, 1)
            self.tabs.append(tab)
        self._bar = bar
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(0)
        self._wide: bool | None = None
        self._place = 0
        desk.changed.connect(self._changed)
        desk.busy.connect(self._busy)
        desk.office.looked.connect(self._looked)
        self.step.arithmetic_wanted.connect(self._arithmetic)
        self.step.other_wanted.connect(lambda: self.show_tab(3))
        self.plant.correct_wanted.connect(self.correct_wanted)
        self._arrange(True)

    @property
    def wide(self) -> bool:
        """Whether the panels stand beside the step."""
        return bool(self._wide)

    def show_tab(self, place: int) -> None:
        """Show the step (0) or a panel (1 to 4)."""
        if place:
            self.side.setCurrentIndex(place - 1)
        self._place = place
        self._settle()
        # A case in a tab that is not seen takes the focus from nobody.
        if not self.isVisible():
            return
        if place == 0:
            self.step.focus_first()
        else:
            self.tabs[place].setFocus()

    def begin(self) -> None:
        """Show a case that has just been opened: its step, and the causes beside it."""
        self.side.setCurrentIndex(0)
        self.causes.opened = None
        self.show_tab(0)

    def open_reasons(self, cause: str) -> None:
        """Show the reasons of a cause."""
        self.show_tab(1)
        self.causes.open_reasons(cause)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the new size."""
        self._arrange(event.size().width() >= scaled(WIDE))
        super().resizeEvent(event)

    def _looked(self) -> None:
        self._wide = None
        self._arrange(self.width() >= scaled(WIDE))

    def _arrange(self, wide: bool) -> None:
        if wide == self._wide:
            return
        self._wide = wide
        for part in (self._bar, self.step, self.side):
            self._grid.removeWidget(part)
        if wide:
            self._grid.addWidget(self.step, 0, 0, 2, 1)
            self._grid.addWidget(self._bar, 0, 1)
            self._grid.addWidget(self.side, 1, 1)
            self.side.setFixedWidth(scaled(SIDE))
            self._grid.setColumnStretch(0, 1)
            self._grid.setColumnStretch(1, 0)
        else:
            self._grid.addWidget(self._bar, 0, 0, 1, 2)
            self._grid.addWidget(self.step, 1, 0, 1, 2)
            self._grid.addWidget(self.side, 1, 0, 1, 2)
            self._grid.setColumnStretch(1, 1)
            self.side.setMinimumWidth(0)
            self.side.setMaximumWidth(16_777_215)
        self._settle()

    def _settle(self) -> None:
        self.tabs[0].setVisible(not self._wide)
        on_step = self._place == 0
        self.step.setVisible(bool(self._wide) or on_step)
        self.side.setVisible(bool(self._wide) or not on_step)
        shown = self.side.currentIndex() + 1 if self._wide or not on_step else 0
        self.tabs[shown].setChecked(True)

    def _changed(self) -> None:
        assessment = self._desk.assessment
        if assessment is None:
            self.step.forget()
            return
        before = self.step.view
        self.step.refresh()
        first = likely_causes(assessment)[0]
        self.tabs[1].setText(
            self.causes.title if self._wide else say("Causes: {chance}", chance=chance(first.probability))
        )
        if self.step.view is not before and (before is None or before.step != self.step.view.step):  # type: ignore[union-attr]
            self.show_tab(0)
            self.step.to_top()

    def _busy(self, on: bool) -> None:
        self.step.inside.setEnabled(not on)

    def _arithmetic(self) -> None:
        last = self._desk.last
        self.show_tab(2)
        self.record.show_arithmetic(tuple(result.id for result in last.checks) if last else ())

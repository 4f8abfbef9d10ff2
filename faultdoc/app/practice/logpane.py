"""The call as it was told, and what has happened since."""

from __future__ import annotations

from PySide6.QtGui import QShowEvent

from faultdoc.app.desk import Desk
from faultdoc.app.practice.course import Course
from faultdoc.app.practice.told import log_lines
from faultdoc.app.widgets.basic import Box, facts, label
from faultdoc.app.widgets.page import Page
from faultdoc.words import say

__all__ = ["LogPane"]


class LogPane(Page):
    """The log of a practice, drawn when it is seen."""

    def __init__(self, course: Course, desk: Desk) -> None:
        super().__init__()
        self._course, self._desk = course, desk
        self.margins = (12, 12, 12, 14)
        self.setAccessibleName(say("The call, and what has happened"))
        self.be_readable()
        self._drawn: object = None
        course.changed.connect(self.draw)
        desk.changed.connect(self.draw)

    def showEvent(self, event: QShowEvent) -> None:
        """Draw what has changed since it was last seen."""
        super().showEvent(event)
        self.draw()

    def draw(self) -> None:
        """Show the log as it is now, the latest first."""
        course = self._course
        if course.now is None or course.scenario is None or course.sheet is None or not self.isVisible():
            return
        lines = log_lines(course.now.events, course.points, course.sheet, self._desk.system, course.told)
        key = (course.scenario, tuple(lines))
        if key == self._drawn:
            return
        self._drawn = key
        self.empty()
        self.body.addWidget(Box("card", label(say("THE CALL"), "kind"), label(course.scenario.briefing)))
        self.body.addWidget(label(say("What has happened, the latest first"), "title"))
        if lines:
            self.body.addWidget(facts(*reversed(lines), left=84))
        else:
            self.body.addWidget(label(say("Nothing yet."), "faint"))

"""The bar above a practice: that it is one, its clock and how fast it goes, a hint, and giving up."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QFrame, QHBoxLayout, QPushButton, QVBoxLayout

from faultdoc.app.practice.clock import SPEEDS, on_a_watch
from faultdoc.app.practice.course import Course
from faultdoc.app.widgets.basic import TARGET, button, label, one_of
from faultdoc.app.widgets.elided import ElidedLabel
from faultdoc.record.words import minutes
from faultdoc.words import say

__all__ = ["ClockBar"]


class ClockBar(QFrame):
    """Signals `give_up_wanted`."""

    give_up_wanted = Signal()

    def __init__(self, course: Course) -> None:
        super().__init__()
        self._course = course
        self.setProperty("role", "practice")
        across = QHBoxLayout(self)
        across.setContentsMargins(14, 6, 10, 6)
        across.setSpacing(8)
        words = QVBoxLayout()
        words.setSpacing(0)
        self.title = ElidedLabel(say("PRACTICE"))
        self.title.setProperty("voice", "kind")
        self.spent = ElidedLabel("")
        self.spent.setProperty("voice", "faint")
        words.addWidget(self.title)
        words.addWidget(self.spent)
        across.addLayout(words, 1)
        self.clock = label("0:00:00", "number")
        self.clock.setWordWrap(False)
        self.clock.setMinimumWidth(96)
        across.addWidget(self.clock)
        self.pause = button(say("Pause"), lambda: course.run(not course.clock.running))
        self.pause.setMinimumWidth(112)
        across.addWidget(self.pause)
        self.speeds: dict[int, QPushButton] = {}
        self._group = QButtonGroup(self)
        for speed in SPEEDS:
            name = (
                say("Time goes {speed} times as fast", speed=speed)
                if speed > 1
                else say("Time goes as on a watch")
            )
            made = one_of(self._group, f"{speed}×", partial(course.pace, speed), "way", name)
            made.setMinimumWidth(TARGET + 12)
            across.addWidget(made)
            self.speeds[speed] = made
        self.hint = button(say("Hint"), course.hint, name=say("Hint; it costs points"))
        self.give_up = button(say("Give up"), self.give_up_wanted.emit)
        across.addWidget(self.hint)
        across.addWidget(self.give_up)
        course.changed.connect(self.draw)
        course.paced.connect(self.draw)

    def faster(self) -> None:
        """Go at the next speed; after the fastest comes the slowest."""
        place = SPEEDS.index(self._course.clock.speed)
        self._course.pace(SPEEDS[(place + 1) % len(SPEEDS)])

    def draw(self) -> None:
        """Show the time as it is."""
        course = self._course
        if course.now is None or course.scenario is None:
            return
        running = course.clock.running
        self.title.put(say("PRACTICE: {title}", title=course.scenario.title))
        self.spent.put(
            say(
                "{minutes} spent; par is {minutes_2}",
                minutes=minutes(course.now.minutes),
                minutes_2=minutes(course.scenario.minutes),
            )
        )
        self.clock.setText(on_a_watch(course.now.clock))
        self.clock.setAccessibleName(
            say(
                "Time since the call: {what}{what_2}",
                what=self.clock.text(),
                what_2="" if running else say(", standing"),
            )
        )
        self.pause.setText(say("Pause") if running else say("Go on"))
        self.pause.setAccessibleName(say("Stop the clock") if running else say("Let the clock go on"))
        self.speeds[course.clock.speed].setChecked(True)

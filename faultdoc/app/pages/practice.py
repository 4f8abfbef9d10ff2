"""Practice on a simulated unit: choose a scenario, hear the call, work at the unit, look back."""

from __future__ import annotations

from collections.abc import Callable
from random import SystemRandom
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.practice.brief import BriefPage
from faultdoc.app.practice.choose import ChoosePage
from faultdoc.app.practice.course import Course
from faultdoc.app.practice.live import LivePage
from faultdoc.app.practice.offer import Offer, keep, offered
from faultdoc.app.practice.result import ResultPage
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.practice.debrief import Debrief
    from faultdoc.practice.scenario import Scenario
    from faultdoc.practice.trainee import Turn

__all__ = ["PracticePage"]

SEEDS = 1_000_000
PAINTED = 60
"""Milliseconds after which what has been changed is on the screen."""


class PracticePage(QWidget):
    """All of practice, one page after the other. Signals `back`."""

    back = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.course = Course(self)
        self.offer: Offer | None = None
        self._scenario: Scenario | None = None
        self._system = desk.system
        self.choose = ChoosePage()
        self.brief = BriefPage()
        self.live = LivePage(self.course, desk)
        self.result = ResultPage(desk)
        self.stack = QStackedWidget()
        for page in (self.choose, self.brief, self.live, self.result):
            self.stack.addWidget(page)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self.stack)
        self.choose.name.setText(desk.settings.last_trainee or "")
        self.choose.back.connect(self.back)
        self.choose.chosen.connect(self._chosen)
        self.choose.random_wanted.connect(self._by_chance)
        self.choose.named.connect(self._named)
        self.brief.back.connect(self.to_list)
        self.brief.go.connect(self._go)
        self.result.again.connect(self._again)
        self.result.list_wanted.connect(self.to_list)
        self.course.begun.connect(self._begun)
        self.course.reckoning.connect(self._reckoning)
        self.course.ended.connect(self._ended)
        self.course.failed.connect(self._failed)
        desk.changed.connect(self._switched)
        self._make_shortcuts()

    def _make_shortcuts(self) -> None:
        def on(keys: str, do: Callable[[], object]) -> None:
            shortcut = QShortcut(QKeySequence(keys), self)
            shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            shortcut.activated.connect(lambda: do() if self.at == "live" else None)

        on("F6", lambda: self.course.run(not self.course.clock.running))
        on("F7", self.live.bar.faster)

    @property
    def at(self) -> str:
        """Which of the pages is seen: choose, brief, live or result."""
        current = self.stack.currentWidget()
        return next(name for name in ("choose", "brief", "live", "result") if getattr(self, name) is current)

    def fill(self) -> None:
        """Come up, where it was left."""
        if self.at == "choose":
            self.read_offer()
            self.choose.to_top()
        elif self.at == "live":
            self.live.show_pane(self.live.place)

    @property
    def trainee(self) -> str:
        """The name of whoever practises; empty where none was typed."""
        return self.choose.name.text().strip()

    def read_offer(self) -> None:
        """Read beside the window what there is to practise on."""
        name = self.trainee

        def then(offer: Offer) -> None:
            self.offer = offer
            self.choose.fill(offer)
            if offer.problem:
                self._desk.told.emit(
                    "bad", say("What was done before is not known: {problem}.", problem=offer.problem)
                )

        self.course.background.run(
            lambda: offered(name),
            then,
            lambda problem: self._desk.tell_problem(say("The scenarios could not be read."), problem),
        )

    def begin_search(self) -> None:
        """Be ready to search, wherever that makes sense."""
        if self.at == "live":
            self.live.show_pane(1)
        elif self.at == "choose":
            self.choose.line.setFocus()

    def show_pane(self, place: int) -> None:
        """Show a pane of the live unit: the unit (0), what to do (1), the log (2)."""
        if self.at == "live" and 0 <= place < len(self.live.panes):
            self.live.show_pane(place)

    def step_back(self) -> bool:
        """Go one page back within practice; return whether there was one."""
        if self.at in ("brief", "result"):
            self.to_list()
            return True
        return False

    def shut(self) -> None:
        """Let go of everything; the window is closing."""
        self.course.shut()

    # --- from page to page ---

    def to_list(self) -> None:
        """Show the list of scenarios."""
        self.course.leave()
        self.stack.setCurrentWidget(self.choose)
        self.read_offer()
        self.choose.focus_first()

    def _named(self, name: str) -> None:
        if name != (self._desk.settings.last_trainee or ""):
            self._desk.office.keep_trainee(name)
            self.read_offer()

    def _chosen(self, scenario: Scenario) -> None:
        self._scenario = scenario
        unit = (
            next((one.unit for one in self.offer.scenarios if one.scenario == scenario), "") if self.offer else ""
        )
        shelf = self._desk.shelf
        if not unit and shelf is not None and scenario.unit in shelf.sheets:
            unit = shelf.sheets[scenario.unit].title
        self.brief.fill(scenario, unit or scenario.unit)
        self.stack.setCurrentWidget(self.brief)
        self.brief.start.setFocus()

    def _by_chance(self, level: int) -> None:
        def work() -> Scenario:
            from faultdoc.practice.scenario import random_scenario

            return random_scenario(SystemRandom().randrange(SEEDS), level or None)

        def then(scenario: Scenario) -> None:
            self.choose.waiting.hide()
            # Whoever has gone elsewhere meanwhile is not called back.
            if self.at == "choose":
                self._chosen(scenario)

        def failed(problem: BaseException) -> None:
            self.choose.waiting.hide()
            self._desk.tell_problem(say("No call could be made up."), problem)

        self.choose.waiting.setText(say("Making up a call ..."))
        self.choose.waiting.show()
        self.course.background.run(work, then, failed)

    def _go(self) -> None:
        # CoolProp reads its refrigerants once a session, for some seconds and with Python's lock held: the words
        # that say so must be on the screen before that.
        QTimer.singleShot(PAINTED, self, self._begin)

    def _begin(self) -> None:
        scenario = self._scenario
        if scenario is None or self.course.busy or self.at != "brief":
            return

        def make() -> Turn:
            from faultdoc.practice.trainee import Turn

            return Turn.begin(scenario)

        self.course.begin(make, self._desk.system)

    def _begun(self) -> None:
        self.stack.setCurrentWidget(self.live)
        self.live.begin()
        self.course.run(True)

    def _again(self) -> None:
        if self._scenario is not None:
            self._chosen(self._scenario)

    def _reckoning(self) -> None:
        self.result.wait()
        self.stack.setCurrentWidget(self.result)

    def _ended(self, found: Debrief) -> None:
        name = self.trainee
        self.result.fill(found, name, self.course.asked.total())
        if name:
            self.course.background.run(
                lambda: keep(name, found),
                lambda _: self._desk.told.emit("good", say("Kept under the name {name}.", name=name)),
                lambda problem: self._desk.tell_problem(say("The result could not be kept."), problem),
            )

    def _failed(self, sentence: str, problem: BaseException) -> None:
        self.brief.stay()
        self._desk.tell_problem(sentence, problem)

    def _switched(self) -> None:
        if self._desk.system is not self._system:
            self._system = self._desk.system
            self.course.switch(self._system)

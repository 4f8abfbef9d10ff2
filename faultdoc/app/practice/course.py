"""The model of a practice: one trainee at one simulated unit, whose time goes on.

Everything that asks the unit is done beside the window, one thing after the other; what comes back is
a `Now`, which nothing changes any more, and which the views draw.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from PySide6.QtCore import QElapsedTimer, QObject, QTimer, Signal

from faultdoc.app.background import Background
from faultdoc.app.practice.acts import Act, acts_of
from faultdoc.app.practice.clock import SPEEDS, Clock
from faultdoc.app.practice.scales import face_of
from faultdoc.quantities import System
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.model.points import Point
    from faultdoc.model.safety import PlantState
    from faultdoc.model.unit import DataSheet
    from faultdoc.practice.debrief import Debrief
    from faultdoc.practice.scenario import Scenario
    from faultdoc.practice.trainee import Event, Turn

__all__ = ["Course", "Fitted", "Now"]

TICK = 500
"""Milliseconds between two looks at the clock."""
LEAST_WAIT = 1.0
"""Simulated seconds that are lived through at once, at least."""
MOST_FITTED = 8
"""Instruments at the unit at a time; the one fitted first comes off for the next."""


@dataclass(frozen=True)
class Fitted:
    """An instrument at a point: what it shows in SI, or showed last.

    Attributes:
        point: where it is.
        value: SI; None where it never showed anything.
        live: whether it shows something now; else `value` is what it showed last.
    """

    point: Point
    value: float | None
    live: bool


@dataclass(frozen=True)
class Now:
    """A practice as it is at one moment; nothing in it changes.

    Attributes:
        clock: simulated s since the call.
        minutes: spent.
        state: of the plant.
        shows: what anyone sees and hears at the unit.
        events: what has happened, in order.
        acts: what can be done.
        fitted: the instruments at the unit, the last one first.
        stop: what to do at once, where an answer told of a danger that ends the work.
        finished: whether the practice is over.
    """

    clock: float
    minutes: float
    state: PlantState
    shows: tuple[str, ...]
    events: tuple[Event, ...]
    acts: tuple[Act, ...]
    fitted: tuple[Fitted, ...]
    stop: str | None
    finished: bool


@dataclass
class _Gauges:
    """The instruments at the unit. Each keeps its own error as long as it stays where it is."""

    errors: dict[str, float] = field(default_factory=dict)
    last: dict[str, float] = field(default_factory=dict)

    def fit(self, point: str, read: float, truth: object) -> None:
        """Fit an instrument that has just read a value (SI) at a point."""
        self.errors.pop(point, None)
        self.errors[point] = read - truth if isinstance(truth, (int, float)) else 0.0
        self.last[point] = read
        for first in list(self.errors)[:-MOST_FITTED]:
            del self.errors[first]

    def seen(self, turn: Turn) -> tuple[Fitted, ...]:
        """Return what all of them show now, the last fitted one first."""
        made = []
        for point, error in reversed(self.errors.items()):
            truth = turn.truth(point)
            live = isinstance(truth, (int, float))
            if isinstance(truth, (int, float)):
                self.last[point] = truth + error
            made.append(Fitted(turn.library.points[point], self.last.get(point), live))
        return tuple(made)


def has_face(event: Event, turn: Turn) -> bool:
    """Return whether an event is a reading of an instrument with a face."""
    if event.kind != "reading" or event.point is None or not isinstance(event.value, float):
        return False
    return face_of(turn.library.points[event.point], turn.sheet, System.US) is not None


class Course(QObject):
    """One practice at a time.

    Signals:
        begun: a unit is there to work on.
        changed: `now` is new.
        happened: the event that an act brought about.
        noticed: events (a tuple) that the unit brought about by itself.
        acting: whether an act is on its way.
        paced: the clock runs, stands or goes at another speed.
        reckoning: the practice is over and its debrief is being made.
        ended: the debrief.
        failed: (sentence, exception).
    """

    begun = Signal()
    changed = Signal()
    happened = Signal(object)
    noticed = Signal(object)
    acting = Signal(bool)
    paced = Signal()
    reckoning = Signal()
    ended = Signal(object)
    failed = Signal(str, object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.background = Background(self)
        self.clock = Clock()
        self.now: Now | None = None
        self.scenario: Scenario | None = None
        self.sheet: DataSheet | None = None
        self.points: Mapping[str, Point] = {}
        self.debrief: Debrief | None = None
        self.asked: Counter[str] = Counter()
        """How often the number of a needle was asked for, by point."""
        self.told: set[str] = set()
        """Points whose needle's number has been told."""
        self.busy = False
        self._turn: Turn | None = None
        self._calls = 0
        """How many practices have been begun or left: what comes back from an earlier one is not wanted."""
        self._gauges = _Gauges()
        self._since = QElapsedTimer()
        self._timer = QTimer(self)
        self._timer.setInterval(TICK)
        self._timer.timeout.connect(self._tick)

    # --- beginning and ending ---

    def begin(self, make: Callable[[], Turn], system: System) -> None:
        """Begin a practice.

        Args:
            make: makes the turn; called beside the window.
            system: units in which the unit tells what it shows.
        """
        self.leave()
        gauges, call = self._gauges, self._calls

        def work() -> tuple[Turn, Now]:
            turn = make()
            turn.system = system
            return turn, self._look(turn, gauges)

        def then(made: tuple[Turn, Now]) -> None:
            if self._calls != call:
                return
            self._turn, self.now = made
            self.scenario, self.sheet = self._turn.scenario, self._turn.sheet
            self.points = self._turn.library.points
            self._act(False)
            self._since.start()
            self._timer.start()
            self.begun.emit()
            self.changed.emit()

        self._act(True)
        self.background.run(
            work, then, lambda problem: self._failed(say("The practice could not be begun."), problem)
        )

    def leave(self) -> None:
        """Let go of the practice that is going on, if one is."""
        self._calls += 1
        self._act(False)
        self._timer.stop()
        self.clock = Clock(self.clock.speed)
        self._turn, self.now, self.debrief, self.scenario = None, None, None, None
        self._gauges = _Gauges()
        self.asked, self.told = Counter(), set()

    def shut(self) -> None:
        """Stop everything; the window is closing."""
        self._timer.stop()
        self.clock.running = False
        self.background.close()

    # --- time ---

    def run(self, on: bool) -> None:
        """Let the clock run, or stop it."""
        if self.now is None or self.now.finished or self.debrief is not None:
            on = False
        if on != self.clock.running:
            self._since.restart()
            self.clock.running = on
            self.paced.emit()

    def pace(self, speed: int) -> None:
        """Let the clock run at a speed."""
        assert speed in SPEEDS
        self._count()
        self.clock.speed = speed
        self.paced.emit()
        self.run(True)

    def _count(self) -> None:
        self.clock.passed(self._since.restart() / 1000.0)

    def _tick(self) -> None:
        self._count()
        # One thing at a time: the time that passes meanwhile is owed and lived through afterwards.
        if not self.busy and self.background.idle and self.clock.owed >= LEAST_WAIT:
            seconds = self.clock.take()
            self._ask(lambda turn: turn.think(seconds / 60.0), aloud=False)

    # --- acts ---

    def do(self, act: Act) -> None:
        """Do one thing; `happened` tells what came of it."""
        deeds: dict[str, Callable[[Turn], Event]] = {
            "measure": lambda turn: turn.measure(act.id),
            "look": lambda turn: turn.look(act.id),
            "change": lambda turn: turn.change(act.id),
            "mend": lambda turn: turn.mend(act.id) if act.id else turn.prove(),
            "wait": lambda turn: turn.wait(float(act.id)),
        }
        self._ask(deeds[act.way])

    def switch(self, system: System) -> None:
        """Tell in other units from now on."""

        def deed(turn: Turn) -> None:
            turn.system = system

        self._ask(deed, aloud=False)

    def hint(self) -> None:
        """Ask for a hint."""
        self._ask(lambda turn: turn.hint())

    def give_up(self) -> None:
        """End the practice unsolved."""
        self._ask(lambda turn: turn.give_up())

    def ask_number(self, point: str) -> None:
        """Count that the number of a needle was asked for; it costs nothing."""
        self.asked[point] += 1
        self.told.add(point)
        self.changed.emit()

    def take_off(self, point: str) -> None:
        """Take an instrument off."""
        gauges = self._gauges

        def deed(turn: Turn) -> None:
            gauges.errors.pop(point, None)

        self._ask(deed, aloud=False)

    def _ask(self, deed: Callable[[Turn], Event | None], *, aloud: bool = True) -> None:
        """Do something with the turn beside the window, then look at everything anew."""
        turn, gauges = self._turn, self._gauges
        if turn is None or (aloud and self.busy) or (self.now is not None and self.now.finished):
            return
        if aloud:
            self._act(True)

        def work() -> tuple[Event | None, Now]:
            event = deed(turn)
            if event is not None and has_face(event, turn):
                assert event.point is not None
                assert isinstance(event.value, float)
                gauges.fit(event.point, event.value, turn.truth(event.point))
            return event, self._look(turn, gauges)

        def then(made: tuple[Event | None, Now]) -> None:
            if aloud:
                self._act(False)
            if self._turn is not turn:
                return
            known = 0 if self.now is None else len(self.now.events)
            event, self.now = made
            if aloud and event is not None:
                if event.kind == "reading" and event.point:
                    self.told.discard(event.point)
                self.happened.emit(event)
            if own := tuple(one for one in self.now.events[known:] if one.kind == "unit"):
                self.noticed.emit(own)
            self.changed.emit()
            if self.now.finished:
                self._end(turn)

        self.background.run(
            work, then, lambda problem: self._failed(say("That could not be worked out."), problem)
        )

    def _act(self, on: bool) -> None:
        self.busy = on
        self.acting.emit(on)

    def _failed(self, sentence: str, problem: BaseException) -> None:
        self.run(False)
        self._act(False)
        self.failed.emit(sentence, problem)

    def _end(self, turn: Turn) -> None:
        self.run(False)
        self._timer.stop()
        self.reckoning.emit()

        def work() -> Debrief:
            from faultdoc.practice.debrief import debrief

            return debrief(turn)

        def then(made: Debrief) -> None:
            if self._turn is turn:
                self.debrief = made
                self.ended.emit(made)

        self.background.run(
            work, then, lambda problem: self._failed(say("The debrief could not be made."), problem)
        )

    @staticmethod
    def _look(turn: Turn, gauges: _Gauges) -> Now:
        """Return how everything is; called beside the window."""
        points, there = turn.library.points, set(turn.points())
        return Now(
            clock=turn.clock,
            minutes=turn.minutes,
            state=turn.state,
            shows=tuple(turn.unit_shows()),
            events=tuple(turn.events),
            acts=acts_of(
                [point for id, point in points.items() if id in there],
                turn.questions(),
                turn.changes(),
                turn.remedies(),
            ),
            fitted=gauges.seen(turn),
            stop=turn.stop,
            finished=turn.finished,
        )

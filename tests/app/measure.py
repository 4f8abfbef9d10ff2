"""What the bench measures of the window: a random case's answers, many cases, and random events."""

from __future__ import annotations

import os
import random
import time
from pathlib import Path

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication

from faultdoc.app.office import Office
from faultdoc.app.style import apply_style
from faultdoc.app.window import Window
from faultdoc.library.places import resources_folder
from faultdoc.record import moves
from tests.app.walker import Heart, RandomUser, calm, walk

__all__ = ["answers_to_paint", "cases_memory", "pressing_anything"]


def _window() -> Window:
    app = QApplication.instance() or QApplication([])
    assert isinstance(app, QApplication)
    apply_style(app)
    office = Office()
    window = Window(office)
    window.show()
    window.load(None)
    calm(window)
    return window


def _cases() -> list[Path]:
    return sorted((resources_folder() / "cases").glob("*.yaml"))


class _Painted(QObject):
    """Notes when the step page is painted with a question that was not there before."""

    def __init__(self, window: Window) -> None:
        super().__init__()
        self.window, self.at, self.before = window, 0.0, None
        window.work.step.inside.installEventFilter(self)

    def eventFilter(self, _: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's own name
        """Look at every paint."""
        if event.type() is QEvent.Type.Paint and self.window.work.step.view is not self.before and not self.at:
            self.at = time.perf_counter()
        return False


def answers_to_paint(cases: int) -> list[float]:
    """Return ms from every answer of some cases, given at random, to the next step painted."""
    window = _window()
    chance = random.Random(5)
    times: list[float] = []
    for place in range(cases):
        window.open_case(_cases()[place % 6])
        calm(window)
        painted = _Painted(window)
        for _ in range(14):
            desk = window.desk
            assert desk.assessment is not None
            step = desk.step
            question = desk.assessment.bench.problem.questions.get(step.id)
            if step.kind == "state_change":
                changes = {one.id: one for one in desk.assessment.bench.library.plant.changes}
                after = moves.change_state(desk.assessment.case, changes[step.id])
            elif question is None:
                break
            elif question.outcomes:
                after = moves.answer(desk.assessment.case, step.id, chance.choice(question.outcomes).id)
            else:
                after = moves.answer(desk.assessment.case, step.id, "could_not_measure")
            painted.before, painted.at = window.work.step.view, 0.0
            start = time.perf_counter()
            if not desk.do("answer", after):
                break
            while not painted.at and time.perf_counter() - start < 20.0:
                QApplication.processEvents()
            times.append(1000.0 * (painted.at - start))
            calm(window)
        window.work.step.inside.removeEventFilter(painted)
        window.close_tab(window.tab)
        calm(window)
    window.close()
    return times


def _megabytes() -> float:
    for line in Path(f"/proc/{os.getpid()}/status").read_text(encoding="ascii").splitlines():
        if line.startswith("VmRSS:"):
            return int(line.split()[1]) / 1024
    return float("nan")


def cases_memory(count: int) -> tuple[float, float]:
    """Return MB held after 100 cases, and after all, each opened, answered once and put away."""
    window = _window()
    early = 0.0
    for place in range(count):
        window.open_case(_cases()[place % 6])
        calm(window)
        desk = window.desk
        assert desk.assessment is not None
        desk.do("note", moves.note(desk.assessment.case, f"case {place}"))
        calm(window)
        window.close_tab(window.tab)
        calm(window)
        if place == 99:
            early = _megabytes()
    late = _megabytes()
    window.close()
    return early, late


def pressing_anything(events: int) -> tuple[int, float, int, str]:
    """Return events done, ms of the longest stand-still, how many were above 100 ms, and where the longest was."""
    longest, blocks, where, done = 0.0, 0, "", 0
    each = 2_500
    for seed in range(events // each):
        window = _window()
        heart = Heart()
        walk(window, RandomUser(window, 100 + seed), _cases()[seed % 6], each)
        if heart.longest > longest:
            longest, where = heart.longest, heart.where
        blocks += heart.blocks
        done += each
        heart.stop()
        window.close()
    return done, longest, blocks, where

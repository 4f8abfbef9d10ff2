"""A user who presses anything: seeded random events on a real window, and a watch on how long it stands still.

Used by the tests, which look for exceptions, lost answers and dead ends, and by the bench, which measures.
"""

from __future__ import annotations

import random
import sys
import threading
import time
import traceback
from pathlib import Path

from PySide6.QtCore import QObject, QPoint, QPointF, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QApplication,
    QComboBox,
    QFileDialog,
    QLineEdit,
    QPlainTextEdit,
    QWidget,
)

from faultdoc.record.session import replay

TEXTS = (
    "62", "62 psi", "-5", "44 °F", "1e9", "abc", "", "12,5", "460 V", "3", "± 2", "0", "58 gpm ± 2", "\u202e12",
    "9" * 40,
    "the pump hums", "<b>x</b>", "=1+1", "1 h 20 min", "north side, call back",
)  # fmt: skip
KEYS = ("1", "2", "3", "Esc", "Tab", "Return", "Space", "Down", "Up", "PgDown", "F1", "F2")
CHORDS = ("Z", "Y", "U", "F", "T", "G", "D", "P", "E", "N", "M", "K", "L", "J", "Tab", "1")
LEAVES_ALONE = ("Leave FaultDoc", "Print")
"""Buttons whose work leaves the window."""


class Heart(QObject):
    """Beats in the window's thread every few milliseconds; a watching thread notes when it does not.

    Attributes:
        longest: ms, the longest time without a beat.
        where: for that time, where the window's thread was, innermost last.
        blocks: number of times above `limit` ms.
    """

    def __init__(self, limit: float = 100.0) -> None:
        super().__init__()
        self.limit = limit
        self.longest, self.blocks, self.where = 0.0, 0, ""
        self._last = time.perf_counter()
        self._main = threading.get_ident()
        self._seen = ""
        self._stop = threading.Event()
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._beat)
        self._timer.start(4)
        self._thread = threading.Thread(target=self._watch, daemon=True)
        self._thread.start()

    def _beat(self) -> None:
        now = time.perf_counter()
        waited = 1000.0 * (now - self._last)
        if waited > self.limit:
            self.blocks += 1
        if waited > self.longest:
            self.longest, self.where = waited, self._seen
        self._last, self._seen = now, ""

    def _watch(self) -> None:
        while not self._stop.wait(0.02):
            if 1000.0 * (time.perf_counter() - self._last) > 0.6 * self.limit:
                frame = sys._current_frames().get(self._main)
                if frame is not None:
                    self._seen = "".join(traceback.format_stack(frame)[-4:])

    def reset(self) -> None:
        """Forget what was seen so far."""
        self.longest, self.blocks, self.where, self._last = 0.0, 0, "", time.perf_counter()

    def stop(self) -> None:
        """Watch no longer."""
        self._timer.stop()
        self._stop.set()
        self._thread.join()


class RandomUser:
    """Presses, types and chooses at random, the same for the same seed and the same window."""

    def __init__(self, window: QWidget, seed: int) -> None:
        self.window = window
        self.random = random.Random(seed)
        self.log: list[str] = []
        QFileDialog.getOpenFileName = staticmethod(lambda *_, **__: ("", ""))  # type: ignore[assignment]
        QFileDialog.getSaveFileName = staticmethod(lambda *_, **__: ("", ""))  # type: ignore[assignment]

    def act(self) -> None:
        """Do one thing."""
        pick = self.random.random()
        if pick < 0.62:
            self._press()
        elif pick < 0.74:
            self._type()
        elif pick < 0.80:
            self._choose()
        elif pick < 0.92:
            self._key()
        else:
            self._point()

    def _visible(self, kind: type) -> list:
        page = self.window.stack.currentWidget()
        found = [one for one in self.window.findChildren(kind) if one.isVisible() and one.isEnabled()]
        # The page itself rather than the bar, mostly: that is what people press.
        inside = [one for one in found if page.isAncestorOf(one)]
        return inside if inside and self.random.random() < 0.85 else found

    def _press(self) -> None:
        made = [one for one in self._visible(QAbstractButton) if not one.text().startswith(LEAVES_ALONE)]
        made = [one for one in made if one is not self.window.menu_button]
        if made:
            one = self.random.choice(made)
            self.log.append(f"press {one.accessibleName() or one.text()!r} on {self.window.page}")
            one.click()

    def _type(self) -> None:
        fields = self._visible(QLineEdit) + self._visible(QPlainTextEdit)
        if fields:
            field, text = self.random.choice(fields), self.random.choice(TEXTS)
            self.log.append(f"type {text!r} into {field.accessibleName()!r} on {self.window.page}")
            field.setFocus()
            if isinstance(field, QLineEdit):
                field.setText(text)
                if self.random.random() < 0.5:
                    QTest.keyClick(field, Qt.Key.Key_Return)
            else:
                field.setPlainText(text)

    def _choose(self) -> None:
        boxes = [one for one in self._visible(QComboBox) if one.count()]
        if boxes:
            box = self.random.choice(boxes)
            place = self.random.randrange(box.count())
            self.log.append(f"choose {place} of {box.accessibleName()!r}")
            box.setCurrentIndex(place)
            box.activated.emit(place)

    def _key(self) -> None:
        target = QApplication.focusWidget() or self.window
        if self.random.random() < 0.5:
            name = self.random.choice(KEYS)
            keys = {"Esc": "Escape", "PgDown": "PageDown"}
            self.log.append(f"key {name} on {self.window.page}")
            QTest.keyClick(target, getattr(Qt.Key, f"Key_{keys.get(name, name)}"))
        else:
            name = self.random.choice(CHORDS)
            self.log.append(f"Ctrl+{name} on {self.window.page}")
            QTest.keyClick(target, getattr(Qt.Key, f"Key_{name}"), Qt.KeyboardModifier.ControlModifier)

    def _point(self) -> None:
        areas = self._visible(QAbstractScrollArea)
        if areas:
            area = self.random.choice(areas)
            view = area.viewport()
            at = QPointF(self.random.random() * view.width(), self.random.random() * view.height())
            self.log.append(f"click in {area.accessibleName() or type(area).__name__} on {self.window.page}")
            QTest.mouseClick(view, Qt.MouseButton.LeftButton, pos=QPoint(int(at.x()), int(at.y())))


def calm(window: QWidget, patience: float = 120.0) -> None:
    """Let the window come to rest.

    Raises:
        TimeoutError: when it does not.
    """
    end = time.monotonic() + patience
    while True:
        QApplication.processEvents()
        if window.office.background.idle and not any(tab.desk.looking for tab in window.tabs):
            return
        if time.monotonic() > end:
            raise TimeoutError("the window does not come to rest")
        time.sleep(0.001)


def nothing_is_lost(window: QWidget) -> None:
    """See that what each desk shows is what the case book would give back after a power cut.

    Raises:
        AssertionError: when it is not.
    """
    for tab in window.tabs:
        desk = tab.desk
        if desk.session is None or desk.case_id is None:
            continue
        start, entries = window.office.book().load(desk.case_id)
        again = replay(desk.session.bench, start, entries)
        assert again.case == desk.session.case
        assert [what for what, _ in again.done] == [what for what, _ in desk.session.done]
        assert [what for what, _ in again.undone] == [what for what, _ in desk.session.undone]


def a_way_on(window: QWidget) -> None:
    """See that something can be pressed, and that the red button can.

    Raises:
        AssertionError: when not.
    """
    assert window.stack.currentWidget() is not None
    assert any(one.isVisible() and one.isEnabled() for one in window.findChildren(QAbstractButton))
    assert window.stop_button.isEnabled()


def walk(window: QWidget, user: RandomUser, case: Path, events: int) -> int:
    """Have a user do so many things, a case open at any time; return how often all was looked at.

    Raises:
        AssertionError: when an answer is lost or there is no way on.
        TimeoutError: when the window does not come to rest.
    """
    window.open_case(case)
    calm(window)
    looked = 0
    for event in range(1, events + 1):
        user.act()
        QApplication.processEvents()
        if event % 5 == 0:
            calm(window)
        if event % 125 == 0:
            calm(window)
            nothing_is_lost(window)
            a_way_on(window)
            looked += 1
            while len(window.tabs) > 4:
                window.close_tab(window.tabs[-1])
                calm(window)
            if all(tab.desk.case is None for tab in window.tabs):
                window.open_case(case)
                calm(window)
    return looked

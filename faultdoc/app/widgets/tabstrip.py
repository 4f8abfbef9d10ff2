"""The strip of open cases: one tab each with its title, its unit, and a mark when it waits for something."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from faultdoc.app.widgets.basic import TARGET, button, clear, tip
from faultdoc.app.widgets.elided import ElidedLabel
from faultdoc.words import say

__all__ = ["TabLine", "TabStrip"]

WIDEST = 300


@dataclass(frozen=True)
class TabLine:
    """What one tab says: title, unit, and what it waits for ('' for nothing)."""

    title: str
    unit: str
    mark: str


class _TabButton(QPushButton):
    """A tab: two lines that end in dots where there is too little room."""

    def __init__(self, line: TabLine, place: int) -> None:
        super().__init__()
        self.setProperty("role", "case_tab")
        self.setCheckable(True)
        self.setMinimumHeight(TARGET)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        down = QVBoxLayout(self)
        down.setContentsMargins(10, 3, 4, 3)
        down.setSpacing(0)
        self._title, self._below = ElidedLabel(), ElidedLabel()
        self._title.setProperty("voice", "tab_title")
        self._below.setProperty("voice", "tab_words")
        for part in (self._title, self._below):
            part.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
            down.addWidget(part)
        self.put(line, place)

    def put(self, line: TabLine, place: int) -> None:
        """Show other words."""
        below = "  |  ".join(part for part in (line.mark.upper(), line.unit) if part)
        self._title.put(line.title)
        self._below.put(below)
        waits = say(", waits for: {mark}", mark=line.mark) if line.mark else ""
        self.setAccessibleName(
            say(
                "Case {place}: {title}, {what}{waits}",
                place=place,
                title=line.title,
                what=line.unit or say("no unit yet"),
                waits=waits,
            )
        )
        tip(self, f"{line.title}\n{below}".strip())

    def sizeHint(self) -> QSize:
        """Return the size that suits."""
        return QSize(WIDEST, TARGET + 4)

    def minimumSizeHint(self) -> QSize:
        """Return the least size."""
        return QSize(90, TARGET + 4)


class TabStrip(QFrame):
    """Signals `chosen` and `closing` with the tab's place, and `more`; hidden while there is but one tab."""

    chosen = Signal(int)
    closing = Signal(int)
    more = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("role", "strip")
        self.tabs: list[_TabButton] = []
        self.closers: list[QPushButton] = []
        self._across = QHBoxLayout(self)
        self._across.setContentsMargins(8, 2, 8, 2)
        self._across.setSpacing(4)
        self.hide()

    def fill(self, lines: Sequence[TabLine], current: int) -> None:
        """Show these tabs, the current one marked."""
        if len(lines) != len(self.tabs):
            self._build(lines)
        for place, line in enumerate(lines):
            self.tabs[place].put(line, place + 1)
            self.tabs[place].setChecked(place == current)
            self.closers[place].setAccessibleName(
                say("Close the tab of {title}; its case stays", title=line.title)
            )
        self.setVisible(len(lines) > 1)

    def _build(self, lines: Sequence[TabLine]) -> None:
        clear(self._across)
        self.tabs, self.closers = [], []
        for place, line in enumerate(lines):
            made = _TabButton(line, place + 1)
            made.setMaximumWidth(WIDEST)
            made.clicked.connect(lambda _=False, place=place: self.chosen.emit(place))
            closer = button("×", partial(self.closing.emit, place), "strip")
            closer.setFixedWidth(TARGET)
            pair = QWidget()
            pair.setMaximumWidth(WIDEST + TARGET)
            inside = QHBoxLayout(pair)
            inside.setContentsMargins(0, 0, 0, 0)
            inside.setSpacing(0)
            inside.addWidget(made, 1)
            inside.addWidget(closer)
            self._across.addWidget(pair, 1)
            self.tabs.append(made)
            self.closers.append(closer)
        self.plus = button("+", self.more.emit, "strip", name=say("New case in a tab of its own"))
        self.plus.setFixedWidth(TARGET + 8)
        self._across.addWidget(self.plus)
        self._across.addStretch(0)

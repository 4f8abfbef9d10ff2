"""What can be done: chosen by way and group or found by words, looked at once more, then done."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from faultdoc.app.practice.acts import WAYS, Act, Way, found, groups
from faultdoc.app.practice.course import Course
from faultdoc.app.widgets.basic import TARGET, Box, button, buttons, facts, label, numbered, one_of, row
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.words import say

__all__ = ["ActsPane"]

MOST = 25
FEW = 9
"""Acts of one way that need no groups."""


class ActsPane(QWidget):
    """The ways to act, a field to search in, and the list below them, which scrolls by itself."""

    def __init__(self, course: Course) -> None:
        super().__init__()
        self.setObjectName("ground")
        self._course = course
        self.way: Way = "look"
        self.group: str | None = None
        self.opened: Act | None = None
        self.entries: dict[str, ChoiceButton] = {}
        """What is listed: groups by their name, acts by `way:id`."""
        self.do: QPushButton | None = None
        self._drawn: object = None
        down = QVBoxLayout(self)
        down.setContentsMargins(10, 8, 0, 0)
        down.setSpacing(6)
        across = QHBoxLayout()
        across.setSpacing(4)
        self.ways: dict[Way, QPushButton] = {}
        self._group = QButtonGroup(self)
        for way, words in WAYS.items():
            made = one_of(
                self._group,
                words,
                partial(self.show_way, way),
                "way",
                say("{words}: what can be done", words=words),
            )
            across.addWidget(made, 1)
            self.ways[way] = made
        line = QHBoxLayout()
        line.setContentsMargins(0, 0, 10, 0)
        line.addLayout(across)
        down.addLayout(line)
        self.line = QLineEdit()
        self.line.setMinimumHeight(TARGET)
        self.line.setAccessibleName(say("Find what to measure, look at, change or mend"))
        self.line.setPlaceholderText(say("Find: suction, strainer, valve ..."))
        self.line.textChanged.connect(self._typed)
        self.line.returnPressed.connect(self._enter)
        self.clear = button(say("Clear"), self.line.clear, name=say("Clear the search"))
        self.clear.hide()
        search = row(self.line, self.clear, spacing=6)
        search.setContentsMargins(0, 0, 10, 0)
        down.addLayout(search)
        self.page = Page()
        self.page.margins = (0, 4, 10, 12)
        self.page.body.setSpacing(6)
        down.addWidget(self.page, 1)
        course.changed.connect(self.draw)
        course.happened.connect(self._happened)
        course.begun.connect(self._begun)
        self.ways[self.way].setChecked(True)

    def _begun(self) -> None:
        self.opened, self.group, self._drawn = None, None, None
        self.line.clear()
        self.show_way("look")

    def _happened(self, _: object) -> None:
        """Shut what has been done, so that a second press does not do it again."""
        done, self.opened = self.opened, None
        self.draw()
        if done is not None and self.isVisible() and f"{done.way}:{done.id}" in self.entries:
            self.entries[f"{done.way}:{done.id}"].setFocus()

    def show_way(self, way: Way) -> None:
        """List what can be done in a way."""
        self.way, self.group, self.opened = way, None, None
        self.ways[way].setChecked(True)
        self.line.blockSignals(True)
        self.line.clear()
        self.line.blockSignals(False)
        self.clear.hide()
        self.draw()
        self.page.to_top()

    def begin_search(self) -> None:
        """Be ready to type."""
        self.line.setFocus()
        self.line.selectAll()

    def open(self, act: Act) -> None:
        """Show what an act is before it is done."""
        self.opened = None if self.opened == act else act
        self.draw()
        if self.do is not None:
            self.do.setFocus()
            self.page.show_part(self.do)

    def _typed(self) -> None:
        self.opened = None
        self.clear.setVisible(bool(self.line.text()))
        self.draw()
        self.page.to_top()

    def _enter(self) -> None:
        """Go to the first that was found."""
        first = next(iter(self.entries.values()), None)
        if first is not None:
            first.setFocus()

    def _choose_group(self, group: str | None) -> None:
        self.group, self.opened = group, None
        self.draw()
        self.page.to_top()
        first = next(iter(self.entries.values()), None)
        if first is not None:
            first.setFocus()

    def draw(self) -> None:
        """List what there is, unless the list is the same as before."""
        now = self._course.now
        if now is None:
            return
        wanted = self.line.text().strip()
        key = (now.acts, self.way, self.group, self.opened, wanted)
        if key == self._drawn:
            return
        self._drawn = key
        if self.opened is not None and self.opened not in now.acts:
            self.opened = None
        at = self.page.verticalScrollBar().value()
        had = next((id for id, made in self.entries.items() if made.hasFocus()), None)
        self.page.empty()
        self.entries, self.do = {}, None
        if wanted:
            self._list(found(now.acts, wanted), say("Nothing here has these words: '{wanted}'.", wanted=wanted))
        else:
            self._browse(groups(now.acts, self.way))
        self.page.verticalScrollBar().setValue(at)
        if had in self.entries:
            self.entries[had].setFocus()

    def _browse(self, those: dict[str, tuple[Act, ...]]) -> None:
        acts = tuple(act for group in those.values() for act in group)
        if self.group is not None and self.group in those:
            back = ChoiceButton(
                f"◂ {self.group}", say("Back to all groups"), on_click=partial(self._choose_group, None)
            )
            self.page.body.addWidget(back)
            self.entries["back"] = back
            self._list(those[self.group], "", most=200)
        elif len(acts) <= FEW or len(those) < 2:
            self._list(acts, say("There is nothing of this to do now."), most=200)
        else:
            for group, members in those.items():
                if not group:
                    self._list(members, "")
                    continue
                made = ChoiceButton(f"{group} ({len(members)})", on_click=partial(self._choose_group, group))
                self.page.body.addWidget(made)
                self.entries[group] = made

    def _list(self, acts: tuple[Act, ...], nothing: str, most: int = MOST) -> None:
        for act in acts[:most]:
            said = f"{WAYS[act.way]}. {act.group}" if self.line.text().strip() and act.group else ""
            made = ChoiceButton(act.title, said, on_click=partial(self.open, act))
            self.page.body.addWidget(made)
            self.entries[f"{act.way}:{act.id}"] = made
            if act == self.opened:
                self._details(act)
        if not acts and nothing:
            self.page.body.addWidget(label(nothing, "faint"))
        elif len(acts) > most:
            self.page.body.addWidget(
                label(say("And {what} more: type another word.", what=len(acts) - most), "faint")
            )

    def _details(self, act: Act) -> None:
        box = Box("note")
        self.do = button(act.do, partial(self._course.do, act), "main", name=f"{act.do}: {act.title}")
        box.body.addWidget(buttons(self.do, button(say("Not now"), partial(self.open, act), name=say("Not now"))))
        if act.facts:
            box.body.addWidget(facts(*act.facts, (say("Watch for"), act.watch_for), left=96))
        if act.steps:
            box.body.addWidget(numbered(act.steps))
        self.page.body.addWidget(box)

"""The list of scenarios: who practises, the one that suits next, one by chance, and all by level."""

from __future__ import annotations

from functools import partial
from itertools import pairwise

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from faultdoc.app.practice.offer import Offer, Offered
from faultdoc.app.widgets.basic import TARGET, Box, button, clear, label, row
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.record.words import matches, minutes
from faultdoc.words import say

__all__ = ["ChoosePage"]


class ChoosePage(Page):
    """Signals `chosen` with a scenario, `random_wanted` with a level (0 for any), `named` with a name, `back`."""

    chosen = Signal(object)
    random_wanted = Signal(int)
    named = Signal(str)
    back = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.entries: dict[str, ChoiceButton] = {}
        self.random: dict[int, ChoiceButton] = {}
        self.next: ChoiceButton | None = None
        self._offer: Offer | None = None
        self.body.addWidget(label(say("PRACTICE ON A SIMULATED UNIT"), "kind"))
        self.body.addWidget(label(say("Find the fault before it costs more than it must"), "headline"))
        self.name = QLineEdit()
        self.name.setMinimumHeight(TARGET)
        self.name.setMaxLength(40)
        self.name.setAccessibleName(say("Your name; results are kept under it"))
        self.name.setPlaceholderText(say("Your name: results are kept under it on this computer"))
        self.name.editingFinished.connect(lambda: self.named.emit(self.name.text().strip()))
        self.away = button(say("Back"), self.back.emit)
        top = row(self.name, self.away)
        top.setStretch(0, 1)
        self.body.addLayout(top)
        self.line = QLineEdit()
        self.line.setMinimumHeight(TARGET)
        self.line.setAccessibleName(say("Words of a scenario, to shorten the list"))
        self.line.setPlaceholderText(say("Find a scenario: pump, pressure, water ..."))
        self.line.textChanged.connect(self._list)
        self._place = QVBoxLayout()
        self._place.setSpacing(8)
        self.waiting = label(say("Reading the scenarios ..."), "faint")
        self.body.addWidget(self.waiting)
        self._first = QVBoxLayout()
        self._first.setSpacing(8)
        self.body.addLayout(self._first)
        self.body.addWidget(self.line)
        self.body.addLayout(self._place)
        self.line.hide()

    def fill(self, offer: Offer) -> None:
        """Show what there is."""
        had_none = self._offer is None
        self._offer = offer
        self.waiting.hide()
        self.line.show()
        clear(self._first)
        self.next = None
        suits = next((one for one in offer.scenarios if one.scenario.id == offer.next), None)
        if suits is not None:
            self._first.addWidget(label(say("Next for you"), "title"))
            if offer.so_far:
                self._first.addWidget(label(offer.so_far, "faint"))
            self.next = self._entry(suits)
            self._first.addWidget(self.next)
        self._first.addWidget(label(say("A call that nobody has prepared"), "title"))
        self.random = {0: self._chance(say("Any"), 0)}
        self.random |= {level: self._chance(say("Level {level}", level=level), level) for level in offer.levels}
        self._first.addLayout(row(*self.random.values(), spacing=8))
        self._first.addWidget(label(say("Prepared calls"), "title"))
        self._list()
        if had_none and not self.name.hasFocus():
            self.focus_first()

    def focus_first(self) -> None:
        """Put the focus where a person begins."""
        first = self.next or next(iter(self.entries.values()), None)
        (first or self.away).setFocus()

    def _chance(self, title: str, level: int) -> ChoiceButton:
        made = ChoiceButton(title, on_click=partial(self.random_wanted.emit, level))
        made.setAccessibleName(say("A call by chance: {lower}", lower=title.lower()))
        return made

    def _entry(self, one: Offered) -> ChoiceButton:
        scenario = one.scenario
        # What it teaches says what is wrong: it is told to those who have been through it.
        taught = f"\n{scenario.teaches}" if one.result else ""
        words = say(
            "{unit}, par {minutes}\n{what}{taught}",
            unit=one.unit,
            minutes=minutes(scenario.minutes),
            what=one.result or say("Not done yet"),
            taught=taught,
        )
        return ChoiceButton(scenario.title, words, on_click=partial(self.chosen.emit, scenario))

    def _list(self) -> None:
        """Show the scenarios that have all the words typed."""
        clear(self._place)
        self.entries = {}
        wanted = self.line.text()
        for level, words in self._offer.levels.items() if self._offer else ():
            assert self._offer is not None
            those = [
                one
                for one in self._offer.scenarios
                if one.scenario.level == level
                and matches(wanted, one.scenario.title, one.scenario.briefing, one.unit)
            ]
            if not those:
                continue
            box = Box("quiet", label(say("Level {level}: {words}", level=level, words=words), "title"))
            box.body.setContentsMargins(0, 4, 0, 0)
            for one in those:
                self.entries[one.scenario.id] = self._entry(one)
                box.body.addWidget(self.entries[one.scenario.id])
            self._place.addWidget(box)
        if not self.entries and wanted:
            self._place.addWidget(label(say("No scenario has these words. Clear them to see all."), "faint"))
        # As they stand, whatever was made first.
        order = [self.away, self.next, *self.random.values(), self.line, *self.entries.values()]
        for first, then in pairwise([one for one in order if one is not None]):
            QWidget.setTabOrder(first, then)

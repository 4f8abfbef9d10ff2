"""The first page: go on with a case, open one, or begin a new one with its unit and what is seen."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QLineEdit, QVBoxLayout

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import TARGET, Box, button, buttons, clear, label
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.record.words import matches
from faultdoc.words import say

__all__ = ["StartPage", "ago"]

MOST_UNFINISHED = 3
FEW = 6
"""Symptoms that need no field to shorten their list."""


def ago(then: datetime, now: datetime) -> str:
    """Return how long ago something was, in words.

    >>> ago(datetime(2026, 1, 1, 12, 0), datetime(2026, 1, 1, 12, 7))
    '7 minutes ago'
    """
    minutes = max(0, int((now - then).total_seconds() // 60))
    for size, one, more in (
        (60 * 24, say("1 day ago"), say("{count} days ago")),
        (60, say("1 hour ago"), say("{count} hours ago")),
        (1, say("1 minute ago"), say("{count} minutes ago")),
    ):
        if minutes >= size:
            count = minutes // size
            return one if count == 1 else more.format(count=count)
    return say("just now")


class StartPage(Page):
    """Signals `begin`, `open_wanted`, `unit_wanted`, `practice_wanted`, and `go_on`.

    `begin` comes with (unit, symptoms, title, whether by phone), `go_on` with a case id.
    """

    begin = Signal(str, object, str, bool)
    open_wanted = Signal()
    unit_wanted = Signal()
    go_on = Signal(int)
    practice_wanted = Signal()
    tour_wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.units: dict[str, ChoiceButton] = {}
        self.symptoms: dict[str, ChoiceButton] = {}
        self.unfinished: list[ChoiceButton] = []
        self._unit_group = QButtonGroup(self)
        self.title = QLineEdit()
        self._all_unfinished = False
        self._waiting = QVBoxLayout()
        self._waiting.setSpacing(8)
        self.body.addLayout(self._waiting)
        lead = say("New here? See a first case through: about two minutes, nothing is real.")
        self.first = Box("note", label(lead))
        self.show_me = button(say("Show me a first case"), self.tour_wanted.emit, "main")
        self.first.body.addWidget(buttons(self.show_me))
        self.first.setVisible(not desk.office.may_have_unfinished)
        self.body.addWidget(self.first)
        self.body.addWidget(label(say("New case"), "headline"))
        self.lead = label(say("Reading the fault trees and data sheets ..."), "faint")
        self.body.addWidget(self.lead)
        self._form = QVBoxLayout()
        self._form.setSpacing(10)
        self.body.addLayout(self._form)
        desk.office.listed.connect(self._fill)
        desk.office.unfinished_known.connect(self._show_unfinished)
        desk.left.connect(self._again)
        desk.changed.connect(self._retitle)
        if desk.office.may_have_unfinished:
            self._waiting.addWidget(label(say("Looking for unfinished cases ..."), "faint"))
        if desk.office.start_list is not None:
            self._fill()
        if desk.office.unfinished is not None:
            self._show_unfinished()

    def _fill(self) -> None:
        found = self._desk.office.start_list
        assert found is not None
        # A unit that has just been kept must not undo what was chosen beside it.
        seen = {id for id, made in self.symptoms.items() if made.isChecked()}
        titled = self.title.text()
        clear(self._form)
        self.units, self.symptoms = {}, {}
        self.lead.setText(say("Choose the unit and what is seen. More than one thing may be seen at once."))
        self._form.addWidget(label(say("1. Which unit?"), "title"))
        for unit in found.units:
            words = unit.words[self._desk.system.value]
            made = ChoiceButton(unit.title, words, sign="radio", on_click=self._look)
            self._unit_group.addButton(made)
            made.setChecked(unit.id == self._desk.settings.last_unit)
            self._form.addWidget(made)
            self.units[unit.id] = made
        self.new_unit = button(say("New unit from its nameplate"), self.unit_wanted.emit)
        self._form.addWidget(buttons(self.new_unit))
        self._form.addWidget(label(say("2. What is seen?"), "title"))
        self.finder = QLineEdit()
        self.finder.setMinimumHeight(TARGET)
        self.finder.setAccessibleName(say("Words of what is seen, to shorten the list"))
        self.finder.setPlaceholderText(
            say("Type a word of it to shorten the list, such as pump, breaker, cold, noise")
        )
        self.finder.textChanged.connect(self._shorten)
        self._form.addWidget(self.finder)
        # Only now: shown before it had its place, it would be a window of its own for a moment.
        self.finder.setVisible(len(found.symptoms) > FEW)
        self.none = label(say("Nothing in the list has these words. Clear them to see all of it."), "faint")
        self.none.hide()
        self._form.addWidget(self.none)
        for line in found.symptoms:
            made = ChoiceButton(line.symptom, line.title, sign="check", on_click=self._look)
            made.setChecked(line.id in seen)
            self._form.addWidget(made)
            self.symptoms[line.id] = made
        if len(self.symptoms) == 1:
            next(iter(self.symptoms.values())).setChecked(True)
        self._form.addWidget(label(say("3. Job title, if you want one"), "title"))
        self.title = QLineEdit(titled)
        self.title.setMinimumHeight(TARGET)
        self.title.setMaxLength(120)
        self.title.setAccessibleName(say("Job title, optional"))
        self.title.setPlaceholderText(say("For example: Tuesday call, west yard"))
        self.title.returnPressed.connect(self._go)
        self._form.addWidget(self.title)
        self.wrong = label("", "wrong")
        self.wrong.hide()
        self._form.addWidget(self.wrong)
        self.next = button(say("Go on: plant and people"), self._go, "main")
        self.call = button(say("Go on: a caller is on the phone"), partial(self._go, True))
        self.open = button(say("Open a case file"), self.open_wanted.emit)
        self.practice = button(
            say("Practice"), self.practice_wanted.emit, name=say("Practice on a simulated unit")
        )
        self._form.addWidget(buttons(self.next, self.call, self.open, self.practice))
        first = next((made for made in self.units.values() if made.isChecked()), None)
        (first or next(iter(self.units.values()))).setFocus()

    def _shorten(self, typed: str) -> None:
        """Show the symptoms that have all the words typed, and those that are ticked."""
        found = self._desk.office.start_list
        shown = 0
        for line in found.symptoms if found else ():
            wanted = matches(typed, line.symptom, line.title, line.id)
            shown += wanted
            self.symptoms[line.id].setVisible(wanted or self.symptoms[line.id].isChecked())
        self.none.setVisible(shown == 0)

    def _retitle(self) -> None:
        """Show the sizes in the units chosen."""
        found = self._desk.office.start_list
        for unit in found.units if found else ():
            self.units[unit.id].reword(unit.words[self._desk.system.value])

    def _look(self) -> None:
        self.wrong.hide()

    def _go(self, by_phone: bool = False) -> None:
        unit = next((id for id, made in self.units.items() if made.isChecked()), None)
        symptoms = tuple(id for id, made in self.symptoms.items() if made.isChecked())
        lacking = [] if unit else [say("which unit it is")]
        lacking += [] if symptoms else [say("what is seen")]
        if lacking or unit is None:
            self._refuse(say("Choose {join} first.", join=" and ".join(lacking)))
            return
        found = self._desk.office.start_list
        assert found is not None
        features = next(line.features for line in found.units if line.id == unit)
        for line in found.symptoms:
            missing = [one.replace("_", " ") for one in line.applies_to if one not in features]
            if line.id in symptoms and missing:
                self._refuse(
                    say(
                        "'{title}' is for units with {join}; this unit has none.",
                        title=line.title,
                        join=", ".join(missing),
                    )
                )
                return
        self.begin.emit(unit, symptoms, self.title.text().strip(), by_phone)

    def _refuse(self, words: str) -> None:
        self.wrong.setText(words)
        self.wrong.show()
        self.show_part(self.wrong)

    def _again(self) -> None:
        clear(self._waiting)
        if self.units:
            self.title.clear()
            self.finder.clear()
            self.wrong.hide()
            if len(self.symptoms) > 1:
                for made in self.symptoms.values():
                    made.setChecked(False)
        self.to_top()

    def _show_unfinished(self) -> None:
        clear(self._waiting)
        self.unfinished = []
        office = self._desk.office
        found = [one for one in office.unfinished or () if office.at_desk(one.id) is None]
        if not found:
            return
        self._waiting.addWidget(label(say("Not finished"), "headline"))
        now = datetime.now(UTC)
        known = self._desk.office.start_list
        titles = {line.id: line.title for line in known.units} if known else {}
        for one in found if self._all_unfinished else found[:MOST_UNFINISHED]:
            last = say("Last: {last}", last=one.last) if one.last else say("Nothing done yet")
            words = f"{titles.get(one.unit, one.unit)}. {ago(one.updated, now)}. {last}"
            made = ChoiceButton(
                say("Go on with {title}", title=one.title), words, on_click=partial(self.go_on.emit, one.id)
            )
            self.unfinished.append(made)
            self._waiting.addWidget(made)
        if len(found) > len(self.unfinished):
            rest = button(say("Show all {len}", len=len(found)), self._show_all, "quiet")
            self._waiting.addWidget(buttons(rest))

    def _show_all(self) -> None:
        self._all_unfinished = True
        self._show_unfinished()

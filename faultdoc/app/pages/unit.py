"""A new unit from its nameplate: the fields in groups, then what is made of them, then it is kept."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QWidget
from shiboken6 import isValid

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import Box, button, buttons, facts, label
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.app.widgets.plate import PlateChoice, PlateField, PlateLine
from faultdoc.checks.nameplate import NameplateDoubt, NameplateError, NameplateSheet, sheet_from
from faultdoc.library.ownunits import UnitExistsError, free_id, keep_unit
from faultdoc.library.sheets import quantity_text
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, show
from faultdoc.record.plate import FIELDS, GROUPS, place_words, with_its_unit
from faultdoc.words import say

__all__ = ["UnitPage"]

SETTLED = 30
"""Milliseconds till a page just filled is laid out."""


class UnitPage(Page):
    """The form, and the sheet made of it to be looked through before it is kept.

    Signals:
        back: the person leaves; what was typed stays.
        kept: the id of the unit that was kept.
    """

    back = Signal()
    kept = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.fields: dict[str, PlateField] = {}
        self.doubts: dict[NameplateDoubt, ChoiceButton] = {}
        self.made: NameplateSheet | None = None
        self._typed: dict[str, str] = {}
        self._shown_system = desk.system
        desk.changed.connect(self._switch)

    @property
    def reviewing(self) -> bool:
        """Whether the sheet is being looked through."""
        return self.made is not None

    # --- the form ---

    def fill(self) -> None:
        """Show the form, with what was typed before and not kept."""
        self._form()
        self.to_top()
        next(iter(self.fields.values())).focus()

    def _form(self, doubts: tuple[NameplateDoubt, ...] = ()) -> None:
        self.empty()
        self.made = None
        self.fields, self.doubts = {}, {}
        self._shown_system = self._desk.system
        self.body.addWidget(label(say("New unit from its nameplate"), "headline"))
        self.body.addWidget(
            label(
                say(
                    "Type what the plate says and leave the rest empty: what is not on it is "
                    "assumed, and shown to you before anything is kept. With units or without: "
                    "460 V, 72 gpm, 7 °C."
                ),
                "faint",
            )
        )
        for place, group in enumerate(GROUPS, start=1):
            box = Box("card", label(f"{place}. {group.title}", "headline"), label(group.help, "faint"))
            box.body.setSpacing(16)
            for id in group.fields:
                made = self._field(id)
                box.body.addWidget(made)
                self.fields[id] = made
            self.body.addWidget(box)
        for id, made in self.fields.items():
            made.doubt([one.text for one in doubts if one.field == id])
        self.wrong = label("", "wrong")
        self.wrong.hide()
        self.body.addWidget(self.wrong)
        self.look = button(say("See what is made of it"), self.review, "main")
        empty = button(say("Empty the form"), self._forget, "quiet")
        self.body.addWidget(buttons(self.look, button(say("Back"), self.back.emit), empty))

    def _field(self, id: str) -> PlateField:
        field, text = FIELDS[id], self._typed.get(id, "")
        made: PlateField
        if field.kind is Kind.CHOICE:
            made = PlateChoice(field, text)
        else:
            made = PlateLine(field, self._desk.system, text)
            made.entered.connect(partial(self._next, id))
        made.edited.connect(partial(self._note, id))
        return made

    def _note(self, id: str) -> None:
        self._typed[id] = self.fields[id].text
        self.wrong.hide()

    def _next(self, id: str) -> None:
        """Enter goes to the next field, and from the last one on to the sheet."""
        ids = list(self.fields)
        place = ids.index(id) + 1
        if place < len(ids):
            self.fields[ids[place]].focus()
        else:
            self.review()

    def _forget(self) -> None:
        self._typed = {}
        self.fill()

    def _switch(self) -> None:
        before, self._shown_system = self._shown_system, self._desk.system
        if before is self._desk.system:
            return
        for made in self.fields.values():
            made.switch(self._desk.system)
        if self.made is not None:
            # A bare number keeps the unit in which it was typed.
            self._typed = {id: with_its_unit(FIELDS[id], text, before) for id, text in self._typed.items()}
            self._review(sheet_from(self._typed, self._desk.system))

    # --- the sheet ---

    def review(self) -> None:
        """Show what is made of the fields, or what is wrong with them, each in its place."""
        self._typed = {id: made.text for id, made in self.fields.items()}
        try:
            made = sheet_from(self._typed, self._desk.system)
        except NameplateError as problem:
            self._refuse(problem.problems)
            return
        self._review(made)

    def _refuse(self, problems: Mapping[str, str]) -> None:
        for id, made in self.fields.items():
            made.say(problems.get(id, ""))
        count = len(problems)
        self.wrong.setText(
            say(
                "{count} field{what} another look; see above.",
                count=count,
                what=" needs" if count == 1 else "s need",
            )
        )
        self.wrong.show()
        first = next(made for id, made in self.fields.items() if id in problems)
        first.focus()
        self.show_part(first)

    def _review(self, made: NameplateSheet) -> None:
        self.empty()
        self.made = made
        self.fields, self.doubts = {}, {}
        sheet = made.sheet
        self.body.addWidget(label(sheet.title, "headline"))
        self.body.addWidget(facts(*_main_facts(sheet, self._desk), left=190))
        if made.doubts:
            self.body.addWidget(label(say("Is this right?"), "headline"))
            self.body.addWidget(
                label(say("These do not go together. Change what was misread; keep what is so."), "faint")
            )
        for doubt in made.doubts:
            self._doubt(doubt)
        self.body.addWidget(label(say("What is assumed"), "headline"))
        self.body.addWidget(
            label(
                say(
                    "Not on the plate. Checks count these with a wide uncertainty; better values can replace them."
                ),
                "faint",
            )
        )
        for one in made.assumptions:
            box = Box("card", label(f"{place_words(one.paths)}: {one.value}", "title"), label(one.why, "faint"))
            box.body.setSpacing(2)
            self.body.addWidget(box)
        self.hint = label(say("Keep or change each doubt first."), "faint")
        self.body.addWidget(self.hint)
        self.exists = Box("doubt")
        self.exists.hide()
        self.body.addWidget(self.exists)
        self.save = button(say("Keep this unit"), self._save, "main")
        self.body.addWidget(buttons(self.save, button(say("Change something"), self.back_to_form)))
        self._look()
        self.to_top()
        next(iter(self.doubts.values()), self.save).setFocus()

    def _doubt(self, doubt: NameplateDoubt) -> None:
        box = Box("doubt")
        if doubt.field is not None:
            field = FIELDS[doubt.field]
            box.body.addWidget(label(f"{field.title}: {self._typed[doubt.field]}", "title"))
        box.body.addWidget(label(doubt.text))
        keep = ChoiceButton(say("It is so: keep it"), sign="check", on_click=self._look)
        keep.setAccessibleDescription(doubt.text)
        box.body.addWidget(keep)
        name = FIELDS[doubt.field].title if doubt.field else say("the form")
        change = button(
            say("Change it"), partial(self.back_to_form, doubt.field), name=say("Change it: {name}", name=name)
        )
        box.body.addWidget(buttons(change))
        self.doubts[doubt] = keep
        self.body.addWidget(box)

    def _look(self) -> None:
        ready = all(keep.isChecked() for keep in self.doubts.values())
        self.save.setEnabled(ready)
        self.hint.setVisible(not ready)

    def back_to_form(self, field: str | None = None) -> None:
        """Go back to the form, to one field of it, with the doubts beside what they are about."""
        doubts = self.made.doubts if self.made is not None else ()
        self._form(doubts)
        if field is None:
            self.to_top()
            next(iter(self.fields.values())).focus()
            return
        self.fields[field].focus()
        self._show_settled(self.fields[field])

    def _show_settled(self, part: QWidget) -> None:
        """Scroll to a part just made, once it has its place and the page has followed the focus."""

        def look() -> None:
            if isValid(part):
                self.show_part(part)

        QTimer.singleShot(SETTLED, self, look)

    # --- keeping it ---

    def _save(self) -> None:
        assert self.made is not None
        self._keep(self.made.sheet)

    def _keep(self, sheet: DataSheet, *, replace: bool = False) -> None:
        assert self.made is not None
        try:
            path = keep_unit(sheet, self.made.assumptions, replace=replace)
        except UnitExistsError as there:
            self._ask(sheet, there)
            return
        except OSError as problem:
            self._desk.tell_problem(say("The unit could not be kept."), problem)
            return
        self._typed = {}
        self.made = None
        self._desk.office.add_unit(sheet)
        self.kept.emit(sheet.id)
        self._desk.told.emit("good", say("'{title}' is kept in {path}.", title=sheet.title, path=path))

    def _ask(self, sheet: DataSheet, there: UnitExistsError) -> None:
        self.exists.hide()
        box = Box("doubt", label(say("There is one already"), "title"))
        said = str(there)
        box.body.addWidget(label(said[:1].upper() + said[1:] + "."))
        id = free_id(sheet.id)
        both = button(
            say("Keep both: this one as {id}", id=id),
            lambda: self._keep(sheet.model_copy(update={"id": id})),
            "main",
        )
        parts = [both]
        if there.replaceable:
            parts.append(button(say("Replace the other"), lambda: self._keep(sheet, replace=True)))
        box.body.addWidget(buttons(*parts))
        self.body.replaceWidget(self.exists, box)
        self.exists.deleteLater()
        self.exists = box
        self.both = both
        both.setFocus()
        self._show_settled(box)


def _main_facts(sheet: DataSheet, desk: Desk) -> list[tuple[str, str]]:
    """Return what a person checks first: what was on the plate, and what follows from it."""
    system = desk.system
    currents = sorted({one.rated_current for one in sheet.compressors})
    circuits = len({one.circuit for one in sheet.compressors})
    each = ", ".join(show(one, Kind.CURRENT, system) for one in currents)
    plate = sheet.electrical
    supply = f"{quantity_text(plate.voltage, Kind.VOLTAGE)}, {quantity_text(plate.frequency, Kind.FREQUENCY)}"
    return [
        (say("Kept as"), sheet.id),
        (say("Refrigerant"), sheet.refrigerant),
        (say("Cooling capacity"), show(sheet.cooling_capacity, Kind.POWER, system)),
        (say("Supply"), supply),
        (
            say("Compressors"),
            say(
                "{len} {value}, {each} each, on {circuits} circuit{what}",
                len=len(sheet.compressors),
                value=sheet.compressors[0].type.value,
                each=each,
                circuits=circuits,
                what="" if circuits == 1 else "s",
            ),
        ),
        (
            say("Water"),
            say(
                "{show}, leaving at {show_2}",
                show=show(sheet.water.design_flow, Kind.VOLUME_FLOW, system),
                show_2=show(sheet.water.design_leaving, Kind.TEMPERATURE, system),
            ),
        ),
        (say("Pump of its own"), "yes" if sheet.water.pump is not None else "no"),
    ]

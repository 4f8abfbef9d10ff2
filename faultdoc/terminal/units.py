"""Units in the terminal: a new one from its nameplate, a list of all, and one in words."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from faultdoc.checks.lint_units import lint_unit
from faultdoc.checks.nameplate import NameplateDoubt, NameplateError, NameplateSheet, sheet_from
from faultdoc.library.load import Library, load_unit, load_units, shipped_units, unit_path
from faultdoc.library.ownunits import UnitExistsError, free_id, keep_unit
from faultdoc.library.source import read
from faultdoc.model.nameplate import NameplateField
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, System, display_unit, show
from faultdoc.record.margins import sheet_words
from faultdoc.record.plate import FIELDS, GROUPS, NOT_KNOWN, needed_words, place_words, said, with_its_unit
from faultdoc.record.settings import Settings
from faultdoc.terminal import text as page
from faultdoc.terminal.talk import Ask, Changed, Command, Left, Talk, Tell

__all__ = ["list_text", "new_unit", "unit_text"]

HELP = """At any prompt:
  Enter       leave out what is not on the plate, or keep what was typed before
  none        empty what was typed before
  back        the field before this one
  units       switch between US and SI units
  stops       what to stop for at once
  quit        leave; nothing is kept"""


def new_unit(ask: Ask, tell: Tell, library: Library, settings: Settings) -> Path | None:
    """Ask for a nameplate field by field, show what is made of it, and keep it.

    Args:
        ask, tell: the person.
        library: for what to stop for.
        settings: units and last unit; saved when they change.

    Returns:
        The file of the data sheet, None when the person left before it was kept.
    """
    form = _Form(Talk(ask, tell, library, settings, help=HELP))
    try:
        return form.fill()
    except Left:
        tell("Nothing was kept.")
        return None


class _Form:
    """The nameplate as typed so far."""

    def __init__(self, talk: Talk) -> None:
        self.talk = talk
        self.typed: dict[str, str] = {}
        talk.more = self.commands

    def commands(self) -> Mapping[str, Command]:
        """Return the commands of the form."""
        return {"back": self._back}

    def _back(self, _: str) -> None:
        raise Changed

    def fill(self) -> Path:
        """Ask for everything, then keep it."""
        self.talk.tell(
            page.paragraph(
                "A new unit from its nameplate. Press Enter for what is not on the plate: it is assumed, and "
                "shown to you before anything is kept. 'back' goes back a field, 'help' lists the rest."
            )
        )
        self._ask_all(list(FIELDS))
        while True:
            made = self._made()
            self.talk.tell(_review_text(made, self.talk.system))
            if made.doubts:
                self.talk.tell("\n" + page.paragraph("Is this right? These do not go together:"))
                self.talk.tell(page.numbered(_doubt_words(one, self.typed) for one in made.doubts))
            keep = "All that is so: keep the unit" if made.doubts else "Keep the unit"
            # What is doubted is never kept by a mere Enter.
            choice = self.talk.choose(
                "What now?",
                [("keep", keep), ("change", "Change a field")],
                default=None if made.doubts else "keep",
            )
            if choice == "keep" and (path := self._keep(made)) is not None:
                return path
            if choice == "change":
                ids = [id for group in GROUPS for id in group.fields]
                fields = [(id, f"{FIELDS[id].title}: {self.typed.get(id) or 'empty'}") for id in ids]
                self._ask_all([self.talk.choose("Which?", fields)])

    def _ask_all(self, ids: list[str]) -> None:
        """Ask for fields in order; the headings of groups stand before their first."""
        first_of = {group.fields[0]: group for group in GROUPS}
        order = [id for group in GROUPS for id in group.fields if id in ids]
        place = 0
        while place < len(order):
            id = order[place]
            if id in first_of and len(ids) == len(FIELDS):
                group = first_of[id]
                self.talk.tell(f"\n{group.title.upper()}\n{page.paragraph(group.help)}")
            try:
                self._ask(FIELDS[id])
            except Changed:
                place = max(0, place - 1)
                continue
            place += 1

    def _ask(self, field: NameplateField) -> None:
        needed = needed_words(field)
        self.talk.tell("\n" + page.paragraph(f"{field.title} ({needed})" if needed else field.title))
        self.talk.tell(page.paragraph(field.help, "  "))
        if field.kind is Kind.CHOICE:
            options = [(one.id, one.title) for one in field.choices]
            if "unknown" not in dict(options):
                options.append(("", NOT_KNOWN))
            self.typed[field.id] = self.talk.choose(
                "Which of these?", options, default=self.typed.get(field.id) or options[-1][0]
            )
            return
        while True:
            text = self.talk.line(lambda: self._prompt(field), words=field.kind is None)
            if not text:
                return
            if text.lower() == "none":
                self.typed.pop(field.id, None)
                return
            found = said(field, text, self.talk.system)
            if found.problem is None:
                # Another unit may be meant by a bare number later on.
                self.typed[field.id] = with_its_unit(field, text, self.talk.system)
                if found.echo:
                    self.talk.tell(f"  {found.echo}")
                return
            self.talk.tell(page.paragraph(f"Not understood: {found.problem}", "  "))

    def _prompt(self, field: NameplateField) -> str:
        plain = field.kind is None or field.kind is Kind.NUMBER
        unit = "" if plain else display_unit(field.kind, self.talk.system)  # type: ignore[arg-type]
        before = self.typed.get(field.id)
        hints = "; ".join(filter(None, (unit, f"Enter keeps {before}" if before else "")))
        return f"  [{hints}] > " if hints else "  > "

    def _made(self) -> NameplateSheet:
        """Return the sheet, asking again for what stands in its way."""
        while True:
            try:
                return sheet_from(self.typed, self.talk.system)
            except NameplateError as problem:
                self.talk.tell("\n" + page.paragraph("This needs another look:"))
                self.talk.tell(
                    page.numbered(f"{FIELDS[id].title}: {words}" for id, words in problem.problems.items())
                )
                self._ask_all(list(problem.problems))

    def _keep(self, made: NameplateSheet) -> Path | None:
        """Keep the sheet; return its file, or None when the person thinks again."""
        sheet, replace = made.sheet, False
        while True:
            try:
                path = keep_unit(sheet, made.assumptions, replace=replace)
            except UnitExistsError as there:
                self.talk.tell(page.paragraph(f"{str(there)[:1].upper()}{str(there)[1:]}."))
                other = free_id(sheet.id)
                options = [("both", f"Keep both: this one as {other}"), ("again", "Go back")]
                if there.replaceable:
                    options.insert(1, ("replace", "Replace the other"))
                choice = self.talk.choose("What now?", options)
                if choice == "again":
                    return None
                if choice == "both":
                    sheet = sheet.model_copy(update={"id": other})
                replace = choice == "replace"
            except OSError as problem:
                self.talk.tell(page.paragraph(f"The unit could not be kept: {problem.strerror or problem}."))
                return None
            else:
                self.talk.keep(last_unit=sheet.id)
                self.talk.tell(page.paragraph(f"Kept as {sheet.id}, in {path}."))
                self.talk.tell(f"'faultdoc ask --unit {sheet.id}' begins a case on it.")
                return path


def _doubt_words(doubt: NameplateDoubt, typed: Mapping[str, str]) -> str:
    if doubt.field is None:
        return doubt.text
    return f"{FIELDS[doubt.field].title}, {typed[doubt.field]}: {doubt.text}"


def _review_text(made: NameplateSheet, system: System) -> str:
    lines = ["", made.sheet.title.upper(), *_facts(made.sheet, system), "", "What is assumed"]
    for one in made.assumptions:
        lines.append(page.paragraph(f"{place_words(one.paths)}: {one.value}. {one.why}", "  - ", "    "))
    return "\n".join(lines)


def _facts(sheet: DataSheet, system: System) -> list[str]:
    plate, water = sheet.electrical, sheet.water
    rows = [
        ("id", sheet.id),
        ("refrigerant", sheet.refrigerant),
        ("cooling capacity", show(sheet.cooling_capacity, Kind.POWER, system)),
        (
            "supply",
            f"{show(plate.voltage, Kind.VOLTAGE, system)}, {show(plate.frequency, Kind.FREQUENCY, system)}",
        ),
        ("control voltage", show(plate.control_voltage, Kind.VOLTAGE, system)),
    ]
    for number, one in enumerate(sheet.compressors, start=1):
        current = show(one.rated_current, Kind.CURRENT, system)
        rows.append((f"compressor {number}", f"{one.type.value}, {current}, circuit {one.circuit.upper()}"))
    rows += [
        ("design flow", show(water.design_flow, Kind.VOLUME_FLOW, system)),
        ("minimum flow", show(water.minimum_flow, Kind.VOLUME_FLOW, system)),
        ("leaving water", show(water.design_leaving, Kind.TEMPERATURE, system)),
        ("relief valve", show(water.relief_pressure, Kind.GAUGE_PRESSURE, system)),
        ("oil warm-up", show(sheet.oil_warm_up, Kind.TIME, system)),
        ("anti-recycle", show(sheet.anti_recycle, Kind.TIME, system)),
    ]
    if water.pump is not None:
        rows.append(("own pump", show(water.pump.rated_current, Kind.CURRENT, system)))
    return [f"  {name:<17} {value}" for name, value in rows]


def list_text() -> str:
    """Return all units, the person's own first, and what had to be left out.

    Raises:
        FileProblems: with every mistake in FaultDoc's own data sheets.
    """
    sheets, left_out = load_units()
    shipped = set(shipped_units())
    wide = max(map(len, sheets))
    lines = [
        page.paragraph(
            f"{sheet.title}{'' if id in shipped else ' (your own)'}", f"{id:<{wide}}  ", " " * (wide + 2)
        )
        for id, sheet in sheets.items()
    ]
    return "\n".join([*lines, *(page.paragraph(f"Left out: {one}") for one in left_out)])


def unit_text(id_or_path: str, system: System) -> str:
    """Return one unit in words: what it is, its safeties, what is assumed, what lint says.

    Raises:
        FileProblems: when there is none of that name, or its file has mistakes.
    """
    sheet = load_unit(id_or_path)
    path = unit_path(id_or_path)
    assert path is not None
    lines = [sheet.title, f"  {'file':<17} {path}", *_facts(sheet, system)]
    if sheet.features:
        features = ", ".join(one.value.replace("_", " ") for one in sheet.features)
        lines.append(page.paragraph(features, f"  {'has':<17} "))
    if sheet.safeties:
        lines += ["", "Safeties"]
    for one in sheet.safeties:
        lines.append(page.paragraph(f"{one.title}: {sheet_words(one)}", "  ", "    "))
    if sheet.assumed:
        lines += ["", "Assumed: neither nameplate nor papers gave it"]
        # What belongs to every compressor is told once.
        lines += [f"  {words}" for words in dict.fromkeys(place_words((one,)) for one in sheet.assumed)]
    if warnings := lint_unit(sheet, read(path)):
        lines += ["", "To be doubted"]
        lines += [page.paragraph(f"{one.what}; {one.remedy}", "  ", "    ") for one in warnings]
    if sheet.notes:
        lines += ["", *map(page.paragraph, sheet.notes)]
    return "\n".join(lines)

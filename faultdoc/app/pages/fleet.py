"""The fleet by its case book: five parts, each as a picture and as a table, by unit, symptom and days."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QComboBox, QFileDialog, QLineEdit, QVBoxLayout, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.style import scaled
from faultdoc.app.widgets.basic import TARGET, button, buttons, clear, label, one_of, restyle
from faultdoc.app.widgets.datatable import DataTable
from faultdoc.app.widgets.stage import StagePage
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.record.fleet import Fleet, History
    from faultdoc.record.fleettables import Table

__all__ = ["FleetPage"]

MOST_BARS = 10
PARTS = (
    ("open", say("Open cases")),
    ("units", say("What comes back")),
    ("causes", say("Causes by month")),
    ("minutes", say("Minutes to the fix")),
    ("first", say("First go")),
)


@dataclass(frozen=True)
class _Seen:
    """What was read and worked out beside the window."""

    found: list[History]
    fleet: Fleet
    tables: dict[str, Table]
    names: dict[str, str]


class FleetPage(StagePage):
    """Signals `back`, and `go_on` with the number of an open case that was chosen."""

    back = Signal()
    go_on = Signal(int)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._found: list[History] | None = None
        self.seen: _Seen | None = None
        self.part = "open"
        down = self.body
        self.ok = button(say("Back"), self.back.emit, "main")
        self.unit = self._choice(say("Only this unit"), 150)
        self.symptom = self._choice(say("Only this symptom"), 230)
        self.since = self._day(say("From day"), say("opened on this day or later"))
        self.until = self._day(say("To day"), say("opened on this day or before"))
        self.keep = button(say("Keep as CSV"), self._ask, name=say("Keep every table as a CSV file"))
        down.addWidget(buttons(self.ok, self.unit, self.symptom, self.since, self.until, self.keep))
        self._group = QButtonGroup(self)
        self.tabs = {
            id: one_of(self._group, words, partial(self.turn_to, id), "way", words) for id, words in PARTS
        }
        self.as_table = button(say("As a table"), self._turn, "way")
        self.as_table.setCheckable(True)
        down.addWidget(buttons(*self.tabs.values(), self.as_table))
        self.says = label("", "faint")
        down.addWidget(self.says)
        self.nothing = label("", "title")
        down.addWidget(self.nothing)
        self.picture = QVBoxLayout()
        self.staged.addLayout(self.picture, 1)
        self.table = DataTable(say("Open cases"))
        self.table.opened.connect(self._open)
        self.staged.addWidget(self.table, 1)
        down.addWidget(self.stage)
        desk.changed.connect(self._changed)

    def _choice(self, name: str, width: int) -> QComboBox:
        made = QComboBox()
        made.setMinimumHeight(TARGET)
        made.setFixedWidth(scaled(width))
        made.setAccessibleName(name)
        made.activated.connect(self._filter)
        return made

    def _day(self, words: str, meaning: str) -> QLineEdit:
        made = QLineEdit()
        made.setMinimumHeight(TARGET)
        made.setFixedWidth(scaled(150))
        made.setPlaceholderText(words)
        made.setAccessibleName(say("{words}, such as 2026-11-25: {meaning}", words=words, meaning=meaning))
        made.editingFinished.connect(self._filter)
        return made

    # --- reading and reckoning, beside the window ---

    def fill(self) -> None:
        """Read the case book anew."""
        self._found = None
        self.ok.setFocus()
        self._reckon()

    def _filter(self) -> None:
        days = (self._read(self.since), self._read(self.until))
        if None not in days:
            self._reckon()

    def _read(self, line: QLineEdit) -> tuple[date | None] | None:
        """Return the day typed, in a tuple; None where what stands there is none."""
        text = line.text().strip()
        try:
            day = date.fromisoformat(text) if text else None
        except ValueError:
            restyle(line, "wrong", True)
            self._desk.told.emit(
                "bad", say("'{what}' is no day. Write it as 2026-11-25, or leave it empty.", what=text)
            )
            return None
        restyle(line, "wrong", False)
        return (day,)

    def _reckon(self) -> None:
        since, until = self._read(self.since), self._read(self.until)
        wanted = (
            self.unit.currentData(), self.symptom.currentData(),
            since[0] if since else None, until[0] if until else None,
        )  # fmt: skip
        known, desk = self._found, self._desk
        if known is None:
            self.says.setText(say("Reading the case book ..."))

        def work() -> _Seen:
            from faultdoc.record.fleet import chosen, fleet_of, histories
            from faultdoc.record.fleettables import fleet_tables, names_of

            assert desk.shelf is not None
            found = known
            if found is None:
                found = histories(desk.book()) if desk.office.may_have_unfinished else []
            fleet = fleet_of(chosen(found, *wanted), datetime.now(UTC))
            names = names_of(desk.shelf.library)
            tables = {table.id: table for table in fleet_tables(fleet, names)}
            return _Seen(found, fleet, tables, names)

        desk.background.run(
            work, self._worked, lambda problem: desk.tell_problem(say("The case book could not be read."), problem)
        )

    def _worked(self, seen: _Seen) -> None:
        if self._found is None:
            self._offer(self.unit, say("All units"), sorted({(one.summary.unit,) * 2 for one in seen.found}))
            symptoms = {symptom for one in seen.found for symptom in one.summary.symptoms}
            named = sorted((seen.names.get(id, id), id) for id in symptoms)
            self._offer(self.symptom, say("All symptoms"), [(id, words) for words, id in named])
        self._found, self.seen = seen.found, seen
        self.turn_to(self.part)

    def _offer(self, box: QComboBox, everything: str, items: list[tuple[str, str]]) -> None:
        before = box.currentData()
        box.clear()
        box.addItem(everything, None)
        for id, words in items:
            box.addItem(words, id)
        box.setCurrentIndex(max(0, box.findData(before)))

    # --- showing ---

    def _changed(self) -> None:
        if self.seen is not None and self.isVisible():
            self.turn_to(self.part)

    def _turn(self) -> None:
        self.turn_to(self.part)

    def turn_to(self, part: str) -> None:
        """Show one of the five parts, as a picture or as a table."""
        self.part = part
        self.tabs[part].setChecked(True)
        if self.seen is None:
            return
        table = self.seen.tables[part]
        clear(self.picture)
        plot = None if self.as_table.isChecked() or not table.rows else self._plot(part)
        self.as_table.setVisible(part != "open")
        hint = say(" Enter on a row, or a double press, opens the case.") if part == "open" and table.rows else ""
        if part == "minutes" and table.rows:
            all_of_them = self.seen.fleet.minutes[0]
            hint = say(
                " {count} fixes, median {median:.0f} min.", count=all_of_them.count, median=all_of_them.median
            )
        self.says.setText(table.says + hint)
        nothing = table.empty
        if not self.seen.found:
            nothing = say(
                "The case book is empty: cases that are worked on here, or opened from a file, come into it."
            )
        self.nothing.setText(nothing)
        self.nothing.setVisible(not table.rows)
        self.table.setVisible(bool(table.rows) and plot is None)
        self.table.setAccessibleName(table.title)
        self.table.show_rows(table.columns, table.rows)
        if plot is not None:
            self.picture.addWidget(plot, 1)
        self.fit()

    def _plot(self, part: str) -> QWidget | None:
        from faultdoc.app.widgets.plots import histogram, shares, stacked
        from faultdoc.record.fleettables import bin_words

        assert self.seen is not None
        fleet, names = self.seen.fleet, self.seen.names
        if part == "units":
            rows = [
                (
                    one.unit,
                    one.back.share,
                    *one.back.interval,
                    say("{count} of {of}", count=one.back.count, of=one.back.of),
                )
                for one in fleet.units
                if one.back.share is not None
            ][:MOST_BARS]
            if not rows:
                return None
            return shares(say("What comes back, by unit; the same is in the table"), rows)
        if part == "causes":
            parts = [(names.get(id, id), counts) for id, counts in fleet.months.counts.items()]
            return stacked(say("Causes by month; the same is in the table"), fleet.months.months, parts)
        if part == "minutes":
            return histogram(
                say("Minutes to the fix; the same is in the table"), bin_words(), fleet.minutes[0].bins
            )
        if part == "first":
            some = [
                (
                    names.get(id, id),
                    share.share or 0.0,
                    *share.interval,
                    say("{count} of {of}", count=share.count, of=share.of),
                )
                for id, share in fleet.first[:MOST_BARS]
            ]
            return shares(say("Fixed at the first go; the same is in the table"), some)
        return None

    def _open(self, row: int) -> None:
        if self.seen is not None and self.part == "open":
            self.go_on.emit(self.seen.fleet.open[row].id)

    # --- keeping ---

    def _ask(self) -> None:
        name = QFileDialog.getExistingDirectory(self, say("Keep the tables in this folder"), str(Path.home()))
        if name:
            self.keep_in(Path(name))

    def keep_in(self, folder: Path) -> None:
        """Write every table into a folder, as a CSV file each."""
        from faultdoc.record.fleettables import write_csv

        if self.seen is None:
            return
        try:
            names = write_csv(tuple(self.seen.tables.values()), folder)
        except OSError as problem:
            self._desk.told.emit(
                "bad",
                say(
                    "{folder} could not be written: {strerror}. Choose another folder.",
                    folder=folder,
                    strerror=problem.strerror,
                ),
            )
            return
        self._desk.told.emit("good", say("{join} are in {folder}.", join=", ".join(names), folder=folder))

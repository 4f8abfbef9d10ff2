"""What closed cases taught: every rate and row that they would change, to be accepted line by line."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import TARGET, button, buttons, label
from faultdoc.app.widgets.datatable import DataTable
from faultdoc.app.widgets.stage import StagePage
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.library.load import Library
    from faultdoc.record.accepting import Taught
    from faultdoc.record.learning import Change, Line, Value

__all__ = ["LearnPage"]

HEADS = (say("Accept"), say("Moved"), say("What"), say("Now"), say("After"), say("90 % interval"), say("Cases"))
TICKED, OPEN, DONE = say("☑ yes"), "☐", "accepted"
MOST_CHANGES = 4


@dataclass(frozen=True)
class _Effect:
    """What the lines would do to a shipped case."""

    title: str
    changes: tuple[Change, ...]


class LearnPage(StagePage):
    """A table of lines; a press, Enter or space ticks one."""

    back = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.known: Taught | None = None
        self.ticked: set[str] = set()
        self.lines: list[Line] = []
        down = self.body
        self.ok = button(say("Back"), self.back.emit, "main")
        self.only = button(say("Only what moved"), self._show, "way")
        self.only.setCheckable(True)
        self.only.setChecked(True)
        self.all = button(say("Tick all"), self._tick_all, name=say("Tick all lines shown"))
        self.accept = button(say("Accept the ticked"), self._accept, "main")
        self.forget = button(say("Forget all accepted"), self._forget)
        down.addWidget(buttons(self.ok, self.only, self.all, self.accept, self.forget))
        self.says = label("", "faint")
        down.addWidget(self.says)
        self.nothing = label("", "title")
        down.addWidget(self.nothing)
        self.table = DataTable(say("What closed cases taught"), wide=2)
        self.table.opened.connect(self._toggle)
        self.table.cellClicked.connect(lambda row, column: self._toggle(row) if column == 0 else None)
        self.table.currentCellChanged.connect(lambda row, *_: self._tell(row))
        self.staged.addWidget(self.table, 1)
        down.addWidget(self.stage)
        self.detail = label("", "faint")
        down.addWidget(self.detail)
        self.case = QComboBox()
        self.case.setMinimumHeight(TARGET)
        self.case.setMinimumWidth(280)
        self.case.setAccessibleName(say("Show what it does to this case"))
        self.case.activated.connect(self._reckon_effect)
        self.effect = label("")
        across = QHBoxLayout()
        across.setSpacing(10)
        across.addWidget(self.case)
        across.addWidget(self.effect, 1)
        down.addLayout(across)

    # --- reading and reckoning, beside the window ---

    def fill(self) -> None:
        """Read the case book anew."""
        self.ok.setFocus()
        self.says.setText(say("Reading the closed cases ..."))
        self.nothing.hide()
        desk = self._desk

        def work() -> Taught:
            from faultdoc.record.accepting import records, taught

            return taught(records(desk.book()) if desk.office.may_have_unfinished else [])

        desk.background.run(
            work, self._worked, lambda problem: desk.tell_problem(say("The cases could not be read."), problem)
        )

    def _worked(self, known: Taught) -> None:
        self.known = known
        self.ticked &= set(known.proposal.by_id)
        if not self.case.count():
            from faultdoc.library.places import resources_folder

            self.case.addItem(say("What it does to a case: choose one"), None)
            for path in sorted((resources_folder() / "cases").glob("*.yaml")):
                self.case.addItem(path.stem.replace("_", " "), str(path))
        if known.stale:
            said = "; ".join(str(problem) for problem in known.stale)
            self._desk.told.emit("bad", say("Passed over of what was accepted: {said}", said=said))
        self._show()

    # --- showing ---

    def _show(self) -> None:
        from faultdoc.terminal.learn import counted_words

        if self.known is None:
            return
        proposal = self.known.proposal
        self.lines = [
            line for line in proposal.lines if not self.only.isChecked() or line.moved or line.id in self.ticked
        ]
        self.says.setText(counted_words(self.known))
        hidden = len(proposal.lines) - len(self.lines)
        if not proposal.lines:
            self.nothing.setText(say("No case has taught anything yet."))
        else:
            self.nothing.setText(say("No number moved by more than noise; {hidden} moved by less.", hidden=hidden))
        self.nothing.setVisible(not self.lines)
        self.table.setVisible(bool(self.lines))
        self.table.show_rows(HEADS, [self._row(line) for line in self.lines])
        self.all.setEnabled(bool(self.lines))
        self.accept.setEnabled(bool(self.ticked))
        self.forget.setEnabled(bool(self.known.kept))
        self.case.setEnabled(bool(proposal.lines))
        if not self.lines:
            self.detail.setText("")
        self.fit()

    def _row(self, line: Line) -> tuple[str | int, ...]:
        shown = [value for value in line.values if value.moved] or [max(line.values, key=_size)]
        names = len(line.values) > 1
        return (
            DONE if line.kept else TICKED if line.id in self.ticked else OPEN,
            "yes" if line.moved else "noise",
            line.title,
            "\n".join(f"{value.name}: {value.before:.3g}" if names else f"{value.before:.3g}" for value in shown),
            "\n".join(f"{value.after:.3g}" for value in shown),
            "\n".join(say("{low:.3g} to {high:.3g}", low=value.low, high=value.high) for value in shown),
            line.cases,
        )

    def _tell(self, row: int) -> None:
        if 0 <= row < len(self.lines):
            line = self.lines[row]
            unit = say("Rates are per 1,000 visits.") if line.question is None else ""
            self.detail.setText(
                say(
                    "{title}: {said}. Before that: {value}. {unit}",
                    title=line.title,
                    said=line.said,
                    value=line.basis.value,
                    unit=unit,
                ).strip()
            )

    def _toggle(self, row: int) -> None:
        line = self.lines[row]
        if line.kept:
            return
        self.ticked ^= {line.id}
        item = self.table.item(row, 0)
        if item is not None:
            item.setText(TICKED if line.id in self.ticked else OPEN)
        self.accept.setEnabled(bool(self.ticked))
        self._reckon_effect()

    def _tick_all(self) -> None:
        self.ticked |= {line.id for line in self.lines if not line.kept}
        self._show()
        self._reckon_effect()

    # --- accepting and forgetting ---

    def _accept(self) -> None:
        from faultdoc import __version__

        known, wanted = self.known, set(self.ticked)
        if known is None or not wanted:
            return
        lines = [line for line in known.proposal.lines if line.id in wanted]

        def work() -> Library:
            from faultdoc.record.accepting import accept, in_force

            accept(known, lines, __version__)
            return in_force(known.prior)

        count = say("{len} line{what}", len=len(lines), what="" if len(lines) == 1 else "s")
        self._write(work, say("{count} accepted. They hold for every case opened from now on.", count=count))

    def _forget(self) -> None:
        known = self.known
        if known is None:
            return

        def work() -> Library:
            from faultdoc.record.accepting import forget, in_force

            forget(known.kept, known.kept)
            return in_force(known.prior)

        self._write(work, say("What was accepted is forgotten: the trees' own values hold again."))

    def _write(self, work: object, words: str) -> None:
        desk = self._desk

        def then(library: Library) -> None:
            self.ticked = set()
            desk.office.use_library(library)
            desk.told.emit("good", words)
            self.fill()

        assert callable(work)
        desk.background.run(
            work, then, lambda problem: desk.tell_problem(say("That could not be written."), problem)
        )

    # --- what it does to a case ---

    def _reckon_effect(self) -> None:
        known, path = self.known, self.case.currentData()
        if known is None or path is None:
            self.effect.setText("")
            return
        wanted = set(self.ticked)
        lines = [line for line in known.proposal.lines if (line.id in wanted if wanted else line.moved)]
        self.effect.setText(say("Working it out ..."))

        def work() -> _Effect:
            from faultdoc.library.load import load_case
            from faultdoc.record.accepting import if_accepted
            from faultdoc.record.learning import effect

            case = load_case(Path(path), known.now)
            return _Effect(case.title or Path(path).stem, effect(known.now, if_accepted(known, lines), case))

        def then(found: _Effect) -> None:
            from faultdoc.record.words import chance

            pairs = [(one.title, chance(one.before), chance(one.after)) for one in found.changes]
            moved = [pair for pair in pairs if pair[1] != pair[2]][:MOST_CHANGES]
            said = "; ".join(
                say("{title}: {before} to {after}", title=title, before=before, after=after)
                for title, before, after in moved
            )
            which = say("The ticked lines") if wanted else say("All lines that moved")
            self.effect.setText(
                say(
                    "{which} would change, in '{title}': {what}.",
                    which=which,
                    title=found.title,
                    what=said or say("nothing to speak of"),
                )
            )
            self.fit()

        self._desk.background.run(
            work, then, lambda problem: self._desk.tell_problem(say("The case could not be worked out."), problem)
        )


def _size(value: Value) -> float:
    return abs(value.after - value.before)

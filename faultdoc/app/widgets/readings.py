"""A group of reading fields that are taken together, with errors and doubts asked about in place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from faultdoc.app.widgets.basic import button, buttons
from faultdoc.app.widgets.reading import ReadingField
from faultdoc.model.base import Measured
from faultdoc.model.case import Case
from faultdoc.model.points import Point
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import System
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.checks.plausible import Doubt

__all__ = ["Readings"]


class Readings(QWidget):
    """Fields for some points and a button that takes them.

    `taken` carries the readings by point, once each is understood and no doubt is open.
    """

    taken = Signal(object)

    def __init__(
        self,
        points: Sequence[str],
        vocabulary: Mapping[str, Point],
        sheet: DataSheet,
        case: Case,
        system: System,
        *,
        drafts: dict[str, str],
        button_text: str | None = None,
        known: bool = True,
        help: bool = True,
    ) -> None:
        super().__init__()
        self._vocabulary, self._sheet, self._case, self.system = vocabulary, sheet, case, system
        self._drafts = drafts
        self._kept: set[str] = set()
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(14)
        self.fields: dict[str, ReadingField] = {}
        for id in points:
            reading = case.readings.get(id) if known else None
            text = self._drafts.get(id, reading.text if isinstance(reading, Measured) else "")
            made = ReadingField(vocabulary[id], system, text, help=help)
            made.edited.connect(lambda id=id: self._note(id))
            made.entered.connect(lambda id=id: self._next(id))
            made.kept.connect(self._keep)
            down.addWidget(made)
            self.fields[id] = made
        words = button_text or (say("Take this reading") if len(points) == 1 else say("Take these readings"))
        self.take = button(words, self.submit, "main")
        down.addWidget(buttons(self.take))

    def focus_first(self) -> None:
        """Go to the first field that is empty, else to the first."""
        fields = list(self.fields.values())
        (next((field for field in fields if not field.line.text()), fields[0])).line.setFocus()

    def switch(self, system: System) -> None:
        """Show the other units."""
        self.system = system
        for field in self.fields.values():
            field.switch(system)

    def submit(self) -> None:
        """Take the readings, or show what stands in the way."""
        found = {id: field.check() for id, field in self.fields.items()}
        wrong = [id for id, one in found.items() if one.problem]
        if wrong:
            self.fields[wrong[0]].line.setFocus()
            return
        typed = {id: one.measured for id, one in found.items() if one.measured is not None}
        if not typed:
            first = next(iter(self.fields.values()))
            first.say("Nothing has been typed. Type the reading, or choose 'Could not measure' below.")
            first.line.setFocus()
            return
        if not self._doubted(typed):
            self.taken.emit(typed)

    def _doubted(self, typed: Mapping[str, Measured]) -> bool:
        from faultdoc.record.typed import fresh_doubts

        for field in self.fields.values():
            field.forget_doubts()
        fresh = fresh_doubts(self._sheet, self._vocabulary, self._case, typed, self.system)
        open_ones = [doubt for doubt in fresh if doubt.impossible or doubt.text not in self._kept]
        asked: dict[str, list[Doubt]] = {}
        for doubt in open_ones:
            # A doubt about an earlier reading that these raise is asked at the first of these.
            asked.setdefault(doubt.point if doubt.point in self.fields else next(iter(self.fields)), []).append(
                doubt
            )
        for id, ones in asked.items():
            self.fields[id].doubt([one.text for one in ones], any(one.impossible for one in ones))
        return bool(open_ones)

    def _keep(self, texts: tuple[str, ...]) -> None:
        self._kept.update(texts)
        self.submit()

    def _note(self, id: str) -> None:
        self._drafts[id] = self.fields[id].line.text()

    def _next(self, id: str) -> None:
        """Enter goes to the next empty field, and from the last one takes the readings."""
        empty = [field for field in self.fields.values() if not field.line.text().strip()]
        if empty and self.fields[id].line.text().strip():
            empty[0].line.setFocus()
        else:
            self.submit()

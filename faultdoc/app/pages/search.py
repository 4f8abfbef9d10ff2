"""Search over questions, causes and measuring points by their words."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import TARGET, button, clear, label, row
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.record.steps import Pick, refusal

__all__ = ["SearchPage", "matches"]

MOST = 25


def matches(wanted: str, *texts: str) -> bool:
    """Return whether every word wanted stands somewhere in the texts, whatever its case.

    >>> matches("pump BLOCK", "The pump", "is blocked"), matches("fan", "The pump")
    (True, False)
    """
    everything = " ".join(texts).casefold()
    return all(word in everything for word in wanted.casefold().split())


class SearchPage(Page):
    """Type words; choose what was found."""

    back = Signal()
    chosen = Signal(object)
    cause_chosen = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.found: list[ChoiceButton] = []
        self.body.addWidget(label("Search", "headline"))
        self.line = QLineEdit()
        self.line.setMinimumHeight(TARGET)
        self.line.setAccessibleName("Search questions, causes and measuring points")
        self.line.setPlaceholderText("Words such as: strainer, coupling, voltage")
        self.line.textChanged.connect(self._look)
        self.body.addWidget(self.line)
        self.body.addLayout(row(button("Back", self.back.emit), 1))
        self._list = QVBoxLayout()
        self._list.setSpacing(8)
        self.body.addLayout(self._list)

    def fill(self) -> None:
        """Come up, ready to type."""
        self._look()
        self.line.setFocus()
        self.line.selectAll()

    def _look(self) -> None:
        clear(self._list)
        self.found = []
        wanted, assessment = self.line.text().strip(), self._desk.assessment
        if not wanted or assessment is None:
            self._list.addWidget(label("Type a word or two.", "faint"))
            return
        problem = assessment.bench.problem
        for id, question in problem.questions.items():
            if matches(wanted, question.ask.tech, question.ask.caller, question.how, question.where):
                pick = Pick("question", id)
                self._add(f"Question: {question.ask.tech}", pick, refusal(assessment, pick))
        for id, cause in problem.causes.items():
            if matches(wanted, cause.title, cause.mechanism, cause.remedy.title):
                made = ChoiceButton(
                    f"Cause: {cause.title}", cause.mechanism, on_click=partial(self.cause_chosen.emit, id)
                )
                self.found.append(made)
        for id, point in assessment.bench.library.points.items():
            if matches(wanted, point.title, point.where) and assessment.case.conclusion is None:
                self._add(f"Write down a reading: {point.title}", Pick("correct", id), None)
        for made in self.found[:MOST]:
            self._list.addWidget(made)
        if not self.found:
            self._list.addWidget(label("Nothing here has these words. Try fewer or other ones."))
        elif len(self.found) > MOST:
            self._list.addWidget(label(f"And {len(self.found) - MOST} more: type another word.", "faint"))

    def _add(self, title: str, pick: Pick, why_not: str | None) -> None:
        made = ChoiceButton(title, why_not or "", on_click=lambda: self.chosen.emit(pick))
        made.setEnabled(why_not is None)
        self.found.append(made)

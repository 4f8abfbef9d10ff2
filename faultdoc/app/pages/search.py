"""Search over questions, causes and measuring points by their words."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import TARGET, button, buttons, clear, label
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.record.steps import Pick, refusal
from faultdoc.record.words import matches
from faultdoc.words import say

__all__ = ["SearchPage"]

MOST = 25


class SearchPage(Page):
    """Type words; choose what was found."""

    back = Signal()
    chosen = Signal(object)
    cause_chosen = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.found: list[ChoiceButton] = []
        self.body.addWidget(label(say("Search"), "headline"))
        self.line = QLineEdit()
        self.line.setMinimumHeight(TARGET)
        self.line.setAccessibleName(say("Search questions, causes and measuring points"))
        self.line.setPlaceholderText(say("Words such as: strainer, coupling, voltage"))
        self.line.textChanged.connect(self._look)
        self.body.addWidget(self.line)
        self.body.addWidget(buttons(button(say("Back"), self.back.emit)))
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
            self._list.addWidget(label(say("Type a word or two."), "faint"))
            return
        problem = assessment.bench.problem
        found: list[tuple[str, str, Pick | None, str]] = []
        for id, question in problem.questions.items():
            if matches(wanted, question.ask.tech, question.ask.caller, question.how, question.where):
                found.append((say("Question: {tech}", tech=question.ask.tech), "", Pick("question", id), id))
        for id, cause in problem.causes.items():
            if matches(wanted, cause.title, cause.mechanism, cause.remedy.title):
                found.append((say("Cause: {title}", title=cause.title), cause.mechanism, None, id))
        for id, point in assessment.bench.library.points.items():
            if matches(wanted, point.title, point.where) and assessment.case.conclusion is None:
                found.append(
                    (say("Write down a reading: {title}", title=point.title), "", Pick("correct", id), id)
                )
        for title, words, pick, id in found[:MOST]:
            why_not = None if pick is None else refusal(assessment, pick)
            choose = partial(self.cause_chosen.emit, id) if pick is None else partial(self.chosen.emit, pick)
            made = ChoiceButton(title, why_not or words, on_click=choose)
            made.setEnabled(why_not is None)
            self._list.addWidget(made)
            self.found.append(made)
        if not found:
            self._list.addWidget(label(say("Nothing here has these words. Try fewer or other ones.")))
        elif len(found) > MOST:
            self._list.addWidget(
                label(say("And {what} more: type another word.", what=len(found) - MOST), "faint")
            )

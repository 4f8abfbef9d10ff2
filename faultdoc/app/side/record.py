"""What has been read, answered and done so far; each can be changed or cleared at any time."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtWidgets import QPlainTextEdit

from faultdoc.app.desk import Desk
from faultdoc.app.side.panel import Panel
from faultdoc.app.widgets.arithmetic import Arithmetic
from faultdoc.app.widgets.basic import Box, button, buttons, label
from faultdoc.checks.base import COVERAGE
from faultdoc.diagnosis.assess import outcomes_of
from faultdoc.model.base import Measured
from faultdoc.model.case import Case
from faultdoc.quantities import display_unit, show
from faultdoc.record import moves
from faultdoc.record.margins import margin_words, setting_words, watches
from faultdoc.record.steps import Pick
from faultdoc.record.words import NON_ANSWER_WORDS
from faultdoc.words import say

__all__ = ["RecordPanel"]


class RecordPanel(Panel):
    """Readings, answers, checks with their arithmetic, what was put off, tried and noted."""

    title = say("Record")

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.checks: dict[str, Arithmetic] = {}

    def draw(self) -> None:
        """Fill the panel."""
        assessment = self.desk.assessment
        assert assessment is not None
        case, bench = assessment.case, assessment.bench
        closed = case.conclusion is not None
        self.checks = {}
        for doubt in assessment.doubts(self.desk.system):
            self.body.addWidget(Box("doubt", label(say("Doubtful"), "title"), label(doubt.text)))
        if assessment.checks:
            self.body.addWidget(label(say("Checks"), "title"))
            for result in assessment.checks:
                made = Arithmetic(result, self.desk.system)
                self.checks[result.id] = made
                self.body.addWidget(made)
        self._safeties(case)
        self.body.addWidget(label(say("Readings"), "title"))
        points = bench.library.points
        for id, reading in case.readings.items():
            point = points[id]
            if isinstance(reading, Measured):
                words = show(reading.value, reading.kind, self.desk.system)
                if not reading.text.endswith(display_unit(reading.kind, self.desk.system)):
                    words += say(" (typed: {what})", what=reading.text)
            else:
                words = next((one.title for one in point.choices if one.id == reading), reading)
            self._line(
                point.title,
                words,
                None if closed else partial(self.desk.choose, Pick("correct", id)),
                None
                if closed
                else partial(
                    self._clear, say("Cleared: {title}", title=point.title), moves.clear_reading(case, id)
                ),
            )
        if not case.readings:
            self.body.addWidget(label(say("None yet."), "faint"))
        self.body.addWidget(label(say("Answers"), "title"))
        answered = outcomes_of(bench, case)
        rows = 0
        for id, question in bench.problem.questions.items():
            if id not in case.answers:
                continue
            rows += 1
            outcome = case.answers[id]
            words = NON_ANSWER_WORDS.get(outcome) or next(
                one.title for one in question.outcomes if one.id == outcome
            )
            if id in answered and id in assessment.counted_once:
                words += f" ({assessment.counted_once[id]})"
            self._line(
                question.ask.tech,
                words,
                None if closed or question.check else partial(self.desk.choose, Pick("correct", id)),
                None
                if closed
                else partial(
                    self._clear, say("Cleared: {tech}", tech=question.ask.tech), moves.clear_answer(case, id)
                ),
            )
        if not rows:
            self.body.addWidget(label(say("None yet."), "faint"))
        if case.set_aside:
            self.body.addWidget(label(say("Left for later"), "title"))
            for id in case.set_aside:
                question = bench.problem.questions[id]
                asked = question.ask.tech
                after = moves.bring_back(case, id)
                bring = partial(self._clear, say("Brought back: {asked}", asked=asked), after)
                back = button(say("Bring back"), bring, name=say("Bring back: {asked}", asked=asked))
                box = Box("card", label(question.ask.tech))
                box.body.addWidget(buttons(back))
                self.body.addWidget(box)
        if case.tried:
            self.body.addWidget(label(say("Remedies tried"), "title"))
            for one in case.tried:
                title = bench.library.causes[one.cause].remedy.title
                words = say("The proof held.") if one.proved else say("The proof did not hold.")
                self.body.addWidget(Box("card", label(title, "title"), label(f"{words} {one.note or ''}".strip())))
        self._notes(case)

    def _safeties(self, case: Case) -> None:
        """Show how far each reading is from where a safety of the unit acts."""
        assessment = self.desk.assessment
        assert assessment is not None
        found = watches(assessment.bench.sheet, case.readings, assessment.bench.library.points)
        if not found:
            return
        self.body.addWidget(label(say("Safeties"), "title"))
        for watch in found:
            sure = watch.margin.standard_uncertainties > COVERAGE
            margin = margin_words(watch.margin, self.desk.system)
            box = Box(
                "card" if sure else "doubt",
                label(watch.title, "title"),
                label(f"{watch.place}: {setting_words(watch.margin, self.desk.system)}."),
                label(f"{margin[:1].upper()}{margin[1:]}.", "result"),
            )
            box.body.setSpacing(4)
            self.body.addWidget(box)

    def show_arithmetic(self, ids: tuple[str, ...] = ()) -> None:
        """Open the arithmetic of some checks, or of all."""
        for id, made in self.checks.items():
            if not ids or id in ids:
                made.open()
        if self.checks:
            first = self.checks[ids[0]] if ids and ids[0] in self.checks else next(iter(self.checks.values()))
            self.show_part(first)
            first.toggle.setFocus()

    def _line(
        self,
        title: str,
        words: str,
        change: Callable[[], object] | None,
        clear: Callable[[], object] | None,
    ) -> None:
        box = Box("card", label(title), label(words, "title"))
        parts = []
        if change is not None:
            parts.append(button(say("Change"), change, name=say("Change: {title}", title=title)))
        if clear is not None:
            parts.append(button(say("Clear"), clear, name=say("Clear: {title}", title=title)))
        if parts:
            box.body.addWidget(buttons(*parts))
        self.body.addWidget(box)

    def _clear(self, what: str, case: Case) -> None:
        self.desk.do(what, case)

    def _notes(self, case: Case) -> None:
        self.body.addWidget(label(say("Notes"), "title"))
        for text in case.notes:
            self.body.addWidget(Box("card", label(text)))
        if case.conclusion is not None:
            return
        field = QPlainTextEdit()
        field.setAccessibleName(say("New note"))
        field.setPlaceholderText(say("Write a note"))
        field.setTabChangesFocus(True)
        field.setFixedHeight(84)

        def add() -> None:
            if text := field.toPlainText().strip():
                self.desk.do(say("Note: {what}", what=text), moves.note(case, text))

        self.body.addWidget(field)
        self.body.addWidget(buttons(button(say("Add the note"), add)))

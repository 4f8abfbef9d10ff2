"""The call: what to say now, who calls, notes, what the caller volunteers, a visit against asking on."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtGui import QDoubleValidator, QHideEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.pages.phonestep import PhoneStep
from faultdoc.app.widgets.basic import TARGET, Box, button, label, row
from faultdoc.app.widgets.caller import Caller
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.notes import Notes
from faultdoc.app.widgets.page import Page
from faultdoc.diagnosis.assess import Assessment
from faultdoc.diagnosis.visit import Trip, Weighing, weigh
from faultdoc.record import moves
from faultdoc.record.phone import (
    LOAD,
    Advice,
    Volunteered,
    advice,
    call_back,
    called_back,
    danger_told,
    ended_by,
    volunteered,
)
from faultdoc.record.steps import Pick
from faultdoc.record.words import minutes
from faultdoc.words import say

__all__ = ["PhonePage"]

MOST = 12
"""Questions listed for what a caller volunteers."""

WIDE = 1180
SIDE, NARROW_SIDE = 430, 360


class PhonePage(QWidget):
    """A call. Signals `decide_wanted`, `stops_wanted` and what the step signals."""

    decide_wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.setObjectName("ground")
        self._desk = desk
        self.step = PhoneStep(desk)
        self.caller = Caller(desk)
        self.notes = Notes(desk)
        self.weighing: Weighing | None = None
        self.advice: Advice | None = None
        self._weighed: tuple[Assessment, float] | None = None
        self._reckoning = False
        self.found: list[ChoiceButton] = []
        self.line = QLineEdit()
        self.line.setMinimumHeight(TARGET)
        self.line.setAccessibleName(say("What the caller volunteers, in a word or two (Ctrl+F)"))
        self.line.setPlaceholderText(say("The caller tells something else? Type a word of it (Ctrl+F)"))
        self.line.textChanged.connect(self._look)
        self.line.returnPressed.connect(self._first)
        self.results = Page()
        self.results.hide()
        left = QVBoxLayout()
        left.setContentsMargins(12, 8, 4, 0)
        left.setSpacing(4)
        left.addWidget(self.line)
        left.addWidget(self.results, 1)
        left.addWidget(self.step, 1)
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, 0, 0)
        across.setSpacing(0)
        across.addLayout(left, 1)
        self.side = self._make_side()
        across.addWidget(self.side)
        desk.changed.connect(self._changed)
        desk.busy.connect(lambda on: self.step.inside.setEnabled(not on))
        self.caller.hung_up.connect(self._hung_up)
        self.caller.called_again.connect(self._called_again)
        self.step.ended.connect(self.end_for_safety)

    def _make_side(self) -> Page:
        side = Page()
        side.margins = (8, 8, 12, 10)
        side.body.setSpacing(8)
        self.verdict = label("", "verdict")
        self.asking, self.sending = label("", "text"), label("", "text")
        self.travel = QLineEdit()
        self.travel.setMinimumHeight(TARGET)
        self.travel.setFixedWidth(92)
        self.travel.setValidator(QDoubleValidator(0.0, 1440.0, 0))
        self.travel.setAccessibleName(say("Minutes to travel to the site"))
        self.travel.setText(f"{self._desk.settings.travel_minutes:.0f}")
        self.travel.editingFinished.connect(self._travel)
        self.decide = button(
            say("Decide"), self.decide_wanted.emit, "main", name=say("Decide how the call ends (F4)")
        )
        first = Box("card")
        first.body.addLayout(row(self.caller.clock, self.caller.hang))
        first.body.addWidget(self.decide)
        first.body.addWidget(self.notes)
        figures = Box("card", self.verdict, self.asking, self.sending)
        figures.body.addLayout(row(label(say("Travel, minutes"), "faint"), self.travel))
        side.body.addWidget(first)
        side.body.addWidget(figures)
        side.body.addWidget(Box("card", label(say("Caller"), "title"), self.caller))
        return side

    # --- coming up ---

    def begin(self) -> None:
        """Begin the call of a case that has just been opened."""
        self.caller.begin()
        case_id = self._desk.case_id
        if case_id is None:
            self.notes.begin(None)
        else:
            self._desk.beside(
                lambda: self._desk.book().uid(case_id),
                self.notes.begin,
                lambda problem: self._desk.tell_problem(
                    say("The notes cannot be kept as they are typed."), problem
                ),
            )
        self._changed()

    def focus_first(self) -> None:
        """Put the focus on the first answer."""
        self.step.focus_first()

    def begin_search(self) -> None:
        """Be ready for what the caller volunteers."""
        self.line.setFocus()
        self.line.selectAll()

    def hideEvent(self, event: QHideEvent) -> None:
        """Keep what is being typed."""
        super().hideEvent(event)
        self.flush()

    def flush(self) -> None:
        """Keep what is being typed, now."""
        self.notes.flush()
        self.caller.flush()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the new size."""
        self.side.setFixedWidth(SIDE if event.size().width() >= WIDE else NARROW_SIDE)
        super().resizeEvent(event)

    # --- the case ---

    def _changed(self) -> None:
        assessment = self._desk.assessment
        if assessment is None:
            self.step.forget()
            return
        before = self.step.view
        self.step.refresh()
        view = self.step.view
        if view is not before and (before is None or view is None or before.step != view.step):
            self.step.to_top()
            if self.isVisible() and not (self.notes.field.hasFocus() or self.line.hasFocus()):
                self.step.focus_first()
        self._look()
        self._reckon()

    def _reckon(self) -> None:
        """Reckon a visit against asking on, beside the window; of several looks waiting the newest counts."""
        assessment, travel = self._desk.assessment, self._desk.settings.travel_minutes
        if assessment is None or self._reckoning:
            return
        if self._weighed is not None and self._weighed[0] is assessment and self._weighed[1] == travel:
            return
        if assessment.case.conclusion is not None or assessment.next.stops:
            self._tell(None)
            return
        self._reckoning = True
        self.verdict.setText(say("Reckoning a visit ..."))
        trip = Trip(travel, LOAD)

        def then(found: Weighing) -> None:
            self._reckoning = False
            self._weighed = (assessment, travel)
            if self._desk.assessment is assessment and self._desk.settings.travel_minutes == travel:
                self._tell(found)
            else:
                self._reckon()

        def failed(problem: BaseException) -> None:
            self._reckoning = False
            self._weighed = (assessment, travel)
            self._tell(None)
            self._desk.tell_problem(say("A visit could not be reckoned."), problem)

        self._desk.beside(lambda: weigh(assessment, trip), then, failed, late=True)

    def _tell(self, found: Weighing | None) -> None:
        self.weighing = found
        self.advice = None if found is None else advice(found, Trip(self._desk.settings.travel_minutes, LOAD))
        self.verdict.setText(self.advice.verdict if self.advice else "")
        self.asking.setText(self.advice.ask if self.advice else "")
        self.sending.setText(self.advice.send if self.advice else "")

    def _travel(self) -> None:
        try:
            typed = float(self.travel.text())
        except ValueError:
            self.travel.setText(f"{self._desk.settings.travel_minutes:.0f}")
            return
        if typed != self._desk.settings.travel_minutes:
            self._desk.office.keep_travel(min(max(typed, 0.0), 1440.0))
            self._reckon()

    # --- what the caller volunteers ---

    def _look(self) -> None:
        assessment, said = self._desk.assessment, self.line.text()
        showing = bool(said.strip()) and assessment is not None
        self.results.setVisible(showing)
        self.step.setVisible(not showing)
        self.results.empty()
        self.found = []
        if not showing or assessment is None:
            return
        found = volunteered(assessment, said)
        for one in found[:MOST]:
            words = one.why_not and say("Not for a caller. {why_not}", why_not=one.why_not)
            if one.answer:
                words = say("Answered: {answer}. Choose to change it.", answer=one.answer)
            made = ChoiceButton(one.text, words, on_click=partial(self._take, one))
            made.setEnabled(not one.why_not or bool(one.answer))
            self.results.body.addWidget(made)
            self.found.append(made)
        if not found:
            self.results.body.addWidget(label(say("No question has these words. Try fewer, or write a note.")))
        elif len(found) > MOST:
            self.results.body.addWidget(
                label(say("And {what} more: type another word.", what=len(found) - MOST), "faint")
            )

    def _first(self) -> None:
        """Take the first question that may be asked."""
        made = next((one for one in self.found if one.isEnabled()), None)
        if made is not None:
            made.click()

    def _take(self, one: Volunteered) -> None:
        pick: Pick = one.pick
        self.line.clear()
        self._desk.choose(pick)
        self.step.focus_first()

    # --- the end of a call ---

    def end_for_safety(self, text: str) -> bool:
        """End the call because of a danger; return whether it is in the record."""
        case = self._desk.case
        if case is None:
            return False
        self.notes.flush()
        took = self.caller.end()
        what = say("Call ended for safety after {minutes}", minutes=minutes(max(took, 1.0)))
        return self._desk.do(what, ended_by(case, text))

    def _hung_up(self, took: float) -> None:
        case = self._desk.case
        if case is not None and case.conclusion is None:
            words = say("Call of {minutes} ended", minutes=minutes(max(took, 1.0)))
            self._desk.do(words, moves.note(case, words))

    def _called_again(self) -> None:
        case = self._desk.case
        if case is not None and (danger_told(case) or call_back(case) is not None):
            self._desk.do(say("Called back"), called_back(case))

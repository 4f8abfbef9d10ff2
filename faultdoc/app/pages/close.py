"""Closing a case: how it ended, what still brings the unit back to service, and a note."""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QPlainTextEdit

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import Box, button, buttons, label
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.diagnosis.assess import RUNNING, change_minutes
from faultdoc.model.case import Conclusion
from faultdoc.record import moves
from faultdoc.record.steps import Pick, refusal
from faultdoc.record.words import OUTCOMES, PEOPLE, minutes
from faultdoc.words import say

__all__ = ["ClosePage"]

Ending = Literal["fixed", "handed_over", "made_safe", "not_found"]


class ClosePage(Page):
    """How it ended."""

    back = Signal()
    closed = Signal()
    kit_wanted = Signal()
    chosen = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.cards: dict[Ending, ChoiceButton] = {}

    def fill(self, suggested: str | None) -> None:
        """Show the endings, with one suggested."""
        self.empty()
        assessment = self._desk.assessment
        assert assessment is not None
        case = assessment.case
        self.body.addWidget(label(say("Close the case"), "headline"))
        group = QButtonGroup(self)
        self.cards = {}
        proved = bool(case.tried) and case.tried[-1].proved
        for id, (title, words) in OUTCOMES.items():
            if id == "fixed" and not proved:
                words += say(" Not open yet: no remedy here has a proof that held.")
            card = ChoiceButton(title, words, sign="radio", on_click=self._look)
            card.setEnabled(id != "fixed" or proved)
            card.setChecked(id == suggested and card.isEnabled())
            group.addButton(card)
            self.cards[id] = card
            self.body.addWidget(card)
        self._restart()
        self.body.addWidget(label(say("Note, if you want one"), "title"))
        self.note = QPlainTextEdit()
        self.note.setAccessibleName(say("Note on how the case ended"))
        self.note.setTabChangesFocus(True)
        self.note.setFixedHeight(90)
        self.body.addWidget(self.note)
        self.close_case = button(say("Close the case"), self._close, "main")
        self.first = label(say("Choose how it ended first."), "faint")
        self.body.addWidget(self.first)
        self.kit = button(say("What to send"), self.kit_wanted.emit)
        self.body.addWidget(buttons(self.close_case, self.kit, button(say("Back"), self.back.emit)))
        self._look()
        self.to_top()
        (next((card for card in self.cards.values() if card.isChecked()), None) or self.close_case).setFocus()

    def _restart(self) -> None:
        """Show the changes of state that lead back to a running unit, with the time each takes."""
        assessment = self._desk.assessment
        assert assessment is not None
        bench, case = assessment.bench, assessment.case
        own = bench.crew(case).own.path(case.state, RUNNING)
        path = own if own is not None else bench.crew(case).full.path(case.state, RUNNING)
        self.body.addWidget(label(say("Back to service"), "title"))
        if not path:
            words = (
                say("The unit runs.") if path == () else say("There is no way back to service from this state.")
            )
            self.body.addWidget(label(words))
            return
        box = Box("card")
        total = 0.0
        for place, change in enumerate(path, start=1):
            warm = isinstance(change.minutes, str)
            time = change_minutes(bench, case, change)
            total += time
            words = say(
                "{place}. {title}: about {minutes}, for: {lower}",
                place=place,
                title=change.title,
                minutes=minutes(time),
                lower=PEOPLE[change.who][0].lower(),
            )
            box.body.addWidget(label(words + (say(", power on without a break") if warm else "")))
        box.body.addWidget(label(say("Together about {minutes}.", minutes=minutes(total)), "title"))
        pick = Pick("change", path[0].id)
        why_not = refusal(assessment, pick)
        if why_not is None:
            go = button(say("Do the first of these now"), lambda: self.chosen.emit(pick))
            box.body.addWidget(buttons(go))
        else:
            box.body.addWidget(label(say("The first: {why_not}", why_not=why_not), "faint"))
        self.body.addWidget(box)

    @property
    def ending(self) -> Ending | None:
        """The ending chosen."""
        return next((id for id, card in self.cards.items() if card.isChecked()), None)

    def _look(self) -> None:
        self.close_case.setEnabled(self.ending is not None)
        self.first.setVisible(self.ending is None)

    def _close(self) -> None:
        assessment, ending = self._desk.assessment, self.ending
        assert assessment is not None
        assert ending is not None
        case = assessment.case
        last = case.tried[-1] if case.tried and case.tried[-1].proved and ending == "fixed" else None
        conclusion = Conclusion(
            outcome=ending,
            cause=last.cause if last else None,
            proof=last.note if last else None,
            note=self.note.toPlainText().strip()[:4000] or None,
        )
        if self._desk.do(
            say("Case closed: {lower}", lower=OUTCOMES[ending][0].lower()), moves.conclude(case, conclusion)
        ):
            self.closed.emit()

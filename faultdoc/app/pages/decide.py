"""How the call ends: fixed by phone, somebody is sent, or the unit is made safe and waits."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QLineEdit, QPushButton

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import TARGET, Box, button, buttons, label, numbered, one_of
from faultdoc.app.widgets.page import Page
from faultdoc.model.case import Conclusion
from faultdoc.model.safety import Compressors
from faultdoc.record import moves
from faultdoc.record.phone import Advice, caller_remedies, made_safe_steps, to_call_back
from faultdoc.record.steps import Pick, change_of
from faultdoc.words import say

__all__ = ["BACK_IN", "DecidePage"]

BACK_IN: dict[int, str] = {
    15: say("In 15 min"),
    60: say("In 1 h"),
    240: say("In 4 h"),
    1440: say("This time tomorrow"),
}
"""Minutes after which to call back, and how they are offered."""


class DecidePage(Page):
    """The three endings. Signals `chosen` with a pick, `close_wanted` with an ending, and what else is wanted."""

    back = Signal()
    kit_wanted = Signal()
    hand_wanted = Signal()
    close_wanted = Signal(str)
    chosen = Signal(object)
    ended = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.back_in = 60

    def fill(self, advised: Advice | None) -> None:
        """Show the endings.

        Args:
            advised: a visit against asking on, where it has been reckoned.
        """
        self.empty()
        self.body.addWidget(label(say("How does the call end?"), "headline"))
        if advised is not None:
            self.body.addWidget(
                Box("note", label(advised.verdict, "verdict"), label(advised.ask), label(advised.send))
            )
        self._fixed()
        self._send()
        self._wait()
        self.ask_on = button(say("Back to the call"), self.back.emit)
        self.body.addWidget(buttons(self.ask_on))
        self.to_top()
        (self.seen if self.seen.isEnabled() else self.kit).setFocus()

    def _fixed(self) -> None:
        assessment = self._desk.assessment
        assert assessment is not None
        case, causes = assessment.case, assessment.bench.problem.causes
        box = Box("card", label(say("1. Fixed by phone"), "title"))
        self.seen = QLineEdit()
        self.seen.setMinimumHeight(TARGET)
        self.seen.setMaxLength(1000)
        self.seen.setAccessibleName(say("What the caller saw that proves it"))
        self.seen.setPlaceholderText(say("What the caller saw that proves it"))
        self.fixed = button(say("Close: fixed by phone"), self._close_fixed, "main")
        self.tries: dict[str, QPushButton] = {}
        last = case.tried[-1] if case.tried else None
        proved = last is not None and last.proved
        if last is not None and proved:
            title = causes[last.cause].title if last.cause in causes else last.cause
            box.body.addWidget(label(say("'{title}' was put right, and its proof held.", title=title)))
            self.seen.setText(last.note or "")
            box.body.addWidget(self.seen)
            box.body.addWidget(buttons(self.fixed))
        elif case.unproved is not None:
            box.body.addWidget(label(say("A remedy waits for its proof: take that first.")))
        else:
            box.body.addWidget(label(say("Only once a remedy that a caller may carry out has a proof that held.")))
            for cause in caller_remedies(assessment)[:3]:
                made = button(
                    say("Try: {title}", title=causes[cause].remedy.title),
                    partial(self.chosen.emit, Pick("remedy", cause)),
                )
                self.tries[cause] = made
                box.body.addWidget(made)
            if not self.tries:
                box.body.addWidget(
                    label(say("None of the causes here is one that a caller may put right."), "faint")
                )
        self.seen.setEnabled(proved)
        self.fixed.setEnabled(proved)
        self.body.addWidget(box)

    def _send(self) -> None:
        self.kit = button(say("What to send"), self.kit_wanted.emit, "main")
        self.hand = button(say("Hand over"), self.hand_wanted.emit, name=say("Hand the case over to whoever goes"))
        self.close_case = button(say("Close: handed over"), partial(self.close_wanted.emit, "handed_over"))
        box = Box("card", label(say("2. Send someone"), "title"))
        box.body.addWidget(label(say("Choose people, parts and tools first; they get this record.")))
        box.body.addWidget(buttons(self.kit, self.hand, self.close_case))
        self.body.addWidget(box)

    def _wait(self) -> None:
        assessment = self._desk.assessment
        assert assessment is not None
        box = Box(
            "card",
            label(say("3. Make safe and wait"), "title"),
            label(say("Read aloud, one after the other:"), "kind"),
        )
        box.body.addWidget(numbered(made_safe_steps(assessment)))
        self.why = QLineEdit()
        self.why.setMinimumHeight(TARGET)
        self.why.setMaxLength(300)
        self.why.setAccessibleName(say("What is waited for"))
        self.why.setPlaceholderText(say("What is waited for, such as: somebody who knows the site"))
        box.body.addWidget(self.why)
        group = QButtonGroup(self)
        self.times: dict[int, QPushButton] = {}
        for after, words in BACK_IN.items():
            made = one_of(
                group,
                words,
                partial(self._in, after),
                "way",
                say("Call back {lower}{words}", lower=words[0].lower(), words=words[1:]),
            )
            made.setChecked(after == self.back_in)
            self.times[after] = made
        box.body.addWidget(label(say("Call back"), "kind"))
        box.body.addWidget(buttons(*self.times.values()))
        self.wait = button(say("They have done this: wait"), self._make_wait, "main")
        box.body.addWidget(buttons(self.wait))
        self.body.addWidget(box)

    def _in(self, after: int) -> None:
        self.back_in = after

    def _close_fixed(self) -> None:
        case = self._desk.case
        assert case is not None
        last = case.tried[-1]
        seen = self.seen.text().strip() or last.note
        conclusion = Conclusion(outcome="fixed", cause=last.cause, proof=seen, note=say("Fixed by phone."))
        if self._desk.do(say("Case closed: fixed by phone"), moves.conclude(case, conclusion)):
            self.ended.emit()

    def _make_wait(self) -> None:
        assessment = self._desk.assessment
        assert assessment is not None
        case = assessment.case
        if case.state.compressors is Compressors.RUNNING:
            case = moves.change_state(case, change_of(assessment, "stop_compressors"))
        when = datetime.now(UTC) + timedelta(minutes=self.back_in)
        case = to_call_back(case, when, self.why.text().strip() or say("the unit is made safe and waits"))
        if self._desk.do(
            say("Made safe by phone; to be called back at {astimezone:%H:%M}", astimezone=when.astimezone()), case
        ):
            self.ended.emit()

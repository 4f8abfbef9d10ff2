"""Taking a case over: what came, what is not the same here, what must be decided, and on with it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QPlainTextEdit
from shiboken6 import isValid

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import Box, button, buttons, label, row
from faultdoc.app.widgets.caution import CautionCard
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.library.problems import FileProblems
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.model.unit import DataSheet
    from faultdoc.record.handover.file import Received
    from faultdoc.record.handover.merge import Choice, Conflict, Side
    from faultdoc.record.handover.opening import Opening, Taken
    from faultdoc.record.handover.told import Section, Words

__all__ = ["ReceivedPage"]

MOST_PROBLEMS = 10


class ReceivedPage(Page):
    """A hand-over before it is taken; `taken` carries the case's number and the data sheet kept, if any."""

    back = Signal()
    taken = Signal(int, object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._asked = 0
        self.opening: Opening | None = None
        self.choices: dict[str, Choice] = {}
        self.cards: dict[tuple[str, Choice], ChoiceButton] = {}

    # --- where it comes from ---

    def fill_pasting(self) -> None:
        """Ask for the text of scanned codes."""
        self._begin(say("Take a case over from scanned codes"))
        words = say(
            "Scan every code with a telephone's camera, send yourself the text, and "
            "paste all of it here. The order does not matter. A scanner that types can "
            "type straight into the field."
        )
        self.body.addWidget(label(words, "faint"))
        self.pasted = QPlainTextEdit()
        self.pasted.setAccessibleName(say("The text of the codes"))
        self.pasted.setPlaceholderText("FAULTDOC1:...")
        self.pasted.setTabChangesFocus(True)
        self.pasted.setFixedHeight(150)
        self.body.addWidget(self.pasted)
        self.wrong = label("", "wrong")
        self.wrong.hide()
        self.body.addWidget(self.wrong)
        self.look = button(say("See what it is"), self._paste, "main")
        self.body.addWidget(buttons(self.look, button(say("Back"), self.back.emit)))
        self.pasted.setFocus()

    def _paste(self) -> None:
        text = self.pasted.toPlainText()

        def work() -> Received | str:
            from faultdoc.record.handover.file import understand

            try:
                return understand(text, say("what was pasted"))
            except FileProblems as problem:
                return problem.problems[0].remedy or str(problem)

        def then(made: Received | str) -> None:
            if isinstance(made, str):
                self.wrong.setText(made)
                self.wrong.show()
                self.show_part(self.wrong)
            else:
                self._open(made)

        self._run(work, then)

    def fill(self, path: Path) -> None:
        """Read a file, and show what it holds."""
        self._begin(say("Take a case over"))
        self.body.addWidget(label(say("Reading {name} ...", name=path.name), "faint"))

        def work() -> Received:
            from faultdoc.record.handover.file import read_hand_over

            return read_hand_over(path)

        self._run(work, self._open)

    def _begin(self, title: str) -> None:
        self._asked += 1
        self.opening = None
        self.empty()
        self.body.addWidget(label(title, "headline"))
        self.to_top()

    # --- what it is ---

    def _open(self, received: Received) -> None:
        desk = self._desk
        assert desk.shelf is not None
        library = desk.shelf.library

        def work() -> tuple[Opening, tuple[Section, ...], Words]:
            from faultdoc.app.warm import warm
            from faultdoc.record.handover.opening import opened
            from faultdoc.record.handover.told import Words, statement

            warm()
            opening = opened(received, library, desk.book())
            return opening, statement(opening, datetime.now(UTC)), Words(library)

        self._run(work, lambda made: self._show(*made))

    def _show(self, opening: Opening, sections: tuple[Section, ...], words: Words) -> None:
        self._begin(say("Take a case over"))
        self.opening, self.choices, self.cards = opening, {}, {}
        self.go = button(say("Take it over and go on"), self._take, "main")
        self.first = label("", "faint")
        self.body.addWidget(buttons(self.go, button(say("Leave it"), self.back.emit)))
        self.body.addWidget(self.first)
        if opening.conflicts:
            self.body.addWidget(label(say("To be decided"), "title"))
            lead = say("The case was worked on at both stations. Nothing is taken until you have chosen.")
            self.body.addWidget(label(lead, "faint"))
            for conflict in opening.conflicts:
                self._conflict(conflict, words)
        for section in sections:
            self.body.addWidget(label(section.title, "title"))
            self.body.addWidget(Box("doubt" if section.grave else "card", *map(label, section.lines)))
            for caution in section.cautions:
                self.body.addWidget(CautionCard(caution))
        self._look()
        self.to_top()
        (next(iter(self.cards.values())) if self.cards else self.go).setFocus()

    def _conflict(self, conflict: Conflict, words: Words) -> None:
        """Show both values of a conflict side by side, and the ways to decide it."""
        from faultdoc.record.handover.told import CHOICE_WORDS, when

        now = datetime.now(UTC)

        def source(side: Side) -> str:
            if side.at is None:
                return say("as it was at the start")
            return f"{side.by or say('station not known')}, {when(side.at, now)}"

        box = Box("card", label(words.title(conflict), "title"))
        group = QButtonGroup(box)
        cards = []
        for choice in conflict.choices:
            title = CHOICE_WORDS[choice]
            if choice == "note":
                card = ChoiceButton(title, sign="radio", on_click=partial(self._choose, conflict.id, choice))
            else:
                side = conflict.mine if choice == "mine" else conflict.theirs
                said = words.value(conflict, side)
                card = ChoiceButton(
                    said,
                    f"{title}: {source(side)}",
                    sign="radio",
                    on_click=partial(self._choose, conflict.id, choice),
                )
            card.setAccessibleName(f"{words.title(conflict)}: {card.title}")
            group.addButton(card)
            self.cards[conflict.id, choice] = card
            cards.append(card)
        pair = row(*cards[:2])
        pair.setStretch(0, 1)
        pair.setStretch(1, 1)
        box.body.addLayout(pair)
        for card in cards[2:]:
            box.body.addWidget(card)
        self.body.addWidget(box)

    def _choose(self, id: str, choice: Choice) -> None:
        self.choices[id] = choice
        self._look()

    def _look(self) -> None:
        assert self.opening is not None
        left = len(self.opening.conflicts) - len(self.choices)
        self.go.setEnabled(left == 0)
        self.first.setText(say("Decide {left} more below first.", left=left) if left else "")
        self.first.setVisible(left > 0)

    # --- taking it ---

    def _take(self) -> None:
        opening, choices, desk = self.opening, dict(self.choices), self._desk
        assert opening is not None
        self.go.setEnabled(False)

        def work() -> Taken:
            from faultdoc.record.handover.opening import put_into
            from faultdoc.record.handover.told import Words

            say = Words(opening.bench.library).said
            return put_into(desk.book(), opening, choices, at=datetime.now(UTC), by=desk.settings.station, say=say)

        def then(made: Taken) -> None:
            for said in made.left_out:
                desk.told.emit("bad", said)
            sheet: DataSheet | None = opening.new_sheet
            self.taken.emit(made.case_id, sheet)

        self._run(work, then)

    def _run(self, work: Callable[[], object], then: Callable[..., None]) -> None:
        self._asked += 1
        asked = self._asked

        def here() -> bool:
            return isValid(self) and asked == self._asked

        def failed(problem: BaseException) -> None:
            if here():
                self._refuse(problem)

        self._desk.background.run(work, lambda made: then(made) if here() else None, failed)

    def _refuse(self, problem: BaseException) -> None:
        """Say on the page why it cannot be taken; what was not foreseen goes into the log as well."""
        from faultdoc.record.casebook import CaseBookError
        from faultdoc.record.handover.opening import OpeningError

        self._begin(say("This cannot be taken over"))
        if isinstance(problem, FileProblems):
            lines = [str(one) for one in problem.problems]
            more = len(lines) - MOST_PROBLEMS
            if more > 0:
                lines = [*lines[:MOST_PROBLEMS], say("And {more} more.", more=more)]
        else:
            lines = [str(problem)]
            if not isinstance(problem, OpeningError | CaseBookError | OSError):
                self._desk.tell_problem(say("The hand-over could not be opened."), problem)
        self.body.addWidget(Box("wrong", *map(label, lines)))
        self.body.addWidget(label(say("Nothing here was changed."), "faint"))
        leave = button(say("Back"), self.back.emit, "main")
        self.body.addWidget(buttons(leave))
        leave.setFocus()

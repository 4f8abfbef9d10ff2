"""Handing a case over: what goes along and what does not, as a file or as QR codes on the screen."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QStackedWidget, QVBoxLayout, QWidget
from shiboken6 import isValid

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import Box, button, buttons, facts, label, row
from faultdoc.app.widgets.caution import CautionCard
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.app.widgets.qrcode import QrCode
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.model.case import Case
    from faultdoc.record.casebook import Attachment, Contact
    from faultdoc.record.handover.form import HandOver
    from faultdoc.record.session import Entry

__all__ = ["HandOverPage"]


@dataclass(frozen=True)
class _Kept:
    """What the case book has of the case."""

    uid: str
    start: Case
    entries: tuple[Entry, ...] = ()
    people: tuple[Contact, ...] = ()
    photos: tuple[Attachment, ...] = ()


class HandOverPage(QWidget):
    """What is in it, and the ways to send it; `close_wanted` asks to close the case here as handed over."""

    back = Signal()
    close_wanted = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.setObjectName("ground")
        self._desk = desk
        self._kept: _Kept | None = None
        self._rows: tuple[tuple[tuple[bool, ...], ...], ...] = ()
        self._place = 0
        self.list = Page()
        self._codes = self._make_codes()
        self._stack = QStackedWidget()
        self._stack.addWidget(self.list)
        self._stack.addWidget(self._codes)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self._stack)

    def _make_codes(self) -> QWidget:
        codes = QWidget()
        codes.setObjectName("ground")
        self.number = label("", "title")
        self.fewer = button(say("Before"), lambda: self._turn(-1), name=say("The code before"))
        self.more = button(say("Next"), lambda: self._turn(1), "main", name=say("The next code"))
        self.done = button(say("Back"), self._to_list)
        self.code = QrCode()
        down = QVBoxLayout(codes)
        down.setContentsMargins(20, 8, 20, 8)
        down.addLayout(row(self.number, self.fewer, self.more, self.done))
        down.addWidget(self.code, 1)
        return codes

    # --- what is in it ---

    def fill(self) -> None:
        """Look up what the case book has of the case, and show it."""
        self._stack.setCurrentWidget(self.list)
        self.list.empty()
        self.list.body.addWidget(label(say("Hand this case over"), "headline"))
        self.list.body.addWidget(label(say("Looking up what goes along ..."), "faint"))
        desk = self._desk
        assert desk.session is not None
        case, case_id = desk.session.case, desk.case_id

        def work() -> _Kept:
            if case_id is None:
                from faultdoc.record.handover.packing import uid_of_file

                return _Kept(uid_of_file(case), case)
            book = desk.book()
            start, entries = book.load(case_id)
            people, photos = book.contacts(case_id), book.attachments(case_id)
            return _Kept(book.uid(case_id), start, tuple(entries), people, photos)

        self._run(work, self._show, say("The case could not be looked up in the case book."))

    def _show(self, kept: _Kept) -> None:
        self._kept = kept
        assessment = self._desk.assessment
        assert assessment is not None
        from faultdoc.record.handover.about import dangers
        from faultdoc.record.handover.told import holdings
        from faultdoc.record.words import counted

        case, sheet = assessment.case, assessment.bench.sheet
        self.list.empty()
        body = self.list.body
        body.addWidget(label(say("Hand this case over"), "headline"))
        cautions = dangers(case.state)
        if cautions:
            body.addWidget(label(say("Tell whoever takes over, before they go near it"), "title"))
            for caution in cautions:
                body.addWidget(CautionCard(caution))
        body.addWidget(label(say("What goes along"), "title"))
        body.addWidget(
            facts(
                (say("Unit"), say("{title}, with its data sheet", title=sheet.title)),
                (say("Case"), say("{holdings}, the state of the plant", holdings=holdings(case))),
                (
                    say("Journal"),
                    say("{counted}, each with its time and station", counted=counted(len(kept.entries), "move")),
                ),
                (say("Causes"), say("How likely each is now, and what that was worked out with")),
            )
        )
        body.addWidget(label(say("Only if you tick it"), "title"))
        people = ", ".join(one.name or one.phone for one in kept.people) or say("None are written down")
        words = say(
            "{people}. If not ticked, they and whatever looks like a number are taken out of notes too.",
            people=people,
        )
        self.people = ChoiceButton(say("Names and telephone numbers"), words, sign="check")
        size = sum(one.size for one in kept.photos)
        photos = say(
            "{len}, together {what:.1f} MB; in a file only, up to 8 MB", len=len(kept.photos), what=size / 1e6
        )
        self.photos = ChoiceButton(
            say("Photos and documents"), photos if kept.photos else say("There are none."), sign="check"
        )
        self.photos.setEnabled(bool(kept.photos))
        body.addWidget(self.people)
        body.addWidget(self.photos)
        self.file = button(say("Save as a file"), self._ask, "main", name=say("Save the hand-over as a file"))
        self.show_codes = button(say("Show as QR code"), self._draw)
        self.close_case = button(say("Close it here: handed over"), lambda: self.close_wanted.emit("handed_over"))
        self.close_case.setEnabled(case.conclusion is None)
        body.addWidget(buttons(self.file, self.show_codes, self.close_case, button(say("Back"), self.back.emit)))
        self.said = label("")
        self.said_box = Box("good", self.said)
        self.said_box.hide()
        body.addWidget(self.said_box)
        words = say(
            "The file is text: it goes by mail, chat or memory stick. The code is "
            "scanned by any telephone's camera; its text is pasted into FaultDoc there "
            "(Menu, Take over from scanned codes)."
        )
        body.addWidget(label(words, "faint"))
        self.list.to_top()
        self.file.setFocus()

    def _packed(self, *, photos: bool) -> Callable[[], tuple[HandOver, tuple[str, ...]]]:
        """Return what makes the hand-over, to be run beside the window."""
        desk, kept = self._desk, self._kept
        assessment = desk.assessment
        assert assessment is not None
        assert kept is not None
        named = self.people.isChecked()
        wanted = kept.photos if photos else ()

        def work() -> tuple[HandOver, tuple[str, ...]]:
            from faultdoc.record.handover.packing import chosen_photos, packed

            chosen = chosen_photos((one, desk.book().content(one.id)) for one in wanted)
            made = packed(
                assessment,
                kept.start,
                kept.entries,
                uid=kept.uid,
                at=datetime.now(UTC),
                by=desk.settings.station,
                people=kept.people,
                named=named,
                attachments=chosen.attachments,
            )
            return made, chosen.left_out

        return work

    # --- as a file ---

    def _ask(self) -> None:
        from faultdoc.record.handover.file import ENDING

        assert self._desk.session is not None
        case = self._desk.session.case
        stem = re.sub(r"[^A-Za-z0-9]+", "-", case.title or case.unit).strip("-").lower()[:60] or "case"
        folder = self._desk.path.parent if self._desk.path else Path.home()
        start = str(folder / f"{stem}{ENDING}")
        name, _ = QFileDialog.getSaveFileName(self, say("Save the hand-over"), start, say("Hand-overs (*.yaml)"))
        if name:
            path = Path(name)
            self.keep(path if path.suffix else path.with_name(path.name + ENDING))

    def keep(self, path: Path) -> None:
        """Write the hand-over to a file, and say so when it is written."""
        make = self._packed(photos=self.photos.isChecked())

        def work() -> tuple[str, ...]:
            from faultdoc.record.handover.file import save_hand_over

            made, left_out = make()
            save_hand_over(made, path)
            return left_out

        def then(left_out: tuple[str, ...]) -> None:
            words = say("The hand-over is in {path}.", path=path)
            if left_out:
                words += say(" Too large together, and left out: {join}.", join=", ".join(left_out))
            self._say(words)

        self._run(work, then, say("{path} could not be written. Choose another folder.", path=path))

    def _say(self, words: str) -> None:
        self.said.setText(words)
        self.said_box.show()
        self.list.show_part(self.said_box)

    # --- as codes ---

    def _draw(self) -> None:
        make = self._packed(photos=False)

        def work() -> tuple[tuple[tuple[bool, ...], ...], ...] | str:
            from faultdoc.record.handover.codes import TooLongError
            from faultdoc.record.handover.file import code_texts
            from faultdoc.record.handover.packing import is_own
            from faultdoc.record.handover.qr import modules

            made, _ = make()
            try:
                texts = code_texts(made, own_sheet=is_own(made.start.unit))
            except TooLongError as problem:
                return str(problem)
            return tuple(modules(text) for text in texts)

        def then(made: tuple[tuple[tuple[bool, ...], ...], ...] | str) -> None:
            if isinstance(made, str):
                self._say(made)
                return
            self._rows, self._place = made, 0
            self._stack.setCurrentWidget(self._codes)
            self._turn(0)
            (self.more if len(made) > 1 else self.done).setFocus()

        self._run(work, then, say("The code could not be drawn."))

    def _turn(self, by: int) -> None:
        self._place = min(max(self._place + by, 0), len(self._rows) - 1)
        count = len(self._rows)
        self.number.setText(
            say("Scan this code")
            if count == 1
            else say("Scan code {what} of {count}, then the next", what=self._place + 1, count=count)
        )
        self.fewer.setVisible(count > 1)
        self.more.setVisible(count > 1)
        self.fewer.setEnabled(self._place > 0)
        self.more.setEnabled(self._place < count - 1)
        self.code.put(self._rows[self._place])

    def _to_list(self) -> None:
        self._stack.setCurrentWidget(self.list)
        self.show_codes.setFocus()

    def step_back(self) -> bool:
        """Go back from the codes to what goes along; return whether there was anything to go back from."""
        if self._stack.currentWidget() is self.list:
            return False
        self._to_list()
        return True

    def _run(self, work: Callable[[], object], then: Callable[..., None], sentence: str) -> None:
        def failed(problem: BaseException) -> None:
            if isValid(self):
                self._desk.tell_problem(sentence, problem)

        self._desk.background.run(work, lambda made: then(made) if isValid(self) else None, failed)

"""The report: seen here, saved as PDF or HTML, printed; whole, or only the page for the customer."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QTextDocument
from PySide6.QtWidgets import QPushButton, QTextBrowser, QVBoxLayout, QWidget
from shiboken6 import isValid

from faultdoc.app.desk import Desk
from faultdoc.app.keeping import asked_path, keep_html
from faultdoc.app.paper import Pictures
from faultdoc.app.style import points
from faultdoc.app.widgets.basic import button, buttons
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.diagnosis.assess import Assessment
    from faultdoc.model.case import Case
    from faultdoc.quantities import System
    from faultdoc.record.casebook import Contact
    from faultdoc.record.figures import Figure
    from faultdoc.record.session import Entry

__all__ = ["ReportPage", "larger"]


def larger(html: str) -> str:
    """Return the report with its letters grown from those of paper to those of the screen.

    >>> larger("h1 { font-size: 16pt; }")
    'h1 { font-size: 21pt; }'
    """
    return re.sub(r"font-size: (\d+)pt", lambda size: f"font-size: {round(points(1.3 * int(size[1])))}pt", html)


@dataclass(frozen=True)
class _Wanted:
    """A report that was asked for: of what, and with what."""

    assessment: Assessment
    system: System
    made_at: datetime
    case_id: int | None
    customer: bool
    photos: bool
    names: bool

    def made(self, desk: Desk) -> str:
        """Return it as HTML; runs beside the window."""
        from faultdoc.record.printing import full_report

        start: Case | None = None
        entries: list[Entry] = []
        contacts: tuple[Contact, ...] = ()
        shown: tuple[Figure, ...] = ()
        not_shown: tuple[str, ...] = ()
        if self.case_id is not None:
            book = desk.book()
            start, entries = book.load(self.case_id)
            if self.names:
                contacts = book.contacts(self.case_id)
            if self.photos:
                from faultdoc.app.photos import photos

                shown, not_shown = photos((one, book.content(one.id)) for one in book.attachments(self.case_id))
        return full_report(
            self.assessment,
            self.system,
            entries,
            start,
            self.made_at,
            customer=self.customer,
            contacts=contacts,
            photos=shown,
            not_shown=not_shown,
        )


class ReportPage(QWidget):
    """The report of the case as it is now."""

    back = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.setObjectName("ground")
        self._desk = desk
        self.html = ""
        self._made_at = datetime.now(UTC).astimezone()
        self._wanted: _Wanted | None = None
        down = QVBoxLayout(self)
        down.setContentsMargins(20, 14, 20, 14)
        down.setSpacing(8)
        self.pdf = button(say("Save as PDF"), lambda: self._ask("pdf"), "main")
        self.web = button(say("Save as HTML"), lambda: self._ask("html"))
        self.print = button(say("Print"), self._print)
        down.addWidget(buttons(self.pdf, self.web, self.print, button(say("Back"), self.back.emit)))
        self.customer = self._switch(
            say("Customer page only"), say("Only the one page in plain words, to be signed")
        )
        self.photos = self._switch(say("With photos"), say("Print the photos kept with the case"))
        self.names = self._switch(say("With names"), say("Print names and telephone numbers"))
        down.addWidget(buttons(self.customer, self.photos, self.names))
        self.view = QTextBrowser()
        self.view.setAccessibleName(say("Report"))
        self.view.setOpenLinks(False)
        self.view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._pictures = Pictures(self.view.document())
        self.view.document().setMetaInformation(QTextDocument.MetaInformation.CssMedia, "print")
        down.addWidget(self.view, 1)

    def _switch(self, text: str, name: str) -> QPushButton:
        made = button(text, self._make, "way", name)
        made.setCheckable(True)
        return made

    def fill(self) -> None:
        """Make the report of the case as it is now."""
        in_book = self._desk.case_id is not None
        for switch in (self.photos, self.names):
            # Without the case book there is neither.
            switch.setEnabled(in_book)
            switch.setChecked(switch.isChecked() and in_book)
        self._made_at = datetime.now(UTC).astimezone()
        self._make()

    def _make(self) -> None:
        """Make it beside the window: a long case with photos takes seconds on a small machine."""
        desk = self._desk
        assert desk.assessment is not None
        only = self.customer.isChecked()
        self.photos.setEnabled(not only and desk.case_id is not None)
        wanted = _Wanted(
            desk.assessment,
            desk.system,
            self._made_at,
            desk.case_id,
            customer=only,
            photos=self.photos.isChecked() and not only,
            names=self.names.isChecked(),
        )
        self._wanted = wanted
        self._ready(False)
        self.view.setHtml(say("<p>The report is being made.</p>"))

        def then(html: str) -> None:
            # Somebody may have asked for another one meanwhile.
            if isValid(self) and self._wanted is wanted:
                self.html = html
                self.view.setHtml(larger(html))
                self._ready(True)

        def failed(problem: BaseException) -> None:
            if isValid(self) and self._wanted is wanted:
                self.view.setHtml(say("<p>The report could not be made.</p>"))
                desk.tell_problem(say("The report could not be made."), problem)

        desk.background.run(lambda: wanted.made(desk), then, failed)

    def _ready(self, ready: bool) -> None:
        for one in (self.pdf, self.web, self.print):
            one.setEnabled(ready)
        if ready and not any(one.hasFocus() for one in (self.customer, self.photos, self.names)):
            self.pdf.setFocus()

    def keep(self, path: Path) -> bool:
        """Write the report to a file, as PDF or HTML by its ending; return whether it was written."""
        return keep_html(self.html, path, self._desk, say("The report"))

    def _ask(self, ending: str) -> None:
        start = (self._desk.path or Path.home() / "case").with_suffix(f".{ending}")
        path = asked_path(self, say("Save the report"), start, ending)
        if path is not None:
            self.keep(path)

    def _print(self) -> None:
        from faultdoc.app.printer import print_html

        print_html(self.html, self, self._desk, say("The report"))

"""The report: seen here, kept as PDF or HTML."""

from __future__ import annotations

import re
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QTextBrowser, QVBoxLayout, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.keeping import asked_path, keep_html
from faultdoc.app.widgets.basic import button, label, row

__all__ = ["ReportPage", "larger"]


def larger(html: str) -> str:
    """Return the report with its letters grown from those of paper to those of the screen.

    >>> larger("h1 { font-size: 16pt; }")
    'h1 { font-size: 21pt; }'
    """
    return re.sub(r"font-size: (\d+)pt", lambda size: f"font-size: {round(1.3 * int(size[1]))}pt", html)


class ReportPage(QWidget):
    """The report of the case as it is now."""

    back = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.setObjectName("ground")
        self._desk = desk
        self.html = ""
        down = QVBoxLayout(self)
        down.setContentsMargins(20, 14, 20, 14)
        down.addWidget(label("Report", "headline"))
        self.pdf = button("Keep as PDF", lambda: self._ask("pdf"), "main")
        self.web = button("Keep as HTML", lambda: self._ask("html"))
        down.addLayout(row(self.pdf, self.web, button("Back", self.back.emit), 1))
        self.view = QTextBrowser()
        self.view.setAccessibleName("Report")
        self.view.setOpenLinks(False)
        down.addWidget(self.view, 1)

    def fill(self) -> None:
        """Make the report."""
        from faultdoc.record.report import report_html

        assessment = self._desk.assessment
        assert assessment is not None
        start, entries = self._desk.history()
        self.html = report_html(assessment, self._desk.system, entries, start=start)
        self.view.setHtml(larger(self.html))
        self.pdf.setFocus()

    def keep(self, path: Path) -> bool:
        """Write the report to a file, as PDF or HTML by its ending; return whether it was written."""
        return keep_html(self.html, path, self._desk, "The report")

    def _ask(self, ending: str) -> None:
        start = (self._desk.path or Path.home() / "case").with_suffix(f".{ending}")
        path = asked_path(self, "Keep the report", start, ending)
        if path is not None:
            self.keep(path)

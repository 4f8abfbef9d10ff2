"""The report: seen here, kept as PDF or HTML."""

from __future__ import annotations

import re
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QTextBrowser, QVBoxLayout, QWidget

from faultdoc.app.desk import Desk
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
        from faultdoc.app.pdf import html_to_pdf

        try:
            if path.suffix.lower() == ".pdf":
                html_to_pdf(self.html, path)
            else:
                path.write_text(self.html, encoding="utf-8")
        except OSError as problem:
            self._desk.told.emit("bad", f"{path} could not be written: {problem}. Choose another folder.")
            return False
        self._desk.told.emit("good", f"The report is in {path}.")
        return True

    def _ask(self, ending: str) -> None:
        start = str((self._desk.path or Path.home() / "case").with_suffix(f".{ending}"))
        name, _ = QFileDialog.getSaveFileName(self, "Keep the report", start, f"*.{ending}")
        if name:
            path = Path(name)
            self.keep(path if path.suffix.lower() == f".{ending}" else Path(f"{name}.{ending}"))

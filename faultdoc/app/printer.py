"""Prints what would be saved as a PDF: the same pages, on the printer that somebody picks."""

from __future__ import annotations

from PySide6.QtCore import QMarginsF
from PySide6.QtGui import QPageLayout
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QDialog, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.pdf import MARGIN, html_to_device, title_of
from faultdoc.words import say

__all__ = ["print_html", "print_on"]


def print_html(html: str, parent: QWidget, desk: Desk, what: str) -> bool:
    """Ask for a printer and print a page on it; return whether it was sent there.

    Args:
        html: the page.
        parent: over which the question stands.
        desk: whose bar tells how it went.
        what: the page's name with its article: "The report".
    """
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(title_of(html))
    if QPrintDialog(printer, parent).exec() != QDialog.DialogCode.Accepted:
        return False
    return print_on(html, printer, desk, what)


def print_on(html: str, printer: QPrinter, desk: Desk, what: str) -> bool:
    """Print a page on a printer that has been picked, on the paper that is in it, and tell of it in the bar."""
    printer.setPageMargins(QMarginsF(MARGIN, MARGIN, MARGIN, MARGIN), QPageLayout.Unit.Millimeter)
    try:
        pages = html_to_device(html, printer)
    except OSError as problem:
        desk.told.emit(
            "bad",
            say(
                "{what} could not be printed: {problem}. Save it as PDF and print that.",
                what=what,
                problem=problem,
            ),
        )
        return False
    desk.told.emit(
        "good",
        say(
            "{what} went to the printer: {pages} page{what_2}.",
            what=what,
            pages=pages,
            what_2="" if pages == 1 else "s",
        ),
    )
    return True

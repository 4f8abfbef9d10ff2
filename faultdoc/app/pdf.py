"""Makes a PDF of a report: HTML of QTextDocument's subset in, pages with margins and numbers out."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Literal

from PySide6.QtCore import QLocale, QMarginsF, QRectF, QSizeF, Qt
from PySide6.QtGui import (
    QAbstractTextDocumentLayout,
    QFont,
    QGuiApplication,
    QPageLayout,
    QPageSize,
    QPainter,
    QPalette,
    QPdfWriter,
    QTextDocument,
)

from faultdoc.library.whole import whole

__all__ = ["html_to_pdf"]

MARGIN = 16.0
"""mm on every side."""
RESOLUTION = 300
"""Dots per inch of the page's coordinates; text stays text at any."""


def html_to_pdf(html: str, path: Path, *, paper: Literal["A4", "Letter"] | None = None) -> None:
    """Write a report as a PDF with page numbers.

    Works without a window: where no Qt application runs yet, one without a screen is started.

    Args:
        html: within the subset of HTML that QTextDocument understands.
        path: of the PDF; a file that is there is replaced only by a complete one.
        paper: the size; that of the system's own region when left out.

    Raises:
        OSError: when the file cannot be written.
    """
    _application()
    path.parent.mkdir(parents=True, exist_ok=True)
    with whole(path) as draft:
        _write(html, draft, paper)


_kept: list[QGuiApplication] = []


def _application() -> None:
    if QGuiApplication.instance() is None:
        if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY") or os.name == "nt"):
            os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        # Kept: Qt's fonts go with the application.
        _kept.append(QGuiApplication(["faultdoc"]))


def _size(paper: Literal["A4", "Letter"] | None) -> QPageSize:
    if paper is None:
        metric = QLocale.system().measurementSystem() is QLocale.MeasurementSystem.MetricSystem
        paper = "A4" if metric else "Letter"
    return QPageSize(QPageSize.PageSizeId.A4 if paper == "A4" else QPageSize.PageSizeId.Letter)


def _write(html: str, path: Path, paper: Literal["A4", "Letter"] | None) -> None:
    writer = QPdfWriter(str(path))
    writer.setResolution(RESOLUTION)
    writer.setPageLayout(
        QPageLayout(
            _size(paper),
            QPageLayout.Orientation.Portrait,
            QMarginsF(MARGIN, MARGIN, MARGIN, MARGIN),
            QPageLayout.Unit.Millimeter,
        )
    )
    document = QTextDocument()
    document.documentLayout().setPaintDevice(writer)
    document.setDefaultFont(QFont("Sans Serif", 10))
    document.setDocumentMargin(0.0)
    document.setHtml(html)
    writer.setTitle(document.metaInformation(QTextDocument.MetaInformation.DocumentTitle) or "FaultDoc report")
    writer.setCreator("FaultDoc")
    page = QRectF(writer.pageLayout().paintRectPixels(RESOLUTION))
    foot = 12.0 / 72.0 * RESOLUTION * 1.8
    body = QSizeF(page.width(), page.height() - foot)
    document.setPageSize(body)
    painter = QPainter()
    if not painter.begin(writer):
        raise OSError(f"{path} cannot be written as a PDF")
    pages = document.pageCount()
    context = QAbstractTextDocumentLayout.PaintContext()
    # The report is printed on paper, whatever the window's colours are.
    context.palette.setColor(QPalette.ColorRole.Text, Qt.GlobalColor.black)
    small = QFont("Sans Serif", 8)
    for number in range(pages):
        if number:
            writer.newPage()
        top = number * body.height()
        painter.save()
        painter.translate(0.0, -top)
        context.clip = QRectF(0.0, top, body.width(), body.height())
        painter.setClipRect(context.clip)
        document.documentLayout().draw(painter, context)
        painter.restore()
        painter.setFont(small)
        place = QRectF(0.0, body.height(), page.width(), foot)
        text = f"Page {number + 1} of {pages}"
        painter.drawText(place, int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom), text)
    if not painter.end():
        raise OSError(f"{path} could not be written to its end")

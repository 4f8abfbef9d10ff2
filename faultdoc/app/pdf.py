"""Makes a PDF of a report, or prints it: HTML of QTextDocument's subset in, pages with margins and numbers out."""

from __future__ import annotations

import os
import re
from html import unescape
from pathlib import Path
from typing import Literal

from PySide6.QtCore import QLocale, QMarginsF, QRectF
from PySide6.QtGui import (
    QFont,
    QGuiApplication,
    QPagedPaintDevice,
    QPageLayout,
    QPageSize,
    QPainter,
    QPdfWriter,
    QTextDocument,
)

from faultdoc.app.paper import Pictures, paint
from faultdoc.library.whole import whole

__all__ = ["MARGIN", "html_to_device", "html_to_pdf", "title_of"]

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
        writer = QPdfWriter(str(draft))
        writer.setResolution(RESOLUTION)
        writer.setPageLayout(
            QPageLayout(
                _size(paper),
                QPageLayout.Orientation.Portrait,
                QMarginsF(MARGIN, MARGIN, MARGIN, MARGIN),
                QPageLayout.Unit.Millimeter,
            )
        )
        writer.setCreator("FaultDoc")
        writer.setTitle(title_of(html))
        html_to_device(html, writer)


def html_to_device(html: str, device: QPagedPaintDevice) -> int:
    """Paint a report on the pages of a PDF writer or a printer; return how many there are.

    Raises:
        OSError: when the device cannot be begun, or fails on the way.
    """
    document = QTextDocument()
    document.documentLayout().setPaintDevice(device)
    pictures = Pictures(document)
    font = QFont("Sans Serif", 10)
    # 'flow' with its first two letters run together is not found by who searches a PDF for it.
    font.setFeature(QFont.Tag("liga"), 0)
    document.setDefaultFont(font)
    document.setDocumentMargin(0.0)
    # Or the margins for a browser's window are taken too.
    document.setMetaInformation(QTextDocument.MetaInformation.CssMedia, "print")
    document.setHtml(html)
    document.setTextWidth(QRectF(device.pageLayout().paintRectPixels(device.logicalDpiX())).width())
    painter = QPainter()
    if not painter.begin(device):
        raise OSError("it cannot be opened for writing")
    pages = paint(document, device, painter, title_of(html))
    # Until here the document paints its pictures with it.
    del pictures
    if not painter.end():
        raise OSError("it could not be written to its end")
    return pages


def title_of(html: str) -> str:
    """Return the title of a page.

    >>> title_of("<html><head><title>Chiller &amp; pump</title></head></html>"), title_of("<p>x</p>")
    ('Chiller & pump', 'FaultDoc report')
    """
    found = re.search(r"<title>(.*?)</title>", html, re.DOTALL)
    return " ".join(unescape(found[1]).split()) if found else "FaultDoc report"


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

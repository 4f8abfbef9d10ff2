"""Writes files whole or not at all: reports as HTML or, by the window's own page maker, as PDF."""

from __future__ import annotations

from pathlib import Path

from faultdoc.library.whole import write_whole

__all__ = ["OutputError", "write_report", "write_text"]


class OutputError(Exception):
    """The report cannot be written; the message says why and what helps."""


def write_text(text: str, path: Path) -> None:
    """Write a text file, whole or not at all.

    Raises:
        OutputError: when the file cannot be written.
    """
    try:
        write_whole(text, path)
    except OSError as problem:
        raise OutputError(f"{path} cannot be written: {problem.strerror or problem}") from None


def write_report(html: str, path: Path) -> None:
    """Write a report, whole or not at all; the name's ending says whether as HTML or as PDF.

    Raises:
        OutputError: when the ending is another, the file cannot be written, or a PDF is wanted and
            Qt's system libraries are missing.
    """
    ending = path.suffix.lower()
    if ending not in (".html", ".htm", ".pdf"):
        found = f"'{path.suffix}'" if path.suffix else "no ending"
        raise OutputError(f"{path}: found {found}; a report is written as .html or .pdf: end the name so")
    try:
        if ending == ".pdf":
            _pdf(html, path)
        else:
            write_whole(html, path)
    except OSError as problem:
        raise OutputError(f"{path} cannot be written: {problem.strerror or problem}") from None


def _pdf(html: str, path: Path) -> None:
    try:
        from faultdoc.app.pdf import html_to_pdf
    except ImportError as problem:
        raise OutputError(
            f"A PDF needs Qt, and Qt cannot be loaded here ({problem}). Install the system libraries it names "
            "(start.py lists them), or write the report as .html and print it from a browser."
        ) from None
    html_to_pdf(html, path)

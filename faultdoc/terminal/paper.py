"""The report of a case file, or of a case of the case book, from the command line."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from faultdoc.diagnosis.assess import assess, bench_for
from faultdoc.library.load import Library, load_case, load_unit
from faultdoc.quantities import System
from faultdoc.record.printing import full_report
from faultdoc.record.session import Session, replay
from faultdoc.terminal.output import OutputError

if TYPE_CHECKING:
    from faultdoc.record.casebook import CaseBook
    from faultdoc.record.figures import Figure

__all__ = ["file_report", "is_in_book", "kept_report"]


def is_in_book(case: str) -> bool:
    """Say whether a case is named as the case book names it, and not as a file.

    >>> is_in_book("12"), is_in_book("0f" * 16), is_in_book("case.yaml")
    (True, True, False)
    """
    return bool(re.fullmatch(r"\d{1,9}|[0-9a-f]{32}", case)) and not Path(case).is_file()


def file_report(path: Path, library: Library, system: System, size: int = 2, *, customer: bool = False) -> str:
    """Return the report of a case file, which has neither journal nor photos nor names.

    Raises:
        FileProblems: with every mistake in the file.
        KeyError, ValueError: when the case does not belong to the library.
    """
    case = load_case(path, library)
    found = assess(bench_for(library, load_unit(case.unit), case.symptoms, size), case)
    return full_report(found, system, customer=customer)


def kept_report(
    book: CaseBook,
    case: str,
    library: Library,
    system: System,
    size: int = 2,
    *,
    customer: bool = False,
    with_photos: bool = False,
    with_people: bool = False,
) -> str:
    """Return the report of a case of the case book, with its journal.

    Args:
        book: the case book.
        case: its number, or the 32 hex digits that name it everywhere.
        library: points, plant and trees.
        system: units.
        size: most faults at once.
        customer: only the page for the customer.
        with_photos: whether its photos are printed.
        with_people: whether names and numbers are.

    Raises:
        KeyError: when there is no such case.
        OutputError: when photos are wanted and Qt, which makes them small, cannot be loaded.
        CaseBookError: when the case book cannot be read.
    """
    id = book.number(case)
    start, entries = book.load(id)
    session: Session = replay(bench_for(library, load_unit(start.unit), start.symptoms, size), start, entries)
    shown, not_shown = _photos(book, id) if with_photos and not customer else ((), ())
    return full_report(
        session.assessment,
        system,
        entries,
        start,
        datetime.now(UTC).astimezone(),
        customer=customer,
        contacts=book.contacts(id) if with_people else (),
        photos=shown,
        not_shown=not_shown,
    )


def _photos(book: CaseBook, id: int) -> tuple[tuple[Figure, ...], tuple[str, ...]]:
    try:
        from faultdoc.app.photos import photos
    except ImportError as problem:
        raise OutputError(
            f"Photos are made small by Qt, and Qt cannot be loaded here ({problem}). Install the system libraries "
            "it names (start.py lists them), or leave --photos out."
        ) from None
    return photos((one, book.content(one.id)) for one in book.attachments(id))

"""The case book as a whole in the terminal: back-up, restore, export, import, and forgetting people."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from faultdoc.record.casebook import CaseBook, Imported, Wanted
from faultdoc.record.draft import keep_draft
from faultdoc.record.settings import CASE_BOOK_VARIABLE, Settings, case_book_place, data_home, is_server
from faultdoc.record.words import counted
from faultdoc.terminal import text as page
from faultdoc.terminal.output import OutputError
from faultdoc.terminal.talk import Ask, Tell

__all__ = ["backup", "erase", "export", "import_", "restore", "use"]


def backup(tell: Tell, book: CaseBook, path: Path) -> None:
    """Write a back-up, and say so.

    Raises:
        CaseBookError: when it could not be written.
    """
    book.backup(path)
    tell(f"The back-up of {book} is written to {path} ({path.stat().st_size / 1024:.0f} kB).")


def restore(tell: Tell, path: Path, where: str | None) -> None:
    """Make a case book of a back-up, and say where it lies.

    Raises:
        CaseBookError: when the back-up is not sound, or there is a case book already.
    """
    book = CaseBook.restore(path, where)
    try:
        tell(f"{book} is made of {path}: {counted(len(book.cases(Wanted(limit=None))), 'case')}.")
    finally:
        book.dispose()


def export(tell: Tell, book: CaseBook, folder: Path, people: bool, only: Sequence[int]) -> None:
    """Write cases as plain files, and say what was left out.

    Raises:
        KeyError: when one of the cases is not there.
        CaseBookError: when the folder could not be written.
    """
    count = book.export(folder, people, only or None)
    tell(f"Written to {folder}: {counted(count, 'case')} of {book}.")
    if people:
        tell("Names and telephone numbers are in it: give it only to those who may have them.")
    else:
        tell(
            page.paragraph(
                "Names and telephone numbers are left out; nobody has looked into photos and documents."
            )
        )


def import_(tell: Tell, book: CaseBook, folder: Path) -> Imported:
    """Take in an export, and say what came of it.

    Raises:
        CaseBookError: when something in it cannot be understood; nothing is imported then.
    """
    done = book.import_(folder)
    tell(
        f"{len(done.new)} new, {len(done.grown)} went on elsewhere and are brought up to date, "
        f"{len(done.same)} the same."
    )
    if done.units:
        tell(f"Data sheets of units that were not here: {', '.join(done.units)}.")
    if done.apart:
        tell(
            page.paragraph(
                f"Case {', '.join(map(str, done.apart))} went on both here and there, and is left as it is here. "
                "Put the two together with 'faultdoc handover'."
            )
        )
    return done


def erase(ask: Ask, tell: Tell, book: CaseBook, case_id: int, sure: bool) -> bool:
    """Forget the people of a case, once someone says so; return whether it was done.

    Raises:
        KeyError: when there is no such case.
        CaseBookError: when it could not be done.
    """
    if not sure:
        count = len(book.contacts(case_id))
        tell(
            page.paragraph(
                f"Case {case_id}: {counted(count, 'contact')} {'goes' if count == 1 else 'go'}, and a mark stands "
                "where their names or numbers were typed into the case. This cannot be taken back."
            )
        )
        if ask(f"Type {case_id} to go on: ").strip() != str(case_id):
            tell("Nothing was changed.")
            return False
    done = book.erase(case_id)
    # What is half typed on the phone is no part of the case yet, and may name anybody.
    keep_draft(book.uid(case_id), "")
    tell(
        f"Forgotten: {counted(done.contacts, 'contact')}. "
        f"Marks stand in {counted(done.rows, 'entry', 'entries')} now."
    )
    if done.attachments:
        tell(f"Look through {counted(done.attachments, 'attachment')} yourself: pictures are not searched.")
    tell("Back-ups and exports made before still hold them.")
    return True


def use(tell: Tell, where: str | None, settings: Settings) -> None:
    """Say where the case book lies; or, once another could be opened, use that from now on.

    Args:
        tell: the person.
        where: a file or the address of a PostgreSQL database; 'usual' for the file in the person's own folder.
        settings: those kept.

    Raises:
        CaseBookError: when that case book cannot be used; the setting is then as it was.
        OutputError: when the settings cannot be kept.
    """
    named = os.environ.get(CASE_BOOK_VARIABLE)
    if where is not None:
        place: Path | str = where if is_server(where) else Path(where).expanduser().resolve()
        _say_which(tell, data_home() / "cases.sqlite" if where == "usual" else place)
        chosen = None if where == "usual" else str(place)
        try:
            settings.model_copy(update={"case_book": chosen}).save()
        except OSError as problem:
            raise OutputError(f"The settings cannot be kept: {problem.strerror or problem}.") from None
        tell("It is used from now on. 'book export' and 'book import' bring cases of the one before over.")
    elif not named:
        _say_which(tell, case_book_place())
    if named:
        _say_which(tell, case_book_place())
        tell(f"So says {CASE_BOOK_VARIABLE}, which goes before the setting.")


def _say_which(tell: Tell, place: Path | str) -> None:
    book = CaseBook.open(place)
    try:
        tell(f"{book}: {counted(len(book.cases(Wanted(limit=None))), 'case')}.")
    finally:
        book.dispose()

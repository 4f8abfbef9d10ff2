"""The case book as the rest of the program uses it."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from pathlib import Path
from uuid import uuid4

from sqlalchemy import select

from faultdoc.model.case import Case
from faultdoc.record.casebook import keeping, summaries, tables
from faultdoc.record.casebook.attachments import Attachment, add_attachment, attachments_of
from faultdoc.record.casebook.contacts import Contact, contacts_of, replace_contacts
from faultdoc.record.casebook.copies import back_up, put_back
from faultdoc.record.casebook.engines import Store, store_at
from faultdoc.record.casebook.erase import Erased, erase, leave_no_trace
from faultdoc.record.casebook.errors import CaseBookError
from faultdoc.record.casebook.layout import bring_up_to_date
from faultdoc.record.casebook.place import Place, place_of
from faultdoc.record.casebook.rows import case_from, entries_of
from faultdoc.record.casebook.summaries import Summary, Wanted
from faultdoc.record.casebook.transfer import Imported, export_cases, import_cases
from faultdoc.record.session import Entry
from faultdoc.record.settings import case_book_place

__all__ = ["CaseBook", "CaseJournal"]


class CaseBook:
    """The database of cases. Use `CaseBook.open`, and `dispose` when done with it.

    Attributes:
        path: of its file, None when it lies on a server.
    """

    def __init__(self, store: Store) -> None:
        self._store = store
        self.path = store.place.path

    @classmethod
    def open(cls, where: Path | str | None = None) -> CaseBook:
        """Open the case book, making it where there is none and bringing it to this version's layout.

        Args:
            where: its file, or the address of a PostgreSQL database (postgresql://user@host/name). When left out,
                what the environment variable FAULTDOC_CASE_BOOK or the setting `case_book` says, else
                `cases.sqlite` in the user's own folder.

        Raises:
            CaseBookError: when it is damaged, locked, of another program or of a newer FaultDoc, or cannot be
                reached; it is left as it is.
        """
        place = _place(where)
        if place.path is not None:
            try:
                place.path.parent.mkdir(parents=True, exist_ok=True)
            except OSError as problem:
                raise CaseBookError(
                    f"The folder {place.path.parent} for the case book cannot be made: {problem.strerror}. "
                    "Make it, or name another with the environment variable FAULTDOC_HOME."
                ) from None
        store = store_at(place)
        try:
            bring_up_to_date(store)
        except BaseException:
            store.engine.dispose()
            raise
        return cls(store)

    def __str__(self) -> str:
        return str(self._store.place)

    def dispose(self) -> None:
        """Let go of the file or the server."""
        self._store.engine.dispose()

    # --- cases and their journals ---

    def start(self, case: Case, *, uid: str | None = None) -> int:
        """Enter a new case; return its id.

        Args:
            case: as it is at the start.
            uid: of the copy on another machine that this is one of, 32 hex digits; a new one when left out.

        Raises:
            ValueError: when the uid is none.
            CaseBookError: when it could not be kept, or a case of that uid is there already.
        """
        with self._store.writing() as connection:
            return keeping.enter(connection, case, uid or uuid4().hex)

    def uid(self, case_id: int) -> str:
        """Return what names the case on every machine: 32 hex digits.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when the case book cannot be read.
        """
        with self._store.reading() as connection:
            return str(keeping.known(connection, case_id).uid)

    def number(self, case: str) -> int:
        """Return the id of a case that a person named by its number or its uid.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when the case book cannot be read.
        """
        with self._store.reading() as connection:
            id = int(case) if case.isdecimal() and len(case) < 10 else keeping.id_of(connection, case)
            if id is None:
                raise KeyError(f"no case {case} in the case book")
            keeping.known(connection, id)
            return id

    def by_uid(self, uid: str) -> int | None:
        """Return the id that the case of a uid has here, None when it is not here.

        Raises:
            CaseBookError: when the case book cannot be read.
        """
        with self._store.reading() as connection:
            return keeping.id_of(connection, uid)

    def journal(self, case_id: int) -> CaseJournal:
        """Return the journal of a case, at its end.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when the case book cannot be read.
        """
        with self._store.reading() as connection:
            return CaseJournal(self, case_id, int(keeping.known(connection, case_id).entries))

    def load(self, case_id: int) -> tuple[Case, list[Entry]]:
        """Return a case as it was at the start, and its journal, for `faultdoc.record.session.replay`.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when the case book cannot be read.
        """
        with self._store.reading() as connection:
            start = keeping.known(connection, case_id).start
            return case_from(start, case_id), entries_of(connection, case_id)

    def close(self, case_id: int) -> None:
        """Take a case off the list of unfinished ones; its journal stays. Closing twice does no harm.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when it could not be kept.
        """
        with self._store.writing() as connection:
            keeping.locked(connection, case_id)
            keeping.close(connection, case_id)

    def add(self, case_id: int, seq: int, entry: Entry) -> None:
        """Add the entry with number `seq` to a case's journal; `CaseJournal` counts for you.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when it could not be kept, or when that is not the next number: someone else works on
                the same case.
        """
        with self._store.writing() as connection:
            summary = keeping.locked(connection, case_id)
            if seq != summary.entries + 1:
                if seq == summary.entries and keeping.is_kept(connection, case_id, seq, entry):
                    return  # it was written, but the word of it was lost on the way
                raise keeping.elsewhere(connection, case_id)
            keeping.append(connection, case_id, [entry], summary)

    def add_all(self, case_id: int, entries: Sequence[Entry]) -> None:
        """Add entries at the end of a case's journal, all or none.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when they could not be kept.
        """
        with self._store.writing() as connection:
            keeping.append(connection, case_id, entries, keeping.locked(connection, case_id))

    # --- finding ---

    def cases(self, wanted: Wanted | None = None) -> tuple[Summary, ...]:
        """Return the cases wanted, the one worked on last first.

        Raises:
            CaseBookError: when the case book cannot be read.
        """
        with self._store.reading() as connection:
            return summaries.find(connection, wanted or Wanted())

    def summary(self, case_id: int) -> Summary:
        """Return a case as a list shows it.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when the case book cannot be read.
        """
        with self._store.reading() as connection:
            keeping.known(connection, case_id)
            return summaries.one(connection, case_id)

    def unfinished(self) -> tuple[Summary, ...]:
        """Return the cases not closed, the one worked on last first.

        Raises:
            CaseBookError: when the case book cannot be read.
        """
        return self.cases(Wanted(open=True, limit=None))

    # --- people and attachments ---

    def contacts(self, case_id: int) -> tuple[Contact, ...]:
        """Return the people of a case.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when the case book cannot be read.
        """
        with self._store.reading() as connection:
            keeping.known(connection, case_id)
            return contacts_of(connection, case_id)

    def set_contacts(self, case_id: int, contacts: Sequence[Contact]) -> None:
        """Let these be the people of a case; those of before are forgotten.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when they could not be kept.
        """
        with self._store.writing() as connection:
            keeping.locked(connection, case_id)
            replace_contacts(connection, case_id, contacts)

    def erase(self, case_id: int) -> Erased:
        """Forget the people of a case: its contacts go, and where their names or numbers were typed a mark stands.

        Nothing of them is left in the file. What is in photos and documents is not looked at, nor are copies and
        back-ups made before; of a server's own logs and back-ups its keeper must see.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when it could not be done, or traces may be left.
        """
        with self._store.writing() as connection:
            keeping.locked(connection, case_id)
            erased = erase(connection, case_id)
        leave_no_trace(self._store)
        return erased

    def attach(self, case_id: int, name: str, data: bytes) -> Attachment:
        """Keep a photo (JPEG, PNG, WebP) or a PDF with a case; the same content is kept once.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when it is too large or of another kind, or could not be kept.
        """
        with self._store.writing() as connection:
            keeping.locked(connection, case_id)
            return add_attachment(connection, case_id, name, data)

    def attachments(self, case_id: int) -> tuple[Attachment, ...]:
        """Return the attachments of a case, the first added first, without their content.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when the case book cannot be read.
        """
        with self._store.reading() as connection:
            keeping.known(connection, case_id)
            return attachments_of(connection, case_id)

    def content(self, id: int) -> bytes:
        """Return what is in an attachment.

        Raises:
            KeyError: when there is no such attachment.
            CaseBookError: when the case book cannot be read.
        """
        with self._store.reading() as connection:
            query = select(tables.attachments.c.content).where(tables.attachments.c.id == id)
            found = connection.execute(query).scalar_one_or_none()
        if found is None:
            raise KeyError(f"no attachment {id} in {self}")
        return bytes(found)

    # --- copies ---

    def backup(self, path: Path) -> None:
        """Write a copy of the whole book, as it is at one moment, into a file; that is a case book itself.

        Raises:
            CaseBookError: when the book cannot be read, or the file not be written.
        """
        back_up(self._store, path)

    @classmethod
    def restore(cls, path: Path, where: Path | str | None = None) -> CaseBook:
        """Make a case book of a back-up and open it; one that is there already is left as it is, and told.

        Args:
            path: of the back-up.
            where: as for `open`.

        Raises:
            CaseBookError: when the back-up is none or damaged, or there is a case book with cases.
        """
        put_back(path, _place(where))
        return cls.open(where)

    def export(self, folder: Path, people: bool = False, only: Collection[int] | None = None) -> int:
        """Write cases as plain files into a new folder, whole or not at all; return how many.

        Args:
            folder: is made; what is in it: `faultdoc.record.casebook.plainfiles`.
            people: whether contacts go with them. If not, marks stand where their names and numbers, or what looks
                like a telephone number, were typed. What is in photos and documents is not looked at.
            only: ids of the cases; all when left out.

        Raises:
            KeyError: when one of those is not there.
            CaseBookError: when the folder is in use or cannot be written, or the case book not be read.
        """
        with self._store.reading() as connection:
            return export_cases(connection, folder, people, only)

    def import_(self, folder: Path) -> Imported:
        """Take in the cases of an export, all or none. What was done here is never changed.

        Raises:
            CaseBookError: naming file, line and remedy when something cannot be understood.
        """
        with self._store.writing() as connection:
            return import_cases(connection, folder)


def _place(where: Path | str | None) -> Place:
    try:
        return place_of(case_book_place() if where is None else where)
    except ValueError as problem:
        raise CaseBookError(f"{str(problem)[:1].upper()}{str(problem)[1:]}.") from None


@dataclass
class CaseJournal:
    """The journal of one case; `append` returns only when the entry is on the disk.

    Attributes:
        last: number of the last entry written or, at first, read.
    """

    book: CaseBook
    case_id: int
    last: int

    def append(self, entry: Entry) -> None:
        """Keep one entry.

        Raises:
            CaseBookError: when it could not be kept; nothing was written then.
        """
        self.book.add(self.case_id, self.last + 1, entry)
        self.last += 1

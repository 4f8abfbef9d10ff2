"""Cases and entries put into the book, each within a transaction of the caller's."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, insert, select

from faultdoc.model.case import Case
from faultdoc.record.casebook import summaries, tables
from faultdoc.record.casebook.errors import CaseBookError
from faultdoc.record.casebook.rows import row_of, text_of
from faultdoc.record.session import Entry

__all__ = ["append", "close", "elsewhere", "enter", "id_of", "is_kept", "known", "locked"]


def enter(connection: Connection, case: Case, uid: str, at: datetime | None = None) -> int:
    """Enter a new case; return its id.

    Raises:
        ValueError: when the uid is none.
        CaseBookError: when a case of that uid is there already, or the case could not be read back.
    """
    if len(uid) != 32 or not set(uid) <= set("0123456789abcdef"):
        raise ValueError(f"'{uid}' is not 32 hex digits, as the uid of a case is")
    if (there := id_of(connection, uid)) is not None:
        raise CaseBookError(f"That case is in the case book already, as number {there}. Open it there.")
    values = {"at": tables.naive(at), "start": text_of(case), "uid": uid}
    key = connection.execute(insert(tables.cases).values(values)).inserted_primary_key
    assert key is not None
    summaries.rebuild(connection, int(key[0]))
    return int(key[0])


def id_of(connection: Connection, uid: str) -> int | None:
    """Return the id that the case of a uid has, None when it is not there."""
    return connection.execute(select(tables.cases.c.id).where(tables.cases.c.uid == uid)).scalar_one_or_none()


def known(connection: Connection, case_id: int) -> Any:
    """Return a case's row, with how many entries it has.

    Raises:
        KeyError: when there is no such case.
    """
    cases = tables.cases
    query = select(cases.c.uid, cases.c.start, tables.summaries.c.entries)
    row = connection.execute(query.join(tables.summaries).where(cases.c.id == case_id)).one_or_none()
    return _there(row, case_id)


def locked(connection: Connection, case_id: int) -> Any:
    """Return a case's summary; until the transaction ends nobody else changes the case.

    Raises:
        KeyError: when there is no such case.
    """
    query = select(tables.summaries).where(tables.summaries.c.case_id == case_id).with_for_update()
    return _there(connection.execute(query).one_or_none(), case_id)


def _there(row: Any, case_id: int) -> Any:
    if row is None:
        raise KeyError(f"no case {case_id} in the case book")
    return row


def append(connection: Connection, case_id: int, entries: Sequence[Entry], summary: Any) -> None:
    """Add entries at the end of a case's journal.

    Args:
        connection: in the transaction that locked the case.
        case_id: whose.
        entries: may be none.
        summary: of the case, as it was when it was locked.
    """
    if entries:
        rows = [row_of(case_id, seq, entry) for seq, entry in enumerate(entries, start=summary.entries + 1)]
        connection.execute(insert(tables.journal), rows)
        summaries.follow(connection, case_id, entries, summary.words, summary.entries)


def is_kept(connection: Connection, case_id: int, seq: int, entry: Entry) -> bool:
    """Say whether the entry of that number is this one; when it was made does not matter."""
    journal = tables.journal
    query = select(journal).where(journal.c.case_id == case_id, journal.c.seq == seq)
    kept, ours = connection.execute(query).one(), row_of(case_id, seq, entry)
    return all(getattr(kept, field) == ours[field] for field in ("move", "what", "case", "by"))


def elsewhere(connection: Connection, case_id: int) -> CaseBookError:
    """Return the error that someone else works on the same case, with the station where."""
    journal = tables.journal
    query = select(journal.c.by).where(journal.c.case_id == case_id).order_by(journal.c.seq.desc()).limit(1)
    by = connection.execute(query).scalar_one_or_none()
    return CaseBookError(
        f"Case {case_id} is being worked on elsewhere too: in another window, terminal or desk"
        f"{f' (last at {by})' if by else ''}. The move was not taken: go on there, or open the case again here."
    )


def close(connection: Connection, case_id: int, at: datetime | None = None) -> bool:
    """Take a case off the list of unfinished ones; return whether it was on it."""
    closed = tables.closed
    if connection.execute(select(closed).where(closed.c.case_id == case_id)).first() is not None:
        return False
    connection.execute(insert(closed).values(case_id=case_id, at=tables.naive(at)))
    return True

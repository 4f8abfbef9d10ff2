"""Forgetting the people of a case: their contacts, and their names and numbers wherever they were typed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Table, delete, func, insert, select, update

from faultdoc.record.casebook import tables
from faultdoc.record.casebook.attachments import plain_name
from faultdoc.record.casebook.contacts import contacts_of
from faultdoc.record.casebook.engines import Store
from faultdoc.record.casebook.errors import CaseBookError
from faultdoc.record.casebook.people import blot, in_case
from faultdoc.record.casebook.rows import case_from, text_of
from faultdoc.record.casebook.summaries import rebuild
from faultdoc.record.casebook.tables import attachments, cases, contacts, erasing, journal

__all__ = ["Erased", "erase", "leave_no_trace"]


@dataclass(frozen=True)
class Erased:
    """What was forgotten.

    Attributes:
        contacts: how many.
        rows: how many rows of case, journal and attachments had a name or number of theirs in them.
        attachments: how many photos and documents the case has; nobody has looked into them.
    """

    contacts: int
    rows: int
    attachments: int


def erase(connection: Connection, case_id: int) -> Erased:
    """Forget the people of a case, in the transaction given; the rows of this case alone may change in it."""
    people = contacts_of(connection, case_id)
    without = blot(people, any_phone=False)

    def without_people(case: str) -> str:
        before = case_from(case, case_id)
        after = in_case(before, without)
        return case if after == before else text_of(after)

    changes: dict[Table, dict[str, Callable[[str], str]]] = {
        cases: {"start": without_people},
        journal: {"what": without, "by": without, "case": without_people},
        attachments: {"name": lambda name: plain_name(without(name))},
    }
    connection.execute(insert(erasing).values(case_id=case_id))
    rows = sum(_change(connection, table, case_id, columns) for table, columns in changes.items())
    connection.execute(delete(contacts).where(contacts.c.case_id == case_id))
    connection.execute(delete(erasing).where(erasing.c.case_id == case_id))
    rebuild(connection, case_id)
    if connection.dialect.name == "sqlite":
        # The index of words marks a word as gone, and drops it when it happens to merge: not late enough.
        connection.exec_driver_sql("INSERT INTO found (found) VALUES ('rebuild')")
    mine = attachments.c.case_id == case_id
    left = connection.execute(select(func.count()).select_from(attachments).where(mine)).scalar_one()
    return Erased(len(people), rows, left)


def _change(connection: Connection, table: Table, case_id: int, columns: dict[str, Callable[[str], str]]) -> int:
    """Change the columns of a case's rows; return how many rows there was something to change in."""
    key = list(table.primary_key.columns)
    mine = (table.c.id if table is cases else table.c.case_id) == case_id
    changed = 0
    for row in connection.execute(select(*key, *(table.c[name] for name in columns)).where(mine)).all():
        new: dict[str, Any] = {
            name: text for name, change in columns.items() if (text := change(old := getattr(row, name))) != old
        }
        if new:
            same = [column == getattr(row, column.name) for column in key]
            connection.execute(update(table).where(*same).values(new))
            changed += 1
    return changed


def leave_no_trace(store: Store) -> None:
    """Write the database anew, so that nothing is left in it of rows that were changed or deleted.

    Raises:
        CaseBookError: when others keep the old content in use.
    """
    with store.outside() as connection:
        if store.place.path is None:
            for table in (cases, journal, attachments, contacts, tables.summaries):
                connection.exec_driver_sql(f"VACUUM {table.name}")
            return
        connection.exec_driver_sql("VACUUM")
        # The write-ahead log is emptied only when nobody reads from it; SQLite waits for that, as for any lock.
        if connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)").one()[0]:
            raise CaseBookError(
                f"The people of the case are forgotten, but another program reads {store.place}: traces may be "
                "left in the file. Close that program, then erase again."
            )

"""Connections to the two databases, and their transactions."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.exc import DatabaseError

from faultdoc.record.casebook.errors import CaseBookError, in_words
from faultdoc.record.casebook.place import Place

__all__ = ["APPLICATION", "PATIENCE", "Store", "store_at"]

APPLICATION = 0x46446F63  # "FDoc": marks a file as a case book (SQLite's application_id)
PATIENCE = 5.0  # seconds to wait for another program's write to end, and for a server to answer


@dataclass(frozen=True)
class Store:
    """A database and where it lies."""

    engine: Engine
    place: Place

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Give a connection in one transaction that may write, committed at the end.

        Raises:
            CaseBookError: when something is wrong with the database, in words.
        """
        with self._told(), self.engine.begin() as connection:
            yield connection

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection that sees the database as it was at one moment; it keeps no writer waiting.

        Raises:
            CaseBookError: when something is wrong with the database, in words.
        """
        with self._told(), self.engine.connect() as connection:
            if self.place.path is None:
                connection = connection.execution_options(isolation_level="REPEATABLE READ")
            else:
                connection = connection.execution_options(only_reads=True)
            with connection.begin():
                yield connection

    @contextmanager
    def outside(self) -> Iterator[Connection]:
        """Give a connection without a transaction, for the database's upkeep.

        Raises:
            CaseBookError: when something is wrong with the database, in words.
        """
        with self._told(), self.engine.connect() as connection:
            if self.place.path is None:
                connection = connection.execution_options(isolation_level="AUTOCOMMIT")
            else:
                connection = connection.execution_options(no_transaction=True)
            yield connection

    @contextmanager
    def _told(self) -> Iterator[None]:
        try:
            yield
        except DatabaseError as problem:
            raise CaseBookError(in_words(problem.orig, self.place)) from problem


def store_at(place: Place) -> Store:
    """Return the database at a place; nothing is read yet."""
    if place.path is not None:
        # Only SQLite's own driver knows `timeout`: how long to wait for another program's write.
        engine = create_engine(place.url, connect_args={"timeout": PATIENCE})
        event.listen(engine, "connect", _set_up_sqlite)
        event.listen(engine, "begin", _begin_sqlite)
    else:
        engine = create_engine(
            place.url,
            pool_pre_ping=True,  # a server that was away for a while is not noticed but by asking
            connect_args={"connect_timeout": round(PATIENCE), "application_name": "faultdoc"},
        )
        event.listen(engine, "connect", _set_up_postgresql)
    return Store(engine, place)


def _set_up_sqlite(connection: Any, _: Any) -> None:
    # Transactions are begun by `_begin_sqlite`: Python's driver would begin late and not at all for DDL.
    connection.isolation_level = None
    cursor = connection.cursor()
    pragmas = ["synchronous = FULL", "foreign_keys = ON", "secure_delete = ON"]
    # WAL is a mark in the file itself: not for another program's database, which layout.py refuses.
    tables = cursor.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    if not tables or cursor.execute("PRAGMA application_id").fetchone()[0] == APPLICATION:
        pragmas.append("journal_mode = WAL")
    for pragma in pragmas:
        cursor.execute(f"PRAGMA {pragma}")
    cursor.close()


def _begin_sqlite(connection: Connection) -> None:
    options = connection.get_execution_options()
    if options.get("no_transaction"):
        return
    # Immediate: two programs that open a new case book at once make its tables once.
    connection.exec_driver_sql("BEGIN" if options.get("only_reads") else "BEGIN IMMEDIATE")


def _set_up_postgresql(connection: Any, _: Any) -> None:
    # A server may be set to acknowledge before it has written; the case book's promise is the other way.
    connection.execute("SET synchronous_commit = on")
    connection.execute(f"SET lock_timeout = {round(1000 * PATIENCE)}")
    connection.commit()

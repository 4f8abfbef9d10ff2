"""The case book: every move of every case in one database, safe before it shows.

Rows are only ever added. A case is what it was at the start and the journal of moves since; it is
closed by a row of its own. SQLite keeps its write-ahead log in step with the disk at every commit
(synchronous FULL), so an entry that was acknowledged outlives the program and the power.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Literal

from pydantic import ValidationError
from sqlalchemy import (
    URL,
    Column,
    Connection,
    DateTime,
    Engine,
    ForeignKey,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    create_engine,
    event,
    func,
    insert,
    select,
)
from sqlalchemy.exc import DatabaseError, IntegrityError

from faultdoc.model.case import Case
from faultdoc.record.session import Entry
from faultdoc.record.settings import data_home

__all__ = ["CaseBook", "CaseBookError", "CaseJournal", "Open"]

APPLICATION = 0x46446F63  # "FDoc": marks the file as a case book (SQLite's application_id)
LAYOUT = 1  # of the tables below (SQLite's user_version)
PATIENCE = 5.0  # seconds to wait for another program's write to end

_tables = MetaData()
_cases = Table(
    "cases",
    _tables,
    Column("id", Integer, primary_key=True),
    Column("at", DateTime, nullable=False),
    Column("start", Text, nullable=False),
)
_journal = Table(
    "journal",
    _tables,
    Column("case_id", ForeignKey("cases.id"), primary_key=True),
    Column("seq", Integer, primary_key=True),
    Column("at", DateTime, nullable=False),
    Column("move", String(8), nullable=False),
    Column("what", Text, nullable=False),
    Column("case", Text, nullable=False),
)
_closed = Table(
    "closed",
    _tables,
    Column("case_id", ForeignKey("cases.id"), primary_key=True),
    Column("at", DateTime, nullable=False),
)


@event.listens_for(_tables, "after_create")
def _only_add(_tables: MetaData, connection: Connection, **_: Any) -> None:
    """Have the database itself refuse to change or delete a row."""
    for table in (_cases, _journal, _closed):
        for verb in ("UPDATE", "DELETE"):
            connection.exec_driver_sql(
                f"CREATE TRIGGER {table.name}_no_{verb.lower()} BEFORE {verb} ON {table.name} "
                "BEGIN SELECT RAISE(ABORT, 'rows of the case book are only added'); END"
            )


class CaseBookError(Exception):
    """The case book cannot be used; the message names the file, what is wrong and the remedy."""


@dataclass(frozen=True)
class Open:
    """A case that was not closed.

    Attributes:
        id: in the case book.
        title: the case's own, or the unit and first symptom where it has none.
        unit, symptoms: as in the case.
        updated: UTC, of the last move.
        last: the last move in words, '' when there was none.
        entries: how many moves are in the journal.
    """

    id: int
    title: str
    unit: str
    symptoms: tuple[str, ...]
    updated: datetime
    last: str
    entries: int


class CaseBook:
    """The database of cases. Use `CaseBook.open`, and `dispose` when done with it."""

    def __init__(self, engine: Engine, path: Path) -> None:
        self._engine = engine
        self.path = path

    @classmethod
    def open(cls, path: Path | None = None) -> CaseBook:
        """Open the case book, making it where there is none.

        Args:
            path: its file; `cases.sqlite` in the user's own folder when left out.

        Raises:
            CaseBookError: when it is damaged, locked, of another program or of a newer FaultDoc;
                the file is left as it is.
        """
        path = path or data_home() / "cases.sqlite"
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as problem:
            raise CaseBookError(
                f"The folder {path.parent} for the case book cannot be made: {problem.strerror}. "
                "Make it, or name another with the environment variable FAULTDOC_HOME."
            ) from None
        # Only SQLite's own driver knows `timeout`: how long to wait for another program's write.
        engine = create_engine(URL.create("sqlite", database=str(path)), connect_args={"timeout": PATIENCE})
        event.listen(engine, "connect", _set_up)
        event.listen(engine, "begin", _begin)
        book = cls(engine, path)
        try:
            with book._connected() as connection:
                book._prepare(connection)
        except BaseException:
            engine.dispose()
            raise
        return book

    def dispose(self) -> None:
        """Let go of the file."""
        self._engine.dispose()

    def start(self, case: Case) -> int:
        """Enter a new case; return its id.

        Raises:
            CaseBookError: when it could not be kept.
        """
        with self._connected() as connection:
            made = connection.execute(insert(_cases).values(at=_now(), start=case.model_dump_json()))
            key = made.inserted_primary_key
            assert key is not None
            return int(key[0])

    def journal(self, case_id: int) -> CaseJournal:
        """Return the journal of a case, at its end.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when the case book cannot be read.
        """
        with self._connected() as connection:
            self._known(connection, case_id)
            query = select(func.coalesce(func.max(_journal.c.seq), 0)).where(_journal.c.case_id == case_id)
            return CaseJournal(self, case_id, int(connection.execute(query).scalar_one()))

    def unfinished(self) -> tuple[Open, ...]:
        """Return the cases not closed, the one worked on last first.

        Raises:
            CaseBookError: when the case book cannot be read.
        """
        latest = (
            select(_journal.c.case_id, func.max(_journal.c.seq).label("seq"))
            .group_by(_journal.c.case_id)
            .subquery()
        )
        query = (
            select(_cases, _journal.c.at.label("moved"), _journal.c.what, _journal.c.case, _journal.c.seq)
            .outerjoin(latest, latest.c.case_id == _cases.c.id)
            .outerjoin(_journal, (_journal.c.case_id == _cases.c.id) & (_journal.c.seq == latest.c.seq))
            .where(_cases.c.id.not_in(select(_closed.c.case_id)))
        )
        with self._connected() as connection:
            rows = connection.execute(query).all()
        found = []
        for row in rows:
            case = self._case(row.case or row.start, row.id)
            found.append(
                Open(
                    id=row.id,
                    title=case.title or f"{case.unit}: {case.symptoms[0].replace('_', ' ')}",
                    unit=case.unit,
                    symptoms=case.symptoms,
                    updated=(row.moved or row.at).replace(tzinfo=UTC),
                    last=row.what or "",
                    entries=row.seq or 0,
                )
            )
        return tuple(sorted(found, key=lambda one: (one.updated, one.id), reverse=True))

    def load(self, case_id: int) -> tuple[Case, list[Entry]]:
        """Return a case as it was at the start, and its journal, for `faultdoc.record.session.replay`.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when the case book cannot be read.
        """
        query = (
            select(_journal.c.move, _journal.c.what, _journal.c.case)
            .where(_journal.c.case_id == case_id)
            .order_by(_journal.c.seq)
        )
        with self._connected() as connection:
            start = self._known(connection, case_id)
            rows = connection.execute(query).all()
        entries = [Entry(_move(row.move), row.what, self._case(row.case, case_id)) for row in rows]
        return self._case(start, case_id), entries

    def close(self, case_id: int) -> None:
        """Take a case off the list of unfinished ones; its journal stays. Closing twice does no harm.

        Raises:
            KeyError: when there is no such case.
            CaseBookError: when it could not be kept.
        """
        with self._connected() as connection:
            self._known(connection, case_id)
            if connection.execute(select(_closed).where(_closed.c.case_id == case_id)).first() is None:
                connection.execute(insert(_closed).values(case_id=case_id, at=_now()))

    def add(self, case_id: int, seq: int, entry: Entry) -> None:
        """Add the entry with number `seq` to a case's journal; `CaseJournal` counts for you.

        Raises:
            CaseBookError: when it could not be kept, or when that number is taken: someone else
                works on the same case.
        """
        try:
            with self._connected() as connection:
                connection.execute(
                    insert(_journal).values(
                        case_id=case_id,
                        seq=seq,
                        at=_now(),
                        move=entry.move,
                        what=entry.what,
                        case=entry.case.model_dump_json(),
                    )
                )
        except IntegrityError:
            raise CaseBookError(
                f"Case {case_id} in {self.path} is being worked on in another window or terminal too. "
                "The move was not taken: go on there, or open the case again here."
            ) from None

    def _known(self, connection: Connection, case_id: int) -> str:
        start = connection.execute(select(_cases.c.start).where(_cases.c.id == case_id)).scalar_one_or_none()
        if start is None:
            raise KeyError(f"no case {case_id} in {self.path}")
        return str(start)

    def _case(self, text: str, case_id: int) -> Case:
        try:
            return Case.model_validate_json(text)
        except ValidationError as problem:
            raise CaseBookError(
                f"Case {case_id} in {self.path} cannot be understood: {problem.errors()[0]['msg']}. "
                "It was written by another version of FaultDoc, or the file was changed by hand. " + _ASIDE
            ) from None

    def _prepare(self, connection: Connection) -> None:
        """Make the tables in a new file; refuse one that is not a case book of this layout."""

        def pragma(name: str) -> int:
            return int(connection.exec_driver_sql(f"PRAGMA {name}").scalar_one())

        tables = connection.exec_driver_sql("SELECT count(*) FROM sqlite_master").scalar_one()
        if not tables:
            connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION}")
            connection.exec_driver_sql(f"PRAGMA user_version = {LAYOUT}")
            _tables.create_all(connection)
        elif pragma("application_id") != APPLICATION:
            raise CaseBookError(f"{self.path} is a database, but not a case book of FaultDoc's. " + _ASIDE)
        elif (layout := pragma("user_version")) != LAYOUT:
            raise CaseBookError(
                f"{self.path} has layout {layout}; this FaultDoc reads layout {LAYOUT}. Use the FaultDoc that "
                "wrote it. " + _ASIDE
            )

    @contextmanager
    def _connected(self) -> Iterator[Connection]:
        """Give a connection in one transaction, committed at the end; say what is wrong with the file in words."""
        try:
            with self._engine.begin() as connection:
                yield connection
        except IntegrityError:
            raise
        except DatabaseError as problem:
            raise CaseBookError(_in_words(problem.orig, self.path)) from problem


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


_ASIDE = "Nothing in it was changed. To start a new case book, move the file away or set FAULTDOC_HOME."


def _set_up(connection: Any, _: Any) -> None:
    # Transactions are begun by `_begin`: Python's driver would begin late and not at all for DDL.
    connection.isolation_level = None
    cursor = connection.cursor()
    pragmas = ["synchronous = FULL", "foreign_keys = ON"]
    # WAL is a mark in the file itself: not for another program's database, which `_prepare` refuses.
    tables = cursor.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    if not tables or cursor.execute("PRAGMA application_id").fetchone()[0] == APPLICATION:
        pragmas.append("journal_mode = WAL")
    for pragma in pragmas:
        cursor.execute(f"PRAGMA {pragma}")
    cursor.close()


def _begin(connection: Connection) -> None:
    # Immediate: two programs that open a new case book at once make its tables once.
    connection.exec_driver_sql("BEGIN IMMEDIATE")


def _now() -> datetime:
    # SQLite keeps no time zone; all times in the case book are UTC.
    return datetime.now(UTC).replace(tzinfo=None)


def _move(text: str) -> Literal["do", "undo", "redo"]:
    if text == "undo":
        return "undo"
    return "redo" if text == "redo" else "do"


def _in_words(problem: BaseException | None, path: Path) -> str:
    """Return what SQLite's complaint means for the reader."""
    code = getattr(problem, "sqlite_errorcode", 0) & 0xFF
    if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB):
        return f"The case book {path} is damaged ({problem}). {_ASIDE} Keep it: cases may be got back from a copy."
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return f"The case book {path} is locked by another program. Close that program, then try again."
    if code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_CANTOPEN):
        return (
            f"The case book {path} cannot be opened for writing ({problem}). Check the rights on the file and "
            "its folder, or name another folder with FAULTDOC_HOME."
        )
    if code == sqlite3.SQLITE_FULL:
        return f"The case book {path} could not be written: the disk is full. Free some space, then try again."
    return f"The case book {path} could not be used: {problem}. Check the disk and the file."

"""Back-ups: one SQLite file that is a case book itself, whichever database the book lies in."""

from __future__ import annotations

import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from sqlalchemy import Connection, func, insert, select, text

from faultdoc.library.whole import whole
from faultdoc.record.casebook.engines import APPLICATION, Store, store_at
from faultdoc.record.casebook.errors import CaseBookError
from faultdoc.record.casebook.layout import HEAD, bring_up_to_date
from faultdoc.record.casebook.place import Place, place_of
from faultdoc.record.casebook.tables import attachments, cases, closed, contacts, journal, summaries

__all__ = ["back_up", "put_back"]

_IN_ORDER = (cases, journal, closed, attachments, contacts, summaries)


def back_up(store: Store, path: Path) -> None:
    """Write a copy of the whole case book, as it is at one moment, into a file; whole or not at all.

    Raises:
        CaseBookError: when it cannot be read or the file not be written, or the copy is not sound.
    """
    try:
        with whole(path) as draft:
            if store.place.path is not None:
                with store.outside() as connection, closing(sqlite3.connect(draft)) as target:
                    connection.connection.driver_connection.backup(target)  # type: ignore[union-attr]
            else:
                with (
                    _opened_at(place_of(draft)) as copy,
                    store.reading() as source,
                    copy.writing() as target_connection,
                ):
                    _copy_rows(source, target_connection)
            with closing(sqlite3.connect(draft)) as copy_of_it:
                copy_of_it.execute("PRAGMA journal_mode = DELETE")  # one file, nothing beside it
            _check(draft)
    except OSError as problem:
        raise CaseBookError(
            f"The back-up {path} cannot be written: {problem.strerror or problem}. Choose another folder."
        ) from None
    except sqlite3.Error as problem:
        raise CaseBookError(
            f"The back-up {path} cannot be written ({problem}). Choose another disk; the case book is as it was."
        ) from None


def put_back(path: Path, place: Place) -> None:
    """Make a case book of a back-up, where there is none yet.

    Raises:
        CaseBookError: when the back-up is none or damaged, or there are cases at the place; nothing is changed.
    """
    _check(path)
    if place.path is not None:
        _put_back_file(path, place.path)
    else:
        _put_back_server(path, place)


def _put_back_file(path: Path, target: Path) -> None:
    there = [one for ending in ("", "-wal") if (one := Path(f"{target}{ending}")).exists()]
    if there and there[0].stat().st_size:
        raise CaseBookError(
            f"There is a case book at {there[0]} already, which is left as it is. Move it away, or name another "
            "place for the back-up, then restore again."
        )
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with whole(target) as draft:
            _copy_file(path, draft)
    except OSError as problem:
        raise CaseBookError(f"{target} cannot be written: {problem.strerror or problem}.") from None


def _put_back_server(path: Path, place: Place) -> None:
    with tempfile.TemporaryDirectory() as folder:
        # A copy: an older back-up is brought up to date before it is read, and is itself left as it is.
        draft = Path(folder) / "cases.sqlite"
        _copy_file(path, draft)
        with (
            _opened_at(place_of(draft)) as source_store,
            _opened_at(place) as target_store,
            source_store.reading() as source,
            target_store.writing() as target,
        ):
            target.execute(text("LOCK TABLE cases IN EXCLUSIVE MODE"))
            if count := target.execute(select(func.count()).select_from(cases)).scalar_one():
                raise CaseBookError(
                    f"There are {count} cases in {place} already, and nothing was changed. Restore into an empty "
                    "database, or import an export instead."
                )
            _copy_rows(source, target)
            for table in (cases, attachments, contacts):
                last = f"(SELECT coalesce(max(id), 0) + 1 FROM {table.name})"
                target.execute(text(f"SELECT setval(pg_get_serial_sequence('{table.name}', 'id'), {last}, false)"))


def _copy_file(path: Path, draft: Path) -> None:
    with closing(sqlite3.connect(path)) as source, closing(sqlite3.connect(draft)) as target:
        source.backup(target)


@contextmanager
def _opened_at(place: Place) -> Iterator[Store]:
    store = store_at(place)
    try:
        bring_up_to_date(store)
        yield store
    finally:
        store.engine.dispose()


def _copy_rows(source: Connection, target: Connection) -> None:
    for table in _IN_ORDER:
        # Attachments one by one: together they may be more than the memory holds.
        source = source.execution_options(yield_per=1 if table is attachments else 500)
        rows = source.execute(select(table).order_by(*table.primary_key.columns))
        for part in rows.mappings().partitions():
            target.execute(insert(table), [dict(row) for row in part])


def _check(path: Path) -> None:
    """See that a file is a sound case book that this program can read.

    Raises:
        CaseBookError: when it is not.
    """
    if not path.is_file():
        raise CaseBookError(f"There is no back-up {path}. Check the name.")
    try:
        with closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)) as raw:
            mark = raw.execute("PRAGMA application_id").fetchone()[0]
            layout = raw.execute("PRAGMA user_version").fetchone()[0]
            sound = raw.execute("PRAGMA integrity_check(1)").fetchone()[0]
    except sqlite3.Error as problem:
        raise CaseBookError(f"{path} is damaged or no back-up of a case book ({problem}). Take another.") from None
    if mark != APPLICATION:
        raise CaseBookError(f"{path} is a database, but no back-up of a case book. Take another.")
    if sound != "ok":
        raise CaseBookError(f"{path} is damaged ({sound}). Take another back-up.")
    if layout > int(HEAD):
        raise CaseBookError(
            f"{path} has layout {layout}; this FaultDoc reads up to layout {int(HEAD)}. Use the FaultDoc that "
            "wrote it, or a newer one."
        )

"""The layout of the tables: told, refused where it is newer or another program's, and brought up to date.

`HEAD` is the last migration. It is compared without alembic, which is imported only where something is to be done.
"""

from __future__ import annotations

import threading
from pathlib import Path

from sqlalchemy import Connection, inspect, select, text

from faultdoc.record.casebook import summaries, tables
from faultdoc.record.casebook.engines import APPLICATION, Store
from faultdoc.record.casebook.errors import ASIDE, CaseBookError

__all__ = ["HEAD", "MIGRATIONS", "bring_up_to_date"]

HEAD = "0002"
MIGRATIONS = Path(__file__).parent / "migrations"

_LOCK = 0x46446F63  # of PostgreSQL's advisory locks: one desk at a time makes the tables
_one_at_a_time = threading.Lock()  # alembic keeps its context in the module


def bring_up_to_date(store: Store) -> None:
    """Make the tables of a new case book, or migrate those of an older one, in one transaction under a lock.

    Raises:
        CaseBookError: when it is no case book, or of a newer FaultDoc; it is left as it is.
    """
    if store.place.path is None:
        with store.reading() as connection:
            if _revision(connection) == HEAD:
                return
    with store.writing() as connection:
        if store.place.path is None:
            connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": _LOCK})
            found = _revision(connection)
        else:
            found = _revision_of_file(connection, store)
        if found == HEAD:
            return
        if found is not None and int(found) > int(HEAD):
            raise CaseBookError(
                f"{store.place} has layout {int(found)}; this FaultDoc reads up to layout {int(HEAD)}. Use the "
                "FaultDoc that wrote it, or a newer one. " + ASIDE
            )
        _migrate(connection, found)
        if store.place.path is not None:
            connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION}")
            connection.exec_driver_sql(f"PRAGMA user_version = {int(HEAD)}")


def _revision(connection: Connection) -> str | None:
    """Return the last migration that alembic has noted, None for a database that has none of ours."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    return connection.execute(text("SELECT version_num FROM alembic_version")).scalar_one_or_none()


def _revision_of_file(connection: Connection, store: Store) -> str | None:
    def pragma(name: str) -> int:
        return int(connection.exec_driver_sql(f"PRAGMA {name}").scalar_one())

    if not connection.exec_driver_sql("SELECT count(*) FROM sqlite_master").scalar_one():
        return None
    if pragma("application_id") != APPLICATION:
        raise CaseBookError(f"{store.place} is a database, but not a case book of FaultDoc's. " + ASIDE)
    return f"{pragma('user_version'):04}"


def _migrate(connection: Connection, found: str | None) -> None:
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    with _one_at_a_time:
        if found == "0001" and _revision(connection) is None:
            command.stamp(config, found)  # layout 1 was before alembic
        command.upgrade(config, "head")
    for case_id in connection.execute(select(tables.cases.c.id)).scalars().all():
        summaries.rebuild(connection, case_id)

"""A case to begin with, entries on it, and case books: a file, and a database of a real PostgreSQL.

The server is that of the environment variable FAULTDOC_TEST_POSTGRESQL (an address that may make databases) or,
where PostgreSQL's programs are installed, one that is made for the tests and thrown away. With neither, the tests
skip; with FAULTDOC_REQUIRE_POSTGRESQL set, as CI does, they fail.
"""

import os
import shutil
import sqlite3
import subprocess
import tempfile
from contextlib import closing
from datetime import UTC, datetime
from itertools import count
from pathlib import Path

import pytest
from sqlalchemy import create_engine, make_url

from faultdoc.model.case import Case
from faultdoc.model.safety import Qualification, all_states
from faultdoc.record import moves
from faultdoc.record.casebook import CaseBook
from faultdoc.record.session import Entry

AT = datetime(2026, 3, 4, 5, 6, 7, 89, tzinfo=UTC)


@pytest.fixture(scope="session")
def start():
    return Case(unit="bluff_30", symptoms=("no_flow",), state=all_states()[0], who=(Qualification.TECHNICIAN,))


@pytest.fixture(scope="session")
def noted(start):
    """Return a function that gives the entry of a note."""

    def entry(text, *, case=start, move="do", at=AT, by="desk-1"):
        return Entry(move, f"Note: {text}", moves.note(case, text), at, by)

    return entry


# --- a file of the first layout ---

# What the first FaultDoc's SQLAlchemy and its listeners sent to a new file.
LAYOUT_1 = """
PRAGMA journal_mode = WAL;
PRAGMA application_id = 1178890083;
PRAGMA user_version = 1;
CREATE TABLE cases (id INTEGER NOT NULL, at DATETIME NOT NULL, start TEXT NOT NULL, PRIMARY KEY (id));
CREATE TABLE closed (case_id INTEGER NOT NULL, at DATETIME NOT NULL, PRIMARY KEY (case_id),
    FOREIGN KEY(case_id) REFERENCES cases (id));
CREATE TABLE journal (case_id INTEGER NOT NULL, seq INTEGER NOT NULL, at DATETIME NOT NULL,
    move VARCHAR(8) NOT NULL, what TEXT NOT NULL, "case" TEXT NOT NULL, PRIMARY KEY (case_id, seq),
    FOREIGN KEY(case_id) REFERENCES cases (id));
""" + "".join(
    f"CREATE TRIGGER {table}_no_{verb.lower()} BEFORE {verb} ON {table} "
    "BEGIN SELECT RAISE(ABORT, 'rows of the case book are only added'); END;"
    for table in ("cases", "journal", "closed")
    for verb in ("UPDATE", "DELETE")
)


@pytest.fixture
def old(tmp_path, start, noted):
    """Return the file of a case book of layout 1, with an open case, a closed one and one without a move."""
    path = tmp_path / "cases.sqlite"
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.executescript(LAYOUT_1)
        for id in (1, 2, 3):
            text = start.model_copy(update={"title": f"Pier {id}"}).model_dump_json()
            raw.execute("INSERT INTO cases VALUES (?, '2026-01-02 03:04:05.000006', ?)", (id, text))
        for id in (1, 2):
            for seq, text in enumerate(("belt slips", "strainer clean"), 1):
                case = noted(text).case.model_copy(update={"title": f"Pier {id}"}).model_dump_json()
                values = (id, seq, f"2026-01-0{seq + 2} 00:00:00.000000", "do", f"Note: {text}", case)
                raw.execute("INSERT INTO journal VALUES (?, ?, ?, ?, ?, ?)", values)
        raw.execute("INSERT INTO closed VALUES (2, '2026-02-01 00:00:00.000000')")
    return path


# --- PostgreSQL ---


def _programs():
    """Return the folder of PostgreSQL's programs; Debian's is on no one's path."""
    if found := shutil.which("initdb"):
        return Path(found).resolve().parent
    folders = Path("/usr/lib/postgresql").glob("*/bin/initdb")
    return max((path.parent for path in folders), key=lambda path: float(path.parent.name), default=None)


def _as_nobody_special(*command):
    """Run one of PostgreSQL's programs; as they refuse the superuser, as Debian's user postgres then."""
    if os.geteuid() == 0:
        command = ("runuser", "-u", "postgres", "--", *command)
    # Not captured: the server would keep the pipe.
    with tempfile.TemporaryFile("w+") as said:
        done = subprocess.run(command, stdin=subprocess.DEVNULL, stdout=said, stderr=said, check=False, cwd="/")
        said.seek(0)
        assert done.returncode == 0, f"{command} ended with {done.returncode}:\n{said.read()}"


@pytest.fixture(scope="session")
def server():
    """Yield the address of a PostgreSQL server, without a database."""
    if given := os.environ.get("FAULTDOC_TEST_POSTGRESQL"):
        yield make_url(given).set(drivername="postgresql+psycopg")
        return
    programs = _programs()
    if programs is None:
        message = (
            "no PostgreSQL here: install it (Debian: apt install postgresql), or set FAULTDOC_TEST_POSTGRESQL"
        )
        assert not os.environ.get("FAULTDOC_REQUIRE_POSTGRESQL"), message
        pytest.skip(message)
    folder = Path(tempfile.mkdtemp(prefix="faultdoc-pg-", dir="/tmp"))  # short: a socket's path is
    try:
        if os.geteuid() == 0:
            shutil.chown(folder, "postgres")
        data = folder / "data"
        _as_nobody_special(
            *(programs / "initdb", "--pgdata", data, "--username=desk", "--auth=trust"),
            *("--encoding=UTF8", "--locale=C", "--no-sync"),
        )
        # Killed are the clients, not the server: it need not wait for the disk.
        options = f"-c listen_addresses='' -c unix_socket_directories='{folder}' -c fsync=off"
        _as_nobody_special(programs / "pg_ctl", "-D", data, "-l", folder / "log", "-o", options, "-w", "start")
        try:
            yield make_url(f"postgresql+psycopg://desk@/postgres?host={folder}")
        finally:
            _as_nobody_special(programs / "pg_ctl", "-D", data, "-m", "immediate", "-w", "stop")
    finally:
        shutil.rmtree(folder)


_numbers = count(1)


@pytest.fixture
def empty_database(server):
    """Yield the address of a database without a table."""
    yield from _database(server, "template1")


@pytest.fixture(scope="session")
def template(server):
    """Yield the name of a database with an empty case book; copying it is faster than migrating each."""
    for address in _database(server, "template1"):
        CaseBook.open(address).dispose()
        yield make_url(address).database


@pytest.fixture
def database(server, template):
    """Yield the address of a database with an empty case book."""
    yield from _database(server, template)


def _database(server, template):
    name = f"faultdoc_{os.getpid()}_{next(_numbers)}"
    engine = create_engine(server, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.exec_driver_sql(f"CREATE DATABASE {name} TEMPLATE {template}")
    yield server.set(drivername="postgresql", database=name).render_as_string(hide_password=False)
    with engine.connect() as connection:
        connection.exec_driver_sql(f"DROP DATABASE {name} WITH (FORCE)")
    engine.dispose()


@pytest.fixture(params=["sqlite", "postgresql"])
def where(request, tmp_path):
    """Return where a case book of either kind lies."""
    if request.param == "sqlite":
        return tmp_path / "cases.sqlite"
    return request.getfixturevalue("database")


@pytest.fixture
def book(where):
    opened = CaseBook.open(where)
    yield opened
    opened.dispose()

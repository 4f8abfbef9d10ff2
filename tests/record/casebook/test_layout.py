"""Migrations: from the first layout on, and what the tables are after them."""

import sqlite3
from contextlib import closing, contextmanager

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

from faultdoc.record.casebook import CaseBook, CaseBookError, Wanted, layout, tables


@contextmanager
def opened(path):
    book = CaseBook.open(path)
    yield book
    book.dispose()


def test_a_book_of_layout_1_is_brought_up_to_date_and_nothing_is_lost(old):
    with closing(sqlite3.connect(old)) as raw:
        before = {
            name: raw.execute(f"SELECT * FROM {name} ORDER BY 1, 2").fetchall()
            for name in ("cases", "journal", "closed")
        }
    with opened(old) as book:
        assert [one.id for one in book.unfinished()] == [1, 3]
        assert [one.id for one in book.cases(Wanted(text="strainer"))] == [2, 1]
        uids = [book.uid(id) for id in (1, 2, 3)]
        assert len(set(uids)) == 3
        start, entries = book.load(1)
        assert start.title == "Pier 1"
        assert [entry.what for entry in entries] == ["Note: belt slips", "Note: strainer clean"]
        assert [entry.at.day for entry in entries] == [3, 4]
        summary = next(one for one in book.cases() if one.id == 2)
        assert (summary.title, summary.closed, summary.entries, summary.last) == (
            "Pier 2",
            True,
            2,
            "Note: strainer clean",
        )
    with closing(sqlite3.connect(old)) as raw:
        for name, columns in (
            ("cases", "id, at, start"),
            ("journal", 'case_id, seq, at, move, what, "case"'),
            ("closed", "*"),
        ):
            assert raw.execute(f"SELECT {columns} FROM {name} ORDER BY 1, 2").fetchall() == before[name]
        with pytest.raises(sqlite3.IntegrityError, match="only added"):
            raw.execute("UPDATE journal SET what = ''")
    with opened(old) as again:  # once is enough
        assert [again.uid(id) for id in (1, 2, 3)] == uids


def schema(path):
    with closing(sqlite3.connect(path)) as raw:
        found = raw.execute("SELECT type, name FROM sqlite_master ORDER BY 1, 2").fetchall()
        columns = {
            name: raw.execute(f"PRAGMA table_info({name})").fetchall() for kind, name in found if kind == "table"
        }
    return found, columns


def test_a_migrated_book_has_the_layout_of_a_new_one(old, tmp_path):
    with opened(old), opened(tmp_path / "new.sqlite"):
        pass
    assert schema(old) == schema(tmp_path / "new.sqlite")


def test_the_tables_are_those_that_the_migrations_make(book):
    # Alembic's own comparison is the judge. How words are found is each database's own business.
    with book._store.reading() as connection:
        differences = compare_metadata(MigrationContext.configure(connection), tables.tables)
    assert [one for one in differences if "found" not in str(one)] == []


def test_head_is_the_last_migration():
    config = Config()
    config.set_main_option("script_location", str(layout.MIGRATIONS))
    assert ScriptDirectory.from_config(config).get_current_head() == layout.HEAD


def test_a_migration_that_fails_leaves_the_file_as_it_was(old):
    with closing(sqlite3.connect(old)) as raw, raw:
        raw.execute("INSERT INTO cases VALUES (9, '2026-01-02 00:00:00', '{\"unit\": 3}')")
    before = old.read_bytes()
    with pytest.raises(CaseBookError, match="Case 9 of the case book cannot be understood"):
        CaseBook.open(old)
    with closing(sqlite3.connect(old)) as raw:
        assert raw.execute("PRAGMA user_version").fetchone()[0] == 1
        assert "uid" not in [row[1] for row in raw.execute("PRAGMA table_info(cases)")]
    assert old.read_bytes() == before

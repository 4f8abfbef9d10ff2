import os
import sqlite3
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Conclusion, Tried
from faultdoc.model.safety import Qualification, all_states
from faultdoc.model.tree import NON_ANSWERS
from faultdoc.plain import plain
from faultdoc.quantities import LARGEST, Kind, System, parse
from faultdoc.record import moves
from faultdoc.record.casebook import CaseBook, CaseBookError, engines
from faultdoc.record.session import Entry, Session, replay

ROOT = Path(__file__).resolve().parents[3]
START = Case(
    unit="bluff_30",
    symptoms=("no_flow",),
    state=all_states()[0],
    who=(Qualification.TECHNICIAN,),
)


@pytest.fixture
def book(tmp_path):
    with opened(tmp_path / "cases.sqlite") as book:
        yield book


@contextmanager
def opened(path=None):
    book = CaseBook.open(path)
    yield book
    book.dispose()


AT = datetime(2026, 3, 4, 5, 6, 7, 89, tzinfo=UTC)


def noted(number, move="do"):
    return Entry(move, f"Note {number}", moves.note(START, f"note {number}"), AT, "desk-1")


def test_journal_comes_back_as_it_was_kept(book):
    case_id = book.start(START)
    journal = book.journal(case_id)
    entries = [noted(1), noted(2), noted(1, "undo"), noted(2, "redo")]
    for entry in entries:
        journal.append(entry)
    assert book.load(case_id) == (START, entries)
    with closing(sqlite3.connect(book.path)) as raw:
        assert [row[0] for row in raw.execute("SELECT seq FROM journal ORDER BY seq")] == [1, 2, 3, 4]


def test_a_session_goes_on_where_another_left_off_with_its_undo(tmp_path):
    # `replay` and `Session` look at no bench for this: only the journal's order matters.
    first = CaseBook.open(tmp_path / "cases.sqlite")
    case_id = first.start(START)
    session = Session(None, START, first.journal(case_id), "desk-1")
    session.do("one", moves.note(session.case, "one"))
    session.do("two", moves.note(session.case, "two"))
    session.undo()
    first.dispose()

    second = CaseBook.open(tmp_path / "cases.sqlite")
    start, entries = second.load(case_id)
    assert all(entry.at.tzinfo is UTC and entry.by == "desk-1" for entry in entries)
    again = replay(None, start, entries, second.journal(case_id))
    assert again.case.notes == ("one",)
    assert again.redo() == "two"
    assert again.case.notes == ("one", "two")
    assert [entry.move for entry in second.load(case_id)[1]] == ["do", "do", "undo", "redo"]
    second.dispose()


def test_unfinished_cases_are_offered_the_last_worked_on_first(book):
    plain, titled, over = (
        book.start(case) for case in (START, START.model_copy(update={"title": "Pier 4"}), START)
    )
    book.close(over)
    book.journal(plain).append(replace(noted(1), at=None))
    open_cases = book.unfinished()
    assert all(not one.closed for one in open_cases)
    assert [one.id for one in open_cases] == [plain, titled]
    assert open_cases[0].title == "bluff_30: no flow"
    assert open_cases[0].last == "Note 1"
    assert open_cases[0].entries == 1
    assert open_cases[1].title == "Pier 4"
    assert (open_cases[1].last, open_cases[1].entries) == ("", 0)
    assert open_cases[0].updated.tzinfo is UTC
    assert open_cases[1].updated <= open_cases[0].updated <= datetime.now(UTC)


def test_a_title_given_later_is_the_one_shown(book):
    case_id = book.start(START)
    book.journal(case_id).append(Entry("do", "Titled", START.model_copy(update={"title": "Later"})))
    assert book.unfinished()[0].title == "Later"


def test_closing_keeps_the_journal_and_may_be_done_twice(book):
    case_id = book.start(START)
    book.journal(case_id).append(noted(1))
    book.close(case_id)
    book.close(case_id)
    assert book.unfinished() == ()
    assert book.load(case_id)[1] == [noted(1)]


@pytest.mark.parametrize("use", ["journal", "load", "close"])
def test_a_case_that_is_not_there(book, use):
    with pytest.raises(KeyError, match="no case 7"):
        getattr(book, use)(7)


@pytest.mark.parametrize("table", ["cases", "journal", "closed", "attachments"])
@pytest.mark.parametrize("change", ["UPDATE {} SET at = '2000-01-01'", "DELETE FROM {}"])
def test_rows_are_only_ever_added(book, table, change):
    case_id = book.start(START)
    book.journal(case_id).append(noted(1))
    book.close(case_id)
    book.attach(case_id, "plate.png", b"\x89PNG\r\n\x1a\n")
    with (
        closing(sqlite3.connect(book.path)) as raw,
        pytest.raises(sqlite3.IntegrityError, match="only added"),
    ):
        raw.execute(change.format(table))


def test_two_writers_of_one_case_cannot_mix_their_moves(book):
    case_id = book.start(START)
    one, other = book.journal(case_id), book.journal(case_id)
    one.append(noted(1))
    with pytest.raises(CaseBookError, match="being worked on elsewhere"):
        other.append(noted(2))
    assert book.load(case_id)[1] == [noted(1)]
    one.append(noted(3))
    assert len(book.load(case_id)[1]) == 2


def test_other_threads_may_read_and_write(book):
    case_id = book.start(START)
    journal = book.journal(case_id)
    with ThreadPoolExecutor(max_workers=2) as others:
        others.submit(journal.append, noted(1)).result()
        assert others.submit(book.load, case_id).result() == (START, [noted(1)])
    journal.append(noted(2))
    assert len(book.load(case_id)[1]) == 2


def test_commits_are_in_step_with_the_disk(book):
    # sqlite.org/pragma.html: synchronous 2 is FULL, with which a WAL database is durable.
    with book._store.engine.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar_one() == "wal"
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar_one() == 2


@pytest.mark.parametrize(
    "damage", [b"This is no database at all. " * 200, b"SQLite format 3\x00" + bytes(range(256)) * 32]
)
def test_a_damaged_file_is_told_and_left_as_it_is(tmp_path, damage):
    path = tmp_path / "cases.sqlite"
    path.write_bytes(damage)
    with pytest.raises(CaseBookError, match="damaged") as told:
        CaseBook.open(path)
    assert str(path) in str(told.value)
    assert "move the file away" in str(told.value)
    assert path.read_bytes() == damage


def test_damage_further_in_is_told_when_it_is_met(tmp_path):
    path = tmp_path / "cases.sqlite"
    book = CaseBook.open(path)
    case_id = book.start(START)
    journal = book.journal(case_id)
    for number in range(60):
        journal.append(noted(number))
    book.dispose()
    with closing(sqlite3.connect(path)) as raw:
        page, size = (
            raw.execute(query).fetchone()[0]
            for query in ("SELECT rootpage FROM sqlite_master WHERE name = 'journal'", "PRAGMA page_size")
        )
    content = bytearray(path.read_bytes())
    content[(page - 1) * size : page * size] = b"\xa5" * size
    path.write_bytes(content)
    with opened(path) as again, pytest.raises(CaseBookError, match="damaged"):
        again.load(case_id)
    assert path.read_bytes() == content


def test_a_locked_case_book_is_told(tmp_path, monkeypatch):
    path = tmp_path / "cases.sqlite"
    CaseBook.open(path).dispose()
    monkeypatch.setattr(engines, "PATIENCE", 0.05)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(CaseBookError, match="locked by another program") as told:
            CaseBook.open(path)
        assert "Close that program" in str(told.value)


def test_a_move_that_could_not_be_kept_is_not_taken(tmp_path, monkeypatch):
    path = tmp_path / "cases.sqlite"
    monkeypatch.setattr(engines, "PATIENCE", 0.05)
    with opened(path) as book:
        session = Session(None, START, book.journal(book.start(START)))
        with closing(sqlite3.connect(path, isolation_level=None)) as other:
            other.execute("BEGIN EXCLUSIVE")
            with pytest.raises(CaseBookError, match="locked"):
                session.do("lost", moves.note(START, "lost"))
        assert session.case == START
        session.do("kept", moves.note(START, "kept"))
        assert [entry.what for entry in book.load(1)[1]] == ["kept"]


def test_another_programs_database_is_refused(tmp_path):
    path = tmp_path / "cases.sqlite"
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE recipes (name TEXT)")
    before = path.read_bytes()
    with pytest.raises(CaseBookError, match="not a case book"):
        CaseBook.open(path)
    with closing(sqlite3.connect(path)) as other:
        assert [row[0] for row in other.execute("SELECT name FROM sqlite_master")] == ["recipes"]
    assert path.read_bytes() == before


def test_a_newer_layout_is_refused(tmp_path):
    path = tmp_path / "cases.sqlite"
    CaseBook.open(path).dispose()
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("PRAGMA user_version = 99")
    with pytest.raises(CaseBookError, match="layout 99"):
        CaseBook.open(path)


def test_a_case_of_another_version_is_told(book):
    case_id = book.start(START)
    with closing(sqlite3.connect(book.path)) as raw, raw:
        raw.execute(
            "INSERT INTO journal VALUES (?, 1, '2026-01-01 00:00:00', 'do', 'x', '{\"unit\": 3}', '')", (case_id,)
        )
    with pytest.raises(CaseBookError, match="cannot be understood"):
        book.load(case_id)


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="the superuser may write everywhere")
def test_a_folder_that_may_not_be_written(tmp_path):
    shut = tmp_path / "shut"
    shut.mkdir(mode=0o500)
    with pytest.raises(CaseBookError, match="cannot be opened for writing"):
        CaseBook.open(shut / "cases.sqlite")


def test_a_folder_that_cannot_be_made(tmp_path):
    (tmp_path / "file").write_text("x", encoding="utf-8")
    with pytest.raises(CaseBookError, match="cannot be made"):
        CaseBook.open(tmp_path / "file" / "cases.sqlite")


def test_the_usual_place_follows_the_home_variable(tmp_path, monkeypatch):
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "new" / "home"))
    with opened() as book:
        assert book.path == tmp_path / "new" / "home" / "cases.sqlite"
        assert book.path.is_file()


def test_light_modules_do_without_sqlalchemy():
    code = (
        "import sys, faultdoc.record.settings, faultdoc.record.session, faultdoc.record.moves;"
        "sys.exit('sqlalchemy' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False, cwd=ROOT).returncode == 0


ids = st.from_regex(r"[a-z][a-z0-9_]{1,20}", fullmatch=True)
texts = (
    st.text(st.characters(codec="utf-8"), min_size=1, max_size=40)
    .map(plain)
    .filter(lambda text: text.strip() == text)
)
numbers = st.floats(-LARGEST, LARGEST)
readings = st.one_of(
    ids,
    st.builds(
        Measured,
        kind=st.sampled_from(Kind),
        value=numbers,
        standard_uncertainty=st.none() | st.floats(0.0, LARGEST),
        text=texts,
    ),
)
cases = st.builds(
    Case,
    title=st.none() | texts,
    unit=texts,
    symptoms=st.lists(ids, min_size=1, max_size=3).map(tuple),
    state=st.sampled_from(all_states()),
    who=st.lists(st.sampled_from(Qualification), min_size=1, max_size=3).map(tuple),
    readings=st.dictionaries(ids, readings, max_size=5),
    answers=st.dictionaries(ids, ids | st.sampled_from(NON_ANSWERS), max_size=5),
    set_aside=st.lists(ids, max_size=3).map(tuple),
    tried=st.lists(st.builds(Tried, cause=ids, proved=st.booleans(), note=st.none() | texts), max_size=3).map(
        tuple
    ),
    unproved=st.none() | ids,
    notes=st.lists(texts, max_size=3).map(tuple),
    conclusion=st.none()
    | st.builds(
        Conclusion,
        outcome=st.sampled_from(["fixed", "handed_over", "made_safe", "not_found"]),
        cause=st.none() | ids,
        proof=st.none() | texts,
        note=st.none() | texts,
    ),
)


@settings(deadline=None, max_examples=150)
@given(cases)
def test_every_case_survives_its_json(case):
    again = Case.model_validate_json(case.model_dump_json())
    assert again == case
    assert list(again.readings) == list(case.readings)
    assert list(again.answers) == list(case.answers)


def test_a_parsed_reading_survives_the_book_to_the_last_digit(book):
    reading = Measured.from_quantity(parse("62.3 psi ± 2 %", Kind.GAUGE_PRESSURE, System.US))
    case = moves.read(START, "standing_pressure", reading)
    case_id = book.start(case)
    assert book.load(case_id)[0].readings["standing_pressure"] == reading

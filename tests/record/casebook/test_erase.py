"""Forgetting people: in every row of their case, in the index, and in the file's own bytes."""

import sqlite3
from contextlib import closing
from dataclasses import replace

import pytest

from faultdoc.model.case import Conclusion
from faultdoc.record import moves
from faultdoc.record.casebook import CaseBook, CaseBookError, Contact, Wanted, engines

PNG = b"\x89PNG\r\n\x1a\n"
PEOPLE = [
    Contact(role="caller", name="Zofia Krawczyk", phone="212 555 0147", note="night shift of Zofia"),
    Contact(role="technician", name="Brannigan"),
]


@pytest.fixture
def named(book, start, noted):
    return with_people(book, start, noted)


def with_people(book, start, noted):
    """Enter a case with its people typed all over it, among answers of no one's; return its id."""
    case_id = book.start(start.model_copy(update={"title": "Zofia's roof"}))
    journal = book.journal(case_id)
    book.set_contacts(case_id, PEOPLE)
    for number in range(40):
        journal.append(noted(f"{number} krawczyk holds the gauge, BRANNIGAN watches; 212-555-0147 " + "x" * 300))
        journal.append(noted(f"{number} the belt hums", by="van-brannigan"))
    over = moves.conclude(start, Conclusion(outcome="handed_over", note="to Brannigan"))
    journal.append(noted("Over to Brannigan", case=over))
    book.attach(case_id, "brannigan_plate.png", PNG)
    book.set_contacts(case_id, [PEOPLE[0]])
    book.set_contacts(case_id, PEOPLE)
    return case_id


def everything(book, case_id):
    start, entries = book.load(case_id)
    return repr([start, entries, book.contacts(case_id), book.attachments(case_id), book.cases()])


def test_the_people_of_a_case_are_forgotten_and_nothing_else(book, named, start, noted):
    other = book.start(start)
    book.journal(other).append(noted("Brannigan is of another case here"))
    before = book.load(named)[1]
    assert book.cases(Wanted(text="krawczyk")) != ()

    erased = book.erase(named)

    assert (erased.contacts, erased.attachments) == (2, 1)
    # the case itself, 40 + 40 + 1 entries, the attachment's name
    assert erased.rows == 1 + 81 + 1
    assert book.contacts(named) == ()
    for name in ("zofia", "krawczyk", "0147"):
        assert name not in everything(book, named).casefold()
        assert book.cases(Wanted(text=name)) == ()
    assert [one.id for one in book.cases(Wanted(text="brannigan"))] == [other]
    assert "brannigan" not in repr(book.load(named)).casefold()
    start_now, entries = book.load(named)
    assert start_now.title == "[name] roof"
    assert len(entries) == len(before)
    assert entries[0].what.startswith("Note: 0 [name] holds the gauge, [name] watches; [phone number] xxx")
    assert entries[1].case.notes == before[1].case.notes
    assert [(one.at, one.move) for one in entries] == [(one.at, one.move) for one in before]
    assert book.attachments(named)[0].name == "[name]_plate.png"
    assert book.cases(Wanted(text="belt hums")) != ()
    # The case is worked on as before, and its rows are only added again.
    book.journal(named).append(noted("goes on"))
    with pytest.raises(Exception, match="only added"), book._store.writing() as connection:
        connection.exec_driver_sql("UPDATE journal SET what = ''")


def test_erasing_where_nobody_is_known_changes_nothing(book, start, noted):
    case_id = book.start(start)
    book.journal(case_id).append(noted("the belt hums"))
    before = book.load(case_id)
    assert (book.erase(case_id).contacts, book.erase(case_id).rows) == (0, 0)
    assert book.load(case_id) == before
    with pytest.raises(KeyError, match="no case 7"):
        book.erase(7)


@pytest.mark.parametrize(
    "change", ["UPDATE cases SET start = '' WHERE id = {other}", "DELETE FROM journal WHERE case_id = {named}"]
)
def test_the_trigger_is_lifted_for_changes_of_that_case_alone(book, named, start, change):
    other = book.start(start)

    def lift_and(change):
        with book._store.writing() as connection:
            connection.exec_driver_sql(f"INSERT INTO erasing VALUES ({named})")
            connection.exec_driver_sql(change)

    lift_and(f"UPDATE cases SET start = start WHERE id = {named}; ")
    with book._store.writing() as connection:
        connection.exec_driver_sql("DELETE FROM erasing")
    with pytest.raises(Exception, match="only added"):
        lift_and(change.format(named=named, other=other))


@pytest.fixture
def file(tmp_path):
    opened = CaseBook.open(tmp_path / "cases.sqlite")
    yield opened
    opened.dispose()


def bytes_of(folder):
    return b"".join(path.read_bytes() for path in folder.glob("cases.sqlite*")).lower()


def test_no_trace_of_a_name_is_in_the_bytes_of_the_file(file, start, noted, tmp_path):
    named = with_people(file, start, noted)
    for name in (b"krawczyk", b"zofia", b"brannigan", b"0147"):
        assert name in bytes_of(tmp_path)  # else the file was not where this looks
    file.erase(named)
    for name in (b"krawczyk", b"zofia", b"brannigan", b"0147"):
        assert name not in bytes_of(tmp_path)
    assert (tmp_path / "cases.sqlite-wal").stat().st_size == 0
    with closing(sqlite3.connect(file.path)) as raw:
        assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        raw.execute("INSERT INTO found (found, rank) VALUES ('integrity-check', 1)")
    file.dispose()
    again = CaseBook.open(file.path)
    assert again.cases(Wanted(text="belt hums"))[0].id == named
    again.dispose()


def test_a_reader_that_keeps_traces_alive_is_told(start, noted, tmp_path, monkeypatch):
    monkeypatch.setattr(engines, "PATIENCE", 0.2)
    file = CaseBook.open(tmp_path / "cases.sqlite")
    named = with_people(file, start, noted)
    with closing(sqlite3.connect(file.path, isolation_level=None)) as reader:
        reader.execute("BEGIN")
        reader.execute("SELECT count(*) FROM journal").fetchone()
        with pytest.raises(CaseBookError, match=r"another program reads .*erase again"):
            file.erase(named)
    assert file.contacts(named) == ()
    file.erase(named)
    assert b"krawczyk" not in bytes_of(tmp_path)
    file.dispose()


def test_a_row_that_cannot_be_understood_stops_it_before_anything_is_changed(book, named, noted):
    with book._store.writing() as connection:
        connection.exec_driver_sql(
            'INSERT INTO journal (case_id, seq, at, move, what, "case", "by") '
            f"VALUES ({named}, 82, '2026-01-01 00:00:00', 'do', 'x', '{{}}', '')"
        )
    with pytest.raises(CaseBookError, match="cannot be understood"):
        book.erase(named)
    assert len(book.contacts(named)) == 2


def test_an_entry_keeps_its_time_and_station(book, start, noted):
    case_id = book.start(start)
    book.set_contacts(case_id, PEOPLE)
    book.journal(case_id).append(noted("Zofia rang"))
    book.erase(case_id)
    expected = replace(noted("[name] rang"), case=moves.note(start, "[name] rang"))
    assert book.load(case_id)[1] == [expected]

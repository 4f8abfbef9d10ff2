"""Back-ups, and case books made of them."""

import shutil
import sqlite3
from contextlib import closing

import pytest

from faultdoc.record.casebook import CaseBook, CaseBookError, Contact, Wanted

PNG = b"\x89PNG\r\n\x1a\n"


@pytest.fixture
def full(book, start, noted):
    """Return a book with three cases: worked on with people and a photo, closed, and begun."""
    for number in (1, 2):
        case_id = book.start(start.model_copy(update={"title": f"Pier {number}\0"}))
        book.add_all(case_id, [noted(f"belt {number}"), noted("strainer \0 clean")])
    book.set_contacts(1, [Contact(role="caller", name="Zofia Krawczyk")])
    book.attach(1, "plate.png", PNG + bytes(100_000))
    book.close(2)
    book.start(start)
    return book


def all_of(book):
    return [
        (
            one,
            book.load(one.id),
            book.contacts(one.id),
            [(a, book.content(a.id)) for a in book.attachments(one.id)],
        )
        for one in book.cases()
    ]


def test_a_back_up_is_a_case_book_with_everything(full, tmp_path):
    full.backup(tmp_path / "copy.sqlite")
    assert [path.name for path in tmp_path.glob("*copy*")] == ["copy.sqlite"]
    before = (tmp_path / "copy.sqlite").read_bytes()
    with closing(sqlite3.connect(tmp_path / "copy.sqlite")) as raw:
        assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    again = CaseBook.restore(tmp_path / "copy.sqlite", tmp_path / "other" / "cases.sqlite")
    assert all_of(again) == all_of(full)
    assert [one.id for one in again.cases(Wanted(text="belt strainer"))] == [2, 1]
    again.journal(1).append(full.load(1)[1][0])
    assert again.start(full.load(3)[0]) == 4
    again.dispose()
    assert (tmp_path / "copy.sqlite").read_bytes() == before


def test_a_back_up_goes_onto_a_server(full, empty_database, start, tmp_path):
    full.backup(tmp_path / "copy.sqlite")
    again = CaseBook.restore(tmp_path / "copy.sqlite", empty_database)
    assert all_of(again) == all_of(full)
    assert [one.id for one in again.cases(Wanted(text="belt strainer"))] == [2, 1]
    assert again.start(start) == 4
    assert again.attach(4, "plate.png", PNG).id == 2
    with pytest.raises(CaseBookError, match=r"There are 4 cases in .* already"):
        CaseBook.restore(tmp_path / "copy.sqlite", empty_database)
    assert len(again.cases()) == 4
    again.dispose()


def test_a_back_up_of_layout_1_is_brought_up_to_date_in_the_copy_only(old, tmp_path):
    before = old.read_bytes()
    again = CaseBook.restore(old, tmp_path / "new" / "cases.sqlite")
    assert len(again.cases(Wanted(text="strainer"))) == 2
    again.dispose()
    assert old.read_bytes() == before


def test_a_back_up_replaces_the_one_before_it_only_when_it_is_whole(full, tmp_path, monkeypatch):
    copy = tmp_path / "copy.sqlite"
    full.backup(copy)
    before = copy.read_bytes()
    monkeypatch.setattr(
        "faultdoc.record.casebook.copies._check", lambda path: (_ for _ in ()).throw(OSError(28, "No space"))
    )
    with pytest.raises(CaseBookError, match="cannot be written: No space"):
        full.backup(copy)
    assert copy.read_bytes() == before
    assert [path.name for path in tmp_path.glob("*copy*")] == ["copy.sqlite"]


def test_a_case_book_that_is_there_is_never_written_over(full, tmp_path):
    full.backup(tmp_path / "copy.sqlite")
    there = tmp_path / "there.sqlite"
    CaseBook.open(there).dispose()
    before = there.read_bytes()
    with pytest.raises(CaseBookError, match=r"There is a case book at .*there\.sqlite already"):
        CaseBook.restore(tmp_path / "copy.sqlite", there)
    assert there.read_bytes() == before


def damaged(path):
    content = bytearray(path.read_bytes())
    content[len(content) // 2 :] = b"\xa5" * (len(content) - len(content) // 2)
    path.write_bytes(content)


def test_what_is_no_sound_back_up_is_refused(full, tmp_path):
    copy, target = tmp_path / "copy.sqlite", tmp_path / "target.sqlite"
    with pytest.raises(CaseBookError, match="There is no back-up"):
        CaseBook.restore(copy, target)
    copy.write_bytes(b"no database at all " * 100)
    with pytest.raises(CaseBookError, match="no back-up of a case book"):
        CaseBook.restore(copy, target)
    copy.unlink()
    with closing(sqlite3.connect(copy)) as raw:
        raw.execute("CREATE TABLE recipes (name TEXT)")
    with pytest.raises(CaseBookError, match="no back-up of a case book"):
        CaseBook.restore(copy, target)
    full.backup(copy)
    damaged(copy)
    with pytest.raises(CaseBookError, match="damaged"):
        CaseBook.restore(copy, target)
    full.backup(copy)
    with closing(sqlite3.connect(copy)) as raw:
        raw.execute("PRAGMA user_version = 99")
    with pytest.raises(CaseBookError, match="layout 99"):
        CaseBook.restore(copy, target)
    assert not target.exists()


def test_a_back_up_into_a_folder_that_is_not_there(full, tmp_path):
    with pytest.raises(CaseBookError, match="cannot be written"):
        full.backup(tmp_path / "nowhere" / "copy.sqlite")


def test_a_back_up_while_others_write_is_of_one_moment(tmp_path, start, noted):
    book = CaseBook.open(tmp_path / "cases.sqlite")
    case_id = book.start(start)
    book.add_all(case_id, [noted(str(number)) for number in range(50)])
    with closing(sqlite3.connect(book.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        book.backup(tmp_path / "copy.sqlite")  # a writer does not keep it waiting
    shutil.move(tmp_path / "copy.sqlite", tmp_path / "moved.sqlite")
    again = CaseBook.open(tmp_path / "moved.sqlite")
    assert len(again.load(case_id)[1]) == 50
    again.dispose()
    book.dispose()

"""Export as plain files and import: the same case comes out as went in, and without its people where wished."""

import json
import tempfile
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.library.load import load_case, load_library, load_unit
from faultdoc.library.ownunits import keep_unit
from faultdoc.model.case import Case, Conclusion
from faultdoc.model.safety import Qualification, all_states
from faultdoc.plain import plain
from faultdoc.record import moves
from faultdoc.record.casebook import CaseBook, CaseBookError, Contact, Wanted
from faultdoc.record.session import Entry

PNG = b"\x89PNG\r\n\x1a\n"
PEOPLE = [Contact(role="caller", name="Zofia Krawczyk", phone="212 555 0147", note="at night")]


@pytest.fixture
def other(tmp_path):
    opened = CaseBook.open(tmp_path / "other.sqlite")
    yield opened
    opened.dispose()


@pytest.fixture
def case_id(book, start, noted):
    id = book.start(start.model_copy(update={"title": "Zofia's roof"}))
    book.set_contacts(id, PEOPLE)
    book.add_all(id, [noted("Krawczyk rang, try 555 0199 too"), noted("belt hums")])
    book.attach(id, "krawczyk plate.png", PNG)
    book.attach(id, "plan.pdf", b"%PDF-1.7 x")
    return id


def files_in(folder):
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def everything(book, uid):
    id = book.by_uid(uid)
    (summary,) = [one for one in book.cases(Wanted(limit=None)) if one.id == id]
    kept = [(one.name, one.at, one.sha256, book.content(one.id)) for one in book.attachments(id)]
    return book.load(id), book.contacts(id), kept, replace(summary, id=0)


def test_what_went_out_with_its_people_comes_in_the_same(book, other, case_id, start, tmp_path):
    book.close(case_id)
    book.start(start)
    assert book.export(tmp_path / "out", people=True) == 2
    done = other.import_(tmp_path / "out")
    assert len(done.new) == 2
    for one in book.cases():
        assert everything(other, one.uid) == everything(book, one.uid)
    assert [one.title for one in other.cases(Wanted(text="hums"))] == ["bluff_30: no flow"]
    assert set(other.import_(tmp_path / "out").same) == set(done.new)


def test_the_files_are_plain(book, case_id, tmp_path):
    book.export(tmp_path / "out", people=True)
    day = datetime.now(UTC).strftime("%Y-%m-%d")
    (folder,) = (tmp_path / "out").iterdir()
    assert folder.name == f"{day}-bluff_30-{book.uid(case_id)}"
    assert files_in(folder) == [
        "attachments/001-krawczyk plate.png",
        "attachments/002-plan.pdf",
        "case.yaml",
        "contacts.json",
        "journal.jsonl",
    ]
    lines = [json.loads(line) for line in (folder / "journal.jsonl").read_text(encoding="utf-8").splitlines()]
    assert lines[0]["uid"] == book.uid(case_id)
    assert [line["what"] for line in lines[1:]] == ["Note: Krawczyk rang, try 555 0199 too", "Note: belt hums"]
    assert json.loads((folder / "contacts.json").read_text(encoding="utf-8"))[0]["name"] == "Zofia Krawczyk"


def test_the_case_file_opens_like_any_other(book, start, noted, tmp_path):
    library = load_library()
    case = start.model_copy(update={"symptoms": (next(iter(library.trees)),), "title": "Pier 4"})
    id = book.start(case)
    book.journal(id).append(noted("belt hums", case=case))
    book.export(tmp_path / "out")
    (path,) = (tmp_path / "out").glob("*/case.yaml")
    assert load_case(path, library) == moves.note(case, "belt hums")


def test_without_people_no_name_or_number_goes_out(book, other, case_id, tmp_path):
    book.export(tmp_path / "out")
    (folder,) = (tmp_path / "out").iterdir()
    assert "contacts.json" not in files_in(folder)
    assert "attachments/001-[name] plate.png" in files_in(folder)
    out = "".join(
        [path.as_posix() + path.read_text(encoding="latin-1") for path in folder.rglob("*") if path.is_file()]
    )
    for trace in ("zofia", "krawczyk", "0147", "0199"):
        assert trace not in out.casefold()
    (id,) = other.import_(tmp_path / "out").new
    start, entries = other.load(id)
    assert start.title == "[name] roof"
    assert entries[0].what == "Note: [name] rang, try [phone number] too"
    assert other.contacts(id) == ()
    # The book itself keeps them, and its own copy is known again.
    assert book.contacts(case_id) == tuple(PEOPLE)
    assert book.import_(tmp_path / "out").same == (case_id,)
    assert book.load(case_id)[1][0].what.endswith("try 555 0199 too")


def test_what_went_on_elsewhere_is_added_and_what_went_on_here_stays(book, other, case_id, noted, tmp_path):
    book.export(tmp_path / "first", people=True)
    (id,) = other.import_(tmp_path / "first").new
    other.journal(id).append(noted("valve opened", at=datetime(2026, 3, 5, tzinfo=UTC), by="van-2"))
    other.attach(id, "valve.png", PNG + b"2")
    other.close(id)
    other.export(tmp_path / "second", people=True)
    assert book.import_(tmp_path / "second").grown == (case_id,)
    assert everything(book, book.uid(case_id)) == everything(other, other.uid(id))

    book.export(tmp_path / "third")
    book.journal(case_id).append(noted("here", at=datetime(2026, 3, 6, tzinfo=UTC)))
    other.journal(id).append(noted("there", at=datetime(2026, 3, 7, tzinfo=UTC)))
    other.export(tmp_path / "fourth")
    before = book.load(case_id)
    assert book.import_(tmp_path / "third").same == (case_id,)
    assert book.import_(tmp_path / "fourth").apart == (case_id,)
    assert book.load(case_id) == before


def spoil(path, what, line=None):
    text = path.read_text(encoding="utf-8")
    lines = text.split("\n")
    if line is not None:
        lines[line - 1] = what(lines[line - 1])
    path.write_text("\n".join(lines), encoding="utf-8")


@pytest.mark.parametrize(
    ("line", "what", "told"),
    [
        (1, lambda text: text.replace('"uid":"', '"uid":"x'), r"line 1: uid"),
        (1, lambda text: text.replace('"format":1', '"format":2'), r"line 1: format"),
        (1, lambda text: text.replace("001-", "../001-"), "no plain name"),
        (2, lambda text: text[:50], "line 2: Invalid JSON"),
        (3, lambda text: text.replace('"do"', '"sing"'), "line 3: move"),
        (3, lambda text: text.replace("+00:00", "").replace('Z"', '"', 1), "line 3: at"),
        (3, lambda text: text.replace("no_flow", "No Flow"), "line 3: case.symptoms"),
    ],
)
def test_a_file_that_was_spoilt_is_told_with_its_line_and_nothing_is_imported(
    book, other, case_id, start, tmp_path, line, what, told
):
    book.start(start)
    book.export(tmp_path / "out")
    (path,) = (tmp_path / "out").glob(f"*{book.uid(case_id)}/journal.jsonl")
    spoil(path, what, line)
    with pytest.raises(CaseBookError, match=told) as problem:
        other.import_(tmp_path / "out")
    assert str(path) in str(problem.value)
    assert "Nothing was imported" in str(problem.value)
    assert other.cases() == ()


def test_an_attachment_that_is_not_what_it_was_is_told(book, other, case_id, tmp_path):
    book.export(tmp_path / "out")
    (path,) = (tmp_path / "out").glob("*/attachments/002-plan.pdf")
    path.write_bytes(b"%PDF-1.7 y")
    with pytest.raises(CaseBookError, match="not that which was exported"):
        other.import_(tmp_path / "out")
    path.unlink()
    with pytest.raises(CaseBookError, match=r"002-plan\.pdf: No such file"):
        other.import_(tmp_path / "out")
    assert other.cases() == ()


def test_one_case_and_one_folder(book, other, case_id, start, tmp_path):
    second = book.start(start)
    assert book.export(tmp_path / "one", only=[second]) == 1
    (folder,) = (tmp_path / "one").iterdir()
    assert other.by_uid(book.uid(second)) is None
    (id,) = other.import_(folder).new
    assert other.uid(id) == book.uid(second)
    with pytest.raises(KeyError, match="no case 7"):
        book.export(tmp_path / "seven", only=[7])
    assert not (tmp_path / "seven").exists()


def test_a_folder_in_use_is_left_as_it_is(book, case_id, tmp_path):
    used = tmp_path / "used"
    used.mkdir()
    (used / "mine.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(CaseBookError, match="not empty"):
        book.export(used)
    with pytest.raises(CaseBookError, match="not empty"):
        book.export(used / "mine.txt")
    assert files_in(used) == ["mine.txt"]
    with pytest.raises(CaseBookError, match="There is no case in"):
        book.import_(used)
    (tmp_path / "empty").mkdir()
    assert book.export(tmp_path / "empty") == 1


def test_an_export_that_fails_leaves_nothing(book, case_id, tmp_path, monkeypatch):
    monkeypatch.setattr(
        "faultdoc.record.casebook.transfer.write_case_files",
        lambda _: (_ for _ in ()).throw(OSError(28, "No space")),
    )
    with pytest.raises(CaseBookError, match="No space"):
        book.export(tmp_path / "exports" / "out")
    assert list((tmp_path / "exports").iterdir()) == []


def test_the_data_sheet_of_ones_own_unit_goes_along(book, other, start, tmp_path, monkeypatch):
    keep_unit(load_unit("bluff_30").model_copy(update={"id": "roof_9"}))
    book.start(start.model_copy(update={"unit": "roof_9"}))
    book.start(start)
    book.export(tmp_path / "out")
    assert [path.parent.name[11:17] for path in (tmp_path / "out").glob("*/unit.yaml")] == ["roof_9"]
    assert other.import_(tmp_path / "out").units == ()  # here it is known
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "elsewhere"))
    second = CaseBook.open(tmp_path / "second.sqlite")
    assert second.import_(tmp_path / "out").units == ("roof_9",)
    assert load_unit("roof_9").id == "roof_9"
    second.dispose()


def test_a_data_sheet_that_was_spoilt_is_told_and_nothing_is_imported(other, start, tmp_path, monkeypatch):
    keep_unit(load_unit("bluff_30").model_copy(update={"id": "roof_9"}))
    other.start(start.model_copy(update={"unit": "roof_9"}))
    other.export(tmp_path / "out")
    (path,) = (tmp_path / "out").glob("*/unit.yaml")
    path.write_text("id: roof_9\n", encoding="utf-8")
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "elsewhere"))
    second = CaseBook.open(tmp_path / "second.sqlite")
    with pytest.raises(CaseBookError, match=r"unit\.yaml(.|\n)*Nothing was imported"):
        second.import_(tmp_path / "out")
    assert second.cases() == ()
    second.dispose()


words = st.text(st.characters(codec="utf-8"), max_size=40).map(plain)
texts = words.filter(lambda text: text.strip() == text and text != "")
times = st.datetimes(datetime(2000, 1, 1), datetime(2100, 1, 1), timezones=st.just(UTC))
begun = Case(unit="bluff_30", symptoms=("no_flow",), state=all_states()[0], who=(Qualification.TECHNICIAN,))
cases = st.builds(
    lambda title, notes, end: begun.model_copy(update={"title": title, "notes": tuple(notes), "conclusion": end}),
    st.none() | texts,
    st.lists(texts, max_size=3),
    st.none() | st.builds(Conclusion, outcome=st.just("fixed"), note=st.none() | texts),
)
entries = st.builds(
    Entry, st.sampled_from(["do", "undo", "redo"]), words, cases, times, st.text("abc-1", max_size=9)
)
contacts = st.builds(
    Contact,
    role=st.sampled_from(["caller", "site"]),
    name=texts,
    phone=words.map(str.strip),
    note=words.map(str.strip),
)
stored = st.tuples(
    cases,
    st.lists(entries, max_size=4),
    st.lists(contacts, max_size=2),
    st.lists(st.binary(max_size=9), max_size=2),
)


@settings(deadline=None, max_examples=25)
@given(st.lists(stored, min_size=1, max_size=3), st.booleans())
def test_every_book_survives_its_export(kept, closed):
    with tempfile.TemporaryDirectory() as folder:
        here, there = (CaseBook.open(Path(folder) / f"{name}.sqlite") for name in ("here", "there"))
        for start, journal, people, photos in kept:
            id = here.start(start)
            here.add_all(id, journal)
            here.set_contacts(id, people)
            for photo in photos:
                here.attach(id, f"{photo[:3]!r}.png", PNG + photo)
            if closed:
                here.close(id)
        here.export(Path(folder) / "out", people=True)
        there.import_(Path(folder) / "out")
        for one in here.cases():
            assert everything(there, one.uid) == everything(here, one.uid)
        here.dispose()
        there.dispose()


def test_times_keep_their_microseconds(book, other, start, tmp_path):
    at = datetime(2026, 3, 4, 5, 6, 7, 123456, tzinfo=UTC)
    id = book.start(start)
    book.add_all(
        id, [Entry("do", "x", moves.note(start, "x"), at + timedelta(microseconds=step)) for step in (0, 1)]
    )
    book.export(tmp_path / "out")
    (here,) = other.import_(tmp_path / "out").new
    assert [entry.at.microsecond for entry in other.load(here)[1]] == [123456, 123457]

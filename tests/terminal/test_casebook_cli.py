"""`faultdoc cases` and `faultdoc book`: found, shown, kept, taken elsewhere, and forgotten."""

import json
from datetime import UTC, datetime
from pathlib import Path

import pytest

from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Conclusion, Tried
from faultdoc.model.safety import Qualification, all_states
from faultdoc.quantities import Kind, parse
from faultdoc.record.casebook import CaseBook, Contact
from faultdoc.record.draft import draft, keep_draft
from faultdoc.record.session import Entry
from faultdoc.record.settings import Settings

TREE = Path(__file__).resolve().parents[1] / "record" / "valves.yaml"
START = Case(unit="bluff_30", symptoms=("valves",), state=all_states()[0], who=(Qualification.TECHNICIAN,))
PNG = b"\x89PNG\r\n\x1a\n"


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setattr("faultdoc.library.load.trees_folder", lambda: TREE)
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def uid():
    """Fill the case book: an open case with people and a photo, and a closed one; return the first one's uid."""
    book = CaseBook.open()
    first = book.start(START.model_copy(update={"title": "Zofia's roof"}))
    reading = Measured.from_quantity(parse("8.2 psi", Kind.PRESSURE_DIFFERENCE))
    answered = START.model_copy(
        update={
            "title": "Zofia's roof",
            "readings": {"strainer_pressure_drop": reading, "supply_valve_position": "open"},
            "answers": {"odd_question": "not_sure"},
            "notes": ("Krawczyk rang",),
        }
    )
    at = datetime(2026, 3, 4, 5, 6, tzinfo=UTC)
    book.add_all(
        first, [Entry("do", "Read the drop", answered, at, "desk-1"), Entry("undo", "It", answered, at, "v-2")]
    )
    book.set_contacts(first, [Contact(role="caller", name="Zofia Krawczyk", phone="212 555 0147")])
    book.attach(first, "plate.png", PNG)
    second = book.start(START)
    over = START.model_copy(
        update={
            "tried": (Tried(cause="strainer_dirty", proved=True),),
            "conclusion": Conclusion(outcome="fixed", cause="strainer_dirty", proof="Drop is 1 psi"),
        }
    )
    book.add_all(second, [Entry("do", "Closed", over, datetime(2026, 3, 5, tzinfo=UTC), "desk-1")])
    book.close(second)
    uid = book.uid(first)
    book.dispose()
    return uid


def ids(out):
    return [one["id"] for one in json.loads(out)["cases"]]


@pytest.mark.parametrize(
    ("options", "found"),
    [
        ([], [2, 1]),
        (["--text", "krawczyk"], [1]),
        (["--text", '"; TABLE'], []),
        (["--unit", "bluff_30", "--symptom", "valves"], [2, 1]),
        (["--cause", "strainer_dirty"], [2]),
        (["--outcome", "fixed"], [2]),
        (["--open"], [1]),
        (["--closed"], [2]),
        (["--since", "2026-03-07"], []),
        (["--until", "2001-01-01"], []),
        (["--limit", "1"], [2]),
    ],
)
def test_cases_are_found(run, uid, options, found):
    code, out, err = run("cases", *options, "--json")
    assert (code, err) == (0, "")
    assert ids(out) == found


def test_the_list_in_words(run, uid):
    code, out, _ = run("cases")
    assert code == 0
    assert "    2  bluff_30: valves (closed)" in out
    assert "Fixed: strainer dirty" in out
    assert "    1  Zofia's roof (open)" in out
    assert "last: It" in out
    assert "may be more" not in out
    assert "may be more than these 1" in run("cases", "--limit", "1")[1]
    assert run("cases", "--text", "zebra")[1] == "No case is like that.\n"
    assert max(map(len, out.splitlines())) < 80


def test_a_date_that_is_none_is_told(run, uid):
    code, _, err = run("cases", "--since", "May")
    assert code == 1
    assert "'May'" in err


def test_one_case_in_words_keeps_its_people_back(run, uid):
    for name in ("1", uid):
        code, out, err = run("cases", "show", name)
        assert (code, err) == (0, "")
        for part in ("Case 1: Zofia's roof", uid, "8.2 psi", "Not sure", "Note: Krawczyk rang", "plate.png"):
            assert part in out
        assert "desk-1: Read the drop" in out
        assert "v-2: Taken back: It" in out
        assert "1 contact: shown with --people" in out
        assert "0147" not in out
    assert "Caller: Zofia Krawczyk, 212 555 0147" in run("cases", "show", "1", "--people")[1]
    out = run("cases", "show", "2")[1]
    assert "Fixed: The strainer is dirty" in out
    assert "Drop is 1 psi" in out
    assert "the proof held" in out


def test_one_case_as_data(run, uid):
    data = json.loads(run("cases", "show", "1", "--json")[1])
    assert (data["uid"], data["open"], data["entries"]) == (uid, True, 2)
    assert Case.model_validate_json(json.dumps(data["case"])).notes == ("Krawczyk rang",)
    assert [entry["by"] for entry in data["journal"]] == ["desk-1", "v-2"]
    assert "contacts" not in data
    (person,) = json.loads(run("cases", "show", "1", "--json", "--people")[1])["contacts"]
    assert person["phone"] == "212 555 0147"


@pytest.mark.parametrize(
    "command", [["cases", "show", "77"], ["cases", "show", "0f" * 16], ["book", "erase", "nonsense", "--yes"]]
)
def test_a_case_that_is_not_there(run, uid, command):
    code, _, err = run(*command)
    assert code == 1
    assert "no case" in err


def test_a_back_up_is_restored_elsewhere(run, uid, tmp_path):
    code, out, _ = run("book", "backup", "copy.sqlite")
    assert code == 0
    assert "copy.sqlite" in out
    assert run("book", "restore", "copy.sqlite")[0] == 1  # the usual place has one
    code, out, _ = run("book", "restore", "copy.sqlite", "--to", tmp_path / "again.sqlite")
    assert (code, "is made of copy.sqlite: 2 cases" in out) == (0, True)
    book = CaseBook.open(tmp_path / "again.sqlite")
    assert book.by_uid(uid) == 1
    book.dispose()


def test_an_export_goes_into_another_book(run, uid, tmp_path, monkeypatch):
    code, out, _ = run("book", "export", "out")
    assert code == 0
    assert "left out" in out
    assert "0147" not in "".join(path.read_text(encoding="utf-8") for path in Path("out").glob("*/*.*"))
    assert run("book", "export", "out")[0] == 1
    assert "Names and telephone numbers are in it" in run("book", "export", "one", "--people", "--case", uid)[1]
    assert len(list(Path("one").iterdir())) == 1
    assert "0 new, 0 went on elsewhere and are brought up to date, 2 the same" in run("book", "import", "out")[1]
    monkeypatch.setenv("FAULTDOC_CASE_BOOK", str(tmp_path / "other.sqlite"))
    assert "1 new" in run("book", "import", "one")[1]
    book = CaseBook.open()
    assert book.path == tmp_path / "other.sqlite"
    assert [one.name for one in book.contacts(1)] == ["Zofia Krawczyk"]
    book.add_all(1, [Entry("do", "there", START, datetime(2026, 4, 1, tzinfo=UTC))])
    book.dispose()
    run("book", "export", "back")
    monkeypatch.delenv("FAULTDOC_CASE_BOOK")
    book = CaseBook.open()
    book.add_all(1, [Entry("do", "here", START, datetime(2026, 4, 2, tzinfo=UTC))])
    book.dispose()
    code, out, _ = run("book", "import", "back")
    assert code == 1
    assert "Case 1 went on both here and there" in out


def test_another_case_book_is_used_from_now_on(run, uid, tmp_path, monkeypatch):
    code, out, _ = run("book", "use")
    assert (code, out) == (0, f"{tmp_path / 'home' / 'cases.sqlite'}: 2 cases.\n")
    code, out, _ = run("book", "use", "shared.sqlite")
    assert code == 0
    assert out.startswith(f"{tmp_path / 'shared.sqlite'}: 0 cases.\nIt is used from now on.")
    assert ids(run("cases", "--json")[1]) == []
    assert Settings.load().case_book == str(tmp_path / "shared.sqlite")
    code, _, err = run("book", "use", f"postgresql://desk:hush-hush@/cases?host={tmp_path}")
    assert code == 1
    assert "cannot be reached" in err
    assert "hush-hush" not in err
    assert Settings.load().case_book == str(tmp_path / "shared.sqlite")
    monkeypatch.setenv("FAULTDOC_CASE_BOOK", str(tmp_path / "named.sqlite"))
    out = run("book", "use", "usual")[1]
    assert "cases.sqlite: 2 cases" in out
    assert "named.sqlite: 0 cases.\nSo says FAULTDOC_CASE_BOOK, which goes before the setting." in out
    monkeypatch.delenv("FAULTDOC_CASE_BOOK")
    assert Settings.load().case_book is None
    assert ids(run("cases", "--json")[1]) == [2, 1]


def test_people_are_forgotten_once_someone_says_so(run, uid):
    code, out, _ = run("book", "erase", "1", typed=["no"])
    assert code == 1
    assert "1 contact goes" in out
    assert "Nothing was changed" in out
    assert run("book", "erase", "1")[0] == 1  # nobody there to ask
    assert "Caller: Zofia" in run("cases", "show", "1", "--people")[1]
    keep_draft(uid, "Zofia is at the gate")
    code, out, _ = run("book", "erase", uid, typed=["1"])
    assert code == 0
    assert draft(uid) == ""  # what was half typed on the phone goes too
    assert "Look through 1 attachment yourself" in out
    shown = run("cases", "show", "1", "--people")[1]
    assert "Zofia" not in shown
    assert "Krawczyk" not in shown
    assert "[name] roof" in shown

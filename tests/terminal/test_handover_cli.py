"""Hand-overs from the command line, with the small tree of the record's tests."""

import io
import sys
from pathlib import Path

import pytest

from faultdoc import cli
from faultdoc.model.case import Case
from faultdoc.record import moves
from faultdoc.record.casebook import CaseBook, Contact
from faultdoc.record.handover.file import code_texts, read_hand_over, save_hand_over
from faultdoc.record.handover.form import lines_of
from faultdoc.record.session import Entry

TREE = Path(__file__).parents[1] / "record" / "valves.yaml"
CASE = """\
title: Noon call
unit: bluff_30
symptoms: [valves]
state: {supply: energised, panel: closed, pump: stopped, water: pressurised, compressors: stopped, oil: warm}
who: [technician]
readings:
  supply_valve_position: open
"""


@pytest.fixture(autouse=True)
def _small(tmp_path, monkeypatch):
    monkeypatch.setattr("faultdoc.library.load.trees_folder", lambda: TREE)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "case.yaml").write_text(CASE, encoding="utf-8")


@pytest.fixture
def run(capsys, monkeypatch):
    """Return (arguments, standard input) -> exit code, standard output, standard error."""

    def run_with(*arguments, stdin=""):
        monkeypatch.setattr(sys, "argv", ["faultdoc", "handover", *map(str, arguments)])
        monkeypatch.setattr(sys, "stdin", io.StringIO(stdin))
        with pytest.raises(SystemExit) as end:
            cli.main()
        # As one line: where lines are wrapped does not matter here.
        out, err = (" ".join(text.split()) for text in capsys.readouterr())
        return end.value.code or 0, out, err

    return run_with


def book_with(case_id=1):
    book = CaseBook.open()
    try:
        start, entries = book.load(case_id)
        return entries[-1].case if entries else start, len(entries)
    finally:
        book.dispose()


def test_a_case_file_is_made_into_a_hand_over_and_opened(run):
    code, out, _ = run("make", "case.yaml", "-o", "out.yaml")
    assert (code, "1 reading, 0 answers" in out, "no names or numbers" in out) == (0, True, True)
    code, out, _ = run("open", "out.yaml")
    assert code == 0
    assert "! The plant" in out
    assert "It is case 1 of the case book" in out
    case, moves_ = book_with()
    assert (case.title, case.readings, moves_) == ("Noon call", {"supply_valve_position": "open"}, 0)
    assert "just as it came" in run("open", "out.yaml")[1]


def test_codes_are_pasted(run):
    run("make", "case.yaml", "-o", "out.yaml", "--qr", "case.svg")
    texts = code_texts(read_hand_over(Path("out.yaml")).hand_over, own_sheet=False)
    code, out, _ = run("open", "-", stdin=f"Scanned:\n{texts[0]}\n")
    assert (code, "Noon call" in out) == (0, True)
    assert Path("case.svg").read_text(encoding="utf-8").count("<svg") == 1
    assert "Code 1 of 1" in run("make", "1", "--qr", "terminal")[1]
    damaged = texts[0][:40] + ("A" if texts[0][40] != "A" else "B") + texts[0][41:]
    code, _, err = run("open", "-", stdin=damaged)
    assert (code, "standard input: found a damaged code" in err) == (1, True)


def test_people_go_along_only_when_asked_for(run):
    run("make", "case.yaml", "-o", "out.yaml")
    run("open", "out.yaml")
    book = CaseBook.open()
    book.set_contacts(1, [Contact(role="site", name="Somebody at the gate")])
    book.dispose()
    run("make", "1", "-o", "quiet.yaml")
    assert "gate" not in Path("quiet.yaml").read_text(encoding="utf-8")
    assert "names and numbers of 1 person" in run("make", "1", "-o", "named.yaml", "--people")[1]
    assert "Somebody at the gate" in Path("named.yaml").read_text(encoding="utf-8")


def apart(run):
    """Return the file of a copy that went on elsewhere, with a conflict of state and of a reading."""
    run("make", "case.yaml", "-o", "out.yaml")
    run("open", "out.yaml")
    sent = read_hand_over(Path("out.yaml")).hand_over
    running = sent.start.state.model_copy(update={"pump": type(sent.start.state.pump).RUNNING})
    there: Case = moves.set_state(moves.read(sent.start, "supply_valve_position", "shut"), running)
    line = lines_of(sent.start, (Entry("do", "Looked again", there, sent.sent.at, "tech-2"),))
    save_hand_over(sent.model_copy(update={"journal": line}), Path("theirs.yaml"))
    book = CaseBook.open()
    book.journal(1).append(Entry("do", "Looked", moves.read(sent.start, "supply_valve_position", "part_open")))
    book.dispose()
    return "theirs.yaml"


def test_conflicts_are_listed_and_nothing_is_taken_until_they_are_decided(run):
    file = apart(run)
    code, out, err = run("open", file)
    assert code == 1
    assert "To be decided: The state of the plant [state]" in out
    assert "Part open" in out
    assert "--take state=mine|theirs --take reading:supply_valve_position=mine|theirs|note" in err
    assert book_with()[1] == 1
    code, out, err = run("open", file, "--take", "state=note", "--take", "reading:supply_valve_position=theirs")
    assert (code, "state=mine|theirs" in err, "reading" in err) == (1, True, False)
    code, out, _ = run("open", file, "--take", "state=mine", "--take", "reading:supply_valve_position=theirs")
    assert (code, "2 moves added" in out) == (0, True)
    case, _ = book_with()
    assert (case.state.pump, case.readings) == ("stopped", {"supply_valve_position": "shut"})
    assert len(case.notes) == 2


def test_conflicts_are_asked_for_where_somebody_is_there(run):
    from faultdoc.library.load import load_library
    from faultdoc.terminal.handover import open_, received

    came = received(apart(run), None)
    lines = iter(["what", "theirs", "note"])
    told = []
    book = CaseBook.open()
    open_(told.append, came, {}, load_library(), book, "desk-1", lambda prompt: next(lines))
    book.dispose()
    assert "  Type one of: mine, theirs." in told
    case, _ = book_with()
    assert (case.state.pump, case.readings) == ("running", {})


def test_two_hand_overs_are_compared(run):
    file = apart(run)
    code, out, _ = run("diff", "out.yaml", file)
    assert code == 1
    assert "B holds everything that A holds, and more." in out
    assert "only in B: Looked again" in out
    assert run("diff", file, file)[:1] == (0,)
    run("make", "1", "-o", "mine.yaml")
    code, out, _ = run("diff", "mine.yaml", file)
    assert "They were worked on apart." in out
    assert "A: Part open" in out
    Path("case.yaml").write_text(CASE.replace("Noon", "Night"), encoding="utf-8")
    run("make", "case.yaml", "-o", "another.yaml")
    code, _, err = run("diff", file, "another.yaml")
    assert (code, "these are two cases" in err) == (1, True)


@pytest.mark.parametrize(
    ("arguments", "code", "told"),
    [
        (("make", "case.yaml"), 2, "say where to"),
        (("make", "77", "-o", "x.yaml"), 1, "neither a case file nor the number"),
        (("make", "case.yaml", "--qr", "x.gif"), 1, "a code is drawn as .svg or .png"),
        (("make", "case.yaml", "-o", "no/folder/x.yaml"), 1, "cannot be written"),
        (("open", "case.yaml"), 1, "this is another kind of file"),
        (("open", "none.yaml"), 1, "No such file"),
        (("open", "case.yaml", "--take", "state"), 2, "is not ID=mine"),
    ],
)
def test_what_is_wrong_is_told(run, arguments, code, told):
    found, _, err = run(*arguments)
    assert (found, told in " ".join(err.replace("│", " ").split())) == (code, True)

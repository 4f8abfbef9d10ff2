import json
import struct
import subprocess
import sys
import zlib
from pathlib import Path

import pytest

from faultdoc import cli
from faultdoc.checks.all import registry
from faultdoc.diagnosis.assess import assess, bench_for
from faultdoc.library.load import load_case, load_library, load_unit
from faultdoc.library.problems import FileProblems
from faultdoc.model.case import Conclusion
from faultdoc.model.safety import Qualification
from faultdoc.quantities import Kind, System, parse
from faultdoc.record.casebook import CaseBook
from faultdoc.record.settings import Settings
from faultdoc.terminal.demo import DemoError, Script, load_script, play

ROOT = Path(__file__).resolve().parents[1]
TREE = Path(__file__).parent / "record" / "valves.yaml"
CASE = """\
unit: bluff_30
symptoms: [valves]
state: {supply: energised, panel: closed, pump: stopped, water: pressurised, compressors: stopped, oil: warm}
who: [technician]
readings:
  supply_valve_position: open
  strainer_pressure_drop: 8.2 psi ± 0.5
"""


@pytest.fixture(autouse=True)
def small(tmp_path, monkeypatch):
    """The small tree instead of FaultDoc's own, and a home of its own."""
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "home"))
    monkeypatch.setattr("faultdoc.library.load.trees_folder", lambda: TREE)
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def case(tmp_path):
    path = tmp_path / "case.yaml"
    path.write_text(CASE, encoding="utf-8")
    return path


def test_version_and_help_are_quick_and_plain():
    for argument, wanted in (("--version", "faultdoc "), ("--help", "diagnose")):
        code = (
            "import sys; from faultdoc import cli; sys.argv[1:] = [sys.argv[1]]\n"
            "try: cli.main()\n"
            "except SystemExit: pass\n"
            "slow = {'pydantic', 'pint', 'numpy', 'networkx', 'sqlalchemy', 'jinja2', 'PySide6', 'rich'}\n"
            "print(sorted(slow & set(sys.modules)))"
        )
        ran = subprocess.run(
            [sys.executable, "-c", code, argument], capture_output=True, text=True, check=True, cwd=ROOT
        )
        assert wanted in ran.stdout
        assert ran.stdout.splitlines()[-1] == "[]"


def test_every_command_has_help(run):
    for name in ("window", "ask", "diagnose", "report", "lint", "compute", "demo"):
        code, out, _ = run(name, "--help")
        assert code == 0
        assert "Usage:" in out


def test_diagnose_json_keeps_its_promise(run, case):
    code, out, err = run("diagnose", case, "--json")
    assert (code, err) == (0, "")
    told = json.loads(out)
    assert {"causes", "left_out", "checks", "next", "misfit", "expected_minutes"} <= told.keys()
    assert [type(told[key]) for key in ("causes", "left_out", "checks", "next", "misfit", "expected_minutes")] == [
        *(list, float, list, dict, list, float)
    ]
    for one in told["causes"]:
        assert {"id": str, "title": str, "system": str, "probability": float}.items() <= {
            key: type(value) for key, value in one.items()
        }.items()
    likely = [one["probability"] for one in told["causes"]]
    assert likely == sorted(likely, reverse=True)
    assert all(0.0 <= one <= 1.0 for one in likely)
    assert {one["id"] for one in told["causes"]} == {"valve_shut", "strainer_dirty", "switch_stuck"}
    (check,) = told["checks"]
    types = {"id": str, "expected": float, "measured": float, "deviation": float, "uncertainty": float}
    types |= {"verdict": str, "unit": str}
    assert types.items() <= {key: type(value) for key, value in check.items()}.items()
    assert (check["id"], check["verdict"], check["unit"]) == ("strainer_drop", "high", "psi")
    assert check["measured"] == pytest.approx(8.2)
    assert {"kind", "id", "text", "minutes", "state", "who", "cautions"} <= told["next"].keys()
    assert told["next"]["kind"] in {"question", "remedy", "proof", "state_change", "hand_over", "done"}
    assert isinstance(told["next"]["minutes"], float)
    assert told["next"]["who"] in [one.value for one in Qualification]
    for caution in told["next"]["cautions"]:
        assert caution.keys() == {"signal", "text"}
    assert 0.0 <= told["left_out"] <= 1.0
    assert told["expected_minutes"] > 0.0


def test_json_is_the_same_for_everyone_and_si_is_a_wish(run, case):
    Settings(system=System.SI).save()
    (check,) = json.loads(run("diagnose", case, "--json")[1])["checks"]
    assert check["unit"] == "psi"
    (si,) = json.loads(run("diagnose", case, "--json", "--si")[1])["checks"]
    assert si["unit"] == "kPa"
    # 1 psi = 6.894757 kPa (NIST SP 811, appendix B)
    for key in ("expected", "measured", "uncertainty"):
        assert si[key] == pytest.approx(6.894757 * check[key], rel=1e-6)
    assert si["deviation"] == pytest.approx(check["deviation"])


def test_diagnose_says_it_in_words(run, case):
    code, out, _ = run("diagnose", case)
    assert code == 0
    library = load_library(TREE)
    assessment = assess(bench_for(library, load_unit("bluff_30"), ("valves",)), load_case(case, library))
    text = " ".join(out.split())
    assert assessment.checks[0].sentence(System.US) in text
    assert "The strainer is dirty (water)" in text
    assert "####" in out
    assert "For and against: The strainer is dirty" in text
    assert assessment.next.text in text
    assert "Expected until the fix is proved" in text
    cautions = [out.index(one.text.split(".")[0][:40]) for one in assessment.next.cautions]
    assert all(place < out.index(assessment.next.text) for place in cautions)
    assert max(len(line) for line in out.splitlines()) <= 80


def test_settings_choose_the_units_of_words(run, case):
    assert "8.2 psi" in run("diagnose", case)[1]
    Settings(system=System.SI).save()
    assert "56.5 kPa" in run("diagnose", case)[1]
    assert "8.2 psi" in run("diagnose", case, "--us")[1]


def test_a_larger_size_looks_at_more(run, case):
    one = json.loads(run("diagnose", case, "--json", "--size", "1")[1])
    three = json.loads(run("diagnose", case, "--json", "--size", "3")[1])
    assert one["left_out"] > three["left_out"] == 0.0


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["diagnose", "none.yaml"], "none.yaml"),
        (["diagnose", "wrong.yaml"], "wrong.yaml:3"),
        (["report", "none.yaml", "-o", "r.html"], "none.yaml"),
        (["report", "case.yaml", "-o", "r.docx"], ".html or .pdf"),
        (["report", "case.yaml", "-o", "no/r.html"], "cannot be written"),
        (["ask", "--symptom", "gone"], "no fault tree 'gone'"),
        (["ask", "--unit", "gone"], "no such unit"),
        (["ask", "none.yaml"], "none.yaml"),
        (["lint", "none.yaml"], "none"),
        (["compute", "gone"], "no check 'gone'"),
        (["compute", "strainer_drop", "water_flow"], "not a reading"),
        (["compute", "strainer_drop", "strainer_pressure_drop=much"], "no number"),
        (["compute", "strainer_drop"], "strainer_pressure_drop"),
        (["window", "none.yaml"], "no such file"),
    ],
)
def test_wrong_input_is_told_on_standard_error_with_code_1(run, case, tmp_path, arguments, told):
    (tmp_path / "wrong.yaml").write_text(CASE.replace("energised", "lit"), encoding="utf-8")
    code, _, err = run(*arguments)
    assert code == 1
    assert told in err
    assert "Traceback" not in err


@pytest.mark.parametrize(
    "arguments",
    [
        ["nonsense"],
        ["diagnose"],
        ["diagnose", "case.yaml", "--size", "0"],
        ["report", "case.yaml"],
        ["compute"],
        ["ask", "--who", "nobody"],
        ["ask", "case.yaml", "--unit", "bluff_30"],
        ["lint", "--fast"],
    ],
)
def test_a_wrong_command_line_is_code_2(run, case, arguments):
    code, _, err = run(*arguments)
    assert code == 2
    assert "Usage:" in err


def test_a_damaged_case_book_is_told(run, tmp_path):
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / "cases.sqlite").write_bytes(b"no database " * 100)
    code, _, err = run("ask")
    assert code == 1
    assert "damaged" in err


def test_report_of_a_case_file(run, case, tmp_path):
    code, out, _ = run("report", case, "-o", "r.html")
    assert (code, out.strip()) == (0, "The report is written to r.html.")
    assert "8.2 psi ± 0.5" in (tmp_path / "r.html").read_text(encoding="utf-8")
    assert [path.name for path in tmp_path.glob(".r*")] == []


def one_pixel():
    """A PNG of one grey pixel (ISO/IEC 15948, 5.3: length, type, data and CRC of each chunk)."""
    chunks = [
        (b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)),
        (b"IDAT", zlib.compress(b"\0\x80")),
        (b"IEND", b""),
    ]
    made = b"\x89PNG\r\n\x1a\n"
    for sort, data in chunks:
        made += struct.pack(">I", len(data)) + sort + data + struct.pack(">I", zlib.crc32(sort + data))
    return made


@pytest.fixture
def kept(case):
    """A case of the case book with a journal, a person, a photo and a document; its number and its uid."""
    from faultdoc.record import moves
    from faultdoc.record.casebook import Contact
    from faultdoc.record.session import Entry

    start = load_case(case, load_library(TREE))
    book = CaseBook.open()
    id = book.start(start)
    book.add_all(id, [Entry("do", "Heard from the cook", moves.note(start, "It hummed."))])
    book.set_contacts(id, [Contact(role="site", name="Sam Site", phone="555 0101")])
    book.attach(id, "basket.png", one_pixel())
    book.attach(id, "papers.pdf", b"%PDF-1.4 and so on")
    uid = book.uid(id)
    book.dispose()
    return str(id), uid


def test_report_of_a_case_of_the_case_book(run, kept, tmp_path, qapp):
    for name in kept:
        code, _, err = run("report", name, "-o", "r.html")
        assert (code, err) == (0, "")
        plain = (tmp_path / "r.html").read_text(encoding="utf-8")
        assert "Heard from the cook" in plain
        for absent in ("Sam Site", "555 0101", "basket.png", "papers.pdf"):
            assert absent not in plain
    assert run("report", kept[0], "--photos", "--people", "-o", "r.html")[0] == 0
    whole = (tmp_path / "r.html").read_text(encoding="utf-8")
    for wanted in ("Sam Site, 555 0101", 'alt="basket.png"', "not printed: papers.pdf"):
        assert wanted in whole


def test_customer_page_from_the_command_line(run, case, kept, tmp_path):
    for name in (case, kept[0]):
        assert run("report", name, "--customer", "-o", "c.html")[0] == 0
        page = (tmp_path / "c.html").read_text(encoding="utf-8")
        assert "In plain words" in page
        assert "Decibans" not in page


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["case.yaml", "--photos"], "only the case book keeps photos and names"),
        (["case.yaml", "--people"], "only the case book keeps photos and names"),
        (["77"], "no case 77"),
        (["0f" * 16], "no case 0f0f"),
    ],
)
def test_report_that_cannot_be_made_says_why(run, case, arguments, told):
    code, _, err = run("report", *arguments, "-o", "r.html")
    assert code == 1
    assert told in err
    assert "Traceback" not in err


def test_report_as_pdf(run, case, tmp_path, qapp):
    code, _, err = run("report", case, "-o", "r.pdf")
    assert (code, err) == (0, "")
    assert (tmp_path / "r.pdf").read_bytes().startswith(b"%PDF-")


def test_without_qt_a_pdf_is_refused_with_what_helps(run, case, monkeypatch, tmp_path):
    monkeypatch.setitem(sys.modules, "faultdoc.app.pdf", None)
    code, _, err = run("report", case, "-o", "r.pdf")
    assert code == 1
    assert "write the report as .html" in err
    assert not (tmp_path / "r.pdf").exists()


def test_no_command_and_window_open_the_window(run, case, monkeypatch):
    opened = []
    monkeypatch.setattr("faultdoc.app.main", lambda argv: opened.append(argv) or 3)
    assert run()[0] == 3
    assert run("window", case)[0] == 3
    assert opened == [[], [str(case)]]


def test_without_qt_the_window_says_what_else_there_is(run, monkeypatch):
    def main(argv):
        raise ImportError("libEGL.so.1: cannot open shared object file")

    monkeypatch.setattr("faultdoc.app.main", main)
    code, _, err = run("window")
    assert code == 1
    assert "libEGL.so.1" in err
    assert "faultdoc ask" in err


def test_ask_keeps_the_case_and_offers_it_again(run, tmp_path):
    code, out, _ = run(
        *("ask", "--unit", "bluff_30", "--symptom", "valves", "--who", "technician", "--save", "left.yaml"),
        typed=["1", "1", "note began"],
    )
    assert code == 0
    assert "The case is kept as number 1" in out
    assert load_case(tmp_path / "left.yaml", load_library(TREE)).notes == ("began",)
    code, out, _ = run("ask", typed=["2", "close", "1", "", ""])
    assert code == 0
    assert "Case 1 is closed" in out
    book = CaseBook.open()
    start, entries = book.load(1)
    assert book.unfinished() == ()
    assert start.who == (Qualification.TECHNICIAN,)
    assert entries[-1].case.conclusion == Conclusion(outcome="handed_over")
    book.dispose()


def test_lint_of_a_sound_and_of_an_unsound_tree(run, tmp_path):
    code, out, _ = run("lint", TREE, "--stats", "--json")
    counts = json.loads(out)["valves"]
    assert (counts["causes"], counts["questions"]) == (3, 4)
    assert {"causes", "questions", "readings", "told_apart", "warnings"} <= counts.keys()
    assert code == (1 if counts["warnings"] else 0)

    tree = TREE.read_text(encoding="utf-8")
    (tmp_path / "bad.yaml").write_text(
        tree.replace("check: strainer_drop", "check: no_such_check"), encoding="utf-8"
    )
    code, out, _ = run("lint", "bad.yaml")
    assert code == 1
    assert "no_such_check" in out
    code, out, _ = run("lint", "bad.yaml", "--json")
    assert code == 1
    assert any("no_such_check" in one["what"] for one in json.loads(out)["warnings"])
    code, out, _ = run("lint", "bad.yaml", "--stats")
    assert "valves: 3 causes, 4 questions" in out


def test_lint_knows_what_every_check_wants():
    facts = cli._check_facts()
    assert facts.keys() == registry.keys()
    assert facts["strainer_drop"].missing({"strainer_pressure_drop"}) == []
    assert "water_flow" in facts["strainer_drop"].optional
    drop = facts["barrel_drop_at_flow"]
    assert drop.missing({"water_flow", "barrel_in_pressure", "barrel_out_pressure"}) == []
    assert drop.missing({"water_flow"}) == ["barrel_pressure_drop or barrel_in_pressure with barrel_out_pressure"]


def test_compute_one_check(run):
    code, out, _ = run("compute", "strainer_drop", "strainer_pressure_drop=8.2 psi ± 0.5")
    assert code == 0
    assert "8.2 psi" in out
    assert "Formula:" in out
    code, out, _ = run("compute", "strainer_drop", "strainer_pressure_drop=8.2 psi", "--json", "--si")
    told = json.loads(out)
    assert {"id", "expected", "measured", "deviation", "uncertainty", "verdict", "unit"} <= told.keys()
    assert (told["id"], told["unit"]) == ("strainer_drop", "kPa")
    code, out, _ = run("compute", "--list")
    assert code == 0
    assert all(id in out for id in registry)


# --- the demo ---


@pytest.fixture
def script():
    return Script(
        cause="strainer_dirty",
        answers={"valve_look": "open", "pump_sound": "rattles"},
        readings={"strainer_pressure_drop": "9 psi ± 0.5 psi"},
    )


@pytest.fixture
def started(case):
    library = load_library(TREE)
    return library, load_case(case, library).model_copy(update={"readings": {}})


def test_the_demo_plays_to_the_proved_fix(started, script):
    said = []
    session, entries = play(*started, script, System.US, said.append)
    assert session.case.conclusion == Conclusion(
        outcome="fixed", cause="strainer_dirty", note="Played by the demo."
    )
    assert session.case.tried[-1].cause == "strainer_dirty"
    assert session.case.tried[-1].proved
    assert all(not one.proved for one in session.case.tried[:-1])
    assert entries[-1].case == session.case
    assert session.case.state.compressors.value == "running"
    assert any("Start the compressors" in text for text in said)


def test_the_demo_follows_its_answers_and_not_the_cause(started, script):
    # The answers speak for the valve: its remedy is tried first, does not hold, and the walk goes on.
    misled = script.model_copy(update={"answers": {"valve_look": "shut"}, "readings": {}})
    session, _ = play(*started, misled, System.US, lambda _: None)
    assert session.case.tried[0].cause == "valve_shut"
    assert not session.case.tried[0].proved
    assert session.case.tried[-1].cause == "strainer_dirty"


def test_a_demo_that_is_to_be_handed_over_is_no_success(started, script):
    library, case = started
    caller = case.model_copy(update={"who": (Qualification.CALLER,)})
    with pytest.raises(DemoError, match="handed over"):
        play(library, caller, script, System.US, lambda _: None)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("cause: gone", "unknown cause 'gone'"),
        ("cause: valve_shut\nanswers: {gone: open}", "unknown question 'gone'"),
        ("cause: valve_shut\nanswers: {valve_look: ajar}", "unknown outcome 'ajar'"),
        ("cause: valve_shut\nreadings: {gone: 3 psi}", "unknown point 'gone'"),
        ("cause: valve_shut\nreadings: {strainer_pressure_drop: 3 gpm}", "'gpm' is not a unit"),
        ("cause: valve_shut\nreadings: {supply_valve_position: open}", "which is a choice"),
        ("answers: {}", "cause"),
    ],
)
def test_a_script_with_mistakes_is_told(tmp_path, text, told):
    path = tmp_path / "script.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(FileProblems, match=told):
        load_script(path, load_library(TREE))


def test_the_shipped_demo_reaches_its_cause_and_reports(run, tmp_path, monkeypatch):
    from faultdoc.library.places import data_folder

    monkeypatch.setattr("faultdoc.library.load.trees_folder", lambda: data_folder() / "trees")
    code, out, err = run("demo")
    assert (code, err) == (0, "")
    assert "The proof holds." in out
    assert "CHANGE OF STATE" in out
    assert out.strip().endswith("The report is written to faultdoc-demo-report.html.")
    html = (tmp_path / "faultdoc-demo-report.html").read_text(encoding="utf-8")
    assert "Fixed." in html
    assert max(len(line) for line in out.splitlines()) <= 80


def test_readings_of_the_shipped_script_are_within_their_kinds():
    from faultdoc.library.places import data_folder, resources_folder

    library = load_library(data_folder() / "trees")
    script = load_script(resources_folder() / "demo_script.yaml", library)
    assert script.cause in library.causes
    for id, text in script.readings.items():
        assert parse(text, library.points[id].kind, need_unit=True).kind is not Kind.CHOICE


def test_tree_lists_shows_and_draws(run, tmp_path):
    code, out, _ = run("tree")
    assert code == 0
    assert "valves" in out or "flow_proving_trip" in out
    id = out.split()[0]
    code, out, _ = run("tree", id, "--cut-sets", "--importance", "--sensitivity")
    assert code == 0
    assert "Minimal cut sets:" in out
    assert "share of symptom" in out
    assert "First now:" in out
    drawing = tmp_path / "tree.svg"
    code, out, _ = run("tree", id, "--svg", drawing)
    assert code == 0
    assert drawing.read_text(encoding="utf-8").startswith("<svg")


def test_an_unknown_tree_is_refused_with_those_there_are(run):
    code, _, err = run("tree", "no_such_tree")
    assert code == 1
    assert "no fault tree 'no_such_tree'; there are:" in err

"""One test for each attack that has a name."""

import csv
import json
import os
import subprocess
import sys
import zlib
from datetime import UTC, datetime
from hashlib import sha256
from html.parser import HTMLParser
from io import StringIO
from pathlib import Path

import pytest
from doors import HERE, library

from faultdoc.checks.base import registry
from faultdoc.diagnosis.assess import assess, bench_for
from faultdoc.diagnosis.cutsets import minimal_cut_sets
from faultdoc.diagnosis.graph import TreeError, fault_graph
from faultdoc.library.cases import save_case
from faultdoc.library.load import Library, load_case, load_trees, load_unit
from faultdoc.library.places import resources_folder
from faultdoc.library.problems import FileProblems
from faultdoc.library.source import DEEPEST, LARGEST, MOST_PARTS, read, read_text
from faultdoc.model.case import MOST_SYMPTOMS, Case, Conclusion, Tried
from faultdoc.model.safety import TRIPPED, Qualification
from faultdoc.model.tree import Gate
from faultdoc.plain import plain
from faultdoc.quantities import Kind, QuantityError, System, parse
from faultdoc.record.handover.codes import CodeError, out_of_codes
from faultdoc.record.handover.letters import spelt
from faultdoc.record.kit import best_kit, kit_html, sending
from faultdoc.record.report import report_html
from faultdoc.terminal.timers import read_log

ROOT = Path(__file__).resolve().parents[2]
CASE = (resources_folder() / "cases" / "good_drop_no_proof.yaml").read_text(encoding="utf-8")
SHEET = (resources_folder() / "units" / "bluff_30.yaml").read_text(encoding="utf-8")
MARKUP = "<script>alert(1)</script><img src=x onerror=alert(2)></td></style><style>*{display:none}</style>&amp;"


@pytest.fixture
def case_file(tmp_path):
    """Return a function that writes a case and gives its path."""

    def write(text: str, name: str = "case.yaml") -> Path:
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    return write


def refusal(text: str) -> str:
    with pytest.raises(FileProblems) as found:
        read_text(text, "x.yaml")
    return str(found.value)


# --- files that grow, nest or run ---


def test_billion_laughs():
    bomb = "a: &a [lol, lol]\n" + "".join(
        f"{b}: &{b} [*{a}, *{a}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True)
    )
    assert "the anchor '&a'" in refusal(bomb)
    assert "the alias '*a'" in refusal(bomb)


def test_merge_keys_and_tags_run_nothing():
    assert "the tag" in refusal("title: !!python/object/apply:os.system ['touch owned']")
    assert "the alias" in refusal("a: &a {b: 1}\nc: {<<: *a}")
    assert "'%'" in refusal("%TAG ! tag:yaml.org,2002:python/\n---\na: 1")


def test_a_file_of_a_billion_digits(tmp_path):
    path = tmp_path / "case.yaml"
    with path.open("wb") as stream:
        stream.write(b"title: ")
        stream.truncate(1_000_000_000)  # a hole: it takes no room on the disk
    with pytest.raises(FileProblems, match=f"at most {LARGEST:,} bytes"):
        read(path)


@pytest.mark.parametrize("digits", [41, 400, 4_301, 1_900_000])
def test_numbers_of_many_digits(digits):
    found = read_text(f"a: {'9' * digits}", "x.yaml").data["a"]
    assert isinstance(found, str | float)
    for kind in (Kind.NUMBER, Kind.LENGTH, Kind.GAUGE_PRESSURE, Kind.TIME):
        for text in ("9" * digits, f"{'9' * digits}/3 in", f"1 {'9' * digits}/7 ft", f"{'9' * digits} psi"):
            with pytest.raises(QuantityError):
                parse(text, kind)


@pytest.mark.parametrize("opening", ["[", "{a: ", "- ", "? ", "[{a: ", "a:\n "])
def test_ten_thousand_deep_nesting(opening):
    text = "".join(f"{' ' * depth}a:\n" for depth in range(10_000)) if opening == "a:\n " else opening * 10_000
    with pytest.raises(FileProblems) as found:
        read_text(text[:LARGEST], "x.yaml")
    assert f"deeper than {DEEPEST} levels" in str(found.value) or "where a key should stand" in str(found.value)


def test_a_million_small_parts():
    assert f"more than {MOST_PARTS:,} keys and values" in refusal("[" + "a," * 999_000 + "]")


def test_a_hundred_thousand_mistakes_are_told_in_one_breath(case_file):
    with pytest.raises(FileProblems) as found:
        load_case(case_file(CASE + "  junk: x\n".join(f"  id_{i}: x\n" for i in range(20_000))), library())
    assert len(str(found.value)) < 1_000_000


def test_deep_json_in_ones_own_folder(tmp_path, monkeypatch, capsys):
    from faultdoc.app import startlist
    from faultdoc.practice.progress import ProgressError, load_progress
    from faultdoc.record.settings import Settings

    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path))
    (tmp_path / "practice").mkdir()
    for opening in ("[", '{"a":'):
        deep = opening * 100_000
        for name in ("start.json", "settings.json", "practice/anna.json"):
            (tmp_path / name).write_text(deep, encoding="utf-8")
        assert startlist.remembered() is None
        assert Settings.load().system is System.US
        with pytest.raises(ProgressError, match="cannot be understood"):
            load_progress("anna")
    assert "cannot be understood" in capsys.readouterr().err


def test_a_start_list_of_other_things_is_not_shown(tmp_path, monkeypatch):
    from faultdoc.app import startlist

    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path))
    good = {"id": "a", "title": "A", "words": {"US": "x", "SI": "y"}, "features": []}
    for spoilt in (
        {**good, "title": 7},
        {**good, "words": {"US": "x"}},
        {**good, "features": "own_pump"},
        [],
        None,
    ):
        (tmp_path / "start.json").write_text(
            json.dumps({"stamp": startlist._stamp(), "units": [spoilt], "symptoms": []}), encoding="utf-8"
        )
        assert startlist.remembered() is None


def test_huge_files_in_ones_own_folder_are_not_read_whole(tmp_path, monkeypatch, capsys):
    from faultdoc.record.settings import Settings

    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path))
    with (tmp_path / "settings.json").open("wb") as stream:
        stream.truncate(2_000_000_000)
    assert Settings.load().system is System.US
    assert "It is kept as settings.json.broken-" in capsys.readouterr().err


def test_a_log_without_end(tmp_path):
    path = tmp_path / "log.csv"
    with path.open("wb") as stream:
        stream.write(b"time,supply,compressor\n")
        stream.truncate(2_000_000_000)
    with pytest.raises(FileProblems, match="at most 5,000,000 bytes"):
        read_log(path)


def code_of(packed: bytes) -> str:
    body = bytes([0]) + sha256(b"").digest()[:4] + packed
    return "FAULTDOC1:" + spelt(body + zlib.crc32(body).to_bytes(4, "big")) + ":"


def test_a_loggers_cell_of_endless_digits(tmp_path):
    """A pattern that tries every way to part the digits would take the square of their number."""
    from faultdoc.record.sheets.log import read_log

    endless = "9" * 400_000
    rows = "".join(f"2026-01-31 12:{minute:02d}:00;{minute}.5;{endless}x;{endless}\n" for minute in range(10))
    path = tmp_path / "logger.csv"
    path.write_text("Time;Water in [C];Odd;Long\n" + rows, encoding="utf-8")
    with pytest.raises(FileProblems):  # a cell that no table has (csv's own limit)
        read_log(path)
    path.write_text(("Time;Water in [C];Odd;Long\n" + rows).replace(endless, "9" * 60_000), encoding="utf-8")
    assert read_log(path).columns == ("Water in [C]",)


def test_a_zip_bomb_in_a_code():
    deflater = zlib.compressobj(9, zlib.DEFLATED, -15)
    packed = deflater.compress(bytes(2_000_000)) + deflater.flush()
    assert len(packed) < 2_200  # it has room in one code
    with pytest.raises(CodeError, match="more than 1,000,000 bytes"):
        out_of_codes(code_of(packed))


def test_a_code_longer_than_any_that_is_printed():
    with pytest.raises(CodeError, match="damaged"):
        out_of_codes(code_of(bytes(200_000)))
    with pytest.raises(CodeError, match="more codes than"):
        out_of_codes(code_of(b"x") * 500)


# --- logic that explodes ---


def test_a_case_with_every_symptom_there_is(case_file):
    everything = ", ".join(library().trees)
    with pytest.raises(FileProblems, match=f"at most {MOST_SYMPTOMS} of them"):
        load_case(case_file(CASE.replace("symptoms: [flow_proving_trip]", f"symptoms: [{everything}]")), library())


def test_symptoms_with_more_circumstances_than_can_be_looked_through():
    """Their settings are 2^n; only those that matter to a set of causes are settled."""
    shipped = library()
    sheet = load_unit("bluff_30")
    many = [
        id for id, tree in shipped.trees.items() if tree.conditions and set(tree.applies_to) <= set(sheet.features)
    ]
    symptoms = tuple(sorted(many, key=lambda id: -len(shipped.trees[id].conditions))[:4])
    assert sum(len(shipped.trees[id].conditions) for id in symptoms) >= 18
    assert bench_for(shipped, sheet, symptoms).problem.sets.log_total < 0.0


def test_a_tree_whose_cut_sets_explode():
    gate_ids = [f"pair_{i}" for i in range(40)]
    events = [Gate(id="top_gate", title="Top", all=tuple(gate_ids))]
    events += [Gate(id=id, title=id, any=(f"{id}_a", f"{id}_b")) for id in gate_ids]
    tree = load_trees(HERE / "gates.yaml").trees["gates_all"]
    cause = tree.causes[0]
    catalogue = {f"{id}_{side}": cause for id in gate_ids for side in "ab"}
    wide = tree.model_copy(update={"top": "top_gate", "events": tuple(events), "conditions": ()})
    with pytest.raises(TreeError, match=r"more than [0-9,]+ ways"):
        minimal_cut_sets(fault_graph([wide], catalogue))


def test_a_tree_with_too_much_in_it(tmp_path):
    data = json.loads("\n".join((HERE / "gates.yaml").read_text(encoding="utf-8").split("\n")[1:]))
    data["conditions"] = [{**data["conditions"][0], "id": f"wet_{i}"} for i in range(50)]
    data["causes"] = [{**data["causes"][0], "id": f"cause_{i}"} for i in range(500)]
    (tmp_path / "tree.yaml").write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(FileProblems) as found:
        load_trees(tmp_path / "tree.yaml")
    assert "at most 12 of them" in str(found.value)
    assert "at most 300 of them" in str(found.value)


@pytest.mark.parametrize(
    ("key", "value", "words"),
    [
        ("place", "attic", "names the place 'attic'"),
        ("bring", ["crowbar"], "names the instrument 'crowbar'"),
        ("points", ["pressure_of_the_sea"], "names the measuring point 'pressure_of_the_sea'"),
        ("check", "horoscope", "names the check 'horoscope'"),
    ],
)
def test_a_tree_that_leans_on_what_is_not_there(tmp_path, key, value, words):
    data = json.loads("\n".join((HERE / "gates.yaml").read_text(encoding="utf-8").split("\n")[1:]))
    data["questions"][1][key] = value
    (tmp_path / "tree.yaml").write_text(json.dumps(data), encoding="utf-8")
    mine = Library(library().points, library().plant, load_trees(tmp_path / "tree.yaml"))
    with pytest.raises(ValueError, match=words):
        bench_for(mine, load_unit("bluff_30"), ("gates_all",))


def test_a_scenario_of_many_faults(tmp_path):
    from faultdoc.practice.scenario import read_scenario

    shipped = resources_folder() / "scenarios" / "dirty_basket.yaml"
    data = read(shipped).data
    data["faults"] = dict.fromkeys(data["faults"], 0.9) | dict.fromkeys(
        ("air_in_loop", "return_valve_shut", "glycol_too_thick"), 0.9
    )
    path = tmp_path / "scenario.yaml"
    path.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(FileProblems, match="at most 3 of them"):
        read_scenario(path)


# --- numbers that are none ---


@pytest.mark.parametrize(
    "text", [".nan", ".inf", "-.inf", "nan psi", "inf psi", "1e400 psi", "1e300 psi", "-1e16 Pa"]
)
def test_numbers_that_are_none_are_no_readings(case_file, text):
    spoilt = CASE.replace("58.5 psi ± 0.5 psi", text)
    with pytest.raises(FileProblems, match="barrel_out_pressure"):
        load_case(case_file(spoilt), library())


@pytest.mark.parametrize("text", ["5e-324 psi", "1e15 Pa", "-1e15 Pa", "0 Pa ± 1e15", "0 psi ± 0"])
def test_the_largest_and_smallest_readings_do_no_harm(case_file, text):
    case = load_case(case_file(CASE.replace("58.5 psi ± 0.5 psi", text)), library())
    looked_at = assess(bench_for(library(), load_unit(case.unit), case.symptoms), case)
    assert 0.0 <= looked_at.belief.marginal.min() <= looked_at.belief.marginal.max() <= 1.0
    assert "nan" not in report_html(looked_at, System.SI).lower().split()


# --- paths ---

PATHS = (
    "/etc/passwd", "../bluff.yaml", "units/../../x.yaml", "..\\x.yaml", "C:\\x.yaml", "C:x.yaml", "~/x.yaml",
    "//host/share/x.yaml", "\\\\host\\share\\x.yaml", "file:///etc/passwd", "/dev/zero", "/proc/self/environ",
)  # fmt: skip


@pytest.mark.parametrize("path", PATHS)
def test_a_case_opens_nothing_outside_its_folder(case_file, tmp_path, path):
    case_file(SHEET, "bluff.yaml")
    named = case_file(CASE.replace("unit: bluff_30", f"unit: '{path}'"), "inner/case.yaml")
    with pytest.raises(FileProblems, match="at or below this file's folder"):
        load_case(named, library())


def test_a_case_follows_no_link_out_of_its_folder(case_file, tmp_path):
    outside = case_file(SHEET, "elsewhere/sheet.yaml")
    named = case_file(CASE.replace("unit: bluff_30", "unit: sheet.yaml"), "inner/case.yaml")
    (named.parent / "sheet.yaml").symlink_to(outside)
    with pytest.raises(FileProblems, match="a link; allowed: a file in this file's folder"):
        load_case(named, library())


def test_a_case_opens_data_sheets_only(case_file):
    case_file("secret", "inner/id_rsa")
    named = case_file(CASE.replace("unit: bluff_30", "unit: id_rsa"), "inner/case.yaml")
    with pytest.raises(FileProblems) as found:
        load_case(named, library())
    assert "secret" not in str(found.value)


def test_a_data_sheet_elsewhere_is_copied_beside_a_saved_case(case_file, tmp_path):
    sheet = case_file(SHEET, "mine/sheet.yaml")
    case = load_case(case_file(CASE), library()).model_copy(update={"unit": str(sheet.resolve())})
    case_file("another: sheet", "sent/sheet.yaml")
    save_case(case, tmp_path / "sent" / "case.yaml")
    again = load_case(tmp_path / "sent" / "case.yaml", library())
    assert again.unit == str((tmp_path / "sent" / "sheet_2.yaml").resolve())
    assert load_unit(again.unit) == load_unit(sheet)
    assert (tmp_path / "sent" / "sheet.yaml").read_text(encoding="utf-8") == "another: sheet"


@pytest.mark.parametrize(
    "name", ["../../../tmp/x.jpg", "..\\..\\x.jpg", "/etc/x.jpg", "C:\\x.jpg", "a\x00b.jpg", "\x1b[2J.jpg", ".."]
)
def test_attachments_have_names_and_no_paths(name):
    from faultdoc.record.casebook.attachments import plain_name

    made = plain_name(name)
    assert made
    assert not set(made) & set("/\\:\x00\x1b")
    assert made not in (".", "..")


@pytest.fixture
def export(tmp_path):
    """An export of one case with a photo."""
    from faultdoc.record.casebook import CaseBook

    book = CaseBook.open(tmp_path / "cases.sqlite")
    id = book.start(load_case(resources_folder() / "cases" / "demo.yaml", library()))
    book.attach(id, "plate.jpg", b"\xff\xd8\xff\xe0 not much of a photo")
    book.export(tmp_path / "export")
    book.dispose()
    (folder,) = (path.parent for path in (tmp_path / "export").glob("*/journal.jsonl"))
    return folder


def taken_in(export: Path, tmp_path: Path):
    from faultdoc.record.casebook import CaseBook

    book = CaseBook.open(tmp_path / "other.sqlite")
    try:
        return book.import_(export)
    finally:
        assert len(book.cases()) <= 1
        book.dispose()


def test_an_export_is_taken_in(export, tmp_path):
    assert len(taken_in(export, tmp_path).new) == 1


@pytest.mark.parametrize("name", ["journal.jsonl", "contacts.json", "attachments/plate.jpg"])
def test_an_export_of_links_is_refused(export, tmp_path, name):
    from faultdoc.record.casebook import CaseBookError

    outside = tmp_path / "outside"
    found = next(export.glob("attachments/*")) if name.startswith("attachments") else export / name
    if found.exists():
        outside.write_bytes(found.read_bytes())
        found.unlink()
    else:
        outside.write_text("[]", encoding="utf-8")
    found.symlink_to(outside)
    with pytest.raises(CaseBookError, match="a link to a file elsewhere"):
        taken_in(export, tmp_path)


@pytest.mark.parametrize("name", ["journal.jsonl", "contacts.json", "attachments/plate.jpg"])
def test_an_export_without_end_is_refused(export, tmp_path, name):
    from faultdoc.record.casebook import CaseBookError

    found = next(export.glob("attachments/*")) if name.startswith("attachments") else export / name
    with found.open("ab") as stream:
        stream.truncate(3_000_000_000)
    with pytest.raises(CaseBookError, match="more than"):
        taken_in(export, tmp_path)


@pytest.mark.parametrize("file", ["../../../etc/passwd", "/etc/passwd", "a/b.jpg", "..\\x", "C:x.jpg"])
def test_an_attachment_leads_out_of_no_export(export, tmp_path, file):
    from faultdoc.record.casebook import CaseBookError

    path = export / "journal.jsonl"
    head, *rest = path.read_text(encoding="utf-8").split("\n")
    data = json.loads(head)
    data["attachments"][0]["file"] = file
    path.write_text("\n".join([json.dumps(data), *rest]), encoding="utf-8")
    with pytest.raises(CaseBookError, match="is no plain name"):
        taken_in(export, tmp_path)


@pytest.mark.parametrize("name", ["../../x", "/etc/passwd", "a/../../b", "..", "C:\\x", "x\x00y"])
def test_a_trainees_name_leads_nowhere(tmp_path, monkeypatch, name):
    from faultdoc.practice.progress import ProgressError, progress_path

    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path))
    try:
        path = progress_path(name)
    except ProgressError:
        return
    assert path.parent == tmp_path / "practice"


# --- markup ---


class _Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: dict[str, int] = {}
        self.attributes: set[str] = set()

    def handle_starttag(self, tag, attrs):
        self.tags[tag] = self.tags.get(tag, 0) + 1
        self.attributes |= {name for name, _ in attrs}


def tags_of(page: str) -> _Tags:
    parser = _Tags()
    parser.feed(page)
    return parser


FREE = {"title", "symptom", "mechanism", "source", "text", "tech", "caller", "how", "where", "instrument", "stop",
        "licence", "steps", "parts", "tools"}  # fmt: skip
"""Keys of a tree file under which a person writes what they like."""


def with_words(value, words, key=""):
    """Return a tree file's data with some words behind every free text."""
    if isinstance(value, dict):
        return {name: with_words(inside, words, name) for name, inside in value.items()}
    if isinstance(value, list):
        return [with_words(inside, words, key) for inside in value]
    return f"{value} {words}" if isinstance(value, str) and key in FREE else value


def looked_at(folder: Path, words: str):
    """A look at a case with some words in every free text of case, data sheet and tree."""
    data = json.loads("\n".join((HERE / "gates.yaml").read_text(encoding="utf-8").split("\n")[1:]))
    path = folder / "gates.yaml"
    path.write_text(json.dumps(with_words(data, words)), encoding="utf-8")
    mine = Library(library().points, library().plant, load_trees(path))
    sheet = load_unit("bluff_30")
    sheet = sheet.model_copy(update={"title": words, "refrigerant": f"R-410A {words}", "notes": (words,)})
    case = Case(
        title=words,
        unit=words,
        symptoms=("gates_all",),
        state=TRIPPED,
        who=tuple(Qualification),
        notes=(words, words),
        answers={"look_at_it": "fine"},
        tried=(Tried(cause="cause_one", proved=False, note=words),),
        conclusion=Conclusion(outcome="handed_over", cause="cause_two", proof=words, note=words),
    )
    return assess(bench_for(mine, sheet, ("gates_all",)), case)


@pytest.fixture(scope="module")
def poisoned(tmp_path_factory):
    return looked_at(tmp_path_factory.mktemp("poisoned"), MARKUP)


@pytest.fixture(scope="module")
def harmless(tmp_path_factory):
    return looked_at(tmp_path_factory.mktemp("harmless"), "harmless words")


def pages(assessment, words):
    from faultdoc.record.session import Entry

    when = datetime(2026, 1, 1, tzinfo=UTC)
    entries = [Entry("do", words, assessment.case, when, words)]
    yield "report", report_html(assessment, System.SI, entries, when, assessment.case)
    yield "kit", kit_html(best_kit(sending(assessment)), System.US, when)


def test_markup_in_any_free_text_stays_text_in_html(poisoned, harmless):
    """The pages have the same tags and attributes, as often, as those of a case without markup."""
    for (name, page), (_, plain_page) in zip(pages(poisoned, MARKUP), pages(harmless, "words"), strict=True):
        found, without = tags_of(page), tags_of(plain_page)
        assert found.tags == without.tags, name
        assert found.attributes == without.attributes, name
        assert page.count("&lt;script&gt;alert(1)") >= 5, name
        assert "{*display" not in page.replace("&gt;*{display:none}", ""), name


def test_markup_in_any_free_text_stays_text_in_pdf(poisoned, tmp_path, qapp):
    from PySide6.QtGui import QTextDocument

    from faultdoc.app.pdf import html_to_pdf

    for name, page in pages(poisoned, MARKUP):
        path = tmp_path / f"{name}.pdf"
        html_to_pdf(page, path)
        made = path.read_bytes()
        assert made.startswith(b"%PDF")
        assert not any(word in made for word in (b"/JavaScript", b"/JS", b"/Launch", b"/URI", b"/EmbeddedFile"))
        document = QTextDocument()
        document.setHtml(page)
        assert document.toPlainText().count("<script>alert(1)</script>") >= 5, name


def test_markup_stays_text_in_a_drawn_tree(poisoned):
    from faultdoc.diagnosis.drawing import tree_svg

    problem = poisoned.bench.problem
    found = tags_of(tree_svg(problem.graph, {}))
    assert not {"script", "img", "style", "foreignobject", "a"} & set(found.tags)


def test_tool_tips_show_markup_as_it_stands(qtbot):
    from PySide6.QtGui import Qt
    from PySide6.QtWidgets import QWidget

    from faultdoc.app.widgets.basic import tip
    from faultdoc.app.widgets.elided import ElidedLabel

    widget = QWidget()
    qtbot.addWidget(widget)
    for text in (MARKUP, f"a\n{MARKUP}", f"a {MARKUP}", "<b>a</b>"):
        tip(widget, text)
        shown = widget.toolTip()
        assert not Qt.mightBeRichText(shown) or set(tags_of(shown).tags) <= {"span", "br"}
    tip(widget, "Pump & motor, 3 < 5")
    assert widget.toolTip() == "Pump & motor, 3 < 5"
    assert not Qt.mightBeRichText(widget.toolTip())
    heading = ElidedLabel()
    qtbot.addWidget(heading)
    heading.put(MARKUP)
    assert set(tags_of(heading.toolTip()).tags) <= {"span"}


def test_formulas_in_tables_for_spreadsheets_are_text():
    from faultdoc.record.fleettables import Table, csv_text

    cells = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", " =1", "\r=1", "pump")
    table = Table(id="x", title="x", columns=("=head",), says="", rows=tuple((cell,) for cell in cells), empty="")
    rows = list(csv.reader(StringIO(csv_text(table))))
    assert [row[0][:1] for row in rows] == ["'"] * 8 + ["p"]


# --- what terminals and eyes are fooled by ---

ODD = ["\x1b[2J", "\x1b]0;owned\x07", "\x9b2J", "\x08", "\x7f", "\u202e", "\u2066", "\u200f", "\u061c", "\x00"]


@pytest.mark.parametrize("sign", ODD, ids=lambda sign: f"U+{ord(sign[0]):04X}")
def test_what_does_not_print_is_refused_raw_and_escaped(sign):
    words = "does not print or turns the direction of writing"
    assert words in refusal(f"title: valve {sign} shut")
    escaped = "".join(f"\\u{ord(one):04x}" for one in sign)
    told = refusal(f'title: "valve {escaped} shut"')
    assert words in told
    assert sign[0] not in told
    assert words in refusal(f'"a{escaped}": 1')


@pytest.mark.parametrize("sign", ODD, ids=lambda sign: f"U+{ord(sign[0]):04X}")
def test_what_does_not_print_is_taken_out_of_json(sign):
    case = Case(unit="bluff_30", symptoms=("unit_dead",), state=TRIPPED, who=(Qualification.CREW,))
    data = json.loads(case.model_dump_json())
    data |= {"title": f"a{sign}b", "notes": [f"a{sign}b"], "unit": f"a{sign}b"}
    found = Case.model_validate_json(json.dumps(data))
    for text in (found.title, found.notes[0], found.unit):
        assert sign[0] not in text
        assert "\ufffd" in text


def test_line_ends_and_tabs_are_text():
    assert plain("one\r\ntwo\tthree\n") == "one\ntwo\tthree\n"
    assert plain("Größe ≥ 3 °C, schön, 温度") == "Größe ≥ 3 °C, schön, 温度"


def test_nothing_commands_the_terminal(tmp_path):
    name = "\x1b]0;owned\x07\u202e.yaml"
    (tmp_path / name).write_text(CASE.replace("unit: bluff_30", "unit: gone"), encoding="utf-8")
    made = subprocess.run(
        [sys.executable, "-c", "from faultdoc.cli import main; main()", "diagnose", str(tmp_path / name)],
        capture_output=True,
        cwd=ROOT,
        env={**os.environ, "PYTHONIOENCODING": "utf-8"},
        check=False,
    )
    assert made.returncode == 1
    said = (made.stdout + made.stderr).decode()
    assert "did you mean" in said or "name one of these" in said
    assert not set(said) & {"\x1b", "\x07", "\u202e"}


def test_standard_output_is_text(capsys, monkeypatch):
    import faultdoc.terminal.treeshow as treeshow
    from faultdoc.cli import main

    monkeypatch.setattr(treeshow, "tree_list", lambda _: "valve \x1b[2J shut \u202e")
    monkeypatch.setattr(sys, "argv", ["faultdoc", "tree"])
    with pytest.raises(SystemExit):
        main()
    assert capsys.readouterr().out == "valve \ufffd[2J shut \ufffd\n"


# --- what is absurd and well formed ---


def test_checks_are_made_or_refused_on_absurd_sheets():
    from faultdoc.checks.all import make
    from faultdoc.model.base import Measured

    sheet = load_unit("bluff_30")
    water = sheet.water.model_copy(update={"design_flow": 1e15, "volume": 5e-324, "relief_pressure": -1e15})
    electrical = sheet.electrical.model_copy(update={"voltage": 0.0, "frequency": 0.0, "control_voltage": 1e15})
    absurd = sheet.model_copy(update={"water": water, "electrical": electrical})
    points = library().points
    readings = {
        id: Measured(kind=point.kind, value=0.0, text="0")
        for id, point in points.items()
        if point.kind is not Kind.CHOICE
    }
    for id in registry:
        assert make(id, absurd, readings, points) is not None

"""Every door by which data from elsewhere comes in, each as a function of bytes, with good examples to spoil.

A door may refuse with what its documentation names (`refuses`), and with nothing else. What it lets in goes on to
where it would be used: a case is assessed and printed, a data sheet checked, a tree believed in.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from faultdoc.checks.base import registry
from faultdoc.diagnosis.assess import Assessment, assess, bench_for
from faultdoc.library.calibration import load_calibrations
from faultdoc.library.load import (
    Library,
    load_case,
    load_library,
    load_plant,
    load_points,
    load_trees,
    load_unit,
)
from faultdoc.library.places import resources_folder, trees_folder
from faultdoc.library.problems import FileProblems
from faultdoc.library.source import read_text
from faultdoc.library.stock import load_stock
from faultdoc.model.case import Case
from faultdoc.model.safety import TRIPPED, Qualification
from faultdoc.quantities import Kind, QuantityError, System, parse, show

__all__ = ["DOORS", "Door", "corpus_of"]

SOME = 8
"""Of what is let in, one in so many goes all the way (by its length, so that the same input always does)."""

HERE = Path(__file__).parent
Corpus = list[tuple[bytes, Any]]


@dataclass(frozen=True)
class Door:
    """One way in.

    Attributes:
        name: for the table.
        share: of the inputs of a run, in parts of all.
        feed: takes bytes and a folder to write into.
        refuses: what it may refuse with.
        corpus: good examples.
    """

    name: str
    share: int
    feed: Callable[[bytes, Path], object]
    refuses: tuple[type[Exception], ...]
    corpus: Callable[[], Corpus]


@cache
def library() -> Library:
    """The shipped library, read once."""
    return load_library()


def _data(text: str) -> Any:
    return read_text(text, "corpus").data


def _files(*paths: Path) -> Corpus:
    return [(path.read_bytes(), _data(path.read_text(encoding="utf-8"))) for path in paths]


def _put(data: bytes, folder: Path, name: str) -> Path:
    path = folder / name
    path.write_bytes(data)
    return path


# --- cases, and what comes of them ---


def _case(data: bytes, folder: Path) -> object:
    case = load_case(_put(data, folder, "case.yaml"), library())
    assessment = assess(_bench(case.unit, case.symptoms), case)
    return _printed(assessment) if len(data) % SOME == 0 else assessment.next.text


def _printed(assessment: Assessment) -> object:
    from faultdoc.record.kit import KitError, kit_lines
    from faultdoc.record.report import report_html
    from faultdoc.terminal.text import diagnosis_text

    try:
        said = (diagnosis_text(assessment, System.US), *kit_lines(assessment, System.SI))
    except KitError as problem:
        said = (str(problem),)
    page = report_html(assessment, System.SI)
    if "<script>alert" in page or "<img src=x" in page or "</style><style>" in page:
        raise AssertionError("markup of a case stands in its report as markup")
    return said


@cache
def _bench(unit: str, symptoms: tuple[str, ...]) -> Any:
    return bench_for(library(), load_unit(unit), symptoms)


@cache
def _cases() -> Corpus:
    return _files(*sorted((resources_folder() / "cases").glob("*.yaml")), HERE / "full_case.yaml")


def _row(data: bytes, folder: Path) -> object:
    """A case as the case book and hand-overs keep it: JSON."""
    from faultdoc.record.casebook.rows import case_from

    case = case_from(data.decode("utf-8", "replace"), 1)
    return case


@cache
def _rows() -> Corpus:
    found = []
    for path in sorted((resources_folder() / "cases").glob("*.yaml")):
        text = load_case(path, library()).model_dump_json()
        found.append((text.encode(), json.loads(text)))
    return found


# --- trees ---


def _tree(data: bytes, folder: Path) -> object:
    from faultdoc.diagnosis.cutsets import minimal_cut_sets
    from faultdoc.library.lint import lint

    catalogue = load_trees(_put(data, folder, "tree.yaml"))
    mine = Library(library().points, library().plant, catalogue)
    lint(mine, {})
    (tree,) = catalogue.trees.values()
    case = Case(unit="bluff_30", symptoms=(tree.id,), state=TRIPPED, who=tuple(Qualification))
    bench = bench_for(mine, load_unit("bluff_30"), (tree.id,))
    minimal_cut_sets(bench.problem.graph)
    return assess(bench, case).next.text


@cache
def _trees() -> Corpus:
    small = (HERE.parent / "app" / "small.yaml", HERE / "gates.yaml")
    cut = []
    for path in sorted(trees_folder().glob("*.yaml"))[:4]:
        data = _data(path.read_text(encoding="utf-8"))
        data["causes"], data["questions"] = data["causes"][:4], data["questions"][:4]
        cut.append((json.dumps(data).encode(), data))
    return _files(*small) * 3 + cut


# --- data sheets ---


def _unit(data: bytes, folder: Path) -> object:
    from faultdoc.checks.lint_units import lint_unit
    from faultdoc.terminal.units import unit_text

    path = _put(data, folder, "sheet.yaml")
    sheet = load_unit(path)
    if len(data) % SOME == 0:
        unit_text(str(path), System.US)
        lint_unit(sheet)
    readings = _readings()
    from faultdoc.checks.all import make

    for place, id in enumerate(registry):
        if (place + len(data)) % SOME == 0:
            make(id, sheet, readings, library().points)
    return sheet


@cache
def _readings() -> dict[str, Any]:
    from faultdoc.checks.all import split_readings

    found = {}
    for path in sorted((resources_folder() / "cases").glob("*.yaml")):
        found.update(split_readings(load_case(path, library()).readings)[0])
    return found


def _sheets() -> Corpus:
    return _files(*sorted((resources_folder() / "units").glob("*.yaml")))


# --- what else is YAML ---


def _scenario(data: bytes, folder: Path) -> object:
    from faultdoc.practice.scenario import read_scenario

    return read_scenario(_put(data, folder, "scenario.yaml"))


def _calibration(data: bytes, folder: Path) -> object:
    inside = folder / "calibration"
    inside.mkdir(exist_ok=True)
    _put(data, inside, "unit_dead.yaml")
    return load_calibrations(library().catalogue, inside)


# --- JSON and CSV of one's own folder ---


def _home(folder: Path) -> None:
    os.environ["FAULTDOC_HOME"] = str(folder)


def _settings(data: bytes, folder: Path) -> object:
    from contextlib import redirect_stderr
    from io import StringIO

    from faultdoc.record.settings import Settings

    _home(folder)
    for old in folder.glob("settings.json*"):
        old.unlink()
    _put(data, folder, "settings.json")
    with redirect_stderr(StringIO()):
        return Settings.load()


def _start_list(data: bytes, folder: Path) -> object:
    from faultdoc.app import startlist

    _home(folder)
    _put(data.replace(b"STAMP", startlist._stamp().encode()), folder, "start.json")
    return startlist.remembered()


def _progress(data: bytes, folder: Path) -> object:
    from faultdoc.practice.progress import load_progress

    _home(folder)
    (folder / "practice").mkdir(exist_ok=True)
    _put(data, folder, "practice/anna.json")
    return load_progress("anna")


def _log(data: bytes, folder: Path) -> object:
    from faultdoc.terminal.timers import log_text, read_log

    return log_text(load_unit("bluff_30"), read_log(_put(data, folder, "log.csv")))


def _in_json(*examples: Any) -> Corpus:
    return [(json.dumps(one).encode(), one) for one in examples]


_SETTINGS = {
    "system": "SI",
    "emergency_numbers": ["112"],
    "last_unit": "bluff_30",
    "station": "desk-4f2a",
    "case_book": None,
}
_START = {
    "stamp": "STAMP",
    "units": [
        {"id": "bluff_30", "title": "Bluff", "words": {"US": "30 ton", "SI": "105 kW"}, "features": ["own_pump"]}
    ],
    "symptoms": [{"id": "unit_dead", "symptom": "No light", "title": "Dead", "applies_to": []}],
}
_PROGRESS = {
    "trainee": "anna",
    "results": [
        {"scenario": "cold_feet", "level": 1, "tree": "unit_dead", "systems": ["water"], "solved": True,
         "score": 80, "minutes": 30.0, "par": 40, "mistakes": {"hints": 1}},
    ],
}  # fmt: skip
_LOG = (
    b"time,supply,compressor_1,compressor_2\n2026-03-01 06:00,on,,\n2026-03-01 14:05,,on,\n"
    b"2026-03-01 14:15:30,,off,on\n2026-03-01 15:00,off,,\n"
)

# --- typed, and the case book's file ---


def _typed(data: bytes, folder: Path) -> object:
    """Understood as every kind there is; refused when it is none of them."""
    text = data.decode("utf-8", "replace")
    found = None
    for kind in Kind:
        if kind is not Kind.CHOICE:
            try:
                quantity = parse(text, kind, System.SI)
            except QuantityError as problem:
                refusal = problem
                continue
            found = quantity.echo(System.US), quantity.written, show(quantity.value, kind, System.SI)
    if found is None:
        raise refusal
    return found


def _typed_examples() -> Corpus:
    texts = (
        "42F",
        "62 psi ± 1",
        "5,5 bar",
        "2' 6\"",
        "1 h 20 min",
        "1:20",
        "68.0 ± 1.8 °F",
        "30 inHg",
        "1.5 Mohm",
        "2 1/2 in",
        "7 gpm +/- 2 %",
    )
    return [(text.encode(), None) for text in texts]


def _book(data: bytes, folder: Path) -> object:
    from faultdoc.record.casebook import CaseBook

    for old in folder.glob("cases.sqlite*"):
        old.unlink()
    book = CaseBook.open(_put(data, folder, "cases.sqlite"))
    try:
        for summary in book.cases():
            book.load(summary.id)
    finally:
        book.dispose()
    return None


@cache
def _books() -> Corpus:
    import tempfile

    from faultdoc.record.casebook import CaseBook
    from faultdoc.record.session import Entry

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "cases.sqlite"
        book = CaseBook.open(path)
        case = load_case(resources_folder() / "cases" / "demo.yaml", library())
        id = book.start(case)
        book.add_all(id, [Entry("do", "Noted", case.model_copy(update={"notes": ("a note",)}))])
        book.dispose()
        return [(path.read_bytes(), None)]


# --- hand-overs ---


def _hand_over(data: bytes, folder: Path) -> object:
    from faultdoc.record.handover.file import read_hand_over
    from faultdoc.record.handover.form import entries_of

    received = read_hand_over(_put(data, folder, "case.handover.yaml"))
    return received.hand_over.case, entries_of(received.hand_over)


def _code(data: bytes, folder: Path) -> object:
    from faultdoc.record.handover.file import understand

    return understand(data.decode("utf-8", "replace"), "pasted")


@cache
def _hand_over_made() -> Any:
    """A hand-over of a demo case with a journal, an attachment and a data sheet."""
    import base64
    from datetime import UTC, datetime
    from hashlib import sha256

    from faultdoc.record.handover.form import FORMAT, Attached, HandOver, PointWords, Sent, lines_of
    from faultdoc.record.handover.prints import Prints
    from faultdoc.record.session import Entry

    when = datetime(2026, 1, 31, 12, tzinfo=UTC)
    case = load_case(resources_folder() / "cases" / "demo.yaml", library())
    fuller = case.model_copy(update={"notes": ("a note",), "answers": {**case.answers, "pump_sound": "smooth"}})
    entries = (Entry("do", "Noted", fuller, when, "desk-1"), Entry("undo", "Noted", case, when, "desk-1"))
    photo = b"\xff\xd8\xff\xe0 not much of a photo"
    points = library().points
    return HandOver(
        format=FORMAT,
        sent=Sent(at=when, by="desk-1", faultdoc="0"),
        uid="0123456789abcdef" * 2,
        start=case,
        journal=lines_of(case, entries),
        belief={"strainer_clogged": 0.5},
        points={id: PointWords(kind=points[id].kind, title=points[id].title) for id in case.readings},
        prints=Prints(trees={}, plant="", sheet=""),
        sheet=load_unit("bluff_30"),
        attachments=(
            Attached(name="plate.jpg", media_type="image/jpeg", size=len(photo), sha256=sha256(photo).hexdigest(),
                     data=base64.b64encode(photo).decode()),
        ),
    )  # fmt: skip


@cache
def _hand_overs() -> Corpus:
    from faultdoc.record.handover.file import hand_over_text

    text = hand_over_text(_hand_over_made())
    return [(text.encode(), _data(text))]


@cache
def _codes() -> Corpus:
    from faultdoc.record.handover.file import code_texts

    return [("\n".join(code_texts(_hand_over_made(), own_sheet=False)).encode(), None)]


def _import(data: bytes, folder: Path) -> object:
    """The journal of an export; what comes beside it is in `test_attacks.py`."""
    from faultdoc.record.casebook.plainfiles import read_case_files

    inside = folder / "case"
    inside.mkdir(exist_ok=True)
    _put(data, inside, "journal.jsonl")
    return read_case_files(inside)


@cache
def _exports() -> Corpus:
    import tempfile
    from datetime import UTC, datetime

    from faultdoc.record.casebook.plainfiles import CaseFiles, write_case_files
    from faultdoc.record.session import Entry

    when = datetime(2026, 1, 31, 12, tzinfo=UTC)
    case = load_case(resources_folder() / "cases" / "demo.yaml", library())
    noted = Entry("do", "Noted", case.model_copy(update={"notes": ("a note",)}), when, "desk-1")
    with tempfile.TemporaryDirectory() as folder:
        inside = Path(folder) / "case"
        write_case_files(CaseFiles(inside, "0123456789abcdef" * 2, when, None, False, case, [noted], None, ()))
        return [((inside / "journal.jsonl").read_bytes(), None)]


def _logger(data: bytes, folder: Path) -> object:
    from faultdoc.record.sheets.log import read_log
    from faultdoc.record.sheets.mapping import guessed, series

    log = read_log(_put(data, folder, "logger.csv"))
    points = library().points
    columns = guessed(log, points, System.SI)
    return series(log, columns, points)


def _pasted(data: bytes, folder: Path) -> object:
    from faultdoc.record.sheets.rows import pasted

    return pasted(data.decode("utf-8", "replace"), library().points)


_LOGGER = (
    "Plant log\nDate;Time;Water in [\u00b0C];Water out [\u00b0C];Suction [kPa]\n"
    + "".join(f"31.01.2026;12:{i:02d}:00;{12 + i / 10:.1f};{7 - i / 20:.1f};{800 + 3 * i}\n" for i in range(30))
).encode()
_SHEET = b"Water flow\t58\tgpm\nWater in\t54 F\nSuction pressure, circuit A\t118\tpsig\nsomething\t3\n"


def _refusals() -> Iterator[Door]:
    from faultdoc.practice.progress import ProgressError
    from faultdoc.record.casebook import CaseBookError

    resources = resources_folder()
    # A case whose symptoms do not go with its unit is refused by the bench, with a ValueError; see `bench_for`.
    yield Door("case file", 5, _case, (FileProblems, ValueError), _cases)
    yield Door("fault tree", 6, _tree, (FileProblems, ValueError), _trees)
    yield Door("data sheet", 5, _unit, (FileProblems,), _sheets)
    yield Door(
        "scenario",
        3,
        _scenario,
        (FileProblems,),
        lambda: _files(*sorted((resources / "scenarios").glob("*.yaml"))),
    )
    yield Door(
        "calibrated rows",
        5,
        _calibration,
        (FileProblems,),
        lambda: _files(resources / "calibration" / "unit_dead.yaml"),
    )
    yield Door("plant", 5, lambda data, folder: load_plant(_put(data, folder, "plant.yaml")), (FileProblems,),
               lambda: _files(resources / "plant.yaml"))  # fmt: skip
    yield Door(
        "points", 4, lambda data, folder: load_points(_put(data, folder, "points.yaml")), (FileProblems,), _points
    )
    yield Door("stock", 5, _stock, (FileProblems,), _stocks)
    yield Door("hand-over file", 6, _hand_over, (FileProblems,), _hand_overs)
    yield Door("hand-over codes", 8, _code, (FileProblems,), _codes)
    yield Door("case as kept", 8, _row, (CaseBookError,), _rows)
    yield Door("case book file", 1, _book, (CaseBookError,), _books)
    yield Door("settings", 5, _settings, (), lambda: _in_json(_SETTINGS))
    yield Door("start list", 5, _start_list, (), lambda: _in_json(_START))
    yield Door("progress", 5, _progress, (ProgressError,), lambda: _in_json(_PROGRESS))
    yield Door("switching log", 7, _log, (FileProblems, ValueError), lambda: [(_LOG, None)])
    yield Door("export's journal", 4, _import, (CaseBookError,), _exports)
    yield Door("logger's file", 4, _logger, (FileProblems,), lambda: [(_LOGGER, None)])
    yield Door("pasted readings", 4, _pasted, (), lambda: [(_SHEET, None)])
    yield Door("typed quantity", 5, _typed, (QuantityError,), _typed_examples)


@cache
def _points() -> Corpus:
    data = _data((resources_folder() / "points.yaml").read_text(encoding="utf-8"))
    data["points"] = data["points"][:12]
    return [(json.dumps(data).encode(), data)]


def _stock(data: bytes, folder: Path) -> object:
    load_stock.cache_clear()
    try:
        return load_stock(_put(data, folder, "stock.yaml"))
    finally:
        load_stock.cache_clear()


@cache
def _stocks() -> Corpus:
    data = _data((resources_folder() / "stock.yaml").read_text(encoding="utf-8"))
    data["kinds"] = [*data["kinds"][:12], data["kinds"][-1]]
    data["combined"] = [{"part": "Two", "all": [data["kinds"][0]["id"], data["kinds"][1]["id"]]}]
    return [(json.dumps(data).encode(), data)]


DOORS: tuple[Door, ...] = tuple(_refusals())


def corpus_of(door: Door) -> Corpus:
    """Return the good examples of a door, after seeing that it lets them in."""
    return door.corpus()

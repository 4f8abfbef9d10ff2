"""`faultdoc fleet` on the case book's own cases."""

import csv
import json
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner

sys.path.insert(0, str(Path(__file__).parents[1] / "record"))
from cases import Story

from faultdoc.cli import app
from faultdoc.library.load import load_library
from faultdoc.record.casebook import CaseBook
from faultdoc.terminal import fleet

runner = CliRunner()


@pytest.fixture(scope="module")
def shipped():
    return load_library(learned=False)


@pytest.fixture(autouse=True)
def _quick(shipped, monkeypatch):
    monkeypatch.setattr(fleet, "load_library", lambda: shipped)


def run(*words, code=0):
    result = runner.invoke(app, ["fleet", *words])
    assert result.exit_code == code, (result.output, result.exception)
    return result.output


def test_an_empty_book_says_so():
    said = run()
    for words in ("No case is open.", "There are no cases.", "No case was closed."):
        assert words in said


def test_text_json_and_csv_say_the_same(tmp_path):
    book = CaseBook.open()
    Story("site_one", title="=cmd()").fix("strainer_clogged").conclude().keep(book)
    Story("site_two", title="Waits").answer("valves_at_unit", "both_open").keep(book, closed=False)
    book.dispose()
    told = json.loads(run("--json"))
    assert [row["Case"] for row in told["open"]] == ["2: Waits"]
    assert told["open"][0]["Waits for"] == "people at the unit"
    assert told["first"][0]["Fixed at the first go"] == 1
    assert "Strainer clogged" in told["causes"][0]
    assert "Waits" in run()
    assert json.loads(run("--json", "--unit", "site_one"))["open"] == []
    assert json.loads(run("--json", "--until", "2020-01-01"))["units"] == []
    run("--since", "yesterday", code=2)
    run("--csv", str(tmp_path / "out"))
    names = sorted(path.name for path in (tmp_path / "out").iterdir())
    assert names == ["causes.csv", "first.csv", "minutes.csv", "open.csv", "units.csv"]
    with (tmp_path / "out" / "open.csv").open(encoding="utf-8-sig", newline="") as stream:
        head, row = csv.reader(stream)
    assert dict(zip(head, row, strict=True)) == told["open"][0]

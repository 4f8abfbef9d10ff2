"""`faultdoc learn`: from closed cases to values in force, to another machine, and back."""

import json
import sys
from datetime import timedelta
from pathlib import Path

import pytest
from typer.testing import CliRunner

sys.path.insert(0, str(Path(__file__).parents[1] / "record"))
from cases import FIRST, Story, own_unit

from faultdoc.cli import app
from faultdoc.library.learned import learned_folder, load_learned
from faultdoc.library.load import load_library
from faultdoc.record import accepting
from faultdoc.record.casebook import CaseBook
from faultdoc.record.learning import library_with
from faultdoc.terminal.learn import LearnError

runner = CliRunner()


def run(*words, code=0):
    result = runner.invoke(app, ["learn", *words])
    assert result.exit_code == code, (result.output, result.exception)
    return result.output


@pytest.fixture(scope="module")
def shipped():
    return load_library(learned=False)


@pytest.fixture(autouse=True)
def _quick(shipped, monkeypatch):
    """The trees without anything learned are the same for every command: they are read once."""
    monkeypatch.setattr(accepting, "load_library", lambda learned: shipped)


def in_force(shipped, cause):
    """Return the rate that is in force, as the next start would have it."""
    return library_with(shipped, load_learned(shipped.catalogue)[0]).causes[cause].rate


@pytest.fixture
def fleet():
    """Thirty cases of thirty units: the return valve shut in most, and the eye missing it half the time."""
    book = CaseBook.open()
    for number in range(30):
        own_unit(f"site_{number}")
        story = Story(f"site_{number}", title=f"Case {number}", at=FIRST + timedelta(days=number))
        cause = "return_valve_shut" if number % 3 else "strainer_clogged"
        seen = ("both_open", "return_shut")[number % 2] if number % 3 else "both_open"
        story.answer("valves_at_unit", seen).fix(cause).conclude().keep(book)
    Story("bluff_30", title="Demo").fix("strainer_clogged").conclude().keep(book)
    book.dispose()


def test_with_no_cases_it_says_what_to_do():
    assert "0 closed cases" in run()
    assert "Close cases with their fix proved" in run()
    assert "nothing was accepted" in run("accept", "--all")
    assert "nothing is forgotten" in run("forget", "--all")
    run("accept", code=2)
    with pytest.raises(LearnError, match="nothing to carry"):
        runner.invoke(app, ["learn", "export", "x.yaml"], catch_exceptions=False)


def test_from_cases_to_values_in_force_and_back(fleet, shipped, tmp_path):
    before = shipped.causes["return_valve_shut"].rate
    said = json.loads(run("--json"))
    assert (said["cases"], said["left_out"]) == (30, [{"title": "Demo", "reason": "on a demo unit"}])
    lines = {line["id"]: line for line in said["lines"]}
    rate = lines["rate:return_valve_shut"]
    (value,) = rate["values"]
    assert rate["more_than_noise"]
    assert "found 20 times in 30 cases" in rate["counted"]
    assert value["before"] == before < value["low"] < value["after"] < value["high"]
    row = lines["row:valves_at_unit:return_valve_shut"]
    assert row["cases"] == 20
    assert row["more_than_noise"]
    assert not learned_folder().exists(), "showing changes nothing"
    text = run()
    assert "[rate:return_valve_shut]" in text
    assert "more than noise" in text
    assert "[rate:start_allowance_short]" in run("--every")

    assert "1 line accepted" in run("accept", "rate:return_valve_shut")
    assert load_library().causes["return_valve_shut"].rate == value["after"]
    assert "accepted" in run("--every")
    run("accept", "--all")
    kept = learned_folder() / "flow_proving_trip.yaml"
    text = kept.read_text(encoding="utf-8")
    assert "valves_at_unit" in text
    # The file may travel, so it says nothing of where the cases were.
    out = tmp_path / "out.yaml"
    assert "no names, no site" in run("export", str(out))
    assert "site_" not in text + out.read_text(encoding="utf-8")
    assert "Case " not in out.read_text(encoding="utf-8")

    assert "forgotten: rate:return_valve_shut" in run("forget", "rate:return_valve_shut")
    assert in_force(shipped, "return_valve_shut") == before
    run("forget", "--all")
    assert not kept.exists()
    with pytest.raises(LearnError, match="return_valve_shut"):
        runner.invoke(app, ["learn", "accept", "rate:return_valve_shu"], catch_exceptions=False)


def test_another_machine_takes_it_in_and_adds_its_own_cases(fleet, shipped, tmp_path, monkeypatch):
    run("accept", "--all")
    out = tmp_path / "out.yaml"
    run("export", str(out))
    first = in_force(shipped, "return_valve_shut")

    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "other"))
    assert "would change; nothing has been changed" in run("import", str(out), "--look")
    assert not learned_folder().exists()
    said = run("import", str(out))
    assert "rate:return_valve_shut:" in said
    assert in_force(shipped, "return_valve_shut") == first
    assert "changes nothing" in run("import", str(out)), "the same file twice counts once"

    # Ten cases of its own, all of another cause: counted beside those that came.
    book = CaseBook.open()
    for number in range(10):
        own_unit(f"here_{number}")
        Story(f"here_{number}").answer("valves_at_unit", "both_open").fix("strainer_clogged").conclude().keep(book)
    book.dispose()
    lines = {line["id"]: line for line in json.loads(run("--json"))["lines"]}
    assert "found 20 times in 40 cases" in lines["rate:return_valve_shut"]["counted"]
    assert lines["rate:return_valve_shut"]["values"][0]["after"] < first
    assert "found 10 times in 10 cases" in lines["rate:strainer_clogged"]["counted"], "it did not come along"


def test_cases_in_both_case_books_count_once(fleet, tmp_path):
    run("accept", "--all")
    out = tmp_path / "out.yaml"
    run("export", str(out))
    run("forget", "--all")
    # Back into the machine they came from: what comes has our own cases in it.
    run("import", str(out))
    lines = {line["id"]: line for line in json.loads(run("--json"))["lines"]}
    assert "in 30 cases" in lines["rate:return_valve_shut"]["counted"]


def test_a_file_with_mistakes_is_refused_with_its_line(tmp_path):
    from faultdoc.library.problems import FileProblems

    path = tmp_path / "bad.yaml"
    path.write_text('version: 1\nfaultdoc: 0.1.0\non: "2026-11-25"\ntrees:\n  - tree: 7\n', encoding="utf-8")
    with pytest.raises(FileProblems) as caught:
        runner.invoke(app, ["learn", "import", str(path)], catch_exceptions=False)
    assert {problem.line for problem in caught.value.problems} == {5}

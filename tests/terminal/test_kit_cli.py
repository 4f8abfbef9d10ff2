"""`faultdoc kit`: what it prints, and what it refuses."""

import json

import pytest
from typer.testing import CliRunner

from faultdoc.cli import app, main
from faultdoc.library.places import resources_folder

DEMO = str(resources_folder() / "cases" / "demo.yaml")


def run(*arguments):
    return CliRunner().invoke(app, ["kit", *arguments])


def test_text():
    made = run(DEMO, "--si")
    assert made.exit_code == 0
    for words in ("Chance of a fix on the first visit:", "Send\n  1. ", "Take\n  1. ", "Next best to add",
                  "Not served by this visit", "See that these are on the van"):  # fmt: skip
        assert words in made.output
    assert all(len(line) < 80 for line in made.output.splitlines())


def test_limits_are_taken():
    made = run(DEMO, "--json", "--kg", "30", "--litres", "60", "--items", "4", "--people", "1",
               "--who", "electrical_worker+refrigerant_handler")  # fmt: skip
    found = json.loads(made.output)
    assert found["limits"] == {"kg": 30.0, "litres": 60.0, "items": 4, "people": 1}
    assert found["load"]["kg"] <= 30.0
    assert found["load"]["items"] <= 4
    assert [one["who"] for one in found["people"]] == [["electrical_worker", "refrigerant_handler"]]


def test_what_has_come_is_taken():
    room = ("--json", "--kg", "300", "--litres", "2000", "--items", "40")
    before, after = (json.loads(run(DEMO, *room, *more).output) for more in ((), ("--have", "input_board")))
    assert "input_board" not in {one["id"] for one in before["take"]}
    assert "input_board" in {one["id"] for one in after["take"]}
    assert after["chance"] > before["chance"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [(("--who", "electrician"), "no qualification"), (("--have", "hand_tools"), "need not be ordered")],
)
def test_wrong_wishes_are_told(monkeypatch, capsys, arguments, words):
    monkeypatch.setattr("sys.argv", ["faultdoc", "kit", DEMO, *arguments])
    with pytest.raises(SystemExit) as ended:
        main()
    assert ended.value.code == 1
    assert words in capsys.readouterr().err

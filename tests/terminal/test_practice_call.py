from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner

from faultdoc.cli import app
from faultdoc.library.load import load_library
from faultdoc.practice.debrief import Debrief
from faultdoc.practice.progress import load_progress
from faultdoc.practice.scenario import load_scenarios, read_scenario
from faultdoc.record.settings import Settings
from faultdoc.terminal.practice import run


def typed(lines: list[str], told: list[str]) -> Callable[[str], str]:
    left = iter(lines)

    def ask(prompt: str) -> str:
        told.append(prompt)
        line = next(left, None)
        if line is None:
            raise EOFError
        told.append(line)
        return line

    return ask


def play(id: str, lines: list[str], **how: object) -> tuple[Debrief | None, str]:
    told: list[str] = []
    found = run(
        typed(lines, told),
        told.append,
        load_scenarios()[id],
        load_library(),
        Settings(),
        **how,  # type: ignore[arg-type]
    )
    return found, "\n".join(told)


def test_a_call_is_walked_to_its_proved_end(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.txt"
    found, told = play(
        "dirty_basket",
        [
            "help",
            "hold it upside down",
            "undo",
            "do compressors start",
            "understood",
            "do start_pump",
            "understood",
            "read strainer_pressure_drop",
            "unit",
            "units",
            "state",
            "do stop_pump",
            "do depressurise_water",
            "understood",
            "fix strainer_clogged",
            "understood",
            "do refill_water",
            "understood",
            "wait soon",
            "wait 2",
            "hint",
            "do start_pump",
            "no",
            "do start_pump",
            "understood",
            "prove",
            "understood",
        ],
        trainee="Ann",
        sheet=sheet,
    )
    assert found is not None
    assert found.solved
    assert len(found.unsafe) == 1
    assert found.hints == 1
    for words in (
        "Dispatcher: A paper mill",
        "'hold it upside down' is not understood",
        "Nothing can be undone",
        "WARNING: ",
        "UNSAFE: Compressors without water flow",
        "Left undone.",
        "'soon' is not understood",
        "the fix is proved",
        "RESULT SHEET",
        "Next: ",
    ):
        assert words in told
    assert "Trainee: Ann" in sheet.read_text(encoding="utf-8")
    assert [one.scenario for one in load_progress("Ann").results] == ["dirty_basket"]


def test_words_that_fit_several_things_are_chosen_from_by_number() -> None:
    _, told = play(
        "dirty_basket", ["look burnt", "read outdoor", "read nothing of the sort", "look", "1", "give up"]
    )
    assert "Nothing here has the words 'nothing of the sort'" in told
    assert "What do you look at?" in told
    assert "Handed over unsolved." in told


def test_who_leaves_early_keeps_nothing() -> None:
    found, told = play("dirty_basket", ["do start_pump", "understood"], trainee="Ann")
    assert found is None
    assert "nothing of it is kept" in told
    assert load_progress("Ann").results == ()


def test_the_command_lists_scenarios_by_level() -> None:
    shown = CliRunner().invoke(app, ["practice", "--list"])
    assert shown.exit_code == 0
    assert all(id in shown.output for id in load_scenarios())


def test_the_command_plays_and_prints_a_sheet(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.html"
    args = ["practice", "valve_left_shut", "--trainee", "Bo", "--sheet", str(sheet)]
    shown = CliRunner().invoke(app, args, input="give up\n")
    assert shown.exit_code == 0, shown.output
    assert "<pre>RESULT SHEET" in sheet.read_text(encoding="utf-8")
    assert load_progress("Bo").results[0].scenario == "valve_left_shut"


def test_an_instructor_sets_a_fault_by_hand_and_writes_it(tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    args = ["practice", "--write", str(path), "--unit", "bluff_30", "--tree", "flow_proving_trip"]
    shown = CliRunner().invoke(app, [*args, "--fault", "strainer_clogged=0.8", "--briefing", "It stops."])
    assert shown.exit_code == 0, shown.output
    hidden = read_scenario(path)
    assert (hidden.id, hidden.faults, hidden.briefing) == ("mine", {"strainer_clogged": 0.8}, "It stops.")
    again = CliRunner().invoke(app, ["practice", str(path)], input="give up\n")
    assert "Strainer" in again.output


@pytest.mark.parametrize(
    "args",
    [
        ["--write", "x.yaml"],
        ["--unit", "bluff_30"],
        ["dirty_basket", "--unit", "bluff_30", "--tree", "high_head", "--fault", "coil_inlet_covered=1"],
        ["--unit", "bluff_30", "--tree", "high_head", "--fault", "coil_inlet_covered"],
        ["--level", "9"],
    ],
)
def test_a_wrong_command_line_is_refused(args: list[str]) -> None:
    assert CliRunner().invoke(app, ["practice", *args]).exit_code == 2


def test_an_unknown_scenario_is_refused_with_what_is_meant() -> None:
    shown = CliRunner().invoke(app, ["practice", "dirty_baskets"])
    assert "did you mean 'dirty_basket'" in str(shown.exception)

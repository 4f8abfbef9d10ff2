from pathlib import Path

import pytest

from faultdoc.library.load import load_library
from faultdoc.library.problems import FileProblems
from faultdoc.practice.scenario import (
    LEVELS,
    brings_about,
    by_hand,
    load_scenarios,
    random_scenario,
    read_scenario,
    save_scenario,
)
from faultdoc.simulator.faults import FAULTS

GOOD = """\
id: made_up
title: A call
level: 1
unit: bluff_30
tree: flow_proving_trip
faults:
  strainer_clogged: 0.8
site:
  ambient: 30 °C
briefing: It stops.
teaches: Something.
minutes: 60
"""


def test_there_are_enough_scenarios_of_every_level_system_and_many_trees() -> None:
    scenarios = load_scenarios().values()
    causes = load_library().causes
    assert len(scenarios) >= 25
    assert min(sum(one.level == level for one in scenarios) for level in LEVELS) >= 8
    systems = {causes[id].system.value for one in scenarios for id in one.faults}
    assert systems >= {"water", "refrigerant", "electrical", "control"}
    assert len({one.tree for one in scenarios}) >= 15
    assert {one.unit for one in scenarios} == {"bluff_30", "marten_60", "tarn_120"}


def test_the_third_level_has_what_is_hardest() -> None:
    hard = [one for one in load_scenarios().values() if one.level == 3]
    assert any(len(one.faults) == 2 for one in hard)
    assert any(FAULTS[id].comes_and_goes for one in hard for id in one.faults)
    assert any("own_meter_wrong" in one.faults for one in hard)
    assert any("suction_transducer_drifted" in one.faults for one in hard)


@pytest.mark.parametrize("id", load_scenarios())
def test_the_faults_of_a_shipped_scenario_bring_its_symptom_about(id: str) -> None:
    assert brings_about(load_scenarios()[id])


def test_a_fault_that_does_not_bring_the_symptom_about_is_no_scenario(tmp_path: Path) -> None:
    path = tmp_path / "made_up.yaml"
    path.write_text(GOOD.replace("strainer_clogged", "coil_dirty_outside"), encoding="utf-8")
    with pytest.raises(FileProblems, match=r"made_up.yaml:7:.*no cause of 'flow_proving_trip'"):
        read_scenario(path)


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ("bluff_30", "bluf_30", 4, "did you mean 'bluff_30'"),
        ("flow_proving_trip", "flow_proving", 5, "did you mean 'flow_proving_trip'"),
        ("strainer_clogged: 0.8", "strainer_cloged: 0.8", 7, "did you mean 'strainer_clogged'"),
        ("strainer_clogged: 0.8", "strainer_clogged: 0.1", 7, "allowed: 0.5 to 1"),
        ("strainer_clogged: 0.8", "strainer_clogged: 2", 7, "allowed: 0.5 to 1"),
        ("ambient: 30 °C", "ambient: 30 psi", 9, "temperature"),
        ("ambient: 30 °C", "ambience: 30 °C", 9, "did you mean 'ambient'"),
        ("level: 1", "level: 4", 3, "1 to 3"),
        ("title: A call", "name: A call", 2, "title"),
        (
            "minutes: 60",
            "minutes: 60\nstate: {supply: isolated, panel: closed, pump: running, water: pressurised, "
            "compressors: stopped, oil: cold}",
            13,
            "a state that cannot be",
        ),
    ],
)
def test_a_mistake_in_a_scenario_file_is_told_with_its_line_and_a_remedy(
    tmp_path: Path, old: str, new: str, line: int, words: str
) -> None:
    path = tmp_path / "made_up.yaml"
    path.write_text(GOOD.replace(old, new), encoding="utf-8")
    with pytest.raises(FileProblems) as refused:
        read_scenario(path)
    told = [problem for problem in refused.value.problems if problem.line == line]
    assert told
    assert any(words in str(problem) and problem.remedy for problem in told)


def test_a_scenario_set_by_hand_is_read_back_as_it_was_written(tmp_path: Path) -> None:
    hidden = by_hand(
        "bluff_30", "flow_proving_trip", {"strainer_clogged": 0.8}, id="made_up", briefing="It stops."
    )
    save_scenario(hidden, tmp_path / "made_up.yaml")
    assert read_scenario(tmp_path / "made_up.yaml") == hidden


def test_a_severity_beyond_one_is_refused_when_set_by_hand() -> None:
    with pytest.raises(FileProblems, match=r"^set by hand: faults.strainer_clogged: .*allowed: 0\.5 to 1"):
        by_hand("bluff_30", "flow_proving_trip", {"strainer_clogged": 1.5})


@pytest.mark.parametrize("level", LEVELS)
def test_a_random_scenario_is_the_same_for_its_seed(level: int) -> None:
    first, again = random_scenario(11, level), random_scenario(11, level)
    assert first == again
    assert first.level == level
    assert brings_about(first)


def test_random_scenarios_differ_from_seed_to_seed_and_can_be_written(tmp_path: Path) -> None:
    made = [random_scenario(seed) for seed in range(6)]
    assert len({(one.tree, tuple(one.faults)) for one in made}) >= 5
    save_scenario(made[0], tmp_path / "one.yaml")
    assert read_scenario(tmp_path / "one.yaml") == made[0]


def test_a_random_scenario_of_the_third_level_is_hard() -> None:
    for seed in range(4):
        one = random_scenario(seed, 3)
        goes = any(FAULTS[id].comes_and_goes for id in one.faults)
        assert len(one.faults) == 2 or goes or one.tree == "sensor_untrue"


@pytest.mark.parametrize(("seed", "level"), [(-1, 1), (3, 4)])
def test_a_seed_or_level_that_cannot_be_is_refused(seed: int, level: int) -> None:
    with pytest.raises(ValueError, match="must be"):
        random_scenario(seed, level)


def test_a_cause_that_this_unit_cannot_have_is_refused() -> None:
    # A paddle breaks only where the flow switch has one; this unit's senses a difference of pressure.
    with pytest.raises(FileProblems, match="do not bring 'flow_proving_trip' about"):
        by_hand("bluff_30", "flow_proving_trip", {"paddle_broken": 1.0})

import pytest

from faultdoc.practice.debrief import debrief
from faultdoc.practice.progress import (
    Progress,
    ProgressError,
    Result,
    load_progress,
    next_scenario,
    progress_path,
    result_of,
    save_progress,
    weak_points,
)
from faultdoc.practice.scenario import Scenario, bench_of, load_scenarios
from faultdoc.practice.trainee import Turn


def result(id: str, score: int, **mistakes: int) -> Result:
    one = load_scenarios()[id]
    causes = bench_of(one.unit, one.tree).library.causes
    systems = tuple(sorted({causes[cause].system.value for cause in one.faults}))
    return Result(
        scenario=id,
        level=one.level,
        tree=one.tree,
        systems=systems,
        solved=score >= 40,
        score=score,
        minutes=60.0,
        par=one.minutes,
        mistakes=mistakes,
    )


def after(*results: Result) -> Scenario:
    return next_scenario(Progress(trainee="Ann", results=results), load_scenarios().values())


def test_a_new_trainee_begins_at_the_first_level() -> None:
    assert after().level == 1


def test_what_was_weak_comes_next() -> None:
    # Water went badly, the rest well: next is another call about water.
    water = after(result("valve_left_shut", 20), result("something_over_the_coil", 95))
    causes = bench_of(water.unit, water.tree).library.causes
    assert water.tree == "flow_proving_trip"
    assert water.id != "valve_left_shut"
    assert {causes[id].system.value for id in water.faults} & {"water", "electrical", "control"}
    site = after(result("dirty_basket", 100), result("valve_left_shut", 100), result("held_from_outside", 10))
    assert site.tree != "flow_proving_trip"


def test_unsafe_acts_bring_work_that_needs_care() -> None:
    one = after(result("held_from_outside", 65, unsafe=3))
    causes = bench_of(one.unit, one.tree).problem.causes
    needs = [causes[id].remedy.state for id in one.faults]
    assert any(need.supply == "isolated" or need.panel == "open" for need in needs)


def test_what_was_just_played_or_mastered_waits() -> None:
    played = [result(id, 90) for id, one in load_scenarios().items() if one.level == 1][:2]
    assert after(*played).id not in {one.scenario for one in played}


def test_the_next_level_comes_after_enough_calls_mastered() -> None:
    first = [id for id, one in load_scenarios().items() if one.level == 1]
    second = [id for id, one in load_scenarios().items() if one.level == 2]
    assert after(*(result(id, 90) for id in first[:2])).level == 1
    assert after(*(result(id, 90) for id in first[:3])).level == 2
    assert after(*(result(id, 90) for id in (*first[:3], *second[:3]))).level == 3
    assert after(*(result(id, 30) for id in first[:5])).level == 1


def test_weak_points_are_named_worst_first() -> None:
    progress = Progress(
        trainee="Ann", results=(result("valve_left_shut", 20, unsafe=2), result("something_over_the_coil", 60))
    )
    words = weak_points(progress)
    assert words[0].endswith("(20 of 100)")
    assert "unsafe acts: 2" in words


def test_progress_is_kept_and_read_again() -> None:
    progress = load_progress("Ann B. Example").with_result(result("valve_left_shut", 55, hints=1))
    path = save_progress(progress)
    assert path.name == "ann_b_example.json"
    assert load_progress("ann b example").results == progress.results


def test_a_name_without_letters_and_a_broken_file_are_refused() -> None:
    with pytest.raises(ProgressError, match="type a name"):
        progress_path("  ?! ")
    path = progress_path("Bo")
    path.parent.mkdir(parents=True)
    path.write_text('{"trainee": 3}', encoding="utf-8")
    with pytest.raises(ProgressError, match="rename it"):
        load_progress("Bo")


def test_a_call_leaves_its_mistakes_in_the_result() -> None:
    turn = Turn.begin(load_scenarios()["valve_left_shut"])
    turn.change("start_compressors")
    turn.hint()
    turn.give_up()
    kept = result_of(debrief(turn))
    assert kept.mistakes == {"unsafe": 1, "hints": 1, "unsolved": 1}
    assert not kept.solved

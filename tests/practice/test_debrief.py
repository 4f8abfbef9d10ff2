import pytest

from faultdoc.diagnosis.assess import assess
from faultdoc.diagnosis.planner import TELLING
from faultdoc.practice.debrief import debrief, sheet_text
from faultdoc.practice.expert import planned
from faultdoc.practice.scenario import by_hand
from faultdoc.practice.trainee import Turn
from faultdoc.quantities import Kind


def clumsy() -> Turn:
    """Return a call with an unsafe act, a hint, a test that tells nothing and some that do."""
    turn = Turn.begin(by_hand("bluff_30", "flow_proving_trip", {"strainer_clogged": 0.9}), 1)
    turn.change("start_compressors")
    turn.hint()
    turn.change("start_pump")
    turn.measure("ambient_air_temperature")
    turn.measure("strainer_pressure_drop")
    turn.measure("strainer_pressure_drop")
    turn.change("stop_pump")
    turn.change("depressurise_water")
    turn.mend("strainer_clogged")
    turn.change("refill_water")
    turn.change("start_pump")
    turn.prove()
    return turn


@pytest.fixture(scope="module")
def turn() -> Turn:
    return clumsy()


def test_a_clumsy_call_is_told_as_it_was(turn: Turn) -> None:
    found = debrief(turn)
    assert found.solved
    assert found.causes == (turn.library.causes["strainer_clogged"].title,)
    assert len(found.unsafe) == sum(not event.safe for event in turn.events) > 0
    assert found.hints == 1
    assert found.minutes == turn.minutes
    assert found.planner_solved
    assert found.planner_minutes == planned(turn.scenario, turn.seed).minutes
    assert found.path == tuple(turn.events)


def test_tests_that_told_nothing_agree_with_the_planners_bits(turn: Turn) -> None:
    found = debrief(turn)
    taken = [
        (event, before)
        for event, before in zip(turn.events, turn.before, strict=True)
        if event.kind in ("reading", "seen")
    ]
    assert len(found.meant) == len(taken)
    for meant, (event, before) in zip(found.meant, taken, strict=True):
        options = assess(turn.bench, before).plan.options
        bits = [
            option.bits
            for option in options
            if option.kind == "question" and event.point in turn.bench.problem.questions[option.id].points
        ]
        assert meant.bits == pytest.approx(max(bits, default=0.0))
        assert meant.told_nothing == (max(bits, default=0.0) < TELLING)
    air, first, again = found.meant
    assert air.told_nothing
    assert not first.told_nothing
    assert again.told_nothing
    assert "likelier" in first.meaning


def test_the_score_is_what_its_parts_say(turn: Turn) -> None:
    found = debrief(turn)
    assert found.score == max(100 + sum(points for _, points in found.parts), 0)
    words = " ".join(text for text, _ in found.parts)
    for what in ("Unsafe acts", "Hints", "told nothing"):
        assert what in words
    assert all(points < 0 for _, points in found.parts)


def test_physics_at_fault_and_at_health_differ_where_the_fault_sits(turn: Turn) -> None:
    drop = next(one for one in debrief(turn).physics if "strainer" in one.title.lower())
    assert drop.kind is Kind.PRESSURE_DIFFERENCE
    assert isinstance(drop.at_fault, float)
    assert isinstance(drop.healthy, float)
    assert drop.at_fault > 3.0 * drop.healthy


def test_a_call_given_up_has_not_solved_anything() -> None:
    turn = Turn.begin(by_hand("bluff_30", "flow_proving_trip", {"strainer_clogged": 0.9}), 1)
    turn.give_up()
    found = debrief(turn)
    assert not found.solved
    assert found.score == 40
    assert found.parts == (("No fix was proved", -60),)


def test_a_wrong_fix_is_named_and_a_right_one_is_not() -> None:
    turn = Turn.begin(by_hand("marten_60", "set_point_not_reached", {"set_point_high": 0.8}), 3)
    wrong = next(
        cause.id
        for cause in turn.remedies()
        if cause.id != "set_point_high" and turn.mend(cause.id).kind == "remedy"
    )
    assert turn.mend("set_point_high").kind == "remedy"
    assert [event.id for event in debrief(turn).wrong_fixes] == [wrong]


def test_the_sheet_has_everything_an_instructor_reads(turn: Turn) -> None:
    text = sheet_text(debrief(turn), trainee="Ann Example")
    for words in (
        "Ann Example",
        "Score:",
        "SAFETY",
        "Refused:",
        "YOUR PATH",
        "THE PLANNER'S PATH",
        "WHAT EACH READING MEANT",
        "TOLD NOTHING",
        "WRONG FIXES",
        "AT FAULT AND AT HEALTH",
    ):
        assert words in text

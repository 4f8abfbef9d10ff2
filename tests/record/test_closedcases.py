"""What a closed case tells, by cases made move by move."""

import sys
from datetime import timedelta
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
from cases import FIRST, Story, own_unit

from faultdoc.library.load import load_library
from faultdoc.model.base import Measured
from faultdoc.quantities import Kind
from faultdoc.record import moves
from faultdoc.record.closedcases import standing, tell_all
from faultdoc.record.session import Entry


@pytest.fixture(scope="module")
def library():
    return load_library(learned=False)


@pytest.fixture
def unit():
    own_unit("site_one")
    own_unit("site_two")
    return "site_one"


def told(library, *stories):
    fresh, repeats, left_out = tell_all([story.record(n) for n, story in enumerate(stories, 1)], library)
    return fresh, repeats, left_out


def rows(one):
    return [(answer.question, answer.row, answer.outcome) for answer in one.answers]


def test_answers_before_the_proof_count_in_the_row_of_the_proved_cause(library, unit):
    story = Story(unit).answer("valves_at_unit", "return_shut").answer("front_settings", "as_sheet")
    story.fix("return_valve_shut").conclude()
    (one,), repeats, left_out = told(library, story)
    # The valve's row is its own; nothing of the front is moved by it, so that is the default's row.
    assert rows(one) == [
        ("valves_at_unit", "return_valve_shut", "return_shut"),
        ("front_settings", "default", "as_sheet"),
    ]
    assert (one.causes, repeats, left_out) == (("return_valve_shut",), (), ())
    assert sum(one.expected.values()) == pytest.approx(1.0)


def test_what_was_answered_after_the_remedy_does_not_count(library, unit):
    def looks_again(story):
        story.answer("valves_at_unit", "both_open")

    story = Story(unit).answer("valves_at_unit", "return_shut").fix("return_valve_shut", between=looks_again)
    story.answer("front_settings", "as_sheet").conclude()
    (one,), _, _ = told(library, story)
    assert rows(one) == [("valves_at_unit", "return_valve_shut", "return_shut")]


def test_without_a_journal_what_was_known_before_the_proof_counts_less_the_points_of_the_proof(library, unit):
    points = library.causes["strainer_clogged"].remedy.proof.points
    assert "strainer_pressure_drop" in points
    story = Story(unit).answer("valves_at_unit", "both_open")
    story.read("strainer_pressure_drop", Measured(kind=Kind.PRESSURE_DIFFERENCE, value=2e5, text="2 bar")).fix(
        "strainer_clogged"
    ).conclude()
    record = story.record()
    with_journal, _, _ = tell_all([record], library)
    without, _, _ = tell_all([type(record)("0" * 32, "", record.closed, record.case)], library)
    assert rows(without[0]) == rows(with_journal[0]) == [("valves_at_unit", "default", "both_open")]
    assert [(one.question, one.row) for one in with_journal[0].residuals if one.question == "strainer_drop"] == [
        ("strainer_drop", "strainer_clogged")
    ]
    assert without[0].residuals == ()


def test_non_answers_and_answers_taken_back_do_not_count(library, unit):
    story = Story(unit).answer("front_settings", "not_sure").answer("load_path", "could_not_measure")
    story.answer("valves_at_unit", "both_open").undo().answer("valves_at_unit", "return_shut")
    story.fix("return_valve_shut").conclude()
    (one,), _, _ = told(library, story)
    assert rows(one) == [("valves_at_unit", "return_valve_shut", "return_shut")]


def test_an_answer_and_a_reading_that_contradict_each_other_do_not_count(library, unit):
    question = next(
        question
        for question in library.trees["flow_proving_trip"].questions
        if question.check is None and len(question.points) == 1 and not question.only_with
        and {outcome.id for outcome in question.outcomes}
        <= {choice.id for choice in library.points[question.points[0]].choices}
    )  # fmt: skip
    first, second = question.outcomes[0].id, question.outcomes[1].id
    for said, counts in ((first, True), (second, False)):
        story = Story(unit).read(question.points[0], first)
        story.do("said", moves.answer(story.case, question.id, said)).fix("return_valve_shut").conclude()
        (one,), _, _ = told(library, story)
        assert (question.id in {answer.question for answer in one.answers}) == counts


def test_two_proved_causes_count_in_rows_only_where_one_speaks_alone(library, unit):
    story = Story(unit)
    # Both valves move the first question; only the second cause moves the other; then the first is gone.
    story.answer("valves_at_unit", "supply_shut").answer("front_settings", "pump_off")
    story.fix("supply_valve_shut").answer("load_path", "in_order").fix("pump_switched_off").conclude()
    (one,), _, _ = told(library, story)
    assert one.causes == ("supply_valve_shut", "pump_switched_off")
    assert ("front_settings", "pump_switched_off", "pump_off") in rows(one)
    assert ("load_path", "default", "in_order") in rows(one)
    assert sum(one.expected.values()) == pytest.approx(2.0)
    both = Story(unit).answer("valves_at_unit", "return_shut")
    both.fix("supply_valve_shut").fix("return_valve_shut").conclude()
    (two,), _, _ = told(library, both)
    assert rows(two) == []
    # Asked again once the first was gone, it speaks of the second alone.
    after = Story(unit).fix("supply_valve_shut").answer("valves_at_unit", "return_shut")
    after.fix("return_valve_shut").conclude()
    (three,), _, _ = told(library, after)
    assert rows(three) == [("valves_at_unit", "return_valve_shut", "return_shut")]


def test_a_remedy_that_did_not_hold_leaves_the_answers_with_what_was_proved(library, unit):
    story = Story(unit).answer("valves_at_unit", "return_shut")
    story.fix("return_valve_shut", held=False).fix("supply_valve_shut").conclude()
    (one,), _, _ = told(library, story)
    assert one.causes == ("supply_valve_shut",)
    assert rows(one) == [("valves_at_unit", "supply_valve_shut", "return_shut")]


def test_what_does_not_count_is_told_with_its_reason(library, unit):
    stories = [
        Story("bluff_30", title="demo").fix("strainer_clogged").conclude(),
        Story(unit, title="open").fix("strainer_clogged"),
        Story(unit, title="unproved").fix("strainer_clogged", held=False).conclude("handed_over"),
        Story("no_such_unit", title="no sheet").fix("strainer_clogged").conclude(),
        Story(unit, symptoms=("no_such_tree",), title="no tree").fix("strainer_clogged").conclude(),
        Story(unit, title="other tree's cause").fix("float_switch_stuck").conclude(),
    ]
    fresh, _, left_out = told(library, *stories)
    assert fresh == ()
    reasons = {one.title: one.reason for one in left_out}
    assert reasons["demo"] == "on a demo unit"
    assert reasons["open"] == "not closed"
    assert reasons["unproved"] == "no cause was proved"
    assert "data sheet" in reasons["no sheet"]
    assert "symptom" in reasons["no tree"]
    assert "no cause of its symptoms" in reasons["other tree's cause"]


def test_the_same_cause_on_the_same_unit_soon_after_is_one_story(library, unit):
    def on(day, unit="site_one", cause="strainer_clogged"):
        return Story(unit, title=f"{unit} day {day}", at=FIRST + timedelta(days=day)).fix(cause).conclude()

    stories = [on(0), on(20), on(45), on(100), on(5, "site_two"), on(6, cause="return_valve_shut")]
    fresh, repeats, _ = told(library, *stories)
    # Day 45 is within 30 days of day 20: the chain is one story.
    assert [one.title for one in repeats] == ["site_one day 20", "site_one day 45"]
    assert [one.title for one in fresh] == [
        "site_one day 0",
        "site_two day 5",
        "site_one day 6",
        "site_one day 100",
    ]


def test_standing_is_what_replay_leaves(unit):
    story = Story(unit).answer("valves_at_unit", "both_open").undo().answer("valves_at_unit", "return_shut")
    path = standing(story.start, story.entries)
    assert [case.answers for case in path] == [{}, {"valves_at_unit": "return_shut"}]
    undone = [*story.entries, Entry("undo", "x", story.start), Entry("redo", "x", story.case)]
    assert standing(story.start, undone)[-1] == story.case

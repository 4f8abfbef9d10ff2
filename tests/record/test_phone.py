"""A call in words: nothing unsafe is said or asked, nothing of it is lost."""

from datetime import UTC, datetime, timedelta
from itertools import product

import numpy as np
import pytest

from faultdoc.diagnosis.assess import assess, bench_for, choice_point
from faultdoc.diagnosis.visit import Act, Trip, Weighing
from faultdoc.library.load import load_library, load_units
from faultdoc.model.case import Case
from faultdoc.model.safety import (
    TRIPPED,
    Compressors,
    Panel,
    Pump,
    Qualification,
    Signal,
    hazardous,
    may,
    satisfies,
)
from faultdoc.record import moves, phone
from faultdoc.record.draft import draft, keep_draft
from faultdoc.record.steps import change_of, shown_step

LIBRARY = load_library()
SHEETS, _ = load_units()
CALLER = frozenset({Qualification.CALLER})
RUNNING = TRIPPED.model_copy(update={"pump": Pump.RUNNING, "compressors": Compressors.RUNNING})


def bench_of(tree):
    sheet = next(one for one in SHEETS.values() if set(tree.applies_to) <= set(one.features))
    return bench_for(LIBRARY, sheet, (tree.id,))


@pytest.mark.parametrize(("tree_id", "state"), list(product(LIBRARY.trees, (TRIPPED, RUNNING))))
def test_a_call_never_asks_what_a_caller_may_not_do(tree_id, state):
    """Ten steps of each tree with random answers, and everything that could be volunteered at each of them."""
    tree = LIBRARY.trees[tree_id]
    bench = bench_of(tree)
    rng = np.random.default_rng(len(tree_id) * 97 + len(tree.questions))
    case = Case(unit=bench.sheet.id, symptoms=(tree_id,), state=state, who=("caller",))
    offered = 0
    for _ in range(10):
        seen = assess(bench, case)
        step = seen.next
        assert may(CALLER, step.who)
        assert satisfies(case.state, step.state)
        found = phone.volunteered(seen, "e")  # nearly every question has that letter
        for one in found:
            question = bench.problem.questions[one.id]
            if not one.why_not:
                offered += 1
                assert question.who is Qualification.CALLER
                assert not question.bring
                assert question.state.panel is not Panel.OPEN
                # Where the plant is to be changed first, a caller may do that too.
                shown = shown_step(seen, one.pick)
                assert may(CALLER, shown.who)
                assert satisfies(case.state, shown.state)
        for cause in phone.caller_remedies(seen):
            remedy = bench.problem.causes[cause].remedy
            assert remedy.who is Qualification.CALLER
            assert not remedy.tools
            assert not hazardous(remedy.state) or remedy.state.compressors is Compressors.RUNNING
        if step.kind in ("hand_over", "done"):
            break
        if step.kind == "state_change":
            case = moves.change_state(case, change_of(seen, step.id))
        elif step.kind == "question":
            question = bench.problem.questions[step.id]
            outcomes = [one.id for one in question.outcomes if one.stop is None]
            answer = str(rng.choice(outcomes)) if outcomes and rng.random() < 0.8 else "not_sure"
            case = moves.answered(case, step.id, answer, choice_point(question, bench))
        elif step.kind == "remedy":
            case = moves.repaired(case, step.id)
        else:
            case = moves.proved(case, held=False)
    assert offered >= 5


@pytest.mark.parametrize("tree_id", LIBRARY.trees)
def test_every_question_to_a_caller_has_help_that_sends_nobody_into_danger(tree_id):
    asked = [one for one in LIBRARY.trees[tree_id].questions if one.who is Qualification.CALLER]
    assert asked
    for question in asked:
        words = phone.hesitates(question)
        assert words.endswith((".", "?"))
        assert 20 <= len(words) <= 260
        for never in ("open the", "take off", "unscrew", "reset it again", "measure", "touch the"):
            assert never not in words.lower().replace("not open the", "").replace("never touch the motor", ""), (
                words
            )
        if any(one.stop for one in question.outcomes):
            assert any(keep in words for keep in ("not go", "away", "where you are")), words


def test_what_is_volunteered_is_found_by_words_with_what_a_caller_may_not_greyed():
    bench = bench_of(LIBRARY.trees["start_held_back"])
    case = Case(unit=bench.sheet.id, symptoms=("start_held_back",), state=TRIPPED, who=("caller",))
    assert phone.volunteered(assess(bench, case), "  ") == ()
    found = phone.volunteered(assess(bench, case), "display")
    assert "sh_reacts" in [one.id for one in found if not one.why_not]
    gauges = phone.volunteered(assess(bench, case), "gauge")
    refused = [one for one in gauges if one.why_not]
    assert refused
    assert "Needs" in refused[0].why_not or "Nobody here" in refused[0].why_not
    assert [bool(one.why_not) for one in gauges] == sorted(bool(one.why_not) for one in gauges)
    question = bench.problem.questions["sh_reacts"]
    answered = moves.answered(case, "sh_reacts", question.outcomes[0].id, choice_point(question, bench))
    known = {one.id: one for one in phone.volunteered(assess(bench, answered), "display")}
    assert known["sh_reacts"].answer == question.outcomes[0].title == "Lives"
    assert known["sh_reacts"].pick.kind == "correct"


@pytest.mark.parametrize("caution", LIBRARY.plant.stops, ids=range(len(LIBRARY.plant.stops)))
def test_a_stop_is_read_aloud_whole_with_the_site_s_numbers_and_goes_into_the_record(caution):
    what, _, order = caution.text.partition(": ")
    lines = phone.stop_aloud(caution.text, ("Site: 4444", "Fire: 112"))
    spoken = " ".join(lines)
    assert order[1:] in spoken
    assert what not in spoken  # the caller has just told of it
    assert "Site: 4444; Fire: 112" in spoken
    assert "emergency number now" in " ".join(phone.stop_aloud(caution.text, ()))
    assert caution.signal in (Signal.DANGER, Signal.WARNING)
    case = Case(unit="bluff_30", symptoms=("unit_dead",), state=TRIPPED, who=("caller",))
    ended = phone.ended_by(case, caution)
    assert caution.text in ended.notes[-1]
    assert phone.danger_told(ended)
    assert not phone.danger_told(phone.called_back(ended))
    assert phone.waits_on_phone(ended, datetime.now(UTC)) == "danger told"


def test_a_time_to_call_back_is_kept_in_the_notes_and_read_from_them():
    case = Case(unit="bluff_30", symptoms=("unit_dead",), state=TRIPPED, who=("caller",))
    when = datetime(2026, 3, 1, 14, 30, tzinfo=UTC)
    waiting = moves.note(phone.to_call_back(case, when, "the site's electrician"), "Said they are in a hurry")
    assert phone.call_back(waiting) == when
    before, after = when - timedelta(hours=1), when + timedelta(minutes=1)
    assert phone.waits_on_phone(waiting, before).startswith("call back ")
    assert phone.waits_on_phone(waiting, after) == "call back now"
    assert phone.waits_on_phone(phone.called_back(waiting), after) == ""
    later = phone.to_call_back(waiting, when + timedelta(days=1), "again")
    assert phone.call_back(later) == when + timedelta(days=1)


def test_making_safe_asks_for_nothing_but_the_unit_s_own_switch():
    bench = bench_of(LIBRARY.trees["start_held_back"])
    for state in (TRIPPED, RUNNING):
        case = Case(unit=bench.sheet.id, symptoms=("start_held_back",), state=state, who=("caller",))
        steps = phone.made_safe_steps(assess(bench, case))
        assert len(steps) >= 3
        assert ("Switch the unit off" in steps[0]) == (state is RUNNING)
        assert "doors and covers shut" in " ".join(steps)


def test_only_a_caller_alone_means_by_phone():
    for who in (("caller",), ("caller", "crew"), ("technician",)):
        case = Case(unit="u", symptoms=("unit_dead",), state=TRIPPED, who=who)
        assert phone.on_phone(case) == (who == ("caller",))


def weighing(**changes):
    usual = {"send": 300.0, "on_site": 220.0, "ask": 280.0, "phone": 9.0, "by_phone": 0.1, "at_visit": 0.4,
             "next": Act("question", "q"), "asked": 2.1, "loads": True}  # fmt: skip
    return Weighing(**{**usual, **changes})


@pytest.mark.parametrize(
    ("found", "verdict"),
    [
        (weighing(), "Ask on: the next two questions may save about 29 min of the visit."),
        (weighing(asked=1.0), "Ask on: the next question may save about 29 min of the visit."),
        (weighing(next=Act("remedy", "c")), "Ask on: what the caller may do may save about 29 min of the visit."),
        (weighing(ask=299.5), "Send someone: asking on costs as many minutes as it spares."),
        (weighing(ask=310.0, loads=False), "Send someone: no further question from here changes what to bring."),
        (weighing(ask=np.inf, next=None), "Send someone: nothing is left that the caller may tell."),
    ],
)
def test_advice_in_words(found, verdict):
    told = phone.advice(found, Trip(60.0, 5.0))
    assert told.verdict.startswith(verdict)
    assert told.asking == verdict.startswith("Ask")
    assert "1 h travel, then about 4 h to a proved fix; 40 % that they bring what it takes" in told.send
    if found.next is not None:
        assert "10 % that it ends by phone" in told.ask


def test_a_draft_is_kept_whole_and_goes_with_its_words(tmp_path, monkeypatch):
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path))
    uid = "ab" * 16
    assert draft(uid) == ""
    keep_draft(uid, "Zähler steht auf 4 bar\nsagt der Wärter")
    assert draft(uid) == "Zähler steht auf 4 bar\nsagt der Wärter"
    assert draft("cd" * 16) == ""
    keep_draft(uid, "  \n")
    assert draft(uid) == ""
    assert [path for path in tmp_path.rglob("*") if path.is_file()] == []

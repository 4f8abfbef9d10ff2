"""Answers that end the work at once: which questions ask for them first, what they say, and that the engine obeys.

Where no other source is named the rules are the project's own.
"""

from __future__ import annotations

import re
from functools import cache

import pytest

from faultdoc.diagnosis.assess import Assessment, Bench, assess, bench_for
from faultdoc.diagnosis.explain import what_would_change, why_next
from faultdoc.library.load import load_library, load_unit, units
from faultdoc.model.case import Case
from faultdoc.model.safety import PlantState, Qualification, Signal, StateNeed, satisfies
from faultdoc.model.tree import NON_ANSWERS, Question
from faultdoc.record import moves
from faultdoc.record.steps import Pick, refusal, shown_step

LIBRARY = load_library()

STOPS = {
    "compressor_protection": {"cp_burnt": {"wet", "burnt"}},
    "fan_trouble": {"ft_burnt": {"hot"}},
    "flow_proving_trip": {"burnt_or_wet": {"wet", "burnt"}},
    "freeze_protection": {"fp_ice_seen": {"burst"}},
    "high_discharge_temperature": {"ht_sound": {"hot"}},
    "high_head": {"hh_burnt": {"hot"}},
    "low_suction": {"ls_hiss_or_smell": {"hiss"}},
    "noise_and_vibration": {"nv_stands_firm": {"rocks", "gives_way"}, "nv_stop_signs": {"hiss_oil", "burnt"}},
    "oil_trouble": {"ot_leak_alarm": {"hiss"}},
    "one_circuit_only": {"oc_burnt": {"burnt"}},
    "pump_trouble": {"pt_smell_heat": {"burnt"}, "pt_leak_place": {"crack"}},
    "refrigerant_leak": {"rl_place": {"closed_in"}, "rl_hiss": {"on_and_on"}},
    "sensor_untrue": {"su_danger": {"yes"}},
    "set_point_not_reached": {"sp_stop_signs": {"hiss_oil", "burnt"}},
    "short_cycling": {"sc_danger": {"yes"}},
    "start_held_back": {"sh_smell": {"yes"}},
    "supply_breaker_opens": {"bo_hurt_signs": {"at_board", "at_unit", "water"}},
    "supply_phase_order": {"po_hurt_signs": {"burnt", "water"}},
    "unit_dead": {"ud_hurt_signs": {"burnt", "water"}},
    "water_loss": {"wl_near_power": {"near", "on_it"}},
}
"""By tree: the questions asked first, and of each the answers that mean danger now."""

ONLY_POINTS = {
    "fp_ice_seen": {"none", "frost"},
    "ht_sound": {"quiet", "loud"},
    "ls_hiss_or_smell": {"nothing", "oil_seen"},
    "nv_stop_signs": {"none", "hiss_stop"},
    "ot_leak_alarm": {"nothing", "oil_seen"},
    "pt_smell_heat": {"none", "hot"},
    "pt_leak_place": {"dry", "shaft", "joint"},
    "rl_hiss": {"no", "fades"},
    "sp_stop_signs": {"none", "ice"},
}
"""Answers to these that tell of a cause and of nothing that hurts anybody now: the work goes on."""

AS_FOUND = PlantState.model_validate(
    {
        "supply": "energised",
        "panel": "closed",
        "pump": "stopped",
        "water": "pressurised",
        "compressors": "stopped",
        "oil": "warm",
    }
)
"""A unit that has tripped, as it is most often found."""

MOST_FIRST = 2
SHORT = 3.0
"""Minutes."""

QUESTIONS = [pytest.param(tree, id, id=id) for tree, asked in STOPS.items() for id in asked]
ANSWERS = [
    pytest.param(tree, id, answer, id=f"{id}-{answer}")
    for tree, asked in STOPS.items()
    for id, answers in asked.items()
    for answer in sorted(answers)
]


def question_of(tree: str, id: str) -> Question:
    return next(question for question in LIBRARY.trees[tree].questions if question.id == id)


@cache
def bench(tree: str) -> Bench:
    """The tree on the first shipped unit that it applies to."""
    for id in units():
        sheet = load_unit(id)
        if set(LIBRARY.trees[tree].applies_to) <= set(sheet.features):
            return bench_for(LIBRARY, sheet, (tree,), 1)
    raise AssertionError(f"no shipped unit for {tree}")


def look(tree: str, answers: dict[str, str], who: tuple[Qualification, ...]) -> Assessment:
    on = bench(tree)
    return assess(on, Case(unit=on.sheet.id, symptoms=(tree,), state=AS_FOUND, who=who, answers=answers))


# --- the files ---


def test_each_tree_asks_first_for_what_must_stop() -> None:
    """Every symptom can come with burning, water at live gear, escaping gas, ice or a unit that may tip."""
    assert set(STOPS) == set(LIBRARY.trees)
    for id, tree in LIBRARY.trees.items():
        first = {question.id for question in tree.questions if question.first}
        assert first == set(STOPS[id]), id
        assert len(first) <= MOST_FIRST, id


def test_exactly_the_answers_that_mean_danger_now_stop() -> None:
    stopping = {
        (tree.id, question.id): {outcome.id for outcome in question.outcomes if outcome.stop}
        for tree in LIBRARY.trees.values()
        for question in tree.questions
        if any(outcome.stop for outcome in question.outcomes)
    }
    assert stopping == {(tree, id): answers for tree, asked in STOPS.items() for id, answers in asked.items()}


@pytest.mark.parametrize(("tree", "id"), QUESTIONS)
def test_every_first_question_leaves_a_way_on(tree: str, id: str) -> None:
    going_on = {outcome.id for outcome in question_of(tree, id).outcomes if not outcome.stop}
    assert going_on
    assert id not in ONLY_POINTS or going_on == ONLY_POINTS[id]


@pytest.mark.parametrize(("tree", "id"), QUESTIONS)
def test_a_first_question_is_short_and_asks_a_caller_to_look_listen_and_smell(tree: str, id: str) -> None:
    question = question_of(tree, id)
    assert question.minutes <= SHORT
    assert question.who is Qualification.CALLER
    assert question.state == StateNeed()
    assert not question.bring
    assert not question.points
    assert not question.only_with
    # Senses only: 'hand' is held towards a motor's warmth, never on it.
    assert re.fullmatch(
        r"(eyes?|ears?|nose|hand)((,| and|, and) (eyes?|ears?|nose|hand))*", question.instrument.lower()
    )
    said = f"{question.ask.caller} {question.how}".lower()
    for sentence in re.split(r"[.;?!]", said):
        if re.search(r"\b(open|remove|lift) (the|a|any) (panel|door|cover)", sentence):
            assert re.search(r"\b(not|nothing|never|no)\b", sentence), sentence
    assert any(caution.signal in (Signal.DANGER, Signal.WARNING) for caution in question.cautions)


ASKED_OF_HANDS = re.compile(
    r"\b(touch|feel|wipe|mop|plug|tighten|loosen|open|opens|close|shut|reset|press|pull|push|switch|turn|lift|steady"
    r"|steadies|prop|props|move|moves|start|starts|wipes|works|plugs|tightens|closes|lights)\b"
)
FORBIDDEN = re.compile(r"\b(nobody|do not|never|not even)\b")
AWAY = re.compile(r"keep away|get everyone (out|away|clear)", re.IGNORECASE)
ELECTRICAL = {"wet", "burnt", "at_board", "at_unit", "water", "yes", "hot", "on_it", "near", "crack"}
"""Answers that tell of burning, or of water at live gear."""


@pytest.mark.parametrize(("tree", "id", "answer"), ANSWERS)
def test_a_stop_says_keep_away_whom_to_call_what_not_to_do_and_who_must_come(
    tree: str, id: str, answer: str
) -> None:
    outcome = next(one for one in question_of(tree, id).outcomes if one.id == answer)
    assert outcome.stop
    assert outcome.stop.startswith("Stop here. ")
    assert AWAY.search(outcome.stop)
    assert "all your site's emergency number" in outcome.stop
    assert "obody " in outcome.stop
    assert re.search(r"(worker|refrigerants|lifting) must come", outcome.stop)
    if answer in ELECTRICAL:
        assert "supply opened" in outcome.stop
        assert "by someone qualified" in outcome.stop


@pytest.mark.parametrize(("tree", "id", "answer"), ANSWERS)
def test_a_stop_never_asks_for_hands_on_the_unit(tree: str, id: str, answer: str) -> None:
    """What hands could do is named only to forbid it; the supply is opened upstream, by someone qualified."""
    outcome = next(one for one in question_of(tree, id).outcomes if one.id == answer)
    for clause in re.split(r"[.;]", (outcome.stop or "").lower().replace("the open air", "outdoors")):
        if ASKED_OF_HANDS.search(clause):
            assert FORBIDDEN.search(clause), clause


# --- the engine ---

PEOPLE = [(Qualification.CALLER,), (Qualification.TECHNICIAN,), (Qualification.ELECTRICAL_WORKER,)]


@pytest.mark.parametrize("who", PEOPLE, ids=lambda who: who[0].value)
@pytest.mark.parametrize("tree", STOPS)
def test_what_may_stop_the_work_is_asked_before_anything_else(tree: str, who: tuple[Qualification, ...]) -> None:
    answers: dict[str, str] = {}
    for _ in STOPS[tree]:
        step = look(tree, answers, who).next
        assert step.kind == "question"
        assert step.id in STOPS[tree]
        assert step.id not in answers
        assert satisfies(AS_FOUND, step.state)
        answers[step.id] = question_of(tree, step.id).outcomes[0].id
    after = look(tree, answers, who).next
    assert after.id not in STOPS[tree]
    assert not after.stops


@pytest.mark.parametrize(("tree", "id", "answer"), ANSWERS)
def test_such_an_answer_ends_the_work_with_its_text_and_the_cautions(tree: str, id: str, answer: str) -> None:
    question = question_of(tree, id)
    seen = look(tree, {id: answer}, (Qualification.TECHNICIAN, Qualification.ELECTRICAL_WORKER))
    step = seen.next
    assert (step.kind, step.id, step.toward_id) == ("hand_over", "stop", id)
    assert step.stops
    assert step.text == next(one.stop for one in question.outcomes if one.id == answer)
    assert step.cautions == question.cautions
    assert len(why_next(seen)) == 1
    assert "harm" in why_next(seen)[0]
    assert what_would_change(seen) == ()


@pytest.mark.parametrize("answer", NON_ANSWERS)
def test_no_answer_does_not_stop(answer: str) -> None:
    assert not look("unit_dead", {"ud_hurt_signs": answer}, (Qualification.TECHNICIAN,)).next.stops


def test_after_a_stop_no_other_question_or_remedy_is_taken_up_but_the_unit_can_be_made_safe() -> None:
    who = (Qualification.TECHNICIAN, Qualification.ELECTRICAL_WORKER)
    seen = look("unit_dead", {"ud_hurt_signs": "burnt"}, who)
    for pick in (Pick("question", "ud_neighbours"), Pick("remedy", next(iter(seen.bench.problem.causes)))):
        assert "made it safe" in (refusal(seen, pick) or "")
        assert shown_step(seen, pick) == seen.next
    assert refusal(seen, Pick("change", "isolate_supply")) is None
    assert refusal(seen, Pick("correct", "ud_hurt_signs")) is None


def test_an_answer_changed_once_it_is_safe_lets_the_work_go_on() -> None:
    seen = look("unit_dead", {"ud_hurt_signs": "water"}, (Qualification.TECHNICIAN,))
    again = assess(seen.bench, moves.answer(seen.case, "ud_hurt_signs", "none"))
    assert not again.next.stops
    assert again.next.kind == "question"


def test_danger_comes_before_the_proof_of_a_remedy_and_before_the_restart() -> None:
    on = bench("unit_dead")
    safe = look("unit_dead", {"ud_hurt_signs": "none"}, (Qualification.CALLER,)).case
    tried = moves.repaired(safe, next(iter(on.problem.causes)))
    assert assess(on, tried).next.toward_id != "ud_hurt_signs"
    for case in (tried, moves.proved(tried, True)):
        found = assess(on, moves.answer(case, "ud_hurt_signs", "burnt"))
        assert found.next.stops
        assert found.next.toward_id == "ud_hurt_signs"

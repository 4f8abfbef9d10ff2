import pytest
from pydantic import ValidationError

from faultdoc.model.tree import Cause, Condition, Gate, Question, Shift, Tree, Weights

PROOF = {"text": "It is back.", "points": ["water_flow"], "minutes": 5.0, "state": {}, "who": "crew"}
REMEDY = {"title": "Clean", "steps": ["Clean it."], "minutes": 20.0, "state": {}, "who": "crew", "proof": PROOF}
CAUSE = {
    "id": "strainer_clogged",
    "title": "T",
    "system": "water",
    "rate": 80.0,
    "basis": "estimate",
    "mechanism": "M",
    "remedy": REMEDY,
}
LOOK = {
    "id": "valve_position",
    "ask": {"tech": "A", "caller": "B"},
    "how": "H",
    "where": "W",
    "instrument": "Eye",
    "minutes": 2.0,
    "state": {},
    "who": "caller",
    "outcomes": [{"id": "open", "title": "O"}, {"id": "shut", "title": "S"}],
    "given": {
        "default": {"p": {"open": 1.0}, "basis": "estimate"},
        "valve_shut": {"p": {"shut": 1.0}, "basis": "estimate"},
    },
}
MEASURE = {
    **{key: value for key, value in LOOK.items() if key not in ("outcomes", "given")},
    "check": "barrel_drop",
    "points": ["water_flow"],
    "given": {"default": {"shift": 0.0, "spread": 0.1, "basis": "estimate"}},
}


def refusal(model, data: dict[str, object], **changes: object) -> str:
    data = {key: value for key, value in {**data, **changes}.items() if value is not ...}
    with pytest.raises(ValidationError) as caught:
        model.model_validate(data)
    return str(caught.value)


@pytest.mark.parametrize(
    "kind", [{"any": ["ab", "cd"]}, {"all": ["ab"]}, {"at_least": 2, "of": ["ab", "cd", "ef"]}]
)
def test_the_three_gates(kind: dict[str, object]) -> None:
    assert Gate.model_validate({"id": "gate", "title": "G", **kind})


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ({}, "exactly one of"),
        ({"any": ["ab"], "all": ["cd"]}, "exactly one of"),
        ({"of": ["ab"]}, "exactly one of"),
        ({"at_least": 1}, "exactly one of"),
        ({"any": ["ab"], "of": ["cd"]}, "exactly one of"),
        ({"any": []}, "needs children"),
        ({"all": ["ab", "ab"]}, "names a child twice"),
        ({"at_least": 3, "of": ["ab", "cd"]}, "at_least: 3 of only 2"),
        ({"at_least": 0, "of": ["ab"]}, "at_least"),
    ],
)
def test_gates_that_are_none(kind: dict[str, object], words: str) -> None:
    assert words in refusal(Gate, {"id": "gate", "title": "G"}, **kind)


def test_a_cause_has_a_rate_a_remedy_and_a_proof() -> None:
    cause = Cause.model_validate(CAUSE)
    assert cause.remedy.holds == 0.95
    assert cause.remedy.proof.points == ("water_flow",)
    assert "remedy" in refusal(Cause, CAUSE, remedy=...)
    assert "remedy.proof" in refusal(Cause, CAUSE, remedy={k: v for k, v in REMEDY.items() if k != "proof"})
    assert "remedy.proof.points" in refusal(Cause, CAUSE, remedy={**REMEDY, "proof": {**PROOF, "points": []}})


@pytest.mark.parametrize("rate", [0.0, -1.0, 1000.0, "80"])
def test_rates_are_occurrences_in_a_thousand_visits(rate: object) -> None:
    assert "rate" in refusal(Cause, CAUSE, rate=rate)


@pytest.mark.parametrize("holds", [0.0, 1.01])
def test_a_remedy_holds_with_a_probability(holds: float) -> None:
    assert "remedy.holds" in refusal(Cause, CAUSE, remedy={**REMEDY, "holds": holds})


def test_an_inhibit_condition_is_a_probability_with_a_basis() -> None:
    good = {"id": "cold", "title": "It is cold", "probability": 0.3, "basis": "published", "source": "S"}
    assert Condition.model_validate(good).source == "S"
    assert "probability" in refusal(Condition, good, probability=1.3)
    assert "basis" in refusal(Condition, good, basis="guess")


def test_questions_to_look_and_to_measure() -> None:
    assert isinstance(Question.model_validate(LOOK).given["default"], Weights)
    assert isinstance(Question.model_validate(MEASURE).given["default"], Shift)


@pytest.mark.parametrize(
    ("question", "changes", "words"),
    [
        (LOOK, {"check": "barrel_drop"}, "either outcomes or a check"),
        (LOOK, {"outcomes": []}, "either outcomes or"),
        (
            LOOK,
            {"given": {"valve_shut": {"p": {"open": 1.0}, "basis": "estimate"}}},
            "given needs a row 'default'",
        ),
        (LOOK, {"given": MEASURE["given"]}, "given row 'default' must be {p: {outcome: probability}, basis}"),
        (MEASURE, {"given": LOOK["given"]}, "given row 'default' must be {shift, spread, basis}"),
        (MEASURE, {"points": []}, "names the measuring points"),
        (LOOK, {"outcomes": [{"id": "open", "title": "O"}]}, "at least two different ids"),
        (LOOK, {"outcomes": [{"id": "open", "title": "O"}] * 2}, "at least two different ids"),
        (LOOK, {"outcomes": [{"id": "open", "title": "O"}, {"id": "not_sure", "title": "N"}]}, "kept for answers"),
        (LOOK, {"slip": 0.5}, "slip"),
        (LOOK, {"slip": 0.0}, "slip"),
        (MEASURE, {"meter": 0.0}, "meter"),
        (LOOK, {"ask": {"tech": "A"}}, "ask.caller"),
    ],
)
def test_questions_that_are_none(question: dict[str, object], changes: dict[str, object], words: str) -> None:
    assert words in refusal(Question, question, **changes)


@pytest.mark.parametrize(
    ("row", "where"),
    [
        ({"shift": 0.0, "sprad": 1.0, "basis": "estimate"}, "given.default.shift.sprad"),
        ({"shift": 0.0, "spread": 0.0, "basis": "estimate"}, "given.default.shift.spread"),
        ({"p": {"open": 1.5}, "basis": "estimate"}, "given.default.weights.p.open"),
        ({"p": {"open": 1.0}}, "given.default.weights.basis"),
    ],
)
def test_a_row_is_refused_as_the_sort_that_was_meant(row: dict[str, object], where: str) -> None:
    assert where in refusal(Question, LOOK, given={"default": row})


def test_a_tree_has_events() -> None:
    tree = {
        "id": "no_flow",
        "title": "T",
        "symptom": "S",
        "top": "gate",
        "causes": [CAUSE],
        "questions": [LOOK],
        "events": [{"id": "gate", "title": "G", "any": ["strainer_clogged"]}],
    }
    assert Tree.model_validate(tree).language == "en"
    assert "events" in refusal(Tree, tree, events=[])
    assert "applies_to" in refusal(Tree, tree, applies_to=["wings"])


def test_a_question_may_come_first_and_an_answer_may_stop_the_work() -> None:
    plain = Question.model_validate(LOOK)
    assert plain.first is False
    assert [outcome.stop for outcome in plain.outcomes] == [None, None]
    outcomes = [{"id": "open", "title": "O"}, {"id": "shut", "title": "S", "stop": " Keep away. "}]
    asked = Question.model_validate({**LOOK, "first": True, "outcomes": outcomes})
    assert asked.first is True
    assert asked.outcomes[1].stop == "Keep away."
    assert "outcomes.1.stop" in refusal(Question, LOOK, outcomes=[outcomes[0], {**outcomes[1], "stop": ""}])
    assert "first" in refusal(Question, LOOK, first="sometimes")

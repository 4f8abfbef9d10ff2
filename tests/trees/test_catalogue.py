"""What must hold over all shipped trees together: breadth, one catalogue of ids, plain words, licences, severity.

Where no other source is named the rules are the project's own.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

import pytest

from faultdoc.checks.all import registry
from faultdoc.library.lint import reached
from faultdoc.library.load import load_library
from faultdoc.library.places import trees_folder
from faultdoc.library.source import read
from faultdoc.model.safety import Caution, Panel, Qualification, Refrigerant, Signal, Supply
from faultdoc.model.tree import Condition, Gate, Proof, Question, Remedy, Tree

LIBRARY = load_library()
TREES = list(LIBRARY.trees.values())
QUESTIONS = [(tree, question) for tree in TREES for question in tree.questions]

CAUSES = range(15, 46)
ASKED = range(15, 41)


def each_tree() -> list[object]:
    return [pytest.param(tree, id=tree.id) for tree in TREES]


def works(tree: Tree) -> Iterator[tuple[str, Question | Remedy | Proof]]:
    for question in tree.questions:
        yield question.id, question
    for cause in tree.causes:
        yield cause.id, cause.remedy
        yield f"proof of {cause.id}", cause.remedy.proof


def causes_of(tree: Tree) -> set[str]:
    """The causes that the top event reaches, whichever file defines them."""
    return {id for id in reached(tree) if id in LIBRARY.causes}


# --- breadth ---


@pytest.mark.parametrize("tree", each_tree())
def test_a_tree_is_broad_enough_and_can_be_walked(tree: Tree) -> None:
    assert len(causes_of(tree)) in CAUSES
    assert len(tree.questions) in ASKED


def test_at_least_half_of_the_questions_feed_a_check() -> None:
    checked = [question for _, question in QUESTIONS if question.check]
    assert 2 * len(checked) >= len(QUESTIONS)
    assert {question.check for question in checked} <= set(registry)


def test_the_catalogue_holds_what_it_is_said_to_hold() -> None:
    """Counted on the day the last tree came in; who takes something away lowers these on purpose."""
    assert len(TREES) >= 20
    assert len(LIBRARY.causes) >= 380
    assert len(QUESTIONS) >= 700
    assert len({question.check for _, question in QUESTIONS if question.check}) >= 80


# --- one catalogue ---


def test_no_cause_or_question_is_defined_twice() -> None:
    """Counted in the files themselves, as the library keeps one of each."""
    files = [read(path).data for path in sorted(trees_folder().glob("*.yaml"))]
    assert len(files) == len(TREES)
    for part in ("causes", "questions"):
        ids = Counter(entry["id"] for data in files for entry in data[part])
        assert [id for id, count in ids.items() if count > 1] == [], part


def test_a_name_means_one_thing_in_every_tree() -> None:
    """Two symptoms may be posed as one case: their events and circumstances share one space of names."""
    meaning: dict[str, object] = {}
    for tree in TREES:
        named: list[Gate | Condition] = [*tree.events, *tree.conditions]
        for one in named:
            assert one.id not in LIBRARY.causes, f"{tree.id}: {one.id} is a cause too"
            assert meaning.setdefault(one.id, one) == one, f"{tree.id}: {one.id}"


def test_every_cause_is_reached_from_its_own_tree_or_another() -> None:
    assert set().union(*(causes_of(tree) for tree in TREES)) == set(LIBRARY.causes)


# --- plain words ---

UNIT_SYMBOL = re.compile(
    r"[°ºΩµ²³%]|\d\s*(V|A|W|K|F|C|Hz|mA|kW|kPa|Pa|bar|psi|psig|gpm|m|mm|cm|in|ft|L|l|kg|lb|min|h|s|K)\b"
    r"|\b(psi[gad]?|kPa|gpm|GPM|VAC|VDC|kW|Hz|kVA|ohms?|megohms?|microns?|L/s|m3/h)\b"
)
JARGON = re.compile(
    r"\b(super-?heat\w*|sub-?cool\w*|saturat\w+|npsh|impedance|reactance|compression ratio|secondary"
    r"|(multi|volt|ohm|clamp|megohm|refracto|hydro|potentio)[- ]?meters?"
    r"|terminals?|transducers?|thermistors?|contactors?|solenoids?|overloads?|differential switch)\b",
    re.IGNORECASE,
)


LONGEST_SAID = 60
"""Words; at the 150 or so a minute of unhurried speech (from memory) that is under half a minute."""
UNITS_MEANT = {"su_units": "it asks which unit stands behind a number, so it names them"}


@pytest.mark.parametrize("tree", each_tree())
def test_a_callers_question_can_be_read_aloud(tree: Tree) -> None:
    for question in tree.questions:
        said = question.ask.caller.replace("on/off", "on and off")
        if question.id in UNITS_MEANT:
            assert UNIT_SYMBOL.search(said), f"{question.id} needs no leave any more"
            continue
        assert not UNIT_SYMBOL.search(said), (question.id, said)
        assert not JARGON.search(said), (question.id, said)
        assert not re.search(r"[/()\[\]<>=+]", said), (question.id, said)
        assert said[0].isupper(), (question.id, said)
        assert said[-1] in ".?", (question.id, said)
        assert len(said.split()) <= LONGEST_SAID, (question.id, said)


# --- licences and qualifications ---


@pytest.mark.parametrize("tree", each_tree())
def test_where_a_licence_begins_the_remedy_says_so(tree: Tree) -> None:
    """Opening a refrigerant circuit (40 CFR 82 subpart F in the USA, Regulation (EU) 2024/573, from memory) and
    work on fixed wiring are licensed nearly everywhere; which licence, local law says."""
    for cause in tree.causes:
        remedy = cause.remedy
        if remedy.state.refrigerant is Refrigerant.OPENED:
            assert remedy.who is Qualification.REFRIGERANT_HANDLER, cause.id
            assert remedy.licence, cause.id
        if remedy.state.panel is Panel.OPEN:
            assert remedy.who is Qualification.ELECTRICAL_WORKER, cause.id
            assert remedy.state.supply is Supply.ISOLATED, cause.id
            assert remedy.licence, cause.id


@pytest.mark.parametrize("tree", each_tree())
def test_the_signal_word_fits_the_hazard(tree: Tree) -> None:
    """ANSI Z535.6: DANGER for what will kill or gravely hurt if not avoided, WARNING for what could."""
    for name, work in works(tree):
        signals = {caution.signal for caution in work.cautions}
        if work.state.panel is Panel.OPEN:
            assert Signal.DANGER in signals, name
        if work.state.refrigerant is Refrigerant.OPENED:
            assert signals & {Signal.DANGER, Signal.WARNING}, name


def test_who_opens_a_refrigerant_circuit_works_on_a_dead_unit() -> None:
    opened = [
        (name, work)
        for tree in TREES
        for name, work in works(tree)
        if work.state.refrigerant is Refrigerant.OPENED
    ]
    assert opened
    for name, work in opened:
        assert work.state.supply is Supply.ISOLATED, name


# --- what must stop at once ---

BURNT = r"[Bb]urnt|[Ss]moke"
GAS = r"[Rr]efrigerant"
WATER_ON_LIVE = r"[Ww]ater (on|or|at|in|running|towards)"
UNSTABLE = r"leans|tip"
STOPS = {
    "compressor_protection": (BURNT, WATER_ON_LIVE),
    "fan_trouble": (BURNT, WATER_ON_LIVE),
    "flow_proving_trip": (BURNT, WATER_ON_LIVE),
    "high_discharge_temperature": (BURNT,),
    "high_head": (BURNT, WATER_ON_LIVE),
    "low_suction": (GAS,),
    "noise_and_vibration": (UNSTABLE, BURNT, GAS),
    "oil_trouble": (GAS,),
    "one_circuit_only": (BURNT,),
    "pump_trouble": (BURNT, WATER_ON_LIVE),
    "refrigerant_leak": (GAS, BURNT),
    "sensor_untrue": (BURNT,),
    "set_point_not_reached": (BURNT, GAS),
    "short_cycling": (BURNT,),
    "start_held_back": (BURNT,),
    "supply_breaker_opens": (BURNT, WATER_ON_LIVE),
    "supply_phase_order": (BURNT, WATER_ON_LIVE),
    "unit_dead": (BURNT, WATER_ON_LIVE),
    "water_loss": (WATER_ON_LIVE,),
}
"""What may come with the symptom and must stop everything, by tree: asked of a caller among its first three."""
NO_STOPS = {
    "freeze_protection": "what freezes bursts the barrel, and nobody is hurt who stands before it",
}
"""Trees whose symptom brings nothing that must stop at once, each with the reason."""
FIRST = 3
AWAY = re.compile(
    r"keep (well )?(away|clear|back|people|others|everyone|everybody)|get (clear|away|everyone)|everyone out"
)
HELP = re.compile(r"\bcall\b|opened upstream|emergency")


def dangers(question: Question) -> list[Caution]:
    return [caution for caution in question.cautions if caution.signal is Signal.DANGER]


def test_each_tree_is_said_to_bring_a_stop_or_not() -> None:
    assert set(STOPS).isdisjoint(NO_STOPS)
    assert set(STOPS) | set(NO_STOPS) == set(LIBRARY.trees)


@pytest.mark.parametrize(("id", "hazard"), [(id, hazard) for id, hazards in STOPS.items() for hazard in hazards])
def test_what_must_stop_at_once_is_asked_of_a_caller_among_the_first(id: str, hazard: str) -> None:
    """The answer must be had from a distance, in any plant state, before anybody is sent near the unit."""
    found = [
        question
        for question in LIBRARY.trees[id].questions[:FIRST]
        if any(re.search(hazard, caution.text) for caution in dangers(question))
    ]
    assert found
    for question in found:
        assert question.who is Qualification.CALLER, question.id
        assert not question.state.model_dump(exclude_none=True), question.id
        assert not question.bring, question.id
        assert not question.only_with, question.id
        said = " ".join(caution.text for caution in dangers(question)) + " " + question.ask.caller
        assert AWAY.search(said), question.id
        assert HELP.search(said), question.id


@pytest.mark.parametrize("id", NO_STOPS)
def test_where_nothing_must_stop_the_panels_still_say_danger(id: str) -> None:
    opened = [question for question in LIBRARY.trees[id].questions if question.state.panel is Panel.OPEN]
    assert opened
    assert all(dangers(question) for question in opened)


def test_every_page_offers_the_stops_whatever_the_tree() -> None:
    text = " ".join(stop.text for stop in LIBRARY.plant.stops)
    for hazard in (BURNT, GAS, WATER_ON_LIVE, "lean"):
        assert re.search(hazard, text), hazard


def test_what_is_lifted_is_left_to_people_trained_to_lift() -> None:
    """Common practice, no source: nobody beside or beneath, a licence line, and never work for a caller."""
    lifted = [
        cause
        for tree in TREES
        for cause in tree.causes
        if any(re.search(r"trained in lifting", caution.text) for caution in cause.remedy.cautions)
    ]
    assert {"support_giving_way", "unit_not_level", "isolators_failed"} <= {cause.id for cause in lifted}
    for cause in lifted:
        assert cause.remedy.licence, cause.id
        assert cause.remedy.who is not Qualification.CALLER, cause.id
        assert any(caution.signal is Signal.DANGER for caution in cause.remedy.cautions), cause.id

"""Every step of every shipped tree, from every plant state, for every crew: exhaustively, not by sampling."""

import re
from itertools import combinations

import pytest

from faultdoc.checks.all import registry
from faultdoc.diagnosis.plant import plant_graph, routes
from faultdoc.library.load import load_library
from faultdoc.model.safety import (
    Compressors,
    Oil,
    Panel,
    Pump,
    Qualification,
    Refrigerant,
    Supply,
    Water,
    after,
    all_states,
    hazardous,
    may,
    satisfies,
)

LIBRARY = load_library()
CREWS = [frozenset(some) for k in (1, 2) for some in combinations(Qualification, k)]
ROUTES = {who: routes(plant_graph(LIBRARY.plant.changes, 480.0), who) for who in CREWS}


def steps():
    for tree in LIBRARY.trees.values():
        for question in tree.questions:
            yield f"{tree.id}.{question.id}", question, question.ask.tech + " " + question.how
        for cause in tree.causes:
            yield f"{tree.id}.{cause.id}", cause.remedy, cause.remedy.title
            yield f"{tree.id}.{cause.id}.proof", cause.remedy.proof, cause.remedy.proof.text


STEPS = list(steps())


@pytest.mark.parametrize("who", CREWS, ids=["+".join(sorted(who)) for who in CREWS])
def test_from_every_state_the_way_to_every_step_is_allowed_and_arrives(who):
    ways, walked = ROUTES[who], 0
    for _, work, _ in STEPS:
        for start in all_states():
            path = ways.path(start, work.state)
            if path is None:
                continue
            at = start
            for change in path:
                assert satisfies(at, change.when)
                assert may(who, change.who)
                at = after(at, change)
            assert satisfies(at, work.state)
            walked += 1
    assert walked >= len(STEPS)


def test_what_is_done_in_a_hazardous_state_says_so():
    for name, work, _ in STEPS:
        if hazardous(work.state):
            assert work.cautions, name


def test_inside_a_panel_works_an_electrical_worker():
    found = 0
    for name, work, _ in STEPS:
        if work.state.panel is Panel.OPEN:
            assert may(frozenset({work.who}), Qualification.ELECTRICAL_WORKER), name
            found += 1
        if work.state.refrigerant is Refrigerant.OPENED:
            assert may(frozenset({work.who}), Qualification.REFRIGERANT_HANDLER), name
    assert found


def test_leads_and_phases_are_never_changed_live():
    found = 0
    for name, work, text in STEPS:
        if re.search(r"\b(swap|change over|changing over|exchange)\b.*\b(leads?|phases?)\b", text, re.IGNORECASE):
            assert work.state.supply is Supply.ISOLATED, name
            found += 1
    assert found


def test_nothing_is_vented_with_the_pump_running():
    """Air cannot be vented with the pump running: common practice, no source."""
    found = 0
    for name, work, text in STEPS:
        if re.search(r"\bvent\b|\bvent(s|ing)\b", text, re.IGNORECASE):
            assert work.state.pump is Pump.STOPPED, name
            found += 1
    assert found


def test_a_caller_is_asked_for_nothing_that_needs_a_tool_or_an_open_panel():
    found = 0
    for name, work, _ in STEPS:
        if work.who is Qualification.CALLER and hasattr(work, "ask"):
            assert work.state.panel is not Panel.OPEN, name
            assert work.state.water is not Water.DEPRESSURISED, name
            assert not work.bring, name
            assert not re.search(r"gauge set|meter|wrench|tester|ohm", work.instrument, re.IGNORECASE), name
            found += 1
    assert found


def test_nothing_starts_compressors_on_cold_oil():
    running = LIBRARY.plant.ready.model_copy(update={"compressors": Compressors.RUNNING})
    starts = 0
    for who in CREWS:
        for start in all_states():
            at = start
            for change in ROUTES[who].path(start, running) or ():
                if change.sets.compressors is Compressors.RUNNING:
                    assert at.oil is Oil.WARM
                    starts += 1
                at = after(at, change)
    assert starts


def test_every_check_a_question_names_is_registered():
    for tree in LIBRARY.trees.values():
        for question in tree.questions:
            assert question.check is None or question.check in registry

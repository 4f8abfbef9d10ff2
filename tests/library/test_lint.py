import inspect
import re
from dataclasses import replace
from statistics import NormalDist

import pytest

from faultdoc.library import lint as lint_module
from faultdoc.library.lint import (
    RULES,
    CheckFacts,
    distance,
    lint,
    reachable_states,
    render,
    stats,
    texts_missing,
    texts_stale,
)
from faultdoc.library.load import load_library, load_plant
from faultdoc.model.safety import Pump, Supply, all_states, satisfies
from faultdoc.model.tree import Basis, Shift, Weights

CHECKS = {
    "strainer_drop": CheckFacts(
        required=(frozenset({frozenset({"strainer_pressure_drop"})}),), optional=frozenset({"water_flow"})
    ),
    "barrel_drop": CheckFacts(
        required=(
            frozenset(
                {frozenset({"barrel_pressure_drop"}), frozenset({"barrel_in_pressure", "barrel_out_pressure"})}
            ),
            frozenset({frozenset({"water_flow"})}),
        )
    ),
}


@pytest.fixture
def warned(write, tree_text):
    """Return a function that spoils the good tree and gives its text and the warnings."""

    def spoil(*changes: tuple[str, str], **others: str):
        text = tree_text
        for old, new in changes:
            assert text.count(old) >= 1, old
            text = text.replace(old, new, 1)
        folder = write("trees/no_flow.yaml", text).parent
        for name, content in others.items():
            write(f"trees/{name}.yaml", content)
        return text, lint(load_library(folder), CHECKS)

    return spoil


def row_of(text: str, part: str) -> int:
    return text[: text.index(part)].count("\n") + 1


def test_a_good_tree_gives_no_warnings(warned) -> None:
    assert warned()[1] == []


CONTACT_ROW = "    given:\n      default: {p: {open: 0.97"
CASES = [
    # rule, what is spoilt, where the warning points, key, words of what, words of remedy
    (
        "undefined-id",
        "top: no_flow_proved",
        "top: no_flow_provd",
        "top: no_flow_provd",
        "top",
        "no event has the id 'no_flow_provd'",
        "did you mean 'no_flow_proved'?",
    ),
    (
        "undefined-id",
        "any: [strainer_clogged, valve_shut]",
        "any: [strainer_clogged, valve_shut, valve_jammed]",
        "- {id: restriction",
        "events[2] (restriction).any",
        "'valve_jammed' is no event",
        "take it out",
    ),
    (
        "undefined-id",
        "      valve_shut: {p:",
        "      valve_shot: {p:",
        "valve_shot",
        "questions[0] (valve_position).given.valve_shot",
        "no tree defines the cause 'valve_shot'",
        "did you mean 'valve_shut'?",
    ),
    (
        "undefined-id",
        "    rate: 60\n",
        "    rate: 60\n    same_as: {strainer: why}\n",
        "same_as",
        "causes[1] (valve_shut).same_as.strainer",
        "'strainer' is no other cause",
        "take it out",
    ),
    (
        "unreached",
        "any: [too_little_water, contact_open]",
        "any: [too_little_water, restriction]",
        "  - id: contact_open",
        "causes[2] (contact_open)",
        "no gate leads to this cause",
        "name it in the gate",
    ),
    (
        "unreached",
        "all: [restriction, cold_weather]",
        "any: [restriction, contact_open]",
        "- {id: cold_weather",
        "conditions[0] (cold_weather)",
        "does not lead here",
        "name it in a gate",
    ),
    (
        "unreached",
        "all: [restriction, cold_weather]",
        "all: [strainer_clogged, valve_shut, cold_weather]",
        "- {id: restriction",
        "events[2] (restriction)",
        "'no_flow_proved' does not lead here",
        "name it in a gate",
    ),
    (
        "single-child",
        "any: [too_little_water, contact_open]",
        "any: [too_little_water]",
        "- {id: no_flow_proved",
        "events[0] (no_flow_proved)",
        "one child only, 'too_little_water'",
        "where 'no_flow_proved' is named",
    ),
    (
        "cycle",
        "any: [strainer_clogged, valve_shut]",
        "any: [strainer_clogged, valve_shut, too_little_water]",
        "- {id: too_little_water",
        "events[1] (too_little_water)",
        "a cycle: too_little_water -> restriction -> too_little_water",
        "out of its gate",
    ),
    (
        "cycle",
        "any: [strainer_clogged, valve_shut]",
        "any: [strainer_clogged, valve_shut, restriction]",
        "- {id: restriction",
        "events[2] (restriction)",
        "a cycle: restriction -> restriction",
        "out of its gate",
    ),
    (
        "alike",
        "valve_shut: {p: {open: 0.02, part_open: 0.08, shut: 0.9}",
        "valve_shut: {p: {open: 0.9, part_open: 0.03, shut: 0.07}",
        "  - id: contact_open",
        "causes[2] (contact_open)",
        "no question tells 'valve_shut' from 'contact_open'",
        "same_as",
    ),
    (
        "stale-same-as",
        "    rate: 60\n",
        "    rate: 60\n    same_as: {contact_open: Same work.}\n",
        "same_as",
        "causes[1] (valve_shut).same_as.contact_open",
        "'valve_position' tells 'valve_shut' from 'contact_open'",
        "take the entry out",
    ),
    (
        "nothing-to-watch-for",
        "    points: [supply_valve_position]\n    outcomes",
        "    outcomes",
        "  - id: valve_position",
        "questions[0] (valve_position)",
        "does not say what usually makes its answer wrong",
        "add wrong_readings",
    ),
    (
        "idle-question",
        "strainer_clogged: {shift: 4.0, spread: 2.0",
        "strainer_clogged: {shift: 0.0, spread: 0.3",
        "  - id: strainer_drop",
        "questions[1] (strainer_drop)",
        "no answer to it moves any cause",
        "add rows",
    ),
    (
        "sum",
        "open: 0.97, part_open: 0.03",
        "open: 0.97, part_open: 0.02",
        "default: {p: {open",
        "questions[0] (valve_position).given.default.p",
        "add up to 0.99",
        "add up to 1",
    ),
    (
        "unknown-outcome",
        "shut: 0.9}",
        "shot: 0.9}",
        "shot: 0.9",
        "questions[0] (valve_position).given.valve_shut.p.shot",
        "no outcome 'shot'",
        "did you mean 'shut'?",
    ),
    (
        "unsourced",
        "rate: 80\n    basis: estimate",
        "rate: 80\n    basis: published",
        "basis: published",
        "causes[0] (strainer_clogged).basis",
        "no source",
        "edition and page",
    ),
    (
        "unsourced",
        "probability: 0.3, basis: estimate",
        "probability: 0.3, basis: published",
        "probability: 0.3",
        "conditions[0] (cold_weather).basis",
        "no source",
        "estimate",
    ),
    (
        "unsourced",
        "spread: 0.3, basis: estimate",
        "spread: 0.3, basis: published",
        "spread: 0.3",
        "questions[1] (strainer_drop).given.default.basis",
        "no source",
        "estimate",
    ),
    (
        "no-cautions",
        "      cautions:\n        - {signal: warning, text: See the gauge at zero before you loosen the cover.}\n",
        "",
        "    remedy:\n      title: Clean",
        "causes[0] (strainer_clogged).remedy",
        "no cautions, though it needs pump: stopped, water: depressurised",
        "what can hurt",
    ),
    (
        "no-cautions",
        "        cautions:\n          - {signal: danger, text: Live parts kill. Measure only.}\n",
        "",
        "      proof:\n        text: The contact",
        "causes[2] (contact_open).remedy.proof",
        "panel: open",
        "what can hurt",
    ),
    (
        "no-cautions",
        "    state: {pump: running}\n    who: technician",
        "    state: {compressors: running}\n    who: technician",
        "  - id: strainer_drop",
        "questions[1] (strainer_drop)",
        "compressors: running",
        "what can hurt",
    ),
    (
        "underqualified",
        "state: {supply: isolated, panel: open}\n      who: electrical_worker",
        "state: {supply: isolated, panel: open}\n      who: technician",
        "who: technician\n      cautions",
        "causes[2] (contact_open).remedy.who",
        "an open panel is not for a technician",
        "electrical_worker",
    ),
    (
        "caller",
        "instrument: Eye",
        "instrument: Clamp meter",
        "instrument: Clamp",
        "questions[0] (valve_position).instrument",
        "a caller has no instrument ('Clamp meter')",
        "who: crew or above",
    ),
    (
        "caller",
        "      minutes: 3\n      state: {}\n      who: crew",
        "      minutes: 3\n      state: {}\n      who: caller\n      tools: [Wrenches]",
        "tools: [Wrenches]",
        "causes[1] (valve_shut).remedy.tools",
        "a caller has no tools (Wrenches)",
        "who: crew or above",
    ),
    (
        "impossible-state",
        "state: {pump: running}\n    who: technician",
        "state: {pump: running, supply: isolated}\n    who: technician\n    cautions: [{signal: danger, text: x}]",
        "state: {pump: running, supply: isolated}",
        "questions[1] (strainer_drop).state",
        "no plant can be in supply: isolated, pump: running",
        "leave out",
    ),
    (
        "unknown-stock",
        "      minutes: 3\n      state: {}\n      who: crew",
        "      minutes: 3\n      state: {}\n      who: crew\n      parts: [Flow swich]",
        "parts: [Flow swich]",
        "causes[1] (valve_shut).remedy.parts[0]",
        "the stock does not know 'Flow swich'",
        "did you mean 'Flow switch'?",
    ),
    (
        "unknown-place",
        "state: {pump: running}\n    who: technician",
        "state: {pump: running}\n    who: technician\n    place: pumps",
        "place: pumps",
        "questions[1] (strainer_drop).place",
        "no place 'pumps' in resources/plant.yaml",
        "did you mean 'pump'?",
    ),
    (
        "unknown-place",
        "state: {pump: running}\n    who: technician",
        "state: {pump: running}\n    who: technician\n    bring: [divining_rod]",
        "bring: [divining_rod]",
        "questions[1] (strainer_drop).bring[0]",
        "no instrument 'divining_rod' in resources/plant.yaml",
        "pressure_gauge",
    ),
    (
        "unknown-place",
        "      minutes: 3\n      state: {}\n      who: crew",
        "      minutes: 3\n      state: {}\n      who: crew\n      resets: pump_overlod",
        "resets: pump_overlod",
        "causes[1] (valve_shut).remedy.resets",
        "no protective device 'pump_overlod' in resources/plant.yaml",
        "did you mean 'pump_overload'?",
    ),
    (
        "unknown-point",
        "points: [strainer_pressure_drop, water_flow]",
        "points: [strainer_pressure_drop, water_flo]",
        "water_flo]",
        "questions[1] (strainer_drop).points[1]",
        "no measuring point 'water_flo'",
        "did you mean 'water_flow'?",
    ),
    (
        "unknown-point",
        "points: [flow_switch_contact]",
        "points: [switch]",
        "points: [switch]",
        "causes[2] (contact_open).remedy.proof.points[0]",
        "no measuring point 'switch'",
        "resources/points.yaml",
    ),
    (
        "unknown-check",
        "check: strainer_drop",
        "check: strainer_dp",
        "check: strainer_dp",
        "questions[1] (strainer_drop).check",
        "no check 'strainer_dp'",
        "did you mean 'strainer_drop'?",
    ),
    (
        "check-needs",
        "points: [strainer_pressure_drop, water_flow]",
        "points: [water_flow]",
        "points: [water_flow]",
        "questions[1] (strainer_drop).points",
        "the check 'strainer_drop' needs strainer_pressure_drop",
        "add it",
    ),
    (
        "check-needs",
        "points: [strainer_pressure_drop, water_flow]",
        "points: [strainer_pressure_drop, frequency]",
        "frequency",
        "questions[1] (strainer_drop).points[1]",
        "makes no use of 'frequency'",
        "take it out",
    ),
    (
        "choice-outcomes",
        "- {id: part_open, title: Part open}",
        "- {id: ajar, title: Part open}",
        "    outcomes:",
        "questions[0] (valve_position).outcomes",
        "not the choices of the point 'supply_valve_position'",
        "open, part_open, shut",
    ),
]


@pytest.mark.parametrize(("rule", "old", "new", "marked", "key", "what", "remedy"), CASES)
def test_each_rule(warned, rule, old, new, marked, key, what, remedy) -> None:
    text, warnings = warned((old, new))
    mine = [warning for warning in warnings if (warning.rule, warning.key) == (rule, key)]
    assert len(mine) == 1, render(warnings)
    assert mine[0].line == row_of(text, marked)
    assert mine[0].file.endswith("no_flow.yaml")
    assert what in mine[0].what
    assert remedy in mine[0].remedy


def test_every_rule_has_a_case_that_triggers_it() -> None:
    named = set(re.findall(r'\.warn\(\s*"([a-z-]+)"', inspect.getsource(lint_module)))
    assert {case[0] for case in CASES} == named
    # Those of other languages name the language; test_languages.py triggers them.
    assert len(set(RULES) - {texts_missing, texts_stale}) <= len(named)


def test_causes_declared_the_same_are_not_reported(warned) -> None:
    spoil = (
        "valve_shut: {p: {open: 0.02, part_open: 0.08, shut: 0.9}",
        "valve_shut: {p: {open: 0.97, part_open: 0.03}",
    )
    _, warnings = warned(spoil, ("    rate: 60\n", "    rate: 60\n    same_as: {contact_open: Same work.}\n"))
    assert [warning.rule for warning in warnings] == ["idle-question"]


def test_an_opened_circuit_is_for_a_refrigerant_handler(warned) -> None:
    state = "    state: {refrigerant: opened}\n    cautions: [{signal: danger, text: x}]\n    who: "
    _, warnings = warned(("    state: {pump: running}\n    who: technician", state + "electrical_worker"))
    assert {warning.rule: warning.remedy for warning in warnings}["underqualified"].startswith(
        "write who: refrigerant_handler"
    )
    _, warnings = warned(("    state: {pump: running}\n    who: technician", state + "refrigerant_handler"))
    assert warnings == []


def test_a_state_that_no_change_leads_to(write, tree_text) -> None:
    library = load_library(write("trees/no_flow.yaml", tree_text).parent)
    changes = tuple(change for change in library.plant.changes if change.id != "isolate_supply")
    library = replace(library, plant=library.plant.model_copy(update={"changes": changes}))
    (warning,) = lint(library, CHECKS)
    assert warning.rule == "impossible-state"
    assert warning.key == "causes[2] (contact_open).remedy.state"
    assert warning.what == "no change of the plant leads to supply: isolated, panel: open"
    assert "resources/plant.yaml" in warning.remedy


def test_a_caller_opens_no_panel(warned) -> None:
    state = "    state: {panel: open}\n    cautions: [{signal: danger, text: x}]\n    who: caller"
    _, warnings = warned(("    state: {}\n    who: caller", state))
    assert {warning.rule for warning in warnings} == {"underqualified", "caller"}
    assert "a caller opens no panel" in [warning.what for warning in warnings]


def test_two_gauges_serve_a_check_as_well_as_one(warned) -> None:
    check = ("    check: strainer_drop", "    check: barrel_drop")
    points = "points: [strainer_pressure_drop, water_flow]"
    gauges = (points, "points: [barrel_in_pressure, barrel_out_pressure, water_flow]")
    assert warned(check, gauges)[1] == []
    _, (warning,) = warned(check, (points, "points: [barrel_in_pressure, water_flow]"))
    assert warning.what == (
        "the check 'barrel_drop' needs barrel_pressure_drop or barrel_in_pressure with barrel_out_pressure"
    )


def test_a_cause_that_only_another_tree_reaches_is_reached(warned) -> None:
    other = (
        "id: freeze_trip\ntitle: T\nsymptom: S\ntop: too_cold\n"
        "events: [{id: too_cold, title: Too cold, any: [contact_open, valve_shut]}]\ncauses: []\nquestions: []\n"
    )
    change = ("any: [too_little_water, contact_open]", "any: [too_little_water, restriction]")
    _, warnings = warned(change, other=other)
    assert [warning.rule for warning in warnings if warning.file.endswith("no_flow.yaml")] == []
    (alike,) = warnings
    assert alike.what == "no question tells 'valve_shut' from 'contact_open'"
    assert alike.file.endswith("other.yaml")


def test_a_cycle_of_three_is_named_in_order(warned) -> None:
    _, warnings = warned(
        ("any: [too_little_water, contact_open]", "any: [too_little_water, contact_open]"),
        ("any: [strainer_clogged, valve_shut]", "any: [strainer_clogged, valve_shut, no_flow_proved]"),
    )
    (cycle,) = [warning for warning in warnings if warning.rule == "cycle"]
    assert cycle.what == "a cycle: no_flow_proved -> too_little_water -> restriction -> no_flow_proved"


def test_warnings_come_in_the_order_of_lines_and_are_rendered_one_a_line(warned) -> None:
    _, warnings = warned(("open: 0.97", "open: 0.98"), ("instrument: Eye", "instrument: Ladder"))
    assert [warning.rule for warning in warnings] == ["caller", "sum"]
    lines = render(warnings).split("\n")
    assert lines[-1] == "2 warnings"
    assert lines[1].endswith("the probabilities add up to 1.01; change them to add up to 1 [sum]")
    assert f"no_flow.yaml:{warnings[1].line}: questions[0] (valve_position).given.default.p: " in lines[1]


def test_stats_count_what_there_is(write, tree_text) -> None:
    text = tree_text.replace(
        "valve_shut: {p: {open: 0.02, part_open: 0.08, shut: 0.9}", "valve_shut: {p: {open: 0.97, part_open: 0.03}"
    )
    library = load_library(write("trees/no_flow.yaml", text).parent)
    warnings = lint(library, CHECKS)
    found = stats(library, warnings)["no_flow"]
    # Of the three pairs the strainer's question parts the strainer from the other two.
    assert (found.causes, found.questions, found.readings) == (3, 2, 1)
    assert (found.told_apart, found.pairs, found.warnings) == (2, 3, 2)


def test_distance_of_shifts_is_one_less_the_overlap() -> None:
    # Two normals of one spread, d apart: total variation 2 Φ(d / 2) - 1 (textbook; for d = 2, 0.6827).
    one, other = (Shift(shift=shift, spread=0.8, basis=Basis.ESTIMATE) for shift in (0.0, 2.0))
    assert distance(one, other, 0.6) == pytest.approx(2 * NormalDist().cdf(1.0) - 1)
    assert distance(one, other, 0.6) == pytest.approx(0.6827, abs=1e-4)
    assert distance(one, one, 0.6) == 0.0


def test_distance_of_weights() -> None:
    rows = [Weights(p=p, basis=Basis.ESTIMATE) for p in ({"a1": 1.0}, {"b1": 1.0}, {"a1": 0.4, "b1": 0.6})]
    assert distance(rows[0], rows[1], 0.05) == 1.0
    assert distance(rows[0], rows[2], 0.05) == pytest.approx(0.6)
    assert distance(rows[0], Shift(shift=0.0, spread=1.0, basis=Basis.ESTIMATE), 0.05) == 1.0


def test_reachable_states_of_the_own_plant() -> None:
    plant = load_plant()
    reachable = reachable_states(plant)
    assert reachable <= set(all_states())
    assert any(state.supply is Supply.ISOLATED for state in reachable)
    assert all(state.pump is Pump.STOPPED for state in reachable if state.supply is Supply.ISOLATED)
    still = plant.model_copy(update={"changes": plant.changes[:1]})  # stopping the compressors leads nowhere new
    assert reachable_states(still) == {state for state in all_states() if satisfies(state, plant.ready)}


@pytest.mark.parametrize(("shut", "alike"), [(0.08, True), (0.12, False)])
def test_a_small_difference_does_not_tell_causes_apart(warned, shut, alike) -> None:
    row = f"valve_shut: {{p: {{open: {0.97 - shut:.2f}, part_open: 0.03, shut: {shut}}}"
    _, warnings = warned(("valve_shut: {p: {open: 0.02, part_open: 0.08, shut: 0.9}", row))
    assert [warning.rule for warning in warnings] == (["alike"] if alike else [])


def test_a_change_into_a_state_that_cannot_be_leads_nowhere() -> None:
    plant = load_plant()
    (isolate,) = (change for change in plant.changes if change.id == "isolate_supply")
    careless = isolate.model_copy(update={"when": isolate.when.model_copy(update={"pump": Pump.RUNNING})})
    reachable = reachable_states(plant.model_copy(update={"changes": (careless,)}))
    assert not any(state.supply is Supply.ISOLATED for state in reachable)


def test_questions_to_a_caller_and_what_to_say_when_the_caller_hesitates_are_counted():
    library = load_library()
    counts = stats(library, [])
    for id, tree in library.trees.items():
        asked = [one for one in tree.questions if one.who.value == "caller"]
        assert counts[id].caller == len(asked)
        assert counts[id].helped == sum(bool(one.ask.hesitates) for one in asked)
    # Five trees are worded throughout.
    worded = {id for id, one in counts.items() if one.helped == one.caller}
    assert worded >= {"flow_proving_trip", "unit_dead", "start_held_back", "pump_trouble", "high_head"}

"""What must hold of the fault tree for a flow proving trip, beyond what holds of every tree."""

from __future__ import annotations

import re

import numpy as np
import pytest

from faultdoc.checks.all import registry
from faultdoc.diagnosis.assess import Bench, assess, bench_for
from faultdoc.diagnosis.graph import fault_graph, symptom_probability
from faultdoc.diagnosis.likelihood import ChoiceModel, ResidualModel, residual_likelihood
from faultdoc.library.load import Library, load_case, load_library, load_unit
from faultdoc.library.places import resources_folder
from faultdoc.library.source import read
from faultdoc.model.base import Measured
from faultdoc.model.safety import Panel, Pump, Qualification, Signal, Supply, Water
from faultdoc.model.tree import Proof, Question, Remedy, Shift, System, Tree, Weights
from faultdoc.quantities import System as Units
from faultdoc.quantities import parse

ID = "flow_proving_trip"
UNITS = ("bluff_30", "marten_60")
CASES = {
    "demo": "strainer_clogged",
    "after_the_motor_change": "pump_leads_swapped",
    "good_drop_no_proof": "dp_line_blocked",
    "six_floors_up": "loop_underfilled",
    "fitters_on_the_pipework": "paddle_broken",
    "hums_and_gives_up": "pump_single_phased",
}
"""The cause that each case file was written for."""


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()


@pytest.fixture(scope="module")
def tree(library: Library) -> Tree:
    return library.trees[ID]


@pytest.fixture(scope="module")
def benches(library: Library) -> dict[str, Bench]:
    return {unit: bench_for(library, load_unit(unit), (ID,)) for unit in UNITS}


def works(tree: Tree) -> list[tuple[str, Question | Remedy | Proof]]:
    found: list[tuple[str, Question | Remedy | Proof]] = [(question.id, question) for question in tree.questions]
    for cause in tree.causes:
        found += [(cause.id, cause.remedy), (f"proof of {cause.id}", cause.remedy.proof)]
    return found


def test_it_is_broad_enough(tree: Tree) -> None:
    assert len(tree.causes) >= 22
    assert len(tree.questions) >= 25
    assert {cause.system for cause in tree.causes} >= {
        System.WATER, System.ELECTRICAL, System.CONTROL, System.SITE
    }  # fmt: skip
    used = {question.check for question in tree.questions if question.check}
    assert len(used) >= 12
    assert used <= set(registry)


def test_two_faults_at_once_are_rare(tree: Tree) -> None:
    """Common practice: most trips have one cause, so the rates together stay well below one visit in five."""
    assert 60 <= sum(cause.rate for cause in tree.causes) <= 150


def test_all_kinds_of_gate_and_an_inhibit_condition_are_there(tree: Tree) -> None:
    conditions = {condition.id for condition in tree.conditions}
    assert any(gate.any for gate in tree.events)
    assert any(gate.all and conditions & set(gate.all) for gate in tree.events)
    assert any(gate.all and not conditions & set(gate.all) for gate in tree.events)
    assert any(gate.at_least for gate in tree.events)


@pytest.mark.parametrize(
    ("causes", "chance"),
    [
        # One lost phase of the pump's own stops it; one lost on the supply only where nothing holds the pump off.
        ({"pump_single_phased"}, 1.0),
        ({"supply_phase_missing"}, 0.5),
        # A joint draws air in only under vacuum, which a clogged strainer makes, and by itself would do.
        ({"suction_joint_leaking"}, 0.3),
        ({"suction_joint_leaking", "loop_underfilled"}, 0.3 + 0.7),
        # A low standing pressure breaks the flow only in a tall loop.
        ({"loop_underfilled"}, 0.35),
        # Thick glycol needs a loop with little to spare, or a second burden.
        ({"glycol_too_thick"}, 0.4),
        ({"glycol_too_thick", "hose_run_too_small"}, 1.0),
        # A bypass takes the flow only of a pump that is not the unit's own.
        ({"bypass_open"}, 0.15),
        (set(), 0.0),
    ],
)
def test_what_brings_the_symptom_about(library: Library, tree: Tree, causes: set[str], chance: float) -> None:
    graph = fault_graph([tree], library.causes)
    assert symptom_probability(graph, causes) == pytest.approx(chance)


@pytest.mark.parametrize(("unit", "absent"), [("bluff_30", "paddle_broken"), ("marten_60", "dp_line_blocked")])
def test_each_unit_gets_the_causes_of_its_own_flow_switch(
    benches: dict[str, Bench], unit: str, absent: str
) -> None:
    causes = benches[unit].problem.causes
    assert absent not in causes
    assert {"switch_failed", "strainer_clogged", "pump_overload_tripped"} <= set(causes)


def test_every_proof_is_a_reading_of_the_vocabulary(library: Library, tree: Tree) -> None:
    for cause in tree.causes:
        assert set(cause.remedy.proof.points) <= set(library.points), cause.id


def test_a_caller_needs_no_tool_and_no_panel(tree: Tree) -> None:
    asked = [question for question in tree.questions if question.who is Qualification.CALLER]
    assert len(asked) >= 10
    for question in asked:
        assert question.state.panel is not Panel.OPEN, question.id
        assert question.state.water is not Water.DEPRESSURISED, question.id
        assert not re.search(r"meter|gauge|wrench|refractometer|driver", question.instrument.lower()), question.id
    for cause in tree.causes:
        assert cause.remedy.who is not Qualification.CALLER, cause.id


def test_a_caller_is_told_to_leave_panels_shut(tree: Tree) -> None:
    for question in tree.questions:
        if question.state.panel is Panel.OPEN:
            words = question.ask.caller.lower()
            assert "leave the panel shut" in words or "leave the switch on the pipe alone" in words, question.id


def test_work_in_an_open_panel_is_an_electrical_workers_and_says_danger(tree: Tree) -> None:
    for name, work in works(tree):
        if work.state.panel is Panel.OPEN:
            assert work.who is Qualification.ELECTRICAL_WORKER, name
            assert work.state.supply is not None, name
            assert any(caution.signal is Signal.DANGER for caution in work.cautions), name


def test_remedies_in_an_open_panel_are_on_a_dead_supply(tree: Tree) -> None:
    """Only measuring is done live; nothing is connected, swapped or tightened."""
    for cause in tree.causes:
        if cause.remedy.state.panel is Panel.OPEN:
            assert cause.remedy.state.supply is Supply.ISOLATED, cause.id


def test_opening_the_water_side_says_warning(tree: Tree) -> None:
    for name, work in works(tree):
        if work.state.water is Water.DEPRESSURISED:
            assert any(caution.signal is Signal.WARNING for caution in work.cautions), name


def test_venting_is_for_a_stopped_pump_only(tree: Tree) -> None:
    """Common practice: a running pump draws air in at a vent on its suction side, and carries the rest round."""

    def words(work: Question | Remedy | Proof) -> tuple[str, ...]:
        return work.steps if isinstance(work, Remedy) else (work.how,) if isinstance(work, Question) else ()

    vent = re.compile(r"\bvent(s|ing)?\b", re.IGNORECASE)
    venting = [(name, work) for name, work in works(tree) if any(vent.search(text) for text in words(work))]
    assert {"air_in_loop", "loop_underfilled", "vents_tried"} <= {name for name, _ in venting}
    for name, work in venting:
        assert work.state.pump is Pump.STOPPED or work.state.water is Water.DEPRESSURISED, name


@pytest.mark.parametrize("cause", ["pump_leads_swapped", "supply_phases_reversed", "pump_motor_failed"])
def test_leads_are_changed_on_a_dead_supply_only(library: Library, cause: str) -> None:
    remedy = library.causes[cause].remedy
    assert remedy.state.supply is Supply.ISOLATED
    assert remedy.who is Qualification.ELECTRICAL_WORKER
    assert any(caution.signal is Signal.DANGER for caution in remedy.cautions)


def test_the_shaft_is_touched_on_a_dead_supply_only(tree: Tree) -> None:
    touched = [
        (name, work)
        for name, work in works(tree)
        if any("shaft or open the pump" in caution.text for caution in work.cautions)
    ]
    assert {"pump_seized", "pump_coupling_slipped", "pump_impeller_poor"} <= {name for name, _ in touched}
    for name, work in touched:
        assert work.state.supply is Supply.ISOLATED, name


def test_no_remedy_bridges_the_flow_switch(tree: Tree) -> None:
    """Whoever works on the proving circuit is told that running without it bursts the barrel."""
    for cause in tree.causes:
        if cause.id.startswith(("switch_", "paddle_", "control_input")):
            assert any("bridged" in caution.text for caution in cause.remedy.cautions), cause.id


def test_phase_order_is_told_from_the_pumps_own_leads(tree: Tree) -> None:
    """Both turn the pump backwards; only the supply's sequence parts them, so its rows must differ most."""
    sequence = next(question for question in tree.questions if question.id == "phase_sequence")
    own = sequence.given.get("pump_leads_swapped", sequence.given["default"])
    supply = sequence.given["supply_phases_reversed"]
    assert isinstance(own, Weights)
    assert isinstance(supply, Weights)
    assert own.p["forward"] > 0.9
    assert supply.p["reversed"] > 0.9


def test_a_shut_valve_leaves_the_pump_its_shut_off_head_and_a_backward_pump_does_not(tree: Tree) -> None:
    """Common practice, no source: reversed, a centrifugal pump gives about half to two thirds of its head."""
    question = next(question for question in tree.questions if question.check == "pump_dead_head")
    for cause in ("supply_valve_shut", "load_valves_shut", "strainer_clogged"):
        assert cause not in question.given
    for cause in ("pump_leads_swapped", "supply_phases_reversed"):
        row = question.given[cause]
        assert isinstance(row, Shift)
        assert 0.5 <= 1.0 + row.shift <= 0.67


def test_fifty_hertz_on_a_sixty_hertz_pump_fits_the_affinity_laws(tree: Tree) -> None:
    """Affinity laws (ANSI/HI 14.3, from memory): shut-off head goes with the square of the speed."""
    question = next(question for question in tree.questions if question.check == "pump_dead_head")
    row = question.given["supply_frequency_low"]
    assert isinstance(row, Shift)
    assert row.shift - row.spread < (50.0 / 60.0) ** 2 - 1.0 < row.shift + row.spread


@pytest.mark.parametrize("unit", UNITS)
def test_every_cause_answered_as_itself_comes_first(benches: dict[str, Bench], unit: str) -> None:
    """With each question answered as is likeliest under a cause, no other cause or pair of causes beats it."""
    problem = benches[unit].problem
    sets = problem.sets
    for place, cause in enumerate(sets.causes):
        log = sets.log_prior.copy()
        for id, model in problem.models.items():
            question = problem.questions[id]
            row = question.given.get(cause, question.given["default"])
            if isinstance(model, ChoiceModel):
                assert isinstance(row, Weights)
                likeliest = max(row.p, key=row.p.__getitem__)
                outcome = [outcome.id for outcome in question.outcomes].index(likeliest)
                log += np.log(model.table(sets)[:, outcome])
            else:
                assert isinstance(model, ResidualModel)
                assert isinstance(row, Shift)
                meter = np.array([[model.meter**2]])
                log += np.log(residual_likelihood([model], np.array([row.shift]), meter, sets))
        weights = np.exp(log - log.max())
        singles, pairs = sets.singles_and_pairs(weights / weights.sum())
        belief = singles + pairs.sum(axis=1)
        assert belief.argmax() == place, cause
        assert belief[place] > 0.5, cause


@pytest.mark.parametrize("name", CASES)
def test_the_true_cause_of_each_case_comes_first(library: Library, name: str) -> None:
    case = load_case(resources_folder() / "cases" / f"{name}.yaml", library)
    assert case.conclusion is None
    looked = assess(bench_for(library, load_unit(case.unit), case.symptoms), case)
    first = looked.bench.problem.sets.causes[int(np.argmax(looked.belief.marginal))]
    assert first == CASES[name]
    if name != "demo":
        assert looked.belief.marginal.max() > 0.6
    assert looked.belief.misfits == ()


def test_the_cases_are_six_with_six_causes_on_both_units(library: Library) -> None:
    files = {path.stem for path in (resources_folder() / "cases").glob("*.yaml")}
    assert files >= set(CASES)
    assert len(set(CASES.values())) == len(CASES) == 6
    units = [load_case(resources_folder() / "cases" / f"{name}.yaml", library).unit for name in CASES]
    assert (units.count("bluff_30"), units.count("marten_60")) == (4, 2)


def test_the_demo_script_answers_everything_and_finds_its_cause(
    library: Library, benches: dict[str, Bench]
) -> None:
    script = read(resources_folder() / "demo_script.yaml").data
    bench = benches["bluff_30"]
    case = load_case(resources_folder() / "cases" / "demo.yaml", library)
    readings = dict(case.readings)
    for question in bench.problem.questions.values():
        if question.check is None:
            assert script["answers"][question.id] in {outcome.id for outcome in question.outcomes}, question.id
        else:
            assert set(question.points) <= set(script["readings"]), question.id
    for point, text in script["readings"].items():
        readings[point] = Measured.from_quantity(parse(text, library.points[point].kind, need_unit=True))
    full = case.model_copy(update={"readings": readings, "answers": script["answers"]})
    looked = assess(bench, full)
    causes = bench.problem.sets.causes
    assert looked.belief.marginal[causes.index(script["cause"])] > 0.95
    assert looked.doubts(Units.US) == []

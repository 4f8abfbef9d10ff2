"""Whole looks at cases on the shipped tree: what is proposed is always allowed, and always explained."""

import random
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.diagnosis.assess import assess, bench_for, change_minutes, choice_point
from faultdoc.diagnosis.explain import (
    as_json,
    for_and_against,
    likely_causes,
    misfit_sentences,
    strength,
    what_would_change,
    why_next,
)
from faultdoc.library.load import load_case, load_library, load_unit, units
from faultdoc.library.places import resources_folder
from faultdoc.library.vocabulary import believable_or_none
from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Conclusion
from faultdoc.model.safety import Oil, Panel, PlantState, Pump, Qualification, Water, may, satisfies
from faultdoc.quantities import Kind, System
from faultdoc.record import moves

LIBRARY = load_library()
BENCHES = {unit: bench_for(LIBRARY, load_unit(unit), ("flow_proving_trip",)) for unit in ("bluff_30", "marten_60")}
STANDING = PlantState.model_validate(
    {"supply": "energised", "panel": "closed", "pump": "stopped", "water": "pressurised",
     "compressors": "stopped", "oil": "warm"}
)  # fmt: skip


def new_case(unit="bluff_30", who=("electrical_worker",), **changes):
    made = {"unit": unit, "symptoms": ["flow_proving_trip"], "state": STANDING.model_dump(mode="json"),
            "who": list(who), **changes}  # fmt: skip
    return Case.model_validate(made)


def random_reading(rng, point):
    """Any value the point's vocabulary can believe in."""
    known = LIBRARY.points[point]
    if known.kind is Kind.CHOICE:
        return rng.choice(known.choices).id
    least, most = believable_or_none(known)
    return Measured(kind=known.kind, value=rng.uniform(least, most), text="made up")


def carry_out(rng, bench, case, step):
    """Do what is proposed, with a random finding."""
    if step.kind == "state_change":
        change = next(one for one in LIBRARY.plant.changes if one.id == step.id)
        assert satisfies(case.state, change.when)
        return moves.change_state(case, change)
    if step.kind == "question":
        question = bench.problem.questions[step.id]
        if rng.random() < 0.1:
            return moves.answer(case, step.id, rng.choice(["not_sure", "could_not_measure"]))
        if question.outcomes and not question.points:
            return moves.answer(case, step.id, rng.choice(question.outcomes).id)
        for point in question.points:
            case = moves.read(case, point, random_reading(rng, point))
        if question.outcomes and choice_point(question, bench) is None:
            case = moves.answer(case, step.id, rng.choice(question.outcomes).id)
        elif question.check:
            # What the readings do not allow to be checked is answered by saying so.
            case = moves.answer(case, step.id, "could_not_measure")
        return case
    if step.kind == "remedy":
        return moves.repaired(case, step.id)
    if step.kind == "proof":
        return moves.proved(case, rng.random() < 0.2)
    raise AssertionError(step.kind)


def assert_allowed(case, step):
    assert satisfies(case.state, step.state), (step, case.state)
    assert may(frozenset(case.who), step.who), step
    if step.kind == "question" and re.search(r"(^|_)vent", step.id):
        assert case.state.pump is Pump.STOPPED
    if step.kind == "state_change" and step.id == "start_compressors":
        assert case.state.oil is Oil.WARM
    if step.kind != "state_change" and frozenset(case.who) == {Qualification.CALLER}:
        assert case.state.panel is Panel.CLOSED
        assert case.state.water is Water.PRESSURISED


@settings(deadline=None, max_examples=25)
@given(
    seed=st.integers(0, 2**32 - 1),
    unit=st.sampled_from(sorted(BENCHES)),
    who=st.sampled_from([("caller",), ("crew",), ("technician",), ("electrical_worker",)]),
)
def test_every_step_of_a_random_case_is_allowed_and_it_ends(seed, unit, who):
    walk(random.Random(seed), BENCHES[unit], new_case(unit, who))


def walk(rng, bench, case):
    """Do what is proposed until the case ends; every step must be allowed."""
    for _ in range(400):
        look = assess(bench, case)
        assert look.belief.marginal.min() >= 0
        assert look.belief.weights.sum() == pytest.approx(1.0)
        assert_allowed(case, look.next)
        if look.next.kind in ("done", "hand_over"):
            break
        case = carry_out(rng, bench, case, look.next)
    else:
        pytest.fail("400 steps and no end")
    if case.tried and case.tried[-1].proved and look.next.kind == "done":
        assert case.state.compressors.value == "running"


def units_for(*trees):
    return [
        id
        for id in units()
        if all(set(LIBRARY.trees[tree].applies_to) <= set(load_unit(id).features) for tree in trees)
    ]


@pytest.mark.parametrize("tree", LIBRARY.trees)
@pytest.mark.parametrize("who", ["caller", "crew", "electrical_worker"])
def test_every_tree_walks_to_an_end_for_everyone(tree, who):
    rng = random.Random(f"{tree} {who}")
    unit = rng.choice(units_for(tree))
    bench = bench_for(LIBRARY, load_unit(unit), (tree,))
    walk(rng, bench, new_case(unit, (who,), symptoms=[tree]))


def test_two_symptoms_at_once_are_one_diagnosis():
    """Causes that bring both about come first; one shared by both trees is counted once."""
    named = {id: {child for gate in tree.events for child in (gate.any or gate.all or gate.of)}
             for id, tree in LIBRARY.trees.items()}  # fmt: skip
    pairs = [
        (one, other)
        for one in named
        for other in named
        if one < other and named[one] & named[other] & set(LIBRARY.causes) and units_for(one, other)
    ]
    done = 0
    for one, other in pairs:
        sheet = load_unit(units_for(one, other)[0])
        shared = set.intersection(
            *(set(bench_for(LIBRARY, sheet, (id,), 1).problem.causes) for id in (one, other))
        )
        bench = bench_for(LIBRARY, sheet, (one, other))
        look = assess(bench, new_case(sheet.id, symptoms=[one, other]))
        causes = bench.problem.sets.causes
        assert len(causes) == len(set(causes))
        singles = {causes[members[0]] for members in bench.problem.sets.members[bench.problem.sets.sizes == 1]}
        assert singles <= shared
        if singles:
            by_belief = dict(zip(causes, look.belief.marginal, strict=True))
            assert max(by_belief[cause] for cause in singles) > look.belief.marginal.mean()
            done += 1
        if done == 2:
            break
    assert done or not pairs


def test_the_warm_up_left_is_shown_and_priced():
    bench = BENCHES["bluff_30"]
    cold = PlantState.model_validate({**STANDING.model_dump(), "oil": "cold"})
    case = moves.set_state(new_case(), cold)
    energised = Measured(kind=Kind.TIME, value=5 * 3600.0, text="5 h")
    later = moves.read(case, "hours_energised_since_power_up", energised)
    warm_oil = next(one for one in LIBRARY.plant.changes if one.id == "warm_oil")
    assert change_minutes(bench, case, warm_oil) == 480.0
    assert change_minutes(bench, later, warm_oil) == 180.0
    nothing, some = assess(bench, case).plan, assess(bench, later).plan
    assert some.expected_minutes < nothing.expected_minutes
    off = PlantState.model_validate({**cold.model_dump(), "supply": "isolated"})
    assert change_minutes(bench, moves.set_state(later, off), warm_oil) == 480.0


def test_a_proof_of_what_is_not_in_play_is_refused():
    case = new_case(unproved="fan_stage_not_called")
    assert "fan_stage_not_called" in LIBRARY.causes
    with pytest.raises(ValueError, match=r"fan_stage_not_called.*is no cause of these symptoms"):
        assess(BENCHES["bluff_30"], case)


def test_a_closed_case_has_nothing_next():
    case = moves.conclude(new_case(), Conclusion(outcome="made_safe"))
    assert assess(BENCHES["bluff_30"], case).next.kind == "done"


def test_answers_change_and_come_back():
    """Any answer can be changed or taken back; the look depends on the case alone."""
    bench, empty = BENCHES["bluff_30"], new_case()
    before = assess(bench, empty)
    backwards = moves.read(empty, "pump_rotation", "reversed")
    after = assess(bench, backwards)
    assert likely_causes(after)[0].id == "pump_leads_swapped"
    forward = moves.read(backwards, "pump_rotation", "forward")
    assert likely_causes(assess(bench, forward))[0].id != "pump_leads_swapped"
    cleared = assess(bench, moves.clear_reading(backwards, "pump_rotation"))
    assert cleared.belief.marginal == pytest.approx(before.belief.marginal, abs=0)


def test_not_sure_says_nothing_and_is_not_asked_again():
    bench, case = BENCHES["bluff_30"], new_case()
    first = assess(bench, case)
    asked = next(option.id for option in first.plan.options if option.kind == "question")
    look = assess(bench, moves.answer(case, asked, "not_sure"))
    assert look.belief.marginal == pytest.approx(first.belief.marginal, abs=0)
    assert asked not in {option.id for option in look.plan.options}


def test_a_question_put_off_comes_back():
    bench, case = BENCHES["bluff_30"], new_case()
    asked = next(option.id for option in assess(bench, case).plan.options if option.kind == "question")
    aside = moves.set_aside(case, asked)
    assert asked not in {option.id for option in assess(bench, aside).plan.options}
    assert asked in {option.id for option in assess(bench, moves.bring_back(aside, asked)).plan.options}


CASES = sorted((resources_folder() / "cases").glob("*.yaml"))


@pytest.mark.parametrize("path", CASES, ids=[path.stem for path in CASES])
def test_shipped_cases_are_explained(path):
    case = load_case(path, LIBRARY)
    look = assess(BENCHES[case.unit], case)
    best = likely_causes(look)[0]
    reasons = for_and_against(look, best.id, System.US)
    assert reasons[0].text.startswith("How often")
    total = sum(reason.decibans for reason in reasons)
    odds = 10 ** (total / 10)
    assert odds / (1 + odds) == pytest.approx(best.probability, rel=1e-6)
    for reason in reasons[1:]:
        assert reason.strength == strength(reason.decibans)
        assert reason.text
    assert len(why_next(look)) >= 2
    assert 0.0 <= look.belief.left_out < 0.1
    found = as_json(look, System.SI)
    assert [one["probability"] for one in found["causes"]] == sorted(
        (one["probability"] for one in found["causes"]), reverse=True
    )
    assert found["next"]["kind"] == look.next.kind
    for made, told in zip(look.checks, found["checks"], strict=True):
        assert told["deviation"] == pytest.approx((told["measured"] - told["expected"]) / told["uncertainty"])
        assert told["id"] == made.id


def test_what_would_change_is_what_changes():
    """Giving the answer named really puts the cause named first."""
    bench, case = BENCHES["bluff_30"], new_case()
    look = assess(bench, case)
    lines = what_would_change(look, questions=12)
    assert lines
    tried = 0
    for id in [option.id for option in look.plan.options if option.kind == "question"][:12]:
        question = bench.problem.questions[id]
        for outcome in question.outcomes:
            named = [line for line in lines if line.startswith(f"{question.ask.tech} '{outcome.title}'")]
            point = question.points[0] if len(question.points) == 1 else None
            after = moves.read(case, point, outcome.id) if point else moves.answer(case, id, outcome.id)
            first = likely_causes(assess(bench, after))[0]
            if named:
                assert f"'{first.title}' first" in named[0]
                tried += 1
    assert tried


def test_readings_that_fit_nothing_are_named():
    """A pump with full power and full flow, and a switch that says so, beside a valve found shut."""
    bench = BENCHES["bluff_30"]
    case = new_case()
    for question, outcome in (
        ("pump_sound", "smooth"),
        ("stop_timing", "comes_and_goes"),
        ("status_shows_flow", "shown"),
    ):
        ids = [one.id for one in bench.problem.questions[question].outcomes]
        case = moves.answer(case, question, outcome if outcome in ids else ids[0])
    assert not misfit_sentences(assess(bench, case), System.US)
    case = moves.read(case, "hours_energised_since_power_up", Measured(kind=Kind.TIME, value=60.0, text="1 min"))
    wild = {"pump_current_l1": 0.0, "pump_current_l2": 0.0, "pump_current_l3": 0.0}
    for point, value in wild.items():
        case = moves.read(case, point, Measured(kind=Kind.CURRENT, value=value, text="0 A"))
    case = moves.read(case, "water_flow", Measured(kind=Kind.VOLUME_FLOW, value=0.02, text="20 L/s"))
    case = moves.read(
        case, "barrel_pressure_drop", Measured(kind=Kind.PRESSURE_DIFFERENCE, value=4e5, text="400 kPa")
    )
    sentences = misfit_sentences(assess(bench, case), System.US)
    assert sentences
    assert all("Recheck" in sentence for sentence in sentences)

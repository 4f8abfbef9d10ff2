"""The faults: each is a cause of the catalogue, moves something, and adds up with others."""

from dataclasses import fields

import pytest
from hypothesis import given
from hypothesis import strategies as st

from faultdoc.library.load import load_library, load_unit
from faultdoc.practice.symptoms import AT_WORK
from faultdoc.simulator.condition import Condition, Site
from faultdoc.simulator.faults import CIRCUMSTANCES, FAULTS, broken, under
from faultdoc.simulator.unit import SimulatedUnit, usual_site

CATALOGUE = load_library().causes
HEALTHY = Site(), Condition()


def test_at_least_sixty_causes_over_all_systems():
    assert len(FAULTS) >= 60
    assert {CATALOGUE[id].system for id in FAULTS} == {cause.system for cause in CATALOGUE.values()}


@pytest.mark.parametrize("id", FAULTS)
def test_a_fault_is_a_cause_of_the_catalogue_and_changes_something(id):
    assert id in CATALOGUE
    assert broken(Site(), {id: 1.0}) != HEALTHY
    assert broken(Site(), {id: FAULTS[id].mildest}) != HEALTHY
    assert 0.0 < FAULTS[id].mildest <= 1.0


@pytest.mark.parametrize("id", FAULTS)
def test_severity_nought_changes_nothing(id):
    assert broken(Site(), {id: 0.0}) == HEALTHY


@given(st.lists(st.sampled_from(list(FAULTS)), min_size=2, max_size=2, unique=True), st.floats(0.1, 1.0))
def test_two_faults_leave_the_marks_of_both_where_they_touch_different_things(ids, severity):
    first, second = (broken(Site(), {id: severity}) for id in ids)
    both = broken(Site(), dict.fromkeys(ids, severity))
    for part in ("water", "pump", "supply", "oil", "control"):
        for one in fields(getattr(Condition(), part)):
            healthy, a, b, c = (
                getattr(getattr(state[1], part), one.name) for state in (HEALTHY, first, second, both)
            )
            if a == healthy:
                assert c == b
            elif b == healthy:
                assert c == a


def test_a_cause_that_is_not_simulated_and_a_severity_past_one_are_refused():
    with pytest.raises(KeyError):
        broken(Site(), {"no_such_cause": 0.5})
    with pytest.raises(ValueError, match="from 0 to 1"):
        broken(Site(), {"strainer_clogged": 1.5})


def test_how_bad_it_is_grows_with_severity():
    drops = [broken(Site(), {"strainer_clogged": severity})[1].water.strainer for severity in (0.2, 0.5, 1.0)]
    assert drops == sorted(drops)
    assert drops[0] > 1.0


def test_a_circumstance_is_a_condition_or_the_symptom_of_a_tree_and_changes_something():
    trees = load_library().trees
    known = {condition.id for tree in trees.values() for condition in tree.conditions} | set(trees)
    assert set(CIRCUMSTANCES) <= known
    site = Site(load=0.5)
    for id in CIRCUMSTANCES:
        assert under(site, [id]) != (site, Condition())
    assert under(site, ["no_such_circumstance"]) == (site, Condition())


def test_a_motor_that_failed_stands():
    _, condition = broken(Site(), {"pump_motor_failed": 1.0, "fan_motor_failed": 1.0})
    assert (condition.water.pump_speed, condition.circuit("a").fans_dead) == (0.0, 1)


def test_hose_run_too_small_and_flow_above_design_move_the_flow():
    """The one to below the proof of flow where there is little head to spare, the other to well above design."""
    sheet = load_unit("bluff_30")
    flows = {}
    for name, faults, circumstances in (
        ("well", {}, []),
        ("small", {"hose_run_too_small": 1.0}, ["little_head_to_spare"]),
        ("much", {"flow_above_design": 1.0}, []),
    ):
        site, sound = under(usual_site(sheet), circumstances)
        flows[name] = SimulatedUnit(sheet, site, faults, sound).moment(AT_WORK).loop.flow / sheet.water.design_flow
    assert flows["well"] == pytest.approx(1.0, abs=0.1)
    assert flows["small"] < 0.65
    assert flows["much"] > 1.2

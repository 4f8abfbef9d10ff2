"""A healthy unit makes every check say 'as expected', on every demo unit and from 18 to 40 °C."""

import pytest

from faultdoc.checks.all import make_all
from faultdoc.checks.base import Verdict
from faultdoc.library.load import load_points, load_unit, units
from faultdoc.model.base import Measured
from faultdoc.simulator.condition import Condition, Site
from faultdoc.simulator.machine import machine
from faultdoc.simulator.steady import Call, full_call, settled
from faultdoc.simulator.truths import truths

POINTS = load_points()
MACHINES = {id: machine(load_unit(id)) for id in units()}
OTHER_QUESTIONS = {
    "dead_head_if_backwards": "compares with a pump that turns backwards, which this one does not",
    "heat_moved": "compares with full capacity, which only running compressors give",
}
"""Checks that a healthy unit does not meet, and why."""


def calls(unit):
    none = (0.0,) * len(unit.sheet.compressors)
    return {"running": full_call(unit), "pump alone": Call(True, none), "at rest": Call(False, none)}


@pytest.mark.parametrize("celsius", [18.0, 25.0, 35.0, 40.0])
@pytest.mark.parametrize("call", ["running", "pump alone", "at rest"])
@pytest.mark.parametrize("id", MACHINES)
def test_a_healthy_unit_passes_every_check(id, call, celsius):
    unit = MACHINES[id]
    # Water in proportion to the unit, as a crew would lay it out.
    site = Site(ambient=celsius + 273.15, added_volume=8e-6 * unit.sheet.cooling_capacity)
    found = truths(settled(unit, site, Condition(), calls(unit)[call]))
    readings = {
        point: Measured(kind=POINTS[point].kind, value=value, text="true")
        for point, value in found.items()
        if not isinstance(value, str)
    }
    made = make_all(unit.sheet, readings, POINTS)
    # Many, not a handful: 55 at rest, 150 at work.
    assert len(made) >= (130 if call == "running" else 50)
    off = {one.id: one.deviation for one in made if one.verdict is not Verdict.AS_EXPECTED}
    expected = {"dead_head_if_backwards"} if call == "running" else set(OTHER_QUESTIONS)
    assert set(off) <= expected, off


@pytest.mark.parametrize("id", MACHINES)
def test_every_truth_is_at_a_point_of_the_vocabulary_and_of_its_kind(id):
    unit = MACHINES[id]
    for call in calls(unit).values():
        for point, value in truths(settled(unit, Site(), Condition(), call)).items():
            if isinstance(value, str):
                assert value in {choice.id for choice in POINTS[point].choices}
            else:
                assert not POINTS[point].choices
                assert value == value, f"{point} is not a number"

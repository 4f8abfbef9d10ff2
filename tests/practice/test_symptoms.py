"""Whether a simulated unit shows what a tree is called for."""

import pytest

from faultdoc.library.load import load_unit
from faultdoc.practice.symptoms import shows
from faultdoc.simulator.unit import SimulatedUnit, usual_site

SHEET = load_unit("bluff_30")


def unit(site=None, **faults):
    return SimulatedUnit(SHEET, site or usual_site(SHEET), faults)


@pytest.mark.parametrize("tree", ["flow_proving_trip", "low_suction", "high_head", "freeze_protection"])
def test_a_healthy_unit_shows_no_safety(tree):
    assert shows(unit(), tree) is False


@pytest.mark.parametrize(
    ("tree", "faults", "site"),
    [
        ("flow_proving_trip", {"strainer_clogged": 1.0}, {}),
        ("low_suction", {"leak_flared_joint": 0.9}, {}),
        ("low_suction", {"low_pressure_switch_set_high": 1.0}, {}),
        ("high_head", {"coil_dirty_outside": 1.0}, {"ambient": 313.15}),
        ("set_point_not_reached", {"load_above_capacity": 1.0}, {}),
        ("set_point_not_reached", {"set_point_high": 1.0}, {}),
    ],
)
def test_faults_show_what_they_are_called_for(tree, faults, site):
    assert shows(unit(usual_site(SHEET, **site), **faults), tree) is True


def test_what_a_steady_moment_cannot_tell_is_not_judged():
    assert shows(unit(), "noise_and_vibration") is None

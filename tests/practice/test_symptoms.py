"""Whether a simulated unit shows what a tree is called for."""

import pytest

from faultdoc.library.load import load_unit
from faultdoc.practice.symptoms import shows
from faultdoc.simulator.faults import under
from faultdoc.simulator.unit import SimulatedUnit, usual_site

SHEET = load_unit("bluff_30")


def unit(site=None, circumstances=(), **faults):
    site, sound = under(site or usual_site(SHEET), circumstances)
    return SimulatedUnit(SHEET, site, faults, sound)


HEALTHY_TREES = [
    "flow_proving_trip", "low_suction", "high_head", "freeze_protection", "unit_dead", "one_circuit_only",
    "start_held_back",
]  # fmt: skip


@pytest.mark.parametrize("tree", HEALTHY_TREES)
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


@pytest.mark.parametrize(
    ("tree", "faults", "circumstances"),
    [
        ("freeze_protection", {"load_too_light": 1.0}, ["capacity_lags_behind"]),
        ("freeze_protection", {"loop_volume_small": 1.0}, ["capacity_lags_behind"]),
        ("freeze_protection", {"leaving_sensor_loose": 1.0}, []),
        ("low_suction", {"load_too_light": 1.0}, ["steps_do_not_go_lower"]),
        ("flow_proving_trip", {"hose_run_too_small": 1.0}, ["little_head_to_spare"]),
        ("flow_proving_trip", {"pump_motor_failed": 1.0}, []),
        ("unit_dead", {"control_fuse_open": 1.0}, []),
        ("one_circuit_only", {"lp_lockout_not_reset": 1.0}, ["one_circuit_only"]),
        ("one_circuit_only", {"leak_flared_joint": 0.9}, ["one_circuit_only"]),
        ("start_held_back", {"schedule_holds_off": 1.0}, []),
        ("start_held_back", {"set_point_high": 1.0}, []),
    ],
)
def test_circumstances_let_a_fault_show(tree, faults, circumstances):
    assert shows(unit(None, circumstances, **faults), tree) is True


@pytest.mark.parametrize(
    ("tree", "fault", "circumstances"),
    [
        ("freeze_protection", "load_too_light", []),
        ("flow_proving_trip", "bypass_open", []),
        ("one_circuit_only", "lp_lockout_not_reset", []),
    ],
)
def test_without_what_it_needs_it_does_not_show(tree, fault, circumstances):
    assert shows(unit(None, circumstances, **{fault: 1.0}), tree) is False


def test_what_a_steady_moment_cannot_tell_is_not_judged():
    assert shows(unit(), "noise_and_vibration") is None

"""All checks together: what is registered, what they lean on, and that importing them is quick."""

import subprocess
import sys
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make, make_all, registry, usual_limit_from
from faultdoc.checks.base import CheckResult, Missing, Sense
from faultdoc.model.base import Measured
from faultdoc.quantities import Kind, System, difference_kind, parse

READINGS = {
    "water_flow": "72 gpm", "barrel_in_pressure": "42 psi", "barrel_out_pressure": "35 psi",
    "strainer_pressure_drop": "1.3 psi", "pump_in_pressure": "12 psi", "pump_out_pressure": "55 psi",
    "dead_head_in_pressure": "12 psi", "dead_head_out_pressure": "61 psi", "standing_pressure": "25 psi",
    "high_point_height": "40 ft", "water_in_temperature": "54 °F", "water_out_temperature": "44 °F",
    "glycol_fraction": "25 %", "hose_length": "300 ft", "hose_bore": "2.5 in", "load_pressure_drop": "18 psi",
    "pump_current_l1": "4.7 A", "pump_current_l2": "4.6 A", "pump_current_l3": "4.8 A",
    "voltage_l1_l2": "462 V", "voltage_l2_l3": "460 V", "voltage_l3_l1": "458 V", "control_voltage": "114 V",
    "frequency": "60 Hz", "hours_energised_since_power_up": "30 h", "site_elevation": "500 ft",
}  # fmt: skip

IDS = [
    "barrel_drop_at_flow",
    "flow_from_barrel_drop",
    "proving_margin",
    "pump_head",
    "flow_agreement",
    "pump_dead_head",
    "standing_pressure_needed",
    "npsh_available",
    "heat_moved",
    "strainer_drop",
    "freeze_margin",
    "glycol_strength",
    "loop_head_needed",
    "pump_current",
    "pump_current_unbalance",
    "supply_voltage",
    "voltage_unbalance",
    "control_voltage",
    "supply_frequency",
    "oil_warm_up",
]


def test_the_twenty_checks_are_registered():
    assert set(IDS) <= set(registry)
    assert len(IDS) == 20


@pytest.mark.parametrize("name", IDS)
def test_every_input_is_a_point_of_its_kind_or_of_the_data_sheet(name, points):
    for need in registry[name].needs:
        if need.name.startswith("sheet."):
            assert need.default is not None
            continue
        assert points[need.name].kind is need.kind
        for point in need.instead or ():
            assert difference_kind(points[point].kind) is need.kind


@pytest.mark.parametrize("name", IDS)
def test_a_healthy_unit_is_as_expected(name, sheet, read, points):
    result = make(name, sheet, read(**READINGS), points)
    assert isinstance(result, CheckResult), result
    assert result.verdict.value == "as expected", result.sentence(System.US)


@pytest.mark.parametrize("name", IDS)
def test_every_result_explains_itself_and_adds_up(name, sheet, read, points):
    result = make(name, sheet, read(**READINGS), points)
    assert result.working
    assert result.formula
    assert result.source
    assert sqrt(sum(effect**2 for effect in result.effects.values())) == pytest.approx(result.uncertainty)
    assert set(result.effects) <= {entry.name for entry in result.inputs}
    assert result.points <= set(READINGS)
    assert result.points
    scale = registry[name].scale
    counted = abs(result.expected) if scale == "expected" else scale
    assert result.residual == pytest.approx((result.measured - result.expected) / counted)
    for system in System:
        assert result.title in result.sentence(system)


@pytest.mark.parametrize("name", IDS)
def test_without_readings_nothing_is_made_up(name, sheet, points):
    missing = make(name, sheet, {}, points)
    assert isinstance(missing, Missing)
    assert missing.readings


def test_a_wider_gauge_means_a_wider_result(sheet, read, points):
    for name in IDS:
        narrow = make(name, sheet, read(**READINGS), points)
        for point in narrow.points:
            if abs(narrow.effects.get(point, 0.0)) < 1e-3 * narrow.uncertainty:
                continue
            readings = read(**READINGS)
            known = next(entry for entry in narrow.inputs if entry.name == point)
            readings[point] = readings[point].model_copy(
                update={"standard_uncertainty": 1.5 * known.standard_uncertainty}
            )
            wide = make(name, sheet, readings, points)
            assert wide.uncertainty > narrow.uncertainty, (name, point)


@given(st.floats(0.5, 12.0), st.floats(0.1, 2.0), st.floats(1.05, 3.0))
@settings(deadline=None, max_examples=30)
def test_uncertainty_of_flow_grows_with_that_of_the_gauge(sheet, points, psi, limit, wider):
    def flow(half_width):
        quantity = parse(f"{psi} psi ± {half_width} psi", Kind.PRESSURE_DIFFERENCE)
        return make(
            "flow_from_barrel_drop", sheet, {"barrel_pressure_drop": Measured.from_quantity(quantity)}, points
        )

    assert flow(limit * wider).uncertainty > flow(limit).uncertainty


def test_checks_that_share_a_reading_share_its_effect(sheet, read, points):
    # With only the barrel's drop and the pump's rise, the flow off the barrel leans on the same
    # inputs in both checks, and with the same sign: the two results are positively correlated.
    readings = read(barrel_pressure_drop="4 psi", pump_in_pressure="12 psi", pump_out_pressure="50 psi")
    one = make("flow_from_barrel_drop", sheet, readings, points)
    two = make("flow_agreement", sheet, readings, points)
    shared = {"barrel_pressure_drop", "glycol_fraction", "water_out_temperature", "sheet.barrel_curve"}
    assert shared <= set(one.effects) & set(two.effects)
    assert one.effects["barrel_pressure_drop"] == pytest.approx(two.effects["barrel_pressure_drop"])
    covariance = sum(one.effects[name] * two.effects[name] for name in set(one.effects) & set(two.effects))
    assert 0.1 < covariance / (one.uncertainty * two.uncertainty) < 1.0


def test_make_all_makes_what_the_readings_allow(sheet, read, points):
    made = make_all(sheet, read(frequency="60 Hz", water_out_temperature="44 °F"), points)
    assert {result.id for result in made} >= {"supply_frequency", "freeze_margin", "minimum_leaving"}
    assert all(result.points <= {"frequency", "water_out_temperature"} for result in made)
    assert make_all(sheet, {}, points) == []
    assert {result.id for result in make_all(sheet, read(**READINGS), points)} >= set(IDS)


def test_assumptions_are_wide(sheet, read, points):
    sharp = make("pump_head", sheet, read(**READINGS), points)
    vague = make("pump_head", sheet, read(pump_in_pressure="12 psi", pump_out_pressure="49 psi"), points)
    assert vague.expected_uncertainty > 2.0 * sharp.expected_uncertainty
    assumed = {entry.name for entry in vague.inputs if entry.origin == "assumed"}
    assert {
        "hose_length",
        "hose_bore",
        "load_pressure_drop",
        "glycol_fraction",
        "water_out_temperature",
    } <= assumed


def test_usual_limit_is_a_difference(points):
    limit = usual_limit_from(points)
    assert limit("water_in_temperature", 280.0) == pytest.approx(0.5)  # ± 0.5 °C is half a kelvin
    assert limit("pump_in_pressure", 200e3) == pytest.approx(7000.0)
    assert limit("water_flow", 0.004) == pytest.approx(0.0002)  # 5 % of the reading
    with pytest.raises(KeyError):
        limit("no_such_point", 1.0)


def test_senses_and_floors_are_those_agreed():
    assert {name for name in IDS if registry[name].sense is Sense.AT_LEAST} == {
        "proving_margin", "standing_pressure_needed", "npsh_available", "freeze_margin", "oil_warm_up",
    }  # fmt: skip
    assert {name for name in IDS if registry[name].sense is Sense.AT_MOST} == {
        "loop_head_needed", "pump_current_unbalance", "voltage_unbalance",
    }  # fmt: skip
    assert {name for name in IDS if registry[name].floor is None} == {
        "standing_pressure_needed", "npsh_available", "heat_moved", "freeze_margin", "glycol_strength",
        "voltage_unbalance",
    }  # fmt: skip


def test_importing_the_checks_imports_nothing_slow():
    program = (
        "import sys, faultdoc.checks.all, faultdoc.checks.plausible\n"
        "print([name for name in ('CoolProp', 'scipy', 'fluids', 'pint', 'PySide6') if name in sys.modules])"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


@pytest.mark.parametrize(
    ("name", "entry", "sign"),
    [
        # What raises the expected value lowers the deviation, and the other way about.
        ("proving_margin", "sheet.flow_switch_setting", -1),
        ("proving_margin", "barrel_in_pressure", 1),
        ("barrel_drop_at_flow", "sheet.barrel_curve", -1),
        ("barrel_drop_at_flow", "water_flow", -1),
        ("flow_from_barrel_drop", "sheet.barrel_curve", -1),
        ("flow_from_barrel_drop", "glycol_fraction", -1),
        ("flow_agreement", "sheet.pump_curve", -1),
        ("flow_agreement", "pump_out_pressure", 1),
        ("pump_head", "sheet.pump_curve", -1),
        ("pump_head", "hose_length", -1),
        ("pump_head", "hose_bore", 1),
        ("pump_head", "load_pressure_drop", -1),
        ("pump_head", "sheet.loop_fittings", -1),
        ("pump_dead_head", "sheet.pump_curve", -1),
        ("loop_head_needed", "sheet.pump_curve", -1),
        ("loop_head_needed", "hose_length", 1),
        ("standing_pressure_needed", "high_point_height", -1),
        ("npsh_available", "site_elevation", -1),
        ("npsh_available", "sheet.working_flow", -1),
        ("heat_moved", "sheet.cooling_capacity", -1),
        ("heat_moved", "water_out_temperature", -1),
        ("strainer_drop", "sheet.strainer_curve", -1),
        ("freeze_margin", "glycol_fraction", 1),
        ("freeze_margin", "sheet.freezing_curve", -1),
        ("glycol_strength", "sheet.usual_glycol", -1),
        ("pump_current", "hose_length", 1),
        ("pump_current", "sheet.no_load_share", -1),
        ("pump_current", "sheet.pump_current", -1),
        ("supply_voltage", "sheet.voltage", -1),
        ("control_voltage", "sheet.control_voltage", -1),
        ("supply_frequency", "sheet.frequency", -1),
    ],
)
def test_each_input_pulls_the_way_it_should(name, entry, sign, sheet, read, points):
    result = make(name, sheet, read(**READINGS), points)
    assert result.effects[entry] * sign > 0.0

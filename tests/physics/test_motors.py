from cmath import rect
from math import acos, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.physics import motors

CURRENTS = st.lists(st.floats(1.0, 300.0), min_size=1, max_size=8)
OTHERS = st.lists(st.floats(0.0, 100.0), max_size=5)
KELVIN = st.floats(270.0, 370.0)


@given(CURRENTS, OTHERS)
@settings(deadline=None)
def test_ampacity_and_protection_lie_between_the_sum_and_its_bounds(compressors, others):
    total = sum(compressors) + sum(others)
    ampacity = motors.minimum_ampacity(compressors, others)
    assert total < ampacity <= 1.25 * total + 1e-9
    first, last = (motors.protection_ceiling(compressors, others, factor) for factor in (1.75, 2.25))
    assert last - first == pytest.approx(0.5 * max(compressors))
    if max(compressors) >= max(others, default=0.0):
        assert last >= ampacity
    if last >= 15.0:
        rating = motors.standard_rating(last)
        assert rating <= last
        assert rating in motors.STANDARD_RATINGS
        larger = [one for one in motors.STANDARD_RATINGS if one > rating]
        assert not larger or larger[0] > last


def test_the_largest_motor_counts_even_if_it_is_no_compressor():
    assert motors.minimum_ampacity([10.0], [40.0]) == pytest.approx(60.0)
    assert motors.protection_ceiling([10.0], [40.0]) == pytest.approx(62.5)


@given(
    st.floats(20.0, 800.0), st.floats(0.0, 1.0), st.floats(0.0, 0.2), st.floats(0.0, 0.2), st.floats(300.0, 500.0)
)
@settings(deadline=None)
def test_start_voltage_is_the_divider_worked_out_by_currents(current, power_factor, resistance, reactance, open_v):
    found = motors.start_voltage(open_v, 460.0, current, power_factor, resistance, reactance)
    # Kirchhoff: the line current through source and motor, then the voltage it leaves at the motor.
    motor = rect(460.0 / (sqrt(3.0) * current), acos(power_factor))
    line = open_v / sqrt(3.0) / (motor + complex(resistance, reactance))
    left = open_v / sqrt(3.0) - line * complex(resistance, reactance)
    assert found == pytest.approx(sqrt(3.0) * abs(left), rel=1e-9)
    assert found <= open_v * (1.0 + 1e-12)


def test_a_reactive_start_on_a_generator_dips_by_the_rule_of_thumb():
    # x'' / (x'' + S_generator / S_start) for a start that is all reactive.
    rated, start, share = 300.0, 600.0, 0.12
    inside = motors.generator_reactance(rated, 480.0, share)
    found = 1.0 - motors.start_voltage(1.0, 480.0, start, 0.0, 0.0, inside)
    assert found == pytest.approx(share / (share + rated / start))


@given(st.floats(1e-3, 1e3), KELVIN, KELVIN)
@settings(deadline=None)
def test_winding_resistance_there_and_back(resistance, one, other):
    there = motors.winding_resistance_at(resistance, one, other)
    assert motors.winding_resistance_at(there, other, one) == pytest.approx(resistance)
    assert (there > resistance) == (other > one) or there == pytest.approx(resistance)


@given(st.floats(1e4, 1e12), st.floats(273.15, 360.0))
@settings(deadline=None)
def test_insulation_doubles_in_ten_kelvins(resistance, temperature):
    here = motors.insulation_at_40(resistance, temperature)
    assert motors.insulation_at_40(resistance, temperature + 10.0) == pytest.approx(2.0 * here)
    assert motors.insulation_at_40(resistance, 313.15) == pytest.approx(resistance)


def test_least_insulation():
    assert motors.least_insulation(4160.0, random_wound=False) == 100e6
    assert motors.least_insulation(460.0, random_wound=False) == 5e6
    assert motors.least_insulation(4160.0, since_1970=False) == pytest.approx(5.16e6)


@given(st.floats(270.0, 288.0), st.floats(300.0, 335.0), st.floats(0.1, 5.0))
@settings(deadline=None)
def test_load_is_one_at_design_and_rises_with_the_condensing_temperature(cold, hot, more):
    assert motors.compressor_load(cold, hot, cold, hot) == pytest.approx(1.0)
    assert motors.compressor_load(cold, hot + more, cold, hot) > 1.0


@pytest.mark.parametrize("fluid", ["R134a", "R410A", "R22", "R32", "R1234ze(E)"])
@pytest.mark.parametrize(("cold", "hot"), [(275.0, 305.0), (275.0, 320.0), (280.0, 312.0), (283.0, 328.0)])
def test_load_against_coolprop(fluid, cold, hot):
    """The isentropic work of the suction volume with real properties, against the same at design."""
    from CoolProp.CoolProp import PropsSI

    def work(evaporating: float, condensing: float) -> float:
        low = PropsSI("P", "T", evaporating, "Q", 1, fluid)
        high = PropsSI("P", "T", condensing, "Q", 1, fluid)
        at = ("P", low, "T", evaporating + 6.0, fluid)
        entropy, enthalpy, density = (PropsSI(name, *at) for name in ("S", "H", "D"))
        return density * (PropsSI("H", "P", high, "S", entropy, fluid) - enthalpy)

    design = (276.0, 322.0)
    ours = motors.compressor_load(cold, hot, *design)
    assert ours == pytest.approx(work(cold, hot) / work(*design), rel=0.03)


def test_refusals():
    with pytest.raises(ValueError, match="at least one"):
        motors.minimum_ampacity([], [1.0])
    with pytest.raises(ValueError, match="below zero"):
        motors.protection_ceiling([1.0], [-1.0])
    with pytest.raises(ValueError, match="least standard rating"):
        motors.standard_rating(10.0)
    with pytest.raises(ValueError, match="above zero"):
        motors.generator_reactance(0.0, 480.0, 0.12)
    with pytest.raises(ValueError, match="above zero"):
        motors.start_voltage(480.0, 480.0, 0.0, 0.3, 0.0, 0.0)
    with pytest.raises(ValueError, match="power factor"):
        motors.start_voltage(480.0, 480.0, 100.0, 1.3, 0.0, 0.0)
    with pytest.raises(ValueError, match="227 °C"):
        motors.winding_resistance_at(1.0, 293.15, 600.0)
    with pytest.raises(ValueError, match="correction holds"):
        motors.insulation_at_40(1e6, 400.0)
    with pytest.raises(ValueError, match="warmer"):
        motors.compressor_load(300.0, 290.0, 276.0, 320.0)

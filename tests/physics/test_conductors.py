import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.physics import conductors

AREAS = st.floats(8.37e-6, 253e-6)
METALS = st.sampled_from(["copper", "aluminium"])
CURRENTS = st.floats(0.0, 800.0)
LENGTHS = st.floats(0.0, 500.0)


def test_gauges_by_their_rule():
    # Every third gauge is half the area, nearly; 39 steps from 36 AWG to 4/0 are a factor of 92 in diameter.
    assert conductors.awg_area(-3) / conductors.awg_area(36) == pytest.approx(92.0**2)
    assert conductors.awg_area(4) / conductors.awg_area(7) == pytest.approx(2.005, abs=0.01)
    assert conductors.kcmil_area(211.6) == pytest.approx(conductors.awg_area(-3), rel=1e-4)


@given(AREAS, METALS, st.floats(240.0, 390.0), st.floats(1.01, 1.5))
@settings(deadline=None)
def test_resistance_falls_with_area_and_rises_with_temperature(area, metal, temperature, more):
    here = conductors.dc_resistance(area, metal, temperature)
    assert conductors.dc_resistance(more * area, metal, temperature) == pytest.approx(here / more)
    assert conductors.dc_resistance(area, metal, temperature + 10.0) > here
    assert conductors.ac_resistance(area, metal, temperature) > here


@given(AREAS, METALS)
@settings(deadline=None)
def test_skin_effect_grows_with_frequency_and_is_small_here(area, metal):
    direct = conductors.dc_resistance(area, metal)
    fifty, sixty = (conductors.ac_resistance(area, metal, 348.15, frequency) for frequency in (50.0, 60.0))
    assert direct < fifty < sixty < 1.03 * direct


@given(AREAS)
@settings(deadline=None)
def test_aluminium_counts_as_less_copper(area):
    assert conductors.dc_resistance(area, "aluminium") == pytest.approx(
        conductors.dc_resistance(area * conductors.ALUMINIUM_AS_COPPER, "copper")
    )
    assert conductors.ampacity(area, "aluminium") < conductors.ampacity(area, "copper")


@given(AREAS, st.floats(1.001, 1.3))
@settings(deadline=None)
def test_a_larger_conductor_carries_more_with_less_reactance(area, more):
    assert conductors.reactance(area * more) <= conductors.reactance(area)
    assert conductors.reactance(area, steel=True) > conductors.reactance(area)
    assert conductors.reactance(area, 50.0) == pytest.approx(conductors.reactance(area) * 50.0 / 60.0)
    if area * more <= 253e-6:
        assert conductors.ampacity(area * more) > conductors.ampacity(area)


@given(st.floats(1.0, 380.0), METALS)
@settings(deadline=None)
def test_the_size_chosen_for_a_current_carries_it(current, metal):
    if metal == "aluminium" and current > 310.0:
        with pytest.raises(ValueError, match="500 kcmil"):
            conductors.area_for(current, metal)
        return
    assert conductors.ampacity(conductors.area_for(current, metal), metal) >= current - 1e-9


@given(CURRENTS, LENGTHS, st.floats(0.0, 1.0), st.floats(1e-5, 1e-3), st.floats(0.0, 3e-4))
@settings(deadline=None)
def test_drop_goes_with_current_and_length(current, length, power_factor, resistance, reactance):
    z = conductors.effective_impedance(resistance, reactance, power_factor)
    assert 0.0 <= z <= (resistance**2 + reactance**2) ** 0.5 + 1e-12
    drop = conductors.voltage_drop(current, length, z)
    assert conductors.voltage_drop(2.0 * current, length, z) == pytest.approx(2.0 * drop)
    assert conductors.voltage_drop(current, 2.0 * length, z) == pytest.approx(2.0 * drop)


def test_refusals():
    with pytest.raises(ValueError, match="above zero"):
        conductors.dc_resistance(0.0)
    with pytest.raises(ValueError, match="127 °C"):
        conductors.dc_resistance(1e-5, "copper", 500.0)
    with pytest.raises(ValueError, match="power factor"):
        conductors.effective_impedance(1.0, 1.0, 1.1)
    with pytest.raises(ValueError, match="not below zero"):
        conductors.voltage_drop(1.0, -1.0, 1.0)
    with pytest.raises(ValueError, match="in parallel"):
        conductors.ampacity(500e-6)
    with pytest.raises(ValueError, match="in parallel"):
        conductors.ampacity(4e-6)
    with pytest.raises(ValueError, match="AWG"):
        conductors.awg_area(-4)
    with pytest.raises(ValueError, match="500 kcmil"):
        conductors.area_for(400.0)

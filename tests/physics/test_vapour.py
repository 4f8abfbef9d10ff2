"""Gas and liquid off the tables against the equations they were made from, and against a published table."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.physics import refrigerant, vapour
from faultdoc.physics.coolprop import extension

names = st.sampled_from(refrigerant.NAMES)


def reference(name, dew, superheat):
    """Enthalpy, entropy and density by CoolProp itself."""
    state = refrigerant.gas_state(refrigerant.canonical(name))
    state.update(extension().PT_INPUTS, float(refrigerant.dew_pressure(name, dew)), dew + max(superheat, 1e-3))
    return state.hmass(), state.smass(), state.rhomass()


@given(names, st.floats(228.0, 338.0), st.floats(0.0, 100.0))
@settings(deadline=None, max_examples=200)
def test_the_gas_agrees_with_the_equations_of_state(name, dew, superheat):
    enthalpy, entropy, density = reference(name, dew, superheat)
    assert float(vapour.enthalpy(name, dew, superheat)) == pytest.approx(enthalpy, abs=150.0)
    assert float(vapour.entropy(name, dew, superheat)) == pytest.approx(entropy, abs=0.5)
    assert float(vapour.density(name, dew, superheat)) == pytest.approx(density, rel=2e-3)


@given(names, st.floats(258.0, 290.0), st.floats(0.0, 30.0), st.floats(300.0, 335.0), st.floats(0.4, 1.0))
@settings(deadline=None, max_examples=100)
def test_the_gas_after_compression_is_as_hot_as_by_the_equations(name, dew, superheat, after, efficiency):
    pressures = [float(refrigerant.dew_pressure(name, at)) for at in (dew, after)]
    try:
        direct = refrigerant.discharge_temperature(
            name, pressures[0], dew + superheat + 0.1, pressures[1], efficiency
        )
    except ValueError:  # past what a compressor lives through
        return
    before = (
        vapour.entropy(name, dew, superheat + 0.1),
        vapour.enthalpy(name, dew, superheat + 0.1),
    )
    enthalpy = vapour.enthalpy_after_compression(name, after, *before, efficiency)
    if direct - after < 0.9 * vapour.MOST_SUPERHEAT:
        assert float(vapour.temperature_of_gas(name, after, enthalpy)) == pytest.approx(direct, abs=0.3)


@given(names, st.floats(240.0, 330.0), st.floats(0.0, 0.5))
@settings(deadline=None, max_examples=50)
def test_wet_gas_is_at_its_dew_temperature_and_poorer_by_the_latent_heat(name, dew, wetness):
    wet = vapour.enthalpy(name, dew, 0.0, wetness)
    assert float(vapour.enthalpy(name, dew, 0.0) - wet) == pytest.approx(
        wetness * float(vapour.latent_heat(name, dew))
    )
    if wetness > 0.0:
        assert float(vapour.temperature_of_gas(name, dew, wet)) == pytest.approx(dew, abs=0.05)


@pytest.mark.parametrize(
    ("celsius", "latent", "density"),
    # ASHRAE Handbook, Fundamentals, table of R-134a: latent heat, liquid density; from memory.
    [(-20.0, 212.9, 1358.3), (0.0, 198.6, 1294.8), (25.0, 177.8, 1206.7), (50.0, 151.8, 1102.3)],
)
def test_r134a_agrees_with_the_handbook(celsius, latent, density):
    kelvin = celsius + 273.15
    assert float(vapour.latent_heat("R-134a", kelvin)) / 1000.0 == pytest.approx(latent, abs=0.2)
    assert float(vapour.liquid_density("R-134a", kelvin)) == pytest.approx(density, rel=1e-3)


def test_whole_arrays_go_in_and_come_out():
    dews = np.array([[270.0, 275.0, 280.0]])
    assert vapour.enthalpy("R-410A", dews, np.array([[5.0], [10.0]])).shape == (2, 3)


def test_a_refrigerant_that_is_not_known_is_refused():
    with pytest.raises(ValueError, match="not known here"):
        vapour.enthalpy("R-999", 273.15, 5.0)

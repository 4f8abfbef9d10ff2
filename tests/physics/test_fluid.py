import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.physics import fluid

GLYCOLS = st.sampled_from(["propylene", "ethylene"])


@given(GLYCOLS, st.floats(0.0, 0.58), st.floats(278.0, 320.0))
@settings(deadline=None, max_examples=60)
def test_more_glycol_is_thicker_and_freezes_lower(glycol, fraction, temperature):
    more = fraction + 0.02
    assert fluid.dynamic_viscosity(temperature, glycol, more) > fluid.dynamic_viscosity(
        temperature, glycol, fraction
    )
    assert fluid.heat_capacity(temperature, glycol, more) < fluid.heat_capacity(temperature, glycol, fraction)
    assert fluid.freezing_point(glycol, more) < fluid.freezing_point(glycol, fraction)
    assert fluid.vapour_pressure(temperature, glycol, more) < fluid.vapour_pressure(temperature, glycol, fraction)


@given(GLYCOLS, st.floats(0.0, 0.6), st.floats(278.0, 368.0))
@settings(deadline=None, max_examples=60)
def test_warmer_is_thinner(glycol, fraction, temperature):
    assert fluid.dynamic_viscosity(temperature + 2.0, glycol, fraction) < fluid.dynamic_viscosity(
        temperature, glycol, fraction
    )


@pytest.mark.parametrize("glycol", ["propylene", "ethylene"])
def test_a_trace_of_glycol_is_all_but_water(glycol):
    # The mixes' fit and the water formulation meet to 1.5 % in viscosity and 0.15 % in density.
    for celsius in (2.0, 10.0, 30.0):
        state = (celsius + 273.15, glycol, 1e-6)
        assert fluid.density(*state) == pytest.approx(fluid.density(state[0]), rel=1.5e-3)
        assert fluid.dynamic_viscosity(*state) == pytest.approx(fluid.dynamic_viscosity(state[0]), rel=0.015)
        assert fluid.heat_capacity(*state) == pytest.approx(fluid.heat_capacity(state[0]), rel=2e-3)


def test_kinematic_viscosity_is_dynamic_over_density():
    state = (280.0, "propylene", 0.25)
    assert fluid.kinematic_viscosity(*state) == fluid.dynamic_viscosity(*state) / fluid.density(*state)


def test_liquid_down_to_its_freezing_point():
    for glycol, fraction in (("none", 0.0), ("propylene", 0.3), ("ethylene", 0.6)):
        edge = fluid.freezing_point(glycol, fraction)
        assert fluid.density(edge, glycol, fraction) > 990.0
        assert fluid.vapour_pressure(edge, glycol, fraction) > 0.0
        with pytest.raises(ValueError, match="outside its liquid range"):
            fluid.density(edge - 0.1, glycol, fraction)


@pytest.mark.parametrize(
    ("temperature", "glycol", "fraction", "message"),
    [
        (283.0, "propylene", 0.61, "0 to 60 % by mass"),
        (283.0, "propylene", -0.01, "0 to 60 % by mass"),
        (283.0, "none", 0.2, "which glycol"),
        (374.0, "none", 0.0, "0.0 to 100 °C"),
        (270.0, "none", 0.0, "plain water at -3.1 °C"),
        (float("nan"), "none", 0.0, "outside its liquid range"),
    ],
)
def test_refusals(temperature, glycol, fraction, message):
    with pytest.raises(ValueError, match=message):
        fluid.density(temperature, glycol, fraction)
    with pytest.raises(ValueError, match=message):
        fluid.vapour_pressure(temperature, glycol, fraction)


def test_importing_physics_imports_nothing_slow():
    program = (
        "import sys\n"
        "from faultdoc.physics import atmosphere, barrel, electrical, fluid, hydronics, pump\n"
        "print([name for name in ('CoolProp', 'scipy', 'fluids', 'pint', 'pydantic') if name in sys.modules])"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


@given(GLYCOLS, st.floats(0.0, 1.0))
@settings(deadline=None)
def test_fractions_by_mass_and_by_volume(glycol, share):
    assert fluid.volume_fraction(glycol, fluid.mass_fraction(glycol, share)) == pytest.approx(share, abs=1e-9)
    assert fluid.mass_fraction(glycol, share) >= share - 1e-12, "glycol is heavier than water"


@given(GLYCOLS, st.floats(0.0, 0.6), st.floats(0.0, 0.1))
@settings(deadline=None)
def test_more_glycol_bursts_later_and_never_before_it_freezes(glycol, fraction, more):
    burst = fluid.burst_point(glycol, fraction)
    assert fluid.burst_point(glycol, min(fraction + more, 0.6)) <= burst
    # Rows of the table are rounded to a per cent of glycol. From 52 % on the table ends above the freezing point.
    if fraction < 0.5:
        assert burst <= fluid.freezing_point(glycol, fraction) + 1.5


@given(GLYCOLS, st.floats(0.01, 0.6), st.floats(274.0, 330.0))
@settings(deadline=None, max_examples=50)
def test_density_to_fraction_to_density(glycol, fraction, temperature):
    density = fluid.density(temperature, glycol, fraction)
    assert fluid.fraction_from_density(density, temperature, glycol) == pytest.approx(fraction, abs=1e-6)


def test_fraction_and_burst_refusals():
    assert fluid.burst_point() == pytest.approx(273.15)
    assert fluid.fraction_from_density(fluid.density(293.15), 293.15, "propylene") == 0.0
    with pytest.raises(ValueError, match="which glycol"):
        fluid.mass_fraction("none", 0.2)
    with pytest.raises(ValueError, match="outside 0 to 100"):
        fluid.volume_fraction("propylene", 1.2)
    with pytest.raises(ValueError, match="check the hydrometer"):
        fluid.fraction_from_density(1200.0, 293.15, "propylene")
    with pytest.raises(ValueError, match="say which glycol"):
        fluid.fraction_from_density(1010.0, 293.15, "none")
    with pytest.raises(ValueError, match="outside 0 to 60"):
        fluid.burst_point("propylene", 0.7)


def test_several_threads_get_the_properties_that_one_gets():
    asked = [
        (283.15 + step, "ethylene" if step % 2 else "propylene", 0.1 + 0.05 * (step % 6)) for step in range(24)
    ]
    alone = [fluid._properties.__wrapped__(*one) for one in asked]
    before = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    try:
        with ThreadPoolExecutor(4) as pool:
            together = list(pool.map(lambda one: fluid._properties.__wrapped__(*one), asked * 20))
    finally:
        sys.setswitchinterval(before)
    assert together == alone * 20

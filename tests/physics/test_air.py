import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.physics import air, atmosphere

ratios = st.floats(0.3, 1.5)
units = st.floats(0.3, 3.0)


@pytest.mark.parametrize(
    ("pressure", "temperature"), [(101_325.0, 293.15), (84_000.0, 308.15), (70_000.0, 263.15)]
)
def test_density_against_the_real_gas(pressure, temperature):
    assert air.density(pressure, temperature) == pytest.approx(
        PropsSI("D", "P", pressure, "T", temperature, "Air"), rel=1e-3
    )


def test_density_of_the_standard_atmosphere():
    # U.S. Standard Atmosphere 1976, table I (from memory): 1.2250 kg/m³ at the sea, 0.73643 at 5,000 m.
    for height, density in ((0.0, 1.2250), (5000.0, 0.73643)):
        ours = air.density(atmosphere.pressure(height), atmosphere.temperature(height))
        assert ours == pytest.approx(density, rel=2e-4)


@given(st.floats(260.0, 320.0), st.floats(2.0, 30.0), st.floats(0.0, 0.6))
@settings(deadline=None, derandomize=True)
def test_recirculation_by_mixing_forwards(ambient, rise, share):
    # The coil adds `rise` to what enters; what enters is `share` of what left, the rest from outdoors.
    inlet = ambient + share * rise / (1.0 - share)
    assert air.recirculated_share(ambient, inlet, inlet + rise) == pytest.approx(share, abs=1e-9)


@given(ratios, units, st.floats(0.1, 1.0), st.floats(0.1, 1.0))
@settings(deadline=None, derandomize=True)
def test_the_split_balances_the_heat(density_ratio, ntu, load, fans):
    split = air.split_ratio(load, fans, density_ratio, ntu)
    now = air.number_of_transfer_units(ntu, density_ratio)
    heat = fans * density_ratio * air.effectiveness(now) * split
    assert heat == pytest.approx(load * air.effectiveness(ntu))


@given(ratios, units)
@settings(deadline=None, derandomize=True)
def test_thin_air_widens_the_split_by_less_than_it_is_thin(density_ratio, ntu):
    split = air.split_ratio(1.0, 1.0, density_ratio, ntu)
    low, high = sorted((1.0, 1.0 / density_ratio))
    assert low - 1e-9 <= split <= high + 1e-9


@given(units, st.floats(1.0, 40.0))
@settings(deadline=None, derandomize=True)
def test_air_never_gets_warmer_than_what_condenses(ntu, split):
    assert 0.0 < air.outlet_rise(split, ntu) < split


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: air.density(1e5, 0.0), "does not exist"),
        (lambda: air.density(-1.0, 300.0), "does not exist"),
        (lambda: air.recirculated_share(300.0, 301.0, 300.0), "not warmer than the outdoor air"),
        (lambda: air.effectiveness(0.0), "moves no heat"),
        (lambda: air.number_of_transfer_units(1.0, 0.0), "above zero"),
        (lambda: air.split_ratio(-0.1, 1.0, 1.0, 1.2), "count the compressors"),
        (lambda: air.split_ratio(1.0, 0.0, 1.0, 1.2), "no fan running"),
    ],
)
def test_refusals(call, message):
    with pytest.raises(ValueError, match=message):
        call()

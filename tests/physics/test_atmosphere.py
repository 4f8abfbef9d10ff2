import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.physics import atmosphere

HEIGHTS = st.floats(-5000.0, 10_990.0)


@given(HEIGHTS, HEIGHTS)
@settings(deadline=None)
def test_air_thins_and_cools_with_height(one, other):
    low, high = sorted((one, other))
    if high - low < 1e-3:
        return
    assert atmosphere.pressure(high) < atmosphere.pressure(low)
    assert atmosphere.temperature(high) < atmosphere.temperature(low)


def test_hydrostatic_balance():
    # dp/dh = -rho g with rho = p M / (R T), in geopotential height: the law the formula solves.
    height, step = 3000.0, 1.0
    slope = (
        atmosphere.pressure(height + step, is_geopotential=True)
        - atmosphere.pressure(height - step, is_geopotential=True)
    ) / (2 * step)
    density = (
        atmosphere.pressure(height, is_geopotential=True)
        * 0.0289644
        / (8.31432 * atmosphere.temperature(height, is_geopotential=True))
    )
    assert slope == pytest.approx(-density * 9.80665, rel=1e-6)


def test_geometric_heights_are_a_little_more_than_geopotential():
    assert atmosphere.geopotential(0.0) == 0.0
    assert 0.0 < 5000.0 - atmosphere.geopotential(5000.0) < 5.0
    assert atmosphere.pressure(5000.0) > atmosphere.pressure(5000.0, is_geopotential=True)


@pytest.mark.parametrize("height", [-5100.0, 11_100.0, float("nan")])
def test_outside_the_range_is_refused(height):
    with pytest.raises(ValueError, match=r"-5004 to 11000 m.*check the site's elevation"):
        atmosphere.pressure(height)

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.physics import loop

POSITIVE = st.floats(1e3, 1e8)


@given(POSITIVE, st.floats(0.5, 10.0), st.floats(1e3, 1e6), st.floats(0.01, 0.99))
@settings(deadline=None)
def test_half_load_is_the_shortest_cycle(heat, band, capacity, share):
    load = share * capacity
    on, off = loop.running_time(heat, band, capacity, load), heat * band / load
    assert on + off >= loop.shortest_cycle(heat, band, capacity) * (1 - 1e-12)


@given(POSITIVE, st.floats(1e4, 1e6), st.floats(0.0, 0.9), st.floats(0.0, 20.0))
@settings(deadline=None)
def test_pull_down_adds_up_in_stretches(heat, capacity, share, fall):
    load = share * capacity
    whole = loop.pull_down_time(heat, 300.0, 300.0 - fall, capacity, load)
    middle = 300.0 - fall / 3.0
    parts = loop.pull_down_time(heat, 300.0, middle, capacity, load) + loop.pull_down_time(
        heat, middle, 300.0 - fall, capacity, load
    )
    assert parts == pytest.approx(whole, rel=1e-9, abs=1e-9)


@given(st.floats(275.0, 285.0), st.floats(1.0, 20.0), st.floats(0.0, 1.0))
@settings(deadline=None)
def test_bypass_share_is_that_of_the_mixture(supply, rise, share):
    load_return = supply + rise
    mixed = share * supply + (1.0 - share) * load_return
    assert loop.bypass_share(supply, load_return, mixed) == pytest.approx(share, abs=1e-9)


def test_hose_volume_goes_with_the_bore_squared():
    assert loop.hose_volume(10.0, 0.1) == pytest.approx(4.0 * loop.hose_volume(10.0, 0.05))
    assert loop.hose_volume(0.0, 0.1) == 0.0


def test_refusals():
    with pytest.raises(ValueError, match="bore above zero"):
        loop.hose_volume(1.0, 0.0)
    with pytest.raises(ValueError, match="must be above zero"):
        loop.running_time(0.0, 1.0, 1.0)
    with pytest.raises(ValueError, match="between nothing and"):
        loop.running_time(1.0, 1.0, 1.0, 1.0)
    with pytest.raises(ValueError, match="capacity of the step"):
        loop.shortest_cycle(1.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="colder at the start"):
        loop.pull_down_time(1.0, 280.0, 281.0, 1.0)
    with pytest.raises(ValueError, match="half a kelvin"):
        loop.bypass_share(280.0, 280.1, 280.0)

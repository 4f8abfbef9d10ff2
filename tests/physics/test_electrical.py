import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.physics import electrical

VOLTS = st.floats(100.0, 600.0)
SHARES = st.floats(0.1, 0.8)


@given(VOLTS, VOLTS, VOLTS, st.floats(0.1, 10.0))
@settings(deadline=None)
def test_unbalance_has_no_unit_and_no_order(one, two, three, factor):
    found = electrical.voltage_unbalance(one, two, three)
    assert 0.0 <= found <= 2.0
    assert electrical.voltage_unbalance(three, one, two) == pytest.approx(found)
    assert electrical.voltage_unbalance(factor * one, factor * two, factor * three) == pytest.approx(
        found, abs=1e-9
    )


def test_balanced_is_none_and_a_lost_phase_is_a_hundred_per_cent():
    assert electrical.current_unbalance(5.0, 5.0, 5.0) == 0.0
    assert electrical.current_unbalance(5.0, 5.0, 0.0) == pytest.approx(1.0)


@given(st.floats(0.0, 2.0), SHARES)
@settings(deadline=None)
def test_load_to_current_to_load(load, share):
    current = electrical.motor_current(load, 6.6, share)
    assert electrical.load_from_current(current, 6.6, share) == pytest.approx(load, abs=1e-6)


@given(st.floats(0.0, 1.9), SHARES)
@settings(deadline=None)
def test_current_rises_with_load_between_no_load_and_rating(load, share):
    assert electrical.motor_current(load + 0.1, 6.6, share) > electrical.motor_current(load, 6.6, share)
    assert electrical.motor_current(0.0, 6.6, share) == pytest.approx(share * 6.6)
    assert electrical.motor_current(1.0, 6.6, share) == pytest.approx(6.6)


def test_a_current_below_no_load_is_no_load():
    assert electrical.load_from_current(1.0, 6.6, 0.45) == 0.0


def test_refusals():
    with pytest.raises(ValueError, match="mean above zero"):
        electrical.current_unbalance(0.0, 0.0, 0.0)
    with pytest.raises(ValueError, match="at least two"):
        electrical.unbalance([1.0])
    with pytest.raises(ValueError, match="0 to 1"):
        electrical.motor_current(0.5, 6.6, 1.0)
    with pytest.raises(ValueError, match="below nothing"):
        electrical.motor_current(-0.1, 6.6, 0.4)
    with pytest.raises(ValueError, match="above zero"):
        electrical.load_from_current(1.0, 0.0, 0.4)

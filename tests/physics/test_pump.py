import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator

from faultdoc.physics import pump
from faultdoc.physics.pump import PumpCurve

CURVE = PumpCurve(
    (0.0, 0.0025, 0.0045, 0.0063, 0.0079),
    (34.0, 33.0, 30.0, 25.0, 18.0),
    (1100.0, None, 2300.0, 2800.0, 3100.0),
    (None, 1.4, 1.8, 2.7, 4.0),
)


def test_the_points_are_met():
    assert [pump.head_at(CURVE, flow) for flow in CURVE.flows] == pytest.approx(CURVE.heads)
    assert pump.shut_off_head(CURVE) == 34.0
    assert pump.run_out(CURVE) == 0.0079


@given(st.floats(0.0, 0.0155), st.floats(1e-6, 0.001))
@settings(deadline=None)
def test_the_head_falls(flow, step):
    assert pump.head_at(CURVE, flow + step) < pump.head_at(CURVE, flow)


@given(st.floats(1e-4, 0.0119))
@settings(deadline=None)
def test_flow_to_head_to_flow(flow):
    # At zero flow the curve is flat, so flows below 0.1 L/s come back less sharply.
    assert pump.flow_at_head(CURVE, pump.head_at(CURVE, flow)) == pytest.approx(flow, rel=1e-6)


def test_beyond_the_last_point_is_a_straight_line_and_is_said_to_be():
    slope = (18.0 - 25.0) / (0.0079 - 0.0063)
    assert pump.head_at(CURVE, 0.009) == pytest.approx(18.0 + slope * 0.0011)
    assert pump.is_beyond(CURVE, 0.008)
    assert not pump.is_beyond(CURVE, 0.0079)


def test_no_flow_at_shut_off_head_and_above():
    assert pump.flow_at_head(CURVE, 34.0) == 0.0
    assert pump.flow_at_head(CURVE, 50.0) == 0.0


def test_power_and_npsh_use_the_points_that_have_them():
    assert pump.shaft_power_at(CURVE, 0.0045) == pytest.approx(2300.0)
    assert 1100.0 < pump.shaft_power_at(CURVE, 0.0025) < 2300.0
    assert pump.shaft_power_at(CURVE, 0.0045, 1.03) == pytest.approx(1.03 * 2300.0)
    assert pump.shaft_power_at(CURVE, 0.02) == pytest.approx(3100.0)
    assert pump.npsh_required_at(CURVE, 0.0) == pytest.approx(1.4)
    assert pump.npsh_required_at(CURVE, 0.0063) == pytest.approx(2.7)


@given(st.floats(0.3, 1.5), st.floats(0.0, 0.0079))
@settings(deadline=None, max_examples=50)
def test_affinity(ratio, flow):
    moved = pump.at_speed(CURVE, ratio)
    assert pump.head_at(moved, flow * ratio) == pytest.approx(ratio**2 * pump.head_at(CURVE, flow), rel=1e-9)
    assert pump.shaft_power_at(moved, flow * ratio) == pytest.approx(
        ratio**3 * pump.shaft_power_at(CURVE, flow), rel=1e-9
    )


def test_a_curve_flat_at_the_start_does_not_overshoot():
    flat = PumpCurve((0.0, 0.002, 0.004), (30.0, 30.0, 20.0))
    heads = [pump.head_at(flat, flow) for flow in np.linspace(0.0, 0.004, 50)]
    assert max(heads) == 30.0
    assert pump.flow_at_head(flat, 25.0) > 0.002


def test_the_curve_is_the_monotone_cubic_of_scipy():
    reference = PchipInterpolator(CURVE.flows, CURVE.heads)
    for flow in np.linspace(0.0, CURVE.flows[-1], 101):
        assert pump.head_at(CURVE, float(flow)) == pytest.approx(float(reference(flow)), rel=1e-13)


@pytest.mark.parametrize(
    ("flows", "heads", "message"),
    [
        ((0.0,), (30.0,), "two points"),
        ((0.001, 0.002), (30.0, 20.0), "at zero flow"),
        ((0.0, 0.001, 0.001), (30.0, 20.0, 10.0), "rise in flow"),
        ((0.0, 0.001, 0.002), (30.0, 31.0, 10.0), "not rise in head"),
        ((0.0, 0.001, 0.002), (30.0, 20.0, 20.0), "lie lower"),
    ],
)
def test_refused_curves(flows, heads, message):
    with pytest.raises(ValueError, match=message):
        PumpCurve(flows, heads)


def test_refusals():
    with pytest.raises(ValueError, match="no flow below zero"):
        pump.head_at(CURVE, -0.001)
    with pytest.raises(ValueError, match="less than its inlet"):
        pump.flow_at_head(CURVE, -1.0)
    with pytest.raises(ValueError, match="above zero"):
        pump.at_speed(CURVE, 0.0)
    with pytest.raises(ValueError, match="no shaft power"):
        pump.shaft_power_at(PumpCurve((0.0, 0.001), (30.0, 20.0)), 0.001)
    with pytest.raises(ValueError, match="a NPSH"):
        PumpCurve((0.0, 0.001), (30.0, 20.0), npsh_required=(1.0,))

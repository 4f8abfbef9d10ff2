import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.physics import barrel
from faultdoc.physics.barrel import BarrelCurve, Fluid

WATER = Fluid(999.7, 1.306e-6)
GLYCOL = Fluid(1025.0, 4.0e-6)
CURVE = BarrelCurve((0.0025, 0.0038, 0.0050, 0.0063), (13_000.0, 28_000.0, 48_000.0, 74_000.0), WATER)
ONE_POINT = BarrelCurve((0.0045,), (40_000.0,), WATER)

FLOWS = st.floats(1e-5, 0.05)
FLUIDS = st.builds(Fluid, st.floats(900.0, 1100.0), st.floats(5e-7, 3e-5))
CURVES = st.sampled_from([CURVE, ONE_POINT])
ERRORS = st.floats(-0.3, 0.3)


@given(CURVES, FLOWS, FLUIDS, ERRORS)
@settings(deadline=None)
def test_flow_to_drop_to_flow(curve, flow, fluid, error):
    drop = barrel.drop_at_flow(curve, flow, fluid, exponent_error=error)
    assert float(barrel.flow_from_drop(curve, drop, fluid, exponent_error=error)) == pytest.approx(flow, rel=1e-9)


@given(CURVES, FLOWS, FLUIDS, ERRORS)
@settings(deadline=None)
def test_more_flow_more_drop(curve, flow, fluid, error):
    more = barrel.drop_at_flow(curve, flow * 1.001, fluid, exponent_error=error)
    assert more > barrel.drop_at_flow(curve, flow, fluid, exponent_error=error)


@given(CURVES, FLOWS, FLUIDS)
@settings(deadline=None)
def test_a_flow_the_other_way_drops_the_other_way(curve, flow, fluid):
    assert barrel.drop_at_flow(curve, -flow, fluid) == -barrel.drop_at_flow(curve, flow, fluid)
    assert barrel.flow_from_drop(curve, -flow * 1e6, fluid) == -barrel.flow_from_drop(curve, flow * 1e6, fluid)


def test_the_points_are_met_and_nothing_flows_without_a_drop():
    assert barrel.drop_at_flow(CURVE, CURVE.flows) == pytest.approx(CURVE.drops)
    assert barrel.drop_at_flow(CURVE, 0.0) == 0.0
    assert barrel.flow_from_drop(CURVE, 0.0, GLYCOL) == 0.0


def test_arrays_keep_their_shape():
    flows = np.array([[0.001, 0.003], [0.005, 0.009]])
    drops = barrel.drop_at_flow(CURVE, flows, GLYCOL)
    assert drops.shape == (2, 2)
    assert [float(drop) for drop in drops.flat] == [
        float(barrel.drop_at_flow(CURVE, flow, GLYCOL)) for flow in flows.flat
    ]


def test_the_local_exponent_is_the_slope_on_logarithmic_paper():
    for flow in (0.002, 0.003, 0.0045, 0.006, 0.02):
        slope = np.log(
            barrel.drop_at_flow(CURVE, flow * 1.0001) / barrel.drop_at_flow(CURVE, flow / 1.0001)
        ) / np.log(1.0001**2)
        assert barrel.exponent_at_flow(CURVE, flow) == pytest.approx(float(slope), abs=1e-6)


@given(st.floats(0.0005, 0.01), FLUIDS)
@settings(deadline=None)
def test_similarity_is_the_power_law_of_density_and_viscosity(flow, fluid):
    # With one exponent everywhere: drop ~ rho^(n-1) mu^(2-n) Q^n.
    n = barrel.EXPONENT_OF_ONE_POINT
    density = fluid.density / WATER.density
    viscosity = fluid.density * fluid.kinematic_viscosity / (WATER.density * WATER.kinematic_viscosity)
    by_law = density ** (n - 1) * viscosity ** (2 - n) * 40_000.0 * (flow / 0.0045) ** n
    assert float(barrel.drop_at_flow(ONE_POINT, flow, fluid)) == pytest.approx(by_law, rel=1e-9)


def test_glycol_takes_more_than_water():
    assert barrel.drop_at_flow(CURVE, 0.0045, GLYCOL) > 1.05 * barrel.drop_at_flow(CURVE, 0.0045)


def test_extrapolation_is_flagged_at_equal_reynolds_number():
    assert not barrel.is_extrapolated(CURVE, CURVE.flows[0])
    assert not barrel.is_extrapolated(CURVE, CURVE.flows[-1])
    assert barrel.is_extrapolated(CURVE, 0.0064)
    assert barrel.is_extrapolated(CURVE, 0.0024)
    assert barrel.is_extrapolated(CURVE, 0.0045, GLYCOL)  # behaves as 1.5 L/s of water


@given(CURVES, st.one_of(FLOWS, st.just(0.0)), FLUIDS, ERRORS, st.sampled_from([1.0, -1.0]))
@settings(deadline=None)
def test_one_flow_after_another_is_the_same_curve(curve, flow, fluid, error, way):
    along = barrel.drop_along(curve, fluid, exponent_error=error)
    whole = float(barrel.drop_at_flow(curve, way * flow, fluid, exponent_error=error))
    assert along(way * flow) == pytest.approx(whole, rel=1e-12)


def test_an_error_of_the_exponent_acts_outside_the_points_only():
    inside = barrel.drop_at_flow(CURVE, 0.004, exponent_error=0.2)
    assert inside == barrel.drop_at_flow(CURVE, 0.004)
    outside = barrel.drop_at_flow(CURVE, 0.0126, exponent_error=0.2) / barrel.drop_at_flow(CURVE, 0.0126)
    assert float(outside) == pytest.approx(2.0**0.2)


@pytest.mark.parametrize(
    ("flows", "drops", "message"),
    [
        ((), (), "at least one point"),
        ((0.001,), (1.0, 2.0), "a drop for every flow"),
        ((0.0, 0.001), (1.0, 2.0), "above zero"),
        ((0.001, 0.001), (1.0, 2.0), "must rise"),
        ((0.001, 0.002), (2.0, 2.0), "must rise"),
    ],
)
def test_refusals(flows, drops, message):
    with pytest.raises(ValueError, match=message):
        BarrelCurve(flows, drops, WATER)

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.physics import fluid, hydronics, pump
from faultdoc.physics.pump import PumpCurve

CURVE = PumpCurve((0.0, 0.004, 0.008), (34.0, 30.0, 18.0))
FLOWS = st.floats(1e-4, 0.02)


@given(FLOWS, st.floats(1.0, 500.0), st.floats(0.03, 0.15), st.floats(5e-7, 1e-5))
@settings(deadline=None, max_examples=60)
def test_friction_grows_with_flow_and_length_and_falls_with_bore(flow, length, bore, viscosity):
    drop = hydronics.friction_drop(flow, length, bore, 1000.0, viscosity)
    assert hydronics.friction_drop(flow, 2 * length, bore, 1000.0, viscosity) == pytest.approx(2 * drop)
    assert hydronics.friction_drop(1.2 * flow, length, bore, 1000.0, viscosity) > drop
    assert hydronics.friction_drop(flow, length, bore, 1030.0, viscosity) == pytest.approx(1.03 * drop)


def test_laminar_flow_is_hagen_poiseuille():
    # 128 mu L Q / (pi D^4)
    flow, length, bore, density, viscosity = 1e-5, 3.0, 0.02, 1000.0, 1e-5
    poiseuille = 128 * density * viscosity * length * flow / (3.141592653589793 * bore**4)
    assert hydronics.friction_drop(flow, length, bore, density, viscosity) == pytest.approx(poiseuille, rel=1e-9)


def test_nothing_flows_nothing_drops():
    assert hydronics.friction_drop(0.0, 10.0, 0.05, 1000.0, 1e-6) == 0.0
    assert hydronics.local_drop(0.0, 10.0, 0.05, 1000.0) == 0.0


def test_local_drop_is_k_velocity_heads():
    speed = hydronics.velocity(0.004, 0.05)
    assert hydronics.local_drop(0.004, 3.0, 0.05, 1000.0) == pytest.approx(3.0 * 500.0 * speed**2)


@given(st.floats(1e3, 1e7), st.floats(-1.5, 1.5))
@settings(deadline=None)
def test_working_point_balances(stiffness, error):
    # Stiffness: the loop's drop at 4 L/s, from a wide open loop to an all but shut one.
    def loop(flow: float) -> float:
        return stiffness * (flow / 0.004) ** 2

    flow = hydronics.working_point(CURVE, loop, 1000.0, error)
    assert (pump.head_at(CURVE, flow) + error) * 1000.0 * fluid.GRAVITY == pytest.approx(loop(flow), rel=1e-6)


@given(st.floats(1e3, 1e7), st.floats(1e-4, 0.0119))
@settings(deadline=None)
def test_where_the_search_starts_changes_nothing(stiffness, near):
    def loop(flow: float) -> float:
        return stiffness * (flow / 0.004) ** 2

    plain = hydronics.working_point(CURVE, loop, 1000.0)
    assert hydronics.working_point(CURVE, loop, 1000.0, near=near) == pytest.approx(plain, rel=1e-11)


def test_a_stiffer_loop_moves_less():
    flows = [
        hydronics.working_point(CURVE, lambda flow, k=k: k * flow**2, 1000.0) for k in (1e8, 1e9, 1e10, 1e11)
    ]  # fmt: skip
    assert flows == sorted(flows, reverse=True)


def test_scaled_drop():
    assert hydronics.scaled_drop(0.003, 0.006, 8.0) == pytest.approx(2.0)
    assert hydronics.scaled_drop(0.0, 0.006, 8.0) == 0.0


@given(st.floats(-60e3, 300e3), st.floats(60e3, 105e3), st.floats(600.0, 20e3))
@settings(deadline=None)
def test_npsh_shifts_one_to_one_with_gauge_and_air(gauge, air, vapour):
    if gauge + air < 0:
        return
    here = hydronics.npsh_available(gauge, air, vapour, 1000.0)
    assert hydronics.npsh_available(gauge + 9806.65, air, vapour, 1000.0) == pytest.approx(here + 1.0, abs=1e-6)
    assert hydronics.npsh_available(gauge, air + 9806.65, vapour, 1000.0) == pytest.approx(here + 1.0, abs=1e-6)
    assert hydronics.npsh_available(gauge, air, vapour + 9806.65, 1000.0) == pytest.approx(here - 1.0, abs=1e-6)


def test_heat_moved_has_a_sign():
    assert hydronics.heat_moved(0.001, 1000.0, 4000.0, 285.0, 280.0) == pytest.approx(20_000.0)
    assert hydronics.heat_moved(0.001, 1000.0, 4000.0, 280.0, 285.0) == pytest.approx(-20_000.0)


def test_refusals():
    with pytest.raises(ValueError, match="bore must be above zero"):
        hydronics.velocity(0.001, 0.0)
    with pytest.raises(ValueError, match="cannot be below zero"):
        hydronics.friction_drop(-0.001, 1.0, 0.05, 1000.0, 1e-6)
    with pytest.raises(ValueError, match="Reynolds"):
        hydronics.friction_factor(0.0, 0.0)
    with pytest.raises(ValueError, match=r"0 to 0\.05"):
        hydronics.friction_factor(1e5, 0.1)
    with pytest.raises(ValueError, match="between flows above zero"):
        hydronics.scaled_drop(0.001, 0.0, 1.0)
    with pytest.raises(ValueError, match="perfect vacuum"):
        hydronics.npsh_available(-102e3, 101e3, 1e3, 1000.0)
    with pytest.raises(ValueError, match="no head at zero flow"):
        hydronics.working_point(CURVE, lambda flow: flow, 1000.0, head_error=-40.0)


@given(FLOWS, st.floats(1.0, 500.0), st.floats(0.03, 0.15), st.floats(5e-7, 1e-5))
@settings(deadline=None, max_examples=60)
def test_longest_run_turns_friction_round(flow, length, bore, viscosity):
    spare = hydronics.friction_drop(flow, length, bore, 1000.0, viscosity)
    assert hydronics.longest_run(spare, flow, bore, 1000.0, viscosity) == pytest.approx(length, rel=1e-9)


@given(FLOWS, st.floats(0.1, 50.0), st.floats(0.9, 1.2))
@settings(deadline=None)
def test_loss_ratio_is_what_multiplied_the_drop(flow, ratio, density):
    drop = ratio * density * hydronics.scaled_drop(flow, 0.004, 8000.0)
    assert hydronics.loss_ratio(flow, drop, 0.004, 8000.0, density) == pytest.approx(ratio)


def test_more_refusals():
    with pytest.raises(ValueError, match="flow and a drop above zero"):
        hydronics.loss_ratio(0.001, 0.0, 0.001, 1.0)
    with pytest.raises(ValueError, match="flow above zero"):
        hydronics.longest_run(1.0, 0.0, 0.05, 1000.0, 1e-6)

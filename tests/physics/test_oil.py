from math import inf, isinf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from faultdoc.physics import oil

powers = st.floats(20.0, 300.0)
capacities = st.floats(5e3, 200e3)
losses = st.floats(0.5, 20.0)
airs = st.floats(253.0, 313.0)


@given(powers, capacities, losses, airs, st.floats(-10.0, 60.0), st.floats(60.0, 100e3))
@settings(deadline=None, derandomize=True, max_examples=40)
def test_against_a_numerical_integration(power, capacity, loss, air, over, elapsed):
    start = air + over
    run = solve_ivp(
        lambda _, t: (power - loss * (t - air)) / capacity, (0.0, elapsed), [start], rtol=1e-9, atol=1e-9
    )
    ours = oil.sump_temperature(elapsed, start, air, power, capacity, loss)
    assert ours == pytest.approx(float(run.y[0, -1]), abs=1e-5)


@given(powers, capacities, losses, airs, st.floats(0.05, 0.95))
@settings(deadline=None, derandomize=True, max_examples=80)
def test_time_and_back(power, capacity, loss, air, share):
    target = air + share * power / loss
    wait = oil.time_to_reach(target, air, air, power, capacity, loss)
    assert oil.sump_temperature(wait, air, air, power, capacity, loss) == pytest.approx(target, abs=1e-6)


@given(powers, capacities, losses, airs, st.floats(0.1, 0.8), st.floats(1.05, 2.0))
@settings(deadline=None, derandomize=True, max_examples=60)
def test_more_heat_is_sooner_and_more_loss_or_mass_later(power, capacity, loss, air, share, more):
    target = air + share * power / loss

    def wait(power, capacity, loss):
        return oil.time_to_reach(target, air, air, power, capacity, loss)

    now = wait(power, capacity, loss)
    assert wait(power * more, capacity, loss) < now
    assert wait(power, capacity * more, loss) > now
    assert wait(power, capacity, loss * more) > now


def test_warm_already_and_never():
    assert oil.time_to_reach(300.0, 300.0, 290.0, 70.0, 20e3, 2.8) == 0.0
    assert oil.time_to_reach(300.0, 310.0, 290.0, 0.0, 20e3, 2.8) == 0.0
    assert isinf(oil.time_to_reach(315.0, 290.0, 290.0, 70.0, 20e3, 2.8))  # it settles at 315 K
    assert oil.time_to_reach(300.0, 290.0, 290.0, 0.0, 20e3, 2.8) == inf


@pytest.mark.parametrize(
    "call",
    [
        lambda: oil.settled_temperature(290.0, -1.0, 2.8),
        lambda: oil.settled_temperature(290.0, 70.0, 0.0),
        lambda: oil.sump_temperature(-1.0, 290.0, 290.0, 70.0, 20e3, 2.8),
        lambda: oil.sump_temperature(1.0, 290.0, 290.0, 70.0, 0.0, 2.8),
        lambda: oil.time_to_reach(300.0, 290.0, 290.0, 70.0, 0.0, 2.8),
    ],
)
def test_refusals_of_the_sump(call):
    with pytest.raises(ValueError, match="must"):
        call()


H = 3600.0


def state(power, compressor, now, **limits):
    return oil.timer_state(power, compressor, now, **({"warm_up": 8 * H, "anti_recycle": 300.0} | limits))


def test_a_break_in_power_starts_the_count_again():
    log = [(0.0, True), (7 * H, False), (7 * H + 60.0, True)]
    found = state(log, [], 9 * H)
    assert found.energised == pytest.approx(2 * H - 60.0)
    assert found.warm_up_left == pytest.approx(6 * H + 60.0)
    assert found.start_allowed_in == found.warm_up_left
    assert found.anti_recycle_left == 0.0  # it never ran


def test_power_off_or_never_on_leaves_the_whole_warm_up():
    for log in ([], [(0.0, True), (5 * H, False)]):
        found = state(log, [], 6 * H)
        assert (found.energised, found.warm_up_left) == (0.0, 8 * H)


def test_on_twice_is_on_once():
    assert state([(0.0, True), (2 * H, True)], [], 3 * H).energised == 3 * H


def test_a_loss_of_power_is_a_stop():
    power = [(0.0, True), (20 * H, False), (20 * H + 5.0, True)]
    running = [(19 * H, True)]
    found = state(power, running, 20 * H + 100.0, warm_up=0.0)
    assert found.anti_recycle_left == pytest.approx(200.0)
    # Switched "off" after it had stopped already: no second stop.
    late = state(power, [*running, (20 * H + 90.0, False)], 20 * H + 100.0, warm_up=0.0)
    assert late.anti_recycle_left == pytest.approx(200.0)


def test_starts_in_an_hour_hold_the_next_one():
    power = [(0.0, True)]
    runs = [(10 * H + 600.0 * i + 60.0 * j, j == 0) for i in range(4) for j in (0, 1)]
    now = 10 * H + 2000.0
    found = state(power, runs, now, starts_per_hour=4)
    assert found.starts_in_last_hour == 4
    assert found.starts_left == pytest.approx(H - 2000.0)  # the first of them must be an hour old
    assert found.start_allowed_in == found.starts_left
    assert state(power, runs, now, starts_per_hour=5).starts_left == 0.0
    assert state(power, runs, 10 * H + 2 * H, starts_per_hour=4).starts_in_last_hour == 0


@given(st.lists(st.tuples(st.floats(0.0, 1e5), st.booleans()), max_size=12), st.floats(0.0, 1e5))
@settings(deadline=None, derandomize=True, max_examples=100)
def test_timers_are_never_below_zero_and_waiting_helps(events, wait):
    log = sorted(events)
    now = 1e5 + 10.0
    found = state(log, log, now, starts_per_hour=3)
    assert min(found.energised, found.warm_up_left, found.anti_recycle_left, found.starts_left) >= 0.0
    later = state(log, log, now + wait, starts_per_hour=3)
    assert later.warm_up_left <= found.warm_up_left
    assert later.anti_recycle_left <= found.anti_recycle_left
    assert later.starts_left <= found.starts_left + 1e-6


@pytest.mark.parametrize(
    ("power", "compressor", "limits", "message"),
    [
        ([(5.0, True), (1.0, False)], [], {}, "power log is not in order"),
        ([], [(5.0, True), (1.0, False)], {}, "compressor log is not in order"),
        ([(50.0, True)], [], {}, "runs past now"),
        ([], [], {"warm_up": -1.0}, "must not be below zero"),
        ([], [], {"starts_per_hour": 0}, "below one start an hour"),
    ],
)
def test_refusals_of_the_timers(power, compressor, limits, message):
    with pytest.raises(ValueError, match=message):
        state(power, compressor, 10.0, **limits)

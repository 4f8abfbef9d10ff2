from cmath import exp, phase
from math import pi, sqrt

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from faultdoc.physics import electrical

VOLTS = st.floats(100.0, 600.0)
SHARES = st.floats(0.1, 0.8)
TURN = exp(2j * pi / 3.0)
ANGLES = st.floats(-pi, pi)


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


@given(st.floats(0.0, 0.98), ANGLES, st.floats(10.0, 600.0))
@settings(deadline=None)
def test_negative_sequence_is_that_of_the_phasors(share, angle, volts):
    # Line-to-line voltages of a positive and a negative sequence put together by Fortescue.
    one, two = volts, share * volts * exp(1j * angle)
    lines = [abs(one * TURN**-k + two * TURN**k) for k in range(3)]
    assert electrical.negative_sequence_factor(*lines) == pytest.approx(share, abs=2e-6)


@given(VOLTS, VOLTS, VOLTS, st.floats(0.1, 10.0))
@settings(deadline=None)
def test_negative_sequence_has_no_unit_and_no_order(one, two, three, factor):
    assume(2.0 * max(one, two, three) <= one + two + three)
    found = electrical.negative_sequence_factor(one, two, three)
    assert 0.0 <= found <= 1.0
    assert electrical.negative_sequence_factor(three, one, two) == pytest.approx(found, abs=1e-6)
    assert electrical.negative_sequence_factor(factor * one, factor * two, factor * three) == pytest.approx(
        found, abs=1e-6
    )


def test_negative_sequence_at_its_ends():
    assert electrical.negative_sequence_factor(460.0, 460.0, 460.0) == pytest.approx(0.0, abs=1e-7)
    assert electrical.negative_sequence_factor(460.0, 230.0, 230.0) == pytest.approx(1.0)
    assert electrical.negative_sequence_factor(460.0, 229.0, 228.0) == pytest.approx(1.0)  # meters err
    with pytest.raises(ValueError, match="cannot all be true"):
        electrical.negative_sequence_factor(460.0, 200.0, 200.0)
    with pytest.raises(ValueError, match="none below zero"):
        electrical.negative_sequence_factor(0.0, 0.0, 0.0)


@given(st.floats(0.0, 0.05), st.floats(0.0, 0.05))
@settings(deadline=None)
def test_derating_falls_with_unbalance(one, other):
    low, high = sorted((one, other))
    assert 0.76 <= electrical.derating(high) <= electrical.derating(low) <= 1.0
    assert electrical.unbalance_heating(high) >= electrical.unbalance_heating(low)


def test_derating_refuses_what_no_motor_should_run_on():
    with pytest.raises(ValueError, match="above 5 %"):
        electrical.derating(0.051)
    with pytest.raises(ValueError, match="not below zero"):
        electrical.derating(-0.01)


@given(st.floats(1.0, 500.0), st.floats(0.97, 1.03), st.permutations([0, 1, 2]))
@settings(deadline=None)
def test_patterns_of_a_lost_line(amps, slip, order):
    # Positive and negative sequence alike in size; the angle between them is what the transformer turns.
    for angle, name in ((pi, "a line is lost"), (0.0, "a line is lost before a transformer")):
        three = [abs(TURN**-k + slip * exp(1j * angle) * TURN**k) * amps for k in range(3)]
        assert electrical.phase_pattern(*(three[k] for k in order)) == name
    assert electrical.phase_pattern(amps, slip * amps, amps) == "balanced"
    with pytest.raises(ValueError, match="mean above zero"):
        electrical.phase_pattern(0.0, 0.0, 0.0)


@given(ANGLES, st.floats(100.0, 600.0))
@settings(deadline=None)
def test_spread_tells_two_sequences_apart_at_any_angle(angle, volts):
    phase_volts = volts / sqrt(3.0)
    here = [phase_volts * TURN**-k for k in range(3)]
    alike = [phase_volts * exp(1j * angle) * TURN**-k for k in range(3)]
    against = [phase_volts * exp(1j * angle) * TURN**k for k in range(3)]
    forward = [abs(a - b) for a, b in zip(here, alike, strict=True)]
    reversed_ = [abs(a - b) for a, b in zip(here, against, strict=True)]
    assert electrical.sequence_spread(*forward, volts) == pytest.approx(0.0, abs=1e-9)
    spread = electrical.sequence_spread(*reversed_, volts)
    assert electrical.LEAST_REVERSED_SPREAD - 1e-9 <= spread <= 1.0 + 1e-9


def test_three_magnitudes_alone_do_not_tell_the_sequence():
    # The same three magnitudes belong to a supply and to its mirror image, whose order of angles is the other.
    one, two = 1.0, 0.1 * exp(0.7j)
    lines = [one * TURN**-k + two * TURN**k for k in range(3)]
    mirrored = [line.conjugate() for line in lines]
    assert [abs(line) for line in lines] == pytest.approx([abs(line) for line in mirrored])
    assert phase(lines[1] / lines[0]) == pytest.approx(-phase(mirrored[1] / mirrored[0]))


SMALL = st.floats(-0.15, 0.15)


@given(SMALL, SMALL, SMALL, SMALL, st.floats(1.0, 200.0), st.floats(1.0, 200.0))
@settings(deadline=None)
def test_rolled_leads_part_what_was_put_together(s1, s2, m1, m2, before_mean, after_mean):
    supply, motor = (s1, s2, -s1 - s2), (m1, m2, -m1 - m2)
    before = tuple(before_mean * (1.0 + s + m) for s, m in zip(supply, motor, strict=True))
    moved = (motor[2], motor[0], motor[1])
    after = tuple(after_mean * (1.0 + s + m) for s, m in zip(supply, moved, strict=True))
    assume(min(*before, *after) > 0.0)

    def amplitude(parts):
        # Of three that sum to nothing and so are A cos(angle + k 120 degrees): their squares sum to 1.5 A².
        return sqrt(sum(part**2 for part in parts) / 1.5)

    found = electrical.rolled_leads(before, after)
    assert found.supply == pytest.approx(amplitude(supply), abs=1e-9)
    assert found.motor == pytest.approx(amplitude(motor), abs=1e-9)


def test_rolled_leads_refuse_what_has_nothing_to_follow():
    balanced = electrical.rolled_leads((5.0, 5.0, 5.0), (5.0, 5.0, 5.0))
    with pytest.raises(ValueError, match="nothing to follow"):
        _ = balanced.supply_share
    with pytest.raises(ValueError, match="mean current above zero"):
        electrical.rolled_leads((0.0, 0.0, 0.0), (5.0, 5.0, 5.0))


@given(st.floats(0.2, 1.2), SHARES, st.floats(0.8, 0.99))
@settings(deadline=None)
def test_low_voltage_raises_the_current_of_a_loaded_motor_and_lowers_that_of_an_idle_one(load, share, volts):
    idle = electrical.motor_current(0.0, 10.0, share, voltage=volts)
    assert idle == pytest.approx(volts * electrical.motor_current(0.0, 10.0, share))
    working = sqrt(1.0 - share**2) * load
    if working > share:  # the working part is the larger one
        assert electrical.motor_current(load, 10.0, share, voltage=volts) > electrical.motor_current(
            load, 10.0, share
        )
    with pytest.raises(ValueError, match="voltage above zero"):
        electrical.motor_current(load, 10.0, share, voltage=0.0)


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

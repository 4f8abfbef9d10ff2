"""Voltages and currents of three-phase supplies and motors."""

from __future__ import annotations

from cmath import exp as phasor
from collections.abc import Sequence
from dataclasses import dataclass
from math import dist, pi, sqrt
from typing import Literal

__all__ = [
    "DERATING_POINTS",
    "LEAST_REVERSED_SPREAD",
    "Pattern",
    "RolledLeads",
    "current_unbalance",
    "derating",
    "load_from_current",
    "motor_current",
    "negative_sequence_factor",
    "phase_pattern",
    "rolled_leads",
    "sequence_spread",
    "unbalance",
    "unbalance_heating",
    "voltage_unbalance",
]

DERATING_POINTS = (
    (0.010, 1.00),
    (0.015, 0.97),
    (0.020, 0.95),
    (0.025, 0.93),
    (0.030, 0.89),
    (0.035, 0.85),
    (0.040, 0.82),
    (0.045, 0.78),
    (0.050, 0.76),
)
"""Voltage unbalance and the share of rated power a motor may then carry: NEMA MG 1, figure 14-1, read off."""

LEAST_REVERSED_SPREAD = 1.0 / sqrt(3.0)
"""The least that `sequence_spread` gives when one of the two supplies turns the other way."""

_THIRD = phasor(2j * pi / 3.0)
"""A third of a turn."""

Pattern = Literal["balanced", "a line is lost", "a line is lost before a transformer"]

_PATTERNS: dict[Pattern, tuple[float, float, float]] = {
    "balanced": (1.0, 1.0, 1.0),
    "a line is lost": (0.0, 1.5, 1.5),
    "a line is lost before a transformer": (0.75, 0.75, 1.5),
}
"""Sorted, over their mean."""


def unbalance(values: Sequence[float]) -> float:
    """Return the largest deviation from the mean, over the mean.

    Args:
        values: two or more of one kind.

    Raises:
        ValueError: with fewer than two values, or a mean that is not above zero.
    """
    if len(values) < 2:
        raise ValueError("an unbalance needs at least two values")
    mean = sum(values) / len(values)
    if mean <= 0.0:
        raise ValueError("an unbalance needs a mean above zero; all readings are zero or below")
    return max(abs(value - mean) for value in values) / mean


def voltage_unbalance(l1_l2: float, l2_l3: float, l3_l1: float) -> float:
    """Return the voltage unbalance as a fraction, from the three line-to-line voltages (V).

    Largest deviation from the mean voltage over the mean: NEMA MG 1, 14.36.2 and 20.24.2.

    Raises:
        ValueError: when the mean is not above zero.

    >>> round(voltage_unbalance(460.0, 467.0, 450.0), 4)
    0.0196
    """
    return unbalance((l1_l2, l2_l3, l3_l1))


def negative_sequence_factor(l1_l2: float, l2_l3: float, l3_l1: float) -> float:
    """Return negative over positive sequence (0 to 1) of three line-to-line voltages, from their magnitudes (V).

    u = sqrt((1 - r) / (1 + r)), r = sqrt(3 - 6 b), b = sum of fourth powers / (sum of squares)²: IEC
    61000-4-30, 5.7.1. It is exact, as three line-to-line voltages close a triangle and so fix their
    angles; three line currents without a neutral do so as well. The order of the three, and with it
    the direction of rotation, does not enter.

    Args:
        l1_l2, l2_l3, l3_l1: magnitudes. The largest may be more than the two others together by two
            per cent, as meters err; it then counts as their sum.

    Raises:
        ValueError: when the three do not close a triangle by more, or are not above zero.

    >>> round(negative_sequence_factor(400.0, 400.0, 200.0), 4)
    0.382
    """
    low, middle, high = sorted((l1_l2, l2_l3, l3_l1))
    if low < 0.0 or high <= 0.0:
        raise ValueError("three magnitudes are wanted, none below zero and not all zero")
    if high > 1.02 * (low + middle):
        raise ValueError(
            f"{high:.1f} is more than {low:.1f} and {middle:.1f} together, so the three cannot all be true; "
            "read them again within a minute"
        )
    squares = [value**2 for value in (low, middle, min(high, low + middle))]
    inner = 3.0 - 6.0 * sum(square**2 for square in squares) / sum(squares) ** 2
    root = min(sqrt(max(inner, 0.0)), 1.0)
    return sqrt((1.0 - root) / (1.0 + root))


def derating(voltage_unbalance: float) -> float:
    """Return the share of rated power a motor may carry at a voltage unbalance (fraction, NEMA's).

    Linear between DERATING_POINTS, 1 below the first: NEMA MG 1, 14.36 and figure 14-1.

    Raises:
        ValueError: below zero, and above five per cent, where a motor should not run at all.

    >>> round(derating(0.03), 2)
    0.89
    """
    if voltage_unbalance < 0.0:
        raise ValueError("an unbalance is not below zero")
    if voltage_unbalance > DERATING_POINTS[-1][0]:
        raise ValueError(
            f"a voltage unbalance of {100 * voltage_unbalance:.1f} % is above 5 %, where no motor should run; "
            "put the supply right first"
        )
    before = (0.0, 1.0)
    for point in DERATING_POINTS:
        if voltage_unbalance <= point[0]:
            along = (voltage_unbalance - before[0]) / (point[0] - before[0])
            return before[1] + along * (point[1] - before[1])
        before = point
    return before[1]


def unbalance_heating(voltage_unbalance: float) -> float:
    """Return by what share a motor's temperature rise grows at a voltage unbalance (fraction, NEMA's).

    Twice the square of the unbalance, both in per cent: the rule of NEMA MG 10 and of the motor trade.

    >>> round(unbalance_heating(0.03), 3)
    0.18
    """
    return 2.0 * (100.0 * voltage_unbalance) ** 2 / 100.0


def phase_pattern(l1: float, l2: float, l3: float) -> Pattern:
    """Return which of three patterns the magnitudes of three currents (or voltages) are nearest to.

    Balanced 1 : 1 : 1; a lost line 0 : 1 : 1; a line lost before a delta-wye transformer 1 : 1 : 2,
    because positive and negative sequence, then alike, add in one line and oppose by a third of a
    turn in the others (Fortescue's components; e.g. Blackburn, Protective Relaying).

    Raises:
        ValueError: when the mean is not above zero.

    >>> phase_pattern(23.1, 11.4, 11.7)
    'a line is lost before a transformer'
    """
    mean = (l1 + l2 + l3) / 3.0
    if mean <= 0.0:
        raise ValueError("a pattern needs a mean above zero; all readings are zero or below")
    found = sorted(value / mean for value in (l1, l2, l3))
    return min(_PATTERNS, key=lambda name: dist(found, _PATTERNS[name]))


def sequence_spread(l1: float, l2: float, l3: float, line_voltage: float) -> float:
    """Return how unlike the voltages (V) are from each line to the like-named line of a reference supply.

    The magnitudes of three line voltages are the same forwards and backwards, so they alone cannot
    tell the sequence. Against a supply of the same frequency source whose sequence is known they
    can: turning the same way, the two stand still against one another and the three voltages are
    alike, whatever the angle between the supplies; turning against one another the three are
    (2 / sqrt 3) V |sin(a + k 60°)|, whose largest and smallest differ by 0.577 V to V.

    Args:
        l1, l2, l3: from each line to the reference line of the same name.
        line_voltage: between lines.

    Returns:
        Largest less smallest over the line voltage: 0 when they turn alike, 0.577 to 1 when not.

    Raises:
        ValueError: when the line voltage is not above zero.
    """
    if line_voltage <= 0.0:
        raise ValueError("the voltage between lines must be above zero")
    return (max(l1, l2, l3) - min(l1, l2, l3)) / line_voltage


@dataclass(frozen=True)
class RolledLeads:
    """What a current unbalance follows, from currents before and after the leads were rolled.

    Attributes:
        supply: amplitude of the deviations that stay with the lines, over the mean current.
        motor: amplitude of those that move with the leads, over the mean current.
    """

    supply: float
    motor: float

    @property
    def supply_share(self) -> float:
        """The supply's part of the two amplitudes, 0 to 1.

        Raises:
            ValueError: when there is no unbalance to share out.
        """
        if self.supply + self.motor == 0.0:
            raise ValueError("the currents are balanced both times, so there is nothing to follow")
        return self.supply / (self.supply + self.motor)


def rolled_leads(before: tuple[float, float, float], after: tuple[float, float, float]) -> RolledLeads:
    """Return how much of a current unbalance belongs to the supply and how much to the motor.

    A line's deviation is taken as the sum of its supply's and its motor lead's, s_i + m_i; after every
    lead has moved on by one line it is s_i + m_(i-1). As deviations from a mean sum to nothing, each
    set of three is one complex number (its discrete Fourier component), and the two sets give the two
    unknowns: M = (A - B) / (1 - w), S = A - M, w a third of a turn. Exact to first order in the
    unbalance. The test as done: T. Bishop, Unbalanced current, EC&M, 2014.

    Args:
        before: currents (A) of lines L1, L2, L3, motor leads in their places.
        after: of the same lines, the lead of L1 moved to L2, that of L2 to L3, that of L3 to L1
            (the motor turns the same way).

    Raises:
        ValueError: when a mean is not above zero.

    >>> round(rolled_leads((52.0, 50.0, 48.0), (52.0, 50.0, 48.0)).supply_share, 6)
    1.0
    >>> round(rolled_leads((52.0, 50.0, 48.0), (48.0, 52.0, 50.0)).supply_share, 6)
    0.0
    """
    one, two = _component(before), _component(after)
    motor = (one - two) / (1.0 - _THIRD)
    return RolledLeads(supply=abs(one - motor), motor=abs(motor))


def _component(values: tuple[float, float, float]) -> complex:
    mean = sum(values) / 3.0
    if mean <= 0.0:
        raise ValueError("a share needs a mean current above zero")
    return sum(2.0 / 3.0 * (value / mean - 1.0) * _THIRD**place for place, value in enumerate(values))


def current_unbalance(l1: float, l2: float, l3: float) -> float:
    """Return the current unbalance as a fraction, from the three line currents (A).

    Reckoned as the voltage unbalance is; common practice.

    Raises:
        ValueError: when the mean is not above zero.
    """
    return unbalance((l1, l2, l3))


def motor_current(load: float, rated_current: float, no_load_share: float, *, voltage: float = 1.0) -> float:
    """Return an induction motor's line current (A).

    The magnetising current is the same at every load and lies a quarter turn from the working
    current, which goes with the shaft power: I = I_r sqrt(m² + (1 - m²) x²). This is the motor's
    circle diagram with slip and losses left out (e.g. Fitzgerald, Electric Machinery, chapter on
    polyphase induction machines); it meets m at no load and the rating at full load, and is within
    a few per cent between for ordinary motors. Off the rated voltage the magnetising current goes with
    the voltage (iron not saturated further) and the working current against it.

    Args:
        load: shaft power over rated shaft power, not below zero.
        rated_current: at rated load, A.
        no_load_share: m, current at no load over rated current, 0 to 1.
        voltage: over rated voltage, above zero.

    Raises:
        ValueError: outside those ranges.

    >>> motor_current(1.0, 6.6, 0.45)
    6.6
    >>> round(motor_current(0.0, 6.6, 0.45), 2)
    2.97
    """
    _check_share(no_load_share)
    if load < 0.0:
        raise ValueError(f"a motor's load of {100 * load:.0f} % is below nothing; check the pump's shaft power")
    if voltage <= 0.0:
        raise ValueError("a motor's current needs a voltage above zero")
    magnetising, working = no_load_share * voltage, load / voltage
    return rated_current * sqrt(magnetising**2 + (1.0 - no_load_share**2) * working**2)


def load_from_current(current: float, rated_current: float, no_load_share: float) -> float:
    """Return the load (shaft power over rated) at a line current (A): the inverse of `motor_current`.

    A current at or below the no-load current is no load.

    Raises:
        ValueError: when the share is outside 0 to 1, or the rated current not above zero.

    >>> round(load_from_current(5.0, 6.6, 0.45), 3)
    0.682
    """
    _check_share(no_load_share)
    if rated_current <= 0.0:
        raise ValueError("the motor's rated current must be above zero")
    working = (current / rated_current) ** 2 - no_load_share**2
    return sqrt(max(working, 0.0) / (1.0 - no_load_share**2))


def _check_share(no_load_share: float) -> None:
    if not 0.0 <= no_load_share < 1.0:
        raise ValueError(f"a no-load share of {no_load_share:.2f} is outside 0 to 1")

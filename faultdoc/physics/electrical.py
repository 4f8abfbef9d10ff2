"""Voltages and currents of three-phase motors."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

__all__ = [
    "current_unbalance",
    "load_from_current",
    "motor_current",
    "unbalance",
    "voltage_unbalance",
]


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


def current_unbalance(l1: float, l2: float, l3: float) -> float:
    """Return the current unbalance as a fraction, from the three line currents (A).

    Reckoned as the voltage unbalance is; common practice.

    Raises:
        ValueError: when the mean is not above zero.
    """
    return unbalance((l1, l2, l3))


def motor_current(load: float, rated_current: float, no_load_share: float) -> float:
    """Return an induction motor's line current (A) at rated voltage.

    The magnetising current is the same at every load and lies a quarter turn from the working
    current, which goes with the shaft power: I = I_r sqrt(m² + (1 - m²) x²). This is the motor's
    circle diagram with slip and losses left out (e.g. Fitzgerald, Electric Machinery, chapter on
    polyphase induction machines); it meets m at no load and the rating at full load, and is within
    a few per cent between for ordinary motors.

    Args:
        load: shaft power over rated shaft power, not below zero.
        rated_current: at rated load, A.
        no_load_share: m, current at no load over rated current, 0 to 1.

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
    return rated_current * sqrt(no_load_share**2 + (1.0 - no_load_share**2) * load**2)


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

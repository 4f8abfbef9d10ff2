"""A compressor's sump as a lump that its heater warms and the air cools, and the timers that guard its start.

One temperature for oil and shell: C dT/dt = P - K (T - T_air), whose solution is an exponential with
the time constant C/K (lumped capacitance, e.g. Incropera, Fundamentals of Heat and Mass Transfer,
chapter on transient conduction).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import exp, inf, log

__all__ = ["HOUR", "TimerState", "settled_temperature", "sump_temperature", "time_to_reach", "timer_state"]

HOUR = 3600.0


def settled_temperature(air: float, power: float, heat_loss: float) -> float:
    """Return the temperature (K) at which a heated sump comes to rest.

    Args:
        air: K, around the sump.
        power: of the heater, W, not below zero.
        heat_loss: W/K, above zero.

    Raises:
        ValueError: outside those ranges.

    >>> settled_temperature(293.15, 70.0, 2.8)
    318.15
    """
    if power < 0.0 or heat_loss <= 0.0:
        raise ValueError("a heater's power must not be below zero, and the sump's heat loss must be above it")
    return air + power / heat_loss


def sump_temperature(
    elapsed: float, start: float, air: float, power: float, heat_capacity: float, heat_loss: float
) -> float:
    """Return the sump's temperature (K) some time after its heater came on.

    Args:
        elapsed: s, not below zero.
        start: K, at time zero.
        air: K.
        power: W; zero for a heater that is off.
        heat_capacity: of oil and shell, J/K, above zero.
        heat_loss: W/K, above zero.

    Raises:
        ValueError: outside those ranges.

    >>> round(sump_temperature(20e3 / 2.8, 293.15, 293.15, 70.0, 20e3, 2.8) - 293.15, 2)  # 63.2 % of 25 K
    15.8
    """
    if elapsed < 0.0 or heat_capacity <= 0.0:
        raise ValueError("time must not be below zero, and the sump's heat capacity must be above it")
    end = settled_temperature(air, power, heat_loss)
    return end + (start - end) * exp(-elapsed * heat_loss / heat_capacity)


def time_to_reach(
    target: float, start: float, air: float, power: float, heat_capacity: float, heat_loss: float
) -> float:
    """Return how long (s) the sump takes to warm to a target (K): zero when there, infinite when never.

    Arguments and errors as for `sump_temperature`.

    >>> round(time_to_reach(303.15, 293.15, 293.15, 70.0, 20e3, 2.8) / 60.0, 1)
    60.8
    >>> time_to_reach(330.0, 293.15, 293.15, 70.0, 20e3, 2.8)
    inf
    """
    if heat_capacity <= 0.0:
        raise ValueError("the sump's heat capacity must be above zero")
    end = settled_temperature(air, power, heat_loss)
    if start >= target:
        return 0.0
    if end <= target:
        return inf
    return heat_capacity / heat_loss * log((end - start) / (end - target))


@dataclass(frozen=True)
class TimerState:
    """What a unit's timers say; all times in s.

    Attributes:
        energised: since when power has been on without a break; zero while it is off.
        warm_up_left: of the oil's warm-up.
        anti_recycle_left: till the compressor may start again after its last stop.
        starts_in_last_hour: of the compressor.
        starts_left: till its limit of starts an hour lets another one be; zero without a limit.
        start_allowed_in: the longest of the three waits.
    """

    energised: float
    warm_up_left: float
    anti_recycle_left: float
    starts_in_last_hour: int
    starts_left: float
    start_allowed_in: float


def timer_state(
    power: Sequence[tuple[float, bool]],
    compressor: Sequence[tuple[float, bool]],
    now: float,
    *,
    warm_up: float,
    anti_recycle: float,
    starts_per_hour: int | None = None,
) -> TimerState:
    """Return what the timers of one compressor say, from a log of what was switched when.

    Any break in power restarts the warm-up, and stops the compressor. While power is off the whole
    warm-up is left. A second "on" without an "off" between changes nothing.

    Args:
        power: (time in s, on) for the unit's supply, in order of time; off before the first.
        compressor: (time in s, on) for the compressor, in order of time; off before the first.
        now: s, at or after every event.
        warm_up: s, the data sheet's.
        anti_recycle: s, from a stop to the next start.
        starts_per_hour: most starts in any hour; None for no limit.

    Raises:
        ValueError: for events out of order or later than now, for waits below zero, or for a limit below one.

    >>> state = timer_state([(0.0, True)], [(28800.0, True), (29000.0, False)], 29100.0,
    ...                     warm_up=28800.0, anti_recycle=300.0)
    >>> state.energised, state.warm_up_left, state.anti_recycle_left, state.start_allowed_in
    (29100.0, 0.0, 200.0, 200.0)
    """
    _check_log("power", power, now)
    _check_log("compressor", compressor, now)
    if warm_up < 0.0 or anti_recycle < 0.0:
        raise ValueError("warm-up and anti-recycle time must not be below zero")
    if starts_per_hour is not None and starts_per_hour < 1:
        raise ValueError("a limit below one start an hour lets the compressor never start; check the data sheet")
    since = _on_since(power)
    energised = 0.0 if since is None else now - since
    starts, stop = _starts_and_last_stop(power, compressor)
    recent = [start for start in starts if now - start < HOUR]
    starts_left = 0.0
    if starts_per_hour is not None and len(recent) >= starts_per_hour:
        starts_left = recent[-starts_per_hour] + HOUR - now
    warm_up_left = max(warm_up - energised, 0.0)
    anti_recycle_left = 0.0 if stop is None else max(stop + anti_recycle - now, 0.0)
    return TimerState(
        energised,
        warm_up_left,
        anti_recycle_left,
        len(recent),
        starts_left,
        max(warm_up_left, anti_recycle_left, starts_left),
    )


def _check_log(name: str, events: Sequence[tuple[float, bool]], now: float) -> None:
    times = [time for time, _ in events]
    if any(later < earlier for earlier, later in pairwise(times)):
        raise ValueError(f"the {name} log is not in order of time; sort it")
    if times and times[-1] > now:
        raise ValueError(f"the {name} log runs past now; check the clock and the dates")


def _on_since(events: Sequence[tuple[float, bool]]) -> float | None:
    """Return since when it has been on without a break, or None while it is off."""
    since: float | None = None
    for time, on in events:
        if not on:
            since = None
        elif since is None:
            since = time
    return since


def _starts_and_last_stop(
    power: Sequence[tuple[float, bool]], compressor: Sequence[tuple[float, bool]]
) -> tuple[list[float], float | None]:
    """Return the times of all starts, and of the last stop: by its own switch, or by a loss of power."""
    losses = [(time, False) for time, on in power if not on]
    starts: list[float] = []
    stop: float | None = None
    running = False
    # A loss of power comes after a start logged at the same moment.
    for time, on in sorted([*compressor, *losses], key=lambda event: (event[0], not event[1])):
        if on and not running:
            starts.append(time)
        if running and not on:
            stop = time
        running = on
    return starts, stop

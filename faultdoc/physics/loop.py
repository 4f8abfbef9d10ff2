"""The loop as a store of heat: how much water it holds, how fast a unit cycles on it, how long it takes to cool.

All of the loop's water is taken at one temperature, which is right as long as it goes round in less
time than it takes to cool; hose and steel are left out, some per cent of what the water holds.
"""

from __future__ import annotations

from math import pi

__all__ = ["bypass_share", "hose_volume", "pull_down_time", "running_time", "shortest_cycle"]


def hose_volume(length: float, bore: float) -> float:
    """Return the water (m³) in a round line of a length and a bore (m).

    Raises:
        ValueError: for a length below zero or a bore that is not above zero.

    >>> round(hose_volume(100.0, 0.0635) * 1000.0)
    317
    """
    if length < 0.0 or bore <= 0.0:
        raise ValueError("a hose has a length of zero or more and a bore above zero")
    return length * pi * bore**2 / 4.0


def running_time(heat_capacity: float, band: float, capacity: float, load: float = 0.0) -> float:
    """Return how long (s) a unit runs to cool the loop through the band of its control: C ΔT / (Q - load).

    Args:
        heat_capacity: of the loop's water, J/K.
        band: between the temperatures at which the control starts and stops the step, K.
        capacity: of the step that runs, W.
        load: heat that comes in meanwhile, W, below the capacity.

    Raises:
        ValueError: outside those ranges.

    >>> round(running_time(1000.0 * 4186.0, 2.0, 50_000.0) / 60.0, 1)
    2.8
    """
    if heat_capacity <= 0.0 or band <= 0.0:
        raise ValueError("the loop's heat capacity and the band of the control must be above zero")
    if not 0.0 <= load < capacity:
        raise ValueError("the load must lie between nothing and what the step that runs can carry")
    return heat_capacity * band / (capacity - load)


def shortest_cycle(heat_capacity: float, band: float, capacity: float) -> float:
    """Return the shortest time (s) from start to start of a step over all loads: 4 C ΔT / Q.

    On and off take C ΔT (1 / load + 1 / (Q - load)), which is least when the load is half the step.

    Args:
        heat_capacity: of the loop's water, J/K.
        band: of the control, K.
        capacity: of the step, W.

    Raises:
        ValueError: when one is not above zero.

    >>> round(shortest_cycle(4.186e6, 2.0, 50_000.0) / 60.0, 1)
    11.2
    """
    if capacity <= 0.0:
        raise ValueError("the capacity of the step must be above zero")
    return running_time(heat_capacity, band, capacity, capacity / 2.0) * 2.0


def pull_down_time(heat_capacity: float, start: float, end: float, capacity: float, load: float = 0.0) -> float:
    """Return how long (s) a unit takes to cool the loop from `start` to `end` (K): C (start - end) / (Q - load).

    Args:
        heat_capacity: of the loop's water, J/K.
        start: temperature of the loop at the start, K.
        end: wanted, K; not above the start.
        capacity: mean cooling capacity on the way, W.
        load: heat that comes in meanwhile, W, below the capacity.

    Raises:
        ValueError: outside those ranges.

    >>> round(pull_down_time(4.186e6, 298.15, 280.15, 105_000.0, 50_000.0) / 60.0)
    23
    """
    if start < end:
        raise ValueError("the loop is colder at the start than at the end; it was not pulled down")
    if start == end:
        return 0.0
    return running_time(heat_capacity, start - end, capacity, load)


def bypass_share(supply: float, load_return: float, unit_return: float) -> float:
    """Return the share of the unit's flow that goes past the load, from the three temperatures (K).

    What comes back is supply water that went past and return water from the load, mixed: with one
    heat capacity (m_bypass + m_load) T_unit = m_bypass T_supply + m_load T_load, so

        share = (T_load - T_unit) / (T_load - T_supply).

    Heat and mass balance of adiabatic mixing, e.g. ASHRAE Handbook, Fundamentals, chapter on psychrometrics
    (there for air).

    Args:
        supply: water leaving the unit.
        load_return: water leaving the load, before the bypass joins it.
        unit_return: water entering the unit.

    Raises:
        ValueError: when the load warms the water by less than half a kelvin, which tells nothing.

    >>> bypass_share(280.0, 290.0, 287.5)
    0.25
    """
    if load_return - supply < 0.5:
        raise ValueError(
            "the load warms the water by less than half a kelvin, which tells nothing of a bypass; "
            "read again under load"
        )
    return (load_return - unit_return) / (load_return - supply)

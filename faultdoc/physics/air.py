"""The air side of an air-cooled condenser: density, recirculation, and what fans, load and height do to the split.

The refrigerant condenses at one temperature, so the coil is an exchanger with one constant side:
effectiveness = 1 - exp(-NTU) (Kays and London, Compact Heat Exchangers; ASHRAE Handbook, Fundamentals,
chapter on heat transfer). The "split" is condensing temperature less entering air; the heat given off is

    Q = mass flow of air x heat capacity x effectiveness x split.

A fan moves the same volume whatever the density (fan laws, ASHRAE Handbook, HVAC Systems and
Equipment), so thin air means less mass. The coil's own conductance goes with the mass flow to
about 0.5 (finned coils: j ~ Re^-0.4 to -0.6, e.g. ASHRAE, as above).
"""

from __future__ import annotations

from math import exp

__all__ = [
    "AIR_EXPONENT",
    "GAS_CONSTANT",
    "density",
    "effectiveness",
    "number_of_transfer_units",
    "outlet_rise",
    "recirculated_share",
    "split_ratio",
]

GAS_CONSTANT = 287.042
"""Of dry air, J/(kg K): ASHRAE Handbook, Fundamentals, chapter on psychrometrics."""

AIR_EXPONENT = 0.5
"""The coil's conductance goes with the mass flow of air to this power."""


def density(pressure: float, temperature: float) -> float:
    """Return the density of dry air, kg/m³: the ideal gas law; moist air is up to 1.5 % lighter.

    Args:
        pressure: Pa absolute.
        temperature: K, above zero.

    Raises:
        ValueError: for a temperature at or below absolute zero, or a pressure below zero.

    >>> round(density(101325.0, 293.15), 3)
    1.204
    """
    if temperature <= 0.0 or pressure < 0.0:
        raise ValueError(f"air at {pressure:.0f} Pa and {temperature:.0f} K does not exist; check the readings")
    return pressure / (GAS_CONSTANT * temperature)


def recirculated_share(ambient: float, inlet: float, outlet: float) -> float:
    """Return which share of the air that enters a coil has left one before: a heat balance of the mixing.

    Args:
        ambient, inlet, outlet: K; the outlet must be warmer than the ambient.

    Raises:
        ValueError: when the outlet is not warmer than the ambient.

    >>> recirculated_share(300.0, 303.0, 315.0)
    0.2
    """
    if outlet <= ambient:
        raise ValueError(
            "the air leaving the fans is not warmer than the outdoor air; is the unit running, and were the "
            "thermometers not exchanged?"
        )
    return (inlet - ambient) / (outlet - ambient)


def effectiveness(transfer_units: float) -> float:
    """Return the effectiveness (0 to 1) of a coil in which the refrigerant condenses.

    Raises:
        ValueError: for a number of transfer units that is not above zero.

    >>> round(effectiveness(1.2), 3)
    0.699
    """
    if transfer_units <= 0.0:
        raise ValueError("a coil without transfer units moves no heat")
    return 1.0 - exp(-transfer_units)


def number_of_transfer_units(design: float, mass_flow_ratio: float) -> float:
    """Return the number of transfer units at another mass flow of air than the design's.

    Conductance over mass flow: NTU ~ flow^(0.5 - 1).

    Args:
        design: number of transfer units at design.
        mass_flow_ratio: mass flow through a part of the coil over its design flow, above zero.

    Raises:
        ValueError: outside those ranges.
    """
    if design <= 0.0 or mass_flow_ratio <= 0.0:
        raise ValueError("a coil needs transfer units and a flow of air above zero")
    return float(design * mass_flow_ratio ** (AIR_EXPONENT - 1.0))


def split_ratio(load_share: float, fan_share: float, density_ratio: float, transfer_units: float) -> float:
    """Return the condenser's split over that at design.

    The part of the coil under a fan that stands still is taken to give nothing: the heat is shared by
    the rest.

    Args:
        load_share: heat given off over that at design, not below zero.
        fan_share: fans running over fans fitted, above zero to 1.
        density_ratio: density of the air over that at design, above zero.
        transfer_units: of the coil at design, above zero.

    Raises:
        ValueError: outside those ranges.

    >>> split_ratio(1.0, 1.0, 1.0, 1.2)
    1.0
    >>> round(split_ratio(1.0, 0.5, 1.0, 1.2), 3)
    2.0
    """
    if load_share < 0.0:
        raise ValueError("a load below zero: count the compressors that run again")
    if fan_share <= 0.0:
        raise ValueError("with no fan running there is no split to hold; the unit must not run so")
    now = effectiveness(number_of_transfer_units(transfer_units, density_ratio))
    return load_share * effectiveness(transfer_units) / (fan_share * density_ratio * now)


def outlet_rise(split: float, transfer_units: float) -> float:
    """Return by how much (K) the air warms through the coil at a split (K)."""
    return split * effectiveness(transfer_units)

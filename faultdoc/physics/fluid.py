"""Properties of the loop's water, plain or with glycol.

Plain water: IAPWS Industrial Formulation 1997 (IAPWS R7-97) with the viscosity of IAPWS R12-08.
Mixes: CoolProp's incompressible fluids MPG and MEG, fitted to Å. Melinder, Properties of Secondary
Working Fluids for Indirect Systems, IIR 2010. CoolProp is imported inside, by its extension alone.

Fractions are by mass of glycol in the mix, 0 to 0.6. Liquid hardly feels pressure: everything is
taken at 300 kPa absolute, which is right to 0.1 % up to 2 MPa.
"""

from __future__ import annotations

from functools import cache, lru_cache
from itertools import pairwise
from typing import Any, Literal

from faultdoc.physics.coolprop import ONE_AT_A_TIME, extension

__all__ = [
    "GRAVITY",
    "GlycolKind",
    "burst_point",
    "density",
    "dynamic_viscosity",
    "fraction_from_density",
    "freezing_point",
    "heat_capacity",
    "kinematic_viscosity",
    "mass_fraction",
    "vapour_pressure",
    "volume_fraction",
]

GlycolKind = Literal["none", "propylene", "ethylene"]

GRAVITY = 9.80665
"""Standard gravity, m/s²."""

MOST_GLYCOL = 0.6
HOTTEST = 373.15
_PRESSURE = 300_000.0
_WATER_FREEZES = 273.15
_CODES = {"propylene": "MPG", "ethylene": "MEG"}
_MOLAR_MASS = {"propylene": 0.07609, "ethylene": 0.06207}
_WATER_MOLAR_MASS = 0.018015
_PURE_DENSITY = {"propylene": 1036.1, "ethylene": 1113.5}
"""kg/m³ at 20 °C; CRC Handbook of Chemistry and Physics, physical constants of organic compounds (from memory)."""
_PURE_WATER_DENSITY = 998.2
_BURST = {
    "ethylene": ((0.12, 20.0), (0.18, 10.0), (0.23, 0.0), (0.27, -10.0), (0.30, -20.0), (0.31, -30.0)),
    "propylene": (
        (0.12, 20.0),
        (0.20, 10.0),
        (0.24, 0.0),
        (0.28, -10.0),
        (0.31, -20.0),
        (0.33, -30.0),
        (0.35, -40.0),
    ),
}
"""Fraction by volume that keeps pipes whole, and down to which °F: the table of hydronic system mixtures in
Math for HVACR (Goodheart-Willcox, 2018), exercise 5-4. Its later rows, to -60 °F, ask for no more glycol.
Taken as volumes of glycol; of inhibited concentrate, as they may be meant, a little less would do."""
_COLDEST_IN_TABLE = -60.0


def density(temperature: float, glycol: GlycolKind = "none", fraction: float = 0.0) -> float:
    """Return the density, kg/m³.

    Args:
        temperature: K, from the freezing point to 373.15 K.
        glycol: which glycol.
        fraction: of glycol by mass, 0 to 0.6.

    Raises:
        ValueError: outside those ranges, or a fraction above zero of no glycol.

    >>> round(density(293.15), 1)
    998.3
    """
    return _properties(temperature, glycol, fraction)[0]


def dynamic_viscosity(temperature: float, glycol: GlycolKind = "none", fraction: float = 0.0) -> float:
    """Return the dynamic viscosity, Pa s. Arguments, range and errors as for `density`.

    >>> round(dynamic_viscosity(293.15) * 1000.0, 3)
    1.002
    """
    return _properties(temperature, glycol, fraction)[1]


def heat_capacity(temperature: float, glycol: GlycolKind = "none", fraction: float = 0.0) -> float:
    """Return the specific heat capacity at constant pressure, J/(kg K). As for `density`.

    >>> round(heat_capacity(293.15), -1)
    4180.0
    """
    return _properties(temperature, glycol, fraction)[2]


def kinematic_viscosity(temperature: float, glycol: GlycolKind = "none", fraction: float = 0.0) -> float:
    """Return the kinematic viscosity, m²/s. Arguments, range and errors as for `density`."""
    rho, mu, _ = _properties(temperature, glycol, fraction)
    return mu / rho


def freezing_point(glycol: GlycolKind = "none", fraction: float = 0.0) -> float:
    """Return the temperature (K) at which the first ice crystals form in the mix.

    Args:
        glycol: which glycol.
        fraction: of glycol by mass, 0 to 0.6.

    Raises:
        ValueError: outside that range.

    >>> round(freezing_point("ethylene", 0.3) - 273.15, 1)
    -14.6
    """
    _check_fraction(glycol, fraction)
    if fraction == 0.0:
        return _WATER_FREEZES
    return min(_freezing(glycol, fraction), _WATER_FREEZES)


def mass_fraction(glycol: GlycolKind, by_volume: float) -> float:
    """Return the fraction by mass of a glycol mixed in a fraction by volume (both liquids measured at 20 °C).

    Raises:
        ValueError: outside 0 to 1, or a fraction above zero of no glycol.

    >>> round(mass_fraction("ethylene", 0.30), 3)
    0.323
    """
    pure = _pure(glycol, by_volume)
    return by_volume * pure / (by_volume * pure + (1.0 - by_volume) * _PURE_WATER_DENSITY)


def volume_fraction(glycol: GlycolKind, by_mass: float) -> float:
    """Return the fraction by volume of a fraction by mass: the inverse of `mass_fraction`.

    >>> round(volume_fraction("ethylene", mass_fraction("ethylene", 0.30)), 9)
    0.3
    """
    pure = _pure(glycol, by_mass)
    return (by_mass / pure) / (by_mass / pure + (1.0 - by_mass) / _PURE_WATER_DENSITY)


def _pure(glycol: GlycolKind, fraction: float) -> float:
    """Return the density (kg/m³) of the pure glycol; of water where there is none."""
    if not 0.0 <= fraction <= 1.0:
        raise ValueError(f"a glycol fraction of {100 * fraction:.1f} % is outside 0 to 100 %")
    if fraction == 0.0:
        return _PURE_WATER_DENSITY
    if glycol not in _PURE_DENSITY:
        raise ValueError(f"{100 * fraction:.1f} % of no glycol; say which glycol, propylene or ethylene")
    return _PURE_DENSITY[glycol]


def burst_point(glycol: GlycolKind = "none", fraction: float = 0.0) -> float:
    """Return the temperature (K) down to which standing mix turns to slush at most and bursts no pipe.

    Linear between the rows of the table, and from plain water's freezing point to its first; with
    as much glycol as its last row or more, the coldest it is stated for, -60 °F (222 K).

    Args:
        glycol: which glycol.
        fraction: of glycol by mass, 0 to 0.6.

    Raises:
        ValueError: outside that range.

    >>> round(burst_point("propylene", mass_fraction("propylene", 0.24)) * 1.8 - 459.67)
    0
    """
    _check_fraction(glycol, fraction)
    volume = volume_fraction(glycol, fraction)
    rows = ((0.0, 32.0), *_BURST.get(glycol, ()))
    at = 32.0 if fraction == 0.0 else _COLDEST_IN_TABLE
    for (less, warm), (more, cold) in pairwise(rows):
        if less <= volume < more:
            at = warm + (cold - warm) * (volume - less) / (more - less)
    return (at + 459.67) / 1.8


def fraction_from_density(density_read: float, temperature: float, glycol: GlycolKind) -> float:
    """Return the fraction by mass of a glycol in a mix of a density (kg/m³) at a temperature (K).

    Args:
        density_read: at that temperature.
        temperature: of the sample, from 273.15 K, at which every mix is liquid, to 373.15 K.
        glycol: which glycol.

    Raises:
        ValueError: for no glycol, a temperature out of range, or a density that no mix up to 60 % has.

    >>> round(fraction_from_density(density(293.15, "ethylene", 0.3), 293.15, "ethylene"), 6)
    0.3
    """
    from scipy.optimize import brentq

    if glycol not in _CODES:
        raise ValueError("a density tells the fraction of a glycol; say which glycol, propylene or ethylene")
    lightest, heaviest = density(temperature), density(temperature, glycol, MOST_GLYCOL)
    # A hydrometer in plain water reads a little off either way: nought, down to half a per cent light.
    if 0.995 * lightest <= density_read <= lightest:
        return 0.0
    if not lightest < density_read <= heaviest:
        raise ValueError(
            f"a density of {density_read:.0f} kg/m³ is outside {lightest:.0f} to {heaviest:.0f} kg/m³, "
            f"which water with up to 60 % {glycol} glycol has; check the hydrometer and which glycol it is"
        )

    def above(fraction: float) -> float:
        return (density(temperature, glycol, fraction) if fraction else lightest) - density_read

    return float(brentq(above, 0.0, MOST_GLYCOL, xtol=1e-9))


def vapour_pressure(temperature: float, glycol: GlycolKind = "none", fraction: float = 0.0) -> float:
    """Return the vapour pressure of the mix, Pa absolute.

    Water's own (IAPWS-IF97) times the mole fraction of water: Raoult's law, the glycol's own
    vapour being some hundred times thinner. Arguments, range and errors as for `density`.

    >>> round(vapour_pressure(293.15))
    2339
    """
    _properties(temperature, glycol, fraction)  # for its refusals
    if fraction == 0.0:
        return _saturation(temperature)
    water = (1.0 - fraction) / _WATER_MOLAR_MASS
    return _saturation(max(temperature, _WATER_FREEZES)) * water / (water + fraction / _MOLAR_MASS[glycol])


def _check_fraction(glycol: GlycolKind, fraction: float) -> None:
    if not 0.0 <= fraction <= MOST_GLYCOL:
        raise ValueError(
            f"a glycol fraction of {100 * fraction:.1f} % is outside 0 to {100 * MOST_GLYCOL:.0f} % by mass; "
            "check the refractometer's scale"
        )
    if fraction > 0.0 and glycol not in _CODES:
        raise ValueError(f"{100 * fraction:.1f} % of no glycol; say which glycol, propylene or ethylene")


@lru_cache(maxsize=4096)
def _properties(temperature: float, glycol: GlycolKind, fraction: float) -> tuple[float, float, float]:
    """Return density, dynamic viscosity and heat capacity."""
    _check_fraction(glycol, fraction)
    frozen = freezing_point(glycol, fraction)
    if not frozen <= temperature <= HOTTEST:
        what = f"water with {100 * fraction:.0f} % {glycol} glycol" if fraction else "plain water"
        raise ValueError(
            f"{what} at {temperature - 273.15:.1f} °C is outside its liquid range of "
            f"{frozen - 273.15:.1f} to {HOTTEST - 273.15:.0f} °C; check the temperature and the glycol fraction"
        )

    # The fit of the freezing curve and the ones of the properties meet to within rounding only.
    edge = _freezing(glycol, fraction) if fraction else _WATER_FREEZES
    with ONE_AT_A_TIME:
        state = _state(glycol if fraction else "none")
        if fraction:
            state.set_mass_fractions([fraction])
        state.update(extension().PT_INPUTS, _PRESSURE, max(temperature, edge + 1e-6))
        return float(state.rhomass()), float(state.viscosity()), float(state.cpmass())


@lru_cache(maxsize=1024)
def _freezing(glycol: GlycolKind, fraction: float) -> float:

    return float(
        extension().PropsSI("T_freeze", "T", 300.0, "P", _PRESSURE, f"INCOMP::{_CODES[glycol]}[{fraction!r}]")
    )


@lru_cache(maxsize=1024)
def _saturation(temperature: float) -> float:

    return float(extension().PropsSI("P", "T", temperature, "Q", 0, "IF97::Water"))


@cache
def _state(glycol: GlycolKind) -> Any:

    if glycol == "none":
        return extension().AbstractState("IF97", "Water")
    return extension().AbstractState("INCOMP", _CODES[glycol])

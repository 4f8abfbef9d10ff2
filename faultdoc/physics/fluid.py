"""Properties of the loop's water, plain or with glycol.

Plain water: IAPWS Industrial Formulation 1997 (IAPWS R7-97) with the viscosity of IAPWS R12-08.
Mixes: CoolProp's incompressible fluids MPG and MEG, fitted to Å. Melinder, Properties of Secondary
Working Fluids for Indirect Systems, IIR 2010. CoolProp is slow to import and is imported inside.

Fractions are by mass of glycol in the mix, 0 to 0.6. Liquid hardly feels pressure: everything is
taken at 300 kPa absolute, which is right to 0.1 % up to 2 MPa.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Any, Literal

__all__ = [
    "GRAVITY",
    "GlycolKind",
    "density",
    "dynamic_viscosity",
    "freezing_point",
    "heat_capacity",
    "kinematic_viscosity",
    "vapour_pressure",
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
    from CoolProp.CoolProp import PT_INPUTS

    state = _state(glycol if fraction else "none")
    if fraction:
        state.set_mass_fractions([fraction])
    # The fit of the freezing curve and the ones of the properties meet to within rounding only.
    edge = _freezing(glycol, fraction) if fraction else _WATER_FREEZES
    state.update(PT_INPUTS, _PRESSURE, max(temperature, edge + 1e-6))
    return float(state.rhomass()), float(state.viscosity()), float(state.cpmass())


@lru_cache(maxsize=1024)
def _freezing(glycol: GlycolKind, fraction: float) -> float:
    from CoolProp.CoolProp import PropsSI

    return float(PropsSI("T_freeze", "T", 300.0, "P", _PRESSURE, f"INCOMP::{_CODES[glycol]}[{fraction!r}]"))


@lru_cache(maxsize=1024)
def _saturation(temperature: float) -> float:
    from CoolProp.CoolProp import PropsSI

    return float(PropsSI("P", "T", temperature, "Q", 0, "IF97::Water"))


@cache
def _state(glycol: GlycolKind) -> Any:
    from CoolProp.CoolProp import AbstractState

    if glycol == "none":
        return AbstractState("IF97", "Water")
    return AbstractState("INCOMP", _CODES[glycol])

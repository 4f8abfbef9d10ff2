"""Enthalpy, entropy and density of the nine refrigerants as gas and as liquid, quickly and for whole arrays.

A simulated cycle asks for thousands of states. CoolProp answers one at a time; here its answers are
tabulated once per refrigerant (some 30 ms) and read off cubic splines. The gas is tabulated over its dew
temperature (in place of the pressure) and its superheat, the liquid over its temperature on the bubble line:
in these coordinates the surfaces are nearly planes. Wet gas is the mean of its gas and its liquid by mass.

Temperatures K, superheat K, enthalpy J/kg, entropy J/(kg K), density kg/m³. Enthalpy and entropy count from
CoolProp's reference state, so that only their differences mean something.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from faultdoc.physics import refrigerant
from faultdoc.physics.coolprop import ONE_AT_A_TIME, extension

__all__ = [
    "COLDEST",
    "MOST_SUPERHEAT",
    "density",
    "enthalpy",
    "enthalpy_after_compression",
    "entropy",
    "latent_heat",
    "liquid_density",
    "liquid_enthalpy",
    "temperature_of_gas",
    "warmest",
]

COLDEST = 213.15
"""K; the lowest dew and bubble temperature tabulated."""
MOST_SUPERHEAT = 120.0
"""K; the warmest gas tabulated is so much over its dew line."""

_DEWS = 56
_SUPERHEATS = 40

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class _Tables:
    """Splines of one refrigerant: of the gas over (dew, superheat), of the liquid over temperature."""

    warmest: float
    enthalpy: Any
    entropy: Any
    density: Any
    after: Any
    """Enthalpy over (dew, entropy above that of dry gas)."""
    superheat: Any
    """Superheat over (dew, enthalpy above that of dry gas)."""
    liquid_enthalpy: Any
    liquid_density: Any


def warmest(name: str) -> float:
    """Return the highest dew and bubble temperature (K) tabulated for a refrigerant.

    Raises:
        ValueError: for a refrigerant that is not known.
    """
    return _tables(refrigerant.canonical(name)).warmest


def enthalpy(name: str, dew: ArrayLike, superheat: ArrayLike, wetness: ArrayLike = 0.0) -> Floats:
    """Return the enthalpy (J/kg) of gas at a pressure given by its dew temperature (K).

    Args:
        name: the refrigerant, see `refrigerant.NAMES`.
        dew: K; held to `COLDEST` and `warmest`.
        superheat: K, 0 to `MOST_SUPERHEAT`; held to that.
        wetness: share by mass that is liquid; with it the superheat should be zero.

    Raises:
        ValueError: for a refrigerant that is not known.
    """
    tables = _tables(refrigerant.canonical(name))
    dry = np.asarray(tables.enthalpy.ev(dew, superheat), dtype=np.float64)
    wet = np.asarray(wetness, dtype=np.float64)
    if not wet.any():
        return dry
    return np.asarray(dry - wet * latent_heat(name, dew), dtype=np.float64)


def entropy(name: str, dew: ArrayLike, superheat: ArrayLike, wetness: ArrayLike = 0.0) -> Floats:
    """Return the entropy (J/(kg K)) of gas. Arguments and errors as for `enthalpy`."""
    tables = _tables(refrigerant.canonical(name))
    dry = np.asarray(tables.entropy.ev(dew, superheat), dtype=np.float64)
    wet = np.asarray(wetness, dtype=np.float64)
    if not wet.any():
        return dry
    # Along the line of one pressure in the wet region dh = T ds.
    return np.asarray(dry - wet * latent_heat(name, dew) / np.asarray(dew), dtype=np.float64)


def density(name: str, dew: ArrayLike, superheat: ArrayLike) -> Floats:
    """Return the density (kg/m³) of dry gas. Arguments and errors as for `enthalpy`."""
    return np.asarray(_tables(refrigerant.canonical(name)).density.ev(dew, superheat), dtype=np.float64)


def latent_heat(name: str, dew: ArrayLike) -> Floats:
    """Return the enthalpy (J/kg) of dry gas less that of the boiling liquid at the same pressure.

    >>> round(float(latent_heat("R-134a", 273.15)) / 1000.0, 1)
    198.6
    """
    known = refrigerant.canonical(name)
    tables = _tables(known)
    at = np.clip(np.asarray(dew, dtype=np.float64), COLDEST, tables.warmest)
    bubble = refrigerant.bubble_temperature(known, refrigerant.dew_pressure(known, at))
    return np.asarray(tables.enthalpy.ev(at, 0.0) - tables.liquid_enthalpy(bubble), dtype=np.float64)


def enthalpy_after_compression(
    name: str, dew: ArrayLike, entropy_before: ArrayLike, enthalpy_before: ArrayLike, efficiency: ArrayLike
) -> Floats:
    """Return the enthalpy (J/kg) at the discharge: h1 + (h2s - h1) / efficiency.

    Args:
        name: the refrigerant.
        dew: of the discharge pressure, K.
        entropy_before, enthalpy_before: of the suction gas.
        efficiency: isentropic, above zero.

    Raises:
        ValueError: for a refrigerant that is not known.
    """
    tables = _tables(refrigerant.canonical(name))
    above = np.asarray(entropy_before, dtype=np.float64) - tables.entropy.ev(dew, 0.0)
    # Below the dry line h falls by T ds.
    ideal = tables.after.ev(dew, np.maximum(above, 0.0)) + np.minimum(above, 0.0) * np.asarray(dew)
    before = np.asarray(enthalpy_before, dtype=np.float64)
    return np.asarray(before + (ideal - before) / np.asarray(efficiency), dtype=np.float64)


def temperature_of_gas(name: str, dew: ArrayLike, enthalpy: ArrayLike) -> Floats:
    """Return the temperature (K) of gas with an enthalpy (J/kg); wet gas is at its dew temperature.

    Raises:
        ValueError: for a refrigerant that is not known.
    """
    tables = _tables(refrigerant.canonical(name))
    above = np.asarray(enthalpy, dtype=np.float64) - tables.enthalpy.ev(dew, 0.0)
    return np.asarray(np.asarray(dew) + tables.superheat.ev(dew, np.maximum(above, 0.0)), dtype=np.float64)


def liquid_enthalpy(name: str, temperature: ArrayLike) -> Floats:
    """Return the enthalpy (J/kg) of liquid at a temperature (K), taken as on the bubble line.

    What the pressure adds over the bubble line is a thousandth of the latent heat.

    Raises:
        ValueError: for a refrigerant that is not known.
    """
    return np.asarray(_tables(refrigerant.canonical(name)).liquid_enthalpy(temperature), dtype=np.float64)


def liquid_density(name: str, temperature: ArrayLike) -> Floats:
    """Return the density (kg/m³) of liquid at a temperature (K), taken as on the bubble line.

    >>> round(float(liquid_density("R-134a", 298.15)))
    1207

    Raises:
        ValueError: for a refrigerant that is not known.
    """
    return np.asarray(_tables(refrigerant.canonical(name)).liquid_density(temperature), dtype=np.float64)


@cache
def _tables(name: str) -> _Tables:
    """Return the tables of one refrigerant, made on first use; `name` is canonical."""
    from scipy.interpolate import CubicSpline, RectBivariateSpline

    hottest = refrigerant.dew_range(name)[1]
    # Towards the critical point everything bends: the nodes lie closer there.
    dews = hottest - (hottest - COLDEST) * np.linspace(1.0, 0.0, _DEWS) ** 1.5
    superheats = MOST_SUPERHEAT * np.linspace(0.0, 1.0, _SUPERHEATS) ** 2
    gas = np.empty((3, _DEWS, _SUPERHEATS))
    pressures = refrigerant.dew_pressure(name, dews)
    with ONE_AT_A_TIME:
        state = refrigerant.gas_state(name)
        for i, (dew, pressure) in enumerate(zip(dews, pressures, strict=True)):
            for j, superheat in enumerate(superheats):
                # A hair above the dew line: on it the phase is anybody's guess.
                state.update(extension().PT_INPUTS, pressure, dew + max(superheat, 1e-3))
                gas[:, i, j] = state.hmass(), state.smass(), state.rhomass()
        liquid = refrigerant.new_state(name)
        temperatures, enthalpies, densities = [], [], []
        for temperature in np.linspace(COLDEST, hottest, _DEWS):
            try:
                liquid.update(extension().QT_INPUTS, 0.0, temperature)
            except ValueError:  # the mixture's flash did not converge at this one
                continue
            temperatures.append(temperature)
            enthalpies.append(liquid.hmass())
            densities.append(liquid.rhomass())
    return _Tables(
        hottest,
        RectBivariateSpline(dews, superheats, gas[0]),
        RectBivariateSpline(dews, superheats, gas[1]),
        RectBivariateSpline(dews, superheats, gas[2]),
        _inverse(dews, gas[1], gas[0]),
        _inverse(dews, gas[0], np.broadcast_to(superheats, gas[0].shape)),
        CubicSpline(temperatures, enthalpies),
        CubicSpline(temperatures, densities),
    )


def _inverse(dews: Floats, given: Floats, wanted: Floats) -> Any:
    """Return `wanted` as a spline over (dew, `given` above its value on the dew line); rows rise in `given`."""
    from scipy.interpolate import CubicSpline, RectBivariateSpline

    above = given - given[:, :1]
    span = above[:, -1].max() * np.linspace(0.0, 1.0, _SUPERHEATS) ** 1.5
    rows = [CubicSpline(x, y)(np.minimum(span, x[-1])) for x, y in zip(above, wanted, strict=True)]
    return RectBivariateSpline(dews, span, np.array(rows))

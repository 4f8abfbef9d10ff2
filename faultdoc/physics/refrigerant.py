"""Saturation of the nine refrigerants a packaged chiller is likely to hold, and what is reckoned from it.

Properties come from CoolProp's Helmholtz-energy equations ("HEOS"); CoolProp is slow to import and
is imported inside, by the first look-up. Which equations, and why:

- R-134a, R-22, R-32 and R-1234ze(E) are pure: their own reference equations of state.
- R-410A, R-407C and R-404A: the pseudo-pure equations of Lemmon (Int. J. Thermophys. 24, 2003, 991),
  which carry bubble and dew lines of their own. They are a hundred times quicker than mixing the
  components, never fail to converge, and agree with the mixture model within 0.05 K here.
- R-454B and R-513A have no pseudo-pure equation: the mixture model over the components, in the
  fractions by mass of ANSI/ASHRAE 34. Its flash fails at a few single points; the tables below are
  fitted by least squares over those that converge.

Each refrigerant's bubble and dew lines are tabulated on the first look-up (some 50 ms for a blend, a
few ms for the rest): 1/T as a Chebyshev series in ln p, and ln p as one in 1/T. Both are nearly
straight lines, so a series of 15 terms is within 0.01 K of the equations over the whole range.

Pressures are absolute, Pa; temperatures K. Superheat is counted from the dew line, subcooling from the
bubble line (ASHRAE Handbook, Fundamentals, chapter on thermophysical properties of refrigerants).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

import numpy as np
from numpy.polynomial import Chebyshev
from numpy.typing import ArrayLike, NDArray

from faultdoc.physics.coolprop import ONE_AT_A_TIME, extension

__all__ = [
    "NAMES",
    "Line",
    "bubble_pressure",
    "bubble_temperature",
    "canonical",
    "compression_ratio",
    "dew_pressure",
    "dew_range",
    "dew_temperature",
    "discharge_temperature",
    "foreign_gas_pressure",
    "gas_state",
    "glide",
    "new_state",
    "pressure_range",
    "resting_pressure",
    "subcooling",
    "superheat",
]

Line = Literal["bubble", "dew"]

LOWEST = 203.15
"""K; -70 °C, a deep vacuum for each of the nine."""
HOTTEST_GAS = 450.0
"""K; oil and motor are lost well below, and the equations hold a little above."""

_TERMS = 14
_NODES = 48
_LEAST_NODES = 32
_TOLERANCE = 1e-6
"""K; where the search for a gas temperature ends."""


@dataclass(frozen=True)
class _Recipe:
    """What CoolProp is asked for: components, fractions by mass, and the warmest saturation tabulated (K)."""

    components: str
    fractions: tuple[float, ...]
    warmest: float


# Warmest: 2.5 K below the critical temperature; for the two mixtures, where the flash still converges.
_RECIPES = {
    "R-410A": _Recipe("R410A", (1.0,), 341.9),
    "R-134a": _Recipe("R134a", (1.0,), 371.7),
    "R-22": _Recipe("R22", (1.0,), 366.8),
    "R-407C": _Recipe("R407C", (1.0,), 356.8),
    "R-404A": _Recipe("R404A", (1.0,), 342.7),
    "R-32": _Recipe("R32", (1.0,), 348.7),
    "R-454B": _Recipe("R32&R1234yf", (0.689, 0.311), 346.0),
    "R-513A": _Recipe("R1234yf&R134a", (0.56, 0.44), 362.0),
    "R-1234ze(E)": _Recipe("R1234ze(E)", (1.0,), 380.0),
}

NAMES = tuple(_RECIPES)
"""The refrigerants known, as ANSI/ASHRAE 34 writes them."""


def canonical(name: str) -> str:
    """Return a refrigerant's name as ANSI/ASHRAE 34 writes it, however it was typed.

    Raises:
        ValueError: for one that is not known here, with those that are.

    >>> canonical("r410a"), canonical("R 1234ze (E)")
    ('R-410A', 'R-1234ze(E)')
    """
    return _canonical(name)


@cache
def _canonical(name: str) -> str:
    wanted = _squeezed(name)
    for known in NAMES:
        if _squeezed(known) == wanted:
            return known
    raise ValueError(
        f"properties of refrigerant '{name}' are not known here; known are {', '.join(NAMES)}; "
        "check the nameplate and the data sheet"
    )


def _squeezed(name: str) -> str:
    return "".join(letter for letter in name.lower() if letter.isalnum())


def pressure_range(name: str, line: Line) -> tuple[float, float]:
    """Return the lowest and highest pressure (Pa) at which saturation is known, on the bubble or the dew line.

    Raises:
        ValueError: for a refrigerant that is not known.
    """
    table = _table(canonical(name), line)
    return table.lowest_pressure, table.highest_pressure


def dew_range(name: str) -> tuple[float, float]:
    """Return the coldest and warmest dew temperature (K) for which saturation is known.

    Raises:
        ValueError: for a refrigerant that is not known.
    """
    table = _table(canonical(name), "dew")
    return table.coldest, table.warmest


def bubble_temperature(name: str, pressure: ArrayLike) -> NDArray[np.float64]:
    """Return the temperature (K) at which the liquid begins to boil; arrays in, arrays out.

    Args:
        name: the refrigerant, see `NAMES`.
        pressure: Pa absolute, any shape, within `pressure_range`.

    Raises:
        ValueError: for a refrigerant that is not known, or a pressure outside its range.

    >>> round(float(bubble_temperature("R-134a", 101325.0)) - 273.15, 1)
    -26.1
    """
    return _table(canonical(name), "bubble").temperature(pressure)


def dew_temperature(name: str, pressure: ArrayLike) -> NDArray[np.float64]:
    """Return the temperature (K) at which the vapour begins to condense. As for `bubble_temperature`.

    >>> round(float(dew_temperature("R-407C", 101325.0)) - 273.15, 1)
    -36.6
    """
    return _table(canonical(name), "dew").temperature(pressure)


def bubble_pressure(name: str, temperature: ArrayLike) -> NDArray[np.float64]:
    """Return the pressure (Pa absolute) at which the liquid begins to boil; arrays in, arrays out.

    Args:
        name: the refrigerant, see `NAMES`.
        temperature: K, any shape, from 203.15 K to just below the critical one.

    Raises:
        ValueError: for a refrigerant that is not known, or a temperature outside its range.

    >>> round(float(bubble_pressure("R-410A", 313.15)) / 1000.0)
    2426
    """
    return _table(canonical(name), "bubble").pressure(temperature)


def dew_pressure(name: str, temperature: ArrayLike) -> NDArray[np.float64]:
    """Return the pressure (Pa absolute) at which the vapour begins to condense. As for `bubble_pressure`.

    >>> round(float(dew_pressure("R-410A", 313.15)) / 1000.0)
    2419
    """
    return _table(canonical(name), "dew").pressure(temperature)


def glide(name: str, pressure: ArrayLike) -> NDArray[np.float64]:
    """Return the dew less the bubble temperature (K) at a pressure (Pa absolute): zero for a pure refrigerant.

    >>> round(float(glide("R-407C", 500e3)), 1)
    6.2
    """
    return dew_temperature(name, pressure) - bubble_temperature(name, pressure)


def superheat(name: str, pressure: ArrayLike, temperature: ArrayLike) -> NDArray[np.float64]:
    """Return by how much (K) a vapour at a pressure (Pa absolute) is warmer than its dew line."""
    return np.asarray(temperature, dtype=np.float64) - dew_temperature(name, pressure)


def subcooling(name: str, pressure: ArrayLike, temperature: ArrayLike) -> NDArray[np.float64]:
    """Return by how much (K) a liquid at a pressure (Pa absolute) is colder than its bubble line."""
    return bubble_temperature(name, pressure) - np.asarray(temperature, dtype=np.float64)


def compression_ratio(suction: float, discharge: float) -> float:
    """Return discharge over suction pressure, both Pa absolute.

    Raises:
        ValueError: when the suction is no pressure at all.

    >>> compression_ratio(800e3, 2400e3)
    3.0
    """
    if suction <= 0.0:
        raise ValueError("a suction pressure at a perfect vacuum has no compression ratio; check the gauge")
    return discharge / suction


def resting_pressure(name: str, temperature: float, liquid_share: float) -> float:
    """Return the pressure (Pa absolute) of a circuit at rest with liquid and vapour at one temperature (K).

    With little vapour over much liquid it is the bubble pressure, with little liquid the dew pressure;
    for a pure refrigerant they are one.

    Args:
        name: the refrigerant.
        temperature: K.
        liquid_share: where between dew (0) and bubble (1) it stands.

    Raises:
        ValueError: for a refrigerant that is not known, or a temperature outside its range.
    """
    low, high = float(dew_pressure(name, temperature)), float(bubble_pressure(name, temperature))
    return low + liquid_share * (high - low)


def foreign_gas_pressure(name: str, pressure: float, temperature: float, liquid_share: float = 1.0) -> float:
    """Return the part of a resting pressure (Pa absolute) that is not the refrigerant's own at a temperature (K).

    Gases that do not condense add their own pressure: Dalton's law. Below zero: there is no liquid
    left, or the circuit is colder than thought.
    """
    return pressure - resting_pressure(name, temperature, liquid_share)


def discharge_temperature(
    name: str, suction: float, suction_temperature: float, discharge: float, isentropic_efficiency: float
) -> float:
    """Return the temperature (K) of the gas that leaves the compressor.

    h2 = h1 + (h2s - h1) / efficiency, with h2s at the suction's entropy and the discharge pressure (the
    definition of isentropic efficiency, e.g. Çengel and Boles, Thermodynamics, chapter 7). All work of
    shaft and motor is taken to stay in the gas.

    Args:
        name: the refrigerant.
        suction: Pa absolute.
        suction_temperature: K; the gas must be dry.
        discharge: Pa absolute, above suction.
        isentropic_efficiency: overall, above 0.2 to 1.

    Raises:
        ValueError: for a refrigerant that is not known, for wet suction gas, a discharge not above
            suction, an efficiency outside its range, or a result past 450 K.

    >>> round(discharge_temperature("R-134a", 140e3, 263.15, 800e3, 0.939) - 273.15, 1)
    49.9
    """
    known = canonical(name)
    if not 0.2 < isentropic_efficiency <= 1.0:
        raise ValueError(
            f"an isentropic efficiency of {100 * isentropic_efficiency:.0f} % is outside 20 to 100 %; "
            "check the data sheet"
        )
    dew = float(dew_temperature(known, suction))
    if suction_temperature <= dew:
        raise ValueError(
            f"at {suction_temperature - 273.15:.1f} °C the suction gas would be wet (it condenses at "
            f"{dew - 273.15:.1f} °C), and the temperature of wet gas does not say how it compresses; "
            "check the suction thermometer and gauge"
        )
    if discharge <= suction:
        raise ValueError("the discharge pressure is not above the suction pressure; is the compressor running?")
    enthalpy, entropy, _ = _gas(known, suction, suction_temperature)
    start = suction_temperature * (discharge / suction) ** 0.12
    floor = float(dew_temperature(known, discharge))
    ideal = _solve(known, discharge, max(start, floor), lambda gas, at: (gas[1] - entropy) * at / gas[2])
    ideal_enthalpy = _gas(known, discharge, ideal)[0]
    wanted = enthalpy + (ideal_enthalpy - enthalpy) / isentropic_efficiency
    return _solve(known, discharge, ideal, lambda gas, _: (gas[0] - wanted) / gas[2])


def _solve(
    name: str, pressure: float, start: float, error: Callable[[tuple[float, float, float], float], float]
) -> float:
    """Return the temperature (K) at which `error`, in kelvin, is zero: Newton's method."""
    temperature = start
    for _ in range(50):
        step = error(_gas(name, pressure, temperature), temperature)
        # A first step may overshoot: it is held to where the equations still hold, the end is judged.
        temperature = min(temperature - step, HOTTEST_GAS + 30.0)
        if abs(step) < _TOLERANCE or temperature > HOTTEST_GAS + 29.0:
            break
    if not temperature <= HOTTEST_GAS:
        raise ValueError(
            f"the gas would leave the compressor past {HOTTEST_GAS - 273.15:.0f} °C, which no compressor "
            "lives through; check pressures and suction temperature"
        )
    return temperature


def _gas(name: str, pressure: float, temperature: float) -> tuple[float, float, float]:
    """Return enthalpy (J/kg), entropy and heat capacity (J/(kg K)) of the gas."""

    with ONE_AT_A_TIME:
        state = gas_state(name)
        state.update(extension().PT_INPUTS, pressure, temperature)
        return float(state.hmass()), float(state.smass()), float(state.cpmass())


@cache
def gas_state(name: str) -> Any:
    """Return CoolProp's state of a refrigerant's gas; hold `coolprop.ONE_AT_A_TIME` while it is set and read.

    Args:
        name: canonical.
    """
    state = new_state(name)
    # Spares the mixture's search for its phase, and the failures of that search
    state.specify_phase(extension().iphase_gas)
    return state


def new_state(name: str) -> Any:
    """Return a new state of CoolProp's for a refrigerant; `name` is canonical."""
    recipe = _RECIPES[name]
    state = extension().AbstractState("HEOS", recipe.components)
    if len(recipe.fractions) > 1:
        state.set_mass_fractions(recipe.fractions)
    return state


@dataclass(frozen=True)
class _Table:
    """One saturation line of one refrigerant: 1/T over ln p and ln p over 1/T."""

    name: str
    line: Line
    inverse_temperature: Chebyshev
    log_pressure: Chebyshev
    coldest: float
    warmest: float
    lowest_pressure: float
    highest_pressure: float

    def temperature(self, pressure: ArrayLike) -> NDArray[np.float64]:
        """Return the temperature (K) at a pressure (Pa absolute)."""
        p = np.asarray(pressure, dtype=np.float64)
        outside = ~((p >= self.lowest_pressure) & (p <= self.highest_pressure))
        if outside.any():
            raise ValueError(
                f"{self.name} at {p[outside].flat[0] / 1000.0:.0f} kPa absolute is outside "
                f"{self.lowest_pressure / 1000.0:.0f} to {self.highest_pressure / 1000.0:.0f} kPa, where its "
                "saturation is known here; check the gauge, its unit and the refrigerant"
            )
        return np.asarray(1.0 / self.inverse_temperature(np.log(p)), dtype=np.float64)

    def pressure(self, temperature: ArrayLike) -> NDArray[np.float64]:
        """Return the pressure (Pa absolute) at a temperature (K)."""
        t = np.asarray(temperature, dtype=np.float64)
        outside = ~((t >= self.coldest) & (t <= self.warmest))
        if outside.any():
            raise ValueError(
                f"{self.name} at {t[outside].flat[0] - 273.15:.1f} °C is outside {self.coldest - 273.15:.0f} to "
                f"{self.warmest - 273.15:.0f} °C, where its saturation is known here; check the thermometer"
            )
        return np.asarray(np.exp(self.log_pressure(1.0 / t)), dtype=np.float64)


@cache
def _table(name: str, line: Line) -> _Table:
    """Return the table of one line, made on first use; `name` is canonical."""

    state = new_state(name)
    warmest = _RECIPES[name].warmest
    # Chebyshev's own nodes lie densest at the ends, where a fit is worst.
    span = np.cos(np.pi * (np.arange(_NODES) + 0.5) / _NODES)
    hot, cold = 1.0 / warmest, 1.0 / LOWEST
    inverse, logs = [], []
    for node in 0.5 * (hot + cold) + 0.5 * (cold - hot) * span:
        try:
            state.update(extension().QT_INPUTS, 1.0 if line == "dew" else 0.0, 1.0 / node)
        except ValueError:  # the mixture's flash did not converge at this one
            continue
        inverse.append(node)
        logs.append(float(np.log(state.p())))
    if len(inverse) < _LEAST_NODES:
        raise RuntimeError(f"CoolProp gives too few points of the {line} line of {name}: {len(inverse)}")
    log_pressure = Chebyshev.fit(inverse, logs, _TERMS, domain=[hot, cold])
    ends = float(np.exp(log_pressure(cold))), float(np.exp(log_pressure(hot)))
    inverse_temperature = Chebyshev.fit(logs, inverse, _TERMS, domain=[float(np.log(end)) for end in ends])
    return _Table(name, line, inverse_temperature, log_pressure, LOWEST, warmest, *ends)

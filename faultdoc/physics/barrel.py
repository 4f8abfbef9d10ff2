"""Water-side pressure drop of the evaporator barrel, from a few points of its data sheet.

Between the sheet's points the drop follows a power of the flow, drop ~ flow^n: a straight line on
log-log paper, with its own n in every stretch. Beyond the points the end stretch goes on, which is
flagged. One point alone gets n = 1.8: turbulent friction in tubes goes with Re^-0.2 (McAdams, for
smooth tubes; Incropera, Fundamentals of Heat and Mass Transfer, f = 0.184 Re^-0.2) and across a
baffled bundle with Re^-0.19 (Kern, Process Heat Transfer, 1950: f = exp(0.576 - 0.19 ln Re)), and
n = 2 - 0.2.

Another fluid: in one geometry the drop over density x velocity² depends on the Reynolds number
alone (similarity of Reynolds, e.g. White, Fluid Mechanics, chapter 5). So a mix of kinematic
viscosity ν flowing at Q does what water of ν_w does at Q_w = Q ν_w / ν, and

    drop(Q) = drop_water(Q_w) x (ρ / ρ_w) x (ν / ν_w)²,

which for a constant n is the familiar drop ~ ρ^(n-1) μ^(2-n) Q^n.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from math import copysign, exp, log
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = [
    "EXPONENT_OF_ONE_POINT",
    "EXPONENT_UNCERTAINTY",
    "BarrelCurve",
    "Fluid",
    "drop_along",
    "drop_at_flow",
    "exponent_at_flow",
    "flow_from_drop",
    "is_extrapolated",
]

EXPONENT_OF_ONE_POINT = 1.8
EXPONENT_UNCERTAINTY = 0.1
"""Standard uncertainty of the exponent where the sheet's points do not give it (n from 1.6 to 2)."""


@dataclass(frozen=True)
class Fluid:
    """What flows: density kg/m³ and kinematic viscosity m²/s."""

    density: float
    kinematic_viscosity: float


@dataclass(frozen=True)
class BarrelCurve:
    """The sheet's points, rising in flow (m³/s) and drop (Pa), and the fluid they hold for.

    Raises:
        ValueError: when there is no point, one is not above zero, or they do not rise.
    """

    flows: tuple[float, ...]
    drops: tuple[float, ...]
    fluid: Fluid

    def __post_init__(self) -> None:
        if not self.flows or len(self.flows) != len(self.drops):
            raise ValueError("a barrel's curve needs at least one point, and a drop for every flow")
        if self.flows[0] <= 0.0 or self.drops[0] <= 0.0:
            raise ValueError("flow and drop must be above zero at every point of a barrel's curve")
        if np.any(np.diff(self.flows) <= 0.0) or np.any(np.diff(self.drops) <= 0.0):
            raise ValueError("a barrel's points must rise in flow and in drop")


def drop_at_flow(
    curve: BarrelCurve, flow: ArrayLike, fluid: Fluid | None = None, *, exponent_error: float = 0.0
) -> NDArray[np.float64]:
    """Return the pressure drop (Pa) at a flow (m³/s); arrays in, arrays out.

    A flow the other way has a drop the other way.

    Args:
        curve: the sheet's.
        flow: m³/s, any shape.
        fluid: what flows; the sheet's own when not given.
        exponent_error: added to the exponent beyond the ends of the points (with one point:
            everywhere), to carry the uncertainty of extrapolating.

    >>> water = Fluid(1000.0, 1.3e-6)
    >>> curve = BarrelCurve((1e-3, 2e-3), (1000.0, 4000.0), water)
    >>> float(drop_at_flow(curve, 3e-3).round(6))
    9000.0
    """
    q, size, scale = _alike(curve, fluid)
    flows = np.asarray(flow, dtype=np.float64)
    log_q, log_dp, slopes = _stretches(curve, exponent_error)
    with np.errstate(divide="ignore"):
        x = np.log(np.abs(flows) * q)
    dp = np.exp(_along(x, log_q, log_dp, slopes)) * scale * size
    return np.asarray(np.sign(flows) * dp, dtype=np.float64)


def drop_along(
    curve: BarrelCurve, fluid: Fluid | None = None, *, exponent_error: float = 0.0
) -> Callable[[float], float]:
    """Return the pressure drop (Pa) as a function of one flow (m³/s): `drop_at_flow`, set up once.

    For a search that asks for many flows one after the other; arguments as for `drop_at_flow`.

    >>> water = Fluid(1000.0, 1.3e-6)
    >>> curve = BarrelCurve((1e-3, 2e-3), (1000.0, 4000.0), water)
    >>> round(drop_along(curve)(3e-3), 6)
    9000.0
    """
    q, size, scale = _alike(curve, fluid)
    knots, values, slopes = (array.tolist() for array in _stretches(curve, exponent_error))
    factor = size * scale

    def drop(flow: float) -> float:
        if flow == 0.0:
            return 0.0
        x = log(abs(flow) * q)
        place = bisect_right(knots, x)
        anchor = max(place - 1, 0)
        return copysign(exp(values[anchor] + slopes[place] * (x - knots[anchor])) * factor, flow)

    return drop


def flow_from_drop(
    curve: BarrelCurve, drop: ArrayLike, fluid: Fluid | None = None, *, exponent_error: float = 0.0
) -> NDArray[np.float64]:
    """Return the flow (m³/s) at a pressure drop (Pa): the exact inverse of `drop_at_flow`.

    >>> water = Fluid(1000.0, 1.3e-6)
    >>> curve = BarrelCurve((1e-3, 2e-3), (1000.0, 4000.0), water)
    >>> float(flow_from_drop(curve, 9000.0).round(9))
    0.003
    """
    q, size, scale = _alike(curve, fluid)
    drops = np.asarray(drop, dtype=np.float64)
    log_q, log_dp, slopes = _stretches(curve, exponent_error)
    with np.errstate(divide="ignore"):
        y = np.log(np.abs(drops) / (scale * size))
    flow = np.exp(_along(y, log_dp, log_q, 1.0 / slopes)) / q
    return np.asarray(np.sign(drops) * flow, dtype=np.float64)


def exponent_at_flow(curve: BarrelCurve, flow: float, fluid: Fluid | None = None) -> float:
    """Return the local n of drop ~ flow^n at a flow (m³/s).

    >>> water = Fluid(1000.0, 1.3e-6)
    >>> round(exponent_at_flow(BarrelCurve((1e-3, 2e-3), (1000.0, 4000.0), water), 1.5e-3), 6)
    2.0
    """
    q, _, _ = _alike(curve, fluid)
    log_q, _, slopes = _stretches(curve, 0.0)
    if flow == 0.0:
        return float(slopes[0])
    return float(slopes[np.searchsorted(log_q, np.log(abs(flow) * q), side="right")])


def is_extrapolated(curve: BarrelCurve, flow: float, fluid: Fluid | None = None) -> bool:
    """Say whether a flow (m³/s) lies outside the sheet's points, at equal Reynolds number."""
    q, _, _ = _alike(curve, fluid)
    alike = abs(flow) * q
    # A hair of tolerance, so that the sheet's own end points count as inside.
    return not curve.flows[0] * (1 - 1e-9) <= alike <= curve.flows[-1] * (1 + 1e-9)


def _alike(curve: BarrelCurve, fluid: Fluid | None) -> tuple[float, float, float]:
    """Return Q_w / Q, and the two factors ρ / ρ_w and (ν / ν_w)² of the drop."""
    if fluid is None:
        return 1.0, 1.0, 1.0
    ratio = fluid.kinematic_viscosity / curve.fluid.kinematic_viscosity
    return 1.0 / ratio, fluid.density / curve.fluid.density, ratio**2


@lru_cache(maxsize=64)
def _stretches(curve: BarrelCurve, exponent_error: float) -> tuple[Any, Any, Any]:
    """Return the logs of flows and drops, and the exponent before, between and after the points."""
    log_q, log_dp = np.log(curve.flows), np.log(curve.drops)
    if len(curve.flows) == 1:
        slopes = np.full(2, EXPONENT_OF_ONE_POINT)
    else:
        inner = np.diff(log_dp) / np.diff(log_q)
        slopes = np.concatenate(([inner[0]], inner, [inner[-1]]))
    slopes[0] += exponent_error
    slopes[-1] += exponent_error
    return log_q, log_dp, slopes


def _along(x: Any, knots: Any, values: Any, slopes: Any) -> Any:
    """Return the broken line through (knots, values) at x, with `slopes` before, between and after."""
    place = np.searchsorted(knots, x, side="right")
    anchor = np.maximum(place - 1, 0)
    return values[anchor] + slopes[place] * (x - knots[anchor])

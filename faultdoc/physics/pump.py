"""A centrifugal pump's curve through its data sheet's points, and the affinity laws.

Between the points the curve is a monotone cubic (PCHIP: Fritsch and Carlson, SIAM J. Numer. Anal.
17 (1980) 238), so it falls wherever the points fall and never wiggles. Past the last point it goes
on as the straight line through the last two, down to no head; `is_beyond` says so.

Heads are in metres of the fluid pumped and hold for glycol as for water: below some 10 mm²/s the
viscosity moves a centrifugal pump's head by less than a few per cent (ANSI/HI 9.6.7). Shaft power
goes with the density.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

__all__ = [
    "PumpCurve",
    "at_speed",
    "flow_at_head",
    "head_at",
    "is_beyond",
    "npsh_required_at",
    "run_out",
    "shaft_power_at",
    "shut_off_head",
]


@dataclass(frozen=True)
class PumpCurve:
    """The sheet's points at one speed: flows m³/s from zero up, heads m, shaft powers W, NPSH required m.

    `None` stands for a value the sheet does not give.

    Raises:
        ValueError: with fewer than two points, a first flow that is not zero, flows that do not
            rise, heads that rise, or a last head that has not fallen below the first.
    """

    flows: tuple[float, ...]
    heads: tuple[float, ...]
    shaft_powers: tuple[float | None, ...] = ()
    npsh_required: tuple[float | None, ...] = ()

    def __post_init__(self) -> None:
        if len(self.flows) < 2 or len(self.flows) != len(self.heads):
            raise ValueError("a pump's curve needs two points or more, and a head for every flow")
        if self.flows[0] != 0.0:
            raise ValueError("a pump's curve must start with its shut-off head, at zero flow")
        if np.any(np.diff(self.flows) <= 0.0) or np.any(np.diff(self.heads) > 0.0):
            raise ValueError("a pump's points must rise in flow and not rise in head")
        if self.heads[-1] >= self.heads[-2]:
            raise ValueError("a pump's last point must lie lower than the one before it")
        for name, values in (("shaft power", self.shaft_powers), ("NPSH", self.npsh_required)):
            if values and len(values) != len(self.flows):
                raise ValueError(f"a pump's curve needs a {name} (or None) for every flow")


def shut_off_head(curve: PumpCurve) -> float:
    """Return the head (m) against a shut valve."""
    return curve.heads[0]


def run_out(curve: PumpCurve) -> float:
    """Return the largest flow (m³/s) on the curve; beyond it the curve is guessed."""
    return curve.flows[-1]


def is_beyond(curve: PumpCurve, flow: float) -> bool:
    """Say whether a flow (m³/s) lies past the last point of the curve."""
    return flow > curve.flows[-1] * (1 + 1e-9)


def head_at(curve: PumpCurve, flow: float) -> float:
    """Return the head (m) at a flow (m³/s), not below zero flow.

    Raises:
        ValueError: for a flow below zero.

    >>> curve = PumpCurve((0.0, 0.004, 0.008), (34.0, 30.0, 18.0))
    >>> head_at(curve, 0.004)
    30.0
    """
    if flow < 0.0:
        raise ValueError("a pump's curve has no flow below zero")
    if flow > curve.flows[-1]:
        return curve.heads[-1] - _end_fall(curve) * (flow - curve.flows[-1])
    return _through(curve.flows, curve.heads)(flow)


def flow_at_head(curve: PumpCurve, head: float) -> float:
    """Return the flow (m³/s) the pump gives against a head (m); none at shut-off head and above.

    Raises:
        ValueError: for a head below zero.

    >>> curve = PumpCurve((0.0, 0.004, 0.008), (34.0, 30.0, 18.0))
    >>> round(flow_at_head(curve, 30.0), 9)
    0.004
    >>> flow_at_head(curve, 40.0)
    0.0
    """
    if head < 0.0:
        raise ValueError("a head below zero: the pump's outlet reads less than its inlet; check the gauges")
    if head >= curve.heads[0]:
        return 0.0
    if head <= curve.heads[-1]:
        return curve.flows[-1] + (curve.heads[-1] - head) / _end_fall(curve)
    from scipy.optimize import brentq

    return float(brentq(lambda flow: head_at(curve, flow) - head, 0.0, curve.flows[-1], xtol=1e-12))


def shaft_power_at(curve: PumpCurve, flow: float, relative_density: float = 1.0) -> float:
    """Return the shaft power (W) at a flow (m³/s); it goes with the density of what is pumped.

    Past the end of the curve the last value holds.

    Args:
        curve: the sheet's.
        flow: m³/s.
        relative_density: of the fluid, over water's.

    Raises:
        ValueError: when the sheet gives fewer than two shaft powers.
    """
    return relative_density * _of_some(curve, curve.shaft_powers, flow, "shaft power")


def npsh_required_at(curve: PumpCurve, flow: float) -> float:
    """Return the net positive suction head (m) the pump needs at a flow (m³/s).

    Raises:
        ValueError: when the sheet gives fewer than two values.
    """
    return _of_some(curve, curve.npsh_required, flow, "NPSH required")


def at_speed(curve: PumpCurve, ratio: float) -> PumpCurve:
    """Return the curve at another speed, by the affinity laws: flow ~ n, head and NPSH ~ n², power ~ n³.

    Source: ANSI/HI 14.3 (affinity rules); any pump handbook. NPSH ~ n² is the usual rule for small changes.

    Args:
        curve: at the sheet's speed.
        ratio: new speed over the sheet's, above zero.

    Raises:
        ValueError: when the ratio is not above zero.

    >>> at_speed(PumpCurve((0.0, 0.01), (40.0, 20.0)), 0.5).heads
    (10.0, 5.0)
    """
    if ratio <= 0.0:
        raise ValueError("the ratio of speeds must be above zero")
    return PumpCurve(
        tuple(flow * ratio for flow in curve.flows),
        tuple(head * ratio**2 for head in curve.heads),
        tuple(None if power is None else power * ratio**3 for power in curve.shaft_powers),
        tuple(None if npsh is None else npsh * ratio**2 for npsh in curve.npsh_required),
    )


def _end_fall(curve: PumpCurve) -> float:
    return (curve.heads[-2] - curve.heads[-1]) / (curve.flows[-1] - curve.flows[-2])


def _of_some(curve: PumpCurve, values: tuple[float | None, ...], flow: float, name: str) -> float:
    given = [(q, value) for q, value in zip(curve.flows, values, strict=False) if value is not None]
    if len(given) < 2:
        raise ValueError(f"the data sheet gives no {name} along the pump's curve")
    flows, heights = zip(*given, strict=True)
    return _through(flows, heights)(min(max(flow, flows[0]), flows[-1]))


@lru_cache(maxsize=256)
def _through(xs: tuple[float, ...], ys: tuple[float, ...]) -> Callable[[float], float]:
    """Return the monotone cubic through the points, as a function of one x within them."""
    from scipy.interpolate import PchipInterpolator

    # Its own evaluation is made for arrays and takes ten times as long for one number.
    pieces = PchipInterpolator(xs, ys).c.T.tolist()
    inner = xs[1:-1]

    def height(x: float) -> float:
        place = bisect_right(inner, x)
        a, b, c, d = pieces[place]
        t = x - xs[place]
        return float(((a * t + b) * t + c) * t + d)

    return height

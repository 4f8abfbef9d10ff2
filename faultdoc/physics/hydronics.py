"""The water loop: friction in hoses, the working point of pump and loop, suction head, filling pressure, heat."""

from __future__ import annotations

from collections.abc import Callable
from math import pi

from faultdoc.physics.fluid import GRAVITY
from faultdoc.physics.pump import PumpCurve, head_at, run_out

__all__ = [
    "HOSE_ROUGHNESS",
    "friction_drop",
    "friction_factor",
    "heat_moved",
    "hydraulic_power",
    "local_drop",
    "longest_run",
    "loss_ratio",
    "npsh_available",
    "scaled_drop",
    "standing_pressure_needed",
    "velocity",
    "working_point",
]

HOSE_ROUGHNESS = 5e-5
"""m; rubber-lined hose lies between drawn tube (1.5 µm) and commercial steel (45 µm) when new and
above steel when old or kinked."""


def velocity(flow: float, bore: float) -> float:
    """Return the mean velocity (m/s) of a flow (m³/s) in a round bore (m).

    Raises:
        ValueError: when the bore is not above zero.

    >>> round(velocity(0.004, 0.0635), 3)
    1.263
    """
    if bore <= 0.0:
        raise ValueError("a bore must be above zero")
    return flow / (pi * bore**2 / 4.0)


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Return the Darcy friction factor (four times Fanning's).

    From the `fluids` library: 64/Re when laminar, else Clamond's solution of the Colebrook-White
    equation.

    Args:
        reynolds: above zero.
        relative_roughness: roughness over bore, 0 to 0.05.

    Raises:
        ValueError: outside those ranges.
    """
    if reynolds <= 0.0:
        raise ValueError("a Reynolds number must be above zero")
    if not 0.0 <= relative_roughness <= 0.05:
        raise ValueError(f"a relative roughness of {relative_roughness:.3g} is outside 0 to 0.05")
    from fluids.friction import friction_factor as darcy

    return float(darcy(Re=reynolds, eD=relative_roughness))


def friction_drop(
    flow: float,
    length: float,
    bore: float,
    density: float,
    kinematic_viscosity: float,
    roughness: float = HOSE_ROUGHNESS,
) -> float:
    """Return the friction loss (Pa) of a straight round line: Darcy and Weisbach, f L/D ρ v²/2.

    Args:
        flow: m³/s, not below zero.
        length: m, not below zero.
        bore: m, above zero.
        density: kg/m³.
        kinematic_viscosity: m²/s.
        roughness: of the wall, m.

    Raises:
        ValueError: outside those ranges.
    """
    if flow < 0.0 or length < 0.0:
        raise ValueError("flow and length cannot be below zero")
    speed = velocity(flow, bore)
    if speed == 0.0:
        return 0.0
    factor = friction_factor(speed * bore / kinematic_viscosity, roughness / bore)
    return factor * length / bore * density * speed**2 / 2.0


def local_drop(flow: float, loss_coefficient: float, bore: float, density: float) -> float:
    """Return the loss (Pa) of fittings of summed loss coefficient K at a flow (m³/s): K ρ v²/2.

    Source: Crane TP-410, chapter 2.
    """
    return loss_coefficient * density * velocity(flow, bore) ** 2 / 2.0


def scaled_drop(flow: float, known_flow: float, known_drop: float, exponent: float = 2.0) -> float:
    """Return the drop (Pa) at a flow from a drop known at another flow (m³/s): drop ~ flow^exponent.

    Two is right for what acts as an orifice: strainers, valves, fittings (Crane TP-410, chapter 2).

    Raises:
        ValueError: when the known flow is not above zero or the flow is below zero.

    >>> scaled_drop(0.002, 0.004, 8000.0)
    2000.0
    """
    if known_flow <= 0.0 or flow < 0.0:
        raise ValueError("a drop can be scaled only between flows above zero")
    return float(known_drop * (flow / known_flow) ** exponent)


def loss_ratio(
    flow: float, drop: float, known_flow: float, known_drop: float, relative_density: float = 1.0
) -> float:
    """Return a part's loss coefficient over the one it has at a known flow and drop: one when clean.

    drop = K density velocity² / 2, so K/K_known = drop / known_drop / (flow / known_flow)² / relative density.

    Args:
        flow: m³/s, above zero.
        drop: at that flow, Pa, above zero.
        known_flow: m³/s, above zero.
        known_drop: at the known flow, Pa, above zero.
        relative_density: of what flows, over what flowed then.

    Raises:
        ValueError: when one is not above zero.

    >>> loss_ratio(0.002, 8000.0, 0.004, 8000.0)
    4.0
    """
    if min(flow, drop, known_flow, known_drop, relative_density) <= 0.0:
        raise ValueError("a loss coefficient can be told only from a flow and a drop above zero")
    return drop / (known_drop * (flow / known_flow) ** 2 * relative_density)


def longest_run(
    spare: float,
    flow: float,
    bore: float,
    density: float,
    kinematic_viscosity: float,
    roughness: float = HOSE_ROUGHNESS,
) -> float:
    """Return the length (m) of hose that takes a spare pressure (Pa) at a flow (m³/s).

    It is `friction_drop` turned round.

    Below zero when there is nothing to spare: by so much hose the rest of the loop is over.

    Raises:
        ValueError: when the flow or the bore is not above zero.

    >>> water = (0.0635, 1000.0, 1.3e-6)
    >>> round(longest_run(friction_drop(0.004, 80.0, *water), 0.004, *water), 6)
    80.0
    """
    if flow <= 0.0:
        raise ValueError("a run of hose can be reckoned only for a flow above zero")
    return spare / friction_drop(flow, 1.0, bore, density, kinematic_viscosity, roughness)


def hydraulic_power(flow: float, head: float, density: float) -> float:
    """Return the power (W) that a flow (m³/s) lifted by a head (m) carries: density x gravity x flow x head.

    In the trade's units gpm x ft x specific gravity / 3,960 horsepower (ANSI/HI 14.3).

    >>> round(hydraulic_power(0.004, 30.0, 1000.0))
    1177
    """
    return density * GRAVITY * flow * head


def working_point(
    curve: PumpCurve,
    loop_drop: Callable[[float], float],
    density: float,
    head_error: float = 0.0,
    near: float | None = None,
) -> float:
    """Return the flow (m³/s) at which the pump's head equals the loop's.

    In a closed loop what goes up comes down: there is no lift, only friction.

    Args:
        curve: of the pump.
        loop_drop: pressure (Pa) the loop takes at a flow (m³/s), rising with flow, nothing at no flow.
        density: of what is pumped, kg/m³.
        head_error: added to the curve's head everywhere, m; to carry the curve's uncertainty.
        near: a flow (m³/s) to look about first; it changes how long the search takes, not what it finds.

    Raises:
        ValueError: when the pump has no head.

    >>> curve = PumpCurve((0.0, 0.004, 0.008), (34.0, 30.0, 18.0))
    >>> loop = lambda flow: 1000.0 * 9.80665 * 30.0 * (flow / 0.004) ** 2
    >>> round(working_point(curve, loop, 1000.0), 9)
    0.004
    """
    from scipy.optimize import brentq

    def spare(flow: float) -> float:
        return head_at(curve, flow) + head_error - loop_drop(flow) / (density * GRAVITY)

    if spare(0.0) <= 0.0:
        raise ValueError("the pump's curve gives no head at zero flow")
    least, most = 0.0, run_out(curve)
    if near is not None and 0.0 < near < most:
        if spare(near) > 0.0:
            least = near
            most = min(1.25 * near, most)
        else:
            most = near
            if spare(0.8 * near) > 0.0:
                least = 0.8 * near
    while spare(most) > 0.0:
        # Past its end the curve falls in a straight line, so this ends where the head does.
        least, most = most, 1.25 * most
    # A thousandth of a billionth of the flow: twice differenced, it leaves uncertainties nine digits.
    return float(brentq(spare, least, most, xtol=1e-12 * most))


def npsh_available(
    suction_gauge: float, atmospheric: float, vapour_pressure: float, density: float, velocity: float = 0.0
) -> float:
    """Return the net positive suction head available (m), gauge at the height of the pump's eye.

    (p_gauge + p_atmosphere - p_vapour) / (ρ g) + v²/2g: ANSI/HI 14.3, total suction head above
    vapour pressure.

    Args:
        suction_gauge: gauge pressure at the suction flange, Pa.
        atmospheric: Pa.
        vapour_pressure: of the liquid, Pa absolute.
        density: kg/m³.
        velocity: in the suction pipe at the gauge, m/s.

    Raises:
        ValueError: when the suction reads below a perfect vacuum.
    """
    if suction_gauge + atmospheric < 0.0:
        raise ValueError("the pump's suction reads below a perfect vacuum; check the gauge")
    return (suction_gauge + atmospheric - vapour_pressure) / (density * GRAVITY) + velocity**2 / (2.0 * GRAVITY)


def standing_pressure_needed(height: float, density: float, at_top: float = 34_474.0) -> float:
    """Return the gauge pressure (Pa) at the unit that leaves `at_top` (Pa) at the loop's highest point.

    Args:
        height: of the highest point above the gauge, m.
        density: kg/m³.
        at_top: gauge pressure wanted at the top; 5 psi, enough to vent there (common practice: 4 to 5 psi).

    >>> round(standing_pressure_needed(10.0, 1000.0))
    132540
    """
    return density * GRAVITY * height + at_top


def heat_moved(flow: float, density: float, heat_capacity: float, entering: float, leaving: float) -> float:
    """Return the heat (W) taken out of a flow (m³/s) cooled from `entering` to `leaving` (K): ρ Q c ΔT.

    >>> round(heat_moved(0.0045, 1000.0, 4190.0, 285.0, 279.0))
    113130
    """
    return flow * density * heat_capacity * (entering - leaving)

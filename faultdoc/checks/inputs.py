"""What the checks of the water side share: inputs with their defaults, and physics set up from a data sheet.

A default is honest about what is not known: a value assumed without a reading carries a wide
standard uncertainty, so that a check that leans on it says little.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache
from math import sqrt

from faultdoc.checks.base import Default, Given, Need, Working
from faultdoc.model.unit import DataSheet, Glycol, PumpPoint
from faultdoc.physics import barrel, fluid, hydronics, pump
from faultdoc.quantities import Kind

__all__ = [
    "BARREL_CURVE",
    "BARREL_DROP",
    "BARREL_EXPONENT",
    "CAPACITY",
    "DESIGN_FLOW",
    "GLYCOL",
    "HOSE_BORE",
    "HOSE_LENGTH",
    "LEAVING",
    "LOAD_DROP",
    "LOOP",
    "LOOP_FITTINGS",
    "MINIMUM_FLOW",
    "PUMP_CURVE",
    "barrel_curve",
    "barrel_remarks",
    "barrel_working",
    "default",
    "factor",
    "glycol_kind",
    "glycol_remarks",
    "head_at",
    "head_error",
    "is_assumed",
    "liquid",
    "loop_drops",
    "loop_parts",
    "pump_curve",
    "usual_glycol",
    "working_flow",
]


def default(value: float, standard_uncertainty: float) -> Default:
    """Return a default that is the same for every unit: an assumption."""
    return lambda sheet: (value, standard_uncertainty, "assumed")


def is_assumed(sheet: DataSheet, path: str) -> bool:
    """Say whether the value at a path of the data sheet, such as `water.barrel`, is an assumption."""
    return any(path == one or path.startswith(f"{one}.") for one in sheet.assumed)


def factor(path: str, known: float, guessed: float) -> Default:
    """Return a default for a value of the sheet as a factor, true over the sheet's: one, and how sure.

    Args:
        path: of the value in the data sheet.
        known: standard uncertainty of the factor where the sheet has the value from its papers.
        guessed: the same where the value is an assumption.
    """

    def of(sheet: DataSheet) -> Given:
        return (1.0, guessed, "assumed") if is_assumed(sheet, path) else (1.0, known, "data sheet")

    return of


def usual_glycol(sheet: DataSheet) -> Given:
    """Return the glycol fraction to assume where none was measured, and its standard uncertainty."""
    # What is usual is not what is in the loop today: five per cent by mass either way, and a
    # remnant where none is usual.
    if sheet.water.usual_glycol is Glycol.NONE:
        return 0.0, 0.02, "assumed"
    if is_assumed(sheet, "water.usual_glycol"):
        return 0.15, 0.10, "assumed"  # plain water is as likely as a winter's mix
    if sheet.water.usual_glycol_fraction is None:
        return 0.25, 0.10, "assumed"
    return sheet.water.usual_glycol_fraction, 0.05, "assumed"


def _pump_curve(sheet: DataSheet) -> Given | None:
    if sheet.water.pump is None:
        return None
    u = sheet.water.pump.uncertainty / sqrt(3.0)
    return factor("water.pump.points", u, u)(sheet)


def _barrel_curve_sure(sheet: DataSheet) -> Given | None:
    u = sheet.water.barrel.uncertainty / sqrt(3.0)
    return factor("water.barrel", u, u)(sheet)


def _bore(sheet: DataSheet) -> Given:
    # Hose is most often laid in the bore of the unit's connection.
    bore = sheet.water.connection_bore
    return bore, (0.25 if is_assumed(sheet, "water.connection_bore") else 0.1) * bore, "assumed"


BARREL_DROP = Need(
    "barrel_pressure_drop",
    Kind.PRESSURE_DIFFERENCE,
    "pressure drop across the barrel",
    instead=("barrel_in_pressure", "barrel_out_pressure"),
)
GLYCOL = Need("glycol_fraction", Kind.MASS_FRACTION, "glycol in the water, by mass", default=usual_glycol)
LEAVING = Need(
    "water_out_temperature",
    Kind.TEMPERATURE,
    "water leaving the unit",
    default=lambda sheet: (sheet.water.design_leaving, 5.0, "assumed"),
)
BARREL_CURVE = Need(
    "sheet.barrel_curve",
    Kind.RATIO,
    "barrel's curve, true drop over the sheet's",
    default=_barrel_curve_sure,
)
BARREL_EXPONENT = Need(
    "sheet.barrel_exponent",
    Kind.NUMBER,
    "departure of the drop's exponent beyond the sheet's points",
    default=default(0.0, barrel.EXPONENT_UNCERTAINTY),
)
PUMP_CURVE = Need(
    "sheet.pump_curve", Kind.RATIO, "pump's curve, true shut-off head over the sheet's", default=_pump_curve
)
HOSE_LENGTH = Need("hose_length", Kind.LENGTH, "hose, supply and return together", default=default(60.0, 30.0))
HOSE_BORE = Need(
    "hose_bore",
    Kind.BORE,
    "inside diameter of the hose",
    default=_bore,
)
LOAD_DROP = Need(
    "load_pressure_drop",
    Kind.PRESSURE_DIFFERENCE,
    "pressure lost across the load at design flow",
    # A balancing valve takes what the pump has to spare: with it two to four times the coil's own 50 kPa.
    default=default(100e3, 60e3),
)
LOOP_FITTINGS = Need(
    "sheet.loop_fittings",
    Kind.NUMBER,
    "summed loss coefficient K of valves, bends and couplings",
    default=default(12.0, 6.0),
)


DESIGN_FLOW = Need(
    "sheet.design_flow",
    Kind.RATIO,
    "design flow, true over the sheet's",
    default=factor("water.design_flow", 0.0, 0.12),
)
MINIMUM_FLOW = Need(
    "sheet.minimum_flow",
    Kind.RATIO,
    "minimum flow, true over the sheet's",
    default=factor("water.minimum_flow", 0.0, 0.15),
)
CAPACITY = Need(
    "sheet.cooling_capacity",
    Kind.RATIO,
    "cooling capacity, true over the sheet's",
    # 5 % is the usual test tolerance at full load; ambient and leaving water off the rating add more.
    default=factor("cooling_capacity", 0.08, 0.20),
)

LOOP = (HOSE_LENGTH, HOSE_BORE, LOAD_DROP, LOOP_FITTINGS, BARREL_CURVE, BARREL_EXPONENT)
"""What `loop_drops` wants."""


def glycol_kind(sheet: DataSheet, fraction: float) -> fluid.GlycolKind:
    """Return which glycol a fraction is of.

    Where the sheet names none and some was found it is taken as propylene, the thicker of the two.
    """
    if fraction <= 0.0:
        return "none"
    return "ethylene" if sheet.water.usual_glycol is Glycol.ETHYLENE else "propylene"


def glycol_remarks(sheet: DataSheet, fraction: float) -> tuple[str, ...]:
    """Return what must be said of the glycol assumed."""
    if fraction > 0.0 and sheet.water.usual_glycol is Glycol.NONE:
        return ("The data sheet names no glycol; what was found is taken as propylene glycol.",)
    return ()


def liquid(sheet: DataSheet, temperature: float, fraction: float) -> barrel.Fluid:
    """Return density (kg/m³) and kinematic viscosity (m²/s) of the loop's water.

    Args:
        sheet: says which glycol.
        temperature: K.
        fraction: of glycol by mass.

    Raises:
        ValueError: outside the liquid's range.
    """
    which = glycol_kind(sheet, fraction)
    return barrel.Fluid(
        fluid.density(temperature, which, fraction), fluid.kinematic_viscosity(temperature, which, fraction)
    )


def barrel_curve(sheet: DataSheet) -> barrel.BarrelCurve:
    """Return the barrel's curve with the plain water it holds for."""
    data = sheet.water.barrel
    flows, drops = zip(*((point.flow, point.drop) for point in data.points), strict=True)
    return _barrel_curve(flows, drops, data.water_temperature)


@lru_cache(maxsize=64)
def _barrel_curve(
    flows: tuple[float, ...], drops: tuple[float, ...], water_temperature: float
) -> barrel.BarrelCurve:
    # A working point asks for the same curve hundreds of times.
    water = barrel.Fluid(fluid.density(water_temperature), fluid.kinematic_viscosity(water_temperature))
    return barrel.BarrelCurve(flows, drops, water)


def barrel_remarks(curve: barrel.BarrelCurve, flow: float, what: barrel.Fluid) -> tuple[str, ...]:
    """Return what must be said of the curve used at a flow (m³/s)."""
    exponent = barrel.exponent_at_flow(curve, flow, what)
    if len(curve.flows) == 1:
        return (
            f"Exponent n = {exponent:.2f}, assumed: the data sheet gives one point only, and the friction "
            "of turbulent flow goes with the Reynolds number to about -0.2.",
        )
    remarks: tuple[str, ...] = (f"Exponent n = {exponent:.2f}, from the data sheet's points.",)
    if barrel.is_extrapolated(curve, flow, what):
        remarks += ("Extrapolated: at this flow and viscosity the barrel works outside the data sheet's points.",)
    return remarks


def barrel_working(
    curve: barrel.BarrelCurve, flow: float, what: barrel.Fluid, exponent_error: float
) -> tuple[Working, ...]:
    """Return the lines that lead from a flow (m³/s) to the drop (Pa) on the sheet's curve."""
    thinner = curve.fluid.kinematic_viscosity / what.kinematic_viscosity
    plain = barrel.drop_at_flow(curve, flow * thinner, exponent_error=exponent_error)
    return (
        Working("flow", flow, Kind.VOLUME_FLOW),
        Working("kinematic viscosity over that of the sheet's water", 1.0 / thinner, Kind.NUMBER),
        Working("density over that of the sheet's water", what.density / curve.fluid.density, Kind.NUMBER),
        Working(
            "flow of the sheet's water that behaves alike: flow / viscosity ratio",
            flow * thinner,
            Kind.VOLUME_FLOW,
        ),
        Working("drop on the sheet's curve at that flow", float(plain), Kind.PRESSURE_DIFFERENCE),
    )


def pump_curve(sheet: DataSheet) -> pump.PumpCurve:
    """Return the pump's curve.

    Raises:
        ValueError: when the unit has no pump of its own.
    """
    if sheet.water.pump is None:
        raise ValueError("the data sheet gives no pump")
    return _pump_curve_through(sheet.water.pump.points)


@lru_cache(maxsize=64)
def _pump_curve_through(points: tuple[PumpPoint, ...]) -> pump.PumpCurve:
    return pump.PumpCurve(
        tuple(point.flow for point in points),
        tuple(point.head for point in points),
        tuple(point.shaft_power for point in points),
        tuple(point.npsh_required for point in points),
    )


def head_error(curve: pump.PumpCurve, factor: float) -> float:
    """Return what a pump's curve is off by (m), as the sheet states it: a share of shut-off head."""
    return (factor - 1.0) * pump.shut_off_head(curve)


def head_at(curve: pump.PumpCurve, values: Mapping[str, float], flow: float) -> float:
    """Return the head (m) of a pump at a flow (m³/s), with what its curve is off by; needs PUMP_CURVE."""
    return pump.head_at(curve, flow) + head_error(curve, values["sheet.pump_curve"])


def loop_drops(
    sheet: DataSheet, values: Mapping[str, float], flow: float, what: barrel.Fluid
) -> tuple[Working, ...]:
    """Return what each part of a healthy loop takes (Pa) at a flow (m³/s): hose, fittings, load, barrel, strainer.

    Args:
        sheet: for barrel and strainer.
        values: of the needs HOSE_LENGTH, HOSE_BORE, LOAD_DROP, LOOP_FITTINGS, BARREL_CURVE, BARREL_EXPONENT.
        flow: m³/s.
        what: flows.

    Raises:
        ValueError: for a length or a bore below zero.
    """
    parts = loop_parts(sheet, values, what)
    return tuple(Working(f"drop of {name}", drop(flow), Kind.PRESSURE_DIFFERENCE) for name, drop in parts)


def loop_parts(
    sheet: DataSheet, values: Mapping[str, float], what: barrel.Fluid
) -> tuple[tuple[str, Callable[[float], float]], ...]:
    """Return the parts of a healthy loop: name, and drop (Pa) at a flow (m³/s). Arguments as for `loop_drops`."""
    water, strainer = sheet.water, sheet.water.strainer
    length, bore, load = values["hose_length"], values["hose_bore"], values["load_pressure_drop"]
    fittings, curve_factor = values["sheet.loop_fittings"], values["sheet.barrel_curve"]
    if load < 0.0:
        raise ValueError("the drop across the load is below zero; check which gauge was which")
    of_barrel = barrel.drop_along(barrel_curve(sheet), what, exponent_error=values["sheet.barrel_exponent"])
    parts: list[tuple[str, Callable[[float], float]]] = [
        (
            "hose",
            lambda flow: hydronics.friction_drop(flow, length, bore, what.density, what.kinematic_viscosity),
        ),
        ("valves, bends and couplings", lambda flow: hydronics.local_drop(flow, fittings, bore, what.density)),
        ("load", lambda flow: hydronics.scaled_drop(flow, water.design_flow, load)),
        ("barrel", lambda flow: curve_factor * of_barrel(flow)),
    ]
    if strainer is not None:
        parts.append(("strainer, clean", lambda flow: hydronics.scaled_drop(flow, strainer.flow, strainer.drop)))
    return tuple(parts)


def working_flow(sheet: DataSheet, values: Mapping[str, float], what: barrel.Fluid) -> float:
    """Return the flow (m³/s) at which pump and healthy loop meet; needs LOOP and PUMP_CURVE."""
    curve = pump_curve(sheet)
    drops = [drop for _, drop in loop_parts(sheet, values, what)]

    def loop(flow: float) -> float:
        return sum(drop(flow) for drop in drops)

    error = head_error(curve, values["sheet.pump_curve"])
    return hydronics.working_point(curve, loop, what.density, error, near=sheet.water.design_flow)

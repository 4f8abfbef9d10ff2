"""Checks of the water side: flow, drops, pump, filling pressure and heat."""

from __future__ import annotations

from collections.abc import Mapping
from math import log, sqrt

from faultdoc.checks.base import Comparison, Given, Need, Sense, Working, registered
from faultdoc.checks.inputs import (
    BARREL_CURVE,
    BARREL_DROP,
    BARREL_EXPONENT,
    CAPACITY,
    DESIGN_FLOW,
    GLYCOL,
    HOSE_BORE,
    HOSE_LENGTH,
    LEAVING,
    LOAD_DROP,
    LOOP,
    LOOP_FITTINGS,
    MINIMUM_FLOW,
    PUMP_CURVE,
    barrel_curve,
    barrel_remarks,
    barrel_working,
    default,
    glycol_kind,
    glycol_remarks,
    head_at,
    head_error,
    is_assumed,
    liquid,
    loop_drops,
    pump_curve,
    working_flow,
)
from faultdoc.model.unit import DataSheet
from faultdoc.physics import atmosphere, barrel, fluid, hydronics, pump
from faultdoc.quantities import Kind
from faultdoc.words import say

__all__ = ["PRESSURE_AT_TOP", "STEADY_SWING"]

STEADY_SWING = 0.10
"""Swing over mean of the drop that a pump makes by itself; common practice, no source."""

PRESSURE_AT_TOP = 34_474.0
"""Pa (5 psi) kept at the loop's highest point; common practice, no source."""

_BARREL_SOURCE = (
    "The barrel's curve of the data sheet. Other fluids by similarity at equal Reynolds number "
    "(White, Fluid Mechanics, chapter 5): drop ~ density^(n-1) viscosity^(2-n) flow^n."
)
_PUMP_SOURCE = "The pump's curve of the data sheet; head to pressure by density and standard gravity."
_LOOP_SOURCE = (
    "The data sheet's curves; hose by Darcy-Weisbach with the Colebrook-White friction factor, fittings by "
    "K values (Crane TP-410). A closed loop has no lift."
)

PUMP_PRESSURES = (
    Need("pump_out_pressure", Kind.GAUGE_PRESSURE, "pressure at the pump's discharge"),
    Need("pump_in_pressure", Kind.GAUGE_PRESSURE, "pressure at the pump's suction"),
)
DEAD_HEAD_PRESSURES = (
    Need("dead_head_out_pressure", Kind.GAUGE_PRESSURE, "pressure at the pump's discharge, valve shut"),
    Need("dead_head_in_pressure", Kind.GAUGE_PRESSURE, "pressure at the pump's suction, valve shut"),
)
ENTERING = Need("water_in_temperature", Kind.TEMPERATURE, "water entering the unit")
WATER_FLOW = Need("water_flow", Kind.VOLUME_FLOW, "water flow")


@registered(
    id="barrel_drop_at_flow",
    title=say("Barrel's pressure drop at the flow measured"),
    kind=Kind.PRESSURE_DIFFERENCE,
    needs=(WATER_FLOW, BARREL_DROP, GLYCOL, LEAVING, BARREL_CURVE, BARREL_EXPONENT),
    floor=-1.0,
    formula="drop on the data sheet's curve at the metered flow, corrected for the fluid's density and viscosity",
    source=_BARREL_SOURCE,
)
def barrel_drop_at_flow(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the drop across the barrel with what it should be at the metered flow."""
    curve = barrel_curve(sheet)
    flow, error = values["water_flow"], values["sheet.barrel_exponent"]
    if flow < 0.0:
        raise ValueError("a flow below zero: the meter is the wrong way round")
    what = liquid(sheet, values["water_out_temperature"], values["glycol_fraction"])
    expected = float(barrel.drop_at_flow(curve, flow, what, exponent_error=error)) * values["sheet.barrel_curve"]
    return Comparison(
        expected,
        values["barrel_pressure_drop"],
        (
            *barrel_working(curve, flow, what, error),
            Working("expected drop: x density ratio x viscosity ratio²", expected, Kind.PRESSURE_DIFFERENCE),
        ),
        barrel_remarks(curve, flow, what) + glycol_remarks(sheet, values["glycol_fraction"]),
    )


@registered(
    id="flow_from_barrel_drop",
    title=say("Water flow, read off the barrel's pressure drop"),
    kind=Kind.VOLUME_FLOW,
    needs=(BARREL_DROP, GLYCOL, LEAVING, BARREL_CURVE, BARREL_EXPONENT, DESIGN_FLOW),
    floor=-1.0,
    formula="flow at which the data sheet's curve, corrected for the fluid, has the drop; against design flow",
    source=_BARREL_SOURCE,
)
def flow_from_barrel_drop(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the flow that the barrel's drop stands for with design flow."""
    flow, working, remarks = _flow_of_barrel(values, sheet)
    return Comparison(sheet.water.design_flow * values["sheet.design_flow"], flow, working, remarks)


def _flow_of_barrel(
    values: Mapping[str, float], sheet: DataSheet
) -> tuple[float, tuple[Working, ...], tuple[str, ...]]:
    """Return the flow that the barrel's measured drop stands for, with working and remarks."""
    curve = barrel_curve(sheet)
    error = values["sheet.barrel_exponent"]
    what = liquid(sheet, values["water_out_temperature"], values["glycol_fraction"])
    drop = values["barrel_pressure_drop"]
    flow = float(barrel.flow_from_drop(curve, drop / values["sheet.barrel_curve"], what, exponent_error=error))
    working = (
        Working("drop measured", drop, Kind.PRESSURE_DIFFERENCE),
        *barrel_working(curve, flow, what, error)[1:],
        Working("flow that has this drop", flow, Kind.VOLUME_FLOW),
    )
    remarks = barrel_remarks(curve, flow, what) + glycol_remarks(sheet, values["glycol_fraction"])
    if drop < 0.0:
        remarks += ("The outlet reads above the inlet: gauges in error, swapped, or flow the wrong way.",)
    return flow, working, remarks


def _switch_setting(sheet: DataSheet) -> Given | None:
    proving = sheet.water.flow_proving
    if is_assumed(sheet, "water.flow_proving"):
        return 1.0, 0.30, "assumed"
    if proving.makes_at_drop is not None:
        return 1.0, 0.05, "assumed"
    # A paddle is set by feel; its flow is known to a tenth at best, and the fluid moves it too.
    return None if proving.makes_at_flow is None else (1.0, 0.10, "assumed")


def _curve_if_paddle(sheet: DataSheet) -> Given:
    u = 0.0 if sheet.water.flow_proving.makes_at_drop is not None else sheet.water.barrel.uncertainty / sqrt(3.0)
    return 1.0, u, "data sheet"


@registered(
    id="proving_margin",
    title=say("Barrel's pressure drop against the flow switch's setting"),
    kind=Kind.PRESSURE_DIFFERENCE,
    needs=(
        BARREL_DROP,
        Need(
            "sheet.flow_switch_setting", Kind.RATIO, "flow switch's setting, true over the sheet's",
            default=_switch_setting,
        ),
        Need("sheet.barrel_curve", Kind.RATIO, BARREL_CURVE.title, default=_curve_if_paddle),
    ),
    floor=-1.0,
    sense=Sense.AT_LEAST,
    formula="drop at which the switch makes, or the barrel's drop at the flow at which a paddle makes",
    source="The data sheet's settings and barrel curve.",
)  # fmt: skip
def proving_margin(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the drop across the barrel with what the flow switch needs to make."""
    proving = sheet.water.flow_proving
    setting = values["sheet.flow_switch_setting"]
    measured = values["barrel_pressure_drop"]
    remarks: tuple[str, ...]
    if proving.makes_at_drop is not None:
        expected = proving.makes_at_drop * setting
        working = [Working("drop at which the switch makes", expected, Kind.PRESSURE_DIFFERENCE)]
        if proving.breaks_at_drop is not None:
            working.append(Working("drop at which it breaks", proving.breaks_at_drop, Kind.PRESSURE_DIFFERENCE))
        remarks = ("Once made, the switch holds until the drop falls to where it breaks.",)
    elif proving.makes_at_flow is not None:
        fraction = sheet.water.usual_glycol_fraction or 0.0
        what = liquid(sheet, sheet.water.design_leaving, fraction)
        curve, flow = barrel_curve(sheet), proving.makes_at_flow * setting
        expected = float(barrel.drop_at_flow(curve, flow, what)) * values["sheet.barrel_curve"]
        working = [
            *barrel_working(curve, flow, what, 0.0),
            Working("barrel's drop when the paddle makes", expected, Kind.PRESSURE_DIFFERENCE),
        ]
        remarks = (
            *barrel_remarks(curve, flow, what),
            "Usual glycol and design leaving temperature taken for the fluid.",
        )
    else:
        raise ValueError("the data sheet gives no setting of the flow switch")
    return Comparison(
        expected, measured, (*working, Working("drop measured", measured, Kind.PRESSURE_DIFFERENCE)), remarks
    )


def _loop_remarks(sheet: DataSheet, values: Mapping[str, float], flow: float) -> tuple[str, ...]:
    remarks = (
        "The load's drop is taken as that at design flow, and as going with the flow squared.",
        *glycol_remarks(sheet, values["glycol_fraction"]),
    )
    if pump.is_beyond(pump_curve(sheet), flow):
        remarks += ("Extrapolated: pump and loop meet past the last point of the pump's curve.",)
    return remarks


@registered(
    id="pump_head",
    title=say("Pump's pressure rise against curve and loop"),
    kind=Kind.PRESSURE_DIFFERENCE,
    needs=(*PUMP_PRESSURES, *LOOP, PUMP_CURVE, GLYCOL, LEAVING),
    floor=-1.0,
    formula="rise at the flow where the pump's curve meets what a healthy loop takes: density x gravity x head",
    source=_LOOP_SOURCE,
)
def pump_head(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the pump's pressure rise with that at its working point on a healthy loop."""
    what = liquid(sheet, values["water_out_temperature"], values["glycol_fraction"])
    flow = working_flow(sheet, values, what)
    curve = pump_curve(sheet)
    head = head_at(curve, values, flow)
    expected = what.density * fluid.GRAVITY * head
    return Comparison(
        expected,
        values["pump_out_pressure"] - values["pump_in_pressure"],
        (
            *loop_drops(sheet, values, flow, what),
            Working("flow at which pump and loop meet", flow, Kind.VOLUME_FLOW),
            Working("pump's head at that flow", head, Kind.LENGTH),
            Working("density, kg/m³", what.density, Kind.NUMBER),
            Working("expected rise", expected, Kind.PRESSURE_DIFFERENCE),
        ),
        _loop_remarks(sheet, values, flow),
    )


@registered(
    id="flow_agreement",
    title=say("Water flow off the barrel against flow off the pump's curve"),
    kind=Kind.VOLUME_FLOW,
    needs=(*PUMP_PRESSURES, BARREL_DROP, GLYCOL, LEAVING, BARREL_CURVE, BARREL_EXPONENT, PUMP_CURVE),
    floor=-1.0,
    formula="flow at which the pump's curve has the measured head, against the flow the barrel's drop stands for",
    source=f"{_PUMP_SOURCE} {_BARREL_SOURCE}",
)
def flow_agreement(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the flow read off the barrel with the flow read off the pump's curve."""
    what = liquid(sheet, values["water_out_temperature"], values["glycol_fraction"])
    curve = pump_curve(sheet)
    rise = values["pump_out_pressure"] - values["pump_in_pressure"]
    if rise < 0.0:
        raise ValueError("the pump's outlet reads less than its inlet; check the gauges")
    head = rise / (what.density * fluid.GRAVITY)
    off_pump = pump.flow_at_head(curve, max(head - head_error(curve, values["sheet.pump_curve"]), 0.0))
    off_barrel, working, remarks = _flow_of_barrel(values, sheet)
    if off_pump == 0.0:
        remarks += ("The pump's rise is at or above shut-off: by its curve it moves nothing.",)
    if pump.is_beyond(curve, off_pump):
        remarks += ("Extrapolated: this head lies past the last point of the pump's curve.",)
    return Comparison(
        off_pump,
        off_barrel,
        (
            Working("pump's head, from its rise", head, Kind.LENGTH),
            Working("flow at that head on the pump's curve", off_pump, Kind.VOLUME_FLOW),
            *working,
        ),
        remarks,
    )


@registered(
    id="pump_dead_head",
    title=say("Pump's pressure rise against a shut valve"),
    kind=Kind.PRESSURE_DIFFERENCE,
    needs=(*DEAD_HEAD_PRESSURES, GLYCOL, PUMP_CURVE),
    floor=-1.0,
    formula="density x gravity x shut-off head of the curve",
    source=_PUMP_SOURCE,
)
def pump_dead_head(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the rise with the discharge valve shut with the curve's shut-off head."""
    head = pump.shut_off_head(pump_curve(sheet)) * values["sheet.pump_curve"]
    density = liquid(sheet, sheet.water.design_entering, values["glycol_fraction"]).density
    expected = density * fluid.GRAVITY * head
    return Comparison(
        expected,
        values["dead_head_out_pressure"] - values["dead_head_in_pressure"],
        (
            Working("shut-off head", head, Kind.LENGTH),
            Working("density, kg/m³", density, Kind.NUMBER),
            Working("expected rise", expected, Kind.PRESSURE_DIFFERENCE),
        ),
        glycol_remarks(sheet, values["glycol_fraction"]),
    )


@registered(
    id="standing_pressure_needed",
    title=say("Standing pressure for the height of the loop"),
    kind=Kind.GAUGE_PRESSURE,
    needs=(
        Need("standing_pressure", Kind.GAUGE_PRESSURE, "standing pressure, pump stopped"),
        Need(
            "high_point_height", Kind.LENGTH, "height of the highest water pipe above the gauge",
            default=default(5.0, 5.0),
        ),
    ),
    scale=68_948.0,
    sense=Sense.AT_LEAST,
    formula="density x gravity x height + 5 psi at the top",
    source="Hydrostatics; 5 psi at the top is common practice, no source.",
)  # fmt: skip
def standing_pressure_needed(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the standing pressure with what keeps the top of the loop above the atmosphere."""
    density = liquid(sheet, sheet.water.design_entering, sheet.water.usual_glycol_fraction or 0.0).density
    height = values["high_point_height"]
    expected = hydronics.standing_pressure_needed(height, density, PRESSURE_AT_TOP)
    measured = values["standing_pressure"]
    remarks = []
    if measured > sheet.water.relief_pressure:
        remarks.append("The standing pressure is above the relief valve's setting.")
    if expected > sheet.water.relief_pressure:
        remarks.append("The height asks for more than the relief valve's setting allows; check the height.")
    return Comparison(
        expected,
        measured,
        (
            Working("height of the loop", height, Kind.LENGTH),
            Working("density, kg/m³", density, Kind.NUMBER),
            Working("pressure of that column", expected - PRESSURE_AT_TOP, Kind.PRESSURE_DIFFERENCE),
            Working("wanted at the top", PRESSURE_AT_TOP, Kind.GAUGE_PRESSURE),
        ),
        tuple(remarks),
    )


@registered(
    id="npsh_available",
    title=say("Suction head available to the pump"),
    kind=Kind.LENGTH,
    needs=(
        Need("pump_in_pressure", Kind.GAUGE_PRESSURE, "pressure at the pump's suction"),
        Need("site_elevation", Kind.LENGTH, "height of the site above sea level", default=default(300.0, 300.0)),
        Need(
            "water_in_temperature", Kind.TEMPERATURE, "water entering the unit",
            default=lambda sheet: (sheet.water.design_entering, 5.0, "assumed"),
        ),
        GLYCOL,
        Need(
            "sheet.working_flow", Kind.VOLUME_FLOW, "flow at which the pump works, taken as design flow",
            default=lambda sheet: (sheet.water.design_flow, 0.15 * sheet.water.design_flow, "assumed"),
        ),
        PUMP_CURVE,
    ),
    scale=3.0,
    sense=Sense.AT_LEAST,
    formula="(gauge + atmosphere - vapour pressure) / (density x gravity) + velocity² / (2 x gravity)",
    source="ANSI/HI 14.3 (NPSH available); U.S. Standard Atmosphere 1976; NPSH required of the sheet.",
)  # fmt: skip
def npsh_available(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the suction head the pump has with what it requires."""
    fraction = values["glycol_fraction"]
    what = glycol_kind(sheet, fraction)
    temperature = values["water_in_temperature"]
    density = fluid.density(temperature, what, fraction)
    vapour = fluid.vapour_pressure(temperature, what, fraction)
    air = atmosphere.pressure(values["site_elevation"])
    flow = values["sheet.working_flow"]
    speed = hydronics.velocity(flow, sheet.water.connection_bore)
    available = hydronics.npsh_available(values["pump_in_pressure"], air, vapour, density, speed)
    required = pump.npsh_required_at(pump_curve(sheet), flow)
    return Comparison(
        required,
        available,
        (
            Working("atmosphere at the site", air, Kind.ABSOLUTE_PRESSURE),
            Working("vapour pressure", vapour, Kind.ABSOLUTE_PRESSURE),
            Working("density, kg/m³", density, Kind.NUMBER),
            Working("velocity head", speed**2 / (2.0 * fluid.GRAVITY), Kind.LENGTH),
            Working("available", available, Kind.LENGTH),
            Working("required at the working flow", required, Kind.LENGTH),
        ),
        ("The gauge is taken as standing at the height of the pump's eye.", *glycol_remarks(sheet, fraction)),
    )


@registered(
    id="heat_moved",
    title=say("Heat taken out of the water"),
    kind=Kind.POWER,
    needs=(
        WATER_FLOW,
        ENTERING,
        Need("water_out_temperature", Kind.TEMPERATURE, "water leaving the unit"),
        GLYCOL,
        CAPACITY,
    ),
    formula="flow x density x heat capacity x (entering - leaving), against the data sheet's capacity",
    source="Heat balance of the water side, as in AHRI 550/590; capacity of the data sheet.",
)  # fmt: skip
def heat_moved(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the heat taken out of the water with the unit's capacity."""
    fraction = values["glycol_fraction"]
    entering, leaving = values["water_in_temperature"], values["water_out_temperature"]
    mean = (entering + leaving) / 2.0
    what = glycol_kind(sheet, fraction)
    density, capacity = fluid.density(mean, what, fraction), fluid.heat_capacity(mean, what, fraction)
    moved = hydronics.heat_moved(values["water_flow"], density, capacity, entering, leaving)
    return Comparison(
        sheet.cooling_capacity * values["sheet.cooling_capacity"],
        moved,
        (
            Working("flow", values["water_flow"], Kind.VOLUME_FLOW),
            Working("density, kg/m³", density, Kind.NUMBER),
            Working("heat capacity, J/(kg K)", capacity, Kind.NUMBER),
            Working("entering less leaving", entering - leaving, Kind.TEMPERATURE_DIFFERENCE),
            Working("heat moved", moved, Kind.POWER),
        ),
        (
            "Holds with all compressors loaded; with some off less is right.",
            *glycol_remarks(sheet, fraction),
        ),
    )


def _strainer(sheet: DataSheet) -> Given | None:
    if sheet.water.strainer is None:
        return None
    return 1.0, 0.50 if is_assumed(sheet, "water.strainer") else 0.10, "assumed"


@registered(
    id="strainer_drop",
    title=say("Pressure drop across the strainer"),
    kind=Kind.PRESSURE_DIFFERENCE,
    needs=(
        Need("strainer_pressure_drop", Kind.PRESSURE_DIFFERENCE, "drop across the strainer"),
        Need(
            "water_flow", Kind.VOLUME_FLOW, "water flow",
            default=lambda sheet: (sheet.water.design_flow, 0.2 * sheet.water.design_flow, "assumed"),
        ),
        GLYCOL,
        Need("sheet.strainer_curve", Kind.RATIO, "clean drop, true over the sheet's", default=_strainer),
    ),
    floor=-1.0,
    formula="clean drop of the data sheet x (flow / its flow)² x density over water's",
    source="The data sheet; drop ~ density x flow² for a basket or screen (Crane TP-410, K values).",
)  # fmt: skip
def strainer_drop(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the strainer's drop with its clean drop at the flow."""
    clean = sheet.water.strainer
    if clean is None:
        raise ValueError("the data sheet gives no strainer")
    fraction = values["glycol_fraction"]
    temperature = sheet.water.design_entering
    relative = liquid(sheet, temperature, fraction).density / fluid.density(temperature)
    factor = values["sheet.strainer_curve"] * relative
    expected = factor * hydronics.scaled_drop(values["water_flow"], clean.flow, clean.drop)
    return Comparison(
        expected,
        values["strainer_pressure_drop"],
        (
            Working("clean drop of the sheet", clean.drop, Kind.PRESSURE_DIFFERENCE),
            Working("flow over the sheet's", values["water_flow"] / clean.flow, Kind.NUMBER),
            Working("density over water's", relative, Kind.NUMBER),
            Working("clean drop expected", expected, Kind.PRESSURE_DIFFERENCE),
        ),
        glycol_remarks(sheet, fraction),
    )


@registered(
    id="strainer_clogging",
    title=say("Strainer's loss coefficient over clean, as a natural logarithm"),
    kind=Kind.NUMBER,
    needs=(
        Need("strainer_pressure_drop", Kind.PRESSURE_DIFFERENCE, "drop across the strainer"),
        WATER_FLOW,
        GLYCOL,
        Need("sheet.strainer_curve", Kind.RATIO, "clean drop, true over the sheet's", default=_strainer),
    ),
    scale=1.0,
    sense=Sense.AT_MOST,
    formula="ln(drop / clean drop / (flow / its flow)² / density ratio): nought when clean, 0.7 when doubled",
    source="The data sheet; drop = K density velocity² / 2 (Crane TP-410), whatever the flow.",
)
def strainer_clogging(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the strainer's loss coefficient, which the flow does not move, with the clean one."""
    clean = sheet.water.strainer
    if clean is None:
        raise ValueError("the data sheet gives no strainer")
    fraction, drop, flow = values["glycol_fraction"], values["strainer_pressure_drop"], values["water_flow"]
    temperature = sheet.water.design_entering
    relative = liquid(sheet, temperature, fraction).density / fluid.density(temperature)
    clean_drop = clean.drop * values["sheet.strainer_curve"]
    ratio = hydronics.loss_ratio(flow, drop, clean.flow, clean_drop, relative)
    return Comparison(
        0.0,
        log(ratio),
        (
            Working("clean drop of the sheet", clean_drop, Kind.PRESSURE_DIFFERENCE),
            Working("flow over the sheet's", flow / clean.flow, Kind.NUMBER),
            Working("density over water's", relative, Kind.NUMBER),
            Working("loss coefficient over clean", ratio, Kind.NUMBER),
            Working("share of the screen's area left open, about", min(ratio**-0.5, 1.0), Kind.RATIO),
        ),
        ("A basket does not cost less than when clean: below nought one of the readings is off.",)
        if ratio < 1.0
        else glycol_remarks(sheet, fraction),
    )


@registered(
    id="loop_air",
    title=say("Swing of the barrel's pressure drop"),
    kind=Kind.RATIO,
    needs=(
        Need("barrel_drop_low", Kind.PRESSURE_DIFFERENCE, "lowest drop of the needle's swing"),
        Need("barrel_drop_high", Kind.PRESSURE_DIFFERENCE, "highest drop of the needle's swing"),
    ),
    scale=0.10,
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="(highest - lowest) / mean of the two, against what a steady pump makes",
    source=(
        "The drop goes with the flow squared, and slugs of air change what flows; a tenth for a snubbed gauge on "
        "a pump that draws no air is common practice, no source."
    ),
)
def loop_air(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the swing of the barrel's drop with that of a pump that draws no air."""
    low, high = values["barrel_drop_low"], values["barrel_drop_high"]
    mean = (low + high) / 2.0
    if mean <= 0.0:
        raise ValueError("the drop is not above zero on the mean: nothing flows, or the gauge's lines are swapped")
    # Two readings of one gauge: the lowest is not above the highest but by its error.
    swing = max(high - low, 0.0) / mean
    return Comparison(
        STEADY_SWING,
        swing,
        (
            Working("mean drop", mean, Kind.PRESSURE_DIFFERENCE),
            Working("swing", high - low, Kind.PRESSURE_DIFFERENCE),
            Working("swing over mean", swing, Kind.RATIO),
            Working("swing of the flow, about half of that", swing / 2.0, Kind.RATIO),
        ),
        (
            "A pump that is starved at its suction swings as well; read its suction and listen.",
            "Lines that were not bled swing by themselves.",
        ),
    )


@registered(
    id="loop_head_needed",
    title=say("What the loop takes at minimum flow, against what the pump has"),
    kind=Kind.PRESSURE_DIFFERENCE,
    needs=(
        Need("hose_length", Kind.LENGTH, HOSE_LENGTH.title),
        Need("hose_bore", Kind.BORE, HOSE_BORE.title),
        LOAD_DROP,
        LOOP_FITTINGS,
        BARREL_CURVE,
        BARREL_EXPONENT,
        PUMP_CURVE,
        MINIMUM_FLOW,
        GLYCOL,
        LEAVING,
    ),
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="hose, fittings, load, barrel and strainer at minimum flow; against the pump's head there",
    source=_LOOP_SOURCE,
)
def loop_head_needed(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare what the loop takes at minimum flow with the head the pump has there."""
    what = liquid(sheet, values["water_out_temperature"], values["glycol_fraction"])
    flow = sheet.water.minimum_flow * values["sheet.minimum_flow"]
    curve = pump_curve(sheet)
    head = head_at(curve, values, flow)
    drops = loop_drops(sheet, values, flow, what)
    needed = sum(part.value for part in drops)
    expected = what.density * fluid.GRAVITY * head
    return Comparison(
        expected,
        needed,
        (
            Working("minimum flow", flow, Kind.VOLUME_FLOW),
            *drops,
            Working("loop in all", needed, Kind.PRESSURE_DIFFERENCE),
            Working("pump's head at that flow", head, Kind.LENGTH),
            Working("the same as a pressure", expected, Kind.PRESSURE_DIFFERENCE),
        ),
        _loop_remarks(sheet, values, flow),
    )

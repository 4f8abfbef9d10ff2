"""Checks of the unit's own pump beyond its working point: which way it turns, and what it asks of its motor."""

from __future__ import annotations

from collections.abc import Mapping

from faultdoc.checks.base import Comparison, Given, Need, Sense, Working, registered
from faultdoc.checks.inputs import (
    GLYCOL,
    LEAVING,
    PUMP_CURVE,
    default,
    factor,
    glycol_remarks,
    head_at,
    liquid,
    pump_curve,
)
from faultdoc.checks.water import DEAD_HEAD_PRESSURES, WATER_FLOW
from faultdoc.model.unit import DataSheet
from faultdoc.physics import fluid, hydronics, pump
from faultdoc.quantities import Kind
from faultdoc.words import say

__all__ = ["BACKWARDS"]

BACKWARDS = (0.50, 0.67)
"""Shut-off head of a small end-suction pump that runs backwards, over its own: about half to two thirds.
Common practice, no source."""

_FITS_FORWARDS = 0.85


@registered(
    id="dead_head_if_backwards",
    title=say("Pump's pressure rise against a shut valve, if it ran backwards"),
    kind=Kind.PRESSURE_DIFFERENCE,
    needs=(
        *DEAD_HEAD_PRESSURES,
        GLYCOL,
        PUMP_CURVE,
        Need(
            "sheet.backwards_share", Kind.RATIO, "shut-off head backwards over that forwards",
            # Half the width of the range over the square root of three: JCGM 100:2008, 4.3.7.
            default=default(sum(BACKWARDS) / 2.0, (BACKWARDS[1] - BACKWARDS[0]) / 2.0 / 3.0**0.5),
        ),
    ),
    floor=-1.0,
    formula="0.585 x density x gravity x shut-off head of the curve: as expected means that it runs backwards",
    source="The pump's curve of the data sheet; half to two thirds when reversed is common practice, no source.",
)  # fmt: skip
def dead_head_if_backwards(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the rise with the discharge valve shut with that of the same pump turning backwards."""
    forwards = pump.shut_off_head(pump_curve(sheet)) * values["sheet.pump_curve"]
    density = liquid(sheet, sheet.water.design_entering, values["glycol_fraction"]).density
    right = density * fluid.GRAVITY * forwards
    rise = values["dead_head_out_pressure"] - values["dead_head_in_pressure"]
    share = rise / right
    if share >= _FITS_FORWARDS:
        said = "This fits a pump that turns the right way."
    elif share >= BACKWARDS[0] - 0.1:
        said = (
            "This fits a pump that turns backwards. A 60 Hz pump on 50 Hz makes 69 % of its head, and a worn or "
            "air-bound one may make as little: look at the shaft as it coasts down."
        )
    else:
        said = "A pump that turns either way makes more: it stands still, is air-bound or has lost its drive."
    return Comparison(
        right * values["sheet.backwards_share"],
        rise,
        (
            Working("rise the right way round", right, Kind.PRESSURE_DIFFERENCE),
            Working("share of it backwards, about", values["sheet.backwards_share"], Kind.RATIO),
            Working("share of it measured", share, Kind.RATIO),
        ),
        (said, *glycol_remarks(sheet, values["glycol_fraction"])),
    )


def _shaft_power(sheet: DataSheet) -> Given | None:
    # ISO 9906 grade 3 lets the power exceed the curve by 9 % (from memory): a limit of error.
    return None if sheet.water.pump is None else factor("water.pump.points", 0.05, 0.20)(sheet)


@registered(
    id="pump_motor_margin",
    title=say("Load of the pump's motor at the flow measured"),
    kind=Kind.RATIO,
    needs=(
        WATER_FLOW,
        GLYCOL,
        LEAVING,
        PUMP_CURVE,
        Need("sheet.shaft_power", Kind.RATIO, "shaft power, true over the sheet's", default=_shaft_power),
    ),
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="shaft power on the sheet's curve at the metered flow x density over water's, over the motor's rating",
    source="The data sheet's curve and motor; shaft power goes with the density (ANSI/HI 14.3).",
)
def pump_motor_margin(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the shaft power at the metered flow with the motor's rated power."""
    data = sheet.water.pump
    if data is None:
        raise ValueError("the data sheet gives no pump")
    flow = values["water_flow"]
    if flow < 0.0:
        raise ValueError("a flow below zero: the meter is the wrong way round")
    curve = pump_curve(sheet)
    what = liquid(sheet, values["water_out_temperature"], values["glycol_fraction"])
    relative = what.density / fluid.density(sheet.water.barrel.water_temperature)
    power = pump.shaft_power_at(curve, flow, relative) * values["sheet.shaft_power"]
    head = head_at(curve, values, flow)
    remarks = glycol_remarks(sheet, values["glycol_fraction"])
    working = [
        Working("pump's head at that flow", head, Kind.LENGTH),
        Working("density over water's", relative, Kind.NUMBER),
        Working("shaft power", power, Kind.SHAFT_POWER),
        Working("rated power of the motor", data.rated_power, Kind.SHAFT_POWER),
    ]
    if head > 0.0:
        carried = hydronics.hydraulic_power(flow, head, what.density)
        working.insert(2, Working("power the water carries away", carried, Kind.SHAFT_POWER))
        working.append(Working("pump's efficiency", carried / power, Kind.RATIO))
    else:
        remarks += ("By its curve the pump has no head left at this flow; check the meter.",)
    if pump.is_beyond(curve, flow):
        remarks += ("Extrapolated: past the last point of the pump's curve its last shaft power is taken.",)
    return Comparison(1.0, power / data.rated_power, tuple(working), remarks)

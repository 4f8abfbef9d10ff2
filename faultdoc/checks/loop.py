"""Checks of the loop as laid: its hose, what it holds, how a unit cycles on it and cools it, and its bypass."""

from __future__ import annotations

from collections.abc import Mapping

from faultdoc.checks.base import Comparison, Need, Sense, Working, registered
from faultdoc.checks.inputs import (
    BARREL_CURVE,
    BARREL_EXPONENT,
    CAPACITY,
    GLYCOL,
    HOSE_BORE,
    HOSE_LENGTH,
    LEAVING,
    LOAD_DROP,
    LOOP_FITTINGS,
    MINIMUM_FLOW,
    PUMP_CURVE,
    default,
    factor,
    glycol_kind,
    glycol_remarks,
    head_at,
    liquid,
    loop_parts,
    pump_curve,
)
from faultdoc.model.unit import DataSheet
from faultdoc.physics import fluid, hydronics, loop
from faultdoc.quantities import Kind
from faultdoc.words import say

__all__ = ["COMFORT", "CONTROL_BAND", "FASTEST_WATER", "PROCESS", "smallest_step"]

_GALLON_A_TON = 3.785411784e-3 / 3516.8528
"""m³/W."""

COMFORT = (3.0, 6.0)
"""US gallons a ton that keep a comfort load from short cycling; common practice, no source."""
PROCESS = (6.0, 10.0)
"""The same for a process load; common practice, no source."""

CONTROL_BAND = 2.8
"""K (5 °F) between start and stop of a step on the returning water; common practice, no source."""

FASTEST_WATER = 3.0
"""m/s. AS/NZS 3500.1:2003 as quoted in AIRAH's Industry Directory 2016, p. 191, which itself keeps chilled water
to 1.8 to 2.4 m/s; ASHRAE Fundamentals allows 4.6 m/s against erosion for 1,500 h a year (from memory)."""

_LENGTH = Need("hose_length", Kind.LENGTH, HOSE_LENGTH.title)
_BORE = Need("hose_bore", Kind.BORE, HOSE_BORE.title)
_ADDED = Need(
    "added_volume",
    Kind.VOLUME,
    "water in tanks and in the load",
    # A coil and its pipes hold a tenth of what comfort asks for, give or take as much.
    default=lambda sheet: (
        0.1 * COMFORT[0] * _GALLON_A_TON * sheet.cooling_capacity,
        0.1 * COMFORT[0] * _GALLON_A_TON * sheet.cooling_capacity,
        "assumed",
    ),
)
_UNIT_VOLUME = Need(
    "sheet.volume",
    Kind.RATIO,
    "water the unit holds, true over the sheet's",
    default=factor("water.volume", 0.05, 0.4),
)
_BAND = Need(
    "sheet.control_band", Kind.TEMPERATURE_DIFFERENCE, "band of the control", default=default(CONTROL_BAND, 0.8)
)


def smallest_step(sheet: DataSheet) -> float:
    """Return the smallest share of the capacity that the compressors can run at, by their rated currents."""
    least = min(one.rated_current * min(one.unloading_steps, default=1.0) for one in sheet.compressors)
    return least / sum(one.rated_current for one in sheet.compressors)


def _volume(values: Mapping[str, float], sheet: DataSheet) -> tuple[float, tuple[Working, ...]]:
    """Return the water in the loop (m³) with its working."""
    hose = loop.hose_volume(values["hose_length"], values["hose_bore"])
    unit = sheet.water.volume * values["sheet.volume"]
    if values["added_volume"] < 0.0:
        raise ValueError("a tank holds no less than nothing")
    whole = hose + unit + values["added_volume"]
    return whole, (
        Working("water in the hose", hose, Kind.VOLUME),
        Working("water in the unit", unit, Kind.VOLUME),
        Working("water in tanks and load", values["added_volume"], Kind.VOLUME),
        Working("water in the loop", whole, Kind.VOLUME),
    )


def _heat_capacity(volume: float, values: Mapping[str, float], sheet: DataSheet, temperature: float) -> float:
    """Return the heat capacity (J/K) of a volume (m³) of what is in the loop."""
    fraction = values["glycol_fraction"]
    what = glycol_kind(sheet, fraction)
    return volume * fluid.density(temperature, what, fraction) * fluid.heat_capacity(temperature, what, fraction)


@registered(
    id="loop_volume",
    title=say("Water in the loop against short cycling"),
    kind=Kind.VOLUME,
    needs=(
        _LENGTH,
        _BORE,
        _ADDED,
        _UNIT_VOLUME,
        CAPACITY,
        Need(
            "sheet.gallons_a_ton", Kind.NUMBER, "US gallons a ton for a comfort load",
            default=default(sum(COMFORT) / 2.0, (COMFORT[1] - COMFORT[0]) / 2.0 / 3.0**0.5),
        ),
    ),
    floor=-1.0,
    sense=Sense.AT_LEAST,
    formula="3 to 6 US gallons a ton of cooling for comfort; against water in hose, unit, tanks and load",
    source="Common practice, no source: 3 to 6 gallons a ton for comfort, 6 to 10 for a process.",
)  # fmt: skip
def loop_volume(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the water in the loop with what keeps the unit from short cycling."""
    volume, working = _volume(values, sheet)
    capacity = sheet.cooling_capacity * values["sheet.cooling_capacity"]
    a_ton = volume / (capacity * _GALLON_A_TON)
    needed = capacity * _GALLON_A_TON * values["sheet.gallons_a_ton"]
    process = tuple(capacity * _GALLON_A_TON * gallons for gallons in PROCESS)
    return Comparison(
        needed,
        volume,
        (
            *working,
            Working("US gallons a ton", a_ton, Kind.NUMBER),
            Working("wanted for comfort, mean", needed, Kind.VOLUME),
            Working("wanted for a process, least", process[0], Kind.VOLUME),
            Working("wanted for a process, most", process[1], Kind.VOLUME),
        ),
        ("A process with a steep load wants the larger figure; a tank in the return adds what is missing.",),
    )


@registered(
    id="shortest_cycle",
    title=say("Shortest time from start to start on this loop"),
    kind=Kind.TIME,
    needs=(
        _LENGTH,
        _BORE,
        _ADDED,
        _UNIT_VOLUME,
        CAPACITY,
        _BAND,
        GLYCOL,
        Need(
            "sheet.starts_per_hour", Kind.NUMBER, "starts an hour allowed",
            # Six to twelve an hour is what makers of small compressors allow; common practice, no source.
            default=lambda sheet: (
                (8.0, 1.7, "assumed") if sheet.starts_per_hour is None
                else (float(sheet.starts_per_hour), 0.0, "data sheet")
            ),
        ),
    ),
    floor=-1.0,
    sense=Sense.AT_LEAST,
    formula="4 x heat capacity of the loop x band of the control / smallest step; against an hour over starts",
    source="Energy balance of a step that cycles, at its worst load of half the step; starts of the data sheet.",
)  # fmt: skip
def shortest_cycle(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the shortest cycle of the smallest step on this loop with the starts an hour allowed."""
    volume, working = _volume(values, sheet)
    heat = _heat_capacity(volume, values, sheet, sheet.water.design_leaving)
    step = sheet.cooling_capacity * values["sheet.cooling_capacity"] * smallest_step(sheet)
    cycle = loop.shortest_cycle(heat, values["sheet.control_band"], step)
    return Comparison(
        3600.0 / values["sheet.starts_per_hour"],
        cycle,
        (
            *working,
            Working("heat capacity of the loop", heat, Kind.HEAT_CAPACITY),
            Working("smallest step", step, Kind.POWER),
            Working("running time at half that load", cycle / 2.0, Kind.TIME),
            Working("start to start", cycle, Kind.TIME),
            Working("least time from stop to start", sheet.anti_recycle, Kind.TIME),
        ),
        (
            "The unit's own timer holds the compressor longer if it must; the water then swings past the band.",
            *glycol_remarks(sheet, values["glycol_fraction"]),
        ),
    )


@registered(
    id="pull_down",
    title=say("Time to cool the loop"),
    kind=Kind.TIME,
    needs=(
        Need("cooling_time", Kind.TIME, "time the unit has been cooling"),
        Need("start_water_temperature", Kind.TEMPERATURE, "water in the loop when cooling began"),
        Need("water_in_temperature", Kind.TEMPERATURE, "water entering the unit now"),
        _LENGTH,
        _BORE,
        _ADDED,
        _UNIT_VOLUME,
        CAPACITY,
        Need(
            "cooling_load", Kind.POWER, "heat that comes in meanwhile",
            default=lambda sheet: (0.25 * sheet.cooling_capacity, 0.20 * sheet.cooling_capacity, "assumed"),
        ),
        GLYCOL,
    ),
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="heat capacity of the loop x temperature fallen / (cooling capacity - load)",
    source="Energy balance of the loop's water, all at one temperature; capacity of the data sheet.",
)  # fmt: skip
def pull_down(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the time the unit took to cool the loop with what its capacity should take."""
    volume, working = _volume(values, sheet)
    start, now = values["start_water_temperature"], values["water_in_temperature"]
    heat = _heat_capacity(volume, values, sheet, (start + now) / 2.0)
    capacity = sheet.cooling_capacity * values["sheet.cooling_capacity"]
    load = values["cooling_load"]
    if load >= 0.95 * capacity:
        raise ValueError(
            "the load is as large as the unit's capacity: it cannot cool the loop, however long it runs"
        )
    expected = loop.pull_down_time(heat, start, now, capacity, max(load, 0.0))
    return Comparison(
        expected,
        values["cooling_time"],
        (
            *working,
            Working("heat capacity of the loop", heat, Kind.HEAT_CAPACITY),
            Working("fallen by", start - now, Kind.TEMPERATURE_DIFFERENCE),
            Working("capacity less load", capacity - load, Kind.POWER),
            Working("time expected", expected, Kind.TIME),
        ),
        (
            "Holds with all compressors loaded. Warm water gives a unit more capacity, hot air less.",
            *glycol_remarks(sheet, values["glycol_fraction"]),
        ),
    )


@registered(
    id="bypass_leakage",
    title=say("Share of the water that goes past the load"),
    kind=Kind.RATIO,
    needs=(
        Need("water_out_temperature", Kind.TEMPERATURE, "water leaving the unit"),
        Need("water_in_temperature", Kind.TEMPERATURE, "water entering the unit"),
        Need("load_out_temperature", Kind.TEMPERATURE, "water leaving the load"),
    ),
    scale=0.10,
    sense=Sense.AT_MOST,
    formula="(leaving the load - entering the unit) / (leaving the load - leaving the unit); none when shut",
    source="Heat and mass balance of two streams that mix (ASHRAE Handbook, Fundamentals, adiabatic mixing).",
)
def bypass_leakage(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the share of water that goes past the load with none."""
    supply, back = values["water_out_temperature"], values["water_in_temperature"]
    load = values["load_out_temperature"]
    share = loop.bypass_share(supply, load, back)
    return Comparison(
        0.0,
        share,
        (
            Working(
                "water leaving the load less water entering the unit", load - back, Kind.TEMPERATURE_DIFFERENCE
            ),
            Working(
                "water leaving the load less water leaving the unit", load - supply, Kind.TEMPERATURE_DIFFERENCE
            ),
            Working("share that goes past", share, Kind.RATIO),
        ),
        ("Hose in the sun changes the water by tenths on the way; compare the thermometers in one bucket first.",),
    )


@registered(
    id="hose_run",
    title=say("Hose laid against the longest run at minimum flow"),
    kind=Kind.LENGTH,
    needs=(
        _LENGTH,
        _BORE,
        LOAD_DROP,
        LOOP_FITTINGS,
        BARREL_CURVE,
        BARREL_EXPONENT,
        PUMP_CURVE,
        MINIMUM_FLOW,
        GLYCOL,
        LEAVING,
    ),
    scale=100.0,
    sense=Sense.AT_MOST,
    formula="(pump's pressure at minimum flow - load, fittings, barrel, strainer) / friction of one metre of hose",
    source=(
        "The data sheet's curves; hose by Darcy-Weisbach with the Colebrook-White friction factor, fittings by "
        "K values (Crane TP-410)."
    ),
)
def hose_run(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the hose laid with the longest run of its bore that leaves the minimum flow."""
    what = liquid(sheet, values["water_out_temperature"], values["glycol_fraction"])
    flow = sheet.water.minimum_flow * values["sheet.minimum_flow"]
    curve = pump_curve(sheet)
    rise = what.density * fluid.GRAVITY * head_at(curve, values, flow)
    others = sum(drop(flow) for name, drop in loop_parts(sheet, values, what) if name != "hose")
    a_metre = hydronics.friction_drop(flow, 1.0, values["hose_bore"], what.density, what.kinematic_viscosity)
    longest = hydronics.longest_run(
        rise - others, flow, values["hose_bore"], what.density, what.kinematic_viscosity
    )
    remarks = glycol_remarks(sheet, values["glycol_fraction"])
    if longest < 0.0:
        remarks = (
            "The rest of the loop takes more than the pump has at minimum flow: no hose is short enough.",
            *remarks,
        )
    return Comparison(
        longest,
        values["hose_length"],
        (
            Working("minimum flow", flow, Kind.VOLUME_FLOW),
            Working("pump's pressure there", rise, Kind.PRESSURE_DIFFERENCE),
            Working("load, fittings, barrel and strainer", others, Kind.PRESSURE_DIFFERENCE),
            Working("friction of one metre of hose", a_metre, Kind.PRESSURE_DIFFERENCE),
            Working("longest run, supply and return together", longest, Kind.LENGTH),
        ),
        remarks,
    )


@registered(
    id="hose_speed",
    title=say("Water flow against the most its hose should carry"),
    kind=Kind.VOLUME_FLOW,
    needs=(
        _BORE,
        Need(
            "water_flow", Kind.VOLUME_FLOW, "water flow",
            default=lambda sheet: (sheet.water.design_flow, 0.1 * sheet.water.design_flow, "assumed"),
        ),
        # Between the 2.4 m/s kept for pipes and what hose is run at.
        Need("sheet.fastest_water", Kind.RATIO, "highest speed, over 3 m/s", default=default(1.0, 0.12)),
    ),
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="3 m/s (10 ft/s) x area of the hose",
    source="AS/NZS 3500.1:2003 as quoted in AIRAH's Industry Directory 2016, p. 191.",
)  # fmt: skip
def hose_speed(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the flow with what the hose carries at the highest speed."""
    bore, flow = values["hose_bore"], values["water_flow"]
    if flow <= 0.0:
        raise ValueError("no flow, no speed; read the flow with the pump running")
    speed = hydronics.velocity(flow, bore)
    most = FASTEST_WATER * values["sheet.fastest_water"] * flow / speed
    return Comparison(
        most,
        flow,
        (
            Working("speed, m/s", speed, Kind.NUMBER),
            Working("highest speed, m/s", FASTEST_WATER * values["sheet.fastest_water"], Kind.NUMBER),
            Working("flow at that speed", most, Kind.VOLUME_FLOW),
        ),
        ("Two hoses side by side carry twice as much; give the bore of one and half the flow.",),
    )

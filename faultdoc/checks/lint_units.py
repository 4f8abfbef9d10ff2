"""Looks for what a data sheet cannot be although it is well formed: slips of the pen, mostly.

One rule is one function: it takes a sheet and yields faults. The windows are wide: what a rule doubts
is wrong far more often than it is a rare unit. It stands here and not in the library, because
it reckons with the same physics as the checks.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import log, sqrt
from pathlib import Path

from faultdoc.checks.safeties import Trip, trip
from faultdoc.library.lint import LintWarning
from faultdoc.library.load import load_points, load_unit, unit_path, units
from faultdoc.library.problems import choose
from faultdoc.library.source import KeyPath, Source, read
from faultdoc.library.vocabulary import one_of_family
from faultdoc.model.points import FAMILIES, Point
from faultdoc.model.unit import Acts, CompressorType, DataSheet, Feature, Glycol, Safety
from faultdoc.physics import fluid, hydronics, motors, pump, refrigerant
from faultdoc.quantities import Kind, QuantityError, System, show

__all__ = ["RULES", "WATER_HEAT", "SheetFault", "lint_unit", "lint_units", "sheet_faults"]

TON = 3516.8528
"""W; 12,000 Btu/h."""

POWER_A_TON = (0.7, 2.2)
"""kW a ton that an air-cooled unit's compressors take at their rated currents; common practice, no source."""
MOTOR_POWER_FACTOR = 0.85
"""Of a loaded compressor motor; common practice, no source."""
FLOW_MATCH = (0.75, 1.33)
"""Heat that design flow and temperatures carry over the capacity; the rule of 24 and 500 makes it one."""
PUMP_EFFICIENCY = (0.15, 0.85)
"""Of an end-suction pump at its design flow; common practice, no source."""
PUMP_MOTOR = (0.5, 0.95)
"""Power factor x efficiency of a three-phase motor at its rating; common practice, no source."""
BARREL_EXPONENT = (1.5, 2.1)
"""Turbulent friction goes with flow to 1.8, nozzles and bends to 2; laminar flow to 1."""
LOCKED_ROTOR = (3.0, 12.0)
"""Times rated current; code letters A to M of NEC table 430.7(B) end at 3.14 to 11.19 kVA a horsepower."""
CONTROL_VOLTAGES = (24.0, 48.0, 110.0, 115.0, 120.0, 208.0, 220.0, 230.0, 240.0)
SUPPLY_VOLTAGES = (
    200.0, 208.0, 220.0, 230.0, 240.0, 380.0, 400.0, 415.0, 440.0, 460.0, 480.0, 575.0, 600.0, 690.0,
)  # fmt: skip
"""Nominal and utilisation voltages: ANSI C84.1, IEC 60038 (both from memory)."""
ONLY_60_HZ = (208.0, 460.0, 480.0, 575.0, 600.0)
CHARGE_A_TON = (0.3, 3.5)
"""kg a ton of an air-cooled chiller; common practice, no source."""
CONNECTION_SPEED = (0.4, 4.6)
"""m/s at design flow. ASHRAE Fundamentals allows 4.6 m/s (from memory)."""

WATER_HEAT = 4.19e6
"""J/(m³ K), within half a per cent from 0 to 60 °C."""


@dataclass(frozen=True)
class SheetFault:
    """Something in a data sheet that is likely a mistake: where, by which rule, what is wrong, what to do."""

    path: KeyPath
    rule: str
    what: str
    remedy: str


Rule = Callable[[DataSheet, Mapping[str, Point]], Iterator[SheetFault]]


def _says(value: float, kind: Kind) -> str:
    """Return a value in both systems of units, once where they are the same."""
    us, metric = (show(value, kind, system) for system in (System.US, System.SI))
    return us if us == metric else f"{us} ({metric})"


def _kw(power: float) -> str:
    """Return the power of a motor or pump in kilowatts."""
    return f"{power / 1000.0:.2g} kW"


def _outside(value: float, window: tuple[float, float]) -> str | None:
    """Return 'low' or 'high' for a value outside a window."""
    return "low" if value < window[0] else "high" if value > window[1] else None


# --- electrical ---


def power_a_ton(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield a capacity that the compressors' rated currents and the voltage do not fit."""
    amperes = sum(compressor.rated_current for compressor in sheet.compressors)
    power = sqrt(3.0) * sheet.electrical.voltage * amperes * MOTOR_POWER_FACTOR / 1000.0
    a_ton = power / (sheet.cooling_capacity / TON) if sheet.cooling_capacity else float("inf")
    if side := _outside(a_ton, POWER_A_TON):
        what = (
            f"{amperes:.1f} A of compressors at {sheet.electrical.voltage:.0f} V are about {power:.0f} kW for "
            f"{_says(sheet.cooling_capacity, Kind.POWER)}: {a_ton:.2g} kW a ton is too {side}, "
            f"as {POWER_A_TON[0]} to {POWER_A_TON[1]} is usual"
        )
        remedy = "check capacity, voltage and rated currents; is a current given for two compressors together?"
        yield SheetFault(("cooling_capacity",), "power-a-ton", what, remedy)


def currents(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield rated currents of nought, and locked-rotor currents that are no multiple of the rated one."""
    for index, compressor in enumerate(sheet.compressors):
        path: KeyPath = ("compressors", index)
        if compressor.rated_current == 0.0:
            yield SheetFault(
                (*path, "rated_current"), "current", "a rated current of 0 A", "read the nameplate again"
            )
        elif compressor.locked_rotor_current is not None:
            times = compressor.locked_rotor_current / compressor.rated_current
            if side := _outside(times, LOCKED_ROTOR):
                what = f"locked-rotor current is {times:.1f} times the rated one, which is too {side}"
                remedy = f"check both; {LOCKED_ROTOR[0]:.0f} to {LOCKED_ROTOR[1]:.0f} times is usual"
                yield SheetFault((*path, "locked_rotor_current"), "locked-rotor", what, remedy)


def voltages(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield supply and control voltages and frequencies that no supply has."""
    supply = sheet.electrical
    for name, value, usual in (
        ("voltage", supply.voltage, SUPPLY_VOLTAGES),
        ("control_voltage", supply.control_voltage, CONTROL_VOLTAGES),
    ):
        if min(abs(value / one - 1.0) for one in usual) > 0.02:
            what = f"{value:g} V is no usual {name.replace('_', ' ')}"
            near = sorted(one for _, one in sorted((abs(one - value), one) for one in usual)[:3])
            remedy = f"check the nameplate; {', '.join(f'{one:.0f} V' for one in near)} are the nearest"
            yield SheetFault(("electrical", name), name.replace("_", "-"), what, remedy)
    if min(abs(supply.frequency - one) for one in (50.0, 60.0)) > 0.5:
        what = f"{supply.frequency:g} Hz is no supply's frequency"
        yield SheetFault(("electrical", "frequency"), "frequency", what, "write 50 Hz or 60 Hz")
    elif supply.frequency < 55.0 and any(abs(supply.voltage / one - 1.0) < 0.005 for one in ONLY_60_HZ):
        what = f"{supply.voltage:g} V is found at 60 Hz, and the sheet says {supply.frequency:g} Hz"
        yield SheetFault(("electrical", "frequency"), "frequency", what, "check both on the nameplate")
    if not 0.02 <= supply.voltage_tolerance <= 0.2:
        what = f"a tolerance of {100 * supply.voltage_tolerance:g} % of the voltage"
        yield SheetFault(("electrical", "voltage_tolerance"), "voltage", what, "10 % is usual (NEMA MG 1, 12.44)")


def _others(sheet: DataSheet) -> list[float]:
    """Return the rated currents of pump and fans as far as the sheet gives them, A."""
    found = [fan.rated_current for fan in sheet.fans for _ in range(fan.count) if fan.rated_current is not None]
    return found if sheet.water.pump is None else [*found, sheet.water.pump.rated_current]


def circuit_sizes(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield an ampacity or a protection that NEC 440 does not lead to from the currents on the sheet."""
    supply = sheet.electrical
    compressors = [compressor.rated_current for compressor in sheet.compressors]
    others = _others(sheet)
    least = motors.minimum_ampacity(compressors, others)
    ampacity, protection = supply.minimum_circuit_ampacity, supply.maximum_protection
    known = "compressors" + (", pump and fans" if others else "")
    if ampacity is not None:
        # The nameplate is rounded; what lies above is control, heaters and whatever the sheet leaves out.
        if ampacity < 0.99 * least - 0.5:
            what = f"{ampacity:.0f} A is less than the {least:.0f} A that the {known} come to (NEC 440.33)"
            remedy = "check the currents and the ampacity; are all compressors on this supply?"
            yield SheetFault(("electrical", "minimum_circuit_ampacity"), "ampacity", what, remedy)
        elif ampacity > 1.35 * least + 5.0:
            what = f"{ampacity:.0f} A is far above the {least:.0f} A that the {known} come to (NEC 440.33)"
            remedy = "check the currents and the ampacity; add what else the supply feeds, such as fans"
            yield SheetFault(("electrical", "minimum_circuit_ampacity"), "ampacity", what, remedy)
    if protection is None:
        return
    path: KeyPath = ("electrical", "maximum_protection")
    rest = 0.0 if ampacity is None else max(ampacity - least, 0.0)
    ceiling = motors.protection_ceiling(compressors, [*others, rest])
    if ampacity is not None and protection < 0.99 * ampacity:
        what = f"{protection:.0f} A of protection is below the ampacity of {ampacity:.0f} A"
        yield SheetFault(path, "protection", what, "exchange or correct the two")
    elif protection > 1.02 * ceiling + 0.5 and (ampacity is not None or protection > 1.35 * ceiling):
        what = f"{protection:.0f} A is above the {ceiling:.0f} A that NEC 440.22(B) allows for these currents"
        yield SheetFault(path, "protection", what, "check the protection and the currents")
    if all(abs(protection - one) > 0.5 for one in motors.STANDARD_RATINGS) and supply.frequency > 55.0:
        what = f"{protection:g} A is no standard rating of fuse or breaker (NEC 240.6)"
        yield SheetFault(path, "protection", what, "check it; the next one down is what a nameplate gives")


def circuits(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield circuits with a gap in their letters, fans of none, and the same fans twice."""
    have = sorted({compressor.circuit for compressor in sheet.compressors})
    wanted = list(FAMILIES["circuit"][: len(have)])
    if have != wanted:
        what = f"the circuits are {', '.join(have)}"
        yield SheetFault(("compressors",), "circuits", what, f"name them {', '.join(wanted)}, without a gap")
    for index, fan in enumerate(sheet.fans):
        if fan.circuit not in have:
            what = f"fans of circuit {fan.circuit}, which has no compressor"
            yield SheetFault(("fans", index, "circuit"), "circuits", what, f"write one of {', '.join(have)}")
        if fan in sheet.fans[:index]:
            what = f"the same fans of circuit {fan.circuit} are listed twice"
            yield SheetFault(("fans", index), "circuits", what, "take one out, or add the counts")
    without = [one for one in have if sheet.fans and one not in {fan.circuit for fan in sheet.fans}]
    if without:
        what = f"no fans on circuit {', '.join(without)}, though others have them"
        yield SheetFault(("fans",), "circuits", what, "add them")


def compressors(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield unloading steps that are no part loads, or that this kind of compressor does not have."""
    for index, compressor in enumerate(sheet.compressors):
        path: KeyPath = ("compressors", index, "unloading_steps")
        steps = compressor.unloading_steps
        if any(not 0.0 < step < 1.0 for step in steps) or list(steps) != sorted(set(steps)):
            remedy = (
                "give each part load once, the smallest first, such as [25 %, 50 %, 75 %]; leave full load out"
            )
            yield SheetFault(path, "unloading", "unloading steps that are not rising part loads", remedy)
        elif steps and compressor.type is CompressorType.ROTARY:
            what = "a rotary compressor of fixed speed does not unload in steps"
            yield SheetFault(path, "unloading", what, "take the steps out, or correct the type")


def refrigerants(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield a refrigerant whose properties are not known, and a charge that does not fit the capacity."""
    try:
        refrigerant.canonical(sheet.refrigerant)
    except ValueError as unknown:
        remedy = choose(sheet.refrigerant, refrigerant.NAMES, otherwise="checks of refrigerant are not possible")
        yield SheetFault(("refrigerant",), "refrigerant", str(unknown).partition(";")[0], remedy)
    charge = sheet.refrigerant_side.charge
    if charge is not None and sheet.cooling_capacity > 0.0:
        count = len({compressor.circuit for compressor in sheet.compressors})
        a_ton = charge * count / (sheet.cooling_capacity / TON)
        if side := _outside(a_ton, CHARGE_A_TON):
            what = f"{_says(charge, Kind.MASS)} in each of {count} circuits is {a_ton:.2g} kg a ton, too {side}"
            remedy = "give the charge of one circuit, and check its unit"
            yield SheetFault(("refrigerant_side", "charge"), "charge", what, remedy)


# --- water ---


def flow_and_capacity(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield a design flow that does not carry the capacity at the design temperatures."""
    water, capacity = sheet.water, sheet.cooling_capacity
    carried = water.design_flow * WATER_HEAT * (water.design_entering - water.design_leaving)
    match = carried / capacity if capacity else float("inf")
    if side := _outside(match, FLOW_MATCH):
        right = capacity / (WATER_HEAT * (water.design_entering - water.design_leaving))
        what = (
            f"{_says(water.design_flow, Kind.VOLUME_FLOW)} is too {side}: at the design temperatures it carries "
            f"{_says(carried, Kind.POWER)}, and the capacity is {_says(capacity, Kind.POWER)}"
        )
        fits = _says(right, Kind.VOLUME_FLOW)
        remedy = f"check flow, temperatures and capacity; {fits} would fit (gpm a ton is 24 over °F)"
        yield SheetFault(("water", "design_flow"), "flow-and-capacity", what, remedy)
    speed = hydronics.velocity(water.design_flow, water.connection_bore)
    if side := _outside(speed, CONNECTION_SPEED):
        what = f"design flow runs at {speed:.1f} m/s through the connection, which is too {side}"
        remedy = "check the bore (the inside) and the flow"
        yield SheetFault(("water", "connection_bore"), "connection", what, remedy)


def pump_and_motor(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield a pump whose motor, current and curve do not belong to one another."""
    data = sheet.water.pump
    if data is None:
        return
    path: KeyPath = ("water", "pump")
    for index, point in enumerate(data.points):
        carried = hydronics.hydraulic_power(point.flow, point.head, 1000.0)
        shaft = data.rated_power if point.shaft_power is None else point.shaft_power
        at: KeyPath = (*path, "points", index)
        if carried > PUMP_EFFICIENCY[1] * shaft:
            what = (
                f"{_says(point.flow, Kind.VOLUME_FLOW)} at a head of {_says(point.head, Kind.LENGTH)} carry "
                f"{_kw(carried)}, more than {_kw(shaft)} on the shaft can give"
            )
            yield SheetFault(at, "pump-power", what, "check flow, head and power of the point")
        if point.shaft_power is not None and point.shaft_power > 1.15 * data.rated_power:
            what = f"{_kw(point.shaft_power)} on the shaft of a motor of {_kw(data.rated_power)}"
            remedy = "check both; 1.15 times the rating is the usual service factor (NEMA MG 1)"
            yield SheetFault(at, "pump-power", what, remedy)
    curve = pump.PumpCurve(tuple(one.flow for one in data.points), tuple(one.head for one in data.points))
    head = max(pump.head_at(curve, sheet.water.design_flow), 0.0)
    carried = hydronics.hydraulic_power(sheet.water.design_flow, head, 1000.0)
    if carried < PUMP_EFFICIENCY[0] * data.rated_power:
        what = f"at design flow the water carries {_kw(carried)} away, and the motor has {_kw(data.rated_power)}"
        remedy = "check the curve's units and the motor's power"
        yield SheetFault((*path, "rated_power"), "pump-power", what, remedy)
    if data.rated_current > 0.0:
        both = data.rated_power / (sqrt(3.0) * sheet.electrical.voltage * data.rated_current)
        if side := _outside(both, PUMP_MOTOR):
            what = (
                f"{data.rated_current:g} A at {sheet.electrical.voltage:.0f} V for {_kw(data.rated_power)} at the "
                f"shaft makes power factor times efficiency {both:.2f}, too {side}"
            )
            yield SheetFault((*path, "rated_current"), "pump-current", what, "check current, power and voltage")


def barrel_curve(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield stretches of the barrel's curve that no barrel has."""
    found = sheet.water.barrel.points
    for index, (low, high) in enumerate(pairwise(found)):
        exponent = log(high.drop / low.drop) / log(high.flow / low.flow)
        if _outside(exponent, BARREL_EXPONENT):
            what = f"between these two points the drop goes with flow to {exponent:.2f}"
            remedy = f"check both; {BARREL_EXPONENT[0]} to {BARREL_EXPONENT[1]} is possible, 1.8 to 1.95 usual"
            yield SheetFault(("water", "barrel", "points", index + 1), "barrel-exponent", what, remedy)
    if not 0.2 * sheet.water.design_flow < found[-1].flow < 5.0 * sheet.water.design_flow:
        what = f"the last point is at {_says(found[-1].flow, Kind.VOLUME_FLOW)}, far from design flow"
        yield SheetFault(
            ("water", "barrel", "points", len(found) - 1), "barrel-curve", what, "check the unit of flow"
        )


def flow_proving(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield a flow switch that breaks above where it makes, or makes where no unit could run."""
    proving, path = sheet.water.flow_proving, ("water", "flow_proving")
    for makes, breaks, name in (
        (proving.makes_at_drop, proving.breaks_at_drop, "drop"),
        (proving.makes_at_flow, proving.breaks_at_flow, "flow"),
    ):
        if makes is not None and breaks is not None and breaks > makes:
            what = f"it breaks at a higher {name} than it makes at"
            yield SheetFault((*path, f"breaks_at_{name}"), "flow-proving", what, "exchange the two")
    if proving.makes_at_flow is not None and proving.makes_at_flow >= sheet.water.design_flow:
        what = "the switch makes at design flow or above"
        remedy = "check it; it must make below design flow"
        yield SheetFault((*path, "makes_at_flow"), "flow-proving", what, remedy)


def water_pressures(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield a relief valve that the pump alone would lift, and a gauge that ends below it."""
    water = sheet.water
    if water.gauge_top < water.relief_pressure:
        what = "the gauges end below the relief valve's setting"
        yield SheetFault(("water", "gauge_top"), "relief", what, "check both")
    if water.pump is not None:
        dead = 1000.0 * fluid.GRAVITY * water.pump.points[0].head
        if water.relief_pressure < dead:
            made = _says(dead, Kind.PRESSURE_DIFFERENCE)
            what = f"the pump makes {made} against a shut valve, and would lift it"
            yield SheetFault(("water", "relief_pressure"), "relief", what, "check the setting and the pump's head")


def water_temperatures(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield leaving temperatures that would freeze what is in the loop."""
    water = sheet.water
    if water.lowest_leaving_without_antifreeze < 273.15 + 1.5:
        lowest = _says(water.lowest_leaving_without_antifreeze, Kind.TEMPERATURE)
        what = f"{lowest} without antifreeze freezes a barrel"
        remedy = "check it; 40 °F (4.4 °C) is usual"
        yield SheetFault(("water", "lowest_leaving_without_antifreeze"), "freezing", what, remedy)
    freezing = usual_freezing(sheet)
    if water.design_leaving < freezing + 2.0:
        what = (
            f"design leaving water of {_says(water.design_leaving, Kind.TEMPERATURE)}, and the usual mix "
            f"freezes at {_says(freezing, Kind.TEMPERATURE)}"
        )
        remedy = "check it, or give usual_glycol and its fraction"
        yield SheetFault(("water", "design_leaving"), "freezing", what, remedy)
    if water.usual_glycol is Glycol.NONE and water.usual_glycol_fraction:
        what = "a fraction of glycol, and no glycol"
        yield SheetFault(("water", "usual_glycol_fraction"), "glycol", what, "write which in usual_glycol")


def usual_freezing(sheet: DataSheet) -> float:
    """Return the freezing point (K) of the mix the sheet calls usual; of plain water where it gives none."""
    fraction = sheet.water.usual_glycol_fraction or 0.0
    if sheet.water.usual_glycol is Glycol.NONE or not 0.0 < fraction <= fluid.MOST_GLYCOL:
        return fluid.freezing_point()
    which: fluid.GlycolKind = "ethylene" if sheet.water.usual_glycol is Glycol.ETHYLENE else "propylene"
    return fluid.freezing_point(which, fraction)


# --- times and safeties ---


def timers(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield timers of a length that no unit has."""
    proving = sheet.water.flow_proving
    of_proving = ("water", "flow_proving")
    rows: tuple[tuple[KeyPath, float, tuple[float, float], str], ...] = (
        (("oil_warm_up",), sheet.oil_warm_up, (1800.0, 172_800.0), "8 to 24 h"),
        (("anti_recycle",), sheet.anti_recycle, (30.0, 3600.0), "3 to 20 min"),
        ((*of_proving, "start_allowance"), proving.start_allowance, (2.0, 600.0), "10 s to 2 min"),
        ((*of_proving, "trip_delay"), proving.trip_delay, (0.0, 60.0), "1 to 10 s"),
    )
    for path, value, window, usual in rows:
        if side := _outside(value, window):
            what = f"{_says(value, Kind.TIME)} is too {side}"
            yield SheetFault(path, "timer", what, f"check its unit; {usual} is usual")
    starts = sheet.starts_per_hour
    if starts is not None and starts * sheet.anti_recycle > 3600.0:
        what = f"{starts} starts an hour do not fit between stops of {_says(sheet.anti_recycle, Kind.TIME)}"
        yield SheetFault(("starts_per_hour",), "timer", what, "check both")


def safeties(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield safeties at no point, with settings of another kind, or that reset on the wrong side of their trip."""
    ids = Counter(safety.id for safety in sheet.safeties)
    for index, safety in enumerate(sheet.safeties):
        path: KeyPath = ("safeties", index)
        if ids[safety.id] > 1:
            yield SheetFault(
                (*path, "id"), "safety", f"the id '{safety.id}' {ids[safety.id]} times", "give each its own"
            )
        point = points.get(one_of_family(safety.point))
        if point is None or point.kind is Kind.CHOICE:
            remedy = choose(
                one_of_family(safety.point), points, otherwise="take its name from resources/points.yaml"
            )
            yield SheetFault((*path, "point"), "safety", f"no measuring point '{safety.point}'", remedy)
            continue
        try:
            setting = trip(safety, point.kind)
        except QuantityError as wrong:
            yield SheetFault(path, "safety", str(wrong), f"write settings of the kind {point.kind.value}")
            continue
        yield from _order(path, safety, setting, point.kind)
        yield from _against_design(path, sheet, safety, setting, point)


def _order(path: KeyPath, safety: Safety, setting: Trip, kind: Kind) -> Iterator[SheetFault]:
    above = safety.acts is Acts.ABOVE
    if setting.tolerance <= 0.0:
        yield SheetFault(
            (*path, "tolerance"), "safety", "a tolerance of nothing", "write the device's, either way"
        )
    if setting.resets_at is None:
        return
    right_side = setting.resets_at < setting.at if above else setting.resets_at > setting.at
    if not right_side:
        what = f"it acts {safety.acts} {safety.trips_at}, and at {safety.resets_at} it would act still"
        remedy = f"a safety that acts {safety.acts} resets {'below' if above else 'above'} its setting"
        yield SheetFault((*path, "resets_at"), "safety-order", what, remedy)
    elif abs(setting.resets_at - setting.at) < setting.tolerance:
        what = "it resets within its own tolerance, and would chatter"
        yield SheetFault((*path, "resets_at"), "safety-order", what, "check setting, reset and tolerance")


def _against_design(
    path: KeyPath, sheet: DataSheet, safety: Safety, setting: Trip, point: Point
) -> Iterator[SheetFault]:
    below = safety.acts is Acts.BELOW
    freezing, leaving = usual_freezing(sheet), sheet.water.design_leaving
    freezes, leaves = _says(freezing, Kind.TEMPERATURE), _says(leaving, Kind.TEMPERATURE)

    def fault(rule: str, what: str, remedy: str) -> SheetFault:
        return SheetFault((*path, "trips_at"), rule, what, remedy)

    if point.id == "water_out_temperature" and below:
        if setting.at - setting.tolerance <= freezing:
            late = _says(setting.at - setting.tolerance, Kind.TEMPERATURE)
            what = f"a freeze safety that may act as late as {late}, and the usual mix freezes at {freezes}"
            yield fault("safety-freeze", what, "set it above the freezing point by more than its tolerance")
        if setting.at >= leaving:
            what = f"it acts below {safety.trips_at}, and water leaves at {leaves}"
            yield fault("safety-order", what, "set it below design leaving water")
    if point.id.startswith(("suction_pressure", "discharge_pressure")):
        remedy = "check pressure, unit and refrigerant"
        try:
            saturated = float(refrigerant.dew_temperature(sheet.refrigerant, setting.at + 101_325.0))
        except ValueError:
            return  # an unknown refrigerant is told elsewhere
        there = _says(saturated, Kind.TEMPERATURE)
        if point.id.startswith("suction") and below:
            if saturated >= leaving:
                what = f"it acts where the refrigerant boils at {there}, warmer than water leaves"
                yield fault("safety-order", what, remedy)
            elif saturated < freezing - 15.0:
                what = f"it acts where the refrigerant boils at {there}, and the usual mix freezes at {freezes}"
                yield fault("safety-freeze", what, remedy)
        if point.id.startswith("discharge") and not below:
            design = sheet.rating_ambient + (sheet.refrigerant_side.condenser_split or 10.0)
            if saturated <= design:
                what = f"it acts where the refrigerant condenses at {there}, as it does at the rating ambient"
                yield fault("safety-order", what, remedy)
    if point.id.startswith("voltage_l1_l2"):
        beside = setting.at / sheet.electrical.voltage
        if not (0.7 <= beside < 1.0 if below else 1.0 < beside <= 1.3):
            what = f"it acts {safety.acts} {safety.trips_at}; the nameplate says {sheet.electrical.voltage:g} V"
            yield fault("safety-order", what, "check the setting and on which side it acts")


def features(sheet: DataSheet, points: Mapping[str, Point]) -> Iterator[SheetFault]:
    """Yield features named twice, and a flow switch of both kinds."""
    for name, count in Counter(sheet.features).items():
        if count > 1:
            yield SheetFault(("features",), "features", f"'{name}' {count} times", "name it once")
    if {Feature.DIFFERENTIAL_FLOW_SWITCH, Feature.PADDLE_FLOW_SWITCH} <= set(sheet.features):
        what = "a flow switch by difference and by paddle both"
        yield SheetFault(("features",), "features", what, "name the one that stops the unit")


RULES: tuple[Rule, ...] = (
    power_a_ton,
    currents,
    voltages,
    circuit_sizes,
    circuits,
    compressors,
    refrigerants,
    flow_and_capacity,
    pump_and_motor,
    barrel_curve,
    flow_proving,
    water_pressures,
    water_temperatures,
    timers,
    safeties,
    features,
)


def sheet_faults(sheet: DataSheet, points: Mapping[str, Point] | None = None) -> list[SheetFault]:
    """Return what every rule has to say of a data sheet, rule by rule.

    Args:
        sheet: the unit's.
        points: the vocabulary by id; FaultDoc's own when left out.
    """
    known = load_points() if points is None else points
    return [fault for rule in RULES for fault in rule(sheet, known)]


def lint_unit(
    sheet: DataSheet, source: Source | None = None, points: Mapping[str, Point] | None = None
) -> list[LintWarning]:
    """Return what is likely wrong with a data sheet, in the order of its lines.

    Args:
        sheet: the unit's.
        source: its file as read, for lines; without it they are 0.
        points: the vocabulary by id; FaultDoc's own when left out.

    >>> lint_unit(load_unit("bluff_30"))
    []
    """
    place = Source(sheet.id, {}, {}, {}) if source is None else source
    return sorted(
        LintWarning(
            place.file,
            0 if source is None else source.place(fault.path)[0],
            place.key(fault.path),
            fault.rule,
            fault.what,
            fault.remedy,
        )
        for fault in sheet_faults(sheet, points)
    )


def lint_units(ids_or_paths: Iterable[str | Path] | None = None) -> list[LintWarning]:
    """Return what is likely wrong with data sheets, in the order of files and lines.

    Args:
        ids_or_paths: which; FaultDoc's own when left out.

    Raises:
        FileProblems: when one cannot be read.
    """
    points = load_points()
    found: list[LintWarning] = []
    for one in units() if ids_or_paths is None else ids_or_paths:
        sheet = load_unit(one)
        path = unit_path(one)
        found += lint_unit(sheet, None if path is None else read(path), points)
    return sorted(found)

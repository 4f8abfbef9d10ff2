"""Barrel and pump on their curves, with what was measured and how sure it is.

Bars and bands are wide enough to hold about 95 % (two standard uncertainties, `checks.base.COVERAGE`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot, sqrt

import numpy as np

from faultdoc.checks.all import usual_limit_from
from faultdoc.checks.base import COVERAGE, reading_uncertainty
from faultdoc.checks.inputs import (
    BARREL_EXPONENT,
    HOSE_BORE,
    HOSE_LENGTH,
    LOAD_DROP,
    LOOP_FITTINGS,
    barrel_curve,
    liquid,
    loop_parts,
    pump_curve,
    usual_glycol,
    working_flow,
)
from faultdoc.model.base import Measured
from faultdoc.model.points import Point as MeasuringPoint
from faultdoc.model.unit import DataSheet
from faultdoc.physics import barrel, fluid, pump
from faultdoc.quantities import Kind, System, show
from faultdoc.record.pictures.axes import Frame, scale
from faultdoc.record.pictures.shapes import Disc, Line, Picture, Point, Role, Shape, Words, box
from faultdoc.words import say

__all__ = ["barrel_picture", "pump_picture"]

WIDTH, HEIGHT = 760.0, 520.0
_STEPS = 60
_ASSUMED = (HOSE_LENGTH, HOSE_BORE, LOAD_DROP, LOOP_FITTINGS, BARREL_EXPONENT)


@dataclass(frozen=True)
class _Value:
    """A value with its expanded uncertainty, SI; `taken` says from where."""

    value: float
    spread: float
    taken: str


def barrel_picture(
    sheet: DataSheet, readings: Mapping[str, Measured], points: Mapping[str, MeasuringPoint], system: System
) -> Picture:
    """Return the barrel's pressure drop over flow: the curve with its band, and what was measured.

    Args:
        sheet: the unit's.
        readings: numbers, by point.
        points: the vocabulary, for the limits of error of usual instruments.
        system: the reader's units.
    """
    what = _water(sheet, readings)
    curve = barrel_curve(sheet)
    drop, flow = _drop(readings, points), _one("water_flow", readings, points)
    design = sheet.water.design_flow
    most = max(1.35 * design, flow.value + flow.spread if flow else 0.0)
    if drop is not None and drop.value > 0.0:
        most = max(most, 1.1 * float(barrel.flow_from_drop(curve, drop.value, what)))
    flows = np.linspace(0.0, most, _STEPS)
    drops = np.asarray(barrel.drop_at_flow(curve, flows, what))
    sure = COVERAGE * sheet.water.barrel.uncertainty / sqrt(3.0)
    highest = float(drops[-1]) * (1.0 + sure)
    across = scale(say("Water flow"), [0.0, most], Kind.VOLUME_FLOW, system, from_zero=True)
    up = scale(say("Pressure drop"), [0.0, highest], Kind.PRESSURE_DIFFERENCE, system, from_zero=True)
    frame = Frame(86.0, 44.0, WIDTH - 16.0, HEIGHT - 62.0, across, up)
    title = say("Barrel: pressure drop and flow")
    drawn: list[Shape] = [Words((16.0, 18.0), title, 15.0, bold=True), *frame.shapes()]
    drawn += _band(frame, flows, drops * (1.0 - sure), drops * (1.0 + sure))
    drawn += frame.curve(_pairs(flows, drops), Role.GOOD, 2.5)
    expected = float(barrel.drop_at_flow(curve, design, what))
    drawn += _cross(frame, design, expected, "design")
    said = say("At design flow, {show}, the drop should be ", show=show(design, Kind.VOLUME_FLOW, system))
    said += f"{show(expected, Kind.PRESSURE_DIFFERENCE, system)}."
    if drop is not None and flow is not None:
        drawn += _measured(frame, flow, drop)
        wanted = float(barrel.drop_at_flow(curve, flow.value, what))
        said += say(
            " Measured: {told} at {told_2}, where the curve has {show}.",
            told=_told(drop, Kind.PRESSURE_DIFFERENCE, system),
            told_2=_told(flow, Kind.VOLUME_FLOW, system),
            show=show(wanted, Kind.PRESSURE_DIFFERENCE, system),
        )
    elif drop is not None:
        read = max(float(barrel.flow_from_drop(curve, drop.value, what)), 0.0)
        drawn += _led(frame, [(across.least, drop.value), (read, drop.value), (read, up.least)])
        said += say(
            " A drop of {told} stands for {show}.",
            told=_told(drop, Kind.PRESSURE_DIFFERENCE, system),
            show=show(read, Kind.VOLUME_FLOW, system),
        )
    elif flow is not None:
        wanted = float(barrel.drop_at_flow(curve, flow.value, what))
        drawn += _led(frame, [(flow.value, up.least), (flow.value, wanted), (across.least, wanted)])
        said += say(" At {told} it should be ", told=_told(flow, Kind.VOLUME_FLOW, system))
        said += f"{show(wanted, Kind.PRESSURE_DIFFERENCE, system)}."
    else:
        said += say(" Neither the drop nor the flow has been read yet.")
    drawn += _key(
        frame, ((say("the data sheet's curve, for this water"), Role.GOOD, 2.5, ()),), measured=drop is not None
    )
    return Picture(title, said, WIDTH, HEIGHT, tuple(drawn))


def pump_picture(
    sheet: DataSheet, readings: Mapping[str, Measured], points: Mapping[str, MeasuringPoint], system: System
) -> Picture | None:
    """Return the pump's head over flow against a healthy loop, with what was measured; None without an own pump.

    The flow is the meter's, else that which the barrel's drop stands for. Arguments as for `barrel_picture`.
    """
    if sheet.water.pump is None:
        return None
    what, curve = _water(sheet, readings), pump_curve(sheet)
    values = {need.name: need.default(sheet)[0] for need in _ASSUMED if need.default and need.default(sheet)}  # type: ignore[index]
    values |= {point: one.value for point, one in readings.items() if point in values}
    values |= {"sheet.barrel_curve": 1.0, "sheet.pump_curve": 1.0}
    weight = what.density * fluid.GRAVITY
    parts = [drop for _, drop in loop_parts(sheet, values, what)]
    rise = _rise(readings, points)
    flow = _one("water_flow", readings, points) or _off_barrel(sheet, readings, points, what)
    most = max(pump.run_out(curve), flow.value + flow.spread if flow else 0.0)
    flows = np.linspace(0.0, most, _STEPS)
    heads = np.array([pump.head_at(curve, float(one)) for one in flows])
    loop = np.array([sum(drop(float(one)) for drop in parts) / weight for one in flows])
    sure = COVERAGE * sheet.water.pump.uncertainty / sqrt(3.0) * pump.shut_off_head(curve)
    top = max(float(heads.max()) + sure, rise.value / weight if rise else 0.0)
    across = scale(say("Water flow"), [0.0, most], Kind.VOLUME_FLOW, system, from_zero=True)
    up = scale(say("Head"), [0.0, top], Kind.LENGTH, system, from_zero=True)
    frame = Frame(86.0, 44.0, WIDTH - 16.0, HEIGHT - 62.0, across, up)
    title = say("Pump: head and flow")
    drawn: list[Shape] = [Words((16.0, 18.0), title, 15.0, bold=True), *frame.shapes()]
    drawn += _band(frame, flows, heads - sure, heads + sure)
    drawn += frame.curve(_pairs(flows, heads), Role.GOOD, 2.5)
    drawn += frame.curve(_pairs(flows, loop), Role.WATER, 2.0, (8.0, 5.0))
    meet = working_flow(sheet, values, what)
    at = pump.head_at(curve, meet)
    drawn += _cross(frame, meet, at, say("healthy loop"))
    said = say(
        "A healthy loop meets the pump's curve at {show} and a head of {show_2}.",
        show=show(meet, Kind.VOLUME_FLOW, system),
        show_2=show(at, Kind.LENGTH, system),
    )
    if rise is not None and flow is not None:
        head = _Value(rise.value / weight, rise.spread / weight, rise.taken)
        drawn += _measured(frame, flow, head)
        said += say(
            " Measured: a head of {told} at {told_2}, {taken}.",
            told=_told(head, Kind.LENGTH, system),
            told_2=_told(flow, Kind.VOLUME_FLOW, system),
            taken=flow.taken,
        )
    elif rise is not None:
        head_now = rise.value / weight
        read = pump.flow_at_head(curve, max(head_now, 0.0))
        drawn += _led(frame, [(across.least, head_now), (read, head_now), (read, up.least)])
        said += say(
            " A head of {show} stands for {show_2} on this curve, if the pump is sound.",
            show=show(head_now, Kind.LENGTH, system),
            show_2=show(read, Kind.VOLUME_FLOW, system),
        )
    else:
        said += say(" The pump's pressures have not been read yet.")
    key = (
        (say("the pump's curve"), Role.GOOD, 2.5, ()),
        (say("what a healthy loop takes"), Role.WATER, 2.0, (8.0, 5.0)),
    )
    drawn += _key(frame, key, measured=rise is not None and flow is not None, right=True)
    return Picture(title, said, WIDTH, HEIGHT, tuple(drawn))


def _water(sheet: DataSheet, readings: Mapping[str, Measured]) -> barrel.Fluid:
    glycol = readings["glycol_fraction"].value if "glycol_fraction" in readings else usual_glycol(sheet)[0]
    leaving = readings.get("water_out_temperature")
    return liquid(sheet, leaving.value if leaving else sheet.water.design_leaving, glycol)


def _one(point: str, readings: Mapping[str, Measured], points: Mapping[str, MeasuringPoint]) -> _Value | None:
    reading = readings.get(point)
    if reading is None:
        return None
    return _Value(
        reading.value,
        COVERAGE * reading_uncertainty(point, reading, usual_limit_from(points)),
        say("by the meter"),
    )


def _less(
    high: str, low: str, readings: Mapping[str, Measured], points: Mapping[str, MeasuringPoint]
) -> _Value | None:
    first, second = _one(high, readings, points), _one(low, readings, points)
    if first is None or second is None:
        return None
    return _Value(first.value - second.value, hypot(first.spread, second.spread), say("by two gauges"))


def _drop(readings: Mapping[str, Measured], points: Mapping[str, MeasuringPoint]) -> _Value | None:
    return _one("barrel_pressure_drop", readings, points) or _less(
        "barrel_in_pressure", "barrel_out_pressure", readings, points
    )


def _rise(readings: Mapping[str, Measured], points: Mapping[str, MeasuringPoint]) -> _Value | None:
    return _less("pump_out_pressure", "pump_in_pressure", readings, points)


def _off_barrel(
    sheet: DataSheet,
    readings: Mapping[str, Measured],
    points: Mapping[str, MeasuringPoint],
    what: barrel.Fluid,
) -> _Value | None:
    """Return the flow that the barrel's drop stands for, the curve's and the gauges' errors taken together."""
    drop, curve = _drop(readings, points), barrel_curve(sheet)
    if drop is None or drop.value <= 0.0:
        return None
    flow = float(barrel.flow_from_drop(curve, drop.value, what))
    power = barrel.exponent_at_flow(curve, flow, what)
    of_curve = COVERAGE * sheet.water.barrel.uncertainty / sqrt(3.0)
    return _Value(
        flow, flow * hypot(drop.spread / drop.value, of_curve) / power, say("read off the barrel's drop")
    )


def _pairs(xs: Sequence[float] | np.ndarray, ys: Sequence[float] | np.ndarray) -> list[Point]:
    return [(float(x), float(y)) for x, y in zip(xs, ys, strict=True)]


def _band(frame: Frame, xs: np.ndarray, low: np.ndarray, high: np.ndarray) -> list[Shape]:
    """Return the area between two curves, cut at the bottom of the frame."""
    floor = frame.up.least
    there = _pairs(xs, np.clip(high, floor, frame.up.most))
    back = _pairs(xs, np.clip(low, floor, frame.up.most))[::-1]
    return [Line(tuple(frame.at(x, y) for x, y in (*there, *back)), None, closed=True, fill=Role.GOOD_PALE)]


def _cross(frame: Frame, x: float, y: float, name: str) -> list[Shape]:
    at = frame.at(x, y)
    return [
        Line(((at[0] - 6.0, at[1] - 6.0), (at[0] + 6.0, at[1] + 6.0)), Role.INK, 2.0),
        Line(((at[0] - 6.0, at[1] + 6.0), (at[0] + 6.0, at[1] - 6.0)), Role.INK, 2.0),
        Words((at[0] + 11.0, at[1] + 12.0), name, 12.0),
    ]


def _measured(frame: Frame, x: _Value, y: _Value) -> list[Shape]:
    """Return a measured point with its bars; what lies outside the frame is cut at its edge."""
    drawn: list[Shape] = []
    drawn += frame.curve([(x.value - x.spread, y.value), (x.value + x.spread, y.value)], Role.STRONG, 2.5)
    drawn += frame.curve([(x.value, y.value - y.spread), (x.value, y.value + y.spread)], Role.STRONG, 2.5)
    at = frame.at(x.value, y.value)
    if frame.has(at):
        drawn.append(Disc(at, 6.0, Role.STRONG, 2.0, Role.STRONG))
        drawn.append(Words((at[0] + 12.0, at[1] - 12.0), "measured", 12.0, role=Role.STRONG, bold=True))
    return drawn


def _led(frame: Frame, way: Sequence[Point]) -> list[Shape]:
    drawn: list[Shape] = list(frame.curve(way, Role.STRONG, 2.5, (2.0, 4.0)))
    drawn.append(Disc(frame.at(*way[1]), 6.0, Role.STRONG, 2.0, Role.PAPER))
    return drawn


def _key(
    frame: Frame,
    entries: Sequence[tuple[str, Role, float, tuple[float, ...]]],
    *,
    measured: bool,
    right: bool = False,
) -> list[Shape]:
    x, y = (frame.right - 250.0, frame.bottom - 76.0) if right else (frame.left + 12.0, frame.top + 16.0)
    drawn: list[Shape] = []
    for words, role, width, dash in entries:
        drawn += [Line(((x, y), (x + 34.0, y)), role, width, dash), Words((x + 42.0, y), words, 12.0)]
        y += 20.0
    drawn += [
        box(x, y - 5.0, x + 34.0, y + 5.0, role=None, fill=Role.GOOD_PALE),
        Words((x + 42.0, y), say("where it lies, 95 times of 100"), 12.0),
    ]  # fmt: skip
    if measured:
        y += 20.0
        drawn += [
            Line(((x, y), (x + 34.0, y)), Role.STRONG, 2.5),
            Disc((x + 17.0, y), 5.0, Role.STRONG, 2.0, Role.STRONG),
            Words((x + 42.0, y), say("measured, with how sure it is"), 12.0),
        ]
    return drawn


def _told(one: _Value, kind: Kind, system: System) -> str:
    return show(one.value, kind, system, limit=one.spread)

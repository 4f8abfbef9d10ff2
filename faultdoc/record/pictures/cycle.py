"""The refrigerant's cycle on the pressure-enthalpy plane: as measured, over what a healthy unit would show.

Corners, in the usual numbering: 1 gas at the suction line, 2 gas at the discharge line, 3 liquid before the
expansion valve, 4 behind it, at the enthalpy of 3 (throttling keeps it; e.g. Çengel and Boles, Thermodynamics,
chapter 11). Pressures are the gauges' own, so the condenser's and evaporator's pressure drops lie in the lines.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from faultdoc.model.base import Measured
from faultdoc.model.unit import DataSheet
from faultdoc.physics import atmosphere, refrigerant, vapour
from faultdoc.quantities import Kind, System, show, to_absolute
from faultdoc.record.pictures.axes import Frame, scale
from faultdoc.record.pictures.healthy import healthy_truths, in_this_weather
from faultdoc.record.pictures.shapes import Disc, Line, Picture, Point, Role, Shape, Words
from faultdoc.words import say

__all__ = ["Corners", "corners", "cycle_picture", "wanted_for_cycle"]

WIDTH, HEIGHT = 760.0, 520.0
_DOME = 60
_STEPS = 12


@dataclass(frozen=True)
class Corners:
    """The corners of a cycle.

    Attributes:
        enthalpies: J/kg of 1, 2, 3, 4.
        pressures: Pa absolute of 1, 2, 3, 4.
        superheat, subcooling: K, against dew at the suction and bubble at the discharge gauge.
        remarks: what does not fit, in words.
    """

    enthalpies: tuple[float, float, float, float]
    pressures: tuple[float, float, float, float]
    superheat: float
    subcooling: float
    remarks: tuple[str, ...] = ()


def wanted_for_cycle(circuit: str) -> tuple[str, ...]:
    """Return the points that a circuit's cycle wants.

    >>> wanted_for_cycle("b")[0]
    'suction_pressure_b'
    """
    return tuple(
        f"{name}_{circuit}"
        for name in (
            "suction_pressure", "suction_line_temperature", "discharge_pressure", "discharge_line_temperature",
            "liquid_line_temperature",
        )
    )  # fmt: skip


def corners(name: str, values: Mapping[str, float], circuit: str, elevation: float) -> Corners:
    """Return the corners of a circuit's cycle.

    Args:
        name: the refrigerant, see `refrigerant.NAMES`.
        values: SI by point; gauge pressures. All of `wanted_for_cycle`.
        circuit: its letter.
        elevation: of the site above sea level, m, for the gauges' zero.

    Raises:
        KeyError: when a reading is missing.
        ValueError: when a pressure is outside the refrigerant's range, or discharge not above suction.
    """
    suction, hot, discharge, after, liquid = (values[point] for point in wanted_for_cycle(circuit))
    air = atmosphere.pressure(elevation)
    low, high = to_absolute(suction, air), to_absolute(discharge, air)
    if high <= low:
        raise ValueError("the discharge pressure is not above the suction pressure: the circuit does not pump")
    remarks = []
    dew_low, dew_high = (float(refrigerant.dew_temperature(name, one)) for one in (low, high))
    bubble = float(refrigerant.bubble_temperature(name, high))
    superheat, heated, subcooling = hot - dew_low, after - dew_high, bubble - liquid
    if superheat < 0.0:
        remarks.append(
            say("The suction line is colder than the gas boils: liquid comes back, or a reading is untrue.")
        )
    if heated < 0.0:
        remarks.append(
            say(
                "The discharge line is colder than the gas condenses: a reading is untrue, or liquid goes through."
            )
        )
    if subcooling < 0.0:
        remarks.append(say("The liquid line is warmer than the liquid boils: gas in it, or a reading is untrue."))
    h1 = float(vapour.enthalpy(name, dew_low, max(superheat, 0.0)))
    h2 = float(vapour.enthalpy(name, dew_high, max(heated, 0.0)))
    h3 = float(vapour.liquid_enthalpy(name, min(liquid, bubble)))
    return Corners((h1, h2, h3, h3), (low, high, high, low), superheat, subcooling, tuple(remarks))


def cycle_picture(
    sheet: DataSheet, readings: Mapping[str, Measured], circuit: str, system: System
) -> Picture | tuple[str, ...]:
    """Return the measured cycle of a circuit over the healthy one, or the points still wanted.

    Args:
        sheet: the unit's.
        readings: numbers, by point.
        circuit: its letter.
        system: the reader's units.

    Raises:
        ValueError: when the readings make no cycle.
    """
    wanted = tuple(point for point in wanted_for_cycle(circuit) if point not in readings)
    if wanted:
        return wanted
    name = sheet.refrigerant
    elevation = readings["site_elevation"].value if "site_elevation" in readings else 150.0
    measured = corners(name, {point: one.value for point, one in readings.items()}, circuit, elevation)
    healthy: Corners | None
    try:
        found = healthy_truths(sheet, readings)
        numbers = {point: value for point, value in found.items() if isinstance(value, float)}
        healthy = corners(name, numbers, circuit, elevation)
    except (KeyError, ValueError):
        healthy = None
    return _drawn(name, measured, healthy, circuit, system, weather=in_this_weather(readings))


def _drawn(
    name: str, measured: Corners, healthy: Corners | None, circuit: str, system: System, *, weather: bool
) -> Picture:
    both = [one for one in (measured, healthy) if one is not None]
    pressures = [value for one in both for value in one.pressures]
    dome = _dome(name, min(pressures), max(pressures))
    on_dome = [h for line in dome for h, _ in line]
    across = scale(say("Enthalpy"), [h for one in both for h in one.enthalpies] + on_dome, Kind.ENTHALPY, system)
    up = scale(say("Pressure"), pressures, Kind.ABSOLUTE_PRESSURE, system, logarithmic=True)
    frame = Frame(86.0, 44.0, WIDTH - 16.0, HEIGHT - 62.0, across, up)
    title = say("Pressure and enthalpy, circuit {upper}, {name}", upper=circuit.upper(), name=name)
    drawn: list[Shape] = [Words((16.0, 18.0), title, 15.0, bold=True), *frame.shapes()]
    for line in dome:
        drawn += frame.curve(line, Role.FAINT, 1.5)
    if healthy is not None:
        drawn += _cycle(frame, healthy, Role.GOOD, (7.0, 5.0), 2.0)
    drawn += _cycle(frame, measured, Role.STRONG, (), 3.0)
    for number, (h, p) in enumerate(zip(measured.enthalpies, measured.pressures, strict=True), 1):
        x, y = frame.at(h, p)
        drawn.append(Disc((x, y), 9.0, Role.STRONG, 2.0, Role.PAPER))
        drawn.append(Words((x, y), str(number), 12.0, "middle", Role.STRONG, bold=True))
    drawn += _key(frame, healthy is not None)
    return Picture(title, _words(measured, healthy, system, weather), WIDTH, HEIGHT, tuple(drawn))


def _dome(name: str, low: float, high: float) -> tuple[list[Point], list[Point]]:
    """Return (enthalpy, pressure) along the bubble line and along the dew line, past both pressures."""
    ranges = [refrigerant.pressure_range(name, line) for line in ("bubble", "dew")]
    least = max(low / 1.25, *(one[0] for one in ranges))
    most = min(high * 1.25, *(one[1] for one in ranges))
    at = np.geomspace(least * 1.001, most * 0.999, _DOME)
    dews = np.minimum(refrigerant.dew_temperature(name, at), vapour.warmest(name))
    bubbles = np.minimum(refrigerant.bubble_temperature(name, at), vapour.warmest(name))
    wet = list(zip(vapour.liquid_enthalpy(name, bubbles).tolist(), at.tolist(), strict=True))
    dry = list(zip(vapour.enthalpy(name, dews, 0.0).tolist(), at.tolist(), strict=True))
    return wet, dry


def _cycle(frame: Frame, one: Corners, role: Role, dash: tuple[float, ...], width: float) -> list[Line]:
    corner = list(zip(one.enthalpies, one.pressures, strict=True))
    ring = [*corner, corner[0]]
    pairs: list[Point] = []
    for (h0, p0), (h1, p1) in itertools.pairwise(ring):
        # Straight between corners on the logarithmic scale too.
        steps = np.linspace(0.0, 1.0, _STEPS)
        pairs += [(float(h0 + (h1 - h0) * s), float(p0 * (p1 / p0) ** s)) for s in steps]
    return frame.curve(pairs, role, width, dash)


def _key(frame: Frame, compared: bool) -> list[Shape]:
    x, y = frame.left + 12.0, frame.top + 16.0
    drawn: list[Shape] = [Line(((x, y), (x + 34.0, y)), Role.STRONG, 3.0), Words((x + 42.0, y), "measured", 12.0)]
    if compared:
        drawn += [
            Line(((x, y + 20.0), (x + 34.0, y + 20.0)), Role.GOOD, 2.0, (7.0, 5.0)),
            Words((x + 42.0, y + 20.0), say("a healthy unit"), 12.0),
        ]
    return drawn


def _words(measured: Corners, healthy: Corners | None, system: System, weather: bool) -> str:
    def told(one: Corners) -> str:
        low, high = (show(p, Kind.ABSOLUTE_PRESSURE, system) for p in (one.pressures[0], one.pressures[1]))
        return say(
            "{low} to {high}, superheat {show}, subcooling {show_2}",
            low=low,
            high=high,
            show=show(one.superheat, Kind.TEMPERATURE_DIFFERENCE, system),
            show_2=show(one.subcooling, Kind.TEMPERATURE_DIFFERENCE, system),
        )

    said = say("Measured: {told}.", told=told(measured))
    if healthy is not None:
        where = (
            say("in this weather and water")
            if weather
            else say("at its rating in hot air, as the outdoor air was not read")
        )
        said += say(" A healthy unit {where}: {told}.", where=where, told=told(healthy))
    return " ".join((said, *measured.remarks))

"""The truth at every measuring point of a simulated moment: what perfect instruments would read.

A point is there only when its reading exists in that moment: a discharge pressure while compressors run, a
standing pressure while the pump stands.
"""

from __future__ import annotations

from faultdoc.checks.loop import CONTROL_BAND
from faultdoc.checks.refrigerant import fans_of
from faultdoc.physics import atmosphere, refrigerant
from faultdoc.physics.oil import HOUR
from faultdoc.simulator.oil import Log, oil_truths
from faultdoc.simulator.steady import Snapshot, fan_order, undershoot
from faultdoc.simulator.supply import LINES, supply_truths
from faultdoc.simulator.water import water_truths

__all__ = ["truths"]

LIQUID_SHARE = 0.8
"""Where a resting blend stands between dew and bubble pressure, as the checks take it."""
DRY = 0.15
"""Charge over the right one below which no liquid is left in a circuit at rest in mild weather."""
LINE_LOSS = 3.0
"""K by which the discharge line's wall is colder than the gas at the compressor, as the checks take it."""
FOREIGN_AT_REST = 0.6
"""Pressure of gas that does not condense, at rest over that in the running condenser: it spreads through the
circuit, and the liquid drains out of its way. Common practice, no source."""
STARTED_BEFORE = {"starts_used_up": 1.0, "anti_recycle_running": 0.5}
"""Starts of the last hour over those allowed, by what holds a compressor back now: all of them where they are used
up, and some where it waits between two. The share is assumed."""
MOST_NUMBERED = 8
"""The vocabulary numbers fans and compressors up to this."""
_BUBBLES, _EMPTY = 0.003, 0.15
"""Shares of gas by mass in the liquid from which a sight glass shows bubbles, and no liquid."""
_PULLED_DOWN = 10.0
"""K by which the loop is taken to have been warmer when cooling began."""

Truths = dict[str, float | str]


def truths(moment: Snapshot, log: Log | None = None) -> Truths:
    """Return the truth at every measuring point that can be read at a moment.

    Args:
        moment: of a simulated unit.
        log: what was switched when; None for a unit of which only the time energised is known.

    Returns:
        By point: an SI value, or the id of a choice.
    """
    sheet, site = moment.machine.sheet, moment.site
    found: Truths = {
        "ambient_air_temperature": site.ambient,
        "lowest_air_temperature": site.lowest_air,
        "cooling_load": moment.load,
    }
    found |= water_truths(
        sheet,
        site,
        moment.condition.water,
        moment.loop,
        entering=moment.water_in,
        leaving=moment.water_out,
        called=moment.call.pump,
    )
    found |= supply_truths(sheet, site, moment.condition, moment.electrics, moment.loads)
    found |= oil_truths(sheet, site, moment.sumps, log)
    if log is None:
        found |= _starts(moment)
        share = STARTED_BEFORE.get(moment.condition.control.held or "")
        if share is not None and sheet.starts_per_hour is not None:
            found["starts_in_last_hour_1"] = float(round(share * sheet.starts_per_hour))
    for place, circuit in enumerate(moment.machine.circuits):
        found |= _running(moment, place, circuit) if moment.runs(circuit) else _resting(moment, circuit)
        found |= _fans(moment, place, circuit)
    spare = moment.cooling - moment.load
    if moment.cooling > 0.0 and spare > 0.05 * moment.cooling:
        found["start_water_temperature"] = moment.water_in + _PULLED_DOWN
        found["cooling_time"] = moment.loop.loop_heat_capacity * _PULLED_DOWN / spare
    return found


def _starts(moment: Snapshot) -> Truths:
    """Return how often the first compressor starts in an hour, where it cycles and the others carry the rest.

    With a step q of capacity and a share r of it wanted, the water takes C x band / (q r) to warm through the
    band and C x band / (q (1 - r)) to be cooled through it again.
    """
    sheet = moment.machine.sheet
    if moment.cooling <= moment.load or moment.cooling <= 0.0:
        return {}
    steps = sum(1 + len(one.unloading_steps) for one in sheet.compressors)
    step = moment.cooling / steps
    wanted = moment.load % step / step
    band = CONTROL_BAND * moment.condition.control.band + undershoot(moment)
    swing = moment.loop.loop_heat_capacity * band
    cycle = swing / (step * max(wanted * (1.0 - wanted), 0.02))
    rest = sheet.anti_recycle * moment.condition.control.anti_recycle
    # It rests for as long as the water takes to warm, and at least for its anti-recycle time.
    cycle += max(rest - swing / (step * max(wanted, 0.02)), 0.0)
    starts = HOUR / cycle
    if sheet.starts_per_hour is not None and moment.condition.control.anti_recycle == 1.0:
        starts = min(starts, float(sheet.starts_per_hour))
    return {"starts_in_last_hour_1": float(round(starts))}


def _running(moment: Snapshot, place: int, circuit: str) -> Truths:
    cycle, air = moment.cycle, atmosphere.pressure(moment.site.elevation)

    def gauge(pressure: float) -> float:
        return pressure - air

    flash = float(cycle.flash[0, place])
    glass = "clear" if flash < _BUBBLES else "bubbles" if flash < _EMPTY else "empty"
    return {
        f"suction_pressure_{circuit}": gauge(float(cycle.suction_pressure[0, place])),
        f"discharge_pressure_{circuit}": gauge(float(cycle.discharge_pressure[0, place])),
        f"liquid_pressure_{circuit}": gauge(float(cycle.liquid_pressure[0, place])),
        f"suction_line_temperature_{circuit}": float(cycle.suction_temperature[0, place]),
        f"discharge_line_temperature_{circuit}": float(cycle.discharge_temperature[0, place]) - LINE_LOSS,
        f"liquid_line_temperature_{circuit}": float(cycle.liquid_temperature[0, place]),
        f"sight_glass_{circuit}": glass,
        f"condenser_inlet_air_temperature_{circuit}": float(cycle.air_in[0, place]),
        f"condenser_outlet_air_temperature_{circuit}": float(cycle.air_out[0, place]),
        f"compressors_running_{circuit}": float(
            sum(moment.working[number] > 0.0 for number in moment.machine.compressors[place])
        ),
    }


def _resting(moment: Snapshot, circuit: str) -> Truths:
    what = moment.condition.circuit(circuit)
    ambient, name = moment.site.ambient, moment.machine.refrigerant
    pressure = refrigerant.resting_pressure(name, ambient, LIQUID_SHARE)
    if what.charge < DRY:
        pressure *= what.charge / DRY
    pressure += FOREIGN_AT_REST * what.foreign_gas
    return {f"resting_pressure_{circuit}": pressure - atmosphere.pressure(moment.site.elevation)}


def _fans(moment: Snapshot, place: int, circuit: str) -> Truths:
    """Return which fans turn: of a circuit's own, those called come first, and backwards ones last of them."""
    if not moment.fans_called[circuit]:
        return {}
    turning, backwards = moment.fans_turning[circuit], moment.fans_backwards[circuit]
    found: Truths = {
        f"fans_stopped_{circuit}": float(fans_of(moment.machine.sheet, circuit) - turning - backwards)
    }
    # The faults put the trouble into the first fans.
    numbers = fan_order(moment.machine, moment.condition, place)
    still = moment.fans_called[circuit] - turning - backwards
    for at, number in enumerate(numbers):
        if number <= MOST_NUMBERED:
            called = at < moment.fans_called[circuit]
            ways = "still" if not called or at < still else "reversed" if at < still + backwards else "forward"
            found[f"fan_rotation_{number}"] = ways
    missing = max(-moment.condition.circuit(circuit).fans_held, 0)
    for number in numbers[len(numbers) - missing :]:
        if number <= MOST_NUMBERED:
            # A clamp on a fan that is not called though it should be reads nothing.
            found |= dict.fromkeys((f"fan_current_{number}_{line}" for line in LINES), 0.0)
    return found

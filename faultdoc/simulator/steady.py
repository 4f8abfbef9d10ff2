"""One steady moment of a whole simulated unit: water loop, refrigerant circuits, supply and sumps together.

They lean on each other one way only, but for the water: the loop's flow goes into the circuits, the circuits'
work into the motors, the motors' currents into the voltages. The water's temperature closes the ring: it is given,
or it is where the load and the cooling meet, or where the control holds it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from faultdoc.checks.refrigerant import fans_of
from faultdoc.checks.safeties import trip
from faultdoc.model.unit import Acts
from faultdoc.physics import atmosphere
from faultdoc.quantities import Kind
from faultdoc.simulator.circuit import Around, Cycle, Health, cycles
from faultdoc.simulator.condition import Condition, Site
from faultdoc.simulator.machine import Machine
from faultdoc.simulator.oil import resting_sump, running_sump
from faultdoc.simulator.supply import Electrics, Load, motor_loads, supply
from faultdoc.simulator.water import Loop, loop, shaft_speed

__all__ = ["AT_REST", "Call", "Snapshot", "fan_order", "full_call", "moment", "settled", "undershoot"]

COLDEST_WATER, WARMEST_WATER = 258.15, 333.15
"""K; between which the water of a loop is looked for."""
FAN_LOAD = 0.90
"""Load of a fan's motor in standard air over its plate, as the checks take it."""
USUAL_PUMP_LOAD = 0.65
SEIZED = 20.0
"""Share of rated power that no motor can give: its shaft is held."""
ACTS_WITHIN = 0.2
"""K by which the water has passed a freeze protection's setting when it stops the compressors. Assumed."""
HEAD_HELD = 305.15
"""K of condensing below which the control rests fans; common practice, no source."""
_NO_FLOW = 1e-6


@dataclass(frozen=True)
class Call:
    """What the control calls for.

    Attributes:
        pump: whether the pump is called.
        compressors: by number from 1, the share of its displacement each is to work with; 0 for at rest.
    """

    pump: bool
    compressors: tuple[float, ...]


AT_REST = Call(False, ())
"""Nothing is called."""


def full_call(machine: Machine) -> Call:
    """Return the call for everything the unit has."""
    return Call(True, (1.0,) * len(machine.sheet.compressors))


@dataclass(frozen=True)
class Snapshot:
    """One steady moment.

    Attributes:
        machine, site, condition, call: of which, and what was asked of it.
        water_in, water_out: K, at the unit.
        loop: the water loop.
        cycle: the refrigerant circuits; arrays of shape (1, C).
        working: by compressor's number, the share of its displacement that pumps.
        fans_called: by circuit, the number of fans the control wants.
        fans_turning: by circuit, the number that blows the right way.
        fans_backwards: by circuit, the number that turns the wrong way.
        loads, electrics: the motors and the supply.
        sumps: by compressor's number, the sump's temperature, K.
        cooling: W taken from the water.
        load: W that come into the loop.
    """

    machine: Machine
    site: Site
    condition: Condition
    call: Call
    water_in: float
    water_out: float
    loop: Loop
    cycle: Cycle
    working: dict[int, float]
    fans_called: dict[str, int]
    fans_turning: dict[str, int]
    fans_backwards: dict[str, int]
    loads: tuple[Load, ...]
    electrics: Electrics
    sumps: dict[int, float]
    cooling: float
    load: float

    def runs(self, circuit: str) -> bool:
        """Say whether any compressor of a circuit pumps."""
        place = self.machine.circuits.index(circuit)
        return any(self.working[number] > 0.0 for number in self.machine.compressors[place])


def moment(
    machine: Machine,
    site: Site,
    condition: Condition,
    call: Call,
    water_in: float,
    *,
    was_proved: bool = False,
    start: Cycle | None = None,
) -> Snapshot:
    """Return the steady moment at a temperature (K) of the water entering the unit.

    Args:
        machine: the unit's sizes.
        site: where it stands.
        condition: what is wrong.
        call: what the control calls for.
        water_in: K.
        was_proved: whether the flow switch said before that water flows.
        start: the circuits' states shortly before, from which the search starts.

    Raises:
        ValueError: for a site or a condition that cannot be.
    """
    sheet = machine.sheet
    turns = _turning(machine, site, condition, call)
    flowing = _loop(machine, site, condition, turns, water_in, was_proved)
    working = _working(machine, condition, call, turns)
    fans_called, turning, backwards = _fans(machine, site, condition, working, turns)
    health = _health(machine, condition, working, turning, backwards)
    design = sheet.water.design_flow
    around = Around(water_in, flowing.heat_capacity_rate, flowing.flow / design, site.ambient, site.elevation)
    cycle = cycles(machine, around, health, start)
    water_out = float(cycle.water_out[0]) if flowing.flow > _NO_FLOW * design else water_in
    powers = _powers(machine, site, condition, call, cycle, working, flowing, fans_called)
    # As in `_turning`: a motor that is started on two lines stands, and draws what one at rest does.
    loads = motor_loads(sheet, condition, powers, turned=False)
    electrics = supply(sheet, site, condition.supply, loads)
    load = site.load * sheet.cooling_capacity + condition.water.heat_gain
    return Snapshot(
        machine=machine,
        site=site,
        condition=condition,
        call=call,
        water_in=water_in,
        water_out=water_out,
        loop=flowing,
        cycle=cycle,
        working=working,
        fans_called=fans_called,
        fans_turning=turning,
        fans_backwards=backwards,
        loads=loads,
        electrics=electrics,
        sumps=_sumps(machine, site, condition, cycle, working),
        cooling=float(cycle.cooling.sum()),
        load=load,
    )


def settled(machine: Machine, site: Site, condition: Condition, call: Call) -> Snapshot:
    """Return the moment to which the water settles while the call stands.

    Where the unit can do more than the load asks for, the control holds the leaving water at its set point and
    rests the compressors in between: the moment is one at which they run. Where steps of capacity go off late, it
    is the one just before the last of them goes off, with the water as cold as it gets by then. Where the unit
    cannot, the water is as warm as lets cooling and load meet.

    Arguments and errors as for `moment`.
    """
    water = machine.sheet.water
    believed = condition.control.sensor_bias.get("water_out_temperature", 0.0)
    held = water.design_leaving + condition.control.set_point - believed
    latest: Cycle | None = None

    def at(water_in: float) -> Snapshot:
        nonlocal latest
        found = moment(machine, site, condition, call, water_in, was_proved=True, start=latest)
        latest = found.cycle if found.cycle.solved.all() else None
        return found

    first = at(water.design_entering)
    if first.cooling <= 0.0 or first.loop.flow <= 0.0:
        # Nothing cools: the loop is as warm as it was, or as the day; or as warm as a set point that was raised
        # lets it become.
        warmest = max(site.ambient, water.design_entering)
        if condition.control.set_point > 0.0:
            warmest = min(held, warmest)
        return at(warmest) if first.cooling <= 0.0 else first
    rests = _meeting(lambda one: one.water_out - held, at, first, tolerance=0.02)
    if rests.cooling >= rests.load:
        lower = held - undershoot(rests)
        return rests if lower == held else _meeting(lambda one: one.water_out - lower, at, rests, tolerance=0.02)
    spare = sum(machine.capacity)
    return _meeting(lambda one: (one.cooling - one.load) / spare, at, rests, tolerance=2e-3)


def undershoot(moment: Snapshot) -> float:
    """Return by how much (K) the water falls on below where the first step goes off, as the others go off late.

    With q of n equal steps' capacity and a load L, k steps that run for a while t on longer take k q/n - L out of
    what the loop holds: the fall is the sum over k = n - 1 .. 1 of max(k q/n - L, 0) t / C. A freeze protection
    ends it.

    Args:
        moment: at which all steps run.
    """
    late = moment.condition.control.lag
    if late <= 0.0 or moment.cooling <= 0.0:
        return 0.0
    sheet = moment.machine.sheet
    steps = sum(1 + len(one.unloading_steps) for one in sheet.compressors)
    spare = sum(max(moment.cooling * k / steps - moment.load, 0.0) for k in range(1, steps))
    fall = spare * late / moment.loop.loop_heat_capacity
    shift = moment.condition.control.safety_shift
    ends = [
        trip(one, Kind.TEMPERATURE).at + shift.get(one.id, 0.0)
        for one in sheet.safeties
        if one.point == "water_out_temperature" and one.acts is Acts.BELOW
    ]
    return min(fall, max(moment.water_out - max(ends) + ACTS_WITHIN, 0.0)) if ends else fall


def _meeting(
    miss: Callable[[Snapshot], float], at: Callable[[float], Snapshot], first: Snapshot, tolerance: float
) -> Snapshot:
    """Return the moment at which a miss that rises with the entering temperature vanishes."""
    # Regula falsi with halving (Illinois): the rise is smooth and a bracket is at hand.
    low, high = COLDEST_WATER, WARMEST_WATER
    here, missed = first, miss(first)
    step = 4.0
    bracket: list[tuple[float, float] | None] = [None, None]
    for _ in range(40):
        side = 1 if missed > 0.0 else 0
        bracket[side] = (here.water_in, missed)
        if abs(missed) <= tolerance:
            break
        below, above = bracket
        if below is None or above is None:
            goal = here.water_in + (-step if missed > 0.0 else step)
            step *= 1.7
        else:
            span = above[1] - below[1]
            goal = below[0] - below[1] * (above[0] - below[0]) / span
            edge = 0.05 * (above[0] - below[0])
            goal = min(max(goal, below[0] + edge), above[0] - edge)
        goal = min(max(goal, low), high)
        if goal == here.water_in:
            break
        here = at(goal)
        missed = miss(here)
    return here


def _turning(machine: Machine, site: Site, condition: Condition, call: Call) -> frozenset[str]:
    """Return the ids of the motors that turn when called: fed on three lines, not stalled by low voltage.

    The motors' loads are not known yet; those of the design point serve.
    """
    sheet = machine.sheet
    powers = {f"fan_{number}": FAN_LOAD for numbers in machine.fans for number in numbers}
    powers |= {f"compressor_{number}": 1.0 for number, share in enumerate(call.compressors, 1) if share > 0.0}
    if sheet.water.pump is not None and call.pump:
        powers["pump"] = USUAL_PUMP_LOAD
    loads = motor_loads(sheet, condition, powers, turned=False)
    motors = supply(sheet, site, condition.supply, loads).motors
    return frozenset(id for id, motor in motors.items() if motor.turning)


def _loop(
    machine: Machine,
    site: Site,
    condition: Condition,
    turns: frozenset[str],
    water_in: float,
    was_proved: bool,
) -> Loop:
    what = condition.supply
    speed = shaft_speed(
        condition.pump, called="pump" in turns, frequency=what.frequency, reversed_supply=what.reversed
    )
    return loop(machine.sheet, site, condition.water, speed=speed, temperature=water_in, was_proved=was_proved)


def _working(machine: Machine, condition: Condition, call: Call, turns: frozenset[str]) -> dict[int, float]:
    """Return the share of its displacement with which each compressor pumps."""
    working = dict.fromkeys(range(1, len(machine.sheet.compressors) + 1), 0.0)
    for circuit, numbers in zip(machine.circuits, machine.compressors, strict=True):
        what = condition.circuit(circuit)
        for place, number in enumerate(numbers):
            if place < what.compressors_dead or f"compressor_{number}" not in turns:
                continue
            called = min(call.compressors[number - 1], condition.control.capacity_limit)
            # A scroll or a screw that turns the wrong way moves nothing.
            share = 0.0 if condition.supply.reversed else called * condition.supply.frequency
            if what.unloaded is not None:
                share = min(share, what.unloaded)
            working[number] = share
    return working


def _fans(
    machine: Machine, site: Site, condition: Condition, working: dict[int, float], turns: frozenset[str]
) -> tuple[dict[str, int], dict[str, int], dict[str, int]]:
    """Return by circuit how many fans are called, turn the right way, and turn backwards."""
    sheet = machine.sheet
    called, turning, backwards = {}, {}, {}
    for place, circuit in enumerate(machine.circuits):
        fitted = fans_of(sheet, circuit)
        what = condition.circuit(circuit)
        load = sum(working[n] for n in machine.compressors[place]) / len(machine.compressors[place])
        wanted = 0
        if load > 0.0 and fitted:
            # In cool air as many as keep the head that the valve needs; heat goes with air and split.
            room = max(HEAD_HELD - site.ambient, 0.1)
            share = min(load * (machine.condensing - sheet.rating_ambient) / room, 1.0)
            wanted = max(int(np.ceil(fitted * share - 1e-9)), 1) + what.fans_held
            wanted = min(max(wanted, 0), fitted)
        good = sum(f"fan_{number}" in turns for number in fan_order(machine, condition, place)[:wanted])
        lost = min(what.fans_dead, good)
        wrong = min(what.fans_backwards, good - lost)
        if condition.supply.reversed:
            wrong = good - lost - wrong
        called[circuit], backwards[circuit], turning[circuit] = wanted, wrong, good - lost - wrong
    return called, turning, backwards


def fan_order(machine: Machine, condition: Condition, place: int) -> tuple[int, ...]:
    """Return the numbers of a circuit's fans in the order in which they are called; a stage that does not come is
    the first, so that the trouble sits in the first fans, as elsewhere."""
    numbers = tuple(machine.fans[place])
    missing = max(-condition.circuit(machine.circuits[place]).fans_held, 0)
    return numbers[missing:] + numbers[:missing]


def _health(
    machine: Machine,
    condition: Condition,
    working: dict[int, float],
    turning: dict[str, int],
    backwards: dict[str, int],
) -> Health:
    row = [condition.circuit(circuit) for circuit in machine.circuits]
    running = [sum(working[n] for n in numbers) / len(numbers) for numbers in machine.compressors]
    fitted = [fans_of(machine.sheet, circuit) for circuit in machine.circuits]

    def share(counts: dict[str, int], unlisted: float) -> NDArray[np.float64]:
        pairs = zip(machine.circuits, fitted, strict=True)
        return np.array([[counts[circuit] / count if count else unlisted for circuit, count in pairs]])

    return Health.of([row], np.array([running]), share(turning, 1.0), share(backwards, 0.0))


def _powers(
    machine: Machine,
    site: Site,
    condition: Condition,
    call: Call,
    cycle: Cycle,
    working: dict[int, float],
    flowing: Loop,
    fans_called: dict[str, int],
) -> dict[str, float]:
    """Return the shaft power of every motor that is called, over that at design or on its plate."""
    powers: dict[str, float] = {}
    if machine.sheet.water.pump is not None and call.pump:
        powers["pump"] = flowing.pump_load if condition.water.pump_speed > 0.0 else SEIZED
    for place, numbers in enumerate(machine.compressors):
        work = float(cycle.power[0, place] / machine.power[place])
        together = sum(working[n] for n in numbers)
        for number in numbers:
            called = call.compressors[number - 1] if number <= len(call.compressors) else 0.0
            if called > 0.0:
                share = working[number] / together if together > 0.0 else 0.0
                # One that turns without pumping still rubs and stirs.
                powers[f"compressor_{number}"] = max(work * share * len(numbers), 0.15)
    thin = atmosphere.pressure(site.elevation) / atmosphere.SEA_LEVEL_PRESSURE * 293.15 / site.ambient
    for place, circuit in enumerate(machine.circuits):
        for number in fan_order(machine, condition, place)[: fans_called[circuit]]:
            powers[f"fan_{number}"] = FAN_LOAD * thin * condition.supply.frequency**3
    return powers


def _sumps(
    machine: Machine, site: Site, condition: Condition, cycle: Cycle, working: dict[int, float]
) -> dict[int, float]:
    energised = 0.0 if condition.supply.unfed else site.energised
    sumps = {}
    for place, numbers in enumerate(machine.compressors):
        for number in numbers:
            if working[number] > 0.0:
                sumps[number] = running_sump(
                    machine.sheet,
                    float(cycle.evaporating[0, place]),
                    float(cycle.condensing[0, place]),
                    float(cycle.superheat[0, place]) - 10.0 * float(cycle.wetness[0, place]),
                )
            else:
                sumps[number] = resting_sump(machine.sheet, site, condition.oil, energised=energised)
    return sumps

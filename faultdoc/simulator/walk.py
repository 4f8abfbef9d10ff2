"""A simulated unit in time: steady moments one after another, while loop, sumps and timers move between them.

Refrigerant, supply and flow settle within a minute or two, the loop and the sumps within many: so the fast parts
are taken as steady at every moment (quasi-steady), and only the slow ones have a past. The loop is one store
of well-mixed water, C dT/dt = load - cooling. Steps are cut short where a timer runs out, where the condition
changes, and where a reading passes a value at which the control does something, so that it acts in time.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import exp, inf

from faultdoc.simulator.circuit import Cycle
from faultdoc.simulator.condition import Condition, Site
from faultdoc.simulator.controls import (
    Level,
    Panel,
    Sensed,
    Stop,
    Switches,
    decide,
    due,
    fresh,
    levels,
    log_of,
    sense,
)
from faultdoc.simulator.machine import Machine
from faultdoc.simulator.oil import Log, resting_sump
from faultdoc.simulator.steady import COLDEST_WATER, Call, Snapshot
from faultdoc.simulator.steady import moment as steady_moment

__all__ = ["Duty", "Moment", "advance", "begin", "until"]

RUNNING_SUMP = 1200.0
"""s in which a running compressor's sump comes two thirds of the way to where it settles; common practice."""
LOAD_ABOVE_DESIGN, LOAD_FADES = 10.0, 5.0
"""Water this much (K) over the design entering temperature, or as warm as the day, takes up no more heat; over
the last kelvins before that the load fades. Common practice, no source."""
TANK_SHARE, TANK_SPAN = 0.04, 100e3
"""Share of the loop's water that the expansion tank gives back while its pressure falls by that much (Pa),
assumed, no source."""
ALARMS_KEPT = 200
_SHORTEST = 0.25
_BEYOND = 0.05
_AGREED = 8


@dataclass(frozen=True)
class Duty:
    """A condition that comes and goes: good, then bad, over and over.

    Attributes:
        good, bad: the two.
        good_for, bad_for: s each, above zero.
        first: s at which it is bad for the first time.
    """

    good: Condition
    bad: Condition
    good_for: float = 600.0
    bad_for: float = 120.0
    first: float = 300.0

    def __call__(self, time: float) -> Condition:
        """Return the condition at a time (s)."""
        phase = (time - self.first) % (self.good_for + self.bad_for)
        return self.bad if time >= self.first and phase < self.bad_for else self.good

    def next_change(self, time: float) -> float:
        """Return when (s) the condition changes next after a time."""
        if time < self.first:
            return self.first
        phase = (time - self.first) % (self.good_for + self.bad_for)
        whole = self.bad_for if phase < self.bad_for else self.good_for + self.bad_for
        return time + whole - phase


When = Condition | Duty | Callable[[float], Condition]
"""A condition, or one at every time (s)."""


@dataclass(frozen=True)
class Moment:
    """A unit at one time of its walk.

    Attributes:
        time: s.
        water_in: of the loop, K, as it enters the unit.
        snapshot: the steady moment, with the sumps as warm as they are.
        panel: the control's memory.
        sumps: by compressor's number, K.
        standing_loss: pressure (Pa) that leaks have taken from the loop.
        alarms: what safeties have acted so far, in order; the last two hundred.
        heat_in, heat_out: J that load and cooling have moved since the beginning.
    """

    time: float
    water_in: float
    snapshot: Snapshot
    panel: Panel
    sumps: dict[int, float]
    standing_loss: float = 0.0
    alarms: tuple[Stop, ...] = ()
    heat_in: float = 0.0
    heat_out: float = 0.0

    @property
    def log(self) -> Log:
        """What was switched when, as `truths` wants it."""
        return log_of(self.panel)


def begin(machine: Machine, site: Site, condition: When, switches: Switches, water_in: float) -> Moment:
    """Return the first moment: everything at rest, energised as long as the site says, about to be started.

    Args:
        machine: the unit.
        site: where it stands.
        condition: what is wrong.
        switches: what people have set.
        water_in: of the loop, K.

    Raises:
        ValueError: for a site or a condition that cannot be.
    """
    now = _at(condition, 0.0)
    energised = 0.0 if now.supply.unfed else site.energised
    panel = fresh(machine, energised)
    if now.supply.unfed:
        panel = replace(panel, power=())
    count = len(machine.sheet.compressors)
    sump = resting_sump(machine.sheet, site, now.oil, energised=energised)
    walker = _Walker(machine, site, switches)
    snapshot = walker.solved(now, Call(False, (0.0,) * count), water_in, panel, None)
    first = Moment(0.0, water_in, snapshot, panel, dict.fromkeys(range(1, count + 1), sump))
    return walker.decided(now, first, sense(snapshot), 0.0)


def advance(
    machine: Machine,
    site: Site,
    condition: When,
    switches: Switches,
    moment: Moment,
    seconds: float,
    step: float = 30.0,
) -> Moment:
    """Return the moment some time later.

    Args:
        machine, site, condition, switches: as for `begin`; a condition may be one at every time (`Duty` for
            one that comes and goes: steps end where it changes; of any other callable, only where they end).
        moment: where the walk stands.
        seconds: how long to walk, not below zero.
        step: longest step, s.

    Raises:
        ValueError: for a time below zero or a step that is not above it.
    """
    if seconds < 0.0 or step <= 0.0:
        raise ValueError(f"walk zero or more seconds in steps above zero, not {seconds:g} s in {step:g} s")
    walker = _Walker(machine, site, switches)
    end = moment.time + seconds
    # What people have switched meanwhile takes effect at once.
    moment = walker.refreshed(_at(condition, moment.time), moment)
    while end - moment.time > 1e-6:
        moment = walker.step(condition, moment, min(step, end - moment.time))
    return moment


def until(
    machine: Machine,
    site: Site,
    condition: When,
    switches: Switches,
    moment: Moment,
    predicate: Callable[[Moment], bool],
    limit: float,
    step: float = 30.0,
) -> Moment:
    """Return the first moment, at the end of a step, at which something holds, or the one at the limit.

    Args:
        machine, site, condition, switches, moment, step: as for `advance`.
        predicate: what is waited for.
        limit: longest walk, s.
    """
    walker = _Walker(machine, site, switches)
    end = moment.time + limit
    moment = walker.refreshed(_at(condition, moment.time), moment)
    while not predicate(moment) and end - moment.time > 1e-6:
        moment = walker.step(condition, moment, min(step, end - moment.time))
    return moment


def _at(condition: When, time: float) -> Condition:
    return condition if isinstance(condition, Condition) else condition(time)


@dataclass(frozen=True)
class _Walker:
    """One unit on one site with its switches."""

    machine: Machine
    site: Site
    switches: Switches

    def solved(
        self,
        condition: Condition,
        call: Call,
        water_in: float,
        panel: Panel,
        start: Cycle | None,
        standing_loss: float = 0.0,
    ) -> Snapshot:
        """Return the steady moment of a call."""
        water = condition.water
        if standing_loss:
            condition = replace(condition, water=replace(water, standing_loss=water.standing_loss + standing_loss))
        # The control itself keeps to its limit, by whole steps of its compressors.
        free = replace(condition, control=replace(condition.control, capacity_limit=1.0))
        found = steady_moment(self.machine, self.site, free, call, water_in, was_proved=panel.proved, start=start)
        if start is not None and not found.cycle.solved.all():
            found = steady_moment(self.machine, self.site, free, call, water_in, was_proved=panel.proved)
        return replace(found, condition=condition, load=self.load(condition, found))

    def load(self, condition: Condition, snapshot: Snapshot) -> float:
        """Return the heat (W) that comes into the loop: only flowing water brings it from the load."""
        sheet = self.machine.sheet
        warmest = max(self.site.ambient, sheet.water.design_entering + LOAD_ABOVE_DESIGN)
        share = min(max((warmest - snapshot.water_in) / LOAD_FADES, 0.0), 1.0)
        flows = snapshot.loop.load_flow > 0.0
        return share * (self.site.load * sheet.cooling_capacity * flows + condition.water.heat_gain)

    def later(self, condition: Condition, moment: Moment, dt: float) -> tuple[float, Snapshot]:
        """Return the loop's pressure lost and the steady moment after a while in which nothing is switched."""
        old = moment.snapshot
        capacity = old.loop.loop_heat_capacity
        water_in = max(moment.water_in + (old.load - old.cooling) * dt / capacity, COLDEST_WATER)
        lost = moment.standing_loss + condition.water.leak * dt * TANK_SPAN / (TANK_SHARE * old.loop.volume)
        return lost, self.solved(condition, old.call, water_in, moment.panel, _start(old), lost)

    def step(self, condition: When, moment: Moment, longest: float) -> Moment:
        """Return the moment after one step, no longer than what may happen in it allows."""
        now = _at(condition, moment.time)
        dt = min(longest, due(self.machine, now, moment.panel))
        ends = condition.next_change(moment.time) - moment.time if isinstance(condition, Duty) else inf
        dt = min(dt, max(ends, 1e-3))
        lost, found = self.later(now, moment, dt)
        before, after = sense(moment.snapshot), sense(found)
        share = _first_crossing(levels(self.machine, now, self.switches), before, after)
        sooner = max(share * dt + _BEYOND, _SHORTEST)
        if sooner < dt:
            dt = sooner
            lost, found = self.later(now, moment, dt)
            after = sense(found)
        old = moment.snapshot
        moment = replace(
            moment,
            time=moment.time + dt,
            water_in=found.water_in,
            snapshot=found,
            sumps=self.sumps(now, moment, dt, found.sumps),
            standing_loss=lost,
            heat_in=moment.heat_in + old.load * dt,
            heat_out=moment.heat_out + old.cooling * dt,
        )
        changed = _at(condition, moment.time)
        if changed is not now:
            return self.refreshed(changed, moment, dt)
        return self.decided(now, moment, after, dt)

    def refreshed(self, condition: Condition, moment: Moment, dt: float = 0.0) -> Moment:
        """Return the moment with its steady state found anew, and what the control makes of it."""
        old = moment.snapshot
        found = self.solved(condition, old.call, moment.water_in, moment.panel, _start(old), moment.standing_loss)
        return self.decided(condition, replace(moment, snapshot=found), sense(found), dt)

    def decided(self, condition: Condition, moment: Moment, sensed: Sensed, dt: float) -> Moment:
        """Return the moment after the control has looked, till what it calls for is what is there."""
        panel, snapshot = moment.panel, moment.snapshot
        alarms = moment.alarms
        for _ in range(_AGREED):
            known = panel.stops
            panel, call = decide(self.machine, condition, panel, self.switches, sensed, dt)
            alarms += tuple(stop for stop in panel.stops if stop not in known)
            if call == snapshot.call:
                break
            snapshot = self.solved(condition, call, moment.water_in, panel, _start(snapshot), moment.standing_loss)
            sensed, dt = sense(snapshot), 0.0
        snapshot = replace(snapshot, sumps=moment.sumps)
        return replace(moment, panel=panel, snapshot=snapshot, alarms=alarms[-ALARMS_KEPT:])

    def sumps(
        self, condition: Condition, moment: Moment, dt: float, settled: dict[int, float]
    ) -> dict[int, float]:
        """Return the sumps' temperatures after a while, given where those of running compressors settle."""
        powered = bool(moment.panel.power) and moment.panel.power[-1][1]
        oil = condition.oil if powered else replace(condition.oil, heater=0.0)
        found = {}
        for number, temperature in moment.sumps.items():
            if moment.snapshot.working[number] > 0.0:
                goal = settled[number]
                found[number] = goal + (temperature - goal) * exp(-dt / RUNNING_SUMP)
            else:
                found[number] = resting_sump(self.machine.sheet, self.site, oil, energised=dt, start=temperature)
        return found


def _start(snapshot: Snapshot) -> Cycle | None:
    """Return the circuits' states from which the next search starts: none from one that was not found."""
    return snapshot.cycle if snapshot.cycle.solved.all() else None


def _first_crossing(watched: tuple[Level, ...], before: Sensed, after: Sensed) -> float:
    """Return after what share of a step a reading first passes a value at which the control acts; 1 for none."""
    first = 1.0
    for look, value in watched:
        one, two = look(before), look(after)
        if one is None or two is None or isinstance(one, str) or isinstance(two, str):
            continue
        if (one - value) * (two - value) < 0.0:
            first = min(first, (value - one) / (two - one))
    return first

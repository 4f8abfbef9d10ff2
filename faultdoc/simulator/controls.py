"""The control of a simulated unit: start sequence, stages, timers, and the safeties of the data sheet.

Pure: `decide` takes the control's memory (a `Panel`), what people have set (`Switches`) and what it senses, and
returns the memory as it is then and what is called for. How a packaged unit is usually sequenced: the pump
first, then proof of flow, then compressors one by one as the leaving water asks for them, each guarded by its
anti-recycle time and its starts an hour. Times that no data sheet gives are common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import lru_cache
from math import inf

from faultdoc.checks.loop import CONTROL_BAND
from faultdoc.checks.safeties import WATCHED, members, trip
from faultdoc.checks.startup import warm_up
from faultdoc.model.points import FAMILIES
from faultdoc.model.unit import Acts, DataSheet
from faultdoc.physics.oil import TimerState, timer_state
from faultdoc.simulator.condition import Condition
from faultdoc.simulator.machine import Machine
from faultdoc.simulator.oil import Events, Log
from faultdoc.simulator.steady import Call, Snapshot
from faultdoc.simulator.truths import truths

__all__ = [
    "FLOW",
    "MONITOR",
    "OVERLOAD",
    "OWN_BULB",
    "Hold",
    "Panel",
    "Sensed",
    "Stop",
    "Switches",
    "decide",
    "due",
    "fresh",
    "levels",
    "log_of",
    "reset",
    "sense",
    "starts",
    "usual_switches",
]

UP_DELAY = 60.0
"""s between one step of capacity and the next one up."""
DOWN_DELAY = 30.0
"""s between one step of capacity and the next one down."""
BELOW = 0.25
"""Share of the control's band below the set point: at full load the low-pressure switch acts not far below it."""
LEAST_RUN = 120.0
"""s that a compressor runs once it has started, for its oil to come back; not where the water falls far."""
FLOW_SETTLES = 15.0
"""s from the pump's start to the first compressor's, however soon the flow switch makes."""
PUMP_RUN_ON = 120.0
"""s that the pump goes on after the unit is switched off."""
OVERLOAD_SHARE, OVERLOAD_DELAY = 1.25, 10.0
"""Current over a compressor's plate at which its own protection opens, and after how many s; a protection against
overload of which the sheet gives no delay takes as long (class 10: ten seconds on a motor at rest)."""
LINE_WARMS = 60.0
"""s that a discharge line takes to show the gas in it, where the sheet gives its thermostat no delay."""
MONITOR_DELAY = 2.0
"""s of a wrong or missing phase after which the supply's monitor opens."""
PULL_IN, DROP_OUT = 0.80, 0.65
"""Control voltage over the nameplate's at which contactors come in, and below which they fall out; they must come
in at 85 % (NEMA ICS 2, from memory), and most do a little below."""
_DEAD = 0.20

FLOW, MONITOR, OVERLOAD = "water_flow", "supply_monitor", "motor_protection"
"""Ids of stops that are there whether the sheet lists them or not."""

_FLOW_POINTS = ("barrel_pressure_drop", "water_flow")
OWN_BULB = ("water_out_temperature",)
"""Safeties here have a sensor of their own, apart from the control's."""
_KEPT = 2.0 * 3600.0
"""s for which starts and stops are remembered; only those of the last hour count."""
_KINDS = {family: kind for family, kind, _, _ in WATCHED}

NOT_CALLED = frozenset(
    {
        "unit_switched_off",
        "remote_permission_open",
        "remote_wiring_open",
        "external_interlock_open",
        "schedule_holds_off",
        "control_mode_wrong",
        "standby_in_group",
    }
)
"""What `Control.held` may say that keeps the whole unit off, its pump too; the rest holds compressors only."""


class Hold(StrEnum):
    """Why compressors rest, or no further one starts, where neither a safety nor `Control.held` says so."""

    NO_POWER = "no_power"
    NO_CONTROL_VOLTAGE = "no_control_voltage"
    SWITCHED_OFF = "switched_off"
    NO_PERMISSION = "no_permission"
    PROVING_FLOW = "proving_flow"
    WARMING_OIL = "warming_oil"
    SATISFIED = "satisfied"
    STAGING = "staging"
    ANTI_RECYCLE = "anti_recycle"
    STARTS_USED = "starts_used"
    CIRCUITS_OFF = "circuits_off"
    LIMITED = "limited"
    NONE = "none"


@dataclass(frozen=True)
class Switches:
    """What people have set.

    Attributes:
        set_point: leaving water, K.
        unit: the unit's own switch.
        permission: a remote contact lets it run.
        pump_by_hand: the pump runs whatever the unit does.
        circuits_off: circuits switched off.
    """

    set_point: float
    unit: bool = True
    permission: bool = True
    pump_by_hand: bool = False
    circuits_off: frozenset[str] = frozenset()


def usual_switches(sheet: DataSheet) -> Switches:
    """Return everything on, and the set point at the design leaving water."""
    return Switches(sheet.water.design_leaving)


@dataclass(frozen=True)
class Stop:
    """A safety that has acted and has not let go.

    Attributes:
        safety: its id.
        point: which measuring point made it act.
        time: s.
        latched: whether it stays till somebody resets it.
    """

    safety: str
    point: str
    time: float
    latched: bool


@dataclass(frozen=True)
class Panel:
    """The control's memory.

    Attributes:
        now: s.
        power: (time, on) of the supply.
        compressors: (time, on) of each compressor, by place in the sheet; of the last two hours and the last run.
        loading: by place, the share of its displacement each is called with.
        pump: whether the pump is called.
        pump_since: when it was called; None while it rests.
        proved: whether the flow switch said that water flows.
        was_proved: whether it has said so since the pump was called.
        lost_since: since when it has not said so while the pump is called.
        exceeded: since when a safety's setting has been passed at a point.
        stops: safeties that have acted.
        last_change: when capacity changed last.
        run_on: till when the pump goes on after the unit was switched off.
        hold: why compressors rest or no further one starts: a `Hold`, a safety's id, or `Control.held`'s word.
    """

    now: float
    power: tuple[tuple[float, bool], ...]
    compressors: tuple[tuple[tuple[float, bool], ...], ...]
    loading: tuple[float, ...]
    pump: bool = False
    pump_since: float | None = None
    proved: bool = False
    was_proved: bool = False
    lost_since: float | None = None
    exceeded: Mapping[tuple[str, str], float] = field(default_factory=dict)
    stops: tuple[Stop, ...] = ()
    last_change: float = -inf
    run_on: float = -inf
    hold: str = Hold.NONE

    @property
    def lock_outs(self) -> tuple[Stop, ...]:
        """Stops that stay till somebody resets them."""
        return tuple(stop for stop in self.stops if stop.latched)

    @property
    def stage(self) -> int:
        """Compressors that are called."""
        return sum(share > 0.0 for share in self.loading)


@dataclass(frozen=True)
class Sensed:
    """What is there to be sensed, by measuring point.

    Attributes:
        truth: as it is.
        control: as the control's sensors have it.
    """

    truth: Mapping[str, float | str]
    control: Mapping[str, float | str]

    def watched(self, point: str) -> float | str | None:
        """Return what a safety at a point sees; None where there is nothing."""
        return (self.truth if point in OWN_BULB else self.control).get(point)


def fresh(machine: Machine, energised: float = 0.0, now: float = 0.0) -> Panel:
    """Return the memory of a control at rest that has had power for some time (s)."""
    count = len(machine.sheet.compressors)
    return Panel(now, ((now - energised, True),), ((),) * count, (0.0,) * count)


def log_of(panel: Panel) -> Log:
    """Return what was switched when, as the truths at the timers' points want it."""
    return Log(panel.now, panel.power, dict(enumerate(panel.compressors, 1)))


def starts(panel: Panel, number: int) -> int:
    """Return how often a compressor has started in the last hour."""
    return _timers(panel, number, 0.0, None).starts_in_last_hour


def reset(panel: Panel, safety: str) -> Panel:
    """Return the memory after somebody has reset a safety; one whose cause is still there acts again.

    Raises:
        ValueError: when that safety has not acted.
    """
    if all(stop.safety != safety for stop in panel.stops):
        there = ", ".join(sorted({stop.safety for stop in panel.stops})) or "none"
        raise ValueError(f"'{safety}' has not acted, so there is nothing to reset; acted: {there}")
    left = tuple(stop for stop in panel.stops if stop.safety != safety)
    since = {key: at for key, at in panel.exceeded.items() if key[0] != safety}
    # The wait for flow begins anew.
    lost = panel.now if safety == FLOW and panel.pump else panel.lost_since
    return replace(panel, stops=left, exceeded=since, lost_since=lost)


def sense(moment: Snapshot) -> Sensed:
    """Return what is there to be sensed in a moment; at rest the pressure switches see the resting pressure."""
    found = truths(moment)
    for circuit in moment.machine.circuits:
        resting = found.get(f"resting_pressure_{circuit}")
        if resting is not None:
            found |= {f"suction_pressure_{circuit}": resting, f"discharge_pressure_{circuit}": resting}
            found[f"discharge_line_temperature_{circuit}"] = moment.site.ambient
    biased = dict(found)
    for point, bias in moment.condition.control.sensor_bias.items():
        value = biased.get(point)
        if value is not None and not isinstance(value, str):
            biased[point] = value + bias
    return Sensed(found, biased)


# --- the safeties ---


@dataclass(frozen=True)
class _Watch:
    """One safety at one point: where it acts and lets go, in SI, before any shift."""

    safety: str
    point: str
    above: bool
    at: float
    resets_at: float | None
    delay: float
    latches: bool

    def passed(self, value: float, shift: float) -> bool:
        return value > self.at + shift if self.above else value < self.at + shift

    def lets_go(self, value: float, shift: float) -> bool:
        if self.resets_at is None:
            return not self.passed(value, shift)
        return value <= self.resets_at + shift if self.above else value >= self.resets_at + shift


def _lag(point: str) -> float:
    """Return how long (s) what a safety looks at takes to get there, where the sheet gives it no delay."""
    if point.startswith("discharge_line_"):
        return LINE_WARMS
    return OVERLOAD_DELAY if "_current_" in point else 0.0


@lru_cache(maxsize=32)
def _watches(sheet: DataSheet) -> tuple[_Watch, ...]:
    """Return what watches a unit: the sheet's safeties but for the flow's, and the compressors' own protection."""
    found = []
    for safety in sheet.safeties:
        kind = _KINDS.get(safety.point)
        if safety.point in _FLOW_POINTS or kind is None:
            continue
        where = trip(safety, kind)
        found += [
            _Watch(
                safety.id,
                point,
                safety.acts is Acts.ABOVE,
                where.at,
                where.resets_at,
                safety.delay if safety.delay is not None else _lag(point),
                safety.manual_reset,
            )
            for point in members(safety.point)
        ]
    for number, one in enumerate(sheet.compressors, 1):
        at = OVERLOAD_SHARE * one.rated_current
        found += [
            _Watch(OVERLOAD, point, True, at, None, OVERLOAD_DELAY, True)
            for point in members(f"compressor_current_{number}_{{line}}")
        ]
    return tuple(found)


_OF_CIRCUIT = re.compile(r"(?:suction|discharge|liquid)_\w+_([a-d])")
_OF_COMPRESSOR = re.compile(r"(?:oil_temperature|compressor_current)_(\d)(?:_l\d)?")


def _scope(machine: Machine, point: str) -> frozenset[int]:
    """Return the numbers of the compressors that a safety at a point stops."""
    return _scope_of(machine.circuits, machine.compressors, point)


@lru_cache(maxsize=512)
def _scope_of(circuits: tuple[str, ...], compressors: tuple[tuple[int, ...], ...], point: str) -> frozenset[int]:
    if match := _OF_CIRCUIT.fullmatch(point):
        return frozenset(compressors[circuits.index(match[1])] if match[1] in circuits else ())
    every = frozenset(number for numbers in compressors for number in numbers)
    if match := _OF_COMPRESSOR.fullmatch(point):
        return every & {int(match[1])}
    return every


def _stops_pump(stop: Stop) -> bool:
    """Say whether a safety stops the pump as well: its own protection, the supply's, and flow given up."""
    own = stop.point.startswith(("pump_", "voltage_")) or stop.safety == MONITOR
    return own or (stop.safety == FLOW and stop.latched)


def _safeties(
    machine: Machine, condition: Condition, panel: Panel, sensed: Sensed
) -> tuple[dict[tuple[str, str], float], tuple[Stop, ...]]:
    """Return since when settings are passed, and the safeties that have acted and not let go."""
    now, shifts = panel.now, condition.control.safety_shift
    exceeded: dict[tuple[str, str], float] = {}
    stops = {(stop.safety, stop.point): stop for stop in panel.stops}

    def act(key: tuple[str, str], delay: float, latches: bool) -> None:
        exceeded[key] = since = panel.exceeded.get(key, now)
        if key not in stops and now - since >= delay - 1e-9:
            stops[key] = Stop(*key, now, latches)

    for watch in _watches(machine.sheet):
        key, value = (watch.safety, watch.point), sensed.watched(watch.point)
        shift = shifts.get(watch.safety, 0.0)
        if value is not None and not isinstance(value, str) and watch.passed(value, shift):
            act(key, watch.delay, watch.latches)
        elif (
            key in stops
            and not stops[key].latched
            and (value is None or isinstance(value, str) or watch.lets_go(value, shift))
        ):
            del stops[key]
    key = (MONITOR, "phase_sequence")
    if sensed.control["phase_sequence"] != "forward":
        act(key, MONITOR_DELAY, False)
    else:
        stops.pop(key, None)
    return exceeded, tuple(stops.values())


def _flow(machine: Machine, panel: Panel, sensed: Sensed) -> Panel:
    """Return the memory after a look at the flow switch.

    A contact that chatters counts as lost: it is open longer than the delay sooner or later. Water that has
    stopped may come back by itself; where it does not within the start's allowance, the unit gives up, stops its
    pump and waits to be reset.
    """
    proving = machine.sheet.water.flow_proving
    listed = next((one for one in machine.sheet.safeties if one.point in _FLOW_POINTS), None)
    point = listed.point if listed is not None else _FLOW_POINTS[proving.makes_at_drop is None]
    others = tuple(stop for stop in panel.stops if stop.safety != FLOW)
    mine = [stop for stop in panel.stops if stop.safety == FLOW]
    if not panel.pump:
        mine = [stop for stop in mine if stop.latched]
        return replace(panel, proved=False, was_proved=False, lost_since=None, stops=(*others, *mine))
    if sensed.control.get("flow_switch_contact") == "closed":
        mine = [stop for stop in mine if stop.latched]
        return replace(panel, proved=True, was_proved=True, lost_since=None, stops=(*others, *mine))
    since = panel.now if panel.lost_since is None else panel.lost_since
    gone = panel.now - since + 1e-9
    given_up = gone >= proving.start_allowance
    if given_up and not any(stop.latched for stop in mine):
        mine = [Stop(FLOW, point, panel.now, True)]
    elif not mine and panel.was_proved and gone >= proving.trip_delay:
        mine = [Stop(FLOW, point, panel.now, listed is not None and listed.manual_reset)]
    return replace(panel, proved=False, lost_since=since, stops=(*others, *mine))


# --- timers ---


def _timers(panel: Panel, number: int, anti_recycle: float, most: int | None, warm: float = 0.0) -> TimerState:
    return timer_state(
        panel.power,
        panel.compressors[number - 1],
        panel.now,
        warm_up=warm,
        anti_recycle=anti_recycle,
        starts_per_hour=most,
    )


def _guard(machine: Machine, condition: Condition, panel: Panel, number: int) -> TimerState:
    sheet = machine.sheet
    wait = sheet.anti_recycle * condition.control.anti_recycle
    return _timers(panel, number, wait, sheet.starts_per_hour, warm_up(sheet))


def _kept(events: Events, now: float) -> tuple[tuple[float, bool], ...]:
    """Return the events that still count: of two hours, and the start of the last run before them."""
    first = next((at for at, (time, _) in enumerate(events) if time >= now - _KEPT), len(events))
    first = min(first, max(len(events) - 1, 0))
    if first and not events[first][1]:
        first -= 1
    return tuple(events[first:])


def _logged(panel: Panel, loading: tuple[float, ...]) -> Panel:
    """Return the memory with another capacity, and what started and stopped by it."""
    if loading == panel.loading:
        return panel
    events = list(panel.compressors)
    for place, (before, after) in enumerate(zip(panel.loading, loading, strict=True)):
        if (before > 0.0) != (after > 0.0):
            events[place] = _kept((*events[place], (panel.now, after > 0.0)), panel.now)
    return replace(panel, loading=loading, compressors=tuple(events), last_change=panel.now)


# --- capacity ---


def _order(machine: Machine) -> tuple[int, ...]:
    """Return the compressors' numbers as they start: one of each circuit, then the next of each."""
    most = max(len(numbers) for numbers in machine.compressors)
    return tuple(numbers[i] for i in range(most) for numbers in machine.compressors if i < len(numbers))


def _steps(sheet: DataSheet, number: int) -> tuple[float, ...]:
    return (*sorted(step for step in sheet.compressors[number - 1].unloading_steps if step < 1.0), 1.0)


def _edges(condition: Condition, switches: Switches) -> tuple[float, float, float]:
    """Return the leaving water (K) above which more is called, below which less, and below which it is urgent."""
    goal = switches.set_point + condition.control.set_point
    band = CONTROL_BAND * condition.control.band
    return goal + (1.0 - BELOW) * band, goal - BELOW * band, goal - max(band, CONTROL_BAND)


def _share(sheet: DataSheet, loading: tuple[float, ...]) -> float:
    rated = [one.rated_current for one in sheet.compressors]
    return sum(a * b for a, b in zip(rated, loading, strict=True)) / sum(rated)


def _more(
    machine: Machine, condition: Condition, panel: Panel, free: frozenset[int]
) -> tuple[tuple[float, ...], str]:
    """Return one step more of capacity, or the same and why not."""
    sheet, loading = machine.sheet, panel.loading
    why: str = Hold.NONE if all(loading[n - 1] == 1.0 for n in free) else Hold.ANTI_RECYCLE
    of = {number: numbers for numbers in machine.compressors for number in numbers}
    fewest = len(loading)

    def at_work(number: int) -> int:
        return sum(loading[n - 1] > 0.0 for n in of[number])

    def put(number: int, share: float) -> tuple[float, ...]:
        return (*loading[: number - 1], share, *loading[number:])

    for number in _order(machine):
        now = loading[number - 1]
        if number not in free or now == 1.0:
            continue
        if now == 0.0:
            timers = _guard(machine, condition, panel, number)
            if timers.starts_left > 0.0:
                why = Hold.STARTS_USED
                continue
            if timers.anti_recycle_left > 1e-9:
                # Rather wait than load a circuit further while another rests.
                fewest = min(fewest, at_work(number))
                continue
            if at_work(number) > fewest:
                continue
        tried = put(number, next(step for step in _steps(sheet, number) if step > now))
        # A limit never takes the first step away.
        if any(loading) and _share(sheet, tried) > condition.control.capacity_limit + 1e-9:
            return loading, Hold.LIMITED
        return tried, Hold.STAGING
    return loading, why


def _less(machine: Machine, panel: Panel, urgent: bool) -> tuple[float, ...]:
    """Return one step less of capacity, or the same where what runs has not run long enough."""
    loading = panel.loading
    for number in reversed(_order(machine)):
        now = loading[number - 1]
        lower = [step for step in _steps(machine.sheet, number) if step < now]
        if now == 0.0:
            continue
        if not lower and not urgent and panel.now - panel.compressors[number - 1][-1][0] < LEAST_RUN - 1e-9:
            continue
        return (*loading[: number - 1], max(lower, default=0.0), *loading[number:])
    return loading


# --- all together ---


def _blocked(
    machine: Machine, condition: Condition, panel: Panel, switches: Switches, control_share: float
) -> str | None:
    """Return why no compressor at all may run; None where they may."""
    everything = len(machine.sheet.compressors)
    if control_share < (DROP_OUT if panel.stage else PULL_IN):
        return Hold.NO_CONTROL_VOLTAGE
    if not switches.unit:
        return Hold.SWITCHED_OFF
    if not switches.permission:
        return Hold.NO_PERMISSION
    if condition.control.held is not None:
        return condition.control.held
    wide = [stop for stop in panel.stops if len(_scope(machine, stop.point)) == everything]
    if wide:
        # The pump's and the supply's own first: the rest follows from them.
        return min(wide, key=lambda stop: (not _stops_pump(stop), stop.time)).safety
    if panel.pump_since is None or not (panel.proved or (panel.was_proved and panel.stage)):
        return Hold.PROVING_FLOW
    if panel.now - panel.pump_since < FLOW_SETTLES - 1e-9:
        return Hold.PROVING_FLOW
    warming = _guard(machine, condition, panel, 1).warm_up_left > 1e-9
    return Hold.WARMING_OIL if warming or not condition.control.warm_up_done else None


def decide(
    machine: Machine, condition: Condition, panel: Panel, switches: Switches, sensed: Sensed, dt: float
) -> tuple[Panel, Call]:
    """Return the control's memory and call after some time.

    Args:
        machine: the unit.
        condition: what is wrong with its control.
        panel: the memory before.
        switches: what people have set.
        sensed: at the end of that time.
        dt: s since the memory was written, not below zero.

    Raises:
        ValueError: for a time below zero.
    """
    if dt < 0.0:
        raise ValueError(f"time does not run back: dt is {dt:g} s")
    sheet = machine.sheet
    panel = replace(panel, now=panel.now + dt)
    rest = (0.0,) * len(sheet.compressors)
    volts = max(_number(sensed, f"voltage_{pair}") for pair in FAMILIES["pair"])
    powered = volts > _DEAD * sheet.electrical.voltage and not condition.supply.main_off
    if powered != (bool(panel.power) and panel.power[-1][1]):
        panel = replace(panel, power=(*panel.power[-3:], (panel.now, powered)))
    lit = powered and sensed.control.get("power_indication") != "dark"
    if not lit:
        kept = tuple(stop for stop in panel.stops if stop.latched)
        panel = _logged(replace(panel, stops=kept, exceeded={}), rest)
        dark = Hold.NO_CONTROL_VOLTAGE if powered else Hold.NO_POWER
        panel = replace(panel, pump=False, pump_since=None, proved=False, was_proved=False, lost_since=None)
        return replace(panel, run_on=-inf, hold=dark), Call(False, rest)

    exceeded, stops = _safeties(machine, condition, panel, sensed)
    panel = _flow(machine, replace(panel, exceeded=exceeded, stops=stops), sensed)
    control_share = _number(sensed, "control_voltage") / sheet.electrical.control_voltage

    wanted = switches.unit and switches.permission and condition.control.held not in NOT_CALLED
    if not wanted and panel.stage:
        panel = replace(panel, run_on=panel.now + PUMP_RUN_ON)
    pump = switches.pump_by_hand or wanted or panel.now < panel.run_on - 1e-9
    pump = pump and control_share >= (DROP_OUT if panel.pump else PULL_IN)
    # By hand it runs without the unit: only its own and the supply's protection stop it then.
    by_hand = switches.pump_by_hand and not wanted
    pump = pump and not any(_stops_pump(stop) and not (by_hand and stop.safety == FLOW) for stop in panel.stops)
    if pump != panel.pump:
        since = panel.now if pump else None
        panel = replace(panel, pump=pump, pump_since=since, lost_since=since, proved=False, was_proved=False)

    why = _blocked(machine, condition, panel, switches, control_share)
    if why is not None:
        panel = replace(_logged(panel, rest), hold=why)
        return panel, Call(panel.pump, panel.loading)

    shut = {number for stop in panel.stops for number in _scope(machine, stop.point)}
    off = {
        number
        for circuit, numbers in zip(machine.circuits, machine.compressors, strict=True)
        if circuit in switches.circuits_off
        for number in numbers
    }
    free = frozenset(range(1, len(rest) + 1)) - shut - off
    kept_on = tuple(share if number in free else 0.0 for number, share in enumerate(panel.loading, 1))
    panel = _logged(panel, kept_on)
    if not free:
        partial = [stop for stop in panel.stops if _scope(machine, stop.point)]
        hold = partial[0].safety if partial else Hold.CIRCUITS_OFF
        return replace(panel, hold=hold), Call(panel.pump, panel.loading)
    before = panel
    panel = _staged(machine, condition, panel, switches, sensed, free)
    started = [n for n in free if before.loading[n - 1] == 0.0 < panel.loading[n - 1]]
    if started:
        # What a start brings about is not held against it: the delays begin with it.
        about = frozenset(started)
        left = {key: at for key, at in panel.exceeded.items() if not _own_start(machine, key[1], about)}
        panel = replace(panel, exceeded=left)
    return panel, Call(panel.pump, panel.loading)


def _own_start(machine: Machine, point: str, started: frozenset[int]) -> bool:
    own = _OF_CIRCUIT.fullmatch(point) or _OF_COMPRESSOR.fullmatch(point)
    return own is not None and bool(_scope(machine, point) & started)


def _staged(
    machine: Machine,
    condition: Condition,
    panel: Panel,
    switches: Switches,
    sensed: Sensed,
    free: frozenset[int],
) -> Panel:
    """Return the memory after a look at the leaving water."""
    leaving = _number(sensed, "water_out_temperature")
    upper, lower, urgent = _edges(condition, switches)
    since = panel.now - panel.last_change + 1e-9
    if leaving > upper:
        loading, why = _more(machine, condition, panel, free)
        if why == Hold.STAGING and since < UP_DELAY:
            loading = panel.loading
        return replace(_logged(panel, loading), hold=why)
    if leaving < lower and since >= DOWN_DELAY + condition.control.lag:
        panel = _logged(panel, _less(machine, panel, leaving < urgent))
    return replace(panel, hold=Hold.SATISFIED)


def _number(sensed: Sensed, point: str) -> float:
    value = sensed.control.get(point, 0.0)
    assert not isinstance(value, str)
    return value


# --- when to look again ---


def due(machine: Machine, condition: Condition, panel: Panel) -> float:
    """Return in how many s a timer of the control runs out next; infinite when none runs."""
    now = panel.now
    delays: Mapping[tuple[str, str], float] = {
        (watch.safety, watch.point): watch.delay for watch in _watches(machine.sheet)
    }
    times = [since + delays.get(key, MONITOR_DELAY) for key, since in panel.exceeded.items()]
    if panel.lost_since is not None:
        proving = machine.sheet.water.flow_proving
        times += [panel.lost_since + proving.trip_delay, panel.lost_since + proving.start_allowance]
    if panel.pump_since is not None:
        times.append(panel.pump_since + FLOW_SETTLES)
    times += [panel.last_change + UP_DELAY, panel.last_change + DOWN_DELAY + condition.control.lag]
    times.append(panel.run_on)
    for number, events in enumerate(panel.compressors, 1):
        state = _guard(machine, condition, panel, number)
        times += [now + state.anti_recycle_left, now + state.starts_left]
        if number == 1 and panel.power and panel.power[-1][1]:
            times.append(now + state.warm_up_left)
        if events and events[-1][1]:
            times.append(events[-1][0] + LEAST_RUN)
    return min((time - now for time in times if time > now + 1e-6), default=inf)


Level = tuple[Callable[[Sensed], float | str | None], float]
"""What to look at, and the value at which the control does something."""


def levels(machine: Machine, condition: Condition, switches: Switches) -> tuple[Level, ...]:
    """Return all values at which the control may do something, SI, each with what to look at."""
    shifts = condition.control.safety_shift
    found: list[Level] = []

    def add(point: str, value: float) -> None:
        found.append((lambda sensed: sensed.watched(point), value))

    for watch in _watches(machine.sheet):
        add(watch.point, watch.at + shifts.get(watch.safety, 0.0))
        if watch.resets_at is not None:
            add(watch.point, watch.resets_at + shifts.get(watch.safety, 0.0))
    proving, factor = machine.sheet.water.flow_proving, condition.water.proving_shift
    if proving.breaks_at_drop is not None:
        add("barrel_drop_low", proving.breaks_at_drop * factor)
    if proving.breaks_at_flow is not None:
        add("water_flow", proving.breaks_at_flow * factor)
    for edge in _edges(condition, switches):
        found.append((lambda sensed: sensed.control["water_out_temperature"], edge))
    return tuple(found)

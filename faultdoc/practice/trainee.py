"""One trainee on one live simulated unit: what they measure, change and mend, and what it costs.

The unit lives in time: while somebody reads a gauge it runs, trips, cools its loop and warms its oil. What the
plant's state says of pump, compressors and oil is what the unit does. An act that is unsafe is not done: it is
refused, explained and counted. Nothing can be undone.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any, Literal

import numpy as np

from faultdoc.checks.startup import warm_up
from faultdoc.diagnosis.assess import Bench, ask_words, assess, choice_point
from faultdoc.diagnosis.explain import likely_causes
from faultdoc.diagnosis.planner import Situation
from faultdoc.library.load import Library
from faultdoc.model.base import Measured
from faultdoc.model.case import Case
from faultdoc.model.safety import (
    STATE_FIELDS,
    Caution,
    Compressors,
    Oil,
    Panel,
    PlantState,
    Pump,
    Qualification,
    StateChange,
    StateNeed,
    Supply,
    after,
    may,
    possible,
)
from faultdoc.model.tree import Cause, Question, Remedy
from faultdoc.model.unit import DataSheet
from faultdoc.practice.scenario import Scenario, bench_of, site_of
from faultdoc.practice.witness import Witness
from faultdoc.quantities import Kind, System, show
from faultdoc.record import moves
from faultdoc.record.words import PEOPLE, PLANT, SIGNAL_WORDS, worst_first
from faultdoc.simulator.condition import Condition, Site
from faultdoc.simulator.controls import (
    FLOW,
    MONITOR,
    NOT_CALLED,
    OVERLOAD,
    Hold,
    Stop,
    Switches,
    reset,
    usual_switches,
)
from faultdoc.simulator.faults import FAULTS, broken
from faultdoc.simulator.instruments import Instruments, needed_state, readable
from faultdoc.simulator.machine import Machine, machine
from faultdoc.simulator.steady import full_call
from faultdoc.simulator.steady import moment as steady_moment
from faultdoc.simulator.truths import Truths, truths
from faultdoc.simulator.unit import SimulatedUnit, let_down
from faultdoc.simulator.walk import Duty, Moment, advance, begin, until
from faultdoc.words import say

__all__ = ["HINT_MINUTES", "PROOF_MINUTES", "Event", "Turn"]

EventKind = Literal["reading", "seen", "change", "remedy", "proof", "refused", "hint", "note", "unit"]

HINT_MINUTES = 5.0
"""What a hint costs: a call to someone who knows."""
PROOF_MINUTES = 15.0
"""How long a unit runs without a stop until a fix is taken as proved."""
SETTLING = 2.0
"""Minutes for which somebody stays with a unit that has just started."""
LONGEST_START = 70.0
"""Minutes that a start may take where only the control's timers hold it."""
WARM_BY = 3.0
"""K by which the loop has warmed over the design entering temperature until help is there."""
BEFORE_THE_CALL = 1200.0
"""s that a unit found running has run."""
GOOD_FOR, FIRST_BAD, BAD_FOR = 480.0, 240.0, 40.0
"""s that what comes and goes is away, until it is there first, and for which it is there: a loose wire makes again
before the control gives up; assumed."""
FROZEN_FOR = 300.0
"""The same for ice in a valve; assumed."""
STANDING_STEP, PUMPING_STEP, RUNNING_STEP = 3600.0, 240.0, 150.0
"""Longest steps (s) of the walk with nothing called or nothing changing, while the pump alone warms the loop, and
with the unit on; what happens cuts them short."""
SETTLED = 0.05
"""K by which the loop may still warm in a step of the pump alone to be taken as settled."""
_BY_EYE = 1.0

RESETS: Mapping[str, str] = {
    "high_pressure": "high_pressure_switch",
    "low_pressure": "low_pressure_switch",
    "discharge_temperature": "motor_protection",
    "freeze": "freeze_thermostat",
    "pump_overload": "pump_overload",
    OVERLOAD: "motor_protection",
    MONITOR: "supply_monitor",
}
"""By a safety's id, the protective device that is reset by starting again; see plant.yaml's limits."""

HOLDS: Mapping[str, str] = {
    Hold.NO_POWER: say("Nothing is lit: no power."),
    Hold.NO_CONTROL_VOLTAGE: say("The controls are dark, though there is power."),
    Hold.SWITCHED_OFF: say("Stopped; nobody has started it since."),
    Hold.NO_PERMISSION: say("Waits for the remote contact."),
    Hold.PROVING_FLOW: say("Waits for water flow."),
    Hold.WARMING_OIL: say("Waits for the oil to warm."),
    Hold.SATISFIED: say("The water is cold enough for it."),
    Hold.STAGING: say("Starting one stage after another."),
    Hold.ANTI_RECYCLE: say("Waits for its start timer."),
    Hold.STARTS_USED: say("Waits: its starts of this hour are used up."),
    Hold.CIRCUITS_OFF: say("Its circuits are switched off."),
    Hold.LIMITED: say("Held to a part of its capacity."),
    "hp_lockout_not_reset": say("A lock-out is shown: high pressure."),
    "lp_lockout_not_reset": say("A lock-out is shown: low pressure."),
    "freeze_lockout_not_reset": say("A lock-out is shown: water too cold."),
}
"""What the unit's lamps and display say of why compressors rest, in plain words."""
_TIMED = (Hold.ANTI_RECYCLE, Hold.STARTS_USED, Hold.STAGING, Hold.PROVING_FLOW)

_UNSAFE: Mapping[tuple[str, str], str] = {
    ("supply", "isolated"): say("The supply is on: this is done on a unit locked out and proved dead only."),
    ("panel", "closed"): say("An electrical panel is open: shut it first."),
    ("pump", "stopped"): say("The pump is running: stop it first."),
    ("compressors", "stopped"): say("Compressors are running: stop them first."),
    ("water", "depressurised"): say("The water side is under pressure: shut it off and let it down first."),
    ("oil", "warm"): say("The oil is cold: a start on cold oil can wreck a compressor."),
    ("refrigerant", "closed"): say("The refrigerant circuit is open: close it first."),
    ("refrigerant", "opened"): say(
        "The refrigerant is under pressure: it is recovered first, by someone licensed."
    ),
}
"""By field of the plant's state and the value needed, why it is dangerous to go on without it."""
_UNSAFE_STARTS: Mapping[tuple[str, str], str] = {
    ("start_pump", "water"): say("The water side is let down: fill and vent it first, or the pump runs dry."),
    ("start_compressors", "pump"): say(
        "Compressors without water flow freeze the evaporator: start the pump first."
    ),
}
"""Likewise by a start and the field that is not as it must be."""


@dataclass(frozen=True)
class Event:
    """One thing that happened.

    Attributes:
        time: s since the call, when it was over.
        kind: what sort of thing.
        text: one line in words.
        minutes: what it cost.
        point, value: of a reading: the measuring point, and an SI value or a choice; of what was looked at, the
            question in `id` and the outcome in `value`.
        safe: False for an act that would have been dangerous.
        why: of a refused one, the reason and the caution in words.
        id: of the question, the change or the cause.
    """

    time: float
    kind: EventKind
    text: str
    minutes: float = 0.0
    point: str | None = None
    value: float | str | None = None
    safe: bool = True
    why: str | None = None
    id: str = ""


@dataclass(frozen=True)
class _Way:
    """How something is measured or looked at: by whom, where, with what, in what state, in how long."""

    minutes: float
    place: str | None
    bring: tuple[str, ...]
    who: Qualification
    state: StateNeed
    cautions: tuple[Caution, ...] = ()


@dataclass
class Turn:
    """One trainee on one live unit.

    Attributes:
        scenario: what is hidden, and how it was told.
        seed: with which it was begun.
        sheet, library, bench: of the unit, everything known, and the engine's problem.
        system: units of what is told.
        clock: s simulated since the call.
        minutes: spent.
        events: what happened, in order.
        before: for each event, the case as the engine would have had it before.
        case: what has been read, seen and tried, as the engine would have it.
        finished: whether the call is over.
        solved: whether a fix has been proved.
        stop: what to do at once, where an answer told of a danger that ends the work.
    """

    scenario: Scenario
    seed: int
    sheet: DataSheet
    library: Library
    bench: Bench
    case: Case
    unit: SimulatedUnit
    instruments: Instruments
    witness: Witness
    switches: Switches
    moment: Moment
    system: System = System.US
    clock: float = 0.0
    minutes: float = 0.0
    events: list[Event] = field(default_factory=list)
    before: list[Case] = field(default_factory=list)
    finished: bool = False
    solved: bool = False
    stop: str | None = None
    _resets: Counter[str] = field(default_factory=Counter, repr=False)
    _restarts: Counter[str] = field(default_factory=Counter, repr=False)
    _kept: dict[str, float | str] = field(default_factory=dict, repr=False)
    _ran: set[str] = field(default_factory=set, repr=False)
    _seen: dict[tuple[str, frozenset[str]], str] = field(default_factory=dict, repr=False)
    _hints: int = field(default=0, repr=False)
    _world: tuple[Site, Condition | Duty] | None = field(default=None, repr=False)

    # --- how it begins, and what is there ---

    @classmethod
    def begin(cls, scenario: Scenario, seed: int | None = None) -> Turn:
        """Return a trainee just arrived at a scenario's unit.

        Args:
            scenario: what is hidden.
            seed: of the instruments' errors and of what is drawn; the scenario's own otherwise.
        """
        seed = scenario.seed if seed is None else seed
        bench = bench_of(scenario.unit, scenario.tree)
        sheet = bench.sheet
        site, rng = site_of(scenario, sheet), np.random.default_rng(seed + 1)
        faults = dict(scenario.faults)
        unit = SimulatedUnit(sheet, site, faults)
        _, condition = broken(site, faults)
        instruments = Instruments(bench.library.english.points, rng, condition.control.meter_bias)
        state = scenario.state
        running = state.compressors is Compressors.RUNNING
        switches = replace(
            usual_switches(sheet), unit=running, pump_by_hand=state.pump is Pump.RUNNING and not running
        )
        world = _world_of(site, faults, state.supply is Supply.ISOLATED, 0.0)
        water_in = sheet.water.design_entering + WARM_BY
        first = begin(machine(sheet), *world, switches, water_in)
        if running:
            first = advance(machine(sheet), *world, switches, first, BEFORE_THE_CALL, RUNNING_STEP)
        case = Case(unit=scenario.unit, symptoms=(scenario.tree,), state=state, who=scenario.who)
        turn = cls(
            scenario=scenario,
            seed=seed,
            sheet=sheet,
            library=bench.library,
            bench=bench,
            case=case,
            unit=unit,
            instruments=instruments,
            witness=Witness(unit, instruments, bench, rng),
            switches=switches,
            moment=first,
        )
        turn._world = world
        turn._follow()
        if turn._kept_of(first):
            turn._note_what_runs(first)
        return turn

    @property
    def state(self) -> PlantState:
        """The plant as it is."""
        return self.case.state

    @property
    def place(self) -> str | None:
        """Where on the unit the trainee is."""
        return self.case.place

    @property
    def machine(self) -> Machine:
        """What the data sheet stands for."""
        return machine(self.sheet)

    def points(self) -> list[str]:
        """Return the measuring points that can be read on this unit in one state or another."""
        return list(_points_of(self.scenario.unit))

    def questions(self) -> list[Question]:
        """Return what can be looked at or asked that is no reading at a measuring point."""
        there = set(_points_of(self.scenario.unit))
        return [
            question
            for question in self.bench.problem.questions.values()
            if question.check is None and choice_point(question, self.bench) not in there
        ]

    def changes(self) -> list[StateChange]:
        """Return all ways to change the plant, whether they may be taken now or not."""
        return list(self.library.plant.changes)

    def remedies(self) -> list[Cause]:
        """Return the causes whose remedy can be carried out."""
        return list(self.bench.problem.causes.values())

    def unit_shows(self) -> list[str]:
        """Return what anyone sees and hears at the unit now."""
        panel, now = self.moment.panel, self._truths()
        if self.state.supply is Supply.ISOLATED:
            return [say("The disconnect is locked out; nothing is lit.")]
        lines = []
        if panel.hold in (Hold.NO_POWER, Hold.NO_CONTROL_VOLTAGE):
            return [HOLDS[panel.hold]]
        if panel.stage:
            turning = sum(share > 0.0 for share in self.moment.snapshot.working.values())
            lines.append(
                say("{turning} of {len} compressors run.", turning=turning, len=len(self.sheet.compressors))
            )
            if turning < panel.stage:
                lines.append(say("{stage} are called.", stage=panel.stage))
        else:
            lines.append(say("No compressor runs."))
        if not panel.stage or panel.hold not in (Hold.NONE, Hold.STAGING):
            lines.append(self._hold_in_words())
        lines += [
            say(
                "Has acted: {safety}{at}; {what}.",
                safety=self._safety(stop.safety),
                at=self._at(stop),
                what=say("stays till reset") if stop.latched else say("will let go by itself"),
            )
            for stop in _each(panel.stops)
        ]
        if not panel.pump:
            lines.append(say("The pump is off."))
        elif self.moment.snapshot.loop.flow > 1e-6 * self.sheet.water.design_flow:
            lines.append(say("The pump runs."))
        else:
            lines.append(say("The pump is called; no water is heard to flow."))
        goal = self.switches.set_point + self._condition().control.set_point
        lines.append(say("Set point: {show}.", show=show(goal, Kind.TEMPERATURE, self.system)))
        leaving = now.get("water_out_temperature")
        if isinstance(leaving, float):
            shown = leaving + self._condition().control.sensor_bias.get("water_out_temperature", 0.0)
            lines.append(say("Shown leaving water: {show}.", show=show(shown, Kind.TEMPERATURE, self.system)))
        return lines

    def truth(self, point: str) -> float | str | None:
        """Return what a perfect gauge at a point would show now; None where there is nothing to read."""
        return self._truths().get(point) if readable(point, self.state) else None

    # --- what a trainee does ---

    def measure(self, point: str) -> Event:
        """Read a measuring point.

        Raises:
            KeyError: for a point that cannot be read on this unit.
        """
        if point not in _points_of(self.scenario.unit):
            raise KeyError(f"'{point}' cannot be read on {self.sheet.title}; points() lists what can")
        before, what = self.case, self.library.points[point]
        way, question = self._way(point)
        refused = self._refused(say("Read: {title}", title=what.title), point, way, reading=True)
        if refused is not None:
            return refused
        if not readable(point, self.state) and not self._was_there(point):
            return self._cannot(say("Read: {title}", title=what.title), point, self._missing_for(point))
        taken, at = self._spend(way)
        now, kept = self._truths(), False
        if point not in now or not readable(point, self.state):
            now, kept = self._kept, point in self._kept
        reading = self.instruments.read(point, now, self._as_it_was(point) if kept else self.state)
        if reading is None:
            return self._told(
                Event(at, "note", say("{title}: there was nothing to read.", title=what.title), taken, point),
                before,
            )
        value = reading if isinstance(reading, str) else reading.value
        self.case = moves.read(self._went(way), point, reading)
        if question is not None and isinstance(reading, str):
            self.case = moves.clear_answer(self.case, question.id)
        text = f"{what.title}: {self._reading_words(point, reading)}"
        if kept:
            text += say(" (as it was just before it stopped)")
        return self._told(Event(at, "reading", text, taken, point, value), before)

    def look(self, id: str) -> Event:
        """Look at, listen to or ask about something.

        Raises:
            KeyError: for a question that there is not.
            ValueError: for one that is answered by measuring.
        """
        question = self.bench.problem.questions[id]
        if question.check is not None:
            raise ValueError(f"'{id}' is answered by readings of {', '.join(question.points)}: measure these")
        point = choice_point(question, self.bench)
        if point in _points_of(self.scenario.unit):
            return self.measure(str(point))
        before, ask = self.case, ask_words(self.case, question)
        way = _Way(
            question.minutes, question.place, question.bring, question.who, question.state, question.cautions
        )
        refused = self._refused(ask, id, way, reading=True)
        if refused is not None:
            return refused
        lacking = self._lacking(question.state)
        if lacking and not lacking <= self._ran:
            return self._cannot(ask, id, _needs_running(lacking))
        taken, at = self._spend(way)
        key = id, frozenset(self.unit.faults)
        if key not in self._seen:
            answer = self.witness.answer(question, self.state)
            assert answer.outcome is not None
            self._seen[key] = answer.outcome
        outcome = next(one for one in question.outcomes if one.id == self._seen[key])
        self.case = moves.answer(self._went(way), id, outcome.id)
        if outcome.stop is not None:
            self.stop = outcome.stop
        stop = f" STOP: {outcome.stop}" if outcome.stop else ""
        return self._told(
            Event(at, "seen", f"{ask} {outcome.title}{stop}", taken, value=outcome.id, id=id), before
        )

    def change(self, id: str) -> Event:
        """Change the state of the plant.

        Raises:
            KeyError: for a change that there is not.
        """
        change = next((one for one in self.library.plant.changes if one.id == id), None)
        if change is None:
            raise KeyError(f"there is no change '{id}'; changes() lists them")
        if self.finished:
            return self._over()
        if after(self.state, change) == self.state:
            return self._told(
                Event(self.clock, "note", say("{title}: it is so already.", title=change.title), id=id), self.case
            )
        way = _Way(0.0, None, (), change.who, change.when, change.cautions)
        refused = self._refused(change.title, id, way)
        if refused is None:
            lacking = self._lacking(change.when)
            for name in sorted(lacking):
                if (id, name) in _UNSAFE_STARTS:
                    return self._unsafe(change.title, id, _UNSAFE_STARTS[id, name], change.cautions)
            if lacking:
                return self._cannot(change.title, id, _needs_running(lacking))
            if (spent := self.used_up(id)) is not None:
                return self._unsafe(change.title, id, spent, change.cautions)
        if refused is not None:
            return refused
        return _CHANGES.get(id, Turn._plain_change)(self, change)

    def mend(self, id: str) -> Event:
        """Carry out the remedy of a cause.

        Raises:
            KeyError: for a cause that there is not.
        """
        before, cause = self.case, self.bench.problem.causes[id]
        remedy = cause.remedy
        way = _Way(remedy.minutes, remedy.place, (), remedy.who, remedy.state, remedy.cautions)
        refused = self._refused(remedy.title, id, way)
        if refused is None and self._used_up(remedy):
            why = say("This device has been reset as often as it may be before its cause is found.")
            refused = self._unsafe(remedy.title, id, why, remedy.cautions)
        if refused is None and (lacking := self._lacking(remedy.state)):
            refused = self._cannot(remedy.title, id, _needs_running(lacking))
        if refused is not None:
            return refused
        if remedy.resets is not None:
            self._resets[remedy.resets] += 1
        taken, at = self._spend(way)
        found = [one for one in sorted(self.bench.problem.alike(id)) if self.unit.fix(one)]
        if found:
            self._world = None
            self.moment = replace(self.moment, standing_loss=0.0)
            self.instruments.biases = broken(self.unit.site, self.unit.faults)[1].control.meter_bias
        # What was seen of the unit before is of another unit now.
        self._kept.clear()
        self._ran.clear()
        # Whoever mends believes to have found the cause: it may be started again to see.
        self._restarts.clear()
        self.case = moves.repaired(moves.went(self.case, remedy), id)
        told = self._told(Event(at, "remedy", say("{title}: done.", title=remedy.title), taken, id=id), before)
        self._pass(0.0)
        return told

    def prove(self) -> Event:
        """Run the unit and see whether the fix holds: nothing hidden is left, and it runs without a stop."""
        title, before = say("Run the unit to prove the fix"), self.case
        if self.finished:
            return self._over()
        start = next(one for one in self.library.plant.changes if one.id == "start_compressors")
        need = start.when.model_copy(update={"compressors": None})
        way = _Way(0.0, None, (), start.who, need, start.cautions)
        refused = self._refused(title, "prove", way)
        if refused is None and (lacking := self._lacking(need)):
            refused = self._cannot(title, "prove", _needs_running(lacking))
        if refused is not None:
            return refused
        spent = self.minutes
        self._let_go()
        known = set(self.moment.alarms)
        self.switches = replace(self.switches, unit=True)
        started = self._pass(
            LONGEST_START, lambda now: now.panel.stage > 0 or not _waits(now), expected="compressors"
        )
        if started and self.moment.panel.stage:
            self._pass(PROOF_MINUTES, lambda now: bool(set(now.alarms) - known), expected="compressors")
        stops = [stop for stop in self.moment.alarms if stop not in known]
        ran = self.moment.panel.stage > 0 or self.moment.panel.hold == Hold.SATISFIED
        held = ran and not stops and not self.unit.faults
        if held:
            text = say(
                "The unit ran for {PROOF_MINUTES:.0f} min without a stop: the fix is proved.",
                PROOF_MINUTES=PROOF_MINUTES,
            )
        elif not ran and not stops:
            text = say(
                "The unit does not run. {hold_in_words} The proof does not hold.",
                hold_in_words=self._hold_in_words(),
            )
        elif stops:
            text = say("It stopped: {safety}. The proof does not hold.", safety=self._safety(stops[0].safety))
        else:
            text = say(
                "It ran without a stop, but what was reported is still there: {scenario_symptom}",
                scenario_symptom=self.scenario_symptom,
            )
        if self.case.unproved is not None:
            self.case = moves.proved(self.case, held)
        self.solved = self.finished = held
        return self._told(
            Event(self.clock, "proof", text, self.minutes - spent, value="held" if held else "failed"), before
        )

    def wait(self, minutes: float) -> Event:
        """Let time pass.

        Raises:
            ValueError: for a time that is not above zero, or above a day.
        """
        if not 0.0 < minutes <= 1440.0:
            raise ValueError(f"wait above 0 and up to 1440 minutes, not {minutes:g}")
        if self.finished:
            return self._over()
        before = self.case
        self._pass(minutes)
        return self._told(
            Event(self.clock, "note", say("Waited {minutes:g} min.", minutes=minutes), minutes), before
        )

    def think(self, minutes: float) -> None:
        """Let time pass in which nobody does anything: as `wait`, but with no event of its own.

        Raises:
            ValueError: for a time that is not above zero, or above a day.
        """
        if not 0.0 < minutes <= 1440.0:
            raise ValueError(f"think above 0 and up to 1440 minutes, not {minutes:g}")
        if not self.finished:
            self._pass(minutes)

    def hint(self) -> Event:
        """Ask someone who knows: first where to look, then what to do next. It costs minutes and points."""
        if self.finished:
            return self._over()
        before, look = self.case, assess(self.bench, self.case)
        here = sum(one.kind in ("reading", "seen", "remedy", "proof") for one in self.events)
        again = any(one.kind == "hint" and one.value == float(here) for one in self.events)
        if again or look.next.kind in ("proof", "done"):
            step = look.next
            text = say("I would do this next: {what}", what=step.text)
            if step.kind == "state_change" and step.toward:
                text += say(" It leads to {toward}", toward=step.toward)
        else:
            text = say(
                "I would think of the {system} side first. Ask again for the next step.",
                system=likely_causes(look)[0].system,
            )
        self._pass(HINT_MINUTES)
        return self._told(Event(self.clock, "hint", text, HINT_MINUTES, value=float(here)), before)

    def give_up(self) -> Event:
        """Make the unit safe and hand the call over."""
        if self.finished:
            return self._over()
        before = self.case
        self.switches = replace(self.switches, unit=False)
        self.finished = True
        rightly = self.stop is not None
        text = say("Work stopped and handed over, as it must be.") if rightly else say("Handed over unsolved.")
        return self._told(Event(self.clock, "note", text, value="stopped" if rightly else "given_up"), before)

    def cannot_tell(self, question: str) -> None:
        """Write down that a question could not be answered; no time passes."""
        self.case = moves.answer(self.case, question, "could_not_measure")

    @property
    def scenario_symptom(self) -> str:
        """What was reported, in the words of the symptom."""
        return self.library.trees[self.scenario.tree].symptom

    # --- refusing ---

    def _refused(self, title: str, id: str, way: _Way, *, reading: bool = False) -> Event | None:
        """Return the refusal of an act that is unsafe or can never be taken as things stand, else None."""
        if self.finished:
            return self._over()
        if self.stop is not None:
            return self._unsafe(
                title, id, say("An answer has ended the work: {stop}", stop=self.stop), way.cautions
            )
        if not may(frozenset(self.scenario.who), way.who):
            why = say("You are not the person for it. Needs: {lower}.", lower=PEOPLE[way.who][0].lower())
            return self._unsafe(title, id, why, way.cautions)
        for name, wanted in _unmet(self.state, way.state):
            if reading and name in ("pump", "compressors", "oil"):
                continue
            if (name, wanted) in _UNSAFE:
                return self._unsafe(title, id, _UNSAFE[name, wanted], way.cautions)
        return None

    def _lacking(self, need: StateNeed) -> set[str]:
        return {name for name, _ in _unmet(self.state, need)}

    def _missing_for(self, point: str) -> str:
        way, _ = self._way(point)
        lacking = self._lacking(way.state) | self._lacking(needed_state(point))
        return _needs_running(lacking) if lacking else say("There is nothing to read there now.")

    def _unsafe(self, title: str, id: str, why: str, cautions: Iterable[Caution]) -> Event:
        worst = next(iter(worst_first(cautions)), None)
        words = f"{why} {SIGNAL_WORDS[worst.signal]}: {worst.text}" if worst else why
        return self._told(
            Event(self.clock, "refused", say("{title}: not done.", title=title), safe=False, why=words, id=id),
            self.case,
        )

    def _cannot(self, title: str, id: str, why: str) -> Event:
        return self._told(
            Event(self.clock, "refused", say("{title}: not possible now.", title=title), why=why, id=id), self.case
        )

    def _over(self) -> Event:
        return Event(self.clock, "note", say("The call is over."))

    def _used_up(self, remedy: Remedy) -> bool:
        return Situation(self.state, resets=self._resets).used_up(remedy, self.library.plant)

    def used_up(self, change: str) -> str | None:
        """Return in words why a start would reset a protective device once too often; None where it would not."""
        limits = self.library.plant.reset_limits
        if change not in ("start_pump", "start_compressors"):
            return None
        for device in sorted(self._devices(change)):
            if self._restarts[device] >= limits.get(device, 1):
                return say(
                    "A protective device ({replace}) has stopped it and has been reset as often "
                    "as it may be before its cause is found.",
                    replace=device.replace("_", " "),
                )
        return None

    def _devices(self, change: str) -> set[str]:
        """Return the protective devices that a start resets."""
        stops = {stop.safety for stop in self.moment.panel.lock_outs} - {FLOW}
        if change == "start_pump":
            stops = {one for one in stops if one in ("pump_overload", MONITOR)}
        return {RESETS.get(one, one) for one in stops}

    def _let_go(self) -> None:
        """Reset whatever has acted."""
        panel = self.moment.panel
        for safety in {stop.safety for stop in panel.stops}:
            panel = reset(panel, safety)
        self.moment = replace(self.moment, panel=panel)

    # --- changing the plant ---

    def _plain_change(self, change: StateChange) -> Event:
        minutes = change.minutes if isinstance(change.minutes, float | int) else 0.0
        before = self.case
        self._pass(float(minutes))
        self.case = moves.change_state(self.case, change)
        self._follow()
        return self._done(change, float(minutes), before)

    def _switch(self, change: StateChange, **switches: Any) -> Event:
        before = self.case
        self.switches = replace(self.switches, **switches)
        self.case = moves.change_state(self.case, change)
        minutes = change.minutes
        assert not isinstance(minutes, str)
        self._pass(float(minutes), expected=next(iter(change.sets.model_dump(exclude_none=True))))
        return self._done(change, float(minutes), before)

    def _start_pump(self, change: StateChange) -> Event:
        self._restarts.update(self._devices(change.id))
        self._let_go()
        event = self._switch(change, pump_by_hand=True)
        return self._unless(event, self.state.pump is Pump.RUNNING, say("It does not stay on."))

    def _start_compressors(self, change: StateChange) -> Event:
        before, spent = self.case, self.minutes
        self._restarts.update(self._devices(change.id))
        self._let_go()
        self.switches = replace(self.switches, unit=True)
        limit = float(change.minutes) if not isinstance(change.minutes, str) else 0.0
        patience = self.moment.time + limit * 60.0
        self._pass(
            LONGEST_START,
            lambda now: (
                now.panel.stage > 0 or bool(now.panel.lock_outs) or (now.time >= patience and not _waits(now))
            ),
            expected="compressors",
        )
        if self.moment.panel.stage:
            self._pass(SETTLING, expected="")
        event = self._done(change, self.minutes - spent, before)
        return self._unless(
            event,
            "compressors" in self._ran,
            say("It does not start. {hold_in_words}", hold_in_words=self._hold_in_words()),
        )

    def _isolate(self, change: StateChange) -> Event:
        self.switches = replace(self.switches, unit=False, pump_by_hand=False)
        self._world = None
        before, minutes = self.case, change.minutes
        assert not isinstance(minutes, str)
        self.case = moves.change_state(self.case, change)
        self._pass(float(minutes), expected="supply")
        return self._done(change, float(minutes), before)

    def _warm_oil(self, change: StateChange) -> Event:
        before, panel = self.case, self.moment.panel
        if not (panel.power and panel.power[-1][1]):
            return self._told(
                Event(self.clock, "note", say("The unit has no power: its oil heaters are cold."), id=change.id),
                before,
            )
        left = max(panel.power[-1][0] + warm_up(self.sheet) - panel.now, 0.0) / 60.0 + 0.1
        self._pass(left, expected="oil")
        event = self._done(change, left, before)
        return self._unless(event, self.state.oil is Oil.WARM, say("The power was away meanwhile."))

    def _done(self, change: StateChange, minutes: float, before: Case) -> Event:
        return self._told(
            Event(self.clock, "change", say("{title}: done.", title=change.title), minutes, id=change.id), before
        )

    def _unless(self, event: Event, so: bool, words: str) -> Event:
        """Return a change's event, with words for a plant that does not do what was asked."""
        if so:
            return event
        told = replace(event, text=event.text.removesuffix(" done.") + f" {words}")
        self.events[self.events.index(event)] = told
        return told

    # --- time ---

    def _pass(self, minutes: float, till: Callable[[Moment], bool] | None = None, expected: str = "") -> bool:
        """Let the unit live for some minutes or till something holds; say whether it did.

        Args:
            minutes: longest time.
            till: what is waited for.
            expected: the field of the plant's state whose change is no surprise.
        """
        before, state = self.moment, self.state
        site, condition = self._broken()

        def stop(now: Moment) -> bool:
            self._note_what_runs(now)
            return till is not None and till(now)

        walked = self.moment
        if minutes > 0.0:
            walked = self._walked(minutes * 60.0, stop)
        else:
            walked = advance(self.machine, site, condition, self.switches, walked, 0.0)
        self._note_what_runs(walked)
        self._catch_unseen(before, walked)
        self.moment = walked
        spent = walked.time - before.time
        self.clock += spent
        self.minutes += spent / 60.0
        self._follow()
        self._tell_of_the_unit(before, state, expected)
        return till is not None and till(walked)

    def _step(self) -> float:
        return RUNNING_STEP if self.switches.unit else STANDING_STEP

    def _walked(self, seconds: float, stop: Callable[[Moment], bool]) -> Moment:
        """Return the moment some seconds later, or the first at which something holds."""
        site, condition = self._broken()
        now, end = self.moment, self.moment.time + seconds
        if self.switches.pump_by_hand and not self.switches.unit:
            last = now

            def at_rest(found: Moment) -> bool:
                nonlocal last
                calm = found.time > last.time and abs(found.water_in - last.water_in) < SETTLED
                last = found
                return stop(found) or calm

            now = until(self.machine, site, condition, self.switches, now, at_rest, seconds, PUMPING_STEP)
            if stop(now) or end - now.time < 1e-6:
                return now
        return until(self.machine, site, condition, self.switches, now, stop, end - now.time, self._step())

    def _broken(self) -> tuple[Site, Condition | Duty]:
        if self._world is None:
            dead = self.state.supply is Supply.ISOLATED
            self._world = _world_of(self.unit.site, self.unit.faults, dead, self.moment.time)
        return self._world

    def _condition(self) -> Condition:
        _, when = self._broken()
        return when if isinstance(when, Condition) else when(self.moment.time)

    def _follow(self) -> None:
        """Make the plant's state what the unit does."""
        panel = self.moment.panel
        lit = bool(panel.power) and panel.power[-1][1]
        warm = lit and panel.now - panel.power[-1][0] >= warm_up(self.sheet) - 1e-6
        state = self.state.model_copy(
            update={
                "pump": Pump.RUNNING if panel.pump else Pump.STOPPED,
                "compressors": Compressors.RUNNING if panel.stage else Compressors.STOPPED,
                "oil": Oil.WARM if warm or panel.stage else Oil.COLD,
            }
        )
        if not possible(state):  # the pump is off and compressors coast: for the plant they have stopped
            state = state.model_copy(update={"compressors": Compressors.STOPPED})
        self.case = moves.set_state(self.case, state)

    def _note_what_runs(self, now: Moment) -> None:
        """Keep what gauges showed while pump or compressors were called: it is known after they stopped."""
        found = self._kept_of(now)
        if found:
            self._kept |= found
            self._ran |= {"pump"} if now.panel.pump else set()
            self._ran |= {"compressors"} if now.panel.stage else set()

    def _kept_of(self, now: Moment) -> Truths:
        return truths(now.snapshot, now.log) if now.panel.pump or now.panel.stage else {}

    def _catch_unseen(self, before: Moment, now: Moment) -> None:
        """Keep what a circuit's gauges showed that tripped in the moment it started, between two looks."""
        stops = [stop for stop in now.alarms if stop not in before.alarms and stop.point not in self._kept]
        if not stops or not any("_pressure_" in stop.point or "_temperature_" in stop.point for stop in stops):
            return
        condition = now.snapshot.condition
        glimpse = steady_moment(
            self.machine, now.snapshot.site, condition, full_call(self.machine), now.water_in, was_proved=True
        )
        self._kept |= {point: value for point, value in truths(glimpse).items() if point not in self._kept}
        self._ran |= {"compressors"}

    def _tell_of_the_unit(self, before: Moment, state: PlantState, expected: str) -> None:
        """Add what the unit did on its own."""
        new = Counter((stop.safety, self._at(stop)) for stop in self.moment.alarms if stop not in before.alarms)
        for (safety, where), times in new.items():
            often = f" {times} times" if times > 1 else ""
            self._told(
                Event(
                    self.clock,
                    "unit",
                    say(
                        "{safety}{where} has acted{often}.", safety=self._safety(safety), where=where, often=often
                    ),
                ),
                self.case,
            )
        was, now = state.compressors, self.state.compressors
        if was is not now and expected != "compressors":
            what = (
                say("Compressors have started.")
                if now is Compressors.RUNNING
                else say("The compressors have stopped.")
            )
            if now is Compressors.STOPPED:
                what += f" {self._hold_in_words()}"
            self._told(Event(self.clock, "unit", what), self.case)
        if state.pump is not self.state.pump and expected not in ("pump", "supply", "compressors"):
            what = (
                say("The pump has started.") if self.state.pump is Pump.RUNNING else say("The pump has stopped.")
            )
            self._told(Event(self.clock, "unit", what), self.case)

    def _hold_in_words(self) -> str:
        hold = str(self.moment.panel.hold)
        if hold in HOLDS:
            return HOLDS[hold]
        if hold in NOT_CALLED or hold in FAULTS:
            return say("It is not called to run, or is held by its control.")
        return say("Held by: {safety}.", safety=self._safety(hold))

    def _safety(self, id: str) -> str:
        own = {
            FLOW: say("Flow proving switch"),
            MONITOR: say("Supply monitor"),
            OVERLOAD: say("Compressor's motor protection"),
        }
        title = next((one.title for one in self.sheet.safeties if one.id == id), own.get(id))
        return title or id.replace("_", " ").capitalize()

    def _at(self, stop: Stop) -> str:
        """Return where a safety has acted, in words."""
        for circuit in self.machine.circuits:
            if stop.point.endswith(f"_{circuit}"):
                return say(" of circuit {upper}", upper=circuit.upper())
        return ""

    # --- reading ---

    def _truths(self) -> Truths:
        return let_down(truths(self.moment.snapshot, self.moment.log), self.state)

    def _was_there(self, point: str) -> bool:
        """Return whether a point's value is known from before the unit stopped, and panels are as they must be."""
        lacking = self._lacking(needed_state(point))
        return point in self._kept and lacking <= {"pump", "compressors"}

    def _as_it_was(self, point: str) -> PlantState:
        """Return a state of the plant in which a point that was there could be read."""
        need = needed_state(point).model_dump(exclude_none=True)
        return self.state.model_copy(update=need)

    def _way(self, point: str) -> tuple[_Way, Question | None]:
        """Return how a point is read: as the question does that takes least, best one that may be asked now."""
        asked = [one for one in self.bench.problem.questions.values() if point in one.points]
        if not asked:
            asked = [one for one in self.library.questions.values() if point in one.points]
        if not asked:
            need = needed_state(point)
            who = Qualification.ELECTRICAL_WORKER if need.panel is Panel.OPEN else Qualification.TECHNICIAN
            return _Way(_BY_EYE, None, (), who, need), None
        here = frozenset(self.scenario.who)

        def order(one: Question) -> tuple[bool, int, float]:
            return not may(here, one.who), len(_unmet(self.state, one.state)), one.minutes / len(one.points)

        one = min(asked, key=order)
        minutes = one.minutes / len(one.points)
        return _Way(minutes, one.place, one.bring, one.who, one.state, one.cautions), one

    def _spend(self, way: _Way) -> tuple[float, float]:
        """Let the time of some work pass; return its minutes, and the clock then."""
        now = Situation(self.state, place=self.case.place, at_hand=frozenset(self.case.at_hand))
        minutes = self.bench.crew(self.case).reach(now, way.place, way.bring) + way.minutes
        self._pass(minutes)
        return minutes, self.clock

    def _went(self, way: _Way) -> Case:
        at_hand = tuple(dict.fromkeys((*self.case.at_hand, *way.bring)))
        return self.case.model_copy(update={"place": way.place or self.case.place, "at_hand": at_hand})

    def _reading_words(self, point: str, reading: Measured | str) -> str:
        what = self.library.points[point]
        if isinstance(reading, str):
            return next((choice.title for choice in what.choices if choice.id == reading), reading)
        return show(reading.value, what.kind, self.system)

    def _told(self, event: Event, before: Case) -> Event:
        self.events.append(event)
        self.before.append(before)
        return event


_CHANGES: Mapping[str, Callable[[Turn, StateChange], Event]] = {
    "start_pump": Turn._start_pump,
    "start_compressors": Turn._start_compressors,
    "stop_pump": lambda turn, change: turn._switch(change, pump_by_hand=False, unit=False),
    "stop_compressors": lambda turn, change: turn._switch(change, unit=False, pump_by_hand=True),
    "isolate_supply": Turn._isolate,
    "energise_supply": Turn._isolate,
    "warm_oil": Turn._warm_oil,
}


def _world_of(site: Site, faults: Mapping[str, float], dead: bool, now: float) -> tuple[Site, Condition | Duty]:
    """Return site and condition of a unit with some faults; a duty where one of them comes and goes."""
    steady = {id: severity for id, severity in faults.items() if not FAULTS[id].comes_and_goes}
    worse_site, bad = broken(site, faults)
    _, good = broken(site, steady)
    if dead:
        bad, good = (replace(one, supply=replace(one.supply, off=True)) for one in (bad, good))
    if len(steady) == len(faults):
        return worse_site, bad
    bad_for = FROZEN_FOR if "expansion_valve_iced" in faults else BAD_FOR
    return worse_site, Duty(good, bad, GOOD_FOR, bad_for, now + FIRST_BAD)


def _waits(now: Moment) -> bool:
    """Return whether only timers hold the compressors."""
    return now.panel.hold in _TIMED


def _unmet(state: PlantState, need: StateNeed) -> list[tuple[str, str]]:
    """Return the fields of a need that a state does not meet, each with the value needed."""
    return [
        (name, str(wanted))
        for name in STATE_FIELDS
        if (wanted := getattr(need, name)) is not None and getattr(state, name) is not wanted
    ]


def _needs_running(lacking: set[str]) -> str:
    """Return in words what must be otherwise first."""
    wanted = ", ".join(PLANT[name].title.lower() for name in STATE_FIELDS if name in lacking)
    return (
        say("Bring the plant into another state first ({wanted}).", wanted=wanted)
        if wanted
        else say("Not possible now.")
    )


def _each(stops: Iterable[Stop]) -> list[Stop]:
    """Return stops, one of each safety in each circuit."""
    return list({(stop.safety, stop.point[-2:]): stop for stop in stops}.values())


@lru_cache(maxsize=32)
def _points_of(unit: str) -> tuple[str, ...]:
    """Return the points that can be read on a healthy unit in one state or another."""
    from faultdoc.library.load import load_unit
    from faultdoc.simulator.unit import usual_site

    sheet = load_unit(unit)
    whole = SimulatedUnit(sheet, usual_site(sheet), {})
    found: set[str] = set()
    for supply, pump, compressors in (
        ("isolated", "stopped", "stopped"),
        ("energised", "stopped", "stopped"),
        ("energised", "running", "stopped"),
        ("energised", "running", "running"),
    ):
        state = PlantState.model_validate(
            {
                "supply": supply,
                "panel": "closed",
                "pump": pump,
                "water": "pressurised",
                "compressors": compressors,
                "oil": "warm",
            }
        )
        found |= set(whole.truths(state))
    return tuple(sorted(found))

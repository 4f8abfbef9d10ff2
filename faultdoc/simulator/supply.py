"""The three-phase supply of a simulated unit with all its motors, as phasors, and what can be read of it.

The network has three nodes: the unit's lines. The source (three voltages behind its own impedance) feeds
them through the feeder; the running motors, the control transformer (from L1 to L2) and what leaks to ground
hang on them. Every motor is its two sequence impedances (Fortescue's components; e.g. Blackburn, Protective
Relaying): forwards by the circle diagram of `physics.electrical.motor_current`, which is a resistance that
takes the shaft's power and a reactance that magnetises; backwards about its impedance at rest. Its windings
count as a delta, so a fault of one winding is an impedance in series with one side of it.
"""

from __future__ import annotations

from cmath import rect
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import acos, pi, sqrt
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from faultdoc.checks.feeder import CONDUCTORS, other_loads
from faultdoc.model.points import FAMILIES
from faultdoc.model.unit import DataSheet
from faultdoc.physics import conductors, motors
from faultdoc.simulator import condition

__all__ = [
    "COMPRESSOR_SHARE",
    "NO_LOAD_SHARES",
    "Electrics",
    "Feeder",
    "Load",
    "Running",
    "fan_rating",
    "feeder",
    "motor_loads",
    "nameplate_truths",
    "supply",
    "supply_truths",
]

LINES = FAMILIES["line"]
PAIRS = FAMILIES["pair"]

COMPRESSOR_SHARE = 0.85
"""A compressor's current at the design point over its plate's, as `checks.motors` takes it; common practice."""

NO_LOAD_SHARES = {"compressor": 0.40, "pump": 0.45, "fan": 0.50}
"""Magnetising over rated (a compressor's: over design) current, as `checks` takes them; common practice."""

FAN_LOAD = 0.90
"""A fan's load in standard air, as `checks.motors` takes it; common practice, no source."""

_LOCKED_ROTOR = 6.0
"""Locked-rotor over rated current where the sheet gives none: 5.5 to 6.7 for 1.5 to 15 hp, NEMA MG 1, 12.35
(from memory)."""
_START_POWER_FACTOR = 0.40
"""Of a motor at rest, as `checks.feeder` takes it; common practice, no source."""
_NEGATIVE_POWER_FACTOR = 0.30
"""Of the negative sequence: the rotor's part of the resistance is halved at a slip of nearly two."""
_STATOR_RESISTANCE = 0.03
"""Per unit, where the sheet gives no winding resistance; common practice, no source. Of the reactance at rest
half is the stator's (IEEE Std 112 halves it too where nothing is known, from memory)."""
_PULL_OUT = 2.2
"""Largest over rated power of a motor at rated voltage: 200 to 225 % of rated torque, NEMA MG 1, 12.39 (from
memory); it goes with the square of the voltage."""
_POLE_DROP = 0.035
"""V across a sound pole at rated current; common practice, no source."""

_GRID_MULTIPLE = 3.0
"""Rating of the transformer that feeds the unit, over the unit's ampacity; common practice, no source."""
_GRID_IMPEDANCE = 0.05
"""Per unit of that transformer, its reactance four times its resistance; common practice, no source."""
_SUBTRANSIENT = 0.15
"""Per unit of a generator, as `checks.feeder` takes it; its negative-sequence reactance is about the same
(e.g. Blackburn, Protective Relaying, from memory)."""
_REGULATION = 0.01
"""Voltage a generator's regulator lets go from no load to full load; common practice, no source."""
_DROOP = 0.03
"""Frequency its governor lets go from no load to full load; common practice, no source."""
_FREQUENCY_DIP = 0.10
"""Frequency lost for a moment over the step of power over the rating; common practice, no source."""
_GENERATOR_POWER_FACTOR = 0.8
"""On which a generator's rating in kW rests; common practice, no source."""

_CONTROL_SHARE = 0.5
"""Load of the control transformer over its rating, everything called; common practice, no source."""
_CONTROL_REGULATION = 0.06
"""Voltage it loses at full load, as `checks.electrical` takes it; common practice, no source."""

_TO_GROUND = 1e-5
"""S; cable, heaters and meters, so that a line fed by nothing lies at ground."""
_CONDUCTOR_RISE = 45.0
"""K of a conductor over air of 30 °C at its ampacity: NEC table 310.16, 75 °C."""
_ROUNDS = 60
_SETTLED = 1e-6
_DAMPED = 16
_EARLY = 8
"""Rounds after which voltages that still fall below what a motor can turn at are taken to collapse."""
_IDLE = 1e9
"""Ω, of a motor that draws nothing."""

Complex = NDArray[np.complexfloating[Any, Any]]
Floats = NDArray[np.float64]
Three = tuple[complex, complex, complex]

_A = np.exp(2j * pi / 3.0)
_SEQUENCES: Complex = np.array([[1.0, 1.0, 1.0], [1.0, _A**2, _A], [1.0, _A, _A**2]])
"""Columns: zero, positive and negative sequence of lines in their order."""
_CIRCULANTS: Complex = np.array([np.outer(_SEQUENCES[:, s], _SEQUENCES[:, s].conj()) / 3.0 for s in range(3)])
_SIDES: Complex = np.array([[1, -1, 0], [0, 1, -1], [-1, 0, 1]], dtype=np.complex128)
"""Voltages of the delta's sides (L1-L2, L2-L3, L3-L1) from those of its corners."""
_ONES: Complex = np.eye(3, dtype=np.complex128)


@dataclass(frozen=True)
class Load:
    """What one motor is asked for.

    Attributes:
        id: "pump", or "compressor_2", "fan_5" by number.
        rated_current: A, at which `power` is one: a compressor's at its design point, others' on the plate.
        power: shaft power over that at this current, not below zero.
        no_load_share: magnetising over that current, 0 to 1.
        motor: its condition.
        called: whether the control asks for it.
        turned: whether it turned before a line was lost; one that did not does not start on two lines.
    """

    id: str
    rated_current: float
    power: float
    no_load_share: float
    motor: condition.Motor
    called: bool
    turned: bool = True


@dataclass(frozen=True)
class Running:
    """One motor on the supply.

    Attributes:
        energised: current flows.
        turning: it turns. One that is energised and does not draws the current of a motor at rest, till its
            protection opens.
        currents: A in its three lines, from the unit into the motor.
        rolled: the same after its leads were moved on by one line each.
        drops: V across each pole of its contactor.
        voltages: V at its terminals, to the source's neutral.
        power: W it takes.
    """

    energised: bool
    turning: bool
    currents: Three
    rolled: Three
    drops: tuple[float, float, float]
    voltages: Three
    power: float


@dataclass(frozen=True)
class Feeder:
    """The cable that feeds the unit: copper.

    Attributes:
        size: choice of point `feeder_size` nearest to it.
        area: of one conductor, m².
        sets: conductors in parallel.
        length: one way, m.
        temperature: of the conductors, K.
        resistance, reactance: Ω of one line.
    """

    size: str
    area: float
    sets: int
    length: float
    temperature: float
    resistance: float
    reactance: float


@dataclass(frozen=True)
class Electrics:
    """A solved supply; voltages in V to the source's neutral, currents in A into the unit, as phasors.

    Attributes:
        voltages: at the unit.
        source: where the feeder begins.
        behind: of the source's machine or network, behind its impedance.
        currents: into the unit.
        source_power: W that the source gives behind its impedance.
        control_power: W that the control transformer takes.
        frequency: Hz.
        feeder: the cable.
        motors: by id.
    """

    voltages: Three
    source: Three
    behind: Three
    currents: Three
    source_power: float
    control_power: float
    frequency: float
    feeder: Feeder
    motors: Mapping[str, Running]

    def between(self, at: Literal["unit", "source"] = "unit") -> tuple[float, float, float]:
        """Return the voltages (V) L1-L2, L2-L3 and L3-L1."""
        one, two, three = self.voltages if at == "unit" else self.source
        return abs(one - two), abs(two - three), abs(three - one)


# --- what the sheet says ---


def fan_rating(sheet: DataSheet, number: int) -> float:
    """Return the rated current (A) of a fan; without one a share of a tenth of the compressors' all together.

    Raises:
        ValueError: when the data sheet has no such fan.
    """
    left = number
    for fan in sheet.fans:
        if left <= fan.count:
            if fan.rated_current is not None:
                return fan.rated_current
            return (
                0.10 * sum(one.rated_current for one in sheet.compressors) / sum(fan.count for fan in sheet.fans)
            )
        left -= fan.count
    raise ValueError(f"the data sheet gives {number - left} condenser fans, so none is number {number}")


def motor_loads(
    sheet: DataSheet, what: condition.Condition, powers: Mapping[str, float], *, turned: bool = True
) -> tuple[Load, ...]:
    """Return all motors of a unit, as its data sheet and the habits of `checks` have them.

    Args:
        sheet: the unit's.
        what: its condition.
        powers: by motor's id, shaft power over that at the design point (compressors) or on the plate (pump
            and fans), of those that are called; all others stand.
        turned: whether the motors turned before a line was lost.

    Raises:
        ValueError: for a power of a motor that the unit does not have.
    """
    loads = []
    for number, compressor in enumerate(sheet.compressors, 1):
        current = COMPRESSOR_SHARE * compressor.rated_current
        loads.append(_load(f"compressor_{number}", current, powers, what.compressor(number), turned))
    if sheet.water.pump is not None:
        loads.append(_load("pump", sheet.water.pump.rated_current, powers, what.pump, turned))
    for number in range(1, sum(fan.count for fan in sheet.fans) + 1):
        loads.append(_load(f"fan_{number}", fan_rating(sheet, number), powers, what.fan(number), turned))
    known = {load.id for load in loads}
    if strange := sorted(set(powers) - known):
        raise ValueError(f"the unit has no {', '.join(strange)}; its motors are {', '.join(sorted(known))}")
    return tuple(loads)


def _load(name: str, current: float, powers: Mapping[str, float], motor: condition.Motor, turned: bool) -> Load:
    share = NO_LOAD_SHARES[name.split("_")[0]]
    return Load(name, current, powers.get(name, 0.0), share, motor, name in powers, turned)


@dataclass(frozen=True)
class _Plate:
    """One motor's constants: Ω to neutral, and A."""

    at_rest: complex
    negative: complex
    stator: complex
    pole: float
    locked_rotor: float


@lru_cache(maxsize=512)
def _plate(voltage: float, rated: float, locked: float | None, resistance: float | None) -> _Plate:
    """Return a motor's constants from its plate: V, A, A at rest, and Ω between two cold leads."""
    locked = _LOCKED_ROTOR * rated if locked is None else locked
    size, one = voltage / (sqrt(3.0) * locked), voltage / (sqrt(3.0) * rated)
    at_rest = rect(size, acos(_START_POWER_FACTOR))
    return _Plate(
        at_rest=at_rest,
        negative=rect(size, acos(_NEGATIVE_POWER_FACTOR)),
        stator=complex(_STATOR_RESISTANCE * one if resistance is None else 0.5 * resistance, at_rest.imag / 2.0),
        pole=_POLE_DROP / rated,
        locked_rotor=locked,
    )


def _plate_of(sheet: DataSheet, load: Load) -> _Plate:
    kind, _, number = load.id.partition("_")
    if kind != "compressor":
        return _plate(sheet.electrical.voltage, load.rated_current, None, None)
    one = sheet.compressors[int(number) - 1]
    return _plate(sheet.electrical.voltage, one.rated_current, one.locked_rotor_current, one.winding_resistance)


def _pumps(sheet: DataSheet) -> list[float]:
    return [] if sheet.water.pump is None else [sheet.water.pump.rated_current]


def _ampacity(sheet: DataSheet) -> float:
    """Return the unit's minimum circuit ampacity (A), of its plate or of its motors."""
    if sheet.electrical.minimum_circuit_ampacity is not None:
        return sheet.electrical.minimum_circuit_ampacity
    rated = [one.rated_current for one in sheet.compressors]
    return motors.minimum_ampacity(rated, [*_pumps(sheet), other_loads(sheet)[0]])


def _control_rating(sheet: DataSheet) -> float:
    """Return the rating (VA) of the control transformer; without one a hundredth of the compressors' current."""
    power = sheet.electrical.control_transformer_power
    if power is not None:
        return power
    return 0.01 * sum(one.rated_current for one in sheet.compressors) * sheet.electrical.voltage


# --- the feeder and the source ---


def feeder(sheet: DataSheet, site: condition.Site, what: condition.Supply, current: float) -> Feeder:
    """Return the cable that feeds a unit.

    Where the site gives no area it is the smallest whose ampacity is enough for the unit's minimum circuit
    ampacity, with as many in parallel as that takes (NEC 215.2 and table 310.16).

    Args:
        sheet: the unit's.
        site: where it stands.
        what: the supply's condition.
        current: A in a line, that warms the conductors.
    """
    needed = _ampacity(sheet)
    area, sets = site.feeder_area, 1
    if area is None:
        area, sets = _sized(needed)
    carried = sets * conductors.ampacity(min(max(area, 8.37e-6), 253.4e-6))
    rise = _CONDUCTOR_RISE * (current / carried) ** 2
    temperature = min(max(site.ambient + rise, 235.0), 395.0)
    frequency = sheet.electrical.frequency * what.frequency
    factor = what.feeder * site.feeder_length / sets
    return Feeder(
        size=min(CONDUCTORS, key=lambda name: abs(CONDUCTORS[name] - 1e6 * area)),
        area=area,
        sets=sets,
        length=site.feeder_length,
        temperature=temperature,
        resistance=factor * conductors.ac_resistance(area, "copper", temperature, frequency),
        reactance=factor * conductors.reactance(area, frequency),
    )


@lru_cache(maxsize=64)
def _sized(needed: float) -> tuple[float, int]:
    sets = 1
    while needed / sets > 380.0:
        sets += 1
    return conductors.area_for(needed / sets), sets


def _behind(sheet: DataSheet, site: condition.Site, what: condition.Supply) -> Complex:
    """Return the source's voltages to neutral, whole: with no line lost and forwards.

    Three voltages between lines close a triangle, so their magnitudes fix it; the neutral is taken at its
    centre, so that there is no zero sequence.
    """
    mean = (site.source_voltage or sheet.electrical.voltage) * what.voltage
    first, second, third = mean * (1.0 + what.unbalance), mean, mean * (1.0 - what.unbalance)
    along = (first**2 + third**2 - second**2) / (2.0 * first)
    corners = np.array([0.0, -first, -along + 1j * sqrt(max(third**2 - along**2, 0.0))])
    centred: Complex = corners - corners.mean()
    turned: Complex = centred * np.exp(-1j * np.angle(centred[0]))
    return turned


def _source_impedances(sheet: DataSheet, site: condition.Site, what: condition.Supply) -> tuple[complex, complex]:
    """Return the positive- and negative-sequence impedance (Ω) of the source, running."""
    if site.generator_rating is None:
        rating = _GRID_MULTIPLE * _ampacity(sheet)
        size = _GRID_IMPEDANCE * sheet.electrical.voltage / (sqrt(3.0) * rating) * what.source_impedance
        grid = complex(size, 4.0 * size) / sqrt(17.0)
        return grid, grid
    one = sheet.electrical.voltage / (sqrt(3.0) * site.generator_rating) * what.source_impedance
    return complex(_REGULATION * one), 1j * _SUBTRANSIENT * one


def _transient_impedance(sheet: DataSheet, site: condition.Site, what: condition.Supply) -> complex:
    """Return the source's impedance (Ω) at the first instant of a start."""
    if site.generator_rating is None:
        return _source_impedances(sheet, site, what)[0]
    reactance = motors.generator_reactance(site.generator_rating, sheet.electrical.voltage, _SUBTRANSIENT)
    return 1j * reactance * what.source_impedance


def _joined(matrix: Complex, lost: int | None) -> Complex:
    """Return the admittance of a series impedance between two sets of lines, one of which may be open."""
    if lost is None:
        return np.linalg.inv(matrix)
    kept = [line for line in range(3) if line != lost]
    admittance = np.zeros((3, 3), dtype=np.complex128)
    admittance[np.ix_(kept, kept)] = np.linalg.inv(matrix[np.ix_(kept, kept)])
    return admittance


# --- the motors ---


@dataclass(frozen=True)
class _Group:
    """The motors that are alike, one beside the other in arrays."""

    members: tuple[tuple[str, ...], ...]
    count: Floats
    rated: Floats
    power: Floats
    share: Floats
    extra: Floats
    at_rest: Complex
    negative: Complex
    fault: Complex
    poles: Complex
    lost: tuple[int | None, ...]
    standing: NDArray[np.bool_]


def _grouped(sheet: DataSheet, loads: Sequence[Load], line_lost: bool) -> _Group:
    alike: dict[tuple[Any, ...], list[str]] = {}
    for load in loads:
        if load.power < 0.0 or load.rated_current <= 0.0:
            raise ValueError(
                f"{load.id} is asked for {load.power:.2f} of its power at {load.rated_current:.2f} A; a power is "
                "not below zero and a rated current is above it"
            )
        plate = _plate_of(sheet, load)
        kind = (plate, load.rated_current, load.power, load.no_load_share, load.motor, load.turned)
        alike.setdefault(kind, []).append(load.id)
    kinds = list(alike)
    motors_ = [kind[4] for kind in kinds]
    lost = tuple(None if motor.line_lost is None else LINES.index(motor.line_lost) for motor in motors_)
    poles = np.array(
        [
            [kind[0].pole, kind[0].pole + motor.pole, kind[0].pole]
            for kind, motor in zip(kinds, motors_, strict=True)
        ],
        dtype=np.complex128,
    ).reshape(-1, 3)
    return _Group(
        members=tuple(tuple(names) for names in alike.values()),
        count=np.array([len(names) for names in alike.values()], dtype=float),
        rated=np.array([kind[1] for kind in kinds]),
        power=np.array([kind[2] for kind in kinds]),
        share=np.array([kind[3] for kind in kinds]),
        extra=np.array([motor.miswired for motor in motors_]),
        at_rest=np.array([kind[0].at_rest for kind in kinds], dtype=np.complex128),
        negative=np.array([kind[0].negative for kind in kinds], dtype=np.complex128),
        fault=np.array([_fault(kind[0], motor) for kind, motor in zip(kinds, motors_, strict=True)]),
        poles=poles,
        lost=lost,
        standing=np.array(
            [not kind[5] and (line_lost or place is not None) for kind, place in zip(kinds, lost, strict=True)],
            dtype=bool,
        ),
    )


def _fault(plate: _Plate, motor: condition.Motor) -> complex:
    """Return the impedance (Ω) that a winding's fault puts in series with the delta's side from L1 to L2.

    A bad joint or a break adds resistance; shorted turns take resistance and leakage reactance away.
    """
    side = 3.0 * plate.stator
    return (motor.winding - 1.0) * (complex(side.real) if motor.winding >= 1.0 else side)


def _forward(group: _Group, share_of_voltage: Floats, neutral: float, frequency: float) -> Complex:
    """Return the positive-sequence impedances (Ω): the circle diagram of `electrical.motor_current`.

    The magnetising current goes with voltage over frequency. A motor that is miswired to draw more draws it
    at the same power, so the more of it magnetises; one that draws less gives less.
    """
    voltage = np.maximum(share_of_voltage, 1e-3)
    working = group.rated * np.sqrt(1.0 - group.share**2) * group.power / voltage
    magnetising = group.rated * group.share * voltage / frequency
    more = group.extra**2 * (working**2 + magnetising**2) - working**2
    current = np.where(
        group.extra > 1.0,
        working - 1j * np.sqrt(np.maximum(more, 0.0)),
        group.extra * (working - 1j * magnetising),
    )
    idle = np.abs(current) < 1e-9
    turning = np.where(idle, _IDLE, voltage * neutral / np.where(idle, 1.0, current))
    return np.asarray(np.where(group.standing, group.at_rest, turning))


def _admittances(
    group: _Group, forward: Complex, reversed_: bool, side: int = 0
) -> tuple[Complex, Complex, Complex]:
    """Return, for each kind of motor, the admittance of its sides, of its terminals, and behind its contactor.

    Args:
        group: the motors.
        forward: their positive-sequence impedances, Ω to neutral.
        reversed_: whether they turn against the order of the lines.
        side: of the delta with the fault.
    """
    backward = np.where(group.standing, group.at_rest, group.negative)
    first, second = (backward, forward) if reversed_ else (forward, backward)
    zero = 2.0 / (3.0 * backward)  # what goes round in the delta meets leakage alone, half of it
    sides = (
        zero[:, None, None] * _CIRCULANTS[0]
        + (1.0 / (3.0 * first))[:, None, None] * _CIRCULANTS[1]
        + (1.0 / (3.0 * second))[:, None, None] * _CIRCULANTS[2]
    )
    # The fault is an update of rank one: Sherman and Morrison.
    if group.fault.any():
        row, column = sides[:, side, :], sides[:, :, side]
        factor = group.fault / (1.0 + group.fault * sides[:, side, side])
        sides = sides - factor[:, None, None] * column[:, :, None] * row[:, None, :]
    terminals = _SIDES.T @ sides @ _SIDES
    behind = np.linalg.solve(_ONES + terminals * group.poles[:, None, :], terminals)
    for place, lost in enumerate(group.lost):
        if lost is not None:
            behind[place] = _opened(behind[place], lost)
    return sides, terminals, behind


def _opened(admittance: Complex, line: int) -> Complex:
    """Return an admittance with one of its lines open: that node is eliminated (Kron)."""
    left: Complex = admittance - np.outer(admittance[:, line], admittance[line, :]) / admittance[line, line]
    left[line, :] = 0.0
    left[:, line] = 0.0
    return left


def _at_terminals(group: _Group, terminals: Complex, currents: Complex, lines: Complex) -> Complex:
    """Return the voltages at the motors' terminals; an open lead shows what the motor makes on it."""
    voltages: Complex = lines[None, :] - group.poles * currents
    for place, lost in enumerate(group.lost):
        if lost is not None:
            own = terminals[place]
            others = [line for line in range(3) if line != lost]
            voltages[place, lost] = -(own[lost, others] @ voltages[place, others]) / own[lost, lost]
    return voltages


# --- the whole ---


def supply(sheet: DataSheet, site: condition.Site, what: condition.Supply, loads: Sequence[Load]) -> Electrics:
    """Return the solved supply of a unit.

    Node voltages by fixed point: the motors' impedances from the voltages at them, the voltages from all
    impedances. A motor whose power is more than it can turn at its voltage stands, and is solved again so.

    Args:
        sheet: the unit's.
        site: where it stands and what feeds it.
        what: the condition of the supply.
        loads: all its motors; see `motor_loads`.

    Raises:
        ValueError: for a power below zero or a rated current not above it, or an unbalance of a half or more.
    """
    if not -0.5 < what.unbalance < 0.5:
        raise ValueError(f"an unbalance of {100 * what.unbalance:.0f} % is outside -50 to 50 %")
    frequency = sheet.electrical.frequency * what.frequency
    alive = not what.off and what.voltage > 0.0
    fed = [load for load in loads if load.called and not load.motor.dead and alive and not what.control_off]
    cable = feeder(sheet, site, what, sum(load.rated_current * max(load.power, 0.5) for load in fed))
    if not alive:
        return _dead(loads, frequency, cable)
    group = _grouped(sheet, fed, what.line_lost is not None)
    whole = _behind(sheet, site, what)
    behind = whole[[0, 2, 1]] if what.reversed else whole
    lost = None if what.line_lost is None else LINES.index(what.line_lost)
    first, second = _source_impedances(sheet, site, what)
    if what.reversed:
        first, second = second, first
    inside: Complex = first * (_CIRCULANTS[0] + _CIRCULANTS[1]) + second * _CIRCULANTS[2]
    outside = np.diag(np.full(3, complex(cable.resistance, cable.reactance)))
    outside[0, 0] += what.lug
    series = _joined(inside + outside, lost)

    while True:
        lines, currents, parts = _solved(sheet, what, group, series, behind)
        overdrawn = _overdrawn(group, parts.voltage)
        if not overdrawn.any():
            break
        group = replace(group, standing=group.standing | overdrawn)

    into = series @ (behind - lines)
    source = behind - inside @ into
    states = {load.id: _still() for load in loads}
    if fed:
        terminals = _at_terminals(group, parts.terminals, currents, lines)
        rolled = np.where((group.fault == 0.0)[:, None], currents, _rolled(group, parts, lines, what.reversed))
        drops = np.abs(lines[None, :] - terminals)
        power = np.real(np.sum(terminals * currents.conj(), axis=1))
        for place, names in enumerate(group.members):
            state = Running(
                energised=True,
                turning=not bool(group.standing[place]),
                currents=_three(currents[place]),
                rolled=_three(rolled[place]),
                drops=(float(drops[place, 0]), float(drops[place, 1]), float(drops[place, 2])),
                voltages=_three(terminals[place]),
                power=float(power[place]),
            )
            states.update(dict.fromkeys(names, state))
    across = abs(lines[0] - lines[1])
    return Electrics(
        voltages=_three(lines),
        source=_three(source),
        behind=_three(behind),
        currents=_three(into),
        source_power=float(np.real(np.sum(behind * into.conj()))),
        control_power=float(across**2 * _control_admittance(sheet, what)),
        frequency=frequency,
        feeder=cable,
        motors=states,
    )


@dataclass(frozen=True)
class _Parts:
    """What the last round had: the motors' inner voltage over the nameplate's, and their admittances."""

    voltage: Floats
    forward: Complex
    terminals: Complex


def _solved(
    sheet: DataSheet, what: condition.Supply, group: _Group, series: Complex, behind: Complex
) -> tuple[Complex, Complex, _Parts]:
    """Return the unit's line voltages, each kind of motor's currents, and the parts they came from."""
    nameplate = sheet.electrical.voltage
    hanging = np.diag(np.full(3, complex(_TO_GROUND)))
    hanging[0, 0] += what.ground_leak * sqrt(3.0) / nameplate
    hanging[:2, :2] += _control_admittance(sheet, what) * np.array([[1.0, -1.0], [-1.0, 1.0]])
    fed = series @ behind
    kinds = len(group.members)
    voltage = np.ones(kinds)
    sequence = _SEQUENCES[:, 2 if what.reversed else 1].conj() / 3.0
    for number in range(_ROUNDS):
        if not kinds:
            lines = np.linalg.solve(series + hanging, fed)
            empty = np.zeros((0, 3), dtype=np.complex128)
            return lines, empty, _Parts(voltage, empty[:, 0], np.zeros((0, 3, 3), dtype=np.complex128))
        forward = _forward(group, voltage, nameplate / sqrt(3.0), what.frequency)
        sides, terminals, admittance = _admittances(group, forward, what.reversed)
        together = np.tensordot(group.count, admittance, axes=1)
        lines = np.linalg.solve(series + hanging + together, fed)
        currents: Complex = admittance @ lines
        across = _at_terminals(group, terminals, currents, lines) @ _SIDES.T
        inner = 3.0 * forward * ((sides @ across[:, :, None])[:, :, 0] @ sequence)
        found = np.abs(inner) / nameplate
        moved = np.max(np.abs(found - voltage))
        falling = found < voltage
        # Where plain substitution has not settled by then it swings: half steps do.
        voltage = found if number < _DAMPED else 0.5 * (found + voltage)
        if moved < _SETTLED or (number > _EARLY and (falling & _overdrawn(group, voltage)).any()):
            break
    return lines, currents, _Parts(voltage, forward, terminals)


def _overdrawn(group: _Group, voltage: Floats) -> NDArray[np.bool_]:
    """Say which motors are asked for more than they can turn at a voltage (over the nameplate's)."""
    most = _PULL_OUT * voltage**2
    asked: NDArray[np.bool_] = (group.power > most) & ~group.standing
    return asked


def _rolled(group: _Group, parts: _Parts, lines: Complex, reversed_: bool) -> Complex:
    """Return the currents with every motor's leads moved on by one line, at the same line voltages."""
    if not group.fault.any():
        return np.zeros((len(group.members), 3), dtype=np.complex128)
    _, _, admittance = _admittances(group, parts.forward, reversed_, side=1)
    currents: Complex = admittance @ lines
    return currents


def _control_admittance(sheet: DataSheet, what: condition.Supply) -> float:
    if what.control_off:
        return 0.0
    return _CONTROL_SHARE * what.control_load * _control_rating(sheet) / sheet.electrical.voltage**2


def _three(values: Complex) -> Three:
    return complex(values[0]), complex(values[1]), complex(values[2])


def _still() -> Running:
    none = (0j, 0j, 0j)
    return Running(False, False, none, none, (0.0, 0.0, 0.0), none, 0.0)


def _dead(loads: Sequence[Load], frequency: float, cable: Feeder) -> Electrics:
    none = (0j, 0j, 0j)
    states = {load.id: _still() for load in loads}
    return Electrics(none, none, none, none, 0.0, 0.0, frequency, cable, states)


# --- what can be read ---


def supply_truths(
    sheet: DataSheet,
    site: condition.Site,
    what: condition.Condition,
    electrics: Electrics,
    loads: Sequence[Load],
) -> dict[str, float | str]:
    """Return the truth at every electrical measuring point, SI; choices by their id.

    Currents are there for motors that are called (zero for one that is dead), what needs a contactor closed
    only for motors that are energised, a generator's points only where there is one. Windings stand at the
    outdoor air's temperature, as after some hours at rest.

    Args:
        sheet: the unit's.
        site: where it stands.
        what: its condition.
        electrics: of `supply`.
        loads: the same as went into it.
    """
    truths: dict[str, float | str] = {}
    _put(truths, "voltage", PAIRS, electrics.between())
    _put(truths, "source_voltage", PAIRS, electrics.between("source"))
    for line, volts in zip(LINES, electrics.voltages, strict=True):
        truths[f"voltage_{line}_ground"] = abs(volts)
    neutral = sheet.electrical.voltage / sqrt(3.0)
    for place, (line, volts) in enumerate(zip(LINES, electrics.voltages, strict=True)):
        truths[f"reference_voltage_{line}"] = abs(volts - neutral * complex(_A ** (-place)))
    truths["unit_current"] = sum(abs(one) for one in electrics.currents) / 3.0
    truths["phase_sequence"] = _sequence(electrics.voltages)
    truths["power_indication"] = "dark" if _control_dead(electrics, what.supply) else "lit"
    truths |= nameplate_truths(sheet, site, what.supply, electrics.feeder)
    truths |= _control_truths(sheet, what.supply, electrics)
    truths |= _start_truths(sheet, site, what.supply, electrics, loads)
    for load in loads:
        truths |= _motor_truths(sheet, site, load, electrics.motors[load.id])
    return truths


def nameplate_truths(
    sheet: DataSheet, site: condition.Site, what: condition.Supply, cable: Feeder
) -> dict[str, float | str]:
    """Return what is copied from plates and markings: feeder, breaker, the unit's plate, the generator's."""
    ampacity, protection = sheet.electrical.minimum_circuit_ampacity, sheet.electrical.maximum_protection
    largest = protection
    if largest is None:
        rated = [one.rated_current for one in sheet.compressors]
        largest = motors.protection_ceiling(rated, [*_pumps(sheet), other_loads(sheet)[0]])
    truths: dict[str, float | str] = {
        "feeder_length": cable.length,
        "feeder_area": 1e6 * cable.area,
        "feeder_sets": float(cable.sets),
        "feeder_size": cable.size,
        "feeder_metal": "copper",
        "feeder_temperature": cable.temperature,
        "breaker_rating": motors.standard_rating(largest) * what.breaker,
    }
    if ampacity is not None:
        truths["nameplate_ampacity"] = ampacity
    if protection is not None:
        truths["nameplate_protection"] = protection
    if site.generator_rating is not None:
        truths["generator_current"] = site.generator_rating
        truths["generator_reactance"] = _SUBTRANSIENT
    return truths


def _sequence(voltages: Three) -> str:
    """Return what a phase rotation indicator shows: it wants all three pairs, and tells their order."""
    one, two, three = voltages
    pairs = (abs(one - two), abs(two - three), abs(three - one))
    if min(pairs) < 0.7 * max(pairs) or max(pairs) < 50.0:
        return "missing"
    forward = abs(one + _A * two + _A**2 * three)
    return "forward" if forward > abs(one + _A**2 * two + _A * three) else "reversed"


def _control_dead(electrics: Electrics, what: condition.Supply) -> bool:
    """Say whether the control circuit has too little to light anything: a fifth of its voltage."""
    one, two, _ = electrics.behind
    whole = abs(one - two)
    return what.control_off or whole == 0.0 or electrics.between()[0] < 0.2 * whole


def _control_truths(sheet: DataSheet, what: condition.Supply, electrics: Electrics) -> dict[str, float | str]:
    """Return voltages and current of the control circuit, its transformer a series impedance from L1 to L2.

    Its ratio is such that nameplate voltage comes of nameplate voltage under the usual load.
    """
    nominal = sheet.electrical.control_voltage
    share = 0.0 if what.control_off else electrics.between()[0] / sheet.electrical.voltage
    usual = _CONTROL_REGULATION * _CONTROL_SHARE
    free = nominal * share * what.control * (1.0 + usual)
    loaded = free / (1.0 + usual * what.control_load)
    rating = _control_rating(sheet) / nominal
    return {
        "control_voltage": loaded,
        "control_voltage_no_load": free,
        "control_current": _CONTROL_SHARE * what.control_load * rating * loaded / nominal,
    }


def _start_truths(
    sheet: DataSheet,
    site: condition.Site,
    what: condition.Supply,
    electrics: Electrics,
    loads: Sequence[Load],
) -> dict[str, float | str]:
    """Return what voltage and frequency fall to while the largest compressor starts, the rest as it is."""
    nameplate = sheet.electrical.voltage
    frequency = electrics.frequency
    truths: dict[str, float | str] = {"frequency": frequency, "frequency_at_start": frequency}
    present = sum(electrics.between()) / 3.0
    if site.generator_rating is not None:
        rated = sqrt(3.0) * nameplate * site.generator_rating * _GENERATOR_POWER_FACTOR
        truths["frequency_no_load"] = frequency * (1.0 + _DROOP * electrics.source_power / rated)
    plates = [(_plate_of(sheet, load), load) for load in loads if load.id.startswith("compressor_")]
    if not plates or present == 0.0:
        truths["voltage_at_start"] = present
        return truths
    plate, load = max(plates, key=lambda one: one[0].locked_rotor)
    # Where it runs, the voltage before its start was higher by its own part of the drop.
    drawn = sum(abs(one) for one in electrics.currents)
    own = sum(abs(one) for one in electrics.motors[load.id].currents)
    open_voltage = sum(abs(electrics.behind[i] - electrics.behind[(i + 1) % 3]) for i in range(3)) / 3.0
    if drawn > 0.0 and what.line_lost is None:
        present += (open_voltage - present) * min(own / drawn, 1.0)
    through = _transient_impedance(sheet, site, what)
    lowest = motors.start_voltage(
        present,
        nameplate,
        plate.locked_rotor,
        _START_POWER_FACTOR,
        through.real + electrics.feeder.resistance + what.lug / 3.0,
        through.imag + electrics.feeder.reactance,
    )
    truths["voltage_at_start"] = lowest * (1.0 - what.hunting)
    if site.generator_rating is not None:
        rated = sqrt(3.0) * nameplate * site.generator_rating * _GENERATOR_POWER_FACTOR
        step = sqrt(3.0) * lowest**2 / nameplate * plate.locked_rotor * _START_POWER_FACTOR
        dip = _FREQUENCY_DIP * what.source_impedance * step / rated + what.hunting
        truths["frequency_at_start"] = frequency * (1.0 - min(dip, 0.5))
    return truths


def _motor_truths(sheet: DataSheet, site: condition.Site, load: Load, state: Running) -> dict[str, float | str]:
    truths: dict[str, float | str] = {}
    kind, _, number = load.id.partition("_")
    after = f"_{number}" if number else ""
    if number and number not in FAMILIES["number"]:
        return truths  # there are no points for more than eight of a kind
    if load.called:
        _put(truths, f"{kind}_current{after}", LINES, tuple(abs(one) for one in state.currents))
    if kind == "fan":
        return truths
    before = "pump_" if kind == "pump" else ""
    if state.energised:
        _put(truths, f"{kind}_current_rolled{after}", LINES, tuple(abs(one) for one in state.rolled))
        _put(truths, f"{before}contactor_drop{after}", LINES, state.drops)
    plate = _plate_of(sheet, load)
    cold = 2.0 * plate.stator.real
    resistance = motors.winding_resistance_at(cold, 293.15, site.ambient)
    _put(truths, f"{before}winding_resistance{after}", PAIRS, _lead_to_lead(resistance, load.motor.winding))
    # IEEE Std 43-2013, 6.3: twice as much for every 10 K colder.
    insulation = load.motor.insulation / motors.insulation_at_40(1.0, min(max(site.ambient, 263.15), 373.15))
    truths[f"{before}insulation_resistance{after}"] = insulation
    truths[f"{before}winding_temperature{after}"] = site.ambient
    return truths


def _lead_to_lead(healthy: float, factor: float) -> tuple[float, float, float]:
    """Return the resistances (Ω) between leads of a delta, one side of which is off by a factor.

    >>> _lead_to_lead(1.0, 1.0)
    (1.0, 1.0, 1.0)
    """
    side = 1.5 * healthy
    own, other = factor * side, side
    ring = own + 2.0 * other
    return own * 2.0 * other / ring, other * (own + other) / ring, other * (own + other) / ring


def _put(truths: dict[str, float | str], prefix: str, members: Sequence[str], values: Sequence[float]) -> None:
    for member, value in zip(members, values, strict=True):
        truths[f"{prefix}_{member}"] = value

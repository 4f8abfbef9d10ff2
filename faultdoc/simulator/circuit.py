"""Steady states of the refrigerant circuits, all of a unit at once and as many units at once as wanted.

Four unknowns a circuit: evaporating and condensing temperature (dew), the share of the evaporator that
boils, and the share of the condenser that holds liquid. Four balances close them: heat in the evaporator,
heat in the condenser, refrigerant through compressor and valve, and the charge.

- Evaporator: all circuits cool one stream of water side by side; along the barrel dT/dA = -sum(UA (T - Te))/C,
  so that the water nears the mean of the evaporating temperatures weighted by UA (effectiveness and number of
  transfer units, Kays and London). What does not boil superheats the gas towards the water's inlet temperature.
- Condenser: effectiveness 1 - exp(-NTU); what is flooded subcools the liquid towards the air.
- Compressor: volumetric efficiency 1 - c (r^(1/k) - 1) (clearance volume, Stoecker and Jones, Refrigeration and
  Air Conditioning, chapter on compressors), isentropic efficiency.
- Valve: m = opening x A sqrt(2 rho dp), opening proportional to superheat; gas in the liquid chokes it.
- Charge: liquid in the condenser's flooded share and the liquid line, boiling refrigerant in proportion to the
  wetted shares. Subcooling follows charge.

Solved by Newton's method with differences for the derivatives, vectorised over units and circuits. A state
beyond what the refrigerant's tables reach (a condenser without air) is held at their edge and marked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from faultdoc.physics import air, atmosphere, refrigerant, vapour
from faultdoc.simulator.condition import Circuit
from faultdoc.simulator.machine import (
    CHARGE_SHARES,
    FLOODED,
    LIQUID_LINE_DROP,
    OPENING,
    WATER_SIDE,
    WETTED,
    Machine,
)

__all__ = ["Around", "Cycle", "Health", "cycles"]

Floats = NDArray[np.float64]

UNEVEN_INLET = 0.5
"""K by which the coil's mean air is warmer than the outdoor air on a free site; common practice, no source."""
STILL_AIR = 0.03
"""Share of design flow that a fan standing still lets pass by buoyancy; common practice, no source."""
BACKWARDS_AIR = 0.30
"""Share of its flow that a fan turning backwards moves; common practice, no source."""
FLOW_EXPONENT = 0.65
"""Film coefficient of water across the barrel's tubes over flow, (Zukauskas: 0.6 to 0.7 across bundles)."""
CHOKE = 25.0
"""Fall of a valve's flow with the share of gas in front of it: 1 / (1 + CHOKE x). Common practice, no source."""
SOLVED = 1e-4
"""Largest relative error of a balance in a state that counts as found."""
VOID = 0.8
"""Mean share of the volume that is gas where a coil condenses; usual for round tubes, common practice."""
_ROUNDS = 40
_PLAIN = 8
_TOLERANCE = 1e-7
_STEPS = np.array([6.0, 8.0, 0.12, 0.08])
_SHARES = np.array([1.0, 0.5, 0.2, 0.05])
_NUDGES = np.array([1e-3, 1e-3, 1e-5, 1e-5])


@dataclass(frozen=True)
class Around:
    """What surrounds the circuits; arrays of shape (B,), or floats for one unit.

    Attributes:
        water_in: K.
        water_rate: heat capacity rate of the water, W/K; zero for none.
        water_flow: over design flow.
        ambient: outdoor air, K.
        elevation: m.
    """

    water_in: Any
    water_rate: Any
    water_flow: Any
    ambient: Any
    elevation: Any


@dataclass(frozen=True)
class Health:
    """Condition and part load of all circuits as arrays of shape (B, C); see `condition.Circuit` for the fields.

    Attributes:
        running: share of the circuit's displacement that pumps; 0 for a circuit at rest.
        fans: share of the circuit's fans that turn the right way.
        fans_backwards: share that turns backwards.
    """

    running: Floats
    fans: Floats
    fans_backwards: Floats
    charge: Floats
    foreign_gas: Floats
    valve_most: Floats
    valve_least: Floats
    superheat_shift: Floats
    liquid_restriction: Floats
    suction_restriction: Floats
    evaporator_fouling: Floats
    evaporator_wetting: Floats
    coil_fouling: Floats
    airflow: Floats
    recirculation: Floats
    volumetric: Floats
    isentropic: Floats
    suction_gain: Floats
    hot_gas: Floats

    @classmethod
    def of(
        cls,
        circuits: Sequence[Sequence[Circuit]],
        running: Floats,
        fans: Floats,
        fans_backwards: Floats,
    ) -> Health:
        """Return the arrays for B units of C circuits each.

        Args:
            circuits: B rows of C conditions.
            running, fans, fans_backwards: shape (B, C).
        """
        own = {"running", "fans", "fans_backwards"}
        names = [one.name for one in fields(cls) if one.name not in own]
        table = {
            name: np.array([[getattr(one, name) for one in row] for row in circuits], dtype=np.float64)
            for name in names
        }
        return cls(running, fans, fans_backwards, **table)


@dataclass(frozen=True)
class Cycle:
    """Steady states of B units' circuits; arrays of shape (B, C) unless said otherwise.

    Temperatures K, pressures Pa absolute, heat and power W, mass flow kg/s, enthalpy J/kg. Of a circuit at
    rest everything that only a running one has is nan.

    Attributes:
        solved: whether all balances of the unit are met, shape (B,).
        at_edge: whether no state was found and a temperature went to the edge of the refrigerant's tables.
        evaporating, condensing: dew temperatures in evaporator and condenser.
        suction_pressure, discharge_pressure, liquid_pressure: at the gauges; the last behind the drier.
        suction_temperature: of the gas where the valve's bulb sits.
        compressor_inlet: of the gas there.
        discharge_temperature: of the gas leaving the compressors.
        liquid_temperature: before the valve.
        superheat, subcooling: as gauges and thermometers show them, subcooling by the discharge gauge.
        wetness: share of liquid in the suction gas.
        flash: share of gas in the liquid before the valve.
        opening: of the valve over its full opening.
        mass_flow, cooling, rejection, power: through compressors; heat taken from the water, given to the air;
            work into the gas.
        gained: heat that the suction gas takes up between bulb and compressor.
        air_in, air_out: at the condenser.
        water_out: leaving the barrel, shape (B,).
        wetted, flooded: the shares solved for.
        enthalpies: h1 (compressor's inlet), h2 (discharge), h3 (liquid), shape (3, B, C).
        residual: largest of the balances' errors, relative, shape (B,).
    """

    solved: NDArray[np.bool_]
    at_edge: NDArray[np.bool_]
    evaporating: Floats
    condensing: Floats
    suction_pressure: Floats
    discharge_pressure: Floats
    liquid_pressure: Floats
    suction_temperature: Floats
    compressor_inlet: Floats
    discharge_temperature: Floats
    liquid_temperature: Floats
    superheat: Floats
    subcooling: Floats
    wetness: Floats
    flash: Floats
    opening: Floats
    mass_flow: Floats
    cooling: Floats
    rejection: Floats
    power: Floats
    gained: Floats
    air_in: Floats
    air_out: Floats
    water_out: Floats
    wetted: Floats
    flooded: Floats
    enthalpies: Floats
    residual: Floats


def cycles(machine: Machine, around: Around, health: Health, start: Cycle | None = None) -> Cycle:
    """Return the steady states of B units of one data sheet.

    Args:
        machine: the sizes.
        around: water and air, arrays of shape (B,).
        health: condition and part load, arrays of shape (B, C).
        start: states near the ones sought; those of the design point otherwise.
    """
    problem = _Problem(machine, around, health)
    unknowns = problem.start(start)
    unknowns, residual = _newton(problem, unknowns)
    return problem.cycle(unknowns, residual)


class _Problem:
    """The balances of B units; unknowns have shape (..., B, C, 4)."""

    def __init__(self, machine: Machine, around: Around, health: Health):
        self.machine, self.health = machine, health
        column = {one.name: np.asarray(getattr(around, one.name), dtype=np.float64) for one in fields(around)}
        self.batch = health.running.shape[0]
        self.water_in, self.water_rate, self.water_flow, self.ambient, elevation = (
            np.broadcast_to(column[name], (self.batch,))[:, None]
            for name in ("water_in", "water_rate", "water_flow", "ambient", "elevation")
        )
        self.on = health.running > 0.0
        name = machine.refrigerant
        self.coldest, self.warmest = vapour.COLDEST + 1.0, vapour.warmest(name) - 1.0
        pressures = np.array([[atmosphere.pressure(float(one))] for one in elevation[:, 0]])
        standard = air.density(atmosphere.pressure(0.0), machine.sheet.rating_ambient)
        self.thin = pressures / (air.GAS_CONSTANT * self.ambient) / standard
        film = np.maximum(self.water_flow, 0.02) ** -FLOW_EXPONENT
        resistance = WATER_SIDE * film + (1.0 - WATER_SIDE) / np.maximum(health.evaporator_wetting, 0.02)
        self.conductance = machine.conductance / (resistance + health.evaporator_fouling)
        still = np.clip(1.0 - health.fans - health.fans_backwards, 0.0, 1.0)
        self.face = health.fans + BACKWARDS_AIR * health.fans_backwards + STILL_AIR * still
        per_fan = np.maximum(health.airflow * self.thin, 1e-3)
        self.film = per_fan**air.AIR_EXPONENT / (1.0 + health.coil_fouling)
        self.air_rate = machine.air_rate * self.face * per_fan
        self.air_units = machine.transfer_units * per_fan ** (air.AIR_EXPONENT - 1.0) / (1.0 + health.coil_fouling)

    def start(self, start: Cycle | None) -> Floats:
        if start is not None:
            return np.stack([start.evaporating, start.condensing, start.wetted, start.flooded], axis=-1)
        machine = self.machine
        unknowns = np.empty((*self.health.running.shape, 4))
        unknowns[..., 0] = np.minimum(machine.evaporating, self.water_in - 3.0)
        unknowns[..., 1] = self.ambient + (machine.condensing - machine.sheet.rating_ambient)
        unknowns[..., 2], unknowns[..., 3] = WETTED, FLOODED
        return self.held(unknowns)

    def held(self, unknowns: Floats) -> Floats:
        """Return the unknowns held to where the physics is defined."""
        low = np.array([self.coldest, self.coldest + 2.0, 1e-3, -0.6])
        high = np.array([self.warmest - 2.0, self.warmest, 1.6, 0.85])
        return np.clip(unknowns, low, high)

    def parts(self, unknowns: Floats) -> dict[str, Floats]:
        """Return everything that follows from the unknowns, and the four balances' errors."""
        m, h, name = self.machine, self.health, self.machine.refrigerant
        te, tc, wetted, flooded = (unknowns[..., i] for i in range(4))
        in_evaporator = refrigerant.dew_pressure(name, te)
        # Evaporator's outlet: superheat by the dry share, or liquid carried over.
        dry = np.maximum(1.0 - wetted, 0.0)
        lift = self.water_in - te
        superheat = np.maximum(lift, 0.0) * -np.expm1(-m.superheating * dry)
        wetness = np.minimum(np.maximum(wetted - 1.0, 0.0), 0.6)
        # Suction line.
        share = np.maximum(h.running, 1e-6)
        lost = np.minimum(h.suction_restriction * share**2, 0.8 * in_evaporator)
        low = in_evaporator - lost
        suction_dew = np.clip(refrigerant.dew_temperature(name, low), self.coldest, self.warmest)
        outlet = te + superheat
        inlet = outlet + h.suction_gain
        over = np.maximum(inlet - suction_dew, 0.0)
        h_outlet = vapour.enthalpy(name, te, superheat, wetness)
        h_inlet = np.where(wetness > 0.0, h_outlet, vapour.enthalpy(name, suction_dew, over))
        # Compressors.
        in_condenser = refrigerant.dew_pressure(name, tc)
        high = in_condenser + h.foreign_gas
        top = float(refrigerant.dew_pressure(name, self.warmest))
        high_dew = refrigerant.dew_temperature(name, np.minimum(high, top))
        ratio = np.maximum(high / low, 1.0)
        volumetric = h.volumetric * np.maximum(1.0 - m.clearance * (ratio ** (1.0 / 1.1) - 1.0), 0.02)
        density = vapour.density(name, suction_dew, over) / (1.0 - wetness)
        flow = m.displacement * h.running * volumetric * density
        off = np.log(ratio / m.ratio)
        efficiency = h.isentropic * m.efficiency * np.maximum(1.0 - 0.10 * off**2, 0.3)
        s_inlet = vapour.entropy(name, suction_dew, over, wetness)
        h_discharge = vapour.enthalpy_after_compression(name, high_dew, s_inlet, h_inlet, efficiency)
        h_discharge = np.maximum(h_discharge, h_inlet)
        # Condenser.
        boiling = np.maximum(1.0 - np.maximum(flooded, 0.0), 0.02)
        effectiveness = -np.expm1(-self.air_units * boiling / (1.0 - FLOODED))
        back = h.recirculation
        fresh = self.ambient + UNEVEN_INLET
        air_in = ((1.0 - back) * fresh + back * effectiveness * tc) / (1.0 - back + back * effectiveness)
        to_air = self.air_rate * effectiveness * (tc - air_in)
        through = flow * (1.0 - h.hot_gas)
        part = through / m.mass_flow
        before_line = in_condenser - m.condenser_drop * part**2
        floor = 1.02 * in_evaporator
        before_line = np.maximum(before_line, floor)
        bubble = refrigerant.bubble_temperature(name, before_line)
        # The air's film governs the flooded part as well; slow liquid gives off more of its heat.
        subcooling_units = m.subcooling_units * self.film / np.maximum(part, 0.05)
        cold = np.maximum(tc - air_in, 0.0) * -np.expm1(-subcooling_units * np.maximum(flooded, 0.0))
        liquid = bubble - cold
        gas_share = np.clip(-flooded, 0.0, 0.6)
        h_liquid = vapour.liquid_enthalpy(name, liquid) + gas_share * vapour.latent_heat(name, tc)
        # Liquid line and valve.
        at_valve = np.maximum(before_line - LIQUID_LINE_DROP * h.liquid_restriction * part**2, floor)
        boils = refrigerant.bubble_temperature(name, at_valve)
        heat = (vapour.liquid_enthalpy(name, liquid) - vapour.liquid_enthalpy(name, boils)) / vapour.latent_heat(
            name, boils
        )
        flash = gas_share + np.maximum(heat, 0.0)
        asked = OPENING + m.gain * (superheat - m.superheat - h.superheat_shift)
        opening = np.clip(asked, np.maximum(h.valve_least, 0.02), np.maximum(h.valve_most, 0.021))
        passes = (
            opening
            * m.valve
            * np.sqrt(
                2.0 * vapour.liquid_density(name, np.minimum(liquid, self.warmest)) * (at_valve - in_evaporator)
            )
            / (1.0 + CHOKE * flash)
        )
        # Heat from the water, all circuits side by side.
        wet_share = np.minimum(wetted, 1.0) / WETTED
        ua = np.where(self.on, self.conductance * wet_share, 0.0)
        total = ua.sum(axis=-1, keepdims=True)
        safe = np.maximum(total, 1e-9)
        goal = (ua * te).sum(axis=-1, keepdims=True) / safe
        rate = np.maximum(self.water_rate, 1e-6)
        units = total / rate
        mean = (self.water_in - goal) * -np.expm1(-units) / np.maximum(units, 1e-9)
        from_water = ua * ((goal - te) + mean)
        cooling = through * (h_outlet - h_liquid) + flow * h.hot_gas * (h_outlet - h_discharge)
        rejection = through * (h_discharge - h_liquid)
        # Charge.
        shares = CHARGE_SHARES
        gas = 1.0 - sum(shares.values())
        light = np.maximum(vapour.liquid_density(name, np.minimum(boils, self.warmest)), 1.0)
        heavy = vapour.density(name, np.minimum(boils, self.warmest), 0.0)
        void = 1.0 / (1.0 + flash * (light / heavy - 1.0))
        in_place = (
            shares["condenser_boiling"] * boiling / (1.0 - FLOODED) * (1.0 - gas_share) * self.mixed(tc)
            + shares["condenser_liquid"] * np.maximum(flooded, 0.0) / FLOODED
            + shares["evaporator"] * (np.minimum(wetted, 1.0) + 2.0 * wetness) / WETTED
            + shares["liquid_line"] * void
            + gas * vapour.density(name, tc, 0.0) / vapour.density(name, m.condensing, 0.0)
        )
        errors = np.stack(
            [
                (cooling - from_water) / m.capacity,
                (rejection - to_air) / m.rejection,
                (through - passes) / m.mass_flow,
                h.charge - in_place,
            ],
            axis=-1,
        )
        return {
            "errors": errors,
            "suction_pressure": low,
            "discharge_pressure": high,
            "leaving_pressure": before_line + h.foreign_gas,
            "liquid_pressure": at_valve + h.foreign_gas,
            "suction_temperature": outlet,
            "compressor_inlet": np.where(wetness > 0.0, suction_dew, inlet),
            "discharge_temperature": vapour.temperature_of_gas(name, high_dew, h_discharge),
            "liquid_temperature": np.minimum(liquid, boils),
            "superheat": outlet - suction_dew,
            "wetness": wetness,
            "flash": flash,
            "opening": opening,
            "mass_flow": flow,
            "cooling": cooling,
            "rejection": rejection,
            "power": flow * (h_discharge - h_inlet),
            "gained": flow * (h_inlet - h_outlet),
            "air_in": air_in,
            "air_out": air_in + to_air / np.maximum(self.air_rate, 1e-9),
            "water_out": (self.water_in - from_water.sum(axis=-1, keepdims=True) / rate)[..., 0],
            "h1": h_inlet,
            "h2": h_discharge,
            "h3": h_liquid,
        }

    def mixed(self, condensing: Floats) -> Floats:
        """Return the density of what condenses over that at design: the hotter, the denser its gas."""
        name = self.machine.refrigerant
        return condensing_density(name, condensing) / condensing_density(name, np.array(self.machine.condensing))

    def errors(self, unknowns: Floats) -> Floats:
        errors = self.parts(unknowns)["errors"]
        return np.where(self.on[..., None], errors, 0.0)

    def cycle(self, unknowns: Floats, residual: Floats) -> Cycle:
        found = self.parts(unknowns)
        rest = ~self.on
        name = self.machine.refrigerant

        def running(values: Floats) -> Floats:
            return np.where(rest, np.nan, values)

        dew_liquid = refrigerant.bubble_temperature(
            name,
            np.minimum(found["leaving_pressure"], float(refrigerant.bubble_pressure(name, self.warmest))),
        )
        near = (unknowns[..., 0] < self.coldest + 2.0) | (unknowns[..., 1] > self.warmest - 2.0)
        names = [one.name for one in fields(Cycle) if one.name in found]
        values = {name: running(found[name]) for name in names if name != "water_out"}
        nothing = ("mass_flow", "cooling", "rejection", "power", "gained")
        values |= {name: np.where(rest, 0.0, found[name]) for name in nothing}
        values["water_out"] = found["water_out"]
        return Cycle(
            solved=residual < SOLVED,
            at_edge=near & self.on & (residual >= SOLVED)[:, None],
            evaporating=unknowns[..., 0],
            condensing=unknowns[..., 1],
            subcooling=running(dew_liquid - found["liquid_temperature"]),
            wetted=unknowns[..., 2],
            flooded=unknowns[..., 3],
            enthalpies=np.stack([running(found[key]) for key in ("h1", "h2", "h3")]),
            residual=residual,
            **values,
        )


def condensing_density(name: str, condensing: Floats) -> Floats:
    """Return the mean density (kg/m³) of what condenses at a temperature (K)."""
    gas = vapour.density(name, condensing, 0.0)
    return VOID * gas + (1.0 - VOID) * vapour.liquid_density(name, condensing)


def _newton(problem: _Problem, unknowns: Floats) -> tuple[Floats, Floats]:
    """Return the unknowns at which all errors vanish, and the largest error left per unit, shape (B,)."""
    batch, circuits = problem.health.running.shape
    size = 4 * circuits
    on = np.broadcast_to(problem.on[..., None], (batch, circuits, 4)).reshape(batch, size)
    nudges, steps = np.tile(_NUDGES, circuits), np.tile(_STEPS, circuits)
    eye = np.eye(size)
    rows = np.arange(batch)

    def errors(points: Floats) -> Floats:
        shape = (*points.shape[:-1], circuits, 4)
        return problem.errors(points.reshape(shape)).reshape(points.shape)

    here = unknowns.reshape(batch, size)
    best, least = here, np.full(batch, np.inf)
    for turn in range(_ROUNDS):
        found = errors(np.concatenate([here[None], here + (eye * nudges)[:, None, :]]))
        centre = found[0]
        largest = np.abs(centre).max(axis=-1)
        better = largest < least
        best, least = np.where(better[:, None], here, best), np.where(better, largest, least)
        if (least < _TOLERANCE).all():
            break
        jacobian = ((found[1:] - centre) / nudges[:, None, None]).transpose(1, 2, 0)
        # A circuit at rest keeps its unknowns.
        jacobian = np.where(on[:, :, None] & on[:, None, :], jacobian, eye)
        # A little of the diagonal keeps the step finite where a valve stands at its stop.
        move = np.linalg.solve(jacobian + 1e-9 * eye, -centre[..., None])[..., 0]
        move /= np.maximum((np.abs(move) / steps).max(axis=-1), 1.0)[:, None]
        # Plain steps first. Then as far along each as lessens the errors most; where none does, the kinks are
        # shaken off.
        shares = _SHARES[: 1 if turn < _PLAIN else None, None, None]
        tried = here + shares * move
        tried = problem.held(tried.reshape(-1, batch, circuits, 4)).reshape(tried.shape)
        if len(tried) == 1:
            here = tried[0]
            continue
        sums = np.linalg.norm(errors(tried), axis=-1)
        pick = sums.argmin(axis=0)
        stuck = sums[pick, rows] >= np.linalg.norm(centre, axis=-1)
        pick = np.where(stuck, turn % len(_SHARES), pick)
        here = tried[pick, rows]
    return best.reshape(unknowns.shape), least

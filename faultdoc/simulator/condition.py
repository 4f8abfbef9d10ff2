"""What a simulated unit stands in and what is wrong with it: the site, and the condition of every part.

All values are SI. A condition is made of factors and shifts; as constructed without arguments it is a
unit in perfect health, and a fault (see `faults`) moves some of them away from there. Nothing here
computes anything.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from faultdoc.physics.oil import HOUR

__all__ = [
    "Circuit",
    "Condition",
    "Control",
    "Motor",
    "Oil",
    "Site",
    "Supply",
    "Water",
]


@dataclass(frozen=True)
class Site:
    """Where a unit stands and what hangs on it; healthy, whatever the values.

    Attributes:
        ambient: outdoor air, K.
        elevation: above sea level, m.
        high_point: of the loop over the unit's gauges, m.
        hose_length: both ways together, m.
        hose_bore: m; None for the bore of the unit's connection.
        hose_share: factor on that bore, for hose that is smaller than it should be.
        load_drop: pressure (Pa) the load takes at design flow.
        fittings: summed loss coefficient K of valves, bends and couplings.
        added_volume: of tanks and load, m³.
        load: heat that comes into the loop, as a share of the unit's rated capacity.
        glycol_fraction: by mass; None for what is usual with the unit.
        standing_pressure: gauge, Pa, at the unit with the pump stopped; None for what the height needs.
        balance: flow over design flow to which the load's balancing valve was set when all was healthy; None for
            a loop without one, or with one left wide open.
        source_voltage: between lines where the feeder begins, without load, V; None for the nameplate's.
        feeder_length: one way, m.
        feeder_area: of one conductor, m²; None for what the unit's ampacity asks for.
        generator_rating: current, A; None where the grid feeds the unit.
        lowest_air: the coldest to come, K.
        energised: since the power came on last, s.
    """

    ambient: float = 303.15
    elevation: float = 150.0
    high_point: float = 6.0
    hose_length: float = 60.0
    hose_bore: float | None = None
    hose_share: float = 1.0
    load_drop: float = 60e3
    fittings: float = 12.0
    added_volume: float = 0.5
    load: float = 0.85
    glycol_fraction: float | None = None
    standing_pressure: float | None = None
    balance: float | None = 1.0
    source_voltage: float | None = None
    feeder_length: float = 40.0
    feeder_area: float | None = None
    generator_rating: float | None = None
    lowest_air: float = 278.15
    energised: float = 48.0 * HOUR


@dataclass(frozen=True)
class Circuit:
    """One refrigerant circuit with its condenser.

    Attributes:
        charge: refrigerant in it over the right charge.
        foreign_gas: partial pressure (Pa) of gas that does not condense, in the condenser.
        valve_most, valve_least: largest and smallest opening the expansion valve can take, over its full opening.
        superheat_shift: K added to what the valve holds (spring, bulb, sensor).
        liquid_restriction: factor on the pressure the liquid line takes before the valve; 1 in health.
        suction_restriction: pressure (Pa) lost between evaporator and suction gauge at design flow.
        evaporator_fouling: resistance added on the water side, over the evaporator's whole resistance.
        evaporator_wetting: share of the evaporator's surface that refrigerant wets and oil does not insulate.
        coil_fouling: resistance added on the condenser's air side, over its whole resistance.
        airflow: of a turning fan, over its healthy flow.
        recirculation: share of the entering air that has left the coil before.
        fans_dead: fans that stand still though called.
        fans_backwards: fans that turn backwards.
        fans_held: fans kept on by a stage that does not let go, or off by one that does not come: shift of
            the number the control wants.
        volumetric: compressors' volumetric efficiency over healthy.
        isentropic: compressors' isentropic efficiency over healthy.
        compressors_dead: compressors of the circuit that do not run though called.
        unloaded: share of full load at which an unloader or slide is stuck; None in health.
        suction_gain: K that the suction gas takes up from bulb to compressor.
        hot_gas: share of the discharge gas that goes back to the evaporator's inlet or the suction side.
    """

    charge: float = 1.0
    foreign_gas: float = 0.0
    valve_most: float = 1.0
    valve_least: float = 0.0
    superheat_shift: float = 0.0
    liquid_restriction: float = 1.0
    suction_restriction: float = 0.0
    evaporator_fouling: float = 0.0
    evaporator_wetting: float = 1.0
    coil_fouling: float = 0.0
    airflow: float = 1.0
    recirculation: float = 0.0
    fans_dead: int = 0
    fans_backwards: int = 0
    fans_held: int = 0
    volumetric: float = 1.0
    isentropic: float = 1.0
    compressors_dead: int = 0
    unloaded: float | None = None
    suction_gain: float = 0.0
    hot_gas: float = 0.0


@dataclass(frozen=True)
class Water:
    """The water side.

    Attributes:
        pump_speed: over its speed at the supply's frequency; 0 for a pump that does not turn.
        coupling: share of the motor's speed that reaches the impeller; 0 for a coupling that slips or is sheared.
        pump_backwards: its leads are changed over, so that it turns the wrong way on a right supply.
        pump_head: head over the curve's (wear, wrong impeller).
        pump_drag: shaft power over the curve's (bearing, rubbing).
        air: share of the loop's volume that is air, carried round.
        suction_leak: share of air drawn in at a loose joint, for every 100 kPa that the suction stands below the
            atmosphere.
        standing_loss: pressure (Pa) that the standing pressure is below what the site should have.
        strainer, barrel, load, hose: factor on the drop of each.
        return_valve, supply_valve: K added by a valve not fully open in the return to, the supply from the unit.
        check_valve: K added by the flap behind the pump.
        hose_kink, return_kink: K added in the supply hose, in the return hose (squeezed or drawn flat).
        bypass: share of the unit's flow that runs round the load.
        site_head: head (Pa) of a pump of the customer's in the loop: against the unit's where below zero.
        glycol_shift: added to the glycol fraction.
        crossed: supply and return hoses changed over at a load that lets water through one way only.
        proving_shift: factor on the settings of the flow switch.
        proving_stuck: what the flow switch says whatever flows: "open", "closed" or None.
        line_blocked: a sensing line of the differential switch or gauge passes nothing.
        leak: loss of water, m³/s.
        heat_gain: into hoses and tank, W.
    """

    pump_speed: float = 1.0
    coupling: float = 1.0
    pump_backwards: bool = False
    pump_head: float = 1.0
    pump_drag: float = 1.0
    air: float = 0.0
    suction_leak: float = 0.0
    standing_loss: float = 0.0
    strainer: float = 1.0
    barrel: float = 1.0
    load: float = 1.0
    hose: float = 1.0
    return_valve: float = 0.0
    supply_valve: float = 0.0
    check_valve: float = 0.0
    hose_kink: float = 0.0
    return_kink: float = 0.0
    bypass: float = 0.0
    site_head: float = 0.0
    glycol_shift: float = 0.0
    crossed: bool = False
    proving_shift: float = 1.0
    proving_stuck: str | None = None
    line_blocked: bool = False
    leak: float = 0.0
    heat_gain: float = 0.0


@dataclass(frozen=True)
class Motor:
    """One motor with its branch: contactor, fuses, winding.

    Attributes:
        dead: it does not run though called (contactor, overload, fuse of all lines).
        line_lost: "l1", "l2" or "l3" where one line of the branch is open.
        pole: resistance (ohm) added in one pole of its contactor or at a lug, on L2.
        winding: resistance of the phase between L1 and L2 over healthy; 0.1 for a shorted one, a thousand for
            an open one.
        insulation: to ground, ohm, at 40 °C.
        miswired: current at one load over healthy.
    """

    dead: bool = False
    line_lost: str | None = None
    pole: float = 0.0
    winding: float = 1.0
    insulation: float = 500e6
    miswired: float = 1.0


@dataclass(frozen=True)
class Supply:
    """The supply from source to control circuit.

    Attributes:
        voltage: source voltage over the site's.
        unbalance: by which L1-L2 is above and L3-L1 below the mean, as a share.
        line_lost: "l1", "l2" or "l3" where a line is open before the unit.
        reversed: two lines changed over before the unit.
        off: no supply at all.
        main_off: the unit's main switch is off: the supply stands before it, and nothing behind it is fed.
        frequency: over nominal.
        lug: resistance (ohm) of a bad joint in L1 of the feeder.
        feeder: factor on the feeder's impedance.
        source_impedance: factor on the source's impedance (a small generator, a weak grid).
        hunting: swing of voltage and frequency over their means.
        control: control voltage over what the supply gives.
        control_load: load on the control transformer over the usual.
        control_off: no control voltage.
        ground_leak: current to ground, A.
        breaker: rating of the fuse or breaker that feeds the unit, over the right one.
    """

    voltage: float = 1.0
    unbalance: float = 0.0
    line_lost: str | None = None
    reversed: bool = False
    off: bool = False
    main_off: bool = False
    frequency: float = 1.0
    lug: float = 0.0
    feeder: float = 1.0
    source_impedance: float = 1.0
    hunting: float = 0.0
    control: float = 1.0
    control_load: float = 1.0
    control_off: bool = False
    ground_leak: float = 0.0
    breaker: float = 1.0

    @property
    def unfed(self) -> bool:
        """Whether nothing behind the main switch is live."""
        return self.off or self.main_off


@dataclass(frozen=True)
class Oil:
    """The sump and its heater.

    Attributes:
        heater: power over healthy; 0 for one that is burnt or not fed.
        level: over the right one.
    """

    heater: float = 1.0
    level: float = 1.0


@dataclass(frozen=True)
class Control:
    """The unit's control: what it believes, what it is set to, what holds it.

    Attributes:
        set_point: K added to the set point asked for.
        band: factor on the control band.
        sensor_bias: by measuring point, what the unit's own sensor reads over the truth, SI difference.
        meter_bias: by measuring point, what the reader's own meter reads over the truth, SI difference.
        safety_shift: by a safety's id, what its setting is over the sheet's, SI difference.
        held: why the control holds the compressors though called, in a word; None in health.
        held_circuit: the circuit that it holds; None for all of them.
        anti_recycle: factor on the anti-recycle time.
        lag: s by which each step of capacity goes off late.
        warm_up_done: whether the warm-up timer lets the compressors go.
        capacity_limit: share of full load that the control allows.
    """

    set_point: float = 0.0
    band: float = 1.0
    sensor_bias: dict[str, float] = field(default_factory=dict)
    meter_bias: dict[str, float] = field(default_factory=dict)
    safety_shift: dict[str, float] = field(default_factory=dict)
    held: str | None = None
    held_circuit: str | None = None
    anti_recycle: float = 1.0
    lag: float = 0.0
    warm_up_done: bool = True
    capacity_limit: float = 1.0


@dataclass(frozen=True)
class Condition:
    """A whole unit's condition.

    Attributes:
        circuits: by circuit ("a" ...); a circuit that is not named is healthy.
        compressors, fans: by number; a motor that is not named is healthy.
        water, pump, supply, oil, control: the rest.
    """

    circuits: dict[str, Circuit] = field(default_factory=dict)
    compressors: dict[int, Motor] = field(default_factory=dict)
    fans: dict[int, Motor] = field(default_factory=dict)
    water: Water = Water()
    pump: Motor = Motor()
    supply: Supply = Supply()
    oil: Oil = Oil()
    control: Control = Control()

    def circuit(self, name: str) -> Circuit:
        """Return the condition of a circuit."""
        return self.circuits.get(name, Circuit())

    def compressor(self, number: int) -> Motor:
        """Return the condition of a compressor's motor."""
        return self.compressors.get(number, Motor())

    def fan(self, number: int) -> Motor:
        """Return the condition of a fan's motor."""
        return self.fans.get(number, Motor())

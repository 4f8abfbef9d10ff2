"""Causes of the catalogue as faults of a simulated unit, each with a severity.

A fault turns the site and the condition of a unit into worse ones. Severity 0 changes nothing, 1 is as bad as it
is met on sites; in between the values go in a straight line, but for what only is or is not (a fuse, two leads
changed over). Faults add up: each starts from what the one before has left. What sits in one circuit sits in
circuit A, on its first compressor or fan: the trees ask about 'the circuit in trouble' in the same way.

How far severity 1 goes is common practice, no source, unless it is said.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from faultdoc.simulator.condition import Circuit, Condition, Motor, Site

__all__ = ["CIRCUMSTANCES", "FAULTS", "Fault", "broken", "under"]

State = tuple[Site, Condition]
Change = Callable[[State, float], State]
Move = Callable[[Any, float], Any]


@dataclass(frozen=True)
class Fault:
    """One cause as a fault.

    Attributes:
        id: of the cause in the catalogue.
        change: (site and condition, severity above 0 to 1) -> worse ones.
        mildest: least severity at which it would be noticed.
        comes_and_goes: it is there for a part of the time only.
    """

    id: str
    change: Change
    mildest: float = 0.3
    comes_and_goes: bool = False


FAULTS: dict[str, Fault] = {}
"""Every fault by its cause's id."""
CIRCUMSTANCES: dict[str, Change] = {}
"""By the id of a tree's condition, what it means at a simulated unit: no fault, but what lets one act."""


def under(site: Site, circumstances: Iterable[str]) -> State:
    """Return the site, and the condition of a unit without a fault, in some circumstances.

    Args:
        site: without them.
        circumstances: ids of conditions of the trees; those that are not simulated change nothing.
    """
    state = site, Condition()
    for id in circumstances:
        if id in CIRCUMSTANCES:
            state = CIRCUMSTANCES[id](state, 1.0)
    return state


def broken(site: Site, faults: Mapping[str, float], condition: Condition | None = None) -> State:
    """Return the site and the condition of a unit with some faults.

    Args:
        site: as it would be in health.
        faults: severity (0 to 1) by cause.
        condition: to start from; perfect health otherwise.

    Raises:
        KeyError: for a cause that is not simulated.
        ValueError: for a severity outside 0 to 1.
    """
    state = site, condition or Condition()
    for id, severity in faults.items():
        if not 0.0 <= severity <= 1.0:
            raise ValueError(f"the severity of '{id}' is {severity:g}; it must be from 0 to 1")
        fault = FAULTS[id]
        if severity > 0.0:
            state = fault.change(state, severity)
    return state


# --- how a value moves ---


def towards(goal: float) -> Move:
    """Return a move from the old value in a straight line to a goal at severity 1."""
    return lambda old, severity: old + severity * (goal - old)


def times(factor: float) -> Move:
    """Return a move that multiplies the old value, by the factor at severity 1."""
    return lambda old, severity: old * factor**severity


def plus(most: float) -> Move:
    """Return a move that adds to the old value, `most` at severity 1."""
    return lambda old, severity: old + severity * most


def decades(most: float) -> Move:
    """Return a move that adds a loss which grows by decades, as a valve's does while it shuts; `most` at 1."""
    return lambda old, severity: old + most**severity - 1.0


def put(value: Any) -> Move:
    """Return a move to a value, whatever the severity."""
    return lambda old, severity: value


def _moved(part: Any, moves: Mapping[str, Move], severity: float) -> Any:
    return replace(part, **{name: move(getattr(part, name), severity) for name, move in moves.items()})


def _circuit(**moves: Move) -> Change:
    def change(state: State, severity: float) -> State:
        site, condition = state
        worse: Circuit = _moved(condition.circuit("a"), moves, severity)
        return site, replace(condition, circuits={**condition.circuits, "a": worse})

    return change


def _all_circuits(**moves: Move) -> Change:
    def change(state: State, severity: float) -> State:
        site, condition = state
        worse = {name: _moved(condition.circuit(name), moves, severity) for name in "abcd"}
        return site, replace(condition, circuits=worse)

    return change


def _part(name: str) -> Callable[..., Change]:
    def of(**moves: Move) -> Change:
        def change(state: State, severity: float) -> State:
            site, condition = state
            return site, replace(condition, **{name: _moved(getattr(condition, name), moves, severity)})

        return change

    return of


_water, _pump, _supply, _oil, _control = (_part(name) for name in ("water", "pump", "supply", "oil", "control"))


def _first_of(group: str) -> Callable[..., Change]:
    """Return what makes changes to the first motor of a group, "compressors" or "fans"."""

    def of(**moves: Move) -> Change:
        def change(state: State, severity: float) -> State:
            site, condition = state
            motors: dict[int, Motor] = getattr(condition, group)
            worse: Motor = _moved(motors.get(1, Motor()), moves, severity)
            changes: dict[str, Any] = {group: {**motors, 1: worse}}
            return site, replace(condition, **changes)

        return change

    return of


_compressor, _fan = _first_of("compressors"), _first_of("fans")


def _site(**moves: Move) -> Change:
    def change(state: State, severity: float) -> State:
        site, condition = state
        return _moved(site, moves, severity), condition

    return change


def _both(*changes: Change) -> Change:
    def change(state: State, severity: float) -> State:
        for one in changes:
            state = one(state, severity)
        return state

    return change


def _reads(which: str, **errors: float) -> Change:
    """Return the change by which sensors (`sensor_bias`), meters (`meter_bias`) or settings are off."""

    def change(state: State, severity: float) -> State:
        site, condition = state
        old: dict[str, float] = getattr(condition.control, which)
        worse = {**old, **{name: old.get(name, 0.0) + severity * error for name, error in errors.items()}}
        control = _moved(condition.control, {which: put(worse)}, severity)
        return site, replace(condition, control=control)

    return change


def _fault(id: str, change: Change, *, mildest: float = 0.3, comes_and_goes: bool = False) -> None:
    FAULTS[id] = Fault(id, change, mildest, comes_and_goes)


# --- water ---

for _id in ("pump_switched_off", "pump_control_circuit_open", "pump_contactor_not_in", "pump_overload_tripped",
            "pump_fuse_open"):  # fmt: skip
    _fault(_id, _pump(dead=put(True)))
_fault("pump_single_phased", _pump(line_lost=put("l2")))
# A motor with an open winding hums and stands.
_fault("pump_motor_failed", _both(_pump(winding=put(1000.0)), _water(pump_speed=put(0.0), pump_drag=put(5.0))))
_fault("pump_motor_damp", _pump(insulation=times(1e-3)), mildest=0.8)
_fault("pump_motor_miswired", _pump(miswired=plus(0.6)), mildest=0.6)
_fault("pump_contactor_pole_burnt", _pump(pole=plus(1.0)), mildest=0.4)
_fault("pump_seized", _water(pump_speed=put(0.0), pump_drag=put(5.0)))
_fault("pump_coupling_slipped", _water(coupling=towards(0.0)), mildest=0.8)
_fault("pump_leads_swapped", _water(pump_backwards=put(True)))
_fault("pump_impeller_poor", _water(pump_head=towards(0.25)), mildest=0.5)
_fault("pump_impeller_wrong", _water(pump_head=towards(0.5)), mildest=0.5)
_fault("pump_impeller_rubs", _water(pump_drag=plus(0.5)), mildest=0.4)
_fault("pump_bearing_worn", _water(pump_drag=plus(0.25)), mildest=0.4)
_fault("air_in_loop", _water(air=plus(0.12)), mildest=0.4)
_fault("suction_joint_leaking", _water(suction_leak=plus(0.5), standing_loss=plus(90e3)), mildest=0.6)
_fault("loop_underfilled", _water(standing_loss=plus(120e3)), mildest=0.6)
_fault("loop_leaking", _water(standing_loss=plus(120e3), leak=plus(2e-5)), mildest=0.6)
_fault("relief_passing", _water(standing_loss=plus(100e3), leak=plus(1e-5)), mildest=0.6)
for _id, _where, _most in (
    ("supply_valve_shut", "supply_valve", 5000.0),
    ("return_valve_shut", "return_valve", 5000.0),
    ("hose_kinked", "hose_kink", 2000.0),
):
    _fault(_id, _water(**{_where: decades(_most)}), mildest=0.7)
_fault("load_valves_shut", _water(load=times(200.0)), mildest=0.5)
_fault("load_coil_blocked", _water(load=times(40.0)), mildest=0.5)
_fault("check_valve_stuck", _water(check_valve=plus(4000.0)), mildest=0.6)
_fault("strainer_clogged", _water(strainer=times(120.0)), mildest=0.5)
_fault(
    "barrel_blocked", _both(_water(barrel=times(12.0)), _all_circuits(evaporator_fouling=plus(0.4))), mildest=0.5
)
_fault("suction_hose_collapsed", _water(return_kink=plus(400.0)), mildest=0.4)
_fault("hose_run_too_small", _site(hose_length=times(6.0), hose_share=towards(0.65)), mildest=0.7)
_fault("flow_throttled", _water(supply_valve=plus(150.0)), mildest=0.4)
# Too much flows where nothing holds it back: no balancing valve, or one left open.
_fault("flow_above_design", _site(load_drop=times(0.1), hose_length=times(0.2), balance=put(None)), mildest=0.7)
_fault("glycol_too_thick", _water(glycol_shift=plus(0.30)), mildest=0.6)
_fault("glycol_too_weak", _water(glycol_shift=plus(-0.25)), mildest=0.6)
_fault("site_pump_fighting", _water(site_head=plus(-220e3)), mildest=0.6)
_fault("hoses_crossed", _water(crossed=put(True)))
_fault("bypass_open", _water(bypass=plus(0.7)), mildest=0.4)
_fault("dp_line_blocked", _water(line_blocked=put(True)))
_fault("switch_set_high", _water(proving_shift=plus(1.0)), mildest=0.4)
for _id in ("switch_failed", "paddle_broken", "control_input_failed"):
    _fault(_id, _water(proving_stuck=put("open")))
for _id in ("switch_wiring_loose", "switch_terminal_wet"):
    _fault(_id, _water(proving_stuck=put("open")), comes_and_goes=True)
_fault("lines_take_up_heat", _water(heat_gain=plus(25e3)), mildest=0.5)

# --- refrigerant ---

for _id in ("charged_short", "leak_service_port", "leak_valve_stem", "leak_flared_joint", "leak_pipe_cracked",
            "leak_capillary_rubbed", "leak_condenser_coil", "leak_compressor_seal",
            "refrigerant_relief_passing"):  # fmt: skip
    _fault(_id, _circuit(charge=towards(0.35)), mildest=0.35)
_fault("circuit_overcharged", _circuit(charge=plus(0.45)), mildest=0.4)
_fault("air_in_circuit", _circuit(foreign_gas=plus(400e3)), mildest=0.4)
_fault("filter_drier_clogged", _circuit(liquid_restriction=times(150.0)), mildest=0.7)
_fault("liquid_valve_part_shut", _circuit(liquid_restriction=times(150.0)), mildest=0.7)
_fault("liquid_solenoid_stuck_shut", _circuit(valve_most=put(0.03)))
_fault("expansion_valve_stuck_shut", _circuit(valve_most=towards(0.05)), mildest=0.6)
_fault("expansion_bulb_lost_charge", _circuit(valve_most=towards(0.03)), mildest=0.8)
_fault("expansion_screen_plugged", _circuit(valve_most=towards(0.1)), mildest=0.6)
_fault("expansion_valve_iced", _circuit(valve_most=towards(0.08)), mildest=0.6, comes_and_goes=True)
_fault("expansion_valve_set_tight", _circuit(superheat_shift=plus(9.0)), mildest=0.5)
_fault("expansion_bulb_loose", _circuit(superheat_shift=plus(-12.0)), mildest=0.5)
_fault("expansion_valve_stuck_open", _circuit(valve_least=towards(1.0)), mildest=0.7)
_fault("evaporator_fouled", _all_circuits(evaporator_fouling=plus(1.2)), mildest=0.4)
_fault("oil_trapped_evaporator", _circuit(evaporator_wetting=towards(0.35)), mildest=0.5)
_fault("suction_valve_part_shut", _circuit(suction_restriction=plus(180e3)), mildest=0.4)
_fault("suction_line_bare", _circuit(suction_gain=plus(10.0)), mildest=0.5)
_fault("compressor_valves_leaking", _circuit(volumetric=towards(0.45), isentropic=towards(0.55)), mildest=0.4)
_fault("hot_gas_bypass_open", _circuit(hot_gas=plus(0.35)), mildest=0.4)
_fault("unloader_stuck", _circuit(unloaded=put(0.5)))
_fault("lift_beyond_range", _both(_site(ambient=plus(12.0)), _control(set_point=plus(-6.0))), mildest=0.5)
_fault("head_too_low_in_cold", _both(_site(ambient=put(275.15)), _circuit(fans_held=put(16))))

# --- the condenser's air ---

_fault("coil_dirty_outside", _circuit(airflow=towards(0.30), coil_fouling=plus(0.3)), mildest=0.4)
_fault("coil_dirty_between_rows", _circuit(airflow=towards(0.32), coil_fouling=plus(0.2)), mildest=0.4)
_fault("coil_fins_flattened", _circuit(airflow=towards(0.45)), mildest=0.5)
_fault("coil_fins_corroded", _circuit(coil_fouling=plus(1.8)), mildest=0.4)
_fault("coil_inlet_covered", _circuit(airflow=towards(0.25)), mildest=0.4)
_fault("air_discharge_blocked", _circuit(airflow=towards(0.5), recirculation=plus(0.35)), mildest=0.4)
_fault("hot_air_recirculated", _all_circuits(recirculation=plus(0.55)), mildest=0.4)
_fault("neighbour_hot_air", _all_circuits(recirculation=plus(0.50)), mildest=0.4)
_fault("coil_bypassed_by_air", _circuit(airflow=towards(0.5)), mildest=0.5)
_fault("site_above_rated_height", _site(elevation=plus(2200.0)), mildest=0.6)
_fault("ambient_above_rating", _site(ambient=lambda old, severity: 311.15 + 9.0 * severity))
for _id in ("fan_contactor_not_in", "fan_overload_tripped", "fan_fuse_open", "fan_control_circuit_open"):
    _fault(_id, _fan(dead=put(True)))
_fault("fan_motor_failed", _both(_fan(winding=put(1000.0)), _circuit(fans_dead=plus(1))), mildest=1.0)
_fault("fan_single_phased", _fan(line_lost=put("l2")))
_fault("fan_jammed", _circuit(fans_dead=plus(1)), mildest=1.0)
_fault("fan_stage_not_called", _circuit(fans_held=put(-1)))
_fault("fan_leads_swapped", _circuit(fans_backwards=put(1)))
_fault("fan_blade_loose", _circuit(airflow=towards(0.6)), mildest=0.6)

# --- compressors and oil ---

_fault("compressor_winding_failed", _compressor(winding=put(1000.0)))
_fault("compressor_winding_grounded", _compressor(insulation=times(1e-4)), mildest=0.6)
_fault("compressor_pole_burnt", _compressor(pole=plus(0.6)), mildest=0.4)
_fault("compressor_terminal_loose", _compressor(pole=plus(0.4)), mildest=0.4)
_fault("compressor_fuse_open", _compressor(line_lost=put("l1")))
_fault("compressor_contactor_not_in", _compressor(dead=put(True)))
_fault("compressor_miswired", _compressor(miswired=plus(0.6)), mildest=0.6)
_fault("crankcase_heater_failed", _oil(heater=put(0.0)))
_fault("crankcase_heater_unpowered", _oil(heater=put(0.0)))
_fault("oil_charge_low", _oil(level=towards(0.3)), mildest=0.5)

# --- supply ---

_fault("supply_voltage_low", _supply(voltage=towards(0.80)), mildest=0.5)
_fault("supply_voltage_high", _supply(voltage=towards(1.16)), mildest=0.6)
_fault("generator_voltage_set_wrong", _supply(voltage=towards(0.82)), mildest=0.5)
_fault("supply_unbalanced", _supply(unbalance=plus(0.07)), mildest=0.4)
_fault("generator_loads_uneven", _supply(unbalance=plus(0.06)), mildest=0.4)
_fault("supply_phase_missing", _supply(line_lost=put("l3")))
_fault("supply_phases_reversed", _supply(reversed=put(True)))
_fault("source_sequence_reversed", _supply(reversed=put(True)))
_fault("supply_frequency_low", _supply(frequency=towards(0.83)), mildest=0.4)
_fault("generator_hunting", _supply(hunting=plus(0.08)), mildest=0.4)
_fault("generator_too_small", _supply(source_impedance=times(8.0)), mildest=0.6)
_fault("feeder_too_thin", _supply(feeder=times(12.0)), mildest=0.5)
for _id in ("supply_lug_burnt", "breaker_lug_loose"):
    _fault(_id, _supply(lug=plus(0.35)), mildest=0.4)
for _id in ("site_outage", "site_switch_off", "generator_stopped", "supply_breaker_tripped",
            "generator_breaker_open"):  # fmt: skip
    _fault(_id, _supply(off=put(True)))
_fault("main_switch_off", _supply(control_off=put(True), main_off=put(True)))
for _id in ("transformer_fuse_open", "control_transformer_failed", "control_fuse_open", "control_switch_off"):
    _fault(_id, _supply(control_off=put(True)))
_fault("control_voltage_low", _supply(control=towards(0.75)), mildest=0.5)

# --- control, sensors, meters, load ---

for _id in (
    "unit_switched_off",
    "remote_permission_open",
    "remote_wiring_open",
    "external_interlock_open",
    "schedule_holds_off",
    "control_mode_wrong",
    "standby_in_group",
    "hp_lockout_not_reset",
    "lp_lockout_not_reset",
    "freeze_lockout_not_reset",
    "starts_used_up",
    "anti_recycle_running",
):
    _fault(_id, _control(held=put(_id)))
_fault(
    "oil_warm_up_running",
    _both(
        _control(held=put("oil_warm_up_running"), warm_up_done=put(False)),
        _site(energised=put(3600.0)),
    ),
)
_fault("set_point_high", _control(set_point=plus(8.0)), mildest=0.5)
_fault("set_point_below_minimum", _control(set_point=plus(-6.0)), mildest=0.5)
_fault("control_band_narrow", _control(band=towards(0.2)), mildest=0.5)
_fault("anti_recycle_short", _control(anti_recycle=towards(0.1)), mildest=0.5)
_fault("capacity_limit_left_on", _control(capacity_limit=towards(0.3)), mildest=0.5)
_fault("circuit_left_off", _circuit(compressors_dead=put(8)))
_fault("circuit_switched_off", _circuit(compressors_dead=put(8)))
_fault("high_pressure_switch_drifted", _reads("safety_shift", high_pressure=-900e3), mildest=0.4)
_fault("low_pressure_switch_set_high", _reads("safety_shift", low_pressure=250e3), mildest=0.4)
_fault("low_pressure_switch_faulty", _reads("safety_shift", low_pressure=250e3), mildest=0.4)
_fault("freeze_thermostat_set_high", _reads("safety_shift", freeze=6.0), mildest=0.5)
_fault("leaving_sensor_loose", _reads("sensor_bias", water_out_temperature=6.0), mildest=0.4)
_fault("leaving_sensor_drifted", _reads("sensor_bias", water_out_temperature=-5.0), mildest=0.4)
_fault("entering_sensor_loose", _reads("sensor_bias", water_in_temperature=6.0), mildest=0.4)
_fault("entering_sensor_drifted", _reads("sensor_bias", water_in_temperature=-5.0), mildest=0.4)
_fault("air_sensor_in_sun", _reads("sensor_bias", ambient_air_temperature=10.0), mildest=0.4)
_fault("suction_transducer_drifted", _reads("sensor_bias", suction_pressure_a=-150e3), mildest=0.4)
_fault("discharge_sensor_reads_high", _reads("sensor_bias", discharge_pressure_a=500e3), mildest=0.4)
_fault(
    "own_meter_wrong",
    _reads("meter_bias", water_out_temperature=5.0, water_in_temperature=5.0),
    mildest=0.5,
)
_fault("load_above_capacity", _site(load=lambda old, severity: 1.05 + 0.6 * severity))
_fault("load_too_light", _site(load=put(0.08)))
_fault("loop_volume_small", _site(added_volume=put(0.0), load=put(0.2)))

# --- circumstances ---

for _id in ("capacity_lags_behind", "steps_do_not_go_lower"):
    # A least run of five minutes for every step: common practice, no source.
    CIRCUMSTANCES[_id] = _control(lag=put(300.0))
for _id in ("flow_above_switch", "flow_still_proved"):
    CIRCUMSTANCES[_id] = _water(proving_shift=put(0.35))
CIRCUMSTANCES["little_head_to_spare"] = _site(load_drop=times(3.0), balance=put(None))
CIRCUMSTANCES["loop_is_tall"] = _site(high_point=plus(12.0))
CIRCUMSTANCES["frost_at_rest"] = _site(lowest_air=put(261.15))
CIRCUMSTANCES["load_near_full"] = _site(load=lambda old, severity: max(old, 0.95))
CIRCUMSTANCES["load_above_half"] = _site(load=lambda old, severity: max(old, 0.85))
CIRCUMSTANCES["day_is_hot"] = _site(ambient=lambda old, severity: max(old, 311.15))
for _id in ("air_is_cold", "air_cold_on_condenser"):
    CIRCUMSTANCES[_id] = _site(ambient=lambda old, severity: min(old, 280.15))
# A tree's own id: what its symptom says of any of its causes.
CIRCUMSTANCES["one_circuit_only"] = _control(held_circuit=put("a"))

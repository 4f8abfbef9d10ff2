"""The chilled-water loop of a simulated unit at rest: where its pump and its resistances meet.

The way of the water, and where the gauges of the unit stand on it:

    expansion tank, return gauge (standing pressure) - return valve - return hose's end - strainer -
    pump's suction - pump - pump's discharge - check valve - barrel's inlet - barrel - barrel's outlet -
    supply valve - hose with fittings - load with its balancing valve, and the bypass round it -
    a pump of the customer's, if any - back to the tank.

The expansion tank holds the pressure where it is joined, whether the pump runs or not: that is the
loop's point of no pressure change (ASHRAE Handbook, HVAC Systems and Equipment, chapter on hydronic
systems; from memory). Here it is joined to the return, outside the unit's return valve, so the
suction stands below the standing pressure by what valve, hose's end and strainer take, and whatever
narrows them starves the pump, as it does on a unit.

All gauges stand at one height, the pump's. A steady state has no leak and no heat in it: these move
the loop from one state to the next.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import exp, isfinite, sqrt
from typing import Literal

from faultdoc.checks.freezing import HYDROMETER_WATER
from faultdoc.checks.inputs import glycol_kind, head_at, liquid, loop_parts, pump_curve, usual_glycol
from faultdoc.checks.pump import BACKWARDS
from faultdoc.checks.water import PRESSURE_AT_TOP, STEADY_SWING
from faultdoc.model.unit import DataSheet
from faultdoc.physics import atmosphere, fluid, hydronics, pump
from faultdoc.physics import loop as store
from faultdoc.physics.barrel import Fluid
from faultdoc.simulator.condition import Motor, Site, Water

__all__ = ["Loop", "air_capacity", "cavitation_share", "loop", "shaft_speed", "water_truths"]

BACKWARDS_FLOW = 0.4
"""Flow of a pump that turns backwards over its own, at the same share of shut-off head. A pump maker's note puts
it at about a half, with 50 to 60 % of the head; another's at down to three tenths. Common practice."""

BACKWARDS_POWER = 0.6
"""Shaft power of a pump that turns backwards over its own: less flow against less head, at a poor efficiency.
Common practice, no source."""

_AIR_SCALE, _AIR_POWER = 0.0439, 2.793
"""See `air_capacity`."""

_AIR_OF_VACUUM, _VACUUM_SCALE = 0.05, 40e3
"""Share of air that a loop takes in whose top stands far below the atmosphere, and the pressure (Pa) below it at
which it has taken in two thirds of that. Assumed, no source."""

_HEALTHY_SWING = STEADY_SWING / 2.0
_SWING_OF_AIR = 1.5
"""Swing of the barrel's drop over its mean, for each share of its capacity that air or cavitation takes from the
pump. Assumed: slugs of air come and go, so that the pump is at times without and at times with twice as much."""
_WIDEST_SWING = 1.9

_HEAD_LOST = 0.03
"""Share of its head that a pump has lost where the suction head is what it requires: the definition of NPSH
required (ANSI/HI 14.6, NPSH3)."""
_BREAKDOWN = 0.5
"""Suction head over that required at which nothing is left of the head. Assumed."""
_COLUMN = 1.2
"""Suction head (m) at which the column of water before the unit's pump is about to break. Assumed."""

_ONE_PHASE_SPEED = 0.96
"""Speed of a motor that has lost a line while it turned, over its speed before: its slip about doubles. Common
practice, no source."""

_ONE_WAY = 100.0
"""Factor on the drop of a load that is pushed against its check or control valve: a tenth of the flow seeps by.
Assumed."""

_BARELY, _SHUT = 0.5, 2000.0
"""Loss coefficient up to which a valve stands open, and from which it stands shut. A gate valve has 0.2 when open,
some 20 when a quarter open (White, Fluid Mechanics, chapter 6; from memory)."""
_BYPASS_BARELY, _BYPASS_OPEN = 0.02, 0.3

_TRICKLE = 1e-12
"""m³/s; what flows less does not flow."""

_FASTEST = 2.0
_COLDEST, _HOTTEST = 223.15, 373.15


@dataclass(frozen=True)
class Loop:
    """The steady state of the loop. Pressures are gauge, Pa, unless they are drops.

    Attributes:
        flow: through the barrel, m³/s.
        load_flow: through the load, m³/s.
        rotation: of the pump's motor: "forward", "reversed" or "still".
        pump_in, pump_out: at the pump's flanges; the same where it does not turn.
        barrel_in, barrel_out: at the barrel's taps.
        barrel_drop: Pa.
        barrel_drop_low, barrel_drop_high: between which the needle swings, Pa.
        strainer_drop, load_drop: Pa; the load's with its balancing valve.
        check_valve_drop: Pa.
        supply_drop: of supply valve, kink, hose and fittings, Pa.
        standing: gauge, Pa, at the return; the same with the pump running.
        top: pressure at the highest point with the pump stopped.
        site_head: pressure (Pa) that the customer's pump adds here, below zero where it pushes against.
        dead_head_in, dead_head_out: at the pump's flanges with its discharge shut and its speed as it is.
        pump_load: shaft power over the motor's rated power.
        npsh_available: m; at the pump's flange.
        npsh_required: m; nought for a pump that stands.
        air: share of air that goes through the pump.
        cavitating: whether the suction head is less than the pump requires.
        density: kg/m³.
        glycol_fraction: by mass.
        freezing_point: K.
        heat_capacity_rate: of what flows through the barrel, W/K.
        volume: of all water, m³.
        loop_heat_capacity: of all water, J/K.
        relief_lifts: whether the highest pressure in the unit is above the relief valve's setting.
        proved: whether the flow switch says that water flows.
        contact: "closed", "chatters" or "open".
    """

    flow: float
    load_flow: float
    rotation: Literal["forward", "reversed", "still"]
    pump_in: float
    pump_out: float
    barrel_in: float
    barrel_out: float
    barrel_drop: float
    barrel_drop_low: float
    barrel_drop_high: float
    strainer_drop: float
    load_drop: float
    check_valve_drop: float
    supply_drop: float
    standing: float
    top: float
    site_head: float
    dead_head_in: float
    dead_head_out: float
    pump_load: float
    npsh_available: float
    npsh_required: float
    air: float
    cavitating: bool
    density: float
    glycol_fraction: float
    freezing_point: float
    heat_capacity_rate: float
    volume: float
    loop_heat_capacity: float
    relief_lifts: bool
    proved: bool
    contact: Literal["closed", "chatters", "open"]


def shaft_speed(
    motor: Motor,
    *,
    called: bool = True,
    frequency: float = 1.0,
    reversed_supply: bool = False,
    line_lost: bool = False,
    was_turning: bool = False,
) -> float:
    """Return the speed of the pump's motor over rated, as `loop` wants it: nought where it stands.

    Args:
        motor: its condition.
        called: contactor in and supply there.
        frequency: of the supply, over nominal.
        reversed_supply: phases changed over before the unit; the speed is then below zero.
        line_lost: a line is open before the motor's own branch.
        was_turning: it turned before: on two lines a motor hums and does not start, but one that turns goes on.

    Raises:
        ValueError: for a frequency below zero.

    >>> shaft_speed(Motor(), frequency=0.9)
    0.9
    >>> shaft_speed(Motor(line_lost="l1"))
    0.0
    """
    if frequency < 0.0:
        raise ValueError(f"a frequency of {frequency:g} of nominal is below zero")
    if motor.dead or not called:
        return 0.0
    if line_lost or motor.line_lost is not None:
        frequency = _ONE_PHASE_SPEED * frequency if was_turning else 0.0
    return -frequency if reversed_supply and frequency > 0.0 else frequency


def air_capacity(air: float) -> float:
    """Return the share of its capacity that a centrifugal pump keeps when it carries air.

    A smooth curve, 1 / (1 + (air / 0.0439)^2.793), through the two figures of a pump maker's care manual ("Air in
    pumps"): 2 % of free air by volume takes 10 % of the capacity, 4 % takes 43.5 %. Near 7 %, where
    pumps are commonly said to lose their prime, it leaves a fifth.

    Args:
        air: share of the volume, 0 to below 1.

    >>> round(air_capacity(0.02), 3), round(air_capacity(0.04), 3)
    (0.9, 0.565)
    """
    return float(1.0 / (1.0 + (air / _AIR_SCALE) ** _AIR_POWER))


def cavitation_share(available: float, required: float) -> float:
    """Return the share of its head that a pump keeps at a suction head (m), with what it requires (m).

    NPSH required is where three per cent of the head are gone (ANSI/HI 14.6). The curve has that point, keeps all
    of the head with plenty, and comes to nothing at half of what is required, where a pump is full of vapour;
    that half, and the shape between, are assumed.

    >>> round(cavitation_share(3.0, 3.0), 9)
    0.97
    >>> cavitation_share(1.5, 3.0)
    0.0
    """
    if required <= 0.0:
        return 1.0 if available > 0.0 else 0.0
    over = (available / required - _BREAKDOWN) / (1.0 - _BREAKDOWN)
    return float(1.0 - _HEAD_LOST ** max(over, 0.0))


def loop(
    sheet: DataSheet, site: Site, water: Water, *, speed: float, temperature: float, was_proved: bool = False
) -> Loop:
    """Return the steady state of the loop.

    Args:
        sheet: of the unit.
        site: where it stands.
        water: condition of the water side.
        speed: of the pump's motor over rated; 0 where it stands, below zero where the supply turns it backwards;
            see `shaft_speed`.
        temperature: of the water in the loop, K; the checks take that which leaves the unit. Colder than the
            freezing point the mix is taken as it is there.
        was_proved: whether the flow switch said so before: it breaks at less than it makes at.

    Returns:
        The state; no flow where nothing drives it, or where the check valve behind the pump holds it back.

    Raises:
        ValueError: for a site, a condition or an operation that cannot be, and where the sheet lacks what is
            needed: suction heads and shaft powers of the pump, the flow switch's settings.
    """
    _refuse(site, water, speed, temperature)
    fraction = _glycol(sheet, site, water.glycol_shift)
    which = glycol_kind(sheet, fraction)
    freezing = fluid.freezing_point(which, fraction)
    temperature = max(temperature, freezing)
    what = liquid(sheet, temperature, fraction)
    weight = what.density * fluid.GRAVITY

    standing = _standing(sheet, site, water)
    top = standing - weight * site.high_point
    # Where the top stands below the atmosphere vents and joints let air in, and air comes out of the water.
    drawn = _AIR_OF_VACUUM * (1.0 - exp(min(top, 0.0) / _VACUUM_SCALE))
    suction, behind, around = _ways(sheet, site, water, what)
    machine = _Pump(sheet, site, water, speed, what, fluid.vapour_pressure(temperature, which, fraction))

    def air_at(pump_in: float) -> float:
        return water.air + drawn + water.suction_leak * max(-pump_in, 0.0) / 1e5

    # Crossed hoses put a pump of the customer's against the unit's.
    helping = -water.site_head if water.crossed else water.site_head

    def site_head_at(flow: float, pump_in: float) -> float:
        # Where the column of water breaks, a pump that helps has nothing to move either.
        return helping * cavitation_share(machine.available(flow, pump_in), _COLUMN) if helping > 0.0 else helping

    def spare(flow: float) -> float:
        pump_in = standing - suction.total(flow)
        rise = weight * machine.head(flow, pump_in, air_at(pump_in))
        return rise + site_head_at(flow, pump_in) - suction.total(flow) - behind.total(flow) - around.total(flow)

    flow = _meeting(spare, sheet.water.design_flow)

    pump_in = standing - suction.total(flow)
    air = air_at(pump_in)
    rise = weight * machine.head(flow, pump_in, air)
    site_head = site_head_at(flow, pump_in)
    # From the tank backwards, so that it holds for a check valve that is shut as well.
    barrel_out = standing - site_head + around.total(flow)
    drop = behind["barrel"](flow)
    available, required = machine.available(flow, pump_in), machine.required(flow)
    capacity = air_capacity(air)
    kept = capacity * (cavitation_share(available, required) if machine.turns else 1.0)
    swing = min(_HEALTHY_SWING + _SWING_OF_AIR * (1.0 - kept), _WIDEST_SWING)
    low, high = drop * (1.0 - swing / 2.0), drop * (1.0 + swing / 2.0)
    proved, contact = _switch(sheet, water, flow, drop, (low, high), was_proved)
    heat_capacity = fluid.heat_capacity(temperature, which, fraction)
    volume = store.hose_volume(site.hose_length, _bore(sheet, site)) + sheet.water.volume + site.added_volume
    highest = max(standing, pump_in + rise, barrel_out + drop)
    return Loop(
        flow=flow,
        load_flow=flow * (1.0 - water.bypass),
        rotation=_rotation(water, speed),
        pump_in=pump_in,
        pump_out=pump_in + rise,
        barrel_in=barrel_out + drop,
        barrel_out=barrel_out,
        barrel_drop=drop,
        barrel_drop_low=low,
        barrel_drop_high=high,
        strainer_drop=suction["strainer"](flow),
        load_drop=around["load"](flow),
        check_valve_drop=behind["check valve"](flow),
        supply_drop=around.total(flow) - around["load"](flow),
        standing=standing,
        top=top,
        site_head=site_head,
        dead_head_in=standing,
        dead_head_out=standing + weight * machine.head(0.0, standing, air_at(standing)),
        pump_load=machine.load(flow, air),
        npsh_available=available,
        npsh_required=required,
        air=air,
        cavitating=machine.turns and available < required,
        density=what.density,
        glycol_fraction=fraction,
        freezing_point=freezing,
        heat_capacity_rate=flow * what.density * heat_capacity,
        volume=volume,
        loop_heat_capacity=volume * what.density * heat_capacity,
        relief_lifts=highest > sheet.water.relief_pressure,
        proved=proved,
        contact=contact,
    )


def water_truths(
    sheet: DataSheet,
    site: Site,
    water: Water,
    loop: Loop,
    *,
    entering: float,
    leaving: float,
    called: bool | None = None,
    sample: float = 293.15,
) -> dict[str, float | str]:
    """Return the truth at the measuring points of the water side.

    Args:
        sheet: of the unit.
        site: where it stands.
        water: condition of the water side.
        loop: its steady state.
        entering: temperature (K) of the water entering the unit.
        leaving: temperature (K) of the water leaving it.
        called: whether the unit calls for its pump, which then counts as running though it may not turn; as it
            turns when not given.
        sample: temperature (K) of the jar from which the hydrometer is read.

    Returns:
        By id of the measuring point: SI, or the id of a choice. What is read with the pump running is left out
        where nothing runs, and `standing_pressure` where the pump is called.
    """
    called = loop.rotation != "still" if called is None else called
    which = glycol_kind(sheet, loop.glycol_fraction)
    truths: dict[str, float | str] = {
        "site_elevation": site.elevation,
        "high_point_height": site.high_point,
        "hose_length": site.hose_length,
        "hose_bore": _bore(sheet, site),
        "added_volume": site.added_volume,
        "water_in_temperature": entering,
        "water_out_temperature": leaving,
        "glycol_fraction": loop.glycol_fraction,
        "specific_gravity": (fluid.density(sample, which, loop.glycol_fraction) / fluid.density(HYDROMETER_WATER)),
        "sample_temperature": sample,
        "supply_valve_position": _position(water.supply_valve),
        "return_valve_position": _position(water.return_valve),
        "bypass_valve_position": _bypass_position(water.bypass),
    }
    if not called:
        truths["standing_pressure"] = loop.standing
    if called or loop.flow > 0.0:
        truths |= {
            "water_flow": loop.flow,
            "barrel_in_pressure": loop.barrel_in,
            "barrel_out_pressure": loop.barrel_out,
            "barrel_pressure_drop": loop.barrel_drop,
            "barrel_drop_low": loop.barrel_drop_low,
            "barrel_drop_high": loop.barrel_drop_high,
            "load_pressure_drop": loop.load_drop,
            "flow_switch_contact": loop.contact,
        }
        if sheet.water.strainer is not None:
            truths["strainer_pressure_drop"] = loop.strainer_drop
    if loop.load_flow > 0.0:
        truths["load_out_temperature"] = _leaving_load(water, loop, entering, leaving)
    if called and sheet.water.pump is not None:
        truths |= {
            "pump_rotation": loop.rotation,
            "pump_in_pressure": loop.pump_in,
            "pump_out_pressure": loop.pump_out,
            "dead_head_in_pressure": loop.dead_head_in,
            "dead_head_out_pressure": loop.dead_head_out,
        }
    return truths


def _leaving_load(water: Water, loop: Loop, entering: float, leaving: float) -> float:
    """Return the temperature (K) of the water leaving the load: what comes back is that and the bypass, mixed.

    The sun warms the hoses out and back by half of its heat each.
    """
    warmed = water.heat_gain / 2.0 / loop.heat_capacity_rate
    supply, back = leaving + warmed, entering - warmed
    return (back - water.bypass * supply) / (1.0 - water.bypass)


class _Way:
    """Drops (Pa) of parts one behind the other, by name, each a function of the flow (m³/s) through the unit."""

    def __init__(self, parts: dict[str, Callable[[float], float]]) -> None:
        self._parts = parts

    def __getitem__(self, name: str) -> Callable[[float], float]:
        return self._parts[name]

    def total(self, flow: float) -> float:
        """Return the drop of all of them."""
        return sum(drop(flow) for drop in self._parts.values())


def _ways(sheet: DataSheet, site: Site, water: Water, what: Fluid) -> tuple[_Way, _Way, _Way]:
    """Return the ways from the tank to the pump, from the pump through the barrel, and from there to the tank."""
    bore, hose_bore = sheet.water.connection_bore, _bore(sheet, site)
    parts = _healthy_parts(sheet, site, what)
    strainer = parts.get("strainer, clean", _nothing)
    # The sheet gives the strainer's drop with water; loss coefficients hold whatever flows.
    denser = what.density / fluid.density(sheet.water.design_entering)
    valve = _balancing_valve(sheet, site)
    load = water.load * (_ONE_WAY if water.crossed else 1.0)
    through = 1.0 - water.bypass

    def local(coefficient: float, bore: float) -> Callable[[float], float]:
        return lambda flow: hydronics.local_drop(flow, coefficient, bore, what.density)

    return (
        _Way(
            {
                "return valve": local(water.return_valve, bore),
                "return hose's end": local(water.return_kink, hose_bore),
                "strainer": lambda flow: water.strainer * denser * strainer(flow),
            }
        ),
        _Way(
            {
                "check valve": local(water.check_valve, bore),
                "barrel": lambda flow: water.barrel * parts["barrel"](flow),
            }
        ),
        _Way(
            {
                "supply valve": local(water.supply_valve, bore),
                "kink": local(water.hose_kink, hose_bore),
                "hose": lambda flow: water.hose * parts["hose"](flow),
                "fittings": parts["valves, bends and couplings"],
                "load": lambda flow: load * (parts["load"](through * flow) + valve * (through * flow) ** 2),
            }
        ),
    )


def _nothing(flow: float) -> float:
    """Return the drop (Pa) of a strainer that is not there."""
    return 0.0


def _healthy_parts(sheet: DataSheet, site: Site, what: Fluid) -> dict[str, Callable[[float], float]]:
    values = {
        "hose_length": site.hose_length,
        "hose_bore": _bore(sheet, site),
        "load_pressure_drop": site.load_drop,
        "sheet.loop_fittings": site.fittings,
        "sheet.barrel_curve": 1.0,
        "sheet.barrel_exponent": 0.0,
    }
    return dict(loop_parts(sheet, values, what))


def _balancing_valve(sheet: DataSheet, site: Site) -> float:
    """Return the drop (Pa) of the load's balancing valve over the flow (m³/s) squared, as it was set in health."""
    if site.balance is None or sheet.water.pump is None:
        return 0.0
    flow = site.balance * sheet.water.design_flow
    what = liquid(sheet, sheet.water.design_leaving, _glycol(sheet, site, 0.0))
    taken = sum(drop(flow) for drop in _healthy_parts(sheet, site, what).values())
    had = what.density * fluid.GRAVITY * head_at(pump_curve(sheet), {"sheet.pump_curve": 1.0}, flow)
    # A loop that takes it all as it is has its valve wide open.
    return max(had - taken, 0.0) / flow**2


class _Pump:
    """The unit's pump as it turns: head (m) and what it asks for at a flow (m³/s)."""

    def __init__(
        self, sheet: DataSheet, site: Site, water: Water, speed: float, what: Fluid, vapour: float
    ) -> None:
        self._data = sheet.water.pump
        self._curve = None if self._data is None else pump_curve(sheet)
        self._speed = abs(speed) * water.pump_speed * water.coupling
        backwards = _rotation(water, speed) == "reversed"
        self._flow_share = BACKWARDS_FLOW if backwards else 1.0
        self._head_share = water.pump_head * (sum(BACKWARDS) / 2.0 if backwards else 1.0)
        self._power_share = water.pump_head * water.pump_drag * (BACKWARDS_POWER if backwards else 1.0)
        self._denser = what.density / fluid.density(sheet.water.barrel.water_temperature)
        self._density, self._vapour = what.density, vapour
        self._air_around = atmosphere.pressure(site.elevation)
        self._bore = sheet.water.connection_bore

    @property
    def turns(self) -> bool:
        return self._curve is not None and self._speed > 0.0

    def _alike(self, flow: float) -> float:
        """Return the flow on the sheet's curve that is like this one: affinity, flow ~ speed."""
        return flow / (self._speed * self._flow_share)

    def head(self, flow: float, pump_in: float, air: float) -> float:
        """Return the head; a pump through which more is driven than it can move is taken as no resistance."""
        if self._curve is None or not self.turns:
            return 0.0
        # A pump that carries air is like one that turns more slowly, by the share of its capacity that is lost:
        # in a loop without lift the flow then falls by just that share.
        capacity = air_capacity(air)
        head = pump.head_at(self._curve, self._alike(flow) / capacity)
        kept = cavitation_share(self.available(flow, pump_in), self.required(flow))
        return max(head, 0.0) * self._head_share * (self._speed * capacity) ** 2 * kept

    def available(self, flow: float, pump_in: float) -> float:
        """Return the suction head available; a search may try flows that no vacuum gives."""
        gauge = max(pump_in, -self._air_around)
        speed = hydronics.velocity(flow, self._bore)
        return hydronics.npsh_available(gauge, self._air_around, self._vapour, self._density, speed)

    def required(self, flow: float) -> float:
        """Return the suction head required: NPSH ~ speed²."""
        if self._curve is None or not self.turns:
            return 0.0
        return pump.npsh_required_at(self._curve, self._alike(flow)) * self._speed**2

    def load(self, flow: float, air: float) -> float:
        """Return the shaft power over the motor's rated power: power ~ speed³ and density."""
        if self._data is None or self._curve is None or not self.turns:
            return 0.0
        capacity = air_capacity(air)
        power = pump.shaft_power_at(self._curve, self._alike(flow) / capacity, self._denser * (1.0 - air))
        return power * self._power_share * self._speed**3 * capacity**2 / self._data.rated_power


def _meeting(spare: Callable[[float], float], near: float) -> float:
    """Return the flow (m³/s) at which nothing is to spare; none where nothing drives it forwards.

    Args:
        spare: what drives less what the loop takes, Pa; falls with the flow.
        near: a flow (m³/s) to look about first.
    """
    from scipy.optimize import brentq

    if spare(_TRICKLE) <= 0.0:
        return 0.0
    least, most = _TRICKLE, near
    while spare(most) > 0.0:
        least, most = most, 1.25 * most
    # Shut valves leave very little: come down to it by steps, or the search takes long.
    while least == _TRICKLE and most > 4.0 * _TRICKLE:
        half = 0.5 * most
        if spare(half) > 0.0:
            least = half
        else:
            most = half
    return float(brentq(spare, least, most, xtol=1e-12 * most))


def _switch(
    sheet: DataSheet, water: Water, flow: float, drop: float, swing: tuple[float, float], was_proved: bool
) -> tuple[bool, Literal["closed", "chatters", "open"]]:
    """Return whether the flow switch says that water flows, and its contact.

    Args:
        sheet: with the switch's settings.
        water: what ails the switch.
        flow: through the barrel, m³/s.
        drop: across it, Pa.
        swing: between which the drop swings, Pa.
        was_proved: whether it said so before.
    """
    if water.proving_stuck is not None:
        return (True, "closed") if water.proving_stuck == "closed" else (False, "open")
    proving = sheet.water.flow_proving
    if proving.makes_at_drop is not None:
        makes, breaks = proving.makes_at_drop, proving.breaks_at_drop
        # A line that passes nothing keeps the barrel's drop from the switch.
        level, low, high = (0.0, 0.0, 0.0) if water.line_blocked else (drop, *swing)
    elif proving.makes_at_flow is not None:
        makes, breaks = proving.makes_at_flow, proving.breaks_at_flow
        # The drop goes about with the flow squared.
        level, low, high = flow, *(flow * sqrt(edge / drop) if drop > 0.0 else 0.0 for edge in swing)
    else:
        raise ValueError("the data sheet gives no setting of the flow switch; add makes_at_drop or makes_at_flow")
    makes *= water.proving_shift
    breaks = makes if breaks is None else breaks * water.proving_shift
    proved = level >= (breaks if was_proved else makes)
    if low < breaks and high >= makes:
        return proved, "chatters"
    return proved, "closed" if proved else "open"


def _rotation(water: Water, speed: float) -> Literal["forward", "reversed", "still"]:
    if speed == 0.0 or water.pump_speed == 0.0:
        return "still"
    # Leads changed over in the unit on a reversed supply turn it the right way again.
    return "reversed" if (speed < 0.0) != water.pump_backwards else "forward"


def _bore(sheet: DataSheet, site: Site) -> float:
    return (sheet.water.connection_bore if site.hose_bore is None else site.hose_bore) * site.hose_share


def _glycol(sheet: DataSheet, site: Site, shift: float) -> float:
    usual = usual_glycol(sheet)[0] if site.glycol_fraction is None else site.glycol_fraction
    # Thinned with water long enough, a mix is water.
    return max(usual + shift, 0.0)


def _standing(sheet: DataSheet, site: Site, water: Water) -> float:
    """Return the standing pressure (Pa, gauge) at the unit's return."""
    full = site.standing_pressure
    if full is None:
        # Reckoned as the check does, with the usual mix at design entering temperature.
        density = liquid(sheet, sheet.water.design_entering, _glycol(sheet, site, 0.0)).density
        full = hydronics.standing_pressure_needed(site.high_point, density, PRESSURE_AT_TOP)
    # A loop that has lost more stands open to the air at the unit: the gauge there shows nothing.
    return max(full - water.standing_loss, min(full, 0.0))


def _position(coefficient: float) -> str:
    if coefficient <= _BARELY:
        return "open"
    return "shut" if coefficient >= _SHUT else "part_open"


def _bypass_position(share: float) -> str:
    if share <= _BYPASS_BARELY:
        return "shut"
    return "open" if share >= _BYPASS_OPEN else "part_open"


def _refuse(site: Site, water: Water, speed: float, temperature: float) -> None:
    """Refuse what cannot be, with what was found and what is allowed."""
    above = {
        "the hose's bore": 1.0 if site.hose_bore is None else site.hose_bore,
        "the flow to which the loop was balanced": 1.0 if site.balance is None else site.balance,
        "the factor on the strainer": water.strainer,
        "the factor on the barrel": water.barrel,
        "the factor on the load": water.load,
        "the factor on the hose": water.hose,
        "the factor on the flow switch's settings": water.proving_shift,
        "the factor on the pump's shaft power": water.pump_drag,
    }
    least = {
        "the loop's highest point": site.high_point,
        "the hose's length": site.hose_length,
        "the load's drop": site.load_drop,
        "the fittings' loss coefficient": site.fittings,
        "the water added": site.added_volume,
        "the pump's speed": water.pump_speed,
        "the pump's head": water.pump_head,
        "the share of speed that the coupling passes": water.coupling,
        "the air": water.air,
        "the air drawn in": water.suction_leak,
        "the return valve's loss coefficient": water.return_valve,
        "the supply valve's loss coefficient": water.supply_valve,
        "the check valve's loss coefficient": water.check_valve,
        "the supply hose's kink": water.hose_kink,
        "the return hose's kink": water.return_kink,
        "the bypass": water.bypass,
    }
    signed = (water.site_head, water.standing_loss, water.glycol_shift, speed, temperature, water.heat_gain)
    if not all(isfinite(value) for value in (*above.values(), *least.values(), *signed)):
        raise ValueError("a site and a condition are made of finite numbers; write a shut valve as K = 1e6")
    for name, value in above.items():
        if value <= 0.0:
            raise ValueError(f"{name} is {value:g}, and must be above zero")
    for name, value in least.items():
        if value < 0.0:
            raise ValueError(f"{name} is {value:g}, and cannot be below zero")
    if water.air >= 1.0 or water.bypass > 1.0:
        raise ValueError("air and bypass are shares: air below 1, bypass up to 1")
    if abs(speed) > _FASTEST:
        raise ValueError(f"a speed of {speed:g} of rated is outside -{_FASTEST:g} to {_FASTEST:g}")
    if not _COLDEST <= temperature <= _HOTTEST:
        raise ValueError(f"water at {temperature:g} K is outside {_COLDEST:g} to {_HOTTEST:g} K; give kelvins")
    if water.proving_stuck not in (None, "open", "closed"):
        raise ValueError(f"a flow switch sticks 'open' or 'closed', not '{water.proving_stuck}'")

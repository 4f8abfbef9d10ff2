"""What a part has to agree with on a unit, filled in from its data sheet as far as that says it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from faultdoc.model.stock import Match, StockKind
from faultdoc.model.tree import Cause
from faultdoc.model.unit import DataSheet, Glycol
from faultdoc.quantities import Kind, System, show
from faultdoc.words import say

__all__ = ["Machine", "machine_of", "match_words"]

Machine = Literal["pump", "fan", "compressor", "unit"]
"""Which motor a part is for."""

_MACHINES: tuple[Machine, ...] = ("pump", "fan", "compressor")


def machine_of(cause: Cause) -> Machine:
    """Return the motor that a cause's parts are for: the one that its id or its remedy names first."""
    for words in (cause.id.replace("_", " "), cause.remedy.title.lower(), cause.title.lower()):
        named = [(words.find(machine), machine) for machine in _MACHINES if machine in words]
        if named:
            return min(named)[1]
    return "unit"


def match_words(kind: StockKind, machine: Machine, sheet: DataSheet, system: System) -> tuple[str, ...]:
    """Return what to match for a part, one line each.

    Args:
        kind: of the part.
        machine: the motor it is for.
        sheet: the unit's; what it does not say is to be read at the unit, what it assumes too.
        system: units.
    """
    return tuple(_WORDS[match](sheet, machine, system) for match in kind.match)


def _told(sheet: DataSheet, path: str, words: str) -> str:
    """Return the words, with a warning where the sheet only assumes what they say."""
    assumed = any(path == one or path.startswith(f"{one}.") for one in sheet.assumed)
    return say("{words} (assumed: read it at the unit)", words=words) if assumed else words


def _refrigerant(sheet: DataSheet, _: Machine, system: System) -> str:
    words = say("refrigerant {refrigerant}", refrigerant=sheet.refrigerant)
    if sheet.refrigerant_side.charge is not None:
        words += say(", {show} a circuit", show=show(sheet.refrigerant_side.charge, Kind.MASS, system))
    return _told(sheet, "refrigerant", words)


def _oil(sheet: DataSheet, _: Machine, __: System) -> str:
    return say("the oil named on the compressor's plate, for {refrigerant}", refrigerant=sheet.refrigerant)


def _capacity(sheet: DataSheet, _: Machine, system: System) -> str:
    circuits = len({one.circuit for one in sheet.compressors})
    words = say(
        "cooling {show} over {circuits} circuit",
        show=show(sheet.cooling_capacity, Kind.POWER, system),
        circuits=circuits,
    )
    return _told(sheet, "cooling_capacity", words + ("" if circuits == 1 else "s"))


def _supply(sheet: DataSheet, _: Machine, system: System) -> str:
    voltage = show(sheet.electrical.voltage, Kind.VOLTAGE, system)
    frequency = show(sheet.electrical.frequency, Kind.FREQUENCY, system)
    return _told(
        sheet, "electrical.voltage", say("supply {voltage}, {frequency}", voltage=voltage, frequency=frequency)
    )


def _control_voltage(sheet: DataSheet, _: Machine, system: System) -> str:
    words = say("control voltage {show}", show=show(sheet.electrical.control_voltage, Kind.VOLTAGE, system))
    return _told(sheet, "electrical.control_voltage", words)


def _motor(sheet: DataSheet, machine: Machine, system: System) -> str:
    said = []
    if machine in ("pump", "unit") and sheet.water.pump is not None:
        pump = sheet.water.pump
        power = show(pump.rated_power, Kind.SHAFT_POWER, system)
        words = say("pump motor {power}, {show}", power=power, show=show(pump.rated_current, Kind.CURRENT, system))
        said.append(_told(sheet, "water.pump.rated_current", words))
    if machine in ("fan", "unit"):
        for fan in sheet.fans[:1]:
            parts = [
                show(value, kind, system)
                for value, kind in ((fan.rated_power, Kind.SHAFT_POWER), (fan.rated_current, Kind.CURRENT))
                if value is not None
            ]
            if parts:
                said.append(_told(sheet, "fans", say("fan motor {join}", join=", ".join(parts))))
    if machine in ("compressor", "unit"):
        currents = sorted({one.rated_current for one in sheet.compressors})
        amperes = " or ".join(show(one, Kind.CURRENT, system) for one in currents)
        said.append(_told(sheet, "compressors", say("compressor {amperes}", amperes=amperes)))
    return "; ".join(said) or say("power and current on the plate of the {machine}'s motor", machine=machine)


def _protection(sheet: DataSheet, _: Machine, system: System) -> str:
    electrical = sheet.electrical
    parts = []
    if electrical.minimum_circuit_ampacity is not None:
        parts.append(
            say(
                "least circuit current {show}",
                show=show(electrical.minimum_circuit_ampacity, Kind.CURRENT, system),
            )
        )
    if electrical.maximum_protection is not None:
        parts.append(
            say("largest protection {show}", show=show(electrical.maximum_protection, Kind.CURRENT, system))
        )
    return ", ".join(parts) or say("circuit and protection currents on the nameplate")


def _transformer(sheet: DataSheet, _: Machine, system: System) -> str:
    power = sheet.electrical.control_transformer_power
    if power is None:
        return say("the transformer's rating on its plate")
    return _told(
        sheet,
        "electrical.control_transformer_power",
        say("transformer {show}", show=show(power, Kind.ELECTRIC_POWER, system)),
    )


def _heater(sheet: DataSheet, _: Machine, system: System) -> str:
    if sheet.oil_sump is None:
        return say("the heater's power on the old one")
    return _told(
        sheet,
        "oil_sump",
        say("heater {show}", show=show(sheet.oil_sump.heater_power, Kind.ELECTRIC_POWER, system)),
    )


def _glycol(sheet: DataSheet, _: Machine, system: System) -> str:
    water = sheet.water
    if water.usual_glycol is Glycol.NONE:
        return say("the data sheet knows of no glycol: ask what is in the loop")
    words = say("{value} glycol", value=water.usual_glycol.value)
    if water.usual_glycol_fraction is not None:
        words += say(", {show} by mass", show=show(water.usual_glycol_fraction, Kind.MASS_FRACTION, system))
    return words + say(": ask what is in the loop now")


def _connection(sheet: DataSheet, _: Machine, system: System) -> str:
    words = say("water connections {show}", show=show(sheet.water.connection_bore, Kind.BORE, system))
    return _told(sheet, "water.connection_bore", words)


def _flow(sheet: DataSheet, _: Machine, system: System) -> str:
    return _told(
        sheet,
        "water.design_flow",
        say("flow {show}", show=show(sheet.water.design_flow, Kind.VOLUME_FLOW, system)),
    )


def _pump_curve(sheet: DataSheet, _: Machine, system: System) -> str:
    if sheet.water.pump is None:
        return say("the pump's plate: flow and head")
    flow = show(sheet.water.design_flow, Kind.VOLUME_FLOW, system)
    head = show(sheet.water.pump.points[0].head, Kind.LENGTH, system)
    return _told(sheet, "water.pump", say("pump: {flow} at design, shut-off head {head}", flow=flow, head=head))


def _flow_switch(sheet: DataSheet, _: Machine, system: System) -> str:
    proving = sheet.water.flow_proving
    if proving.makes_at_drop is not None:
        made = show(proving.makes_at_drop, Kind.PRESSURE_DIFFERENCE, system)
        return _told(sheet, "water.flow_proving", say("differential switch that makes at {made}", made=made))
    if proving.makes_at_flow is not None:
        made = show(proving.makes_at_flow, Kind.VOLUME_FLOW, system)
        return _told(sheet, "water.flow_proving", say("switch that makes at {made}", made=made))
    return say("kind and setting of the old switch")


def _loop_volume(sheet: DataSheet, _: Machine, system: System) -> str:
    inside = show(sheet.water.volume, Kind.VOLUME, system)
    return _told(
        sheet, "water.volume", say("{inside} of water in the unit; ask what the loop holds", inside=inside)
    )


def _relief(sheet: DataSheet, _: Machine, system: System) -> str:
    setting = show(sheet.water.relief_pressure, Kind.GAUGE_PRESSURE, system)
    return _told(sheet, "water.relief_pressure", say("relief setting {setting}", setting=setting))


def _water_gauge(sheet: DataSheet, _: Machine, system: System) -> str:
    top = show(sheet.water.gauge_top, Kind.GAUGE_PRESSURE, system)
    return _told(sheet, "water.gauge_top", say("full scale {top}", top=top))


def _old_part(_: DataSheet, __: Machine, ___: System) -> str:
    return say("type, size and setting marked on the old one")


_WORDS: dict[Match, Callable[[DataSheet, Machine, System], str]] = {
    Match.REFRIGERANT: _refrigerant,
    Match.OIL: _oil,
    Match.CAPACITY: _capacity,
    Match.SUPPLY: _supply,
    Match.CONTROL_VOLTAGE: _control_voltage,
    Match.MOTOR: _motor,
    Match.PROTECTION: _protection,
    Match.TRANSFORMER: _transformer,
    Match.HEATER: _heater,
    Match.GLYCOL: _glycol,
    Match.CONNECTION: _connection,
    Match.FLOW: _flow,
    Match.PUMP_CURVE: _pump_curve,
    Match.FLOW_SWITCH: _flow_switch,
    Match.LOOP_VOLUME: _loop_volume,
    Match.RELIEF: _relief,
    Match.WATER_GAUGE: _water_gauge,
    Match.OLD_PART: _old_part,
}

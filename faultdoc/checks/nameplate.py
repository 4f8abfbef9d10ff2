"""Makes a data sheet from a nameplate: what it carries is taken, what it lacks is assumed and said so.

Every assumption is named in the sheet's `assumed`, so that the checks count it with a wide uncertainty,
and comes with its reason. Doubts are what lint says of the sheet, laid at the field that was typed.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from math import pi, sqrt
from typing import Any, NamedTuple

from pydantic import ValidationError

from faultdoc.checks.lint_units import MOTOR_POWER_FACTOR, ONLY_60_HZ, TON, WATER_HEAT, sheet_faults
from faultdoc.library.problems import choose
from faultdoc.library.sheets import quantity_text
from faultdoc.library.source import KeyPath
from faultdoc.model.base import SMALLEST
from faultdoc.model.nameplate import NAMEPLATE_FIELDS, NEEDED_ONE_OF, Assumption, NameplateField
from faultdoc.model.points import FAMILIES
from faultdoc.model.unit import CompressorType, DataSheet, Feature, Glycol
from faultdoc.physics import fluid, refrigerant
from faultdoc.quantities import Kind, System, exact, from_display, parse, show, to_display

__all__ = ["NameplateDoubt", "NameplateError", "NameplateSheet", "sheet_from", "understood", "unit_id"]

COP = 2.7
"""Cooling over the compressors' power at their rated currents, air-cooled. Common practice, no source."""
PUMP_MOTOR = 0.72
"""Power factor x efficiency of a motor of some kilowatts at its rating. Common practice, no source."""
PUMP_SHARE = 0.70 * 0.55
"""Of the motor's power that goes into the water at design flow: load x the pump's efficiency. As above."""
BARREL_DROP = 40_000.0
"""Pa at design flow; 20 to 80 kPa is usual. Common practice, no source."""
GALLONS_A_TON = 1.5
"""Water that a packaged unit with its pipes holds. Common practice, no source."""
LARGEST_SCROLL = 60.0
"""A; above that a compressor is more often a screw. Common practice, no source."""

_GALLON = 3.785411784e-3
_BORES = (0.0381, 0.0508, 0.0635, 0.0762, 0.1016, 0.127, 0.1524, 0.2032)
"""m: 1 1/2 to 8 in, the nominal sizes of pipe and hose."""
_PIPE_SPEED = 2.4
"""m/s; AIRAH Industry Directory 2016, p. 191, for chilled water."""

_FIELDS = {one.id: one for one in NAMEPLATE_FIELDS}

_PLACES: tuple[tuple[KeyPath, str], ...] = (
    (("water", "usual_glycol_fraction"), "glycol_fraction"),
    (("water", "relief_pressure"), "water_pressure_limit"),
    (("water", "connection_bore"), "connection_bore"),
    (("water", "design_leaving"), "design_leaving"),
    (("water", "design_flow"), "design_flow"),
    (("water", "minimum_flow"), "minimum_flow"),
    (("water", "pump", "rated_current"), "pump_current"),
    (("water", "pump"), "pump_power"),
    (("electrical", "voltage"), "voltage"),
    (("electrical", "frequency"), "frequency"),
    (("electrical", "control_voltage"), "control_voltage"),
    (("electrical", "minimum_circuit_ampacity"), "minimum_circuit_ampacity"),
    (("electrical", "maximum_protection"), "maximum_protection"),
    (("refrigerant_side", "charge"), "charge"),
    (("refrigerant",), "refrigerant"),
    (("cooling_capacity",), "capacity"),
    (("fans",), "fan_count"),
)
"""Which field of the nameplate a place in the data sheet comes from."""


class NameplateError(ValueError):
    """The answers make no data sheet.

    Attributes:
        problems: by field, what is wrong with it and what to do.
    """

    def __init__(self, problems: Mapping[str, str]) -> None:
        self.problems = dict(problems)
        super().__init__("\n".join(f"{_FIELDS[id].title}: {said}" for id, said in self.problems.items()))


@dataclass(frozen=True)
class NameplateDoubt:
    """Something that is likely misread: at which field (None for several), what, and what to do."""

    field: str | None
    text: str


class NameplateSheet(NamedTuple):
    """A data sheet made from a nameplate, with what was assumed for it and what is to be doubted."""

    sheet: DataSheet
    assumptions: tuple[Assumption, ...]
    doubts: tuple[NameplateDoubt, ...]


def sheet_from(answers: Mapping[str, str], system: System = System.US) -> NameplateSheet:
    """Return the data sheet of a unit of which the nameplate is known.

    Args:
        answers: by the id of a field of `NAMEPLATE_FIELDS`, as typed; empty or left out for what is
            not on the plate.
        system: whose units a bare number means.

    Returns:
        The sheet, what was assumed for it, and what is to be doubted.

    Raises:
        NameplateError: with all fields that cannot be understood or are needed and missing.
        KeyError: for a field that there is not.

    >>> made = sheet_from({"title": "Yard unit 7", "refrigerant": "R-410A", "voltage": "460 V",
    ...                    "compressor_rated_current": "4 x 15.8 A"})
    >>> made.sheet.id, round(made.sheet.cooling_capacity / 1000.0), made.doubts
    ('yard_unit_7', 116, ())
    """
    plate = _Plate(_read(answers, system), system)
    data = _data(plate)
    if plate.problems:
        raise NameplateError(plate.problems)
    data["assumed"] = [path for one in plate.assumptions for path in one.paths]
    try:
        sheet = DataSheet.model_validate(data)
    except ValidationError as problem:
        # What follows from several answers can be next to nothing though none of them is.
        wrong = problem.errors()[0]
        id = next((str(part) for part in reversed(wrong["loc"]) if str(part) in _FIELDS), NAMEPLATE_FIELDS[0].id)
        raise NameplateError({id: f"these answers make no unit ({wrong['msg']}); look at them again"}) from None
    return NameplateSheet(sheet, tuple(plate.assumptions), _doubts(sheet, plate))


# --- reading the answers ---


@dataclass
class _Plate:
    """The answers as understood, and what is noted while the sheet is made of them."""

    given: Mapping[str, Any]
    system: System
    assumptions: list[Assumption] = field(default_factory=list)
    problems: dict[str, str] = field(default_factory=dict)

    def assume(self, path: str | tuple[str, ...], value: str, why: str) -> None:
        self.assumptions.append(Assumption((path,) if isinstance(path, str) else path, value, why))

    def rounded(self, value: float, kind: Kind) -> float:
        """Return a value to three digits of the unit it is shown in: what is reckoned from a guess has no more."""
        return from_display(float(f"{to_display(value, kind, self.system):.3g}"), kind, self.system)

    def has(self, id: str) -> bool:
        return id in self.given

    def si(self, id: str) -> float:
        return float(self.given[id])


def _read(answers: Mapping[str, str], system: System) -> dict[str, Any]:
    """Return the answers as SI values, words and counts; raise with every one that is not understood."""
    given: dict[str, Any] = {}
    problems: dict[str, str] = {}
    for id, text in answers.items():
        one, text = _FIELDS[id], text.strip()
        if not text:
            continue
        try:
            given[id] = understood(one, text, system)
        except ValueError as wrong:
            problems[id] = str(wrong)
            continue
        found = given[id] if isinstance(given[id], tuple) else (given[id],)
        # A data sheet refuses it too, but would not name the field.
        if any(isinstance(value, float) and 0.0 < abs(value) < SMALLEST for value in found):
            problems[id] = f"'{text}' is next to nothing; look at its unit"
    for one in NAMEPLATE_FIELDS:
        if one.needed and one.id not in given and one.id not in problems:
            problems[one.id] = "this is needed; read it off the nameplate"
    for pair in NEEDED_ONE_OF:
        if not any(id in given or id in problems for id in pair):
            other = _FIELDS[pair[1]].title
            problems[pair[0]] = f"this or '{other}' is needed; read one off the nameplate"
    if problems:
        raise NameplateError(problems)
    return given


def understood(one: NameplateField, text: str, system: System) -> Any:
    """Return what was typed in a field: words, a choice, a count, an SI value, or several of those in a tuple.

    Raises:
        ValueError: when it is not understood, with what to write instead.

    >>> understood(_FIELDS["compressor_rated_current"], "2 x 15.8 A", System.US)
    (15.8, 15.8)
    """
    if one.kind is None:
        return text
    if one.kind is Kind.CHOICE:
        ids = [choice.id for choice in one.choices]
        if text not in ids:
            raise ValueError(f"'{text}' is none of {', '.join(ids)}; {choose(text, ids)}")
        return text
    if one.kind is Kind.NUMBER:
        if not re.fullmatch(r"\d{1,3}", text) or int(text) < 1:
            raise ValueError(f"'{text}' is no count; write a whole number from 1 on")
        return int(text)
    if one.many:
        return _several(text, one.kind, system)
    return _above_nothing(text, one.kind, system)


def _above_nothing(text: str, kind: Kind, system: System) -> float:
    value = parse(text, kind, system).value
    if kind is Kind.MASS_FRACTION and not 0.0 <= value <= 1.0:
        raise ValueError(f"'{text}' is not between 0 and 100 %; read it again")
    if value <= 0.0 and kind is not Kind.MASS_FRACTION:
        raise ValueError(f"'{text}' is not above zero; read it again")
    return value


def _several(text: str, kind: Kind, system: System) -> tuple[float, ...]:
    """Return the values of a list such as `15.8 A; 15.8 A` or `2 x 62 A; 40 A`."""
    values: list[float] = []
    for part in filter(None, (part.strip() for part in re.split(r"[;\n]", text))):
        times = re.fullmatch(r"(\d{1,2})\s*[x×*]\s*(.+)", part)
        count, one = (int(times[1]), times[2]) if times else (1, part)
        values += [_above_nothing(one, kind, system)] * count
    if not values:
        raise ValueError(f"'{text}' has no value in it; write it such as 15.8 A, or 4 x 15.8 A")
    return tuple(values)


# --- making the sheet ---


def _data(plate: _Plate) -> dict[str, Any]:
    """Return the sheet as the data of a file."""
    frequency = _frequency(plate)
    currents, capacity = _compressors_and_capacity(plate)
    circuits = _circuits(plate, len(currents))
    of_compressor = [circuits[index * len(circuits) // len(currents)] for index in range(len(currents))]
    water, features = _water(plate, capacity)
    plate.assume("rating_ambient", "35 °C", "The usual rating for air-cooled units (AHRI 550/590, from memory).")
    plate.assume("oil_warm_up", "12 h", "8 to 24 h is usual, and an hour at least; common practice, no source.")
    plate.assume("anti_recycle", "5 min", "3 to 20 min is usual; common practice, no source.")
    plate.assume(
        "features",
        "remote permission" + (", pump overload" if Feature.OWN_PUMP in features else ""),
        "Most units have them, and a cause is better kept than lost.",
    )
    data: dict[str, Any] = {
        "id": unit_id(plate.given["title"]),
        "title": plate.given["title"],
        "refrigerant": _refrigerant(plate.given["refrigerant"]),
        "cooling_capacity": exact(capacity, Kind.POWER),
        "rating_ambient": "35 °C",
        "electrical": _electrical(plate, frequency),
        "compressors": _compressors(plate, currents, of_compressor),
        "oil_warm_up": "12 h",
        "anti_recycle": "5 min",
        "water": water,
        "features": [str(one) for one in features],
        "notes": ["Made from a nameplate; what is assumed is named."],
    }
    if plate.has("charge"):
        data["refrigerant_side"] = {"charge": exact(plate.si("charge"), Kind.MASS)}
    if plate.has("fan_count"):
        data["fans"] = _fans(plate, circuits)
    return data


def unit_id(title: str) -> str:
    """Return a name for the machine made of a title.

    >>> unit_id("Yard unit 7"), unit_id("7")
    ('yard_unit_7', 'unit_7')
    """
    plain = re.sub(r"[^a-z0-9]+", "_", title.lower()).strip("_")
    return (plain if re.match(r"[a-z].", plain) else f"unit_{plain}".rstrip("_"))[:64].rstrip("_")


def _refrigerant(name: str) -> str:
    """Return the refrigerant's name as the standard writes it, or as typed where it is not known."""
    try:
        return refrigerant.canonical(name)
    except ValueError:
        return name


def _frequency(plate: _Plate) -> float:
    if plate.has("frequency"):
        return plate.si("frequency")
    voltage = plate.si("voltage")
    found = 50.0 if any(abs(voltage / one - 1.0) < 0.01 for one in (380.0, 400.0, 415.0)) else 60.0
    sure = "found at this frequency only" if voltage in ONLY_60_HZ else "most often at this frequency"
    plate.assume("electrical.frequency", f"{found:.0f} Hz", f"{voltage:g} V is {sure}.")
    return found


def _electrical(plate: _Plate, frequency: float) -> dict[str, str]:
    control = "control_voltage"
    if plate.has(control):
        volts = plate.si(control)
    else:
        volts = 115.0 if frequency > 55.0 else 230.0
        plate.assume(f"electrical.{control}", f"{volts:.0f} V", "Usual at this frequency; 24 V is found as well.")
    plate.assume("electrical.voltage_tolerance", "10 %", "What motors are made for: NEMA MG 1, 12.44.")
    data = {
        "voltage": exact(plate.si("voltage"), Kind.VOLTAGE),
        "voltage_tolerance": "10 %",
        "frequency": exact(frequency, Kind.FREQUENCY),
        control: exact(volts, Kind.VOLTAGE),
    }
    for id in ("minimum_circuit_ampacity", "maximum_protection"):
        if plate.has(id):
            data[id] = exact(plate.si(id), Kind.CURRENT)
    return data


def _compressors_and_capacity(plate: _Plate) -> tuple[tuple[float, ...], float]:
    """Return the rated current of each compressor (A) and the cooling capacity (W)."""
    # W of cooling for each ampere of rated current.
    cooling = COP * sqrt(3.0) * plate.si("voltage") * MOTOR_POWER_FACTOR
    if plate.has("compressor_rated_current"):
        currents = _each(plate, "compressor_rated_current", plate.given.get("compressor_count"))
    else:
        count = plate.given.get("compressor_count")
        if count is None:
            count = 2
            plate.assume(
                "compressors", "two compressors", "The number is not known; most packaged units have two to four."
            )
        amperes = plate.rounded(plate.si("capacity") / cooling / count, Kind.CURRENT)
        currents = (amperes,) * count
        why = f"From the capacity with {COP} W of cooling a watt of compressor; a quarter off either way."
        plate.assume(_of_each(count, "rated_current"), f"{amperes:g} A each", why)
    if len(currents) > len(FAMILIES["number"]):
        plate.problems["compressor_count"] = f"{len(currents)} compressors; at most {len(FAMILIES['number'])}"
    if plate.has("capacity"):
        return currents, plate.si("capacity")
    capacity = plate.rounded(cooling * sum(currents), Kind.POWER)
    why = f"From the rated currents with {COP} W of cooling a watt of compressor; a third off either way."
    plate.assume("cooling_capacity", quantity_text(capacity, Kind.POWER), why)
    return currents, capacity


def _of_each(count: int, name: str) -> tuple[str, ...]:
    """Return the paths of one value of every compressor."""
    return tuple(f"compressors.{index}.{name}" for index in range(count))


def _each(plate: _Plate, id: str, count: int | None) -> tuple[float, ...]:
    """Return one value for each compressor from one for all, or from as many as there are."""
    values: tuple[float, ...] = plate.given[id]
    if count is None or len(values) == count:
        return values
    if len(values) == 1:
        return values * count
    plate.problems[id] = f"{len(values)} values for {count} compressors; give one for all, or one for each"
    return values


def _circuits(plate: _Plate, compressors: int) -> tuple[str, ...]:
    letters = FAMILIES["circuit"]
    if not plate.has("circuit_count"):
        count = 1 if compressors == 1 else 2
        plate.assume(
            _of_each(compressors, "circuit"),
            "one circuit" if count == 1 else "two circuits",
            "The number of circuits is not known; compressors are shared out evenly.",
        )
        return letters[:count]
    count = plate.given["circuit_count"]
    if count > min(len(letters), compressors):
        plate.problems["circuit_count"] = (
            f"{count} circuits for {compressors} compressors; each circuit has one at least, and a unit at most "
            f"{len(letters)} circuits"
        )
        return letters[:1]
    return letters[:count]


def _compressors(plate: _Plate, currents: tuple[float, ...], circuits: list[str]) -> list[dict[str, str]]:
    locked: tuple[float, ...] = ()
    if plate.has("compressor_locked_rotor_current"):
        locked = _each(plate, "compressor_locked_rotor_current", len(currents))
        if len(locked) != len(currents):
            locked = ()
    kind = plate.given.get("compressor_type")
    if kind is None:
        kind = str(CompressorType.SCROLL if max(currents) <= LARGEST_SCROLL else CompressorType.SCREW)
        plate.assume(_of_each(len(currents), "type"), kind, "By its rated current; common practice, no source.")
    found = []
    for index, (amperes, circuit) in enumerate(zip(currents, circuits, strict=True)):
        one = {"circuit": circuit, "type": kind, "rated_current": exact(amperes, Kind.CURRENT)}
        if locked:
            one["locked_rotor_current"] = exact(locked[index], Kind.CURRENT)
        found.append(one)
    return found


def _fans(plate: _Plate, circuits: tuple[str, ...]) -> list[dict[str, Any]]:
    """Return the fans shared out over the circuits, the first ones taking what is left over."""
    whole, left = divmod(plate.given["fan_count"], len(circuits))
    fans: list[dict[str, Any]] = []
    for index, circuit in enumerate(circuits):
        count = whole + (index < left)
        if count > 16:
            plate.problems["fan_count"] = f"{count} fans on one circuit; at most 16"
        elif count:
            fan: dict[str, Any] = {"circuit": circuit, "count": count}
            if plate.has("fan_current"):
                fan["rated_current"] = exact(plate.si("fan_current"), Kind.CURRENT)
            fans.append(fan)
    return fans


def _water(plate: _Plate, capacity: float) -> tuple[dict[str, Any], list[Feature]]:
    """Return the water side as data, and the features that go with it."""
    leaving = plate.given.get("design_leaving")
    if leaving is None:
        leaving = parse("44 °F", Kind.TEMPERATURE).value
        plate.assume(
            "water.design_leaving", "44 °F", "The usual rating (AHRI 550/590, as the energy code IECC quotes it)."
        )
    rise = 10.0 / 1.8
    if plate.has("design_flow"):
        flow = plate.si("design_flow")
        if plate.has("capacity") and 3.0 <= (found := capacity / (WATER_HEAT * flow)) <= 12.0:
            rise = found
    else:
        flow = plate.rounded(capacity / (WATER_HEAT * rise), Kind.VOLUME_FLOW)
        why = "2.4 gpm a ton carries it at 10 °F (the rule of 24); a fifth off either way."
        plate.assume("water.design_flow", quantity_text(flow, Kind.VOLUME_FLOW), why)
    entering = plate.rounded(leaving + rise, Kind.TEMPERATURE)
    if entering <= leaving:  # nothing but a slip of the keys: the digits kept no longer tell them apart
        plate.problems["design_leaving"] = "no chiller's water leaves that warm; read it again"
    why = "10 °F over leaving is the usual rating; where flow and capacity are given, what they make."
    plate.assume("water.design_entering", quantity_text(entering, Kind.TEMPERATURE), why)
    if plate.has("minimum_flow"):
        least = plate.si("minimum_flow")
        if least >= flow:
            plate.problems["minimum_flow"] = "the minimum flow is not below the design flow; check both"
    else:
        least = plate.rounded(0.6 * flow, Kind.VOLUME_FLOW)
        plate.assume("water.minimum_flow", "60 % of design flow", "Half to two thirds is usual; no source.")
    if plate.has("connection_bore"):
        bore = plate.si("connection_bore")
    else:
        wanted = sqrt(4.0 * flow / (pi * _PIPE_SPEED))
        bore = next((one for one in _BORES if one >= wanted), _BORES[-1])
        why = f"The first nominal size in which design flow runs below {_PIPE_SPEED} m/s."
        plate.assume("water.connection_bore", quantity_text(bore, Kind.BORE), why)
    volume = plate.rounded(GALLONS_A_TON * _GALLON * capacity / TON, Kind.VOLUME)
    plate.assume("water.volume", f"{GALLONS_A_TON} gallons a ton", "One to two is usual; no source.")
    plate.assume("water.lowest_leaving_without_antifreeze", "40 °F", "Common practice, no source.")
    why = "At design flow; 20 to 80 kPa is usual, no source. Read the drop at a metered flow to do better."
    plate.assume("water.barrel", "40 kPa ± 60 %", why)
    pump, shut_off = _pump(plate, flow)
    relief = _relief(plate, shut_off)
    data: dict[str, Any] = {
        "design_flow": exact(flow, Kind.VOLUME_FLOW),
        "minimum_flow": exact(least, Kind.VOLUME_FLOW),
        "design_entering": exact(entering, Kind.TEMPERATURE),
        "design_leaving": exact(leaving, Kind.TEMPERATURE),
        "lowest_leaving_without_antifreeze": "40 °F",
        "connection_bore": exact(bore, Kind.BORE),
        "volume": exact(volume, Kind.VOLUME),
        "relief_pressure": exact(relief, Kind.GAUGE_PRESSURE),
        "gauge_top": exact(1.6 * relief, Kind.GAUGE_PRESSURE),
        "barrel": {
            "points": [
                {"flow": exact(flow, Kind.VOLUME_FLOW), "drop": exact(BARREL_DROP, Kind.PRESSURE_DIFFERENCE)}
            ],
            "water_temperature": "10 °C",
            "uncertainty": "60 %",
        },
    }
    plate.assume("water.gauge_top", "1.6 times the relief setting", "Gauges end well above it; no source.")
    features = [Feature.REMOTE_PERMISSION]
    if pump is not None:
        data["pump"] = pump
        features += [Feature.OWN_PUMP, Feature.PUMP_OVERLOAD]
    data["flow_proving"] = _flow_proving(plate, flow, features)
    data |= _glycol(plate)
    return data, features


def _pump(plate: _Plate, flow: float) -> tuple[dict[str, Any] | None, float]:
    """Return the pump as data (None without one) and its shut-off head, m."""
    if not (plate.has("pump_power") or plate.has("pump_current")):
        return None, 0.0
    volts = sqrt(3.0) * plate.si("voltage") * PUMP_MOTOR
    if plate.has("pump_power"):
        power = plate.si("pump_power")
    else:
        power = float(f"{volts * plate.si('pump_current'):.3g}")
        why = f"From its current with power factor x efficiency of {PUMP_MOTOR}."
        plate.assume("water.pump.rated_power", f"{power / 1000.0:.2g} kW", why)
    if plate.has("pump_current"):
        current = plate.si("pump_current")
    else:
        current = plate.rounded(power / volts, Kind.CURRENT)
        why = f"From its power with power factor x efficiency of {PUMP_MOTOR}; a tenth off either way."
        plate.assume("water.pump.rated_current", f"{current:g} A", why)
    head = PUMP_SHARE * power / (1000.0 * fluid.GRAVITY * flow)
    why = (
        "At design flow the water takes up 39 % of the motor's power, and the curve has the usual shape of an "
        "end-suction pump; common practice, no source. A dead-head reading does better."
    )
    plate.assume("water.pump.points", f"{show(1.15 * head, Kind.LENGTH, plate.system)} at shut-off ± 35 %", why)
    shape = ((0.0, 1.15, 0.35), (0.5, 1.12, 0.52), (1.0, 1.0, 0.70), (1.5, 0.75, 0.85))
    points = [
        {
            "flow": exact(plate.rounded(share * flow, Kind.VOLUME_FLOW), Kind.VOLUME_FLOW),
            "head": exact(plate.rounded(height * head, Kind.LENGTH), Kind.LENGTH),
            "shaft_power": exact(load * power, Kind.SHAFT_POWER),
        }
        for share, height, load in shape
    ]
    data = {
        "points": points,
        "rated_current": exact(current, Kind.CURRENT),
        "rated_power": exact(power, Kind.SHAFT_POWER),
        "uncertainty": "35 %",
    }
    return data, 1.15 * head


def _relief(plate: _Plate, shut_off: float) -> float:
    """Return the relief valve's setting, Pa gauge."""
    if plate.has("water_pressure_limit"):
        return plate.si("water_pressure_limit")
    least = parse("100 psig", Kind.GAUGE_PRESSURE).value
    dead = 1000.0 * fluid.GRAVITY * shut_off + parse("30 psig", Kind.GAUGE_PRESSURE).value
    relief = max(least, plate.rounded(dead, Kind.GAUGE_PRESSURE))
    why = "100 psig is usual, or 30 psi over the pump's shut-off where that is more; no source."
    plate.assume("water.relief_pressure", quantity_text(relief, Kind.GAUGE_PRESSURE), why)
    return relief


def _flow_proving(plate: _Plate, flow: float, features: list[Feature]) -> dict[str, str]:
    """Return the flow proving as data, and add its feature where the kind of switch is known."""
    data = {"start_allowance": "60 s", "trip_delay": "5 s"}
    kind = plate.given.get("flow_switch", "unknown")
    said = "waits 60 s for proof, stops after 5 s without"
    if kind == "differential":
        features.append(Feature.DIFFERENTIAL_FLOW_SWITCH)
        data["makes_at_drop"] = _drop_at(plate, 0.65)
        data["breaks_at_drop"] = _drop_at(plate, 0.60)
        said += "; makes at 65 % and breaks at 60 % of design flow"
    elif kind == "paddle":
        features.append(Feature.PADDLE_FLOW_SWITCH)
        for name, share in (("makes_at_flow", 0.68), ("breaks_at_flow", 0.60)):
            data[name] = exact(plate.rounded(share * flow, Kind.VOLUME_FLOW), Kind.VOLUME_FLOW)
        said += "; makes at 68 % and breaks at 60 % of design flow"
    plate.assume(
        "water.flow_proving", said, "Common practice, no source; read the switch's own scale to do better."
    )
    return data


def _glycol(plate: _Plate) -> dict[str, str]:
    kind = plate.given.get("glycol")
    if kind is None:
        # No fraction, so that checks take their wide guess of it.
        plate.assume("water.usual_glycol", "propylene, fraction unknown", "The thicker of the two; measure it.")
        return {"usual_glycol": str(Glycol.PROPYLENE)}
    data = {"usual_glycol": str(kind)}
    if plate.has("glycol_fraction"):
        if kind == Glycol.NONE and plate.si("glycol_fraction") > 0.0:
            plate.problems["glycol_fraction"] = "a fraction, and no antifreeze; say which, or leave it empty"
        elif kind != Glycol.NONE:
            data["usual_glycol_fraction"] = exact(plate.si("glycol_fraction"), Kind.MASS_FRACTION)
    return data


def _drop_at(plate: _Plate, share: float) -> str:
    """Return the assumed barrel's drop at a share of design flow, going with flow^1.8."""
    drop = plate.rounded(BARREL_DROP * share**1.8, Kind.PRESSURE_DIFFERENCE)
    return exact(drop, Kind.PRESSURE_DIFFERENCE)


# --- doubts ---


def _doubts(sheet: DataSheet, plate: _Plate) -> tuple[NameplateDoubt, ...]:
    found = []
    for fault in sheet_faults(sheet):
        end = "" if fault.remedy.endswith("?") else "."
        found.append(NameplateDoubt(_field_of(fault.path, plate), f"{fault.what}; {fault.remedy}{end}"))
    # What is typed once for all compressors is doubted once.
    return tuple(dict.fromkeys(found))


def _field_of(path: KeyPath, plate: _Plate) -> str | None:
    """Return the field that a place in the sheet was made from, if it was typed."""
    if path and path[0] == "compressors":
        id = (
            "compressor_locked_rotor_current" if path[-1] == "locked_rotor_current" else "compressor_rated_current"
        )
        return id if plate.has(id) else None
    for place, id in _PLACES:
        if path[: len(place)] == place:
            return id if plate.has(id) else None
    return None

"""Checks of the refrigerant circuits: superheat, subcooling, pressures, temperatures, charge and feed.

Each check is made once for every circuit the vocabulary knows; one that the data sheet does not have
says so. Gauge pressures become absolute with the atmosphere at the site's height.

What a circuit should show comes from the data sheet, with the spread that units of one kind have. A
sheet that leaves it out gets the usual figure with a wide uncertainty: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial

from faultdoc.checks.base import COVERAGE, Comparison, Given, Need, Working, registered
from faultdoc.checks.inputs import LEAVING, default, is_assumed
from faultdoc.model.points import FAMILIES
from faultdoc.model.unit import CompressorType, DataSheet, Expansion
from faultdoc.physics import air, atmosphere, refrigerant
from faultdoc.quantities import Kind, to_absolute, to_gauge
from faultdoc.words import say

__all__ = [
    "APPROACH_DESIGN",
    "CIRCUITS",
    "CONDENSER_DROP",
    "ELEVATION",
    "SUBCOOLING_DESIGN",
    "SUPERHEAT_DESIGN",
    "TRANSFER_UNITS",
    "absolute",
    "compressors_of",
    "compressors_running",
    "condenser_split_expected",
    "condensing",
    "discharge_pressure",
    "efficiency_need",
    "fans_of",
    "fans_stopped",
    "inlet_air",
    "load_share",
    "of_circuit",
    "own_circuit",
    "saturated_suction",
    "split_design",
    "suction_pressure",
    "thinner_air",
]

CIRCUITS = FAMILIES["circuit"]

_SATURATION = (
    "Saturation by CoolProp's equations of state, tabulated; gauge to absolute by the U.S. Standard "
    "Atmosphere 1976."
)
_SPREAD = "The data sheet, or the usual figure with a wide spread (common practice, no source)."


@dataclass(frozen=True)
class _Usual:
    """A figure that a data sheet may give: the usual one, and the standard uncertainty with and without it."""

    value: float
    of_sheet: float
    assumed: float

    def default(self, sheet: DataSheet, name: str) -> Given:
        """Return the figure of the refrigerant side with this name, or the usual one."""
        given: float | None = getattr(sheet.refrigerant_side, name)
        if given is None:
            return self.value, self.assumed, "assumed"
        if is_assumed(sheet, f"refrigerant_side.{name}"):
            return given, self.assumed, "assumed"
        return given, self.of_sheet, "data sheet"


# K. A valve holds its superheat within a kelvin or two; an orifice holds none, it moves with load and
# air. Common practice, no source.
_SUPERHEAT = {
    Expansion.THERMOSTATIC_VALVE: _Usual(6.0, 1.5, 2.5),
    Expansion.ELECTRONIC_VALVE: _Usual(6.0, 1.0, 2.0),
    Expansion.FIXED_ORIFICE: _Usual(8.0, 4.0, 5.0),
}
_SUBCOOLING = {
    Expansion.THERMOSTATIC_VALVE: _Usual(6.0, 1.5, 2.5),
    Expansion.ELECTRONIC_VALVE: _Usual(6.0, 1.5, 2.5),
    Expansion.FIXED_ORIFICE: _Usual(6.0, 2.5, 3.5),
}
_APPROACH = _Usual(4.5, 1.0, 1.5)
_SPLIT = _Usual(14.0, 1.5, 3.0)
_EFFICIENCY = {
    CompressorType.SCROLL: _Usual(0.65, 0.04, 0.07),
    CompressorType.RECIPROCATING: _Usual(0.65, 0.04, 0.07),
    CompressorType.SCREW: _Usual(0.68, 0.04, 0.07),
    CompressorType.ROTARY: _Usual(0.62, 0.04, 0.07),
}

ELEVATION = Need(
    "site_elevation", Kind.LENGTH, "height of the site above sea level", default=default(300.0, 300.0)
)
TRANSFER_UNITS = Need(
    "sheet.condenser_transfer_units",
    Kind.NUMBER,
    "transfer units of the condenser coil at design",
    # A coil two or three rows deep takes up some 70 % of the split; common practice, no source.
    default=default(1.2, 0.3),
)


def of_circuit(circuit: str) -> str:
    """Return how a circuit is named behind a title."""
    return say("circuit {letter}", letter=circuit.upper())


def own_circuit(sheet: DataSheet, circuit: str) -> None:
    """Refuse a circuit that the data sheet does not have.

    Raises:
        ValueError: naming those it has.
    """
    circuits = circuits_of(sheet)
    if circuit not in circuits:
        named = ", ".join(name.upper() for name in circuits)
        raise ValueError(f"the data sheet has no circuit {circuit.upper()}; it has {named}")


def compressors_of(sheet: DataSheet, circuit: str) -> int:
    """Return how many compressors a circuit has."""
    return sum(compressor.circuit == circuit for compressor in sheet.compressors)


def circuits_of(sheet: DataSheet) -> tuple[str, ...]:
    """Return the letters of a unit's circuits, in order."""
    return tuple(sorted({compressor.circuit for compressor in sheet.compressors}))


def fan_numbers(sheet: DataSheet, circuit: str) -> tuple[int, ...]:
    """Return the numbers of a circuit's condenser fans; a number counts through the data sheet's list."""
    circuits = (fan.circuit for fan in sheet.fans for _ in range(fan.count))
    return tuple(number for number, one in enumerate(circuits, 1) if one == circuit)


def fans_of(sheet: DataSheet, circuit: str) -> int:
    """Return how many condenser fans a circuit has; zero when the data sheet does not list them."""
    return len(fan_numbers(sheet, circuit))


def absolute(values: Mapping[str, float], point: str) -> float:
    """Return the absolute pressure (Pa) of a gauge reading at the site's height.

    Raises:
        ValueError: below a perfect vacuum, or for a height outside the atmosphere's range.
    """
    return to_absolute(values[point], atmosphere.pressure(values["site_elevation"]))


def suction_pressure(circuit: str) -> Need:
    """Return the need for a circuit's suction pressure."""
    return Need(f"suction_pressure_{circuit}", Kind.GAUGE_PRESSURE, f"suction pressure, {of_circuit(circuit)}")


def discharge_pressure(circuit: str) -> Need:
    """Return the need for a circuit's discharge pressure."""
    return Need(f"discharge_pressure_{circuit}", Kind.GAUGE_PRESSURE, f"discharge pressure, {of_circuit(circuit)}")


def inlet_air(circuit: str, *, needed: bool = True) -> Need:
    """Return the need for the air entering a circuit's condenser; the rating's, widely, where it is not needed."""
    return Need(
        f"condenser_inlet_air_temperature_{circuit}",
        Kind.TEMPERATURE,
        f"air entering the condenser, {of_circuit(circuit)}",
        default=None if needed else lambda sheet: (sheet.rating_ambient, 8.0, "assumed"),
    )


def compressors_running(circuit: str) -> Need:
    """Return the need for the number of a circuit's compressors that run; all of them where nobody counted."""

    def all_of_them(sheet: DataSheet) -> Given:
        fitted = compressors_of(sheet, circuit)
        # With one there is nothing to count: the circuit runs, or it is at rest.
        return float(fitted), 0.25 * fitted if fitted > 1 else 0.0, "assumed"

    return Need(
        f"compressors_running_{circuit}",
        Kind.NUMBER,
        f"compressors running, {of_circuit(circuit)}",
        default=all_of_them,
    )


def fans_stopped(circuit: str, *, needed: bool = False) -> Need:
    """Return the need for the number of a circuit's fans that stand still; none where nobody counted."""

    def none_of_them(sheet: DataSheet) -> Given:
        return 0.0, 0.1 * fans_of(sheet, circuit), "assumed"

    return Need(
        f"fans_stopped_{circuit}",
        Kind.NUMBER,
        f"condenser fans standing still, {of_circuit(circuit)}",
        default=None if needed else none_of_them,
    )


def _expansion_need(name: str, title: str, usual: Mapping[Expansion, _Usual]) -> Need:
    def take(sheet: DataSheet) -> Given:
        return usual[sheet.refrigerant_side.expansion].default(sheet, name)

    return Need(f"sheet.{name}", Kind.TEMPERATURE_DIFFERENCE, title, default=take)


def _side_need(name: str, title: str, usual: _Usual) -> Need:
    def take(sheet: DataSheet) -> Given:
        return usual.default(sheet, name)

    return Need(f"sheet.{name}", Kind.TEMPERATURE_DIFFERENCE, title, default=take)


def efficiency_need(circuit: str) -> Need:
    """Return the need for the isentropic efficiency of a circuit's compressors."""

    def take(sheet: DataSheet) -> Given | None:
        kinds = [compressor.type for compressor in sheet.compressors if compressor.circuit == circuit]
        if not kinds:
            return None
        return _EFFICIENCY[kinds[0]].default(sheet, "isentropic_efficiency")

    return Need(
        "sheet.isentropic_efficiency",
        Kind.RATIO,
        f"isentropic efficiency of the compressors of {of_circuit(circuit)}",
        default=take,
    )


SUPERHEAT_DESIGN = _expansion_need("superheat", "superheat at design", _SUPERHEAT)
SUBCOOLING_DESIGN = _expansion_need("subcooling", "subcooling at design", _SUBCOOLING)
APPROACH_DESIGN = _side_need("evaporator_approach", "evaporator's approach at design", _APPROACH)
split_design = _side_need("condenser_split", "condenser's split at design", _SPLIT)
CONDENSER_DROP = Need(
    "sheet.condenser_pressure_drop",
    Kind.PRESSURE_DIFFERENCE,
    "pressure lost from the discharge gauge to the liquid line",
    default=default(50e3, 30e3),
)
DISCHARGE_LINE_LOSS = Need(
    "sheet.discharge_line_loss",
    Kind.TEMPERATURE_DIFFERENCE,
    "by which the line's wall is colder than the gas at the compressor",
    default=default(3.0, 2.0),
)
COIL_OVER_AIR = Need(
    "sheet.coil_over_air",
    Kind.TEMPERATURE_DIFFERENCE,
    "by which the resting coil is warmer than the air",
    default=default(0.0, 0.7),
)
LIQUID_SHARE = Need(
    "sheet.liquid_share",
    Kind.NUMBER,
    "where a resting blend stands between dew (0) and bubble pressure (1)",
    default=default(0.8, 0.15),
)
AMBIENT = Need("ambient_air_temperature", Kind.TEMPERATURE, "outdoor air")
LEAVING_READ = Need("water_out_temperature", Kind.TEMPERATURE, "water leaving the unit")


def _line(name: str, circuit: str, title: str) -> Need:
    return Need(f"{name}_line_temperature_{circuit}", Kind.TEMPERATURE, f"{title}, {of_circuit(circuit)}")


def saturated_suction(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> float:
    """Return the saturated suction temperature (K), on the dew line."""
    pressure = absolute(values, f"suction_pressure_{circuit}")
    return float(refrigerant.dew_temperature(sheet.refrigerant, pressure))


def condensing(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> float:
    """Return the saturated discharge temperature (K), on the dew line."""
    pressure = absolute(values, f"discharge_pressure_{circuit}")
    return float(refrigerant.dew_temperature(sheet.refrigerant, pressure))


def load_share(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> float:
    """Return which share of the circuit's compressors runs.

    Raises:
        ValueError: for a count that the circuit cannot have.
    """
    running, fitted = values[f"compressors_running_{circuit}"], compressors_of(sheet, circuit)
    # Half a compressor of leeway: uncertainty moves the count too.
    if not 0.0 < running <= fitted + 0.5:
        raise ValueError(
            f"{running:g} compressors running, where circuit {circuit.upper()} has {fitted}; count them again"
        )
    return running / fitted


def fan_share(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> float:
    """Return which share of the circuit's fans runs.

    Raises:
        ValueError: for a count that the circuit cannot have, or fans stopped where the sheet lists none.
    """
    stopped, fitted = values[f"fans_stopped_{circuit}"], fans_of(sheet, circuit)
    if not fitted:
        if abs(stopped) < 0.5:  # none, give or take what uncertainty moves it
            return 1.0
        raise ValueError(f"the data sheet does not list the fans of circuit {circuit.upper()}")
    if not -0.5 <= stopped <= fitted:
        raise ValueError(
            f"{stopped:g} fans standing still, where circuit {circuit.upper()} has {fitted}; count them again"
        )
    return (fitted - stopped) / fitted


def thinner_air(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> float:
    """Return the density of the air entering a circuit's condenser over that at rating and sea level.

    Needs ELEVATION and the air entering.
    """
    entering = values[f"condenser_inlet_air_temperature_{circuit}"]
    now = air.density(atmosphere.pressure(values["site_elevation"]), entering)
    return now / air.density(atmosphere.pressure(0.0), sheet.rating_ambient)


def _approach_expected(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> float:
    """Return the approach (K) that the compressors running should leave."""
    return values["sheet.evaporator_approach"] * load_share(values, sheet, circuit)


def _liquid_by_discharge(values: Mapping[str, float], circuit: str) -> float:
    """Return the absolute pressure (Pa) of the liquid, from the discharge less what the condenser takes."""
    return absolute(values, f"discharge_pressure_{circuit}") - values["sheet.condenser_pressure_drop"]


def condenser_split_expected(
    values: Mapping[str, float], sheet: DataSheet, circuit: str
) -> tuple[float, tuple[Working, ...]]:
    """Return the split (K) that the circuit's condenser should have now, and how it was reckoned.

    Needs split_design, TRANSFER_UNITS, ELEVATION, the air entering, compressors running and fans stopped.
    """
    share, fans = load_share(values, sheet, circuit), fan_share(values, sheet, circuit)
    thinner = thinner_air(values, sheet, circuit)
    units = values["sheet.condenser_transfer_units"]
    split = values["sheet.condenser_split"] * air.split_ratio(share, fans, thinner, units)
    return split, (
        Working("share of compressors running", share, Kind.RATIO),
        Working("share of fans running", fans, Kind.RATIO),
        Working("density of the air over that at rating and sea level", thinner, Kind.NUMBER),
        Working("split expected", split, Kind.TEMPERATURE_DIFFERENCE),
    )


def _glide_line(sheet: DataSheet, pressure: float) -> Working:
    return Working(
        "glide at this pressure (dew less bubble)",
        float(refrigerant.glide(sheet.refrigerant, pressure)),
        Kind.TEMPERATURE_DIFFERENCE,
    )


def _superheat(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    own_circuit(sheet, circuit)
    pressure = absolute(values, f"suction_pressure_{circuit}")
    saturated = saturated_suction(values, sheet, circuit)
    remarks: tuple[str, ...] = ("Counted from the dew line. Holds after ten minutes of steady running.",)
    if sheet.refrigerant_side.expansion is Expansion.FIXED_ORIFICE:
        remarks += ("A fixed orifice holds no superheat: it rises with less load and falls with warmer air.",)
    return Comparison(
        values["sheet.superheat"],
        values[f"suction_line_temperature_{circuit}"] - saturated,
        (
            Working("suction pressure, absolute", pressure, Kind.ABSOLUTE_PRESSURE),
            Working("saturated suction (dew)", saturated, Kind.TEMPERATURE),
            _glide_line(sheet, pressure),
        ),
        remarks,
    )


def _subcooling_of(values: Mapping[str, float], sheet: DataSheet, circuit: str, pressure: float) -> Comparison:
    own_circuit(sheet, circuit)
    boiling = float(refrigerant.bubble_temperature(sheet.refrigerant, pressure))
    return Comparison(
        values["sheet.subcooling"],
        boiling - values[f"liquid_line_temperature_{circuit}"],
        (
            Working("liquid pressure, absolute", pressure, Kind.ABSOLUTE_PRESSURE),
            Working("saturated liquid (bubble)", boiling, Kind.TEMPERATURE),
            _glide_line(sheet, pressure),
        ),
        ("Counted from the bubble line. Holds after ten minutes of steady running.",),
    )


def _subcooling(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    return _subcooling_of(values, sheet, circuit, absolute(values, f"liquid_pressure_{circuit}"))


def _subcooling_by_discharge(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    return _subcooling_of(values, sheet, circuit, _liquid_by_discharge(values, circuit))


def _compression_ratio(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    own_circuit(sheet, circuit)
    split, working = condenser_split_expected(values, sheet, circuit)
    entering = values[f"condenser_inlet_air_temperature_{circuit}"]
    cold = values["water_out_temperature"] - _approach_expected(values, sheet, circuit)
    name = sheet.refrigerant
    low, high = (
        float(refrigerant.dew_pressure(name, cold)),
        float(refrigerant.dew_pressure(name, entering + split)),
    )
    suction = absolute(values, f"suction_pressure_{circuit}")
    discharge = absolute(values, f"discharge_pressure_{circuit}")
    return Comparison(
        high / low,
        refrigerant.compression_ratio(suction, discharge),
        (
            *working,
            Working("saturated suction expected", cold, Kind.TEMPERATURE),
            Working("suction pressure expected, absolute", low, Kind.ABSOLUTE_PRESSURE),
            Working("discharge pressure expected, absolute", high, Kind.ABSOLUTE_PRESSURE),
            Working("suction pressure, absolute", suction, Kind.ABSOLUTE_PRESSURE),
            Working("discharge pressure, absolute", discharge, Kind.ABSOLUTE_PRESSURE),
        ),
        ("A ratio near one with the compressor running means that it does not pump.",),
    )


def _evaporator_approach(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    own_circuit(sheet, circuit)
    share = load_share(values, sheet, circuit)
    saturated = saturated_suction(values, sheet, circuit)
    return Comparison(
        _approach_expected(values, sheet, circuit),
        values["water_out_temperature"] - saturated,
        (
            Working("saturated suction (dew)", saturated, Kind.TEMPERATURE),
            Working("approach at design", values["sheet.evaporator_approach"], Kind.TEMPERATURE_DIFFERENCE),
            Working("share of compressors running", share, Kind.RATIO),
        ),
        (
            "High: little water or refrigerant in the evaporator, a fouled barrel, or oil or glycol in excess.",
            "Taken as going with the number of compressors that run.",
        ),
    )


def _condenser_split(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    own_circuit(sheet, circuit)
    split, working = condenser_split_expected(values, sheet, circuit)
    saturated = condensing(values, sheet, circuit)
    return Comparison(
        split,
        saturated - values[f"condenser_inlet_air_temperature_{circuit}"],
        (*working, Working("saturated discharge (dew)", saturated, Kind.TEMPERATURE)),
        (
            "High: a dirty coil, a fan that stands still or turns backwards, too much refrigerant, or gas in the "
            "circuit that does not condense.",
            "A coil section whose fan stands still is taken to give off nothing.",
        ),
    )


def _discharge_temperature(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    own_circuit(sheet, circuit)
    suction = absolute(values, f"suction_pressure_{circuit}")
    discharge = absolute(values, f"discharge_pressure_{circuit}")
    efficiency = values["sheet.isentropic_efficiency"]
    leaving = refrigerant.discharge_temperature(
        sheet.refrigerant, suction, values[f"suction_line_temperature_{circuit}"], discharge, efficiency
    )
    return Comparison(
        leaving - values["sheet.discharge_line_loss"],
        values[f"discharge_line_temperature_{circuit}"],
        (
            Working("suction pressure, absolute", suction, Kind.ABSOLUTE_PRESSURE),
            Working("discharge pressure, absolute", discharge, Kind.ABSOLUTE_PRESSURE),
            Working("isentropic efficiency", efficiency, Kind.RATIO),
            Working("gas leaving the compressor", leaving, Kind.TEMPERATURE),
            Working(
                "line's wall colder than the gas by",
                values["sheet.discharge_line_loss"],
                Kind.TEMPERATURE_DIFFERENCE,
            ),
        ),
        (
            "High: worn valves or seals, or gas that leaks back inside. Low: liquid comes back with the gas.",
            "All work of shaft and motor is taken to stay in the gas.",
        ),
    )


def _non_condensables(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    own_circuit(sheet, circuit)
    air_pressure = atmosphere.pressure(values["site_elevation"])
    pressure = absolute(values, f"resting_pressure_{circuit}")
    temperature = values["ambient_air_temperature"] + values["sheet.coil_over_air"]
    share = values["sheet.liquid_share"]
    saturated = refrigerant.resting_pressure(sheet.refrigerant, temperature, share)
    return Comparison(
        to_gauge(saturated, air_pressure),
        values[f"resting_pressure_{circuit}"],
        (
            Working("resting pressure, absolute", pressure, Kind.ABSOLUTE_PRESSURE),
            Working("saturation at the air's temperature, absolute", saturated, Kind.ABSOLUTE_PRESSURE),
            Working("part that is not the refrigerant's own", pressure - saturated, Kind.PRESSURE_DIFFERENCE),
            _glide_line(sheet, saturated),
        ),
        (
            "High: air or nitrogen in the circuit, or a coil warmer than the air. Low: no liquid left, or a part "
            "of the circuit colder than the air.",
            "Compressors off long enough for the coil to come to the air's temperature, out of the sun; fans "
            "running help.",
        ),
    )


@dataclass(frozen=True)
class _Ends:
    """How far both ends of a circuit are off what they should be, K.

    `backed_up`: subcooling above expected, liquid held in the condenser. `starved`: superheat and
    approach above expected, their mean: too little liquid in the evaporator.
    """

    backed_up: float
    starved: float
    working: tuple[Working, ...]
    remark: str


def _ends(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> _Ends:
    own_circuit(sheet, circuit)
    saturated = saturated_suction(values, sheet, circuit)
    boiling = float(refrigerant.bubble_temperature(sheet.refrigerant, _liquid_by_discharge(values, circuit)))
    superheat = values[f"suction_line_temperature_{circuit}"] - saturated
    subcooling = boiling - values[f"liquid_line_temperature_{circuit}"]
    approach = values["water_out_temperature"] - saturated
    expected = _approach_expected(values, sheet, circuit)
    starved = 0.5 * ((superheat - values["sheet.superheat"]) + (approach - expected))
    backed_up = subcooling - values["sheet.subcooling"]
    return _Ends(
        backed_up,
        starved,
        (
            Working("superheat", superheat, Kind.TEMPERATURE_DIFFERENCE),
            Working("superheat expected", values["sheet.superheat"], Kind.TEMPERATURE_DIFFERENCE),
            Working("approach", approach, Kind.TEMPERATURE_DIFFERENCE),
            Working("approach expected", expected, Kind.TEMPERATURE_DIFFERENCE),
            Working("evaporator starved by: mean of both excesses", starved, Kind.TEMPERATURE_DIFFERENCE),
            Working("subcooling", subcooling, Kind.TEMPERATURE_DIFFERENCE),
            Working("subcooling expected", values["sheet.subcooling"], Kind.TEMPERATURE_DIFFERENCE),
            Working("condenser holds more liquid by: its excess", backed_up, Kind.TEMPERATURE_DIFFERENCE),
        ),
        _reading(sheet, superheat - values["sheet.superheat"], approach - expected, backed_up),
    )


def _reading(sheet: DataSheet, superheat: float, approach: float, subcooling: float) -> str:
    """Return what the three together say, in words.

    A figure counts as high or low outside two standard uncertainties of what it should be on a unit of
    this kind; the verdict itself carries the instruments' uncertainty too.
    """
    side = sheet.refrigerant_side
    hot = _tercile(superheat, _SUPERHEAT[side.expansion].default(sheet, "superheat")[1])
    far = _tercile(approach, _APPROACH.default(sheet, "evaporator_approach")[1])
    cool = _tercile(subcooling, _SUBCOOLING[side.expansion].default(sheet, "subcooling")[1])
    said = f"{_WORDS[cool]} subcooling with {_WORDS[hot]} superheat and {_WORDS[far]} approach: "
    orifice = side.expansion is Expansion.FIXED_ORIFICE
    if hot == 0 and far == 0 and cool == 0:
        cause = "charge and feed as they should be"
    elif cool < 0 and hot > 0:
        cause = "short of charge; look for the leak before adding any"
    elif cool < 0 and hot < 0:
        cause = "fed too much, the condenser is drained into the evaporator: " + (
            "an orifice too large or not seated" if orifice else "a valve that does not close, or its bulb loose"
        )
    elif cool < 0:
        cause = "the charge is running short, and the valve still makes up for it"
        if orifice:
            cause = (
                "the charge may be running short; with a fixed orifice charge by superheat, from the maker's chart"
            )
    elif hot > 0 and far <= 0 and cool == 0:
        cause = (
            "the suction line warms on its way, or the evaporator sees little load or is fed a little too little"
        )
    elif hot > 0:
        cause = "fed too little, liquid waits before the " + (
            "orifice: plugged, or a restricted drier"
            if orifice
            else "valve: it does not open, or a drier is plugged"
        )
    elif hot < 0 and cool > 0:
        cause = "too much refrigerant" if orifice else "too much refrigerant, or a valve that feeds too much"
    elif hot < 0:
        cause = "fed too much: liquid may reach the compressor"
    elif cool > 0:
        cause = "too much refrigerant, or gas in the condenser that does not condense"
    elif far > 0:
        cause = "not the charge: little water, a fouled barrel, or oil in the evaporator"
    else:
        cause = "not the charge: light load, or the water thermometer reads low"
    said += cause
    return said[0].upper() + said[1:] + "."


_WORDS = {-1: "low", 0: "normal", 1: "high"}


def _tercile(excess: float, spread: float) -> int:
    return (excess > COVERAGE * spread) - (excess < -COVERAGE * spread)


def _charge_and_feed(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    ends = _ends(values, sheet, circuit)
    index = 0.5 * (ends.backed_up - ends.starved)
    return Comparison(
        0.0,
        index,
        (*ends.working, Working("charge index: half of (more liquid - starved)", index, _DIFFERENCE)),
        (ends.remark, "Below zero both ends are short of refrigerant, above zero both are full."),
    )


def _feed_balance(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    ends = _ends(values, sheet, circuit)
    index = 0.5 * (ends.backed_up + ends.starved)
    return Comparison(
        0.0,
        index,
        (*ends.working, Working("feed index: half of (more liquid + starved)", index, _DIFFERENCE)),
        (
            ends.remark,
            "Above zero liquid is held up before the evaporator, below zero it runs through into it.",
        ),
    )


_DIFFERENCE = Kind.TEMPERATURE_DIFFERENCE


def _register(circuit: str) -> None:
    """Register the checks of one circuit."""
    named = of_circuit(circuit)
    suction, discharge = suction_pressure(circuit), discharge_pressure(circuit)
    running = compressors_running(circuit)
    suction_line = _line("suction", circuit, "suction line")
    liquid_line = _line("liquid", circuit, "liquid line before the valve")
    both_ends = (
        suction, discharge, suction_line, liquid_line, LEAVING_READ, ELEVATION, running,
        SUPERHEAT_DESIGN, SUBCOOLING_DESIGN, APPROACH_DESIGN, CONDENSER_DROP,
    )  # fmt: skip
    split_needs = (ELEVATION, running, fans_stopped(circuit), split_design, TRANSFER_UNITS)

    registered(
        id=f"superheat_{circuit}",
        title=f"Superheat, {named}",
        kind=_DIFFERENCE,
        needs=(suction, suction_line, ELEVATION, SUPERHEAT_DESIGN),
        scale=5.0,
        formula="suction line less the dew temperature at the suction pressure",
        source=f"ASHRAE Handbook, Fundamentals (dew line for superheat). {_SATURATION} {_SPREAD}",
    )(partial(_superheat, circuit=circuit))
    registered(
        id=f"subcooling_{circuit}",
        title=f"Subcooling, {named}",
        kind=_DIFFERENCE,
        needs=(
            Need(f"liquid_pressure_{circuit}", Kind.GAUGE_PRESSURE, f"liquid line pressure, {named}"),
            liquid_line, ELEVATION, SUBCOOLING_DESIGN,
        ),
        scale=5.0,
        formula="bubble temperature at the liquid line's pressure less the liquid line",
        source=f"ASHRAE Handbook, Fundamentals (bubble line for subcooling). {_SATURATION} {_SPREAD}",
    )(partial(_subcooling, circuit=circuit))  # fmt: skip
    registered(
        id=f"subcooling_by_discharge_{circuit}",
        title=say("Subcooling by the discharge gauge, {named}", named=named),
        kind=_DIFFERENCE,
        needs=(discharge, liquid_line, ELEVATION, SUBCOOLING_DESIGN, CONDENSER_DROP),
        scale=5.0,
        formula="bubble temperature at the discharge pressure less the condenser's drop, less the liquid line",
        source=f"ASHRAE Handbook, Fundamentals (bubble line for subcooling). {_SATURATION} {_SPREAD}",
    )(partial(_subcooling_by_discharge, circuit=circuit))
    registered(
        id=f"compression_ratio_{circuit}",
        title=say("Compression ratio, {named}", named=named),
        kind=Kind.NUMBER,
        needs=(
            suction, discharge, inlet_air(circuit, needed=False), LEAVING, *split_needs, APPROACH_DESIGN,
        ),
        floor=-1.0,
        formula="discharge over suction, absolute; against that of air + split over water - approach",
        source=f"{_SATURATION} {_SPREAD}",
    )(partial(_compression_ratio, circuit=circuit))  # fmt: skip
    registered(
        id=f"evaporator_approach_{circuit}",
        title=say("Evaporator's approach, {named}", named=named),
        kind=_DIFFERENCE,
        needs=(LEAVING_READ, suction, ELEVATION, running, APPROACH_DESIGN),
        scale=5.0,
        formula="leaving water less the dew temperature at the suction pressure",
        source=f"{_SATURATION} {_SPREAD}",
    )(partial(_evaporator_approach, circuit=circuit))
    registered(
        id=f"condenser_split_{circuit}",
        title=say("Condenser's split over the air, {named}", named=named),
        kind=_DIFFERENCE,
        needs=(discharge, inlet_air(circuit), *split_needs),
        scale=10.0,
        formula="dew temperature at the discharge pressure less the air entering; expected: split at design x "
        "load / (fans x density x effectiveness)",
        source="Effectiveness of an exchanger with one constant side (Kays and London); constant volume of a fan "
        f"(fan laws, ASHRAE). {_SATURATION} {_SPREAD}",
    )(partial(_condenser_split, circuit=circuit))
    registered(
        id=f"discharge_temperature_{circuit}",
        title=say("Discharge temperature, {named}", named=named),
        kind=Kind.TEMPERATURE,
        needs=(
            suction, suction_line, discharge, _line("discharge", circuit, "discharge line"), ELEVATION,
            efficiency_need(circuit), DISCHARGE_LINE_LOSS,
        ),
        scale=20.0,
        formula="temperature at h1 + (h2s - h1) / isentropic efficiency and the discharge pressure",
        source="Definition of isentropic efficiency (Çengel and Boles, Thermodynamics, chapter 7). "
        f"{_SATURATION} Efficiency: {_SPREAD}",
    )(partial(_discharge_temperature, circuit=circuit))  # fmt: skip
    registered(
        id=f"non_condensables_{circuit}",
        title=say("Resting pressure against saturation at the air's temperature, {named}", named=named),
        kind=Kind.GAUGE_PRESSURE,
        needs=(
            Need(f"resting_pressure_{circuit}", Kind.GAUGE_PRESSURE, f"refrigerant pressure at rest, {named}"),
            AMBIENT, ELEVATION, COIL_OVER_AIR, LIQUID_SHARE,
        ),
        scale=68_948.0,
        formula="saturation at the outdoor air's temperature, between dew and bubble for a blend",
        source=f"Dalton's law of partial pressures. {_SATURATION}",
    )(partial(_non_condensables, circuit=circuit))  # fmt: skip
    registered(
        id=f"charge_and_feed_{circuit}",
        title=say("Charge, from subcooling, superheat and approach together, {named}", named=named),
        kind=_DIFFERENCE,
        needs=both_ends,
        scale=5.0,
        formula="half of (excess subcooling - mean of excess superheat and excess approach)",
        source=f"What is missing shows at both ends; common practice, no source. {_SATURATION} {_SPREAD}",
    )(partial(_charge_and_feed, circuit=circuit))
    registered(
        id=f"feed_balance_{circuit}",
        title=say("Feed, from subcooling, superheat and approach together, {named}", named=named),
        kind=_DIFFERENCE,
        needs=both_ends,
        scale=5.0,
        formula="half of (excess subcooling + mean of excess superheat and excess approach)",
        source="Refrigerant held up on one side is missing on the other; common practice, no source. "
        f"{_SATURATION} {_SPREAD}",
    )(partial(_feed_balance, circuit=circuit))


for _circuit in CIRCUITS:
    _register(_circuit)

"""Units at the border: what a person types becomes SI, and SI becomes what a person reads.

Everything inside FaultDoc is SI floats (K, Pa, m³/s, m, A, V, Ω, s, W, kg/kg). This module is
the only place where a unit is converted; pint does the converting.

Gauge pressure, absolute pressure and pressure difference are three kinds, not one: adding the
atmosphere to a difference, or forgetting it on a gauge, is the classic wrong reading. A
temperature difference is likewise a kind of its own, so 9 °F of difference is 5 K and never
260 K. Turning a gauge pressure into an absolute one needs the site's atmosphere
(`faultdoc.physics.atmosphere`) and is done by `to_absolute` and `to_gauge` here.

>>> round(parse("30 psig", Kind.GAUGE_PRESSURE).value)
206843
>>> parse("42F", Kind.TEMPERATURE).echo(System.SI)
'5.6 °C'
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import cache, lru_cache
from math import floor, isfinite, log10, sqrt
from typing import TYPE_CHECKING, Any

from faultdoc.plain import plain

if TYPE_CHECKING:
    import pint

__all__ = [
    "ACCEPTED",
    "LARGEST",
    "Kind",
    "Quantity",
    "QuantityError",
    "System",
    "difference_kind",
    "display_unit",
    "exact",
    "from_display",
    "parse",
    "show",
    "to_absolute",
    "to_display",
    "to_gauge",
]


LONGEST = 1000
"""Characters of a quantity; the smallest number that a machine holds has 330 in print."""
LARGEST = 1e15
"""In SI units: an insulation resistance of a tera-ohm is a thousandth of it."""


class Kind(StrEnum):
    """What sort of thing a number is; it fixes the units a person may type."""

    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature difference"
    GAUGE_PRESSURE = "gauge pressure"
    ABSOLUTE_PRESSURE = "absolute pressure"
    PRESSURE_DIFFERENCE = "pressure difference"
    VOLUME_FLOW = "volume flow"
    MASS_FRACTION = "mass fraction"
    RATIO = "ratio"
    LENGTH = "length"
    BORE = "bore"
    VOLUME = "volume"
    VOLTAGE = "voltage"
    CURRENT = "current"
    RESISTANCE = "resistance"
    FREQUENCY = "frequency"
    TIME = "time"
    POWER = "power"
    SHAFT_POWER = "shaft power"
    ELECTRIC_POWER = "electric power"
    MASS = "mass"
    HEAT_CAPACITY = "heat capacity"
    HEAT_LOSS = "heat loss"
    ENTHALPY = "specific enthalpy"
    NUMBER = "number"
    CHOICE = "choice"


class System(StrEnum):
    """Which units a person reads and means when typing a bare number."""

    US = "US"
    SI = "SI"

    @property
    def other(self) -> System:
        """The other system."""
        return System.SI if self is System.US else System.US


class QuantityError(ValueError):
    """What was typed is not a quantity of the kind wanted; the message says what would be, in what prints."""

    def __init__(self, message: str) -> None:
        super().__init__(plain(message))


@dataclass(frozen=True)
class _Display:
    unit: str  # pint's name
    label: str  # what a person reads
    step: float  # the finest step worth showing, in this unit


@dataclass(frozen=True)
class _KindUnits:
    si: str
    us: _Display
    metric: _Display
    spellings: dict[str, str]  # spelling (lower case, no blanks) -> pint's name
    refused: dict[str, str]  # spelling of another kind -> why it is refused here


_PRESSURE = {
    "psi": "psi", "lb/in2": "psi", "lbf/in2": "psi", "#": "psi",
    "kpa": "kPa", "bar": "bar", "mbar": "mbar", "pa": "Pa", "mpa": "MPa", "hpa": "hPa",
    "inhg": "inHg", "mmhg": "mmHg",
    "kg/cm2": "kgf/cm**2", "kgf/cm2": "kgf/cm**2",
}  # fmt: skip
_GAUGE = {
    "psig": "psi", "psi(g)": "psi", "psigauge": "psi", "lbs": "psi",
    "kpag": "kPa", "kpa(g)": "kPa", "kpa(gauge)": "kPa", "kpagauge": "kPa",
    "barg": "bar", "bar(g)": "bar", "bargauge": "bar", "mpag": "MPa",
}  # fmt: skip
_ABSOLUTE = {
    "psia": "psi", "psi(a)": "psi", "kpaa": "kPa", "kpa(a)": "kPa", "kpaabs": "kPa",
    "kpa(abs)": "kPa", "bara": "bar", "bar(a)": "bar", "mpaa": "MPa", "psiabs": "psi",
}  # fmt: skip
_COLUMN = {
    "ftwater": "ft_H2O_column", "fth2o": "ft_H2O_column", "ftwc": "ft_H2O_column", "ftofwater": "ft_H2O_column",
    "ftwg": "ft_H2O_column", "inwc": "in_H2O_column", "inwg": "in_H2O_column", "inh2o": "in_H2O_column",
    "mwater": "m_H2O_column", "mh2o": "m_H2O_column", "mwc": "m_H2O_column", "mwg": "m_H2O_column",
    "mmh2o": "mm_H2O_column", "mmwc": "mm_H2O_column", "mmwg": "mm_H2O_column",
}  # fmt: skip
_DIFFERENCE = {"psid": "psi", "psi(d)": "psi", "kpad": "kPa", "bard": "bar", "psidiff": "psi"}

_IS_GAUGE = dict.fromkeys(_GAUGE, "that is a gauge pressure")
_IS_ABSOLUTE = dict.fromkeys(_ABSOLUTE, "that is an absolute pressure")
_IS_DIFFERENCE = dict.fromkeys(_DIFFERENCE, "that is a difference between two pressures")

_LENGTH = {
    "ft": "ft", "feet": "ft", "foot": "ft", "'": "ft", "in": "inch", "inch": "inch", "inches": "inch",
    '"': "inch", "yd": "yard", "m": "m", "metre": "m", "meter": "m", "metres": "m", "meters": "m",
    "mm": "mm", "cm": "cm",
}  # fmt: skip

_UNITS: dict[Kind, _KindUnits] = {
    Kind.TEMPERATURE: _KindUnits(
        "K", _Display("degF", "°F", 0.1), _Display("degC", "°C", 0.1),
        {"°f": "degF", "f": "degF", "degf": "degF", "ºf": "degF", "fahrenheit": "degF",
         "°c": "degC", "c": "degC", "degc": "degC", "ºc": "degC", "celsius": "degC", "k": "K", "kelvin": "K"},
        {},
    ),
    Kind.TEMPERATURE_DIFFERENCE: _KindUnits(
        "K", _Display("delta_degF", "°F", 0.1), _Display("K", "K", 0.1),
        {"°f": "delta_degF", "f": "delta_degF", "degf": "delta_degF", "ºf": "delta_degF", "f°": "delta_degF",
         "deltaf": "delta_degF", "°c": "delta_degC", "c": "delta_degC", "degc": "delta_degC",
         "ºc": "delta_degC", "k": "K"},
        {},
    ),
    Kind.GAUGE_PRESSURE: _KindUnits(
        "Pa", _Display("psi", "psig", 0.1), _Display("kPa", "kPa gauge", 1.0),
        _PRESSURE | _GAUGE, _IS_ABSOLUTE | _IS_DIFFERENCE,
    ),
    Kind.ABSOLUTE_PRESSURE: _KindUnits(
        "Pa", _Display("psi", "psia", 0.1), _Display("kPa", "kPa absolute", 1.0),
        _PRESSURE | _ABSOLUTE | {"atm": "atm", "kpaabsolute": "kPa"}, _IS_GAUGE | _IS_DIFFERENCE,
    ),
    Kind.PRESSURE_DIFFERENCE: _KindUnits(
        "Pa", _Display("psi", "psi", 0.1), _Display("kPa", "kPa", 0.1),
        _PRESSURE | _DIFFERENCE | _COLUMN, _IS_GAUGE | _IS_ABSOLUTE,
    ),
    Kind.VOLUME_FLOW: _KindUnits(
        "m**3/s", _Display("gallon/minute", "gpm", 0.1), _Display("L/s", "L/s", 0.01),
        {"gpm": "gallon/minute", "usgpm": "gallon/minute", "gal/min": "gallon/minute",
         "l/s": "L/s", "l/sec": "L/s", "lps": "L/s", "l/min": "L/minute", "lpm": "L/minute",
         "m3/h": "m**3/hour", "m3/hr": "m**3/hour", "cmh": "m**3/hour", "m3/s": "m**3/s"},
        {},
    ),
    Kind.MASS_FRACTION: _KindUnits(
        "dimensionless", _Display("percent", "%", 0.1), _Display("percent", "%", 0.1),
        {"%": "percent", "percent": "percent", "pct": "percent", "%m": "percent", "wt%": "percent",
         "%wt": "percent", "kg/kg": "dimensionless"},
        dict.fromkeys(("vol%", "%vol", "%v"), "that is a fraction by volume; a fraction by mass is wanted"),
    ),
    Kind.RATIO: _KindUnits(
        "dimensionless", _Display("percent", "%", 0.1), _Display("percent", "%", 0.1),
        {"%": "percent", "percent": "percent", "pct": "percent"}, {},
    ),
    Kind.LENGTH: _KindUnits("m", _Display("ft", "ft", 0.1), _Display("m", "m", 0.01), _LENGTH, {}),
    Kind.BORE: _KindUnits("m", _Display("inch", "in", 0.01), _Display("mm", "mm", 0.1), _LENGTH, {}),
    Kind.VOLUME: _KindUnits(
        "m**3", _Display("gallon", "gal", 1.0), _Display("L", "L", 1.0),
        {"gal": "gallon", "gallon": "gallon", "gallons": "gallon", "l": "L", "litre": "L", "liter": "L",
         "litres": "L", "liters": "L", "m3": "m**3"},
        {},
    ),
    Kind.VOLTAGE: _KindUnits(
        "V", _Display("V", "V", 0.1), _Display("V", "V", 0.1),
        {"v": "V", "volt": "V", "volts": "V", "vac": "V", "kv": "kV", "mv": "mV"}, {},
    ),
    Kind.CURRENT: _KindUnits(
        "A", _Display("A", "A", 0.1), _Display("A", "A", 0.1),
        {"a": "A", "amp": "A", "amps": "A", "ampere": "A", "ma": "mA"}, {},
    ),
    Kind.RESISTANCE: _KindUnits(
        "ohm", _Display("ohm", "Ω", 0.001), _Display("ohm", "Ω", 0.001),
        # Spellings are compared in lower case, where Ω becomes ω; `_unit_of` has told m from M by then.
        {"ω": "ohm", "ohm": "ohm", "ohms": "ohm", "kohm": "kohm", "kohms": "kohm", "kω": "kohm", "k": "kohm",
         "megohm": "Mohm", "megohms": "Mohm", "mohm": "Mohm", "mohms": "Mohm", "mω": "Mohm"},
        {},
    ),
    Kind.FREQUENCY: _KindUnits(
        "Hz", _Display("Hz", "Hz", 0.1), _Display("Hz", "Hz", 0.1), {"hz": "Hz", "hertz": "Hz"}, {},
    ),
    Kind.TIME: _KindUnits(
        "s", _Display("minute", "min", 0.1), _Display("minute", "min", 0.1),
        {"s": "s", "sec": "s", "second": "s", "seconds": "s", "min": "minute", "mins": "minute",
         "minute": "minute", "minutes": "minute", "h": "hour", "hr": "hour", "hrs": "hour", "hour": "hour",
         "hours": "hour", "d": "day", "day": "day", "days": "day"},
        {},
    ),
    Kind.POWER: _KindUnits(
        "W", _Display("refrigeration_ton", "tons", 0.1), _Display("kW", "kW", 0.1),
        {"kw": "kW", "w": "W", "ton": "refrigeration_ton", "tons": "refrigeration_ton",
         "tr": "refrigeration_ton", "btu/h": "Btu/hour", "btuh": "Btu/hour", "btu/hr": "Btu/hour",
         "mbh": "kBtu/hour", "hp": "hp"},
        {},
    ),
    Kind.SHAFT_POWER: _KindUnits(
        "W", _Display("hp", "hp", 0.1), _Display("kW", "kW", 0.1),
        {"kw": "kW", "w": "W", "hp": "hp", "btu/h": "Btu/hour", "btuh": "Btu/hour"}, {},
    ),
    Kind.ELECTRIC_POWER: _KindUnits(
        "W", _Display("W", "W", 1.0), _Display("W", "W", 1.0),
        {"w": "W", "kw": "kW", "va": "V*A", "kva": "kV*A"}, {},
    ),
    Kind.MASS: _KindUnits(
        "kg", _Display("lb", "lb", 0.1), _Display("kg", "kg", 0.01),
        {"kg": "kg", "g": "g", "lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb", "oz": "oz"}, {},
    ),
    Kind.HEAT_CAPACITY: _KindUnits(
        "J/K", _Display("Btu/delta_degF", "Btu/°F", 0.1), _Display("kJ/K", "kJ/K", 0.1),
        {"j/k": "J/K", "kj/k": "kJ/K", "btu/°f": "Btu/delta_degF", "btu/f": "Btu/delta_degF"}, {},
    ),
    Kind.HEAT_LOSS: _KindUnits(
        "W/K", _Display("Btu/hour/delta_degF", "Btu/h/°F", 0.1), _Display("W/K", "W/K", 0.1),
        {"w/k": "W/K", "btu/h/°f": "Btu/hour/delta_degF", "btu/h/f": "Btu/hour/delta_degF"}, {},
    ),
    Kind.ENTHALPY: _KindUnits(
        "J/kg", _Display("Btu/lb", "Btu/lb", 0.1), _Display("kJ/kg", "kJ/kg", 0.1),
        {"j/kg": "J/kg", "kj/kg": "kJ/kg", "btu/lb": "Btu/lb"}, {},
    ),
    Kind.NUMBER: _KindUnits(
        "dimensionless", _Display("dimensionless", "", 0.01), _Display("dimensionless", "", 0.01), {}, {},
    ),
}  # fmt: skip

ACCEPTED: dict[Kind, tuple[str, ...]] = {
    Kind.TEMPERATURE: ("°F", "°C", "K"),
    Kind.TEMPERATURE_DIFFERENCE: ("°F", "°C", "K"),
    Kind.GAUGE_PRESSURE: ("psi", "psig", "kPa", "bar", "barg"),
    Kind.ABSOLUTE_PRESSURE: ("psia", "kPa", "bar"),
    Kind.PRESSURE_DIFFERENCE: ("psi", "kPa", "bar", "ft water", "in wc", "m water"),
    Kind.VOLUME_FLOW: ("gpm", "L/s", "L/min", "m3/h"),
    Kind.MASS_FRACTION: ("%", "kg/kg"),
    Kind.RATIO: ("%",),
    Kind.LENGTH: ("ft", "in", "m", "mm", "2' 6\""),
    Kind.BORE: ("in", "mm"),
    Kind.VOLUME: ("gal", "L", "m3"),
    Kind.VOLTAGE: ("V", "kV", "mV"),
    Kind.CURRENT: ("A", "mA"),
    Kind.RESISTANCE: ("ohm", "kohm", "Mohm"),
    Kind.FREQUENCY: ("Hz",),
    Kind.TIME: ("s", "min", "h", "1 h 20 min"),
    Kind.POWER: ("kW", "tons", "Btu/h", "hp"),
    Kind.SHAFT_POWER: ("kW", "hp"),
    Kind.ELECTRIC_POWER: ("W", "kW", "VA", "kVA"),
    Kind.MASS: ("kg", "lb", "oz"),
    Kind.HEAT_CAPACITY: ("kJ/K", "Btu/°F"),
    Kind.HEAT_LOSS: ("W/K", "Btu/h/°F"),
    Kind.ENTHALPY: ("kJ/kg", "Btu/lb"),
    Kind.NUMBER: (),
}
"""The spellings named in messages; more are understood."""


@cache
def _registry() -> pint.UnitRegistry[Any]:
    import pint  # a third of a second: paid once, by the first conversion

    registry: pint.UnitRegistry[Any] = pint.UnitRegistry()
    # Gauges in columns of water are marked at the conventional density.
    for length in ("ft", "inch", "m", "mm"):
        name = {"inch": "in"}.get(length, length)
        registry.define(f"{name}_H2O_column = {length} * 1000 * kilogram / meter**3 * standard_gravity")
    return registry


@lru_cache(maxsize=512)
def _linear(unit: str, si: str) -> tuple[float, float]:
    """Scale and offset with SI = scale * value + offset; pint's answer at two points."""
    if unit == si:
        return 1.0, 0.0
    quantity = _registry().Quantity
    zero = float(quantity(0.0, unit).to(si).magnitude)
    one = float(quantity(1.0, unit).to(si).magnitude)
    if zero == 0.0:
        return one, 0.0
    # Two offset scales differ by little between 0 and 1; a wider base keeps all digits.
    far = float(quantity(1000.0, unit).to(si).magnitude)
    return (far - zero) / 1000.0, zero


@dataclass(frozen=True)
class Quantity:
    """A number as a person gave it, understood: SI value, limits of error, and the unit they used.

    Attributes:
        kind: what sort of thing it is.
        value: in SI (K, Pa, m³/s, ...). A gauge pressure stays a gauge pressure.
        limit: half-width `x` of `± x` in SI, or None when none was given.
        unit: pint's name of the unit typed or assumed.
        assumed: True when no unit was typed and the display system supplied it.
        text: what was typed.
    """

    kind: Kind
    value: float
    limit: float | None
    unit: str
    assumed: bool
    text: str

    @property
    def standard_uncertainty(self) -> float | None:
        """Limit of error as a standard uncertainty, SI: x / sqrt(3).

        A gauge's `± x` says the value lies within x of the reading and no more; JCGM 100:2008
        (GUM) 4.3.7 takes that as a rectangular distribution.
        """
        return None if self.limit is None else self.limit / sqrt(3.0)

    def echo(self, system: System) -> str:
        """Return the quantity as understood, in the units of `system`, `± x` with it.

        In the unit that was typed or assumed nothing typed is lost; in another unit it is
        rounded as `show` does.

        >>> parse("5.4321", Kind.VOLUME_FLOW).echo(System.US)
        '5.4321 gpm'
        """
        shown = _shown(self.kind, system)
        if self.unit != shown.unit:
            return show(self.value, self.kind, system, limit=self.limit)
        text = f"{to_display(self.value, self.kind, system):.10g}"
        if self.limit is not None:
            text += f" ± {_width(self.limit, self.kind, system):.10g}"
        return text + _glue(shown.label) + shown.label

    @property
    def written(self) -> str:
        """What was typed, with the unit that was meant where none was typed; read back it is the same.

        >>> parse("5.5 ± 0.2", Kind.VOLUME_FLOW, System.SI).written
        '5.5 L/s ± 0.2'
        """
        if not self.assumed:
            return self.text
        spec = _UNITS[self.kind]
        label = next(shown.label for shown in (spec.us, spec.metric) if shown.unit == self.unit)
        main, sign, limit = _halves(self.text)
        return f"{main.strip()} {label}" + (f" {sign} {limit.strip()}" if sign else "")


_NUMBER = r"[-+]?(?:\d[\d.,]*|[.,]\d+)(?:[eE][-+]?\d+)?"
_MIXED = re.compile(r"^\s*(?P<whole>\d+)[\s-]+(?P<top>\d+)/(?P<bottom>\d+)\s*(?P<unit>.*)$")
_FRACTION = re.compile(r"^\s*(?P<top>\d+)/(?P<bottom>\d+)\s*(?P<unit>[^\d]*)$")
_PLAIN = re.compile(rf"^\s*(?P<number>{_NUMBER})\s*(?P<unit>.*)$")
_PAIRS = re.compile(rf"\s*(?P<number>{_NUMBER}|\d+[\s-]+\d+/\d+|\d+/\d+)\s*(?P<unit>[^\d\s.,+-]+)\s*")
_CLOCK = re.compile(r"^\s*(?P<h>\d{1,4}):(?P<m>[0-5]\d)(?::(?P<s>[0-5]\d))?\s*$")
_PLUS_MINUS = re.compile(r"±|\+/-|\+-")
_PER_CENT = ("%", "percent", "pct")


def parse(text: str, kind: Kind, system: System = System.US, *, need_unit: bool = False) -> Quantity:
    """Understand what a person typed as a quantity of `kind`.

    Understands `42F`, `42 °F`, `5.5` (unit of `system`), `12 psi`, `30 psig`, `2' 6"`,
    `2 1/2 in`, `1 h 20 min`, `1:20` (hours:minutes), comma decimals (`5,5 bar`) and a limit of
    error after `±` or `+/-` (`62 psi ± 1`, `62 psi ± 2 %`).

    Args:
        text: what was typed.
        kind: what is wanted; `Kind.CHOICE` is not a quantity.
        system: whose unit a bare number means.
        need_unit: refuse a bare number (files must say their units).

    Returns:
        The quantity in SI.

    Raises:
        QuantityError: with what was found and what would be accepted.

    >>> round(parse("2' 6\\"", Kind.LENGTH).value, 6)
    0.762
    >>> parse("9 °F", Kind.TEMPERATURE_DIFFERENCE).value
    5.0
    >>> parse("5,5", Kind.VOLUME_FLOW, System.SI).echo(System.SI)
    '5.5 L/s'
    >>> parse("12 psig", Kind.PRESSURE_DIFFERENCE)
    Traceback (most recent call last):
    faultdoc.quantities.QuantityError: '12 psig': that is a gauge pressure, and a pressure difference is \
wanted; type it in psi, kPa, bar, ft water, in wc, m water
    """
    if kind not in _UNITS:
        raise QuantityError(f"{kind.value} is not a quantity that can be typed as a number")
    if len(text) > LONGEST:
        raise QuantityError(f"'{text[:20]}...' has {len(text)} characters; a quantity has at most {LONGEST}")
    clean = _tidy(text)
    if not clean:
        raise QuantityError(f"nothing was typed; type it {_wanted(kind)}")
    main, sign, after = _halves(clean)
    if _PLUS_MINUS.search(after):
        raise QuantityError(f"'{text}': more than one ±")
    if sign and (shared := _shared_unit(main, after, text, kind)):
        main = f"{main} {shared}"
    try:
        value, unit, assumed = _value(main, text, kind, system, need_unit)
        limit = _limit(after, text, kind, unit, value) if sign else None
    except OverflowError:
        raise QuantityError(f"'{text}' is not a finite number") from None
    for number in (value, limit or 0.0):
        if not isfinite(number):
            raise QuantityError(f"'{text}' is not a finite number")
        if abs(number) > LARGEST:
            raise QuantityError(f"'{text}' is no quantity that there is; look at its digits and its unit")
    if value < 0.0 and kind in (Kind.TEMPERATURE, Kind.ABSOLUTE_PRESSURE):
        lowest = "absolute zero" if kind is Kind.TEMPERATURE else "a perfect vacuum"
        raise QuantityError(f"'{text}' is below {lowest}")
    return Quantity(kind, value, limit, unit, assumed, text.strip())


def _halves(text: str) -> tuple[str, str, str]:
    """Return what stands before the first ±, the sign as typed ('' if there is none) and what follows it."""
    sign = _PLUS_MINUS.search(text)
    return (text[: sign.start()], sign.group(), text[sign.end() :]) if sign else (text, "", "")


def _shared_unit(main: str, after: str, text: str, kind: Kind) -> str:
    """Return the unit after the limit when it is meant for both numbers, as in `68.0 ± 1.8 °F`; else ''.

    A per cent after ± is one of the reading and no unit, except where the reading itself is a fraction.
    """
    if kind is Kind.NUMBER or (kind is Kind.TIME and _CLOCK.match(main)):
        return ""
    if kind in (Kind.LENGTH, Kind.BORE, Kind.TIME) and _several(main, kind) is not None:
        return ""
    if _number_and_unit(main, text, kind)[1]:
        return ""
    unit = _number_and_unit(after, text, kind)[1]
    return "" if _squeeze(unit) in _PER_CENT and kind not in (Kind.MASS_FRACTION, Kind.RATIO) else unit


def _tidy(text: str) -> str:
    for odd, usual in (
        ("\u2212", "-"), ("\u2013", "-"), ("\u00a0", " "), ("\u202f", " "), ("\u2019", "'"), ("\u2032", "'"),
        ("\u201d", '"'), ("\u2033", '"'), ("''", '"'), ("²", "2"), ("³", "3"), ("\u2126", "Ω"),
        ("\u2103", "°C"), ("\u2109", "°F"),
    ):  # fmt: skip
        text = text.replace(odd, usual)
    return text.strip()


def _wanted(kind: Kind) -> str:
    spellings = ACCEPTED[kind]
    return "in " + ", ".join(spellings) if spellings else "as a plain number"


def _value(main: str, text: str, kind: Kind, system: System, need_unit: bool) -> tuple[float, str, bool]:
    """Return the SI value, the unit's pint name and whether it was assumed."""
    spec = _UNITS[kind]
    if kind is Kind.TIME and (clock := _CLOCK.match(main)):
        seconds = int(clock["h"]) * 3600 + int(clock["m"]) * 60 + int(clock["s"] or 0)
        return float(seconds), "hour", False
    if kind in (Kind.LENGTH, Kind.BORE, Kind.TIME) and (several := _several(main, kind)) is not None:
        return several
    number, spelling = _number_and_unit(main, text, kind)
    if spelling:
        unit = _unit_of(spelling, text, kind)
        assumed = False
    elif kind is Kind.NUMBER:
        return number, "dimensionless", False
    elif need_unit:
        raise QuantityError(f"'{text}' has no unit; write it {_wanted(kind)}")
    else:
        unit = _shown(kind, system).unit
        assumed = True
    scale, offset = _linear(unit, spec.si)
    return scale * number + offset, unit, assumed


def _several(main: str, kind: Kind) -> tuple[float, str, bool] | None:
    """Return a sum of several parts of falling unit (2 ft 6 in, 1 h 20 min), or None if there is one part."""
    parts = list(_PAIRS.finditer(main))
    if len(parts) < 2 or "".join(part.group(0) for part in parts) != main:
        return None
    total = 0.0
    first_unit = ""
    last_scale = float("inf")
    negative = main.startswith("-")
    for part in parts:
        unit = _UNITS[kind].spellings.get(_squeeze(part["unit"]))
        if unit is None:
            return None
        number, _ = _number_and_unit(part["number"], main, kind)
        scale, _ = _linear(unit, _UNITS[kind].si)
        if scale >= last_scale:
            raise QuantityError(f"'{main}': the parts must go from the large unit to the small one")
        last_scale = scale
        first_unit = first_unit or unit
        total += scale * abs(number)
    return (-total if negative else total), first_unit, False


def _number_and_unit(main: str, text: str, kind: Kind) -> tuple[float, str]:
    if mixed := _MIXED.match(main):
        whole, top, bottom = (int(mixed[name]) for name in ("whole", "top", "bottom"))
        if bottom:
            return whole + top / bottom, mixed["unit"].strip()
    if (part := _FRACTION.match(main)) and int(part["bottom"]):
        return int(part["top"]) / int(part["bottom"]), part["unit"].strip()
    plain = _PLAIN.match(main)
    if not plain:
        raise QuantityError(f"'{text}' has no number in it; type it {_wanted(kind)}")
    return _float(plain["number"], text), plain["unit"].strip()


def _float(number: str, text: str) -> float:
    """Return the number with its comma or point understood.

    One comma followed by exactly three digits can be read two ways, and a factor of a thousand
    is too much to guess.
    """
    mantissa, power = re.fullmatch(r"(.*?)([eE].*)?", number).groups("")  # type: ignore[union-attr]
    sign, digits = (mantissa[0], mantissa[1:]) if mantissa[0] in "+-" else ("", mantissa)
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
        raise QuantityError(
            f"'{text}' can be read two ways; write {digits.replace(',', '')} or {digits.replace(',', '.')}"
        )
    if re.fullmatch(r"\d{1,3}(,\d{3})+\.\d*|\d{1,3}(,\d{3}){2,}", digits):
        digits = digits.replace(",", "")
    elif re.fullmatch(r"\d{1,3}(\.\d{3})+,\d*|\d{1,3}(\.\d{3}){2,}", digits):
        digits = digits.replace(".", "").replace(",", ".")
    elif re.fullmatch(r"\d*,\d+", digits):
        digits = digits.replace(",", ".")
    try:
        return float(sign + digits + power)
    except ValueError:
        raise QuantityError(f"'{text}': '{number}' is not a number") from None


def _squeeze(spelling: str) -> str:
    return re.sub(r"[\s·^.]+", "", spelling).lower()


def _unit_of(spelling: str, text: str, kind: Kind) -> str:
    spec = _UNITS[kind]
    # Case tells milli from mega in a few electrical spellings only.
    if kind is Kind.RESISTANCE and re.fullmatch(r"m([oO][hH][mM][sS]?|[Ωω])", spelling.replace(" ", "")):
        raise QuantityError(f"'{text}': milliohm or megohm? type it in ohm, kohm or Mohm (megohm)")
    if kind is Kind.VOLTAGE and spelling.strip() == "MV":
        raise QuantityError(f"'{text}': megavolts are not expected here; type it in V, kV or mV")
    squeezed = _squeeze(spelling)
    if squeezed in spec.spellings:
        return spec.spellings[squeezed]
    if squeezed in spec.refused:
        article = "an" if kind is Kind.ABSOLUTE_PRESSURE else "a"
        reason = f"{spec.refused[squeezed]}, and {article} {kind.value} is wanted"
        raise QuantityError(f"'{text}': {reason}; type it {_wanted(kind)}")
    raise QuantityError(f"'{text}': '{spelling}' is not a unit of {kind.value}; type it {_wanted(kind)}")


def _limit(after: str, text: str, kind: Kind, unit: str, value: float) -> float:
    """Return the half-width after ± in SI: in its own unit, in the reading's, or in per cent of reading."""
    number, spelling = _number_and_unit(after, text, kind)
    if number < 0:
        raise QuantityError(f"'{text}': the limit after ± cannot be negative")
    squeezed = _squeeze(spelling)
    if squeezed in _PER_CENT and kind not in (Kind.MASS_FRACTION, Kind.RATIO):
        if kind is Kind.TEMPERATURE:
            raise QuantityError(f"'{text}': a per cent of a temperature means nothing; give ± in degrees")
        return abs(value) * number / 100.0
    limit_kind = difference_kind(kind)
    if not squeezed:
        if kind in (Kind.LENGTH, Kind.BORE, Kind.TIME) and _in_parts(text, kind):
            raise QuantityError(f"'{text}': the limit after ± has no unit; type it {_wanted(kind)}")
        own = {"degF": "delta_degF", "degC": "delta_degC"}.get(unit, unit)
    elif kind is not Kind.TEMPERATURE and squeezed in _UNITS[kind].spellings:
        own = _UNITS[kind].spellings[squeezed]  # psig after ± means psi
    else:
        own = _unit_of(spelling, text, limit_kind)
    scale, _ = _linear(own, _UNITS[limit_kind].si)
    return scale * number


def _in_parts(text: str, kind: Kind) -> bool:
    """Return whether what stands before ± has several units or none of its own, such as 1 h 20 min or 1:20."""
    main = _halves(_tidy(text))[0]
    return bool(_CLOCK.match(main)) or _several(main, kind) is not None


def _shown(kind: Kind, system: System) -> _Display:
    """Return how a kind is shown in a system of units."""
    return _UNITS[kind].us if system is System.US else _UNITS[kind].metric


def display_unit(kind: Kind, system: System) -> str:
    """Return the label of the unit in which `kind` is shown, such as 'psig' ('' for plain numbers)."""
    return _shown(kind, system).label


def to_display(value: float, kind: Kind, system: System) -> float:
    """Return an SI value as a number in the unit of `display_unit(kind, system)`."""
    scale, offset = _linear(_shown(kind, system).unit, _UNITS[kind].si)
    return (value - offset) / scale


def from_display(value: float, kind: Kind, system: System) -> float:
    """Return in SI a number that is in the unit of `display_unit(kind, system)`."""
    scale, offset = _linear(_shown(kind, system).unit, _UNITS[kind].si)
    return scale * value + offset


def difference_kind(kind: Kind) -> Kind:
    """Return the kind of the difference of two values of `kind` (a deviation, a ± limit)."""
    if kind is Kind.TEMPERATURE:
        return Kind.TEMPERATURE_DIFFERENCE
    if kind in (Kind.GAUGE_PRESSURE, Kind.ABSOLUTE_PRESSURE):
        return Kind.PRESSURE_DIFFERENCE
    return kind


def show(value: float, kind: Kind, system: System, *, limit: float | None = None) -> str:
    """Return an SI value as a person reads it, with about three meaningful digits.

    Args:
        value: SI.
        kind: what it is.
        system: units to show it in.
        limit: half-width of `± x` in SI, shown behind it when given.

    >>> show(293.15, Kind.TEMPERATURE, System.US, limit=1.0)
    '68.0 ± 1.8 °F'
    >>> show(4800.0, Kind.TIME, System.US)
    '1 h 20 min'
    """
    shown = _shown(kind, system)
    number = to_display(value, kind, system)
    if kind is Kind.TIME and limit is None:
        return _clock(value)
    if kind is Kind.RESISTANCE and max(abs(value), limit or 0.0) >= 1e4:
        return _large_resistance(value, limit)
    text = _digits(number, shown.step)
    if limit is not None:
        text = f"{text} ± {_digits(_width(limit, kind, system), shown.step)}"
    return text + _glue(shown.label) + shown.label


def _glue(label: str) -> str:
    return "" if label in ("", "%") else " "


def _width(limit: float, kind: Kind, system: System) -> float:
    """Return a half-width (SI) in the unit in which `kind` is shown."""
    return to_display(limit, difference_kind(kind), system)


def exact(value: float, kind: Kind, limit: float | None = None) -> str:
    """Return an SI value, and its half-width, as text in SI units that `parse` reads back without loss.

    >>> exact(206843.25, Kind.GAUGE_PRESSURE, 1000.0)
    '206843.25 Pa ± 1000.0 Pa'
    """
    unit = {"m**3/s": "m3/s", "m**3": "m3"}.get(_UNITS[kind].si, _UNITS[kind].si)
    scale = 1.0
    if unit == "dimensionless":
        scale, unit = {Kind.MASS_FRACTION: (1.0, "kg/kg"), Kind.RATIO: (100.0, "%")}.get(kind, (1.0, ""))
    text = f"{value * scale!r} {unit}".strip()
    return text if limit is None else f"{text} ± {limit * scale!r} {unit}".strip()


def _digits(number: float, step: float) -> str:
    """Return the number to three significant digits, but never finer than `step` unless it must be."""
    if number == 0.0 or not isfinite(number):
        return f"{number:g}"
    decimals_for_three = 2 - floor(log10(abs(number)))
    decimals_of_step = max(0, -floor(log10(step) + 1e-9))
    at_least_a_step = abs(number) >= step * (1.0 - 1e-9)  # a difference of two steps may fall a hair short
    decimals = decimals_of_step if at_least_a_step else decimals_for_three
    if at_least_a_step:
        decimals = min(decimals_of_step, max(decimals_for_three, 0 if abs(number) >= 1000 else 1))
    return f"{number:.{max(decimals, 0)}f}"


def _clock(seconds: float) -> str:
    sign = "-" if seconds < 0 else ""
    seconds = abs(seconds)
    if seconds < 90:
        return f"{sign}{seconds:.0f} s"
    minutes = round(seconds / 60)
    hours, minutes = divmod(minutes, 60)
    if not hours:
        return f"{sign}{minutes} min"
    return f"{sign}{hours} h {minutes} min" if minutes else f"{sign}{hours} h"


def _large_resistance(value: float, limit: float | None) -> str:
    """Return a resistance of insulation in kΩ or MΩ; in Ω it would be a row of noughts."""
    scale, label = (1e6, "MΩ") if max(abs(value), limit or 0.0) >= 1e6 else (1e3, "kΩ")
    text = _digits(value / scale, 0.01)
    return f"{text} {label}" if limit is None else f"{text} ± {_digits(limit / scale, 0.01)} {label}"


def to_absolute(gauge: float, atmospheric: float) -> float:
    """Return the absolute pressure (Pa) of a gauge pressure (Pa) under `atmospheric` (Pa).

    Raises:
        QuantityError: when the result is below a perfect vacuum.

    >>> to_absolute(0.0, 101325.0)
    101325.0
    """
    absolute = gauge + atmospheric
    if absolute < 0:
        reading = show(gauge, Kind.GAUGE_PRESSURE, System.US)
        air = show(atmospheric, Kind.ABSOLUTE_PRESSURE, System.US)
        raise QuantityError(f"{reading} is below a perfect vacuum where the atmosphere is {air}")
    return absolute


def to_gauge(absolute: float, atmospheric: float) -> float:
    """Return the gauge pressure (Pa) of an absolute pressure (Pa) under `atmospheric` (Pa)."""
    return absolute - atmospheric

"""Checks of the compressors' oil sumps: warm enough over what refrigerant would condense at, and how long yet.

Oil colder than the refrigerant around it takes refrigerant up, and foams away at the start. The sump is
safe when it is warmer than saturated suction by a margin, at rest as in running.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from math import isinf, sqrt

from faultdoc.checks.base import Comparison, Given, Need, Sense, Working, registered
from faultdoc.checks.inputs import factor, is_assumed
from faultdoc.checks.refrigerant import (
    AMBIENT,
    CIRCUITS,
    ELEVATION,
    of_circuit,
    saturated_suction,
    suction_pressure,
)
from faultdoc.model.points import FAMILIES
from faultdoc.model.unit import DataSheet
from faultdoc.physics import oil
from faultdoc.quantities import Kind
from faultdoc.words import say

__all__ = ["COMPRESSORS", "USUAL_MARGIN", "own_compressor"]

COMPRESSORS = FAMILIES["number"]

USUAL_MARGIN = 10.0
"""K of sump over saturated suction where the data sheet gives none; common practice, no source."""


def _margin(sheet: DataSheet) -> Given:
    if sheet.oil_sump is None:
        return USUAL_MARGIN, 2.0, "assumed"
    if is_assumed(sheet, "oil_sump.safe_margin"):
        return sheet.oil_sump.safe_margin, 2.0, "assumed"
    return sheet.oil_sump.safe_margin, 0.0, "data sheet"


_SAFE_MARGIN = Need(
    "sheet.safe_margin",
    Kind.TEMPERATURE_DIFFERENCE,
    "safe margin of the sump over saturated suction",
    default=_margin,
)


def _factor(name: str, field: str, title: str, limit: float) -> Need:
    """Return the need for how far a figure of the sump's model may be off; None without a model on the sheet."""

    def take(sheet: DataSheet) -> Given | None:
        u = limit / sqrt(3.0)
        return None if sheet.oil_sump is None else factor(f"oil_sump.{field}", u, 2.0 * u)(sheet)

    return Need(f"sheet.{name}", Kind.RATIO, title, default=take)


HEATER = _factor("sump_heater", "heater_power", "power of the sump's heater, true over the sheet's", 0.10)
CAPACITY = _factor("sump_heat_capacity", "heat_capacity", "heat capacity of the sump, true over the sheet's", 0.25)
LOSS = _factor("sump_heat_loss", "heat_loss", "heat loss of the sump, true over the sheet's", 0.25)


def own_compressor(sheet: DataSheet, number: str) -> str:
    """Return the circuit of a compressor.

    Raises:
        ValueError: when the data sheet has no such compressor.
    """
    if int(number) > len(sheet.compressors):
        raise ValueError(
            f"the data sheet has no compressor {number}; it has {len(sheet.compressors)}, counted in its order"
        )
    return sheet.compressors[int(number) - 1].circuit


def _oil_margin(values: Mapping[str, float], sheet: DataSheet, number: str) -> Comparison:
    own_compressor(sheet, number)
    ambient, margin = values["ambient_air_temperature"], values["sheet.safe_margin"]
    return _compared(
        values[f"oil_temperature_{number}"],
        ambient,
        margin,
        (
            Working("outdoor air, taken for saturated suction at rest", ambient, Kind.TEMPERATURE),
            Working("safe margin", margin, Kind.TEMPERATURE_DIFFERENCE),
        ),
        "At rest refrigerant gathers where it is coldest; with cold water in the unit that may be colder than the "
        "air, and the margin is then on the safe side.",
    )


def _oil_over_suction(values: Mapping[str, float], sheet: DataSheet, number: str, circuit: str) -> Comparison:
    if own_compressor(sheet, number) != circuit:
        raise ValueError(f"compressor {number} is on circuit {own_compressor(sheet, number).upper()}")
    saturated, margin = saturated_suction(values, sheet, circuit), values["sheet.safe_margin"]
    return _compared(
        values[f"oil_temperature_{number}"],
        saturated,
        margin,
        (
            Working("saturated suction (dew)", saturated, Kind.TEMPERATURE),
            Working("safe margin", margin, Kind.TEMPERATURE_DIFFERENCE),
        ),
        "At rest by the resting pressure, in running by the suction pressure.",
    )


def _compared(
    sump: float, saturated: float, margin: float, working: tuple[Working, ...], remark: str
) -> Comparison:
    line = Working("sump warmer by", sump - saturated, Kind.TEMPERATURE_DIFFERENCE)
    return Comparison(saturated + margin, sump, (*working, line), (remark,))


def _warm_up_left(values: Mapping[str, float], sheet: DataSheet, number: str) -> Comparison:
    own_compressor(sheet, number)
    if sheet.oil_sump is None:
        raise ValueError("the data sheet gives no oil sump")
    ambient = values["ambient_air_temperature"]
    power = sheet.oil_sump.heater_power * values["sheet.sump_heater"]
    loss = sheet.oil_sump.heat_loss * values["sheet.sump_heat_loss"]
    capacity = sheet.oil_sump.heat_capacity * values["sheet.sump_heat_capacity"]
    target = ambient + values["sheet.safe_margin"]
    left = oil.time_to_reach(target, values[f"oil_temperature_{number}"], ambient, power, capacity, loss)
    settled = oil.settled_temperature(ambient, power, loss)
    if isinf(left):
        raise ValueError(
            f"the heater holds the sump only {settled - ambient:.0f} K over the air, and "
            f"{values['sheet.safe_margin']:.0f} K is wanted; the data sheet's sump does not agree with itself"
        )
    return Comparison(
        0.0,
        left,
        (
            Working("temperature at which the sump is safe", target, Kind.TEMPERATURE),
            Working("temperature at which the heater would hold it", settled, Kind.TEMPERATURE),
            Working("time constant: heat capacity / heat loss", capacity / loss, Kind.TIME),
            Working("still to wait", left, Kind.TIME),
        ),
        (
            "With the heater on all the while. The data sheet's warm-up time counts all the same: refrigerant "
            "must boil out of the oil, which this does not reckon with.",
        ),
    )


def _register(number: str) -> None:
    """Register the checks of one compressor's sump."""
    sump = Need(f"oil_temperature_{number}", Kind.TEMPERATURE, f"oil in the sump of compressor {number}")
    margin_source = (
        "The data sheet's margin, or 10 K over saturated suction with a wide spread (common practice, no source)."
    )
    registered(
        id=f"oil_margin_{number}",
        title=say("Oil temperature at rest over the outdoor air, compressor {number}", number=number),
        kind=Kind.TEMPERATURE,
        needs=(sump, AMBIENT, _SAFE_MARGIN),
        scale=10.0,
        sense=Sense.AT_LEAST,
        formula="outdoor air + safe margin",
        source=margin_source,
    )(partial(_oil_margin, number=number))
    registered(
        id=f"warm_up_left_{number}",
        title=say("Time till the sump is warm enough, compressor {number}", number=number),
        kind=Kind.TIME,
        needs=(sump, AMBIENT, _SAFE_MARGIN, HEATER, CAPACITY, LOSS),
        scale=3600.0,
        sense=Sense.AT_MOST,
        formula="(heat capacity / heat loss) x ln((settled - now) / (settled - safe))",
        source="Lumped capacitance (Incropera, Fundamentals of Heat and Mass Transfer, transient conduction); "
        f"the data sheet's sump. {margin_source}",
    )(partial(_warm_up_left, number=number))
    for circuit in CIRCUITS:
        registered(
            id=f"oil_over_suction_{number}_{circuit}",
            title=say(
                "Oil temperature over saturated suction, compressor {number} on {of_circuit}",
                number=number,
                of_circuit=of_circuit(circuit),
            ),
            kind=Kind.TEMPERATURE,
            needs=(sump, suction_pressure(circuit), ELEVATION, _SAFE_MARGIN),
            scale=10.0,
            sense=Sense.AT_LEAST,
            formula="dew temperature at the suction pressure + safe margin",
            source=margin_source,
        )(partial(_oil_over_suction, number=number, circuit=circuit))


for _number in COMPRESSORS:
    _register(_number)

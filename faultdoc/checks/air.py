"""Checks of the condenser's air: recirculation, rise through the coil, and fans that stand still."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from faultdoc.checks.base import Comparison, Need, Sense, Working, registered
from faultdoc.checks.inputs import default
from faultdoc.checks.refrigerant import (
    CIRCUITS,
    ELEVATION,
    TRANSFER_UNITS,
    compressors_running,
    condensing,
    discharge_pressure,
    fans_of,
    fans_stopped,
    inlet_air,
    load_share,
    of_circuit,
    own_circuit,
    split_design,
    thinner_air,
)
from faultdoc.model.unit import DataSheet
from faultdoc.physics import air
from faultdoc.quantities import Kind
from faultdoc.words import say

__all__ = ["UNEVEN_INLET", "USUAL_RECIRCULATION"]

UNEVEN_INLET = Need(
    "sheet.uneven_inlet",
    Kind.TEMPERATURE_DIFFERENCE,
    "by which the coil's mean air is warmer than the outdoor air on a free site",
    # The coil's face is never evenly fed; common practice, no source.
    default=default(0.5, 0.7),
)

USUAL_RECIRCULATION = Need(
    "sheet.usual_recirculation",
    Kind.RATIO,
    "share of air recirculated on a free site",
    default=default(0.05, 0.05),
)

_AMBIENT = Need("ambient_air_temperature", Kind.TEMPERATURE, "outdoor air, away from the unit")
_SEEN = "High: walls, hoardings, other units or the wind turn the air that left back to the coil."


def _outlet_air(circuit: str) -> Need:
    return Need(
        f"condenser_outlet_air_temperature_{circuit}",
        Kind.TEMPERATURE,
        f"air leaving the condenser fans, {of_circuit(circuit)}",
    )


def _recirculation(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    own_circuit(sheet, circuit)
    ambient, inlet = (
        values["ambient_air_temperature"],
        values[f"condenser_inlet_air_temperature_{circuit}"],
    )
    return Comparison(
        ambient + values["sheet.uneven_inlet"],
        inlet,
        (
            Working("outdoor air", ambient, Kind.TEMPERATURE),
            Working("air entering is warmer by", inlet - ambient, Kind.TEMPERATURE_DIFFERENCE),
        ),
        (_SEEN,),
    )


def _recirculated_share(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    own_circuit(sheet, circuit)
    ambient = values["ambient_air_temperature"]
    inlet = values[f"condenser_inlet_air_temperature_{circuit}"]
    outlet = values[f"condenser_outlet_air_temperature_{circuit}"]
    share = air.recirculated_share(ambient, inlet, outlet)
    return Comparison(
        values["sheet.usual_recirculation"],
        share,
        (
            Working("air entering is warmer than outdoors by", inlet - ambient, Kind.TEMPERATURE_DIFFERENCE),
            Working("air leaving is warmer than outdoors by", outlet - ambient, Kind.TEMPERATURE_DIFFERENCE),
            Working("share recirculated", share, Kind.RATIO),
        ),
        (_SEEN,),
    )


def _air_rise(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    own_circuit(sheet, circuit)
    inlet = values[f"condenser_inlet_air_temperature_{circuit}"]
    split = condensing(values, sheet, circuit) - inlet
    if split <= 0.0:
        raise ValueError("the refrigerant condenses no warmer than the air; is the compressor running?")
    thinner = thinner_air(values, sheet, circuit)
    units = air.number_of_transfer_units(values["sheet.condenser_transfer_units"], thinner)
    rise = air.outlet_rise(split, units)
    return Comparison(
        rise,
        values[f"condenser_outlet_air_temperature_{circuit}"] - inlet,
        (
            Working("split: condensing (dew) less air entering", split, Kind.TEMPERATURE_DIFFERENCE),
            Working("density of the air over that at rating and sea level", thinner, Kind.NUMBER),
            Working("effectiveness of the coil", air.effectiveness(units), Kind.RATIO),
            Working("rise expected", rise, Kind.TEMPERATURE_DIFFERENCE),
        ),
        (
            "High for its split: too little air, as through a dirty face. Low for its split: fins loose from "
            "their tubes, or gas in it that does not condense.",
            "Read above a running fan; a fan that stands still lets air back in.",
        ),
    )


def _fans_stopped(values: Mapping[str, float], sheet: DataSheet, circuit: str) -> Comparison:
    own_circuit(sheet, circuit)
    fitted = fans_of(sheet, circuit)
    if not fitted:
        raise ValueError(f"the data sheet does not list the fans of circuit {circuit.upper()}")
    stopped = values[f"fans_stopped_{circuit}"]
    if not -0.5 <= stopped <= fitted:
        raise ValueError(f"{stopped:g} fans standing still, where there are {fitted}; count them again")
    share, split = load_share(values, sheet, circuit), values["sheet.condenser_split"]
    head = sheet.rating_ambient + split
    entering = values[f"condenser_inlet_air_temperature_{circuit}"]
    if entering >= head:
        raise ValueError("the air is as warm as the refrigerant condenses at design; check the thermometer")
    # With every fan the split is load x design; at the design head the air in hand is head - entering.
    wanted = min(share * split / (head - entering), 1.0)
    return Comparison(
        fitted * (1.0 - wanted),
        stopped,
        (
            Working("fans fitted", fitted, Kind.NUMBER),
            Working("condensing temperature at design", head, Kind.TEMPERATURE),
            Working("share of fans that holds it in this air", wanted, Kind.RATIO),
            Working("fans that may stand still", fitted * (1.0 - wanted), Kind.NUMBER),
        ),
        ("In cool air the unit may rest fans of its own accord to keep its discharge pressure up.",),
    )


def _register(circuit: str) -> None:
    """Register the checks of one circuit's air."""
    named = of_circuit(circuit)
    inlet, outlet = inlet_air(circuit), _outlet_air(circuit)
    registered(
        id=f"recirculation_{circuit}",
        title=say("Air entering the condenser over the outdoor air, {named}", named=named),
        kind=Kind.TEMPERATURE,
        needs=(_AMBIENT, inlet, UNEVEN_INLET),
        scale=5.0,
        sense=Sense.AT_MOST,
        formula="outdoor air + what an uneven inlet adds on a free site",
        source="Common practice, no source.",
    )(partial(_recirculation, circuit=circuit))
    registered(
        id=f"recirculated_share_{circuit}",
        title=say("Share of the condenser's air that is recirculated, {named}", named=named),
        kind=Kind.RATIO,
        needs=(_AMBIENT, inlet, outlet, USUAL_RECIRCULATION),
        scale=0.2,
        sense=Sense.AT_MOST,
        formula="(entering - outdoor) / (leaving - outdoor)",
        source="Heat balance of the air that mixes; what is usual is common practice, no source.",
    )(partial(_recirculated_share, circuit=circuit))
    registered(
        id=f"air_rise_{circuit}",
        title=say("Rise of the air through the condenser, {named}", named=named),
        kind=Kind.TEMPERATURE_DIFFERENCE,
        needs=(inlet, outlet, discharge_pressure(circuit), ELEVATION, TRANSFER_UNITS),
        scale=5.0,
        formula="split x (1 - exp(-transfer units)), with the transfer units at the air's density",
        source="Effectiveness of an exchanger with one constant side (Kays and London; ASHRAE Handbook, "
        "Fundamentals); 1.2 transfer units are common practice, no source.",
    )(partial(_air_rise, circuit=circuit))
    registered(
        id=f"fans_stopped_{circuit}",
        title=say("Condenser fans standing still, {named}", named=named),
        kind=Kind.NUMBER,
        needs=(fans_stopped(circuit, needed=True), inlet, compressors_running(circuit), split_design),
        scale=1.0,
        sense=Sense.AT_MOST,
        formula="fans fitted x (1 - load x split at design / (condensing at design - air entering))",
        source="Heat goes with air and split; the data sheet's split, or the usual one (common practice).",
    )(partial(_fans_stopped, circuit=circuit))


for _circuit in CIRCUITS:
    _register(_circuit)

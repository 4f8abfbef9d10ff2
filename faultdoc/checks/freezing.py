"""Checks against freezing: of the water that leaves, of the tubes' walls, and of water that stands in the cold."""

from __future__ import annotations

from collections.abc import Mapping

from faultdoc.checks.base import Comparison, Given, Need, Sense, Working, registered
from faultdoc.checks.inputs import GLYCOL, default, glycol_kind, glycol_remarks, is_assumed
from faultdoc.checks.refrigerant import (
    CIRCUITS,
    ELEVATION,
    absolute,
    of_circuit,
    own_circuit,
    saturated_suction,
    suction_pressure,
)
from faultdoc.model.unit import DataSheet, Glycol
from faultdoc.physics import atmosphere, fluid
from faultdoc.quantities import Kind
from faultdoc.words import say

__all__ = ["FREEZE_MARGIN", "HYDROMETER_WATER"]

FREEZE_MARGIN = 3.0
"""K between the leaving water and its freezing point; common practice, no source."""

HYDROMETER_WATER = 288.71
"""K (60 °F); the water against which a hydrometer's specific gravity counts (ASTM D1298, from memory)."""

_WATER_FREEZES = 273.15


def _freezing_curve(sheet: DataSheet) -> Given:
    # Handbooks and makes of one glycol differ by up to a kelvin and a half; plain water does not.
    return 0.0, 0.0 if sheet.water.usual_glycol is Glycol.NONE else 0.7, "assumed"


FREEZING_CURVE = Need(
    "sheet.freezing_curve",
    Kind.TEMPERATURE_DIFFERENCE,
    "departure of the glycol's freezing curve",
    default=_freezing_curve,
)


def _freezing(values: Mapping[str, float], sheet: DataSheet) -> float:
    """Return the freezing point (K) of what is in the loop."""
    fraction = values["glycol_fraction"]
    return fluid.freezing_point(glycol_kind(sheet, fraction), fraction) + values["sheet.freezing_curve"]


@registered(
    id="freeze_margin",
    title=say("Leaving water above its freezing point"),
    kind=Kind.TEMPERATURE,
    needs=(
        Need("water_out_temperature", Kind.TEMPERATURE, "water leaving the unit"),
        GLYCOL,
        FREEZING_CURVE,
    ),
    scale=5.0,
    sense=Sense.AT_LEAST,
    formula="freezing point of the mix + 3 K",
    source="Freezing points: Melinder, IIR 2010, by CoolProp. 3 K of margin is common practice, no source.",
)  # fmt: skip
def freeze_margin(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the leaving water with the freezing point of what is in the loop."""
    freezing = _freezing(values, sheet)
    return Comparison(
        freezing + FREEZE_MARGIN,
        values["water_out_temperature"],
        (
            Working("freezing point of the mix", freezing, Kind.TEMPERATURE),
            Working("margin", FREEZE_MARGIN, Kind.TEMPERATURE_DIFFERENCE),
        ),
        (
            "The wall of a tube is colder than the water that leaves; the margin is for that.",
            *glycol_remarks(sheet, values["glycol_fraction"]),
        ),
    )


def _suction_margin(circuit: str) -> None:
    suction = suction_pressure(circuit)

    @registered(
        id=f"freeze_margin_suction_{circuit}",
        title=say(
            "Evaporating temperature of {of_circuit} above the water's freezing point",
            of_circuit=of_circuit(circuit),
        ),
        kind=Kind.TEMPERATURE,
        needs=(suction, ELEVATION, GLYCOL, FREEZING_CURVE),
        scale=5.0,
        sense=Sense.AT_LEAST,
        formula="dew temperature at the suction pressure, at least the freezing point of the mix",
        source=(
            "Saturation by CoolProp; U.S. Standard Atmosphere 1976; freezing points: Melinder, IIR 2010. A tube's "
            "wall is never colder than what boils inside, so above this point nothing freezes on it."
        ),
    )
    def suction_margin(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
        own_circuit(sheet, circuit)
        freezing = _freezing(values, sheet)
        boiling = saturated_suction(values, sheet, circuit)
        return Comparison(
            freezing,
            boiling,
            (
                Working(
                    "atmosphere at the site", atmosphere.pressure(values["site_elevation"]), Kind.ABSOLUTE_PRESSURE
                ),
                Working("suction pressure, absolute", absolute(values, suction.name), Kind.ABSOLUTE_PRESSURE),
                Working("dew temperature there", boiling, Kind.TEMPERATURE),
                Working("freezing point of the mix", freezing, Kind.TEMPERATURE),
                Working("margin", boiling - freezing, Kind.TEMPERATURE_DIFFERENCE),
            ),
            (
                "Some kelvin below, in flowing water, need not freeze a tube at once; low flow then does.",
                *glycol_remarks(sheet, values["glycol_fraction"]),
            ),
        )


for _circuit in CIRCUITS:
    _suction_margin(_circuit)


def _lowest_leaving(sheet: DataSheet) -> Given:
    if is_assumed(sheet, "water.lowest_leaving_without_antifreeze"):
        return 0.0, 1.0, "assumed"
    return 0.0, 0.0, "data sheet"


@registered(
    id="minimum_leaving",
    title=say("Leaving water against the coldest this mix allows"),
    kind=Kind.TEMPERATURE,
    needs=(
        Need("water_out_temperature", Kind.TEMPERATURE, "water leaving the unit, or its set point"),
        GLYCOL,
        FREEZING_CURVE,
        Need(
            "sheet.lowest_leaving", Kind.TEMPERATURE_DIFFERENCE, "departure of the lowest leaving temperature",
            default=_lowest_leaving,
        ),
    ),
    scale=5.0,
    sense=Sense.AT_LEAST,
    formula="lowest leaving temperature without antifreeze, lowered by as much as the glycol lowers freezing",
    source=(
        "The data sheet, whose limit for plain water keeps the evaporating temperature from freezing; freezing "
        "points: Melinder, IIR 2010. Shifting the limit by the freezing point is common practice, no source."
    ),
)  # fmt: skip
def minimum_leaving(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the leaving water with the coldest that the mix in the loop allows."""
    freezing = _freezing(values, sheet)
    lowered = _WATER_FREEZES - freezing
    plain = sheet.water.lowest_leaving_without_antifreeze + values["sheet.lowest_leaving"]
    return Comparison(
        plain - lowered,
        values["water_out_temperature"],
        (
            Working("lowest without antifreeze", plain, Kind.TEMPERATURE),
            Working("freezing point of the mix", freezing, Kind.TEMPERATURE),
            Working("lowered by the glycol", lowered, Kind.TEMPERATURE_DIFFERENCE),
            Working("coldest allowed", plain - lowered, Kind.TEMPERATURE),
        ),
        (
            "The unit's own low limit must be set for the mix by someone who may; the limit here changes nothing.",
            *glycol_remarks(sheet, values["glycol_fraction"]),
        ),
    )


@registered(
    id="burst_margin",
    title=say("Coldest air to come against what the standing mix survives"),
    kind=Kind.TEMPERATURE,
    needs=(
        Need("lowest_air_temperature", Kind.TEMPERATURE, "coldest outdoor air to come"),
        GLYCOL,
        # Rows of the table are rounded to one per cent of glycol, some 2.5 K.
        Need(
            "sheet.burst_curve", Kind.TEMPERATURE_DIFFERENCE, "departure of the burst table",
            default=default(0.0, 1.5),
        ),
    ),
    scale=5.0,
    sense=Sense.AT_LEAST,
    formula="temperature down to which the table of burst protection holds for the fraction by volume",
    source="Table of hydronic system mixtures, Math for HVACR (Goodheart-Willcox, 2018), exercise 5-4.",
)  # fmt: skip
def burst_margin(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the coldest air to come with what the mix survives standing."""
    fraction = values["glycol_fraction"]
    which = glycol_kind(sheet, fraction)
    volume = fluid.volume_fraction(which, fraction)
    burst = fluid.burst_point(which, fraction) + values["sheet.burst_curve"]
    freezing = fluid.freezing_point(which, fraction)
    remarks = [
        "Between freezing and this the mix is slush: nothing bursts, but nothing may be pumped either.",
        *glycol_remarks(sheet, fraction),
    ]
    if fraction == 0.0:
        remarks.insert(0, "Plain water must be drained or kept warm and moving before it freezes.")
    return Comparison(
        burst,
        values["lowest_air_temperature"],
        (
            Working("glycol by volume", volume, Kind.MASS_FRACTION),
            Working("freezing point of the mix", freezing, Kind.TEMPERATURE),
            Working("burst protection down to", burst, Kind.TEMPERATURE),
        ),
        tuple(remarks),
    )


def _usual_fraction(sheet: DataSheet) -> Given | None:
    if sheet.water.usual_glycol is Glycol.NONE:
        return 0.0, 0.01, "data sheet"
    fraction = sheet.water.usual_glycol_fraction
    return None if fraction is None else (fraction, 0.02, "data sheet")


@registered(
    id="glycol_strength",
    title=say("Glycol in the water against what is usual"),
    kind=Kind.MASS_FRACTION,
    needs=(
        Need("glycol_fraction", Kind.MASS_FRACTION, "glycol in the water, by mass"),
        Need("sheet.usual_glycol", Kind.MASS_FRACTION, "usual glycol fraction", default=_usual_fraction),
    ),
    scale=0.10,
    formula="usual fraction of the data sheet",
    source="The data sheet.",
)
def glycol_strength(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the glycol found with what the data sheet calls usual."""
    fraction, usual = values["glycol_fraction"], values["sheet.usual_glycol"]
    freezing = fluid.freezing_point(glycol_kind(sheet, fraction), max(fraction, 0.0))
    return Comparison(
        usual,
        fraction,
        (Working("freezing point of the mix found", freezing, Kind.TEMPERATURE),),
        glycol_remarks(sheet, fraction),
    )


@registered(
    id="glycol_by_hydrometer",
    title=say("Glycol in the water, from its specific gravity"),
    kind=Kind.MASS_FRACTION,
    needs=(
        Need("specific_gravity", Kind.NUMBER, "specific gravity read"),
        Need("sample_temperature", Kind.TEMPERATURE, "temperature of the sample", default=default(293.15, 5.0)),
        Need("sheet.usual_glycol", Kind.MASS_FRACTION, "usual glycol fraction", default=_usual_fraction),
    ),
    scale=0.10,
    formula="fraction whose density at the sample's temperature is the specific gravity x that of water at 60 °F",
    source="Densities: IAPWS R7-97, and Melinder, IIR 2010, by CoolProp.",
)
def glycol_by_hydrometer(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the glycol that a hydrometer tells with what the data sheet calls usual."""
    which: fluid.GlycolKind = "ethylene" if sheet.water.usual_glycol is Glycol.ETHYLENE else "propylene"
    density = values["specific_gravity"] * fluid.density(HYDROMETER_WATER)
    fraction = fluid.fraction_from_density(density, values["sample_temperature"], which)
    return Comparison(
        values["sheet.usual_glycol"],
        fraction,
        (
            Working("density of the sample, kg/m³", density, Kind.NUMBER),
            Working(f"{which} glycol by mass", fraction, Kind.MASS_FRACTION),
            Working("freezing point of the mix", fluid.freezing_point(which, fraction), Kind.TEMPERATURE),
        ),
        ("Inhibitors add some half per cent of density, which reads as 2 to 4 % of glycol too much.",),
    )

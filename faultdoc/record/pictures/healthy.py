"""What a healthy unit would show in the same weather and water: the simulator without a fault, to compare with."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from faultdoc.model.base import Measured
from faultdoc.model.unit import DataSheet
from faultdoc.simulator.condition import Condition
from faultdoc.simulator.machine import machine
from faultdoc.simulator.steady import full_call, moment
from faultdoc.simulator.truths import truths
from faultdoc.simulator.unit import usual_site

__all__ = ["healthy_truths", "in_this_weather"]


def healthy_truths(sheet: DataSheet, readings: Mapping[str, Measured]) -> Mapping[str, float | str]:
    """Return what a healthy unit of this kind shows, all compressors at work, in the weather and water read.

    Outdoor air, entering water, height and glycol are taken from the readings where they are there, else
    those of the data sheet's design point.

    Args:
        sheet: the unit's.
        readings: numbers, by point.

    Returns:
        By point: SI value, or id of a choice.

    Raises:
        ValueError: for weather or water in which no such unit could run.
    """

    def value(point: str, otherwise: float) -> float:
        return readings[point].value if point in readings else otherwise

    air = next(
        (
            readings[point].value
            for point in ("ambient_air_temperature", *(p for p in readings if p.startswith("condenser_inlet_air")))
            if point in readings
        ),
        sheet.rating_ambient,
    )
    glycol = readings["glycol_fraction"].value if "glycol_fraction" in readings else None
    return _healthy(
        sheet,
        round(air, 2),
        round(value("water_in_temperature", sheet.water.design_entering), 2),
        round(value("site_elevation", 150.0)),
        glycol,
    )


def in_this_weather(readings: Mapping[str, Measured]) -> bool:
    """Return whether the readings say what the outdoor air is, so that the comparison is like with like."""
    return any(point.startswith(("ambient_air", "condenser_inlet_air")) for point in readings)


@lru_cache(maxsize=64)
def _healthy(
    sheet: DataSheet, air: float, entering: float, elevation: float, glycol: float | None
) -> Mapping[str, float | str]:
    unit = machine(sheet)
    site = usual_site(sheet, ambient=air, elevation=elevation, glycol_fraction=glycol)
    return truths(moment(unit, site, Condition(), full_call(unit), entering, was_proved=True))

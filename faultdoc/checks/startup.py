"""Checks before a start."""

from __future__ import annotations

from collections.abc import Mapping

from faultdoc.checks.base import Comparison, Need, Sense, Working, registered
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind

__all__ = ["SHORTEST_WARM_UP"]

SHORTEST_WARM_UP = 3600.0
"""s; no oil is warm sooner, whatever the papers leave out. Common practice, no source."""


@registered(
    id="oil_warm_up",
    title="Time energised for the oil to warm up",
    kind=Kind.TIME,
    needs=(
        Need("hours_energised_since_power_up", Kind.TIME, "time energised without a break"),
        Need(
            "sheet.oil_warm_up",
            Kind.TIME,
            "warm-up time",
            default=lambda sheet: (sheet.oil_warm_up, 0.0, "data sheet"),
        ),
    ),
    floor=-1.0,
    sense=Sense.AT_LEAST,
    formula="warm-up time of the data sheet, one hour at least",
    source="The data sheet; one hour at least is common practice, no source.",
)
def oil_warm_up(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the time energised with the oil's warm-up."""
    needed = max(values["sheet.oil_warm_up"], SHORTEST_WARM_UP)
    measured = values["hours_energised_since_power_up"]
    return Comparison(
        needed,
        measured,
        (Working("still to wait", max(needed - measured, 0.0), Kind.TIME),),
        ("Any break in power starts the count again.",),
    )

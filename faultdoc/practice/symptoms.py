"""Whether a simulated unit shows a symptom: nobody calls about one that runs as it should.

Where a tree's symptom is a safety that acts, the unit's steady moment is compared with that safety's setting;
where it is water that stays too warm, with the set point. What a steady moment cannot show (a noise, a lock-out
left standing) is taken as shown.
"""

from __future__ import annotations

from collections.abc import Mapping

from faultdoc.checks.safeties import members, trip
from faultdoc.library.load import load_points
from faultdoc.model.safety import PlantState
from faultdoc.model.unit import Acts
from faultdoc.simulator.faults import broken
from faultdoc.simulator.unit import SimulatedUnit

__all__ = ["AT_WORK", "shows"]

AT_WORK = PlantState.model_validate(
    {"supply": "energised", "panel": "closed", "pump": "running", "water": "pressurised",
     "compressors": "running", "oil": "warm"}
)  # fmt: skip
"""The state in which a symptom shows."""

SAFETY_OF: Mapping[str, str] = {
    "low_suction": "low_pressure",
    "high_head": "high_pressure",
    "freeze_protection": "freeze",
}
"""By tree, the safety of the data sheet that acts."""
TOO_WARM = 1.0
"""K over the set point at which the water counts as too warm."""


def shows(unit: SimulatedUnit, tree: str) -> bool | None:
    """Say whether a unit shows a symptom in a steady moment at work; None where that cannot tell.

    Args:
        unit: with its faults.
        tree: id of the symptom.
    """
    truths = unit.truths(AT_WORK)
    if tree == "flow_proving_trip":
        return not unit.moment(AT_WORK).loop.proved
    _, condition = broken(unit.site, unit.faults)
    if tree == "set_point_not_reached":
        wanted = unit.sheet.water.design_leaving
        return float(truths["water_out_temperature"]) > wanted + TOO_WARM
    safety = next((one for one in unit.sheet.safeties if one.id == SAFETY_OF.get(tree)), None)
    if safety is None:
        return None
    points = load_points()
    read = [point for point in members(safety.point) if point in truths]
    if not read:
        return None
    setting = trip(safety, points[read[0]].kind).at + condition.control.safety_shift.get(safety.id, 0.0)
    values = [float(truths[point]) + condition.control.sensor_bias.get(point, 0.0) for point in read]
    return max(values) > setting if safety.acts is Acts.ABOVE else min(values) < setting

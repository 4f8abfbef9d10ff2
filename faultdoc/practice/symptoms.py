"""Whether a simulated unit shows a symptom: nobody calls about one that runs as it should.

Where a tree's symptom is a safety that acts, the unit's steady moment is compared with that safety's setting;
where it is water that stays too warm, with the set point; a dead unit is dark, of several circuits some work and
others do not, and one that does not start has a circuit at rest. What a steady moment cannot show (a noise, a
short cycle) is taken as shown.
"""

from __future__ import annotations

from collections.abc import Mapping

from faultdoc.checks.safeties import members, trip
from faultdoc.library.load import load_points
from faultdoc.model.safety import PlantState
from faultdoc.model.unit import Acts, Safety
from faultdoc.simulator.condition import Condition
from faultdoc.simulator.controls import OWN_BULB
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
    "high_discharge_temperature": "discharge_temperature",
}
"""By tree, the safety of the data sheet that acts."""
TOO_HOT = 20.0
"""K below the discharge thermostat's setting from which a discharge line counts as too hot: limits and warnings
come before the thermostat. Assumed."""
TOO_WARM = 1.0
"""K over the set point at which the water counts as too warm."""


def shows(unit: SimulatedUnit, tree: str) -> bool | None:
    """Say whether a unit shows a symptom in a steady moment at work; None where that cannot tell.

    Args:
        unit: with its faults.
        tree: id of the symptom.
    """
    truths = unit.truths(AT_WORK)
    if tree == "unit_dead":
        return truths["power_indication"] == "dark"
    if tree == "flow_proving_trip":
        return not unit.moment(AT_WORK).loop.proved
    _, condition = broken(unit.site, unit.faults, unit.sound)
    if tree == "set_point_not_reached":
        wanted = unit.sheet.water.design_leaving
        return float(truths["water_out_temperature"]) > wanted + TOO_WARM
    if tree in ("one_circuit_only", "start_held_back"):
        stopped = _stopped(unit, truths, condition)
        if tree == "one_circuit_only":
            return 0 < len(stopped) < len(unit.moment(AT_WORK).machine.circuits)
        # A set point that was raised holds it back too: the water is cold enough for it.
        return bool(stopped) or not unit.moment(AT_WORK).loop.proved or condition.control.set_point > 0.0
    safety = next((one for one in unit.sheet.safeties if one.id == SAFETY_OF.get(tree)), None)
    if safety is None:
        return None
    acting = _acting(safety, truths, condition, TOO_HOT if tree == "high_discharge_temperature" else 0.0)
    return None if not acting else any(acting.values())


def _stopped(unit: SimulatedUnit, truths: Mapping[str, float | str], condition: Condition) -> set[str]:
    """Return the circuits that are at rest though they are called, or whose safety acts."""
    moment = unit.moment(AT_WORK)
    stopped = {circuit for circuit in moment.machine.circuits if not moment.runs(circuit)}
    for safety in unit.sheet.safeties:
        if safety.point.endswith("_{circuit}"):
            acting = _acting(safety, truths, condition)
            stopped |= {point.rpartition("_")[2] for point, acts in acting.items() if acts}
    return stopped


def _acting(
    safety: Safety, truths: Mapping[str, float | str], condition: Condition, before: float = 0.0
) -> dict[str, bool]:
    """Say of each point that a safety watches and that can be read whether it acts there, or comes that near."""
    read = [point for point in members(safety.point) if point in truths]
    if not read:
        return {}
    setting = trip(safety, load_points()[read[0]].kind).at + condition.control.safety_shift.get(safety.id, 0.0)
    bias = {} if safety.point in OWN_BULB else condition.control.sensor_bias
    values = {point: float(truths[point]) + bias.get(point, 0.0) for point in read}
    if safety.acts is Acts.ABOVE:
        return {point: value > setting - before for point, value in values.items()}
    return {point: value < setting + before for point, value in values.items()}

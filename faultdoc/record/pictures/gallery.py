"""Which pictures there are of a case, and each of them made from an assessment."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from faultdoc.checks.all import split_readings
from faultdoc.checks.refrigerant import circuits_of
from faultdoc.diagnosis.assess import Assessment, choice_point
from faultdoc.model.base import Measured
from faultdoc.model.points import Point
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import System
from faultdoc.record.pictures.clocks import clocks_picture
from faultdoc.record.pictures.curves import barrel_picture, pump_picture
from faultdoc.record.pictures.cycle import cycle_picture
from faultdoc.record.pictures.phasors import current_sets, phasor_picture
from faultdoc.record.pictures.schematic import Seen, plant_picture, side_of, sides
from faultdoc.record.pictures.shapes import Picture
from faultdoc.record.waits import waits
from faultdoc.words import say

__all__ = ["asked_points", "gallery", "picture_of", "starting_with", "worth_printing"]


def gallery(sheet: DataSheet) -> tuple[tuple[str, str], ...]:
    """Return (id, title) of every picture of a unit: its sides first, then the plots."""
    pump = [] if sheet.water.pump is None else [("pump", say("Pump: head and flow"))]
    return (
        *((f"side_{id}", title) for id, title in sides(sheet)),
        *((f"cycle_{c}", say("Cycle of circuit {upper}", upper=c.upper())) for c in circuits_of(sheet)),
        ("barrel", say("Barrel: drop and flow")),
        *pump,
        ("phases", say("Three phases")),
        ("waits", say("Waits before a start")),
    )


def asked_points(assessment: Assessment) -> tuple[str, ...]:
    """Return the measuring points that the next step asks for; none where it asks for none."""
    step = assessment.next
    id = step.toward_id if step.kind == "state_change" else step.id
    question = assessment.bench.problem.questions.get(id or "")
    if question is None:
        return ()
    return tuple(point for point in question.points if point in assessment.bench.library.points)


def starting_with(assessment: Assessment) -> str:
    """Return the picture to show first: the side with the point asked for, else the one with the most readings."""
    sheet = assessment.bench.sheet
    for point in asked_points(assessment):
        if (side := side_of(sheet, point)) is not None:
            return f"side_{side}"
    found = [side for side in (side_of(sheet, point) for point in assessment.case.readings) if side is not None]
    return f"side_{max(found, key=found.count)}" if found else "side_water"


def picture_of(assessment: Assessment, id: str, system: System) -> Picture | str:
    """Return a picture of a case, or in words why there is none yet and what would make it.

    Args:
        assessment: of the case.
        id: one of `gallery`'s.
        system: the reader's units.

    Raises:
        KeyError: for an id that the unit has not.
    """
    bench, case = assessment.bench, assessment.case
    sheet, points = bench.sheet, bench.library.points
    numbers, _ = split_readings(case.readings)
    what, _, which = id.partition("_")
    if what == "side":
        return plant_picture(sheet, which, _seen(assessment, system))
    if what == "cycle":
        return _cycle(sheet, numbers, which, system, points)
    if what == "barrel":
        return barrel_picture(sheet, numbers, points, system)
    if what == "pump":
        return pump_picture(sheet, numbers, points, system) or say("This unit has no pump of its own.")
    if what == "phases":
        motors = ", ".join(title.lower() for title, _ in current_sets(sheet))
        return phasor_picture(sheet, numbers, system) or (
            say(
                "Read all three voltages between lines, or all three currents of one motor ({motors}).",
                motors=motors,
            )
        )
    if what == "waits":
        return clocks_picture(waits(sheet, case.readings, case.state)) or (
            say("Read how long the unit has had power, or how long a compressor has stood still.")
        )
    raise KeyError(f"no picture '{id}'")


def worth_printing(assessment: Assessment, system: System) -> tuple[Picture, ...]:
    """Return the pictures that show at least one reading, in the order of the gallery."""
    found = []
    for id, _ in gallery(assessment.bench.sheet):
        made = picture_of(assessment, id, system)
        if isinstance(made, str):
            continue
        if id.startswith("side_") and not any(spot.value for spot in made.spots):
            continue
        if id in ("barrel", "pump") and "Measured" not in made.words and "stands for" not in made.words:
            continue
        found.append(made)
    return tuple(found)


def _cycle(
    sheet: DataSheet, numbers: Mapping[str, Measured], circuit: str, system: System, points: Mapping[str, Point]
) -> Picture | str:
    try:
        made = cycle_picture(sheet, numbers, circuit, system)
    except ValueError as problem:
        return say("These readings make no cycle: {problem}.", problem=problem)
    if isinstance(made, Picture):
        return made
    return (
        say("Still to be read, with the circuit running: ")
        + "; ".join(points[point].title for point in made)
        + "."
    )


def _seen(assessment: Assessment, system: System) -> Seen:
    case, bench = assessment.case, assessment.bench
    not_had = {
        point
        for id, outcome in case.answers.items()
        if outcome == "could_not_measure" and (question := bench.problem.questions.get(id)) is not None
        for point in (question.points or filter(None, (choice_point(question, bench),)))
    }
    doubts: dict[str, list[str]] = defaultdict(list)
    for doubt in assessment.doubts(system):
        doubts[doubt.point].append(doubt.text)
    return Seen(
        case.readings,
        bench.library.points,
        assessment.checks,
        asked_points(assessment),
        not_had,
        doubts,
        system,
    )

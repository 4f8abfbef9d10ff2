"""What can be done at a unit in practice, as entries to choose from, in groups, and found by their words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from faultdoc.library.vocabulary import usual_instrument
from faultdoc.model.tree import System
from faultdoc.quantities import Kind
from faultdoc.record.words import matches, minutes
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.model.points import Point
    from faultdoc.model.safety import StateChange
    from faultdoc.model.tree import Cause, Question

__all__ = ["WAITS", "WAYS", "Act", "Way", "acts_of", "found", "groups"]

Way = Literal["measure", "look", "change", "mend", "wait"]

WAYS: dict[Way, str] = {
    "measure": say("Measure"),
    "look": say("Look"),
    "change": say("Plant"),
    "mend": say("Mend"),
    "wait": say("Wait"),
}
"""The ways to act, as their buttons say."""

WAITS = (1.0, 5.0, 15.0, 60.0)
"""Minutes that can be waited at once."""

PROOF = ((say("How"), say("The unit is run, and watched: it must not stop, and what was reported must be gone.")),)

PLACES = {
    "front": say("At the front of the unit"),
    "panel": say("At the electrical panel"),
    "pump": say("At the pump"),
    "water_connections": say("At the water connections"),
    "barrel": say("At the evaporator barrel"),
    "hoses": say("Along the hoses"),
    "load": say("At the load"),
    "condenser": say("At condenser and compressors"),
    "supply": say("At the supply"),
}

SYSTEMS: dict[System, str] = {
    System.WATER: say("The water side"),
    System.REFRIGERANT: say("The refrigerant side"),
    System.ELECTRICAL: say("Electrical"),
    System.CONTROL: say("Control"),
    System.SITE: say("The site"),
}


@dataclass(frozen=True)
class Act:
    """One thing that can be done.

    Attributes:
        way, id: what the trainee's turn is asked to do.
        title: in a line.
        group: under which it stands.
        facts: (word, words) about it, shown before it is done.
        steps: how it is done, in order.
        do: what its button says.
        watch_for: what usually makes it read wrong; not searched in, as it names other things.
    """

    way: Way
    id: str
    title: str
    group: str
    facts: tuple[tuple[str, str], ...] = ()
    steps: tuple[str, ...] = ()
    do: str = say("Do this")
    watch_for: str | None = None

    def found_by(self, wanted: str) -> bool:
        """Return whether all the words wanted stand in it."""
        return matches(wanted, self.title, self.group, *(words for _, words in self.facts))


def acts_of(
    points: Sequence[Point],
    questions: Sequence[Question],
    changes: Sequence[StateChange],
    causes: Sequence[Cause],
) -> tuple[Act, ...]:
    """Return everything that can be done now.

    Args:
        points: that could be measured on this unit.
        questions: things to look at.
        changes: of the plant.
        causes: whose remedies can be tried.
    """
    made = [
        Act(
            "measure",
            point.id,
            point.title,
            _taken(point),
            ((say("Where"), point.where), (say("How"), point.how), (say("With"), point.instrument)),
            do=say("Measure this"),
            watch_for=point.wrong_readings,
        )
        for point in points
    ]
    made += [
        Act(
            "look",
            question.id,
            question.ask.tech,
            PLACES.get(question.place or "", say("Anywhere")),
            (
                (say("Where"), question.where),
                (say("How"), question.how),
                (say("Time"), say("about {minutes}", minutes=minutes(question.minutes))),
            ),
            do=say("Look"),
            watch_for=question.wrong_readings,
        )
        for question in questions
    ]
    made += [
        Act("change", change.id, change.title, "", _times(change.minutes), change.steps, say("Do this"))
        for change in changes
    ]
    made.append(Act("mend", "", say("Prove that the fault is gone"), "", PROOF, do=say("Prove it")))
    made += [
        Act(
            "mend",
            cause.id,
            cause.remedy.title,
            SYSTEMS[cause.system],
            ((say("For"), cause.title), *_times(cause.remedy.minutes)),
            cause.remedy.steps,
            say("Mend this"),
        )
        for cause in causes
    ]
    made += [
        Act("wait", f"{time:g}", say("Wait {minutes}", minutes=minutes(time)), "", do=say("Wait"))
        for time in WAITS
    ]
    return tuple(made)


def _times(amount: float | str) -> tuple[tuple[str, str], ...]:
    words = (
        say("as long as the oil takes to warm")
        if isinstance(amount, str)
        else say("about {minutes}", minutes=minutes(amount))
    )
    return ((say("Time"), words),)


def _taken(point: Point) -> str:
    """Return the group of a measuring point: what is measured there."""
    match point.kind:
        case Kind.GAUGE_PRESSURE | Kind.PRESSURE_DIFFERENCE:
            gauges = usual_instrument(point) == "Gauge set"
            return say("Pressures: ") + (say("refrigerant") if gauges else say("water"))
        case Kind.TEMPERATURE:
            air = "air_temperature" in point.id
            strapped = "Strap-on" in usual_instrument(point)
            return say("Temperatures: ") + (
                say("air") if air else say("lines and shells") if strapped else say("water and other")
            )
        case Kind.VOLTAGE | Kind.FREQUENCY:
            return say("Voltages")
        case Kind.CURRENT:
            return say("Currents")
        case Kind.RESISTANCE:
            return say("Resistances")
        case Kind.CHOICE:
            return say("Seen and heard")
        case _:
            return say("Counted, sampled and looked up")


def groups(acts: Sequence[Act], way: Way) -> dict[str, tuple[Act, ...]]:
    """Return the acts of one way by their groups, in order."""
    made: dict[str, list[Act]] = {}
    for act in acts:
        if act.way == way:
            made.setdefault(act.group, []).append(act)
    return {group: tuple(those) for group, those in made.items()}


def found(acts: Sequence[Act], wanted: str) -> tuple[Act, ...]:
    """Return the acts, of any way, in which all the words wanted stand; those with them in the title first."""
    hits = [act for act in acts if act.found_by(wanted)]
    return tuple(sorted(hits, key=lambda act: not matches(wanted, act.title)))

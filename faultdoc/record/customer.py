"""A case in one paragraph for whoever owns the unit: what was wrong and done, how we know, what to watch for.

The words of each cause come from its fault tree (`customer:`); nothing here says more than the case holds.
"""

from __future__ import annotations

from faultdoc.diagnosis.assess import Assessment
from faultdoc.diagnosis.explain import likely_causes
from faultdoc.model.case import Conclusion
from faultdoc.model.points import Point
from faultdoc.model.safety import Compressors, PlantState, Supply
from faultdoc.model.tree import Cause, System
from faultdoc.quantities import Kind
from faultdoc.words import say

__all__ = ["customer_words"]

WATCH: dict[System, str] = {
    System.WATER: say(
        "water on the ground near the unit or its hoses, a pump that sounds "
        "different, and valves that somebody has turned"
    ),
    System.REFRIGERANT: say("water that gets slowly warmer, ice or oil on the pipes, a hiss or a sharp smell"),
    System.ELECTRICAL: say("a breaker that opens, a burnt smell, lights that dim as the unit starts"),
    System.CONTROL: say("a unit that starts and stops often, or a temperature on its display that cannot be true"),
    System.SITE: say("anything put near the unit, or changed on the pipes, the hoses or the power that feed it"),
}
"""By the part of the installation in which the cause sat."""

_REFRIGERANT_POINTS = ("suction_", "discharge_", "liquid_")


def customer_words(assessment: Assessment) -> str:
    """Return the case in one paragraph of plain words."""
    case, bench = assessment.case, assessment.bench
    causes, closed = bench.problem.causes, case.conclusion
    seen = " ".join(tree.customer or tree.symptom for tree in bench.problem.trees)
    parts = [
        say("We were called to the unit {title}", title=bench.sheet.title),
        say("What was seen: {seen}", seen=seen),
    ]
    mended = [causes[one.cause] for one in case.tried if one.proved and one.cause in causes]
    in_vain = [causes[one.cause] for one in case.tried if not one.proved and one.cause in causes]
    parts += [
        say("This was done first, and it was not the reason: {done}", done=_done(cause)) for cause in in_vain
    ]
    for cause in mended:
        parts += [
            say("What we found: {wrong}", wrong=_wrong(cause)),
            say("What was done: {done}", done=_done(cause)),
            say("How we know that it is right: {proof}", proof=_proof(assessment, cause)),
        ]
    if case.unproved is not None:
        parts += [
            say("What was done: {done}", done=_done(causes[case.unproved])),
            say("Whether that was the reason must still be tested."),
        ]
    elif closed is not None and closed.outcome == "fixed" and not mended:
        parts += _said_fixed(assessment, closed)
        mended = [causes[closed.cause]] if closed.cause and closed.cause in causes else []
    elif not mended:
        parts.append(_not_found(assessment))
    if closed is not None and closed.outcome in _GOES_ON:
        parts.append(_GOES_ON[closed.outcome])
    parts.append(_left(case.state))
    parts.append(_watch(mended))
    return " ".join(_ended(part) for part in parts)


_GOES_ON = {
    "handed_over": say("Somebody else will go on with the work, and has this record."),
    "made_safe": say("The unit was made safe, and the work goes on later."),
}


def _said_fixed(assessment: Assessment, closed: Conclusion) -> list[str]:
    """Return what is told of a case closed as fixed without a proof taken here: no more than was written."""
    cause = assessment.bench.problem.causes.get(closed.cause or "")
    parts = (
        []
        if cause is None
        else [say("What we found: {wrong}", wrong=_wrong(cause)), say("What was done: {done}", done=_done(cause))]
    )
    if closed.proof:
        return [
            *parts,
            say("How we know that it is right, in the technician's words: {proof}", proof=closed.proof),
        ]
    return [*parts, say("The technician closed the work as done; a reading that proves it was not written down.")]


def _wrong(cause: Cause) -> str:
    return cause.customer.wrong if cause.customer else f"{cause.title}. {cause.mechanism}"


def _done(cause: Cause) -> str:
    return cause.customer.done if cause.customer else cause.remedy.title


def _proof(assessment: Assessment, cause: Cause) -> str:
    """Return what the proof rested on: sorts of reading, not their trade names."""
    points = assessment.bench.library.points
    sorts = dict.fromkeys(_sort(points[id]) for id in cause.remedy.proof.points)
    *most, last = sorts
    listed = say("{join} and {last}", join=", ".join(most), last=last) if most else last
    return say("after the work we checked {listed} again, and found what a sound unit should show.", listed=listed)


def _sort(point: Point) -> str:
    if point.kind in (Kind.GAUGE_PRESSURE, Kind.ABSOLUTE_PRESSURE, Kind.PRESSURE_DIFFERENCE):
        return say("the pressures in the cooling circuit") if point.id.startswith(_REFRIGERANT_POINTS) else (
            say("the water's pressure")
        )  # fmt: skip
    return {
        Kind.TEMPERATURE: "temperatures",
        Kind.TEMPERATURE_DIFFERENCE: "temperatures",
        Kind.VOLUME_FLOW: say("the flow of water"),
        Kind.VOLTAGE: say("the electrical supply"),
        Kind.CURRENT: say("what its motors draw"),
        Kind.RESISTANCE: say("its electrical insulation"),
        Kind.MASS_FRACTION: say("the strength of the antifreeze"),
        Kind.TIME: say("its times"),
        Kind.FREQUENCY: say("the electrical supply"),
    }.get(point.kind, say("what the unit shows and does"))


def _not_found(assessment: Assessment) -> str:
    first = likely_causes(assessment)[0]
    cause = assessment.bench.problem.causes[first.id]
    found = assessment.case.conclusion
    sure = say("most likely") if first.probability >= 0.5 else say("one possibility among others")
    if found is not None and found.outcome == "not_found":
        return say("The reason was not found.")
    if cause.customer is None:
        return say("The reason is not proved yet.")
    return say("The reason is not proved yet; {sure}: {wrong}", sure=sure, wrong=cause.customer.wrong)


def _left(state: PlantState) -> str:
    if state.compressors is Compressors.RUNNING:
        return say("When we left this record the unit was running.")
    if state.supply is Supply.ISOLATED:
        return say("The unit is switched off and locked out for safety; please leave the lock where it is.")
    return say("The unit is not running; please do not start it before somebody qualified says so.")


def _watch(mended: list[Cause]) -> str:
    own = [cause.customer.watch for cause in mended if cause.customer and cause.customer.watch]
    general = dict.fromkeys(WATCH[cause.system] for cause in mended)
    words = [*own, *(say("Please watch for {one}.", one=one) for one in general)]
    words.append(say("If the same thing shows again, call us and do not keep resetting the unit; open nothing."))
    return " ".join(words)


def _ended(text: str) -> str:
    return text if text.endswith((".", "?", "!")) else f"{text}."

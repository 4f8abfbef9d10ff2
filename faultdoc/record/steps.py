"""Which step the page shows: the one proposed, or one that a person picked instead. Pure.

Whatever is picked, its plant state comes first and nobody is sent to do what they may not.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from faultdoc.diagnosis.assess import (
    Assessment,
    Step,
    change_step,
    outcomes_of,
    setting_up,
    situation,
    step_toward,
)
from faultdoc.model.safety import Qualification, Signal, StateChange, StateNeed, hazardous, may, satisfies
from faultdoc.record.waits import waits
from faultdoc.record.words import OUTCOMES, PEOPLE
from faultdoc.words import say

__all__ = [
    "Pick",
    "change_of",
    "needs_acknowledgement",
    "pick_for_point",
    "refusal",
    "shown_step",
    "still_open",
    "waits_for",
]


@dataclass(frozen=True)
class Pick:
    """What a person chose to do instead of the step proposed.

    Attributes:
        kind: a question, a remedy or a state change; "correct" mends what was written down.
        id: of the question, the cause, the change; for "correct" of a question or a measuring point.
    """

    kind: Literal["question", "remedy", "change", "correct"]
    id: str


def change_of(assessment: Assessment, id: str) -> StateChange:
    """Return a state change by its id.

    Raises:
        KeyError: when the plant file has none of that id.
    """
    changes = {change.id: change for change in assessment.bench.library.plant.changes}
    return changes[id]


def refusal(assessment: Assessment, pick: Pick) -> str | None:
    """Return in words why what was picked cannot be done here and now, or None when it can."""
    case, problem = assessment.case, assessment.bench.problem
    who = frozenset(case.who)
    if pick.kind == "correct":
        return None
    if case.conclusion is not None:
        return say("The case is closed. Open it again first.")
    if pick.kind == "change":
        change = change_of(assessment, pick.id)
        if not may(who, change.who):
            return say("Needs: {lower}.", lower=PEOPLE[change.who][0].lower())
        return (
            None if satisfies(case.state, change.when) else say("The plant is not in the state this starts from.")
        )
    if assessment.next.stops:
        return say(
            "An answer has ended the work. Once someone qualified has made it safe, change that answer first."
        )
    if case.unproved is not None:
        return say("A remedy waits for its proof. Take the proof first.")
    if pick.kind == "question":
        question = problem.questions[pick.id]
        needs: tuple[Qualification, ...] = (question.who,)
        state = question.state
    else:
        if pick.id in {one.cause for one in case.tried}:
            return say("This remedy has been tried.")
        remedy = problem.causes[pick.id].remedy
        if situation(problem, case).used_up(remedy, assessment.bench.library.plant):
            return say("This device has been reset as often as it may be before its cause is found.")
        needs, state = (remedy.who, remedy.proof.who), remedy.state
    lacking = [needed for needed in needs if not may(who, needed)]
    if lacking:
        return say("Needs: {lower}.", lower=PEOPLE[lacking[0]][0].lower())
    if setting_up(assessment.bench, case, state) is None:
        return say("Nobody here may bring the plant into the state it needs.")
    return None


def still_open(assessment: Assessment, pick: Pick) -> bool:
    """Return whether what was picked still waits to be done."""
    case = assessment.case
    if refusal(assessment, pick) is not None:
        return False
    if pick.kind == "question":
        question = assessment.bench.problem.questions[pick.id]
        made = {result.id for result in assessment.checks}
        done = pick.id in case.answers or pick.id in case.set_aside or question.check in made
        return not done and pick.id not in outcomes_of(assessment.bench, case)
    if pick.kind == "remedy":
        return case.unproved != pick.id
    return True


def pick_for_point(assessment: Assessment, point: str) -> Pick:
    """Return what pressing a measuring point leads to: the open question that asks for it, else writing it down.

    Through its question the plant's state and the people needed come first; writing down is for what has been
    read already.
    """
    if point not in assessment.case.readings:
        for id, question in assessment.bench.problem.questions.items():
            pick = Pick("question", id)
            if point in question.points and still_open(assessment, pick):
                return pick
    return Pick("correct", point)


def shown_step(assessment: Assessment, pick: Pick | None) -> Step:
    """Return the step that is shown: what was picked, or the change of state on the way to it, or the proposal."""
    if pick is None or pick.kind == "correct" or not still_open(assessment, pick):
        return assessment.next
    if pick.kind == "change":
        return change_step(assessment.bench, assessment.case, change_of(assessment, pick.id))
    return step_toward(assessment.bench, assessment.case, pick.kind, pick.id)


def needs_acknowledgement(assessment: Assessment, step: Step) -> bool:
    """Return whether the answer waits until the cautions have been acknowledged."""
    if step.kind in ("hand_over", "done"):
        return False
    needs: list[StateNeed] = [step.state]
    if step.kind == "state_change":
        needs.append(change_of(assessment, step.id).sets)
    grave = any(caution.signal in (Signal.DANGER, Signal.WARNING) for caution in step.cautions)
    return grave or any(hazardous(need) for need in needs)


def waits_for(assessment: Assessment) -> str:
    """Return in a word or two what a case waits for; '' where that is nothing but its next step."""
    case = assessment.case
    if case.conclusion is not None:
        return OUTCOMES[case.conclusion.outcome][0].lower()
    if assessment.next.stops:
        return say("stopped: danger")
    if case.unproved is not None:
        return say("proof to take")
    if any(not wait.over for wait in waits(assessment.bench.sheet, case.readings, case.state)):
        return say("wait before a start")
    return ""

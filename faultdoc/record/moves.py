"""Moves: everything a person can do to a case. Pure functions from a case to the next one.

None of them loses anything: an answer given twice is replaced, and the case before stays in
the session's history.
"""

from __future__ import annotations

from collections.abc import Sequence

from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Conclusion, Tried
from faultdoc.model.safety import PlantState, Qualification, StateChange, after
from faultdoc.model.tree import NON_ANSWERS, Question, Remedy

__all__ = [
    "answer",
    "bring_back",
    "change_state",
    "clear_answer",
    "clear_reading",
    "conclude",
    "note",
    "people",
    "proved",
    "read",
    "reopen",
    "repaired",
    "set_aside",
    "set_state",
    "went",
]


def answer(case: Case, question: str, outcome: str) -> Case:
    """Return the case with a question answered: an outcome's id, `not_sure` or `could_not_measure`."""
    answers = {**case.answers, question: outcome}
    return case.model_copy(update={"answers": answers, "tried": _taken_again(case, question)})


def clear_answer(case: Case, question: str) -> Case:
    """Return the case with the question open again."""
    return case.model_copy(update={"answers": {k: v for k, v in case.answers.items() if k != question}})


def read(case: Case, point: str, value: Measured | str) -> Case:
    """Return the case with a reading taken: a number, or the id of a choice."""
    readings = {**case.readings, point: value}
    return case.model_copy(update={"readings": readings, "tried": _taken_again(case, point)})


def _taken_again(case: Case, id: str) -> tuple[Tried, ...]:
    """Return the remedies tried, none of which came after an answer or reading that is taken now."""
    return tuple(
        one.model_copy(update={"known": tuple(known for known in one.known if known != id)}) for one in case.tried
    )


def clear_reading(case: Case, point: str) -> Case:
    """Return the case without the reading."""
    return case.model_copy(update={"readings": {k: v for k, v in case.readings.items() if k != point}})


def answered(case: Case, question: str, outcome: str, point: str | None) -> Case:
    """Return the case with an answer given: kept as the reading of the choice point, where the question has one.

    Args:
        case: before.
        question: its id.
        outcome: what was chosen, or one of NON_ANSWERS.
        point: the choice point whose reading answers the question, None where there is none.
    """
    if point is None:
        return answer(case, question, outcome)
    if outcome in NON_ANSWERS:
        return clear_reading(answer(case, question, outcome), point)
    # A 'not sure' of before gives way to what has been seen since.
    return clear_answer(read(case, point, outcome), question)


def set_aside(case: Case, question: str) -> Case:
    """Return the case with a question put off; it is not proposed until brought back."""
    if question in case.set_aside:
        return case
    return case.model_copy(update={"set_aside": (*case.set_aside, question)})


def bring_back(case: Case, question: str) -> Case:
    """Return the case with a question that was put off proposed again."""
    return case.model_copy(update={"set_aside": tuple(one for one in case.set_aside if one != question)})


def change_state(case: Case, change: StateChange) -> Case:
    """Return the case after a state change was carried out."""
    return case.model_copy(update={"state": after(case.state, change)})


def set_state(case: Case, state: PlantState) -> Case:
    """Return the case with the plant's state as a person found it."""
    return case.model_copy(update={"state": state})


def people(case: Case, who: Sequence[Qualification]) -> Case:
    """Return the case with other people on it."""
    return case.model_copy(update={"who": tuple(who)})


def repaired(case: Case, cause: str) -> Case:
    """Return the case with a cause's remedy carried out; its proof is still to be taken."""
    return case.model_copy(update={"unproved": cause})


def proved(case: Case, held: bool, remark: str | None = None) -> Case:
    """Return the case with the outstanding proof taken: it held, or it did not.

    Raises:
        ValueError: when no remedy waits for its proof.
    """
    if case.unproved is None:
        raise ValueError("no remedy waits for its proof")
    known = (*case.answers, *case.readings)
    tried = Tried(cause=case.unproved, proved=held, note=remark, known=known)
    return case.model_copy(update={"tried": (*case.tried, tried), "unproved": None})


def went(case: Case, work: Question | Remedy) -> Case:
    """Return the case with the people where some work took them, and with what they fetched for it at hand."""
    bring = work.bring if isinstance(work, Question) else ()
    at_hand = tuple(dict.fromkeys((*case.at_hand, *bring)))
    return case.model_copy(update={"place": work.place or case.place, "at_hand": at_hand})


def note(case: Case, text: str) -> Case:
    """Return the case with a note added."""
    return case.model_copy(update={"notes": (*case.notes, text)})


def conclude(case: Case, conclusion: Conclusion) -> Case:
    """Return the case closed."""
    return case.model_copy(update={"conclusion": conclusion})


def reopen(case: Case) -> Case:
    """Return the case open again."""
    return case.model_copy(update={"conclusion": None})

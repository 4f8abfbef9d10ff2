"""What of a case that came from elsewhere has no place in the fault trees here: kept in words, never dropped."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from faultdoc.diagnosis.assess import Bench
from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Reading
from faultdoc.model.tree import NON_ANSWERS
from faultdoc.quantities import Kind
from faultdoc.record import moves
from faultdoc.record.handover.form import HandOver

__all__ = ["Fitted", "fitted"]


@dataclass(frozen=True)
class Fitted:
    """A case with all that has no place here taken out of it.

    Attributes:
        case: with a note of what was taken out; the case as it was where everything fits.
        lost: what was taken out, a sentence each.
    """

    case: Case
    lost: tuple[str, ...]


def fitted(case: Case, bench: Bench, sent: HandOver) -> Fitted:
    """Return a case as it can be worked on here.

    Args:
        case: as it came.
        bench: the trees and points here.
        sent: knows in words what the ids mean where the case comes from.
    """
    update: dict[str, object] = {}
    lost: list[str] = []
    for name, found in (
        ("answers", dict(_answers(case, bench, sent))),
        ("readings", dict(_readings(case, bench, sent))),
    ):
        if found:
            update[name] = {id: value for id, value in getattr(case, name).items() if id not in found}
            lost += found.values()
    if strange := [id for id in case.set_aside if id not in bench.library.questions]:
        update["set_aside"] = tuple(id for id in case.set_aside if id not in strange)
        lost += [f"Left for later: {_asked(id, sent)}" for id in strange]
    if case.unproved is not None and case.unproved not in bench.problem.causes:
        update["unproved"] = None
        lost.append(f"The remedy for this was carried out and waits for its proof: {_cause(case.unproved, sent)}")
    # A remedy that was tried stays as it is: it counts where its cause is known, and stands in the record anyway.
    plant = bench.library.plant
    if case.place is not None and case.place not in plant.places:
        update["place"] = None
    if set(case.at_hand) - plant.instrument_ids:
        update["at_hand"] = tuple(id for id in case.at_hand if id in plant.instrument_ids)
    fits = case.model_copy(update=update) if update else case
    if lost:
        text = "Kept from the hand-over in words, as it has no place in the fault trees here. " + " ".join(lost)
        fits = moves.note(fits, text[:4000])
    return Fitted(fits, tuple(lost))


def _answers(case: Case, bench: Bench, sent: HandOver) -> Iterator[tuple[str, str]]:
    for id, outcome in case.answers.items():
        question = bench.library.questions.get(id)
        known = () if question is None else (*(one.id for one in question.outcomes), *NON_ANSWERS)
        if outcome not in known:
            words = sent.words.questions.get(id)
            said = words.answers.get(outcome, outcome) if words else outcome.replace("_", " ")
            yield id, _sentence(f"{_asked(id, sent)} {said}")


def _readings(case: Case, bench: Bench, sent: HandOver) -> Iterator[tuple[str, str]]:
    for id, reading in case.readings.items():
        point = bench.library.points.get(id)
        if point is not None and point.kind is Kind.CHOICE:
            fits = reading in [choice.id for choice in point.choices]
        else:
            fits = point is not None and isinstance(reading, Measured) and reading.kind is point.kind
        if not fits:
            yield id, _sentence(f"{_point(id, sent)}: {_value(id, reading, sent)}")


def _asked(id: str, sent: HandOver) -> str:
    words = sent.words.questions.get(id)
    return words.ask if words else f"{id.replace('_', ' ')}?"


def _point(id: str, sent: HandOver) -> str:
    words = sent.points.get(id)
    return (words.title if words else None) or id.replace("_", " ")


def _value(id: str, reading: Reading, sent: HandOver) -> str:
    if isinstance(reading, Measured):
        return reading.text
    words = sent.points.get(id)
    return words.choices.get(reading, reading) if words else reading.replace("_", " ")


def _cause(id: str, sent: HandOver) -> str:
    return _sentence(sent.words.causes.get(id, id.replace("_", " ")))


def _sentence(words: str) -> str:
    return words if words.endswith((".", "?", "!")) else f"{words}."

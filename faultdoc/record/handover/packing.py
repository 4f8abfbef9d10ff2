"""Makes a hand-over of a case: everything that was done, and what it was assessed with."""

from __future__ import annotations

import base64
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from hashlib import sha256

from faultdoc import __version__
from faultdoc.diagnosis.assess import Assessment, Bench
from faultdoc.diagnosis.explain import likely_causes
from faultdoc.library.load import shipped_units
from faultdoc.model.case import Case
from faultdoc.model.tree import NON_ANSWERS
from faultdoc.record.casebook import Attachment, Contact
from faultdoc.record.casebook.attachments import plain_name
from faultdoc.record.casebook.people import blot, in_case
from faultdoc.record.handover.about import about
from faultdoc.record.handover.file import MOST_ATTACHED
from faultdoc.record.handover.form import (
    FORMAT,
    Attached,
    HandOver,
    PointWords,
    QuestionWords,
    Sent,
    Words,
    lines_of,
)
from faultdoc.record.handover.prints import prints_of
from faultdoc.record.session import Entry
from faultdoc.record.words import NON_ANSWER_WORDS

__all__ = ["Chosen", "chosen_photos", "is_own", "packed", "uid_of_file"]

_BELIEVED = 0.0005
"""Causes below this probability are left out of the belief that travels."""


@dataclass(frozen=True)
class Chosen:
    """The photos and documents that go along, and the names of those that would be too much."""

    attachments: tuple[Attached, ...] = ()
    left_out: tuple[str, ...] = ()


def packed(
    assessment: Assessment,
    start: Case,
    entries: Sequence[Entry],
    *,
    uid: str,
    at: datetime,
    by: str,
    people: Sequence[Contact] = (),
    named: bool = False,
    attachments: Sequence[Attached] = (),
) -> HandOver:
    """Return a case as a hand-over.

    Where names and numbers were not asked for, they are taken out of notes and other free text too; so is whatever
    looks like a telephone number.

    Args:
        assessment: of the case as it is now.
        start: the case as it was entered.
        entries: its journal.
        uid: of the case.
        at: now, UTC.
        by: the label of this station.
        people: names and numbers, as the case book has them.
        named: whether they were asked for.
        attachments: photos and documents, where they were asked for.
    """
    bench = assessment.bench
    without = (lambda text: text) if named else blot(people, any_phone=True)

    def sent(case: Case) -> Case:
        return in_case(case.model_copy(update={"unit": bench.sheet.id}), without)

    start = sent(start)
    # The station stays as it is: it is no person's name, and by it a move is known again.
    entries = tuple(replace(entry, what=without(entry.what), case=sent(entry.case)) for entry in entries)
    if not named:
        attachments = [one.model_copy(update={"name": plain_name(without(one.name))}) for one in attachments]
    cases = [start, *(entry.case for entry in entries)]
    belief = {
        one.id: round(one.probability, 4) for one in likely_causes(assessment) if one.probability > _BELIEVED
    }
    return HandOver(
        format=FORMAT,
        about=about(replace(assessment, case=sent(assessment.case))),
        sent=Sent(at=at, by=by, faultdoc=__version__),
        uid=uid,
        people=tuple(people) if named else (),
        start=start,
        journal=lines_of(start, entries),
        belief=belief,
        points=_points(bench, cases),
        words=_words(bench, cases, belief),
        prints=prints_of(bench),
        sheet=bench.sheet,
        attachments=tuple(attachments),
    )


def is_own(unit: str) -> bool:
    """Say whether a data sheet is a person's own, so that it must travel with the shortest code too."""
    return unit not in shipped_units()


def uid_of_file(case: Case) -> str:
    """Return the uid of a case that has none, as it is in a file only: the same whenever nothing in it changed."""
    return sha256(case.model_dump_json().encode()).hexdigest()[:32]


def chosen_photos(kept: Iterable[tuple[Attachment, bytes]]) -> Chosen:
    """Return attachments as they travel, in their order, as far as their limit allows.

    Args:
        kept: each with its content.
    """
    taken: list[Attached] = []
    left_out: list[str] = []
    room = MOST_ATTACHED
    for one, content in kept:
        if one.size > room:
            left_out.append(one.name)
            continue
        room -= one.size
        data = base64.b64encode(content).decode()
        taken.append(
            Attached(
                name=one.name, media_type=one.media_type, at=one.at, size=one.size, sha256=one.sha256, data=data
            )
        )
    return Chosen(tuple(taken), tuple(left_out))


def _points(bench: Bench, cases: Iterable[Case]) -> dict[str, PointWords]:
    """Return the points that were read in any of the cases, with the choices that were made."""
    chosen: dict[str, set[str]] = {}
    for case in cases:
        for id, reading in case.readings.items():
            chosen.setdefault(id, set()).update([reading] if isinstance(reading, str) else [])
    found = {}
    for id, choices in chosen.items():
        point = bench.library.points.get(id)
        if point is not None:
            words = {choice.id: choice.title for choice in point.choices if choice.id in choices}
            found[id] = PointWords(kind=point.kind, title=point.title, choices=words)
    return found


def _words(bench: Bench, cases: Sequence[Case], belief: Iterable[str]) -> Words:
    """Return in words what the ids in the cases mean."""
    library = bench.library
    answered: dict[str, set[str]] = {}
    causes = dict.fromkeys(belief)
    for case in cases:
        for id, outcome in case.answers.items():
            answered.setdefault(id, set()).add(outcome)
        for id in case.set_aside:
            answered.setdefault(id, set())
        found = case.conclusion.cause if case.conclusion else None
        named = [*(one.cause for one in case.tried), case.unproved, found]
        causes.update(dict.fromkeys(id for id in named if id is not None))
    questions = {}
    for id, outcomes in answered.items():
        question = library.questions.get(id)
        if question is not None:
            titles = {outcome.id: outcome.title for outcome in question.outcomes}
            titles |= {id: NON_ANSWER_WORDS[id] for id in NON_ANSWERS}
            words = {outcome: titles[outcome] for outcome in sorted(outcomes) if outcome in titles}
            questions[id] = QuestionWords(ask=question.ask.tech, answers=words)
    return Words(
        symptoms={tree.id: tree.title for tree in bench.problem.trees},
        questions=questions,
        causes={id: library.causes[id].title for id in causes if id in library.causes},
    )

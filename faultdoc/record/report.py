"""The record of a case on paper: everything asked, read, reckoned and done, in one page of HTML.

The HTML keeps to what a browser and Qt's text document both show: tables and plain inline style.
Every text is escaped by the template; nothing from a file can become markup.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from faultdoc import __version__
from faultdoc.checks.base import COVERAGE, CheckResult
from faultdoc.diagnosis.assess import RUNNING, Assessment, Bench, change_minutes, outcomes_of, setting_up
from faultdoc.diagnosis.evidence import Evidence, ResidualEvidence
from faultdoc.diagnosis.explain import (
    Reason,
    evidence_in_words,
    for_and_against,
    likely_causes,
    misfit_sentences,
    not_ruled_out,
)
from faultdoc.library.vocabulary import usual_limit
from faultdoc.model.case import Case
from faultdoc.model.safety import Caution, StateChange, satisfies
from faultdoc.model.tree import Cause, Question, Remedy
from faultdoc.quantities import Kind, System, difference_kind, show
from faultdoc.record.moves import change_state
from faultdoc.record.session import Entry
from faultdoc.record.template import template
from faultdoc.record.words import (
    NON_ANSWER_WORDS,
    OUTCOMES,
    PEOPLE,
    chance,
    minutes,
    state_in_words,
    worst_first,
)

if TYPE_CHECKING:
    pass

__all__ = ["report_html", "summary"]

SHOWN = 5
"""Causes shown with their bars."""

COLUMNS = 4
"""Causes whose belief is shown step by step."""

BAR = 40
"""Cells of a bar at certainty."""


@dataclass(frozen=True)
class _Reading:
    title: str
    taken: str
    us: str
    si: str
    limit: str
    doubt: str


@dataclass(frozen=True)
class _Check:
    title: str
    expected: str
    measured: str
    off: str
    within: str
    deviations: str
    verdict: str
    sentence: str
    inputs: tuple[tuple[str, str, str], ...]
    working: tuple[tuple[str, str], ...]
    remarks: tuple[str, ...]
    formula: str
    source: str


@dataclass(frozen=True)
class _Bar:
    title: str
    system: str
    chance: str
    filled: int
    empty: int


@dataclass(frozen=True)
class _Tried:
    cause: Cause
    remedy: Remedy
    result: str
    note: str


def report_html(
    assessment: Assessment,
    system: System,
    session_entries: Sequence[Entry] | None = None,
    made_at: datetime | None = None,
    start: Case | None = None,
) -> str:
    """Return the report of a case as one HTML document.

    Args:
        assessment: of the case as it is now, closed or not.
        system: units in which checks are shown; readings are shown in both.
        session_entries: the case's journal, for what was done in order and the cautions of changes
            of state; without it those two parts say less.
        made_at: when the report is made; now when left out. Shown with its zone, UTC where it has none.
        start: the case before the journal's first entry; without it the cautions of a change of state
            made as the very first move are not listed.

    Raises:
        ValueError: when the case does not belong to the assessment's library.
    """
    bench, case = assessment.bench, assessment.case
    entries = tuple(session_entries or ())
    when = made_at or datetime.now(UTC).astimezone()
    first = likely_causes(assessment)[0]
    restart = setting_up(bench, case, RUNNING)
    return template("report.html.j2").render(
        title=case.title or f"{bench.sheet.title}: {bench.problem.trees[0].title}",
        version=__version__,
        made_at=f"{when:%Y-%m-%d %H:%M} {when.tzname() or 'UTC'}",
        summary=summary(assessment),
        case=case,
        sheet=bench.sheet,
        voltage=show(bench.sheet.electrical.voltage, Kind.VOLTAGE, system),
        frequency=show(bench.sheet.electrical.frequency, Kind.FREQUENCY, system),
        symptoms=[(tree.title, tree.symptom) for tree in bench.problem.trees],
        people=[PEOPLE[who][0] for who in case.who],
        state=state_in_words(case.state),
        readings=tuple(_readings(assessment, system)),
        answers=tuple(_answers(assessment)),
        counted_once=[(bench.problem.questions[id].ask.tech, why) for id, why in assessment.counted_once.items()],
        checks=[_check(result, system) for result in assessment.checks],
        bars=tuple(_bars(assessment)),
        first=first,
        reasons=[_reason(reason) for reason in for_and_against(assessment, first.id, system)],
        belief=_belief(assessment, system),
        tried=tuple(_tried(assessment)),
        waiting=bench.problem.causes[case.unproved] if case.unproved else None,
        outcome=None if case.conclusion is None else OUTCOMES[case.conclusion.outcome],
        running=restart == (),
        restarted=[change.title for change in _restarted(assessment, entries)],
        restart=None
        if restart is None
        else [(change, minutes(change_minutes(bench, case, change))) for change in restart],
        cautions=_cautions(assessment, entries, start),
        possible=[(one.title, chance(one.probability)) for one in not_ruled_out(assessment)],
        left_out=chance(assessment.belief.left_out) if assessment.belief.left_out else None,
        looked_at=assessment.belief.sets.size,
        misfits=misfit_sentences(assessment, system),
        journal=tuple(_journal(entries)),
        next=None if case.conclusion else assessment.next,
    )


def summary(assessment: Assessment) -> str:
    """Return the case in one paragraph of plain language."""
    bench, case = assessment.bench, assessment.case
    causes = bench.problem.causes
    first = likely_causes(assessment)[0]
    what = " and ".join(f"'{tree.title}'" for tree in bench.problem.trees)
    readings, answers = _counted(len(case.readings), "reading"), _counted(len(case.answers), "answer")
    parts = [
        f"{bench.sheet.title} was looked at for {what}.",
        f"{readings} and {_lower(answers)} were taken.",
    ]
    for one in case.tried:
        if one.cause in causes:
            held = "and the proof held" if one.proved else "but the proof did not hold"
            parts.append(f"Done: {_lower(causes[one.cause].remedy.title)}, {held}.")
    if case.unproved is not None:
        parts.append(f"Done, with its proof still to be taken: {_lower(causes[case.unproved].remedy.title)}.")
    if case.conclusion is None:
        parts.append(
            f"The case is not closed. The most likely cause so far is: {_lower(first.title)} "
            f"({chance(first.probability)}). Next: {_lower(assessment.next.text)}"
        )
    else:
        title, meaning = OUTCOMES[case.conclusion.outcome]
        parts.append(f"{title}: {_lower(meaning)}")
        found = case.conclusion.cause
        if found is not None and found in causes:
            parts.append(f"The cause was: {_lower(causes[found].title)}.")
        else:
            parts.append(f"The most likely cause is: {_lower(first.title)} ({chance(first.probability)}).")
        if case.conclusion.note:
            parts.append(case.conclusion.note)
    return " ".join(part if part.endswith((".", "?", "!")) else part + "." for part in parts)


def _lower(text: str) -> str:
    """Return the text to go on a sentence with; 'L1 ...' or 'NPSH ...' keep their capitals."""
    return text[:1].lower() + text[1:] if text[1:2].islower() else text


def _counted(number: int, noun: str) -> str:
    return f"{number or 'No'} {noun}{'' if number == 1 else 's'}"


def _readings(assessment: Assessment, system: System) -> Iterator[_Reading]:
    points = assessment.bench.library.points
    doubts = {doubt.point: doubt.text for doubt in assessment.doubts(system)}
    for id, reading in assessment.case.readings.items():
        point = points[id]
        if isinstance(reading, str):
            title = next(choice.title for choice in point.choices if choice.id == reading)
            yield _Reading(point.title, title, "", "", "", "")
            continue
        u = reading.standard_uncertainty
        limit = usual_limit(point, reading.value) if u is None else u * 3.0**0.5
        us, si = (show(reading.value, reading.kind, system, limit=limit) for system in System)
        origin = "the usual instrument's" if u is None else "as given"
        yield _Reading(point.title, reading.text, us, si, origin, doubts.get(id, ""))


def _answers(assessment: Assessment) -> Iterator[tuple[str, str]]:
    """Yield (question, answer) for what was answered, could not be, or was left for later."""
    problem, case = assessment.bench.problem, assessment.case
    outcomes = outcomes_of(assessment.bench, case)
    for id, question in problem.questions.items():
        if id in outcomes:
            yield question.ask.tech, next(one.title for one in question.outcomes if one.id == outcomes[id])
        elif id in case.answers:
            yield question.ask.tech, NON_ANSWER_WORDS[case.answers[id]]
        elif id in case.set_aside:
            yield question.ask.tech, "Left for later, and not answered"


def _check(result: CheckResult, system: System) -> _Check:
    off_kind = difference_kind(result.kind)
    return _Check(
        title=result.title,
        expected=show(result.expected, result.kind, system, limit=COVERAGE * result.expected_uncertainty),
        measured=show(result.measured, result.kind, system),
        off=show(result.measured - result.expected, off_kind, system),
        within=show(COVERAGE * result.uncertainty, off_kind, system),
        deviations=f"{result.deviation:+.1f}",
        verdict=result.verdict.value,
        sentence=result.sentence(system),
        inputs=tuple(
            (
                entry.title,
                show(entry.value, entry.kind, system, limit=COVERAGE * entry.standard_uncertainty or None),
                {"reading": "read", "data sheet": "from the data sheet", "assumed": "assumed"}[entry.origin],
            )
            for entry in result.inputs
        ),
        working=tuple((line.title, show(line.value, line.kind, system)) for line in result.working),
        remarks=result.remarks,
        formula=result.formula,
        source=result.source,
    )


def _bars(assessment: Assessment) -> Iterator[_Bar]:
    for one in likely_causes(assessment)[:SHOWN]:
        filled = max(round(BAR * one.probability), 1)
        yield _Bar(one.title, one.system, chance(one.probability), filled, BAR - filled)


def _reason(reason: Reason) -> tuple[str, str, str]:
    return reason.text, f"{reason.decibans:+.1f}", reason.strength


def _belief(assessment: Assessment, system: System) -> tuple[tuple[str, ...], list[tuple[str, list[str]]]]:
    """Return the likeliest causes' titles, and (what came in, their probabilities after it) from the start on."""
    belief = assessment.belief
    ranked = likely_causes(assessment)[:COLUMNS]
    columns = [belief.sets.causes.index(one.id) for one in ranked]
    decibans = belief.prior_decibans + np.vstack(
        [np.zeros_like(belief.prior_decibans), belief.steps.cumsum(axis=0)]
    )
    probabilities = 1.0 / (1.0 + 10.0 ** (-decibans[:, columns] / 10.0))
    came_in = ["The symptom alone"]
    came_in += [_short(assessment.bench, piece, system) for piece in belief.evidence]
    rows = [(text, [chance(p) for p in row]) for text, row in zip(came_in, probabilities, strict=True)]
    return tuple(one.title for one in ranked), rows


def _short(bench: Bench, evidence: Evidence, system: System) -> str:
    """Return what came in with its verdict only: the numbers stand with the checks."""
    if isinstance(evidence, ResidualEvidence):
        return "; ".join(f"{result.title}: {result.verdict.value}" for result in evidence.results)
    return evidence_in_words(bench, evidence, system)


def _tried(assessment: Assessment) -> Iterator[_Tried]:
    causes = assessment.bench.problem.causes
    for one in assessment.case.tried:
        if one.cause in causes:
            result = "The proof held." if one.proved else "The proof did not hold."
            yield _Tried(causes[one.cause], causes[one.cause].remedy, result, one.note or "")


def _cautions(assessment: Assessment, entries: Sequence[Entry], start: Case | None) -> tuple[Caution, ...]:
    """Return the cautions of everything done, worst first."""
    problem, case = assessment.bench.problem, assessment.case
    checked = {result.id for result in assessment.checks}
    outcomes = outcomes_of(assessment.bench, case)

    def answered(question: Question) -> bool:
        return question.id in outcomes or question.check in checked

    met = [
        caution for question in problem.questions.values() if answered(question) for caution in question.cautions
    ]
    for change in _changes(assessment, entries, start):
        met += change.cautions
    for one in case.tried:
        if one.cause in problem.causes:
            remedy = problem.causes[one.cause].remedy
            met += [*remedy.cautions, *remedy.proof.cautions]
    if case.unproved is not None:
        met += problem.causes[case.unproved].remedy.cautions
    return worst_first(met)


def _changes(assessment: Assessment, entries: Sequence[Entry], start: Case | None) -> Iterator[StateChange]:
    """Yield the state changes that lead from each case of the journal to the next."""
    cases = [*([start] if start else []), *(entry.case for entry in entries)]
    for before, after in pairwise(cases):
        if before.state != after.state:
            yield from (
                change
                for change in assessment.bench.library.plant.changes
                if satisfies(before.state, change.when) and change_state(before, change).state == after.state
            )


def _restarted(assessment: Assessment, entries: Sequence[Entry]) -> Iterator[StateChange]:
    """Yield the state changes made since the last remedy was carried out."""
    mended = [
        place
        for place, entry in enumerate(entries)
        if entry.move == "do" and entry.case.unproved and (not place or not entries[place - 1].case.unproved)
    ]
    if mended:
        yield from _changes(assessment, entries[mended[-1] :], None)


def _journal(entries: Sequence[Entry]) -> Iterator[tuple[int, str]]:
    said = {"do": "", "undo": "Taken back: ", "redo": "Done again: "}
    for number, entry in enumerate(entries, start=1):
        yield number, said[entry.move] + entry.what

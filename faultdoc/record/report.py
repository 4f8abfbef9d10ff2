"""The record of a case on paper: everything asked, read, reckoned and done, in one document of HTML.

The HTML keeps to what a browser and Qt's text document both show: tables, plain inline style, and pictures
inside the document itself. Every text is escaped by the template; nothing from a file can become markup. The
same case, journal and time give the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo
from itertools import pairwise
from typing import Protocol

import numpy as np

from faultdoc import __version__
from faultdoc.checks.base import COVERAGE, FAR, VERDICT_WORDS, CheckResult, Sense
from faultdoc.checks.inputs import is_assumed
from faultdoc.checks.startup import warm_up
from faultdoc.diagnosis.assess import RUNNING, Assessment, Bench, change_minutes, outcomes_of, setting_up
from faultdoc.diagnosis.belief import believe
from faultdoc.diagnosis.evidence import ChoiceEvidence, Evidence, FixEvidence, ResidualEvidence
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
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, System, difference_kind, show
from faultdoc.record.chart import LETTERS, bars_svg, belief_svg
from faultdoc.record.customer import customer_words
from faultdoc.record.figures import Figure
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
from faultdoc.words import say

__all__ = ["Person", "belief_figure", "customer_html", "report_html", "summary"]

SHOWN = 5
"""Causes shown with their bars."""

COLUMNS = 4
"""Causes whose belief is shown step by step."""

_SENSES = {Sense.BOTH: "", Sense.AT_LEAST: say("at least "), Sense.AT_MOST: say("at most ")}

ROLES = {
    "caller": say("Caller"),
    "site": say("On site"),
    "technician": say("Technician"),
    "desk": say("Service desk"),
}


class Person(Protocol):
    """Someone of the case, as the case book keeps them."""

    @property
    def role(self) -> str:
        """One of `ROLES`."""

    @property
    def name(self) -> str:
        """Their name."""

    @property
    def phone(self) -> str:
        """Their number, or ''."""

    @property
    def note(self) -> str:
        """What else is known, or ''."""


@dataclass(frozen=True)
class _Reading:
    title: str
    taken: str
    at: str
    mine: str
    other: str
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
    lines: tuple[tuple[str, str, str], ...]
    remarks: tuple[str, ...]
    formula: str
    source: str


@dataclass(frozen=True)
class _Step:
    what: str
    at: str
    chances: tuple[str, ...]
    probabilities: tuple[float, ...]
    tried: bool


@dataclass(frozen=True)
class _Line:
    number: int
    at: str
    by: str
    what: str


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
    *,
    photos: Sequence[Figure] = (),
    not_shown: Sequence[str] = (),
    pictures: Sequence[Figure] = (),
    contacts: Sequence[Person] = (),
    kit: Sequence[str] = (),
) -> str:
    """Return the report of a case as one HTML document.

    Args:
        assessment: of the case as it is now, closed or not.
        system: units in which checks are shown; readings are shown in both, these first.
        session_entries: the case's journal, for what was done when and where and the cautions of changes
            of state; without it those parts say less.
        made_at: when the report is made; now when left out. Its zone, UTC where it has none, is that of all
            times in the report.
        start: the case before the journal's first entry; without it the cautions of a change of state
            made as the very first move are not listed.
        photos: taken on the job, already as small as they are to be.
        not_shown: names of what else was kept with the case.
        pictures: drawings that help to understand the case.
        contacts: the people of the case; without them no name is printed.
        kit: what the next person should bring, a line each.

    Raises:
        ValueError: when the case does not belong to the assessment's library.
    """
    bench, case = assessment.bench, assessment.case
    entries = tuple(session_entries or ())
    when = _made(made_at)
    taken = _taken(case, entries)
    ranked = likely_causes(assessment)
    first = ranked[0]
    names = [one.title for one in ranked[:COLUMNS]]
    restart = setting_up(bench, case, RUNNING)
    belief = _belief(assessment, system, taken, when.tzinfo)
    return template("report.html.j2").render(
        title=_title(assessment),
        version=__version__,
        made_at=f"{when:%Y-%m-%d %H:%M} {_zone(when)}",
        zone=_zone(when),
        customer=customer_words(assessment),
        summary=summary(assessment),
        case=case,
        unit=_nameplate(bench.sheet, system),
        symptoms=[(tree.title, tree.symptom) for tree in bench.problem.trees],
        people=[PEOPLE[who][0] for who in case.who],
        contacts=[(ROLES[one.role], _who(one)) for one in contacts],
        times=_times(entries, when.tzinfo),
        state=state_in_words(case.state),
        warm_up=show(warm_up(bench.sheet), Kind.TIME, system),
        readings=tuple(_readings(assessment, system, taken, when.tzinfo)),
        units=(system.value, system.other.value),
        answers=tuple(_answers(assessment)),
        counted_once=[(bench.problem.questions[id].ask.tech, why) for id, why in assessment.counted_once.items()],
        checks=[_check(result, system) for result in assessment.checks],
        bars=Figure(
            say("Likely causes as bars"),
            say("The black part of a bar is the probability."),
            bars_svg([(one.title, chance(one.probability), one.probability) for one in ranked[:SHOWN]]),
        ),
        first=first,
        first_chance=chance(first.probability),
        reasons=[_reason(reason) for reason in for_and_against(assessment, first.id, system)],
        chart=_chart(names, belief),
        belief=belief,
        belief_head=[say("Step"), say("After"), *LETTERS[: len(names)]],
        belief_widths=[7, 93 - 11 * len(names), *[11] * len(names)],
        tried=tuple(_tried(assessment)),
        waiting=bench.problem.causes[case.unproved] if case.unproved else None,
        outcome=None if case.conclusion is None else OUTCOMES[case.conclusion.outcome],
        running=restart == (),
        restarted=[change.title for change in _restarted(assessment, entries)],
        restart=None
        if restart is None
        else [(change, minutes(change_minutes(bench, case, change))) for change in restart],
        met=_cautions(assessment, entries, start),
        possible=[(one.title, chance(one.probability)) for one in not_ruled_out(assessment)],
        left_out=chance(assessment.belief.left_out) if assessment.belief.left_out else None,
        looked_at=assessment.belief.sets.size,
        misfits=misfit_sentences(assessment, system),
        journal=tuple(_journal(entries, when.tzinfo)),
        next=None if case.conclusion else assessment.next,
        photos=tuple(photos),
        not_shown=tuple(not_shown),
        pictures=tuple(pictures),
        kit=tuple(kit),
        signed=_signed(contacts),
    )


def customer_html(
    assessment: Assessment, system: System, made_at: datetime | None = None, *, contacts: Sequence[Person] = ()
) -> str:
    """Return the one page for the customer: the case in plain words, and a line to sign on.

    Args:
        assessment: of the case as it is now, closed or not.
        system: units of the nameplate.
        made_at: when the page is made; now when left out.
        contacts: the people of the case; without them no name is printed.
    """
    bench, case = assessment.bench, assessment.case
    causes = bench.problem.causes
    when = _made(made_at)
    parts = [part for one in case.tried if one.cause in causes for part in causes[one.cause].remedy.parts]
    outcome = say("Not finished") if case.conclusion is None else OUTCOMES[case.conclusion.outcome][0]
    return template("customer.html.j2").render(
        title=_title(assessment),
        version=__version__,
        made_at=f"{when:%Y-%m-%d %H:%M} {_zone(when)}",
        facts=[
            (say("Unit"), bench.sheet.title),
            (say("Cooling capacity"), show(bench.sheet.cooling_capacity, Kind.POWER, system)),
            *((ROLES[one.role], _who(one)) for one in contacts),
            (say("Outcome"), outcome),
        ],
        customer=customer_words(assessment),
        parts=list(dict.fromkeys(parts)),
        signed=_signed(contacts),
    )


def _title(assessment: Assessment) -> str:
    bench = assessment.bench
    return assessment.case.title or f"{bench.sheet.title}: {bench.problem.trees[0].title}"


def _made(made_at: datetime | None) -> datetime:
    when = made_at or datetime.now(UTC).astimezone()
    return when if when.tzinfo else when.replace(tzinfo=UTC)


def _zone(when: datetime) -> str:
    return when.tzname() or f"UTC{when:%z}"


def _clock(at: datetime | None, zone: tzinfo | None) -> str:
    return f"{at.astimezone(zone):%Y-%m-%d %H:%M}" if at else ""


def _times(entries: Sequence[Entry], zone: tzinfo | None) -> str:
    known = [entry.at for entry in entries if entry.at]
    return (
        say("{clock} to {clock_2}", clock=_clock(min(known), zone), clock_2=_clock(max(known), zone))
        if known
        else ""
    )


def _who(one: Person) -> str:
    return ", ".join(part for part in (one.name, one.phone, one.note) if part)


def _signed(contacts: Sequence[Person]) -> list[tuple[str, str]]:
    """Return who signs, with the name where it is known; the customer is whoever is on site, else the caller."""
    names = {one.role: one.name for one in reversed(contacts)}
    customer = names.get("site") or names.get("caller") or ""
    return [(say("Technician"), names.get("technician", "")), (say("Customer"), customer)]


def _nameplate(sheet: DataSheet, system: System) -> list[tuple[str, str]]:
    """Return what identifies the unit, each value followed by 'assumed' where neither plate nor papers gave it."""

    def said(path: str, words: str) -> str:
        return say("{words} (assumed)", words=words) if is_assumed(sheet, path) else words

    power = sheet.electrical
    supply = f"{show(power.voltage, Kind.VOLTAGE, system)}, {show(power.frequency, Kind.FREQUENCY, system)}"
    sorts: dict[tuple[str, float], int] = {}
    for one in sheet.compressors:
        key = one.type.value, one.rated_current
        sorts[key] = sorts.get(key, 0) + 1
    compressors = [
        say("{number} x {kind}, rated {show}", number=number, kind=kind, show=show(current, Kind.CURRENT, system))
        for (kind, current), number in sorts.items()
    ]
    charge, ampacity, protection = (
        sheet.refrigerant_side.charge,
        power.minimum_circuit_ampacity,
        power.maximum_protection,
    )
    rows = [
        (say("Unit"), f"{sheet.title} ({sheet.id})"),
        (say("Refrigerant"), sheet.refrigerant),
        (say("Charge of one circuit"), charge and show(charge, Kind.MASS, system)),
        (say("Cooling capacity"), said("cooling_capacity", show(sheet.cooling_capacity, Kind.POWER, system))),
        (say("Supply"), supply),
        (say("Minimum circuit ampacity"), ampacity and show(ampacity, Kind.CURRENT, system)),
        (say("Maximum protection"), protection and show(protection, Kind.CURRENT, system)),
        (say("Compressors"), said("compressors", "; ".join(compressors))),
        (say("Condenser fans"), str(sum(one.count for one in sheet.fans)) if sheet.fans else None),
        (
            say("Design water flow"),
            said("water.design_flow", show(sheet.water.design_flow, Kind.VOLUME_FLOW, system)),
        ),
    ]
    return [(title, words) for title, words in rows if words]


def summary(assessment: Assessment) -> str:
    """Return the case in one paragraph of plain language."""
    bench, case = assessment.bench, assessment.case
    causes = bench.problem.causes
    first = likely_causes(assessment)[0]
    what = " and ".join(f"'{tree.title}'" for tree in bench.problem.trees)
    readings, answers = _counted(len(case.readings), "reading"), _counted(len(case.answers), "answer")
    parts = [
        say("{title} was looked at for {what}.", title=bench.sheet.title, what=what),
        say("{readings} and {lower} were taken.", readings=readings, lower=_lower(answers)),
    ]
    for one in case.tried:
        if one.cause in causes:
            held = say("and the proof held") if one.proved else say("but the proof did not hold")
            parts.append(say("Done: {lower}, {held}.", lower=_lower(causes[one.cause].remedy.title), held=held))
    if case.unproved is not None:
        parts.append(
            say(
                "Done, with its proof still to be taken: {lower}.",
                lower=_lower(causes[case.unproved].remedy.title),
            )
        )
    if case.conclusion is None:
        parts.append(
            say(
                "The case is not closed. The most likely cause so far is: {lower} ({chance}). Next: {lower_2}",
                lower=_lower(first.title),
                chance=chance(first.probability),
                lower_2=_lower(assessment.next.text),
            )
        )
    else:
        title, meaning = OUTCOMES[case.conclusion.outcome]
        parts.append(f"{title}: {_lower(meaning)}")
        found = case.conclusion.cause
        if found is not None and found in causes:
            parts.append(say("The cause was: {lower}.", lower=_lower(causes[found].title)))
        else:
            parts.append(
                say(
                    "The most likely cause is: {lower} ({chance}).",
                    lower=_lower(first.title),
                    chance=chance(first.probability),
                )
            )
        if case.conclusion.note:
            parts.append(case.conclusion.note)
    return " ".join(part if part.endswith((".", "?", "!")) else part + "." for part in parts)


def _lower(text: str) -> str:
    """Return the text to go on a sentence with; 'L1 ...' or 'NPSH ...' keep their capitals."""
    return text[:1].lower() + text[1:] if text[1:2].islower() else text


def _counted(number: int, noun: str) -> str:
    return f"{number or say('No')} {say(noun if number == 1 else noun + 's')}"


def _taken(case: Case, entries: Sequence[Entry]) -> dict[str, tuple[int, datetime | None]]:
    """Return for every answer and reading of the case at which move it was given last, and when.

    Without a journal the order is that of the case: answers, then readings.
    """
    known = {**case.answers, **case.readings}
    taken: dict[str, tuple[int, datetime | None]] = {id: (place, None) for place, id in enumerate(known)}
    before: dict[str, object] = {}
    for place, entry in enumerate(entries):
        now: dict[str, object] = {**entry.case.answers, **entry.case.readings}
        for id in known:
            if now.get(id) == known[id] and before.get(id) != known[id]:
                taken[id] = place, entry.at
        before = now
    return taken


def _readings(
    assessment: Assessment,
    system: System,
    taken: Mapping[str, tuple[int, datetime | None]],
    zone: tzinfo | None,
) -> Iterator[_Reading]:
    points = assessment.bench.library.points
    doubts = {doubt.point: doubt.text for doubt in assessment.doubts(system)}
    for id, reading in assessment.case.readings.items():
        point, at = points[id], _clock(taken[id][1], zone)
        if isinstance(reading, str):
            title = next(choice.title for choice in point.choices if choice.id == reading)
            yield _Reading(point.title, title, at, "", "", "", "")
            continue
        u = reading.standard_uncertainty
        limit = usual_limit(point, reading.value) if u is None else u * 3.0**0.5
        mine, other = (show(reading.value, reading.kind, one, limit=limit) for one in (system, system.other))
        origin = "usual" if u is None else say("as given")
        yield _Reading(point.title, reading.text, at, mine, other, origin, doubts.get(id, ""))


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
            yield question.ask.tech, say("Left for later, and not answered")


def _check(result: CheckResult, system: System) -> _Check:
    off_kind = difference_kind(result.kind)
    return _Check(
        title=result.title,
        expected=_SENSES[result.sense]
        + show(result.expected, result.kind, system, limit=COVERAGE * result.expected_uncertainty or None),
        measured=show(result.measured, result.kind, system),
        off=show(result.measured - result.expected, off_kind, system),
        within=show(COVERAGE * result.uncertainty, off_kind, system),
        deviations=f"{result.deviation:+.1f}" if abs(result.deviation) < FAR else say("beyond 100"),
        verdict=VERDICT_WORDS[result.verdict],
        sentence=result.sentence(system),
        lines=tuple(
            (
                entry.title,
                show(entry.value, entry.kind, system, limit=COVERAGE * entry.standard_uncertainty or None),
                {"reading": "read", "data sheet": say("from the data sheet"), "assumed": "assumed"}[entry.origin],
            )
            for entry in result.inputs
        )
        + tuple((line.title, show(line.value, line.kind, system), "reckoned") for line in result.working),
        remarks=result.remarks,
        formula=result.formula,
        source=result.source,
    )


def _reason(reason: Reason) -> tuple[str, str, str]:
    return reason.text, f"{reason.decibans:+.1f}", reason.strength


def belief_figure(assessment: Assessment, system: System, session_entries: Sequence[Entry]) -> Figure:
    """Return the chart of what the likeliest causes' probabilities were after each fact, as they came in.

    Args:
        assessment: of the case as it is now.
        system: units of the words.
        session_entries: the case's journal, which knows the order.
    """
    belief = _belief(assessment, system, _taken(assessment.case, tuple(session_entries)), UTC)
    return _chart([one.title for one in likely_causes(assessment)[:COLUMNS]], belief)


def _chart(names: Sequence[str], belief: Sequence[_Step]) -> Figure:
    return Figure(
        say("Belief over the steps"),
        say("How likely each cause was after each step."),
        belief_svg(
            names, [one.probabilities for one in belief], [place for place, one in enumerate(belief) if one.tried]
        ),
    )


def _belief(
    assessment: Assessment,
    system: System,
    taken: Mapping[str, tuple[int, datetime | None]],
    zone: tzinfo | None,
) -> tuple[_Step, ...]:
    """Return what the likeliest causes' probabilities were at the start and after each fact, as they came in."""
    bench, case = assessment.bench, assessment.case
    tried_here = [one for one in case.tried if one.cause in bench.problem.causes]

    def came_in(evidence: Evidence) -> tuple[int, datetime | None]:
        if isinstance(evidence, FixEvidence):
            # A remedy comes after all that was known before it.
            ids: Iterable[str] = tried_here[len(evidence.tries) - 1].known
        elif isinstance(evidence, ChoiceEvidence):
            ids = [evidence.question, *bench.problem.questions[evidence.question].points]
        else:
            ids = frozenset[str]().union(*(result.points for result in evidence.results))
        times = [taken[id] for id in ids if id in taken]
        return max(times, key=lambda time: time[0], default=(-1, None))

    ordered = sorted(assessment.belief.evidence, key=lambda one: (came_in(one)[0], isinstance(one, FixEvidence)))
    belief = believe(assessment.belief.sets, ordered)
    columns = [belief.sets.causes.index(one.id) for one in likely_causes(assessment)[:COLUMNS]]
    decibans = belief.prior_decibans + np.vstack(
        [np.zeros_like(belief.prior_decibans), belief.steps.cumsum(axis=0)]
    )
    probabilities = 1.0 / (1.0 + 10.0 ** (-decibans[:, columns] / 10.0))
    facts: list[tuple[str, str, bool]] = [(say("The symptom alone"), "", False)]
    for piece in belief.evidence:
        tried = isinstance(piece, FixEvidence)
        at = "" if tried else _clock(came_in(piece)[1], zone)
        facts.append((_short(bench, piece, system), at, tried))
    return tuple(
        _Step(what, at, tuple(chance(p) for p in row), tuple(float(p) for p in row), tried)
        for (what, at, tried), row in zip(facts, probabilities, strict=True)
    )


def _short(bench: Bench, evidence: Evidence, system: System) -> str:
    """Return what came in with its verdict only: the numbers stand with the checks."""
    if isinstance(evidence, ResidualEvidence):
        return "; ".join(f"{result.title}: {VERDICT_WORDS[result.verdict]}" for result in evidence.results)
    return evidence_in_words(bench, evidence, system)


def _tried(assessment: Assessment) -> Iterator[_Tried]:
    causes = assessment.bench.problem.causes
    for one in assessment.case.tried:
        if one.cause in causes:
            result = say("The proof held.") if one.proved else say("The proof did not hold.")
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


def _journal(entries: Sequence[Entry], zone: tzinfo | None) -> Iterator[_Line]:
    said = {"do": "", "undo": say("Taken back: "), "redo": say("Done again: ")}
    for number, entry in enumerate(entries, start=1):
        yield _Line(number, _clock(entry.at, zone), entry.by, said[entry.move] + entry.what)

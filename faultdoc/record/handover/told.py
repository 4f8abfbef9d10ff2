"""What opening a hand-over shows, in words: what came, what changed, what does not fit, what must be decided."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from faultdoc import __version__
from faultdoc.diagnosis.assess import Bench
from faultdoc.diagnosis.explain import likely_causes
from faultdoc.library.load import Library
from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Conclusion, Reading
from faultdoc.model.safety import STATE_FIELDS, Caution, PlantState
from faultdoc.record.handover.about import dangers
from faultdoc.record.handover.form import HandOver
from faultdoc.record.handover.merge import Choice, Conflict, Gone, Side
from faultdoc.record.handover.opening import Opening
from faultdoc.record.handover.prints import How
from faultdoc.record.words import (
    NON_ANSWER_WORDS,
    OUTCOMES,
    PEOPLE,
    PLANT,
    chance,
    counted,
    minutes,
    state_in_words,
)
from faultdoc.words import say

__all__ = ["CHOICE_WORDS", "Section", "Words", "holdings", "statement", "when"]

SHOWN = 5
"""Causes shown with their belief then and now."""

CHOICE_WORDS: dict[Choice, str] = {
    "mine": say("Take what is here"),
    "theirs": say("Take what came"),
    "note": say("Take neither; keep both in a note"),
}

_KINDS = {
    "questions": say("Question"),
    "causes": say("Cause"),
    "events": say("Event in the tree"),
    "plant": say("Plant file"),
    "sheet": say("Data sheet"),
    "trees": say("Fault tree"),
}
_HOW: dict[How, str] = {
    "added": say("new here"),
    "removed": say("not there here"),
    "words": say("worded otherwise here"),
    "numbers": say("weighted otherwise here"),
    "work": say("needs or warns of something else here"),
    "form": say("built otherwise here"),
    "whole": say("not the same here"),
}


@dataclass(frozen=True)
class Section:
    """A heading, sentences and cautions below it; `grave` where a person must heed them before going on."""

    title: str
    lines: tuple[str, ...]
    grave: bool = False
    cautions: tuple[Caution, ...] = ()


def holdings(case: Case) -> str:
    """Return what a case holds, in numbers."""
    return ", ".join(
        counted(len(items), thing)
        for items, thing in ((case.readings, "reading"), (case.answers, "answer"), (case.notes, "note"))
    )


def when(at: datetime | None, now: datetime) -> str:
    """Return when something was: local time, and how long ago.

    >>> from datetime import UTC
    >>> when(datetime(2026, 1, 1, 12, 0, tzinfo=UTC), datetime(2026, 1, 1, 12, 7, tzinfo=UTC))[-9:]
    '7 min ago'
    """
    if at is None:
        return say("at a time not written down")
    shown = at.astimezone().strftime("%Y-%m-%d %H:%M")
    past = (now - at).total_seconds() / 60.0
    if past < -1.0:
        return say("{shown}, ahead of the clock here", shown=shown)
    return (
        say("{shown}, {minutes} ago", shown=shown, minutes=minutes(round(past)))
        if past >= 1.0
        else say("{shown}, just now", shown=shown)
    )


def statement(opening: Opening, now: datetime) -> tuple[Section, ...]:
    """Return what a person is told when a hand-over is opened, in the order in which it matters."""
    hand_over, words = opening.hand_over, Words(opening.bench.library)
    sections = [_came(opening, now)]
    if not opening.received.as_sent:
        line = say("Somebody edited it, or it was damaged on its way. Read it with care, or ask for it again.")
        sections.append(Section(say("This file is not as it was sent"), (line,), grave=True))
    state = opening.theirs.case.state
    plant = [
        say(
            "As it was when this was sent, {when}. Look again before you act on it.",
            when=when(hand_over.sent.at, now),
        )
    ]
    plant += [f"{title}: {value}" for title, value in state_in_words(state)]
    sections.append(Section(say("The plant"), tuple(plant), grave=True, cautions=dangers(state)))
    if opening.fits.lost:
        lines = (
            say("They are kept in a note; nothing of them counts until it is asked again."),
            *opening.fits.lost,
        )
        sections.append(Section(say("Answers and readings that no longer fit"), lines, grave=True))
    changes = tuple(_changes(opening))
    if changes:
        sections.append(Section(say("What is not the same here as where it was sent from"), changes))
    sections.append(Section(say("Likely causes, then and now"), tuple(_belief(opening))))
    if opening.comparison is not None:
        sections.append(_together(opening, words))
    return tuple(section for section in sections if section.lines)


def _came(opening: Opening, now: datetime) -> Section:
    hand_over, case = opening.hand_over, opening.theirs.case
    sent = hand_over.sent
    lines = [
        say("From {what}, {when}.", what=sent.by or say("a station without a label"), when=when(sent.at, now)),
        say("Unit: {title}", title=opening.bench.sheet.title),
        *(say("Seen: {title}", title=tree.title) for tree in opening.bench.problem.trees),
        f"{holdings(case)}, {counted(len(hand_over.journal), 'move')}.",
    ]
    if case.title:
        lines.insert(0, case.title)
    if hand_over.attachments:
        lines.append(
            say("Photos and documents: {join}", join=", ".join(one.name for one in hand_over.attachments))
        )
    if hand_over.people:
        lines.append(
            say(
                "Names and numbers of {counted} come with it.",
                counted=counted(len(hand_over.people), "person", "people"),
            )
        )
    if opening.new_sheet is not None:
        line = say("Its data sheet comes with it, and is kept here as '{unit}'.", unit=opening.unit)
        if opening.unit != hand_over.start.unit:
            line += say(" Another unit here is called '{unit}'.", unit=hand_over.start.unit)
        lines.append(line)
    return Section(say("What came"), tuple(lines))


def _changes(opening: Opening) -> Iterator[str]:
    hand_over, bench = opening.hand_over, opening.bench
    if hand_over.sent.faultdoc != __version__:
        yield say(
            "FaultDoc: {faultdoc} there, {version__} here.",
            faultdoc=hand_over.sent.faultdoc,
            version__=__version__,
        )
    used = _used(opening.theirs.case)
    found: dict[tuple[str, str], list[How]] = {}
    for one in opening.changes:
        found.setdefault((one.kind, one.id), []).append(one.how)
    # What bears on an answer that was given stands first.
    for (kind, id), hows in sorted(found.items(), key=lambda item: item[0][1] not in used):
        said = " and ".join(_HOW[how] for how in hows)
        answered = say(" It was answered there: see that the answer still holds.") if id in used else ""
        if kind == "trees":
            answered = say(" A code does not say in what; the file does.")
        yield f"{_KINDS[kind]}: {said}. {_title(kind, id, bench, hand_over)}{answered}"


def _used(case: Case) -> set[str]:
    return {*case.answers, *case.readings}


def _title(kind: str, id: str, bench: Bench, hand_over: HandOver) -> str:
    problem, library, words = bench.problem, bench.library, hand_over.words
    found: str | None = None
    if kind == "questions":
        sent = words.questions.get(id)
        found = problem.questions[id].ask.tech if id in problem.questions else sent.ask if sent else None
    elif kind == "causes":
        found = library.causes[id].title if id in library.causes else words.causes.get(id)
    elif kind == "events":
        titles = {event.id: event.title for tree in problem.trees for event in tree.events}
        titles |= {condition.id: condition.title for tree in problem.trees for condition in tree.conditions}
        found = titles.get(id)
    elif kind == "trees":
        found = library.trees[id].title if id in library.trees else words.symptoms.get(id)
    elif kind == "plant":
        found = {change.id: change.title for change in library.plant.changes}.get(id)
    return found or id.replace("_", " ").capitalize()


def _belief(opening: Opening) -> Iterator[str]:
    then = opening.hand_over.belief
    now = {one.id: one for one in likely_causes(opening.now)}
    first = [*list(then)[:SHOWN], *list(now)[:SHOWN]]
    if not then:
        return
    for id in dict.fromkeys(first):
        here = now.get(id)
        title = here.title if here else opening.hand_over.words.causes.get(id, id.replace("_", " "))
        before = chance(then[id]) if id in then else say("less than was sent")
        after = chance(here.probability) if here else say("not a cause here")
        moved = "" if before == after else "  (moved)"
        yield say(
            "{title}: {before} then, {after} now{moved}", title=title, before=before, after=after, moved=moved
        )


def _together(opening: Opening, words: Words) -> Section:
    comparison = opening.comparison
    assert comparison is not None
    lines = {
        "same": say("This case is here already, just as it came. Nothing is added."),
        "behind": say("This case is here already, and further on. Nothing is added."),
        "ahead": say("This case is here already; what was done since is added to it."),
        "apart": say("This case is here already, and was worked on at both stations. The two are put together."),
    }
    said = [lines[comparison.relation]]
    said += [words.gone(one) for one in comparison.gone]
    if comparison.conflicts:
        said.append(say("To be decided: {len}.", len=len(comparison.conflicts)))
    return Section(say("The copy that is here"), tuple(said), grave=bool(comparison.conflicts))


class Words:
    """Conflicts between two copies in words."""

    def __init__(self, library: Library) -> None:
        self._library = library

    def title(self, conflict: Conflict) -> str:
        """Return what a conflict is about."""
        kind, key = conflict.kind, conflict.key
        titles = {
            "state": say("The state of the plant"),
            "people": say("Who is on the job"),
            "conclusion": say("How the case ended"),
            "title": say("The title of the job"),
            "unproved": say("The remedy that waits for its proof"),
        }
        if kind == "reading":
            return self._point(key)
        if kind == "answer":
            return self._question(key)
        return titles.get(kind) or say("The proof of: {remedy}", remedy=self._remedy(key))

    def value(self, conflict: Conflict, side: Side) -> str:
        """Return what one copy has."""
        value, kind = side.value, conflict.kind
        if isinstance(value, PlantState):
            other = conflict.theirs.value if side is conflict.mine else conflict.mine.value
            return "; ".join(
                f"{PLANT[name].title}: {PLANT[name].values[getattr(value, name)]}"
                for name in STATE_FIELDS
                if getattr(value, name) != getattr(other, name)
            )
        if kind == "people":
            return ", ".join(PEOPLE[one][0] for one in value)
        if kind == "conclusion":
            return _ending(value)
        if kind == "unproved":
            return say("None waits") if value is None else self._remedy(value)
        if kind == "tried":
            held = say("It held") if value[1] else say("It did not hold")
            return f"{held}. {value[2]}" if value[2] else held
        if value is None:
            return say("Taken back") if kind in ("reading", "answer") else say("None")
        if kind == "reading":
            return self._reading(conflict.key, value)
        return self._answer(conflict.key, value) if kind == "answer" else str(value)

    def said(self, conflict: Conflict, side: Side) -> str:
        """Return one side of a conflict as a clause, for the note that keeps it."""
        stamp = side.at.strftime("%Y-%m-%d %H:%M UTC") if side.at else "before"
        return (
            f"{self.title(conflict)}: {self.value(conflict, side)} ({', '.join(filter(None, (side.by, stamp)))})"
        )

    def gone(self, one: Gone) -> str:
        """Return what one copy took back and the other still had."""
        if one.kind == "note":
            what = say("the note '{value}'", value=one.value)
        elif one.kind == "reading":
            what = say(
                "the reading {point}: {reading}",
                point=self._point(one.key),
                reading=self._reading(one.key, one.value),
            )
        else:
            what = say(
                "the answer {question} {answer}",
                question=self._question(one.key),
                answer=self._answer(one.key, one.value),
            )
        return say("Taken back at {what}: {what_2}", what=one.taken_back.by or say("one station"), what_2=what)

    def _point(self, id: str) -> str:
        point = self._library.points.get(id)
        return point.title if point else id.replace("_", " ")

    def _reading(self, id: str, reading: Reading) -> str:
        if isinstance(reading, Measured):
            return reading.text
        point = self._library.points.get(id)
        titles = {choice.id: choice.title for choice in point.choices} if point else {}
        return titles.get(reading, reading)

    def _question(self, id: str) -> str:
        question = self._library.questions.get(id)
        return question.ask.tech if question else id.replace("_", " ")

    def _answer(self, id: str, outcome: str) -> str:
        question = self._library.questions.get(id)
        titles = {one.id: one.title for one in question.outcomes} if question else {}
        return titles.get(outcome) or NON_ANSWER_WORDS.get(outcome, outcome)

    def _remedy(self, cause: str) -> str:
        found = self._library.causes.get(cause)
        return found.remedy.title if found else cause.replace("_", " ")


def _ending(conclusion: Conclusion | None) -> str:
    if conclusion is None:
        return say("Not closed")
    title, _ = OUTCOMES[conclusion.outcome]
    return f"{title}. {conclusion.note}" if conclusion.note else title

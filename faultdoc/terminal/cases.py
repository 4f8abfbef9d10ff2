"""The cases of the case book in the terminal: a list of those wanted, and one in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Any

from faultdoc.library.load import Library
from faultdoc.record.casebook import CaseBook, Summary
from faultdoc.record.session import Entry
from faultdoc.record.words import NON_ANSWER_WORDS, OUTCOMES, PEOPLE
from faultdoc.terminal import text as page

__all__ = ["case_data", "case_text", "list_text", "summary_data"]

_MOVES = {"do": "", "undo": "Taken back: ", "redo": "Done again: "}


def list_text(found: Sequence[Summary], limit: int) -> str:
    """Return the cases found, two or three lines each, the one worked on last first."""
    if not found:
        return "No case is like that."
    lines = []
    for one in found:
        state = "closed" if one.closed else "open"
        lines.append(page.paragraph(f"{one.title} ({state})", f"{one.id:>5}  ", " " * 7))
        told = f"{one.unit}, {', '.join(_plain(symptom) for symptom in one.symptoms)}; {_time(one.updated)}"
        lines.append(page.paragraph(told, " " * 7))
        if one.outcome or one.cause:
            outcome = OUTCOMES[one.case.conclusion.outcome][0] if one.case.conclusion else "Proved"
            lines.append(
                page.paragraph(": ".join([outcome, *([_plain(one.cause)] if one.cause else [])]), " " * 7)
            )
        elif one.last:
            lines.append(page.paragraph(f"last: {one.last}", " " * 7))
    if len(found) == limit:
        lines.append(f"There may be more than these {limit}: narrow the search, or raise --limit.")
    return "\n".join(lines)


def case_text(book: CaseBook, summary: Summary, library: Library, people: bool) -> str:
    """Return one case in words: what it is, what was read and answered, how it ended, and its journal.

    Args:
        book: the case book.
        summary: of the case.
        library: for the titles of points, questions and causes.
        people: whether names and numbers are shown.

    Raises:
        CaseBookError: when the case book cannot be read.
    """
    return "\n".join(_lines(book, summary, library, people))


def _lines(book: CaseBook, summary: Summary, library: Library, people: bool) -> Iterator[str]:
    case = summary.case

    def cause(id: str) -> str:
        return library.causes[id].title if id in library.causes else _plain(id)

    yield page.paragraph(summary.title, f"Case {summary.id}: ")
    yield f"  {summary.uid}"
    trees = [library.trees[id].title if id in library.trees else _plain(id) for id in case.symptoms]
    yield page.paragraph(f"{case.unit}: {'; '.join(trees)}", "  ")
    yield page.paragraph(f"Begun {_time(summary.opened)}, last move {_time(summary.updated)}", "  ")
    yield page.paragraph(", ".join(PEOPLE[one][0] for one in case.who), "  On the job: ", "    ")
    if case.conclusion is not None:
        title, _ = OUTCOMES[case.conclusion.outcome]
        yield page.paragraph(
            ": ".join([title, *([cause(case.conclusion.cause)] if case.conclusion.cause else [])]), "  "
        )
        for told in (case.conclusion.proof, case.conclusion.note):
            if told:
                yield page.paragraph(told, "    ")
    for one in case.tried:
        yield page.paragraph(
            f"{cause(one.cause)}: {'the proof held' if one.proved else 'no'}", "  Tried: ", "    "
        )
    for id, reading in case.readings.items():
        title = library.points[id].title if id in library.points else _plain(id)
        yield page.paragraph(f"{title}: {reading if isinstance(reading, str) else reading.text}", "  ", "    ")
    for id, answer in case.answers.items():
        question = library.questions.get(id)
        title = question.ask.tech if question else _plain(id)
        outcomes = {one.id: one.title for one in question.outcomes} if question else {}
        said = outcomes.get(answer) or NON_ANSWER_WORDS.get(answer) or _plain(answer)
        yield page.paragraph(f"{title} {said}", "  ", "    ")
    for note in case.notes:
        yield page.paragraph(note, "  Note: ", "    ")
    contacts, attachments = book.contacts(summary.id), book.attachments(summary.id)
    if contacts and not people:
        yield f"  {len(contacts)} contact{'s' * (len(contacts) != 1)}: shown with --people"
    for contact in contacts if people else ():
        told = ", ".join(part for part in (contact.name, contact.phone, contact.note) if part)
        yield page.paragraph(told, f"  {contact.role.capitalize()}: ", "    ")
    for file in attachments:
        yield page.paragraph(f"{file.name} ({file.media_type}, {file.size / 1024:.0f} kB)", "  Attached: ", "    ")
    entries = book.load(summary.id)[1]
    if entries:
        yield "Journal:"
    for number, entry in enumerate(entries, start=1):
        yield page.paragraph(f"{_time(entry.at)} {entry.by}: {_MOVES[entry.move]}{entry.what}", f"  {number:>3}. ")


def summary_data(one: Summary) -> dict[str, Any]:
    """Return a case of a list as data."""
    return {
        "id": one.id,
        "uid": one.uid,
        "title": one.title,
        "unit": one.unit,
        "symptoms": list(one.symptoms),
        "opened": one.opened.isoformat(),
        "updated": one.updated.isoformat(),
        "open": not one.closed,
        "outcome": one.outcome,
        "cause": one.cause,
        "entries": one.entries,
        "last": one.last,
    }


def case_data(book: CaseBook, summary: Summary, people: bool) -> dict[str, Any]:
    """Return one case as data; names and numbers only where they are wished for.

    Raises:
        CaseBookError: when the case book cannot be read.
    """
    start, entries = book.load(summary.id)
    data = summary_data(summary) | {
        "start": start.model_dump(mode="json"),
        "case": summary.case.model_dump(mode="json"),
        "journal": [_entry_data(entry) for entry in entries],
        "attachments": [
            {"id": one.id, "name": one.name, "media_type": one.media_type, "size": one.size, "sha256": one.sha256}
            for one in book.attachments(summary.id)
        ],
    }
    if people:
        data["contacts"] = [one.model_dump() for one in book.contacts(summary.id)]
    return data


def _entry_data(entry: Entry) -> dict[str, Any]:
    return {
        "at": entry.at.isoformat() if entry.at else None,
        "by": entry.by,
        "move": entry.move,
        "what": entry.what,
    }


def _plain(id: str) -> str:
    return id.replace("_", " ")


def _time(at: datetime | None) -> str:
    """Return a time as the clock here shows it."""
    return f"{at.astimezone():%Y-%m-%d %H:%M}" if at else ""

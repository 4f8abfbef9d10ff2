"""What a list of cases shows and is searched by: kept beside the journal, in the same transaction."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Any

from sqlalchemy import Connection, Row, Select, and_, delete, insert, not_, or_, select, update

from faultdoc.model.case import Case
from faultdoc.record.casebook.rows import case_from, entries_of, storable
from faultdoc.record.casebook.searchwords import found_by, more_words
from faultdoc.record.casebook.tables import aware, cases, closed, journal, naive, summaries
from faultdoc.record.session import Entry

__all__ = ["Summary", "Wanted", "find", "follow", "one", "rebuild"]


@dataclass(frozen=True)
class Summary:
    """A case as a list shows it.

    Attributes:
        id: in this case book.
        uid: the same in every copy of the case on any machine.
        title: the case's own, or the unit and first symptom where it has none.
        unit, symptoms: as in the case.
        opened, updated: UTC; when it was begun, and when its last move was made.
        closed: whether it was closed.
        outcome, cause: how it was concluded; the cause of a proved remedy where it was not. None: not known.
        entries: how many moves are in the journal.
        last: the last move in words, '' when there was none.
        case: as it is now.
    """

    id: int
    uid: str
    title: str
    unit: str
    symptoms: tuple[str, ...]
    opened: datetime
    updated: datetime
    closed: bool
    outcome: str | None
    cause: str | None
    entries: int
    last: str
    case: Case


@dataclass(frozen=True)
class Wanted:
    """Which cases are looked for: those for which all that is given holds.

    Attributes:
        text: words, each of which begins a word of title, notes, remarks, journal, unit, symptoms or cause.
        unit, symptom, cause, outcome: ids.
        open: True for cases not closed, False for closed ones.
        since, until: worked on at or after, begun at or before; a date is the whole day here, a time has its zone.
        limit: most that are given; None for all.
    """

    text: str = ""
    unit: str | None = None
    symptom: str | None = None
    cause: str | None = None
    outcome: str | None = None
    open: bool | None = None
    since: date | datetime | None = None
    until: date | datetime | None = None
    limit: int | None = 200


def follow(connection: Connection, case_id: int, entries: Sequence[Entry], words: str, known: int) -> None:
    """Bring a summary to the entries that were just added.

    Args:
        connection: in the transaction that added them.
        case_id: whose.
        entries: those added, at least one.
        words: the summary's words before.
        known: how many entries there were before.
    """
    last = entries[-1]
    values = _values(last.case, last, known + len(entries))
    found = more_words(words, (text for entry in entries for text in _texts(entry.case, entry.what)))
    if found != words:  # else the index need not be touched
        values["words"] = found
    connection.execute(update(summaries).where(summaries.c.case_id == case_id).values(values))


def rebuild(connection: Connection, case_id: int) -> None:
    """Make a case's summary anew from the case and its journal.

    Raises:
        CaseBookError: when the case cannot be understood.
    """
    row = connection.execute(select(cases.c.at, cases.c.start).where(cases.c.id == case_id)).one()
    start = case_from(row.start, case_id)
    entries = entries_of(connection, case_id)
    at = aware(row.at)
    last = entries[-1] if entries else Entry("do", "", start, at)
    texts = [*_texts(start), *(text for entry in entries for text in _texts(entry.case, entry.what))]
    values = _values(last.case, last, len(entries)) | {"words": more_words("", texts)}
    connection.execute(delete(summaries).where(summaries.c.case_id == case_id))
    connection.execute(insert(summaries).values(case_id=case_id, **values))


def _values(case: Case, last: Entry, entries: int) -> dict[str, Any]:
    return {
        "title": storable(case.title or f"{case.unit}: {case.symptoms[0].replace('_', ' ')}"),
        "unit": storable(case.unit),
        "symptoms": f" {' '.join(case.symptoms)} ",
        "updated": naive(last.at),
        "outcome": case.conclusion.outcome if case.conclusion else None,
        "cause": _cause(case),
        "entries": entries,
        "last": storable(last.what),
    }


def _cause(case: Case) -> str | None:
    if case.conclusion and case.conclusion.cause:
        return case.conclusion.cause
    return next((one.cause for one in reversed(case.tried) if one.proved), None)


def _texts(case: Case, what: str = "") -> Iterator[str]:
    """Yield the words of a case, and of a move, that it is found by."""
    yield from (what, case.title or "", case.unit, *case.symptoms, _cause(case) or "", *case.notes)
    yield from (one.note or "" for one in case.tried)
    if case.conclusion:
        yield from (case.conclusion.proof or "", case.conclusion.note or "")


_OPEN = or_(closed.c.at.is_(None), and_(summaries.c.outcome.is_(None), summaries.c.updated > closed.c.at))
"""A case that was closed is open again once it goes on without a conclusion: handed back, for example."""


def find(connection: Connection, wanted: Wanted) -> tuple[Summary, ...]:
    """Return the cases wanted, the one worked on last first.

    Raises:
        CaseBookError: when a case cannot be understood.
    """
    return tuple(_summary(row) for row in connection.execute(_query(connection, wanted)).all())


def one(connection: Connection, case_id: int) -> Summary:
    """Return the summary of a case that is there.

    Raises:
        CaseBookError: when the case cannot be understood.
    """
    query = _query(connection, Wanted()).where(summaries.c.case_id == case_id)
    return _summary(connection.execute(query).one())


def _query(connection: Connection, wanted: Wanted) -> Select[Any]:
    query = (
        select(
            summaries,
            cases.c.uid,
            cases.c.at,
            cases.c.start,
            _OPEN.label("open"),
            journal.c.case.label("now"),
        )
        .join(cases, cases.c.id == summaries.c.case_id)
        .outerjoin(closed, closed.c.case_id == summaries.c.case_id)
        .outerjoin(journal, (journal.c.case_id == summaries.c.case_id) & (journal.c.seq == summaries.c.entries))
        .order_by(summaries.c.updated.desc(), summaries.c.case_id.desc())
        .limit(wanted.limit)
    )
    for column in ("unit", "cause", "outcome"):
        if (value := getattr(wanted, column)) is not None:
            query = query.where(summaries.c[column] == value)
    if wanted.symptom is not None:
        query = query.where(summaries.c.symptoms.contains(f" {wanted.symptom} ", autoescape=True))
    if wanted.open is not None:
        query = query.where(_OPEN if wanted.open else not_(_OPEN))
    if wanted.since is not None:
        query = query.where(summaries.c.updated >= _moment(wanted.since))
    if wanted.until is not None:
        day = not isinstance(wanted.until, datetime)
        last = wanted.until + timedelta(days=1) if day else wanted.until
        query = query.where(cases.c.at < _moment(last) if day else cases.c.at <= _moment(last))
    if (condition := found_by(wanted.text, connection.dialect)) is not None:
        query = query.where(condition)
    return query


def _moment(when: date | datetime) -> datetime:
    """Return a time, or the beginning of a day here, as the tables keep it."""
    return naive(when if isinstance(when, datetime) else datetime.combine(when, time.min).astimezone())


def _summary(row: Row[Any]) -> Summary:
    case = case_from(row.now or row.start, row.case_id)
    return Summary(
        id=row.case_id,
        uid=row.uid,
        title=row.title,
        unit=row.unit,
        symptoms=case.symptoms,
        opened=aware(row.at),
        updated=aware(row.updated),
        closed=not row.open,
        outcome=row.outcome,
        cause=row.cause,
        entries=row.entries,
        last=row.last,
        case=case,
    )

"""What a hand-over holds. Its file is YAML with these keys; a QR code holds the same with less in it."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Annotated, Final, Literal

from pydantic import AfterValidator, Field

from faultdoc.model.base import Id, Model, Probability, Text
from faultdoc.model.case import Case
from faultdoc.model.safety import Caution
from faultdoc.model.unit import DataSheet
from faultdoc.plain import plain
from faultdoc.quantities import Kind
from faultdoc.record.casebook.contacts import Contact
from faultdoc.record.handover.change import Change, applied, difference
from faultdoc.record.handover.prints import Prints
from faultdoc.record.session import Entry

__all__ = [
    "FORMAT",
    "About",
    "Attached",
    "HandOver",
    "Line",
    "PointWords",
    "QuestionWords",
    "Sent",
    "Words",
    "entries_of",
    "lines_of",
]

FORMAT: Final = "faultdoc hand-over 1"


def _aware(at: datetime) -> datetime:
    if at.tzinfo is None:
        raise ValueError("a time needs its time zone, such as 2026-01-31T14:05:00Z")
    return at.astimezone(UTC)


Moment = Annotated[datetime, Field(strict=False), AfterValidator(_aware)]
_Short = Annotated[str, Field(max_length=200), AfterValidator(plain)]


class Sent(Model):
    """When and from where the hand-over was made; `by` is the label of a machine, never a person's name."""

    at: Moment
    by: _Short
    faultdoc: _Short


class About(Model):
    """The case in words, for whoever reads the file without FaultDoc; as it stood when it was sent."""

    unit: Text
    seen: tuple[Text, ...] = Field(strict=False)
    plant: tuple[Text, ...] = Field(strict=False)
    dangers: tuple[Caution, ...] = Field(default=(), strict=False)
    proved: tuple[Text, ...] = Field(default=(), strict=False)
    likely: tuple[Text, ...] = Field(default=(), strict=False)
    next: Text


class Line(Model):
    """One line of the journal: what was done, when, at which station, and what it changed."""

    at: Moment | None = None
    by: _Short = ""
    move: Literal["do", "undo", "redo"] = "do"
    what: Annotated[str, AfterValidator(plain)]
    after: Change = Change()


class PointWords(Model):
    """A measuring point that was read: its kind, by which its readings are understood, and its name."""

    kind: Annotated[Kind, Field(strict=False)]
    title: Text | None = None
    choices: dict[Id, Text] = Field(default_factory=dict)


class QuestionWords(Model):
    """A question that was answered, in words, and those of the answers given."""

    ask: Text
    answers: dict[Id, Text] = Field(default_factory=dict)


class Words(Model):
    """What the ids in the case mean, so that nothing is lost where they are no longer known."""

    symptoms: dict[Id, Text] = Field(default_factory=dict)
    questions: dict[Id, QuestionWords] = Field(default_factory=dict)
    causes: dict[Id, Text] = Field(default_factory=dict)


class Attached(Model):
    """A photo or another file of the case; `data` is its content in base64, on one line or many."""

    name: Annotated[str, Field(min_length=1, max_length=200), AfterValidator(plain)]
    media_type: _Short
    at: Moment | None = None
    size: Annotated[int, Field(ge=0)]
    sha256: Annotated[str, Field(pattern="^[0-9a-f]{64}$")]
    data: str


class HandOver(Model):
    """A case on its way: everything that was read, answered and done, and what it was assessed with."""

    format: Literal["faultdoc hand-over 1"]
    about: About | None = None
    sent: Sent
    uid: Annotated[str, Field(pattern="^[0-9a-f]{32}$")]
    """The same in every copy of the case on any machine."""
    people: tuple[Contact, ...] = Field(default=(), strict=False)
    """Names and telephone numbers, which travel only when asked for."""
    start: Case
    """The case as it was entered; its unit by the id of the data sheet."""
    journal: tuple[Line, ...] = Field(default=(), strict=False)
    belief: dict[Id, Probability] = Field(default_factory=dict)
    """P(cause) as it stood, likeliest first."""
    points: dict[Id, PointWords] = Field(default_factory=dict)
    words: Words = Words()
    prints: Prints
    sheet: DataSheet | None = None
    attachments: tuple[Attached, ...] = Field(default=(), strict=False)

    @property
    def case(self) -> Case:
        """The case as it stood when it was sent."""
        entries = entries_of(self)
        return entries[-1].case if entries else self.start


class _Walk:
    """Goes along a journal as a session would, to know which case an entry would lead to by itself."""

    def __init__(self, start: Case) -> None:
        self.case = start
        self._done: list[Case] = []
        self._undone: list[Case] = []

    def expected(self, move: str) -> Case:
        """Return the case before a move, or the one that undo or redo go to."""
        if move == "undo" and self._done:
            return self._done[-1]
        if move == "redo" and self._undone:
            return self._undone[-1]
        return self.case

    def step(self, move: str, case: Case) -> None:
        """Take a move that led to a case."""
        if move == "do":
            self._done.append(self.case)
            self._undone.clear()
        elif move == "undo" and self._done:
            self._undone.append(self.case)
            self._done.pop()
        elif move == "redo" and self._undone:
            self._done.append(self.case)
            self._undone.pop()
        self.case = case


def lines_of(start: Case, entries: tuple[Entry, ...]) -> tuple[Line, ...]:
    """Return a journal as lines that say of each move what it changed."""
    walk = _Walk(start)
    lines = []
    for entry in entries:
        after = difference(walk.expected(entry.move), entry.case)
        lines.append(Line(at=entry.at, by=entry.by, move=entry.move, what=entry.what, after=after))
        walk.step(entry.move, entry.case)
    return tuple(lines)


def entries_of(hand_over: HandOver) -> tuple[Entry, ...]:
    """Return the journal of a hand-over with the case after every move."""
    walk = _Walk(hand_over.start)
    entries = []
    for line in hand_over.journal:
        case = applied(walk.expected(line.move), line.after)
        entries.append(Entry(line.move, line.what, case, line.at, line.by))
        walk.step(line.move, case)
    return tuple(entries)

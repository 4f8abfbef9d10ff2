"""A case being worked on: its assessment, its history, and a journal that loses nothing."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Literal, Protocol

from faultdoc.diagnosis.assess import Assessment, Bench, assess
from faultdoc.model.case import Case

__all__ = ["Entry", "Journal", "Session", "replay"]


@dataclass(frozen=True)
class Entry:
    """One line of the journal: what was done, and the case after it.

    Attributes:
        at: UTC, when it was done; None for one that is not kept yet.
        by: the station where it was done (`Settings.station`), never a person's name; '' when not known.
    """

    move: Literal["do", "undo", "redo"]
    what: str
    case: Case
    at: datetime | None = None
    by: str = ""


class Journal(Protocol):
    """Where entries are kept; `append` returns only when the entry is safe."""

    def append(self, entry: Entry) -> None:
        """Keep one entry."""


@dataclass
class Session:
    """A case with undo and redo; every move is in the journal before it shows.

    Attributes:
        bench: the unit and its symptoms; a case for another unit or symptom needs a new session.
        case: as it is now.
        journal: where moves are kept, if anywhere.
        by: the station that its entries are stamped with.
        done: (what, case before) of every move that can be undone, oldest first.
        undone: (what, case after) of every move that can be done again, last undone last.
    """

    bench: Bench
    case: Case
    journal: Journal | None = None
    by: str = ""
    done: list[tuple[str, Case]] = field(default_factory=list)
    undone: list[tuple[str, Case]] = field(default_factory=list)
    _assessment: Assessment | None = None

    @property
    def assessment(self) -> Assessment:
        """The look at the case as it is now."""
        if self._assessment is None or self._assessment.case is not self.case:
            self._assessment = assess(self.bench, self.case)
        return self._assessment

    def do(self, what: str, case: Case) -> None:
        """Take a move: `what` in words for the record, and the case after it."""
        self._keep("do", what, case)
        self.done.append((what, self.case))
        self.undone.clear()
        self.case = case

    def undo(self) -> str | None:
        """Go back one move; return what was undone, None when there is nothing to undo."""
        if not self.done:
            return None
        what, before = self.done[-1]
        self._keep("undo", what, before)
        self.done.pop()
        self.undone.append((what, self.case))
        self.case = before
        return what

    def redo(self) -> str | None:
        """Do the last undone move again; return what it was, None when there is none."""
        if not self.undone:
            return None
        what, after = self.undone[-1]
        self._keep("redo", what, after)
        self.undone.pop()
        self.done.append((what, self.case))
        self.case = after
        return what

    def _keep(self, move: Literal["do", "undo", "redo"], what: str, case: Case) -> None:
        if self.journal is not None:
            self.journal.append(Entry(move, what, case, datetime.now(UTC), self.by))


def replay(
    bench: Bench, start: Case, entries: list[Entry], journal: Journal | None = None, by: str = ""
) -> Session:
    """Return the session that these entries left behind, undo and redo included; it goes on at station `by`."""
    session = Session(bench, start, by=by)
    for entry in entries:
        if entry.move == "do":
            session.do(entry.what, entry.case)
        elif entry.move == "undo":
            session.undo()
        else:
            session.redo()
    session.journal = journal
    return session

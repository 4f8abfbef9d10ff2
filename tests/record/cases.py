"""A case book with closed cases on units of one's own, made by the same moves as people make."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from faultdoc.library.places import own_units_folder, resources_folder
from faultdoc.model.case import Case, Conclusion
from faultdoc.model.safety import TRIPPED, Qualification
from faultdoc.record import moves
from faultdoc.record.session import Entry

FIRST = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
TREE = "flow_proving_trip"


def own_unit(id: str) -> None:
    """Keep a unit among the person's own: the demo unit under another id."""
    folder = own_units_folder()
    folder.mkdir(parents=True, exist_ok=True)
    text = (resources_folder() / "units" / "bluff_30.yaml").read_text(encoding="utf-8")
    (folder / f"{id}.yaml").write_text(text.replace("id: bluff_30", f"id: {id}", 1), encoding="utf-8")


@dataclass
class Story:
    """One case, told move by move; minutes pass between moves."""

    unit: str
    symptoms: tuple[str, ...] = (TREE,)
    title: str = "A case"
    at: datetime = FIRST
    by: str = "desk-0001"
    start: Case = field(init=False)
    case: Case = field(init=False)
    entries: list[Entry] = field(default_factory=list)

    def __post_init__(self):
        who = (Qualification.TECHNICIAN,)
        self.start = self.case = Case(
            title=self.title, unit=self.unit, symptoms=self.symptoms, state=TRIPPED, who=who
        )

    def do(self, what, case, minutes=5.0, by=None):
        self.at += timedelta(minutes=minutes)
        self.case = case
        self.entries.append(Entry("do", what, case, self.at, self.by if by is None else by))
        return self

    def undo(self):
        before = self.entries[-2].case if len(self.entries) > 1 else self.start
        self.case = before
        self.at += timedelta(minutes=1)
        self.entries.append(Entry("undo", self.entries[-1].what, before, self.at, self.by))
        return self

    def answer(self, question, outcome):
        return self.do(f"{question}: {outcome}", moves.answer(self.case, question, outcome))

    def read(self, point, value):
        return self.do(f"{point} read", moves.read(self.case, point, value))

    def fix(self, cause, held=True, between=None):
        self.do(f"Remedy of {cause}", moves.repaired(self.case, cause), 25.0)
        if between is not None:
            between(self)
        return self.do(f"Proof of {cause}", moves.proved(self.case, held), 8.0)

    def conclude(self, outcome="fixed", cause=None):
        last = self.case.tried[-1].cause if self.case.tried and self.case.tried[-1].proved else None
        conclusion = Conclusion(outcome=outcome, cause=cause or (last if outcome == "fixed" else None))
        return self.do("Case closed", moves.conclude(self.case, conclusion))

    def record(self, uid=0, closed=True):
        from faultdoc.record.closedcases import Record

        at = self.at if closed else None
        return Record(f"{uid:032x}", self.title, at, self.case, self.start, self.entries)

    def keep(self, book, closed=True):
        """Put it into a case book; return its id."""
        id = book.start(self.start)
        book.add_all(id, self.entries)
        if closed:
            book.close(id)
        return id

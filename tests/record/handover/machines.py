"""Two machines with a case book and fault trees each, between which hand-overs go."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

from faultdoc.diagnosis.assess import assess, bench_for
from faultdoc.library.load import load_library, load_unit
from faultdoc.model.case import Case
from faultdoc.record.casebook import CaseBook
from faultdoc.record.handover.file import hand_over_text, understand
from faultdoc.record.handover.opening import opened, put_into
from faultdoc.record.handover.packing import packed
from faultdoc.record.handover.told import Words, statement
from faultdoc.record.session import Session, replay

TREE = Path(__file__).parents[1] / "valves.yaml"
STATE = {
    "supply": "energised",
    "panel": "closed",
    "pump": "stopped",
    "water": "pressurised",
    "compressors": "stopped",
    "oil": "warm",
}


class Machine:
    """A station: its folder, its trees, its case book and a clock that goes on with every look at it."""

    def __init__(self, folder: Path, station: str, monkeypatch, changes=(), minute=0):
        self.home, self.station, self.monkeypatch = folder / station, station, monkeypatch
        self.at_home()
        self.home.mkdir(parents=True)
        text = TREE.read_text(encoding="utf-8")
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        tree = self.home / "valves.yaml"
        tree.write_text(text, encoding="utf-8")
        self.library = load_library(tree)
        self.book = CaseBook.open(self.home / "cases.sqlite")
        self.now = datetime(2026, 7, 1, 12, minute, tzinfo=UTC)
        self.case_id = None

    def at_home(self):
        self.monkeypatch.setenv("FAULTDOC_HOME", str(self.home))

    def clock(self):
        self.now += timedelta(minutes=1)
        return self.now

    def bench(self, unit):
        self.at_home()
        return bench_for(self.library, load_unit(unit), ("valves",))

    def begin(self, unit="bluff_30", **more):
        case = Case.model_validate(
            {"unit": unit, "symptoms": ["valves"], "who": ["technician"], "state": STATE, **more}
        )
        self.case_id = self.book.start(case)
        return self

    def session(self) -> Session:
        start, entries = self.book.load(self.case_id)
        return replay(self.bench(start.unit), start, entries, self.book.journal(self.case_id), self.station)

    @property
    def case(self):
        start, entries = self.book.load(self.case_id)
        return entries[-1].case if entries else start

    def do(self, move, *args, what="A move"):
        from dataclasses import replace

        session = self.session()
        journal = session.journal
        stamp = self.clock()

        class Stamped:
            def append(self, entry):
                journal.append(replace(entry, at=stamp))

        session.journal = Stamped()
        session.do(what, move(session.case, *args))
        return self

    def send(self, named=False, attachments=()):
        start, entries = self.book.load(self.case_id)
        session = self.session()
        return packed(
            assess(session.bench, session.case),
            start,
            entries,
            uid=self.book.uid(self.case_id),
            at=self.clock(),
            by=self.station,
            people=self.book.contacts(self.case_id),
            named=named,
            attachments=attachments,
        )

    def look(self, hand_over, text=None):
        self.at_home()
        return opened(understand(text or hand_over_text(hand_over), "x"), self.library, self.book)

    def take(self, hand_over, **choices):
        opening = self.look(hand_over)
        named = {id.replace("__", ":"): choice for id, choice in choices.items()}
        say = Words(self.library).said
        taken = put_into(self.book, opening, named, at=self.clock(), by=self.station, say=say)
        self.case_id = taken.case_id
        return taken

    def told(self, hand_over, text=None):
        sections = statement(self.look(hand_over, text), self.now)
        return {section.title: "\n".join(section.lines) for section in sections}

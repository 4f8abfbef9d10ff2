"""What a closed case tells of rates and rows: the causes proved in it, and the answers while they were there.

A case counts when it is closed, has a remedy whose proof held, and is about a unit of the person's own: FaultDoc's
demo units are invented, and so are cases on them. Practice never reaches the case book.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path

from faultdoc.checks.all import split_readings
from faultdoc.diagnosis.assess import Bench, bench_for, choice_point, outcomes_of
from faultdoc.diagnosis.belief import believe
from faultdoc.library.load import Library, load_unit, shipped_units
from faultdoc.library.places import data_folder
from faultdoc.library.problems import FileProblems
from faultdoc.model.case import Case
from faultdoc.model.tree import NON_ANSWERS
from faultdoc.model.unit import DataSheet
from faultdoc.record.session import Entry
from faultdoc.words import say

__all__ = [
    "ONE_STORY",
    "Answered",
    "LeftOut",
    "Measured",
    "Record",
    "Told",
    "demo_unit",
    "standing",
    "tell",
    "tell_all",
]

ONE_STORY = timedelta(days=30)
"""Within this time the same cause on the same unit again is one story: most likely the same part failed again
because the fix did not last. An estimate; most terms of warranty on a repair are of this order or longer."""

DEFAULT = "default"


@dataclass(frozen=True)
class Record:
    """A case out of the case book: `case` as it is now, `start` and `entries` where its journal is known."""

    uid: str
    title: str
    closed: datetime | None
    case: Case
    start: Case | None = None
    entries: Sequence[Entry] = ()


@dataclass(frozen=True)
class Answered:
    """An outcome of a choice question, and the cause in whose row it counts."""

    question: str
    row: str
    outcome: str


@dataclass(frozen=True)
class Measured:
    """A check's residual, the cause in whose row it counts, and the meters' standard deviation."""

    question: str
    row: str
    residual: float
    meter: float


@dataclass(frozen=True)
class Told:
    """What a case tells.

    Attributes:
        uid: of the case.
        title: of the case.
        unit: id of the unit.
        closed: when.
        causes: those proved, in the order of their proofs.
        expected: how often each cause in play was expected in it, by the rates as they stand before any case.
        answers: those given while the causes were there.
        residuals: the same of readings.
    """

    uid: str
    title: str
    unit: str
    closed: datetime
    causes: tuple[str, ...]
    expected: Mapping[str, float]
    answers: tuple[Answered, ...]
    residuals: tuple[Measured, ...]


@dataclass(frozen=True)
class LeftOut:
    """A case that does not count, and why, in words."""

    title: str
    reason: str


def demo_unit(unit: str) -> bool:
    """Return whether a case's unit is one of FaultDoc's own, which are invented.

    >>> demo_unit("bluff_30"), demo_unit("site_7")
    (True, False)
    """
    if unit in shipped_units():
        return True
    path = Path(unit)
    return path.suffix != "" and path.resolve().is_relative_to(data_folder() / "resources")


def standing(start: Case, entries: Iterable[Entry]) -> list[Case]:
    """Return the case after every move that still stands, oldest first: what was undone is left out.

    Args:
        start: before the first move.
        entries: the journal.
    """
    done, undone = [start], list[Case]()
    for entry in entries:
        if entry.move == "do":
            done.append(entry.case)
            undone.clear()
        elif entry.move == "undo" and len(done) > 1:
            undone.append(done.pop())
        elif entry.move == "redo" and undone:
            done.append(undone.pop())
    return done


def before_remedy(record: Record, place: int, proof_points: Iterable[str]) -> Case:
    """Return the case with what was known before a remedy was carried out: it was seen with the cause there.

    From the journal where there is one. Else from what the case says was known before the proof, less the
    points of the proof, which are most likely read again after the remedy.

    Args:
        record: the case.
        place: of the remedy among those tried.
        proof_points: of its proof.
    """
    case = record.case
    cause = case.tried[place].cause
    path = [] if record.start is None else standing(record.start, record.entries)
    for at in range(1, len(path)):
        if len(path[at].tried) > place and path[at].tried[place].cause == cause:
            back = at - 1
            while back > 0 and path[back].unproved == cause:
                back -= 1
            return path[back]
    known = set(case.tried[place].known) - set(proof_points)
    return case.model_copy(
        update={
            "answers": {id: said for id, said in case.answers.items() if id in known},
            "readings": {id: value for id, value in case.readings.items() if id in known},
        }
    )


class _Benches:
    """Benches with their causes' prior chances. Units with the same features share the problem of a symptom."""

    def __init__(self, library: Library) -> None:
        self.library = library
        self._sheets: dict[str, DataSheet] = {}
        self._posed: dict[tuple[object, ...], tuple[Bench, Mapping[str, float]]] = {}
        self._made: dict[tuple[str, tuple[str, ...]], Bench] = {}

    def get(self, case: Case) -> tuple[Bench, Mapping[str, float]]:
        """Return the bench of a case, and how often each cause is expected there."""
        if case.unit not in self._sheets:
            self._sheets[case.unit] = load_unit(case.unit)
        sheet = self._sheets[case.unit]
        kind = frozenset(sheet.features), case.symptoms
        if kind not in self._posed:
            first = bench_for(self.library, sheet, case.symptoms)
            sets = first.problem.sets
            marginal = believe(sets, []).marginal
            self._posed[kind] = first, {id: float(p) for id, p in zip(sets.causes, marginal, strict=True)}
        posed, chances = self._posed[kind]
        key = case.unit, case.symptoms
        if key not in self._made:
            self._made[key] = Bench(self.library, sheet, replace(posed.problem, sheet=sheet))
        return self._made[key], chances


def tell(record: Record, benches: Callable[[Case], tuple[Bench, Mapping[str, float]]]) -> Told | LeftOut:
    """Return what a case tells, or why it does not count.

    Args:
        record: the case.
        benches: gives the bench of a case, and the expected number of each cause.
    """
    case = record.case
    proved = [place for place, one in enumerate(case.tried) if one.proved]
    if record.closed is None or case.conclusion is None:
        return LeftOut(record.title, say("not closed"))
    if demo_unit(case.unit):
        return LeftOut(record.title, say("on a demo unit"))
    if not proved:
        return LeftOut(record.title, say("no cause was proved"))
    try:
        bench, expected = benches(case)
    except FileProblems:
        return LeftOut(record.title, say("the data sheet of '{unit}' is gone or cannot be read", unit=case.unit))
    except (KeyError, ValueError):
        return LeftOut(record.title, say("its symptom is in no tree for this unit"))
    causes = tuple(case.tried[place].cause for place in proved)
    if strange := [cause for cause in causes if cause not in bench.problem.causes]:
        return LeftOut(record.title, say("'{strange}' is no cause of its symptoms", strange=strange[0]))
    answers: list[Answered] = []
    residuals: list[Measured] = []
    known: set[str] = set()
    for turn, place in enumerate(proved):
        cause = bench.problem.causes[case.tried[place].cause]
        seen = before_remedy(record, place, cause.remedy.proof.points)
        # The causes proved later were there all the time; those proved before are gone.
        there = frozenset(causes[turn:])
        answers += _answers(bench, seen, there, known)
        residuals += _residuals(bench, seen, there, known)
        known = set(case.tried[place].known)
    found = tuple(dict.fromkeys(causes))
    # As many are expected as were proved: cases of a symptom tell which causes bring it, not how often it comes.
    share = len(found) / sum(expected.values())
    return Told(
        record.uid, record.title, case.unit, record.closed, found,
        {id: share * chance for id, chance in expected.items()}, tuple(answers), tuple(residuals),
    )  # fmt: skip


def _answers(bench: Bench, case: Case, there: frozenset[str], known: set[str]) -> Iterable[Answered]:
    for id, outcome in outcomes_of(bench, case).items():
        question = bench.problem.questions[id]
        point = choice_point(question, bench)
        spoken = case.answers.get(id, outcome)
        if spoken not in NON_ANSWERS and spoken != outcome:
            continue  # answered one way and read another: it cannot be told which was meant
        taken = point if point is not None and point in case.readings else id
        if taken in known or question.check is not None:
            continue
        if outcome not in {one.id for one in question.outcomes}:
            continue  # the tree has changed since
        if (row := _row(bench, id, there)) is not None:
            yield Answered(id, row, outcome)


def _residuals(bench: Bench, case: Case, there: frozenset[str], known: set[str]) -> Iterable[Measured]:
    numbers, _ = split_readings(case.readings)
    results = {result.id: result for result in bench.checks(numbers)}
    for id, question in bench.problem.questions.items():
        result = results.get(question.check or "")
        if result is None or known & set(result.points):
            continue
        if (row := _row(bench, id, there)) is not None:
            yield Measured(id, row, result.residual, result.residual_uncertainty)


def _row(bench: Bench, question: str, there: frozenset[str]) -> str | None:
    """Return in whose row an answer counts: the one cause that speaks, the default where none does.

    None where several speak at once, and where only another tree's row speaks.
    """
    speak = [cause for cause in there if cause in bench.problem.questions[question].given]
    if len(speak) > 1:
        return None
    row = speak[0] if speak else DEFAULT
    return row if row in bench.library.questions[question].given else None


def tell_all(
    records: Iterable[Record], library: Library
) -> tuple[tuple[Told, ...], tuple[Told, ...], tuple[LeftOut, ...]]:
    """Return what the cases tell, those among them that repeat another's story, and those that do not count.

    A case is a repeat when the same unit had the same cause proved within `ONE_STORY` before it; a chain of such
    cases is one story. It counts once, by its first.

    Args:
        records: the cases.
        library: without anything learned, as what was learned has these cases in it.
    """
    benches = _Benches(library)
    heard = [tell(record, benches.get) for record in records]
    left_out = tuple(one for one in heard if isinstance(one, LeftOut))
    told = sorted((one for one in heard if isinstance(one, Told)), key=lambda one: (one.closed, one.uid))
    last: dict[tuple[str, str], datetime] = {}
    fresh: list[Told] = []
    repeats: list[Told] = []
    for one in told:
        keys = [(one.unit, cause) for cause in one.causes]
        again = any(key in last and one.closed - last[key] <= ONE_STORY for key in keys)
        (repeats if again else fresh).append(one)
        last.update(dict.fromkeys(keys, one.closed))
    return tuple(fresh), tuple(repeats), left_out

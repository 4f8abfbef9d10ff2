"""The fleet by its case book: what is open, what comes back, which causes, and how long a fix takes.

Pure functions over the cases and their journals. Times of day and months are those of the place where it is asked.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise
from math import comb
from statistics import median

from faultdoc.model.case import Case
from faultdoc.model.safety import Qualification
from faultdoc.record.casebook import CaseBook, Summary, Wanted
from faultdoc.record.closedcases import standing
from faultdoc.record.conjugate import wilson
from faultdoc.record.session import Entry
from faultdoc.record.words import OUTCOMES

__all__ = [
    "AGAIN",
    "BINS",
    "MOST_CAUSES",
    "PAUSE",
    "Fix",
    "Fleet",
    "History",
    "Months",
    "OpenCase",
    "Share",
    "Spread",
    "UnitTrouble",
    "chosen",
    "fixes",
    "fleet_of",
    "histories",
    "spread_of",
    "waits_for_whom",
]

AGAIN = timedelta(days=90)
"""A fix has failed when the same cause is proved on the same unit again within this time. A younger fix
is not counted either way: it has not had the time to fail."""
PAUSE = timedelta(hours=2)
"""A longer gap between two moves is taken for a night or another call: it counts by the clock, not as work."""
BINS = (0, 15, 30, 60, 120, 240, 480, 1440)
"""Minutes at which the distribution is parted; the last bin is open."""
MOST_CAUSES = 6
"""Causes shown by name over time; the rest is 'other causes'."""
ALL = "all"
OTHER = "other"


@dataclass(frozen=True)
class History:
    """A case with its journal."""

    summary: Summary
    start: Case
    entries: tuple[Entry, ...]


@dataclass(frozen=True)
class OpenCase:
    """A case that is not closed.

    Attributes:
        id: in the case book.
        title, unit, symptoms: of the case.
        opened: UTC.
        age: since it was opened.
        idle: since its last move.
        last: the last move in words.
        by: the station where that was made, '' when not known.
        waits: who or what it waits for, in words.
    """

    id: int
    title: str
    unit: str
    symptoms: tuple[str, ...]
    opened: datetime
    age: timedelta
    idle: timedelta
    last: str
    by: str
    waits: str


@dataclass(frozen=True)
class Share:
    """So many of so many, with the 95 % confidence interval (Wilson 1927); nothing known of none."""

    count: int
    of: int

    @property
    def share(self) -> float | None:
        """The share itself, None of nothing."""
        return self.count / self.of if self.of else None

    @property
    def interval(self) -> tuple[float, float]:
        """The interval."""
        return wilson(self.count / self.of if self.of else 0.0, self.of)


@dataclass(frozen=True)
class UnitTrouble:
    """What comes back on a unit.

    Attributes:
        unit: id.
        cases: all cases.
        fixes: proved fixes.
        back: fixes at least `AGAIN` old after which the same cause was proved again within `AGAIN`.
        causes: those that came back, within any time, the most often first.
    """

    unit: str
    cases: int
    fixes: int
    back: Share
    causes: tuple[tuple[str, int], ...]


@dataclass(frozen=True)
class Months:
    """Proved causes by month: `counts[cause][month]`, the most frequent cause first and 'other' last."""

    months: tuple[str, ...]
    counts: dict[str, tuple[int, ...]]


@dataclass(frozen=True)
class Fix:
    """A case that was fixed: minutes from its opening to the proof that held, by the clock and at work."""

    symptoms: tuple[str, ...]
    clock: float
    work: float


@dataclass(frozen=True)
class Spread:
    """How some minutes scatter; the interval of the median is that of order statistics, at least 95 %.

    `low` and `high` are None where there are too few for one.
    """

    symptom: str
    count: int
    median: float
    low: float | None
    high: float | None
    quarter: float
    three_quarters: float
    work: float
    bins: tuple[int, ...]


@dataclass(frozen=True)
class Fleet:
    """All of it at one moment.

    Attributes:
        now: UTC.
        cases: how many there are.
        open: the one that waits longest first.
        units: the one with the most that came back first.
        months: causes over time.
        minutes: to the fix, of all symptoms first, then by symptom.
        first: closed cases fixed at the first go, of all symptoms first, then by symptom.
    """

    now: datetime
    cases: int
    open: tuple[OpenCase, ...]
    units: tuple[UnitTrouble, ...]
    months: Months
    minutes: tuple[Spread, ...]
    first: tuple[tuple[str, Share], ...]


def histories(book: CaseBook) -> list[History]:
    """Return all cases of a case book with their journals.

    Raises:
        CaseBookError: when the case book cannot be read.
    """
    found = []
    for summary in book.cases(Wanted(limit=None)):
        start, entries = book.load(summary.id)
        found.append(History(summary, start, tuple(entries)))
    return found


def chosen(
    found: Iterable[History],
    unit: str | None = None,
    symptom: str | None = None,
    since: date | None = None,
    until: date | None = None,
) -> list[History]:
    """Return the cases of a unit, a symptom, and opened within some days here (both ends included)."""

    def fits(one: History) -> bool:
        day = one.summary.opened.astimezone().date()
        return (
            (unit is None or one.summary.unit == unit)
            and (symptom is None or symptom in one.summary.symptoms)
            and (since is None or day >= since)
            and (until is None or day <= until)
        )

    return [one for one in found if fits(one)]


def fleet_of(found: Sequence[History], now: datetime) -> Fleet:
    """Return the fleet by its cases.

    Args:
        found: the cases.
        now: an aware time.
    """
    return Fleet(
        now=now,
        cases=len(found),
        open=tuple(
            sorted(
                (_open(one, now) for one in found if not one.summary.closed), key=lambda one: (-one.idle, one.id)
            )
        ),
        units=_units(found, now),
        months=_months(found),
        minutes=_by_symptom(fixes(found)),
        first=_first(found),
    )


# --- open cases ---


def _open(one: History, now: datetime) -> OpenCase:
    summary = one.summary
    return OpenCase(
        id=summary.id,
        title=summary.title,
        unit=summary.unit,
        symptoms=summary.symptoms,
        opened=summary.opened,
        age=now - summary.opened,
        idle=now - summary.updated,
        last=summary.last,
        by=one.entries[-1].by if one.entries else "",
        waits=waits_for_whom(summary.case),
    )


def waits_for_whom(case: Case) -> str:
    """Return who or what an open case waits for, in words."""
    if case.conclusion is not None:
        return f"{OUTCOMES[case.conclusion.outcome][0].lower()}, its tab still open"
    if case.unproved is not None:
        return "a proof to be taken"
    if case.tried and case.tried[-1].proved:
        return "the restart"
    if set(case.who) == {Qualification.CALLER}:
        return "a caller on the phone"
    return "people at the unit"


# --- what comes back ---


def _proved(one: History) -> list[str]:
    return [tried.cause for tried in one.summary.case.tried if tried.proved]


def _units(found: Iterable[History], now: datetime) -> tuple[UnitTrouble, ...]:
    by_unit: dict[str, list[History]] = defaultdict(list)
    for one in found:
        by_unit[one.summary.unit].append(one)
    made = [_unit(unit, cases, now) for unit, cases in by_unit.items()]
    return tuple(
        sorted(made, key=lambda one: (-one.back.count, -sum(n for _, n in one.causes), -one.cases, one.unit))
    )


def _unit(unit: str, cases: Sequence[History], now: datetime) -> UnitTrouble:
    times: dict[str, list[datetime]] = defaultdict(list)
    for one in cases:
        if one.summary.closed:
            for cause in _proved(one):
                times[cause].append(one.summary.updated)
    old, back = 0, 0
    again: Counter[str] = Counter()
    for cause, days in times.items():
        days.sort()
        for place, day in enumerate(days):
            after = days[place + 1] if place + 1 < len(days) else None
            again[cause] += after is not None
            if now - day >= AGAIN:
                old += 1
                back += after is not None and after - day <= AGAIN
    return UnitTrouble(
        unit=unit,
        cases=len(cases),
        fixes=sum(map(len, times.values())),
        back=Share(back, old),
        causes=tuple((cause, count) for cause, count in again.most_common() if count),
    )


# --- causes over time ---


def _months(found: Iterable[History]) -> Months:
    counts: Counter[tuple[str, int]] = Counter()
    for one in found:
        if one.summary.closed:
            day = one.summary.updated.astimezone()
            counts.update((cause, day.year * 12 + day.month - 1) for cause in _proved(one))
    if not counts:
        return Months((), {})
    numbers = [month for _, month in counts]
    span = range(min(numbers), max(numbers) + 1)
    totals: Counter[str] = Counter()
    for (cause, _), count in counts.items():
        totals[cause] += count
    ranked = sorted(totals, key=lambda cause: (-totals[cause], cause))
    named = ranked if len(ranked) <= MOST_CAUSES else ranked[: MOST_CAUSES - 1]
    made = {cause: tuple(counts[cause, month] for month in span) for cause in named}
    if rest := ranked[len(named) :]:
        made[OTHER] = tuple(sum(counts[cause, month] for cause in rest) for month in span)
    return Months(tuple(f"{month // 12}-{month % 12 + 1:02d}" for month in span), made)


# --- minutes to the fix ---


def fixes(found: Iterable[History]) -> list[Fix]:
    """Return the minutes of every case that was fixed and whose journal has its times."""
    made = []
    for one in found:
        case = one.summary.case
        if case.conclusion is None or case.conclusion.outcome != "fixed" or not case.tried:
            continue
        times = [one.summary.opened]
        for entry in one.entries:
            if entry.at is None:
                break
            times.append(entry.at)
            if len(entry.case.tried) == len(case.tried) and entry.case.tried[-1].proved:
                gaps = [after - before for before, after in pairwise(times)]
                work = sum((gap for gap in gaps if timedelta(0) < gap <= PAUSE), timedelta(0))
                made.append(Fix(case.symptoms, _minutes(times[-1] - times[0]), _minutes(work)))
                break
    return made


def _minutes(time: timedelta) -> float:
    return time.total_seconds() / 60.0


def _by_symptom(made: Sequence[Fix]) -> tuple[Spread, ...]:
    if not made:
        return ()
    by: dict[str, list[Fix]] = defaultdict(list)
    for one in made:
        for symptom in one.symptoms:
            by[symptom].append(one)
    parts = sorted(by.items(), key=lambda item: (-len(item[1]), item[0]))
    return tuple(spread_of(symptom, some) for symptom, some in [(ALL, list(made)), *parts])


def spread_of(symptom: str, some: Sequence[Fix]) -> Spread:
    """Return how the minutes of some fixes, at least one, scatter."""
    clock = sorted(one.clock for one in some)
    n = len(clock)
    # The interval of the median between order statistics: the count below it is binomial with 1/2 (Conover 1999).
    rank, below = 0, 0.0
    while rank < n // 2 and below + comb(n, rank) / 2**n <= 0.025:
        below += comb(n, rank) / 2**n
        rank += 1
    bins = [0] * len(BINS)
    for value in clock:
        bins[max(place for place, edge in enumerate(BINS) if value >= edge or place == 0)] += 1
    return Spread(
        symptom=symptom,
        count=n,
        median=median(clock),
        low=clock[rank - 1] if rank else None,
        high=clock[n - rank] if rank else None,
        quarter=_quantile(clock, 0.25),
        three_quarters=_quantile(clock, 0.75),
        work=median(one.work for one in some),
        bins=tuple(bins),
    )


def _quantile(ordered: Sequence[float], share: float) -> float:
    """Return a quantile of ordered values, between neighbours in proportion (Hyndman and Fan 1996, type 7)."""
    place = share * (len(ordered) - 1)
    low = int(place)
    high = min(low + 1, len(ordered) - 1)
    return ordered[low] + (place - low) * (ordered[high] - ordered[low])


# --- fixed at the first go ---


def _first(found: Iterable[History]) -> tuple[tuple[str, Share], ...]:
    ended = [one for one in found if one.summary.closed and one.summary.case.conclusion is not None]
    if not ended:
        return ()
    by: dict[str, list[bool]] = defaultdict(list)
    for one in ended:
        went = at_first_go(one)
        for symptom in (ALL, *one.summary.symptoms):
            by[symptom].append(went)
    parts = sorted(by.items(), key=lambda item: (item[0] != ALL, -len(item[1]), item[0]))
    return tuple((symptom, Share(sum(went), len(went))) for symptom, went in parts)


def at_first_go(one: History) -> bool:
    """Return whether a case was fixed by those who took it on: never ended otherwise before, and never passed on.

    Passed on is a case whose moves were made at more than one station. What was undone is left out.
    """
    path = standing(one.start, one.entries)
    endings = [case.conclusion.outcome for case in path if case.conclusion is not None]
    stations = {entry.by for entry in one.entries if entry.by}
    conclusion = one.summary.case.conclusion
    fixed = conclusion is not None and conclusion.outcome == "fixed"
    return fixed and set(endings) <= {"fixed"} and len(stations) <= 1

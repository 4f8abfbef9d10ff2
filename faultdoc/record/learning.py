"""What closed cases teach: rates of causes, outcome tables and residuals, with the authored values as prior.

Nothing here takes effect by itself: `propose` says what would change and how sure that is, `accepted` turns the
lines a person chose into the files that the library lays over the trees.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from statistics import median
from typing import TypeVar

from faultdoc.diagnosis.assess import assess, bench_for
from faultdoc.diagnosis.explain import likely_causes
from faultdoc.library.learned import laid_over
from faultdoc.library.load import Catalogue, Library, load_unit
from faultdoc.model.case import Case
from faultdoc.model.learned import (
    VERSION,
    CountedRate,
    CountedShift,
    CountedWeights,
    LearnedQuestion,
    LearnedRate,
    LearnedShift,
    LearnedTree,
    LearnedWeights,
)
from faultdoc.model.tree import Basis, Cause, Question, Shift, Weights
from faultdoc.record.closedcases import DEFAULT, LeftOut, Measured, Record, Told, tell_all
from faultdoc.record.conjugate import INTERVAL, Dirichlet, Gamma, NormalInverseGamma

__all__ = [
    "ANSWERS",
    "READINGS",
    "VISITS",
    "C",
    "Change",
    "Line",
    "Proposal",
    "Value",
    "accepted",
    "effect",
    "learned_rate",
    "learned_shift",
    "learned_weights",
    "library_with",
    "lines_of",
    "propose",
    "together",
]

VISITS: Mapping[Basis, float] = {
    Basis.ESTIMATE: 60.0,
    Basis.SIMULATED: 120.0,
    Basis.PUBLISHED: 240.0,
    Basis.FLEET: 240.0,
}
"""Visits of a symptom for which a rate counts, by its basis.

With 60, an estimate of a cause behind one visit in six is taken to be right within a factor 0.54 to 1.57 (90 %),
that of one behind one in fifty within 0.08 to 2.8: error factors given with expert estimates of failure rates run
from 3 to 10. Fewer would let three cases do harm where the author was right (`tests/record/test_learning.py`).
A published figure comes from counted cases, but of other units at other sites: four times as much.
"""

ANSWERS: Mapping[Basis, float] = {
    Basis.ESTIMATE: 10.0,
    Basis.SIMULATED: 20.0,
    Basis.PUBLISHED: 40.0,
    Basis.FLEET: 40.0,
}
"""Answers for which a row of outcomes counts. With 10 an author's '80 %' is taken to mean 57 to 96 % (90 %)."""

READINGS: Mapping[Basis, float] = {
    Basis.ESTIMATE: 5.0,
    Basis.SIMULATED: 10.0,
    Basis.PUBLISHED: 20.0,
    Basis.FLEET: 20.0,
}
"""Units for which a residual's shift and spread count: half as many as answers, as each reading tells more."""

MISREAD = 4.0
"""Standard deviations from where a residual belongs, beyond which it is taken as misread and left out."""
SURE = 0.99
"""Probability inside the interval that must not hold the value in force before a change is called more than noise:
wider than the one shown, as a hundred lines are looked at together."""
NOTHING = 1e-9
"""What rounding may do to a probability."""
ENOUGH = 3
"""Units from which their own median, not the authored shift, says where residuals belong."""
C = TypeVar("C", CountedRate, CountedWeights, CountedShift)
"""What a line counts."""


@dataclass(frozen=True)
class Value:
    """One number of a line: as authored, in force, and as the cases have it with its 90 % credible interval.

    `moved` tells whether the change is more than noise: what is in force lies outside the interval of `SURE`.
    """

    name: str
    authored: float
    before: float
    after: float
    low: float
    high: float
    moved: bool


@dataclass(frozen=True)
class Line:
    """One rate or row that the cases speak of.

    Attributes:
        id: `rate:CAUSE` or `row:QUESTION:CAUSE`.
        tree: id of the tree it stands in.
        question: id, None for a rate.
        cause: id, or 'default' for the row of a question that nothing moves.
        title: in words.
        basis: of the prior.
        values: a rate per 1,000 visits; or the outcomes' probabilities; or shift and spread.
        cases: how many are behind it.
        said: what was counted, in words.
        learned: what is written when it is accepted.
        kept: whether exactly this has been accepted already.
    """

    id: str
    tree: str
    question: str | None
    cause: str
    title: str
    basis: Basis
    values: tuple[Value, ...]
    cases: int
    said: str
    learned: LearnedRate | LearnedWeights | LearnedShift
    kept: bool

    @property
    def moved(self) -> bool:
        """Whether any of its values changed by more than noise."""
        return any(value.moved for value in self.values)


@dataclass(frozen=True)
class Proposal:
    """What the closed cases would change.

    Attributes:
        lines: rates first, tree by tree.
        told: the cases that count.
        repeats: cases that are the story of an earlier one going on, not counted again.
        left_out: cases that do not count, with the reason.
    """

    lines: tuple[Line, ...]
    told: tuple[Told, ...]
    repeats: tuple[Told, ...]
    left_out: tuple[LeftOut, ...]

    @cached_property
    def by_id(self) -> Mapping[str, Line]:
        """The lines by id."""
        return {line.id: line for line in self.lines}

    def wanted(self, ids: Iterable[str]) -> tuple[Line, ...]:
        """Return the lines named by their ids, or all those of a tree by the tree's.

        Raises:
            KeyError: with the first id that names neither.
        """
        found: dict[str, Line] = {}
        for id in ids:
            lines = [line for line in self.lines if id in (line.id, line.tree)]
            if not lines:
                raise KeyError(id)
            found.update({line.id: line for line in lines})
        return tuple(found.values())


# --- one line: prior and counts -> what is learned ---


def _rate_posterior(cause: Cause, counted: CountedRate) -> Gamma:
    """Return the cause's rate over the authored one: gamma with mean 1, and shape as expected in `VISITS`."""
    shape = VISITS[cause.basis] * counted.expected / counted.visits
    return Gamma(shape, shape).updated(counted.found, counted.expected)


def learned_rate(
    cause: Cause, own: CountedRate | None, elsewhere: CountedRate | None, on: date
) -> LearnedRate | None:
    """Return a cause's rate as counts have it, the authored one as prior; None where nothing was counted."""
    counted = together(own, elsewhere)
    if counted is None:
        return None
    after = _rate_posterior(cause, counted)
    low, high = after.interval()
    return LearnedRate(
        rate=_short(min(cause.rate * after.mean, 999.0)),
        low=_short(cause.rate * low),
        high=_short(cause.rate * high),
        own=own,
        elsewhere=elsewhere,
        on=on.isoformat(),
        basis="fleet",
    )


def _row_posterior(question: Question, row: Weights, counted: CountedWeights) -> Dirichlet:
    """Return the row as answers show it: with the question's slips, which are in the counts, mixed in."""
    ids = [outcome.id for outcome in question.outcomes]
    total = sum(row.p.values())
    slip = question.slip
    shown = [(1.0 - slip) * row.p.get(id, 0.0) / total + slip / len(ids) for id in ids]
    prior = Dirichlet(tuple(ANSWERS[row.basis] * p for p in shown))
    return prior.updated([counted.counts.get(id, 0) for id in ids])


def _without_slips(question: Question, shown: float) -> float:
    """Return the probability of an outcome without the slips; 0 where slips alone show it as often."""
    slip = question.slip
    return max(0.0, (shown - slip / len(question.outcomes)) / (1.0 - slip))


def learned_weights(
    question: Question, row: Weights, own: CountedWeights | None, elsewhere: CountedWeights | None, on: date
) -> LearnedWeights | None:
    """Return a row of outcomes as counts have it, the authored one as prior; None where nothing was counted."""
    counted = together(own, elsewhere)
    if counted is None:
        return None
    after = [_without_slips(question, mean) for mean in _row_posterior(question, row, counted).mean]
    total = sum(after)
    p = {outcome.id: round(one / total, 6) for outcome, one in zip(question.outcomes, after, strict=True)}
    return LearnedWeights(
        p={id: share for id, share in p.items() if share > 0.0},
        own=own,
        elsewhere=elsewhere,
        on=on.isoformat(),
        basis="fleet",
    )


def _shift_posterior(row: Shift, counted: CountedShift) -> NormalInverseGamma:
    """Return mean and variance of the residual as read, the meters' variance included."""
    prior = NormalInverseGamma.of(row.shift, row.spread**2 + counted.meters, READINGS[row.basis])
    return prior.updated(counted.units, counted.mean, counted.squares)


def _without_meters(row: Shift, variance: float, meters: float) -> float:
    """Return the spread that is left of a residual's variance without the meters': never below the row's own.

    Cases of one fleet share data sheets, meters and habits: that they agree is no proof of a sharper sign.
    """
    return float(max(variance - meters, row.spread**2) ** 0.5)


def learned_shift(
    row: Shift, own: CountedShift | None, elsewhere: CountedShift | None, on: date
) -> LearnedShift | None:
    """Return a residual's row as readings have it, the authored one as prior; None where there were none."""
    counted = together(own, elsewhere)
    if counted is None:
        return None
    after = _shift_posterior(row, counted)
    return LearnedShift(
        shift=_short(after.mean),
        spread=_short(_without_meters(row, after.variance, counted.meters)),
        own=own,
        elsewhere=elsewhere,
        on=on.isoformat(),
        basis="fleet",
    )


def together(own: C | None, elsewhere: C | None) -> C | None:
    """Return two counts of the same thing as one."""
    if own is None or elsewhere is None:
        return own or elsewhere
    return own.together(elsewhere)


def _short(value: float) -> float:
    return float(f"{value:.5g}")


# --- counting ---


@dataclass(frozen=True)
class _Tally:
    rates: Mapping[str, CountedRate]
    rows: Mapping[tuple[str, str], CountedWeights]
    shifts: Mapping[tuple[str, str], CountedShift]


def _tally(told: Iterable[Told], catalogue: Catalogue) -> _Tally:
    found: Counter[str] = Counter()
    visits: Counter[str] = Counter()
    expected: dict[str, float] = defaultdict(float)
    rows: dict[tuple[str, str], Counter[str]] = defaultdict(Counter)
    readings: dict[tuple[str, str], dict[str, Measured]] = defaultdict(dict)
    for one in told:
        found.update(one.causes)
        for cause, chance in one.expected.items():
            if chance > 0.0:
                visits[cause] += 1
                expected[cause] += chance
        for answer in one.answers:
            rows[answer.question, answer.row][answer.outcome] += 1
        for reading in one.residuals:
            # One a unit, the last: what is wrong in a unit's data sheet comes with each of its readings.
            readings[reading.question, reading.row][one.unit] = reading
    shifts = {}
    for key, by_unit in readings.items():
        row = catalogue.questions[key[0]].given[key[1]]
        assert isinstance(row, Shift)
        if (counted := _counted_shift(row, list(by_unit.values()))) is not None:
            shifts[key] = counted
    return _Tally(
        {
            cause: CountedRate(found=found[cause], expected=_short(expected[cause]), visits=count)
            for cause, count in visits.items()
        },
        {key: CountedWeights(counts=dict(counts)) for key, counts in rows.items()},
        shifts,
    )


def _counted_shift(row: Shift, readings: list[Measured]) -> CountedShift | None:
    centre = row.shift if len(readings) < ENOUGH else median(one.residual for one in readings)
    fit = [
        one for one in readings if abs(one.residual - centre) <= MISREAD * (row.spread**2 + one.meter**2) ** 0.5
    ]
    if not fit:
        return None
    mean = sum(one.residual for one in fit) / len(fit)
    return CountedShift(
        units=len(fit),
        mean=_short(mean),
        squares=_short(sum((one.residual - mean) ** 2 for one in fit)),
        meters=_short(sum(one.meter**2 for one in fit) / len(fit)),
    )


# --- the proposal ---


def propose(
    records: Iterable[Record],
    prior: Library,
    now: Library,
    kept: Mapping[str, LearnedTree],
    on: date,
) -> Proposal:
    """Return what closed cases would change.

    Always reckoned anew from the prior and all cases, so that no case ever counts twice. A line that came with
    a file of another machine keeps that machine's counts, and adds those of our cases that were not in them.

    Args:
        records: the cases of the case book.
        prior: the library without anything learned.
        now: the library as it is in force.
        kept: what was accepted before, by tree.
        on: today.
    """
    told, repeats, left_out = tell_all(records, prior)
    return Proposal(tuple(lines_of(told, prior, now, kept, on)), told, repeats, left_out)


def lines_of(
    told: Sequence[Told], prior: Library, now: Library, kept: Mapping[str, LearnedTree], on: date
) -> Iterator[Line]:
    """Yield the rates and rows that some cases speak of, tree by tree; arguments as of `propose`."""
    whole = _tally(told, prior.catalogue)
    for tree in prior.trees.values():
        old = kept.get(tree.id)
        others = set(old.other_cases) if old else set()
        rest = _tally([one for one in told if one.uid not in others], prior.catalogue) if others else whole
        yield from _rate_lines(tree.id, tree.causes, whole, rest, old, now, on)
        for question in tree.questions:
            for cause in question.given:
                line = _row_line(tree.id, question, cause, whole, rest, old, prior, now, on)
                if line is not None:
                    yield line


def _rate_lines(
    tree: str,
    causes: Iterable[Cause],
    whole: _Tally,
    rest: _Tally,
    old: LearnedTree | None,
    now: Library,
    on: date,
) -> Iterable[Line]:
    for cause in causes:
        before = old.rates.get(cause.id) if old else None
        elsewhere = before.elsewhere if before else None
        own = (rest if elsewhere else whole).rates.get(cause.id)
        learned = learned_rate(cause, own, elsewhere, on)
        counted = together(own, elsewhere)
        if learned is None or counted is None:
            continue
        in_force = now.causes[cause.id].rate
        moved = _outside(in_force / cause.rate, _rate_posterior(cause, counted).interval(SURE))
        value = Value("per 1,000 visits", cause.rate, in_force, learned.rate, learned.low, learned.high, moved)
        said = f"found {counted.found} times in {counted.visits} cases, expected {counted.expected:.1f} times"
        yield Line(
            f"rate:{cause.id}", tree, None, cause.id, cause.title, cause.basis, (value,), counted.visits, said,
            learned, _same(before, learned),
        )  # fmt: skip


def _row_line(
    tree: str, question: Question, cause: str, whole: _Tally, rest: _Tally, old: LearnedTree | None,
    prior: Library, now: Library, on: date,
) -> Line | None:  # fmt: skip
    row = question.given[cause]
    in_force = now.questions[question.id].given.get(cause, row)
    kept = old.questions.get(question.id) if old else None
    before = kept.given.get(cause) if kept else None
    key = question.id, cause
    learned: LearnedWeights | LearnedShift | None
    values: tuple[Value, ...]
    if isinstance(row, Weights):
        assert isinstance(in_force, Weights)
        assert before is None or isinstance(before, LearnedWeights)
        other = before.elsewhere if before else None
        own = (rest if other else whole).rows.get(key)
        learned = learned_weights(question, row, own, other, on)
        counted = together(own, other)
        if learned is None or counted is None:
            return None
        values = _weight_values(question, row, in_force, learned, _row_posterior(question, row, counted))
        titles = {outcome.id: outcome.title for outcome in question.outcomes}
        counts = ", ".join(f"{titles.get(id, id)} {count} times" for id, count in counted.counts.items())
        said = f"answered {counts}"
        cases = counted.cases
    else:
        assert isinstance(in_force, Shift)
        assert before is None or isinstance(before, LearnedShift)
        away = before.elsewhere if before else None
        here = (rest if away else whole).shifts.get(key)
        learned = learned_shift(row, here, away, on)
        read = together(here, away)
        if learned is None or read is None:
            return None
        values = _shift_values(row, in_force, learned, _shift_posterior(row, read), read.meters)
        said = f"read on {read.units} unit{'s' if read.units > 1 else ''}, {read.mean:.2f} on average"
        cases = read.cases
    when = "nothing that moves it is there" if cause == DEFAULT else prior.causes[cause].title
    return Line(
        f"row:{question.id}:{cause}", tree, question.id, cause, f"{question.ask.tech} With: {when}", row.basis,
        values, cases, said, learned, _same(before, learned),
    )  # fmt: skip


def _weight_values(
    question: Question, row: Weights, in_force: Weights, learned: LearnedWeights, after: Dirichlet
) -> tuple[Value, ...]:
    values = []
    for place, outcome in enumerate(question.outcomes):
        before = in_force.p.get(outcome.id, 0.0)
        values.append(
            Value(
                outcome.title, row.p.get(outcome.id, 0.0), before, learned.p.get(outcome.id, 0.0),
                *_interval(question, after, place, INTERVAL),
                _outside(before, _interval(question, after, place, SURE)),
            )
        )  # fmt: skip
    return tuple(values)


def _interval(question: Question, after: Dirichlet, place: int, inside: float) -> tuple[float, float]:
    low, high = after.interval(place, inside)
    return _without_slips(question, low), _without_slips(question, high)


def _shift_values(
    row: Shift, in_force: Shift, learned: LearnedShift, after: NormalInverseGamma, meters: float
) -> tuple[Value, ...]:
    def spreads(inside: float) -> tuple[float, float]:
        low, high = (_without_meters(row, sd**2, meters) for sd in after.spread_interval(inside))
        return low, high

    return (
        Value(
            "shift", row.shift, in_force.shift, learned.shift, *after.interval(),
            _outside(in_force.shift, after.interval(SURE)),
        ),
        Value(
            "spread", row.spread, in_force.spread, learned.spread, *spreads(INTERVAL),
            _outside(in_force.spread, spreads(SURE)),
        ),
    )  # fmt: skip


def _outside(value: float, interval: tuple[float, float]) -> bool:
    return not interval[0] - NOTHING <= value <= interval[1] + NOTHING


def _same(before: object, learned: LearnedRate | LearnedWeights | LearnedShift) -> bool:
    """Return whether what was accepted says the same, whatever the day it was accepted on."""
    if not isinstance(before, LearnedRate | LearnedWeights | LearnedShift):
        return False
    return before.model_copy(update={"on": learned.on}) == learned


# --- what a person accepts ---


def accepted(
    lines: Iterable[Line],
    kept: Mapping[str, LearnedTree],
    cases: Collection[str],
    on: date,
    version: str,
    catalogue: Catalogue,
) -> dict[str, LearnedTree]:
    """Return the learned files that change when some lines are accepted, by tree.

    Args:
        lines: those chosen.
        kept: what was accepted before.
        cases: random numbers of the cases that count.
        on: today.
        version: of the program.
        catalogue: the trees, for the checks that questions have.
    """
    changed: dict[str, LearnedTree] = {}
    for line in lines:
        tree = changed.get(line.tree) or kept.get(line.tree)
        if tree is None:
            tree = LearnedTree(tree=line.tree, version=VERSION, faultdoc=version, on=on.isoformat())
        changed[line.tree] = _with_line(tree, line, catalogue)
    return {
        id: tree.model_copy(
            update={
                "faultdoc": version,
                "on": on.isoformat(),
                "own_cases": tuple(sorted({*tree.own_cases, *cases} - set(tree.other_cases))),
            }
        )
        for id, tree in changed.items()
    }


def _with_line(tree: LearnedTree, line: Line, catalogue: Catalogue) -> LearnedTree:
    if isinstance(line.learned, LearnedRate):
        return tree.model_copy(update={"rates": {**tree.rates, line.cause: line.learned}})
    assert line.question is not None
    question = catalogue.questions[line.question]
    rows = tree.questions.get(line.question)
    given = {**(rows.given if rows else {}), line.cause: line.learned}
    made = LearnedQuestion(check=question.check, given=given)
    return tree.model_copy(update={"questions": {**tree.questions, line.question: made}})


@dataclass(frozen=True)
class Change:
    """A cause's probability in one case, before and after."""

    cause: str
    title: str
    before: float
    after: float


def library_with(prior: Library, learned: Mapping[str, LearnedTree]) -> Library:
    """Return the library without anything learned, with something learned laid over it."""
    return replace(prior, catalogue=laid_over(prior.catalogue, learned))


def effect(before: Library, after: Library, case: Case) -> tuple[Change, ...]:
    """Return what learned values do to the causes of a case, the one that moves most first.

    Raises:
        FileProblems: when the unit's data sheet cannot be read.
    """
    sheet = load_unit(case.unit)
    looks = [
        {one.id: one for one in likely_causes(assess(bench_for(library, sheet, case.symptoms), case))}
        for library in (before, after)
    ]
    changes = [Change(id, one.title, one.probability, looks[1][id].probability) for id, one in looks[0].items()]
    return tuple(sorted(changes, key=lambda one: (-abs(one.after - one.before), one.cause)))

"""A learned file: what closed cases taught about the rates and rows of one fault tree, as a person accepted it."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, StringConstraints, Tag

from faultdoc.model.base import Id, Model, Probability

__all__ = [
    "VERSION",
    "Counted",
    "CountedRate",
    "CountedShift",
    "CountedWeights",
    "LearnedBook",
    "LearnedQuestion",
    "LearnedRate",
    "LearnedRow",
    "LearnedShift",
    "LearnedTree",
    "LearnedWeights",
]

VERSION: Literal[1] = 1
"""Of the form of these files."""

Count = Annotated[int, Field(ge=0)]
Day = Annotated[str, StringConstraints(pattern=r"^\d{4}-\d{2}-\d{2}$")]
Uid = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{32}$")]
Positive = Annotated[float, Field(gt=0.0)]
NotNegative = Annotated[float, Field(ge=0.0)]


class CountedRate(Model):
    """How often a cause was found in so many visits, and how often the authored rates had it expected there."""

    found: Count
    expected: Positive
    visits: Annotated[int, Field(ge=1)]

    def together(self, other: CountedRate) -> CountedRate:
        """Return both counts as one."""
        return CountedRate(
            found=self.found + other.found,
            expected=self.expected + other.expected,
            visits=self.visits + other.visits,
        )

    @property
    def cases(self) -> int:
        """How many cases are behind it."""
        return self.visits


class CountedWeights(Model):
    """How often each outcome was answered while the cause was there."""

    counts: dict[Id, Count]

    def together(self, other: CountedWeights) -> CountedWeights:
        """Return both counts as one."""
        ids = dict.fromkeys((*self.counts, *other.counts))
        return CountedWeights(counts={id: self.counts.get(id, 0) + other.counts.get(id, 0) for id in ids})

    @property
    def cases(self) -> int:
        """How many cases are behind it."""
        return sum(self.counts.values())


class CountedShift(Model):
    """Residuals of so many units: their mean, the sum of their squared distances from it, the meters' variance."""

    units: Annotated[int, Field(ge=1)]
    mean: float
    squares: NotNegative
    meters: NotNegative

    def together(self, other: CountedShift) -> CountedShift:
        """Return both as one (Chan, Golub, LeVeque 1983)."""
        n = self.units + other.units
        apart = other.mean - self.mean
        return CountedShift(
            units=n,
            mean=self.mean + apart * other.units / n,
            squares=self.squares + other.squares + apart**2 * self.units * other.units / n,
            meters=(self.meters * self.units + other.meters * other.units) / n,
        )

    @property
    def cases(self) -> int:
        """How many cases are behind it."""
        return self.units


Counted = CountedRate | CountedWeights | CountedShift


class _Line(Model):
    """`on` is the day it was accepted; `own` was counted here, `elsewhere` came with a file of another machine."""

    on: Day
    basis: Literal["fleet"]


class LearnedRate(_Line):
    """A cause's rate, with its 90 % credible interval."""

    rate: Annotated[float, Field(gt=0.0, lt=1000.0)]
    low: NotNegative
    high: Positive
    own: CountedRate | None = None
    elsewhere: CountedRate | None = None


class LearnedWeights(_Line):
    """As `Weights`, learned."""

    p: dict[Id, Probability]
    own: CountedWeights | None = None
    elsewhere: CountedWeights | None = None


class LearnedShift(_Line):
    """As `Shift`, learned."""

    shift: float
    spread: Positive
    own: CountedShift | None = None
    elsewhere: CountedShift | None = None


def _row_kind(row: Any) -> str:
    keys = row.keys() if isinstance(row, dict) else getattr(type(row), "model_fields", {}).keys()
    return "weights" if "p" in keys else "shift"


LearnedRow = Annotated[
    Annotated[LearnedWeights, Tag("weights")] | Annotated[LearnedShift, Tag("shift")],
    Discriminator(_row_kind),
]


class LearnedQuestion(Model):
    """The rows of one question, by cause; `check` is the check it had when they were learned."""

    check: Id | None = None
    given: dict[Id, LearnedRow]


class LearnedTree(Model):
    """One learned file.

    Attributes:
        tree: id of the fault tree.
        version: of the form of the file.
        faultdoc: version of the program that wrote it.
        on: day of the last change.
        own_cases: random numbers of the cases that were counted here.
        other_cases: random numbers of those behind what came from elsewhere.
        rates: by cause.
        questions: rows by question.
    """

    tree: Id
    version: Literal[1]
    faultdoc: str
    on: Day
    own_cases: tuple[Uid, ...] = Field(default=(), strict=False)
    other_cases: tuple[Uid, ...] = Field(default=(), strict=False)
    rates: dict[Id, LearnedRate] = Field(default_factory=dict)
    questions: dict[Id, LearnedQuestion] = Field(default_factory=dict)

    @property
    def lines(self) -> int:
        """How many rates and rows it holds."""
        return len(self.rates) + sum(len(one.given) for one in self.questions.values())


class LearnedBook(Model):
    """All learned files in one, to carry to another machine: no names, no units, no site."""

    version: Literal[1]
    faultdoc: str
    on: Day
    trees: tuple[LearnedTree, ...] = Field(strict=False)

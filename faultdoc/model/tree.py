"""A fault tree file: one symptom, the gates that explain it, its causes and the questions that tell them apart."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Any, Literal, Self

from pydantic import Discriminator, Field, Tag, model_validator

from faultdoc.model.base import Id, Minutes, Model, Probability, Text
from faultdoc.model.safety import Caution, Qualification, StateNeed
from faultdoc.model.unit import Feature

__all__ = [
    "NON_ANSWERS",
    "Ask",
    "Basis",
    "Cause",
    "Condition",
    "Gate",
    "Given",
    "Outcome",
    "PlainWords",
    "Proof",
    "Question",
    "Remedy",
    "Shift",
    "System",
    "Tree",
    "Weights",
]

MANY = 300
"""Events, causes and questions of one tree; ours have at most 45."""
MOST_CONDITIONS = 12
"""Circumstances of one tree, as their settings are looked through; ours have at most six."""
MOST_OUTCOMES = 40

NON_ANSWERS = ("could_not_measure", "not_sure")
"""Answers that are always allowed and say nothing about any cause."""


class Basis(StrEnum):
    """Where a number comes from."""

    PUBLISHED = "published"
    FLEET = "fleet"
    SIMULATED = "simulated"
    ESTIMATE = "estimate"


class System(StrEnum):
    """The part of the installation in which a cause sits."""

    WATER = "water"
    REFRIGERANT = "refrigerant"
    ELECTRICAL = "electrical"
    CONTROL = "control"
    SITE = "site"


class Gate(Model):
    """An event brought about by others: by any of them, by all, or by at least so many."""

    id: Id
    title: Text
    any: tuple[Id, ...] | None = Field(default=None, strict=False)
    all: tuple[Id, ...] | None = Field(default=None, strict=False)
    at_least: Annotated[int, Field(ge=1)] | None = None
    of: tuple[Id, ...] | None = Field(default=None, strict=False)

    @model_validator(mode="after")
    def _one_kind(self) -> Self:
        kinds = [self.any is not None, self.all is not None, self.at_least is not None]
        if sum(kinds) != 1 or (self.of is not None) != (self.at_least is not None):
            raise ValueError("a gate has exactly one of: any: [...], all: [...], at_least: k with of: [...]")
        if not self.children:
            raise ValueError("a gate needs children")
        if len(set(self.children)) != len(self.children):
            raise ValueError("a gate names a child twice")
        if self.at_least is not None and self.at_least > len(self.children):
            raise ValueError(f"at_least: {self.at_least} of only {len(self.children)}")
        return self

    @property
    def children(self) -> tuple[str, ...]:
        """The ids of what brings it about."""
        return self.any or self.all or self.of or ()


class Condition(Model):
    """An inhibit condition: a circumstance, not a fault, that must hold for an `all` gate to act."""

    id: Id
    title: Text
    probability: Probability
    basis: Annotated[Basis, Field(strict=False)]
    source: Text | None = None


class _Work(Model):
    """Anything a person does: how long, in what plant state, by whom, with what cautions."""

    minutes: Minutes
    state: StateNeed
    who: Annotated[Qualification, Field(strict=False)]
    cautions: tuple[Caution, ...] = Field(default=(), strict=False)


class _Placed(_Work):
    """Work at a place on the unit; see resources/plant.yaml for places and instruments."""

    place: Id | None = None


class Proof(_Work):
    """The reading that shows a remedy has fixed the cause."""

    text: Text
    points: tuple[Id, ...] = Field(strict=False, min_length=1)


class Remedy(_Placed):
    """How a cause is put right. `holds` is the probability that it does so when the cause is there.

    `resets` names a protective device that the remedy resets; plant.yaml limits how often that may be done.
    """

    title: Text
    steps: tuple[Text, ...] = Field(strict=False, min_length=1)
    parts: tuple[Text, ...] = Field(default=(), strict=False)
    tools: tuple[Text, ...] = Field(default=(), strict=False)
    holds: Annotated[float, Field(gt=0.0, le=1.0)] = 0.95
    resets: Id | None = None
    licence: Text | None = None
    proof: Proof


class PlainWords(Model):
    """A cause in the words of whoever owns the unit and never opened one: whole sentences, no word of the trade.

    Printed for the customer: `wrong` is what was wrong, `done` what was done about it, `watch` what they should
    look out for afterwards, where there is something of this cause's own.
    """

    wrong: Text
    done: Text
    watch: Text | None = None


class Cause(Model):
    """A basic event: something that can be wrong and put right.

    `rate` is how many of 1,000 visits to a unit on site find the cause present; the prior
    probability of the cause is rate / 1,000.
    """

    id: Id
    title: Text
    system: Annotated[System, Field(strict=False)]
    rate: Annotated[float, Field(gt=0.0, lt=1000.0)]
    basis: Annotated[Basis, Field(strict=False)]
    source: Text | None = None
    mechanism: Text
    customer: PlainWords | None = None
    remedy: Remedy
    same_as: dict[Id, Text] = Field(default_factory=dict)
    """Causes that no question need tell from this one, each with the reason (same remedy)."""
    only_with: tuple[Annotated[Feature, Field(strict=False)], ...] = Field(default=(), strict=False)


class Ask(Model):
    """The question in two registers: to a technician, and to be read aloud to a caller.

    `hesitates` is what to read aloud when the caller does not know what is meant or how to go about it.
    """

    tech: Text
    caller: Text
    hesitates: Text | None = None


class Outcome(Model):
    """One possible answer; `stop` ends the work at once and says what to do instead."""

    id: Id
    title: Text
    stop: Text | None = None


class Weights(Model):
    """Probability of each outcome; `p` maps outcome id to it, and outcomes left out have none."""

    p: dict[Id, Probability]
    basis: Annotated[Basis, Field(strict=False)]
    source: Text | None = None


class Shift(Model):
    """How far a cause moves a check's residual, and by how much that varies with its severity.

    The residual is (measured - expected) / scale, with the scale the check declares (most often
    the expected value, so -0.5 means half of it is missing). `spread` is a standard deviation
    in the same measure and does not include the meters, which the check accounts for.
    """

    shift: float
    spread: Annotated[float, Field(gt=0.0)]
    basis: Annotated[Basis, Field(strict=False)]
    source: Text | None = None


def _row_kind(row: Any) -> str:
    # Told apart by what the author wrote, so that a mistake in a row is reported against the
    # kind of row that was meant and not against both.
    keys = row.keys() if isinstance(row, dict) else getattr(type(row), "model_fields", {}).keys()
    return "shift" if "shift" in keys or "spread" in keys else "weights"


Given = Annotated[
    Annotated[Weights, Tag("weights")] | Annotated[Shift, Tag("shift")],
    Discriminator(_row_kind),
]


class Question(_Placed):
    """Something to look at or to measure.

    Either `outcomes` with `given` rows of weights, or a `check` with `given` rows of shifts.
    `given` has a row `default` (nothing that moves this question is wrong) and one for each
    cause that moves it. Outcomes go from the least to the most telling: where two causes act at
    once, the more telling of their outcomes shows (noisy-max).
    """

    id: Id
    ask: Ask
    how: Text
    where: Text
    instrument: Text
    wrong_readings: Text | None = None
    first: bool = False
    """Asked before anything else where it can be answered as the plant stands: its answer may stop the work."""
    bring: tuple[Id, ...] = Field(default=(), strict=False)
    """Instruments that must be fetched if they are not at hand."""
    points: tuple[Id, ...] = Field(default=(), strict=False)
    outcomes: tuple[Outcome, ...] = Field(default=(), strict=False, max_length=MOST_OUTCOMES)
    check: Id | None = None
    meter: Annotated[float, Field(gt=0.0)] = 0.05
    """What the meters usually add to the residual's standard deviation; used in planning, before the reading."""
    slip: Annotated[float, Field(gt=0.0, lt=0.5)] = 0.02
    """Probability that the answer is wrong for reasons of its own (misread, misheard, mistyped)."""
    given: dict[Id, Given]
    only_with: tuple[Annotated[Feature, Field(strict=False)], ...] = Field(default=(), strict=False)

    @model_validator(mode="after")
    def _one_kind(self) -> Self:
        if bool(self.outcomes) == (self.check is not None):
            raise ValueError("a question has either outcomes or a check, and exactly one of them")
        if "default" not in self.given:
            raise ValueError("given needs a row 'default'")
        wanted = Shift if self.check else Weights
        for name, row in self.given.items():
            if not isinstance(row, wanted):
                need = "{shift, spread, basis}" if self.check else "{p: {outcome: probability}, basis}"
                raise ValueError(f"given row '{name}' must be {need}, as the question has "
                                 f"{'a check' if self.check else 'outcomes'}")  # fmt: skip
        if self.check and not self.points:
            raise ValueError("a question with a check names the measuring points it asks for")
        if self.outcomes:
            ids = [outcome.id for outcome in self.outcomes]
            if len(ids) < 2 or len(set(ids)) != len(ids):
                raise ValueError("outcomes need at least two different ids")
            if clash := set(ids) & set(NON_ANSWERS):
                raise ValueError(f"outcome ids {sorted(clash)} are kept for answers that say nothing")
        return self


class Tree(Model):
    """One fault tree file."""

    id: Id
    title: Text
    symptom: Text
    customer: Text | None = None
    """What the customer saw, for the page they get: a whole sentence without a word of the trade."""
    applies_to: tuple[Annotated[Feature, Field(strict=False)], ...] = Field(default=(), strict=False)
    """Features a unit needs for this tree to apply; none: every unit."""
    top: Id
    events: tuple[Gate, ...] = Field(strict=False, min_length=1, max_length=MANY)
    conditions: tuple[Condition, ...] = Field(default=(), strict=False, max_length=MOST_CONDITIONS)
    causes: tuple[Cause, ...] = Field(strict=False, max_length=MANY)
    questions: tuple[Question, ...] = Field(strict=False, max_length=MANY)
    language: Literal["en"] = "en"

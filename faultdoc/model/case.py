"""One call-out: which unit, what is seen, what was read and answered, what was done, how it ended.

A `Case` is frozen; every answer makes a new one. Undo is going back to the one before.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from faultdoc.model.base import Id, Line, Measured, Model, Text
from faultdoc.model.safety import PlantState, Qualification

__all__ = ["MOST_SYMPTOMS", "Case", "Conclusion", "Reading", "Tried"]

MOST_SYMPTOMS = 8
"""Symptoms of one case; each brings a fault tree with it."""
MANY = 1000
"""Readings, answers, notes and remedies of one case; there are fewer measuring points than that."""

Reading = Measured | str
"""A number with its unit, or the id of a choice."""


class Tried(Model):
    """A remedy that was carried out, and whether its proof held."""

    cause: Id
    proved: bool
    note: Text | None = None
    known: tuple[Id, ...] = Field(default=(), strict=False, max_length=2 * MANY)
    """Questions answered and points read before it; what was taken afterwards speaks of the causes left."""


class Conclusion(Model):
    """How the call ended."""

    outcome: Literal["fixed", "handed_over", "made_safe", "not_found"]
    cause: Id | None = None
    proof: Text | None = None
    note: Text | None = None


class Case(Model):
    """One call-out, complete: the same record is saved, opened, printed and diagnosed.

    Readings and answers keep the order in which they were given.
    """

    title: Text | None = None
    unit: Line
    """Id of a data sheet in resources/units, or a path to one."""
    symptoms: tuple[Id, ...] = Field(strict=False, min_length=1, max_length=MOST_SYMPTOMS)
    state: PlantState
    who: tuple[Annotated[Qualification, Field(strict=False)], ...] = Field(
        strict=False, min_length=1, max_length=MANY
    )
    readings: dict[Id, Reading] = Field(default_factory=dict, max_length=MANY)
    answers: dict[Id, Id] = Field(default_factory=dict, max_length=MANY)
    set_aside: tuple[Id, ...] = Field(default=(), strict=False, max_length=MANY)
    """Questions a person asked to leave for later; they are not proposed again until brought back."""
    tried: tuple[Tried, ...] = Field(default=(), strict=False, max_length=MANY)
    unproved: Id | None = None
    """Cause whose remedy has been carried out and whose proof is still to be taken."""
    place: Id | None = None
    """Where on the unit the people are, as far as known."""
    at_hand: tuple[Id, ...] = Field(default=(), strict=False, max_length=MANY)
    """Instruments already fetched."""
    notes: tuple[Text, ...] = Field(default=(), strict=False, max_length=MANY)
    conclusion: Conclusion | None = None

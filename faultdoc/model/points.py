"""The vocabulary of measuring points: one name for every place where a reading can be taken."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from faultdoc.model.base import Id, Model, Text
from faultdoc.quantities import Kind

__all__ = ["FAMILIES", "Choice", "Point", "PointsFile"]

FAMILIES: dict[str, tuple[str, ...]] = {
    "circuit": ("a", "b", "c", "d"),
    "number": ("1", "2", "3", "4", "5", "6", "7", "8"),
    "line": ("l1", "l2", "l3"),
    "pair": ("l1_l2", "l2_l3", "l3_l1"),
}
"""What may stand in braces in a point's id, so one entry names a family of points."""


class Choice(Model):
    """One possible value of a point that is looked at rather than read off a scale."""

    id: Id
    title: Text


class Point(Model):
    """A place where a reading can be taken, and how to get a true one there.

    `limit` is the limit of error of the usual instrument (± half-width, in the kind's unit, or
    a fraction of the reading with `limit_of_reading`); it is used where the person gave none.
    `least` and `most` bound what can be believed without asking again. All three are written
    as text with their units and are checked against `kind` when the vocabulary is loaded.
    """

    id: Annotated[str, Field(pattern=r"^[a-z][a-z0-9_{}]{1,63}$")]
    kind: Annotated[Kind, Field(strict=False)]
    title: Text
    where: Text
    how: Text
    instrument: Text
    wrong_readings: Text | None = None
    """What usually makes it read wrong."""
    limit: str | None = None
    limit_of_reading: Annotated[float, Field(ge=0.0, lt=1.0)] | None = None
    least: str | None = None
    most: str | None = None
    choices: tuple[Choice, ...] = Field(default=(), strict=False)

    @model_validator(mode="after")
    def _fits_kind(self) -> Self:
        if (self.kind is Kind.CHOICE) != bool(self.choices):
            raise ValueError("choices are for points of kind 'choice', and those need them")
        if self.kind is not Kind.CHOICE and self.limit is None and self.limit_of_reading is None:
            raise ValueError("a measured point needs limit or limit_of_reading: the usual instrument's error")
        return self


class PointsFile(Model):
    """resources/points.yaml."""

    points: tuple[Point, ...] = Field(strict=False)

"""A calibration file: rows of `given` tables that were derived from simulated units, for one fault tree."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from faultdoc.model.base import Id, Model, Probability, Text

__all__ = ["CalibratedQuestion", "Calibration", "LeftOut", "SimulatedRow", "SimulatedShift", "SimulatedWeights"]

Count = Annotated[int, Field(ge=1)]


class SimulatedShift(Model):
    """As `Shift`, from so many draws."""

    shift: float
    spread: Annotated[float, Field(gt=0.0)]
    draws: Count
    basis: Literal["simulated"]


class SimulatedWeights(Model):
    """As `Weights`, from so many draws."""

    p: dict[Id, Probability]
    draws: Count
    basis: Literal["simulated"]


def _row_kind(row: Any) -> str:
    keys = row.keys() if isinstance(row, dict) else getattr(type(row), "model_fields", {}).keys()
    return "weights" if "p" in keys else "shift"


SimulatedRow = Annotated[
    Annotated[SimulatedWeights, Tag("weights")] | Annotated[SimulatedShift, Tag("shift")],
    Discriminator(_row_kind),
]


class CalibratedQuestion(Model):
    """The rows of one question, by cause; `check` is the check it had when they were derived."""

    check: Id | None = None
    given: dict[Id, SimulatedRow]


class LeftOut(Model):
    """A row that the simulator is not believed for, and why."""

    question: Id
    cause: Id
    reason: Text


class Calibration(Model):
    """One calibration file.

    Attributes:
        tree: id of the fault tree.
        seed: of the draws.
        draws: for each cause and unit.
        left_out: rows that were derived and not written.
        questions: rows by question.
    """

    tree: Id
    seed: int
    draws: Count
    left_out: tuple[LeftOut, ...] = Field(default=(), strict=False)
    questions: dict[Id, CalibratedQuestion]

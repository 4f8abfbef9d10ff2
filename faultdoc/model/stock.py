"""Parts, tools and instruments: what each weighs, where it comes from, and what must agree with the unit.

All of `resources/stock.yaml`; what the numbers are good for is decided in `faultdoc.record.kit`.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from faultdoc.model.base import Id, Mass, Model, Probability, Text, Volume
from faultdoc.model.safety import Qualification
from faultdoc.model.tree import Basis

__all__ = ["Comes", "Match", "Scope", "StockCombined", "StockFile", "StockKind", "StockLimits"]

Scope = Literal["parts", "tools", "reads"]
"""Where a text stands: a remedy's parts, its tools, or the instrument of a measuring point."""


class Comes(StrEnum):
    """Where a thing comes from when somebody is sent."""

    VAN = "van"
    STORE = "store"
    ORDER = "order"
    HIRE = "hire"
    SITE = "site"


class Match(StrEnum):
    """What has to agree with the unit's nameplate or papers, or with the part that is in it now."""

    REFRIGERANT = "refrigerant"
    OIL = "oil"
    CAPACITY = "capacity"
    SUPPLY = "supply"
    CONTROL_VOLTAGE = "control_voltage"
    MOTOR = "motor"
    """Current and power of the motor it is for: the pump's, the fans' or the compressors'."""
    PROTECTION = "protection"
    TRANSFORMER = "transformer"
    HEATER = "heater"
    GLYCOL = "glycol"
    CONNECTION = "connection"
    FLOW = "flow"
    PUMP_CURVE = "pump_curve"
    FLOW_SWITCH = "flow_switch"
    LOOP_VOLUME = "loop_volume"
    RELIEF = "relief"
    WATER_GAUGE = "water_gauge"
    OLD_PART = "old_part"


class StockKind(Model):
    """One kind of part, tool or instrument."""

    id: Id
    title: Text
    comes: Annotated[Comes, Field(strict=False)]
    mass: Mass | None = None
    volume: Volume | None = None
    charge: bool = False
    """Whether the refrigerant of one circuit comes on top of the mass."""
    match: tuple[Annotated[Match, Field(strict=False)], ...] = Field(default=(), strict=False)
    instrument: Id | None = None
    """The plant's id of the instrument that it is."""
    parts: tuple[Text, ...] = Field(default=(), strict=False)
    tools: tuple[Text, ...] = Field(default=(), strict=False)
    reads: tuple[Text, ...] = Field(default=(), strict=False)

    @model_validator(mode="after")
    def _weighed(self) -> Self:
        if self.comes is not Comes.SITE and (self.mass is None or self.volume is None):
            raise ValueError("what is not found at the site has a mass and a volume")
        return self


class StockCombined(Model):
    """A text that means several kinds: all of them, or any one."""

    part: Text | None = None
    tool: Text | None = None
    reads: Text | None = None
    all: tuple[Id, ...] | None = Field(default=None, strict=False, min_length=1)
    any: tuple[Id, ...] | None = Field(default=None, strict=False, min_length=1)

    @model_validator(mode="after")
    def _one_of_each(self) -> Self:
        if sum(text is not None for text in (self.part, self.tool, self.reads)) != 1:
            raise ValueError("give one of part, tool and reads: the words that mean several kinds")
        if (self.all is None) == (self.any is None):
            raise ValueError("give either all: [...] or any: [...]")
        return self

    @property
    def named(self) -> tuple[Scope, str]:
        """Where the text stands, and the text."""
        if self.part is not None:
            return "parts", self.part
        return ("tools", self.tool) if self.tool is not None else ("reads", self.reads or "")


class StockLimits(Model):
    """What one visit may bring, unless somebody says otherwise."""

    mass: Mass
    volume: Volume
    items: Annotated[int, Field(ge=0, le=1000)]
    people: Annotated[int, Field(ge=0, le=8)]
    who: tuple[Annotated[tuple[Annotated[Qualification, Field(strict=False)], ...], Field(strict=False)], ...] = (
        Field(strict=False, min_length=1, max_length=8)
    )
    """Who may be sent: one entry a person, with all that the person is qualified for."""


class StockFile(Model):
    """resources/stock.yaml."""

    basis: Annotated[Basis, Field(strict=False)]
    limits: StockLimits
    tie: Probability
    """Chances that differ by no more than this count as equal."""
    kinds: tuple[StockKind, ...] = Field(strict=False, min_length=1)
    combined: tuple[StockCombined, ...] = Field(default=(), strict=False)

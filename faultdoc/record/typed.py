"""What a person typed at a measuring point, understood. Pure."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from faultdoc.checks.all import split_readings
from faultdoc.checks.plausible import Doubt, doubts
from faultdoc.model.base import Measured
from faultdoc.model.case import Case
from faultdoc.model.points import Point
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Quantity, QuantityError, System, display_unit, parse
from faultdoc.words import say

__all__ = ["Understood", "fresh_doubts", "in_both", "numbers_with", "understand", "with_unit"]


@dataclass(frozen=True)
class Understood:
    """What was typed: as a reading with its echo, or the reason why it is none; both None when it is blank."""

    measured: Measured | None
    echo: str | None
    problem: str | None


def understand(text: str, point: Point, system: System) -> Understood:
    """Return what was typed at a point as a reading, and how it was understood in both systems of units.

    >>> from faultdoc.quantities import Kind
    >>> words = dict(title="Suction", where="Pump", how="Bleed it", instrument="Gauge")
    >>> point = Point(id="suction", kind=Kind.GAUGE_PRESSURE, limit="1 psi", **words)
    >>> understand("62", point, System.US).echo
    'understood as 62 psig = 427 kPa gauge'
    """
    if not text.strip():
        return Understood(None, None, None)
    try:
        quantity = parse(text, point.kind, system)
        if quantity.assumed:
            # The unit that was meant is kept with the number: the display may be switched later.
            quantity = parse(with_unit(text, display_unit(point.kind, system)), point.kind, system)
    except QuantityError as problem:
        return Understood(None, None, str(problem))
    return Understood(
        Measured.from_quantity(quantity), say("understood as {in_both}", in_both=in_both(quantity, system)), None
    )


def with_unit(text: str, unit: str) -> str:
    """Return a bare number with its unit, in front of a limit of error.

    >>> with_unit("62 ± 1", "psig")
    '62 psig ± 1'
    """
    number, *rest = re.split(r"\s*(±|\+/-|\+-)\s*", text.strip(), maxsplit=1)
    return " ".join([number, unit, *rest])


def in_both(quantity: Quantity, system: System) -> str:
    """Return how a quantity was understood: in the system chosen first, then in the other if that differs."""
    mine, theirs = quantity.echo(system), quantity.echo(system.other)
    return mine if mine == theirs else f"{mine} = {theirs}"


def numbers_with(case: Case, typed: Mapping[str, Measured]) -> dict[str, Measured]:
    """Return the case's numbers with those just typed in their places."""
    numbers, _ = split_readings({**case.readings, **typed})
    return numbers


def fresh_doubts(
    sheet: DataSheet, points: Mapping[str, Point], case: Case, typed: Mapping[str, Measured], system: System
) -> list[Doubt]:
    """Return what is doubted with the readings just typed, and was not before them."""
    _, choices = split_readings(case.readings)
    before = doubts(sheet, numbers_with(case, {}), points, system, choices)
    known = {(doubt.point, doubt.text) for doubt in before if doubt.point not in typed}
    after = doubts(sheet, numbers_with(case, typed), points, system, choices)
    return [doubt for doubt in after if (doubt.point, doubt.text) not in known]

"""Writes a data sheet as a YAML file that `load_unit` reads back equal."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from functools import lru_cache
from math import inf, nextafter
from textwrap import fill
from typing import Any

from pydantic import BaseModel

from faultdoc.library.translate import kind_of
from faultdoc.library.written import yaml_text
from faultdoc.model.nameplate import Assumption
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import ACCEPTED, Kind, QuantityError, exact, parse

__all__ = ["quantity_text", "sheet_yaml"]


def sheet_yaml(sheet: DataSheet, assumptions: Iterable[Assumption] = ()) -> str:
    """Return a data sheet as YAML, what is assumed named in comments at its head.

    Quantities are written in the unit that takes the fewest digits without loss.

    Args:
        sheet: the unit's.
        assumptions: what to say of the values that neither nameplate nor papers gave.

    >>> from faultdoc.library.load import load_unit
    >>> sheet_yaml(load_unit("bluff_30")).split("\\n")[3]
    'cooling_capacity: 105 kW'
    """
    return "".join(_comments(assumptions)) + yaml_text(_plain(sheet), width=115)


def _comments(assumptions: Iterable[Assumption]) -> list[str]:
    said = [
        fill(
            f"{', '.join(one.paths)}: {one.value}. {one.why}",
            width=110,
            initial_indent="#   ",
            subsequent_indent="#     ",
            break_long_words=False,
        )
        + "\n"
        for one in assumptions
    ]
    if not said:
        return []
    return [
        "# Made from a nameplate. What it does not carry is assumed, named below, and counted with a wide\n",
        "# uncertainty; correct it from the unit's papers and take its name out of 'assumed'.\n",
        *said,
    ]


def _plain(model: BaseModel) -> dict[str, Any]:
    """Return a model as plain data, quantities as text, without what is as the model has it by default."""
    data: dict[str, Any] = {}
    for name, field in type(model).model_fields.items():
        value = getattr(model, name)
        if not field.is_required() and value == field.get_default(call_default_factory=True):
            continue
        data[name] = _value(value, kind_of(field))
    return data


def _value(value: Any, kind: Kind | None) -> Any:
    if isinstance(value, BaseModel):
        return _plain(value)
    if isinstance(value, tuple):
        return [_value(item, kind) for item in value]
    if isinstance(value, StrEnum):
        return str(value)
    return quantity_text(value, kind) if kind is not None else value


@lru_cache(maxsize=1024)
def quantity_text(value: float, kind: Kind) -> str:
    """Return an SI value as text that is read back as the same value, in as few digits as can be.

    The same to the last bit; a ratio, written in per cent, to the last but one.

    >>> quantity_text(parse("72 gpm", Kind.VOLUME_FLOW).value, Kind.VOLUME_FLOW)
    '72 gpm'
    >>> quantity_text(parse("4.5 °C", Kind.TEMPERATURE).value, Kind.TEMPERATURE)
    '4.5 °C'
    """
    found = []
    for rank, unit in enumerate(ACCEPTED[kind]):
        try:
            zero, one = (parse(f"{number} {unit}", kind, need_unit=True).value for number in (0, 1))
        except QuantityError:  # an example of how parts are written, and no unit
            continue
        number = f"{(value - zero) / (one - zero):.6g}"
        if "e" not in number and _means(f"{number} {unit}", kind, value):
            found.append((len(number), rank, f"{number} {unit}"))
    return min(found)[2] if found else _in_si(value, kind)


def _in_si(value: float, kind: Kind) -> str:
    """Return a value in SI units; per cents are stepped to the neighbour that is read back the same, if any."""
    text = exact(value, kind)
    number, _, unit = text.partition(" ")
    candidates = [text]
    for way in (inf, -inf):
        near = float(number)
        for _ in range(4):
            near = nextafter(near, way)
            candidates.append(f"{near!r} {unit}".strip())
    for one in candidates:
        if _means(one, kind, value):
            return one
    return text


def _means(text: str, kind: Kind, value: float) -> bool:
    """Say whether a text is read as a value; a digit dropped may have put it below absolute zero."""
    try:
        return parse(text, kind, need_unit=True).value == value
    except QuantityError:
        return False

"""What one move changed in a case: written in a line of a hand-over's journal, and taken again from there."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, TypeVar

from pydantic import Field

from faultdoc.model.base import Id, Model, Text
from faultdoc.model.case import Case, Conclusion, Reading, Tried
from faultdoc.model.safety import STATE_FIELDS, Qualification, StateNeed

__all__ = ["NAMED", "ROWS", "SINGLE", "Change", "More", "applied", "difference", "same"]

T = TypeVar("T")

SINGLE = ("title", "unproved", "place", "conclusion", "who")
"""Fields of a case that are one value."""
NAMED = ("readings", "answers")
"""Fields that hold values by name."""
ROWS = ("notes", "tried", "set_aside", "at_hand")
"""Fields that hold one thing after the other."""


class More(Model):
    """What was added at the end of a case's rows."""

    notes: tuple[Text, ...] = Field(default=(), strict=False)
    tried: tuple[Tried, ...] = Field(default=(), strict=False)
    set_aside: tuple[Id, ...] = Field(default=(), strict=False)
    at_hand: tuple[Id, ...] = Field(default=(), strict=False)


class Change(Model):
    """What is different in a case after a move; only fields that are given changed.

    In `readings` and `answers` nothing (null) means taken back. `whole` stands for the case as it was, where the
    other fields cannot say it.
    """

    title: Text | None = None
    who: tuple[Annotated[Qualification, Field(strict=False)], ...] = Field(default=(), strict=False)
    state: StateNeed = StateNeed()
    readings: dict[Id, Reading | None] = Field(default_factory=dict)
    answers: dict[Id, Id | None] = Field(default_factory=dict)
    more: More = More()
    set_aside: tuple[Id, ...] = Field(default=(), strict=False)
    tried: tuple[Tried, ...] = Field(default=(), strict=False)
    unproved: Id | None = None
    place: Id | None = None
    at_hand: tuple[Id, ...] = Field(default=(), strict=False)
    notes: tuple[Text, ...] = Field(default=(), strict=False)
    conclusion: Conclusion | None = None
    whole: Case | None = None


def difference(before: Case, after: Case) -> Change:
    """Return what changed between two cases, to the order in which readings and answers were given."""
    said: dict[str, Any] = {}
    for name in SINGLE:
        if getattr(before, name) != getattr(after, name):
            said[name] = getattr(after, name)
    if before.state != after.state:
        fields = {name: getattr(after.state, name) for name in STATE_FIELDS}
        moved = {name: value for name, value in fields.items() if value != getattr(before.state, name)}
        said["state"] = StateNeed(**moved)
    for name in NAMED:
        if moved := _named(getattr(before, name), getattr(after, name)):
            said[name] = moved
    more: dict[str, Any] = {}
    for name in ROWS:
        old, new = getattr(before, name), getattr(after, name)
        if old == new:
            continue
        if old == new[: len(old)]:
            more[name] = new[len(old) :]
        else:
            said[name] = new
    if more:
        said["more"] = More(**more)
    change = Change(**said)
    return change if same(applied(before, change), after) else Change(whole=after)


def _named(before: Mapping[str, T], after: Mapping[str, T]) -> dict[str, T | None]:
    gone: dict[str, T | None] = {name: None for name in before if name not in after}
    return gone | {name: value for name, value in after.items() if name not in before or before[name] != value}


def applied(case: Case, change: Change) -> Case:
    """Return a case after a change."""
    if change.whole is not None:
        return change.whole
    given = change.model_fields_set
    update: dict[str, Any] = {name: getattr(change, name) for name in (*SINGLE, *ROWS) if name in given}
    if "state" in given:
        update["state"] = case.state.model_copy(update=change.state.model_dump(exclude_none=True))
    for name in NAMED:
        if name in given:
            values = {**getattr(case, name), **getattr(change, name)}
            update[name] = {key: value for key, value in values.items() if value is not None}
    for name in ROWS:
        if added := getattr(change.more, name):
            update[name] = (*getattr(case, name), *added)
    return case.model_copy(update=update)


def same(one: Case, other: Case) -> bool:
    """Say whether two cases are equal, to the order in which readings and answers were given."""
    return one == other and all(list(getattr(one, name)) == list(getattr(other, name)) for name in NAMED)

"""Three readings that belong together: one for each line, or for each pair of lines."""

from __future__ import annotations

from collections.abc import Mapping

from faultdoc.checks.base import Default, Need, Working
from faultdoc.model.points import FAMILIES
from faultdoc.quantities import Kind

__all__ = ["LINES", "PAIRS", "mean_of", "of_three", "off_mean", "three"]

LINES = FAMILIES["line"]
PAIRS = FAMILIES["pair"]


def three(
    prefix: str, title: str, kind: Kind, members: tuple[str, ...] = LINES, default: Default | None = None
) -> tuple[Need, ...]:
    """Return the needs of three points of one family.

    Args:
        prefix: of the points' ids, before the member of the family.
        title: what to call one, before the member in words.
        kind: of all three.
        members: of the family: LINES or PAIRS.
        default: of each, where it was not read.
    """
    return tuple(
        Need(f"{prefix}_{name}", kind, f"{title} {name.upper().replace('_', ' to ')}", default=default)
        for name in members
    )


def of_three(values: Mapping[str, float], needs: tuple[Need, ...]) -> tuple[float, float, float]:
    """Return the three values in order."""
    one, two, three = (values[need.name] for need in needs)
    return one, two, three


def mean_of(values: Mapping[str, float], needs: tuple[Need, ...]) -> float:
    """Return the mean of the three values."""
    return sum(of_three(values, needs)) / 3.0


def off_mean(found: tuple[float, float, float], unbalance: float, kind: Kind) -> tuple[Working, Working]:
    """Return the lines of working of an unbalance: the mean of the three, and the largest deviation from it."""
    mean = sum(found) / 3.0
    return (
        Working(f"mean {kind.value}", mean, kind),
        Working("largest deviation from it", unbalance * mean, kind),
    )

"""How wrong the numbers may be before the conclusion changes.

Two questions an author or a doubting technician asks: by what factor may a cause's rate be off
before another cause comes first, or before another step is proposed; and by how much may the
probability of an answer be off before it does.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from faultdoc.diagnosis.belief import believe
from faultdoc.diagnosis.evidence import ChoiceEvidence, Evidence
from faultdoc.diagnosis.hypotheses import Floats, Hypotheses

__all__ = ["MOST", "RateMargin", "RowMargin", "first_cause", "rate_margins", "row_margins", "with_rate"]

MOST = 100.0
"""Factors beyond this are not looked for: a rate that far off is another cause."""


@dataclass(frozen=True)
class RateMargin:
    """By what factor a cause's rate may rise or fall before the answer changes; None: by MOST it does not."""

    cause: str
    up: float | None
    down: float | None


@dataclass(frozen=True)
class RowMargin:
    """By what factor the odds of the answer given may be off under one cause before another comes first."""

    question: str
    cause: str
    up: float | None
    down: float | None


def with_rate(sets: Hypotheses, cause: str, factor: float) -> Hypotheses:
    """Return the hypotheses with one cause's prior odds multiplied."""
    place = sets.causes.index(cause)
    odds = sets.odds.copy()
    odds[place] *= factor
    log_prior = sets.log_prior + np.log(factor) * sets.holding(place)
    return replace(sets, odds=odds, log_prior=log_prior)


def rate_margins(sets: Hypotheses, answer: Callable[[Hypotheses], str]) -> tuple[RateMargin, ...]:
    """Return for each cause how far its rate may be off before an answer changes.

    Args:
        sets: the hypotheses.
        answer: from hypotheses with changed priors to what must stay: the first cause
            (`first_cause`), or the step proposed.
    """
    now = answer(sets)
    margins = []
    for cause in sets.causes:

        def changes(factor: float, cause: str = cause) -> bool:
            return answer(with_rate(sets, cause, factor)) != now

        up, down = _least_factor(changes), _least_factor(partial(_inverse, changes))
        margins.append(RateMargin(cause, up, down))
    return tuple(margins)


def first_cause(evidence: Sequence[Evidence]) -> Callable[[Hypotheses], str]:
    """Return the function from hypotheses to the cause that comes first after some evidence."""

    def first(sets: Hypotheses) -> str:
        return sets.causes[int(believe(sets, evidence).marginal.argmax())]

    return first


def row_margins(sets: Hypotheses, evidence: Sequence[Evidence]) -> tuple[RowMargin, ...]:
    """Return for each choice answer given, and each cause with a row there, how far that row may be off.

    The odds of the answer given are multiplied in the row of one cause; sets that hold it change by
    the ratio of the probabilities.
    """
    weights = believe(sets, evidence).weights
    first = int(sets.present(weights).argmax())
    margins = []
    for piece in evidence:
        if not isinstance(piece, ChoiceEvidence):
            continue
        for cause in np.flatnonzero(piece.model.moved):
            changes = _row_changes(sets, weights, first, int(cause), piece)
            up, down = _least_factor(changes), _least_factor(partial(_inverse, changes))
            margins.append(RowMargin(piece.question, sets.causes[int(cause)], up, down))
    return tuple(margins)


def _row_changes(
    sets: Hypotheses, weights: Floats, first: int, cause: int, piece: ChoiceEvidence
) -> Callable[[float], bool]:
    holding = sets.holding(cause)
    p = float(piece.model.alone(cause)[piece.outcome])

    def changes(factor: float) -> bool:
        odds = p / (1.0 - p) * factor
        scaled = weights * np.where(holding, odds / (1.0 + odds) / p, 1.0)
        return int(sets.present(scaled).argmax()) != first

    return changes


def _inverse(changes: Callable[[float], bool], factor: float) -> bool:
    return changes(1.0 / factor)


def _least_factor(changes: Callable[[float], bool]) -> float | None:
    """Return the least factor from 1 to MOST at which something changes, to 1 %; None where nothing does."""
    if not changes(MOST):
        return None
    low, high = 0.0, float(np.log(MOST))
    while high - low > 0.01:
        middle = (low + high) / 2.0
        low, high = (low, middle) if changes(float(np.exp(middle))) else (middle, high)
    return float(np.exp(high))

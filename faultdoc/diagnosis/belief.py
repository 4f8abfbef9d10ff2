"""Belief over causes: exact over sets of causes up to a size, with what is left out bounded.

P(S | evidence) is proportional to prior weight x product of likelihoods. The sets larger than
the size looked at could hold at most the mass that `left_out` states. The next larger sets are
summed exactly where there are not too many of them. Of the rest, a choice answer's likelihood is
at most a product over S and a group of checks' at most d x (largest r_c over S), which is at most
d x (1 + sum of (r_c - 1) over S); so the weight of all of them together is at most a sum of
tails of products of (1 + odds_c x factors of c), each computed exactly.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from faultdoc.diagnosis.evidence import Evidence, ResidualEvidence
from faultdoc.diagnosis.hypotheses import Floats, Hypotheses, tail_mass

__all__ = ["Belief", "Misfit", "Weight", "believe"]

SURPRISING = 0.01
"""An answer less likely than this under all that is still believed is called a misfit."""

UNBELIEVED = 0.01
"""Total weight of the least believed sets, which are passed over when surprise is averaged."""

CERTAIN = 120.0
"""Decibans beyond which odds are not counted on: a million million to one."""


@dataclass(frozen=True)
class Weight:
    """What one piece of evidence did to one cause, in decibans: 10 log10 of the odds ratio (Good 1985)."""

    evidence: Evidence
    decibans: float


@dataclass(frozen=True)
class Misfit:
    """Evidence that fits no cause still believed, and how unlikely it is."""

    evidence: Evidence
    probability: float


@dataclass(frozen=True)
class Belief:
    """The posterior; what only explains it is worked out when it is first looked at.

    Attributes:
        sets: the hypotheses.
        weights: shape (H,), P(set | evidence) among the sets looked at; sums to 1.
        marginal: shape (n,), P(cause present | evidence) among them.
        beyond: the sets of one cause more, summed exactly into `left_out`; None where they are too many.
        log_evidence: natural log of the evidence's probability (density) among the sets looked at.
        evidence: the E pieces, in the order they were taken in.
    """

    sets: Hypotheses
    weights: Floats
    marginal: Floats
    beyond: Hypotheses | None
    log_evidence: float
    evidence: tuple[Evidence, ...]

    @cached_property
    def prior_decibans(self) -> Floats:
        """Log odds of each cause given the symptom alone, in decibans; shape (n,)."""
        return _decibans(self.sets, _normalised(self.sets.log_prior)[0])

    @cached_property
    def steps(self) -> Floats:
        """Change of each cause's log odds as each piece of evidence came in, in decibans; shape (E, n).

        With `prior_decibans` they add up to the final log odds.
        """
        log_post, log_odds = self.sets.log_prior, [self.prior_decibans]
        for piece in self.evidence:
            log_post = log_post + piece.log_likelihood(self.sets)
            log_odds.append(_decibans(self.sets, _normalised(log_post)[0]))
        return np.diff(np.array(log_odds), axis=0)

    @cached_property
    def misfits(self) -> tuple[Misfit, ...]:
        """The evidence that fits nothing still believed, worst first."""
        return _misfits(self.sets, self.evidence, self.weights)

    @cached_property
    def left_out(self) -> float:
        """Upper bound on the posterior mass of all sets larger than those looked at."""
        return _left_out(self)

    def weights_of(self, cause: str) -> tuple[Weight, ...]:
        """Return what each piece of evidence did to one cause, strongest first."""
        column = self.steps[:, self.sets.causes.index(cause)]
        pairs = [Weight(piece, float(value)) for piece, value in zip(self.evidence, column, strict=True)]
        return tuple(sorted(pairs, key=lambda weight: -abs(weight.decibans)))


def believe(sets: Hypotheses, evidence: Sequence[Evidence], beyond: Hypotheses | None = None) -> Belief:
    """Return the belief after some evidence.

    Args:
        sets: the hypotheses.
        evidence: in the order it came in.
        beyond: the sets of exactly one cause more, to tighten `Belief.left_out`; made by
            `enumerate_sets(..., size + 1, smallest=size + 1)`.
    """
    log_post = sets.log_prior
    for piece in evidence:
        log_post = log_post + piece.log_likelihood(sets)
    weights, log_total = _normalised(log_post)
    return Belief(
        sets=sets,
        weights=weights,
        marginal=np.minimum(sets.present(weights), 1.0),
        beyond=beyond,
        log_evidence=log_total - sets.log_total,
        evidence=tuple(evidence),
    )


def _normalised(logs: Floats) -> tuple[Floats, float]:
    """Return weights that sum to 1, and the log of what they were divided by."""
    top = logs.max()
    weights: Floats = np.exp(logs - top)
    total = weights.sum()
    return weights / total, float(top + np.log(total))


def _decibans(sets: Hypotheses, weights: Floats) -> Floats:
    """Return 10 log10 of the odds of each cause, within ±CERTAIN so that certainty stays a number."""
    present = sets.present(weights)
    least = 10.0 ** (-CERTAIN / 10.0)
    decibans: Floats = 10.0 * np.log10(np.maximum(present, least) / np.maximum(1.0 - present, least))
    return decibans


def _left_out(belief: Belief) -> float:
    sets, beyond = belief.sets, belief.beyond
    if sets.size >= len(sets.causes):
        return 0.0
    # Everything is relative to the mass looked at, so that nothing runs out of floating point range.
    seen = belief.log_evidence + sets.log_total
    size, mass = sets.size, 0.0
    if beyond is not None:
        size += 1
        log_beyond = beyond.log_prior + sum(piece.log_likelihood(beyond) for piece in belief.evidence)
        mass = float(np.exp(_normalised(log_beyond)[1] - seen))
    with np.errstate(over="ignore", invalid="ignore"):
        mass += min(_tails(belief, size, seen))
    return mass / (1.0 + mass) if np.isfinite(mass) else 1.0


def _tails(belief: Belief, size: int, seen: float) -> Iterator[float]:
    """Yield upper bounds on the weight of all sets of more than `size` causes, over the mass looked at.

    Every choice answer has several bounds, each a product over the set; they are swapped one by
    one while that lowers the tail. Groups of checks are bounded by their peaks, but one at a time
    by its sum.
    """
    sets = belief.sets
    if size >= len(sets.causes):
        yield 0.0
        return
    groups = [piece.highest() for piece in belief.evidence if isinstance(piece, ResidualEvidence)]
    peaks = [float(np.log(d) + np.log(ratio.max(initial=1.0))) for d, ratio in groups]
    choices = [piece.bounds() for piece in belief.evidence if not isinstance(piece, ResidualEvidence)]
    common, log_weight = sum(peaks) - seen, np.log(sets.odds)
    for bounds in choices:
        tails = [
            common + bound.log_common + np.log(tail_mass(np.exp(log_weight + bound.log_ratio), size))
            for bound in bounds
        ]
        best = bounds[int(np.argmin(tails))]
        common, log_weight = common + best.log_common, log_weight + best.log_ratio
    weight = np.exp(log_weight)
    whole = float(tail_mass(weight, size))
    yield float(np.exp(common)) * whole
    without = np.where(np.eye(len(weight), dtype=bool), 0.0, weight[None, :])
    each = weight * tail_mass(without, size - 1)
    for peak, (d, ratio) in zip(peaks, groups, strict=True):
        yield float(np.exp(common - peak)) * d * (whole + float((ratio - 1.0) @ each))


def _misfits(sets: Hypotheses, evidence: Sequence[Evidence], weights: Floats) -> tuple[Misfit, ...]:
    # Surprise is averaged over what is still believed, not over the many sets that hardly are.
    order = np.argsort(-weights)
    believed = order[: int(np.searchsorted(np.cumsum(weights[order]), 1.0 - UNBELIEVED)) + 1]
    few, share = sets.only(believed), weights[believed] / weights[believed].sum()
    found = [Misfit(piece, float(share @ piece.surprise(few))) for piece in evidence]
    return tuple(sorted((one for one in found if one.probability < SURPRISING), key=lambda one: one.probability))

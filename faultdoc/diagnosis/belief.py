"""Belief over causes: exact over sets of causes up to a size, with what is left out bounded.

P(S | evidence) is proportional to prior weight x product of likelihoods. The sets larger than
the size looked at could hold at most the mass that `left_out` states: every likelihood has a
bound d x (product of r_c over S), so the weight of all larger sets together is at most the
tail of the product of (1 + odds_c x product of r_c), which is computed exactly.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from faultdoc.diagnosis.evidence import Evidence
from faultdoc.diagnosis.hypotheses import Floats, Hypotheses, tail_mass

__all__ = ["Belief", "Misfit", "Weight", "believe"]

SURPRISING = 0.01
"""An answer less likely than this under all that is still believed is called a misfit."""

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
    """The posterior.

    Attributes:
        sets: the hypotheses.
        weights: shape (H,), P(set | evidence) among the sets looked at; sums to 1.
        marginal: shape (n,), P(cause present | evidence) among them.
        left_out: upper bound on the posterior mass of all larger sets.
        log_evidence: natural log of the evidence's probability (density) among the sets looked at.
        prior_decibans: shape (n,), log odds of each cause given the symptom alone.
        steps: shape (E, n), change of each cause's log odds as each piece of evidence came in, in
            decibans; with `prior_decibans` they add up to the final log odds.
        evidence: the E pieces, in the order they were taken in.
        misfits: those that fit nothing still believed, worst first.
    """

    sets: Hypotheses
    weights: Floats
    marginal: Floats
    left_out: float
    log_evidence: float
    prior_decibans: Floats
    steps: Floats
    evidence: tuple[Evidence, ...]
    misfits: tuple[Misfit, ...]

    def weights_of(self, cause: str) -> tuple[Weight, ...]:
        """Return what each piece of evidence did to one cause, strongest first."""
        column = self.steps[:, self.sets.causes.index(cause)]
        pairs = [Weight(piece, float(value)) for piece, value in zip(self.evidence, column, strict=True)]
        return tuple(sorted(pairs, key=lambda weight: -abs(weight.decibans)))


def believe(sets: Hypotheses, evidence: Sequence[Evidence]) -> Belief:
    """Return the belief after some evidence."""
    log_post = sets.log_prior.copy()
    likelihoods = [piece.likelihood(sets) for piece in evidence]
    weights = _normalised(log_post)
    log_odds = [_decibans(sets, weights)]
    for likelihood in likelihoods:
        log_post = log_post + np.log(likelihood)
        weights = _normalised(log_post)
        log_odds.append(_decibans(sets, weights))
    marginal = np.clip(sets.present(weights), 0.0, 1.0)
    return Belief(
        sets=sets,
        weights=weights,
        marginal=marginal,
        left_out=_left_out(sets, evidence, log_post),
        log_evidence=_log_sum(log_post) - _log_sum(sets.log_prior),
        prior_decibans=log_odds[0],
        steps=np.diff(np.array(log_odds), axis=0),
        evidence=tuple(evidence),
        misfits=_misfits(sets, evidence, weights),
    )


def _log_sum(logs: Floats) -> float:
    top = float(logs.max())
    return top + float(np.log(np.exp(logs - top).sum()))


def _normalised(logs: Floats) -> Floats:
    weights: Floats = np.exp(logs - logs.max())
    weights = weights / weights.sum()
    return weights


def _decibans(sets: Hypotheses, weights: Floats) -> Floats:
    """Return 10 log10 of the odds of each cause, within ±CERTAIN so that certainty stays a number."""
    present = sets.present(weights)
    least = 10.0 ** (-CERTAIN / 10.0)
    decibans: Floats = 10.0 * np.log10(np.maximum(present, least) / np.maximum(1.0 - present, least))
    return decibans


def _left_out(sets: Hypotheses, evidence: Sequence[Evidence], log_post: Floats) -> float:
    if sets.size >= len(sets.causes):
        return 0.0
    log_common = 0.0
    log_ratio = np.log(sets.odds)
    for piece in evidence:
        d, ratio = piece.bound()
        log_common += float(np.log(d))
        log_ratio = log_ratio + np.log(ratio)
    # Scaled by the mass looked at, so that neither runs out of floating point range.
    seen = _log_sum(log_post)
    with np.errstate(over="ignore"):
        tail = tail_mass(np.exp(log_ratio), sets.size)
    if tail == 0.0:
        return 0.0
    if not np.isfinite(tail):
        return 1.0
    log_tail = float(np.log(tail)) + log_common
    return float(1.0 / (1.0 + np.exp(min(seen - log_tail, 700.0))))


def _misfits(sets: Hypotheses, evidence: Sequence[Evidence], weights: Floats) -> tuple[Misfit, ...]:
    found = [Misfit(piece, float(weights @ piece.surprise(sets))) for piece in evidence]
    return tuple(sorted((one for one in found if one.probability < SURPRISING), key=lambda one: one.probability))

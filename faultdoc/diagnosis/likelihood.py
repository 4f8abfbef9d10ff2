"""What each answer to a question says of each set of causes.

Choice questions combine by noisy-max over ordered outcomes: a cause's row is the distribution of
the outcome when that cause alone is there; where several are, the most telling outcome among
them shows, so the cumulative probabilities multiply. The default row holds when no cause that
moves the question is there.

Questions with a check have a continuous residual. A cause's row gives the mean and the spread of
the residual when it alone is there; shifts add up, variances add up, and the meters' variance is
added on top. A mean cannot go below the check's floor.

Every row is first mixed with the question's slip: with that probability the answer is wrong for
reasons of its own and says nothing (any outcome alike; any residual over SPAN alike). So no
single answer can rule a cause out for good.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import log, pi

import numpy as np
from numpy.typing import NDArray

from faultdoc.diagnosis.hypotheses import Floats, Hypotheses
from faultdoc.model.tree import Question, Shift, Weights

__all__ = [
    "SPAN",
    "Bound",
    "ChoiceModel",
    "ResidualModel",
    "choice_model",
    "residual_bins",
    "residual_bound",
    "residual_edges",
    "residual_likelihood",
    "residual_model",
]

SPAN = 8.0
"""Width of the residuals that a slip may show, in the check's scale: nothing to several times the expected."""


@dataclass(frozen=True)
class Bound:
    """An upper bound on a likelihood: log L(S) <= log_common + sum of log_ratio over S, for every set S."""

    log_common: float
    log_ratio: Floats


@dataclass(frozen=True)
class ChoiceModel:
    """A choice question over n causes.

    Attributes:
        log_cdf: shape (n, O), log of the cumulative row of each cause; zero for causes that do
            not move the question.
        moved: shape (n,), which causes have a row.
        default: shape (O,), the default row, slip included.
    """

    log_cdf: Floats
    moved: NDArray[np.bool_]
    default: Floats
    _last: list[tuple[Hypotheses, Floats]] = field(default_factory=list, repr=False, compare=False)

    def alone(self, cause: int) -> Floats:
        """Return the row of one cause (by index), slip included, shape (O,)."""
        if not self.moved[cause]:
            return self.default
        row: Floats = np.diff(np.exp(self.log_cdf[cause]), prepend=0.0)
        return row

    def log_table(self, sets: Hypotheses) -> Floats:
        """Return log P(outcome | set), shape (O, H). The last two are kept: a belief adds them up anew."""
        for known, table in self._last:
            if known is sets:
                return table
        table = np.ascontiguousarray(np.log(self.table(sets)).T)
        self._last[:] = [(sets, table), *self._last[:1]]
        return table

    def table(self, sets: Hypotheses) -> Floats:
        """Return P(outcome | set), shape (H, O); rows sum to 1."""
        cdf = np.exp(sets.add_up(self.log_cdf))
        rows = np.diff(cdf, axis=1, prepend=0.0)
        rows[~sets.holding_any(self.moved)] = self.default
        return rows

    def bounds(self, outcome: int) -> list[Bound]:
        """Return bounds on P(outcome | S) that hold for every set S; each is a product over S.

        With F_c the cumulative rows and d the default's probability: no cause that moves the
        question gives d, one or more give at most the product of their F. So the product of F
        bounds it, as does d x product of F / d (since d <= 1), as does the largest of d and all F.
        """
        d, cdf = float(self.default[outcome]), self.log_cdf[:, outcome]
        most = max(d, float(np.exp(cdf[self.moved].max(initial=-np.inf))))
        nothing = np.zeros(len(cdf))
        return [
            Bound(log(most), nothing),
            Bound(0.0, cdf),
            Bound(log(d), np.where(self.moved, cdf - log(d), 0.0)),
        ]


def choice_model(question: Question, causes: Sequence[str]) -> ChoiceModel:
    """Return the model of a choice question over `causes`."""
    ids = [outcome.id for outcome in question.outcomes]

    def row(given: Weights | Shift) -> Floats:
        assert isinstance(given, Weights)
        p = np.array([given.p.get(outcome, 0.0) for outcome in ids])
        mixed: Floats = (1.0 - question.slip) * p / p.sum() + question.slip / len(ids)
        return mixed

    log_cdf = np.zeros((len(causes), len(ids)))
    moved = np.zeros(len(causes), dtype=bool)
    for i, cause in enumerate(causes):
        if cause in question.given:
            log_cdf[i] = np.log(np.cumsum(row(question.given[cause])))
            log_cdf[i, -1] = 0.0
            moved[i] = True
    return ChoiceModel(log_cdf, moved, row(question.given["default"]))


@dataclass(frozen=True)
class ResidualModel:
    """A question with a check over n causes.

    Attributes:
        shift, variance: shape (n,), of each cause's row, shift taken from the default's; else zero.
        moved: shape (n,), which causes have a row.
        default_shift, default_variance: the default row.
        floor: lowest residual that can be, or None.
        slip: probability of a wrong answer.
        meter: usual meter standard deviation, for planning.
    """

    shift: Floats
    variance: Floats
    moved: NDArray[np.bool_]
    default_shift: float
    default_variance: float
    floor: float | None
    slip: float
    meter: float

    def floored(self, mean: Floats) -> Floats:
        """Return means raised to the floor, any shape."""
        return mean if self.floor is None else np.maximum(mean, self.floor)

    @property
    def default_mean(self) -> Floats:
        """Mean of the residual when nothing moves it, shape ()."""
        return self.floored(np.array(self.default_shift))

    def moments(self, sets: Hypotheses) -> tuple[Floats, Floats]:
        """Return mean and variance of the residual for each set, meters left out; shapes (H,)."""
        mean = self.floored(self.default_shift + sets.add_up(self.shift))
        variance = sets.add_up(self.variance)
        return mean, np.where(sets.holding_any(self.moved), variance, self.default_variance)


def residual_model(question: Question, causes: Sequence[str], floor: float | None) -> ResidualModel:
    """Return the model of a question with a check over `causes`; `floor` is the check's."""
    default = question.given["default"]
    assert isinstance(default, Shift)
    n = len(causes)
    shift, variance, moved = np.zeros(n), np.zeros(n), np.zeros(n, dtype=bool)
    for i, cause in enumerate(causes):
        row = question.given.get(cause)
        if isinstance(row, Shift):
            shift[i], variance[i], moved[i] = row.shift - default.shift, row.spread**2, True
    return ResidualModel(
        shift, variance, moved, default.shift, default.spread**2, floor, question.slip, question.meter
    )


def residual_likelihood(
    models: Sequence[ResidualModel], residuals: Floats, meter_covariance: Floats, sets: Hypotheses
) -> Floats:
    """Return the joint density of residuals that may lean on common readings, for each set; shape (H,).

    The meters' errors are common to the residuals, the spreads are not: the covariance is
    `meter_covariance` plus a diagonal of spreads.

    Args:
        models: m of them.
        residuals: shape (m,).
        meter_covariance: shape (m, m), in the residuals' scales.
        sets: the hypotheses.
    """
    moments = [model.moments(sets) for model in models]
    off = residuals[None, :] - np.stack([mean for mean, _ in moments], axis=1)
    spread = np.stack([variance for _, variance in moments], axis=1)
    return _with_slips(off, spread, meter_covariance, np.array([model.slip for model in models]))


def residual_bound(
    models: Sequence[ResidualModel], residuals: Floats, meter_covariance: Floats
) -> tuple[float, Floats]:
    """Return (d, r) with density(residuals | S) <= d x largest r over S (1 at least), for every set S.

    A set that moves none of the residuals has the default's density d. One that holds a cause
    which moves some has at least that cause's variances there, and elsewhere at least the
    smallest of any row, so its density is at most the peak with those, whatever the means.
    """
    slips = np.array([model.slip for model in models])
    default_off = residuals - np.array([model.default_mean for model in models])
    default_spread = np.array([model.default_variance for model in models])
    d = float(_with_slips(default_off[None, :], default_spread[None, :], meter_covariance, slips)[0])
    least = np.stack(
        [
            np.where(
                model.moved,
                model.variance,
                min(model.default_variance, *model.variance[model.moved], np.inf),
            )
            for model in models
        ],
        axis=1,
    )
    peak = _with_slips(np.zeros_like(least), least, meter_covariance, slips)
    moved = np.any([model.moved for model in models], axis=0)
    return d, np.where(moved, np.maximum(1.0, peak / d), 1.0)


def _with_slips(off: Floats, spread: Floats, covariance: Floats, slips: Floats) -> Floats:
    """Return the density at `off` (H, m) where each residual may have slipped, shape (H,).

    Exact where none or one slipped; where two or more did, all are taken as saying nothing.
    The density of all residuals but one is that of all, divided by that of the one given the others;
    both come from the inverse of the one covariance (Bishop 2006, 2.3.1).
    """
    m = off.shape[1]
    precision = np.linalg.inv(covariance[None, :, :] + spread[:, :, None] * np.eye(m))
    pull = np.einsum("hij,hj->hi", precision, off)
    own = np.diagonal(precision, axis1=1, axis2=2)
    log_all = 0.5 * (np.linalg.slogdet(precision)[1] - (off * pull).sum(axis=1) - m * log(2.0 * pi))
    log_given = 0.5 * (np.log(own / (2.0 * pi)) - pull**2 / own)
    none = float(np.prod(1.0 - slips))
    one = none / (1.0 - slips) * slips
    total: Floats = none * np.exp(log_all) + np.exp(log_all[:, None] - log_given) @ (one / SPAN)
    total = total + max(1.0 - none - float(one.sum()), 0.0) * SPAN**-m
    return total


def residual_edges(model: ResidualModel) -> Floats:
    """Return where to part what a check's residual may turn out to be into a few bins, shape (B - 1,).

    The edges lie between the means of the rows where these lie further apart than the readings
    scatter; nothing is lost by lumping what the reading could not tell apart.
    """
    centres = model.floored(np.append((model.default_shift + model.shift)[model.moved], model.default_shift))
    sds = np.sqrt(np.append(model.variance[model.moved], model.default_variance) + model.meter**2)
    order = np.argsort(centres, kind="stable")
    groups: list[list[int]] = [[int(order[0])]]
    for i in order[1:]:
        first = groups[-1][0]
        if centres[i] - centres[first] > 1.5 * min(sds[i], sds[first]):
            groups.append([int(i)])
        else:
            groups[-1].append(int(i))
    middles = np.array([centres[group].mean() for group in groups])
    widths = np.array([sds[group].mean() for group in groups])
    # Between two groups the line falls nearer to the sharper one.
    edges: Floats = (middles[:-1] * widths[1:] + middles[1:] * widths[:-1]) / (widths[:-1] + widths[1:])
    return edges


def residual_bins(model: ResidualModel, edges: Floats, mean: Floats, variance: Floats) -> Floats:
    """Return the probability of each bin, with the usual meter and the slip; shape (..., B).

    Args:
        model: the question's.
        edges: shape (B - 1,).
        mean, variance: of the residual without the meter, any common shape.
    """
    from scipy.special import ndtr

    sd = np.sqrt(variance + model.meter**2)
    cdf = ndtr((edges - mean[..., None]) / sd[..., None])
    bins = np.diff(cdf, axis=-1, prepend=0.0, append=1.0)
    mixed: Floats = (1.0 - model.slip) * bins + model.slip / bins.shape[-1]
    return mixed

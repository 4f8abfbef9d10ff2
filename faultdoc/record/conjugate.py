"""Conjugate priors: what counts and measured values make of what was believed before. Pure arithmetic.

Formulas: Gelman, Carlin, Stern, Dunson, Vehtari, Rubin, Bayesian Data Analysis (3rd ed. 2013), 2.6 (gamma and
Poisson with exposure), 3.4 (Dirichlet and multinomial), 3.3 (normal with unknown mean and variance).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, sqrt

__all__ = ["INTERVAL", "Dirichlet", "Gamma", "NormalInverseGamma", "wilson"]

INTERVAL = 0.9
"""Probability inside the credible intervals; the tails outside are equal."""


@dataclass(frozen=True)
class Gamma:
    """A rate known as gamma: `shape` events in `exposure`; improper with shape 0."""

    shape: float
    exposure: float

    def updated(self, events: float, exposure: float) -> Gamma:
        """Return it after so many more events, Poisson with the rate times `exposure`."""
        return Gamma(self.shape + events, self.exposure + exposure)

    @property
    def mean(self) -> float:
        """The expected rate."""
        return self.shape / self.exposure

    def interval(self, inside: float = INTERVAL) -> tuple[float, float]:
        """Return the central credible interval of the rate."""
        from scipy.special import gammaincinv

        tail = (1.0 - inside) / 2.0
        low, high = (float(gammaincinv(self.shape, p)) / self.exposure for p in (tail, 1.0 - tail))
        return low, high


@dataclass(frozen=True)
class Dirichlet:
    """Shares that add up to 1, known as from so many pseudo-counts each; 0 stands for a share that cannot be."""

    counts: tuple[float, ...]

    def updated(self, counts: Sequence[float]) -> Dirichlet:
        """Return it after so many more of each."""
        return Dirichlet(tuple(a + n for a, n in zip(self.counts, counts, strict=True)))

    @property
    def mean(self) -> tuple[float, ...]:
        """The expected shares."""
        total = sum(self.counts)
        return tuple(a / total for a in self.counts)

    def interval(self, place: int, inside: float = INTERVAL) -> tuple[float, float]:
        """Return the central credible interval of one share: its marginal is beta."""
        from scipy.special import betaincinv

        own = self.counts[place]
        rest = sum(self.counts) - own
        if own == 0.0 or rest == 0.0:
            return (0.0, 0.0) if own == 0.0 else (1.0, 1.0)
        tail = (1.0 - inside) / 2.0
        return float(betaincinv(own, rest, tail)), float(betaincinv(own, rest, 1.0 - tail))


@dataclass(frozen=True)
class NormalInverseGamma:
    """Mean and variance of a normal quantity: the mean as from `weight` values, the variance as
    inverse gamma with `shape` and `scale`."""  # fmt: skip

    mean: float
    weight: float
    shape: float
    scale: float

    @classmethod
    def of(cls, mean: float, variance: float, weight: float) -> NormalInverseGamma:
        """Return one whose expected mean and variance are these, each as from `weight` values."""
        return cls(mean, weight, 1.0 + weight / 2.0, variance * weight / 2.0)

    def updated(self, values: int, mean: float, squares: float) -> NormalInverseGamma:
        """Return it after so many values with a mean and a sum of squared distances from it."""
        weight = self.weight + values
        apart = mean - self.mean
        return NormalInverseGamma(
            mean=self.mean + apart * values / weight,
            weight=weight,
            shape=self.shape + values / 2.0,
            scale=self.scale + squares / 2.0 + self.weight * values * apart**2 / (2.0 * weight),
        )

    @property
    def variance(self) -> float:
        """The expected variance of a value; infinite where the shape does not give one."""
        return self.scale / (self.shape - 1.0) if self.shape > 1.0 else inf

    def interval(self, inside: float = INTERVAL) -> tuple[float, float]:
        """Return the central credible interval of the mean: its marginal is Student's t."""
        from scipy.special import stdtrit

        half = float(stdtrit(2.0 * self.shape, (1.0 + inside) / 2.0))
        half *= sqrt(self.scale / (self.shape * self.weight))
        return self.mean - half, self.mean + half

    def spread_interval(self, inside: float = INTERVAL) -> tuple[float, float]:
        """Return the central credible interval of a value's standard deviation."""
        from scipy.special import gammaincinv

        tail = (1.0 - inside) / 2.0
        low, high = (sqrt(self.scale / float(gammaincinv(self.shape, p))) for p in (1.0 - tail, tail))
        return low, high


def wilson(share: float, count: int, z: float = 1.959963984540054) -> tuple[float, float]:
    """Return the confidence interval of a share of so many (Wilson 1927), 95 % by default.

    >>> [round(x, 3) for x in wilson(0.5, 10)]
    [0.237, 0.763]
    """
    if count == 0:
        return 0.0, 1.0
    middle = (share + z * z / (2.0 * count)) / (1.0 + z * z / count)
    half = z * sqrt(share * (1.0 - share) / count + z * z / (4.0 * count * count)) / (1.0 + z * z / count)
    return max(0.0, middle - half), min(1.0, middle + half)

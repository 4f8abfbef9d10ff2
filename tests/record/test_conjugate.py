"""Conjugate priors against scipy.stats, and against brute force where scipy has no such distribution."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from faultdoc.record.conjugate import Dirichlet, Gamma, NormalInverseGamma, wilson

sizes = st.floats(0.05, 200.0)


@given(sizes, sizes, st.integers(0, 50), sizes)
def test_gamma_is_the_normalised_product_of_prior_and_likelihood(shape, exposure, events, more):
    after = Gamma(shape, exposure).updated(events, more)
    rates = np.array([0.7, 1.3]) * after.mean
    logs = stats.gamma.logpdf(rates, shape, scale=1 / exposure) + stats.poisson.logpmf(events, rates * more)
    found = stats.gamma.logpdf(rates, after.shape, scale=1 / after.exposure)
    # Bayes' rule up to a constant: the ratio of two densities is that of the products.
    assert found[1] - found[0] == pytest.approx(logs[1] - logs[0], abs=1e-6)
    assert after.interval() == pytest.approx(
        stats.gamma.ppf([0.05, 0.95], after.shape, scale=1 / after.exposure), rel=1e-6, abs=1e-200
    )


@given(st.lists(st.floats(0.1, 20.0), min_size=2, max_size=5), st.data())
def test_dirichlet_marginals_are_beta(weights, data):
    counts = data.draw(st.lists(st.integers(0, 30), min_size=len(weights), max_size=len(weights)))
    after = Dirichlet(tuple(weights)).updated(counts)
    assert after.mean == pytest.approx(stats.dirichlet.mean(np.add(weights, counts)))
    total = sum(after.counts)
    for place, own in enumerate(after.counts):
        assert after.interval(place) == pytest.approx(stats.beta.ppf([0.05, 0.95], own, total - own), rel=1e-6)


def test_a_share_that_cannot_be_stays_so_until_it_is_seen():
    row = Dirichlet((8.0, 2.0, 0.0))
    assert row.updated((1, 1, 0)).mean[2] == 0.0
    assert row.interval(2) == (0.0, 0.0)
    assert row.updated((0, 0, 2)).mean[2] == pytest.approx(2 / 12)


def test_normal_inverse_gamma_against_the_joint_density():
    values = np.array([1.2, 0.4, 2.0, 1.1])
    prior = NormalInverseGamma.of(0.5, 0.3, 6.0)
    after = prior.updated(4, float(values.mean()), float(((values - values.mean()) ** 2).sum()))

    def log_density(one, mean, variance):
        inverse = stats.invgamma.logpdf(variance, one.shape, scale=one.scale)
        return inverse + stats.norm.logpdf(mean, one.mean, np.sqrt(variance / one.weight))

    points = [(0.6, 0.2), (1.0, 0.5), (0.2, 0.9)]
    found = np.array([log_density(after, *at) for at in points])
    product = np.array(
        [log_density(prior, m, v) + stats.norm.logpdf(values, m, np.sqrt(v)).sum() for m, v in points]
    )
    assert np.ptp(found - product) == pytest.approx(0.0, abs=1e-9)
    assert prior.variance == pytest.approx(0.3)
    assert after.variance == pytest.approx(stats.invgamma.mean(after.shape, scale=after.scale))
    marginal = stats.t(2 * after.shape, after.mean, np.sqrt(after.scale / (after.shape * after.weight)))
    assert after.interval() == pytest.approx(marginal.ppf([0.05, 0.95]))
    assert after.spread_interval() == pytest.approx(
        np.sqrt(stats.invgamma.ppf([0.05, 0.95], after.shape, scale=after.scale))
    )


@pytest.mark.parametrize(("found", "count"), [(0, 4), (3, 4), (10, 10), (37, 120)])
def test_wilson_against_scipy(found, count):
    theirs = stats.binomtest(found, count).proportion_ci(method="wilson")
    assert wilson(found / count, count) == pytest.approx((theirs.low, theirs.high), abs=1e-12)

"""Conjugate formulas against the worked examples of a textbook, as printed there.

Source: Gelman, Carlin, Stern, Dunson, Vehtari, Rubin, Bayesian Data Analysis, 3rd ed. (2013): 2.6, "Estimating a
rate from Poisson data: an idealized example" (asthma deaths in a city), and 2.7 (kidney cancer deaths by county).
"""

from scipy.stats import gamma

from faultdoc.record.conjugate import Gamma

ASTHMA = "Gelman et al., Bayesian Data Analysis, 2.6"
KIDNEY = "Gelman et al., Bayesian Data Analysis, 2.7"


def above(known: Gamma, rate: float) -> float:
    return float(gamma.sf(rate, known.shape, scale=1.0 / known.exposure))


def test_asthma_deaths(published):
    prior = Gamma(3.0, 5.0)
    published(ASTHMA, "prior mean, deaths per 100,000", 0.6, prior.mean, 1e-9)
    published(ASTHMA, "prior's 97.5 % point", 1.44, prior.interval(0.95)[1], 0.005)
    one_year = prior.updated(3, 2.0)
    published(ASTHMA, "posterior shape after 3 deaths in 200,000", 6.0, one_year.shape, 1e-12)
    published(ASTHMA, "posterior exposure after 3 deaths in 200,000", 7.0, one_year.exposure, 1e-12)
    published(ASTHMA, "posterior mean", 0.86, one_year.mean, 0.005)
    published(ASTHMA, "posterior probability above 1.0", 0.30, above(one_year, 1.0), 0.005)
    ten_years = prior.updated(30, 20.0)
    published(ASTHMA, "posterior mean after ten years", 1.32, ten_years.mean, 0.005)
    published(ASTHMA, "probability above 1.0 after ten years", 0.93, above(ten_years, 1.0), 0.005)


def test_kidney_cancer_deaths(published):
    prior = Gamma(20.0, 430_000.0)
    published(KIDNEY, "prior mean x 1e5", 4.65, 1e5 * prior.mean, 0.005)
    for deaths, mean in ((0, 4.55), (1, 4.77), (2, 5.00)):
        found = prior.updated(deaths, 10_000.0).mean
        published(KIDNEY, f"posterior mean x 1e5, {deaths} deaths among 1,000 people", mean, 1e5 * found, 0.005)
    for deaths, mean in ((393, 3.96), (545, 5.41)):
        found = prior.updated(deaths, 1e7).mean
        published(KIDNEY, f"posterior mean x 1e5, {deaths} deaths among a million", mean, 1e5 * found, 0.012)

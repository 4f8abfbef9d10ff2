"""The lumped sump against worked examples of lumped capacitance in textbooks."""

from math import pi

import pytest

from faultdoc.physics import oil


def sphere(diameter, density, heat_capacity, film):
    """Return heat capacity (J/K) and heat loss (W/K) of a ball in a stream."""
    return density * heat_capacity * pi * diameter**3 / 6.0, film * pi * diameter**2


def test_thermocouple_of_cengel(published):
    source = "Çengel, Heat Transfer, example 4-1, worked in git.fossee.in Scilab textbook companion 587"
    capacity, loss = sphere(1e-3, 8500.0, 320.0, 210.0)
    # Warmed by nothing but the gas: 99 % of the way from 0 to 100.
    ours = oil.time_to_reach(99.0, 0.0, 100.0, 0.0, capacity, loss)
    published(source, "time to 99 % of the step, s", 10.0, ours, 0.5)
    published(source, "exponent, 1/s", 0.462, loss / capacity, 0.0015)


def test_thermocouple_of_incropera(published):
    source = "Incropera, Fundamentals of Heat and Mass Transfer, example 5.1 (from memory)"
    capacity, loss = sphere(7.06e-4, 8500.0, 400.0, 400.0)
    published(source, "time constant, s", 1.0, capacity / loss, 0.005)
    ours = oil.time_to_reach(472.0, 298.0, 473.0, 0.0, capacity, loss)
    published(source, "time from 25 to 199 °C in gas of 200 °C, s", 5.2, ours, 0.05)


@pytest.mark.parametrize(("constants", "share"), [(1, 0.632), (2, 0.865), (3, 0.950), (5, 0.993)])
def test_step_response_of_first_order(published, constants, share):
    source = "step response of a first-order system: 1 - exp(-n)"
    capacity, loss = 20e3, 2.8
    warmed = oil.sump_temperature(constants * capacity / loss, 293.15, 293.15, 70.0, capacity, loss) - 293.15
    published(source, f"share of the step after {constants} time constants", share, warmed / 25.0, 0.0006)

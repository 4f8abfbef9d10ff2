"""Unbalance against worked examples of NEMA MG 1's rule; the motor's current against figures of the trade."""

import pytest

from faultdoc.checks.electrical import CURRENT_UNBALANCE_LIMIT, VOLTAGE_UNBALANCE_LIMIT
from faultdoc.physics import electrical


@pytest.mark.parametrize(
    ("source", "volts", "percent", "last_digit"),
    [
        ("worked example, tools.gera.services/ac-voltage-imbalance-calculator", (460.0, 467.0, 450.0), 1.96, 0.01),
        ("worked example quoted in eng-tips.com thread 481112", (462.0, 463.0, 455.0), 1.1, 0.1),
        ("worked example, industrialmonitordirect.com on NEMA MG 1 limits", (480.0, 476.0, 472.0), 0.84, 0.01),
    ],
)
def test_voltage_unbalance(published, source, volts, percent, last_digit):
    ours = 100.0 * electrical.voltage_unbalance(*volts)
    published(f"NEMA MG 1: {source}", f"unbalance of {volts} V, %", percent, ours, last_digit / 2)


def test_limits(published):
    source = "NEMA MG 1 as quoted at ecmweb.com, 'Unbalanced current'"
    published(
        source, "voltage unbalance above which to correct or derate, %", 1.0, 100 * VOLTAGE_UNBALANCE_LIMIT, 1e-9
    )
    published(source, "current unbalance above which to act, %", 10.0, 100 * CURRENT_UNBALANCE_LIMIT, 1e-9)


@pytest.mark.parametrize(("load", "share_of_current"), [(1.0, 1.0), (0.75, 0.79), (0.5, 0.61)])
def test_current_of_a_small_motor_at_part_load(published, load, share_of_current):
    # Catalogue figures of four-pole motors of some 4 kW: about 79 % of rated current at three
    # quarters load and 61 % at half load; motors differ by several per cent, hence the tolerance.
    ours = electrical.motor_current(load, 1.0, 0.45)
    source = "part-load currents of 4 kW four-pole motors, common practice (from memory)"
    published(source, f"current at load {load:g}, share of rated", share_of_current, ours, 0.06)

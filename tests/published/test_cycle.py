"""The vapour-compression cycle against worked examples, and a unit off its design point against rating curves."""

import numpy as np
import pytest

from faultdoc.library.load import load_unit
from faultdoc.physics import refrigerant, vapour
from faultdoc.simulator.circuit import Around, Health, cycles
from faultdoc.simulator.condition import Circuit
from faultdoc.simulator.machine import machine

CENGEL = "Çengel and Boles, Thermodynamics, example {}; from memory"


def celsius(name, pressure, line):
    return float(getattr(refrigerant, f"{line}_temperature")(name, pressure))


def test_the_ideal_cycle_of_r134a(published):
    """Saturated vapour at 0.14 MPa, saturated liquid at 0.8 MPa, isentropic compression, 0.05 kg/s."""
    name, flow = "R-134a", 0.05
    low, high = celsius(name, 140e3, "dew"), celsius(name, 800e3, "dew")
    h1, s1 = vapour.enthalpy(name, low, 0.0), vapour.entropy(name, low, 0.0)
    h2 = vapour.enthalpy_after_compression(name, high, s1, h1, 1.0)
    h3 = vapour.liquid_enthalpy(name, celsius(name, 800e3, "bubble"))
    source = CENGEL.format("11-1")
    published(source, "heat taken up, kW", 7.18, float(flow * (h1 - h3)) / 1000.0, 0.01)
    published(source, "work, kW", 1.81, float(flow * (h2 - h1)) / 1000.0, 0.01)
    published(source, "coefficient of performance", 3.97, float((h1 - h3) / (h2 - h1)), 0.01)


def test_an_actual_cycle_of_r134a(published):
    """In at 0.14 MPa and -10 °C, out at 0.8 MPa and 50 °C, liquid at 0.72 MPa and 26 °C, 0.05 kg/s."""
    name, flow = "R-134a", 0.05
    low, high = celsius(name, 140e3, "dew"), celsius(name, 800e3, "dew")
    h1 = vapour.enthalpy(name, low, 263.15 - low)
    h2 = vapour.enthalpy(name, high, 323.15 - high)
    ideal = vapour.enthalpy_after_compression(name, high, vapour.entropy(name, low, 263.15 - low), h1, 1.0)
    h3 = vapour.liquid_enthalpy(name, 299.15)
    source = CENGEL.format("11-2")
    published(source, "heat taken up, kW", 7.93, float(flow * (h1 - h3)) / 1000.0, 0.01)
    published(source, "work, kW", 2.02, float(flow * (h2 - h1)) / 1000.0, 0.01)
    published(source, "isentropic efficiency", 0.939, float((ideal - h1) / (h2 - h1)), 0.01)


def test_an_ideal_cycle_between_temperatures(published):
    """Saturated vapour at -10 °C, saturated liquid at 28 °C, isentropic; off an older table."""
    name, low, high = "R-134a", 263.15, 301.15
    h1, s1 = vapour.enthalpy(name, low, 0.0), vapour.entropy(name, low, 0.0)
    h2 = vapour.enthalpy_after_compression(name, high, s1, h1, 1.0)
    h3 = vapour.liquid_enthalpy(name, high)
    source = "worked example with its table values, numerade.com/ask/question 58272: 241.35, 267.9, 88.61 kJ/kg"
    published(source, "heat taken up, kJ/kg", 241.35 - 88.61, float(h1 - h3) / 1000.0, 1.2)
    published(source, "work, kJ/kg", 267.9 - 241.35, float(h2 - h1) / 1000.0, 1.5)


NECB = "National Energy Code of Canada for Buildings 2020, 8.4.5.5, air-cooled {}"
# Capacity and input per capacity over rated, biquadratic in leaving water and outdoor air, °F.
CURVES = {
    "scroll": (
        [0.40070684, 0.01861548, 0.00007199, 0.00177296, -0.00002014, -0.00008273],
        [0.99006553, -0.00584144, 0.00016454, -0.00661136, 0.00016808, -0.00022501],
    ),
    "screw": (
        [-0.09464899, 0.0383407, -0.00009205, 0.00378007, -0.00001375, -0.00015464],
        [0.013545636, 0.02292946, -0.00016107, -0.00235396, 0.00012991, -0.00018585],
    ),
}


def fahrenheit(kelvin):
    return kelvin * 1.8 - 459.67


def curve(coefficients, leaving, outdoor):
    a, b, c, d, e, f = coefficients
    return a + b * leaving + c * leaving**2 + d * outdoor + e * outdoor**2 + f * leaving * outdoor


@pytest.mark.parametrize(
    ("unit", "kind"), [("bluff_30", "scroll"), ("marten_60", "scroll"), ("tarn_120", "screw")]
)
@pytest.mark.parametrize("outdoor", [75.0, 85.0, 105.0, 115.0])
@pytest.mark.parametrize("entering", [50.0, 54.0, 60.0])
def test_capacity_and_power_off_the_design_point_go_as_rating_curves_do(published, unit, kind, outdoor, entering):
    """The curves are fits over many makes: seven or eight hundredths are what is asked of three units."""
    unit = machine(load_unit(unit))
    shape = (1, len(unit.circuits))

    def at(entering, outdoor):
        health = Health.of([[Circuit()] * shape[1]], np.ones(shape), np.ones(shape), np.zeros(shape))
        air = (outdoor + 459.67) / 1.8
        found = cycles(unit, Around((entering + 459.67) / 1.8, unit.design_rate, 1.0, air, 0.0), health)
        assert found.solved.all()
        leaving = fahrenheit(float(found.water_out[0]))
        capacity, power = found.cooling.sum(), found.power.sum()
        wanted = curve(CURVES[kind][0], leaving, outdoor)
        return capacity, power, wanted, wanted * curve(CURVES[kind][1], leaving, outdoor)

    base, here = at(54.0, 95.0), at(entering, outdoor)
    source = NECB.format(kind)
    where = f"{unit.sheet.id}, water in {entering:.0f} °F, air {outdoor:.0f} °F"
    published(source, f"capacity over rated, {where}", here[2] / base[2], here[0] / base[0], 0.07)
    published(source, f"power over rated, {where}", here[3] / base[3], here[1] / base[1], 0.08)

import subprocess
import sys

import numpy as np
import pytest
from CoolProp import CoolProp
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.physics import refrigerant

LINES = {"bubble": 0.0, "dew": 1.0}
TEMPERATURE = {"bubble": refrigerant.bubble_temperature, "dew": refrigerant.dew_temperature}
PRESSURE = {"bubble": refrigerant.bubble_pressure, "dew": refrigerant.dew_pressure}

# Asked of CoolProp in another way than the module does: blends by its own predefined mixtures.
DIRECT = {
    "R-410A": "R410A", "R-134a": "R134a", "R-22": "R22", "R-407C": "R407C", "R-404A": "R404A", "R-32": "R32",
    "R-454B": "R454B.mix", "R-513A": "R513A.mix", "R-1234ze(E)": "R1234ze(E)",
}  # fmt: skip

names = st.sampled_from(refrigerant.NAMES)
lines = st.sampled_from(sorted(LINES))
shares = st.floats(0.0, 1.0)


def pressure_at(name, line, share):
    """Return a pressure of the range, spread evenly in its logarithm."""
    low, high = refrigerant.pressure_range(name, line)
    return float(np.clip(low * (high / low) ** share, low, high))


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("name", refrigerant.NAMES)
def test_tables_are_within_a_fiftieth_of_a_kelvin_of_coolprop(name, line):
    low, high = refrigerant.pressure_range(name, line)
    state = CoolProp.AbstractState("HEOS", DIRECT[name])
    warmest = float(TEMPERATURE[line](name, high))
    compared = 0
    for temperature in np.linspace(203.2, warmest - 0.05, 173):
        try:
            state.update(CoolProp.QT_INPUTS, LINES[line], temperature)
        except ValueError:  # a mixture's flash fails at single points
            continue
        compared += 1
        assert float(TEMPERATURE[line](name, state.p())) == pytest.approx(temperature, abs=0.02)
        slope = state.p() * 0.02 * 0.02  # Pa: pressure rises by some 2 % a kelvin at least
        assert float(PRESSURE[line](name, temperature)) == pytest.approx(state.p(), abs=slope)
    assert compared > 160
    assert low < 40e3
    assert high > 3.1e6


def test_coolprop_is_asked_once_only(monkeypatch):
    for name in refrigerant.NAMES:
        refrigerant.glide(name, 500e3)

    def refuse(name):
        raise AssertionError(f"CoolProp is asked again for {name}")

    monkeypatch.setattr(refrigerant, "new_state", refuse)
    for name in refrigerant.NAMES:
        pressures = np.geomspace(*refrigerant.pressure_range(name, "dew"), 1000)
        assert np.all(np.diff(refrigerant.dew_temperature(name, pressures)) > 0.0)


@given(names, lines, shares)
@settings(deadline=None, derandomize=True, max_examples=150)
def test_pressure_and_back(name, line, share):
    pressure = pressure_at(name, line, share)
    temperature = float(np.clip(TEMPERATURE[line](name, pressure), 203.15, None))
    try:
        back = float(PRESSURE[line](name, temperature))
    except ValueError:
        assert share > 0.999  # the top of the range, where a hair of the fit's error leads out of it
        return
    # 0.002 K is 0.01 % of the pressure.
    assert back == pytest.approx(pressure, rel=2e-4)


@given(names, lines, shares, shares)
@settings(deadline=None, derandomize=True, max_examples=150)
def test_saturation_rises(name, line, one, other):
    low, high = sorted((pressure_at(name, line, one), pressure_at(name, line, other)))
    if high > low * (1 + 1e-6):
        assert float(TEMPERATURE[line](name, low)) < float(TEMPERATURE[line](name, high))


@given(names, shares)
@settings(deadline=None, derandomize=True, max_examples=100)
def test_glide_is_never_below_zero(name, share):
    low = max(refrigerant.pressure_range(name, line)[0] for line in LINES)
    high = min(refrigerant.pressure_range(name, line)[1] for line in LINES)
    pressure = float(np.clip(low * (high / low) ** share, low, high))
    glide = float(refrigerant.glide(name, pressure))
    assert glide > -0.005
    if name in ("R-134a", "R-22", "R-32", "R-1234ze(E)"):
        assert glide == pytest.approx(0.0, abs=0.003)
    elif name == "R-407C":
        assert glide > 1.5


def test_arrays_in_arrays_out():
    pressures = np.array([[300e3, 500e3], [800e3, 1200e3]])
    found = refrigerant.bubble_temperature("R-407C", pressures)
    assert found.shape == (2, 2)
    assert float(found[1, 0]) == pytest.approx(float(refrigerant.bubble_temperature("R-407C", 800e3)))


@pytest.mark.parametrize(
    ("typed", "known"),
    [
        ("R-410A", "R-410A"),
        ("r410a", "R-410A"),
        ("R 134 a", "R-134a"),
        ("R1234ze(E)", "R-1234ze(E)"),
        ("r22", "R-22"),
    ],
)
def test_names_as_they_are_typed(typed, known):
    assert refrigerant.canonical(typed) == known


def test_an_unknown_refrigerant_is_told_which_are_known():
    with pytest.raises(ValueError, match=r"'R-12' are not known here; known are R-410A, .*R-1234ze\(E\)"):
        refrigerant.bubble_temperature("R-12", 1e5)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: refrigerant.dew_temperature("R-410A", 6.0e6), "6000 kPa absolute is outside 35 to 46"),
        (lambda: refrigerant.dew_temperature("R-410A", [5e5, 1e3]), "1 kPa absolute is outside"),
        (lambda: refrigerant.dew_temperature("R-410A", float("nan")), "nan kPa absolute is outside"),
        (lambda: refrigerant.bubble_pressure("R-134a", 400.0), "126.9 °C is outside -70 to 99 °C"),
        (lambda: refrigerant.compression_ratio(0.0, 1e6), "perfect vacuum"),
        (lambda: refrigerant.discharge_temperature("R-134a", 3e5, 270.0, 1e6, 0.7), "suction gas would be wet"),
        (lambda: refrigerant.discharge_temperature("R-134a", 3e5, 285.0, 2e5, 0.7), "not above the suction"),
        (lambda: refrigerant.discharge_temperature("R-134a", 3e5, 285.0, 1e6, 1.1), "efficiency of 110 %"),
        (lambda: refrigerant.discharge_temperature("R-32", 1e5, 300.0, 4.5e6, 0.3), "past 177 °C"),
    ],
)
def test_refusals(call, message):
    with pytest.raises(ValueError, match=message):
        call()


@given(names, st.floats(263.0, 283.0), st.floats(1.0, 20.0), st.floats(303.0, 325.0), st.floats(0.6, 0.9))
@settings(deadline=None, derandomize=True, max_examples=60)
def test_a_worse_compressor_and_warmer_suction_make_hotter_gas(name, cold, superheat, hot, efficiency):
    suction = float(refrigerant.dew_pressure(name, cold))
    discharge = float(refrigerant.dew_pressure(name, hot))
    leaving = refrigerant.discharge_temperature(name, suction, cold + superheat, discharge, efficiency)
    assert leaving > cold + superheat
    worse = refrigerant.discharge_temperature(name, suction, cold + superheat, discharge, efficiency - 0.05)
    warmer = refrigerant.discharge_temperature(name, suction, cold + superheat + 1.0, discharge, efficiency)
    assert worse > leaving
    assert warmer > leaving


@pytest.mark.parametrize("name", ["R-410A", "R-134a", "R-22", "R-404A", "R-32", "R-1234ze(E)"])
def test_discharge_temperature_against_coolprops_own_search(name):
    # By CoolProp's flashes of pressure with entropy and with enthalpy, which the module does without.
    fluid = DIRECT[name]
    suction, discharge = (
        float(refrigerant.dew_pressure(name, 278.15)),
        float(refrigerant.dew_pressure(name, 323.15)),
    )
    entropy = CoolProp.PropsSI("S", "P", suction, "T", 288.15, fluid)
    enthalpy = CoolProp.PropsSI("H", "P", suction, "T", 288.15, fluid)
    ideal = CoolProp.PropsSI("H", "P", discharge, "S", entropy, fluid)
    wanted = CoolProp.PropsSI("T", "P", discharge, "H", enthalpy + (ideal - enthalpy) / 0.65, fluid)
    ours = refrigerant.discharge_temperature(name, suction, 288.15, discharge, 0.65)
    assert ours == pytest.approx(wanted, abs=1e-3)


@given(names, st.floats(253.0, 323.0), shares, st.floats(0.0, 200e3))
@settings(deadline=None, derandomize=True, max_examples=60)
def test_foreign_gas_adds_its_own_pressure(name, temperature, share, gas):
    own = refrigerant.resting_pressure(name, temperature, share)
    low, high = (
        float(refrigerant.dew_pressure(name, temperature)),
        float(refrigerant.bubble_pressure(name, temperature)),
    )
    assert min(low, high) - 1.0 <= own <= max(low, high) + 1.0
    assert refrigerant.foreign_gas_pressure(name, own + gas, temperature, share) == pytest.approx(
        gas, abs=1e-6 * own
    )


def test_superheat_and_subcooling_use_their_own_lines():
    dew = float(refrigerant.dew_temperature("R-407C", 500e3))
    bubble = float(refrigerant.bubble_temperature("R-407C", 500e3))
    assert float(refrigerant.superheat("R-407C", 500e3, dew + 5.0)) == pytest.approx(5.0)
    assert float(refrigerant.subcooling("R-407C", 500e3, bubble - 5.0)) == pytest.approx(5.0)


def test_importing_it_imports_nothing_slow():
    program = (
        "import sys, faultdoc.physics.refrigerant\n"
        "print([name for name in ('CoolProp', 'scipy', 'pint') if name in sys.modules])"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"

"""The checks of the loop as laid, and of pump and strainer on it."""

from math import log, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make
from faultdoc.checks.base import Missing, Verdict
from faultdoc.checks.loop import smallest_step
from faultdoc.model.unit import Compressor
from faultdoc.quantities import Kind, System, to_display

GALLON = 3.785411784e-3
PLAIN = {"glycol_fraction": "0 %"}


def us(value, kind):
    return to_display(value, kind, System.US)


# --- volume, cycling, pull-down ---


def test_loop_volume(sheet, read, points):
    readings = read(hose_length="400 ft", hose_bore="3 in", added_volume="100 gal")
    result = make("loop_volume", sheet, readings, points)
    # 400 ft of 3 in: 0.367 gal/ft; and the unit's 45.
    assert us(result.measured, Kind.VOLUME) == pytest.approx(400 * 0.3672 + 45.0 + 100.0, abs=0.5)
    assert us(result.expected, Kind.VOLUME) == pytest.approx(4.5 * 105.0 / 3.51685, rel=1e-4)
    assert result.verdict is Verdict.AS_EXPECTED
    short = make("loop_volume", sheet, read(hose_length="20 ft", hose_bore="2 in", added_volume="0 gal"), points)
    assert short.verdict is Verdict.LOW
    missing = make("loop_volume", sheet, read(hose_length="20 ft"), points)
    assert missing.readings == ("hose_bore",)


def test_shortest_cycle(sheet, read, points):
    readings = read(hose_length="300 ft", hose_bore="2.5 in", added_volume="0 gal", **PLAIN)
    result = make("shortest_cycle", sheet, readings, points)
    volume = 300 * 12 * pi * 2.5**2 / 4 / 231 + 45.0
    heat = volume * GALLON * 1000.0 * 4200.0
    assert result.measured == pytest.approx(4 * heat * 2.8 / (105e3 / 4), rel=0.005)
    tight = make(
        "shortest_cycle", sheet, read(hose_length="10 ft", hose_bore="2 in", added_volume="0 gal", **PLAIN), points
    )
    assert tight.measured < result.measured
    limited = sheet.model_copy(update={"starts_per_hour": 3})
    assert make("shortest_cycle", limited, readings, points).expected == 1200.0


def test_smallest_step(sheet):
    assert smallest_step(sheet) == pytest.approx(0.25)
    screw = Compressor(circuit="a", type="screw", rated_current="100 A", unloading_steps=["25 %", "50 %", "75 %"])
    assert smallest_step(sheet.model_copy(update={"compressors": (screw, screw)})) == pytest.approx(0.125)


LOOP = {"hose_length": "300 ft", "hose_bore": "2.5 in", "added_volume": "0 gal ± 5 gal", **PLAIN}


def test_pull_down(sheet, read, points):
    readings = read(
        start_water_temperature="75 °F", water_in_temperature="55 °F", cooling_load="0 kW ± 1 kW",
        cooling_time="5 min", **LOOP,
    )  # fmt: skip
    result = make("pull_down", sheet, readings, points)
    # 121.5 gal x 8.33 lb x 20 °F = 20,250 Btu, at 358,300 Btu/h: 3.4 min.
    assert us(result.expected, Kind.TIME) == pytest.approx(20_250 / 358_300 * 60, rel=0.01)
    slow = make("pull_down", sheet, readings | read(cooling_time="12 min"), points)
    assert slow.verdict is Verdict.HIGH
    hopeless = make("pull_down", sheet, readings | read(cooling_load="110 kW ± 1 kW"), points)
    assert "cannot cool the loop" in hopeless.reason
    warmer = make("pull_down", sheet, readings | read(water_in_temperature="80 °F"), points)
    assert "was not pulled down" in warmer.reason


@given(st.floats(10.0, 60.0), st.floats(50.0, 400.0))
@settings(deadline=None, max_examples=25)
def test_more_load_and_more_water_take_longer(sheet, read, points, load, length):
    def expected(kilowatts, metres):
        readings = read(
            start_water_temperature="25 °C", water_in_temperature="12 °C", cooling_time="9 min",
            cooling_load=f"{kilowatts} kW ± 1 kW", hose_length=f"{metres} m", hose_bore="65 mm", **PLAIN,
        )  # fmt: skip
        return make("pull_down", sheet, readings, points).expected

    assert expected(load * 1.1, length) > expected(load, length)
    assert expected(load, length * 1.1) > expected(load, length)


# --- bypass, hose ---


def test_bypass(sheet, read, points):
    shut = read(water_out_temperature="44 °F", water_in_temperature="54 °F", load_out_temperature="54.2 °F")
    assert make("bypass_leakage", sheet, shut, points).verdict is Verdict.AS_EXPECTED
    leaks = shut | read(water_in_temperature="49 °F")
    result = make("bypass_leakage", sheet, leaks, points)
    assert result.measured == pytest.approx(5.2 / 10.2)
    assert result.verdict is Verdict.HIGH
    idle = make("bypass_leakage", sheet, shut | read(load_out_temperature="44.5 °F"), points)
    assert "read again under load" in idle.reason


def test_hose_run_is_where_the_loop_takes_all_the_pump_has(sheet, read, points):
    readings = read(hose_length="300 ft", hose_bore="2 in", load_pressure_drop="10 psi", **PLAIN)
    longest = make("hose_run", sheet, readings, points).expected
    laid = readings | read(hose_length=f"{longest} m")
    at_limit = make("loop_head_needed", sheet, laid, points)
    assert at_limit.measured == pytest.approx(at_limit.expected, rel=1e-9)
    over = make("hose_run", sheet, readings | read(hose_length="9000 ft"), points)
    assert over.verdict is Verdict.HIGH
    choked = make("hose_run", sheet, readings | read(load_pressure_drop="160 psi"), points)
    assert choked.expected < 0.0
    assert "no hose is short enough" in choked.remarks[0]


def test_hose_speed(sheet, read, points):
    # 3 m/s in 2 in: 0.002027 m² x 3 = 6.08 L/s = 96.4 gpm.
    result = make("hose_speed", sheet, read(hose_bore="2 in ± 0.5 mm", water_flow="160 gpm"), points)
    assert us(result.expected, Kind.VOLUME_FLOW) == pytest.approx(96.4, abs=0.1)
    assert result.verdict is Verdict.HIGH
    still = make("hose_speed", sheet, read(hose_bore="2 in", water_flow="0 gpm"), points)
    assert isinstance(still, Missing)


# --- pump ---


def test_dead_head_backwards(sheet, read, points):
    def pressed(psi):
        readings = read(dead_head_in_pressure="10 psi", dead_head_out_pressure=f"{10 + psi} psi", **PLAIN)
        return make("dead_head_if_backwards", sheet, readings, points)

    # 112 ft of water are 48.5 psi the right way, 24 to 32 psi backwards.
    right, wrong, dead = pressed(48), pressed(28), pressed(8)
    assert right.verdict is Verdict.HIGH
    assert "the right way" in right.remarks[0]
    assert wrong.verdict is Verdict.AS_EXPECTED
    assert "turns backwards" in wrong.remarks[0]
    assert dead.verdict is Verdict.LOW
    assert "stands still" in dead.remarks[0]


def test_pump_motor_margin(sheet, read, points):
    result = make("pump_motor_margin", sheet, read(water_flow="72 gpm", **PLAIN), points)
    assert result.measured == pytest.approx(3.1 / 5.0, rel=1e-3)
    lines = {line.title: line.value for line in result.working}
    # gpm x ft / 3,960 = 72 x 98 / 3,960 = 1.78 hp of 3.1.
    assert lines["pump's efficiency"] == pytest.approx(72 * 98 / 3960 / 3.1, rel=2e-3)
    heavy = make("pump_motor_margin", sheet, read(water_flow="72 gpm", glycol_fraction="40 %"), points)
    assert heavy.measured > 1.02 * result.measured
    beyond = make("pump_motor_margin", sheet, read(water_flow="260 gpm", **PLAIN), points)
    assert any("no head left" in remark for remark in beyond.remarks)
    small = sheet.water.pump.model_copy(update={"rated_power": 2000.0})
    weak = sheet.model_copy(update={"water": sheet.water.model_copy(update={"pump": small})})
    assert make("pump_motor_margin", weak, read(water_flow="100 gpm", **PLAIN), points).verdict is Verdict.HIGH


# --- strainer, air ---


def test_strainer_clogging_does_not_depend_on_the_flow(sheet, read, points):
    one, other = (
        make("strainer_clogging", sheet, read(strainer_pressure_drop=drop, water_flow=flow, **PLAIN), points)
        for drop, flow in (("4.8 psi", "72 gpm"), ("1.2 psi", "36 gpm"))
    )
    assert one.measured == pytest.approx(log(4.0), rel=1e-6)
    assert other.measured == pytest.approx(one.measured, rel=1e-9)
    assert one.verdict is Verdict.HIGH
    clean = make("strainer_clogging", sheet, read(strainer_pressure_drop="1.25 psi", water_flow="72 gpm"), points)
    assert clean.verdict is Verdict.AS_EXPECTED
    none = make("strainer_clogging", sheet, read(strainer_pressure_drop="0 psi", water_flow="72 gpm"), points)
    assert "above zero" in none.reason


def test_air_swings_the_drop(sheet, read, points):
    steady = make("loop_air", sheet, read(barrel_drop_low="6.0 psi", barrel_drop_high="6.3 psi"), points)
    assert steady.verdict is Verdict.AS_EXPECTED
    air = make("loop_air", sheet, read(barrel_drop_low="3 psi", barrel_drop_high="7 psi"), points)
    assert air.measured == pytest.approx(4.0 / 5.0)
    assert air.verdict is Verdict.HIGH
    nothing = make("loop_air", sheet, read(barrel_drop_low="-1 psi", barrel_drop_high="0.5 psi"), points)
    assert "nothing flows" in nothing.reason


# --- assumptions ---


@pytest.mark.parametrize(
    ("check", "path", "readings"),
    [
        ("flow_from_barrel_drop", "water.design_flow", {"barrel_pressure_drop": "6 psi"}),
        ("heat_moved", "cooling_capacity",
         {"water_flow": "72 gpm", "water_in_temperature": "54 °F", "water_out_temperature": "44 °F"}),
        ("proving_margin", "water.flow_proving", {"barrel_pressure_drop": "6 psi"}),
        ("loop_volume", "water.volume", {"hose_length": "300 ft", "hose_bore": "2.5 in"}),
        ("hose_run", "water.minimum_flow", {"hose_length": "300 ft", "hose_bore": "2.5 in"}),
        ("strainer_drop", "water.strainer", {"strainer_pressure_drop": "1.3 psi", "water_flow": "72 gpm"}),
        ("pump_motor_margin", "water.pump", {"water_flow": "72 gpm"}),
        ("pump_head", "water.connection_bore", {"pump_in_pressure": "12 psi", "pump_out_pressure": "49 psi"}),
    ],
)  # fmt: skip
def test_what_is_assumed_widens_the_check(sheet, read, points, check, path, readings):
    guessed = sheet.model_copy(update={"assumed": (path,)})
    known, wide = (make(check, unit, read(**readings), points) for unit in (sheet, guessed))
    assert wide.uncertainty > 1.05 * known.uncertainty
    assert wide.expected == pytest.approx(known.expected)

"""Each check of the water side: the fault it is for is called, with the number a reader would reckon."""

import pytest

from faultdoc.checks.all import make
from faultdoc.checks.base import CheckResult, Missing, Verdict
from faultdoc.model.unit import Barrel, Feature, FlowProving, Glycol
from faultdoc.physics import fluid
from faultdoc.quantities import Kind, System, parse, to_display

PLAIN = {"glycol_fraction": "0 %", "water_out_temperature": "50 °F"}
GLYCOL = {"glycol_fraction": "25 %", "water_out_temperature": "44 °F"}


def gpm(flow):
    return to_display(flow, Kind.VOLUME_FLOW, System.US)


def test_flow_off_the_barrel_with_the_sheets_own_water(sheet, read, points):
    # 9.4 ft is a point of the sheet: 60 gpm.
    result = make("flow_from_barrel_drop", sheet, read(barrel_pressure_drop="9.4 ft water", **PLAIN), points)
    assert gpm(result.measured) == pytest.approx(60.0, rel=1e-3)
    assert gpm(result.expected) == pytest.approx(72.0)
    assert result.verdict is Verdict.LOW
    assert not any("Extrapolated" in remark for remark in result.remarks)
    assert any("Exponent n = 1.8" in remark for remark in result.remarks)


def test_drop_at_flow_with_the_sheets_own_water(sheet, read, points):
    readings = read(water_flow="80 gpm", barrel_pressure_drop="16.2 ft water", **PLAIN)
    result = make("barrel_drop_at_flow", sheet, readings, points)
    assert result.residual == pytest.approx(0.0, abs=1e-3)
    fouled = make("barrel_drop_at_flow", sheet, readings | read(barrel_pressure_drop="30 ft water"), points)
    assert fouled.verdict is Verdict.HIGH


def test_glycol_raises_the_drop_and_reaches_the_low_point(sheet, changed, read, points):
    plain = make(
        "barrel_drop_at_flow", sheet, read(water_flow="72 gpm", barrel_pressure_drop="6 psi", **PLAIN), points
    )
    mixed = make(
        "barrel_drop_at_flow", sheet, read(water_flow="72 gpm", barrel_pressure_drop="6 psi", **GLYCOL), points
    )
    assert 1.1 < mixed.expected / plain.expected < 1.3
    # At its Reynolds number the mix behaves as some 30 gpm of water, which the sheet's points cover.
    assert not any("Extrapolated" in remark for remark in mixed.remarks)
    short = changed(sheet, barrel=sheet.water.barrel.model_copy(update={"points": sheet.water.barrel.points[1:]}))
    beyond = make(
        "barrel_drop_at_flow", short, read(water_flow="72 gpm", barrel_pressure_drop="6 psi", **GLYCOL), points
    )
    assert any("Extrapolated" in remark for remark in beyond.remarks)
    assert beyond.effects["sheet.barrel_exponent"] != 0.0
    # Both readings of the low end agree within the uncertainty that extrapolating is given.
    assert abs(beyond.expected - mixed.expected) < beyond.expected_uncertainty
    assert plain.effects["sheet.barrel_exponent"] == pytest.approx(0.0, abs=1e-6)


def test_the_working_of_the_drop_can_be_redone(sheet, read, points):
    readings = read(water_flow="72 gpm", barrel_pressure_drop="6 psi", **GLYCOL)
    result = make("barrel_drop_at_flow", sheet, readings, points)
    flow, thicker, denser, alike, on_curve, drop = (line.value for line in result.working)
    assert alike == pytest.approx(flow / thicker)
    assert drop == pytest.approx(on_curve * denser * thicker**2)
    assert drop == result.expected


def test_one_point_gets_the_exponent_of_friction_and_a_wider_result(sheet, changed, read, points):
    single = changed(
        sheet,
        barrel=Barrel(
            points=(sheet.water.barrel.points[2],),
            water_temperature="50 °F",
            uncertainty="5 %",
        ),
    )
    readings = read(barrel_pressure_drop="4.4 ft water", **PLAIN)
    many, one = (make("flow_from_barrel_drop", unit, readings, points) for unit in (sheet, single))
    assert any("1.80, assumed" in remark for remark in one.remarks)
    assert one.uncertainty > many.uncertainty


def test_two_gauges_are_less_sure_than_one(sheet, read, points):
    pair = make(
        "flow_from_barrel_drop",
        sheet,
        read(barrel_in_pressure="40 psi", barrel_out_pressure="34 psi", **PLAIN),
        points,
    )
    one = make("flow_from_barrel_drop", sheet, read(barrel_pressure_drop="6 psi", **PLAIN), points)
    assert pair.measured == pytest.approx(one.measured)
    assert pair.uncertainty > 2 * one.uncertainty


def test_no_drop_is_no_flow_and_a_negative_one_is_remarked(sheet, read, points):
    none = make("flow_from_barrel_drop", sheet, read(barrel_pressure_drop="0 psi", **PLAIN), points)
    assert none.measured == 0.0
    assert none.residual == pytest.approx(-1.0)
    assert none.verdict is Verdict.LOW
    back = make("flow_from_barrel_drop", sheet, read(barrel_pressure_drop="-0.5 psi", **PLAIN), points)
    assert back.measured < 0.0
    assert any("outlet reads above" in remark for remark in back.remarks)


def test_proving_margin(sheet, changed, read, points):
    low = make("proving_margin", sheet, read(barrel_pressure_drop="1.5 psi"), points)
    assert to_display(low.expected, Kind.PRESSURE_DIFFERENCE, System.US) == pytest.approx(2.6)
    assert low.verdict is Verdict.LOW
    paddle = changed(
        sheet,
        flow_proving=FlowProving(
            makes_at_flow="40 gpm", breaks_at_flow="35 gpm", start_allowance="60 s", trip_delay="5 s"
        ),
    ).model_copy(update={"features": (Feature.OWN_PUMP, Feature.PADDLE_FLOW_SWITCH, Feature.STRAINER)})
    of_paddle = make("proving_margin", paddle, read(barrel_pressure_drop="1.5 psi"), points)
    assert 2.0 < to_display(of_paddle.expected, Kind.PRESSURE_DIFFERENCE, System.US) < 2.6
    assert of_paddle.effects["sheet.barrel_curve"] != 0.0
    bare = changed(sheet, flow_proving=FlowProving(start_allowance="60 s", trip_delay="5 s"))
    missing = make("proving_margin", bare, read(barrel_pressure_drop="1.5 psi"), points)
    assert isinstance(missing, Missing)
    assert "flow switch's setting" in missing.reason


LOOP = {"hose_length": "200 ft", "hose_bore": "3 in", "load_pressure_drop": "10 psi", **GLYCOL}


def test_pump_head_calls_a_shut_valve_and_a_worn_pump(sheet, read, points):
    shut = make("pump_head", sheet, read(pump_in_pressure="12 psi", pump_out_pressure="61 psi", **LOOP), points)
    assert shut.verdict is Verdict.HIGH
    worn = make("pump_head", sheet, read(pump_in_pressure="12 psi", pump_out_pressure="30 psi", **LOOP), points)
    assert worn.verdict is Verdict.LOW


def test_the_working_point_balances(sheet, read, points):
    result = make("pump_head", sheet, read(pump_in_pressure="12 psi", pump_out_pressure="49 psi", **LOOP), points)
    lines = {line.title: line.value for line in result.working}
    loop = sum(value for title, value in lines.items() if title.startswith("drop of"))
    assert loop == pytest.approx(result.expected, rel=1e-6)
    rise = lines["pump's head at that flow"] * lines["density, kg/m³"] * fluid.GRAVITY
    assert rise == pytest.approx(result.expected, rel=1e-9)


def test_a_short_wide_loop_runs_the_pump_past_its_curve_and_says_so(sheet, read, points):
    easy = {"hose_length": "10 ft", "hose_bore": "6 in", "load_pressure_drop": "0 psi", **PLAIN}
    result = make("pump_head", sheet, read(pump_in_pressure="12 psi", pump_out_pressure="30 psi", **easy), points)
    assert any("past the last point" in remark for remark in result.remarks)


def test_flow_agreement_calls_water_that_goes_round_the_barrel(sheet, read, points):
    readings = read(pump_in_pressure="12 psi", pump_out_pressure="50 psi", barrel_pressure_drop="2 psi", **GLYCOL)
    assert make("flow_agreement", sheet, readings, points).verdict is Verdict.LOW
    dead = read(pump_in_pressure="12 psi", pump_out_pressure="70 psi", barrel_pressure_drop="0.1 psi", **GLYCOL)
    nothing = make("flow_agreement", sheet, dead, points)
    assert isinstance(nothing, Missing)
    assert "zero" in nothing.reason
    swapped = make(
        "flow_agreement", sheet,
        read(pump_in_pressure="50 psi", pump_out_pressure="12 psi", barrel_pressure_drop="5 psi"), points,
    )  # fmt: skip
    assert "less than its inlet" in swapped.reason


def test_dead_head(sheet, read, points):
    # 112 ft of 25 % propylene glycol (about 1.02): 112 / 2.31 x 1.02 = 49.5 psi.
    good = make(
        "pump_dead_head", sheet,
        read(dead_head_in_pressure="12 psi", dead_head_out_pressure="61 psi", glycol_fraction="25 %"), points,
    )  # fmt: skip
    assert to_display(good.expected, Kind.PRESSURE_DIFFERENCE, System.US) == pytest.approx(49.5, abs=0.2)
    backwards = make(
        "pump_dead_head", sheet, read(dead_head_in_pressure="12 psi", dead_head_out_pressure="45 psi"), points
    )
    assert backwards.verdict is Verdict.LOW


def test_standing_pressure(sheet, changed, read, points):
    plain = changed(sheet, usual_glycol=Glycol.NONE, usual_glycol_fraction=None)
    result = make(
        "standing_pressure_needed", plain, read(standing_pressure="15 psi", high_point_height="60 ft"), points
    )
    assert to_display(result.expected, Kind.GAUGE_PRESSURE, System.US) == pytest.approx(60 / 2.31 + 5.0, abs=0.1)
    assert result.verdict is Verdict.LOW
    high = make(
        "standing_pressure_needed", plain, read(standing_pressure="120 psi", high_point_height="300 ft"), points
    )
    assert len(high.remarks) == 2


def test_npsh(sheet, read, points):
    readings = read(pump_in_pressure="-10 psi", water_in_temperature="54 °F", site_elevation="0 ft")
    result = make("npsh_available", sheet, readings, points)
    # (14.696 - 10 - 0.2) psi is 10.4 ft of water, a little less of glycol; velocity adds 0.3 ft.
    assert to_display(result.measured, Kind.LENGTH, System.US) == pytest.approx(10.5, abs=0.2)
    assert to_display(result.expected, Kind.LENGTH, System.US) == pytest.approx(6.0, abs=0.1)
    mountain = make("npsh_available", sheet, readings | read(site_elevation="9000 ft"), points)
    assert mountain.verdict is Verdict.LOW
    void = make("npsh_available", sheet, readings | read(pump_in_pressure="-20 psi"), points)
    assert "perfect vacuum" in void.reason


def test_heat_moved(sheet, read, points):
    readings = read(
        water_flow="72 gpm", water_in_temperature="54 °F", water_out_temperature="44 °F", glycol_fraction="0 %"
    )
    result = make("heat_moved", sheet, readings, points)
    assert to_display(result.measured, Kind.POWER, System.US) == pytest.approx(500 * 72 * 10 / 12_000, rel=0.005)
    half = make("heat_moved", sheet, readings | read(water_out_temperature="49 °F"), points)
    assert half.verdict is Verdict.LOW
    glycol = make("heat_moved", sheet, readings | read(glycol_fraction="40 %"), points)
    assert glycol.measured < 0.96 * result.measured


def test_strainer(sheet, changed, read, points):
    readings = read(strainer_pressure_drop="1.2 psi", water_flow="72 gpm", glycol_fraction="0 %")
    assert make("strainer_drop", sheet, readings, points).residual == pytest.approx(0.0, abs=1e-3)
    half = make("strainer_drop", sheet, readings | read(water_flow="36 gpm"), points)
    assert half.expected == pytest.approx(parse("0.3 psi", Kind.PRESSURE_DIFFERENCE).value, rel=1e-3)
    assert half.verdict is Verdict.HIGH
    blocked = make("strainer_drop", sheet, read(strainer_pressure_drop="6 psi"), points)
    assert blocked.verdict is Verdict.HIGH
    without = changed(sheet, strainer=None)
    assert "clean drop" in make("strainer_drop", without, readings, points).reason


def test_freeze_margin(sheet, changed, read, points):
    plain = changed(sheet, usual_glycol=Glycol.NONE, usual_glycol_fraction=None)
    readings = read(water_out_temperature="33 °F ± 0.5 °F", glycol_fraction="0 % ± 0.5 %")
    assert make("freeze_margin", plain, readings, points).verdict is Verdict.LOW
    assert (
        make("freeze_margin", sheet, readings | read(glycol_fraction="25 %"), points).verdict
        is Verdict.AS_EXPECTED
    )
    kinder = changed(sheet, usual_glycol=Glycol.ETHYLENE)
    mixed = read(water_out_temperature="20 °F", glycol_fraction="25 %")
    assert (
        make("freeze_margin", kinder, mixed, points).expected
        < make("freeze_margin", sheet, mixed, points).expected
    )


def test_glycol_found_where_none_is_named_is_taken_as_propylene(sheet, changed, read, points):
    plain = changed(sheet, usual_glycol=Glycol.NONE, usual_glycol_fraction=None)
    result = make("glycol_strength", plain, read(glycol_fraction="20 %"), points)
    assert result.verdict is Verdict.HIGH
    assert any("propylene" in remark for remark in result.remarks)
    assert result.working[0].value == fluid.freezing_point("propylene", 0.2)


def test_loop_head_needed(sheet, read, points):
    long = make("loop_head_needed", sheet, read(hose_length="3000 ft", hose_bore="2 in"), points)
    assert long.verdict is Verdict.HIGH
    missing = make("loop_head_needed", sheet, read(hose_length="200 ft"), points)
    assert missing.readings == ("hose_bore",)


def test_water_colder_than_its_mix_can_be_is_refused_in_words(sheet, read, points):
    readings = read(barrel_pressure_drop="5 psi", water_out_temperature="-10 °C", glycol_fraction="0 %")
    result = make("flow_from_barrel_drop", sheet, readings, points)
    assert isinstance(result, Missing)
    assert "outside its liquid range" in result.reason


def test_the_unit_without_a_pump_of_its_own(sheet, changed, read, points):
    without = changed(sheet, pump=None)
    for name in (
        "pump_head",
        "flow_agreement",
        "pump_dead_head",
        "npsh_available",
        "pump_current",
        "loop_head_needed",
    ):
        missing = make(name, without, {}, points)
        assert isinstance(missing, Missing)
        assert "pump's curve" in missing.reason
    assert isinstance(
        make("flow_from_barrel_drop", without, read(barrel_pressure_drop="5 psi"), points), CheckResult
    )

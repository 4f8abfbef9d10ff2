from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make, registry, usual_limit_from
from faultdoc.checks.base import CheckResult, Missing, Sense, Verdict
from faultdoc.checks.safeties import WATCHED, drift, first_to_act, margins, trip
from faultdoc.library.load import load_unit
from faultdoc.model.base import Measured
from faultdoc.model.unit import Acts, Safety
from faultdoc.physics import refrigerant
from faultdoc.quantities import Kind, QuantityError, System, to_display

PSI = 6894.757293168
UNITS = ("bluff_30", "marten_60")

READINGS = {
    "discharge_pressure_a": "420 psi ± 3 psi", "suction_pressure_a": "112 psi ± 1 psi",
    "discharge_line_temperature_a": "170 °F", "water_out_temperature": "44 °F", "barrel_pressure_drop": "6 psi",
    "voltage_l1_l2": "460 V", "pump_current_l2": "5 A",
}  # fmt: skip


def safety(**changes):
    return Safety(
        **{
            "id": "one", "title": "One", "point": "discharge_pressure_{circuit}", "acts": "above",
            "trips_at": "600 psi", "tolerance": "10 psi", "manual_reset": True,
        }
        | changes
    )  # fmt: skip


@pytest.mark.parametrize(
    ("name", "deviation"),
    [
        # By hand: reading less setting over the root of both rectangles' squares, (3² + 10²)/3 and (1² + 2²)/3.
        ("high_trip_discharge_pressure_a", (420 - 620) / sqrt((3**2 + 10**2) / 3)),
        ("low_trip_suction_pressure_a", (112 - 104) / sqrt((1**2 + 2**2) / 3)),
    ],
)
def test_margin_in_standard_uncertainties(name, deviation, sheet, read, points):
    result = make(name, sheet, read(**READINGS), points)
    assert result.deviation == pytest.approx(deviation, rel=1e-6)
    assert result.verdict is Verdict.AS_EXPECTED


@pytest.mark.parametrize(
    ("name", "reading", "verdict"),
    [
        ("high_trip_discharge_pressure_a", "640 psi ± 3 psi", Verdict.HIGH),  # it should have acted
        ("high_trip_discharge_pressure_a", "624 psi ± 3 psi", Verdict.AS_EXPECTED),  # within its tolerance
        ("low_trip_suction_pressure_b", "95 psi", Verdict.LOW),
        ("low_trip_water_out_temperature", "34 °F", Verdict.LOW),
        ("low_trip_barrel_pressure_drop", "1.0 psi ± 0.2 psi", Verdict.LOW),
        ("high_trip_discharge_line_temperature_b", "280 °F", Verdict.HIGH),
        ("low_trip_voltage_l2_l3", "380 V", Verdict.LOW),
        ("high_trip_voltage_l2_l3", "530 V", Verdict.HIGH),
        ("high_trip_pump_current_l3", "9 A", Verdict.HIGH),
    ],
)
def test_past_the_setting_is_called(name, reading, verdict, sheet, read, points):
    point = name.split("_trip_")[1]
    assert make(name, sheet, read(**{point: reading}), points).verdict is verdict


def test_a_check_tells_reset_delay_and_test(sheet, read, points):
    result = make("low_trip_suction_pressure_a", sheet, read(**READINGS), points)
    titles = [line.title for line in result.working]
    assert titles == [
        "Low pressure switch acts below", "its tolerance, either way", "margin left", "it lets go at",
        "it acts after",
    ]  # fmt: skip
    assert result.working[2].value == pytest.approx(8 * PSI)
    assert result.remarks[0] == "It resets by itself."
    assert result.remarks[1].startswith("How it is tested, by someone who may: Run one compressor")
    assert "Low pressure switch" in result.working[0].title
    assert result.sentence(System.US).startswith("Suction pressure, circuit A against its low trip: 112.0 psig")


def test_a_sheet_without_such_a_safety_says_so(sheet, read, points):
    bare = sheet.model_copy(update={"safeties": ()})
    missing = make("high_trip_discharge_pressure_a", bare, read(**READINGS), points)
    assert isinstance(missing, Missing)
    assert missing.reason == (
        "the data sheet does not give the setting of a high trip on discharge pressure, circuit A"
    )


def test_the_one_that_acts_first_counts(sheet):
    early, late = safety(id="early", trips_at="500 psi"), safety(id="late")
    two = sheet.model_copy(update={"safeties": (late, early)})
    assert first_to_act(two, "discharge_pressure_b", Kind.GAUGE_PRESSURE, Acts.ABOVE).id == "early"
    low = sheet.model_copy(
        update={
            "safeties": (safety(id="deep", acts="below", trips_at="50 psi"), safety(id="shallow", acts="below"))
        }
    )
    assert first_to_act(low, "discharge_pressure_b", Kind.GAUGE_PRESSURE, Acts.BELOW).id == "shallow"
    assert first_to_act(low, "discharge_pressure_b", Kind.GAUGE_PRESSURE, Acts.ABOVE) is None
    assert first_to_act(low, "suction_pressure_b", Kind.GAUGE_PRESSURE, Acts.BELOW) is None


def test_what_the_sheet_calls_assumed_widens_the_result(sheet, read, points):
    unsure = sheet.model_copy(update={"assumed": ("safeties.0",)})
    known, guessed = (
        make("high_trip_discharge_pressure_a", unit, read(**READINGS), points) for unit in (sheet, unsure)
    )
    assert guessed.uncertainty > known.uncertainty


def test_margins_of_every_safety_with_a_reading(sheet, read, points):
    found = margins(sheet, read(**READINGS), usual_limit_from(points))
    assert [one.standard_uncertainties for one in found] == sorted(one.standard_uncertainties for one in found)
    assert {(one.safety.id, one.point) for one in found} == {
        ("high_pressure", "discharge_pressure_a"), ("low_pressure", "suction_pressure_a"),
        ("discharge_temperature", "discharge_line_temperature_a"), ("freeze", "water_out_temperature"),
        ("water_flow", "barrel_pressure_drop"), ("low_voltage", "voltage_l1_l2"),
        ("high_voltage", "voltage_l1_l2"), ("pump_overload", "pump_current_l2"),
    }  # fmt: skip
    suction = next(one for one in found if one.safety.id == "low_pressure")
    assert suction.margin == pytest.approx(8 * PSI)
    assert suction.trip_range == (pytest.approx(102 * PSI), pytest.approx(106 * PSI))
    assert not suction.should_have_acted
    for one in found:
        side = "high" if one.safety.acts is Acts.ABOVE else "low"
        check = make(f"{side}_trip_{one.point}", sheet, read(**READINGS), points)
        assert abs(check.deviation) == pytest.approx(one.standard_uncertainties, rel=1e-6)


def test_a_safety_that_should_have_acted(sheet, read, points):
    (one,) = margins(sheet, read(water_out_temperature="30 °F"), usual_limit_from(points))
    assert one.margin < 0.0
    assert one.should_have_acted


def test_drift_since_the_last_reading(sheet, read, points):
    def margin(text):
        (one,) = margins(sheet, read(suction_pressure_a=text), usual_limit_from(points))
        return one

    before, now = margin("120 psi ± 1 psi"), margin("112 psi ± 1 psi")
    found = drift(before, now, elapsed=600.0)
    assert found.change == pytest.approx(-8 * PSI)
    assert found.uncertainty == pytest.approx(sqrt(2 / 3) * PSI)  # the setting's tolerance is the same both times
    assert found.standard_uncertainties == pytest.approx(-8 / sqrt(2 / 3))
    assert found.time_left == pytest.approx(600.0)  # 8 psi in ten minutes, and 8 are left
    assert drift(now, before, elapsed=600.0).time_left is None  # it recovers
    assert drift(before, margin("119.5 psi ± 1 psi"), elapsed=600.0).time_left is None  # within doubt
    assert drift(before, now).time_left is None
    with pytest.raises(ValueError, match="after the earlier"):
        drift(before, now, elapsed=0.0)
    (other,) = margins(sheet, read(suction_pressure_b="112 psi"), usual_limit_from(points))
    with pytest.raises(ValueError, match="compare one safety with itself"):
        drift(before, other)


@given(st.floats(300.0, 700.0), st.floats(0.5, 20.0), st.floats(1.0, 30.0))
@settings(deadline=None, derandomize=True, max_examples=50)
def test_margin_falls_as_the_reading_nears_and_a_wider_device_is_less_sure(
    sheet, points, reading, limit, tolerance
):
    def margin(value, tolerance):
        unit = sheet.model_copy(update={"safeties": (safety(tolerance=f"{tolerance} psi"),)})
        taken = Measured(
            kind=Kind.GAUGE_PRESSURE, value=value * PSI, standard_uncertainty=limit * PSI / sqrt(3), text="-"
        )
        (one,) = margins(unit, {"discharge_pressure_a": taken}, usual_limit_from(points))
        return one

    now = margin(reading, tolerance)
    assert now.margin == pytest.approx((600.0 - reading) * PSI, abs=1e-3)
    assert margin(reading + 1.0, tolerance).margin < now.margin
    assert margin(reading, tolerance + 5.0).uncertainty > now.uncertainty


def test_a_setting_of_the_wrong_kind_is_refused():
    with pytest.raises(QuantityError, match="psi"):
        trip(safety(), Kind.TEMPERATURE)


def test_every_watched_point_is_in_the_vocabulary_and_has_its_check(points):
    for family, kind, acts, _ in WATCHED:
        head = family.partition("{")[0]
        side = "high" if acts is Acts.ABOVE else "low"
        names = [name for name in registry if name.startswith(f"{side}_trip_{head}")]
        assert names
        for name in names:
            point = points[name.removeprefix(f"{side}_trip_")]
            assert point.kind is kind
            assert registry[name].sense is (Sense.AT_MOST if acts is Acts.ABOVE else Sense.AT_LEAST)
            assert registry[name].needs[0].name == point.id


# --- the data sheets' own safeties ---


@pytest.mark.parametrize("unit", UNITS)
def test_every_setting_is_a_quantity_of_its_point_and_a_check_covers_it(unit, points):
    sheet = load_unit(unit)
    assert sheet.safeties
    for one in sheet.safeties:
        kinds = {point.kind for name, point in points.items() if name.startswith(one.point.partition("{")[0])}
        where = trip(one, next(iter(kinds)))
        assert where.tolerance > 0.0
        if where.resets_at is not None:
            # It lets go on the safe side of where it acts, by more than its tolerance.
            apart = where.at - where.resets_at if one.acts is Acts.ABOVE else where.resets_at - where.at
            assert apart > where.tolerance
    assert any((one.point, one.acts) == (family, acts) for one in sheet.safeties for family, _, acts, _ in WATCHED)


@pytest.mark.parametrize("unit", UNITS)
def test_the_settings_fit_the_unit(unit, points):
    sheet = load_unit(unit)
    by_id = {one.id: one for one in sheet.safeties}
    name, air = sheet.refrigerant, 101_325.0
    side, water = sheet.refrigerant_side, sheet.water
    low = trip(by_id["low_pressure"], Kind.GAUGE_PRESSURE)
    # Even at the lower end of its tolerance the refrigerant boils above the freezing point of water...
    assert float(refrigerant.dew_temperature(name, low.at - low.tolerance + air)) > 273.15
    # ...and at design, sea level, the suction stands clear of the upper end.
    design = float(refrigerant.dew_pressure(name, water.design_leaving - side.evaporator_approach)) - air
    assert design > low.at + low.tolerance
    high = trip(by_id["high_pressure"], Kind.GAUGE_PRESSURE)
    head = float(refrigerant.dew_pressure(name, sheet.rating_ambient + side.condenser_split)) - air
    assert high.at - high.tolerance > 1.3 * head
    freeze = trip(by_id["freeze"], Kind.TEMPERATURE)
    assert freeze.at - freeze.tolerance > 273.15
    assert freeze.at + freeze.tolerance < water.lowest_leaving_without_antifreeze
    flow = by_id["water_flow"]
    proving = water.flow_proving
    broken = proving.breaks_at_drop if flow.point == "barrel_pressure_drop" else proving.breaks_at_flow
    kind = Kind.PRESSURE_DIFFERENCE if flow.point == "barrel_pressure_drop" else Kind.VOLUME_FLOW
    assert trip(flow, kind).at == pytest.approx(broken)
    assert flow.delay == proving.trip_delay
    for id, sign in (("low_voltage", -1), ("high_voltage", 1)):
        electrical = sheet.electrical
        edge = electrical.voltage * (1 + sign * electrical.voltage_tolerance)
        assert trip(by_id[id], Kind.VOLTAGE).at == pytest.approx(edge)
    overload = trip(by_id["pump_overload"], Kind.CURRENT)
    assert overload.at == pytest.approx(1.15 * water.pump.rated_current, rel=0.01)


def test_margins_are_shown_in_both_systems(sheet, read, points):
    result = make("high_trip_discharge_pressure_a", sheet, read(**READINGS), points)
    assert isinstance(result, CheckResult)
    assert to_display(result.expected, result.kind, System.US) == pytest.approx(620.0)
    assert "4275" in result.sentence(System.SI).replace(" ", "")

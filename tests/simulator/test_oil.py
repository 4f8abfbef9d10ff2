"""The simulated sumps: their temperature at rest and running, and what the timers count."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make, make_all
from faultdoc.checks.base import CheckResult, Verdict
from faultdoc.library.load import load_unit
from faultdoc.library.vocabulary import load_points
from faultdoc.model.base import Measured
from faultdoc.physics import atmosphere, refrigerant
from faultdoc.physics.oil import HOUR
from faultdoc.simulator import condition
from faultdoc.simulator.oil import Log, oil_truths, resting_sump, running_sump

POINTS = load_points()
UNITS = {name: load_unit(name) for name in ("bluff_30", "marten_60", "tarn_120")}
BLUFF = UNITS["bluff_30"]
quick = settings(deadline=None, max_examples=50)


def measured(truths):
    return {
        name: Measured(kind=POINTS[name].kind, value=value, text=f"{value:.4g}") for name, value in truths.items()
    }


def at_rest(sheet, site, **what):
    sump = resting_sump(sheet, site, condition.Oil(**what), energised=site.energised)
    return measured(
        oil_truths(sheet, site, dict.fromkeys(range(1, len(sheet.compressors) + 1), sump))
        | {"ambient_air_temperature": site.ambient}
    )


@pytest.mark.parametrize("unit", sorted(UNITS))
@pytest.mark.parametrize("ambient", [268.15, 288.15, 303.15, 313.15])
def test_every_check_of_healthy_sumps_at_rest_says_as_expected(unit, ambient):
    sheet = UNITS[unit]
    readings = at_rest(sheet, condition.Site(ambient=ambient))
    results = make_all(sheet, readings, POINTS)
    assert [result.id for result in results if result.verdict is not Verdict.AS_EXPECTED] == []
    names = {result.id for result in results}
    assert {"oil_margin_1", "oil_warm_up", "warm_up_left_1", "starts_per_hour_1"} <= names


@pytest.mark.parametrize("unit", sorted(UNITS))
@pytest.mark.parametrize("ambient", [288.15, 303.15, 313.15])
def test_a_running_sump_is_over_saturated_suction_and_a_flooded_one_is_not(unit, ambient):
    sheet = UNITS[unit]
    site, cold = condition.Site(ambient=ambient), 276.15
    pressure = float(refrigerant.dew_pressure(sheet.refrigerant, cold)) - atmosphere.pressure(site.elevation)

    def verdict(superheat):
        sump = running_sump(sheet, cold, ambient + sheet.refrigerant_side.condenser_split, superheat)
        readings = measured(
            oil_truths(sheet, site, {1: sump}) | {"suction_pressure_a": pressure, "site_elevation": site.elevation}
        )
        result = make("oil_over_suction_1_a", sheet, readings, POINTS)
        assert isinstance(result, CheckResult)
        return result.verdict

    assert verdict(None) is Verdict.AS_EXPECTED
    assert verdict(sheet.refrigerant_side.superheat) is Verdict.AS_EXPECTED
    assert verdict(0.0) is Verdict.LOW


def test_a_dead_heater_and_a_short_time_energised_are_called():
    site = condition.Site()
    dead = at_rest(BLUFF, site, heater=0.0)
    assert dead["oil_temperature_1"].value == pytest.approx(site.ambient)
    assert make("oil_margin_1", BLUFF, dead, POINTS).verdict is Verdict.LOW
    fresh = condition.Site(energised=HOUR / 2)
    early = at_rest(BLUFF, fresh)
    for name, verdict in (
        ("oil_margin_1", Verdict.LOW), ("oil_warm_up", Verdict.LOW), ("warm_up_left_1", Verdict.HIGH),
    ):  # fmt: skip
        assert make(name, BLUFF, early, POINTS).verdict is verdict


def test_a_sump_warms_as_a_lump_does():
    # Incropera, Fundamentals of Heat and Mass Transfer: 63.2 % of the way after one time constant.
    site = condition.Site(ambient=293.15)
    sump = resting_sump(BLUFF, site, condition.Oil(), energised=20e3 / 2.8)
    assert sump - 293.15 == pytest.approx(0.632 * 25.0, abs=0.01)


@quick
@given(
    hours=st.floats(0.0, 48.0),
    more=st.floats(0.01, 24.0),
    heater=st.floats(0.0, 1.0),
    ambient=st.floats(253.0, 318.0),
)
def test_a_sump_rises_with_time_and_heater_and_stays_between_air_and_settled(hours, more, heater, ambient):
    site = condition.Site(ambient=ambient)

    def sump(time, factor):
        return resting_sump(BLUFF, site, condition.Oil(heater=factor), energised=time * HOUR)

    assert ambient - 1e-9 <= sump(hours, heater) <= sump(hours + more, heater) + 1e-9
    assert sump(hours, heater) <= sump(hours, 1.0) + 1e-9
    assert sump(hours, heater) <= ambient + 25.0 * heater + 1e-9
    less = resting_sump(BLUFF, site, condition.Oil(heater=heater, level=0.5), energised=hours * HOUR)
    assert less >= sump(hours, heater) - 1e-9  # half the oil warms in half the time


@quick
@given(first=st.floats(0.0, 10.0), more=st.floats(0.0, 10.0))
def test_a_running_sump_falls_with_the_superheat(first, more):
    low, high = (running_sump(BLUFF, 276.15, 318.15, value) for value in (first, first + more))
    assert 276.15 < low <= high <= 318.15


def test_a_stopped_compressors_sump_cools_from_where_it_ran():
    site = condition.Site()
    temperatures = [
        resting_sump(BLUFF, site, condition.Oil(heater=0.0), energised=time * HOUR, start=323.15)
        for time in (0.0, 1.0, 4.0, 40.0)
    ]
    assert temperatures == sorted(temperatures, reverse=True)
    assert temperatures[0] == 323.15
    assert temperatures[-1] == pytest.approx(site.ambient, abs=0.1)


def test_the_timers_count_from_the_log():
    log = Log(
        now=10.0 * HOUR,
        power=[(0.0, True)],
        compressors={
            1: [(9.2 * HOUR, True), (9.3 * HOUR, False), (9.5 * HOUR, True), (9.9 * HOUR, False)],
            2: [(5.0 * HOUR, True)],
        },
    )
    truths = oil_truths(BLUFF, condition.Site(), {}, log)
    assert truths["hours_energised_since_power_up"] == 10.0 * HOUR
    assert truths["starts_in_last_hour_1"] == 2.0
    assert truths["time_since_stop_1"] == pytest.approx(0.1 * HOUR)
    assert truths["starts_in_last_hour_2"] == 0.0
    assert "time_since_stop_2" not in truths
    assert "time_since_stop_3" not in truths


def test_a_break_in_power_is_a_stop_and_starts_the_count_again():
    log = Log(4.0 * HOUR, [(0.0, True), (3.0 * HOUR, False), (3.5 * HOUR, True)], {1: [(1.0 * HOUR, True)]})
    truths = oil_truths(BLUFF, condition.Site(), {}, log)
    assert truths["hours_energised_since_power_up"] == 0.5 * HOUR
    assert truths["time_since_stop_1"] == 1.0 * HOUR
    readings = measured(truths)
    assert make("oil_warm_up", BLUFF, readings, POINTS).verdict is Verdict.LOW
    assert make("anti_recycle_1", BLUFF, readings, POINTS).verdict is Verdict.AS_EXPECTED


def test_short_cycles_are_called():
    events = [
        (9.0 * HOUR + 400.0 * n + shift, on) for n in range(9) for shift, on in ((1.0, True), (200.0, False))
    ]
    log = Log(10.0 * HOUR, [(0.0, True)], {1: events})
    readings = measured(oil_truths(BLUFF, condition.Site(), {}, log))
    assert make("starts_per_hour_1", BLUFF, readings, POINTS).verdict is Verdict.HIGH


def test_a_sheet_without_a_sump_has_one_that_is_warm_enough():
    bare = BLUFF.model_copy(update={"oil_sump": None})
    site = condition.Site()
    readings = at_rest(bare, site)
    assert make("oil_margin_1", bare, readings, POINTS).verdict is Verdict.AS_EXPECTED


def test_a_compressor_that_is_not_there_is_refused():
    with pytest.raises(ValueError, match="none is 7"):
        oil_truths(BLUFF, condition.Site(), {7: 300.0})
    with pytest.raises(ValueError, match="none is 7"):
        oil_truths(BLUFF, condition.Site(), {}, Log(1.0, [], {7: []}))

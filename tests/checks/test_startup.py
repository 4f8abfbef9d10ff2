import pytest

from faultdoc.checks.all import make
from faultdoc.checks.base import Verdict
from faultdoc.checks.startup import timers


def test_warm_up_of_the_data_sheet(sheet, read, points):
    short = make("oil_warm_up", sheet, read(hours_energised_since_power_up="2 h"), points)
    assert short.verdict is Verdict.LOW
    assert short.residual == pytest.approx(-0.75)
    assert short.working[0].value == pytest.approx(6 * 3600.0)
    long = make("oil_warm_up", sheet, read(hours_energised_since_power_up="20 h"), points)
    assert long.verdict is Verdict.AS_EXPECTED
    assert long.working[0].value == 0.0


def test_an_hour_at_least(sheet, read, points):
    hasty = sheet.model_copy(update={"oil_warm_up": 600.0})
    result = make("oil_warm_up", hasty, read(hours_energised_since_power_up="20 min"), points)
    assert result.expected == 3600.0
    assert result.verdict is Verdict.LOW


def test_anti_recycle(sheet, read, points):
    soon = make("anti_recycle_2", sheet, read(time_since_stop_2="2 min"), points)
    assert soon.verdict is Verdict.LOW
    assert soon.working[0].value == pytest.approx(180.0)
    assert make("anti_recycle_2", sheet, read(time_since_stop_2="9 min"), points).verdict is Verdict.AS_EXPECTED


def test_starts_per_hour(sheet, read, points):
    many = make("starts_per_hour_1", sheet, read(starts_in_last_hour_1="9"), points)
    assert many.expected == 6.0
    assert many.verdict is Verdict.HIGH
    few = make("starts_per_hour_1", sheet, read(starts_in_last_hour_1="5"), points)
    assert few.verdict is Verdict.AS_EXPECTED
    assert few.working[0].value == pytest.approx(1.0)
    bare = sheet.model_copy(update={"starts_per_hour": None})
    missing = make("starts_per_hour_1", bare, read(starts_in_last_hour_1="5"), points)
    assert missing.reason == "the data sheet does not give the most starts of a compressor in an hour"


def test_a_compressor_the_unit_lacks_is_refused(sheet, read, points):
    readings = read(time_since_stop_7="2 min", starts_in_last_hour_7="2")
    for name in ("anti_recycle_7", "starts_per_hour_7"):
        assert "no compressor 7; it has 4" in make(name, sheet, readings, points).reason


def test_timers_of_the_data_sheet(sheet):
    hour = 3600.0
    found = timers(sheet, [(0.0, True)], [(9 * hour, True), (9 * hour + 60.0, False)], 9 * hour + 120.0)
    assert found.warm_up_left == 0.0
    assert found.anti_recycle_left == pytest.approx(sheet.anti_recycle - 60.0)
    hasty = sheet.model_copy(update={"oil_warm_up": 600.0})
    assert timers(hasty, [(0.0, True)], [], 600.0).warm_up_left == pytest.approx(3000.0)  # an hour at least

import pytest

from faultdoc.checks.all import make
from faultdoc.checks.base import Verdict


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

"""The waits before a start, in words: as long as the checks say, and none that no reading tells of."""

import pytest

from faultdoc.checks.all import make
from faultdoc.library.load import load_unit
from faultdoc.library.vocabulary import load_points
from faultdoc.model.base import Measured
from faultdoc.model.safety import PlantState
from faultdoc.quantities import Kind, parse
from faultdoc.record.waits import waits

READY = {
    "supply": "energised",
    "panel": "closed",
    "pump": "stopped",
    "water": "pressurised",
    "compressors": "stopped",
    "oil": "cold",
}


def state(**changed) -> PlantState:
    return PlantState.model_validate({**READY, **changed})


def time(text) -> Measured:
    return Measured.from_quantity(parse(text, Kind.TIME))


@pytest.mark.parametrize("hours", ["0 h", "7 h 59 min", "8 h", "30 h"])
def test_the_warm_up_is_over_when_the_check_says_so(hours) -> None:
    sheet = load_unit("bluff_30")
    readings = {"hours_energised_since_power_up": time(hours)}
    (wait,) = waits(sheet, readings, state())
    result = make("oil_warm_up", sheet, readings, load_points())
    assert wait.over == (result.measured >= result.expected)


def test_no_oil_is_warm_within_the_hour_whatever_the_sheet_says() -> None:
    sheet = load_unit("bluff_30").model_copy(update={"oil_warm_up": 60.0})
    (wait,) = waits(sheet, {"hours_energised_since_power_up": time("20 min")}, state())
    assert wait.words == "40 min left of 1 h"


def test_nothing_read_nothing_told() -> None:
    assert waits(load_unit("bluff_30"), {}, state()) == ()


def test_without_supply_the_warm_up_is_all_to_come() -> None:
    (wait,) = waits(
        load_unit("bluff_30"), {"hours_energised_since_power_up": time("20 h")}, state(supply="isolated")
    )
    assert not wait.over
    assert wait.words == "the supply is off: 8 h from when it comes back"


def test_a_state_that_says_otherwise_is_pointed_out() -> None:
    readings = {"hours_energised_since_power_up": time("6 h")}
    sheet = load_unit("bluff_30")
    assert "says that the oil is warm" in waits(sheet, readings, state(oil="warm"))[0].words
    assert "says that the oil is warm" not in waits(sheet, readings, state())[0].words


def test_compressors_have_their_own_waits() -> None:
    sheet = load_unit("bluff_30")  # 5 min of anti-recycle, 6 starts an hour, four compressors
    number = Measured.from_quantity(parse("6", Kind.NUMBER))
    readings = {
        "time_since_stop_1": time("2 min"),
        "time_since_stop_4": time("6 min"),
        "starts_in_last_hour_4": number,
        "time_since_stop_5": time("1 min"),
    }
    found = {wait.title: wait for wait in waits(sheet, readings, state())}
    assert [(title, wait.over) for title, wait in found.items()] == [
        ("Anti-recycle, compressor 1", False),
        ("Anti-recycle, compressor 4", True),
        ("Starts in the last hour, compressor 4", False),
    ]


def test_a_time_that_is_assumed_says_so() -> None:
    sheet = load_unit("bluff_30").model_copy(update={"assumed": ("oil_warm_up", "anti_recycle")})
    readings = {"hours_energised_since_power_up": time("6 h"), "time_since_stop_1": time("2 min")}
    found = waits(sheet, readings, state())
    assert [wait.words for wait in found] == ["2 h left of 8 h (assumed)", "3 min left of 5 min (assumed)"]

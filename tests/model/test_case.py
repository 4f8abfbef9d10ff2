import pytest
from pydantic import ValidationError

from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Conclusion
from faultdoc.quantities import Kind, parse

STATE = {
    "supply": "energised",
    "panel": "closed",
    "pump": "stopped",
    "water": "pressurised",
    "compressors": "stopped",
    "oil": "warm",
}
GOOD = {"unit": "bluff_30", "symptoms": ["no_flow"], "state": STATE, "who": ["technician"]}


def test_the_least_a_case_says() -> None:
    case = Case.model_validate(GOOD)
    assert (case.readings, case.answers, case.tried, case.conclusion) == ({}, {}, (), None)


def test_readings_are_quantities_or_choices_in_order() -> None:
    flow = Measured.from_quantity(parse("4 L/s", Kind.VOLUME_FLOW))
    case = Case.model_validate({**GOOD, "readings": {"water_flow": flow, "pump_rotation": "forward"}})
    assert list(case.readings.items()) == [("water_flow", flow), ("pump_rotation", "forward")]


@pytest.mark.parametrize(
    "changes",
    [
        {"symptoms": []},
        {"who": []},
        {"who": ["boss"]},
        {"readings": {"water_flow": 4.0}},
        {"answers": {"A B": "open"}},
        {"answers": {"valve": 1}},
        {"state": {}},
        {"tried": [{"cause": "dirt"}]},
        {"unit": None},
        {"mood": "good"},
    ],
)
def test_what_a_case_may_not_say(changes: dict[str, object]) -> None:
    with pytest.raises(ValidationError) as caught:
        Case.model_validate({**GOOD, **changes})
    assert caught.value.errors()[0]["loc"][0] == next(iter(changes))


def test_a_call_ends_in_one_of_four_ways() -> None:
    for outcome in ("fixed", "handed_over", "made_safe", "not_found"):
        assert Conclusion.model_validate({"outcome": outcome}).outcome == outcome
    with pytest.raises(ValidationError):
        Conclusion.model_validate({"outcome": "ignored"})

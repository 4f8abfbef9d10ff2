import pytest
from pydantic import ValidationError

from faultdoc.model.points import Point

GOOD = {
    "id": "pump_current_{line}", "kind": "current", "title": "T", "where": "W", "how": "H", "instrument": "I",
    "limit": "1 A",
}  # fmt: skip
CHOICES = [{"id": "open", "title": "Open"}, {"id": "shut", "title": "Shut"}]


def refusal(**changes: object) -> str:
    with pytest.raises(ValidationError) as caught:
        Point.model_validate({**GOOD, **changes})
    return str(caught.value)


def test_a_measured_point_and_a_choice() -> None:
    assert Point.model_validate(GOOD).limit == "1 A"
    assert Point.model_validate({**GOOD, "limit": None, "limit_of_reading": 0.02}).limit_of_reading == 0.02
    choice = Point.model_validate({**GOOD, "kind": "choice", "limit": None, "choices": CHOICES})
    assert [entry.id for entry in choice.choices] == ["open", "shut"]


def test_choices_go_with_the_kind_choice_and_only_with_it() -> None:
    assert "choices are for points of kind 'choice'" in refusal(choices=CHOICES)
    assert "choices are for points of kind 'choice'" in refusal(kind="choice")


def test_a_measured_point_needs_its_instruments_error() -> None:
    assert "needs limit or limit_of_reading" in refusal(limit=None)


@pytest.mark.parametrize(
    "changes",
    [{"kind": "warmth"}, {"id": "Pump"}, {"limit_of_reading": 1.0}, {"limit_of_reading": -0.1}, {"limit": 1}],
)
def test_fields_are_checked(changes: dict[str, object]) -> None:
    assert next(iter(changes)) in refusal(**changes)

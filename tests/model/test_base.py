from typing import Annotated

import pytest
from pydantic import Field, ValidationError

from faultdoc.model import base
from faultdoc.model.base import Id, Measured, Minutes, Model, Probability, Text
from faultdoc.quantities import Kind, parse


class Sample(Model):
    id: Id
    text: Text = "x"
    share: Probability = 0.5
    minutes: Minutes = 1.0
    count: Annotated[int, Field(ge=1)] = 1
    done: bool = False


def errors(model, **data):
    with pytest.raises(ValidationError) as caught:
        model.model_validate(data)
    return [(error["type"], error["loc"]) for error in caught.value.errors()]


@pytest.mark.parametrize("id", ["ab", "a1", "strainer_clogged", "a" * 64])
def test_good_ids(id: str) -> None:
    assert Sample(id=id).id == id


@pytest.mark.parametrize("id", ["a", "A1", "1a", "_a", "a b", "a-b", "é1", "a" * 65, "", "ab\n"])
def test_bad_ids(id: str) -> None:
    assert errors(Sample, id=id) == [("string_pattern_mismatch", ("id",))]


def test_unknown_keys_are_refused() -> None:
    assert errors(Sample, id="ab", colour="red") == [("extra_forbidden", ("colour",))]


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("share", "0.5"),
        ("share", True),
        ("minutes", "10"),
        ("count", 1.0),
        ("count", "1"),
        ("count", True),
        ("done", 1),
        ("done", "yes"),
        ("text", 3),
    ],
)
def test_nothing_is_taken_for_what_it_is_not(field: str, value: object) -> None:
    ((kind, loc),) = errors(Sample, id="ab", **{field: value})
    assert loc == (field,)
    assert kind.endswith("_type")


@pytest.mark.parametrize(
    ("field", "value"), [("share", -0.01), ("share", 1.01), ("minutes", -1.0), ("minutes", 10001.0)]
)
def test_numbers_have_bounds(field: str, value: float) -> None:
    ((kind, _),) = errors(Sample, id="ab", **{field: value})
    assert kind in ("greater_than_equal", "less_than_equal")


def test_text_is_stripped_and_never_empty() -> None:
    assert Sample(id="ab", text="  a b ").text == "a b"
    assert errors(Sample, id="ab", text="   ") == [("string_too_short", ("text",))]
    assert errors(Sample, id="ab", text="x" * 4001) == [("string_too_long", ("text",))]


def test_models_cannot_be_changed() -> None:
    sample = Sample(id="ab")
    with pytest.raises(ValidationError, match="frozen"):
        sample.id = "cd"  # type: ignore[misc]


# Each field, a text for it and its SI value; factors as in tests/test_quantities.py.
FIELDS = [
    ("Temperature", "0 °C", 273.15),
    ("TemperatureDifference", "9 °F", 5.0),
    ("GaugePressure", "1 bar", 1e5),
    ("PressureDifference", "2 kPa", 2e3),
    ("VolumeFlow", "3.6 m3/h", 1e-3),
    ("MassFraction", "25 %", 0.25),
    ("Ratio", "5 %", 0.05),
    ("Length", "10 ft", 3.048),
    ("Bore", "2 in", 0.0508),
    ("Volume", "100 L", 0.1),
    ("Voltage", "460 V", 460.0),
    ("Current", "6.6 A", 6.6),
    ("Resistance", "1 kohm", 1e3),
    ("Frequency", "60 Hz", 60.0),
    ("Time", "5 min", 300.0),
    ("Power", "2 kW", 2e3),
    ("ShaftPower", "2 hp", 1491.3997),
    ("ElectricPower", "1.5 kVA", 1500.0),
    ("Mass", "500 g", 0.5),
    ("HeatCapacity", "20 kJ/K", 2e4),
    ("HeatLoss", "2.8 W/K", 2.8),
]


def one_field(name: str) -> type[Model]:
    return type("One", (Model,), {"__annotations__": {"value": getattr(base, name)}, "__module__": __name__})


@pytest.mark.parametrize(("name", "text", "si"), FIELDS)
def test_quantity_fields_read_text_with_a_unit(name: str, text: str, si: float) -> None:
    assert one_field(name).model_validate({"value": text}).value == pytest.approx(si)  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", [name for name, _, _ in FIELDS])
@pytest.mark.parametrize("value", [5, 5.5, "5", True, None, "warm", [1], "5 furlongs"])
def test_quantity_fields_refuse_all_else(name: str, value: object) -> None:
    assert errors(one_field(name), value=value) == [("value_error", ("value",))]


def test_every_quantity_field_is_tried() -> None:
    plain = {"Id", "Line", "Text", "Model", "Measured", "Minutes", "Probability"}
    assert {name for name, _, _ in FIELDS} == set(base.__all__) - plain


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("VolumeFlow", "-1 gpm"),
        ("MassFraction", "101 %"),
        ("Bore", "0 mm"),
        ("Volume", "0 L"),
        ("Voltage", "-1 V"),
        ("Current", "-1 A"),
        ("Resistance", "-1 ohm"),
        ("Time", "-1 min"),
        ("Power", "-1 kW"),
        ("Mass", "0 kg"),
        ("HeatCapacity", "0 kJ/K"),
        ("HeatLoss", "0 W/K"),
    ],
)
def test_quantity_fields_have_bounds(name: str, text: str) -> None:
    ((kind, _),) = errors(one_field(name), value=text)
    assert kind in ("greater_than", "greater_than_equal", "less_than_equal")


def test_a_reading_keeps_kind_value_uncertainty_and_text() -> None:
    reading = Measured.from_quantity(parse("62 kPa ± 3", Kind.GAUGE_PRESSURE))
    assert (reading.kind, reading.value, reading.text) == (Kind.GAUGE_PRESSURE, 62e3, "62 kPa ± 3")
    assert reading.standard_uncertainty == pytest.approx(3e3 / 3**0.5)

"""Data sheets as text: written in the units a person reads, and read back equal."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.library.load import load_unit, units
from faultdoc.library.sheets import quantity_text, sheet_yaml
from faultdoc.library.source import read_text
from faultdoc.library.translate import build
from faultdoc.model.nameplate import Assumption
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import ACCEPTED, Kind, parse


def read_back(text: str) -> DataSheet:
    return build(DataSheet, read_text(text, "written.yaml"))


@pytest.mark.parametrize("unit", units())
def test_every_shipped_sheet_comes_back_equal(unit: str) -> None:
    sheet = load_unit(unit)
    assert read_back(sheet_yaml(sheet)) == sheet


def test_the_sheet_is_written_as_a_person_would() -> None:
    text = sheet_yaml(load_unit("bluff_30"))
    for line in ("  voltage: 460 V", "  design_flow: 72 gpm", "  design_leaving: 44 °F", "oil_warm_up: 8 h"):
        assert f"\n{line}\n" in text
    # What the model has by default is not written.
    assert "speeds:" not in text
    assert "assumed" not in text


def test_assumptions_stand_at_the_head(tmp_path) -> None:
    sheet = load_unit("bluff_30").model_copy(update={"assumed": ("water.barrel", "compressors.0.type")})
    long = "Because " + "of this and that " * 20
    text = sheet_yaml(
        sheet, [Assumption(("water.barrel",), "40 kPa", "Usual."), Assumption(("compressors.0.type",), "x", long)]
    )
    head = [line for line in text.split("\n") if line.startswith("#")]
    assert "#   water.barrel: 40 kPa. Usual." in head
    assert max(map(len, head)) <= 115
    path = tmp_path / "mine.yaml"
    path.write_text(text, encoding="utf-8")
    assert load_unit(path) == sheet


def test_words_that_look_like_something_else_come_back_as_words() -> None:
    sheet = load_unit("bluff_30").model_copy(
        update={"title": "1:20 # yes", "notes": ("012", "a: b", "null", "- x")}
    )
    assert read_back(sheet_yaml(sheet)) == sheet


MEASURED = sorted(kind for kind in Kind if ACCEPTED.get(kind))


@given(st.sampled_from(MEASURED), st.floats(1e-6, 1e7))
@settings(deadline=None, max_examples=300)
def test_any_value_is_read_back_to_the_last_bit(kind: Kind, value: float) -> None:
    read_again = parse(quantity_text(value, kind), kind, need_unit=True).value
    assert read_again == (pytest.approx(value, rel=3e-16) if kind is Kind.RATIO else value)


@given(st.sampled_from(MEASURED), st.data(), st.decimals(1, 9999, places=1))
@settings(deadline=None, max_examples=200)
def test_what_was_typed_is_written_no_longer(kind: Kind, data: st.DataObject, number) -> None:
    unit = data.draw(st.sampled_from([one for one in ACCEPTED[kind] if one[0].isalpha() or one[0] in "°%"]))
    typed = f"{number.normalize():f} {unit}"
    text = quantity_text(parse(typed, kind, need_unit=True).value, kind)
    assert len(text.split(" ")[0]) <= len(typed.split(" ")[0])

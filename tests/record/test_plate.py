"""A nameplate being typed: every field has a group, and every assumption a name a person understands."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.nameplate import NameplateError, sheet_from
from faultdoc.library.sheets import sheet_yaml
from faultdoc.library.source import read_text
from faultdoc.library.translate import build
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, System
from faultdoc.record.plate import _PLACES, FIELDS, GROUPS, needed_words, place_words, said, with_its_unit


def test_every_field_stands_in_one_group() -> None:
    assert sorted(id for group in GROUPS for id in group.fields) == sorted(FIELDS)


@pytest.mark.parametrize(
    "answers",
    [
        {"capacity": "30 tons"},
        {"compressor_rated_current": "2 x 15 A", "pump_power": "5 hp", "flow_switch": "differential"},
        {"compressor_rated_current": "15 A", "pump_current": "6 A", "flow_switch": "paddle"},
    ],
)
def test_every_assumption_has_a_name(answers) -> None:
    made = sheet_from({"title": "x1", "refrigerant": "R-410A", "voltage": "460 V", **answers})
    for one in made.assumptions:
        words = place_words(one.paths)
        assert "." not in words
        assert words[0].isupper()
        assert words in _PLACES.values() or words in ("Frequency", "Control voltage")


def test_a_blank_field_is_neither_right_nor_wrong() -> None:
    assert said(FIELDS["voltage"], "  ", System.US) == said(FIELDS["title"], "", System.US)
    assert said(FIELDS["voltage"], "", System.US).problem is None


def test_a_refrigerant_that_is_not_known_is_kept_and_told() -> None:
    assert said(FIELDS["refrigerant"], "R-9999", System.US).echo == "not one that FaultDoc knows; kept as typed"


def test_a_bare_number_means_the_same_in_either_system() -> None:
    kept = with_its_unit(FIELDS["design_leaving"], "44", System.US)
    assert kept == "44 °F"
    assert said(FIELDS["design_leaving"], kept, System.SI).echo == "understood as 6.7 °C = 44 °F"
    for id in ("title", "compressor_count", "compressor_rated_current", "glycol"):
        assert with_its_unit(FIELDS[id], "4", System.US) == "4"


def test_what_is_needed_says_so() -> None:
    assert needed_words(FIELDS["voltage"]) == "needed"
    assert "unless 'Cooling capacity'" in needed_words(FIELDS["compressor_rated_current"])
    assert needed_words(FIELDS["glycol"]) == ""


TYPED = [
    "",
    "0",
    "-5",
    "1e-9",
    "0.001",
    "1",
    "4",
    "44",
    "460",
    "1e6",
    "72 gpm",
    "30 tons",
    "2 x 15 A",
    "3 in",
    "x",
]
WORDS = ["x", "7", "\u00dcnit", "\u0436", "unit: 5 #x", "'q'", "a" * 120]


def texts(id):
    field = FIELDS[id]
    if field.kind is Kind.CHOICE:
        return st.sampled_from(["", *(one.id for one in field.choices)])
    if id == "refrigerant":
        return st.sampled_from(["r410a", "R-134a", "water"])
    return st.sampled_from(WORDS if field.kind is None else TYPED)


@given(st.fixed_dictionaries({id: texts(id) for id in FIELDS}))
@settings(deadline=None, max_examples=150)
def test_whatever_is_typed_makes_a_sheet_that_is_read_back_or_is_refused_by_field(answers) -> None:
    # What is not understood is emptied, as a person would who is told of it: more than first slips is tried.
    answers = {id: text for id, text in answers.items() if said(FIELDS[id], text, System.US).problem is None}
    answers.setdefault("voltage", "460")
    answers.setdefault("capacity", "30")
    try:
        made = sheet_from(answers)
    except NameplateError as problem:
        refused = set(problem.problems)
    else:
        assert build(DataSheet, read_text(sheet_yaml(made.sheet, made.assumptions), "typed.yaml")) == made.sheet
        return
    assert refused <= set(FIELDS)


def test_what_no_sheet_can_have_is_refused_at_its_field() -> None:
    plate = {
        "title": "x1",
        "refrigerant": "R-410A",
        "voltage": "460 V",
        "capacity": "30 tons",
        "glycol": "propylene",
    }
    for id, text, told in (
        ("glycol_fraction", "460", "between 0 and 100 %"),
        ("glycol_fraction", "-5", "between 0 and 100 %"),
        ("design_leaving", "1e6", "leaves that warm"),
    ):
        with pytest.raises(NameplateError, match=told) as problem:
            sheet_from({**plate, id: text})
        assert list(problem.value.problems) == [id]

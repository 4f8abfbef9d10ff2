"""Data sheets of the person's own: kept whole, found by id, never written over without leave."""

import pytest

from faultdoc.library.load import load_unit, load_units, shipped_units, unit_path, units
from faultdoc.library.ownunits import UnitExistsError, free_id, keep_unit
from faultdoc.library.places import own_units_folder
from faultdoc.library.problems import FileProblems
from faultdoc.model.nameplate import Assumption


@pytest.fixture
def sheet():
    return load_unit("bluff_30").model_copy(update={"id": "mine", "title": "Mine"})


def test_a_kept_unit_is_found_by_its_id_and_comes_first(sheet) -> None:
    path = keep_unit(sheet, [Assumption(("water.barrel",), "40 kPa", "Usual.")])
    assert path == own_units_folder() / "mine.yaml" == unit_path("mine")
    assert units() == ["mine", *shipped_units()]
    assert load_unit("mine") == sheet
    assert load_unit(path) == sheet
    assert "#   water.barrel: 40 kPa. Usual." in path.read_text(encoding="utf-8")
    assert list(load_units()[0]) == units()
    assert [one.name for one in path.parent.iterdir()] == ["mine.yaml"]  # no draft is left


def test_one_that_is_there_is_replaced_only_by_leave(sheet) -> None:
    path = keep_unit(sheet)
    other = sheet.model_copy(update={"title": "Other"})
    with pytest.raises(UnitExistsError, match="'mine' already, one of your own") as there:
        keep_unit(other)
    assert there.value.replaceable
    assert load_unit(path) == sheet
    keep_unit(other, replace=True)
    assert load_unit("mine") == other


def test_faultdocs_own_is_never_replaced(sheet) -> None:
    with pytest.raises(UnitExistsError, match="FaultDoc comes with") as there:
        keep_unit(load_unit("bluff_30"), replace=True)
    assert not there.value.replaceable
    assert not own_units_folder().exists()


def test_a_free_id_is_free_and_an_id(sheet) -> None:
    assert free_id("mine") == "mine"
    keep_unit(sheet)
    assert free_id("mine") == "mine_2"
    keep_unit(sheet.model_copy(update={"id": "mine_2"}))
    assert free_id("mine") == "mine_3"
    long = "a" * 64
    keep_unit(sheet.model_copy(update={"id": long}))
    assert free_id(long) == "a" * 62 + "_2"


def test_a_file_not_named_after_its_id_is_left_out_and_told(sheet) -> None:
    path = keep_unit(sheet)
    path.rename(path.with_name("yours.yaml"))
    with pytest.raises(FileProblems, match="name the file after the id"):
        load_unit("yours")
    sheets, left_out = load_units()
    assert list(sheets) == shipped_units()
    assert ["name the file after the id" in str(one) for one in left_out] == [True]

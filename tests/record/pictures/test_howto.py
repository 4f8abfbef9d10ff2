"""Every way of taking a reading is drawn, inside its frame, and used."""

from __future__ import annotations

import pytest

from faultdoc.library.load import load_unit
from faultdoc.library.vocabulary import load_points
from faultdoc.model.base import Measured
from faultdoc.model.safety import TRIPPED
from faultdoc.quantities import parse
from faultdoc.record.pictures.clocks import clocks_picture
from faultdoc.record.pictures.howto import WAYS, howto_picture, way_of
from faultdoc.record.pictures.shapes import Role, bounds
from faultdoc.record.waits import waits

POINTS = load_points()


@pytest.mark.parametrize("way", WAYS)
def test_drawings_stay_in_their_frame(way: str) -> None:
    point = next(point for point in POINTS.values() if way_of(point) == way)  # each way has a point that needs it
    picture = howto_picture(point)
    left, top, right, bottom = bounds(picture.shapes)
    assert left >= 0.0
    assert top >= 0.0
    assert right <= picture.width
    assert bottom <= picture.height
    assert point.how in picture.words


def test_what_must_be_dead_is_drawn_dead() -> None:
    for id in ("winding_resistance_1_l1_l2", "insulation_resistance_1", "pump_insulation_resistance"):
        words = [getattr(shape, "text", "") for shape in howto_picture(POINTS[id]).shapes]
        assert any("ead" in one for one in words), id


def _given(**texts: str) -> dict[str, Measured]:
    return {point: Measured.from_quantity(parse(text, POINTS[point].kind)) for point, text in texts.items()}


def test_clocks_show_what_is_left() -> None:
    sheet = load_unit("bluff_30")
    assert clocks_picture(waits(sheet, {}, TRIPPED)) is None
    readings = _given(time_since_stop_1="2 min", time_since_stop_2="1 h", starts_in_last_hour_1="3")
    found = waits(sheet, readings, TRIPPED)
    picture = clocks_picture(found)
    assert picture is not None
    timed = [wait for wait in found if wait.whole]
    assert [wait.left for wait in timed] == [sheet.anti_recycle - 120.0, 0.0]
    assert all(wait.title in picture.words for wait in timed)
    rings = [shape for shape in picture.shapes if getattr(shape, "width", 0.0) == 14.0]
    assert len(rings) == 1  # the other one is over, and ticked
    ticked = [shape for shape in picture.shapes if getattr(shape, "width", 0.0) == 5.0]
    assert [shape.role for shape in ticked] == [Role.GOOD]  # type: ignore[union-attr]

"""The plant's picture: every measuring point has one place, and nothing lies over anything else."""

from __future__ import annotations

import re
from collections import Counter
from itertools import combinations

import pytest

from faultdoc.checks.all import make_all
from faultdoc.library.load import load_units
from faultdoc.library.vocabulary import load_points
from faultdoc.model.base import Measured
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, System, parse
from faultdoc.record.pictures.places import card
from faultdoc.record.pictures.schematic import Seen, layout, plant_picture, side_of, sides
from faultdoc.record.pictures.shapes import Line, Mark, Words, bounds

POINTS = load_points()
SHEETS = load_units()[0]
SIDES = [(sheet, side) for sheet in SHEETS for side, _ in sides(SHEETS[sheet])]


def there(sheet: DataSheet, point: str) -> bool:
    """Whether a unit has a measuring point."""
    if match := re.search(r"_([a-d])$", point):
        return match[1] in {one.circuit for one in sheet.compressors}
    if match := re.search(r"_(\d)(?:_|$)", point):
        most = sum(fan.count for fan in sheet.fans) if point.startswith("fan_") else len(sheet.compressors)
        return int(match[1]) <= most
    if point.startswith(("pump_", "dead_head")):
        return sheet.water.pump is not None
    return point != "strainer_pressure_drop" or sheet.water.strainer is not None


@pytest.mark.parametrize("id", SHEETS)
def test_every_measuring_point_of_the_unit_has_just_one_place(id: str) -> None:
    sheet = SHEETS[id]
    placed = Counter(one.point for side, _ in sides(sheet) for one in layout(sheet, side).points)
    shared = {"ambient_air_temperature", "site_elevation"}  # around every circuit alike
    circuits = len({one.circuit for one in sheet.compressors})
    assert {point for point in POINTS if there(sheet, point)} == set(placed)
    assert {point: count for point, count in placed.items() if count > 1} == dict.fromkeys(
        shared if circuits > 1 else (), circuits
    )


@pytest.mark.parametrize(("id", "side"), SIDES)
def test_nothing_lies_over_another_point_and_all_is_inside(id: str, side: str) -> None:
    sheet = SHEETS[id]
    readings = {
        one.point: _typical(one.point)
        for one in layout(sheet, side).points
        if POINTS[one.point].kind is not Kind.CHOICE
    }
    picture = plant_picture(sheet, side, Seen(readings, POINTS, asked=tuple(readings)[:1]))
    for one, other in combinations(picture.spots, 2):
        overlap_x = min(one.box[2], other.box[2]) - max(one.box[0], other.box[0])
        overlap_y = min(one.box[3], other.box[3]) - max(one.box[1], other.box[1])
        assert overlap_x <= 1.0 or overlap_y <= 1.0, (one.point, other.point)
    left, top, right, bottom = bounds(picture.shapes)
    assert left >= 0.0
    assert top >= 0.0
    assert right <= picture.width
    assert bottom <= picture.height


def _typical(point: str) -> Measured:
    kind = POINTS[point].kind
    texts = {
        Kind.TEMPERATURE: "165.5 °F", Kind.GAUGE_PRESSURE: "250.5 psig", Kind.PRESSURE_DIFFERENCE: "12.5 psi",
        Kind.VOLUME_FLOW: "120.5 gpm", Kind.MASS_FRACTION: "25.5 %", Kind.LENGTH: "120.5 ft", Kind.BORE: "2.5 in",
        Kind.VOLUME: "500 gal", Kind.POWER: "30.5 tons", Kind.VOLTAGE: "462.5 V", Kind.CURRENT: "120.5 A",
        Kind.RESISTANCE: "0.525 ohm", Kind.FREQUENCY: "60.0 Hz", Kind.TIME: "1 h 20 min", Kind.RATIO: "12.5 %",
        Kind.NUMBER: "3.5",
    }  # fmt: skip
    return Measured.from_quantity(parse(texts[kind], kind))


def test_titles_of_cards_fit_into_them() -> None:
    for id, side in SIDES:
        drawn = layout(SHEETS[id], side).shapes
        for place, shape in enumerate(drawn):
            if isinstance(shape, Words) and shape.bold and shape.size == 13.0 and shape.anchor == "start":
                before = drawn[place - 1]
                if isinstance(before, Line) and before.closed and shape.at[0] - before.points[0][0] == 12.0:
                    assert bounds([shape])[2] <= before.points[1][0], (id, side, shape.text)
    shapes, placed = card(0.0, 0.0, 100.0, "Title", [("a", "A"), ("b", "B")])
    assert placed[1].at[1] < max(y for _, y in shapes[0].points)  # type: ignore[union-attr]


def _read(**texts: str) -> dict[str, Measured]:
    return {point: Measured.from_quantity(parse(text, POINTS[point].kind)) for point, text in texts.items()}


def test_marks_tell_what_the_checks_say_and_leave_innocent_readings_alone() -> None:
    sheet = SHEETS["bluff_30"]
    readings = _read(
        suction_pressure_a="30 psi", suction_line_temperature_a="60 °F", ambient_air_temperature="92 °F",
        discharge_pressure_a="150 psi", liquid_line_temperature_a="100 °F",
    )  # fmt: skip
    results = make_all(sheet, readings, POINTS)
    seen = Seen(
        {**readings, "sight_glass_a": "bubbles"}, POINTS, results,
        asked=("discharge_line_temperature_a",), not_had=("liquid_pressure_a",),
    )  # fmt: skip
    spots = {spot.point: spot for spot in plant_picture(sheet, "circuit_a", seen).spots}
    off = {point for one in results if one.verdict.value != "as expected" for point in one.subjects}
    assert "suction_pressure_a" in off
    assert {point for point, spot in spots.items() if spot.mark is Mark.OFF} == off & set(spots)
    # The day's heat is compared with; it is not what is wrong.
    assert spots["ambient_air_temperature"].mark is not Mark.OFF
    assert spots["sight_glass_a"].value == "Bubbles"
    assert spots["sight_glass_a"].mark is Mark.READ
    assert spots["liquid_pressure_a"].mark is Mark.NOT_HAD
    assert [point for point, spot in spots.items() if spot.asked] == ["discharge_line_temperature_a"]
    assert "30.0 psig" in spots["suction_pressure_a"].words
    si = plant_picture(sheet, "circuit_a", Seen(readings, POINTS, system=System.SI))
    assert next(one.value for one in si.spots if one.point == "suction_pressure_a") == "207 kPa gauge"


def test_doubts_mark_a_reading() -> None:
    sheet = SHEETS["bluff_30"]
    readings = _read(water_flow="70 gpm")
    seen = Seen(readings, POINTS, doubts={"water_flow": ("The meter is for another pipe.",)})
    spot = next(one for one in plant_picture(sheet, "water", seen).spots if one.point == "water_flow")
    assert spot.mark is Mark.OFF
    assert "another pipe" in spot.words


def test_sides_are_found_by_their_points() -> None:
    sheet = SHEETS["bluff_30"]
    assert side_of(sheet, "suction_pressure_b") == "circuit_b"
    assert side_of(sheet, "winding_resistance_3_l1_l2") == "motor_3"
    assert side_of(sheet, "suction_pressure_d") is None
    with pytest.raises(KeyError):
        layout(sheet, "circuit_d")

"""Shapes, their bounds, and their SVG."""

from __future__ import annotations

import itertools
import xml.etree.ElementTree as ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from faultdoc.quantities import Kind, System
from faultdoc.record.pictures.axes import Frame, scale, ticks
from faultdoc.record.pictures.shapes import Disc, Line, Mark, Picture, Role, Spot, Words, bounds, box, cropped
from faultdoc.record.pictures.svg import PRINT, picture_svg

numbers = st.floats(-500.0, 500.0)
places = st.tuples(numbers, numbers)
shapes = st.one_of(
    st.builds(
        Line, st.lists(places, min_size=2, max_size=6).map(tuple), closed=st.booleans(), arrow=st.booleans()
    ),
    st.builds(Disc, places, st.floats(0.1, 50.0)),
    st.builds(Words, places, st.text(max_size=30), anchor=st.sampled_from(("start", "middle", "end"))),
)


@given(st.lists(shapes, min_size=1, max_size=8))
def test_cropping_moves_everything_alike_and_leaves_the_margin(drawn: list[Line | Disc | Words]) -> None:
    spot = Spot("p", "P", (1.0, 2.0), Mark.READ, False, "", "", (), (0.0, 1.0, 2.0, 3.0))
    before = Picture("T", "W", 10.0, 10.0, tuple(drawn), (spot,))
    after = cropped(before, 14.0)
    left, top, right, bottom = bounds(after.shapes)
    assert (left, top) == pytest.approx((14.0, 14.0), abs=1e-6)
    assert (right + 14.0, bottom + 14.0) == pytest.approx((after.width, after.height), abs=1e-6)
    by = after.spots[0].at[0] - 1.0, after.spots[0].at[1] - 2.0
    assert after.spots[0].box == pytest.approx((by[0], 1.0 + by[1], 2.0 + by[0], 3.0 + by[1]), abs=1e-6)


@given(st.lists(shapes, max_size=8), st.text(max_size=40))
def test_svg_is_well_formed_whatever_the_words(drawn: list[Line | Disc | Words], title: str) -> None:
    printable = "".join(one for one in title if one.isprintable())
    kept = tuple(one for one in drawn if not isinstance(one, Words) or one.text.isprintable())
    root = ElementTree.fromstring(picture_svg(Picture(printable, "<&>", 100.0, 50.0, kept)))
    assert root.find("{http://www.w3.org/2000/svg}title").text == (printable or None)
    texts = [one.text or "" for one in root.iter("{http://www.w3.org/2000/svg}text")]
    assert texts == [one.text for one in kept if isinstance(one, Words)]


def test_every_role_has_a_colour_on_paper() -> None:
    assert set(PRINT) == set(Role)


@given(st.floats(-1e4, 1e4), st.floats(0.01, 1e5))
def test_ticks_are_round_and_inside(least: float, span: float) -> None:
    found = ticks(least, least + span)
    assert 3 <= len(found) <= 13
    assert all(least - 1e-6 * span <= one <= least + span * (1 + 1e-6) for one in found)
    steps = {round((b - a) / span, 9) for a, b in itertools.pairwise(found)}
    assert max(steps) - min(steps) < 1e-6


def test_curves_are_cut_at_the_frame() -> None:
    across = scale("x", [0.0, 10.0], Kind.NUMBER, System.SI)
    frame = Frame(0.0, 0.0, 100.0, 100.0, across, across)
    lines = frame.curve([(-50.0, 5.0), (5.0, 5.0), (5.0, 90.0), (9.0, 90.0), (9.0, 5.0)], Role.INK)
    assert len(lines) == 2  # it leaves the frame once and comes back
    assert all(frame.has((round(x, 6), round(y, 6))) for line in lines for x, y in line.points)


def test_box_is_closed() -> None:
    assert box(0.0, 0.0, 2.0, 1.0).closed


def test_what_is_neither_drawn_nor_filled_is_not_on_paper() -> None:
    seen, unseen = box(0.0, 0.0, 4.0, 4.0), box(1.0, 1.0, 2.0, 2.0, role=None)
    assert picture_svg(Picture("a", "", 9.0, 9.0, (seen, unseen))).count("<path") == 1

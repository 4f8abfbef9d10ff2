import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from faultdoc.record.chart import LETTERS, MOST_LINES, bars_svg, belief_svg

SVG = "{http://www.w3.org/2000/svg}"
shares = st.floats(0.0, 1.0)


@st.composite
def beliefs(draw):
    wide = draw(st.integers(1, MOST_LINES))
    return draw(st.lists(st.lists(shares, min_size=wide, max_size=wide), min_size=1, max_size=60))


def lines(drawn):
    return [
        [tuple(map(float, pair.split())) for pair in re.split(" L", path.get("d")[1:])]
        for path in drawn.iter(f"{SVG}path")
        if path.get("class") == "line"
    ]


def ends(drawn):
    """The letters that stand at the right end of the lines, with their heights."""
    found = [(one.text, float(one.get("x")), float(one.get("y"))) for one in drawn.iter(f"{SVG}text")]
    right = max(x for text, x, _ in found if text in LETTERS)
    return {text: y for text, x, y in found if x == right}


@given(beliefs())
def test_every_line_goes_through_its_numbers(rows):
    drawn = ElementTree.fromstring(belief_svg([f"cause {n}" for n in range(len(rows[0]))], rows))
    found = lines(drawn)[::2]  # the others are those of the key
    assert len(found) == len(rows[0])
    scale = {one.text: float(one.get("y")) for one in drawn.iter(f"{SVG}text") if one.text in ("0 %", "100 %")}
    zero, full = scale["0 %"] - 4.0, scale["100 %"] - 4.0
    for place, line in enumerate(found):
        for row, (_, y) in zip(rows, line, strict=True):
            assert y == pytest.approx(zero + row[place] * (full - zero), abs=0.06)
        assert all(one[0] < two[0] for one, two in pairwise(line))


@given(beliefs())
def test_the_letters_at_the_ends_never_lie_on_one_another_and_stay_on_the_chart(rows):
    drawn = ElementTree.fromstring(belief_svg([f"cause {n}" for n in range(len(rows[0]))], rows))
    heights = ends(drawn)
    assert set(heights) == set(LETTERS[: len(rows[0])])
    assert all(below - above >= 12.9 for above, below in pairwise(sorted(heights.values())))
    assert min(heights.values()) > 0.0
    assert max(heights.values()) < float(drawn.get("height"))


def test_lines_are_told_apart_without_colours():
    drawn = ElementTree.fromstring(belief_svg("abcdef", [[0.1] * 6, [0.2] * 6]))
    curves = [path for path in drawn.iter(f"{SVG}path") if path.get("class") == "line"][::2]
    assert len({path.get("stroke-dasharray") for path in curves}) == 6
    markers = [one for one in drawn.iter() if one.get("class") == "marker"]
    # Two on the chart and three in the key for each line; by shape and whether it is filled.
    assert len(markers) == 6 * 5
    signs = [
        (one.tag, (one.get("d") or "").split(" ", 2)[2:], (one.get("fill") or "#ffffff") == "#ffffff")
        for one in markers
    ]
    assert len({str(sign) for sign in signs}) == 6
    assert all(len({str(sign) for sign in signs[5 * n : 5 * n + 5]}) == 1 for n in range(6))


def test_numbers_below_have_room_on_a_long_case():
    drawn = ElementTree.fromstring(belief_svg(["a"], [[0.5]] * 120))
    spots = [float(one.get("x")) for one in drawn.iter(f"{SVG}text") if one.get("text-anchor") == "middle"]
    assert len(spots) >= 10
    assert all(two - one >= 24 for one, two in pairwise(spots))


@given(st.text(max_size=40))
def test_names_are_text_whatever_is_in_them(name):
    # What XML itself cannot hold (its section 2.2) does not get into a cause's title.
    name = "".join(letter for letter in name if letter.isprintable()).strip() or "x"
    for drawn in (belief_svg([name], [[0.5]]), bars_svg([(name, "50 %", 0.5)])):
        texts = [one.text for one in ElementTree.fromstring(drawn).iter(f"{SVG}text")]
        assert " ".join(name.split()) in texts


def test_the_same_numbers_give_the_same_bytes():
    rows = [[0.3, 0.2], [0.7, 0.1]]
    assert belief_svg(["a", "b"], rows, [1]) == belief_svg(["a", "b"], rows, [1])


@pytest.mark.parametrize(
    ("names", "rows"),
    [([], []), (["a"], []), ("abcdefg", [[0.1] * 7]), (["a"], [[0.1, 0.2]]), (["a"], [[1.5]]), (["a"], [[-0.1]])],
)
def test_what_is_no_belief_is_refused(names, rows):
    with pytest.raises(ValueError, match="chart of belief"):
        belief_svg(names, rows)


def test_no_bars_are_refused():
    with pytest.raises(ValueError, match="one cause at least"):
        bars_svg([])

"""The fault tree as a picture: belief as shades, search, zoom, and the way to a cause's reasons."""

import colorsys
import itertools

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor

from faultdoc.app.widgets.canvas import FARTHEST, NEAREST
from faultdoc.diagnosis.drawing import SHADES, shade
from faultdoc.diagnosis.explain import likely_causes
from faultdoc.model.base import Measured
from faultdoc.quantities import Kind, parse
from faultdoc.record import moves


def luminance(colour):
    """Relative luminance of WCAG 2.2 (definition), from memory."""
    parts = [QColor(colour).redF(), QColor(colour).greenF(), QColor(colour).blueF()]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def painted(picture, node):
    return picture.boxes[node].brush().color().name()


def test_shades_are_one_hue_that_only_gets_darker_and_can_be_read():
    order = [luminance(ground) for _, ground, _ in SHADES]
    assert all(light - dark > 0.05 for dark, light in itertools.pairwise(order))
    hues = [colorsys.rgb_to_hsv(*QColor(ground).getRgbF()[:3])[0] for _, ground, _ in SHADES[:-1]]
    assert max(hues) - min(hues) < 0.02
    for _, ground, text in SHADES:
        dark, light = sorted((luminance(ground), luminance(text)))
        assert (light + 0.05) / (dark + 0.05) >= 4.5


def test_belief_is_painted_and_painted_anew_after_an_answer(shipped):
    shipped.begin(symptom="flow_proving_trip")
    shipped.window.show_tree()
    picture = shipped.window._pages["tree"].picture
    graph = shipped.desk.assessment.bench.problem.graph
    assert set(picture.boxes) == set(graph)

    def looks():
        for one in likely_causes(shipped.desk.assessment):
            assert painted(picture, one.id) == shade(one.probability)[0]
        return {one.id: painted(picture, one.id) for one in likely_causes(shipped.desk.assessment)}

    before = looks()
    case = moves.read(
        shipped.desk.session.case,
        "strainer_pressure_drop",
        Measured.from_quantity(parse("30 psi ± 1 psi", Kind.PRESSURE_DIFFERENCE)),
    )
    shipped.desk.do("Read the drop", case)
    shipped.settle()
    assert looks() != before


def test_search_marks_what_it_finds_one_after_the_other(shipped):
    shipped.begin(symptom="flow_proving_trip")
    shipped.window.show_tree()
    page = shipped.window._pages["tree"]
    page.line.setText("PUMP")
    found = [node for node, title in page.picture.titles.items() if "pump" in title.lower()]
    assert len(found) > 1
    seen = []
    for _ in found:
        seen.append(page.picture.marked)
        page.next.click()
    assert sorted(seen) == sorted(found)
    assert page.picture.marked == seen[0]
    page.line.setText("walrus")
    assert page.picture.marked is None
    assert "Nothing" in page.told.text()


def test_picture_zooms_within_limits_by_wheel_keys_and_buttons(driver):
    driver.begin()
    driver.window.show_tree()
    page = driver.window._pages["tree"]
    start = page.picture.scale_now
    driver.bot.keyClick(page.picture, Qt.Key.Key_Plus)
    assert page.picture.scale_now == pytest.approx(min(start * 1.25, NEAREST))
    page.farther.click()
    assert page.picture.scale_now == pytest.approx(start)
    for _ in range(40):
        page.nearer.click()
    assert page.picture.scale_now == pytest.approx(NEAREST)
    for _ in range(60):
        page.farther.click()
    assert page.picture.scale_now == pytest.approx(FARTHEST)
    page.whole.click()
    assert page.picture.scale_now == pytest.approx(start, rel=0.05)


def test_pressing_a_cause_opens_its_reasons(driver):
    driver.begin()
    driver.window.show_tree()
    page = driver.window._pages["tree"]
    cause = likely_causes(driver.desk.assessment)[0]
    page.picture.mark(cause.id)
    driver.settle()
    box = page.picture.boxes[cause.id]
    at = page.picture.mapFromScene(box.sceneBoundingRect().center())
    driver.bot.mouseClick(page.picture.viewport(), Qt.MouseButton.LeftButton, pos=at)
    driver.settle()
    assert driver.window.page == "work"
    mechanism = driver.desk.assessment.bench.problem.causes[cause.id].mechanism
    assert mechanism in driver.texts(driver.window.work.causes)


def test_any_tree_is_shown_without_a_case(shipped):
    shipped.window.show_tree()
    page = shipped.window._pages["tree"]
    trees = shipped.desk.shelf.library.trees
    assert page.which.count() == len(trees)
    for place, tree in enumerate(trees.values()):
        page.which.setCurrentIndex(place)
        assert {event.id for event in tree.events} <= set(page.picture.boxes)
        white = {
            painted(page.picture, node) for node in page.picture.boxes if node in shipped.desk.shelf.library.causes
        }
        assert white == {"#ffffff"}

"""Themes measured, text from 100 to 200 % without loss on a small screen, and both switched at once."""

import re

import pytest
from PySide6.QtWidgets import QPushButton

from faultdoc.app.colours import CAUTION, COLOURS, LARGE, PAIRS, SIGNAL_COLOURS, TEXT, THEMES, contrast
from faultdoc.app.style import SIZES, apply_style, points, scaled
from faultdoc.library.places import resources_folder
from faultdoc.record.pictures.shapes import Role
from faultdoc.record.settings import Settings


@pytest.fixture(autouse=True)
def usual_look(qapp):
    yield
    apply_style(qapp)


def test_contrast_is_that_of_the_standard():
    """Values that the W3C gives or that are widely reproduced: 21 for black on white, #767676 the lightest grey
    that passes 4.5 on white, #777777 just failing it (WCAG 2.2, understanding 1.4.3; from memory)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)
    assert contrast("#ff0000", "#ffffff") == pytest.approx(4.0, abs=0.005)
    assert contrast("#123456", "#123456") == 1.0


@pytest.mark.parametrize("theme", THEMES)
def test_everything_drawn_has_the_contrast_it_needs(theme):
    colours = THEMES[theme]
    short = {
        (what, on): round(contrast(colours[what], colours[on]), 2)
        for what, on, least in PAIRS
        if contrast(colours[what], colours[on]) < least
    }
    assert short == {}


def test_themes_name_the_same_colours_and_all_that_pictures_want():
    assert set(THEMES["sunlight"]) == set(THEMES["night"])
    assert {role.value for role in Role} <= set(COLOURS)


def test_signal_words_are_large_and_legible():
    """Bold letters from 14 points are large text (WCAG 2.2), for which AAA asks 4.5 to 1 (1.4.6)."""
    for ground, ink in SIGNAL_COLOURS.values():
        assert contrast(ground, ink) >= TEXT
    assert min(contrast(*pair) for pair in SIGNAL_COLOURS.values()) < 21.0
    cautions = {(what, on): least for what, on, least in PAIRS if what == "ink"}
    assert set(cautions.values()) == {CAUTION}


def rules():
    for path in sorted((resources_folder() / "style").glob("*.qss")):
        text = re.sub(r"/\*.*?\*/", "", path.read_text(encoding="utf-8"), flags=re.S)
        for selector, body in re.findall(r"([^{}]+)\{([^{}]*)\}", text):
            yield selector.strip(), dict(re.findall(r"(?:^|;)\s*([a-z-]+):\s*([^;]+)", body))


def test_every_rule_of_the_style_sheet_that_sets_both_is_among_the_pairs_measured():
    listed = {(what, on) for what, on, _ in PAIRS}
    seen = 0
    for selector, body in rules():
        what, on = body.get("color", ""), body.get("background", "")
        if ":disabled" in selector or not (what.startswith("@") and on.startswith("@")):
            continue
        seen += 1
        assert (what[1:], on[1:]) in listed, selector
    assert seen >= 8


def test_no_colour_stands_in_the_style_sheet_itself():
    for selector, body in rules():
        for value in body.values():
            assert not re.search(r"#[0-9a-fA-F]{3,8}\b", value), selector
            for name in re.findall(r"@(\w+)", value):
                assert name in COLOURS, (selector, name)


def test_lengths_and_letters_grow_alike(qapp):
    apply_style(qapp, "night", 150)
    assert (points(12.0), scaled(100)) == (18.0, 150)
    assert "19pt" not in qapp.styleSheet()
    assert "28.5pt" in qapp.styleSheet()
    assert COLOURS["paper"] == THEMES["night"]["paper"]


@pytest.mark.parametrize("percent", SIZES)
def test_nothing_is_cut_off_on_a_small_screen(driver, percent):
    driver.begin()
    window = driver.window
    window.resize(1024, 600)
    driver.office.set_look("sunlight", percent)
    for name, show in (
        ("work", lambda: None),
        ("stops", window.show_stops),
        ("looks", window.show_looks),
        ("help", window.show_help),
        ("close", lambda: window.show_close(None)),
    ):
        window.go_back()
        show()
        driver.settle(lambda name=name: window.page == name)
        assert window.minimumSizeHint().width() <= 1024, name
        page = window.stack.currentWidget()
        for made in page.findChildren(QPushButton):
            if made.isVisibleTo(page) and made.text() and made.property("role") not in ("choice", "case_tab"):
                assert made.width() >= made.minimumSizeHint().width() - 1, (name, made.text())
                assert made.height() >= 44, (name, made.text())
    for made in (window.menu_button, window.undo_button, window.units_button, window.stop_button):
        assert made.width() >= made.minimumSizeHint().width(), made.text()
    assert "Stop" in window.stop_button.text()


def test_a_look_is_kept_and_shows_at_once_with_what_was_typed(driver):
    driver.begin()
    before = driver.step.view
    driver.office.larger(1)
    driver.settle()
    assert driver.step.view is not before
    assert driver.step.view.step == before.step
    assert Settings.load().text_size == 125
    driver.office.larger(9)
    assert driver.office.settings.text_size == 200
    driver.office.other_theme()
    assert Settings.load().theme == "night"
    driver.office.set_look("sunlight", 100)


def test_looks_are_chosen_on_their_page(driver):
    driver.window.show_looks()
    page = driver.window._pages["looks"]
    page.themes["night"].click()
    page.sizes[150].click()
    driver.settle()
    assert (driver.office.settings.theme, driver.office.settings.text_size) == ("night", 150)
    assert driver.window.page == "looks"
    assert page.themes["night"].isChecked()
    driver.office.set_look("sunlight", 100)


def test_large_text_counts_from_its_own_bound():
    assert LARGE < TEXT < CAUTION

"""The pages of the fleet and of what cases taught, on a case book made by moves."""

import sys
from datetime import timedelta
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "record"))
from cases import FIRST, Story, own_unit
from PySide6.QtCore import Qt

from faultdoc.library.learned import learned_folder
from faultdoc.library.load import load_library
from faultdoc.record import accepting
from faultdoc.record.casebook import CaseBook


@pytest.fixture
def cases():
    book = CaseBook.open()
    for number in range(24):
        own_unit(f"site_{number}")
        story = Story(f"site_{number}", title=f"Case {number}", at=FIRST + timedelta(days=number))
        story.answer("valves_at_unit", "return_shut").fix("return_valve_shut").conclude().keep(book)
    own_unit("site_open")
    Story("site_open", title="Still open").answer("valves_at_unit", "both_open").keep(book, closed=False)
    book.dispose()


@pytest.fixture
def prior(monkeypatch):
    library = load_library(learned=False)
    monkeypatch.setattr(accepting, "load_library", lambda learned: library)
    return library


def fleet_page(driver):
    driver.window.show_fleet()
    page = driver.window._pages["fleet"]
    driver.settle(lambda: page.seen is not None)
    return page


def learn_page(driver):
    driver.window.show_learn()
    page = driver.window._pages["learn"]
    driver.settle(lambda: page.known is not None)
    return page


def test_an_empty_book_says_what_fills_it(shipped, prior):
    page = fleet_page(shipped)
    assert "The case book is empty" in shipped.texts(page)
    page = learn_page(shipped)
    assert "No case has taught anything yet." in shipped.texts(page)
    assert not page.accept.isEnabled()


def test_every_part_is_shown_as_picture_and_as_table(shipped, cases):
    page = fleet_page(shipped)
    assert page.table.rowCount() == 1
    assert page.table.item(0, 0).text().endswith("Still open")
    for part in ("causes", "minutes", "first"):
        page.tabs[part].click()
        shipped.settle()
        assert page.picture.count() == 1
        assert not page.table.isVisible()
        assert page.picture.itemAt(0).widget().accessibleName()
        page.as_table.click()
        shipped.settle()
        assert page.picture.count() == 0
        assert page.table.isVisible()
        assert page.table.rowCount() == len(page.seen.tables[part].rows)
        page.as_table.click()
    # No fix is 90 days old on any day but a late one; either way something is shown.
    page.tabs["units"].click()
    shipped.settle()
    assert page.table.isVisible() or page.picture.count() == 1


def test_filters_narrow_it_and_a_day_that_is_none_is_told(shipped, cases):
    page = fleet_page(shipped)
    page.unit.setCurrentIndex(page.unit.findData("site_3"))
    page._filter()
    shipped.settle(lambda: page.seen.fleet.cases == 1)
    page.unit.setCurrentIndex(0)
    page.until.setText("2001-01-01")
    page._filter()
    shipped.settle(lambda: page.seen.fleet.cases == 0)
    page.until.setText("tomorrow")
    page._filter()
    shipped.settle()
    assert any("'tomorrow' is no day" in words for _, words in shipped.told)
    assert page.until.property("wrong") is True


def test_an_open_case_is_opened_from_the_list_by_keyboard(shipped, cases):
    page = fleet_page(shipped)
    page.table.setFocus()
    shipped.bot.keyClick(page.table, Qt.Key.Key_Return)
    shipped.settle(lambda: shipped.desk.case is not None)
    assert shipped.desk.case.title == "Still open"


def test_tables_are_kept_as_csv(shipped, cases, tmp_path):
    page = fleet_page(shipped)
    page.keep_in(tmp_path / "out")
    assert len(list((tmp_path / "out").glob("*.csv"))) == 5
    (tmp_path / "file").write_text("")
    page.keep_in(tmp_path / "file")
    assert shipped.told[-1][0] == "bad"


def test_lines_are_ticked_accepted_in_force_and_forgotten(shipped, cases, prior):
    page = learn_page(shipped)
    moved = [line.id for line in page.lines]
    assert "rate:return_valve_shut" in moved
    every = len(page.known.proposal.lines)
    page.only.click()
    assert page.table.rowCount() == every > len(moved)
    page.only.click()
    row = moved.index("rate:return_valve_shut")
    page.table.setCurrentCell(row, 0)
    assert "found 24 times in 24 cases" in page.detail.text()
    shipped.bot.keyClick(page.table, Qt.Key.Key_Space)
    assert page.ticked == {"rate:return_valve_shut"}
    page.case.setCurrentIndex(page.case.findText("demo"))
    page._reckon_effect()
    shipped.settle(lambda: "would change" in page.effect.text())
    assert "Valve in the return" in page.effect.text()
    assert not learned_folder().exists()

    before = shipped.office.shelf
    try:
        page.accept.click()
        shipped.settle(lambda: page.known.kept)
        after = page.known.now.causes["return_valve_shut"].rate
        assert after > prior.causes["return_valve_shut"].rate
        assert shipped.office.shelf.library.causes["return_valve_shut"].rate == after
        assert page.known.proposal.by_id["rate:return_valve_shut"].kept
        page.forget.click()
        shipped.settle(lambda: not page.known.kept)
        assert shipped.office.shelf.library.causes == prior.causes
    finally:
        shipped.office.shelf = before

"""Several open cases, each in a tab of its own: nothing of one is ever in the other, and closing loses nothing."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication

from faultdoc.model.case import Case
from faultdoc.model.safety import TRIPPED, Pump, Qualification
from faultdoc.record.steps import waits_for

RUNNING = TRIPPED.model_copy(update={"pump": Pump.RUNNING})
CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


def key(driver, key, modifier=CTRL):
    QTest.keyClick(QApplication.focusWidget() or driver.window, key, modifier)
    driver.settle()


def begin(driver, title):
    """Begin a case as a person does: in a tab of its own where one is open already."""
    driver.window.new_case()
    case = Case(title=title, unit="bluff_30", symptoms=("small_trip",), state=RUNNING, who=("technician",))
    driver.desk.begin(case)
    driver.settle(lambda: driver.desk.session is not None)
    return driver.window.tab


def answer(driver, id, place):
    driver.pick("question", id)
    driver.acknowledge()
    before = driver.desk.case
    driver.step.view.choices[place]()
    driver.settle(lambda: driver.desk.case is not before)


@pytest.fixture
def two(driver):
    driver.window.activateWindow()
    return begin(driver, "First"), begin(driver, "Second")


def test_a_single_case_needs_no_strip(driver):
    begin(driver, "Only")
    assert len(driver.window.tabs) == 1
    assert not driver.window.strip.isVisible()
    driver.window.new_case()
    assert len(driver.window.tabs) == 2
    assert driver.window.strip.isVisible()
    driver.window.new_case()  # an empty tab is enough
    assert len(driver.window.tabs) == 2


def test_two_cases_are_worked_on_by_turns_and_undone_each_for_itself(driver, two):
    first, second = two
    assert driver.window.tab is second
    answer(driver, "valve_look", 0)
    key(driver, Qt.Key.Key_Tab)
    assert driver.window.tab is first
    assert driver.desk.case.readings == {}
    answer(driver, "pump_noise", 1)
    key(driver, Qt.Key.Key_Tab, CTRL | SHIFT)
    assert driver.window.tab is second
    answer(driver, "pump_noise", 0)
    states = {tab: tab.desk.case for tab in two}
    key(driver, Qt.Key.Key_Z)
    assert second.desk.case.answers == {}
    assert second.desk.case.readings == states[second].readings != {}
    assert first.desk.case is states[first]
    key(driver, Qt.Key.Key_Tab)
    assert driver.window.undo_button.isEnabled()
    key(driver, Qt.Key.Key_Z)
    assert first.desk.case.answers == {}
    assert not driver.window.undo_button.isEnabled()
    key(driver, Qt.Key.Key_Y)
    assert first.desk.case == states[first]
    assert second.desk.case.answers == {}
    journals = [driver.office.book().load(tab.desk.case_id)[1] for tab in two]
    assert [entry.move for entry in journals[0]] == ["do", "undo", "redo"]
    assert [entry.move for entry in journals[1]] == ["do", "do", "undo"]
    assert driver.told == []


def test_each_tab_comes_back_as_it_was_left(driver, two):
    first, second = two
    driver.pick("question", "strainer_drop_read")
    driver.acknowledge()
    field = driver.step.view.readings.fields["strainer_pressure_drop"]
    field.line.setText("9 ps")
    key(driver, Qt.Key.Key_Tab)
    assert driver.window.page == "work"
    driver.window.show_help()
    key(driver, Qt.Key.Key_Tab)
    assert (driver.window.tab, driver.window.page) == (second, "work")
    assert driver.step.view.readings.fields["strainer_pressure_drop"].line.text() == "9 ps"
    key(driver, Qt.Key.Key_Tab)
    assert (driver.window.tab, driver.window.page) == (first, "help")


def test_what_comes_back_to_a_hidden_tab_takes_neither_the_page_nor_the_focus(driver, two):
    first, second = two
    driver.pick("question", "strainer_drop_read")
    driver.acknowledge()
    line = driver.step.view.readings.fields["strainer_pressure_drop"].line
    line.setFocus()
    from faultdoc.record import moves

    assert first.desk.do("Heard it", moves.answer(first.desk.case, "pump_noise", "rattles"))
    driver.settle(lambda: not first.desk.looking)
    assert first.desk.assessment.case.answers == {"pump_noise": "rattles"}
    assert QApplication.focusWidget() is line
    assert driver.window.tab is second
    assert driver.desk.case.answers == {}


def test_closing_a_tab_keeps_its_case_in_the_book_and_it_can_be_gone_on_with(driver, two):
    first, second = two
    answer(driver, "valve_look", 0)
    number, kept = second.desk.case_id, second.desk.case
    key(driver, Qt.Key.Key_W)
    driver.settle(lambda: driver.office.unfinished is not None)
    assert driver.window.tabs == [first]
    assert not driver.window.strip.isVisible()
    driver.window.new_case()
    driver.settle(lambda: driver.office.unfinished is not None)
    # The one that is open in the other tab is not offered again.
    assert [made.title for made in driver.window.start.unfinished] == ["Go on with Second"]
    driver.window.start.unfinished[0].click()
    driver.settle(lambda: driver.desk.session is not None)
    assert (driver.desk.case_id, driver.desk.case) == (number, kept)
    key(driver, Qt.Key.Key_Z)
    assert driver.desk.case.readings == {}


def test_the_last_tab_leaves_a_start_page_behind(driver):
    tab = begin(driver, "Only")
    key(driver, Qt.Key.Key_W)
    assert tab not in driver.window.tabs
    assert len(driver.window.tabs) == 1
    assert (driver.window.page, driver.desk.session) == ("start", None)
    key(driver, Qt.Key.Key_W)
    assert len(driver.window.tabs) == 1


def test_the_same_case_is_not_opened_twice(driver, two, tmp_path):
    first, second = two
    driver.window.go_on(first.desk.case_id)
    assert driver.window.tab is first
    assert first.desk.save_as(tmp_path / "first.yaml")
    driver.window.to_tab(second)
    driver.window.open_case(tmp_path / "first.yaml")
    driver.settle()
    assert driver.window.tab is first
    assert driver.window.tabs == [first, second]


def test_a_case_that_is_not_in_the_book_is_not_let_go_at_the_first_press(driver, two):
    second = two[1]
    second.desk.case_id = None  # as where the case book could not be written
    driver.window.close_tab()
    assert second in driver.window.tabs
    assert "Save it as a file first" in driver.told[-1][1]
    driver.window.close_tab()
    assert second not in driver.window.tabs


def test_a_closed_case_makes_room_for_the_next(driver):
    tab = begin(driver, "Over")
    driver.window.show_close()
    page = driver.window._pages["close"]
    page.cards["made_safe"].click()
    page.close_case.click()
    driver.settle(lambda: driver.desk.case.conclusion)
    assert tab.mark == "made safe"
    driver.window.new_case()
    assert driver.window.tabs == [tab]
    assert driver.window.page == "start"


def test_marks_say_what_a_case_waits_for(driver, two):
    from faultdoc.record import moves

    first, second = two
    assert waits_for(first.desk.assessment) == ""
    first.desk.do("Cleaned", moves.repaired(first.desk.case, "dirty_strainer"))
    driver.settle(lambda: not first.desk.looking)
    assert first.mark == "proof to take"
    button = driver.window.strip.tabs[0]
    assert "waits for: proof to take" in button.accessibleName()
    assert "First" in button.accessibleName()
    driver.settle()
    assert "PROOF TO TAKE" in driver.texts(button)
    assert "Bluff" in driver.texts(button) or second.unit in driver.texts(button)


def test_a_danger_in_another_tab_is_marked(shipped):
    shipped.begin(symptom="unit_dead", pump="stopped", who=(Qualification.TECHNICIAN,))
    shipped.acknowledge()
    shipped.step.view.choices[1]()
    shipped.settle(lambda: shipped.desk.step.stops)
    assert shipped.window.tab.mark == "stopped: danger"


@pytest.mark.parametrize("size", [(1280, 800), (1024, 600)], ids=["1280x800", "1024x600"])
def test_the_strip_is_big_enough_for_gloves_and_reached_by_keys(driver, size):
    driver.window.resize(*size)
    driver.window.activateWindow()
    tabs = [begin(driver, f"Call number {place} from the west yard") for place in range(1, 6)]
    driver.settle()
    driver.bot.wait(50)
    strip = driver.window.strip
    assert (driver.window.width(), driver.window.height()) == size
    for made in strip.findChildren(QAbstractButton):
        assert made.height() >= 48
        assert made.width() >= 48
        assert made.accessibleName()
        right = made.mapTo(strip, made.rect().bottomRight())
        assert right.x() <= strip.width()
        assert right.y() <= strip.height()
    strip.tabs[2].setFocus()
    QTest.keyClick(strip.tabs[2], Qt.Key.Key_Space)
    assert driver.window.tab is tabs[2]
    QTest.keyClick(strip.closers[0], Qt.Key.Key_Space)
    driver.settle()
    assert driver.window.tabs == tabs[1:]
    assert driver.window.tab is tabs[2]

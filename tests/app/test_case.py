"""Whole cases from the start page to the closed case: by keyboard and by mouse, on small and shipped trees."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from faultdoc.model.safety import Qualification, may, satisfies
from faultdoc.record.steps import shown_step

MOST_STEPS = 200


def press(key, modifier=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def tab_to(widget):
    """Go to a control with the Tab key alone; fail when it cannot be reached."""
    for _ in range(120):
        if QApplication.focusWidget() is widget:
            return
        press(Qt.Key.Key_Tab)
    pytest.fail(f"Tab never reaches '{widget.accessibleName()}'")


def test_whole_case_by_keyboard(driver):
    window, desk = driver.window, driver.desk
    window.activateWindow()
    window.start.units["bluff_30"].setFocus()
    press(Qt.Key.Key_Space)
    tab_to(window.start.title)
    QTest.keyClicks(window.start.title, "By keys")
    press(Qt.Key.Key_Return)
    driver.settle(lambda: window.page == "plant")
    plant = window._pages["plant"]
    tab_to(plant.toggles["pump"].buttons["stopped"])
    press(Qt.Key.Key_Right)
    assert plant.toggles["pump"].value == "running"
    tab_to(plant.people[Qualification.ELECTRICAL_WORKER])
    press(Qt.Key.Key_Space)
    tab_to(plant.go)
    press(Qt.Key.Key_Return)
    driver.settle(lambda: desk.session is not None)
    assert desk.case.title == "By keys"
    asked = []
    for _ in range(MOST_STEPS):
        step, view = desk.step, driver.step.view
        if step.kind == "done":
            break
        asked.append(step.id)
        if driver.step.acknowledge is not None:
            assert QApplication.focusWidget() is driver.step.acknowledge.tick
            press(Qt.Key.Key_Space)
        before = desk.case
        if step.kind == "question" and view.readings is not None:
            assert QApplication.focusWidget() in [field.line for field in view.readings.fields.values()]
            QTest.keyClicks(QApplication.focusWidget(), "9")
            press(Qt.Key.Key_Return)
        elif step.kind == "question":
            press(Qt.Key.Key_2 if step.id == "pump_noise" else Qt.Key.Key_1)
        elif step.kind == "proof":
            if view.readings is not None:
                QTest.keyClicks(QApplication.focusWidget(), "1.2 psi")
                press(Qt.Key.Key_Return)
            else:
                tab_to(next(iter(view.looked.values())).buttons()[0])
                press(Qt.Key.Key_Space)
            tab_to(view.held)
            press(Qt.Key.Key_Return)
        else:
            press(Qt.Key.Key_1)
        driver.settle(lambda before=before: desk.case is not before)
    else:
        pytest.fail(f"no end after {asked}")
    assert desk.case.tried[-1].cause == "dirty_strainer"
    assert "1.2 psi" in desk.case.tried[-1].note
    tab_to(driver.step.view.close_case)
    press(Qt.Key.Key_Return)
    driver.settle(lambda: window.page == "close")
    close = window._pages["close"]
    assert close.ending == "fixed"
    tab_to(close.close_case)
    press(Qt.Key.Key_Return)
    driver.settle(lambda: desk.case.conclusion is not None)
    assert desk.case.conclusion.outcome == "fixed"
    assert desk.case.conclusion.cause == "dirty_strainer"
    assert driver.told == []


def click(widget):
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton)


@pytest.mark.parametrize("truth", ["strainer_clogged", "pump_fuse_open"])
def test_whole_case_by_mouse_on_the_shipped_tree(shipped, truth):
    driver, window, desk = shipped, shipped.window, shipped.desk
    if "flow_proving_trip" not in desk.shelf.library.trees:
        pytest.skip("the shipped tree is not there yet")
    click(window.start.units["bluff_30"])
    for id, card in window.start.symptoms.items():
        if card.isChecked() != (id == "flow_proving_trip"):
            click(card)
    click(window.start.next)
    plant = window._pages["plant"]
    click(plant.toggles["pump"].buttons["running"])
    for who in (Qualification.ELECTRICAL_WORKER, Qualification.REFRIGERANT_HANDLER):
        click(plant.people[who])
    click(plant.go)
    driver.settle(lambda: desk.session is not None)
    questions = desk.session.bench.problem.questions
    for _ in range(MOST_STEPS):
        step, view = desk.step, driver.step.view
        if step.kind in ("done", "hand_over"):
            break
        # Nobody is ever sent where the plant is not ready or the qualification is missing.
        assert satisfies(desk.case.state, step.state)
        assert may(frozenset(desk.case.who), step.who)
        before = desk.case
        if driver.step.acknowledge is not None:
            assert not view.answers.isEnabled()
            click(driver.step.acknowledge.tick)
        if step.kind == "question":
            row = questions[step.id].given.get(truth) or questions[step.id].given["default"]
            if view.readings is not None:
                click(view.could_not)
            else:
                best = max(row.p, key=row.p.get)
                place = [outcome.id for outcome in questions[step.id].outcomes].index(best)
                buttons = [b for b in view.answers.findChildren(QPushButton) if b.property("role") == "choice"]
                click(buttons[place])
        elif step.kind == "proof":
            click(view.without)
            click(view.held if desk.case.unproved == truth else view.failed)
        else:
            click(view.done)
        driver.settle(lambda before=before: desk.case is not before)
    assert desk.step.kind == "done", desk.step
    assert desk.case.tried[-1].cause == truth
    click(driver.step.view.close_case)
    click(window._pages["close"].close_case)
    driver.settle(lambda: desk.case.conclusion is not None)
    click(driver.step.view.report)
    assert window.page == "report"
    driver.settle()
    assert "<html" in window._pages["report"].html
    assert driver.told == []


def test_start_page_says_what_is_missing(driver):
    start = driver.window.start
    for card in start.symptoms.values():
        card.setChecked(False)
    click(start.next)
    assert driver.window.page == "start"
    assert "which unit it is and what is seen" in start.wrong.text()


def test_shown_step_is_the_proposal_unless_something_is_picked(driver):
    driver.begin()
    assert shown_step(driver.desk.assessment, None) == driver.desk.assessment.next


def test_typing_shortens_the_list_of_what_is_seen_and_ticked_ones_stay(shipped):
    page = shipped.window.start
    trees = shipped.desk.shelf.library.trees
    assert len(page.symptoms) > 6
    assert page.finder.isVisibleTo(page)
    page.symptoms["flow_proving_trip"].click()
    page.finder.setText("Breaker SUPPLY")
    seen = {id for id, made in page.symptoms.items() if made.isVisibleTo(page)}
    having = {
        id
        for id, tree in trees.items()
        if all(word in f"{tree.symptom} {tree.title} {id}".lower() for word in ("breaker", "supply"))
    }
    assert having
    assert seen == having | {"flow_proving_trip"}
    assert not page.none.isVisibleTo(page)
    page.finder.setText("walrus")
    assert page.none.isVisibleTo(page)
    assert page.symptoms["flow_proving_trip"].isVisibleTo(page)
    page.finder.clear()
    assert all(made.isVisibleTo(page) for made in page.symptoms.values())


def test_a_new_case_may_be_begun_before_the_library_has_been_read(driver):
    page, shelf = driver.window.start, driver.desk.shelf
    driver.office.shelf = None  # as with the list remembered from the last start
    page.units["bluff_30"].click()
    page.next.click()
    driver.office.shelf = shelf
    assert driver.window.page == "plant"


def test_the_page_of_broken_files_is_come_back_to(driver):
    from faultdoc.library.problems import Problem

    window, shelf = driver.window, driver.desk.shelf
    driver.office.shelf = None
    problem = Problem("trees/a.yaml", 3, 1, "title", "5", "a text", "write a text")
    driver.desk.broken.emit((problem,))
    for away in (window.show_stops, window.show_help):
        away()
        assert window.page != "broken"
        window.go_back()
        assert window.page == "broken"
    driver.office.shelf = shelf
    window._retry()
    driver.settle()
    window.show_help()
    window.go_back()
    assert window.page == "start"

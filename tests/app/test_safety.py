"""What the window must never let through."""

from itertools import product

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from faultdoc.app.widgets.caution import CautionCard
from faultdoc.model.safety import STATE_FIELDS, PlantState, Qualification, may, possible, satisfies
from faultdoc.record.steps import Pick, needs_acknowledgement, refusal, shown_step

ELECTRICAL = (Qualification.TECHNICIAN, Qualification.ELECTRICAL_WORKER)


def test_answers_stay_shut_until_the_acknowledgement_is_given(driver):
    driver.begin()
    driver.pick("question", "pump_noise")
    view, page = driver.step.view, driver.step
    assert page.acknowledge is not None
    assert not view.answers.isEnabled()
    QTest.keyClick(driver.window, Qt.Key.Key_1)
    QTest.keyClick(driver.window, Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)
    QTest.mouseClick(view.not_sure, Qt.MouseButton.LeftButton)
    driver.settle()
    assert driver.desk.case.answers == {}
    page.acknowledge.tick.click()
    assert view.answers.isEnabled()
    page.acknowledge.tick.click()
    assert not view.answers.isEnabled()
    page.acknowledge.tick.click()
    QTest.keyClick(driver.window, Qt.Key.Key_2)
    driver.settle(lambda: driver.desk.case.answers)
    assert driver.desk.case.answers == {"pump_noise": "rattles"}


def test_cautions_stand_above_the_answers(driver):
    driver.begin()
    driver.pick("question", "pump_noise")
    cards = driver.step.findChildren(CautionCard)
    assert len(cards) == 1
    assert cards[0].accessibleName().startswith("WARNING: ")
    inside = driver.step.inside
    bottom = cards[0].mapTo(inside, cards[0].rect().bottomLeft()).y()
    assert bottom < driver.step.view.answers.mapTo(inside, driver.step.view.answers.rect().topLeft()).y()


def test_acknowledgement_is_asked_anew_for_every_step(driver):
    driver.begin(who=ELECTRICAL)
    driver.pick("question", "pump_noise")
    driver.acknowledge()
    driver.pick("remedy", "dirty_strainer")
    driver.pick("question", "pump_noise")
    assert not driver.step.acknowledge.tick.isChecked()
    assert not driver.step.view.answers.isEnabled()


def test_change_of_plant_comes_before_what_was_picked(driver):
    driver.begin(who=ELECTRICAL)
    driver.pick("question", "fuse_measured")
    seen = []
    while driver.desk.step.kind == "state_change":
        seen.append(driver.desk.step.id)
        assert satisfies(driver.desk.case.state, driver.desk.step.state)
        driver.acknowledge()
        before = driver.desk.case
        driver.step.view.done.click()
        driver.settle(lambda before=before: driver.desk.case is not before)
    assert seen == ["stop_pump", "isolate_supply", "open_panel_dead"]
    assert (driver.desk.step.kind, driver.desk.step.id) == ("question", "fuse_measured")
    assert driver.step.acknowledge is not None


def test_what_needs_another_qualification_cannot_be_picked(driver):
    driver.begin(who=(Qualification.CREW,))
    words = refusal(driver.desk.assessment, Pick("question", "fuse_measured"))
    assert words == "Needs: qualified electrical worker."
    driver.pick("question", "fuse_measured")
    assert driver.desk.step.id != "fuse_measured"
    driver.window.work.show_tab(4)
    driver.settle()
    for id, made in driver.window.work.plant.changes.items():
        change = next(one for one in driver.desk.shelf.library.plant.changes if one.id == id)
        assert made.isEnabled() == may(frozenset(driver.desk.case.who), change.who)


def test_hazardous_state_alone_wants_an_acknowledgement(driver):
    driver.begin(compressors="running")
    assessment = driver.desk.assessment
    step = shown_step(assessment, Pick("change", "stop_compressors"))
    assert (step.id, step.cautions) == ("stop_compressors", ())
    assert needs_acknowledgement(assessment, step)


def test_caller_hears_the_callers_words(driver):
    driver.begin(who=(Qualification.CALLER,))
    driver.pick("question", "valve_look")
    assert driver.desk.step.text == "Please look at the lever by the outlet: how does it stand?"


@pytest.mark.parametrize("values", list(product(*STATE_FIELDS.values())), ids=lambda v: "-".join(v))
def test_every_impossible_plant_is_refused_in_words(values):
    from faultdoc.record.words import why_impossible

    state = PlantState.model_validate(dict(zip(STATE_FIELDS, values, strict=True)))
    assert (why_impossible(state) is None) == possible(state)


def test_plant_page_refuses_the_impossible(driver):
    driver.window.start.units["bluff_30"].click()
    driver.window.start.next.click()
    page = driver.window._pages["plant"]
    assert page.go.isEnabled()
    page.toggles["pump"].buttons["running"].click()
    page.toggles["supply"].buttons["isolated"].click()
    assert not page.go.isEnabled()
    assert "The pump cannot run with the supply locked out" in page.wrong.text()
    page.toggles["pump"].buttons["stopped"].click()
    assert page.go.isEnabled()


def test_stops_are_reached_from_every_page_and_end_with_the_own_numbers(driver):
    window = driver.window
    QTest.keyClick(window, Qt.Key.Key_F1)
    assert window.page == "stops"
    page = window._pages["stops"]
    page.numbers.setPlainText("Site: 4444\n\n  Fire: 911 ")
    page.keep.click()
    assert driver.desk.settings.emergency_numbers == ("Site: 4444", "Fire: 911")
    texts = driver.texts(page)
    for stop in driver.desk.shelf.library.plant.stops:
        assert stop.text in texts
    assert texts.index("Site: 4444") > texts.index(driver.desk.shelf.library.plant.stops[-1].text)
    driver.begin()
    window.stop_button.click()
    assert window.page == "stops"
    QTest.keyClick(window, Qt.Key.Key_Escape)
    assert window.page == "work"


def test_an_answer_that_stops_the_work_shows_its_text_and_nothing_else_to_do(shipped):
    shipped.begin(symptom="unit_dead", pump="stopped")
    question = shipped.desk.assessment.bench.problem.questions["ud_hurt_signs"]
    assert shipped.desk.step.id == question.id
    shipped.acknowledge()
    shipped.step.view.choices[1]()
    shipped.settle(lambda: shipped.desk.step.stops)
    shown = shipped.texts(shipped.step)
    assert shown.index(question.outcomes[1].stop) < shown.index(question.cautions[0].text)
    assert "HAND OVER" not in shown
    assert "Nothing more is asked or tried" in shown
    assert [card.accessibleName() for card in shipped.step.findChildren(CautionCard)] == [
        f"DANGER: {caution.text}" for caution in question.cautions
    ]
    shipped.pick("question", "ud_neighbours")
    assert shipped.desk.step.stops
    shipped.step.view.other.click()
    shipped.settle()
    shipped.step.view.choices[0]()
    shipped.settle(lambda: not shipped.desk.step.stops)
    assert shipped.desk.case.answers == {"ud_hurt_signs": "none"}

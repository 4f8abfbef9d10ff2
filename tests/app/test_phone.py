"""The call: by keyboard alone, two at once, notes that outlive a kill, stops, and how it ends."""

from datetime import UTC, datetime

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from faultdoc.app.widgets.caller import clock_words
from faultdoc.model.safety import Qualification
from faultdoc.record.draft import draft
from faultdoc.record.phone import call_back, danger_told

CTRL = Qt.KeyboardModifier.ControlModifier
CALLER = (Qualification.CALLER,)


def press(key, modifier=Qt.KeyboardModifier.NoModifier):
    focus = QApplication.focusWidget()
    assert focus is not None
    QTest.keyClick(focus, key, modifier)


def tab_to(widget):
    for _ in range(200):
        if QApplication.focusWidget() is widget:
            return
        press(Qt.Key.Key_Tab)
    pytest.fail(f"Tab never reaches '{widget.accessibleName()}'")


def answer(driver, number):
    """Answer the question shown with a number key, the acknowledgement first where one is asked."""
    phone = driver.window._pages["phone"]
    if phone.step.acknowledge is not None:
        phone.step.acknowledge.tick.setFocus()
        press(Qt.Key.Key_Space)
    before = driver.desk.case
    press(getattr(Qt.Key, f"Key_{number}"))
    driver.settle(lambda: driver.desk.case is not before)


@pytest.fixture
def call(shipped):
    shipped.window.activateWindow()
    shipped.begin(who=CALLER, symptom="start_held_back", pump="stopped")
    shipped.settle()
    return shipped


@pytest.fixture
def page(call):
    return call.window._pages["phone"]


def reckoned(driver, page):
    driver.bot.waitUntil(lambda: page.advice is not None and not page._reckoning, timeout=60000)


def test_whole_call_by_keyboard(shipped):
    driver, window = shipped, shipped.window
    window.activateWindow()
    driver.settle()
    window.start.units["bluff_30"].setFocus()
    press(Qt.Key.Key_Space)
    tab_to(window.start.finder)
    QTest.keyClicks(window.start.finder, "only waits")
    tab_to(window.start.symptoms["start_held_back"])
    press(Qt.Key.Key_Space)
    tab_to(window.start.title)
    QTest.keyClicks(window.start.title, "Called at six")
    tab_to(window.start.call)
    press(Qt.Key.Key_Return)
    assert window.page == "plant"
    plant = window._pages["plant"]
    assert plant.who == CALLER
    assert "Does its water pump run just now?" in driver.texts(plant)
    tab_to(plant.go)
    press(Qt.Key.Key_Return)
    driver.settle(lambda: driver.desk.session is not None)
    desk, page = driver.desk, window._pages["phone"]
    assert window.page == "phone"
    assert page.caller.on_line
    asked = []
    for _ in range(3):
        question = desk.assessment.bench.problem.questions[desk.step.id]
        asked.append(question.id)
        assert question.who is Qualification.CALLER
        assert question.ask.caller in driver.texts(page.step)
        answer(driver, 1)
    assert len(desk.session.done) == len(set(asked)) == 3
    # The caller volunteers something: its question comes at once, and the caller does not know more.
    press(Qt.Key.Key_F, CTRL)
    assert QApplication.focusWidget() is page.line
    QTest.keyClicks(page.line, "clock")
    press(Qt.Key.Key_Return)
    driver.settle()
    assert desk.step.id == "sh_reacts"
    before = desk.case
    press(Qt.Key.Key_K, CTRL)
    driver.settle(lambda: desk.case is not before)
    assert desk.case.answers["sh_reacts"] == "not_sure"
    tab_to(page.notes.field)
    QTest.keyClicks(page.notes.field, "They have 3 such units")
    press(Qt.Key.Key_Return, CTRL)
    driver.settle(lambda: desk.case.notes)
    assert desk.case.notes == ("They have 3 such units",)
    assert page.notes.field.toPlainText() == ""
    reckoned(driver, page)
    press(Qt.Key.Key_F4)
    assert window.page == "decide"
    decide = window._pages["decide"]
    assert page.advice.verdict in driver.texts(decide)
    tab_to(decide.times[15])
    press(Qt.Key.Key_Space)
    tab_to(decide.wait)
    press(Qt.Key.Key_Return)
    driver.settle(lambda: len(desk.case.notes) == 2)
    left = (call_back(desk.case) - datetime.now(UTC)).total_seconds() / 60
    assert 13 < left <= 15
    assert window.page == "phone"
    assert not page.caller.on_line
    assert window.tab.mark.startswith("call back ")
    press(Qt.Key.Key_Z, CTRL)
    driver.settle(lambda: len(desk.case.notes) == 1)
    assert window.tab.mark == ""
    assert driver.told == []


def test_two_calls_at_once_each_with_its_own_answers_notes_and_undo(call):
    window, first = call.window, call.window.tab
    answer(call, 1)
    first.pages["phone"].notes.field.setPlainText("of the first")
    window.new_case()
    call.begin(who=CALLER, symptom="unit_dead", pump="stopped")
    second = window.tab
    assert second is not first
    assert window.page == "phone"
    answer(call, 1)
    second.pages["phone"].notes.field.setPlainText("of the second")
    window.turn_tab(-1)
    call.settle()
    answer(call, 1)
    window.turn_tab(1)
    answer(call, 1)
    cases = [tab.desk.case for tab in (first, second)]
    assert len(first.desk.session.done) == len(second.desk.session.done) == 2
    QTest.keyClick(window, Qt.Key.Key_Z, CTRL)
    call.settle()
    assert len(second.desk.session.done) == 1
    assert first.desk.case is cases[0]
    window.turn_tab(1)
    QTest.keyClick(window, Qt.Key.Key_Z, CTRL)
    call.settle()
    assert len(first.desk.session.done) == 1
    assert {id for tab in (first, second) for id in tab.desk.case.answers} | set(first.desk.case.readings)
    for tab, words in ((first, "of the first"), (second, "of the second")):
        tab.pages["phone"].flush()
        assert draft(call.office.book().uid(tab.desk.case_id)) == words
    assert first.pages["phone"].caller.on_line
    assert second.pages["phone"].caller.on_line


def test_only_a_caller_s_questions_can_be_chosen_the_others_say_why(call, page):
    page.line.setText("pump")
    assert page.results.isVisible()
    assert not page.step.isVisible()
    enabled = [made for made in page.found if made.isEnabled()]
    greyed = [made for made in page.found if not made.isEnabled()]
    assert enabled
    assert greyed
    assert all(made.accessibleDescription().startswith("Not for a caller.") for made in greyed)
    QTest.mouseClick(greyed[0], Qt.MouseButton.LeftButton)
    assert call.desk.pick is None
    enabled[0].click()
    call.settle()
    assert call.desk.pick.kind == "question"
    assert page.line.text() == ""
    assert page.step.isVisible()


def test_typing_a_note_is_not_interrupted_by_an_assessment(call, page):
    page.notes.field.setFocus()
    QTest.keyClicks(page.notes.field, "1 of 2")
    assert call.desk.case.answers == {}
    from faultdoc.record import moves

    call.desk.do("Heard", moves.note(call.desk.case, "x"))
    call.settle(lambda: not call.desk.looking)
    assert QApplication.focusWidget() is page.notes.field
    assert page.notes.field.toPlainText() == "1 of 2"


def test_notes_are_kept_at_a_pause_and_come_back_with_the_case(call, page):
    number = call.desk.case_id
    QTest.keyClicks(page.notes.field, "Key is at the gate")
    uid = call.office.book().uid(number)
    call.bot.waitUntil(lambda: draft(uid) == "Key is at the gate", timeout=5000)
    page.caller.name.setText("Ana")
    page.caller.phone.setText("0100 555")
    page.caller.flush()
    call.settle()
    call.window.close_tab()
    call.settle()
    call.window.go_on(number)
    call.settle(lambda: call.desk.session is not None)
    again = call.window._pages["phone"]
    assert again is not page
    call.settle()
    assert again.notes.field.toPlainText() == "Key is at the gate"
    assert (again.caller.name.text(), again.caller.phone.text()) == ("Ana", "0100 555")
    # Names are with the people of the case, never in the case itself.
    assert "Ana" not in call.desk.case.model_dump_json()
    again.notes.take()
    call.settle(lambda: call.desk.case.notes)
    assert draft(uid) == ""


def test_a_stop_gives_the_words_ends_the_call_and_is_in_the_record(call, page):
    QTest.keyClick(call.window, Qt.Key.Key_F1)
    stops = call.window._pages["stops"]
    call.settle()
    assert call.window.page == "stops"
    assert QApplication.focusWidget() is stops.told_of[0]
    press(Qt.Key.Key_Return)
    texts = call.texts(stops)
    assert "READ ALOUD" in texts
    assert "I hang up now" in texts
    assert QApplication.focusWidget() is stops.end
    press(Qt.Key.Key_Return)
    call.settle(lambda: call.desk.case.notes)
    assert danger_told(call.desk.case)
    assert not page.caller.on_line
    assert call.window.tab.mark == "danger told"
    assert call.window.page == "phone"
    _, entries = call.office.book().load(call.desk.case_id)
    assert entries[-1].what.startswith("Call ended for safety after")
    # The next call takes the mark away, and it is written down too.
    page.caller.hang.click()
    call.settle(lambda: not danger_told(call.desk.case))
    assert page.caller.on_line
    assert call.window.tab.mark == ""


def test_without_a_call_the_stops_are_those_of_a_site(call, page):
    page.caller.hang.click()
    call.settle(lambda: call.desk.case.notes)
    assert call.desk.case.notes[-1].startswith("Call of")
    call.window.show_stops()
    assert "Your emergency numbers" in call.texts(call.window._pages["stops"])


def test_an_answer_that_stops_is_read_aloud_and_ends_the_call(call, page):
    question = call.desk.assessment.bench.problem.questions[call.desk.step.id]
    place = next(k for k, outcome in enumerate(question.outcomes, start=1) if outcome.stop)
    answer(call, place)
    assert call.desk.step.stops
    texts = call.texts(page.step)
    assert "READ ALOUD" in texts
    assert "I hang up now" in texts
    assert page.weighing is None  # nobody weighs minutes against a danger
    page.step.ended.emit(call.desk.step.text)
    call.settle(lambda: danger_told(call.desk.case))


def test_figures_stand_beside_the_question_and_follow_answers_and_travel(call, page):
    reckoned(call, page)
    before = page.weighing
    shown = [page.verdict.text(), page.asking.text(), page.sending.text()]
    assert shown == [page.advice.verdict, page.advice.ask, page.advice.send]
    page.travel.setText("180")
    page.travel.editingFinished.emit()
    call.bot.waitUntil(lambda: page.weighing is not before and not page._reckoning, timeout=60000)
    assert page.weighing.send > before.send + 120
    assert "3 h travel" in page.sending.text()
    from faultdoc.record.settings import Settings

    assert Settings.load().travel_minutes == 180.0
    far = page.weighing
    answer(call, 1)
    call.bot.waitUntil(lambda: page.weighing is not far and not page._reckoning, timeout=60000)
    assert page._weighed[0] is call.desk.assessment


def test_fixed_by_phone_wants_a_proof_that_held(call, page):
    call.window.show_decide()
    decide = call.window._pages["decide"]
    assert not decide.fixed.isEnabled()
    assert not decide.seen.isEnabled()
    cause, made = next(iter(decide.tries.items()))
    remedy = call.desk.assessment.bench.problem.causes[cause].remedy
    assert remedy.who is Qualification.CALLER
    made.click()
    call.settle()
    assert call.window.page == "phone"
    while call.desk.case.unproved is None:
        before = call.desk.case
        if page.step.acknowledge is not None:
            page.step.acknowledge.tick.click()
        page.step.view.done.click()
        call.settle(lambda before=before: call.desk.case is not before)
    while not call.desk.case.tried:
        before = call.desk.case
        if page.step.acknowledge is not None:
            page.step.acknowledge.tick.click()
        view = page.step.view
        if call.desk.step.kind == "proof":
            if not view.held.isEnabled():
                view.without.click()
            view.held.click()
        else:
            view.done.click()
        call.settle(lambda before=before: call.desk.case is not before)
    call.window.show_decide()
    assert decide.fixed.isEnabled()
    decide.seen.setText("It runs and the water gets colder")
    decide.fixed.click()
    call.settle(lambda: call.desk.case.conclusion)
    assert call.desk.case.conclusion.outcome == "fixed"
    assert call.desk.case.conclusion.cause == cause
    assert call.desk.case.conclusion.proof == "It runs and the water gets colder"
    assert call.window.page == "phone"


def test_sending_goes_to_what_to_send_and_to_the_hand_over(call, page):
    call.window.show_decide()
    decide = call.window._pages["decide"]
    decide.kit.click()
    assert call.window.page == "kit"
    call.window.show_decide()
    decide.hand.click()
    assert call.window.page == "handover"
    call.window.show_decide()
    decide.close_case.click()
    assert call.window.page == "close"
    assert call.window._pages["close"].ending == "handed_over"


def test_the_way_of_working_follows_from_the_people_and_can_be_switched(call, page):
    window = call.window
    QTest.keyClick(window, Qt.Key.Key_F3)
    assert window.page == "work"
    window.show_help()
    window.go_back()
    assert window.page == "work"
    QTest.keyClick(window, Qt.Key.Key_F3)
    assert window.page == "phone"
    QTest.keyClick(window, Qt.Key.Key_2, Qt.KeyboardModifier.AltModifier)
    assert window.page == "work"  # the causes are there
    QTest.keyClick(window, Qt.Key.Key_Escape)
    assert window.page == "phone"
    window.new_case()
    call.begin(symptom="start_held_back", pump="stopped")
    assert window.page == "work"


def test_words_are_big_enough_to_be_read_at_arm_s_length(call, page):
    aloud = [one for one in page.step.findChildren(QLabel) if one.property("voice") == "aloud"]
    assert aloud
    assert all(one.font().pointSizeF() >= 16.0 for one in aloud)


@pytest.mark.parametrize(("seconds", "words"), [(0, "0:00"), (59.9, "0:59"), (600, "10:00"), (3601, "1:00:01")])
def test_the_clock_of_a_call(seconds, words):
    assert clock_words(seconds) == words

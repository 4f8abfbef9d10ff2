"""Readings, doubts, units, undo, changes, the side panels and closing."""

import re

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from faultdoc.model.safety import Qualification
from faultdoc.quantities import System


def take_reading(driver, text):
    driver.pick("question", "strainer_drop_read")
    driver.acknowledge()
    readings = driver.step.view.readings
    field = readings.fields["strainer_pressure_drop"]
    field.line.setText(text)
    return readings, field


def test_reading_is_echoed_in_both_systems_as_typed(driver):
    driver.begin()
    _, field = take_reading(driver, "9")
    # 9 psi x 6.894757 kPa (NIST SP 811, B.8) = 62.05 kPa
    assert re.fullmatch(r"understood as 9(\.0)? psi = 62\.1 kPa", field.echo.text())


def test_error_is_told_in_place_and_nothing_is_taken(driver):
    driver.begin()
    readings, field = take_reading(driver, "9 psig")
    readings.submit()
    assert "gauge pressure" in field.wrong.text()
    assert driver.desk.case.readings == {}


def test_blank_reading_is_told_in_place(driver):
    driver.begin()
    readings, field = take_reading(driver, "")
    readings.submit()
    assert "Could not measure" in field.wrong.text()


def test_doubt_is_asked_in_place_and_can_be_kept_or_changed(driver):
    driver.begin()
    readings, field = take_reading(driver, "-5 psi")
    readings.submit()
    assert "a drop is not below zero" in driver.texts(field)
    assert driver.desk.case.readings == {}
    field.change()
    assert field.line.selectedText() == "-5 psi"
    readings.submit()
    keep = next(b for b in field.findChildren(type(readings.take)) if b.accessibleName().startswith("Keep it"))
    keep.click()
    driver.settle(lambda: driver.desk.case.readings)
    assert driver.desk.case.readings["strainer_pressure_drop"].value == pytest.approx(-5 * 6894.757, rel=1e-6)


def test_check_shows_with_its_arithmetic_one_click_away(driver):
    driver.begin()
    readings, _ = take_reading(driver, "9 psi")
    readings.submit()
    driver.settle(lambda: driver.desk.assessment.checks)
    result = driver.desk.assessment.checks[0]
    assert result.sentence(System.US) in driver.texts(driver.step)
    driver.step.arithmetic_wanted.emit()
    driver.settle()
    texts = driver.texts(driver.window.work.record)
    assert result.formula in texts
    assert result.source in texts
    for line in result.working:
        assert line.title in texts


def test_unit_switch_keeps_what_a_bare_number_meant(driver):
    driver.begin()
    _, field = take_reading(driver, "9")
    QTest.keyClick(driver.window, Qt.Key.Key_U, Qt.KeyboardModifier.ControlModifier)
    driver.settle()
    assert driver.desk.system is System.SI
    field = driver.step.view.readings.fields["strainer_pressure_drop"]
    assert field.line.text() == "9 psi"
    assert field.understood.measured.value == pytest.approx(9 * 6894.757, rel=1e-6)
    assert driver.step.view.answers.isEnabled()  # an acknowledgement outlives a change of units
    from faultdoc.record.settings import Settings

    assert Settings.load().system is System.SI


def test_undo_and_redo_of_every_kind_of_move(driver):
    driver.begin(who=(Qualification.TECHNICIAN,))
    cases = [driver.desk.case]

    def did():
        driver.settle(lambda: driver.desk.case is not cases[-1])
        cases.append(driver.desk.case)

    driver.pick("question", "valve_look")
    driver.step.view.choices[0]()
    did()
    driver.pick("question", "pump_noise")
    driver.acknowledge()
    driver.step.view.not_sure.click()
    did()
    readings, _ = take_reading(driver, "9 psi")
    readings.submit()
    did()
    driver.pick("change", "stop_pump")
    driver.step.view.done.click()
    did()
    for before in reversed(cases[:-1]):
        QTest.keyClick(driver.window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
        driver.settle()
        assert driver.desk.case == before
        assert driver.desk.assessment.case == before
    assert not driver.window.undo_button.isEnabled()
    for after in cases[1:]:
        QTest.keyClick(driver.window, Qt.Key.Key_Y, Qt.KeyboardModifier.ControlModifier)
        driver.settle()
        assert driver.desk.case == after


def test_answer_can_be_changed_and_cleared(driver):
    driver.begin()
    driver.pick("question", "pump_noise")
    driver.acknowledge()
    driver.step.view.choices[0]()
    driver.settle(lambda: driver.desk.case.answers)
    driver.pick("correct", "pump_noise")
    driver.step.view.choices[1]()
    driver.settle(lambda: driver.desk.case.answers == {"pump_noise": "rattles"})
    driver.window.work.show_tab(2)
    driver.settle()
    clear = next(
        b
        for b in driver.window.work.record.findChildren(type(driver.window.stop_button))
        if b.accessibleName() == "Clear: What does the pump sound like?"
    )
    clear.click()
    driver.settle(lambda: driver.desk.case.answers == {})


def test_reading_can_be_changed(driver):
    driver.begin()
    readings, _ = take_reading(driver, "9 psi")
    readings.submit()
    driver.settle(lambda: driver.desk.case.readings)
    driver.pick("correct", "strainer_pressure_drop")
    field = driver.step.view.readings.fields["strainer_pressure_drop"]
    assert field.line.text() == "9 psi"
    field.line.setText("1.2 psi")
    driver.step.view.readings.submit()
    driver.settle(lambda: driver.desk.case.readings["strainer_pressure_drop"].text == "1.2 psi")


def test_left_for_later_is_not_proposed_until_brought_back(driver):
    driver.begin()
    driver.pick("question", "valve_look")
    driver.step.view.later.click()
    driver.settle(lambda: driver.desk.case.set_aside == ("valve_look",))
    assert "valve_look" not in [option.id for option in driver.desk.assessment.plan.options]
    driver.window.work.show_tab(2)
    driver.settle()
    back = next(
        b
        for b in driver.window.work.record.findChildren(type(driver.window.stop_button))
        if b.text() == "Bring back"
    )
    back.click()
    driver.settle(lambda: driver.desk.case.set_aside == ())


def test_bars_show_the_belief_and_open_their_reasons(driver):
    driver.begin()
    driver.pick("question", "pump_noise")
    driver.acknowledge()
    driver.step.view.choices[1]()
    driver.settle(lambda: driver.desk.case.answers)
    driver.window.work.show_tab(1)
    driver.settle()
    panel = driver.window.work.causes
    belief = dict(
        zip(driver.desk.assessment.belief.sets.causes, driver.desk.assessment.belief.marginal, strict=True)
    )
    assert panel.bars[0].cause.id == max(belief, key=belief.get) == "dirty_strainer"
    assert panel.bars[0].cause.probability == pytest.approx(belief["dirty_strainer"])
    panel.bars[0].setFocus()
    QTest.keyClick(panel.bars[0], Qt.Key.Key_Return)
    driver.settle()
    assert "What does the pump sound like? Rattles" in driver.texts(panel)
    assert "Spoke for it" in driver.texts(panel)


def test_alternative_can_be_picked_from_the_reasons_of_the_step(driver):
    driver.begin()
    driver.window.work.show_tab(3)
    driver.settle()
    panel = driver.window.work.why
    other = next(id for id, made in panel.alternatives.items() if made.isEnabled() and id != driver.desk.step.id)
    panel.alternatives[other].click()
    driver.settle()
    step = driver.desk.step
    assert other in (step.id, step.toward_id)


def test_search_finds_questions_causes_and_points(driver):
    driver.begin()
    QTest.keyClick(driver.window, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    page = driver.window._pages["search"]
    page.line.setText("strainer")
    titles = [made.title for made in page.found]
    assert "Question: Read the drop across the strainer" in titles
    assert "Cause: Strainer full of dirt" in titles
    assert "Write down a reading: Pressure drop across the strainer" in titles


def test_proof_wants_its_reading_and_that_reading_is_kept_apart(driver):
    driver.begin(pump="stopped", water="depressurised")
    driver.pick("remedy", "dirty_strainer")
    driver.acknowledge()
    driver.step.view.done.click()
    driver.settle(lambda: driver.desk.case.unproved == "dirty_strainer")
    while driver.desk.step.kind == "state_change":
        driver.acknowledge()
        before = driver.desk.case
        driver.step.view.done.click()
        driver.settle(lambda before=before: driver.desk.case is not before)
    driver.acknowledge()
    view = driver.step.view
    assert not view.held.isEnabled()
    view.readings.fields["strainer_pressure_drop"].line.setText("1.2 psi")
    view.readings.submit()
    assert view.held.isEnabled()
    view.failed.click()
    driver.settle(lambda: driver.desk.case.tried)
    assert not driver.desk.case.tried[0].proved
    assert "1.2 psi" in driver.desk.case.tried[0].note
    assert driver.desk.case.readings == {}


def test_closing_shows_the_way_back_to_service(driver):
    driver.begin(pump="stopped", oil="cold")
    driver.window.show_close()
    page = driver.window._pages["close"]
    texts = driver.texts(page)
    assert "1. Start the pump" in texts or "1. Wait for the oil to warm" in texts
    assert "Wait for the oil to warm: about 8 h" in texts  # bluff_30's oil_warm_up
    assert not page.cards["fixed"].isEnabled()
    assert not page.close_case.isEnabled()
    page.cards["made_safe"].click()
    page.note.setPlainText("Left off, locked.")
    page.close_case.click()
    driver.settle(lambda: driver.desk.case.conclusion)
    assert driver.desk.case.conclusion.note == "Left off, locked."
    assert driver.desk.assessment.next.kind == "done"


def test_save_and_open_a_case_file(driver, tmp_path):
    driver.begin()
    readings, _ = take_reading(driver, "9")
    readings.submit()
    driver.settle(lambda: driver.desk.case.readings)
    kept = driver.desk.case
    assert driver.desk.save_as(tmp_path / "kept.yaml")
    driver.desk.leave()
    driver.settle()
    driver.desk.open_case(tmp_path / "kept.yaml")
    driver.settle(lambda: driver.desk.session is not None)
    assert driver.desk.case == kept


def test_case_file_with_mistakes_shows_each_with_its_remedy(driver, tmp_path):
    bad = tmp_path / "bad.yaml"
    bad.write_text(
        "unit: bluff_30\nsymptoms: [small_trip]\nwho: [crew]\nstate: {supply: maybe}\n", encoding="utf-8"
    )
    driver.desk.open_case(bad)
    driver.settle(lambda: driver.window.page == "broken")
    texts = driver.texts(driver.window._pages["broken"])
    assert "line 4" in texts
    assert "'maybe'" in texts
    assert driver.desk.session is None


def test_unexpected_error_is_told_and_the_case_stays(driver, monkeypatch):
    import sys

    from faultdoc.app.crash import catch, log_path

    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    driver.begin()
    kept = driver.desk.case
    catch(lambda problem: driver.desk.told.emit("bad", f"went wrong: {problem}"))
    sys.excepthook(ZeroDivisionError, ZeroDivisionError("made up"), None)
    assert ("bad", "went wrong: made up") in driver.told
    assert driver.window.message.isVisible()
    assert driver.desk.case is kept
    assert "made up" in log_path().read_text(encoding="utf-8")


def test_pdf_has_numbered_pages(driver, tmp_path):
    from faultdoc.app.pdf import html_to_pdf

    path = tmp_path / "long.pdf"
    html_to_pdf("<html><body>" + "<p>A line of the report.</p>" * 200 + "</body></html>", path, paper="A4")
    data = path.read_bytes()
    assert data.startswith(b"%PDF-")
    # ISO 32000-1, 7.7.3.3: one /Type /Page object a page.
    assert data.count(b"/Type /Page\n") >= 3
    assert list(tmp_path.glob(".*")) == []


def test_damaged_case_book_is_told_and_work_goes_on(driver, tmp_path):
    from faultdoc.record.settings import data_home

    data_home().mkdir(parents=True, exist_ok=True)
    (data_home() / "cases.sqlite").write_bytes(b"no database, but long enough to be taken for a damaged one" * 40)
    driver.begin()
    assert any("NOT kept" in words for _, words in driver.told)
    driver.pick("question", "valve_look")
    driver.step.view.choices[0]()
    driver.settle(lambda: driver.desk.case.readings)
    assert driver.desk.save_as(tmp_path / "by_hand.yaml")
    driver.window.show_report()
    driver.settle()
    assert "<html" in driver.window._pages["report"].html


def test_unfinished_cases_are_offered_and_closed_ones_are_not(driver):
    driver.begin()
    driver.desk.leave()
    driver.settle(lambda: driver.office.unfinished is not None)
    assert [made.title for made in driver.window.start.unfinished] == ["Go on with Test"]
    driver.window.start.unfinished[0].click()
    driver.settle(lambda: driver.desk.session is not None)
    driver.window.show_close()
    driver.window._pages["close"].cards["not_found"].click()
    driver.window._pages["close"].close_case.click()
    driver.settle(lambda: driver.desk.case.conclusion)
    driver.desk.leave()
    driver.settle(lambda: driver.office.unfinished is not None)
    assert driver.window.start.unfinished == []


def test_case_file_named_at_the_start_is_opened(driver, tmp_path, small_shelf):
    driver.begin()
    driver.desk.save_as(tmp_path / "named.yaml")
    kept = driver.desk.case
    driver.desk.leave()
    driver.settle()
    driver.window.load(tmp_path / "named.yaml", lambda: small_shelf)
    driver.settle(lambda: driver.desk.session is not None)
    assert driver.desk.case == kept
    assert driver.window.page == "work"

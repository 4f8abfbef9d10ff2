"""Handing a case over and taking it over in the window."""

import numpy as np
import pytest
import zxingcpp
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from faultdoc.model.safety import Pump
from faultdoc.record import moves
from faultdoc.record.casebook import Contact
from faultdoc.record.handover.change import Change
from faultdoc.record.handover.file import read_hand_over, save_hand_over
from faultdoc.record.handover.form import Line


def seen(widget) -> str:
    """Return what a scanner reads off the screen where a widget is."""
    image = widget.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(image.constBits(), dtype=np.uint8).reshape(image.height(), image.bytesPerLine())
    return "\n".join(one.text for one in zxingcpp.read_barcodes(rows[:, : image.width()].copy()))


def sending(driver):
    driver.window.show_handover()
    driver.settle()
    return driver.window._pages["handover"]


@pytest.fixture
def case(driver):
    driver.begin()
    driver.desk.do("Note: hums", moves.note(driver.desk.case, "hums"))
    driver.settle()
    return driver


@pytest.fixture
def away(case, tmp_path):
    """A copy of the case that somebody went on with elsewhere."""
    page = sending(case)
    page.keep(tmp_path / "case.handover.yaml")
    case.settle()
    case.window.go_back()
    return read_hand_over(tmp_path / "case.handover.yaml").hand_over


def elsewhere(sent, at_minutes=5, **after):
    from datetime import timedelta

    at = sent.sent.at + timedelta(minutes=at_minutes)
    line = Line(at=at, by="tech-2", what="Done elsewhere", after=Change(**after))
    return sent.model_copy(update={"journal": (*sent.journal, line)})


def test_what_goes_along_is_said_and_names_only_when_ticked(case, tmp_path):
    case.desk.book().set_contacts(case.desk.case_id, [Contact(role="site", name="Somebody at the gate")])
    page = sending(case)
    words = case.texts(page)
    assert "1 note, the state of the plant" in words
    assert "Tell whoever takes over" in words
    assert not page.people.isChecked()
    path = tmp_path / "case.handover.yaml"
    page.keep(path)
    case.settle()
    assert "gate" not in path.read_text(encoding="utf-8")
    assert str(path) in page.said.text()
    assert page.people.isEnabled()
    page.people.click()
    page.keep(path)
    case.settle()
    assert "Somebody at the gate" in path.read_text(encoding="utf-8")
    assert read_hand_over(path).hand_over.uid == case.desk.book().uid(case.desk.case_id)


def test_a_file_that_cannot_be_written_is_told(case, tmp_path):
    page = sending(case)
    page.keep(tmp_path / "none" / "case.yaml")
    case.settle()
    assert case.told[-1][0] == "bad"
    assert "could not be written" in case.told[-1][1]


@pytest.mark.parametrize("size", [(1280, 800), (1024, 600)])
def test_the_code_on_the_screen_is_scanned_and_pasted(case, size):
    case.window.resize(*size)
    page = sending(case)
    page.show_codes.click()
    case.settle(lambda: page.code.isVisible())
    text = seen(page.code)
    assert text.startswith("FAULTDOC1:")
    assert page.code.module >= 3
    QTest.keyClick(case.window, Qt.Key.Key_Escape)
    assert page.list.isVisible()
    case.window.show_codes()
    came = case.window._pages["received"]
    came.pasted.setPlainText(f"Look: {text[:-9]}")
    came.look.click()
    case.settle()
    assert "cut off" in came.wrong.text()
    came.pasted.setPlainText(f"Look: {text}\n")
    came.look.click()
    case.settle(lambda: came.opening is not None)
    assert "just as it came" in case.texts(came)


def test_several_codes_are_shown_one_by_one(case, monkeypatch):
    monkeypatch.setattr("faultdoc.record.handover.codes.EASY", 300)
    monkeypatch.setattr("faultdoc.record.handover.codes.in_codes.__defaults__", (300,))
    page = sending(case)
    page.show_codes.click()
    case.settle(lambda: page.code.isVisible())
    texts = []
    for place in range(4):
        assert f"code {place + 1} of " in page.number.text()
        texts.append(seen(page.code))
        if not page.more.isEnabled():
            break
        page.more.click()
    assert len(set(texts)) > 1
    assert not page.more.isEnabled()


def test_a_case_too_long_for_codes_is_told(case, monkeypatch):
    monkeypatch.setattr("faultdoc.record.handover.codes.MOST", 60)
    monkeypatch.setattr("faultdoc.record.handover.codes.in_codes.__defaults__", (60,))
    page = sending(case)
    page.show_codes.click()
    case.settle(lambda: bool(page.said.text()))
    assert "Send it as a file" in page.said.text()


def test_a_case_is_taken_over_and_the_plant_is_asked_for_first(driver, away, tmp_path):
    case_id = driver.desk.case_id
    path = tmp_path / "back.yaml"
    save_hand_over(elsewhere(away, answers={"valve_look": "shut"}), path)
    driver.window.open_case(path)
    page = driver.window._pages["received"]
    driver.settle(lambda: page.opening is not None)
    words = driver.texts(page)
    assert "From desk-" in words
    assert "Look again before you act on it" in words
    assert "what was done since is added" in words
    assert driver.desk.case.answers == {}
    page.go.click()
    driver.settle(lambda: driver.window.page == "plant")
    assert driver.desk.case_id == case_id
    assert len(driver.window.tabs) == 1
    assert driver.desk.case.answers == {"valve_look": "shut"}
    # The journal goes on from there.
    driver.window.go_back()
    driver.desk.do("Note: wet", moves.note(driver.desk.case, "wet"))
    driver.settle()
    assert driver.desk.case.notes == ("hums", "wet")
    assert [entry.by for entry in driver.desk.book().load(case_id)[1]][1] == "tech-2"


def test_conflicts_are_shown_side_by_side_and_chosen(driver, away, tmp_path):
    driver.desk.do("Valve: open", moves.answer(driver.desk.case, "valve_look", "open"))
    driver.settle()
    stopped = driver.desk.case.state.model_copy(update={"pump": Pump.STOPPED})
    path = tmp_path / "back.yaml"
    from faultdoc.model.safety import StateNeed

    save_hand_over(elsewhere(away, answers={"valve_look": "shut"}, state=StateNeed(pump=Pump.STOPPED)), path)
    driver.window.open_case(path)
    page = driver.window._pages["received"]
    driver.settle(lambda: page.opening is not None)
    assert [one.id for one in page.opening.conflicts] == ["state", "answer:valve_look"]
    assert not page.go.isEnabled()
    assert ("state", "note") not in page.cards
    words = driver.texts(page)
    assert "Chilled-water pump: Stopped" in words
    assert "tech-2" in words
    page.cards["state", "theirs"].click()
    assert "Decide 1 more" in page.first.text()
    page.cards["answer:valve_look", "note"].click()
    page.go.click()
    driver.settle(lambda: driver.window.page == "plant")
    assert driver.desk.case.state == stopped
    assert driver.desk.case.answers == {}
    assert len(driver.desk.case.notes) == 3
    driver.window.go_back()
    driver.desk.undo()
    driver.settle()
    assert driver.desk.case.answers == {"valve_look": "open"}


def test_a_case_that_is_not_here_is_opened_in_a_tab_of_its_own(driver, away, tmp_path):
    path = tmp_path / "other.yaml"
    save_hand_over(away.model_copy(update={"uid": "f" * 32}), path)
    driver.window.open_case(path)
    page = driver.window._pages["received"]
    driver.settle(lambda: page.opening is not None)
    page.go.click()
    driver.settle(lambda: driver.window.page == "plant")
    assert len(driver.window.tabs) == 2
    assert driver.desk.case.notes == ("hums",)
    assert driver.desk.book().uid(driver.desk.case_id) == "f" * 32


def test_what_cannot_be_taken_over_is_told_and_nothing_is_changed(driver, away, tmp_path):
    path = tmp_path / "bad.yaml"
    save_hand_over(away, path)
    path.write_text(path.read_text(encoding="utf-8").replace("pump: running", "pump: flying"), encoding="utf-8")
    driver.window.open_case(path)
    page = driver.window._pages["received"]
    driver.settle(lambda: "cannot be taken over" in driver.texts(page))
    assert "bad.yaml:" in driver.texts(page)
    assert "flying" in driver.texts(page)
    driver.window.go_back()
    assert driver.window.page == "work"
    assert driver.desk.case.notes == ("hums",)


def test_a_case_that_is_not_in_the_case_book_is_handed_over_as_it_is(case, tmp_path):
    case.desk.case_id = None
    page = sending(case)
    page.keep(tmp_path / "x.yaml")
    case.settle()
    sent = read_hand_over(tmp_path / "x.yaml").hand_over
    assert (sent.case.notes, sent.journal) == (("hums",), ())


def test_by_keyboard_alone(case):
    case.window.activateWindow()
    QTest.keyClick(QApplication.focusWidget() or case.window, Qt.Key.Key_H, Qt.KeyboardModifier.ControlModifier)
    case.settle(lambda: case.window.page == "handover")
    page = case.window._pages["handover"]
    assert page.file.hasFocus()
    page.show_codes.setFocus()
    QTest.keyClick(page.show_codes, Qt.Key.Key_Return)
    case.settle(lambda: page.code.isVisible())
    assert page.done.hasFocus()

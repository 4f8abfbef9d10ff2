"""Many readings at once in the window: typed, pasted, from a logger; nothing is lost, nothing impossible taken."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit

from faultdoc.app.widgets.rowmodel import KEEP, READING, SAID

LOG = """Time,Suction pressure A (psig),Pump current L1 (A),Door
13:00:00,118.0,7.5,x
13:00:10,118.4,7.5,x
13:00:20,117.6,7.6,x
13:00:30,150.0,0.0,x
13:00:40,151.0,0.0,x
"""


@pytest.fixture
def page(shipped):
    shipped.begin(symptom="flow_proving_trip")
    shipped.window.show_readings()
    made = shipped.window._pages["readings"]
    shipped.settle(lambda: made.model.rowCount() > 100)
    return made


def row_of(page, point):
    return next(place for place, one in enumerate(page.model.points) if one.id == point)


def cell(page, point, column):
    return page.model.data(page.model.index(row_of(page, point), column))


def paste(page, text):
    QGuiApplication.clipboard().setText(text)
    page.paste.click()


def test_pasted_rows_are_taken_but_what_cannot_be(shipped, page):
    paste(page, "Water flow\t58\tgpm\nstanding pressure\t-40\tpsi\nfoo\t3\nwater entering the unit\t54")
    assert any("foo" in words for _, words in shipped.told)
    assert cell(page, "water_flow", SAID).startswith("understood as")
    assert cell(page, "standing_pressure", SAID).startswith("This cannot be")
    assert page.take.text() == "Take 2 readings"
    page.take.click()
    shipped.settle(lambda: "water_flow" in shipped.desk.case.readings)
    assert set(shipped.desk.case.readings) == {"water_flow", "water_in_temperature"}
    assert page.model.texts == {"standing_pressure": "-40 psi"}
    assert shipped.window.page == "readings"  # something is left to mend
    shipped.desk.undo()
    shipped.settle(lambda: not shipped.desk.case.readings)


def test_doubtful_rows_wait_for_their_tick(shipped, page):
    paste(page, "water entering the unit\t44 °F\nwater leaving the unit\t54 °F")
    doubted = [id for id, row in page.model.rows.items() if row.doubts]
    assert doubted
    ready = len(page.model.ready)
    index = page.model.index(row_of(page, doubted[0]), KEEP)
    assert page.model.flags(index) & Qt.ItemFlag.ItemIsUserCheckable
    page.model.setData(index, Qt.CheckState.Checked.value, Qt.ItemDataRole.CheckStateRole)
    assert len(page.model.ready) == ready + 1
    page.model.put({doubted[0]: "45 °F"})  # what was kept was the number, not whatever comes after it
    assert len(page.model.ready) <= ready + 1
    assert doubted[0] not in page.model.kept


def test_typing_goes_down_by_enter_and_survives_leaving(shipped, page):
    page.finder.setText("suction")
    table = page.table
    table.setCurrentIndex(page.model.index(0, READING))
    first = page.model.points[0].id
    QTest.keyClick(table, Qt.Key.Key_Return)
    [editor] = table.findChildren(QLineEdit)
    QTest.keyClicks(editor, "18 psi")
    QTest.keyClick(editor, Qt.Key.Key_Return)
    shipped.settle(lambda: page.model.texts.get(first) == "18 psi")
    assert table.currentIndex().row() == 1
    shipped.window.go_back()
    shipped.window.show_stops()
    shipped.window.go_back()
    shipped.window.show_readings()
    assert page.model.texts[first] == "18 psi"
    assert page.take.isEnabled()


def test_rows_are_found_and_say_what_the_case_has(shipped, page):
    paste(page, "Water flow\t58\tgpm")
    page.take.click()
    shipped.settle(lambda: shipped.window.page == "work")
    shipped.window.show_readings()
    page.finder.setText("water flow")
    assert {point.id for point in page.model.points} == {"water_flow"}
    assert cell(page, "water_flow", SAID) == "in the case: 58 gpm"
    page.finder.clear()
    page.which.setCurrentIndex(page.which.findData("supply"))
    assert {"voltage_l1_l2", "phase_sequence"} <= {point.id for point in page.model.points}
    assert "suction_pressure_a" not in {point.id for point in page.model.points}


def test_a_loggers_file_gives_the_readings_before_the_trip(shipped, page, tmp_path):
    path = Path(tmp_path / "log.csv")
    path.write_text(LOG)
    page.open_file(path)
    shipped.settle(lambda: page.log is not None)
    panel = page.log
    assert panel.row == 3
    assert {column.point for column in panel.columns.values()} == {"suction_pressure_a", "pump_current_l1"}
    assert "Pump current, L1: 7.5" in panel.told.text()
    panel.later.click()
    assert panel.row == 4
    panel.earlier.click()
    which, unit = panel.choices["Pump current L1 (A)"]
    which.setCurrentIndex(which.findData("pump_current_l2"))
    assert unit.currentData() == "A"
    panel.use.click()
    assert page.log is None
    assert set(page.model.texts) == {"suction_pressure_a", "pump_current_l2"}
    assert set(page.model.ready) <= set(page.model.texts)
    page.open_file(path)  # the columns are remembered for this logger
    shipped.settle(lambda: page.log is not None)
    assert {column.point for column in page.log.columns.values()} == {"suction_pressure_a", "pump_current_l2"}
    page.log.leave.click()
    assert page.log is None


def test_a_file_that_is_no_table_is_told_and_loses_nothing(shipped, page, tmp_path):
    paste(page, "Water flow\t58\tgpm")
    path = Path(tmp_path / "words.csv")
    path.write_text("only words\n")
    page.open_file(path)
    shipped.settle(lambda: any("words.csv" in words for _, words in shipped.told))
    assert page.log is None
    assert page.model.texts == {"water_flow": "58 gpm"}

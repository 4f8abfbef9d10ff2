"""A new unit from its nameplate: by keyboard, refused in place, doubted, kept, chosen, and a case begun on it."""

import shutil

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from faultdoc.app.office import Office
from faultdoc.app.shelf import Shelf, fill_shelf
from faultdoc.app.startlist import remembered
from faultdoc.library.load import load_unit
from faultdoc.library.places import own_units_folder, resources_folder
from faultdoc.model.base import Measured
from faultdoc.model.case import Case
from faultdoc.quantities import Kind, System, parse
from faultdoc.record import moves

PLATE = {
    "title": "Yard unit 7",
    "refrigerant": "r410a",
    "capacity": "30",
    "voltage": "460",
    "compressor_count": "4",
    "compressor_rated_current": "15.8",
    "pump_power": "5",
    "pump_current": "6.6",
    "design_flow": "72",
}
"""Of a thirty-ton unit much like the demo's."""


def press(key, modifier=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def tab_to(widget):
    for _ in range(120):
        if QApplication.focusWidget() is widget:
            return
        press(Qt.Key.Key_Tab)
    pytest.fail(f"Tab never reaches '{widget.accessibleName()}'")


@pytest.fixture
def form(driver):
    driver.window.activateWindow()
    driver.window.start.new_unit.click()
    driver.settle()
    return driver.window._pages["unit"]


def put(form, **texts):
    for id, text in texts.items():
        form.fields[id].line.setText(text)


def test_a_unit_by_keyboard_and_a_case_on_it(driver):
    window, desk = driver.window, driver.desk
    window.activateWindow()
    window.start.units["bluff_30"].setFocus()
    tab_to(window.start.new_unit)
    press(Qt.Key.Key_Return)
    driver.settle()
    form = window._pages["unit"]
    assert window.page == "unit"
    assert QApplication.focusWidget() is form.fields["title"].line
    for id, text in PLATE.items():
        tab_to(form.fields[id].line)
        QTest.keyClicks(form.fields[id].line, text)
    tab_to(form.fields["flow_switch"].buttons["unknown"])
    while form.fields["flow_switch"].text != "differential":
        press(Qt.Key.Key_Left)
    tab_to(form.fields["glycol_fraction"].line)
    press(Qt.Key.Key_Return)  # from the last field on to the sheet
    driver.settle()
    assert form.reviewing
    assert form.doubts == {}
    assert QApplication.focusWidget() is form.save
    press(Qt.Key.Key_Return)
    driver.settle(lambda: window.page == "start" and "yard_unit_7" in window.start.units)
    assert window.start.units["yard_unit_7"].isChecked()
    assert (own_units_folder() / "yard_unit_7.yaml").is_file()
    assert [severity for severity, _ in driver.told] == ["good"]
    tab_to(window.start.title)
    press(Qt.Key.Key_Return)
    driver.settle()
    plant = window._pages["plant"]
    tab_to(plant.go)
    press(Qt.Key.Key_Return)
    driver.settle(lambda: desk.session is not None)
    assert desk.case.unit == "yard_unit_7"
    sheet = desk.session.bench.sheet
    assert sheet == load_unit("yard_unit_7")
    assert [one.rated_current for one in sheet.compressors] == [15.8] * 4
    # 72 gpm: 1 gpm is 6.309020e-5 m3/s (NIST SP 811, B.8).
    assert sheet.water.design_flow == pytest.approx(72 * 6.309020e-5, rel=1e-6)


def test_every_field_has_its_place_its_help_and_its_unit(driver, form):
    from faultdoc.model.nameplate import NAMEPLATE_FIELDS

    texts = driver.texts(form)
    assert set(form.fields) == {one.id for one in NAMEPLATE_FIELDS}
    for one in NAMEPLATE_FIELDS:
        assert one.title in texts
        assert one.help in texts
    assert form.fields["design_flow"].unit.text() == "gpm"
    assert form.fields["title"].unit.text() == ""


def test_what_is_typed_is_echoed_as_understood(form):
    put(form, design_flow="72", refrigerant="r410a", compressor_rated_current="2 x 62 A; 40 A", title="Yard 7")
    assert form.fields["design_flow"].echo.text() == "understood as 72 gpm = 4.54 L/s"
    assert form.fields["refrigerant"].echo.text() == "understood as R-410A"
    assert form.fields["compressor_rated_current"].echo.text() == "understood as 3: 62.0 A, 62.0 A, 40.0 A"
    assert form.fields["title"].echo.text() == "kept as yard_7"


def test_a_half_typed_error_is_told_beside_its_field_after_a_while(driver, form):
    put(form, voltage="460 psi")
    assert form.fields["voltage"].wrong.isHidden()
    driver.settle(lambda: not form.fields["voltage"].wrong.isHidden())
    assert "'psi' is not a unit of voltage" in form.fields["voltage"].wrong.text()
    put(form, voltage="460")
    assert form.fields["voltage"].wrong.isHidden()


def test_a_wrong_plate_is_refused_in_place(form):
    put(form, title="Yard unit 7", refrigerant="r410a", voltage="460 psi", compressor_count="two")
    form.look.click()
    assert not form.reviewing
    said = {id: made.wrong.text() for id, made in form.fields.items() if not made.wrong.isHidden()}
    assert set(said) == {"voltage", "compressor_count", "capacity"}
    assert "not a unit of voltage" in said["voltage"]
    assert "no count" in said["compressor_count"]
    assert "needed" in said["capacity"]
    assert form.wrong.text().startswith("3 fields need")
    assert not own_units_folder().exists()


def test_what_only_shows_between_fields_is_refused_in_place_too(form):
    put(form, **{**PLATE, "minimum_flow": "80"})
    form.look.click()
    assert not form.reviewing
    assert "not below the design flow" in form.fields["minimum_flow"].wrong.text()


def test_assumptions_are_shown_with_their_reasons(driver, form):
    put(form, **PLATE)
    form.look.click()
    texts = driver.texts(form)
    assert len(form.made.assumptions) > 5
    for one in form.made.assumptions:
        assert one.value in texts
        assert one.why in texts
    assert "Drop across the barrel: 40 kPa ± 60 %" in texts
    assert "water.barrel" not in texts


def test_a_doubt_is_to_be_kept_or_changed_before_the_unit_is_kept(driver, form):
    # 4 x 58 A at 460 V for 30 tons: more than two and a half times what compressors take.
    put(form, **{**PLATE, "compressor_rated_current": "4 x 58"})
    form.look.click()
    (doubt,) = form.doubts
    assert "a ton is too high" in doubt.text
    assert doubt.text in driver.texts(form)
    assert not form.save.isEnabled()
    change = next(one for one in form.findChildren(QPushButton) if one.text() == "Change it")
    change.click()
    assert not form.reviewing
    assert form.fields["capacity"].line.selectedText() == "30"
    assert doubt.text in driver.texts(form.fields["capacity"])
    put(form, compressor_rated_current="4 x 15.8")
    form.look.click()
    assert form.doubts == {}
    assert form.save.isEnabled()
    form.back_to_form()
    put(form, compressor_rated_current="4 x 58")
    form.look.click()
    next(iter(form.doubts.values())).click()
    form.save.click()
    driver.settle(lambda: "yard_unit_7" in driver.window.start.units)


def test_nothing_typed_is_lost_on_the_way_out_and_back(driver, form):
    put(form, title="Yard unit 7", voltage="460")
    driver.window.go_back()
    assert driver.window.page == "start"
    driver.window.show_unit()
    assert form.fields["title"].text == "Yard unit 7"
    put(form, refrigerant="r410a", capacity="30")
    form.look.click()
    QTest.keyClick(driver.window, Qt.Key.Key_Escape)
    assert driver.window.page == "unit"
    assert not form.reviewing
    assert form.fields["capacity"].text == "30"


def test_a_switch_of_units_keeps_what_a_bare_number_meant(driver, form):
    put(form, **PLATE)
    driver.office.switch_system()
    assert driver.desk.system is System.SI
    assert form.fields["design_flow"].text == "72 gpm"
    assert form.fields["minimum_flow"].unit.text() == "L/s"
    driver.office.switch_system()
    put(form, design_flow="70")
    form.look.click()
    flow = form.made.sheet.water.design_flow
    driver.office.switch_system()
    assert form.made.sheet.water.design_flow == flow
    assert "L/s" in driver.texts(form)


def keep(driver, form, **plate):
    driver.window.show_unit()
    put(form, **plate)
    form.look.click()
    form.save.click()
    driver.settle()


def test_nothing_is_written_over_without_asking(driver, form):
    keep(driver, form, **PLATE)
    path = own_units_folder() / "yard_unit_7.yaml"
    before = path.read_bytes()
    keep(driver, form, **{**PLATE, "voltage": "480"})
    assert driver.window.page == "unit"
    assert "There is 'yard_unit_7' already, one of your own units" in driver.texts(form)
    assert path.read_bytes() == before
    form.both.click()
    driver.settle(lambda: "yard_unit_7_2" in driver.window.start.units)
    assert path.read_bytes() == before
    assert load_unit("yard_unit_7_2").electrical.voltage == 480.0
    keep(driver, form, **{**PLATE, "voltage": "440"})
    next(one for one in form.findChildren(QPushButton) if one.text() == "Replace the other").click()
    driver.settle(lambda: driver.window.page == "start")
    assert load_unit("yard_unit_7").electrical.voltage == 440.0


def test_a_unit_that_comes_with_faultdoc_cannot_be_replaced(driver, form):
    keep(driver, form, **{**PLATE, "title": "Bluff 30"})
    assert "a unit that FaultDoc comes with" in driver.texts(form)
    assert not any(one.text() == "Replace the other" for one in form.findChildren(QPushButton))
    assert not list(own_units_folder().glob("*"))


def test_a_folder_that_cannot_be_written_is_told_and_nothing_is_lost(driver, form):
    own_units_folder().parent.mkdir(parents=True, exist_ok=True)
    own_units_folder().write_text("in the way")
    keep(driver, form, **PLATE)
    assert driver.told[-1][0] == "bad"
    assert "could not be kept" in driver.told[-1][1]
    assert driver.window.page == "unit"
    assert form.reviewing


def test_the_unit_is_there_at_the_next_start_before_and_after_the_library_is_read(driver, form):
    keep(driver, form, **PLATE)
    found = remembered()
    assert found is not None
    assert "yard_unit_7" in [one.id for one in found.units]
    assert "yard_unit_7" in fill_shelf().sheets
    # A unit that came into the folder otherwise, or went from it: the list of the last start no longer holds.
    text = (own_units_folder() / "yard_unit_7.yaml").read_text(encoding="utf-8")
    other = own_units_folder() / "yard_unit_8.yaml"
    other.write_text(text.replace("id: yard_unit_7", "id: yard_unit_8"), encoding="utf-8")
    assert remembered() is None
    other.unlink()
    assert remembered() == found


def test_cases_on_it_open_again_from_the_book_and_from_a_file(driver, form, tmp_path):
    keep(driver, form, **PLATE)
    driver.begin()
    case = driver.desk.case.model_copy(update={"unit": "yard_unit_7"})
    driver.desk.begin(Case.model_validate(dict(case)))
    driver.settle(lambda: driver.desk.case is not None and driver.desk.case.unit == "yard_unit_7")
    number = driver.desk.case_id
    assert driver.desk.save_as(tmp_path / "case.yaml")
    driver.desk.leave()
    driver.settle(lambda: driver.desk.session is None)
    driver.desk.open_case(tmp_path / "case.yaml")
    driver.settle(lambda: driver.desk.session is not None)
    assert driver.desk.case.unit == "yard_unit_7"
    assert driver.desk.session.bench.sheet.title == "Yard unit 7"
    driver.desk.leave()
    driver.settle(lambda: driver.desk.session is None)
    driver.desk.go_on(number)
    driver.settle(lambda: driver.desk.session is not None)
    assert driver.desk.session.bench.sheet.title == "Yard unit 7"


def test_a_broken_sheet_of_ones_own_is_told_and_stops_nothing(qtbot, small_shelf):
    own_units_folder().mkdir(parents=True)
    (own_units_folder() / "broken.yaml").write_text("id: broken\ntitle: Broken\n", encoding="utf-8")
    shutil.copy(resources_folder() / "units" / "bluff_30.yaml", own_units_folder() / "bluff_30.yaml")
    shelf = fill_shelf()
    assert "broken" not in shelf.sheets
    assert "bluff_30" in shelf.sheets
    assert {problem.file for problem in shelf.left_out} == {
        str(own_units_folder() / name) for name in ("broken.yaml", "bluff_30.yaml")
    }
    office = Office()
    told = []
    office.told.connect(lambda severity, words: told.append((severity, words)))
    office.load(lambda: Shelf(small_shelf.library, small_shelf.sheets, shelf.left_out))
    qtbot.waitUntil(lambda: office.background.idle, timeout=20000)
    assert told
    assert told[0][0] == "bad"
    assert "broken.yaml" in told[0][1]
    office.shut()


def read(driver, **texts):
    case = driver.desk.case
    for id, text in texts.items():
        kind = driver.desk.shelf.library.points[id].kind
        case = moves.read(case, id, Measured.from_quantity(parse(text, kind)))
    driver.desk.do("Readings", case)
    driver.settle(lambda: driver.desk.case is case)


def test_the_plant_panel_tells_the_waits_that_the_readings_allow(driver):
    driver.begin()
    panel = driver.window.work.plant
    driver.window.work.show_tab(4)
    assert "Oil warm-up" not in driver.texts(panel)
    read(driver, hours_energised_since_power_up="6 h", time_since_stop_1="2 min")
    driver.window.work.show_tab(4)
    texts = driver.texts(panel)
    assert "2 h left of 8 h" in texts  # bluff_30 wants 8 h
    assert "Any break in power, however short, starts it again." in texts
    assert "Anti-recycle, compressor 1" in texts
    assert "3 min left of 5 min" in texts
    assert "compressor 2" not in texts


def test_what_is_left_of_the_warm_up_is_told_alike_everywhere(driver):
    driver.begin(oil="cold")
    window = driver.window
    read(driver, hours_energised_since_power_up="6 h")
    window.work.show_tab(4)
    assert "2 h" in window.work.plant.changes["warm_oil"].accessibleDescription()  # bluff_30 wants 8 h
    window.show_close()
    assert "about 2 h" in driver.texts(window._pages["close"])


def test_the_record_lists_the_safeties_whose_points_were_read(driver):
    driver.begin()
    driver.window.work.show_tab(2)
    record = driver.window.work.record
    assert "Safeties" not in driver.texts(record)
    read(driver, barrel_pressure_drop="4 psi ± 0.1 psi", discharge_pressure_a="640 psig")
    driver.window.work.show_tab(2)
    texts = driver.texts(record)
    assert "Flow proving switch" in texts
    assert "1.8 ± 0.3 psi left" in texts  # 4 psi less the 2.2 psi of the data sheet
    assert "Past its setting by 20.0 ±" in texts  # 640 less 620 psig
    assert "Low pressure switch" not in texts
    assert driver.desk.shelf.library.points["barrel_pressure_drop"].kind is Kind.PRESSURE_DIFFERENCE

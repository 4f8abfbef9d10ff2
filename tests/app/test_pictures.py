"""Pictures in the window: the point asked for is lit, pressing one leads to its reading, by mouse and by keys."""

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtTest import QTest

from faultdoc.app.widgets.picture import PictureView, paint_picture
from faultdoc.library.load import load_case
from faultdoc.library.places import resources_folder
from faultdoc.quantities import System
from faultdoc.record.pictures.gallery import asked_points, gallery, picture_of, starting_with, worth_printing
from faultdoc.record.pictures.shapes import Mark, Picture
from faultdoc.record.steps import pick_for_point


@pytest.fixture
def opened(shipped):
    driver = shipped
    driver.window.open_case(resources_folder() / "cases" / "six_floors_up.yaml")
    driver.settle(lambda: driver.desk.assessment is not None)
    return driver


def shown(driver):
    page = driver.window._pages["pictures"]
    driver.settle(lambda: page.view.picture is not None or page.told.text() != "")
    return page


def test_every_picture_of_the_case_is_made_or_says_what_it_wants(opened):
    assessment = opened.desk.assessment
    for id, title in gallery(assessment.bench.sheet):
        made = picture_of(assessment, id, System.SI)
        if isinstance(made, str):
            assert made.endswith((".", ").")), title
            continue
        image = QImage(round(made.width), round(made.height), QImage.Format.Format_RGB32)
        image.fill(Qt.GlobalColor.white)
        painter = QPainter(image)
        paint_picture(painter, made)
        painter.end()
        colours = {image.pixel(x, y) for x in range(0, image.width(), 7) for y in range(0, image.height(), 7)}
        assert len(colours) > 3, title
    printed = worth_printing(assessment, System.SI)
    assert printed[0].title == "Water side"
    assert all(not isinstance(one, str) for one in printed)


def test_page_opens_on_the_side_in_question_and_a_press_leads_to_the_reading(opened):
    opened.window.show_pictures()
    page = shown(opened)
    assessment = opened.desk.assessment
    assert page.which.currentData() == starting_with(assessment)
    assert "points read" in page.told.text()
    page.show_one("side_water")
    opened.settle(lambda: page.view.picture is not None and page.view.picture.title == "Water side")
    spot = page.view.spots["standing_pressure"]
    assert spot.value == "16.0 psig"
    place = page.view.mapFromScene(QPointF(*spot.at))
    QTest.mouseClick(page.view.viewport(), Qt.MouseButton.LeftButton, pos=place)
    opened.settle(lambda: opened.window.page == "work")
    assert (opened.desk.pick.kind, opened.desk.pick.id) == ("correct", "standing_pressure")


def test_a_press_beside_a_point_is_meant_for_it_and_a_drag_is_not(opened):
    opened.window.show_pictures()
    page = shown(opened)
    page.show_one("side_water")
    opened.settle(lambda: page.view.picture is not None and page.view.picture.title == "Water side")
    view, sent = page.view, []
    view.pressed.disconnect()
    view.pressed.connect(sent.append)
    place = view.mapFromScene(QPointF(*view.spots["high_point_height"].at))
    beside = place.toPoint() if hasattr(place, "toPoint") else place
    beside.setY(beside.y() + 22)
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=beside)
    assert sent == ["high_point_height"]
    QTest.mousePress(view.viewport(), Qt.MouseButton.LeftButton, pos=beside)
    beside.setX(beside.x() + 120)
    QTest.mouseMove(view.viewport(), beside)
    QTest.mouseRelease(view.viewport(), Qt.MouseButton.LeftButton, pos=beside)
    assert sent == ["high_point_height"]


def test_points_are_reached_and_pressed_by_keys(opened):
    opened.window.show_pictures()
    page = shown(opened)
    page.show_one("side_supply")
    opened.settle(lambda: page.view.picture is not None and page.view.picture.title == "Supply")
    order = list(page.view.spots)
    for key in ("n", "n", "p"):
        QTest.keyClick(page.view, key)
    assert page.view.marked == order[0]
    QTest.keyClick(page.view, Qt.Key.Key_Return)
    opened.settle(lambda: opened.window.page == "work")
    assert opened.desk.pick is not None
    assert opened.desk.pick == pick_for_point(opened.desk.assessment, order[0])


def test_an_unread_point_leads_to_its_question_first(opened):
    assessment = opened.desk.assessment
    asked = [
        (point, id)
        for id, question in assessment.bench.problem.questions.items()
        for point in question.points
        if point not in assessment.case.readings
    ]
    kinds = {pick_for_point(assessment, point).kind for point, _ in asked}
    assert "question" in kinds
    for point, _ in asked:
        pick = pick_for_point(assessment, point)
        if pick.kind == "question":
            assert point in assessment.bench.problem.questions[pick.id].points


def test_other_units_are_shown_at_once(opened):
    opened.window.show_pictures()
    page = shown(opened)
    page.show_one("side_water")
    opened.settle(lambda: page.view.picture is not None and page.view.picture.title == "Water side")
    opened.window.units_button.click()
    opened.settle(lambda: page.view.spots["standing_pressure"].value == "110 kPa gauge")


def test_belief_over_the_steps_is_the_reports_chart(opened):
    opened.window.show_pictures()
    page = shown(opened)
    page.show_one("belief")
    opened.settle(lambda: page.view.accessibleName() == "Belief over the steps")
    assert "after each step" in page.told.text()
    image = page.view.grab().toImage()
    assert len({image.pixel(x, y) for x in range(0, image.width(), 5) for y in range(0, image.height(), 5)}) > 3
    page.show_one("side_water")
    opened.settle(lambda: page.view.picture is not None)
    assert "standing_pressure" in page.view.spots


def test_the_point_asked_for_is_lit():
    from faultdoc.app.shelf import fill_shelf
    from faultdoc.diagnosis.assess import assess, bench_for

    shelf = fill_shelf()
    case = load_case(resources_folder() / "cases" / "demo.yaml", shelf.library)
    bench = bench_for(shelf.library, shelf.sheets[case.unit], case.symptoms)
    assessment = assess(bench, case)
    for _ in range(12):
        points = asked_points(assessment)
        if points:
            break
        question = bench.problem.questions[assessment.next.toward_id or assessment.next.id]
        answers = {**assessment.case.answers, question.id: question.outcomes[0].id}
        assessment = assess(bench, assessment.case.model_copy(update={"answers": answers}))
    assert points
    picture = picture_of(assessment, starting_with(assessment), System.US)
    assert isinstance(picture, Picture)
    lit = {spot.point for spot in picture.spots if spot.asked}
    assert lit
    assert lit <= set(points)
    assert all(spot.mark is Mark.UNREAD for spot in picture.spots if spot.asked)


def test_view_without_a_picture_is_quiet(qtbot):
    view = PictureView()
    qtbot.addWidget(view)
    view.clear()
    QTest.keyClick(view, "n")
    assert view.marked is None

"""A stranger's first case: led from the first start to a proved fix, one press a step."""

from faultdoc.quantities import System


def led(driver):
    driver.window.start.show_me.click()
    driver.settle(lambda: driver.desk.assessment is not None and driver.window.page == "work")
    return driver.step.tour


def test_a_stranger_comes_to_a_proved_fix_by_pressing_one_button(shipped):
    assert shipped.window.start.first.isVisibleTo(shipped.window.start)
    tour = led(shipped)
    presses = 0
    while shipped.desk.step.kind != "done":
        assert presses < 25
        assert "A FIRST CASE" in shipped.texts(shipped.step.tour)
        step = shipped.desk.step
        shipped.acknowledge()
        shipped.step.tour.go.click()
        presses += 1
        shipped.settle(lambda step=step: shipped.desk.step != step)
    assert [one.cause for one in shipped.desk.case.tried if one.proved] == ["strainer_clogged"]
    assert "all written down" in shipped.texts(shipped.step.tour)
    assert tour is not shipped.step.tour
    # Two minutes for a stranger: 4 s to read and press each of these leave room to look about.
    assert presses <= 20


def test_the_story_can_be_left_and_the_case_goes_on(shipped):
    led(shipped)
    shipped.acknowledge()
    shipped.step.tour.go.click()
    shipped.settle(lambda: bool(shipped.desk.session.done))
    case = shipped.desk.case
    shipped.step.tour.leave.click()
    shipped.settle()
    assert shipped.desk.tour is None
    assert shipped.desk.case == case
    assert "A FIRST CASE" not in shipped.texts(shipped.step)


def test_what_is_told_is_what_is_done(shipped):
    led(shipped)
    for _ in range(3):
        told = shipped.texts(shipped.step.tour)
        step = shipped.desk.step
        before = shipped.desk.case
        shipped.acknowledge()
        shipped.step.tour.go.click()
        shipped.settle(lambda step=step: shipped.desk.step != step)
        after = shipped.desk.case
        fresh = {id: outcome for id, outcome in after.answers.items() if id not in before.answers}
        for id, outcome in fresh.items():
            question = shipped.desk.assessment.bench.problem.questions[id]
            assert next(one.title for one in question.outcomes if one.id == outcome) in told
        for id, reading in after.readings.items():
            if id not in before.readings:
                assert reading.text in told


def test_undo_leads_back_to_the_step_before(shipped):
    led(shipped)
    first = shipped.desk.step
    shipped.acknowledge()
    shipped.step.tour.go.click()
    shipped.settle(lambda: shipped.desk.step != first)
    shipped.desk.undo()
    shipped.settle(lambda: shipped.desk.step == first)
    assert "A FIRST CASE" in shipped.texts(shipped.step.tour)
    assert shipped.desk.system in System


def test_the_story_takes_no_step_before_its_cautions_are_acknowledged(shipped):
    led(shipped)
    assert shipped.step.acknowledge is not None
    case = shipped.desk.case
    assert not shipped.step.tour.go.isEnabled()
    shipped.step.tour.go.click()
    shipped.settle()
    assert shipped.desk.case == case
    shipped.acknowledge()
    assert shipped.step.tour.go.isEnabled()

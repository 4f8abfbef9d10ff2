"""Practice in the window: from the list to the debrief by keyboard and by mouse, with the real engine."""

import threading
from dataclasses import dataclass, field
from types import SimpleNamespace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QScrollArea

from faultdoc.app.practice.course import Course
from faultdoc.app.practice.told import caution_of, event_words
from faultdoc.app.widgets.caution import CautionCard
from faultdoc.app.widgets.gauge import DialFace
from faultdoc.library.load import load_unit
from faultdoc.library.vocabulary import load_points
from faultdoc.model.safety import Signal
from faultdoc.practice.scenario import load_scenarios
from faultdoc.practice.trainee import Event, Turn
from faultdoc.quantities import Kind, System, display_unit, show

SHORT = "valve_left_shut"


class Trainee:
    """Someone who practises in a driver's window."""

    def __init__(self, driver):
        self.driver, self.window = driver, driver.window
        self.bot = driver.bot

    @property
    def page(self):
        return self.window._pages["practice"]

    @property
    def course(self):
        return self.page.course

    @property
    def acts(self):
        return self.page.live.acts

    def settle(self, until=lambda: True):
        course = self.course
        self.bot.waitUntil(lambda: course.background.idle and not course.busy and bool(until()), timeout=60000)
        self.driver.settle()

    def open(self):
        QTest.keyClick(self.window, Qt.Key.Key_R, Qt.KeyboardModifier.ControlModifier)
        assert self.window.page == "practice"
        self.settle(lambda: self.page.choose.entries)

    def at_the_unit(self, scenario=SHORT, running=False):
        if self.window.page != "practice":
            self.open()
        self.page._chosen(load_scenarios()[scenario])
        self.page.brief.start.click()
        self.settle(lambda: self.page.at == "live")
        self.course.run(running)
        self.settle()

    def act(self, way, id):
        act = next(one for one in self.course.now.acts if (one.way, one.id) == (way, id))
        told = len(self.course.now.events)
        self.course.do(act)
        self.settle(lambda: len(self.course.now.events) > told)
        return self.page.live.unit.last

    def end(self):
        self.page.live.bar.give_up.click()
        self.page.live.yes.click()
        self.settle(lambda: self.page.result.found is not None)
        return self.page.result.found


@pytest.fixture
def trainee(driver):
    return Trainee(driver)


def remedy_of(scenario):
    from faultdoc.practice.scenario import bench_of

    (cause,) = scenario.faults
    return bench_of(scenario.unit, scenario.tree).problem.causes[cause].remedy.title


# --- two whole walks ---


def test_walk_by_keyboard_to_the_debrief(trainee):
    keys, window = QTest, trainee.window
    scenario = load_scenarios()[SHORT]

    def press(key, modifier=Qt.KeyboardModifier.NoModifier):
        keys.keyClick(QApplication.focusWidget() or window, key, modifier)

    def focused(name):
        now = QApplication.focusWidget()
        return now is not None and now.accessibleName().startswith(name)

    def tab_to(name):
        QApplication.processEvents()  # parts just added can be gone to when the event loop has come round
        for _ in range(60):
            if focused(name):
                return
            press(Qt.Key.Key_Tab)
        raise AssertionError(f"{name} is not reached by Tab")

    trainee.open()
    press(Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    keys.keyClicks(QApplication.focusWidget(), scenario.title)
    tab_to(scenario.title)
    press(Qt.Key.Key_Return)
    assert trainee.page.at == "brief"
    assert scenario.briefing in trainee.driver.texts(trainee.page.brief)
    assert focused("Go to the unit")
    press(Qt.Key.Key_Return)
    trainee.settle(lambda: trainee.page.at == "live")
    assert trainee.course.clock.running
    press(Qt.Key.Key_F6)
    assert not trainee.course.clock.running

    def act(words, name, until):
        press(Qt.Key.Key_2, Qt.KeyboardModifier.AltModifier)
        keys.keyClicks(QApplication.focusWidget(), words)
        press(Qt.Key.Key_Return)
        tab_to(name)
        press(Qt.Key.Key_Return)
        press(Qt.Key.Key_Return)
        trainee.settle(until)

    def happened(kind):
        return lambda: any(event.kind == kind for event in trainee.course.now.events)

    act("pump's suction", "Pressure at the pump's suction", lambda: trainee.course.now.events)
    remedy = remedy_of(scenario)
    act(remedy, remedy, happened("remedy"))
    act("start the pump", "Start the pump", happened("change"))
    act("prove", "Prove that", lambda: trainee.page.at == "result" and trainee.page.result.found is not None)
    found = trainee.page.result.found
    assert found.solved
    assert not found.unsafe
    assert f"{found.score} points of 100" in trainee.driver.texts(trainee.page.result)
    assert focused("Keep result as PDF")


def test_walk_by_mouse_to_the_debrief(trainee, tmp_path):
    def press(button):
        parent = button.parent()
        while parent is not None and not isinstance(parent, QScrollArea):
            parent = parent.parent()

        def seen():
            if parent is not None:
                parent.ensureWidgetVisible(button)
            return not button.visibleRegion().isEmpty()

        trainee.bot.waitUntil(seen)
        QTest.mouseClick(button, Qt.MouseButton.LeftButton, pos=button.visibleRegion().boundingRect().center())

    scenario = load_scenarios()["half_asleep"]
    trainee.window.resize(1024, 600)
    press(trainee.window.start.practice)
    trainee.settle(lambda: trainee.page.choose.entries)
    press(trainee.page.choose.entries[scenario.id])
    press(trainee.page.brief.start)
    trainee.settle(lambda: trainee.page.at == "live")
    press(trainee.page.live.bar.pause)
    trainee.settle()

    def choose(way, *titles):
        press(trainee.page.live.tabs[1])
        press(trainee.acts.ways[way])
        for title in titles:
            made = next(one for one in trainee.acts.entries.values() if one.title.startswith(title))
            press(made)
        told = len(trainee.course.now.events)
        press(trainee.acts.do)
        trainee.settle(lambda: len(trainee.course.now.events) > told)

    choose("measure", "Voltages", "Supply voltage between lines, L1-L2")
    tile = trainee.page.live.unit.tiles["voltage_l1_l2"]
    trainee.bot.waitUntil(lambda: tile.face.visibleRegion().boundingRect() == tile.face.rect())
    assert trainee.page.live.place == 0  # where there is room for one pane only, what came of it is shown
    (cause,) = scenario.faults
    group = next(one.group for one in trainee.course.now.acts if (one.way, one.id) == ("mend", cause))
    choose("mend", group, remedy_of(scenario))
    choose("mend", "Prove that")
    trainee.settle(lambda: trainee.page.result.found is not None)
    result = trainee.page.result
    assert result.found.solved
    assert result.found.physics
    texts = trainee.driver.texts(result)
    for one in result.found.physics:
        assert one.title in texts
    for one in result.found.meant:
        assert one.meaning in texts
    assert result.keep(tmp_path / "sheet.pdf")
    assert (tmp_path / "sheet.pdf").read_bytes().startswith(b"%PDF-")
    assert result.keep(tmp_path / "sheet.html")
    html = (tmp_path / "sheet.html").read_text(encoding="utf-8")
    assert f"<b>{result.found.score} of 100</b>" in html
    press(result.to_list)
    trainee.settle()
    assert trainee.page.at == "choose"
    QTest.keyClick(trainee.window, Qt.Key.Key_Escape)
    assert trainee.window.page == "start"


def test_results_are_kept_under_the_name_and_the_next_scenario_follows_from_them(trainee):
    from faultdoc.practice.progress import load_progress, next_scenario

    trainee.open()
    choose = trainee.page.choose
    assert "Not done yet" in choose.entries[SHORT].accessibleDescription()
    # What it teaches would say what is wrong.
    assert load_scenarios()[SHORT].teaches not in choose.entries[SHORT].accessibleDescription()
    choose.name.setFocus()
    QTest.keyClicks(choose.name, "Jo of the test")
    QTest.keyClick(choose.name, Qt.Key.Key_Return)
    trainee.settle()
    trainee.at_the_unit()
    found = trainee.end()
    trainee.settle(lambda: ("good", "Kept under the name Jo of the test.") in trainee.driver.told)
    kept = load_progress("Jo of the test")
    assert [(one.scenario, one.score, one.solved) for one in kept.results] == [(SHORT, found.score, False)]
    trainee.page.to_list()
    trainee.settle(lambda: "Not solved" in trainee.page.choose.entries[SHORT].accessibleDescription())
    assert load_scenarios()[SHORT].teaches in trainee.page.choose.entries[SHORT].accessibleDescription()
    suits = next_scenario(kept, load_scenarios().values())
    assert choose.next.title == suits.title
    assert suits.id != SHORT
    assert "1 call so far" in trainee.driver.texts(choose)
    assert trainee.driver.desk.settings.last_trainee == "Jo of the test"


def test_a_call_by_chance_is_of_the_level_wanted(trainee):
    trainee.open()
    trainee.page.choose.random[2].click()
    trainee.settle(lambda: trainee.page.at == "brief")
    assert trainee.page.brief.scenario.level == 2
    assert trainee.page.brief.scenario.id not in load_scenarios()


# --- unsafe acts ---


def test_unsafe_act_is_shown_with_its_signal_word_explained_and_counted(trainee):
    trainee.at_the_unit()
    state = trainee.course.now.state
    event = trainee.act("change", "open_panel_dead")
    assert not event.safe
    assert trainee.course.now.state == state
    unit = trainee.page.live.unit
    (card,) = unit.findChildren(CautionCard)
    assert card.accessibleName().startswith("DANGER: ")
    texts = trainee.driver.texts(unit)
    assert "The supply is on" in texts
    assert "Unsafe acts so far: 1." in texts
    trainee.act("change", "open_panel_dead")
    assert "Unsafe acts so far: 2." in trainee.driver.texts(unit)
    found = trainee.end()
    assert len(found.unsafe) == 2
    assert not found.solved
    assert len(trainee.page.result.findChildren(CautionCard)) == 2
    assert "Unsafe acts: 2" in trainee.driver.texts(trainee.page.result)


def test_a_refusal_that_is_not_unsafe_says_what_lacks_and_is_not_counted(trainee):
    trainee.at_the_unit()
    event = trainee.act("measure", "water_flow")
    assert event.kind == "refused"
    assert event.safe
    texts = trainee.driver.texts(trainee.page.live.unit)
    assert event.why in texts
    assert "UNSAFE" not in texts


@pytest.mark.parametrize("signal", list(Signal))
def test_caution_keeps_the_signal_word_it_comes_with(signal):
    event = Event(0.0, "refused", "x", safe=False, why=f"The pump runs: no. {signal.value.upper()}: Keep clear.")
    assert caution_of(event)[0] == "The pump runs: no."
    assert (caution_of(event)[1].signal, caution_of(event)[1].text) == (signal, "Keep clear.")


def test_a_refusal_without_caution_is_a_warning():
    reason, caution = caution_of(Event(0.0, "refused", "x", safe=False, why="Oil is cold."))
    assert (reason, caution.signal, caution.text) == ("", Signal.WARNING, "Oil is cold.")


def test_an_answer_that_stops_the_work_is_shown_and_handing_over_is_right(trainee):
    trainee.at_the_unit()
    unit = trainee.page.live.unit
    assert not unit.stop.isVisible()
    trainee.course._turn.stop = "Smoke: leave it, keep others away, call for help."
    trainee.act("wait", "1")
    trainee.page.live.show_pane(0)
    assert unit.stop.isVisible()
    assert "Smoke: leave it" in trainee.driver.texts(unit)
    trainee.act("change", "start_pump")
    assert "UNSAFE" in trainee.driver.texts(unit)
    unit.hand_over.click()
    trainee.settle(lambda: trainee.page.result.found is not None)
    assert trainee.page.result.found.stopped_rightly
    assert "as it had to be" in trainee.driver.texts(trainee.page.result)


# --- gauges and time ---


def test_number_of_a_needle_is_told_only_when_asked_for_and_counted(trainee):
    trainee.at_the_unit()
    event = trainee.act("measure", "standing_pressure")
    live, number = trainee.page.live, show(event.value, Kind.GAUGE_PRESSURE, System.US)
    assert number not in trainee.driver.texts(live)
    minutes = trainee.course.now.minutes
    tile = live.unit.tiles["standing_pressure"]
    assert isinstance(tile.face, DialFace)
    tile.number.click()
    assert number in tile.word.text()
    live.show_pane(2)
    assert number in trainee.driver.texts(live.log)
    assert trainee.course.asked.total() == 1
    assert trainee.course.now.minutes == minutes
    assert trainee.end() is not None
    assert "asked for: 1." in trainee.driver.texts(trainee.page.result)


def test_needle_moves_as_time_passes_and_shows_what_is_true(trainee):
    trainee.at_the_unit("dirty_basket")
    trainee.act("change", "start_pump")
    trainee.act("measure", "water_in_temperature")
    face = trainee.page.live.unit.tiles["water_in_temperature"].face
    before = face.value
    trainee.act("wait", "60")
    assert face.value != before
    truth = trainee.course._turn.truth("water_in_temperature")
    # A thermometer's limit of error in points.yaml is 0.5 K.
    assert face.value == pytest.approx(truth, abs=0.5)
    trainee.bot.waitUntil(lambda: face.needle == pytest.approx(face.aim))


def test_gauge_that_has_nothing_to_read_any_more_is_greyed_and_keeps_its_last(trainee):
    trainee.at_the_unit("dirty_basket")
    trainee.act("change", "start_pump")
    trainee.act("measure", "pump_out_pressure")
    tile = trainee.page.live.unit.tiles["pump_out_pressure"]
    assert tile.face.live
    last = tile.face.value
    trainee.act("change", "stop_pump")
    assert not tile.face.live
    assert tile.face.value == pytest.approx(last, rel=0.2)
    assert "was last" in tile.word.text()


def test_units_are_switched_on_dials_too(trainee):
    trainee.at_the_unit()
    trainee.act("measure", "standing_pressure")
    assert trainee.page.live.unit.tiles["standing_pressure"].face.dial.unit == "psig"
    QTest.keyClick(trainee.window, Qt.Key.Key_U, Qt.KeyboardModifier.ControlModifier)
    trainee.settle()
    dial = trainee.page.live.unit.tiles["standing_pressure"].face.dial
    assert dial.unit == display_unit(Kind.GAUGE_PRESSURE, System.SI)


def test_time_runs_by_itself_and_stands_when_nobody_looks(trainee):
    trainee.at_the_unit(running=True)
    trainee.page.live.bar.speeds[60].click()
    trainee.bot.waitUntil(lambda: trainee.course.now.clock > 60.0, timeout=20000)
    assert not any(event.text.startswith("Waited") for event in trainee.course.now.events)
    assert trainee.course.now.minutes * 60.0 == pytest.approx(trainee.course.now.clock)
    trainee.window.show_stops()
    assert not trainee.course.clock.running
    trainee.settle()
    stood = trainee.course.now.clock
    trainee.bot.wait(1200)
    assert trainee.course.now.clock == stood
    trainee.window.show_practice()
    assert trainee.page.at == "live"
    QTest.keyClick(trainee.page.live, Qt.Key.Key_F7)
    assert trainee.course.clock.running
    assert trainee.course.clock.speed == 1


def test_nothing_of_the_unit_is_reckoned_in_the_windows_thread(trainee, monkeypatch):
    seen = []
    for name in ("begin", "measure", "think", "wait", "truth", "unit_shows", "give_up", "points", "hint"):
        real = getattr(Turn, name)

        def spy(*args, real=real, name=name, **options):
            seen.append((name, threading.current_thread() is threading.main_thread()))
            return real(*args, **options)

        monkeypatch.setattr(Turn, name, spy)
    import faultdoc.practice.debrief as after

    real_debrief = after.debrief

    def spied(turn):
        seen.append(("debrief", threading.current_thread() is threading.main_thread()))
        return real_debrief(turn)

    monkeypatch.setattr(after, "debrief", spied)
    monkeypatch.setattr(Turn, "begin", lambda scenario, seed=None: _begin(seen, scenario))
    trainee.at_the_unit(running=True)
    trainee.course.pace(60)
    trainee.act("measure", "standing_pressure")
    trainee.bot.waitUntil(lambda: any(name == "think" for name, _ in seen), timeout=20000)
    trainee.page.live.bar.hint.click()
    trainee.settle(lambda: any(event.kind == "hint" for event in trainee.course.now.events))
    trainee.end()
    assert {"begin", "measure", "think", "truth", "unit_shows", "give_up", "hint", "debrief"} <= {
        name for name, _ in seen
    }
    assert not any(in_window for _, in_window in seen)


_real_begin = Turn.begin.__func__


def _begin(seen, scenario):
    seen.append(("begin", threading.current_thread() is threading.main_thread()))
    return _real_begin(Turn, scenario)


def test_window_closes_while_time_runs(trainee):
    trainee.at_the_unit(running=True)
    trainee.course.pace(60)
    trainee.bot.waitUntil(lambda: trainee.course.now.clock > 0.0, timeout=20000)
    trainee.course.hint()
    assert trainee.window.close()
    assert not trainee.course._timer.isActive()
    assert not trainee.course.clock.running
    stood = trainee.course.now
    trainee.bot.wait(1200)
    assert trainee.course.now is stood
    assert not any(thread.name.startswith("faultdoc") and thread.is_alive() and not thread.daemon and _busy(thread)
                   for thread in threading.enumerate())  # fmt: skip


def _busy(thread):
    thread.join(timeout=20)
    return thread.is_alive()


def test_pages_to_read_are_scrolled_by_keys(trainee):
    trainee.window.resize(1024, 600)
    trainee.at_the_unit()
    trainee.end()
    result = trainee.page.result
    trainee.bot.waitUntil(lambda: result.verticalScrollBar().maximum() > 500)
    assert QApplication.focusWidget() is result.pdf
    trainee.bot.wait(100)
    QTest.keyClick(result.pdf, Qt.Key.Key_PageDown)
    down = result.verticalScrollBar().value()
    assert down > 0
    result.setFocus()
    QTest.keyClick(result, Qt.Key.Key_Down)
    assert result.verticalScrollBar().value() > down


def test_a_unit_that_cannot_be_gone_to_is_told_and_can_be_tried_again(trainee, monkeypatch):
    trainee.open()
    trainee.page._chosen(load_scenarios()[SHORT])

    def broken(scenario, seed=None):
        raise ZeroDivisionError("no road")

    with monkeypatch.context() as patch:
        patch.setattr(Turn, "begin", broken)
        trainee.page.brief.start.click()
        trainee.bot.waitUntil(lambda: bool(trainee.driver.told), timeout=20000)
    assert "no road" in trainee.driver.told[-1][1]
    assert trainee.page.at == "brief"
    trainee.page.brief.start.click()
    trainee.settle(lambda: trainee.page.at == "live")


def test_giving_up_asks_first(trainee):
    trainee.at_the_unit()
    live = trainee.page.live
    live.bar.give_up.click()
    assert live.sure.isVisible()
    live.no.click()
    assert not live.sure.isVisible()
    assert not trainee.course.now.finished


def test_escape_leaves_the_unit_standing_and_comes_back_to_it(trainee):
    trainee.at_the_unit()
    clock = trainee.course.now.clock
    QTest.keyClick(trainee.window, Qt.Key.Key_Escape)
    assert trainee.window.page == "start"
    trainee.window.show_practice()
    assert trainee.page.at == "live"
    assert trainee.course.now.clock == clock


def test_what_was_done_is_shut_again_so_that_a_second_press_does_not_repeat_it(trainee):
    trainee.window.resize(1280, 800)
    trainee.at_the_unit()
    acts = trainee.acts
    acts.show_way("wait")
    acts.entries["wait:5"].click()
    acts.do.click()
    acts.do.click()  # a bounced press while the first is on its way
    trainee.settle(lambda: trainee.course.now.events)
    assert acts.do is None
    assert sum(event.text.startswith("Waited") for event in trainee.course.now.events) == 1
    assert acts.entries["wait:5"].hasFocus()


# --- words ---


def test_log_keeps_a_needles_number_to_itself():
    points, sheet = load_points(), load_unit("bluff_30")
    read = Event(60.0, "reading", "Standing pressure: 25.0 psig", 2.0, "standing_pressure", 172369.0)
    hidden = event_words(read, points, sheet, System.US, set())
    assert "25" not in hidden
    assert "needle" in hidden
    assert "25.0 psig" in event_words(read, points, sheet, System.US, {"standing_pressure"})
    volts = Event(60.0, "reading", "x", 2.0, "voltage_l1_l2", 461.0)
    assert "461" in event_words(volts, points, sheet, System.US, set())


# --- the model on a stand-in ---


@dataclass
class StandIn:
    """A turn without physics: enough for the model of a practice."""

    scenario: object = field(default_factory=lambda: SimpleNamespace(title="Stand-in", minutes=10.0))
    sheet: object = field(default_factory=lambda: load_unit("bluff_30"))
    library: object = field(default_factory=lambda: SimpleNamespace(points=load_points()))
    system: System = System.US
    clock: float = 0.0
    minutes: float = 0.0
    state: object = None
    events: list = field(default_factory=list)
    finished: bool = False
    stop: str | None = None
    broken: bool = False

    def points(self):
        return ["standing_pressure"]

    def questions(self):
        return []

    changes = remedies = unit_shows = questions

    def truth(self, point):
        return 2e5

    def think(self, minutes):
        if self.broken:
            raise ZeroDivisionError("the unit flew away")
        self.clock += 60.0 * minutes

    def measure(self, point):
        event = Event(self.clock, "reading", "Read", 1.0, point, 2.1e5)
        self.events.append(event)
        return event


@pytest.fixture
def course(qtbot):
    made = Course()
    yield made
    qtbot.waitUntil(lambda: made.background.idle)
    made.shut()


def test_an_instrument_keeps_its_error_while_it_stays(course, qtbot):
    turn = StandIn()
    course.begin(lambda: turn, System.US)
    qtbot.waitUntil(lambda: course.now is not None)
    course.do(course.now.acts[0])
    qtbot.waitUntil(lambda: bool(course.now.fitted))
    # It read 2.1 bar where 2.0 were true: 0.1 too much, now and later.
    assert course.now.fitted[0].value == pytest.approx(2.1e5)
    turn.truth = lambda point: 3e5
    course.pace(60)
    qtbot.waitUntil(lambda: course.now.fitted[0].value == pytest.approx(3.1e5))
    turn.truth = lambda point: None
    qtbot.waitUntil(lambda: not course.now.fitted[0].live)
    assert course.now.fitted[0].value == pytest.approx(3.1e5)


def test_time_that_cannot_be_reckoned_stops_the_clock_and_is_told(course, qtbot):
    course.begin(lambda: StandIn(broken=True), System.US)
    qtbot.waitUntil(lambda: course.now is not None)
    told = []
    course.failed.connect(lambda sentence, problem: told.append((sentence, problem)))
    course.pace(60)
    qtbot.waitUntil(lambda: bool(told))
    assert not course.clock.running
    assert isinstance(told[0][1], ZeroDivisionError)


def test_a_practice_that_was_left_before_it_began_does_not_come_back(course, qtbot):
    began = []
    course.begun.connect(lambda: began.append(True))
    course.begin(StandIn, System.US)
    course.leave()
    qtbot.waitUntil(lambda: course.background.idle)
    assert course.now is None
    assert not began
    assert not course.busy


def test_a_practice_that_cannot_begin_is_told_and_another_can(course, qtbot):
    told = []
    course.failed.connect(lambda sentence, problem: told.append(sentence))
    course.begin(lambda: 1 // 0, System.US)
    qtbot.waitUntil(lambda: bool(told))
    assert not course.busy
    course.begin(StandIn, System.US)
    qtbot.waitUntil(lambda: course.now is not None)

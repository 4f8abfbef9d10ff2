"""Faces of gauges and meters say the value: needle, strokes and display."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QImage

from faultdoc.app.colours import COLOURS
from faultdoc.app.practice.clock import LONGEST, Clock
from faultdoc.app.practice.scales import END, PIN, Dial, Meter, angle, between, beyond, digits, face_of, ticks
from faultdoc.app.widgets.gauge import DialFace, MeterFace, _point
from faultdoc.library.load import load_unit
from faultdoc.library.vocabulary import load_points
from faultdoc.quantities import Kind, System, from_display, parse

POINTS = load_points()
UNITS = ("bluff_30", "marten_60", "tarn_120")
DIALS = [
    (unit, id, system, face)
    for unit in UNITS
    for id, point in POINTS.items()
    for system in System
    if isinstance(face := face_of(point, load_unit(unit), system), Dial)
]
FACES = sorted({face for *_, face in DIALS}, key=repr)


def read_off(dial, degrees):
    """Read a needle as a person does: from the two nearest strokes, by eye, knowing the numbers only."""
    numbers = [(tick.angle, float(tick.text)) for tick in ticks(dial) if tick.text]
    (low, first), (high, second) = min(
        itertools.pairwise(numbers), key=lambda pair: abs(degrees - (pair[0][0] + pair[1][0]) / 2)
    )
    return first + (second - first) * (degrees - low) / (high - low)


@given(st.sampled_from(FACES), st.floats(0.0, 1.0))
@settings(deadline=None)
def test_needle_between_the_numbers_says_the_value(dial, share):
    value = dial.least + share * (dial.most - dial.least)
    assert read_off(dial, angle(dial, value)) == pytest.approx(value, abs=dial.division * 1e-6)


@given(st.sampled_from(FACES), st.floats(-3.0, 4.0), st.floats(-3.0, 4.0))
@settings(deadline=None)
def test_needle_never_goes_back_and_never_past_its_pins(dial, one, two):
    low, high = sorted(dial.least + share * (dial.most - dial.least) for share in (one, two))
    first, then = angle(dial, low), angle(dial, high)
    assert -PIN <= first <= then <= PIN


@given(st.sampled_from(FACES))
@settings(deadline=None)
def test_strokes_stand_where_their_numbers_are(dial):
    strokes = ticks(dial)
    assert all(tick.angle == angle(dial, tick.value) for tick in strokes)
    assert all(float(tick.text) == pytest.approx(tick.value, abs=1e-9 + dial.division * 1e-6)
               for tick in strokes if tick.text)  # fmt: skip
    gaps = {round(later.value - first.value, 9) for first, later in itertools.pairwise(strokes)}
    assert len(gaps) == 1
    assert strokes[-1].angle == pytest.approx(END)


@pytest.mark.parametrize(("unit", "id", "system", "dial"), DIALS[::7], ids=lambda one: str(one)[:40])
def test_scale_is_one_that_can_be_read(unit, id, system, dial):
    labels = [tick for tick in ticks(dial) if tick.text]
    assert 4 <= len(labels) <= 12
    # On a face of 216 pixels strokes are 3 pixels apart at least.
    apart = [later.angle - first.angle for first, later in itertools.pairwise(ticks(dial))]
    assert min(apart) * 3.14159 / 180 * 0.9 * 106 >= 3.0


@pytest.mark.parametrize("unit", UNITS)
def test_full_scale_suits_the_data_sheet(unit):
    sheet = load_unit(unit)

    def on(id, value):
        dial = face_of(POINTS[id], sheet, System.US)
        return not beyond(dial, dial.number(value))

    trip = next(safety for safety in sheet.safeties if safety.id == "high_pressure")
    # A gauge is chosen so that it can show more than the stop; less than twice that, or it cannot be read.
    stop = parse(trip.trips_at, Kind.GAUGE_PRESSURE).value
    assert on("discharge_pressure_a", 1.1 * stop)
    assert not on("discharge_pressure_a", 2.0 * stop)
    assert on("suction_pressure_a", -0.5e5)
    assert on("pump_in_pressure", -0.5e5)
    assert on("pump_out_pressure", sheet.water.relief_pressure)
    assert on("barrel_pressure_drop", sheet.water.barrel.points[-1].drop)
    assert on("water_out_temperature", sheet.water.design_leaving)


def test_no_gauge_shows_less_than_no_pressure_at_all():
    for _, id, system, dial in DIALS:
        if dial.kind is Kind.GAUGE_PRESSURE:
            # The standard atmosphere, 101.325 kPa (ISO 2533)
            assert from_display(dial.least, dial.kind, system) >= -101_325.0 - 1.0, id


def test_beyond_the_scale_is_marked_and_told():
    gauge = Dial(Kind.PRESSURE_DIFFERENCE, System.US, "psi", 0.0, 35.0, 5.0, "Gauge")
    assert [beyond(gauge, number) for number in (-0.1, 0.0, 35.0, 35.1)] == ["under", "", "", "over"]
    assert angle(gauge, 35.0) == END < angle(gauge, 36.0) <= angle(gauge, 90.0) == PIN
    assert "beyond 35" in between(gauge, 40.0)
    assert "below 0" in between(gauge, -2.0)


@given(st.sampled_from(FACES), st.floats(0.0, 1.0))
@settings(deadline=None)
def test_words_name_the_numbers_around_the_needle(dial, share):
    value = dial.least + share * (dial.most - dial.least)
    words = between(dial, value)
    numbers = [float(word) for word in words.split() if word.lstrip("-").replace(".", "").isdigit()]
    if len(numbers) == 2:
        slack = dial.division * 0.51
        assert numbers[0] - slack <= value <= numbers[1] + slack
        assert numbers[1] - numbers[0] <= dial.step * 1.001
    else:
        assert numbers[0] == pytest.approx(value, abs=dial.division * 0.51)


@pytest.mark.parametrize(
    ("kind", "most", "value", "shown"),
    [
        (Kind.VOLTAGE, 1000.0, 461.73, ("461.7", "V")),
        (Kind.VOLTAGE, 1000.0, 0.0821, ("0.082", "V")),
        (Kind.VOLTAGE, 1000.0, 599.97, ("600", "V")),
        (Kind.VOLTAGE, 1000.0, 1000.1, ("OL", "V")),
        (Kind.CURRENT, 400.0, 15.83, ("15.8", "A")),
        (Kind.CURRENT, 400.0, 420.0, ("OL", "A")),
        (Kind.FREQUENCY, 80.0, 59.96, ("60.0", "Hz")),
        (Kind.RESISTANCE, 1e11, 2.3e8, ("230.0", "MΩ")),
    ],
)
def test_display_says_the_value_with_its_digits(kind, most, value, shown):
    assert digits(Meter(kind, System.US, most, "Meter"), value) == shown


def test_what_is_seen_or_looked_up_has_no_face():
    sheet = load_unit("bluff_30")
    for id in ("sight_glass_a", "breaker_rating", "hose_length", "time_since_stop_1", "fans_stopped_a"):
        assert face_of(POINTS[id], sheet, System.US) is None
    assert face_of(POINTS["pump_current_l1"], sheet, System.US).clamp
    assert isinstance(face_of(POINTS["water_flow"], sheet, System.US), Meter)


def painted(widget, at):
    image = QImage(widget.size(), QImage.Format.Format_RGB32)
    widget.render(image)
    return image.pixelColor(round(at.x()), round(at.y()))


@pytest.mark.parametrize("psi", [0.0, 33.0, 80.0, 121.0, 160.0])
def test_painted_needle_points_where_the_function_says(qtbot, psi):
    gauge = Dial(Kind.GAUGE_PRESSURE, System.US, "psig", 0.0, 160.0, 20.0, "Pressure gauge")
    face = DialFace("Pump", gauge)
    qtbot.addWidget(face)
    face.resize(230, 230)
    face.put(from_display(psi, Kind.GAUGE_PRESSURE, System.US))
    middle = QPointF(115.0, 115.0)
    along = painted(face, _point(middle, 40.0, angle(gauge, psi)))
    across = painted(face, _point(middle, 40.0, angle(gauge, psi) + 90.0))
    assert along == QColor(COLOURS["strong_text"])
    assert across != along


def test_needle_moves_to_a_new_value_and_says_so(qtbot):
    gauge = Dial(Kind.GAUGE_PRESSURE, System.US, "psig", 0.0, 160.0, 20.0, "Pressure gauge")
    face = DialFace("Pump", gauge)
    qtbot.addWidget(face)
    face.show()
    face.put(from_display(30.0, Kind.GAUGE_PRESSURE, System.US))
    qtbot.waitUntil(lambda: face.needle == pytest.approx(angle(gauge, 30.0)))
    assert face.accessibleName() == "Pressure gauge, Pump: between 20 and 40 psig"
    face.put(from_display(110.0, Kind.GAUGE_PRESSURE, System.US))
    assert face.needle < angle(gauge, 110.0)
    qtbot.waitUntil(lambda: face.needle == pytest.approx(angle(gauge, 110.0)))
    assert "between 100 and 120 psig" in face.accessibleName()


def test_meter_says_its_display(qtbot):
    face = MeterFace("Supply", Meter(Kind.VOLTAGE, System.US, 1000.0, "Voltmeter"))
    qtbot.addWidget(face)
    assert face.accessibleName() == "Voltmeter, Supply: ----"
    face.put(461.7)
    assert face.accessibleName() == "Voltmeter, Supply: 461.7 V"


def test_clock_owes_time_only_while_it_runs_and_never_hours():
    clock = Clock(speed=60)
    clock.passed(10.0)
    assert clock.take() == 0.0
    clock.running = True
    clock.passed(0.5)
    clock.passed(0.5)
    assert clock.take() == pytest.approx(60.0)
    assert clock.take() == 0.0
    clock.passed(3600.0)
    assert clock.take() == pytest.approx(60.0 * LONGEST)


def test_faces_do_not_change_with_the_language(monkeypatch):
    """What a language calls an instrument must not change its face: a compound gauge stays one."""
    from faultdoc.library import vocabulary

    sheet = load_unit("bluff_30")
    english = load_points()
    monkeypatch.setattr(vocabulary, "language", lambda: "es")
    for id, point in english.items():
        spoken = point.model_copy(update={"instrument": "Instrumento"})
        one, other = face_of(point, sheet, System.US), face_of(spoken, sheet, System.US)
        assert type(one) is type(other), id
        if isinstance(one, Dial):
            assert one == other, id

"""How a reading is taken, as a small drawing for each way of taking one.

What is drawn is common practice, no source; where people can be hurt the step's own cautions stand beside it.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, radians, sin

from faultdoc.model.points import Point as MeasuringPoint
from faultdoc.quantities import Kind
from faultdoc.record.pictures.places import motor, pipe, valve
from faultdoc.record.pictures.shapes import Disc, Line, Picture, Point, Role, Shape, Words, arc, box, round_box
from faultdoc.words import say

__all__ = ["WAYS", "howto_picture", "way_of"]

WIDTH, HEIGHT = 340.0, 200.0
SIZE = 13.0


def way_of(point: MeasuringPoint) -> str:
    """Return which of `WAYS` shows how a point is read.

    >>> from faultdoc.library.vocabulary import load_points
    >>> points = load_points()
    >>> [way_of(points[id]) for id in ("suction_line_temperature_a", "pump_current_l1", "hose_length")]
    ['pipe_thermometer', 'clamp', 'tape']
    """
    for start, way in _BY_NAME:
        if point.id.startswith(start):
            return way
    return _BY_KIND[point.kind]


_BY_NAME = (
    ("ambient_air", "air_thermometer"), ("condenser_inlet_air", "air_thermometer"),
    ("condenser_outlet_air", "air_thermometer"), ("lowest_air", "papers"), ("sample_temperature", "jar"),
    ("specific_gravity", "jar"), ("load_pressure_drop", "two_gauges"), ("barrel_drop", "needle"),
    ("generator_", "papers"), ("nameplate_", "papers"), ("breaker_", "papers"), ("added_volume", "papers"),
    ("cooling_load", "papers"), ("site_elevation", "papers"), ("feeder_length", "tape"), ("feeder_", "cable"),
    ("contactor_drop", "contactor"), ("pump_contactor_drop", "contactor"), ("insulation", "insulation"),
    ("pump_insulation", "insulation"), ("fan_rotation", "paper_strip"), ("pump_rotation", "coasting"),
    ("phase_sequence", "sequence"), ("flow_switch", "ohmmeter"), ("winding_temperature", "papers"),
    ("starts_", "log"), ("compressors_running", "look"), ("fans_stopped", "look"),
)  # fmt: skip
_BY_KIND = {
    Kind.TEMPERATURE: "pipe_thermometer",
    Kind.GAUGE_PRESSURE: "gauge",
    Kind.PRESSURE_DIFFERENCE: "two_gauges",
    Kind.VOLUME_FLOW: "flow_meter",
    Kind.MASS_FRACTION: "refractometer",
    Kind.LENGTH: "tape",
    Kind.BORE: "tape",
    Kind.VOLUME: "papers",
    Kind.VOLTAGE: "voltmeter",
    Kind.CURRENT: "clamp",
    Kind.RESISTANCE: "ohmmeter",
    Kind.FREQUENCY: "voltmeter",
    Kind.TIME: "log",
    Kind.POWER: "papers",
    Kind.RATIO: "papers",
    Kind.NUMBER: "look",
    Kind.CHOICE: "look",
}


def howto_picture(point: MeasuringPoint) -> Picture:
    """Return the drawing for a point; its words are the point's own."""
    title, draw = WAYS[way_of(point)]
    return Picture(title, f"{point.where}. {point.how}", WIDTH, HEIGHT, tuple(draw()))


def _say(x: float, y: float, text: str, anchor: str = "start", *, wrong: bool = False) -> Words:
    return Words((x, y), text, SIZE, anchor, Role.WRONG if wrong else Role.INK, bold=wrong)


def _gauge(at: Point, radius: float = 24.0, turn: float = -50.0) -> list[Shape]:
    x, y = at
    end = (x + 0.7 * radius * cos(radians(turn)), y + 0.7 * radius * sin(radians(turn)))
    return [
        Disc(at, radius, Role.INK, 2.5, Role.PAPER),
        Line(arc(at, radius * 0.78, 150.0, 390.0), Role.FAINT, 1.5),
        Line((at, end), Role.WRONG, 2.5),
        Disc(at, 2.5, Role.INK, 1.0, Role.INK),
    ]


def _meter(left: float, top: float, sign: str) -> list[Shape]:
    return [
        round_box(left, top, left + 62.0, top + 84.0, 8.0, role=Role.INK, width=2.5, fill=Role.GROUND),
        box(left + 8.0, top + 8.0, left + 54.0, top + 34.0, role=Role.INK, fill=Role.PAPER),
        Words((left + 31.0, top + 21.0), sign, 15.0, "middle", bold=True),
        Disc((left + 31.0, top + 58.0), 14.0, Role.INK, 2.0, Role.PAPER),
        Line(((left + 31.0, top + 58.0), (left + 31.0, top + 46.0)), Role.INK, 2.5),
    ]


def _tube(y: float, left: float = 20.0, right: float = 320.0, half: float = 16.0) -> list[Shape]:
    return [box(left, y - half, right, y + half, role=Role.INK, width=2.0, fill=Role.STRONG_PALE)]


def _pipe_thermometer() -> list[Shape]:
    return [
        *_tube(120.0),
        box(110.0, 96.0, 230.0, 144.0, role=Role.FAINT, width=2.0, dash=(5.0, 4.0), fill=Role.DOUBT_PALE),
        box(140.0, 100.0, 200.0, 106.0, role=Role.INK, fill=Role.WRONG),
        Line(((150.0, 92.0), (150.0, 148.0)), Role.INK, 2.0),
        Line(((190.0, 92.0), (190.0, 148.0)), Role.INK, 2.0),
        Line(((200.0, 103.0), (256.0, 103.0), (256.0, 62.0)), Role.INK, 2.0),
        round_box(236.0, 22.0, 296.0, 62.0, 6.0, role=Role.INK, width=2.0, fill=Role.PAPER),
        Words((266.0, 42.0), "°", 18.0, "middle", bold=True),
        _say(20.0, 26.0, say("Bright metal, paste,")),
        _say(20.0, 44.0, say("strap, insulation over it")),
        _say(20.0, 180.0, say("Wait until it stands still")),
    ]


def _air_thermometer() -> list[Shape]:
    rays = [
        Line(
            ((60.0 + 26.0 * cos(radians(a)), 50.0 + 26.0 * sin(radians(a))),
             (60.0 + 36.0 * cos(radians(a)), 50.0 + 36.0 * sin(radians(a)))), Role.INK, 2.0,
        )
        for a in range(0, 360, 45)
    ]  # fmt: skip
    return [
        Disc((60.0, 50.0), 20.0, Role.INK, 2.0, Role.DOUBT_PALE),
        *rays,
        Line(
            ((130.0, 70.0), (270.0, 40.0), (270.0, 52.0), (130.0, 82.0)),
            Role.INK,
            2.0,
            closed=True,
            fill=Role.GROUND,
        ),
        Line(((200.0, 92.0), (200.0, 140.0)), Role.INK, 3.0),
        Disc((200.0, 146.0), 7.0, Role.INK, 2.0, Role.WRONG),
        _say(220.0, 120.0, say("In the shade")),
        _say(20.0, 180.0, say("Out of the fans' air; two minutes")),
    ]


def _gauge_way() -> list[Shape]:
    return [
        *_tube(150.0),
        Line(((120.0, 134.0), (120.0, 84.0)), Role.INK, 4.0),
        *valve((120.0, 112.0), upright=True),
        *_gauge((120.0, 58.0), 28.0),
        Line(((250.0, 58.0), (156.0, 58.0)), Role.FAINT, 2.0, (6.0, 4.0), arrow=True),
        Line(((262.0, 58.0), (282.0, 48.0)), Role.INK, 2.0),
        Line(((262.0, 58.0), (282.0, 68.0)), Role.INK, 2.0),
        Disc((268.0, 58.0), 3.0, Role.INK, 1.0, Role.INK),
        _say(190.0, 92.0, say("Eye straight before it")),
        _say(150.0, 116.0, say("Seen at zero first")),
        _say(20.0, 185.0, say("Open slowly; needle at rest")),
    ]


def _two_gauges() -> list[Shape]:
    return [
        round_box(90.0, 108.0, 250.0, 160.0, 20.0, role=Role.INK, width=2.5, fill=Role.PAPER),
        pipe(((20.0, 134.0), (90.0, 134.0)), Role.WATER),
        pipe(((250.0, 134.0), (322.0, 134.0)), Role.WATER, arrow=True),
        Line(((60.0, 131.0), (60.0, 84.0)), Role.INK, 3.0),
        Line(((280.0, 131.0), (280.0, 84.0)), Role.INK, 3.0),
        *_gauge((60.0, 60.0), 24.0, -40.0),
        *_gauge((280.0, 60.0), 24.0, -90.0),
        Line(((96.0, 60.0), (246.0, 60.0)), Role.FAINT, 2.0, (6.0, 4.0), arrow=True),
        _say(170.0, 44.0, say("one gauge, moved"), "middle"),
        _say(170.0, 78.0, say("or two, level"), "middle"),
        _say(20.0, 186.0, say("The difference, with water running")),
    ]


def _needle() -> list[Shape]:
    at = (120.0, 100.0)
    low, high = (
        (at[0] + 56.0 * cos(radians(turn)), at[1] + 56.0 * sin(radians(turn))) for turn in (-120.0, -50.0)
    )
    return [
        Disc(at, 74.0, Role.INK, 2.5, Role.PAPER),
        Line(arc(at, 60.0, 150.0, 390.0), Role.FAINT, 1.5),
        Line((at, low), Role.WRONG, 2.5, (6.0, 4.0)),
        Line((at, high), Role.WRONG, 2.5),
        Line(arc(at, 66.0, -118.0, -54.0), Role.STRONG, 2.5, arrow=True),
        _say(210.0, 80.0, say("Half a minute:")),
        _say(210.0, 98.0, say("lowest and")),
        _say(210.0, 116.0, say("highest reading")),
    ]


def _clamp() -> list[Shape]:
    return [
        *(Line(((20.0, y), (320.0, y)), Role.ELECTRIC, 5.0) for y in (60.0, 90.0, 120.0)),
        *(Words((10.0, y), name, 12.0, "middle") for y, name in ((60.0, "L1"), (90.0, "L2"), (120.0, "L3"))),
        Line(arc((170.0, 60.0), 20.0, 100.0, 440.0), Role.INK, 6.0),
        round_box(148.0, 6.0, 192.0, 40.0, 6.0, role=Role.INK, width=2.0, fill=Role.GROUND),
        _say(204.0, 24.0, say("One conductor only")),
        Line(arc((270.0, 90.0), 44.0, 0.0, 360.0), Role.WRONG, 2.5, (6.0, 5.0)),
        Line(((240.0, 122.0), (300.0, 58.0)), Role.WRONG, 3.0),
        _say(20.0, 162.0, say("Jaw shut, conductor in its middle.")),
        _say(20.0, 182.0, say("Round all three it shows nothing."), wrong=True),
    ]


def _voltmeter() -> list[Shape]:
    drawn: list[Shape] = [
        box(150.0, 24.0, 320.0, 74.0, role=Role.INK, width=2.0, fill=Role.GROUND),
    ]
    for place, name in enumerate(("L1", "L2", "L3")):
        x = 180.0 + 55.0 * place
        drawn += [Disc((x, 42.0), 9.0, Role.INK, 2.0, Role.PAPER), Words((x, 62.0), name, 12.0, "middle")]
    drawn += [
        *_meter(40.0, 24.0, "V ~"),
        Line(((60.0, 108.0), (60.0, 128.0), (180.0, 128.0), (180.0, 46.0)), Role.INK, 2.5),
        Line(((82.0, 108.0), (82.0, 116.0), (235.0, 116.0), (235.0, 46.0)), Role.WRONG, 2.5, (8.0, 3.0)),
        _say(20.0, 160.0, say("Meter proved on a known supply first,")),
        _say(20.0, 180.0, say("and again after")),
    ]
    return drawn


def _ohmmeter() -> list[Shape]:
    return [
        Line(((20.0, 40.0), (70.0, 40.0)), Role.ELECTRIC, 4.0),
        Line(((70.0, 40.0), (100.0, 18.0)), Role.INK, 3.0),
        Line(((106.0, 40.0), (230.0, 40.0)), Role.ELECTRIC, 4.0),
        round_box(66.0, 50.0, 104.0, 78.0, 4.0, role=Role.WRONG, width=2.5, fill=Role.PAPER),
        Line(arc((85.0, 50.0), 11.0, 180.0, 360.0), Role.WRONG, 3.0),
        _say(85.0, 66.0, "lock", "middle"),
        *motor((256.0, 40.0), "", 26.0),
        *_meter(150.0, 82.0, "Ω"),
        Line(((170.0, 82.0), (170.0, 66.0), (238.0, 60.0)), Role.INK, 2.5),
        Line(((194.0, 82.0), (194.0, 72.0), (268.0, 66.0)), Role.WRONG, 2.5, (8.0, 3.0)),
        _say(20.0, 110.0, say("Isolated, locked,")),
        _say(20.0, 128.0, say("proved dead")),
        _say(20.0, 182.0, say("Leads off; less the meter's own leads")),
    ]


def _insulation() -> list[Shape]:
    return [
        *motor((110.0, 60.0), "", 34.0),
        Line(((110.0, 94.0), (110.0, 130.0)), Role.INK, 2.5),
        *(Line(((110.0 - h, 130.0 + 7.0 * n), (110.0 + h, 130.0 + 7.0 * n)), Role.INK, 2.5)
          for n, h in enumerate((22.0, 14.0, 6.0))),
        *_meter(220.0, 50.0, "MΩ"),
        Line(((240.0, 50.0), (240.0, 34.0), (142.0, 46.0)), Role.INK, 2.5),
        Line(((262.0, 134.0), (262.0, 148.0), (150.0, 148.0), (132.0, 130.0)), Role.WRONG, 2.5, (8.0, 3.0)),
        _say(20.0, 176.0, say("Dead, locked, electronics off; 1 min")),
    ]  # fmt: skip


def _contactor() -> list[Shape]:
    return [
        box(40.0, 30.0, 150.0, 150.0, role=Role.INK, width=2.0, fill=Role.GROUND),
        *(Line(((70.0 + 25.0 * n, 14.0), (70.0 + 25.0 * n, 166.0)), Role.ELECTRIC, 4.0) for n in range(3)),
        *_meter(210.0, 44.0, "V ~"),
        Line(((230.0, 44.0), (230.0, 26.0), (124.0, 26.0)), Role.INK, 2.5),
        Line(((252.0, 128.0), (252.0, 158.0), (124.0, 158.0)), Role.WRONG, 2.5, (8.0, 3.0)),
        _say(160.0, 186.0, say("Above and below one closed pole, loaded"), "middle"),
    ]


def _refractometer() -> list[Shape]:
    return [
        round_box(60.0, 84.0, 250.0, 112.0, 12.0, role=Role.INK, width=2.5, fill=Role.GROUND),
        Line(
            ((60.0, 84.0), (30.0, 66.0), (62.0, 66.0), (84.0, 84.0)),
            Role.INK,
            2.0,
            closed=True,
            fill=Role.STRONG_PALE,
        ),
        Line(((48.0, 22.0), (42.0, 42.0), (54.0, 42.0)), Role.WATER, 1.5, closed=True, fill=Role.WATER),
        Disc((48.0, 44.0), 6.5, Role.WATER, 1.5, Role.WATER),
        Line(((262.0, 98.0), (284.0, 88.0)), Role.INK, 2.0),
        Line(((262.0, 98.0), (284.0, 108.0)), Role.INK, 2.0),
        Disc((268.0, 98.0), 3.0, Role.INK, 1.0, Role.INK),
        _say(80.0, 40.0, say("Two drops on the prism,")),
        _say(80.0, 58.0, say("lid shut, no bubble")),
        _say(20.0, 150.0, say("Zero it with plain water first.")),
        _say(20.0, 170.0, say("Scale of the glycol that is in the loop")),
    ]


def _jar() -> list[Shape]:
    return [
        box(80.0, 20.0, 140.0, 180.0, role=Role.INK, width=2.5),
        box(80.0, 60.0, 140.0, 180.0, role=None, fill=Role.STRONG_PALE),
        Line(((80.0, 60.0), (140.0, 60.0)), Role.WATER, 2.5),
        box(104.0, 30.0, 116.0, 120.0, role=Role.INK, width=1.5, fill=Role.PAPER),
        round_box(98.0, 118.0, 122.0, 168.0, 10.0, role=Role.INK, width=1.5, fill=Role.GROUND),
        *(Line(((104.0, y), (112.0, y)), Role.INK, 1.5) for y in (40.0, 50.0, 60.0, 70.0, 80.0)),
        Line(((230.0, 60.0), (150.0, 60.0)), Role.FAINT, 2.0, (6.0, 4.0), arrow=True),
        _say(170.0, 44.0, say("Read at the surface")),
        _say(170.0, 96.0, say("It must float free.")),
        _say(170.0, 116.0, say("Note the sample's")),
        _say(170.0, 134.0, say("temperature too")),
    ]


def _flow_meter() -> list[Shape]:
    return [
        *_tube(100.0),
        Line(((30.0, 100.0), (70.0, 100.0)), Role.WATER, 2.5, arrow=True),
        box(190.0, 74.0, 220.0, 126.0, role=Role.INK, width=2.5, fill=Role.GROUND),
        Line(((24.0, 146.0), (188.0, 146.0)), Role.FAINT, 1.5, arrow=True),
        _say(106.0, 162.0, say("10 pipe bores straight before"), "middle"),
        Line(((316.0, 60.0), (222.0, 60.0)), Role.FAINT, 1.5, arrow=True),
        _say(270.0, 46.0, say("5 behind"), "middle"),
        _say(20.0, 30.0, say("Arrow with the flow; right pipe size set")),
    ]


def _tape() -> list[Shape]:
    return [
        Line(((60.0, 150.0), (60.0, 40.0), (260.0, 40.0), (260.0, 150.0)), Role.WATER, 6.0),
        *_gauge((60.0, 156.0), 18.0),
        Line(((96.0, 156.0), (96.0, 46.0)), Role.STRONG, 2.0, arrow=True),
        Line(((96.0, 46.0), (96.0, 156.0)), Role.STRONG, 2.0, arrow=True),
        *(Line(((92.0, 46.0 + 10.0 * n), (100.0, 46.0 + 10.0 * n)), Role.STRONG, 1.5) for n in range(12)),
        _say(112.0, 84.0, say("All of it: both ways,")),
        _say(112.0, 102.0, say("or from gauge to the")),
        _say(112.0, 120.0, say("highest pipe")),
    ]


def _papers() -> list[Shape]:
    return [
        round_box(50.0, 30.0, 230.0, 140.0, 8.0, role=Role.INK, width=2.5, fill=Role.GROUND),
        *(Disc((x, y), 4.0, Role.INK, 1.5, Role.PAPER) for x in (62.0, 218.0) for y in (42.0, 128.0)),
        *(Line(((76.0, y), (204.0, y)), Role.FAINT, 2.0) for y in (60.0, 78.0, 96.0, 114.0)),
        box(130.0, 70.0, 204.0, 88.0, role=Role.FOCUS, width=2.5),
        _say(20.0, 166.0, say("Off its plate or its papers; the unit too")),
    ]  # fmt: skip


def _cable() -> list[Shape]:
    strands = [
        Disc((120.0 + 14.0 * x + 7.0 * (y % 2), 90.0 + 12.0 * y), 6.5, Role.HOT, 1.5, Role.DOUBT_PALE)
        for y in range(-2, 3)
        for x in range(-2, 3 - y % 2)
    ]
    return [
        Disc((120.0, 90.0), 52.0, Role.INK, 3.0, Role.GROUND),
        *strands,
        _say(186.0, 70.0, say("On the sheath:")),
        _say(186.0, 88.0, say("metal and size;")),
        _say(186.0, 106.0, say("how many of them")),
        _say(20.0, 176.0, say("Never cut or bared to see it")),
    ]


def _paper_strip() -> list[Shape]:
    return [
        Disc((110.0, 130.0), 54.0, Role.INK, 2.5, Role.PAPER),
        *(Line(((60.0, y), (160.0, y)), Role.FAINT, 1.5) for y in (110.0, 130.0, 150.0)),
        Line(((110.0, 66.0), (122.0, 52.0), (104.0, 40.0), (118.0, 22.0)), Role.STRONG, 3.0),
        Line(((84.0, 70.0), (84.0, 30.0)), Role.FAINT, 2.0, arrow=True),
        _say(180.0, 44.0, say("Blown off: out of")),
        _say(180.0, 62.0, say("the unit, right")),
        _say(180.0, 110.0, say("Over the guard,"), wrong=True),
        _say(180.0, 128.0, say("never through it"), wrong=True),
    ]


def _coasting() -> list[Shape]:
    return [
        Disc((120.0, 96.0), 60.0, Role.INK, 2.5, Role.PAPER),
        Line(arc((120.0, 96.0), 44.0, 200.0, 330.0), Role.STRONG, 4.0, arrow=True),
        Disc((120.0, 96.0), 10.0, Role.INK, 2.0, Role.GROUND),
        _say(200.0, 60.0, say("As it coasts down,")),
        _say(200.0, 78.0, say("against the arrow")),
        _say(200.0, 96.0, say("on the casing")),
        _say(20.0, 180.0, say("Guard stays on; look, do not reach")),
    ]


def _sequence() -> list[Shape]:
    drawn: list[Shape] = [round_box(170.0, 40.0, 300.0, 130.0, 10.0, role=Role.INK, width=2.5, fill=Role.GROUND)]
    for place, name in enumerate(("L1", "L2", "L3")):
        y = 60.0 + 25.0 * place
        drawn += [
            Line(((40.0, y), (170.0, y)), Role.ELECTRIC, 3.0),
            Words((24.0, y), name, 13.0, "middle", bold=True),
        ]
    return [
        *drawn,
        Line(arc((235.0, 85.0), 26.0, 150.0, 400.0), Role.STRONG, 3.5, arrow=True),
        _say(20.0, 156.0, say("Leads in order, at the unit's terminals.")),
        _say(20.0, 176.0, say("Phases are never swapped live."), wrong=True),
    ]


def _log() -> list[Shape]:
    return [
        Disc((100.0, 90.0), 56.0, Role.INK, 3.0, Role.PAPER),
        Line(((100.0, 90.0), (100.0, 50.0)), Role.INK, 3.5),
        Line(((100.0, 90.0), (128.0, 104.0)), Role.INK, 3.5),
        *(Disc((100.0 + 48.0 * cos(radians(a)), 90.0 + 48.0 * sin(radians(a))), 2.0, Role.INK, 1.0, Role.INK)
          for a in range(0, 360, 30)),
        _say(180.0, 70.0, say("From the unit's log,")),
        _say(180.0, 88.0, say("or by your watch.")),
        _say(180.0, 106.0, say("Ask who switched what")),
    ]  # fmt: skip


def _look() -> list[Shape]:
    return [
        Line((*arc((110.0, 130.0), 78.0, 225.0, 315.0), *arc((110.0, 20.0), 78.0, 45.0, 135.0)),
             Role.INK, 3.0, closed=True, fill=Role.PAPER),
        Disc((110.0, 75.0), 20.0, Role.INK, 2.5, Role.STRONG_PALE),
        Disc((110.0, 75.0), 8.0, Role.INK, 1.0, Role.INK),
        _say(196.0, 66.0, say("Look twice,")),
        _say(196.0, 84.0, say("from a safe place")),
        _say(20.0, 160.0, say("Nothing opened, nothing touched")),
    ]  # fmt: skip


WAYS: dict[str, tuple[str, Callable[[], list[Shape]]]] = {
    "pipe_thermometer": (say("Temperature of a pipe"), _pipe_thermometer),
    "air_thermometer": (say("Temperature of the air"), _air_thermometer),
    "gauge": (say("Pressure at a tap"), _gauge_way),
    "two_gauges": (say("A pressure drop"), _two_gauges),
    "needle": (say("A needle that swings"), _needle),
    "clamp": (say("Current with a clamp"), _clamp),
    "voltmeter": (say("Voltage"), _voltmeter),
    "ohmmeter": (say("Resistance, dead"), _ohmmeter),
    "insulation": (say("Insulation, dead"), _insulation),
    "contactor": (say("Voltage across a closed pole"), _contactor),
    "refractometer": (say("Glycol by refractometer"), _refractometer),
    "jar": (say("Gravity in a jar"), _jar),
    "flow_meter": (say("Water flow"), _flow_meter),
    "tape": (say("Length or height"), _tape),
    "papers": (say("Off a plate or papers"), _papers),
    "cable": (say("A cable's size"), _cable),
    "paper_strip": (say("Which way a fan blows"), _paper_strip),
    "coasting": (say("Which way a pump turns"), _coasting),
    "sequence": (say("Order of the phases"), _sequence),
    "log": (say("Times and counts"), _log),
    "look": (say("By eye"), _look),
}
"""By way: title, and what draws it."""

"""The electrical side: the supply as far as the unit, and each motor with its three lines."""

from __future__ import annotations

from faultdoc.model.unit import DataSheet
from faultdoc.record.pictures.places import Layout, Placed, card, motor, pipe
from faultdoc.record.pictures.refrigerant_side import MOST_NUMBERED
from faultdoc.record.pictures.shapes import Line, Role, Shape, Words, box
from faultdoc.words import say

__all__ = ["fans_layout", "motor_layout", "supply_layout"]

_PAIRS = (("l1_l2", "L1-L2"), ("l2_l3", "L2-L3"), ("l3_l1", "L3-L1"))
_LINES = (("l1", "L1"), ("l2", "L2"), ("l3", "L3"))


def supply_layout() -> Layout:
    """Return the supply: source, feeder, the unit's terminals and its control circuit."""
    drawn: list[Shape] = [
        box(50.0, 40.0, 200.0, 110.0, role=Role.INK, width=2.5, fill=Role.PAPER),
        Words((125.0, 75.0), say("Source"), 14.0, "middle", bold=True),
        box(560.0, 40.0, 700.0, 110.0, role=Role.INK, width=2.5, fill=Role.PAPER),
        Words((630.0, 75.0), say("Unit's terminals"), 14.0, "middle", bold=True),
        box(880.0, 40.0, 1030.0, 110.0, role=Role.INK, width=2.5, fill=Role.PAPER),
        Words((955.0, 75.0), say("Control circuit"), 14.0, "middle", bold=True),
        Words((380.0, 46.0), say("Feeder"), 13.0, "middle", Role.FAINT, bold=True),
    ]
    for place in range(3):
        y = 62.0 + 13.0 * place
        drawn.append(pipe(((200.0, y), (560.0, y)), Role.ELECTRIC, width=2.5))
        drawn.append(pipe(((700.0, y), (800.0, y)), Role.ELECTRIC, width=2.5, arrow=True))
    drawn += [
        Words((806.0, 75.0), "motors", 12.0, role=Role.FAINT),
        pipe(((740.0, 88.0), (740.0, 124.0), (955.0, 124.0), (955.0, 110.0)), Role.ELECTRIC, width=2.0),
    ]
    cards = [
        card(20.0, 140.0, 225.0, say("Source"), [
            *((f"source_voltage_{pair}", words) for pair, words in _PAIRS),
            ("frequency_no_load", say("Hz, no load")), ("generator_current", say("Rated")),
            ("generator_reactance", say("Reactance")),
        ]),
        card(260.0, 140.0, 215.0, say("Feeder"), [
            ("feeder_length", say("Length")), ("feeder_size", say("Size")), ("feeder_area", say("Area")),
            ("feeder_sets", say("Sets")),
            ("feeder_metal", say("Metal")), ("feeder_temperature", say("Temperature")),
        ]),
        card(490.0, 140.0, 205.0, say("At the terminals"), [
            *((f"voltage_{pair}", words) for pair, words in _PAIRS),
            *((f"voltage_{line}_ground", say("{words}-ground", words=words)) for line, words in _LINES),
            ("frequency", say("Frequency")),
        ]),
        card(710.0, 140.0, 190.0, say("Starting; in all"), [
            ("voltage_at_start", say("V, starting")), ("frequency_at_start", say("Hz, starting")),
            ("unit_current", say("Current")), ("breaker_rating", say("Breaker")),
            ("nameplate_ampacity", say("Ampacity")),
            ("nameplate_protection", say("Protection")),
        ]),
        card(915.0, 140.0, 175.0, say("Control circuit"), [
            ("control_voltage", say("Voltage")), ("control_voltage_no_load", say("No load")),
            ("control_current", say("Current")),
            ("power_indication", say("Lamps")), ("hours_energised_since_power_up", say("On for")),
        ]),
        card(490.0, 404.0, 410.0, say("Order of phases; against a known supply"), [
            ("phase_sequence", say("Sequence")),
            *((f"reference_voltage_{line}", say("{words} to {words}", words=words)) for line, words in _LINES),
        ]),
    ]  # fmt: skip
    points: list[Placed] = []
    for shapes, placed in cards:
        drawn += shapes
        points += placed
    return Layout(
        say("Supply"),
        say(
            "Three lines go from the source through the feeder to the unit's terminals, "
            "and from there to the motors and the control circuit."
        ),
        tuple(drawn),
        tuple(points),
    )


def motor_layout(sheet: DataSheet, number: int | None) -> Layout:
    """Return a motor with contactor, lines and winding: a compressor by its number, or the pump (None)."""
    if number is None:
        name, current, rolled = say("Pump"), "pump_current", "pump_current_rolled"
        drop, winding, insulation = "pump_contactor_drop", "pump_winding_resistance", "pump_insulation_resistance"
        warmth = "pump_winding_temperature"
        more: list[tuple[str, str]] = []
    else:
        name = say("Compressor {number}", number=number)
        current, rolled = f"compressor_current_{number}", f"compressor_current_rolled_{number}"
        drop, winding = f"contactor_drop_{number}", f"winding_resistance_{number}"
        insulation, warmth = f"insulation_resistance_{number}", f"winding_temperature_{number}"
        more = [
            (f"time_since_stop_{number}", say("Stopped for")),
            (f"starts_in_last_hour_{number}", say("Starts, 1 h")),
        ]
    drawn: list[Shape] = [
        Words((30.0, 126.0), say("From the terminals"), 13.0, role=Role.FAINT, bold=True),
        Words((305.0, 108.0), say("Contactor"), 13.0, "middle", Role.FAINT, bold=True),
        box(238.0, 124.0, 372.0, 456.0, role=Role.INK, width=2.0, fill=Role.PAPER),
    ]
    points: list[Placed] = []
    for place, (line, words) in enumerate(_LINES):
        y = 180.0 + 110.0 * place
        drawn += [
            Words((40.0, y - 16.0), words, 16.0, bold=True),
            pipe(((30.0, y), (272.0, y)), Role.ELECTRIC, width=4.0),
            Line(((272.0, y), (328.0, y - 20.0)), Role.INK, 3.0),
            pipe(((332.0, y), (640.0, y), (700.0, 290.0 + 30.0 * (place - 1))), Role.ELECTRIC, width=4.0),
        ]
        points += [
            Placed(f"{drop}_{line}", (256.0, y + 24.0), say("Across"), "right"),
            Placed(f"{current}_{line}", (440.0, y), say("Current"), "above"),
            Placed(f"{rolled}_{line}", (570.0, y), say("Rolled"), "below"),
        ]
    drawn += motor((740.0, 290.0), name, 52.0)
    drawn += [
        pipe(((740.0, 368.0), (740.0, 420.0)), Role.INK, width=2.0),
        *(Line(((740.0 - half, 420.0 + 7.0 * row), (740.0 + half, 420.0 + 7.0 * row)), Role.INK, 2.5)
          for row, half in enumerate((22.0, 14.0, 6.0))),
    ]  # fmt: skip
    points.append(Placed(insulation, (740.0, 396.0), say("To ground"), "right"))
    shapes, placed = card(860.0, 150.0, 225.0, say("Winding, proved dead"), [
        *((f"{winding}_{pair}", words) for pair, words in _PAIRS), (warmth, say("Temperature")),
    ])  # fmt: skip
    drawn += shapes
    points += placed
    if more:
        shapes, placed = card(860.0, 330.0, 225.0, say("Off and on"), more)
        drawn += shapes
        points += placed
    return Layout(
        say("Motor: {lower}", lower=name.lower()),
        say(
            "Three lines go through the contactor to the motor of the {lower}; its "
            "winding lies between them, and its insulation to ground.",
            lower=name.lower(),
        ),
        tuple(drawn),
        tuple(points),
    )


def fans_layout(sheet: DataSheet) -> Layout:
    """Return the currents of the condenser fans, line by line."""
    count = min(sum(one.count for one in sheet.fans), MOST_NUMBERED)
    drawn: list[Shape] = [
        Words((240.0 + 230.0 * place, 40.0), words, 16.0, "middle", bold=True)
        for place, (_, words) in enumerate(_LINES)
    ]
    points: list[Placed] = []
    step = min(76.0, 520.0 / max(count, 1))
    for place in range(count):
        y, number = 76.0 + step * place, place + 1
        drawn.append(pipe(((150.0, y), (900.0, y)), Role.ELECTRIC, width=2.0))
        drawn += motor((960.0, y), "", 22.0)
        drawn.append(Words((1000.0, y), say("Fan {number}", number=number), 13.0))
        points += [
            Placed(f"fan_current_{number}_{line}", (210.0 + 230.0 * column, y), say("Current"), "below")
            for column, (line, _) in enumerate(_LINES)
        ]
    return Layout(
        say("Motors: fans"), say("Each condenser fan's motor with its three lines."), tuple(drawn), tuple(points)
    )

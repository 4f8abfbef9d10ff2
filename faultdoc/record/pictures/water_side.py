"""The water side: loop, pump, strainer, barrel, valves and load."""

from __future__ import annotations

from faultdoc.model.unit import DataSheet
from faultdoc.record.pictures.places import Layout, Placed, card, motor, pipe, valve
from faultdoc.record.pictures.shapes import Line, Role, Shape, Words, box, round_box
from faultdoc.words import say

__all__ = ["water_layout"]

_TOP, _BOTTOM = 180.0, 360.0
"""Heights of return and supply."""


def water_layout(sheet: DataSheet) -> Layout:
    """Return the water side of a unit, with or without a pump and a strainer of its own."""
    own_pump, strainer = sheet.water.pump is not None, sheet.water.strainer is not None
    drawn: list[Shape] = [
        round_box(30.0, 96.0, 560.0, 440.0, 14.0, role=Role.LINE, width=2.0, dash=(9.0, 6.0)),
        Words((48.0, 116.0), say("The unit"), 13.0, role=Role.FAINT, bold=True),
        # Return: from the load's top over the high point, into the unit, through strainer and pump to the barrel.
        pipe(
            (
                (920.0, 230.0), (920.0, 110.0), (790.0, 110.0), (790.0, _TOP), (90.0, _TOP), (90.0, _BOTTOM),
                (160.0, _BOTTOM),
            ),
            Role.HOT, arrow=True,
        ),
        # Supply: from the barrel to the load.
        pipe(((420.0, _BOTTOM), (920.0, _BOTTOM), (920.0, 322.0)), Role.COLD, arrow=True),
        pipe(((735.0, _TOP), (735.0, _BOTTOM)), Role.WATER, width=3.0),
        box(860.0, 230.0, 1010.0, 322.0, role=Role.INK, width=2.0, fill=Role.PAPER),
        Words((935.0, 250.0), say("The load"), 13.0, "middle", Role.FAINT, bold=True),
        round_box(160.0, 322.0, 420.0, 398.0, 30.0, role=Role.INK, width=2.5, fill=Role.PAPER),
        Words((290.0, 338.0), say("Evaporator barrel"), 13.0, "middle", Role.FAINT, bold=True),
        *valve((640.0, _TOP)),
        *valve((600.0, _BOTTOM)),
        *valve((735.0, 270.0), upright=True),
        *_switch(),
    ]  # fmt: skip
    points = [
        Placed("water_in_temperature", (525.0, _TOP), say("Water in"), "below"),
        Placed("standing_pressure", (90.0, 250.0), say("Standing, pump off"), "right"),
        Placed("barrel_in_pressure", (90.0, 312.0), say("Barrel in"), "right"),
        Placed("barrel_pressure_drop", (230.0, 370.0), say("Drop"), "right"),
        Placed("barrel_out_pressure", (452.0, _BOTTOM), say("Barrel out"), "below"),
        Placed("flow_switch_contact", (452.0, 296.0), say("Flow switch"), "above"),
        Placed("water_out_temperature", (525.0, _BOTTOM), say("Water out"), "above"),
        Placed("supply_valve_position", (600.0, 322.0), say("Supply valve"), "above"),
        Placed("return_valve_position", (640.0, 142.0), say("Return valve"), "above"),
        Placed("bypass_valve_position", (697.0, 270.0), say("Bypass"), "above"),
        Placed("water_flow", (668.0, _BOTTOM), say("Flow"), "below"),
        Placed("high_point_height", (855.0, 110.0), say("Highest pipe"), "above"),
        Placed("load_out_temperature", (920.0, 170.0), say("Leaving load"), "right"),
        Placed("load_pressure_drop", (880.0, 286.0), say("Drop"), "right"),
    ]
    if strainer:
        drawn += _strainer()
        points.append(Placed("strainer_pressure_drop", (418.0, 142.0), say("Strainer drop"), "above"))
    if own_pump:
        drawn += motor((250.0, _TOP), "", 28.0, "P")
        points += [
            Placed("pump_in_pressure", (330.0, _TOP), say("Pump in"), "below"),
            Placed("pump_out_pressure", (165.0, _TOP), say("Pump out"), "above"),
            Placed("pump_rotation", (250.0, 132.0), say("Turning"), "above"),
        ]
    lines = [("barrel_drop_low", say("Lowest")), ("barrel_drop_high", say("Highest"))]
    cards = [card(30.0, 460.0, 250.0, say("Needle of the drop, swinging"), lines)]
    if own_pump:
        shut = [("dead_head_in_pressure", say("Pump in")), ("dead_head_out_pressure", say("Pump out"))]
        cards.append(card(295.0, 460.0, 215.0, say("Discharge valve shut"), shut))
    cards += [
        card(525.0, 430.0, 190.0, say("Sample of water"), [
            ("glycol_fraction", say("Glycol")), ("specific_gravity", say("Spec. gravity")),
            ("sample_temperature", say("Temperature")),
        ]),
        card(730.0, 400.0, 175.0, say("Cooling down"), [
            ("start_water_temperature", say("From")), ("cooling_time", say("For")),
            ("cooling_load", say("Heat in")),
            ("lowest_air_temperature", say("Coldest")),
        ]),
        card(920.0, 400.0, 170.0, say("The loop"), [
            ("hose_length", say("Hose")), ("hose_bore", say("Bore")), ("added_volume", say("Tanks")),
        ]),
    ]  # fmt: skip
    for shapes, placed in cards:
        drawn += shapes
        points += placed
    return Layout(
        say("Water side"),
        say(
            "Warm water comes from the load over the highest pipe through return valve, "
            "strainer and pump into the barrel, and goes back cold through the supply "
            "valve; a bypass joins supply and return."
        ),
        tuple(drawn),
        tuple(points),
    )


def _strainer() -> list[Shape]:
    x, y = 418.0, _TOP
    return [
        box(x - 20.0, y - 14.0, x + 20.0, y + 14.0, role=Role.INK, width=2.0, fill=Role.PAPER),
        Line(((x - 20.0, y + 14.0), (x + 20.0, y - 14.0)), Role.INK, 2.0, (3.0, 3.0)),
        Words((x, y + 26.0), say("Strainer"), 12.0, "middle", Role.FAINT),
    ]


def _switch() -> list[Shape]:
    return [Line(((452.0, 350.0), (452.0, 306.0)), Role.INK, 2.0)]

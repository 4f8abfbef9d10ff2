"""One refrigerant circuit: compressors, condenser and fans, liquid line, expansion valve, barrel."""

from __future__ import annotations

from faultdoc.checks.refrigerant import fan_numbers
from faultdoc.model.unit import DataSheet
from faultdoc.record.pictures.places import Layout, Placed, card, coil, fan, motor, pipe, valve
from faultdoc.record.pictures.shapes import Disc, Role, Shape, Words, box, round_box
from faultdoc.words import say

__all__ = ["MOST_NUMBERED", "circuit_layout"]

MOST_NUMBERED = 8
"""The vocabulary numbers compressors and fans up to this."""


def circuit_layout(sheet: DataSheet, circuit: str) -> Layout:
    """Return one circuit of a unit."""
    c = circuit
    compressors = [n for n, one in enumerate(sheet.compressors, 1) if one.circuit == c and n <= MOST_NUMBERED]
    step = min(140.0, 290.0 / max(len(compressors), 1))
    first = 110.0
    last = first + step * (len(compressors) - 1)
    hot, cold, liquid = Role.HOT, Role.COLD, Role.WATER
    drawn: list[Shape] = [
        pipe(((first, 300.0), (first, 176.0), (380.0, 176.0)), hot, arrow=True),
        pipe(((first, 238.0), (last + 0.1, 238.0), (last + 0.1, 300.0)), hot),
        pipe(((820.0, 176.0), (940.0, 176.0), (940.0, 480.0), (770.0, 480.0)), liquid, arrow=True),
        pipe(((430.0, 480.0), (first, 480.0), (first, 330.0)), cold, arrow=True),
        pipe(((first, 420.0), (last + 0.1, 420.0), (last + 0.1, 330.0)), cold),
        *coil(380.0, 130.0, 820.0, 222.0, 16, hot),
        Words((600.0, 236.0), say("Condenser"), 13.0, "middle", Role.FAINT, bold=True),
        round_box(430.0, 446.0, 770.0, 514.0, 28.0, role=Role.INK, width=2.5, fill=Role.PAPER),
        Words((600.0, 480.0), say("Evaporator barrel"), 13.0, "middle", Role.FAINT, bold=True),
        box(928.0, 206.0, 952.0, 250.0, role=Role.INK, width=2.0, fill=Role.PAPER),
        Words((920.0, 228.0), say("Drier"), 12.0, "end", Role.FAINT),
        Disc((940.0, 320.0), 13.0, Role.INK, 2.0, Role.PAPER),
        *valve((940.0, 430.0), upright=True),
        Words((920.0, 430.0), say("Expansion valve"), 12.0, "end", Role.FAINT),
    ]
    points = [
        Placed(f"discharge_pressure_{c}", (first, 206.0), say("Discharge"), "right"),
        Placed(f"discharge_line_temperature_{c}", (310.0, 176.0), say("Discharge line"), "above"),
        Placed(f"liquid_pressure_{c}", (940.0, 276.0), say("Liquid"), "right"),
        Placed(f"sight_glass_{c}", (940.0, 320.0), say("Sight glass"), "right"),
        Placed(f"liquid_line_temperature_{c}", (940.0, 372.0), say("Liquid line"), "right"),
        Placed(f"suction_line_temperature_{c}", (320.0, 480.0), say("Suction line"), "below"),
        Placed(f"suction_pressure_{c}", (180.0, 480.0), say("Suction"), "below"),
        Placed(f"condenser_inlet_air_temperature_{c}", (520.0, 278.0), say("Air in"), "right"),
        Placed(f"condenser_outlet_air_temperature_{c}", (880.0, 66.0), say("Air out"), "right"),
    ]
    drawn += [
        pipe(((500.0, 300.0), (500.0, 228.0)), Role.FAINT, arrow=True, width=2.0),
        pipe(((860.0, 90.0), (860.0, 40.0)), Role.FAINT, arrow=True, width=2.0),
    ]
    for place, number in enumerate(compressors):
        x = first + step * place
        drawn += motor((x, 315.0), say("Compressor {number}", number=number), 26.0, "C")
        points.append(Placed(f"oil_temperature_{number}", (x, 378.0), say("Oil"), "right"))
    fans = fan_numbers(sheet, c)
    pitch = 440.0 / max(len(fans), 1)
    for place, number in enumerate(fans):
        at = (380.0 + pitch * (place + 0.5), 92.0)
        drawn += fan(at, min(30.0, 0.42 * pitch))
        if number <= MOST_NUMBERED:
            points.append(
                Placed(
                    f"fan_rotation_{number}",
                    (at[0], 48.0),
                    say("Fan {number}", number=number),
                    "above",
                    brief=True,
                )
            )
    shapes, placed = card(640.0, 252.0, 190.0, say("Counted"), [
        (f"fans_stopped_{c}", say("Fans standing")), (f"compressors_running_{c}", say("Compr. running")),
    ])  # fmt: skip
    more, others = card(30.0, 12.0, 230.0, say("Around"), [
        ("ambient_air_temperature", say("Outdoor air")), ("site_elevation", say("Height")),
        (f"resting_pressure_{c}", say("At rest")),
    ])  # fmt: skip
    return Layout(
        say("Circuit {upper}", upper=c.upper()),
        say(
            "Gas goes from the compressors to the condenser, where fans draw air "
            "through; liquid goes through drier, sight glass and expansion valve into "
            "the barrel, and gas back to the compressors."
        ),
        (*drawn, *shapes, *more),
        (*points, *placed, *others),
    )

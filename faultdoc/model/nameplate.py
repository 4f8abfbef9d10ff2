"""What a nameplate carries, field by field, and what may be said of a unit of which there is no more."""

from __future__ import annotations

from dataclasses import dataclass

from faultdoc.model.points import Choice
from faultdoc.quantities import Kind

__all__ = ["NAMEPLATE_FIELDS", "NEEDED_ONE_OF", "Assumption", "NameplateField"]


@dataclass(frozen=True)
class NameplateField:
    """One thing to be read off a nameplate, or seen beside it.

    Attributes:
        id: its name in the answers.
        title: what to call it.
        help: where it stands and what to mind.
        kind: of quantity; `Kind.CHOICE` with `choices`; `Kind.NUMBER` for a count; None for words.
        needed: whether no sheet can be made without it; see also `NEEDED_ONE_OF`.
        many: whether one value for each compressor may be given, parted by semicolons, or as `4 x 15.8 A`.
        choices: what may be chosen; for words, suggestions.
    """

    id: str
    title: str
    help: str
    kind: Kind | None
    needed: bool = False
    many: bool = False
    choices: tuple[Choice, ...] = ()


def _choices(**titles: str) -> tuple[Choice, ...]:
    return tuple(Choice(id=id, title=title) for id, title in titles.items())


NAMEPLATE_FIELDS: tuple[NameplateField, ...] = (
    NameplateField(
        "title", "Name of the unit", "What people on site call it, with its number.", None, needed=True
    ),
    NameplateField(
        "refrigerant",
        "Refrigerant",
        "As written, such as R-410A. If the plate names two, take the one marked as charged.",
        None,
        needed=True,
    ),
    NameplateField(
        "charge", "Charge of one circuit", "By weight. If the plate gives all circuits, divide.", Kind.MASS
    ),
    NameplateField(
        "voltage",
        "Voltage",
        "Between lines, three phases. Not the range: the nominal one.",
        Kind.VOLTAGE,
        needed=True,
    ),
    NameplateField("frequency", "Frequency", "50 Hz or 60 Hz.", Kind.FREQUENCY),
    NameplateField(
        "control_voltage",
        "Control voltage",
        "Of the control circuit, often on the panel's own plate.",
        Kind.VOLTAGE,
    ),
    NameplateField(
        "minimum_circuit_ampacity", "Minimum circuit ampacity (MCA)", "Of the supply conductors.", Kind.CURRENT
    ),
    NameplateField(
        "maximum_protection", "Maximum overcurrent protection (MOP)", "Largest fuse or breaker.", Kind.CURRENT
    ),
    NameplateField(
        "compressor_count",
        "Number of compressors",
        "Count the lines on the plate, or the compressors.",
        Kind.NUMBER,
    ),
    NameplateField(
        "circuit_count", "Number of refrigerant circuits", "Each has its own gauges and charge.", Kind.NUMBER
    ),
    NameplateField(
        "compressor_type",
        "Kind of compressor",
        "Scrolls are upright cans; screws lie, as long as a person; reciprocating ones have heads with bolts.",
        Kind.CHOICE,
        choices=_choices(
            scroll="Scroll",
            reciprocating="Reciprocating",
            screw="Screw",
            rotary="Rotary",
        ),
    ),
    NameplateField(
        "compressor_rated_current",
        "Rated-load current of each compressor (RLA)",
        "One value if all are alike, else one for each, parted by semicolons; 4 x 15.8 A is understood.",
        Kind.CURRENT,
        many=True,
    ),
    NameplateField(
        "compressor_locked_rotor_current",
        "Locked-rotor current of each compressor (LRA)",
        "As for the rated current.",
        Kind.CURRENT,
        many=True,
    ),
    NameplateField("fan_count", "Number of condenser fans", "Count them on the unit.", Kind.NUMBER),
    NameplateField("fan_current", "Rated current of one fan (FLA)", "Of one, not of all together.", Kind.CURRENT),
    NameplateField(
        "pump_power",
        "Power of the unit's own pump",
        "Of the motor, on its plate. Leave pump power and current empty if the unit has no pump.",
        Kind.SHAFT_POWER,
    ),
    NameplateField(
        "pump_current", "Rated current of the pump (FLA)", "On the motor's plate, at this voltage.", Kind.CURRENT
    ),
    NameplateField("capacity", "Cooling capacity", "In tons or kW of cooling, not of electricity.", Kind.POWER),
    NameplateField("design_flow", "Design water flow", "At the rated capacity.", Kind.VOLUME_FLOW),
    NameplateField("minimum_flow", "Minimum water flow", "Below it the unit must not run.", Kind.VOLUME_FLOW),
    NameplateField("design_leaving", "Leaving water at the rating", "Often 44 °F or 7 °C.", Kind.TEMPERATURE),
    NameplateField(
        "water_pressure_limit",
        "Greatest working pressure, water side",
        "Or the relief valve's setting.",
        Kind.GAUGE_PRESSURE,
    ),
    NameplateField(
        "connection_bore", "Bore of the water connections", "The inside, not the coupling's outside.", Kind.BORE
    ),
    NameplateField(
        "flow_switch",
        "Kind of flow switch",
        "Two small tubes to both ends of the barrel: by difference. A stem in the pipe: a paddle.",
        Kind.CHOICE,
        choices=_choices(
            differential="By difference of pressure", paddle="Paddle in the pipe", unknown="Cannot be seen"
        ),
    ),
    NameplateField(
        "glycol",
        "Antifreeze usually in the water",
        "Ask the site, or read the tag at the fill valve.",
        Kind.CHOICE,
        choices=_choices(none="None", propylene="Propylene glycol", ethylene="Ethylene glycol"),
    ),
    NameplateField(
        "glycol_fraction", "Its usual fraction, by mass", "From the tag or a refractometer.", Kind.MASS_FRACTION
    ),
)
"""In the order of the form."""

NEEDED_ONE_OF: tuple[tuple[str, str], ...] = (("capacity", "compressor_rated_current"),)
"""Pairs of which one must be given; the other is reckoned from it."""


@dataclass(frozen=True)
class Assumption:
    """What the nameplate does not carry, and was assumed for one reason.

    Attributes:
        paths: of the values in the data sheet, such as `water.barrel`; all in the sheet's own `assumed`.
        value: what was assumed, in words.
        why: and whence; with how far off it may be.
    """

    paths: tuple[str, ...]
    value: str
    why: str

"""A nameplate being typed: its fields in groups, what each was understood as, and its values in words. Pure."""

from __future__ import annotations

import re
from dataclasses import dataclass

from faultdoc.checks.nameplate import understood, unit_id
from faultdoc.model.nameplate import NAMEPLATE_FIELDS, NEEDED_ONE_OF, NameplateField
from faultdoc.physics.refrigerant import canonical
from faultdoc.quantities import Kind, QuantityError, System, display_unit, parse, show
from faultdoc.record.typed import in_both, with_unit
from faultdoc.words import say

__all__ = [
    "FIELDS",
    "GROUPS",
    "NOT_KNOWN",
    "Group",
    "Said",
    "needed_words",
    "place_words",
    "said",
    "with_its_unit",
]

FIELDS: dict[str, NameplateField] = {one.id: one for one in NAMEPLATE_FIELDS}
"""The fields by id, in the order of the form."""

NOT_KNOWN = say("Not known")
"""What a choice says that was not made."""


@dataclass(frozen=True)
class Group:
    """Fields that stand together on a plate, or are seen in one place."""

    title: str
    help: str
    fields: tuple[str, ...]


GROUPS: tuple[Group, ...] = (
    Group(
        say("Name and refrigerant"),
        say("From the unit's own nameplate, on the frame or the panel door."),
        ("title", "refrigerant", "charge", "capacity"),
    ),
    Group(
        say("Supply"),
        say("From the same plate."),
        ("voltage", "frequency", "control_voltage", "minimum_circuit_ampacity", "maximum_protection"),
    ),
    Group(
        say("Compressors"),
        say("From the same plate; count them on the unit if it does not say."),
        (
            "compressor_count",
            "circuit_count",
            "compressor_type",
            "compressor_rated_current",
            "compressor_locked_rotor_current",
        ),
    ),
    Group(
        say("Fans and pump"),
        say("Motors often have plates of their own. Read them from where you may stand; open no guard for it."),
        ("fan_count", "fan_current", "pump_power", "pump_current"),
    ),
    Group(
        say("Water"),
        say("From the plate, the papers or the site. Leave out what nobody knows."),
        (
            "design_flow",
            "minimum_flow",
            "design_leaving",
            "water_pressure_limit",
            "connection_bore",
            "flow_switch",
            "glycol",
            "glycol_fraction",
        ),
    ),
)
"""Every field, in the groups of the form."""


@dataclass(frozen=True)
class Said:
    """What was typed in a field: as it was understood, or why it was not; both None when it is blank."""

    echo: str | None = None
    problem: str | None = None


def said(field: NameplateField, text: str, system: System) -> Said:
    """Return how a field's text is understood.

    >>> said(FIELDS["voltage"], "460", System.US).echo
    'understood as 460 V'
    >>> said(FIELDS["compressor_rated_current"], "2 x 62 A; 40", System.SI).echo
    'understood as 3: 62.0 A, 62.0 A, 40.0 A'
    """
    text = text.strip()
    if not text:
        return Said()
    try:
        value = understood(field, text, system)
    except ValueError as wrong:
        return Said(problem=str(wrong))
    return Said(_echo(field, text, value, system))


def _echo(field: NameplateField, text: str, value: object, system: System) -> str | None:
    if field.id == "title":
        return say("kept as {unit_id}", unit_id=unit_id(text))
    if field.id == "refrigerant":
        try:
            return say("understood as {canonical}", canonical=canonical(text))
        except ValueError:
            return say("not one that FaultDoc knows; kept as typed")
    if field.kind is None or field.kind is Kind.CHOICE:
        return None
    if isinstance(value, tuple):
        each = [show(one, field.kind, system) for one in value]
        return (
            say("understood as {len}: {join}", len=len(each), join=", ".join(each))
            if len(each) > 1
            else say("understood as {each}", each=each[0])
        )
    if field.kind is Kind.NUMBER:
        return say("understood as {value}", value=value)
    return say("understood as {in_both}", in_both=in_both(parse(text, field.kind, system), system))


def with_its_unit(field: NameplateField, text: str, system: System) -> str:
    """Return a field's text with the unit that a bare number in it means, so that it can be read in any system.

    >>> with_its_unit(FIELDS["design_flow"], "72", System.US)
    '72 gpm'
    """
    if field.kind in (None, Kind.CHOICE, Kind.NUMBER) or field.many or not text.strip():
        return text
    try:
        bare = parse(text, field.kind, system).assumed
    except QuantityError:
        return text
    return with_unit(text, display_unit(field.kind, system)) if bare else text


def needed_words(field: NameplateField) -> str:
    """Return what to say of a field that is needed; '' for one that may be left out.

    >>> needed_words(FIELDS["capacity"])
    "needed, unless 'Rated-load current of each compressor (RLA)' is given"
    """
    if field.needed:
        return "needed"
    for pair in NEEDED_ONE_OF:
        if field.id in pair:
            other = FIELDS[next(id for id in pair if id != field.id)].title
            return say("needed, unless '{other}' is given", other=other)
    return ""


_PLACES = {
    "anti_recycle": say("Wait from a stop to the next start"),
    "compressors": say("Number of compressors"),
    "cooling_capacity": say("Cooling capacity"),
    "features": say("What the unit has"),
    "oil_warm_up": say("Oil warm-up"),
    "rating_ambient": say("Air at the rating"),
    "electrical.voltage_tolerance": say("Tolerance of the voltage"),
    "compressors.circuit": say("Refrigerant circuits"),
    "compressors.rated_current": say("Rated current of the compressors"),
    "compressors.type": say("Kind of compressor"),
    "water.barrel": say("Drop across the barrel"),
    "water.connection_bore": say("Bore of the water connections"),
    "water.design_entering": say("Entering water at the rating"),
    "water.design_flow": say("Design water flow"),
    "water.design_leaving": say("Leaving water at the rating"),
    "water.flow_proving": say("Flow proving"),
    "water.gauge_top": say("Full scale of the water gauges"),
    "water.lowest_leaving_without_antifreeze": say("Lowest leaving water without antifreeze"),
    "water.minimum_flow": say("Minimum water flow"),
    "water.pump.points": say("Pump curve"),
    "water.pump.rated_current": say("Rated current of the pump"),
    "water.pump.rated_power": say("Rated power of the pump"),
    "water.relief_pressure": say("Relief valve, water side"),
    "water.usual_glycol": say("Antifreeze"),
    "water.volume": say("Water in unit and pipes"),
}


def place_words(paths: tuple[str, ...]) -> str:
    """Return what the paths of a data sheet that belong to one assumption are called.

    >>> place_words(("compressors.0.rated_current", "compressors.1.rated_current"))
    'Rated current of the compressors'
    >>> place_words(("electrical.control_voltage",))
    'Control voltage'
    """
    plain = tuple(dict.fromkeys(re.sub(r"\.\d+(?=\.|$)", "", path) for path in paths))
    words = [_PLACES.get(path) or path.rpartition(".")[2].replace("_", " ").capitalize() for path in plain]
    return ", ".join(words)

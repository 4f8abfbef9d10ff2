"""Plain words for plant states, people, outcomes, cautions and chances: the same on every page and in print."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from faultdoc.model.safety import (
    STATE_FIELDS,
    Caution,
    Compressors,
    Oil,
    PlantState,
    Pump,
    Qualification,
    Refrigerant,
    Signal,
    StateNeed,
    Supply,
    Water,
)
from faultdoc.quantities import Kind, System, show
from faultdoc.words import say

__all__ = [
    "NON_ANSWER_WORDS",
    "OUTCOMES",
    "PEOPLE",
    "PLANT",
    "PLANT_ALOUD",
    "SIGNAL_WORDS",
    "FieldWords",
    "chance",
    "counted",
    "matches",
    "minutes",
    "need_in_words",
    "state_in_words",
    "why_impossible",
    "worst_first",
]


SIGNAL_WORDS: dict[Signal, str] = {
    Signal.DANGER: say("DANGER"),
    Signal.WARNING: say("WARNING"),
    Signal.CAUTION: say("CAUTION"),
    Signal.NOTICE: say("NOTICE"),
}
"""The signal words as they stand over a caution; in Spanish as ANSI Z535 labels usually have them."""


@dataclass(frozen=True)
class FieldWords:
    """How one field of the plant's state is called, and its values."""

    title: str
    values: Mapping[str, str]


PLANT: dict[str, FieldWords] = {
    "supply": FieldWords(
        say("Electrical supply"), {"energised": say("On (energised)"), "isolated": say("Locked out, proved dead")}
    ),
    "panel": FieldWords(say("Electrical panels"), {"closed": say("Shut"), "open": say("Open")}),
    "pump": FieldWords(say("Chilled-water pump"), {"stopped": say("Stopped"), "running": say("Running")}),
    "water": FieldWords(
        say("Chilled-water side"),
        {"pressurised": say("Filled, under pressure"), "depressurised": say("Shut off, let down to zero")},
    ),
    "compressors": FieldWords(say("Compressors"), {"stopped": say("Stopped"), "running": say("Running")}),
    "oil": FieldWords(
        say("Compressor oil"), {"cold": say("Cold, or not known"), "warm": say("Warm (heaters on long enough)")}
    ),
    "refrigerant": FieldWords(
        say("Refrigerant circuit"), {"closed": say("Closed"), "opened": say("Opened for work")}
    ),
}

PLANT_ALOUD: dict[str, str] = {
    "supply": say("Is anything lit on the unit, a lamp or its display?"),
    "panel": say("Are all doors and covers of the unit shut?"),
    "pump": say("Does its water pump run just now?"),
    "water": say("Are the water hoses or pipes on, or has anybody taken one off or shut them?"),
    "compressors": say("Does the unit itself run just now, or does it stand?"),
    "oil": say("Has it had power since yesterday, without a break?"),
    "refrigerant": say("Does anybody have its refrigerant pipes open for work?"),
}
"""What to ask a caller about each field of the plant's state."""

PEOPLE: dict[Qualification, tuple[str, str]] = {
    Qualification.CALLER: (
        say("Anyone, a caller on the phone included"),
        say("Looks, listens and switches the unit on or off at its own control; opens and touches nothing else."),
    ),
    Qualification.CREW: (
        say("Site crew"),
        say("Sets units up: valves, hoses, vents and fixed gauges. Opens no electrical panel."),
    ),
    Qualification.TECHNICIAN: (
        say("Service technician"),
        say("Mechanical service with own gauges and meters; electrical panels only when proved dead."),
    ),
    Qualification.ELECTRICAL_WORKER: (
        say("Qualified electrical worker"),
        say("A technician who may isolate the supply and measure at or near live parts."),
    ),
    Qualification.REFRIGERANT_HANDLER: (
        say("Licensed refrigerant handler"),
        say("A technician with the licence to open the refrigerant circuit."),
    ),
}

OUTCOMES: dict[Literal["fixed", "handed_over", "made_safe", "not_found"], tuple[str, str]] = {
    "fixed": (say("Fixed"), say("The cause was put right and the proof held.")),
    "handed_over": (say("Handed over"), say("Someone else goes on, with this record.")),
    "made_safe": (say("Made safe"), say("The unit stays off and cannot hurt anyone; work goes on later.")),
    "not_found": (say("Not found"), say("The unit runs or is out of use, and the cause was not found.")),
}

NON_ANSWER_WORDS = {"could_not_measure": say("Could not be measured"), "not_sure": say("Not sure")}


def why_impossible(state: PlantState) -> str | None:
    """Return in words why no plant can be in this state, or None when it can.

    Agrees with `faultdoc.model.safety.possible`, which decides.
    """
    if state.supply is Supply.ISOLATED and state.pump is Pump.RUNNING:
        return say("The pump cannot run with the supply locked out. Set the pump to stopped, or the supply to on.")
    if state.supply is Supply.ISOLATED and state.compressors is Compressors.RUNNING:
        return say("Compressors cannot run with the supply locked out. Set them to stopped, or the supply to on.")
    if state.pump is Pump.RUNNING and state.water is Water.DEPRESSURISED:
        return say(
            "The pump must not run on an empty water side. Set the pump to stopped, or the water side to filled."
        )
    if state.compressors is Compressors.RUNNING:
        if state.pump is Pump.STOPPED:
            return say(
                "Compressors cannot run without the pump. Set the pump to running, or the compressors to stopped."
            )
        if state.oil is Oil.COLD:
            return say("Compressors that run have warm oil. Set the oil to warm, or the compressors to stopped.")
        if state.refrigerant is Refrigerant.OPENED:
            return say("Compressors cannot run with the refrigerant circuit open. Set them to stopped.")
    return None


def need_in_words(need: StateNeed) -> tuple[str, ...]:
    """Return what a step needs of the plant, such as 'electrical panels: open'.

    >>> need_in_words(StateNeed(pump=Pump.RUNNING))
    ('Chilled-water pump: running',)
    """
    return tuple(
        f"{PLANT[field].title}: {PLANT[field].values[value].lower()}"
        for field in STATE_FIELDS
        if (value := getattr(need, field)) is not None
    )


def state_in_words(state: PlantState) -> tuple[tuple[str, str], ...]:
    """Return (field's title, value) for every field."""
    return tuple((PLANT[field].title, PLANT[field].values[getattr(state, field)]) for field in STATE_FIELDS)


def matches(wanted: str, *texts: str) -> bool:
    """Return whether every word wanted stands somewhere in the texts, whatever its case.

    >>> matches("pump BLOCK", "The pump", "is blocked"), matches("fan", "The pump")
    (True, False)
    """
    everything = " ".join(texts).casefold()
    return all(word in everything for word in wanted.casefold().split())


def minutes(amount: float) -> str:
    """Return minutes as a person reads them.

    >>> minutes(1.0), minutes(480.0), minutes(0.5)
    ('1 min', '8 h', '30 s')
    """
    if 1.0 <= amount < 1.5:
        return say("1 min")
    return show(amount * 60.0, Kind.TIME, System.US)


def chance(probability: float) -> str:
    """Return a probability in whole per cent; the ends are never called certain.

    >>> chance(0.614), chance(0.9991), chance(0.0004)
    ('61 %', 'over 99 %', 'under 1 %')
    """
    if probability > 0.99:
        return say("over 99 %")
    if probability < 0.01:
        return say("under 1 %")
    return f"{100.0 * probability:.0f} %"


def counted(count: int, thing: str, things: str | None = None) -> str:
    """Return a number of things.

    >>> counted(1, "note"), counted(2, "note"), counted(0, "person", "people")
    ('1 note', '2 notes', '0 people')
    """
    return f"{count} {say(thing if count == 1 else things or thing + 's')}"


def worst_first(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """Return cautions by signal word, danger first, each once."""
    order = list(Signal)
    return tuple(sorted(dict.fromkeys(cautions), key=lambda caution: order.index(caution.signal)))

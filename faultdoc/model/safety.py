"""Plant state, the changes that lead from one state to another, who may do what, and cautions.

The words are the trade's. The signal words are those of ANSI Z535.6: DANGER, a hazard that will
kill or gravely hurt if not avoided; WARNING, one that could; CAUTION, one that could hurt
lightly or moderately; NOTICE, one to things rather than people.
"""

from __future__ import annotations

from enum import StrEnum
from itertools import product
from typing import Annotated

from pydantic import Field

from faultdoc.model.base import Id, Minutes, Model, Text

__all__ = [
    "STATE_FIELDS",
    "TRIPPED",
    "Caution",
    "Compressors",
    "Instrument",
    "Oil",
    "Panel",
    "PlantFile",
    "PlantState",
    "Pump",
    "Qualification",
    "Refrigerant",
    "Signal",
    "StateChange",
    "StateNeed",
    "Supply",
    "Walk",
    "Water",
    "after",
    "all_states",
    "hazardous",
    "may",
    "satisfies",
]


class Signal(StrEnum):
    """Signal words of ANSI Z535.6, worst first."""

    DANGER = "danger"
    WARNING = "warning"
    CAUTION = "caution"
    NOTICE = "notice"


class Caution(Model):
    """A signal word, what can happen, and how to avoid it."""

    signal: Annotated[Signal, Field(strict=False)]
    text: Text


class Qualification(StrEnum):
    """Who a person is, as far as what they may do goes. Local law and the site decide; these are kinds.

    caller: on the phone, no tools, opens nothing, touches only the unit's own on/off control.
    crew: site crew who set units up: valves, hoses, vents, fixed gauges; no panel.
    technician: mechanical service: own gauges and meters on the water side, panel only when proved dead.
    electrical_worker: a technician qualified for work at or near live parts.
    refrigerant_handler: a technician licensed to open the refrigerant circuit.
    """

    CALLER = "caller"
    CREW = "crew"
    TECHNICIAN = "technician"
    ELECTRICAL_WORKER = "electrical_worker"
    REFRIGERANT_HANDLER = "refrigerant_handler"


_COVERS: dict[Qualification, frozenset[Qualification]] = {
    Qualification.CALLER: frozenset({Qualification.CALLER}),
    Qualification.CREW: frozenset({Qualification.CALLER, Qualification.CREW}),
    Qualification.TECHNICIAN: frozenset(
        {Qualification.CALLER, Qualification.CREW, Qualification.TECHNICIAN},
    ),
    Qualification.ELECTRICAL_WORKER: frozenset(set(Qualification) - {Qualification.REFRIGERANT_HANDLER}),
    Qualification.REFRIGERANT_HANDLER: frozenset(set(Qualification) - {Qualification.ELECTRICAL_WORKER}),
}


def may(who: frozenset[Qualification], needed: Qualification) -> bool:
    """Return whether people with the qualifications `who` may do what needs `needed`.

    >>> may(frozenset({Qualification.ELECTRICAL_WORKER}), Qualification.CREW)
    True
    >>> may(frozenset({Qualification.ELECTRICAL_WORKER}), Qualification.REFRIGERANT_HANDLER)
    False
    """
    return any(needed in _COVERS[held] for held in who)


class Supply(StrEnum):
    """The unit's supply. Isolated means locked out, tagged and proved dead."""

    ENERGISED = "energised"
    ISOLATED = "isolated"


class Panel(StrEnum):
    """Any electrical enclosure of the unit."""

    CLOSED = "closed"
    OPEN = "open"


class Pump(StrEnum):
    """The chilled-water pump."""

    STOPPED = "stopped"
    RUNNING = "running"


class Water(StrEnum):
    """The chilled-water side. Depressurised means shut off from supply and let down to zero gauge."""

    PRESSURISED = "pressurised"
    DEPRESSURISED = "depressurised"


class Compressors(StrEnum):
    """The compressors."""

    STOPPED = "stopped"
    RUNNING = "running"


class Oil(StrEnum):
    """The sump oil. Warm means the crankcase heaters have been on long enough to start."""

    COLD = "cold"
    WARM = "warm"


class Refrigerant(StrEnum):
    """The refrigerant circuit. Opened means work on it has begun and it may not be run."""

    CLOSED = "closed"
    OPENED = "opened"


class PlantState(Model):
    """The whole plant at one moment; see `possible` for the combinations that can exist."""

    supply: Annotated[Supply, Field(strict=False)]
    panel: Annotated[Panel, Field(strict=False)]
    pump: Annotated[Pump, Field(strict=False)]
    water: Annotated[Water, Field(strict=False)]
    compressors: Annotated[Compressors, Field(strict=False)]
    oil: Annotated[Oil, Field(strict=False)]
    refrigerant: Annotated[Refrigerant, Field(strict=False)] = Refrigerant.CLOSED


TRIPPED = PlantState.model_validate(
    {
        "supply": "energised",
        "panel": "closed",
        "pump": "stopped",
        "water": "pressurised",
        "compressors": "stopped",
        "oil": "warm",
    }
)
"""How a unit that has tripped is most often found; only where a question starts, or an invented case."""


class StateNeed(Model):
    """What a step needs of the plant; what is left out does not matter to it."""

    supply: Annotated[Supply | None, Field(strict=False)] = None
    panel: Annotated[Panel | None, Field(strict=False)] = None
    pump: Annotated[Pump | None, Field(strict=False)] = None
    water: Annotated[Water | None, Field(strict=False)] = None
    compressors: Annotated[Compressors | None, Field(strict=False)] = None
    oil: Annotated[Oil | None, Field(strict=False)] = None
    refrigerant: Annotated[Refrigerant | None, Field(strict=False)] = None


STATE_FIELDS: dict[str, type[StrEnum]] = {
    "supply": Supply,
    "panel": Panel,
    "pump": Pump,
    "water": Water,
    "compressors": Compressors,
    "oil": Oil,
    "refrigerant": Refrigerant,
}


def satisfies(state: PlantState, need: StateNeed) -> bool:
    """Return whether the plant in `state` is as `need` asks."""
    return all(
        wanted is None or getattr(state, field) == wanted
        for field, wanted in ((field, getattr(need, field)) for field in STATE_FIELDS)
    )


def after(state: PlantState, change: StateChange) -> PlantState:
    """Return the state of the plant once `change` has been carried out in `state`."""
    return state.model_copy(update=change.sets.model_dump(exclude_none=True))


def possible(state: PlantState) -> bool:
    """Return whether a plant can be in `state`: machines turn only when energised, and so on."""
    if state.supply is Supply.ISOLATED and (
        state.pump is Pump.RUNNING or state.compressors is Compressors.RUNNING
    ):
        return False
    if state.pump is Pump.RUNNING and state.water is Water.DEPRESSURISED:
        return False
    if state.compressors is Compressors.RUNNING and (
        state.pump is Pump.STOPPED or state.oil is Oil.COLD or state.refrigerant is Refrigerant.OPENED
    ):
        return False
    return True


def all_states() -> tuple[PlantState, ...]:
    """Return every possible plant state, in a fixed order."""
    states = (
        PlantState.model_validate(dict(zip(STATE_FIELDS, values, strict=True)))
        for values in product(*STATE_FIELDS.values())
    )
    return tuple(state for state in states if possible(state))


def hazardous(need: StateNeed) -> bool:
    """Return whether working in a state that meets `need` can hurt someone badly.

    An open panel (live parts, or the duty to prove them dead), running compressors (turning
    parts, hot lines), a water side to be let down and an open refrigerant circuit (stored
    pressure) all can; so can work that requires isolation, because skipping the isolation kills.
    """
    return (
        need.panel is Panel.OPEN
        or need.supply is Supply.ISOLATED
        or need.water is Water.DEPRESSURISED
        or need.refrigerant is Refrigerant.OPENED
        or need.compressors is Compressors.RUNNING
    )


class StateChange(Model):
    """One way to change the plant: an edge of the plant-state graph.

    `when` is what must hold before, `sets` what holds after. `minutes` may instead be
    `oil_warm_up`, which takes the data sheet's warm-up time.
    """

    id: Id
    title: Text
    when: StateNeed
    sets: StateNeed
    minutes: Minutes | Annotated[str, Field(pattern="^oil_warm_up$")]
    who: Annotated[Qualification, Field(strict=False)]
    steps: tuple[Text, ...] = Field(strict=False, min_length=1)
    cautions: tuple[Caution, ...] = Field(default=(), strict=False)
    resets: Text | None = None


class Walk(Model):
    """Minutes on foot between two places on the unit."""

    between: tuple[Id, Id] = Field(strict=False)
    minutes: Minutes


class Instrument(Model):
    """Something that must be fetched before it can be used, once a case."""

    id: Id
    title: Text
    minutes: Minutes


class PlantFile(Model):
    """resources/plant.yaml: the state changes, what to stop for at once, and the state ready for service."""

    ready: StateNeed
    changes: tuple[StateChange, ...] = Field(strict=False, min_length=1)
    walks: tuple[Walk, ...] = Field(default=(), strict=False)
    instruments: tuple[Instrument, ...] = Field(default=(), strict=False)
    reset_limits: dict[Id, Annotated[int, Field(ge=1)]] = Field(default_factory=dict)
    """How often a protective device may be reset before its cause is found."""
    visit_minutes: Minutes
    """What it usually takes until someone with the missing qualification is on site."""
    give_up_minutes: Minutes
    """What it usually takes to get going again when none of the causes known here is it."""
    stops: tuple[Caution, ...] = Field(strict=False, min_length=1)

    @property
    def places(self) -> frozenset[str]:
        """The places on the unit between which people walk."""
        return frozenset(place for walk in self.walks for place in walk.between)

    @property
    def instrument_ids(self) -> frozenset[str]:
        """What must be fetched before it can be used."""
        return frozenset(instrument.id for instrument in self.instruments)

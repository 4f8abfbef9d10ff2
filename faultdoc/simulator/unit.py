"""A simulated unit as people on site meet it: in whatever state the plant is, it shows what is true there.

What is wrong with it is inside and stays there: whoever works on it sees readings only.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from faultdoc.model.safety import Compressors, PlantState, Pump, Refrigerant, Supply, Water
from faultdoc.model.unit import DataSheet
from faultdoc.simulator.condition import Condition, Site
from faultdoc.simulator.faults import broken
from faultdoc.simulator.machine import machine
from faultdoc.simulator.steady import Call, Snapshot, full_call, settled
from faultdoc.simulator.truths import Truths, truths

__all__ = ["SimulatedUnit", "let_down", "usual_site"]

WATER_PER_WATT = 8e-6
"""m³ of tanks and load for each watt of capacity: some 7 gallons a ton; common practice, no source."""
AT_WORK = {"supply": Supply.ENERGISED, "pump": Pump.RUNNING, "compressors": Compressors.RUNNING}
_OF_THE_LOG = "starts_in_last_hour"
_WATER_POINTS = (
    "barrel_in_pressure", "barrel_out_pressure", "pump_in_pressure", "pump_out_pressure", "standing_pressure",
)  # fmt: skip


def usual_site(sheet: DataSheet, **changes: float | None) -> Site:
    """Return a healthy site for a unit: as `Site`, with water in proportion to the unit.

    Args:
        sheet: of the unit.
        changes: fields of `Site` that are to differ.
    """
    return replace(Site(added_volume=WATER_PER_WATT * sheet.cooling_capacity), **changes)  # type: ignore[arg-type]


@dataclass
class SimulatedUnit:
    """A unit with hidden faults.

    Attributes:
        sheet: its data sheet.
        site: where it stands, in health.
        faults: severity by cause; fixing one takes it out.
        sound: its condition without them; see `faults.under`.
    """

    sheet: DataSheet
    site: Site
    faults: dict[str, float]
    sound: Condition = field(default_factory=Condition)
    _moments: dict[tuple[bool, bool, bool], Snapshot] = field(default_factory=dict, repr=False)
    _truths: dict[tuple[bool, bool, bool], Truths] = field(default_factory=dict, repr=False)

    def fix(self, cause: str) -> bool:
        """Carry out the remedy of a cause; say whether that cause was there."""
        found = self.faults.pop(cause, None) is not None
        if found:
            self._moments.clear()
            self._truths.clear()
        return found

    def moment(self, state: PlantState) -> Snapshot:
        """Return the steady moment of the unit in a state of the plant.

        Compressors that the control holds back do not run though they are called; so do motors without power.
        """
        key = _called(state)
        if key not in self._moments:
            site, condition = broken(self.site, self.faults, self.sound)
            self._moments[key] = settled(machine(self.sheet), site, *_asked(self.sheet, condition, key))
        return self._moments[key]

    def truths(self, state: PlantState) -> Mapping[str, float | str]:
        """Return the truth at every measuring point that exists in a state of the plant."""
        key = _called(state)
        if key not in self._truths:
            found = truths(self.moment(state))
            if key[0] and not key[2]:
                # At rest the log still tells how often it started while it worked.
                at_work = truths(self.moment(state.model_copy(update=AT_WORK)))
                found |= {point: value for point, value in at_work.items() if point.startswith(_OF_THE_LOG)}
            self._truths[key] = found
        return let_down(self._truths[key], state)


def let_down(found: Truths, state: PlantState) -> Truths:
    """Return the truths of a moment with what people have let down or opened in a state of the plant."""
    if state.water is Water.DEPRESSURISED:
        found = found | {point: 0.0 for point in _WATER_POINTS if point in found}
    if state.refrigerant is Refrigerant.OPENED:
        found = {point: value for point, value in found.items() if not point.startswith("resting_pressure")}
    return found


def _called(state: PlantState) -> tuple[bool, bool, bool]:
    """Return what of a state of the plant moves the unit: whether supply, pump and compressors are on."""
    return (
        state.supply is Supply.ENERGISED,
        state.pump is Pump.RUNNING,
        state.compressors is Compressors.RUNNING,
    )


def _asked(sheet: DataSheet, condition: Condition, key: tuple[bool, bool, bool]) -> tuple[Condition, Call]:
    """Return the condition and the call that a state of the plant (energised, pump, compressors) makes."""
    energised, pump, compressors = key
    if not energised:
        condition = replace(condition, supply=replace(condition.supply, off=True))
    control = condition.control
    held = control.held is not None or not control.warm_up_done
    call = full_call(machine(sheet))
    rests = [
        not compressors or (held and control.held_circuit in (None, one.circuit)) for one in sheet.compressors
    ]
    called = zip(call.compressors, rests, strict=True)
    call = replace(call, compressors=tuple(0.0 if rest else share for share, rest in called))
    return condition, replace(call, pump=pump)

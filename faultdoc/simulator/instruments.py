"""Readings as people take them: with the errors of real gauges and meters, and only where they can be taken.

An instrument has an error of its own that stays as long as it is used (its calibration), and one that changes from
reading to reading. Together they keep within the limit of error that the vocabulary gives for the usual
instrument at a point; the scale's division rounds what is read.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from faultdoc.library.vocabulary import usual_limit
from faultdoc.model.base import Measured
from faultdoc.model.points import Point
from faultdoc.model.safety import PlantState, StateNeed, satisfies
from faultdoc.quantities import Kind, exact

__all__ = ["Instruments", "needed_state", "readable"]

STEADY_PART, PASSING_PART = 0.7, 0.3
"""Parts of the limit of error that the instrument's calibration and the single reading may take. Assumed."""

DIVISIONS: Mapping[Kind, float] = {
    Kind.TEMPERATURE: 0.1,
    Kind.TEMPERATURE_DIFFERENCE: 0.1,
    Kind.GAUGE_PRESSURE: 2e3,
    Kind.PRESSURE_DIFFERENCE: 500.0,
    Kind.VOLUME_FLOW: 1e-5,
    Kind.MASS_FRACTION: 0.01,
    Kind.RATIO: 0.01,
    Kind.LENGTH: 0.1,
    Kind.VOLTAGE: 0.1,
    Kind.CURRENT: 0.1,
    Kind.FREQUENCY: 0.1,
    Kind.TIME: 60.0,
}
"""Smallest step that is read off the scale, SI; what is not named is read as it is. Common practice, no source."""
FINE_DIVISIONS = {"contactor_drop": 0.001, "winding_resistance": 0.0}
"""By the beginning of a point's name, where the usual instrument is finer."""

_NEEDS: tuple[tuple[str, dict[str, str]], ...] = (
    (
        r"(suction|discharge|liquid)_pressure_.|(suction|discharge|liquid)_line_temperature_.|sight_glass_."
        r"|condenser_(inlet|outlet)_air_temperature_.|compressors_running_.|fans_stopped_.|fan_rotation_\d",
        {"supply": "energised", "compressors": "running"},
    ),
    (r"resting_pressure_.", {"compressors": "stopped", "refrigerant": "closed"}),
    (
        r"barrel_(in|out)_pressure|barrel_pressure_drop|barrel_drop_(low|high)|strainer_pressure_drop|water_flow"
        r"|pump_(in|out)_pressure|load_pressure_drop|pump_rotation",
        {"pump": "running"},
    ),
    (r"flow_switch_contact", {"supply": "energised", "pump": "running"}),
    (r"dead_head_(in|out)_pressure", {"pump": "running", "compressors": "stopped"}),
    (r"standing_pressure", {"pump": "stopped", "water": "pressurised"}),
    (
        r"(pump_|compressor_|fan_)current.*|.*contactor_drop.*|unit_current|control_current|voltage_(l\d).*"
        r"|control_voltage.*|reference_voltage.*|source_voltage.*|phase_sequence|frequency",
        {"supply": "energised"},
    ),
    (r"voltage_at_start|frequency_at_start", {"supply": "energised"}),
    (
        r"(pump_)?winding_resistance.*|(pump_)?insulation_resistance.*|(pump_)?winding_temperature.*",
        {"supply": "isolated", "panel": "open"},
    ),
)


def needed_state(point: str) -> StateNeed:
    """Return what the plant must be in for a reading at a point to exist.

    >>> needed_state("standing_pressure").pump.value
    'stopped'
    """
    for pattern, need in _NEEDS:
        if re.fullmatch(pattern, point):
            return StateNeed.model_validate(need)
    return StateNeed()


def readable(point: str, state: PlantState) -> bool:
    """Say whether a reading at a point can be taken in a state of the plant."""
    return satisfies(state, needed_state(point))


@dataclass
class Instruments:
    """The gauges and meters of one call-out.

    Attributes:
        points: the vocabulary.
        rng: for the errors.
        biases: what the person's own meters read over the truth, by point, SI; on top of the usual error.
    """

    points: Mapping[str, Point]
    rng: np.random.Generator
    biases: Mapping[str, float] = field(default_factory=dict)
    _steady: dict[tuple[str, Kind], float] = field(default_factory=dict, repr=False)

    def read(self, point: str, truths: Mapping[str, float | str], state: PlantState) -> Measured | str | None:
        """Return what is read at a point; None where there is nothing to read in this state.

        Args:
            point: the measuring point's id.
            truths: what is true at the unit now.
            state: of the plant.

        Raises:
            KeyError: for a point that is not in the vocabulary.
        """
        what = self.points[point]
        if point not in truths or not readable(point, state):
            return None
        truth = truths[point]
        if isinstance(truth, str):
            return truth
        limit = usual_limit(what, truth)
        key = what.instrument, what.kind
        if key not in self._steady:
            self._steady[key] = self.rng.uniform(-STEADY_PART, STEADY_PART)
        error = limit * (self._steady[key] + self.rng.uniform(-PASSING_PART, PASSING_PART))
        # Counting is right or wrong by whole numbers; a count's limit is a formality.
        value = truth if what.kind is Kind.NUMBER and what.instrument == "Eye" else truth + error
        value += self.biases.get(point, 0.0)
        value = _rounded(point, what.kind, value)
        return Measured(kind=what.kind, value=value, text=exact(value, what.kind))


def _rounded(point: str, kind: Kind, value: float) -> float:
    fine = next((step for start, step in FINE_DIVISIONS.items() if start in point), None)
    division = DIVISIONS.get(kind, 0.0) if fine is None else fine
    return round(value / division) * division if division else value

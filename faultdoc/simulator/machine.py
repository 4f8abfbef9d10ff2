"""What a data sheet stands for: the sizes of every part, such that the healthy unit meets its design point.

The design point: rated capacity, water from `design_entering` to `design_leaving` at design flow, air at
`rating_ambient` at sea level, and superheat, subcooling, approach and split of the sheet, or the usual ones
that the checks take where the sheet has none. From these follow mass flow, displacement, conductances,
air flow, valve and charge. What a sheet cannot say, such as which share of the evaporator superheats the
gas, is set to values that are usual for a packaged unit with direct expansion; common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import log

import numpy as np
from numpy.typing import NDArray

from faultdoc.checks.base import Need
from faultdoc.checks.refrigerant import (
    APPROACH_DESIGN,
    CONDENSER_DROP,
    SUBCOOLING_DESIGN,
    SUPERHEAT_DESIGN,
    TRANSFER_UNITS,
    circuits_of,
    efficiency_need,
    fan_numbers,
    split_design,
)
from faultdoc.model.unit import CompressorType, DataSheet, Expansion
from faultdoc.physics import air, fluid, refrigerant, vapour

__all__ = ["Machine", "machine"]

Floats = NDArray[np.float64]

WETTED = 0.88
"""Share of the evaporator that boils at design; the rest superheats the gas."""
FLOODED = 0.10
"""Share of the condenser that holds liquid at design, and subcools it."""
OPENING = 0.6
"""Opening of the expansion valve at design: it has a reserve of two thirds."""
LIQUID_LINE_DROP = 20e3
"""Pa that drier and liquid line take at design flow."""
WATER_SIDE = 0.5
"""Share of the evaporator's thermal resistance at design that is on the water side."""
CHARGE_SHARES = {"condenser_boiling": 0.30, "condenser_liquid": 0.143, "evaporator": 0.22, "liquid_line": 0.28}
"""Shares of the right charge at design; the rest is gas."""

_CLEARANCE = {
    CompressorType.SCROLL: 0.015,
    CompressorType.RECIPROCATING: 0.045,
    CompressorType.SCREW: 0.025,
    CompressorType.ROTARY: 0.03,
}
"""Loss of volumetric efficiency per unit of (pressure ratio^(1/1.1) - 1)."""


@dataclass(frozen=True)
class Machine:
    """A unit's sizes. Arrays have shape (C,), one value a circuit, in the order of `circuits`.

    Attributes:
        sheet: the data sheet it was made from.
        circuits: names, "a" first.
        compressors: by circuit, the numbers of its compressors.
        fans: by circuit, the numbers of its fans.
        refrigerant: its name in ANSI/ASHRAE 34.
        shares: of the capacity.
        capacity, mass_flow, power: at design, W, kg/s, W into the gas.
        evaporating, condensing: dew temperatures at design, K.
        superheat, subcooling: at design, K.
        displacement: suction volume with all compressors, m³/s.
        clearance: loss of volumetric efficiency, see `_CLEARANCE`.
        efficiency: isentropic, at design.
        ratio: pressure ratio at design.
        conductance: of the whole evaporator of a circuit, W/K.
        superheating: exponent that sets the superheat by the share of surface that is dry.
        rejection: heat given off by the condenser at design, W.
        air_rate: heat capacity rate of the air at design, W/K.
        subcooling_units: exponent that sets the subcooling by the share of surface that is flooded.
        transfer_units: of the condenser at design.
        condenser_drop: from discharge gauge to liquid line at design flow, Pa.
        valve: mass flow per opening over sqrt(density x pressure difference), m².
        gain: opening per kelvin of superheat; 0 for a fixed orifice.
    """

    sheet: DataSheet
    circuits: tuple[str, ...]
    compressors: tuple[tuple[int, ...], ...]
    fans: tuple[tuple[int, ...], ...]
    refrigerant: str
    shares: Floats
    capacity: Floats
    mass_flow: Floats
    power: Floats
    evaporating: float
    condensing: float
    superheat: float
    subcooling: float
    displacement: Floats
    clearance: Floats
    efficiency: Floats
    ratio: float
    conductance: Floats
    superheating: float
    rejection: Floats
    air_rate: Floats
    subcooling_units: float
    transfer_units: float
    condenser_drop: float
    valve: Floats
    gain: float

    @property
    def design_rate(self) -> float:
        """Heat capacity rate (W/K) of the water at design flow."""
        water = self.sheet.water
        middle = 0.5 * (water.design_entering + water.design_leaving)
        return water.design_flow * fluid.density(middle) * fluid.heat_capacity(middle)


@lru_cache(maxsize=16)
def machine(sheet: DataSheet) -> Machine:
    """Return the sizes of the unit of a data sheet.

    Raises:
        ValueError: when the sheet's design point cannot be (a superheat larger than the water allows, say),
            or its refrigerant is not known.
    """
    name = refrigerant.canonical(sheet.refrigerant)
    circuits = circuits_of(sheet)
    numbered = list(enumerate(sheet.compressors, 1))
    compressors = tuple(tuple(n for n, one in numbered if one.circuit == circuit) for circuit in circuits)
    water = sheet.water
    evaporating = water.design_leaving - _usual(APPROACH_DESIGN, sheet)
    condensing = sheet.rating_ambient + _usual(split_design, sheet)
    superheat, subcooling = _usual(SUPERHEAT_DESIGN, sheet), _usual(SUBCOOLING_DESIGN, sheet)
    drop = _usual(CONDENSER_DROP, sheet)
    efficiency = np.array([_usual(efficiency_need(circuit), sheet) for circuit in circuits])

    currents = np.array([sum(sheet.compressors[n - 1].rated_current for n in some) for some in compressors])
    shares = currents / currents.sum()
    capacity = sheet.cooling_capacity * shares

    low, high = (float(refrigerant.dew_pressure(name, at)) for at in (evaporating, condensing))
    before = vapour.enthalpy(name, evaporating, superheat)
    after = vapour.enthalpy_after_compression(
        name, condensing, vapour.entropy(name, evaporating, superheat), before, efficiency
    )
    liquid = float(refrigerant.bubble_temperature(name, high - drop)) - subcooling
    liquid_enthalpy = float(vapour.liquid_enthalpy(name, liquid))
    mass_flow = capacity / (before - liquid_enthalpy)
    ratio = high / low
    clearance = np.array([_CLEARANCE[sheet.compressors[some[0] - 1].type] for some in compressors])
    volumetric = 1.0 - clearance * (ratio ** (1.0 / 1.1) - 1.0)
    displacement = mass_flow / (vapour.density(name, evaporating, superheat) * volumetric)

    lift, split = water.design_entering - evaporating, condensing - sheet.rating_ambient
    if superheat >= lift or subcooling >= split:
        raise ValueError(
            f"{sheet.id}: superheat and subcooling at design must be smaller than what water and air allow "
            f"({lift:.1f} K and {split:.1f} K); check refrigerant_side in the data sheet"
        )
    middle = 0.5 * (water.design_entering + water.design_leaving)
    rate = water.design_flow * fluid.density(middle) * fluid.heat_capacity(middle)
    # The sheet's capacity and its temperatures may disagree a little: the approach is what the checks go by.
    leaving = water.design_entering - sheet.cooling_capacity / rate
    units = log(lift / max(leaving - evaporating, 0.5))
    transfer_units = _usual(TRANSFER_UNITS, sheet)
    rejection = mass_flow * (after - liquid_enthalpy)
    at_valve = high - drop - LIQUID_LINE_DROP
    flow_number = np.sqrt(2.0 * float(vapour.liquid_density(name, liquid)) * (at_valve - low))
    gains = {Expansion.THERMOSTATIC_VALVE: 0.10, Expansion.ELECTRONIC_VALVE: 0.30, Expansion.FIXED_ORIFICE: 0.0}
    return Machine(
        sheet=sheet,
        circuits=circuits,
        compressors=compressors,
        fans=tuple(fan_numbers(sheet, circuit) for circuit in circuits),
        refrigerant=name,
        shares=shares,
        capacity=capacity,
        mass_flow=mass_flow,
        power=mass_flow * (after - before),
        evaporating=evaporating,
        condensing=condensing,
        superheat=superheat,
        subcooling=subcooling,
        displacement=displacement,
        clearance=clearance,
        efficiency=efficiency,
        ratio=ratio,
        conductance=units * rate * shares,
        superheating=-log(1.0 - superheat / lift) / (1.0 - WETTED),
        rejection=rejection,
        air_rate=rejection / (split * air.effectiveness(transfer_units)),
        subcooling_units=-log(1.0 - subcooling / split) / FLOODED,
        transfer_units=transfer_units,
        condenser_drop=drop,
        valve=mass_flow / (OPENING * flow_number),
        gain=gains[sheet.refrigerant_side.expansion],
    )


def _usual(need: Need, sheet: DataSheet) -> float:
    """Return what a check takes where there is no reading: the sheet's value, or the usual one."""
    assert need.default is not None
    found = need.default(sheet)
    assert found is not None
    return found[0]

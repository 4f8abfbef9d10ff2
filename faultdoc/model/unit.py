"""The data sheet of one chiller: nameplate, design point, curves and the settings of its safeties.

Everything that a nameplate may lack is optional; a check that wants it says so, or does with a
wider uncertainty.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, model_validator

from faultdoc.model.base import (
    Bore,
    Current,
    ElectricPower,
    Frequency,
    GaugePressure,
    HeatCapacity,
    HeatLoss,
    Id,
    Length,
    Mass,
    MassFraction,
    Model,
    Power,
    PressureDifference,
    Ratio,
    Resistance,
    ShaftPower,
    Temperature,
    TemperatureDifference,
    Text,
    Time,
    Voltage,
    Volume,
    VolumeFlow,
)

__all__ = [
    "Acts",
    "Barrel",
    "BarrelPoint",
    "Compressor",
    "CompressorType",
    "DataSheet",
    "Electrical",
    "Expansion",
    "Fan",
    "Feature",
    "FlowProving",
    "Glycol",
    "OilSump",
    "PumpData",
    "PumpPoint",
    "RefrigerantSide",
    "Safety",
    "Strainer",
    "WaterSide",
]


class Feature(StrEnum):
    """What a unit has; trees, causes and questions may be for units with a feature only."""

    OWN_PUMP = "own_pump"
    DIFFERENTIAL_FLOW_SWITCH = "differential_flow_switch"
    PADDLE_FLOW_SWITCH = "paddle_flow_switch"
    STRAINER = "strainer"
    PUMP_OVERLOAD = "pump_overload"
    REMOTE_PERMISSION = "remote_permission"


class Glycol(StrEnum):
    """The antifreeze in the water, if any."""

    NONE = "none"
    PROPYLENE = "propylene"
    ETHYLENE = "ethylene"


class BarrelPoint(Model):
    """One point of the evaporator barrel's pressure-drop curve, with water."""

    flow: VolumeFlow
    drop: PressureDifference


class Barrel(Model):
    """The evaporator barrel's water side."""

    points: tuple[BarrelPoint, ...] = Field(strict=False, min_length=1)
    water_temperature: Temperature
    """Temperature of the plain water for which the points hold."""
    uncertainty: Ratio
    """Limit of error of the drop read from the sheet, as a fraction of it."""

    @model_validator(mode="after")
    def _rising(self) -> Self:
        for low, high in zip(self.points, self.points[1:], strict=False):
            if not (low.flow < high.flow and low.drop < high.drop):
                raise ValueError("the barrel's points must rise in flow and in drop")
        if self.points[0].flow <= 0 or self.points[0].drop <= 0:
            raise ValueError("flow and drop must be above zero at every point")
        return self


class PumpPoint(Model):
    """One point of the pump's curve at rated speed, with water."""

    flow: VolumeFlow
    head: Length
    shaft_power: ShaftPower | None = None
    npsh_required: Length | None = None


class PumpData(Model):
    """The unit's own chilled-water pump."""

    points: tuple[PumpPoint, ...] = Field(strict=False, min_length=3)
    rated_current: Annotated[Current, Field(gt=0.0)]
    rated_power: Annotated[ShaftPower, Field(gt=0.0)]
    """Of the motor, at the shaft."""
    uncertainty: Ratio
    """Limit of error of the head read from the curve, as a fraction of shut-off head."""

    @model_validator(mode="after")
    def _falling(self) -> Self:
        if self.points[0].flow != 0.0:
            raise ValueError("the pump's first point must be its shut-off head, at zero flow")
        for low, high in zip(self.points, self.points[1:], strict=False):
            if not (low.flow < high.flow and low.head >= high.head):
                raise ValueError("the pump's points must rise in flow and not rise in head")
        return self


class Strainer(Model):
    """The suction strainer, clean, at one flow."""

    flow: VolumeFlow
    drop: PressureDifference


class FlowProving(Model):
    """How the unit proves that water flows, and when it gives up.

    A differential-pressure switch across the barrel makes at `makes_at_drop` rising and breaks
    at `breaks_at_drop` falling; a paddle in the pipe makes and breaks at flows.
    """

    makes_at_drop: PressureDifference | None = None
    breaks_at_drop: PressureDifference | None = None
    makes_at_flow: VolumeFlow | None = None
    breaks_at_flow: VolumeFlow | None = None
    start_allowance: Time
    """How long the unit waits for proof after it starts its pump."""
    trip_delay: Time
    """How long proof may be lost before the unit stops."""


class WaterSide(Model):
    """The chilled-water side from inlet to outlet connection."""

    design_flow: Annotated[VolumeFlow, Field(gt=0.0)]
    minimum_flow: VolumeFlow
    design_entering: Temperature
    design_leaving: Temperature
    lowest_leaving_without_antifreeze: Temperature
    connection_bore: Bore
    volume: Volume
    relief_pressure: GaugePressure
    gauge_top: GaugePressure
    """Full scale of the water gauges fitted to the unit."""
    barrel: Barrel
    strainer: Strainer | None = None
    pump: PumpData | None = None
    flow_proving: FlowProving
    usual_glycol: Annotated[Glycol, Field(strict=False)] = Glycol.NONE
    usual_glycol_fraction: MassFraction | None = None


class CompressorType(StrEnum):
    """How a compressor compresses."""

    SCROLL = "scroll"
    RECIPROCATING = "reciprocating"
    SCREW = "screw"
    ROTARY = "rotary"


class Expansion(StrEnum):
    """What feeds the evaporator."""

    THERMOSTATIC_VALVE = "thermostatic_valve"
    ELECTRONIC_VALVE = "electronic_valve"
    FIXED_ORIFICE = "fixed_orifice"


class Compressor(Model):
    """One compressor; its place in the list is its number."""

    circuit: Annotated[str, Field(pattern="^[a-d]$")]
    type: Annotated[CompressorType, Field(strict=False)] = CompressorType.SCROLL
    rated_current: Annotated[Current, Field(gt=0.0)]
    locked_rotor_current: Current | None = None
    winding_resistance: Resistance | None = None
    """Between two leads, cold."""
    unloading_steps: tuple[Ratio, ...] = Field(default=(), strict=False)
    """Part loads it can run at, as fractions of full; none: on or off."""
    speeds: Annotated[int, Field(ge=1, le=2)] = 1


class Fan(Model):
    """Condenser fans of one kind; a fan's number counts through the list."""

    circuit: Annotated[str, Field(pattern="^[a-d]$")]
    count: Annotated[int, Field(ge=1, le=16)]
    rated_current: Current | None = None
    rated_power: ShaftPower | None = None
    speeds: Annotated[int, Field(ge=1, le=2)] = 1


class RefrigerantSide(Model):
    """What every circuit should show at the design point; what is not known is left out."""

    charge: Mass | None = None
    """Of one circuit."""
    expansion: Annotated[Expansion, Field(strict=False)] = Expansion.THERMOSTATIC_VALVE
    superheat: TemperatureDifference | None = None
    subcooling: TemperatureDifference | None = None
    evaporator_approach: TemperatureDifference | None = None
    """Leaving water less saturated suction (dew)."""
    condenser_split: TemperatureDifference | None = None
    """Saturated discharge (dew) less air entering the condenser."""
    isentropic_efficiency: Ratio | None = None


class OilSump(Model):
    """The compressor's sump as a lump that its heater warms and the air around cools."""

    heater_power: ElectricPower
    heat_capacity: HeatCapacity
    """Of oil and shell together."""
    heat_loss: HeatLoss
    """To the air around, per degree the sump is warmer."""
    safe_margin: TemperatureDifference
    """Sump over saturated suction at which a start is safe."""


class Acts(StrEnum):
    """On which side of its setting a safety stops the unit."""

    ABOVE = "above"
    BELOW = "below"


class Safety(Model):
    """A device that stops the unit: where it looks, when it acts, when and how it lets go.

    `point` is a measuring point or a family of them with braces (`discharge_pressure_{circuit}`);
    the settings are text with the unit of that point's kind, checked when the sheet is loaded.
    """

    id: Id
    title: Text
    point: Annotated[str, Field(pattern=r"^[a-z][a-z0-9_{}]{1,63}$")]
    acts: Annotated[Acts, Field(strict=False)]
    trips_at: Text
    resets_at: Text | None = None
    tolerance: Text
    """Half-width within which the device may act, as a difference."""
    delay: Time | None = None
    manual_reset: bool
    test: tuple[Text, ...] = Field(default=(), strict=False)
    """How it is tested, step by step, by someone who may."""


class Electrical(Model):
    """The supply the unit wants."""

    voltage: Annotated[Voltage, Field(gt=0.0)]
    voltage_tolerance: Ratio
    frequency: Annotated[Frequency, Field(gt=0.0)]
    control_voltage: Annotated[Voltage, Field(gt=0.0)]
    control_transformer_power: ElectricPower | None = None
    """Rating of the control transformer."""
    minimum_circuit_ampacity: Current | None = None
    maximum_protection: Current | None = None


class DataSheet(Model):
    """Everything FaultDoc knows of one chiller, from its nameplate and its papers."""

    id: Id
    title: Text
    refrigerant: Text
    cooling_capacity: Annotated[Power, Field(gt=0.0)]
    rating_ambient: Temperature
    electrical: Electrical
    compressors: tuple[Compressor, ...] = Field(strict=False, min_length=1, max_length=32)
    fans: tuple[Fan, ...] = Field(default=(), strict=False, max_length=32)
    refrigerant_side: RefrigerantSide = RefrigerantSide()
    oil_warm_up: Time
    """Time energised before a start is allowed; the maker's figure, or the common hour at least."""
    oil_sump: OilSump | None = None
    anti_recycle: Time
    """Least time from a stop to the next start of a compressor."""
    starts_per_hour: Annotated[int, Field(ge=1, le=30)] | None = None
    water: WaterSide
    safeties: tuple[Safety, ...] = Field(default=(), strict=False, max_length=100)
    features: tuple[Annotated[Feature, Field(strict=False)], ...] = Field(strict=False)
    notes: tuple[Text, ...] = Field(default=(), strict=False)
    assumed: tuple[Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*(\.[a-z0-9_]+)*$")], ...] = Field(
        default=(), strict=False
    )
    """What neither nameplate nor papers gave, as paths such as `water.barrel` or `compressors.0.type`.

    A path covers all that is below it. Checks count what is assumed with a wider uncertainty.
    """

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> Self:
        problems = []
        if (Feature.OWN_PUMP in self.features) != (self.water.pump is not None):
            problems.append("features say own_pump exactly when water.pump is given")
        if (Feature.STRAINER in self.features) != (self.water.strainer is not None):
            problems.append("features say strainer exactly when water.strainer is given")
        proving = self.water.flow_proving
        if Feature.DIFFERENTIAL_FLOW_SWITCH in self.features and (
            proving.makes_at_drop is None or proving.breaks_at_drop is None
        ):
            problems.append("a differential flow switch needs makes_at_drop and breaks_at_drop")
        if Feature.PADDLE_FLOW_SWITCH in self.features and (
            proving.makes_at_flow is None or proving.breaks_at_flow is None
        ):
            problems.append("a paddle flow switch needs makes_at_flow and breaks_at_flow")
        if self.water.minimum_flow >= self.water.design_flow:
            problems.append("water.minimum_flow must be below water.design_flow")
        if self.water.design_leaving >= self.water.design_entering:
            problems.append("water.design_leaving must be colder than water.design_entering")
        problems += [f"assumed names '{path}', where the sheet has nothing" for path in self._empty_paths()]
        if problems:
            raise ValueError("; ".join(problems))
        return self

    def _empty_paths(self) -> list[str]:
        """Return the paths of `assumed` at which this sheet has no value."""
        empty = []
        for path in self.assumed:
            part: object = self
            for step in path.split("."):
                if isinstance(part, tuple):
                    part = part[int(step)] if step.isdigit() and int(step) < len(part) else None
                elif isinstance(part, Model) and step in type(part).model_fields:
                    part = getattr(part, step)
                else:
                    part = None
            if part is None:
                empty.append(path)
        return empty

"""What all models share: strictness, and fields that read quantities written with their units."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints

from faultdoc.plain import plain
from faultdoc.quantities import LARGEST, Kind, Quantity, QuantityError, parse

__all__ = [
    "Bore",
    "Current",
    "ElectricPower",
    "Frequency",
    "GaugePressure",
    "HeatCapacity",
    "HeatLoss",
    "Id",
    "Length",
    "Line",
    "Mass",
    "MassFraction",
    "Measured",
    "Minutes",
    "Model",
    "Power",
    "PressureDifference",
    "Probability",
    "Ratio",
    "Resistance",
    "ShaftPower",
    "Temperature",
    "TemperatureDifference",
    "Text",
    "Time",
    "Voltage",
    "Volume",
    "VolumeFlow",
]


class Model(BaseModel):
    """A frozen record that refuses unknown keys, numbers written as text and truth values as numbers."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, allow_inf_nan=False)


Id = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]{1,63}$")]
"""A name for the machine: lower case, digits and underscores."""

Text = Annotated[
    str, StringConstraints(strip_whitespace=True, min_length=1, max_length=4000), AfterValidator(plain)
]
"""Words for a person; never empty, and nothing in them but what prints (see `plain`)."""

Line = Annotated[str, StringConstraints(max_length=1000), AfterValidator(plain)]
"""What was typed or names a file: a line of what prints."""

Probability = Annotated[float, Field(ge=0.0, le=1.0)]
Minutes = Annotated[float, Field(ge=0.0, le=10_000.0)]


SMALLEST = 1e-12
"""In SI units: what is nearer to nothing leaves nothing to divide by, and is a slip of the unit."""


def _si(kind: Kind) -> BeforeValidator:
    def read(value: Any) -> Any:
        if isinstance(value, str):
            try:
                found = parse(value, kind, need_unit=True).value
            except QuantityError as problem:
                raise ValueError(str(problem)) from None
            if 0.0 < abs(found) < SMALLEST:
                raise ValueError(f"'{value}' is next to nothing; look at its unit")
            return found
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            raise ValueError(f'{value} has no unit; write it as text with its unit, such as "{value} ..."')
        raise ValueError(f"a {kind.value} with its unit is wanted")

    return BeforeValidator(read)


Temperature = Annotated[float, _si(Kind.TEMPERATURE)]
TemperatureDifference = Annotated[float, _si(Kind.TEMPERATURE_DIFFERENCE)]
GaugePressure = Annotated[float, _si(Kind.GAUGE_PRESSURE)]
PressureDifference = Annotated[float, _si(Kind.PRESSURE_DIFFERENCE)]
VolumeFlow = Annotated[float, _si(Kind.VOLUME_FLOW), Field(ge=0.0)]
MassFraction = Annotated[float, _si(Kind.MASS_FRACTION), Field(ge=0.0, le=1.0)]
Ratio = Annotated[float, _si(Kind.RATIO)]
Length = Annotated[float, _si(Kind.LENGTH)]
Bore = Annotated[float, _si(Kind.BORE), Field(gt=0.0)]
Volume = Annotated[float, _si(Kind.VOLUME), Field(gt=0.0)]
Voltage = Annotated[float, _si(Kind.VOLTAGE), Field(ge=0.0)]
Current = Annotated[float, _si(Kind.CURRENT), Field(ge=0.0)]
Resistance = Annotated[float, _si(Kind.RESISTANCE), Field(ge=0.0)]
Frequency = Annotated[float, _si(Kind.FREQUENCY), Field(ge=0.0)]
Time = Annotated[float, _si(Kind.TIME), Field(ge=0.0)]
Mass = Annotated[float, _si(Kind.MASS), Field(gt=0.0)]
HeatCapacity = Annotated[float, _si(Kind.HEAT_CAPACITY), Field(gt=0.0)]
HeatLoss = Annotated[float, _si(Kind.HEAT_LOSS), Field(gt=0.0)]
Power = Annotated[float, _si(Kind.POWER), Field(ge=0.0)]
ElectricPower = Annotated[float, _si(Kind.ELECTRIC_POWER), Field(ge=0.0)]
ShaftPower = Annotated[float, _si(Kind.SHAFT_POWER), Field(ge=0.0)]
"""Each of these is written as text with its unit ("62 psi") and held as an SI float."""


class Measured(Model):
    """One value taken at a point: SI value and the standard uncertainty its giver stated, if any.

    Built by the case reader from text such as `62 psi ± 1`; `text` keeps what was written.
    """

    kind: Kind
    value: Annotated[float, Field(ge=-LARGEST, le=LARGEST)]
    standard_uncertainty: Annotated[float, Field(ge=0.0, le=LARGEST)] | None = None
    text: Line

    @classmethod
    def from_quantity(cls, quantity: Quantity) -> Measured:
        """Return the reading that a parsed quantity is."""
        return cls(
            kind=quantity.kind,
            value=quantity.value,
            standard_uncertainty=quantity.standard_uncertainty,
            text=quantity.written,
        )

"""Conductors of a feeder: cross-section, resistance, reactance, voltage drop and ampacity.

Lengths are one way, resistances and reactances those of one conductor (to neutral), per metre.
"""

from __future__ import annotations

from bisect import bisect_left
from math import exp, log, pi, sqrt
from typing import Literal

__all__ = [
    "ALUMINIUM_AS_COPPER",
    "Metal",
    "ac_resistance",
    "ampacity",
    "area_for",
    "awg_area",
    "dc_resistance",
    "effective_impedance",
    "kcmil_area",
    "reactance",
    "voltage_drop",
]

Metal = Literal["copper", "aluminium"]

_REFERENCE = 348.15
"""K (75 °C), at which the tables of NEC chapter 9 hold."""
_RESISTIVITY: dict[Metal, float] = {"copper": 2.139e-8, "aluminium": 3.52e-8}
"""Ω m at 75 °C of stranded uncoated conductors over their nominal area, lay included: what NEC chapter 9,
table 8, comes to at every size from 8 AWG to 500 kcmil within half a per cent."""
_COEFFICIENT: dict[Metal, float] = {"copper": 0.00323, "aluminium": 0.00330}
"""1/K at 75 °C: NEC chapter 9, table 8, note 2."""

ALUMINIUM_AS_COPPER = _RESISTIVITY["copper"] / _RESISTIVITY["aluminium"]
"""Cross-section of copper that conducts as well as one of aluminium."""

_FEET = 304.8  # m in 1,000 ft, in which the code's table gives reactance
_REACTANCES = (
    # mm², Ω per 1,000 ft at 60 Hz in PVC or aluminium conduit, in steel conduit
    (8.37, 0.052, 0.065),
    (13.30, 0.051, 0.064),
    (21.15, 0.048, 0.060),
    (33.62, 0.045, 0.057),
    (53.49, 0.044, 0.055),
    (67.43, 0.043, 0.054),
    (85.01, 0.042, 0.052),
    (107.2, 0.041, 0.051),
    (177.3, 0.040, 0.050),
    (253.4, 0.039, 0.048),
    (380.0, 0.038, 0.048),
)
"""NEC chapter 9, table 9, at the sizes where it turns."""

_AMPACITIES = (
    # mm², A of copper and of aluminium: three conductors in raceway or cable, air at 30 °C, 75 °C insulation
    (8.37, 50.0, 40.0),
    (13.30, 65.0, 50.0),
    (21.15, 85.0, 65.0),
    (26.67, 100.0, 75.0),
    (33.62, 115.0, 90.0),
    (42.41, 130.0, 100.0),
    (53.49, 150.0, 120.0),
    (67.43, 175.0, 135.0),
    (85.01, 200.0, 155.0),
    (107.2, 230.0, 180.0),
    (126.7, 255.0, 205.0),
    (152.0, 285.0, 230.0),
    (177.3, 310.0, 250.0),
    (202.7, 335.0, 270.0),
    (253.4, 380.0, 310.0),
)
"""NEC table 310.16."""


def awg_area(gauge: int) -> float:
    """Return the cross-section (m²) of an AWG size; 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3.

    Diameter 0.005 in x 92^((36 - n) / 39): ASTM B258.

    Raises:
        ValueError: outside 4/0 to 36.

    >>> round(1e6 * awg_area(2), 1)
    33.6
    """
    if not -3 <= gauge <= 36:
        raise ValueError(f"AWG {gauge} is outside 4/0 (-3) to 36")
    diameter: float = 0.005 * 0.0254 * 92.0 ** ((36 - gauge) / 39)
    return pi / 4.0 * diameter**2


def kcmil_area(kcmil: float) -> float:
    """Return the cross-section (m²) of a size in thousands of circular mils.

    >>> round(1e6 * kcmil_area(250.0), 1)
    126.7
    """
    return 1000.0 * kcmil * pi / 4.0 * (0.001 * 0.0254) ** 2


def dc_resistance(area: float, metal: Metal = "copper", temperature: float = _REFERENCE) -> float:
    """Return the direct-current resistance (Ω/m) of a stranded conductor.

    Args:
        area: m², above zero.
        metal: copper or aluminium.
        temperature: of the conductor, K, 230 to 400.

    Raises:
        ValueError: outside those ranges.

    >>> round(304.8 * dc_resistance(awg_area(2)), 4)  # ohms in 1,000 ft; NEC chapter 9, table 8: 0.194
    0.1939
    """
    if area <= 0.0:
        raise ValueError("a conductor's cross-section must be above zero")
    if not 230.0 <= temperature <= 400.0:
        raise ValueError(f"a conductor at {temperature - 273.15:.0f} °C is outside -43 to 127 °C")
    warm = 1.0 + _COEFFICIENT[metal] * (temperature - _REFERENCE)
    return _RESISTIVITY[metal] * warm / area


def ac_resistance(
    area: float, metal: Metal = "copper", temperature: float = _REFERENCE, frequency: float = 60.0
) -> float:
    """Return the alternating-current resistance (Ω/m): skin effect of IEC 60287-1-1, 5.1.2.

    The nearness of the other conductors and of a steel conduit adds some per cent in the largest sizes
    and is left out. Arguments as of `dc_resistance`; frequency in Hz.
    """
    direct = dc_resistance(area, metal, temperature)
    x4 = (8.0 * pi * frequency / direct * 1e-7) ** 2
    return direct * (1.0 + x4 / (192.0 + 0.8 * x4))


def reactance(area: float, frequency: float = 60.0, *, steel: bool = False) -> float:
    """Return the inductive reactance (Ω/m) of one of three conductors lying together.

    NEC chapter 9, table 9, linear in the logarithm of the area; the end values serve beyond the ends.

    Args:
        area: m².
        frequency: Hz; the table's 60 Hz scaled.
        steel: in steel conduit; else in PVC, aluminium or none.

    >>> round(304.8 * reactance(awg_area(-3)), 3)
    0.041
    """
    column = 2 if steel else 1
    rows = [(row[0], row[column]) for row in _REACTANCES]
    return _between(rows, 1e6 * area, logarithmic=False) / _FEET * frequency / 60.0


def effective_impedance(resistance: float, reactance: float, power_factor: float) -> float:
    """Return R cos + X sin (in the unit of R and X), which times the current is nearly the drop to neutral.

    NEC chapter 9, table 9, note 2.

    Raises:
        ValueError: for a power factor outside 0 to 1.

    >>> round(effective_impedance(0.054, 0.052, 0.85), 3)
    0.073
    """
    if not 0.0 <= power_factor <= 1.0:
        raise ValueError(f"a power factor of {power_factor:.2f} is outside 0 to 1")
    return resistance * power_factor + reactance * sqrt(1.0 - power_factor**2)


def voltage_drop(current: float, length: float, impedance: float) -> float:
    """Return the drop between lines (V) of a three-phase feeder.

    Args:
        current: A in each line.
        length: m, one way.
        impedance: effective, Ω/m of one conductor.

    Raises:
        ValueError: for a length or a current below zero.

    >>> round(voltage_drop(100.0, 60.96, effective_impedance(0.1, 0.043, 0.85) / 304.8), 2)
    3.73
    """
    if length < 0.0 or current < 0.0:
        raise ValueError("a feeder's length and current are not below zero")
    return sqrt(3.0) * current * impedance * length


def ampacity(area: float, metal: Metal = "copper") -> float:
    """Return the current (A) a conductor with 75 °C insulation may carry, three together, in air of 30 °C.

    NEC table 310.16, power law between its sizes. Flexible cable and cable in free air have tables of
    their own, which allow more.

    Raises:
        ValueError: outside 8 AWG (8.37 mm²) to 500 kcmil (253 mm²).

    >>> round(ampacity(awg_area(-3)))
    230
    """
    column = 1 if metal == "copper" else 2
    rows = [(row[0], row[column]) for row in _AMPACITIES]
    square = 1e6 * area
    if not 0.99 * rows[0][0] <= square <= 1.01 * rows[-1][0]:
        raise ValueError(
            f"a conductor of {square:.1f} mm² is outside 8.4 mm² (8 AWG) to 253 mm² (500 kcmil); "
            "for several in parallel give one and how many there are"
        )
    return _between(rows, square, logarithmic=True)


def area_for(current: float, metal: Metal = "copper") -> float:
    """Return the cross-section (m²) of the smallest size whose ampacity is enough for a current (A).

    Raises:
        ValueError: above the ampacity of 500 kcmil.

    >>> round(1e6 * area_for(85.0), 1)
    21.1
    """
    column = 1 if metal == "copper" else 2
    for row in _AMPACITIES:
        if row[column] >= current:
            return row[0] * 1e-6
    raise ValueError(f"{current:.0f} A is more than one 500 kcmil conductor may carry")


def _between(rows: list[tuple[float, float]], at: float, *, logarithmic: bool) -> float:
    """Return the value at an area (mm²), interpolated over its logarithm, flat beyond the ends."""
    place = bisect_left(rows, at, key=lambda row: row[0])
    if place == 0:
        return rows[0][1]
    if place == len(rows):
        return rows[-1][1]
    (low, first), (high, last) = rows[place - 1], rows[place]
    along = log(at / low) / log(high / low)
    if logarithmic:
        return exp(log(first) + along * log(last / first))
    return first + along * (last - first)

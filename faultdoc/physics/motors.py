"""Motors on their supply: starting, windings, insulation, circuit sizes, and a compressor's load."""

from __future__ import annotations

from cmath import rect
from collections.abc import Sequence
from math import acos, exp, exp2, pow, sqrt

__all__ = [
    "STANDARD_RATINGS",
    "compressor_load",
    "generator_reactance",
    "insulation_at_40",
    "least_insulation",
    "minimum_ampacity",
    "protection_ceiling",
    "standard_rating",
    "start_voltage",
    "winding_resistance_at",
]

STANDARD_RATINGS = (
    15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 110.0, 125.0, 150.0, 175.0,
    200.0, 225.0, 250.0, 300.0, 350.0, 400.0, 450.0, 500.0, 600.0, 700.0, 800.0, 1000.0, 1200.0, 1600.0, 2000.0,
)  # fmt: skip
"""A; standard ratings of fuses and circuit breakers, NEC 240.6(A)."""

_COPPER = 234.5
"""°C below nothing at which copper's resistance, drawn on straight, would vanish: IEC 60034-1, 8.6.2."""


def minimum_ampacity(compressors: Sequence[float], others: Sequence[float]) -> float:
    """Return the least ampacity (A) of the conductors to several motor-compressors and other loads.

    All rated currents and a quarter of the largest motor's: NEC 440.33; for one compressor 440.32.

    Args:
        compressors: rated-load currents, A, at least one.
        others: fans, pump and control, A.

    Raises:
        ValueError: without a compressor, or for a current below zero.

    >>> minimum_ampacity([20.0], [2.5])
    27.5
    """
    _check_currents(compressors, others)
    largest = max((*compressors, *others))
    return sum(compressors) + sum(others) + 0.25 * largest


def protection_ceiling(compressors: Sequence[float], others: Sequence[float], factor: float = 2.25) -> float:
    """Return the current (A) that the rating of the fuse or breaker before such a group may not exceed.

    `factor` times the largest compressor and all other currents: NEC 440.22(B); 1.75 to begin with, 2.25
    where the motor will not start on it.

    Raises:
        ValueError: without a compressor, or for a current below zero.

    >>> protection_ceiling([20.0], [2.5]), protection_ceiling([20.0], [2.5], 1.75)
    (47.5, 37.5)
    """
    _check_currents(compressors, others)
    return sum(compressors) + sum(others) + (factor - 1.0) * max(compressors)


def standard_rating(ceiling: float) -> float:
    """Return the largest standard rating (A) of a fuse or breaker that is not above a ceiling: NEC 240.6(A).

    Raises:
        ValueError: below the least standard rating.

    >>> standard_rating(47.5), standard_rating(37.5)
    (45.0, 35.0)
    """
    fitting = [rating for rating in STANDARD_RATINGS if rating <= ceiling]
    if not fitting:
        raise ValueError(f"{ceiling:.1f} A is below the least standard rating of {STANDARD_RATINGS[0]:.0f} A")
    return fitting[-1]


def _check_currents(compressors: Sequence[float], others: Sequence[float]) -> None:
    if not compressors:
        raise ValueError("a circuit of motor-compressors needs at least one")
    if min((*compressors, *others)) < 0.0:
        raise ValueError("a rated current is not below zero")


def generator_reactance(current: float, voltage: float, subtransient: float) -> float:
    """Return a generator's subtransient reactance (Ω to neutral) from its share: x'' V / (sqrt 3 I).

    Args:
        current: rated, A.
        voltage: rated, V between lines.
        subtransient: x''d, a fraction (0.10 to 0.25 for sets of some hundred kVA, common practice).

    Raises:
        ValueError: for a rated current or a reactance that is not above zero.

    >>> round(generator_reactance(300.0, 480.0, 0.12), 4)
    0.1109
    """
    if current <= 0.0 or subtransient <= 0.0:
        raise ValueError("a generator's rated current and reactance must be above zero")
    return subtransient * voltage / (sqrt(3.0) * current)


def start_voltage(
    open_voltage: float,
    rated_voltage: float,
    locked_rotor_current: float,
    power_factor: float,
    resistance: float,
    reactance: float,
) -> float:
    """Return the voltage (V between lines) at a motor at the instant it starts.

    A motor at rest is a fixed impedance; with that of what feeds it, it divides the voltage that stood
    there before (e.g. IEEE Std 3002.7, motor-starting studies: impedance method).

    Args:
        open_voltage: V between lines, before the start.
        rated_voltage: V for which the locked-rotor current holds.
        locked_rotor_current: A, above zero.
        power_factor: of the motor at rest, 0 to 1.
        resistance, reactance: Ω to neutral, of source and feeder together.

    Raises:
        ValueError: outside those ranges.

    >>> round(start_voltage(480.0, 480.0, 600.0, 0.0, 0.0, 0.115470), 1)
    384.0
    """
    if locked_rotor_current <= 0.0 or rated_voltage <= 0.0:
        raise ValueError("locked-rotor current and rated voltage must be above zero")
    if not 0.0 <= power_factor <= 1.0:
        raise ValueError(f"a power factor of {power_factor:.2f} is outside 0 to 1")
    motor = rect(rated_voltage / (sqrt(3.0) * locked_rotor_current), acos(power_factor))
    return open_voltage * abs(motor) / abs(motor + complex(resistance, reactance))


def winding_resistance_at(resistance: float, measured_at: float, wanted_at: float) -> float:
    """Return a copper winding's resistance (Ω) at another temperature (K): IEC 60034-1, 8.6.2.

    Raises:
        ValueError: for a temperature outside 200 to 500 K.

    >>> round(winding_resistance_at(0.15, 298.15, 383.15), 3)
    0.199
    """
    for temperature in (measured_at, wanted_at):
        if not 200.0 <= temperature <= 500.0:
            raise ValueError(f"a winding at {temperature - 273.15:.0f} °C is outside -73 to 227 °C")
    return resistance * (_COPPER + wanted_at - 273.15) / (_COPPER + measured_at - 273.15)


def insulation_at_40(resistance: float, temperature: float) -> float:
    """Return an insulation resistance (Ω) corrected to 40 °C: halved for every 10 K colder it was read.

    R40 = R 0.5^((40 - T) / 10): IEEE Std 43-2013, 6.3, for thermoplastic and, nearly, for other windings
    from 10 to 60 °C.

    Args:
        resistance: as read after one minute.
        temperature: of the winding, K, 263 to 373.

    Raises:
        ValueError: outside that range.

    >>> round(insulation_at_40(500e6, 298.15) / 1e6)
    177
    """
    if not 263.0 <= temperature <= 373.15:
        raise ValueError(
            f"a winding at {temperature - 273.15:.0f} °C is outside -10 to 100 °C, where the correction holds"
        )
    return resistance * exp2((temperature - 313.15) / 10.0)


def least_insulation(voltage: float, *, random_wound: bool = True, since_1970: bool = True) -> float:
    """Return the least insulation resistance (Ω) at 40 °C after one minute: IEEE Std 43-2013, table 3.

    5 MΩ for random-wound windings and all below 1 kV, 100 MΩ for form-wound ones since about 1970, and
    kV + 1 MΩ for those before.

    Args:
        voltage: rated, V between lines.
        random_wound: of round wire in no fixed order, as motors of less than some 300 kW are.
        since_1970: made since about then.

    >>> least_insulation(460.0) / 1e6
    5.0
    """
    if not since_1970:
        return (voltage / 1000.0 + 1.0) * 1e6
    return 5e6 if random_wound or voltage < 1000.0 else 100e6


def compressor_load(
    evaporating: float,
    condensing: float,
    design_evaporating: float,
    design_condensing: float,
    *,
    slope: float = 2500.0,
    exponent: float = 1.10,
) -> float:
    """Return a compressor's power over that at its design point, from saturation temperatures (K).

    A compressor of fixed displacement moves the same volume at its suction, so its power goes with
    p_s (r^((k-1)/k) - 1) at one isentropic efficiency (e.g. Stoecker and Jones, Refrigeration and Air
    Conditioning, chapter on compressors). Only ratios of pressure enter, and they follow from
    Clausius and Clapeyron: ln p = const - b / T.

    Args:
        evaporating, condensing: now.
        design_evaporating, design_condensing: at the design point.
        slope: b, K: 2,370 to 2,700 for the refrigerants in use (from their vapour pressures at 0 and 50 °C).
        exponent: k of the isentrope, 1.02 to 1.20.

    Raises:
        ValueError: when condensing is not above evaporating, now or at design.

    >>> round(compressor_load(280.0, 320.0, 276.0, 325.0), 2)
    0.92
    """
    if not (condensing > evaporating and design_condensing > design_evaporating):
        raise ValueError("condensing must be warmer than evaporating; check the temperatures")

    def work(cold: float, hot: float) -> float:
        ratio = exp(slope * (1.0 / cold - 1.0 / hot))
        return exp(-slope / cold) * (pow(ratio, (exponent - 1.0) / exponent) - 1.0)

    return work(evaporating, condensing) / work(design_evaporating, design_condensing)

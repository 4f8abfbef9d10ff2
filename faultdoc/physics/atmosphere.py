"""The air the gauges stand in: the U.S. Standard Atmosphere 1976 up to 11 km.

Source: U.S. Standard Atmosphere, 1976 (NOAA, NASA, USAF; NOAA-S/T 76-1562), equations 18, 23 and
33a and table I. Up to 11 km it is the same as ISO 2533:1975.
"""

from __future__ import annotations

__all__ = ["geopotential", "pressure", "temperature"]

SEA_LEVEL_PRESSURE = 101_325.0
SEA_LEVEL_TEMPERATURE = 288.15
LAPSE_RATE = 0.0065
"""K per metre of geopotential height, up to 11 km."""
EARTH_RADIUS = 6_356_766.0
"""The standard's effective radius for its gravity, m."""
GRAVITY = 9.80665
GAS_CONSTANT = 8.31432
"""The standard's own value of 1976, J/(mol K)."""
MOLAR_MASS = 0.0289644

LOWEST = -5_004.0  # geopotential, of 5,000 m geometric below the sea
HIGHEST = 11_000.0


def geopotential(height: float) -> float:
    """Return the geopotential height (m) of a geometric height (m) above sea level.

    Source: U.S. Standard Atmosphere 1976, equation 18.

    >>> round(geopotential(5000.0), 1)
    4996.1
    """
    return EARTH_RADIUS * height / (EARTH_RADIUS + height)


def temperature(height: float, *, is_geopotential: bool = False) -> float:
    """Return the standard air temperature (K) at a height.

    Args:
        height: above sea level, m; geometric unless told otherwise. From -5 to 11 km geopotential.
        is_geopotential: take `height` as geopotential.

    Raises:
        ValueError: outside that range.

    Source: U.S. Standard Atmosphere 1976, equation 23.

    >>> temperature(1000.0, is_geopotential=True)
    281.65
    """
    level = _level(height, is_geopotential)
    return SEA_LEVEL_TEMPERATURE - LAPSE_RATE * level


def pressure(height: float, *, is_geopotential: bool = False) -> float:
    """Return the standard atmospheric pressure (Pa) at a height.

    Args:
        height: above sea level, m; geometric unless told otherwise. From -5 to 11 km geopotential.
        is_geopotential: take `height` as geopotential.

    Raises:
        ValueError: outside that range.

    Source: U.S. Standard Atmosphere 1976, equation 33a.

    >>> round(pressure(0.0))
    101325
    >>> round(pressure(1609.0) / 1000.0, 1)
    83.4
    """
    ratio = SEA_LEVEL_TEMPERATURE / temperature(height, is_geopotential=is_geopotential)
    exponent = GRAVITY * MOLAR_MASS / (GAS_CONSTANT * LAPSE_RATE)
    # Air thins with height: the colder (higher) level has the lower pressure.
    return float(SEA_LEVEL_PRESSURE * ratio**-exponent)


def _level(height: float, is_geopotential: bool) -> float:
    level = height if is_geopotential else geopotential(height)
    if not LOWEST <= level <= HIGHEST:
        raise ValueError(
            f"a height of {height:.0f} m is outside {LOWEST:.0f} to {HIGHEST:.0f} m, "
            "where the standard atmosphere is used here; check the site's elevation"
        )
    return level

"""The atmosphere against tables of the U.S. Standard Atmosphere 1976."""

import pytest

from faultdoc.physics import atmosphere

PSI = 6894.757
FOOT = 0.3048

TOOLBOX = "U.S. Standard Atmosphere 1976, table at engineeringtoolbox.com/standard-atmosphere-d_604.html"
ASHRAE = "ASHRAE Fundamentals, standard atmosphere, table at engineersedge.com (standard_atmospheric_data_15729)"
TABLE_I = "U.S. Standard Atmosphere 1976, table I (from memory)"


# That page calls its heights geopotential; its figures are those of geometric heights.
@pytest.mark.parametrize(
    ("feet", "psia", "fahrenheit"),
    [
        (-5000, 17.554, 76.84),
        (0, 14.696, 59.0),
        (5000, 12.228, 41.17),
        (10000, 10.108, 23.36),
        (15000, 8.297, 5.55),
        (20000, 6.759, -12.26),
        (30000, 4.373, -47.83),
    ],
)
def test_table_in_feet(published, feet, psia, fahrenheit):
    # Half a unit of the last digit printed, and a little for the rounding of the psi.
    published(TOOLBOX, f"air pressure at {feet} ft, psia", psia, atmosphere.pressure(feet * FOOT) / PSI, 0.001)
    ours = atmosphere.temperature(feet * FOOT) * 1.8 - 459.67
    published(TOOLBOX, f"air temperature at {feet} ft, °F", fahrenheit, ours, 0.02)


@pytest.mark.parametrize(("feet", "psia"), [(-1000, 15.236), (1000, 14.175), (3000, 13.173), (7000, 11.341)])
def test_table_for_engineers(published, feet, psia):
    # The table is rounded from a formula fitted to the standard: 0.1 % covers both.
    ours = atmosphere.pressure(feet * FOOT) / PSI
    published(ASHRAE, f"air pressure at {feet} ft, psia", psia, ours, 0.001, relative=True)


@pytest.mark.parametrize(
    ("metres", "pascals", "kelvin"),
    [(1000, 89_876.0, 281.651), (5000, 54_048.0, 255.676), (10_000, 26_500.0, 223.252)],
)
def test_table_in_metres(published, metres, pascals, kelvin):
    published(TABLE_I, f"air pressure at {metres} m, Pa", pascals, atmosphere.pressure(metres), 1.0)
    published(TABLE_I, f"air temperature at {metres} m, K", kelvin, atmosphere.temperature(metres), 0.001)


def test_tropopause_at_geopotential_height(published):
    source = "U.S. Standard Atmosphere 1976, constants listed at crnslab.org/util/atmo.php"
    pressure = atmosphere.pressure(11_000.0, is_geopotential=True)
    published(source, "air pressure at 11 km geopotential, Pa", 22_632.0, pressure, 0.5)
    temperature = atmosphere.temperature(11_000.0, is_geopotential=True)
    published(source, "air temperature at 11 km geopotential, K", 216.65, temperature, 1e-6)

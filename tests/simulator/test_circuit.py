"""The refrigerant circuits: balances, the design point, and which way every condition moves a state."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.library.load import load_unit, units
from faultdoc.physics import refrigerant
from faultdoc.simulator.circuit import Around, Health, cycles
from faultdoc.simulator.condition import Circuit
from faultdoc.simulator.machine import machine

MACHINES = {id: machine(load_unit(id)) for id in units()}
every_unit = pytest.mark.parametrize("unit", MACHINES.values(), ids=list(MACHINES))


def solve(unit, conditions=(), running=1.0, fans=1.0, ambient=308.15, water_in=None, flow=1.0):
    """One unit: its first circuits in the conditions given, the rest healthy."""
    count = len(unit.circuits)
    all_of_them = [*conditions, *[Circuit()] * (count - len(conditions))]
    shape = (1, count)
    health = Health.of([all_of_them], np.broadcast_to(running, shape), np.full(shape, fans), np.zeros(shape))
    entering = unit.sheet.water.design_entering if water_in is None else water_in
    return cycles(unit, Around(entering, unit.design_rate * flow, flow, ambient, 0.0), health)


@every_unit
def test_the_healthy_unit_meets_its_design_point(unit):
    found = solve(unit)
    assert found.solved.all()
    assert found.cooling.sum() == pytest.approx(unit.sheet.cooling_capacity, rel=0.01)
    assert found.evaporating == pytest.approx(unit.evaporating, abs=0.1)
    # The air that reaches a coil is half a kelvin warmer than the outdoor air.
    assert found.condensing == pytest.approx(unit.condensing + 0.5, abs=0.1)
    assert found.superheat == pytest.approx(unit.superheat, abs=0.1)
    assert found.subcooling == pytest.approx(unit.subcooling, abs=0.15)


conditions = st.builds(
    Circuit,
    charge=st.floats(0.55, 1.3),
    foreign_gas=st.sampled_from([0.0, 1e5]),
    valve_most=st.floats(0.4, 1.0),
    valve_least=st.sampled_from([0.0, 0.3, 0.8]),
    superheat_shift=st.floats(-4.0, 4.0),
    liquid_restriction=st.sampled_from([1.0, 10.0, 40.0]),
    suction_restriction=st.sampled_from([0.0, 30e3]),
    evaporator_fouling=st.floats(0.0, 0.6),
    coil_fouling=st.floats(0.0, 0.6),
    airflow=st.floats(0.6, 1.0),
    recirculation=st.floats(0.0, 0.3),
    volumetric=st.floats(0.6, 1.0),
    isentropic=st.floats(0.7, 1.0),
    suction_gain=st.floats(0.0, 6.0),
    hot_gas=st.sampled_from([0.0, 0.1]),
)


@given(
    unit=st.sampled_from(list(MACHINES.values())),
    first=conditions,
    ambient=st.floats(283.0, 313.0),
    warmer=st.floats(-3.0, 10.0),
    flow=st.floats(0.5, 1.3),
)
@settings(deadline=None, max_examples=60)
def test_energy_and_mass_balance_to_a_thousandth(unit, first, ambient, warmer, flow):
    found = solve(unit, [first], ambient=ambient, water_in=unit.sheet.water.design_entering + warmer, flow=flow)
    assert found.solved.all()
    assert found.rejection == pytest.approx(found.cooling + found.power + found.gained, rel=1e-3)
    drop = unit.sheet.water.design_entering + warmer - found.water_out
    assert found.cooling.sum() == pytest.approx(float(drop[0]) * unit.design_rate * flow, rel=1e-3)
    h1, h2, h3 = found.enthalpies
    through = found.mass_flow * (1.0 - np.array([[first.hot_gas, *[0.0] * (len(unit.circuits) - 1)]]))
    assert found.power == pytest.approx(found.mass_flow * (h2 - h1), rel=1e-9)
    assert found.rejection == pytest.approx(through * (h2 - h3), rel=1e-9)


@every_unit
def test_a_circuit_at_rest_takes_no_part(unit):
    running = [1.0] + [0.0] * (len(unit.circuits) - 1)
    found = solve(unit, running=running)
    assert found.solved.all()
    assert (found.cooling[0, 1:] == 0.0).all()
    assert np.isnan(found.suction_pressure[0, 1:]).all()
    assert 0.9 < found.cooling[0, 0] / unit.capacity[0] < 1.15


# Which way each condition moves what is read, for a valve that holds its superheat.
DIRECTIONS = [
    # condition, lower, higher
    (Circuit(charge=0.7), ["subcooling", "suction_pressure", "discharge_pressure"], ["superheat", "flash"]),
    (Circuit(charge=1.2), [], ["subcooling", "discharge_pressure"]),
    (Circuit(foreign_gas=1.5e5), [], ["subcooling", "discharge_pressure", "discharge_temperature"]),
    (Circuit(coil_fouling=0.5), ["cooling"], ["discharge_pressure", "power", "discharge_temperature"]),
    (Circuit(airflow=0.5), ["cooling"], ["discharge_pressure", "air_out", "power"]),
    (Circuit(recirculation=0.3), ["cooling"], ["discharge_pressure", "air_in"]),
    (Circuit(valve_most=0.3), ["suction_pressure", "cooling"], ["superheat", "discharge_temperature"]),
    (Circuit(liquid_restriction=60.0), ["suction_pressure", "cooling"], ["superheat", "flash"]),
    (Circuit(valve_least=1.0), ["superheat", "subcooling", "discharge_temperature"], ["suction_pressure"]),
    (Circuit(evaporator_fouling=0.6), ["suction_pressure", "cooling"], []),
    (Circuit(volumetric=0.7), ["cooling", "mass_flow"], ["suction_pressure"]),
    (Circuit(isentropic=0.7), [], ["discharge_temperature", "power"]),
    (Circuit(suction_restriction=6e4), ["suction_pressure", "cooling"], []),
    (Circuit(hot_gas=0.15), ["cooling"], ["suction_pressure"]),
    (Circuit(suction_gain=6.0), ["cooling"], ["discharge_temperature"]),
    (Circuit(superheat_shift=5.0), ["suction_pressure"], ["superheat"]),
]


@every_unit
@pytest.mark.parametrize(("condition", "lower", "higher"), DIRECTIONS, ids=lambda value: str(value)[:40])
def test_every_condition_moves_a_circuit_the_physical_way(unit, condition, lower, higher):
    healthy, found = solve(unit), solve(unit, [condition])
    assert found.solved.all()
    for name in lower:
        assert getattr(found, name)[0, 0] < getattr(healthy, name)[0, 0], name
    for name in higher:
        assert getattr(found, name)[0, 0] > getattr(healthy, name)[0, 0], name


@every_unit
@pytest.mark.parametrize("field", ["charge", "valve_most", "volumetric", "airflow"])
def test_more_of_a_fault_leaves_less_capacity(unit, field):
    steps = [solve(unit, [Circuit(**{field: value})]).cooling[0, 0] for value in (1.0, 0.8, 0.6, 0.45)]
    assert all(more >= less - 1e-6 * more for more, less in pairwise(steps))
    assert steps[-1] < 0.97 * steps[0]


def test_many_units_at_once_are_each_as_alone():
    unit = MACHINES["bluff_30"]
    rows = [[Circuit(charge=charge), Circuit()] for charge in (0.6, 0.8, 1.0)]
    shape = (3, 2)
    health = Health.of(rows, np.ones(shape), np.ones(shape), np.zeros(shape))
    together = cycles(unit, Around(285.0, unit.design_rate, 1.0, 303.15, 0.0), health)
    for place, row in enumerate(rows):
        alone = solve(unit, row, ambient=303.15, water_in=285.0)
        assert together.suction_pressure[place] == pytest.approx(alone.suction_pressure[0], rel=1e-5)


def test_a_condenser_without_air_stands_at_the_edge_and_says_so():
    unit = MACHINES["marten_60"]
    found = solve(unit, fans=0.0)
    assert found.at_edge.all()
    assert not found.solved.any()
    assert (found.discharge_pressure > refrigerant.dew_pressure(unit.refrigerant, 350.0)).all()

import numpy as np
import pytest

from faultdoc.diagnosis.plant import plant_graph, routes
from faultdoc.library.load import load_plant
from faultdoc.model.safety import (
    Compressors,
    Oil,
    Panel,
    PlantState,
    Pump,
    Qualification,
    Refrigerant,
    StateNeed,
    Supply,
    Water,
    after,
    all_states,
    may,
    possible,
    satisfies,
)

EVERYONE = frozenset(Qualification)
RUNNING = PlantState(
    supply=Supply.ENERGISED,
    panel=Panel.CLOSED,
    pump=Pump.RUNNING,
    water=Water.PRESSURISED,
    compressors=Compressors.STOPPED,
    oil=Oil.WARM,
)


@pytest.fixture(scope="module")
def plant():
    return load_plant()


@pytest.fixture(scope="module")
def graph(plant):
    return plant_graph(plant.changes, 480.0)


def test_no_change_leads_to_an_impossible_plant(graph):
    assert graph.number_of_edges() > 50
    for source, target in graph.edges():
        assert possible(source)
        assert possible(target)


def test_nothing_is_switched_off_by_pulling_the_supply(graph):
    """Isolating happens only with everything stopped, and costs the oil warm-up."""
    for source, target in graph.edges():
        if source.supply is Supply.ENERGISED and target.supply is Supply.ISOLATED:
            assert source.pump is Pump.STOPPED
            assert source.compressors is Compressors.STOPPED
            assert target.oil is Oil.COLD


def test_compressors_start_only_on_warm_oil_with_water_moving_and_panels_shut(graph):
    starts = [
        source
        for source, target in graph.edges()
        if source.compressors is Compressors.STOPPED and target.compressors is Compressors.RUNNING
    ]
    assert starts
    for state in starts:
        assert state.oil is Oil.WARM
        assert state.pump is Pump.RUNNING
        assert state.panel is Panel.CLOSED
        assert state.refrigerant is Refrigerant.CLOSED


def test_the_water_side_is_let_down_and_filled_only_with_the_pump_stopped(graph):
    """Air cannot be vented with the pump running: common practice, no source."""
    moved = [(source, target) for source, target in graph.edges() if source.water is not target.water]
    assert moved
    for source, target in moved:
        assert source.pump is target.pump is Pump.STOPPED


def test_warm_oil_takes_the_data_sheets_time(plant):
    for minutes in (60.0, 480.0):
        graph = plant_graph(plant.changes, minutes)
        warming = [
            data["minutes"]
            for source, target, data in graph.edges(data=True)
            if source.oil is Oil.COLD and target.oil is Oil.WARM
        ]
        assert warming
        assert set(warming) == {minutes}


def test_what_has_passed_of_the_warm_up_is_kept_by_staying_energised_and_lost_by_isolating(plant):
    """From cold oil: 480 minutes less the 300 passed; isolating and coming back costs all 480 again."""
    fresh, begun = (routes(plant_graph(plant.changes, 480.0, warmed), EVERYONE) for warmed in (0.0, 300.0))
    cold = PlantState.model_validate({**RUNNING.model_dump(), "oil": "cold", "pump": "stopped"})
    isolated = PlantState.model_validate({**cold.model_dump(), "supply": "isolated"})

    def minutes(ways, start, goal):
        return ways.minutes[ways.index[start], ways.index[goal]]

    warm = PlantState.model_validate({**cold.model_dump(), "oil": "warm"})
    assert minutes(fresh, cold, warm) == 480.0
    assert minutes(begun, cold, warm) == 180.0
    there_and_back = minutes(begun, cold, isolated) + minutes(begun, isolated, warm)
    assert there_and_back == minutes(fresh, cold, isolated) + minutes(fresh, isolated, warm)


def test_every_way_is_taken_by_people_who_may(graph):
    for who in Qualification:
        ways = routes(graph, frozenset({who}))
        for start in ways.states:
            for goal in ways.states:
                for change in ways.path(start, StateNeed(**goal.model_dump())) or ():
                    assert may(frozenset({who}), change.who)


def test_paths_arrive_and_cost_what_the_table_says(graph):
    ways = routes(graph, EVERYONE)
    need = StateNeed(supply=Supply.ISOLATED, panel=Panel.OPEN)
    minutes, _ = ways.into(need)
    for start in ways.states:
        path = ways.path(start, need)
        if path is None:
            assert not np.isfinite(minutes[ways.index[start]])
            continue
        at, total = start, 0.0
        for change in path:
            assert satisfies(at, change.when)
            total += 480.0 if isinstance(change.minutes, str) else change.minutes
            at = after(at, change)
        assert satisfies(at, need)
        assert total == pytest.approx(minutes[ways.index[start]])


def test_one_careless_isolation_costs_the_warm_up(plant, graph):
    """Power off restarts the oil warm-up: an hour at least is common practice, no source."""
    ways = routes(graph, EVERYONE)
    ready, _ = ways.into(plant.ready)
    isolated = ways.path(RUNNING, StateNeed(supply=Supply.ISOLATED))
    at = RUNNING
    for change in isolated:
        at = after(at, change)
    assert ready[ways.index[RUNNING]] == 0.0
    assert ready[ways.index[at]] >= 480.0


def test_a_caller_can_neither_isolate_nor_open_anything(graph):
    ways = routes(graph, frozenset({Qualification.CALLER}))
    for state in all_states():
        if state.panel is Panel.CLOSED:
            assert ways.path(state, StateNeed(panel=Panel.OPEN)) is None
        if state.supply is Supply.ENERGISED:
            assert ways.path(state, StateNeed(supply=Supply.ISOLATED)) is None

import pytest

from faultdoc.practice.expert import planned
from faultdoc.practice.scenario import load_scenarios


@pytest.mark.parametrize("id", load_scenarios())
def test_the_planners_path_ends_in_a_proved_fix_without_an_unsafe_act(id: str) -> None:
    scenario = load_scenarios()[id]
    turn = planned(scenario)
    assert turn.solved
    assert not turn.unit.faults
    assert [event for event in turn.events if not event.safe] == []
    mended = {one for event in turn.events if event.kind == "remedy" for one in turn.bench.problem.alike(event.id)}
    assert set(scenario.faults) <= mended
    # Par is what it can be done in, with some air.
    assert turn.minutes <= 1.7 * scenario.minutes

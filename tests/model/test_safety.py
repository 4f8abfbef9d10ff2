from itertools import product

import pytest
from pydantic import ValidationError

from faultdoc.library.places import resources_folder
from faultdoc.library.source import read
from faultdoc.model.safety import (
    STATE_FIELDS,
    Caution,
    Oil,
    PlantFile,
    PlantState,
    Qualification,
    StateChange,
    StateNeed,
    all_states,
    hazardous,
    may,
    possible,
    satisfies,
)

RUNNING = {
    "supply": "energised",
    "panel": "closed",
    "pump": "running",
    "water": "pressurised",
    "compressors": "running",
    "oil": "warm",
    "refrigerant": "closed",
}
CHANGE = {
    "id": "stop_pump",
    "title": "Stop",
    "when": {"pump": "running"},
    "sets": {"pump": "stopped"},
    "minutes": 1.0,
    "who": "crew",
    "steps": ["Stop it."],
}


@pytest.mark.parametrize(
    ("changes", "can_be"),
    [
        ({}, True),
        ({"supply": "isolated"}, False),
        ({"pump": "stopped"}, False),
        ({"oil": "cold"}, False),
        ({"water": "depressurised"}, False),
        ({"refrigerant": "opened"}, False),
        ({"panel": "open"}, True),
        ({"compressors": "stopped", "oil": "cold"}, True),
        ({"compressors": "stopped", "supply": "isolated"}, False),
        ({"compressors": "stopped", "pump": "stopped", "supply": "isolated", "water": "depressurised"}, True),
        ({"compressors": "stopped", "water": "depressurised"}, False),
    ],
)
def test_what_a_plant_can_be_in(changes: dict[str, str], can_be: bool) -> None:
    assert possible(PlantState.model_validate({**RUNNING, **changes})) is can_be


def test_all_states_are_the_possible_ones_each_once() -> None:
    states = all_states()
    everything = [dict(zip(STATE_FIELDS, values, strict=True)) for values in product(*STATE_FIELDS.values())]
    assert len(set(states)) == len(states) < len(everything) == 2**7
    assert set(states) == {state for state in map(PlantState.model_validate, everything) if possible(state)}


def test_a_need_asks_only_for_what_it_names() -> None:
    state = PlantState.model_validate(RUNNING)
    assert satisfies(state, StateNeed())
    assert satisfies(state, StateNeed.model_validate({"pump": "running", "oil": "warm"}))
    assert not satisfies(state, StateNeed.model_validate({"pump": "running", "oil": "cold"}))


@pytest.mark.parametrize(
    ("need", "can_hurt"),
    [
        ({}, False),
        ({"pump": "running"}, False),
        ({"supply": "energised", "panel": "closed"}, False),
        ({"panel": "open"}, True),
        ({"supply": "isolated"}, True),
        ({"water": "depressurised"}, True),
        ({"refrigerant": "opened"}, True),
        ({"compressors": "running"}, True),
        ({"oil": "cold"}, False),
    ],
)
def test_what_can_hurt(need: dict[str, str], can_hurt: bool) -> None:
    assert hazardous(StateNeed.model_validate(need)) is can_hurt


def test_who_may_do_what() -> None:
    ladder = [Qualification.CALLER, Qualification.CREW, Qualification.TECHNICIAN]
    for place, held in enumerate(ladder):
        for needed in Qualification:
            assert may(frozenset({held}), needed) is (needed in ladder[: place + 1])
    both = (Qualification.ELECTRICAL_WORKER, Qualification.REFRIGERANT_HANDLER)
    for held in both:
        assert {needed for needed in Qualification if may(frozenset({held}), needed)} == {*ladder, held}
    assert all(may(frozenset(both), needed) for needed in Qualification)
    assert not may(frozenset(), Qualification.CALLER)


def test_a_state_names_everything_but_the_circuit() -> None:
    assert (
        PlantState.model_validate({k: v for k, v in RUNNING.items() if k != "refrigerant"}).refrigerant == "closed"
    )
    with pytest.raises(ValidationError, match="oil"):
        PlantState.model_validate({k: v for k, v in RUNNING.items() if k != "oil"})
    with pytest.raises(ValidationError, match="'cold' or 'warm'"):
        PlantState.model_validate({**RUNNING, "oil": "tepid"})
    assert PlantState.model_validate(RUNNING).oil is Oil.WARM


@pytest.mark.parametrize("minutes", [1, 0.5, "oil_warm_up"])
def test_minutes_of_a_change(minutes: object) -> None:
    assert StateChange.model_validate({**CHANGE, "minutes": minutes}).minutes == minutes


@pytest.mark.parametrize(
    ("changes", "where"),
    [
        ({"minutes": "long"}, "minutes"),
        ({"minutes": -1}, "minutes"),
        ({"steps": []}, "steps"),
        ({"who": "me"}, "who"),
        ({"sets": {"pump": "off"}}, "sets.pump"),
        ({"cautions": [{"signal": "beware", "text": "x"}]}, "cautions.0.signal"),
    ],
)
def test_bad_changes(changes: dict[str, object], where: str) -> None:
    with pytest.raises(ValidationError) as caught:
        StateChange.model_validate({**CHANGE, **changes})
    assert where in str(caught.value)


def test_a_plant_file_has_changes_and_stops() -> None:
    good = read(resources_folder() / "plant.yaml").data
    assert PlantFile.model_validate(good).stops[0] == Caution.model_validate(good["stops"][0])
    for part in ("changes", "stops"):
        with pytest.raises(ValidationError, match=part):
            PlantFile.model_validate({**good, part: []})

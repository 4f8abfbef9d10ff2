import pytest

from faultdoc.library.vocabulary import usual_limit
from faultdoc.practice.scenario import Scenario, by_hand, load_scenarios
from faultdoc.practice.trainee import BAD_FOR, GOOD_FOR, HINT_MINUTES, PROOF_MINUTES, Turn


def call(tree: str = "flow_proving_trip", unit: str = "bluff_30", seed: int = 1, **faults: float) -> Turn:
    return Turn.begin(by_hand(unit, tree, faults or {"strainer_clogged": 0.85}), seed)


def with_state(scenario: Scenario, **state: str) -> Scenario:
    changed = {**scenario.state.model_dump(mode="json"), **state}
    return Scenario.model_validate({**scenario.model_dump(mode="json"), "state": changed})


def by_crew(turn_of: Scenario) -> Scenario:
    return Scenario.model_validate({**turn_of.model_dump(mode="json"), "who": ["crew"]})


# --- what is unsafe ---


@pytest.mark.parametrize(
    ("before", "act", "words"),
    [
        ((), "change:open_panel_dead", "supply is on"),
        ((), "change:open_refrigerant", "supply is on"),
        ((), "change:start_compressors", "without water flow"),
        (("start_pump",), "change:isolate_supply", "pump is running"),
        (("start_pump",), "change:depressurise_water", "pump is running"),
        (("depressurise_water",), "change:start_pump", "runs dry"),
        (("open_panel_live",), "change:start_pump", "panel is open"),
        (("isolate_supply", "open_panel_dead"), "change:energise_supply", "panel is open"),
        (("isolate_supply", "energise_supply", "start_pump"), "change:start_compressors", "oil is cold"),
        (("isolate_supply", "energise_supply", "start_pump"), "prove", "oil is cold"),
        ((), "mend:strainer_clogged", "under pressure"),
        ((), "mend:supply_phases_reversed", "supply is on"),
        ((), "mend:pump_leads_swapped", "supply is on"),
        (("start_pump",), "mend:air_in_loop", "pump is running"),
        ((), "measure:pump_winding_resistance_l1_l2", "supply is on"),
    ],
)
def test_an_unsafe_act_is_refused_explained_and_counted(before: tuple[str, ...], act: str, words: str) -> None:
    turn = call()
    for id in before:
        assert turn.change(id).kind == "change"
    state, minutes, faults = turn.state, turn.minutes, dict(turn.unit.faults)
    what, _, id = act.partition(":")
    event = getattr(turn, what)(*([id] if id else []))
    assert (event.kind, event.safe) == ("refused", False)
    assert event.why is not None
    assert words in event.why
    assert (turn.state, turn.minutes, turn.unit.faults) == (state, minutes, faults)
    assert [one for one in turn.events if not one.safe] == [event]


@pytest.mark.parametrize("act", ["open_panel_live", "isolate_supply", "open_refrigerant"])
def test_what_needs_another_qualification_is_refused(act: str) -> None:
    turn = Turn.begin(by_crew(call().scenario))
    event = turn.change(act)
    assert not event.safe
    assert event.why is not None
    assert "not the person" in event.why


def test_a_live_reading_behind_a_panel_is_not_for_the_crew() -> None:
    event = Turn.begin(by_crew(call().scenario)).measure("voltage_l1_l2")
    assert (event.kind, event.safe) == ("refused", False)


def test_a_protective_device_is_not_reset_again_and_again() -> None:
    turn = call("high_head", "marten_60", high_pressure_switch_drifted=0.9)
    turn.change("start_pump")
    for _ in range(2):
        event = turn.change("start_compressors")
        assert event.safe
        turn.wait(30.0)
        assert any(stop.safety == "high_pressure" for stop in turn.moment.panel.lock_outs)
        turn.change("stop_compressors")
    event = turn.change("start_compressors")
    assert not event.safe
    assert event.why is not None
    assert "reset as often" in event.why


def test_a_device_reset_by_a_remedy_is_reset_once_only() -> None:
    turn = call("pump_trouble", pump_seized=1.0)
    device = next(one for one in turn.remedies() if one.remedy.resets == "pump_overload")
    for change in ("isolate_supply", "open_panel_dead"):
        turn.change(change)
    first = turn.mend(device.id)
    assert first.kind == "remedy", first
    again = turn.mend(device.id)
    assert not again.safe
    assert again.why is not None
    assert "reset as often" in again.why


def test_an_answer_that_tells_of_danger_ends_the_work() -> None:
    turn = call("short_cycling", seed=3, switch_wiring_loose=1.0)
    first = next(one for one in turn.questions() if one.first)
    seen = turn.look(first.id)
    assert "STOP" in seen.text
    refused = turn.change("start_pump")
    assert not refused.safe
    assert turn.give_up().value == "stopped"
    assert turn.finished


# --- what it costs ---


def test_time_passes_and_costs_add_up() -> None:
    turn = call()
    turn.change("start_pump")
    turn.measure("pump_in_pressure")
    turn.measure("pump_out_pressure")
    turn.look(turn.questions()[0].id)
    turn.wait(7.0)
    turn.hint()
    assert turn.minutes == pytest.approx(sum(event.minutes for event in turn.events))
    assert turn.clock == pytest.approx(60.0 * turn.minutes)
    times = [event.time for event in turn.events]
    assert times == sorted(times)
    # Of the two gauges the first had to be fetched; see resources/plant.yaml.
    first, second = (event.minutes for event in turn.events if event.kind == "reading")
    assert first >= second + 4.0


def test_a_hint_costs_and_the_second_one_says_more() -> None:
    turn = call()
    first, second = turn.hint(), turn.hint()
    assert (first.minutes, second.minutes, turn.minutes) == (HINT_MINUTES, HINT_MINUTES, 2 * HINT_MINUTES)
    assert "side first" in first.text
    assert "next" in second.text


def test_what_is_so_already_costs_nothing_and_is_not_unsafe() -> None:
    turn = call()
    event = turn.change("stop_pump")
    assert (event.kind, event.safe, turn.minutes) == ("note", True, 0.0)


@pytest.mark.parametrize("minutes", [0.0, -5.0, 1e6])
def test_a_wait_that_cannot_be_is_refused(minutes: float) -> None:
    with pytest.raises(ValueError, match="1440"):
        call().wait(minutes)


def test_an_unknown_point_or_change_is_refused() -> None:
    turn = call()
    with pytest.raises(KeyError, match="points"):
        turn.measure("suction_pressure_d")
    with pytest.raises(KeyError, match="changes"):
        turn.change("press_everything")


# --- the live unit ---


def test_plant_and_unit_agree() -> None:
    turn = call(supply_valve_shut=0.7)
    assert not turn.moment.panel.pump
    turn.change("start_pump")
    assert turn.moment.panel.pump
    assert turn.state.pump == "running"
    turn.change("stop_pump")
    assert not turn.moment.panel.pump
    turn.change("isolate_supply")
    assert turn.unit_shows() == ["The disconnect is locked out; nothing is lit."]
    assert turn.state.oil == "cold"


def test_a_pump_run_by_hand_stays_on_though_the_flow_switch_does_not_make() -> None:
    turn = call(strainer_clogged=1.0)
    turn.change("start_pump")
    turn.wait(10.0)
    assert turn.state.pump == "running"


def test_a_unit_that_trips_changes_the_plant_and_says_so() -> None:
    turn = call(strainer_clogged=1.0)
    turn.change("start_pump")
    event = turn.change("start_compressors")
    assert "does not start" in event.text
    assert turn.state.compressors == "stopped"
    assert any(one.kind == "unit" and "Flow proving switch" in one.text for one in turn.events)


def test_what_gauges_showed_before_a_trip_can_still_be_read() -> None:
    turn = call("high_head", "tarn_120", coil_inlet_covered=1.0)
    assert turn.measure("discharge_pressure_a").kind == "refused"
    turn.change("start_pump")
    turn.change("start_compressors")
    turn.wait(20.0)
    event = turn.measure("discharge_pressure_a")
    assert event.kind == "reading"
    assert "before it stopped" in event.text


def test_a_reading_keeps_within_the_limit_of_its_instrument() -> None:
    turn = call()
    turn.change("start_pump")
    for point in ("pump_out_pressure", "water_in_temperature", "ambient_air_temperature"):
        event, truth = turn.measure(point), turn.truth(point)
        assert isinstance(truth, float)
        assert isinstance(event.value, float)
        assert abs(event.value - truth) <= 1.1 * usual_limit(turn.library.points[point], truth)


def test_a_fault_that_comes_and_goes_is_away_most_of_the_time() -> None:
    turn = call(switch_wiring_loose=1.0)
    turn.change("start_pump")
    turn.change("start_compressors")
    seen = []
    for _ in range(2 * round((GOOD_FOR + BAD_FOR) / 60.0)):
        turn.wait(1.0)
        seen.append(turn.truth("flow_switch_contact"))
    acted = [one for one in turn.events if one.kind == "unit" and "Flow proving switch" in one.text]
    assert acted
    assert not turn.moment.panel.lock_outs
    assert seen.count("closed") > 0.8 * len(seen)


def test_the_same_seed_gives_the_same_readings() -> None:
    one, two, other = (call(seed=seed) for seed in (4, 4, 5))
    for turn in (one, two, other):
        turn.change("start_pump")
        turn.measure("pump_out_pressure")
    assert one.events == two.events
    assert one.events[-1].value != other.events[-1].value


# --- the fix ---


def test_a_wrong_fix_costs_and_its_proof_does_not_hold() -> None:
    turn = call(strainer_clogged=1.0)
    wrong = turn.mend("supply_valve_shut")
    assert wrong.kind == "remedy"
    assert turn.minutes == wrong.minutes > 0.0
    turn.change("start_pump")
    proof = turn.prove()
    assert (proof.kind, proof.value) == ("proof", "failed")
    assert not turn.finished


def test_the_right_fix_is_proved_by_running() -> None:
    turn = call()
    turn.change("depressurise_water")
    assert turn.mend("strainer_clogged").kind == "remedy"
    assert turn.prove().kind == "refused"
    turn.change("refill_water")
    turn.change("start_pump")
    proof = turn.prove()
    assert (proof.value, turn.solved, turn.finished) == ("held", True, True)
    assert proof.minutes >= PROOF_MINUTES
    assert turn.measure("ambient_air_temperature").text == "The call is over."


def test_one_of_two_faults_mended_is_no_proof() -> None:
    turn = call(strainer_clogged=0.8, loop_underfilled=0.8)
    turn.change("depressurise_water")
    turn.mend("strainer_clogged")
    turn.change("refill_water")
    turn.change("start_pump")
    assert turn.prove().value == "failed"
    assert set(turn.unit.faults) == {"loop_underfilled"}


def test_a_unit_found_running_runs() -> None:
    turn = Turn.begin(load_scenarios()["set_ten_degrees_off"])
    assert turn.state.compressors == "running"
    assert "compressors run" in turn.unit_shows()[0]
    assert turn.measure("water_out_temperature").kind == "reading"


def test_a_dark_unit_warms_no_oil() -> None:
    turn = Turn.begin(with_state(load_scenarios()["no_light_at_all"], oil="cold"))
    assert turn.state.oil == "cold"
    assert turn.unit_shows() == ["Nothing is lit: no power."]
    event = turn.change("warm_oil")
    assert (event.kind, event.minutes) == ("note", 0.0)

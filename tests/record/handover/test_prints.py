"""What is told to have changed, part by part and in which respect."""

from dataclasses import replace

import pytest
from machines import TREE

from faultdoc.diagnosis.assess import bench_for
from faultdoc.library.load import load_library, load_unit
from faultdoc.model.safety import all_states, possible
from faultdoc.record.handover.about import HAZARDS, dangers
from faultdoc.record.handover.prints import Altered, altered, prints_of, without_parts

TEXT = TREE.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def bench_of(tmp_path_factory):
    def made(text):
        path = tmp_path_factory.mktemp("tree") / "valves.yaml"
        path.write_text(text, encoding="utf-8")
        return bench_for(load_library(path), load_unit("bluff_30"), ("valves",))

    return made


@pytest.fixture(scope="module")
def sent(bench_of):
    return prints_of(bench_of(TEXT))


@pytest.mark.parametrize(
    ("old", "new", "found"),
    [
        ("How does the pump sound?", "What does the pump sound like?", {("questions", "pump_sound", "words")}),
        ("title: It rattles", "title: It clatters", {("questions", "pump_sound", "words")}),
        ("smooth: 0.3, rattles: 0.7", "smooth: 0.4, rattles: 0.6", {("questions", "pump_sound", "numbers")}),
        ("spread: 0.3, basis: estimate", "spread: 0.3, basis: fleet", set()),
        ("    minutes: 4\n", "    minutes: 6\n", {("questions", "contact_read", "work")}),
        ("Live parts kill. Measure only.", "Live parts kill.", {("questions", "contact_read", "work")}),
        ("    rate: 20\n", "    rate: 25\n", {("causes", "strainer_dirty", "numbers")}),
        ("Wash the basket.", "Rinse the basket.", {("causes", "strainer_dirty", "words")}),
        ("    system: control\n", "    system: electrical\n", {("causes", "switch_stuck", "form")}),
        ("Water does not flow enough", "Too little water flows", {("events", "no_flow", "words")}),
    ],
)
def test_a_part_that_changed_is_named_with_what_changed_in_it(bench_of, sent, old, new, found):
    assert old in TEXT
    here = prints_of(bench_of(TEXT.replace(old, new)))
    assert set(altered(sent, here)) == {Altered(*one) for one in found}
    assert (without_parts(sent, ["valves"]).trees == without_parts(here, ["valves"]).trees) is not bool(found)


def test_the_same_is_the_same_in_any_order_of_its_maps(bench_of, sent):
    swapped = TEXT.replace("{smooth: 0.3, rattles: 0.7}", "{rattles: 0.7, smooth: 0.3}")
    assert swapped != TEXT
    assert prints_of(bench_of(swapped)) == sent


def test_plant_and_data_sheet_are_looked_at_too(bench_of, sent):
    bench = bench_of(TEXT)
    plant = bench.library.plant.model_copy(update={"visit_minutes": 999.0})
    sheet = bench.sheet.model_copy(update={"oil_warm_up": 1.0})
    other = replace(bench, library=replace(bench.library, plant=plant), sheet=sheet)
    assert set(altered(sent, prints_of(other))) == {
        Altered("plant", "visit_minutes", "form"),
        Altered("sheet", "oil_warm_up", "form"),
    }
    short = altered(without_parts(sent, ["valves"]), prints_of(other))
    assert {(one.kind, one.how) for one in short} == {("plant", "whole"), ("sheet", "whole")}


def test_whoever_comes_to_a_plant_is_warned_worst_first():
    order = ["danger", "warning", "caution", "notice"]
    states = all_states()
    assert len(states) == 42
    for state in filter(possible, states):
        found = dangers(state)
        words = [order.index(caution.signal) for caution in found]
        assert words == sorted(words)
        live = state.panel == "open" and state.supply == "energised"
        assert any("live parts" in caution.text for caution in found) is live
        assert any("locked out" in caution.text for caution in found) is (state.supply == "isolated")
        quiet = state.compressors == state.pump == "stopped" and state.oil == "warm" and state.panel == "closed"
        whole = state.water == "pressurised" and state.refrigerant == "closed" and state.supply == "energised"
        assert bool(found) is not (quiet and whole) or state.panel == "open"
    assert len(HAZARDS) == 7

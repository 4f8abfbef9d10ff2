"""Data sheets from nameplates: little is needed, what lacks is assumed and said so, misreadings are doubted."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make, make_all
from faultdoc.checks.base import CheckResult, Verdict
from faultdoc.checks.nameplate import COP, NameplateError, sheet_from
from faultdoc.library.load import load_unit
from faultdoc.library.sheets import sheet_yaml
from faultdoc.library.source import read_text
from faultdoc.library.translate import build
from faultdoc.model.nameplate import NAMEPLATE_FIELDS, NEEDED_ONE_OF
from faultdoc.model.unit import CompressorType, DataSheet, Feature, Glycol
from faultdoc.physics import refrigerant
from faultdoc.quantities import Kind, System, show

LEAST = {
    "title": "Yard unit 7",
    "refrigerant": "R-410A",
    "voltage": "460 V",
    "compressor_rated_current": "4 x 15.8 A",
}

BLUFF = LEAST | {
    "title": "Bluff 30", "capacity": "105 kW", "frequency": "60 Hz", "control_voltage": "115 V",
    "minimum_circuit_ampacity": "85 A", "maximum_protection": "100 A", "circuit_count": "2",
    "compressor_locked_rotor_current": "125 A", "pump_power": "5 hp", "pump_current": "6.6 A",
    "minimum_flow": "43 gpm", "flow_switch": "differential", "charge": "21 lb", "fan_count": "4",
    "fan_current": "2.6 A",
}  # fmt: skip


def problems(**changes: str) -> dict[str, str]:
    with pytest.raises(NameplateError) as refused:
        sheet_from(LEAST | changes)
    return refused.value.problems


# --- fields ---


def test_as_little_as_can_be_is_needed():
    assert [one.id for one in NAMEPLATE_FIELDS if one.needed] == ["title", "refrigerant", "voltage"]
    assert NEEDED_ONE_OF == (("capacity", "compressor_rated_current"),)
    ids = [one.id for one in NAMEPLATE_FIELDS]
    assert len(ids) == len(set(ids))
    for one in NAMEPLATE_FIELDS:
        assert one.title
        assert one.help
        assert (one.kind is Kind.CHOICE) == bool(one.choices)
    choices = {one.id: {choice.id for choice in one.choices} for one in NAMEPLATE_FIELDS}
    assert choices["compressor_type"] == set(CompressorType)
    assert choices["glycol"] == set(Glycol)


# --- the sheet ---


def test_the_least_makes_a_sheet():
    sheet, assumptions, doubts = sheet_from(LEAST)
    assert sheet.id == "yard_unit_7"
    assert [(one.circuit, one.rated_current) for one in sheet.compressors] == [
        ("a", 15.8), ("a", 15.8), ("b", 15.8), ("b", 15.8),
    ]  # fmt: skip
    power = sqrt(3.0) * 460.0 * 4 * 15.8 * 0.85
    assert sheet.cooling_capacity == pytest.approx(COP * power, rel=0.005)
    assert sheet.water.pump is None
    assert doubts == ()
    assert {path for one in assumptions for path in one.paths} == set(sheet.assumed)
    assert {"cooling_capacity", "water.barrel", "water.design_flow", "electrical.frequency"} <= set(sheet.assumed)
    assert all(one.value and one.why for one in assumptions)


def test_what_is_on_the_plate_is_taken_and_not_assumed():
    full = load_unit("bluff_30")
    sheet, _, doubts = sheet_from(BLUFF)
    assert doubts == ()
    assert sheet.cooling_capacity == full.cooling_capacity
    assert sheet.electrical.minimum_circuit_ampacity == full.electrical.minimum_circuit_ampacity
    assert sheet.water.minimum_flow == pytest.approx(full.water.minimum_flow)
    assert sheet.water.pump.rated_power == pytest.approx(full.water.pump.rated_power)
    assert sheet.water.pump.rated_current == 6.6
    assert sheet.refrigerant_side.charge == pytest.approx(full.refrigerant_side.charge)
    assert [(fan.circuit, fan.count) for fan in sheet.fans] == [("a", 2), ("b", 2)]
    assert {compressor.locked_rotor_current for compressor in sheet.compressors} == {125.0}
    assert {Feature.OWN_PUMP, Feature.DIFFERENTIAL_FLOW_SWITCH} <= set(sheet.features)
    for path in ("cooling_capacity", "electrical.frequency", "water.pump.rated_current", "water.minimum_flow"):
        assert path not in sheet.assumed


@pytest.mark.parametrize("unit", ["bluff_30", "marten_60", "tarn_120"])
def test_the_shipped_units_from_their_nameplates(unit, points):
    """What is assumed lies within its stated width of the papers."""
    full = load_unit(unit)
    answers = {
        "title": full.title, "refrigerant": full.refrigerant, "voltage": f"{full.electrical.voltage} V",
        "compressor_rated_current": "; ".join(f"{one.rated_current} A" for one in full.compressors),
        "pump_power": f"{full.water.pump.rated_power / 1000.0} kW",
    }  # fmt: skip
    sheet, _, doubts = sheet_from(answers, System.SI)
    assert doubts == ()
    assert sheet.electrical.frequency == full.electrical.frequency
    assert [one.circuit for one in sheet.compressors] == [one.circuit for one in full.compressors]
    assert sheet.compressors[0].type in (full.compressors[0].type, CompressorType.SCREW)
    assert sheet.cooling_capacity == pytest.approx(full.cooling_capacity, rel=0.33)
    assert sheet.water.design_flow == pytest.approx(full.water.design_flow, rel=0.33)
    assert sheet.water.pump.rated_current == pytest.approx(full.water.pump.rated_current, rel=0.12)
    assert sheet.water.pump.points[0].head == pytest.approx(full.water.pump.points[0].head, rel=0.35)
    assert sheet.water.connection_bore == pytest.approx(full.water.connection_bore, rel=0.3)


def test_a_nameplate_calls_nothing_that_the_papers_do_not(read, points):
    """The healthy unit read against the guessed sheet: wide uncertainties keep it from false alarms."""
    full = load_unit("bluff_30")
    guessed = sheet_from({id: BLUFF[id] for id in (*LEAST, "pump_power", "flow_switch")}).sheet
    readings = read(
        barrel_pressure_drop="5.9 psi", pump_in_pressure="12 psi", pump_out_pressure="55 psi", water_flow="72 gpm",
        dead_head_in_pressure="12 psi", dead_head_out_pressure="61 psi", standing_pressure="25 psi",
        water_in_temperature="54 °F", water_out_temperature="44 °F", hose_length="300 ft", hose_bore="2.5 in",
        pump_current_l1="4.7 A", pump_current_l2="4.6 A", pump_current_l3="4.8 A", high_point_height="40 ft",
        load_pressure_drop="18 psi",
    )  # fmt: skip
    by_papers = {result.id: result for result in make_all(full, readings, points)}
    by_plate = {result.id: result for result in make_all(guessed, readings, points)}
    assert {"flow_from_barrel_drop", "pump_head", "pump_dead_head", "heat_moved", "loop_volume"} <= set(by_plate)
    alarms = {
        id for id, result in by_plate.items()
        if result.verdict is not Verdict.AS_EXPECTED and by_papers[id].verdict is Verdict.AS_EXPECTED
    }  # fmt: skip
    assert alarms == set()
    for id in ("flow_from_barrel_drop", "pump_head", "pump_dead_head", "heat_moved"):
        assert by_plate[id].residual_uncertainty > 1.5 * by_papers[id].residual_uncertainty, id


def test_a_guess_still_tells_a_great_fault(read, points):
    guessed = sheet_from(BLUFF).sheet
    shut = make("flow_from_barrel_drop", guessed, read(barrel_pressure_drop="0.1 psi"), points)
    assert isinstance(shut, CheckResult)
    assert shut.verdict is Verdict.LOW


def test_names():
    assert sheet_from(LEAST | {"title": "7"}).sheet.id == "unit_7"
    assert sheet_from(LEAST | {"title": "Größe 30, Halle B"}).sheet.id == "gr_e_30_halle_b"
    assert sheet_from(LEAST | {"title": "???"}).sheet.id == "unit"
    assert len(sheet_from(LEAST | {"title": "x" * 200}).sheet.id) == 64
    assert sheet_from(LEAST | {"refrigerant": "r 410 a"}).sheet.refrigerant == "R-410A"


def test_units_of_the_reader():
    bare = LEAST | {"pump_power": "3.7", "design_flow": "4.5"}
    assert sheet_from(bare, System.SI).sheet.water.design_flow == pytest.approx(0.0045)
    drop = next(one for one in sheet_from(LEAST, System.SI).assumptions if "water.design_flow" in one.paths)
    assert "L/s" in drop.value or "m3/h" in drop.value


def test_50_hz_is_told_by_the_voltage():
    sheet = sheet_from(LEAST | {"voltage": "400 V"}).sheet
    assert (sheet.electrical.frequency, sheet.electrical.control_voltage) == (50.0, 230.0)


def test_a_pump_from_its_current_alone():
    sheet = sheet_from(LEAST | {"pump_current": "6.6 A"}).sheet
    assert sheet.water.pump.rated_power == pytest.approx(5 * 745.7, rel=0.05)
    assert {"water.pump.rated_power", "water.pump.points"} <= set(sheet.assumed)


def test_flow_switches_and_glycol():
    paddle = sheet_from(LEAST | {"flow_switch": "paddle"}).sheet
    assert Feature.PADDLE_FLOW_SWITCH in paddle.features
    assert paddle.water.minimum_flow <= paddle.water.flow_proving.breaks_at_flow < paddle.water.design_flow
    unknown = sheet_from(LEAST).sheet
    assert not {Feature.PADDLE_FLOW_SWITCH, Feature.DIFFERENTIAL_FLOW_SWITCH} & set(unknown.features)
    mixed = sheet_from(LEAST | {"glycol": "ethylene", "glycol_fraction": "30 %"}).sheet
    assert (mixed.water.usual_glycol, mixed.water.usual_glycol_fraction) == (Glycol.ETHYLENE, 0.3)
    assert "water.usual_glycol" not in mixed.assumed
    assert sheet_from(LEAST | {"glycol": "none", "glycol_fraction": "0 %"}).sheet.water.usual_glycol is Glycol.NONE


def test_flow_and_capacity_together_give_the_temperature_difference():
    water = sheet_from(
        LEAST | {"capacity": "105 kW", "design_flow": "90 gpm", "design_leaving": "45 °F"}
    ).sheet.water
    assert (water.design_entering - water.design_leaving) * 1.8 == pytest.approx(8.0, abs=0.2)


# --- refusals and doubts ---


def test_what_is_needed():
    with pytest.raises(NameplateError) as refused:
        sheet_from({"title": "  "})
    assert set(refused.value.problems) == {"title", "refrigerant", "voltage", "capacity"}
    assert "Rated-load current" in refused.value.problems["capacity"]
    assert "Voltage: this is needed" in str(refused.value)


@pytest.mark.parametrize(
    ("changes", "id", "words"),
    [
        ({"voltage": "460 A"}, "voltage", "not a unit of voltage"),
        ({"voltage": "0 V"}, "voltage", "not above zero"),
        ({"compressor_count": "four"}, "compressor_count", "no count"),
        ({"compressor_count": "0"}, "compressor_count", "from 1 on"),
        ({"compressor_type": "scrol"}, "compressor_type", "did you mean 'scroll'?"),
        ({"compressor_rated_current": ";"}, "compressor_rated_current", "no value in it"),
        ({"compressor_rated_current": "15 A; 16 A", "compressor_count": "3"}, "compressor_rated_current",
         "2 values for 3 compressors"),
        ({"compressor_rated_current": "12 x 10 A"}, "compressor_count", "at most 8"),
        ({"compressor_locked_rotor_current": "100 A; 110 A"}, "compressor_locked_rotor_current", "2 values for 4"),
        ({"circuit_count": "5"}, "circuit_count", "5 circuits for 4 compressors"),
        ({"minimum_flow": "300 gpm"}, "minimum_flow", "not below the design flow"),
        ({"fan_count": "90"}, "fan_count", "at most 16"),
        ({"glycol": "none", "glycol_fraction": "20 %"}, "glycol_fraction", "say which"),
        ({"flow_switch": "other"}, "flow_switch", "none of differential, paddle, unknown"),
    ],
)  # fmt: skip
def test_refusals(changes, id, words):
    assert words in problems(**changes)[id]


def test_an_unknown_field_is_a_mistake_of_the_caller():
    with pytest.raises(KeyError):
        sheet_from(LEAST | {"colour": "green"})


@pytest.mark.parametrize(
    ("changes", "id", "words"),
    [
        ({"capacity": "30 kW"}, "capacity", "kW a ton is too high"),
        ({"capacity": "1050 kW"}, "capacity", "too low"),
        ({"control_voltage": "11.5 V"}, "control_voltage", "no usual control voltage"),
        ({"voltage": "46 V", "capacity": "105 kW"}, "voltage", "no usual voltage"),
        ({"refrigerant": "R-41A"}, "refrigerant", "not known"),
        ({"minimum_circuit_ampacity": "850 A"}, "minimum_circuit_ampacity", "far above"),
        ({"maximum_protection": "40 A", "minimum_circuit_ampacity": "85 A"}, "maximum_protection", "below"),
        ({"pump_power": "5 hp", "pump_current": "66 A"}, "pump_current", "too low"),
        ({"capacity": "105 kW", "design_flow": "720 gpm"}, "design_flow", "too high"),
        ({"charge": "400 lb"}, "charge", "too high"),
        ({"compressor_locked_rotor_current": "20 A"}, "compressor_locked_rotor_current", "too low"),
        ({"water_pressure_limit": "15 psig", "pump_power": "5 hp"}, "water_pressure_limit", "would lift it"),
        ({"design_leaving": "33 °F"}, "design_leaving", "freezes at"),
    ],
)  # fmt: skip
def test_doubts_stand_at_the_field_that_was_typed(changes, id, words):
    doubts = sheet_from(LEAST | changes).doubts
    assert any(one.field == id and words in one.text for one in doubts), doubts


# --- any nameplate ---


@given(
    name=st.sampled_from(refrigerant.NAMES),
    voltage=st.sampled_from([208, 230, 380, 400, 460, 575]),
    rated=st.lists(st.floats(5.0, 300.0), min_size=1, max_size=8),
    pump=st.one_of(st.none(), st.floats(0.5, 60.0)),
    switch=st.sampled_from(["differential", "paddle", "unknown", ""]),
    fans=st.one_of(st.none(), st.integers(1, 12)),
    system=st.sampled_from(System),
)
@settings(deadline=None, max_examples=60)
def test_any_nameplate_makes_a_sheet_that_is_read_back_equal(name, voltage, rated, pump, switch, fans, system):
    answers = {
        "title": "Any unit", "refrigerant": name, "voltage": f"{voltage} V", "flow_switch": switch,
        "compressor_rated_current": "; ".join(f"{amperes:.1f} A" for amperes in rated),
        "pump_power": "" if pump is None else f"{pump:.2f} kW", "fan_count": "" if fans is None else str(fans),
    }  # fmt: skip
    sheet, assumptions, _ = sheet_from(answers, system)
    assert build(DataSheet, read_text(sheet_yaml(sheet, assumptions), "any.yaml")) == sheet
    assert show(sheet.cooling_capacity, Kind.POWER, system)

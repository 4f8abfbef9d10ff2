"""Lint of data sheets: every slip of the pen is named with its line, and sound sheets raise nothing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from faultdoc.checks.lint_units import RULES, lint_unit, lint_units, sheet_faults
from faultdoc.library.load import units
from faultdoc.library.places import resources_folder
from faultdoc.library.source import read_text
from faultdoc.library.translate import build
from faultdoc.model.unit import DataSheet

TEXT = (resources_folder() / "units" / "bluff_30.yaml").read_text(encoding="utf-8")

LAST = "locked_rotor_current: 125 A, winding_resistance: 1.1 ohm}\noil_warm_up"
"""The end of the last compressor's line."""

CASES = [
    # rule, spoilt text, in its stead, where the warning points, words of what, words of remedy
    (
        "power-a-ton",
        "cooling_capacity: 105 kW",
        "cooling_capacity: 30 kW",
        "cooling_capacity",
        "kW a ton is too high",
        "two compressors together",
    ),
    (
        "power-a-ton",
        "cooling_capacity: 105 kW",
        "cooling_capacity: 1050 kW",
        "cooling_capacity",
        "too low",
        "check capacity",
    ),
    (
        "flow-and-capacity",
        "design_flow: 72 gpm",
        "design_flow: 72 L/s",
        "design_flow",
        "72.0 L/s) is too high",
        "71.5 gpm (4.51 L/s) would fit",
    ),
    (
        "flow-and-capacity",
        "design_entering: 54 °F",
        "design_entering: 46 °F",
        "design_flow",
        "too low",
        "temperatures",
    ),
    (
        "connection",
        "connection_bore: 2.5 in",
        "connection_bore: 25 in",
        "connection_bore",
        "too low",
        "the inside",
    ),
    (
        "pump-power",
        "rated_power: 5 hp",
        "rated_power: 50 hp",
        "rated_power",
        "the motor has 37 kW",
        "curve's units",
    ),
    (
        "pump-power",
        "{flow: 72 gpm, head: 98 ft, shaft_power: 3.1 hp",
        "{flow: 72 gpm, head: 98 ft, shaft_power: 1.3 hp",
        "head: 98 ft",
        "on the shaft can give",
        "power of the point",
    ),
    (
        "pump-power",
        "shaft_power: 4.2 hp",
        "shaft_power: 8.4 hp",
        "head: 60 ft",
        "on the shaft of a motor of",
        "service factor",
    ),
    (
        "pump-current",
        "rated_current: 6.6 A",
        "rated_current: 66 A",
        "rated_current: 66 A",
        "efficiency 0.07, too low",
        "check current",
    ),
    (
        "barrel-exponent",
        "{flow: 60 gpm, drop: 9.4 ft water}",
        "{flow: 60 gpm, drop: 6.4 ft water}",
        "drop: 6.4",
        "flow to 0.92",
        "1.8 to 1.95 usual",
    ),
    (
        "barrel-exponent",
        "{flow: 60 gpm, drop: 9.4 ft water}",
        "{flow: 60 gpm, drop: 6.4 ft water}",
        "drop: 16.2",
        "flow to 3.23",
        "check both",
    ),
    (
        "ampacity",
        "minimum_circuit_ampacity: 85 A",
        "minimum_circuit_ampacity: 65 A",
        "minimum_circuit_ampacity",
        "65 A is less than the 84 A",
        "check the currents",
    ),
    (
        "ampacity",
        "minimum_circuit_ampacity: 85 A",
        "minimum_circuit_ampacity: 185 A",
        "minimum_circuit_ampacity",
        "far above the 84 A",
        "what else the supply feeds",
    ),
    (
        "protection",
        "maximum_protection: 100 A",
        "maximum_protection: 150 A",
        "maximum_protection",
        "above the 101 A that NEC 440.22(B) allows",
        "check the protection",
    ),
    (
        "protection",
        "maximum_protection: 100 A",
        "maximum_protection: 80 A",
        "maximum_protection",
        "below the ampacity",
        "exchange or correct",
    ),
    (
        "protection",
        "maximum_protection: 100 A",
        "maximum_protection: 97 A",
        "maximum_protection",
        "no standard rating",
        "next one down",
    ),
    (
        "control-voltage",
        "control_voltage: 115 V",
        "control_voltage: 15 V",
        "control_voltage",
        "15 V is no usual control",
        "24 V, 48 V, 110 V",
    ),
    ("voltage", "  voltage: 460 V", "  voltage: 260 V", "voltage: 260 V", "no usual voltage", "230 V, 240 V"),
    ("frequency", "frequency: 60 Hz", "frequency: 50 Hz", "frequency: 50 Hz", "found at 60 Hz", "check both"),
    ("frequency", "frequency: 60 Hz", "frequency: 55 Hz", "frequency: 55 Hz", "no supply's frequency", "60 Hz"),
    (
        "voltage",
        "voltage_tolerance: 10 %",
        "voltage_tolerance: 100 %",
        "voltage_tolerance",
        "100 %",
        "10 % is usual",
    ),
    ("locked-rotor", LAST, LAST.replace("125 A", "25 A"), "locked_rotor_current: 25 A", "1.6 times", "3 to 12"),
    (
        "circuits",
        "- {circuit: b, count: 2",
        "- {circuit: c, count: 2",
        "{circuit: c, count",
        "circuit c, which has no",
        "write one of a, b",
    ),
    (
        "circuits",
        "- {circuit: b, count: 2",
        "- {circuit: a, count: 2",
        "  - {circuit: a, count: 2",
        "listed twice",
        "take one out",
    ),
    (
        "refrigerant",
        "refrigerant: R-410A",
        "refrigerant: R-41A",
        "refrigerant",
        "'R-41A' are not known",
        "did you mean 'R-410A'",
    ),
    (
        "charge",
        "charge: 21 lb",
        "charge: 210 lb",
        "charge",
        "210.0 lb (95.3 kg) in each of 2 circuits",
        "one circuit",
    ),
    (
        "flow-proving",
        "breaks_at_drop: 2.2 psi",
        "breaks_at_drop: 3.2 psi",
        "breaks_at_drop",
        "higher drop",
        "exchange the two",
    ),
    (
        "relief",
        "relief_pressure: 100 psig",
        "relief_pressure: 40 psig",
        "relief_pressure",
        "would lift it",
        "pump's head",
    ),
    ("relief", "gauge_top: 160 psig", "gauge_top: 60 psig", "gauge_top", "end below", "check both"),
    (
        "freezing",
        "design_leaving: 44 °F",
        "design_leaving: 12 °F",
        "design_leaving",
        "the usual mix freezes at 14.4 °F",
        "usual_glycol",
    ),
    (
        "freezing",
        "lowest_leaving_without_antifreeze: 40 °F",
        "lowest_leaving_without_antifreeze: 30 °F",
        "lowest_leaving",
        "freezes a barrel",
        "40 °F",
    ),
    (
        "glycol",
        "usual_glycol: propylene\n",
        "usual_glycol: none\n",
        "usual_glycol_fraction",
        "and no glycol",
        "write which",
    ),
    ("timer", "oil_warm_up: 8 h", "oil_warm_up: 8 min", "oil_warm_up", "8 min is too low", "8 to 24 h"),
    ("timer", "starts_per_hour: 6", "starts_per_hour: 30", "starts_per_hour", "do not fit", "check both"),
    (
        "safety-order",
        "trips_at: 620 psig\n    resets_at: 500 psig",
        "trips_at: 500 psig\n    resets_at: 620 psig",
        "resets_at: 620 psig",
        "it would act still",
        "resets below",
    ),
    ("safety-order", "resets_at: 44 °F", "resets_at: 38.5 °F", "resets_at: 38.5 °F", "would chatter", "tolerance"),
    (
        "safety-order",
        "trips_at: 620 psig\n    resets_at: 500",
        "trips_at: 320 psig\n    resets_at: 300",
        "trips_at: 320",
        "as it does at the rating",
        "refrigerant",
    ),
    (
        "safety-order",
        "trips_at: 104 psig\n    resets_at: 120 psig",
        "trips_at: 144 psig\n    resets_at: 150 psig",
        "trips_at: 144 psig",
        "warmer than water leaves",
        "refrigerant",
    ),
    (
        "safety-freeze",
        "trips_at: 104 psig",
        "trips_at: 30 psig",
        "trips_at: 30 psig",
        "the usual mix freezes at",
        "check pressure",
    ),
    (
        "safety-freeze",
        "trips_at: 38 °F",
        "trips_at: 8 °F",
        "trips_at: 8 °F",
        "the usual mix freezes at",
        "above the freezing point",
    ),
    (
        "safety-order",
        "trips_at: 414 V\n    resets_at: 424 V",
        "trips_at: 41.4 V\n    resets_at: 424 V",
        "trips_at: 41.4 V",
        "the nameplate says 460 V",
        "which side",
    ),
    (
        "safety",
        "point: water_out_temperature",
        "point: water_out_temprature",
        "water_out_temprature",
        "no measuring point",
        "did you mean 'water_out_temperature'",
    ),
    ("safety", "trips_at: 38 °F", "trips_at: 38 psig", "- id: freeze", "38 psig", "temperature"),
    (
        "safety",
        "- id: high_voltage",
        "- id: low_voltage",
        "- id: low_voltage",
        "the id 'low_voltage' 2 times",
        "give each its own",
    ),
    (
        "features",
        "strainer, pump_overload",
        "strainer, strainer, pump_overload",
        "features",
        "'strainer' 2 times",
        "once",
    ),
]


@pytest.mark.parametrize(
    ("rule", "good", "bad", "line", "what", "remedy"), CASES, ids=[f"{c[0]}-{n}" for n, c in enumerate(CASES)]
)
def test_a_slip_is_named_with_its_line(rule, good, bad, line, what, remedy, points):
    assert TEXT.count(good) == 1, "the demo sheet has changed; mend this case"
    text = TEXT.replace(good, bad)
    source = read_text(text, "slip.yaml")
    found = [one for one in lint_unit(build(DataSheet, source), source, points) if one.rule == rule]
    wanted = {text[: at.start()].count("\n") + 1 for at in re.finditer(re.escape(line), text)}
    told = [one for one in found if what in one.what and remedy in one.remedy]
    assert told, [str(one) for one in found]
    assert {one.line for one in told} & wanted, (told, wanted)
    assert {one.file for one in told} == {"slip.yaml"}


def test_the_shipped_sheets_are_clean():
    assert lint_units() == []
    assert len(units()) >= 3


def test_a_sheet_without_a_file_is_linted_too(sheet, points):
    wrong = sheet.model_copy(update={"cooling_capacity": 1000.0})
    found = lint_unit(wrong, points=points)
    assert {one.rule for one in found} >= {"power-a-ton", "flow-and-capacity"}
    assert {one.line for one in found} == {0}
    assert found == sorted(found)
    assert len(sheet_faults(wrong, points)) == len(found)


def test_files_are_linted_by_path(tmp_path: Path):
    path = tmp_path / "mine.yaml"
    path.write_text(TEXT.replace("control_voltage: 115 V", "control_voltage: 1150 V"), encoding="utf-8")
    (found,) = lint_units([path])
    assert found.rule == "control-voltage"
    assert found.key == "electrical.control_voltage"
    assert "mine.yaml" in found.file
    assert TEXT.split("\n")[found.line - 1].strip().startswith("control_voltage")


def test_gaps_in_circuits_and_odd_unloading(sheet, points):
    first, *others = sheet.compressors
    gap = sheet.model_copy(update={"compressors": (first, others[-1].model_copy(update={"circuit": "d"}))})
    assert any("the circuits are a, d" in fault.what for fault in sheet_faults(gap, points))
    none = sheet.model_copy(update={"fans": sheet.fans[:1]})
    assert any("no fans on circuit b" in fault.what for fault in sheet_faults(none, points))
    for steps in ((0.5, 0.25), (0.5, 1.0), (0.25, 0.25)):
        odd = sheet.model_copy(
            update={"compressors": (first.model_copy(update={"unloading_steps": steps}), *others)}
        )
        assert [fault.rule for fault in sheet_faults(odd, points)] == ["unloading"]
    still = sheet.model_copy(update={"compressors": (first.model_copy(update={"rated_current": 0.0}), *others)})
    assert any(fault.what == "a rated current of 0 A" for fault in sheet_faults(still, points))


def test_every_rule_is_tried():
    tried = {case[0] for case in CASES} | {"unloading", "current"}
    assert len(RULES) == 16
    assert {"power-a-ton", "pump-power", "barrel-exponent", "ampacity", "protection", "safety-order"} <= tried

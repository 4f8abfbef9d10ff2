"""One check by hand, as text."""

import pytest

from faultdoc.checks.base import CheckResult, Missing
from faultdoc.quantities import System
from faultdoc.terminal.compute import ComputeError, render, run, table

DROP = "barrel_pressure_drop=6.2 psi ± 0.5 psi"


def test_run_and_render_in_both_systems():
    result = run("flow_from_barrel_drop", [DROP, "glycol_fraction=25 %"], "bluff_30", System.US)
    assert isinstance(result, CheckResult)
    text = render(result, System.US)
    assert "pressure drop across the barrel: 6.2 ± 0.6 psi, read" in text
    assert "from the data sheet" in text
    assert "expected 72.0 gpm" in text
    assert result.formula in text
    assert result.source in text
    assert all(remark in text for remark in result.remarks)
    assert "4.54 L/s" in render(result, System.SI)


def test_a_bare_number_means_the_system():
    us = run("supply_frequency", ["frequency=60"], "bluff_30", System.US)
    cold = run("freeze_margin", ["water_out_temperature=6.5"], "bluff_30", System.SI)
    assert us.measured == 60.0
    assert cold.measured == pytest.approx(279.65)


def test_missing_readings_are_named():
    result = run("flow_agreement", [DROP], "bluff_30", System.US)
    assert isinstance(result, Missing)
    assert "Still wanted: pump_out_pressure; pump_in_pressure." in render(result, System.US)


def test_a_check_that_cannot_be_made_says_why():
    readings = [f"pump_current_l{line}=0 A" for line in (1, 2, 3)]
    assert "Reason: " in render(run("pump_current_unbalance", readings, "bluff_30", System.US), System.US)


@pytest.mark.parametrize(
    ("check", "assignments", "message"),
    [
        ("flow_from_barel_drop", [], "did you mean 'flow_from_barrel_drop'"),
        ("flow_from_barrel_drop", ["barrel_presure_drop=6 psi"], "did you mean 'barrel_pressure_drop'"),
        ("flow_from_barrel_drop", ["frequency=60 Hz"], "has no use for frequency; it takes barrel_pressure_drop"),
        ("flow_from_barrel_drop", ["sheet.barrel_curve=1"], "no measuring point 'sheet.barrel_curve'"),
        ("flow_from_barrel_drop", ["barrel_pressure_drop"], "write point=quantity"),
        ("flow_from_barrel_drop", [DROP, DROP], "given twice"),
        ("flow_from_barrel_drop", ["barrel_pressure_drop=12 psig"], "that is a gauge pressure"),
        ("flow_from_barrel_drop", ["barrel_pressure_drop=twelve"], "has no number in it"),
    ],
)
def test_refusals(check, assignments, message):
    with pytest.raises(ComputeError, match=message):
        run(check, assignments, "bluff_30", System.US)


def test_an_unknown_unit_is_refused():
    with pytest.raises(ValueError, match="bluff_30"):
        run("supply_frequency", ["frequency=60 Hz"], "bluf_30", System.US)


def test_table_names_every_check_and_what_it_takes():
    lines = table().splitlines()
    assert "flow_agreement" in lines
    assert "  hose_length, hose_bore, [load_pressure_drop], [glycol_fraction], [water_out_temperature]" in lines
    assert not any("sheet." in line for line in lines)

import pytest

from faultdoc.checks.all import make, registry
from faultdoc.checks.base import CheckResult, Missing, Verdict
from faultdoc.model.points import FAMILIES

NAMES = ("recirculation", "recirculated_share", "air_rise", "fans_stopped")
GOOD = {
    "ambient_air_temperature": "35 °C",
    "condenser_inlet_air_temperature_a": "35.5 °C",
    "condenser_outlet_air_temperature_a": "45.0 °C",
    # R-410A condenses at 49.0 °C there, 300 m up.
    "discharge_pressure_a": "420 psi",
    "site_elevation": "300 m",
    "compressors_running_a": "2",
    "fans_stopped_a": "0",
}


@pytest.mark.parametrize("name", NAMES)
def test_a_healthy_condenser_is_as_expected(name, sheet, read, points):
    result = make(f"{name}_a", sheet, read(**GOOD), points)
    assert isinstance(result, CheckResult), result
    assert result.verdict is Verdict.AS_EXPECTED
    assert result.working


@pytest.mark.parametrize(
    ("name", "changes", "verdict"),
    [
        ("recirculation", {"condenser_inlet_air_temperature_a": "41 °C"}, Verdict.HIGH),
        (
            "recirculation",
            {"condenser_inlet_air_temperature_a": "33 °C"},
            Verdict.AS_EXPECTED,
        ),  # only high is wrong
        ("recirculated_share", {"condenser_inlet_air_temperature_a": "41 °C"}, Verdict.HIGH),
        ("air_rise", {"condenser_outlet_air_temperature_a": "39 °C"}, Verdict.LOW),
        ("air_rise", {"condenser_outlet_air_temperature_a": "49 °C"}, Verdict.HIGH),
        ("fans_stopped", {"fans_stopped_a": "1"}, Verdict.HIGH),
    ],
)
def test_each_fault_is_called(name, changes, verdict, sheet, read, points):
    assert make(f"{name}_a", sheet, read(**(GOOD | changes)), points).verdict is verdict


def test_fans_may_rest_in_cool_air(sheet, read, points):
    cool = GOOD | {"condenser_inlet_air_temperature_a": "15 °C", "fans_stopped_a": "1"}
    result = make("fans_stopped_a", sheet, read(**cool), points)
    # 14 K of split at design, 34 K to the same head: 14/34 of two fans hold it.
    assert result.expected == pytest.approx(2 * (1 - 14 / 34))
    assert result.verdict is Verdict.AS_EXPECTED


def test_share_by_hand(sheet, read, points):
    result = make(
        "recirculated_share_a", sheet, read(**(GOOD | {"condenser_inlet_air_temperature_a": "37 °C"})), points
    )
    assert result.measured == pytest.approx(0.2)


@pytest.mark.parametrize(
    ("name", "changes", "words"),
    [
        ("recirculated_share", {"condenser_outlet_air_temperature_a": "30 °C"}, "is the unit running"),
        ("air_rise", {"discharge_pressure_a": "200 psi"}, "is the compressor running"),
        ("fans_stopped", {"fans_stopped_a": "7"}, "count them again"),
        ("fans_stopped", {"condenser_inlet_air_temperature_a": "52 °C"}, "check the thermometer"),
    ],
)
def test_refusals(name, changes, words, sheet, read, points):
    missing = make(f"{name}_a", sheet, read(**(GOOD | changes)), points)
    assert isinstance(missing, Missing)
    assert words in missing.reason


def test_fans_that_the_sheet_does_not_list(sheet, read, points):
    bare = sheet.model_copy(update={"fans": ()})
    assert "does not list the fans" in make("fans_stopped_a", bare, read(**GOOD), points).reason


@pytest.mark.parametrize("circuit", FAMILIES["circuit"])
@pytest.mark.parametrize("name", NAMES)
def test_registered_for_every_circuit(name, circuit, points, sheet):
    check = registry[f"{name}_{circuit}"]
    for need in check.needs:
        assert need.default if need.name.startswith("sheet.") else points[need.name].kind is need.kind
    missing = make(check.id, sheet, {}, points)
    assert missing.readings


@pytest.mark.parametrize("name", NAMES)
def test_a_circuit_the_unit_lacks_is_refused(name, sheet, read, points):
    renamed = {key[:-2] + "_d" if key.endswith("_a") else key: text for key, text in GOOD.items()}
    missing = make(f"{name}_d", sheet, read(**renamed), points)
    assert "no circuit D; it has A, B" in missing.reason

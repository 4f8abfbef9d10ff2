import pytest

from faultdoc.checks.all import make
from faultdoc.checks.base import Missing, Verdict
from faultdoc.model.unit import PumpData
from faultdoc.quantities import Kind, System, to_display

BALANCED = {"pump_current_l1": "5.3 A", "pump_current_l2": "5.3 A", "pump_current_l3": "5.3 A"}
VOLTS = {"voltage_l1_l2": "460 V", "voltage_l2_l3": "460 V", "voltage_l3_l1": "460 V"}


def test_pump_current_expected_by_hand(sheet, read, points):
    result = make(
        "pump_current", sheet, read(glycol_fraction="0 %", water_out_temperature="50 °F", **BALANCED), points
    )
    lines = {line.title: line.value for line in result.working}
    load = lines["load of the motor"]
    assert load == pytest.approx(lines["shaft power there"] / sheet.water.pump.rated_power)
    assert result.expected == pytest.approx(6.6 * (0.45**2 + (1 - 0.45**2) * load**2) ** 0.5)
    assert result.measured == pytest.approx(5.3)
    assert result.verdict is Verdict.AS_EXPECTED


def test_pump_current_calls_a_pump_that_moves_nothing_and_one_that_drags(sheet, read, points):
    dry = dict.fromkeys(BALANCED, "3.0 A")
    assert make("pump_current", sheet, read(**dry), points).verdict is Verdict.LOW
    drags = dict.fromkeys(BALANCED, "8.0 A")
    assert make("pump_current", sheet, read(**drags), points).verdict is Verdict.HIGH


def test_pump_current_without_shaft_powers_says_why(sheet, changed, read, points):
    data = sheet.water.pump
    bare = PumpData.model_construct(
        points=tuple(point.model_copy(update={"shaft_power": None}) for point in data.points),
        rated_current=data.rated_current, rated_power=data.rated_power, uncertainty=data.uncertainty,
    )  # fmt: skip
    missing = make("pump_current", changed(sheet, pump=bare), read(**BALANCED), points)
    assert isinstance(missing, Missing)
    assert "no shaft power" in missing.reason


def test_current_unbalance(sheet, read, points):
    result = make("pump_current_unbalance", sheet, read(**BALANCED | {"pump_current_l2": "3.0 A"}), points)
    mean = (5.3 + 5.3 + 3.0) / 3
    assert result.measured == pytest.approx((mean - 3.0) / mean)
    assert result.verdict is Verdict.HIGH
    nothing = make("pump_current_unbalance", sheet, read(**dict.fromkeys(BALANCED, "0 A")), points)
    assert "above zero" in nothing.reason


def test_supply_voltage_within_its_tolerance_is_as_expected(sheet, read, points):
    assert (
        make("supply_voltage", sheet, read(**dict.fromkeys(VOLTS, "425 V")), points).verdict is Verdict.AS_EXPECTED
    )
    assert make("supply_voltage", sheet, read(**dict.fromkeys(VOLTS, "380 V")), points).verdict is Verdict.LOW
    assert make("supply_voltage", sheet, read(**dict.fromkeys(VOLTS, "540 V")), points).verdict is Verdict.HIGH


def test_voltage_unbalance(sheet, read, points):
    lost = make("voltage_unbalance", sheet, read(**VOLTS | {"voltage_l2_l3": "230 V"}), points)
    assert lost.verdict is Verdict.HIGH
    # A meter of ± 1 % cannot call an unbalance of 1 %; one of ± 0.2 % can call two.
    sharp = make(
        "voltage_unbalance", sheet,
        read(voltage_l1_l2="460 V ± 0.2 %", voltage_l2_l3="467 V ± 0.2 %", voltage_l3_l1="450 V ± 0.2 %"), points,
    )  # fmt: skip
    assert sharp.measured == pytest.approx(9 / 459)
    assert sharp.verdict is Verdict.HIGH


def test_control_voltage_and_frequency(sheet, read, points):
    assert make("control_voltage", sheet, read(control_voltage="108 V"), points).verdict is Verdict.AS_EXPECTED
    assert make("control_voltage", sheet, read(control_voltage="90 V"), points).verdict is Verdict.LOW
    assert make("supply_frequency", sheet, read(frequency="59 Hz"), points).verdict is Verdict.AS_EXPECTED
    wrong = make("supply_frequency", sheet, read(frequency="50 Hz"), points)
    assert wrong.verdict is Verdict.LOW
    assert wrong.residual == pytest.approx(-1 / 6)
    assert to_display(wrong.expected, Kind.FREQUENCY, System.US) == 60.0

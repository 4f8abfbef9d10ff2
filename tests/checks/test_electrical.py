import pytest

from faultdoc.checks.all import make, registry
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


def test_negative_sequence_against_the_largest_deviation(sheet, read, points):
    skewed = {"voltage_l1_l2": "475 V ± 0.2 %", "voltage_l2_l3": "460 V ± 0.2 %", "voltage_l3_l1": "445 V ± 0.2 %"}
    result = make("negative_sequence", sheet, read(**skewed), points)
    lines = {line.title: line.value for line in result.working}
    nema = lines["unbalance by largest deviation from the mean"]
    assert nema == pytest.approx(15 / 460)
    # One pair up, one down alike: 2 / sqrt 3 times the largest deviation, nearly.
    assert result.measured == pytest.approx(2 / 3**0.5 * nema, rel=0.01)
    assert lines["growth of a motor's temperature rise"] == pytest.approx(2 * (100 * nema) ** 2 / 100)
    assert result.verdict is Verdict.HIGH
    beyond = make("negative_sequence", sheet, read(**VOLTS | {"voltage_l2_l3": "400 V"}), points)
    assert "no motor should run" in beyond.remarks[0]
    impossible = make("negative_sequence", sheet, read(**VOLTS | {"voltage_l2_l3": "1000 V"}), points)
    assert "cannot all be true" in impossible.reason


def test_supply_phases_name_the_line(sheet, read, points):
    lost = make(
        "supply_phases", sheet, read(voltage_l1_l2="460 V", voltage_l2_l3="230 V", voltage_l3_l1="232 V"), points
    )
    assert lost.verdict is Verdict.LOW
    assert "only L1-L2 keeps its voltage; look for L3" in lost.remarks[0]
    upstream = make(
        "supply_phases", sheet, read(voltage_l1_l2="400 V", voltage_l2_l3="2 V", voltage_l3_l1="400 V"), points
    )
    assert upstream.verdict is Verdict.LOW
    assert "L2-L3 has next to no voltage" in upstream.remarks[0]
    assert make("supply_phases", sheet, read(**VOLTS), points).verdict is Verdict.AS_EXPECTED
    assert "mean above zero" in make("supply_phases", sheet, read(**dict.fromkeys(VOLTS, "0 V")), points).reason


def test_phase_sequence_needs_a_reference(sheet, read, points):
    def turned(*volts):
        texts = {f"reference_voltage_{line}": f"{v} V" for line, v in zip(("l1", "l2", "l3"), volts, strict=True)}
        return make("phase_sequence_by_reference", sheet, read(**texts), points)

    # The same supply, and the same turned on by a line: alike. Two lines exchanged: one matches, two do not.
    assert turned(2, 3, 1).verdict is Verdict.AS_EXPECTED
    assert turned(458, 462, 460).verdict is Verdict.AS_EXPECTED
    assert turned(2, 460, 460).verdict is Verdict.HIGH
    # Thirty degrees on, behind a delta-wye transformer, one of the three is the full 2 / sqrt 3.
    assert turned(137, 375, 513).verdict is Verdict.HIGH
    alone = make("phase_sequence_by_reference", sheet, read(**VOLTS), points)
    assert alone.readings == tuple(f"reference_voltage_{line}" for line in ("l1", "l2", "l3"))


def test_control_transformer(sheet, read, points):
    # A low control voltage with a low supply is the supply's; with the supply right it is the transformer's.
    low_supply = read(control_voltage="103 V", **dict.fromkeys(VOLTS, "415 V"))
    assert make("control_voltage", sheet, low_supply, points).verdict is Verdict.AS_EXPECTED
    assert make("control_transformer_ratio", sheet, low_supply, points).verdict is Verdict.AS_EXPECTED
    wrong_tap = read(control_voltage="98 V", **VOLTS)
    result = make("control_transformer_ratio", sheet, wrong_tap, points)
    assert result.verdict is Verdict.LOW
    assert result.expected == pytest.approx(115.0)


def test_control_transformer_under_load(sheet, read, points):
    texts = {"control_voltage_no_load": "119 V", "control_voltage": "115 V", "control_current": "2.2 A"}
    drop = make("control_transformer_drop", sheet, read(**texts), points)
    assert drop.expected == pytest.approx(0.06 * (115 * 2.2 / 500) * 119)
    assert drop.measured == pytest.approx(4.0)
    assert drop.verdict is Verdict.AS_EXPECTED
    sags = make("control_transformer_drop", sheet, read(**texts | {"control_voltage": "98 V"}), points)
    assert sags.verdict is Verdict.HIGH
    heavy = make("control_transformer_load", sheet, read(control_voltage="110 V", control_current="6 A"), points)
    assert heavy.verdict is Verdict.HIGH
    assert heavy.measured == pytest.approx(110 * 6 / 500)
    bare = sheet.model_copy(
        update={"electrical": sheet.electrical.model_copy(update={"control_transformer_power": None})}
    )
    missing = make("control_transformer_load", bare, read(control_voltage="110 V", control_current="6 A"), points)
    assert "does not give the rating" in missing.reason


@pytest.mark.parametrize(
    "name",
    ["negative_sequence", "supply_phases", "phase_sequence_by_reference", "control_transformer_ratio",
     "control_transformer_load", "control_transformer_drop"],
)  # fmt: skip
def test_needs_are_points_of_their_kind(name, sheet, points):
    for need in registry[name].needs:
        assert need.default is not None if need.name.startswith("sheet.") else points[need.name].kind is need.kind
    missing = make(name, sheet, {}, points)
    assert isinstance(missing, Missing)
    assert missing.readings

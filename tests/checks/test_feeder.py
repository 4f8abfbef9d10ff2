"""Cable, protection, generator and start: expected by hand, verdicts on both sides, and refusals."""

from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks.all import make, registry
from faultdoc.checks.base import CheckResult, Missing, Sense, Verdict
from faultdoc.checks.feeder import CONDUCTORS, conductor_reading, other_loads
from faultdoc.model.base import Measured
from faultdoc.model.unit import Fan
from faultdoc.physics import conductors
from faultdoc.quantities import Kind, System, parse

VOLTS = {"voltage_l1_l2": "460 V", "voltage_l2_l3": "460 V", "voltage_l3_l1": "460 V"}
CABLE = {"feeder_length": "60 m", "feeder_area": "33.6", "feeder_temperature": "50 °C"}
HEALTHY = {
    **VOLTS, **CABLE, "feeder_sets": "1", "unit_current": "72 A", "source_voltage_l1_l2": "464 V",
    "source_voltage_l2_l3": "464 V", "source_voltage_l3_l1": "464 V", "voltage_at_start": "430 V",
    "generator_current": "300 A", "generator_reactance": "14 %", "frequency": "60 Hz",
    "frequency_at_start": "57.5 Hz", "frequency_no_load": "61.5 Hz", "breaker_rating": "100 A",
    "nameplate_ampacity": "85 A", "nameplate_protection": "100 A",
}  # fmt: skip
NAMES = (
    "feeder_drop", "feeder_drop_found", "feeder_start_voltage", "start_voltage", "generator_size", "generator_dip",
    "generator_load", "generator_frequency_dip", "generator_droop", "circuit_ampacity", "circuit_protection",
    "breaker_above", "breaker_below", "feeder_ampacity",
)  # fmt: skip


@pytest.fixture(scope="module")
def fanned(sheet):
    """The demo unit with its fans written out: four of 2.5 A."""
    return sheet.model_copy(
        update={"fans": tuple(Fan(circuit=circuit, count=2, rated_current="2.5 A") for circuit in "ab")}
    )


@pytest.mark.parametrize("name", NAMES)
def test_a_healthy_feeder_is_as_expected(name, fanned, read, points):
    result = make(name, fanned, read(**HEALTHY), points)
    assert isinstance(result, CheckResult), result
    assert result.verdict is Verdict.AS_EXPECTED, result.sentence(System.US)
    assert result.working
    assert result.source
    assert sqrt(sum(effect**2 for effect in result.effects.values())) == pytest.approx(result.uncertainty)
    assert registry[name].floor is None or result.residual >= registry[name].floor


@pytest.mark.parametrize("name", [name for name in NAMES if not name.startswith("circuit_")])
def test_without_readings_it_says_what_it_wants(name, sheet, points):
    missing = make(name, sheet, {}, points)
    assert isinstance(missing, Missing)
    assert missing.readings


@pytest.mark.parametrize("name", NAMES)
def test_every_need_is_a_point_of_its_kind_or_of_the_sheet(name, points):
    for need in registry[name].needs:
        assert need.default is not None if need.name.startswith("sheet.") else points[need.name].kind is need.kind


def test_the_drop_by_hand(sheet, read, points):
    result = make("feeder_drop", sheet, read(**HEALTHY), points)
    # 2 AWG at 50 °C: 0.636 Ω/km at 75 °C by table 8, less 25 K at 0.323 %; 0.045 Ω per 1,000 ft by table 9.
    ohms = 0.060 * 0.636 * (1.0 - 0.00323 * 25.0)
    reactance = 0.060 * 0.045 * 1000.0 / 304.8
    drop = sqrt(3.0) * 72.0 * (0.85 * ohms + sqrt(1.0 - 0.85**2) * reactance)
    assert result.measured == pytest.approx(drop / 460.0, rel=0.004)
    long = make("feeder_drop", sheet, read(**HEALTHY | {"feeder_length": "400 m"}), points)
    assert long.verdict is Verdict.HIGH


def test_without_a_size_the_drop_is_reckoned_for_a_likely_cable_and_says_less(sheet, read, points):
    known = make("feeder_drop", sheet, read(feeder_length="60 m", feeder_area="33.6"), points)
    guessed = make("feeder_drop", sheet, read(feeder_length="60 m"), points)
    assert {entry.name for entry in guessed.inputs if entry.origin == "assumed"} >= {"feeder_area", "feeder_sets"}
    assert guessed.uncertainty > 1.5 * known.uncertainty
    assert make("feeder_drop", sheet, read(feeder_area="33.6"), points).readings == ("feeder_length",)


@given(st.floats(5.0, 300.0), st.floats(8.5, 250.0), st.floats(1.05, 3.0))
@settings(deadline=None, max_examples=40)
def test_drop_rises_with_length_and_falls_with_area_and_sets(sheet, points, metres, square, more):
    def drop(length, area, sets):
        readings = {
            "feeder_length": Measured.from_quantity(parse(f"{length} m", Kind.LENGTH)),
            "feeder_area": Measured(kind=Kind.NUMBER, value=area, text=str(area)),
            "feeder_sets": Measured(kind=Kind.NUMBER, value=sets, standard_uncertainty=0.0, text=str(sets)),
        }
        return make("feeder_drop", sheet, readings, points).measured

    here = drop(metres, square, 1.0)
    assert drop(metres * more, square, 1.0) == pytest.approx(more * here)
    assert drop(metres, square * more, 1.0) < here
    assert drop(metres, square, 2.0) == pytest.approx(here / 2.0)


def test_a_bad_joint_shows_as_more_than_the_cable_takes(sheet, read, points):
    sharp = {name: text.replace("460 V", "446 V ± 0.2 %") for name, text in VOLTS.items()}
    source = {f"source_voltage_{pair}": "464 V ± 0.2 %" for pair in ("l1_l2", "l2_l3", "l3_l1")}
    bad = make("feeder_drop_found", sheet, read(**HEALTHY | sharp | source), points)
    assert bad.verdict is Verdict.HIGH
    assert bad.measured == pytest.approx(18.0)
    # Meters of ± 1 % at both ends cannot call it.
    vague = make("feeder_drop_found", sheet, read(**HEALTHY | dict.fromkeys(VOLTS, "456 V")), points)
    assert vague.verdict is Verdict.AS_EXPECTED


def test_a_thin_long_feeder_does_not_start_the_last_compressor(sheet, read, points):
    weak = make("feeder_start_voltage", sheet, read(feeder_length="500 m", feeder_area="13.3", **VOLTS), points)
    assert weak.verdict is Verdict.LOW
    lines = {line.title: line.value for line in weak.working}
    assert lines["locked-rotor current"] == 125.0
    assert lines["voltage at the start"] < lines["voltage before the last compressor starts"] < 460.0


def test_start_voltage_and_torque(sheet, read, points):
    low = make("start_voltage", sheet, read(voltage_at_start="350 V"), points)
    assert low.verdict is Verdict.LOW
    assert low.expected == pytest.approx(0.85 * 460.0)
    assert low.working[1].value == pytest.approx((350 / 460) ** 2)


def test_generator(sheet, read, points):
    small = make("generator_size", sheet, read(generator_current="40 A", generator_reactance="15 %"), points)
    assert small.verdict is Verdict.HIGH
    large = make("generator_size", sheet, read(generator_current="400 A"), points)
    assert large.verdict is Verdict.AS_EXPECTED
    assert {entry.name for entry in large.inputs if entry.origin == "assumed"} >= {"generator_reactance"}
    # Deeper than generator and cable explain.
    deep = make("generator_dip", sheet, read(**HEALTHY | {"voltage_at_start": "360 V"}), points)
    assert deep.verdict is Verdict.HIGH
    assert deep.measured == pytest.approx(100 / 460)
    assert make("generator_load", sheet, read(generator_current="60 A", unit_current="72 A"), points).verdict is (
        Verdict.HIGH
    )
    slow = make("generator_frequency_dip", sheet, read(frequency_at_start="51 Hz"), points)
    assert slow.verdict is Verdict.LOW
    droops = make("generator_droop", sheet, read(frequency="58 Hz", frequency_no_load="63 Hz"), points)
    assert droops.verdict is Verdict.HIGH
    assert droops.measured == pytest.approx(5 / 60)
    none = make("generator_load", sheet, read(generator_current="0 A", unit_current="72 A"), points)
    assert "above zero" in none.reason


def test_a_bigger_generator_dips_less_and_locked_rotor_current_counts(sheet, read, points):
    dips = [
        make("generator_size", sheet, read(generator_current=f"{amps} A"), points).measured
        for amps in (100, 200, 400, 800)
    ]
    assert dips == sorted(dips, reverse=True)
    result = make("generator_size", sheet, read(generator_current="200 A"), points)
    assert result.effects["sheet.locked_rotor"] > 0.0
    assert result.effects["generator_reactance"] > 0.0


def test_the_plate_against_the_code(fanned, sheet, read, points):
    ampacity = make("circuit_ampacity", fanned, read(nameplate_ampacity="85 A"), points)
    assert ampacity.expected == pytest.approx(1.25 * 15.8 + 3 * 15.8 + 6.6 + 10.0 + 500 / 460)
    protection = make("circuit_protection", fanned, read(nameplate_protection="100 A"), points)
    assert protection.expected == pytest.approx(2.25 * 15.8 + 3 * 15.8 + 6.6 + 10.0 + 500 / 460)
    assert {line.title: line.value for line in protection.working}["next standard rating below"] == 100.0
    assert make("circuit_ampacity", fanned, read(nameplate_ampacity="60 A"), points).verdict is Verdict.LOW
    assert make("circuit_protection", fanned, read(nameplate_protection="150 A"), points).verdict is Verdict.HIGH
    # Without a reading the sheet's own figures are compared, and nothing is claimed of the plant.
    own = make("circuit_ampacity", fanned, {}, points)
    assert own.measured == 85.0
    assert own.points == frozenset()
    assert own.verdict is Verdict.AS_EXPECTED
    # Unknown fans widen.
    fanless = sheet.model_copy(update={"fans": ()})
    assert make("circuit_ampacity", fanless, {}, points).uncertainty > 2.0 * own.uncertainty


def test_other_loads_of_a_sheet_that_lacks_them(sheet):
    bare = sheet.model_copy(
        update={
            "electrical": sheet.electrical.model_copy(update={"control_transformer_power": None}),
            "fans": (Fan(circuit="a", count=4),),
        }
    )
    value, u, origin = other_loads(bare)
    assert value == pytest.approx(0.11 * 63.2)
    assert u > 0.4 * value
    assert origin == "assumed"


def test_breaker_and_feeder_ampacity(sheet, read, points):
    assert make("breaker_above", sheet, read(breaker_rating="125 A"), points).verdict is Verdict.HIGH
    assert make("breaker_below", sheet, read(breaker_rating="70 A"), points).verdict is Verdict.LOW
    thin = make("feeder_ampacity", sheet, read(feeder_area="10"), points)
    assert thin.verdict is Verdict.LOW
    two = make("feeder_ampacity", sheet, read(feeder_area="10", feeder_sets="2"), points)
    assert two.measured == pytest.approx(2.0 * thin.measured)
    outside = make("feeder_ampacity", sheet, read(feeder_area="400"), points)
    assert "in parallel" in outside.reason


def test_a_plate_without_its_figures_is_asked_for(sheet, read, points):
    bare = sheet.model_copy(
        update={
            "electrical": sheet.electrical.model_copy(
                update={"minimum_circuit_ampacity": None, "maximum_protection": None}
            )
        }
    )
    assert make("breaker_below", bare, read(breaker_rating="70 A"), points).readings == ("nameplate_ampacity",)
    assert make("breaker_above", bare, read(breaker_rating="70 A"), points).readings == ("nameplate_protection",)
    # The likely cable is then found from the motors.
    assert isinstance(make("feeder_drop", bare, read(feeder_length="60 m"), points), CheckResult)


def test_every_choice_of_size_has_an_area_and_they_rise(points):
    ids = [choice.id for choice in points["feeder_size"].choices]
    assert ids == list(CONDUCTORS)
    areas = list(CONDUCTORS.values())
    assert areas == sorted(areas)
    for id, area in CONDUCTORS.items():
        kind, _, size = id.partition("_")
        true = {
            "awg": lambda size=size: 1e6 * conductors.awg_area(1 - int(size[0]) if "_" in size else int(size)),
            "kcmil": lambda size=size: 1e6 * conductors.kcmil_area(float(size)),
            "mm2": lambda size=size: float(size),
        }[kind]()
        assert area == pytest.approx(true, rel=1e-3)


def test_a_choice_of_size_and_metal_is_a_reading_of_the_area(sheet, read, points):
    copper, aluminium = conductor_reading("awg_4_0"), conductor_reading("awg_4_0", "aluminium")
    assert aluminium.value == pytest.approx(0.61 * copper.value, rel=0.01)
    readings = read(feeder_length="60 m")
    ours = make("feeder_drop", sheet, {**readings, "feeder_area": copper}, points)
    lossy = make("feeder_drop", sheet, {**readings, "feeder_area": aluminium}, points)
    assert lossy.measured > ours.measured
    with pytest.raises(KeyError):
        conductor_reading("awg_5")


def test_senses():
    assert {name: registry[name].sense for name in NAMES if registry[name].sense is not Sense.AT_MOST} == {
        "feeder_start_voltage": Sense.AT_LEAST,
        "start_voltage": Sense.AT_LEAST,
        "generator_frequency_dip": Sense.AT_LEAST,
        "circuit_ampacity": Sense.BOTH,
        "breaker_below": Sense.AT_LEAST,
        "feeder_ampacity": Sense.AT_LEAST,
    }

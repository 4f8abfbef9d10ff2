import math

import pytest
import scipy.constants as codata
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from faultdoc import quantities
from faultdoc.quantities import (
    ACCEPTED,
    Kind,
    QuantityError,
    System,
    difference_kind,
    display_unit,
    exact,
    from_display,
    parse,
    show,
    to_absolute,
    to_display,
    to_gauge,
)

KINDS = [kind for kind in Kind if kind is not Kind.CHOICE]
MEASURED = [kind for kind in KINDS if kind is not Kind.NUMBER]


def value(text: str, kind: Kind, system: System = System.US) -> float:
    return parse(text, kind, system).value


# --- published factors ---

# NIST SP 811 (2008), appendix B.8, factors to seven digits. Looked up in the transcription of
# that appendix in the standard library of units of OMG SysML 2.0 (USCustomaryUnits), except
# for those marked: 'psi' from several public tables, the rest by definition in the SI brochure.
SP_811 = [
    ("1 psi", Kind.PRESSURE_DIFFERENCE, 6894.757),
    ("1 psig", Kind.GAUGE_PRESSURE, 6894.757),
    ("1 psia", Kind.ABSOLUTE_PRESSURE, 6894.757),
    ("1 ft water", Kind.PRESSURE_DIFFERENCE, 2989.067),  # foot of water, conventional
    ("1 in wc", Kind.PRESSURE_DIFFERENCE, 249.0889),  # inch of water, conventional
    ("1 inHg", Kind.GAUGE_PRESSURE, 3386.389),  # inch of mercury, conventional
    ("1 gal", Kind.VOLUME, 3.785412e-3),
    ("1 gpm", Kind.VOLUME_FLOW, 3.785412e-3 / 60),
    ("1 ton", Kind.POWER, 3516.853),
    ("1 hp", Kind.POWER, 745.6999),
    ("1 Btu/h", Kind.POWER, 1055.056 / 3600),
    ("1 ft", Kind.LENGTH, 0.3048),
    ("1 in", Kind.BORE, 0.0254),
    ("1 bar", Kind.PRESSURE_DIFFERENCE, 1e5),
    ("1 kPa", Kind.GAUGE_PRESSURE, 1e3),
    ("1 mmHg", Kind.PRESSURE_DIFFERENCE, 133.3224),
    ("1 kg/cm2", Kind.GAUGE_PRESSURE, 98066.5),
]


@pytest.mark.parametrize(("text", "kind", "factor"), SP_811)
def test_factors_of_nist_sp_811(text: str, kind: Kind, factor: float) -> None:
    assert value(text, kind) == pytest.approx(factor, rel=5e-7)


def test_the_thermal_units_are_the_international_table_ones() -> None:
    # SP 811 gives the Btu_IT as 1055.056 J; its exact value (scipy.constants) ends in ...055 852 62.
    assert value("1 ton", Kind.POWER) == pytest.approx(12000 * codata.Btu_IT / 3600, rel=2e-7)
    assert value("1 MBH", Kind.POWER) == pytest.approx(1000 * codata.Btu_IT / 3600, rel=2e-7)
    assert codata.Btu_th / codata.Btu_IT == pytest.approx(0.99933, abs=1e-5)  # so the test can tell them apart


# scipy.constants, which derives its units from the exact definitions: all digits.
@pytest.mark.parametrize(
    ("text", "kind", "factor"),
    [
        ("1 psi", Kind.PRESSURE_DIFFERENCE, codata.psi),
        ("1 atm", Kind.ABSOLUTE_PRESSURE, codata.atm),
        ("1 gal", Kind.VOLUME, codata.gallon_US),
        ("1 gpm", Kind.VOLUME_FLOW, codata.gallon_US / 60),
        ("1 hp", Kind.POWER, codata.hp),
        ("1 yd", Kind.LENGTH, codata.yard),
        ("1 in", Kind.BORE, codata.inch),
        ("1 h", Kind.TIME, codata.hour),
        ("1 day", Kind.TIME, codata.day),
        ("1 ft water", Kind.PRESSURE_DIFFERENCE, codata.foot * 1000 * codata.g),
        ("1 m water", Kind.PRESSURE_DIFFERENCE, 1000 * codata.g),
        ("1 m3/h", Kind.VOLUME_FLOW, 1 / 3600),
        ("1 L/min", Kind.VOLUME_FLOW, 1e-3 / 60),
    ],
)
def test_factors_against_scipy(text: str, kind: Kind, factor: float) -> None:
    assert value(text, kind) == pytest.approx(factor, rel=1e-12)


# Fixed points of the scales: BIPM SI brochure 2.3.1 (0 °C = 273.15 K), NIST SP 811 B.9 (F = 1.8 C + 32).
@pytest.mark.parametrize(
    ("text", "kelvin"),
    [
        ("0 °C", 273.15),
        ("32 °F", 273.15),
        ("212F", 373.15),
        ("-40 F", 233.15),
        ("-40 C", 233.15),
        ("300 K", 300.0),
    ],
)
def test_temperatures(text: str, kelvin: float) -> None:
    assert value(text, Kind.TEMPERATURE) == pytest.approx(kelvin, rel=1e-12)


@pytest.mark.parametrize("fahrenheit", [-459.0, -40.0, 0.0, 44.0, 54.0, 212.0, 1000.0])
def test_temperatures_against_scipy(fahrenheit: float) -> None:
    kelvin = codata.convert_temperature(fahrenheit, "Fahrenheit", "Kelvin")
    assert value(f"{fahrenheit} °F", Kind.TEMPERATURE) == pytest.approx(kelvin, rel=1e-12)


# --- spellings ---


@pytest.mark.parametrize(("kind", "spelling"), [(kind, spelling) for kind in KINDS for spelling in ACCEPTED[kind]])
def test_every_spelling_that_messages_name_is_understood(kind: Kind, spelling: str) -> None:
    text = spelling if spelling[0].isdigit() else f"12 {spelling}"
    quantity = parse(text, kind, need_unit=True)
    assert not quantity.assumed
    assert quantity.value > 0
    assert quantity.kind is kind
    assert value(text.replace(" ", ""), kind) == quantity.value
    if not spelling[0].isdigit():
        assert (
            value(text.upper() if kind is not Kind.RESISTANCE and spelling != "mV" else text, kind)
            == quantity.value
        )


@pytest.mark.parametrize(
    ("text", "kind", "same"),
    [
        ("42F", Kind.TEMPERATURE, "42 °F"),
        ("42 deg F", Kind.TEMPERATURE, "42 °F"),
        ("42 ℉", Kind.TEMPERATURE, "42 °F"),
        ("42 ºF", Kind.TEMPERATURE, "42 °F"),
        ("5,5 °C", Kind.TEMPERATURE, "5.5 °C"),
        ("−3 °C", Kind.TEMPERATURE, "-3 °C"),
        ("+3 °C", Kind.TEMPERATURE, "3 °C"),
        ("30 #", Kind.GAUGE_PRESSURE, "30 psi"),
        ("30 PSIG", Kind.GAUGE_PRESSURE, "30 psi"),
        ("30 psi (g)", Kind.GAUGE_PRESSURE, "30 psi"),
        ("2 bar g", Kind.GAUGE_PRESSURE, "200 kPa"),
        ("200 kPa gauge", Kind.GAUGE_PRESSURE, "2 bar"),
        (".5 bar", Kind.GAUGE_PRESSURE, "50 kPa"),
        (",5 bar", Kind.GAUGE_PRESSURE, "50 kPa"),
        ("1e5 Pa", Kind.GAUGE_PRESSURE, "1 bar"),
        ("1.5E5 Pa", Kind.GAUGE_PRESSURE, "1.5 bar"),
        ("20 lb/in²", Kind.GAUGE_PRESSURE, "20 psi"),
        ("9.4 ft. water", Kind.PRESSURE_DIFFERENCE, "9.4 ft water"),
        ("9.4 ft of water", Kind.PRESSURE_DIFFERENCE, "9.4 ft water"),
        ("10 in. w.g.", Kind.PRESSURE_DIFFERENCE, "10 in wc"),
        ("2' 6\"", Kind.LENGTH, "30 in"),
        ("2 ft 6 in", Kind.LENGTH, "30 in"),
        ("2’6”", Kind.LENGTH, "30 in"),
        ("2′ 6″", Kind.LENGTH, "30 in"),
        ("2'6''", Kind.LENGTH, "30 in"),
        ("6 ft 2 1/2 in", Kind.LENGTH, "74.5 in"),
        ("-2 ft 6 in", Kind.LENGTH, "-30 in"),
        ("2 1/2 in", Kind.BORE, "2.5 in"),
        ('2-1/2"', Kind.BORE, "2.5 in"),
        ("3/4 in", Kind.BORE, "0.75 in"),
        ("1 h 20 min", Kind.TIME, "80 min"),
        ("1:20", Kind.TIME, "80 min"),
        ("1:20:30", Kind.TIME, "80.5 min"),
        ("1h20min", Kind.TIME, "80 min"),
        ("2 days 3 h", Kind.TIME, "51 h"),
        ("8 hrs.", Kind.TIME, "8 h"),
        ("3 m³/h", Kind.VOLUME_FLOW, "3 m3/h"),
        ("3 m^3/h", Kind.VOLUME_FLOW, "3 m3/h"),
        ("72 US gpm", Kind.VOLUME_FLOW, "72 gpm"),
        ("1,234.5 gpm", Kind.VOLUME_FLOW, "1234.5 gpm"),
        ("1.234,5 gpm", Kind.VOLUME_FLOW, "1234.5 gpm"),
        ("1,234,567 Pa", Kind.GAUGE_PRESSURE, "1234567 Pa"),
        ("0,250 bar", Kind.GAUGE_PRESSURE, "25 kPa"),
        ("12\u00a0kPa", Kind.GAUGE_PRESSURE, "12 kPa"),
        ("25 wt%", Kind.MASS_FRACTION, "25 %"),
        ("0.25 kg/kg", Kind.MASS_FRACTION, "25 %"),
        ("0.48 Ω", Kind.RESISTANCE, "0.48 ohm"),
        ("0.48 \u2126", Kind.RESISTANCE, "0.48 ohm"),
        ("12 kΩ", Kind.RESISTANCE, "12000 ohm"),
        ("12 k", Kind.RESISTANCE, "12000 ohm"),
        ("5 MΩ", Kind.RESISTANCE, "5000000 ohm"),
        ("5 Megohm", Kind.RESISTANCE, "5000000 ohm"),
        ("5 Mohm", Kind.RESISTANCE, "5000000 ohm"),
        ("5 MOhms", Kind.RESISTANCE, "5000000 ohm"),
        ("24 VAC", Kind.VOLTAGE, "24 V"),
        ("0.46 kV", Kind.VOLTAGE, "460 V"),
        ("6.6 amps", Kind.CURRENT, "6.6 A"),
        ("30 tons", Kind.POWER, "360000 Btu/h"),
    ],
)
def test_forgiving_forms(text: str, kind: Kind, same: str) -> None:
    assert value(text, kind) == pytest.approx(value(same, kind), rel=1e-12)


def test_a_bare_number_is_in_the_unit_of_the_system() -> None:
    assert value("42", Kind.TEMPERATURE) == pytest.approx(value("42 °F", Kind.TEMPERATURE))
    assert value("42", Kind.TEMPERATURE, System.SI) == pytest.approx(315.15)
    assert value("5,5", Kind.VOLUME_FLOW, System.SI) == pytest.approx(5.5e-3)
    assert parse("42", Kind.TEMPERATURE).assumed
    assert parse("1.5", Kind.NUMBER).value == 1.5


def test_need_unit_refuses_a_bare_number() -> None:
    with pytest.raises(QuantityError, match=r"'42' has no unit; write it in °F, °C, K"):
        parse("42", Kind.TEMPERATURE, need_unit=True)
    assert parse("3", Kind.NUMBER, need_unit=True).value == 3.0


# --- kinds are kept apart ---


@pytest.mark.parametrize(
    ("text", "kind", "reason"),
    [
        ("30 psia", Kind.GAUGE_PRESSURE, "that is an absolute pressure, and a gauge pressure is wanted"),
        ("2 bar(a)", Kind.GAUGE_PRESSURE, "that is an absolute pressure, and a gauge pressure is wanted"),
        ("3 psid", Kind.GAUGE_PRESSURE, "that is a difference between two pressures, and a gauge pressure"),
        ("30 psig", Kind.ABSOLUTE_PRESSURE, "that is a gauge pressure, and an absolute pressure is wanted"),
        ("3 psid", Kind.ABSOLUTE_PRESSURE, "that is a difference between two pressures"),
        ("12 psig", Kind.PRESSURE_DIFFERENCE, "that is a gauge pressure, and a pressure difference is wanted"),
        ("12 psia", Kind.PRESSURE_DIFFERENCE, "that is an absolute pressure, and a pressure difference"),
        ("9 ft water", Kind.GAUGE_PRESSURE, "'ft water' is not a unit of gauge pressure"),
        ("30 vol%", Kind.MASS_FRACTION, "a fraction by mass is wanted"),
        ("3 m", Kind.TIME, "'m' is not a unit of time; type it in s, min, h"),
        ("3 gal", Kind.VOLUME_FLOW, "'gal' is not a unit of volume flow"),
    ],
)
def test_another_kind_is_refused_and_says_why(text: str, kind: Kind, reason: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse(text, kind)
    assert reason in str(caught.value)
    assert "type it in" in str(caught.value)


def test_a_temperature_difference_has_no_offset() -> None:
    assert value("9 °F", Kind.TEMPERATURE_DIFFERENCE) == pytest.approx(5.0)
    assert value("5 °C", Kind.TEMPERATURE_DIFFERENCE) == 5.0
    assert value("5 K", Kind.TEMPERATURE_DIFFERENCE) == 5.0
    assert show(5.0, Kind.TEMPERATURE_DIFFERENCE, System.US) == "9.0 °F"
    assert difference_kind(Kind.TEMPERATURE) is Kind.TEMPERATURE_DIFFERENCE


@pytest.mark.parametrize(
    ("text", "kind", "words"),
    [
        ("", Kind.TEMPERATURE, "nothing was typed"),
        ("  ", Kind.TEMPERATURE, "nothing was typed"),
        ("warm", Kind.TEMPERATURE, "no number in it"),
        ("°F", Kind.TEMPERATURE, "no number in it"),
        ("1,234 Pa", Kind.GAUGE_PRESSURE, "can be read two ways; write 1234 or 1.234"),
        ("1,2,3 Pa", Kind.GAUGE_PRESSURE, "is not a number"),
        ("1.2.3 Pa", Kind.GAUGE_PRESSURE, "is not a number"),
        ("12,34,567 Pa", Kind.GAUGE_PRESSURE, "is not a number"),
        ("1,2.3 Pa", Kind.GAUGE_PRESSURE, "is not a number"),
        ("1e400 Pa", Kind.GAUGE_PRESSURE, "not a finite number"),
        ("5–6 psi", Kind.GAUGE_PRESSURE, "not a unit"),
        ("5 mohm", Kind.RESISTANCE, "milliohm or megohm"),
        ("5 mΩ", Kind.RESISTANCE, "milliohm or megohm"),
        ("5 mOhm", Kind.RESISTANCE, "milliohm or megohm"),
        ("5 m ohms", Kind.RESISTANCE, "milliohm or megohm"),
        ("5 MV", Kind.VOLTAGE, "megavolts"),
        ("6 in 2 ft", Kind.LENGTH, "from the large unit to the small"),
        ("-500 °F", Kind.TEMPERATURE, "below absolute zero"),
        ("-1 K", Kind.TEMPERATURE, "below absolute zero"),
        ("-1 psia", Kind.ABSOLUTE_PRESSURE, "below a perfect vacuum"),
        ("open", Kind.CHOICE, "not a quantity"),
        ("3/0 in", Kind.BORE, "not a unit of bore"),
        ("62 psi ± 1 ± 2", Kind.GAUGE_PRESSURE, "more than one ±"),
        ("62 psi ± -1", Kind.GAUGE_PRESSURE, "cannot be negative"),
        ("62 psi ±", Kind.GAUGE_PRESSURE, "no number"),
        ("68 °F ± 2 %", Kind.TEMPERATURE, "a per cent of a temperature means nothing"),
        ("62 psi ± 1e400", Kind.GAUGE_PRESSURE, "not a finite number"),
        ("± 1 psi", Kind.GAUGE_PRESSURE, "no number"),
        ("1 h 20 min ± 5", Kind.TIME, "the limit after ± has no unit"),
        ("1:20 ± 5", Kind.TIME, "has no unit"),
        ("2' 6\" ± 1", Kind.LENGTH, "the limit after ± has no unit"),
        ("62 psi ± 1 V", Kind.GAUGE_PRESSURE, "'V'"),
    ],
)
def test_what_is_not_understood_is_refused(text: str, kind: Kind, words: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse(text, kind)
    assert words in str(caught.value)


# --- limits of error ---


@pytest.mark.parametrize(
    ("text", "kind", "limit"),
    [
        ("62 psi ± 1", Kind.GAUGE_PRESSURE, codata.psi),
        ("62 psi +/- 1", Kind.GAUGE_PRESSURE, codata.psi),
        ("62 psi +- 1", Kind.GAUGE_PRESSURE, codata.psi),
        ("62psi±1psi", Kind.GAUGE_PRESSURE, codata.psi),
        ("62 psig ± 1 psig", Kind.GAUGE_PRESSURE, codata.psi),
        ("62 psig ± 1 psid", Kind.GAUGE_PRESSURE, codata.psi),
        ("62 psi ± 2 %", Kind.GAUGE_PRESSURE, 1.24 * codata.psi),
        ("62 psi ± 5 kPa", Kind.GAUGE_PRESSURE, 5000.0),
        ("-10 psi ± 2 %", Kind.GAUGE_PRESSURE, 0.2 * codata.psi),
        ("68 °F ± 1.8", Kind.TEMPERATURE, 1.0),
        ("68 °F ± 1 K", Kind.TEMPERATURE, 1.0),
        ("68 °F ± 1 °C", Kind.TEMPERATURE, 1.0),
        ("20 °C ± 1,8 °F", Kind.TEMPERATURE, 1.0),
        ("68.0 ± 1.8 °F", Kind.TEMPERATURE, 1.0),
        ("293 K ± 1", Kind.TEMPERATURE, 1.0),
        ("25 % ± 2", Kind.MASS_FRACTION, 0.02),
        ("25 % ± 2 %", Kind.MASS_FRACTION, 0.02),
        ("25 ± 2 %", Kind.MASS_FRACTION, 0.02),
        ("8 h ± 10 min", Kind.TIME, 600.0),
        ("1:20 ± 5 min", Kind.TIME, 300.0),
        ("1 h 20 min ± 5 min", Kind.TIME, 300.0),
        ("460 V ± 1 %", Kind.VOLTAGE, 4.6),
        ("3 ± 0.5", Kind.NUMBER, 0.5),
        ("62 psi", Kind.GAUGE_PRESSURE, None),
    ],
)
def test_limits(text: str, kind: Kind, limit: float | None) -> None:
    found = parse(text, kind).limit
    assert found == (None if limit is None else pytest.approx(limit, rel=1e-12))


@pytest.mark.parametrize("system", list(System))
def test_one_unit_behind_the_limit_is_meant_for_both(system: System) -> None:
    quantity = parse("68.0 ± 1.8 °F", Kind.TEMPERATURE, system, need_unit=True)
    assert quantity.value == pytest.approx(293.15)
    assert not quantity.assumed
    per_cent = parse("62 ± 2 %", Kind.GAUGE_PRESSURE, System.SI)
    assert (per_cent.value, per_cent.limit) == (pytest.approx(62e3), pytest.approx(1240.0))
    assert per_cent.assumed


def test_standard_uncertainty_is_that_of_a_rectangle() -> None:
    # JCGM 100:2008 (GUM) 4.3.7, equation (7): u² = a² / 3.
    assert parse("62 kPa ± 3", Kind.GAUGE_PRESSURE).standard_uncertainty == pytest.approx(3000 / math.sqrt(3))
    assert parse("62 kPa", Kind.GAUGE_PRESSURE).standard_uncertainty is None


# --- showing ---

# Ranges in SI in which readings of the trade lie, with a margin.
RANGES = {
    Kind.TEMPERATURE: (200.0, 500.0),
    Kind.TEMPERATURE_DIFFERENCE: (-100.0, 100.0),
    Kind.GAUGE_PRESSURE: (-1e5, 6e6),
    Kind.ABSOLUTE_PRESSURE: (0.0, 6e6),
    Kind.PRESSURE_DIFFERENCE: (-1e6, 1e6),
    Kind.VOLUME_FLOW: (0.0, 1.0),
    Kind.MASS_FRACTION: (0.0, 1.0),
    Kind.RATIO: (-1.0, 5.0),
    Kind.LENGTH: (-500.0, 5e3),
    Kind.BORE: (1e-3, 1.0),
    Kind.VOLUME: (1e-3, 100.0),
    Kind.VOLTAGE: (0.0, 2e4),
    Kind.CURRENT: (0.0, 2e3),
    Kind.RESISTANCE: (0.0, 1e12),
    Kind.FREQUENCY: (0.0, 100.0),
    Kind.TIME: (-1e5, 1e8),
    Kind.POWER: (0.0, 1e7),
    Kind.SHAFT_POWER: (0.0, 1e6),
    Kind.ELECTRIC_POWER: (0.0, 1e6),
    Kind.MASS: (0.0, 1e4),
    Kind.HEAT_CAPACITY: (0.0, 1e7),
    Kind.HEAT_LOSS: (0.0, 1e5),
    Kind.ENTHALPY: (1e3, 1e6),
    Kind.NUMBER: (-1e5, 1e5),
}
inside = st.sampled_from(KINDS).flatmap(lambda kind: st.tuples(st.just(kind), st.floats(*RANGES[kind])))


def rounding(number: float, kind: Kind, system: System) -> float:
    """Return how far `show` may round a number in display units: half of three digits or of its finest step."""
    units = quantities._UNITS[kind]
    step = (units.us if system is System.US else units.metric).step
    digit = 10.0 ** (math.floor(math.log10(abs(number))) - 2) if number else 0.0
    return 0.5 * (digit if abs(number) < step else max(digit, step)) * (1 + 1e-6) + 1e-12


@settings(deadline=None, derandomize=True, max_examples=400)
@given(inside, st.sampled_from(System))
def test_what_is_shown_is_understood_as_nearly_the_same(case: tuple[Kind, float], system: System) -> None:
    kind, si = case
    back = parse(show(si, kind, system), kind, system, need_unit=True).value
    if kind is Kind.TIME:  # seconds below a minute and a half, else minutes
        assert back == pytest.approx(si, abs=0.5 if abs(si) < 90 else 30.0)
        return
    number = to_display(si, kind, system)
    assert to_display(back, kind, system) == pytest.approx(number, abs=rounding(number, kind, system))


@settings(deadline=None, derandomize=True, max_examples=200)
@given(inside, st.sampled_from(System), st.floats(0.001, 0.2))
def test_a_limit_that_is_shown_is_understood(case: tuple[Kind, float], system: System, share: float) -> None:
    kind, si = case
    limit = share * (RANGES[kind][1] - RANGES[kind][0])
    back = parse(show(si, kind, system, limit=limit), kind, system, need_unit=True).limit
    assert back is not None
    wide = to_display(limit, difference_kind(kind), system)
    shown = to_display(back, difference_kind(kind), system)
    assert shown == pytest.approx(wide, abs=rounding(wide, kind, system))


@settings(deadline=None, derandomize=True, max_examples=300)
@given(inside, st.sampled_from(System))
def test_display_and_back(case: tuple[Kind, float], system: System) -> None:
    kind, si = case
    assert from_display(to_display(si, kind, system), kind, system) == pytest.approx(si, rel=1e-12, abs=1e-9)


@settings(deadline=None, derandomize=True, max_examples=300)
@given(inside, st.none() | st.floats(0.0, 1e6))
def test_exact_text_loses_nothing(case: tuple[Kind, float], limit: float | None) -> None:
    kind, si = case
    back = parse(exact(si, kind, limit), kind, need_unit=True)
    if kind is Kind.RATIO:  # per cent only: the last bit may go
        assert back.value == pytest.approx(si, rel=1e-15)
    else:
        assert (back.value, back.limit) == (si, limit)


@settings(deadline=None, derandomize=True, max_examples=300)
@given(st.sampled_from(MEASURED), st.decimals(0, 90_000, places=4), st.sampled_from(System))
def test_a_bare_number_is_echoed_with_all_its_digits(kind: Kind, number, system: System) -> None:
    quantity = parse(str(number), kind, system)
    assert quantity.assumed
    echoed = quantity.echo(system)
    unit = display_unit(kind, system)
    assert echoed.endswith(unit)
    assert float(echoed.removesuffix(unit)) == pytest.approx(float(number), rel=1e-9, abs=1e-9)
    again = parse(quantity.written, kind, need_unit=True)
    assert again.value == quantity.value


@pytest.mark.parametrize(
    ("text", "kind", "system", "echo"),
    [
        ("5,5", Kind.VOLUME_FLOW, System.SI, "5.5 L/s"),
        ("42F", Kind.TEMPERATURE, System.SI, "5.6 °C"),
        ("42F", Kind.TEMPERATURE, System.US, "42 °F"),
        ("61.234", Kind.GAUGE_PRESSURE, System.US, "61.234 psig"),
        ("61.234 ± 0.125", Kind.GAUGE_PRESSURE, System.US, "61.234 ± 0.125 psig"),
        ("7.25", Kind.TIME, System.US, "7.25 min"),
        ("25", Kind.MASS_FRACTION, System.US, "25%"),
        ("68 °F ± 1.8", Kind.TEMPERATURE, System.SI, "20.0 ± 1.0 °C"),
        ("500 Mohm", Kind.RESISTANCE, System.US, "500.0 MΩ"),
        ("0.482", Kind.RESISTANCE, System.US, "0.482 Ω"),
    ],
)
def test_echo(text: str, kind: Kind, system: System, echo: str) -> None:
    assert parse(text, kind, system).echo(system) == echo


@pytest.mark.parametrize(
    ("text", "system", "written"),
    [
        ("54.3", System.US, "54.3 °F"),
        ("12", System.SI, "12 °C"),
        ("54 ± 0.5", System.US, "54 °F ± 0.5"),
        ("54 +/- 1 K", System.US, "54 +/- 1 K"),
        (" 54 °F ", System.SI, "54 °F"),
    ],
)
def test_written_says_the_unit_that_was_meant(text: str, system: System, written: str) -> None:
    quantity = parse(text, Kind.TEMPERATURE, system)
    assert quantity.written == written
    again = parse(written, Kind.TEMPERATURE, need_unit=True)
    assert (again.value, again.limit) == (quantity.value, quantity.limit)


@pytest.mark.parametrize(
    ("si", "kind", "us", "metric"),
    [
        (4800.0, Kind.TIME, "1 h 20 min", "1 h 20 min"),
        (7200.0, Kind.TIME, "2 h", "2 h"),
        (45.0, Kind.TIME, "45 s", "45 s"),
        (3599.9, Kind.TIME, "1 h", "1 h"),
        (-600.0, Kind.TIME, "-10 min", "-10 min"),
        (0.25, Kind.MASS_FRACTION, "25.0%", "25.0%"),
        (293.15, Kind.TEMPERATURE, "68.0 °F", "20.0 °C"),
        (0.0, Kind.GAUGE_PRESSURE, "0 psig", "0 kPa gauge"),
        (12345.6, Kind.NUMBER, "12346", "12346"),
        (2.5e9, Kind.RESISTANCE, "2500 MΩ", "2500 MΩ"),
        (47000.0, Kind.RESISTANCE, "47.0 kΩ", "47.0 kΩ"),
        (101325.0, Kind.ABSOLUTE_PRESSURE, "14.7 psia", "101 kPa absolute"),
    ],
)
def test_show(si: float, kind: Kind, us: str, metric: str) -> None:
    assert (show(si, kind, System.US), show(si, kind, System.SI)) == (us, metric)


# --- gauge and absolute ---


@settings(deadline=None, derandomize=True)
@given(st.floats(5e4, 1.1e5), st.floats(-5e4, 6e6))
def test_gauge_and_absolute_round_trip(atmosphere: float, gauge: float) -> None:
    assume(gauge + atmosphere >= 0)
    assert to_gauge(to_absolute(gauge, atmosphere), atmosphere) == pytest.approx(gauge, abs=1e-9 * 6e6)


def test_a_gauge_below_a_perfect_vacuum_is_refused() -> None:
    assert to_absolute(-101325.0, 101325.0) == 0.0
    with pytest.raises(QuantityError, match=r"below a perfect vacuum where the atmosphere is 12\.0 psia"):
        to_absolute(-13 * codata.psi, 12 * codata.psi)

"""Checks of what feeds the unit: cable, fuse or breaker, generator, and the voltage while a compressor starts."""

from __future__ import annotations

from collections.abc import Mapping

from faultdoc.checks.base import Comparison, Given, Need, Sense, Working, registered
from faultdoc.checks.electrical import SAME_VOLTAGES, VOLTAGES, mean_voltage
from faultdoc.checks.inputs import default
from faultdoc.model.base import Measured
from faultdoc.model.unit import DataSheet
from faultdoc.physics import conductors, motors
from faultdoc.quantities import Kind
from faultdoc.words import say

__all__ = [
    "CONDUCTORS",
    "FEEDER_DROP_LIMIT",
    "LEAST_FREQUENCY",
    "LEAST_START_VOLTAGE",
    "MOST_DIP",
    "MOST_DROOP",
    "conductor_reading",
    "other_loads",
]

FEEDER_DROP_LIMIT = 0.03
"""NEC 215.2(A)(2), informational note: for a feeder; 5 % together with the branch circuits behind it."""

LEAST_START_VOLTAGE = 0.85
"""Of nameplate: IEC 60947-4-1, 8.2.1.2, has contactors close at 85 % and above (from memory)."""

MOST_DIP = 0.20
"""ISO 8528-5, performance class G2, at a sudden load (from memory)."""

LEAST_FREQUENCY = 0.90
"""Of nameplate: ISO 8528-5, performance class G2, at a sudden load (from memory)."""

MOST_DROOP = 0.05
"""ISO 8528-5, performance class G2 (from memory)."""

CONDUCTORS: dict[str, float] = {
    "awg_8": 8.37, "mm2_10": 10.0, "awg_6": 13.30, "mm2_16": 16.0, "awg_4": 21.15, "mm2_25": 25.0,
    "awg_3": 26.67, "awg_2": 33.62, "mm2_35": 35.0, "awg_1": 42.41, "mm2_50": 50.0, "awg_1_0": 53.49,
    "awg_2_0": 67.43, "mm2_70": 70.0, "awg_3_0": 85.01, "mm2_95": 95.0, "awg_4_0": 107.2, "mm2_120": 120.0,
    "kcmil_250": 126.7, "mm2_150": 150.0, "kcmil_300": 152.0, "kcmil_350": 177.3, "mm2_185": 185.0,
    "kcmil_400": 202.7, "mm2_240": 240.0, "kcmil_500": 253.4,
}  # fmt: skip
"""Cross-section in mm² by the choice of point `feeder_size`: ASTM B258 and IEC 60228."""


def conductor_reading(size: str, metal: str = "copper") -> Measured:
    """Return the reading of `feeder_area` that a choice of `feeder_size` and of `feeder_metal` stands for.

    Its uncertainty is that of resistance between cables of one size: ± 8 %, IEC 60228 classes 2 and 5.

    Raises:
        KeyError: for a size that is no choice.

    >>> conductor_reading("awg_2").value
    33.62
    """
    area = CONDUCTORS[size] * (conductors.ALUMINIUM_AS_COPPER if metal == "aluminium" else 1.0)
    return Measured(kind=Kind.NUMBER, value=area, standard_uncertainty=0.045 * area, text=f"{area:.2f}")


def _rated(sheet: DataSheet) -> list[float]:
    return [compressor.rated_current for compressor in sheet.compressors]


def _pump(sheet: DataSheet) -> list[float]:
    return [sheet.water.pump.rated_current] if sheet.water.pump else []


def other_loads(sheet: DataSheet) -> Given:
    """Return the current (A) of condenser fans and control, and its standard uncertainty.

    Where the sheet gives no fans' current a tenth of the compressors' is assumed, give or take half of it.
    """
    compressors = sum(_rated(sheet))
    power = sheet.electrical.control_transformer_power
    control = 0.01 * compressors if power is None else power / sheet.electrical.voltage
    fans = [fan.count * fan.rated_current for fan in sheet.fans if fan.rated_current is not None]
    if sheet.fans and len(fans) == len(sheet.fans):
        return sum(fans) + control, 0.02 * sum(fans) + 0.3 * control, "data sheet"
    return 0.10 * compressors + control, 0.05 * compressors, "assumed"


def _ampacity(sheet: DataSheet) -> Given | None:
    ampacity = sheet.electrical.minimum_circuit_ampacity
    return None if ampacity is None else (ampacity, 0.0, "data sheet")


def _protection(sheet: DataSheet) -> Given | None:
    protection = sheet.electrical.maximum_protection
    return None if protection is None else (protection, 0.0, "data sheet")


def _running(sheet: DataSheet) -> Given:
    everything = sum(_rated(sheet)) + sum(_pump(sheet)) + other_loads(sheet)[0]
    return 0.85 * everything, 0.10 * everything, "assumed"


def _area(sheet: DataSheet) -> Given:
    # The smallest cable that may carry the unit; a hire fleet's may be two sizes larger.
    needed = sheet.electrical.minimum_circuit_ampacity
    if needed is None:
        needed = motors.minimum_ampacity(_rated(sheet), [*_pump(sheet), other_loads(sheet)[0]])
    try:
        area = 1e6 * conductors.area_for(needed)
    except ValueError:
        area = 1e6 * conductors.area_for(380.0)
    return 1.2 * area, 0.3 * area, "assumed"


def _locked_rotor(sheet: DataSheet) -> Given:
    # Maker's figures hold to a tenth; without one a motor takes some five to seven times its rating.
    given = [one.locked_rotor_current for one in sheet.compressors if one.locked_rotor_current is not None]
    if len(given) == len(sheet.compressors):
        return max(given), 0.06 * max(given), "data sheet"
    return 6.0 * max(_rated(sheet)), 1.0 * max(_rated(sheet)), "assumed"


AMPACITY = Need("nameplate_ampacity", Kind.CURRENT, "minimum circuit ampacity", default=_ampacity)
PROTECTION = Need("nameplate_protection", Kind.CURRENT, "maximum fuse or breaker", default=_protection)
BREAKER = Need("breaker_rating", Kind.CURRENT, "rating of the fuse or breaker")
OTHERS = Need("sheet.other_loads", Kind.CURRENT, "fans and control together", default=other_loads)
UNIT_CURRENT = Need("unit_current", Kind.CURRENT, "current into the unit", default=_running)
LENGTH = Need("feeder_length", Kind.LENGTH, "length of the feeder, one way")
SOME_LENGTH = Need(
    "feeder_length", Kind.LENGTH, "length of the feeder, one way", default=default(30.0, 15.0)
)  # fmt: skip
SETS = Need("feeder_sets", Kind.NUMBER, "conductors in parallel", default=default(1.0, 0.0))
AREA = Need("feeder_area", Kind.NUMBER, "cross-section of one conductor, mm² of copper", default=_area)
CABLE = (
    AREA,
    SETS,
    Need("feeder_temperature", Kind.TEMPERATURE, "conductors' temperature", default=default(323.15, 10.0)),
)
POWER_FACTOR = Need("sheet.power_factor", Kind.NUMBER, "power factor running", default=default(0.85, 0.04))
START = (
    Need("sheet.locked_rotor", Kind.CURRENT, "largest locked-rotor current", default=_locked_rotor),
    Need("sheet.start_power_factor", Kind.NUMBER, "power factor while starting", default=default(0.40, 0.08)),
)
GENERATOR = Need("generator_current", Kind.CURRENT, "generator's rated current")
REACTANCE = Need(
    "generator_reactance", Kind.RATIO, "generator's subtransient reactance", default=default(0.15, 0.03)
)  # fmt: skip

_FEEDER_SOURCE = (
    "Resistance and reactance of NEC chapter 9, tables 8 and 9, skin effect by IEC 60287-1-1; effective impedance "
    "R cos + X sin (table 9, note 2)."
)


def _impedance(values: Mapping[str, float], sheet: DataSheet) -> tuple[float, float]:
    """Return resistance and reactance (Ω/m) of the feeder's conductors on one line."""
    sets = values["feeder_sets"]
    if sets < 0.5:
        raise ValueError("at least one conductor feeds each line")
    area, frequency = 1e-6 * values["feeder_area"], sheet.electrical.frequency
    resistance = conductors.ac_resistance(area, "copper", values["feeder_temperature"], frequency)
    return resistance / sets, conductors.reactance(area, frequency) / sets


def _drop(values: Mapping[str, float], sheet: DataSheet, current: float) -> float:
    effective = conductors.effective_impedance(*_impedance(values, sheet), values["sheet.power_factor"])
    return conductors.voltage_drop(current, values["feeder_length"], effective)


def _cable_working(values: Mapping[str, float], sheet: DataSheet) -> tuple[Working, ...]:
    resistance, reactance = _impedance(values, sheet)
    return (
        Working("resistance of one line of the feeder", resistance * values["feeder_length"], Kind.RESISTANCE),
        Working("reactance of one line of the feeder", reactance * values["feeder_length"], Kind.RESISTANCE),
    )


@registered(
    id="feeder_drop",
    title=say("Voltage drop of the feeder, running"),
    kind=Kind.RATIO,
    needs=(LENGTH, *CABLE, UNIT_CURRENT, POWER_FACTOR),
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="sqrt 3 x current x length x (R cos + X sin) / nameplate voltage, at most 3 %",
    source=f"{_FEEDER_SOURCE} 3 % for a feeder: NEC 215.2(A)(2), informational note.",
)
def feeder_drop(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the feeder's reckoned drop with what is recommended."""
    drop = _drop(values, sheet, values["unit_current"])
    return Comparison(
        FEEDER_DROP_LIMIT,
        drop / sheet.electrical.voltage,
        (
            *_cable_working(values, sheet),
            Working("current", values["unit_current"], Kind.CURRENT),
            Working("drop between lines", drop, Kind.VOLTAGE),
        ),
        ("Reckoned, not measured. A cable coiled on its drum runs hotter and drops more.",),
    )


_SOURCE_VOLTAGES = tuple(f"source_voltage_{pair}" for pair in ("l1_l2", "l2_l3", "l3_l1"))


@registered(
    id="feeder_drop_found",
    title=say("Voltage lost between the feeder's two ends"),
    kind=Kind.VOLTAGE,
    needs=(
        *(
            Need(name, Kind.VOLTAGE, f"voltage {name[15:].upper().replace('_', ' to ')} where the feeder begins")
            for name in _SOURCE_VOLTAGES
        ),
        *VOLTAGES,
        LENGTH,
        *CABLE,
        UNIT_CURRENT,
        POWER_FACTOR,
    ),
    sense=Sense.AT_MOST,
    formula="sqrt 3 x current x length x (R cos + X sin), against the difference of the two ends' mean voltages",
    source=_FEEDER_SOURCE,
)
def feeder_drop_found(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the drop measured along the feeder with what its cable should take."""
    found = sum(values[name] for name in _SOURCE_VOLTAGES) / 3.0 - mean_voltage(values)
    drop = _drop(values, sheet, values["unit_current"])
    return Comparison(
        drop,
        found,
        (
            *_cable_working(values, sheet),
            Working("drop expected of the cable", drop, Kind.VOLTAGE),
            Working("drop found", found, Kind.VOLTAGE),
        ),
        ("More than the cable takes is lost in a joint, a connector or a switch: look for heat there.",),
    )


@registered(
    id="feeder_start_voltage",
    title=say("Voltage at the unit while its largest compressor starts, as the feeder lets it"),
    kind=Kind.RATIO,
    needs=(LENGTH, *CABLE, POWER_FACTOR, *START, *SAME_VOLTAGES, OTHERS),
    floor=-1.0,
    sense=Sense.AT_LEAST,
    formula="supply less the running loads' drop, divided between feeder and motor at rest; over nameplate",
    source=(
        f"{_FEEDER_SOURCE} Impedance method of motor-starting studies, IEEE Std 3002.7; contactors close at 85 %, "
        "IEC 60947-4-1 (from memory)."
    ),
)
def feeder_start_voltage(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the voltage reckoned at a start with what contactors need."""
    rated = _rated(sheet)
    running = sum(rated) - max(rated) + sum(_pump(sheet)) + values["sheet.other_loads"]
    before = mean_voltage(values) - _drop(values, sheet, running)
    resistance, reactance = (part * values["feeder_length"] for part in _impedance(values, sheet))
    at_start = motors.start_voltage(
        before,
        sheet.electrical.voltage,
        values["sheet.locked_rotor"],
        values["sheet.start_power_factor"],
        resistance,
        reactance,
    )
    return Comparison(
        LEAST_START_VOLTAGE,
        at_start / sheet.electrical.voltage,
        (
            *_cable_working(values, sheet),
            Working("voltage before the last compressor starts", before, Kind.VOLTAGE),
            Working("locked-rotor current", values["sheet.locked_rotor"], Kind.CURRENT),
            Working("voltage at the start", at_start, Kind.VOLTAGE),
        ),
        ("The source is taken as stiff, and the start as across the line; a generator dips on top of this.",),
    )


@registered(
    id="start_voltage",
    title=say("Lowest voltage while a compressor starts"),
    kind=Kind.VOLTAGE,
    needs=(Need("voltage_at_start", Kind.VOLTAGE, "lowest voltage at the start"),),
    floor=-1.0,
    sense=Sense.AT_LEAST,
    formula="85 % of nameplate voltage at least",
    source="IEC 60947-4-1, 8.2.1.2: contactors close at 85 % of rated control voltage and above (from memory).",
)
def start_voltage(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the lowest voltage at a start with what contactors need."""
    least = LEAST_START_VOLTAGE * sheet.electrical.voltage
    found = values["voltage_at_start"]
    share = found / sheet.electrical.voltage
    return Comparison(
        least,
        found,
        (
            Working("lowest over nameplate voltage", share, Kind.RATIO),
            Working("starting torque over that at nameplate voltage", share**2, Kind.RATIO),
        ),
    )


def _generator_dip(values: Mapping[str, float], sheet: DataSheet, feeder: tuple[float, float]) -> float:
    """Return the share of voltage lost at the unit when the largest compressor starts on the generator alone."""
    nameplate = sheet.electrical.voltage
    inside = motors.generator_reactance(values["generator_current"], nameplate, values["generator_reactance"])
    at_start = motors.start_voltage(
        1.0,
        nameplate,
        values["sheet.locked_rotor"],
        values["sheet.start_power_factor"],
        feeder[0],
        inside + feeder[1],
    )
    return 1.0 - at_start


@registered(
    id="generator_size",
    title=say("Generator's voltage dip while the largest compressor starts, reckoned"),
    kind=Kind.RATIO,
    needs=(GENERATOR, REACTANCE, *START),
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="1 - |Z motor| / |Z motor + j X''|, X'' = x'' V / (sqrt 3 x rated current), at most 20 %",
    source=(
        "Impedance method of motor-starting studies, IEEE Std 3002.7; 20 %: ISO 8528-5, class G2 (from memory); "
        "x'' of 9 to 21 % is common practice, no source."
    ),
)
def generator_size(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the generator's reckoned dip with what is tolerated."""
    dip = _generator_dip(values, sheet, (0.0, 0.0))
    ratio = values["sheet.locked_rotor"] / values["generator_current"]
    return Comparison(
        MOST_DIP,
        dip,
        (
            Working("locked-rotor current over the generator's rated current", ratio, Kind.NUMBER),
            Working("dip reckoned", dip, Kind.RATIO),
        ),
        ("The first instant, before the regulator answers; the start taken as across the line.",),
    )


@registered(
    id="generator_dip",
    title=say("Voltage dip while the largest compressor starts on a generator"),
    kind=Kind.RATIO,
    needs=(
        Need("voltage_at_start", Kind.VOLTAGE, "lowest voltage at the start"),
        *VOLTAGES,
        GENERATOR,
        REACTANCE,
        *START,
        SOME_LENGTH,
        *CABLE,
    ),
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="1 - |Z motor| / |Z motor + Z feeder + j X''|, against 1 - lowest voltage / voltage before",
    source="Impedance method of motor-starting studies, IEEE Std 3002.7; feeder by NEC chapter 9.",
)
def generator_dip(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the dip measured with what generator and feeder should give."""
    before = mean_voltage(values)
    if before <= 0.0:
        raise ValueError("the voltage before the start must be above zero")
    resistance, reactance = (part * values["feeder_length"] for part in _impedance(values, sheet))
    expected = _generator_dip(values, sheet, (resistance, reactance))
    found = 1.0 - values["voltage_at_start"] / before
    return Comparison(
        expected,
        found,
        (
            Working("voltage before", before, Kind.VOLTAGE),
            Working("dip expected", expected, Kind.RATIO),
            Working("dip found", found, Kind.RATIO),
        ),
        (
            "A deeper dip: a generator smaller or weaker than written, a slow regulator, a bad joint, or a "
            "compressor that is stiff to start.",
        ),
    )


@registered(
    id="generator_load",
    title=say("Unit's current over the generator's rating"),
    kind=Kind.RATIO,
    needs=(GENERATOR, Need("unit_current", Kind.CURRENT, "current into the unit")),
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="current into the unit / generator's rated current, at most 1",
    source="The generator's nameplate.",
)
def generator_load(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the unit's current with the generator's rating."""
    if values["generator_current"] <= 0.0:
        raise ValueError("the generator's rated current must be above zero")
    share = values["unit_current"] / values["generator_current"]
    return Comparison(1.0, share, (Working("load over rating", share, Kind.RATIO),))


@registered(
    id="generator_frequency_dip",
    title=say("Lowest frequency while a compressor starts"),
    kind=Kind.FREQUENCY,
    needs=(Need("frequency_at_start", Kind.FREQUENCY, "lowest frequency at the start"),),
    floor=-1.0,
    sense=Sense.AT_LEAST,
    formula="90 % of nameplate frequency at least",
    source="ISO 8528-5, performance class G2, at a sudden load (from memory).",
)
def generator_frequency_dip(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the frequency's dip at a start with what a generator may show."""
    nominal, found = sheet.electrical.frequency, values["frequency_at_start"]
    return Comparison(
        LEAST_FREQUENCY * nominal, found, (Working("lowest over nameplate", found / nominal, Kind.RATIO),)
    )


@registered(
    id="generator_droop",
    title=say("Frequency lost from no load to load"),
    kind=Kind.RATIO,
    needs=(
        Need("frequency_no_load", Kind.FREQUENCY, "frequency without load"),
        Need("frequency", Kind.FREQUENCY, "frequency under load"),
    ),
    scale=MOST_DROOP,
    sense=Sense.AT_MOST,
    formula="(frequency without load - frequency under load) / nameplate frequency, at most 5 %",
    source="ISO 8528-5, performance class G2 (from memory).",
)
def generator_droop(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the generator's droop with what a governor should hold."""
    droop = (values["frequency_no_load"] - values["frequency"]) / sheet.electrical.frequency
    return Comparison(MOST_DROOP, droop, (Working("droop", droop, Kind.RATIO),))


@registered(
    id="circuit_ampacity",
    title=say("Minimum circuit ampacity on the plate against the unit's motors"),
    kind=Kind.CURRENT,
    needs=(AMPACITY, OTHERS),
    floor=-1.0,
    formula="all rated currents + a quarter of the largest",
    source="NEC 440.33 and 440.35; 440.32 for one compressor.",
)
def circuit_ampacity(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the plate's ampacity with what the motors on the data sheet ask for."""
    rated = _rated(sheet)
    expected = motors.minimum_ampacity(rated, [*_pump(sheet), values["sheet.other_loads"]])
    return Comparison(expected, values["nameplate_ampacity"], _motor_working(values, sheet))


def _motor_working(values: Mapping[str, float], sheet: DataSheet) -> tuple[Working, ...]:
    return (
        Working("compressors together", sum(_rated(sheet)), Kind.CURRENT),
        Working("largest compressor", max(_rated(sheet)), Kind.CURRENT),
        Working("pump", sum(_pump(sheet)), Kind.CURRENT),
        Working("fans and control", values["sheet.other_loads"], Kind.CURRENT),
    )


@registered(
    id="circuit_protection",
    title=say("Maximum fuse or breaker on the plate against the unit's motors"),
    kind=Kind.CURRENT,
    needs=(PROTECTION, OTHERS),
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="2.25 x largest compressor + all other rated currents, at most",
    source="NEC 440.22(B); standard ratings NEC 240.6(A).",
)
def circuit_protection(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the plate's largest protection with what the motors on the data sheet allow."""
    others = [*_pump(sheet), values["sheet.other_loads"]]
    ceiling = motors.protection_ceiling(_rated(sheet), others)
    return Comparison(
        ceiling,
        values["nameplate_protection"],
        (
            *_motor_working(values, sheet),
            Working("next standard rating below", motors.standard_rating(ceiling), Kind.CURRENT),
            Working(
                "to begin with, 1.75 times the largest",
                motors.protection_ceiling(_rated(sheet), others, 1.75),
                Kind.CURRENT,
            ),
        ),
    )


@registered(
    id="breaker_above",
    title=say("Fuse or breaker against the largest the plate allows"),
    kind=Kind.CURRENT,
    needs=(BREAKER, PROTECTION),
    floor=-1.0,
    sense=Sense.AT_MOST,
    formula="maximum fuse or breaker of the nameplate",
    source="The nameplate; NEC 440.22.",
)
def breaker_above(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the protection fitted with the largest allowed."""
    return Comparison(
        values["nameplate_protection"],
        values["breaker_rating"],
        (Working("largest allowed", values["nameplate_protection"], Kind.CURRENT),),
    )


@registered(
    id="breaker_below",
    title=say("Fuse or breaker against the unit's minimum circuit ampacity"),
    kind=Kind.CURRENT,
    needs=(BREAKER, AMPACITY),
    floor=-1.0,
    sense=Sense.AT_LEAST,
    formula="minimum circuit ampacity of the nameplate",
    source="The nameplate; one below it opens on a start or a hot day, common practice, no source.",
)
def breaker_below(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare the protection fitted with the current the unit may draw."""
    return Comparison(
        values["nameplate_ampacity"],
        values["breaker_rating"],
        (Working("minimum circuit ampacity", values["nameplate_ampacity"], Kind.CURRENT),),
    )


@registered(
    id="feeder_ampacity",
    title=say("Feeder's ampacity against the unit's minimum"),
    kind=Kind.CURRENT,
    needs=(
        Need("feeder_area", Kind.NUMBER, "cross-section of one conductor, mm² of copper"),
        SETS,
        AMPACITY,
        Need(
            "sheet.ampacity_table", Kind.RATIO, "cable's own ampacity over the table's", default=default(1.0, 0.06)
        ),
    ),
    floor=-1.0,
    sense=Sense.AT_LEAST,
    formula="ampacity of the conductor x conductors in parallel, against minimum circuit ampacity",
    source="NEC table 310.16, copper, 75 °C, three conductors together in air of 30 °C.",
)  # fmt: skip
def feeder_ampacity(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
    """Compare what the feeder may carry with the unit's minimum circuit ampacity."""
    one = conductors.ampacity(1e-6 * values["feeder_area"]) * values["sheet.ampacity_table"]
    together = one * values["feeder_sets"]
    return Comparison(
        values["nameplate_ampacity"],
        together,
        (
            Working("ampacity of one conductor", one, Kind.CURRENT),
            Working("of all in parallel", together, Kind.CURRENT),
        ),
        ("Portable cable has its own table (NEC 400.5), which often allows more; hotter air allows less.",),
    )

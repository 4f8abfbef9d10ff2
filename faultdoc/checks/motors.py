"""Checks of the motors: compressors, condenser fans and pump, one of each kind for every motor there may be."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from faultdoc.checks.base import Comparison, Default, Given, Need, Sense, Working, registered
from faultdoc.checks.electrical import (
    ALIKE,
    CURRENT_UNBALANCE_LIMIT,
    PUMP_CURRENTS,
    SAME_VOLTAGES,
    VOLTAGES,
    mean_voltage,
)
from faultdoc.checks.inputs import LEAVING, default
from faultdoc.checks.three import LINES, PAIRS, mean_of, of_three, off_mean, three
from faultdoc.model.points import FAMILIES
from faultdoc.model.unit import Compressor, DataSheet, Fan
from faultdoc.physics import atmosphere, electrical, motors
from faultdoc.quantities import Kind
from faultdoc.words import say

__all__ = ["LARGEST_POLE_DROP", "LEAST_CONDENSING_LIFT", "WINDING_UNBALANCE_LIMIT"]

WINDING_UNBALANCE_LIMIT = 0.02
"""T. Bishop, Unbalanced current, EC&M, 2014: lead-to-lead resistances within 2 % of their mean."""

LARGEST_POLE_DROP = 0.10
"""V across a closed pole under load; common practice, no source."""

LEAST_CONDENSING_LIFT = 20.0
"""K; below it fan control holds the condensing temperature up. Common practice, no source."""

_COLD = 293.15
"""K; at which the winding resistance of a data sheet holds."""

AMBIENT = Need(
    "ambient_air_temperature", Kind.TEMPERATURE, "outdoor air",
    default=lambda sheet: (sheet.rating_ambient - 5.0, 8.0, "assumed"),
)  # fmt: skip
ELEVATION = Need("site_elevation", Kind.LENGTH, "height above sea level", default=default(150.0, 150.0))


def _compressor(sheet: DataSheet, number: int) -> Compressor:
    if number > len(sheet.compressors):
        raise ValueError(f"the data sheet gives {len(sheet.compressors)} compressors, so none is number {number}")
    return sheet.compressors[number - 1]


def _fan(sheet: DataSheet, number: int) -> Fan:
    left = number
    for fan in sheet.fans:
        if left <= fan.count:
            return fan
        left -= fan.count
    count = sum(fan.count for fan in sheet.fans)
    raise ValueError(f"the data sheet gives {count} condenser fans, so none is number {number}")


def _compressor_there(number: int) -> Default:
    def there(sheet: DataSheet) -> Given | None:
        # A scroll runs at 70 to 95 % of the current on its plate when the unit runs at its rating.
        return (0.85, 0.06, "assumed") if number <= len(sheet.compressors) else None

    return there


# --- what every motor has ---


def _unbalance_check(id: str, title: str, needs: tuple[Need, ...]) -> None:
    @registered(
        id=id,
        title=say("Unbalance of the currents of {title}", title=title),
        kind=Kind.RATIO,
        needs=needs,
        scale=CURRENT_UNBALANCE_LIMIT,
        floor=-1.0,
        sense=Sense.AT_MOST,
        formula="largest deviation from the mean current / mean current",
        source="Reckoned as NEMA MG 1 does for voltage; 10 %: T. Bishop, Unbalanced current, EC&M, 2014.",
    )
    def check(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
        currents = of_three(values, needs)
        found = electrical.current_unbalance(*currents)
        negative: tuple[Working, ...] = ()
        if max(currents) <= 1.02 * (sum(currents) - max(currents)):
            factor = electrical.negative_sequence_factor(*currents)
            negative = (Working("negative over positive sequence", factor, Kind.RATIO),)
        return Comparison(
            CURRENT_UNBALANCE_LIMIT,
            found,
            (
                *off_mean(currents, found, Kind.CURRENT),
                Working("unbalance", found, Kind.RATIO),
                *negative,
            ),
        )


def _phases_check(id: str, title: str, needs: tuple[Need, ...]) -> None:
    @registered(
        id=id,
        title=say("Smallest over largest of the currents of {title}", title=title),
        kind=Kind.RATIO,
        needs=needs,
        floor=-1.0,
        sense=Sense.AT_LEAST,
        formula="smallest / largest, against the half-way mark between all alike (1) and 1 : 1 : 2",
        source=(
            "Fortescue's components: a lost line leaves 0 : 1 : 1, one lost before a delta-wye transformer "
            "1 : 1 : 2."
        ),
    )
    def check(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
        currents = of_three(values, needs)
        pattern = electrical.phase_pattern(*currents)
        low, high = min(currents), max(currents)
        return Comparison(
            ALIKE,
            low / high,
            (Working("smallest", low, Kind.CURRENT), Working("largest", high, Kind.CURRENT)),
            (f"Nearest pattern: {pattern}.",),
        )


def _rolled_check(id: str, title: str, before: tuple[Need, ...], after: tuple[Need, ...]) -> None:
    # The share itself stands still where one part is nothing, so that the meters' error would vanish from it just
    # where it is called; from the difference of the two parts at most that of the lesser part does.
    @registered(
        id=id,
        title=say("Current unbalance of {title} that stays with the supply, less that of the motor", title=title),
        kind=Kind.RATIO,
        needs=(*before, *after),
        scale=CURRENT_UNBALANCE_LIMIT,
        formula="|S| - |M|, M = (A - B) / (1 - w), S = A - M; A, B the deviations before and after as phasors",
        source=(
            "The test: T. Bishop, Unbalanced current, EC&M, 2014. Solved to first order for the parts that stay "
            "with the lines and that move with the leads."
        ),
    )
    def check(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
        parts = electrical.rolled_leads(of_three(values, before), of_three(values, after))
        working: tuple[Working, ...] = (
            Working("part that stays with the lines, over the mean current", parts.supply, Kind.RATIO),
            Working("part that moves with the leads, over the mean current", parts.motor, Kind.RATIO),
        )
        if parts.supply + parts.motor > 0.0:
            working += (
                Working("share that follows the supply", parts.supply_share, Kind.RATIO),
                Working("share that follows the motor", 1.0 - parts.supply_share, Kind.RATIO),
            )
        return Comparison(
            0.0,
            parts.supply - parts.motor,
            working,
            ("High: most of it is the supply's. Low: most is the motor's. Between: the readings cannot tell.",),
        )


def _derated_check(
    id: str, title: str, needs: tuple[Need, ...], rated: Callable[[DataSheet], float]
) -> None:  # fmt: skip
    @registered(
        id=id,
        title=say("Current of {title} against what the supply's unbalance leaves it", title=title),
        kind=Kind.RATIO,
        needs=(*needs, *VOLTAGES),
        floor=-1.0,
        sense=Sense.AT_MOST,
        formula="mean current / rated current, at most the derating factor at this voltage unbalance",
        source="NEMA MG 1, 14.36 and figure 14-1.",
    )
    def check(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
        voltages = of_three(values, VOLTAGES)
        unbalance = electrical.voltage_unbalance(*voltages)
        allowed = electrical.derating(unbalance)
        share = mean_of(values, needs) / rated(sheet)
        return Comparison(
            allowed,
            share,
            (
                Working("voltage unbalance", unbalance, Kind.RATIO),
                Working("growth of the temperature rise", electrical.unbalance_heating(unbalance), Kind.RATIO),
                Working("share of its rating the motor may carry", allowed, Kind.RATIO),
                Working("share it carries", share, Kind.RATIO),
            ),
        )


def _winding_balance_check(id: str, title: str, needs: tuple[Need, ...]) -> None:
    @registered(
        id=id,
        title=say("Unbalance of the winding resistances of {title}", title=title),
        kind=Kind.RATIO,
        needs=needs,
        scale=WINDING_UNBALANCE_LIMIT,
        floor=-1.0,
        sense=Sense.AT_MOST,
        formula="largest deviation from the mean resistance / mean resistance, at most 2 %",
        source="T. Bishop, Unbalanced current, EC&M, 2014: lead to lead within 2 % of the mean.",
    )
    def check(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
        resistances = of_three(values, needs)
        found = electrical.unbalance(resistances)
        return Comparison(
            WINDING_UNBALANCE_LIMIT,
            found,
            off_mean(resistances, found, Kind.RESISTANCE),
            ("An error common to all three, such as the meter's scale, counts as if it were each one's own.",),
        )


def _insulation_check(id: str, title: str, point: str, temperature: str, hint: str) -> None:
    @registered(
        id=id,
        title=say("Insulation resistance of {title} at 40 °C", title=title),
        kind=Kind.RESISTANCE,
        needs=(
            Need(point, Kind.RESISTANCE, "insulation resistance"),
            Need(temperature, Kind.TEMPERATURE, "winding's temperature", default=default(298.15, 8.0)),
        ),
        floor=-1.0,
        sense=Sense.AT_LEAST,
        formula="reading x 0.5^((40 °C - temperature) / 10 K), at least 5 MΩ",
        source="IEEE Std 43-2013, 6.3 and table 3: random-wound windings, and all below 1 kV.",
    )
    def check(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
        corrected = motors.insulation_at_40(values[point], values[temperature])
        return Comparison(
            motors.least_insulation(sheet.electrical.voltage),
            corrected,
            (
                Working("as read", values[point], Kind.RESISTANCE),
                Working("corrected to 40 °C", corrected, Kind.RESISTANCE),
            ),
            (hint,),
        )


def _pole_check(id: str, title: str, needs: tuple[Need, ...]) -> None:
    @registered(
        id=id,
        title=say("Largest voltage across a closed pole of the contactor of {title}", title=title),
        kind=Kind.VOLTAGE,
        needs=(
            *needs,
            Need(
                "sheet.pole_drop",
                Kind.VOLTAGE,
                "largest drop of a sound pole",
                default=default(LARGEST_POLE_DROP, 0.03),
            ),
        ),
        floor=-1.0,
        sense=Sense.AT_MOST,
        formula="largest of the three, at most 0.1 V",
        source="Common practice, no source: a sound pole drops some tens of millivolts at its rated current.",
    )
    def check(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
        drops = of_three(values, needs)
        return Comparison(
            values["sheet.pole_drop"],
            max(drops),
            tuple(
                Working(f"drop of {line.upper()}", drop, Kind.VOLTAGE)
                for line, drop in zip(LINES, drops, strict=True)
            ),
            ("A pole that reads the supply's voltage does not close at all.",),
        )


# --- the compressors ---


def _compressor_current_check(number: int, needs: tuple[Need, ...]) -> None:
    @registered(
        id=f"compressor_current_{number}",
        title=say("Current of compressor {number}", number=number),
        kind=Kind.CURRENT,
        needs=(
            *needs,
            AMBIENT,
            LEAVING,
            *SAME_VOLTAGES,
            Need(
                "sheet.compressor_share",
                Kind.RATIO,
                f"current of compressor {number} at the design point, over its plate's",
                default=_compressor_there(number),
            ),
            Need(
                "sheet.compressor_no_load",
                Kind.RATIO,
                "compressor's magnetising current over its current at the design point",
                default=default(0.40, 0.08),
            ),
            Need("sheet.evaporator_approach", Kind.TEMPERATURE_DIFFERENCE, "approach", default=_approach),
            Need("sheet.condenser_split", Kind.TEMPERATURE_DIFFERENCE, "split", default=_split),
            Need(
                "sheet.vapour_slope", Kind.NUMBER, "slope b of ln p = const - b / T, K",
                default=default(2500.0, 80.0),
            ),
        ),
        floor=-1.0,
        formula=(
            "design current x sqrt(m² v² + (1 - m²) (x / v)²), v the voltage and x the compression work over "
            "those at the design point"
        ),
        source=(
            "The nameplate; work of a fixed displacement between saturation temperatures (leaving water less "
            "approach, outdoor air plus split), pressures by Clausius and Clapeyron; circle diagram of the motor. "
            "A compressor draws 70 to 95 % of its plate at the rating, common practice, no source."
        ),
    )  # fmt: skip
    def check(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
        plate = _compressor(sheet, number)
        approach, split = values["sheet.evaporator_approach"], values["sheet.condenser_split"]
        evaporating = values["water_out_temperature"] - approach
        condensing = max(values["ambient_air_temperature"] + split, evaporating + LEAST_CONDENSING_LIFT)
        load = motors.compressor_load(
            evaporating,
            condensing,
            sheet.water.design_leaving - approach,
            sheet.rating_ambient + split,
            slope=values["sheet.vapour_slope"],
        )
        voltage = mean_voltage(values) / sheet.electrical.voltage
        design = plate.rated_current * values["sheet.compressor_share"]
        expected = electrical.motor_current(load, design, values["sheet.compressor_no_load"], voltage=voltage)
        measured = mean_of(values, needs)
        remarks: tuple[str, ...] = ("At full load, its circuit clean and charged.",)
        if plate.unloading_steps or plate.speeds > 1:
            remarks += ("This compressor can run at part load: see that it is at full load.",)
        return Comparison(
            expected,
            measured,
            (
                Working("evaporating temperature", evaporating, Kind.TEMPERATURE),
                Working("condensing temperature", condensing, Kind.TEMPERATURE),
                Working("compression work over that at the design point", load, Kind.RATIO),
                Working("voltage over nameplate", voltage, Kind.RATIO),
                Working("current expected", expected, Kind.CURRENT),
                Working("mean of the three currents", measured, Kind.CURRENT),
                Working("mean over the nameplate's current", measured / plate.rated_current, Kind.RATIO),
            ),
            remarks,
        )


def _approach(sheet: DataSheet) -> Given:
    given = sheet.refrigerant_side.evaporator_approach
    return (5.0, 1.5, "assumed") if given is None else (given, 1.0, "data sheet")


def _split(sheet: DataSheet) -> Given:
    given = sheet.refrigerant_side.condenser_split
    return (14.0, 3.0, "assumed") if given is None else (given, 1.5, "data sheet")


def _winding(number: int) -> Default:
    def given(sheet: DataSheet) -> Given | None:
        if number > len(sheet.compressors):
            return None
        resistance = sheet.compressors[number - 1].winding_resistance
        # Makers hold their windings to some 7 to 10 %, and 'cold' is 20 to 25 °C.
        return None if resistance is None else (resistance, 0.05 * resistance, "data sheet")

    return given


def _winding_resistance_check(number: int, needs: tuple[Need, ...]) -> None:
    temperature = f"winding_temperature_{number}"

    @registered(
        id=f"winding_resistance_{number}",
        title=say("Winding resistance of compressor {number}", number=number),
        kind=Kind.RESISTANCE,
        needs=(
            *needs,
            Need(temperature, Kind.TEMPERATURE, "winding's temperature", default=default(298.15, 8.0)),
            Need(
                "sheet.winding_resistance", Kind.RESISTANCE, f"winding resistance of compressor {number}",
                default=_winding(number),
            ),
        ),
        floor=-1.0,
        formula="cold resistance of the data sheet x (234.5 + temperature in °C) / (234.5 + 20)",
        source="IEC 60034-1, 8.6.2, copper; makers' tolerance of some 8 % is common practice, no source.",
    )  # fmt: skip
    def check(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
        _compressor(sheet, number)
        expected = motors.winding_resistance_at(values["sheet.winding_resistance"], _COLD, values[temperature])
        measured = mean_of(values, needs)
        return Comparison(
            expected,
            measured,
            (
                Working("resistance expected at this temperature", expected, Kind.RESISTANCE),
                Working("mean of the three pairs", measured, Kind.RESISTANCE),
            ),
        )


# --- the fans ---


def _fan_rating(number: int) -> Default:
    def given(sheet: DataSheet) -> Given | None:
        try:
            rated = _fan(sheet, number).rated_current
        except ValueError:
            return None
        return None if rated is None else (rated, 0.05 * rated, "data sheet")

    return given


def _fan_current_check(number: int, needs: tuple[Need, ...]) -> None:
    @registered(
        id=f"fan_current_{number}",
        title=say("Current of condenser fan {number}", number=number),
        kind=Kind.CURRENT,
        needs=(
            *needs,
            Need("sheet.fan_current", Kind.CURRENT, f"rated current of fan {number}", default=_fan_rating(number)),
            Need(
                "sheet.fan_load", Kind.RATIO, "fan's load in standard air", default=default(0.90, 0.08)
            ),
            Need(
                "sheet.fan_no_load", Kind.RATIO, "fan motor's current at no load, over rated",
                default=default(0.50, 0.10),
            ),
            AMBIENT,
            ELEVATION,
        ),
        floor=-1.0,
        formula="rated current x sqrt(m² + (1 - m²) x²), x = load in standard air x air density / 1.204 kg/m³",
        source=(
            "The data sheet; fan laws: power goes with density (e.g. ASHRAE Handbook, HVAC Systems and Equipment, "
            "chapter on fans); circle diagram of the motor. A load of 75 to 100 % is common practice, no source."
        ),
    )  # fmt: skip
    def check(values: Mapping[str, float], sheet: DataSheet) -> Comparison:
        fan = _fan(sheet, number)
        thin = (
            atmosphere.pressure(values["site_elevation"])
            / atmosphere.SEA_LEVEL_PRESSURE
            * 293.15
            / values["ambient_air_temperature"]
        )
        load = values["sheet.fan_load"] * thin
        expected = electrical.motor_current(load, values["sheet.fan_current"], values["sheet.fan_no_load"])
        measured = mean_of(values, needs)
        remarks: tuple[str, ...] = ("A fan that turns backwards moves little air and draws about as much.",)
        if fan.speeds > 1:
            remarks += ("A fan of two speeds: at full speed.",)
        return Comparison(
            expected,
            measured,
            (
                Working("air density over standard", thin, Kind.RATIO),
                Working("load of the motor", load, Kind.RATIO),
                Working("current expected", expected, Kind.CURRENT),
                Working("mean of the three currents", measured, Kind.CURRENT),
            ),
            remarks,
        )


def _compressor_rating(number: int) -> Callable[[DataSheet], float]:
    return lambda sheet: _compressor(sheet, number).rated_current


def _pump_rating(sheet: DataSheet) -> float:
    if sheet.water.pump is None:
        raise ValueError("the data sheet gives no pump")
    return sheet.water.pump.rated_current


_COMPRESSOR_HINT = (
    "Refrigerant and oil in the shell lower the reading: warm the sump with its heater for some hours and measure "
    "again before condemning a motor; do not start it to find out. Never measure under vacuum."
)
_PUMP_HINT = "Damp lowers the reading: dry the terminal box and the winding, and measure again."

for _number in map(int, FAMILIES["number"]):
    _title = f"compressor {_number}"
    _currents = three(f"compressor_current_{_number}", f"current of {_title},", Kind.CURRENT)
    _rolled = three(f"compressor_current_rolled_{_number}", f"current of {_title}, leads rolled,", Kind.CURRENT)
    _pairs = three(f"winding_resistance_{_number}", f"winding of {_title},", Kind.RESISTANCE, PAIRS)
    _compressor_current_check(_number, _currents)
    _unbalance_check(f"compressor_unbalance_{_number}", _title, _currents)
    _phases_check(f"compressor_phases_{_number}", _title, _currents)
    _rolled_check(f"compressor_rolled_{_number}", _title, _currents, _rolled)
    _derated_check(f"compressor_derated_{_number}", _title, _currents, _compressor_rating(_number))
    _winding_balance_check(f"winding_balance_{_number}", _title, _pairs)
    _winding_resistance_check(_number, _pairs)
    _insulation_check(
        f"insulation_{_number}", _title, f"insulation_resistance_{_number}", f"winding_temperature_{_number}",
        _COMPRESSOR_HINT,
    )  # fmt: skip
    _pole_check(
        f"contactor_drop_{_number}", _title, three(f"contactor_drop_{_number}", "across pole", Kind.VOLTAGE)
    )
    _title = f"condenser fan {_number}"
    _currents = three(f"fan_current_{_number}", f"current of {_title},", Kind.CURRENT)
    _fan_current_check(_number, _currents)
    _unbalance_check(f"fan_unbalance_{_number}", _title, _currents)
    _phases_check(f"fan_phases_{_number}", _title, _currents)

_phases_check("pump_phases", "the pump", PUMP_CURRENTS)
_rolled_check(
    "pump_rolled",
    "the pump",
    PUMP_CURRENTS,
    three("pump_current_rolled", "pump current, leads rolled,", Kind.CURRENT),
)
_derated_check("pump_derated", "the pump", PUMP_CURRENTS, _pump_rating)
_winding_balance_check(
    "pump_winding_balance", "the pump", three("pump_winding_resistance", "winding", Kind.RESISTANCE, PAIRS)
)
_insulation_check(
    "pump_insulation", "the pump", "pump_insulation_resistance", "pump_winding_temperature", _PUMP_HINT
)
_pole_check("pump_contactor_drop", "the pump", three("pump_contactor_drop", "across pole", Kind.VOLTAGE))

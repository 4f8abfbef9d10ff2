"""The oil sumps of a simulated unit's compressors, and what its timers count."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from faultdoc.checks.oil import USUAL_MARGIN
from faultdoc.checks.startup import timers
from faultdoc.model.unit import DataSheet
from faultdoc.physics import oil
from faultdoc.simulator import condition

__all__ = ["Log", "oil_truths", "resting_sump", "running_sump"]

_FLOODED_SHARE = 0.1
"""Of the way from saturated suction to condensing at which a sump stands that liquid comes back to; common
practice, no source."""
_USUAL_SUPERHEAT = 6.0
"""K at the compressor's suction at which no liquid comes back, where the sheet gives none; common practice."""
_TIME_CONSTANT = 2.0 * oil.HOUR
"""s of a sump, where the sheet gives none: some two hours, common practice, no source."""
_HEATER_RISE = 2.5
"""Rise that a heater holds, over the safe margin, where the sheet gives none; common practice, no source."""

Events = Sequence[tuple[float, bool]]
"""(time in s, on), in order of time; off before the first."""


@dataclass(frozen=True)
class Log:
    """What was switched when.

    Attributes:
        now: s.
        power: of the unit's supply.
        compressors: by number.
    """

    now: float
    power: Events
    compressors: Mapping[int, Events]


def resting_sump(
    sheet: DataSheet,
    site: condition.Site,
    what: condition.Oil,
    *,
    energised: float,
    start: float | None = None,
) -> float:
    """Return the temperature (K) of a sump at rest, its heater on for some time.

    A sump with too little oil holds less heat; a tenth more or less of it changes the time constant only.

    Args:
        sheet: the unit's; without a sump on it, one whose heater holds it well over the usual margin.
        site: for the air around.
        what: condition of the oil.
        energised: s that the heater has had power; with none the sump only cools.
        start: K at the beginning of that time; None for the air's.

    Raises:
        ValueError: for a time below zero or a level that is not above it.
    """
    air = site.ambient
    data = sheet.oil_sump
    loss, capacity, power = 1.0, _TIME_CONSTANT, _HEATER_RISE * USUAL_MARGIN
    if data is not None:
        loss, capacity, power = data.heat_loss, data.heat_capacity, data.heater_power
    begun = air if start is None else start
    return oil.sump_temperature(energised, begun, air, power * what.heater, capacity * what.level, loss)


def running_sump(
    sheet: DataSheet, saturated_suction: float, condensing: float, superheat: float | None = None
) -> float:
    """Return the temperature (K) of a running compressor's sump.

    Motor, bearings and hot gas warm it to about the condensing temperature (45 to 60 °C on a warm day, some
    forty kelvins over saturated suction; common practice, no source). Where the suction gas has lost its
    superheat liquid comes back and boils in the sump, which falls towards saturated suction.

    Args:
        sheet: for the superheat that should be.
        saturated_suction: dew temperature at the suction, K.
        condensing: dew temperature at the discharge, K.
        superheat: at the compressor, K; None for what should be.
    """
    usual = sheet.refrigerant_side.superheat or _USUAL_SUPERHEAT
    # From half of it on down liquid drops come along.
    dry = 1.0 if superheat is None else min(max(superheat / (0.5 * usual), 0.0), 1.0)
    share = _FLOODED_SHARE + (1.0 - _FLOODED_SHARE) * dry
    return saturated_suction + share * (condensing - saturated_suction)


def oil_truths(
    sheet: DataSheet, site: condition.Site, sumps: Mapping[int, float], log: Log | None = None
) -> dict[str, float | str]:
    """Return the truth at the sumps' and the timers' measuring points, SI.

    A compressor that runs has no time since its stop, nor has one that never ran.

    Args:
        sheet: the unit's.
        site: without a log, says how long the unit has been energised.
        sumps: temperature of each compressor's sump by number, K.
        log: what was switched when; None for nothing but the power.

    Raises:
        ValueError: for a compressor that the unit does not have, or a log out of order.
    """
    numbers = range(1, len(sheet.compressors) + 1)
    strange = sorted((set(sumps) | set(log.compressors if log else ())) - set(numbers))
    if strange:
        raise ValueError(f"the unit has compressors 1 to {len(sheet.compressors)}, so none is {strange[0]}")
    if log is None:
        log = Log(site.energised, [(0.0, True)], {})
    truths: dict[str, float | str] = {f"oil_temperature_{number}": sump for number, sump in sorted(sumps.items())}
    for number in numbers:
        events = log.compressors.get(number, ())
        state = timers(sheet, log.power, events, log.now)
        truths["hours_energised_since_power_up"] = state.energised
        truths[f"starts_in_last_hour_{number}"] = float(state.starts_in_last_hour)
        stop = _last_stop(log.power, events)
        if stop is not None:
            truths[f"time_since_stop_{number}"] = log.now - stop
    return truths


def _last_stop(power: Events, compressor: Events) -> float | None:
    """Return when a compressor stopped last, by its switch or by a loss of power; None while it runs."""
    losses = [(time, False) for time, on in power if not on]
    stop: float | None = None
    running = False
    # A loss of power comes after a start logged at the same moment, as in `physics.oil`.
    for time, on in sorted([*compressor, *losses], key=lambda event: (event[0], not event[1])):
        if running and not on:
            stop = time
        running = on
    return None if running else stop

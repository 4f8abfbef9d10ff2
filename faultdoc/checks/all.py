"""Every check in one place: importing this module fills the registry, and nothing slow is imported."""

from __future__ import annotations

from collections.abc import Callable, Mapping

# Imported for what they register.
from faultdoc.checks import air as _air  # noqa: F401
from faultdoc.checks import electrical as _electrical  # noqa: F401
from faultdoc.checks import feeder as _feeder  # noqa: F401
from faultdoc.checks import freezing as _freezing  # noqa: F401
from faultdoc.checks import loop as _loop  # noqa: F401
from faultdoc.checks import motors as _motors  # noqa: F401
from faultdoc.checks import oil as _oil  # noqa: F401
from faultdoc.checks import pump as _pump  # noqa: F401
from faultdoc.checks import refrigerant as _refrigerant  # noqa: F401
from faultdoc.checks import safeties as _safeties  # noqa: F401
from faultdoc.checks import startup as _startup  # noqa: F401
from faultdoc.checks import water as _water  # noqa: F401
from faultdoc.checks.base import CheckResult, Missing, evaluate, registry
from faultdoc.checks.feeder import conductor_reading
from faultdoc.library.vocabulary import usual_limit
from faultdoc.model.base import Measured
from faultdoc.model.points import Point
from faultdoc.model.unit import DataSheet

__all__ = ["make", "make_all", "registry", "split_readings", "usual_limit_from"]


def usual_limit_from(points: Mapping[str, Point]) -> Callable[[str, float], float]:
    """Return (point's id, SI value) -> limit of error of the usual instrument there, SI.

    A limit is a difference: ± 1 °C at a thermometer is 1 K, ± 7 kPa at a gauge a pressure difference.

    Args:
        points: the vocabulary by id, families written out.

    Returns:
        The function; it raises KeyError for a point that is not in the vocabulary.
    """
    return lambda name, value: usual_limit(points[name], value)


def split_readings(readings: Mapping[str, Measured | str]) -> tuple[dict[str, Measured], dict[str, str]]:
    """Return the numbers and the choices among readings, by point.

    A cable's size and metal are chosen from a list and computed with as an area: `feeder_area` is
    added where it was not read itself.
    """
    numbers = {point: value for point, value in readings.items() if isinstance(value, Measured)}
    choices = {point: value for point, value in readings.items() if isinstance(value, str)}
    if "feeder_size" in choices and "feeder_area" not in numbers:
        numbers["feeder_area"] = conductor_reading(choices["feeder_size"], choices.get("feeder_metal", "copper"))
    return numbers, choices


def make(
    check_id: str, sheet: DataSheet, readings: Mapping[str, Measured], points: Mapping[str, Point]
) -> CheckResult | Missing:
    """Make one check.

    Args:
        check_id: which; see `registry`.
        sheet: the unit's data sheet.
        readings: by measuring point, numbers only.
        points: the vocabulary by id, families expanded.

    Returns:
        The result, or what is missing.

    Raises:
        KeyError: when there is no such check.
    """
    return evaluate(registry[check_id], sheet, readings, usual_limit_from(points))


def make_all(sheet: DataSheet, readings: Mapping[str, Measured], points: Mapping[str, Point]) -> list[CheckResult]:
    """Make every check that these readings allow, in the registry's order.

    A check without a single reading among its inputs says nothing of this unit today and is left out.
    """
    usual_limit = usual_limit_from(points)
    made = (evaluate(check, sheet, readings, usual_limit) for check in registry.values())
    return [result for result in made if isinstance(result, CheckResult) and result.points]

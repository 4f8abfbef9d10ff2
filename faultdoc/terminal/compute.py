"""One check by hand: readings typed as text in, the result as text out. No window and no command line here."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from faultdoc.checks.all import make, registry
from faultdoc.checks.base import COVERAGE, Check, CheckResult, Input, Missing
from faultdoc.library.load import load_unit
from faultdoc.library.problems import choose, listed
from faultdoc.library.vocabulary import load_points
from faultdoc.model.base import Measured
from faultdoc.model.points import Point
from faultdoc.quantities import QuantityError, System, difference_kind, parse, show

__all__ = ["ComputeError", "points_of", "read", "render", "run", "table"]


class ComputeError(ValueError):
    """What was asked cannot be computed as written; the message says what was found and what is allowed."""


def run(check_id: str, assignments: Sequence[str], unit: str, system: System) -> CheckResult | Missing:
    """Make one check from readings typed as text.

    Args:
        check_id: see `table`.
        assignments: each `point=quantity`, such as `barrel_pressure_drop=6.2 psi ± 0.5 psi`.
        unit: id of a data sheet, or the path of one.
        system: whose units a bare number means.

    Returns:
        The result, or the readings that are missing.

    Raises:
        ComputeError: for an unknown check or point, a point the check has no use for, one given
            twice, or a value that is not a quantity of the point's kind.
        FileProblems: when the data sheet cannot be read.

    >>> result = run("oil_warm_up", ["hours_energised_since_power_up=2 h ± 10 min"], "bluff_30", System.US)
    >>> result.verdict.value
    'low'
    """
    if check_id not in registry:
        remedy = choose(check_id, registry)
        raise ComputeError(f"there is no check '{check_id}'; {remedy}; the checks are {listed(registry)}")
    points = load_points()
    readings = read(registry[check_id], assignments, points, system)
    return make(check_id, load_unit(unit), readings, points)


def points_of(check: Check) -> tuple[str, ...]:
    """Return the measuring points a check can use, in the order of its needs.

    >>> points_of(registry["proving_margin"])
    ('barrel_pressure_drop', 'barrel_in_pressure', 'barrel_out_pressure')
    """
    names: dict[str, None] = {}
    for need in check.needs:
        if not need.name.startswith("sheet."):
            names.update(dict.fromkeys((need.name, *(need.instead or ()))))
    return tuple(names)


def read(
    check: Check, assignments: Sequence[str], points: Mapping[str, Point], system: System
) -> dict[str, Measured]:
    """Return the readings that texts such as `water_flow=72 gpm` stand for.

    Raises:
        ComputeError: see `run`.
    """
    allowed = points_of(check)
    readings: dict[str, Measured] = {}
    for assignment in assignments:
        name, equals, text = assignment.partition("=")
        name = name.strip()
        if not equals:
            raise ComputeError(f"'{assignment}' is not a reading; write point=quantity, such as {allowed[0]}=...")
        if name not in allowed:
            if name in points:
                raise ComputeError(f"{check.id} has no use for {name}; it takes {listed(allowed)}")
            remedy = choose(name, allowed, otherwise="name one of these")
            raise ComputeError(f"there is no measuring point '{name}' here; {remedy}; it takes {listed(allowed)}")
        if name in readings:
            raise ComputeError(f"{name} is given twice; give it once")
        try:
            readings[name] = Measured.from_quantity(parse(text, points[name].kind, system))
        except QuantityError as problem:
            raise ComputeError(f"{name}: {problem}") from None
    return readings


def render(result: CheckResult | Missing, system: System) -> str:
    """Return a result in full, as lines of text: inputs, working, verdict, remarks, formula and source."""
    if isinstance(result, Missing):
        return _render_missing(result)
    off = show(result.measured - result.expected, difference_kind(result.kind), system)
    within = show(COVERAGE * result.uncertainty, difference_kind(result.kind), system)
    lines = [result.title, "", "Inputs (± two standard uncertainties)"]
    lines += [f"  {entry.title}: {_input(entry, system)}, {_origin(entry)}" for entry in result.inputs]
    lines += ["", "Working"]
    lines += [f"  {line.title}: {show(line.value, line.kind, system)}" for line in result.working]
    lines += ["", result.sentence(system), f"The difference is {off}, uncertain by ± {within}."]
    if result.remarks:
        lines += ["", *result.remarks]
    lines += ["", f"Formula: {result.formula}.", f"Source: {result.source}"]
    return "\n".join(lines)


def _render_missing(missing: Missing) -> str:
    lines = [missing.title, "", "This cannot be computed yet."]
    if missing.readings:
        lines.append(f"Still wanted: {'; '.join(missing.readings)}.")
    if missing.reason:
        lines.append(f"Reason: {missing.reason}.")
    return "\n".join(lines)


def _input(entry: Input, system: System) -> str:
    return show(entry.value, entry.kind, system, limit=COVERAGE * entry.standard_uncertainty or None)


def _origin(entry: Input) -> str:
    return {"reading": "read", "data sheet": "from the data sheet", "assumed": "assumed"}[entry.origin]


def table() -> str:
    """Return every check with its points, one paragraph each; points in brackets need not be given."""
    return "\n".join(f"{check.id}\n  {check.title}\n  {_wants(check)}" for check in _sorted())


def _sorted() -> list[Check]:
    """Return the checks by id."""
    return [registry[name] for name in sorted(registry)]


def _wants(check: Check) -> str:
    wants = []
    for need in check.needs:
        if need.name.startswith("sheet."):
            continue
        either = need.name + (f" (or {need.instead[0]} and {need.instead[1]})" if need.instead else "")
        wants.append(f"[{either}]" if need.default else either)
    return ", ".join(wants)

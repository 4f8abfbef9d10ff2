"""The frame all checks share: what goes in, how its uncertainty carries through, what comes out.

A check is one plain function from input values to an expected and a measured value. The frame
gathers the inputs (a reading, else a value from the data sheet, else an assumption with a wide
uncertainty), varies each by its standard uncertainty and combines the effects in quadrature: the law
of propagation of uncertainty of JCGM 100:2008 (GUM) 5.1.2, with the sensitivities taken as
central differences over one standard uncertainty. The signed effect of every input is kept, so
that two checks that lean on one reading are known to be correlated.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from math import hypot, isfinite, sqrt
from typing import Literal

from faultdoc.model.base import Measured
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, System, difference_kind, show
from faultdoc.words import say

__all__ = [
    "COVERAGE",
    "Check",
    "CheckResult",
    "Comparison",
    "Default",
    "Given",
    "Input",
    "Missing",
    "Need",
    "Sense",
    "Verdict",
    "Working",
    "evaluate",
    "reading_uncertainty",
    "registered",
    "registry",
]

COVERAGE = 2.0
"""Deviations beyond this many standard uncertainties are called: about 95 % (JCGM 100:2008, 6.2 and G)."""

FAR = 100.0
"""Standard uncertainties from which a deviation is not counted in them."""

MOVES = 0.2
"""Share of the strongest reading's effect on the measured value from which another one carries it too."""

Given = tuple[float, float, Literal["data sheet", "assumed"]]
"""A value without a reading: SI, its standard uncertainty, and whether the sheet has it or it is a guess."""

Default = Callable[[DataSheet], Given | None]
"""Where a value without a reading comes from; None where this data sheet lacks it."""


class Verdict(StrEnum):
    """What a check says of a reading."""

    AS_EXPECTED = "as expected"
    LOW = "low"
    HIGH = "high"


VERDICT_WORDS = {Verdict.AS_EXPECTED: say("as expected"), Verdict.LOW: say("low"), Verdict.HIGH: say("high")}
"""A verdict in the language in use; the enumeration's own words are for machines."""


class Sense(StrEnum):
    """Which side of the expected value is wrong."""

    BOTH = "both"
    AT_LEAST = "at least"
    AT_MOST = "at most"


@dataclass(frozen=True)
class Input:
    """One value that entered a check; SI, with its standard uncertainty.

    `name` is the measuring point, or a name of the data sheet's own such as `sheet.barrel_curve`.
    """

    name: str
    title: str
    kind: Kind
    value: float
    standard_uncertainty: float
    origin: Literal["reading", "data sheet", "assumed"]


@dataclass(frozen=True)
class Working:
    """One line of the arithmetic: what, how much (SI), of which kind."""

    title: str
    value: float
    kind: Kind


@dataclass(frozen=True)
class Comparison:
    """What a check's function returns: SI values, the lines of its working, and remarks for the reader."""

    expected: float
    measured: float
    working: tuple[Working, ...] = ()
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True)
class Need:
    """One input a check wants.

    Attributes:
        name: the point's id, or a `sheet.` name for a value of the data sheet.
        kind: what it is.
        title: what to call it.
        instead: two points whose difference (first minus second) serves as well.
        default: value and standard uncertainty to use when there is no reading: from the data
            sheet ("data sheet") or a guess ("assumed"); None when a reading is indispensable or
            this data sheet lacks the value.
    """

    name: str
    kind: Kind
    title: str
    instead: tuple[str, str] | None = None
    default: Default | None = None


@dataclass(frozen=True)
class Check:
    """A registered check.

    Attributes:
        id: its name for trees and the command line.
        title: what it compares, in words.
        kind: kind of the expected and measured values.
        needs: its inputs.
        compute: (values by need name, data sheet) -> Comparison. Pure; raises ValueError outside its range.
        scale: what the residual is counted in: the expected value, or a fixed SI amount.
        floor: lowest residual that can be (-1 for what cannot be negative), or None.
        sense: which side is wrong.
        formula: in words.
        source: where the formula comes from.
    """

    id: str
    title: str
    kind: Kind
    needs: tuple[Need, ...]
    compute: Callable[[Mapping[str, float], DataSheet], Comparison]
    scale: Literal["expected"] | float
    floor: float | None
    sense: Sense
    formula: str
    source: str


@dataclass(frozen=True)
class Missing:
    """A check that cannot be made yet, and the readings (alternatives joined by 'or') that would make it."""

    id: str
    title: str
    readings: tuple[str, ...]
    reason: str | None = None


@dataclass(frozen=True)
class CheckResult:
    """One check made. All values SI; uncertainties are standard uncertainties (one sigma).

    Attributes:
        expected, measured: what should be and what is.
        expected_uncertainty: of the expected value alone.
        uncertainty: of the deviation (measured - expected), inputs shared by both counted once.
        residual, residual_uncertainty: the deviation and its uncertainty over the check's scale.
        verdict: beyond COVERAGE standard uncertainties on a side that is wrong.
        effects: by input name, the change of the deviation when that input rises by one standard
            uncertainty; their root sum of squares is `uncertainty`.
        points: the measuring points whose readings entered.
        subjects: those of them that the measured value hangs on, rather than the expected one alone.
    """

    id: str
    title: str
    kind: Kind
    expected: float
    measured: float
    expected_uncertainty: float
    uncertainty: float
    residual: float
    residual_uncertainty: float
    verdict: Verdict
    sense: Sense
    inputs: tuple[Input, ...]
    effects: Mapping[str, float] = field(hash=False)
    subjects: frozenset[str]
    working: tuple[Working, ...]
    remarks: tuple[str, ...]
    formula: str
    source: str

    @property
    def deviation(self) -> float:
        """Measured minus expected, in standard uncertainties."""
        return (self.measured - self.expected) / self.uncertainty

    @property
    def points(self) -> frozenset[str]:
        """The measuring points whose readings entered."""
        return frozenset(entry.name for entry in self.inputs if entry.origin == "reading")

    def sentence(self, system: System) -> str:
        """Return the result as one sentence in the units of `system`."""
        expected = show(self.expected, self.kind, system, limit=COVERAGE * self.expected_uncertainty or None)
        # What was counted has next to no uncertainty; how many of them it is off by would say nothing.
        far = abs(self.deviation)
        how_far = say("{far:.1f} standard uncertainties: ", far=far) if far < FAR else ""
        measured = show(self.measured, self.kind, system)
        off = show(self.measured - self.expected, difference_kind(self.kind), system)
        compared = {
            Sense.BOTH: say("expected"), Sense.AT_LEAST: say("at least"), Sense.AT_MOST: say("at most"),
        }[self.sense]  # fmt: skip
        return say(
            "{title}: {measured}, {compared} {expected}; off by {off}, {how_far}{verdict}.",
            title=self.title,
            measured=measured,
            compared=compared,
            expected=expected,
            off=off,
            how_far=how_far,
            verdict=VERDICT_WORDS[self.verdict],
        )


registry: dict[str, Check] = {}
"""Every check by id; filled by `registered` when `faultdoc.checks.all` is imported."""


def registered(
    *,
    id: str,
    title: str,
    kind: Kind,
    needs: tuple[Need, ...],
    formula: str,
    source: str,
    scale: Literal["expected"] | float = "expected",
    floor: float | None = None,
    sense: Sense = Sense.BOTH,
) -> Callable[
    [Callable[[Mapping[str, float], DataSheet], Comparison]],
    Callable[[Mapping[str, float], DataSheet], Comparison],
]:
    """Register the decorated function as a check; see `Check` for the arguments.

    Raises:
        ValueError: when the id is taken.
    """

    def register(
        compute: Callable[[Mapping[str, float], DataSheet], Comparison],
    ) -> Callable[[Mapping[str, float], DataSheet], Comparison]:
        if id in registry:
            raise ValueError(f"check '{id}' is registered twice")
        registry[id] = Check(id, title, kind, needs, compute, scale, floor, sense, formula, source)
        return compute

    return register


def evaluate(
    check: Check,
    sheet: DataSheet,
    readings: Mapping[str, Measured],
    usual_limit: Callable[[str, float], float],
) -> CheckResult | Missing:
    """Make one check.

    Args:
        check: which.
        sheet: the unit's data sheet.
        readings: by measuring point; only numbers, in SI.
        usual_limit: (point, SI value) -> limit of error of the usual instrument there, SI; used
            for a reading that states none of its own.

    Returns:
        The result, or what is missing to make it.
    """
    gathered, missing, unfit = _gather(check, sheet, readings, usual_limit)
    if missing or unfit:
        return Missing(check.id, check.title, tuple(missing), reason="; ".join(unfit) or None)
    atoms = {entry.name: entry for entry in gathered}

    def at(values: Mapping[str, float]) -> Comparison:
        try:
            comparison = check.compute(_combine(check, values), sheet)
        except ArithmeticError:
            raise ValueError("these readings lead to no finite result") from None
        if not (isfinite(comparison.expected) and isfinite(comparison.measured)):
            raise ValueError("these readings lead to no finite result")
        return comparison

    nominal = {name: entry.value for name, entry in atoms.items()}
    try:
        centre = at(nominal)
        effects: dict[str, float] = {}
        on_expected: list[float] = []
        on_measured: dict[str, float] = {}
        for name, entry in atoms.items():
            if entry.standard_uncertainty == 0.0:
                continue
            high, span_high = _nudged(at, nominal, name, entry.standard_uncertainty)
            low, span_low = _nudged(at, nominal, name, -entry.standard_uncertainty)
            span = span_high + span_low
            if span == 0.0:
                raise ValueError(f"the uncertainty of {entry.title} is wider than the range of this check")
            effects[name] = ((high.measured - high.expected) - (low.measured - low.expected)) / span
            on_expected.append((high.expected - low.expected) / span)
            on_measured[name] = abs(high.measured - low.measured) / span
    except ValueError as problem:
        return Missing(check.id, check.title, (), reason=str(problem))
    uncertainty = hypot(0.0, *effects.values())
    # A check without any uncertainty would call every last digit; the smallest is a billionth.
    uncertainty = max(uncertainty, 1e-9 * max(1.0, abs(centre.expected)))
    scale = abs(centre.expected) if check.scale == "expected" else check.scale
    if scale == 0.0:
        return Missing(
            check.id, check.title, (), reason="the expected value is zero, so nothing can be compared with it"
        )
    residual, residual_uncertainty = (centre.measured - centre.expected) / scale, uncertainty / scale
    if not (isfinite(residual) and isfinite(residual_uncertainty)):
        return Missing(check.id, check.title, (), reason="these readings lead to no finite result")
    return CheckResult(
        id=check.id,
        title=check.title,
        kind=check.kind,
        expected=centre.expected,
        measured=centre.measured,
        expected_uncertainty=hypot(0.0, *on_expected),
        uncertainty=uncertainty,
        residual=residual,
        residual_uncertainty=residual_uncertainty,
        verdict=_verdict((centre.measured - centre.expected) / uncertainty, check.sense),
        sense=check.sense,
        inputs=tuple(gathered),
        effects=effects,
        subjects=_subjects(on_measured, atoms),
        working=centre.working,
        remarks=centre.remarks,
        formula=check.formula,
        source=check.source,
    )


def _subjects(on_measured: Mapping[str, float], atoms: Mapping[str, Input]) -> frozenset[str]:
    """Return the readings that move the measured value by at least `MOVES` of what the strongest of them does."""
    readings = {name: by for name, by in on_measured.items() if atoms[name].origin == "reading"}
    most = max(readings.values(), default=0.0)
    return frozenset(name for name, by in readings.items() if most > 0.0 and by >= MOVES * most)


def reading_uncertainty(point: str, reading: Measured, usual_limit: Callable[[str, float], float]) -> float:
    """Return a reading's standard uncertainty (SI): its own, else that of the usual instrument.

    Args:
        point: where it was read.
        reading: the reading.
        usual_limit: as for `evaluate`.
    """
    if reading.standard_uncertainty is not None:
        return reading.standard_uncertainty
    # JCGM 100:2008, 4.3.7: a limit of error is a rectangular distribution.
    return usual_limit(point, reading.value) / sqrt(3.0)


def _gather(
    check: Check,
    sheet: DataSheet,
    readings: Mapping[str, Measured],
    usual_limit: Callable[[str, float], float],
) -> tuple[list[Input], list[str], list[str]]:
    """Return the inputs found, the readings still wanted, and why the rest cannot be had."""
    found: dict[str, Input] = {}
    missing: list[str] = []
    unfit: list[str] = []

    def take(point: str, title: str, kind: Kind, fits: bool) -> None:
        reading = readings[point]
        if not fits:
            unfit.append(f"{point} is a {reading.kind.value}, and a {kind.value} is wanted")
            return
        u = reading_uncertainty(point, reading, usual_limit)
        found[point] = Input(point, title, reading.kind, reading.value, u, "reading")

    for need in check.needs:
        if need.name in readings:
            take(need.name, need.title, need.kind, readings[need.name].kind is need.kind)
        elif need.instead and all(point in readings for point in need.instead):
            for point in need.instead:
                fits = difference_kind(readings[point].kind) is need.kind
                take(point, point.replace("_", " "), need.kind, fits)
        elif need.default and (default := _default(need.default, sheet, need.title, unfit)) is not None:
            value, u, origin = default
            found[need.name] = Input(need.name, need.title, need.kind, value, u, origin)
        elif need.name.startswith("sheet."):
            unfit.append(f"the data sheet does not give the {need.title}")
        else:
            both = f" or {need.instead[0]} and {need.instead[1]}" if need.instead else ""
            missing.append(need.name + both)
    return list(found.values()), missing, unfit


def _default(
    default: Callable[[DataSheet], Given | None], sheet: DataSheet, title: str, unfit: list[str]
) -> Given | None:
    """Return what a data sheet gives instead of a reading; a sheet from which none follows is told in `unfit`."""
    try:
        given = default(sheet)
    except ArithmeticError:
        unfit.append(f"no {title} follows from the data sheet's figures")
        return None
    return given


def _combine(check: Check, values: Mapping[str, float]) -> dict[str, float]:
    """Return the values by need: a need without a value of its own is the difference of its two stand-ins."""
    combined: dict[str, float] = {}
    for need in check.needs:
        if need.name in values:
            combined[need.name] = values[need.name]
        elif need.instead:
            combined[need.name] = values[need.instead[0]] - values[need.instead[1]]
    return combined


def _nudged(
    at: Callable[[Mapping[str, float]], Comparison], nominal: Mapping[str, float], name: str, by: float
) -> tuple[Comparison, float]:
    """Return the comparison with one input moved, and how far it was moved in standard uncertainties.

    Near the edge of a check's range a full step may be refused: shorter ones are tried, and if
    all are refused the other side serves alone.
    """
    for part in (1.0, 0.5, 0.1, 0.01):
        try:
            return at({**nominal, name: nominal[name] + part * by}), part
        except ValueError:
            continue
    return at(nominal), 0.0


def _verdict(deviation: float, sense: Sense) -> Verdict:
    if deviation < -COVERAGE and sense is not Sense.AT_MOST:
        return Verdict.LOW
    if deviation > COVERAGE and sense is not Sense.AT_LEAST:
        return Verdict.HIGH
    return Verdict.AS_EXPECTED

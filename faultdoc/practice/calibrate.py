"""Rows of the trees' `given` tables, derived from simulated units.

For every cause that is simulated, units with it are drawn, at sites as they are met and with severities from the
mildest that is noticed to the worst. Each question whose answer the simulator has the truth of is asked of each of
them, with perfect instruments and in the state of the plant that the question needs; the answers' mean and scatter
are the row. The same site without the fault is asked as well: where the answers never differ, the simulator knows
no way from this cause to this reading, and nothing is derived.

Draws never meet the cases that are played for a score: theirs come from generators seeded with one number, these
from generators seeded with `STREAM` and more numbers, which NumPy keeps apart (numpy.random.SeedSequence).
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from fnmatch import fnmatchcase as fnmatch
from functools import cache
from itertools import pairwise
from zlib import crc32

import networkx as nx
import numpy as np

from faultdoc.checks.all import make, split_readings
from faultdoc.checks.base import CheckResult
from faultdoc.diagnosis.graph import causes_of, fault_graph
from faultdoc.library.lint import TOLD_APART, distance
from faultdoc.library.load import Library
from faultdoc.library.vocabulary import choice_point
from faultdoc.model.base import Measured
from faultdoc.model.calibration import CalibratedQuestion, Calibration, LeftOut, SimulatedShift, SimulatedWeights
from faultdoc.model.safety import STATE_FIELDS, TRIPPED, PlantState, StateNeed, all_states, satisfies
from faultdoc.model.tree import Basis, Cause, Given, Question, Shift, Tree, Weights
from faultdoc.model.unit import DataSheet
from faultdoc.practice.closed_loop import Floats, drawn_site
from faultdoc.quantities import exact
from faultdoc.simulator.faults import FAULTS, broken
from faultdoc.simulator.instruments import readable
from faultdoc.simulator.unit import SimulatedUnit

__all__ = [
    "HEALTHY",
    "LEFT_OUT",
    "Drawn",
    "Draws",
    "Finding",
    "Outcome",
    "calibration",
    "derive",
    "gather",
    "left_out",
    "same_groups",
    "state_for",
]

HEALTHY = "default"
"""Stands for no fault, as in the trees' tables."""
STREAM = 0xCA11B
"""First of the numbers that seed every draw for a calibration."""
FEWEST = 8
"""Draws that must give a reading before a row is made of them."""
PRIOR_DRAWS = 4.0
"""How many draws the authored row of a choice question counts for."""
ADDED_FROM = 0.5
"""Distance from the default row from which a row is added that the tree lacks."""
WITH_SYMPTOM = 0.6
"""Distance of the author's default row from the healthy units' above which it has the symptom in it."""
FAR = 2.0
"""Residual from which the answer is a multiple of what is expected, in the check's scale."""
HEAPS_FROM = 0.2
"""Range of residuals from which heaps of them are told, in the check's scale."""


@dataclass(frozen=True)
class Drawn:
    """One answer of a simulated unit.

    Attributes:
        unit: id of the data sheet.
        severity: of the fault.
        answer: a residual, or the id of an outcome; None where it cannot be read.
        healthy: the same unit's at the same site without the fault.
    """

    unit: str
    severity: float
    answer: float | str | None
    healthy: float | str | None


Draws = Mapping[tuple[str, str], Mapping[str, Sequence[Drawn]]]
"""By tree and question, then by cause."""


def gather(
    library: Library,
    sheets: Sequence[DataSheet],
    draws: int,
    seed: int,
    trees: Iterable[str] | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> dict[tuple[str, str], dict[str, list[Drawn]]]:
    """Return the answers of simulated units to the questions of some trees.

    Args:
        library: the trees as they are authored.
        sheets: the units.
        draws: for each cause and unit.
        seed: of the draws.
        trees: ids; all when left out.
        progress: called with how many causes of how many are done.
    """
    wanted = [library.trees[id] for id in (library.trees if trees is None else trees)]
    asked: dict[str, dict[str, list[tuple[Tree, Question]]]] = defaultdict(lambda: defaultdict(list))
    for sheet in sheets:
        for tree in wanted:
            for question, causes in _askable(library, tree, sheet):
                for cause in causes:
                    asked[cause][sheet.id].append((tree, question))
    healthy = {sheet.id: _healthy_units(library, sheet, draws, seed) for sheet in sheets}
    found: dict[tuple[str, str], dict[str, list[Drawn]]] = defaultdict(lambda: defaultdict(list))
    for done, (cause, by_unit) in enumerate(asked.items(), 1):
        for sheet in sheets:
            questions = by_unit.get(sheet.id, [])
            # The same for every cause, so that faults which are the same to the simulator give the same rows.
            rng = np.random.default_rng([STREAM, seed, crc32(sheet.id.encode()), 1])
            for well in healthy[sheet.id] if questions else ():
                severity = 0.0 if cause == HEALTHY else float(rng.uniform(FAULTS[cause].mildest, 1.0))
                ill = well
                if cause != HEALTHY:
                    ill = well.with_fault(cause, severity)
                for tree, question in questions:
                    drawn = Drawn(sheet.id, severity, ill.answer(question), well.answer(question))
                    found[tree.id, question.id][cause].append(drawn)
        if progress:
            progress(done, len(asked))
    return {key: dict(by_cause) for key, by_cause in found.items()}


def _healthy_units(library: Library, sheet: DataSheet, draws: int, seed: int) -> list[_Asked]:
    rng = np.random.default_rng([STREAM, seed, crc32(sheet.id.encode())])
    made: dict[tuple[object, ...], float | None] = {}
    return [_Asked(library, SimulatedUnit(sheet, drawn_site(sheet, rng), {}), made) for _ in range(draws)]


def _askable(library: Library, tree: Tree, sheet: DataSheet) -> Iterator[tuple[Question, list[str]]]:
    """Yield the questions of a tree that the simulator may answer on a unit, with the causes to ask them of."""
    features = set(sheet.features)
    if not set(tree.applies_to) <= features:
        return
    own = causes_of(fault_graph([tree], library.causes, sheet.features))
    for question in tree.questions:
        if not set(question.only_with) <= features:
            continue
        if question.check is None and choice_point(question, library.points) is None:
            continue
        # Rows for causes of other trees count when both symptoms are seen.
        others = [
            id
            for id in question.given
            if id not in own and id in library.causes and set(library.causes[id].only_with) <= features
        ]
        yield question, [HEALTHY, *(id for id in (*own, *others) if id in FAULTS)]


@cache
def state_for(need: StateNeed) -> PlantState:
    """Return the state nearest to that of a unit that was found tripped in which a need is met.

    >>> state_for(StateNeed.model_validate({"compressors": "running"})).pump.value
    'running'
    """
    found = TRIPPED

    def changes(state: PlantState) -> int:
        return sum(getattr(state, name) != getattr(found, name) for name in STATE_FIELDS)

    return min((state for state in all_states() if satisfies(state, need)), key=changes)


@dataclass
class _Asked:
    """A simulated unit that is asked questions with perfect instruments; what was asked once is kept.

    The checks made are kept between units of one data sheet.
    """

    library: Library
    unit: SimulatedUnit
    _made: dict[tuple[object, ...], float | None]
    _known: dict[tuple[object, ...], float | str | None] = field(default_factory=dict)

    def with_fault(self, cause: str, severity: float) -> _Asked:
        """Return the same unit at the same site with a fault."""
        unit = SimulatedUnit(self.unit.sheet, self.unit.site, {cause: severity})
        return _Asked(self.library, unit, self._made)

    def answer(self, question: Question) -> float | str | None:
        """Return the residual of a question's check, or the outcome that is seen; None where nothing is."""
        key = question.check, question.points, question.state
        if key not in self._known:
            self._known[key] = self._answer(question)
        return self._known[key]

    def _answer(self, question: Question) -> float | str | None:
        state = state_for(question.state)
        truths = self.unit.truths(state)
        _, condition = broken(self.unit.site, self.unit.faults)
        readings: dict[str, Measured | str] = {}
        for point in question.points:
            if point not in truths or not readable(point, state):
                continue
            truth = truths[point]
            if isinstance(truth, str):
                readings[point] = truth
                continue
            value = truth + condition.control.meter_bias.get(point, 0.0)
            kind = self.library.points[point].kind
            readings[point] = Measured(kind=kind, value=value, text=exact(value, kind))
        if question.check is None:
            choice = choice_point(question, self.library.points)
            seen = None if choice is None else readings.get(choice.id)
            return seen if isinstance(seen, str) else None
        numbers, _ = split_readings(readings)
        if not numbers:
            return None
        # Most faults leave most readings as they are in health.
        key = question.check, *((point, reading.value) for point, reading in numbers.items())
        if key not in self._made:
            made = make(question.check, self.unit.sheet, numbers, self.library.points)
            self._made[key] = made.residual if isinstance(made, CheckResult) else None
        return self._made[key]


class Outcome(StrEnum):
    """What became of a row."""

    SAME = "as authored"
    DIFFERS = "differs"
    STILL = "the cause moves this reading far less than authored, or not"
    ADDED = "not in the tree"
    USUAL = "usual answers, always the author's"
    SYMPTOM = "in a question whose usual answer has the symptom in it"
    NO_WAY = "the simulator knows no way from the cause to this reading"
    FEW = "too few readings"
    KEPT = "authored from a source"
    LEFT_OUT = "left out"


@dataclass(frozen=True)
class Finding:
    """One row beside the authored one.

    Attributes:
        question, cause: of which.
        outcome: what became of it.
        row: the simulated row; None where none was made.
        authored: the tree's; its default row where it has none for the cause.
        distance: of the two rows, 0 to 1; see `faultdoc.library.lint.distance`.
        remark: what the row does not show: two heaps of answers, or answers on both sides.
    """

    question: str
    cause: str
    outcome: Outcome
    row: SimulatedShift | SimulatedWeights | None
    authored: Given
    distance: float
    remark: str = ""

    @property
    def written(self) -> bool:
        """Whether the row goes into the calibration file."""
        return self.outcome in (Outcome.SAME, Outcome.DIFFERS, Outcome.ADDED)


def derive(
    question: Question, drawn: Mapping[str, Sequence[Drawn]], groups: Iterable[frozenset[str]] = ()
) -> list[Finding]:
    """Return what simulated answers make of the rows of a question, the default row first.

    The default row is shown beside that of healthy simulated units and always stays the author's: it stands for
    every cause of the tree that has no row, with the symptom there, and real units in health differ in more than
    simulated ones do. Where the two are far apart, the author's usual answer has the symptom in it, and rows of
    units drawn without regard to the symptom do not fit beside it; nor do those in which a cause moves the
    reading far less than the author says, as the draws need not be bad enough to bring the symptom about.

    Causes that are the same to anyone who asks get one row, from the draws of all of them, also those that are
    not simulated: else their rows would tell them apart by no more than who has a simulator. So do causes that
    the author gives one row and the simulator does not tell apart.

    Args:
        question: as it is authored.
        drawn: answers by cause; `HEALTHY` for those of units without a fault.
        groups: sets of causes declared to be the same; see `same_groups`.
    """
    usual = question.given[HEALTHY]
    sound = _row(usual, question, drawn.get(HEALTHY, ()))
    apart = 0.0 if sound is None else _apart(sound, usual, question.meter)
    found: list[Finding | None] = [Finding(question.id, HEALTHY, Outcome.USUAL, sound, usual, apart)]
    in_group = {cause: sorted(group) for group in groups for cause in group}
    asked: list[_Entry] = []
    done: set[str] = set()
    # In the author's order, whatever else was drawn with this tree.
    for cause in (*question.given, *sorted(drawn)):
        if cause == HEALTHY or cause in done or cause not in drawn:
            continue
        members = in_group.get(cause, [cause])
        done.update(members)
        answers = [one for member in members for one in drawn.get(member, ())]
        authored = next((question.given[one] for one in members if one in question.given), None)
        asked.append(_Entry(members, answers, authored, _row(authored or usual, question, answers)))
    for entry, row in zip(asked, _shared(question, asked), strict=True):
        of_group = [_finding(question, member, entry.answers, row, sound) for member in entry.causes]
        # One that keeps its authored row keeps the whole group to theirs.
        kept = [one for one in of_group if one is not None and not one.written]
        found += kept if kept else of_group
    return [one for one in found if one is not None]


@dataclass(frozen=True)
class _Entry:
    """Causes that are the same, what units with them answered, and the rows of these."""

    causes: Sequence[str]
    answers: Sequence[Drawn]
    authored: Given | None
    row: SimulatedShift | SimulatedWeights | None


def _shared(question: Question, entries: Sequence[_Entry]) -> list[SimulatedShift | SimulatedWeights | None]:
    """Return the rows of entries; those that neither author nor simulator tells apart share one.

    Else the chance of the draws, or how bad the worst is taken to be, would tell such causes apart.
    """
    heaps: list[list[int]] = []
    for at, entry in enumerate(entries):
        for heap in heaps:
            first = entries[heap[0]]
            if entry.row is None or first.row is None or entry.authored is None or first.authored is None:
                continue
            alike = distance(entry.authored, first.authored, question.meter) == 0.0
            if alike and _apart(entry.row, first.row, question.meter) < TOLD_APART:
                heap.append(at)
                break
        else:
            heaps.append([at])
    rows = [entry.row for entry in entries]
    for heap in heaps:
        authored = entries[heap[0]].authored
        if len(heap) > 1 and authored is not None:
            row = _row(authored, question, [one for at in heap for one in entries[at].answers])
            for at in heap:
                rows[at] = row
    return rows


def same_groups(causes: Mapping[str, Cause]) -> list[frozenset[str]]:
    """Return the sets of causes that are declared to be the same to anyone who asks.

    Args:
        causes: by id.
    """
    alike: nx.Graph[str] = nx.Graph()
    alike.add_edges_from((id, other) for id, one in causes.items() for other in one.same_as if other in causes)
    return [frozenset(group) for group in nx.connected_components(alike)]


def _finding(
    question: Question,
    cause: str,
    answers: Sequence[Drawn],
    row: SimulatedShift | SimulatedWeights | None,
    sound: SimulatedShift | SimulatedWeights | None,
) -> Finding | None:
    """Return what is to be said of a row; None where tree and simulator have nothing to say."""
    usual = question.given[HEALTHY]
    authored = question.given.get(cause)
    beside = authored or usual
    remark = _remark([one.answer for one in answers if isinstance(one.answer, float)])
    apart = 0.0 if row is None else _apart(row, beside, question.meter)

    def say(outcome: Outcome, why: str = remark) -> Finding:
        return Finding(question.id, cause, outcome, row, beside, apart, why)

    untouched = all(one.answer == one.healthy for one in answers)
    with_symptom = sound is None or _apart(sound, usual, question.meter) > WITH_SYMPTOM
    reason = left_out(question.id, cause)
    if authored is None:
        # The tree says that the cause does not move this reading.
        if row is None or untouched or with_symptom or reason or apart < ADDED_FROM:
            return None
        return say(Outcome.ADDED)
    if authored.basis is not Basis.ESTIMATE:
        return say(Outcome.KEPT)
    if row is None:
        return say(Outcome.FEW)
    if untouched:
        return say(Outcome.NO_WAY)
    if reason:
        return say(Outcome.LEFT_OUT, reason)
    if with_symptom:
        return say(Outcome.SYMPTOM)
    if apart < TOLD_APART:
        return say(Outcome.SAME)
    return say(Outcome.STILL if _still(row, sound, authored, usual, question.meter) else Outcome.DIFFERS)


def _still(
    row: SimulatedShift | SimulatedWeights,
    sound: SimulatedShift | SimulatedWeights | None,
    authored: Given,
    usual: Given,
    meter: float,
) -> bool:
    """Say whether a cause moves a reading far less than the author says, or not at all."""
    if isinstance(row, SimulatedShift) and isinstance(sound, SimulatedShift):
        assert isinstance(authored, Shift)
        assert isinstance(usual, Shift)
        return abs(row.shift - sound.shift) < abs(authored.shift - usual.shift) / 3.0
    return sound is not None and _apart(row, sound, meter) < distance(authored, usual, meter) / 3.0


def _apart(
    one: Given | SimulatedShift | SimulatedWeights, other: Given | SimulatedShift | SimulatedWeights, meter: float
) -> float:
    return distance(_as_given(one), _as_given(other), meter)


def _as_given(row: Given | SimulatedShift | SimulatedWeights) -> Given:
    if isinstance(row, SimulatedShift):
        return Shift(shift=row.shift, spread=row.spread, basis=Basis.SIMULATED)
    if isinstance(row, SimulatedWeights):
        return Weights(p=row.p, basis=Basis.SIMULATED)
    return row


def _row(
    authored: Given, question: Question, answers: Sequence[Drawn]
) -> SimulatedShift | SimulatedWeights | None:
    """Return the row that some answers make beside an authored one; None where they are too few."""
    if isinstance(authored, Weights):
        ids = [outcome.id for outcome in question.outcomes]
        seen = Counter(one.answer for one in answers if isinstance(one.answer, str) and one.answer in ids)
        if seen.total() < FEWEST:
            return None
        return _weights(ids, seen, authored)
    residuals = np.array([one.answer for one in answers if isinstance(one.answer, float)])
    if len(residuals) < FEWEST:
        return None
    usual = question.given[HEALTHY]
    assert isinstance(usual, Shift)
    return _shift(residuals, usual, authored)


def _weights(ids: Sequence[str], seen: Counter[str], authored: Weights) -> SimulatedWeights:
    total, draws = sum(authored.p.values()), seen.total()
    p = {id: (seen[id] + PRIOR_DRAWS * authored.p.get(id, 0.0) / total) / (draws + PRIOR_DRAWS) for id in ids}
    rounded = {id: round(value, 4) for id, value in p.items() if value >= 5e-5}
    likeliest = max(rounded, key=lambda id: rounded[id])
    rounded[likeliest] = round(rounded[likeliest] + 1.0 - sum(rounded.values()), 4)
    return SimulatedWeights(p=rounded, draws=draws, basis="simulated")


def _shift(residuals: Floats, usual: Shift, authored: Shift) -> SimulatedShift:
    """Return mean and spread of residuals, shape (n,), with the tails drawn in and never too sure.

    The tails are drawn in to the nearest of the inner values (winsorised, Tukey 1962), a twentieth at either end.
    The spread allows for the mean's own error. It is at least the scatter between units that the author reckons
    with, as real units differ in more than the simulated ones do; and in a reading that is a multiple of what
    is expected, a quarter of that, as how bad the worst is met on sites is common practice and no count.
    """
    n = len(residuals)
    low, high = np.quantile(residuals, [0.05, 0.95])
    inner = np.clip(residuals, low, high)
    mean = float(inner.mean())
    sd = float(inner.std(ddof=1)) * np.sqrt(1.0 + 1.0 / n)
    floor = min(usual.spread, authored.spread)
    if abs(mean) > FAR:
        floor = max(floor, abs(mean) / 4.0)
    return SimulatedShift(
        shift=round(mean, 3), spread=max(round(max(sd, floor), 3), 1e-3), draws=n, basis="simulated"
    )


def _remark(residuals: Sequence[float]) -> str:
    """Say where residuals fall into two heaps: most of their range is one gap, and a sixth lie on either side."""
    if len(residuals) < FEWEST:
        return ""
    ordered = sorted(residuals)
    span = ordered[-1] - ordered[0]
    few = max(len(ordered) // 6, 2)
    gaps = [(high - low, at) for at, (low, high) in enumerate(pairwise(ordered), 1)]
    widest, at = max(gaps)
    if span > HEAPS_FROM and widest > 0.5 * span and few <= at <= len(ordered) - few:
        low, high = np.mean(ordered[:at]), np.mean(ordered[at:])
        return f"two heaps, about {low:.2g} ({at} of {len(ordered)}) and {high:.2g}"
    if ordered[few - 1] < -HEAPS_FROM / 2.0 and ordered[-few] > HEAPS_FROM / 2.0:
        return f"on both sides, from {ordered[0]:.2g} to {ordered[-1]:.2g}"
    return ""


_STALLED = "the simulator does not draw a stalled motor's current"
_OPEN_LINE = "the simulator does not show what meters show on an open line with motors feeding back"
_COARSE = "the simulator puts every loss of power at one place, whatever was read before it"
_BACKED_UP = (
    "the simulator does not back liquid up behind a valve that shuts, against the published fault signatures"
)

_BEFORE = "a steady moment of the simulator does not say how often the unit started before it was held"
_HIDDEN_FALL = "published fault signatures say that it falls, which the scatter of the simulated units hides"

LEFT_OUT: Mapping[tuple[str, str], str] = {
    ("*", "pump_seized"): _STALLED,
    ("*", "pump_motor_failed"): _STALLED,
    ("*", "fan_motor_failed"): _STALLED,
    ("*", "compressor_winding_failed"): _STALLED,
    ("*", "pump_single_phased"): _OPEN_LINE,
    ("*", "fan_single_phased"): _OPEN_LINE,
    ("*", "compressor_fuse_open"): _OPEN_LINE,
    ("*", "supply_phase_missing"): _OPEN_LINE,
    ("*", "main_switch_off"): _COARSE,
    ("ud_transformer_ratio", "*"): _COARSE,
    ("*subcooling*", "liquid_solenoid_stuck_shut"): _BACKED_UP,
    ("*subcooling*", "expansion_*"): _BACKED_UP,
    ("*", "control_input_failed"): "the simulator opens the contact, though the input behind it has failed",
    ("*_discharge_line", "circuit_overcharged"): "published fault signatures say that it rises, which the scatter "
    "of the simulated units hides",
    ("*subcooling*", "coil_*"): _HIDDEN_FALL,
    ("*_starts", "anti_recycle_running"): _BEFORE,
    ("*_starts", "*_lockout_not_reset"): _BEFORE,
    ("*_starts", "liquid_solenoid_stuck_shut"): _BEFORE,
    ("*_starts", "expansion_*"): _BEFORE,
    ("*subcooling*", "compressor_valves_leaking"): _HIDDEN_FALL,
    (
        "*",
        "supply_frequency_low",
    ): "the simulator draws frequencies in between, and what is met is most often a 60 Hz "
    "unit on 50 Hz, which the author's rows follow by the affinity laws",
    ("*", "bypass_open"): "the tree means a bypass where the site's pump drives the water, the simulator one "
    "where the unit's own does",
}
"""Rows for which the simulator is not believed, by patterns of the question and the cause, with the reason."""


def left_out(question: str, cause: str) -> str | None:
    """Return why the simulator is not believed for a row; None where it is.

    >>> left_out("pump_current", "pump_seized")
    "the simulator does not draw a stalled motor's current"
    """
    if cause in FAULTS and FAULTS[cause].comes_and_goes:
        return "it comes and goes, and is always there in the simulator"
    of = (reason for (one, other), reason in LEFT_OUT.items() if fnmatch(question, one) and fnmatch(cause, other))
    return next(of, None)


def calibration(tree: Tree, findings: Sequence[Finding], draws: int, seed: int) -> Calibration:
    """Return the calibration of a tree from the findings of its questions.

    Args:
        tree: as it is authored.
        findings: of all its questions.
        draws: for each cause and unit.
        seed: of the draws.
    """
    rows: dict[str, dict[str, SimulatedShift | SimulatedWeights]] = defaultdict(dict)
    reasons = []
    for one in findings:
        if one.written and one.row is not None:
            rows[one.question][one.cause] = one.row
        elif one.outcome is Outcome.LEFT_OUT:
            reasons.append(LeftOut(question=one.question, cause=one.cause, reason=one.remark))
    checks = {question.id: question.check for question in tree.questions}
    questions = {id: CalibratedQuestion(check=checks[id], given=given) for id, given in rows.items()}
    return Calibration(tree=tree.id, seed=seed, draws=draws, left_out=tuple(reasons), questions=questions)

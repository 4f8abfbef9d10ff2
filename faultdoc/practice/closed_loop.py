"""The engine played against simulated units to a proved fix, and an honest score of it.

A hidden fault is drawn by the catalogue's rates among the causes that are simulated, with a severity, a unit and a
site. A technician with real instruments does what the engine proposes until a remedy's proof holds. The engine
sees readings and answers only.

What is counted at the conclusion, that is, just before the remedy that held or before the case was handed over:
whether the true cause stood first, or among the first three. How well the engine's probabilities are meant is
counted at the first remedy it proposes, before any proof told it more: Brier score (Brier 1950) and the expected
calibration error over ten bins (Naeini, Cooper, Hauskrecht 2015) of the cause that stands first.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from faultdoc.checks.all import split_readings
from faultdoc.diagnosis.assess import Assessment, Bench, Step, assess, bench_for, change_minutes, step_toward
from faultdoc.diagnosis.graph import circumstances
from faultdoc.diagnosis.planner import Situation
from faultdoc.library.load import Library, load_library, load_unit, shipped_units
from faultdoc.model.case import Case
from faultdoc.model.safety import TRIPPED, Qualification, may, satisfies
from faultdoc.model.unit import DataSheet
from faultdoc.practice.simple import RULES, Order, minutes_taken, order_of
from faultdoc.practice.symptoms import shows
from faultdoc.practice.witness import Witness
from faultdoc.record import moves
from faultdoc.simulator.condition import Site
from faultdoc.simulator.faults import FAULTS, broken, under
from faultdoc.simulator.instruments import Instruments
from faultdoc.simulator.unit import SimulatedUnit, usual_site

__all__ = ["Played", "Score", "Setting", "draw", "drawn_site", "play", "play_all", "score", "simulated_sets"]

EVERYBODY = (Qualification.ELECTRICAL_WORKER, Qualification.REFRIGERANT_HANDLER)
MOST_STEPS = 300
DRAWS, MILD_DRAWS = 6, 3
"""Draws of severity and site till the symptom shows, the first of them on usual days."""
SETS_DRAWN = 40
"""Sets of causes drawn till one shows the symptom; the last is kept where none does."""
COLD_SIDE = frozenset({"low_suction", "freeze_protection"})
"""Trees of what happens on cool days with little to do; the others' hard days are hot ones with much."""
CHANCE_DRAWS = 500
"""Draws for the calibration error that chance alone gives."""
BINS = np.linspace(0.0, 1.0, 11)

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Setting:
    """One hidden case.

    Attributes:
        seed: everything random in it comes from here.
        unit: id of a data sheet.
        tree: id of the symptom.
        faults: severity by cause.
        site: where the unit stands.
        shown: whether the unit shows the symptom in a steady moment; None where that cannot tell.
        circumstances: conditions of the tree without which these causes would not bring the symptom about.
        turned_down: how many sets of causes were drawn before of which no unit showed the symptom.
    """

    seed: int
    unit: str
    tree: str
    faults: dict[str, float]
    site: Site
    shown: bool | None = None
    circumstances: tuple[str, ...] = ()
    turned_down: int = 0

    def unit_on(self, sheet: DataSheet) -> SimulatedUnit:
        """Return the unit as it is met, of the data sheet that `unit` names."""
        site, sound = under(self.site, (*self.circumstances, self.tree))
        return SimulatedUnit(sheet, site, dict(self.faults), sound)


@dataclass(frozen=True)
class Played:
    """How a case went.

    Attributes:
        setting: the hidden case.
        case: as it stood at the end.
        solved: whether a remedy's proof held.
        stopped: whether an answer told of a danger that ends the work at once, as it should.
        rank: place of the true cause at the conclusion, 1 for first; 0 where it was not in the list. With two
            faults, of the worse placed one not yet fixed then.
        stood_first: the cause that stood first then.
        first_remedy_right: whether the first remedy proposed was for a true cause; None where none was.
        probabilities, truths: of all causes at the first remedy (or at the end where none came), shape (n,).
        questions, wrong_fixes, unsafe_steps: counts.
        minutes: to the proved fix, or to the end.
        minutes_whole: the same, and where it was handed over what that takes until things run again.
        minutes_best: what it takes when the cause is known from the start.
        minutes_simple: what it takes without asking anything, by rule; see `simple.RULES`.
        answered: where answers came from; see `Witness.drawn`.
        misfit: whether the engine said at the conclusion that readings fit no cause.
        gave_up: whether the engine advised to give up at some point; its people went on all the same.
        why_lost: in words, where it was not solved or not first.
    """

    setting: Setting
    case: Case
    solved: bool
    stopped: bool
    rank: int
    stood_first: str
    first_remedy_right: bool | None
    probabilities: Floats
    truths: Floats
    questions: int
    wrong_fixes: int
    unsafe_steps: int
    minutes: float
    minutes_whole: float
    minutes_best: float
    minutes_simple: dict[str, float]
    answered: Counter[str]
    misfit: bool
    gave_up: bool
    why_lost: str | None


@cache
def _library(calibrated: bool = True) -> Library:
    return load_library(calibrated=calibrated, learned=False)


@cache
def _bench(unit: str, tree: str, calibrated: bool = True) -> Bench:
    return bench_for(_library(calibrated), _sheets()[unit], (tree,))


_BENCHES: dict[tuple[str, str], Bench] = {}
"""Benches of the last library that was handed in."""


def _bench_of(library: Library, setting: Setting) -> Bench:
    key = setting.unit, setting.tree
    if key not in _BENCHES or _BENCHES[key].library is not library:
        _BENCHES[key] = bench_for(library, _sheets()[setting.unit], (setting.tree,))
    return _BENCHES[key]


@cache
def _sheets() -> dict[str, DataSheet]:
    return {id: load_unit(id) for id in shipped_units()}


@cache
def _order(unit: str, tree: str, rule: str) -> Order:
    bench = _bench(unit, tree)
    case = _found(unit, tree)
    _, rank, gives_up = RULES[rule]
    return order_of(bench.problem, bench.crew(case), Situation(case.state), rank, gives_up)


def _found(unit: str, tree: str) -> Case:
    """Return the case as it is found."""
    return Case(unit=unit, symptoms=(tree,), state=TRIPPED, who=EVERYBODY)


@cache
def simulated_sets(unit: str, tree: str, faults: int = 1) -> tuple[tuple[tuple[str, ...], ...], Floats]:
    """Return the sets of so many causes that bring a symptom about on a unit and can be simulated.

    Returns:
        The sets, and the prior weight of each.
    """
    sets = _bench(unit, tree).problem.sets
    found, weights = [], []
    for members, log_prior in zip(sets.members, sets.log_prior, strict=True):
        causes = tuple(sets.causes[i] for i in members if i < len(sets.causes))
        if len(causes) == faults and all(id in FAULTS for id in causes):
            found.append(causes)
            weights.append(float(np.exp(log_prior - sets.log_prior.max())))
    return tuple(found), np.array(weights)


def draw(seed: int, *, tree: str | None = None, faults: int = 1) -> Setting:
    """Return a hidden case drawn from a seed.

    Args:
        seed: of the case.
        tree: id of the symptom; drawn in proportion to the rates of its simulated causes otherwise.
        faults: how many causes are there at once; together they bring the symptom about.

    Raises:
        ValueError: when there is no such tree, or none of so many simulated causes.
    """
    rng = np.random.default_rng(seed)
    library = _library()
    sheets = _sheets()
    pairs = [
        (unit, one.id)
        for unit, sheet in sheets.items()
        for one in library.trees.values()
        if set(one.applies_to) <= set(sheet.features)
        and (tree is None or one.id == tree)
        and simulated_sets(unit, one.id, faults)[0]
    ]
    if not pairs:
        raise ValueError(f"no unit shows '{tree}' with {faults} simulated causes at once; name another tree")
    rates = np.array(
        [sum(library.causes[id].rate for causes in simulated_sets(*pair)[0] for id in causes) for pair in pairs]
    )
    unit, found = pairs[rng.choice(len(pairs), p=rates / rates.sum())]
    sets, weights = simulated_sets(unit, found, faults)
    graph = _bench(unit, found).problem.graph
    for turned_down in range(SETS_DRAWN):
        chosen = sets[rng.choice(len(sets), p=weights / weights.sum())]
        ways = circumstances(graph, chosen)
        chances = np.array([chance for chance, _ in ways])
        for turn in range(DRAWS):
            hidden = {id: float(rng.uniform(FAULTS[id].mildest, 1.0)) for id in chosen}
            _, needed = ways[rng.choice(len(ways), p=chances / chances.sum())]
            worst: Literal["hot", "cold"] = "cold" if found in COLD_SIDE else "hot"
            hard = None if turn < MILD_DRAWS else worst
            site = drawn_site(sheets[unit], rng, hard)
            setting = Setting(seed, unit, found, hidden, site, None, needed, turned_down)
            # Nobody calls about a unit that runs as it should: milder days and faults are drawn again, and
            # where the simulator knows no way from a cause to the symptom, another cause.
            setting = replace(setting, shown=shows(setting.unit_on(sheets[unit]), found))
            if setting.shown is not False:
                return setting
    return setting


def drawn_site(sheet: DataSheet, rng: np.random.Generator, hard: Literal["hot", "cold"] | None = None) -> Site:
    """Return a site as they are met, drawn at random.

    Args:
        sheet: of the unit.
        rng: from which.
        hard: "hot" for a hot day that asks for all the unit has, "cold" for a cool one that asks for little.
    """
    ambient = {None: (293.0, 311.0), "hot": (306.0, 319.0), "cold": (281.0, 297.0)}[hard]
    load = {None: (0.7, 0.95), "hot": (0.95, 1.15), "cold": (0.3, 0.65)}[hard]
    return usual_site(
        sheet,
        ambient=float(rng.uniform(*ambient)),
        elevation=float(rng.uniform(0.0, 600.0)),
        high_point=float(rng.uniform(2.0, 15.0)),
        hose_length=float(rng.uniform(30.0, 100.0)),
        load=float(rng.uniform(*load)),
    )


def play(setting: Setting, library: Library | None = None) -> Played:
    """Play one hidden case with the engine to a proved fix or to where it gives up.

    Args:
        setting: the hidden case.
        library: the trees with which the engine works; FaultDoc's own when left out.
    """
    bench = _bench(setting.unit, setting.tree) if library is None else _bench_of(library, setting)
    unit = setting.unit_on(bench.sheet)
    rng = np.random.default_rng(setting.seed + 1)
    _, condition = broken(setting.site, setting.faults)
    instruments = Instruments(bench.library.english.points, rng, condition.control.meter_bias)
    # What is drawn from tables is drawn from the authored ones: the world is the same for either engine.
    witness = Witness(unit, instruments, _bench(setting.unit, setting.tree, False), rng)
    return _Game(setting, bench, witness).to_the_end()


@dataclass
class _Game:
    setting: Setting
    bench: Bench
    witness: Witness
    minutes: float = 0.0
    questions: int = 0
    wrong_fixes: int = 0
    unsafe: int = 0
    advised_to_give_up: bool = False
    first_right: bool | None = None
    meant: tuple[Floats, Floats] | None = None
    rank: int = 0
    stood_first: str = ""
    last: Assessment | None = field(default=None, repr=False)

    def to_the_end(self) -> Played:
        setting = self.setting
        case = _found(setting.unit, setting.tree)
        best = self._known_from_the_start(case)
        why: str | None = f"not fixed after {MOST_STEPS} steps"
        solved = stopped = False
        for _ in range(MOST_STEPS):
            look = self.last = assess(self.bench, case)
            step = look.next
            if step.kind == "done":
                solved, why = True, None
                break
            if step.kind == "hand_over" and not step.stops and look.plan.options:
                # The engine would give up: its people go on with the best of what is left all the same.
                self.advised_to_give_up = True
                best_left = look.plan.options[0]
                step = step_toward(self.bench, case, best_left.kind, best_left.id)
            if step.kind == "hand_over":
                stopped, why = step.stops, f"handed over: {step.text}"
                break
            if not (satisfies(case.state, step.state) and may(frozenset(case.who), step.who)):
                self.unsafe += 1
            case = self._taken(case, look, step)
        assert self.last is not None
        if self.meant is None:
            self.meant = self._probabilities(self.last)
        if not solved:
            self.rank = self._rank(self.last)
        if solved and self.rank != 1:
            why = f"stood in place {self.rank} when it was fixed"
        return Played(
            setting,
            case,
            solved,
            stopped,
            self.rank,
            self.stood_first,
            self.first_right,
            *self.meant,
            self.questions,
            self.wrong_fixes,
            self.unsafe,
            self.minutes,
            self.minutes + (0.0 if solved else self._given_up(case)),
            best,
            self._simply(),
            self.witness.drawn,
            bool(self.last.belief.misfits),
            self.advised_to_give_up,
            why,
        )

    def _taken(self, case: Case, look: Assessment, step: Step) -> Case:
        """Return the case after one step was carried out as proposed."""
        plant = self.bench.library.plant
        if step.kind == "state_change":
            change = next(one for one in plant.changes if one.id == step.id)
            self.minutes += change_minutes(self.bench, case, change)
            return moves.change_state(case, change)
        if step.kind == "question":
            return self._asked(case, step)
        if step.kind == "remedy":
            remedy = self.bench.problem.causes[step.id].remedy
            self.minutes += self._reach(case, remedy.place, ()) + remedy.minutes
            true = self.bench.problem.alike(step.id) & set(self.witness.unit.faults)
            if self.first_right is None:
                self.first_right = bool(true)
                self.meant = self._probabilities(look)
            self.rank = self._rank(look)
            self.wrong_fixes += not true
            for cause in true:
                self.witness.unit.fix(cause)
            return moves.repaired(moves.went(case, remedy), step.id)
        assert step.kind == "proof"
        self.minutes += step.minutes
        # A proof is taken at the running unit: it holds when nothing that brings the symptom about is left.
        return moves.proved(case, not self.witness.unit.faults)

    def _asked(self, case: Case, step: Step) -> Case:
        question = self.bench.problem.questions[step.id]
        self.minutes += self._reach(case, question.place, question.bring) + question.minutes
        self.questions += 1
        answer = self.witness.answer(question, case.state)
        case = moves.went(case, question)
        for point, reading in answer.readings.items():
            case = moves.read(case, point, reading)
        if answer.outcome is not None and not answer.readings:
            return moves.answer(case, question.id, answer.outcome)
        if question.check is not None:
            made = {one.id for one in self.bench.checks(split_readings(case.readings)[0])}
            if question.check not in made:
                return moves.answer(case, question.id, "could_not_measure")
        return case

    def _reach(self, case: Case, place: str | None, bring: Iterable[str]) -> float:
        now = Situation(case.state, place=case.place, at_hand=frozenset(case.at_hand))
        return self.bench.crew(case).reach(now, place, tuple(bring))

    def _rank(self, look: Assessment) -> int:
        """Return the place of the worst placed true cause that is still there."""
        belief = look.belief
        order = [belief.sets.causes[i] for i in np.argsort(-belief.marginal, kind="stable")]
        self.stood_first = order[0]
        places = []
        for fault in self.witness.unit.faults:
            alike = self.bench.problem.alike(fault)
            places.append(min((order.index(id) + 1 for id in alike if id in order), default=0))
        # With several faults the others rightly stand beside it.
        worst = max(places, default=0)
        return max(worst - (len(places) - 1), 1) if worst else 0

    def _probabilities(self, look: Assessment) -> tuple[Floats, Floats]:
        causes = look.belief.sets.causes
        true = {id for fault in self.setting.faults for id in self.bench.problem.alike(fault)}
        # Causes that are the same to anyone who asks count as one.
        seen: set[str] = set()
        probabilities, truths = [], []
        for id in causes:
            if id in seen:
                continue
            alike = self.bench.problem.alike(id)
            seen |= alike
            places = [causes.index(one) for one in alike if one in causes]
            probabilities.append(min(float(look.belief.marginal[places].sum()), 1.0))
            truths.append(float(bool(alike & true)))
        return np.array(probabilities), np.array(truths)

    def _known_from_the_start(self, case: Case) -> float:
        """Return the minutes to mend and prove what is there when it is known from the start."""
        team = self.bench.crew(case)
        state, minutes = team.own.index[case.state], 0.0
        for fault in self.setting.faults:
            place = self.bench.problem.sets.causes.index(fault)
            minutes += float(team.minutes[0, state, place])
            state = int(team.after[0, state, place])
        return minutes + float(team.ready[state])

    def _given_up(self, case: Case) -> float:
        """Return the minutes until things run again when the case is handed over as it stands."""
        team = self.bench.crew(case)
        return team.plant.give_up_minutes + float(team.ready[team.own.index[case.state]])

    def _simply(self) -> dict[str, float]:
        """Return the minutes that each simple rule takes on the same case."""
        hidden = [self.bench.problem.alike(fault) for fault in self.setting.faults]
        return {rule: minutes_taken(_order(self.setting.unit, self.setting.tree, rule), hidden) for rule in RULES}


def play_all(
    settings: Sequence[Setting],
    processes: int = 1,
    progress: Callable[[int], None] | None = None,
    library: Library | None = None,
) -> list[Played]:
    """Play many cases, in parallel where there are processors; the order is that of the settings.

    Args:
        settings: the hidden cases.
        processes: how many at once.
        progress: called with how many are done.
        library: as for `play`; cases with one that is handed in are played one after another.
    """
    done: list[Played] = []
    if processes <= 1 or library is not None:
        for setting in settings:
            done.append(play(setting, library))
            if progress:
                progress(len(done))
        return done
    from multiprocessing import get_context

    # Not forked: the parent may hold threads and locks of its window or of CoolProp.
    with get_context("spawn").Pool(processes) as pool:
        for played in pool.imap(play, settings, chunksize=4):
            done.append(played)
            if progress:
                progress(len(done))
    return done


@dataclass(frozen=True)
class Score:
    """What many cases say of the engine.

    Shares and means are over the cases that no danger ended: what a danger cut short says nothing of the rest.

    Attributes:
        cases, stopped: how many were played, and how many of these a danger ended.
        first, first_three: shares in which the true cause stood first, or among three, at the conclusion.
        solved: share ended by a proof that held.
        first_remedy_right: share in which the first remedy proposed was right.
        questions, wrong_fixes: means a case.
        minutes_mean, minutes_best: means, of the engine and of one who knows the cause.
        minutes_whole: mean of the engine, with what handing over takes until things run again.
        minutes_simple: means of those who ask nothing, by rule; handing over counted likewise.
        brier: mean squared error of the probabilities of all causes, summed over a case's causes.
        calibration_error: expected calibration error of the probability of the cause that stood first.
        calibration_chance: what that error would be on average if every probability were right, with so few cases.
        reliability: of that, rows of (from, to, how many, mean probability, share true).
        gave_up: share in which the engine would have given up.
        unsafe_steps: all together.
        drawn: share of answers that came from the trees' own tables.
        turned_down: of the sets of causes that were drawn, the share of which no unit showed the symptom.
        lost: the cases that were not solved, or in which the true cause did not stand first.
    """

    cases: int
    stopped: int
    first: float
    first_three: float
    solved: float
    first_remedy_right: float
    questions: float
    wrong_fixes: float
    minutes_mean: float
    minutes_best: float
    minutes_whole: float
    minutes_simple: dict[str, float]
    brier: float
    calibration_error: float
    calibration_chance: float
    reliability: tuple[tuple[float, float, int, float, float], ...]
    gave_up: float
    unsafe_steps: int
    drawn: float
    turned_down: float
    lost: tuple[Played, ...]


def score(played: Sequence[Played]) -> Score:
    """Return the score of some played cases.

    Raises:
        ValueError: when there are none that no danger ended.
    """
    whole = [one for one in played if not one.stopped]
    if not whole:
        raise ValueError("no cases were played to an end, so there is nothing to score")
    tops = [int(one.probabilities.argmax()) for one in whole]
    sure = np.array([one.probabilities[top] for one, top in zip(whole, tops, strict=True)])
    true = np.array([one.truths[top] for one, top in zip(whole, tops, strict=True)])
    rows = _reliability(sure, true)
    # The error is never below nothing, so few cases give one even where every probability is right.
    lots = np.random.default_rng(0).random((CHANCE_DRAWS, len(sure))) < sure
    by_chance = np.mean([_calibration_error(_reliability(sure, lot.astype(float))) for lot in lots])
    answers: Counter[str] = sum((one.answered for one in played), Counter())

    def mean(values: Iterable[float]) -> float:
        return float(np.mean(list(values)))

    return Score(
        cases=len(played),
        stopped=len(played) - len(whole),
        first=mean(one.rank == 1 for one in whole),
        first_three=mean(1 <= one.rank <= 3 for one in whole),
        solved=mean(one.solved for one in whole),
        first_remedy_right=mean(bool(one.first_remedy_right) for one in whole),
        questions=mean(one.questions for one in whole),
        wrong_fixes=mean(one.wrong_fixes for one in whole),
        minutes_mean=mean(one.minutes for one in whole),
        minutes_best=mean(one.minutes_best for one in whole),
        minutes_whole=mean(one.minutes_whole for one in whole),
        minutes_simple={rule: mean(one.minutes_simple[rule] for one in whole) for rule in RULES},
        brier=mean(float(((one.probabilities - one.truths) ** 2).sum()) for one in whole),
        calibration_error=_calibration_error(rows),
        calibration_chance=float(by_chance),
        reliability=tuple(rows),
        gave_up=mean(one.gave_up for one in whole),
        unsafe_steps=sum(one.unsafe_steps for one in played),
        drawn=answers["drawn"] / max(sum(answers.values()), 1),
        turned_down=sum(one.setting.turned_down for one in played)
        / sum(one.setting.turned_down + 1 for one in played),
        lost=tuple(one for one in whole if not one.solved or one.rank != 1),
    )


def _reliability(sure: Floats, true: Floats) -> list[tuple[float, float, int, float, float]]:
    """Return rows of (from, to, how many, mean probability, share true) of some probabilities, shape (n,)."""
    rows = []
    for low, high in pairwise(BINS):
        inside = (sure >= low) & ((sure < high) | (high == 1.0))
        if inside.any():
            means = float(sure[inside].mean()), float(true[inside].mean())
            rows.append((float(low), float(high), int(inside.sum()), *means))
    return rows


def _calibration_error(rows: Sequence[tuple[float, float, int, float, float]]) -> float:
    """Return the expected calibration error of rows of `_reliability`."""
    total = sum(count for _, _, count, _, _ in rows)
    return sum(count * abs(meant - found) for _, _, count, meant, found in rows) / total

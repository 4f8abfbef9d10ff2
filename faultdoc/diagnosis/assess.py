"""One look at a case: checks made, belief over causes, the next step, and why.

`assess` is what the window, the terminal and the command line all call; it is a pure function of
the prepared workbench and the case.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Container, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from faultdoc.checks.all import make, split_readings
from faultdoc.checks.base import CheckResult, Missing, registry
from faultdoc.checks.plausible import Doubt, doubts
from faultdoc.checks.startup import warm_up
from faultdoc.diagnosis.belief import Belief, believe
from faultdoc.diagnosis.evidence import Evidence, Mended, fix_evidence, gather
from faultdoc.diagnosis.planner import Crew, Plan, Situation, crew, plan
from faultdoc.diagnosis.problem import Problem, pose
from faultdoc.library import vocabulary
from faultdoc.library.load import Library
from faultdoc.model.base import Measured
from faultdoc.model.case import Case
from faultdoc.model.safety import (
    Caution,
    Compressors,
    Oil,
    Panel,
    Qualification,
    StateChange,
    StateNeed,
    Supply,
    after,
    may,
)
from faultdoc.model.tree import Question, Remedy, Tree
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import System
from faultdoc.words import say

__all__ = [
    "Assessment",
    "Bench",
    "Step",
    "ask_words",
    "assess",
    "bench_for",
    "change_minutes",
    "change_step",
    "choice_point",
    "mended_before",
    "outcomes_of",
    "setting_up",
    "situation",
    "step_toward",
    "warmed_minutes",
]

StepKind = Literal["question", "remedy", "proof", "state_change", "hand_over", "done"]

RUNNING = StateNeed(compressors=Compressors.RUNNING, panel=Panel.CLOSED)
"""In which the unit is back in service: nobody leaves it with a live panel open."""


@dataclass(frozen=True)
class Step:
    """What to do next.

    Attributes:
        kind: a question to answer; a remedy; the proof of a remedy done; a change of the plant's
            state on the way to one of these or back to service; handing over; or done.
        id: of the question, the cause (remedy, proof, hand-over) or the state change.
        text: what to do, one line.
        minutes: of this step alone.
        state: what the plant must be in for it.
        who: qualification needed.
        cautions: to be read before.
        toward: for a state change: what it is on the way to, in words.
        toward_id: for a state change: the id of that question or cause, None on the way to service;
            for a stop: the id of the question whose answer ended the work.
    """

    kind: StepKind
    id: str
    text: str
    minutes: float
    state: StateNeed
    who: Qualification
    cautions: tuple[Caution, ...] = ()
    toward: str | None = None
    toward_id: str | None = None

    @property
    def stops(self) -> bool:
        """True where an answer has ended the work at once; `text` says what to do instead."""
        return self.kind == "hand_over" and self.id == "stop"


@dataclass(frozen=True)
class Bench:
    """A unit and its symptoms on the bench: the problem, and prices by who is there.

    Keep one for a case: it is made once and used for every assessment.
    """

    library: Library
    sheet: DataSheet
    problem: Problem
    _crews: dict[tuple[frozenset[Qualification], float], Crew] = field(
        default_factory=dict, compare=False, repr=False
    )
    _made: dict[tuple[str, tuple[Measured | None, ...]], CheckResult | Missing] = field(
        default_factory=dict, compare=False, repr=False
    )

    def crew(self, case: Case) -> Crew:
        """Return the prices for the people on a case and the warm-up that has passed, computed once."""
        key = frozenset(case.who), warmed_minutes(self.sheet, case)
        if key not in self._crews:
            whole = warm_up(self.sheet) / 60.0
            self._crews[key] = crew(self.problem, self.library.plant, key[0], whole, key[1])
        return self._crews[key]

    def checks(self, readings: Mapping[str, Measured]) -> list[CheckResult]:
        """Return every check that at least one reading enters; one is made again only when its readings change."""
        results = []
        for check in registry.values():
            points = [point for need in check.needs for point in (need.name, *(need.instead or ()))]
            taken = tuple(readings.get(point) for point in points)
            if not any(taken):
                continue
            key = check.id, taken
            if key not in self._made:
                self._made[key] = make(check.id, self.sheet, readings, self.library.points)
            result = self._made[key]
            if isinstance(result, CheckResult):
                results.append(result)
        return results


@dataclass(frozen=True)
class Assessment:
    """One look at a case.

    Attributes:
        case: as given.
        bench: the unit and problem.
        checks: every check that its readings allow.
        belief: over causes.
        counted_once: answers that add nothing to others, with the reason.
        unanswered: ids of the questions that are still open, in the trees' order.
        plan: options for the next step, best first.
        next: the next step.
    """

    case: Case
    bench: Bench
    checks: tuple[CheckResult, ...]
    belief: Belief
    counted_once: Mapping[str, str]
    unanswered: tuple[str, ...]
    plan: Plan
    next: Step

    def doubts(self, system: System) -> list[Doubt]:
        """Return the readings that are hard to believe, and why, in the units of `system`."""
        numbers, choices = split_readings(self.case.readings)
        return doubts(self.bench.sheet, numbers, self.bench.library.points, system, choices)


def bench_for(library: Library, sheet: DataSheet, symptoms: tuple[str, ...], size: int = 2) -> Bench:
    """Return the bench for a unit and its symptoms.

    Raises:
        KeyError: for a symptom that has no tree.
        ValueError: when a tree does not apply to the unit, or names a place, an instrument, a measuring point or
            a check that there is not.
    """
    trees = [library.trees[symptom] for symptom in symptoms]
    for tree in trees:
        if lacking := [feature for feature in tree.applies_to if feature not in sheet.features]:
            raise ValueError(f"'{tree.title}' is for units with {', '.join(lacking)}; {sheet.title} has none")
    for tree in trees:
        _all_known(tree, library)
    return Bench(library, sheet, pose(trees, library.causes, sheet, registry, size))


def _all_known(tree: Tree, library: Library) -> None:
    """See that what a tree's work leans on is there: a tree from elsewhere need not have been through `lint`."""
    plant, points = library.plant, library.points
    named = {child for gate in tree.events for child in gate.children}
    remedies = [cause.remedy for id, cause in library.causes.items() if id in named]
    used: tuple[tuple[str, Container[str], Iterable[str]], ...] = (
        ("place", plant.places, (one.place for one in (*remedies, *tree.questions) if one.place)),
        ("instrument", plant.instrument_ids, (id for question in tree.questions for id in question.bring)),
        ("measuring point", points, (id for question in tree.questions for id in question.points)),
        ("measuring point", points, (id for remedy in remedies for id in remedy.proof.points)),
        ("check", registry, (question.check for question in tree.questions if question.check)),
    )
    for what, known, ids in used:
        if unknown := next((id for id in ids if id not in known), None):
            raise ValueError(
                f"the fault tree '{tree.id}' names the {what} '{unknown}', and there is none; "
                "'faultdoc lint' with its file or folder tells the line"
            )


def choice_point(question: Question, bench: Bench) -> str | None:
    """Return the id of the choice point whose reading answers a question, if there is exactly one."""
    point = vocabulary.choice_point(question, bench.library.points)
    return None if point is None else point.id


def outcomes_of(bench: Bench, case: Case) -> dict[str, str]:
    """Return question id -> outcome id, from answers and from readings of choice points.

    What is no outcome here, in a case that came from other trees, says nothing.
    """
    outcomes: dict[str, str] = {}
    for id, question in bench.problem.questions.items():
        point = choice_point(question, bench)
        given = None if point is None else case.readings.get(point)
        if not isinstance(given, str):
            given = case.answers.get(id)
        if given in [outcome.id for outcome in question.outcomes]:
            outcomes[id] = str(given)
    return outcomes


def situation(problem: Problem, case: Case) -> Situation:
    """Return where things stand in a case."""
    devices = [problem.causes[one.cause].remedy.resets for one in case.tried if one.cause in problem.causes]
    return Situation(
        state=case.state,
        tried=frozenset(one.cause for one in case.tried),
        place=case.place,
        at_hand=frozenset(case.at_hand),
        resets=Counter(device for device in devices if device is not None),
    )


def mended_before(problem: Problem, case: Case, taken: Collection[str]) -> Mended:
    """Return which remedies had been carried out when the last of some answers and readings was taken.

    Args:
        problem: names the causes.
        case: says of each remedy what was known before it.
        taken: ids of questions and measuring points; those that the case does not have are passed over.
    """
    here = {id for id in taken if id in case.answers or id in case.readings}
    places, holds = [], 1.0
    for one in case.tried:
        if one.cause in problem.causes and not here <= set(one.known):
            places.append(problem.sets.causes.index(one.cause))
            holds *= problem.causes[one.cause].remedy.holds
    return Mended(tuple(sorted(set(places))), holds)


def assess(bench: Bench, case: Case, depth: int = 1) -> Assessment:
    """Return one look at a case; `depth` is how many questions ahead the plan looks.

    Raises:
        ValueError: when a remedy waits for its proof that is for no cause of these symptoms on this unit.
    """
    problem = bench.problem
    if case.unproved is not None and case.unproved not in problem.causes:
        raise ValueError(
            f"the remedy for '{case.unproved}' waits for its proof, but that is no cause of these symptoms on "
            f"{bench.sheet.title}; name its symptom too, or take 'unproved' out"
        )
    numbers, _ = split_readings(case.readings)
    made = bench.checks(numbers)
    results = {result.id: result for result in made}
    questions = list(problem.questions.values())
    outcomes = outcomes_of(bench, case)
    pieces, counted_once = gather(
        questions, problem.models, outcomes, results, lambda taken: mended_before(problem, case, taken)
    )
    evidence: list[Evidence] = list(pieces)
    fixes = {id: cause.remedy.holds for id, cause in problem.causes.items()}
    evidence += fix_evidence([(one.cause, one.proved) for one in case.tried], problem.sets, fixes)
    belief = believe(problem.sets, evidence, problem.beyond)
    team = bench.crew(case)
    settled = set(outcomes) | set(case.answers) | set(case.set_aside) | set(counted_once)
    settled.update(question.id for question in questions if question.check in results)
    unanswered = tuple(id for id in problem.questions if id not in settled)
    options = plan(problem, belief.weights, team, situation(problem, case), unanswered, depth)
    return Assessment(
        case=case,
        bench=bench,
        checks=tuple(made),
        belief=belief,
        counted_once=counted_once,
        unanswered=unanswered,
        plan=options,
        next=_next(bench, case, outcomes, team, options, belief),
    )


def warmed_minutes(sheet: DataSheet, case: Case) -> float:
    """Return the minutes of the oil warm-up that have passed: 0 unless the unit is energised with cold oil.

    From the reading of how long the unit has been energised without a break; any break starts it
    again, so without that reading nothing has passed.
    """
    energised = case.readings.get("hours_energised_since_power_up")
    if case.state.oil is Oil.WARM or case.state.supply is Supply.ISOLATED or not isinstance(energised, Measured):
        return 0.0
    return min(energised.value, warm_up(sheet)) / 60.0


def setting_up(bench: Bench, case: Case, need: StateNeed) -> tuple[StateChange, ...] | None:
    """Return the state changes that the people here would make to meet `need`; None if they cannot."""
    return bench.crew(case).own.path(case.state, need)


def _next(
    bench: Bench, case: Case, outcomes: Mapping[str, str], team: Crew, options: Plan, belief: Belief
) -> Step:
    if case.conclusion is not None:
        return Step("done", "done", say("The case is closed."), 0.0, StateNeed(), Qualification.CALLER)
    for id, outcome in outcomes.items():
        told = next((one for one in bench.problem.questions[id].outcomes if one.id == outcome), None)
        if told is not None and told.stop is not None:
            cautions = bench.problem.questions[id].cautions
            return Step("hand_over", "stop", told.stop, 0.0, StateNeed(), Qualification.CALLER, cautions, None, id)
    if case.unproved is not None:
        cause = bench.problem.causes[case.unproved]
        proof = cause.remedy.proof
        step = Step("proof", cause.id, proof.text, proof.minutes, proof.state, proof.who, proof.cautions)
        return _on_the_way(
            bench, case, team, step, say("the proof of: {title}", title=cause.remedy.title), cause.id
        )
    if case.tried and case.tried[-1].proved:
        done = Step("done", "done", say("The fix is proved and the unit is back in service: close the case."),
                    0.0, RUNNING, Qualification.CALLER)  # fmt: skip
        return _on_the_way(bench, case, team, done, say("the restart"), None)
    best = options.best
    if best is None:
        text = say("No cause known here is left to try.")
        if options.options:
            text = say(
                "Going on is expected to take {expected_minutes:.0f} min, and {give_up:.0f} "
                "min without this unit.",
                expected_minutes=options.options[0].expected_minutes,
                give_up=options.give_up,
            )
        if options.options:
            likeliest = int(belief.marginal.argmax())
            cause = bench.problem.causes[belief.sets.causes[likeliest]]
            share = 100.0 * float(belief.marginal[likeliest])
            text += say(
                " Likeliest is still: {title} ({share:.0f} %); remedy: {title_2}.",
                title=cause.title,
                share=share,
                title_2=cause.remedy.title,
            )
        text += say(" Make the unit safe and hand the case over with this record.")
        return Step("hand_over", "nothing_left", text, 0.0, StateNeed(), Qualification.CALLER)
    if best.visit:
        remedy = bench.problem.causes[best.id].remedy
        lacking = _lacking(bench, case, remedy)
        text = say(
            "Hand over to someone qualified ({replace}): {title}",
            replace=lacking.value.replace("_", " "),
            title=remedy.title,
        )
        return Step(
            "hand_over", best.id, text, bench.library.plant.visit_minutes, StateNeed(), Qualification.CALLER
        )
    return step_toward(bench, case, best.kind, best.id)


def _lacking(bench: Bench, case: Case, remedy: Remedy) -> Qualification:
    """Return the first qualification that nobody here has, of the remedy's, its proof's and the way to them."""
    here = frozenset(case.who)
    full = bench.crew(case).full
    path = full.path(case.state, remedy.state) or ()
    end = case.state
    for change in path:
        end = after(end, change)
    back = full.path(end, remedy.proof.state) or ()
    wanted = [remedy.who, remedy.proof.who, *(change.who for change in (*path, *back))]
    return next((who for who in wanted if not may(here, who)), remedy.who)


def ask_words(case: Case, question: Question) -> str:
    """Return a question in the register of the people here."""
    return question.ask.caller if set(case.who) == {Qualification.CALLER} else question.ask.tech


def step_toward(bench: Bench, case: Case, kind: Literal["question", "remedy"], id: str) -> Step:
    """Return a question or a remedy as a step, or the first change of the plant on the way to it.

    Raises:
        KeyError: when the problem has no such question or cause.
    """
    step: Step
    if kind == "question":
        question = bench.problem.questions[id]
        text = ask_words(case, question)
        step = Step("question", id, text, question.minutes, question.state, question.who, question.cautions)
        toward = say("the question: {what}", what=text)
    else:
        remedy = bench.problem.causes[id].remedy
        step = Step("remedy", id, remedy.title, remedy.minutes, remedy.state, remedy.who, remedy.cautions)
        toward = say("the remedy: {title}", title=remedy.title)
    return _on_the_way(bench, case, bench.crew(case), step, toward, id)


def change_step(
    bench: Bench, case: Case, change: StateChange, toward: str | None = None, toward_id: str | None = None
) -> Step:
    """Return a change of the plant's state as a step, on the way to something or for its own sake."""
    minutes = change_minutes(bench, case, change)
    who, cautions = change.who, change.cautions
    return Step("state_change", change.id, change.title, minutes, change.when, who, cautions, toward, toward_id)


def change_minutes(bench: Bench, case: Case, change: StateChange) -> float:
    """Return how long a change of the plant's state takes in a case; of the oil warm-up, what is left."""
    if isinstance(change.minutes, str):
        return warm_up(bench.sheet) / 60.0 - warmed_minutes(bench.sheet, case)
    return change.minutes


def _on_the_way(bench: Bench, case: Case, team: Crew, step: Step, toward: str, toward_id: str | None) -> Step:
    """Return the step itself where the plant is ready for it, else the first change on the way there."""
    path = team.own.path(case.state, step.state)
    if path is None:
        text = say(
            "Nobody here may bring the plant into the state needed for {toward}. Hand over to someone who may.",
            toward=toward,
        )
        return Step(
            "hand_over", step.id, text, bench.library.plant.visit_minutes, StateNeed(), Qualification.CALLER
        )
    if not path:
        return step
    return change_step(bench, case, path[0], toward, toward_id)

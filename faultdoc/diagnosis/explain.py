"""Why: what spoke for and against each cause, why this step is next, what does not fit.

In numbers (decibans: 10 is ten to one, Good 1985) and in the trade's words.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from faultdoc.checks.base import VERDICT_WORDS, CheckResult
from faultdoc.diagnosis.assess import Assessment, Bench
from faultdoc.diagnosis.evidence import ChoiceEvidence, Evidence, ResidualEvidence
from faultdoc.diagnosis.likelihood import ResidualModel, residual_edges
from faultdoc.diagnosis.planner import Option
from faultdoc.diagnosis.problem import Problem
from faultdoc.quantities import System, display_unit, to_display
from faultdoc.words import say

__all__ = [
    "Ranked",
    "Reason",
    "as_json",
    "check_json",
    "evidence_in_words",
    "for_and_against",
    "likely_causes",
    "misfit_sentences",
    "not_ruled_out",
    "odds_in_words",
    "option_in_words",
    "strength",
    "what_would_change",
    "why_next",
]

STILL_POSSIBLE = 0.01
"""Causes at or above this probability have not been ruled out."""


@dataclass(frozen=True)
class Ranked:
    """A cause and its probability."""

    id: str
    title: str
    system: str
    probability: float


@dataclass(frozen=True)
class Reason:
    """What one answer did to one cause: the answer in words, decibans, and their strength in words."""

    text: str
    decibans: float
    strength: str


def likely_causes(assessment: Assessment) -> tuple[Ranked, ...]:
    """Return all causes, most probable first."""
    belief = assessment.belief
    causes = assessment.bench.problem.causes
    ranked = [
        Ranked(id, causes[id].title, causes[id].system.value, float(probability))
        for id, probability in zip(belief.sets.causes, belief.marginal, strict=True)
    ]
    return tuple(sorted(ranked, key=lambda one: -one.probability))


def not_ruled_out(assessment: Assessment) -> tuple[Ranked, ...]:
    """Return the causes that are still possible, most probable first."""
    return tuple(one for one in likely_causes(assessment) if one.probability >= STILL_POSSIBLE)


def strength(decibans: float) -> str:
    """Return decibans in words.

    >>> strength(13.0), strength(-4.0), strength(0.3)
    ('strongly for', 'somewhat against', 'hardly moves it')
    """
    size = abs(decibans)
    if size < 1.0:
        return say("hardly moves it")
    word = (
        "somewhat"
        if size < 5.0
        else "clearly"
        if size < 10.0
        else "strongly"
        if size < 20.0
        else say("very strongly")
    )
    return f"{word} {'for' if decibans > 0 else 'against'}"


def evidence_in_words(bench: Bench, evidence: Evidence, system: System) -> str:
    """Return what was found, in words."""
    questions = bench.problem.questions
    if isinstance(evidence, ChoiceEvidence):
        question = questions[evidence.question]
        return f"{question.ask.tech} {question.outcomes[evidence.outcome].title}"
    if isinstance(evidence, ResidualEvidence):
        if len(evidence.results) == 1:
            return evidence.results[0].sentence(system)
        # Judged together, as they lean on the same readings; each in full stands with the checks.
        found = (f"{result.title}, {VERDICT_WORDS[result.verdict]}" for result in evidence.results)
        return say("{len} checks that share readings: {join}.", len=len(evidence.results), join="; ".join(found))
    last = evidence.tries[-1]
    title = bench.problem.causes[evidence.cause].remedy.title
    return say(
        "Remedy tried: {title}. The proof {what}.",
        title=title,
        what="held" if last.proved else say("did not hold"),
    )


def for_and_against(assessment: Assessment, cause: str, system: System) -> tuple[Reason, ...]:
    """Return what each answer did to a cause, strongest first; after the symptom's own share.

    The decibans of all reasons add up to the cause's log odds now.

    Raises:
        ValueError: for a cause that is not in play.
    """
    belief = assessment.belief
    place = belief.sets.causes.index(cause)
    prior = float(belief.prior_decibans[place])
    start = Reason(
        say("How often it is the cause of this symptom"),
        prior,
        say("starts at {odds_in_words}", odds_in_words=odds_in_words(prior)),
    )
    reasons = [
        Reason(
            evidence_in_words(assessment.bench, weight.evidence, system),
            weight.decibans,
            strength(weight.decibans),
        )
        for weight in belief.weights_of(cause)
    ]
    return (start, *reasons)


def odds_in_words(decibans: float) -> str:
    """Return log odds as odds in words.

    >>> odds_in_words(-13.0), odds_in_words(6.0)
    ('1 to 20 against', '4 to 1 on')
    """
    odds: float = 10.0 ** (abs(decibans) / 10.0)
    number = f"{odds:.1f}".removesuffix(".0") if odds < 3 else f"{odds:.0f}"
    return say("{number} to 1 on", number=number) if decibans >= 0 else say("1 to {number} against", number=number)


def option_in_words(assessment: Assessment, option: Option) -> str:
    """Return an option as one line."""
    problem = assessment.bench.problem
    if option.kind == "question":
        return problem.questions[option.id].ask.tech
    return problem.causes[option.id].remedy.title


def why_next(assessment: Assessment) -> tuple[str, ...]:
    """Return why the step proposed is next, against the next two and against repairing at once."""
    options, best = assessment.plan.options, assessment.plan.best
    if assessment.next.stops:
        return (say("An answer says that people can come to harm here and now. That comes before any cause."),)
    if best is None:
        return (say("Nothing known here is left that is worth asking or trying."),)
    lines = []
    if best.first:
        lines.append(say("It is asked first: its answer may stop the work."))
    elif best.expected_minutes > assessment.plan.give_up:
        lines.append(
            say(
                "Going on is expected to take longer than doing without this unit; this "
                "tells most for its minutes ({bits:.2f} bit in {min}) and may change that.",
                bits=best.bits,
                min=_min(best.minutes),
            )
        )
    elif best.kind == "question":
        gain = assessment.plan.repair_now - best.expected_minutes
        lines.append(
            say(
                "It takes {min} and is expected to bring a proved fix {min_2} nearer than "
                "repairing without asking; it tells {bits:.2f} bit about the cause.",
                min=_min(best.minutes),
                min_2=_min(gain),
                bits=best.bits,
            )
        )
    else:
        cause = next(one for one in likely_causes(assessment) if one.id == best.id)
        lines.append(
            say(
                "It takes {min} with its proof and is the fix with a chance of "
                "{probability:.0%}; no question saves more than it costs.",
                min=_min(best.minutes),
                probability=cause.probability,
            )
        )
    if best.path:
        lines.append(say("First: ") + say(", then ").join(change.title.lower() for change in best.path) + ".")
    for other in [one for one in options if one is not best][:2]:
        later = other.expected_minutes - best.expected_minutes
        lines.append(
            say(
                "Rather than '{option_in_words}' ({min}, {bits:.2f} bit): that way is "
                "expected to end {min_2} {what}.",
                option_in_words=option_in_words(assessment, other),
                min=_min(other.minutes),
                bits=other.bits,
                min_2=_min(abs(later)),
                what=say("later") if later >= 0.0 else say("sooner"),
            )
        )
    return tuple(lines)


def what_would_change(assessment: Assessment, questions: int = 3) -> tuple[str, ...]:
    """Return, for the most worthwhile questions, which answers would put another cause first.

    Answers less likely than 2 in 100 are left out; after an answer that ended the work nothing is to be asked.
    """
    if assessment.next.stops:
        return ()
    problem, belief = assessment.bench.problem, assessment.belief
    causes = belief.sets.causes
    first = int(belief.marginal.argmax())
    chances, left = problem.outlook.split(*belief.sets.singles_and_pairs(belief.weights))
    lines = []
    asked = [option.id for option in assessment.plan.options if option.kind == "question"][:questions]
    for id in asked:
        question, span = problem.questions[id], problem.outlook.spans[id]
        for place, chance in enumerate(chances[span]):
            then = int(left[span][place].argmax())
            if then == first or chance < 0.02:
                continue
            answer = question.outcomes[place].title if question.outcomes else _bin_in_words(problem, id, place)
            lines.append(
                say(
                    "{tech} '{answer}' ({chance:.0%} likely) would put '{title}' first.",
                    tech=question.ask.tech,
                    answer=answer,
                    chance=chance,
                    title=problem.causes[causes[then]].title,
                )
            )
    return tuple(lines)


def _bin_in_words(problem: Problem, question: str, place: int) -> str:
    """Return a range of a check's residual in words."""
    model = problem.models[question]
    assert isinstance(model, ResidualModel)
    edges = [float(edge) for edge in residual_edges(model)]
    if place == 0:
        return say("a deviation below {edges:+.2g}", edges=edges[0]) if edges else say("any deviation")
    if place == len(edges):
        return say("a deviation above {edges:+.2g}", edges=edges[-1])
    return say("a deviation from {edges:+.2g} to {edges_2:+.2g}", edges=edges[place - 1], edges_2=edges[place])


def _min(minutes: float) -> str:
    return f"{minutes:.1f} min" if minutes < 10 else f"{minutes:.0f} min"


def misfit_sentences(assessment: Assessment, system: System) -> tuple[str, ...]:
    """Return what does not fit any cause still believed, worst first."""
    return tuple(
        say(
            "This fits no cause here (1 in {what:,.0f}): {evidence_in_words} Recheck it.",
            what=1 / max(misfit.probability, 1e-9),
            evidence_in_words=evidence_in_words(assessment.bench, misfit.evidence, system),
        )
        for misfit in assessment.belief.misfits
    )


def as_json(assessment: Assessment, system: System) -> dict[str, Any]:
    """Return the machine-readable result of `faultdoc diagnose --json`; keys are only ever added."""
    step = assessment.next
    return {
        "causes": [
            {"id": one.id, "title": one.title, "system": one.system, "probability": one.probability}
            for one in likely_causes(assessment)
        ],
        "left_out": assessment.belief.left_out,
        "checks": [check_json(result, system) for result in assessment.checks],
        "next": {
            "kind": step.kind,
            "id": step.id,
            "text": step.text,
            "minutes": step.minutes,
            "state": step.state.model_dump(mode="json", exclude_none=True),
            "who": step.who.value,
            "cautions": [caution.model_dump(mode="json") for caution in step.cautions],
            "toward": step.toward,
        },
        "misfit": list(misfit_sentences(assessment, system)),
        "expected_minutes": assessment.plan.expected_minutes,
        "spread_minutes": assessment.plan.spread,
        "why": list(why_next(assessment)),
        "would_change": list(what_would_change(assessment)),
        "doubts": [{"point": doubt.point, "text": doubt.text} for doubt in assessment.doubts(system)],
        "counted_once": dict(assessment.counted_once),
    }


def check_json(result: CheckResult, system: System) -> dict[str, Any]:
    """Return one check for `diagnose --json` and `compute --json`, in the units of `system`."""

    def shown(value: float) -> float:
        return to_display(value, result.kind, system)

    return {
        "id": result.id,
        "title": result.title,
        "expected": shown(result.expected),
        "measured": shown(result.measured),
        "deviation": result.deviation,
        "uncertainty": shown(result.expected + result.uncertainty) - shown(result.expected),
        "verdict": result.verdict.value,
        "unit": display_unit(result.kind, system),
        "sentence": result.sentence(system),
    }

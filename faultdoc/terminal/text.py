"""Assessments as lines of text for a terminal 80 columns wide. Pure; signal words, never colour."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from faultdoc.checks.base import CheckResult
from faultdoc.diagnosis.assess import Assessment, Step
from faultdoc.diagnosis.explain import (
    for_and_against,
    likely_causes,
    misfit_sentences,
    not_ruled_out,
    what_would_change,
    why_next,
)
from faultdoc.model.safety import STATE_FIELDS, Caution, PlantState
from faultdoc.quantities import System
from faultdoc.record.steps import change_of
from faultdoc.record.words import PEOPLE, PLANT, chance, minutes, need_in_words, worst_first

__all__ = [
    "WIDTH",
    "causes_text",
    "cautions_text",
    "checks_text",
    "diagnosis_text",
    "doubts_text",
    "numbered",
    "paragraph",
    "reasons_text",
    "state_text",
    "step_text",
    "why_text",
    "wrapped",
]

WIDTH = 79
"""Columns used: one less than 80, as a full line makes some terminals break twice."""

BAR = 20
NAMED = 10
"""Causes that are still possible and named."""

KINDS = {
    "question": "QUESTION",
    "remedy": "REMEDY",
    "proof": "PROOF",
    "state_change": "CHANGE OF STATE",
    "hand_over": "HAND OVER",
    "done": "DONE",
}


def paragraph(text: str, first: str = "", rest: str | None = None) -> str:
    """Return a text wrapped, its first line after `first`, the others after `rest` (as wide by default).

    >>> print(paragraph("one two", "- "))
    - one two
    """
    after = " " * len(first) if rest is None else rest
    return textwrap.fill(
        " ".join(text.split()),
        WIDTH,
        initial_indent=first,
        subsequent_indent=after,
        break_long_words=False,
        break_on_hyphens=False,
    )


def wrapped(text: str) -> str:
    """Return lines of text wrapped one by one, each hanging under its own indent.

    >>> print(wrapped("  one\\ntwo"))
      one
    two
    """
    lines = []
    for line in text.splitlines():
        indent = line[: len(line) - len(line.lstrip())]
        lines.append(paragraph(line, indent, indent + "    "))
    return "\n".join(lines)


def numbered(texts: Iterable[str], indent: str = "  ") -> str:
    """Return texts as a numbered list.

    >>> print(numbered(["Open it.", "Shut it."]))
      1. Open it.
      2. Shut it.
    """
    return "\n".join(paragraph(text, f"{indent}{number}. ") for number, text in enumerate(texts, start=1))


def cautions_text(cautions: Iterable[Caution], indent: str = "  ") -> str:
    """Return cautions worst first, each after its signal word; '' when there are none."""
    return "\n".join(
        paragraph(caution.text, f"{indent}{caution.signal.value.upper()}: ", indent + "    ")
        for caution in worst_first(cautions)
    )


def causes_text(assessment: Assessment, at_most: int = 5) -> str:
    """Return the likeliest causes with bars, and how many are left."""
    ranked = likely_causes(assessment)
    lines = []
    for number, one in enumerate(ranked[:at_most], start=1):
        filled = round(BAR * one.probability)
        lines.append(paragraph(f"{one.title} ({one.system})", f"  {number}. "))
        lines.append(f"     [{'#' * filled}{'.' * (BAR - filled)}] {chance(one.probability)}")
    if left := ranked[at_most:]:
        likely = chance(left[0].probability)
        others = "is 1 other cause" if len(left) == 1 else f"are {len(left)} other causes"
        lines.append(f"  Less likely still {others} ({likely} and down).")
    return "\n".join(lines)


def reasons_text(assessment: Assessment, cause: str, system: System) -> str:
    """Return what spoke for and against a cause, strongest first."""
    return "\n".join(
        paragraph(f"{reason.text} [{reason.strength}]", f"  {reason.decibans:+6.1f}  ")
        for reason in for_and_against(assessment, cause, system)
    )


def checks_text(checks: Iterable[CheckResult], system: System) -> str:
    """Return check results as sentences with their remarks; '' when there are none."""
    lines = []
    for result in checks:
        lines.append(paragraph(result.sentence(system), "  - "))
        lines += [paragraph(remark, "      ") for remark in result.remarks]
    return "\n".join(lines)


def doubts_text(assessment: Assessment, system: System) -> str:
    """Return the readings that are hard to believe; '' when there are none."""
    return "\n".join(paragraph(doubt.text, "  ? ") for doubt in assessment.doubts(system))


def why_text(assessment: Assessment) -> str:
    """Return why the next step is the one proposed."""
    return "\n".join(paragraph(line, "  - ") for line in why_next(assessment))


def state_text(state: PlantState, fields: Iterable[str] = STATE_FIELDS) -> str:
    """Return a plant state, one line for each of its `fields`."""
    return "\n".join(
        f"  {PLANT[name].title + ':':22} {PLANT[name].values[getattr(state, name).value]}" for name in fields
    )


def step_text(assessment: Assessment, step: Step) -> str:
    """Return a step in full: its cautions first, then what it needs, then what to do."""
    kind = "STOP" if step.stops else KINDS[step.kind]
    lines = [f"{kind}{f', about {minutes(step.minutes)}' if step.minutes else ''}"]
    if step.cautions:
        lines.append(cautions_text(step.cautions))
    lines.append(paragraph(step.text, "  "))
    if step.toward:
        lines.append(paragraph(step.toward, "  On the way to ", "    "))
    if step.kind in ("question", "remedy", "proof") and (needs := need_in_words(step.state)):
        lines.append(paragraph("; ".join(needs) + ".", "  Needs: "))
    if step.kind in ("question", "remedy", "proof", "state_change"):
        lines.append(paragraph(PEOPLE[step.who][0] + ".", "  Who: "))
    lines += _details(assessment, step)
    return "\n".join(lines)


def _details(assessment: Assessment, step: Step) -> list[str]:
    problem = assessment.bench.problem
    if step.kind == "question":
        question = problem.questions[step.id]
        said = [("Where", question.where), ("How", question.how), ("With", question.instrument)]
        if watch_for := assessment.bench.library.watch_for(question):
            said.append(("Mind", watch_for))
        return [paragraph(text, f"  {title}: ") for title, text in said]
    if step.kind == "remedy":
        remedy = problem.causes[step.id].remedy
        listed = [("Parts", remedy.parts), ("Tools", remedy.tools)]
        lines = [paragraph(", ".join(items) + ".", f"  {title}: ") for title, items in listed if items]
        if remedy.licence:
            lines.append(paragraph(remedy.licence, "  Licence: "))
        return [*lines, numbered(remedy.steps)]
    if step.kind == "state_change":
        change = change_of(assessment, step.id)
        resets = [paragraph(change.resets, "  Mind: ")] if change.resets else []
        return [*resets, numbered(change.steps)]
    return []


def diagnosis_text(assessment: Assessment, system: System) -> str:
    """Return an assessment in full, as `faultdoc diagnose` prints it."""
    first = likely_causes(assessment)[0]
    belief = assessment.belief
    parts = [
        ("Checks", checks_text(assessment.checks, system) or "  None can be made from these readings."),
        ("Readings in doubt", doubts_text(assessment, system)),
        (
            "What fits no cause",
            "\n".join(paragraph(line, "  - ") for line in misfit_sentences(assessment, system)),
        ),
        ("Likely causes", causes_text(assessment)),
        (f"For and against: {first.title} (decibans)", reasons_text(assessment, first.id, system)),
        ("Next step", step_text(assessment, assessment.next)),
        ("Why", why_text(assessment) if assessment.plan.options else ""),
        (
            "What would change it",
            "\n".join(paragraph(line, "  - ") for line in what_would_change(assessment)),
        ),
    ]
    possible = not_ruled_out(assessment)
    named = ", ".join(f"{one.title} ({chance(one.probability)})" for one in possible[:NAMED])
    if len(possible) > NAMED:
        named += f", and {len(possible) - NAMED} more (down to 1 %)"
    left_out = [paragraph(named or "Nothing known here", "  Still possible: ", "    ")]
    left_out += [
        paragraph(f"{assessment.bench.problem.questions[id].ask.tech} Counted once: {why}.", "  ", "    ")
        for id, why in assessment.counted_once.items()
    ]
    if belief.left_out:
        more = f"More than {belief.sets.size} faults at once: {chance(belief.left_out)} at most, not looked at."
        left_out.append(paragraph(more, "  "))
    parts.append(("What is left out, and what is not ruled out", "\n".join(left_out)))
    plan = assessment.plan
    expected = (
        f"Expected until the fix is proved and the unit ready to start: {minutes(plan.expected_minutes)}, "
        f"give or take {minutes(plan.spread)}."
    )
    blocks = [f"{paragraph(title)}\n{text}" for title, text in parts if text]
    return "\n\n".join([*blocks, paragraph(expected)])

"""The call as text: what to read aloud beside a step, and a visit against asking on."""

from __future__ import annotations

from dataclasses import replace

from faultdoc.diagnosis.assess import Assessment, Step
from faultdoc.diagnosis.visit import Trip, weigh
from faultdoc.record.phone import LOAD, advice, hesitates, stop_aloud, volunteered
from faultdoc.record.settings import Settings
from faultdoc.terminal import text as page

__all__ = ["PHONE_HELP", "aloud", "call_text", "danger_text", "said_text"]

PHONE_HELP = """On the phone also:
  said WORDS  the questions that fit what the caller has just said; 'change ID' takes one up
  danger N    the caller tells of danger number N of 'stops': what to read aloud; the call ends"""


def call_text(assessment: Assessment, step: Step, settings: Settings) -> str:
    """Return what else is said at a step, and what a visit costs against asking on.

    Args:
        assessment: a look at the case.
        step: the one that is shown.
        settings: for emergency numbers and the minutes of travel.
    """
    if step.stops:
        return _aloud(stop_aloud(step.text, settings.emergency_numbers))
    lines = []
    if step.kind == "question":
        question = assessment.bench.problem.questions[step.id]
        lines.append(page.paragraph(hesitates(question), "  If the caller hesitates: ", "    "))
    if assessment.case.conclusion is None and step.kind != "done":
        trip = Trip(settings.travel_minutes, LOAD)
        told = advice(weigh(assessment, trip), trip)
        lines += [page.paragraph(words, "  * ", "    ") for words in (told.verdict, told.ask, told.send)]
    return "\n".join(lines)


def aloud(assessment: Assessment, step: Step) -> Step:
    """Return a step with the words in which a caller is asked, marked as such."""
    question = assessment.bench.problem.questions.get(step.id) if step.kind == "question" else None
    return step if question is None else replace(step, text=f"READ ALOUD: {question.ask.caller}")


def said_text(assessment: Assessment, said: str) -> str:
    """Return the questions that fit what a caller has said, and why others are not for a caller."""
    found = volunteered(assessment, said)
    if not found:
        return "No question has these words. Try fewer, or 'note' what was said."
    lines = []
    for one in found:
        why = f"not for a caller: {one.why_not}" if one.why_not else f"change {one.id}"
        why = f"answered: {one.answer}; change {one.id}" if one.answer else why
        lines.append(page.paragraph(f"{one.text} [{why}]", "  - ", "    "))
    return "\n".join(lines)


def danger_text(text: str, settings: Settings) -> str:
    """Return the words that end a call, to be read aloud, for one of the stops of the plant file."""
    return _aloud(stop_aloud(text, settings.emergency_numbers))


def _aloud(lines: tuple[str, ...]) -> str:
    return "\n".join(
        ["  READ ALOUD, one after the other:", *(page.paragraph(one, "    ", "      ") for one in lines)]
    )

"""A call: what is read aloud, what a caller may volunteer, how a call ends safely, and when to call back. Pure.

A case is worked on by phone where only a caller is there: `who` says so already, in the case, its journal and
every copy of it. A second mark could contradict it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from faultdoc.diagnosis.assess import Assessment, outcomes_of
from faultdoc.diagnosis.visit import Trip, Weighing
from faultdoc.model.case import Case
from faultdoc.model.safety import Caution, Compressors, Qualification, Supply
from faultdoc.model.tree import Question
from faultdoc.record import moves
from faultdoc.record.steps import Pick, change_of, refusal
from faultdoc.record.words import NON_ANSWER_WORDS, chance, matches, minutes
from faultdoc.words import say

__all__ = [
    "LOAD",
    "Advice",
    "Volunteered",
    "advice",
    "call_back",
    "called_back",
    "caller_remedies",
    "danger_told",
    "ended_by",
    "hesitates",
    "made_safe_steps",
    "on_phone",
    "stop_aloud",
    "to_call_back",
    "volunteered",
    "waits_on_phone",
]

LOAD = 5.0
"""Minutes to find and load the parts for one remedy before leaving; an estimate."""

WORTH_ASKING = 1.0
"""Minutes that asking on must spare before it is advised."""

DANGER = "Call ended for safety: "
"""How the note of a danger told on the phone begins."""

BACK = re.compile(r"^Call back at (\d{4}-\d\d-\d\d \d\d:\d\d) UTC")
CALLED = "Called back"


def on_phone(case: Case) -> bool:
    """Return whether a case is worked on by phone: nobody is there but a caller."""
    return set(case.who) == {Qualification.CALLER}


def hesitates(question: Question) -> str:
    """Return what to read aloud when the caller hesitates: the tree's own words, else some from where and how.

    >>> from faultdoc.library.load import load_library
    >>> hesitates(load_library().questions["cp_recent_work"])
    'Is there anybody near you who was there or looks after it, and whom you could ask? I can wait.'
    """
    if question.ask.hesitates:
        return question.ask.hesitates
    instrument, where = question.instrument.lower(), question.where
    if any(outcome.stop for outcome in question.outcomes):
        return say(
            "You need not go any nearer. Tell me what you see and smell from where you are; in doubt keep away."
        )
    if where.startswith("Ask"):
        return say(
            "Is there anybody near you who was there or looks after it, and whom you could ask? I can wait."
        )
    if question.check is not None:
        return say(
            "Read me the number and the letters beside it, just as they stand. If you do not find it, tell me so."
        )
    if "ear" in instrument:
        return say("Stay a few steps back and hold the phone towards it, so that I can listen too.")
    return say(
        "Tell me in your own words what you see, even if you are not sure. Where to "
        "look: {where}. Touch nothing and open nothing.",
        where=where,
    )


@dataclass(frozen=True)
class Volunteered:
    """A question that fits what the caller has just said.

    Attributes:
        id: of the question.
        text: as it would be read aloud.
        why_not: why a caller is not asked it, '' where it may be.
        answer: what has been answered to it already, '' where nothing has.
    """

    id: str
    text: str
    why_not: str
    answer: str

    @property
    def pick(self) -> Pick:
        """How the desk takes it up."""
        return Pick("correct" if self.answer else "question", self.id)


def volunteered(assessment: Assessment, said: str) -> tuple[Volunteered, ...]:
    """Return the questions that have all the words said, those that may be asked first; none for no words."""
    if not said.strip():
        return ()
    case, found = assessment.case, []
    known = {**case.answers, **outcomes_of(assessment.bench, case)}
    for id, question in assessment.bench.problem.questions.items():
        titles = [outcome.title for outcome in question.outcomes]
        if not matches(said, question.ask.caller, question.ask.tech, question.where, *titles):
            continue
        answer = ""
        if id in known:
            titled = {outcome.id: outcome.title for outcome in question.outcomes}
            answer = NON_ANSWER_WORDS.get(known[id]) or titled[known[id]]
        why_not = refusal(assessment, Pick("question", id)) or ""
        found.append(Volunteered(id, question.ask.caller, why_not, answer))
    return tuple(sorted(found, key=lambda one: bool(one.why_not)))


def caller_remedies(assessment: Assessment) -> tuple[str, ...]:
    """Return the causes whose remedy the people on the phone may carry out here and now, likeliest first."""
    belief = assessment.belief
    chances = dict(zip(belief.sets.causes, belief.marginal.tolist(), strict=True))
    tried = {one.cause for one in assessment.case.tried}
    open_ones = [id for id in chances if id not in tried and refusal(assessment, Pick("remedy", id)) is None]
    return tuple(sorted(open_ones, key=lambda id: -chances[id]))


# --- danger ---


def stop_aloud(text: str, numbers: Sequence[str]) -> tuple[str, ...]:
    """Return the words that end a call safely, to be read aloud one after the other.

    Args:
        text: what to do, as in the plant file or in an answer that stops: "smoke: keep away".
        numbers: of the site, for an emergency.
    """
    what, colon, do = text.partition(": ")
    order = do if colon else what
    help_ = say("Call for help now: {join}.", join='; '.join(numbers)) if numbers else (
        say("Call the site's emergency number now; where there is none, fire and "
"ambulance.")
    )  # fmt: skip
    return (
        say("Thank you for telling me. We stop here; please do exactly this."),
        order[:1].upper() + order[1:],
        say("Get everybody away from the unit, up-wind, and let nobody touch it."),
        help_,
        say("I hang up now, so that your phone is free. Call me back from a safe place once help is there."),
    )


def ended_by(case: Case, told: Caution | str) -> Case:
    """Return the case with the danger that ended the call in its notes."""
    text = told if isinstance(told, str) else told.text
    return moves.note(case, f"{DANGER}{text} Read aloud: keep away, keep others away, call for help; hung up.")


def danger_told(case: Case) -> bool:
    """Return whether the last call of a case ended for safety, and nobody has called back since."""
    for text in reversed(case.notes):
        if text.startswith(CALLED):
            return False
        if text.startswith(DANGER):
            return True
    return False


# --- making safe, and calling back ---


def made_safe_steps(assessment: Assessment) -> tuple[str, ...]:
    """Return what a caller does to leave the unit safe, in the words read aloud."""
    state = assessment.case.state
    steps: list[str] = []
    if state.compressors is Compressors.RUNNING:
        steps += change_of(assessment, "stop_compressors").steps
    else:
        steps.append(say("Leave the unit switched off at its own on/off control."))
    steps.append(say("Leave all doors and covers shut, and every valve and switch as it stands."))
    if state.supply is Supply.ENERGISED:
        steps.append(
            say("Leave its main supply on, so that its oil stays warm; unless you smell, see or hear a danger.")
        )
    steps.append(say("Put a note on it: do not start, service has been called. Keep people away from it."))
    return tuple(steps)


def to_call_back(case: Case, when: datetime, why: str) -> Case:
    """Return the case with the time to call back in its notes."""
    return moves.note(case, f"Call back at {when.astimezone(UTC):%Y-%m-%d %H:%M} UTC: {why}")


def called_back(case: Case) -> Case:
    """Return the case with the next call begun."""
    return moves.note(case, CALLED)


def call_back(case: Case) -> datetime | None:
    """Return when to call back, None where that has been done or was never agreed."""
    for text in reversed(case.notes):
        if text.startswith(CALLED):
            return None
        if found := BACK.match(text):
            return datetime.strptime(found[1], "%Y-%m-%d %H:%M").replace(tzinfo=UTC)
    return None


def waits_on_phone(case: Case, now: datetime) -> str:
    """Return in a few words what a case waits for because of a call, '' for nothing.

    >>> from faultdoc.model.safety import TRIPPED
    >>> case = Case(unit="u", symptoms=("unit_dead",), state=TRIPPED, who=(Qualification.CALLER,))
    >>> noon = datetime(2026, 1, 1, 12, tzinfo=UTC)
    >>> waits_on_phone(to_call_back(case, noon, "oil"), noon)
    'call back now'
    """
    if case.conclusion is not None:
        return ""
    if danger_told(case):
        return say("danger told")
    when = call_back(case)
    if when is None:
        return ""
    return (
        say("call back now") if now >= when else say("call back {astimezone:%H:%M}", astimezone=when.astimezone())
    )


# --- a visit against asking on ---


@dataclass(frozen=True)
class Advice:
    """Asking on against sending somebody, in words.

    Attributes:
        ask, send: one line each.
        verdict: what is advised, and why.
        asking: whether asking on is advised.
    """

    ask: str
    send: str
    verdict: str
    asking: bool


COUNTED = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def advice(found: Weighing, trip: Trip) -> Advice:
    """Return what a look at a visit against asking on comes to, in words."""
    send = say(
        "Send someone now: {minutes} travel, then about {minutes_2} to a proved fix; "
        "{chance} that they bring what it takes.",
        minutes=minutes(trip.travel),
        minutes_2=minutes(found.send - trip.travel),
        chance=chance(found.at_visit),
    )
    if found.next is None:
        ask = say("Asking on: nothing is left that the caller may look at or do.")
        return Advice(ask, send, say("Send someone: nothing is left that the caller may tell."), False)
    ask = say(
        "Asking on: about {minutes} to a proved fix, {minutes_2} of it on the phone; "
        "{chance} that it ends by phone.",
        minutes=minutes(found.ask),
        minutes_2=minutes(found.phone),
        chance=chance(found.by_phone),
    )
    spared = found.send - found.ask
    if spared < WORTH_ASKING:
        why = (
            say("asking on costs as many minutes as it spares")
            if found.loads
            else say("no further question from here changes what to bring")
        )
        return Advice(
            ask, send, say("Send someone: {why}. Ask the rest while they are on their way.", why=why), False
        )
    count = max(1, min(round(found.asked), len(COUNTED) - 1))
    what = say("the next {COUNTED} questions", COUNTED=COUNTED[count]) if count > 1 else say("the next question")
    if found.next.kind == "remedy":
        what = say("what the caller may do")
    return Advice(
        ask,
        send,
        say("Ask on: {what} may save about {minutes} of the visit.", what=what, minutes=minutes(found.saves)),
        True,
    )

"""The head of a hand-over in words: what is seen, how the plant stands, what is dangerous now, what is next."""

from __future__ import annotations

from faultdoc.diagnosis.assess import Assessment
from faultdoc.diagnosis.explain import not_ruled_out
from faultdoc.model.case import Case
from faultdoc.model.safety import (
    Caution,
    Compressors,
    Oil,
    Panel,
    PlantState,
    Pump,
    Refrigerant,
    Signal,
    StateNeed,
    Supply,
    Water,
    satisfies,
)
from faultdoc.record.handover.form import About
from faultdoc.record.words import OUTCOMES, PEOPLE, chance, minutes, state_in_words
from faultdoc.words import say

__all__ = ["about", "dangers"]

HAZARDS: tuple[tuple[StateNeed, Caution], ...] = tuple(
    (need, Caution(signal=signal, text=text))
    for need, signal, text in (
        (
            StateNeed(panel=Panel.OPEN, supply=Supply.ENERGISED),
            Signal.DANGER,
            say(
                "An electrical panel is open with the supply on: live parts can be touched. "
                "Keep everybody else away."
            ),
        ),
        (
            StateNeed(supply=Supply.ISOLATED),
            Signal.DANGER,
            say(
                "The supply is locked out. Locks change hands at the unit, in person, as the "
                "site's lockout procedure says; nobody takes off another's lock. Prove dead "
                "again before you touch anything."
            ),
        ),
        (
            StateNeed(refrigerant=Refrigerant.OPENED),
            Signal.WARNING,
            say("The refrigerant circuit is open. It is not run, and only licensed people work on it."),
        ),
        (
            StateNeed(compressors=Compressors.RUNNING),
            Signal.WARNING,
            say("The compressors run: turning fans, hot lines. Guards stay on."),
        ),
        (
            StateNeed(pump=Pump.RUNNING),
            Signal.WARNING,
            say("The pump runs: its shaft turns and the water side is under pressure. Guards stay on."),
        ),
        (
            StateNeed(water=Water.DEPRESSURISED),
            Signal.CAUTION,
            say(
                "The water side is shut off and let down. See the gauge at zero yourself "
                "before you loosen anything, and fill it before the pump is started."
            ),
        ),
        (
            StateNeed(oil=Oil.COLD),
            Signal.NOTICE,
            say("The compressor oil is cold, or not known to be warm. Never shorten the warm-up."),
        ),
    )
)
"""What a state of the plant means for the one who comes to it, worst first (signal words of ANSI Z535.6).

That locks change hands in an orderly way at a change of people: OSHA 29 CFR 1910.147(f)(4).
"""


def dangers(state: PlantState) -> tuple[Caution, ...]:
    """Return what whoever takes over must know of the plant before going near it, worst first."""
    return tuple(caution for need, caution in HAZARDS if satisfies(state, need))


def about(assessment: Assessment) -> About:
    """Return a case in words, as it stands."""
    bench, case, step = assessment.bench, assessment.case, assessment.next
    stop = (Caution(signal=Signal.DANGER, text=step.text),) if step.stops else ()
    on_the_way = say(" On the way to {toward}.", toward=step.toward) if step.toward else ""
    time = (
        say(" About {minutes}, for: {lower}.", minutes=minutes(step.minutes), lower=PEOPLE[step.who][0].lower())
        if step.minutes
        else ""
    )
    return About(
        unit=bench.sheet.title,
        seen=tuple(f"{tree.title}: {tree.symptom}" for tree in bench.problem.trees),
        plant=tuple(f"{title}: {value}" for title, value in state_in_words(case.state)),
        dangers=(*stop, *dangers(case.state)),
        proved=_proved(assessment, case),
        likely=tuple(f"{one.title}: {chance(one.probability)}" for one in not_ruled_out(assessment)[:5]),
        next=f"{step.text}{on_the_way}{time}",
    )


def _proved(assessment: Assessment, case: Case) -> tuple[str, ...]:
    causes = assessment.bench.problem.causes

    def remedy(cause: str) -> str:
        return causes[cause].remedy.title if cause in causes else cause.replace("_", " ")

    said = [
        say(
            "{remedy}: the proof {what}.",
            remedy=remedy(one.cause),
            what="held" if one.proved else say("did not hold"),
        )
        + (f" {one.note}" if one.note else "")
        for one in case.tried
    ]
    if case.unproved is not None:
        said.append(say("{remedy}: carried out, and NOT proved yet.", remedy=remedy(case.unproved)))
    if case.conclusion is not None:
        title, meaning = OUTCOMES[case.conclusion.outcome]
        said.append(say("The case is closed. {title}: {meaning}", title=title, meaning=meaning))
    return tuple(said)

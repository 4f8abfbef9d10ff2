"""The engine on a trainee's own call: the same live unit, the same prices, the planner's path.

It does what a person would who follows every step the engine proposes. Where the unit does not do what was asked
(it will not start, it trips before a gauge is read), the question counts as one that could not be measured.
"""

from __future__ import annotations

from functools import lru_cache

from faultdoc.diagnosis.assess import Step, assess, setting_up, step_toward
from faultdoc.model.safety import StateNeed, satisfies
from faultdoc.practice.scenario import Scenario
from faultdoc.practice.trainee import Turn
from faultdoc.record import moves

__all__ = ["planned"]

MOST_STEPS = 150
BEFORE_A_START = StateNeed.model_validate(
    {
        "supply": "energised",
        "panel": "closed",
        "pump": "running",
        "water": "pressurised",
        "oil": "warm",
        "refrigerant": "closed",
    }
)


@lru_cache(maxsize=64)
def _planned(text: str, seed: int | None) -> Turn:
    turn = Turn.begin(Scenario.model_validate_json(text), seed)
    for _ in range(MOST_STEPS):
        if turn.finished:
            break
        if turn.case.unproved is not None:
            _prove(turn)
            continue
        look = assess(turn.bench, turn.case)
        step = look.next
        if step.kind == "hand_over" and not step.stops and look.plan.options:
            best = look.plan.options[0]
            step = step_toward(turn.bench, turn.case, best.kind, best.id)
        if step.kind == "hand_over":
            turn.give_up()
        else:
            _taken(turn, step)
    return turn


def planned(scenario: Scenario, seed: int | None = None) -> Turn:
    """Return the call as the engine leads it, on the same hidden unit and instruments; not to be changed.

    Args:
        scenario: what is hidden.
        seed: as the trainee's; the scenario's own otherwise.
    """
    return _planned(scenario.model_dump_json(), seed)


def _taken(turn: Turn, step: Step) -> None:
    """Take one step; where it cannot be taken, write down that its question cannot be answered."""
    if step.kind == "remedy":
        event = turn.mend(step.id)
        if event.kind == "refused":
            turn.give_up()
        return
    if step.kind == "question":
        _ask(turn, step.id)
        return
    asked = step.toward_id if step.toward_id in turn.bench.problem.questions else None
    if turn.used_up(step.id) is not None:
        # What has been reset once is not reset again: go on with what was seen before it stopped.
        done = False
    else:
        event = turn.change(step.id)
        done = event.kind == "change" and event.text.endswith("done.") and _stands(turn, step)
    if not done and asked is not None:
        _ask(turn, asked)
    elif not done:
        turn.give_up()


def _stands(turn: Turn, step: Step) -> bool:
    """Return whether a change still holds when its time is over."""
    change = next(one for one in turn.changes() if one.id == step.id)
    return satisfies(turn.state, change.sets)


def _ask(turn: Turn, id: str) -> None:
    question = turn.bench.problem.questions[id]
    if question.check is None:
        answered = turn.look(id).kind in ("reading", "seen")
    else:
        there, known = set(turn.points()), _read_since_the_last_remedy(turn)
        for point in question.points:
            if point in there and point not in known:
                turn.measure(point)
        answered = any(one.id == question.check for one in assess(turn.bench, turn.case).checks)
    if not answered:
        turn.cannot_tell(id)


def _read_since_the_last_remedy(turn: Turn) -> set[str | None]:
    last = max((place for place, event in enumerate(turn.events) if event.kind == "remedy"), default=-1)
    return {event.point for event in turn.events[last + 1 :] if event.kind == "reading"}


def _prove(turn: Turn) -> None:
    for change in setting_up(turn.bench, turn.case, BEFORE_A_START) or ():
        if turn.used_up(change.id) is None:
            turn.change(change.id)
    if satisfies(turn.state, BEFORE_A_START):
        turn.prove()
    else:
        # It cannot even be started: that is no proof.
        turn.case = moves.proved(turn.case, False)

"""The engine on a trainee's own call: the same live unit, the same prices, the planner's path.

It does what a person would who follows every step the engine proposes. Where the unit does not do what was asked
(it will not start, it trips before a gauge is read), the question counts as one that could not be measured.
"""

from __future__ import annotations

from functools import lru_cache

from faultdoc.diagnosis.assess import Step, assess, setting_up, step_toward
from faultdoc.model.safety import StateNeed
from faultdoc.practice.scenario import Scenario
from faultdoc.practice.trainee import Event, Turn

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
def _planned(text: str, seed: int) -> Turn:
    turn = Turn.begin(Scenario.model_validate_json(text), seed)
    for _ in range(MOST_STEPS):
        if turn.finished:
            break
        look = assess(turn.bench, turn.case)
        step = look.next
        if step.kind == "hand_over" and not step.stops and look.plan.options:
            best = look.plan.options[0]
            step = step_toward(turn.bench, turn.case, best.kind, best.id)
        if step.kind == "hand_over":
            turn.give_up()
        elif step.kind in ("proof", "done"):
            _prove(turn)
        else:
            _taken(turn, step)
    return turn


def planned(scenario: Scenario, seed: int) -> Turn:
    """Return the call as the engine leads it, on the same hidden unit with the same instruments; not to be changed.

    Args:
        scenario: what is hidden.
        seed: as the trainee's.
    """
    return _planned(scenario.model_dump_json(), seed)


def _taken(turn: Turn, step: Step) -> None:
    """Take one step; where it cannot be taken, write down that its question cannot be answered."""
    if step.kind == "remedy":
        turn.mend(step.id)
        return
    if step.kind == "question":
        _ask(turn, step.id)
        return
    event = turn.change(step.id)
    question = step.toward_id if step.toward_id in turn.bench.problem.questions else None
    failed = event.kind != "change" or not event.text.endswith("done.")
    if question is not None and (failed or (step.id.startswith("start_") and not _stands(turn, step))):
        _ask(turn, question)
    elif failed and step.toward_id in turn.bench.problem.causes:
        # The remedy is not to be had in that state: carry on without.
        turn.mend(str(step.toward_id))


def _stands(turn: Turn, step: Step) -> bool:
    change = next(one for one in turn.changes() if one.id == step.id)
    return all(getattr(turn.state, name) == value for name, value in change.sets.model_dump(exclude_none=True).items())


def _ask(turn: Turn, id: str) -> None:
    question = turn.bench.problem.questions[id]
    events: list[Event] = []
    if question.check is None:
        events.append(turn.look(id))
    else:
        there = set(turn.points())
        events += [turn.measure(point) for point in question.points if point in there]
    look = assess(turn.bench, turn.case)
    answered = id in turn.case.answers or any(one.id == question.check for one in look.checks)
    if question.check is None:
        answered = any(event.kind in ("reading", "seen") for event in events)
    if not answered:
        turn.cannot_tell(id)


def _prove(turn: Turn) -> None:
    for change in setting_up(turn.bench, turn.case, BEFORE_A_START) or ():
        turn.change(change.id)
    event = turn.prove()
    if event.kind == "refused" and turn.case.unproved is not None:
        # It could not even be started: that is no proof.
        from faultdoc.record import moves

        turn.case = moves.proved(turn.case, False)

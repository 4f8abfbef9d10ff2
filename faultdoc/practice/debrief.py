"""After the call: the trainee's path beside the planner's, what each reading meant, a score and its reasons."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from faultdoc.diagnosis.assess import Assessment, Bench, assess, choice_point
from faultdoc.diagnosis.planner import TELLING
from faultdoc.library.vocabulary import usual_limit
from faultdoc.model.case import Case
from faultdoc.model.points import Point
from faultdoc.model.safety import TRIPPED, PlantState
from faultdoc.practice.expert import planned
from faultdoc.practice.scenario import LEVELS, Scenario, site_of
from faultdoc.practice.trainee import Event, Turn
from faultdoc.quantities import Kind, System, show
from faultdoc.simulator.unit import SimulatedUnit
from faultdoc.words import say

__all__ = ["Compared", "Debrief", "Meant", "debrief", "event_bits", "sheet_text"]

UNSOLVED, UNSAFE, WRONG_FIX, HINT, NOTHING, SLOW = 60, 15, 8, 4, 2, 20
"""Points lost: for a call not solved, for each unsafe act, wrong fix, hint and test that told nothing, and at most
for minutes over what it had to take."""
MOST_UNSAFE, MOST_WRONG, MOST_HINTS, MOST_NOTHING = 45, 32, 20, 10
SIDE_BY_SIDE = 12
"""Measuring points shown at fault and at health."""
MOVED = 0.05
"""Change of a cause's probability that is worth telling."""
RUNNING = TRIPPED.model_copy(
    update=PlantState.model_validate(
        {**TRIPPED.model_dump(), "pump": "running", "compressors": "running"}
    ).model_dump()
)


@dataclass(frozen=True)
class Meant:
    """What one reading or look meant.

    Attributes:
        text: what was found.
        meaning: the check's sentence, and what it did to the causes.
        bits: what it could be expected to tell before it was taken.
        minutes: what it cost.
    """

    text: str
    meaning: str
    bits: float
    minutes: float

    @property
    def told_nothing(self) -> bool:
        """True where the planner would not have asked for its own sake."""
        return self.bits < TELLING


@dataclass(frozen=True)
class Compared:
    """A measuring point on the unit as it was found, and as it is in health, both running.

    Attributes:
        title, kind: of the point.
        at_fault, healthy: SI values, or choices in words; None where there is nothing to read.
    """

    title: str
    at_fault: float | str | None
    healthy: float | str | None
    kind: Kind

    def words(self, system: System) -> tuple[str, str]:
        """Return both as they are shown, at fault and in health."""

        def shown(value: float | str | None) -> str:
            if value is None:
                return say("nothing to read")
            return value if isinstance(value, str) else show(value, self.kind, system)

        return shown(self.at_fault), shown(self.healthy)


@dataclass(frozen=True)
class Debrief:
    """A call looked back on.

    Attributes:
        scenario: what was hidden.
        causes: it in words.
        solved: whether a fix was proved.
        stopped_rightly: whether it was handed over because an answer told of danger.
        minutes: spent; `par` the scenario's; `planner_minutes` the planner's on the same unit.
        planner_solved: whether the planner's path ended in a proved fix.
        path, planner_path: what happened, in order.
        meant: of every reading and look.
        unsafe: acts that were refused.
        wrong_fixes: remedies for what was not there.
        hints: how many.
        score: 0 to 100; `parts` says what it is made of.
        physics: at fault and at health, side by side.
    """

    scenario: Scenario
    causes: tuple[str, ...]
    solved: bool
    stopped_rightly: bool
    minutes: float
    par: float
    planner_minutes: float
    planner_solved: bool
    path: tuple[Event, ...]
    planner_path: tuple[Event, ...]
    meant: tuple[Meant, ...]
    unsafe: tuple[Event, ...]
    wrong_fixes: tuple[Event, ...]
    hints: int
    score: int
    parts: tuple[tuple[str, int], ...]
    physics: tuple[Compared, ...]

    @property
    def ending(self) -> str:
        """How it ended, in words."""
        if self.stopped_rightly:
            return say("Stopped and handed over, as it had to be")
        return say("Solved: the fix was proved") if self.solved else say("Not solved")

    @property
    def told_nothing(self) -> tuple[Meant, ...]:
        """Tests that told nothing: less than the planner asks of a question."""
        return tuple(one for one in self.meant if one.told_nothing)


def debrief(turn: Turn) -> Debrief:
    """Return a call looked back on; it need not be over."""
    plan = planned(turn.scenario, turn.seed)
    unsafe = tuple(event for event in turn.events if not event.safe)
    wrong = tuple(_wrong_fixes(turn))
    hints = sum(event.kind == "hint" for event in turn.events)
    meant = tuple(_meant(turn))
    rightly = turn.stop is not None and turn.finished and not turn.solved
    due = max(turn.scenario.minutes, plan.minutes if plan.solved else 0.0)
    parts = list(
        _parts(turn, rightly, due, len(unsafe), len(wrong), hints, sum(one.told_nothing for one in meant))
    )
    return Debrief(
        scenario=turn.scenario,
        causes=tuple(turn.library.causes[id].title for id in turn.scenario.faults),
        solved=turn.solved,
        stopped_rightly=rightly,
        minutes=turn.minutes,
        par=turn.scenario.minutes,
        planner_minutes=plan.minutes,
        planner_solved=plan.solved,
        path=tuple(turn.events),
        planner_path=tuple(plan.events),
        meant=meant,
        unsafe=unsafe,
        wrong_fixes=wrong,
        hints=hints,
        score=max(100 + sum(points for _, points in parts), 0),
        parts=tuple(parts),
        physics=side_by_side(turn),
    )


def _parts(
    turn: Turn, rightly: bool, due: float, unsafe: int, wrong: int, hints: int, nothing: int
) -> Iterator[tuple[str, int]]:
    """Yield what the score loses, and why."""
    if not turn.solved and not rightly:
        yield say("No fix was proved"), -UNSOLVED
    if unsafe:
        yield say("Unsafe acts: {unsafe}", unsafe=unsafe), -min(UNSAFE * unsafe, MOST_UNSAFE)
    if wrong:
        yield say("Wrong fixes: {wrong}", wrong=wrong), -min(WRONG_FIX * wrong, MOST_WRONG)
    if hints:
        yield say("Hints: {hints}", hints=hints), -min(HINT * hints, MOST_HINTS)
    if nothing:
        yield say("Tests that told nothing: {nothing}", nothing=nothing), -min(NOTHING * nothing, MOST_NOTHING)
    over = turn.minutes / due - 1.0 if due > 0.0 else 0.0
    if over > 0.0 and (late := round(min(over, 1.0) * SLOW)):
        yield say("Took {minutes:.0f} min where {due:.0f} min would do", minutes=turn.minutes, due=due), -late


def _wrong_fixes(turn: Turn) -> Iterator[Event]:
    left = set(turn.scenario.faults)
    for event in turn.events:
        if event.kind != "remedy":
            continue
        found = left & turn.bench.problem.alike(event.id)
        left -= found
        if not found:
            yield event


# --- what each reading meant ---


def event_bits(bench: Bench, before: Assessment, event: Event) -> float:
    """Return the bits that the planner expected of a reading or look before it was taken; 0 where it asks no such.

    Args:
        bench: of the call.
        before: the look at the case before the event.
        event: a reading or look.
    """
    asked = set(_asked_by(bench, event))
    return max(
        (one.bits for one in before.plan.options if one.kind == "question" and one.id in asked), default=0.0
    )


def _asked_by(bench: Bench, event: Event) -> Iterator[str]:
    if event.kind == "seen":
        yield event.id
    for id, question in bench.problem.questions.items():
        if event.point is not None and (
            event.point in question.points or choice_point(question, bench) == event.point
        ):
            yield id


def _meant(turn: Turn) -> Iterator[Meant]:
    looks: dict[int, Assessment] = {}

    def look(case: Case) -> Assessment:
        # The cases live as long as the turn, so what they are known by stays theirs.
        if id(case) not in looks:
            looks[id(case)] = assess(turn.bench, case)
        return looks[id(case)]

    cases = [*turn.before, turn.case]
    for place, event in enumerate(turn.events):
        if event.kind not in ("reading", "seen"):
            continue
        then, now = look(turn.before[place]), look(cases[place + 1])
        yield Meant(
            event.text, _meaning(turn, event, then, now), event_bits(turn.bench, then, event), event.minutes
        )


def _meaning(turn: Turn, event: Event, then: Assessment, now: Assessment) -> str:
    known = {one.id: one for one in then.checks}
    made = [one for one in now.checks if event.point in one.points and known.get(one.id) != one]
    words = [one.sentence(turn.system) for one in made]
    moved = now.belief.marginal - then.belief.marginal
    up = int(moved.argmax())
    if moved[up] >= MOVED:
        title = turn.bench.problem.causes[now.belief.sets.causes[up]].title
        chances = then.belief.marginal[up], now.belief.marginal[up]
        words.append(
            say(
                "It makes this likelier: {title} ({what:.0f} to {what_2:.0f} %).",
                title=title,
                what=100 * chances[0],
                what_2=100 * chances[1],
            )
        )
    elif moved.min() <= -MOVED:
        down = int(moved.argmin())
        words.append(
            say("It speaks against: {title}.", title=turn.bench.problem.causes[now.belief.sets.causes[down]].title)
        )
    elif not made:
        words.append(say("It changed little by itself."))
    return " ".join(words)


# --- at fault and at health ---


def side_by_side(turn: Turn) -> tuple[Compared, ...]:
    """Return the measuring points that the hidden faults move most, at fault and at health, the unit running."""
    site = site_of(turn.scenario, turn.sheet)
    ill = SimulatedUnit(turn.sheet, site, dict(turn.scenario.faults)).truths(RUNNING)
    well = SimulatedUnit(turn.sheet, site, {}).truths(RUNNING)
    moved = []
    for id in sorted(set(ill) | set(well)):
        point = turn.library.points[id]
        far = _apart(point, ill.get(id), well.get(id))
        if far >= 1.0:
            moved.append((far, id))
    moved.sort(key=lambda pair: (-pair[0], pair[1]))
    return tuple(
        Compared(
            turn.library.points[id].title,
            _in_words(turn.library.points[id], ill.get(id)),
            _in_words(turn.library.points[id], well.get(id)),
            turn.library.points[id].kind,
        )
        for _, id in moved[:SIDE_BY_SIDE]
    )


def _apart(point: Point, one: float | str | None, two: float | str | None) -> float:
    """Return how far two values are from each other, in limits of error of the usual instrument."""
    if one == two:
        return 0.0
    if isinstance(one, float) and isinstance(two, float):
        return abs(one - two) / max(usual_limit(point, two), 1e-12)
    return 5.0 if isinstance(one, str) or isinstance(two, str) else 2.0


def _in_words(point: Point, value: float | str | None) -> float | str | None:
    if isinstance(value, str):
        return next((choice.title for choice in point.choices if choice.id == value), value)
    return value


# --- on paper ---


def sheet_text(found: Debrief, system: System = System.US, trainee: str = "") -> str:
    """Return a result sheet to print.

    Args:
        found: the debrief.
        system: units.
        trainee: name on the sheet; left out where empty.
    """
    scenario = found.scenario
    lines = [
        say("RESULT SHEET"),
        *([say("Trainee: {trainee}", trainee=trainee)] if trainee else []),
        say(
            "Scenario: {title} ({id}), level {level}: {LEVELS}",
            title=scenario.title,
            id=scenario.id,
            level=scenario.level,
            LEVELS=LEVELS[scenario.level],
        ),
        say("What it was: {join}", join="; ".join(found.causes)),
        say("It teaches: {teaches}", teaches=scenario.teaches),
        say(
            "{ending}, in {minutes:.0f} min. Par is {par:.0f} min; the planner took "
            "{planner_minutes:.0f} min on the same unit.",
            ending=found.ending,
            minutes=found.minutes,
            par=found.par,
            planner_minutes=found.planner_minutes,
        ),
        say("Score: {score} of 100", score=found.score),
        *(f"  {points:+d}  {words}" for words, points in found.parts),
        "",
        "SAFETY",
        *(_unsafe_lines(found) or [say("  No unsafe act.")]),
        "",
        say("YOUR PATH"),
        *_path_lines(found.path),
        "",
        say("THE PLANNER'S PATH ON THE SAME UNIT"),
        *_path_lines(found.planner_path),
        "",
        say("WHAT EACH READING MEANT"),
        *([line for one in found.meant for line in _meant_lines(one)] or [say("  Nothing was read.")]),
        "",
        say("WRONG FIXES"),
        *(
            [
                say("  {what} ({minutes:.0f} min)", what=event.text, minutes=event.minutes)
                for event in found.wrong_fixes
            ]
            or [say("  None.")]
        ),
        "",
        say("AT FAULT AND AT HEALTH, THE UNIT CALLED TO RUN"),
        *([_compared_line(one, system) for one in found.physics] or [say("  No gauge would show it.")]),
    ]
    return "\n".join(lines)


def _unsafe_lines(found: Debrief) -> list[str]:
    return [say("  Refused: {what} {what_2}", what=event.text, what_2=event.why or "") for event in found.unsafe]


def _path_lines(path: tuple[Event, ...]) -> list[str]:
    return [f"  {event.time / 60.0:5.0f} min  {event.text}" for event in path] or [say("  Nothing was done.")]


def _meant_lines(one: Meant) -> list[str]:
    nothing = say(" TOLD NOTHING.") if one.told_nothing else ""
    return [
        f"  {one.text}",
        say(
            "      {meaning}{nothing} ({bits:.2f} bits expected, {minutes:.0f} min)",
            meaning=one.meaning,
            nothing=nothing,
            bits=one.bits,
            minutes=one.minutes,
        ),
    ]


def _compared_line(one: Compared, system: System) -> str:
    at_fault, healthy = one.words(system)
    return say("  {title}: {at_fault}; healthy {healthy}", title=one.title, at_fault=at_fault, healthy=healthy)

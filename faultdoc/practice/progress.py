"""What a trainee has done so far, kept in their own file, and which scenario comes next: one for what was weak."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Annotated

from pydantic import Field, ValidationError

from faultdoc.library.places import data_home
from faultdoc.library.whole import write_whole
from faultdoc.model.base import Id, Minutes, Model, Text
from faultdoc.practice.debrief import Debrief
from faultdoc.practice.scenario import LEVELS, Scenario, bench_of
from faultdoc.words import say

__all__ = [
    "MISTAKES",
    "Progress",
    "ProgressError",
    "Result",
    "load_progress",
    "next_scenario",
    "progress_path",
    "result_of",
    "save_progress",
    "weak_points",
]

MISTAKES: Mapping[str, str] = {
    "unsafe": say("unsafe acts"),
    "wrong_fix": say("wrong fixes"),
    "told_nothing": say("tests that told nothing"),
    "hints": say("hints asked for"),
    "slow": "minutes",
    "unsolved": say("calls not solved"),
}
"""Kinds of mistake, and their words."""

LARGEST = 5_000_000
"""Bytes of a trainee's progress: some ten thousand calls."""
PASSED = 70
"""Score from which a call counts as mastered."""
ENOUGH = 3
"""Calls mastered at a level, of the last ones played there, after which the next level is offered."""
UNKNOWN = 65.0
"""Score expected where nothing is known: what is new comes before what went well, after what went badly."""
RECENT = 3
"""Calls last played that are not offered again at once."""
MUCH_OVER = 1.25


class ProgressError(Exception):
    """The progress cannot be read or written; the message says why and what helps."""


class Result(Model):
    """How one call went."""

    scenario: Id
    level: Annotated[int, Field(ge=1, le=3)]
    tree: Id
    systems: tuple[Text, ...] = Field(strict=False)
    solved: bool
    score: Annotated[int, Field(ge=0, le=100)]
    minutes: Annotated[float, Field(ge=0.0, le=1e6)]
    par: Minutes
    mistakes: dict[Id, Annotated[int, Field(ge=0, le=100_000)]] = Field(default_factory=dict, max_length=50)


class Progress(Model):
    """All calls of a trainee, in the order in which they were played."""

    trainee: Text
    results: tuple[Result, ...] = Field(default=(), strict=False)

    def with_result(self, result: Result) -> Progress:
        """Return the progress with one more call."""
        return self.model_copy(update={"results": (*self.results, result)})


def result_of(found: Debrief) -> Result:
    """Return what is kept of a call."""
    scenario = found.scenario
    mistakes = {
        "unsafe": len(found.unsafe),
        "wrong_fix": len(found.wrong_fixes),
        "told_nothing": len(found.told_nothing),
        "hints": found.hints,
        "slow": int(found.minutes > MUCH_OVER * max(found.par, found.planner_minutes)),
        "unsolved": int(not found.solved and not found.stopped_rightly),
    }
    return Result(
        scenario=scenario.id,
        level=scenario.level,
        tree=scenario.tree,
        systems=_systems(scenario),
        solved=found.solved,
        score=found.score,
        minutes=found.minutes,
        par=scenario.minutes,
        mistakes={kind: count for kind, count in mistakes.items() if count},
    )


def _systems(scenario: Scenario) -> tuple[str, ...]:
    causes = bench_of(scenario.unit, scenario.tree).library.causes
    return tuple(sorted({causes[id].system.value for id in scenario.faults}))


# --- kept ---


def progress_path(trainee: str) -> Path:
    """Return the file of a trainee's progress; it need not exist yet.

    Raises:
        ProgressError: for a name without a letter or digit.
    """
    slug = re.sub(r"[^\w]+", "_", trainee.casefold()).strip("_")
    if not slug:
        raise ProgressError(f"'{trainee}' has no letter or digit; type a name")
    return data_home() / "practice" / f"{slug[:60]}.json"


def load_progress(trainee: str) -> Progress:
    """Return a trainee's progress, empty where there is none yet.

    Raises:
        ProgressError: when the file cannot be read or understood, or the name is none.
    """
    path = progress_path(trainee)
    try:
        with path.open("rb") as stream:
            return Progress.model_validate_json(stream.read(LARGEST))
    except FileNotFoundError:
        return Progress(trainee=trainee.strip())
    except OSError as problem:
        raise ProgressError(f"{path} cannot be read: {problem.strerror}; check its rights") from None
    except ValidationError as problem:
        first = problem.errors()[0]
        where = ".".join(str(part) for part in first["loc"])
        raise ProgressError(
            f"{path} cannot be understood ({where}: {first['msg']}); rename it to begin anew"
        ) from None


def save_progress(progress: Progress) -> Path:
    """Keep a trainee's progress, whole or not at all; return its file.

    Raises:
        ProgressError: when the folder cannot be written.
    """
    path = progress_path(progress.trainee)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole(progress.model_dump_json(indent=2) + "\n", path)
    except OSError as problem:
        raise ProgressError(f"{path} cannot be written: {problem.strerror}") from None
    return path


# --- what is weak, and what comes next ---


def weak_points(progress: Progress) -> tuple[str, ...]:
    """Return in words what has gone badly so far, worst first; empty where nothing has."""
    told = [
        (say("{replace} ({score:.0f} of 100)", replace=name.replace("_", " "), score=score), score)
        for kind in ("tree", "system")
        for name, score in _means(progress, kind).items()
        if score < PASSED
    ]
    told.sort(key=lambda pair: pair[1])
    often = _mistakes(progress).most_common(3)
    return (*(words for words, _ in told), *(f"{MISTAKES[kind]}: {count}" for kind, count in often))


def next_scenario(progress: Progress, scenarios: Iterable[Scenario]) -> Scenario:
    """Return the scenario that fits best what was weak: lowest score expected, at the level that is due.

    The score expected of a scenario is the mean over its tree and its systems so far, less what it would
    practise of the mistakes made: unsafe acts are practised where work needs the supply isolated or panels
    open, wrong fixes where there are many causes to choose from. What was just played waits; what was mastered
    comes last.

    Raises:
        ValueError: when there are no scenarios.
    """
    known = list(scenarios)
    if not known:
        raise ValueError("there are no scenarios to choose from")
    level = _level(progress)
    pool = [one for one in known if one.level == level] or known
    recent = {one.scenario for one in progress.results[-RECENT:]}
    fresh = [one for one in pool if one.id not in recent] or pool
    last = {one.scenario: one.score for one in progress.results}
    trees, systems, mistakes = _means(progress, "tree"), _means(progress, "system"), _mistakes(progress)

    def expected(one: Scenario) -> tuple[bool, float, str]:
        scores = [trees.get(one.tree, UNKNOWN), *(systems.get(name, UNKNOWN) for name in _systems(one))]
        score = sum(scores) / len(scores)
        causes = bench_of(one.unit, one.tree).problem.causes
        needs = [causes[id].remedy.state for id in one.faults]
        if mistakes["unsafe"] and any(need.supply == "isolated" or need.panel == "open" for need in needs):
            score -= 5.0
        if mistakes["wrong_fix"] and len(causes) > 25:
            score -= 3.0
        return last.get(one.id, 0) >= PASSED, score, one.id

    return min(fresh, key=expected)


def _level(progress: Progress) -> int:
    """Return the level that is due: the next one after enough calls mastered at one."""
    level = 1
    for one in sorted(LEVELS)[:-1]:
        here = [result for result in progress.results if result.level >= one][-2 * ENOUGH :]
        if level == one and sum(result.score >= PASSED for result in here) >= ENOUGH:
            level = one + 1
    return level


def _means(progress: Progress, kind: str) -> dict[str, float]:
    """Return the mean score by tree or by system; later calls count for more."""
    sums: dict[str, tuple[float, float]] = {}
    for weight, result in enumerate(progress.results, start=1):
        for name in (result.tree,) if kind == "tree" else result.systems:
            total, weights = sums.get(name, (0.0, 0.0))
            sums[name] = total + weight * result.score, weights + weight
    return {name: total / weights for name, (total, weights) in sums.items()}


def _mistakes(progress: Progress) -> Counter[str]:
    counted: Counter[str] = Counter()
    for result in progress.results[-2 * ENOUGH :]:
        counted.update({kind: count for kind, count in result.mistakes.items() if kind in MISTAKES})
    return counted

"""What there is to practise on, and how a person has done so far. No Qt here: it is read beside the window."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.practice.debrief import Debrief
    from faultdoc.practice.progress import Result
    from faultdoc.practice.scenario import Scenario

__all__ = ["Offer", "Offered", "keep", "offered"]

MOST_WEAK = 3


@dataclass(frozen=True)
class Offered:
    """A scenario to choose.

    Attributes:
        scenario: itself.
        unit: its unit's title.
        result: how it went so far, in words; empty where it was never done.
    """

    scenario: Scenario
    unit: str
    result: str = ""


@dataclass(frozen=True)
class Offer:
    """All scenarios, easier ones first.

    Attributes:
        levels: by number, what a level is.
        scenarios: to choose from.
        next: the id of the one that suits this person next.
        so_far: how this person has done, in a line; empty for someone new.
        problem: why what was done before is not known; empty where it is.
    """

    levels: dict[int, str]
    scenarios: tuple[Offered, ...]
    next: str | None = None
    so_far: str = ""
    problem: str = ""


def offered(name: str) -> Offer:
    """Read what there is to practise on, and how a person has done so far.

    Args:
        name: of the person; empty where they gave none.

    Raises:
        FileProblems: with every mistake in every file of scenarios.
    """
    from faultdoc.library.load import load_units
    from faultdoc.practice.progress import Progress, ProgressError, load_progress, next_scenario, weak_points
    from faultdoc.practice.scenario import LEVELS, load_scenarios

    scenarios, problem = load_scenarios(), ""
    progress = Progress(trainee=name or "nobody")
    if name:
        try:
            progress = load_progress(name)
        except ProgressError as found:
            problem = str(found)
    sheets, _ = load_units()
    made = []
    for id, one in scenarios.items():
        results = [result for result in progress.results if result.scenario == id]
        unit = sheets[one.unit].title if one.unit in sheets else one.unit
        made.append(Offered(one, unit, _words(results)))
    weak = "; ".join(weak_points(progress)[:MOST_WEAK])
    calls = len(progress.results)
    so_far = say("{calls} call{what} so far.", calls=calls, what="" if calls == 1 else "s") + (
        say(" Weak: {weak}.", weak=weak) if weak else ""
    )
    return Offer(
        levels=dict(LEVELS),
        scenarios=tuple(made),
        next=next_scenario(progress, scenarios.values()).id if scenarios else None,
        so_far=so_far if calls else "",
        problem=problem,
    )


def keep(name: str, found: Debrief) -> None:
    """Keep how a practice went, under a person's name.

    Raises:
        ProgressError: when it cannot be kept.
    """
    from faultdoc.practice.progress import load_progress, result_of, save_progress

    save_progress(load_progress(name).with_result(result_of(found)))


def _words(results: list[Result]) -> str:
    """Return how a scenario went so far."""
    if not results:
        return ""
    best = max(result.score for result in results)
    often = say(" {len} times", len=len(results)) if len(results) > 1 else ""
    solved = any(result.solved for result in results)
    return say(
        "{what}, played{often}: best {best} points of 100",
        what=say("Solved") if solved else say("Not solved"),
        often=often,
        best=best,
    )

"""What there is to practise on, and how a person has done so far. No Qt here: it is read beside the window."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from faultdoc.practice.scenario import Scenario

__all__ = ["Offer", "Offered", "offered"]


@dataclass(frozen=True)
class Offered:
    """A scenario to choose.

    Attributes:
        scenario: itself.
        unit: its unit's title.
        result: how it went so far, in words; empty where it was never done.
        done: whether it has been solved.
    """

    scenario: Scenario
    unit: str
    result: str = ""
    done: bool = False


@dataclass(frozen=True)
class Offer:
    """All scenarios, easier ones first.

    Attributes:
        levels: by number, what a level is.
        scenarios: to choose from.
        next: the id of the one that suits this person next.
        why: it does.
    """

    levels: dict[int, str]
    scenarios: tuple[Offered, ...]
    next: str | None = None
    why: str = ""


def offered(name: str) -> Offer:
    """Read what there is to practise on.

    Args:
        name: of the person; empty where they gave none.

    Raises:
        FileProblems: with every mistake in every file.
    """
    from faultdoc.library.load import load_units
    from faultdoc.practice.scenario import LEVELS, load_scenarios

    sheets, _ = load_units()
    made = [
        Offered(one, sheets[one.unit].title if one.unit in sheets else one.unit)
        for one in load_scenarios().values()
    ]
    return Offer(dict(LEVELS), tuple(made))

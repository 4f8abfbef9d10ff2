"""The result sheet of a practice on paper: one page of HTML that a browser and Qt's text document both show."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from faultdoc import __version__
from faultdoc.practice.scenario import LEVELS
from faultdoc.quantities import System
from faultdoc.record.template import template
from faultdoc.record.words import minutes

if TYPE_CHECKING:
    from faultdoc.practice.debrief import Debrief
    from faultdoc.practice.trainee import Event

__all__ = ["sheet_html"]


def sheet_html(
    found: Debrief, system: System = System.US, trainee: str = "", made_at: datetime | None = None
) -> str:
    """Return the result sheet of a practice as one HTML document.

    Args:
        found: the debrief.
        system: units.
        trainee: name on the sheet; a line to write on where it is empty.
        made_at: when; now if left out.
    """
    return template("practice.html.j2").render(
        found=found,
        trainee=trainee,
        end=found.ending,
        level=LEVELS[found.scenario.level],
        made_at=(made_at or datetime.now(UTC)).astimezone().strftime("%Y-%m-%d %H:%M"),
        version=__version__,
        minutes=minutes,
        path=_lines(found.path),
        planner_path=_lines(found.planner_path),
        physics=[(one.title, *one.words(system)) for one in found.physics],
    )


def _lines(path: Sequence[Event]) -> list[tuple[str, str]]:
    return [(f"{event.time / 60.0:.0f} min", event.text) for event in path]

"""The result sheet of a practice on paper: one page of HTML that a browser and Qt's text document both show."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from functools import cache
from typing import TYPE_CHECKING

from faultdoc import __version__
from faultdoc.library.places import resources_folder
from faultdoc.practice.scenario import LEVELS
from faultdoc.quantities import System, show
from faultdoc.record.words import minutes

if TYPE_CHECKING:
    from jinja2 import Template

    from faultdoc.practice.debrief import Compared, Debrief
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
    end = "Solved: the fix was proved" if found.solved else "Not solved"
    if found.stopped_rightly:
        end = "Stopped and handed over, as it had to be"
    return _template().render(
        found=found,
        trainee=trainee,
        end=end,
        level=LEVELS[found.scenario.level],
        made_at=(made_at or datetime.now(UTC)).astimezone().strftime("%Y-%m-%d %H:%M"),
        version=__version__,
        minutes=minutes,
        path=_lines(found.path),
        planner_path=_lines(found.planner_path),
        physics=[
            (one.title, _value(one, one.at_fault, system), _value(one, one.healthy, system))
            for one in found.physics
        ],
    )


def _lines(path: Sequence[Event]) -> list[tuple[str, str]]:
    return [(f"{event.time / 60.0:.0f} min", event.text) for event in path]


def _value(one: Compared, value: float | str | None, system: System) -> str:
    if value is None:
        return "nothing to read"
    return value if isinstance(value, str) else show(value, one.kind, system)


@cache
def _template() -> Template:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(resources_folder() / "report"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    return environment.get_template("practice.html.j2")

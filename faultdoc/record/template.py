"""The templates of what is printed."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from faultdoc.library.places import resources_folder

if TYPE_CHECKING:
    from jinja2 import Template

__all__ = ["template"]


@cache
def template(name: str) -> Template:
    """Return a template of `resources/report/`, in which what is filled in is escaped and nothing may lack."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(resources_folder() / "report"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    return environment.get_template(name)

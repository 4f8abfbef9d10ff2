"""The templates of what is printed."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from faultdoc.library.places import resources_folder
from faultdoc.record.words import SIGNAL_WORDS
from faultdoc.words import say

if TYPE_CHECKING:
    from jinja2 import Template

__all__ = ["template"]


@cache
def template(name: str) -> Template:
    """Return a template of `resources/report/`, in which what is filled in is escaped and nothing may lack."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    environment = Environment(
        loader=FileSystemLoader(resources_folder() / "report"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    # These texts are ours, signs of HTML in them included.
    environment.globals.update(say=lambda text: Markup(say(text)), signal_words=SIGNAL_WORDS)
    return environment.get_template(name)

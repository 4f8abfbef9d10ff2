"""The one way by which words for people are said: in English, or in the language that was chosen for this process.

What looks a text up is set from outside (the window's translator), as nothing below the window knows of Qt. Until
then, and for texts that a language lacks, the English stands. Words at the top of a module are said when it is
imported, so the language is chosen first and holds for the whole process.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

__all__ = ["language", "say", "use"]

_language = "en"
_look_up: Callable[[str], str] = str
_found: dict[str, str] = {}


def use(chosen: str, look_up: Callable[[str], str]) -> None:
    """Say everything from now on in the language `chosen`; `look_up` gives the text for an English one."""
    global _language, _look_up
    _language, _look_up = chosen, look_up
    _found.clear()


def language() -> str:
    """Return the language in use, such as "en"."""
    return _language


def say(english: str, /, **values: Any) -> str:
    """Return a text in the language in use, with its values put in by name.

    Args:
        english: the text; where there are values, with their names in braces as `str.format` takes them.
        values: what stands for the names.

    >>> say("{minutes} left of {whole}", minutes="5 min", whole="8 h")
    '5 min left of 8 h'
    """
    text = _found.get(english)
    if text is None:
        text = _found[english] = _look_up(english)
    return text.format(**values) if values else text

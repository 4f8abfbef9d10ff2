"""How a mistake in a file is told: where it is, what was found, what is allowed, and what to do."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from faultdoc.plain import plain

__all__ = ["MOST_PROBLEMS", "FileProblems", "Problem", "as_found", "choose", "listed"]


MOST_PROBLEMS = 100
"""Mistakes told at once: who has more mends these first."""
LONGEST_PART = 1500
"""Characters of one part of a message."""
LONGEST_NAME = 100
"""Characters of a name for which a close spelling is looked for."""


@dataclass(frozen=True, order=True)
class Problem:
    """One mistake in a file.

    Attributes:
        file: its name, as messages give it.
        line, column: counted from 1; 0 when the file as a whole is meant.
        key: where in the file, such as `causes[3] (strainer_clogged).remedy.minutes`; '' for the file.
        found: what stands there.
        allowed: what may stand there; '' when `found` says it all.
        remedy: what to do.
    """

    file: str
    line: int
    column: int
    key: str
    found: str
    allowed: str
    remedy: str

    def __str__(self) -> str:
        """Return the mistake on one line of what prints, whatever is in a file or its name."""
        place = f"{self.file}:{self.line}:{self.column}" if self.line else self.file
        said = [f"found {self.found}", f"allowed: {self.allowed}" if self.allowed else "", self.remedy]
        words = "; ".join(_cut(part) for part in said if part)
        return plain(" ".join(f"{place}: {_cut(self.key) + ': ' if self.key else ''}{words}".split()))


class FileProblems(ValueError):  # noqa: N818 - it holds problems, one or many
    """Everything that is wrong with a file (or with several), in the order of the lines.

    Attributes:
        problems: at least one.
    """

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(sorted(set(problems)))
        told = [str(problem) for problem in self.problems[:MOST_PROBLEMS]]
        if len(self.problems) > MOST_PROBLEMS:
            told.append(f"and {len(self.problems) - MOST_PROBLEMS} more: mend these first")
        super().__init__("\n".join(told))


def _cut(text: str) -> str:
    """Return a text that a message can hold."""
    return text if len(text) <= LONGEST_PART else f"{text[:LONGEST_PART]}..."


def as_found(value: Any) -> str:
    """Return a value from a file as a message names it.

    >>> as_found("ten"), as_found(None), as_found([1, 2]), as_found({"a": 1})
    ("'ten'", 'nothing', 'a list of 2', 'a map with the key a')
    """
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f"'{value}'" if len(value) <= 60 else f"'{value[:57]}...'"
    if isinstance(value, (list, tuple)):
        return f"a list of {len(value)}"
    if isinstance(value, dict):
        if not value:
            return "an empty map"
        return f"a map with the key{'s' if len(value) > 1 else ''} {listed(map(str, value), at_most=6)}"
    return repr(value)


def listed(names: Iterable[str], *, at_most: int = 40) -> str:
    """Return names as a list in words, cut when there are too many to read."""
    known = list(names)
    left = len(known) - at_most
    return ", ".join(known[:at_most]) + (f" and {left} more" if left > 0 else "")


def choose(found: str, known: Iterable[str], *, otherwise: str = "write one of these") -> str:
    """Return a remedy for a name that is not known: the close spellings among those that are.

    >>> choose("minuts", ["minutes", "state", "who"])
    "did you mean 'minutes'?"
    """
    if len(found) > LONGEST_NAME:
        return otherwise
    close = get_close_matches(found, list(known), n=3, cutoff=0.7)
    if not close:
        return otherwise
    return "did you mean " + " or ".join(f"'{name}'" for name in close) + "?"

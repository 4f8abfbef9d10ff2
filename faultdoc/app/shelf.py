"""What the start page offers: the library and all data sheets. No Qt here: it is read while Qt is imported."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from faultdoc.library.load import Library, load_library, load_unit, units
from faultdoc.library.problems import FileProblems
from faultdoc.model.unit import DataSheet

__all__ = ["Shelf", "fill_shelf"]


@dataclass(frozen=True)
class Shelf:
    """What the start page offers."""

    library: Library
    sheets: dict[str, DataSheet]


def fill_shelf() -> Shelf:
    """Load the library and the data sheets.

    Raises:
        FileProblems: with every mistake in every file.
    """
    problems: list[Any] = []
    library = None
    try:
        library = load_library()
    except FileProblems as found:
        problems.extend(found.problems)
    sheets = {}
    for id in units():
        try:
            sheets[id] = load_unit(id)
        except FileProblems as found:
            problems.extend(found.problems)
    if problems or library is None:
        raise FileProblems(problems)
    return Shelf(library, sheets)

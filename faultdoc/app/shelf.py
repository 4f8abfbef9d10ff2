"""What the start page offers: the library and all data sheets. No Qt here: it is read while Qt is imported."""

from __future__ import annotations

from dataclasses import dataclass

from faultdoc.library.load import Library, load_library, load_units
from faultdoc.library.problems import FileProblems, Problem
from faultdoc.model.unit import DataSheet
from faultdoc.words import language

__all__ = ["Shelf", "fill_shelf"]


@dataclass(frozen=True)
class Shelf:
    """What the start page offers.

    Attributes:
        library: points, plant and trees.
        sheets: by id, the person's own first.
        left_out: what is wrong with data sheets of the person's own.
    """

    library: Library
    sheets: dict[str, DataSheet]
    left_out: tuple[Problem, ...] = ()


def fill_shelf() -> Shelf:
    """Load the library and the data sheets.

    Raises:
        FileProblems: with every mistake in every file of FaultDoc's own.
    """
    problems: list[Problem] = []
    library = None
    try:
        library = load_library(language=language())
    except FileProblems as found:
        problems.extend(found.problems)
    sheets: dict[str, DataSheet] = {}
    left_out: tuple[Problem, ...] = ()
    try:
        sheets, left_out = load_units()
    except FileProblems as found:
        problems.extend(found.problems)
    if problems or library is None:
        raise FileProblems(problems)
    return Shelf(library, sheets, left_out)

"""Keeps the data sheets a person made, each in a file of its own in their folder."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from faultdoc.library.load import shipped_units, unit_path, units
from faultdoc.library.places import own_units_folder
from faultdoc.library.sheets import sheet_yaml
from faultdoc.library.whole import write_whole
from faultdoc.model.nameplate import Assumption
from faultdoc.model.unit import DataSheet

__all__ = ["UnitExistsError", "free_id", "keep_unit"]

_LONGEST = 64


class UnitExistsError(Exception):
    """There is a data sheet of that id already.

    Attributes:
        path: its file.
        replaceable: whether it is the person's own, so that it may be replaced.
    """

    def __init__(self, id: str, path: Path, replaceable: bool) -> None:
        self.path, self.replaceable = path, replaceable
        whose = "one of your own units" if replaceable else "a unit that FaultDoc comes with"
        super().__init__(f"there is '{id}' already, {whose} ({path})")


def free_id(id: str) -> str:
    """Return the id, or the first like it with a number behind that no unit has yet.

    >>> free_id("bluff_30")
    'bluff_30_2'
    """
    taken = set(units())
    if id not in taken:
        return id
    number = 2
    while (found := f"{id[: _LONGEST - 1 - len(str(number))].rstrip('_')}_{number}") in taken:
        number += 1
    return found


def keep_unit(sheet: DataSheet, assumptions: Iterable[Assumption] = (), *, replace: bool = False) -> Path:
    """Write a data sheet into the person's folder, whole or not at all; it is found by its id from then on.

    Args:
        sheet: the unit's.
        assumptions: named in comments at the head of the file.
        replace: whether one of the person's own of the same id is to be replaced.

    Returns:
        The file.

    Raises:
        UnitExistsError: when there is one of that id; FaultDoc's own are never replaced.
        OSError: when the folder cannot be written.
    """
    there = unit_path(sheet.id) if sheet.id in units() else None
    replaceable = sheet.id not in shipped_units()
    if there is not None and not (replace and replaceable):
        raise UnitExistsError(sheet.id, there, replaceable)
    path = own_units_folder() / f"{sheet.id}.yaml"
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(sheet_yaml(sheet, assumptions), path)
    return path

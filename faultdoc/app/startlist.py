"""What the start page lists, remembered from the last start so that it shows before the library is read.

The list is kept with the names, sizes and times of the files it was made from; when any of them
differs it is forgotten, and the start page waits for the library instead.
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from faultdoc import __version__
from faultdoc.library.places import own_units_folder, resources_folder, trees_folder
from faultdoc.quantities import Kind, System, show
from faultdoc.record.settings import data_home

if TYPE_CHECKING:
    from faultdoc.app.shelf import Shelf

__all__ = ["StartList", "SymptomLine", "UnitLine", "list_of", "remember", "remembered"]


@dataclass(frozen=True)
class UnitLine:
    """A unit to choose: its size in words by system of units, and its features."""

    id: str
    title: str
    words: dict[str, str]
    features: tuple[str, ...]


@dataclass(frozen=True)
class SymptomLine:
    """Something seen, in the tree's own words, and the features a unit needs for it."""

    id: str
    symptom: str
    title: str
    applies_to: tuple[str, ...]


@dataclass(frozen=True)
class StartList:
    """What the start page lists."""

    units: tuple[UnitLine, ...]
    symptoms: tuple[SymptomLine, ...]


def list_of(shelf: Shelf) -> StartList:
    """Return what the start page lists of a library."""
    units = []
    for id, sheet in shelf.sheets.items():
        count = len(sheet.compressors)
        words = {
            system.value: f"{sheet.refrigerant}, {show(sheet.cooling_capacity, Kind.POWER, system)}, "
            f"{count} compressor{'' if count == 1 else 's'}"
            for system in System
        }
        units.append(UnitLine(id, sheet.title, words, tuple(one.value for one in sheet.features)))
    symptoms = tuple(
        SymptomLine(id, tree.symptom, tree.title, tuple(one.value for one in tree.applies_to))
        for id, tree in shelf.library.trees.items()
    )
    return StartList(tuple(units), symptoms)


def _path() -> Path:
    return data_home() / "start.json"


def _stamp() -> str:
    """Return a digest that changes with any file the list rests on."""
    folders = (trees_folder(), resources_folder() / "units", own_units_folder())
    files = [path for folder in folders for path in folder.glob("*.yaml")]
    lines = [__version__]
    for path in sorted(files):
        facts = path.stat()
        lines.append(f"{path} {facts.st_size} {facts.st_mtime_ns}")
    return sha256("\n".join(lines).encode()).hexdigest()


def remembered() -> StartList | None:
    """Return the list of the last start, or None when there is none that still holds."""
    try:
        data = json.loads(_path().read_text(encoding="utf-8"))
        if data["stamp"] != _stamp():
            return None
        units = tuple(UnitLine(**{**line, "features": tuple(line["features"])}) for line in data["units"])
        lines = data["symptoms"]
        symptoms = tuple(SymptomLine(**{**line, "applies_to": tuple(line["applies_to"])}) for line in lines)
    except (OSError, ValueError, KeyError, TypeError):
        return None  # it is only a convenience: whatever is wrong with it, the library itself is read
    return StartList(units, symptoms)


def remember(found: StartList) -> None:
    """Keep a list for the next start; whatever stands in the way of that does no harm."""
    try:
        path = _path()
        path.parent.mkdir(parents=True, exist_ok=True)
        draft = path.with_suffix(".tmp")
        draft.write_text(json.dumps({"stamp": _stamp(), **asdict(found)}), encoding="utf-8")
        draft.replace(path)
    except OSError:
        return

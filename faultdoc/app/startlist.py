"""What the start page lists, remembered from the last start so that it shows before the library is read.

The list is kept with the names, sizes and times of the files it was made from; when any of them
differs it is forgotten, and the start page waits for the library instead.
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any

from faultdoc import __version__
from faultdoc.library.places import own_units_folder, resources_folder, trees_folder
from faultdoc.library.whole import write_whole
from faultdoc.plain import plain
from faultdoc.quantities import Kind, System, show
from faultdoc.record.settings import data_home
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.app.shelf import Shelf

__all__ = ["StartList", "SymptomLine", "UnitLine", "list_of", "remember", "remembered"]


LARGEST = 1_000_000
"""Bytes of the list."""


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
            system.value: say(
                "{refrigerant}, {show}, {count} compressor{what}",
                refrigerant=sheet.refrigerant,
                show=show(sheet.cooling_capacity, Kind.POWER, system),
                count=count,
                what="" if count == 1 else "s",
            )
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
        with _path().open("rb") as stream:
            data = json.loads(stream.read(LARGEST))
        if data["stamp"] != _stamp():
            return None
        units = tuple(
            UnitLine(
                id=_text(line["id"]),
                title=_text(line["title"]),
                words={system.value: _text(line["words"][system]) for system in System},
                features=_all_texts(line["features"]),
            )
            for line in data["units"]
        )
        symptoms = tuple(
            SymptomLine(
                id=_text(line["id"]),
                symptom=_text(line["symptom"]),
                title=_text(line["title"]),
                applies_to=_all_texts(line["applies_to"]),
            )
            for line in data["symptoms"]
        )
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return None  # it is only a convenience: whatever is wrong with it, the library itself is read
    return StartList(units, symptoms)


def _text(found: Any) -> str:
    """Return a text as it may be shown; raise TypeError for anything else."""
    if not isinstance(found, str):
        raise TypeError("no text")
    return plain(found)


def _all_texts(found: Any) -> tuple[str, ...]:
    if not isinstance(found, list):
        raise TypeError("no list")
    return tuple(map(_text, found))


def remember(found: StartList) -> None:
    """Keep a list for the next start; whatever stands in the way of that does no harm."""
    try:
        path = _path()
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole(json.dumps({"stamp": _stamp(), **asdict(found)}), path)
    except OSError:
        return

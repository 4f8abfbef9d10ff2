"""Reads a case file against the library, and writes one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from itertools import islice
from math import sqrt
from pathlib import Path
from typing import TYPE_CHECKING, Any

from faultdoc.library.problems import MOST_PROBLEMS, Problem, as_found, choose, listed
from faultdoc.library.source import KeyPath, Source
from faultdoc.library.translate import build, quantity_problem
from faultdoc.library.vocabulary import choice_point
from faultdoc.library.whole import write_whole
from faultdoc.library.written import yaml_text
from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Reading
from faultdoc.model.points import Point
from faultdoc.model.safety import STATE_FIELDS, PlantState, possible
from faultdoc.model.tree import NON_ANSWERS
from faultdoc.quantities import Kind, QuantityError, exact, parse

if TYPE_CHECKING:
    from faultdoc.library.load import Library

__all__ = ["read_case", "save_case"]


def read_case(
    source: Source,
    library: Library,
    folder: Path,
    units: Iterable[str],
) -> Case:
    """Return the case that a file describes, every id and reading in it known to the library.

    Args:
        source: the case file as read.
        library: what its ids are looked up in.
        folder: the file's own, from which a data sheet's path is taken.
        units: ids of the data sheets there are.

    Raises:
        FileProblems: with every mistake in the file.
    """
    data = dict(source.data) if isinstance(source.data, dict) else source.data
    problems: list[Problem] = []
    if isinstance(data, dict):
        problems.extend(islice(_unknown_ids(source, library), MOST_PROBLEMS))
        problems.extend(_impossible_state(source))
        problems.extend(islice(_contradictions(source, library), MOST_PROBLEMS))
        if "unit" in data:
            data["unit"], wrong = _unit(source, folder, list(units))
            problems.extend(wrong)
        if isinstance(data.get("readings"), dict):
            data["readings"], wrong = _readings(source, data["readings"], library)
            problems.extend(wrong)
    # What was told with the ids that are known is not told again with the form of an id.
    return build(Case, source, data=data, known=problems)


def _unit(source: Source, folder: Path, known: list[str]) -> tuple[Any, list[Problem]]:
    """Return the unit's id, or the whole path of its data sheet.

    A case comes from anywhere, and what it names is opened: so only a data sheet at or below the case's own
    folder, links followed, and no path that another machine or a server answers for.
    """
    unit = source.data.get("unit")
    if not isinstance(unit, str) or unit in known:
        return unit, []
    at: KeyPath = ("unit",)
    if _leads_out(unit):
        allowed = "the id of a unit, or the path of a data sheet at or below this file's folder"
        remedy = "copy the data sheet beside this file and name it so, or keep it among your own units"
        return unit, [source.problem(at, as_found(unit), allowed, remedy)]
    path = folder / unit
    if path.suffix in (".yaml", ".yml") and path.is_file():
        if path.resolve().is_relative_to(folder.resolve()):
            return str(path.resolve()), []
        remedy = "copy the data sheet itself beside this file"
        return unit, [source.problem(at, f"{as_found(unit)}, a link", "a file in this file's folder", remedy)]
    allowed = f"{listed(known)}, or the path of a data sheet (.yaml)"
    remedy = choose(
        unit, known, otherwise="name one of these, or check the path (it starts at this file's folder)"
    )
    return unit, [source.problem(at, as_found(unit), allowed, remedy)]


def _leads_out(path: str) -> bool:
    """Say whether a path, on any system, starts elsewhere than at a folder of ours or leaves it again.

    >>> [_leads_out(one) for one in ("units/mine.yaml", "../mine.yaml", "/x.yaml", "C:mine.yaml", "//host/x.yaml")]
    [False, True, True, True, True]
    """
    parts = re.split(r"[\\/]", path)
    return parts[0] in ("", "~") or ".." in parts or ":" in path


def _readings(
    source: Source, readings: dict[str, Any], library: Library
) -> tuple[dict[str, Reading], list[Problem]]:
    """Return the readings understood by their points' kinds, and the problems of the others."""
    understood: dict[str, Reading] = {}
    problems: list[Problem] = []
    for id, found in readings.items():
        if len(problems) >= MOST_PROBLEMS:
            break
        at: KeyPath = ("readings", id)
        point = library.points.get(id)
        if point is None:
            remedy = choose(id, library.points, otherwise="take its name from resources/points.yaml")
            allowed = "a measuring point of the vocabulary"
            problems.append(source.problem(at, f"the unknown point '{id}'", allowed, remedy, at_value=False))
            continue
        reading = _reading(point, found)
        if reading is not None:
            understood[id] = reading
        elif point.kind is Kind.CHOICE:
            choices = [choice.id for choice in point.choices]
            remedy = choose(str(found), choices)
            problems.append(source.problem(at, as_found(found), "one of " + listed(choices), remedy))
        else:
            problems.append(quantity_problem(source, at, found, point.kind))
    return understood, problems


def _reading(point: Point, found: Any) -> Reading | None:
    if point.kind is Kind.CHOICE:
        return found if found in [choice.id for choice in point.choices] else None
    if not isinstance(found, str) and not (point.kind is Kind.NUMBER and isinstance(found, (int, float))):
        return None
    try:
        return Measured.from_quantity(parse(str(found), point.kind, need_unit=True))
    except QuantityError:
        return None


def _unknown_ids(source: Source, library: Library) -> Iterator[Problem]:
    """Yield the problems of ids that no tree defines, and of places and instruments that the plant lacks."""
    data = source.data
    for path, id in _items(data, "symptoms"):
        yield from _unknown(source, path, id, "symptom", library.trees)
    for path, id in _items(data, "set_aside"):
        yield from _unknown(source, path, id, "question", library.questions)
    for path, entry in _items(data, "tried"):
        if isinstance(entry, dict):
            yield from _unknown(source, (*path, "cause"), entry.get("cause"), "cause", library.causes)
            known = entry.get("known")
            for place, id in enumerate(known if isinstance(known, list) else ()):
                taken = [*library.questions, *library.points]
                yield from _unknown(source, (*path, "known", place), id, "question or point", taken)
    yield from _unknown(source, ("unproved",), data.get("unproved"), "cause", library.causes)
    yield from _unknown(source, ("place",), data.get("place"), "place", sorted(library.plant.places))
    for path, id in _items(data, "at_hand"):
        yield from _unknown(source, path, id, "instrument", sorted(library.plant.instrument_ids))
    conclusion = data.get("conclusion")
    if isinstance(conclusion, dict):
        yield from _unknown(source, ("conclusion", "cause"), conclusion.get("cause"), "cause", library.causes)
    answers = data.get("answers")
    for id, answer in answers.items() if isinstance(answers, dict) else ():
        at: KeyPath = ("answers", id)
        question = library.questions.get(id)
        if question is None:
            yield from _unknown(source, at, id, "question", library.questions, at_value=False)
            continue
        outcomes = [outcome.id for outcome in question.outcomes]
        if answer in outcomes or answer in NON_ANSWERS:
            continue
        remedy = choose(str(answer), outcomes)
        if question.check:
            remedy = f"this question is measured: give readings of {listed(question.points)}"
        yield source.problem(at, as_found(answer), "one of " + listed([*outcomes, *NON_ANSWERS]), remedy)


def _items(data: dict[str, Any], key: str) -> Iterator[tuple[KeyPath, Any]]:
    items = data.get(key)
    for index, item in enumerate(items if isinstance(items, list) else ()):
        yield (key, index), item


def _unknown(
    source: Source, path: KeyPath, id: Any, what: str, known: Iterable[str], *, at_value: bool = True
) -> Iterator[Problem]:
    ids = list(known)
    if isinstance(id, str) and id not in ids:
        allowed = "one of " + listed(ids) if ids else f"nothing, as no {what} is defined"
        yield source.problem(path, f"the unknown {what} '{id}'", allowed, choose(id, ids), at_value=at_value)


def _impossible_state(source: Source) -> Iterator[Problem]:
    """Yield the problem of a plant state that cannot be, such as a pump running with the supply isolated."""
    try:
        state = PlantState.model_validate(source.data.get("state"))
    except ValueError:
        return  # told by the model itself
    if not possible(state):
        found = ", ".join(f"{name} {getattr(state, name)}" for name in STATE_FIELDS)
        allowed = (
            "machines running only with the supply energised, the pump only with the water side pressurised, "
            "compressors only with the pump running, the oil warm and the refrigerant circuit closed"
        )
        yield source.problem(("state",), found, allowed, "look again, and write what is so", at_value=False)


def _contradictions(source: Source, library: Library) -> Iterator[Problem]:
    """Yield the problems of a point that is read as one thing and answered as another."""
    readings, answers = source.data.get("readings"), source.data.get("answers")
    if not isinstance(readings, dict) or not isinstance(answers, dict):
        return
    for id, answer in answers.items():
        question = library.questions.get(id)
        point = choice_point(question, library.points) if question and question.outcomes else None
        if point is None or point.id not in readings or answer in NON_ANSWERS:
            continue
        if readings[point.id] != answer:
            line = source.value_place(("readings", point.id))[0]
            read = as_found(readings[point.id])
            found = f"{as_found(answer)}, but the reading of {point.id} on line {line} is {read}"
            yield source.problem(("answers", id), found, "the same in both places", "keep the one that is true")


# --- writing ---


def save_case(case: Case, path: Path) -> None:
    """Write a case to a file, whole or not at all: a file that is there stays until the new one is complete.

    Readings are written as the person wrote them (with the unit that was meant, where none was
    written), and everything keeps its order. A data sheet that lies elsewhere is copied beside the file.

    Raises:
        OSError: when the folder cannot be written, or the data sheet not read.
    """
    write_whole(case_text(_with_its_sheet(case, path.parent), path.parent), path)


def _with_its_sheet(case: Case, folder: Path) -> Case:
    """Return the case with its data sheet at or below a folder, if it names one by its path."""
    path = Path(case.unit)
    if not path.is_absolute() or path.is_relative_to(folder.resolve()):
        return case
    text = path.read_text(encoding="utf-8")
    copy, number = folder.resolve() / path.name, 1
    while copy.exists() and copy.read_text(encoding="utf-8", errors="replace") != text:
        number += 1
        copy = copy.with_name(f"{path.stem}_{number}{path.suffix}")
    write_whole(text, copy)
    return case.model_copy(update={"unit": str(copy)})


def case_text(case: Case, folder: Path) -> str:
    """Return a case as YAML; a data sheet at or below `folder` is named by its path from there."""
    data: dict[str, Any] = case.model_dump(mode="json", exclude_defaults=True)
    data["unit"] = _unit_from(case.unit, folder)
    if case.readings:
        data["readings"] = {id: _reading_text(reading) for id, reading in case.readings.items()}
    return yaml_text(data)


def _unit_from(unit: str, folder: Path) -> str:
    path = Path(unit)
    if path.is_absolute() and path.is_relative_to(folder.resolve()):
        return path.relative_to(folder.resolve()).as_posix()
    return unit


def _reading_text(reading: Reading) -> str:
    """Return a reading as it was written, or in SI where that text does not say what was meant."""
    if isinstance(reading, str):
        return reading
    try:
        read_back = Measured.from_quantity(parse(reading.text, reading.kind, need_unit=True))
    except QuantityError:
        read_back = None
    if read_back == reading:
        return reading.text
    u = reading.standard_uncertainty
    return exact(reading.value, reading.kind, None if u is None else u * sqrt(3.0))

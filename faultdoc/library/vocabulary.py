"""The vocabulary of measuring points, its families written out, and what its texts mean as numbers."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from itertools import product
from pathlib import Path
from types import MappingProxyType

from faultdoc.library.languages import Laid, Words
from faultdoc.library.places import resources_folder
from faultdoc.library.problems import FileProblems, Problem, listed
from faultdoc.library.source import KeyPath, Source, read
from faultdoc.library.translate import build, quantity_problem
from faultdoc.model.points import FAMILIES, Point, PointsFile
from faultdoc.model.tree import Question
from faultdoc.quantities import Kind, QuantityError, difference_kind, parse
from faultdoc.words import language

__all__ = [
    "believable",
    "believable_or_none",
    "choice_point",
    "expand",
    "load_points",
    "one_of_family",
    "usual_instrument",
    "usual_limit",
]


def load_points(
    path: Path | None = None, *, words: Words | None = None, laid: Laid | None = None
) -> Mapping[str, Point]:
    """Return every measuring point by its id, families written out, in the order of the file.

    Args:
        path: the vocabulary file; FaultDoc's own when left out.
        words: the texts of another language, to be laid over.
        laid: takes what came of that.

    Raises:
        FileProblems: with every mistake in it.

    >>> load_points()["pump_current_l1"].title
    'Pump current, L1'
    """
    source = read(path or resources_folder() / "points.yaml")
    file = build(PointsFile, source)
    problems: list[Problem] = []
    points: dict[str, Point] = {}
    for index, entry in enumerate(file.points):
        at: KeyPath = ("points", index)
        problems.extend(_wrong_texts(entry, at, source))
        unknown = [name for name in _braces(entry.id) if name not in FAMILIES]
        if unknown:
            allowed = listed(f"{{{name}}}" for name in FAMILIES)
            problems.append(
                source.problem((*at, "id"), f"'{{{unknown[0]}}}'", allowed, "name one of these families")
            )
            continue
        said = entry if words is None else words.point(entry, index, laid or Laid())
        for point in expand(said, words.phrases if words else {}):
            if point.id in points:
                remedy = f"'{point.id}' is defined already; give one of the two another id"
                problems.append(source.problem((*at, "id"), f"'{entry.id}'", "each id once", remedy))
                break
            points[point.id] = point
    if words is not None and laid is not None:
        known = [entry.id for entry in file.points]
        laid.problems += words.unknown_points(known)
    if problems:
        raise FileProblems(problems)
    return MappingProxyType(points)


@lru_cache(maxsize=1)
def _in_english() -> Mapping[str, Point]:
    return load_points()


def usual_instrument(point: Point) -> str:
    """Return the usual instrument of a point in English, for whoever goes by its name.

    The words of a point are those of the language in use; what follows from an instrument must not change with it.
    """
    if language() == "en" or point.id not in _in_english():
        return point.instrument
    return _in_english()[point.id].instrument


def _braces(id: str) -> list[str]:
    return re.findall(r"\{([^{}]*)\}", id)


def one_of_family(id: str) -> str:
    """Return one point of a family in braces; a plain point as it is.

    >>> one_of_family("discharge_pressure_{circuit}")
    'discharge_pressure_a'
    """
    return re.sub(r"\{(\w+)\}", lambda braces: FAMILIES.get(braces[1], ("?",))[0], id)


def expand(entry: Point, phrases: Mapping[str, str] = MappingProxyType({})) -> Iterator[Point]:
    """Yield the points that one entry of the vocabulary stands for; `phrases` has other words for the families.

    >>> from faultdoc.quantities import Kind
    >>> entry = Point(id="fan_current_{number}_{line}", kind=Kind.CURRENT, title="Fan current", where="-",
    ...               how="-", instrument="-", limit="1 A")
    >>> [(point.id, point.title) for point in expand(entry)][4]
    ('fan_current_2_l2', 'Fan current, number 2, L2')
    """
    families = _braces(entry.id)
    if not families:
        yield entry
        return
    for members in product(*(FAMILIES[family] for family in families)):
        id = entry.id
        for family, member in zip(families, members, strict=True):
            id = id.replace(f"{{{family}}}", member, 1)
        suffix = ", ".join(
            _suffix(family, member, phrases) for family, member in zip(families, members, strict=True)
        )
        yield entry.model_copy(update={"id": id, "title": f"{entry.title}, {suffix}"})


def _suffix(family: str, member: str, phrases: Mapping[str, str]) -> str:
    match family:
        case "circuit" | "number":
            return f"{phrases.get(family, family)} {member.upper()}"
        case _:
            return member.upper().replace("_", "-")


def _wrong_texts(entry: Point, at: KeyPath, source: Source) -> Iterator[Problem]:
    """Yield the problems of `limit`, `least` and `most`, which must be quantities of the point's kind."""
    if entry.kind is Kind.CHOICE:
        for name in ("limit", "limit_of_reading", "least", "most"):
            if getattr(entry, name) is not None:
                yield source.problem(
                    (*at, name), f"'{name}' on a choice", "choices only", "remove it", at_value=False
                )
        return
    for name, kind in (
        ("limit", difference_kind(entry.kind)), ("least", entry.kind), ("most", entry.kind),
    ):  # fmt: skip
        text = getattr(entry, name)
        if text is None:
            continue
        try:
            value = parse(text, kind, need_unit=True).value
        except QuantityError:
            yield quantity_problem(source, (*at, name), text, kind)
            continue
        if name == "limit" and value <= 0:
            yield source.problem(
                (*at, name), f"'{text}'", "a limit above zero", "write the instrument's limit of error"
            )
    least, most = believable_or_none(entry)
    if least is not None and most is not None and least >= most:
        found = f"least '{entry.least}' and most '{entry.most}'"
        yield source.problem((*at, "least"), found, "least below most", "exchange or correct them")


def believable_or_none(point: Point) -> tuple[float | None, float | None]:
    """Return `least` and `most` in SI; None where absent or not understood."""
    return _text_value(point.least, point.kind), _text_value(point.most, point.kind)


@lru_cache(maxsize=1024)
def _text_value(text: str | None, kind: Kind) -> float | None:
    if text is None:
        return None
    try:
        return parse(text, kind, need_unit=True).value
    except QuantityError:
        return None


def believable(point: Point, value: float) -> bool:
    """Return whether a reading (SI) at a point can be believed without asking again.

    >>> believable(load_points()["ambient_air_temperature"], 350.0)
    False
    """
    least, most = believable_or_none(point)
    return (least is None or least <= value) and (most is None or value <= most)


def choice_point(question: Question, points: Mapping[str, Point]) -> Point | None:
    """Return the choice point whose reading answers a question, if just one of its points is a choice."""
    choices = [points[id] for id in question.points if id in points and points[id].kind is Kind.CHOICE]
    return choices[0] if len(choices) == 1 else None


def usual_limit(point: Point, value: float) -> float:
    """Return the limit of error (± half-width, SI) of the usual instrument at a point reading `value` (SI).

    Raises:
        ValueError: for a point that is looked at and not measured.

    >>> usual_limit(load_points()["voltage_l1_l2"], 400.0)
    4.0
    """
    if point.kind is Kind.CHOICE:
        raise ValueError(f"point '{point.id}' is a choice; only a measured point has a limit of error")
    fixed = _text_value(point.limit, difference_kind(point.kind)) or 0.0
    return fixed + (point.limit_of_reading or 0.0) * abs(value)

"""Fingerprints of what a case was assessed with, and what has changed where it is opened.

Every question, cause, event, part of the plant file and of the data sheet has four short fingerprints: of its
words, of its numbers, of what the work needs or warns of, and of all the rest. So the other machine can say not
only that a tree is another one, but which question was reworded there and which cause reweighted.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from hashlib import blake2s
from typing import Any, Literal

from pydantic import BaseModel, Field

from faultdoc.diagnosis.assess import Bench
from faultdoc.model.base import Id, Model
from faultdoc.model.tree import Condition, Gate, Tree

__all__ = ["Altered", "How", "Prints", "altered", "prints_of", "without_parts"]

How = Literal["added", "removed", "words", "numbers", "work", "form", "whole"]

_ASPECTS: tuple[How, ...] = ("words", "numbers", "work", "form")

_NUMBERS = frozenset({"rate", "holds", "given", "slip", "meter", "probability"})
_WORK = frozenset(
    {"state", "who", "cautions", "minutes", "stop", "place", "bring", "licence", "resets", "first", "when", "sets"}
)
_WORDS = frozenset(
    {
        "title",
        "ask",
        "how",
        "where",
        "instrument",
        "wrong_readings",
        "mechanism",
        "steps",
        "text",
        "tools",
        "parts",
    }
)
_SAID_OF_IT = frozenset({"basis", "source"})
"""Where a number comes from, which moves nothing."""


class Prints(Model):
    """Fingerprints of every tree, the plant file and the data sheet, and of the parts of what bears on a case.

    `parts` holds them by kind ("questions", "causes", "events", "plant", "sheet") and id; in a QR code it is
    empty.
    """

    trees: dict[Id, str]
    plant: str
    sheet: str
    parts: dict[str, dict[str, str]] = Field(default_factory=dict)


@dataclass(frozen=True)
class Altered:
    """One thing that is not as it was where the case comes from.

    Attributes:
        kind: "questions", "causes", "events", "plant", "sheet", or "trees" where only a whole tree is known.
        id: of the part, or of the tree.
        how: in which respect; "whole" where no more is known than that it is not the same.
    """

    kind: str
    id: str
    how: How


def prints_of(bench: Bench) -> Prints:
    """Return the fingerprints of what the cases of a bench are assessed with, in whatever language it is shown."""
    library, problem = bench.library.english, bench.problem
    plant = {name: getattr(library.plant, name) for name in type(library.plant).model_fields}
    changes = {change.id: change for change in plant.pop("changes")}
    sheet = {name: getattr(bench.sheet, name) for name in type(bench.sheet).model_fields if name != "id"}
    parts: dict[str, dict[str, str]] = {
        "questions": _each(
            {
                id: library.questions[id].model_copy(update={"given": question.given})
                for id, question in problem.questions.items()
            }
        ),
        "causes": _each({id: library.causes[id] for id in problem.causes}),
        "events": _each(
            {id: event for tree in problem.trees for id, event in _events(library.trees[tree.id]).items()}
        ),
        "plant": _each({**changes, **plant}),
        "sheet": _each(sheet),
    }
    return Prints(
        trees={id: _whole(_tree(tree)) for id, tree in library.trees.items()},
        plant=_whole(parts["plant"]),
        sheet=_whole(parts["sheet"]),
        parts=parts,
    )


def without_parts(prints: Prints, trees: Iterable[str]) -> Prints:
    """Return the fingerprints as short as they are sent in a QR code: of some trees, plant and sheet as wholes."""
    wanted = set(trees)
    return Prints(
        trees={id: print for id, print in prints.trees.items() if id in wanted},
        plant=prints.plant,
        sheet=prints.sheet,
    )


def altered(sent: Prints, here: Prints) -> tuple[Altered, ...]:
    """Return what is not the same here as where a case comes from, in the order of the kinds.

    Of trees that no part tells more about, only that they are others.
    """
    found: list[Altered] = []
    if sent.parts:
        for kind, parts in here.parts.items():
            found += _between(kind, sent.parts.get(kind, {}), parts)
        return tuple(found)
    for id, print in sent.trees.items():
        if here.trees.get(id) != print:
            found.append(Altered("trees", id, "whole"))
    for kind in ("plant", "sheet"):
        if getattr(sent, kind) != getattr(here, kind):
            found.append(Altered(kind, kind, "whole"))
    return tuple(found)


def _between(kind: str, sent: Mapping[str, str], here: Mapping[str, str]) -> Iterator[Altered]:
    for id in here:
        if id not in sent:
            yield Altered(kind, id, "added")
            continue
        then, now = sent[id].split("-"), here[id].split("-")
        if len(then) != len(_ASPECTS):
            yield Altered(kind, id, "whole")
            continue
        for aspect, old, new in zip(_ASPECTS, then, now, strict=True):
            if old != new:
                yield Altered(kind, id, aspect)
    for id in sent:
        if id not in here:
            yield Altered(kind, id, "removed")


def _events(tree: Tree) -> dict[str, Gate | Condition]:
    gates: dict[str, Gate | Condition] = {event.id: event for event in tree.events}
    return gates | {condition.id: condition for condition in tree.conditions}


def _tree(tree: Tree) -> dict[str, str]:
    """Return the fingerprints of a tree's parts, and of what it says of itself."""
    causes = {cause.id: cause for cause in tree.causes}
    own = tree.model_dump(mode="json", include={"id", "title", "symptom", "applies_to", "top"})
    # A question and a cause may share an id.
    questions = {f"? {question.id}": question for question in tree.questions}
    return _each({**_events(tree), **causes, **questions, "tree": own})


def _each(parts: Mapping[str, Any]) -> dict[str, str]:
    return {id: _print(part) for id, part in parts.items()}


def _print(part: Any) -> str:
    """Return the four fingerprints of a part, joined by hyphens."""
    lines: dict[How, list[str]] = defaultdict(list)
    for path, value in _leaves(part, ()):
        lines[_aspect(path)].append(f"{'/'.join(path)}={value!r}")
    return "-".join(_short(lines[aspect]) for aspect in _ASPECTS)


def _leaves(value: Any, path: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Yield every value in a part with the names on the way to it; what has names is taken in their order."""
    if isinstance(value, BaseModel):
        value = value.model_dump(mode="json")
    if isinstance(value, Mapping):
        for name in sorted(value):
            if name not in _SAID_OF_IT:
                yield from _leaves(value[name], (*path, name))
    elif isinstance(value, list | tuple):
        for place, item in enumerate(value):
            yield from _leaves(item, (*path, str(place)))
    else:
        yield path, value


def _aspect(path: tuple[str, ...]) -> How:
    if any(name in _NUMBERS for name in path):
        return "numbers"
    if any(name in _WORK for name in path):
        return "work"
    return "words" if any(name in _WORDS for name in path) else "form"


def _whole(parts: Mapping[str, str]) -> str:
    return _short([f"{id}={parts[id]}" for id in sorted(parts)])


def _short(lines: Iterable[str]) -> str:
    return blake2s("\n".join(lines).encode(), digest_size=3).hexdigest()

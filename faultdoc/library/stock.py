"""The stock: what the trees' words for parts, tools and instruments stand for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType

from faultdoc.library.places import resources_folder
from faultdoc.library.problems import FileProblems, Problem, choose, listed
from faultdoc.library.source import KeyPath, Source, read
from faultdoc.library.translate import build
from faultdoc.model.stock import Scope, StockFile, StockKind, StockLimits

__all__ = ["Stock", "load_stock"]

Needs = tuple[frozenset[str], ...]
"""Of every entry one kind is needed; within an entry any will do."""

_SCOPES: tuple[Scope, ...] = ("parts", "tools", "reads")


@dataclass(frozen=True)
class Stock:
    """Everything that may be carried to a unit.

    Attributes:
        kinds: by id.
        limits: of one visit, unless somebody says otherwise.
        tie: chances that differ by no more than this count as equal.
        names: (scope, text) -> what is needed for it.
    """

    kinds: Mapping[str, StockKind]
    limits: StockLimits
    tie: float
    names: Mapping[tuple[Scope, str], Needs]

    def needs(self, scope: Scope, text: str) -> Needs | None:
        """Return the kinds that a text stands for; None for a text that the stock does not know."""
        return self.names.get((scope, text))

    def instrument(self, id: str) -> StockKind | None:
        """Return the kind that is an instrument of the plant file, None where there is none."""
        return next((kind for kind in self.kinds.values() if kind.instrument == id), None)

    def closest(self, scope: Scope, text: str) -> str:
        """Return what to do about a text that the stock does not know."""
        known = [name for where, name in self.names if where == scope]
        return choose(text, known, otherwise=f"add it to '{scope}' of a kind in resources/stock.yaml")


@lru_cache(maxsize=4)
def load_stock(path: Path | None = None) -> Stock:
    """Return the stock.

    Args:
        path: the file; FaultDoc's own when left out.

    Raises:
        FileProblems: with every mistake in it.

    >>> [sorted(one) for one in load_stock().needs("parts", "Compressor or valve plates")]
    [['compressor', 'compressor_valves']]
    """
    source = read(path or resources_folder() / "stock.yaml")
    file = build(StockFile, source)
    problems: list[Problem] = []
    kinds: dict[str, StockKind] = {}
    names: dict[tuple[Scope, str], Needs] = {}
    places: dict[tuple[Scope, str], int] = {}

    def name(scope: Scope, text: str, needs: Needs, at: KeyPath) -> None:
        line = places.setdefault((scope, text), source.value_place(at)[0])
        if (scope, text) in names:
            remedy = f"line {line} has it already; take it out here or there"
            problems.append(source.problem(at, f"'{text}' again", "each text once", remedy))
        names[scope, text] = needs

    for index, kind in enumerate(file.kinds):
        at: KeyPath = ("kinds", index)
        if kind.id in kinds:
            problems.append(
                source.problem((*at, "id"), f"'{kind.id}' again", "each id once", "give it another id")
            )
        kinds[kind.id] = kind
        for scope in _SCOPES:
            for place, text in enumerate(getattr(kind, scope)):
                name(scope, text, (frozenset({kind.id}),), (*at, scope, place))
    for index, entry in enumerate(file.combined):
        at = ("combined", index)
        key = "all" if entry.all is not None else "any"
        wanted = entry.all or entry.any or ()
        problems.extend(_unknown(source, (*at, key), wanted, kinds))
        needs = tuple(frozenset({id}) for id in wanted) if key == "all" else (frozenset(wanted),)
        scope, text = entry.named
        name(scope, text, needs, at)
    if "unlisted" not in kinds:
        remedy = "add it: it stands in for what trees name and this file does not"
        problems.append(source.problem(("kinds",), "no kind 'unlisted'", "one of that id", remedy))
    if problems:
        raise FileProblems(problems)
    return Stock(MappingProxyType(kinds), file.limits, file.tie, MappingProxyType(names))


def _unknown(
    source: Source, at: KeyPath, wanted: tuple[str, ...], kinds: Mapping[str, StockKind]
) -> Iterator[Problem]:
    for place, id in enumerate(wanted):
        if id not in kinds:
            remedy = choose(id, kinds, otherwise="name a kind of this file")
            yield source.problem((*at, place), f"the unknown kind '{id}'", listed(kinds), remedy)

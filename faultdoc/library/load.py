"""Loads the files of FaultDoc: points, plant, data sheets, fault trees and cases.

Every function reports all the mistakes of a file at once, as `FileProblems`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

from pydantic import BaseModel

from faultdoc.library import learned as learning
from faultdoc.library.calibration import laid_over, load_calibrations
from faultdoc.library.cases import read_case, save_case
from faultdoc.library.languages import ENGLISH, Laid, Words, load_words, no_such_tree
from faultdoc.library.places import own_units_folder, resources_folder, shown, trees_folder
from faultdoc.library.problems import FileProblems, Problem, choose, listed
from faultdoc.library.source import KeyPath, Source, read
from faultdoc.library.translate import build, quantity_problem
from faultdoc.library.vocabulary import load_points, one_of_family
from faultdoc.model.case import Case
from faultdoc.model.points import Point
from faultdoc.model.safety import PlantFile
from faultdoc.model.tree import Cause, Question, Tree
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, QuantityError, difference_kind, parse

__all__ = [
    "Catalogue",
    "Library",
    "load_case",
    "load_library",
    "load_plant",
    "load_points",
    "load_trees",
    "load_unit",
    "load_units",
    "save_case",
    "shipped_units",
    "units",
]

M = TypeVar("M", bound=BaseModel)


@dataclass(frozen=True)
class Catalogue:
    """All fault trees, and the causes and questions they define between them.

    Attributes:
        trees: by id, in the order of the file names.
        causes: by id, over all trees; each is defined in exactly one.
        questions: by id, over all trees; each is defined in exactly one.
        defined_in: id of the tree that defines a cause.
        sources: by tree id, the file as read, for messages with a line.
        folder: where the trees were read, or the one file.
    """

    trees: Mapping[str, Tree]
    causes: Mapping[str, Cause]
    questions: Mapping[str, Question]
    defined_in: Mapping[str, str]
    sources: Mapping[str, Source] = field(repr=False, compare=False)
    folder: Path = field(default_factory=trees_folder, repr=False, compare=False)


@dataclass(frozen=True)
class Library:
    """Everything FaultDoc knows before it meets a unit; `catalogue`'s own attributes are at hand here.

    `left_out` is what is wrong with learned lines of the person's own that had to be passed over. `language` is
    that of the texts, `said_from` the same library in English where they are not.
    """

    points: Mapping[str, Point]
    plant: PlantFile
    catalogue: Catalogue
    left_out: tuple[Problem, ...] = ()
    language: str = ENGLISH
    said_from: Library | None = field(default=None, repr=False, compare=False)

    @property
    def english(self) -> Library:
        """The same library with its texts as the trees have them, for what goes by the words themselves."""
        return self.said_from or self

    @property
    def trees(self) -> Mapping[str, Tree]:
        """The fault trees by id."""
        return self.catalogue.trees

    @property
    def causes(self) -> Mapping[str, Cause]:
        """The causes of all trees by id."""
        return self.catalogue.causes

    @property
    def questions(self) -> Mapping[str, Question]:
        """The questions of all trees by id."""
        return self.catalogue.questions

    @property
    def defined_in(self) -> Mapping[str, str]:
        """The id of the tree that defines a cause, by cause id."""
        return self.catalogue.defined_in

    @property
    def sources(self) -> Mapping[str, Source]:
        """The trees' files as read, by tree id."""
        return self.catalogue.sources

    def watch_for(self, question: Question) -> str:
        """Return what usually makes its answer wrong: in the question's own words, else in those of its points."""
        if question.wrong_readings:
            return question.wrong_readings
        said = (self.points[id].wrong_readings for id in question.points if id in self.points)
        return " ".join(dict.fromkeys(words for words in said if words))


def load_library(
    folder: Path | None = None, *, calibrated: bool = True, learned: bool = True, language: str = ENGLISH
) -> Library:
    """Return the points, the plant and all fault trees.

    Args:
        folder: where the fault trees are, or one tree file; FaultDoc's own when left out.
        calibrated: whether rows that were derived from the simulator are laid over the authored estimates of
            FaultDoc's own trees; trees of other folders are taken as they are written.
        learned: whether what closed cases taught, as far as a person accepted it, is laid over these; never
            over the authored rows alone.
        language: that of the texts, one of `faultdoc.library.languages.languages`; what it lacks stays English.

    Raises:
        FileProblems: with every mistake in every file.
    """
    problems: list[Problem] = []
    parts: list[Any] = []
    for load in (load_points, load_plant, lambda: load_trees(folder)):
        try:
            parts.append(load())
        except FileProblems as found:
            problems.extend(found.problems)
    if problems:
        raise FileProblems(problems)
    points, plant, catalogue = parts
    if calibrated and folder is None:
        beside = trees_folder().parent / "resources" / "calibration"
        catalogue = laid_over(catalogue, load_calibrations(catalogue, beside))
    left_out: tuple[Problem, ...] = ()
    if learned and calibrated and folder is None:
        taught, left_out = learning.load_learned(catalogue)
        catalogue = learning.laid_over(catalogue, taught)
    english = Library(points, plant, catalogue, left_out)
    return english if language == ENGLISH else _said(english, load_words(language, catalogue.folder))


def _said(english: Library, words: Words) -> Library:
    """Return a library in another language.

    Raises:
        FileProblems: with everything the words say of something that is not there.
    """
    laid = Laid()
    trees = {id: words.tree(tree, laid) for id, tree in english.trees.items()}
    points = load_points(words=words, laid=laid)
    plant = words.plant_file(english.plant, laid)
    problems = [*laid.problems, *no_such_tree(words, trees, english.catalogue.folder)]
    if problems:
        raise FileProblems(problems)
    catalogue = replace(english.catalogue, **_by_id(trees))
    return Library(points, plant, catalogue, english.left_out, words.language, english)


def load_plant(path: Path | None = None) -> PlantFile:
    """Return the plant's state changes, stops and ready state; FaultDoc's own when no `path` is given.

    Raises:
        FileProblems: with every mistake in the file.
    """
    source = read(path or resources_folder() / "plant.yaml")
    problems = _twice(source, ("changes",))
    return _all_or_nothing(PlantFile, source, problems)


def shipped_units() -> list[str]:
    """Return the ids of FaultDoc's own data sheets, in order.

    >>> "bluff_30" in shipped_units()
    True
    """
    return sorted(path.stem for path in (resources_folder() / "units").glob("*.yaml"))


def units() -> list[str]:
    """Return the ids of all data sheets: those the person made, then FaultDoc's own, each in order."""
    shipped = shipped_units()
    own = sorted(path.stem for path in own_units_folder().glob("*.yaml"))
    return [*(id for id in own if id not in shipped), *shipped]


def unit_path(id_or_path: str | Path) -> Path | None:
    """Return the file of a data sheet named by its id or by its path; None when there is none."""
    if str(id_or_path) in units():
        places = (folder / f"{id_or_path}.yaml" for folder in _unit_folders())
        return next(path for path in places if path.is_file())
    path = Path(id_or_path)
    return path if path.is_file() else None


def load_unit(id_or_path: str | Path) -> DataSheet:
    """Return the data sheet of a unit: FaultDoc's own or the person's by id, or a file by path.

    Raises:
        FileProblems: with every mistake in the file, or the ids there are when there is no such file.
    """
    path = unit_path(id_or_path)
    if path is None:
        known = units()
        allowed = f"{listed(known)}, or the path of a data sheet"
        remedy = choose(str(id_or_path), known, otherwise="name one of these, or check the path")
        raise FileProblems([Problem(str(id_or_path), 0, 0, "", "no such unit", allowed, remedy)])
    source = read(path)
    sheet = build(DataSheet, source)
    if wrong := list(_wrong_settings(sheet, source)):
        raise FileProblems(wrong)
    if path.parent in _unit_folders() and sheet.id != path.stem:
        remedy = "name the file after the id"
        raise FileProblems(
            [source.problem(("id",), f"'{sheet.id}'", f"'{path.stem}', as the file is named", remedy)]
        )
    return sheet


@cache
def _own_points() -> Mapping[str, Point]:
    return load_points()


def _wrong_settings(sheet: DataSheet, source: Source) -> Iterator[Problem]:
    """Yield the problems of safeties whose settings are no quantities of their point's kind.

    What point a safety looks at, and whether its settings make sense, is for `faultdoc.checks.lint_units`.
    """
    for index, safety in enumerate(sheet.safeties):
        point = _own_points().get(one_of_family(safety.point))
        if point is None or point.kind is Kind.CHOICE:
            continue
        for name in ("trips_at", "resets_at", "tolerance"):
            text = getattr(safety, name)
            kind = difference_kind(point.kind) if name == "tolerance" else point.kind
            try:
                if text is not None:
                    parse(text, kind, need_unit=True)
            except QuantityError:
                yield quantity_problem(source, ("safeties", index, name), text, kind)


def _unit_folders() -> tuple[Path, Path]:
    """Return the folders in which a data sheet is found by its id; the first that has it counts."""
    return resources_folder() / "units", own_units_folder()


def load_units() -> tuple[dict[str, DataSheet], tuple[Problem, ...]]:
    """Return all data sheets by id, and what is wrong with those of the person that had to be left out.

    Raises:
        FileProblems: with every mistake in FaultDoc's own.
    """
    shipped = shipped_units()
    sheets: dict[str, DataSheet] = {}
    left_out: list[Problem] = []
    problems: list[Problem] = []
    for id in units():
        try:
            sheets[id] = load_unit(id)
        except FileProblems as found:
            (problems if id in shipped else left_out).extend(found.problems)
    for path in sorted(own_units_folder().glob("*.yaml")):
        if path.stem in shipped:
            remedy = "give the unit another id, and name the file after it"
            left_out.append(
                Problem(shown(path), 0, 0, "", f"the id '{path.stem}', which is FaultDoc's own", "", remedy)
            )
    if problems:
        raise FileProblems(problems)
    return sheets, tuple(left_out)


def load_trees(folder: Path | None = None) -> Catalogue:
    """Return all fault trees of a folder, and the catalogue of causes and questions over all of them.

    What a tree says of ids that no file defines is no mistake here; `faultdoc.library.lint`
    reports it.

    Args:
        folder: with the *.yaml files, or one such file; FaultDoc's own when left out.

    Raises:
        FileProblems: with every mistake in every file.
    """
    folder = folder or trees_folder()
    paths = [folder] if folder.is_file() else sorted(folder.glob("*.yaml"))
    if not paths:
        where = Problem(shown(folder), 0, 0, "", "no fault trees", "*.yaml files", "name the folder that has them")
        raise FileProblems([where])
    problems: list[Problem] = []
    trees: dict[str, Tree] = {}
    sources: dict[str, Source] = {}
    seen: dict[str, dict[str, tuple[str, int]]] = {"tree": {}, "cause": {}, "question": {}}
    for path in paths:
        try:
            source = read(path)
        except FileProblems as found:
            problems.extend(found.problems)
            continue
        problems.extend(_defined_before(source, seen))
        try:
            tree = _all_or_nothing(Tree, source, _twice_in_tree(source))
        except FileProblems as found:
            problems.extend(found.problems)
            continue
        trees[tree.id] = tree
        sources[tree.id] = source
    if problems:
        raise FileProblems(problems)
    return Catalogue(
        **_by_id(trees),
        defined_in=MappingProxyType({cause.id: tree.id for tree in trees.values() for cause in tree.causes}),
        sources=MappingProxyType(sources),
        folder=folder,
    )


def _by_id(trees: dict[str, Tree]) -> dict[str, Any]:
    """Return the trees, and the causes and questions they define, by their ids."""
    return {
        "trees": MappingProxyType(trees),
        "causes": MappingProxyType({cause.id: cause for tree in trees.values() for cause in tree.causes}),
        "questions": MappingProxyType(
            {question.id: question for tree in trees.values() for question in tree.questions}
        ),
    }


def load_case(path: Path, library: Library | None = None) -> Case:
    """Return a case read from a file against the library.

    Args:
        path: the case file.
        library: what the case's ids are looked up in; FaultDoc's own when left out.

    Raises:
        FileProblems: with every mistake in the file.
    """
    return read_case(read(path), library or load_library(), path.parent, units())


def _all_or_nothing(model: type[M], source: Source, problems: Iterable[Problem]) -> M:
    """Return the model, or raise its problems together with those found already."""
    found = list(problems)
    try:
        built = build(model, source)
    except FileProblems as more:
        raise FileProblems([*found, *more.problems]) from None
    if found:
        raise FileProblems(found)
    return built


def _ids(source: Source, path: KeyPath) -> Iterator[tuple[str, KeyPath]]:
    """Yield the ids of the maps in a list of the file, as far as it has any, and where they stand."""
    items = source.get(path)
    for index, item in enumerate(items if isinstance(items, list) else ()):
        if isinstance(item, dict) and isinstance(item.get("id"), str):
            yield item["id"], (*path, index, "id")


def _twice(source: Source, *lists: KeyPath) -> list[Problem]:
    """Return the problems of ids that are given twice within lists that share one set of names."""
    problems = []
    lines: dict[str, int] = {}
    for path in lists:
        for id, at in _ids(source, path):
            line = source.value_place(at)[0]
            if id in lines:
                remedy = f"line {lines[id]} has it already; give one of the two another id"
                problems.append(source.problem(at, f"the id '{id}' again", "each id once", remedy))
            else:
                lines[id] = line
    return problems


def _twice_in_tree(source: Source) -> list[Problem]:
    problems = [*_twice(source, ("events",), ("conditions",), ("causes",)), *_twice(source, ("questions",))]
    questions = source.get(("questions",))
    for index, _ in enumerate(questions if isinstance(questions, list) else ()):
        problems.extend(_twice(source, ("questions", index, "outcomes")))
    return problems


def _defined_before(source: Source, seen: dict[str, dict[str, tuple[str, int]]]) -> list[Problem]:
    """Return the problems of trees, causes and questions that another file defines too; note this file's."""
    problems = []
    own: dict[str, list[tuple[Any, KeyPath]]] = {
        "tree": [(source.get(("id",)), ("id",))],
        "cause": list(_ids(source, ("causes",))),
        "question": list(_ids(source, ("questions",))),
    }
    for what, ids in own.items():
        for id, at in ids:
            if not isinstance(id, str):
                continue
            file, line = seen[what].setdefault(id, (source.file, source.value_place(at)[0]))
            if file != source.file:
                remedy = f"{file}:{line} defines it; refer to it from here by its id, or give this one another"
                problems.append(source.problem(at, f"the {what} '{id}' again", f"each {what} in one file", remedy))
    return problems

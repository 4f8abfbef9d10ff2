"""What closed cases taught, as accepted: read from the person's own files, and laid over the trees.

A learned value has the authored (or simulated, or published) one in it as its prior, so it takes that one's
place whatever its basis was. A line that no longer fits the trees is told and passed over, and so is a file that
cannot be read: neither may stand between a person and a tripped unit.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from faultdoc.library.places import data_home
from faultdoc.library.problems import FileProblems, Problem
from faultdoc.library.source import KeyPath, Source, read
from faultdoc.library.translate import build
from faultdoc.library.whole import write_whole
from faultdoc.library.written import yaml_text
from faultdoc.model.learned import (
    LearnedBook,
    LearnedQuestion,
    LearnedRow,
    LearnedShift,
    LearnedTree,
    LearnedWeights,
)
from faultdoc.model.tree import Basis, Cause, Question, Shift, Tree, Weights

if TYPE_CHECKING:
    from faultdoc.library.load import Catalogue

__all__ = [
    "book_text",
    "laid_over",
    "learned_folder",
    "load_learned",
    "read_book",
    "remove_learned",
    "save_learned",
    "without_stale",
]

_STALE = "it is passed over; take it out, or accept anew what the cases say ('faultdoc learn')"


def learned_folder() -> Path:
    """Return the folder of the learned files, one a tree; it need not exist."""
    return data_home() / "learned"


def load_learned(
    catalogue: Catalogue, folder: Path | None = None
) -> tuple[dict[str, LearnedTree], tuple[Problem, ...]]:
    """Return what was learned, by tree, and everything that had to be passed over.

    Args:
        catalogue: what the files' ids are looked up in.
        folder: with the *.yaml files; the person's own when left out.
    """
    problems: list[Problem] = []
    found: dict[str, LearnedTree] = {}
    for path in sorted((folder or learned_folder()).glob("*.yaml")):
        try:
            source = read(path)
            learned = build(LearnedTree, source)
        except FileProblems as wrong:
            problems.extend(wrong.problems)
            continue
        if learned.tree != path.stem:
            remedy = "name the file after the tree; until then it is passed over"
            allowed = f"'{path.stem}', as the file is named"
            problems.append(source.problem(("tree",), f"'{learned.tree}'", allowed, remedy))
            continue
        learned, stale = without_stale(learned, catalogue, source)
        problems.extend(stale)
        found[learned.tree] = learned
    return found, tuple(problems)


def read_book(path: Path) -> tuple[LearnedBook, Source]:
    """Return the learned files that another machine exported into one.

    Raises:
        FileProblems: with every mistake in the file.
    """
    source = read(path)
    return build(LearnedBook, source), source


def without_stale(
    learned: LearnedTree, catalogue: Catalogue, source: Source, base: KeyPath = ()
) -> tuple[LearnedTree, list[Problem]]:
    """Return what still fits the trees, and the lines that do not.

    Args:
        learned: as read.
        catalogue: the trees.
        source: the file.
        base: where in the file it stands.
    """
    tree = catalogue.trees.get(learned.tree)
    if tree is None:
        stale = source.problem((*base, "tree"), f"the fault tree '{learned.tree}', which there is not", "", _STALE)
        return learned.model_copy(update={"rates": {}, "questions": {}}), [stale]
    problems: list[Problem] = []

    def gone(at: KeyPath, what: str) -> None:
        problems.append(source.problem((*base, *at), what, "", _STALE, at_value=False))

    rates = {}
    for id, rate in learned.rates.items():
        if catalogue.defined_in.get(id) != tree.id:
            gone(("rates", id), f"the cause '{id}', which this tree does not define")
        else:
            rates[id] = rate
    known = {question.id: question for question in tree.questions}
    questions = {}
    for id, rows in learned.questions.items():
        at: KeyPath = ("questions", id)
        if id not in known:
            gone(at, f"the question '{id}', which this tree does not have")
            continue
        if rows.check != known[id].check:
            gone((*at, "check") if rows.check else at, "rows of another check than the tree has now")
            continue
        given = {}
        for cause, row in rows.given.items():
            if (why := _unfit(row, cause, known[id])) is None:
                given[cause] = row
            else:
                gone((*at, "given", cause), why)
        if given:
            questions[id] = LearnedQuestion(check=rows.check, given=given)
    return learned.model_copy(update={"rates": rates, "questions": questions}), problems


def _unfit(row: LearnedRow, cause: str, question: Question) -> str | None:
    """Return in words why a row does not fit a question, None where it does."""
    if cause not in question.given:
        return f"a row for '{cause}', for which the question has none"
    if isinstance(row, LearnedShift) != (question.check is not None):
        return "a row of another sort than the question has"
    if isinstance(row, LearnedWeights):
        outcomes = {outcome.id for outcome in question.outcomes}
        if set(row.p) - outcomes:
            return f"the outcome '{min(set(row.p) - outcomes)}', which the question does not have"
        if abs((total := sum(row.p.values())) - 1.0) > 1e-4:
            return f"probabilities that add up to {total:.6g}"
    return None


def laid_over(catalogue: Catalogue, learned: Mapping[str, LearnedTree]) -> Catalogue:
    """Return the catalogue with learned rates and rows in place of what was there, whatever its basis.

    Args:
        catalogue: as authored, with the simulated rows.
        learned: by tree; it must fit (`without_stale`).
    """
    trees = {id: _tree_over(tree, learned[id]) if id in learned else tree for id, tree in catalogue.trees.items()}
    return replace(
        catalogue,
        trees=MappingProxyType(trees),
        causes=MappingProxyType({cause.id: cause for tree in trees.values() for cause in tree.causes}),
        questions=MappingProxyType(
            {question.id: question for tree in trees.values() for question in tree.questions}
        ),
    )


def _tree_over(tree: Tree, learned: LearnedTree) -> Tree:
    def cause_over(cause: Cause) -> Cause:
        line = learned.rates.get(cause.id)
        if line is None:
            return cause
        source = f"Learned from closed cases, {line.on}"
        return cause.model_copy(update={"rate": line.rate, "basis": Basis.FLEET, "source": source})

    def question_over(question: Question) -> Question:
        rows = learned.questions.get(question.id)
        if rows is None:
            return question
        given = dict(question.given)
        for cause, row in rows.given.items():
            source = f"Learned from closed cases, {row.on}"
            if isinstance(row, LearnedShift):
                given[cause] = Shift(shift=row.shift, spread=row.spread, basis=Basis.FLEET, source=source)
            else:
                given[cause] = Weights(p=row.p, basis=Basis.FLEET, source=source)
        return question.model_copy(update={"given": given})

    return tree.model_copy(
        update={
            "causes": tuple(cause_over(cause) for cause in tree.causes),
            "questions": tuple(question_over(question) for question in tree.questions),
        }
    )


def save_learned(learned: LearnedTree, folder: Path | None = None) -> Path:
    """Write a learned file, whole or not at all, and return its path; one that holds no line is removed.

    Raises:
        OSError: when the folder cannot be written.
    """
    folder = folder or learned_folder()
    path = folder / f"{learned.tree}.yaml"
    if not learned.lines:
        path.unlink(missing_ok=True)
        return path
    folder.mkdir(parents=True, exist_ok=True)
    head = (
        "# What closed cases taught, accepted by a person. Take a line out, or the file, and the tree's own\n"
        "# value holds again ('faultdoc learn forget').\n"
    )
    write_whole(head + yaml_text(_plain(learned), width=4096), path)
    return path


def remove_learned(trees: Iterator[str] | list[str], folder: Path | None = None) -> list[Path]:
    """Remove the learned files of some trees, and return those there were.

    Raises:
        OSError: when a file cannot be removed.
    """
    paths = [(folder or learned_folder()) / f"{tree}.yaml" for tree in trees]
    there = [path for path in paths if path.exists()]
    for path in there:
        path.unlink()
    return there


def book_text(book: LearnedBook) -> str:
    """Return all that was learned as the text of one file."""
    head = (
        "# What closed cases taught, for another machine: 'faultdoc learn import' reads it. No names, no site.\n"
    )
    return head + yaml_text(_plain(book), width=4096)


def _plain(model: LearnedTree | LearnedBook) -> Any:
    return model.model_dump(mode="json", exclude_defaults=True, exclude_none=True)

"""Rows that were derived from simulated units: read from their files, and laid over the authored estimates."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from faultdoc.library.places import resources_folder
from faultdoc.library.problems import FileProblems, Problem, choose, listed
from faultdoc.library.source import KeyPath, Source, read
from faultdoc.library.translate import build
from faultdoc.library.whole import write_whole
from faultdoc.model.calibration import CalibratedQuestion, Calibration, SimulatedRow, SimulatedShift
from faultdoc.model.tree import Basis, Question, Shift, Tree, Weights

if TYPE_CHECKING:
    from faultdoc.library.load import Catalogue

__all__ = ["calibration_folder", "calibration_text", "laid_over", "load_calibrations", "save_calibration"]

_AGAIN = "run 'faultdoc calibrate --write' again, or take it out"


def calibration_folder() -> Path:
    """Return the folder of the calibration files, one a tree; it need not exist."""
    return resources_folder() / "calibration"


def load_calibrations(catalogue: Catalogue, folder: Path | None = None) -> dict[str, Calibration]:
    """Return the calibrations there are, by tree.

    Args:
        catalogue: what the files' ids are looked up in.
        folder: with the *.yaml files; FaultDoc's own when left out.

    Raises:
        FileProblems: with every mistake in every file; among them each id that the catalogue lacks, and each
            question that has another check or other outcomes than when its rows were derived.
    """
    problems: list[Problem] = []
    found: dict[str, Calibration] = {}
    for path in sorted((folder or calibration_folder()).glob("*.yaml")):
        try:
            source = read(path)
            calibration = build(Calibration, source)
        except FileProblems as wrong:
            problems.extend(wrong.problems)
            continue
        problems.extend(_unfit(calibration, source, catalogue, path.stem))
        found[calibration.tree] = calibration
    if problems:
        raise FileProblems(problems)
    return found


def _unfit(calibration: Calibration, source: Source, catalogue: Catalogue, name: str) -> Iterator[Problem]:
    tree = catalogue.trees.get(calibration.tree)
    if tree is None:
        yield _unknown(source, ("tree",), "fault tree", calibration.tree, catalogue.trees)
        return
    if calibration.tree != name:
        remedy = "name the file after the tree"
        yield source.problem(("tree",), f"'{calibration.tree}'", f"'{name}', as the file is named", remedy)
    questions = {question.id: question for question in tree.questions}
    for id, rows in calibration.questions.items():
        at: KeyPath = ("questions", id)
        if id not in questions:
            yield _unknown(source, at, "question", id, questions, at_value=False)
            continue
        question = questions[id]
        if rows.check != question.check:
            allowed = f"'{question.check}', as the tree has it" if question.check else "none, as in the tree"
            yield source.problem((*at, "check"), f"the check '{rows.check}'", allowed, _AGAIN)
            continue
        for cause, row in rows.given.items():
            yield from _unfit_row(source, (*at, "given", cause), cause, row, question, catalogue)


def _unfit_row(
    source: Source, at: KeyPath, cause: str, row: SimulatedRow, question: Question, catalogue: Catalogue
) -> Iterator[Problem]:
    if cause != "default" and cause not in catalogue.causes:
        yield _unknown(source, at, "cause", cause, ("default", *catalogue.causes), at_value=False)
    if isinstance(row, SimulatedShift) != (question.check is not None):
        allowed = "shift and spread" if question.check else "p, with the probability of each outcome"
        found = "a row with shift" if isinstance(row, SimulatedShift) else "a row with p"
        yield source.problem(at, found, f"{allowed}, as the question has it", _AGAIN, at_value=False)
        return
    if isinstance(row, SimulatedShift):
        return
    outcomes = [outcome.id for outcome in question.outcomes]
    for outcome in row.p:
        if outcome not in outcomes:
            yield _unknown(source, (*at, "p", outcome), "outcome", outcome, outcomes, at_value=False)
    if abs((total := sum(row.p.values())) - 1.0) > 1e-6:
        yield source.problem((*at, "p"), f"probabilities that add up to {total:.10g}", "1", _AGAIN)


def _unknown(
    source: Source, at: KeyPath, what: str, id: str, known: Iterable[str], *, at_value: bool = True
) -> Problem:
    names = list(known)
    return source.problem(
        at, f"the {what} '{id}', which no tree has", listed(names, at_most=8),
        choose(id, names, otherwise=_AGAIN), at_value=at_value,
    )  # fmt: skip


def laid_over(catalogue: Catalogue, calibrations: Mapping[str, Calibration]) -> Catalogue:
    """Return the catalogue with simulated rows in place of authored estimates.

    A row that is published or counted in a fleet stays. A row that a tree lacks is added: the simulator found
    that the cause moves that reading, though the author did not say so.

    Args:
        catalogue: as it is authored.
        calibrations: by tree.
    """
    from dataclasses import replace

    trees = {
        id: _tree_over(tree, calibrations[id]) if id in calibrations else tree
        for id, tree in catalogue.trees.items()
    }
    return replace(
        catalogue,
        trees=MappingProxyType(trees),
        questions=MappingProxyType(
            {question.id: question for tree in trees.values() for question in tree.questions}
        ),
    )


def _tree_over(tree: Tree, calibration: Calibration) -> Tree:
    questions = tuple(
        _question_over(question, calibration.questions[question.id])
        if question.id in calibration.questions
        else question
        for question in tree.questions
    )
    return tree.model_copy(update={"questions": questions})


def _question_over(question: Question, rows: CalibratedQuestion) -> Question:
    given = dict(question.given)
    for cause, row in rows.given.items():
        if cause in given and given[cause].basis is not Basis.ESTIMATE:
            continue
        source = f"Simulated units, {row.draws} draws"
        if isinstance(row, SimulatedShift):
            given[cause] = Shift(shift=row.shift, spread=row.spread, basis=Basis.SIMULATED, source=source)
        else:
            given[cause] = Weights(p=row.p, basis=Basis.SIMULATED, source=source)
    return question.model_copy(update={"given": given})


def calibration_text(calibration: Calibration) -> str:
    """Return a calibration as the text of its file, one row a line."""
    lines = [
        "# Derived from simulated units by 'faultdoc calibrate --write'; do not edit, run that again.",
        "# A row here stands in for the tree's authored one where that is an estimate.",
        f"tree: {calibration.tree}",
        f"seed: {calibration.seed}",
        f"draws: {calibration.draws}",
    ]
    if calibration.left_out:
        lines.append("left_out:")
        for one in calibration.left_out:
            reason = one.reason.replace('"', "'")
            lines.append(f'  - {{question: {one.question}, cause: {one.cause}, reason: "{reason}"}}')
    lines.append("questions:" if calibration.questions else "questions: {}")
    for id, rows in calibration.questions.items():
        lines.append(f"  {id}:")
        if rows.check is not None:
            lines.append(f"    check: {rows.check}")
        lines.append("    given:")
        for cause, row in rows.given.items():
            if isinstance(row, SimulatedShift):
                said = f"shift: {row.shift:g}, spread: {row.spread:g}"
            else:
                said = f"p: {{{', '.join(f'{outcome}: {p:g}' for outcome, p in row.p.items())}}}"
            lines.append(f"      {cause}: {{{said}, draws: {row.draws}, basis: simulated}}")
    return "\n".join(lines) + "\n"


def save_calibration(calibration: Calibration, folder: Path | None = None) -> Path:
    """Write a calibration file, whole or not at all, and return its path.

    Raises:
        OSError: when the folder cannot be written.
    """
    folder = folder or calibration_folder()
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{calibration.tree}.yaml"
    write_whole(calibration_text(calibration), path)
    return path

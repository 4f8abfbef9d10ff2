"""Hidden faults on simulated units, played by the engine: the score as text and as JSON, lost cases as files."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass
from itertools import groupby
from pathlib import Path
from typing import Any

from faultdoc.library.cases import save_case
from faultdoc.library.load import load_library
from faultdoc.library.problems import choose, listed
from faultdoc.practice.closed_loop import Played, Score, draw, play_all, score
from faultdoc.practice.simple import RULES
from faultdoc.record import moves
from faultdoc.record.conjugate import wilson
from faultdoc.terminal.output import OutputError
from faultdoc.terminal.text import paragraph

__all__ = ["EvaluateError", "Evaluation", "as_json", "evaluate", "evaluation_text", "save_lost"]


class EvaluateError(ValueError):
    """What was asked cannot be played; the message says what was found and what is allowed."""


@dataclass(frozen=True)
class Evaluation:
    """What was played, and how it went.

    Attributes:
        seed, faults: of the first case, and how many at once.
        score: over all cases.
        trees: the same by tree; None where a danger ended every case of it.
    """

    seed: int
    faults: int
    score: Score
    trees: dict[str, Score | None]


def evaluate(
    cases: int,
    seed: int,
    *,
    tree: str | None = None,
    faults: int = 1,
    processes: int | None = None,
    progress: Callable[[int], None] | None = None,
) -> Evaluation:
    """Draw hidden faults, play them, and score it. The same arguments give the same result.

    Args:
        cases: how many.
        seed: of the first; the others follow it.
        tree: id of the symptom, or any.
        faults: how many at once.
        processes: how many are played at once; by default as many as there are processors.
        progress: called with how many are done.

    Raises:
        EvaluateError: for a tree that there is not, one that no unit shows with so many simulated causes, or when
            a danger ended every case.
    """
    trees = load_library().trees
    if tree is not None and tree not in trees:
        remedy = choose(tree, trees, otherwise="name one of them")
        raise EvaluateError(f"no fault tree '{tree}'; {remedy}; there are: {listed(trees)}")
    try:
        settings = [draw(one, tree=tree, faults=faults) for one in range(seed, seed + cases)]
        played = play_all(settings, min(processes or _processors(), cases), progress)
        return Evaluation(seed, faults, score(played), _by_tree(played))
    except ValueError as problem:
        raise EvaluateError(str(problem)) from problem


def _processors() -> int:
    """Return how many processors this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _by_tree(played: Sequence[Played]) -> dict[str, Score | None]:
    def of(one: Played) -> str:
        return one.setting.tree

    found: dict[str, Score | None] = {}
    for tree, group in groupby(sorted(played, key=of), of):
        some = list(group)
        found[tree] = None if all(one.stopped for one in some) else score(some)
    return found


def save_lost(evaluation: Evaluation, folder: Path) -> dict[int, Path]:
    """Write every lost case as a case file into a folder, which is made; what was hidden stands in its notes.

    Returns:
        The files, by the case's seed.

    Raises:
        OutputError: when the folder or a file cannot be written.
    """
    files: dict[int, Path] = {}
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for one in evaluation.score.lost:
            setting = one.setting
            path = folder / f"{setting.seed}_{setting.tree}_{setting.unit}.yaml"
            case = one.case.model_copy(update={"title": f"Lost in evaluation, seed {setting.seed}"})
            case = moves.note(case, f"Simulated. Hidden: {_hidden(one)}.")
            save_case(moves.note(case, f"Lost: {_first(one)} Why: {one.why_lost}"), path)
            files[setting.seed] = path
    except OSError as problem:
        raise OutputError(f"{folder} cannot be written: {problem.strerror or problem}; name a folder") from None
    return files


def as_json(evaluation: Evaluation, files: dict[int, Path] | None = None) -> dict[str, Any]:
    """Return the score as promised data: keys are only ever added."""
    found = evaluation.score
    data = asdict(found)
    data["reliability"] = [
        dict(zip(("from", "to", "cases", "meant", "true"), row, strict=True)) for row in found.reliability
    ]
    data["faults"], data["seed"] = evaluation.faults, evaluation.seed
    data["trees"] = [
        {"id": id, "cases": 0 if one is None else one.cases - one.stopped, **_short(one)}
        for id, one in evaluation.trees.items()
    ]
    data["lost"] = [
        {
            "seed": one.setting.seed,
            "tree": one.setting.tree,
            "unit": one.setting.unit,
            "hidden": one.setting.faults,
            "stood_first": one.stood_first,
            "rank": one.rank,
            "solved": one.solved,
            "why": one.why_lost,
            "file": str(files[one.setting.seed]) if files else None,
        }
        for one in found.lost
    ]
    return data


def _short(found: Score | None) -> dict[str, float | None]:
    keys = ("first", "first_three", "solved", "questions", "minutes_mean", "minutes_whole", "minutes_best")
    return {key: None if found is None else getattr(found, key) for key in keys}


def evaluation_text(evaluation: Evaluation, files: dict[int, Path] | None = None) -> str:
    """Return the score as lines of text."""
    found = evaluation.score
    whole = found.cases - found.stopped
    last = evaluation.seed + found.cases - 1
    plural = "s" if evaluation.faults > 1 else ""
    lines = [
        paragraph(
            f"{found.cases} cases on simulated units, seeds {evaluation.seed} to {last}, "
            f"{evaluation.faults} hidden fault{plural} each. A danger that was told ended {found.stopped} "
            f"at once; the figures are of the other {whole}. In brackets: 95 % interval (Wilson)."
        ),
        "",
        _share("true cause first at the conclusion", found.first, whole),
        _share("true cause among the first three", found.first_three, whole),
        _share("solved: a proof held", found.solved, whole),
        _share("first remedy right", found.first_remedy_right, whole),
        f"{'questions a case':<44} {found.questions:8.1f}",
        f"{'wrong fixes a case':<44} {found.wrong_fixes:8.2f}",
        f"{'unsafe steps, all cases together':<44} {found.unsafe_steps:8d}",
        "",
        *_minutes(found),
        "",
        *_calibration(found),
        "",
        paragraph(
            f"{found.drawn:.0%} of the answers were drawn from the trees' own tables, as nothing simulated shows "
            "them. These flatter the engine, whose numbers they are: with so many of them, the figures above are "
            "better than they would be at real units."
        ),
        "",
        paragraph(
            f"{found.turned_down:.0%} of the causes drawn were drawn again, as no simulated unit showed the "
            "symptom with them: nobody calls about a unit that runs as it should. Nothing is learnt of these."
        ),
        "",
        *_trees(evaluation),
        "",
        *_lost(found, files),
    ]
    return "\n".join(lines)


def _share(name: str, share: float, count: int) -> str:
    low, high = wilson(share, count)
    return f"{name:<44} {share:8.1%}  ({low:.0%} to {high:.0%})"


def _minutes(found: Score) -> list[str]:
    best = min(found.minutes_simple, key=lambda rule: found.minutes_simple[rule])
    ratio = found.minutes_simple[best] / found.minutes_whole
    return [
        "Minutes a case, oil warm-ups included:",
        f"  {'one who knows the cause from the start':<50} {found.minutes_best:6.0f}",
        f"  {'the engine, to the proved fix or to where it ended':<50} {found.minutes_mean:6.0f}",
        f"  {'the same, with what handing over takes after it':<50} {found.minutes_whole:6.0f}",
        *(
            f"  {RULES[rule][0]:<50} {minutes:6.0f}{'  <- best of these' if rule == best else ''}"
            for rule, minutes in found.minutes_simple.items()
        ),
        paragraph(
            f"The best way without questions takes {ratio:.2f} times the engine's minutes, handing over counted "
            "in both."
        ),
    ]


def _calibration(found: Score) -> list[str]:
    return [
        "Probability of the cause that stood first, at the first remedy proposed:",
        "          meant   cases  mean meant  share true",
        *(
            f"  {low:4.0%} to {high:4.0%} {count:7d}  {meant:10.1%}  {true:10.1%}"
            for low, high, count, meant, true in found.reliability
        ),
        f"  expected calibration error {found.calibration_error:.3f}; Brier score {found.brier:.3f} (all causes)",
        f"  were every probability right, so few cases would give by chance: {found.calibration_chance:.3f}",
    ]


def _trees(evaluation: Evaluation) -> list[str]:
    width = max(len("tree"), *(len(id) for id in evaluation.trees))
    lines = [
        "By tree: shares as above; minutes of the engine with handing over, of one who knows",
        "the cause, and of the best that asks nothing:",
        f"{'tree':<{width}}  cases  first   in 3  solved  minutes   known  no questions",
    ]
    for id, one in evaluation.trees.items():
        if one is None:
            lines.append(f"{id:<{width}}      0  a danger ended every case")
            continue
        shares = f"{one.first:5.0%}  {one.first_three:5.0%}  {one.solved:6.0%}"
        simple = min(one.minutes_simple.values())
        minutes = f"{one.minutes_whole:7.0f}  {one.minutes_best:6.0f}  {simple:12.0f}"
        lines.append(f"{id:<{width}}  {one.cases - one.stopped:5d}  {shares}  {minutes}")
    return lines


def _lost(found: Score, files: dict[int, Path] | None) -> list[str]:
    if not found.lost:
        return ["No case was lost: the true cause stood first in each, and its fix was proved."]
    lines = [f"Lost, that is, not solved or the true cause not first: {len(found.lost)}"]
    for one in found.lost:
        setting = one.setting
        lines.append(paragraph(f"{setting.tree}, {setting.unit}, seed {setting.seed}: {_hidden(one)}.", "- "))
        lines.append(paragraph(f"{_first(one)} Why: {one.why_lost}", "  "))
        if files:
            lines.append(f"  {files[setting.seed]}")
    return lines


def _hidden(one: Played) -> str:
    return " and ".join(f"{id} (severity {severity:.2f})" for id, severity in one.setting.faults.items())


def _first(one: Played) -> str:
    place = f"the true cause in place {one.rank}" if one.rank else "the true cause nowhere"
    return f"First stood {one.stood_first}, {place}."

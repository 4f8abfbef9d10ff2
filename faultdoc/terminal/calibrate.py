"""Rows derived from simulated units beside the authored ones, and what they do to the closed loop, as text."""

from __future__ import annotations

import sys
from collections import Counter, defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from faultdoc.library.calibration import laid_over, save_calibration
from faultdoc.library.load import Library, load_unit, shipped_units
from faultdoc.model.calibration import SimulatedShift, SimulatedWeights
from faultdoc.model.tree import Given, Shift, Weights
from faultdoc.practice.calibrate import Finding, Outcome, calibration, derive, gather, same_groups
from faultdoc.practice.closed_loop import Score, draw, play_all
from faultdoc.practice.closed_loop import score as scored
from faultdoc.terminal.text import paragraph

__all__ = ["FIRST_SEED", "MOST_SHOWN", "difference_text", "finding_text", "run", "score_text"]

FIRST_SEED = 1_000_000
"""Of the cases that are played for the score."""

MOST_SHOWN = 8
"""Rows shown of each tree, those that differ most."""

_SHOWN = (Outcome.DIFFERS, Outcome.STILL, Outcome.ADDED)


def run(
    tell: Callable[[str], None],
    library: Library,
    *,
    tree: str | None = None,
    draws: int = 8,
    seed: int = 1,
    write: bool = False,
    score: int = 0,
) -> None:
    """Derive rows, tell how they differ, and write and score them where that is wished for.

    Args:
        tell: called with each piece of text.
        library: as it is authored.
        tree: id; all when left out.
        draws: for each cause and data sheet.
        seed: of the draws.
        write: whether the rows are written.
        score: how many cases to play with the authored rows and again with the simulated ones.

    Raises:
        OSError: when the rows cannot be written.
    """
    sheets = [load_unit(id) for id in shipped_units()]
    drawn = gather(library, sheets, draws, seed, None if tree is None else [tree], _progress("causes drawn"))
    groups = same_groups(library.causes)
    found = {}
    for id in library.trees if tree is None else [tree]:
        findings = [
            one
            for question in library.trees[id].questions
            if (id, question.id) in drawn
            for one in derive(question, drawn[id, question.id], groups)
        ]
        found[id] = calibration(library.trees[id], findings, draws, seed)
        tell(difference_text(id, findings) + "\n")
    if write:
        paths = [save_calibration(one) for one in found.values()]
        tell(f"{len(paths)} calibration file{'s' if len(paths) > 1 else ''} written to {paths[0].parent}.")
    if score:
        after = replace(library, catalogue=laid_over(library.catalogue, found))
        settings = [draw(FIRST_SEED + number, tree=tree) for number in range(score)]
        before, with_rows = (
            scored(play_all(settings, progress=_progress(f"cases played, {name}", score), library=one))
            for name, one in (("authored rows", library), ("simulated rows", after))
        )
        tell(score_text(before, with_rows, FIRST_SEED))


def _progress(what: str, whole: int | None = None) -> Callable[..., None]:
    """Return what tells how far things are, on the standard error's one line, where someone watches."""

    def told(done: int, of: int | None = whole) -> None:
        if sys.stderr.isatty():
            print(f"\r{done} of {of} {what}", end="\n" if done == of else "", file=sys.stderr, flush=True)

    return told


def difference_text(tree: str, findings: Sequence[Finding], most: int = MOST_SHOWN) -> str:
    """Return how the simulated rows of a tree differ from its authored ones, the most different first.

    Args:
        tree: its id.
        findings: of all its questions.
        most: rows to show at most.
    """
    counts = Counter(one.outcome for one in findings)
    said = ", ".join(f"{counts[outcome]} {outcome.value}" for outcome in Outcome if counts[outcome])
    parts = [paragraph(f"{tree}: {len(findings)} rows: {said or 'none'}")]
    shown = sorted((one for one in findings if one.outcome in _SHOWN), key=lambda one: -one.distance)
    parts += [finding_text(one) for one in shown[:most]]
    if len(shown) > most:
        parts.append(f"  ... and {len(shown) - most} more that differ")
    heaps = [
        one for one in findings if one.remark and one.outcome is not Outcome.LEFT_OUT and one not in shown[:most]
    ]
    parts += [paragraph(f"{one.question}, {one.cause}: {one.remark}", "  ", "      ") for one in heaps[:most]]
    reasons: dict[str, list[str]] = defaultdict(list)
    for one in findings:
        if one.outcome is Outcome.LEFT_OUT:
            reasons[one.remark].append(f"{one.question}, {one.cause}")
    parts += [
        paragraph(f"left out, as {reason}: {'; '.join(rows)}", "  ", "      ") for reason, rows in reasons.items()
    ]
    return "\n".join(parts)


def finding_text(one: Finding) -> str:
    """Return one row beside the authored one, in words and numbers."""
    assert one.row is not None
    remark = f"; {one.remark}" if one.remark else ""
    text = (
        f"{one.question}, {one.cause}: authored {_numbers(one.authored)}; simulated {_numbers(one.row)} "
        f"({one.row.draws} draws): {_words(one)}{remark}"
    )
    return paragraph(text, "  ", "      ")


def _numbers(row: Given | SimulatedShift | SimulatedWeights) -> str:
    if isinstance(row, Shift | SimulatedShift):
        return f"{row.shift:.3g} ± {row.spread:.2g}"
    return ", ".join(f"{id} {100.0 * p:.0f} %" for id, p in row.p.items() if p >= 0.005)


def _words(one: Finding) -> str:
    if one.outcome is Outcome.STILL:
        return "the cause hardly moves this reading"
    if one.outcome is Outcome.ADDED:
        return "it moves this reading, and the tree does not say so"
    new, old = one.row, one.authored
    if isinstance(new, SimulatedShift) and isinstance(old, Shift):
        apart = new.shift - old.shift
        side = "higher" if apart > 0.0 else "lower"
        words = f"{side} by {abs(apart):.2g}" if abs(apart) > 0.5 * old.spread else "about the same place"
        if new.spread > 1.5 * old.spread:
            words += ", wider"
        elif new.spread < old.spread / 1.5:
            words += ", narrower"
        return words
    assert isinstance(new, SimulatedWeights)
    assert isinstance(old, Weights)
    gains = {id: new.p.get(id, 0.0) - old.p.get(id, 0.0) for id in {**new.p, **old.p}}
    return f"more often '{max(gains, key=lambda id: gains[id])}'"


def score_text(before: Score, after: Score, first_seed: int) -> str:
    """Return the figures of the closed loop with the authored rows and with the simulated ones.

    Args:
        before: with the authored rows.
        after: with the simulated rows, of the same cases.
        first_seed: of the cases.
    """
    rows: Mapping[str, tuple[float, float, str]] = {
        "true cause first": (before.first, after.first, "{:.1%}"),
        "among the first three": (before.first_three, after.first_three, "{:.1%}"),
        "solved": (before.solved, after.solved, "{:.1%}"),
        "first remedy right": (before.first_remedy_right, after.first_remedy_right, "{:.1%}"),
        "calibration error": (before.calibration_error, after.calibration_error, "{:.3f}"),
        "Brier score": (before.brier, after.brier, "{:.3f}"),
        "questions a case": (before.questions, after.questions, "{:.1f}"),
        "wrong fixes a case": (before.wrong_fixes, after.wrong_fixes, "{:.2f}"),
        "minutes a case": (before.minutes_mean, after.minutes_mean, "{:.0f}"),
        "unsafe steps": (before.unsafe_steps, after.unsafe_steps, "{:.0f}"),
        "answers drawn": (before.drawn, after.drawn, "{:.1%}"),
    }
    lines = [f"{before.cases} cases, seeds from {first_seed:,}", f"{'':24}{'authored':>10}{'simulated':>11}"]
    lines += [f"{name:24}{form.format(a):>10}{form.format(b):>11}" for name, (a, b, form) in rows.items()]
    return "\n".join(lines)

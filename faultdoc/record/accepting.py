"""What was learned, kept: accept lines, export them to another machine, take its in, forget.

Counts travel with every line, so what two machines counted is pooled, and a case that is in both case books counts
once: files name the cases behind them by their random numbers, and by nothing else.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from faultdoc.library.learned import (
    book_text,
    load_learned,
    read_book,
    remove_learned,
    save_learned,
    without_stale,
)
from faultdoc.library.load import Library, load_library
from faultdoc.library.problems import Problem
from faultdoc.library.whole import write_whole
from faultdoc.model.learned import (
    VERSION,
    LearnedBook,
    LearnedQuestion,
    LearnedRate,
    LearnedRow,
    LearnedShift,
    LearnedTree,
    LearnedWeights,
)
from faultdoc.model.tree import Shift, Weights
from faultdoc.record.casebook import CaseBook, Wanted
from faultdoc.record.closedcases import Record
from faultdoc.record.learning import (
    C,
    Line,
    Proposal,
    accepted,
    learned_rate,
    learned_shift,
    learned_weights,
    library_with,
    propose,
    together,
)

__all__ = [
    "Incoming",
    "Taught",
    "accept",
    "export",
    "forget",
    "if_accepted",
    "in_force",
    "incoming",
    "records",
    "take_in",
    "taught",
]


@dataclass(frozen=True)
class Taught:
    """What the cases say, and what it is compared with.

    Attributes:
        prior: the library without anything learned.
        now: the library as it is in force.
        kept: what was accepted, by tree.
        stale: what was passed over in the learned files.
        proposal: what would change.
        on: today.
    """

    prior: Library
    now: Library
    kept: Mapping[str, LearnedTree]
    stale: tuple[Problem, ...]
    proposal: Proposal
    on: date


def records(book: CaseBook) -> list[Record]:
    """Return the closed cases of a case book with their journals.

    Raises:
        CaseBookError: when the case book cannot be read.
    """
    found = []
    for one in book.cases(Wanted(open=False, limit=None)):
        start, entries = book.load(one.id)
        found.append(Record(one.uid, one.title, one.updated, one.case, start, entries))
    return found


def taught(found: Iterable[Record], on: date | None = None) -> Taught:
    """Return what closed cases teach, beside what is in force.

    Raises:
        FileProblems: when FaultDoc's own files are not sound.
    """
    on = on or date.today()
    prior = load_library(learned=False)
    kept, stale = load_learned(prior.catalogue)
    now = library_with(prior, kept)
    return Taught(prior, now, kept, stale, propose(found, prior, now, kept, on), on)


def accept(known: Taught, lines: Iterable[Line], version: str) -> list[Path]:
    """Write the lines into the learned files; they hold from the next start on. Return the files written.

    Raises:
        OSError: when the folder cannot be written.
    """
    cases = [one.uid for one in known.proposal.told]
    changed = accepted(lines, known.kept, cases, known.on, version, known.prior.catalogue)
    return [save_learned(tree) for tree in changed.values()]


def in_force(prior: Library) -> Library:
    """Return the library with all that has been accepted so far laid over it."""
    kept, stale = load_learned(prior.catalogue)
    return replace(library_with(prior, kept), left_out=stale)


def if_accepted(known: Taught, lines: Iterable[Line]) -> Library:
    """Return the library as it would be with some lines accepted; nothing is written."""
    changed = accepted(lines, known.kept, [], known.on, "", known.prior.catalogue)
    return library_with(known.prior, {**known.kept, **changed})


def forget(ids: Iterable[str], kept: Mapping[str, LearnedTree], on: date | None = None) -> list[str]:
    """Take lines out of the learned files, or whole trees; return the lines that were forgotten, by id.

    Args:
        ids: of lines (`rate:...`, `row:...:...`) or trees.
        kept: what was accepted, by tree.
        on: today.

    Raises:
        KeyError: with the first id that names nothing that was learned.
        OSError: when the folder cannot be written.
    """
    wanted: dict[str, set[str]] = {}
    for id in ids:
        trees = {tree: own for tree, learned in kept.items() if (own := _line_ids(learned) & {id})}
        if id in kept:
            trees = {id: _line_ids(kept[id])}
        if not trees:
            raise KeyError(id)
        for tree, lines in trees.items():
            wanted.setdefault(tree, set()).update(lines)
    for tree, lines in wanted.items():
        if lines == _line_ids(kept[tree]):
            remove_learned([tree])
        else:
            save_learned(_less(kept[tree], lines, on or date.today()))
    return sorted(line for lines in wanted.values() for line in lines)


def _line_ids(learned: LearnedTree) -> set[str]:
    rows = {f"row:{id}:{cause}" for id, one in learned.questions.items() for cause in one.given}
    return {f"rate:{cause}" for cause in learned.rates} | rows


def _less(learned: LearnedTree, lines: set[str], on: date) -> LearnedTree:
    rates = {id: rate for id, rate in learned.rates.items() if f"rate:{id}" not in lines}
    questions = {}
    for id, rows in learned.questions.items():
        given = {cause: row for cause, row in rows.given.items() if f"row:{id}:{cause}" not in lines}
        if given:
            questions[id] = LearnedQuestion(check=rows.check, given=given)
    left = learned.model_copy(update={"rates": rates, "questions": questions, "on": on.isoformat()})
    learned_rows = [row for one in questions.values() for row in one.given.values()]
    from_elsewhere = any(line.elsewhere for line in (*rates.values(), *learned_rows))
    return left if from_elsewhere else left.model_copy(update={"other_cases": ()})


# --- to and from other machines ---


def export(kept: Mapping[str, LearnedTree], path: Path, version: str, on: date | None = None) -> None:
    """Write all that was accepted into one file for another machine.

    Raises:
        OSError: when the file cannot be written.
    """
    day = (on or date.today()).isoformat()
    book = LearnedBook(version=VERSION, faultdoc=version, on=day, trees=tuple(kept.values()))
    write_whole(book_text(book), path)


@dataclass(frozen=True)
class Incoming:
    """What taking in a file would do.

    Attributes:
        trees: the learned files as they would then be, of the trees that change.
        changes: in words, line by line.
        told: in words, what was passed over or needs doing.
    """

    trees: Mapping[str, LearnedTree]
    changes: tuple[str, ...]
    told: tuple[str, ...]


def incoming(path: Path, prior: Library, kept: Mapping[str, LearnedTree], on: date | None = None) -> Incoming:
    """Return what taking in a file of another machine would change, without changing anything.

    Args:
        path: the file.
        prior: the library without anything learned.
        kept: what was accepted here, by tree.
        on: today.

    Raises:
        FileProblems: with every mistake in the file.
    """
    book, source = read_book(path)
    day = on or date.today()
    trees: dict[str, LearnedTree] = {}
    changes: list[str] = []
    told: list[str] = []
    for place, theirs in enumerate(book.trees):
        theirs, stale = without_stale(theirs, prior.catalogue, source, ("trees", place))
        told += [str(problem) for problem in stale]
        if not theirs.lines:
            continue
        ours = kept.get(theirs.tree)
        merged, words = _merged(theirs, ours, prior, day)
        told += words
        if merged is None:
            continue
        trees[theirs.tree] = merged
        changes += _changes(theirs.tree, merged, ours, prior)
    return Incoming(trees, tuple(changes), tuple(told))


def take_in(found: Incoming) -> list[Path]:
    """Write what a file of another machine changes; return the files written.

    Raises:
        OSError: when the folder cannot be written.
    """
    return [save_learned(tree) for tree in found.trees.values()]


def _merged(
    theirs: LearnedTree, ours: LearnedTree | None, prior: Library, on: date
) -> tuple[LearnedTree | None, list[str]]:
    """Return one tree's learned file with another machine's counts in it; None where ours already says more."""
    came = {*theirs.own_cases, *theirs.other_cases}
    own = set(ours.own_cases) if ours else set()
    had = set(ours.other_cases) if ours else set()
    told = []
    if had and came & had and not came >= had:
        return None, [
            f"{theirs.tree}: passed over. Some of its {len(came)} cases, but not all of the {len(had)} that came "
            "before, are in it: forget those first to take it in."
        ]
    # Counts that came before go on only if they are of other cases; a newer file of the same ones has them in it.
    add = not came & had
    # Our own counts are of no use beside a file that has some of our cases in it: they come back with 'accept'.
    doubled = bool(came & own)
    if doubled:
        told.append(
            f"{theirs.tree}: {len(came & own)} of its {len(came)} cases are in your own case book too. They count "
            "once; accept anew what your cases say, to add the others of yours."
        )
    rates = dict(ours.rates) if ours else {}
    questions = {id: dict(rows.given) for id, rows in ours.questions.items()} if ours else {}
    for cause, rate in theirs.rates.items():
        made = _pooled_rate(prior, cause, rate, rates.get(cause), add, doubled, on)
        if made is not None:
            rates[cause] = made
    for id, rows in theirs.questions.items():
        for cause, row in rows.given.items():
            given = questions.setdefault(id, {})
            pooled = _pooled_row(prior, id, cause, row, given.get(cause), add, doubled, on)
            if pooled is not None:
                given[cause] = pooled
    learned = LearnedTree(
        tree=theirs.tree,
        version=VERSION,
        faultdoc=theirs.faultdoc,
        on=on.isoformat(),
        own_cases=tuple(sorted(own - came)),
        other_cases=tuple(sorted(came | had)),
        rates=rates,
        questions={
            id: LearnedQuestion(check=prior.questions[id].check, given=given) for id, given in questions.items()
        },
    )
    return learned, told


def _pooled_rate(
    prior: Library, cause: str, theirs: LearnedRate, ours: LearnedRate | None, add: bool, doubled: bool, on: date
) -> LearnedRate | None:
    before = ours.elsewhere if ours and add else None
    own = ours.own if ours and not doubled else None
    return learned_rate(prior.causes[cause], own, _sum(theirs.own, theirs.elsewhere, before), on)


def _pooled_row(
    prior: Library, id: str, cause: str, theirs: LearnedRow, ours: LearnedRow | None, add: bool, doubled: bool,
    on: date,
) -> LearnedRow | None:  # fmt: skip
    question = prior.questions[id]
    row = question.given[cause]
    if isinstance(theirs, LearnedWeights) and isinstance(row, Weights):
        mine = ours if isinstance(ours, LearnedWeights) else None
        counts = _sum(theirs.own, theirs.elsewhere, mine.elsewhere if mine and add else None)
        return learned_weights(question, row, mine.own if mine and not doubled else None, counts, on)
    assert isinstance(theirs, LearnedShift)
    assert isinstance(row, Shift)
    kept = ours if isinstance(ours, LearnedShift) else None
    readings = _sum(theirs.own, theirs.elsewhere, kept.elsewhere if kept and add else None)
    return learned_shift(row, kept.own if kept and not doubled else None, readings, on)


def _sum(*counts: C | None) -> C | None:
    total: C | None = None
    for one in counts:
        total = together(total, one)
    return total


def _changes(tree: str, merged: LearnedTree, ours: LearnedTree | None, prior: Library) -> list[str]:
    """Return in words what is other in a learned file than what holds now."""
    now = library_with(prior, {tree: ours} if ours else {})
    lines = []
    for cause, rate in merged.rates.items():
        before = now.causes[cause].rate
        if abs(before - rate.rate) > 1e-9:
            lines.append(f"rate:{cause}: {before:.3g} -> {rate.rate:.3g} per 1,000 visits")
    for id, rows in merged.questions.items():
        for cause, row in rows.given.items():
            held = now.questions[id].given[cause]
            if isinstance(row, LearnedShift) and isinstance(held, Shift):
                if (row.shift, row.spread) != (held.shift, held.spread):
                    words = f"{held.shift:.3g} ± {held.spread:.2g} -> {row.shift:.3g} ± {row.spread:.2g}"
                    lines.append(f"row:{id}:{cause}: {words}")
            elif isinstance(row, LearnedWeights) and isinstance(held, Weights) and row.p != held.p:
                outcomes = dict.fromkeys((*held.p, *row.p))
                words = ", ".join(
                    f"{one} {100 * held.p.get(one, 0.0):.0f} -> {100 * row.p.get(one, 0.0):.0f} %"
                    for one in outcomes
                )
                lines.append(f"row:{id}:{cause}: {words}")
    return lines

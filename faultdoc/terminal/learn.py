"""`faultdoc learn`: what closed cases teach, in words and as JSON; accepting, carrying and forgetting it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from faultdoc import __version__
from faultdoc.library.problems import choose
from faultdoc.record.accepting import (
    Taught,
    accept,
    export,
    forget,
    incoming,
    records,
    take_in,
    taught,
)
from faultdoc.record.casebook import CaseBook
from faultdoc.record.learning import Line, Value
from faultdoc.terminal.output import OutputError
from faultdoc.terminal.text import paragraph

__all__ = [
    "LearnError",
    "accept_lines",
    "counted_words",
    "export_to",
    "forget_lines",
    "import_from",
    "learn_json",
    "learn_text",
    "look",
]


class LearnError(Exception):
    """What was asked names nothing that there is; the message says what helps."""


def look() -> Taught:
    """Return what the closed cases of the case book teach.

    Raises:
        CaseBookError: when the case book cannot be read.
    """
    book = CaseBook.open()
    try:
        return taught(records(book))
    finally:
        book.dispose()


def learn_text(known: Taught, every: bool = False) -> str:
    """Return what would change, tree by tree: the lines that moved by more than noise, or every one."""
    proposal = known.proposal
    parts = [paragraph(counted_words(known))]
    shown = [line for line in proposal.lines if every or (line.moved and not line.kept)]
    for id, tree in known.prior.trees.items():
        lines = [line for line in shown if line.tree == id]
        if lines:
            parts.append("\n".join([paragraph(f"{tree.title} ({id})"), *map(_line_text, lines)]))
    if proposal.lines and not shown:
        parts.append("No number moved by more than noise.")
    if hidden := len(proposal.lines) - len(shown):
        parts.append(paragraph(f"{hidden} other lines moved by no more than noise; --every shows them."))
    if shown:
        parts.append(
            paragraph(
                "Nothing has been changed. 'faultdoc learn accept ID ...' takes lines in, or those of a tree by "
                "its id; --all takes in all that moved by more than noise."
            )
        )
    parts += [
        paragraph(f"Counted with an earlier case: {one.title} ({one.closed:%Y-%m-%d})", "", "  ")
        for one in proposal.repeats
    ]
    parts += [paragraph(f"Passed over: {problem}", "", "  ") for problem in known.stale]
    return "\n\n".join(parts)


def counted_words(known: Taught) -> str:
    """Return in words how many cases count, and why others do not."""
    proposal = known.proposal
    count = len(proposal.told)
    words = f"{count} closed case{'' if count == 1 else 's'} with a proved cause count{'s' if count == 1 else ''}."
    if proposal.repeats:
        more = len(proposal.repeats)
        words += (
            f" {more} more {'has' if more == 1 else 'have'} the cause of a case on the same unit shortly before, "
            f"and count{'s' if more == 1 else ''} with it."
        )
    reasons = Counter(one.reason for one in proposal.left_out)
    if reasons:
        said = ", ".join(f"{count} ({reason})" for reason, count in reasons.most_common())
        words += f" Left out: {said}."
    if not count:
        words += " Close cases with their fix proved, on units of your own, and look again."
    return words


def _line_text(line: Line) -> str:
    marks = [mark for mark, on in (("more than noise", line.moved), ("accepted", line.kept)) if on]
    head = paragraph(f"{line.title} [{line.id}]", "  ", "      ")
    values = [paragraph(f"{value.name}: {value_words(value)}", "      ", "        ") for value in line.values]
    tail = f"{line.said}; before that: {line.basis.value}{'; ' + ', '.join(marks) if marks else ''}"
    return "\n".join([head, *values, paragraph(tail, "      ", "        ")])


def value_words(value: Value) -> str:
    """Return a value's change in words.

    >>> value_words(Value("shift", 0.5, 0.5, 0.62, 0.4, 0.8, False))
    '0.5 -> 0.62 (0.4 to 0.8)'
    """
    return f"{value.before:.3g} -> {value.after:.3g} ({value.low:.3g} to {value.high:.3g})"


def learn_json(known: Taught) -> dict[str, Any]:
    """Return the same for machines: every line, and which cases count."""
    proposal = known.proposal
    return {
        "cases": len(proposal.told),
        "repeats": [one.title for one in proposal.repeats],
        "left_out": [{"title": one.title, "reason": one.reason} for one in proposal.left_out],
        "passed_over": [str(problem) for problem in known.stale],
        "lines": [
            {
                "id": line.id,
                "tree": line.tree,
                "question": line.question,
                "cause": line.cause,
                "title": line.title,
                "basis": line.basis.value,
                "cases": line.cases,
                "counted": line.said,
                "more_than_noise": line.moved,
                "accepted": line.kept,
                "values": [
                    {
                        "name": value.name,
                        "authored": value.authored,
                        "before": value.before,
                        "after": value.after,
                        "low": value.low,
                        "high": value.high,
                    }
                    for value in line.values
                ],
            }
            for line in proposal.lines
        ],
    }


def accept_lines(ids: Iterable[str], everything: bool) -> str:
    """Accept lines, and return in words what was written.

    Args:
        ids: of lines or trees.
        everything: all lines that moved by more than noise, too.

    Raises:
        LearnError: for an id that names neither.
        OutputError: when a file cannot be written.
        CaseBookError: when the case book cannot be read.
    """
    known = look()
    try:
        lines = list(known.proposal.wanted(ids))
    except KeyError as problem:
        raise LearnError(_unknown(problem.args[0], [line.id for line in known.proposal.lines])) from None
    if everything:
        lines += [line for line in known.proposal.lines if line.moved and line not in lines]
    if not lines:
        return "No line moved by more than noise: nothing was accepted."
    try:
        paths = accept(known, lines, __version__)
    except OSError as problem:
        raise OutputError(f"{problem.filename} cannot be written: {problem.strerror or problem}") from None
    count = f"{len(lines)} line{'' if len(lines) == 1 else 's'}"
    return f"{count} accepted, in {', '.join(str(path) for path in paths)}."


def forget_lines(ids: Iterable[str], everything: bool) -> str:
    """Forget lines, and return in words which.

    Raises:
        LearnError: for an id that names nothing that was learned.
        OutputError: when a file cannot be written.
    """
    known = taught([])
    try:
        gone = forget(known.kept if everything else ids, known.kept)
    except KeyError as problem:
        names = [*known.kept, *(line for tree in known.kept.values() for line in _ids(tree.tree, known))]
        raise LearnError(_unknown(problem.args[0], names)) from None
    except OSError as problem:
        raise OutputError(f"{problem.filename} cannot be written: {problem.strerror or problem}") from None
    if not gone:
        return "Nothing was learned, so nothing is forgotten."
    count = f"{len(gone)} line{'' if len(gone) == 1 else 's'}"
    return f"{count} forgotten: {', '.join(gone)}. The trees' own values hold there again."


def _ids(tree: str, known: Taught) -> list[str]:
    learned = known.kept[tree]
    rows = [f"row:{id}:{cause}" for id, one in learned.questions.items() for cause in one.given]
    return [f"rate:{cause}" for cause in learned.rates] + rows


def export_to(path: Path) -> str:
    """Write all that was accepted into a file, and return in words what is in it.

    Raises:
        LearnError: when nothing was accepted.
        OutputError: when the file cannot be written.
    """
    kept = taught([]).kept
    if not kept:
        raise LearnError("nothing was accepted yet, so there is nothing to carry; see 'faultdoc learn'")
    try:
        export(kept, path, __version__)
    except OSError as problem:
        raise OutputError(f"{path} cannot be written: {problem.strerror or problem}") from None
    lines = sum(tree.lines for tree in kept.values())
    return f"{lines} lines of {len(kept)} trees are written to {path}: counts and values, no names, no site."


def import_from(path: Path, only_look: bool) -> str:
    """Take in a file of another machine, and return in words what changes.

    Args:
        path: the file.
        only_look: say it, and change nothing.

    Raises:
        FileProblems: with every mistake in the file.
        OutputError: when a file cannot be written.
    """
    known = taught([])
    found = incoming(path, known.prior, known.kept)
    lines = [paragraph(words, "", "  ") for words in (*found.told, *found.changes)]
    if not found.changes:
        return "\n".join([*lines, "It changes nothing here."])
    count = f"{len(found.changes)} line{'' if len(found.changes) == 1 else 's'}"
    if only_look:
        return "\n".join([*lines, f"{count} would change; nothing has been changed yet."])
    try:
        take_in(found)
    except OSError as problem:
        raise OutputError(f"{problem.filename} cannot be written: {problem.strerror or problem}") from None
    return "\n".join([*lines, f"{count} changed. 'faultdoc learn forget' takes them back."])


def _unknown(id: str, known: list[str]) -> str:
    helps = choose(id, known, otherwise="'faultdoc learn --every' lists the ids of lines")
    return f"'{id}' is no line that the cases speak of: {helps}"

"""Hand-overs from the command line: made, opened into the case book, compared."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from faultdoc.diagnosis.assess import Bench, assess, bench_for
from faultdoc.library.load import Library, load_case, load_unit
from faultdoc.model.case import Case
from faultdoc.record.casebook import Attachment, CaseBook, Contact
from faultdoc.record.handover.codes import TooLongError
from faultdoc.record.handover.file import Received, code_texts, read_hand_over, save_hand_over, understand
from faultdoc.record.handover.form import HandOver, entries_of
from faultdoc.record.handover.merge import Choice, Conflict, Copy, UnsettledError, compared
from faultdoc.record.handover.opening import OpeningError, opened, put_into
from faultdoc.record.handover.packing import chosen_photos, is_own, packed, uid_of_file
from faultdoc.record.handover.qr import save_pictures, terminal_text
from faultdoc.record.handover.told import CHOICE_WORDS, Section, Words, holdings, statement, when
from faultdoc.record.session import Entry
from faultdoc.record.words import counted
from faultdoc.terminal.output import OutputError
from faultdoc.terminal.talk import Ask, Tell
from faultdoc.terminal.text import paragraph

__all__ = ["Wish", "choices_from", "compare", "make", "open_", "received"]


@dataclass(frozen=True)
class Wish:
    """What a hand-over is to be made of, and as what.

    Attributes:
        case: a case file, or a case's number or uid in the case book.
        output: the file to write, if any.
        people, photos: whether names and numbers, and attachments, go along.
        qr: "terminal", or the picture file to write, if any.
    """

    case: str
    output: Path | None = None
    people: bool = False
    photos: bool = False
    qr: str | None = None


@dataclass(frozen=True)
class _Found:
    """A case to be handed over: where it comes from, and all that is kept of it."""

    uid: str
    start: Case
    entries: tuple[Entry, ...]
    people: tuple[Contact, ...] = ()
    photos: tuple[tuple[Attachment, bytes], ...] = ()


def make(tell: Tell, wish: Wish, library: Library, book: CaseBook, station: str) -> None:
    """Make a hand-over and say what is in it.

    Raises:
        OpeningError: when there is no such case.
        OutputError: when it cannot be written.
        FileProblems: when the case file has mistakes.
        ValueError: when the case cannot be assessed.
    """
    found = _found(wish, library, book)
    bench = _bench(library, found.start)
    now = found.entries[-1].case if found.entries else found.start
    photos = chosen_photos(found.photos)
    hand_over = packed(
        assess(bench, now),
        found.start,
        found.entries,
        uid=found.uid,
        at=datetime.now(UTC),
        by=station,
        people=found.people,
        named=wish.people,
        attachments=photos.attachments,
    )
    if wish.output is not None:
        try:
            save_hand_over(hand_over, wish.output)
        except OSError as problem:
            raise OutputError(f"{wish.output} cannot be written: {problem.strerror or problem}") from None
        tell(f"The hand-over is written to {wish.output}.")
    tell(paragraph(_contents(hand_over), "It holds ", "  "))
    if photos.left_out:
        tell(paragraph(f"Too large together, and left out: {', '.join(photos.left_out)}."))
    if wish.qr is not None:
        _codes(tell, hand_over, wish.qr)


def _contents(hand_over: HandOver) -> str:
    case = hand_over.case
    people = counted(len(hand_over.people), "person", "people")
    named = f"names and numbers of {people}" if hand_over.people else "no names or numbers"
    photos = counted(len(hand_over.attachments), "photo or document", "photos and documents")
    return (
        f"{holdings(case)}, {counted(len(hand_over.journal), 'move')}; {named}; "
        f"{photos if hand_over.attachments else 'no photos'}."
    )


def _codes(tell: Tell, hand_over: HandOver, where: str) -> None:
    try:
        texts = code_texts(hand_over, own_sheet=is_own(hand_over.start.unit))
    except TooLongError as problem:
        raise OutputError(str(problem)) from None
    if where == "terminal":
        for place, text in enumerate(texts, start=1):
            tell(f"Code {place} of {len(texts)}:\n{terminal_text(text)}")
        return
    try:
        paths = save_pictures(texts, Path(where))
    except ValueError as problem:
        raise OutputError(str(problem)) from None
    except OSError as problem:
        raise OutputError(f"{where} cannot be written: {problem.strerror or problem}") from None
    tell(f"{'The code is' if len(paths) == 1 else 'The codes are'} drawn in {', '.join(map(str, paths))}.")


def _found(wish: Wish, library: Library, book: CaseBook) -> _Found:
    path = Path(wish.case)
    if path.is_file():
        case = load_case(path, library)
        return _Found(uid_of_file(case), case, ())
    try:
        case_id = book.number(wish.case)
    except KeyError:
        raise OpeningError(
            f"'{wish.case}' is neither a case file nor the number or uid of a case in the case book {book}"
        ) from None
    start, entries = book.load(case_id)
    kept = book.attachments(case_id) if wish.photos else ()
    return _Found(
        uid=book.uid(case_id),
        start=start,
        entries=tuple(entries),
        people=book.contacts(case_id),
        photos=tuple((one, book.content(one.id)) for one in kept),
    )


def _bench(library: Library, case: Case) -> Bench:
    return bench_for(library, load_unit(case.unit), case.symptoms)


def received(path: str, stdin: str | None) -> Received:
    """Return a hand-over from a file, or from the text that came on standard input where the path is '-'.

    Raises:
        FileProblems: with every mistake in it.
    """
    return read_hand_over(Path(path)) if stdin is None else understand(stdin, "standard input")


def choices_from(taken: Sequence[str]) -> dict[str, Choice]:
    """Return choices given as ID=mine, ID=theirs or ID=note.

    Raises:
        ValueError: when one is none of these.

    >>> choices_from(["state=theirs", "reading:water_flow=note"])
    {'state': 'theirs', 'reading:water_flow': 'note'}
    """
    choices: dict[str, Choice] = {}
    for one in taken:
        id, _, said = one.rpartition("=")
        choice = next((choice for choice in CHOICE_WORDS if choice == said), None)
        if not id or choice is None:
            raise ValueError(f"'{one}' is not ID=mine, ID=theirs or ID=note, such as state=mine")
        choices[id] = choice
    return choices


def open_(
    tell: Tell,
    came: Received,
    choices: Mapping[str, Choice],
    library: Library,
    book: CaseBook,
    station: str,
    ask: Ask | None,
) -> int:
    """Take a hand-over into the case book, and say what is different here.

    Args:
        tell: shows lines.
        came: the hand-over.
        choices: conflicts that are decided already, by id.
        library: the trees here.
        book: the case book.
        station: this one.
        ask: asks for the conflicts left; None where nobody is there to answer.

    Returns:
        The case's number in the case book.

    Raises:
        UnsettledError: when conflicts are left; nothing was changed.
        OpeningError: when it cannot be worked on here.
    """
    now = datetime.now(UTC)
    opening = opened(came, library, book)
    tell(_statement_text(statement(opening, now)))
    words = Words(library)
    decided = dict(choices)
    for conflict in opening.conflicts:
        tell(_conflict_text(conflict, words, now))
        if conflict.id not in decided and ask is not None:
            decided[conflict.id] = _asked(ask, tell, conflict)
    if unknown := sorted(set(decided) - {conflict.id for conflict in opening.conflicts}):
        tell(f"Nothing is to be decided of: {', '.join(unknown)}")
    taken = put_into(book, opening, decided, at=now, by=station, say=words.said)
    for said in taken.left_out:
        tell(paragraph(said))
    _, entries = book.load(taken.case_id)
    if entries and entries[-1].case.conclusion is not None:
        book.close(taken.case_id)
    tell(f"It is case {taken.case_id} of the case book: {counted(taken.moves, 'move')} added.")
    tell("Before the next step see whether the plant is as it is written down here.")
    return taken.case_id


def _statement_text(sections: Sequence[Section]) -> str:
    parts = []
    for section in sections:
        mark = "! " if section.grave else ""
        lines = [*section.lines, *(f"{caution.signal.upper()}: {caution.text}" for caution in section.cautions)]
        parts.append("\n".join([f"{mark}{section.title}", *(paragraph(line, "  - ", "    ") for line in lines)]))
    return "\n\n".join(parts) + "\n"


def _conflict_text(conflict: Conflict, words: Words, now: datetime) -> str:
    lines = [paragraph(f"To be decided: {words.title(conflict)}  [{conflict.id}]")]
    for name, side in (("mine", conflict.mine), ("theirs", conflict.theirs)):
        stamp = f"{side.by or 'at the start'}, {when(side.at, now)}" if side.at else "at the start"
        lines.append(paragraph(f"{words.value(conflict, side)} ({stamp})", f"  {name + ':':8}", " " * 10))
    return "\n".join(lines)


def _asked(ask: Ask, tell: Tell, conflict: Conflict) -> Choice:
    allowed = conflict.choices
    for choice in allowed:
        tell(f"    {choice}: {CHOICE_WORDS[choice].lower()}")
    while True:
        try:
            typed = ask(f"  {' / '.join(allowed)}? ").strip().lower()
        except EOFError:
            raise UnsettledError([conflict]) from None
        for choice in allowed:
            if typed == choice:
                return choice
        tell(f"  Type one of: {', '.join(allowed)}.")


def compare(tell: Tell, one: Received, other: Received, library: Library) -> bool:
    """Say how two hand-overs stand to each other; return whether they are of one case and nothing differs.

    Raises:
        ValueError: when they are of different cases.
    """
    first, second = one.hand_over, other.hand_over
    if first.uid != second.uid:
        raise ValueError(f"these are two cases: {first.uid} and {second.uid}")
    now = datetime.now(UTC)
    for name, hand_over in (("A", first), ("B", second)):
        tell(f"{name}: from {hand_over.sent.by}, {when(hand_over.sent.at, now)}; {_contents(hand_over)}")
    mine = Copy(first.start, entries_of(first))
    theirs = Copy(second.start, entries_of(second))
    found = compared(mine, theirs)
    relations = {
        "same": "They hold the same.",
        "behind": "A holds everything that B holds, and more.",
        "ahead": "B holds everything that A holds, and more.",
        "apart": "They were worked on apart.",
    }
    tell(relations[found.relation])
    words = Words(library)
    for name, here, there in (("A", mine, theirs), ("B", theirs, mine)):
        known = {(entry.at, entry.by) for entry in there.entries}
        for entry in here.entries:
            if (entry.at, entry.by) not in known:
                what = {"do": "", "undo": "Undone: ", "redo": "Done again: "}[entry.move] + entry.what
                tell(paragraph(what, f"  only in {name}: ", " " * 13))
    for gone in found.gone:
        tell(paragraph(words.gone(gone), "  - ", "    "))
    for conflict in found.conflicts:
        tell(_conflict_text(conflict, words, now).replace("mine:  ", "A:     ").replace("theirs:", "B:     "))
    return found.relation == "same"

"""Opens a hand-over: what is different here, what of it has no place here, and into the case book with it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from faultdoc.diagnosis.assess import Assessment, Bench, assess, bench_for
from faultdoc.library.load import Library, load_unit, shipped_units, units
from faultdoc.library.ownunits import free_id, keep_unit
from faultdoc.library.problems import FileProblems
from faultdoc.model.safety import possible
from faultdoc.model.unit import DataSheet
from faultdoc.record import moves
from faultdoc.record.casebook import CaseBook, CaseBookError
from faultdoc.record.handover.file import Received, content_of
from faultdoc.record.handover.fit import Fitted, fitted
from faultdoc.record.handover.form import HandOver, entries_of
from faultdoc.record.handover.merge import Choice, Comparison, Conflict, Copy, Side, compared, joined
from faultdoc.record.handover.prints import Altered, altered, prints_of
from faultdoc.record.session import Entry
from faultdoc.record.words import why_impossible

__all__ = ["FITTED", "TAKEN_OVER", "Opening", "OpeningError", "Taken", "opened", "put_into"]

FITTED = "Fitted to the fault trees here"
TAKEN_OVER = "Taken over"


class OpeningError(ValueError):
    """The hand-over is sound, but cannot be worked on here; the message says why and what helps."""


@dataclass(frozen=True)
class Opening:
    """A hand-over laid beside what is here; nothing has been changed yet.

    Attributes:
        received: as read.
        bench: the unit and its symptoms, with the trees here.
        unit: what the unit is called here.
        new_sheet: the data sheet that is to be kept among the person's own; None where there is one.
        theirs: the copy of the case that came.
        mine: the copy that is here; None where there is none.
        case_id: of that copy in the case book.
        comparison: how the two stand to each other; None where there is one only.
        changes: what is not the same here as where the case comes from.
        fits: the case that came, as it can be worked on here.
        now: the look at that with the trees here.
    """

    received: Received
    bench: Bench
    unit: str
    new_sheet: DataSheet | None
    theirs: Copy
    mine: Copy | None
    case_id: int | None
    comparison: Comparison | None
    changes: tuple[Altered, ...]
    fits: Fitted
    now: Assessment

    @property
    def hand_over(self) -> HandOver:
        """What came."""
        return self.received.hand_over

    @property
    def conflicts(self) -> tuple[Conflict, ...]:
        """What a person has to decide before it is taken."""
        return self.comparison.conflicts if self.comparison else ()


@dataclass(frozen=True)
class Taken:
    """What came of taking a hand-over into the case book.

    Attributes:
        case_id: of the case.
        moves: how many moves were added to what was here.
        left_out: attachments that the case book did not take, each with the reason.
    """

    case_id: int
    moves: int
    left_out: tuple[str, ...] = ()


def opened(received: Received, library: Library, book: CaseBook) -> Opening:
    """Lay a hand-over beside what is here.

    Raises:
        OpeningError: when the fault tree or the unit is not known here, or the case here is of another unit.
        CaseBookError: when the case book cannot be read.
        FileProblems: when the unit's data sheet here has mistakes.
    """
    hand_over = received.hand_over
    case_id = book.by_uid(hand_over.uid)
    mine = None
    if case_id is not None:
        start, entries = book.load(case_id)
        mine = Copy(start, tuple(entries))
    unit, sheet, new_sheet = _unit(hand_over, mine)
    theirs = _named(Copy(hand_over.start, entries_of(hand_over)), unit)
    if not possible(theirs.case.state):
        raise OpeningError(f"It was changed by hand: {why_impossible(theirs.case.state)} Ask for it again.")
    bench = _bench(library, sheet, hand_over)
    fits = fitted(theirs.case, bench, hand_over)
    try:
        comparison = None if mine is None else compared(mine, theirs)
    except ValueError as problem:
        raise OpeningError(f"There is a case of this number here already, but {problem}.") from None
    return Opening(
        received=received,
        bench=bench,
        unit=unit,
        new_sheet=new_sheet,
        theirs=theirs,
        mine=mine,
        case_id=case_id,
        comparison=comparison,
        changes=altered(hand_over.prints, prints_of(bench)),
        fits=fits,
        now=assess(bench, fits.case),
    )


def _unit(hand_over: HandOver, mine: Copy | None) -> tuple[str, DataSheet, DataSheet | None]:
    """Return what the unit is called here, its data sheet here, and the sheet that is to be kept, if any."""
    if mine is not None:
        return mine.start.unit, load_unit(mine.start.unit), None
    id, sent = hand_over.start.unit, hand_over.sheet
    if sent is None:
        if id not in units():
            raise OpeningError(
                f"The unit '{id}' is not known here, and its data sheet did not come along. Ask for the hand-over "
                "as a file, which brings it."
            )
        return id, load_unit(id), None
    shipped = shipped_units()
    if id in shipped:
        return id, load_unit(id), None
    for known in units():
        if known in shipped:
            continue
        try:
            sheet = load_unit(known)
        except FileProblems:
            continue
        if sheet.model_copy(update={"id": id}) == sent:
            return known, sheet, None
    name = free_id(id)
    kept = sent.model_copy(update={"id": name})
    return name, kept, kept


def _named(copy: Copy, unit: str) -> Copy:
    update = {"unit": unit}
    entries = (replace(entry, case=entry.case.model_copy(update=update)) for entry in copy.entries)
    return Copy(copy.start.model_copy(update=update), tuple(entries))


def _bench(library: Library, sheet: DataSheet, hand_over: HandOver) -> Bench:
    symptoms = hand_over.start.symptoms
    if unknown := [id for id in symptoms if id not in library.trees]:
        names = ", ".join(f"'{hand_over.words.symptoms.get(id, id)}'" for id in unknown)
        raise OpeningError(
            f"This FaultDoc has no fault tree for {names}. It was sent from FaultDoc {hand_over.sent.faultdoc}: "
            "bring the one here up to date. Until then its head can be read in any editor."
        )
    try:
        return bench_for(library, sheet, symptoms)
    except ValueError as problem:
        raise OpeningError(f"The case cannot be worked on here: {problem}.") from None


def put_into(
    book: CaseBook,
    opening: Opening,
    choices: Mapping[str, Choice],
    *,
    at: datetime,
    by: str,
    say: Callable[[Conflict, Side], str],
) -> Taken:
    """Take a hand-over into the case book: as a new case, or together with the copy that is there.

    Args:
        book: the case book.
        opening: what was laid beside what is here.
        choices: how each conflict is decided, by its id.
        at: now, UTC.
        by: this station.
        say: a side of a conflict in words.

    Raises:
        UnsettledError: when a conflict is undecided; nothing was changed.
        CaseBookError: when it could not be kept.
        OSError: when the data sheet could not be kept; nothing was changed.
    """
    hand_over, mine, case_id = opening.hand_over, opening.mine, opening.case_id
    if mine is not None and case_id is not None:
        added = joined(mine, opening.theirs, choices, at=at, by=by, say=say)
        start = mine.start
        before = mine.entries
    else:
        added = opening.theirs.entries
        start = opening.theirs.start
        before = ()
    if added or mine is None:
        added = (*added, *_going_on(Copy(start, (*before, *added)), opening, at, by))
    if opening.new_sheet is not None:
        keep_unit(opening.new_sheet)
    if case_id is None:
        case_id = book.start(start, uid=hand_over.uid)
    book.add_all(case_id, added)
    if hand_over.people:
        known = book.contacts(case_id)
        book.set_contacts(case_id, (*known, *(one for one in hand_over.people if one not in known)))
    left_out = []
    for attached in hand_over.attachments:
        try:
            book.attach(case_id, attached.name, content_of(attached))
        except CaseBookError as problem:
            left_out.append(str(problem))
    return Taken(case_id, len(added), tuple(left_out))


def _going_on(whole: Copy, opening: Opening, at: datetime, by: str) -> Iterator[Entry]:
    """Yield the moves by which the case can be gone on with here: it fits, and is open if it was handed over."""
    case = whole.case
    if (fits := fitted(case, opening.bench, opening.hand_over).case) != case:
        case = fits
        yield Entry("do", FITTED, case, at, by)
    if case.conclusion is not None and case.conclusion.outcome == "handed_over":
        yield Entry("do", TAKEN_OVER, moves.reopen(case), at, by)

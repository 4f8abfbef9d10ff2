"""Everything that belongs to a case, put together for paper: its report, or the page for the customer."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from faultdoc.diagnosis.assess import Assessment
from faultdoc.model.case import Case
from faultdoc.quantities import System
from faultdoc.record.figures import Figure
from faultdoc.record.report import Person, customer_html, report_html
from faultdoc.record.session import Entry

__all__ = ["full_report"]


def full_report(
    assessment: Assessment,
    system: System,
    entries: Sequence[Entry] = (),
    start: Case | None = None,
    made_at: datetime | None = None,
    *,
    customer: bool = False,
    contacts: Sequence[Person] = (),
    photos: Sequence[Figure] = (),
    not_shown: Sequence[str] = (),
) -> str:
    """Return the report with the pictures its readings allow and, where it is handed over, what to bring.

    Args:
        assessment: of the case as it is now.
        system: units.
        entries: the case's journal.
        start: the case before it.
        made_at: when it is made; now when left out.
        customer: only the one page for the customer.
        contacts: the people of the case, where names are to be printed.
        photos: taken on the job, as small as they are to be.
        not_shown: names of what else was kept with the case.
    """
    if customer:
        return customer_html(assessment, system, made_at, contacts=contacts)
    # The simulator's healthy unit is behind the pictures; only who wants a whole report waits for it.
    from faultdoc.record.pictures.gallery import worth_printing
    from faultdoc.record.pictures.svg import picture_svg

    return report_html(
        assessment,
        system,
        entries,
        made_at,
        start,
        photos=photos,
        not_shown=not_shown,
        pictures=[Figure(one.title, one.words, picture_svg(one)) for one in worth_printing(assessment, system)],
        contacts=contacts,
        kit=_to_bring(assessment, system),
    )


def _to_bring(assessment: Assessment, system: System) -> tuple[str, ...]:
    """Return what whoever goes on should bring; nothing where nobody is to."""
    from faultdoc.record.kit import KitError, kit_lines

    closed = assessment.case.conclusion
    handed_over = assessment.next.kind == "hand_over" if closed is None else closed.outcome == "handed_over"
    if not handed_over or assessment.next.stops:
        return ()
    try:
        return kit_lines(assessment, system)
    except KitError:
        # Where no remedy is left there is nothing to send; the report says so elsewhere.
        return ()

"""A case to begin with, entries on it, and case books."""

from datetime import UTC, datetime

import pytest

from faultdoc.model.case import Case
from faultdoc.model.safety import Qualification, all_states
from faultdoc.record import moves
from faultdoc.record.casebook import CaseBook
from faultdoc.record.session import Entry

AT = datetime(2026, 3, 4, 5, 6, 7, 89, tzinfo=UTC)


@pytest.fixture
def start():
    return Case(unit="bluff_30", symptoms=("no_flow",), state=all_states()[0], who=(Qualification.TECHNICIAN,))


@pytest.fixture
def noted(start):
    """Return a function that gives the entry of a note."""

    def entry(text, *, case=start, move="do", at=AT, by="desk-1"):
        return Entry(move, f"Note: {text}", moves.note(case, text), at, by)

    return entry


@pytest.fixture
def book(tmp_path):
    opened = CaseBook.open(tmp_path / "cases.sqlite")
    yield opened
    opened.dispose()

"""Cases and their entries as rows, and back."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import ValidationError
from sqlalchemy import Connection, select

from faultdoc.model.case import Case
from faultdoc.record.casebook.errors import ASIDE, CaseBookError
from faultdoc.record.casebook.tables import aware, journal, naive
from faultdoc.record.session import Entry

__all__ = ["case_from", "entries_of", "row_of", "storable", "text_of"]


def case_from(text: str, case_id: int) -> Case:
    """Return the case that a row keeps.

    Raises:
        CaseBookError: when it cannot be understood.
    """
    try:
        return Case.model_validate_json(text)
    except ValidationError as problem:
        raise CaseBookError(
            f"Case {case_id} of the case book cannot be understood: {problem.errors()[0]['msg']}. "
            "It was written by another version of FaultDoc, or changed by hand. " + ASIDE
        ) from None


def text_of(case: Case) -> str:
    """Return what a row keeps of a case.

    Raises:
        CaseBookError: when it could not be read back, as a case with an empty note could not.
    """
    text = case.model_dump_json()
    try:
        Case.model_validate_json(text)
    except ValidationError as problem:
        first = problem.errors()[0]
        where = ".".join(str(part) for part in first["loc"])
        raise CaseBookError(f"The case cannot be kept with this: {where}: {first['msg']}. Change it.") from None
    return text


def row_of(case_id: int, seq: int, entry: Entry) -> dict[str, Any]:
    """Return an entry as its row; one without a time is of now.

    Raises:
        CaseBookError: when its case could not be read back.
    """
    return {
        "case_id": case_id,
        "seq": seq,
        "at": naive(entry.at),
        "move": entry.move,
        "what": storable(entry.what),
        "case": text_of(entry.case),
        "by": storable(entry.by),
    }


def entries_of(connection: Connection, case_id: int) -> list[Entry]:
    """Return the journal of a case.

    Raises:
        CaseBookError: when a case in it cannot be understood.
    """
    query = select(journal).where(journal.c.case_id == case_id).order_by(journal.c.seq)
    rows = connection.execute(query).all()
    return [Entry(_move(row.move), row.what, case_from(row.case, case_id), aware(row.at), row.by) for row in rows]


def storable(text: str) -> str:
    """Return a text as both databases keep it: what is no character is replaced by the sign for that (U+FFFD)."""
    return text.replace("\0", "\ufffd").encode(errors="replace").decode()


def _move(text: str) -> Literal["do", "undo", "redo"]:
    if text == "undo":
        return "undo"
    return "redo" if text == "redo" else "do"

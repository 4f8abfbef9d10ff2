"""The people of a case: the only place for names and telephone numbers."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Literal

from pydantic import AfterValidator, StringConstraints, model_validator
from sqlalchemy import Connection, delete, insert, select

from faultdoc.model.base import Model
from faultdoc.plain import plain
from faultdoc.record.casebook.rows import storable
from faultdoc.record.casebook.tables import contacts

__all__ = ["Contact", "contacts_of", "replace_contacts"]

Line = Annotated[str, StringConstraints(strip_whitespace=True, max_length=200), AfterValidator(plain)]


class Contact(Model):
    """A person to do with a case; at least one of name and telephone number is given."""

    role: Literal["caller", "site", "technician", "desk"]
    name: Line = ""
    phone: Line = ""
    note: Annotated[str, StringConstraints(strip_whitespace=True, max_length=4000), AfterValidator(plain)] = ""

    @model_validator(mode="after")
    def _someone(self) -> Contact:
        if not self.name and not self.phone:
            raise ValueError("a contact needs a name or a telephone number")
        return self


def contacts_of(connection: Connection, case_id: int) -> tuple[Contact, ...]:
    """Return the people of a case, in the order in which they were given."""
    query = select(contacts).where(contacts.c.case_id == case_id).order_by(contacts.c.id)
    return tuple(
        Contact(role=row.role, name=row.name, phone=row.phone, note=row.note) for row in connection.execute(query)
    )


def replace_contacts(connection: Connection, case_id: int, people: Sequence[Contact]) -> None:
    """Let these be the people of a case; those of before are forgotten."""
    connection.execute(delete(contacts).where(contacts.c.case_id == case_id))
    for one in people:
        values = {field: storable(getattr(one, field)) for field in ("role", "name", "phone", "note")}
        connection.execute(insert(contacts).values(case_id=case_id, **values))

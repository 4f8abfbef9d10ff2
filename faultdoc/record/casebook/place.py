"""Where a case book lies: a file, or an address of a PostgreSQL server."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import URL, make_url
from sqlalchemy.exc import ArgumentError

from faultdoc.record.settings import is_server

__all__ = ["Place", "place_of"]


@dataclass(frozen=True)
class Place:
    """Where a case book lies; as text it is how a message names it, without a password.

    Attributes:
        path: of the file, None for a server.
        url: SQLAlchemy's.
    """

    path: Path | None
    url: URL

    def __str__(self) -> str:
        if self.path is not None:
            return str(self.path)
        return self.url.set(drivername="postgresql").render_as_string(hide_password=True)


def place_of(where: Path | str) -> Place:
    """Return the place that a path or an address names.

    Raises:
        ValueError: when an address cannot be understood.
    """
    if isinstance(where, str) and is_server(where):
        try:
            return Place(None, make_url(where).set(drivername="postgresql+psycopg"))
        except (ArgumentError, ValueError):
            # The address itself is not repeated: a password may stand in it.
            raise ValueError(
                "the address of the case book cannot be understood; write postgresql://user@host/database"
            ) from None
    path = Path(where)
    return Place(path, URL.create("sqlite", database=str(path)))

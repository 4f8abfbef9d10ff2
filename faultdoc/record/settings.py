"""What a person set once, kept in their own folder; and where that folder is.

The environment variable FAULTDOC_HOME puts settings and case book into one folder of choice; FAULTDOC_CASE_BOOK
names another case book: a file, or the address of a PostgreSQL database.
"""

from __future__ import annotations

import contextlib
import locale
import os
import secrets
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import Annotated, Literal

import platformdirs
from pydantic import AfterValidator, Field, StringConstraints, ValidationError

from faultdoc.library.languages import ENGLISH, languages
from faultdoc.library.places import HOME_VARIABLE, data_home
from faultdoc.library.whole import write_whole
from faultdoc.model.base import Model
from faultdoc.plain import plain
from faultdoc.quantities import System

__all__ = [
    "CASE_BOOK_VARIABLE",
    "HOME_VARIABLE",
    "Settings",
    "Theme",
    "case_book_place",
    "data_home",
    "is_server",
    "settings_home",
]

CASE_BOOK_VARIABLE = "FAULTDOC_CASE_BOOK"

LARGEST = 100_000
"""Bytes of the settings; of a larger file only these are read, and are then not understood."""

Theme = Literal["sunlight", "night"]
Line = Annotated[
    str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200), AfterValidator(plain)
]
Station = Annotated[str, StringConstraints(strip_whitespace=True, max_length=40), AfterValidator(plain)]


def settings_home() -> Path:
    """Return the folder of the settings; it need not exist yet."""
    home = os.environ.get(HOME_VARIABLE)
    return Path(home) if home else platformdirs.user_config_path("faultdoc", appauthor=False)


def system_language() -> str:
    """Return the system's language where there are texts in it, else English."""
    variables = (os.environ.get(name) for name in ("LC_ALL", "LC_MESSAGES", "LANG"))
    said = (next((value for value in variables if value), None) or locale.getlocale()[0] or "").lower()
    # Windows says "Spanish_Mexico" where others say "es_MX".
    said = {"spanish": "es"}.get(said.partition("_")[0], said)
    return next((one for one in languages() if said.startswith(one)), ENGLISH)


class Settings(Model):
    """What a person set once.

    `emergency_numbers` are the site's own, shown with what to stop for; none are assumed. `last_trainee` is
    the name that was typed last in practice. `station` is what this machine's entries in a journal are marked
    with, made at random at first use: a label such as desk-4f2a, never a person's name. `travel_minutes` is
    what it usually takes from the service desk to a site. `case_book` is a file or a PostgreSQL address; None for
    the usual file. `menu_entry_made` says that an installed FaultDoc has put itself into the desktop's menu once;
    whoever takes it out is left alone. `theme` is how the window is coloured, `text_size` how large its letters
    are, in per cent of the usual.
    """

    system: Annotated[System, Field(strict=False)] = System.US
    emergency_numbers: tuple[Line, ...] = Field(default=(), strict=False, max_length=50)
    last_unit: Line | None = None
    last_trainee: Line | None = None
    travel_minutes: Annotated[float, Field(ge=0.0, le=1440.0)] = 60.0
    menu_entry_made: bool = False
    theme: Theme = "sunlight"
    text_size: Annotated[int, Field(ge=100, le=200)] = 100
    station: Station = ""
    language: Annotated[str, StringConstraints(pattern=r"^[a-z]{2}$")] = Field(default_factory=system_language)
    """That of trees and window, from the next start on."""
    case_book: Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=1000)] | None = (
        None
    )

    @classmethod
    def load(cls) -> Settings:
        """Return the settings kept, or the defaults where there are none.

        A file that cannot be understood is renamed, never written over, and told on standard error. A machine that
        has no station yet is given one, which is kept where that can be done.
        """
        settings = cls._kept()
        if not settings.station:
            settings = settings.model_copy(update={"station": f"desk-{secrets.token_hex(2)}"})
            with contextlib.suppress(OSError):
                settings.save()
        return settings

    @classmethod
    def _kept(cls) -> Settings:
        path = _path()
        try:
            with path.open("rb") as stream:
                return cls.model_validate_json(stream.read(LARGEST))
        except FileNotFoundError:
            return cls()
        except ValidationError as problem:
            first = problem.errors()[0]
            where = ".".join(str(part) for part in first["loc"])
            reason = f"{where}: {first['msg']}" if where else first["msg"]
            _tell(
                f"{path} cannot be understood ({reason}). {_set_aside(path)} FaultDoc goes on with its defaults."
            )
        except OSError as problem:
            _tell(f"{path} cannot be read ({problem.strerror}). FaultDoc goes on with its defaults.")
        return cls()

    def save(self) -> None:
        """Keep the settings, whole or not at all.

        Raises:
            OSError: when the folder cannot be written.
        """
        path = _path()
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole(self.model_dump_json(indent=2) + "\n", path)


def is_server(place: str) -> bool:
    """Return whether a place of a case book is the address of a server.

    >>> is_server("postgresql://desk@books.example/cases"), is_server("cases.sqlite")
    (True, False)
    """
    return place.startswith(("postgresql://", "postgresql+psycopg://", "postgres://"))


def case_book_place() -> Path | str:
    """Return where the case book lies: a file, or the address of a server."""
    named = os.environ.get(CASE_BOOK_VARIABLE) or Settings.load().case_book
    if not named:
        return data_home() / "cases.sqlite"
    return named if is_server(named) else Path(named).expanduser()


def _path() -> Path:
    return settings_home() / "settings.json"


def _set_aside(path: Path) -> str:
    kept = path.with_name(f"{path.name}.broken-{datetime.now(UTC):%Y%m%dT%H%M%S%f}")
    try:
        path.rename(kept)
    except OSError as problem:
        return f"It could not be set aside either ({problem.strerror})."
    return f"It is kept as {kept.name}."


def _tell(words: str) -> None:
    print(plain(words), file=sys.stderr)

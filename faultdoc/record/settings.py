"""What a person set once, kept in their own folder; and where that folder is.

The environment variable FAULTDOC_HOME puts settings and case book into one folder of choice.
"""

from __future__ import annotations

import os
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import Annotated

import platformdirs
from pydantic import Field, StringConstraints, ValidationError

from faultdoc.library.places import HOME_VARIABLE, data_home
from faultdoc.library.whole import write_whole
from faultdoc.model.base import Model
from faultdoc.quantities import System

__all__ = ["HOME_VARIABLE", "Settings", "data_home", "settings_home"]

Line = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200)]


def settings_home() -> Path:
    """Return the folder of the settings; it need not exist yet."""
    home = os.environ.get(HOME_VARIABLE)
    return Path(home) if home else platformdirs.user_config_path("faultdoc", appauthor=False)


class Settings(Model):
    """What a person set once.

    `emergency_numbers` are the site's own, shown with what to stop for; none are assumed. `last_trainee` is
    the name that was typed last in practice.
    """

    system: Annotated[System, Field(strict=False)] = System.US
    emergency_numbers: tuple[Line, ...] = Field(default=(), strict=False)
    last_unit: Line | None = None
    last_trainee: Line | None = None

    @classmethod
    def load(cls) -> Settings:
        """Return the settings kept, or the defaults where there are none.

        A file that cannot be understood is renamed, never written over, and told on standard error.
        """
        path = _path()
        try:
            return cls.model_validate_json(path.read_bytes())
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
    print(words, file=sys.stderr)

"""FaultDoc's entry in the desktop's menu, with its icon, where menus are files (freedesktop.org).

Desktop Entry Specification 1.5 for the entry, Icon Theme Specification for the icon's folder. Elsewhere the
installer makes the entry; see DEVELOPERS.md.
"""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path

from faultdoc.library.places import resources_folder
from faultdoc.library.whole import write_whole

__all__ = ["add_entry", "entry_text", "has_entry", "icon_file", "places", "remove_entry"]

NAME = "faultdoc"


def icon_file() -> Path:
    """Return FaultDoc's icon."""
    return resources_folder() / "pictures" / "icon.svg"


def places() -> tuple[Path, Path]:
    """Return where the user's own menu entry and icon lie (XDG Base Directory Specification)."""
    shared = Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share")
    return (
        shared / "applications" / f"{NAME}.desktop",
        shared / "icons" / "hicolor" / "scalable" / "apps" / f"{NAME}.svg",
    )


def entry_text(command: str) -> str:
    """Return the text of the entry.

    Args:
        command: path of the program.

    Raises:
        ValueError: for a path with a line break, which no entry can hold.

    >>> [line for line in entry_text("/opt/a b/faultdoc").splitlines() if line.startswith("Exec")]
    ['Exec="/opt/a b/faultdoc" window %f']
    """
    if "\n" in command or "\r" in command:
        raise ValueError("a path with a line break cannot stand in a menu entry")
    quoted = command
    for sign in ("\\", '"', "`", "$"):
        quoted = quoted.replace(sign, f"\\{sign}")
    # Quoted as an argument, then as a text of the entry (Desktop Entry Specification, "The Exec key").
    quoted = quoted.replace("%", "%%").replace("\\", "\\\\")
    return "\n".join(
        (
            "[Desktop Entry]",
            "Type=Application",
            "Version=1.5",
            "Name=FaultDoc",
            "GenericName=Chiller fault finding",
            "GenericName[es]=Búsqueda de fallas en enfriadoras",
            "Comment=Finds out why a packaged air-cooled water chiller has tripped",
            "Comment[es]=Encuentra por qué se detuvo una enfriadora de agua condensada por aire",
            f'Exec="{quoted}" window %f',
            f"Icon={NAME}",
            "Terminal=false",
            "Categories=Utility;Engineering;",
            "",
        )
    )


def program() -> str:
    """Return the path of the program as it was started, or the one found on the path."""
    started = Path(sys.argv[0])
    if started.name.startswith(NAME) and started.exists():
        return str(started.absolute())
    return shutil.which(NAME) or str(Path(sys.executable).with_name(NAME))


def has_entry() -> bool:
    """Return whether the entry is there."""
    return places()[0].exists()


def add_entry(command: str | None = None) -> Path:
    """Put FaultDoc into the user's menu; return the entry's file.

    Args:
        command: path of the program; the one that runs if left out.

    Raises:
        OSError: when the files cannot be written.
    """
    entry, icon = places()
    for path in (entry, icon):
        path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(icon_file().read_text(encoding="utf-8"), icon)
    write_whole(entry_text(command or program()), entry)
    return entry


def remove_entry() -> bool:
    """Take FaultDoc out of the user's menu; return whether it was there.

    Raises:
        OSError: when a file cannot be removed.
    """
    there = has_entry()
    for path in places():
        path.unlink(missing_ok=True)
    return there

"""Where the fault trees and the resources are: inside an installed package, or at the top of a checkout."""

from __future__ import annotations

from pathlib import Path

__all__ = ["data_folder", "resources_folder", "shown", "trees_folder"]

_PACKAGE = Path(__file__).resolve().parents[1]


def data_folder() -> Path:
    """Return the folder that holds `trees/` and `resources/`.

    An installed wheel carries both in `faultdoc/_data`; in a checkout they lie beside the package.

    Raises:
        FileNotFoundError: when neither place has them; the installation is then not whole.
    """
    for folder in (_PACKAGE / "_data", _PACKAGE.parent):
        if (folder / "resources").is_dir():
            return folder
    raise FileNotFoundError(
        f"no folder 'resources' in {_PACKAGE / '_data'} nor beside {_PACKAGE}; install faultdoc again"
    )


def trees_folder() -> Path:
    """Return the folder of the fault tree files."""
    return data_folder() / "trees"


def resources_folder() -> Path:
    """Return the folder of the data sheets, the vocabulary of points, the plant file and the pictures."""
    return data_folder() / "resources"


def shown(path: Path) -> str:
    """Return a file's name as messages give it: short for FaultDoc's own files, else as it came.

    >>> shown(resources_folder() / "points.yaml")
    'resources/points.yaml'
    """
    try:
        return path.resolve().relative_to(data_folder()).as_posix()
    except (ValueError, OSError):
        return str(path)

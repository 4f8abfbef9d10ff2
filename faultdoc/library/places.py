"""Where the fault trees and the resources are: inside an installed package, or at the top of a checkout.

And where a person's own files are: the environment variable FAULTDOC_HOME puts them into one folder of choice.
"""

from __future__ import annotations

import os
from pathlib import Path

import platformdirs

__all__ = [
    "HOME_VARIABLE",
    "data_folder",
    "data_home",
    "is_installed",
    "own_units_folder",
    "resources_folder",
    "shown",
    "trees_folder",
]

HOME_VARIABLE = "FAULTDOC_HOME"

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


def is_installed() -> bool:
    """Return whether this is an installed package rather than a checkout."""
    return data_folder().name == "_data"


def trees_folder() -> Path:
    """Return the folder of the fault tree files."""
    return data_folder() / "trees"


def resources_folder() -> Path:
    """Return the folder of the data sheets, the vocabulary of points, the plant file and the pictures."""
    return data_folder() / "resources"


def data_home() -> Path:
    """Return the folder of a person's case book and own data sheets; it need not exist yet."""
    home = os.environ.get(HOME_VARIABLE)
    return Path(home) if home else platformdirs.user_data_path("faultdoc", appauthor=False)


def own_units_folder() -> Path:
    """Return the folder of the data sheets a person made; it need not exist yet."""
    return data_home() / "units"


def shown(path: Path) -> str:
    """Return a file's name as messages give it: short for FaultDoc's own files, else as it came.

    >>> shown(resources_folder() / "points.yaml")
    'resources/points.yaml'
    """
    try:
        return path.resolve().relative_to(data_folder()).as_posix()
    except (ValueError, OSError):
        return str(path)

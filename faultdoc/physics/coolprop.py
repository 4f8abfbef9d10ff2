"""CoolProp's extension module, without the seconds that its package takes to import.

The package reads its whole library of refrigerants when it is imported: two to three seconds, in
one go, with Python's lock held, so that doing it in a thread would still freeze a window. Water and
glycol need the extension module only, which loads in twenty milliseconds. Hence a stand-in for the
package that has the same modules and fills itself, the slow way, when somebody asks it for a name
of the package itself.
"""

from __future__ import annotations

import importlib
import importlib.machinery
import importlib.util
import sys
from threading import Lock
from types import ModuleType
from typing import Any

__all__ = ["ONE_AT_A_TIME", "extension", "light_coolprop"]

ONE_AT_A_TIME = Lock()
"""Held while a state is set and read: asking it changes it, and the window asks from several threads."""


def extension() -> Any:
    """Return the module CoolProp.CoolProp."""
    light_coolprop()
    # By its full name: asking the package for it would fill the package.
    return importlib.import_module("CoolProp.CoolProp")


def light_coolprop() -> None:
    """Make `from CoolProp.CoolProp import ...` load the extension alone; no effect once CoolProp is in."""
    if "CoolProp" in sys.modules:
        return
    spec = importlib.util.find_spec("CoolProp")
    if spec is None or spec.loader is None or spec.submodule_search_locations is None:
        return
    if (
        importlib.machinery.PathFinder.find_spec("CoolProp.CoolProp", list(spec.submodule_search_locations))
        is None
    ):
        return
    package = ModuleType("CoolProp", "CoolProp, of which only what is asked for is loaded.")
    package.__spec__ = spec
    package.__path__ = list(spec.submodule_search_locations)
    package.__file__ = spec.origin
    package.__package__ = "CoolProp"

    def rest(name: str) -> Any:
        if name.startswith("__") or "rest" not in waiting:
            raise AttributeError(f"module 'CoolProp' has no attribute '{name}'")
        waiting.clear()
        assert spec is not None
        assert spec.loader is not None
        spec.loader.exec_module(package)
        return getattr(package, name)

    waiting = {"rest"}
    package.__dict__["__getattr__"] = rest
    sys.modules["CoolProp"] = package

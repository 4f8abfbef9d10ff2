"""Imports ahead of need, beside the window, what is slow to import."""

from __future__ import annotations

from faultdoc.physics.coolprop import light_coolprop

__all__ = ["warm"]


def warm() -> None:
    """Import what the first assessment and the first check will want."""
    light_coolprop()
    import scipy.interpolate
    import scipy.optimize
    import scipy.special  # noqa: F401

    import faultdoc.diagnosis.assess  # noqa: F401

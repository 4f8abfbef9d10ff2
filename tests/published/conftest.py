"""Comparisons with published values: asserted one by one; tests/conftest.py prints them at the end of the run."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

# The tests' own helpers stand beside them; tests are not a package.
sys.path.insert(0, str(Path(__file__).parent))

Published = Callable[..., None]

_PROPERTY = "published comparison"
"""The name under which tests/conftest.py finds the rows."""


@pytest.fixture
def published(request: pytest.FixtureRequest) -> Published:
    """Return a function that compares our value with a published one, collects the row and asserts.

    published(source, quantity, value, ours, tolerance): `tolerance` is absolute, in the unit that
    `quantity` names; with `relative=True` it is a share of the published value.
    """

    def compare(
        source: str, quantity: str, value: float, ours: float, tolerance: float, *, relative: bool = False
    ) -> None:
        row = {"source": source, "quantity": quantity, "published": float(value), "ours": float(ours)}
        request.node.user_properties.append((_PROPERTY, row))
        allowed = tolerance * abs(value) if relative else tolerance
        assert abs(ours - value) <= allowed, (
            f"{quantity}: published {value:g} ({source}), ours {ours:g}, off {ours - value:g}, allowed {allowed:g}"
        )

    return compare

"""Comparisons with published values: asserted one by one, and printed as a table at the end of the run."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

# The tests' own helpers stand beside them; tests are not a package.
sys.path.insert(0, str(Path(__file__).parent))

Published = Callable[..., None]

_PROPERTY = "published comparison"


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


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Print source, quantity, published value, ours and the deviation of every comparison made."""
    rows = list(_rows(terminalreporter))
    if not rows:
        return
    terminalreporter.section(f"{len(rows)} comparisons with published values")
    terminalreporter.write_line(f"{'published':>12} {'ours':>12} {'deviation':>10}  quantity [source]")
    for row in rows:
        value, ours = row["published"], row["ours"]
        off = f"{100 * (ours - value) / abs(value):+.2f} %" if value else f"{ours - value:+.3g}"
        terminalreporter.write_line(f"{value:>12.6g} {ours:>12.6g} {off:>10}  {row['quantity']} [{row['source']}]")


def _rows(terminalreporter: Any) -> Iterator[dict[str, Any]]:
    # Properties of the reports reach the controlling process too when the tests run in several.
    for outcome in ("passed", "failed"):
        for report in terminalreporter.stats.get(outcome, []):
            if getattr(report, "when", None) == "call":
                yield from (row for name, row in report.user_properties if name == _PROPERTY)

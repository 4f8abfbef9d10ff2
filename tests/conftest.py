"""What all tests share: Qt draws to nowhere, and nobody's own cases, settings or units are touched."""

import os
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
# While tests are collected too: a folder that there is not.
os.environ.pop("FAULTDOC_CASE_BOOK", None)
os.environ["FAULTDOC_HOME"] = str(Path(tempfile.gettempdir()) / "faultdoc-tests-have-no-home")


@pytest.fixture(autouse=True)
def _own_home(tmp_path, monkeypatch):
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "home"))


@pytest.fixture
def run(capsys, monkeypatch):
    """Return (arguments, lines typed) -> exit code, standard output, standard error."""

    def run_with(*arguments, typed=()):
        from faultdoc import cli

        lines = iter(typed)

        def typing(prompt=""):
            print(prompt, end="")
            try:
                return next(lines)
            except StopIteration:
                raise EOFError from None

        monkeypatch.setattr("builtins.input", typing)
        monkeypatch.setattr(sys, "argv", ["faultdoc", *map(str, arguments)])
        code = 0
        try:
            cli.main()
        except SystemExit as left:
            code = left.code or 0
        said = capsys.readouterr()
        return code, said.out, said.err

    return run_with


# Not beside the comparisons: of a run in several processes, the one that prints its end reads this file only.
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
                yield from (row for name, row in report.user_properties if name == "published comparison")

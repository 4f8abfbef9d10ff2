"""The rooms and the doors between them: which module may import which."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = ROOT / "faultdoc"
ROOMS = (
    "words",
    "plain",
    "quantities",
    "model",
    "library",
    "physics",
    "checks",
    "diagnosis",
    "simulator",
    "record",
    "practice",
)
"""From the bottom up: a room may import those before it. What is in none of them is on top."""
QT = {"PySide6", "shiboken6", "pyqtgraph"}
MODULES = sorted(PACKAGE.rglob("*.py"))


def imports(path: Path) -> set[str]:
    """Return every module that a file imports anywhere in it, in full (relative ones resolved)."""
    found: set[str] = set()
    here = path.relative_to(ROOT).with_suffix("").parts
    package = here[:-1]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(package[: len(package) - node.level + 1]) if node.level else ""
            module = ".".join(part for part in (base, node.module or "") if part)
            found.update(f"{module}.{alias.name}" for alias in node.names)
    return found


def room(module: str) -> str | None:
    """Return the room of a module of ours, given as a dotted name; None for others' modules.

    A module of the package's top that is no room (the command line, say) is 'top'.
    """
    parts = module.split(".")
    if parts[0] != "faultdoc" or len(parts) < 2:
        return None
    if parts[1] == "app" or parts[1] in ROOMS:
        return parts[1]
    top = PACKAGE / f"{parts[1]}.py", PACKAGE / parts[1] / "__init__.py"
    return "top" if any(path.exists() for path in top) else None


def broken_doors(path: Path) -> list[str]:
    """Return the imports of a module that go up instead of down."""
    here = room(".".join(path.relative_to(ROOT).with_suffix("").parts))
    if here not in ROOMS:
        return []
    allowed = set(ROOMS[: ROOMS.index(here) + 1])
    if here == "physics":
        allowed = {"physics"}
    return sorted(name for name in imports(path) if (to := room(name)) is not None and to not in allowed)


def outside(path: Path) -> set[str]:
    """Return the names of the libraries a module imports."""
    return {name.partition(".")[0] for name in imports(path)}


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_a_room_imports_only_from_those_below_it(path: Path) -> None:
    assert broken_doors(path) == []


def test_there_is_something_to_check() -> None:
    assert {"quantities", "model", "library"} <= {
        room(".".join(path.relative_to(ROOT).with_suffix("").parts)) for path in MODULES
    }


def test_a_broken_door_would_be_seen(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr(f"{__name__}.ROOT", tmp_path)
    monkeypatch.setattr(f"{__name__}.PACKAGE", tmp_path / "faultdoc")
    bad = tmp_path / "faultdoc" / "library" / "bad.py"
    bad.parent.mkdir(parents=True)
    bad.write_text(
        "from faultdoc.model import tree\nfrom ..checks.base import Check\n"
        "def later():\n    import faultdoc.app.window\n"
    )
    assert broken_doors(bad) == ["faultdoc.app.window", "faultdoc.checks.base.Check"]
    assert imports(bad) == {"faultdoc.model.tree", "faultdoc.checks.base.Check", "faultdoc.app.window"}


def test_only_the_window_knows_qt() -> None:
    below = [path for path in MODULES if "app" not in path.relative_to(PACKAGE).parts]
    assert {path: outside(path) & QT for path in below if outside(path) & QT} == {}


def test_only_quantities_knows_pint() -> None:
    assert [path.name for path in MODULES if "pint" in outside(path)] == ["quantities.py"]


def test_the_engine_knows_the_simulator_by_its_written_rows_only() -> None:
    """Neither library nor engine names the simulator, not even as text for a late import."""
    rooms = ("library", "physics", "checks", "diagnosis")
    paths = [path for path in MODULES if room(".".join(path.relative_to(ROOT).with_suffix("").parts)) in rooms]
    assert len(paths) > 30
    named = [
        path.relative_to(ROOT).as_posix()
        for path in paths
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and ("faultdoc.simulator" in node.value or "faultdoc.practice" in node.value)
    ]
    assert named == []

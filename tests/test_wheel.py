"""The wheel, as a user gets it: built, installed into an environment of its own, and run far from any checkout."""

import configparser
import json
import os
import shutil
import subprocess
import sys
import sysconfig
import tomllib
import venv
import zipfile
from collections.abc import Iterator
from email.parser import Parser
from itertools import pairwise
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

pytestmark = pytest.mark.slow

ROOT = Path(__file__).resolve().parents[1]
NOT_SOURCE = shutil.ignore_patterns(
    ".git", ".venv", "__pycache__", ".*_cache", ".hypothesis", "dist", "build", "out"
)


def call(*command: str | Path, cwd: Path, **variables: str) -> str:
    environment = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "VIRTUAL"))}
    done = subprocess.run(
        command, cwd=cwd, env=environment | variables, capture_output=True, text=True, timeout=300, check=False
    )
    assert done.returncode == 0, f"{command} ended with {done.returncode}:\n{done.stdout}\n{done.stderr}"
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a wheel built from a copy, so that nothing is written into the checkout."""
    copy = tmp_path_factory.mktemp("source") / "faultdoc"
    shutil.copytree(ROOT, copy, ignore=NOT_SOURCE)
    call(sys.executable, "-m", "build", "--wheel", "--no-isolation", cwd=copy)
    (built,) = (copy / "dist").glob("*.whl")
    return built


@pytest.fixture
def clean(wheel: Path, tmp_path: Path) -> Iterator[dict[str, Path]]:
    """Yield the paths of a new environment that holds the wheel and what it depends on, nothing else.

    A real `pip install`, not a link to the packages of the running environment: that one also holds the tests'
    packages and would hide a dependency missing from pyproject.toml. Measured with pip's cache warm, as start.py
    leaves it, on 2 cores: 10 s so, against 3 s with links; 20 s with a pip of its own and compiled files.
    """
    folder = tmp_path / "environment"
    venv.create(folder, with_pip=False, symlinks=os.name == "posix")
    paths = sysconfig.get_paths("venv", vars={"base": str(folder), "platbase": str(folder)})
    suffix = ".exe" if os.name == "nt" else ""
    python = Path(paths["scripts"], "python" + suffix)
    install = ("install", "--quiet", "--no-compile", "--constraint", ROOT / "constraints.txt", wheel)
    call(sys.executable, "-m", "pip", "--python", python, *install, cwd=tmp_path)
    yield {
        "python": python,
        "faultdoc": Path(paths["scripts"], "faultdoc" + suffix),
        "site": Path(paths["purelib"]),
    }
    shutil.rmtree(folder)  # about 600 MB, and pytest keeps the folders of the last three runs


def test_wheel_carries_every_tree_and_resource_and_nothing_of_the_checkout_around_it(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        inside = {name: archive.read(name) for name in archive.namelist()}
    for top in ("trees", "resources"):
        files = [path for path in (ROOT / top).rglob("*") if path.is_file()]
        assert files, f"the checkout has no {top}"
        for path in files:
            assert inside[f"faultdoc/_data/{path.relative_to(ROOT).as_posix()}"] == path.read_bytes()
    # PEP 561: a typed package ships this marker, else type checkers ignore its annotations.
    assert "faultdoc/py.typed" in inside
    assert {name.split("/")[0].partition("-")[0] for name in inside} == {"faultdoc"}


def test_metadata_says_what_pyproject_says(wheel: Path) -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    with zipfile.ZipFile(wheel) as archive:
        info = f"faultdoc-{project['version']}.dist-info"
        metadata = Parser().parsestr(archive.read(f"{info}/METADATA").decode())
        scripts = configparser.ConfigParser()
        scripts.read_string(archive.read(f"{info}/entry_points.txt").decode())
    assert metadata["Requires-Python"] == project["requires-python"]
    assert metadata.get_payload().strip() == (ROOT / "README.md").read_text(encoding="utf-8").strip()
    always = [Requirement(text) for text in metadata.get_all("Requires-Dist", []) if "extra ==" not in text]
    wanted = [Requirement(text) for text in project["dependencies"]]
    assert {canonicalize_name(item.name): item.specifier for item in always} == {
        canonicalize_name(item.name): item.specifier for item in wanted
    }
    assert dict(scripts["console_scripts"]) == {"faultdoc": "faultdoc.cli:main"}


def test_installed_wheel_diagnoses_a_shipped_case_far_from_the_checkout(
    clean: dict[str, Path], tmp_path: Path
) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    shipped = sorted((ROOT / "resources" / "cases").glob("*.yaml"))
    assert shipped, "no case file in resources/cases"
    case = shutil.copy(shipped[0], elsewhere / "case.yaml")
    home = {"HOME": str(elsewhere), "USERPROFILE": str(elsewhere)}

    where = call(clean["python"], "-c", "import faultdoc; print(faultdoc.__file__)", cwd=elsewhere, **home)
    assert Path(where.strip()) == clean["site"] / "faultdoc" / "__init__.py"

    # The case book is made by migrations, which must have come along.
    assert json.loads(call(clean["faultdoc"], "cases", "--json", cwd=elsewhere, **home)) == {"cases": []}

    answer = json.loads(call(clean["faultdoc"], "diagnose", case, "--json", cwd=elsewhere, **home))
    assert answer["causes"]
    for cause in answer["causes"]:
        assert cause.keys() >= {"id", "title", "system", "probability"}
        assert 0 <= cause["probability"] <= 1
    assert all(first["probability"] >= then["probability"] for first, then in pairwise(answer["causes"]))
    assert answer["next"].keys() >= {"kind", "id", "text", "minutes", "state", "who", "cautions"}
    assert answer["next"]["text"]

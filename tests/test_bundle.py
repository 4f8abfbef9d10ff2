"""The folder that runs without Python: built, moved elsewhere, and run with nothing of this environment.

Runs where PyInstaller is installed (`pip install pyinstaller`); it takes minutes, so no other run installs it.
"""

import importlib.util
import json
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(importlib.util.find_spec("PyInstaller") is None, reason="PyInstaller is not installed"),
]
LARGEST = 600e6
"""Bytes; 416 MB were measured."""


@pytest.fixture(scope="module")
def program(tmp_path_factory):
    folder = tmp_path_factory.mktemp("bundle")
    done = subprocess.run(
        [sys.executable, str(ROOT / ".packaging" / "bundle.py"), str(folder)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    moved = tmp_path_factory.mktemp("elsewhere") / "faultdoc"
    shutil.move(folder / "faultdoc", moved)
    shutil.rmtree(folder)
    return moved / ("faultdoc.exe" if os.name == "nt" else "faultdoc")


def bare(home):
    """An environment in which no Python can be found."""
    kept = {name: os.environ[name] for name in ("HOME", "LANG", "SYSTEMROOT") if name in os.environ}
    return kept | {"PATH": "/nowhere", "FAULTDOC_HOME": str(home), "XDG_DATA_HOME": str(home / "share")}


def test_it_diagnoses(program, tmp_path):
    case = ROOT / "resources" / "cases" / "six_floors_up.yaml"
    done = subprocess.run(
        [program, "diagnose", case, "--json"], env=bare(tmp_path), capture_output=True, text=True, check=True
    )
    assert json.loads(done.stdout)["causes"][0]["probability"] > 0.5


def test_its_case_book_opens(program, tmp_path):
    done = subprocess.run(
        [program, "cases", "--json"], env=bare(tmp_path), capture_output=True, text=True, check=True
    )
    assert json.loads(done.stdout) == {"cases": []}


def test_its_window_comes_up(program, tmp_path):
    sign = tmp_path / "ready"
    more = {"FAULTDOC_READY_FILE": str(sign), "QT_QPA_PLATFORM": "offscreen"}
    process = subprocess.Popen([program, "window"], env=bare(tmp_path) | more)
    end = time.monotonic() + 60
    while not sign.exists() and process.poll() is None and time.monotonic() < end:
        time.sleep(0.05)
    process.terminate()
    process.wait()
    assert sign.exists()


def test_it_is_not_larger_than_it_must_be(program):
    size = sum(path.stat().st_size for path in program.parent.rglob("*") if path.is_file())
    assert size < LARGEST

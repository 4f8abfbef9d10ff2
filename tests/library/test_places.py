import os
import subprocess
import sys
from pathlib import Path

import pytest

from faultdoc.library import places

ROOT = Path(__file__).resolve().parents[2]


def test_a_checkout_has_its_data_at_the_top() -> None:
    assert places.resources_folder() == ROOT / "resources"
    assert places.trees_folder() == ROOT / "trees"


def test_an_installed_package_has_its_data_inside(tmp_path, monkeypatch) -> None:
    package = tmp_path / "site-packages" / "faultdoc"
    (package / "_data" / "resources").mkdir(parents=True)
    (tmp_path / "site-packages" / "resources").mkdir()  # somebody else's, beside the package
    monkeypatch.setattr(places, "_PACKAGE", package)
    assert places.resources_folder() == package / "_data" / "resources"
    assert places.trees_folder() == package / "_data" / "trees"


def test_neither_place_has_it(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr(places, "_PACKAGE", tmp_path / "faultdoc")
    with pytest.raises(FileNotFoundError, match="install faultdoc again"):
        places.data_folder()


def test_the_working_directory_does_not_matter(tmp_path) -> None:
    code = "from faultdoc.library.places import resources_folder as f; print((f() / 'points.yaml').is_file())"
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    run = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, env=environment, capture_output=True, text=True, check=True
    )
    assert run.stdout.strip() == "True"


def test_own_files_are_named_short_and_others_as_given(tmp_path) -> None:
    assert places.shown(ROOT / "trees" / "x.yaml") == "trees/x.yaml"
    assert places.shown(tmp_path / "x.yaml") == str(tmp_path / "x.yaml")

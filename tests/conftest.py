"""What all tests share: Qt draws to nowhere, and nobody's own cases, settings or units are touched."""

import os
import tempfile
from pathlib import Path

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
# While tests are collected too: a folder that there is not.
os.environ["FAULTDOC_HOME"] = str(Path(tempfile.gettempdir()) / "faultdoc-tests-have-no-home")


@pytest.fixture(autouse=True)
def _own_home(tmp_path, monkeypatch):
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "home"))

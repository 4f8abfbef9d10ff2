"""What all tests share: Qt draws to nowhere, and nobody's own cases or settings are touched."""

import os

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


@pytest.fixture(autouse=True)
def _own_home(tmp_path, monkeypatch):
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "home"))

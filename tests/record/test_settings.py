from pathlib import Path

import pytest
from pydantic import ValidationError

from faultdoc.quantities import System
from faultdoc.record.settings import Settings, data_home, settings_home


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


def test_home_variable_moves_both_folders(home):
    assert data_home() == home
    assert settings_home() == home


def test_without_the_variable_the_folders_are_the_users_own(monkeypatch):
    monkeypatch.delenv("FAULTDOC_HOME")
    assert data_home().name == "faultdoc"
    assert settings_home().is_absolute()


def test_defaults_where_nothing_is_kept(home, capsys):
    assert Settings.load() == Settings(system=System.US, emergency_numbers=(), last_unit=None)
    assert not home.exists()
    assert capsys.readouterr().err == ""


def test_what_is_saved_is_loaded(home):
    settings = Settings(system=System.SI, emergency_numbers=("Gate 3: 555 0100",), last_unit="bluff_30")
    settings.save()
    assert Settings.load() == settings
    assert [path.name for path in home.iterdir()] == ["settings.json"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("{", "JSON"),
        ('{"system": "imperial"}', "system"),
        ('{"colour": "blue"}', "colour"),
        ('{"emergency_numbers": "911"}', "emergency_numbers"),
    ],
)
def test_a_broken_file_is_set_aside_and_told(home, capsys, text, told):
    home.mkdir()
    (home / "settings.json").write_text(text, encoding="utf-8")
    assert Settings.load() == Settings()
    (kept,) = home.iterdir()
    assert kept.name.startswith("settings.json.broken-")
    assert kept.read_text(encoding="utf-8") == text
    said = capsys.readouterr().err
    assert told in said
    assert kept.name in said


def test_a_file_that_cannot_be_read_leaves_the_defaults(home, capsys):
    (home / "settings.json").mkdir(parents=True)
    assert Settings.load() == Settings()
    assert "cannot be read" in capsys.readouterr().err


def test_a_save_that_fails_leaves_the_old_file_and_no_draft(home, monkeypatch):
    Settings(last_unit="one").save()

    def refuse(*_):
        raise OSError("no")

    monkeypatch.setattr("faultdoc.record.settings.os.replace", refuse)
    with pytest.raises(OSError, match="no"):
        Settings(last_unit="two").save()
    assert [path.name for path in Path(home).iterdir()] == ["settings.json"]
    assert Settings.load().last_unit == "one"


def test_blank_lines_are_no_emergency_numbers():
    with pytest.raises(ValidationError):
        Settings(emergency_numbers=("  ",))

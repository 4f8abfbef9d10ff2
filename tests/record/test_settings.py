import re
from pathlib import Path

import pytest
from pydantic import ValidationError

from faultdoc.quantities import System
from faultdoc.record.settings import Settings, case_book_place, data_home, settings_home


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


def usual():
    """Return what is loaded where nothing else was ever set: the defaults, with the station that was made."""
    return Settings(station=Settings.load().station)


def test_defaults_where_nothing_is_kept(home, capsys):
    settings = Settings.load()
    assert settings == Settings(system=System.US, emergency_numbers=(), last_unit=None, station=settings.station)
    assert capsys.readouterr().err == ""


def test_a_machine_is_given_a_station_once_and_may_change_it(home):
    station = Settings.load().station
    assert re.fullmatch(r"desk-[0-9a-f]{4}", station)
    assert Settings.load().station == station
    Settings.load().model_copy(update={"station": "van-3"}).save()
    assert Settings.load().station == "van-3"


def test_what_was_set_before_there_were_stations_stays(home):
    home.mkdir()
    (home / "settings.json").write_text('{"system": "SI", "last_unit": "bluff_30"}', encoding="utf-8")
    settings = Settings.load()
    assert (settings.system, settings.last_unit) == (System.SI, "bluff_30")
    assert Settings.load() == settings


def test_where_the_case_book_lies(home, monkeypatch):
    assert case_book_place() == home / "cases.sqlite"
    Settings(case_book="postgresql://desk@books.example/cases").save()
    assert case_book_place() == "postgresql://desk@books.example/cases"
    monkeypatch.setenv("FAULTDOC_CASE_BOOK", str(home / "other.sqlite"))
    assert case_book_place() == home / "other.sqlite"


def test_what_is_saved_is_loaded(home):
    settings = Settings(
        system=System.SI, emergency_numbers=("Gate 3: 555 0100",), last_unit="bluff_30", station="van-3"
    )
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
    assert Settings.load() == usual()
    (kept,) = home.glob("settings.json.*")
    assert kept.name.startswith("settings.json.broken-")
    assert kept.read_text(encoding="utf-8") == text
    said = capsys.readouterr().err
    assert told in said
    assert kept.name in said


def test_a_file_that_cannot_be_read_leaves_the_defaults(home, capsys):
    (home / "settings.json").mkdir(parents=True)
    settings = Settings.load()
    assert settings == Settings(station=settings.station)
    assert settings.station
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

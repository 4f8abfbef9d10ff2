"""The entry in the desktop's menu: by the Desktop Entry Specification, put in once, taken out for good."""

import configparser
import re
import shlex

import pytest
from PySide6.QtGui import QIcon
from typer.testing import CliRunner

from faultdoc.app import menu
from faultdoc.app.office import Office
from faultdoc.app.run import _enter_menu
from faultdoc.cli import app
from faultdoc.record.settings import Settings


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "share"))
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "home"))
    return tmp_path


def read(text):
    found = configparser.RawConfigParser()
    found.optionxform = str
    found.read_string(text)
    return found["Desktop Entry"]


def test_entry_has_what_the_specification_asks_for(home):
    path = menu.add_entry("/opt/faultdoc/bin/faultdoc")
    assert path == home / "share" / "applications" / "faultdoc.desktop"
    entry = read(path.read_text(encoding="utf-8"))
    assert (entry["Type"], entry["Name"], entry["Terminal"]) == ("Application", "FaultDoc", "false")
    assert shlex.split(entry["Exec"]) == ["/opt/faultdoc/bin/faultdoc", "window", "%f"]
    icon = home / "share" / "icons" / "hicolor" / "scalable" / "apps" / f"{entry['Icon']}.svg"
    assert icon.read_bytes() == menu.icon_file().read_bytes()


@pytest.mark.parametrize("command", ["/a b/f", '/q"uote/f', "/dollar$/f", "/back\\slash/f", "/100%/f"])
def test_odd_paths_are_quoted(command):
    """Undone as a desktop would: the text's own escapes, then those of a quoted argument, then the field codes."""
    line = read(menu.entry_text(command))["Exec"].replace("\\\\", "\\")
    quoted = re.match(r'"((?:[^"\\]|\\.)*)"', line)[1]
    assert re.sub(r"\\(.)", r"\1", quoted).replace("%%", "%") == command


def test_icon_is_drawn(qapp):
    icon = QIcon(str(menu.icon_file()))
    image = icon.pixmap(64, 64).toImage()
    assert len({image.pixel(x, y) for x in range(0, 64, 4) for y in range(0, 64, 4)}) > 3


def test_command_puts_in_and_takes_out():
    run = CliRunner().invoke
    assert "is in the menu" in run(app, ["menu"]).output
    assert menu.has_entry()
    assert "out of the menu" in run(app, ["menu", "--remove"]).output
    assert not menu.has_entry()
    assert "was not" in run(app, ["menu", "--remove"]).output


def test_an_installed_program_enters_once_and_stays_out_when_taken_out(qapp, monkeypatch):
    office = Office()
    _enter_menu(office)
    assert not menu.has_entry()  # a checkout leaves the menu alone
    monkeypatch.setattr("faultdoc.library.places.is_installed", lambda: True)
    _enter_menu(office)
    assert menu.has_entry()
    assert Settings.load().menu_entry_made
    menu.remove_entry()
    _enter_menu(office)
    assert not menu.has_entry()
    office.background.close()

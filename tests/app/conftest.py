# ruff: noqa: E402
"""The window on a small tree, without a screen."""

import os
from pathlib import Path

import pytest

os.environ["QT_QPA_PLATFORM"] = "offscreen"

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QApplication, QWidget

from faultdoc.app.tr import speak

LANGUAGE = os.environ.get("FAULTDOC_TEST_LANGUAGE", "en")
"""Another language than English is tested in a process of its own; see test_spanish.py."""
if LANGUAGE != "en":
    speak(QApplication.instance() or QApplication(["faultdoc"]), LANGUAGE)

from faultdoc.app.office import Office
from faultdoc.app.shelf import Shelf, fill_shelf
from faultdoc.app.style import apply_style
from faultdoc.app.window import Window
from faultdoc.library.load import load_library, load_unit
from faultdoc.model.case import Case
from faultdoc.model.safety import PlantState, Qualification

SMALL = Path(__file__).parent / "small.yaml"


class Driver(QObject):
    """A window, and the waiting that a person does without thinking."""

    def __init__(self, qtbot, shelf):
        super().__init__()
        self.bot = qtbot
        app = QApplication.instance()
        if not app.styleSheet():
            apply_style(app)
        self.office = Office()
        self.told = []
        self.office.told.connect(lambda severity, words: self.told.append((severity, words)))
        self.window = Window(self.office)
        qtbot.addWidget(self.window)
        self.window.show()
        self.window.load(None, lambda: shelf)
        self.settle()

    @property
    def desk(self):
        return self.window.desk

    @property
    def step(self):
        return self.window.work.step

    def settle(self, until=lambda: True):
        self.bot.waitUntil(
            lambda: self.office.background.idle and not self.desk.looking and bool(until()), timeout=20000
        )
        QApplication.processEvents()

    def calm(self):
        """Wait for what may be late too."""
        self.settle(lambda: self.office.aside.idle)

    def begin(self, who=(Qualification.TECHNICIAN,), symptom="small_trip", **state):
        usual = {
            "supply": "energised",
            "panel": "closed",
            "pump": "running",
            "water": "pressurised",
            "compressors": "stopped",
            "oil": "warm",
        }
        plant = PlantState.model_validate({**usual, **state})
        self.desk.begin(Case(title="Test", unit="bluff_30", symptoms=(symptom,), state=plant, who=who))
        self.settle(lambda: self.desk.session is not None)

    def pick(self, kind, id):
        from faultdoc.record.steps import Pick

        self.desk.choose(Pick(kind, id))
        self.settle()

    def acknowledge(self):
        if self.step.acknowledge is not None and not self.step.acknowledge.tick.isChecked():
            self.step.acknowledge.tick.click()

    def texts(self, widget: QWidget) -> str:
        from PySide6.QtWidgets import QLabel

        self.settle()  # parts just added show when the event loop comes round
        return "\n".join(label.text() for label in widget.findChildren(QLabel) if label.isVisibleTo(widget))


@pytest.fixture(scope="session")
def small_shelf():
    return Shelf(load_library(SMALL, language=LANGUAGE), {"bluff_30": load_unit("bluff_30")})


@pytest.fixture(scope="session")
def shipped_shelf():
    return fill_shelf()


def _driver(qtbot, shelf):
    driver = Driver(qtbot, shelf)
    yield driver
    driver.settle()
    driver.window.close()


@pytest.fixture
def driver(qtbot, small_shelf):
    yield from _driver(qtbot, small_shelf)


@pytest.fixture
def shipped(qtbot, shipped_shelf):
    yield from _driver(qtbot, shipped_shelf)

# ruff: noqa: E402
"""The window in Spanish: nothing English is left on its pages, and nothing is cut off. In a process of its own."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QAbstractButton, QLabel, QLineEdit, QPlainTextEdit, QTextBrowser, QWidget

from faultdoc.app.style import scaled
from faultdoc.app.widgets.caution import SignalPanel
from faultdoc.model.safety import Signal
from faultdoc.record.words import SIGNAL_WORDS
from faultdoc.words import language, say

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(Path(__file__).parent))

from test_access import go_to

PAGES = ["start", "plant", "step", "readings", "causes", "record", "why", "side_plant", "stops", "help", "search",
         "close", "report", "tree", "phone", "phone_stops", "decide", "handover"]  # fmt: skip
ENGLISH = re.compile(
    r"\b(the|of|and|is|are|with|not|this|that|from|for|what|which|it|was|has|then|later|sooner|about|when|you|your|yes)\b",
    re.IGNORECASE,
)
spanish = pytest.mark.skipif(language() != "es", reason="runs in the process that the test at the end starts")


def shown(window: QWidget) -> list[str]:
    """Return every text that a person can see or hear on a window."""
    found: list[str] = []
    for widget in window.findChildren(QWidget):
        if not widget.isVisible():
            continue
        found += [widget.toolTip(), widget.accessibleName(), widget.accessibleDescription()]
        if isinstance(widget, (QLabel, QAbstractButton)):
            found.append(re.sub(r"<[^>]+>", " ", widget.text()))
        if isinstance(widget, (QLineEdit, QPlainTextEdit)):
            found.append(widget.placeholderText())
        if isinstance(widget, QTextBrowser):
            found.append(widget.toPlainText())
    return [text for text in found if text]


@spanish
@pytest.mark.parametrize("page", PAGES)
def test_no_english_is_left(driver, page, tmp_path):
    driver.window.resize(1024, 600)
    go_to(driver, page, tmp_path)
    driver.settle()
    driver.bot.wait(80)
    texts = shown(driver.window)
    assert len(texts) > 10
    assert [text for text in texts if ENGLISH.search(text)] == []


@spanish
def test_signal_words_are_those_of_spanish_safety_signs():
    """ANSI Z535 labels in Spanish: PELIGRO, ADVERTENCIA, PRECAUCIÓN, AVISO; from memory."""
    assert [SIGNAL_WORDS[one] for one in Signal] == ["PELIGRO", "ADVERTENCIA", "PRECAUCIÓN", "AVISO"]
    assert say("Back") == "Volver"


@spanish
def test_safety_words_fit_their_panel(qtbot):
    for signal in Signal:
        panel = SignalPanel(signal)
        qtbot.addWidget(panel)
        word = QFontMetricsF(panel.word_font()).horizontalAdvance(SIGNAL_WORDS[signal])
        # Beside the word stand the alert sign and the panel's edges.
        assert panel.minimumWidth() >= word + scaled(22) + 16, signal


@pytest.mark.skipif(language() != "en", reason="it starts the others")
def test_the_window_in_spanish():
    """Run the tests above, and those of fit and names at 1024x600, with the window speaking Spanish."""
    here = [f"tests/app/{name}" for name in ("test_spanish.py", "test_access.py")]
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", *here,
         "-k", "english or safety or (fits and 1024x600)"],
        cwd=ROOT, env={**os.environ, "FAULTDOC_TEST_LANGUAGE": "es"}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout[-6000:]
    assert " skipped" not in done.stdout

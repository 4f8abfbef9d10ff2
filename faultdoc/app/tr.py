"""The window's languages, through Qt's translation: a translator that reads Qt's own .ts files as they are.

`faultdoc.words.say` asks it for every text, those of the layers below the window too. There is no .qm file to be
made and kept in step. Translators may edit the .ts with Qt Linguist, or any editor.
"""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QTranslator

from faultdoc import words
from faultdoc.library.languages import ENGLISH
from faultdoc.library.places import resources_folder

__all__ = ["CONTEXT", "TsTranslator", "read_ts", "speak", "ts_file"]

CONTEXT = "FaultDoc"


def ts_file(language: str) -> Path:
    """Return the file of a language's texts of the window."""
    return resources_folder() / "languages" / f"faultdoc_{language}.ts"


def read_ts(path: Path) -> dict[str, str]:
    """Return the texts of a .ts file by their English; those not translated yet are left out.

    Raises:
        OSError: when it cannot be read.
        ElementTree.ParseError: when it is no XML.
    """
    found: dict[str, str] = {}
    for message in ElementTree.parse(path).getroot().iter("message"):
        text = message.findtext("translation")
        if text:
            found[message.findtext("source") or ""] = text
    return found


class TsTranslator(QTranslator):
    """Qt's translator over a .ts file."""

    def __init__(self, path: Path) -> None:
        super().__init__()
        self._texts = read_ts(path)

    def isEmpty(self) -> bool:
        """Say that there is something here: Qt leaves a translator out that it has not filled itself."""
        return not self._texts

    def translate(self, context: str, text: str, disambiguation: str | None = None, n: int = -1) -> str | None:
        """Return the text in this language, None where it has none."""
        return self._texts.get(text) if context == CONTEXT else None


def speak(app: QCoreApplication, language: str) -> None:
    """Let the whole process speak a language; to be done before any module with words in it is imported.

    Args:
        app: on which the translators are installed.
        language: one of `faultdoc.library.languages.languages`; English, and one without texts, change nothing.
    """
    if language == ENGLISH or not ts_file(language).is_file():
        return
    own = TsTranslator(ts_file(language))
    own.setParent(app)
    app.installTranslator(own)
    # Buttons and dialogues that are Qt's own.
    qts = QTranslator(app)
    if qts.load(f"qtbase_{language}", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)):
        app.installTranslator(qts)
    words.use(language, lambda text: QCoreApplication.translate(CONTEXT, text))

"""How everything looks: for sunlight or for the night, and how large the letters are."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QLocale, Signal
from PySide6.QtWidgets import QButtonGroup, QPushButton

from faultdoc.app.office import Office
from faultdoc.app.style import SIZES
from faultdoc.app.widgets.basic import button, buttons, label, one_of
from faultdoc.app.widgets.page import Page
from faultdoc.library.languages import ENGLISH, languages
from faultdoc.record.settings import Theme
from faultdoc.words import say

__all__ = ["LooksPage"]

_THEMES: tuple[tuple[Theme, str], ...] = (("sunlight", say("For sunlight")), ("night", say("For the night")))


_LANGUAGES = {"en": "English", "es": "Español"}


class LooksPage(Page):
    """Theme and text size; what is chosen shows at once, and is kept."""

    back = Signal()

    def __init__(self, office: Office) -> None:
        super().__init__()
        self._office = office
        self.body.addWidget(label(say("Looks"), "headline"))
        self._groups = QButtonGroup(self), QButtonGroup(self), QButtonGroup(self)
        self.themes: dict[Theme, QPushButton] = {}
        for theme, words in _THEMES:
            self.themes[theme] = one_of(self._groups[0], words, partial(self._take, theme, None), "way", words)
        self.body.addWidget(label(say("Colours (Ctrl+Shift+L changes them anywhere)"), "title"))
        self.body.addWidget(buttons(*self.themes.values()))
        self.sizes: dict[int, QPushButton] = {}
        for size in SIZES:
            words = f"{size} %"
            self.sizes[size] = one_of(
                self._groups[1],
                words,
                partial(self._take, None, size),
                "way",
                say("Letters at {words}", words=words),
            )
        self.body.addWidget(label(say("Letters (Ctrl+plus and Ctrl+minus anywhere)"), "title"))
        self.body.addWidget(buttons(*self.sizes.values()))
        self.body.addWidget(label(say("Read this line from as far off as you hold the screen at work."), "text"))
        self.languages: dict[str, QPushButton] = {}
        for language in languages():
            # Each in its own words, so that whoever is lost in the other finds it.
            name = _LANGUAGES.get(language, QLocale(language).nativeLanguageName())
            self.languages[language] = one_of(
                self._groups[2], name, partial(office.set_language, language), "way", name
            )
        self.body.addWidget(label(say("Language (from the next start on)"), "title"))
        self.body.addWidget(buttons(*self.languages.values()))
        self.ok = button(say("Back"), self.back.emit, "main")
        self.body.addWidget(buttons(self.ok))
        office.looked.connect(self.fill)

    def fill(self) -> None:
        """Press down what is in use."""
        settings = self._office.settings
        self.themes[settings.theme].setChecked(True)
        self.languages.get(settings.language, self.languages[ENGLISH]).setChecked(True)
        self.sizes.get(settings.text_size, self.sizes[SIZES[0]]).setChecked(True)

    def _take(self, theme: Theme | None, size: int | None) -> None:
        settings = self._office.settings
        self._office.set_look(theme or settings.theme, size or settings.text_size)

"""What every open case shares: the library, the settings, the case book, and the thread beside the window."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QApplication

from faultdoc.app.background import Background
from faultdoc.app.crash import log
from faultdoc.app.startlist import StartList, list_of, remember, remembered
from faultdoc.app.style import SIZES, apply_style
from faultdoc.library.problems import FileProblems
from faultdoc.quantities import System
from faultdoc.record.settings import Settings, Theme, case_book_place
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.app.desk import Desk
    from faultdoc.app.shelf import Shelf
    from faultdoc.library.load import Library
    from faultdoc.model.unit import DataSheet
    from faultdoc.record.casebook import CaseBook, Summary

__all__ = ["Office"]


class Office(QObject):
    """What the desks stand in: one for the window, whatever the number of open cases.

    Signals:
        listed: what the start page lists is known.
        shelf_filled: the library has been loaded.
        broken: tuple of problems; the library cannot be used.
        unfinished_known: the list of unfinished cases has been read.
        switched: the units in which everything is shown are others.
        looked: theme or text size are others.
        told: (severity "bad" or "good", sentence) for the bar.
    """

    listed = Signal()
    shelf_filled = Signal()
    broken = Signal(object)
    unfinished_known = Signal()
    switched = Signal()
    looked = Signal()
    told = Signal(str, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.settings = Settings.load()
        self.shelf: Shelf | None = None
        self.start_list: StartList | None = None
        self.unfinished: tuple[Summary, ...] | None = None
        self.desks: list[Desk] = []
        self.background = Background(self)
        self.aside = Background(self)
        """A second thread, for what may be late: it never keeps an answer waiting."""
        self._book: CaseBook | None = None

    @property
    def system(self) -> System:
        """The units in which everything is shown."""
        return self.settings.system

    def recall(self) -> bool:
        """List what the last start listed, if it still holds; return whether there was such a list."""
        self.start_list = remembered()
        if self.start_list is None:
            return False
        self.listed.emit()
        return True

    def load(self, shelf: Callable[[], Shelf]) -> None:
        """Fill the shelf beside the window."""
        found = self.start_list

        def work() -> StartList:
            # At hand at once for whatever waits behind this in the same thread.
            self.shelf = shelf()
            made = list_of(self.shelf)
            if made != found:
                remember(made)
            return made

        self.background.run(work, self._filled, self._not_filled)

    def _filled(self, made: StartList) -> None:
        if made != self.start_list:
            self.start_list = made
            self.listed.emit()
        if self.shelf is not None and self.shelf.left_out:
            said = "; ".join(str(problem) for problem in self.shelf.left_out)
            self.told.emit("bad", say("Left out of the units: {said}", said=said))
        if self.shelf is not None and self.shelf.library.left_out:
            said = "; ".join(str(problem) for problem in self.shelf.library.left_out)
            self.told.emit("bad", say("Passed over of what cases taught: {said}", said=said))
        self.shelf_filled.emit()

    def _not_filled(self, problem: BaseException) -> None:
        if isinstance(problem, FileProblems):
            self.broken.emit(problem.problems)
        else:
            raise problem

    def add_unit(self, sheet: DataSheet) -> None:
        """Put a unit that has just been kept among those to choose from, chosen."""
        self.keep_settings(self.settings.model_copy(update={"last_unit": sheet.id}))

        def work() -> tuple[Shelf, StartList] | None:
            # Behind the reading of the library, if that is still going on; without one there is nothing to add to.
            if self.shelf is None:
                return None
            rest = {id: one for id, one in self.shelf.sheets.items() if id != sheet.id}
            shelf = replace(self.shelf, sheets={sheet.id: sheet, **rest})
            made = list_of(shelf)
            remember(made)
            return shelf, made

        def then(made: tuple[Shelf, StartList] | None) -> None:
            if made is not None:
                self.shelf, self.start_list = made
                self.listed.emit()

        self.background.run(
            work, then, lambda problem: self.tell_problem(say("The unit could not be listed."), problem)
        )

    @property
    def may_have_unfinished(self) -> bool:
        """Whether there is a case book at all, so that looking into it is worth while."""
        place = case_book_place()
        return isinstance(place, str) or place.exists()

    def use_library(self, library: Library) -> None:
        """Open cases with another library from now on; those that are open keep theirs."""
        if self.shelf is not None:
            self.shelf = replace(self.shelf, library=library)

    def look_for_unfinished(self) -> None:
        """Read the list of unfinished cases beside the window."""
        self.unfinished = None

        def known(found: tuple[Summary, ...]) -> None:
            self.unfinished = found
            self.unfinished_known.emit()

        def failed(problem: BaseException) -> None:
            self.unfinished = ()
            self.unfinished_known.emit()
            self.tell_problem(say("The case book could not be read."), problem)

        def look() -> tuple[Summary, ...]:
            return self.book().unfinished() if self.may_have_unfinished else ()

        self.background.run(look, known, failed)

    def at_desk(self, wanted: int | Path) -> Desk | None:
        """Return the desk that a case of the case book, or that of a file, is on already."""
        return next((desk for desk in self.desks if desk.has(wanted)), None)

    def warm(self) -> None:
        """Import beside the window what the first assessment wants."""
        from faultdoc.app.warm import warm

        self.background.run(warm, lambda _: None, lambda problem: self.tell_problem("", problem))

    def book(self) -> CaseBook:
        """Return the case book, opened at its first use."""
        if self._book is None:
            from faultdoc.record.casebook import CaseBook

            self._book = CaseBook.open()
        return self._book

    def switch_system(self) -> None:
        """Change between US and SI units."""
        other = self.system.other
        self.keep_settings(self.settings.model_copy(update={"system": other}))
        self.switched.emit()

    def set_look(self, theme: Theme, percent: int) -> None:
        """Show everything in a theme and with a text size (100 to 200 %), now and from the next start on."""
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        self.keep_settings(self.settings.model_copy(update={"theme": theme, "text_size": percent}))
        apply_style(app, theme, percent)
        self.looked.emit()
        self.switched.emit()

    def larger(self, steps: int) -> None:
        """Make all letters larger by so many steps, smaller by negative ones, as far as it goes."""
        at = SIZES.index(min(SIZES, key=lambda size: abs(size - self.settings.text_size)))
        self.set_look(self.settings.theme, SIZES[min(max(at + steps, 0), len(SIZES) - 1)])

    def other_theme(self) -> None:
        """Change between the theme for sunlight and that for the night."""
        self.set_look("night" if self.settings.theme == "sunlight" else "sunlight", self.settings.text_size)

    def keep_numbers(self, numbers: tuple[str, ...]) -> None:
        """Keep the emergency numbers."""
        self.keep_settings(Settings.model_validate({**self.settings.model_dump(), "emergency_numbers": numbers}))

    def keep_trainee(self, name: str) -> None:
        """Keep the name of whoever practises; an empty one is forgotten."""
        self.keep_settings(Settings.model_validate({**self.settings.model_dump(), "last_trainee": name or None}))

    def keep_travel(self, minutes: float) -> None:
        """Keep what it usually takes to a site, in minutes."""
        self.keep_settings(self.settings.model_copy(update={"travel_minutes": minutes}))

    def set_language(self, language: str) -> None:
        """Choose the language that trees and window speak from the next start on."""
        self.keep_settings(self.settings.model_copy(update={"language": language}))

    def keep_settings(self, settings: Settings) -> None:
        """Keep other settings; those that could not be written hold until the window is closed."""
        self.settings = settings
        try:
            settings.save()
        except OSError as problem:
            self.told.emit("bad", say("The settings could not be kept: {strerror}.", strerror=problem.strerror))

    def tell_problem(self, sentence: str, problem: BaseException) -> None:
        """Say in the bar what went wrong, and write the error to the log."""
        path = log(problem)
        kept = say(" Details: {path}", path=path) if path else ""
        self.told.emit("bad", f"{sentence} {problem}{kept}".strip())

    def shut(self) -> None:
        """Let go of everything; the window is closing."""
        self.background.close()
        self.aside.close()
        if self._book is not None:
            self._book.dispose()

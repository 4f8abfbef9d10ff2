"""The window's one model: the library, the case being worked on, and what happens to them.

Views call its methods and redraw on its signals; nothing else changes a case. Every move is in the
case book's journal before it shows (`Session.do`), and every assessment is made beside the window.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from faultdoc.app.background import Background
from faultdoc.app.crash import log
from faultdoc.app.startlist import StartList, list_of, remember, remembered
from faultdoc.library.problems import FileProblems
from faultdoc.model.case import Case
from faultdoc.quantities import System
from faultdoc.record.settings import Settings, case_book_place

if TYPE_CHECKING:
    from faultdoc.app.shelf import Shelf
    from faultdoc.checks.base import CheckResult
    from faultdoc.diagnosis.assess import Assessment, Step
    from faultdoc.model.unit import DataSheet
    from faultdoc.record.casebook import CaseBook, Summary
    from faultdoc.record.session import Entry, Session
    from faultdoc.record.steps import Pick

__all__ = ["Desk", "LastMove"]


@dataclass(frozen=True)
class LastMove:
    """What was done last, and the checks that it brought about or changed."""

    what: str
    checks: tuple[CheckResult, ...] = ()


class Desk(QObject):
    """The case on the desk, and the moves that can be made with it.

    Signals:
        listed: what the start page lists is known.
        shelf_filled: the library has been loaded.
        broken: tuple of problems; the library cannot be used.
        unfinished_known: the list of unfinished cases has been read.
        opened: a case is on the desk.
        busy: whether an assessment is being made.
        changed: the assessment, the pick or the units are new; views redraw.
        left: the desk is empty again.
        told: (severity "bad" or "good", sentence) for the bar.
    """

    listed = Signal()
    shelf_filled = Signal()
    broken = Signal(object)
    unfinished_known = Signal()
    opened = Signal()
    busy = Signal(bool)
    changed = Signal()
    left = Signal()
    told = Signal(str, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.settings = Settings.load()
        self.shelf: Shelf | None = None
        self.start_list: StartList | None = None
        self.unfinished: tuple[Summary, ...] | None = None
        self.session: Session | None = None
        self.case_id: int | None = None
        self.path: Path | None = None
        self.assessment: Assessment | None = None
        self.pick: Pick | None = None
        self.last: LastMove | None = None
        self.looking = False
        self.background = Background(self)
        self._book: CaseBook | None = None
        self._wanted: Path | None = None
        self._unkept: Exception | None = None

    # --- beginning ---

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

    def load(self, shelf: Callable[[], Shelf], then_open: Path | None = None) -> None:
        """Fill the shelf beside the window; then open a case file, if one is named."""
        self._wanted = then_open
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
        self.shelf_filled.emit()
        if self.shelf is not None and self.shelf.left_out:
            said = "; ".join(str(problem) for problem in self.shelf.left_out)
            self.told.emit("bad", f"Left out of the units: {said}")
        if self._wanted is not None:
            wanted, self._wanted = self._wanted, None
            self.open_case(wanted)

    def _not_filled(self, problem: BaseException) -> None:
        if isinstance(problem, FileProblems):
            self.broken.emit(problem.problems)
        else:
            raise problem

    def add_unit(self, sheet: DataSheet) -> None:
        """Put a unit that has just been kept among those to choose from, chosen."""
        self._keep_settings(self.settings.model_copy(update={"last_unit": sheet.id}))

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
            work, then, lambda problem: self.tell_problem("The unit could not be listed.", problem)
        )

    @property
    def may_have_unfinished(self) -> bool:
        """Whether there is a case book at all, so that looking into it is worth while."""
        place = case_book_place()
        return isinstance(place, str) or place.exists()

    def look_for_unfinished(self) -> None:
        """Read the list of unfinished cases beside the window."""

        def known(found: tuple[Summary, ...]) -> None:
            self.unfinished = found
            self.unfinished_known.emit()

        def failed(problem: BaseException) -> None:
            self.unfinished = ()
            self.unfinished_known.emit()
            self.tell_problem("The case book could not be read.", problem)

        def look() -> tuple[Summary, ...]:
            return self.book().unfinished() if self.may_have_unfinished else ()

        self.background.run(look, known, failed)

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

    def begin(self, case: Case) -> None:
        """Put a new case on the desk."""
        self._put(lambda: self._fresh(case), None)
        if case.unit != self.settings.last_unit:
            self._keep_settings(self.settings.model_copy(update={"last_unit": case.unit}))

    def open_case(self, path: Path) -> None:
        """Put the case of a file on the desk."""

        def prepare() -> tuple[int | None, Session]:
            from faultdoc.library.load import load_case

            assert self.shelf is not None
            return self._fresh(load_case(path, self.shelf.library))

        self._put(prepare, path)

    def go_on(self, case_id: int) -> None:
        """Put an unfinished case of the case book on the desk, its undo history with it."""

        def prepare() -> tuple[int | None, Session]:
            from faultdoc.record.session import replay

            book = self.book()
            start, entries = book.load(case_id)
            return case_id, replay(
                self._bench(start), start, entries, book.journal(case_id), self.settings.station
            )

        self._put(prepare, None)

    def _bench(self, case: Case) -> Any:
        from faultdoc.app.warm import warm

        warm()
        from faultdoc.diagnosis.assess import bench_for
        from faultdoc.library.load import load_unit

        assert self.shelf is not None
        sheet = self.shelf.sheets.get(case.unit) or load_unit(case.unit)
        return bench_for(self.shelf.library, sheet, case.symptoms)

    def _fresh(self, case: Case) -> tuple[int | None, Session]:
        from faultdoc.record.session import Session

        bench = self._bench(case)
        try:
            book = self.book()
            case_id = book.start(case)
            return case_id, Session(bench, case, book.journal(case_id), self.settings.station)
        except Exception as problem:
            # The case book must not stand between a person and their work; that it is off is said.
            self._unkept = problem
            return None, Session(bench, case, by=self.settings.station)

    def _put(self, prepare: Callable[[], tuple[int | None, Session]], path: Path | None) -> None:
        if self.looking:
            return
        self._look_busy(True)

        def work() -> tuple[int | None, Session, Assessment]:
            from faultdoc.diagnosis.assess import assess

            case_id, session = prepare()
            return case_id, session, assess(session.bench, session.case)

        def then(made: tuple[int | None, Session, Assessment]) -> None:
            self._close_in_book()
            self.case_id, self.session, self.assessment = made
            self.path = path
            self.pick, self.last = None, None
            self._look_busy(False)
            self.opened.emit()
            self.changed.emit()
            if self._unkept is not None:
                unkept, self._unkept = self._unkept, None
                self.tell_problem(
                    "This case is NOT kept as you go: save it as a file (Ctrl+S) now and then.", unkept
                )

        def failed(problem: BaseException) -> None:
            self._look_busy(False)
            if isinstance(problem, FileProblems) and path is not None:
                self.broken.emit(problem.problems)
            else:
                self.tell_problem("The case could not be opened.", problem)

        self.background.run(work, then, failed)

    # --- the case ---

    @property
    def case(self) -> Case | None:
        """The case as it is now."""
        return self.session.case if self.session else None

    @property
    def step(self) -> Step:
        """The step that is shown."""
        from faultdoc.record.steps import shown_step

        assert self.assessment is not None
        return shown_step(self.assessment, self.pick)

    def do(self, what: str, case: Case) -> bool:
        """Take a move; return whether it is in the journal and on the desk."""
        assert self.session is not None
        if self.looking or case == self.session.case:
            return False
        try:
            self.session.do(what, case)
        except Exception as problem:
            self.tell_problem("That could not be written into the case book, so it was not taken.", problem)
            return False
        self.last = LastMove(what)
        self._look()
        return True

    def undo(self) -> None:
        """Go back one move."""
        self._turn("undo", "Undone")

    def redo(self) -> None:
        """Do the last undone move again."""
        self._turn("redo", "Done again")

    def _turn(self, way: str, word: str) -> None:
        if self.session is None or self.looking:
            return
        try:
            what = self.session.undo() if way == "undo" else self.session.redo()
        except Exception as problem:
            self.tell_problem("That could not be written into the case book, so nothing was changed.", problem)
            return
        if what is None:
            self.told.emit("good", f"There is nothing to {way}.")
            return
        self.pick = None
        self.last = LastMove(f"{word}: {what}")
        self._look()

    def _look(self) -> None:
        """Assess the case beside the window, then show it."""
        assert self.session is not None
        session, case = self.session, self.session.case
        before = self.assessment
        self._look_busy(True)

        def work() -> Assessment:
            from faultdoc.diagnosis.assess import assess

            return assess(session.bench, case)

        def then(seen: Assessment) -> None:
            from faultdoc.record.steps import still_open

            self._look_busy(False)
            if self.session is not session or session.case is not case:
                return
            self.assessment = seen
            if self.last is not None:
                known = {result.id: result for result in before.checks} if before else {}
                fresh = tuple(result for result in seen.checks if known.get(result.id) != result)
                self.last = LastMove(self.last.what, fresh)
            if self.pick is not None and (
                self.pick.kind in ("change", "correct") or not still_open(seen, self.pick)
            ):
                self.pick = None
            self.changed.emit()

        def failed(problem: BaseException) -> None:
            self._look_busy(False)
            self.tell_problem(
                "That is written down, but the case could not be assessed with it. Undo it (Ctrl+Z) to go on.",
                problem,
            )

        self.background.run(work, then, failed)

    def choose(self, pick: Pick | None) -> None:
        """Show another step than the one proposed; None goes back to the proposal."""
        self.pick = pick
        self.changed.emit()

    def leave(self) -> None:
        """Take the case off the desk; it stays in the case book."""
        self._close_in_book()
        self.session = self.case_id = self.assessment = self.pick = self.last = self.path = None
        self.unfinished = None
        self.left.emit()
        self.look_for_unfinished()

    def _close_in_book(self) -> None:
        # Only on leaving: until then the conclusion itself can be undone.
        if self.session is not None and self.session.case.conclusion is not None and self.case_id is not None:
            try:
                self.book().close(self.case_id)
            except Exception as problem:
                self.tell_problem("The case could not be marked as closed in the case book.", problem)

    def shut(self) -> None:
        """Let go of everything; the window is closing."""
        self._close_in_book()
        self.background.close()
        if self._book is not None:
            self._book.dispose()

    def _look_busy(self, on: bool) -> None:
        self.looking = on
        self.busy.emit(on)

    def history(self) -> tuple[Case | None, list[Entry]]:
        """Return the case as it was at the start, and its journal."""
        if self.case_id is None:
            return None, []
        return self.book().load(self.case_id)

    # --- files, settings, messages ---

    def save_as(self, path: Path) -> bool:
        """Write the case to a file; return whether it was written."""
        from faultdoc.library.load import save_case

        assert self.session is not None
        try:
            save_case(self.session.case, path)
        except OSError as problem:
            self.told.emit("bad", f"{path} could not be written: {problem.strerror}. Choose another folder.")
            return False
        self.path = path
        self.told.emit("good", f"Saved as {path}.")
        return True

    def switch_system(self) -> None:
        """Change between US and SI units."""
        other = self.system.other
        self._keep_settings(self.settings.model_copy(update={"system": other}))
        self.changed.emit()

    def keep_numbers(self, numbers: tuple[str, ...]) -> None:
        """Keep the emergency numbers."""
        self._keep_settings(Settings.model_validate({**self.settings.model_dump(), "emergency_numbers": numbers}))

    def keep_trainee(self, name: str) -> None:
        """Keep the name of whoever practises; an empty one is forgotten."""
        self._keep_settings(Settings.model_validate({**self.settings.model_dump(), "last_trainee": name or None}))

    def _keep_settings(self, settings: Settings) -> None:
        self.settings = settings
        try:
            settings.save()
        except OSError as problem:
            self.told.emit("bad", f"The settings could not be kept: {problem.strerror}.")

    def tell_problem(self, sentence: str, problem: BaseException) -> None:
        """Say in the bar what went wrong, and write the error to the log."""
        path = log(problem)
        kept = f" Details: {path}" if path else ""
        self.told.emit("bad", f"{sentence} {problem}{kept}".strip())

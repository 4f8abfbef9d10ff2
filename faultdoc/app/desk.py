"""One case on its desk, and what happens to it. The window has a desk for every open case.

Views call its methods and redraw on its signals; nothing else changes a case. Every move is in the
case book's journal before it shows (`Session.do`), and every assessment is made beside the window.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from faultdoc.app.background import Background
from faultdoc.app.office import Office
from faultdoc.library.problems import FileProblems
from faultdoc.model.case import Case
from faultdoc.quantities import System
from faultdoc.record.settings import Settings
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.app.shelf import Shelf
    from faultdoc.checks.base import CheckResult
    from faultdoc.diagnosis.assess import Assessment, Step
    from faultdoc.record.casebook import CaseBook
    from faultdoc.record.session import Session
    from faultdoc.record.steps import Pick
    from faultdoc.terminal.demo import Script

__all__ = ["Desk", "LastMove"]


@dataclass(frozen=True)
class LastMove:
    """What was done last, and the checks that it brought about or changed."""

    what: str
    checks: tuple[CheckResult, ...] = ()


class Desk(QObject):
    """The case on the desk, and the moves that can be made with it.

    Signals:
        broken: tuple of problems; the case file cannot be used.
        opened: a case is on the desk.
        busy: whether an assessment is being made.
        changed: the assessment, the pick or the units are new; views redraw.
        left: the desk is empty again.
    """

    broken = Signal(object)
    opened = Signal()
    busy = Signal(bool)
    changed = Signal()
    left = Signal()

    def __init__(self, office: Office) -> None:
        super().__init__(office)
        self.office = office
        self.told = office.told
        self.session: Session | None = None
        self.case_id: int | None = None
        self.path: Path | None = None
        self.assessment: Assessment | None = None
        self.pick: Pick | None = None
        self.last: LastMove | None = None
        self.looking = False
        self.tour: Script | None = None
        self._unkept: Exception | None = None
        self._coming: int | Path | None = None
        self._cleared = False
        office.desks.append(self)
        office.switched.connect(self.changed)

    # --- what all desks share ---

    @property
    def settings(self) -> Settings:
        """What a person set once."""
        return self.office.settings

    @property
    def system(self) -> System:
        """The units in which everything is shown."""
        return self.office.system

    @property
    def shelf(self) -> Shelf | None:
        """The library and the data sheets; None while they are being read."""
        return self.office.shelf

    @property
    def background(self) -> Background:
        """The thread beside the window."""
        return self.office.background

    def book(self) -> CaseBook:
        """Return the case book, opened at its first use."""
        return self.office.book()

    def tell_problem(self, sentence: str, problem: BaseException) -> None:
        """Say in the bar what went wrong, and write the error to the log."""
        self.office.tell_problem(sentence, problem)

    # --- beginning ---

    @property
    def empty(self) -> bool:
        """Whether there is no case on the desk, nor one on its way."""
        return self.session is None and not self.looking

    def has(self, wanted: int | Path) -> bool:
        """Return whether a case of the case book, or that of a file, is on the desk or on its way there."""
        return wanted in (self.case_id, self.path, self._coming)

    def begin(self, case: Case) -> None:
        """Put a new case on the desk."""
        self._put(lambda: self._fresh(case), None)
        if case.unit != self.settings.last_unit:
            self.office.keep_settings(self.settings.model_copy(update={"last_unit": case.unit}))

    def open_case(self, path: Path) -> None:
        """Put the case of a file on the desk."""

        def prepare() -> tuple[int | None, Session]:
            from faultdoc.library.load import load_case

            assert self.shelf is not None
            return self._fresh(load_case(path, self.shelf.library))

        self._put(prepare, path, coming=path)

    def go_on(self, case_id: int) -> None:
        """Put an unfinished case of the case book on the desk, its undo history with it."""

        def prepare() -> tuple[int | None, Session]:
            from faultdoc.record.session import replay

            book = self.book()
            start, entries = book.load(case_id)
            return case_id, replay(
                self._bench(start), start, entries, book.journal(case_id), self.settings.station
            )

        self._put(prepare, None, coming=case_id)

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

    def _put(
        self,
        prepare: Callable[[], tuple[int | None, Session]],
        path: Path | None,
        coming: int | Path | None = None,
    ) -> None:
        if self.looking:
            return
        self._coming = coming
        self._look_busy(True)

        def work() -> tuple[int | None, Session, Assessment]:
            from faultdoc.diagnosis.assess import assess

            case_id, session = prepare()
            return case_id, session, assess(session.bench, session.case)

        def then(made: tuple[int | None, Session, Assessment]) -> None:
            self._close_in_book()
            self._coming = None
            self.case_id, self.session, self.assessment = made
            self.path = path
            self.pick, self.last = None, None
            self._look_busy(False)
            self.opened.emit()
            self.changed.emit()
            if self._unkept is not None:
                unkept, self._unkept = self._unkept, None
                self.tell_problem(
                    say("This case is NOT kept as you go: save it as a file (Ctrl+S) now and then."), unkept
                )

        def failed(problem: BaseException) -> None:
            self._coming = None
            self._look_busy(False)
            if isinstance(problem, FileProblems) and path is not None:
                self.broken.emit(problem.problems)
            else:
                self.tell_problem(say("The case could not be opened."), problem)

        self.beside(work, then, failed)

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
            self.tell_problem(say("That could not be written into the case book, so it was not taken."), problem)
            return False
        self.last = LastMove(what)
        self._look()
        return True

    def undo(self) -> None:
        """Go back one move."""
        self._turn("undo", say("Undone"))

    def redo(self) -> None:
        """Do the last undone move again."""
        self._turn("redo", say("Done again"))

    def _turn(self, way: str, word: str) -> None:
        if self.session is None or self.looking:
            return
        try:
            what = self.session.undo() if way == "undo" else self.session.redo()
        except Exception as problem:
            self.tell_problem(
                say("That could not be written into the case book, so nothing was changed."), problem
            )
            return
        if what is None:
            self.told.emit("good", say("There is nothing to {way}.", way=way))
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
                say(
                    "That is written down, but the case could not be assessed with it. Undo it (Ctrl+Z) to go on."
                ),
                problem,
            )

        self.beside(work, then, failed)

    def choose(self, pick: Pick | None) -> None:
        """Show another step than the one proposed; None goes back to the proposal."""
        self.pick = pick
        self.changed.emit()

    def leave(self) -> None:
        """Take the case off the desk; it stays in the case book."""
        self._close_in_book()
        self.session = self.case_id = self.assessment = self.pick = self.last = self.path = None
        self.left.emit()
        self.office.look_for_unfinished()

    def clear_away(self) -> None:
        """Take the case off, and the desk away; whatever is still on its way to it is dropped."""
        self._close_in_book()
        self._cleared = True
        self.office.desks.remove(self)
        self.office.switched.disconnect(self.changed)
        self.deleteLater()

    def _close_in_book(self) -> None:
        # Only on leaving: until then the conclusion itself can be undone.
        if self.session is not None and self.session.case.conclusion is not None and self.case_id is not None:
            try:
                self.book().close(self.case_id)
            except Exception as problem:
                self.tell_problem(say("The case could not be marked as closed in the case book."), problem)

    def beside(
        self,
        work: Callable[[], Any],
        then: Callable[[Any], None],
        failed: Callable[[BaseException], None],
        *,
        late: bool = False,
    ) -> None:
        """Do work beside the window; what comes back to a desk that has been cleared away is dropped.

        Args:
            work: done in another thread.
            then, failed: called in the window's thread with what came of it.
            late: whether it may be late; it then keeps nothing else waiting.
        """
        (self.office.aside if late else self.background).run(
            work,
            lambda made: None if self._cleared else then(made),
            lambda problem: None if self._cleared else failed(problem),
        )

    def _look_busy(self, on: bool) -> None:
        self.looking = on
        self.busy.emit(on)

    # --- files ---

    def save_as(self, path: Path) -> bool:
        """Write the case to a file; return whether it was written."""
        from faultdoc.library.load import save_case

        assert self.session is not None
        try:
            save_case(self.session.case, path)
        except OSError as problem:
            self.told.emit(
                "bad",
                say(
                    "{path} could not be written: {strerror}. Choose another folder.",
                    path=path,
                    strerror=problem.strerror,
                ),
            )
            return False
        self.path = path
        self.told.emit("good", say("Saved as {path}.", path=path))
        return True

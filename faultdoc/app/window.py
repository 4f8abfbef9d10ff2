"""The window: the bar at the top, the pages below it, and the shortcuts."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QAction, QCloseEvent, QKeySequence, QPaintEvent, QShortcut
from PySide6.QtWidgets import (
    QApplication,
    QFileDialog,
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QMainWindow,
    QMenu,
    QPlainTextEdit,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from faultdoc.app.desk import Desk
from faultdoc.app.pages.start import StartPage
from faultdoc.app.shelf import Shelf, fill_shelf
from faultdoc.app.widgets.basic import button
from faultdoc.app.widgets.elided import ElidedLabel
from faultdoc.app.widgets.message import MessageBar
from faultdoc.library.problems import Problem
from faultdoc.quantities import System

if TYPE_CHECKING:
    from faultdoc.app.pages.plant import PlantPage
    from faultdoc.app.pages.practice import PracticePage
    from faultdoc.app.pages.unit import UnitPage
    from faultdoc.app.pages.work import WorkPage
    from faultdoc.model.safety import PlantState, Qualification
    from faultdoc.record.steps import Pick

__all__ = ["Window"]


class Window(QMainWindow):
    """FaultDoc's window.

    Pages other than the first are made when they are first wanted, so that the window opens at once.
    """

    usable = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.setWindowTitle("FaultDoc")
        self.resize(1280, 800)
        self.setMinimumSize(760, 480)
        self._pages: dict[str, QWidget] = {}
        self._draft: tuple[str, tuple[str, ...], str] | None = None
        self._told_usable = False
        self._home = "start"
        self._actions: dict[str, QAction] = {}
        self.message = MessageBar()
        self.stack = QStackedWidget()
        centre = QWidget()
        down = QVBoxLayout(centre)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(0)
        down.addWidget(self._make_bar())
        down.addWidget(self.message)
        down.addWidget(self.stack, 1)
        self.setCentralWidget(centre)
        self.start = StartPage(desk)
        self.start.begin.connect(self._begun)
        self.start.open_wanted.connect(self.ask_open)
        self.start.unit_wanted.connect(self.show_unit)
        self.start.go_on.connect(desk.go_on)
        self.start.practice_wanted.connect(self.show_practice)
        self._add("start", self.start)
        self._make_shortcuts()
        self.stack.currentChanged.connect(self._dress)
        desk.told.connect(self.message.tell)
        desk.broken.connect(self._broken)
        desk.opened.connect(self._opened)
        desk.left.connect(self._left)
        desk.changed.connect(self._dress)
        desk.busy.connect(self._busy)
        desk.listed.connect(self.update)
        self._dress()

    # --- parts ---

    def _make_bar(self) -> QFrame:
        bar = QFrame()
        bar.setProperty("role", "bar")
        across = QHBoxLayout(bar)
        across.setContentsMargins(8, 4, 8, 4)
        across.setSpacing(8)
        self.menu_button = QPushButton("Menu")
        self.menu_button.setProperty("role", "bar")
        self.menu_button.setAccessibleName("Menu")
        self.menu_button.setMenu(self._make_menu())
        across.addWidget(self.menu_button)
        self.heading = ElidedLabel("FaultDoc")
        across.addWidget(self.heading, 1)
        self.undo_button = button("Undo", self.desk.undo, "bar")
        self.redo_button = button("Redo", self.desk.redo, "bar")
        self.units_button = button("Units: US", self.desk.switch_system, "bar")
        self.stop_button = button("Stop: danger (F1)", self.show_stops, "danger", name="Stop: danger")
        for made in (self.undo_button, self.redo_button, self.units_button, self.stop_button):
            across.addWidget(made)
        return bar

    def _make_menu(self) -> QMenu:
        menu = QMenu(self)
        entries = (
            ("new", "New case", "Ctrl+N", self.new_case),
            ("open", "Open a case file ...", "Ctrl+O", self.ask_open),
            ("unit", "New unit from its nameplate", "Ctrl+B", self.show_unit),
            ("save", "Save the case as ...", "Ctrl+S", self.ask_save),
            ("report", "Report", "Ctrl+P", self.show_report),
            ("search", "Search", "Ctrl+F", self.show_search),
            ("tree", "Fault tree", "Ctrl+T", self.show_tree),
            ("plant", "Plant and people", "", self.show_plant),
            ("practice", "Practice on a simulated unit", "Ctrl+R", self.show_practice),
            ("close", "Close the case", "Ctrl+E", lambda: self.show_close(None)),
            ("help", "Keyboard shortcuts", "F2", self.show_help),
            ("quit", "Leave FaultDoc", "Ctrl+Q", self.close),
        )
        for id, words, keys, do in entries:
            action = QAction(words, self)
            if keys:
                action.setShortcut(QKeySequence(keys))
            action.triggered.connect(lambda _=False, do=do: do())
            menu.addAction(action)
            self.addAction(action)
            self._actions[id] = action
        return menu

    def _make_shortcuts(self) -> None:
        def on(keys: str, do: Callable[[], object]) -> None:
            shortcut = QShortcut(QKeySequence(keys), self)
            shortcut.activated.connect(lambda: do())

        on("F1", self.show_stops)
        on("Ctrl+Z", self.desk.undo)
        on("Ctrl+Y", self.desk.redo)
        on("Ctrl+Shift+Z", self.desk.redo)
        on("Ctrl+U", self.desk.switch_system)
        on("Esc", self.go_back)
        for place in range(1, 6):
            on(f"Alt+{place}", partial(self._tab, place - 1))
        for keys, name in (("Ctrl+M", "could_not"), ("Ctrl+K", "not_sure"), ("Ctrl+L", "later")):
            on(keys, partial(self._press, name))
        app = QApplication.instance()
        assert app is not None
        app.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let a number key choose an answer, unless something is being typed."""
        if event.type() is QEvent.Type.KeyPress and self.on_step and isinstance(watched, QWidget):
            typing = isinstance(QApplication.focusWidget(), (QLineEdit, QPlainTextEdit))
            text = event.text()  # type: ignore[attr-defined]
            plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier  # type: ignore[attr-defined]
            if not typing and plain and len(text) == 1 and text in "123456789" and watched.window() is self:
                return self.work.step.number(int(text))
        return super().eventFilter(watched, event)

    def _add(self, name: str, page: QWidget) -> None:
        self._pages[name] = page
        self.stack.addWidget(page)

    @property
    def work(self) -> WorkPage:
        """The work page."""
        if "work" not in self._pages:
            from faultdoc.app.pages.work import WorkPage

            page = WorkPage(self.desk)
            page.correct_wanted.connect(self.show_plant)
            page.step.people_wanted.connect(self.show_plant)
            page.step.close_wanted.connect(self.show_close)
            page.step.report_wanted.connect(self.show_report)
            page.step.new_wanted.connect(self.new_case)
            self._add("work", page)
        page_ = self._pages["work"]
        return page_  # type: ignore[return-value]

    @property
    def on_step(self) -> bool:
        """Whether the work page is seen."""
        return self.page == "work"

    @property
    def page(self) -> str:
        """The name of the page that is seen."""
        current = self.stack.currentWidget()
        return next(name for name, page in self._pages.items() if page is current)

    def show_page(self, name: str) -> None:
        """Show a page that has been made."""
        self.stack.setCurrentWidget(self._pages[name])

    # --- going about ---

    def load(self, case: Path | None = None, shelf: Callable[[], Shelf] = fill_shelf) -> None:
        """Begin to read the library beside the window; then open a case file, if one is named."""
        self.desk.load(shelf, case)

    def go_back(self) -> None:
        """Go back to the step, or to the start page when there is no case."""
        self.message.hide()
        if self.page == "unit" and self._unit_page().reviewing:
            self._unit_page().back_to_form()
            return
        if self.page == "practice" and self._practice_page().step_back():
            return
        if self.desk.session is None:
            self.show_page(self._home)
            return
        if self.on_step and self.desk.pick is not None:
            self.desk.choose(None)
        self.work.show_tab(0)
        self.stack.setCurrentWidget(self.work)
        self.work.step.focus_first()

    def new_case(self) -> None:
        """Put the case back into the case book and begin another."""
        if self.desk.session is None:
            self.show_page(self._home)
        else:
            self.desk.leave()

    def _begun(self, unit: str, symptoms: tuple[str, ...], title: str) -> None:
        from faultdoc.model.safety import TRIPPED, Qualification

        self._draft = (unit, symptoms, title)
        self._plant_page().fill(TRIPPED, (Qualification.TECHNICIAN,), new=True)
        self.show_page("plant")

    def _plant_page(self) -> PlantPage:
        if "plant" not in self._pages:
            from faultdoc.app.pages.plant import PlantPage

            page = PlantPage()
            page.done.connect(self._plant_done)
            page.back.connect(self.go_back)
            self._add("plant", page)
        page_ = self._pages["plant"]
        return page_  # type: ignore[return-value]

    def _plant_done(self, state: PlantState, who: tuple[Qualification, ...]) -> None:
        from faultdoc.model.case import Case
        from faultdoc.record import moves

        if self.desk.session is None:
            assert self._draft is not None
            unit, symptoms, title = self._draft
            self.desk.begin(Case(title=title or None, unit=unit, symptoms=symptoms, state=state, who=who))
            return
        case = self.desk.session.case
        after = case
        what = []
        if state != case.state:
            after = moves.set_state(after, state)
            what.append("Plant corrected to what is so")
        if set(who) != set(case.who):
            after = moves.people(after, who)
            what.append("People on it changed")
        if what:
            self.desk.do("; ".join(what), after)
        self.go_back()

    def _opened(self) -> None:
        self.message.hide()
        work = self.work
        self.stack.setCurrentWidget(work)
        work.begin()

    def _left(self) -> None:
        self.message.hide()
        self.show_page("start")
        self._dress()

    def _tab(self, place: int) -> None:
        if self.page == "practice":
            self._practice_page().show_pane(place)
        elif self.desk.session is not None:
            self.stack.setCurrentWidget(self.work)
            self.work.show_tab(place)

    def _press(self, name: str) -> None:
        if self.on_step and self.work.step.view is not None:
            made = getattr(self.work.step.view, name, None)
            if isinstance(made, QPushButton):
                made.click()

    # --- pages beside the work ---

    def show_stops(self) -> None:
        """Show what to walk away from."""
        if "stops" not in self._pages:
            from faultdoc.app.pages.stops import StopsPage

            page = StopsPage(self.desk)
            page.back.connect(self.go_back)
            self._add("stops", page)
        self.show_page("stops")
        self._pages["stops"].fill()  # type: ignore[attr-defined]

    def _unit_page(self) -> UnitPage:
        if "unit" not in self._pages:
            from faultdoc.app.pages.unit import UnitPage

            page = UnitPage(self.desk)
            page.back.connect(self.go_back)
            page.kept.connect(self._unit_kept)
            self._add("unit", page)
        page_ = self._pages["unit"]
        return page_  # type: ignore[return-value]

    def show_unit(self) -> None:
        """Enter a new unit from its nameplate."""
        page = self._unit_page()
        self.message.hide()
        self.show_page("unit")
        page.fill()

    def _unit_kept(self, _: str) -> None:
        self.go_back()

    def show_help(self) -> None:
        """Show the shortcuts."""
        if "help" not in self._pages:
            from faultdoc.app.pages.help import HelpPage

            page = HelpPage()
            page.back.connect(self.go_back)
            self._add("help", page)
        self.show_page("help")
        self._pages["help"].fill()  # type: ignore[attr-defined]

    def show_search(self) -> None:
        """Search."""
        if self.page == "practice":
            self._practice_page().begin_search()
            return
        if self.desk.session is None:
            return
        if "search" not in self._pages:
            from faultdoc.app.pages.search import SearchPage

            page = SearchPage(self.desk)
            page.back.connect(self.go_back)
            page.chosen.connect(self._chosen)
            page.cause_chosen.connect(self._cause_chosen)
            self._add("search", page)
        self.show_page("search")
        self._pages["search"].fill()  # type: ignore[attr-defined]

    def show_tree(self) -> None:
        """Show the fault tree as a picture: that of the case, or any other."""
        if self.desk.shelf is None:
            return
        if "tree" not in self._pages:
            from faultdoc.app.pages.tree import TreePage

            page = TreePage(self.desk)
            page.back.connect(self.go_back)
            page.cause_chosen.connect(self._cause_chosen)
            self._add("tree", page)
        self.show_page("tree")
        self._pages["tree"].fill()  # type: ignore[attr-defined]

    def _practice_page(self) -> PracticePage:
        if "practice" not in self._pages:
            from faultdoc.app.pages.practice import PracticePage

            page = PracticePage(self.desk)
            page.back.connect(self.go_back)
            self._add("practice", page)
        page_ = self._pages["practice"]
        return page_  # type: ignore[return-value]

    def show_practice(self) -> None:
        """Practise on a simulated unit."""
        if self.desk.shelf is None:
            return
        page = self._practice_page()
        self.message.hide()
        self.show_page("practice")
        page.fill()

    def _chosen(self, pick: Pick) -> None:
        self.stack.setCurrentWidget(self.work)
        self.desk.choose(pick)
        self.work.show_tab(0)

    def _cause_chosen(self, cause: str) -> None:
        self.stack.setCurrentWidget(self.work)
        self.work.open_reasons(cause)

    def show_plant(self) -> None:
        """Correct the plant's state and the people."""
        case = self.desk.case
        if case is None or case.conclusion is not None:
            return
        self._plant_page().fill(case.state, case.who, new=False)
        self.show_page("plant")

    def show_close(self, suggested: str | None = None) -> None:
        """Close the case."""
        case = self.desk.case
        if case is None or case.conclusion is not None:
            return
        if "close" not in self._pages:
            from faultdoc.app.pages.close import ClosePage

            page = ClosePage(self.desk)
            page.back.connect(self.go_back)
            page.closed.connect(self.go_back)
            page.chosen.connect(self._chosen)
            self._add("close", page)
        self.show_page("close")
        self._pages["close"].fill(suggested)  # type: ignore[attr-defined]

    def show_report(self) -> None:
        """Show the report."""
        if self.desk.assessment is None:
            return
        if "report" not in self._pages:
            from faultdoc.app.pages.report import ReportPage

            page = ReportPage(self.desk)
            page.back.connect(self.go_back)
            self._add("report", page)
        self.show_page("report")
        self._pages["report"].fill()  # type: ignore[attr-defined]

    def _broken(self, problems: tuple[Problem, ...]) -> None:
        if "broken" not in self._pages:
            from faultdoc.app.pages.broken import BrokenPage

            page = BrokenPage()
            page.back.connect(self.go_back)
            page.retry.connect(self._retry)
            self._add("broken", page)
        own = self.desk.shelf is None
        self._home = "broken" if own else "start"
        self._pages["broken"].fill(problems, own=own)  # type: ignore[attr-defined]
        self.show_page("broken")

    def _retry(self) -> None:
        self._home = "start"
        self.show_page("start")
        self.load()

    # --- files ---

    def ask_open(self) -> None:
        """Ask for a case file and open it."""
        if self.desk.start_list is None:
            return
        folder = str(self.desk.path.parent if self.desk.path else Path.home())
        name, _ = QFileDialog.getOpenFileName(self, "Open a case file", folder, "Case files (*.yaml *.yml)")
        if name:
            self.desk.open_case(Path(name))

    def ask_save(self) -> None:
        """Ask for a name and save the case."""
        if self.desk.session is None:
            return
        start = str(self.desk.path or Path.home() / "case.yaml")
        name, _ = QFileDialog.getSaveFileName(self, "Save the case", start, "Case files (*.yaml)")
        if name:
            path = Path(name)
            self.desk.save_as(path if path.suffix else path.with_suffix(".yaml"))

    # --- looks ---

    def _dress(self) -> None:
        """Bring the bar and the menu up to date."""
        desk = self.desk
        session, case = desk.session, desk.case
        self.units_button.setText(f"Units: {desk.system.value}")
        self.units_button.setAccessibleName(
            f"Units: {desk.system.value}. Press to switch to {'SI' if desk.system is System.US else 'US'}"
        )
        self.undo_button.setEnabled(bool(session and session.done) and not desk.looking)
        self.redo_button.setEnabled(bool(session and session.undone) and not desk.looking)
        open_case = case is not None and case.conclusion is None
        practising = self.page == "practice"
        for id in ("save", "report", "new"):
            self._actions[id].setEnabled(case is not None)
        self._actions["search"].setEnabled(case is not None or practising)
        for id in ("plant", "close"):
            self._actions[id].setEnabled(open_case)
        if practising:
            self.heading.put("Practice: nothing here is real")
        elif case is None or session is None:
            self.heading.put("FaultDoc")
        else:
            sheet = session.bench.sheet
            title = case.title or session.bench.problem.trees[0].title
            self.heading.put(f"{title}  |  {sheet.title}")

    def _busy(self, on: bool) -> None:
        if on:
            self.setCursor(Qt.CursorShape.BusyCursor)
        else:
            self.unsetCursor()
        if self.page == "plant":
            self._pages["plant"].setEnabled(not on)
        self.start.inside.setEnabled(not on)
        self._dress()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint it."""
        super().paintEvent(event)
        if not self._told_usable and self.start.units:
            self._told_usable = True
            # After this paint has reached the screen and the events that wait have been seen to.
            QTimer.singleShot(0, self.usable.emit)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Let go of the case book, and of a practice whose time runs."""
        if "practice" in self._pages:
            self._practice_page().shut()
        self.desk.shut()
        event.accept()

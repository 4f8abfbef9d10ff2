"""The window: the bar at the top, a tab for every open case, the pages of the tab that is seen, the shortcuts."""

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
from faultdoc.app.office import Office
from faultdoc.app.pages.start import StartPage
from faultdoc.app.shelf import Shelf, fill_shelf
from faultdoc.app.tab import Tab
from faultdoc.app.widgets.basic import button
from faultdoc.app.widgets.elided import ElidedLabel
from faultdoc.app.widgets.message import MessageBar
from faultdoc.app.widgets.tabstrip import TabLine, TabStrip
from faultdoc.library.problems import Problem
from faultdoc.quantities import System
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.app.pages.handover import HandOverPage
    from faultdoc.app.pages.phone import PhonePage
    from faultdoc.app.pages.plant import PlantPage
    from faultdoc.app.pages.practice import PracticePage
    from faultdoc.app.pages.received import ReceivedPage
    from faultdoc.app.pages.step import StepPage
    from faultdoc.app.pages.unit import UnitPage
    from faultdoc.app.pages.work import WorkPage
    from faultdoc.model.safety import Caution, PlantState, Qualification
    from faultdoc.model.unit import DataSheet
    from faultdoc.record.steps import Pick

__all__ = ["Window"]


LARGE = 125
"""Per cent from above which the bar at the top uses its shorter words, to fit a small screen."""


LASTING = frozenset({"start", "work", "practice", "unit", "plant", "close", "readings"})
"""Pages in which something may have been typed, or time runs."""


class Window(QMainWindow):
    """FaultDoc's window.

    Every open case has a tab with a desk and pages of its own. Pages other than the first are made when they
    are first wanted, so that the window opens at once.
    """

    usable = Signal()

    def __init__(self, office: Office) -> None:
        super().__init__()
        self.office = office
        self.tabs: list[Tab] = []
        self.setWindowTitle("FaultDoc")
        self.resize(1280, 800)
        self.setMinimumSize(760, 480)
        self._told_usable = False
        self._wanted: Path | None = None
        self._let_go: Tab | None = None
        self._home = "start"
        self._actions: dict[str, QAction] = {}
        self.message = MessageBar()
        self.stack = QStackedWidget()
        self.strip = TabStrip()
        self.strip.chosen.connect(lambda place: self.to_tab(self.tabs[place]))
        self.strip.closing.connect(lambda place: self.close_tab(self.tabs[place]))
        self.strip.more.connect(self.new_case)
        centre = QWidget()
        down = QVBoxLayout(centre)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(0)
        down.addWidget(self._make_bar())
        down.addWidget(self.strip)
        down.addWidget(self.message)
        down.addWidget(self.stack, 1)
        self.setCentralWidget(centre)
        self.tab = self._new_tab()
        self._make_shortcuts()
        # A time to call back comes of itself.
        self._minute = QTimer(self)
        self._minute.setInterval(20_000)
        self._minute.timeout.connect(self._dress)
        self._minute.start()
        self.stack.currentChanged.connect(self._dress)
        office.told.connect(self.message.tell)
        office.broken.connect(self._broken)
        office.switched.connect(self._dress)
        office.looked.connect(self._looked)
        office.listed.connect(self.update)
        office.shelf_filled.connect(self._filled)
        self._dress()

    # --- tabs ---

    @property
    def desk(self) -> Desk:
        """The desk of the tab that is seen."""
        return self.tab.desk

    @property
    def start(self) -> StartPage:
        """The start page of the tab that is seen."""
        page = self._pages["start"]
        return page  # type: ignore[return-value]

    @property
    def _pages(self) -> dict[str, QWidget]:
        return self.tab.pages

    def _new_tab(self) -> Tab:
        """Return a tab without a case, behind the others."""
        desk = Desk(self.office)
        tab = Tab(desk)
        page = StartPage(desk)
        page.begin.connect(self._begun)
        page.open_wanted.connect(self.ask_open)
        page.unit_wanted.connect(self.show_unit)
        page.go_on.connect(self.go_on)
        page.practice_wanted.connect(self.show_practice)
        page.tour_wanted.connect(self.show_tour)
        tab.pages["start"] = page
        self.stack.addWidget(page)
        self.tabs.append(tab)
        desk.broken.connect(lambda problems: self._broken(problems, tab))
        desk.opened.connect(lambda: self._opened(tab))
        desk.left.connect(lambda: self._left(tab))
        desk.changed.connect(self._dress)
        desk.busy.connect(lambda on: self._busy(on, tab))
        return tab

    def to_tab(self, tab: Tab) -> None:
        """Show a tab, as it was left."""
        self.tab = tab
        self._let_go = None
        self.stack.setCurrentWidget(tab.pages[tab.shown])
        self._cursor()
        self._dress()
        page = tab.pages[tab.shown]
        within = page.focusWidget()
        if within is not None:
            within.setFocus()
        elif self.on_step:
            self._step.focus_first()

    def turn_tab(self, by: int) -> None:
        """Show the next tab (1) or the one before (-1), round and round."""
        self.to_tab(self.tabs[(self.tabs.index(self.tab) + by) % len(self.tabs)])

    def close_tab(self, tab: Tab | None = None) -> None:
        """Close a tab, the one that is seen when none is named; its case stays in the case book."""
        tab = tab or self.tab
        case = tab.desk.case
        if case is not None and tab.desk.case_id is None and self._let_go is not tab:
            self._let_go = tab
            self.office.told.emit(
                "bad",
                say(
                    "'{title}' is not in the case book: closing its tab loses it. Save it as a "
                    "file first (Ctrl+S), or close the tab once more to let it go.",
                    title=tab.title,
                ),
            )
            return
        self._let_go = None
        if case is None and len(self.tabs) == 1:
            return
        if len(self.tabs) == 1:
            self._new_tab()
        place = self.tabs.index(tab)
        self.tabs.remove(tab)
        if tab is self.tab:
            self.to_tab(self.tabs[min(place, len(self.tabs) - 1)])
        self._shut(tab)
        for page in tab.pages.values():
            self.stack.removeWidget(page)
            page.deleteLater()
        self.office.look_for_unfinished()
        self._dress()

    def _shut(self, tab: Tab) -> None:
        """Let go of what a tab has open; what is half typed on the phone is kept."""
        if "practice" in tab.pages:
            tab.pages["practice"].shut()  # type: ignore[attr-defined]
        if "phone" in tab.pages:
            tab.pages["phone"].flush()  # type: ignore[attr-defined]
        tab.desk.clear_away()

    def _empty_tab(self) -> Tab:
        """Show a tab without a case, the one that is seen before any other, and return it."""
        for tab in (self.tab, *self.tabs):
            if tab.desk.empty:
                break
        else:
            tab = self._new_tab()
        if tab is not self.tab:
            self.to_tab(tab)
        return tab

    def _show_open(self, wanted: int | Path) -> bool:
        """Show the tab of a case that is open already; return whether it is."""
        desk = self.office.at_desk(wanted)
        tab = next((one for one in self.tabs if one.desk is desk), None)
        if tab is not None:
            self.to_tab(tab)
        return tab is not None

    def go_on(self, case_id: int) -> None:
        """Go on with a case of the case book: in its tab where it is open, else in an empty one."""
        if not self._show_open(case_id):
            self._empty_tab().desk.go_on(case_id)

    def open_case(self, path: Path) -> None:
        """Open a case file: in its tab where it is open, else in an empty one. A hand-over is shown first."""
        from faultdoc.record.handover.file import is_hand_over

        if is_hand_over(path):
            self._received_page().fill(path)
            self.show_page("received")
        elif not self._show_open(path):
            self._empty_tab().desk.open_case(path)

    # --- parts ---

    def _make_bar(self) -> QFrame:
        bar = QFrame()
        bar.setProperty("role", "bar")
        across = QHBoxLayout(bar)
        across.setContentsMargins(8, 4, 8, 4)
        across.setSpacing(8)
        self.menu_button = QPushButton(say("Menu"))
        self.menu_button.setProperty("role", "bar")
        self.menu_button.setAccessibleName(say("Menu"))
        self.menu_button.setMenu(self._make_menu())
        across.addWidget(self.menu_button)
        self.heading = ElidedLabel("FaultDoc")
        across.addWidget(self.heading, 1)
        self.undo_button = button(say("Undo"), self._undo, "bar")
        self.redo_button = button(say("Redo"), self._redo, "bar")
        self.units_button = button(say("Units: US"), self.office.switch_system, "bar")
        self.stop_button = button(say("Stop: danger (F1)"), self.show_stops, "danger", name=say("Stop: danger"))
        for made in (self.undo_button, self.redo_button, self.units_button, self.stop_button):
            across.addWidget(made)
        return bar

    def _make_menu(self) -> QMenu:
        menu = QMenu(self)
        entries = (
            ("new", say("New case"), "Ctrl+N", self.new_case),
            ("open", say("Open a case file or hand-over ..."), "Ctrl+O", self.ask_open),
            ("codes", say("Take over from scanned codes"), "Ctrl+I", self.show_codes),
            ("unit", say("New unit from its nameplate"), "Ctrl+B", self.show_unit),
            ("save", say("Save the case as ..."), "Ctrl+S", self.ask_save),
            ("report", say("Report"), "Ctrl+P", self.show_report),
            ("kit", say("What to send"), "Ctrl+J", self.show_kit),
            ("handover", say("Hand over ..."), "Ctrl+H", self.show_handover),
            ("phone", say("The call, or the step as on site"), "F3", self.show_phone),
            ("decide", say("Decide how the call ends"), "F4", self.show_decide),
            ("search", say("Search"), "Ctrl+F", self.show_search),
            ("readings", say("Many readings at once"), "Ctrl+D", self.show_readings),
            ("pictures", say("Pictures of plant and readings"), "Ctrl+G", self.show_pictures),
            ("tree", say("Fault tree"), "Ctrl+T", self.show_tree),
            ("plant", say("Plant and people"), "", self.show_plant),
            ("practice", say("Practice on a simulated unit"), "Ctrl+R", self.show_practice),
            ("fleet", say("Fleet"), "Ctrl+Shift+F", self.show_fleet),
            ("learn", say("What cases taught"), "Ctrl+Shift+T", self.show_learn),
            ("close", say("Close the case"), "Ctrl+E", lambda: self.show_close(None)),
            ("close_tab", say("Close this tab; the case stays"), "Ctrl+W", self.close_tab),
            ("looks", say("Looks: sunlight, night, size of letters"), "", self.show_looks),
            ("tour", say("A first case, led by the hand"), "F8", self.show_tour),
            ("help", say("Keyboard shortcuts"), "F2", self.show_help),
            ("quit", say("Leave FaultDoc"), "Ctrl+Q", self.close),
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
        on("Ctrl+Z", self._undo)
        on("Ctrl+Y", self._redo)
        on("Ctrl+Shift+Z", self._redo)
        on("Ctrl+U", self.office.switch_system)
        on("Ctrl+Shift+L", self.office.other_theme)
        for keys, steps in (("Ctrl++", 1), ("Ctrl+=", 1), ("Ctrl+-", -1)):
            on(keys, partial(self.office.larger, steps))
        on("Ctrl+Tab", partial(self.turn_tab, 1))
        on("Ctrl+Shift+Tab", partial(self.turn_tab, -1))
        on(say("Esc"), self.go_back)
        for place in range(1, 6):
            on(f"Alt+{place}", partial(self._pane, place - 1))
        for keys, name in (("Ctrl+M", "could_not"), ("Ctrl+K", "not_sure"), ("Ctrl+L", "later")):
            on(keys, partial(self._press, name))
        app = QApplication.instance()
        assert app is not None
        app.installEventFilter(self)

    def _undo(self) -> None:
        self.desk.undo()

    def _redo(self) -> None:
        self.desk.redo()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let a number key choose an answer unless something is being typed, and an idle field undo a move."""
        if event.type() is QEvent.Type.ShortcutOverride and isinstance(watched, (QLineEdit, QPlainTextEdit)):
            typed = watched if isinstance(watched, QLineEdit) else watched.document()
            # A field in which nothing was typed would swallow the key, and nothing at all would be undone.
            if event.matches(QKeySequence.StandardKey.Undo) and not typed.isUndoAvailable():  # type: ignore[attr-defined]
                event.ignore()
                return True
        if event.type() is QEvent.Type.KeyPress and self.on_step and isinstance(watched, QWidget):
            typing = isinstance(QApplication.focusWidget(), (QLineEdit, QPlainTextEdit))
            text = event.text()  # type: ignore[attr-defined]
            plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier  # type: ignore[attr-defined]
            if not typing and plain and len(text) == 1 and text in "123456789" and watched.window() is self:
                return self._step.number(int(text))
        return super().eventFilter(watched, event)

    def _add(self, name: str, page: QWidget) -> None:
        self._pages[name] = page
        self.stack.addWidget(page)

    @property
    def work(self) -> WorkPage:
        """The work page of the tab that is seen."""
        return self._work_page(self.tab)

    def _work_page(self, tab: Tab) -> WorkPage:
        if "work" not in tab.pages:
            from faultdoc.app.pages.work import WorkPage

            page = WorkPage(tab.desk)
            page.correct_wanted.connect(self.show_plant)
            page.step.people_wanted.connect(self.show_plant)
            page.step.close_wanted.connect(self.show_close)
            page.step.kit_wanted.connect(self.show_kit)
            page.step.send_wanted.connect(self.show_handover)
            page.step.report_wanted.connect(self.show_report)
            page.step.picture_wanted.connect(self.show_pictures)
            page.step.new_wanted.connect(self.new_case)
            tab.pages["work"] = page
            self.stack.addWidget(page)
        page_ = tab.pages["work"]
        return page_  # type: ignore[return-value]

    def _phone_page(self, tab: Tab) -> PhonePage:
        if "phone" not in tab.pages:
            from faultdoc.app.pages.phone import PhonePage

            page = PhonePage(tab.desk)
            page.decide_wanted.connect(self.show_decide)
            page.step.people_wanted.connect(self.show_plant)
            page.step.close_wanted.connect(self.show_close)
            page.step.kit_wanted.connect(self.show_kit)
            page.step.report_wanted.connect(self.show_report)
            page.step.new_wanted.connect(self.new_case)
            page.step.other_wanted.connect(partial(self._pane, 3))
            page.step.arithmetic_wanted.connect(partial(self._pane, 2))
            tab.pages["phone"] = page
            self.stack.addWidget(page)
        page_ = tab.pages["phone"]
        return page_  # type: ignore[return-value]

    def show_phone(self) -> None:
        """Go over to the call, or from it to the step as on site; the people on the case stay as they are."""
        if self.desk.session is None:
            return
        self.tab.way = "work" if self.page == "phone" else "phone"
        if self.tab.way == "phone":
            page = self._phone_page(self.tab)
            if not page.caller.on_line:
                page.begin()
        self._to_step()

    def show_decide(self) -> None:
        """Decide how a call ends."""
        case = self.desk.case
        if case is None or case.conclusion is not None:
            return
        if "decide" not in self._pages:
            from faultdoc.app.pages.decide import DecidePage

            page = DecidePage(self.desk)
            page.back.connect(self.go_back)
            page.kit_wanted.connect(self.show_kit)
            page.hand_wanted.connect(self.show_handover)
            page.close_wanted.connect(self.show_close)
            page.chosen.connect(self._chosen)
            page.ended.connect(self._call_over)
            self._add("decide", page)
        phone = self._pages.get("phone")
        self.show_page("decide")
        self._pages["decide"].fill(phone.advice if phone else None)  # type: ignore[attr-defined]

    def _call_over(self) -> None:
        if "phone" in self._pages:
            self._phone_page(self.tab).caller.end()
        self.go_back()

    def _danger_told(self, caution: Caution) -> None:
        if self._phone_page(self.tab).end_for_safety(caution.text):
            self.go_back()

    @property
    def on_step(self) -> bool:
        """Whether the step is seen, at the unit or on the phone."""
        return self.page in ("work", "phone")

    @property
    def _step(self) -> StepPage:
        """The step of the page that is seen."""
        return self._phone_page(self.tab).step if self.page == "phone" else self.work.step

    @property
    def page(self) -> str:
        """The name of the page that is seen."""
        return self.tab.shown

    def show_page(self, name: str) -> None:
        """Show a page of this tab that has been made."""
        self.tab.shown = name
        self.stack.setCurrentWidget(self._pages[name])

    # --- going about ---

    def load(self, case: Path | None = None, shelf: Callable[[], Shelf] = fill_shelf) -> None:
        """Begin to read the library beside the window; then open a case file, if one is named."""
        self._wanted = case
        self.office.load(shelf)

    def _filled(self) -> None:
        if self._wanted is not None:
            wanted, self._wanted = self._wanted, None
            self.open_case(wanted)

    def go_back(self) -> None:
        """Go back to the step, or to the start page when there is no case."""
        self.message.hide()
        if self.page == "unit" and self._unit_page().reviewing:
            self._unit_page().back_to_form()
            return
        if self.page == "practice" and self._practice_page().step_back():
            return
        if self.page == "handover" and self._handover_page().step_back():
            return
        if self.desk.session is None:
            self.show_page(self._home)
            return
        if self.on_step and self.desk.pick is not None:
            self.desk.choose(None)
        self._to_step()

    def _to_step(self) -> None:
        """Show the page on which this case is worked on."""
        if self.tab.home == "phone":
            page = self._phone_page(self.tab)
            self.show_page("phone")
            page.line.clear()
            page.focus_first()
            return
        self._to_work()
        self.work.show_tab(0)
        self.work.step.focus_first()

    def _to_work(self) -> None:
        self.tab.shown = "work"
        self.stack.setCurrentWidget(self.work)

    def new_case(self) -> None:
        """Begin another case in a tab of its own; a closed one makes room for it."""
        case = self.desk.case
        if case is not None and case.conclusion is not None:
            self.desk.leave()
            return
        self._empty_tab()
        self.show_page(self._home)
        self.office.look_for_unfinished()

    def _begun(self, unit: str, symptoms: tuple[str, ...], title: str, by_phone: bool) -> None:
        from faultdoc.model.safety import TRIPPED, Qualification

        self.tab.draft = (unit, symptoms, title)
        who = Qualification.CALLER if by_phone else Qualification.TECHNICIAN
        self._plant_page().fill(TRIPPED, (who,), new=True, aloud=by_phone)
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
            assert self.tab.draft is not None
            unit, symptoms, title = self.tab.draft
            self.desk.begin(Case(title=title or None, unit=unit, symptoms=symptoms, state=state, who=who))
            return
        case = self.desk.session.case
        after = case
        what = []
        if state != case.state:
            after = moves.set_state(after, state)
            what.append(say("Plant corrected to what is so"))
        if set(who) != set(case.who):
            after = moves.people(after, who)
            what.append(say("People on it changed"))
        if what:
            self.desk.do("; ".join(what), after)
        self.go_back()

    def _opened(self, tab: Tab) -> None:
        work = self._work_page(tab)
        tab.way = None
        tab.shown = tab.home
        page: QWidget = work
        if tab.home == "phone":
            page = self._phone_page(tab)
            tab.pages["phone"].begin()  # type: ignore[attr-defined]
        # Whoever has gone to another tab meanwhile is not called back.
        if tab is self.tab:
            self.message.hide()
            self.stack.setCurrentWidget(page)
        work.begin()
        if tab.plant_first and tab is self.tab:
            tab.plant_first = False
            self.show_plant()

    def _left(self, tab: Tab) -> None:
        tab.shown = "start"
        if tab is self.tab:
            self.message.hide()
            self.show_page("start")
        self._dress()

    def _pane(self, place: int) -> None:
        if self.page == "practice":
            self._practice_page().show_pane(place)
        elif self.desk.session is not None and place == 0:
            self._to_step()
        elif self.desk.session is not None:
            self._to_work()
            self.work.show_tab(place)

    def _press(self, name: str) -> None:
        if self.on_step and self._step.view is not None:
            made = getattr(self._step.view, name, None)
            if isinstance(made, QPushButton):
                made.click()

    # --- pages beside the work ---

    def show_stops(self) -> None:
        """Show what to walk away from."""
        if "stops" not in self._pages:
            from faultdoc.app.pages.stops import StopsPage

            page = StopsPage(self.desk)
            page.back.connect(self.go_back)
            page.told.connect(self._danger_told)
            self._add("stops", page)
        calling = "phone" in self._pages and self._phone_page(self.tab).caller.on_line
        self.show_page("stops")
        self._pages["stops"].fill(calling)  # type: ignore[attr-defined]

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

    def show_looks(self) -> None:
        """Choose colours and size of letters."""
        if "looks" not in self._pages:
            from faultdoc.app.pages.looks import LooksPage

            page = LooksPage(self.office)
            page.back.connect(self.go_back)
            self._add("looks", page)
        self.show_page("looks")
        self._pages["looks"].fill()  # type: ignore[attr-defined]

    def show_search(self) -> None:
        """Search."""
        if self.page == "practice":
            self._practice_page().begin_search()
            return
        if self.page == "phone":
            self._phone_page(self.tab).begin_search()
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

    def show_readings(self) -> None:
        """Enter many readings at once."""
        case = self.desk.case
        if self.desk.assessment is None or case is None or case.conclusion is not None:
            return
        if "readings" not in self._pages:
            from faultdoc.app.pages.readings import ReadingsPage

            page = ReadingsPage(self.desk)
            page.back.connect(self.go_back)
            self._add("readings", page)
        self.show_page("readings")
        self._pages["readings"].fill()  # type: ignore[attr-defined]

    def show_fleet(self) -> None:
        """Show the fleet by its case book."""
        if self.desk.shelf is None:
            return
        if "fleet" not in self._pages:
            from faultdoc.app.pages.fleet import FleetPage

            page = FleetPage(self.desk)
            page.back.connect(self.go_back)
            page.go_on.connect(self.go_on)
            self._add("fleet", page)
        self.show_page("fleet")
        self._pages["fleet"].fill()  # type: ignore[attr-defined]

    def show_learn(self) -> None:
        """Show what closed cases taught."""
        if self.desk.shelf is None:
            return
        if "learn" not in self._pages:
            from faultdoc.app.pages.learn import LearnPage

            page = LearnPage(self.desk)
            page.back.connect(self.go_back)
            self._add("learn", page)
        self.show_page("learn")
        self._pages["learn"].fill()  # type: ignore[attr-defined]

    def show_tour(self) -> None:
        """Lead through the demo case, each step with what its people find there."""
        shelf = self.office.shelf
        if shelf is None:
            return
        from faultdoc.library.places import resources_folder
        from faultdoc.terminal.demo import Script, load_script

        folder = resources_folder()
        desk = self._empty_tab().desk

        def then(script: Script) -> None:
            desk.tour = script
            desk.open_case(folder / "cases" / "demo.yaml")

        self.office.background.run(
            lambda: load_script(folder / "demo_script.yaml", shelf.library),
            then,
            lambda problem: self.office.tell_problem(say("The first case could not be opened."), problem),
        )

    def show_pictures(self) -> None:
        """Show the plant with its readings, and the plots."""
        if self.desk.assessment is None:
            return
        if "pictures" not in self._pages:
            from faultdoc.app.pages.pictures import PicturesPage

            page = PicturesPage(self.desk)
            page.back.connect(self.go_back)
            page.point_chosen.connect(self._point_chosen)
            self._add("pictures", page)
        self.show_page("pictures")
        self._pages["pictures"].fill()  # type: ignore[attr-defined]

    def _point_chosen(self, point: str) -> None:
        from faultdoc.record.steps import pick_for_point

        assessment = self.desk.assessment
        assert assessment is not None
        self._chosen(pick_for_point(assessment, point))

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
        self._to_step()
        self.desk.choose(pick)
        self._step.focus_first()

    def _cause_chosen(self, cause: str) -> None:
        self._to_work()
        self.work.open_reasons(cause)

    def show_plant(self) -> None:
        """Correct the plant's state and the people."""
        case = self.desk.case
        if case is None or case.conclusion is not None:
            return
        self._plant_page().fill(case.state, case.who, new=False, aloud=self.tab.home == "phone")
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
            page.kit_wanted.connect(self.show_kit)
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

    def show_kit(self) -> None:
        """Show what to send for a fix on the first visit."""
        if self.desk.assessment is None:
            return
        if "kit" not in self._pages:
            from faultdoc.app.pages.kit import KitPage

            page = KitPage(self.desk)
            page.back.connect(self.go_back)
            self._add("kit", page)
        self.show_page("kit")
        self._pages["kit"].fill()  # type: ignore[attr-defined]

    def show_handover(self) -> None:
        """Hand the case over."""
        if self.desk.assessment is None or self.desk.looking:
            return
        page = self._handover_page()
        self.message.hide()
        self.show_page("handover")
        page.fill()

    def _handover_page(self) -> HandOverPage:
        if "handover" not in self._pages:
            from faultdoc.app.pages.handover import HandOverPage

            page = HandOverPage(self.desk)
            page.back.connect(self.go_back)
            page.close_wanted.connect(self.show_close)
            self._add("handover", page)
        page_ = self._pages["handover"]
        return page_  # type: ignore[return-value]

    def show_codes(self) -> None:
        """Take a case over from the text of scanned codes."""
        if self.office.shelf is None:
            return
        page = self._received_page()
        self.message.hide()
        self.show_page("received")
        page.fill_pasting()

    def _received_page(self) -> ReceivedPage:
        if "received" not in self._pages:
            from faultdoc.app.pages.received import ReceivedPage

            page = ReceivedPage(self.desk)
            page.back.connect(self.go_back)
            page.taken.connect(self._taken_over)
            self._add("received", page)
        page_ = self._pages["received"]
        return page_  # type: ignore[return-value]

    def _taken_over(self, case_id: int, sheet: DataSheet | None) -> None:
        """Put a case that was taken over on a desk, with all that came, and have the plant looked at first."""
        if sheet is not None:
            self.office.add_unit(sheet)
        self.go_back()
        if not self._show_open(case_id):
            self._empty_tab()
        self.tab.plant_first = True
        self.desk.go_on(case_id)

    def _broken(self, problems: tuple[Problem, ...], tab: Tab | None = None) -> None:
        if tab is not None and tab is not self.tab:
            self.to_tab(tab)
        if "broken" not in self._pages:
            from faultdoc.app.pages.broken import BrokenPage

            page = BrokenPage()
            page.back.connect(self.go_back)
            page.retry.connect(self._retry)
            self._add("broken", page)
        own = self.office.shelf is None
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
        if self.office.start_list is None:
            return
        folder = str(self.desk.path.parent if self.desk.path else Path.home())
        name, _ = QFileDialog.getOpenFileName(
            self, say("Open a case file or a hand-over"), folder, say("Cases and hand-overs (*.yaml *.yml *.txt)")
        )
        if name:
            self.open_case(Path(name))

    def ask_save(self) -> None:
        """Ask for a name and save the case."""
        if self.desk.session is None:
            return
        start = str(self.desk.path or Path.home() / "case.yaml")
        name, _ = QFileDialog.getSaveFileName(self, say("Save the case"), start, say("Case files (*.yaml)"))
        if name:
            path = Path(name)
            self.desk.save_as(path if path.suffix else path.with_suffix(".yaml"))

    # --- looks ---

    def _dress(self) -> None:
        """Bring the bar and the menu up to date."""
        desk = self.desk
        session, case = desk.session, desk.case
        large = self.office.settings.text_size > LARGE
        self.units_button.setText(desk.system.value if large else say("Units: {value}", value=desk.system.value))
        self.stop_button.setText(say("Stop (F1)") if large else say("Stop: danger (F1)"))
        self.units_button.setAccessibleName(
            say(
                "Units: {value}. Press to switch to {what}",
                value=desk.system.value,
                what="SI" if desk.system is System.US else "US",
            )
        )
        self.undo_button.setEnabled(bool(session and session.done) and not desk.looking)
        self.redo_button.setEnabled(bool(session and session.undone) and not desk.looking)
        open_case = case is not None and case.conclusion is None
        practising = self.page == "practice"
        for id in ("save", "report", "kit", "new", "pictures", "handover", "phone"):
            self._actions[id].setEnabled(case is not None)
        self._actions["search"].setEnabled(case is not None or practising)
        for id in ("plant", "close", "readings", "decide"):
            self._actions[id].setEnabled(open_case)
        self._actions["close_tab"].setEnabled(case is not None or len(self.tabs) > 1)
        if practising:
            self.heading.put(say("Practice: nothing here is real"))
        elif session is None:
            self.heading.put("FaultDoc")
        else:
            self.heading.put(f"{self.tab.title}  |  {self.tab.unit}")
        lines = [TabLine(tab.title, tab.unit, tab.mark) for tab in self.tabs]
        self.strip.fill(lines, self.tabs.index(self.tab))

    def _busy(self, on: bool, tab: Tab) -> None:
        if tab.shown == "plant":
            tab.pages["plant"].setEnabled(not on)
        tab.pages["start"].inside.setEnabled(not on)  # type: ignore[attr-defined]
        self._cursor()
        self._dress()

    def _cursor(self) -> None:
        if self.desk.looking:
            self.setCursor(Qt.CursorShape.BusyCursor)
        else:
            self.unsetCursor()

    def _looked(self) -> None:
        """Have pages that are not seen made anew when they are next wanted: their lengths go with the letters."""
        for tab in self.tabs:
            for name in set(tab.pages) - {
                "start",
                "work",
                "practice",
                "unit",
                "plant",
                "close",
                "readings",
                tab.shown,
            }:
                page = tab.pages.pop(name)
                self.stack.removeWidget(page)
                page.deleteLater()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint it."""
        super().paintEvent(event)
        if not self._told_usable and self.start.units:
            self._told_usable = True
            # After this paint has reached the screen and the events that wait have been seen to.
            QTimer.singleShot(0, self.usable.emit)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Let go of the case book, and of a practice whose time runs."""
        for tab in self.tabs:
            self._shut(tab)
        self.office.shut()
        event.accept()

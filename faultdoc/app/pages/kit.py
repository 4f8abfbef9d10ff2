"""What to send: the best kit, its things and people to be taken out or put in, and what that does to the chance.

The best kit and what is said of any kit are worked out beside the window; the chance of a kit that was
changed by hand takes a fraction of a millisecond and shows at once.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget
from shiboken6 import isValid

from faultdoc.app.desk import Desk
from faultdoc.app.keeping import asked_path, keep_html
from faultdoc.app.widgets.basic import Box, button, clear, label, row
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.model.stock import Comes
from faultdoc.quantities import Kind, System, show
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.record.kit import Kit, Limits

__all__ = ["KitPage"]

LARGEST_MASS = 2000.0
MOST_ITEMS = 60
OTHERS = 12
"""Things not in the kit that are offered, likeliest causes first."""

BULKY = 0.01
"""Room in m3 from which it is told."""

COMES = {
    Comes.STORE: say("From the shelf"),
    Comes.ORDER: say("Must be ordered: put it in when it has come"),
    Comes.HIRE: say("Hired in: put it in when it is there"),
}


@dataclass(frozen=True)
class _Told:
    """A kit with its words, made beside the window."""

    kit: Kit
    worth: dict[str, str]
    match: dict[str, str]
    additions: tuple[str, ...]
    lost: tuple[str, ...]
    remarks: tuple[str, ...]
    standing: tuple[str, ...]


def _told(kit: Kit, system: System) -> _Told:
    from faultdoc.record import kit as kits
    from faultdoc.record.matching import match_words

    case = kit.sending
    sheet = case.assessment.bench.sheet
    return _Told(
        kit=kit,
        worth={id: kits.worth_words(kit, id) for id in kit.taken},
        match={
            id: "; ".join(match_words(one.kind, one.machine, sheet, system)) for id, one in case.articles.items()
        },
        additions=tuple(kits.addition_words(case, one) for one in kit.additions),
        lost=tuple(kits.lost_words(one) for one in kit.lost if one.probability >= kits.TOLD),
        remarks=kits.remarks(kit),
        standing=kits.standing_words(case),
    )


class _Stepper(QWidget):
    """A number between a button for less and one for more."""

    def __init__(self, title: str, value: str, on_step: Callable[[int], None]) -> None:
        super().__init__()
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        self.value = label(value, "title")
        self.less = button("-", lambda: on_step(-1), name=say("{title}: less", title=title))
        self.more = button("+", lambda: on_step(1), name=say("{title}: more", title=title))
        for made in (self.less, self.more):
            made.setFixedWidth(64)
        down.addWidget(label(title, "faint"))
        down.addLayout(row(self.less, self.value, self.more))


class KitPage(QWidget):
    """What to send; the chance stays in sight whatever is scrolled below it."""

    back = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.setObjectName("ground")
        self._desk = desk
        self.chance = label(say("What to send"), "headline")
        self.load = label("")
        self.over = label("", "wrong")
        self.best = button(say("Best kit again"), self._begin, "main")
        self.pdf = button("PDF", lambda: self._ask("pdf"), name=say("Keep as PDF"))
        self.web = button("HTML", lambda: self._ask("html"), name=say("Keep as HTML"))
        self.leave = button(say("Back"), self.back.emit)
        self.list = Page(widest=1260)
        self.list.margins = (0, 8, 8, 8)
        down = QVBoxLayout(self)
        down.setContentsMargins(20, 12, 12, 0)
        down.setSpacing(4)
        down.addLayout(row(self.chance, self.best, self.pdf, self.web, self.leave))
        down.addWidget(self.load)
        down.addWidget(self.over)
        down.addWidget(self.list, 1)
        self.kit: Kit | None = None
        self.cards: dict[str, ChoiceButton] = {}
        self._limits: Limits | None = None
        self._asked = 0
        desk.changed.connect(self._changed)

    # --- asking ---

    def fill(self) -> None:
        """Work out the best kit within the usual limits, and show it."""
        self._limits = None
        self._begin()

    def _changed(self) -> None:
        if self.isVisible() and self._desk.assessment is not None:
            self._begin()

    def _begin(self) -> None:
        """Work out the best kit within the limits beside the window."""
        assessment, limits, system = self._desk.assessment, self._limits, self._desk.system
        assert assessment is not None
        self._asked += 1
        asked = self._asked
        if self.kit is None or self.kit.sending.assessment is not assessment:
            self.kit = None
            self._say(say("Working out what to send ..."))

        def work() -> _Told | str:
            from faultdoc.record.kit import KitError, best_kit, sending

            try:
                return _told(best_kit(sending(assessment, None, limits)), system)
            except KitError as problem:
                return str(problem)

        def then(made: _Told | str) -> None:
            if asked == self._asked and isValid(self):
                self._say(made) if isinstance(made, str) else self._build(made)

        self._run(work, then)

    def _run(self, work: Callable[[], _Told | str], then: Callable[[_Told | str], None]) -> None:
        def failed(problem: BaseException) -> None:
            raise problem

        self._desk.beside(work, then, failed, late=True)

    # --- showing ---

    def _say(self, words: str) -> None:
        self.list.empty()
        self.cards = {}
        self.chance.setText(say("What to send"))
        self.load.setText(words[:1].upper() + words[1:])
        self.over.setVisible(False)
        for made in (self.best, self.pdf, self.web):
            made.setEnabled(False)
        self.leave.setFocus()

    def _build(self, told: _Told) -> None:
        self.list.empty()
        self.kit = told.kit
        case = told.kit.sending
        self._limits = case.limits
        self.cards = {}
        for made in (self.best, self.pdf, self.web):
            made.setEnabled(True)
        self._put_limits()
        self.list.body.addWidget(label(say("Who goes"), "title"))
        for id, person in case.people.items():
            self._card(id, person.title, told)
        self.list.body.addWidget(label(say("What goes, beyond what is on every van"), "title"))
        taken = [one.id for one in told.kit.articles]
        if not taken:
            self.list.body.addWidget(label(say("Nothing.")))
        for id in taken:
            self._card(id, case.articles[id].title, told)
        others = [id for id in case.articles if id not in taken]
        if others:
            self.list.body.addWidget(label(say("Not taken"), "title"))
        for id in others[:OTHERS]:
            self._card(id, case.articles[id].title, told)
        if len(others) > OTHERS:
            more = len(others) - OTHERS
            self.list.body.addWidget(label(say("And {more} more for less likely causes.", more=more), "faint"))
        self.details = QVBoxLayout()
        self.details.setSpacing(8)
        self.list.body.addLayout(self.details)
        self._show(told)
        self.list.to_top()
        next(iter(self.cards.values())).setFocus()

    def _put_limits(self) -> None:
        limits = self._limits
        assert limits is not None

        def ask(new: Limits) -> None:
            self._limits = new
            self._begin()

        def people(way: int) -> None:
            ask(replace(limits, people=min(max(limits.people + way, 0), len(limits.who))))

        def items(way: int) -> None:
            ask(replace(limits, items=min(max(limits.items + 2 * way, 0), MOST_ITEMS)))

        def mass(way: int) -> None:
            ask(replace(limits, mass=min(max(limits.mass + 20.0 * way, 0.0), LARGEST_MASS)))

        self.people = _Stepper(say("Most people"), str(limits.people), people)
        self.items = _Stepper(say("Most special items"), str(limits.items), items)
        self.mass = _Stepper(say("Most weight"), show(limits.mass, Kind.MASS, self._desk.system), mass)
        self.list.body.addLayout(row(self.people, self.items, self.mass, 1, spacing=24))

    def _card(self, id: str, title: str, told: _Told) -> None:
        card = ChoiceButton(title, self._words(id, told), sign="check", on_click=self._toggled)
        card.setChecked(id in told.kit.taken)
        self.cards[id] = card
        self.list.body.addWidget(card)

    def _words(self, id: str, told: _Told) -> str:
        case = told.kit.sending
        said = []
        if id in case.articles:
            article = case.articles[id]
            system = self._desk.system
            sizes = [show(article.mass, Kind.MASS, system)] if article.mass else []
            if article.volume >= BULKY:
                sizes.append(show(article.volume, Kind.VOLUME, system))
            said.append(f"{', '.join([COMES[article.kind.comes], *sizes])}.")
            if told.match[id]:
                said.append(say("Match {match}.", match=told.match[id]))
            causes = case.assessment.bench.problem.causes
            said.append(say("For: {title}.", title=causes[case.wanted[id][0]].title))
        said.append(told.worth.get(id, ""))
        return " ".join(part for part in said if part) or say("Not sent.")

    def _head(self, kit: Kit) -> None:
        """Show the chance and the load of a kit."""
        from faultdoc.record.kit import load_words
        from faultdoc.record.words import chance

        self.chance.setText(say("Fix on the first visit: {chance}", chance=chance(kit.chance)))
        self.load.setText(say("Together {load_words}.", load_words=load_words(kit.cost, self._desk.system)))
        self.over.setText(say("Over the {join}.", join=" and the ".join(kit.over)) if kit.over else "")
        self.over.setVisible(bool(kit.over))

    def _show(self, told: _Told) -> None:
        """Show what is said of a kit: on its cards and below them."""
        self._head(told.kit)
        for id, card in self.cards.items():
            card.reword(self._words(id, told))
        clear(self.details)
        lists = (
            (say("Next best to add"), told.additions),
            (say("Not served by this visit"), told.lost),
            (say("See that these are on the van"), ("; ".join(told.standing),) if told.standing else ()),
        )
        for title, lines in lists:
            if lines:
                self.details.addWidget(label(title, "title"))
                self.details.addWidget(Box("card", *(label(line) for line in lines)))
        for line in told.remarks:
            self.details.addWidget(label(line, "faint"))

    # --- changing ---

    @property
    def taken(self) -> frozenset[str]:
        """What is ticked."""
        return frozenset(id for id, card in self.cards.items() if card.isChecked())

    def _toggled(self) -> None:
        """Show the chance of what is ticked now; the rest of what there is to say of it follows."""
        from faultdoc.record.kit import kit_with

        assert self.kit is not None
        kit = kit_with(self.kit.sending, self.taken)
        self.kit = kit
        self._head(kit)
        self._asked += 1
        asked, system = self._asked, self._desk.system

        def then(made: _Told | str) -> None:
            if asked == self._asked and isValid(self) and isinstance(made, _Told):
                self._show(made)

        self._run(lambda: _told(kit, system), then)

    # --- on paper ---

    def keep(self, path: Path) -> bool:
        """Write what is ticked to a file, as PDF or HTML by its ending; return whether it was written."""
        from faultdoc.record.kit import kit_html

        assert self.kit is not None
        page = kit_html(self.kit, self._desk.system, datetime.now(UTC).astimezone())
        return keep_html(page, path, self._desk, say("What to send"))

    def _ask(self, ending: str) -> None:
        start = (self._desk.path or Path.home() / "case").with_name(f"kit.{ending}")
        path = asked_path(self, say("Keep what to send"), start, ending)
        if path is not None:
            self.keep(path)

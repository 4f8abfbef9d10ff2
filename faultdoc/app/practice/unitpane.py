"""At the unit: what came of the last act, what anyone sees and hears there, and the instruments fitted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.practice.clock import on_a_watch
from faultdoc.app.practice.course import Course
from faultdoc.app.practice.scales import face_of
from faultdoc.app.practice.told import caution_of, event_words
from faultdoc.app.widgets.basic import Box, button, buttons, clear, label, row
from faultdoc.app.widgets.caution import CautionCard
from faultdoc.app.widgets.gaugetile import WIDTH, GaugeTile
from faultdoc.app.widgets.page import Page
from faultdoc.record.words import PLANT
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.model.safety import PlantState
    from faultdoc.practice.trainee import Event
    from faultdoc.quantities import System

__all__ = ["UnitPane"]

SEEN_ANYWAY = ("pump", "compressors")
"""Parts of the plant's state that the unit itself shows."""

PLACED = 40
"""Milliseconds after which a new part has its place on the page."""
MOST_TOLD = 3
"""Boxes of what happened last that stand above the unit."""


class UnitPane(Page):
    """The unit as it is now."""

    def __init__(self, course: Course, desk: Desk) -> None:
        super().__init__(widest=1400)
        self._course, self._desk = course, desk
        self.setAccessibleName(say("At the unit"))
        self.be_readable()
        self.margins = (14, 10, 14, 14)
        self.tiles: dict[str, GaugeTile] = {}
        self.last: Event | None = None
        self._laid: tuple[tuple[str, ...], int, System] | None = None
        self.stop = Box("wrong", label(say("STOP: LEAVE IT, AND HAND OVER"), "wrong"))
        self.stop_words = label("", "result")
        self.stop.body.addWidget(self.stop_words)
        self.hand_over = button(say("Stop work and hand over"), course.give_up, "danger")
        self.stop.body.addWidget(buttons(self.hand_over))
        self.stop.hide()
        self.body.addWidget(self.stop)
        self.result = QVBoxLayout()
        self.body.addLayout(self.result)
        self.seen = (label(""), label(""))
        for half in self.seen:
            half.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.plant = label("", "faint")
        card = Box("card", label(say("AT THE UNIT NOW"), "kind"))
        card.body.setSpacing(4)
        card.body.addLayout(row(*self.seen, spacing=20))
        card.body.addWidget(self.plant)
        self.body.addWidget(card)
        self._place = QWidget()
        self._grid = QGridLayout(self._place)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(10)
        self.body.addWidget(self._place)
        self.none = label(
            say("No instrument is fitted. Measure something: its gauge then stands here, and follows the unit."),
            "faint",
        )
        self.body.addWidget(self.none)
        course.changed.connect(self.draw)
        course.happened.connect(self.tell)
        course.noticed.connect(self._notice)
        course.begun.connect(self._begun)
        desk.changed.connect(self._switched)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the new size."""
        super().resizeEvent(event)
        self.draw()

    def _begun(self) -> None:
        self.last = None
        clear(self.result)
        self.to_top()

    def _switched(self) -> None:
        if self._course.now is not None:
            if self.last is not None:
                self.tell(self.last)
            self.draw()

    def tell(self, event: Event) -> None:
        """Show what came of an act."""
        self.last = event
        clear(self.result)
        course = self._course
        assert course.sheet is not None
        words = event_words(event, course.points, course.sheet, self._desk.system, course.told)
        if not event.safe:
            count = sum(not one.safe for one in course.now.events) if course.now else 1
            reason, caution = caution_of(event)
            box = Box("wrong", label(say("NOT DONE: UNSAFE"), "wrong"), label(words, "result"))
            if reason:
                box.body.addWidget(label(reason))
            box.body.addWidget(CautionCard(caution))
            box.body.addWidget(label(say("Nothing was touched. Unsafe acts so far: {count}.", count=count)))
        elif event.kind == "refused":
            box = Box("doubt", label(words, "result"))
        else:
            box = Box("note", label(words, "result"))
        self.result.addWidget(box)

        def look() -> None:
            fresh = self.tiles.get(event.point or "") if event.kind == "reading" else None
            if fresh is None:
                self.to_top()
            else:
                self.show_part(fresh)
                self.show_part(fresh.face)  # of a tile that is higher than the page its face

        # After the new part has its place.
        QTimer.singleShot(PLACED, self, look)

    def _notice(self, events: tuple[Event, ...]) -> None:
        """Tell what the unit did by itself, below what came of the last act."""
        words = "\n".join(f"{on_a_watch(one.time)}  {one.text}" for one in events)
        self.result.addWidget(Box("doubt", label(say("THE UNIT, BY ITSELF"), "kind"), label(words, "result")))
        while self.result.count() > MOST_TOLD:
            item = self.result.takeAt(0)
            if item is not None and (gone := item.widget()) is not None:
                gone.hide()
                gone.deleteLater()

    def draw(self) -> None:
        """Show the unit as it is."""
        now, sheet = self._course.now, self._course.sheet
        if now is None or sheet is None:
            return
        self.stop.setVisible(now.stop is not None)
        self.stop_words.setText(now.stop or "")
        half = (len(now.shows) + 1) // 2
        for part, lines in zip(self.seen, (now.shows[:half], now.shows[half:]), strict=True):
            part.setText("\n".join(lines))
        self.plant.setText("; ".join(_not_shown(now.state)) + ".")
        system = self._desk.system
        columns = max(1, (self.viewport().width() - 28 + 10) // (WIDTH + 10))
        laid = (tuple(one.point.id for one in now.fitted), columns, system)
        if laid != self._laid:
            self._lay(laid)
        for one in now.fitted:
            tile = self.tiles[one.point.id]
            tile.put(one.value, live=one.live, told=one.point.id in self._course.told)
        self.none.setVisible(not now.fitted)

    def _lay(self, laid: tuple[tuple[str, ...], int, System]) -> None:
        """Put the tiles in rows; those that stay keep their needles where they are."""
        now, sheet = self._course.now, self._course.sheet
        assert now is not None
        assert sheet is not None
        points, columns, system = laid
        kept = self._laid is not None and self._laid[2] is system
        for id, tile in list(self.tiles.items()):
            self._grid.removeWidget(tile)
            if id not in points or not kept:
                tile.hide()
                tile.deleteLater()
                del self.tiles[id]
        for place, one in enumerate(now.fitted):
            id = one.point.id
            if id not in self.tiles:
                face = face_of(one.point, sheet, system)
                assert face is not None
                self.tiles[id] = GaugeTile(id, one.point.title, face, system)
                self.tiles[id].number_wanted.connect(self._course.ask_number)
                self.tiles[id].off_wanted.connect(self._course.take_off)
            self._grid.addWidget(self.tiles[id], place // columns, place % columns)
        for column in range(max(columns, self._grid.columnCount())):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)
        self._laid = laid


def _not_shown(state: PlantState) -> list[str]:
    """Return the plant's state in words, but for what the unit shows itself."""
    return [
        f"{words.title}: {words.values[getattr(state, name)].lower()}"
        for name, words in PLANT.items()
        if name not in SEEN_ANYWAY
    ]

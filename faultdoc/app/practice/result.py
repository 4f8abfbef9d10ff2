"""The debrief of a practice: score, time line, what told nothing, what readings meant, and the physics."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout

from faultdoc.app.desk import Desk
from faultdoc.app.keeping import asked_path, keep_html
from faultdoc.app.practice.clock import on_a_watch
from faultdoc.app.practice.marks import sorted_marks
from faultdoc.app.practice.told import caution_of
from faultdoc.app.widgets.basic import Box, button, buttons, facts, label
from faultdoc.app.widgets.caution import CautionCard
from faultdoc.app.widgets.page import Page
from faultdoc.app.widgets.timeline import SIGNS, Lane, Legend, Mark, Timeline
from faultdoc.record.words import minutes
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.practice.debrief import Compared, Debrief
    from faultdoc.practice.trainee import Event

__all__ = ["ResultPage"]


class ResultPage(Page):
    """Signals `again` to do the same once more, and `list_wanted`."""

    again = Signal()
    list_wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.found: Debrief | None = None
        self.trainee = ""
        self.asked = 0
        self.setAccessibleName(say("Debrief"))
        self.be_readable()
        desk.changed.connect(self._switched)

    def wait(self) -> None:
        """Say that the debrief is being made."""
        self.found = None
        self.empty()
        self.body.addWidget(label(say("PRACTICE, SIMULATED UNIT"), "kind"))
        self.body.addWidget(label(say("The call is over"), "headline"))
        self.body.addWidget(
            label(say("The planner now takes the same call, for your debrief: some seconds ..."), "faint")
        )
        self.body.addWidget(buttons(button(say("Back to the list"), self.list_wanted.emit)))
        self.to_top()

    def fill(self, found: Debrief, trainee: str, asked: int) -> None:
        """Show a debrief.

        Args:
            found: the debrief.
            trainee: name on the result sheet.
            asked: how often a needle's number was asked for.
        """
        self.found, self.trainee, self.asked = found, trainee, asked
        self._draw()
        self.pdf.setFocus()
        self.to_top()

    def _switched(self) -> None:
        if self.found is not None:
            self._draw()

    def _draw(self) -> None:
        found = self.found
        assert found is not None
        self.empty()
        add = self.body.addWidget
        add(label(say("PRACTICE, SIMULATED UNIT: DEBRIEF"), "kind"))
        add(label(found.ending, "headline"))
        self.pdf = button(say("Keep result as PDF"), lambda: self._ask("pdf"), "main")
        self.web = button(say("Keep as HTML"), lambda: self._ask("html"))
        self.once_more = button(say("Same again"), self.again.emit)
        self.to_list = button(say("Another one"), self.list_wanted.emit)
        self.body.addWidget(buttons(self.pdf, self.web, self.once_more, self.to_list))
        add(self._score(found))
        add(label(say("Your path and the planner's"), "title"))
        add(self._times(found))
        if found.unsafe:
            add(label(say("Unsafe acts"), "title"))
            for event in found.unsafe:
                add(_unsafe(event))
        add(label(say("Tests that told nothing"), "title"))
        add(_list([f"{one.text} ({minutes(one.minutes)})" for one in found.told_nothing], say("None: good.")))
        if found.wrong_fixes:
            add(label(say("Mended, and not the fault"), "title"))
            add(_list([f"{one.text} ({minutes(one.minutes)})" for one in found.wrong_fixes], ""))
        add(label(say("What each reading meant"), "title"))
        for one in found.meant:
            nothing = say(" It told nothing.") if one.told_nothing else ""
            box = Box("card", label(one.text, "result"), label(one.meaning + nothing))
            box.body.addWidget(
                label(
                    say("{bits:.2f} bit expected, {minutes}", bits=one.bits, minutes=minutes(one.minutes)), "faint"
                )
            )
            add(box)
        if not found.meant:
            add(label(say("Nothing was read or looked at."), "faint"))
        add(label(say("The unit called to run: with the fault, and healthy"), "title"))
        add(self._physics(found.physics))
        add(label(say("What you did"), "title"))
        add(_path(found.path))
        add(label(say("What the planner did on the same unit"), "title"))
        add(_path(found.planner_path))

    def _score(self, found: Debrief) -> Box:
        box = Box("good" if found.solved or found.stopped_rightly else "doubt")
        self.score = label(say("{score} points of 100", score=found.score), "number")
        box.body.addWidget(self.score)
        box.body.addWidget(label(say("What it was: {join}.", join="; ".join(found.causes)), "result"))
        planner = minutes(found.planner_minutes) + ("" if found.planner_solved else say(" without solving it"))
        hints = (
            say("; {hints} hint{what}", hints=found.hints, what="" if found.hints == 1 else "s")
            if found.hints
            else ""
        )
        box.body.addWidget(
            label(
                say(
                    "{minutes}; par is {minutes_2}; the planner took {planner}{hints}.",
                    minutes=minutes(found.minutes),
                    minutes_2=minutes(found.par),
                    planner=planner,
                    hints=hints,
                )
            )
        )
        for words, points in found.parts:
            box.body.addWidget(label(f"{points:+d}: {words}"))
        if not found.parts:
            box.body.addWidget(label(say("Nothing was taken off.")))
        box.body.addWidget(
            label(say("Numbers of needles asked for: {asked}. It costs nothing.", asked=self.asked), "faint")
        )
        return box

    def _times(self, found: Debrief) -> Box:
        lanes = [
            Lane(title, long, tuple(Mark(minute, sort) for minute, sort in sorted_marks(path)))
            for title, long, path in (
                (say("You"), found.minutes, found.path),
                (say("Planner"), found.planner_minutes, found.planner_path),
            )
        ]
        box = Box("card")
        self.times = Timeline(lanes, found.par)
        box.body.addWidget(self.times)
        grid = QGridLayout()
        grid.setHorizontalSpacing(4)
        for place, (sort, (_, _, words)) in enumerate(SIGNS.items()):
            grid.addWidget(Legend(sort), place // 3, place % 3 * 2)
            grid.addWidget(label(words, "faint"), place // 3, place % 3 * 2 + 1)
        for column in (1, 3, 5):
            grid.setColumnStretch(column, 1)
        box.body.addLayout(grid)
        return box

    def _physics(self, compared: Sequence[Compared]) -> Box:
        box = Box("card")
        if not compared:
            box.body.addWidget(label(say("No gauge would show it.")))
            return box
        grid = QGridLayout()
        grid.setHorizontalSpacing(14)
        grid.setVerticalSpacing(8)
        for column, stretch in enumerate((4, 2, 2)):
            grid.setColumnStretch(column, stretch)
        for column, head in enumerate((say("Point"), say("With the fault"), say("Healthy"))):
            grid.addWidget(label(head, "kind"), 0, column)
        for place, one in enumerate(compared, start=1):
            grid.addWidget(label(one.title), place, 0, Qt.AlignmentFlag.AlignTop)
            for column, words in enumerate(one.words(self._desk.system), start=1):
                grid.addWidget(label(words, "result"), place, column, Qt.AlignmentFlag.AlignTop)
        box.body.addLayout(grid)
        return box

    def keep(self, path: Path) -> bool:
        """Write the result sheet to a file, as PDF or HTML by its ending; return whether it was written."""
        from faultdoc.practice.sheet import sheet_html

        assert self.found is not None
        html = sheet_html(self.found, self._desk.system, self.trainee)
        return keep_html(html, path, self._desk, say("The result sheet"))

    def _ask(self, ending: str) -> None:
        path = asked_path(self, say("Keep the result sheet"), Path.home() / f"practice.{ending}", ending)
        if path is not None:
            self.keep(path)


def _list(lines: Sequence[str], nothing: str) -> Box:
    return Box("card", *(label(line) for line in lines or (nothing,)))


def _unsafe(event: Event) -> Box:
    reason, caution = caution_of(event)
    box = Box(
        "card", label(say("At {on_a_watch}: {what}", on_a_watch=on_a_watch(event.time), what=event.text), "result")
    )
    if reason:
        box.body.addWidget(label(reason))
    box.body.addWidget(CautionCard(caution))
    return box


def _path(events: Sequence[Event]) -> Box:
    if not events:
        return Box("card", label(say("Nothing.")))
    return facts(*((on_a_watch(event.time), event.text) for event in events), left=84)

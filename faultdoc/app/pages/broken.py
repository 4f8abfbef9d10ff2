"""What is wrong with a file: every mistake with its place and its remedy."""

from __future__ import annotations

from PySide6.QtCore import Signal

from faultdoc.app.widgets.basic import Box, button, buttons, facts, label
from faultdoc.app.widgets.page import Page
from faultdoc.library.problems import Problem
from faultdoc.words import say

__all__ = ["BrokenPage"]


class BrokenPage(Page):
    """A list of problems."""

    back = Signal()
    retry = Signal()

    def fill(self, problems: tuple[Problem, ...], *, own: bool) -> None:
        """Show problems; `own` when FaultDoc's own files are meant and nothing else can be done before."""
        self.empty()
        what = say("FaultDoc's own files have mistakes") if own else say("This case file cannot be opened")
        self.body.addWidget(label(what, "headline"))
        count = len(problems)
        self.body.addWidget(
            label(
                say(
                    "{count} problem{what}. Mend {what_2} and try again.",
                    count=count,
                    what="" if count == 1 else "s",
                    what_2="it" if count == 1 else "them",
                )
            )
        )
        again = (
            button(say("Try again"), self.retry.emit, "main")
            if own
            else button(say("Back"), self.back.emit, "main")
        )
        self.body.addWidget(buttons(again))
        for problem in problems:
            place = (
                say("{file}, line {line}", file=problem.file, line=problem.line) if problem.line else problem.file
            )
            box = Box("wrong", label(place, "title"))
            box.body.addWidget(
                facts(
                    (say("At"), problem.key),
                    (say("Found"), problem.found),
                    (say("Allowed"), problem.allowed),
                    (say("Do this"), problem.remedy),
                )
            )
            self.body.addWidget(box)
        self.to_top()
        again.setFocus()

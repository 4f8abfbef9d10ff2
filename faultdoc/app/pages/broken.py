"""What is wrong with a file: every mistake with its place and its remedy."""

from __future__ import annotations

from PySide6.QtCore import Signal

from faultdoc.app.widgets.basic import Box, button, buttons, facts, label
from faultdoc.app.widgets.page import Page
from faultdoc.library.problems import Problem

__all__ = ["BrokenPage"]


class BrokenPage(Page):
    """A list of problems."""

    back = Signal()
    retry = Signal()

    def fill(self, problems: tuple[Problem, ...], *, own: bool) -> None:
        """Show problems; `own` when FaultDoc's own files are meant and nothing else can be done before."""
        self.empty()
        what = "FaultDoc's own files have mistakes" if own else "This case file cannot be opened"
        self.body.addWidget(label(what, "headline"))
        count = len(problems)
        self.body.addWidget(
            label(
                f"{count} problem{'' if count == 1 else 's'}. Mend {'it' if count == 1 else 'them'} and try again."
            )
        )
        again = button("Try again", self.retry.emit, "main") if own else button("Back", self.back.emit, "main")
        self.body.addWidget(buttons(again))
        for problem in problems:
            place = f"{problem.file}, line {problem.line}" if problem.line else problem.file
            box = Box("wrong", label(place, "title"))
            box.body.addWidget(
                facts(
                    ("At", problem.key),
                    ("Found", problem.found),
                    ("Allowed", problem.allowed),
                    ("Do this", problem.remedy),
                )
            )
            self.body.addWidget(box)
        self.to_top()
        again.setFocus()

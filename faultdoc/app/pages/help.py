"""The keyboard shortcuts, and where things are."""

from __future__ import annotations

from PySide6.QtCore import Signal

from faultdoc.app.widgets.basic import button, buttons, facts, label
from faultdoc.app.widgets.page import Page
from faultdoc.words import say

__all__ = ["SHORTCUTS", "HelpPage"]

SHORTCUTS = (
    ("F1", say("Stop: danger")),
    ("F2", say("Keyboard shortcuts (this page)")),
    (say("1 to 9"), say("Choose the answer with that number")),
    ("Ctrl+M", say("Could not measure")),
    ("Ctrl+K", say("Not sure")),
    ("Ctrl+L", say("Leave for later")),
    ("Ctrl+Z", say("Undo")),
    ("Ctrl+Y", say("Redo")),
    ("Ctrl+U", say("Switch between US and SI units")),
    ("Ctrl+F", say("Search questions, causes and measuring points")),
    ("Ctrl+D", say("Many readings at once: typed, pasted, or from a logger's file")),
    ("Ctrl+G", say("Pictures of plant and readings; there N and P go from point to point, Enter presses one")),
    ("Ctrl+T", say("Fault tree as a picture")),
    ("Ctrl+R", say("Practice on a simulated unit")),
    ("Ctrl+Shift+F", say("Fleet: open cases, what comes back, causes, minutes")),
    ("Ctrl+Shift+T", say("What cases taught")),
    ("F6, F7", say("In practice: stop the clock or let it go on; the next speed")),
    ("Ctrl+S", say("Save the case as a file")),
    ("Ctrl+O", say("Open a case file or a hand-over")),
    ("Ctrl+I", say("Take a case over from scanned codes")),
    ("Ctrl+H", say("Hand the case over: file or QR code")),
    ("Ctrl+B", say("New unit from its nameplate")),
    ("Ctrl+P", say("Report")),
    ("Ctrl+J", say("What to send: parts, tools and people")),
    ("Ctrl+E", say("Close the case")),
    ("F3", say("The call, or the step as on site")),
    ("F4", say("Decide how a call ends")),
    ("Ctrl+Enter", say("On the phone: put the notes into the record")),
    ("Ctrl+N", say("New case, in a tab of its own")),
    (say("Ctrl+Tab, Ctrl+Shift+Tab"), say("The next open case, the one before")),
    ("Ctrl+W", say("Close this tab; its case stays in the case book")),
    (say("Alt+1 to Alt+5"), say("Step, causes, record, why, plant; in practice: unit, what to do, log")),
    (say("Ctrl+plus, Ctrl+minus"), say("Larger, smaller letters")),
    ("Ctrl+Shift+L", say("Colours for sunlight, for the night")),
    ("F8", say("A first case, led by the hand")),
    ("Ctrl+Q", say("Leave FaultDoc; every case stays in the case book")),
    (say("Esc"), say("Back to the step")),
    (say("Tab"), say("Go to the next control; space or Enter presses it")),
)


class HelpPage(Page):
    """The shortcuts."""

    back = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.body.addWidget(label(say("Keyboard shortcuts"), "headline"))
        self.body.addWidget(facts(*SHORTCUTS, left=250))
        self.ok = button(say("Back"), self.back.emit, "main")
        self.body.addWidget(buttons(self.ok))

    def fill(self) -> None:
        """Come up."""
        self.to_top()
        self.ok.setFocus()

"""The keyboard shortcuts, and where things are."""

from __future__ import annotations

from PySide6.QtCore import Signal

from faultdoc.app.widgets.basic import button, buttons, facts, label
from faultdoc.app.widgets.page import Page

__all__ = ["SHORTCUTS", "HelpPage"]

SHORTCUTS = (
    ("F1", "Stop: danger"),
    ("F2", "Keyboard shortcuts (this page)"),
    ("1 to 9", "Choose the answer with that number"),
    ("Ctrl+M", "Could not measure"),
    ("Ctrl+K", "Not sure"),
    ("Ctrl+L", "Leave for later"),
    ("Ctrl+Z", "Undo"),
    ("Ctrl+Y", "Redo"),
    ("Ctrl+U", "Switch between US and SI units"),
    ("Ctrl+F", "Search questions, causes and measuring points"),
    ("Ctrl+D", "Many readings at once: typed, pasted, or from a logger's file"),
    ("Ctrl+G", "Pictures of plant and readings; there N and P go from point to point, Enter presses one"),
    ("Ctrl+T", "Fault tree as a picture"),
    ("Ctrl+R", "Practice on a simulated unit"),
    ("F6", "Fleet: open cases, what comes back, causes, minutes"),
    ("F7", "What cases taught"),
    ("F6, F7", "In practice: stop the clock or let it go on; the next speed"),
    ("Ctrl+S", "Save the case as a file"),
    ("Ctrl+O", "Open a case file or a hand-over"),
    ("Ctrl+I", "Take a case over from scanned codes"),
    ("Ctrl+H", "Hand the case over: file or QR code"),
    ("Ctrl+B", "New unit from its nameplate"),
    ("Ctrl+P", "Report"),
    ("Ctrl+J", "What to send: parts, tools and people"),
    ("Ctrl+E", "Close the case"),
    ("F3", "The call, or the step as on site"),
    ("F4", "Decide how a call ends"),
    ("Ctrl+Enter", "On the phone: put the notes into the record"),
    ("Ctrl+N", "New case, in a tab of its own"),
    ("Ctrl+Tab, Ctrl+Shift+Tab", "The next open case, the one before"),
    ("Ctrl+W", "Close this tab; its case stays in the case book"),
    ("Alt+1 to Alt+5", "Step, causes, record, why, plant; in practice: unit, what to do, log"),
    ("Ctrl+plus, Ctrl+minus", "Larger, smaller letters"),
    ("Ctrl+Shift+L", "Colours for sunlight, for the night"),
    ("Ctrl+Q", "Leave FaultDoc; every case stays in the case book"),
    ("Esc", "Back to the step"),
    ("Tab", "Go to the next control; space or Enter presses it"),
)


class HelpPage(Page):
    """The shortcuts."""

    back = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.body.addWidget(label("Keyboard shortcuts", "headline"))
        self.body.addWidget(facts(*SHORTCUTS, left=250))
        self.ok = button("Back", self.back.emit, "main")
        self.body.addWidget(buttons(self.ok))

    def fill(self) -> None:
        """Come up."""
        self.to_top()
        self.ok.setFocus()

"""The bar at the top that tells what happened; it never stands in the way."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame, QHBoxLayout

from faultdoc.app.widgets.basic import button, label, restyle
from faultdoc.words import say

__all__ = ["MessageBar"]


class MessageBar(QFrame):
    """One sentence with a sign word and a button that puts it away."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("role", "message")
        across = QHBoxLayout(self)
        across.setContentsMargins(14, 4, 6, 4)
        self.words = label("", "text")
        across.addWidget(self.words, 1)
        self.away = button(say("Put away"), self.hide, "quiet")
        across.addWidget(self.away)
        self.hide()

    def tell(self, severity: str, sentence: str) -> None:
        """Show a sentence; severity is "bad" or "good"."""
        self.words.setText((say("Problem: ") if severity == "bad" else "") + sentence)
        self.setAccessibleName(self.words.text())
        restyle(self, "severity", severity)
        self.show()

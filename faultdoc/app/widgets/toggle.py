"""A choice between two: big, side by side, the chosen one with a filled ring and a heavy frame."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QVBoxLayout, QWidget

from faultdoc.app.widgets.basic import label
from faultdoc.app.widgets.choice import ChoiceButton

__all__ = ["TwoWay"]


class TwoWay(QWidget):
    """Two big buttons under a title."""

    changed = Signal(str)

    def __init__(self, title: str, values: Mapping[str, str], value: str) -> None:
        super().__init__()
        self.buttons: dict[str, ChoiceButton] = {}
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(4)
        down.addWidget(label(title, "title"))
        across = QHBoxLayout()
        across.setSpacing(8)
        down.addLayout(across)
        self._group = QButtonGroup(self)
        for id, words in values.items():
            made = ChoiceButton(words, sign="radio")
            made.setAccessibleName(f"{title}: {words}")
            self._group.addButton(made)
            across.addWidget(made, 1)
            self.buttons[id] = made
            made.clicked.connect(lambda _=False, id=id: self.changed.emit(id))
        self.put(value)

    @property
    def value(self) -> str:
        """The chosen one."""
        return next(id for id, made in self.buttons.items() if made.isChecked())

    def put(self, value: str) -> None:
        """Choose one without telling anybody."""
        self.buttons[value].setChecked(True)

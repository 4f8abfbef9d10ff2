"""One field of a nameplate: title, help, what is typed or chosen, its echo, errors and doubts in place."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QHBoxLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from faultdoc.app.style import scaled
from faultdoc.app.widgets.basic import TARGET, Box, clear, label, restyle
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.reading import PATIENCE
from faultdoc.model.nameplate import NameplateField
from faultdoc.quantities import Kind, System, display_unit
from faultdoc.record.plate import NOT_KNOWN, needed_words, said, with_its_unit
from faultdoc.words import say

__all__ = ["PlateChoice", "PlateField", "PlateLine"]

LONGEST = 120
ACROSS = 3
"""Choices side by side; more do not fit a small window."""


class PlateField(QWidget):
    """What is common to a field typed in and one chosen from.

    Signals:
        edited: what is in it changed.
        entered: Enter was pressed in it.
    """

    edited = Signal()
    entered = Signal()

    def __init__(self, field: NameplateField) -> None:
        super().__init__()
        self.field = field
        self.down = QVBoxLayout(self)
        self.down.setContentsMargins(0, 0, 0, 0)
        self.down.setSpacing(4)
        needed = needed_words(field)
        self.down.addWidget(label(f"{field.title} ({needed})" if needed else field.title, "title"))
        self.down.addWidget(label(field.help, "faint"))
        self.wrong = label("", "wrong")
        self.wrong.hide()
        self.doubts = QVBoxLayout()

    @property
    def text(self) -> str:
        """What is in the field, as the nameplate's answers take it."""
        raise NotImplementedError

    def focus(self) -> None:
        """Put the focus into it."""
        raise NotImplementedError

    def switch(self, system: System) -> None:
        """Show the other units."""

    def say(self, problem: str) -> None:
        """Show what is wrong."""
        self.wrong.setText(problem[:1].upper() + problem[1:])
        self.wrong.setVisible(bool(problem))

    def doubt(self, texts: Sequence[str]) -> None:
        """Show what is doubted about it, until it is edited."""
        clear(self.doubts)
        if texts:
            self.doubts.addWidget(Box("doubt", label(say("Is this right?"), "title"), *map(label, texts)))

    def _finish(self) -> None:
        self.down.addWidget(self.wrong)
        self.down.addLayout(self.doubts)

    def _edited(self) -> None:
        self.say("")
        self.doubt(())
        self.edited.emit()


class PlateLine(PlateField):
    """A field to type in."""

    def __init__(self, field: NameplateField, system: System, text: str) -> None:
        super().__init__(field)
        self.system = system
        across = QHBoxLayout()
        across.setSpacing(8)
        self.line = QLineEdit(text)
        self.line.setMaxLength(LONGEST)
        self.line.setMinimumHeight(TARGET)
        # Long enough for a name, or for one value for each of several compressors.
        self.line.setMaximumWidth(scaled(420 if field.kind is None or field.many else 260))
        self.line.setAccessibleDescription(field.help)
        self.line.setInputMethodHints(Qt.InputMethodHint.ImhNoPredictiveText)
        across.addWidget(self.line, 1)
        self.unit = QLabel()
        self.unit.setProperty("voice", "unit")
        across.addWidget(self.unit)
        self.echo = label("", "echo")
        across.addWidget(self.echo, 2)
        self.down.addLayout(across)
        self._finish()
        self._late = QTimer(self)
        self._late.setSingleShot(True)
        self._late.setInterval(PATIENCE)
        self._late.timeout.connect(self.check)
        self.line.textChanged.connect(self._typed)
        self.line.returnPressed.connect(self.entered)
        self._dress()

    @property
    def text(self) -> str:
        """What is typed."""
        return self.line.text()

    def focus(self) -> None:
        """Put the focus into it, with all of it selected."""
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)
        self.line.selectAll()

    def switch(self, system: System) -> None:
        """Show the other units; a bare number keeps the unit in which it was typed."""
        if system is self.system:
            return
        kept = with_its_unit(self.field, self.line.text(), self.system)
        self.system = system
        if kept != self.line.text():
            self.line.setText(kept)
        self._dress()

    def check(self) -> None:
        """Show the error, if there is one."""
        self.say(said(self.field, self.line.text(), self.system).problem or "")

    def say(self, problem: str) -> None:
        """Show what is wrong."""
        super().say(problem)
        restyle(self.line, "wrong", bool(problem))

    def _typed(self) -> None:
        self._edited()
        self._dress()
        self._late.start()

    def _dress(self) -> None:
        kind = self.field.kind
        unit = "" if kind is None or kind is Kind.NUMBER else display_unit(kind, self.system)
        text = self.line.text().strip()
        self.line.setAccessibleName(
            say("{title}, in {unit}", title=self.field.title, unit=unit) if unit else self.field.title
        )
        # The unit beside the field is for a bare number; a typed unit speaks for itself.
        self.unit.setText(unit if not text or with_its_unit(self.field, text, self.system) != text else "")
        self.echo.setText(said(self.field, text, self.system).echo or "")


class PlateChoice(PlateField):
    """A field to choose from; it can be left open."""

    def __init__(self, field: NameplateField, chosen: str) -> None:
        super().__init__(field)
        self.buttons: dict[str, ChoiceButton] = {}
        self._group = QButtonGroup(self)
        titles = {one.id: one.title for one in field.choices}
        if "unknown" not in titles:
            titles[""] = NOT_KNOWN
        grid = QGridLayout()
        grid.setSpacing(8)
        for place, (id, title) in enumerate(titles.items()):
            made = ChoiceButton(title, sign="radio", on_click=self._edited)
            made.setAccessibleName(f"{field.title}: {title}")
            made.setAccessibleDescription(field.help)
            # The Tab key stops at the chosen one alone; Qt sees to that from the first time one has the focus.
            made.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
            self._group.addButton(made)
            grid.addWidget(made, place // ACROSS, place % ACROSS)
            self.buttons[id] = made
        first = self.buttons[chosen or next(reversed(titles))]
        first.setChecked(True)
        first.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        for column in range(ACROSS):
            grid.setColumnStretch(column, 1)
        self.down.addLayout(grid)
        self._finish()

    @property
    def text(self) -> str:
        """The id of what is chosen; '' for nothing."""
        return next(id for id, made in self.buttons.items() if made.isChecked())

    def focus(self) -> None:
        """Put the focus on what is chosen."""
        self.buttons[self.text].setFocus(Qt.FocusReason.OtherFocusReason)

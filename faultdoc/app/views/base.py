"""What all views of a step share."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QVBoxLayout, QWidget

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.readings import Readings
from faultdoc.diagnosis.assess import Assessment, Step
from faultdoc.model.base import Measured

__all__ = ["Memory", "StepView"]


class Memory:
    """What a person has typed or ticked on a step and not yet sent; kept while the step stays the same."""

    def __init__(self) -> None:
        self.drafts: dict[str, str] = {}
        self.acknowledged = False
        self.proof: dict[str, Measured] | None = None
        self.without = False


class StepView(QWidget):
    """The middle of the step page.

    `information` goes above the acknowledgement, `answers` below it; `answers` is shut until the
    acknowledgement is given.
    """

    def __init__(self, desk: Desk, step: Step, memory: Memory) -> None:
        super().__init__()
        assert desk.assessment is not None
        self.desk, self.step, self.memory = desk, step, memory
        self.assessment: Assessment = desk.assessment
        self.information = QVBoxLayout()
        self.information.setSpacing(10)
        self.answers = QWidget()
        self.answer_body = QVBoxLayout(self.answers)
        self.answer_body.setContentsMargins(0, 0, 0, 0)
        self.answer_body.setSpacing(10)
        self.choices: list[Callable[[], object]] = []
        self.readings: Readings | None = None

    def focus_first(self) -> None:
        """Put the focus on the first thing to be answered."""
        if self.readings is not None:
            self.readings.focus_first()
            return
        child = self.answers.nextInFocusChain()
        while child is not None and child is not self.answers:
            if self.answers.isAncestorOf(child) and child.focusPolicy() and child.isEnabled():
                child.setFocus()
                return
            child = child.nextInFocusChain()

    def number(self, key: int) -> bool:
        """Do what the number key stands for; return whether it stands for anything."""
        if self.answers.isEnabled() and 1 <= key <= len(self.choices):
            self.choices[key - 1]()
            return True
        return False

    def switch(self) -> None:
        """Show the other units."""
        if self.readings is not None:
            self.readings.switch(self.desk.system)

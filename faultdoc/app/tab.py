"""One tab of the window: a desk, the pages made for it, and which of them is seen."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime

from PySide6.QtWidgets import QWidget

from faultdoc.app.desk import Desk
from faultdoc.words import say

__all__ = ["Tab"]


@dataclass(eq=False)
class Tab:
    """A desk and its pages; pages other than the first are made when they are first wanted.

    Attributes:
        desk: with a case on it, or none yet.
        pages: by name.
        shown: name of the page that is seen when the tab is.
        draft: unit, symptoms and title of a case that is just being begun.
        plant_first: whether the plant is asked for before the first step, as the case comes from elsewhere.
        way: "phone" or "work" where a person chose how the case is worked on; None: as the people on it say.
    """

    desk: Desk
    pages: dict[str, QWidget] = field(default_factory=dict)
    shown: str = "start"
    draft: tuple[str, tuple[str, ...], str] | None = None
    plant_first: bool = False
    way: str | None = None

    @property
    def title(self) -> str:
        """What the case is called, or that there is none yet."""
        session = self.desk.session
        if session is None:
            return say("New case")
        return session.case.title or session.bench.problem.trees[0].title

    @property
    def unit(self) -> str:
        """The unit's title, '' while there is none."""
        session = self.desk.session
        return session.bench.sheet.title if session else ""

    @property
    def mark(self) -> str:
        """What the case waits for, in a word or two; '' where it waits for nothing but its next step."""
        if self.desk.looking:
            return "..."
        if self.desk.assessment is None:
            return ""
        from faultdoc.record.phone import waits_on_phone
        from faultdoc.record.steps import waits_for

        case = self.desk.assessment.case
        return waits_on_phone(case, datetime.now(UTC)) or waits_for(self.desk.assessment)

    @property
    def home(self) -> str:
        """The page on which the case is worked on: the call where only a caller is there, or as a person chose."""
        if self.way is None and self.desk.case is not None:
            from faultdoc.record.phone import on_phone

            return "phone" if on_phone(self.desk.case) else "work"
        return self.way or "work"

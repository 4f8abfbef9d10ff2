"""How the plant stands and who is there: asked when a case begins, and again whenever either changes."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout

from faultdoc.app.widgets.basic import Box, button, buttons, label
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.app.widgets.page import Page
from faultdoc.app.widgets.toggle import TwoWay
from faultdoc.model.safety import PlantState, Qualification
from faultdoc.record.words import PEOPLE, PLANT, PLANT_ALOUD, why_impossible
from faultdoc.words import say

__all__ = ["PlantPage"]


class PlantPage(Page):
    """Toggles for the plant, cards for the people; `done` carries (state, people)."""

    done = Signal(object, object)
    back = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.toggles: dict[str, TwoWay] = {}
        self.people: dict[Qualification, ChoiceButton] = {}

    def fill(self, state: PlantState, who: tuple[Qualification, ...], *, new: bool, aloud: bool = False) -> None:
        """Show a state and people to be changed.

        Args:
            state, who: as they are known.
            new: whether a case begins with them.
            aloud: whether they are asked of a caller: what to say stands beside each.
        """
        self.empty()
        self.toggles, self.people = {}, {}
        asked = (
            say("Ask the caller: how does the plant stand now?") if aloud else say("How does the plant stand now?")
        )
        self.body.addWidget(label(asked, "headline"))
        lead = (
            say("What the caller does not know stays as it stands here. A dark unit may still be live.")
            if aloud
            else say("Say what is so, not what should be. If you do not know, go and look, or ask the caller.")
        )
        self.body.addWidget(label(lead, "faint"))
        grid = QGridLayout()
        grid.setHorizontalSpacing(24)
        grid.setVerticalSpacing(14)
        for place, (field, words) in enumerate(PLANT.items()):
            title = f"{words.title}: '{PLANT_ALOUD[field]}'" if aloud else words.title
            made = TwoWay(title, words.values, getattr(state, field))
            made.changed.connect(self._look)
            self.toggles[field] = made
            grid.addWidget(made, place // 2, place % 2, Qt.AlignmentFlag.AlignTop)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        self.body.addLayout(grid)
        self.wrong = label("", "wrong")
        self.wrong_box = Box("wrong", self.wrong)
        self.body.addWidget(self.wrong_box)
        self.body.addSpacing(8)
        self.body.addWidget(label(say("Who is there?"), "headline"))
        self.body.addWidget(
            label(
                say("Choose every qualification held there. Local law and the site decide who may do what."),
                "faint",
            )
        )
        for id, (title, sentence) in PEOPLE.items():
            card = ChoiceButton(title, sentence, sign="check", on_click=self._look)
            card.setChecked(id in who)
            self.people[id] = card
            self.body.addWidget(card)
        self.nobody = label(say("Choose at least one."), "wrong")
        self.body.addWidget(self.nobody)
        self.go = button(say("Begin") if new else say("This is so"), self._go, "main")
        self.body.addWidget(buttons(self.go, button(say("Back"), self.back.emit, "quiet")))
        self._look()
        self.to_top()
        self.toggles["supply"].buttons[state.supply].setFocus()

    @property
    def state(self) -> PlantState:
        """The state shown."""
        return PlantState.model_validate({field: made.value for field, made in self.toggles.items()})

    @property
    def who(self) -> tuple[Qualification, ...]:
        """The people shown."""
        return tuple(id for id, card in self.people.items() if card.isChecked())

    def _look(self) -> None:
        why = why_impossible(self.state)
        self.wrong.setText(say("This cannot be. {why}", why=why) if why else "")
        self.wrong_box.setVisible(why is not None)
        self.nobody.setVisible(not self.who)
        self.go.setEnabled(why is None and bool(self.who))

    def _go(self) -> None:
        self.done.emit(self.state, self.who)

"""Why this step is next, and what could be done instead."""

from __future__ import annotations

from functools import partial

from faultdoc.app.desk import Desk
from faultdoc.app.side.panel import Panel
from faultdoc.app.widgets.basic import button, buttons, label
from faultdoc.app.widgets.choice import ChoiceButton
from faultdoc.diagnosis.explain import option_in_words, why_next
from faultdoc.record.steps import Pick, refusal
from faultdoc.record.words import minutes
from faultdoc.words import say

__all__ = ["WhyPanel"]

MOST = 8


class WhyPanel(Panel):
    """The reasons in sentences, then the alternatives with minutes and bits."""

    title = say("Why")

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.alternatives: dict[str, ChoiceButton] = {}
        self._all = False

    def draw(self) -> None:
        """Fill the panel."""
        assessment = self.desk.assessment
        assert assessment is not None
        self.alternatives = {}
        self.body.addWidget(label(say("Why this step"), "title"))
        if assessment.case.conclusion is not None or assessment.case.unproved is not None:
            done = assessment.case.conclusion is not None
            self.body.addWidget(
                label(
                    say("The case is closed.")
                    if done
                    else say("A remedy has been carried out: nothing counts before its proof.")
                )
            )
            return
        for sentence in why_next(assessment):
            self.body.addWidget(label(sentence))
        self.body.addWidget(label(say("Or choose another"), "title"))
        self.body.addWidget(
            label(
                say("Minutes include bringing the plant into the state it needs. Bits: how much it tells."),
                "faint",
            )
        )
        options = assessment.plan.options
        shown = options if self._all else options[:MOST]
        for option in shown:
            pick = Pick(option.kind, option.id)
            words = say(
                "{minutes}, {bits:.2f} bit, fix in {minutes_2}",
                minutes=minutes(option.minutes),
                bits=option.bits,
                minutes_2=minutes(option.expected_minutes),
            )
            if option.kind == "remedy":
                words = say(
                    "Remedy: {minutes}, fix in {minutes_2}",
                    minutes=minutes(option.minutes),
                    minutes_2=minutes(option.expected_minutes),
                )
            why_not = refusal(assessment, pick)
            if option.path and why_not is None:
                words += say(". First: ") + say(", then ").join(change.title.lower() for change in option.path)
            made = ChoiceButton(
                option_in_words(assessment, option),
                f"{words}. {why_not}" if why_not else words,
                on_click=partial(self.desk.choose, pick),
            )
            made.setEnabled(why_not is None)
            self.alternatives[option.id] = made
            self.body.addWidget(made)
        if len(options) > MOST:
            words = say("Show fewer") if self._all else say("Show all {len}", len=len(options))
            self.body.addWidget(buttons(button(words, self._more, "quiet")))

    def _more(self) -> None:
        self._all = not self._all
        self.refresh()

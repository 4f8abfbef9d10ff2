"""The likely causes as bars, what is left out, what does not fit, and how long a proved fix will take."""

from __future__ import annotations

from faultdoc.app.desk import Desk
from faultdoc.app.side.panel import Panel
from faultdoc.app.widgets.bar import CauseBar
from faultdoc.app.widgets.basic import Box, button, buttons, label
from faultdoc.diagnosis.explain import for_and_against, likely_causes, misfit_sentences, not_ruled_out
from faultdoc.record.steps import Pick, refusal
from faultdoc.record.words import chance, minutes
from faultdoc.words import say

__all__ = ["CausesPanel"]

MOST = 7


class CausesPanel(Panel):
    """Bars; one at a time shows its reasons."""

    title = say("Causes")

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.bars: list[CauseBar] = []
        self.opened: str | None = None
        self._all = False

    def open_reasons(self, cause: str | None) -> None:
        """Show the reasons of one cause."""
        self.opened = cause
        possible = self.desk.assessment and [one.id for one in not_ruled_out(self.desk.assessment)[:MOST]]
        if cause is not None and cause not in (possible or ()):
            self._all = True
        self.refresh()
        for bar in self.bars:
            if bar.cause.id == cause:
                bar.setFocus()
                self.show_part(bar)

    def draw(self) -> None:
        """Fill the panel."""
        assessment = self.desk.assessment
        assert assessment is not None
        for sentence in misfit_sentences(assessment, self.desk.system):
            self.body.addWidget(Box("wrong", label(say("Does not fit"), "title"), label(sentence)))
        case = assessment.case
        if case.tried and case.tried[-1].proved:
            self.body.addWidget(label(say("The fix is proved"), "title"))
        elif case.conclusion is None:
            time = minutes(assessment.plan.expected_minutes)
            self.body.addWidget(label(say("About {time} until proved and ready to start", time=time), "title"))
        possible = not_ruled_out(assessment)
        every = likely_causes(assessment)
        shown = every if self._all else possible[:MOST]
        self.bars = []
        for cause in shown:
            bar = CauseBar(cause)
            bar.setChecked(cause.id == self.opened)
            bar.clicked.connect(lambda _=False, id=cause.id: self._toggle(id))
            self.bars.append(bar)
            self.body.addWidget(bar)
            if cause.id == self.opened:
                self.body.addWidget(self._reasons(cause.id))
        others = len(every) - len(shown)
        if others or self._all:
            words = say("Show the other {others}", others=others) if others else say("Show the likely ones only")
            self.body.addWidget(buttons(button(words, self._more, "quiet")))
        size = assessment.belief.sets.size
        left_out = assessment.belief.left_out
        if left_out > 0.0:
            self.body.addWidget(
                label(
                    say(
                        "Left out: more than {size} causes at once, {chance} at most.",
                        size=size,
                        chance=chance(left_out),
                    ),
                    "faint",
                )
            )

    def _more(self) -> None:
        self._all = not self._all
        self.refresh()

    def _toggle(self, id: str) -> None:
        self.open_reasons(None if id == self.opened else id)
        if self.opened is None:
            for bar in self.bars:
                if bar.cause.id == id:
                    bar.setFocus()

    def _reasons(self, id: str) -> Box:
        assessment = self.desk.assessment
        assert assessment is not None
        cause = assessment.bench.problem.causes[id]
        box = Box("card", label(cause.mechanism, "faint"))
        start, *reasons = for_and_against(assessment, id, self.desk.system)
        box.body.addWidget(label(f"{start.text}: {start.strength} ({start.decibans:+.0f})"))
        parts = (
            (say("Spoke for it"), [one for one in reasons if one.decibans >= 0.05]),
            (say("Spoke against it"), [one for one in reasons if one.decibans <= -0.05]),
        )
        for title, ones in parts:
            box.body.addWidget(label(title, "title"))
            for one in ones:
                box.body.addWidget(label(f"{one.strength} ({one.decibans:+.1f}): {one.text}"))
            if not ones:
                box.body.addWidget(label(say("Nothing yet."), "faint"))
        box.body.addWidget(label(say("Numbers are decibans: 10 is ten to one, 20 a hundred to one."), "faint"))
        pick = Pick("remedy", id)
        why_not = refusal(assessment, pick)
        if why_not is None:
            try_it = button(
                say("Try its remedy now"),
                lambda: self.desk.choose(pick),
                name=say("Try now: {title}", title=cause.remedy.title),
            )
            box.body.addWidget(buttons(try_it))
        elif assessment.case.conclusion is None:
            box.body.addWidget(
                label(say("Remedy: {title}. {why_not}", title=cause.remedy.title, why_not=why_not), "faint")
            )
        return box

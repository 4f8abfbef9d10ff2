"""One check: its sentence, and one click away its arithmetic, formula, source and uncertainty."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame, QVBoxLayout

from faultdoc.app.widgets.basic import Box, button, buttons, clear, facts, label
from faultdoc.checks.base import COVERAGE, CheckResult, Verdict
from faultdoc.quantities import System, difference_kind, show
from faultdoc.words import say

__all__ = ["Arithmetic"]

SIGNS = {Verdict.AS_EXPECTED: say("= as expected"), Verdict.LOW: say("▼ low"), Verdict.HIGH: say("▲ high")}


class Arithmetic(QFrame):
    """A check made."""

    def __init__(self, result: CheckResult, system: System) -> None:
        super().__init__()
        self.result, self._system = result, system
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        role = "good" if result.verdict is Verdict.AS_EXPECTED else "wrong"
        box = Box(
            "card",
            label(result.title, "title"),
            label(SIGNS[result.verdict], role),
            label(result.sentence(system)),
        )
        self.toggle = button(
            say("Show the arithmetic"), self._toggle, name=say("Show the arithmetic: {title}", title=result.title)
        )
        box.body.addWidget(buttons(self.toggle))
        self._place = QVBoxLayout()
        box.body.addLayout(self._place)
        down.addWidget(box)
        self.opened = False

    def open(self) -> None:
        """Show the arithmetic."""
        if not self.opened:
            self._toggle()

    def _toggle(self) -> None:
        self.opened = not self.opened
        self.toggle.setText(say("Hide the arithmetic") if self.opened else say("Show the arithmetic"))
        clear(self._place)
        if not self.opened:
            return
        result, system = self.result, self._system
        off = difference_kind(result.kind)
        lines = [(line.title, show(line.value, line.kind, system)) for line in result.working]
        lines += [
            (
                say("Expected"),
                show(result.expected, result.kind, system, limit=COVERAGE * result.expected_uncertainty),
            ),
            (say("Measured"), show(result.measured, result.kind, system)),
            (say("Deviation"), show(result.measured - result.expected, off, system)),
            (
                say("Standard uncertainty of it"),
                say(
                    "{show}: it is {abs:.1f} of them off, and beyond {COVERAGE:.0f} is called",
                    show=show(result.uncertainty, off, system),
                    abs=abs(result.deviation),
                    COVERAGE=COVERAGE,
                ),
            ),
        ]
        self._place.addWidget(label(say("Formula: {formula}", formula=result.formula)))
        self._place.addWidget(facts(*lines, left=190))
        self._place.addWidget(label(say("What went in"), "title"))
        entries = []
        for entry in result.inputs:
            value = show(entry.value, entry.kind, system)
            u = show(entry.standard_uncertainty, difference_kind(entry.kind), system)
            share = result.effects.get(entry.name)
            effect = say("; moves the result by {show}", show=show(abs(share), off, system)) if share else ""
            entries.append(
                (
                    entry.title,
                    say(
                        "{value}, standard uncertainty {u}; {origin}{effect}",
                        value=value,
                        u=u,
                        origin=entry.origin,
                        effect=effect,
                    ),
                )
            )
        self._place.addWidget(facts(*entries, left=190))
        for remark in result.remarks:
            self._place.addWidget(label(say("Note: {remark}", remark=remark)))
        self._place.addWidget(label(say("Source: {source}", source=result.source), "faint"))

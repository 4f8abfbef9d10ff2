"""Handing over: to someone with the qualification, or because nothing known here is left to try."""

from __future__ import annotations

from PySide6.QtCore import Signal

from faultdoc.app.desk import Desk
from faultdoc.app.views.base import Memory, StepView
from faultdoc.app.widgets.basic import button, buttons, facts, label
from faultdoc.diagnosis.assess import Step
from faultdoc.diagnosis.explain import not_ruled_out
from faultdoc.record.steps import Pick
from faultdoc.record.words import PEOPLE, chance, minutes

__all__ = ["HandOverView"]


class HandOverView(StepView):
    """What the next person will need, and the ways on."""

    people_wanted = Signal()
    close_wanted = Signal(str)
    kit_wanted = Signal()
    send_wanted = Signal()
    other_wanted = Signal()

    def __init__(self, desk: Desk, step: Step, memory: Memory) -> None:
        super().__init__(desk, step, memory)
        causes = self.assessment.bench.problem.causes
        if step.id in causes:
            remedy = causes[step.id].remedy
            self.information.addWidget(
                facts(
                    ("For", PEOPLE[remedy.who][0]),
                    ("Cause", causes[step.id].title),
                    ("Remedy", remedy.title),
                    ("Parts", ", ".join(remedy.parts) or "None"),
                    ("Tools", ", ".join(remedy.tools) or "None"),
                    ("Usual wait", f"about {minutes(step.minutes)} until someone is on site"),
                )
            )
        else:
            left = not_ruled_out(self.assessment)[:4]
            words = "; ".join(f"{one.title} ({chance(one.probability)})" for one in left)
            self.information.addWidget(facts(("Still possible", words or "Nothing that is known here")))
        if step.stops:
            until = "Nothing more is asked or tried until someone qualified has made it safe and says so."
        else:
            until = "Until then make the unit safe: nobody starts it, and it cannot start by itself."
        self.information.addWidget(label(until))
        self.here = button("Someone qualified is here now", self.people_wanted.emit)
        self.hand = button("Hand over and close", lambda: self.close_wanted.emit("handed_over"), "main")
        if step.stops:
            again = Pick("correct", str(step.toward_id))
            self.other = button("It has been made safe: answer anew", lambda: desk.choose(again))
        else:
            self.other = button("Do something else first", self.other_wanted.emit)
        self.kit = button("What to send", self.kit_wanted.emit)
        self.send = button("File or QR code", self.send_wanted.emit, name="Hand over as a file or QR code")
        self.answer_body.addWidget(buttons(self.hand, self.here))
        self.answer_body.addWidget(buttons(self.send, self.kit, self.other))

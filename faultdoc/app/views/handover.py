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
from faultdoc.words import say

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
                    (say("For"), PEOPLE[remedy.who][0]),
                    (say("Cause"), causes[step.id].title),
                    (say("Remedy"), remedy.title),
                    (say("Parts"), ", ".join(remedy.parts) or say("None")),
                    (say("Tools"), ", ".join(remedy.tools) or say("None")),
                    (
                        say("Usual wait"),
                        say("about {minutes} until someone is on site", minutes=minutes(step.minutes)),
                    ),
                )
            )
        else:
            left = not_ruled_out(self.assessment)[:4]
            words = "; ".join(f"{one.title} ({chance(one.probability)})" for one in left)
            self.information.addWidget(facts((say("Still possible"), words or say("Nothing that is known here"))))
        if step.stops:
            until = say("Nothing more is asked or tried until someone qualified has made it safe and says so.")
        else:
            until = say("Until then make the unit safe: nobody starts it, and it cannot start by itself.")
        self.information.addWidget(label(until))
        self.here = button(say("Someone qualified is here now"), self.people_wanted.emit)
        self.hand = button(say("Hand over and close"), lambda: self.close_wanted.emit("handed_over"), "main")
        if step.stops:
            again = Pick("correct", str(step.toward_id))
            self.other = button(say("It has been made safe: answer anew"), lambda: desk.choose(again))
        else:
            self.other = button(say("Do something else first"), self.other_wanted.emit)
        self.kit = button(say("What to send"), self.kit_wanted.emit)
        self.send = button(
            say("File or QR code"), self.send_wanted.emit, name=say("Hand over as a file or QR code")
        )
        self.answer_body.addWidget(buttons(self.hand, self.here))
        self.answer_body.addWidget(buttons(self.send, self.kit, self.other))

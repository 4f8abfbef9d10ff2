"""The wizard as text: one step at a time, cautions first, every move in the case book.

Talks through two functions, `ask` and `tell`, so that a test can play the person.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import NoReturn

from faultdoc.checks.all import make, make_all
from faultdoc.checks.base import CheckResult, Missing
from faultdoc.checks.startup import warm_up
from faultdoc.diagnosis.assess import Assessment, Bench, Step, ask_words, bench_for, choice_point, outcomes_of
from faultdoc.diagnosis.explain import likely_causes
from faultdoc.library.load import Library, load_unit, load_units, save_case
from faultdoc.library.problems import FileProblems, choose
from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Conclusion
from faultdoc.model.points import Point
from faultdoc.model.safety import TRIPPED, PlantState, Qualification
from faultdoc.model.tree import Question
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, display_unit, show
from faultdoc.record import moves
from faultdoc.record.casebook import CaseBook, CaseBookError
from faultdoc.record.phone import ended_by
from faultdoc.record.printing import full_report
from faultdoc.record.report import summary
from faultdoc.record.session import Session, replay
from faultdoc.record.settings import Settings
from faultdoc.record.steps import Pick, change_of, needs_acknowledgement, refusal, shown_step
from faultdoc.record.typed import fresh_doubts, numbers_with, understand
from faultdoc.record.words import NON_ANSWER_WORDS, OUTCOMES, PEOPLE, PLANT, why_impossible
from faultdoc.terminal import text as page
from faultdoc.terminal.compute import render
from faultdoc.terminal.output import OutputError, write_report
from faultdoc.terminal.phone import PHONE_HELP, aloud, call_text, danger_text, said_text
from faultdoc.terminal.talk import UNDERSTOOD, Ask, Changed, Command, Left, Talk, Tell

__all__ = ["Ask", "Tell", "Wish", "run"]


@dataclass(frozen=True)
class Wish:
    """What was asked for on the command line; what is None or empty is asked in the wizard.

    Attributes:
        case: to go on from.
        unit: id or path of a data sheet.
        symptoms: ids of trees.
        who: on the job.
        save: file the case is written to whenever the wizard ends.
        by_phone: whether a caller is led through it: what to read aloud stands beside each step.
        travel: minutes to the site, for this call alone; None as in the settings.
    """

    case: Case | None = None
    unit: str | None = None
    symptoms: tuple[str, ...] = ()
    who: tuple[Qualification, ...] = ()
    save: Path | None = None
    by_phone: bool = False
    travel: float | None = None


def run(ask: Ask, tell: Tell, library: Library, book: CaseBook, settings: Settings, wish: Wish) -> Case | None:
    """Lead a person through a case, from choosing the unit to the report.

    Args:
        ask, tell: the person.
        library: points, plant and trees.
        book: where every move is kept.
        settings: units, emergency numbers and last unit; saved when they change.
        wish: what was asked for on the command line.

    Returns:
        The case as it was left, None when none was begun.

    Raises:
        FileProblems: when the unit wished for cannot be read.
        KeyError, ValueError: when a symptom wished for has no tree, or none for that unit.
        CaseBookError: when the case book cannot be read, or the case not begun.
    """
    talk = Talk(ask, tell, library, settings)
    try:
        wizard = _begin(talk, book, wish)
    except Left:
        tell("Nothing was begun, and nothing is kept.")
        return None
    talk.more = wizard.commands
    if wish.by_phone:
        wizard.by_phone, wizard.travel = True, wish.travel
        talk.help = f"{talk.help}\n{PHONE_HELP}"
    try:
        wizard.work()
    except Left:
        tell(f"The case is kept as number {wizard.case_id}; 'faultdoc ask' offers it again.")
    if wish.save is not None:
        wizard.save(str(wish.save))
    return wizard.session.case


# --- beginning a case ---


def _begin(talk: Talk, book: CaseBook, wish: Wish) -> _Wizard:
    if wish.case is not None:
        sheet = load_unit(wish.case.unit)
        return _start(talk, book, bench_for(talk.library, sheet, wish.case.symptoms), wish.case)
    talk.tell("FaultDoc. Type a number to answer; 'help' lists what else you can type.")
    talk.tell("Life comes first: 'stops' lists what to stop for at once.")
    if not (wish.unit or wish.symptoms) and (resumed := _resume(talk, book)):
        return resumed
    unit, sheet = (wish.unit, load_unit(wish.unit)) if wish.unit else _choose_unit(talk)
    symptoms = wish.symptoms or _choose_symptoms(talk, sheet)
    bench = bench_for(talk.library, sheet, symptoms)  # refused before more is asked
    who = wish.who or talk.choose_some("Who is on the job?", [(one, ". ".join(PEOPLE[one])) for one in PEOPLE])
    case = Case(unit=unit, symptoms=symptoms, state=_find_state(talk, sheet), who=who)
    talk.keep(last_unit=unit)
    return _start(talk, book, bench, case)


def _start(talk: Talk, book: CaseBook, bench: Bench, case: Case) -> _Wizard:
    case_id = book.start(case)
    return _Wizard(talk, book, case_id, Session(bench, case, book.journal(case_id), talk.settings.station))


def _resume(talk: Talk, book: CaseBook) -> _Wizard | None:
    while waiting := book.unfinished():
        options: list[tuple[int, str]] = [(0, "A new case")]
        options += [
            (
                one.id,
                f"Case {one.id}, {one.title}; last on {one.updated:%Y-%m-%d %H:%M} UTC: {one.last or 'begun'}",
            )
            for one in waiting[:8]
        ]
        picked = talk.choose("Cases are waiting to be finished. Go on with which?", options)
        if not picked:
            return None
        start, entries = book.load(picked)
        try:
            bench = bench_for(talk.library, load_unit(start.unit), start.symptoms)
            session = replay(bench, start, entries, book.journal(picked), talk.settings.station)
            _ = session.assessment
        except (ValueError, KeyError) as problem:
            talk.tell(
                page.paragraph(f"Case {picked} does not fit the trees and data sheets there are now: {problem}")
            )
            continue
        return _Wizard(talk, book, picked, session)
    return None


def _choose_unit(talk: Talk) -> tuple[str, DataSheet]:
    sheets, left_out = load_units()
    for fault in left_out:
        talk.tell(page.paragraph(f"Left out: {fault}"))
    other = "Another: the path of its data sheet"
    last = talk.settings.last_unit if talk.settings.last_unit in sheets else None
    options = [*((id, sheet.title) for id, sheet in sheets.items()), ("", other)]
    while True:
        id = talk.choose("Which unit?", options, default=last)
        if id:
            return id, sheets[id]
        path = talk.line("Path of the data sheet: ", words=True)
        try:
            return str(Path(path).resolve()), load_unit(Path(path))
        except FileProblems as problem:
            talk.tell(str(problem))


def _choose_symptoms(talk: Talk, sheet: DataSheet) -> tuple[str, ...]:
    trees = [tree for tree in talk.library.trees.values() if set(tree.applies_to) <= set(sheet.features)]
    return talk.choose_some("What is seen?", [(tree.id, f"{tree.title}. {tree.symptom}") for tree in trees])


USUAL = TRIPPED.model_dump(mode="json", exclude={"oil"})
"""Where the question of the plant's state starts; the oil is asked apart."""


def _find_state(talk: Talk, sheet: DataSheet) -> PlantState:
    usual = PlantState.model_validate({**USUAL, "oil": "cold"})
    talk.tell("How does the plant stand now? A unit that has tripped is often found like this:")
    talk.tell(page.state_text(usual, USUAL))
    if not talk.choose("Is it so now?", [(True, "Yes, I have looked"), (False, "No, or not all of it")]):
        return _choose_state(talk, usual)
    whole = show(warm_up(sheet), Kind.TIME, talk.system)
    warm = talk.choose(
        f"Has the unit been energised without a break for the last {whole} (its oil warm-up)?",
        [(True, "Yes"), (False, "No, or not known")],
    )
    return PlantState.model_validate({**USUAL, "oil": "warm" if warm else "cold"})


def _choose_state(talk: Talk, before: PlantState) -> PlantState:
    """Return the plant's state, every part of it asked for."""
    while True:
        values = {
            name: talk.choose(
                f"{words.title}:", list(words.values.items()), default=str(getattr(before, name).value)
            )
            for name, words in PLANT.items()
        }
        state = PlantState.model_validate(values)
        if (problem := why_impossible(state)) is None:
            return state
        talk.tell(page.paragraph(problem))


# --- a case ---


@dataclass
class _Wizard:
    """A case being worked on."""

    talk: Talk
    book: CaseBook
    case_id: int
    session: Session
    understood: tuple[str, str] | None = None
    asking: str | None = None
    """The question that `cannot`, `unsure` and `skip` are about."""
    pick: Pick | None = None
    """A question taken instead of the step proposed, until it is answered."""
    by_phone: bool = False
    travel: float | None = None

    @property
    def bench(self) -> Bench:
        return self.session.bench

    @property
    def case(self) -> Case:
        return self.session.case

    @property
    def assessment(self) -> Assessment:
        return self.session.assessment

    def commands(self) -> Mapping[str, Command]:
        calling: dict[str, Command] = {"said": self._said, "danger": self._danger} if self.by_phone else {}
        return {
            **calling,
            "why": lambda _: self.tell(page.why_text(self.assessment)),
            "causes": self._causes,
            "readings": lambda _: self._readings(),
            "check": self._check,
            "undo": lambda _: self._back_and_forth(self.session.undo(), "Taken back", "to take back"),
            "redo": lambda _: self._back_and_forth(self.session.redo(), "Done again", "to do again"),
            "change": self._change,
            "cannot": lambda _: self._no_answer("could_not_measure"),
            "unsure": lambda _: self._no_answer("not_sure"),
            "skip": lambda _: self._skip(),
            "state": lambda _: self._state(),
            "people": lambda _: self._people(),
            "note": self._note,
            "save": self.save,
            "report": self._report,
            "close": lambda _: self._close(),
        }

    def tell(self, text: str) -> None:
        if text:
            self.talk.tell(text)

    def do(self, what: str, case: Case) -> None:
        self.session.do(what, case)
        self.understood = None

    def work(self) -> None:
        """Take step after step until the case is closed and reported."""
        while True:
            try:
                if self._step():
                    return
            except Changed:
                continue
            except CaseBookError as problem:
                self.tell(page.paragraph(str(problem)))

    def _step(self) -> bool:
        """Take one step; return whether the case is over."""
        assessment, step = self.assessment, shown_step(self.assessment, self.pick)
        self.asking = self._asked_or_prepared(step)
        self.tell("-" * page.WIDTH)
        if self.case.conclusion is not None:
            return self._finish()
        self.tell(page.step_text(assessment, aloud(assessment, step) if self.by_phone else step))
        if self.by_phone:
            settings = self.talk.settings
            if self.travel is not None:
                settings = settings.model_copy(update={"travel_minutes": self.travel})
            self.tell(call_text(assessment, step, settings))
        self._acknowledge(step)
        if step.kind == "question":
            self._question(self.bench.problem.questions[step.id])
        elif step.kind == "state_change":
            change = change_of(assessment, step.id)
            self._done("When the plant is so")
            self.do(f"{change.title}: done", moves.change_state(self.case, change))
        elif step.kind == "remedy":
            self._done("When the remedy is carried out")
            remedy = self.bench.problem.causes[step.id].remedy
            self.do(f"{remedy.title}: done", moves.repaired(moves.went(self.case, remedy), step.id))
        elif step.kind == "proof":
            self._proof(step.id)
        elif step.kind == "hand_over":
            self._hand_over(step)
        else:
            self._fixed()
        return False

    def _acknowledge(self, step: Step) -> None:
        key = (step.kind, step.id)
        if self.understood == key or not needs_acknowledgement(self.assessment, step):
            return
        while self.talk.line(f"Type '{UNDERSTOOD}' when the cautions are read and will be kept: ") != UNDERSTOOD:
            self.tell(f"This step can hurt people. It goes on only after '{UNDERSTOOD}'.")
        self.understood = key

    def _done(self, when: str) -> None:
        while self.talk.line(f"{when}, type 'done': ").lower() != "done":
            self.tell("Type 'done' when it is, or 'help' for what else there is.")

    def _asked_or_prepared(self, step: Step) -> str | None:
        """Return the question that a step asks, or that its change of state is for, if any."""
        if step.kind == "question":
            return step.id
        if step.kind != "state_change" or self.case.unproved is not None:
            return None
        if self.pick is not None and self.pick.id == step.toward_id:
            return step.toward_id
        best = self.assessment.plan.best
        waits = best is not None and best.kind == "question" and best.id == step.toward_id
        return step.toward_id if waits else None

    # questions

    def _question(self, question: Question) -> None:
        self.asking = question.id
        if question.check is not None:
            self._measure(question)
            return
        options = [(outcome.id, outcome.title) for outcome in question.outcomes]
        outcome = self.talk.choose("Answer:", options, hint="or unsure, cannot, skip")
        title = dict(options)[outcome]
        point = choice_point(question, self.bench)
        case = moves.went(moves.bring_back(self.case, question.id), question)
        case = moves.answered(case, question.id, outcome, point)
        self.do(f"{ask_words(self.case, question)} {title}", case)

    def _measure(self, question: Question) -> None:
        assert question.check is not None
        self.tell("  (Enter leaves a reading out, or as it is; or unsure, cannot, skip.)")
        for id in question.points:
            self._read(id, question)
        if question.id in self.case.set_aside or question.id in self.case.answers:
            case = moves.clear_answer(moves.bring_back(self.case, question.id), question.id)
            self.do(f"{ask_words(self.case, question)} Taken up again", case)
        made = make(question.check, self.bench.sheet, numbers_with(self.case, {}), self.bench.library.points)
        if isinstance(made, CheckResult):
            self.tell(page.checks_text([made], self.talk.system))
            self.tell(f"  (The arithmetic: check {made.id})")
        else:
            self._cannot_reckon(made)

    def _cannot_reckon(self, missing: Missing) -> None:
        self.tell(page.paragraph(f"{missing.title} cannot be reckoned from this."))
        if missing.readings:
            self.tell(page.paragraph("; ".join(missing.readings) + ".", "  Still wanted: "))
        if missing.reason:
            self.tell(page.paragraph(f"{missing.reason}.", "  Reason: "))
        self.tell("  If that cannot be had, type 'cannot' at the next prompt.")

    def _read(self, id: str, question: Question | None = None) -> bool:
        """Ask for the reading of a point and keep it; return whether one was given.

        Asked by a question, it takes the people to that question's place.
        """
        point = self.bench.library.points[id]
        reading = self._ask_reading(id, point, told=question is not None)
        if reading is None:
            return False
        # Not `do`: between two readings of one question its cautions stay understood.
        case = self.case if question is None else moves.went(self.case, question)
        self.session.do(f"{point.title}: {self._shown(point, reading)}", moves.read(case, id, reading))
        return True

    def _ask_reading(self, id: str, point: Point, *, told: bool = False) -> Measured | str | None:
        """Return what was read at a point, understood and not doubted; None when nothing was typed.

        Args:
            id, point: where.
            told: whether a question has said already where and how.
        """
        if point.kind is Kind.CHOICE:
            options: list[tuple[str, str]] = [(choice.id, choice.title) for choice in point.choices]
            return self.talk.choose(f"{point.title}:", [*options, ("", "(leave it out)")]) or None
        if not told:
            self.tell(page.paragraph(f"{point.where}. {point.how}", f"  {point.title}: ", "    "))
            if point.wrong_readings:
                self.tell(page.paragraph(point.wrong_readings, "    Mind: "))

        def prompt() -> str:
            was = f" (is {self._shown(point, self.case.readings[id])})" if id in self.case.readings else ""
            return f"{point.title}{was} [{display_unit(point.kind, self.talk.system)}]: "

        while True:
            typed = self.talk.line(prompt)
            found = understand(typed, point, self.talk.system)
            if found.problem:
                self.tell(page.paragraph(found.problem + "."))
            elif found.measured is None:
                return None
            else:
                self.tell(f"  {found.echo}")
                if self._believed(id, found.measured):
                    return found.measured

    def _believed(self, id: str, reading: Measured) -> bool:
        """Tell what speaks against a reading; return whether it is kept."""
        sheet, points, system = self.bench.sheet, self.bench.library.points, self.talk.system
        fresh = fresh_doubts(sheet, points, self.case, {id: reading}, system)
        for doubt in fresh:
            self.tell(page.paragraph(doubt.text, "  ? "))
        if any(doubt.impossible and doubt.point == id for doubt in fresh):
            self.tell("  That cannot be: it is not kept. Read it again.")
            return False
        if not fresh:
            return True
        return self.talk.choose("Keep it?", [(False, "No, read it again"), (True, "Yes, it was read twice")])

    def _shown(self, point: Point, reading: Measured | str) -> str:
        if isinstance(reading, str):
            return next(choice.title for choice in point.choices if choice.id == reading)
        u = reading.standard_uncertainty
        limit = None if u is None else u * 3.0**0.5
        return show(reading.value, reading.kind, self.talk.system, limit=limit)

    def _no_answer(self, answer: str) -> None:
        if self.asking is None:
            self.tell("There is no question here to answer so.")
            return
        question = self.bench.problem.questions[self.asking]
        case = moves.bring_back(self.case, question.id)
        what = f"{ask_words(self.case, question)} {NON_ANSWER_WORDS[answer]}"
        self.do(what, moves.answered(case, question.id, answer, choice_point(question, self.bench)))
        raise Changed

    def _skip(self) -> None:
        if self.asking is None:
            self.tell(
                "Only a question can be left for later. 'people' says who else is here; 'close' ends the case."
            )
            return
        question = self.bench.problem.questions[self.asking]
        self.do(
            f"{ask_words(self.case, question)} Left for later",
            moves.set_aside(self.case, question.id),
        )
        self.tell(f"Left for later; 'change {question.id}' takes it up again.")
        raise Changed

    # on the phone

    def _said(self, words: str) -> None:
        if not words:
            self.tell("Type a word or two of it behind 'said'.")
            return
        self.tell(said_text(self.assessment, words))

    def _danger(self, number: str) -> None:
        stops = self.bench.library.plant.stops
        if not (number.isdecimal() and 1 <= int(number) <= len(stops)):
            self.tell(f"Which? 'danger' and a number from 1 to {len(stops)}, in the order of 'stops'.")
            return
        stop = stops[int(number) - 1]
        self.tell(danger_text(stop.text, self.talk.settings))
        self.do("Call ended for safety", ended_by(self.case, stop))
        raise Left

    # proof and end

    def _proof(self, cause: str) -> None:
        points = self.bench.library.points
        numbers: dict[str, Measured] = {}
        said = []
        for id in self.bench.problem.causes[cause].remedy.proof.points:
            reading = self._ask_reading(id, points[id])
            if reading is None:
                continue
            if isinstance(reading, Measured):
                numbers[id] = reading
            said.append(f"{points[id].title}: {self._shown(points[id], reading)}")
        # A reading of the unit as mended says nothing of the fault, so it is no reading of the case.
        # Nor do readings from before it say anything of the unit as mended.
        about = make_all(self.bench.sheet, numbers, points)
        self.tell(page.checks_text(about, self.talk.system))
        held = self.talk.choose("Does the proof hold?", [(True, "Yes"), (False, "No")])
        remark = "; ".join(said) or None
        what = f"Proof of {self.bench.problem.causes[cause].remedy.title}: {'held' if held else 'did not hold'}"
        self.do(what, moves.proved(self.case, held, remark))

    def _fixed(self) -> None:
        last = self.case.tried[-1]
        if not self.talk.choose("Close the case as fixed?", [(True, "Yes"), (False, "No, it is not over")]):
            self._close()
            return
        note = self.talk.line("A last word for the report (Enter for none): ", words=True) or None
        conclusion = Conclusion(outcome="fixed", cause=last.cause, proof=last.note, note=note)
        self.do("Case closed: fixed", moves.conclude(self.case, conclusion))

    def _hand_over(self, step: Step) -> None:
        if step.stops:
            again = (
                "Nothing more is asked. Only when someone qualified has made it safe and says so, go on: "
                f"'change {step.toward_id}' answers anew."
            )
            self.tell(page.paragraph(again))
        else:
            self._still_to_ask()
        choice = self.talk.choose(
            "What now?",
            [("close", "End the case here, with its record"), ("people", "Someone qualified is here now")],
        )
        if choice == "people":
            self._people()
        self._close()

    def _still_to_ask(self) -> None:
        questions = [option.id for option in self.assessment.plan.options if option.kind == "question"]
        if still := [id for id in questions if refusal(self.assessment, Pick("question", id)) is None]:
            self.tell("What could still be asked, if you want to go on all the same:")
            for id in still[:3]:
                words = ask_words(self.case, self.bench.problem.questions[id])
                self.tell(page.paragraph(f"{words} [change {id}]", "  - "))

    def _close(self) -> None:
        outcomes = [one for one in OUTCOMES if one != "fixed"]
        outcome = self.talk.choose("How does the case end?", [(one, ": ".join(OUTCOMES[one])) for one in outcomes])
        note = self.talk.line("A last word for the report (Enter for none): ", words=True) or None
        conclusion = Conclusion(outcome=outcome, note=note)
        self.do(f"Case closed: {OUTCOMES[outcome][0].lower()}", moves.conclude(self.case, conclusion))
        raise Changed

    def _finish(self) -> bool:
        self.tell(page.paragraph(summary(self.assessment)))
        while name := self.talk.line("File for the report, .html or .pdf (Enter for none): ", words=True):
            if self._written(name):
                break
        self.book.close(self.case_id)
        self.tell(f"Case {self.case_id} is closed. Its journal stays in the case book.")
        return True

    # commands

    def _back_and_forth(self, what: str | None, done: str, missing: str) -> None:
        if what is None:
            self.tell(f"There is nothing {missing}.")
            return
        self.tell(page.paragraph(f"{done}: {what}"))
        self.understood = None
        raise Changed

    def _causes(self, _: str) -> None:
        self.tell(page.causes_text(self.assessment, 8))
        first = likely_causes(self.assessment)[0]
        self.tell(page.paragraph(f"For and against: {first.title} (decibans)"))
        self.tell(page.reasons_text(self.assessment, first.id, self.talk.system))

    def _readings(self) -> None:
        points, problem = self.bench.library.points, self.bench.problem
        lines = [
            page.paragraph(f"{points[id].title}: {self._shown(points[id], reading)} [{id}]", "  ", "    ")
            for id, reading in self.case.readings.items()
        ]
        outcomes = outcomes_of(self.bench, self.case)
        for id, question in problem.questions.items():
            if id in outcomes:
                said = next(one.title for one in question.outcomes if one.id == outcomes[id])
            elif id in self.case.answers:
                said = NON_ANSWER_WORDS[self.case.answers[id]]
            elif id in self.case.set_aside:
                said = "Left for later"
            else:
                continue
            lines.append(page.paragraph(f"{ask_words(self.case, question)} {said} [{id}]", "  ", "    "))
        self.tell("\n".join(lines) or "Nothing was read or answered yet.")

    def _check(self, id: str) -> None:
        made = {result.id: result for result in self.assessment.checks}
        if id in made:
            self.tell(page.wrapped(render(made[id], self.talk.system)))
        elif made:
            self.tell(page.paragraph(", ".join(made), "Checks made: "))
        else:
            self.tell("No check can be made from these readings yet.")

    def _change(self, id: str) -> None:
        questions, points = self.bench.problem.questions, self.bench.library.points
        if id in questions:
            question = questions[id]
            made = {result.id for result in self.assessment.checks}
            known = id in self.case.answers or id in outcomes_of(self.bench, self.case) or question.check in made
            if not known:
                self._pick(question)
            self.tell(page.paragraph(ask_words(self.case, question)))
            self._question(question)
        elif id in points:
            self._read(id)
        else:
            remedy = choose(id, [*self.case.readings, *questions], otherwise="'readings' lists what there is")
            self.tell(f"There is no point or question '{id}'; {remedy}")
            return
        raise Changed

    def _pick(self, question: Question) -> NoReturn:
        """Take a question instead of the step proposed; state and cautions come first all the same."""
        pick = Pick("question", question.id)
        if why := refusal(self.assessment, pick):
            self.tell(page.paragraph(why))
            raise Changed
        if question.id in self.case.set_aside:
            case = moves.bring_back(self.case, question.id)
            self.do(f"{ask_words(self.case, question)} Taken up again", case)
        self.pick = pick
        raise Changed

    def _state(self) -> None:
        self.tell(page.state_text(self.case.state))
        if self.talk.choose("Is it so?", [(True, "Yes"), (False, "No")]):
            return
        state = _choose_state(self.talk, self.case.state)
        if state != self.case.state:
            self.do("The plant's state put right", moves.set_state(self.case, state))
        raise Changed

    def _people(self) -> None:
        who = self.talk.choose_some("Who is on the job now?", [(one, ". ".join(PEOPLE[one])) for one in PEOPLE])
        self.do(f"On the job: {', '.join(PEOPLE[one][0] for one in who)}", moves.people(self.case, who))
        raise Changed

    def _note(self, text: str) -> None:
        text = text or self.talk.line("Note: ", words=True)
        if text:
            self.do("Note", moves.note(self.case, text[:4000]))
            self.tell("Noted.")

    def save(self, name: str) -> None:
        """Write the case to a file, and say so or why not."""
        if not name:
            self.tell("Type the file's name behind it, such as: save case.yaml")
            return
        try:
            save_case(self.case, Path(name))
        except OSError as problem:
            self.tell(f"{name} cannot be written: {problem.strerror}.")
        else:
            self.tell(f"The case is written to {name}.")

    def _report(self, name: str) -> None:
        if name:
            self._written(name)
        else:
            self.tell("Type the file's name behind it, such as: report case.html")

    def _written(self, name: str) -> bool:
        start, entries = self.book.load(self.case_id)
        try:
            write_report(full_report(self.assessment, self.talk.system, entries, start), Path(name))
        except OutputError as problem:
            self.tell(page.paragraph(str(problem)))
            return False
        self.tell(f"The report is written to {name}.")
        return True

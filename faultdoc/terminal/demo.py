"""The demo walk: a scripted person answers the engine's questions until the cause is found, fixed and proved.

The walk knows the cause only by the answers of its script: it follows whatever the engine proposes,
and a proof holds only where the remedy was for the script's cause.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from pydantic import Field

from faultdoc.diagnosis.assess import Assessment, Bench, Step, bench_for, choice_point
from faultdoc.library.load import Library, load_case, load_library, load_unit
from faultdoc.library.places import resources_folder
from faultdoc.library.problems import FileProblems, Problem, choose
from faultdoc.library.source import Source, read
from faultdoc.library.translate import build
from faultdoc.model.base import Id, Measured, Model
from faultdoc.model.case import Case, Conclusion
from faultdoc.model.tree import Question
from faultdoc.quantities import Kind, QuantityError, System, parse
from faultdoc.record import moves
from faultdoc.record.session import Entry, Session
from faultdoc.record.steps import change_of
from faultdoc.terminal import text as page

__all__ = ["DemoError", "Kept", "Script", "Turn", "load_script", "play", "shipped", "turn_of"]

MOST_STEPS = 200


class DemoError(Exception):
    """The walk did not come to the script's cause."""


class Script(Model):
    """What a scripted person finds: the true cause, and what they answer and read when asked."""

    cause: Id
    answers: dict[Id, Id] = Field(default_factory=dict)
    readings: dict[Id, str] = Field(default_factory=dict)


@dataclass
class Kept:
    """A journal in memory."""

    entries: list[Entry] = field(default_factory=list)

    def append(self, entry: Entry) -> None:
        """Keep one entry."""
        self.entries.append(entry)


def load_script(path: Path, library: Library) -> Script:
    """Return a script read from a file, its ids and readings known to the library.

    Raises:
        FileProblems: with every mistake in the file.
    """
    source = read(path)
    script = build(Script, source)
    if problems := [*_wrong_ids(source, script, library), *_wrong_readings(source, script, library)]:
        raise FileProblems(problems)
    return script


def _wrong_ids(source: Source, script: Script, library: Library) -> list[Problem]:
    problems = []
    if script.cause not in library.causes:
        remedy = choose(script.cause, library.causes)
        problems.append(source.problem(("cause",), f"the unknown cause '{script.cause}'", "a cause", remedy))
    for id, answer in script.answers.items():
        question = library.questions.get(id)
        known = [one.id for one in question.outcomes] if question else list(library.questions)
        unknown, what = (answer, "outcome") if question else (id, "question")
        if unknown not in known:
            found = f"the unknown {what} '{unknown}'"
            problems.append(source.problem(("answers", id), found, f"a {what}", choose(unknown, known)))
    return problems


def _wrong_readings(source: Source, script: Script, library: Library) -> list[Problem]:
    problems = []
    for id, text in script.readings.items():
        if id not in library.points:
            remedy = choose(id, library.points)
            problems.append(
                source.problem(("readings", id), f"the unknown point '{id}'", "a measuring point", remedy)
            )
        elif library.points[id].kind is Kind.CHOICE:
            found, remedy = f"a reading of '{id}', which is a choice", "answer its question under answers"
            problems.append(source.problem(("readings", id), found, "measured points", remedy))
        else:
            try:
                parse(text, library.points[id].kind, need_unit=True)
            except QuantityError as problem:
                problems.append(source.problem(("readings", id), str(problem), "", "write it so"))
    return problems


def shipped() -> tuple[Library, Case, Script]:
    """Return FaultDoc's own library, demo case and script.

    Raises:
        FileProblems: with every mistake in these files.
    """
    library = load_library(learned=False)
    case = load_case(resources_folder() / "cases" / "demo.yaml", library)
    return library, case, load_script(resources_folder() / "demo_script.yaml", library)


def play(
    library: Library, case: Case, script: Script, system: System, tell: Callable[[str], None]
) -> tuple[Session, list[Entry]]:
    """Walk a case to its end, telling every step.

    Args:
        library: points, plant and trees.
        case: to start from.
        script: who answers.
        system: units of what is told.
        tell: shows lines of text.

    Returns:
        The session, its case closed as fixed, and the journal.

    Raises:
        DemoError: when the engine hands over, or does not end.
    """
    kept = Kept()
    session = Session(bench_for(library, load_unit(case.unit), case.symptoms), case, kept)
    tell(page.paragraph(f"{session.bench.sheet.title}. {case.title or ''}"))
    tell(page.state_text(case.state))
    for number in range(1, MOST_STEPS + 1):
        step = session.assessment.next
        tell(f"{f'--- step {number} ':-<{page.WIDTH}}")
        if step.kind == "done":
            last = session.case.tried[-1]
            conclusion = Conclusion(outcome="fixed", cause=last.cause, note="Played by the demo.")
            session.do("Case closed: fixed", moves.conclude(session.case, conclusion))
            tell(page.paragraph(step.text))
            return session, kept.entries
        tell(page.step_text(session.assessment, step))
        if step.kind == "hand_over":
            raise DemoError(f"The demo's case was to be handed over instead of fixed: {step.text}")
        _take(session, step, script, system, tell)
    raise DemoError(f"The demo's case is not fixed after {MOST_STEPS} steps.")


def _take(session: Session, step: Step, script: Script, system: System, tell: Callable[[str], None]) -> None:
    """Take one step as the script's person would, and tell what came of it."""
    turn = turn_of(session.assessment, step, script)
    for what, case in turn.moves:
        session.do(what, case)
    for words in turn.told:
        tell(page.paragraph(words, "> "))
    if step.kind in ("state_change", "remedy"):
        return
    if step.kind == "question":
        check = session.bench.problem.questions[step.id].check
        made = [result for result in session.assessment.checks if result.id == check]
        if made:
            tell(page.checks_text(made, system))
    tell("Likely causes now:")
    tell(page.causes_text(session.assessment, 3))


@dataclass(frozen=True)
class Turn:
    """What the script's person does with a step.

    Attributes:
        told: it in words, a line each.
        moves: (what, case after it), in order.
    """

    told: tuple[str, ...]
    moves: tuple[tuple[str, Case], ...]


def turn_of(assessment: Assessment, step: Step, script: Script) -> Turn:
    """Return what the script's person does with a step.

    Raises:
        DemoError: for a step that is no work, such as handing over.
    """
    bench, case = assessment.bench, assessment.case
    if step.kind == "state_change":
        change = change_of(assessment, step.id)
        return Turn(("Done.",), ((f"{change.title}: done", moves.change_state(case, change)),))
    if step.kind == "remedy":
        after = moves.repaired(moves.went(case, bench.problem.causes[step.id].remedy), step.id)
        return Turn(("Done; now its proof.",), ((f"{step.text}: done", after),))
    if step.kind == "proof":
        held = step.id == script.cause
        what = f"Proof {'held' if held else 'did not hold'}"
        return Turn((f"The proof {'holds' if held else 'does not hold'}.",), ((what, moves.proved(case, held)),))
    if step.kind != "question":
        raise DemoError(f"the script has nothing for '{step.text}'")
    return _answer(bench, case, bench.problem.questions[step.id], script)


def _answer(bench: Bench, case: Case, question: Question, script: Script) -> Turn:
    if question.check is not None:
        read = []
        for id in question.points:
            if id in script.readings:
                point = bench.library.points[id]
                reading = Measured.from_quantity(parse(script.readings[id], point.kind, need_unit=True))
                case = moves.read(moves.went(case, question), id, reading)
                read.append((f"{point.title}: {reading.text}", case))
        if read:
            return Turn(tuple(words for words, _ in read), tuple(read))
    elif question.id in script.answers:
        outcome = script.answers[question.id]
        title = next(one.title for one in question.outcomes if one.id == outcome)
        after = moves.answered(moves.went(case, question), question.id, outcome, choice_point(question, bench))
        return Turn((title,), ((f"{question.ask.tech} {title}", after),))
    after = moves.answer(case, question.id, "could_not_measure")
    return Turn(("Could not be measured.",), ((f"{question.ask.tech} Could not be measured", after),))

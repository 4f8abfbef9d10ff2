"""Practice in a terminal: a dispatcher's briefing, a live unit, what a trainee types; the debrief at the end."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import TypeVar

from faultdoc.library.load import Library
from faultdoc.library.problems import FileProblems, Problem, choose
from faultdoc.model.safety import Caution, Signal
from faultdoc.practice.debrief import Debrief, debrief, sheet_text
from faultdoc.practice.progress import (
    Progress,
    load_progress,
    next_scenario,
    result_of,
    save_progress,
    weak_points,
)
from faultdoc.practice.scenario import LEVELS, Scenario, load_scenarios, random_scenario, read_scenario
from faultdoc.practice.trainee import HINT_MINUTES, PROOF_MINUTES, Event, Turn
from faultdoc.record.settings import Settings
from faultdoc.record.words import PEOPLE, matches
from faultdoc.record.words import minutes as in_minutes
from faultdoc.terminal import text as page
from faultdoc.terminal.output import write_report, write_text
from faultdoc.terminal.talk import UNDERSTOOD, Ask, Command, Left, Talk, Tell

__all__ = ["chosen", "list_text", "run", "write_sheet"]

HELP = f"""What you can do; WORDS are any words of what you mean:
  read WORDS    read a gauge, a meter or a thermometer
  look WORDS    look at, listen to or ask about something
  do WORDS      start, stop, isolate, open, close, fill ...
  fix WORDS     carry out a remedy
  prove         run the unit for {PROOF_MINUTES:.0f} min to see whether the fix holds
  wait MINUTES  let time pass
  unit          what the unit shows          state  the plant's state
  path          what you have done so far    call   the briefing again
  hint          ask someone who knows: {HINT_MINUTES:.0f} min, and points
  give up       make safe and hand over
  stops, units, help, quit
Nothing can be undone: the unit is live. What is not safe is not done, but counted.
Where there are hazards the cautions come first, and '{UNDERSTOOD}' is asked for."""

LONGEST_LIST = 40
ADVICE = "Type 'help' to see what you can do."

Value = TypeVar("Value")


def list_text(progress: Progress | None = None) -> str:
    """Return all scenarios by level, with the score so far where a trainee's progress is given."""
    scores = {one.scenario: one.score for one in progress.results} if progress else {}
    lines = []
    for level, words in LEVELS.items():
        lines.append(f"Level {level}: {words}")
        for one in load_scenarios().values():
            if one.level == level:
                score = f"  [{scores[one.id]} of 100]" if one.id in scores else ""
                lines.append(f"  {one.id:24} {one.title}{score}")
    lines.append("Any number after --random gives one more; it is the same for everyone.")
    return "\n".join(lines)


def chosen(
    name: str | None, level: int | None = None, seed: int | None = None, progress: Progress | None = None
) -> Scenario:
    """Return the scenario that was asked for, or the one that comes next.

    Args:
        name: an id or a file.
        level: of the one that comes next, or of a random one.
        seed: of a random one.
        progress: of the trainee, for what comes next.

    Raises:
        FileProblems: for a name that is none, or a file with mistakes.
        ValueError: for a seed below zero.
    """
    if seed is not None:
        return random_scenario(seed, level)
    known = load_scenarios()
    if name is not None:
        if name in known:
            return known[name]
        if Path(name).is_file():
            return read_scenario(Path(name))
        remedy = choose(name, known, otherwise="'faultdoc practice --list' lists them")
        raise FileProblems([Problem(name, 0, 0, "", "no such scenario", "an id, or the path of a file", remedy)])
    pool = [one for one in known.values() if level in (None, one.level)]
    return next_scenario(progress or Progress(trainee="nobody"), pool)


def write_sheet(found: Debrief, path: Path, settings: Settings, trainee: str = "") -> None:
    """Write a result sheet: as .html or .pdf to print, else as text.

    Raises:
        OutputError: when the file cannot be written.
    """
    text = page.wrapped(sheet_text(found, settings.system, trainee))
    if path.suffix.lower() in (".html", ".htm", ".pdf"):
        head = "<!doctype html><html lang='en'><meta charset='utf-8'><title>Result sheet</title>"
        write_report(f"{head}<pre>{escape(text)}</pre></html>", path)
    else:
        write_text(text + "\n", path)


def run(
    ask: Ask,
    tell: Tell,
    scenario: Scenario,
    library: Library,
    settings: Settings,
    trainee: str | None = None,
    sheet: Path | None = None,
    seed: int | None = None,
) -> Debrief | None:
    """Lead a trainee through a call to its debrief; None where they leave before its end.

    Args:
        ask, tell: the person.
        scenario: what is hidden.
        library: of points, plant and trees.
        settings: units and emergency numbers.
        trainee: whose progress is kept; nobody's where it is None or empty.
        sheet: file of the result sheet.
        seed: of the instruments; the scenario's own otherwise.

    Raises:
        ProgressError: when the progress cannot be read or kept.
        OutputError: when the sheet cannot be written.
    """
    turn = Turn.begin(scenario, seed)
    call = _Call(turn, Talk(ask, tell, library, settings, help=HELP))
    try:
        call.to_the_end()
    except Left:
        if not turn.finished:
            tell("You left the call; nothing of it is kept.")
            return None
    turn.system = call.talk.system
    found = debrief(turn)
    tell("")
    tell(page.wrapped(sheet_text(found, call.talk.system, trainee or "")))
    if sheet is not None:
        write_sheet(found, sheet, call.talk.settings, trainee or "")
        tell(f"The result sheet is written to {sheet}.")
    if trainee:
        progress = load_progress(trainee).with_result(result_of(found))
        save_progress(progress)
        tell(_what_next(progress))
    return found


def _what_next(progress: Progress) -> str:
    following = next_scenario(progress, load_scenarios().values())
    weak = weak_points(progress)
    lines = [f"Kept for {progress.trainee}: {len(progress.results)} calls."]
    if weak:
        lines.append(page.paragraph("; ".join(weak), "Weak so far: "))
    lines.append(page.paragraph(f"{following.title} ({following.id})", "Next: "))
    return "\n".join(lines)


@dataclass
class _Call:
    turn: Turn
    talk: Talk

    def to_the_end(self) -> None:
        """Take what is typed till the call is over."""
        self.talk.more = self.commands
        self._briefing("")
        self.talk.tell(ADVICE)
        while not self.turn.finished:
            self.turn.system = self.talk.system
            typed = self.talk.line(lambda: f"[{in_minutes(self.turn.minutes)}] What do you do? ")
            if typed:
                self.talk.tell(f"'{typed}' is not understood. {ADVICE}")

    def commands(self) -> Mapping[str, Command]:
        """Return what a line may begin with."""
        if self.turn.finished:
            return {}
        return {
            "read": self._read,
            "look": self._look,
            "do": self._do,
            "fix": self._fix,
            "prove": lambda _: self._act(self.turn.prove, self._cautions_of_start()),
            "wait": self._wait,
            "unit": lambda _: self.talk.tell("\n".join(f"  {line}" for line in self.turn.unit_shows())),
            "state": lambda _: self.talk.tell(page.state_text(self.turn.state)),
            "path": lambda _: self._tell(self.turn.events),
            "call": self._briefing,
            "hint": lambda _: self._act(self.turn.hint),
            "give": self._give_up,
            "undo": lambda _: self.talk.tell("Nothing can be undone on a live unit. Change it back, if you may."),
        }

    def _briefing(self, _: str) -> None:
        scenario, tell = self.turn.scenario, self.talk.tell
        tell(page.paragraph(f"{scenario.title}. Level {scenario.level}: {LEVELS[scenario.level]}."))
        tell(page.paragraph(scenario.briefing, "Dispatcher: "))
        tell(page.paragraph(self.turn.sheet.title, "Unit: "))
        who = "; ".join(PEOPLE[one][0].lower() for one in scenario.who)
        tell(page.paragraph(who, "You are: "))
        tell(page.state_text(self.turn.state))
        tell("The unit shows:")
        tell("\n".join(f"  {line}" for line in self.turn.unit_shows()))

    # --- acts ---

    def _read(self, words: str) -> None:
        points = self.turn.library.points
        options = [(id, points[id].title) for id in self.turn.points()]
        id = self._picked("Which reading?", options, words)
        if id is not None:
            self._act(lambda: self.turn.measure(id))

    def _look(self, words: str) -> None:
        questions = {one.id: one for one in self.turn.questions()}
        id = self._picked("What do you look at?", [(id, one.ask.tech) for id, one in questions.items()], words)
        if id is not None:
            self._act(lambda: self.turn.look(id), questions[id].cautions)

    def _do(self, words: str) -> None:
        changes = {one.id: one for one in self.turn.changes()}
        id = self._picked("What do you do?", [(id, one.title) for id, one in changes.items()], words)
        if id is not None:
            self._act(lambda: self.turn.change(id), changes[id].cautions)

    def _fix(self, words: str) -> None:
        causes = {one.id: one for one in self.turn.remedies()}
        options = [(id, f"{one.remedy.title} (for: {one.title})") for id, one in causes.items()]
        id = self._picked("What do you fix?", options, words)
        if id is not None:
            self._act(lambda: self.turn.mend(id), causes[id].remedy.cautions)

    def _wait(self, words: str) -> None:
        try:
            minutes = float(words)
            self._act(lambda: self.turn.wait(minutes))
        except ValueError:
            self.talk.tell(f"'{words}' is not understood: type 'wait' and minutes, from above 0 to 1440.")

    def _give_up(self, words: str) -> None:
        if words.lower() in ("up", ""):
            self._act(self.turn.give_up)
        else:
            self.talk.tell(f"'give {words}' is not understood. {ADVICE}")

    def _picked(self, title: str, options: Sequence[tuple[str, str]], words: str) -> str | None:
        """Return the one of some options that is meant: by its id, by words, or by a number asked for."""
        if any(words == id for id, _ in options):
            return words
        found = [(id, name) for id, name in options if matches(words, name, id)]
        if not found:
            self.talk.tell(f"Nothing here has the words '{words}'. Leave them out to see all there is.")
            return None
        if len(found) == 1:
            return found[0][0]
        if len(found) > LONGEST_LIST and words == "":
            self.talk.tell(f"There are {len(found)}; words of what you mean make the list shorter.")
        return self.talk.choose(title, [*found, ("", "None of these")]) or None

    def _cautions_of_start(self) -> tuple[Caution, ...]:
        return next(one.cautions for one in self.turn.changes() if one.id == "start_compressors")

    def _act(self, act: Callable[[], Event], cautions: Iterable[Caution] = ()) -> None:
        """Carry out an act after its cautions, and tell all that happened."""
        warned = tuple(cautions)
        if warned:
            self.talk.tell(page.cautions_text(warned))
        if any(one.signal in (Signal.DANGER, Signal.WARNING) for one in warned):
            typed = self.talk.line(f"Type '{UNDERSTOOD}' to go on, anything else to leave it: ")
            if typed.lower() != UNDERSTOOD:
                self.talk.tell("Left undone.")
                return
        self.turn.system = self.talk.system
        known = len(self.turn.events)
        act()
        self._tell(self.turn.events[known:])

    def _tell(self, events: Iterable[Event]) -> None:
        for event in events:
            spent = f" ({in_minutes(event.minutes)})" if event.minutes else ""
            self.talk.tell(page.paragraph(f"{event.text}{spent}", "> "))
            if event.why:
                self.talk.tell(page.paragraph(event.why, "  UNSAFE: " if not event.safe else "  "))

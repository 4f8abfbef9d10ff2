"""Talking through two functions, one that asks for a line and one that tells: prompts, choices, commands."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import NoReturn, TypeVar

from faultdoc.library.load import Library
from faultdoc.quantities import System
from faultdoc.record.settings import Settings
from faultdoc.terminal import text as page

__all__ = ["UNDERSTOOD", "Ask", "Changed", "Command", "Left", "Talk", "Tell"]

Ask = Callable[[str], str]
"""Shows a prompt and returns a line; raises EOFError when there are no more."""

Tell = Callable[[str], None]
"""Shows lines of text."""

Command = Callable[[str], None]
"""Takes the rest of the line."""

UNDERSTOOD = "understood"

HELP = f"""At any prompt:
  why         why this step is next
  causes      the likely causes, and what spoke for and against the first
  readings    what was read and answered so far
  check ID    the arithmetic of a check; without an ID: which there are
  undo, redo  take the last move back, or do it again
  change ID   read a point or answer a question again, or one left for later
  cannot      this could not be measured        unsure   not sure
  skip        leave this question for later
  state       the plant's state, to be put right where it is not so
  people      who is on the job                 note ... write something down
  units       switch between US and SI units
  stops       what to stop for at once
  save FILE   write the case to a file          report FILE  .html or .pdf
  close       end the case: handed over, made safe, not found
  quit        leave; the case is kept and offered at the next start
Where there are hazards the cautions come first, and '{UNDERSTOOD}' is asked for."""

Value = TypeVar("Value")


class Changed(Exception):  # noqa: N818 (a turn in the talk, no error)
    """A command changed the case: what was being asked is decided anew."""


class Left(Exception):  # noqa: N818 (likewise)
    """The person leaves, or there are no more lines."""


@dataclass
class Talk:
    """A person, and what can be asked at any time: help, stops, units, quit.

    Attributes:
        ask, tell: the person.
        library: for what to stop for.
        settings: units and emergency numbers; saved when they change.
        more: further commands by name, looked up whenever a line is read.
        help: what can be typed, told on 'help'.
    """

    ask: Ask
    tell: Tell
    library: Library
    settings: Settings
    more: Callable[[], Mapping[str, Command]] = dict
    help: str = HELP

    @property
    def system(self) -> System:
        """Units in which a number without one is meant, and numbers are told."""
        return self.settings.system

    def commands(self) -> Mapping[str, Command]:
        """Return what a line may begin with to be a command."""
        own: dict[str, Command] = {
            "help": lambda _: self.tell(self.help),
            "?": lambda _: self.tell(self.help),
            "stops": self._stops,
            "units": self._units,
            "quit": self._quit,
        }
        return {**self.more(), **own}

    def line(self, prompt: str | Callable[[], str], *, words: bool = False) -> str:
        """Return a line that is no command.

        Args:
            prompt: shown before it; a function where a command may change it.
            words: the line may be any text, so that only a command alone on its line is one.
        """
        while True:
            try:
                # What is not UTF-8 must not stop the journal.
                shown = prompt if isinstance(prompt, str) else prompt()
                typed = self.ask(shown).encode("utf-8", "replace").decode().strip()
            except (EOFError, KeyboardInterrupt):
                self.tell("")
                raise Left from None
            name, _, rest = typed.partition(" ")
            command = self.commands().get(name.lower())
            if command is None or (words and rest):
                return typed
            command(rest.strip())

    def choose(
        self,
        title: str,
        options: Sequence[tuple[Value, str]],
        *,
        default: Value | None = None,
        hint: str = "",
    ) -> Value:
        """Return one of the options, chosen by its number."""
        return self.choose_some(title, options, default=default, hint=hint, many=False)[0]

    def choose_some(
        self,
        title: str,
        options: Sequence[tuple[Value, str]],
        *,
        default: Value | None = None,
        hint: str = "",
        many: bool = True,
    ) -> tuple[Value, ...]:
        """Return options chosen by their numbers, with commas between them."""
        self.tell(page.paragraph(title))
        self.tell(page.numbered(name for _, name in options))
        what = "Numbers, with commas between" if many else "Number"
        values = [value for value, _ in options]
        if default is not None:
            hint = "; ".join(part for part in (hint, f"Enter for {values.index(default) + 1}") if part)
        while True:
            typed = self.line(f"{what}{f' ({hint})' if hint else ''}: ")
            if not typed and default is not None:
                return (default,)
            picked = typed.replace(",", " ").split()
            if picked and all(one.isdecimal() and 1 <= int(one) <= len(values) for one in picked):
                chosen = tuple(dict.fromkeys(values[int(one) - 1] for one in picked))
                if many or len(chosen) == 1:
                    return chosen
            self.tell(
                f"'{typed}' is not understood: type {'numbers' if many else 'a number'} from 1 to {len(values)}."
            )

    def keep(self, **changes: object) -> None:
        """Keep changed settings; going on without matters more than a folder that cannot be written."""
        self.settings = self.settings.model_copy(update=changes)
        try:
            self.settings.save()
        except OSError as problem:
            self.tell(f"(The settings could not be kept: {problem.strerror}.)")

    def _stops(self, _: str) -> None:
        self.tell("STOP work at once, get everyone clear and call for help when you meet:")
        self.tell(page.cautions_text(self.library.plant.stops))
        numbers = ", ".join(self.settings.emergency_numbers) or "the site's own; ask for it before you start"
        self.tell(page.paragraph(numbers, "  Emergency number: "))

    def _units(self, _: str) -> None:
        self.keep(system=self.system.other)
        self.tell(f"Units: {self.system.value}. A number without a unit is now meant in these.")

    def _quit(self, _: str) -> NoReturn:
        raise Left

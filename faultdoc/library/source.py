"""Reads one YAML file into plain data, and remembers on which line every part of it stands.

The parser is ruamel.yaml's (its C parser where there is one); the scalars mean what the core
schema of YAML 1.2.2 (chapter 10.3.2) says they mean, so yes, no, on and off are text, and so is
1:20. The data is put together here, from the parser's events, because what makes a file unsafe
or ambiguous (aliases, tags, keys given twice, deep nesting) shows in the events only.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from math import isfinite
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from faultdoc.library.places import shown
from faultdoc.library.problems import MOST_PROBLEMS, FileProblems, Problem, as_found
from faultdoc.plain import ODD

__all__ = [
    "DEEPEST",
    "LARGEST",
    "MOST_PARTS",
    "KeyPath",
    "Place",
    "Source",
    "read",
    "read_text",
    "scalar",
    "text_of",
]

LARGEST = 2_000_000
"""Bytes; a fault tree of 2,000 lines has about a twentieth of this."""
DEEPEST = 40
"""Levels of nesting; a fault tree has eight."""
MOST_PARTS = 200_000
"""Maps, lists, their ends, keys and values; the largest fault tree has 14,290."""

KeyPath = tuple[str | int, ...]
"""Where in the data: the keys of maps and the indices of lists from the top down."""
Place = tuple[int, int]
"""Line and column, from 1."""


@dataclass(frozen=True)
class Source:
    """A file as read: plain data (dict, list, str, int, float, bool, None) and the place of every part."""

    file: str
    data: Any
    keys: dict[KeyPath, Place] = field(repr=False)
    values: dict[KeyPath, Place] = field(repr=False)

    def place(self, path: KeyPath) -> Place:
        """Return where the key at `path` stands, or the item of a list; the nearest one above, if none does."""
        for end in range(len(path), 0, -1):
            found = self.keys.get(path[:end]) or self.values.get(path[:end])
            if found:
                return found
        return self.values.get((), (1, 1))

    def value_place(self, path: KeyPath) -> Place:
        """Return where the value at `path` stands; the nearest place above, if there is none."""
        return self.values.get(path) or self.place(path)

    def key(self, path: KeyPath) -> str:
        """Return `path` in words, with the id of every list item that has one.

        >>> source = read_text("causes: [{id: air, rate: 3}]", "x.yaml")
        >>> source.key(("causes", 0, "rate"))
        'causes[0] (air).rate'
        """
        words = ""
        data = self.data
        for step in path:
            if isinstance(step, int):
                words += f"[{step}]"
            else:
                words += f"{'.' if words else ''}{step}"
            data = _inside(data, step)
            if isinstance(step, int) and isinstance(data, dict) and isinstance(data.get("id"), str):
                words += f" ({data['id']})"
        return words

    def get(self, path: KeyPath) -> Any:
        """Return what stands at `path`; None where nothing does."""
        data = self.data
        for step in path:
            data = _inside(data, step)
        return data

    def problem(self, path: KeyPath, found: str, allowed: str, remedy: str, *, at_value: bool = True) -> Problem:
        """Return a problem at `path`, placed at its value or at its key."""
        line, column = self.value_place(path) if at_value else self.place(path)
        return Problem(self.file, line, column, self.key(path), found, allowed, remedy)


def _inside(data: Any, step: str | int) -> Any:
    if isinstance(data, dict):
        return data.get(step)
    if isinstance(data, list) and isinstance(step, int) and step < len(data):
        return data[step]
    return None


def read(path: Path) -> Source:
    """Read the YAML file at `path`.

    Raises:
        FileProblems: when it cannot be read, or is no YAML that FaultDoc takes; see `read_text`.
    """
    return read_text(text_of(path, LARGEST), shown(path))


def text_of(path: Path, largest: int) -> str:
    """Return the text of the file at `path`.

    Raises:
        FileProblems: when it cannot be read, has more than `largest` bytes, or is not UTF-8.
    """
    file = shown(path)
    try:
        with path.open("rb") as stream:
            raw = stream.read(largest + 1)
    except OSError as problem:
        reason = problem.strerror or str(problem)
        raise FileProblems(
            [Problem(file, 0, 0, "", "no file that can be read", "", f"{reason}; check its name and folder")]
        ) from None
    if len(raw) > largest:
        found = f"more than {largest:,} bytes"
        raise FileProblems([Problem(file, 0, 0, "", found, f"at most {largest:,} bytes", "split the file")])
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        before = raw[: problem.start]
        line = before.count(b"\n") + 1
        column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8", "replace")) + 1
        found = f"the byte 0x{raw[problem.start]:02x}, which is not UTF-8"
        raise FileProblems(
            [Problem(file, line, column, "", found, "text saved as UTF-8", "save the file as UTF-8")]
        ) from None


def read_text(text: str, file: str) -> Source:
    """Read YAML from `text`; `file` is what messages call it.

    Raises:
        FileProblems: with every alias, anchor, tag, tab and key given twice, or with the first
            place at which the text is no YAML; also for nesting deeper than DEEPEST, more than
            MOST_PARTS parts, several documents, an empty file, and characters that do not print or
            that turn the direction of writing, escaped ones too.
    """
    if problems := [*_tabs(text, file), *_unprintable(text, file)]:
        raise FileProblems(problems)
    builder = _Builder(file)
    try:
        for event in YAML(typ="safe").parse(text):
            builder.take(event)
    except MarkedYAMLError as problem:
        raise FileProblems([*builder.problems, _syntax(problem, text, file)]) from None
    except YAMLError as problem:
        found = f"something that is not YAML ({problem})"
        raise FileProblems([Problem(file, 0, 0, "", found, "", "write it anew")]) from None
    if not builder.documents:
        builder.problems.append(Problem(file, 1, 1, "", "an empty file", "one YAML map", "fill it in"))
    if builder.problems:
        raise FileProblems(builder.problems)
    return Source(file, builder.root, builder.keys, builder.values)


def _tabs(text: str, file: str) -> list[Problem]:
    if "\t" not in text:
        return []
    lines = [(number, line) for number, line in enumerate(text.split("\n"), 1) if "\t" in line]
    number, line = lines[0]
    found = "a tab" if len(lines) == 1 else f"tabs, here and on {len(lines) - 1} more lines"
    return [Problem(file, number, line.index("\t") + 1, "", found, "blanks only", "replace each tab by blanks")]


_UNPRINTABLE = re.compile(
    "[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]"
    "|[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]"
)
"""What YAML 1.2.2, 5.1 leaves out of its set of printable characters, and what turns the direction of writing."""


def _unprintable(text: str, file: str) -> list[Problem]:
    odd = _UNPRINTABLE.search(text)
    if odd is None:
        return []
    before = text[: odd.start()]
    found = _named(odd.group())
    line, column = before.count("\n") + 1, odd.start() - before.rfind("\n")
    return [Problem(file, line, column, "", found, "characters that print", "remove it")]


def _named(odd: str) -> str:
    """Return an odd character by its number, as it cannot be shown."""
    return f"the character U+{ord(odd):04X}, which does not print or turns the direction of writing"


_INT = re.compile(r"[-+]?[0-9]{1,40}|0o[0-7]{1,40}|0x[0-9a-fA-F]{1,40}")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_WORDS: dict[str, bool | None] = {
    "": None, "~": None, "null": None, "Null": None, "NULL": None,
    "true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False,
}  # fmt: skip


def scalar(text: str) -> str | int | float | bool | None:
    """Return what an unquoted scalar means in the core schema of YAML 1.2.2, 10.3.2.

    Numbers that are not finite stay text, so whatever wants a number refuses them.

    >>> [scalar(text) for text in ("yes", "true", "12", "012", "1e3", "0x10", "1:20", "62 psi", "~", ".inf")]
    ['yes', True, 12, 12, 1000.0, 16, '1:20', '62 psi', None, '.inf']
    """
    if text in _WORDS:
        return _WORDS[text]
    if text[0] not in "+-.0123456789":
        return text
    if _INT.fullmatch(text):
        return int(text, 0) if text[:2] in ("0o", "0x") else int(text)
    if _FLOAT.fullmatch(text) and isfinite(number := float(text)):
        return number
    return text


@dataclass
class _Open:
    """A map or list whose end has not come yet; `key` is the key whose value is awaited."""

    data: dict[str, Any] | list[Any]
    path: KeyPath
    key: str | None = None


class _Builder:
    """Takes the parser's events one by one and puts the data together, without recursion."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.problems: list[Problem] = []
        self.keys: dict[KeyPath, Place] = {}
        self.values: dict[KeyPath, Place] = {}
        self.root: Any = None
        self.documents = 0
        self._parts = 0
        self._open: list[_Open] = []
        self._skipping = 0  # levels of a map or list that stands where a key should

    def take(self, event: Event) -> None:
        handler = _HANDLERS.get(type(event))
        if handler is None:
            return
        self._parts += 1
        if self._parts > MOST_PARTS:
            self._complain(event, f"more than {MOST_PARTS:,} keys and values", "fewer", "split the file")
            raise FileProblems(self.problems)
        handler(self, event)
        if len(self.problems) >= MOST_PROBLEMS:
            raise FileProblems(self.problems)

    def _complain(self, event: Event, found: str, allowed: str, remedy: str) -> None:
        mark = event.start_mark
        where = ""
        if self._open:
            top = self._open[-1]
            path = (*top.path, top.key) if top.key is not None else top.path
            where = Source("", self.root, {}, {}).key(path)
        self.problems.append(Problem(self.file, mark.line + 1, mark.column + 1, where, found, allowed, remedy))

    def document(self, event: Any) -> None:
        self.documents += 1
        if self.documents > 1:
            self._complain(event, "a second document after '---'", "one document a file", "split the file")
            raise FileProblems(self.problems)
        if event.version or event.tags:
            self._complain(event, "a line that starts with '%'", "no directives", "remove that line")

    def alias(self, event: Any) -> None:
        self._complain(event, f"the alias {as_found('*' + event.anchor)}", "no aliases", "write the value out")
        self._put(None, event)

    def scalar(self, event: Any) -> None:
        self._plain(event)
        text: str = event.value
        odd = ODD.search(text)
        if (
            odd is not None
        ):  # written as an escape in double quotes: what stands in the text itself is refused before
            self._complain(event, _named(odd.group()), "characters that print", "take it out")
        if self._skipping:
            return
        top = self._open[-1] if self._open else None
        if top is not None and isinstance(top.data, dict) and top.key is None:
            self._key(top, text, event)
            return
        quoted = event.style or not event.implicit[0]
        self._put(text if quoted else scalar(text), event)

    def start(self, event: Any) -> None:
        self._plain(event)
        top = self._open[-1] if self._open else None
        at_key = top is not None and isinstance(top.data, dict) and top.key is None
        if self._skipping or at_key:
            if not self._skipping:
                remedy = "write a name before the colon; text that starts with [ or { goes in quotes"
                self._complain(event, "a list or a map where a key should stand", "a name", remedy)
            self._skipping += 1
            self._check_depth(event)
            return
        data: dict[str, Any] | list[Any] = {} if isinstance(event, MappingStartEvent) else []
        path = self._put(data, event)
        self._open.append(_Open(data, path))
        self._check_depth(event)

    def end(self, event: Any) -> None:
        if self._skipping:
            self._skipping -= 1
            if not self._skipping:
                self._open[-1].key = ""  # its value follows and goes with it
            return
        self._open.pop()

    def _check_depth(self, event: Event) -> None:
        if len(self._open) + self._skipping > DEEPEST:
            allowed = f"at most {DEEPEST} levels"
            self._complain(event, f"nesting deeper than {DEEPEST} levels", allowed, "make the file flatter")
            raise FileProblems(self.problems)

    def _plain(self, event: Any) -> None:
        """Complain of an anchor or a tag on the event."""
        if event.anchor is not None:
            named = as_found(f"&{event.anchor}")
            remedy = f"remove {named}, and write the value out wherever it is used"
            self._complain(event, f"the anchor {named}", "no anchors", remedy)
        if event.tag is not None:
            remedy = "remove the tag, or put text that starts with '!' in quotes"
            self._complain(event, f"the tag {as_found(str(event.tag))}", "no tags", remedy)

    def _key(self, top: _Open, key: str, event: Event) -> None:
        place = (event.start_mark.line + 1, event.start_mark.column + 1)
        path = (*top.path, key)
        top.key = key
        first = self.keys.setdefault(path, place)
        if first is not place:
            found = f"the key {as_found(key)} again; it already stands on line {first[0]}"
            self._complain(event, found, "each key once", f"keep line {first[0]} or line {place[0]}")

    def _put(self, value: Any, event: Event) -> KeyPath:
        if self._skipping:
            return ()
        place = (event.start_mark.line + 1, event.start_mark.column + 1)
        path: KeyPath = ()
        if not self._open:
            self.root = value
        else:
            top = self._open[-1]
            if isinstance(top.data, list):
                path = (*top.path, len(top.data))
                top.data.append(value)
            elif top.key is None:  # an alias as a key, already complained of
                top.key = ""
                return ()
            else:
                path = (*top.path, top.key)
                top.data.setdefault(top.key, value)
                top.key = None
        self.values.setdefault(path, place)
        return path


_HANDLERS: dict[type[Event], Callable[[_Builder, Any], None]] = {
    DocumentStartEvent: _Builder.document,
    AliasEvent: _Builder.alias,
    ScalarEvent: _Builder.scalar,
    MappingStartEvent: _Builder.start,
    SequenceStartEvent: _Builder.start,
    MappingEndEvent: _Builder.end,
    SequenceEndEvent: _Builder.end,
}

# What the parser says -> what it means to someone who writes the file.
_PLAIN_WORDS: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed",
        "a second colon, or a line that starts too far to the right",
        "put text that has a colon and a blank in it in quotes; start the line in the column of the one above",
    ),
    ("found unexpected end of stream", "a quotation mark that is never closed", "close it"),
    (
        "did not find expected ',' or ']'",
        "a list in [ ] that is not closed, or lacks a comma",
        "end it with ], and put items that have , ? : or brackets in them in quotes",
    ),
    (
        "did not find expected ',' or '}'",
        "a map in { } that is not closed, or lacks a comma",
        "end it with }, and put texts that have , ? : or brackets in them in quotes",
    ),
    (
        "found character that cannot start any token",
        "a character with which unquoted text cannot start",
        "put the text in quotes",
    ),
    (
        "could not find expected ':'",
        "a line with no colon before this place",
        "write 'key: value', or start the line further to the right if it goes on with the text above",
    ),
    (
        "block sequence entries are not allowed",
        "a list item '-' on the line of its key",
        "start the list on the next line",
    ),
    (
        "did not find expected '-' indicator",
        "a line that is no item of the list it stands in",
        "start it with '- ' in the column of the items above, or further to the left",
    ),
    (
        "did not find expected key",
        "a line that does not start in the column of the lines above, or text after a closing quotation mark",
        "start the keys of one map in the same column; double a ' that stands inside '...'",
    ),
    (
        "found unknown escape character",
        "a backslash with a letter that means nothing",
        "write the backslash twice, or use single quotes",
    ),
    ("found undefined tag handle", "a tag", "put text that starts with '!' in quotes"),
    ("while scanning an alias", "an asterisk at the start of unquoted text", "put the text in quotes"),
    ("while scanning an anchor", "an ampersand at the start of unquoted text", "put the text in quotes"),
)


def _syntax(problem: MarkedYAMLError, text: str, file: str) -> Problem:
    mark = problem.problem_mark or problem.context_mark
    # A quotation mark never closed is found at the end of the file, long after the place to mend.
    if problem.context_mark and "unexpected end of stream" in str(problem.problem):
        mark = problem.context_mark
    line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
    said = f"{problem.context or ''} {problem.problem or ''}".strip()
    unknown = (f"something that is not YAML ({said})", "compare with the lines above and below")
    found, remedy = next(((found, remedy) for key, found, remedy in _PLAIN_WORDS if key in said), unknown)
    lines = text.split("\n")
    quote = lines[line - 1].strip() if line <= len(lines) else ""
    if quote:
        found += f", in '{quote[:60]}'"
    return Problem(file, line, column, "", found, "", remedy)

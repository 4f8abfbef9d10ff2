"""Writes and reads hand-overs: a file of plain text, or codes to be scanned.

Plain YAML rather than an archive: it survives mail and chat, can be read by anyone without FaultDoc, shows every
change in a comparison, and there is nothing to unpack that could be a bomb or leave its folder. Photos go
into it as base64, a third longer than they are, which their limit allows for. The last line is the SHA-256 of all
above it, so that a file that was damaged or edited on its way is told from one that was not.
"""

from __future__ import annotations

import base64
import binascii
import json
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from faultdoc.library.problems import FileProblems, Problem, as_found
from faultdoc.library.sheets import sheet_yaml
from faultdoc.library.source import KeyPath, Source, read_text, text_of
from faultdoc.library.translate import build, quantity_problem
from faultdoc.library.whole import write_whole
from faultdoc.library.written import yaml_text
from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Reading
from faultdoc.quantities import Kind, QuantityError, parse
from faultdoc.record.handover.change import Change
from faultdoc.record.handover.codes import CodeError, in_codes, looks_like_code, out_of_codes
from faultdoc.record.handover.form import FORMAT, Attached, HandOver, PointWords, Words
from faultdoc.record.handover.prints import without_parts

__all__ = [
    "ENDING",
    "LARGEST_FILE",
    "MOST_ATTACHED",
    "Received",
    "code_texts",
    "content_of",
    "hand_over_text",
    "is_hand_over",
    "read_hand_over",
    "save_hand_over",
    "understand",
]

ENDING = ".handover.yaml"
MOST_ATTACHED = 8_000_000
"""Bytes of all attachments together: what mail servers let through, base64 and all."""
LARGEST_FILE = 16_000_000
"""Bytes; the attachments' base64 and a journal of thousands of moves."""

_HEAD = """\
# A case of FaultDoc's on its way from one person to the next. Read 'about' below; to go on with the case open
# this file in FaultDoc, or: faultdoc handover open FILE
"""
_DIGEST = "digest: "
_LIKELY = 5
"""Causes whose belief goes into a code."""


@dataclass(frozen=True)
class Received:
    """A hand-over as read.

    Attributes:
        hand_over: it.
        as_sent: whether it is to the letter what was sent; False when it was edited or damaged since.
    """

    hand_over: HandOver
    as_sent: bool


# --- writing ---


def save_hand_over(hand_over: HandOver, path: Path) -> None:
    """Write a hand-over to a file, whole or not at all.

    Raises:
        OSError: when the folder cannot be written.
    """
    write_whole(hand_over_text(hand_over), path)


def hand_over_text(hand_over: HandOver) -> str:
    """Return a hand-over as the text of its file."""
    plain = _plain(hand_over)
    attached = plain.pop("attachments", [])
    text = _HEAD + yaml_text(plain, width=110)
    if attached:
        text += "attachments:\n" + "".join(_attachment_text(one) for one in attached)
    return f"{text}{_DIGEST}{_digest(text)}\n"


def code_texts(hand_over: HandOver, *, own_sheet: bool) -> tuple[str, ...]:
    """Return a hand-over as the texts of one to four QR codes.

    What the other FaultDoc can make anew is left out: the summary and the names of things; so are attachments,
    the causes unlikely so far, and the fingerprints of single parts.

    Args:
        hand_over: it.
        own_sheet: whether the unit's data sheet is a person's own, so that the other machine needs it.

    Raises:
        TooLongError: when it is too long for codes.
    """
    short = hand_over.model_copy(
        update={
            "about": None,
            "attachments": (),
            "belief": dict(list(hand_over.belief.items())[:_LIKELY]),
            "points": {id: PointWords(kind=words.kind) for id, words in hand_over.points.items()},
            "words": Words(),
            "prints": without_parts(hand_over.prints, hand_over.start.symptoms),
            "sheet": hand_over.sheet if own_sheet else None,
        }
    )
    text = json.dumps(_plain(short), separators=(",", ":"), ensure_ascii=False)
    return in_codes(_ODD.sub(lambda odd: f"\\u{ord(odd.group()):04x}", text).encode())


_ODD = re.compile("[\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]")
"""What JSON takes as it is and YAML, as which it is read back, does not."""


def _digest(text: str) -> str:
    return sha256(text.encode()).hexdigest()


def _attachment_text(attached: dict[str, Any]) -> str:
    data = "".join(attached.pop("data").split())
    lines = "".join(f"      {data[place : place + 96]}\n" for place in range(0, len(data), 96))
    return yaml_text([attached]) + ("    data: |\n" + lines if lines else "    data: ''\n")


def _plain(hand_over: HandOver) -> dict[str, Any]:
    """Return a hand-over as plain data, without what is as it is by default."""
    data: dict[str, Any] = hand_over.model_dump(
        mode="json", exclude_defaults=True, exclude={"start", "journal", "sheet"}
    )
    data["start"] = _case(hand_over.start)
    data["journal"] = []
    for line in hand_over.journal:
        said = line.model_dump(mode="json", exclude_defaults=True, exclude={"after"})
        if after := _change(line.after):
            said["after"] = after
        data["journal"].append(said)
    if hand_over.sheet is not None:
        data["sheet"] = read_text(sheet_yaml(hand_over.sheet), "sheet").data
    # In the order of the form, so that people find at the head what is for them.
    return {name: data[name] for name in type(hand_over).model_fields if data.get(name)}


def _case(case: Case) -> dict[str, Any]:
    data: dict[str, Any] = case.model_dump(mode="json", exclude_defaults=True)
    if case.readings:
        data["readings"] = {id: _reading(reading) for id, reading in case.readings.items()}
    return data


def _change(change: Change) -> dict[str, Any]:
    data: dict[str, Any] = {}
    for name in type(change).model_fields:
        if name not in change.model_fields_set:
            continue
        value = getattr(change, name)
        if name == "readings":
            data[name] = {id: None if reading is None else _reading(reading) for id, reading in value.items()}
        elif name == "whole" and value is not None:
            data[name] = _case(value)
        elif isinstance(value, BaseModel):
            data[name] = value.model_dump(mode="json", exclude_defaults=True)
        else:
            data[name] = change.model_dump(mode="json", include={name})[name]
    return data


def _reading(reading: Reading) -> str | dict[str, Any]:
    """Return a reading as it was written; with its value in SI where that text does not say the whole of it."""
    if isinstance(reading, str):
        return reading
    try:
        if Measured.from_quantity(parse(reading.text, reading.kind, need_unit=True)) == reading:
            return reading.text
    except QuantityError:
        pass
    return reading.model_dump(mode="json", exclude_defaults=True)


# --- reading ---


def read_hand_over(path: Path) -> Received:
    """Return the hand-over in a file: as it is sent, or the texts of its codes.

    Raises:
        FileProblems: with every mistake in the file.
    """
    return understand(text_of(path, LARGEST_FILE), str(path))


def is_hand_over(path: Path) -> bool:
    """Say whether a file is meant to be a hand-over, or the texts of its codes; False where it cannot be read."""
    try:
        with path.open("rb") as stream:
            head = stream.read(2000).decode("utf-8-sig", "replace")
    except OSError:
        return False
    return f"format: {FORMAT.rpartition(' ')[0]}" in head or looks_like_code(head)


def understand(text: str, file: str) -> Received:
    """Return the hand-over that a text holds: a file's, or codes in any order.

    Args:
        text: as it was read, pasted or typed.
        file: what messages call it.

    Raises:
        FileProblems: with every mistake in it.
    """
    if looks_like_code(text):
        try:
            inside = out_of_codes(text).decode()
        except (CodeError, UnicodeDecodeError) as problem:
            raise FileProblems([Problem(file, 0, 0, "", "a damaged code", "", str(problem))]) from None
        return Received(_built(read_text(inside, file)), as_sent=True)
    text = text.replace("\r\n", "\n")
    above, _, digest = text.rstrip("\n").rpartition(_DIGEST)
    return Received(_built(read_text(text, file)), as_sent=digest == _digest(above))


def _built(source: Source) -> HandOver:
    data = source.data
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        raise FileProblems([_no_hand_over(source)])
    data = {name: value for name, value in data.items() if name != "digest"}
    kinds, problems = _kinds(source), list[Problem]()
    places: list[KeyPath] = [("start",)]
    journal = data.get("journal")
    for place in range(len(journal) if isinstance(journal, list) else 0):
        places += [("journal", place, "after"), ("journal", place, "after", "whole")]
    for path in places:
        inside = source.get(path)
        if isinstance(inside, dict) and isinstance(inside.get("readings"), dict):
            understood, wrong = _readings(source, (*path, "readings"), kinds)
            # Data that was read from a text is nobody else's: it may be completed in place.
            inside["readings"] = understood
            problems += wrong
    built = build(HandOver, source, data=data, known=problems)
    if wrong := list(_damaged(source, built.attachments)):
        raise FileProblems(wrong)
    return built


def _no_hand_over(source: Source) -> Problem:
    data = source.data
    found = data.get("format") if isinstance(data, dict) else None
    if isinstance(found, str) and found.startswith(FORMAT.rpartition(" ")[0]):
        remedy = (
            "it was made by another version: bring the older FaultDoc of the two up to date, and send it again"
        )
        return source.problem(("format",), as_found(found), as_found(FORMAT), remedy)
    remedy = "this is another kind of file; a hand-over is made with 'Hand over' or 'faultdoc handover make'"
    return source.problem(("format",), "no hand-over", f"format: {FORMAT}", remedy)


def _kinds(source: Source) -> dict[str, Kind]:
    points = source.get(("points",))
    kinds: dict[str, Kind] = {}
    for id, point in points.items() if isinstance(points, dict) else ():
        try:
            kinds[id] = Kind(point["kind"])
        except (KeyError, TypeError, ValueError):
            continue  # told by the model itself
    return kinds


def _readings(
    source: Source, path: KeyPath, kinds: Mapping[str, Kind]
) -> tuple[dict[str, Reading | None], list[Problem]]:
    """Return readings understood by the kinds of their points, and the problems of the others."""
    found: dict[str, Reading | None] = {}
    problems: list[Problem] = []
    for id, value in source.get(path).items():
        at: KeyPath = (*path, id)
        kind = kinds.get(id)
        if value is None or (kind is Kind.CHOICE and isinstance(value, str)):
            found[id] = value
        elif kind is None:
            allowed, remedy = "a point that 'points' names with its kind", "name it there, or take the reading out"
            problems.append(source.problem(at, f"the point '{id}'", allowed, remedy, at_value=False))
        elif kind is Kind.CHOICE:
            remedy = "ask for the file again"
            problems.append(source.problem(at, as_found(value), "the id of a choice", remedy))
        elif isinstance(value, dict):
            try:
                found[id] = Measured(**{**value, "kind": Kind(str(value.get("kind")))})
            except (TypeError, ValueError):
                allowed, remedy = "kind, value in SI and text", "ask for the file again"
                problems.append(source.problem(at, as_found(value), allowed, remedy))
        else:
            try:
                found[id] = Measured.from_quantity(parse(str(value), kind, need_unit=True))
            except QuantityError:
                problems.append(quantity_problem(source, at, value, kind))
    return found, problems


def content_of(attached: Attached) -> bytes:
    """Return the content of an attachment.

    Raises:
        ValueError: when it is not what was attached.
    """
    try:
        data = base64.b64decode("".join(attached.data.split()), validate=True)
    except binascii.Error:
        raise ValueError("characters that are no base64") from None
    if len(data) != attached.size or sha256(data).hexdigest() != attached.sha256:
        raise ValueError("another content than was attached")
    return data


def _damaged(source: Source, attachments: Iterable[Attached]) -> Iterator[Problem]:
    total = 0
    for place, attached in enumerate(attachments):
        at: KeyPath = ("attachments", place, "data")
        total += attached.size
        try:
            content_of(attached)
        except ValueError as wrong:
            yield source.problem(at, str(wrong), "the content as it was attached", "ask for the file again")
    if total > MOST_ATTACHED:
        allowed = f"at most {MOST_ATTACHED:,}"
        yield source.problem(("attachments",), f"{total:,} bytes", allowed, "have it sent with fewer photos")

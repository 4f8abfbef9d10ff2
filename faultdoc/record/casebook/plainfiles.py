"""The files of an export: what stands in them, written and read.

A folder holds one folder a case:
    case.yaml       the case as it is now, as the window and `faultdoc diagnose` open it
    journal.jsonl   one JSON object a line: first the case as it began, then each entry; import reads this one
    contacts.json   its people, only where they were asked for
    attachments/    its photos and documents, under the names that journal.jsonl gives
    unit.yaml       the data sheet of its unit, where that is one of the person's own
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Annotated, Literal, TypeVar

from pydantic import AfterValidator, AwareDatetime, Field, TypeAdapter, ValidationError

from faultdoc.library.cases import case_text
from faultdoc.model.base import Model
from faultdoc.model.case import Case
from faultdoc.plain import plain
from faultdoc.record.casebook.attachments import LARGEST, plain_name
from faultdoc.record.casebook.contacts import Contact
from faultdoc.record.casebook.errors import CaseBookError
from faultdoc.record.session import Entry

__all__ = ["AttachmentFile", "CaseFiles", "read_case_files", "write_case_files"]

LARGEST_JOURNAL, LARGEST_CONTACTS = 200_000_000, 1_000_000
"""Bytes; a journal has some ten kilobytes a move."""

CASE, JOURNAL, CONTACTS, ATTACHMENTS = "case.yaml", "journal.jsonl", "contacts.json", "attachments"
UNIT = "unit.yaml"

M = TypeVar("M")


class AttachmentFile(Model):
    """One attachment: its name, the file it is in, and what it is checked against."""

    name: Annotated[str, AfterValidator(plain)]
    file: str
    at: Annotated[AwareDatetime, Field(strict=False)]
    sha256: str


class _Head(Model):
    """The first line of a journal."""

    format: Literal[1]
    uid: Annotated[str, Field(pattern=r"^[0-9a-f]{32}$")]
    opened: Annotated[AwareDatetime, Field(strict=False)]
    closed: Annotated[AwareDatetime, Field(strict=False)] | None = None
    people: bool
    attachments: tuple[AttachmentFile, ...] = Field(default=(), strict=False)
    start: Case


class _Line(Model):
    """Each further line of a journal."""

    at: Annotated[AwareDatetime, Field(strict=False)]
    by: Annotated[str, Field(max_length=80), AfterValidator(plain)]
    move: Literal["do", "undo", "redo"]
    what: Annotated[str, AfterValidator(plain)]
    case: Case


@dataclass(frozen=True)
class CaseFiles:
    """A case as its folder holds it.

    Attributes:
        folder: of the case.
        people: whether names and numbers were left in.
        contacts: None where they were left out.
    """

    folder: Path
    uid: str
    opened: datetime
    closed: datetime | None
    people: bool
    start: Case
    entries: Sequence[Entry]
    contacts: tuple[Contact, ...] | None
    attachments: tuple[AttachmentFile, ...]

    def content(self, attachment: AttachmentFile) -> bytes:
        """Return what is in an attachment.

        Raises:
            CaseBookError: when its file is missing or not as it was exported.
        """
        path = self.folder / ATTACHMENTS / attachment.file
        data = _bytes(path, self.folder, LARGEST)
        if hashlib.sha256(data).hexdigest() != attachment.sha256:
            raise _wrong(path, None, "its content is not that which was exported")
        return data


def write_case_files(files: CaseFiles) -> None:
    """Write all of a case but the content of its attachments.

    Raises:
        OSError: when the folder cannot be written.
    """
    files.folder.mkdir()
    now = files.entries[-1].case if files.entries else files.start
    head = _Head(
        format=1,
        uid=files.uid,
        opened=files.opened,
        closed=files.closed,
        people=files.people,
        attachments=files.attachments,
        start=files.start,
    )
    lines: list[Model] = [head]
    lines += [_line(entry) for entry in files.entries]
    text = "".join(line.model_dump_json() + "\n" for line in lines)
    (files.folder / CASE).write_text(case_text(now, files.folder), encoding="utf-8", newline="\n")
    (files.folder / JOURNAL).write_text(text, encoding="utf-8", newline="\n")
    if files.contacts is not None:
        people = [one.model_dump() for one in files.contacts]
        text = json.dumps(people, indent=2, ensure_ascii=False) + "\n"
        (files.folder / CONTACTS).write_text(text, encoding="utf-8", newline="\n")
    if files.attachments:
        (files.folder / ATTACHMENTS).mkdir()


def _line(entry: Entry) -> _Line:
    assert entry.at is not None, "an entry of a case book has its time"
    return _Line(at=entry.at, by=entry.by, move=entry.move, what=entry.what, case=entry.case)


def read_case_files(folder: Path) -> CaseFiles:
    """Return the case that a folder holds; the content of its attachments is read when it is asked for.

    Raises:
        CaseBookError: naming file, line and remedy when something in it cannot be understood.
    """
    path = folder / JOURNAL
    lines = _read(path, folder, LARGEST_JOURNAL).removesuffix("\n").split("\n")
    head = _understood(TypeAdapter(_Head), lines[0], path, 1)
    for one in head.attachments:
        if one.file != plain_name(one.file):
            raise _wrong(path, 1, f"the attachment's file '{one.file}' is no plain name")
    entries = []
    for number, line in enumerate(lines[1:], start=2):
        read = _understood(TypeAdapter(_Line), line, path, number)
        entries.append(Entry(read.move, read.what, read.case, read.at, read.by))
    contacts = None
    if (folder / CONTACTS).exists():
        text = _read(folder / CONTACTS, folder, LARGEST_CONTACTS)
        contacts = _understood(TypeAdapter(tuple[Contact, ...]), text, folder / CONTACTS, None)
    return CaseFiles(
        folder=folder,
        uid=head.uid,
        opened=head.opened,
        closed=head.closed,
        people=head.people,
        start=head.start,
        entries=entries,
        contacts=contacts,
        attachments=head.attachments,
    )


def _bytes(path: Path, folder: Path, most: int) -> bytes:
    """Return what is in a file of an export; none that a link leads to from elsewhere, and none too large."""
    try:
        if not path.resolve().is_relative_to(folder.resolve()):
            raise _wrong(path, None, "it is a link to a file elsewhere")
        if path.exists() and not path.is_file():
            raise _wrong(path, None, "it is no file")
        with path.open("rb") as stream:
            data = stream.read(most + 1)
    except OSError as problem:
        raise _wrong(path, None, problem.strerror or str(problem)) from None
    if len(data) > most:
        raise _wrong(path, None, f"it has more than {most:,} bytes")
    return data


def _read(path: Path, folder: Path, most: int) -> str:
    try:
        return _bytes(path, folder, most).decode("utf-8")
    except UnicodeDecodeError as problem:
        raise _wrong(path, None, f"it is not UTF-8 ({problem.reason} at byte {problem.start})") from None


def _understood(model: TypeAdapter[M], text: str, path: Path, line: int | None) -> M:
    try:
        return model.validate_json(text)
    except ValidationError as problem:
        first = problem.errors()[0]
        where = ".".join(str(part) for part in first["loc"])
        raise _wrong(path, line, f"{where}: {first['msg']}" if where else first["msg"]) from None


def _wrong(path: Path, line: int | None, what: str) -> CaseBookError:
    place = f"{path}, line {line}" if line else str(path)
    return CaseBookError(
        f"{place}: {what}. Nothing was imported. Put the file back as it was exported, or take the folder "
        f"{path.parent.name} out of the export."
    )

"""Export of a case book as plain files, and import of what was exported, here or elsewhere."""

from __future__ import annotations

import os
import re
import shutil
import tempfile
from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Row, select

from faultdoc.library.load import load_unit, unit_path, units
from faultdoc.library.ownunits import keep_unit
from faultdoc.library.places import own_units_folder
from faultdoc.library.problems import FileProblems
from faultdoc.model.case import Case
from faultdoc.model.unit import DataSheet
from faultdoc.record.casebook import keeping
from faultdoc.record.casebook.attachments import add_attachment, attachments_of, plain_name
from faultdoc.record.casebook.contacts import contacts_of, replace_contacts
from faultdoc.record.casebook.errors import CaseBookError
from faultdoc.record.casebook.people import blot, in_case, in_entry
from faultdoc.record.casebook.plainfiles import (
    ATTACHMENTS,
    JOURNAL,
    UNIT,
    AttachmentFile,
    CaseFiles,
    read_case_files,
    write_case_files,
)
from faultdoc.record.casebook.rows import case_from, entries_of
from faultdoc.record.casebook.tables import attachments, aware, cases, closed
from faultdoc.record.session import Entry

__all__ = ["Imported", "export_cases", "import_cases"]


@dataclass(frozen=True)
class Imported:
    """What an import did.

    Attributes:
        new: ids of the cases that were not here.
        grown: were here, and went on elsewhere: what was done since is added.
        same: had nothing new.
        apart: went on both here and elsewhere. They are left as they are here.
        units: ids of the data sheets that came along and were not here.
    """

    new: tuple[int, ...]
    grown: tuple[int, ...]
    same: tuple[int, ...]
    apart: tuple[int, ...]
    units: tuple[str, ...]


# --- out ---


def export_cases(connection: Connection, folder: Path, people: bool, only: Collection[int] | None) -> int:
    """Write the cases into a new folder, whole or not at all; return how many.

    Args:
        connection: that sees the book at one moment.
        folder: is made; may be there if it is empty.
        people: whether names and numbers are left in.
        only: ids of the cases wanted; None for all.

    Raises:
        KeyError: when one of those is not there.
        CaseBookError: when the folder is in use or cannot be written, or a case not be read.
    """
    query = select(cases, closed.c.at.label("closed")).outerjoin(closed).order_by(cases.c.id)
    rows = connection.execute(query).all()
    if only is not None:
        if missing := set(only) - {row.id for row in rows}:
            raise KeyError(f"no case {min(missing)} in the case book")
        rows = [row for row in rows if row.id in only]
    try:
        with _whole_folder(folder) as draft:
            for row in rows:
                _export(connection, row, draft, people)
    except OSError as problem:
        raise CaseBookError(
            f"The export {folder} cannot be written: {problem.strerror or problem}. Choose another folder."
        ) from None
    return len(rows)


@contextmanager
def _whole_folder(folder: Path) -> Iterator[Path]:
    """Give a draft of a folder; at the end of a block without an error it takes the folder's place."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise CaseBookError(f"{folder} is not empty, and is left as it is. Name a folder that is not there yet.")
    folder.parent.mkdir(parents=True, exist_ok=True)
    draft = Path(tempfile.mkdtemp(dir=folder.parent, prefix=f".{folder.name}."))
    try:
        yield draft
        if folder.exists():
            folder.rmdir()
        umask = os.umask(0)
        os.umask(umask)
        draft.chmod(0o777 & ~umask)  # a draft is its owner's alone
        draft.rename(folder)
    finally:
        shutil.rmtree(draft, ignore_errors=True)


def _export(connection: Connection, row: Row[Any], folder: Path, people: bool) -> None:
    contacts = contacts_of(connection, row.id)
    start, entries = case_from(row.start, row.id), entries_of(connection, row.id)
    kept = attachments_of(connection, row.id)
    name_of: Callable[[str], str] = str
    if not people:
        without = blot(contacts, any_phone=True)
        start, entries = in_case(start, without), [in_entry(entry, without) for entry in entries]
        name_of = without
    listed = tuple(
        AttachmentFile(
            name=(name := plain_name(name_of(one.name))),
            file=plain_name(f"{number:03}-{name}"),
            at=one.at,
            sha256=one.sha256,
        )
        for number, one in enumerate(kept, start=1)
    )
    files = CaseFiles(
        folder=folder / _folder_name(row.uid, aware(row.at).strftime("%Y-%m-%d"), start),
        uid=row.uid,
        opened=aware(row.at),
        closed=None if row.closed is None else aware(row.closed),
        people=people,
        start=start,
        entries=entries,
        contacts=contacts if people else None,
        attachments=listed,
    )
    write_case_files(files)
    sheet = unit_path(start.unit)
    if sheet is not None and sheet.is_relative_to(own_units_folder()):
        shutil.copyfile(sheet, files.folder / UNIT)
    for one, file in zip(kept, listed, strict=True):
        content = connection.execute(select(attachments.c.content).where(attachments.c.id == one.id)).scalar_one()
        (files.folder / ATTACHMENTS / file.file).write_bytes(content)


def _folder_name(uid: str, day: str, case: Case) -> str:
    unit = re.sub(r"[^a-z0-9_]+", "-", Path(case.unit).stem.lower()).strip("-")[:40]
    return f"{day}-{unit}-{uid}"


# --- in ---


def import_cases(connection: Connection, folder: Path) -> Imported:
    """Take in the cases of an export, in the transaction given.

    Args:
        connection: in a transaction that may write.
        folder: of the export, or of one case of it.

    Raises:
        CaseBookError: naming file, line and remedy when something cannot be understood; the transaction is to be
            given up then.
    """
    told: dict[str, list[int]] = {"new": [], "grown": [], "same": [], "apart": []}
    sheets: dict[str, DataSheet] = {}
    for one in _case_folders(folder):
        files = read_case_files(one)
        way, case_id = _import(connection, files)
        told[way].append(case_id)
        if (sheet := _sheet(files)) is not None:
            sheets[sheet.id] = sheet
    for sheet in sheets.values():
        try:
            keep_unit(sheet)
        except OSError as problem:
            raise CaseBookError(
                f"The data sheet of unit {sheet.id} cannot be kept: {problem.strerror}. Nothing was imported."
            ) from None
    return Imported(**{way: tuple(ids) for way, ids in told.items()}, units=tuple(sheets))


def _sheet(files: CaseFiles) -> DataSheet | None:
    """Return the data sheet that came with a case, where there is none of its id here."""
    path = files.folder / UNIT
    if not path.is_file() or files.start.unit in units():
        return None
    try:
        sheet = load_unit(path)
    except FileProblems as problem:
        raise CaseBookError(f"{problem}\nNothing was imported. Put the file right, or take it out.") from None
    return sheet if sheet.id == files.start.unit else None


def _import(connection: Connection, files: CaseFiles) -> tuple[str, int]:
    case_id = keeping.id_of(connection, files.uid)
    new = case_id is None
    if case_id is None:
        case_id = keeping.enter(connection, files.start, files.uid, files.opened)
    summary = keeping.locked(connection, case_id)
    ours = entries_of(connection, case_id)
    if not all(_same(mine, theirs) for mine, theirs in zip(ours, files.entries, strict=False)):
        return "apart", case_id
    more = files.entries[len(ours) :]
    keeping.append(connection, case_id, more, summary)
    took = _take_the_rest(connection, case_id, files)
    return "new" if new else "grown" if more or took else "same", case_id


def _case_folders(folder: Path) -> list[Path]:
    if (folder / JOURNAL).is_file():
        return [folder]
    found = sorted(path.parent for path in folder.glob(f"*/{JOURNAL}"))
    if not found:
        raise CaseBookError(
            f"There is no case in {folder}: none of its folders has a {JOURNAL}. Name the folder of an export."
        )
    return found


def _same(ours: Entry, theirs: Entry) -> bool:
    """Say whether two entries are one: in an export without people the words may differ, time and move do not."""
    return (ours.at, ours.move) == (theirs.at, theirs.move)


def _take_the_rest(connection: Connection, case_id: int, files: CaseFiles) -> bool:
    """Take in people, attachments and the closing, as far as they are not here; return whether anything was."""
    took = False
    if files.contacts and not contacts_of(connection, case_id):
        replace_contacts(connection, case_id, files.contacts)
        took = True
    here = {one.sha256 for one in attachments_of(connection, case_id)}
    for one in files.attachments:
        if one.sha256 not in here:
            add_attachment(connection, case_id, one.name, files.content(one), one.at)
            took = True
    if files.closed is not None and keeping.close(connection, case_id, files.closed):
        took = True
    return took

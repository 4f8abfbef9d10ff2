"""Photos and documents of a case, kept in the case book itself so that they go where it goes."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, func, insert, select

from faultdoc.record.casebook.errors import CaseBookError
from faultdoc.record.casebook.rows import storable
from faultdoc.record.casebook.tables import attachments, aware, naive

__all__ = ["LARGEST", "MOST", "Attachment", "add_attachment", "attachments_of", "media_type", "plain_name"]

LARGEST = 20 * 1024 * 1024
"""Bytes of one attachment."""
MOST = 200 * 1024 * 1024
"""Bytes of all attachments of one case."""

_LISTED = [column for column in attachments.c if column.name != "content"]


@dataclass(frozen=True)
class Attachment:
    """A photo or document of a case.

    Attributes:
        id: in this case book.
        name: of the file it came from, without its folder.
        media_type: as its content shows, such as image/jpeg.
        size: bytes.
        at: UTC, when it was added.
        sha256: of its content, 64 hex digits.
    """

    id: int
    name: str
    media_type: str
    size: int
    at: datetime
    sha256: str


def media_type(data: bytes) -> str | None:
    """Return what the first bytes say the content is; None for what is not taken.

    JPEG: ISO/IEC 10918-1 B.1.1.3 (SOI, then another marker). PNG: ISO/IEC 15948 5.2. WebP: RFC 9649 2.
    PDF: ISO 32000-1 7.5.2.
    """
    if data.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "image/webp"
    if data.startswith(b"%PDF-"):
        return "application/pdf"
    return None


def plain_name(name: str) -> str:
    """Return a file's name without folders, and without what one of the systems does not take in a name.

    >>> plain_name("C:\\\\photos/plate?.jpg")
    'plate_.jpg'
    """
    last = re.split(r"[\\/]", storable(name))[-1]
    clean = re.sub(r'[\x00-\x1f\x7f<>:"|?*]', "_", last).strip(" .")
    stem, dot, ending = clean.rpartition(".")
    if len(clean) > 100 and dot and len(ending) < 10:
        clean = f"{stem[: 99 - len(ending)]}.{ending}"
    return clean[:100] or "attachment"


def add_attachment(
    connection: Connection, case_id: int, name: str, data: bytes, at: datetime | None = None
) -> Attachment:
    """Keep an attachment of a case; the same content is kept once.

    Raises:
        CaseBookError: when it is too large, or neither a photo nor a PDF.
    """
    name = plain_name(name)
    found = media_type(data)
    if found is None:
        what = "is empty" if not data else "is neither a photo (JPEG, PNG, WebP) nor a PDF"
        raise CaseBookError(f"{name} {what}, so it was not added. Save it as one of these, then add it again.")
    if len(data) > LARGEST:
        raise CaseBookError(
            f"{name} has {_megabytes(len(data))}, more than the {_megabytes(LARGEST)} one may have, "
            "so it was not added. Make the picture smaller, or split the document."
        )
    sha256 = hashlib.sha256(data).hexdigest()
    mine = attachments.c.case_id == case_id
    known = connection.execute(select(*_LISTED).where(mine, attachments.c.sha256 == sha256)).first()
    if known is not None:
        return _attachment(known)
    size = connection.execute(select(func.coalesce(func.sum(attachments.c.size), 0)).where(mine)).scalar_one()
    if size + len(data) > MOST:
        raise CaseBookError(
            f"The attachments of case {case_id} have {_megabytes(size)} already; with {name} they would be more "
            f"than the {_megabytes(MOST)} that one case may have, so it was not added. Add a smaller picture."
        )
    added = naive(at)
    values = {"name": name, "media_type": found, "size": len(data), "at": added, "sha256": sha256}
    made = connection.execute(insert(attachments).values(case_id=case_id, content=data, **values))
    key = made.inserted_primary_key
    assert key is not None
    return Attachment(int(key[0]), name, found, len(data), aware(added), sha256)


def attachments_of(connection: Connection, case_id: int) -> tuple[Attachment, ...]:
    """Return the attachments of a case, the first added first."""
    query = select(*_LISTED).where(attachments.c.case_id == case_id).order_by(attachments.c.id)
    return tuple(_attachment(row) for row in connection.execute(query))


def _attachment(row: Row[Any]) -> Attachment:
    return Attachment(row.id, row.name, row.media_type, row.size, aware(row.at), row.sha256)


def _megabytes(size: int) -> str:
    return f"{size / 1024 / 1024:.0f} MB"

"""The tables as they are now. The migrations make them; a test compares the two.

Times are UTC without a zone, as SQLite keeps none.
"""

from __future__ import annotations

from datetime import UTC, datetime

from sqlalchemy import (
    Column,
    DateTime,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    Text,
)

__all__ = ["aware", "naive", "now", "tables"]

tables = MetaData()

cases = Table(
    "cases",
    tables,
    Column("id", Integer, primary_key=True),
    Column("at", DateTime, nullable=False),
    Column("start", Text, nullable=False),
    Column("uid", String(32), nullable=False, server_default=""),
    Index("cases_uid", "uid", unique=True),
)
journal = Table(
    "journal",
    tables,
    Column("case_id", Integer, ForeignKey("cases.id"), primary_key=True),
    Column("seq", Integer, primary_key=True),
    Column("at", DateTime, nullable=False),
    Column("move", String(8), nullable=False),
    Column("what", Text, nullable=False),
    Column("case", Text, nullable=False),
    Column("by", String(80), nullable=False, server_default=""),
)
closed = Table(
    "closed",
    tables,
    Column("case_id", Integer, ForeignKey("cases.id"), primary_key=True),
    Column("at", DateTime, nullable=False),
)
attachments = Table(
    "attachments",
    tables,
    Column("id", Integer, primary_key=True),
    Column("case_id", Integer, ForeignKey("cases.id"), nullable=False),
    Column("at", DateTime, nullable=False),
    Column("name", String(120), nullable=False),
    Column("media_type", String(40), nullable=False),
    Column("size", Integer, nullable=False),
    Column("sha256", String(64), nullable=False),
    Column("content", LargeBinary, nullable=False),  # last: SQLite then lists the others without reading it
    Index("attachments_content", "case_id", "sha256", unique=True),
)
contacts = Table(
    "contacts",
    tables,
    Column("id", Integer, primary_key=True),
    Column("case_id", Integer, ForeignKey("cases.id"), nullable=False, index=True),
    Column("role", String(16), nullable=False),
    Column("name", Text, nullable=False),
    Column("phone", Text, nullable=False),
    Column("note", Text, nullable=False),
)
# What a list shows and is searched by. All of it follows from the case and its journal (summaries.py).
summaries = Table(
    "summaries",
    tables,
    Column("case_id", Integer, ForeignKey("cases.id"), primary_key=True, autoincrement=False),
    Column("title", Text, nullable=False),
    Column("unit", Text, nullable=False),
    Column("symptoms", Text, nullable=False),  # ' one two ': each between spaces
    Column("updated", DateTime, nullable=False, index=True),
    Column("outcome", String(16)),
    Column("cause", String(64)),
    Column("entries", Integer, nullable=False),
    Column("last", Text, nullable=False),
    Column("words", Text, nullable=False),  # each once, as searchwords.words_of gives them
)
# The case whose people are being forgotten, within that one transaction: what the triggers let pass.
erasing = Table(
    "erasing",
    tables,
    Column("case_id", Integer, ForeignKey("cases.id"), primary_key=True, autoincrement=False),
)


def now() -> datetime:
    """Return the time as the tables keep it."""
    return datetime.now(UTC).replace(tzinfo=None)


def naive(at: datetime | None) -> datetime:
    """Return a time as the tables keep it; now for None."""
    return now() if at is None else at.astimezone(UTC).replace(tzinfo=None)


def aware(at: datetime) -> datetime:
    """Return a time of the tables with its zone."""
    return at.replace(tzinfo=UTC)

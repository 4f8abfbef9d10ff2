"""Cases known on every machine, by whom an entry was made, attachments, contacts, and search.

A file of layout 1 holds real cases: each is given an id of its own, and its summary is made by layout.py.
"""

from uuid import uuid4

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"

ONLY_ADDED = {"cases": "id", "journal": "case_id", "closed": "case_id", "attachments": "case_id"}
"""Tables whose rows are only added, and the column that holds the case's id."""


def upgrade() -> None:
    """Add the columns and tables, then let the database itself refuse to change rows."""
    sqlite = op.get_bind().dialect.name == "sqlite"
    if sqlite:
        for table in ("cases", "journal", "closed"):
            for verb in ("update", "delete"):
                op.execute(f"DROP TRIGGER IF EXISTS {table}_no_{verb}")
    op.add_column("cases", sa.Column("uid", sa.String(32), nullable=False, server_default=""))
    op.add_column("journal", sa.Column("by", sa.String(80), nullable=False, server_default=""))
    _give_uids()
    op.create_index("cases_uid", "cases", ["uid"], unique=True)
    _make_tables()
    _only_add_sqlite() if sqlite else _only_add_postgresql()
    _find_sqlite() if sqlite else _find_postgresql()


def _give_uids() -> None:
    cases = sa.table("cases", sa.column("id", sa.Integer), sa.column("uid", sa.String))
    connection = op.get_bind()
    for id in connection.execute(sa.select(cases.c.id)).scalars().all():
        connection.execute(sa.update(cases).where(cases.c.id == id).values(uid=uuid4().hex))


def _make_tables() -> None:
    op.create_table(
        "attachments",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("case_id", sa.Integer, sa.ForeignKey("cases.id"), nullable=False),
        sa.Column("at", sa.DateTime, nullable=False),
        sa.Column("name", sa.String(120), nullable=False),
        sa.Column("media_type", sa.String(40), nullable=False),
        sa.Column("size", sa.Integer, nullable=False),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("content", sa.LargeBinary, nullable=False),
    )
    op.create_index("attachments_content", "attachments", ["case_id", "sha256"], unique=True)
    op.create_table(
        "contacts",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("case_id", sa.Integer, sa.ForeignKey("cases.id"), nullable=False),
        sa.Column("role", sa.String(16), nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("phone", sa.Text, nullable=False),
        sa.Column("note", sa.Text, nullable=False),
    )
    op.create_index("ix_contacts_case_id", "contacts", ["case_id"])
    op.create_table(
        "summaries",
        sa.Column("case_id", sa.Integer, sa.ForeignKey("cases.id"), primary_key=True, autoincrement=False),
        sa.Column("title", sa.Text, nullable=False),
        sa.Column("unit", sa.Text, nullable=False),
        sa.Column("symptoms", sa.Text, nullable=False),
        sa.Column("updated", sa.DateTime, nullable=False),
        sa.Column("outcome", sa.String(16)),
        sa.Column("cause", sa.String(64)),
        sa.Column("entries", sa.Integer, nullable=False),
        sa.Column("last", sa.Text, nullable=False),
        sa.Column("words", sa.Text, nullable=False),
    )
    op.create_index("ix_summaries_updated", "summaries", ["updated"])
    op.create_table(
        "erasing",
        sa.Column("case_id", sa.Integer, sa.ForeignKey("cases.id"), primary_key=True, autoincrement=False),
    )


def _only_add_sqlite() -> None:
    for table, key in ONLY_ADDED.items():
        lifted = f"WHEN NOT EXISTS (SELECT 1 FROM erasing WHERE erasing.case_id = OLD.{key})"
        for verb, unless in (("UPDATE", lifted), ("DELETE", "")):
            op.execute(
                f"CREATE TRIGGER {table}_no_{verb.lower()} BEFORE {verb} ON {table} {unless} "
                "BEGIN SELECT RAISE(ABORT, 'rows of the case book are only added'); END"
            )


def _only_add_postgresql() -> None:
    op.execute(
        """
        CREATE FUNCTION case_book_only_adds() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF TG_OP = 'UPDATE' THEN
                IF EXISTS (SELECT 1 FROM erasing WHERE erasing.case_id = (to_jsonb(OLD) ->> TG_ARGV[0])::int) THEN
                    RETURN NEW;
                END IF;
            END IF;
            RAISE EXCEPTION 'rows of the case book are only added';
        END
        $$
        """
    )
    for table, key in ONLY_ADDED.items():
        op.execute(
            f"CREATE TRIGGER {table}_only_added BEFORE UPDATE OR DELETE ON {table} "
            f"FOR EACH ROW EXECUTE FUNCTION case_book_only_adds('{key}')"
        )
        op.execute(
            f"CREATE TRIGGER {table}_not_emptied BEFORE TRUNCATE ON {table} "
            "FOR EACH STATEMENT EXECUTE FUNCTION case_book_only_adds()"
        )


def _find_sqlite() -> None:
    op.execute(
        "CREATE VIRTUAL TABLE found USING fts5(words, content='summaries', content_rowid='case_id', "
        "prefix='2 3', tokenize='unicode61 remove_diacritics 0')"
    )
    op.execute(
        "CREATE TRIGGER summaries_found AFTER INSERT ON summaries BEGIN "
        "INSERT INTO found (rowid, words) VALUES (NEW.case_id, NEW.words); END"
    )
    op.execute(
        "CREATE TRIGGER summaries_found_again AFTER UPDATE OF words ON summaries BEGIN "
        "INSERT INTO found (found, rowid, words) VALUES ('delete', OLD.case_id, OLD.words); "
        "INSERT INTO found (rowid, words) VALUES (NEW.case_id, NEW.words); END"
    )


def _find_postgresql() -> None:
    # Words are made alike for both databases by searchwords.words_of: PostgreSQL's own parser is not asked.
    op.execute(
        "ALTER TABLE summaries ADD COLUMN found tsvector "
        "GENERATED ALWAYS AS (array_to_tsvector(string_to_array(words, ' '))) STORED"
    )
    op.execute("CREATE INDEX summaries_found ON summaries USING gin (found)")

"""`faultdoc fleet`: the fleet by its case book, as text, JSON or CSV files."""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from faultdoc.library.load import load_library
from faultdoc.record.casebook import CaseBook
from faultdoc.record.fleet import chosen, fleet_of, histories
from faultdoc.record.fleettables import Cell, Table, fleet_tables, names_of
from faultdoc.record.fleettables import write_csv as tables_to_csv
from faultdoc.terminal.output import OutputError
from faultdoc.terminal.text import WIDTH, paragraph

__all__ = ["fleet_json", "fleet_text", "look", "write_csv"]


def look(unit: str | None, symptom: str | None, since: date | None, until: date | None) -> tuple[Table, ...]:
    """Return the tables of the case book's fleet, as far as wanted.

    Raises:
        CaseBookError: when the case book cannot be read.
    """
    book = CaseBook.open()
    try:
        found = chosen(histories(book), unit, symptom, since, until)
    finally:
        book.dispose()
    return fleet_tables(fleet_of(found, datetime.now(UTC)), names_of(load_library()))


def fleet_text(tables: Sequence[Table]) -> str:
    """Return the tables for a terminal, one below the other; of what is too wide, a list of facts a row."""
    return "\n\n".join(_text(table) for table in tables)


def _text(table: Table) -> str:
    head = f"{table.title}\n{paragraph(table.says, '  ')}"
    if not table.rows:
        return f"{head}\n{paragraph(table.empty, '  ')}"
    cells = [[_said(cell) for cell in row] for row in table.rows]
    widths = [max(len(text) for text in column) for column in zip(table.columns, *cells, strict=True)]
    if sum(widths) + 2 * len(widths) <= min(WIDTH, shutil.get_terminal_size((80, 24)).columns) - 2:
        lines = [
            "  " + "  ".join(text.ljust(width) for text, width in zip(row, widths, strict=True)).rstrip()
            for row in [list(table.columns), *cells]
        ]
        return "\n".join([head, *lines])
    rows = []
    for row in cells:
        first, *rest = zip(table.columns, row, strict=True)
        facts = "; ".join(f"{name.lower()} {text}" for name, text in rest if text not in ("", "0"))
        rows.append(f"{paragraph(first[1], '  ')}\n{paragraph(facts, '      ')}")
    return "\n".join([head, *rows])


def _said(cell: Cell) -> str:
    return "" if cell is None else str(cell)


def fleet_json(tables: Sequence[Table]) -> dict[str, Any]:
    """Return the tables for machines: by table, a list of rows, each a map from head to cell."""
    return {table.id: [dict(zip(table.columns, row, strict=True)) for row in table.rows] for table in tables}


def write_csv(tables: Sequence[Table], folder: Path) -> str:
    """Write each table into a folder as a CSV file, and say so.

    Raises:
        OutputError: when the folder cannot be written.
    """
    try:
        names = tables_to_csv(tables, folder)
    except OSError as problem:
        raise OutputError(f"{folder} cannot be written: {problem.strerror or problem}") from None
    return f"{', '.join(names)} are written into {folder}."

"""Programs killed at random moments: no answer that was acknowledged is lost, and the book goes on."""

import os
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from faultdoc.record.casebook import CaseBook, Contact, Wanted
from faultdoc.record.session import Entry

ROOT = Path(__file__).resolve().parents[3]

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork and SIGKILL"),
]

# Children are forked from a process that has imported what it needs: a round costs hundredths of a second.
ANSWERS = """
import os, random, select, signal, sys, time
from datetime import UTC, datetime
from faultdoc.model.case import Case
from faultdoc.record.casebook import CaseBook
from faultdoc.record.session import Entry

where, rounds = sys.argv[1], int(sys.argv[2])
start = Case.model_validate_json(sys.argv[3])
moment = random.Random(20)
for _ in range(rounds):
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reader)
        book = CaseBook.open(where)
        case_id = book.start(start)
        journal = book.journal(case_id)
        for number in range(1, 100_000):
            case = start.model_copy(update={"title": "x" * number})
            journal.append(Entry("do", f"answer{number}", case, datetime.fromtimestamp(number, UTC)))
            os.write(writer, f"{case_id} {number}\\n".encode())
        os._exit(1)
    os.close(writer)
    select.select([reader], [], [])
    time.sleep(moment.uniform(0.0, 0.05))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(reader) as acknowledged:
        print(acknowledged.readlines()[-1].strip(), flush=True)
"""


def answer(start, number):
    case = start.model_copy(update={"title": "x" * number})
    return Entry("do", f"answer{number}", case, datetime.fromtimestamp(number, UTC))


@pytest.mark.parametrize(("kind", "rounds"), [("sqlite", 200), ("postgresql", 20)])
def test_every_acknowledged_answer_outlives_a_kill(request, tmp_path, start, kind, rounds):
    where = tmp_path / "cases.sqlite" if kind == "sqlite" else request.getfixturevalue("database")
    command = [sys.executable, "-c", ANSWERS, str(where), str(rounds), start.model_dump_json()]
    run = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False)
    assert run.returncode == 0, run.stderr
    acknowledged = [tuple(map(int, line.split())) for line in run.stdout.splitlines()]
    assert len({case_id for case_id, _ in acknowledged}) == rounds

    book = CaseBook.open(where)
    for case_id, last in acknowledged:
        begun, entries = book.load(case_id)
        assert begun == start
        # One entry may have been committed and its acknowledgement cut off.
        assert len(entries) - last in (0, 1)
        assert entries == [answer(start, number) for number in range(1, len(entries) + 1)]
        # What the list and the search know is of the same transaction.
        assert case_id in {one.id for one in book.cases(Wanted(text=f"answer{last}", limit=None))}
        assert book.journal(case_id).last == len(entries)
    summaries = {one.id: one for one in book.unfinished()}
    assert set(summaries) == {case_id for case_id, _ in acknowledged}
    assert all(one.last == f"answer{one.entries}" for one in summaries.values())
    # And the last case goes on where it was cut off.
    case_id, last = acknowledged[-1][0], summaries[acknowledged[-1][0]].entries
    book.journal(case_id).append(answer(start, last + 1))
    assert book.load(case_id)[1][-1] == answer(start, last + 1)
    book.dispose()
    if kind == "sqlite":
        with closing(sqlite3.connect(where)) as raw:
            assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            # sqlite.org/fts5.html 6.5: rank 1 compares the index with the table too; it raises if they differ.
            raw.execute("INSERT INTO found (found, rank) VALUES ('integrity-check', 1)")


OPENED = """
import os, random, signal, sys, time
import alembic.command
from faultdoc.record.casebook import CaseBook

moment = random.Random(7)
for path in sys.argv[1:]:
    child = os.fork()
    if child == 0:
        CaseBook.open(path).dispose()
        os._exit(0)
    time.sleep(moment.uniform(0.0, 0.12))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
"""


def test_a_kill_while_a_book_is_brought_up_to_date_loses_nothing(tmp_path, old):
    paths = [tmp_path / f"{number}.sqlite" for number in range(15)]
    for path in paths:
        shutil.copy(old, path)
    run = subprocess.run(
        [sys.executable, "-c", OPENED, *paths], capture_output=True, text=True, cwd=ROOT, check=False
    )
    assert run.returncode == 0, run.stderr
    layouts = set()
    for path in paths:
        with closing(sqlite3.connect(path)) as raw:
            layouts.add(raw.execute("PRAGMA user_version").fetchone()[0])
        book = CaseBook.open(path)
        assert [one.id for one in book.cases(Wanted(text="strainer"))] == [2, 1]
        assert len(book.load(1)[1]) == 2
        book.dispose()
    assert 1 in layouts  # else none was killed in time, and nothing was tested


FORGOTTEN = """
import os, random, signal, sys, time
from faultdoc.record.casebook import CaseBook

moment = random.Random(3)
for path in sys.argv[1:]:
    child = os.fork()
    if child == 0:
        CaseBook.open(path).erase(1)
        os._exit(0)
    time.sleep(moment.uniform(0.0, 0.1))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
"""


def test_a_kill_while_people_are_forgotten_forgets_all_or_none(tmp_path, start, noted):
    book = CaseBook.open(tmp_path / "cases.sqlite")
    case_id = book.start(start)
    book.add_all(case_id, [noted(f"{number} Krawczyk rang") for number in range(200)])
    book.set_contacts(case_id, [Contact(role="caller", name="Zofia Krawczyk")])
    book.dispose()
    paths = [tmp_path / f"{number}.sqlite" for number in range(15)]
    for path in paths:
        shutil.copy(book.path, path)
    run = subprocess.run(
        [sys.executable, "-c", FORGOTTEN, *paths], capture_output=True, text=True, cwd=ROOT, check=False
    )
    assert run.returncode == 0, run.stderr
    known = set()
    for path in paths:
        book = CaseBook.open(path)
        entries = book.load(1)[1]
        left = {("Krawczyk" in entry.what, "Krawczyk" in entry.case.notes[0]) for entry in entries}
        assert left == {(bool(book.contacts(1)),) * 2}
        known |= left
        book.erase(1)  # what was cut off may be done again
        book.dispose()
        assert b"Krawczyk" not in b"".join(one.read_bytes() for one in tmp_path.glob(f"{path.name}*"))
    assert (True, True) in known  # else none was killed in time, and nothing was tested

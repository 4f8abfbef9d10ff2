"""Several desks at once: processes that write into one case book, and into one case of it."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from faultdoc.record.casebook import CaseBook

ROOT = Path(__file__).resolve().parents[3]

DESK = """
import os, sys
from faultdoc.model.case import Case
from faultdoc.record import moves
from faultdoc.record.casebook import CaseBook, CaseBookError
from faultdoc.record.session import Entry

where, case_id, wanted, desks = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4])
start = Case.model_validate_json(sys.argv[5])


def work(desk):
    book = CaseBook.open(where)
    kept = conflicts = 0
    while kept < wanted:
        case, entries = book.load(case_id)
        case = entries[-1].case if entries else case
        what = f"{desk} {kept}"
        journal = book.journal(case_id)
        if journal.last != len(entries):
            continue
        try:
            journal.append(Entry("do", what, moves.note(case, what), by=f"desk-{desk}"))
        except CaseBookError as problem:
            assert "worked on elsewhere" in str(problem), problem
            conflicts += 1
            continue
        kept += 1
        # A case of this desk's own: nobody's business but its own.
        own = book.start(start.model_copy(update={"title": what}))
        book.add_all(own, [Entry("do", what, start)])
    print(conflicts, flush=True)
    os._exit(0)


children = []
for desk in range(desks):
    child = os.fork()
    if not child:
        try:
            work(desk)
        finally:
            os._exit(1)
    children.append(child)
sys.exit(max(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children))
"""


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
def test_desks_at_one_case_lose_nobodys_answer(where, start):
    book = CaseBook.open(where)
    case_id = book.start(start)
    book.dispose()
    desks, each = 4, 20
    command = [
        *(sys.executable, "-c", DESK, str(where), str(case_id), str(each), str(desks)),
        start.model_dump_json(),
    ]
    done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False)
    assert done.returncode == 0, done.stderr
    conflicts = [int(line) for line in done.stdout.split()]
    assert len(conflicts) == desks
    assert sum(conflicts) > 0  # else they were never at it at once, and nothing was tested
    book = CaseBook.open(where)
    _, entries = book.load(case_id)
    acknowledged = {f"{desk} {number}" for desk in range(desks) for number in range(each)}
    assert len(entries) == desks * each
    assert {entry.what for entry in entries} == acknowledged
    for number, entry in enumerate(entries, start=1):
        # Each answer was given on top of all before it: none was overwritten.
        assert entry.case.notes == tuple(one.what for one in entries[:number])
        assert entry.by == f"desk-{entry.what.split()[0]}"
    assert len(book.cases()) == desks * each + 1
    assert book.journal(case_id).last == desks * each
    book.dispose()

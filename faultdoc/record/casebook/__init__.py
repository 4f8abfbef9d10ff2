"""The case book: every move of every case in one database, safe before it shows.

A case is what it was at the start and the journal of moves since; rows of both are only ever added. The database
is a SQLite file by default, or PostgreSQL by its address, shared by several desks.
"""

from faultdoc.record.casebook.attachments import Attachment
from faultdoc.record.casebook.book import CaseBook, CaseJournal
from faultdoc.record.casebook.contacts import Contact
from faultdoc.record.casebook.erase import Erased
from faultdoc.record.casebook.errors import CaseBookError
from faultdoc.record.casebook.summaries import Summary, Wanted
from faultdoc.record.casebook.transfer import Imported

__all__ = [
    "Attachment",
    "CaseBook",
    "CaseBookError",
    "CaseJournal",
    "Contact",
    "Erased",
    "Imported",
    "Summary",
    "Wanted",
]

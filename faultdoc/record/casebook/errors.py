"""What can be wrong with a case book, in words: what it is, where, and what helps."""

from __future__ import annotations

import sqlite3

from faultdoc.record.casebook.place import Place

__all__ = ["ASIDE", "CaseBookError", "in_words"]

ASIDE = "Nothing in it was changed. To start a new case book, move the file away or set FAULTDOC_HOME."


class CaseBookError(Exception):
    """The case book cannot be used; the message names the place, what is wrong and the remedy."""


def in_words(problem: BaseException | None, place: Place) -> str:
    """Return what the database's complaint means for the reader."""
    return _file(problem, place) if place.path is not None else _server(problem, place)


def _file(problem: BaseException | None, place: Place) -> str:
    code = getattr(problem, "sqlite_errorcode", 0) & 0xFF
    if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB):
        return f"The case book {place} is damaged ({problem}). {ASIDE} Keep it: cases may be got back from a copy."
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return f"The case book {place} is locked by another program. Close that program, then try again."
    if code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_CANTOPEN):
        return (
            f"The case book {place} cannot be opened for writing ({problem}). Check the rights on the file and "
            "its folder, or name another folder with FAULTDOC_HOME."
        )
    if code == sqlite3.SQLITE_FULL:
        return f"The case book {place} could not be written: the disk is full. Free some space, then try again."
    return f"The case book {place} could not be used: {problem}. Check the disk and the file."


def _server(problem: BaseException | None, place: Place) -> str:
    """Return PostgreSQL's complaint in words; its codes are in appendix A of PostgreSQL's manual."""
    code = getattr(problem, "sqlstate", None) or ""
    said = " ".join(str(problem).split())
    if code == "55P03":
        return f"The case book {place} is locked by another program. Wait until it is done, then try again."
    if code in ("42501", "25006"):
        return f"The case book {place} may not be written by this user ({said}). Ask for the rights on the server."
    if code == "23505":
        return f"Somebody entered the same into the case book {place} at the same moment. Try again."
    if code.startswith("53"):
        return f"The case book {place} could not be written: the server has run out of disk or memory ({said})."
    if code.startswith("28") or "authentication failed" in said or "no password supplied" in said:
        return f"The case book {place} refused the name or password ({said}). Correct them in its address."
    if code == "3D000" or "does not exist" in said:
        return f"The case book {place} is not there ({said}). Make it on the server, or correct the address."
    if not code or code.startswith(("08", "57P")):
        return (
            f"The case book {place} cannot be reached ({said}). Check the network and the server, or work on with "
            "a case book on this machine: leave FAULTDOC_CASE_BOOK and the setting case_book empty."
        )
    return f"The case book {place} could not be used: {said}."

"""Words to find a case by: made and asked for in one way, whatever the database and whatever a person types."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

from sqlalchemy import Dialect, TextClause, text

__all__ = ["found_by", "more_words", "words_of"]

_WORD = re.compile(r"[^\W_]+")
_LONGEST = 64
"""Characters of a word that count; PostgreSQL takes no word over 2 kB."""
_MOST = 200_000
"""Characters of all words of a case; PostgreSQL's index takes no more than 1 MB."""


def words_of(text: str) -> list[str]:
    """Return the words of a text, each once, without case, accents and signs.

    >>> words_of("Strainer CLOGGED: café_2, clogged!")
    ['strainer', 'clogged', 'cafe', '2']
    """
    # Both sides of the folding: a raised capital is a plain capital only once it is taken apart.
    plain = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).casefold())
    bare = "".join(sign for sign in plain if not unicodedata.combining(sign))
    return list(dict.fromkeys(word[:_LONGEST] for word in _WORD.findall(bare)))


def more_words(known: str, texts: Iterable[str]) -> str:
    """Return the words known, and those of the texts that are new, separated by spaces."""
    words = dict.fromkeys(known.split())
    size = len(known)
    for word in words_of("\n".join(texts)):
        if word not in words and size + len(word) < _MOST:
            words[word] = None
            size += len(word) + 1
    return " ".join(words)


def found_by(wanted: str, dialect: Dialect) -> TextClause | None:
    """Return the condition that a summary has words beginning with each of those wanted; None when none is.

    Only letters and digits are left of what was typed, so nothing in it can be read as an operator.
    """
    words = words_of(wanted)[:50]
    if not words:
        return None
    if dialect.name == "sqlite":
        query = " AND ".join(f'"{word}"*' for word in words)
        asked = "summaries.case_id IN (SELECT rowid FROM found WHERE found MATCH :wanted_words)"
    else:
        query = " & ".join(f"'{word}':*" for word in words)
        asked = "summaries.found @@ CAST(:wanted_words AS tsquery)"
    return text(asked).bindparams(wanted_words=query)

"""Names and telephone numbers that somebody typed into free text: found, and replaced by a plain mark.

Names are those of the contacts of the case: the whole name, and each part of it, in any case. That takes more than
it must where a name is also a word ('Mark', 'Bill'): better a word lost than a person found.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable
from dataclasses import replace

from faultdoc.model.case import Case
from faultdoc.record.casebook.contacts import Contact
from faultdoc.record.session import Entry

__all__ = ["NAME", "PHONE", "Blot", "blot", "in_case", "in_entry"]

NAME = "[name]"
PHONE = "[phone number]"

_LONGEST = 4000
"""Characters that `Text` of `faultdoc.model.base` takes."""

Blot = Callable[[str], str]
"""From a text to that text without the people."""

_WORDS = """
a an and at by de del den der die di do dr el for from in la las le los miss mr mrs ms mx of on or prof sir st the
to van von with
"""
_NO_NAME = frozenset(_WORDS.split())
"""Parts of a name that are no one's alone."""

_BETWEEN = r"[ \t\u00a0().\-/\u2010-\u2015]{0,3}"
"""What people put between the digits of a number."""
_LIKE_A_PHONE = re.compile(rf"(?<![\w.])(?:\+\s?)?\(?\d(?:{_BETWEEN}\d){{6,14}}(?!\w)")
"""7 digits, as a local number has, to 15, the most of ITU-T E.164."""
_NO_PHONE = re.compile(r"\d{4}-\d\d-\d\d(?: \d\d)?|\d{1,2}[./]\d{1,2}[./]\d{4}(?: \d\d)?|0\.\d+")
"""Dates, with the hour of a time that follows, and decimals."""
_READINGS = re.compile(r"\d{1,3}(?:\.\d+)?(?:[ /]\d{1,3}(?:\.\d+)?)*")
"""Readings in a row, such as '400 401 399 V'."""
_UNIT = re.compile(
    r"\s?(?:[%°Ω]|"
    r"(?:V|m?A|k?W|kVA|Hz|[CFK]|[kM]?Pa|m?bar|psig?|[kM]?ohms?|[kM]Ω|rpm|gpm|m{1,2}|kg|lb|s|h)\b)"
)


def blot(people: Iterable[Contact], *, any_phone: bool) -> Blot:
    """Return the function that takes these people out of a text.

    Args:
        people: of the case; their names and numbers go wherever they stand.
        any_phone: whether whatever looks like a telephone number goes too.
    """
    people = list(people)
    names, numbers = _names(one.name for one in people), _numbers(one.phone for one in people)

    def without(text: str) -> str:
        if numbers is not None:
            text = numbers.sub(PHONE, text)
        if any_phone:
            text = _LIKE_A_PHONE.sub(_unless_readings, text)
        return names.sub(NAME, text) if names is not None else text

    return without


def _unless_readings(found: re.Match[str]) -> str:
    text = found[0]
    if _NO_PHONE.fullmatch(text) or (_READINGS.fullmatch(text) and _UNIT.match(found.string, found.end())):
        return text
    return PHONE


def _numbers(phones: Iterable[str]) -> re.Pattern[str] | None:
    """Return a pattern of the numbers, with and without the codes before them, however their digits are set."""
    patterns = set()
    for phone in phones:
        digits = "".join(sign for sign in phone if sign in "0123456789")
        if len(digits) >= 7:
            codes = r"(?:\+?\(?\d[\d \t\u00a0().\-/]{0,9})?"
            patterns.add(codes + _BETWEEN.join(digits[-7:]) + r"(?!\d)")
        elif len(digits) >= 4:
            patterns.add(rf"(?<!\d){_BETWEEN.join(digits)}(?!\d)")
    return re.compile("|".join(sorted(patterns, key=len, reverse=True))) if patterns else None


def _names(people: Iterable[str]) -> re.Pattern[str] | None:
    """Return a pattern of the names and their parts, in any order, whatever stands between them."""
    telling, others = set[str](), set[str]()
    for name in people:
        apart = unicodedata.normalize("NFD", name)
        bare = "".join(sign for sign in apart if not unicodedata.combining(sign))
        for form in (unicodedata.normalize("NFC", name), apart, bare):
            parts = _PART.findall(form)
            # An initial or a 'van' tells of no one, but goes with the name beside it.
            mine = {part for part in parts if len(part) > 1 and part.casefold() not in _NO_NAME}
            telling |= mine or set(parts)
            others |= set(parts)
    if not telling:
        return None
    between = r"[\s,.\-_]{1,3}"
    one, any_part = _either(telling), _either(telling | others)
    return re.compile(f"(?:{any_part}{between})*{one}(?:{between}{any_part})*(?:['’]s{_END})?", re.IGNORECASE)


_PART = re.compile(r"(?:[^\W\d_][\u0300-\u036f]*)+(?:['’](?:[^\W\d_][\u0300-\u036f]*)+)*")
_END = r"(?![^\W\d_])"


def _either(parts: Iterable[str]) -> str:
    return f"(?:{'|'.join(_whole(part) for part in sorted(parts, key=lambda part: (-len(part), part)))})"


def _whole(part: str) -> str:
    """Return a pattern that matches no part of another word, where a script has spaces between its words."""
    if any("\u0e00" <= sign <= "\u0eff" or sign >= "\u2e80" for sign in part):
        return re.escape(part)
    return rf"(?<![^\W\d_]){re.escape(part)}{_END}"


def in_case(case: Case, without: Blot) -> Case:
    """Return the case with all its free texts blotted: ids, readings and the plant's state stay."""

    def blotted(text: str) -> str:
        return without(text)[:_LONGEST].strip()  # a mark may be longer than what it stands for

    def maybe(text: str | None) -> str | None:
        return None if text is None else blotted(text)

    conclusion = case.conclusion
    if conclusion is not None:
        texts = {"proof": maybe(conclusion.proof), "note": maybe(conclusion.note)}
        conclusion = conclusion.model_copy(update=texts)
    return case.model_copy(
        update={
            "title": maybe(case.title),
            "notes": tuple(blotted(note) for note in case.notes),
            "tried": tuple(one.model_copy(update={"note": maybe(one.note)}) for one in case.tried),
            "conclusion": conclusion,
        }
    )


def in_entry(entry: Entry, without: Blot) -> Entry:
    """Return an entry with its words, its station and its case blotted."""
    return replace(entry, what=without(entry.what), by=without(entry.by), case=in_case(entry.case, without))

"""A short case as one to four lines of text for QR codes, each of which knows its place and its checksum.

A code reads `FAULTDOC1:` + letters + `:`, where the letters stand for: one byte with the code's number and
how many there are, the first four bytes of the SHA-256 of the whole, this code's part of the whole (deflated), and
the CRC-32 of everything before. Any phone shows it as plain text. White space, line ends and whatever else a
message puts around it do no harm; a character changed, lost or swapped is refused.
"""

from __future__ import annotations

import re
import zlib
from hashlib import sha256

from faultdoc.record.handover.letters import LettersError, spelt, unspelt

__all__ = [
    "EASY",
    "LARGEST",
    "MOST_CODES",
    "CodeError",
    "TooLongError",
    "in_codes",
    "looks_like_code",
    "out_of_codes",
]

MARK = "FAULTDOC1:"
EASY = 1451
"""Characters of a code that a phone reads off a small screen: version 25, level M (ISO/IEC 18004, table 7)."""
MOST = 3391
"""Characters of the largest code there is at level M: version 40 (the same table)."""
MOST_CODES = 4
MOST_PASTED = 100
"""Codes that are looked through, repeats and all."""
LARGEST = 1_000_000
"""Bytes that an inflated case may have; of a code that claims more, no more than these are inflated."""

_AROUND = 1 + 4 + 4  # bytes: place, digest, checksum
_CODE = re.compile(re.escape(MARK) + "([^:]*)(:?)")

_COMMON = b"""
{"format":"faultdoc hand-over 1","sent":{"at":"2026-01-01T00:00:00.000000Z","by":"desk-","faultdoc":"0.1.0"},
"uid":"start":{"title":"","unit":"","symptoms":["flow_proving_trip"],"state":{"supply":"isolated","panel":"open",
"pump":"stopped","water":"depressurised","compressors":"stopped","oil":"cold","refrigerant":"closed"},"who":[
"caller","crew","technician","electrical_worker","refrigerant_handler"],"readings":{},"answers":{"burnt_or_wet":
"none"},"notes":[""]},"journal":[{"at":"2026-","by":"desk-","what":"Answered: ","after":{"answers":{"
"},"at_hand":[""],"place":"panel"}},{"at":"2026-","by":"desk-","what":"Read: ","after":{"readings":{
"water_in_temperature":"suction_pressure_a":"60 psi \xc2\xb1 1 psi","move":"undo","set_aside":["unproved":"
"tried":[{"cause":"","proved":true,"known":["conclusion":{"outcome":"fixed","more":{"notes":["belief":{"
"points":{"barrel_in_pressure":{"kind":"gauge_pressure","title":"Pressure temperature current voltage choice"},
"words":{"symptoms":{"questions":{"ask":"answers":{"causes":{"prints":{"trees":{"plant":"sheet":"
""".replace(b"\n", b"")
"""What cases have in common, from which the deflation starts. A part of the format that is never to be changed."""


class CodeError(ValueError):
    """The text holds no whole case; the message says what is wrong with it and what helps."""


class TooLongError(ValueError):
    """The case is too long for four codes; a file has no such limit."""


def looks_like_code(text: str) -> bool:
    """Say whether a text is meant to be codes, whole or not."""
    return MARK in _tidy(text)


def in_codes(data: bytes, easy: int = EASY) -> tuple[str, ...]:
    """Return bytes as the lines of text of as few codes as are read with ease, else of as few as there must be.

    Args:
        data: the case.
        easy: characters up to which a code is read with ease.

    Raises:
        TooLongError: when four of the largest codes do not hold it.
    """
    deflater = zlib.compressobj(9, zlib.DEFLATED, -15, 9, zdict=_COMMON)
    packed = deflater.compress(data) + deflater.flush()
    digest = sha256(data).digest()[:4]
    for longest in (easy, MOST):
        room = (longest - len(MARK) - 1) * 2 // 3 - _AROUND
        count = -(-len(packed) // room)
        if count <= MOST_CODES:
            return _cut(packed, digest, count)
    raise TooLongError(
        f"The case is too long for QR codes ({len(packed):,} bytes of at most {MOST_CODES * room:,}). "
        "Send it as a file."
    )


def _cut(packed: bytes, digest: bytes, count: int) -> tuple[str, ...]:
    size = -(-len(packed) // count)
    codes = []
    for place in range(count):
        body = bytes([place << 4 | count - 1]) + digest + packed[place * size : (place + 1) * size]
        codes.append(MARK + spelt(body + zlib.crc32(body).to_bytes(4, "big")) + ":")
    return tuple(codes)


def out_of_codes(text: str) -> bytes:
    """Return the bytes that codes hold, given in any order, with or without repeats and other text around them.

    Raises:
        CodeError: when a code is damaged, one is missing, or they are not all of one case.
    """
    found = _CODE.findall(_tidy(text))
    if not found:
        raise CodeError(f"This holds no code of a case. Paste all of what the camera read, from '{MARK}' on.")
    if len(found) > MOST_PASTED:
        raise CodeError("This holds more codes than a case has. Paste the codes of one case only.")
    parts: dict[int, bytes] = {}
    wholes = set()
    for letters, end in found:
        if not end:
            raise CodeError("A code is cut off at its end. Scan it again and paste all of it.")
        place, count, digest, part = _opened(letters)
        wholes.add((count, digest))
        parts[place] = part
    if len(wholes) > 1:
        raise CodeError("These codes are of different cases. Paste the codes of one case only.")
    ((count, digest),) = wholes
    if lacking := [str(place + 1) for place in range(count) if place not in parts]:
        numbers = " and ".join(lacking)
        raise CodeError(
            f"Of {count} codes, number {numbers} is missing. Scan that too and paste it with the rest."
        )
    data = _inflated(b"".join(parts[place] for place in range(count)))
    if sha256(data).digest()[:4] != digest:
        raise CodeError("The codes do not fit together. Scan all of them again.")
    return data


def _opened(letters: str) -> tuple[int, int, bytes, bytes]:
    """Return a code's place from 0, how many there are, the digest of the whole, and its part."""
    damaged = CodeError("A code is damaged: a character of it is not what was sent. Scan it again.")
    if len(letters) > MOST:
        raise damaged
    try:
        body = unspelt(letters)
    except LettersError:
        raise damaged from None
    if len(body) < _AROUND or zlib.crc32(body[:-4]).to_bytes(4, "big") != body[-4:]:
        raise damaged
    place, count = body[0] >> 4, (body[0] & 15) + 1
    return place, count, body[1:5], body[5:-4]


def _inflated(packed: bytes) -> bytes:
    inflater = zlib.decompressobj(-15, zdict=_COMMON)
    try:
        data = inflater.decompress(packed, LARGEST)
    except zlib.error:
        raise CodeError("The codes cannot be unpacked. They were made by another version of FaultDoc.") from None
    if not inflater.eof or inflater.unconsumed_tail:
        raise CodeError(
            f"The codes claim to hold more than {LARGEST:,} bytes, or are not whole. Ask for the file."
        )
    return data


def _tidy(text: str) -> str:
    return "".join(text.split()).upper()

"""Bytes written with the few characters that a QR code packs densely, as in RFC 9285 (Base45).

RFC 9285 writes two bytes as three characters of 45, one of which is the blank. Blanks do not outlive a
message that is sent on or a field that is pasted into, and 41 characters are enough for three to hold two
bytes (41^3 > 65,536). So the same arithmetic is used with an alphabet without the blank, and without
the colon, which is left to mark where a code ends, the asterisk, which chat programs eat, and the per cent sign.
"""

from __future__ import annotations

__all__ = ["LETTERS", "LettersError", "spelt", "unspelt"]

LETTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ$+-./"
"""The alphabet, in the order of RFC 9285, table 1, without the four characters named above."""


class LettersError(ValueError):
    """What is to be read was not written by `spelt`."""


def spelt(data: bytes, letters: str = LETTERS) -> str:
    """Return bytes in letters, three for two bytes and two for a last one.

    >>> spelt(b"AB", "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")
    'BB8'
    """
    base = len(letters)
    written = []
    for place in range(0, len(data), 2):
        pair = data[place : place + 2]
        number = int.from_bytes(pair, "big")
        for _ in range(len(pair) + 1):
            number, digit = divmod(number, base)
            written.append(letters[digit])
    return "".join(written)


def unspelt(text: str, letters: str = LETTERS) -> bytes:
    """Return the bytes that letters stand for.

    Raises:
        LettersError: for a character that is not in the alphabet, a group that stands for no byte or pair of
            bytes, and a single character at the end.
    """
    base = len(letters)
    values = {letter: value for value, letter in enumerate(letters)}
    data = bytearray()
    for place in range(0, len(text), 3):
        group = text[place : place + 3]
        size = len(group) - 1
        try:
            number = sum(values[letter] * base**power for power, letter in enumerate(group))
        except KeyError as unknown:
            raise LettersError(f"the character {unknown} is not one that is used here") from None
        if size == 0 or number >= 256**size:
            raise LettersError(f"'{group}' stands for nothing")
        data += number.to_bytes(size, "big")
    return bytes(data)

"""Text from elsewhere as it may be shown: no control characters, and none that turn the direction of writing.

Escape sequences move a terminal's cursor, rename its window or hide what was printed (ECMA-48); overrides
and isolates make a line read otherwise than it is (Unicode Technical Report 36, 2.10; Boucher and Anderson
2021, Trojan source). No text of ours needs either.
"""

from __future__ import annotations

import re

__all__ = ["ODD", "plain"]

ODD = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x84\x86-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
"""Controls of C0 and C1 but tab, line feed and next line; marks, embeddings, overrides, isolates; surrogates."""


def plain(text: str) -> str:
    """Return the text with the sign for 'no character' (U+FFFD) in place of everything that does not just print.

    >>> plain("valve \\x1b[2J shut")
    'valve \ufffd[2J shut'
    """
    return ODD.sub("\ufffd", text.replace("\r\n", "\n"))

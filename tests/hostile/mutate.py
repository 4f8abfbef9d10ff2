"""Makes hostile inputs out of good ones: seeded, and aware of the structure of what it spoils.

Four ways, chosen at random and several times over: gently, on numbers and neighbours; on the data (a key or
an item taken out, repeated, wrapped, put elsewhere, replaced by another kind of thing); on single values
(extremes of numbers with their unit kept, texts that are markup, formulas, paths, escape sequences); and on the
bytes.
"""

from __future__ import annotations

import json
import random
import re
from collections.abc import Callable
from typing import Any

__all__ = ["NUMBERS", "TEXTS", "mutated"]

NUMBERS = (
    "0", "-0", "-1", "1", "0.0", "1e-300", "5e-324", "1e15", "-1e15", "1e16", "1e300", "1e308", "1e309", "-1e309",
    ".nan", ".inf", "-.inf", "NaN", "Infinity", "0x7fffffff", "0o777", "1_000", "1,000", "1,5", "1.2.3", "1/0",
    "1/3", "1:20", "99:59:59", "2147483648", "-9223372036854775809", "1e", "e5", "+", "-", ".", "0b1", "1e-15",
    "\u00bd", "\u0663", "9" * 40, "9" * 41, "9" * 400, "0." + "0" * 300 + "1", "5 1/2",
)  # fmt: skip
"""Numbers at the ends of what machines hold, and texts that nearly are numbers."""

_YAML = (
    "", " ", "~", "null", "true", "no", "[]", "{}", "*a", "&a x", "!!python/object/apply:os.system [id]", "<<: *a",
    "%YAML 1.2", "---", "...", "? a", "- a", "a: b: c", "\t", "'", '"', "\\", '"\\x1b[2J"', "\\u0000",
)  # fmt: skip
_SIGNS = (
    "\x1b]0;owned\x07",
    "\x00",
    "\x85",
    "\u2028",
    "\ufeff",
    "\u202e gnp.exe",
    "\u2066x\u2069",
    "\U0001f600",
    "e\u0301" * 50,
)
_MARKUP = ("<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "</style><style>*{display:none}",
           "javascript:alert(1)", "{{ 7 * 7 }}", "{% for x in range(9999999) %}x{% endfor %}", "${jndi:ldap://x}",
           "&amp;&lt;", "%s%s%n", "'; DROP TABLE cases; --")  # fmt: skip
_FORMULAS = ("=1+1", "+1", "-1+2", "@SUM(A1)", "=cmd|' /C calc'!A0")
_PATHS = ("../../../../etc/passwd", "/etc/passwd", "//host/share/x.yaml", "C:\\x.yaml", "~/.ssh/id_rsa",
          "file:///etc/passwd", "CON")  # fmt: skip
TEXTS = (*_YAML, *_SIGNS, *_MARKUP, *_FORMULAS, *_PATHS, "a" * 5000, "x\n" * 3000)
"""Texts that mean something to somebody: parsers, browsers, spreadsheets, shells, terminals, file systems."""

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?")


def mutated(seed: int, corpus: list[tuple[bytes, Any]], *, most: int = 400_000) -> bytes:
    """Return one hostile input.

    Args:
        seed: the same seed gives the same input.
        corpus: good inputs, each with its data (None where it is no data that JSON can say).
        most: bytes of what is returned.
    """
    chance = random.Random(seed)
    good, data = chance.choice(corpus)
    made = good
    if data is not None and chance.random() < 0.5:
        # Gently: most of these are let in, and show what a strange value does further on.
        copy = json.loads(json.dumps(data))
        for _ in range(chance.choice((1, 1, 2, 4))):
            _scaled(*_somewhere(copy, chance), chance)
        return json.dumps(copy, ensure_ascii=False).encode("utf-8", "surrogatepass")[:most]
    if data is not None and chance.random() < 0.6:
        made = json.dumps(_spoilt(data, chance), ensure_ascii=chance.random() < 0.3).encode(
            "utf-8", "surrogatepass"
        )
    for _ in range(chance.choice((0, 0, 1, 1, 2, 5)) if made is not good else chance.choice((1, 1, 2, 4, 16))):
        made = chance.choice(_ON_BYTES)(made, chance, corpus)
    return made[:most]


# --- on the data ---


def _spoilt(data: Any, chance: random.Random) -> Any:
    copy = json.loads(json.dumps(data))
    for _ in range(chance.choice((1, 1, 1, 2, 3, 8))):
        holder, key = _somewhere(copy, chance)
        if holder is None:
            return _anything(chance)
        chance.choice(_ON_DATA)(holder, key, chance)
    return copy


def _somewhere(data: Any, chance: random.Random) -> tuple[Any, Any]:
    """Return a map or list in the data and a key or place in it; deep places as likely as high ones."""
    holder, key = None, None
    depth = chance.randint(1, 9)
    for _ in range(depth):
        if isinstance(data, dict) and data:
            holder, key = data, chance.choice(list(data))
        elif isinstance(data, list) and data:
            holder, key = data, chance.randrange(len(data))
        else:
            break
        data = holder[key]
    return holder, key


def _replace(holder: Any, key: Any, chance: random.Random) -> None:
    holder[key] = _anything(chance)


def _number(holder: Any, key: Any, chance: random.Random) -> None:
    """Put an extreme number where there is one, and keep what stands around it (its unit)."""
    value = holder[key]
    if isinstance(value, str) and _NUMBER.search(value):
        holder[key] = _NUMBER.sub(lambda _: chance.choice(NUMBERS), value, count=1)
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        holder[key] = chance.choice(
            (0, -1, 1e15, -1e15, 1e300, 1e-300, 5e-324, 10**30, -value, value * 1e6, value * 1e-9)
        )
    else:
        holder[key] = chance.choice(NUMBERS)


def _scaled(holder: Any, key: Any, chance: random.Random) -> None:
    """Change a number by a factor, or put a neighbour's value here: absurd in meaning, right in form."""
    if holder is None:
        return
    value = holder[key]
    factor = chance.choice((0.0, -1.0, 0.5, 2.0, 10.0 ** chance.uniform(-8, 8)))
    if isinstance(value, str) and (number := _NUMBER.search(value)):
        holder[key] = f"{value[: number.start()]}{factor * float(number.group()):.6g}{value[number.end() :]}"
    elif isinstance(value, int) and not isinstance(value, bool):
        holder[key] = round(factor * value)
    elif isinstance(value, float):
        holder[key] = factor * value
    elif isinstance(value, (list, dict)) and value and chance.random() < 0.7:
        _scaled(*_somewhere(value, chance), chance)
    else:
        _swap(holder, key, chance)


def _remove(holder: Any, key: Any, chance: random.Random) -> None:
    del holder[key]


def _wrap(holder: Any, key: Any, chance: random.Random) -> None:
    for _ in range(chance.choice((1, 2, 30, 60, 200))):
        holder[key] = [holder[key]] if chance.random() < 0.5 else {"a": holder[key]}


def _repeat(holder: Any, key: Any, chance: random.Random) -> None:
    times = chance.choice((2, 3, 20, 500))
    if isinstance(holder, list):
        holder.extend([holder[key]] * times)
    else:
        for place in range(times):
            holder[f"{str(key)[:40]}_{place}"] = holder[key]


def _rename(holder: Any, key: Any, chance: random.Random) -> None:
    if isinstance(holder, dict):
        holder[chance.choice(TEXTS)] = holder.pop(key)
    else:
        chance.shuffle(holder)


def _swap(holder: Any, key: Any, chance: random.Random) -> None:
    """Put the value of another place here: right in form, wrong in meaning."""
    other = chance.choice(list(holder)) if isinstance(holder, dict) else chance.randrange(len(holder))
    holder[key], holder[other] = holder[other], holder[key]


def _anything(chance: random.Random) -> Any:
    return chance.choice((
        lambda: chance.choice(TEXTS), lambda: chance.choice(NUMBERS), lambda: None, lambda: True, list, dict,
        lambda: [chance.choice(TEXTS)] * chance.choice((1, 3, 200)),
        lambda: chance.choice((0, -1, 10**39, 1e300, 5e-324)),
        lambda: {chance.choice(TEXTS): chance.choice(TEXTS)},
    ))()  # fmt: skip


_ON_DATA: tuple[Callable[[Any, Any, random.Random], None], ...] = (
    _replace, _replace, _number, _number, _number, _remove, _wrap, _repeat, _rename, _swap,
)  # fmt: skip

# --- on the bytes ---

Corpus = list[tuple[bytes, Any]]


def _flip(made: bytes, chance: random.Random, _: Corpus) -> bytes:
    if not made:
        return bytes([chance.randrange(256)])
    at = chance.randrange(len(made))
    return made[:at] + bytes([chance.randrange(256)]) + made[at + 1 :]


def _cut(made: bytes, chance: random.Random, _: Corpus) -> bytes:
    one, other = sorted(chance.randrange(len(made) + 1) for _ in range(2))
    return made[:one] + made[other:]


def _end(made: bytes, chance: random.Random, _: Corpus) -> bytes:
    return made[: chance.randrange(len(made) + 1)]


def _insert(made: bytes, chance: random.Random, _: Corpus) -> bytes:
    at = chance.randrange(len(made) + 1)
    token = chance.choice((*TEXTS, *NUMBERS)).encode("utf-8", "surrogatepass")
    return made[:at] + token * chance.choice((1, 1, 1, 10)) + made[at:]


def _line(made: bytes, chance: random.Random, _: Corpus) -> bytes:
    """Give a line another value, another indent or another place."""
    lines = made.split(b"\n")
    at = chance.randrange(len(lines))
    head, colon, _value = lines[at].partition(b": ")
    token = chance.choice((*TEXTS, *NUMBERS)).encode("utf-8", "surrogatepass")
    way = chance.randrange(5)
    if way == 0:
        lines[at] = head + (colon or b": ") + token
    elif way == 1:
        lines[at] = b" " * chance.randrange(60) + lines[at].lstrip()
    elif way == 2:
        lines.insert(at, lines[chance.randrange(len(lines))])
    elif way == 3:
        lines[at : at + 1] = [lines[at]] * min(chance.choice((2, 50, 2000)), 2 + 400_000 // (len(lines[at]) + 1))
    else:
        del lines[at]
    return b"\n".join(lines)


def _splice(made: bytes, chance: random.Random, corpus: Corpus) -> bytes:
    other = chance.choice(corpus)[0]
    return made[: chance.randrange(len(made) + 1)] + other[chance.randrange(len(other) + 1) :]


def _fill(made: bytes, chance: random.Random, _: Corpus) -> bytes:
    at = chance.randrange(len(made) + 1)
    piece = chance.choice(
        (b"[", b"{", b"- ", b"[{", b"a: ", b"\n", b" ", b"'", b'"', b"#", b",", b"? ", b"&a ", b"\xff", b"9")
    )
    return made[:at] + piece * chance.choice((10, 100, 5000, 60_000)) + made[at:]


_ON_BYTES: tuple[Callable[[bytes, random.Random, Corpus], bytes], ...] = (
    _flip, _cut, _end, _insert, _insert, _line, _line, _line, _splice, _fill,
)  # fmt: skip

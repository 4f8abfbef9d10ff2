"""The colours of the window, in one place: the style sheet and the painted widgets both take them from here.

Two themes: one for sunlight, ink on paper at 17 to 1, and one for the night, dark so as not to blind. In both,
text is at least 4.5 to 1 on its ground and what must be seen of controls at least 3 to 1 (WCAG 2.2, 1.4.3 and
1.4.11); words of cautions at least 7 to 1 (1.4.6). `PAIRS` lists what stands on what; a test measures it.
The signal colours are the safety colours of ANSI Z535.1 by name, the same in both. No meaning rests on a
colour alone.
"""

from __future__ import annotations

from faultdoc.model.safety import Signal
from faultdoc.record.settings import Theme

__all__ = ["COLOURS", "PAIRS", "SIGNAL_COLOURS", "THEMES", "contrast", "use_theme"]

THEMES: dict[Theme, dict[str, str]] = {
    "sunlight": {
        "ink": "#14202b",
        "faint": "#46566a",
        "paper": "#ffffff",
        "ground": "#eceff1",
        "line": "#748290",
        "strong": "#134b6b",
        "strong_text": "#0b3650",
        "strong_pale": "#dcebf3",
        "on_strong": "#ffffff",
        "bar": "#0b3650",
        "bar_line": "#8896a5",
        "on_bar": "#ffffff",
        "bar_focus": "#fff3cf",
        "focus": "#b3006b",
        "off": "#6b7886",
        "off_ground": "#dfe4e8",
        "danger": "#b5121b",
        "danger_dark": "#8c0c14",
        "on_danger": "#ffffff",
        "wrong": "#a3131b",
        "wrong_pale": "#fbe9ea",
        "doubt_pale": "#fff3cf",
        "good": "#1c5e34",
        "good_pale": "#e3f3e8",
        "display": "#d3dccb",
        "water": "#1f6f9f",
        "hot": "#9c3a1d",
        "cold": "#2a5d8f",
        "electric": "#5b3a7a",
    },
    "night": {
        "ink": "#f0f3f6",
        "faint": "#b4c0cc",
        "paper": "#161c22",
        "ground": "#0c1014",
        "line": "#75828f",
        "strong": "#8cc8ea",
        "strong_text": "#b9def3",
        "strong_pale": "#1d3342",
        "on_strong": "#0a1720",
        "bar": "#13242f",
        "bar_line": "#75828f",
        "on_bar": "#f0f3f6",
        "bar_focus": "#ffd9a0",
        "focus": "#ff8fd0",
        "off": "#8a96a3",
        "off_ground": "#1f272e",
        "danger": "#b5121b",
        "danger_dark": "#8c0c14",
        "on_danger": "#ffffff",
        "wrong": "#ffa3a3",
        "wrong_pale": "#3a1618",
        "doubt_pale": "#3a2f12",
        "good": "#8fdcab",
        "good_pale": "#143021",
        "display": "#d3dccb",
        "water": "#6db6e3",
        "hot": "#f0906e",
        "cold": "#8fb8ea",
        "electric": "#c9a6ef",
    },
}

COLOURS: dict[str, str] = dict(THEMES["sunlight"])
"""The colours of the theme in use; `use_theme` changes it in place, so painted widgets always see it."""

SIGNAL_COLOURS: dict[Signal, tuple[str, str]] = {
    Signal.DANGER: ("#b5121b", "#ffffff"),
    Signal.WARNING: ("#ff8200", "#000000"),
    Signal.CAUTION: ("#ffd100", "#000000"),
    Signal.NOTICE: ("#0b4fa0", "#ffffff"),
}
"""(ground, text) of the panel with the signal word."""

_GROUNDS = ("paper", "ground", "strong_pale", "doubt_pale", "wrong_pale", "good_pale")
TEXT, LARGE, CAUTION, SHAPE = 4.5, 3.0, 7.0, 3.0
"""Least contrast: text (1.4.3), large text (1.4.3), words of cautions (1.4.6), shapes and edges (1.4.11)."""
PAIRS: tuple[tuple[str, str, float], ...] = (
    *(("ink", ground, CAUTION) for ground in _GROUNDS),
    *((text, ground, TEXT) for text in ("faint", "strong", "strong_text", "good", "wrong") for ground in _GROUNDS),
    ("on_strong", "strong", TEXT),
    ("on_bar", "bar", TEXT),
    ("bar_line", "bar", SHAPE),
    ("bar_focus", "bar", SHAPE),
    ("bar_focus", "danger", SHAPE),
    ("on_danger", "danger", TEXT),
    ("on_danger", "danger_dark", TEXT),
    *(("line", ground, SHAPE) for ground in ("paper", "ground")),
    *(("focus", ground, SHAPE) for ground in _GROUNDS),
    *((pipe, "paper", SHAPE) for pipe in ("water", "hot", "cold", "electric")),
    *(("paper", mark, SHAPE) for mark in ("good", "wrong", "strong")),
)
"""(what, on what, least contrast) of everything the window draws; what is shut off is exempt (1.4.3)."""


def use_theme(name: Theme) -> None:
    """Take the colours of a theme for everything drawn from now on."""
    COLOURS.update(THEMES[name])


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours "#rrggbb", 1 to 21.

    (L1 + 0.05) / (L2 + 0.05) with relative luminances L1 >= L2: WCAG 2.2, definition of contrast ratio.

    >>> contrast("#ffffff", "#000000")
    21.0
    """
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    shares = (int(colour[place : place + 2], 16) / 255.0 for place in (1, 3, 5))
    red, green, blue = (one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue

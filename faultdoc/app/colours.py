"""The colours of the window, in one place: the style sheet and the painted widgets both take them from here.

High contrast for sunlight: ink on paper is 17 to 1, and every text colour is at least 4.5 to 1 on
its ground (WCAG 2.2, 1.4.3). The signal colours are the safety colours of ANSI Z535.1 by name.
No meaning rests on a colour alone.
"""

from __future__ import annotations

from faultdoc.model.safety import Signal

__all__ = ["COLOURS", "SIGNAL_COLOURS"]

COLOURS: dict[str, str] = {
    "ink": "#14202b",
    "faint": "#46566a",
    "paper": "#ffffff",
    "ground": "#eceff1",
    "line": "#8896a5",
    "strong": "#134b6b",
    "strong_dark": "#0b3650",
    "strong_pale": "#dcebf3",
    "focus": "#b3006b",
    "off": "#6b7886",
    "off_ground": "#dfe4e8",
    "danger": "#b5121b",
    "danger_dark": "#8c0c14",
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
}

SIGNAL_COLOURS: dict[Signal, tuple[str, str]] = {
    Signal.DANGER: ("#b5121b", "#ffffff"),
    Signal.WARNING: ("#ff8200", "#000000"),
    Signal.CAUTION: ("#ffd100", "#000000"),
    Signal.NOTICE: ("#0b4fa0", "#ffffff"),
}
"""(ground, text) of the panel with the signal word."""

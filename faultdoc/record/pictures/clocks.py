"""What keeps a compressor from starting yet, as dials: how much of each wait is over."""

from __future__ import annotations

from collections.abc import Sequence

from faultdoc.quantities import Kind, System, show
from faultdoc.record.pictures.shapes import Disc, Line, Picture, Role, Shape, Words, arc, cropped
from faultdoc.record.waits import Wait
from faultdoc.words import say

__all__ = ["clocks_picture"]

PITCH, RADIUS = 190.0, 56.0
MOST_A_ROW = 4


def clocks_picture(waits: Sequence[Wait]) -> Picture | None:
    """Return a dial for every wait whose length is known; None where there is none.

    The full ring is the whole wait; what is left of it is drawn thick and dark, from the top on.

    Args:
        waits: from `faultdoc.record.waits.waits`.
    """
    timed = [wait for wait in waits if wait.whole]
    if not timed:
        return None
    drawn: list[Shape] = []
    for place, wait in enumerate(timed):
        x = PITCH * (place % MOST_A_ROW) + PITCH / 2.0
        y = 210.0 * (place // MOST_A_ROW) + 90.0
        drawn += _dial((x, y), wait)
    said = " ".join(f"{wait.title}: {wait.words}." for wait in timed)
    return cropped(Picture(say("Waits before a start"), said, 0.0, 0.0, tuple(drawn)))


def _dial(at: tuple[float, float], wait: Wait) -> list[Shape]:
    x, y = at
    assert wait.whole is not None
    share = min(max(wait.left / wait.whole, 0.0), 1.0)
    drawn: list[Shape] = [Disc(at, RADIUS, Role.LINE, 2.0, Role.PAPER)]
    if wait.over:
        drawn += [
            Disc(at, RADIUS - 9.0, Role.GOOD, 6.0),
            Line(((x - 16.0, y + 2.0), (x - 4.0, y + 16.0), (x + 20.0, y - 16.0)), Role.GOOD, 5.0),
        ]
    else:
        drawn.append(Line(arc(at, RADIUS - 9.0, -90.0, -90.0 + 359.9 * share), Role.STRONG, 14.0))
        drawn.append(Words((x, y), show(wait.left, Kind.TIME, System.US), 15.0, "middle", bold=True))
    whole = show(wait.whole, Kind.TIME, System.US)
    first, _, rest = wait.title.partition(", ")
    drawn.append(Words((x, y + RADIUS + 16.0), first, 14.0, "middle", bold=True))
    if rest:
        drawn.append(Words((x, y + RADIUS + 33.0), rest, 13.0, "middle"))
    last = "over" if wait.over else say("left of {whole}", whole=whole)
    drawn.append(Words((x, y + RADIUS + (50.0 if rest else 33.0)), last, 13.0, "middle", Role.FAINT))
    return drawn

"""How much simulated time is owed to the unit while a person thinks: it runs at a chosen speed, or stands."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["SPEEDS", "Clock", "on_a_watch"]

SPEEDS = (1, 10, 60)
"""Simulated seconds in one of ours."""
LONGEST = 5.0
"""s of ours for which a clock runs on that nobody has asked: a computer that slept owes the unit no hours."""


@dataclass
class Clock:
    """Simulated time owed.

    Attributes:
        speed: simulated seconds in one of ours while it runs.
        running: whether it runs.
        owed: simulated seconds that have passed and not been lived through yet.
    """

    speed: int = 1
    running: bool = False
    owed: float = 0.0

    def passed(self, seconds: float) -> None:
        """Count seconds of ours.

        >>> clock = Clock(speed=10, running=True)
        >>> clock.passed(0.5); clock.owed
        5.0
        """
        if self.running:
            self.owed = min(self.owed + self.speed * max(0.0, seconds), self.speed * LONGEST)

    def take(self) -> float:
        """Return the simulated seconds owed, and owe none."""
        taken, self.owed = self.owed, 0.0
        return taken


def on_a_watch(seconds: float) -> str:
    """Return simulated time as a stop watch shows it.

    >>> on_a_watch(75.0), on_a_watch(3725.4)
    ('0:01:15', '1:02:05')
    """
    whole = int(seconds)
    return f"{whole // 3600}:{whole // 60 % 60:02d}:{whole % 60:02d}"

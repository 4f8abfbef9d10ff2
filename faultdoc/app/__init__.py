"""The window: Qt only. It asks the layers below and shows what they say; it computes nothing."""

from __future__ import annotations

from collections.abc import Sequence

__all__ = ["main"]


def main(argv: Sequence[str] | None = None) -> int:
    """Open the window and return its exit code when it closes.

    Args:
        argv: arguments after the program's name: nothing, or the path of a case file to open. The
            process's own when left out.
    """
    from faultdoc.app.run import run

    return run(argv)

"""Tells the benchmark when the window can be used.

When the environment variable FAULTDOC_READY_FILE names a file, one line is written to it once the
start page has been painted and answers to clicks: `ready <seconds since 1970>`.
"""

from __future__ import annotations

import os
import time
from pathlib import Path

__all__ = ["READY_VARIABLE", "tell_ready"]

READY_VARIABLE = "FAULTDOC_READY_FILE"


def tell_ready() -> None:
    """Write the line, if anybody asked for it."""
    if name := os.environ.get(READY_VARIABLE):
        Path(name).write_text(f"ready {time.time():.6f}\n", encoding="utf-8")

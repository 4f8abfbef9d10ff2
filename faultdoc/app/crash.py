"""When something unexpected happens: it is told in the window, written to a log, and the case stays."""

from __future__ import annotations

import sys
import threading
import traceback
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from types import TracebackType

from faultdoc.record.settings import data_home

__all__ = ["catch", "log", "log_path"]

LARGEST_LOG = 1_000_000
"""Bytes; a longer log is begun anew, the old one kept beside it."""


def log_path() -> Path:
    """Return the file into which unexpected errors are written."""
    return data_home() / "window.log"


def log(problem: BaseException) -> Path | None:
    """Write an error with its trace to the log; return the file, None when it could not be written."""
    path = log_path()
    text = "".join(traceback.format_exception(problem))
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.exists() and path.stat().st_size > LARGEST_LOG:
            path.replace(path.with_suffix(".old.log"))
        with path.open("a", encoding="utf-8") as stream:
            stream.write(f"--- {datetime.now().astimezone().isoformat(timespec='seconds')}\n{text}\n")
    except OSError:
        return None
    return path


def catch(tell: Callable[[BaseException], None]) -> None:
    """Send every error that nothing else handles to the log and to `tell`; also those of threads."""

    def hook(kind: type[BaseException], problem: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, problem, trace)
            return
        log(problem)
        print("".join(traceback.format_exception(problem)), file=sys.stderr)
        tell(problem)

    def thread_hook(args: threading.ExceptHookArgs) -> None:
        if args.exc_value is not None:
            log(args.exc_value)

    sys.excepthook = hook
    threading.excepthook = thread_hook

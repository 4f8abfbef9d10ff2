"""Runs slow work beside the window and brings the result back into it."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any

from PySide6.QtCore import QObject, Qt, Signal, Slot

__all__ = ["Background"]


class Background(QObject):
    """One thread for work in order, whose results arrive in the window's own thread."""

    _finished = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool = ThreadPoolExecutor(max_workers=1, thread_name_prefix="faultdoc")
        self._finished.connect(self._deliver, Qt.ConnectionType.QueuedConnection)
        self._waiting = 0
        self._closed = False

    @property
    def idle(self) -> bool:
        """Whether nothing is running or on its way back."""
        return self._waiting == 0

    def run(
        self, work: Callable[[], Any], then: Callable[[Any], None], failed: Callable[[BaseException], None]
    ) -> None:
        """Do `work` beside the window, then call `then` with its result, or `failed`, in the window's thread."""
        self._waiting += 1

        def done(future: Future[Any]) -> None:
            if not self._closed:
                self._finished.emit((future, then, failed))

        self._pool.submit(work).add_done_callback(done)

    def close(self) -> None:
        """Take no more work and deliver nothing more."""
        self._closed = True
        self._pool.shutdown(wait=False, cancel_futures=True)

    @Slot(object)
    def _deliver(self, parcel: tuple[Future[Any], Callable[[Any], None], Callable[[BaseException], None]]) -> None:
        future, then, failed = parcel
        self._waiting -= 1
        if self._closed or future.cancelled():
            return
        problem = future.exception()
        if problem is None:
            then(future.result())
        else:
            failed(problem)

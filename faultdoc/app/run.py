"""Starts the window."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from faultdoc.app.office import Office

__all__ = ["run"]


def run(argv: Sequence[str] | None = None) -> int:
    """Open the window; return its exit code.

    Args:
        argv: nothing, or the path of a case file; the process's own when left out.
    """
    parser = argparse.ArgumentParser(prog="faultdoc window", description="FaultDoc's window.")
    parser.add_argument("case", nargs="?", type=Path, help="a case file to open")
    options = parser.parse_args(sys.argv[1:] if argv is None else list(argv))
    # Before Qt: its Python side looks into every module imported after it, which takes time. And in
    # this thread: threads that import the same packages at once may see them half made.
    from PySide6.QtGui import QIcon
    from PySide6.QtWidgets import QApplication

    from faultdoc.app.tr import speak
    from faultdoc.record.settings import Settings

    found = QApplication.instance()
    app = found if isinstance(found, QApplication) else QApplication(["faultdoc"])
    # Before all else that has words: those at the top of a module are said when it is imported.
    speak(app, Settings.load().language)

    from faultdoc.app.crash import catch
    from faultdoc.app.menu import icon_file
    from faultdoc.app.office import Office
    from faultdoc.app.ready import tell_ready
    from faultdoc.app.shelf import fill_shelf
    from faultdoc.app.style import apply_style
    from faultdoc.app.window import Window

    app.setApplicationName("faultdoc")
    app.setApplicationDisplayName("FaultDoc")
    app.setDesktopFileName("faultdoc")
    app.setWindowIcon(QIcon(str(icon_file())))
    office = Office()
    apply_style(app, office.settings.theme, office.settings.text_size)
    window = Window(office)
    catch(lambda problem: office.told.emit("bad", _sentence(problem)))

    recalled = office.recall()

    def usable() -> None:
        tell_ready()
        _enter_menu(office)
        if recalled:
            window.load(options.case, fill_shelf)
        office.look_for_unfinished()
        office.warm()

    window.usable.connect(usable)
    window.show()
    if not recalled:
        window.load(options.case, fill_shelf)
    return app.exec()


def _enter_menu(office: Office) -> None:
    """Put an installed FaultDoc into the desktop's menu at its first start, and say so."""
    from faultdoc.library.places import is_installed

    if not sys.platform.startswith("linux") or office.settings.menu_entry_made or not is_installed():
        return
    from faultdoc.app.crash import log
    from faultdoc.app.menu import add_entry

    try:
        add_entry()
    except OSError as problem:
        log(problem)
        return
    office.keep_settings(office.settings.model_copy(update={"menu_entry_made": True}))
    office.told.emit("good", "FaultDoc is in the desktop's menu now; 'faultdoc menu --remove' takes it out.")


def _sentence(problem: BaseException) -> str:
    from faultdoc.app.crash import log_path

    return (
        f"Something went wrong that should not: {type(problem).__name__}: {problem}. Your case is safe in the "
        f"case book. Details: {log_path()}"
    )

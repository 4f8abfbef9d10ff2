"""Build FaultDoc as one folder that runs without Python: `python .packaging/bundle.py FOLDER`.

Needs PyInstaller beside FaultDoc's own packages (`pip install pyinstaller`). What it makes is for the system it
was made on: Linux, Windows or macOS; nothing is built across systems. The folder `faultdoc` holds the program and
`_internal` with everything else; both go together.
"""

import os
import subprocess
import sys
from importlib.metadata import distributions
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
LEFT_OUT = (
    "tkinter", "IPython", "matplotlib", "pandas", "PIL", "pytest", "hypothesis", "pyagrum", "sklearn",
    "PySide6.QtQml", "PySide6.QtQuick", "PySide6.QtWebSockets", "PySide6.QtDBus", "PySide6.QtDesigner",
)  # fmt: skip
"""What packages would bring along and FaultDoc never asks for."""
WHOLE = ("faultdoc", "CoolProp", "fluids", "pint", "dd", "segno", "psycopg")
"""Packages with data of their own, or with parts that are imported by name only."""
BY_NAME = (
    "psycopg_binary",
    "alembic.runtime.migration",
    "alembic.script",
    "sqlalchemy.dialects.postgresql.psycopg",
)


def main(folder: Path) -> int:
    """Build into `folder`; return PyInstaller's exit code."""
    work = folder / "work"
    work.mkdir(parents=True, exist_ok=True)
    start = work / "faultdoc_start.py"
    start.write_text("from faultdoc.cli import main\n\nmain()\n", encoding="utf-8")
    data = {"trees": ROOT / "trees", "resources": ROOT / "resources"}
    options = {
        "--name": "faultdoc", "--distpath": folder, "--workpath": work / "build", "--specpath": work,
        "--log-level": "WARN", "--paths": ROOT,
    }  # fmt: skip
    command = [sys.executable, "-m", "PyInstaller", str(start), "--onedir", "--noconfirm", "--clean"]
    for option, value in options.items():
        command += [option, str(value)]
    for name, source in data.items():
        command += ["--add-data", f"{source}{os.pathsep}faultdoc/_data/{name}"]
    for name in BY_NAME:
        command += ["--hidden-import", name]
    if any(one.metadata["Name"] == "faultdoc" for one in distributions()):
        command += ["--copy-metadata", "faultdoc"]  # for its version
    for name in WHOLE:
        command += ["--collect-all", name]
    for name in LEFT_OUT:
        command += ["--exclude-module", name]
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    return subprocess.run(command, cwd=work, env=environment, check=False).returncode


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sys.exit(main(Path(sys.argv[1]).absolute()))

#!/usr/bin/env python3
"""Set FaultDoc up beside this file, then start it: the one command for people, CI and the bench.

python3 start.py                 the window; without a display the wizard in the terminal; without either the demo
python3 start.py diagnose x.yaml any command of the faultdoc program, here with its arguments
python3 start.py test [...]      ruff, mypy and pytest; what follows is passed on to pytest
python3 start.py bench [...]     the measurements of tests/bench

The packages go into .venv, which belongs to this script: it is made anew when it does not fit. Standard library
only, and parsable by old Pythons, so that they are refused with a sentence instead of a syntax error.
"""

import contextlib
import ctypes
import hashlib
import importlib.util
import os
import re
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Mapping
from pathlib import Path
from subprocess import DEVNULL, PIPE, STDOUT, Popen

OLDEST = (3, 11)
WINDOWS = os.name == "nt"
ROOT = Path(__file__).resolve().parent
STAMP = "faultdoc-stamp.txt"
TEST_PART = "# --- tests ---"  # divides constraints.txt into what the program needs and what its tests add

# What Qt's libraries and its xcb, wayland and offscreen plugins ask of the system (readelf -d, NEEDED), and the
# Debian package that brings it; what these packages bring themselves is not repeated.
LIBRARIES = {
    "libEGL.so.1": "libegl1",
    "libGL.so.1": "libgl1",
    "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libwayland-cursor.so.0": "libwayland-cursor0",
    "libwayland-egl.so.1": "libwayland-egl1",
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}

# What pip says when it fails, and what helps; the first that fits counts.
REMEDIES = {
    r"No space left|Disk quota": "Free some disk space (about 2 GB), then run start.py again.",
    r"Permission denied|Access is denied": "Close programs that use .venv, or copy FaultDoc to a folder of yours.",
    r"resolution|getaddrinfo|[Tt]imed out|ConnectionError|ProxyError|SSLError|from versions: none": (
        "Connect to the network, or tell pip its proxy, mirror or certificate, then run start.py again."
    ),
    r"No matching distribution|Requires-Python": "Nothing pinned fits this Python or pip's index: try another.",
    "": "Run start.py again; if it stops here again, delete the folder .venv first.",
}


class SetUpError(Exception):
    """The set-up stopped; the message says why and what helps."""


def version_refusal(found: "tuple[int, int, int]", program: str) -> str:
    """Return why this Python is too old, or an empty text if it is not."""
    if found[:2] >= OLDEST:
        return ""
    return (
        f"FaultDoc needs Python {OLDEST[0]}.{OLDEST[1]} or newer; {program} is Python "
        f"{'.'.join(str(part) for part in found)}. Install a newer one and run start.py with it."
    )


if version_refusal(sys.version_info[:3], sys.executable):
    sys.exit(version_refusal(sys.version_info[:3], sys.executable))


class Step:
    """One line of progress: which step, how far, how long; redrawn on a terminal, else repeated now and then."""

    def __init__(self, number: int, total: int, what: str) -> None:
        self.title, self.detail, self.began = f"[{number}/{total}] {what}", "", time.monotonic()
        self.live, self.done = sys.stdout.isatty(), threading.Event()
        self.ticker = threading.Thread(target=self._tick, daemon=True)

    def _show(self) -> None:
        line = f"{self.title + ' ' + self.detail:<66.66}{time.monotonic() - self.began:7.1f} s"
        print("\r" + line if self.live else line, end="" if self.live else "\n", flush=True)

    def _tick(self) -> None:
        while not self.done.wait(0.2 if self.live else 10):
            self._show()

    def __enter__(self) -> "Step":
        self.ticker.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.done.set()
        self.ticker.join()
        self._show()
        print(end="\n" if self.live else "", flush=True)


def tool(root: Path, name: str, windows: bool = WINDOWS) -> Path:
    """Return where a program of the virtual environment lies."""
    return root / ".venv" / ("Scripts" if windows else "bin") / (name + (".exe" if windows else ""))


def has_display(platform: str, environment: Mapping[str, str]) -> bool:
    """Return whether a window can open; Windows and macOS always have a display."""
    if platform in ("win32", "darwin"):
        return True
    return bool(environment.get("DISPLAY") or environment.get("WAYLAND_DISPLAY"))


def choose(arguments: list[str], display: bool, terminal: bool) -> list[str]:
    """Return the arguments of the faultdoc program: the given ones, or what suits the place it is started in."""
    return arguments or (["window"] if display else ["ask"] if terminal else ["demo"])


def wanted_stamp(root: Path, python: str, tests: bool) -> list[str]:
    """Return the lines that say what the environment is made for: folder, Python, inputs, extras."""
    digest = hashlib.sha256((root / "pyproject.toml").read_bytes())
    digest.update((root / "constraints.txt").read_bytes())
    return [
        f"folder {root}",
        f"python {python}",
        f"inputs {digest.hexdigest()}",
        "extras test" if tests else "extras",
    ]


def read_stamp(root: Path) -> list[str]:
    """Return the lines of the stamp, or none if there is no environment or its set-up did not end."""
    try:
        return (root / ".venv" / STAMP).read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return []


def write_stamp(root: Path, lines: list[str]) -> None:
    """Write the stamp in one move, so that an interruption leaves the whole of it or nothing."""
    draft = root / ".venv" / (STAMP + ".new")
    draft.write_text("\n".join(lines) + "\n", encoding="utf-8")
    draft.replace(root / ".venv" / STAMP)


def needed_work(found: list[str], wanted: list[str], programs: bool) -> str:
    """Return 'none', 'update' (packages only) or 'rebuild' (the environment does not fit folder or Python)."""
    if not programs or found[:2] != wanted[:2] or len(found) != len(wanted):
        return "rebuild"
    same_extras = found[3] in (wanted[3], "extras test")  # the tests' packages do no harm to the program
    return "none" if found[2] == wanted[2] and same_extras else "update"


def pins(constraints: str, tests: bool) -> int:
    """Return how many packages the constraints pin for every system, for the program or with its tests."""
    part = constraints if tests else constraints.partition(TEST_PART)[0]
    return sum("==" in line and ";" not in line for line in part.splitlines())


def loads(library: str) -> bool:
    """Return whether the system can load this shared library."""
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def missing_libraries() -> list[str]:
    """Return what Qt needs and this Linux lacks: shared libraries, and a package of fonts if it has none."""
    missing = [library for library in LIBRARIES if not loads(library)]
    fonts = any(Path("/usr/share/fonts").rglob("*.[to]tf"))
    return missing if fonts else [*missing, "fonts-dejavu-core"]


def install_command(missing: list[str]) -> list[str]:
    """Return the command that installs what is missing on a Debian-like system."""
    packages = sorted({LIBRARIES.get(name, name) for name in missing})
    return ["apt-get", "install", "--yes", "--no-install-recommends", *packages]


def library_message(missing: list[str], debian: bool) -> str:
    """Return what to tell someone who must install the missing libraries by hand."""
    if debian:
        return "FaultDoc needs more of the system: sudo " + " ".join(install_command(missing))
    return "FaultDoc needs more of the system; install what brings these: " + ", ".join(missing)


def remedy(output: str) -> str:
    """Return what helps against a failure with this output."""
    return next(advice for pattern, advice in REMEDIES.items() if re.search(pattern, output))


def run(command: list[str], each_line: Callable[[str], object] = str, **variables: str) -> None:
    """Run a command quietly; SetUpError with its last lines and what helps if it fails."""
    said = []
    env = {**os.environ, **variables}
    with Popen(command, cwd=ROOT, env=env, stdin=DEVNULL, stdout=PIPE, stderr=STDOUT, text=True) as process:
        try:
            for line in process.stdout or ():
                said.append(line.rstrip())
                each_line(line)
        except BaseException:
            process.kill()
            raise
    if process.returncode:
        advice = remedy("\n".join(said))
        raise SetUpError(
            "\n".join([*said[-15:], f"{command[0]} failed (exit code {process.returncode}). {advice}"])
        )


def add_libraries(step: Step) -> str:
    """Install what Qt and venv lack on this Linux if that can be done here; return what is left to say."""
    missing = missing_libraries()
    if not importlib.util.find_spec("ensurepip"):  # Debian ships it apart from Python
        missing.append(f"python3.{sys.version_info[1]}-venv")
    debian, said = shutil.which("apt-get") is not None, ""
    if missing and debian and os.geteuid() == 0:
        step.detail = f"installing {len(missing)}"
        with contextlib.suppress(SetUpError):  # one source that cannot be reached need not matter
            run(["apt-get", "update"])
        try:
            run(install_command(missing), DEBIAN_FRONTEND="noninteractive")
        except SetUpError as error:
            said = f"{error}\n"
        importlib.invalidate_caches()
        missing = [name for name in missing if name not in LIBRARIES or not loads(name)] if said else []
    step.detail = f"{len(missing)} missing, see below" if missing else "all there"
    return said + library_message(missing, debian) if missing else ""


def add_packages(step: Step, python: Path, tests: bool) -> None:
    """Install the project, editable, and its pinned packages."""
    total, seen = pins((ROOT / "constraints.txt").read_text(encoding="utf-8"), tests), set()

    def follow(line: str) -> None:
        match = re.match(r"(?:Collecting|Requirement already satisfied:) ([\w.-]+)", line)
        if match:
            seen.add(match[1].lower())
            step.detail = f"{min(len(seen), total)}/{total} {match[1]}"
        elif line.startswith("Installing collected"):
            step.detail = f"{total}/{total} fetched, unpacking"

    project = ".[test]" if tests else "."
    pip = [str(python), "-m", "pip", "install", "--progress-bar", "off", "--disable-pip-version-check"]
    run([*pip, "--constraint", "constraints.txt", "--editable", project], follow)
    step.detail = f"{total}/{total} installed"


def set_up(tests: bool) -> bool:
    """Bring .venv to what pyproject.toml and constraints.txt ask; return whether there was anything to do."""
    python = tool(ROOT, "python")
    found = read_stamp(ROOT)
    wanted = wanted_stamp(ROOT, sys.implementation.cache_tag, tests)
    work = needed_work(found, wanted, python.exists() and tool(ROOT, "faultdoc").exists())
    if work == "none":
        return False
    linux = sys.platform.startswith("linux")
    number, total = 0, 1 + linux + (work == "rebuild")
    print("Setting up FaultDoc in .venv: once, later starts skip this.", flush=True)
    (ROOT / ".venv" / STAMP).unlink(missing_ok=True)
    if linux:
        number += 1
        with Step(number, total, "system libraries") as step:
            said = add_libraries(step)
        if said:
            print(said, flush=True)
    if work == "rebuild":
        if not importlib.util.find_spec("ensurepip"):
            raise SetUpError("This Python lacks ensurepip: install it as said above, or use another Python.")
        number += 1
        with Step(number, total, "virtual environment"):
            # Not sys.executable: that may lie in the very .venv that is to be replaced.
            base = getattr(sys, "_base_executable", sys.executable)
            run([base, "-m", "venv", "--clear", str(ROOT / ".venv")])
    try:
        with Step(number + 1, total, "packages") as step:
            add_packages(step, python, tests)
    except SetUpError as error:
        if work == "update":  # pip replaces nothing before it has everything: what was there still works
            write_stamp(ROOT, found)
            if not tests:
                print(f"{error}\nGoing on with the packages that are there.", flush=True)
                return True
        raise
    write_stamp(ROOT, wanted)
    return True


def run_tests(python: str, arguments: list[str]) -> int:
    """Run the linters, the type checker and pytest; pytest last, its summary closes the output."""
    # One process for each processor; the tests of one file stay together, as they share what is dear to make.
    pytest = ["pytest", "-n", "auto", "--dist", "loadfile", *arguments]
    code = 0
    for call in (["ruff", "check"], ["ruff", "format", "--check"], ["mypy"], pytest):
        environment = {"QT_QPA_PLATFORM": "offscreen", **os.environ}
        result = subprocess.call([python, "-m", *call], cwd=ROOT, env=environment)
        if call is not pytest:
            print(f"== {' '.join(call)}: {'FAILED' if result else 'passed'} (exit code {result})", flush=True)
        code = code or result
    return code


def hand_over(command: list[str]) -> int:
    """Become the given program where the system can do that, else run it and return its exit code."""
    sys.stdout.flush()
    if os.name == "posix":
        os.execv(command[0], command)
    return subprocess.call(command)


def main(arguments: list[str]) -> int:
    """Set up what is missing, then start what was asked for."""
    first = arguments[:1]
    python = str(tool(ROOT, "python"))
    try:
        worked = set_up(tests=first in (["test"], ["bench"]))
    except (SetUpError, OSError) as error:
        sys.exit(f"{error}\nFaultDoc was not started.")
    if first == ["test"]:
        return run_tests(python, arguments[1:])
    if first == ["bench"]:
        return hand_over([python, str(ROOT / "tests" / "bench" / "run.py"), *arguments[1:]])
    chosen = choose(arguments, has_display(sys.platform, os.environ), bool(sys.stdin and sys.stdin.isatty()))
    if not arguments and chosen != ["window"]:
        print(f"No display here: running 'faultdoc {chosen[0]}'.", flush=True)
    look = chosen == ["window"] and sys.platform.startswith("linux") and not worked
    missing = missing_libraries() if look else []
    if missing:
        print(library_message(missing, shutil.which("apt-get") is not None), file=sys.stderr, flush=True)
    return hand_over([str(tool(ROOT, "faultdoc")), *chosen])


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except KeyboardInterrupt:
        sys.exit("\nStopped. Run start.py again to go on.")

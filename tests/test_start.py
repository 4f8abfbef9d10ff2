"""start.py without a network: what it chooses, what it says, and what it leaves behind when something fails."""

import ast
import ctypes.util
import importlib.metadata
import importlib.util
import subprocess
import sys
import sysconfig
import tomllib
from pathlib import Path
from types import ModuleType

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[1]


def load() -> ModuleType:
    spec = importlib.util.spec_from_file_location("start", ROOT / "start.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


start = load()
CONSTRAINTS = (ROOT / "constraints.txt").read_text(encoding="utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def pinned(text: str) -> dict[str, str]:
    """Return name and release of each pin; a line that is anything else (an address, an option) is an error."""
    pins = {}
    for line in text.splitlines():
        if line.strip() and not line.startswith("#"):
            requirement = Requirement(line)
            (specifier,) = requirement.specifier
            assert (specifier.operator, requirement.url, requirement.marker) == ("==", None, None)
            pins[canonicalize_name(requirement.name)] = specifier.version
    return pins


# ---------------------------------------------------------------- the Python it is started with


@pytest.mark.parametrize("found", [(3, 6, 9), (3, 9, 2), (3, 10, 14)])
def test_older_python_is_refused_by_its_number(found: tuple[int, int, int]) -> None:
    text = start.version_refusal(found, "/usr/bin/python3")
    assert ".".join(map(str, found)) in text
    assert "3.11" in text
    assert "/usr/bin/python3" in text


@pytest.mark.parametrize("found", [(3, 11, 0), (3, 14, 1), (4, 0, 0)])
def test_supported_python_is_not_refused(found: tuple[int, int, int]) -> None:
    assert start.version_refusal(found, "python3") == ""


def test_oldest_python_is_the_one_pyproject_names() -> None:
    assert PROJECT["requires-python"] == f">={start.OLDEST[0]}.{start.OLDEST[1]}"


def test_older_pythons_can_parse_the_file_and_reach_the_refusal() -> None:
    # An outside judge: CPython's own parser, held to the grammar of 3.7.
    tree = ast.parse((ROOT / "start.py").read_text(encoding="utf-8"), feature_version=(3, 7))
    refusal = next(node for node in tree.body if isinstance(node, ast.If))
    before = tree.body[: tree.body.index(refusal)]
    names = {alias.name for node in before if isinstance(node, ast.Import) for alias in node.names}
    assert "version_refusal" in ast.unparse(refusal)
    assert "tomllib" not in names  # new in 3.11: importing it would fail before the refusal


# ---------------------------------------------------------------- what is started


@pytest.mark.parametrize(
    ("platform", "environment", "display"),
    [
        ("linux", {}, False),
        ("linux", {"DISPLAY": ""}, False),
        ("linux", {"DISPLAY": ":0"}, True),
        ("linux", {"WAYLAND_DISPLAY": "wayland-0"}, True),
        ("freebsd14", {}, False),
        ("win32", {}, True),
        ("darwin", {}, True),
    ],
)
def test_display(platform: str, environment: dict[str, str], display: bool) -> None:
    assert start.has_display(platform, environment) is display


@pytest.mark.parametrize(
    ("arguments", "display", "terminal", "chosen"),
    [
        ([], True, True, ["window"]),
        ([], True, False, ["window"]),
        ([], False, True, ["ask"]),
        ([], False, False, ["demo"]),
        (["diagnose", "x.yaml", "--json"], True, True, ["diagnose", "x.yaml", "--json"]),
        (["--version"], False, False, ["--version"]),
    ],
)
def test_choice(arguments: list[str], display: bool, terminal: bool, chosen: list[str]) -> None:
    assert start.choose(arguments, display, terminal) == chosen


@pytest.mark.parametrize(("windows", "scheme", "suffix"), [(False, "posix_venv", ""), (True, "nt_venv", ".exe")])
def test_programs_lie_where_pythons_own_install_schemes_put_them(windows: bool, scheme: str, suffix: str) -> None:
    folder = Path("somewhere")
    scripts = sysconfig.get_path("scripts", scheme, vars={"base": str(folder / ".venv")})
    assert start.tool(folder, "faultdoc", windows) == Path(scripts) / f"faultdoc{suffix}"


@pytest.mark.parametrize(
    ("arguments", "environment", "command"),
    [
        (["lint", "--stats"], {}, ["faultdoc", "lint", "--stats"]),
        ([], {"DISPLAY": ":0"}, ["faultdoc", "window"]),
        ([], {}, ["faultdoc", "demo"]),
        (["bench", "--quick"], {}, ["python", str(ROOT / "tests" / "bench" / "run.py"), "--quick"]),
    ],
)
def test_main_hands_over(
    arguments: list[str], environment: dict[str, str], command: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    given: list[list[str]] = []
    monkeypatch.setattr(start, "set_up", lambda tests: False)
    monkeypatch.setattr(start, "hand_over", lambda told: given.append(told) or 0)
    monkeypatch.setattr(start, "missing_libraries", list)
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setattr(sys, "stdin", None)  # neither a terminal nor a file, as under a service
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    assert start.main(arguments) == 0
    assert given == [[str(start.tool(ROOT, command[0])), *command[1:]]]


@pytest.mark.parametrize("failing", ["ruff", "mypy", "pytest", None])
def test_test_run_ends_with_pytest_and_fails_if_anything_fails(
    failing: str | None, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    calls: list[list[str]] = []

    def call(command: list[str], **how: object) -> int:
        calls.append(command[2:])
        print(f"{command[2]} says")
        return 3 if command[2] == failing else 0

    monkeypatch.setattr(subprocess, "call", call)
    assert start.run_tests("python", ["-k", "barrel"]) == (3 if failing else 0)
    parts = ["pytest", "-n", "auto", "--dist", "loadfile", "-k", "barrel"]
    assert calls == [["ruff", "check"], ["ruff", "format", "--check"], ["mypy"], parts]
    lines = capsys.readouterr().out.splitlines()
    assert lines[-1] == "pytest says"
    assert ("== mypy: FAILED (exit code 3)" in lines) is (failing == "mypy")


# ---------------------------------------------------------------- system libraries


def test_loads_tells_a_library_that_is_there_from_one_that_is_not() -> None:
    there = ctypes.util.find_library("c") or ctypes.util.find_library("msvcrt")
    assert there
    assert start.loads(there)
    assert not start.loads("libthere_is_no_such_thing.so.9")


def test_missing_libraries_are_named_with_the_command_that_brings_them(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(start, "loads", lambda library: library not in ("libEGL.so.1", "libxcb-cursor.so.0"))
    missing = start.missing_libraries()
    assert missing[:2] == ["libEGL.so.1", "libxcb-cursor.so.0"]
    told = start.library_message([*missing[:2], "fonts-dejavu-core"], debian=True)
    command = "sudo apt-get install --yes --no-install-recommends fonts-dejavu-core libegl1 libxcb-cursor0"
    assert told.endswith(command)
    elsewhere = start.library_message(missing[:2], debian=False)
    assert elsewhere.endswith("libEGL.so.1, libxcb-cursor.so.0")
    assert "apt" not in elsewhere


# ---------------------------------------------------------------- the pins


def test_constraints_pin_every_package_that_is_reached() -> None:
    # The judge is each installed package's own metadata, followed from pyproject.toml on.
    pins = pinned(CONSTRAINTS)
    wanted = [Requirement(text) for text in PROJECT["dependencies"] + PROJECT["optional-dependencies"]["test"]]
    reached: set[tuple[str, str]] = set()
    while wanted:
        requirement = wanted.pop()
        name = canonicalize_name(requirement.name)
        assert name in pins, f"{requirement} has no pin in constraints.txt"
        assert requirement.specifier.contains(pins[name], prereleases=True), f"{requirement} forbids {pins[name]}"
        for extra in {"", *requirement.extras} - {extra for done, extra in reached if done == name}:
            reached.add((name, extra))
            needs = [Requirement(text) for text in importlib.metadata.requires(name) or ()]
            wanted += [need for need in needs if not need.marker or need.marker.evaluate({"extra": extra})]
    assert len({name for name, _ in reached}) > len(PROJECT["dependencies"])


def test_progress_counts_the_pins_of_the_part_that_is_installed() -> None:
    assert start.pins(CONSTRAINTS, tests=True) == len(pinned(CONSTRAINTS))
    program = CONSTRAINTS.partition(start.TEST_PART)[0]
    assert start.pins(CONSTRAINTS, tests=False) == len(pinned(program))
    named = {canonicalize_name(Requirement(text).name) for text in PROJECT["dependencies"]}
    assert named <= set(pinned(program))
    assert "pytest" not in pinned(program)


# ---------------------------------------------------------------- the stamp


@pytest.fixture
def checkout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder that looks like a checkout to start.py, with every outside program replaced."""
    (tmp_path / "pyproject.toml").write_text("[project]\n", encoding="utf-8")
    (tmp_path / "constraints.txt").write_text("numpy==2.0\n", encoding="utf-8")
    monkeypatch.setattr(start, "ROOT", tmp_path)
    monkeypatch.setattr(start, "add_libraries", lambda step: "")
    return tmp_path


def fake_run(commands: list[list[str]], failure: BaseException | None = None):
    def run(command: list[str], *_: object, **__: object) -> None:
        commands.append(command)
        if "pip" in command and failure:
            raise failure
        for name in ("python", "faultdoc"):
            program = start.tool(start.ROOT, name)
            program.parent.mkdir(parents=True, exist_ok=True)
            program.touch()

    return run


def test_stamp_is_read_back_and_a_draft_is_no_stamp(tmp_path: Path) -> None:
    assert start.read_stamp(tmp_path) == []
    (tmp_path / ".venv").mkdir()
    (tmp_path / ".venv" / f"{start.STAMP}.new").write_text("folder", encoding="utf-8")
    assert start.read_stamp(tmp_path) == []
    start.write_stamp(tmp_path, ["folder x", "python y"])
    assert start.read_stamp(tmp_path) == ["folder x", "python y"]
    (tmp_path / ".venv" / start.STAMP).write_bytes(b"\xff\xfe\x00")
    assert start.read_stamp(tmp_path) == []


WANTED = ["folder /a", "python cpython-311", "inputs 1", "extras"]


@pytest.mark.parametrize(
    ("found", "wanted", "programs", "work"),
    [
        (WANTED, WANTED, True, "none"),
        ([*WANTED[:3], "extras test"], WANTED, True, "none"),
        (WANTED, [*WANTED[:3], "extras test"], True, "update"),
        ([*WANTED[:2], "inputs 2", "extras"], WANTED, True, "update"),
        (["folder /moved", *WANTED[1:]], WANTED, True, "rebuild"),
        ([WANTED[0], "python cpython-312", *WANTED[2:]], WANTED, True, "rebuild"),
        (WANTED, WANTED, False, "rebuild"),
        (WANTED[:2], WANTED, True, "rebuild"),
        ([], WANTED, True, "rebuild"),
    ],
)
def test_needed_work(found: list[str], wanted: list[str], programs: bool, work: str) -> None:
    assert start.needed_work(found, wanted, programs) == work


@pytest.mark.parametrize("name", ["pyproject.toml", "constraints.txt"])
def test_stamp_follows_its_inputs_and_no_other_file(checkout: Path, name: str) -> None:
    before = start.wanted_stamp(checkout, "cpython-311", False)
    (checkout / "README.md").write_text("other", encoding="utf-8")
    assert start.wanted_stamp(checkout, "cpython-311", False) == before
    (checkout / name).write_text("changed", encoding="utf-8")
    after = start.wanted_stamp(checkout, "cpython-311", False)
    assert (after[:2], after[3]) == (before[:2], before[3])
    assert after[2] != before[2]


def test_second_set_up_runs_nothing(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    commands: list[list[str]] = []
    monkeypatch.setattr(start, "run", fake_run(commands))
    assert start.set_up(tests=True) is True
    assert [command[1:3] for command in commands] == [["-m", "venv"], ["-m", "pip"]]
    assert commands[1][-1] == ".[test]"
    commands.clear()
    assert start.set_up(tests=True) is False
    assert start.set_up(tests=False) is False
    assert commands == []


@pytest.mark.parametrize("failure", [start.SetUpError("no network"), KeyboardInterrupt()])
def test_first_set_up_that_fails_leaves_no_stamp(
    failure: BaseException, checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(start, "run", fake_run([], failure))
    with pytest.raises(type(failure)):
        start.set_up(tests=False)
    assert start.read_stamp(checkout) == []


def test_update_that_fails_keeps_what_works(
    checkout: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(start, "run", fake_run([]))
    start.set_up(tests=False)
    before = start.read_stamp(checkout)
    (checkout / "constraints.txt").write_text("numpy==2.1\n", encoding="utf-8")
    monkeypatch.setattr(start, "run", fake_run([], start.SetUpError("no network")))
    start.set_up(tests=False)
    assert "no network" in capsys.readouterr().out
    assert start.read_stamp(checkout) == before  # the old one: the next start tries the update again
    with pytest.raises(start.SetUpError, match="no network"):  # but tests never run on packages that do not fit
        start.set_up(tests=True)
    assert start.read_stamp(checkout) == before


# ---------------------------------------------------------------- failures and progress


@pytest.mark.parametrize(
    ("output", "word"),
    [
        # As pip words it.
        ("ERROR: Could not find a version that satisfies the requirement rich (from versions: none)", "network"),
        ("[Errno -3] Temporary failure in name resolution", "network"),
        ("ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device", "disk"),
        ("ERROR: Could not find a version that satisfies the requirement numpy==99 (from versions: 1.0)\n"
         "ERROR: No matching distribution found for numpy==99", "another"),
        ("ERROR: [Errno 13] Permission denied: '/opt/x'", "folder"),
        ("something new", "delete the folder .venv"),
    ],
)  # fmt: skip
def test_remedy(output: str, word: str) -> None:
    assert word in start.remedy(output)


def test_failed_command_shows_its_last_lines_and_what_helps() -> None:
    program = "import sys\nfor i in range(40): print('line', i, flush=True)\nsys.exit('No space left on device')"
    seen: list[str] = []
    with pytest.raises(start.SetUpError) as caught:
        start.run([sys.executable, "-c", program], seen.append)
    text = str(caught.value)
    assert "No space left on device" in text
    assert "line 39" in text
    assert "line 20" not in text
    assert "exit code 1" in text
    assert "disk space" in text
    assert seen[:2] == ["line 0\n", "line 1\n"]


def test_packages_step_shows_name_and_number_of_total(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (checkout / "constraints.txt").write_text("numpy==2.0\nrich==1.0\npint==1.0\n", encoding="utf-8")
    shown: list[str] = []
    step = start.Step(3, 3, "packages")

    def run(command: list[str], each_line) -> None:
        for line in (  # pip 23.0's own words
            "Obtaining file:///x",
            "Collecting numpy==2.0",
            "Collecting rich",
            "  Downloading rich-1.0.whl",
            "Requirement already satisfied: pint in /x",
            "Installing collected packages: x",
        ):
            each_line(line)
            shown.append(step.detail)

    monkeypatch.setattr(start, "run", run)
    start.add_packages(step, Path("python"), tests=False)
    assert shown == ["", "1/3 numpy", "2/3 rich", "2/3 rich", "3/3 pint", "3/3 fetched, unpacking"]


def test_step_without_a_terminal_prints_whole_lines(capsys: pytest.CaptureFixture[str]) -> None:
    with start.Step(2, 3, "packages") as step:
        step.detail = "5/30 numpy"
    line = capsys.readouterr().out
    assert line.startswith("[2/3] packages 5/30 numpy ")
    assert line.endswith(" s\n")
    assert "\r" not in line

"""Benchmarks: `python3 start.py bench`.

Every time is the median of repeated runs and is printed beside a reference measured in the same
run, so that figures from different machines can be compared by their ratios. Nothing here is a
test; goals missed are printed as missed.
"""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1] / "diagnosis"))


def milliseconds(work: Callable[[], object], repeats: int = 30) -> float:
    """Return the median wall time of `work`, in ms, after one run to warm up."""
    work()
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return 1000 * statistics.median(times)


def row(name: str, measured: str, reference: str, ratio: str, goal: str = "") -> None:
    """Print one line of the table at once; long work shows its progress by it."""
    print(f"{name:<44} {measured:>12}  {reference:<34} {ratio:>9}  {goal}", flush=True)


def next_step() -> None:
    """Time from an answer to the next step, on every shipped case."""
    from faultdoc.diagnosis.assess import assess, bench_for
    from faultdoc.library.load import load_case, load_library, load_unit
    from faultdoc.library.places import resources_folder

    library = load_library()
    folder = resources_folder() / "cases"
    matrix = np.random.default_rng(0).normal(size=(400, 400))
    reference = milliseconds(lambda: matrix @ matrix)
    for path in sorted(folder.glob("*.yaml")):
        case = load_case(path, library)
        sheet = load_unit(case.unit)
        bench = bench_for(library, sheet, case.symptoms)
        took = milliseconds(lambda bench=bench, case=case: assess(bench, case))
        goal = "goal < 16 ms: " + ("met" if took < 16 else "MISSED")
        name = f"next step, {path.stem} ({len(bench.problem.causes)} x {len(bench.problem.questions)})"
        row(name, f"{took:.2f} ms", f"400 x 400 matmul {reference:.2f} ms", f"{took / reference:.1f}", goal)
    start = time.perf_counter()
    bench_for(library, sheet, case.symptoms).problem.tables  # noqa: B018 - the property does the work
    posed = 1000 * (time.perf_counter() - start)
    row(
        "making a case ready",
        f"{posed:.1f} ms",
        f"400 x 400 matmul {reference:.2f} ms",
        f"{posed / reference:.0f}",
    )


def belief_against_pyagrum() -> None:
    """Belief on a random tree: ours to size 2 and over all sets, against pyagrum's exact inference."""
    import pyagrum as gum
    from exact import network
    from problems import questions_of, random_tree, sets_of

    from faultdoc.diagnosis.belief import believe
    from faultdoc.diagnosis.evidence import ChoiceEvidence
    from faultdoc.diagnosis.likelihood import choice_model

    rng = np.random.default_rng(12)
    made = random_tree(rng, causes=10, questions=8)
    answers = {id: int(rng.integers(len(question.outcomes))) for id, question in questions_of(made).items()}
    net = network(made, answers)

    def theirs() -> None:
        inference = gum.LazyPropagation(net)
        inference.setEvidence({made.top: 1, **answers})
        inference.makeInference()
        for one in made.causes:
            inference.posterior(one.id)

    reference = milliseconds(theirs, 10)
    for size, name in ((2, "sets to size 2"), (10, "all 1,023 sets")):
        sets = sets_of(made, size)
        evidence = [
            ChoiceEvidence(id, outcome, choice_model(questions_of(made)[id], sets.causes))
            for id, outcome in answers.items()
        ]
        took = milliseconds(lambda sets=sets, evidence=evidence: believe(sets, evidence))
        row(
            f"belief, 10 causes x 8 answers, {name}",
            f"{took:.2f} ms",
            f"pyagrum exact {reference:.2f} ms",
            f"1/{reference / took:.0f}",
        )


def window() -> None:
    """Start of the window to its first usable page, cold and warm, and its memory when idle."""
    bare = milliseconds(lambda: subprocess.run([sys.executable, "-c", "import PySide6.QtWidgets"], check=True), 3)
    ready: list[float] = []
    memory = 0.0
    for _ in range(6):
        with tempfile.TemporaryDirectory() as home:
            sign = Path(home) / "ready"
            environment = {
                **os.environ,
                "FAULTDOC_HOME": home,
                "FAULTDOC_READY_FILE": str(sign),
                "QT_QPA_PLATFORM": os.environ.get("QT_QPA_PLATFORM", "offscreen"),
            }
            start = time.perf_counter()
            process = subprocess.Popen([sys.executable, "-m", "faultdoc.app"], env=environment)
            while not sign.exists() and process.poll() is None and time.perf_counter() - start < 30:
                time.sleep(0.002)
            if not sign.exists():
                raise SystemExit("the window did not come up")
            ready.append(time.perf_counter() - start)
            time.sleep(3.0)  # idle: what the window does in the background is done
            memory = _resident_megabytes(process.pid)
            process.terminate()
            process.wait()
    first, warm = 1000 * ready[0], 1000 * statistics.median(ready[1:])
    reference = f"python + import Qt {bare:.0f} ms"
    row("window ready, first start of this run", f"{first:.0f} ms", reference, f"{first / bare:.1f}")
    goal = "goal < 1 s: " + ("met" if warm < 1000 else "MISSED")
    row("window ready, warm", f"{warm:.0f} ms", reference, f"{warm / bare:.1f}", goal)
    own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    row(
        "memory of the idle window",
        f"{memory:.0f} MB",
        f"this benchmark's peak {own:.0f} MB",
        f"{memory / own:.2f}",
    )


def _resident_megabytes(pid: int) -> float:
    for line in Path(f"/proc/{pid}/status").read_text(encoding="ascii").splitlines():
        if line.startswith("VmRSS:"):
            return int(line.split()[1]) / 1024
    return float("nan")


def main() -> None:
    """Run all benchmarks."""
    print(f"{'what':<44} {'measured':>12}  {'reference in this run':<34} {'ratio':>9}")
    next_step()
    belief_against_pyagrum()
    window()


if __name__ == "__main__":
    main()

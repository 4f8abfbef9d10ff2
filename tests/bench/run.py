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

from faultdoc.model.tree import Tree

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
    """Time from an answer, or from a new reading, to the next step, on every shipped case."""
    from faultdoc.diagnosis.assess import assess, bench_for
    from faultdoc.library.load import load_case, load_library, load_unit
    from faultdoc.library.places import resources_folder
    from faultdoc.model.base import Measured
    from faultdoc.quantities import Kind
    from faultdoc.record import moves

    library = load_library()
    folder = resources_folder() / "cases"
    matrix = np.random.default_rng(0).normal(size=(400, 400))
    reference = milliseconds(lambda: matrix @ matrix)
    against = f"400 x 400 matmul {reference:.2f} ms"

    def told(name: str, took: float) -> None:
        goal = "goal < 16 ms: " + ("met" if took < 16 else "MISSED")
        row(name, f"{took:.2f} ms", against, f"{took / reference:.1f}", goal)

    for path in sorted(folder.glob("*.yaml")):
        case = load_case(path, library)
        bench = bench_for(library, load_unit(case.unit), case.symptoms)
        size = f"{len(bench.problem.causes)} x {len(bench.problem.questions)}"
        told(f"next step, {path.stem} ({size})", milliseconds(lambda bench=bench, case=case: assess(bench, case)))
        fresh = iter(range(10**6))

        def after_a_reading(bench=bench, case=case, fresh=fresh) -> None:
            # A pressure never read before: every check that leans on it is made anew.
            value = Measured(kind=Kind.GAUGE_PRESSURE, value=250e3 + next(fresh), text="250 kPa")
            assess(bench, moves.read(case, "pump_out_pressure", value))

        told(f"  after a new pump pressure, {path.stem}", milliseconds(after_a_reading))
    start = time.perf_counter()
    _ = bench_for(library, load_unit(case.unit), case.symptoms).problem.outlook
    posed = 1000 * (time.perf_counter() - start)
    row("making a case ready", f"{posed:.1f} ms", against, f"{posed / reference:.0f}")


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


def large(causes: int, questions: int, seed: int = 0) -> Tree:
    """A tree with one gate over many causes, and choice questions that twenty of them move."""
    from problems import cause, choice_question, tree

    rng = np.random.default_rng(seed)
    ids = [f"c{i}x" for i in range(causes)]
    made = [cause(id, float(rng.uniform(0.1, 6)), minutes=float(rng.uniform(1, 60))) for id in ids]
    asked = []
    for q in range(questions):
        size = int(rng.integers(2, 4))
        moved = rng.choice(ids, min(20, causes), replace=False)
        rows = {str(row): rng.dirichlet(np.full(size, 0.4)) for row in ["default", *moved]}
        asked.append(choice_question(f"q{q}x", size, rows, minutes=float(rng.uniform(0.5, 15))))
    return tree([{"id": "top_event", "title": "t", "any": ids}], made, asked)


def engine() -> None:
    """Belief and plan on large trees: after an answer, and growth."""
    from problems import catalogue

    from faultdoc.diagnosis.belief import believe
    from faultdoc.diagnosis.evidence import ChoiceEvidence
    from faultdoc.diagnosis.planner import Situation, crew, plan
    from faultdoc.diagnosis.problem import pose
    from faultdoc.library.load import load_plant, load_unit
    from faultdoc.model.safety import PlantState, Qualification

    sheet, plant = load_unit("bluff_30"), load_plant()
    standing = PlantState.model_validate(
        {"supply": "energised", "panel": "closed", "pump": "stopped", "water": "pressurised",
         "compressors": "stopped", "oil": "warm"}
    )  # fmt: skip
    matrix = np.random.default_rng(0).normal(size=(400, 400))
    reference = milliseconds(lambda: matrix @ matrix)
    for causes, questions, size in ((50, 50, 2), (200, 150, 2), (200, 150, 1), (500, 150, 1), (2000, 150, 1)):
        made = large(causes, questions)
        start = time.perf_counter()
        problem = pose([made], catalogue(made), sheet, {}, size)
        team = crew(problem, plant, frozenset(Qualification), 480.0)
        _ = problem.outlook
        rebuild = 1000 * (time.perf_counter() - start)
        ids = list(problem.questions)
        evidence = [ChoiceEvidence(id, 0, problem.models[id]) for id in ids[:5]]

        def step(problem=problem, team=team, evidence=evidence, ids=ids) -> None:
            belief = believe(problem.sets, evidence)
            plan(problem, belief.weights, team, Situation(standing), ids[5:])

        took = milliseconds(step)
        goal = ""
        if (causes, size) == (200, 2):
            goal = "goal < 16 ms: " + ("met" if took < 16 else "MISSED")
        name = f"next step, {causes} x {questions}, sets to size {size}"
        row(name, f"{took:.1f} ms", f"400 x 400 matmul {reference:.2f} ms", f"{took / reference:.0f}", goal)
        row(f"  the same with a rebuild, {len(problem.sets.members)} sets", f"{rebuild + took:.0f} ms",
            f"after an answer {took:.1f} ms", f"{(rebuild + took) / took:.0f}")  # fmt: skip
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    row("peak memory so far", f"{peak:.0f} MB", "", "")


def plan_quality() -> None:
    """Expected minutes of the planner's way over the optimum and over simpler rules."""
    sys.path.insert(0, str(Path(__file__).parents[1] / "diagnosis"))
    from bounds import bounded
    from optimum import fixed, optimal, planned, prices_of
    from test_optimum import RULES, STANDING, bed_of, cut_down, random_bed

    from faultdoc.library.load import load_library, load_unit

    beds = [random_bed(seed) for seed in range(100)]
    best = np.array([optimal(bed, STANDING) for bed in beds])
    ours = np.array([planned(bed, STANDING) for bed in beds])
    _ratios("plan, 100 random problems", ours / best, "exhaustive optimum")
    for rule in RULES:
        theirs = np.array([fixed(bed, STANDING, rule) for bed in beds])
        _ratios("plan, 100 random problems", ours / theirs, rule.__name__.replace("_", " "))
    warm_up = load_unit("bluff_30").oil_warm_up / 60
    # What is less likely than 1e-7 is counted with the most it can take, and the optimum with its lower
    # bound: the ratios are never too small.
    found = []
    for id, shipped in load_library().trees.items():
        made = cut_down(shipped, 8, 8, seed=0)
        bed = bed_of(made, {one.id: one for one in made.causes}, warm_up)
        best = bounded(prices_of(bed, STANDING), within=0.5, most_nodes=8_000, most_cells=5e6)
        mine = planned(bed, STANDING, 1e-7)
        found.append(mine / best.low)
        between = f"planned {mine:.1f} min, optimum {best.low:.1f} to {min(best.high, mine):.1f} min"
        print(f"  {id}, 8 causes x 8 questions: {between}: at most {found[-1]:.4f} times", flush=True)
    ratios = np.array(found)
    met = "met" if ratios.mean() <= 1.05 and ratios.max() <= 1.25 else "MISSED"
    _ratios(f"plan, {len(found)} shipped trees cut to 8 x 8", ratios, "lower bound of the optimum")
    print(f"  goal mean <= 1.05, worst <= 1.25: {met}")


def _ratios(name: str, ratios: np.ndarray, reference: str) -> None:
    goal = f"worst {ratios.max():.3f}"
    row(name, f"mean {ratios.mean():.3f}", reference, f"{ratios.mean():.3f}", goal)


def simulator() -> None:
    """One steady moment of each demo unit, and one to which its water has settled; never the same one twice."""
    from faultdoc.library.load import load_unit, shipped_units
    from faultdoc.simulator.condition import Condition
    from faultdoc.simulator.machine import machine
    from faultdoc.simulator.steady import full_call, moment, settled
    from faultdoc.simulator.unit import usual_site

    matrix = np.random.default_rng(0).normal(size=(400, 400))
    reference = milliseconds(lambda: matrix @ matrix)
    against = f"400 x 400 matmul {reference:.2f} ms"
    for id in sorted(shipped_units()):
        sheet = load_unit(id)
        sizes, site, condition = machine(sheet), usual_site(sheet), Condition()
        call, fresh = full_call(sizes), iter(range(10**6))

        def at_once(sizes=sizes, site=site, condition=condition, call=call, sheet=sheet, fresh=fresh) -> None:
            moment(sizes, site, condition, call, sheet.water.design_entering + 1e-3 * next(fresh))

        def in_time(sizes=sizes, condition=condition, call=call, sheet=sheet, fresh=fresh) -> None:
            settled(sizes, usual_site(sheet, ambient=300.0 + 1e-2 * next(fresh)), condition, call)

        took = milliseconds(at_once)
        goal = "goal < 20 ms: " + ("met" if took < 20 else "MISSED")
        row(f"steady moment, {id}", f"{took:.2f} ms", against, f"{took / reference:.1f}", goal)
        row("  a second", f"{1000 / took:.0f}", "", "")
        slow = milliseconds(in_time)
        row("  settled", f"{slow:.2f} ms", f"one moment {took:.2f} ms", f"{slow / took:.1f}")


def evaluation() -> None:
    """Hidden cases played a minute on all cores, and how the time grows with their number."""
    from faultdoc.practice.closed_loop import draw, play_all

    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    settings = [draw(seed) for seed in range(40)]
    took: dict[int, float] = {}
    # Each run starts its processes anew, and these read the trees anew: that is what `faultdoc evaluate` does too.
    for count in (10, 20, 40):
        start = time.perf_counter()
        play_all(settings[:count], cores)
        took[count] = time.perf_counter() - start
        name = f"{count} hidden cases, {cores} process{'es' if cores > 1 else ''}"
        reference = f"10 cases {took[10]:.1f} s"
        row(name, f"{60 * count / took[count]:.0f} a minute", reference, f"{took[count] / took[10]:.2f}")
    more = (took[40] - took[20]) / 20
    row("  each more, once all is read", f"{1000 * more:.0f} ms", f"each of 40 {1000 * took[40] / 40:.0f} ms", "")
    start = time.perf_counter()
    play_all(settings[:20], 1)
    alone = time.perf_counter() - start
    against = f"{cores} processes {took[20]:.1f} s"
    row(
        "  20 in this process, all read before", f"{1200 / alone:.0f} a minute", against, f"{alone / took[20]:.2f}"
    )
    own, child = (
        resource.getrusage(whose).ru_maxrss / 1024 for whose in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    )
    row("  peak memory of a playing process", f"{child:.0f} MB", f"this benchmark's peak {own:.0f} MB",
        f"{child / own:.2f}")  # fmt: skip


def kit() -> None:
    """What to send: making a case ready, the best kit, the chance of a kit that was changed by hand."""
    from faultdoc.diagnosis.assess import assess, bench_for
    from faultdoc.library.load import load_case, load_library, load_unit
    from faultdoc.library.places import resources_folder
    from faultdoc.record.kit import best_kit, kit_with, sending

    library = load_library()
    matrix = np.random.default_rng(0).normal(size=(400, 400))
    reference = milliseconds(lambda: matrix @ matrix)
    against = f"400 x 400 matmul {reference:.2f} ms"
    for path in sorted((resources_folder() / "cases").glob("*.yaml")):
        case = load_case(path, library)
        assessment = assess(bench_for(library, load_unit(case.unit), case.symptoms), case)
        ready = sending(assessment)
        found = best_kit(ready)
        size = f"{len(ready.packing.things)} things, {len(ready.packing.wishes)} sets"
        for name, work in (
            (f"best kit, {path.stem} ({size})", lambda ready=ready: best_kit(ready)),
            ("  making it ready", lambda assessment=assessment: sending(assessment)),
            ("  chance of a changed kit", lambda ready=ready, found=found: kit_with(ready, found.taken)),
        ):
            took = milliseconds(work, 10)
            row(name, f"{took:.2f} ms", against, f"{took / reference:.1f}")


def visit() -> None:
    """On the phone: asking on weighed against sending somebody, at the first look of every case shipped."""
    from faultdoc.diagnosis.assess import assess, bench_for
    from faultdoc.diagnosis.visit import Trip, weigh
    from faultdoc.library.load import load_case, load_library, load_unit
    from faultdoc.library.places import resources_folder
    from faultdoc.model.safety import Qualification

    library = load_library()
    matrix = np.random.default_rng(0).normal(size=(400, 400))
    reference = milliseconds(lambda: matrix @ matrix)
    for path in sorted((resources_folder() / "cases").glob("*.yaml")):
        case = load_case(path, library).model_copy(update={"who": (Qualification.CALLER,), "conclusion": None})
        seen = assess(bench_for(library, load_unit(case.unit), case.symptoms), case)
        took = milliseconds(lambda seen=seen: weigh(seen, Trip(60.0, 5.0)), 3)
        row(
            f"a visit, {path.stem}",
            f"{took:.0f} ms",
            f"400 x 400 matmul {reference:.2f} ms",
            f"{took / reference:.0f}",
        )


def report() -> None:
    """A whole report with its pictures, and its PDF, of the shipped case with the most readings."""
    import tempfile

    from faultdoc.app.pdf import html_to_pdf
    from faultdoc.diagnosis.assess import assess, bench_for
    from faultdoc.library.load import load_case, load_library, load_unit
    from faultdoc.library.places import resources_folder
    from faultdoc.quantities import System
    from faultdoc.record.printing import full_report

    library = load_library()
    matrix = np.random.default_rng(0).normal(size=(400, 400))
    reference = milliseconds(lambda: matrix @ matrix)
    against = f"400 x 400 matmul {reference:.2f} ms"
    cases = [load_case(path, library) for path in sorted((resources_folder() / "cases").glob("*.yaml"))]
    case = max(cases, key=lambda one: len(one.readings))
    found = assess(bench_for(library, load_unit(case.unit), case.symptoms), case)
    html = full_report(found, System.US)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "report.pdf"
        size = f"{len(case.readings)} readings, {len(found.checks)} checks"
        for name, work in (
            (f"report as HTML ({size})", lambda: full_report(found, System.US)),
            ("  its PDF", lambda: html_to_pdf(html, path, paper="A4")),
        ):
            took = milliseconds(work, 5)
            row(name, f"{took:.0f} ms", against, f"{took / reference:.0f}")


def window() -> None:
    """Start of the window to its first usable page, cold and warm, and its memory when idle."""
    bare = milliseconds(lambda: subprocess.run([sys.executable, "-c", "import PySide6.QtWidgets"], check=True), 3)
    ready: list[float] = []
    memory = 0.0
    with tempfile.TemporaryDirectory() as home:
        for start_number in range(6):
            sign = Path(home) / f"ready{start_number}"
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
    row("window ready, first start of a new user", f"{first:.0f} ms", reference, f"{first / bare:.1f}")
    goal = "goal < 1 s: " + ("met" if warm < 1000 else "MISSED")
    row("window ready, warm", f"{warm:.0f} ms", reference, f"{warm / bare:.1f}", goal)
    own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    row(
        "memory of the idle window",
        f"{memory:.0f} MB",
        f"this benchmark's peak {own:.0f} MB",
        f"{memory / own:.2f}",
    )


def _over(one: float, other: float) -> str:
    return f"{one / other:.1f}"


def walk() -> None:
    """A user who presses anything, 20,000 times; the time from an answer to the next question; 500 cases' memory.

    How long the window's thread stands still is told by a heart that beats in it (`tests/app/walker.Heart`).
    """
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    with tempfile.TemporaryDirectory() as home:
        os.environ["FAULTDOC_HOME"] = home
        sys.path.insert(0, str(Path(__file__).parents[2]))
        from tests.app.measure import answers_to_paint, cases_memory, pressing_anything

        bare = milliseconds(lambda: sum(range(100_000)))
        reference = f"sum of 100,000 numbers {bare:.1f} ms"
        times = answers_to_paint(8)
        p95 = statistics.quantiles(times, n=20)[-1]
        middle = statistics.median(times)
        goal = "goal < 50 ms: " + ("met" if p95 < 50 else "MISSED")
        row(
            f"answer to next question, {len(times)}, 95th percentile",
            f"{p95:.0f} ms",
            reference,
            _over(p95, bare),
            goal,
        )
        row("  the same, median", f"{middle:.0f} ms", reference, _over(middle, bare))
        early, late = cases_memory(500)
        row("memory after 500 cases", f"{late:.0f} MB", f"after 100: {early:.0f} MB", f"{late / early:.2f}")
        events, longest, blocks, where = pressing_anything(int(os.environ.get("FAULTDOC_BENCH_EVENTS", "20000")))
        goal = "goal < 100 ms: " + ("met" if longest < 100 else "MISSED")
        row(
            f"longest stand-still in {events:,} events", f"{longest:.0f} ms", reference, _over(longest, bare), goal
        )
        row("  stand-stills above 100 ms", f"{blocks}", f"{events:,} events", f"{blocks / events:.4f}")
        if longest >= 100:
            print(where)


def _resident_megabytes(pid: int) -> float:
    for line in Path(f"/proc/{pid}/status").read_text(encoding="ascii").splitlines():
        if line.startswith("VmRSS:"):
            return int(line.split()[1]) / 1024
    return float("nan")


def case_book() -> None:
    """Keep answers and find cases in a book of many cases, on this disk."""
    from faultdoc.library.load import load_case, load_library
    from faultdoc.library.places import resources_folder
    from faultdoc.record import moves
    from faultdoc.record.casebook import CaseBook, Wanted
    from faultdoc.record.session import Entry

    case = load_case(resources_folder() / "cases" / "six_floors_up.yaml", load_library())
    count, words = 5000, ("belt", "strainer", "gauge", "valve", "pump", "fan", "oil", "hose", "vent", "glycol")
    with tempfile.TemporaryDirectory(dir=Path.cwd()) as folder:
        synced = _synced_write(Path(folder) / "plain")
        book = CaseBook.open(Path(folder) / "cases.sqlite")
        with book._store.writing() as connection:  # one transaction: only the size is wanted here
            from faultdoc.record.casebook import keeping

            for number in range(count):
                case_id = keeping.enter(connection, case, f"{number:032x}")
                text = " ".join(words[number // 10**place % 10] for place in range(4)) + f" n{number}"
                entry = Entry("do", text, moves.note(case, text))
                keeping.append(connection, case_id, [entry] * 5, keeping.locked(connection, case_id))
        journal = book.journal(count)
        note = Entry("do", "Note", moves.note(case, "the belt hums"))
        kept = milliseconds(lambda: journal.append(note))
        one = milliseconds(lambda: book.cases(Wanted(text=f"n{count // 2}")))
        many = milliseconds(lambda: book.cases(Wanted(text="belt gauge")))
        newest = milliseconds(lambda: book.cases())
        book.dispose()
    reference = f"4 kB to the disk {synced:.1f} ms"
    found = {
        f"one case of {count:,} found by a word": one,
        "the newest 200 with two words": many,
        "the newest 200": newest,
    }
    for what, taken in {"an answer kept, on the disk": kept, **found}.items():
        row(what, f"{taken:.1f} ms", reference, f"{taken / synced:.1f}")


def _synced_write(path: Path) -> float:
    """Return the ms that 4 kB take to the disk."""
    with path.open("wb") as stream:

        def write() -> None:
            stream.write(bytes(4096))
            stream.flush()
            os.fsync(stream.fileno())

        return milliseconds(write)


def hostile() -> None:
    """A hundred thousand hostile inputs at every door, each with a limit on time and memory."""
    import hostile as doors

    if doors.run():
        raise SystemExit("hostile inputs crashed or hung")


PARTS = {
    "step": next_step,
    "belief": belief_against_pyagrum,
    "engine": engine,
    "plan": plan_quality,
    "simulator": simulator,
    "evaluation": evaluation,
    "kit": kit,
    "visit": visit,
    "report": report,
    "book": case_book,
    "window": window,
    "hostile": hostile,
    "walk": walk,
}


def main() -> None:
    """Run all benchmarks, or those named on the command line."""
    # A hundred thousand hostile inputs take half an hour: they come when they are asked for.
    wanted = sys.argv[1:] or [name for name in PARTS if name != "hostile"]
    if unknown := [name for name in wanted if name not in PARTS]:
        raise SystemExit(f"no benchmark '{unknown[0]}'; there are: {', '.join(PARTS)}")
    print(f"{'what':<44} {'measured':>12}  {'reference in this run':<34} {'ratio':>9}")
    for name in wanted:
        PARTS[name]()


if __name__ == "__main__":
    main()

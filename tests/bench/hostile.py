"""Feeds 100,000 hostile inputs to the doors: `python3 start.py bench hostile`.

By itself: `python tests/bench/hostile.py [INPUTS [FIRST_SEED]] [DOOR]`. Each door's inputs are made from its good
examples by a seeded, structure-aware mutator and taken in by a child process with a limit on its memory, each
input with a limit on its time. Anything but a refusal that the door documents is a crash, anything over the
time a hang; both are printed with the seed that makes the input again.
"""

from __future__ import annotations

import json
import os
import resource
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1] / "hostile"))

INPUTS = 100_000
SECONDS = 20
"""Most that one input may take; a case of eight symptoms takes five."""
SLOW = 2.0
"""Seconds from which the slowest input is named."""
MEMORY = 1 << 30
"""Bytes of address space that a child may take beyond what it starts with."""
PORTION = 400
"""Inputs of one child."""


class _Hang(BaseException):
    """Not an Exception: nothing on the way may take it for a refusal."""


@dataclass
class Tally:
    """What came of the inputs of one door."""

    fed: int = 0
    taken: int = 0
    refused: Counter[str] = field(default_factory=Counter)
    bad: list[tuple[int, str]] = field(default_factory=list)
    slowest: tuple[float, int] = (0.0, -1)
    seconds: float = 0.0
    peak: float = 0.0


def _take(door: Any, corpus: Any, seeds: range, say: Any) -> None:
    """Feed some inputs in this process, and say what came of each."""
    from mutate import mutated

    def ring(*_: Any) -> None:
        raise _Hang

    signal.signal(signal.SIGALRM, ring)
    size = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0]) * resource.getpagesize()
    resource.setrlimit(resource.RLIMIT_AS, (size + MEMORY, size + MEMORY))
    with tempfile.TemporaryDirectory() as folder:
        for seed in seeds:
            say({"seed": seed})
            data = mutated(seed, corpus)
            start = time.perf_counter()
            signal.setitimer(signal.ITIMER_REAL, SECONDS, 1.0)  # again, should a callback swallow it
            try:
                door.feed(data, Path(folder))
                came = ""
            except door.refuses as refusal:
                came = type(refusal).__name__
            except _Hang:
                came = f"!took more than {SECONDS} s"
            except BaseException as problem:
                came = f"!{type(problem).__name__}: {str(problem)[:120]}"
            finally:
                signal.setitimer(signal.ITIMER_REAL, 0)
            say({"seed": seed, "came": came, "seconds": time.perf_counter() - start})
    say({"peak": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024})


def _told(door: Any, corpus: Any, seeds: range) -> Iterator[dict[str, Any]]:
    """Feed some inputs in a child, and yield what it says; its death is told too."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read)
        with os.fdopen(write, "w", encoding="utf-8") as out:
            _take(door, corpus, seeds, lambda said: (out.write(json.dumps(said) + "\n"), out.flush()))
        os._exit(0)
    os.close(write)
    last = {}
    with os.fdopen(read, encoding="utf-8") as told:
        for line in told:
            last = json.loads(line)
            yield last
    status = os.waitpid(child, 0)[1]
    if status:
        yield {"seed": last.get("seed", seeds[0]), "came": f"!the process died ({status})", "seconds": 0.0}


def run(inputs: int = INPUTS, first: int = 0, only: str | None = None) -> int:
    """Feed the doors, print the table, and return how many inputs came to something bad."""
    from doors import DOORS

    doors = [door for door in DOORS if only is None or door.name == only]
    whole = sum(door.share for door in doors)
    tallies: dict[str, Tally] = {}
    print(
        f"{'door':<16} {'inputs':>7} {'a second':>9} {'taken':>6} {'slowest':>9} {'peak MB':>8}  refused",
        flush=True,
    )
    for door in doors:
        tally = tallies[door.name] = Tally()
        corpus = door.corpus()
        for data, _ in corpus[:1]:
            _warm(door, data)
        count = max(inputs * door.share // whole, 1)
        for start in range(first, first + count, PORTION):
            for said in _told(door, corpus, range(start, min(start + PORTION, first + count))):
                _count(tally, said)
        _print(door.name, tally)
    bad = sum(len(tally.bad) for tally in tallies.values())
    fed, seconds = (sum(getattr(tally, name) for tally in tallies.values()) for name in ("fed", "seconds"))
    print(f"{fed:,} inputs, {fed / seconds:.0f} a second, {bad} crashed or hung")
    return bad


def _warm(door: Any, data: bytes) -> None:
    """Let the door read once what it keeps, before children inherit it."""
    with tempfile.TemporaryDirectory() as folder:
        for more in range(8):  # by its length an input goes more or less far
            try:
                door.feed(data + b"\n" * more, Path(folder))
            except door.refuses:
                continue


def _count(tally: Tally, said: dict[str, Any]) -> None:
    if "peak" in said:
        tally.peak = max(tally.peak, said["peak"])
    if "came" not in said:
        return
    tally.fed += 1
    tally.seconds += said["seconds"]
    tally.slowest = max(tally.slowest, (said["seconds"], said["seed"]))
    if not said["came"]:
        tally.taken += 1
    elif said["came"].startswith("!"):
        tally.bad.append((said["seed"], said["came"][1:]))
    else:
        tally.refused[said["came"]] += 1


def _print(name: str, tally: Tally) -> None:
    refused = ", ".join(f"{kind} {count}" for kind, count in tally.refused.most_common())
    rate = tally.fed / tally.seconds if tally.seconds else 0.0
    slow = f"{tally.slowest[0]:.2f} s"
    print(
        f"{name:<16} {tally.fed:>7} {rate:>9.0f} {tally.taken:>6} {slow:>9} {tally.peak:>8.0f}  {refused}",
        flush=True,
    )
    if tally.slowest[0] > SLOW:
        print(f"  slow: seed {tally.slowest[1]}", flush=True)
    for seed, what in tally.bad[:10]:
        print(f"  seed {seed}: {what}", flush=True)
    if len(tally.bad) > 10:
        print(f"  and {len(tally.bad) - 10} more", flush=True)


if __name__ == "__main__":
    wanted = sys.argv[1:]
    numbers = [int(one) for one in wanted if one.isdigit()]
    names = [one for one in wanted if not one.isdigit()]
    sys.exit(1 if run(*(numbers or [INPUTS]), only=names[0] if names else None) else 0)

"""How long a library of plans takes: cold, warm, after a change to one plan, after one to a shared file.

Run: python -m tests.benchmarks.library [PLANS]

The plans are the right examples again and again, each with its own name, wire lengths, labels and comments, and one in
ten a wrong one, so that there is something to tell. They share the parts of the examples. Each run is a process of its
own with its report into a pipe. Seconds are the clock's and, in brackets, the processor's over all processes; the
quickest of three, except for the cold run. Start-up is `check` of one usual plan without the cache.
"""

import os
import random
import re
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

TOP = Path(__file__).parent.parent.parent
EXAMPLES = TOP / "examples"
USUAL = "drawbridge.plan"


class Taken(NamedTuple):
    """Seconds of the clock and of the processor."""

    clock: float
    processor: float

    def __str__(self) -> str:
        return f"{self.clock:7.3f} s ({self.processor:.3f} s)"


def write_library(folder: Path, count: int) -> list[Path]:
    """So many plans in groups of 20, with the shared parts beside them. The same numbers give the same library."""
    chance = random.Random(7)
    shutil.copytree(EXAMPLES / "parts", folder / "parts")
    right, wrong = (sorted((EXAMPLES / kind).glob("*.plan")) for kind in ("right", "wrong"))
    made = []
    for number in range(count):
        origin = wrong[number // 10 % len(wrong)] if number % 10 == 9 else right[number % len(right)]
        path = folder / f"group{number // 20:03}" / f"{origin.stem}_{number:04}.plan"
        path.parent.mkdir(exist_ok=True)
        path.write_text(varied(origin.read_text(encoding="utf-8"), number, chance), encoding="utf-8")
        made.append(path)
    return made


def varied(text: str, number: int, chance: random.Random) -> str:
    """The same prop in another group: nothing that decides about findings is different."""
    text = re.sub(r"^plan (\w+)", rf"plan \g<1>{number}", text, flags=re.MULTILINE)
    text = re.sub(r"\b[\d.]+ m$", lambda _: f"{chance.randint(1, 60) / 10} m", text, flags=re.MULTILINE)
    return f"{text}\n# Built by group {number // 20}, box {number}, checked in week {chance.randint(1, 52)}.\n"


def run(folder: Path, *arguments: str) -> Taken:
    """One call of the command, over the library in `folder`, with the cache beside it."""
    command = [sys.executable, "-m", "circuitcheck", *arguments]
    environment = os.environ | {"PYTHONPATH": str(TOP), "XDG_CACHE_HOME": str(folder.parent / "cache")}
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run(command, cwd=folder, env=environment, capture_output=True, check=False)
    clock, after = time.perf_counter() - began, resource.getrusage(resource.RUSAGE_CHILDREN)
    return Taken(clock, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)


def quickest(folder: Path, *arguments: str) -> Taken:
    """Of three runs: what else the machine does only makes them slower."""
    return min(run(folder, *arguments) for _ in range(3))


def main(count: int) -> None:
    """Measures, and tells."""
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary) / "library"
        folder.mkdir()
        plans = write_library(folder, count)
        usual = next(str(path.relative_to(folder)) for path in plans if path.stem.startswith(Path(USUAL).stem + "_0"))
        one = ("check", "--library", ".", usual)
        run(folder, *one)
        cores = len(os.sched_getaffinity(0))
        told = {"--version": quickest(folder, "--version"), "start-up": quickest(folder, *one, "--no-cache")}
        told["one plan, kept"] = quickest(folder, *one)
        shutil.rmtree(folder.parent / "cache" / "circuitcheck" / "verdicts")
        told[f"cold, {cores} cores"] = cold = run(folder, "check", ".")
        told["warm"] = warm = quickest(folder, "check", ".")
        told["warm, JSON"] = quickest(folder, "check", ".", "--format", "json")
        plans[0].write_text(plans[0].read_text(encoding="utf-8") + "# changed\n", encoding="utf-8")
        told["one plan changed"] = run(folder, "check", ".")
        shared = folder / "parts" / "reverser.plan"
        shared.write_text(shared.read_text(encoding="utf-8") + "# changed\n", encoding="utf-8")
        told["a shared file changed"] = run(folder, "check", ".")
        for name, taken in told.items():
            print(f"{name:24} {taken}")
        print(f"cold: {count / cold.processor:.0f} plans for each second of a core ({count / cold.clock:.0f} a second)")
        start_up = told["start-up"]
        print(f"warm: {warm.processor / start_up.processor:.2f} times start-up ({warm.clock / start_up.clock:.2f})")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)

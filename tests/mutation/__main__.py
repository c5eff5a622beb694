"""Changes one thing at a time in analysis/ and checks/, and tells which changes no test notices.

    python -m tests.mutation --sample 100 --seed 1 --processes 2

The mutants are a random sample of all of them, the same for the same seed. For each, the tests run that name its file's
module, then those that hold the engine as a whole; the first that fails ends it. A mutant that goes on for ever counts
as noticed. Slow tests don't run.
"""

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from math import sqrt
from pathlib import Path
from queue import SimpleQueue
from random import Random
from typing import NamedTuple

from tests.mutation.mutants import Mutant, mutants

TOP = Path(__file__).parent.parent.parent
ROOMS = ("analysis", "checks")
WHOLE = ("tests/checks/test_examples_of_checks.py", "tests/test_examples.py", "tests/analysis", "tests/reference")
MOST_SECONDS = 420


class Tried(NamedTuple):
    """survived: no test noticed it."""

    file: Path
    mutant: Mutant
    survived: bool


def every_mutant() -> list[tuple[Path, Mutant]]:
    """Of all files of the rooms, in order."""
    files = [file for room in ROOMS for file in sorted((TOP / "circuitcheck" / room).rglob("*.py"))]
    return [(file.relative_to(TOP), one) for file in files for one in mutants(file.read_text(encoding="utf-8"))]


def tests_for(file: Path) -> list[str]:
    """The tests that name the module, then those of the whole."""
    module = ".".join(file.with_suffix("").parts)
    naming = re.compile(rf"{re.escape(module)} |{re.escape(module.rpartition('.')[0])} import .*\b{file.stem}\b")
    tests = sorted((TOP / "tests").rglob("test_*.py"))
    return [*(str(test.relative_to(TOP)) for test in tests if naming.search(test.read_text(encoding="utf-8"))), *WHOLE]


def survives(tree: Path, file: Path, mutant: Mutant) -> bool:
    """Do the tests pass with it? tree: a copy of the repository of its own."""
    original = (TOP / file).read_text(encoding="utf-8")
    (tree / file).write_text(mutant.text, encoding="utf-8")
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-n0", "-p", "no:cacheprovider", *tests_for(file)]
    environment = os.environ | {"PYTHONPATH": str(tree), "PYTHONPYCACHEPREFIX": str(tree / "compiled")}
    try:
        done = subprocess.run(
            command, cwd=tree, env=environment, capture_output=True, timeout=MOST_SECONDS, check=False
        )
        return done.returncode == 0
    except subprocess.TimeoutExpired:
        print(
            f"{file}:{mutant.line}: {mutant.what}: no end within {MOST_SECONDS} s, which counts as noticed", flush=True
        )
        return False
    finally:
        (tree / file).write_text(original, encoding="utf-8")


def main() -> None:
    """Tells each survivor, and the share of mutants that were noticed with its margin (95 %)."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--sample", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=1)
    options = parser.parse_args()
    every = every_mutant()
    chosen = Random(options.seed).sample(every, min(options.sample, len(every)))
    with tempfile.TemporaryDirectory() as folder:
        trees: SimpleQueue[Path] = SimpleQueue()
        for number in range(options.processes):
            tree = Path(folder) / str(number)
            for part in ("circuitcheck", "tests", "grammar", "examples", "pyproject.toml", "README.md", ".git"):
                (shutil.copytree if (TOP / part).is_dir() else shutil.copy)(TOP / part, _made(tree) / part)
            trees.put(tree)

        def try_one(one: tuple[Path, Mutant]) -> Tried:
            tree = trees.get()
            try:
                return Tried(*one, survives(tree, *one))
            finally:
                trees.put(tree)

        with ThreadPoolExecutor(options.processes) as pool:
            survived = 0
            for tried, one in enumerate(pool.map(try_one, chosen), 1):
                survived += one.survived
                if one.survived:
                    print(f"{one.file}:{one.mutant.line}: {one.mutant.what}", flush=True)
                share = 1 - survived / tried
                margin = 1.96 * sqrt(share * (1 - share) / tried)
                if tried % 10 == 0 or tried == len(chosen):
                    print(f"{tried} of {len(every):,} mutants tried, {share:.0%} ± {margin:.0%} noticed", flush=True)


def _made(folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    return folder


if __name__ == "__main__":
    main()

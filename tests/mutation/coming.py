"""Which lines each test comes to, and how long it takes.

That is kept in a file. A test is timed again when its own file changes, or any that isn't only tests.
"""

import hashlib
import os
import pickle
from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import NamedTuple

import pytest
from _pytest.runner import runtestprotocol
from coverage import Coverage

from tests.mutation.children import answers, limit

TOP = Path(__file__).parent.parent.parent
ROOMS = tuple(TOP / "circuitcheck" / room for room in ("analysis", "checks"))
MOST_SECONDS = 100
"""What a test may take that nobody has timed yet."""


class Run(NamedTuple):
    """seconds: of processor time, alone. lines: of each file of the rooms, those that the test comes to."""

    seconds: float
    lines: dict[str, frozenset[int]]

    def comes_to(self, file: Path, lines: range) -> bool:
        return not self.lines.get(str(file), frozenset()).isdisjoint(lines)

    def detour(self, file: Path) -> float:
        """Small for tests that are quick and have little to do with other files."""
        return self.seconds * sum(map(len, self.lines.values())) / len(self.lines[str(file)])


def files() -> list[Path]:
    """Of the rooms, in order."""
    return [file for room in ROOMS for file in sorted(room.rglob("*.py"))]


def passes(test: pytest.Item, following: pytest.Item | None) -> bool:
    """Does it pass, here and now? following: the test that comes next; what both need is kept."""
    reports = runtestprotocol(test, nextitem=following, log=False)
    return all(report.passed for report in reports)


def runs(tests: Sequence[pytest.Item], kept: Path, processes: int) -> dict[str, Run]:
    """Each test that passes, by its name. Those that only other processes bring to a line don't count."""
    before: dict[str, tuple[str, Run | None]] = pickle.loads(kept.read_bytes()) if kept.exists() else {}
    common = _fingerprint(file for file in _texts() if not file.name.startswith("test_"))
    texts = {test.nodeid: _fingerprint([test.path], common) for test in tests}
    known = {name: run for name, (text, run) in before.items() if texts.get(name) == text}
    known |= _timed([test for test in tests if test.nodeid not in known], processes)
    kept.write_bytes(pickle.dumps({name: (texts[name], run) for name, run in known.items()}))
    return {name: run for name, run in known.items() if run}


def _timed(tests: Sequence[pytest.Item], processes: int) -> Iterator[tuple[str, Run | None]]:
    # Begun here, since to begin takes longer than most tests.
    seen = Coverage(data_file=None, config_file=False, include=[f"{room}/*" for room in ROOMS])
    seen.start()
    for number, (test, run) in enumerate(answers(partial(_run, seen), tests, processes), 1):
        if not isinstance(run, Run):
            print(f"{test.nodeid} doesn't pass by itself, or takes too long", flush=True)
        yield test.nodeid, run if isinstance(run, Run) else None
        if number % 500 == 0:
            print(f"{number} of {len(tests):,} tests timed", flush=True)
    seen.stop()


def _run(seen: Coverage, test: pytest.Item) -> Run | None:
    limit(MOST_SECONDS)
    before = sum(os.times()[:4])
    passed = passes(test, None)
    seconds = sum(os.times()[:4]) - before
    seen.stop()
    data = seen.get_data()
    lines = {file: frozenset(data.lines(file) or ()) for file in data.measured_files()}
    return Run(seconds, {file: of_it for file, of_it in lines.items() if of_it}) if passed else None


def _texts() -> Iterator[Path]:
    """All that a test's lines may hang on, but for this driver."""
    for folder in ("circuitcheck", "tests", "grammar", "examples"):
        for file in sorted((TOP / folder).rglob("*")):
            if file.is_file() and file.suffix != ".pyc" and file.parent != Path(__file__).parent:
                yield file


def _fingerprint(files: Iterable[Path], before: str = "") -> str:
    texts = hashlib.sha256(before.encode())
    for file in files:
        texts.update(str(file).encode() + b"\0" + file.read_bytes())
    return texts.hexdigest()

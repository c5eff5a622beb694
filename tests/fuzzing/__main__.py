"""Puts random texts through the whole tool and keeps those that bring it down, hang it or fill the memory.

    python -m tests.fuzzing --texts 1000000 --processes 2 --keep FOLDER

A text is read, built, examined by every check and its findings are told, in a process that may use 500 MB more than it
begins with; whatever takes more than two seconds of processor time is told too. Of one in a hundred that is examined
another command is asked as well. Texts are numbered: `--from N` goes on
from number N, and a number always gives the same text. One with the statements of an earlier one is left out.
"""

import argparse
import resource
import signal
import sys
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from functools import cache
from multiprocessing import Pool
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from types import FrameType
from typing import NamedTuple

from circuitcheck.plan.parsing import StatementParser
from tests.fuzzing.texts import any_text
from tests.fuzzing.whole_tool import MORE_ASKED, ask_more, put_through

MOST_SECONDS = 2.0
MOST_MEGABYTES = 500
BATCH = 500
TOLD_EVERY = 10_000


class TooLong(Exception):
    """It takes longer than it may."""


class Some(NamedTuple):
    """Of so many texts: how many were examined, how many had the statements of one before, and what happened to any."""

    examined: int
    again: int
    amiss: "list[Tried]"


class Tried(NamedTuple):
    """number: the text's. verdict: "examined", "refused" or "the same again", else what happened. seconds: of the
    processor."""

    number: int
    verdict: str
    seconds: float


def _interrupt(_signal: int, _frame: FrameType | None) -> None:
    raise TooLong


def _limit_memory() -> None:
    """Half a gigabyte more than what the process has taken at its beginning."""
    now = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    resource.setrlimit(resource.RLIMIT_AS, (now + MOST_MEGABYTES * 2**20,) * 2)


@cache
def parser_of_process() -> StatementParser:
    """One for all texts of a process: it loads its grammar once, and knows again the statements it has read."""
    return StatementParser()


@cache
def met_by_process() -> set[int]:
    """What tells the statements of all texts up to now apart, a number each."""
    return set()


def try_some(numbers: range) -> Some:
    """What came of these texts."""
    signal.signal(signal.SIGVTALRM, _interrupt)
    with TemporaryDirectory() as folder:
        tried = [_try(number, Path(folder)) for number in numbers]
    counts = Counter(one.verdict for one in tried)
    amiss = [one for one in tried if one.verdict not in ("examined", "refused", "the same again")]
    return Some(counts["examined"], counts["the same again"], amiss)


def _try(number: int, folder: Path) -> Tried:
    chance = Random(number)
    text = any_text(chance)
    begun = time.process_time()
    met, statements = met_by_process(), hash(statements_of(text))
    if statements in met:
        return Tried(number, "the same again", 0.0)
    met.add(statements)
    signal.setitimer(signal.ITIMER_VIRTUAL, MOST_SECONDS)
    try:
        verdict = put_through(text, parser_of_process())
        if verdict == "examined" and chance.random() < MORE_ASKED:
            signal.setitimer(signal.ITIMER_VIRTUAL, MOST_SECONDS)
            ask_more(text, chance, folder)
    except TooLong:
        verdict = f"more than {MOST_SECONDS:g} seconds, at {traceback.format_exc(limit=-3)}"
    except MemoryError:
        verdict = f"more than {MOST_MEGABYTES} MB"
    except Exception:
        verdict = traceback.format_exc(limit=-5)
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
    return Tried(number, verdict, time.process_time() - begun)


def statements_of(text: str) -> tuple[str, ...]:
    """What is left of a text without comments and blanks around lines: two that have it alike say the same."""
    return tuple(filter(None, (line.partition("#")[0].strip() for line in text.split("\n"))))


def batches(first: int, texts: int) -> Iterator[range]:
    """The numbers of the texts, some hundreds at a time."""
    last = first + texts
    return (range(start, min(start + BATCH, last)) for start in range(first, last, BATCH))


def _told(done: int, examined: int, again: int, amiss: int, seconds: float) -> str:
    rate = f"{done / seconds:.0f} a second"
    said = f"{done:,} texts, {examined:,} examined, {again:,} that say what one before said"
    return f"{said}, in {seconds:.0f} s ({rate}): {amiss} amiss"


def main() -> int:
    """Tells what happened, and how many texts a second went through."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--texts", type=int, default=10_000)
    parser.add_argument("--from", type=int, default=0, dest="first")
    parser.add_argument("--processes", type=int, default=1)
    parser.add_argument("--keep", type=Path, help="a folder for texts that something happened to")
    options = parser.parse_args()
    begun, done, examined, again, amiss = time.perf_counter(), 0, 0, 0, 0
    with Pool(options.processes, _limit_memory) as pool:
        for some in pool.imap_unordered(try_some, batches(options.first, options.texts)):
            done, amiss = min(done + BATCH, options.texts), amiss + len(some.amiss)
            examined, again = examined + some.examined, again + some.again
            if done % TOLD_EVERY < BATCH:
                print(_told(done, examined, again, amiss, time.perf_counter() - begun), flush=True)
            for one in some.amiss:
                print(f"text {one.number}, {one.seconds:.1f} s: {one.verdict}", flush=True)
                if options.keep:
                    options.keep.mkdir(parents=True, exist_ok=True)
                    (options.keep / f"{one.number}.plan").write_text(any_text(Random(one.number)), encoding="utf-8")
    print(_told(done, examined, again, amiss, time.perf_counter() - begun))
    return 1 if amiss else 0


if __name__ == "__main__":
    sys.exit(main())

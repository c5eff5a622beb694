"""Puts random texts through the whole tool and keeps those that bring it down, hang it or fill the memory.

    python -m tests.fuzzing --texts 1000000 --processes 2 --keep FOLDER

A text is read, built, examined by every check and its findings are told, in a process that may use 500 MB more than it
begins with; whatever takes more than two seconds of processor time is told too. Of one in twenty that is examined
another command is asked as well. Texts are numbered: `--from N` goes on
from number N, and a number always gives the same text.
"""

import argparse
import resource
import signal
import sys
import time
import traceback
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


class Tried(NamedTuple):
    """number: the text's. verdict: "examined" or "refused", else what happened. seconds: of the processor."""

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


def try_some(numbers: range) -> tuple[int, list[Tried]]:
    """How many of these texts were examined, and those that something happened to."""
    signal.signal(signal.SIGVTALRM, _interrupt)
    with TemporaryDirectory() as folder:
        tried = [_try(number, Path(folder)) for number in numbers]
    amiss = [one for one in tried if one.verdict not in ("examined", "refused")]
    return sum(one.verdict == "examined" for one in tried), amiss


def _try(number: int, folder: Path) -> Tried:
    chance = Random(number)
    text = any_text(chance)
    begun = time.process_time()
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


def batches(first: int, texts: int) -> Iterator[range]:
    """The numbers of the texts, some hundreds at a time."""
    last = first + texts
    return (range(start, min(start + BATCH, last)) for start in range(first, last, BATCH))


def _told(done: int, examined: int, amiss: int, seconds: float) -> str:
    rate = f"{done / seconds:.0f} a second"
    return f"{done:,} texts, {examined:,} examined, in {seconds:.0f} s ({rate}): {amiss} amiss"


def main() -> int:
    """Tells what happened, and how many texts a second went through."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--texts", type=int, default=10_000)
    parser.add_argument("--from", type=int, default=0, dest="first")
    parser.add_argument("--processes", type=int, default=1)
    parser.add_argument("--keep", type=Path, help="a folder for texts that something happened to")
    options = parser.parse_args()
    begun, done, examined, amiss = time.perf_counter(), 0, 0, 0
    with Pool(options.processes, _limit_memory) as pool:
        for some, found in pool.imap_unordered(try_some, batches(options.first, options.texts)):
            done, examined, amiss = min(done + BATCH, options.texts), examined + some, amiss + len(found)
            if done % TOLD_EVERY < BATCH:
                print(_told(done, examined, amiss, time.perf_counter() - begun), flush=True)
            for one in found:
                print(f"text {one.number}, {one.seconds:.1f} s: {one.verdict}", flush=True)
                if options.keep:
                    options.keep.mkdir(parents=True, exist_ok=True)
                    (options.keep / f"{one.number}.plan").write_text(any_text(Random(one.number)), encoding="utf-8")
    print(_told(done, examined, amiss, time.perf_counter() - begun))
    return 1 if amiss else 0


if __name__ == "__main__":
    sys.exit(main())

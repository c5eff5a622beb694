"""Puts random texts through the whole tool and keeps those that bring it down, hang it or fill the memory.

    python -m tests.fuzzing --texts 1000000 --processes 2 --keep FOLDER

A text is read, built, examined by every check and its findings are told, in a process that may use 500 MB more than it
begins with; whatever takes more than two seconds of processor time is told too. Texts are numbered: `--from N` goes on
from number N, and a number always gives the same text.
"""

import argparse
import resource
import signal
import sys
import time
import traceback
from collections.abc import Iterator
from multiprocessing import Pool
from pathlib import Path
from random import Random
from types import FrameType
from typing import NamedTuple

from circuitcheck.examination import examine_plan
from circuitcheck.library.verdict import Unexamined, verdict_of
from circuitcheck.plan.parsing import StatementParser
from circuitcheck.plan.reading import read_partly
from circuitcheck.plan.source import PlanError, Problem
from circuitcheck.plan.text import source_of_bytes
from circuitcheck.reports.findings_text import findings_lines
from circuitcheck.reports.problems import problems_text
from tests.fuzzing.texts import FOLDER, any_text

MOST_SECONDS = 2.0
MOST_MEGABYTES = 500
BATCH = 500


class TooLong(Exception):
    """It takes longer than it may."""


class Tried(NamedTuple):
    """number: the text's. verdict: "examined" or "refused", else what happened. seconds: of the processor."""

    number: int
    verdict: str
    seconds: float


def put_through(text: str, parser: StatementParser) -> str:
    """ "examined" or "refused"; anything else is raised."""
    try:
        source = source_of_bytes("fuzzed.plan", text.encode("utf-8", "surrogatepass"))
        if isinstance(source, Problem):
            raise PlanError((source,), ())
        read = read_partly(
            source._replace(file=str(FOLDER / "right" / "fuzzed.plan")), (FOLDER,), parser, lambda _: None
        )
        if read.problems:
            raise PlanError(read.problems, read.plan.sources)
        examination = examine_plan(read.plan, time.perf_counter())
    except PlanError as error:
        problems_text(error, 80)
        findings_lines([Unexamined("fuzzed.plan", error)], 80)
        return "refused"
    findings_lines([verdict_of(examination)], 80)
    return "examined"


def _interrupt(_signal: int, _frame: FrameType | None) -> None:
    raise TooLong


def _limit_memory() -> None:
    """Half a gigabyte more than what the process has taken at its beginning."""
    now = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    resource.setrlimit(resource.RLIMIT_AS, (now + MOST_MEGABYTES * 2**20,) * 2)


def try_some(numbers: range) -> tuple[int, list[Tried]]:
    """How many of these texts were examined, and those that something happened to."""
    parser, examined, amiss = StatementParser(), 0, []
    signal.signal(signal.SIGVTALRM, _interrupt)
    for number in numbers:
        begun = time.process_time()
        signal.setitimer(signal.ITIMER_VIRTUAL, MOST_SECONDS)
        try:
            verdict = put_through(any_text(Random(number)), parser)
        except TooLong:
            verdict = f"more than {MOST_SECONDS:g} seconds"
        except MemoryError:
            verdict = f"more than {MOST_MEGABYTES} MB"
        except Exception:
            verdict = traceback.format_exc(limit=-3)
        finally:
            signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        examined += verdict == "examined"
        if verdict not in ("examined", "refused"):
            amiss.append(Tried(number, verdict, time.process_time() - begun))
    return examined, amiss


def batches(first: int, texts: int) -> Iterator[range]:
    """The numbers of the texts, some hundreds at a time."""
    last = first + texts
    return (range(start, min(start + BATCH, last)) for start in range(first, last, BATCH))


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
            for one in found:
                print(f"text {one.number}, {one.seconds:.1f} s: {one.verdict}", flush=True)
                if options.keep:
                    options.keep.mkdir(parents=True, exist_ok=True)
                    (options.keep / f"{one.number}.plan").write_text(any_text(Random(one.number)), encoding="utf-8")
    seconds = time.perf_counter() - begun
    print(f"{done:,} texts, {examined:,} examined, in {seconds:.0f} s ({done / seconds:.0f} a second): {amiss} amiss")
    return 1 if amiss else 0


if __name__ == "__main__":
    sys.exit(main())

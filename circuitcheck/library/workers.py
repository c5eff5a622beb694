"""Plans examined side by side, each core its own process, so that no plan can take the others' results with it.

A process has one plan at a time. Where it dies over it (ended from outside, out of memory), that plan has no verdict
and another process takes the next one.
"""

import gc
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from types import ModuleType
from typing import TYPE_CHECKING

from circuitcheck.library.asking import STANDARD_INPUT, Asked
from circuitcheck.library.verdict import Outcome, Unexamined, verdict_of
from circuitcheck.plan.source import PlanError, Problem
from circuitcheck.plan.text import whole_file

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.context import SpawnProcess

    from circuitcheck.plan.parsing import StatementParser


def examine_each(
    asked: Sequence[Asked], hear: Callable[[Asked, str], None] = lambda *_: None
) -> Iterator[tuple[int, Outcome]]:
    """The number of each plan with its outcome, as they come.

    A single plan is examined in this very process, and so is one that is piped in: only here it can be read.
    hear: hears what is being done about a plan that is.
    """
    apart = [number for number, one in enumerate(asked) if one.file != STANDARD_INPUT]
    apart = apart if len(apart) > 1 else []
    for number, one in enumerate(asked):
        if not apart or one.file == STANDARD_INPUT:
            yield number, examine_one(one, hear=partial(hear, one))
    for place, outcome in _side_by_side([asked[number] for number in apart]):
        yield apart[place], outcome


def examine_one(
    asked: Asked, parser: "StatementParser | None" = None, hear: Callable[[str], None] = lambda _: None
) -> Outcome:
    """One plan's outcome, whatever happens. parser: one that has its grammar already. hear: as in `examine`."""
    from pathlib import Path

    from circuitcheck.examination import examine

    try:
        return verdict_of(examine(Path(asked.file), asked.roots, asked.off, parser, asked.defaults, hear))
    except PlanError as error:
        return Unexamined(asked.file, error)
    except Exception as error:
        what = f"{asked.file} made circuitcheck stumble over {type(error).__name__}: {error}"
        return _lost(asked, what, "Please report this with the plan that led to it.")


def _lost(asked: Asked, what: str, help: str) -> Unexamined:
    return Unexamined(asked.file, PlanError((Problem(whole_file(asked.file), what, help),), ()))


def _ended(asked: Asked) -> Unexamined:
    what = f"the process that examined {asked.file} was ended from outside"
    return _lost(asked, what, "See whether memory ran out, and check this plan alone.")


class _Worker:
    """A process, and the number of the plan that it is busy with."""

    def __init__(self) -> None:
        from multiprocessing import get_context

        # Each begins anew, as everywhere but on Linux it must: a copy of this process would copy its threads' locks.
        context = get_context("spawn")
        self.line, other_end = context.Pipe()
        self.process: SpawnProcess = context.Process(target=_work, args=(other_end,), daemon=True)
        _start(self.process)
        other_end.close()
        self.number = -1

    def give(self, number: int, asked: Asked) -> None:
        """Lets it examine this plan; if it is no more, that shows when its answer is waited for."""
        self.number = number
        try:
            self.line.send(asked)
        except OSError:
            return

    def answer(self) -> Outcome | None:
        """What came of the plan; None where the process is no more."""
        try:
            outcome: Outcome = self.line.recv()
        except (EOFError, OSError):
            return None
        return outcome

    def end(self) -> None:
        """Ends the process."""
        self.line.close()
        self.process.terminate()
        self.process.join()


def _start(process: "SpawnProcess") -> None:
    """A process begins with the program that it was started from, which may be anybody's, and do anything: ours needs
    none of it."""
    program = sys.modules["__main__"]
    sys.modules["__main__"] = ModuleType("__main__")
    try:
        process.start()
    finally:
        sys.modules["__main__"] = program


def _side_by_side(asked: Sequence[Asked]) -> Iterator[tuple[int, Outcome]]:
    if not asked:
        return
    from multiprocessing.connection import wait

    _keep_tables()
    waiting = iter(enumerate(asked))
    workers = {(worker := _Worker()).line: worker for _ in range(min(len(asked), _cores()))}
    try:
        for worker in tuple(workers.values()):
            worker.give(*next(waiting))
        while workers:
            for line in wait(list(workers)):
                worker = workers.pop(line)  # type: ignore[call-overload]
                number, outcome = worker.number, worker.answer()
                following = next(waiting, None)
                if outcome is None or following is None:
                    worker.end()
                if following is not None:
                    worker = worker if outcome else _Worker()
                    worker.give(*following)
                    workers[worker.line] = worker
                yield number, outcome or _ended(asked[number])
    finally:
        for worker in workers.values():
            worker.end()


def _keep_tables() -> None:
    from circuitcheck.plan.grammar import tables_are_kept

    if not tables_are_kept():
        from circuitcheck.plan.builder import Builder
        from circuitcheck.plan.grammar import load_parser

        load_parser(Builder())


def _cores() -> int:
    """How many this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _work(line: "Connection") -> None:
    """Examines what comes along the line until nothing more does."""
    import signal

    from circuitcheck.plan.parsing import StatementParser

    # Whoever presses Ctrl-C means the first process; that one ends the others.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    gc.set_threshold(100_000, 50, 50)
    parser = StatementParser()
    while True:
        try:
            asked = line.recv()
        except (EOFError, OSError):
            return
        line.send(examine_one(asked, parser))

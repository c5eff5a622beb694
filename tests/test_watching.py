"""Watching a plan: every save is looked through, and an interrupt ends it at any moment."""

import os
import queue
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

import pytest

from tests.interrupting import interrupt, started

pytest.importorskip("watchfiles", reason="the editor extra is not installed")

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(os.name == "nt", reason="Ctrl+C reaches a process of its own otherwise there"),
]
PLAN = "supply PS 12 V 10 A\nfuse F1 5 A\nbutton PB1 no\nlamp L1 12 V 2 W\nrung PS.+, F1, PB1, L1, PS.-\n"
LOSING = """
import os, signal, sys, time
from circuitcheck.cli import main
from circuitcheck.commands import watch

class Finalized:
    def __del__(self):
        os.kill(os.getpid(), signal.SIGINT)
        time.sleep(1)

def look(_options):
    print("looked", flush=True)
    Finalized()

watch._look_through = look
print("ended", main(["watch", sys.argv[1]]), flush=True)
"""
"""A look during which Python is interrupted where it drops exceptions: while something is taken apart."""


@contextmanager
def running(*arguments: str) -> Iterator[tuple[Callable[[str], None], Callable[[], int]]]:
    """Two calls: one waits until something is told, the other interrupts and gives the exit status."""
    process = started(*arguments)
    lines: queue.Queue[str] = queue.Queue()
    streams = [stream for stream in (process.stdout, process.stderr) if stream]

    def read(stream: IO[bytes]) -> None:
        for line in stream:
            lines.put(line.decode())

    threads = [threading.Thread(target=read, args=(stream,)) for stream in streams]
    for thread in threads:
        thread.start()

    def told(what: str) -> None:
        while what not in lines.get(timeout=30):
            pass

    def ended() -> int:
        interrupt(process)
        return process.wait(timeout=30)

    try:
        yield told, ended
    finally:
        process.kill()
        process.wait()
        for thread in threads:
            thread.join()
        for stream in streams:
            stream.close()


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """A plan with nothing wrong."""
    path = tmp_path / "lamp.plan"
    path.write_text(PLAN)
    return path


def test_a_plan_is_looked_through_each_time_it_is_saved(plan: Path) -> None:
    """Slips are told and don't end it; Ctrl+C does."""
    with running("-m", "circuitcheck", "watch", str(plan)) as (told, ended):
        told("This does not replace")
        # The first look is over; the watching begins beside it.
        for text, what in ((PLAN + "lamp", "lamp.plan:6"), (PLAN + "lamp L2 12 V 2 W\n", "unwired-terminal")):
            threading.Timer(1.0, plan.write_text, (text,)).start()
            told(what)
        assert ended() == 0


@pytest.mark.parametrize("seconds", [0.0, 0.05, 0.2, 0.5])
def test_an_interrupt_ends_it_at_any_moment_after_a_look(seconds: float, plan: Path) -> None:
    """Between the look and the watching, and while that begins."""
    with running("-m", "circuitcheck", "watch", str(plan)) as (told, ended):
        told("This does not replace")
        time.sleep(seconds)
        assert ended() == 0


def test_an_interrupt_that_python_drops_ends_it_all_the_same(plan: Path) -> None:
    """Python drops what is raised while it takes something apart; that somebody wants an end is remembered."""
    with running("-c", LOSING, str(plan)) as (told, _):
        told("looked")
        told("ended 0")

"""Work done in a child forked for each piece of it, which begins where its parent stands and leaves no trace there."""

import os
import pickle
import resource
import shutil
import signal
import sys
import time
import traceback
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple, TypeVar

Asked = TypeVar("Asked")
Answer = TypeVar("Answer")
MOST_MEMORY = 3 << 30
"""Bytes that a child may use. A limit of the system's own would count what decision diagrams only set aside."""
LOOKED_AFTER = 0.02
"""Seconds after which the parent looks again how its children are."""


class Killed(NamedTuple):
    """No answer: the child was stopped by its limits of time or memory, or broke down."""


def answers(
    work: Callable[[Asked], Answer], asked: Iterable[Asked], processes: int
) -> Iterator[tuple[Asked, Answer | Killed]]:
    """What work gives for each, in a child of its own, as they come; `processes` at a time."""
    with TemporaryDirectory() as folder:
        running: dict[int, tuple[Asked, Path]] = {}
        for number, one in enumerate(asked):
            if len(running) == processes:
                yield _next_answer(running)
            own = Path(folder) / str(number)
            own.mkdir()
            running[_started(work, one, own)] = one, own
        while running:
            yield _next_answer(running)


def limit(seconds: float) -> None:
    """Kills this process that much processor time from now, or when it has waited far longer."""
    signal.setitimer(signal.ITIMER_PROF, seconds)
    signal.setitimer(signal.ITIMER_REAL, 30 * seconds)


def _started(work: Callable[[Asked], Answer], one: Asked, folder: Path) -> int:
    """The child's number. Its answer will lie in the folder, with whatever its tests write."""
    sys.stdout.flush()
    child = os.fork()
    if child:
        return child
    try:
        # A group of its own, so that what its tests start can be ended with it.
        os.setpgid(0, 0)
        os.environ["PYTEST_DEBUG_TEMPROOT"] = str(folder)
        said = os.open(folder / "said", os.O_WRONLY | os.O_CREAT)
        for stream in (1, 2):
            os.dup2(said, stream)
        (folder / "answer").write_bytes(pickle.dumps(work(one)))
        os._exit(0)
    except BaseException:
        traceback.print_exc()
        os._exit(1)


def _next_answer(running: dict[int, tuple[Asked, Path]]) -> tuple[Asked, Answer | Killed]:
    child, status = _ended(running)
    one, folder = running.pop(child)
    with suppress(ProcessLookupError):
        os.killpg(child, signal.SIGKILL)
    try:
        if os.WIFSIGNALED(status):
            return one, Killed()
        if status:
            print((folder / "said").read_text(encoding="utf-8"), end="", flush=True)
            return one, Killed()
        return one, pickle.loads((folder / "answer").read_bytes())
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _ended(children: Iterable[int]) -> tuple[int, int]:
    """The first of them to end, with its status; other children of this process are left to whoever waits for them."""
    while True:
        for child in children:
            ended, status = os.waitpid(child, os.WNOHANG)
            if ended:
                return child, status
            if _memory(child) > MOST_MEMORY:
                os.kill(child, signal.SIGKILL)
        time.sleep(LOOKED_AFTER)


def _memory(child: int) -> int:
    """Bytes in use; 0 where it has just ended."""
    return int(Path(f"/proc/{child}/statm").read_text(encoding="ascii").split()[1]) * resource.getpagesize()

"""`circuitcheck watch`: looks through a plan again each time it is saved."""

import signal
import sys
import time
from argparse import ArgumentParser, Namespace
from contextlib import closing
from pathlib import Path
from threading import Event

from circuitcheck.commands.command import CAUTIONS, CLEAN, Command, WrongCall, add_library
from circuitcheck.commands.output import add_color

ABOUT = f"""\
Looks through a plan, and again each time it is saved, it or a file that it
uses, until you press Ctrl+C. It needs: pip install "circuitcheck[editor]"

examples:
  circuitcheck watch drawbridge.plan
  circuitcheck watch --library shared/parts jaw.plan

exit status:
  0  it was ended
  2  the call is wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    parser.add_argument("plan", metavar="PLAN", help="a plan; it need not be right, nor be there yet")
    add_library(parser)
    add_color(parser)


def _run(options: Namespace) -> int:
    folder = Path(options.plan).parent
    if not folder.is_dir():
        raise WrongCall(f"there is no folder {folder}")
    ended = Event()
    try:
        _remember_interrupts(ended)
        while not ended.is_set():
            files = _files(Path(options.plan), tuple(options.library))
            before = _stamps(files)
            _look_through(options)
            if _wait(files, before, ended):
                sys.stdout.write(f"\n{time.strftime('%H:%M:%S')}  {options.plan}\n\n")
    except ModuleNotFoundError as missing:
        raise WrongCall(f'{missing.name} is not installed: pip install "circuitcheck[editor]"') from None
    except KeyboardInterrupt:
        sys.stdout.write("\n")
    return CLEAN


def _remember_interrupts(ended: Event) -> None:
    """Python drops an interrupt that comes while something is taken apart, a generator say; this one is kept as well.

    Where interrupts are ignored, as in the background of a shell, they stay ignored."""

    def interrupted(_number: int, _frame: object) -> None:
        ended.set()
        raise KeyboardInterrupt

    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, interrupted)


def _files(plan: Path, roots: tuple[Path, ...]) -> tuple[Path, ...]:
    """The plan and what it uses, as far as it can be read now."""
    from circuitcheck.plan.parsing import StatementParser
    from circuitcheck.plan.reading import read_partly
    from circuitcheck.plan.source import Source
    from circuitcheck.plan.text import read_source

    source = read_source(plan, str(plan))
    if not isinstance(source, Source):
        return (plan,)
    read = read_partly(source, roots, StatementParser(), lambda _: None)
    return tuple(Path(one.file) for one in read.plan.sources)


def _wait(files: tuple[Path, ...], before: tuple[tuple[int, int], ...], ended: Event) -> bool:
    """Until one of the files is not what it was before, also where it was saved while nobody looked; or until the end,
    then it is false."""
    from watchfiles import watch

    folders = {file.parent for file in files if file.parent.is_dir()}
    saves = watch(*folders, recursive=False, debounce=200, rust_timeout=1_000, yield_on_timeout=True, stop_event=ended)
    with closing(saves):
        return any(_stamps(files) != before for _ in saves)


def _stamps(files: tuple[Path, ...]) -> tuple[tuple[int, int], ...]:
    return tuple(_stamp(file) for file in files)


def _stamp(file: Path) -> tuple[int, int]:
    try:
        found = file.stat()
    except OSError:
        return 0, 0
    return found.st_mtime_ns, found.st_size


def _look_through(options: Namespace) -> None:
    """What `check` tells of the plan as it is now."""
    from circuitcheck.commands import check

    parser = ArgumentParser()
    check.COMMAND.add(parser)
    libraries = [word for folder in options.library for word in ("--library", str(folder))]
    check.COMMAND.run(parser.parse_args([options.plan, "--color", options.color, *libraries]))


COMMAND = Command("look through a plan each time that it is saved", ABOUT, _add, _run)

"""`circuitcheck watch`: looks through a plan again each time it is saved."""

import os
import sys
import time
from argparse import ArgumentParser, Namespace
from collections.abc import Collection, Iterator
from pathlib import Path

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
    try:
        saves = _saves(Path(options.plan), tuple(options.library))
    except ModuleNotFoundError as missing:
        raise WrongCall(f'{missing.name} is not installed: pip install "circuitcheck[editor]"') from None
    try:
        looked_at = _stamp(options.plan)
        _look_through(options)
        for changes in saves:
            if not changes and _stamp(options.plan) == looked_at:
                continue
            looked_at = _stamp(options.plan)
            sys.stdout.write(f"\n{time.strftime('%H:%M:%S')}  {options.plan}\n\n")
            _look_through(options)
    except KeyboardInterrupt:
        sys.stdout.write("\n")
    return CLEAN


def _saves(plan: Path, roots: tuple[Path, ...]) -> Iterator[Collection[object]]:
    """The plans that have changed in the plan's folder or one of the roots, each time some have. Now and then none, so
    that a save is seen that came while nobody looked."""
    from watchfiles import watch

    if not plan.parent.is_dir():
        raise WrongCall(f"there is no folder {plan.parent}")

    def is_plan(_change: object, path: str) -> bool:
        return path.endswith(".plan")

    folders = (plan.parent, *(root for root in roots if root.is_dir()))
    return watch(*folders, watch_filter=is_plan, debounce=200, rust_timeout=2_000, yield_on_timeout=True)


def _stamp(plan: str) -> tuple[int, int]:
    try:
        found = os.stat(plan)
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

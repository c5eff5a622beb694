"""What a command is, and what commands say of themselves alike."""

from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Callable
from pathlib import Path
from typing import Final, NamedTuple

CLEAN, FOUND, WRONG = 0, 1, 2
"""Exit statuses: nothing at the failing severity; something at it; the input or the call is wrong."""

CAUTIONS: Final = """\
cautions:
  It does not replace local electrical codes, a risk assessment or a qualified
  person. Moving machinery can crush: test with the mechanism guarded and the
  supply current-limited.
"""


class WrongCall(Exception):
    """What is asked makes no sense, though each word of it does. The message is what is told."""


class Command(NamedTuple):
    """summary: its line in the list of commands. about: its help. add: what can be asked of it. run: does it and gives
    the exit status; what it needs is imported when it is called, so that `--help` comes at once."""

    summary: str
    about: str
    add: Callable[[ArgumentParser], None]
    run: Callable[[Namespace], int]


def add_plan(parser: ArgumentParser) -> None:
    """The one plan that a command reads."""
    parser.add_argument("plan", metavar="PLAN", help="a plan, or - for one that is piped in")


def add_library(parser: ArgumentParser) -> None:
    """Where shared parts may be."""
    help = "a folder of shared parts that plans may use files from; several times"
    parser.add_argument("--library", action="append", default=[], type=_folder, metavar="FOLDER", help=help)


def _folder(text: str) -> Path:
    folder = Path(text)
    if not text or not folder.is_dir():
        raise ArgumentTypeError(f'there is no folder "{text}"')
    return folder

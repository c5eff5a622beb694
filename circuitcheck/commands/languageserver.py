"""`circuitcheck languageserver`: plans in an editor."""

import sys
from argparse import ArgumentParser, Namespace

from circuitcheck.commands.command import CLEAN, Command, WrongCall, add_library

ABOUT = """\
A language server: an editor that speaks the protocol (LSP) starts it and talks
to it over stdin and stdout. It tells what is wrong while you write, what the
terminal under the cursor is and with which contacts it is joined to which
rail, completes names and words, goes to where a name is described and to all
its uses in all files, renames, lays out, colours, and offers remedies that
were tried. It needs: pip install "circuitcheck[editor]"

examples:
  circuitcheck languageserver
  circuitcheck languageserver --library shared/parts

Plans may use files from their own folder, from folders named here, and from
the folders that the editor has open.
"""


def _add(parser: ArgumentParser) -> None:
    add_library(parser)
    parser.add_argument("--stdio", action="store_true", help="taken from editors that say it; there is no other way")


def _run(options: Namespace) -> int:
    try:
        from circuitcheck.editor.server import language_server
    except ModuleNotFoundError as missing:
        raise WrongCall(f'{missing.name} is not installed: pip install "circuitcheck[editor]"') from None
    if sys.stdin.isatty():
        raise WrongCall("an editor starts the language server and talks to it; see --help")
    language_server(tuple(options.library)).start_io()
    return CLEAN


COMMAND = Command("answer an editor that speaks the language server protocol", ABOUT, _add, _run)

"""The command line: which command is meant, and what is asked of it."""

from argparse import ArgumentParser, Namespace, RawDescriptionHelpFormatter
from collections.abc import Sequence
from importlib import import_module

from circuitcheck import __version__
from circuitcheck.commands.command import CAUTIONS, Command

COMMANDS = (
    *("check", "join", "table", "trace", "size", "motion", "faults", "benchtest", "diagnose", "compare", "explain"),
    *("ladder", "drawing", "page", "buildbook", "begin", "tidy", "repair", "watch", "languageserver"),
)
"""In the order in which people meet them; each is a file of commands/."""

ABOUT = """\
circuitcheck proves what a hand-wired control box for a moving prop does in
every combination of its contacts. It reads a wiring plan (a text file, *.plan)
and tells, before anything is soldered, whether some combination of switches
and relays shorts the supply, leaves a motor to coast, or drives past a limit.

examples:
  circuitcheck check drawbridge.plan     look for everything that is wrong
  circuitcheck table drawbridge.plan     what the motor does in each combination
  circuitcheck trace drawbridge.plan --do "S1 lower" --do run
                                         what follows when controls are worked
  circuitcheck motion drawbridge.plan    how far the deck goes on when it stops
  circuitcheck compare HEAD:./drawbridge.plan drawbridge.plan
                                         what a change does to the behaviour
  circuitcheck size drawbridge.plan      whether wires, fuses, contacts suffice
  circuitcheck explain unbraked-stop     what a check looks for, and what helps
"""


def read_arguments(arguments: Sequence[str]) -> tuple[Command, Namespace]:
    """The command that is meant, with what is asked of it. Ends the process where the call is wrong."""
    named = tuple(name for name in COMMANDS if arguments[:1] == [name])
    # Only the command that is meant is imported; the list of all of them is for who asks for help or mistypes.
    parser, commands = _parser(named or COMMANDS)
    options = parser.parse_args(arguments)
    return commands[options.command], options


def whole_parser() -> ArgumentParser:
    """Every command with all that can be asked of it: `shtab circuitcheck.arguments.whole_parser` writes a completion
    for a shell out of that."""
    import shtab

    parser, _ = _parser(COMMANDS)
    # argparse has no other way to what was added to a parser.
    commands = next(one.choices for one in parser._actions if isinstance(one.choices, dict))
    for action in (action for command in commands.values() for action in command._actions):
        names = str(action.metavar).rpartition("=")[2].rstrip("]")
        if names in ("PLAN", "OLD", "NEW", "FILE"):
            action.complete = shtab.FILE
        elif names == "FOLDER":
            action.complete = shtab.DIRECTORY
    return parser


def _parser(names: Sequence[str]) -> tuple[ArgumentParser, dict[str, Command]]:
    parser = ArgumentParser(
        prog="circuitcheck", description=f"{ABOUT}\n{CAUTIONS}", formatter_class=RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )  # fmt: skip
    parser.add_argument("--version", action="version", version=f"circuitcheck {__version__}")
    listed = parser.add_subparsers(title="commands", metavar="COMMAND", dest="command", required=True)
    commands: dict[str, Command] = {}
    for name in names:
        command: Command = import_module(f"circuitcheck.commands.{name}").COMMAND
        commands[name] = command
        command.add(
            listed.add_parser(
                name, help=command.summary, description=command.about, allow_abbrev=False,
                formatter_class=RawDescriptionHelpFormatter,
            )
        )  # fmt: skip
    return parser, commands

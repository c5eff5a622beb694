"""`circuitcheck repair`: what can be put right by itself."""

from argparse import ArgumentParser, Namespace
from pathlib import Path

from circuitcheck.commands.command import CAUTIONS, CLEAN, FOUND, Command, WrongCall, add_library, add_plan
from circuitcheck.commands.output import Output, add_color, in_lines, progress, write

ABOUT = f"""\
Puts right what can be put right without thinking about the prop: it shows the
lines that would change, and with --write changes them. Each remedy is tried
first: the changed plan is looked through again, the finding must be gone, and
no other may have come above a note. What changes the prop's behaviour, as
`compare` tells it, is never made unless it is asked for by its number.

remedies:
  a coil with no suppression   a diode across it, its cathode at the end that
                               is positive; a varistor where either may be
  a diode the wrong way round  turned round; for one that is built into a
                               relay, the wires to A1 and A2 change places
  a limit that stops its drive by closing
                               moved to its normally closed contact

examples:
  circuitcheck repair lantern.plan            only show
  circuitcheck repair --write lantern.plan    make what changes no behaviour
  circuitcheck repair --write --take 2 lantern.plan
                                              the second as well

exit status:
  0  nothing to put right, or all that was found has been made
  1  there are remedies that were not made
  2  the plan can't be read or has no exact answer, or the call is wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    parser.add_argument("--write", action="store_true", help="change the plan; else the changes are only shown")
    help = "this remedy too, although it changes what the prop does; several times"
    parser.add_argument("--take", action="append", default=[], type=int, metavar="NUMBER", help=help)
    add_library(parser)
    add_color(parser)


def _run(options: Namespace) -> int:
    from functools import partial

    from circuitcheck.examination import examine
    from circuitcheck.plan.reading import read_text
    from circuitcheck.remedies.repairing import repaired, text_after
    from circuitcheck.reports.repair_text import repair_lines

    if options.write and options.plan == "-":
        raise WrongCall("a plan that is piped in can't be written; name its file")
    with progress() as doing:
        doing(options.plan)
        roots = tuple(options.library)
        examination = examine(Path(options.plan), roots)
        read = partial(read_text, examination.plan.file, roots=roots)
        offers = repaired(examination, read, frozenset(options.take))
    unknown = next((one for one in options.take if not 1 <= one <= len(offers)), None)
    if unknown is not None:
        raise WrongCall(f"there is no remedy {unknown} for {options.plan}; there are {len(offers)}")
    if options.write and any(offer.made for offer in offers):
        _replace(options.plan, examination.plan.sources[0].lines, text_after(examination, offers))
    write(
        Output("text", ""),
        in_lines(lambda width: repair_lines(options.plan, offers, options.write, width)),
        options.color,
    )
    return FOUND if any(not (offer.made and options.write) for offer in offers) else CLEAN


def _replace(name: str, expected: tuple[str, ...], text: str) -> None:
    """Somebody may have saved the plan while it was being looked through: their work is not lost to ours."""
    from circuitcheck.plan.source import Problem
    from circuitcheck.plan.text import read_source
    from circuitcheck.plan.writing import replace_text

    found = read_source(Path(name), name)
    if isinstance(found, Problem) or found.lines != expected:
        raise WrongCall(f"{name} has changed while it was looked through; call again")
    replace_text(Path(name), text)


COMMAND = Command("put right what can be put right by itself", ABOUT, _add, _run)

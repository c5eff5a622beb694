"""`circuitcheck diagnose`: from what is seen of a faulty box to its cause."""

import sys
from argparse import ArgumentParser, Namespace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, FOUND, Command, WrongCall, add_library, add_plan
from circuitcheck.commands.output import (
    Output,
    Writer,
    add_outputs,
    in_lines,
    outputs_of,
    plainly,
    progress,
    write,
    write_all,
)

if TYPE_CHECKING:
    from circuitcheck.reports.diagnose_asking import Case, Diagnosis

ABOUT = f"""\
Lists the single faults that explain all that is seen of a faulty box, the
likeliest first (pairs of faults where no single one does), and the next
reading that tells most of them apart. With --ask it goes on from reading to
reading, until one fault is left or none of those left can be told apart.

examples:
  circuitcheck diagnose --seen "M1 dead when S1 raise, L1 on" drawbridge.plan
  circuitcheck diagnose --seen "M1 runs when deck at top" drawbridge.plan
  circuitcheck diagnose --seen "160 ohm from K1.A1 to K1.A2" drawbridge.plan
  circuitcheck diagnose --ask drawbridge.plan

what can be seen:
  a motor     dead, turns, forward, reverse, braked, coasting, creeps
  a lamp      on, off, dim (a buzzer or solenoid too)
  a relay     operated, released, clicks
  a fuse      blows
  a meter     160 ohm from K1.A1 to K1.A2, no continuity from F1.1 to F1.2,
              6.1 V at M1.+ M1.- (red lead first), or a line of the bench sheet
              with its reading: "ohms, F1.1 to F1.2: open when push K1"
  after `when`, or anywhere: S1 raise, hold START, tap START, deck at top,
  LS1 pressed, PS off, push K1, motors disconnected, everything else at rest.
  What is not told may stand anyhow; without power, relays are let go.

exit status:
  0  some fault explains what is seen
  1  none does
  2  the plan can't be read or has no exact answer, or the call is wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    help = "what is seen, all at once, and how the controls stand; several times for several occasions"
    parser.add_argument("--seen", action="append", default=[], metavar="WORDS", help=help)
    parser.add_argument("--ask", action="store_true", help="ask for readings one after the other")
    add_library(parser)
    add_outputs(parser, ("text", "json"))


def _run(options: Namespace) -> int:
    from circuitcheck.reports.diagnose_asking import begun

    outputs = outputs_of(options)
    seen = list(options.seen)
    if options.ask and options.plan == "-":
        raise WrongCall("a plan that is piped in leaves no room for answers; name its file")
    if not seen and not options.ask:
        raise WrongCall('nothing is seen; say what, like --seen "M1 dead when S1 raise", or --ask')
    if not seen:
        seen = [_asked('What is seen? (like "M1 dead when S1 raise, L1 on")')]
    with progress() as doing:
        doing(options.plan)
        case = begun(Path(options.plan), tuple(options.library), seen, doing)
    if options.ask:
        case = _through_readings(case, options.color)
    write_all(options, outputs, lambda name: _writer(name, case.diagnosis))
    return CLEAN if case.diagnosis.faults else FOUND


def _through_readings(case: "Case", color: str) -> "Case":
    """Goes on until nothing is left to ask, or nobody answers any more."""
    from circuitcheck.reports.diagnose_asking import answered
    from circuitcheck.reports.diagnose_text import causes_lines, first_lines
    from circuitcheck.reports.diagnose_words import answer_words

    if case.diagnosis.next is not None:
        write(Output("text", ""), in_lines(first_lines), color)
    while case.diagnosis.next is not None:
        write(Output("text", ""), in_lines(partial(causes_lines, case.diagnosis)), color)
        text = _asked(f"What is read? ({answer_words(case.diagnosis.next.question.point)}; nothing to end)")
        if not text:
            break
        following = answered(case, text)
        if following is None:
            print("None of these faults reads so. Read again, or say it in other words.\n")
        else:
            case = following
    return case


def _asked(question: str) -> str:
    """The answer; "" where there is none to come."""
    print(question)
    try:
        answer = input("> ").strip()
    except EOFError:
        answer = ""
    if not sys.stdin.isatty():
        print(answer)
    return answer


def _writer(name: str, diagnosis: "Diagnosis") -> Writer:
    from circuitcheck.reports.diagnose_text import diagnosis_json, diagnosis_lines

    if name == "text":
        return in_lines(lambda width: diagnosis_lines(diagnosis, width))
    return plainly(diagnosis_json(diagnosis))


COMMAND = Command("find the fault that explains what is seen", ABOUT, _add, _run)

"""`circuitcheck page`: the circuit at work, in a browser."""

from argparse import ArgumentParser, Namespace

from circuitcheck.commands.command import CAUTIONS, CLEAN, Command, WrongCall, add_library, add_plan
from circuitcheck.commands.output import Output, plainly, progress, remark, spare_what_is_read, write

ABOUT = f"""\
Writes one HTML file that shows the circuit at work. It is opened from disk, in
any current browser; it needs no server and loads nothing. Work the controls
and see relays move one after another, motors turn, brake or coast, axes run
onto their limits, and where current flows; click on a finding and see it.

All that the page tells of a state was worked out for every combination before;
it only looks it up. Where several relays want to move, you choose which comes
first (step by step), or their times do.

examples:
  circuitcheck page drawbridge.plan -o drawbridge.html

exit status:
  0  the page was written
  2  the plan can't be read or has no exact answer, or the call is wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    parser.add_argument("-o", "--output", required=True, metavar="FILE", help="where the page goes, as drawbridge.html")
    add_library(parser)


def _run(options: Namespace) -> int:
    from circuitcheck.reports.page_asking import asked_page
    from circuitcheck.reports.page_html import page_html

    if options.output in ("", "-"):
        raise WrongCall("the page goes into a file; name one like -o drawbridge.html")
    spare_what_is_read(options, options.output)
    with progress() as doing:
        doing(options.plan)
        text = page_html(asked_page(options.plan, tuple(options.library)))
    write(Output("html", options.output), plainly(text), "never")
    remark(f"{options.output} is written: open it in a browser.")
    return CLEAN


COMMAND = Command("write a page that shows the circuit at work", ABOUT, _add, _run)

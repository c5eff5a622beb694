"""`circuitcheck join`: the reports of several jobs as one."""

from argparse import ArgumentParser, Namespace

from circuitcheck.commands.command import CAUTIONS, Command
from circuitcheck.commands.outcomes import add_telling, tell_outcomes
from circuitcheck.commands.output import outputs_of

ABOUT = f"""\
Puts together what several jobs found, each of which checked a part of a
library. It takes their JSON, and gives what one `circuitcheck check` of the
whole would: the same report in any format, and the same exit status. Shards of
which one is missing are not put together.

examples:
  circuitcheck check --shard 1/2 --format json=1.json plans/   in one job
  circuitcheck check --shard 2/2 --format json=2.json plans/   in another
  circuitcheck join 1.json 2.json                              after both

With a baseline, give it to join and not to the jobs: findings that are alike
are counted over the whole library.

exit status:
  0  nothing at or above the failing severity
  1  findings at or above it
  2  a plan has no verdict, a report is missing or no report, or a wrong call

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    parser.add_argument("reports", nargs="+", metavar="FILE", help="what check --format json=FILE wrote")
    add_telling(parser)


def _run(options: Namespace) -> int:
    from circuitcheck.checks.registry import all_checks
    from circuitcheck.library.shards import joined
    from circuitcheck.reports.findings_json import SCHEMA

    outputs = outputs_of(options)
    proves = {one.check.name: one.check.proves for one in all_checks()}
    return tell_outcomes(options, outputs, joined(options.reports, proves, SCHEMA))


COMMAND = Command("put the reports of several jobs together", ABOUT, _add, _run)

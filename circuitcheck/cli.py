"""The front door: runs the command that is asked for, and lets nothing end in a traceback."""

import gc
import sys
from collections.abc import Sequence

from circuitcheck.arguments import read_arguments
from circuitcheck.commands.command import WRONG, WrongCall
from circuitcheck.commands.output import tell, tell_unwritten
from circuitcheck.reports.terminal import ready_streams, width_of


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs a command and gives its exit status."""
    # A run makes many small values and keeps most of them: looking for rubbish often costs a tenth of it.
    gc.set_threshold(100_000, 50, 50)
    ready_streams()
    command, options = read_arguments(sys.argv[1:] if arguments is None else arguments)
    try:
        return command.run(options)
    except KeyboardInterrupt:
        return WRONG
    except OSError as error:
        return tell_unwritten(error)
    except Exception as error:
        return _refused(error)


def _refused(error: Exception) -> int:
    """Tells why there is no result: a plan that can't be read, a question without an answer, or a mistake of ours."""
    from circuitcheck.plan.source import PlanError
    from circuitcheck.reports.problems import problems_text
    from circuitcheck.reports.table_asking import Unanswerable
    from circuitcheck.settings.amiss import LibraryAmiss

    if isinstance(error, PlanError):
        sys.stderr.write(problems_text(error, width_of(sys.stderr)))
        return WRONG
    if isinstance(error, (LibraryAmiss, Unanswerable, WrongCall)):
        return tell(str(error))
    return tell(f"stumbled over {type(error).__name__}: {error}. Please report this with the plan that led to it.")

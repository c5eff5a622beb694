"""The front door: a plan goes in, and what is known of it comes out.

A plan that can't be understood, or that is too wide to be judged exactly, ends in a PlanError that says so in the
plan's own words. There is no third way: nothing is ever sampled, and no verdict is given that wasn't proved.
"""

import time
from collections.abc import Callable, Collection
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from circuitcheck.analysis.counting import Counts, count_states
from circuitcheck.analysis.engines import answered
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.linear import NoOperatingPoint
from circuitcheck.analysis.states import WIDEST, Spaces, TooMuchWork, TooWide
from circuitcheck.analysis.surroundings import TooManyCases
from circuitcheck.checks.check import Check, Finding
from circuitcheck.checks.registry import Registered, all_checks, run_checks
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan, read_text
from circuitcheck.plan.source import Place, PlanError, Problem
from circuitcheck.plan.syntax import Defaults, Plan
from circuitcheck.plan.text import read_standard_input, whole_file
from circuitcheck.settings.finding import SettingsFinder

if TYPE_CHECKING:
    from circuitcheck.plan.parsing import StatementParser

STANDARD_INPUT = Path("-")
"""Stands for the text that is piped in."""

Answer = TypeVar("Answer")

_NO_VERDICT = "No verdict is given: nothing is guessed or sampled."
_SPLIT = "Split the plan where two parts of the box work by themselves, or give each of them its own supply rail."
_MOST_NAMED = 12


class Examination(NamedTuple):
    """A plan with all that was made of it and found in it. checks: those that ran, whether they found something or not.

    seconds: from the plan's text to the last finding.
    """

    plan: Plan
    circuit: Circuit
    facts: Facts
    counts: Counts
    checks: tuple[Check, ...]
    findings: tuple[Finding, ...]
    seconds: float


def examine(
    path: Path,
    roots: tuple[Path, ...] = (),
    off: Collection[str] = (),
    parser: "StatementParser | None" = None,
    defaults: Defaults | None = None,
    hear: Callable[[str], None] = lambda _: None,
) -> Examination:
    """The whole tool: a plan's text in, findings out. Each line is one folder; reports/ only reads the result.

    roots: folders of shared parts that the plan may use files from, besides its own. off: checks that
    are not to run. parser: one that has its grammar already. defaults: as in `read_input`.
    hear: hears what is being done.
    Raises PlanError where the plan can't be understood, or has no exact answer within reach.
    """
    beginning = time.perf_counter()
    return examine_plan(read_input(path, roots, parser, defaults), beginning, off, hear)


def examine_plan(
    plan: Plan, beginning: float, off: Collection[str] = (), hear: Callable[[str], None] = lambda _: None
) -> Examination:
    """The same for a plan that has been read. beginning: when that began."""
    circuit = _without_accepting(build_circuit(plan), off)
    checks = tuple(one for one in all_checks() if one.check.name not in off)
    facts, counts, findings = exactly(plan, circuit, lambda: _judged(circuit, checks, hear))
    seconds = time.perf_counter() - beginning
    return Examination(plan, circuit, facts, counts, tuple(one.check for one in checks), findings, seconds)


def _judged(
    circuit: Circuit, checks: tuple[Registered, ...], hear: Callable[[str], None]
) -> tuple[Facts, Counts, tuple[Finding, ...]]:
    """All that is known, by whichever engine holds it."""

    def judge(spaces: Spaces) -> tuple[Facts, Counts, tuple[Finding, ...]]:
        facts = analyse(circuit, spaces)
        hear("counting what operation reaches")
        return facts, count_states(facts), run_checks(facts, checks, hear)

    return answered(circuit, judge)


def _without_accepting(circuit: Circuit, off: Collection[str]) -> Circuit:
    """Whether an acceptance is needed can be judged only where its check runs."""
    if not circuit.acceptances or not off:
        return circuit
    return circuit._replace(acceptances=tuple(one for one in circuit.acceptances if one.check.text not in off))


def read_input(
    path: Path,
    roots: tuple[Path, ...] = (),
    parser: "StatementParser | None" = None,
    defaults: Defaults | None = None,
) -> Plan:
    """The plan in a file, or that which is piped in. defaults: None to take them, and more roots, from the settings
    beside the plan. Raises PlanError, and LibraryAmiss where the settings can't be followed."""
    if defaults is None:
        settings = SettingsFinder().settings_for("standard input" if path == STANDARD_INPUT else str(path))
        roots, defaults = (*roots, *settings.roots), settings.defaults
    return _read(path, roots, parser)._replace(defaults=defaults)


def _read(path: Path, roots: tuple[Path, ...], parser: "StatementParser | None") -> Plan:
    if path != STANDARD_INPUT:
        return read_plan(path, roots, parser=parser)
    source = read_standard_input()
    if isinstance(source, Problem):
        raise PlanError((source,), ())
    return read_text(source.file, "\n".join(source.lines), roots)


def exactly(plan: Plan, circuit: Circuit, ask: Callable[[], Answer]) -> Answer:
    """What `ask` answers. Where it has no exact answer within reach, PlanError says which parts that lies in."""
    try:
        return ask()
    except TooMuchWork as error:
        doing = f"looking for {error.asked}" if error.asked else "what is asked"
        what = f"{doing} takes more than {error.steps:,} steps of work, and no more are taken"
        problem = Problem(whole_file(plan.file), what, f"{_NO_VERDICT} {_SPLIT}")
    except TooWide as error:
        problem = _too_wide(circuit, error)
    except TooManyCases as error:
        load = circuit.loads[error.load]
        what = f"what {load.name} gets depends on too many other loads at once to be worked out in full"
        help = f"Join fewer loads with {load.part} in series or through something that is not a supply rail."
        problem = Problem(load.place, what, f"{_NO_VERDICT} {help}")
    except NoOperatingPoint:
        what = "the volts across this plan's loads and diodes can't be worked out"
        help = "Look for loads in series that are joined by diodes in a ring."
        problem = Problem(whole_file(plan.file), what, f"{_NO_VERDICT} {help}")
    except MemoryError:
        what = "the parts of this plan hang together so closely that no exact answer fits into memory"
        problem = Problem(whole_file(plan.file), what, f"{_NO_VERDICT} {_SPLIT}")
    raise PlanError((problem,), plan.sources)


def _too_wide(circuit: Circuit, error: TooWide) -> Problem:
    # The clock of relays' times is a digit beside the circuit's own.
    names = [circuit.digits[digit].name for digit in error.digits if digit < len(circuit.digits)]
    more = len(names) - _MOST_NAMED
    listed = ", ".join(names[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
    what = f"{listed} have to be looked at together: {error.size:,} combinations, where {WIDEST:,} can be counted"
    return Problem(_place_of(circuit, names[0]), what, f"{_NO_VERDICT} {_SPLIT}")


def _place_of(circuit: Circuit, name: str) -> Place:
    """Where the part of a digit is described; a digit may also be one of several of a part."""
    part = next((part for part in circuit.parts if name == part or name.startswith(f"{part}.")), None)
    return circuit.parts[part].place if part else whole_file(circuit.file)

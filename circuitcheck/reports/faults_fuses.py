"""What is said of supply shorts: whether the fuses that clear them save the wires on their way."""

from collections.abc import Iterable
from typing import Final

from circuitcheck.circuit.wording import listed
from circuitcheck.reports.faults_asking import FaultReport, FaultTold
from circuitcheck.sizing.clearing import Exposed

RULE: Final = (
    "A fuse saves a wire if it is sure to open at 1.35 times what the wire may carry, or, at a dead short, before the "
    "wire takes harm (IEC 60364-4-43, from memory). `circuitcheck size` names the tables."
)
MOST_NAMED: Final = 3


def named(wires: Iterable[str]) -> str:
    """Some wires, the first few by name."""
    every = list(dict.fromkeys(wires))
    more = [f"{len(every) - MOST_NAMED} more"] if len(every) > MOST_NAMED else []
    return listed([*every[:MOST_NAMED], *more], "and")


def short_words(told: FaultTold) -> str:
    """The consequence of a short, with what clears it."""
    if told.unfused:
        return "supply short, no fuse on its way"
    fuses = listed(told.fuses, "and") if told.fuses else "a fuse"
    if told.burnt:
        return f"supply short, and {fuses} {saves(told.fuses)} {named(one.wire for one in told.burnt)}"
    return f"supply short, cleared by {fuses}"


def saves(fuses: tuple[str, ...]) -> str:
    """The verb of some fuses that don't."""
    return "don't save" if len(fuses) > 1 else "doesn't save"


def summary_of_shorts(report: FaultReport) -> list[str]:
    """Sentences on the wires that fuses don't save, and on those of which it can't be told."""
    burning = [one for one in report.faults if one.burnt]
    untold = [one for one in report.faults if one.untold and one.harmless]
    sentences = []
    if burning:
        fuses = tuple(dict.fromkeys(name for one in burning for name in one.fuses))
        wires = named(exposed.wire for one in burning for exposed in one.burnt)
        sentences.append(f"Of those that short a supply, {len(burning)} burn a wire: {listed(fuses, 'and')} "
                         f"{saves(fuses)} {wires}.")  # fmt: skip
    if untold:
        sentences.append(
            f"Of those that blow a fuse, it can't be told for {len(untold)} whether it saves every wire on the way; "
            "below stands what the plan would have to say."
        )
    return sentences


def fuse_lines(report: FaultReport) -> list[str]:
    """Wire by wire what a fuse doesn't save, and what it can't be told of; nothing where all wires are saved."""
    burnt = dict.fromkeys(exposed for one in report.faults for exposed in one.burnt)
    untold = [exposed for one in report.faults for exposed in one.untold]
    lines = [f"Not saved: {one.wire}: {one.why}." for one in burnt]
    lines += _by_reason(untold)
    return [*lines, RULE, *report.assumed] if lines else []


def _by_reason(untold: Iterable[Exposed]) -> list[str]:
    """A line for each thing that the plan would have to say; of reasons that have figures of a wire, the first."""
    reasons: dict[str, list[Exposed]] = {}
    for one in untold:
        reasons.setdefault(one.write or one.why, []).append(one)
    lines = []
    for found in reasons.values():
        first, wires = found[0], named(one.wire for one in found)
        write = f" Write {first.write}." if first.write else ""
        lines.append(f"Can't be told{f': {wires}' if first.wire else ''}: {first.why}.{write}")
    return lines

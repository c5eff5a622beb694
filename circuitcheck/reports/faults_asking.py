"""From a plan to what each of its faults does, told in the plan's words."""

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final, NamedTuple

from circuitcheck.analysis.doing import Count, nobody_counts
from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.faults.consequences import CONSEQUENCES, Outcome, worst
from circuitcheck.analysis.faults.fault import Fault, both_at_once
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.shortest import shortest_story
from circuitcheck.analysis.faults.verdicts import Judge, Verdict
from circuitcheck.checks.fault_words import HOLDS, UNDECIDED, outcome_words, remedy_for
from circuitcheck.checks.narration import fault_story_words
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wording import name_and_title
from circuitcheck.examination import exactly, read_input
from circuitcheck.sizing.around import surroundings_assumed
from circuitcheck.sizing.clearing import Exposed, clear_short

UNJUDGED: Final = "not judged"
STOPS_AND_LIMITS: Final = ("does not stop", "overtravel")
"""What two faults at once are asked for."""


class FaultTold(NamedTuple):
    """One fault, or two as one, and the worst that comes of it.

    consequence: of CONSEQUENCES, or UNJUDGED. what: a sentence without its full stop; also: what
    else comes of it. noticed_by: the devices that give it away. fuses: those that clear a supply short; unfused: some
    way of it has none; burnt: wires that they surely don't save, untold: those of which it can't be told. steps: the
    shortest story. remedy: of what does harm.
    """

    fault: Fault
    consequence: str
    what: str
    also: tuple[str, ...] = ()
    noticed_by: tuple[str, ...] = ()
    fuses: tuple[str, ...] = ()
    unfused: bool = False
    burnt: tuple[Exposed, ...] = ()
    untold: tuple[Exposed, ...] = ()
    steps: tuple[str, ...] = ()
    remedy: str = ""

    @property
    def harmless(self) -> bool:
        """Does it hold, do nothing, or blow a fuse that saves all wires on the way, as far as is known?"""
        cleared = self.consequence == "supply short" and not self.unfused and not self.burnt
        return cleared or self.consequence in ("holds", "does nothing")


class FaultReport(NamedTuple):
    """name, title: the plan's. pairs: None where nobody asked for them. assumed: sentences on what is taken of the
    wires' surroundings where the plan doesn't say. shorts: operation shorts a supply even without a fault."""

    file: str
    name: str
    title: str
    faults: tuple[FaultTold, ...]
    pairs: tuple[FaultTold, ...] | None
    tried_pairs: int
    assumed: tuple[str, ...]
    shorts: bool


def asked_faults(path: Path, roots: tuple[Path, ...], pairs: bool, hear: Count = nobody_counts) -> FaultReport:
    """What each single fault of a plan does; with `pairs` also what two at once do to its stops and limits.

    Raises PlanError where the plan can't be understood, or where even the sound box has no exact answer.
    """
    plan = read_input(path, roots)
    circuit = build_circuit(plan)
    judge = exactly(plan, circuit, lambda: Judge(circuit))
    facts = exactly(plan, circuit, lambda: analyse(circuit))
    shorts = exactly(plan, circuit, lambda: any(facts.reached(short.states) for short in facts.shorts))
    faults = single_faults(circuit)
    told = []
    for number, fault in enumerate(faults):
        hear(f"faults of {plan.file}: {fault.called}", number, len(faults))
        told.append(_told(circuit, fault, judge.verdict(fault)))
    name, title = name_and_title(circuit)
    found, tried = _pairs(circuit, judge, told, hear) if pairs else (None, 0)
    return FaultReport(plan.file, name, title, tuple(told), found, tried, tuple(_assumed(circuit)), shorts)


def _assumed(circuit: Circuit) -> Iterator[str]:
    for one in surroundings_assumed(circuit):
        yield f"Taken, since the plan doesn't say: {one.taken} ({one.write} says otherwise)."


def _told(circuit: Circuit, fault: Fault, verdict: Verdict) -> FaultTold:
    if verdict.undecided:
        return FaultTold(fault, UNJUDGED, UNDECIDED)
    outcome = worst(list(verdict.outcomes))
    if outcome is None:
        return FaultTold(fault, "holds", HOLDS, noticed_by=verdict.noticed_by)
    story = shortest_story(outcome.joint, outcome.states, outcome.begun)
    others = dict.fromkeys(outcome_words(one) for one in _ranked(verdict.outcomes))
    what, *also = others
    told = FaultTold(
        fault,
        outcome.consequence,
        what,
        tuple(also),
        verdict.noticed_by,
        steps=fault_story_words(circuit, fault, story),
    )
    told, remedy = _with_shorts(told, verdict)
    return told if told.harmless else told._replace(remedy=remedy or remedy_for(circuit, fault, outcome))


def _with_shorts(told: FaultTold, verdict: Verdict) -> tuple[FaultTold, str]:
    """With what clears its shorts and what that burns; the remedy where a short burns a wire and nothing is worse."""
    shorts = list(verdict.shorts)
    clearings = [clear_short(one) for one in shorts if not one.unfused]
    burnt = tuple(dict.fromkeys(one for clearing in clearings for one in clearing.burnt))
    told = told._replace(
        fuses=tuple(dict.fromkeys(name for clearing in clearings for name in clearing.fuses)),
        unfused=any(one.unfused for one in shorts),
        burnt=burnt,
        untold=tuple(dict.fromkeys(one for clearing in clearings for one in clearing.untold)),
    )
    remedies = [clearing.remedy for clearing in clearings if clearing.remedy]
    return told, remedies[0] if remedies and told.consequence == "supply short" and not told.unfused else ""


def _ranked(outcomes: Iterable[Outcome]) -> list[Outcome]:
    return sorted(outcomes, key=lambda one: CONSEQUENCES.index(one.consequence))


def _pairs(circuit: Circuit, judge: Judge, told: list[FaultTold], hear: Count) -> tuple[tuple[FaultTold, ...], int]:
    """What two faults do to a stop or a limit that neither does alone, and how many pairs were tried. Those that could
    not be judged are among them.

    The first is hidden and does no harm by itself; the second is any fault that lies in the same part of the box.
    """
    hidden = [one.fault for one in told if one.harmless and not one.noticed_by]
    harmless = [one.fault for one in told if one.consequence not in STOPS_AND_LIMITS]
    tried = [
        (first, second)
        for first in hidden
        for second in harmless
        if _are_apart(first, second) and judge.concern_the_same(first, second)
    ]
    found = []
    for number, (first, second) in enumerate(tried):
        both = both_at_once(first, second)
        hear(f"pairs: {both.called}", number, len(tried))
        one = _told(circuit, both, judge.verdict(both))
        if one.consequence in (*STOPS_AND_LIMITS, UNJUDGED):
            found.append(one)
    return tuple(found), len(tried)


def _are_apart(first: Fault, second: Fault) -> bool:
    return first.part != second.part if first.part else first != second

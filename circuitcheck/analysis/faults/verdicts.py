"""Every fault of a circuit, judged: what it leads to, the shortest story, and whether anybody would notice.

Each is looked at with its own part of the box (together.py). Faults that leave the same circuit share one verdict:
two wires in series, a contact open and the wire to it. What grows too wide for sets that are integers, as a supply
reversed behind which every coil's diode conducts, is looked at again with wide sets as diagrams.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.faults.beside import Beside, roomy_spaces
from circuitcheck.analysis.faults.consequences import Outcome, outcomes
from circuitcheck.analysis.faults.fault import Fault, with_fault
from circuitcheck.analysis.faults.noticing import noticed_by
from circuitcheck.analysis.faults.same_circuit import likeness
from circuitcheck.analysis.faults.short_ways import ShortCircuit, short_circuit
from circuitcheck.analysis.faults.together import Groups, Together
from circuitcheck.analysis.linear import NoOperatingPoint
from circuitcheck.analysis.states import INTEGERS, Spaces, TooWide
from circuitcheck.analysis.supposed import Change
from circuitcheck.analysis.surroundings import TooManyCases
from circuitcheck.circuit.model import Circuit


class Verdict(NamedTuple):
    """What a fault leads to; no outcomes where the box holds. besides: both boxes, small box by small box.

    noticed_by: the devices that give it away, none where it is hidden. parts: the part of the faulty box in which each
    outcome lies. undecided: it would need more combinations at once than can be counted, so nothing is said.
    """

    outcomes: tuple[Outcome, ...] = ()
    besides: tuple[Beside, ...] = ()
    noticed_by: tuple[str, ...] = ()
    parts: tuple[Circuit, ...] = ()
    undecided: bool = False

    @property
    def shorts(self) -> Iterator[ShortCircuit]:
        """Each supply short with its ways."""
        for part, outcome in zip(self.parts, self.outcomes, strict=True):
            if outcome.short is not None:
                yield short_circuit(part, outcome)


class Judge:
    """Judges the faults of one circuit one after the other, and remembers what they share."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self._spaces, self._wide = roomy_spaces(circuit), roomy_spaces(circuit, INTEGERS)
        self._together = Together(circuit, self._spaces)
        self._sound: dict[tuple[Spaces, Groups], Facts] = {}
        self._known: dict[object, Verdict] = {}

    @property
    def distinct(self) -> int:
        """How many circuits it has had to look at: faults that leave the same circuit share one."""
        return len(self._known)

    def verdict(self, fault: Fault) -> Verdict:
        """What it leads to."""
        groups = self._together.concerned(fault.change)
        if not groups and not fault.change.joined:
            return Verdict()
        faulty = with_fault(self.circuit, fault)
        only_supplies = fault.change == Change(
            lost=fault.change.lost, reversed=fault.change.reversed, begins=fault.change.begins
        )
        # What befalls a supply befalls each small box by itself.
        apart = [frozenset({one}) for one in sorted(groups, key=repr)] if only_supplies else [groups]
        found = [self._within(fault, self._together.within(faulty, one), one) for one in apart]
        return Verdict(
            tuple(outcome for one in found for outcome in one.outcomes),
            tuple(beside for one in found for beside in one.besides),
            tuple(dict.fromkeys(name for one in found for name in one.noticed_by)),
            tuple(part for one in found for part in one.parts),
            any(one.undecided for one in found),
        )

    def _within(self, fault: Fault, faulty: Circuit, groups: Groups) -> Verdict:
        key = groups, fault.change.stuck, fault.change.begins, likeness(faulty)
        if key not in self._known:
            self._known[key] = self._judged(fault, groups, faulty)
        found = self._known[key]
        # Which side of a fuse something touches makes no other circuit, but all the difference to a short.
        return found._replace(parts=(faulty,) * len(found.outcomes))

    def concern_the_same(self, one: Fault, other: Fault) -> bool:
        """Do two faults lie in one part of the box, so that they can do more together than each by itself?"""
        return bool(self._together.concerned(one.change) & self._together.concerned(other.change))

    def _judged(self, fault: Fault, groups: Groups, faulty: Circuit) -> Verdict:
        for spaces in (self._spaces, self._wide):
            try:
                return self._judged_over(spaces, fault, groups, faulty)
            except TooWide:
                continue
            except (TooManyCases, NoOperatingPoint):
                break
        return Verdict(undecided=True)

    def _judged_over(self, spaces: Spaces, fault: Fault, groups: Groups, faulty: Circuit) -> Verdict:
        """Diagrams of two spaces don't mix, so each has the facts of the sound box for itself."""
        spaces.begin_counting()
        if (spaces, groups) not in self._sound:
            self._sound[spaces, groups] = analyse(self._together.within(self.circuit, groups), spaces)
        beside = Beside(self._sound[spaces, groups], analyse(faulty, spaces), fault)
        return Verdict(tuple(outcomes(beside)), (beside,), noticed_by(beside))

"""A single fault, as a value."""

from typing import NamedTuple

from circuitcheck.analysis.supposed import Change, supposed
from circuitcheck.circuit.model import Circuit


class Fault(NamedTuple):
    """kind: the row of the published list that it belongs to (published.py), in the trade's words.

    part: its part's name, "" for a wire. subject, state: how it is called in a sentence, as "K1.11-14" and "welded".
    change: what it does to the circuit. both: the two that a pair is made of.
    """

    kind: str
    part: str
    subject: str
    state: str
    change: Change
    both: "tuple[Fault, ...]" = ()

    @property
    def called(self) -> str:
        """ "K1.11-14 welded", "LS1 stuck free", "the wire F1.2 to S1.com open"."""
        return f"{self.subject} {self.state}"


def both_at_once(first: Fault, second: Fault) -> Fault:
    """Two faults as one: `first` has been there for some time, when `second` comes. They must be of different parts."""
    change = both_changes(first.change, second.change)
    return Fault(
        second.kind, second.part, f"{first.called} and {second.subject}", second.state, change, (first, second)
    )


def both_changes(one: Change, other: Change) -> Change:
    """Two changes as one, of which the second comes later."""
    return Change(
        opened=one.opened | other.opened,
        always=one.always | other.always,
        joined=one.joined + other.joined,
        broken=one.broken | other.broken,
        stuck=one.stuck + other.stuck,
        pressed=one.pressed + other.pressed,
        lost=one.lost | other.lost,
        reversed=one.reversed ^ other.reversed,
        begins=(one.begins if one.stuck else ()) + other.begins,
    )


def with_fault(circuit: Circuit, fault: Fault) -> Circuit:
    """The faulty circuit. Digits and loads keep their numbers; other indices may move."""
    return supposed(circuit, fault.change)

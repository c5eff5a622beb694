"""A single fault, as a value."""

from typing import NamedTuple

from circuitcheck.analysis.supposed import Change, supposed
from circuitcheck.circuit.model import Circuit


class Fault(NamedTuple):
    """kind: the row of the published list that it belongs to (published.py), in the trade's words.

    part: its part's name, "" for a wire. subject, state: how it is called in a sentence, as "K1.11-14" and "welded".
    change: what it does to the circuit.
    """

    kind: str
    part: str
    subject: str
    state: str
    change: Change

    @property
    def called(self) -> str:
        """ "K1.11-14 welded", "LS1 stuck free", "the wire F1.2 to S1.com open"."""
        return f"{self.subject} {self.state}"


def with_fault(circuit: Circuit, fault: Fault) -> Circuit:
    """The faulty circuit. Digits and loads keep their numbers; other indices may move."""
    return supposed(circuit, fault.change)

"""Whether two circuits are electrically the same: what is left of one when wires are taken for granted.

Terminals that are joined for good are one net, whichever wires do it; what leads to a net where nothing else is has no
say. Nets are numbered in the order in which loads, supplies and contacts name them, so that equal circuits come out
equal. (Equal outcomes mean equal circuits; two that are equal may still come out different, which only costs time.)
"""

from collections import Counter
from collections.abc import Hashable

from circuitcheck.analysis.network import Net, joined_terminals
from circuitcheck.circuit.model import Circuit, Closed

Way = tuple[Net, Net, Closed | None, bool]


def likeness(circuit: Circuit) -> Hashable:
    """A value that is the same for circuits that are electrically the same, over the same digits."""
    nets = joined_terminals(circuit)
    held = [(nets[load.a], nets[load.b]) for load in circuit.loads]
    rails = [(nets[one.plus], nets[one.minus]) for one in circuit.supplies]
    ways = _leading_on(circuit, nets, {net for pair in (*held, *rails) for net in pair})
    numbers: dict[Net, int] = {}

    def numbered(net: Net) -> int:
        return numbers.setdefault(net, len(numbers))

    ends = tuple((numbered(a), numbered(b)) for a, b in (*held, *rails))
    paths = tuple((numbered(tail), numbered(head), closed, one_way) for tail, head, closed, one_way in ways)
    volts = tuple(supply.volts for supply in circuit.supplies)
    loads = tuple((load.name, load.ohms) for load in circuit.loads)
    return ends, frozenset(paths), volts, loads, tuple(relay.digit for relay in circuit.relays)


def _leading_on(circuit: Circuit, nets: dict[str, Net], ends: set[Net]) -> list[Way]:
    """Contacts and diodes, but those that lead nowhere: to a net with no load, no supply and no other way."""
    ways: list[Way] = [
        (nets[one.tail], nets[one.head], one.closed, one.one_way)
        for one in circuit.conductors
        if nets[one.tail] != nets[one.head]
    ]
    while True:
        touching = Counter(net for way in ways for net in way[:2])
        kept = [way for way in ways if all(net in ends or touching[net] > 1 for net in way[:2])]
        if len(kept) == len(ways):
            return kept
        ways = kept

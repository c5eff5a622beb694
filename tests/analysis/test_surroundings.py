"""What hangs together with a load in which states, on plans small enough to tell it by hand."""

from typing import NamedTuple

import pytest

from circuitcheck.analysis import surroundings
from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.surroundings import TooManyCases, cases
from tests.analysis.plans import circuit_of
from tests.analysis.test_carrying import states_of

BRIDGED = """
supply PS 12 V 10 A
switch S1 S2 spst positions off on
lamp   L1 L2 L3 L4 12 V 2 W
rung   PS.+, L1, L2, PS.-
rung   L1.2, S1, L3, PS.-
rung   PS.+, S2, L1.2
rung   PS.+, L4, PS.-
"""
TWO = """
supply PS PS2 12 V 10 A
wire   PS.- PS2.-
switch S1 spst positions off on
lamp   L1 L2 L3 12 V 2 W
diode  D1
rung   PS.+, L1, L2, PS2.+
rung   L1.2, S1, D1, L3, PS.-
"""
APART = """
supply PS PS2 12 V 10 A
switch S1 S2 spst positions off on
lamp   L1 L2 L3 12 V 2 W
rung   PS.+, L1, PS2.-
rung   PS2.+, S1, PS.-
rung   PS2.+, S2, L2, PS.-
rung   PS.+, L3, PS.-
"""


class Told(NamedTuple):
    """A case in the plan's words: its states, a digit for each thing that moves, and the contacts and diodes, loads and
    supplies that hang together."""

    states: str
    closed: str
    loads: str
    supplies: str


def told(text: str, name: str) -> set[Told]:
    """All cases of a load."""
    facts = analyse(circuit_of(text))
    circuit, network = facts.circuit, facts.conduction.network
    ways = [way for piece in network.pieces for way in piece.ways]
    between = {
        frozenset((network.nets[one.tail], network.nets[one.head])): one.part
        for one in circuit.conductors
        if one.closed or one.one_way
    }
    load = [one.name for one in circuit.loads].index(name)
    return {
        Told(
            " ".join("".join(map(str, one.values())) for one in states_of(circuit) if one in case.states),
            " ".join(sorted({between[frozenset(ways[number][:2])] for number in case.ways})),
            " ".join(circuit.loads[number].name for number in case.loads),
            " ".join(circuit.supplies[number].name for number in case.supplies),
        )
        for case in cases(circuit, facts.conduction, ways, load, facts.spaces.all())
    }


def test_a_load_s_surroundings_end_where_a_supply_holds_a_net() -> None:
    """While S2 holds the middle, whatever hangs on it is no matter of L1's; and L4 never is."""
    assert told(BRIDGED, "L1") == {
        Told("100", "", "L1 L2", "PS"),
        Told("110", "S1", "L1 L2 L3", "PS"),
        Told("101 111", "S2", "L1", "PS"),
    }
    assert told(BRIDGED, "L3") == {Told("110", "S1", "L1 L2 L3", "PS"), Told("111", "S1 S2", "L3", "PS")}


def test_a_load_between_two_supplies_hangs_together_with_those_that_are_on() -> None:
    """And with none where no current can run: one of them off, and no way to −."""
    assert told(TWO, "L1") == {
        Told("110", "", "L1 L2", "PS PS2"),
        Told("101", "D1 S1", "L1 L2 L3", "PS"),
        Told("011", "D1 S1", "L1 L2 L3", "PS2"),
        Told("111", "D1 S1", "L1 L2 L3", "PS PS2"),
    }


def test_supplies_that_share_no_return_hold_nothing_from_each_other() -> None:
    """A loop may lead through one, a load, the other one and further loads."""
    both = {Told(f"11{on}", closed, "L1 L2 L3", "PS PS2") for on, closed in CLOSED.items()}
    second = {Told(f"01{on}", closed, "L1 L2 L3", "PS2") for on, closed in CLOSED.items() if closed}
    assert told(APART, "L1") == both | second


CLOSED = {"00": "", "01": "S2", "10": "S1", "11": "S1 S2"}


@pytest.mark.parametrize(("limit", "most"), [("MOST_CASES", 3), ("MOST_LOADS", 3)])
def test_too_many_cases_or_loads_are_refused(limit: str, most: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Just as many as the limit are not."""
    monkeypatch.setattr(surroundings, limit, most)
    assert len(told(BRIDGED, "L1")) == 3
    monkeypatch.setattr(surroundings, limit, most - 1)
    with pytest.raises(TooManyCases) as raised:
        told(BRIDGED, "L1")
    assert raised.value.load == 0

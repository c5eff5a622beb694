"""Where the volts of loads can matter to each other, on plans small enough to tell it by hand."""

import pytest

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.network import Net
from tests.reference.asking import facts_of

LAMPS = """
    supply PS 12 V 10 A
    {second}
    splice N1 N2
    switch S1 S2 spst positions off on
    lamp   L1 12 V 2 W
    lamp   L2 12 V 2 W
    lamp   L3 12 V 2 W
    lamp   L4 12 V 2 W
    {wires}
"""
IN_SERIES = """
    rung   PS.+, L1, N1
    rung   N1, S1, N2
    rung   N2, L2, PS.-
    rung   PS.+, S2, L3, L4, PS.-
"""
BESIDE = "supply PS2 12 V 10 A"


def net(facts: Facts, terminal: str) -> Net:
    """The net of a terminal."""
    return facts.conduction.network.nets[terminal]


def named(facts: Facts, loads: frozenset[int] | tuple[int, ...]) -> set[str]:
    """The names of some loads."""
    return {facts.circuit.loads[number].name for number in loads}


def test_loads_that_a_contact_joins_away_from_the_rails_share_a_region() -> None:
    """Each region knows its loads; a rail belongs to none, and what lies beyond it neither."""
    facts = facts_of(LAMPS.format(second="", wires=IN_SERIES))
    regions = facts.regions
    one, other = regions.of[net(facts, "N1")], regions.of[net(facts, "L3.2")]
    assert regions.of[net(facts, "N2")] == one != other
    assert named(facts, regions.loads[one]) == {"L1", "L2"}
    assert named(facts, regions.loads[other]) == {"L3", "L4"}
    (piece,) = regions.pieces[one]
    assert {net(facts, "N1"), net(facts, "N2")} <= piece.nets
    assert regions.held == {net(facts, "PS.+"), net(facts, "PS.-")}
    assert not regions.tangled


@pytest.mark.parametrize(
    ("wires", "held", "tangled"),
    [
        ("wire PS.- PS2.-\nrung PS.+, L1, PS.-\nrung PS2.+, L2, PS.-", {"PS.+", "PS.-", "PS2.+"}, set()),
        ("wire PS.- PS2.-\nrung PS.+, S1, L1, PS.-\nrung PS2.+, S2, L1.1", {"PS.-"}, set()),
        ("wire PS.- PS2.-\nrung PS.+, L1, L2, PS2.+\nrung PS.+, L3, PS.-", {"PS.-"}, set()),
        ("rung PS.+, L1, PS.-\nrung PS2.+, L2, PS2.-", {"PS.+", "PS.-", "PS2.+", "PS2.-"}, set()),
        ("rung PS.+, L1, PS2.+\nrung PS2.-, L2, PS.-\nrung PS.+, L3, PS.-", set(), {"L1", "L2", "L3"}),
    ],
    ids=["apart on one minus", "a changeover", "loads between", "two boxes", "a loop through both"],
)
def test_a_rail_that_meets_another_supplys_parts_nothing(wires: str, held: set[str], tangled: set[str]) -> None:
    """Whatever they meet over; the rail of all supplies always parts."""
    wires = wires.replace("\n", "\n    ")
    facts = facts_of(LAMPS.format(second=BESIDE, wires=wires))
    assert facts.regions.held == {net(facts, one) for one in held}
    assert named(facts, facts.regions.tangled) == tangled

"""Whose current a conductor carries, against every simple path of each state and against the solved currents."""

from collections.abc import Iterator
from itertools import product

import networkx as nx
import pytest
from hypothesis import assume, example, given, settings

from circuitcheck.analysis.carrying import Carrying
from circuitcheck.analysis.currents import Currents
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.resistances import Setting
from circuitcheck.analysis.routes import Share
from circuitcheck.analysis.surroundings import TooManyCases
from circuitcheck.analysis.through_others import ThroughOthers
from circuitcheck.circuit.model import Circuit, Supply, Terminal
from tests.analysis.plans import circuit_of, plan_texts

SEAL_IN = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
relay  K1 dpdt coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A
rung   PS.+, F1, ( PB1 | K1.11-14 ), K1.A1-A2, PS.-
rung   F1.2, K1.24
rung   K1.21, M1, PS.-
rung   K1.22, PS.-
"""
PASSED_FUSE = """
supply PS 12 V 10 A
fuse   F1 F2 5 A
switch S1 dpst positions off on
switch S2 spst positions off on
lamp   L1 L2 L3 12 V 2 W
rung   PS.+, F1, S1.com1-on1, L1, PS.-
rung   PS.+, S1.com2-on2, L1
rung   F1.2, S2, F2, L2, PS.-
rung   S2.on, L3, PS.-
"""
"""L1's current passes F1 and goes by it as well, over the two poles of one switch."""


def states_of(circuit: Circuit) -> Iterator[dict[int, int]]:
    """Every state, moments of switches included."""
    for values in product(*(range(digit.radix) for digit in circuit.digits)):
        yield dict(enumerate(values))


def on_simple_paths(
    circuit: Circuit, rails: list[frozenset[Terminal]], state: dict[int, int], start: Terminal, end: Terminal
) -> set[int]:
    """The conductors, outside rails, that some path without repetition from `start` to `end` goes over; a rail's
    terminals are one."""
    joined = {terminal: f"rail {number}" for number, rail in enumerate(rails) for terminal in rail}
    graph: nx.MultiDiGraph[str] = nx.MultiDiGraph()
    graph.add_nodes_from((joined.get(start, start), joined.get(end, end)))
    for number, one in enumerate(circuit.conductors):
        tail, head = joined.get(one.tail, one.tail), joined.get(one.head, one.head)
        if tail != head and (one.closed is None or state[one.closed.digit] in one.closed.values):
            graph.add_edge(tail, head, number)
            if not one.one_way:
                graph.add_edge(head, tail, number)
    paths = nx.all_simple_edge_paths(graph, joined.get(start, start), joined.get(end, end))
    return {int(edge[-1]) for path in paths for edge in path}


def rails_of(facts: Facts) -> list[frozenset[Terminal]]:
    """The terminals of each rail."""
    nets = facts.conduction.network.nets
    return [
        frozenset(terminal for terminal, net in nets.items() if net == rail)
        for rail in sorted(facts.conduction.network.rails)
    ]


@settings(max_examples=25)
@given(plan_texts(most_states=24, most_parts=6))
def test_a_load_is_carried_by_the_conductors_on_its_ways_and_no_others(text: str) -> None:
    """Each state's simple paths, one by one. A diode may make the sets larger, never smaller."""
    circuit = circuit_of(text)
    assume(len(circuit.supplies) == 1)
    facts = analyse(circuit)
    carrying, supply, rails = Carrying(facts), circuit.supplies[0], rails_of(facts)
    exact = not any(one.one_way for one in circuit.conductors)
    for number, load in enumerate(circuit.loads):
        for fed in facts.feeding[number].fed:
            for states, enters, leaves in ((fed.forward, load.a, load.b), (fed.backward, load.b, load.a)):
                for state in states_of(circuit):
                    if state not in states:
                        continue
                    for side, ends in (("high", (supply.plus, enters)), ("low", (leaves, supply.minus))):
                        found = {
                            conductor
                            for conductor in range(len(circuit.conductors))
                            for share in carrying[conductor]
                            if (share.load, share.side) == (number, side) and state in share.states
                        }
                        found = {one for one in found if not _on_rail(circuit, rails, one)}
                        paths = on_simple_paths(circuit, rails, state, *ends)
                        assert paths <= found
                        assert not exact or paths == found


def _on_rail(circuit: Circuit, rails: list[frozenset[Terminal]], conductor: int) -> bool:
    one = circuit.conductors[conductor]
    return any(one.tail in rail and one.head in rail for rail in rails)


@settings(max_examples=40)
@given(plan_texts(most_states=24, most_parts=6))
def test_no_conductor_carries_more_than_its_shares_add_up_to(text: str) -> None:
    """Against the solved currents of each state, with motors at rest; loads in series and bridges included."""
    circuit = circuit_of(text)
    facts = analyse(circuit)
    carrying = Carrying(facts)
    try:
        others, cases = ThroughOthers(facts, carrying), list(Currents(facts, Setting()).of_all())
    except TooManyCases:
        assume(False)
    for number in range(len(circuit.conductors)):
        shares = [(share, share.volts / circuit.loads[share.load].ohms) for share in carrying[number]]
        shares = [(share, amps) for share, amps in shares if share.side != "brake"]
        shares += [(share, share.amps) for share in others[number]]
        flowing = [(case.states, case.amps[number]) for case in cases if number in case.amps]
        for state in states_of(circuit) if flowing and not _on_rail(circuit, rails_of(facts), number) else ():
            solved = abs(sum(amps for states, amps in flowing if state in states))
            assert solved <= sum(amps for share, amps in shares if state in share.states) + 1e-4


def test_a_seal_in_beside_its_pressed_button_carries_its_own_coil_only() -> None:
    """Button and contact closed make a loop that hangs on the bus; the motor's current doesn't go round it."""
    facts = analyse(circuit_of(SEAL_IN))
    carrying = Carrying(facts)
    loads = {
        one.name: {facts.circuit.loads[share.load].name for share in carrying[number]}
        for number, one in enumerate(facts.circuit.conductors)
    }
    assert loads["PB1.13-14"] == loads["K1.11-14"] == {"K1"}
    assert loads["K1.21-24"] == {"M1"}
    assert loads["F1.1-2"] == {"K1", "M1"}


def test_a_braked_motor_sends_its_current_round_its_resting_contact() -> None:
    """From brush to brush over K1's resting side and the return, and through neither fuse nor coil."""
    facts = analyse(circuit_of(SEAL_IN))
    carrying = Carrying(facts)
    braking = {
        one.name
        for number, one in enumerate(facts.circuit.conductors)
        for share in carrying[number]
        if share.side == "brake"
    }
    assert {"K1.21-22", "the wire K1.21 to M1.+", "the wire M1.- to PS.-", "the wire K1.22 to PS.-"} <= braking
    assert not {"F1.1-2", "K1.21-24", "K1.11-14"} & braking


@settings(max_examples=8)
@given(plan_texts(most_states=24, most_parts=6))
@example(SEAL_IN)
@example(PASSED_FUSE)
def test_a_fuse_guards_what_gets_no_current_without_it(text: str) -> None:
    """Any conductor in the place of the fuse: taken out, neither its load nor what comes behind it is reached from +
    in any state of a share, each followed singly."""
    circuit = circuit_of(text)
    assume(len(circuit.supplies) == 1)
    carrying, supply = Carrying(analyse(circuit)), circuit.supplies[0]
    shares = [(number, share) for number in range(len(circuit.conductors)) for share in carrying[number]]
    for fuse in range(len(circuit.conductors)):
        led = [(state, *led_to(closed_in(circuit, state, fuse), supply)) for state in states_of(circuit)]
        for number, share in shares:
            one, load = circuit.conductors[number], circuit.loads[share.load]
            there = [(high, low) for state, high, low in led if state in share.states]
            ends = ((load.a, load.b), (load.b, load.a))
            fed = any(enters in high and leaves in low for high, low in there for enters, leaves in ends)
            in_series = share.side != "brake" and not fed
            before = share.side == "low" or not any({one.tail, one.head} & high for high, _ in there)
            assert carrying.in_series(fuse, share) == in_series
            assert carrying.in_front(fuse, number, share) == (in_series and before)


def led_to(graph: "nx.MultiDiGraph[str]", supply: Supply) -> tuple[set[str], set[str]]:
    """The terminals that a supply's + leads to, and those that lead to its −."""
    return nx.descendants(graph, supply.plus) | {supply.plus}, nx.ancestors(graph, supply.minus) | {supply.minus}


def closed_in(circuit: Circuit, state: dict[int, int], without: int | None = None) -> "nx.MultiDiGraph[str]":
    """Every terminal, and every conductor closed in the state, by its index; but for one that is taken out."""
    graph: nx.MultiDiGraph[str] = nx.MultiDiGraph()
    for number, one in enumerate(circuit.conductors):
        graph.add_nodes_from((one.tail, one.head))
        if number != without and (one.closed is None or state[one.closed.digit] in one.closed.values):
            graph.add_edge(one.tail, one.head, number)
            if not one.one_way:
                graph.add_edge(one.head, one.tail, number)
    graph.add_nodes_from(end for supply in circuit.supplies for end in (supply.plus, supply.minus))
    return graph


def test_a_fuse_wired_the_other_way_round_comes_before_what_it_feeds_all_the_same() -> None:
    """Its second terminal is at the supply; the wire from there comes past it, those behind it don't."""
    facts = analyse(
        circuit_of("""
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spst positions off on
lamp   L1 12 V 2 W
wire   PS.+ F1.2
wire   F1.1 S1.com
wire   S1.on L1.1
wire   L1.2 PS.-
""")
    )
    carrying = Carrying(facts)
    numbers = {one.name: number for number, one in enumerate(facts.circuit.conductors)}
    fuse = numbers["F1.1-2"]
    in_front = {
        name: carrying.in_front(fuse, number, share) for name, number in numbers.items() for share in carrying[number]
    }
    assert in_front == {
        "the wire PS.+ to F1.2": False,
        "F1.1-2": False,
        "the wire F1.1 to S1.com": True,
        "S1.com-on": True,
        "the wire S1.on to L1.1": True,
        "the wire L1.2 to PS.-": True,
    }


def test_what_flows_through_two_lamps_in_turn_is_told_beside_what_conductors_feed() -> None:
    """S1 joins a motor's brushes and carries its brake current, and the lamps'; S2 feeds L3 besides."""
    circuit = circuit_of("""
supply PS 12 V 10 A
lamp   L1 L2 L3 12 V 2 W
switch S1 S2 spst positions off on
motor  M1 12 V stall 5 A
rung   PS.+, S2, L1, S1, L2, PS.-
rung   L1.2, M1, L2.1
rung   S2.on, L3, PS.-
""")
    carrying = Carrying(facts := analyse(circuit))
    others = ThroughOthers(facts, carrying)
    contacts = {one.name: number for number, one in enumerate(circuit.conductors)}
    braked, driven = {0: 1, 1: 1, 2: 1}, {0: 1, 1: 0, 2: 1}

    def flowing(shares: tuple[Share, ...], state: dict[int, int]) -> list[float]:
        return [share.amps for share in shares if state in share.states]

    assert {share.side for share in carrying[contacts["S1.com-on"]]} == {"brake"}
    assert {share.side for share in carrying[contacts["S2.com-on"]]} == {"high"}
    for shares in (others[contacts["S2.com-on"]], others.of_supply(0)):
        assert flowing(shares, braked) == pytest.approx([12 / (72 + 72)], rel=1e-4)
        assert flowing(shares, driven) == pytest.approx([12 / (72 + 72 + 12 / 5)], rel=1e-4)
        assert flowing(shares, braked | {2: 0}) == []
    assert flowing(others[contacts["S1.com-on"]], braked) == pytest.approx([12 / (72 + 72)], rel=1e-4)
    assert flowing(others[contacts["S1.com-on"]], driven) == []
    assert others[contacts["the wire S2.on to L3.1"]] == ()


def test_a_load_that_conductors_feed_is_no_part_of_what_flows_through_others() -> None:
    """L4 hangs together with the lamps in series; in S1, which feeds it over a diode, only L3's current counts."""
    circuit = circuit_of("""
supply PS 12 V 10 A
lamp   L1 L2 L3 L4 12 V 2 W
switch S1 spst positions off on
diode  D1
rung   PS.+, L1, L2, PS.-
rung   PS.+, S1, D1, L3, L1.2
rung   D1.cathode, L4, PS.-
""")
    carrying = Carrying(facts := analyse(circuit))
    others = ThroughOthers(facts, carrying)
    (contact,) = (number for number, one in enumerate(circuit.conductors) if one.name == "S1.com-on")
    on, off = {0: 1, 1: 1}, {0: 1, 1: 0}
    middle = (12 + 11.3) / 3  # volts where L1, L2 and L3 meet, behind a diode that takes 0.7
    over_diode, straight = (11.3 + 11.3 - middle) / 72 - 12 / 72, (12 - middle) / 72
    for shares, state, amps in (
        (others[contact], on, [over_diode]),
        (others[contact], off, []),
        (others.of_supply(0), on, [over_diode + straight]),
        (others.of_supply(0), off, [12 / (72 + 48)]),
    ):
        assert [share.amps for share in shares if state in share.states] == pytest.approx(amps, rel=5e-3)


def test_a_winding_that_carries_nothing_hides_no_row_of_loads() -> None:
    """A motor's low brush lies with its return at the + of one of two supplies that share none: from its high brush
    12 V run through both it and a lamp."""
    circuit = circuit_of("""
supply PS 12 V 10 A
supply PS2 12 V 10 A
switch S1 spst positions off on
motor  M1 two-speed 12 V stall 10 A
lamp   L1 L2 12 V 12 ohm
rung   PS.+, M1.low--, PS.+
rung   M1.high, L1, PS.-
rung   PS2.+, S1, PS.+, L2, PS2.-
""")
    facts = analyse(circuit)
    shares = ThroughOthers(facts, Carrying(facts)).of_supply(0)
    high = next(one for one in circuit.loads if one.name == "M1 high")
    assert max(share.amps for share in shares) == pytest.approx(12 / (12 + high.ohms))

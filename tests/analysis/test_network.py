"""What is one net, and where a network falls apart; told by hand."""

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.network import build_network, joined_terminals, with_ways
from tests.analysis.plans import circuit_of

BOX = """
supply PS 12 V 10 A
supply PS2 5 V 10 A
fuse   F1 5 A
switch S1 S2 S3 spst positions off on
diode  D1
lamp   L1 L2 12 V 2 W
wire   PS.- PS2.-
rung   PS.+, F1, S1, L1, PS.-
rung   F1.2, S2, D1, L2, PS.-
rung   PS.+, S3, PS2.+
"""


def test_a_network_falls_apart_at_the_rails_of_its_supplies() -> None:
    """A contact from rail to rail is a piece for each direction; a diode is a way in one alone."""
    circuit = circuit_of(BOX)
    facts = analyse(circuit)
    network = build_network(circuit, facts.spaces)
    net, digit = network.nets, {one.name: number for number, one in enumerate(circuit.digits)}
    plus, second, minus = net["PS.+"], net["PS2.+"], net["PS.-"]
    assert net["F1.2"] == net["S1.com"] == plus
    assert network.rails == network.borders == {plus, second, minus}
    assert network.opposite == {(plus, minus), (minus, plus), (second, minus), (minus, second)}
    pieces = {
        (piece.nets, frozenset((way.tail, way.head) for way in piece.ways), piece.digits) for piece in network.pieces
    }
    lamp, middle, lamp2 = net["S1.on"], net["D1.anode"], net["D1.cathode"]
    assert pieces >= {
        (frozenset({lamp}), frozenset({(plus, lamp), (lamp, plus)}), (digit["S1"],)),
        (
            frozenset({middle, lamp2}),
            frozenset({(plus, middle), (middle, plus), (middle, lamp2)}),
            (digit["S2"],),
        ),
        (frozenset(), frozenset({(plus, second)}), (digit["S3"],)),
        (frozenset(), frozenset({(second, plus)}), (digit["S3"],)),
    }
    assert network.piece_of[lamp] is not network.piece_of[middle] is network.piece_of[lamp2]
    assert not network.piece_of.keys() & network.rails


def test_ways_that_are_never_closed_are_left_out_of_their_piece() -> None:
    """With their digits; the nets stay."""
    circuit = circuit_of(BOX)
    facts = analyse(circuit)
    network = build_network(circuit, facts.spaces)
    lamp, none = network.nets["S1.on"], facts.spaces.none()
    changed = with_ways(network, lambda way: none if lamp in (way.tail, way.head) else way.closed)
    assert [piece.nets for piece in changed.pieces] == [piece.nets for piece in network.pieces]
    assert changed.piece_of[lamp] == network.piece_of[lamp]._replace(ways=(), digits=())
    left = [piece for piece in network.pieces if lamp not in piece.nets]
    assert [piece for piece in changed.pieces if lamp not in piece.nets] == left


def test_terminals_that_wires_join_are_told_from_those_that_a_fuse_joins_as_well() -> None:
    """By the kinds of what joins them."""
    circuit = circuit_of(BOX)
    by_wires, nets = joined_terminals(circuit, frozenset({"wire"})), joined_terminals(circuit)
    assert by_wires["F1.1"] == by_wires["PS.+"] != by_wires["F1.2"] == by_wires["S1.com"]
    assert nets["F1.1"] == nets["F1.2"]
    assert nets["D1.anode"] != nets["D1.cathode"]
    assert set(nets.values()) == set(range(len(set(nets.values()))))

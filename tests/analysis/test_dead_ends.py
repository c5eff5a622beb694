"""Parts that no loop through a supply runs through, and terminals without a wire."""

from itertools import pairwise

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from circuitcheck.analysis.dead_ends import Branch, blocks, dead_ends
from circuitcheck.analysis.wired import unwired_terminals, wired_terminals
from tests.analysis.plans import circuit_of

LANTERN = """supply PS 12 V 10 A
fuse F1 3 A
button PB1 no
lamp L1 L2 12 V 2 W
strip X1 2 ways
rung PS.+, F1, PB1, L1, X1.1, PS.-
"""


def dead_parts(text: str) -> list[tuple[tuple[str, ...], bool]]:
    """The parts of each dead end, and whether a wire is missing there."""
    return [(end.parts, end.unwired) for end in dead_ends(circuit_of(text))]


def test_a_lantern_in_a_loop_has_no_dead_end() -> None:
    """L2 has no wire at all, so nothing leads to it either."""
    assert dead_parts(LANTERN) == []


def test_what_leads_to_one_way_of_a_strip_and_no_further_is_one_dead_end() -> None:
    """The load comes first, then what leads to it."""
    text = LANTERN + "button PB2 no\nrung F1.2, PB2, L2, X1.2"
    assert dead_parts(text) == [(("L2", "PB2"), False)]


def test_the_very_first_load_of_a_plan_may_lead_nowhere() -> None:
    """It comes before what leads to it, as any other does."""
    text = LANTERN.replace("rung PS.+, F1, PB1, L1, X1.1, PS.-", "rung PS.+, F1, PB1, L1, X1.1\nrung F1.2, L2, PS.-")
    assert dead_parts(text) == [(("L1", "PB1"), False)]
    (end,) = dead_ends(circuit := circuit_of(text))
    names = {circuit.conductors[number].name for number in end.conductors}
    assert {"PB1.13-14", "the wire PB1.14 to L1.1"} <= names
    assert not {"F1.1-2", "the wire F1.2 to L2.1"} & names


def test_a_supply_of_which_one_terminal_leads_nowhere_is_as_dead_as_all_that_hangs_on_the_other() -> None:
    """Nothing runs through it."""
    text = LANTERN.replace(", X1.1, PS.-", ", X1.1")
    assert dead_parts(text) == [(("L1", "PS", "F1", "PB1"), True)]


def test_two_dead_ends_on_one_bus_are_told_apart() -> None:
    """They meet at a terminal where current flows."""
    text = LANTERN + "splice N1\nlamp L3 12 V 2 W\nrung F1.2, L2, X1.2\nrung F1.2, L3, N1"
    assert [parts for parts, _ in dead_parts(text)] == [("L2",), ("L3",)]


def test_a_coil_with_its_diode_is_a_loop_but_a_dead_one_without_a_supply() -> None:
    """The loop hangs on the return by one terminal; no current of the supply's gets round it."""
    text = LANTERN + "relay K1 no coil 12 V 160 ohm with diode\nwire K1.A2 PS.-\nwire K1.A1 X1.2"
    assert dead_parts(text) == [(("K1",), False)]


def test_a_dead_end_knows_of_a_wire_that_is_missing_in_it() -> None:
    """Here L2 has none at its second terminal."""
    assert dead_parts(LANTERN + "wire PB1.14 L2.1") == [(("L2",), True)]


def test_a_pole_that_leads_nowhere_leaves_its_relay_alive() -> None:
    """The dead end has a contact, but no part of its own."""
    text = LANTERN + "relay K1 no no coil 12 V 160 ohm\nrung F1.2, K1.A1-A2, PS.-\nrung F1.2, K1.13-14, X1.2"
    (end,) = dead_ends(circuit_of(text))
    assert end.parts == ()
    assert "K1.13-14" in {circuit_of(text).conductors[number].name for number in end.conductors}


def test_only_terminals_that_a_part_cannot_do_without_count_as_unwired() -> None:
    """All of them, where the part has no wire at all."""
    circuit = circuit_of(LANTERN + "relay K1 spdt coil 12 V 160 ohm\nrelay K2 spdt coil 12 V 160 ohm\nwire K1.A1 PS.+")
    wired = wired_terminals(circuit)
    assert unwired_terminals(circuit.parts["K1"], wired) == ("K1.A2",)
    assert unwired_terminals(circuit.parts["K2"], wired) == ("K2.A1", "K2.A2", "K2.11", "K2.12", "K2.14")
    assert unwired_terminals(circuit.parts["F1"], wired) == ()


@given(st.lists(st.tuples(st.sampled_from("abcdefgh"), st.sampled_from("abcdefgh")), max_size=16))
def test_blocks_are_those_of_networkx(pairs: list[tuple[str, str]]) -> None:
    """Branches side by side are one loop, so each is cut in two for a graph that knows only one."""
    branches = [Branch(a, b, "wire", "") for a, b in pairs if a != b]
    graph: nx.Graph[str | int] = nx.Graph()
    for number, branch in enumerate(branches):
        graph.add_edges_from(pairwise((branch.a, number, branch.b)))
    expected = {
        frozenset(end for way in block for end in way if isinstance(end, int))
        for block in nx.biconnected_component_edges(graph)
    }
    assert {frozenset(block) for block in blocks(branches)} == expected

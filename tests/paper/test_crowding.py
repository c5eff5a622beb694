"""Too many wires in one terminal, and what is proposed."""

from pathlib import Path

import networkx as nx
import pytest

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.paper.crowding import Crowd, crowds_of
from circuitcheck.paper.joints import wires_of
from circuitcheck.plan.reading import read_plan, read_text

EXAMPLES = Path(__file__).parents[2] / "examples"
RIGHT = sorted((EXAMPLES / "right").glob("*.plan"))

LAMPS = """
supply PS 12 V 10 A
fuse   F1 5 A
splice N1
lamp   L1 L2 L3 12 V 2 W
rung   PS.+, F1, N1
wire   N1 L1.1
wire   N1 L2.1
wire   N1 L3.1
wire   L1.2 PS.-
wire   L2.2 PS.- : 0.5 mm2
wire   L3.2 PS.-
"""


def lamps(more: str = "") -> tuple[Crowd, ...]:
    """The crowds of three lamps."""
    return crowds_of(build_circuit(read_text("lamps.plan", LAMPS + more)))


def test_three_wires_in_one_terminal_are_told_and_a_splice_may_have_as_many() -> None:
    """N1 takes four; the supply's screw takes two. N1 is taken, so the new splice is N2."""
    (crowd,) = lamps()
    assert (crowd.terminal, len(crowd.wires), crowd.splice) == ("PS.-", 3, "N2")


def test_a_wire_may_go_over_a_neighbour_that_has_room() -> None:
    """The thickest stays, and takes on the last of the others."""
    (crowd,) = lamps()
    assert [(one.wire.far_from("PS.-"), one.over) for one in crowd.detours] == [("L3.2", "L2.2")]


def test_no_detour_is_proposed_where_no_neighbour_has_room() -> None:
    """Each lamp's other end has two wires already."""
    full = "".join(f"resistor R{n} 1 kohm\nwire L{n}.2 R{n}.1\nwire R{n}.2 N1\n" for n in (1, 2, 3))
    assert [crowd.detours for crowd in lamps(full) if crowd.terminal == "PS.-"] == [()]


@pytest.mark.parametrize("path", RIGHT, ids=lambda path: path.stem)
def test_detours_leave_every_net_as_it_was_and_two_wires_at_the_terminal(path: Path) -> None:
    """Each crowd by itself: what was joined is joined, and no neighbour gets a third wire."""
    circuit = build_circuit(read_plan(path, (EXAMPLES / "parts",)))
    for crowd in crowds_of(circuit):
        if not crowd.detours:
            continue
        before, after = graph(circuit), graph(circuit)
        for detour in crowd.detours:
            far = detour.wire.far_from(crowd.terminal)
            after.remove_edge(crowd.terminal, far)
            after.add_edge(detour.over, far)
        assert set(map(frozenset, nx.connected_components(before))) == set(
            map(frozenset, nx.connected_components(after))
        )
        assert after.degree(crowd.terminal) == 2
        assert all(after.degree(one.over) <= 2 for one in crowd.detours)


def graph(circuit: Circuit) -> "nx.MultiGraph[str]":
    """Terminals and wires."""
    return nx.MultiGraph([(wire.tail, wire.head) for wire in wires_of(circuit)])

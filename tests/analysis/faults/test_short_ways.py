"""The ways of a supply short, against every simple path in every single state."""

from pathlib import Path
from textwrap import dedent

import networkx
import pytest

from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.short_ways import ShortCircuit
from circuitcheck.analysis.faults.verdicts import Judge
from circuitcheck.analysis.single_state import conducts
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan, read_text

EXAMPLES = Path(__file__).parents[3] / "examples"
RIGHT = sorted((EXAMPLES / "right").glob("*.plan"))
MOST_STATES = 24


def shorts_of(circuit: Circuit) -> list[ShortCircuit]:
    """Of all faults."""
    judge = Judge(circuit)
    return [short for fault in single_faults(circuit) for short in judge.verdict(fault).shorts]


def simple_ways(short: ShortCircuit, state: dict[int, int]) -> set[frozenset[int]]:
    """Every path over closed conductors from + to −, by search."""
    assert short.outcome.short is not None
    graph: networkx.MultiDiGraph[str] = networkx.MultiDiGraph()
    for number, one in enumerate(short.circuit.conductors):
        if conducts(one, state):
            graph.add_edge(one.tail, one.head, key=number)
            if not one.one_way:
                graph.add_edge(one.head, one.tail, key=number)
    supply = short.circuit.supplies[short.outcome.short.supplies[0]]
    paths = networkx.all_simple_edge_paths(graph, supply.plus, supply.minus)
    return {frozenset(int(edge[-1]) for edge in path) for path in paths}


@pytest.mark.parametrize("path", RIGHT, ids=[path.stem for path in RIGHT])
def test_the_ways_of_a_short_are_all_simple_paths_of_each_state(path: Path) -> None:
    """In states of each short, spread over all of them: a way is told with a state exactly if search finds it there."""
    for short in shorts_of(build_circuit(read_plan(path, (EXAMPLES,)))):
        assert short.outcome.short is not None
        assert short.ways is not None
        if len(short.outcome.short.supplies) > 1:
            continue
        space, bits = short.outcome.joint.space, short.outcome.states
        states = [number for number in range(space.size) if bits >> number & 1]
        for number in states[:: len(states) // MOST_STATES + 1]:
            state = space.values(number)
            known = {one.closed.digit for one in short.circuit.conductors if one.closed} <= set(state)
            told = {frozenset(way.conductors) for way in short.ways if state in way.states}
            if known:
                assert told == simple_ways(short, state)


@pytest.mark.parametrize(("first", "second"), [(24, 12), (12, 24)])
def test_a_loop_through_two_supplies_is_told_as_one_way(first: int, second: int) -> None:
    """Two supplies whose feeds touch on a strip: round through both, over a fuse in one of the two leads, whichever of
    them drives the current."""
    text = f"""
        supply P1 {first} V 10 A
        supply P2 {second} V 10 A
        fuse   F1 5 A
        strip  X1 2 ways
        lamp   L1 24 V 5 W
        lamp   L2 12 V 5 W
        rung   P1.+, F1, X1.1, L1, P1.-
        rung   P2.+, X1.2, L2, P2.-
        wire   P1.- P2.-
    """
    shorts = shorts_of(build_circuit(read_text("a.plan", dedent(text))))
    joined = [one for one in shorts if one.outcome.device == "P1 and P2"]
    assert joined
    for short in joined:
        assert not short.unfused
        assert short.ways is not None
        assert len(short.ways) == 1
        assert min(short.ways[0].conductors) >= 0
        kinds = [{short.circuit.conductors[number].kind for number in way.conductors} for way in short.ways]
        assert all("fuse" in one for one in kinds)


def test_a_short_with_too_many_ways_is_not_told_way_by_way() -> None:
    """Nine pairs of strips side by side have 512 ways; that each has a fuse is known all the same."""
    text = "supply PS 12 V 10 A\nfuse F1 5 A\nbutton PB1 no\nlamp L1 12 V 5 W\n"
    text += "".join(f"splice A{n} B{n} C{n}\n" for n in range(9))
    text += "rung PS.+, F1, PB1, L1, PS.-\nwire F1.2 A0\n".replace("rung PS.+, F1, PB1", "wire PS.+ F1.1\nrung C8, PB1")
    for n in range(9):
        onward = f"C{n}"
        text += f"wire A{n} B{n}\nwire B{n} {onward}\nwire A{n} {onward}\n"
        text += f"wire {onward} A{n + 1}\n" if n < 8 else ""
    shorts = [one for one in shorts_of(build_circuit(read_text("a.plan", text))) if one.outcome.device == "PS"]
    assert shorts
    assert all(one.ways is None and not one.unfused for one in shorts)
    bare = build_circuit(read_text("a.plan", text + "wire F1.1 F1.2\n"))
    assert {one.unfused for one in shorts_of(bare) if one.outcome.device == "PS" and one.ways is None} == {True}

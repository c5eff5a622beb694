"""What pictures light, against ways found in one state at a time."""

from collections.abc import Iterator
from itertools import pairwise
from math import prod
from pathlib import Path

import networkx as nx
import pytest
from hypothesis import given, settings

from circuitcheck.analysis.at_work import at_work
from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.held import held_in
from circuitcheck.analysis.lit import Lit
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import usual_beginning
from tests.analysis.plans import circuit_of, plan_texts
from tests.analysis.test_carrying import closed_in, states_of
from tests.benchmarks.panels import panel
from tests.test_examples import RIGHT, WRONG, facts_of


def some_states(circuit: Circuit, most: int) -> Iterator[dict[int, int]]:
    """Every state where they are few, else as many as asked for, far apart."""
    count = prod(digit.radix for digit in circuit.digits)
    for place in range(min(count, most)):
        number, state = place * count // min(count, most), {}
        for index, digit in enumerate(circuit.digits):
            number, state[index] = divmod(number, digit.radix)
        yield state


@settings(max_examples=60)
@given(plan_texts(most_states=24, most_parts=6))
def test_a_short_lights_the_conductors_of_its_ways_and_no_others(text: str) -> None:
    """With one supply: every path without repetition from + to −, rails' wires included."""
    circuit = circuit_of(text)
    facts = analyse(circuit)
    if len(circuit.supplies) > 1 or not facts.shorted:
        return
    lit, supply = Lit(facts), circuit.supplies[0]
    for state in states_of(circuit):
        if state in facts.shorted:
            graph = closed_in(circuit, state)
            paths = nx.all_simple_edge_paths(graph, supply.plus, supply.minus)
            needed = {int(edge[-1]) for path in paths for edge in path}
            assert needed <= {one for one in range(len(circuit.conductors)) if state in lit[one].shorting}
            assert not any(state in lit[one].fed or state in lit[one].braking for one in needed)


@pytest.mark.parametrize("path", RIGHT + WRONG, ids=lambda path: path.stem)
def test_the_way_of_each_load_that_is_fed_is_lit_and_what_is_open_is_dark(path: Path) -> None:
    """In a thousand states of each example, or in all, spread evenly; the ways are found state by state."""
    facts = facts_of(path)
    lit, conductors = Lit(facts), facts.circuit.conductors
    for state in some_states(facts.circuit, 1000):
        for name, way in at_work(facts, state).ways.items():
            for start, end in pairwise(way):
                flows = [
                    lit[number]
                    for number, one in enumerate(conductors)
                    if (start, end) in ((one.tail, one.head), () if one.one_way else (one.head, one.tail))
                ]
                shown = [flow.shorting if name == "short" else flow.fed for flow in flows]
                assert not flows or any(state in states for states in shown), (name, start, end, state)
        for number, one in enumerate(conductors):
            if one.closed is not None and state[one.closed.digit] not in one.closed.values:
                assert not any(state in states for states in lit[number])


@pytest.mark.parametrize("path", RIGHT + WRONG, ids=lambda path: path.stem)
def test_a_circuit_held_in_one_state_is_lit_as_the_whole_is_there(path: Path) -> None:
    """Every conductor, in a dozen states of each example."""
    facts = facts_of(path)
    lit = Lit(facts)
    for state in some_states(facts.circuit, 12):
        held = Lit(analyse(held_in(facts.circuit, state)))
        for number in range(len(facts.circuit.conductors)):
            assert [state in one for one in held[number]] == [state in one for one in lit[number]], (number, state)


def states_at_work(circuit: Circuit, most: int) -> Iterator[dict[int, int]]:
    """Every other of some states of a box, far apart, with its supply on and its stop and main relay closed."""
    on = {number: 0 if digit.name == "ES1" else 1 for number, digit in enumerate(circuit.digits)
          if digit.name in ("PS", "ES1", "K0")}  # fmt: skip
    for place, state in enumerate(some_states(circuit, most)):
        yield state | on if place % 2 else state


@pytest.mark.parametrize("motors", [2, 5])
def test_many_motors_behind_one_stop_are_lit_as_in_each_single_state(motors: int) -> None:
    """What they share carries current in the states of any of several sets; nothing is left dark for being wide."""
    circuit = circuit_of(panel(motors))
    lit, seen = Lit(analyse(circuit)), set()
    for state in states_at_work(circuit, 24):
        held = Lit(analyse(held_in(circuit, state)))
        for number, one in enumerate(circuit.conductors):
            assert lit[number].word_in(state) == held[number].word_in(state), (one.name, state)
            seen.add((one.name, held[number].word_in(state)))
    assert {("ES1.11-12", "lit"), ("ES1.11-12", ""), ("KR1.11-12", "brake"), ("KR2.11-14", "lit")} <= seen


def test_one_state_of_a_panel_is_lit_however_wide_the_whole_is() -> None:
    """Five motors behind one emergency stop, of which the first is told to raise: its current goes over the stop."""
    circuit = circuit_of(panel(5))
    numbers = {digit.name: number for number, digit in enumerate(circuit.digits)}
    beginning = usual_beginning(circuit) | {numbers[one]: 1 for one in ("K0", "KR1")}
    flow = Lit(analyse(held_in(circuit, beginning)))
    lit = {one.name for number, one in enumerate(circuit.conductors) if beginning in flow[number].fed}
    assert {"ES1.11-12", "K0.21-24", "KR1.11-14"} <= lit
    assert "KR2.11-14" not in lit

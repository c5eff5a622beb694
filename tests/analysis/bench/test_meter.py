"""What an ohmmeter reads, against resistance distances and paths looked up setting by setting."""

from itertools import product
from math import inf

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, settings

from circuitcheck.analysis.bench.boxes import Box
from circuitcheck.analysis.bench.meter import DIODE_NEEDS, PASSED, PASSING, Meter, apart
from circuitcheck.analysis.bench.readings import MOST_OHMS, told_apart
from circuitcheck.analysis.bench.settings import Setting
from circuitcheck.analysis.single_state import conducts
from circuitcheck.circuit.model import Circuit, Terminal
from tests.analysis.plans import circuit_of, plan_texts

MOST_TERMINALS = 6
MOST_SETTINGS = 4
"""Looked up one by one, which takes a while."""


def settings_of(circuit: Circuit) -> list[Setting]:
    """Every position of every digit."""
    return [Setting(values) for values in product(*(range(len(digit.values)) for digit in circuit.digits))]


def resistors(circuit: Circuit, setting: Setting, terminals: list[Terminal]) -> "nx.MultiGraph[Terminal]":
    """The terminals with what lies between them; what conductors join is joined by next to nothing."""
    graph: nx.MultiGraph[Terminal] = nx.MultiGraph()
    graph.add_nodes_from(terminals)
    state = dict(enumerate(setting.values))
    graph.add_edges_from(
        (one.tail, one.head, {"ohms": 1e-6})
        for one in circuit.conductors
        if not one.one_way and conducts(one, state) and one.tail != one.head
    )
    graph.add_edges_from((load.a, load.b, {"ohms": load.ohms}) for load in circuit.loads if load.a != load.b)
    return graph


def diode_passes(circuit: Circuit, setting: Setting, red: Terminal, black: Terminal) -> bool:
    """Does a current of 1 mA find a way, diodes in their direction?"""
    graph: nx.DiGraph[Terminal] = nx.DiGraph()
    graph.add_nodes_from((red, black))
    for one in circuit.conductors:
        if conducts(one, dict(enumerate(setting.values))):
            graph.add_edges_from(
                [(one.tail, one.head)] if one.one_way else [(one.tail, one.head), (one.head, one.tail)]
            )
    for load in circuit.loads:
        if load.ohms <= PASSED:
            graph.add_edges_from([(load.a, load.b), (load.b, load.a)])
    return bool(nx.has_path(graph, red, black))


@settings(max_examples=12, deadline=None)
@given(plan_texts(most_states=12, most_parts=5))
def test_an_ohmmeter_reads_the_resistance_between_any_two_terminals_in_every_setting(text: str) -> None:
    """Klein and Randic's resistance distance; the diode range shows a diode only where nothing else is in its way."""
    circuit = circuit_of(text)
    terminals = [end for part in circuit.parts.values() for end in part.terminals][:MOST_TERMINALS]
    every = settings_of(circuit)[-MOST_SETTINGS:]
    meter = Meter(Box(circuit), terminals, every, {})
    for number, setting in enumerate(every):
        graph, ohms = resistors(circuit, setting, terminals), meter.ohms(number)
        for (place, red), (other, black) in product(enumerate(terminals), repeat=2):
            assert ohms[place, other] == pytest.approx(ohms[other, place])
            if place < other:
                inside = graph.subgraph(nx.node_connected_component(graph, red))
                expected = nx.resistance_distance(inside, red, black, "ohms") if black in inside else inf
                assert ohms[place, other] == pytest.approx(expected, abs=1e-3, rel=1e-4)
            shown = meter.diode_range(number, red, black, ohms)
            if ohms[place, other] < DIODE_NEEDS:
                assert shown == ohms[place, other]
            else:
                assert shown == (PASSING if diode_passes(circuit, setting, red, black) else inf)


def test_a_meter_reads_three_resistors_in_a_ring_and_nothing_where_nothing_leads() -> None:
    """100, 200 and 300 ohm: each beside the other two in series; a button joins two terminals while it is pressed."""
    circuit = circuit_of(
        "splice N1 N2 N3 N4\nresistor R1 100 ohm\nresistor R2 200 ohm\nresistor R3 300 ohm\nbutton PB1 no\n"
        "rung N1, R1, N2\nrung N2, R2, N3\nrung N3, R3, N1\nrung N3, PB1, N4\nlamp L1 12 V 2 W\n"
    )
    terminals = ("N1", "N2", "N3", "N4", "L1.1")
    released, pressed = (Meter(Box(circuit), terminals, settings_of(circuit), {}).ohms(number) for number in (0, 1))
    ring = {("N1", "N2"): 100 * 500 / 600, ("N2", "N3"): 200 * 400 / 600, ("N1", "N3"): 300 * 300 / 600}
    for (red, black), ohms in ring.items():
        here = terminals.index(red), terminals.index(black)
        assert released[here] == pytest.approx(ohms)
        assert pressed[here] == pytest.approx(ohms)
    assert released[3].tolist() == [inf, inf, inf, 0, inf]
    assert pressed[3] == pytest.approx([150, 400 / 3, 0, 0, inf])
    assert released[4].tolist() == [inf, inf, inf, inf, 0]


def test_the_diode_range_passes_an_outside_transistor_one_way_while_it_is_on() -> None:
    """An ohmmeter sees nothing of it; two kilohms in its way are no more than the range drives."""
    circuit = circuit_of(
        "outside O1 sourcing\nresistor R1 2000 ohm\nresistor R2 2001 ohm\nsplice N1 N2\n"
        "rung O1.out, R1, N1\nrung O1.out, R2, N2\n"
    )
    (way,) = (one for one in circuit.conductors if one.one_way)
    assert "O1.out" in (way.tail, way.head)
    other = way.tail if way.head == "O1.out" else way.head
    meter = Meter(Box(circuit), (other, "O1.out", "N1", "N2"), settings_of(circuit), {})
    for setting, is_on in enumerate((False, True)):
        ohms = meter.ohms(setting)
        assert ohms[0, 1] == inf
        for end, passes in (("O1.out", is_on), ("N1", is_on), ("N2", False)):
            ends = (other, end) if way.tail == other else (end, other)
            assert meter.diode_range(setting, *ends, ohms) == (PASSING if passes else inf)
            assert meter.diode_range(setting, *ends[::-1], ohms) == inf


def test_whole_arrays_of_readings_are_told_apart_as_single_ones_are() -> None:
    """Zero, little, much, nothing at all; a diode's volts are apart from all else."""
    values = [0.0, 0.5, 1.0, 1.01, 2.0, 10.0, 13.0, 13.01, 14.0, 1e3, 1.4e3, 1e6, MOST_OHMS, 1e8, inf]
    for one, other in product(values, repeat=2):
        assert bool(apart(np.array([one]), np.array([other]))[0]) == told_apart(one, other), (one, other)
        assert bool(apart(np.array([PASSING]), np.array([one]))[0])
    assert not apart(np.array([PASSING]), np.array([PASSING]))[0]


def test_boxes_with_the_same_key_read_the_same_everywhere() -> None:
    """And another setting that changes a reading has another key."""
    plan = "supply PS 12 V 5 A\nbutton PB1 no\nlamp L1 12 V 2 W\nrung PS.+, PB1, L1, PS.-\n"
    circuit = circuit_of(plan)
    terminals = [end for part in circuit.parts.values() for end in part.terminals]
    every = settings_of(circuit)
    one, other = (Meter(Box(circuit), terminals, every, {}) for _ in range(2))
    keys = [one.key(number) for number in range(len(every))]
    assert keys == [other.key(number) for number in range(len(every))]
    pressed = next(number for number, digit in enumerate(circuit.digits) if digit.name == "PB1")
    for (first, left), (second, right) in product(enumerate(every), repeat=2):
        assert (keys[first] == keys[second]) == (left.values[pressed] == right.values[pressed])


def test_loads_that_lie_otherwise_between_the_same_terminals_give_another_key() -> None:
    """Ends that nobody may touch are told by their order alone: whichever lamp is the first of two in series."""
    plan = "splice N1 N2 N3\nlamp L1 12 V 2 W\nlamp L2 12 V 2 W\n"
    wired = ("rung N1, L1, L2, N2\n", "rung N1, L1, L2, N3\n", "rung N1, L2, L1, N2\n", "rung N1, L1, N2\n")
    circuits = [circuit_of(plan + one) for one in wired]
    meters = [Meter(Box(one), ("N1", "N2", "N3"), settings_of(one), {}) for one in circuits]
    keys = [meter.key(0) for meter in meters]
    assert len(set(keys)) == len(keys)
    turned = circuit_of("splice N1 N2 N3\nlamp L2 12 V 2 W\nlamp L1 12 V 2 W\nrung N1, L2, L1, N2\n")
    assert Meter(Box(turned), ("N1", "N2", "N3"), settings_of(turned), {}).key(0) == keys[0]

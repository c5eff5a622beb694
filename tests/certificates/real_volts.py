"""The volts behind all resistances that a plan tells, in one state: every load of the circuit at once, by nodal
analysis of all its terminals (modified nodal analysis: Ho, Ruehli and Brennan 1975)."""

from itertools import combinations
from math import inf
from typing import NamedTuple

import networkx as nx
import numpy as np

from circuitcheck.analysis.copper import copper_factor
from circuitcheck.analysis.resistances import Setting, conductor_ohms, load_ohms
from circuitcheck.circuit.model import Circuit, Terminal
from tests.judge.one_state import State, is_closed

DIODE_VOLTS, DIODE_OHMS = 0.7, 0.01
LEAK_SIEMENS = 1e-6


class Resistor(NamedTuple):
    """Between two terminals; `volts` stand against current from `a` to `b`."""

    a: Terminal
    b: Terminal
    ohms: float
    volts: float = 0.0


def celsius(circuit: Circuit) -> float:
    """How warm coils and wires may be; 20 °C at least."""
    ambient = circuit.conditions.ambient_celsius
    return max(ambient[1], 20.0) if ambient else 20.0


def is_bare(circuit: Circuit) -> bool:
    """Does the plan tell of no resistance and no warmth?"""
    told = [*conductor_ohms(circuit, Setting()), *(one.internal_ohms for one in circuit.supplies)]
    return not any(told) and celsius(circuit) == 20


def needed_volts(circuit: Circuit, operate_volts: float) -> float:
    """What a coil needs where it is as warm as it may be."""
    return operate_volts * copper_factor(celsius(circuit))


def real_volts(circuit: Circuit, state: State) -> list[float]:
    """The volts of each load, none where a supply would have to give more than its limit. Shorted states have none."""
    warm = Setting(celsius(circuit), celsius(circuit))
    resistors = [Resistor(one.a, one.b, load_ohms(circuit, place, warm)) for place, one in enumerate(circuit.loads)]
    joined: nx.Graph[Terminal] = nx.Graph()
    joined.add_nodes_from(terminal for part in circuit.parts.values() for terminal in part.terminals)
    diodes = []
    for one, ohms in zip(circuit.conductors, conductor_ohms(circuit, warm), strict=True):
        if is_closed(one, state) and one.one_way:
            diodes.append(Resistor(one.tail, one.head, DIODE_OHMS, DIODE_VOLTS))
        elif is_closed(one, state) and ohms:
            resistors.append(Resistor(one.tail, one.head, ohms))
        elif is_closed(one, state):
            joined.add_edge(one.tail, one.head)
    number = {name: place for place, group in enumerate(nx.connected_components(joined)) for name in group}
    for count in range(len(diodes) + 1):
        for conducting in combinations(diodes, count):
            volts, delivered = solved(circuit, state, number, [*resistors, *conducting])
            across = ((one, volts[number[one.a]] - volts[number[one.b]]) for one in diodes)
            if all((between >= DIODE_VOLTS - 1e-6) == (one in conducting) for one, between in across):
                limits = [one.limit_amps or inf for one in circuit.supplies]
                within = all(amps <= limit for amps, limit in zip(delivered, limits, strict=True))
                return [volts[number[one.a]] - volts[number[one.b]] if within else 0.0 for one in circuit.loads]
    raise AssertionError("no choice of conducting diodes agrees with its own volts")


def solved(
    circuit: Circuit, state: State, number: dict[Terminal, int], resistors: list[Resistor]
) -> tuple[list[float], list[float]]:
    """The volts of each group of terminals, and the amps that each supply delivers."""
    nodes = 1 + max(number.values())
    size = nodes + len(circuit.supplies)
    matrix, right = np.zeros((size, size)), np.zeros(size)
    for place in range(nodes):
        matrix[place, place] = LEAK_SIEMENS
    for one in resistors:
        for here, there, sign in ((number[one.a], number[one.b], 1), (number[one.b], number[one.a], -1)):
            matrix[here, here] += 1 / one.ohms
            matrix[here, there] -= 1 / one.ohms
            right[here] += sign * one.volts / one.ohms
    for place, supply in enumerate(circuit.supplies, nodes):
        plus, minus = number[supply.plus], number[supply.minus]
        if state[supply.digit] == 1:
            matrix[plus, place], matrix[minus, place] = -1, 1
            matrix[place, plus], matrix[place, minus], matrix[place, place] = 1, -1, supply.internal_ohms + 1e-9
            right[place] = supply.volts
        else:
            matrix[place, place] = 1
    found = [float(one) for one in np.linalg.solve(matrix, right)]
    return found[:nodes], found[nodes:]

"""Reachable sets against two outside ways: a breadth-first search over single states with networkx, and a SAT solver.

The solver is asked by bounded model checking (Biere, Cimatti, Clarke and Zhu, "Symbolic Model Checking without BDDs",
TACAS 1999; from memory): can n steps from power-up lead to a state? The circuit's relays and buttons are given to it as
clauses made of the wiring rule itself (a coil is fed by its button, or another's contact, unless a third shuts it out).
"""

from itertools import product
from typing import NamedTuple

import networkx as nx
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pysat.solvers import Cadical153  # type: ignore[import-untyped]

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.circuit.model import Circuit
from tests.judge.steps import Judge
from tests.reference.asking import facts_of


class Coil(NamedTuple):
    """What feeds a relay's coil: its button or the working contact of relay `held_by`, and the resting contact of
    `shut_by` in a row with both."""

    held_by: int
    shut_by: int


@st.composite
def panels(draw: st.DrawFn) -> list[Coil]:
    """Two to four relays, each with a button."""
    count = draw(st.integers(2, 4))
    return [
        Coil(draw(st.integers(0, count - 1)), (own + draw(st.integers(1, count - 1))) % count) for own in range(count)
    ]


def plan_of(panel: list[Coil]) -> str:
    """The panel as a plan; the supply is a control as well. Each relay has a pair of poles for each coil."""
    count = len(panel)
    poles = " ".join(["no"] * count + ["nc"] * count)
    lines = ["supply PS 12 V 10 A"]
    for number in range(count):
        lines += [f"button PB{number} no", f"relay K{number} {poles} coil 12 V 160 ohm"]
    for number, coil in enumerate(panel):
        working, resting = number + 1, count + number + 1
        fed = f"( PB{number} | K{coil.held_by}.{working}3-{working}4 ), K{coil.shut_by}.{resting}1-{resting}2"
        lines.append(f"rung PS.+, {fed}, K{number}.A1-A2, PS.-")
    return "\n".join(lines)


def behaviour_of(panel: list[Coil]) -> tuple[Circuit, Behaviour]:
    """What the sets of states say of it."""
    facts = facts_of(plan_of(panel))
    return facts.circuit, facts.behaviour(range(len(facts.circuit.digits)))


UNHURRIED = [HealthCheck.too_slow]


@settings(max_examples=15, deadline=None, derandomize=True, suppress_health_check=UNHURRIED)
@given(panels().filter(lambda panel: len(panel) < 4))
def test_each_round_holds_the_states_as_many_steps_from_power_up(panel: list[Coil]) -> None:
    """Shortest distances of a graph whose edges are the judge's steps, from all power-ups at once."""
    circuit, behaviour = behaviour_of(panel)
    judge = Judge(circuit)
    graph: nx.DiGraph[tuple[int, ...] | str] = nx.DiGraph()
    graph.add_edges_from(("power-up", state) for state in judge.beginnings())
    graph.add_edges_from((state, there) for state in judge.every_state() for there in judge.successors(state))
    far = nx.single_source_shortest_path_length(graph, "power-up")
    for state in judge.every_state():
        number = behaviour.space.number(dict(enumerate(state)))
        rounds = [steps for steps, reached in enumerate(behaviour.rounds) if reached >> number & 1]
        assert rounds == ([far[state] - 1] if state in far else [])


class Unrolled:
    """Power-up and a number of steps, as clauses. Variables: the supply, the buttons and the relays at each time."""

    def __init__(self, panel: list[Coil], steps: int) -> None:
        self._panel = panel
        self._width = 1 + 2 * len(panel)
        self._spare = (steps + 1) * self._width
        self.solver = Cadical153()
        for number in range(len(panel)):
            self.solver.add_clause([-self.relay(number, 0)])
        for time in range(steps):
            self._step(time)

    def supply(self, time: int) -> int:
        """Is the supply on?"""
        return time * self._width + 1

    def button(self, number: int, time: int) -> int:
        """Is the button pressed?"""
        return time * self._width + 2 + number

    def relay(self, number: int, time: int) -> int:
        """Is the relay operated?"""
        return time * self._width + 2 + len(self._panel) + number

    def _new(self) -> int:
        self._spare += 1
        return self._spare

    def _both(self, one: int, other: int) -> int:
        result = self._new()
        self.solver.append_formula([[-result, one], [-result, other], [result, -one, -other]])
        return result

    def _differ(self, one: int, other: int) -> int:
        result = self._new()
        self.solver.append_formula(
            [[-result, one, other], [-result, -one, -other], [result, -one, other], [result, one, -other]]
        )
        return result

    def _step(self, time: int) -> None:
        """Nothing changes, or one thing does: a relay that wants to, or a control if none wants to."""
        count = len(self._panel)
        wanting, changed = [], []
        for number, coil in enumerate(self._panel):
            held = -self._both(-self.button(number, time), -self.relay(coil.held_by, time))
            fed = self._both(self._both(held, -self.relay(coil.shut_by, time)), self.supply(time))
            wanting.append(self._differ(fed, self.relay(number, time)))
            changed.append(self._differ(self.relay(number, time), self.relay(number, time + 1)))
            self.solver.add_clause([-changed[-1], wanting[-1]])
        pairs = [(self.supply(time), self.supply(time + 1))]
        pairs += [(self.button(number, time), self.button(number, time + 1)) for number in range(count)]
        for before, after in pairs:
            changed.append(self._differ(before, after))
            self.solver.append_formula([[-changed[-1], -want] for want in wanting])
        self.solver.append_formula(
            [[-one, -other] for place, one in enumerate(changed) for other in changed[place + 1 :]]
        )


@settings(max_examples=12, deadline=None, derandomize=True, suppress_health_check=UNHURRIED)
@given(panels())
def test_a_sat_solver_gets_to_just_the_states_that_are_reached(panel: list[Coil]) -> None:
    """For each position of relays, buttons and supply: some steps lead there, or as many as there are rounds do not.

    Panels on which relays may go round for ever are left out: controls move there without a standstill.
    """
    circuit, behaviour = behaviour_of(panel)
    if behaviour.rest != behaviour.settled:
        return
    steps = len(behaviour.rounds)
    unrolled = Unrolled(panel, steps)
    numbers = {digit.name: number for number, digit in enumerate(circuit.digits)}
    for state in product((0, 1), repeat=1 + 2 * len(panel)):
        supply, buttons, relays = state[0], state[1 : 1 + len(panel)], state[1 + len(panel) :]
        values = {numbers["PS"]: supply}
        values |= {numbers[f"PB{number}"]: value for number, value in enumerate(buttons)}
        values |= {numbers[f"K{number}"]: value for number, value in enumerate(relays)}
        wanted = [unrolled.supply(steps) * (1 if supply else -1)]
        wanted += [unrolled.button(number, steps) * (1 if value else -1) for number, value in enumerate(buttons)]
        wanted += [unrolled.relay(number, steps) * (1 if value else -1) for number, value in enumerate(relays)]
        reached = bool(behaviour.reached >> behaviour.space.number(values) & 1)
        assert unrolled.solver.solve(assumptions=wanted) == reached

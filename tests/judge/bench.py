"""What is read of a box on the bench, one state at a time: the judge's own meter, and its own eyes under power."""

from collections.abc import Iterator
from fractions import Fraction

import networkx as nx

from circuitcheck.analysis.bench.readings import Point, Reading
from circuitcheck.analysis.bench.settings import OFF, WITH, Setting
from circuitcheck.circuit.model import Circuit, Terminal
from tests.judge.one_state import State, is_closed
from tests.judge.steps import Judge, with_value
from tests.judge.told_faults import told_fault
from tests.judge.volts import eliminate

STEADY_OHMS = 10**7
"""A voltmeter in a motor's place."""
FAR = 10.0**9


def faulty(circuit: Circuit, called: str, powered: bool, motors: bool) -> Circuit:
    """The box with the fault of this name ("" for none), as far as it shows. Fingers press a limit wherever it is, and
    what is wrong with a motor goes away with it."""
    motor_names = {motor.name for motor in circuit.motors}
    windings = {load.name for load in circuit.loads if load.part in motor_names}
    own = any(called in (f"{name} open", f"{name} shorted") for name in windings) or called.endswith("its case")
    moved = " moved " in called and not motors
    shows = called and not moved and not (powered and not motors and own)
    changed = told_fault(circuit, called) if shows else circuit
    if not powered or motors:
        return changed
    loads = tuple(one._replace(ohms=STEADY_OHMS) if one.part in motor_names else one for one in changed.loads)
    bonds = tuple(one for one in changed.conductors if one.kind != "bond")
    return changed._replace(loads=loads, conductors=bonds)


def stands(circuit: Circuit, called: str, state: State) -> State:
    """The state as far as the fault lets anybody bring it about."""
    name, _, where = called.partition(" stuck ")
    for number, digit in enumerate(circuit.digits):
        if digit.name == name and where:
            return with_value(state, number, digit.values.index(where))
    return state


def ohms(circuit: Circuit, state: State, red: Terminal, black: Terminal) -> float:
    """By Ohm's and Kirchhoff's laws: one ampere into red and out of black. No diode takes part."""
    graph: nx.Graph[Terminal] = nx.Graph()
    graph.add_nodes_from([red, black])
    graph.add_nodes_from(end for load in circuit.loads for end in (load.a, load.b))
    graph.add_edges_from(
        (one.tail, one.head) for one in circuit.conductors if not one.one_way and is_closed(one, state)
    )
    group = {end: number for number, members in enumerate(nx.connected_components(graph)) for end in members}
    loads = [(group[load.a], group[load.b], Fraction(load.ohms).limit_denominator(10**6)) for load in circuit.loads]
    through: nx.Graph[int] = nx.Graph([(a, b) for a, b, _ in loads])
    through.add_nodes_from([group[red], group[black]])
    if not nx.has_path(through, group[red], group[black]):
        return FAR
    nets = sorted(nx.node_connected_component(through, group[red]))
    place = {net: number for number, net in enumerate(nets)}
    rows = [[Fraction(0)] * (len(nets) + 1) for _ in nets]
    for a, b, resistance in loads:
        if a in place and a != b:
            for here, there in ((place[a], place[b]), (place[b], place[a])):
                rows[here][here] += 1 / resistance
                rows[here][there] -= 1 / resistance
    enters, leaves = place[group[red]], place[group[black]]
    rows[enters][-1] += 1
    rows[leaves] = [Fraction(int(number == leaves)) for number in range(len(nets))] + [Fraction(0)]
    return float(eliminate(rows)[enters]) if enters != leaves else 0.0


def diode_range(circuit: Circuit, state: State, red: Terminal, black: Terminal) -> float | str:
    """Ohms where there are too few for a diode, else whether a milliampere finds a way."""
    across = ohms(circuit, state, red, black)
    if across < 500:
        return across
    ways: nx.DiGraph[Terminal] = nx.DiGraph()
    ways.add_nodes_from([red, black])
    for one in circuit.conductors:
        if is_closed(one, state):
            ways.add_edges_from([(one.tail, one.head)] if one.one_way else [(one.tail, one.head), (one.head, one.tail)])
    for load in circuit.loads:
        if load.ohms <= 2000:
            ways.add_edges_from([(load.a, load.b), (load.b, load.a)])
    return "passes" if nx.has_path(ways, red, black) else FAR


def ends(judge: Judge, beginnings: set[State]) -> set[State]:
    """Where relays come to rest, timers run out; all that they meet where they never do."""
    known, waiting, final = set(beginnings), list(beginnings), set()
    while waiting:
        here = waiting.pop()
        following = judge.relays_moved(here) or [
            with_value(here, one.digit, one.end) for one in judge.judged(here).wishes
        ]
        if not following:
            final.add(here)
        for there in following:
            if there not in known:
                known.add(there)
                waiting.append(there)
    return final or known


def after_tapping(judge: Judge, called: str, state: State, tapped: tuple[tuple[int, int], ...]) -> set[State]:
    """The supplies come on with everything set; then what springs back is pressed and let go, one after the other."""
    reached = ends(judge, {state})
    for digit, value in tapped:
        if stands(judge.circuit, called, with_value(state, digit, value)) != state:
            for there in (value, state[digit]):
                reached = ends(judge, {with_value(one, digit, there) for one in reached})
    return reached


def seen(judge: Judge, reached: set[State], kind: str, name: str) -> Iterator[float | str]:
    """What a motor, lamp or relay is seen to do in each of the states."""
    circuit = judge.circuit
    for state in reached:
        verdict = judge.judged(state)
        supply = next((one for one in circuit.supplies if one.name == name), None)
        if verdict.shorted:
            yield "current limit"
        elif supply is not None:
            yield supply.volts if supply.plus.endswith("+") else -supply.volts
        elif kind == "relay":
            number = next(number for number, digit in enumerate(circuit.digits) if digit.name == name)
            yield circuit.digits[number].values[state[number]]
        elif kind == "motor":
            yield next(word for motor, word in zip(circuit.motors, verdict.motors, strict=True) if motor.name == name)
        else:
            number = next(number for number, load in enumerate(circuit.loads) if load.name == name)
            word = verdict.lamps.get(number, "")
            loud = {"lit": "on", "glowing": "weak", "dark": "off"}
            if kind == "volts":
                yield verdict.volts[number]
            else:
                yield word if circuit.loads[number].kind == "lamp" else loud[word]


class Reader:
    """Reads lines on a box, sound ("") or with the fault of a name; it remembers the boxes."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self._boxes: dict[tuple[str, bool, bool], Judge] = {}

    def reading(self, called: str, setting: Setting, point: Point, stage: str) -> Reading:
        """What is read; "not steady" where the order of things matters."""
        judge = self._box(called, stage != OFF, stage == WITH)
        state = stands(judge.circuit, called, setting.values)
        if point.kind == "ohms":
            return ohms(judge.circuit, state, point.red, point.black)
        if point.kind == "diode":
            return diode_range(judge.circuit, state, point.red, point.black)
        reached = after_tapping(judge, called, state, setting.tapped)
        found = set(seen(judge, reached, point.kind, point.name))
        return found.pop() if len(found) == 1 else "not steady"

    def _box(self, called: str, powered: bool, motors: bool) -> Judge:
        key = called, powered, motors
        if key not in self._boxes:
            self._boxes[key] = Judge(faulty(self.circuit, called, powered, motors))
        return self._boxes[key]


def differ(one: Reading, other: Reading) -> bool:
    """By more than an ohm or a volt, and by a third: the sheet's promise, in the judge's words."""
    if "not steady" in (one, other) or isinstance(one, str) or isinstance(other, str):
        return one != other and "not steady" not in (one, other)
    if abs(max(one, other, key=abs)) > 2e6:
        return abs(min(one, other, key=abs)) <= 2e6
    small, great = sorted((abs(one), abs(other)))
    return abs(one - other) > 1 if one * other < 0 else great - small > 1.000001 and great > 1.3 * small + 0.000001

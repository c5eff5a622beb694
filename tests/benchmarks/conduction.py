"""How fast all states are answered at once, against building a graph for each state and searching it.

Run: python -m tests.benchmarks.conduction

One piece of 18 nets, joined at random (fixed seed) by relays with an NO and an NC contact each. The question is in
which states conductors lead from one net to another; the answers are compared in every state that the plain way was
asked for. From 2^27 states on the engine counts with decision diagrams, as an examination does. Where the plain way was
not asked for all states, its time is extrapolated from those, and marked so.
"""

import json
import random
import resource
import subprocess
import sys
import time
from typing import NamedTuple

import networkx as nx

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.network import build_network
from circuitcheck.analysis.states import INTEGERS, Spaces, States, TooWide
from circuitcheck.circuit.model import Circuit, Closed, Conductor, Digit, PartInfo
from circuitcheck.plan.source import Place

NETS = 18
SIZES = (12, 16, 20, 24, 26, 28, 30)
MOST_SEARCHED = 1 << 16
START, END = "N0", f"N{NETS - 1}"
NOWHERE = Place("", 1, 1, 1, 1)


class Measured(NamedTuple):
    """relays, all states counted; seconds and peak megabytes; how often START leads to END."""

    relays: int
    engine_seconds: float
    peak_mb: float
    leading: int
    searched: int
    search_seconds: float

    @property
    def plain_seconds(self) -> float:
        """What the plain way takes, or would take, for all states."""
        return self.search_seconds * (1 << self.relays) / self.searched


def dense_circuit(relays: int) -> Circuit:
    """Relays with an NO and an NC contact each between random nets; a random tree among them makes it one piece."""
    chance = random.Random(relays)
    names = [f"N{number}" for number in range(NETS)]
    pairs = [(chance.choice(names[:number]), names[number]) for number in range(1, NETS)]
    pairs += [(first, second) for first, second in (chance.sample(names, 2) for _ in range(2 * relays - len(pairs)))]
    chance.shuffle(pairs)
    conductors = [
        Conductor(*pair, "contact", f"K{number // 2}", NOWHERE, Closed(number // 2, frozenset({number % 2})))
        for number, pair in enumerate(pairs)
    ]
    parts = {name: PartInfo(name, "splice", "", ("",), frozenset(), {}, NOWHERE) for name in names}
    digits = tuple(Digit(f"K{digit}", "relay", ("released", "operated")) for digit in range(relays))
    return Circuit("", "", "", parts, digits, tuple(conductors), (), (), (), (), (), (), (), (), ())


def count_all(circuit: Circuit) -> States:
    """The engine: in which of all states does START lead to END? By diagrams where integers grow too wide."""
    radices = tuple(digit.radix for digit in circuit.digits)
    try:
        spaces = Spaces(radices)
        return Conduction(build_network(circuit, spaces), spaces).leads(START, END)
    except TooWide:
        spaces = Spaces(radices, INTEGERS)
        return Conduction(build_network(circuit, spaces), spaces).leads(START, END)


def search_one(circuit: Circuit, state: int) -> bool:
    """The plain way: a graph of the contacts closed in one state, and a search."""
    graph: nx.Graph[str] = nx.Graph()
    graph.add_nodes_from(circuit.parts)
    for conductor in circuit.conductors:
        closed = conductor.closed
        if closed is None or (state >> closed.digit & 1) in closed.values:
            graph.add_edge(conductor.tail, conductor.head)
    return nx.has_path(graph, START, END)


def measure(relays: int) -> Measured:
    """Both ways, in this process; the engine goes first, so that the peak is its own."""
    circuit = dense_circuit(relays)
    begun = time.perf_counter()
    leading = count_all(circuit)
    engine_seconds = time.perf_counter() - begun
    peak_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    states = sorted(random.Random(1).sample(range(2**relays), min(2**relays, MOST_SEARCHED)))
    begun = time.perf_counter()
    found = [search_one(circuit, state) for state in states]
    search_seconds = time.perf_counter() - begun
    for state, joined in zip(states, found, strict=True):
        if joined != ({digit: state >> digit & 1 for digit in range(relays)} in leading):
            raise SystemExit(f"{relays} relays: the two ways differ in state {state:b}")
    wide = leading.over(leading.spaces.of(range(relays)))
    return Measured(relays, engine_seconds, peak_mb, wide.bit_count(), len(states), search_seconds)


def measured_apart(relays: int) -> Measured:
    """The same in a process of its own, whose memory is nobody else's."""
    command = [sys.executable, "-m", "tests.benchmarks.conduction", str(relays)]
    return Measured(*json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout))


def wall_seconds(command: list[str], runs: int = 7) -> float:
    """The best of several runs of a whole process."""
    times = []
    for _ in range(runs):
        begun = time.perf_counter()
        subprocess.run(command, check=False, capture_output=True)
        times.append(time.perf_counter() - begun)
    return min(times)


def main() -> None:
    """Prints the table, then what a whole process takes."""
    print(f"{'relays':>8} {'states':>11} {'leading':>10} {'engine s':>9} {'peak MB':>8} {'plain s':>9} {'times':>8}")
    for relays in SIZES:
        one = measured_apart(relays)
        note = "" if one.searched == 2**relays else f"  extrapolated from {one.searched:,} states"
        print(
            f"{relays:>8} {2**relays:>11,} {one.leading:>10,} {one.engine_seconds:>9.4f} {one.peak_mb:>8.0f} "
            f"{one.plain_seconds:>9.1f} {one.plain_seconds / one.engine_seconds:>8,.0f}{note}"
        )
    imports = wall_seconds([sys.executable, "-c", "import lark, networkx, rich"])
    print(f"\nimporting lark, networkx and rich, whole process: {imports:.3f} s")
    for plan in ("examples/right/drawbridge.plan",):
        seconds = wall_seconds([sys.executable, "-m", "circuitcheck", "check", plan])
        print(f"checking {plan}, whole process: {seconds:.3f} s, {seconds / imports:.2f} times that")


if __name__ == "__main__":
    if len(sys.argv) > 1:
        print(json.dumps(measure(int(sys.argv[1]))))
    else:
        main()

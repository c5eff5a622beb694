"""Can relays make their moves in the order of a story, each within its time?

The moments at which a story's events happen are unknowns. Each is no earlier than the one before; a relay moves between
its least and its greatest time after it began to, and while it wants to, no more than its greatest time goes by.
Such differences can be met together unless some of them add up to less than nothing round a ring (Bellman and Ford; the
textbook's "difference constraints", Cormen et al., Introduction to Algorithms, from memory).
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import gcd, inf, lcm
from typing import NamedTuple

import networkx as nx

from circuitcheck.circuit.model import Circuit, Load
from tests.judge.devices import Wish
from tests.judge.one_state import State
from tests.judge.steps import Judge, with_value

Seconds = tuple[float, float]


def in_time(judge: Judge, passed: Sequence[State], told: set[int]) -> bool:
    """Can the states follow one another, as far as the digits in `told` go? Others' times are left out of account."""
    moments: nx.DiGraph[int] = nx.DiGraph()
    for number in range(len(passed) - 1):
        at_most(moments, number, number + 1, 0.0)
    begun: dict[Wish, int] = {}
    for number, state in enumerate(passed):
        wanted = [wish for wish in judge.judged(state).wishes if not wish.timed and wish.digit in told]
        begun = {wish: begun.get(wish, number) for wish in wanted}
        for wish, since in begun.items():
            least, greatest = seconds_of(judge.circuit, wish)
            after = passed[min(number + 1, len(passed) - 1)]
            if after[wish.digit] == wish.end:
                at_most(moments, since, number + 1, -least)
                at_most(moments, number + 1, since, greatest)
            elif number + 1 < len(passed):
                at_most(moments, number + 1, since, greatest)
    return not nx.negative_edge_cycle(moments)


def at_most(moments: "nx.DiGraph[int]", later: int, earlier: int, seconds: float) -> None:
    """The moment `later` comes at most so long after `earlier`; negative seconds: at least so long before it."""
    known = moments.get_edge_data(earlier, later, {"weight": inf})["weight"]
    if seconds < inf:
        moments.add_edge(earlier, later, weight=min(known, seconds))


def seconds_of(circuit: Circuit, wish: Wish) -> Seconds:
    """The least and the greatest time of a relay's move; a diode right across its coil makes releasing slower."""
    relay = next(one for one in circuit.relays if one.digit == wish.digit)
    if wish.end == 1:
        return relay.operate_seconds or (0.0, inf)
    slowed = relay.reset is None and has_diode(circuit, circuit.loads[relay.coil.load])
    return (relay.release_with_diode_seconds if slowed else relay.release_seconds) or (0.0, inf)


def has_diode(circuit: Circuit, coil: Load) -> bool:
    """Do wires alone join a diode to both ends of the coil?"""
    wires: nx.Graph[str] = nx.Graph([(one.tail, one.head) for one in circuit.conductors if one.kind == "wire"])
    wires.add_nodes_from((coil.a, coil.b))
    one_end, other_end = (nx.node_connected_component(wires, end) for end in (coil.a, coil.b))
    return any(
        (one.a in one_end and one.b in other_end) or (one.b in one_end and one.a in other_end)
        for one in circuit.suppressors
        if one.kind == "diode"
    )


class Ticking(NamedTuple):
    """A state, and for how many ticks each relay has been wanting its move."""

    state: State
    waited: tuple[tuple[Wish, int], ...]


def ticked_through(judge: Judge, state: State) -> "nx.DiGraph[Ticking]":
    """All that relays alone lead to from a state in which all begin to wait at once, tick by tick.

    A tick is what divides all times of the plan. As every bound is itself allowed, whatever order is possible at all is
    possible with all moves at whole ticks (Henzinger, Manna and Pnueli, "What good are digital clocks?", ICALP 1992;
    from memory).
    """
    tick = tick_of(judge.circuit)
    begun = Ticking(state, tuple((wish, 0) for wish in quick_wishes(judge, state)))
    graph: nx.DiGraph[Ticking] = nx.DiGraph()
    graph.add_node(begun)
    waiting = [begun]
    while waiting:
        here = waiting.pop()
        for there in ticked_on(judge, here, tick):
            if there not in graph:
                waiting.append(there)
            graph.add_edge(here, there)
    return graph


def ticked_on(judge: Judge, here: Ticking, tick: Fraction) -> Iterator[Ticking]:
    """One relay moves, or one tick goes by."""
    later = []
    for wish, ticks in here.waited:
        least, greatest = (one / tick if one < inf else inf for one in exactly(seconds_of(judge.circuit, wish)))
        if ticks >= least:
            there = with_value(here.state, wish.digit, wish.end)
            before = dict(here.waited)
            yield Ticking(there, tuple((one, before.get(one, 0)) for one in quick_wishes(judge, there)))
        if greatest == inf:
            later.append((wish, min(ticks + 1, int(least))))
        elif ticks + 1 <= greatest:
            later.append((wish, ticks + 1))
    if here.waited and len(later) == len(here.waited):
        yield Ticking(here.state, tuple(later))


def quick_wishes(judge: Judge, state: State) -> list[Wish]:
    """What relays want, timers' times left out."""
    return [wish for wish in judge.judged(state).wishes if not wish.timed]


def tick_of(circuit: Circuit) -> Fraction:
    """The longest time that divides all times of the plan, in seconds; one where it gives none."""
    given = (one.operate_seconds for one in circuit.relays), (one.release_seconds for one in circuit.relays)
    spans = [*given[0], *given[1], *(one.release_with_diode_seconds for one in circuit.relays)]
    times = [Fraction(one).limit_denominator(10**6) for span in spans if span for one in span if one]
    common = lcm(*(one.denominator for one in times))
    return Fraction(gcd(*(int(one * common) for one in times)) or 1, common)


def exactly(seconds: Seconds) -> tuple[Fraction | float, Fraction | float]:
    """Decimal fractions as they are written; no limit stays none."""
    least, greatest = (one if one == inf else Fraction(one).limit_denominator(10**6) for one in seconds)
    return least, greatest

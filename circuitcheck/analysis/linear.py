"""Direct-current volts of a small network of resistors, diodes and sources.

What sources hold together is one body: its nets stand at fixed volts above its level, so only levels are unknown.
Bodies are taken out one by one, each replaced by what it joined (star-mesh transformation): it only ever adds
conductances, so nothing cancels, and a body that hardly anything holds is as exact as the others.

A diode is off, or stands for its drop (0.7 V) with its resistance (10 milliohm) in series; which it is, is found by
turning round all diodes that contradict their own volts, a few times, and then only the first of them each time until
none does (Murty's least-index rule for a linear complementarity problem, which ends for such networks).
"""

from collections.abc import Iterable
from typing import Final, NamedTuple

DIODE_VOLTS: Final = 0.7
DIODE_OHMS: Final = 0.01
LEAK_SIEMENS: Final = 1e-12
"""Joins every body to ground, so that one which nothing else holds has volts at all."""
SLACK: Final = 1e-9
BOLD_ATTEMPTS: Final = 4
"""How often all diodes that are wrong are turned round at once: nearly always right, but it might go round for ever."""


class Branch(NamedTuple):
    """Between nets `a` and `b`.

    kind: "resistor" (value in ohms), "diode" (from a to b, value in ohms once it conducts), "source" (value in volts,
    a its plus) or "current" (value in amps, which run from a to b whatever the volts).
    against: the volts that stand against current from a to b: a diode's drop, a turning motor's own, a supply's.
    """

    a: int
    b: int
    kind: str
    value: float
    against: float = 0.0

    def amps(self, volts: dict[int, float]) -> float:
        """What runs from a to b at these volts of the nets. Not for a source, whose current the others decide."""
        if self.kind == "current":
            return self.value
        driven = (volts[self.a] - volts[self.b] - self.against) / self.value
        return max(0.0, driven) if self.kind == "diode" else driven


def diode(a: int, b: int) -> Branch:
    """An ordinary silicon diode."""
    return Branch(a, b, "diode", DIODE_OHMS, DIODE_VOLTS)


class Held(NamedTuple):
    """A net's body, and its volts above that body's level."""

    body: int
    offset: float


class Pull(NamedTuple):
    """Bodies `a` and `b` joined by `siemens`; `amps` run from a to b when both are at the same level."""

    a: int
    b: int
    siemens: float
    amps: float


class NoOperatingPoint(Exception):
    """The network has no state in which all diodes agree with their volts: it is beyond this model."""


def solve_network(branches: list[Branch], joined: list[tuple[int, int]]) -> dict[int, float]:
    """The volts of each net against an arbitrary ground. `joined` nets are one. NoOperatingPoint where there is none.

    Sources that are joined to one another must agree: what is short-circuited has no volts to tell.
    """
    held = _held_together(branches, joined)
    diodes = [number for number, branch in enumerate(branches) if branch.kind == "diode"]
    conducting: set[int] = set()
    for attempt in range(BOLD_ATTEMPTS + 4 * 2 ** min(len(diodes), 12)):
        levels = levels_of(1 + max(one.body for one in held.values()), _pulls(branches, held, conducting))
        volts = {net: levels[one.body] + one.offset for net, one in held.items()}
        wrong = [number for number in diodes if _contradicts(branches[number], volts, number in conducting)]
        if not wrong:
            return volts
        conducting ^= set(wrong if attempt < BOLD_ATTEMPTS else wrong[:1])
    raise NoOperatingPoint


def _held_together(branches: list[Branch], joined: list[tuple[int, int]]) -> dict[int, Held]:
    beside: dict[int, list[tuple[int, float]]] = {net: [] for branch in branches for net in (branch.a, branch.b)}
    fixed = [(branch.a, branch.b, branch.value) for branch in branches if branch.kind == "source"]
    for high, low, volts in (*fixed, *((a, b, 0.0) for a, b in joined)):
        beside.setdefault(low, []).append((high, volts))
        beside.setdefault(high, []).append((low, -volts))
    held: dict[int, Held] = {}
    bodies = 0
    for first in beside:
        if first in held:
            continue
        held[first] = Held(bodies, 0.0)
        edge = [first]
        while edge:
            net = edge.pop()
            for other, volts in beside[net]:
                if other not in held:
                    held[other] = Held(bodies, held[net].offset + volts)
                    edge.append(other)
        bodies += 1
    return held


def _contradicts(one: Branch, volts: dict[int, float], conducts: bool) -> bool:
    across = volts[one.a] - volts[one.b] - one.against
    return across < -SLACK if conducts else across > SLACK


def _pulls(branches: list[Branch], held: dict[int, Held], conducting: set[int]) -> list[Pull]:
    found = []
    for number, branch in enumerate(branches):
        a, b = held[branch.a], held[branch.b]
        if a.body == b.body or branch.kind == "source" or (branch.kind == "diode" and number not in conducting):
            continue
        if branch.kind == "current":
            found.append(Pull(a.body, b.body, 0.0, branch.value))
        else:
            siemens = 1 / branch.value
            found.append(Pull(a.body, b.body, siemens, siemens * (a.offset - b.offset - branch.against)))
    return found


def levels_of(bodies: int, pulls: Iterable[Pull]) -> list[float]:
    """The level of each body. Each is taken out in turn, its leak and its current shared among those it was joined to;
    then they are put back in reverse, each at the mean of what holds it. Those with the fewest joins go first, so that
    wires and other stretches without branches take no time."""
    beside: list[dict[int, float]] = [{} for _ in range(bodies)]
    leak, amps, levels = [LEAK_SIEMENS] * bodies, [0.0] * bodies, [0.0] * bodies
    for pull in pulls:
        amps[pull.a] -= pull.amps
        amps[pull.b] += pull.amps
        if pull.siemens:
            beside[pull.a][pull.b] = beside[pull.a].get(pull.b, 0.0) + pull.siemens
            beside[pull.b][pull.a] = beside[pull.b].get(pull.a, 0.0) + pull.siemens
    order = sorted(range(bodies), key=lambda body: len(beside[body]))
    for body in order:
        joins = beside[body]
        total = leak[body] + sum(joins.values())
        for here, siemens in joins.items():
            share = siemens / total
            leak[here] += leak[body] * share
            amps[here] += amps[body] * share
            del beside[here][body]
            for there, other in joins.items():
                if there != here:
                    beside[here][there] = beside[here].get(there, 0.0) + share * other
    for body in reversed(order):
        held_by = sum(siemens * levels[other] for other, siemens in beside[body].items())
        levels[body] = (amps[body] + held_by) / (leak[body] + sum(beside[body].values()))
    return levels

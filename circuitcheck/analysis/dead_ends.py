"""Where no current can flow, however the contacts stand: what no loop through a supply runs through.

Take every conductor (contacts as closed) and every load and supply as a branch between two terminals. Two branches lie
on a common loop exactly when they belong to the same block of that graph, so a branch whose block has no supply is
dead. One depth-first search finds the blocks (Hopcroft and Tarjan 1973); it keeps its own stack, since a panel's rungs
hang on one another deeper than Python calls nest.

    cost: branches + terminals
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.wired import unwired_terminals, wired_terminals
from circuitcheck.circuit.model import Circuit, Terminal


class Branch(NamedTuple):
    """What current could run through between `a` and `b`. kind: a conductor's or a load's, or "supply"; part: "" for a
    wire."""

    a: Terminal
    b: Terminal
    kind: str
    part: str


class DeadEnd(NamedTuple):
    """Dead branches that hang together at terminals where nothing else flows.

    conductors: as indices of the circuit's. parts: those of which a load is dead, then those with no living branch at
    all, in the plan's order. unwired: some part in it lacks a wire that it must have.
    """

    conductors: tuple[int, ...]
    parts: tuple[str, ...]
    unwired: bool


def dead_ends(circuit: Circuit) -> tuple[DeadEnd, ...]:
    """Every dead end with a wire in it, in the plan's order."""
    branches = _branches(circuit)
    alive: set[int] = set()
    for block in blocks(branches):
        # A supply alone in its block has a terminal that leads nowhere.
        if len(block) > 1 and any(branches[number].kind == "supply" for number in block):
            alive.update(block)
    groups = _hanging_together(branches, alive)
    return tuple(
        _dead_end(circuit, branches, alive, group)
        for group in groups
        if any(branches[number].kind == "wire" for number in group)
    )


def blocks(branches: list[Branch]) -> Iterator[list[int]]:
    """The blocks of a graph: branches (by number) of which any two lie on a common loop, or one branch alone.

    order: in which terminals were first met. lowest: the first-met terminal that a terminal's own offspring lead back
    to. A branch down which nothing leads back above its upper end closes a block: all that was met since.
    """
    touching = _touching(branches)
    order: dict[Terminal, int] = {}
    lowest: dict[Terminal, int] = {}
    met: list[int] = []
    for start in touching:
        if start in order:
            continue
        order[start] = lowest[start] = len(order)
        trail = [(start, -1, 0, iter(touching[start]))]
        while trail:
            here, entry, size, rest = trail[-1]
            for number in rest:
                there = _other_end(branches[number], here)
                if there not in order:
                    trail.append((there, number, len(met), iter(touching[there])))
                    met.append(number)
                    order[there] = lowest[there] = len(order)
                    break
                if number != entry and order[there] <= order[here]:
                    met.append(number)
                    lowest[here] = min(lowest[here], order[there])
            else:
                trail.pop()
                if trail:
                    above = trail[-1][0]
                    lowest[above] = min(lowest[above], lowest[here])
                    if lowest[here] >= order[above]:
                        yield met[size:]
                        del met[size:]


def _branches(circuit: Circuit) -> list[Branch]:
    """The conductors first, so that their numbers are those of Circuit.conductors."""
    return [
        *(Branch(one.tail, one.head, one.kind, one.part) for one in circuit.conductors),
        *(Branch(one.a, one.b, one.kind, one.part) for one in circuit.loads),
        *(Branch(one.plus, one.minus, "supply", one.name) for one in circuit.supplies),
    ]


def _touching(branches: list[Branch]) -> dict[Terminal, list[int]]:
    touching: dict[Terminal, list[int]] = {}
    for number, branch in enumerate(branches):
        touching.setdefault(branch.a, []).append(number)
        touching.setdefault(branch.b, []).append(number)
    return touching


def _other_end(branch: Branch, here: Terminal) -> Terminal:
    return branch.b if branch.a == here else branch.a


def _hanging_together(branches: list[Branch], alive: set[int]) -> list[list[int]]:
    """The dead branches in groups that meet at terminals which no living branch touches."""
    # Terminals where no group goes on: living ones, and those that one has gone on from already.
    passed = {end for number in alive for end in (branches[number].a, branches[number].b)}
    touching = _touching(branches)
    left = dict.fromkeys(number for number in range(len(branches)) if number not in alive)
    groups = []
    while left:
        group = [next(iter(left))]
        del left[group[0]]
        for number in group:
            for end in {branches[number].a, branches[number].b} - passed:
                passed.add(end)
                for other in touching[end]:
                    if left.pop(other, 0) is None:
                        group.append(other)
        groups.append(sorted(group))
    return groups


def _dead_end(circuit: Circuit, branches: list[Branch], alive: set[int], group: list[int]) -> DeadEnd:
    dead = [branches[number] for number in group]
    conductors = len(circuit.conductors)
    loads = [branch.part for number, branch in zip(group, dead, strict=True) if number >= conductors]
    living = {branches[number].part for number in alive} | {""}
    parts = dict.fromkeys(loads + [branch.part for branch in dead if branch.part not in living])
    touched = {end for branch in dead for end in (branch.a, branch.b)}
    wired = wired_terminals(circuit)
    unwired = any(
        unwired_terminals(part, wired) for part in circuit.parts.values() if touched.intersection(part.terminals)
    )
    return DeadEnd(tuple(number for number in group if number < conductors), tuple(parts), unwired)

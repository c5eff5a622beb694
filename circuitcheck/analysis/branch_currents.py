"""The amps in every branch of a solved network, those through ideal wires and sources included.

Volts alone don't tell what an ideal wire carries. Kirchhoff's current law does, where ideal wires close no loop; in a
loop they share the current as if they were all alike. So the ideal wires are taken as equal resistors into which the
other branches' currents flow, and solved as a network of their own.
"""

from typing import Final, NamedTuple

from circuitcheck.analysis.linear import Branch, Pull, levels_of, solve_network

ALIKE_SIEMENS: Final = 1e3
"""What each ideal wire counts as among its like: so much that the solver's leak to ground takes nothing of it."""


class Solution(NamedTuple):
    """volts: of each net against an arbitrary ground. amps, joined_amps: of each branch and each joined pair, in order,
    positive from the first net to the second."""

    volts: dict[int, float]
    amps: list[float]
    joined_amps: list[float]


def solve_branches(branches: list[Branch], joined: list[tuple[int, int]]) -> Solution:
    """Volts and amps of a network; NoOperatingPoint where it has none."""
    volts = solve_network(branches, joined)
    amps = [0.0 if branch.kind == "source" else branch.amps(volts) for branch in branches]
    sources = [number for number, branch in enumerate(branches) if branch.kind == "source"]
    ideal = [*joined, *((branches[number].a, branches[number].b) for number in sources)]
    shared = _shared(branches, amps, ideal)
    for number, value in zip(sources, shared[len(joined) :], strict=True):
        amps[number] = value
    return Solution(volts, amps, shared[: len(joined)])


def _shared(branches: list[Branch], amps: list[float], ideal: list[tuple[int, int]]) -> list[float]:
    """The amps through each ideal pair, from what the other branches bring to its ends and take away."""
    bodies: dict[int, int] = {}
    for pair in ideal:
        for net in pair:
            bodies.setdefault(net, len(bodies))
    outside = len(bodies)
    pulls = [Pull(bodies[a], bodies[b], ALIKE_SIEMENS, 0.0) for a, b in ideal]
    for branch, value in zip(branches, amps, strict=True):
        ends = bodies.get(branch.a, outside), bodies.get(branch.b, outside)
        if value and ends != (outside, outside):
            pulls.append(Pull(*ends, 0.0, value))
    levels = levels_of(outside + 1, pulls)
    return [ALIKE_SIEMENS * (levels[bodies[a]] - levels[bodies[b]]) for a, b in ideal]

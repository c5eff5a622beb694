"""How long all single faults take: with the number of boxes on one supply, and behind one emergency stop.

Run: python -m tests.benchmarks.faults

A box is a reversing drive: a switch, two relays, a motor on an axis, a limit at each end. On one supply, each behind
its own fuse, boxes share nothing, so the time must grow with the number of faults and not with the states of all boxes
together. Behind one emergency stop with a start relay they hang together by the bus alone, so what grows is the faults,
and what it takes to find out that the bus parts them. Seconds are the processor's, for everything: listing the faults,
judging each, and the shortest story of each that does anything.
"""

import time
from math import prod
from typing import NamedTuple

from circuitcheck.analysis.faults.consequences import worst
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.shortest import shortest_story
from circuitcheck.analysis.faults.verdicts import Judge
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_text

BOX = """
fuse   F{n} 5 A
switch S{n} spdt positions raise off lower
relay  K{n}1 K{n}2 spdt coil 12 V 160 ohm with diode
axis   deck{n} from bottom to top
limit  TOP{n} spdt on deck{n} at top
limit  LOW{n} spdt on deck{n} at bottom
connector J{n} 2 ways
motor  M{n} 12 V stall 5 A drives deck{n} toward top
rung   {feed}, F{n}, S{n}.com
rung   S{n}.raise, TOP{n}.com-nc, K{n}1.A1-A2, PS.-
rung   S{n}.lower, LOW{n}.com-nc, K{n}2.A1-A2, PS.-
rung   F{n}.2, K{n}1.14
rung   F{n}.2, K{n}2.14
rung   K{n}1.12, PS.-
rung   K{n}2.12, PS.-
rung   K{n}1.11, J{n}.p1-s1, M{n}.+
rung   K{n}2.11, J{n}.p2-s2, M{n}.-
"""
STOP = """
fuse   F0 20 A
estop  ES1 nc
button START no
relay  K0 dpdt coil 12 V 160 ohm with diode
rung   PS.+, F0, ES1, ( START | K0.11-14 ), K0.A1-A2, PS.-
rung   ES1.12, K0.21
"""


class Measured(NamedTuple):
    """states: of all digits together. distinct: circuits that the faults leave, equal ones counted once."""

    relays: int
    faults: int
    distinct: int
    undecided: int
    states: int
    seconds: float


def boxes(count: int, behind_stop: bool) -> Circuit:
    """The circuit of so many boxes."""
    feed = "K0.24" if behind_stop else "PS.+"
    text = "supply PS 12 V 30 A\n" + (STOP if behind_stop else "")
    text += "".join(BOX.format(n=number, feed=feed) for number in range(1, count + 1))
    return build_circuit(read_text("boxes.plan", text))


def measured(circuit: Circuit) -> Measured:
    """All faults judged and told."""
    begun = time.process_time()
    judge, faults, undecided = Judge(circuit), single_faults(circuit), 0
    for fault in faults:
        verdict = judge.verdict(fault)
        undecided += verdict.undecided
        outcome = worst(list(verdict.outcomes))
        if outcome is not None:
            shortest_story(outcome.joint, outcome.states, outcome.begun)
    seconds = time.process_time() - begun
    states = prod(digit.radix for digit in circuit.digits)
    return Measured(len(circuit.relays), len(faults), judge.distinct, undecided, states, seconds)


def main() -> None:
    """Prints a table."""
    print(
        f"{'':22}{'relays':>7}{'faults':>7}{'distinct':>9}{'undecided':>10}{'states':>10}{'seconds':>9}{'ms/fault':>9}"
    )
    for behind_stop, counts in ((False, (1, 2, 4, 6, 12, 24)), (True, (1, 2, 3, 4, 5, 6))):
        for count in counts:
            one = measured(boxes(count, behind_stop))
            name = "behind one stop" if behind_stop else "each on its own fuse"
            print(
                f"{name:22}{one.relays:>7}{one.faults:>7}{one.distinct:>9}{one.undecided:>10}{one.states:>10.1e}"
                f"{one.seconds:>9.2f}{1000 * one.seconds / one.faults:>9.1f}",
                flush=True,
            )


if __name__ == "__main__":
    main()

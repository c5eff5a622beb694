"""A supply short-circuited by wires and contacts alone."""

from collections.abc import Iterator

from circuitcheck.analysis.changeover import not_usual, poles_apart, while_travelling
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.network import Net
from circuitcheck.analysis.rails import Short
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.model import Terminal

CHECK = Check(
    name="supply-short",
    severity="error",
    finds="Conductors alone join + and − of a supply, or two supplies of different voltage.",
    proves="In no combination do conductors alone join + and − of a supply, or supplies of different voltage, nor in "
    "any moment of a changeover.",
    why="Only the fuse, or the wire itself, then limits the current: wires burn and contacts weld.",
    how="In every combination it is asked whether closed contacts, wires and diodes in their direction lead from + to "
    "−; none is left out. Then the same with each pole of each moving relay at either side, or between, for itself "
    "(at both for make-before-break), and with hand switches between their positions.",
    remedy="Put the load between the two ends, or interlock the contacts so that they never close together.",
    limits="An arc that outlasts the gap of a contact, as it can at 24 V and more, is not looked at.",
    wrong=(
        Example(
            "a curtain switch that joins + to − when it is turned to close",
            """
            supply PS 12 V 10 A                                  #! supply-short
            fuse   F1 5 A
            switch S1 spdt positions open close
            lamp   L1 12 V 2 W
            rung   PS.+, F1, S1.com-open, L1, PS.-
            wire   S1.close PS.-
            """,
        ),
        Example(
            "two relays of a dragon's jaw, one for each direction: the slower one is still in when the other pulls in",
            """
            supply PS 12 V 10 A                                  #! supply-short
            fuse   F1 10 A
            switch S1 spdt positions open off close
            relay  K1 K2 no no coil 12 V 160 ohm with diode
            motor  M1 12 V stall 10 A may coast
            rung   PS.+, F1, S1.com-open, K1.A1-A2, PS.-
            rung   S1.close, K2.A1-A2, PS.-
            rung   F1.2, K1.13-14, M1.+, K2.23-24, PS.-
            rung   F1.2, K2.13-14, M1.-, K1.23-24, PS.-
            """,
        ),
        Example(
            "make-before-break relays join both sides for a moment, and the bridge with them",
            """
            supply PS 12 V 10 A                                  #! supply-short supply-short
            fuse   F1 10 A
            switch S1 spdt positions open off close
            relay  K1 K2 spdt make-before-break coil 12 V 160 ohm with diode
            motor  M1 12 V stall 10 A
            rung   PS.+, F1, S1.com-open, K1.A1-A2, PS.-
            rung   S1.close, K2.A1-A2, PS.-
            rung   M1.+, K1.11-14, F1.2
            rung   M1.-, K2.11-14, F1.2
            rung   K1.12, PS.-
            rung   K2.12, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "the same curtain switch with a lamp in the way",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 spdt positions open close
            lamp   L1 L2 12 V 2 W
            rung   PS.+, F1, S1.com-open, L1, PS.-
            rung   S1.close, L2, PS.-
            """,
        ),
        Example(
            "changeover relays, which can only join each side of the motor to one rail at a time",
            """
            supply PS 12 V 10 A
            fuse   F1 10 A
            switch S1 spdt positions open off close
            relay  K1 K2 spdt coil 12 V 160 ohm with diode
            motor  M1 12 V stall 10 A
            rung   PS.+, F1, S1.com-open, K1.A1-A2, PS.-
            rung   S1.close, K2.A1-A2, PS.-
            rung   M1.+, K1.11-14, F1.2
            rung   M1.-, K2.11-14, F1.2
            rung   K1.12, PS.-
            rung   K2.12, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each set of supplies that some state shorts, and for each that a changeover shorts."""
    for short in facts.shorts:
        yield _evidence(facts, short, "with {state}")._replace(states=short.states)
    apart = poles_apart(facts)
    for short in apart.facts.shorts:
        for travelling in while_travelling(apart, short.states):
            only_then = not_usual(facts, travelling, facts.shorted)
            if only_then.states:
                yield _evidence(facts, short, "for a moment, with {state}")._replace(travelling=only_then)


def _evidence(facts: Facts, short: Short, when: str) -> Evidence:
    supplies = [facts.circuit.supplies[number] for number in short.supplies]
    names = tuple(supply.name for supply in supplies)
    if len(supplies) == 1:
        what = f"{supplies[0].plus} and {supplies[0].minus} are joined with no load between them"
    else:
        what = f"{' and '.join(names)} are joined in one loop with no load in it"
    return Evidence(
        what=f"{what} {when}",
        parts=names,
        way=tuple((_terminal(facts, start), _terminal(facts, end)) for start, end in short.stretches),
    )


def _terminal(facts: Facts, net: Net) -> Terminal:
    """The supply terminal that a rail's net is known by."""
    ends = (end for supply in facts.circuit.supplies for end in (supply.plus, supply.minus))
    return next(end for end in ends if facts.conduction.network.nets[end] == net)

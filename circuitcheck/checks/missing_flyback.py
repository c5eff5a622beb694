"""A coil whose stored energy has nowhere to go when a contact cuts it."""

from collections.abc import Iterator
from typing import Final

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.network import Net, joined_terminals
from circuitcheck.analysis.states import States, union
from circuitcheck.analysis.supposed import never_closing
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.model import Load, Suppressor, Terminal

CHECK = Check(
    name="missing-flyback",
    severity="error",
    finds="A relay coil, a solenoid or another inductive load with no suppression directly across it, or with a diode "
    "the wrong way round, or with a diode where it is fed with both polarities.",
    proves="Every coil has suppression straight across it, and no diode there ever conducts while its coil is fed.",
    why="The contact that cuts the coil draws an arc of some hundred volts, which burns it and upsets whatever else "
    "is wired to it.",
    how="A suppressor counts where wires alone join it to both ends of the coil. A diode must have its cathode at the "
    "end that is positive in every state in which the coil is fed. A resistor counts up to 20 times the coil's ohms.",
    remedy="Put a diode straight across the coil, its cathode at the positive end, or a varistor, a TVS diode or a "
    "resistor where both polarities occur.",
    limits="Whether the suppressor is strong enough is not judged here, nor how much later the relay releases with it.",
    wrong=(
        Example(
            "the coil of a trapdoor latch, bare",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            solenoid Y1 12 V 12 ohm                              #! missing-flyback
            rung   PS.+, F1, PB1, Y1, PS.-
            """,
        ),
        Example(
            "a diode on the far side of the button doesn't help the coil when the button opens",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 spdt coil 12 V 160 ohm                     #! missing-flyback
            lamp   L1 12 V 2 W
            diode  D1
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.11-14, L1, PS.-
            rung   PS.-, D1, F1.2
            """,
        ),
        Example(
            "a diode the wrong way round shorts the supply as soon as the button is pressed",
            """
            supply PS 12 V 10 A                                  #! supply-short
            fuse   F1 3 A
            button PB1 no
            solenoid Y1 12 V 12 ohm                              #! missing-flyback
            diode  D1
            rung   PS.+, F1, PB1, Y1.1-2, PS.-
            rung   Y1.1, D1, Y1.2
            """,
        ),
    ),
    right=(
        Example(
            "the same latch with its diode, cathode at the positive end",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            solenoid Y1 12 V 12 ohm
            diode  D1
            rung   PS.+, F1, PB1, Y1.1-2, PS.-
            rung   Y1.2, D1, Y1.1
            """,
        ),
        Example(
            "a varistor has no polarity",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            solenoid Y1 12 V 12 ohm
            suppressor V1 varistor
            rung   PS.+, F1, PB1, Y1.1-2, PS.-
            rung   Y1.1, V1.1-2, Y1.2
            """,
        ),
    ),
)

MOST_OHMS: Final = 20.0
"""A resistor suppresses a coil up to this many times the coil's ohms."""


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each inductive load that nothing suppresses, or only a diode that can't."""
    nets = joined_terminals(facts.circuit, frozenset({"wire"}))
    between: dict[frozenset[Net], list[Suppressor]] = {}
    for one in facts.circuit.suppressors:
        between.setdefault(frozenset((nets[one.a], nets[one.b])), []).append(one)
    across = {
        number: between.get(frozenset((nets[load.a], nets[load.b])), []) if nets[load.a] != nets[load.b] else []
        for number, load in enumerate(facts.circuit.loads)
        if load.inductive
    }
    diodes = [one for suppressors in across.values() for one in suppressors if one.kind == "diode"]
    bare = _without(facts, diodes) if diodes else facts
    for number, suppressors in across.items():
        yield from _judge(facts, bare, number, suppressors, nets)


def _without(facts: Facts, diodes: list[Suppressor]) -> Facts:
    """The facts without these diodes: one that stands the wrong way round shorts the very states that show it."""
    ends = {(one.a, one.b) for one in diodes}
    gone = (
        number
        for number, one in enumerate(facts.circuit.conductors)
        if one.kind == "diode" and (one.tail, one.head) in ends
    )
    return facts.of_other(never_closing(facts.circuit, frozenset(gone)))


def _judge(
    facts: Facts, bare: Facts, number: int, across: list[Suppressor], nets: dict[Terminal, Net]
) -> Iterator[Evidence]:
    load = facts.circuit.loads[number]
    if any(one.kind != "diode" and _counts(one, load) for one in across):
        return
    forward = union((one.forward for one in bare.volts[number]), facts.spaces.none())
    backward = union((one.backward for one in bare.volts[number]), facts.spaces.none())
    diodes = [one for one in across if one.kind == "diode"]
    for diode in diodes:
        conducting = forward if nets[diode.a] == nets[load.a] else backward
        if conducting:
            what = _diode_words(diode, load, bool(forward and backward))
            yield _evidence(load, what, conducting, (diode.part,))
    if not diodes:
        fed = facts.reached(facts.possible(forward | backward))
        yield _evidence(load, _bare_words(load, across), fed or None, ())


def _diode_words(diode: Suppressor, load: Load, both: bool) -> str:
    if both:
        return (
            f"{diode.part} stands across {load.name} one way only, but {load.name} is fed with both polarities: "
            f"{diode.part} conducts with {{state}}"
        )
    return (
        f"{diode.part} stands across {load.name} the wrong way round: "
        f"it conducts while {load.name} is fed with {{state}}"
    )


def _evidence(load: Load, what: str, states: States | None, others: tuple[str, ...]) -> Evidence:
    names = tuple(dict.fromkeys((load.part, *others)))
    return Evidence(what=what, parts=names, states=states)


def _bare_words(load: Load, across: list[Suppressor]) -> str:
    weak = [one.part for one in across if one.kind == "resistor"]
    if weak:
        return f"{weak[0]} across {load.name} has more than {MOST_OHMS:g} times its ohms, too many to take its spike"
    return f"{load.name} has no diode or other suppressor straight across it"


def _counts(one: Suppressor, load: Load) -> bool:
    return one.kind != "resistor" or one.ohms <= MOST_OHMS * load.ohms

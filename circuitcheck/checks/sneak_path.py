"""Current that takes a way which nobody drew: back through a contact, or through two loads in a row."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.links import MOVING_KINDS, Link, links
from circuitcheck.analysis.straight_way import straight_way
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.model import Terminal
from circuitcheck.circuit.wording import listed

if TYPE_CHECKING:
    from circuitcheck.analysis.series import Hop, Sneak, Victim

CHECK = Check(
    name="sneak-path",
    severity="error",
    finds="A way for current that nobody meant: through two loads in series, or back through a contact into another "
    "line, with volts enough to matter.",
    proves="No load that has a drive of its own is worked through another load, or back through a contact.",
    why="The part acts though nothing calls it: a relay pulls in or stays in, a motor creeps, a lamp tells something "
    "false. Every part is sound, so no repair finds it.",
    how="The volts of every load that others feed are worked out in all states that operation reaches. A load with a "
    "drive of its own (conductors and resistors feed it in some combination) must not then operate, be held, turn or "
    "glow. And no contact may carry current one way for one load and the other way for another, where both have their "
    "current only over it.",
    remedy="Put a diode into each of the lines that meet, so that current can only leave them, or give each load a "
    "contact and a return of its own.",
    limits="Loads that are only ever fed in series (a lamp before a coil, two lamps in a row) count as meant so; loads "
    "that are switched between series and parallel on purpose are reported. Lines that a wire joins are one line: that "
    "a lamp should not light with another's switch is for a promise to say. Motors' leads carry current both ways on "
    "purpose and are left out as links. Volts that a turning motor makes are not looked at, nor wires that come "
    "loose.",
    wrong=(
        Example(
            "both limits lead to one coil, and one line feeds the other's relay back through them",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            switch S1 spdt positions raise off lower
            button LS1 nc
            button LS2 nc                                        #! sneak-path
            relay  K1 K2 no coil 12 V 160 ohm with diode
            lamp   L1 L2 12 V 2 W
            rung   PS.+, F1, S1.com
            rung   S1.raise, LS1, K1.A1-A2, PS.-
            rung   S1.lower, LS2, K1.A1
            rung   S1.lower, K2.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            rung   F1.2, K2.13-14, L2, PS.-
            """,
        ),
        Example(
            "the common return of two lamps is open: current goes on through the other lamp and a relay's coil",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            switch S1 S2 S3 spst positions off on
            relay  K1 no coil 12 V 1000 ohm with diode           #! sneak-path
            lamp   L1 L2 L3 12 V 2 W
            rung   PS.+, F1, S1, L1, S3, PS.-
            rung   F1.2, S2, K1.A1-A2, PS.-
            rung   S2.on, L2, L1.2
            rung   F1.2, K1.13-14, L3, PS.-
            """,
        ),
        Example(
            "a pilot lamp across an open limit keeps the relay in that the limit should drop",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            switch S1 spst positions off on
            button LS1 nc
            relay  K1 no coil 12 V 90 ohm with diode             #! sneak-path
            lamp   L1 12 V 0.5 W
            lamp   L2 12 V 2 W
            rung   PS.+, F1, S1, LS1, K1.A1-A2, PS.-
            rung   S1.on, L1, K1.A1
            rung   F1.2, K1.13-14, L2, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a diode in either line to the common coil",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            switch S1 spdt positions raise off lower
            button LS1 LS2 nc
            diode  D1 D2
            relay  K1 K2 no coil 12 V 160 ohm with diode
            lamp   L1 L2 12 V 2 W
            rung   PS.+, F1, S1.com
            rung   S1.raise, LS1, D1, K1.A1-A2, PS.-
            rung   S1.lower, LS2, D2, K1.A1
            rung   S1.lower, K2.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            rung   F1.2, K2.13-14, L2, PS.-
            """,
        ),
        Example(
            "two 6 V lamps in series, on purpose",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            switch S1 spst positions off on
            lamp   L1 L2 6 V 2 W
            rung   PS.+, F1, S1, L1, L2, PS.-
            """,
        ),
        Example(
            "a pilot lamp across the limit so small that the relay drops",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            switch S1 spst positions off on
            button LS1 nc
            relay  K1 no coil 12 V 90 ohm with diode
            lamp   L1 12 V 0.05 W
            lamp   L2 12 V 2 W
            rung   PS.+, F1, S1, LS1, K1.A1-A2, PS.-
            rung   S1.on, L1, K1.A1
            rung   F1.2, K1.13-14, L2, PS.-
            """,
        ),
        Example(
            "a resistor that spares the coil once it has pulled in",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no nc coil 12 V 90 ohm with diode
            resistor R1 90 ohm
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, ( K1.21-22 | R1 ), K1.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each link between two lines, and for each row of loads."""
    for link in links(facts):
        yield _back_through(facts, link)
    if any(feeding.open for feeding in facts.feeding):
        from circuitcheck.analysis.series import sneaks_in_series

        for sneak in sneaks_in_series(facts):
            yield _in_series(facts, sneak)


def _back_through(facts: Facts, link: Link) -> Evidence:
    circuit, nets = facts.circuit, facts.conduction.network.nets
    contacts = [
        one for one in circuit.conductors if {nets[one.tail], nets[one.head]} == {link.near, link.far} and one.closed
    ]
    loads = [circuit.loads[one.load] for one in link.back]
    fed = [circuit.loads[one.load] for one in link.onward]
    return Evidence(
        what=f"{listed([one.name for one in contacts], 'or')} carries current back to "
        f"{listed([one.name for one in loads], 'and')} with {{state}}; at other times it runs the other way, to "
        f"{listed([one.name for one in fed], 'and')}",
        parts=tuple(dict.fromkeys((*(one.part for one in contacts), *(one.part for one in (*loads, *fed))))),
        states=link.back[0].states,
        lasting=True,
        way=straight_way(facts, link.back[0].load),
        severity=_severity([one.kind for one in loads]),
    )


def _in_series(facts: Facts, sneak: "Sneak") -> Evidence:
    circuit = facts.circuit
    victims = sorted(sneak.victims, key=lambda one: circuit.loads[one.load].kind not in MOVING_KINDS)
    passed = [circuit.loads[load] for load in (*(hop.load for hop in sneak.hops), *sneak.beside)]
    beside = listed([circuit.loads[load].name for load in sneak.beside], "or")
    others = f" (or {beside} instead of one of them)" if beside else ""
    against = {victim.load for victim in victims if victim.against}
    return Evidence(
        what=f"{listed([_effect(facts, victim) for victim in victims], 'and')}, by current that runs through "
        f"{_chain(facts, sneak.hops, against)}, one after the other{others}, "
        "with {state}",
        parts=tuple(dict.fromkeys((*(circuit.loads[one.load].part for one in victims), *(one.part for one in passed)))),
        states=sneak.states,
        way=_stretches(facts, sneak),
        severity=_severity([circuit.loads[one.load].kind for one in victims]),
    )


def _chain(facts: Facts, hops: "tuple[Hop, ...]", against: set[int]) -> str:
    """ "L1, backward through L2 and K1"."""
    names = [facts.circuit.loads[hop.load].name for hop in hops]
    return listed(
        [f"backward through {name}" if hop.load in against else name for hop, name in zip(hops, names, strict=True)],
        "and",
    )


def _effect(facts: Facts, victim: "Victim") -> str:
    return f"{facts.circuit.loads[victim.load].name} {victim.effect} ({victim.volts:.2g} V)"


def _stretches(facts: Facts, sneak: "Sneak") -> tuple[tuple[Terminal, Terminal], ...]:
    """From each load to the next over conductors."""
    at, found = sneak.plus, []
    for hop in sneak.hops:
        load = facts.circuit.loads[hop.load]
        enter, leave = (load.b, load.a) if hop.backward else (load.a, load.b)
        found.append((at, enter))
        at = leave
    return (*found, (at, sneak.minus))


def _severity(kinds: list[str]) -> str:
    return "error" if any(kind in MOVING_KINDS for kind in kinds) else "warning"

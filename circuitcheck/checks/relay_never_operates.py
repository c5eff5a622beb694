"""A relay whose coil is fed, but never with volts enough."""

from collections.abc import Iterator

from circuitcheck.analysis.devices import coil_operates
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.unfed import fed_states
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.model import Coil

CHECK = Check(
    name="relay-never-operates",
    severity="warning",
    finds="A relay's coil that is fed through other loads only, and never gets the volts at which it operates.",
    proves="Every relay gets the volts at which it operates in some combination.",
    why="The relay stays released for ever, and what its contacts should do is never done.",
    how="The volts across the coil are worked out in every combination and held against its operate volts.",
    remedy="Feed the coil straight from + and −, or take another coil that suits the volts that are left for it.",
    limits="Coils with no volts at all are found by dead-part, those that conductors feed with too few volts by "
    "coil-volts-mismatch, and shorted ones by shorted-load; they are left out here. Motors in series are taken to "
    "stand still, and coils to be cold.",
    wrong=(
        Example(
            "a lamp in series with the coil takes most of the volts",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no coil 12 V 160 ohm with diode            #! relay-never-operates
            lamp   L1 12 V 0.5 W
            lamp   L2 12 V 2 W
            rung   PS.+, F1, PB1, L1, K1.A1-A2, PS.-
            rung   F1.2, K1.13-14, L2, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a small resistor in series leaves the coil volts enough",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no coil 12 V 160 ohm with diode
            resistor R1 10 ohm
            lamp   L2 12 V 2 W
            rung   PS.+, F1, PB1, R1, K1.A1-A2, PS.-
            rung   F1.2, K1.13-14, L2, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each coil that is fed but weakly."""
    for relay in facts.circuit.relays:
        for coil in relay.inputs:
            if not _too_weak(facts, coil):
                continue
            load = facts.circuit.loads[coil.load]
            subject = relay.name if coil is relay.coil else f"{relay.name}'s {load.kind} {load.name.rsplit('.', 1)[1]}"
            most = max(fed.volts for fed in facts.volts[coil.load])
            yield Evidence(
                what=f"{subject} never operates: of the {coil.operate_volts:g} V it needs it gets {most:.3g} V at most",
                parts=(relay.name,),
            )


def _too_weak(facts: Facts, coil: Coil) -> bool:
    """Has it volts somewhere, never enough, and never by conductors alone?"""
    if not fed_states(facts, coil.load) or facts.possible(coil_operates(coil, facts.volts, facts.spaces)):
        return False
    straight = facts.feeding[coil.load].fed
    return not any(facts.possible(states) for fed in straight for states in (fed.forward, fed.backward))

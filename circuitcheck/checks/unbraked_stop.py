"""A motor that stops, or should, with its armature open."""

from collections.abc import Iterator
from itertools import islice

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.states import States
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.model import Motor

CHECK = Check(
    name="unbraked-stop",
    severity="error",
    finds="A motor that is not driven and whose armature is not shorted on itself in both directions of current.",
    proves="Whenever a motor isn't driven, its armature is shorted on itself in both directions: switched off, at a "
    "limit, in an emergency stop, with the power gone.",
    why="An open motor runs on, a quarter turn or more, and breaks things or fingers; a shorted one stops at once.",
    how="Every state in which operation comes to rest is looked at: switched off, at a limit, stopped in an "
    "emergency, with the power gone. Conductors must lead from + to − of the motor and back.",
    remedy="Bring both ends of the motor to one rail when the relays are released, as the two normally closed "
    "contacts of a pair of changeover relays do.",
    limits="The milliseconds in which a contact travels don't count. A resistor across the armature doesn't count as "
    "a brake. How far the motor turns until it stands is not worked out here. `may coast` lets a motor run free.",
    wrong=(
        Example(
            "a lighthouse shutter reversed by a centre-off switch: at off the motor hangs open",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 dpdt positions open off close
            motor  M1 12 V stall 10 A                            #! unbraked-stop
            rung   PS.+, F1, S1.open1
            rung   F1.2, S1.close2
            rung   PS.-, S1.open2
            rung   PS.-, S1.close1
            rung   S1.com1, M1, S1.com2
            """,
        ),
        Example(
            "a diode instead of a contact brakes one direction of turning only",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button PB1 no
            diode  D1
            motor  M1 12 V stall 10 A                            #! unbraked-stop
            rung   PS.+, F1, PB1, M1, PS.-
            rung   M1.-, D1, M1.+
            """,
        ),
    ),
    right=(
        Example(
            "a relay that is released by the button, and by a power failure too, shorts the motor",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button PB1 no
            relay  K1 spdt coil 12 V 160 ohm with diode
            motor  M1 12 V stall 10 A
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.14-11, M1, PS.-
            wire   K1.12 PS.-
            """,
        ),
        Example(
            "a fan behind the curtain is said to be free to coast",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button PB1 no
            motor  M1 12 V stall 3 A may coast
            rung   PS.+, F1, PB1, M1, PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """For each motor that must brake: left open, braked one way only, and turned weakly through another load."""
    yield from facts.likeness.of_each("motor", lambda number: _of_motor(facts, number))


def _of_motor(facts: Facts, number: int) -> Iterator[Evidence]:
    motor, does = facts.circuit.motors[number], facts.motors[number]
    if not motor.may_coast:
        open_ended = f"{motor.name} is neither driven nor braked, so it runs on freely, with {{state}}"
        weak = f"{motor.name} is neither braked nor properly driven, but fed through a load, with {{state}}"
        loose = facts.reached_at_rest(facts.possible(does.loose) - facts.shorted)
        for states, what in ((does.coasting_within(loose), open_ended), (does.weak, weak)):
            yield from _lasting(facts, states, Evidence(what, (motor.name,)))
        yield from _braked_one_way(facts, motor, does.braked_one_way_within(loose))


def _braked_one_way(facts: Facts, motor: Motor, one_way: States) -> Iterator[Evidence]:
    """Turning forward a motor drives current out at its plus brush: the way that it finds from there to the other."""
    for brakes, runs in (("forward", "in reverse"), ("in reverse", "forward")):
        what = f"{motor.name} is braked only while it turns {brakes}, and runs on {runs}, with {{state}}"
        ways = [(one.plus, one.minus) if brakes == "forward" else (one.minus, one.plus) for one in motor.windings]
        found = (
            evidence
            for way in ways
            for evidence in _lasting(
                facts, facts.conduction.leads(*way, one_way), Evidence(what, (motor.name,), way=(way,))
            )
        )
        yield from islice(found, 1)


def _lasting(facts: Facts, states: States, evidence: Evidence) -> Iterator[Evidence]:
    lasting = facts.reached_at_rest(facts.possible(states) - facts.shorted)
    if lasting:
        yield evidence._replace(states=lasting, lasting=True)

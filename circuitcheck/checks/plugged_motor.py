"""A motor that is thrown into reverse while it runs."""

from collections.abc import Iterator

from circuitcheck.analysis.episodes import episodes_of, reversal
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.single_state import Story
from circuitcheck.analysis.vicinity import first_found, is_ruled_out
from circuitcheck.checks.check import Check, Evidence, Example

CHECK = Check(
    name="plugged-motor",
    severity="warning",
    finds="A motor that goes from one direction straight to the other, with no brake and no rest between.",
    proves="Between the two directions of every motor lies a brake or a rest.",
    why="Until it has slowed down, a reversed motor draws about twice its stall current, through every contact, wire "
    "and fuse on the way, and the gear takes the shock.",
    how="From every rest in which a motor is driven it is followed what one change of a control, a limit or the "
    "supply leads to until the next rest, with relays moving in every order; a state that brakes the motor ends the "
    "way.",
    remedy="Let the relays fall back between the directions, so that their resting contacts brake the motor, or give "
    "the selector an off position between the two.",
    limits="A hand that passes an off position is taken to rest there. How long a brake between lasts is not worked "
    "out: a few milliseconds slow a fast motor little.",
    wrong=(
        Example(
            "a curtain reversed by a two-position switch straight in the motor's leads",
            """
            supply PS 12 V 10 A
            fuse   F1 10 A
            switch S1 dpdt positions open close
            switch S2 spst positions off on
            motor  M1 12 V stall 8 A may coast                   #! plugged-motor
            rung   PS.+, F1, S2, ( S1.open1 | S1.close2 )
            rung   PS.-, ( S1.close1 | S1.open2 )
            rung   S1.com1, M1, S1.com2
            """,
        ),
    ),
    right=(
        Example(
            "the same curtain with an off position between",
            """
            supply PS 12 V 10 A
            fuse   F1 10 A
            switch S1 dpdt positions open off close
            motor  M1 12 V stall 8 A may coast
            rung   PS.+, F1, ( S1.open1 | S1.close2 )
            rung   PS.-, ( S1.close1 | S1.open2 )
            rung   S1.com1, M1, S1.com2
            """,
        ),
        Example(
            "two changeover relays: both must fall back or both be pulled in between, and either brakes",
            """
            supply PS 12 V 10 A
            fuse   F1 10 A
            switch S1 spdt positions open close
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
    """For each motor the shortest story that throws it from one direction into the other."""
    yield from facts.likeness.of_each("motor", lambda number: _of_motor(facts, number))


def _of_motor(facts: Facts, number: int) -> Iterator[Evidence]:
    motor, does = facts.circuit.motors[number], facts.motors[number]
    if does.forward and does.reverse:
        amps = 2 * max(motor.volts / facts.circuit.loads[winding.load].ohms for winding in motor.windings)
        shortest = _shortest_nearby(facts, number)
        if shortest:
            yield Evidence(
                what=f"{motor.name} is thrown from one direction into the other at speed, with no brake or rest "
                f"between: about {amps:g} A flow until it has slowed",
                parts=(motor.name,),
                story=shortest,
            )


def _shortest_nearby(facts: Facts, motor: int) -> Story | None:
    does = facts.motors[motor]
    digits = digits_of(does.driven, does.braked, facts.shorted)
    if is_ruled_out(facts, digits, lambda facts: _shortest(facts, motor)):
        return None
    return first_found(facts, digits, lambda facts: _shortest(facts, motor))


def _shortest(facts: Facts, motor: int) -> Story | None:
    """The shortest story in which a motor is thrown from either direction into the other, as far as facts look."""
    does = facts.motors[motor]
    barred = does.braked | facts.shorted
    episodes = episodes_of(facts, does.driven, barred)
    stories = (
        reversal(episodes, before, after, barred)
        for before, after in ((does.forward, does.reverse), (does.reverse, does.forward))
    )
    shortest = min((story for story in stories if story), key=lambda one: len(one.changes), default=None)
    return shortest.beside(facts.still) if shortest else None

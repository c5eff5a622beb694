"""A supply that a turning motor pushes above what it can stand."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.checks.check import Check, Evidence, Example

CHECK = Check(
    name="overvolted-supply",
    severity="warning",
    finds="A supply that a motor can push above the volts that it withstands, by joining it before it has slowed down "
    "from a drive with more volts; a note where a load's weight drives the motor.",
    proves="No motor that was driven with more volts is joined to a supply that takes no current back, at speed.",
    why="A turning motor is a generator. An electronic supply takes no current back: its volts rise until it trips or "
    "dies, and everything else on it gets them too.",
    how="A motor's own volts are those that drove it, less what its free current loses in its winding. With them the "
    "network around it is worked out for either direction of turning, in every rest that operation "
    "leads to with no brake between.",
    remedy="Put a diode between that supply and the motor's contact, or let a brake come between the two, or clamp the "
    "supply with a brake resistor.",
    limits="Only supplies with `withstands` or `limit` are looked at: a battery takes current back. Motors with two "
    "speeds are left out, since the plan doesn't tell what the other brush makes, and so are motors that are turned by "
    "hand. What other loads on the supply take of the current is not counted, nor how long it lasts. A gear that "
    "locks itself lets no weight drive the motor.",
    wrong=(
        Example(
            "a drum that is switched from fast on 24 V to slow on 12 V while it turns",
            """
            supply PS1 24 V 10 A
            supply PS2 12 V 10 A withstands 15 V
            fuse   F1 F2 5 A
            switch S1 spdt positions fast off slow
            motor  M1 24 V stall 10 A free 0.5 A 60 rpm may coast    #! overvolted-supply
            lamp   L1 12 V 2 W
            switch S2 spst positions off on
            wire   PS1.- PS2.-
            rung   PS1.+, F1, S1.fast
            rung   PS2.+, F2, S1.slow
            rung   S1.com, M1, PS1.-
            rung   F2.2, S2, L1, PS2.-
            """,
        ),
    ),
    right=(
        Example(
            "the same with a diode that lets the slow supply only give",
            """
            supply PS1 24 V 10 A
            supply PS2 12 V 10 A withstands 15 V
            fuse   F1 F2 5 A
            switch S1 spdt positions fast off slow
            diode  D1
            motor  M1 24 V stall 10 A free 0.5 A 60 rpm may coast
            lamp   L1 12 V 2 W
            switch S2 spst positions off on
            wire   PS1.- PS2.-
            rung   PS1.+, F1, S1.fast
            rung   PS2.+, F2, D1, S1.slow
            rung   S1.com, M1, PS1.-
            rung   F2.2, S2, L1, PS2.-
            """,
        ),
        Example(
            "one supply that limits its current: no motor makes more volts than drove it",
            """
            supply PS 12 V 10 A limit 12 A withstands 15 V
            fuse   F1 10 A
            switch S1 dpdt positions open off close
            motor  M1 12 V stall 8 A may coast
            rung   PS.+, F1, ( S1.open1 | S1.close2 )
            rung   PS.-, ( S1.close1 | S1.open2 )
            rung   S1.com1, M1, S1.com2
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each motor and each supply that it pushes too far."""
    if not any(one.limit_amps or one.withstands_volts for one in facts.circuit.supplies):
        return
    from circuitcheck.analysis.regeneration import overhauled_motors, pushed_supplies

    for pushed in pushed_supplies(facts):
        supply = pushed.supply
        stands = f"withstands {supply.withstands_volts:g} V" if supply.withstands_volts else "takes no current back"
        gives = f"{supply.name} gives {supply.volts:g} V and {stands}"
        yield Evidence(
            what=f"{pushed.motor.name}, still turning, pushes {supply.name} up to {pushed.volts:.3g} V; {gives}",
            parts=(pushed.motor.name, supply.name),
            story=pushed.story,
        )
    for one in overhauled_motors(facts):
        yield Evidence(
            what=f"{one.motor.name} may be driven by the weight of its load and then feeds up to {one.amps:.2g} A back "
            f"into {one.supply.name}, which takes none, with {{state}}",
            parts=(one.motor.name, one.supply.name),
            states=one.states,
            lasting=True,
            severity="note",
        )

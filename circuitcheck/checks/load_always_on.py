"""A load that nothing can switch off but the supply."""

from collections.abc import Iterator

from circuitcheck.analysis.devices import coil_operates
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.states import States
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.circuit.wording import listed

CHECK = Check(
    name="load-always-on",
    severity="warning",
    finds="A motor, coil, solenoid, lamp or buzzer that is on in every combination in which all supplies are on.",
    proves="No motor, coil, solenoid, lamp or buzzer is on whatever the contacts do.",
    why="A motor that nothing stops runs into its end and goes on; a coil that is always fed does nothing but warm up.",
    how="The states in which the load is on are held against all states with every supply on.",
    remedy="Put the contact that should switch it in its way, or take away the wire that leads past that contact.",
    limits="For a lamp or a buzzer it is a note, since a pilot light is meant to be so; for a motor it is an error.",
    wrong=(
        Example(
            "the motor of the dragon's jaw straight across the supply",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            motor  M1 12 V stall 5 A may coast                   #! load-always-on
            rung   PS.+, F1, M1, PS.-
            """,
        ),
        Example(
            "a coil on the wrong side of the button, and a pilot lamp",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 no
            relay  K1 no coil 12 V 160 ohm with diode            #! load-always-on
            lamp   L1 12 V 2 W
            lamp   L2 12 V 2 W                                   #! load-always-on
            rung   PS.+, F1, PB1, K1.13-14, L1, PS.-
            rung   F1.2, K1.A1-A2, PS.-
            rung   F1.2, L2, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a relay that the stop button of the lighthouse releases",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 nc
            relay  K1 no coil 12 V 160 ohm with diode
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.13-14, L1, PS.-
            """,
        ),
    ),
)

SEVERITY = {"motor": "error", "lamp": "note", "buzzer": "note"}


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each part that is always on."""
    circuit = facts.circuit
    powered = facts.spaces.all()
    for supply in circuit.supplies:
        powered = powered & facts.spaces.where(supply.digit, (1,))
    names = listed([supply.name for supply in circuit.supplies], "and")
    for part, kind, on in _on_states(facts):
        if not facts.possible(powered - on):
            yield Evidence(
                what=f"{part} is on whenever {names} {'is' if len(circuit.supplies) == 1 else 'are'}, and nothing else "
                "switches it",
                parts=(part,),
                severity=SEVERITY.get(kind, ""),
            )


def _on_states(facts: Facts) -> Iterator[tuple[str, str, States]]:
    """Part, kind of load, and the states in which it is driven, operating or lit."""
    circuit = facts.circuit
    for motor, does in zip(circuit.motors, facts.motors, strict=True):
        yield motor.name, "motor", does.driven
    for relay in circuit.relays:
        # A controlled timing relay is meant to have its supply at all times.
        working = relay.control or relay.coil
        yield relay.name, circuit.loads[working.load].kind, coil_operates(working, facts.volts, facts.spaces)
    for number, lamp in facts.lamps.items():
        yield circuit.loads[number].part, circuit.loads[number].kind, lamp.lit

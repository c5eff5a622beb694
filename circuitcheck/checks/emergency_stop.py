"""An emergency stop that doesn't stop, doesn't stay, or starts something when it is reset."""

from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.once_broken import once_broken
from circuitcheck.analysis.sequels import starts_after
from circuitcheck.analysis.states import States
from circuitcheck.analysis.stopping import driven_when_stuck, still_driven
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.checks.fault_words import after_opening
from circuitcheck.circuit.model import Motor

RELEASED, PRESSED = 0, 1

CHECK = Check(
    name="emergency-stop",
    severity="error",
    finds="An emergency stop that leaves a motor driven, in operation or with one relay stuck, that stops only by "
    "closing a contact, that doesn't stay pressed, or whose reset alone starts a motor.",
    proves="Every emergency stop takes the power from every motor at once (stop category 0 of IEC 60204-1), whatever "
    "the other controls, with any one relay stuck too; it stays pressed until it is reset, and reset alone starts "
    "nothing.",
    why="An emergency stop takes the power of what moves away at once or after a controlled stop (stop category 0 or "
    "1, IEC 60204-1 clause 9.2), and a fault must not keep it from that (directive 2006/42/EC annex I 1.2.1).",
    how="Every rest that operation reaches with the stop pressed is looked at; then again with each relay stuck where "
    "operation brings it, released or operated, and with each contact that the stop closes left open, from any moment "
    "on. Then the stop is reset, hands off all else, and relays, timers and motors are followed.",
    remedy="Lead the feed of the relays' contacts and of their coils through a normally closed contact of the stop, "
    "ahead of where they part, so that no relay stands between it and the motor.",
    limits="The stop's own contacts are taken to open; direct-opening ones part even when welded (IEC 60947-5-1 annex "
    "K). Controlled stops are not told from late ones, and category 2 not at all. Whether a motor brakes or runs out "
    "is for `unbraked-stop`.",
    wrong=(
        Example(
            "a hoist whose stop cuts only the coil of a relay that may weld",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            estop  ES1 nc                                        #! emergency-stop
            button PB1 no
            relay  K1 spdt coil 12 V 160 ohm with diode
            motor  M1 12 V stall 5 A
            rung   PS.+, F1, ES1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.14-11, M1, PS.-
            wire   K1.12 PS.-
            """,
        ),
        Example(
            "a stop that one of two ways to the motor goes round",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            estop  ES1 nc                                        #! emergency-stop
            button PB1 PB2 no
            motor  M1 12 V stall 5 A may coast
            rung   PS.+, F1, ES1, PB1, M1, PS.-
            rung   F1.2, PB2, M1.+
            """,
        ),
        Example(
            "a mill wheel that turns again as soon as its stop is reset",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            estop  ES1 nc                                        #! emergency-stop
            switch S1 spst positions off on
            motor  M1 12 V stall 5 A may coast
            rung   PS.+, F1, ES1, S1, M1, PS.-
            """,
        ),
        Example(
            "a stop that has to pull in a relay to stop",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            estop  ES1 no                                        #! emergency-stop emergency-stop
            button PB1 no
            relay  K1 spdt coil 12 V 160 ohm with diode
            motor  M1 12 V stall 5 A may coast                   #! wrong-way-pulse
            rung   PS.+, F1, ES1, K1.A1-A2, PS.-
            rung   F1.2, K1.11-12, PB1, M1, PS.-
            """,
        ),
        Example(
            "a stop that arms the drive as it is tried out, and whose wire breaks afterwards",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            estop  ES1 nc no                                     #! emergency-stop emergency-stop
            button START no
            relay  K1 no no coil 12 V 160 ohm with diode
            relay  K2 nc no coil 12 V 160 ohm with diode
            motor  M1 12 V stall 5 A may coast
            rung   PS.+, F1, ( K2.23-24 | K1.13-14 ), K1.A1-A2, PS.-
            rung   F1.2, ES1.23-24, K2.A1-A2, PS.-
            rung   F1.2, START, K1.23-24, K2.11-12, M1, PS.-
            """,
        ),
        Example(
            "a mushroom button that springs back",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            estop  ES1 nc momentary                              #! emergency-stop
            button PB1 no
            motor  M1 12 V stall 5 A may coast
            rung   PS.+, F1, ES1, PB1, M1, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a stop ahead of coil and contact, and a start button with a seal",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            estop  ES1 nc
            button START no
            relay  K1 dpdt coil 12 V 160 ohm with diode
            motor  M1 12 V stall 5 A
            rung   PS.+, F1, ES1, ( START | K1.11-14 ), K1.A1-A2, PS.-
            rung   ES1.12, K1.24-21, M1, PS.-
            wire   K1.22 PS.-
            """,
        ),
    ),
)


class Stop(NamedTuple):
    """An emergency stop, and the states in which it is pressed."""

    name: str
    digit: int
    pressed: States


def find(facts: Facts) -> Iterator[Evidence]:
    """For each emergency stop whether it stays, then for each motor whether it stops it and whether reset starts it."""
    for number, digit in enumerate(facts.circuit.digits):
        info = facts.circuit.parts.get(digit.name)
        if info is None or info.kind != "estop":
            continue
        stop = Stop(digit.name, number, facts.spaces.where(number, (PRESSED,)))
        if digit.springs_to is not None:
            yield _springing_back(stop)
        yield from facts.likeness.of_each("motor", partial(_of_motor, facts, stop), ("digit", number))


def _of_motor(facts: Facts, stop: Stop, index: int) -> Iterator[Evidence]:
    motor = facts.circuit.motors[index]
    yield from _driven_on(facts, stop, index, motor)
    yield from _starting(facts, stop, index, motor)


def _springing_back(stop: Stop) -> Evidence:
    return Evidence(
        what=f"{stop.name} springs back when it is let go",
        parts=(stop.name,),
        why="An emergency stop stays as it was pressed until somebody resets it on purpose (ISO 13850, from memory).",
        remedy="Fit one that latches, and is turned or pulled to reset it.",
    )


def _driven_on(facts: Facts, stop: Stop, index: int, motor: Motor) -> Iterator[Evidence]:
    """In operation, or else after one fault, or else for a time."""
    found = still_driven(facts, index, stop.pressed)
    evidence = Evidence("", (stop.name, motor.name), lasting=True)
    if found.lasting:
        what = f"{motor.name} is still driven while {stop.name} is pressed, with {{state}}"
        yield evidence._replace(what=what, states=found.lasting)
        return
    if found.passing:
        yield evidence._replace(
            what=f"{motor.name} is driven on after {stop.name} is pressed until a timing relay has run out, with "
            f"{{state}}: a stop of category 1 where that time serves to slow it down, of none where it doesn't",
            states=found.passing,
            severity="note",
            remedy="Where nothing has to be slowed down, cut the feed at once: stop category 0.",
        )
    yield from _driven_by_fault(facts, stop, index, evidence)


def _driven_by_fault(facts: Facts, stop: Stop, index: int, evidence: Evidence) -> Iterator[Evidence]:
    motor = facts.circuit.motors[index].name
    stuck = list(driven_when_stuck(facts, index, stop.pressed))
    if stuck:
        words = [one.sequel.incident.replace("sticks", "stuck") for one in stuck]
        others = f"; {' or '.join(words[1:])} does the same" if words[1:] else ""
        relays = dict.fromkeys(facts.circuit.relays[one.relay].name for one in stuck)
        yield evidence._replace(
            what=f"With {words[0]}, {motor} is still driven while {stop.name} is pressed{others}",
            parts=(stop.name, motor, *relays),
            states=stuck[0].states,
            sequel=stuck[0].sequel,
            severity="warning",
            reached="fault",
        )
    for number in facts.conductors_of.get(stop.name, ()):
        conductor = facts.circuit.conductors[number]
        if conductor.closed and PRESSED in conductor.closed.values:
            broken = once_broken(facts, number)
            lasting = still_driven(broken, index, broken.spaces.where(stop.digit, (PRESSED,))).lasting
            if lasting:
                yield evidence._replace(
                    what=f"{stop.name} stops {motor} only by closing {conductor.name}: with a wire to it broken, "
                    f"{motor} is driven on",
                    states=lasting,
                    severity="warning",
                    remedy=f"Let {stop.name} stop by opening: use a normally closed contact.",
                    reached="fault",
                    sequel=after_opening(facts, broken, lasting, conductor),
                )


def _starting(facts: Facts, stop: Stop, index: int, motor: Motor) -> Iterator[Evidence]:
    starts = starts_after(facts, index, frozenset({stop.digit}), RELEASED)
    if starts is not None:
        yield Evidence(
            what=f"{motor.name} starts as soon as {stop.name} is reset, with {{state}}",
            parts=(stop.name, motor.name),
            states=starts.states,
            sequel=starts.sequel,
            severity="warning",
            why="Resetting an emergency stop may only permit a start, not be one (ISO 13850 and directive 2006/42/EC "
            "annex I 1.2.4.3, from memory).",
            remedy="Let a relay seal itself in, as "
            f"`rung {stop.name}.12, ( START | K9.13-14 ), K9.A1-A2, PS.-`, and take the feed of the drive over another "
            "of its contacts: then nothing moves before START is pressed.",
        )

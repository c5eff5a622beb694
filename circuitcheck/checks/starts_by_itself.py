"""A motor that starts when power comes back, with no hand at a control."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.promised import promised_never_to_restart
from circuitcheck.analysis.sequels import Starts, starts_after
from circuitcheck.checks.check import Check, Evidence, Example

CHECK = Check(
    name="starts-by-itself",
    severity="note",
    finds="A motor that starts when power returns, with no control touched: a note where a control that stays as it is "
    "commands it, a warning where a latching relay remembers it.",
    proves="No motor starts by itself when power returns.",
    why="Whoever reached into the standing prop while the power was gone is caught by it: power that returns must not "
    "start a machine (IEC 60204-1 clause 7.5, from memory).",
    how="Power is let fail in every state that operation reaches, hands are taken off the controls that spring back, "
    "and every supply returns; relays, timers and motors are followed until they rest. Several supplies return in "
    "every order, one once all rests after another or sooner.",
    remedy="Let a relay seal itself in, as `rung F1.2, STOP, ( START | K9.13-14 ), K9.A1-A2, PS.-`, and take the feed "
    "of the drive over another of its contacts: it drops out with the power and waits for START. `never M1 starts "
    "when power returns` then holds the plan to it.",
    limits="A momentary switch without a position `off` is taken to stay where it is. Outside contacts stay as they "
    "are while power returns.",
    wrong=(
        Example(
            "a mill wheel behind a maintained switch",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 spst positions off on
            motor  M1 12 V stall 5 A may coast                   #! starts-by-itself
            rung   PS.+, F1, S1, M1, PS.-
            """,
        ),
        Example(
            "a latching relay that remembers that the mill wheel was turning",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button START no
            button STOP nc no
            relay  K1 no latching coil 12 V 240 ohm with diode
            motor  M1 12 V stall 5 A may coast                   #! starts-by-itself
            rung   PS.+, F1, START, K1.A1-A2, PS.-
            rung   F1.2, STOP.23-24, K1.B1-B2, PS.-
            rung   F1.2, STOP.11-12, K1.13-14, M1, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "a start button and a relay that seals itself in",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button START no
            button STOP nc
            relay  K1 dpdt coil 12 V 160 ohm with diode
            motor  M1 12 V stall 5 A
            rung   PS.+, F1, STOP, ( START | K1.11-14 ), K1.A1-A2, PS.-
            rung   F1.2, K1.24-21, M1, PS.-
            wire   K1.22 PS.-
            never  M1 starts when power returns
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each motor that starts, but for those whose promise not to is broken by it."""
    supplies = frozenset(supply.digit for supply in facts.circuit.supplies)
    promised = promised_never_to_restart(facts)
    for number, motor in enumerate(facts.circuit.motors):
        if motor.name not in promised:
            starts = starts_after(facts, number, supplies, 1)
            if starts is not None:
                yield _starting(facts, motor.name, starts)


def _starting(facts: Facts, motor: str, starts: Starts) -> Evidence:
    remembering = [facts.circuit.relays[number].name for number in starts.remembering]
    because = f"; {' and '.join(remembering)} remembers that it ran" if remembering else ""
    names = (motor, *remembering)
    return Evidence(
        what=f"{motor} starts by itself when power returns, with {{state}}{because}",
        parts=names,
        states=starts.states,
        sequel=starts.sequel,
        severity="warning" if remembering else "",
        remedy="Let a plain relay that seals itself in, or a hand that holds a button, command what moves; a latching "
        "relay is for lamps."
        if remembering
        else "",
    )

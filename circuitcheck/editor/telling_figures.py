"""What the figures of a plan come to, where the cursor is: what a wire or fuse carries, how far a motor turns on.

Texts are Markdown, as editors show it beside the cursor.
"""

from collections.abc import Iterator
from typing import Final

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.motion.answers import Sense, motion_of
from circuitcheck.analysis.motion.known import has_figures
from circuitcheck.checks.ranges_told import turn_words
from circuitcheck.circuit.model import Motor
from circuitcheck.editor.symbols import real_file
from circuitcheck.reports.motion_words import axis_of, cause_words, in_order, room_words, sense_words
from circuitcheck.reports.size_words import current, with_unit
from circuitcheck.sizing.sized import IDLE, Sized
from circuitcheck.sizing.sizing import Sizing

MOST_STOPS: Final = 4


def told_of_wire(sizing: Sizing, file: str, line: int) -> Iterator[str]:
    """The wires that a line of a file describes."""
    for wire in sizing.wires:
        place = sizing.circuit.conductors[wire.lying.info.conductor].place
        if place.line == line and real_file(place.file) == real_file(file):
            yield from _sized(wire.sized)


def told_of_fitting(sizing: Sizing, part: str) -> Iterator[str]:
    """A fuse or a supply."""
    for one in sizing.parts:
        if one.kind in ("fuse", "supply") and one.name == part:
            yield from _sized(one)


def told_of_stops(facts: Facts, name: str) -> Iterator[str]:
    """How far a motor turns on after its drive ends; nothing where the plan has no figures for it."""
    for number, motor in enumerate(facts.circuit.motors):
        if motor.name == name and has_figures(motor):
            for sense in motion_of(facts, number).senses:
                yield from _stops(facts, motor, sense)


def _sized(one: Sized) -> Iterator[str]:
    flowing = one.currents
    amps = [("runs", flowing.running), ("starts", flowing.starting), ("stalls", flowing.stalled)]
    shown = ", ".join(f"{word} {current(found)} A" for word, found in amps)
    shown = shown if one.verdict != IDLE else "carries no current"
    allowed = f"; may take {with_unit(one.can, one.unit)}: {one.verdict}" if one.can is not None else ""
    yield f"**{one.name}** {one.made} · {shown}{allowed}"
    yield from (f"- {remark}" for remark in one.remarks)
    if one.write:
        yield f"- To have it judged write {one.write}."


def _stops(facts: Facts, motor: Motor, sense: Sense) -> Iterator[str]:
    axis = axis_of(facts.circuit, motor)
    known = [stop for stop in in_order(sense.stops) if stop.whole is not None]
    if known:
        yield f"{sense_words(facts.circuit, motor, sense)}, turns on after"
    for stop in known[:MOST_STOPS]:
        if stop.whole is not None:
            room = room_words(axis, stop)
            turned = turn_words(axis, stop.whole.turns)
            yield f"- {cause_words(facts.circuit, stop)}: {turned}{f' ({room})' if room else ''}"
    if len(known) > MOST_STOPS:
        yield f"- and after {len(known) - MOST_STOPS} more: `circuitcheck motion`"

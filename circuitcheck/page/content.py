"""All that a live page holds of a plan, but for its pictures and the truth table's words."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.single_state import Change
from circuitcheck.checks.check import Finding
from circuitcheck.checks.narration import change_words, digit_words
from circuitcheck.circuit.model import Circuit, Digit
from circuitcheck.circuit.stories import usual_beginning
from circuitcheck.page.incidents import Incident, incident_of
from circuitcheck.page.lookups import Lookups, lookups_of
from circuitcheck.page.packed import PackedSet, Packing


class Between(NamedTuple):
    """A moment that a hand passes: its value, and the (from, to) whose way leads through it."""

    value: int
    moves: tuple[tuple[int, int], ...]


class DigitShown(NamedTuple):
    """A digit in words. positions: how many values it can rest at; values: moments after them. says: what is told when
    it goes to each value; stands: when it is there. label: what its part is for, in the plan's words."""

    name: str
    kind: str
    label: str
    positions: int
    values: tuple[str, ...]
    says: tuple[str, ...]
    stands: tuple[str, ...]
    between: tuple[Between, ...]
    springs_to: int | None


class LimitShown(NamedTuple):
    """A limit or cam switch: the digit of its axis, and the zones in which it is pressed."""

    name: str
    label: str
    digit: int
    zones: tuple[int, ...]


class Content(NamedTuple):
    """beginning: the state that the page begins in, as `trace` does. incidents: in the order of the findings.

    left_out: what the page can't tell, since it hangs on too many digits at once.
    """

    name: str
    label: str
    digits: tuple[DigitShown, ...]
    limits: tuple[LimitShown, ...]
    beginning: tuple[int, ...]
    lookups: Lookups
    incidents: tuple[Incident, ...]
    sets: tuple[PackedSet, ...]
    left_out: tuple[str, ...]


def page_content(facts: Facts, findings: tuple[Finding, ...]) -> Content:
    """What a page about this circuit holds."""
    circuit, packing = facts.circuit, Packing()
    lookups = lookups_of(facts, packing)
    beginning = usual_beginning(circuit)
    return Content(
        circuit.name,
        circuit.label,
        tuple(_digit(circuit, number, digit) for number, digit in enumerate(circuit.digits)),
        tuple(
            LimitShown(one.name, _label(circuit, one.name), circuit.axes[one.axis].digit, tuple(sorted(one.zones)))
            for one in circuit.limits
        ),
        tuple(beginning[number] for number in range(len(circuit.digits))),
        lookups,
        tuple(incident_of(circuit, finding) for finding in findings),
        tuple(packing.sets),
        tuple(_left_out(lookups)),
    )


def _left_out(lookups: Lookups) -> Iterator[str]:
    for relay in lookups.relays:
        if any(wish.wanted is None for wish in relay.wishes):
            yield f"when {relay.name} moves"
    if any(cone.endless is None for cone in lookups.cones):
        yield "which relays go round for ever"
    for device in lookups.devices:
        if any(word.states is None for word in device.words):
            yield f"what {device.name} does"
    for axis in lookups.axes:
        if any(way.driven is None for way in axis.ways):
            yield f"where {axis.name} goes"
    currents = [*lookups.loads, *((*one.fed, *one.braking, *one.shorting) for one in lookups.conductors)]
    if any(None in one for one in currents):
        yield "some of the current's ways"
    if any(short.states is None for short in lookups.shorts):
        yield "some shorts of a supply"


def _digit(circuit: Circuit, number: int, digit: Digit) -> DigitShown:
    values = range(digit.radix)
    return DigitShown(
        digit.name,
        digit.kind,
        _label(circuit, digit.name),
        len(digit.values),
        tuple(digit.value_name(value) for value in values),
        tuple(change_words(circuit, Change(number, 0, value, {})) for value in values),
        tuple(digit_words(circuit, number, value) for value in values),
        tuple(Between(value, tuple(sorted(one.moves))) for value, one in enumerate(digit.moments, len(digit.values))),
        digit.springs_to,
    )


def _label(circuit: Circuit, name: str) -> str:
    part = circuit.parts.get(name)
    return part.label if part else ""

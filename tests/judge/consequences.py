"""What a fault leads to, pair of states by pair of states: the second opinion on analysis/faults/consequences.py."""

from collections import defaultdict

from circuitcheck.circuit.model import Axis, Motor
from tests.judge.besides import DRIVEN, Besides, Pair
from tests.judge.claims import directions
from tests.judge.steps import with_value

Told = tuple[str, str, str]
"""A consequence, the motor or solenoid, the place."""


def consequences(boxes: Besides) -> dict[Told, set[Pair]]:
    """What a fault leads to, with every pair of states in which it is so."""
    circuit = boxes.sound.circuit
    found: dict[Told, set[Pair]] = defaultdict(set)
    shorted = {pair for pair in boxes.next if boxes.faulty.judged(pair.faulty).shorted}
    found["supply short", "", ""] = {pair for pair in shorted if not boxes.sound.judged(pair.faulty).shorted}
    lasting = boxes.lasting()
    for motor in circuit.motors:
        for forward in (True, False):
            for told, pairs in _wrongly_driven(boxes, lasting, motor, forward).items():
                found[told] |= pairs
        for pair in lasting:
            does, should = (words[motor.name] for words in boxes.words(pair))
            if should in DRIVEN and does not in DRIVEN:
                found["does nothing", motor.name, ""].add(pair)
            if should == "braked" and does not in ("braked", *DRIVEN) and not motor.may_coast:
                found["brake lost", motor.name, ""].add(pair)
        if motor.axis is not None and not circuit.axes[motor.axis].turning:
            for upward in (False, True):
                axis = circuit.axes[motor.axis]
                found["limit trapped", motor.name, axis.places[-1 if upward else 0]] = _trapped(
                    boxes, lasting, axis, upward
                )
    for number, load in enumerate(circuit.loads):
        if load.kind == "solenoid":
            found |= _of_solenoid(boxes, lasting, number)
    return {told: pairs for told, pairs in found.items() if pairs}


def _wrongly_driven(boxes: Besides, lasting: list[Pair], motor: Motor, forward: bool) -> dict[Told, set[Pair]]:
    way = "forward" if forward else "reverse"
    words = {
        pair: tuple(one[motor.name] for one in boxes.words(pair)) for pair in boxes.next if not boxes.is_shorted(pair)
    }
    wrong = {pair for pair in lasting if words[pair][0] == way and words[pair][1] != way}
    found: dict[Told, set[Pair]] = {}
    axis = None if motor.axis is None else boxes.sound.circuit.axes[motor.axis]
    if axis is not None and not axis.turning:
        upward = forward == motor.upward
        outside = {pair for pair in wrong if pair.faulty[axis.digit] in _end_zones(axis, upward)}
        found["overtravel", motor.name, axis.places[-1 if upward else 0]] = outside
        wrong -= outside
    rightly = {pair for pair in lasting if words[pair] == (way, way)}
    since = _ever_since(boxes, rightly, {pair for pair in words if words[pair][0] == way})
    since = {pair for pair in since & wrong if words[pair][1] not in DRIVEN}
    found["does not stop", motor.name, ""] = since
    found["unexpected motion", motor.name, ""] = wrong - since
    return found


def _ever_since(boxes: Besides, rightly: set[Pair], on: set[Pair]) -> set[Pair]:
    """What follows from some pairs without a rest at which it isn't on."""
    return boxes.onward(rightly, {pair for pair in boxes.next if pair in on or not boxes.is_at_rest(pair)})


def _of_solenoid(boxes: Besides, lasting: list[Pair], number: int) -> dict[Told, set[Pair]]:
    name = boxes.sound.circuit.loads[number].name
    lit = {
        pair: (boxes.sound.judged(pair.sound).lamps[number], boxes.faulty.judged(pair.faulty).lamps[number])
        for pair in boxes.next
        if not boxes.is_shorted(pair)
    }
    on = {pair for pair, (_, does) in lit.items() if does == "lit"}
    wrong = {pair for pair in lasting if pair in on and lit[pair][0] != "lit"}
    since = wrong & _ever_since(boxes, {pair for pair in lasting if lit[pair] == ("lit", "lit")}, on)
    return {
        ("does not stop", name, ""): since,
        ("unexpected motion", name, ""): wrong - since,
        ("does nothing", name, ""): {pair for pair in lasting if lit[pair][0] == "lit" and pair not in on},
    }


def _trapped(boxes: Besides, lasting: list[Pair], axis: Axis, upward: bool) -> set[Pair]:
    """The pairs at the end zone from which hands and relays lead to no drive inward, though they would beside it."""
    outward, inward = (1, -1) if upward else (-1, 1)
    last = axis.range[upward]
    ends = _end_zones(axis, upward)
    may_leave = any(
        state[axis.digit] in ends and inward in directions(boxes.sound, state, axis) for state in boxes.reached
    )
    arrives = any(
        there.faulty[axis.digit] == pair.faulty[axis.digit] + outward and pair.faulty[axis.digit] not in ends
        for pair, following in boxes.next.items()
        for there in following
    )
    if not may_leave or not arrives:
        return set()
    return {
        pair
        for pair in lasting
        if pair.faulty[axis.digit] == last
        and not _leads_to_a_move(boxes, pair, axis, inward)
        and _leads_to_a_move(boxes, _at_zone(pair, axis, last + inward), axis, inward)
    }


def _at_zone(pair: Pair, axis: Axis, zone: int) -> Pair:
    return Pair(with_value(pair.sound, axis.digit, zone), with_value(pair.faulty, axis.digit, zone))


def _leads_to_a_move(boxes: Besides, start: Pair, axis: Axis, way: int) -> bool:
    """Is the axis driven that way, now or after anything but a move of its own?"""
    found, waiting = {start}, [start]
    while waiting:
        pair = waiting.pop()
        for there in boxes.next.get(pair) or boxes.successors(pair):
            moved = there.faulty[axis.digit] - pair.faulty[axis.digit]
            if moved == way:
                return True
            if not moved and there not in found:
                found.add(there)
                waiting.append(there)
    return False


def _end_zones(axis: Axis, upward: bool) -> tuple[int, int]:
    first, last = axis.range
    return (last, last + 1) if upward else (0, first)

"""Writes certificates: the engine's own sets, put so that the verifier can confirm them one by one.

Each part is put before the verifier as soon as it is made. What the verifier can't follow (volts that loads in series
decide, orders that only relays' times exclude, sets too wide to be gone through one by one) is left out and named, so a
certificate that is written is one that holds.
"""

import json
from collections import deque
from collections.abc import Iterable
from typing import Any, Final

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.resting import Step, stepped
from circuitcheck.analysis.states import States, TooWide
from circuitcheck.analysis.travel import driven
from circuitcheck.certificates.verifier import (
    BRAKED,
    NO_SHORT,
    SETTLES,
    VERSION,
    WITHIN_ENDS,
    Box,
    Refused,
    Set,
    box_of,
    claims_of,
    confirm_no_short,
    confirm_operation,
    write_set,
)
from circuitcheck.circuit.model import Circuit

WIDEST: Final = 1 << 16
"""States of one set of conduction at most."""

ONE_BY_ONE: Final = 1 << 16
"""States of operation at most in all: the verifier looks at them one by one, each for about a millisecond."""

Json = dict[str, Any]


def certificate_of(circuit: Circuit) -> Json:
    """All that the verifier can confirm of a circuit, and the names of what else could be claimed."""
    facts = analyse(_without_times(circuit))
    conduction = _conduction(facts)
    operation = _operation(facts) if conduction else []
    claimed = {claim for entry in operation for claim in entry["claims"]} | ({NO_SHORT} if conduction else set())
    return {
        "version": VERSION,
        "conduction": conduction,
        "operation": operation,
        "without certificate": [claim for claim in claims_of(circuit) if claim not in claimed],
    }


def certificate_text(certificate: Json) -> str:
    """The file: one line for each set, so that it can be read and compared."""
    return json.dumps(certificate, indent=1, ensure_ascii=False) + "\n"


def _without_times(circuit: Circuit) -> Circuit:
    """The circuit with relays of which no time is known, so that every order of theirs counts."""
    return circuit._replace(
        relays=tuple(
            relay._replace(operate_seconds=None, release_seconds=None, release_with_diode_seconds=None)
            for relay in circuit.relays
        )
    )


def _conduction(facts: Facts) -> Json | None:
    """For each rail that current may come from, in which states it gets to each net; None where that can't be shown."""
    box = box_of(facts.circuit)
    sources = {plus for plus, _ in box.rails}
    if len(box.rails) > 1:
        sources |= {minus for _, minus in box.rails}
    try:
        found: Json = {}
        for source in sorted(sources):
            sets = _reached_from(facts.conduction, facts.conduction.network.nets[source])
            named = {box.net[terminal]: net for terminal, net in facts.conduction.network.nets.items()}
            found[source] = {name: _written(box, sets[net]) for name, net in sorted(named.items()) if net in sets}
        confirm_no_short(box, found)
    except (TooWide, Refused):
        return None
    return found if sources else None


def _written(box: Box, states: States) -> str:
    return write_set(box, Set(states.space.digits, states.integer))


def _reached_from(conduction: Conduction, source: int) -> dict[int, States]:
    """Where conductors lead to from a net, over rails and buses too. TooWide where a set takes too many digits."""
    leading: dict[int, list[tuple[int, States]]] = {}
    for piece in conduction.network.pieces:
        for way in piece.ways:
            leading.setdefault(way.tail, []).append((way.head, way.closed))
    reached = {source: conduction.spaces.all()}
    waiting = deque([source])
    while waiting:
        net = waiting.popleft()
        for onward, closed in leading.get(net, ()):
            before = reached.get(onward, conduction.spaces.none())
            after = (before | (reached[net] & closed)).tight()
            if after.space.size > WIDEST:
                raise TooWide(after.space.digits, after.space.size)
            if not after.same_as(before):
                reached[onward] = after
                waiting.append(onward)
    return reached


def _operation(facts: Facts) -> list[Json]:
    """The states reached over the digits of each question, the fewest first, with all claims that they show."""
    box, entries, room = box_of(facts.circuit), [], ONE_BY_ONE
    left, every = dict(_questions(facts)), claims_of(facts.circuit)
    for cone in sorted(set(_cones(facts, left)), key=len):
        behaviour = facts.behaviour(cone)
        many = behaviour.reached.bit_count()
        if many <= room:
            room -= many
            entry = _entry(box, behaviour)
            asked = [claim for claim, digits in left.items() if digits <= set(cone)]
            confirmed = _confirmed(box, entry, asked)
            if confirmed:
                entries.append(entry | {"claims": confirmed})
                left = {claim: digits for claim, digits in left.items() if claim not in confirmed}
    return sorted(entries, key=lambda entry: every.index(entry["claims"][0]))


def _cones(facts: Facts, questions: dict[str, frozenset[int]]) -> Iterable[tuple[int, ...]]:
    for digits in questions.values():
        try:
            yield facts.behaviour(digits).space.digits
        except TooWide:
            continue


def _confirmed(box: Box, entry: Json, claims: list[str]) -> list[str]:
    """Those of the claims that the entry shows."""
    try:
        return confirm_operation(box, entry | {"claims": claims}, True) if claims else []
    except Refused:
        halves = (claims[: len(claims) // 2], claims[len(claims) // 2 :])
        return [claim for half in halves for claim in _confirmed(box, entry, half)] if all(halves) else []


def _questions(facts: Facts) -> Iterable[tuple[str, frozenset[int]]]:
    """Each claim about operation, with the digits that it asks about, in the order in which claims are written."""
    circuit = facts.circuit
    for motor, does in zip(circuit.motors, facts.motors, strict=True):
        if not motor.may_coast:
            # Which of two brushes is fed decides nothing that `loose` could tell, but how the motor is braked.
            fed = (one for winding in motor.windings for one in facts.volts[winding.load])
            yield f"{motor.name} {BRAKED}", digits_of(does.loose, *(part for one in fed for part in one[1:]))
    for number, axis in enumerate(circuit.axes):
        if not axis.turning and any(motor.axis == number for motor in circuit.motors):
            ways = (driven(facts, number, direction) for direction in (1, -1))
            yield f"{axis.name} {WITHIN_ENDS}", digits_of(*ways) | {axis.digit}
    for relay in circuit.relays:
        yield f"{relay.name} {SETTLES}", frozenset({relay.digit})


def _entry(box: Box, behaviour: Behaviour) -> Json:
    """The states reached, and from which of them relays come to rest in 0, 1, 2 … moves."""
    space, left = behaviour.space, behaviour.reached
    quick = behaviour.course.steps.quick
    moving = 0
    for step in quick:
        moving |= step.allowed
    layers, layer = [], left & ~moving
    while layer:
        layers.append(write_set(box, Set(space.digits, layer)))
        left &= ~layer
        layer = left & _leading_into(behaviour, quick, layer)
    return {"reached": write_set(box, Set(space.digits, behaviour.reached)), "settling": layers}


def _leading_into(behaviour: Behaviour, steps: Iterable[Step], states: int) -> int:
    """The states from which one of the steps leads into these."""
    found = 0
    for step in steps:
        back = Step(step.digit, step.end, step.start, behaviour.space.full)
        into = states & behaviour.space.where(step.digit, (step.end,))
        found |= stepped(behaviour.space, into, back) & step.allowed
    return found

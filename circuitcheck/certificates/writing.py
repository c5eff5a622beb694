"""Writes certificates: the engine's own sets, put so that the verifier can confirm them one by one.

Each part is put before the verifier as soon as it is made. What the verifier can't follow (volts that loads in series
decide, orders that only relays' times exclude) is left out and named, so a certificate that is written is one that
holds.
"""

import json
from collections.abc import Iterable, Iterator
from typing import Any, Final

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.engines import answered
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.states import TooWide
from circuitcheck.analysis.travel import driven
from circuitcheck.certificates.verifier import (
    BRAKED,
    CALM,
    NO_SHORT,
    NO_SHORT_MOVING,
    SETTLES,
    VERSION,
    WITHIN_ENDS,
    Box,
    Net,
    Operation,
    Refused,
    Set,
    box_of,
    brought,
    claims_of,
    confirm_calm,
    confirm_no_short,
    confirm_operation,
    seal_of,
)
from circuitcheck.certificates.writing_sets import Writer, set_of
from circuitcheck.circuit.model import Circuit

Json = dict[str, Any]
Cannot: Final = (Refused, RecursionError)
"""What the verifier can't follow: facts that don't hold as it sees them, or sets of too many digits."""


def certificate_of(circuit: Circuit) -> Json:
    """All that the verifier can confirm of a circuit, and the names of what else could be claimed."""
    box = box_of(circuit)
    writer = Writer(box)
    conduction, moving = _conduction(box)
    calm = next((which for which in CALM if _is_calm(box, which)), None)
    operation = _operation(box, calm is not None, moving) if conduction else []
    proved = {claim for one in operation for claim in one.claims}
    proved |= {NO_SHORT, *([] if moving else [NO_SHORT_MOVING])} if conduction else set()
    proved |= {f"{relay.name} {SETTLES}" for relay in circuit.relays} if calm else set()
    certificate = {
        "version": VERSION,
        "sets": writer.lines,
        "conduction": conduction
        and {
            source: {net: writer.number(one) for net, one in sorted(sets.items())}
            for source, sets in conduction.items()
        },
        "calm": calm,
        "operation": [_written(box, writer, one) for one in operation],
        "without certificate": [claim for claim in claims_of(circuit) if claim not in proved],
    }
    return certificate | {"seal": seal_of(certificate)}


def certificate_text(certificate: Json) -> str:
    """The file: one line for each set, so that it can be read and compared."""
    return json.dumps(certificate, indent=1, ensure_ascii=False) + "\n"


def _written(box: Box, writer: Writer, one: Operation) -> Json:
    return {
        "over": [box.circuit.digits[digit].name for digit in sorted(one.digits)],
        "reached": writer.number(one.reached),
        "claims": one.claims,
    }


def _conduction(box: Box) -> tuple[dict[Net, dict[Net, Set]] | None, Set]:
    """For each rail that current may come from, in which states it gets to each net; None where that can't be shown.
    With the states in which a supply is shorted while relays move."""
    try:
        found = {source: _reached_from(box, source) for source in box.sources}
        return found or None, confirm_no_short(box, found)
    except Cannot:
        return None, 0


def _reached_from(box: Box, source: Net) -> dict[Net, Set]:
    """Where conductors lead to from a net: the least sets that solve the verifier's equations."""
    reached: dict[Net, Set] = {source: 1}
    waiting = [source]
    for net in waiting:
        for onward in {way.head for way in box.leaving.get(net, ())}:
            after = brought(box, source, onward, reached)
            if after != reached.get(onward, 0):
                reached[onward] = after
                waiting.append(onward)
    return reached


def _is_calm(box: Box, which: str) -> bool:
    try:
        confirm_calm(box, which)
    except Cannot:
        return False
    return True


def _operation(box: Box, calm: bool, moving: Set) -> list[Operation]:
    """The states reached over the digits of each question, the fewest first, with all claims that they show."""
    circuit = _without_times(box.circuit)
    return answered(circuit, lambda spaces: list(_operations(box, analyse(circuit, spaces), calm, moving)))


def _operations(box: Box, facts: Facts, calm: bool, moving: Set) -> Iterator[Operation]:
    left = dict(_questions(facts, calm, box.sets.digits(moving)))
    for cone, behaviour in sorted(_behaviours(facts, left).items(), key=lambda one: len(one[0])):
        asked = [claim for claim, digits in left.items() if digits <= cone]
        if asked and (claims := _confirmed(box, cone, set_of(box.sets, behaviour), asked, calm, moving)):
            yield Operation(cone, set_of(box.sets, behaviour), claims)
            left = {claim: digits for claim, digits in left.items() if claim not in claims}


def _without_times(circuit: Circuit) -> Circuit:
    """The circuit with relays of which no time is known, so that every order of theirs counts."""
    return circuit._replace(
        relays=tuple(
            relay._replace(operate_seconds=None, release_seconds=None, release_with_diode_seconds=None)
            for relay in circuit.relays
        )
    )


def _behaviours(facts: Facts, questions: dict[str, frozenset[int]]) -> dict[frozenset[int], Behaviour]:
    """How the digits of each question behave, or those near it where all are too many, by the digits that are
    followed."""
    found: dict[frozenset[int], Behaviour] = {}
    for digits in questions.values():
        here = facts.loosened if facts.is_wide(digits) else facts
        try:
            behaviour = (here or facts).behaviour(digits)
        except TooWide:
            continue
        found[frozenset(behaviour.space.digits)] = behaviour
    return found


def _confirmed(box: Box, cone: frozenset[int], reached: Set, claims: list[str], calm: bool, moving: Set) -> list[str]:
    """Those of the claims that the states reached show."""
    try:
        confirm_operation(box, Operation(cone, reached, claims), calm, moving)
    except Cannot:
        halves = (claims[: len(claims) // 2], claims[len(claims) // 2 :])
        return (
            [claim for half in halves for claim in _confirmed(box, cone, reached, half, calm, moving)]
            if all(halves)
            else []
        )
    return claims


def _questions(facts: Facts, calm: bool, shorted: frozenset[int]) -> Iterable[tuple[str, frozenset[int]]]:
    """Each claim about operation, with the digits that it asks about, in the order in which claims are written."""
    circuit = facts.circuit
    if shorted:
        yield NO_SHORT_MOVING, shorted
    for motor, does in zip(circuit.motors, facts.motors, strict=True):
        if not motor.may_coast:
            # Which of two brushes is fed decides nothing that `loose` could tell, but how the motor is braked.
            fed = (one for winding in motor.windings for one in facts.volts[winding.load])
            yield f"{motor.name} {BRAKED}", digits_of(does.loose, *(part for one in fed for part in one[1:]))
    for number, axis in enumerate(circuit.axes):
        if not axis.turning and any(motor.axis == number for motor in circuit.motors):
            ways = (driven(facts, number, direction) for direction in (1, -1))
            yield f"{axis.name} {WITHIN_ENDS}", digits_of(*ways) | {axis.digit}
    for relay in () if calm else circuit.relays:
        yield f"{relay.name} {SETTLES}", frozenset({relay.digit})

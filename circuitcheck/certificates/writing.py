"""Writes certificates: the engine's own sets, put so that the verifier can confirm them one by one.

Each part is put before the verifier as soon as it is made. What the verifier can't follow (volts that too many loads
together decide, orders that only relays' times exclude) is left out and named, so a certificate that is written is one
that holds.
"""

import json
from collections.abc import Iterable, Iterator
from contextlib import suppress
from functools import partial
from itertools import chain
from typing import Any, Final

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.engines import answered
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.influence import digits_of, has_more_states
from circuitcheck.analysis.parking import parked, standing_anyhow
from circuitcheck.analysis.states import TooWide
from circuitcheck.analysis.travel import digits_of_drive
from circuitcheck.certificates.verifier import (
    BRAKED,
    CALM,
    FOUND,
    NO_LINK,
    NO_PULSE,
    NO_SHORT_MOVING,
    NOT_PUSHED,
    NOT_THROWN,
    OWN_DRIVE,
    SETTLES,
    STAYS_STILL,
    TURNS_BACK,
    VERSION,
    WITHIN_ENDS,
    Box,
    Course,
    Net,
    Operation,
    Refused,
    Set,
    TooLarge,
    all_settle,
    as_written,
    box_of,
    broken,
    brought,
    claims_of,
    confirm_calm,
    confirm_no_short,
    confirm_operation,
    driven_apart,
    links,
    may_move,
    proved_at_once,
    pushing_motors,
    raising,
    seal_of,
    stops,
    switching,
    with_poles_placed,
    workable,
    worked,
)
from circuitcheck.certificates.writing_sets import Writer, set_of
from circuitcheck.circuit.model import Circuit

Json = dict[str, Any]
MANY: Final = 1 << 14
"""States from which on a way back is looked for with far relays parked: what is shown with few is shown soon."""

Cannot: Final = (Refused, RecursionError)
"""What the verifier can't follow: facts that don't hold as it sees them, or sets of too many digits."""


def certificate_of(circuit: Circuit) -> Json:
    """All that the verifier can confirm of a circuit, and the names of what else could be claimed."""
    box = box_of(circuit)
    writer = Writer(box)
    conduction, moving, proved_anyhow = conduction_of(box)
    calm = next((which for which in CALM if _is_calm(box, which)), None) if conduction else None
    operation = _operation(box, calm is not None, moving) if conduction else []
    proved = {*as_written(circuit), *proved_anyhow, *(claim for one in operation for claim in one.claims)}
    proved |= {*all_settle(circuit)} if calm else set()
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
    digits = box.circuit.digits
    return {
        "over": [digits[digit].name for digit in sorted(one.digits)],
        "still": {digits[digit].name: digits[digit].values[value] for digit, value in sorted(one.still.items())},
        "reached": writer.number(one.reached),
        "claims": one.claims,
    }


def conduction_of(box: Box) -> tuple[dict[Net, dict[Net, Set]] | None, Set, list[str]]:
    """For each rail that current may come from, in which states it gets to each net; None where that can't be shown.
    With the states in which a supply is shorted while relays move, and all that follows with no operation."""
    try:
        found = {source: _reached_from(box, source) for source in box.sources}
        moving = confirm_no_short(box, found)
        return (found, moving, proved_at_once(box, moving)) if found else (None, 0, [])
    except Cannot:
        return None, 0, []


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
    left = dict((*_questions(box, facts, calm, moving), *_questions_of_sneaks(box)))
    order = {claim: place for place, claim in enumerate(claims_of(box.circuit))}
    entries = sorted(_followed(box, facts, left), key=lambda one: len(one.digits))
    for entry in entries:
        claims = sorted((claim for claim in entry.claims if claim in left), key=order.__getitem__)
        if claims and (claims := _confirmed(box, entry._replace(claims=claims), calm, moving)):
            yield entry._replace(claims=claims)
            left = {claim: digits for claim, digits in left.items() if claim not in claims}


def _without_times(circuit: Circuit) -> Circuit:
    """The circuit with relays of which no time is known, so that every order of theirs counts."""
    return circuit._replace(
        relays=tuple(
            relay._replace(operate_seconds=None, release_seconds=None, release_with_diode_seconds=None)
            for relay in circuit.relays
        )
    )


def _followed(box: Box, facts: Facts, questions: dict[str, frozenset[int]]) -> Iterator[Operation]:
    """The states reached over the digits of each question, or near them where those are too many to follow, with all
    claims that may come of it."""
    cones: dict[frozenset[int], Behaviour] = {}
    for digits in questions.values():
        here = facts.loosened if facts.is_wide(digits) else facts
        with suppress(TooWide, *Cannot):
            behaviour = (here or facts).behaviour(digits)
            cones[frozenset(behaviour.space.digits)] = behaviour
    for cone, behaviour in cones.items():
        claims = [claim for claim, digits in questions.items() if digits <= cone]
        yield Operation(cone, {}, set_of(box.sets, behaviour.space, behaviour.reached), claims)
    for axis in facts.circuit.axes:
        claims = [claim for claim in (f"{axis.name} {TURNS_BACK}", f"{axis.name} {FOUND}") if claim in questions]
        digits = frozenset[int]().union(*(questions[claim] for claim in claims))
        many = has_more_states(digits, facts.depends_on, facts.spaces.radices, MANY)
        for here in parked(facts, {axis.digit}) if many else ():
            with suppress(TooWide, *Cannot):
                behaviour = standing_anyhow(here, {axis.digit})
                reached = set_of(box.sets, behaviour.space, behaviour.reached)
                yield Operation(frozenset(behaviour.space.digits), here.still, reached, claims)


def _confirmed(box: Box, entry: Operation, calm: bool, moving: Set) -> list[str]:
    """Those of the claims of an entry that hold there."""
    try:
        confirm_operation(box, entry, calm, moving)
    except TooLarge:
        return []
    except Cannot:
        left = entry._replace(claims=_holding(box, entry, calm, moving))
        return _confirmed(box, left, calm, moving) if 0 < len(left.claims) < len(entry.claims) else []
    return entry.claims


def _holding(box: Box, entry: Operation, calm: bool, moving: Set) -> list[str]:
    """The same, each looked at for itself; all else that the verifier asks of an entry is not."""
    found = []
    with suppress(*Cannot):
        course = Course(box, entry.digits, entry.still)
        claims = broken(course, calm, moving)
        for claim in (claim for claim in entry.claims if claim in claims):
            try:
                found += [] if claims[claim](entry.reached) else [claim]
            except Cannot:
                box.sets.begin_anew()
    return found


def _questions_of_sneaks(box: Box) -> Iterable[tuple[str, frozenset[int]]]:
    """Each claim about sneak paths that does not hold whatever operation gets to, with what it hangs on."""
    for number in workable(box.circuit):
        if any(states := worked(box, number)):
            yield f"{box.circuit.loads[number].name} {OWN_DRIVE}", _all_digits(box, states)
    for part in switching(box.circuit):
        if pairs := links(box, part):
            yield f"{part} {NO_LINK}", _all_digits(box, chain.from_iterable(pairs))


def _all_digits(box: Box, sets: Iterable[Set]) -> frozenset[int]:
    """All that some sets hang on."""
    return frozenset[int]().union(*map(box.sets.digits, sets))


def _questions(box: Box, facts: Facts, calm: bool, moving: Set) -> Iterable[tuple[str, frozenset[int]]]:
    """Each claim about operation, with the digits that it asks about, in the order in which claims are written."""
    circuit = facts.circuit
    if moving:
        yield NO_SHORT_MOVING, box.sets.digits(moving)
    for motor, does in zip(circuit.motors, facts.motors, strict=True):
        # Which of two brushes is fed decides nothing that `loose` could tell, but how the motor is braked.
        fed = (one for winding in motor.windings for one in facts.volts[winding.load])
        digits = digits_of(does.loose, does.braked, *(part for one in fed for part in one[1:]))
        if not motor.may_coast:
            yield f"{motor.name} {BRAKED}", digits
        yield f"{motor.name} {NOT_THROWN}", digits
        yield f"{motor.name} {STAYS_STILL}", digits
        moments = [with_poles_placed(box, one, partial(may_move, box)) for one in driven_apart(box, motor).values()]
        yield f"{motor.name} {NO_PULSE}", digits.union(*map(box.sets.digits, moments))
        if motor in pushing_motors(circuit):
            pushed = [box.sets.digits(one) for pair in raising(box, motor) for one in pair]
            yield f"{motor.name} {NOT_PUSHED}", digits.union(*pushed)
        for stop, obeys in stops(circuit).items():
            yield f"{motor.name} {obeys}", digits | {stop}
    possible = claims_of(circuit)
    for claim in (WITHIN_ENDS, TURNS_BACK, FOUND):
        for number, axis in enumerate(circuit.axes):
            if f"{axis.name} {claim}" in possible:
                yield f"{axis.name} {claim}", digits_of_drive(facts, number)
    for relay in () if calm else circuit.relays:
        yield f"{relay.name} {SETTLES}", frozenset({relay.digit})

"""Writes certificates: the engine's own sets, put so that the verifier can confirm them one by one.

Each part is put before the verifier as soon as it is made. What the verifier can't follow (volts that too many loads
together decide, orders that only relays' times exclude) is left out and named, so a certificate that is written is one
that holds.
"""

import json
from collections.abc import Callable, Hashable, Iterable, Iterator
from contextlib import suppress
from functools import partial
from itertools import chain
from math import prod
from typing import Any, Final

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.engines import answered
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.influence import cone_of_influence, digits_of, has_more_states
from circuitcheck.analysis.loosened import NEARBY
from circuitcheck.analysis.parking import parked, standing_anyhow
from circuitcheck.analysis.states import Spaces, TooWide
from circuitcheck.analysis.travel import digits_of_drive
from circuitcheck.certificates.verifier import (
    ALIKE,
    BRAKED,
    CALM,
    FOUND,
    GETS_THERE,
    NO_LINK,
    NO_PULSE,
    NO_SHORT_MOVING,
    NOT_AGAIN,
    NOT_PUSHED,
    NOT_THROWN,
    OWN_DRIVE,
    SETTLES,
    STAYS_STILL,
    STEADY,
    STOPS_IN_TIME,
    TURNS_BACK,
    VERSION,
    WITHIN_BROKEN,
    WITHIN_ENDS,
    Box,
    Course,
    Net,
    Operation,
    Refused,
    Set,
    TooLarge,
    all_alike,
    all_settle,
    as_written,
    box_of,
    broken,
    brought,
    claims_of,
    confirm_calm,
    confirm_lasting,
    confirm_no_short,
    confirm_reached,
    driven_apart,
    holds,
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
from circuitcheck.certificates.writing_promises import cases_of, promise_questions
from circuitcheck.certificates.writing_sets import Writer, set_of
from circuitcheck.circuit.model import Circuit, Relay

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
    operation, lasting = _operation(box, calm is not None, moving) if conduction else ([], False)
    proved = {*as_written(circuit), *proved_anyhow, *(claim for one in operation for claim in one.claims)}
    proved |= {*(all_settle(circuit) if calm else ()), *(all_alike(circuit) if lasting else ())}
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
        "lasting": lasting,
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
    box.sets.begin_anew()
    try:
        confirm_calm(box, which)
    except Cannot:
        return False
    return True


def _is_lasting(box: Box, entries: list[Operation]) -> bool:
    try:
        confirm_lasting(box, entries)
    except Cannot:
        return False
    return bool(box.circuit.relays)


def _operation(box: Box, calm: bool, moving: Set) -> tuple[list[Operation], bool]:
    """The states reached over the digits of each question, the fewest first, with all claims that they show; and
    whether what relays want lasts there. Where it doesn't, each is looked at for itself."""
    circuit = _without_times(box.circuit)

    def ask(spaces: Spaces) -> tuple[list[Operation], bool]:
        facts = analyse(circuit, spaces)
        questions = dict((*_questions(box, facts, calm, moving), *_questions_of_sneaks(box)))
        entries = list(_operations(box, facts, questions, calm, moving))
        if _is_lasting(box, entries):
            return entries, True
        alike = {f"{relay.name} {ALIKE}": _settling_with(facts, relay) for relay in circuit.relays}
        return [*entries, *_operations(box, facts, alike, calm, moving)], False

    return answered(circuit, ask)


def _operations(
    box: Box, facts: Facts, left: dict[str, frozenset[int]], calm: bool, moving: Set
) -> Iterator[Operation]:
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
    ways = _ways(facts.circuit, questions)
    far = {one: ways[one] for one in ways if has_more_states(one, facts.depends_on, facts.spaces.radices, MANY)}
    for cone, behaviour in cones.items():
        claims = [claim for claim, digits in questions.items() if digits <= cone]
        apart = [claim for claim in claims if any(claim in one for one in far.values())]
        reached = set_of(box.sets, behaviour.space, behaviour.reached)
        yield Operation(cone, {}, reached, [claim for claim in claims if claim not in apart])
        yield Operation(cone, {}, reached, apart)
    yield from _near(box, facts, far)
    yield from _settling(box, facts, {questions[claim] for claim in questions if claim.endswith(ALIKE)})


def _near(box: Box, facts: Facts, ways: dict[frozenset[int], list[str]]) -> Iterator[Operation]:
    """The states reached near some digits while what is far is parked, with what may come of it: one for all digits
    that are near each other."""
    found: dict[Hashable, Operation] = {}
    for asked, claims in ways.items():
        for here in parked(facts, asked):
            with suppress(TooWide, *Cannot):
                behaviour = standing_anyhow(here, asked)
                cone = frozenset(behaviour.space.digits)
                reached = set_of(box.sets, behaviour.space, behaviour.reached)
                key = (cone, *sorted(here.still.items()))
                found.setdefault(key, Operation(cone, here.still, reached, [])).claims.extend(claims)
    yield from found.values()


def _ways(circuit: Circuit, questions: dict[str, frozenset[int]]) -> dict[frozenset[int], list[str]]:
    """What is claimed of what somebody can bring about, by the digits that it is about."""
    found: dict[frozenset[int], list[str]] = {}
    about = [
        (f"{axis.name} {claim}", frozenset({axis.digit}))
        for axis in circuit.axes
        for claim in (GETS_THERE, TURNS_BACK, FOUND)
    ]
    about += [(claim, questions.get(claim, frozenset())) for claim, _ in cases_of(circuit)]
    for claim, digits in about:
        if claim in questions:
            found.setdefault(digits, []).append(claim)
    return found


def _settling(box: Box, facts: Facts, all_digits: Iterable[frozenset[int]]) -> Iterator[Operation]:
    """The states reached over digits among which relays settle, where all that has a say in axes is too much."""
    for digits in all_digits:
        many = has_more_states(digits, facts.depends_on, facts.spaces.radices, NEARBY)
        if many and prod(facts.spaces.radices[digit] for digit in digits) <= NEARBY:
            claims = [f"{one.name} {ALIKE}" for one in facts.circuit.relays if one.digit in digits]
            with suppress(TooLarge):
                box.sets.begin_anew()
                course = Course(box, digits, {})
                yield Operation(digits, {}, course.following(course.begun(), course.steps), claims)


def _confirmed(box: Box, entry: Operation, calm: bool, moving: Set) -> list[str]:
    """Those of the claims of an entry that hold there."""
    try:
        course = confirm_reached(box, entry, calm)
    except Cannot:
        return []
    asked = broken(course, calm, moving)
    return [claim for claim in entry.claims if claim in asked and _holds(course, asked[claim], entry.reached)]


def _holds(course: Course, find: Callable[[Set], Set], reached: Set) -> bool:
    try:
        return holds(course, find, reached)
    except Cannot:
        return False


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
    driving = list(zip(circuit.motors, facts.motors, strict=True))
    for motor, does in driving:
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
        for stop, claims in stops(circuit).items():
            yield from ((f"{motor.name} {claim}", digits | {stop}) for claim in claims)
    possible = claims_of(circuit)
    for motor, does in driving:
        if f"{motor.name} {STOPS_IN_TIME}" in possible and motor.axis is not None:
            yield f"{motor.name} {STOPS_IN_TIME}", digits_of_drive(facts, motor.axis) | digits_of(does.braked)
    for claim in (WITHIN_ENDS, WITHIN_BROKEN, NOT_AGAIN, STEADY, GETS_THERE, TURNS_BACK, FOUND):
        for number, axis in enumerate(circuit.axes):
            if f"{axis.name} {claim}" in possible:
                held = [does.braked for one, does in driving if one.axis == number and claim == NOT_AGAIN]
                yield f"{axis.name} {claim}", digits_of_drive(facts, number) | digits_of(*held)
    for relay in () if calm else circuit.relays:
        yield f"{relay.name} {SETTLES}", frozenset({relay.digit})
    yield from promise_questions(facts)


def _settling_with(facts: Facts, relay: Relay) -> frozenset[int]:
    """The digits that have a say in a relay, or in relays that have one, while all axes stand still; and supplies."""
    relays = {one.digit for one in facts.circuit.relays}
    supplies = {supply.digit for supply in facts.circuit.supplies}
    says = cone_of_influence((relay.digit,), lambda digit: facts.depends_on(digit) if digit in relays else frozenset())
    return says | supplies

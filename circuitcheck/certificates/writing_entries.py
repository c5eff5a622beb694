"""What is followed of operation: the engine's reached sets over the digits of each question, shown to the verifier."""

from collections.abc import Callable, Hashable, Iterable, Iterator
from contextlib import suppress
from math import prod
from typing import Final

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.engines import answered
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.influence import has_more_states
from circuitcheck.analysis.loosened import NEARBY
from circuitcheck.analysis.parking import parked, standing_anyhow
from circuitcheck.analysis.states import Spaces, TooWide
from circuitcheck.certificates.verifier import (
    ALIKE,
    FOUND,
    GETS_THERE,
    TURNS_BACK,
    Box,
    Course,
    Operation,
    Refused,
    Set,
    TooLarge,
    broken,
    claims_of,
    confirm_lasting,
    confirm_reached,
    holds,
)
from circuitcheck.certificates.writing_promises import cases_of
from circuitcheck.certificates.writing_questions import questions_of, questions_of_sneaks, settling_with
from circuitcheck.certificates.writing_sets import set_of
from circuitcheck.circuit.model import Circuit

MANY: Final = 1 << 14
"""States from which on a way back is looked for with far relays parked: what is shown with few is shown soon."""

Cannot: Final = (Refused, RecursionError)
"""What the verifier can't follow: facts that don't hold as it sees them, or sets of too many digits."""


def operation_of(box: Box, calm: bool, moving: Set) -> tuple[list[Operation], bool]:
    """The states reached over the digits of each question, the fewest first, with all claims that they show; and
    whether what relays want lasts there. Where it doesn't, each is looked at for itself."""
    circuit = _without_times(box.circuit)

    def ask(spaces: Spaces) -> tuple[list[Operation], bool]:
        facts = analyse(circuit, spaces)
        questions = dict((*questions_of(box, facts, calm, moving), *questions_of_sneaks(box)))
        entries = list(_operations(box, facts, questions, calm, moving))
        if _is_lasting(box, entries):
            return entries, True
        alike = {f"{relay.name} {ALIKE}": settling_with(facts, relay) for relay in circuit.relays}
        return [*entries, *_operations(box, facts, alike, calm, moving)], False

    with suppress(TooWide):
        return answered(circuit, ask)
    return [], False


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


def _is_lasting(box: Box, entries: list[Operation]) -> bool:
    try:
        confirm_lasting(box, entries)
    except Cannot:
        return False
    return bool(box.circuit.relays)

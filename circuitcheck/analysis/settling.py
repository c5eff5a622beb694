"""Where the order matters in which relays move: several ends, or none.

After a change (a control or an axis moved, power came, a timer ran out) relays settle one at a time, in every order
that their times leave, while all else stands still. From one such start a short may be met; else it may come to a group
of states that relays never leave; else it is order-dependent if there are several ends.

The question is asked relay by relay, each with what has a say in it. What follows from a race or a group already told,
such as a relay that copies another, is not told again.

For few states none of this is dear; for many it is seldom asked: where no relay ever takes away what another one wants,
whatever moves first, all orders end alike.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.course import at_every_clock, at_some_clock
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.resting import leading_to, stepped
from circuitcheck.analysis.rounds import joined
from circuitcheck.analysis.states import Space, States
from circuitcheck.analysis.vicinity import nearby

Words = dict[str, States]
"""What is said of one thing in which states; words exclude each other."""


class Unsettled(NamedTuple):
    """Something that order decides, or that never ends. All sets are bits over the space of the behaviour's course.

    facts: as far as it was looked at. relays: by number, those between which it lies. name, words: of what differs;
    starts: the states after one change from which it may end in several of the words. For what never ends, words is
    empty: starts lead to `ends`, a group. everywhere: the same, reached in operation or not. leading: for each word,
    what may lead to an end with it.
    """

    facts: Facts
    relays: tuple[int, ...]
    behaviour: Behaviour
    name: str
    words: tuple[str, ...]
    starts: int
    everywhere: int
    ends: int
    leading: tuple[int, ...] = ()

    def over(self, bits: int) -> int:
        """Bits over the digits alone, whatever the clock."""
        return at_some_clock(self.behaviour.space, bits)


def races(facts: Facts) -> Iterator[Unsettled]:
    """Where relays that want to move at once decide by their quickness how it ends: one for each group of relays that
    hang on each other. Told of a motor if one ends up otherwise, else of a lamp, else of the relays."""
    told: list[States] = []
    for relays in _cones(facts):
        race = _race_nearby(facts, relays, told) or _race(facts, relays, told)
        if race is not None:
            told.append(race.facts.spaces.over(race.behaviour.space, race.over(race.starts)))
            yield next(_concerned(race.facts, told[-1], race.relays), race)


def _race_nearby(facts: Facts, relays: tuple[int, ...], told: list[States]) -> Unsettled | None:
    """One between some of the relays while others are parked, where too much has a say in them to follow it. It has to
    concern a motor, which is worse than what concerns a lamp or relays, and might be overlooked with others parked."""

    def ask(here: Facts) -> Unsettled | None:
        near = here.cone(asked)
        race = _race(here, tuple(one for one in relays if facts.circuit.relays[one].digit in near), told)
        if race is None:
            return None
        starts = facts.spaces.over(race.behaviour.space, race.over(race.starts))
        concerned = next(_concerned(here, starts, race.relays), race)
        return concerned if any(motor.name == concerned.name for motor in facts.circuit.motors) else None

    for relay in relays:
        asked = {facts.circuit.relays[relay].digit}
        for race in nearby(facts, asked, ask):
            if race is not None:
                return race
    return None


def _race(facts: Facts, relays: tuple[int, ...], told: list[States]) -> Unsettled | None:
    behaviour = facts.behaviour(facts.circuit.relays[relay].digit for relay in relays)
    if len(behaviour.course.steps.quick) < 2 or not _contested(behaviour):
        return None
    found = [_ending_apart(facts, behaviour, (relay,), *_relay_words(facts, relay)) for relay in relays]
    starts = joined(one.starts for one in found) & ~_among(behaviour, told)
    differing = (one._replace(starts=one.starts & starts, relays=relays) for one in found if one.starts & starts)
    return next(differing, None)


def endless(facts: Facts) -> Iterator[Unsettled]:
    """Relays that go on for ever while all else stands still: one for each group that hang on each other."""
    if facts.is_wide(relay.digit for relay in facts.circuit.relays) and facts.loosened is not None:
        # What can be loosened has been shown to come to rest from everywhere.
        return
    told: list[States] = []
    for relays in _cones(facts):
        behaviour = facts.behaviour(facts.circuit.relays[relay].digit for relay in relays)
        groups = _groups(behaviour) & ~_among(behaviour, told)
        own = {facts.circuit.relays[relay].digit for relay in relays}
        if not any(step.allowed & groups for step in behaviour.course.steps.quick if step.digit in own):
            continue
        told.append(facts.spaces.over(behaviour.space, at_some_clock(behaviour.space, groups)))
        steps = behaviour.course.steps
        everywhere = leading_to(steps.space, list(steps.quick), groups) & ~_shorting(behaviour)
        reached = everywhere & _starts(behaviour)
        if reached:
            name = facts.circuit.relays[relays[0]].name
            yield Unsettled(facts, relays, behaviour, name, (), reached, everywhere, groups)


def _cones(facts: Facts) -> list[tuple[int, ...]]:
    """Relays that hang on each other, those in which less has a say first."""
    cones: dict[tuple[int, ...], list[int]] = {}
    for number, relay in enumerate(facts.circuit.relays):
        if any(move.wanted for move in facts.moves[number]):
            cones.setdefault(tuple(sorted(facts.cone((relay.digit,)))), []).append(number)
    return [tuple(cones[digits]) for digits in sorted(cones, key=len)]


def _contested(behaviour: Behaviour) -> bool:
    """Does a relay's move ever end another one's wish to move?"""
    steps = behaviour.course.steps
    if steps.space is not behaviour.space:
        return True
    for step in steps.quick:
        for other in steps.quick:
            both = step.allowed & other.allowed & behaviour.reached
            if both and step.digit != other.digit and stepped(steps.space, both, step) & ~other.allowed:
                return True
    return False


def _starts(behaviour: Behaviour) -> int:
    """Power-up, and the states after one change, with every switch at a position."""
    course = behaviour.course
    space = course.steps.space
    changed = joined(stepped(space, course.reached, step) for step in course.steps.others)
    return (course.rounds[0] | changed) & at_every_clock(space, behaviour.space, behaviour.proper)


def _shorting(behaviour: Behaviour) -> int:
    steps = behaviour.course.steps
    return leading_to(steps.space, list(steps.quick), steps.shorted)


def _standing(behaviour: Behaviour) -> int:
    """The states in which no relay wants to move but timers."""
    steps = behaviour.course.steps
    standing = steps.space.full ^ steps.shorted
    for step in steps.quick:
        standing &= ~step.allowed
    return standing & behaviour.course.reached if steps.space is not behaviour.space else standing


def _groups(behaviour: Behaviour) -> int:
    steps = behaviour.course.steps
    moving = joined(step.allowed for step in steps.quick)
    return steps.rest & moving


def _ending_apart(facts: Facts, behaviour: Behaviour, relays: tuple[int, ...], name: str, words: Words) -> Unsettled:
    """From where it may end in several of the words, with no short and no group that is never left on any way."""
    steps = behaviour.course.steps
    quick, standing = list(steps.quick), _standing(behaviour)
    leading = []
    for states in words.values():
        here = at_every_clock(steps.space, behaviour.space, states.over(behaviour.space))
        leading.append(leading_to(steps.space, quick, standing & here))
    apart, once = 0, 0
    for one in leading:
        apart |= once & one
        once |= one
    if apart:
        apart &= ~leading_to(steps.space, quick, steps.shorted | _groups(behaviour))
    starts = apart & _starts(behaviour) if apart else 0
    return Unsettled(facts, relays, behaviour, name, tuple(words), starts, apart, standing, tuple(leading))


def _concerned(facts: Facts, race: States, relays: tuple[int, ...]) -> Iterator[Unsettled]:
    """The motors, then the lamps, that end up otherwise by how a race ends."""
    racing = {facts.circuit.relays[relay].digit for relay in relays}
    for name, words in _motors_and_lamps(facts, racing):
        behaviour = facts.behaviour(digits_of(*words.values()) | set(race.space.digits))
        found = _ending_apart(facts, behaviour, relays, name, words)
        starts = found.starts & _among(behaviour, [race])
        if starts:
            yield found._replace(starts=starts)


def _motors_and_lamps(facts: Facts, racing: set[int]) -> Iterator[tuple[str, Words]]:
    """What those motors and lamps do in which all these digits have a say; motors in detail where relays stand."""
    for motor, does in zip(facts.circuit.motors, facts.motors, strict=True):
        behaviour = facts.behaviour(digits_of(does.driven, does.braked, does.loose))
        if racing <= set(behaviour.space.digits):
            ends = at_some_clock(behaviour.space, _standing(behaviour) & behaviour.course.reached)
            yield motor.name, does.named(facts.spaces.over(behaviour.space, ends))
    for number, lamp in facts.lamps.items():
        words = dict(lamp._asdict())
        if racing <= set(facts.behaviour(digits_of(*words.values())).space.digits):
            yield facts.circuit.loads[number].name, words


def _relay_words(facts: Facts, relay: int) -> tuple[str, Words]:
    digit = facts.circuit.relays[relay].digit
    values = facts.circuit.digits[digit].values
    return facts.circuit.relays[relay].name, {
        word: facts.spaces.where(digit, (value,)) for value, word in enumerate(values)
    }


def _among(behaviour: Behaviour, told: Sequence[States]) -> int:
    """The states in which any of the sets holds, of those that stand over digits of this behaviour."""
    digits = set(behaviour.space.digits)
    inside = [one.over(behaviour.space) for one in told if set(one.space.digits) <= digits]
    space: Space = behaviour.course.steps.space
    return at_every_clock(space, behaviour.space, joined(inside)) if inside else 0

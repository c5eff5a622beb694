"""What is so only while contacts travel.

A bad thing is given as a set of states of the circuit with its poles apart. It can come about in a state s of operation
if the poles of relays that may move there are anyhow, and all others stand where their relay is. Several may be moving
together: those that want to go from the same state, as far as their times leave it open which goes first. A pole that
sticks a millisecond behind its twin is covered by that; one that still sticks when a relay has operated that it set
going itself is not.

    for each set of moving relays:   s = those states in which each of them may go, and for some position of their
                                     poles, with all other poles where they belong, the bad thing is so

Poles of a force-guided relay lag as well, but never so far that opposite ones are closed together.

A hand switch between its positions needs nothing of the kind: operation passes through those moments as they are.
"""

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from circuitcheck.analysis.course import at_every_clock, at_some_clock
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.poles_apart import PolesApart, as_guided, side
from circuitcheck.analysis.rounds import joined
from circuitcheck.analysis.single_state import State
from circuitcheck.analysis.states import States, union


class Apart(NamedTuple):
    """The circuit of `base` with its poles apart, and the facts of that circuit."""

    base: Facts
    poles: PolesApart
    facts: Facts


class Travelling(NamedTuple):
    """In `states` of operation, while these relays (by number) are moving, some position of their poles is in `bad`.

    Without relays: while a hand switch is between two positions. `bad` stands over the circuit with poles apart.
    """

    relays: tuple[int, ...]
    states: States
    bad: States
    apart: Apart


def poles_apart(facts: Facts) -> Apart:
    """The facts with every pole for itself."""
    return Apart(facts, *facts.with_poles_apart)


def while_travelling(apart: Apart, bad: States, passed: States | None = None) -> Iterator[Travelling]:
    """When `bad` comes about during a changeover: for each smallest set of relays that it takes, fewest first.

    passed: the states between two rests that count, and that relays move from; None for all that operation passes, of
    which those with no relay moving count only while a hand switch is between positions (at rest nothing travels).
    Cost: 2 ** (relays whose poles matter).
    """
    bad = as_guided(apart.poles, bad)
    relay_of = apart.poles.relay_of
    concerned = sorted({relay_of[digit] for digit in bad.space.digits if digit in relay_of})
    told: list[set[int]] = []
    for many in range(len(concerned) + 1):
        for moving in combinations(concerned, many):
            if any(fewer <= set(moving) for fewer in told):
                continue
            states = _with_poles_placed(apart, bad, concerned, moving)
            if states:
                states = _moving_together(apart.base, states, moving, passed)
            if states:
                told += [set(moving)] if moving else []
                yield Travelling(moving, states.tight(), bad, apart)


def not_usual(facts: Facts, travelling: Travelling, usual: States) -> Travelling:
    """The same but for states that a move which is going on brings from, or to, a usual one."""
    near = _near(facts, usual, travelling.relays)
    return travelling._replace(states=(travelling.states - near).tight())


def place_poles(travelling: Travelling, state: State) -> State:
    """The state with a digit for each pole added: poles that stand still at their relay's side, the others so that the
    bad thing is so (the first position of theirs that makes it so)."""
    facts, bad = travelling.apart.base, travelling.bad
    relay_of = travelling.apart.poles.relay_of
    placed = state | {pole: side(state[facts.circuit.relays[relay].digit]) for pole, relay in relay_of.items()}
    moving = [digit for digit in bad.space.digits if relay_of.get(digit) in travelling.relays]
    for digit in set(bad.space.digits) - set(moving):
        bad = bad & bad.spaces.where(digit, (placed[digit],))
    lowest = bad.space.values((bad.bits & -bad.bits).bit_length() - 1)
    return placed | {digit: lowest[digit] for digit in moving}


def _moving_together(facts: Facts, states: States, moving: tuple[int, ...], passed: States | None) -> States:
    """Those of the states, within `passed` or all that operation passes, from which each of the relays may go."""
    digits = [facts.circuit.relays[relay].digit for relay in moving]
    counted = facts.seen(states if passed is None else states & passed)
    behaviour = facts.behaviour((*counted.space.digits, *digits))
    course = behaviour.course
    bits = at_every_clock(course.steps.space, behaviour.space, counted.over(behaviour.space)) & course.reached
    for digit in digits:
        bits &= joined(step.allowed for step in course.steps.all if step.digit == digit)
    found = at_some_clock(behaviour.space, bits)
    if passed is None and not moving:
        found &= ~behaviour.proper
    return facts.spaces.over(behaviour.space, found)


def _with_poles_placed(apart: Apart, bad: States, concerned: list[int], moving: tuple[int, ...]) -> States:
    """The bad states over the plan's own digits: poles of `moving` anyhow, all others at their relay's side."""
    circuit = apart.base.circuit
    for relay in concerned:
        digit = circuit.relays[relay].digit
        for pole in apart.poles.poles[relay]:
            if pole not in bad.space.digits:
                continue
            if relay not in moving:
                values = range(len(circuit.digits[digit].values))
                placed = (bad.spaces.where(pole, (side(v),)) & bad.spaces.where(digit, (v,)) for v in values)
                bad = bad & union(placed, bad.spaces.none())
            bad = bad.turned(pole).tight()
    space = apart.base.spaces.of(bad.space.digits)
    return apart.base.spaces.over(space, space.widened(bad.bits, bad.space))


def _near(facts: Facts, usual: States, moving: tuple[int, ...]) -> States:
    """The states from which the moving relays, or a switch between positions, come from or lead to a usual one."""
    for relay in moving:
        usual = usual.turned(facts.circuit.relays[relay].digit)
    near = usual
    for number in usual.space.digits:
        digit = facts.circuit.digits[number]
        if digit.moments:
            passing = facts.spaces.where(number, range(len(digit.values), digit.radix))
            near = near | (near.turned(number) & passing)
    return near.tight()

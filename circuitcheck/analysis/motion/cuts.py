"""How a motor's drive ends in operation, and what the motor does from then on: over all reachable states, none sampled.

From every rest in which a motor is driven in one direction, each thing that can happen is let happen: a limit or cam is
passed, a control is worked, a supply fails, a timer runs out. Then relays move, in every order that their times allow,
until they rest. What the motor does on the way, one thing after the other, is a way to stop if it ends anywhere but in
the same drive. Sets of states that go the same way are followed together.

Times: a relay that begins to want a move at a time makes it within its range from then on, if it goes on wanting to. So
each order has a range of times for each of its moves, and the range of a way is that of all orders that give it.
"""

from collections.abc import Iterator
from typing import Final, NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.motion.contact_times import ContactTimes
from circuitcheck.analysis.resting import Step, stepped
from circuitcheck.analysis.states import States, union
from circuitcheck.circuit.figures import Span
from circuitcheck.circuit.model import Motor

DRIVEN, BRAKED, HALF_BRAKED, COASTING = "driven", "braked", "braked through a diode", "coasting"
REVERSED, WEAK, SHORTED, ENDLESS = "reversed", "weak", "shorted", "endless"
MOST_ORDERS: Final = 20_000


class TooManyOrders(Exception):
    """Relays could move in more orders than can be told apart."""


class Cause(NamedTuple):
    """What ends a drive. kind: "limit", "control", "outside", "supply" or "timer"; digit: what moves, from `start` to
    `end`. limits: the limit and cam switches that an axis' step works, by index."""

    kind: str
    digit: int
    start: int
    end: int
    limits: tuple[int, ...] = ()


class Way(NamedTuple):
    """What the motor does, one thing after the other, and when each begins, in seconds after the cause.

    relays: by number, those that have to move one after the other until the last of it begins.
    """

    does: tuple[str, ...]
    begins: tuple[Span, ...]
    relays: tuple[int, ...]


class Cut(NamedTuple):
    """A way in which a motor's drive ends, in one direction (+1 forward, -1 reverse)."""

    direction: int
    cause: Cause
    way: Way


class _Move(NamedTuple):
    relay: int
    step: Step
    takes: Span


class _Ready(NamedTuple):
    """Since when a move is wanted, and the relays that had to move for it."""

    since: Span
    chain: tuple[int, ...]


class _Point(NamedTuple):
    """Somewhere on the way: what the motor did until now, since when moves are wanted, and the time."""

    does: tuple[str, ...]
    begins: tuple[Span, ...]
    relays: tuple[int, ...]
    ready: tuple[tuple[int, _Ready], ...]
    now: Span
    last: tuple[int, ...]
    moved: int


def cuts_of(facts: Facts, number: int, times: dict[int, ContactTimes]) -> Iterator[Cut]:
    """All ways in which the drive of a motor (by number) ends. TooManyOrders, or TooWide, where they are too many."""
    for direction in (1, -1):
        modes = _modes(facts, number, direction)
        if not modes[DRIVEN]:
            continue
        behaviour = facts.behaviour(digit for states in modes.values() for digit in states.space.digits)
        space = behaviour.space
        bits = {does: states.over(space) for does, states in modes.items()}
        moves = list(_quick_moves(facts, behaviour, times))
        begun = behaviour.reached & behaviour.rest & behaviour.proper & bits[DRIVEN] & ~bits[SHORTED]
        for cause, after in _causes(facts, behaviour, begun):
            for way in _ways(behaviour, bits, moves, after):
                if way.does[-1] != DRIVEN:
                    yield Cut(direction, cause, way)


def _modes(facts: Facts, number: int, direction: int) -> dict[str, States]:
    """What a motor that turns this way does in which states; every state is in exactly one of them."""
    does, motor = facts.motors[number], facts.circuit.motors[number]
    driven, against = (does.forward, does.reverse) if direction > 0 else (does.reverse, does.forward)
    holding = does.braked_one_way & _leads_back(facts, motor, direction)
    modes = {DRIVEN: driven, REVERSED: against, BRAKED: does.braked, HALF_BRAKED: holding, WEAK: does.weak}
    modes[COASTING] = does.coasting | (does.braked_one_way - holding)
    return {name: (states - facts.shorted).tight() for name, states in modes.items()} | {SHORTED: facts.shorted}


def _leads_back(facts: Facts, motor: Motor, direction: int) -> States:
    """The states in which the current of a motor that turns this way finds a way round: out of its + going forward."""
    ends = [(one.plus, one.minus) if direction > 0 else (one.minus, one.plus) for one in motor.windings]
    return union((facts.conduction.leads(start, end) for start, end in ends), facts.spaces.none())


def _quick_moves(facts: Facts, behaviour: Behaviour, times: dict[int, ContactTimes]) -> Iterator[_Move]:
    space = behaviour.space
    for number, relay in enumerate(facts.circuit.relays):
        for move in facts.moves[number] if relay.digit in space.digits else ():
            if not move.timed:
                step = Step(relay.digit, move.start, move.end, move.wanted.over(space))
                yield _Move(number, step, times[number].operate if move.end == 1 else times[number].release)


def _causes(facts: Facts, behaviour: Behaviour, begun: int) -> Iterator[tuple[Cause, int]]:
    """What can happen at these rests, and the states right after it. A hand passes between positions at once."""
    digits, space = facts.circuit.digits, behaviour.space
    timed = {(facts.circuit.relays[one.relay].digit, one.start, one.end) for one in facts.relay_moves if one.timed}
    for step in behaviour.steps:
        kind = digits[step.digit].kind
        after = stepped(space, begun, step)
        if not after or (kind == "relay" and (step.digit, step.start, step.end) not in timed):
            continue
        limits = tuple(
            place
            for place, limit in enumerate(facts.circuit.limits)
            if facts.circuit.axes[limit.axis].digit == step.digit
            and (step.start in limit.zones) != (step.end in limit.zones)
        )
        if step.end < len(digits[step.digit].values):
            kind = {"relay": "timer", "axis": "limit"}.get(kind, kind)
            yield Cause(kind, step.digit, step.start, step.end, limits), after
            continue
        for start, end in sorted(digits[step.digit].moments[step.end - len(digits[step.digit].values)].moves):
            if start == step.start:
                yield Cause(kind, step.digit, start, end), space.moved(after, step.digit, step.end, end)


def _ways(behaviour: Behaviour, modes: dict[str, int], moves: list[_Move], after: int) -> Iterator[Way]:
    """Every way that relays take from some states, each with the range of its times."""
    found: dict[tuple[tuple[str, ...], tuple[int, ...]], tuple[Span, ...]] = {}
    waiting = {_Point((), (), (), (), (0.0, 0.0), (), 0): after}
    met = 0
    while waiting:
        point, states = waiting.popitem()
        for does, bits in modes.items():
            met += 1
            if met > MOST_ORDERS:
                raise TooManyOrders
            here = states & bits
            if not here:
                continue
            arrived = _arrived(point, does)
            for cell, wanted in _by_wish(here, moves):
                if not wanted or does == SHORTED or point.moved > 2 * len(moves):
                    done = arrived if not wanted or does == SHORTED else _arrived(arrived, ENDLESS)
                    key = done.does, done.relays
                    found[key] = _hull(found[key], done.begins) if key in found else done.begins
                    continue
                for onward, move in _onward(arrived, moves, wanted):
                    waiting[onward] = waiting.get(onward, 0) | stepped(behaviour.space, cell, moves[move].step)
    for (does_all, relays), begins in found.items():
        yield Way(does_all, begins, relays)


def _arrived(point: _Point, does: str) -> _Point:
    if point.does and point.does[-1] == does:
        return point
    return point._replace(does=(*point.does, does), begins=(*point.begins, point.now), relays=point.last)


def _by_wish(states: int, moves: list[_Move]) -> Iterator[tuple[int, tuple[int, ...]]]:
    """The states, by which moves are wanted."""
    cells: list[tuple[int, tuple[int, ...]]] = [(states, ())]
    for number, move in enumerate(moves):
        cells = [
            part
            for bits, wanted in cells
            for part in ((bits & ~move.step.allowed, wanted), (bits & move.step.allowed, (*wanted, number)))
            if part[0]
        ]
    yield from cells


def _onward(point: _Point, moves: list[_Move], wanted: tuple[int, ...]) -> Iterator[tuple[_Point, int]]:
    """The point after each of the wanted moves that can be the first, and the move."""
    before = dict(point.ready)
    ready = {move: before.get(move, _Ready(point.now, point.last)) for move in wanted}
    since, latest = tuple(ready.items()), min(ready[move].since[1] + moves[move].takes[1] for move in wanted)
    for move in wanted:
        earliest = max(ready[move].since[0] + moves[move].takes[0], point.now[0])
        if earliest <= latest:
            chain = (*ready[move].chain, moves[move].relay)
            yield point._replace(ready=since, now=(earliest, latest), last=chain, moved=point.moved + 1), move


def _hull(one: tuple[Span, ...], other: tuple[Span, ...]) -> tuple[Span, ...]:
    return tuple((min(a[0], b[0]), max(a[1], b[1])) for a, b in zip(one, other, strict=True))

"""Ways to stop by plain search: each resting state, each change, each order of relays, one after the other."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.motion.contact_times import ContactTimes
from circuitcheck.analysis.motion.cuts import Cause
from circuitcheck.circuit.figures import Span
from tests.judge.one_state import leads, view

Told = dict[tuple[Cause, tuple[str, ...], tuple[int, ...]], tuple[Span, ...]]
"""What ends a drive, what the motor does then and after which relays: when each begins."""


class Going(NamedTuple):
    """One order of relays, up to some move: what the motor did, from when on and after which relays; since when each
    wanted move is wanted and after which relays; when the last move was made, and after which relays; how many were."""

    does: tuple[str, ...] = ()
    begins: tuple[Span, ...] = ()
    relays: tuple[int, ...] = ()
    ready: tuple[tuple[int, tuple[Span, tuple[int, ...]]], ...] = ()
    now: Span = (0.0, 0.0)
    last: tuple[int, ...] = ()
    moved: int = 0


class OneByOne:
    """Ways to stop by plain search: each resting state in which the motor is driven, each change, each order."""

    def __init__(self, facts: Facts, times: dict[int, ContactTimes], direction: int) -> None:
        does = facts.motors[0]
        driven, against = (does.forward, does.reverse) if direction > 0 else (does.reverse, does.forward)
        modes = {"driven": driven, "reversed": against, "braked": does.braked, "weak": does.weak}
        self.facts, self.times, self.modes = facts, times, modes
        self.ends = [
            (one.plus, one.minus) if direction > 0 else (one.minus, one.plus)
            for one in facts.circuit.motors[0].windings
        ]
        self.behaviour = facts.behaviour(
            {digit for states in (*modes.values(), facts.shorted) for digit in states.space.digits}
        )
        digits = self.behaviour.space.digits
        moves = [move for relay in facts.moves for move in relay if facts.circuit.relays[move.relay].digit in digits]
        self.moves = [move for move in moves if not move.timed]

    def found(self) -> Told:
        """What ends a drive, what the motor does then and after which relays: when each begins, over all orders."""
        behaviour: Behaviour = self.behaviour
        found: Told = {}
        begun = behaviour.reached & behaviour.rest & behaviour.proper
        for state in (behaviour.space.values(number) for number in range(behaviour.space.size) if begun >> number & 1):
            for cause, after in self.causes(state) if self.mode(state) == "driven" else ():
                for way in self.follow(after, Going()):
                    key = cause, way.does, way.relays
                    if way.does[-1] != "driven":
                        found[key] = hull(found.get(key, way.begins), way.begins)
        return found

    def mode(self, state: dict[int, int]) -> str:
        if state in self.facts.shorted:
            return "shorted"
        for name, states in self.modes.items():
            if state in states:
                return name
        seen = view(self.facts.circuit, tuple(state.get(one, 0) for one in range(len(self.facts.circuit.digits))))
        return "braked through a diode" if any(leads(seen, *ends) for ends in self.ends) else "coasting"

    def causes(self, state: dict[int, int]) -> Iterator[tuple[Cause, dict[int, int]]]:
        """What can happen, and the state after it; a hand is between two positions for no time."""
        circuit = self.facts.circuit
        number = self.behaviour.space.number(state)
        quick = {(circuit.relays[move.relay].digit, move.end) for move in self.moves}
        for step in self.behaviour.steps:
            digit = circuit.digits[step.digit]
            if not step.allowed >> number & 1 or (step.digit, step.end) in quick:
                continue
            values = len(digit.values)
            between = digit.moments[step.end - values].moves if step.end >= values else {(step.start, step.end)}
            for start, end in between:
                if start == step.start:
                    kind = {"axis": "limit", "relay": "timer"}.get(digit.kind, digit.kind)
                    limits = tuple(
                        place
                        for place, limit in enumerate(circuit.limits)
                        if circuit.axes[limit.axis].digit == step.digit and len(limit.zones & {start, end}) == 1
                    )
                    yield Cause(kind, step.digit, start, end, limits), state | {step.digit: end}

    def follow(self, state: dict[int, int], way: Going) -> Iterator[Going]:
        """How it may go on from a state."""
        mode, before = self.mode(state), dict(way.ready)
        wanted = [number for number, move in enumerate(self.moves) if state in move.wanted]
        if way.does[-1:] != (mode,):
            way = way._replace(does=(*way.does, mode), begins=(*way.begins, way.now), relays=way.last)
        if mode == "shorted" or not wanted:
            yield way
        elif way.moved > 2 * len(self.moves):
            yield way._replace(does=(*way.does, "endless"), begins=(*way.begins, way.now), relays=way.last)
        else:
            ready = {number: before.get(number, (way.now, way.last)) for number in wanted}
            latest = min(since[1] + self.takes(number)[1] for number, (since, _) in ready.items())
            for number, (since, chain) in ready.items():
                earliest = max(since[0] + self.takes(number)[0], way.now[0])
                if earliest <= latest:
                    relay = self.moves[number].relay
                    onward = way._replace(
                        ready=tuple(one for one in ready.items() if one[0] != number),
                        now=(earliest, latest),
                        last=(*chain, relay),
                        moved=way.moved + 1,
                    )
                    digit = self.facts.circuit.relays[relay].digit
                    yield from self.follow(state | {digit: self.moves[number].end}, onward)

    def takes(self, number: int) -> Span:
        """How long the move may take."""
        move = self.moves[number]
        return self.times[move.relay].operate if move.end else self.times[move.relay].release


def hull(one: tuple[Span, ...], other: tuple[Span, ...]) -> tuple[Span, ...]:
    """Ranges that hold both, begin by begin."""
    return tuple((min(a[0], b[0]), max(a[1], b[1])) for a, b in zip(one, other, strict=True))

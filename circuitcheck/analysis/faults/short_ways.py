"""The ways that the current of a supply short takes, wire by wire.

A way leads from a supply's + to its − over conductors (where several supplies make the loop: through each of them, with
their volts adding up to more than nothing), at no terminal twice. It is told with the states of the short in which it
is closed. So nothing that merely hangs on a way counts, nor any wire behind the place of the short.

Cost: the ways, one by one. There are few: a short goes the way of a feed, and back.
"""

from collections.abc import Iterator
from typing import Final, NamedTuple

from circuitcheck.analysis.faults.consequences import Outcome
from circuitcheck.analysis.states import Spaces, States
from circuitcheck.circuit.model import Circuit, Terminal

MOST_WAYS: Final = 256


class ShortWay(NamedTuple):
    """conductors: of the faulty circuit, by index, in the current's order. states: in which all of them are closed."""

    conductors: tuple[int, ...]
    states: States


class ShortCircuit(NamedTuple):
    """A supply short, in the part of the faulty box in which it lies. unfused: some way of it has no fuse. ways: None
    where there are more than MOST_WAYS."""

    circuit: Circuit
    outcome: Outcome
    unfused: bool
    ways: tuple[ShortWay, ...] | None


def short_circuit(circuit: Circuit, outcome: Outcome) -> ShortCircuit:
    """With all its ways. circuit: with the fault, as much of it as has a say."""
    assert outcome.short is not None
    live, supplies = _live(circuit, outcome), outcome.short.supplies
    ways = _ways(circuit, supplies, live)
    if ways is not None:
        fuses = frozenset(number for number, one in enumerate(circuit.conductors) if one.kind == "fuse")
        return ShortCircuit(circuit, outcome, any(not fuses.intersection(way.conductors) for way in ways), ways)
    bare = circuit._replace(conductors=tuple(one for one in circuit.conductors if one.kind != "fuse"))
    return ShortCircuit(circuit, outcome, any(one.is_closed for one in _rounds(bare, supplies, live)), None)


def _ways(circuit: Circuit, supplies: tuple[int, ...], live: States) -> tuple[ShortWay, ...] | None:
    found: list[ShortWay] = []
    for one in _rounds(circuit, supplies, live):
        for way in one.ways():
            found.append(way)
            if len(found) > MOST_WAYS:
                return None
    return tuple(found)


def _rounds(circuit: Circuit, supplies: tuple[int, ...], live: States) -> "Iterator[_Round]":
    """From the first supply's + to its −; of several supplies also the other way round, as one may drive another."""
    first, others = circuit.supplies[supplies[0]], supplies[1:]
    yield _Round(circuit, (first.plus, first.minus), others, live, first.volts)
    if others:
        yield _Round(circuit, (first.minus, first.plus), others, live, -first.volts)


def _live(circuit: Circuit, outcome: Outcome) -> States:
    """The states of the short, over the digits that contacts hang on."""
    spaces = outcome.joint.beside.faulty.spaces
    live = spaces.over(outcome.joint.space, outcome.states)
    moving = {one.closed.digit for one in circuit.conductors if one.closed}
    for digit in set(outcome.joint.space.digits) - moving:
        live = live.turned(digit)
    return live.tight()


class _Step(NamedTuple):
    """Over a conductor, by index, or through a supply: then `number` is −1 less its index, and volts are gained."""

    number: int
    end: Terminal
    closed: States
    volts: float = 0.0


class _Round:
    """From one end of a supply to its other, over a circuit's conductors and through some other supplies."""

    def __init__(
        self, circuit: Circuit, ends: tuple[Terminal, Terminal], supplies: tuple[int, ...], live: States, volts: float
    ) -> None:
        self._start, self._goal = ends
        self._through = frozenset(-1 - number for number in supplies)
        self._live, self._volts = live, volts
        self._onward: dict[Terminal, list[_Step]] = {}
        back: dict[Terminal, list[tuple[Terminal, States]]] = {}
        for tail, step in _steps(circuit, supplies, live.spaces):
            self._onward.setdefault(tail, []).append(step)
            back.setdefault(step.end, []).append((tail, step.closed))
        self._leads = _leading(back, self._goal, live)

    @property
    def is_closed(self) -> bool:
        """Does any way lead round?"""
        return self._start in self._leads

    def ways(self) -> Iterator[ShortWay]:
        """All that lead round with volts to drive them."""
        return self._ways((), self._start, frozenset({self._start}), self._live, self._volts)

    def _ways(
        self, so_far: tuple[int, ...], here: Terminal, passed: frozenset[Terminal], states: States, volts: float
    ) -> Iterator[ShortWay]:
        if here == self._goal:
            if volts > 0 and self._through <= set(so_far):
                yield ShortWay(tuple(number for number in so_far if number >= 0), states.tight())
            return
        for step in self._onward.get(here, ()):
            if step.end not in passed and step.end in self._leads:
                onward = (states & step.closed & self._leads[step.end]).tight()
                if onward:
                    further = (*so_far, step.number)
                    yield from self._ways(further, step.end, passed | {step.end}, onward, volts + step.volts)


def _steps(circuit: Circuit, supplies: tuple[int, ...], spaces: Spaces) -> Iterator[tuple[Terminal, _Step]]:
    for number, one in enumerate(circuit.conductors):
        closed = spaces.where(one.closed.digit, one.closed.values) if one.closed else spaces.all()
        yield one.tail, _Step(number, one.head, closed)
        if not one.one_way:
            yield one.head, _Step(number, one.tail, closed)
    for number in supplies:
        supply = circuit.supplies[number]
        yield supply.minus, _Step(-1 - number, supply.plus, spaces.all(), supply.volts)
        yield supply.plus, _Step(-1 - number, supply.minus, spaces.all(), -supply.volts)


def _leading(
    back: dict[Terminal, list[tuple[Terminal, States]]], goal: Terminal, live: States
) -> dict[Terminal, States]:
    """The terminals from which one comes to the goal, with the states in which one does."""
    found = {goal: live}
    waiting = [goal]
    while waiting:
        here = waiting.pop()
        for there, closed in back.get(here, ()):
            states = found[here] & closed
            known = found.get(there)
            more = (states if known is None else known | states).tight()
            if more and (known is None or not more.same_as(known)):
                found[there] = more
                waiting.append(there)
    return found

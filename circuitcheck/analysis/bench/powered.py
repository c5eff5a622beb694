"""What is seen of a powered box in one setting, once its relays have come to rest.

Controls are set first, then the supplies are switched on, then what springs back may be tapped. Relays move in every
order, timers run out; where that does not lead to one rest, nothing steady is seen.
"""

from typing import NamedTuple

from circuitcheck.analysis.bench.boxes import Box
from circuitcheck.analysis.bench.readings import OVERLOAD, UNSETTLED, Point, Reading
from circuitcheck.analysis.bench.settings import WITH, Setting
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.feeding import Fed
from circuitcheck.analysis.single_state import State
from circuitcheck.analysis.states import States
from circuitcheck.circuit.model import Circuit

Stand = tuple[int, ...]
"""A value for each digit."""

Seen = dict[Point, Reading]
"""What is seen at each point."""


class _Move(NamedTuple):
    digit: int
    end: int
    wanted: States
    timed: bool


class Powered:
    """One box under power; it remembers where relays come to rest."""

    def __init__(self, box: Box, facts: Facts, stage: str, voltmeters: tuple[Point, ...] = ()) -> None:
        """facts: of the box's circuit with the voltmeters. TooWide, TooManyCases or NoOperatingPoint where it has no
        exact answer."""
        self._box = box
        self._facts = facts
        # What a motor does is asked in hundreds of settings.
        motors = zip(box.circuit.motors, facts.motors, strict=True) if stage == WITH else ()
        self._motor_words = {motor.name: does.named() for motor, does in motors}
        self._lamp_words = {box.circuit.loads[number].name: does._asdict() for number, does in facts.lamps.items()}
        self._volts = tuple(facts.volts)
        self._moves = [
            _Move(facts.circuit.relays[move.relay].digit, move.end, move.wanted, move.timed)
            for move in facts.relay_moves
        ]
        self._points = (*points_of(box.circuit, stage), *voltmeters)
        self._rests: dict[Stand, frozenset[Stand]] = {}

    def seen(self, setting: Setting) -> Seen:
        """At each point, UNSETTLED where it depends on the order of things."""
        rests = self.rests(setting)
        if all(self._state(rest) in self._facts.shorted for rest in rests):
            return dict.fromkeys(self._points, OVERLOAD)
        found = [self._seen_at(rest) for rest in rests]
        return {point: found[0][point] if _all_one(point, found) else UNSETTLED for point in self._points}

    def rests(self, setting: Setting) -> frozenset[Stand]:
        """Where everything may end up."""
        stuck = {number for number, _ in self._box.stuck}
        rests = self._settled(self._box.stands(setting))
        for number, value in setting.tapped:
            if number not in stuck:
                for there in (value, setting.values[number]):
                    turned = [(*one[:number], there, *one[number + 1 :]) for one in rests]
                    rests = frozenset(end for one in turned for end in self._settled(one))
        return rests

    def _settled(self, stand: Stand) -> frozenset[Stand]:
        if stand not in self._rests:
            onward: dict[Stand, list[Stand]] = {}
            waiting = [stand]
            while waiting:
                here = waiting.pop()
                if here not in onward:
                    onward[here] = self._next(here)
                    waiting += onward[here]
            ends = frozenset(one for one, following in onward.items() if not following)
            # Without an end they go round for ever: then anything on the way may be met.
            self._rests[stand] = ends or frozenset(onward)
        return self._rests[stand]

    def _next(self, stand: Stand) -> list[Stand]:
        state = self._state(stand)
        if state in self._facts.shorted:
            return []
        wanted = [move for move in self._moves if state in move.wanted]
        chosen = [move for move in wanted if not move.timed] or wanted
        return [(*stand[: move.digit], move.end, *stand[move.digit + 1 :]) for move in chosen]

    def _state(self, stand: Stand) -> State:
        return dict(enumerate(stand))

    def _seen_at(self, stand: Stand) -> Seen:
        state = self._state(stand)
        if state in self._facts.shorted:
            return dict.fromkeys(self._points, OVERLOAD)
        return {point: self._reading(point, state) for point in self._points}

    def _reading(self, point: Point, state: State) -> Reading:
        circuit = self._box.circuit
        if point.kind == "relay":
            number = next(n for n, digit in enumerate(circuit.digits) if digit.name == point.name)
            return circuit.digits[number].values[state[number]]
        supply = next((one for one in circuit.supplies if one.name == point.name), None)
        if supply is not None:
            return state[supply.digit] * (supply.volts if supply.plus == point.red else -supply.volts)
        if point.kind == "volts":
            number = next(n for n, load in enumerate(circuit.loads) if load.name == point.name)
            return _signed(self._volts[number], state)
        if point.kind == "lamp":
            number = next(n for n, load in enumerate(circuit.loads) if load.name == point.name)
            word = _word(self._lamp_words[point.name], state)
            return word if circuit.loads[number].kind == "lamp" else LOUD[word]
        return _word(self._motor_words[point.name], state)


def _signed(volts: tuple[Fed, ...], state: State) -> float:
    for fed in volts:
        if state in fed.forward:
            return fed.volts
        if state in fed.backward:
            return -fed.volts
    return 0.0


class Unworked:
    """A box of which it can't be worked out what it does under power: nothing steady is seen of it."""

    def __init__(self, circuit: Circuit, stage: str, voltmeters: tuple[Point, ...] = ()) -> None:
        self._points = (*points_of(circuit, stage), *voltmeters)

    def seen(self, _setting: Setting) -> Seen:
        """UNSETTLED at each point."""
        return dict.fromkeys(self._points, UNSETTLED)


LOUD = {"lit": "on", "glowing": "weak", "dark": "off"}
"""What gives no light."""


def points_of(circuit: Circuit, stage: str) -> tuple[Point, ...]:
    """What is looked at in a powered stage, in the plan's order. A supply's volts are measured where it is screwed on,
    so red is on what the plan calls its +."""
    motors = {motor.name for motor in circuit.motors}
    found = [Point("lamp", one.name) for one in circuit.loads if one.kind in ("lamp", "buzzer", "solenoid")]
    found += [Point("relay", one.name) for one in circuit.digits if circuit.parts[one.name].kind == "relay"]
    if stage == WITH:
        return (*(Point("motor", motor.name) for motor in circuit.motors), *found)
    windings = [(number, one.name) for number, one in enumerate(circuit.loads) if one.part in motors]
    volts = [Point("volts", name, *_leads(circuit, number)) for number, name in windings]
    supplies = [Point("volts", one.name, *circuit.parts[one.name].terminals) for one in circuit.supplies]
    return (*volts, *found, *supplies)


def _leads(circuit: Circuit, load: int) -> tuple[str, str]:
    winding = next(one for motor in circuit.motors for one in motor.windings if one.load == load)
    return winding.plus, winding.minus


def _all_one(point: Point, found: list[Seen]) -> bool:
    return len({one[point] for one in found}) == 1


def _word(sets: dict[str, States], state: State) -> str:
    return next(name for name, states in sets.items() if state in states).replace("_", " ")
